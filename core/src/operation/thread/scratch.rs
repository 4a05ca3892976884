//! The tool brought to the work, a scratch before any metal is lost, and a rule laid along it.

use super::super::Step;
use super::answer::Thread;
use super::course::times;
use super::run::{along, carriage_to, depth, running, stopped};
use super::section::of_pass;
use super::steps::Made;
use super::tool::moves_aside;
use crate::exact::Ratio;
use crate::operation::ready::{back_from, lathe};
use crate::procedure::{
    Action, Between, Face, Gauge, Instrument, Measured, Running, Slide, Spindle, Statement, StepId,
    Tended, Toward,
};
use crate::quantity::{MM_PER_INCH, Quantity, show};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// The tool brought to the end and to the surface, its dials at nought.
pub(super) fn touch(made: &Made<'_>) -> Step {
    let (thread, course, depths) = (made.thread, made.course, made.depths);
    let between = if course.powered() { Between::TurningWork } else { Between::Metal };
    let touch = |slide, toward, face| Action::Touch { slide, toward, face, between, thick: None };
    let deeper = course.deeper();
    let carriage = if course.carriage.is_some() { Gauge::Dial } else { Gauge::Rule };
    let mut actions: Vec<Action> = Vec::new();
    if course.powered() {
        actions.push(lathe(Running::Forward));
    }
    actions.extend([
        touch(Slide::Carriage, Toward::Headstock, Face::End),
        Action::Zero { slide: Slide::Carriage, on: carriage },
        back_from(Slide::Carriage, Toward::Headstock),
        back_from(Slide::Cross, deeper),
    ]);
    let aside = moves_aside(made);
    let by_compound = depths.slide == Slide::Compound;
    if by_compound {
        actions.push(Action::Look(Statement::Slack { slide: Slide::Compound, toward: deeper }));
    } else if aside {
        actions.push(Action::Look(Statement::Slack { slide: Slide::Compound, toward: Toward::In }));
    }
    let half = thread.wanted.length.as_ref().and_then(|l| l.value().div(Ratio::whole(2)).ok());
    let over = half.map_or(Ratio::ONE, |half| half.min(Ratio::whole(3)));
    let cross = thread.kit.gauge(thread.lathe.cross.is_some());
    let face = if course.inside { Face::Bore } else { Face::Rim };
    actions.extend([
        carriage_to(course, over.neg()),
        touch(Slide::Cross, deeper, face),
        Action::Zero { slide: Slide::Cross, on: if by_compound { cross } else { depths.on } },
    ]);
    if by_compound {
        actions.push(Action::Zero { slide: Slide::Compound, on: depths.on });
    } else if aside {
        actions.push(Action::Zero { slide: Slide::Compound, on: depths.compound_on });
    }
    actions
        .extend([back_from(Slide::Cross, deeper), back_from(Slide::Carriage, Toward::Headstock)]);
    if course.powered() {
        actions.push(lathe(Running::Stopped));
    }
    Step {
        id: StepId::new("touch", 1),
        title: "Touch on".to_owned(),
        actions,
        label: if by_compound { "both dials" } else { "cross slide" }.to_owned(),
        figure: "0".to_owned(),
        done: "Touched",
        picture: of_pass(thread, None),
        ..Step::default()
    }
}

/// One line deep.
pub(super) fn scratch(made: &Made<'_>) -> Step {
    let course = made.course;
    let (label, figure) = made.depths.shown(1, course.unit);
    let mut actions: Vec<Action> = Vec::new();
    actions.extend(running(made));
    actions.push(carriage_to(course, course.begins(0)));
    let aside = made.depths.alternating.then_some(0.0);
    actions.extend(depth(made, 1, aside, 0));
    actions.extend(along(made, 0, true));
    actions.extend(stopped(made));
    Step {
        id: StepId::new("scratch", 1),
        title: "A scratch".to_owned(),
        actions,
        label,
        figure,
        done: "Scratched",
        cuts: true,
        picture: of_pass(made.thread, None),
        ..Step::default()
    }
}

/// How many spaces to count, and what they must come to.
fn spaces(thread: &Thread) -> (u32, String) {
    let wanted = &thread.wanted;
    let lead = wanted.lead.mm().unwrap_or(Ratio::ONE);
    let room = wanted.length.as_ref().map(Quantity::value);
    if wanted.inch
        && let Ok(tpi) = MM_PER_INCH.div(lead)
        && tpi.is_whole()
        && let Ok(n) = u32::try_from(tpi.numer())
    {
        let fits = |length: Ratio| room.is_none_or(|room| length <= room);
        let half = MM_PER_INCH.div(Ratio::whole(2)).unwrap_or(MM_PER_INCH);
        if fits(MM_PER_INCH) && n <= 40 {
            return (n, "1 in".to_owned());
        }
        if n & 1 == 0 && fits(half) {
            return (n >> 1, "1/2 in".to_owned());
        }
    }
    // As much of a short rule as the thread's length allows.
    let rule = Ratio::whole(50);
    let room = room.unwrap_or(rule).min(rule);
    let fits = |n: &u32| lead.mul(Ratio::from(*n)).is_ok_and(|length| length <= room);
    let n = [20, 10, 5, 4, 3, 2].into_iter().find(fits).unwrap_or(1);
    let length = lead.mul(Ratio::from(n)).unwrap_or(lead);
    let length =
        if wanted.inch { show::inches(length) } else { format!("{} mm", show::trimmed(length, 2)) };
    (n, length)
}

/// A rule along the scratch.
pub(super) fn check(made: &Made<'_>) -> Step {
    let (thread, course) = (made.thread, made.course);
    let (n, figure) = spaces(thread);
    let spaces = if n == 1 { "1 space".to_owned() } else { format!("{n} spaces") };
    // What these gears cut, where that is another lead than was asked for.
    let over = course.like(times(course.lead, n));
    let asked = times(thread.wanted.lead.mm().unwrap_or(course.lead), n).to_f64();
    let figure = match (over.mm.to_f64() - asked).abs() > 0.005 * asked {
        true => over.words(),
        false => figure,
    };
    let mut say = Vec::new();
    if thread.wanted.thread.starts > 1 {
        say.push("This is the lead of one start; the others come between.".to_owned());
    }
    say.push("If it isn't so: the gears and the lever are wrong.".to_owned());
    Step {
        id: StepId::new("check", 1),
        title: "Is the lead right?".to_owned(),
        actions: Vec::from([
            Action::Look(Statement::Spindle { of: Spindle::Lathe, is: Running::Stopped }),
            Action::Clean { what: Tended::Thread },
            Action::Look(Statement::Spaces { count: n, over }),
            Action::Measure {
                what: Measured::Pitch,
                with: Instrument::Rule,
                should_be: Some(course.like(course.lead)),
                up_to: None,
                is: None,
                fills: None,
            },
        ]),
        say,
        label: spaces,
        figure,
        done: "It is",
        ..Step::default()
    }
}
