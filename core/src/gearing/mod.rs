//! Change gears: every train that the drawer allows, and which of them goes on the banjo.

mod bounds;
mod chains;
mod drawer;
mod hand;
mod miss;
pub mod more;
mod mounting;
mod rank;
mod rule;
mod run;
mod search;
mod tables;
mod train;
mod trouble;
mod weight;

#[cfg(test)]
mod tests;

pub use drawer::{Drawer, GEARS_MOST, TEETH_MOST};
pub use hand::{Hand, idlers};
pub use mounting::{Banjo, Mounting, Standing};
pub(crate) use tables::sort;

pub use search::{GEARBOX_MOST, Request, search};
pub use tables::Tables;
pub use train::{Found, Pair, Reached, Train};
pub use trouble::GearingError;
