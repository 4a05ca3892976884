//! What Bench walks through, a step at a time.

use super::{Found, Line, Picture, line};
use crate::cutting;
use crate::lathe::{Fault, Lathe};
use crate::procedure::{self, Action, Hazard, StepId, words};
use crate::shop::Shop;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt::Write;

/// What Bench shows at one time.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Step {
    /// What it is known by, whatever comes before it.
    pub id: StepId,
    /// What is being done: "division 7 of 24".
    pub title: String,
    /// What is done, in the order in which it is safe.
    pub actions: Vec<Action>,
    /// Remarks beside the actions: no figure in them, and nothing that moves, fixes, starts or cuts. Of a
    /// kind whose steps aren't actions yet, all that is to be done; figures between stars.
    pub say: Vec<String>,
    /// What the figure is: "forward to hole".
    pub label: String,
    /// The figure, read from two metres.
    pub figure: String,
    /// A caution that belongs to this step.
    pub caution: Option<&'static str>,
    /// What the button says once it is done.
    pub done: &'static str,
    /// Whether something is cut in it, so that on return the question is "is this one cut?"
    pub cuts: bool,
    /// The entry that takes what is measured in it; the steps after it follow from that.
    pub measures: Option<&'static str>,
    /// What to draw.
    pub picture: Option<Picture>,
    /// The feed as a hand's beat, which may be sounded.
    pub beat: Option<Beat>,
}

impl Step {
    /// What to do, a sentence or two a line, and the remarks beside it.
    #[must_use]
    pub fn lines(&self) -> Vec<Line> {
        let remarks = self.say.iter().map(|say| line(say));
        words::lines(&self.actions).into_iter().chain(remarks).collect()
    }
}

/// So many steps from the first are looked at for what comes before a step.
const HEAD: usize = 16;
/// So many steps are carried out before they are shown.
const RUN: usize = 600;

/// A hand's beat: a share of a turn of a handwheel, each so many seconds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beat {
    /// How many of them make a turn of the handwheel.
    pub to_a_turn: u32,
    /// How long each takes, milliseconds: never less than a hand can follow.
    pub milliseconds: u32,
    /// What is turned: "the cross slide".
    pub of: &'static str,
    /// How many make the whole of a pass, where its length is known.
    pub beats: Option<u32>,
}

impl Beat {
    /// The beat that a feed comes to, on a slide of that name; `length_mm` is how far it feeds.
    #[must_use]
    pub fn new(beat: &cutting::Beat, of: &'static str, length_mm: Option<f64>) -> Beat {
        let each = beat.feed_mm_per_min * beat.seconds / 60.0;
        // Saturates, and is never negative; a day of it is no pass.
        let beats = length_mm.map(|length| libm::ceil(length / each - 1e-6) as u32);
        Beat {
            to_a_turn: u32::try_from(beat.turn.denom()).unwrap_or(1),
            // Saturates, and is never negative.
            milliseconds: libm::round(beat.seconds * 1000.0) as u32,
            of,
            beats: beats.filter(|beats| (1..=99_999).contains(beats)),
        }
    }
}

/// The steps of one operation: made one at a time, for a circle may have thousands of divisions.
#[derive(Clone, Copy, Debug)]
pub struct Steps<'a> {
    pub(super) found: &'a Found,
    pub(super) len: usize,
}

impl Steps<'_> {
    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.len
    }

    /// Whether there is nothing to do.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len == 0
    }

    /// The step at that place, its caution by rule: what can hurt in it and didn't before.
    #[must_use]
    pub fn get(&self, at: usize) -> Option<Step> {
        let mut step = (at < self.len).then(|| self.found.step(at)).flatten()?;
        if !step.id.stage.is_empty() && step.caution.is_none() && step.id.n <= 1 {
            let known = self.hazards(at);
            let new = procedure::hazards(&step.actions);
            step.caution = new.iter().find(|hazard| !known.contains(hazard)).map(|new| new.words());
        }
        Some(step)
    }

    /// What can hurt in the steps before that place. The first of each stage tell it: what is repeated is
    /// repeated alike.
    fn hazards(&self, before: usize) -> Vec<Hazard> {
        let mut found = Vec::new();
        for step in (0..before.min(HEAD)).filter_map(|at| self.found.step(at)) {
            found.extend(procedure::hazards(&step.actions));
        }
        found
    }

    /// The cautions of all of it, each once.
    #[must_use]
    pub fn cautions(&self) -> Vec<&'static str> {
        let mut found = self.hazards(self.len);
        let tail = self.len.saturating_sub(3)..self.len;
        for step in tail.filter_map(|at| self.found.step(at)) {
            found.extend(procedure::hazards(&step.actions));
        }
        found.sort_unstable();
        found.dedup();
        found.iter().map(|hazard| hazard.words()).collect()
    }

    /// Whether every step is made of actions.
    pub(super) fn in_actions(&self) -> bool {
        (0..self.len.min(HEAD))
            .all(|at| self.found.step(at).is_some_and(|step| !step.actions.is_empty()))
    }

    /// Carries it out on the modelled lathe: the first fault, if any. Of thousands of places the first few
    /// hundred steps are run: the others are repeated alike.
    #[must_use]
    pub fn fault(&self, shop: &Shop) -> Option<Fault> {
        if !self.in_actions() {
            return None;
        }
        let mut lathe = Lathe::new(shop);
        let mut id = String::new();
        for step in (0..self.len.min(RUN)).filter_map(|at| self.found.step(at)) {
            id.clear();
            // A string takes all that is written to it.
            let _ = write!(id, "{}", step.id);
            for action in &step.actions {
                lathe.carry_out(&id, action);
            }
        }
        if self.len <= RUN {
            lathe.finish();
        }
        lathe.faults().first().cloned()
    }

    /// How to come back to the step at that place once it was left, figures between stars; none
    /// where there is nothing to it.
    #[must_use]
    pub fn back(&self, at: usize) -> Option<String> {
        if at < self.len { self.found.back(at) } else { None }
    }
}
