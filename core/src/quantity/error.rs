//! Why an entry is refused.

use super::parse::{MOST_DECIMALS, MOST_FIGURES};
use super::{Measure, Unit};
use alloc::string::String;
use core::fmt;

/// Why an entry is not understood, in words for the person who typed it.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum QuantityError {
    /// Nothing was written.
    Empty {
        /// What was asked for.
        wanted: Measure,
    },
    /// Something other than a number stands where a number should.
    NotANumber {
        /// What stands there.
        found: String,
        /// What was asked for.
        wanted: Measure,
    },
    /// No such unit.
    UnknownUnit {
        /// What stands where the unit should.
        found: String,
        /// What was asked for.
        wanted: Measure,
    },
    /// A unit of something else.
    WrongUnit {
        /// The unit written.
        found: Unit,
        /// What was asked for.
        wanted: Measure,
    },
    /// A number alone, where nothing says what it is in.
    NoUnit {
        /// The number as written.
        found: String,
        /// What was asked for.
        wanted: Measure,
    },
    /// More decimals than are kept.
    TooFine {
        /// The number as written.
        found: String,
    },
    /// Points or commas between thousands, or simply two of them.
    TwoPoints {
        /// The number as written.
        found: String,
    },
    /// Over a million.
    TooLarge {
        /// The entry as written.
        found: String,
        /// What was asked for.
        wanted: Measure,
    },
    /// A number too long to be kept exactly.
    TooManyFigures {
        /// The number as written.
        found: String,
    },
    /// A fraction over nothing, or no threads in an inch.
    OverNothing {
        /// The entry as written.
        found: String,
    },
    /// Minutes or seconds out of order, or two lengths in one entry.
    Muddled {
        /// The entry as written.
        found: String,
        /// What was asked for.
        wanted: Measure,
    },
}

impl fmt::Display for QuantityError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            QuantityError::Empty { wanted } => {
                write!(f, "nothing here yet: enter {}", wanted.wanted())
            }
            QuantityError::NotANumber { found, wanted } => {
                write!(f, "“{found}” is not a number: enter {}", wanted.wanted())
            }
            QuantityError::UnknownUnit { found, wanted } => {
                write!(f, "“{found}” is no unit I know: enter {}", wanted.wanted())
            }
            QuantityError::WrongUnit { found, wanted } => {
                write!(f, "{} won't do here: enter {}", found.symbol(), wanted.wanted())
            }
            QuantityError::NoUnit { found, wanted } => {
                write!(f, "{found} of what? enter {}", wanted.wanted())
            }
            QuantityError::TooFine { found } => {
                write!(f, "{found} has more than {MOST_DECIMALS} decimals")
            }
            QuantityError::TwoPoints { found } => {
                write!(
                    f,
                    "“{found}” has two points or commas: write one at most, and none between thousands"
                )
            }
            QuantityError::TooLarge { found, wanted } => {
                let most = match wanted {
                    Measure::Length | Measure::Lead => "a kilometre",
                    Measure::Angle => "a million degrees",
                    Measure::Ratio => "a million",
                };
                write!(f, "{found} is more than {most}")
            }
            QuantityError::TooManyFigures { found } => {
                write!(f, "“{found}” has too many figures: write it with {MOST_FIGURES} at most")
            }
            QuantityError::OverNothing { found } => {
                write!(f, "{found} divides by nothing")
            }
            QuantityError::Muddled { found, wanted } => {
                write!(f, "“{found}” can't be read as one entry: enter {}", wanted.wanted())
            }
        }
    }
}

impl core::error::Error for QuantityError {}
