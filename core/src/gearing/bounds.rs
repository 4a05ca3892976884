//! A window that is never too narrow: which products can lie near enough to another's multiple.

use super::miss::Miss;

/// A positive number `mantissa / 2^shift`, the mantissa at most 2³², the shift at most 63.
#[derive(Clone, Copy, Debug)]
struct Near {
    mantissa: u64,
    shift: u32,
}

/// Which way a number is rounded that doesn't fit.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Way {
    Down,
    Up,
}

const ONE: u64 = 1 << 32;

impl Near {
    /// Beyond 2³², which no product of teeth is.
    const BEYOND: Near = Near { mantissa: ONE, shift: 0 };

    /// `mantissa / 2^shift` cut to size. Beyond 2³² it is as good as endless.
    const fn cut(mantissa: u64, shift: i32, way: Way) -> Near {
        if mantissa == 0 {
            return Near { mantissa: 0, shift: 0 };
        }
        // Leave 32 bits, and no more shift than a word has.
        let spare = (32_u32.saturating_sub(mantissa.leading_zeros())) as i32;
        let drop = if shift.saturating_sub(spare) > 63 { shift.saturating_sub(63) } else { spare };
        let shift = shift.saturating_sub(drop);
        if shift < 0 {
            return Near::BEYOND;
        }
        let kept = if drop > 63 { 0 } else { mantissa >> drop };
        let round = matches!(way, Way::Up) && (drop > 0);
        Near { mantissa: kept.saturating_add(round as u64), shift: shift as u32 }
    }

    /// `num / den` from below or from above; neither is more than 2¹²⁷.
    const fn of(num: u128, den: u128, way: Way) -> Near {
        let lift = num.leading_zeros();
        if num == 0 {
            return Near { mantissa: 0, shift: 0 };
        }
        let high = num << lift;
        // Keep 64 bits of what stands below the bar, rounded against the quotient's way.
        let drop = 64_u32.saturating_sub(den.leading_zeros());
        let low = den >> drop;
        let low = match way {
            Way::Down if drop > 0 => low.saturating_add(1),
            _ => low,
        };
        let Some(quotient) = high.checked_div(low) else { return Near::BEYOND };
        // At least 63 bits: bring them to 63.
        let spare = 65_u32.saturating_sub(quotient.leading_zeros());
        let kept = (quotient >> spare) as u64;
        let kept = match way {
            Way::Up => kept.saturating_add(1),
            Way::Down => kept,
        };
        let shift = (lift as i32).saturating_add(drop as i32).saturating_sub(spare as i32);
        Near::cut(kept, shift, way)
    }

    /// The product of the two, rounded the same way.
    const fn times(self, other: Near, way: Way) -> Near {
        // Two 32-bit numbers, or 2³² itself: at most 2⁶⁴, which only BEYOND reaches.
        match self.mantissa.checked_mul(other.mantissa) {
            Some(mantissa) => {
                Near::cut(mantissa, self.shift.saturating_add(other.shift) as i32, way)
            }
            None => Near::BEYOND,
        }
    }

    /// So many times it, rounded down.
    #[inline]
    const fn of_product(self, product: u32) -> u64 {
        self.mantissa.wrapping_mul(product as u64) >> self.shift
    }
}

/// Which products `v` go with a product `u`: `v / u` is the number sought, give or take.
#[derive(Clone, Copy, Debug)]
pub(super) struct Window {
    low: Near,
    high: Near,
}

impl Window {
    /// For `v / u` within `by` of `num / den`, where what is wanted is `v / u`. No limit, no
    /// upper end, and no lower.
    pub(super) fn straight(num: u128, den: u128, by: Option<Miss>) -> Window {
        let Some(by) = by else { return Window::all() };
        let over = by.den.saturating_add(by.diff);
        let low = Near::of(num, den, Way::Down)
            .times(Near::of(by.den.saturating_sub(by.diff), by.den, Way::Down), Way::Down);
        let high = Near::of(num, den, Way::Up).times(Near::of(over, by.den, Way::Up), Way::Up);
        Window { low, high }
    }

    /// The same where what is wanted is `u / v`, so that `v / u` is its inverse.
    pub(super) fn upturned(num: u128, den: u128, by: Option<Miss>) -> Window {
        let Some(by) = by else { return Window::all() };
        let over = by.den.saturating_add(by.diff);
        let low = Near::of(den, num, Way::Down).times(Near::of(by.den, over, Way::Down), Way::Down);
        let high = match by.den.checked_sub(by.diff) {
            None | Some(0) => Near::BEYOND,
            Some(under) => {
                Near::of(den, num, Way::Up).times(Near::of(by.den, under, Way::Up), Way::Up)
            }
        };
        Window { low, high }
    }

    const fn all() -> Window {
        Window { low: Near { mantissa: 0, shift: 0 }, high: Near::BEYOND }
    }

    /// The least `v` for this `u`, or less.
    #[inline]
    pub(super) const fn low(&self, u: u32) -> u64 {
        self.low.of_product(u)
    }

    /// The greatest `v` for this `u`, or more.
    #[inline]
    pub(super) const fn high(&self, u: u32) -> u64 {
        self.high.of_product(u).saturating_add(1)
    }
}

#[cfg(test)]
#[allow(clippy::arithmetic_side_effects)]
mod tests {
    use super::*;
    use crate::exact::Ratio;
    use proptest::prelude::*;

    fn value(near: Near) -> Ratio {
        Ratio::new(i128::from(near.mantissa), 1_i128 << near.shift).unwrap()
    }

    proptest! {
        #[test]
        fn a_number_lies_between_its_two_neighbours(
            num in 1u128..1 << 60, den in 1u128..1 << 60, up in 0u32..60, down in 0u32..60,
        ) {
            let (num, den) = (num << up, den << down);
            let real = Ratio::new(num as i128, den as i128).unwrap();
            let (low, high) = (Near::of(num, den, Way::Down), Near::of(num, den, Way::Up));
            prop_assert!(low.mantissa <= ONE && high.mantissa <= ONE && low.shift < 64 && high.shift < 64);
            if real < Ratio::whole(1 << 31) {
                prop_assert!(value(low) <= real && real <= value(high), "{low:?} {real} {high:?}");
                if real > Ratio::of(1, 1 << 31) {
                    // And not far apart: a billionth.
                    let apart = value(high).sub(value(low)).unwrap();
                    prop_assert!(apart.mul(Ratio::whole(1_000_000_000)).unwrap() < value(low).mul(Ratio::whole(2)).unwrap());
                }
            } else {
                prop_assert!(low.of_product(1) >= 1 << 30 && high.of_product(1) >= 1 << 30);
            }
        }

        #[test]
        fn nothing_near_enough_falls_outside(
            num in 1u128..1 << 40, den in 1u128..1 << 40, u in 1u32..997_002_999, v in 1u32..997_002_999,
            diff in 0u128..1 << 40, below in 1u128..1 << 40, scale in 0u32..25,
        ) {
            let by = Miss { diff: diff >> scale, den: below };
            let (miss, _) = Miss::new(u128::from(v) * den, u128::from(u) * num);
            let window = Window::straight(num, den, Some(by));
            let inside = |w: Window, u: u32, v: u32| w.low(u) <= u64::from(v) && u64::from(v) <= w.high(u);
            prop_assert!(miss > by || inside(window, u, v));
            let window = Window::upturned(num, den, Some(by));
            let (miss, _) = Miss::new(u128::from(u) * den, u128::from(v) * num);
            prop_assert!(miss > by || inside(window, u, v));
            let everything = Window::upturned(num, den, None);
            prop_assert!(inside(everything, u, v));
            // Its own miss as the limit: just inside.
            let (own, _) = Miss::new(u128::from(v) * den, u128::from(u) * num);
            prop_assert!(inside(Window::straight(num, den, Some(own)), u, v));
            let (own, _) = Miss::new(u128::from(u) * den, u128::from(v) * num);
            prop_assert!(inside(Window::upturned(num, den, Some(own)), u, v));
        }
    }
}
