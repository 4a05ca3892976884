//! Screw threads: what a designation means, what it measures, and how it is cut and gauged.

mod class;
mod designation;
mod form;
mod iso965;
mod lead;
mod limits;
mod parse;
mod series;
mod suggest;

pub use class::Class;
pub use designation::{Designation, Hand, Side};
pub use form::{Form, Point, Profile};
pub use lead::{INCH, Lead, PI};
pub use limits::{Limits, LimitsError, Range, limits, named_class, usual_class};
pub use parse::{DesignationError, parse};
pub use series::{Series, coarse, of_size, standard};
pub use suggest::suggest;
