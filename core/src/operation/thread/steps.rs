//! From bare banjo to finished thread, in the order in which it is safe.

use super::super::Step;
use super::answer::Thread;
use super::gears::{Gears, NoGears};
use super::{blank, mount, pass, pick_up, proof, scratch, starts, tool};
use alloc::vec::Vec;

/// What Bench walks through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Stage {
    /// The blank turned, or the hole bored.
    Blank,
    /// Supply isolated, guard open.
    Isolate,
    /// The pair of that place, from the spindle's end.
    Pair(usize),
    /// Idlers and tumbler for the hand.
    Hand,
    /// The gearbox's lever.
    Lever,
    /// Turned by hand: does it run free?
    Free,
    /// Guard shut.
    Guard,
    /// Without change gears: the lathe's own means.
    SetLead,
    /// The tool ground and set.
    Tool,
    /// The tool led into a thread that is there.
    PickUp,
    /// A pass in air.
    InAir,
    /// A scratch on the blank.
    Scratch,
    /// A rule laid along the scratch.
    Check,
    /// A pass, counted from 0.
    Pass(u16),
    /// Deeper by feel, where there is no list of passes.
    Deepen,
    /// Once more at the same reading.
    Spring,
    /// On to the next start: the second is 1.
    NextStart(u16),
    /// The nut in hand tried.
    Nut,
    /// Measured.
    Measure,
    /// All out of gear again.
    Finish,
}

/// The steps in order; none where no train goes on.
pub(super) fn plan(thread: &Thread) -> Vec<Stage> {
    let mut plan = Vec::new();
    let gears = match &thread.gears {
        Ok(gears) => match gears.best() {
            Some(_) => Some(gears),
            None => return plan,
        },
        Err(NoGears::Because(_)) => return plan,
        Err(NoGears::Leadscrew | NoGears::Drawer) => None,
    };
    let there = thread.wanted.there;
    if !there && blank::blank(thread).is_some() {
        plan.push(Stage::Blank);
    }
    match gears {
        Some(gears) => on_the_banjo(gears, &mut plan),
        None => plan.push(Stage::SetLead),
    }
    if thread.tool.is_some() {
        plan.push(Stage::Tool);
    }
    plan.extend(if there { [Stage::PickUp, Stage::InAir] } else { [Stage::Scratch, Stage::Check] });
    for start in 0..thread.wanted.thread.starts {
        if start > 0 {
            plan.push(Stage::NextStart(start));
        }
        match &thread.cut {
            Some(Ok(cut)) if !there => {
                plan.extend((0..pass::count(thread)).map(Stage::Pass));
                if !thread.wanted.to_nut {
                    plan.extend((0..cut.springs).map(|_| Stage::Spring));
                }
            }
            _ => plan.push(Stage::Deepen),
        }
    }
    plan.push(if thread.wanted.to_nut { Stage::Nut } else { Stage::Measure });
    plan.push(Stage::Finish);
    plan
}

fn on_the_banjo(gears: &Gears, plan: &mut Vec<Stage>) {
    let Some(train) = gears.best() else { return };
    plan.push(Stage::Isolate);
    plan.extend((0..train.pairs().len()).map(Stage::Pair));
    plan.push(Stage::Hand);
    if gears.has_gearbox() {
        plan.push(Stage::Lever);
    }
    plan.extend([Stage::Free, Stage::Guard]);
}

/// One step.
pub(super) fn step(thread: &Thread, stage: Stage) -> Option<Step> {
    match stage {
        Stage::Blank => blank::blank(thread),
        Stage::Isolate => Some(mount::isolate()),
        Stage::Pair(at) => mount::pair(thread, at),
        Stage::Hand => mount::hand(thread),
        Stage::Lever => mount::lever(thread),
        Stage::Free => mount::free(thread),
        Stage::Guard => Some(mount::guard(thread)),
        Stage::SetLead => Some(mount::set_lead(thread)),
        Stage::Tool => tool::tool(thread),
        Stage::PickUp => Some(pick_up::pick_up(thread)),
        Stage::InAir => Some(pick_up::in_air(thread)),
        Stage::Deepen if thread.wanted.there => Some(pick_up::deepen(thread)),
        Stage::Scratch => Some(scratch::scratch(thread)),
        Stage::Check => Some(scratch::check(thread)),
        Stage::Pass(at) => pass::pass(thread, at),
        Stage::Deepen => Some(pass::deepen(thread)),
        Stage::Spring => pass::spring(thread),
        Stage::NextStart(start) => Some(starts::next(thread, start)),
        Stage::Nut => Some(proof::nut(thread)),
        Stage::Measure => Some(proof::measure(thread)),
        Stage::Finish => Some(proof::finish()),
    }
}
