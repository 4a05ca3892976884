//! A train as it goes on the lathe, and what a search found.

use crate::exact::Ratio;
use alloc::vec::Vec;

/// A gear and the one that it drives.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Pair {
    /// Teeth of the driver, the one on the spindle's side.
    pub driver: u16,
    /// Teeth of the driven gear.
    pub driven: u16,
}

/// A train of one, two or three pairs through one position of the gearbox.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Train {
    pub(super) pairs: [Pair; 3],
    pub(super) count: u8,
    /// Which of the gearbox's ratios, counted from 0 as they were given.
    pub gearbox: usize,
    /// Turns of the leadscrew for one of the spindle, everything included.
    pub total: Ratio,
    /// cut / wanted − 1.
    pub error: Ratio,
    /// Whether it goes on, in the order given.
    pub mountable: bool,
    /// At the tightest place, how far the two gears' sum is above what the rule asks for, in
    /// teeth: never more than zero where that is why it won't go on. On a
    /// banjo, times half the module it is in mm. A single pair has it only on a banjo.
    pub clearance: Option<Ratio>,
    /// The idler, in teeth, with which a single pair reaches across a banjo.
    pub idler: Option<u16>,
}

impl Train {
    /// The pairs in the order in which they go on, the spindle's first; in a mountable order
    /// where there is one.
    #[must_use]
    pub fn pairs(&self) -> &[Pair] {
        self.pairs.get(..usize::from(self.count)).unwrap_or(&self.pairs)
    }

    /// Whether it cuts exactly what was wanted.
    #[must_use]
    pub const fn exact(&self) -> bool {
        self.error.is_zero()
    }

    /// The error in parts per million.
    #[must_use]
    pub fn error_ppm(&self) -> f64 {
        self.error.to_f64() * 1e6
    }

    /// How many idlers the distance asks for: one where a single pair spans a banjo.
    #[must_use]
    pub fn reach(&self) -> u32 {
        u32::from(self.idler.is_some())
    }
}

/// How near one can come, and in how many ways.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reached {
    /// How many selections come as near, each gearbox position counted, on either side.
    pub count: u64,
    /// The error of the best ranked train that comes as near: where there are some
    /// above and some below by the same, that train's side tells the sign.
    pub least_error: Ratio,
}

/// What a search found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Found {
    /// The best trains, a selection and gearbox position once each: what can be mounted first, then
    /// the least error, the fewest pairs, the greatest clearance, the earliest gearbox
    /// position. The nearest of all is the last of them where it can't be mounted and so many others can
    /// (unless only one is kept).
    pub best: Vec<Train>,
    /// Over all selections.
    pub all: Reached,
    /// Over those that can be mounted, if any can.
    pub mountable: Option<Reached>,
    /// Whether nothing was left out. Only a drawer and a gearbox near the limits, with a
    /// mounting rule that almost nothing meets, can make it otherwise, and then only
    /// [`Found::mountable`] and the mountable trains may lack something.
    pub complete: bool,
}
