//! Checks of Latheside from outside.

pub mod forms;
pub mod slow;
pub mod solved;
