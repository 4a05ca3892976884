//! Why places can't be spaced as asked, in words.

use super::MOST_PLACES;
use crate::exact::{Ratio, RatioError};
use crate::quantity::{Unit, show};
use alloc::format;
use alloc::string::String;
use core::fmt;

/// Why places can't be spaced as asked; lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum SpacingError {
    /// Neither a pitch nor a length to share out.
    NoLength,
    /// Neither how many, nor how far apart at the most.
    NoCount,
    /// Fewer than two, or more than are worked out.
    Count {
        /// How many it would be.
        places: i128,
    },
    /// The ends take up all of the length.
    NoRoom {
        /// From end to end.
        length: Ratio,
        /// What the two ends take.
        ends: Ratio,
    },
    /// A pitch that doesn't go into the length between the first and the last.
    NotWhole {
        /// From the first to the last.
        overall: Ratio,
        /// One space.
        pitch: Ratio,
        /// Whole spaces that go in.
        spaces: i128,
    },
    /// A count, a pitch and a length that don't agree.
    Disagree {
        /// How many places.
        places: u32,
        /// One space.
        pitch: Ratio,
        /// What they make together.
        come_to: Ratio,
        /// What was asked for.
        overall: Ratio,
    },
    /// Distances from the ends that leave another length than was asked for.
    EndsDisagree {
        /// What is left between the ends.
        left: Ratio,
        /// What was asked for.
        overall: Ratio,
    },
    /// The last would stand beyond the end.
    PastEnd {
        /// By so much.
        by: Ratio,
        /// From end to end.
        length: Ratio,
    },
    /// Further apart than was allowed.
    TooFar {
        /// One space.
        pitch: Ratio,
        /// What was allowed.
        apart: Ratio,
        /// So many places keep to it.
        enough: i128,
    },
    /// The numbers can't be kept exactly.
    Number(RatioError),
}

impl SpacingError {
    /// The same with its lengths in the system of `like`.
    #[must_use]
    pub fn say(&self, like: Unit) -> String {
        let words = |mm: Ratio| show::length_like(mm, like);
        match *self {
            Self::NoLength => String::from(
                "say how far apart they stand, or how far it is from the first to the last",
            ),
            Self::NoCount => String::from("say how many, or how far apart at the most"),
            Self::Count { places } if places < 2 => {
                format!("{places} leaves no space: 2 at the least")
            }
            Self::Count { places } => {
                format!("that makes {places} of them: {MOST_PLACES} at the most are worked out")
            }
            Self::NoRoom { length, ends } => format!(
                "the ends take {} of {}: nothing is left between the first and the last",
                words(ends),
                words(length)
            ),
            Self::NotWhole { overall, pitch, spaces } => {
                let whole = |n: i128| {
                    let at = Ratio::new(n, 1).and_then(|n| n.mul(pitch));
                    at.map_or_else(|_| String::from("more"), words)
                };
                let next = spaces.saturating_add(1);
                format!(
                    "{} isn't a whole number of {}: {spaces} of them are {}, {next} are {}. Say how far apart at the most, and the spaces come out equal",
                    words(overall),
                    words(pitch),
                    whole(spaces),
                    whole(next)
                )
            }
            Self::Disagree { places, pitch, come_to, overall } => format!(
                "{places} of them {} apart are {} from first to last, not {}: leave one of the three out",
                words(pitch),
                words(come_to),
                words(overall)
            ),
            Self::EndsDisagree { left, overall } => format!(
                "the ends leave {} between the first and the last, not {}: leave one of them out",
                words(left),
                words(overall)
            ),
            Self::PastEnd { by, length } => {
                format!("the last would stand {} beyond the end of {}", words(by), words(length))
            }
            Self::TooFar { pitch, apart, enough } => format!(
                "they would stand {} apart, over {}: {enough} of them keep to it",
                words(pitch),
                words(apart)
            ),
            Self::Number(why) => format!("{why}"),
        }
    }
}

impl fmt::Display for SpacingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.say(Unit::Mm))
    }
}

impl core::error::Error for SpacingError {}

impl From<RatioError> for SpacingError {
    fn from(why: RatioError) -> SpacingError {
        SpacingError::Number(why)
    }
}
