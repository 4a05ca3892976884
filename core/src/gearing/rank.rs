//! The best so far, in order, and how many come as near as the nearest.

use super::Pair;
use super::miss::Miss;
use alloc::vec::Vec;
use core::cmp::{Ordering, Reverse};

/// A selection through one gearbox position, measured.
#[derive(Clone, Copy, Debug)]
pub(super) struct Entry {
    pub(super) miss: Miss,
    pub(super) over: bool,
    pub(super) fits: bool,
    pub(super) count: u8,
    pub(super) slack: i32,
    pub(super) gearbox: u8,
    pub(super) pairs: [Pair; 3],
}

impl Entry {
    /// Nearest first; among the equally near, what goes on, the fewest pairs, the most room.
    /// The rest only makes the order the same each time.
    fn rank(&self, other: &Entry) -> Ordering {
        let rest = |e: &Entry| (!e.fits, e.count, Reverse(e.slack), e.gearbox, e.pairs);
        self.miss.cmp(&other.miss).then_with(|| rest(self).cmp(&rest(other)))
    }
}

/// The best so far, no more than so many.
#[derive(Debug)]
pub(super) struct Best {
    keep: usize,
    pub(super) entries: Vec<Entry>,
}

impl Best {
    pub(super) fn new(keep: usize) -> Best {
        Best { keep, entries: Vec::new() }
    }

    /// What a further one may miss by and still count: nothing is excluded until it is full.
    pub(super) fn limit(&self) -> Option<Miss> {
        let last = self.entries.last()?;
        (self.entries.len() >= self.keep).then_some(last.miss)
    }

    /// Whether one that misses by so much in so many pairs might come in.
    pub(super) fn may_take(&self, miss: Miss, count: u8) -> bool {
        if self.keep == 0 {
            return false;
        }
        match self.entries.last() {
            Some(last) if self.entries.len() >= self.keep => match miss.cmp(&last.miss) {
                Ordering::Less => true,
                Ordering::Equal => !last.fits || count <= last.count,
                Ordering::Greater => false,
            },
            _ => true,
        }
    }

    /// Puts it in its place, unless it is there already or comes after the last. True where
    /// there is now a limit that may be a new one.
    pub(super) fn put(&mut self, entry: Entry) -> bool {
        let Err(at) = self.entries.binary_search_by(|held| held.rank(&entry)) else { return false };
        if at >= self.keep {
            return false;
        }
        if self.entries.len() >= self.keep {
            self.entries.pop();
        }
        self.entries.insert(at, entry);
        self.entries.len() >= self.keep
    }
}

/// How many reach the least miss.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Tally {
    least: Option<Miss>,
    pub(super) count: u64,
}

impl Tally {
    /// Whether one that misses by so much would count.
    pub(super) fn counts(&self, miss: Miss) -> bool {
        self.least.is_none_or(|least| miss <= least)
    }

    pub(super) fn add(&mut self, miss: Miss) {
        match self.least.map(|least| miss.cmp(&least)) {
            Some(Ordering::Greater) => {}
            Some(Ordering::Equal) => self.count = self.count.saturating_add(1),
            Some(Ordering::Less) | None => {
                *self = Tally { least: Some(miss), count: 1 };
            }
        }
    }
}
