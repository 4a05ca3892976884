//! What a first visit finds: a generic shop and a setup of our own invention.

/// The example, as a setup file.
pub(crate) const EXAMPLE: &str = include_str!("../demo/example.json");
