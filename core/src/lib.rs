//! What a manual lathe can do with what its owner has.
//!
//! Exact arithmetic, the shop, the operations and their answers, with no
//! browser, no clock and no storage. One way through:
//! entry text → [`quantity`] → [`operation`] + [`shop`] → answer → steps.
#![no_std]
#![cfg_attr(test, allow(clippy::arithmetic_side_effects))]

extern crate alloc;

pub mod chart;
pub mod cutting;
pub mod dividing;
pub mod exact;
pub mod fits;
pub mod gearing;
pub mod graduation;
pub mod holes;
pub mod lathe;
pub mod operation;
pub mod procedure;
pub mod quantity;
pub mod record;
pub mod setup;
pub mod shop;
pub mod spacing;
pub mod tapers;
pub mod threads;
