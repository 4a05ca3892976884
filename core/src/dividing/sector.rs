//! The sector arms, set so that nobody counts holes twice.

use super::way::Setting;
use alloc::vec::Vec;

/// How far the sector arms stand apart on a circle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SectorArms {
    /// Spaces from the pin to the other arm.
    pub spaces: u16,
    /// Holes between the arms, the pin's own among them: one more than the spaces (Practical
    /// Treatise on Milling and Milling Machines, p. 56).
    pub holes: u16,
    /// The circle that they are counted on.
    pub circle: u16,
    /// Whether this move goes against the usual direction.
    pub backwards: bool,
}

/// The arms' settings: none without holes to count, one for a single move, two for a compound one.
#[must_use]
pub fn sector_arms(setting: &Setting) -> Vec<SectorArms> {
    let arms = |spaces: u16, circle, backwards| SectorArms {
        spaces,
        holes: spaces.saturating_add(1),
        circle,
        backwards,
    };
    match *setting {
        Setting::Plain { holes, circle: Some(circle), .. }
        | Setting::Differential { holes, circle: Some(circle), .. }
            if holes > 0 =>
        {
            Vec::from([arms(holes, circle, false)])
        }
        Setting::Compound { first, second, .. } => [first, second]
            .iter()
            .map(|move_| arms(move_.holes.unsigned_abs(), move_.circle, move_.holes < 0))
            .collect(),
        _ => Vec::new(),
    }
}
