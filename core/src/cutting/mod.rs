//! How fast to run and how fast to feed.

mod beat;
mod chip;
mod cut;
mod error;
mod feed;
mod kinds;
mod pick;
mod sources;
mod speed;
mod speed_table;

pub use beat::{Beat, QUICKEST_BEAT_S, beat};
pub use chip::{CHIP_CAP_MM, chip_loads, passes_to_depth, slot_depth_share};
pub use cut::{Cut, cut};
pub use error::CuttingError;
pub use feed::{Feed, FeedUnit, feed_per_minute, feeds};
pub use kinds::{CutterMaterial, Process, Stock};
pub use pick::{SpindlePick, Verdict, neighbours, pick_spindle};
pub use speed::{RpmRange, Rule, SurfaceSpeed, rpm_at, rpm_range, surface_at, surface_speeds};
pub use speed_table::{PrintedUnit, SPEEDS, SpeedRow};
