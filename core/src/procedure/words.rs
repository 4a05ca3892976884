//! Actions in words: the one place that makes them.

use super::{Action, Line, Span};
use alloc::format;
use alloc::vec;
use alloc::vec::Vec;

/// What to do, a sentence or two a line.
#[must_use]
pub fn lines(actions: &[Action]) -> Vec<Line> {
    actions.iter().map(|action| vec![Span::Word(format!("{action:?}"))]).collect()
}
