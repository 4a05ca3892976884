//! The chart of one's own lathe: threads, feeds or divisions, one a row.

mod answer;
mod card;
mod json;
mod kind;

pub(super) use answer::{ChartFound, threads, without};
pub(super) use kind::{KIND, WORKS};
