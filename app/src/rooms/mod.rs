//! The three rooms, and what is shown of a setup that came by link.

mod bench;
mod link;
mod setup;
mod setups;
mod shop;

pub(crate) use bench::BenchRoom;
pub(crate) use link::LinkRoom;
pub(crate) use setup::SetupRoom;
pub(crate) use setups::SetupsRoom;
pub(crate) use shop::ShopRoom;
