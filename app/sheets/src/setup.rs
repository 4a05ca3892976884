//! One setup: its operations as sentences, and under each what this shop makes of it.

use super::sentence::{FormView, form};
use super::{fold, key, menu, name_of};
use crate::act::Act;
use latheside_core::operation::{KINDS, Operation};
use latheside_core::setup;
use maud::{Markup, PreEscaped, html};

/// The head of a setup's sheet: its name, to be typed over.
pub fn setup_head(name: &str) -> Markup {
    html! {
        header class="head" {
            h1 id="title" class="hidden" tabindex="-1" { (name_of(name)) }
            input class="name" type="text" data-field="name" aria-label="name of the setup"
                placeholder="Name this setup" maxlength=(setup::LONGEST_NAME) value=(name);
            (menu("this setup: more", &[
                (Act::Share, "Share the link"),
                (Act::HandOn, "Go on with another device"),
                (Act::Export, "Save as a file"),
                (Act::Duplicate, "Duplicate"),
                (Act::Delete, "Delete"),
            ]))
        }
    }
}

/// What became of a link that was shared.
pub struct Shared<'a> {
    /// What to say.
    pub words: &'a str,
    /// The link.
    pub url: &'a str,
    /// The same as a square, drawn.
    pub square: &'a str,
}

impl Shared<'_> {
    /// Said across the sheet.
    pub fn html(&self) -> Markup {
        html! {
            div class="shared" id="shared" role="status" {
                p { (self.words) }
                @if self.url.is_empty() { (key(&Act::Export, "key brass", "Save as a file")) }
                @else { input type="text" readonly aria-label="the link" value=(self.url); }
                @if !self.square.is_empty() { div class="qr" { (PreEscaped(self.square)) } }
                (key(&Act::PutAway, "key", "Put away"))
            }
        }
    }
}

/// Which shop the setup is worked for.
pub fn whose(theirs: &str, mine: &str, own: bool) -> Markup {
    html! {
        div class="whose" role="group" aria-label="worked for which shop" {
            span { "Worked for" }
            button type="button" class="key" aria-pressed=(!own) data-do=(Act::Own(false)) { (theirs) }
            button type="button" class="key" aria-pressed=(own) data-do=(Act::Own(true)) {
                (mine) ", my own"
            }
        }
    }
}

/// An operation's sentence, to be drawn.
pub struct Balloon<'a> {
    /// Its place.
    pub at: usize,
    /// What was entered.
    pub operation: &'a Operation,
    /// What is half typed.
    pub drafts: &'a [(String, String, String)],
    /// The key that the keypad is open for.
    pub editing: Option<&'a str>,
    /// Whether it may not be changed.
    pub fixed: bool,
}

/// An operation's balloon, sentence and menu.
pub fn balloon(sheet: &Balloon) -> Markup {
    let at = sheet.at;
    let number = at + 1;
    let sentence = sheet.operation.sentence();
    html! {
        div class="balloon" aria-hidden="true" { (number) }
        div class="op-body" {
            h2 class="hidden" { "Operation " (number) }
            @if sheet.fixed {
                p class="sentence" { (sentence.plain()) }
            } @else {
                (form(&FormView {
                    form: &at.to_string(),
                    sentence: &sentence,
                    drafts: sheet.drafts,
                    editing: sheet.editing,
                }))
            }
        }
        @if !sheet.fixed {
            (menu(&format!("operation {number}: more"), &[
                (Act::Up(at), "Move up"),
                (Act::Down(at), "Move down"),
                (Act::Twice(at), "Duplicate"),
                (Act::Out(at), "Take out"),
            ]))
        }
    }
}

/// The operations that can be added.
pub fn kinds(open: bool) -> Markup {
    fold(
        "kinds",
        open,
        "Add an operation",
        &html! {
            div class="kinds" {
                @for kind in KINDS { (key(&Act::Add(kind.name.to_owned()), "menu-key", kind.title)) }
            }
        },
    )
}

/// The foot of a setup's sheet: its note and the way to the bench.
pub fn setup_foot(
    note: &str,
    start: Option<(&str, bool)>,
    paper: &str,
    unread: bool,
    open: bool,
) -> Markup {
    html! {
        (fold("note", open, "note", &html! {
            textarea class="note-text" data-field="note" aria-label="note" rows="3" { (note) }
        }))
        @if let Some((place, running)) = start {
            @if unread {
                p class="small" { "An entry is unfinished: Bench waits until it is." }
            } @else {
                a class="key brass wide start" href=(place) {
                    @if running { "Go on at the bench" } @else { "Start work" }
                }
                div class="foot-keys" {
                    (key(&Act::Share, "key", "Share"))
                    a class="key" href=(paper) { "On paper" }
                }
            }
        }
    }
}
