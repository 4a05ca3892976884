//! How the tool is brought to the start, runs along, and gets back.

use super::answer::Thread;
use super::course::{Course, Drive};
use super::nuts::Nuts;
use super::steps::Made;
use crate::exact::Ratio;
use crate::operation::ready::lathe;
use crate::procedure::{
    self, Action, FeedBy, Gauge, InOut, Length, Running, Slide, Toward, Turned, TurnedBy, Turning,
    Until,
};
use alloc::vec::Vec;

/// Whether the half-nuts stay closed from the first pass to the last.
pub(super) fn closed(thread: &Thread) -> bool {
    thread.nuts.as_ref().is_none_or(Nuts::closed)
}

/// The carriage brought to so far from where the tool touched the end, not cutting, mm.
pub(super) fn carriage_to(course: &Course, mm: Ratio) -> Action {
    let toward = if mm.is_negative() { Toward::Headstock } else { Toward::Tailstock };
    let back = match course.carriage.and_then(|dial| dial.grows) {
        Some("towards-tailstock") => !mm.is_negative(),
        _ => toward == Toward::Tailstock,
    };
    let reading = course.carriage.and_then(|dial| {
        let near = dial.reading(mm.abs())?;
        let counted = near.turns.saturating_mul(dial.divisions.map_or(0, u64::from));
        dial.after(counted.saturating_add(near.lines), back)
    });
    Action::Wind {
        slide: Slide::Carriage,
        by: reading.is_none().then(|| course.like(mm.abs())),
        to: reading.map(procedure::Reading::from),
        toward,
        from: Toward::Tailstock,
        on: if course.carriage.is_some() { Gauge::Dial } else { Gauge::Rule },
    }
}

/// The tool drawn out of the cut.
pub(super) const fn out_of_cut(course: &Course) -> Action {
    Action::Clear { slide: Slide::Cross, toward: course.deeper().opposite(), by: None }
}

/// The spindle's way by hand.
const fn way(forward: bool) -> Turning {
    if forward { Turning::Forward } else { Turning::Back }
}

/// The carriage driven by hand, the half-nuts closed.
fn by_hand(what: (Turned, TurnedBy), forward: bool, over: Length, until: Option<Until>) -> Action {
    let (what, by) = what;
    Action::DriveByHand { what, by, way: way(forward), over, until }
}

/// What a hand turns.
fn turned(made: &Made<'_>) -> (Turned, TurnedBy) {
    match made.course.drive {
        Drive::Leadscrew => (Turned::Leadscrew, TurnedBy::HandCrank),
        _ => (Turned::LatheSpindle, made.course.hand(&made.thread.lathe)),
    }
}

/// A pass along the work for a start, from where the tool stands set, and the tool clear again; back at the
/// start where the half-nuts stay closed. `close` closes them first.
pub(super) fn along(made: &Made<'_>, start: u32, close: bool) -> Vec<Action> {
    let course = made.course;
    let over = course.like(course.over(start));
    let mut actions = Vec::new();
    if close || !course.closed {
        actions.push(Action::HalfNuts { is: InOut::In, at: course.marks.clone() });
    }
    if course.closed && course.powered() {
        actions.push(lathe(Running::Forward));
    }
    if course.powered() {
        actions.push(fed(course, course.along(), over, course.until));
    } else {
        actions.push(by_hand(turned(made), true, over, course.until));
    }
    let let_go = match (course.powered(), course.closed) {
        (true, true) => Some(lathe(Running::Stopped)),
        (true, false) => Some(Action::HalfNuts { is: InOut::Out, at: Vec::new() }),
        (false, _) => None,
    };
    if course.until == Some(Until::Groove) || course.left {
        // It stands in the groove, or beyond the end: nothing is cut while it is let go.
        actions.extend(let_go);
        actions.push(out_of_cut(course));
    } else {
        actions.push(out_of_cut(course));
        actions.extend(let_go);
    }
    if course.closed {
        actions.extend(back(made, over));
    }
    actions
}

fn fed(course: &Course, toward: Toward, over: Length, until: Option<Until>) -> Action {
    Action::Feed {
        slide: Slide::Carriage,
        toward,
        over: Some(over),
        to: None,
        until,
        by: FeedBy::Leadscrew,
        each_turn: Some(course.like(course.lead)),
        beat: None,
    }
}

/// Back over that way, the tool clear and the half-nuts closed.
pub(super) fn back(made: &Made<'_>, over: Length) -> Vec<Action> {
    let course = made.course;
    if course.reverses {
        return Vec::from([
            lathe(Running::Reverse),
            fed(course, course.along().opposite(), over, None),
            lathe(Running::Stopped),
        ]);
    }
    let turned = by_hand(turned(made), false, over, None);
    if course.powered() {
        Vec::from([Action::Isolate, turned, Action::Energise])
    } else {
        Vec::from([turned])
    }
}

/// The carriage at the beginning for a start, where it is wound there.
pub(super) fn to_start(made: &Made<'_>, start: u32) -> Option<Action> {
    (!made.course.closed).then(|| carriage_to(made.course, made.course.begins(start)))
}

/// The spindle running, where it runs from pass to pass.
pub(super) fn running(made: &Made<'_>) -> Option<Action> {
    let course = made.course;
    (course.powered() && !course.closed).then(|| lathe(Running::Forward))
}

/// The spindle stopped, where it runs from pass to pass.
pub(super) fn stopped(made: &Made<'_>) -> Option<Action> {
    let course = made.course;
    (course.powered() && !course.closed).then(|| lathe(Running::Stopped))
}

/// The depth set: so many lines, and so far aside, mm, toward the headstock.
pub(super) fn depth(made: &Made<'_>, lines: u32, aside: Option<f64>, start: u32) -> Vec<Action> {
    let (course, depths) = (made.course, made.depths);
    let mut actions = Vec::new();
    if depths.slide == Slide::Compound {
        let on = made.thread.kit.gauge(made.thread.lathe.cross.is_some());
        actions.push(depths.to_nought(course.deeper(), course.unit, made.thread.lathe.cross, on));
    } else if let Some(aside) = aside {
        let by_compound = if course.by_teeth { 0 } else { start };
        let from = super::course::times(course.pitch, by_compound);
        let aside = crate::quantity::show::near(aside, 4).unwrap_or_default();
        actions.push(depths.aside(from.add(aside).unwrap_or(from), course.unit));
    }
    actions.push(depths.wind(lines, course.deeper(), course.unit));
    actions
}
