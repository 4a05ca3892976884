//! Logarithms in whole numbers, with which equal ratios have equal sums and near ones near sums.

use super::super::TEETH_MOST;
use crate::exact::Ratio;
use alloc::vec::Vec;

/// Bits after the point.
const FRACTION: u32 = 40;

/// What a sum of a few of them can be wrong by: each prime is rounded by less than one, a gear has
/// nine prime factors at most, and a train six gears; ratios in lowest terms add a few.
pub(super) const SLACK: i64 = 1 << 10;

/// The logarithm to base 2 of a number from 1, in 2⁻⁴⁰, cut off.
pub(super) const fn log2(n: u128) -> i64 {
    if n == 0 {
        return 0;
    }
    let lift = n.leading_zeros();
    // The leading 64 bits, from 2⁶³ up to 2⁶⁴: squaring shows one more bit of the logarithm.
    let mut lead = (n << lift) >> 64;
    let mut log = 127_i64.saturating_sub(lift as i64);
    let mut bit = 0;
    while bit < FRACTION {
        let square = lead.saturating_mul(lead);
        let over = square >= 1 << 127;
        log = (log << 1) | over as i64;
        lead = if over { square >> 64 } else { square >> 63 };
        bit = bit.saturating_add(1);
    }
    log
}

/// The logarithms of all tooth counts, so made that log(a·b) = log a + log b to the last bit: each
/// prime's is rounded, and any other number's is the sum of its primes'. Two ratios of gears are
/// therefore equal only if their sums are, and a search by sums misses nothing.
#[derive(Clone, Debug)]
pub(super) struct Logs {
    of: Vec<i64>,
    primes: Vec<u16>,
}

impl Logs {
    pub(super) fn new() -> Logs {
        let mut logs = Logs { of: Vec::from([0, 0]), primes: Vec::new() };
        for n in 2..=TEETH_MOST as u16 {
            let small = logs.primes.iter().copied().find(|&prime| n.checked_rem(prime) == Some(0));
            let log = match small {
                Some(prime) => {
                    let rest = n.checked_div(prime).unwrap_or(1);
                    logs.of(prime).saturating_add(logs.of(rest))
                }
                None => {
                    logs.primes.push(n);
                    log2(n.into())
                }
            };
            logs.of.push(log);
        }
        logs
    }

    /// That of a gear.
    pub(super) fn of(&self, teeth: u16) -> i64 {
        self.of.get(usize::from(teeth)).copied().unwrap_or(0)
    }

    /// That of a ratio, exactly as its gears' would add up; none where it has a prime factor that no
    /// gear has, so that no gears make it.
    pub(super) fn exact(&self, ratio: Ratio) -> Option<i64> {
        let above = self.whole(ratio.numer().unsigned_abs())?;
        Some(above.saturating_sub(self.whole(ratio.denom().unsigned_abs())?))
    }

    /// The primes that none of these gears has.
    pub(super) fn strange(&self, gears: &[u16]) -> Vec<u16> {
        let has = |prime: u16| gears.iter().any(|teeth| teeth.checked_rem(prime) == Some(0));
        self.primes.iter().copied().filter(|&prime| !has(prime)).collect()
    }

    /// The logarithm of that part of a ratio which is made of these primes alone.
    pub(super) fn part(&self, ratio: Ratio, primes: &[u16]) -> i64 {
        let of = |n: i128| {
            let mut n = n.unsigned_abs();
            let mut log = 0_i64;
            for &prime in primes {
                while n.checked_rem(prime.into()) == Some(0) && n > 0 {
                    log = log.saturating_add(self.of(prime));
                    n = n.checked_div(prime.into()).unwrap_or(0);
                }
            }
            log
        };
        of(ratio.numer()).saturating_sub(of(ratio.denom()))
    }

    fn whole(&self, mut n: u128) -> Option<i64> {
        let mut log = 0_i64;
        for &prime in &self.primes {
            while let (Some(rest), Some(0)) =
                (n.checked_div(prime.into()), n.checked_rem(prime.into()))
            {
                if n == 0 {
                    return None;
                }
                log = log.saturating_add(self.of(prime));
                n = rest;
            }
            if n == 1 {
                return Some(log);
            }
        }
        None
    }
}

/// The least and the most that the sums of gears within so much of a ratio come to.
pub(super) fn around(ratio: Ratio, within: Ratio) -> (i64, i64) {
    let of = |n: i128| log2(n.unsigned_abs());
    let at = of(ratio.numer()).saturating_sub(of(ratio.denom()));
    let (num, den) = (within.numer(), within.denom());
    let from = |n: i128| of(n).saturating_sub(of(den));
    let low = match den.saturating_sub(num) {
        least if least > 0 => at.saturating_add(from(least)).saturating_sub(SLACK),
        _ => i64::MIN / 4,
    };
    (low, at.saturating_add(from(den.saturating_add(num))).saturating_add(SLACK))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bits_are_those_of_the_logarithm() {
        for n in [1_u128, 2, 3, 10, 127, 999, 1 << 40, 245_850_922, u128::MAX] {
            let near = log2(n) as f64 / (1_u64 << FRACTION) as f64;
            assert!((near - libm::log2(n as f64)).abs() < 1e-11, "{n}: {near}");
        }
    }

    #[test]
    fn products_add_up_to_the_last_bit() {
        let logs = Logs::new();
        for a in 1..=31_u16 {
            for b in 1..=31_u16 {
                assert_eq!(logs.of(a * b), logs.of(a) + logs.of(b));
            }
        }
        assert_eq!(logs.exact(Ratio::of(120, 127)), logs.exact(Ratio::of(240, 254)));
        assert_eq!(logs.exact(Ratio::of(120, 127)), Some(logs.of(120) - logs.of(127)));
        assert_eq!(logs.exact(Ratio::of(1009, 20)), None);
        assert_eq!(logs.exact(Ratio::ONE), Some(0));
        for n in 1..=999_u16 {
            assert!((logs.of(n) - log2(n.into())).abs() < 10, "{n}");
        }
    }

    #[test]
    fn what_is_near_enough_lies_within() {
        let logs = Logs::new();
        let (low, high) = around(Ratio::of(100, 127), Ratio::of(1, 8000));
        // 63/80 is 125 millionths above, just at the edge.
        let edge = logs.exact(Ratio::of(63, 80)).unwrap();
        assert!(low < edge && edge <= high && high - edge < 2 * SLACK);
        assert_eq!(around(Ratio::ONE, Ratio::whole(2)).0, i64::MIN / 4);
    }
}
