//! The chart of one's own lathe: every thread with its train, every division with its way, and what
//! more gears or circles would do.
//!
//! Everything that can take long is a job with a `step`: it goes on for as much as it is given and
//! says how far it has come, so that a page can show the first rows at once, work between two
//! frames, and stop. What stands there so far can be read at any time.
//!
//! # How a chart is worked, and why it misses nothing
//!
//! - **Threads and feeds** ([`Chart`]): threads of one lead share a train, so each different lead is
//!   searched once, by the complete search of [`gearing`](crate::gearing); its tables are made once
//!   for the whole chart. The rows come from the top. How a row stands is judged exactly (is it the very lead?) or by
//!   the error of lead over the nut as a growth of the pitch diameter, beside the tolerance of the
//!   screw's usual class.
//! - **Fewest gears changed** ([`Changes`]): a row may be cut with any train that is as good as
//!   its best and has as few pairs, all of which are known from the same search; each step
//!   takes the lead and the train for which the fewest gears are put on, with all its rows. Each step is the least; the
//!   sum over the whole chart needn't be (to promise that would be a travelling salesman's round).
//! - **Divisions** ([`Divisions`]): what teeth on the spindle, or turns and holes, divide exactly is simpler
//!   than anything with gears or two moves, so for those numbers the rest isn't looked for; for
//!   all others every way is.
//! - **More gears** ([`Advice`]): threads become wishes with a ratio for each position of the gearbox,
//!   divisions wishes with a ratio for each move on each circle (R − N·s/H turns of the plate for one of the
//!   spindle, as far as two pairs can reach), and [`more`](crate::gearing::more) searches for the
//!   gears that serve the most of both.
//! - **More circles** ([`Circles`]): a way of dividing uses one circle or two of one plate, so a new
//!   plate serves a number if one of its circles does or two of them do; all ones and twos are tried
//!   and every set is counted by what is in it.
//! - **Gears never needed** ([`Spare`]): each gear is taken away and every lead searched anew; it
//!   could be spared if no row is further off. What could go all at once is found by taking away one
//!   after the other, so that none of the rest could go as well; that no other choice would be
//!   larger isn't promised.

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
pub use csv::{csv, csv_line, word};
pub use divisions::{Divided, Divisions, simplest};
pub use feeds::{FEED_OFF, feeds};
pub use lathe::{Lathe, NoLathe, banjo_measured, mounting};
pub use order::{By, Changes, Only, Turn, changed, sorted};
pub use row::{Judged, Row, Standing};
pub use spare::{Spare, Spared};
pub use threads::{Chart, ROWS_MOST, all_and};
