//! Checks of Latheside from outside.

pub mod slow;
pub mod solved;
