//! What a tap does.

use super::bench::rework;
use crate::platform::{self, Browser};
use crate::state::{Desk, Folds, Here, Library, Notices, Said, Target, Theme};
use latheside_core::operation::{self, Operation};
use latheside_core::record::Piece;
use latheside_core::setup;
use latheside_kept::{Draft, Place, Run, Saved, slots};
use latheside_sheets::act::Act;
use leptos::prelude::*;

/// The hand that carries acts out.
#[derive(Clone, Copy)]
pub(crate) struct Hand {
    pub(crate) library: Library,
    pub(crate) desk: Desk,
    pub(crate) here: Here,
    pub(crate) said: Said,
    pub(crate) notices: Notices,
    pub(crate) folds: Folds,
}

impl Hand {
    /// Carries out an act.
    pub(crate) fn carry_out(self, act: Act) {
        match act {
            Act::Blank(form, key) => self.open(&form, &key),
            Act::Type(text) => self.desk.key(self.library, &text),
            Act::Rub => self.desk.rub(self.library),
            Act::Choose(text) => {
                self.desk.typed(self.library, text);
                self.close();
            }
            Act::Done => self.close(),
            Act::Next => self.next_blank(),
            Act::Up(at) => self.rearrange(&|saved| saved.swap(at, at.wrapping_sub(1))),
            Act::Down(at) => self.rearrange(&|saved| saved.swap(at, at.saturating_add(1))),
            Act::Twice(at) => self.rearrange(&|saved| saved.repeat(at)),
            Act::Out(at) => self.rearrange(&|saved| saved.take_out(at)),
            Act::Arrange(places) => {
                let places = places.split(' ').filter_map(|at| at.parse().ok());
                let places: Vec<usize> = places.collect();
                self.rearrange(&|saved| saved.arrange(&places));
            }
            Act::Add(kind) => {
                self.folds.note("kinds", false);
                self.add(&kind);
            }
            Act::Share => self.share(self.in_view()),
            Act::HandOn => self
                .share(self.in_view().map(|setup| setup::Setup { place: self.place(), ..setup })),
            Act::Export => self.export(),
            Act::Duplicate => self.duplicate(),
            Act::Delete => {
                if let Place::Setup(id) = self.here.0.get_untracked() {
                    self.library.delete(&id);
                    platform::go("#setups");
                }
            }
            Act::BringBack => self.library.bring_back(),
            Act::Own(own) => match self.here.0.get_untracked() {
                Place::Link(_) => self.said.own.set(own),
                _ => self.change(|saved| saved.own = own),
            },
            Act::NewSetup => {
                let id = self.library.add_own(setup::Setup::default());
                platform::go(&Place::Setup(id).to_string());
            }
            Act::OpenLink => {
                let opened = platform::works::unlink(&self.said.pasted.get_untracked());
                match opened.unwrap_or_else(|| Err("wait a moment, then open it again".to_owned()))
                {
                    Ok(setup) => {
                        self.said.wrong.set(None);
                        let link = platform::works::link(&setup).unwrap_or_default();
                        platform::go(&Place::Link(link).to_string());
                    }
                    Err(why) => self.said.wrong.set(Some(why)),
                }
            }
            Act::SaveLink => self.save_link(),
            Act::OneMore(path) => {
                let (parent, list) = path.rsplit_once('.').unwrap_or(("", &path));
                self.library.change_shop(|shop| {
                    let count = shop.at(parent).map_or(0, |form| form.list(list).len());
                    shop.change(&format!("{path}.{count}"), |_| ());
                });
            }
            Act::TakeOut(path, at) => {
                let (parent, list) = path.rsplit_once('.').unwrap_or(("", &path));
                self.library.take_from_shop(parent, list, at);
            }
            Act::Ground(word) => self.library.set_theme(Theme::of(&word)),
            Act::EmptyShop => self.library.empty_shop(),
            Act::LastShop => self.library.last_shop(),
            Act::Forward => self.step(true),
            Act::Back => self.step(false),
            Act::NotYet => {
                if self.hears() {
                    self.said.returned.set(false);
                }
            }
            Act::Again | Act::Over => {
                if self.hears()
                    && let Place::Bench(id) = self.here.0.get_untracked()
                {
                    if let Some(run) = self.library.run(&id).filter(|run| !run.said.is_empty()) {
                        // What was finished is in the record already.
                        if !run.finished {
                            self.library.keep_made(&id, &run, "");
                        }
                    }
                    let before = self.library.run(&id).filter(|run| !run.finished);
                    let before = before.map_or(String::new(), |run| run.to_text());
                    self.said.before.set_value(before);
                    self.library.begin(&id);
                    self.said.lens.set_value(Vec::new());
                    rework(self.library, self.said, &id);
                    platform::to_top();
                }
            }
            Act::Skip => self.step_with(Some("skipped"), true),
            Act::Repeat => self.say("repeated"),
            Act::Note => self.say("note"),
            Act::Wrong => self.say("went-wrong"),
            Act::Unsay(at) => self.change_run(&mut |run| {
                if at < run.said.len() {
                    run.said.remove(at);
                }
            }),
            Act::Seen(at) => {
                let notice = self.notices.0.read_untracked().get(at).copied();
                if let Some(notice) = notice {
                    self.notices.take_down(notice);
                }
            }
            Act::Update => platform::update_now(),
            Act::Backup => {
                let day: String = platform::wall().chars().take(10).collect();
                let name = format!("latheside-backup-{day}.json");
                if let Some(all) = platform::works::backup() {
                    platform::save_file(&name, &all);
                }
            }
            Act::Persist => {
                let said = self.said;
                platform::kept(true, move |on| said.kept.set(on));
            }
            Act::Install => platform::install(),
            Act::SaveAside => {
                let all: Vec<String> = slots::aside(&Browser)
                    .into_iter()
                    .map(|(key, text)| format!("{key}\n{text}\n"))
                    .collect();
                platform::save_file("latheside-set-aside.txt", &all.join("\n"));
            }
            Act::PutAway => self.said.shared.set(None),
            Act::Print => platform::print(),
            Act::Strip(at) => self.keep(platform::works::strip, at, "svg"),
            Act::Rows(at) => self.keep(platform::works::rows, at, "csv"),
        }
    }

    fn open(self, form: &str, key: &str) {
        let target = match (self.here.0.get_untracked(), form.parse::<usize>()) {
            (Place::Setup(setup) | Place::Bench(setup), Ok(at)) => Target::Operation { setup, at },
            _ => Target::Shop(if form == "shop" { String::new() } else { form.to_owned() }),
        };
        self.desk.open(self.library, target, key);
    }

    fn change(self, change: impl FnOnce(&mut Saved)) {
        if let Place::Setup(id) = self.here.0.get_untracked() {
            self.library.change(&id, change);
        }
    }

    /// Changes the order of the operations; work under way goes with the operation that it is at.
    fn rearrange(self, change: &dyn Fn(&mut Saved)) {
        let Place::Setup(id) = self.here.0.get_untracked() else { return };
        let Some(run) = self.library.run(&id) else { return self.change(change) };
        // A draft that stands for the place moves as every other does.
        let here =
            || Draft { form: run.operation.to_string(), key: String::new(), text: String::new() };
        let mut moved = None;
        self.library.change(&id, |saved| {
            saved.drafts.push(here());
            change(saved);
            let mark = saved.drafts.iter().position(|draft| draft.key.is_empty());
            moved = mark.and_then(|mark| saved.drafts.remove(mark).form.parse().ok());
        });
        match moved {
            Some(operation) if operation == run.operation => {}
            Some(operation) => self.library.set_run(&id, Run { operation, ..run }),
            // The operation is gone: on at the first step of what stands there now.
            None => self.library.set_run(&id, Run { step: 0, title: String::new(), ..run }),
        }
    }

    /// Goes on to the next blank of the sentence, or closes the keypad after the last.
    fn next_blank(self) {
        let next = (|| {
            let editing = self.desk.editing.get_untracked()?;
            if matches!(*self.here.0.read_untracked(), Place::Bench(_)) {
                return None;
            }
            let Target::Operation { setup, at } = &editing.target else { return None };
            let saved = self.library.setup(setup)?;
            let pieces = saved.setup.operations.get(*at)?.sentence().pieces;
            let mut keys = pieces.iter().filter_map(|piece| match piece {
                Piece::Blank { key, .. } => Some(*key),
                Piece::Words(_) => None,
            });
            keys.find(|key| *key == editing.key)?;
            Some((editing.target.clone(), keys.next()?))
        })();
        match next {
            Some((target, key)) => self.desk.open(self.library, target, key),
            None => self.close(),
        }
    }

    /// Closes the keypad. On the bench what was typed is a measurement: it goes into the run's
    /// record, and the rest is worked again by it.
    fn close(self) {
        let editing = self.desk.editing.get_untracked();
        self.desk.close();
        let (Place::Bench(id), Some(editing)) = (self.here.0.get_untracked(), editing) else {
            return;
        };
        if !self.library.drafts(&editing.target).is_empty() {
            return;
        }
        let entered = self.library.entry(&editing.target, editing.key);
        let text = entered.map(|(_, text)| text).unwrap_or_default();
        let mut new = false;
        self.change_run(&mut |run| {
            let last = run.said.iter().rfind(|said| said.choice("what") == Some("measured"));
            let known = last.and_then(|said| said.text("text")).unwrap_or_default();
            new = known != text;
            if new && !text.is_empty() {
                run.say("measured", &text);
            }
        });
        if new {
            rework(self.library, self.said, &id);
        }
    }

    fn add(self, kind: &str) {
        let Some(kind) = operation::kind(kind) else { return };
        let mut at = 0;
        self.change(|saved| {
            at = saved.setup.operations.len();
            if at < setup::MOST_OPERATIONS {
                saved.setup.operations.push(Operation::new(kind));
            }
        });
        // The first blank is asked for at once.
        let first =
            Operation::new(kind).sentence().pieces.into_iter().find_map(|piece| match piece {
                Piece::Blank { key, .. } => Some(key),
                Piece::Words(_) => None,
            });
        if let Some(key) = first {
            self.open(&at.to_string(), key);
        }
        platform::soon(move || platform::scroll_to(&format!("op-{at}")));
    }

    /// A key of the keyboard or of a pedal: whether it was one of ours.
    pub(crate) fn pressed(self, key: &str, in_field: bool) -> bool {
        if self.desk.editing.read_untracked().is_some() {
            match key {
                "Enter" if in_field => self.next_blank(),
                "Escape" => self.close(),
                _ => return false,
            }
            return true;
        }
        let on_bench = matches!(*self.here.0.read_untracked(), Place::Bench(_));
        if !on_bench || in_field || self.said.returned.get_untracked() {
            return false;
        }
        match key {
            "ArrowRight" | "PageDown" | " " => self.step(true),
            "ArrowLeft" | "PageUp" => self.step(false),
            _ => return false,
        }
        true
    }
}
