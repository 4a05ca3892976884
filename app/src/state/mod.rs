//! What the page holds: the shop, the setups, the work in hand, and what is being typed.

mod desk;
mod library;
mod notices;
mod said;
mod theme;

pub(crate) use desk::{Desk, Target};
pub(crate) use library::{Library, one_file};
pub(crate) use notices::{Notice, Notices};
pub(crate) use said::{Folds, Said};
pub(crate) use theme::Theme;

use latheside_kept::Place;
use leptos::prelude::RwSignal;

/// Where one is.
#[derive(Clone, Copy)]
pub(crate) struct Here(pub(crate) RwSignal<Place>);
