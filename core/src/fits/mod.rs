//! Shafts and holes: the limits of a fit by its code or in words.

mod class;
mod deviation;
mod fit;
mod grade;
mod heat;
mod words;

pub use class::{Class, FitError, Side, parse_fit};
pub use fit::{Fit, FitKind, Zone, fit, zone};
pub use grade::{GREATEST_SIZE_MM, STEPS_MM, grade_tenths_um};
pub use heat::{expansion_per_million, rise_to_slip_c};
pub use words::{FITS_IN_WORDS, FitWords, in_words};
