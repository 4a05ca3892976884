//! One setup: its operations as sentences, and under each what this shop makes of it.

use super::sentence::{FormView, form};
use super::{answer, fold, key, menu, name_of};
use crate::act::Act;
use latheside_core::operation::{Answer, KINDS, Operation};
use latheside_core::record::Record;
use latheside_core::setup;
use maud::{Markup, html};

/// The head of a setup's sheet: its name, to be typed over.
pub(crate) fn setup_head(name: &str) -> Markup {
    html! {
        header class="head" {
            h1 id="title" class="hidden" tabindex="-1" { (name_of(name)) }
            input class="name" type="text" data-field="name" aria-label="name of the setup"
                placeholder="Name this setup" maxlength=(setup::LONGEST_NAME) value=(name);
            (menu("this setup: more", &[
                (Act::Share, "Share the link"),
                (Act::Export, "Save as a file"),
                (Act::Duplicate, "Duplicate"),
                (Act::Delete, "Delete"),
            ]))
        }
    }
}

/// What became of a link that was shared.
pub(crate) struct Shared<'a> {
    /// What to say.
    pub(crate) words: &'a str,
    /// The link.
    pub(crate) url: &'a str,
}

impl Shared<'_> {
    /// Said across the sheet.
    pub(crate) fn html(&self) -> Markup {
        html! {
            div class="shared" role="status" {
                p { (self.words) }
                input type="text" readonly aria-label="the link" value=(self.url);
                (key(&Act::PutAway, "key", "Put away"))
            }
        }
    }
}

/// Which shop the setup is worked for.
pub(crate) fn whose(theirs: &str, mine: &str, own: bool) -> Markup {
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

/// An operation to be drawn.
pub(crate) struct OperationSheet<'a> {
    /// Its place.
    pub(crate) at: usize,
    /// What was entered.
    pub(crate) operation: &'a Operation,
    /// What it comes to.
    pub(crate) answer: &'a Answer,
    /// The last good answer, and what it was for.
    pub(crate) last: Option<&'a (String, Answer)>,
    /// The shop it is worked for.
    pub(crate) shop: &'a Record,
    /// What is half typed.
    pub(crate) drafts: &'a [(String, String, String)],
    /// The key that the keypad is open for.
    pub(crate) editing: Option<&'a str>,
    /// Whether it may be changed.
    pub(crate) fixed: bool,
}

/// An operation with its balloon, sentence and answer.
pub(crate) fn operation(sheet: &OperationSheet, open: &dyn Fn(&str) -> bool) -> Markup {
    let at = sheet.at;
    let number = at + 1;
    let name = at.to_string();
    let sentence = sheet.operation.sentence();
    let view =
        FormView { form: &name, sentence: &sentence, drafts: sheet.drafts, editing: sheet.editing };
    let unread = !sheet.drafts.is_empty();
    let refused = sheet.answer.refused.is_some();
    html! {
        div class="balloon" aria-hidden="true" { (number) }
        div class="op-body" {
            h2 class="hidden" { "Operation " (number) }
            @if sheet.fixed {
                p class="sentence" { (sentence.plain()) }
            } @else {
                (form(&view))
            }
        }
        @if !sheet.fixed {
            (menu(&format!("operation {number}: more"), &[
                (Act::Up(at), "Move up"),
                (Act::Down(at), "Move down"),
                (Act::Twice(at), "Once more"),
                (Act::Out(at), "Take out"),
            ]))
        }
        @if unread {
            // What is typed isn't understood: the last good answer stays, plainly out of force.
            (answer(sheet.answer, Some(&sentence.plain()), sheet.shop, &name, open))
        } @else {
            (answer(sheet.answer, None, sheet.shop, &name, open))
            @if refused { @if let Some((words, last)) = sheet.last {
                (answer(last, Some(words), sheet.shop, &format!("{name}-last"), open))
            } }
        }
    }
}

/// The operations that can be added.
pub(crate) fn kinds(open: bool) -> Markup {
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
pub(crate) fn setup_foot(
    note: &str,
    start: Option<(&str, bool)>,
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
                (key(&Act::Share, "key wide share", "Share"))
            }
        }
    }
}
