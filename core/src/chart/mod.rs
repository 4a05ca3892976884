//! The chart of one's own lathe: every thread with its train, every division with its way, and what
//! more gears or circles would do.
//!
//! TODO

mod advice;
mod circles;
mod csv;
mod divisions;
mod feeds;
mod lathe;
mod order;
mod row;
mod spare;
mod threads;

pub use crate::gearing::more::{Added, More, Progress};
pub use advice::{Advice, Allowed, Wants};
pub use circles::Circles;
pub use csv::{csv, word};
pub use divisions::{Divided, Divisions, simplest};
pub use feeds::{FEED_OFF, feeds};
pub use lathe::{Lathe, NoLathe};
pub use order::{By, Only, Turn, changed, fewest_changes, sorted};
pub use row::{Judged, Row, Standing};
pub use spare::{Spare, Spared};
pub use threads::{Chart, ROWS_MOST, all_and};
