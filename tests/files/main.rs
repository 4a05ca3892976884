//! Setup files and links: read and written as they were, refused in plain words, answered whatever they hold.

mod answers;
mod damaged;
mod links;
mod process;
mod quantities;
mod record;
mod refused;
