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

impl SetupLine {
    /// Whether each of the words stands somewhere in it.
    pub fn has(&self, words: &str) -> bool {
        // Large and small letters are alike from A to Z: all of them cost the page a tenth.
        let all = [self.name.as_str(), &self.lines.join("\n")].join("\n").to_ascii_lowercase();
        words.to_ascii_lowercase().split(' ').all(|word| all.contains(word))
    }
}

/// The head of the list, with a field to look for one among several.
pub fn setups_head(several: bool) -> Markup {
    html! {
        header class="head" { h1 id="title" tabindex="-1" { "Setups" } }
        @if several {
            input id="search" class="search" type="search" data-field="search" autocomplete="off" spellcheck="false"
                aria-label="look for a setup" placeholder="look for a name, a thread, a kind";
        }
    }
}

/// The room of all setups, those used last first.
pub fn setups(
    setups: &[SetupLine],
    gone: Option<&str>,
    said: Option<&str>,
    aside: usize,
    open: bool,
) -> Markup {
    html! {
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
        @if setups.is_empty() { p class="small" { "None here." } }
        (key(&Act::NewSetup, "key brass wide", "New setup"))
        (fold("open", open, "Open a link or a file", &html! {
            div class="paste" {
                label for="paste" { "A link that somebody sent" }
                input id="paste" type="text" data-field="paste" autocomplete="off" spellcheck="false";
                (key(&Act::OpenLink, "key", "Open the link"))
                label for="import" { "A setup file, or a backup" }
                input id="import" type="file" data-field="import" accept="application/json,.json";
            }
        }))
        (key(&Act::Backup, "key wide", "Save everything as one file"))
        p class="small" {
            "Shop, setups, records and what is half typed. Opened here or on another device, it comes back as it was."
        }
        @if aside > 0 {
            div class="undo" {
                p { (aside) " damaged record(s) were set aside on this device, not thrown away." }
                (key(&Act::SaveAside, "key", "Save them as a file"))
            }
        }
    }
}
