//! The rooms: which sheets stand in each, and what a tap does there.

mod bench;
mod hand;
mod link;
mod send;
mod setup;
mod step;

pub(crate) use bench::BenchRoom;
pub(crate) use hand::Hand;
pub(crate) use link::LinkRoom;
pub(crate) use setup::{SetupRoom, shared};
