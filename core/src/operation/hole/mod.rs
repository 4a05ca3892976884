//! Make a hole for a screw, or a bore to ream.

mod card;
mod depth;
mod kind;
mod pick;
mod recess;
mod steps;
mod work;

pub(super) use kind::{KIND, WORKS};
pub(super) use work::Hole;
