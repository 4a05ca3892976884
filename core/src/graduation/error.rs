//! Why a dial can't be graduated, in words.

use super::scale::MOST_LINES;
use crate::exact::{Ratio, RatioError};
use core::fmt;

/// Why a dial or vernier can't be graduated as asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum GraduationError {
    /// A screw that moves nothing.
    NoLead {
        /// As given, in mm.
        lead: Ratio,
    },
    /// A line that is worth nothing.
    NoValue {
        /// As given, in mm.
        value: Ratio,
    },
    /// A line worth more than twice what a turn moves.
    TooCoarse {
        /// One line, in mm.
        value: Ratio,
        /// One turn, in mm as read.
        travel: Ratio,
    },
    /// More lines than are worked out.
    TooManyLines {
        /// One line, in mm.
        value: Ratio,
    },
    /// A vernier without divisions.
    NoVernier,
    /// A least count that doesn't go into a division of the main scale.
    VernierNotWhole {
        /// A division of the main scale.
        main: Ratio,
        /// The least count asked for.
        least: Ratio,
    },
    /// The numbers can't be kept exactly.
    Number(RatioError),
}

impl fmt::Display for GraduationError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoLead { lead } => write!(f, "a lead of {lead} mm moves nothing forward"),
            Self::NoValue { value } => write!(f, "a line worth {value} mm tells nothing"),
            Self::TooCoarse { value, travel } => {
                write!(f, "one line of {value} mm is more than a turn moves, {travel} mm")
            }
            Self::TooManyLines { value } => {
                write!(f, "lines of {value} mm are more than the {MOST_LINES} worked out here")
            }
            Self::NoVernier => f.write_str("a vernier with 0 divisions tells nothing"),
            Self::VernierNotWhole { main, least } => {
                write!(f, "a division of {main} isn't a whole number of {least}")
            }
            Self::Number(why) => why.fmt(f),
        }
    }
}

impl core::error::Error for GraduationError {}

impl From<RatioError> for GraduationError {
    fn from(why: RatioError) -> GraduationError {
        GraduationError::Number(why)
    }
}
