//! A circle divided with what the shop has: its ways, its places, and the moves between them.

mod arrangement;
mod bench;
mod card;
mod divided;
mod keys;
mod kit;
mod mount;
mod picture;
mod reading;
mod tool;
mod why;
mod words;

pub(super) use arrangement::{Arrangement, slide};
pub(super) use bench::Work;
pub(super) use divided::{Circle, Unmade};
pub(super) use keys::way_node;
pub(super) use kit::{kit, wanted};
pub(super) use reading::{plain, reading, starred};
pub(super) use tool::Tool;
pub(super) use words::short;
