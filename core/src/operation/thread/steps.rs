//! From bare banjo to finished thread, in the order in which it is safe.

use super::super::Step;
use super::answer::Thread;
use super::course::Course;
use super::depths::Depths;
use super::gears::{Gears, NoGears};
use super::{blank, mount, pass, pick_up, proof, scratch, starts, tool};
use alloc::vec::Vec;

/// What Bench walks through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Stage {
    /// The blank as it is held, measured.
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
    /// Without change gears: the lathe's own means.
    SetLead,
    /// The tool, set.
    Tool,
    /// Guard shut, the speed set.
    Guard,
    /// The tool brought to the work, the dials at nought.
    Touch,
    /// The tool led into a thread that is there.
    PickUp,
    /// A pass in air.
    InAir,
    /// A scratch on the blank.
    Scratch,
    /// A rule laid along the scratch.
    Check,
    /// A start and a pass of it, both counted from 0.
    Pass(u16, u16),
    /// A line deeper, by the groove that is there.
    Deepen,
    /// Once more at the same reading: the start, and how many times before.
    Spring(u16, u16),
    /// On to the next start: the second is 1.
    NextStart(u16),
    /// The mate tried, after so many passes more.
    Nut(u16),
    /// Measured.
    Measure,
    /// As many lines deeper as the measure over wires says.
    Correct,
    /// Measured again.
    Again,
    /// All out of gear again.
    Finish,
}

/// The steps with what they are made from.
pub(super) struct Made<'a> {
    pub(super) thread: &'a Thread,
    pub(super) course: &'a Course,
    pub(super) depths: &'a Depths,
}

/// The steps in order.
pub(super) fn plan(thread: &Thread, depths: &Depths) -> Vec<Stage> {
    let mut plan = Vec::from([Stage::Blank]);
    let there = thread.wanted.there;
    match &thread.gears {
        Ok(gears) => on_the_banjo(gears, &mut plan),
        Err(NoGears::Because(_)) => return Vec::new(),
        Err(NoGears::Leadscrew | NoGears::Drawer) => plan.push(Stage::SetLead),
    }
    plan.extend([Stage::Tool, Stage::Guard]);
    plan.extend(if there {
        [Stage::PickUp, Stage::InAir].as_slice()
    } else {
        [Stage::Touch, Stage::Scratch, Stage::Check].as_slice()
    });
    if there {
        plan.push(Stage::Deepen);
    } else {
        // One start is deepened while its mate is tried; of several each is cut to its full depth.
        let by_mate = thread.by_mate() && thread.wanted.thread.starts == 1;
        let all = u16::try_from(depths.lines.len()).unwrap_or(u16::MAX);
        let first = u16::try_from(depths.before_mate).unwrap_or(all).min(all);
        for start in 0..thread.wanted.thread.starts {
            if start > 0 {
                plan.push(Stage::NextStart(start));
            }
            plan.extend((0..if by_mate { first } else { all }).map(|at| Stage::Pass(start, at)));
            if !by_mate {
                let springs = u16::try_from(depths.springs).unwrap_or(20);
                plan.extend((0..springs).map(|n| Stage::Spring(start, n)));
            }
        }
        if by_mate {
            plan.extend((0..=all.saturating_sub(first)).map(Stage::Nut));
        }
    }
    if !thread.by_mate() {
        plan.push(Stage::Measure);
        if !there && proof::correction(thread).is_some() {
            plan.extend([Stage::Correct, Stage::Again]);
        }
    } else if there || thread.wanted.thread.starts > 1 {
        plan.push(Stage::Nut(0));
    }
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
    plan.push(Stage::Free);
}

/// One step.
pub(super) fn step(made: &Made<'_>, stage: Stage) -> Option<Step> {
    Some(match stage {
        Stage::Blank => blank::blank(made),
        Stage::Isolate => mount::isolate(),
        Stage::Pair(at) => mount::pair(made, at)?,
        Stage::Hand => mount::hand(made)?,
        Stage::Lever => mount::lever(made)?,
        Stage::Free => mount::free(made),
        Stage::SetLead => mount::set_lead(made),
        Stage::Tool => tool::tool(made),
        Stage::Guard => mount::guard(made),
        Stage::Touch => scratch::touch(made),
        Stage::PickUp => pick_up::pick_up(made),
        Stage::InAir => pick_up::in_air(made),
        Stage::Deepen => pick_up::deepen(made),
        Stage::Scratch => scratch::scratch(made),
        Stage::Check => scratch::check(made),
        Stage::Pass(start, at) => pass::pass(made, start, at)?,
        Stage::Spring(start, n) => pass::spring(made, start, n)?,
        Stage::NextStart(start) => starts::next(made, start),
        Stage::Nut(more) => proof::nut(made, more),
        Stage::Measure => proof::measure(made, 1),
        Stage::Correct => proof::correct(made)?,
        Stage::Again => proof::measure(made, 2),
        Stage::Finish => proof::finish(made),
    })
}
