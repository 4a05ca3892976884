//! What the page has to say that belongs to no blank.

use leptos::prelude::*;

/// A sentence across the head of the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Notice {
    /// Nothing can be kept on this device.
    Forbidden,
    /// The device's storage is full.
    Full,
    /// A newer Latheside has written here.
    Newer,
    /// A damaged record was set aside.
    SetAside,
    /// A newer page waits.
    Update,
}

impl Notice {
    /// What it says.
    pub(crate) const fn words(self) -> &'static str {
        match self {
            Notice::Forbidden => {
                "This browser lets the page keep nothing. Everything works, but is gone when the page is closed: share a link or save the file."
            }
            Notice::Full => {
                "The device's storage is full: the last change is not kept. Save the setup as a file, then make room."
            }
            Notice::Newer => {
                "A newer Latheside has written here. This one keeps nothing more, so that nothing is spoilt: load the page again."
            }
            Notice::SetAside => {
                "Something kept here was damaged. It was set aside, not thrown away; the copy before it is in use."
            }
            Notice::Update => "A newer Latheside is ready. The work in hand keeps its place.",
        }
    }
}

/// The notices that stand at present.
#[derive(Clone, Copy)]
pub(crate) struct Notices(pub(crate) RwSignal<Vec<Notice>>);

impl Notices {
    /// Puts a notice up, once.
    pub(crate) fn put_up(self, notice: Notice) {
        if !self.0.read_untracked().contains(&notice) {
            self.0.write().push(notice);
        }
    }

    /// Takes a notice down.
    pub(crate) fn take_down(self, notice: Notice) {
        if self.0.read_untracked().contains(&notice) {
            self.0.write().retain(|other| *other != notice);
        }
    }
}
