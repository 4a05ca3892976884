//! The browser's own storage, asked for before it is used: where it is blocked nothing is kept, and
//! nothing breaks.

use gloo_storage::{LocalStorage, Storage as _};
use latheside_kept::slots::Keeper;

/// The browser's storage.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Browser;

fn storage() -> Option<web_sys::Storage> {
    // gloo-storage expects the storage to be there: ask first.
    let there = web_sys::window()?.local_storage().ok()?.is_some();
    there.then(LocalStorage::raw)
}

impl Browser {
    /// Whether anything can be kept at all.
    pub(crate) fn works() -> bool {
        storage().is_some()
    }
}

impl Keeper for Browser {
    fn get(&self, key: &str) -> Option<String> {
        storage()?.get_item(key).ok()?
    }

    fn set(&self, key: &str, value: &str) -> bool {
        storage().is_some_and(|storage| storage.set_item(key, value).is_ok())
    }

    fn remove(&self, key: &str) {
        if let Some(storage) = storage() {
            storage.remove_item(key).ok();
        }
    }

    fn keys(&self) -> Vec<String> {
        let Some(storage) = storage() else { return Vec::new() };
        let len = storage.length().unwrap_or(0);
        (0..len).filter_map(|at| storage.key(at).ok()?).collect()
    }
}
