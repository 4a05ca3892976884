//! From one start of a thread to the next.

use super::super::Step;
use super::answer::Thread;
use super::course::times;
use super::mount::{chain, meshes, train};
use super::run::stopped;
use super::steps::Made;
use crate::exact::Ratio;
use crate::operation::ready::lathe;
use crate::procedure::{
    Action, Chalked, Cleared, Lockable, Number, OpenShut, Running, Statement, StepId, Turned,
    Turning,
};
use crate::quantity::show;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::ToString;
use alloc::vec::Vec;

/// How many teeth the first driver goes on for one start, where that is a whole number; and its own.
pub(super) fn teeth(thread: &Thread) -> Option<(Ratio, u16)> {
    let gears = thread.gears.as_ref().ok()?;
    let driver = gears.best()?.pairs().first()?.driver;
    let starts = Ratio::from(u32::from(thread.wanted.thread.starts));
    let each = gears.before.mul(Ratio::from(u32::from(driver))).and_then(|teeth| teeth.div(starts));
    each.ok().filter(|teeth| teeth.is_whole()).map(|teeth| (teeth, driver))
}

/// On to the next start: the second is 1.
pub(super) fn next(made: &Made<'_>, start: u16) -> Step {
    let (thread, course) = (made.thread, made.course);
    let starts = thread.wanted.thread.starts;
    let id = StepId::new("start", start.into());
    let title = format!("Start {} of {starts}", start.saturating_add(1));
    let mut actions: Vec<Action> = Vec::new();
    actions.extend(stopped(made));
    if course.by_teeth
        && let Some((teeth, of)) = teeth(thread)
        && let Some((driver, driven)) = meshes(&chain(thread, 0)).next()
    {
        if course.powered() && course.closed {
            actions.push(lathe(Running::Stopped));
        }
        actions.extend([
            Action::Isolate,
            Action::Guard { is: OpenShut::Open },
            Action::Chalk { what: Chalked::Mesh },
            Action::Unlock { what: Lockable::Banjo },
            Action::Part { driver, driven },
            Action::TurnByHand {
                what: Turned::LatheSpindle,
                by: course.hand(&thread.lathe),
                way: Turning::Forward,
                turns: None,
                teeth: Some(Number(teeth)),
                of: Some(of),
            },
            Action::Mesh { driver, driven },
            Action::Lock { what: Lockable::Banjo },
            Action::Look(Statement::Clears { what: Cleared::Train }),
            Action::Guard { is: OpenShut::Shut },
        ]);
        if course.powered() {
            actions.push(Action::Energise);
        }
        return Step {
            id,
            title,
            actions,
            label: "teeth on".to_owned(),
            figure: show::trimmed(teeth, 0),
            done: "Moved on",
            picture: train(thread),
            ..Step::default()
        };
    }
    let on = times(course.pitch, start.into());
    actions.push(made.depths.aside(on, course.unit));
    let dial = thread.lathe.compound;
    let counted = dial.and_then(|dial| {
        let at = |n: u32| dial.reading(times(course.pitch, n));
        let (before, now) = (at(u32::from(start).checked_sub(1)?)?, at(start.into())?);
        dial.reading(now.travel.sub(before.travel).ok()?)
    });
    let figure = match counted {
        Some(reading) => reading.to_string(),
        None => thread.wanted.length_text(course.pitch),
    };
    Step {
        id,
        title,
        actions,
        label: "compound on by".to_owned(),
        figure,
        done: "Moved on",
        ..Step::default()
    }
}
