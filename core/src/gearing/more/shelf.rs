//! Choices of gears laid out by their ratio, so that all of one ratio are at hand at once.

use super::stock::{Choice, Shape, Stock};
use alloc::vec;
use alloc::vec::Vec;

/// Bits of a choice within an entry; what is above them tells the ratio.
const CHOICE: u32 = 36;
/// Bits that tell the ratio: so fine that strangers seldom share them.
const KEY: u32 = 28;

/// Every choice of one shape, in compartments from the least ratio to the greatest.
#[derive(Clone, Debug)]
pub(super) struct Shelf {
    pub(super) shape: Shape,
    low: i64,
    high: i64,
    shift: u32,
    /// Bits of the key that don't choose the compartment.
    fine: u32,
    count: u64,
    starts: Vec<u32>,
    entries: Vec<u64>,
    laying: Laying,
}

/// What is being done while choices are laid out. Three times through and no sorting: within a
/// compartment the order doesn't matter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Laying {
    /// How many there are, and from which ratio to which.
    Counting,
    /// How many go in each compartment: the number stands where the next one begins.
    Allotting,
    /// Each in its place: where a compartment begins moves on to where it ends.
    Putting,
    Laid,
}

impl Shelf {
    /// A shelf with nothing on it.
    pub(super) const fn new(shape: Shape) -> Shelf {
        Shelf {
            shape,
            low: i64::MAX,
            high: i64::MIN,
            shift: 0,
            fine: 0,
            count: 0,
            starts: Vec::new(),
            entries: Vec::new(),
            laying: Laying::Counting,
        }
    }

    pub(super) fn laid(&self) -> bool {
        self.laying == Laying::Laid
    }

    /// Goes once through the choices whose first gear is in that place; true where there is no
    /// such place and the next time through begins.
    pub(super) fn lay(&mut self, stock: &Stock, first: usize) -> bool {
        let laying = self.laying;
        let more = stock.each_from(self.shape, first, &mut |log, choice| match laying {
            Laying::Counting => {
                self.low = self.low.min(log);
                self.high = self.high.max(log);
                self.count = self.count.wrapping_add(1);
            }
            Laying::Allotting => {
                let at = self.compartment(self.key(log)).wrapping_add(2);
                if let Some(n) = self.starts.get_mut(at) {
                    *n = n.wrapping_add(1);
                }
            }
            Laying::Putting | Laying::Laid => {
                let key = self.key(log);
                let at = self.compartment(key).wrapping_add(1);
                if let Some(place) = self.starts.get_mut(at) {
                    if let Some(entry) = self.entries.get_mut(*place as usize) {
                        *entry = (key << CHOICE) | choice;
                    }
                    *place = place.wrapping_add(1);
                }
            }
        });
        if !more {
            self.next();
        }
        !more
    }

    fn next(&mut self) {
        self.laying = match self.laying {
            Laying::Counting => {
                let range = self.high.saturating_sub(self.low).max(1).unsigned_abs();
                let bits = 64_u32.saturating_sub(range.leading_zeros());
                self.shift = bits.saturating_sub(KEY);
                let coarse = 64_u32.saturating_sub(self.count.leading_zeros()).clamp(1, KEY);
                self.fine = KEY.saturating_sub(coarse);
                self.starts = vec![0; (1_usize << coarse).wrapping_add(2)];
                self.entries = vec![0; self.count as usize];
                Laying::Allotting
            }
            Laying::Allotting => {
                let mut sum = 0_u32;
                for start in &mut self.starts {
                    sum = sum.wrapping_add(*start);
                    *start = sum;
                }
                Laying::Putting
            }
            Laying::Putting | Laying::Laid => Laying::Laid,
        }
    }

    const fn key(&self, log: i64) -> u64 {
        (log.wrapping_sub(self.low) as u64) >> self.shift
    }

    const fn compartment(&self, key: u64) -> usize {
        (key >> self.fine) as usize
    }

    /// Every choice whose logarithm is within these, and maybe some that are just outside.
    pub(super) fn between(&self, low: i64, high: i64) -> impl Iterator<Item = Choice> + '_ {
        let (mut from, mut to) = (0, 0);
        let (mut least, mut most) = (0, 0);
        if high >= self.low && low <= self.high {
            least = self.key(low.max(self.low));
            most = self.key(high.min(self.high));
            let start = |key: u64, more: usize| {
                let at = self.compartment(key).wrapping_add(more);
                self.starts.get(at).copied().unwrap_or(0) as usize
            };
            (from, to) = (start(least, 0), start(most, 1));
        }
        let entries = self.entries.get(from..to).unwrap_or(&[]).iter();
        entries.filter_map(move |entry| {
            let key = entry >> CHOICE;
            (least <= key && key <= most).then_some(entry & ((1 << CHOICE) - 1))
        })
    }

    /// How many bytes it holds.
    pub(super) fn bytes(&self) -> usize {
        self.entries.len().wrapping_mul(8).wrapping_add(self.starts.len().wrapping_mul(4))
    }
}

#[cfg(test)]
mod tests {
    use super::super::log::Logs;
    use super::*;
    use proptest::prelude::*;

    pub(in super::super) fn stock(gears: &[(u16, u8)]) -> Stock {
        let logs = Logs::new();
        Stock {
            teeth: gears.iter().map(|g| g.0).collect(),
            logs: gears.iter().map(|g| logs.of(g.0)).collect(),
            owned: gears.iter().map(|g| g.1).collect(),
            bits: 7,
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(40))]
        #[test]
        fn all_of_one_ratio_are_found(
            gears in proptest::collection::btree_map(1u16..130, 1u8..3, 1..9),
            above in 0u8..3, below in 0u8..4, at in 0usize..50,
        ) {
            let gears: Vec<(u16, u8)> = gears.into_iter().collect();
            let stock = stock(&gears);
            let mut all = Vec::new();
            stock.each((above, below), &mut |log, choice| all.push((log, choice)));
            // Each once.
            let mut choices: Vec<Choice> = all.iter().map(|entry| entry.1).collect();
            choices.sort_unstable();
            choices.dedup();
            prop_assert_eq!(choices.len(), all.len());
            prop_assert!(all.len() as u64 <= stock.most((above, below)));
            let mut shelf = Shelf::new((above, below));
            let mut first = 0;
            while !shelf.laid() {
                first = if shelf.lay(&stock, first) { 0 } else { first + 1 };
            }
            prop_assert!(above + below > 0 || all.len() == 1);
            if let Some(&(log, _)) = all.get(at % all.len().max(1)) {
                let found: Vec<Choice> = shelf.between(log, log).collect();
                for (other, choice) in &all {
                    prop_assert!(*other != log || found.contains(choice));
                    // And nothing far off: a millionth of a doubling.
                    prop_assert!(!found.contains(choice) || (other - log).abs() < 1 << 20);
                }
                let wide: Vec<Choice> = shelf.between(log - (1 << 38), log + (1 << 36)).collect();
                for (other, choice) in &all {
                    let inside = log - (1 << 38) <= *other && *other <= log + (1 << 36);
                    prop_assert!(!inside || wide.contains(choice));
                }
            }
            prop_assert_eq!(shelf.between(i64::MIN / 4, i64::MAX / 4).count(), all.len());
            prop_assert_eq!(shelf.between(1 << 60, 1 << 61).count(), 0);
        }
    }
}
