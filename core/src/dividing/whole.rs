//! Sums of whole numbers that can't wrap or fail.

use crate::exact;
use alloc::vec::Vec;

/// What is left of `a` over `b`, from 0 up to `b`; nothing is left over nothing.
pub(super) fn rem(a: i64, b: i64) -> i64 {
    a.checked_rem_euclid(b).unwrap_or(0)
}

/// How often `b` goes into `a`, downwards; never into it where `b` is nothing.
pub(super) fn quot(a: i64, b: i64) -> i64 {
    a.checked_div_euclid(b).unwrap_or(0)
}

/// Whether `b` goes into `a` and leaves nothing.
pub(super) fn divides(b: i64, a: i64) -> bool {
    b != 0 && rem(a, b) == 0
}

/// The product, at most the largest number there is: the shop's limits keep it far below.
pub(super) fn mul(a: i64, b: i64) -> i64 {
    a.saturating_mul(b)
}

/// The greatest common divisor.
pub(super) fn gcd(a: i64, b: i64) -> i64 {
    i64::try_from(exact::gcd(a.unsigned_abs().into(), b.unsigned_abs().into())).unwrap_or(1)
}

/// The least common multiple.
pub(super) fn lcm(a: i64, b: i64) -> i64 {
    mul(quot(a, gcd(a, b)), b)
}

/// `a / b` to the nearest whole number, a half upwards.
pub(super) fn nearest(a: i64, b: i64) -> i64 {
    quot(mul(a, 2).saturating_add(b), mul(b, 2))
}

/// The sizes that there are, each once, smallest first.
pub(crate) fn sizes(owned: impl Iterator<Item = u16>) -> Vec<u16> {
    let mut sizes: Vec<u16> = owned.collect();
    sizes.sort_unstable();
    sizes.dedup();
    sizes
}
