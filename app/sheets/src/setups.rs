//! The list of saved setups.

use super::{fold, key, name_of};
use crate::act::Act;
use maud::{Markup, html};

/// A setup in the list.
pub struct SetupLine {
    /// Its place.
    pub to: String,
    /// Its name.
    pub name: String,
    /// Its operations' sentences.
    pub lines: Vec<String>,
    /// Whether work on it is under way.
    pub running: bool,
}

/// The room of all setups.
pub fn setups(
    setups: &[SetupLine],
    gone: Option<&str>,
    said: Option<&str>,
    aside: usize,
    open: bool,
) -> Markup {
    html! {
        header class="head" { h1 id="title" tabindex="-1" { "Setups" } }
        @if let Some(name) = gone {
            div class="undo" role="status" {
                p { (name_of(name)) " was deleted." }
                (key(&Act::BringBack, "key", "Bring it back"))
            }
        }
        @if let Some(why) = said { p class="complaint" role="alert" { (why) } }
        ul class="entries" {
            @for setup in setups {
                li class="entry" {
                    a href=(setup.to) {
                        h2 { (name_of(&setup.name)) }
                        @for line in setup.lines.iter().take(3) { p { (line) } }
                        @if setup.lines.len() > 3 { p { "and " (setup.lines.len() - 3) " more" } }
                        @if setup.running { p class="running" { "on the bench" } }
                    }
                }
            }
        }
        (key(&Act::NewSetup, "key brass wide", "New setup"))
        (fold("open", open, "Open a link or a file", &html! {
            div class="paste" {
                label for="paste" { "A link that somebody sent" }
                input id="paste" type="text" data-field="paste" autocomplete="off" spellcheck="false";
                (key(&Act::OpenLink, "key", "Open the link"))
                label for="import" { "A setup file" }
                input id="import" type="file" data-field="import" accept="application/json,.json";
            }
        }))
        @if aside > 0 {
            div class="undo" {
                p { (aside) " damaged record(s) were set aside on this device, not thrown away." }
                (key(&Act::SaveAside, "key", "Save them as a file"))
            }
        }
    }
}
