//! Cones: how far to swing the compound, how far to set the tailstock over, and how to check it.

mod named;
mod taper;

pub use named::{Family, NAMED, NamedTaper, find};
pub use taper::{Check, Taper, TaperError, half_angle_from_discs, travel_for};
