//! What the project's commands share with its browser tests.

pub mod site;
