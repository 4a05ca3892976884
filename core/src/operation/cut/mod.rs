//! Cut at a speed: the machine's own speed, the feed that goes with it, and its beat.

mod bench;
mod card;
mod job;
mod keys;
mod kind;
mod limits;
mod load;
mod milled;
#[cfg(test)]
mod tests;
mod turned;
mod why;
mod words;

pub(super) use job::Cut;
pub(super) use kind::{KIND, SLIDES, WORKS};
pub(super) use words::slide as slide_words;
