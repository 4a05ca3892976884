//! What a tap does that sends something away, or takes in what was sent.

use super::Hand;
use crate::platform::{self, Shared};
use latheside_core::setup;
use latheside_kept::Place;
use latheside_sheets as sheets;
use leptos::prelude::*;

/// A longer link is cut short by some messenger.
const LONGEST_LINK: usize = 2000;

impl Hand {
    /// What is in view, to be sent: a setup with the shop that it is worked for, or the shop alone.
    pub(super) fn in_view(self) -> Option<setup::Setup> {
        match self.here.0.get_untracked() {
            Place::Setup(id) => self.library.whole(&id),
            Place::Link(link) => {
                let setup = platform::works::unlink(&link)?.ok()?;
                let shop = if self.own(&setup) { self.library.shop() } else { setup.shop };
                Some(setup::Setup { shop, ..setup })
            }
            Place::Shop => {
                let shop = self.library.shop();
                let name = shop.text("name").unwrap_or_default().to_owned();
                Some(setup::Setup { name, shop, ..setup::Setup::default() })
            }
            _ => None,
        }
    }

    /// Whether a setup from a link is worked for the person's own shop.
    fn own(self, setup: &setup::Setup) -> bool {
        self.said.own.get_untracked() || setup.shop.is_empty()
    }

    /// Where the work on the setup in view stands, if it is under way.
    pub(super) fn place(self) -> Option<(usize, usize)> {
        let Place::Setup(id) = self.here.0.get_untracked() else { return None };
        let run = self.library.run(&id).filter(|run| !run.finished && !run.is_new())?;
        Some((run.operation, run.step))
    }

    /// Sends a setup as a link; what no messenger carries, as a file.
    pub(super) fn share(self, setup: Option<setup::Setup>) {
        let link = setup.and_then(|setup| Some((platform::works::link(&setup)?, setup)));
        let Some((link, setup)) = link else { return };
        let url = format!("{}#{link}", platform::address());
        let (shown, said) = (url.clone(), self.said);
        if url.len() > LONGEST_LINK {
            let words = "This is too much for a link: over 2000 letters. Send it as a file.";
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

    pub(super) fn export(self) {
        let Some(setup) = self.in_view() else { return };
        let name = format!("{}.latheside.json", file_name(&setup.name));
        platform::save_file(&name, &setup::write_file(&setup));
    }

    /// Saves as a file what the works make of one operation of what is in view.
    pub(super) fn keep(self, made: fn(&str, usize) -> Option<String>, at: usize, ending: &str) {
        let Some(setup) = self.in_view() else { return };
        if let Some(text) = made(&setup::write_file(&setup), at) {
            platform::save_file(&format!("{}-{}.{ending}", file_name(&setup.name), at + 1), &text);
        }
    }

    pub(super) fn duplicate(self) {
        let Place::Setup(id) = self.here.0.get_untracked() else { return };
        let Some(saved) = self.library.setup(&id) else { return };
        let mut setup = saved.setup;
        setup.name = format!("{} again", sheets::name_of(&setup.name));
        setup.name = setup.name.chars().take(setup::LONGEST_NAME).collect();
        let id = self.library.add(setup, saved.own);
        platform::go(&Place::Setup(id).to_string());
    }

    pub(super) fn save_link(self) {
        let Place::Link(link) = self.here.0.get_untracked() else { return };
        if let Some(Ok(setup)) = platform::works::unlink(&link) {
            if setup.operations.is_empty() && !setup.shop.is_empty() {
                self.library.take_shop(setup.shop);
                return platform::replace_fragment(&Place::Shop.to_string());
            }
            let own = self.own(&setup);
            let under_way = setup.place.is_some();
            let id = self.library.add(setup, own);
            let place = if under_way { Place::Bench(id) } else { Place::Setup(id) };
            platform::replace_fragment(&place.to_string());
        }
    }
}

/// A setup's name as a file's.
fn file_name(name: &str) -> String {
    let plain = |c: char| if c.is_ascii_alphanumeric() { c } else { '-' };
    sheets::name_of(name).chars().map(plain).collect()
}
