//! What one, two or three more gears would do, found by complete search.
//!
//! TODO

mod across;
mod bench;
mod job;
mod log;
mod plan;
pub(crate) mod sets;
mod shelf;
mod stock;
#[cfg(test)]
mod tests;
mod wish;

pub use job::{Progress, Question, Search};
pub(crate) use sets::Marks;
pub use wish::{Group, Wish};

use alloc::vec::Vec;

/// The most sets of gears that are tried: three from 152 sizes, two from any.
pub const SETS_MOST: u32 = 600_000;

/// Gears to add, and what they bring.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Added {
    /// Their teeth, smallest first.
    pub gears: Vec<u16>,
    /// The wishes that they serve together and that weren't served before: their places, the
    /// wishes of all groups counted through.
    pub gained: Vec<usize>,
    /// The wishes that each of them serves alone.
    pub alone: Vec<Vec<usize>>,
}

/// What more gears would do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct More {
    /// The best sets, in the order of their sizes; where they are many, not all of them.
    pub best: Vec<Added>,
    /// How many things each of them serves that weren't served before.
    pub gained: u32,
    /// How many things are wanted.
    pub of: u32,
    /// How many of them are served by what is owned.
    pub before: u32,
    /// Which of the wishes those are.
    pub served: Vec<bool>,
    /// How many sets were tried.
    pub tried: u64,
    /// How many of them are as good as the best.
    pub ties: u64,
    /// Whether the search is finished.
    pub complete: bool,
}
