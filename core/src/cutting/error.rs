//! Why a speed or a feed can't be given.

use super::{CutterMaterial, Process, Stock};
use core::fmt;

/// Why a speed or a feed can't be given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum CuttingError {
    /// The diameter is nothing or less.
    NoDiameter,
    /// The handwheel moves its slide nothing a turn, or less.
    NoTravel,
    /// The feed is nothing or less.
    NoFeed,
    /// The feed is less than a hand keeps even on that handwheel.
    TooSlowForAHand,
    /// No book in the tables gives this process in this stock with this cutter.
    NotInTheBooks {
        /// The stock asked for.
        stock: Stock,
        /// The process asked for.
        process: Process,
        /// The cutter's material.
        cutter: CutterMaterial,
    },
}

impl fmt::Display for CuttingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            CuttingError::NoDiameter => f.write_str("the diameter must be more than nothing"),
            CuttingError::NoTravel => {
                f.write_str("the handwheel must move its slide more than nothing a turn")
            }
            CuttingError::NoFeed => f.write_str("the feed must be more than nothing"),
            CuttingError::TooSlowForAHand => {
                f.write_str("so slow a feed can't be kept even by hand on this handwheel")
            }
            CuttingError::NotInTheBooks { stock, process, cutter } => {
                write!(f, "no published speed to {process} {stock} with {cutter}")
            }
        }
    }
}

impl core::error::Error for CuttingError {}
