//! Why a hole can't be given.

use core::fmt;

/// Why a hole can't be given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum HoleError {
    /// A size of nothing or less.
    NoSize,
    /// An angle that isn't between 0 and 180 degrees.
    NoPoint,
    /// The hole is larger than what it is in.
    NoWall,
    /// A number too large to keep.
    TooLarge,
}

impl fmt::Display for HoleError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            HoleError::NoSize => "the size must be more than nothing",
            HoleError::NoPoint => "a point's angle lies between 0 and 180 degrees",
            HoleError::NoWall => "the hole is larger than what it goes into",
            HoleError::TooLarge => "the number is too large to keep exactly",
        })
    }
}

impl core::error::Error for HoleError {}

impl From<crate::exact::RatioError> for HoleError {
    fn from(_: crate::exact::RatioError) -> HoleError {
        HoleError::TooLarge
    }
}
