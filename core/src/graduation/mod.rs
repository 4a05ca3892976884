//! Graduating a dial: how many lines, what each is worth, and whether they can be told apart.
//!
//! The moves between the lines are those of [`crate::dividing`].

mod error;
mod marks;
mod numbering;
mod scale;
pub mod spacing;
mod vernier;

pub use error::GraduationError;
pub use marks::{Line, Marks, line_lengths};
pub use numbering::{Hand, Moves, Turning, grows_turning, numbers_run, stamp_offsets, stamp_room};
pub use scale::{MOST_LINES, Reads, Scale, reads_well, scale, whole_scales};
pub use vernier::{Vernier, vernier_for};
