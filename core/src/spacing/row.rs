//! A row of places.

use crate::exact::{Ratio, RatioError};

/// More places than this aren't worked out.
pub const MOST_PLACES: u32 = 999;

/// A row of places at equal distances; lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Row {
    /// How many.
    pub places: u32,
    /// From one to the next.
    pub pitch: Ratio,
    /// From the first to the last.
    pub overall: Ratio,
    /// From the work's end to the first, where that is known.
    pub first: Option<Ratio>,
    /// From the last to the other end, where that is known.
    pub last: Option<Ratio>,
}

impl Row {
    /// How far a place stands from the first, counted from 0.
    ///
    /// # Errors
    ///
    /// [`RatioError::Overflow`] where the number is too large to keep exactly.
    pub fn at(&self, place: u32) -> Result<Ratio, RatioError> {
        self.pitch.mul(place.into())
    }
}
