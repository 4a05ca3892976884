//! Change gears: every train that the drawer allows, and which of them goes on the banjo.
//!
//! # How the search works, and why it misses nothing
//!
//! A train of p pairs turns the leadscrew by (product of its drivers) ÷ (product of its driven
//! gears), times the fixed ratio and the gearbox's. A *selection* is p gears as drivers and p as
//! driven, whatever their order; 24 different gears have a million and a half of three pairs.
//! They are never all looked at:
//!
//! 1. **Products in order.** The products of every choice of one, two and three gears are made
//!    once ([`Tables`]), each product once, in ascending order, with the choices that make it.
//! 2. **Two pointers.** For a wanted ratio w and a driven product v only driver products from
//!    v·w·(1 − e) to v·w·(1 + e) can be within e of it. As v grows both ends of that window only
//!    move up, so one walk through both lists sees every couple of products within e. The window
//!    is worked in whole numbers and rounded outwards (`bounds`), so that nothing near enough falls
//!    outside it; whether a couple really is as near is then decided exactly, as a fraction (`miss`).
//! 3. **The window shrinks.** e is the error of the worst train still on the list. It begins without
//!    a limit and only ever falls, so whatever lies outside the window now could not have come
//!    on the list.
//! 4. **Mounting.** Every order of the six gears is tried by the shop's rule (`rule`): the rule
//!    compares sums of teeth, so it is boiled down to whole numbers, and nothing is lost by rounding.
//!    Sums that hold for any order put most selections aside unlooked at; those are proved against
//!    every selection of small gears.
//! 5. **When hardly anything goes on**, what comes near is the wrong end to begin with. Then the
//!    trains are built from the middle pair outwards, only what goes on, in the order of their
//!    ratios (`chains`). Which way is the shorter shows only on the way: both get a little work in
//!    turn, then twice as much, and whichever comes to its end has seen everything.
//!
//! Steps 1 to 4 leave out only what is further off than what is already held; step 5 replaces a
//! walk through everything near by a walk through everything mountable. So the answer is complete,
//! and where a limit on the work cuts it short (drawers and gearboxes at the limits under rules that
//! almost nothing meets) it says so in [`Found::complete`]. The tests hold it against the plain
//! version that tries everything, and the two ways of step 5 against each other.
//!
//! What more gears would do is another question and another search: see [`more`].

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
