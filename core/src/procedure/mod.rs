//! What a person does, as data: actions, each of which a machine can carry out.
//!
//! An answer becomes steps, a step a list of actions; words, cautions, drawings and speech are made from
//! the actions, and the modelled lathe carries them out before anybody does.

mod action;
mod caution;
mod span;
mod step;
mod term;
mod value;
#[cfg(test)]
mod vocabulary;
pub mod words;

pub use action::{
    Action, Chalked, Cleared, Cutter, CutterStands, Gear, Item, Pin, Setting, Statement, Work,
};
pub use caution::{Hazard, hazards};
pub use span::{Line, Span};
pub use step::{FiledStep, StepId};
pub use term::{
    Adjustable, Axis, Between, CutterAt, Face, FeedBy, Fitting, Gauge, GearOn, HolderKind, InOut,
    Instrument, Joining, Lockable, Measured, OnOff, OpenShut, Running, Screwed, Shape, Slide,
    Spindle, Tended, Toward, Tumbler, Turned, TurnedBy, Turning, Until, WaitFor, Winding, WorkAt,
};
pub use value::{Beat, Degrees, Length, Number, Reading};
