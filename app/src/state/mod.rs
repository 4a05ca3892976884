//! What the page holds: the shop, the setups, the work in hand, and what is being typed.

mod desk;
mod library;
mod notices;
mod run;
mod said;
mod saved;
pub(crate) mod slots;
mod theme;

pub(crate) use desk::{Desk, Target};
pub(crate) use library::{Library, one_file};
pub(crate) use notices::{Notice, Notices};
pub(crate) use run::Run;
pub(crate) use said::{Folds, Said};
pub(crate) use saved::{Draft, Saved};
pub(crate) use theme::Theme;

use crate::place::Place;
use leptos::prelude::RwSignal;

/// Where one is.
#[derive(Clone, Copy)]
pub(crate) struct Here(pub(crate) RwSignal<Place>);
