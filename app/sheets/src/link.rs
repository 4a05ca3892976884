//! A setup that came by link.

use super::{Balloon, balloon, key, name_of};
use crate::act::Act;
use latheside_core::setup::Setup;
use maud::{Markup, PreEscaped, html};

/// Why a link can't be opened.
pub fn no_link(why: &str) -> Markup {
    html! {
        header class="head" { h1 id="title" tabindex="-1" { "This link can't be opened" } }
        p class="complaint" role="alert" { (why) }
        p class="small" { "Nothing here has been changed." }
        a class="key" href="#setups" { "My setups" }
    }
}

/// The setup of a link, with each operation's answer as drawn by the works; `more` stands before
/// them: both shops' answers beside each other, or the shop where it came alone.
pub fn from_link(setup: &Setup, whose: Option<Markup>, more: &str, answers: &[String]) -> Markup {
    html! {
        header class="head" { h1 id="title" tabindex="-1" { (name_of(&setup.name)) } }
        p class="small" { "Opened from a link. Nothing is saved until you say so." }
        @if !setup.note.is_empty() { p class="note" { (setup.note) } }
        @if let Some(whose) = whose { (whose) }
        @if let Some((operation, step)) = setup.place {
            p class="note" {
                "On the bench: operation " (operation + 1) ", step " (step + 1) ". Saved here, it goes on from there."
            }
        }
        (PreEscaped(more))
        @for (at, (operation, answer)) in setup.operations.iter().zip(answers).enumerate() {
            section class="op" {
                div class="op-head" {
                    (balloon(&Balloon { at, operation, drafts: &[], editing: None, fixed: true }))
                }
                (PreEscaped(answer))
            }
        }
        @if setup.operations.is_empty() && !setup.shop.is_empty() {
            (key(&Act::SaveLink, "key brass wide start", "Use this shop as mine"))
            p class="small" { "Yours is put by: “Bring the last one back” in the shop's menu." }
        } @else {
            (key(&Act::SaveLink, "key brass wide start", "Save this setup"))
        }
    }
}
