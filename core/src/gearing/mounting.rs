//! What decides whether a train goes on: nothing, the shop's rule, or the banjo itself.

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
