//! A circle divided with what the shop has: its ways, its places, and the moves between them.

mod arrangement;
mod card;
mod divided;
mod indexing;
mod keys;
mod kit;
mod layout;
mod picture;
mod reading;
mod steps;
mod tool;
mod why;
mod words;

pub(super) use arrangement::{Arrangement, slide};
pub(super) use divided::{Circle, Unmade};
pub(super) use keys::way_node;
pub(super) use kit::{kit, wanted};
pub(super) use layout::{Cut, Layout};
pub(super) use reading::{plain, reading, starred};
pub(super) use steps::Work;
pub(super) use tool::Tool;
pub(super) use words::short;
