//! Everything that is the browser's: nothing else calls it.

mod clock;
mod dom;
mod events;
mod files;
mod keeping;
mod share;
mod storage;
mod wake;
pub(crate) mod works;

pub(crate) use clock::{now, wall};
pub(crate) use dom::{
    address, draw, focus, focus_field, fragment, go, listen, on_stored, on_visible, print, ready,
    replace_fragment, root_has, scroll_to, set_field, set_invalid, set_root, set_title, show, soon,
    tell, then, to_top, update_now,
};
pub(crate) use events::{on_file, on_key, on_tap, on_typed};
pub(crate) use files::save_file;
pub(crate) use keeping::{can_install, install, kept};
pub(crate) use share::{Shared, share};
pub(crate) use storage::Browser;
pub(crate) use wake::WakeLock;
