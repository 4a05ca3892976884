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

/// What a lathe's machine reamer is left whatever its size, mm on the diameter.
const ARMY: [Ratio; 2] = [Ratio::of(1, 10), Ratio::of(3, 10)];

/// What is left on the diameter for a machine reamer, mm.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Left {
    /// The least.
    pub least: Ratio,
    /// What to aim at.
    pub aim: Ratio,
    /// The most.
    pub most: Ratio,
    /// Who says so.
    pub source: &'static str,
}

/// What to leave on the diameter for a machine reamer of this size.
///
/// A cutter maker's reaming guide goes by the size, in inches; TC 9-524 (1996) ch. 7 leaves 0.1 to
/// 0.3 mm (0.004 to 0.012 in) for any; TM 1-420 (1940) par. 37 0.005 to 0.010 in. What either allows
/// will do, but for more than 0.3 mm up to 0.88 in, where the guide alone goes on to 0.4 mm; the aim
/// is the middle of what both allow, over 0.88 in the guide's least.
///
/// # Errors
///
/// [`HoleError::NoSize`], [`HoleError::TooLarge`] over 2.5 in.
pub fn ream_allowance(reamer_mm: Ratio) -> Result<Left, HoleError> {
    if !reamer_mm.is_positive() {
        return Err(HoleError::NoSize);
    }
    // A thousandth of an inch is 127/5000 mm.
    let thou = |n: i64| Ratio::of(n.saturating_mul(127), 5000);
    let (_, least, most) = LEFT
        .iter()
        .find(|(up_to, ..)| reamer_mm <= thou(*up_to))
        .copied()
        .ok_or(HoleError::TooLarge)?;
    let (least, most) = (thou(least), thou(most));
    let [army_least, army_most] = ARMY;
    if least > army_most {
        let source = "a cutter maker's reaming guide; TC 9-524 (1996) ch. 7 leaves 0.1 to 0.3 mm";
        return Ok(Left { least: army_least, aim: least, most, source });
    }
    let most = most.min(army_most);
    let aim = least
        .max(army_least)
        .add(most)
        .and_then(|sum| sum.div(Ratio::whole(2)))
        .map_err(|_| HoleError::TooLarge)?;
    let source = "TC 9-524 (1996) ch. 7, reaming on the lathe; a cutter maker's reaming guide";
    Ok(Left { least: army_least.min(least), aim, most, source })
}
