//! Why a circle can't be divided, in words.

use super::kit::{MOST_ANGLES, MOST_CIRCLES, MOST_DIVISIONS, MOST_GEARS, MOST_TEETH};
use crate::exact::{Ratio, RatioError};
use core::fmt;

/// Why a circle can't be divided as asked with what there is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum DividingError {
    /// No divisions, or no angles, were asked for.
    NoDivisions,
    /// More divisions than are worked out.
    TooManyDivisions {
        /// As asked for.
        divisions: u32,
    },
    /// More angles than are worked out.
    TooManyAngles {
        /// As asked for.
        angles: usize,
    },
    /// An angle that isn't within one turn.
    AngleOutside {
        /// In degrees.
        degrees: Ratio,
    },
    /// Nothing to divide with: no plate or gear on the spindle, no head.
    NothingOwned,
    /// A gear, plate or circle with no teeth or holes.
    NoTeeth,
    /// A gear or circle beyond what is worked out.
    TooManyTeeth {
        /// Teeth, or holes.
        teeth: u16,
    },
    /// More gears than are worked out.
    TooManyGears {
        /// As owned.
        gears: usize,
    },
    /// More circles of holes than are worked out.
    TooManyCircles {
        /// On all the plates together.
        circles: usize,
    },
    /// A worm ratio that no head has.
    WormRatio {
        /// Turns of the crank for one of the spindle.
        worm_ratio: u32,
    },
    /// A train that no head carries.
    Pairs {
        /// As asked for.
        pairs: u8,
    },
    /// Too few positions for so many divisions, even roughly.
    NoWay {
        /// As asked for.
        divisions: u32,
    },
    /// The numbers can't be kept exactly.
    Number(RatioError),
}

impl fmt::Display for DividingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoDivisions => f.write_str("0 divisions leave nothing to do: ask for 1 or more"),
            Self::TooManyDivisions { divisions } => {
                write!(
                    f,
                    "{divisions} divisions are more than the {MOST_DIVISIONS} worked out here"
                )
            }
            Self::TooManyAngles { angles } => {
                write!(f, "{angles} angles are more than the {MOST_ANGLES} worked out here")
            }
            Self::AngleOutside { degrees } => {
                write!(f, "{degrees} degrees isn't within one turn, from 0 to 360")
            }
            Self::NothingOwned => f.write_str(
                "there is nothing to divide with: no plate or gear for the spindle, and no head",
            ),
            Self::NoTeeth => f.write_str("a gear or circle with 0 teeth or holes holds nothing"),
            Self::TooManyTeeth { teeth } => {
                write!(f, "{teeth} teeth or holes are more than the {MOST_TEETH} worked out here")
            }
            Self::TooManyGears { gears } => {
                write!(f, "{gears} gears are more than the {MOST_GEARS} worked out here")
            }
            Self::TooManyCircles { circles } => {
                write!(
                    f,
                    "{circles} circles of holes are more than the {MOST_CIRCLES} worked out here"
                )
            }
            Self::WormRatio { worm_ratio } => {
                write!(f, "a worm ratio of {worm_ratio} isn't between 1 and {MOST_TEETH}")
            }
            Self::Pairs { pairs } => {
                write!(f, "{pairs} pairs of gears: a head's train is one pair or two")
            }
            Self::NoWay { divisions } => {
                write!(
                    f,
                    "{divisions} divisions need more positions than these plates and gears have"
                )
            }
            Self::Number(why) => why.fmt(f),
        }
    }
}

impl core::error::Error for DividingError {}

impl From<RatioError> for DividingError {
    fn from(why: RatioError) -> DividingError {
        DividingError::Number(why)
    }
}
