//! Drawings to scale: plain figures in, one SVG string out.

mod gear;
mod lettering;
mod sheet;
mod train;

#[cfg(test)]
mod preview;

pub(crate) use train::{Idler, Train, train};
