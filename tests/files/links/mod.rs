//! Setup links: those already sent keep opening, and a damaged one is never taken for another.

#![allow(clippy::print_stdout)] // new rows and lengths are printed to be kept

mod damaged;
mod golden;
mod kept;
mod sizes;
