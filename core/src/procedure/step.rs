//! Steps by their stage and number, and how many of each there are.

use super::Action;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;
use serde::{Deserialize, Serialize};

/// What a step is known by: its stage and its number in it, from 1: `pass/7`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct StepId {
    /// The stage.
    pub stage: &'static str,
    /// Its number there, from 1.
    pub n: u32,
}

impl StepId {
    /// The step of that number, from 1, in a stage.
    #[must_use]
    pub const fn new(stage: &'static str, n: u32) -> StepId {
        StepId { stage, n }
    }
}

impl fmt::Display for StepId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{}", self.stage, self.n)
    }
}

/// A step as a file has it: what is done, under its id.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct FiledStep {
    /// `pass/7`.
    pub id: String,
    /// What is done, in this order.
    pub actions: Vec<Action>,
    /// Whether something is cut in it.
    #[serde(default)]
    pub cuts: bool,
}
