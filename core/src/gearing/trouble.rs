//! What can be wrong with the gears, the ratios or the banjo that one asks about.

use crate::exact::{Ratio, RatioError};
use core::fmt;

/// Why no train can be looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum GearingError {
    /// More gears than a drawer may hold.
    TooManyGears(usize),
    /// A gear with no teeth.
    NoTeeth,
    /// A gear with more teeth than any.
    TooManyTeeth(u32),
    /// Fewer gears than make a pair.
    TooFewGears(usize),
    /// Pairs asked for that are not one, two or three, or that the tables were not made for.
    Pairs(u8),
    /// No gearbox ratio at all, not even 1/1.
    NoGearbox,
    /// More gearbox ratios than a machine may have.
    TooManyRatios(usize),
    /// Something that must be more than nothing is not: what it is, and what was given.
    NotPositive(&'static str, Ratio),
    /// Least and most the wrong way round: what they are of.
    Reversed(&'static str),
    /// A number of gears to be added that is not one, two or three.
    ToAdd(u8),
    /// More sets of gears than are tried: how many sizes, and how many gears of them.
    TooManySets(usize, u8),
    /// A number that can't be kept exactly.
    Exact(RatioError),
}

impl From<RatioError> for GearingError {
    fn from(why: RatioError) -> GearingError {
        GearingError::Exact(why)
    }
}

impl fmt::Display for GearingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            GearingError::TooManyGears(n) => {
                write!(f, "{n} gears are more than the 100 that a drawer may hold")
            }
            GearingError::NoTeeth => f.write_str("a gear can't have 0 teeth"),
            GearingError::TooManyTeeth(n) => {
                write!(f, "a gear of {n} teeth is larger than the 999 allowed")
            }
            GearingError::TooFewGears(0) => f.write_str("there are no gears in the drawer"),
            GearingError::TooFewGears(n) => {
                write!(f, "a pair takes two gears, and the drawer holds {n}")
            }
            GearingError::Pairs(n) => write!(f, "a train of {n} pairs is not one, two or three"),
            GearingError::NoGearbox => f.write_str("the gearbox has no ratio, not even 1/1"),
            GearingError::TooManyRatios(n) => {
                write!(f, "{n} gearbox ratios are more than the 100 allowed")
            }
            GearingError::NotPositive(what, given) => {
                write!(f, "{what} must be more than nothing, not {given}")
            }
            GearingError::Reversed(what) => {
                write!(f, "the least of {what} is more than the most")
            }
            GearingError::ToAdd(n) => {
                write!(f, "{n} more gears are not one, two or three")
            }
            GearingError::TooManySets(sizes, gears) => {
                write!(
                    f,
                    "{gears} gears of {sizes} sizes are more than can be tried: narrow the bounds"
                )
            }
            GearingError::Exact(why) => why.fmt(f),
        }
    }
}

impl core::error::Error for GearingError {}
