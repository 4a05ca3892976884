//! Holes for screws, taps, reamers and dowels, from the drills that are owned.

mod clearance;
mod depth;
mod drills;
mod error;
mod heads;
mod pick;
mod ream;
mod tapping;

pub use clearance::{CLEARANCE_INCH, CLEARANCE_METRIC, ClearanceRow, Fit, clearance};
pub use depth::{
    COMMON_POINT_DEG, floor_left, full_depth_to_tip, pecks, point_length, tapped_depth,
    wall_beside, wall_round,
};
pub use drills::{DrillName, LETTERS, NUMBERS, find_drill, fraction_drill, name_of, series};
pub use error::HoleError;
pub use heads::{
    CAP_HEADS, COUNTERBORES, COUNTERSUNK_HEADS, CapHead, Counterbore, CountersunkHead, HeadSeries,
    cap_head, counterbore, counterbore_depth, countersink_depth, countersink_diameter,
    countersunk_head,
};
pub use pick::{at_least, at_most, nearest};
pub use ream::{Left, ream_allowance};
pub use tapping::{
    COARSE, Percent, hole_for_percent, percent_of_hole, tapping_drill, tapping_drill_of,
};
