//! What decides whether a train goes on: nothing, the shop's rule, or the banjo itself.

use super::rule::Rule;
use super::{Drawer, GearingError, Pair};
use crate::exact::Ratio;

/// What decides whether a train can be mounted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mounting {
    /// Everything goes on, as on the arm of a dividing head that states no limits.
    Free,
    /// The shop's rule of thumb, all in teeth.
    Shop {
        /// k: of two pairs A→B, C→D it must be that A + B > C + k and C + D > B + k.
        /// Three pairs apply it to each stud's two pairs; a single pair has no stud
        /// between and is free of it. The rule with k = 15 is common shop practice.
        stud_clearance_teeth: u32,
        /// The least and the most for the sum of the two gears of each meshing pair.
        centres_teeth: Option<(u32, u32)>,
    },
    /// Limits for the sum of the two gears of each meshing pair, least and most, and nothing else.
    Mesh(u32, u32),
    /// The banjo's own measures, which decide alone.
    Banjo(Banjo),
}

/// A banjo that swings about the leadscrew, its stud anywhere in the slot. All in mm.
///
/// With d1 = m(A + B)/2 and d2 = m(C + D)/2 a train of two pairs fits where
/// slot.0 ≤ d2 ≤ slot.1, |d1 − d2| ≤ centres ≤ d1 + d2, d1 > m(C + 2)/2 + boss and
/// d2 > m(B + 2)/2 + boss. A single pair needs an idler, owned and not one of the two in use,
/// with which A–idler and idler–D satisfy the same. Three pairs don't go on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Banjo {
    /// The gears' module.
    pub module: Ratio,
    /// From the spindle's (or first stud's) centre to the leadscrew's.
    pub centres: Ratio,
    /// The stud's least and greatest distance from the leadscrew.
    pub slot: (Ratio, Ratio),
    /// The radius of the boss, or nut, that the tips of a neighbour must clear.
    pub boss_radius: Ratio,
}

/// How a train stands in one certain order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Standing {
    /// Whether it goes on.
    pub mountable: bool,
    /// As [`Train::clearance`](super::Train::clearance).
    pub clearance: Option<Ratio>,
    /// As [`Train::idler`](super::Train::idler).
    pub idler: Option<u16>,
}

impl Mounting {
    /// Whether these pairs go on in the very order given, the drawer lending the idler.
    ///
    /// ```
    /// use latheside_core::gearing::{Drawer, Mounting, Pair};
    /// let rule = Mounting::Shop { stud_clearance_teeth: 15, centres_teeth: None };
    /// let drawer = Drawer::new(&[25, 30, 50, 60]).unwrap();
    /// let pair = |driver, driven| Pair { driver, driven };
    /// // 25 + 30 is not more than 60 + 15; the other way about it is.
    /// assert!(!rule.stands(&[pair(25, 30), pair(60, 50)], &drawer).unwrap().mountable);
    /// assert!(rule.stands(&[pair(60, 30), pair(25, 50)], &drawer).unwrap().mountable);
    /// ```
    ///
    /// # Errors
    ///
    /// [`GearingError::Pairs`] unless there are one, two or three; a measure that isn't more
    /// than nothing; a limit the wrong way round.
    pub fn stands(&self, pairs: &[Pair], drawer: &Drawer) -> Result<Standing, GearingError> {
        let rule = Rule::new(self)?;
        let count = u8::try_from(pairs.len()).unwrap_or(u8::MAX);
        let (mountable, slack) = match *pairs {
            [only] => rule.single(only, drawer),
            [first, second] => rule.stud(first, second),
            [first, middle, last] => rule.studs(first, middle, last),
            _ => return Err(GearingError::Pairs(count)),
        };
        let idler = match *pairs {
            [only] => rule.idler(only, drawer),
            _ => None,
        };
        Ok(Standing { mountable, clearance: rule.clearance(count, slack), idler })
    }
}
