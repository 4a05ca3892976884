//! What there is to divide with.

use super::error::DividingError;
use super::whole;
use alloc::vec::Vec;

/// The most divisions that are worked out.
pub const MOST_DIVISIONS: u32 = 9_999;
/// The most angles of a pattern that are worked out.
pub const MOST_ANGLES: usize = 1_000;
/// The most teeth of a gear, or holes of a circle.
pub const MOST_TEETH: u16 = 999;
/// The most gears, on the head and (twice over, with the change gears) on the spindle.
pub const MOST_GEARS: usize = 100;
/// The most circles on all the plates together.
pub const MOST_CIRCLES: usize = 600;

/// Everything owned that divides a circle.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Kit {
    /// Holes or teeth of each plate or gear that goes on the spindle with a detent. Where any
    /// change gear may go there, the change gears stand here too.
    pub direct: Vec<u16>,
    /// Whether there is a detent that also holds half-way between two teeth.
    pub half_tooth: bool,
    /// A worm head.
    pub head: Option<Head>,
}

/// A worm head with its plates, and the gears that may turn the plate from its spindle.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Head {
    /// Turns of the crank for one of the spindle.
    pub worm_ratio: u32,
    /// The circles of holes of each plate.
    pub plates: Vec<Vec<u16>>,
    /// Teeth of each gear, a size as often as it is owned; none for a head without a train.
    pub gears: Vec<u16>,
    /// The most pairs of gears that the train may have: 0, 1 or 2.
    pub pairs_max: u8,
    /// k of the rule A + B > C + k and C + D > B + k for two pairs A→B, C→D, strictly; free if absent.
    pub stud_clearance_teeth: Option<u16>,
    /// Least and most for the sum of each pair's driver and driven; free if absent. An idler
    /// swings on an arm of its own and isn't limited.
    pub centres_teeth: Option<(u16, u16)>,
}

impl Kit {
    /// Refuses what is beyond the limits or impossible.
    ///
    /// # Errors
    ///
    /// Each with the number that is at fault.
    pub fn check(&self) -> Result<(), DividingError> {
        let spindle_most = MOST_GEARS.saturating_mul(2);
        if self.direct.len() > spindle_most {
            return Err(DividingError::TooManyGears { gears: self.direct.len() });
        }
        self.direct.iter().try_for_each(teeth)?;
        let Some(head) = &self.head else {
            return if self.direct.is_empty() { Err(DividingError::NothingOwned) } else { Ok(()) };
        };
        if head.worm_ratio == 0 || head.worm_ratio > u32::from(MOST_TEETH) {
            return Err(DividingError::WormRatio { worm_ratio: head.worm_ratio });
        }
        if head.gears.len() > MOST_GEARS {
            return Err(DividingError::TooManyGears { gears: head.gears.len() });
        }
        let circles = head.plates.iter().map(Vec::len).fold(0, usize::saturating_add);
        if circles > MOST_CIRCLES {
            return Err(DividingError::TooManyCircles { circles });
        }
        if head.pairs_max > 2 {
            return Err(DividingError::Pairs { pairs: head.pairs_max });
        }
        head.plates.iter().flatten().chain(&head.gears).try_for_each(teeth)
    }
}

impl Head {
    /// Every size of circle on any plate, once each, smallest first.
    #[must_use]
    pub fn circles(&self) -> Vec<u16> {
        whole::sizes(self.plates.iter().flatten().copied())
    }
}

fn teeth(teeth: &u16) -> Result<(), DividingError> {
    match *teeth {
        0 => Err(DividingError::NoTeeth),
        teeth if teeth > MOST_TEETH => Err(DividingError::TooManyTeeth { teeth }),
        _ => Ok(()),
    }
}
