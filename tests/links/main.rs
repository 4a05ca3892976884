//! Setup links: those already sent keep opening, and a damaged one is never taken for another.

mod damaged;
mod golden;
mod kept;
mod sizes;
