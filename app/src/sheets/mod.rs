//! What stands on the screen, as plain HTML from plain data: no browser needed to draw or test it.

mod answer;
mod bench;
mod keypad;
mod notices;
mod picture;
mod sentence;
mod setup;
mod setups;
mod shop;
mod title_block;

pub(crate) use answer::answer;
pub(crate) use bench::{Bench, bench, nothing_on};
pub(crate) use keypad::{keys, said, suggestions};
pub(crate) use notices::notices;
pub(crate) use sentence::element;
pub(crate) use setup::{OperationSheet, Shared, kinds, operation, setup_foot, setup_head, whose};
pub(crate) use setups::{SetupLine, setups};
pub(crate) use shop::{shop, shop_head};
pub(crate) use title_block::{Standing, name_of, title_block};

use crate::act::Act;
use maud::{Markup, html};

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
