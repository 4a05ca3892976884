//! Drawings to scale: plain figures in, one SVG string out.

mod gear;
mod lettering;
mod plate;
mod rim;
mod scale;
mod sheet;
mod speed_ladder;
mod train;

#[cfg(test)]
mod preview;

pub(crate) use plate::{DirectGear, Plate, direct_gear, plate};
pub(crate) use rim::{Mark, Rim, rim};
pub(crate) use scale::{Lengths, Numbers};
pub(crate) use speed_ladder::{Speed, SpeedLadder, speed_ladder};
pub(crate) use train::{Idler, Train, train};
