//! By how much a train misses, exactly.

use crate::exact::{Ratio, RatioError};
use core::cmp::Ordering;

/// The size of a relative error, as a fraction that needn't be in lowest terms.
#[derive(Clone, Copy, Debug)]
pub(super) struct Miss {
    /// Above the bar.
    pub(super) diff: u128,
    /// Below the bar, at least one.
    pub(super) den: u128,
}

impl Miss {
    /// How far `cut / wanted` is from one, and whether it is above.
    pub(super) const fn new(cut: u128, wanted: u128) -> (Miss, bool) {
        (Miss { diff: cut.abs_diff(wanted), den: wanted }, cut > wanted)
    }

    /// With its sign, in lowest terms.
    pub(super) fn signed(self, over: bool) -> Result<Ratio, RatioError> {
        let (Ok(num), Ok(den)) = (i128::try_from(self.diff), i128::try_from(self.den)) else {
            return Err(RatioError::Overflow);
        };
        Ratio::new(if over { num } else { num.saturating_neg() }, den)
    }
}

impl Ord for Miss {
    fn cmp(&self, other: &Miss) -> Ordering {
        const SMALL: u128 = u64::MAX as u128;
        if self.diff == 0 || other.diff == 0 || self.den == other.den {
            return self.diff.cmp(&other.diff);
        }
        let (a, b, c, d) = (self.diff, other.den, other.diff, self.den);
        if a <= SMALL && b <= SMALL && c <= SMALL && d <= SMALL {
            return a.wrapping_mul(b).cmp(&c.wrapping_mul(d));
        }
        wide(a, b).cmp(&wide(c, d))
    }
}

impl PartialOrd for Miss {
    fn partial_cmp(&self, other: &Miss) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Miss {
    fn eq(&self, other: &Miss) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Miss {}

/// The whole product: its upper half, then its lower.
const fn wide(a: u128, b: u128) -> (u128, u128) {
    const LOW: u128 = u64::MAX as u128;
    // Schoolbook, with halves for digits: no sum below can pass 2¹²⁸.
    let (ah, al, bh, bl) = (a >> 64, a & LOW, b >> 64, b & LOW);
    let low = al.wrapping_mul(bl);
    let mid = ah.wrapping_mul(bl).wrapping_add(low >> 64);
    let cross = al.wrapping_mul(bh).wrapping_add(mid & LOW);
    let high = ah.wrapping_mul(bh).wrapping_add(mid >> 64).wrapping_add(cross >> 64);
    (high, (cross << 64) | (low & LOW))
}

#[cfg(test)]
#[allow(clippy::arithmetic_side_effects)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_order_is_that_of_the_fractions(
            a in 0u128..1 << 100, b in 1u128..1 << 100, c in 0u128..1 << 100, d in 1u128..1 << 100,
            k in 1u128..1000,
        ) {
            let (x, y) = (Miss { diff: a, den: b }, Miss { diff: c, den: d });
            let ratio = |m: Miss| m.signed(true).unwrap();
            prop_assert_eq!(x.cmp(&y), ratio(x).cmp(&ratio(y)));
            prop_assert_eq!(x, Miss { diff: a * k, den: b * k });
        }

        #[test]
        fn the_wide_product_agrees_where_it_can_be_seen(a in any::<u64>(), b in any::<u64>()) {
            let (a, b) = (u128::from(a), u128::from(b));
            prop_assert_eq!(wide(a, b), (0, a * b));
            prop_assert_eq!(wide(a << 64, b), ((a * b) >> 64, (a * b) << 64));
            prop_assert_eq!(wide(a << 32, b << 32), ((a * b) >> 64, (a * b) << 64));
            prop_assert_eq!(wide(a << 64, b << 64), (a * b, 0));
            // (2⁶⁴ − 1 more of each) carries through every digit.
            prop_assert_eq!(wide((a << 64) | u128::from(u64::MAX), u128::MAX).1, ((a << 64) | u128::from(u64::MAX)).wrapping_mul(u128::MAX));
        }
    }

    #[test]
    fn the_largest_square() {
        assert_eq!(wide(u128::MAX, u128::MAX), (u128::MAX - 1, 1));
    }
}
