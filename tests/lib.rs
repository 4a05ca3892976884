//! Checks of Latheside from outside.

pub mod doors;
pub mod forms;
pub mod slow;
pub mod solved;
pub mod sound;
