//! How fast to run and how fast to feed.

mod beat;
mod chip;
mod cut;
mod error;
mod feed;
mod force;
mod kinds;
mod part_off;
mod pick;
mod size;
mod sources;
mod speed;
mod speed_table;

pub use beat::{Beat, QUICKEST_BEAT_S, beat, hand_feed, slowest_by_hand};
pub use chip::{
    CHIP_CAP_MM, SAW_CHIP_MM, chip_loads, passes_to_depth, point_chip, point_width, saw_chip,
    saw_passes, slot_depth_share,
};
pub use cut::{Cut, cut};
pub use error::CuttingError;
pub use feed::{Feed, FeedUnit, feed_per_minute, feeds};
pub use force::{
    SpecificForce, bar_gives_mm, cutting_force_n, milled_chip_mm, power_w, specific_force,
    stiffness,
};
pub use kinds::{CutterMaterial, Process, Stock};
pub use part_off::{PartOff, part_off};
pub use pick::{ALLOWED, SpindlePick, Verdict, neighbours, pick_spindle};
pub use size::{
    BAR_OUT, CutKind, LAST_CUT_MM, SizeCut, SizeError, Slender, after_measuring, bar_depth,
    rough_depth, size_cuts, slender,
};
pub use speed::{RpmRange, Rule, SurfaceSpeed, rpm_at, rpm_range, surface_at, surface_speeds};
pub use speed_table::{PrintedUnit, SPEEDS, SpeedRow};
