//! The chart of one's own lathe: threads, feeds or divisions, one a row, or the gears themselves.

mod answer;
mod card;
mod job;
mod json;
mod kind;

pub(super) use answer::ChartFound;
pub(super) use job::{threads, without};
pub(super) use kind::{KIND, WORKS};
