//! Dividing a circle: every way that the teeth, holes and gears in the shop allow.
//!
//! Teeth on the spindle ([`direct`]), a worm head's turns and holes ([`plain`]), two moves on one
//! plate ([`compound`]), a plate turned by gears from the spindle ([`differential`]); all of them
//! best first in [`ways`], and the absolute place of each division in [`place`].

pub mod compound;
pub mod differential;
pub mod direct;
mod error;
mod kit;
pub mod misplaced;
mod nearest;
mod pattern;
mod place;
pub mod plain;
#[cfg(test)]
mod proofs;
mod sector;
mod train;
mod way;
mod ways;
mod whole;

pub use error::DividingError;
pub use kit::{Head, Kit, MOST_ANGLES, MOST_CIRCLES, MOST_DIVISIONS, MOST_GEARS, MOST_TEETH};
pub use pattern::{AS_GOOD, Pattern, pattern};
pub use place::{At, Pin, Place, back_at_nought, closing, half_way, place, place_at};
pub use sector::{SectorArms, sector_arms};
pub use train::Train;
pub use way::{Holes, Method, Setting, Way};
pub use ways::{Found, Ways, ways};
pub(crate) use whole::sizes;
