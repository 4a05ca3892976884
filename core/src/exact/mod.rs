//! Fractions that stay fractions.

mod ratio;

pub use ratio::{Ratio, RatioError, gcd};
