//! Screw threads: what a designation means, what it measures, and how it is cut and gauged.

mod beside;
mod class;
mod designation;
mod form;
mod half_nuts;
mod helix;
mod identify;
mod iso965;
mod lead;
mod limits;
mod limits_inch;
mod limits_iso;
mod nut_in_hand;
mod parse;
mod passes;
mod refusal;
mod series;
mod suggest;
mod tapping;
mod tokens;
mod wires;

pub use class::Class;
pub use designation::{Designation, Hand, Side};
pub use form::{Form, Point, Profile};
pub use half_nuts::{ChasingDial, HalfNuts, Rule, half_nuts};
pub use helix::{Helix, LeadError, diametral_equivalent, helix, helix_deg, lead_error};
pub use identify::{Candidate, identify};
pub use lead::{INCH, Lead, PI};
pub use limits::{
    Limits, LimitsError, Range, limits, limits_engaged, named_class, named_class_engaged,
    usual_class,
};
pub use nut_in_hand::{Infeed, end_shake, infeed, infeed_to_shake};
pub use parse::parse;
pub use passes::{
    Count, Feed, Pass, Passes, PassesError, Plan, Sharing, compound_setting, compound_travel,
    passes,
};
pub use refusal::DesignationError;
pub use series::{Series, coarse, listed, of_size, standard};
pub use suggest::suggest;
pub use tapping::{Percent, TapHole, bore_by_engagement, hole_for_percent, percent, tap_hole};
pub use wires::{Wires, lead_correction, over_one_wire, over_wires, pitch_diameter_from, wires};
