//! The blank before the thread: its diameter, its chamfer, its groove.

use super::super::Step;
use super::card::range;
use super::steps::Made;
use crate::cutting::Slender;
use crate::operation::ready::{Kit, centre_on, held};
use crate::procedure::{
    Action, Cleared, Fitting, Instrument, Item, Length, Measured, Statement, StepId, Tended,
};
use alloc::borrow::ToOwned;
use alloc::format;

/// The blank as it must be held, measured.
pub(super) fn blank(made: &Made<'_>) -> Step {
    let (thread, course) = (made.thread, made.course);
    let wanted = &thread.wanted;
    let limits = thread.sizes.as_ref().and_then(|sizes| sizes.limits.as_ref().ok());
    let limits = limits.map(|limits| if course.inside { limits.minor } else { limits.major });
    let limits = limits.and_then(|range| range.min.zip(range.max));
    let (label, size) = if course.inside {
        ("bore", course.work.bore)
    } else {
        ("outside diameter", course.work.diameter)
    };
    let figure = match limits.filter(|_| !wanted.there) {
        Some((min, max)) => range(thread, min, max),
        None => size.map(Length::words).unwrap_or_default(),
    };
    let mut actions = Kit::safe();
    if course.slender != Slender::Stiff {
        actions.extend(centre_on());
    }
    if course.slender == Slender::NeedsSteady {
        actions.push(Action::Mount(Item::Fitting { which: Fitting::FollowRest }));
    }
    actions.push(held(course.work.clone()));
    if course.inside && course.work.length.is_some() {
        actions.push(Action::Look(Statement::Clears { what: Cleared::Behind }));
    }
    if !wanted.there {
        let between = limits.and_then(|(min, max)| {
            Length::near(min, course.unit).zip(Length::near(max, course.unit))
        });
        actions.extend([
            Action::Clean { what: Tended::Work },
            Action::Measure {
                what: if course.inside { Measured::Bore } else { Measured::Diameter },
                with: if course.inside { Instrument::Caliper } else { Instrument::Micrometer },
                should_be: between.map(|(min, _)| min).or(size),
                up_to: between.map(|(_, max)| max),
                is: None,
                fills: None,
            },
        ]);
    }
    Step {
        id: StepId::new("blank", 1),
        title: format!("The blank for {}", wanted.name),
        actions,
        label: label.to_owned(),
        figure,
        done: "Ready",
        ..Step::default()
    }
}
