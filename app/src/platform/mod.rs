//! Everything that is the browser's: nothing else calls it.

mod clock;
mod dom;
mod files;
mod share;
mod storage;
mod wake;

pub(crate) use clock::{Timer, after, now};
pub(crate) use dom::{
    copy_of_attribute, focus, go, listen, on_visible, replace_fragment, scroll_to, set_root,
    set_title, tell_trouble, fragment, address, ready,
};
pub(crate) use files::{pick_file, save_file};
pub(crate) use share::{Shared, share};
pub(crate) use storage::Browser;
pub(crate) use wake::WakeLock;
