//! Entries under names: the shop and every operation are filled-in forms of a fixed shape.
//!
//! A [`Spec`] lists what a form asks for, once. From it come the reading and writing of the file
//! (with the path to whatever is wrong), the link, the blanks on the screen and their keypads.

mod node;
mod path;
mod read;
mod sentence;
mod spec;
mod value;
mod write;

pub use node::Node;
pub use read::{FileError, read};
pub(crate) use read::{expected, fits, once, unknown};
pub use sentence::{Piece, Sentence, Templates, sentence};
pub(crate) use spec::{ANGLE, LEAD, LENGTH, LENGTH_OR_NONE, NAME, RATIO, TEETH, choice, field};
pub use spec::{Bound, Choice, Field, Shape, Spec};
pub(crate) use value::counts;
pub use value::{Entry, Record, Value};
pub use write::write;
