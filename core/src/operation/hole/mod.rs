//! Make a hole for a screw, or a bore to ream.

mod card;
mod depth;
mod kind;
mod pick;
mod recess;
mod steps;
#[cfg(test)]
mod tests;
mod work;

pub(super) use kind::{KIND, WORKS};
pub(super) use pick::{Drill, LARGE, pilot_to_buy, pilots};
pub(super) use work::Hole;
