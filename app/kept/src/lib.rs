//! What stays on the device: the shop, the setups with what is half typed in them, the work in hand;
//! how all of it becomes one file; and the addresses by which it is found again. No browser is needed
//! to read it or to try it.

mod backup;
mod place;
mod run;
mod saved;
pub mod slots;

pub use backup::{Held, backup, restore};
pub use place::Place;
pub use run::Run;
pub use saved::{Draft, Saved, shop_from_text, shop_to_text};

/// What a first visit finds, as a setup file: a shop and a setup of our own invention.
pub const EXAMPLE: &str = include_str!("../../demo/example.json");
