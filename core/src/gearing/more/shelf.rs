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
    starts: Vec<u32>,
    entries: Vec<u64>,
}

impl Shelf {
    /// Lays out all choices of a shape. Three passes and no sorting: within a compartment the
    /// order doesn't matter.
    pub(super) fn new(stock: &Stock, shape: Shape) -> Shelf {
        let (mut low, mut high, mut count) = (i64::MAX, i64::MIN, 0_u64);
        stock.each(shape, &mut |log, _| {
            low = low.min(log);
            high = high.max(log);
            count = count.wrapping_add(1);
        });
        let range = high.saturating_sub(low).max(1).unsigned_abs();
        let shift = 64_u32.saturating_sub(range.leading_zeros()).saturating_sub(KEY);
        let coarse = 64_u32.saturating_sub(count.leading_zeros()).clamp(1, KEY);
        let mut shelf = Shelf {
            shape,
            low,
            high,
            shift,
            fine: KEY.saturating_sub(coarse),
            starts: vec![0; (1_usize << coarse).wrapping_add(1)],
            entries: vec![0; count as usize],
        };
        // How many in each, one place on; then where each begins; then each in its place.
        stock.each(shape, &mut |log, _| {
            let at = shelf.compartment(shelf.key(log)).wrapping_add(1);
            if let Some(n) = shelf.starts.get_mut(at) {
                *n = n.wrapping_add(1);
            }
        });
        let mut sum = 0_u32;
        for start in &mut shelf.starts {
            sum = sum.wrapping_add(*start);
            *start = sum;
        }
        let mut next = shelf.starts.clone();
        stock.each(shape, &mut |log, choice| {
            let key = shelf.key(log);
            let at = shelf.compartment(key);
            if let Some(place) = next.get_mut(at) {
                if let Some(entry) = shelf.entries.get_mut(*place as usize) {
                    *entry = (key << CHOICE) | choice;
                }
                *place = place.wrapping_add(1);
            }
        });
        shelf
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
            let shelf = Shelf::new(&stock, (above, below));
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
