//! Slow and obvious versions of what core does cleverly.

pub mod gearing;
pub mod more;
