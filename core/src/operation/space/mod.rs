//! Holes or lines in a row along a bar, each come to by a slide's dial.

mod bench;
mod card;
mod kind;
mod places;
mod spaced;

pub(super) use kind::{KIND, WORKS};
pub(super) use spaced::Spaced;
