//! Drawings to scale: plain figures in, one SVG string out.

// Drawings that no room shows yet; take this away when the last one is shown.
#![allow(dead_code, unused_imports)]

mod bar;
mod chasing_dial;
mod chip;
mod collar;
mod dimension;
mod fit_zones;
mod gear;
mod hatch;
mod leads;
mod lettering;
mod plate;
mod reckon;
mod rim;
mod scale;
mod seated_screw;
mod sheet;
mod speed_ladder;
mod taper;
mod thread_section;
mod train;

#[cfg(test)]
mod legible;
#[cfg(test)]
mod preview;

pub(crate) use bar::{Bar, bar};
pub(crate) use chasing_dial::{ChasingDial, chasing_dial};
pub(crate) use chip::{Chip, chip};
pub(crate) use collar::{Collar, collar, strip, strip_file};
pub(crate) use fit_zones::{FitZones, Zone, fit_zones};
pub(crate) use leads::{Lead, Stands, leads};
pub(crate) use plate::{DirectGear, Plate, direct_gear, plate};
pub(crate) use rim::{Mark, Rim, rim};
pub(crate) use scale::{Lengths, Numbers};
pub(crate) use seated_screw::{Seat, SeatedScrew, seated_screw};
pub(crate) use speed_ladder::{Speed, SpeedLadder, speed_ladder};
pub(crate) use taper::{Taper, taper};
pub(crate) use thread_section::{ThreadSection, thread_section};
pub(crate) use train::{Idler, Train, train};
