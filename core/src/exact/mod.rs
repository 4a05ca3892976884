//! Fractions that stay fractions.

mod ratio;

pub use ratio::{Ratio, RatioError, gcd};

/// π to within one part in 10¹⁶, for searching only, never shown as exact
/// (a convergent of its continued fraction).
pub const PI: Ratio = Ratio::of(245_850_922, 78_256_779);
