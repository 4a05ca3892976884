//! Work that takes long: done a little at a time, so that it can be watched and stopped.

use super::{Answer, Kind, chart, more_gears};
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

static LONG: &[(&Kind, Begin)] =
    &[(&chart::KIND, chart::begin), (&more_gears::KIND, more_gears::begin)];

/// What begins the work of a kind that takes long; none of one that is answered at once.
pub(super) fn begin(kind: &Kind) -> Option<Begin> {
    LONG.iter().find(|(long, _)| *long == kind).map(|(_, begin)| *begin)
}

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
