//! A setup: a shop and a named list of operations; its file and its link.

mod answers;
mod file;
mod link;
mod made;
mod order;
mod primer;
mod squeeze;
mod wire;

pub use answers::answers;
pub use file::{LARGEST_FILE, read_file, read_node, write_file, write_node};
pub use link::{LinkError, read_link, write_link};
pub use made::{LONGEST_SAID, MADE, MOST_MADE, MOST_SAID, keep_made, made, said};
pub use order::{Order, Remark, order};

use crate::operation::Operation;
use crate::record::Record;
use crate::shop::SHOP;
use alloc::string::String;
use alloc::vec::Vec;

/// A named list of operations with the shop that it was made for.
#[derive(Clone, Debug, PartialEq)]
pub struct Setup {
    /// Its name.
    pub name: String,
    /// A note of the person's own.
    pub note: String,
    /// The shop.
    pub shop: Record,
    /// The operations in order.
    pub operations: Vec<Operation>,
    /// Each time that it was made, the latest last, as forms of [`MADE`]; a link doesn't carry them.
    pub made: Vec<Record>,
    /// Where the work stands that is under way, so that another device goes on from there: the operation
    /// and its step, both counted from 0.
    pub place: Option<(usize, usize)>,
}

impl Default for Setup {
    fn default() -> Setup {
        Setup {
            name: String::new(),
            note: String::new(),
            shop: Record::empty(&SHOP),
            operations: Vec::new(),
            made: Vec::new(),
            place: None,
        }
    }
}

/// The most operations in a setup.
pub const MOST_OPERATIONS: usize = 1000;
/// The most steps that a place may be in.
pub const MOST_STEPS: usize = 1_000_000;
/// The longest name.
pub const LONGEST_NAME: usize = 90;
/// The longest note.
pub const LONGEST_NOTE: usize = 2000;
