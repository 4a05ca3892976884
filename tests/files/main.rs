//! Setup files: what is read, and what is refused in which words.

mod damaged;
mod process;
mod quantities;
mod record;
mod refused;
