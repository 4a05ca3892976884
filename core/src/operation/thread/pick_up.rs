//! A thread that is there already: the tool led back into it.

use super::super::Step;
use super::pass::cut;
use super::run::{along, back, carriage_to, running, stopped, to_start};
use super::section::of_pass;
use super::steps::Made;
use crate::exact::Ratio;
use crate::operation::ready::back_from;
use crate::procedure::{
    Action, Between, Face, Gauge, InOut, Number, Slide, Statement, StepId, Toward, Turned, Turning,
};
use alloc::borrow::ToOwned;
use alloc::vec::Vec;

/// The tool led into the groove, the dials zeroed there.
pub(super) fn pick_up(made: &Made<'_>) -> Step {
    let (thread, course, depths) = (made.thread, made.course, made.depths);
    let deeper = course.deeper();
    let carriage = if course.carriage.is_some() { Gauge::Dial } else { Gauge::Rule };
    let touch = |slide, toward, face| Action::Touch {
        slide,
        toward,
        face,
        between: Between::Metal,
        thick: None,
    };
    let middle = middle(made);
    let mut actions = Vec::from([
        Action::Isolate,
        touch(Slide::Carriage, Toward::Headstock, Face::End),
        Action::Zero { slide: Slide::Carriage, on: carriage },
        back_from(Slide::Carriage, Toward::Headstock),
        back_from(Slide::Cross, deeper),
        carriage_to(course, middle),
        Action::HalfNuts { is: InOut::In, at: course.marks.iter().take(1).copied().collect() },
        Action::TurnByHand {
            what: Turned::LatheSpindle,
            by: course.hand(&thread.lathe),
            way: Turning::Forward,
            turns: Some(Number(Ratio::ONE)),
            teeth: None,
            of: None,
        },
        Action::Look(Statement::Slack { slide: Slide::Compound, toward: Toward::In }),
        touch(Slide::Compound, Toward::In, Face::ThreadFlank),
        touch(Slide::Cross, deeper, Face::ThreadFlank),
        Action::Zero { slide: Slide::Cross, on: depths.on },
        Action::Zero { slide: Slide::Compound, on: depths.compound_on },
        back_from(Slide::Cross, deeper),
    ]);
    if course.closed {
        // Closed nuts stay closed from the moment that the groove is found.
        let lead = if course.left { course.lead } else { course.lead.neg() };
        let over = middle.add(lead).and_then(|at| course.from.sub(at)).unwrap_or_default().abs();
        let mut way = back(made, course.like(over));
        if course.reverses {
            actions.push(Action::Energise);
        } else if course.powered() {
            way = Vec::from_iter(way.into_iter().skip(1));
        }
        actions.extend(way);
    } else {
        actions.extend([
            Action::HalfNuts { is: InOut::Out, at: Vec::new() },
            back_from(Slide::Carriage, Toward::Headstock),
            Action::Energise,
        ]);
    }
    Step {
        id: StepId::new("pick-up", 1),
        title: "Pick up the thread".to_owned(),
        actions,
        say: Vec::from(["It touches both flanks at once, and the slack is out.".to_owned()]),
        label: "both dials".to_owned(),
        figure: "0".to_owned(),
        done: "Picked up",
        picture: of_pass(thread, None),
        ..Step::default()
    }
}

/// The middle of the thread, along the work, mm.
fn middle(made: &Made<'_>) -> Ratio {
    let length = made.thread.wanted.length.as_ref().map_or(Ratio::ONE, |l| l.value());
    length.div(Ratio::whole(2)).unwrap_or(length).neg()
}

/// One pass in air, to see that the tool follows.
pub(super) fn in_air(made: &Made<'_>) -> Step {
    let mut actions: Vec<Action> = Vec::new();
    actions.extend(running(made));
    actions.extend(to_start(made, 0));
    actions.extend(along(made, 0, false));
    actions.extend(stopped(made));
    Step {
        id: StepId::new("in-air", 1),
        title: "A pass in air".to_owned(),
        actions,
        say: Vec::from([
            "Its point follows the groove from end to end; if not, it isn't picked up yet."
                .to_owned(),
        ]),
        label: "tool".to_owned(),
        figure: "clear".to_owned(),
        done: "It follows",
        ..Step::default()
    }
}

/// A line deeper, by the groove that is there.
pub(super) fn deepen(made: &Made<'_>) -> Step {
    let (label, figure) = made.depths.shown(1, made.course.unit);
    let mut actions = cut(made, 0, 1, None, true);
    actions.extend(stopped(made));
    Step {
        id: StepId::new("deeper", 1),
        title: "Deeper by the line".to_owned(),
        actions,
        label,
        figure,
        done: "Cut",
        cuts: true,
        picture: of_pass(made.thread, None),
        ..Step::default()
    }
}
