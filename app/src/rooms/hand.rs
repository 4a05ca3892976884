//! What a tap does.

use super::bench::rework;
use crate::place::Place;
use crate::platform::{self, Browser, Shared};
use crate::state::{
    Desk, Draft, Folds, Here, Library, Notices, Run, Said, Saved, Target, Theme, slots,
};
use latheside_core::operation::{self, Operation};
use latheside_core::record::{Piece, Record};
use latheside_core::setup;
use latheside_sheets as sheets;
use latheside_sheets::act::Act;
use leptos::prelude::*;

/// After a step the bench is deaf for so many milliseconds: a second tap of the same thumb, a drip
/// or a palm does nothing.
const DEAF: f64 = 400.0;

/// A longer link is cut short by some messenger.
const LONGEST_LINK: usize = 2000;

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
            Act::Up(at) => self.rearrange(&|saved| swap(saved, at, at.wrapping_sub(1))),
            Act::Down(at) => self.rearrange(&|saved| swap(saved, at, at.saturating_add(1))),
            Act::Twice(at) => self.rearrange(&|saved| put_in(saved, at)),
            Act::Out(at) => self.rearrange(&|saved| take_out(saved, at)),
            Act::Arrange(places) => {
                let places = places.split(' ').filter_map(|at| at.parse().ok());
                let places: Vec<usize> = places.collect();
                self.rearrange(&|saved| arrange(saved, &places));
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
            Act::Strip(at) => self.strip(at),
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

    /// Changes the run on the bench and keeps it.
    fn change_run(self, change: &mut dyn FnMut(&mut Run)) {
        if let Place::Bench(id) = self.here.0.get_untracked()
            && let Some(mut run) = self.library.run(&id)
        {
            change(&mut run);
            self.library.set_run(&id, run);
        }
    }

    /// Says something of the present step, with what was typed.
    fn say(self, what: &str) {
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

    /// What is in view, to be sent: a setup with its shop, or the shop alone.
    fn in_view(self) -> Option<setup::Setup> {
        match self.here.0.get_untracked() {
            Place::Setup(id) => self.library.whole(&id),
            Place::Shop => {
                let shop = self.library.shop();
                let name = shop.text("name").unwrap_or_default().to_owned();
                Some(setup::Setup { name, shop, ..setup::Setup::default() })
            }
            _ => None,
        }
    }

    /// Where the work on the setup in view stands, if it is under way.
    fn place(self) -> Option<(usize, usize)> {
        let Place::Setup(id) = self.here.0.get_untracked() else { return None };
        let run = self.library.run(&id).filter(|run| !run.finished && !run.is_new())?;
        Some((run.operation, run.step))
    }

    /// Sends a setup as a link; what no messenger carries, as a file.
    fn share(self, setup: Option<setup::Setup>) {
        let link = setup.and_then(|setup| Some((platform::works::link(&setup)?, setup)));
        let Some((link, setup)) = link else { return };
        let url = format!("{}#{link}", platform::address());
        let (shown, said) = (url.clone(), self.said);
        if url.len() > LONGEST_LINK {
            let words = "This is too much for a link: over 2,000 letters. Send it as a file.";
            said.shared.set(Some((words, String::new())));
            return platform::soon(|| platform::scroll_to("shared"));
        }
        platform::share(sheets::name_of(&setup.name), &url, move |how| {
            let words = match how {
                Shared::Sheet => "Sent.",
                Shared::Copied => "The link is on the clipboard.",
                Shared::Shown => "Copy this link by hand:",
            };
            said.shared.set(Some((words, shown.clone())));
            platform::soon(|| platform::scroll_to("shared"));
        });
    }

    fn export(self) {
        let Some(setup) = self.in_view() else { return };
        let name = format!("{}.latheside.json", file_name(&setup.name));
        platform::save_file(&name, &setup::write_file(&setup));
    }

    fn strip(self, at: usize) {
        let Some(setup) = self.in_view() else { return };
        if let Some(svg) = platform::works::strip(&setup::write_file(&setup), at) {
            platform::save_file(&format!("{}-{}.svg", file_name(&setup.name), at + 1), &svg);
        }
    }

    fn duplicate(self) {
        let Place::Setup(id) = self.here.0.get_untracked() else { return };
        let Some(saved) = self.library.setup(&id) else { return };
        let mut setup = saved.setup;
        setup.name = format!("{} again", sheets::name_of(&setup.name));
        setup.name = setup.name.chars().take(setup::LONGEST_NAME).collect();
        let id = self.library.add(setup, saved.own);
        platform::go(&Place::Setup(id).to_string());
    }

    fn save_link(self) {
        let Place::Link(link) = self.here.0.get_untracked() else { return };
        if let Some(Ok(setup)) = platform::works::unlink(&link) {
            if setup.operations.is_empty() && !setup.shop.is_empty() {
                self.library.take_shop(setup.shop);
                return platform::replace_fragment(&Place::Shop.to_string());
            }
            let own = self.said.own.get_untracked() || setup.shop.is_empty();
            let under_way = setup.place.is_some();
            let id = self.library.add(setup, own);
            let place = if under_way { Place::Bench(id) } else { Place::Setup(id) };
            platform::replace_fragment(&place.to_string());
        }
    }

    /// Whether the bench hears: it is deaf for a moment after each step.
    fn hears(self) -> bool {
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

    fn step(self, forward: bool) {
        self.step_with(None, forward);
    }

    /// On or back by a step, with a word for the record on the one that is left.
    fn step_with(self, word: Option<&str>, forward: bool) {
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

/// A setup's name as a file's.
fn file_name(name: &str) -> String {
    let plain = |c: char| if c.is_ascii_alphanumeric() { c } else { '-' };
    sheets::name_of(name).chars().map(plain).collect()
}

/// Moves a draft along with its operation.
fn shift(drafts: &mut [Draft], to: impl Fn(usize) -> usize) {
    for draft in drafts {
        if let Ok(at) = draft.form.parse::<usize>() {
            draft.form = to(at).to_string();
        }
    }
}

fn swap(saved: &mut Saved, a: usize, b: usize) {
    let len = saved.setup.operations.len();
    if a < len && b < len {
        saved.setup.operations.swap(a, b);
        shift(&mut saved.drafts, |n| {
            if n == a {
                b
            } else if n == b {
                a
            } else {
                n
            }
        });
    }
}

/// Puts the operations into the order of these places; what isn't a whole order is none.
fn arrange(saved: &mut Saved, places: &[usize]) {
    let len = saved.setup.operations.len();
    let whole = places.len() == len && (0..len).all(|at| places.contains(&at));
    if whole {
        let operations = places.iter().map(|at| saved.setup.operations[*at].clone());
        saved.setup.operations = operations.collect();
        shift(&mut saved.drafts, |n| places.iter().position(|at| *at == n).unwrap_or(n));
    }
}

fn put_in(saved: &mut Saved, at: usize) {
    if saved.setup.operations.len() < setup::MOST_OPERATIONS
        && let Some(operation) = saved.setup.operations.get(at).cloned()
    {
        shift(&mut saved.drafts, |n| if n > at { n + 1 } else { n });
        saved.setup.operations.insert(at + 1, operation);
    }
}

fn take_out(saved: &mut Saved, at: usize) {
    if at < saved.setup.operations.len() {
        saved.setup.operations.remove(at);
        saved.drafts.retain(|draft| draft.form != at.to_string());
        shift(&mut saved.drafts, |n| if n > at { n - 1 } else { n });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn saved() -> Saved {
        let setup = setup::read_file(crate::demo::EXAMPLE).unwrap();
        let mut saved = Saved::new("x".into(), setup, true, 0.0);
        for form in ["0", "2"] {
            saved.drafts.push(Draft { form: form.into(), key: form.into(), text: "?".into() });
        }
        saved
    }

    /// Each draft stays with the operation that it was typed into.
    #[test]
    fn drafts_move_with_their_operations() {
        let forms = |saved: &Saved| -> Vec<String> {
            saved.drafts.iter().map(|draft| draft.form.clone()).collect()
        };
        let mut s = saved();
        swap(&mut s, 0, 1);
        assert_eq!(forms(&s), ["1", "2"]);
        swap(&mut s, 0, 0_usize.wrapping_sub(1));
        assert_eq!(forms(&s), ["1", "2"]);
        let mut s = saved();
        arrange(&mut s, &[2, 0, 1]);
        assert_eq!(forms(&s), ["1", "0"]);
        assert_eq!(s.setup.operations[0].kind.name, "cut");
        for broken in [&[0, 1][..], &[0, 0, 1], &[0, 1, 3]] {
            let before = s.clone();
            arrange(&mut s, broken);
            assert_eq!(s, before);
        }
        let mut s = saved();
        put_in(&mut s, 0);
        assert_eq!((forms(&s), s.setup.operations.len()), (vec!["0".into(), "3".into()], 4));
        take_out(&mut s, 0);
        assert_eq!((forms(&s), s.setup.operations.len()), (vec!["2".into()], 3));
    }
}
