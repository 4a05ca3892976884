//! The feeds that the leadscrew gives: rounded values from the finest to the coarsest.

use crate::exact::Ratio;
use crate::threads::{Designation, INCH, Lead};
use alloc::vec::Vec;

/// Feeds in µm a turn, by tens to a decade. Source: ISO 3, R 10 (from memory).
const METRIC: &[u16] =
    &[25, 32, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000];
/// Feeds in 0.1 thou a turn. Common practice, no source.
const INCHES: &[u16] = &[10, 15, 20, 25, 30, 40, 50, 60, 80, 100, 120, 150, 200, 250, 300, 400];

/// How far off a feed may be and still be that feed: half the step of its row, or so. Common
/// practice, no source.
pub const FEED_OFF: Ratio = Ratio::of(1, 10);

/// The feeds of a chart, as leads: with the half-nuts closed the leadscrew feeds the carriage as it
/// cuts a thread.
#[must_use]
pub fn feeds(inch: bool) -> Vec<Designation> {
    let (rows, parts) = if inch { (INCHES, 10_000) } else { (METRIC, 1_000) };
    let feed = |row: &u16| {
        let feed = Ratio::of((*row).into(), parts);
        let mm = if inch { feed.mul(INCH).ok()? } else { feed };
        Some(Designation::of_lead(Lead::of_mm(mm)))
    };
    rows.iter().filter_map(feed).collect()
}
