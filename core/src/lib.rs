//! What a manual lathe can do with what its owner has.
//!
//! Exact arithmetic, the shop, the operations and their answers, with no
//! browser, no clock and no storage. One way through:
//! entry text → [`quantity`] → [`operation`] + [`shop`] → answer → steps.
#![no_std]

extern crate alloc;

pub mod cutting;
pub mod exact;
pub mod fits;
pub mod tapers;
