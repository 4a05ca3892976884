//! Screw-cut a thread: gears, sizes, half-nuts and the order of work.

mod answer;
mod blank;
mod card;
mod course;
mod cut;
mod depths;
mod gauge;
mod gears;
mod json;
mod kind;
mod mount;
mod nuts;
mod pace;
mod pass;
mod pick_up;
mod proof;
mod run;
mod scratch;
mod section;
mod sizes;
mod starts;
mod steps;
mod tool;
mod wanted;
mod why;
mod words;

#[cfg(test)]
mod tests;

pub(super) use answer::Thread;
pub(super) use kind::{KIND, WORKS};
