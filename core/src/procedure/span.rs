//! Words with the figures in them set apart.

use alloc::string::String;
use alloc::vec::Vec;

/// A run of text, figures set larger than words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Span {
    /// A figure.
    Figure(String),
    /// Words beside it.
    Word(String),
}

/// A line of figures and words: `40` drives `63`.
pub type Line = Vec<Span>;

impl Span {
    /// The run without what it is.
    #[must_use]
    pub fn text(&self) -> &str {
        match self {
            Span::Figure(text) | Span::Word(text) => text,
        }
    }
}
