use leptos::prelude::*;
use std::collections::BTreeSet;

/// What was said, pasted or chosen for the moment: nothing of it is kept.
#[derive(Clone, Copy)]
pub(crate) struct Said {
    /// What became of a link that was shared.
    pub(crate) shared: RwSignal<Option<(&'static str, String)>>,
    /// What was wrong with a link or a file.
    pub(crate) wrong: RwSignal<Option<String>>,
    /// The link pasted.
    pub(crate) pasted: RwSignal<String>,
    /// The words that a setup is looked for by.
    pub(crate) search: RwSignal<String>,
    /// Whether the device has said that it keeps what is saved.
    pub(crate) kept: RwSignal<bool>,
    /// Whether the browser offers to install the page.
    pub(crate) can_install: RwSignal<bool>,
    /// Whether a setup from a link is worked for the person's own shop.
    pub(crate) own: RwSignal<bool>,
    /// Whether the bench asks if the present step is done.
    pub(crate) returned: RwSignal<bool>,
    /// Whether the present step was come back to.
    pub(crate) went_back: RwSignal<bool>,
    /// Whether the works are there: until then sentences stand without their answers.
    pub(crate) works: RwSignal<bool>,
    /// How many steps each operation on the bench has.
    pub(crate) lens: StoredValue<Vec<usize>>,
    /// Whether that is worked out; told anew each time that it is.
    pub(crate) worked: RwSignal<bool>,
    /// What has become of the steps by what was measured.
    pub(crate) changed: RwSignal<String>,
    /// The run that was broken off for a new one: it can be had back.
    pub(crate) before: StoredValue<String>,
    /// Until when the bench is deaf.
    pub(crate) deaf_until: StoredValue<f64>,
}

impl Said {
    /// Nothing yet.
    pub(crate) fn new() -> Said {
        Said {
            shared: RwSignal::default(),
            wrong: RwSignal::default(),
            pasted: RwSignal::default(),
            search: RwSignal::default(),
            kept: RwSignal::default(),
            can_install: RwSignal::default(),
            own: RwSignal::default(),
            returned: RwSignal::default(),
            went_back: RwSignal::default(),
            works: RwSignal::default(),
            lens: StoredValue::default(),
            worked: RwSignal::default(),
            changed: RwSignal::default(),
            before: StoredValue::default(),
            deaf_until: StoredValue::new(0.0),
        }
    }
}

/// The folds that are open: kept so that a sheet drawn again leaves them as they were.
#[derive(Clone, Copy)]
pub(crate) struct Folds(StoredValue<BTreeSet<String>>);

impl Folds {
    /// All shut.
    pub(crate) fn new() -> Folds {
        Folds(StoredValue::default())
    }

    /// Whether one is open.
    pub(crate) fn is_open(self, fold: &str) -> bool {
        self.0.with_value(|open| open.contains(fold))
    }

    /// Those that are open, with spaces between.
    pub(crate) fn open(self) -> String {
        self.0.with_value(|open| open.iter().cloned().collect::<Vec<_>>().join(" "))
    }

    /// Notes that one was opened or shut.
    pub(crate) fn note(self, fold: &str, open: bool) {
        self.0.update_value(|folds| {
            if open {
                folds.insert(fold.to_owned());
            } else {
                folds.remove(fold);
            }
        });
    }
}
