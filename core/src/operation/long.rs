//! Work that takes long: done a little at a time, so that it can be watched and stopped.

use super::Answer;
use crate::record::Record;
use crate::shop::Shop;
use alloc::boxed::Box;

pub use crate::gearing::more::Progress;

/// An answer under way.
pub trait Long {
    /// Goes on for a moment: mostly well below a millisecond, and no more than a few.
    fn go_on(&mut self) -> Progress;
    /// What it comes to so far; the answer once the progress is finished.
    fn so_far(&self) -> Answer;
}

/// What begins it: the work, or an answer where there is none to be done.
pub(super) type Begin = fn(&Record, &Shop) -> Result<Box<dyn Long>, Answer>;

/// The answer, however long it takes.
pub(super) fn whole(begun: Result<Box<dyn Long>, Answer>) -> Answer {
    match begun {
        Ok(mut work) => {
            while !work.go_on().finished() {}
            work.so_far()
        }
        Err(answer) => answer,
    }
}
