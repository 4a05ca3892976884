//! Places at equal distances along a straight line: holes in a bar, lines on a rule.
//!
//! Every place is reckoned from the first, as a fraction: nothing is rounded and then added up.

mod asked;
mod error;
mod left;
mod row;

pub use asked::Asked;
pub use error::SpacingError;
pub use left::{beside, between, thin};
pub use row::{MOST_PLACES, Row};
