//! Graduate a dial: the lines, what each is worth, and the moves between them.

mod bench;
mod card;
mod dial;
mod keys;
mod kind;
mod lengths;
mod numbers;
mod why;
mod worth;

pub(super) use dial::Graduate;
pub(super) use kind::{KIND, WORKS};
