//! Whether the order of a setup's operations leaves something to hold, and leaves alone what is made.

mod better;
mod look;
mod remark;

pub use remark::{Order, Remark};

use super::Setup;
use alloc::vec::Vec;

/// Looks an order over.
#[must_use]
pub fn order(setup: &Setup) -> Order {
    let all: Vec<usize> = (0..setup.operations.len()).collect();
    let remarks = look::remarks(setup, &all);
    let proposed = better::better(setup, &remarks, all);
    Order { rehearse: better::rehearse(setup), proposed, remarks }
}
