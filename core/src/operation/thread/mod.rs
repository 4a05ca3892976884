//! Screw-cut a thread: gears, sizes, half-nuts and the order of work.

mod answer;
mod blank;
mod card;
mod cut;
mod gauge;
mod gears;
mod json;
mod kind;
mod mount;
mod nuts;
mod pass;
mod proof;
mod run;
mod scratch;
mod sizes;
mod starts;
mod steps;
mod wanted;
mod why;
mod words;

pub(super) use answer::Thread;
pub(super) use kind::{KIND, WORKS};
