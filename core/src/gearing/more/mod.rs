//! What one, two or three more gears would do, found by complete search.
//!
//! # How the search works, and why it misses nothing
//!
//! To search each enlarged drawer by itself would be a search for a train 108 times over for one more
//! gear of 20 to 127 teeth, 5,886 times for two, 215,820 times for three, and all that for each
//! lead. Instead it is asked the other way round: *which new gears would complete a train?*
//!
//! 1. **A train is some new gears and some old ones.** Take any train that a drawer with a set S
//!    of new gears allows. What it uses of S beyond what the drawer had anyway is its new part, of
//!    none, one, two or three gears; the rest is a choice from the old drawer. So it is enough to
//!    find, for each wish, every new part of k gears for which old gears exist that make a ratio
//!    wanted and go on; then S serves the wish exactly if it has such a part in it, and sets are
//!    judged by looking at their parts (`sets`).
//! 2. **Logarithms in whole numbers.** To ask for an exact ratio is to ask for sums: log of the new
//!    part + log of the old part = log of the ratio. The logarithms (`log`) are whole numbers made
//!    so that log(a·b) = log a + log b to the last bit, each prime's rounded and the others added
//!    up from them. Equal ratios therefore have equal sums, always; that unequal ones rarely do is a
//!    matter of speed alone, for each candidate is multiplied out and compared exactly.
//! 3. **One side is laid out, the other gone through.** All choices of one shape (so many drivers,
//!    so many driven) stand on a shelf by their logarithm (`shelf`); for each choice of the other shape
//!    (`plan`) what is missing is looked up. The shapes together cover each way of dividing a train
//!    into new and old drivers and driven gears; those with more new driven gears than drivers
//!    are the same thing upside down. Shelves stay below 16 MB: where the drawer is so large that one
//!    would not, part of the old gears is gone through as well.
//! 4. **Near instead of exact** is the same with a stretch of the shelf in place of a spot: a
//!    little longer than asked for at both ends, by more than all rounding, and again each candidate is
//!    compared exactly.
//! 5. **What can be left out.** New parts that have a served part in them are known to serve, and
//!    a part that has served once needn't again. A prime that no gear in the drawer has must be brought
//!    by the new part alone, so where the ratio and a new part don't agree in those primes no
//!    old gears can help: 127 is the classic. Sums of teeth that no order could mount are passed
//!    over. On a banjo a single pair needs an idler, which may be new too: those few trains are all
//!    written out (`across`).
//! 6. **Then every set is counted**, and all that share the greatest count are the answer: there
//!    is no bound, no sample and no first guess, so it is the best there is, with all its ties.
//!
//! The work is a [`Search`] that goes on for as many looks as it is given at a time and says how far it
//! has come. The tests hold it against the search for the best train in each enlarged drawer, and
//! against the plain version that tries every selection of every enlarged drawer.

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
