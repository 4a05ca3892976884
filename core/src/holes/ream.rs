//! What a reamer is left to take.

use super::HoleError;
use crate::exact::Ratio;

/// Up to a diameter, least and most left on the diameter: thousandths of an inch.
#[rustfmt::skip]
const LEFT: &[(i64, i64, i64)] = &[
    ( 170,  5, 10),
    ( 280,  8, 12),
    ( 880, 10, 16),
    (2500, 15, 30),
];

/// The least and the most to leave on the diameter for a machine reamer of this size, mm.
///
/// A cutter maker's reaming guide, in inches; up to 0.170 in it agrees with TM 1-420 (1940)
/// par. 37, which leaves 0.005 to 0.010 in.
///
/// # Errors
///
/// [`HoleError::NoSize`], [`HoleError::TooLarge`] over 2.5 in.
pub fn ream_allowance(reamer_mm: Ratio) -> Result<[Ratio; 2], HoleError> {
    if !reamer_mm.is_positive() {
        return Err(HoleError::NoSize);
    }
    // A thousandth of an inch is 127/5000 mm.
    let thou = |n: i64| Ratio::of(n.saturating_mul(127), 5000);
    LEFT.iter()
        .find(|(up_to, ..)| reamer_mm <= thou(*up_to))
        .map(|(_, least, most)| [thou(*least), thou(*most)])
        .ok_or(HoleError::TooLarge)
}
