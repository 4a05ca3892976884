//! What a tap does on the bench: on, back, and what is said of a step.

use super::Hand;
use super::bench::rework;
use crate::platform;
use latheside_core::record::Record;
use latheside_kept::{Place, Run};
use leptos::prelude::*;

/// After a step the bench is deaf for so many milliseconds: a second tap of the same thumb, a drip
/// or a palm does nothing.
const DEAF: f64 = 400.0;

impl Hand {
    /// Changes the run on the bench and keeps it.
    pub(super) fn change_run(self, change: &mut dyn FnMut(&mut Run)) {
        if let Place::Bench(id) = self.here.0.get_untracked()
            && let Some(mut run) = self.library.run(&id)
        {
            change(&mut run);
            self.library.set_run(&id, run);
        }
    }

    /// Says something of the present step, with what was typed.
    pub(super) fn say(self, what: &str) {
        if !self.hears() {
            return;
        }
        self.change_run(&mut |run| {
            let text = std::mem::take(&mut run.draft);
            let text = text.trim();
            if what != "note" || !text.is_empty() {
                run.say(what, text);
            }
        });
    }

    /// Whether the bench hears: it is deaf for a moment after each step.
    pub(super) fn hears(self) -> bool {
        let now = platform::now();
        let hears = now >= self.said.deaf_until.get_value();
        if hears {
            self.said.deaf_until.set_value(now + DEAF);
        }
        hears
    }

    /// Makes the bench deaf for a moment: a second finger or a drip.
    pub(crate) fn deafen(self) {
        self.said.deaf_until.set_value(platform::now() + DEAF);
    }

    pub(super) fn step(self, forward: bool) {
        self.step_with(None, forward);
    }

    /// On or back by a step, with a word for the record on the one that is left.
    pub(super) fn step_with(self, word: Option<&str>, forward: bool) {
        let Place::Bench(id) = self.here.0.get_untracked() else { return };
        let Some(run) = self.library.run(&id) else { return };
        let lens = self.said.lens.get_value();
        if lens.is_empty() || run.finished && forward || !self.hears() {
            return;
        }
        // Back from the first step of a run that was begun over: to where the other stood.
        if !forward && run.is_new() {
            if let Some(before) = Run::from_text(&self.said.before.get_value()) {
                self.said.before.set_value(String::new());
                self.library.set_run(&id, before);
                rework(self.library, self.said, &id);
            }
            return;
        }
        let now = platform::now();
        let mut run = if run.finished { run } else { run.within(&lens) };
        if let Some(word) = word {
            run.say(word, "");
        }
        let mut next = if forward { run.next(&lens, now) } else { run.back(&lens, now) };
        if !next.finished {
            next.title = platform::works::title(next.operation, next.step);
        }
        // A step skipped and gone back to is not skipped.
        let undone = |said: &&Record| {
            said.choice("what") == Some("skipped")
                && said.text("step") == Some(&next.title)
                && said.count("operation") == u32::try_from(next.operation + 1).ok()
        };
        if !forward {
            next.said = next.said.iter().filter(|said| !undone(said)).cloned().collect();
        }
        // First into the setup's record, then off the bench: nothing is lost in between.
        if next.finished {
            self.library.keep_made(&id, &next, &platform::wall());
        } else if run.finished {
            let began = run.began.as_str();
            self.library.change(&id, |saved| {
                saved.setup.made.retain(|made| made.text("began") != Some(began));
            });
        }
        self.said.returned.set(false);
        self.said.went_back.set(!forward);
        self.said.changed.set(String::new());
        self.library.set_run(&id, next);
        platform::to_top();
    }
}
