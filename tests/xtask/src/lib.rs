//! What the project's commands share with its browser tests.

pub mod folder;
pub mod site;
pub mod worker;
