//! Graduate a dial: the lines, what each is worth, and the moves between them.

mod bench;
mod card;
mod dial;
mod keys;
mod kind;
mod lengths;
mod why;

pub(super) use dial::Graduate;
pub(super) use kind::{KIND, WORKS};
