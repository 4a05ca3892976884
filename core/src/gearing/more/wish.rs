//! What is wanted of the gears, and the drawers that are to give it.

use super::super::miss::Miss;
use super::super::weight::Weight;
use super::super::{Drawer, GearingError, Mounting};
use super::log::{Logs, around};
use crate::exact::{Ratio, RatioError};
use alloc::collections::BTreeSet;
use alloc::vec::Vec;

/// One thing wanted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wish {
    /// The ratios of drivers over driven of which any will do: a lead has one for each position
    /// of the gearbox.
    pub ratios: Vec<Ratio>,
    /// How far off one may be, as a part of it, and still be content; none where only exactly will do.
    pub within: Option<Ratio>,
    /// How many things are served with it.
    pub weight: u32,
}

/// A drawer of gears, what decides mounting there, and what is wanted of it.
#[derive(Clone, Debug)]
pub struct Group {
    /// What is owned; the gears added come to it.
    pub drawer: Drawer,
    /// How many pairs a train may have.
    pub pairs_max: u8,
    /// What decides whether it goes on.
    pub mounting: Mounting,
    /// What is wanted.
    pub wishes: Vec<Wish>,
}

/// A ratio to be made, and where among the sums of logarithms it lies.
#[derive(Clone, Copy, Debug)]
pub(super) struct Aim {
    weight: Weight,
    /// Above and below the bar, where both are small enough to be multiplied quickly.
    narrow: Option<(u64, u64)>,
    within: Option<Miss>,
    pub(super) low: i64,
    pub(super) high: i64,
    /// The logarithm of what it has in primes that no gear of the drawer has: new gears alone must
    /// bring that. None where near is good enough.
    pub(super) strange: Option<i64>,
}

impl Aim {
    /// None where no gears at all make it.
    fn new(
        ratio: Ratio,
        within: Option<Ratio>,
        logs: &Logs,
        strange: &[u16],
    ) -> Result<Option<Aim>, GearingError> {
        const MOST: i128 = 1 << 96;
        if !ratio.is_positive() {
            return Err(GearingError::NotPositive("a ratio wanted", ratio));
        }
        if let Some(within) = within.filter(|within| within.is_negative()) {
            return Err(GearingError::NotPositive("what may be off", within));
        }
        if ratio.numer() >= MOST || ratio.denom() >= MOST {
            return Err(GearingError::Exact(RatioError::Overflow));
        }
        let part = |n: i128| n.unsigned_abs();
        let weight = Weight { num: part(ratio.denom()), den: part(ratio.numer()) };
        let (low, high) = match within {
            Some(within) => around(ratio, within),
            None => match logs.exact(ratio) {
                Some(log) => (log, log),
                None => return Ok(None),
            },
        };
        let strange = within.is_none().then(|| logs.part(ratio, strange));
        let within = within.map(|by| Miss { diff: part(by.numer()), den: part(by.denom()) });
        let small = |n: u128| u64::try_from(n).ok().filter(|&n| n < 1 << 34);
        let narrow = small(weight.num).zip(small(weight.den));
        Ok(Some(Aim { weight, narrow, within, low, high, strange }))
    }

    /// Whether these products will do.
    pub(super) fn met(&self, drivers: u32, driven: u32) -> bool {
        match (self.within, self.narrow) {
            (Some(within), _) => self.weight.miss(drivers, driven).0 <= within,
            (None, Some((num, den))) => {
                u64::from(drivers).wrapping_mul(num) == u64::from(driven).wrapping_mul(den)
            }
            (None, None) => self.weight.miss(drivers, driven).0.diff == 0,
        }
    }
}

/// Everything that a wish aims at, each ratio once; `strange` are the primes that no gear of the
/// drawer has.
pub(super) fn aims(wish: &Wish, logs: &Logs, strange: &[u16]) -> Result<Vec<Aim>, GearingError> {
    let mut aims: Vec<Aim> = Vec::new();
    let mut known = BTreeSet::new();
    for ratio in &wish.ratios {
        if known.insert((ratio.numer(), ratio.denom())) {
            aims.extend(Aim::new(*ratio, wish.within, logs, strange)?);
        }
    }
    Ok(aims)
}
