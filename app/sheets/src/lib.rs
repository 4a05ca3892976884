//! What stands on the screen, as plain HTML from plain data: no browser needed to draw or test it.

pub mod act;
mod answer;
mod beat;
mod bench;
mod beside;
mod bound;
mod drawings;
mod keeping;
mod keypad;
mod link;
mod made;
mod notices;
mod order;
mod paper;
mod picture;
mod qr;
mod sentence;
mod setup;
mod setups;
mod shop;
mod table;
mod title_block;

pub use answer::{Folds, answer};
pub use bench::{Bench, nothing_on};
pub use beside::{Both, beside};
pub use keeping::keeping;
pub use keypad::{keys, said, suggestions};
pub use link::{from_link, no_link};
pub use made::made;
pub use notices::{Notice, notices};
pub use order::order;
pub use paper::{Paper, paper};
pub use picture::strip;
pub use qr::qr;
pub use sentence::{FormView, element, form};
pub use setup::{Balloon, Shared, balloon, kinds, setup_foot, setup_head, whose};
pub use setups::{SetupLine, setups, setups_head};
pub use shop::{Ground, shop, shop_head, told as shop_told};
pub use table::{how_far, rows_in, under_way};
pub use title_block::{Standing, name_of, title_block};

use crate::act::Act;
pub use maud::Markup;
use maud::html;

/// A key that does something.
fn key(act: &Act, class: &str, words: &str) -> Markup {
    html! { button type="button" class=(class) data-do=(act) { (words) } }
}

/// A menu behind three dots.
fn menu(label: &str, keys: &[(Act, &str)]) -> Markup {
    html! {
        details class="menu" {
            summary class="dots" aria-label=(label) { span aria-hidden="true" { "⋯" } }
            div class="menu-list" {
                @for (act, words) in keys { (key(act, "menu-key", words)) }
            }
        }
    }
}

/// Something to open; it stays as it was left when its sheet is drawn again.
fn fold(id: &str, open: bool, title: &str, body: &Markup) -> Markup {
    html! {
        details class="fold" data-fold=(id) open[open] {
            summary { (title) }
            (body)
        }
    }
}
