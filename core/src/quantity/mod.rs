//! Lengths, leads, angles and ratios: read as people write them, kept as written, exact.

mod error;
mod parse;
pub mod show;
mod unit;

pub use error::QuantityError;
pub use unit::{MM_PER_INCH, Measure, Unit};

use crate::exact::Ratio;
use alloc::string::String;

/// A measured thing as somebody wrote it, and what it comes to exactly.
///
/// ```
/// use latheside_core::quantity::{Measure, Quantity};
/// let eight = Quantity::parse("8 tpi", Measure::Lead, None).unwrap();
/// assert_eq!(eight.value().to_string(), "127/40"); // 3.175 mm, exactly
/// assert_eq!(eight.text(), "8 tpi");
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Quantity {
    text: String,
    value: Ratio,
    pi: bool,
    unit: Unit,
    assumed: bool,
}

impl Quantity {
    /// As it was written; a bare number's assumed unit is written out.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Millimetres for a length or a lead, degrees for an angle, a plain number for a ratio. Where
    /// [`pi`](Quantity::pi) says so, it is to be taken π times.
    #[must_use]
    pub fn value(&self) -> Ratio {
        self.value
    }

    /// Whether the value is to be taken π times (worms: `"2.5 pi mm"`).
    #[must_use]
    pub fn pi(&self) -> bool {
        self.pi
    }

    /// The unit that it was written in.
    #[must_use]
    pub fn unit(&self) -> Unit {
        self.unit
    }

    /// Whether the unit was not written but assumed.
    #[must_use]
    pub fn assumed(&self) -> bool {
        self.assumed
    }

    /// The value as a float, π taken in: for trigonometry and display.
    #[must_use]
    pub fn to_f64(&self) -> f64 {
        let value = self.value.to_f64();
        if self.pi { value * core::f64::consts::PI } else { value }
    }
}
