//! What is being typed, and where.

use super::Library;
use crate::platform;
use latheside_core::record::Shape;
use leptos::prelude::*;

/// The form that a blank belongs to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Target {
    /// An operation of a setup.
    Operation {
        /// The setup.
        setup: String,
        /// The operation's place in it.
        at: usize,
    },
    /// A form of the shop, by path.
    Shop(String),
}

impl Target {
    /// The form's name among the drafts.
    pub(crate) fn form(&self) -> String {
        match self {
            Target::Operation { at, .. } => at.to_string(),
            Target::Shop(path) => path.clone(),
        }
    }
}

/// A blank that is being filled in.
#[derive(Clone, Debug)]
pub(crate) struct Editing {
    /// Its form.
    pub(crate) target: Target,
    /// Its key.
    pub(crate) key: &'static str,
    /// What it is called.
    pub(crate) label: &'static str,
    /// What may stand in it.
    pub(crate) shape: &'static Shape,
}

impl PartialEq for Editing {
    fn eq(&self, other: &Editing) -> bool {
        self.target == other.target && self.key == other.key
    }
}

/// The keypad: what it fills in, and what was typed so far.
#[derive(Clone, Copy)]
pub(crate) struct Desk {
    /// The blank, where there is one.
    pub(crate) editing: RwSignal<Option<Editing>>,
    /// The text in its field.
    pub(crate) text: RwSignal<String>,
    /// Whether the next key replaces what stands there.
    pub(crate) fresh: RwSignal<bool>,
}

impl Desk {
    /// Nothing being typed.
    pub(crate) fn new() -> Desk {
        Desk {
            editing: RwSignal::new(None),
            text: RwSignal::new(String::new()),
            fresh: RwSignal::new(false),
        }
    }

    /// Opens the keypad for a blank.
    pub(crate) fn open(self, library: Library, target: Target, key: &str) {
        let Some((field, text)) = library.entry(&target, key) else { return };
        let editing = Editing { target, key: field.key, label: field.label, shape: &field.shape };
        self.text.set(text);
        self.fresh.set(true);
        let element = latheside_sheets::element(&editing.target.form(), editing.key);
        self.editing.set(Some(editing));
        platform::soon(move || platform::scroll_to(&element));
    }

    /// Closes it; the focus goes back to the blank.
    pub(crate) fn close(self) {
        let Some(editing) = self.editing.get_untracked() else { return };
        self.editing.set(None);
        platform::focus(&latheside_sheets::element(&editing.target.form(), editing.key));
    }

    /// Takes what was typed.
    pub(crate) fn typed(self, library: Library, text: String) {
        self.fresh.set(false);
        self.text.set(text.clone());
        if let Some(editing) = self.editing.get_untracked() {
            library.enter(&editing.target, editing.key, &text);
        }
    }

    /// Adds a key's character, in the place of everything where the field is fresh.
    pub(crate) fn key(self, library: Library, key: &str) {
        let mut text = if self.fresh.get_untracked() && !key.starts_with(' ') {
            String::new()
        } else {
            self.text.get_untracked()
        };
        text.push_str(key);
        self.typed(library, text);
    }

    /// Takes the last character off.
    pub(crate) fn rub(self, library: Library) {
        let mut text = self.text.get_untracked();
        text.pop();
        let text = text.trim_end().to_owned();
        self.typed(library, text);
    }
}
