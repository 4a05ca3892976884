//! The shop and the saved setups, every change kept at once.

mod entries;

use super::{Notice, Notices, Theme};
use crate::platform::{self, Browser};
use latheside_core::operation::Operation;
use latheside_core::record::Record;
use latheside_core::setup::{self, Setup};
use latheside_kept::slots::{self, Keeper, NotKept};
use latheside_kept::{self as kept, Draft, Run, Saved};
use leptos::prelude::*;
use std::collections::BTreeMap;

/// Everything that is kept.
#[derive(Clone, Copy)]
pub(crate) struct Library {
    shop: RwSignal<Record>,
    shop_drafts: RwSignal<Vec<Draft>>,
    setups: RwSignal<Vec<Saved>>,
    runs: RwSignal<BTreeMap<String, Run>>,
    theme: RwSignal<Theme>,
    gone: RwSignal<Option<Saved>>,
    cleared: RwSignal<()>,
    notices: Notices,
}

/// The example's name in every address: a place in it can be written down beforehand.
const EXAMPLE: &str = "example";

impl Library {
    /// Reads what is kept; a first visit finds the example.
    pub(crate) fn open(notices: Notices) -> Library {
        let example = setup::read_file(kept::EXAMPLE).unwrap_or_default();
        let library = Library {
            shop: RwSignal::new(example.shop.clone()),
            shop_drafts: RwSignal::default(),
            setups: RwSignal::default(),
            runs: RwSignal::default(),
            theme: RwSignal::new(Theme::Device),
            gone: RwSignal::new(None),
            cleared: RwSignal::new(()),
            notices,
        };
        if !Browser::works() {
            notices.put_up(Notice::Forbidden);
        }
        let known = slots::names(&Browser, "");
        for name in &known {
            library.take_in(name);
        }
        if !known.iter().any(|name| name == "seen") {
            library.add_own_as(EXAMPLE.to_owned(), example);
            library.keep_shop();
            library.keep("seen", "1");
        }
        library
    }

    /// Reads one record again: at the start, or when another tab has written it.
    pub(crate) fn take_in(self, name: &str) {
        let kept = slots::read(&Browser, name);
        if kept.newer {
            self.notices.put_up(Notice::Newer);
        }
        if kept.set_aside {
            self.notices.put_up(Notice::SetAside);
        }
        let unreadable = |content: &str| {
            slots::set_aside(&Browser, &format!("latheside.{name}.unread"), content);
            self.notices.put_up(Notice::SetAside);
        };
        match (name.split_once('.'), kept.content) {
            (None, Some(content)) if name == "shop" => match kept::shop_from_text(&content) {
                Some((shop, drafts)) => {
                    self.shop.set(shop);
                    self.shop_drafts.set(drafts);
                }
                None => unreadable(&content),
            },
            (None, Some(content)) if name == "theme" => self.theme.set(Theme::of(&content)),
            (Some(("setup", id)), Some(content)) => match Saved::from_text(id, &content) {
                Some(saved) => self.setups.update(|setups| {
                    match setups.iter_mut().find(|other| other.id == id) {
                        Some(other) => *other = saved,
                        None => setups.push(saved),
                    }
                }),
                None => unreadable(&content),
            },
            (Some(("run", id)), Some(content)) => {
                if let Some(run) = Run::from_text(&content) {
                    self.runs.update(|runs| _ = runs.insert(id.to_owned(), run));
                }
            }
            (Some(("setup", id)), None) if !kept.newer => {
                self.setups.update(|setups| setups.retain(|saved| saved.id != id));
            }
            (Some(("run", id)), None) => self.runs.update(|runs| _ = runs.remove(id)),
            _ => {}
        }
    }

    fn keep(self, name: &str, content: &str) {
        match slots::write(&Browser, name, content) {
            Ok(()) => self.notices.take_down(Notice::Full),
            Err(NotKept::Newer) => self.notices.put_up(Notice::Newer),
            Err(NotKept::Refused) => {
                self.notices.put_up(if Browser::works() { Notice::Full } else { Notice::Forbidden })
            }
        }
    }

    fn keep_shop(self) {
        let text =
            kept::shop_to_text(&self.shop.read_untracked(), &self.shop_drafts.read_untracked());
        self.keep("shop", &text);
    }

    /// The ground that was chosen.
    pub(crate) fn theme(self) -> Theme {
        self.theme.get()
    }

    /// Chooses a ground.
    pub(crate) fn set_theme(self, theme: Theme) {
        self.theme.set(theme);
        self.keep("theme", theme.word());
    }

    /// The person's own shop.
    pub(crate) fn shop(self) -> Record {
        self.shop.get()
    }

    /// The saved setups, last used first.
    pub(crate) fn setups(self) -> Vec<Saved> {
        // Work on one at the bench is use of it too.
        let runs = self.runs.read();
        let used = |saved: &Saved| {
            let run = runs.get(&saved.id).map_or(0.0, |run| run.touched);
            saved.touched.max(run)
        };
        let mut setups: Vec<Saved> = Vec::new();
        for saved in self.setups.get() {
            let at = setups.partition_point(|other| used(other) >= used(&saved));
            setups.insert(at, saved);
        }
        setups
    }

    /// One setup.
    pub(crate) fn setup(self, id: &str) -> Option<Saved> {
        self.setups.read().iter().find(|saved| saved.id == id).cloned()
    }

    /// The shop that a setup is worked for.
    pub(crate) fn shop_of(self, id: &str) -> Record {
        let setups = self.setups.read();
        match setups.iter().find(|saved| saved.id == id) {
            Some(saved) if !saved.own => saved.setup.shop.clone(),
            _ => self.shop.get(),
        }
    }

    /// A setup with the shop that it is worked for, to be sent.
    pub(crate) fn whole(self, id: &str) -> Option<Setup> {
        let saved = self.setup(id)?;
        Some(Setup { shop: self.shop_of(id), ..saved.setup })
    }

    /// Takes a setup of the person's own into the library and says under which name.
    pub(crate) fn add_own(self, setup: Setup) -> String {
        self.add_own_as(self.new_id(), setup)
    }

    fn add_own_as(self, id: String, mut setup: Setup) -> String {
        setup.shop = Record::empty(setup.shop.spec());
        self.add_as(id, setup, true)
    }

    /// Takes a setup with its maker's shop into the library and says under which name.
    pub(crate) fn add(self, setup: Setup, own: bool) -> String {
        self.add_as(self.new_id(), setup, own)
    }

    fn add_as(self, id: String, mut setup: Setup, own: bool) -> String {
        // Work that was under way elsewhere goes on from there.
        if let Some((operation, step)) = setup.place.take() {
            let start = Run::start(platform::now(), platform::wall());
            self.set_run(&id, Run { operation, step, ..start });
        }
        let saved = Saved::new(id.clone(), setup, own, platform::now());
        self.keep(&format!("setup.{id}"), &saved.to_text());
        self.setups.write().push(saved);
        id
    }

    fn new_id(self) -> String {
        let mut number = platform::now() as u64;
        loop {
            let mut id = String::new();
            let mut rest = number;
            while rest > 0 {
                id.extend(char::from_digit((rest % 36) as u32, 36));
                rest /= 36;
            }
            if !self.setups.read_untracked().iter().any(|saved| saved.id == id) {
                return id;
            }
            number += 1;
        }
    }

    /// Changes a setup and keeps it.
    pub(crate) fn change(self, id: &str, change: impl FnOnce(&mut Saved)) {
        let mut change = Some(change);
        self.changed(id, &mut |saved| {
            if let Some(change) = change.take() {
                change(saved);
            }
        });
    }

    /// The same for every sort of change: one copy of it in the page.
    fn changed(self, id: &str, change: &mut dyn FnMut(&mut Saved)) {
        let mut text = None;
        self.setups.update(|setups| {
            if let Some(saved) = setups.iter_mut().find(|saved| saved.id == id) {
                change(saved);
                saved.touched = platform::now();
                text = Some(saved.to_text());
            }
        });
        if let Some(text) = text {
            self.keep(&format!("setup.{id}"), &text);
        }
    }

    /// Deletes a setup; it can be had back until the next is deleted.
    pub(crate) fn delete(self, id: &str) {
        let Some(saved) = self.setup(id) else { return };
        self.setups.write().retain(|saved| saved.id != id);
        slots::forget(&Browser, &format!("setup.{id}"));
        self.gone.set(Some(saved));
    }

    /// Puts back what a backup holds.
    pub(crate) fn restore(self, text: &str) -> Result<(), String> {
        for (key, held) in platform::works::restore(text)? {
            match held {
                Some(held) if !Browser.set(&key, &held) => {
                    return Err(
                        "the device's storage is full: not everything was put back".to_owned()
                    );
                }
                Some(_) => {}
                None => Browser.remove(&key),
            }
            if let Some(name) = slots::record_of(&key) {
                self.take_in(name);
            }
        }
        self.cleared.set(());
        Ok(())
    }

    /// Takes another shop as one's own; the present one is put by.
    pub(crate) fn take_shop(self, shop: Record) {
        self.empty_shop();
        self.change_shop(|present| *present = shop);
        self.cleared.set(());
    }

    /// The setup deleted last.
    pub(crate) fn gone(self) -> Option<Saved> {
        self.gone.get()
    }

    /// Brings back the setup deleted last.
    pub(crate) fn bring_back(self) {
        if let Some(saved) = self.gone.get_untracked() {
            self.keep(&format!("setup.{}", saved.id), &saved.to_text());
            self.setups.write().push(saved);
            self.gone.set(None);
        }
    }

    /// Where the work on a setup stands.
    pub(crate) fn run(self, id: &str) -> Option<Run> {
        self.runs.read().get(id).cloned()
    }

    /// The run that was worked on last, with its setup's name in the address.
    pub(crate) fn last_run(self) -> Option<(String, Run)> {
        let runs = self.runs.read();
        let setups = self.setups.read();
        runs.iter()
            .filter(|(id, run)| !run.finished && setups.iter().any(|saved| saved.id == **id))
            .max_by(|(_, a), (_, b)| a.touched.total_cmp(&b.touched))
            .map(|(id, run)| (id.clone(), run.clone()))
    }

    /// Keeps where the work on a setup stands.
    pub(crate) fn set_run(self, id: &str, run: Run) {
        self.keep(&format!("run.{id}"), &run.to_text());
        self.runs.update(|runs| _ = runs.insert(id.to_owned(), run));
    }

    /// Keeps a note that is being typed: nothing is drawn again for it.
    pub(crate) fn draft_note(self, id: &str, text: &str) {
        let mut kept = None;
        self.runs.update_untracked(|runs| {
            if let Some(run) = runs.get_mut(id) {
                text.clone_into(&mut run.draft);
                kept = Some(run.to_text());
            }
        });
        if let Some(kept) = kept {
            self.keep(&format!("run.{id}"), &kept);
        }
    }

    /// Puts a run into its setup's record.
    pub(crate) fn keep_made(self, id: &str, run: &Run, ended: &str) {
        self.change(id, |saved| setup::keep_made(&mut saved.setup.made, run.made(ended)));
    }

    /// Begins a run anew: what was measured on the piece before is put out of the blanks.
    pub(crate) fn begin(self, id: &str) {
        let measured = |saved: &mut Saved| {
            for operation in &mut saved.setup.operations {
                operation.forget_measured();
            }
        };
        self.change(id, measured);
        self.set_run(id, Run::start(platform::now(), platform::wall()));
    }

    /// Clears the shop, the last one kept to be had back.
    pub(crate) fn empty_shop(self) {
        let text =
            kept::shop_to_text(&self.shop.read_untracked(), &self.shop_drafts.read_untracked());
        self.keep("before", &text);
        self.shop_drafts.write().clear();
        self.change_shop(|shop| *shop = Record::empty(shop.spec()));
        self.cleared.set(());
    }

    /// Brings back the shop that was cleared last; the present one takes its place.
    pub(crate) fn last_shop(self) {
        let before = slots::read(&Browser, "before").content;
        if let Some((shop, drafts)) = before.and_then(|text| kept::shop_from_text(&text)) {
            self.empty_shop();
            self.shop_drafts.set(drafts);
            self.change_shop(|present| *present = shop);
            self.cleared.set(());
        }
    }

    /// Takes one out of a list of the shop; what was half typed in it goes too.
    pub(crate) fn take_from_shop(self, parent: &str, list: &str, at: usize) {
        let path = Record::path(parent, list);
        let place = |draft: &Draft| {
            draft.form.strip_prefix(&path)?.strip_prefix('.')?.parse::<usize>().ok()
        };
        self.shop_drafts.update(|drafts| {
            drafts.retain(|draft| place(draft) != Some(at));
            for draft in drafts {
                if let Some(n) = place(draft).filter(|n| *n > at) {
                    draft.form = format!("{path}.{}", n - 1);
                }
            }
        });
        self.change_shop(|shop| _ = shop.change(parent, |form| form.remove(list, at)));
    }

    /// Changes when the whole shop was cleared or brought back.
    pub(crate) fn cleared(self) {
        self.cleared.track();
    }

    /// Changes the shop's forms otherwise than by typing.
    pub(crate) fn change_shop(self, change: impl FnOnce(&mut Record)) {
        self.shop.update(change);
        self.keep_shop();
    }
}

/// A setup file of one operation alone, with what of the shop it is worked from.
pub(crate) fn one_file(operation: Operation, mut shop: Record) -> String {
    for field in shop.spec().fields {
        if field.key != "name" && !operation.kind.from_shop.contains(&field.key) {
            shop.set(field.key, None);
        }
    }
    setup::write_file(&Setup { shop, operations: vec![operation], ..Setup::default() })
}
