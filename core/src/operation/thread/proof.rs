//! Does it fit: the nut in hand, or three wires; and everything out of gear again.

use super::super::Step;
use super::answer::Thread;
use super::card::range;
use super::gears::{Gears, NoGears};
use super::mount::{chain, meshes};
use super::pass::cut;
use super::run::stopped;
use super::section::section;
use super::steps::Made;
use super::tool::moves_aside;
use crate::cutting::Slender;
use crate::procedure::{
    Action, Adjustable, Axis, CutterStands, Fitting, InOut, Instrument, Item, Length, Lockable,
    Measured, OpenShut, Running, Setting, Slide, Spindle, Statement, StepId, Tended, Tumbler,
};
use crate::quantity::{MM_PER_INCH, show};
use crate::threads::{Side, infeed, infeed_to_shake};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// A small length in the thread's own system.
fn small(thread: &Thread, mm: f64) -> String {
    if thread.wanted.inch {
        format!("{} thou", show::float(mm / MM_PER_INCH.to_f64() * 1000.0, 1))
    } else {
        format!("{} mm", show::float(mm, 3))
    }
}

/// What one more line of infeed adds to the end shake and takes off the pitch diameter, mm, and how
/// many lines bring the shake that is wanted.
fn line(thread: &Thread) -> Option<(f64, f64, Option<f64>)> {
    let cut = thread.cut.as_ref()?.as_ref().ok()?;
    let profile = &thread.sizes.as_ref()?.profile;
    let (each, line) = (infeed(profile), cut.line());
    let wanted = thread
        .wanted
        .shake
        .as_ref()
        .map(|shake| libm::floor(infeed_to_shake(profile, 0.0, shake.to_f64()) / line + 1e-9));
    Some((each.end_shake * line, each.off_pitch_diameter * line, wanted))
}

/// What a line more does to the fit, and how many bring the end shake that is wanted, as the card says it.
pub(super) fn by_the_line(thread: &Thread) -> Vec<(String, String)> {
    let Some((shake, off, lines)) = line(thread).filter(|_| thread.wanted.to_nut) else {
        return Vec::new();
    };
    let (shake, off) = (small(thread, shake), small(thread, off));
    let mut said = Vec::from([(
        "each line more".to_owned(),
        format!("{shake} of end shake, {off} off the pitch diameter"),
    )]);
    if let (Some(lines), Some(wanted)) = (lines, &thread.wanted.shake) {
        said.push((
            format!("for {} of shake", wanted.text()),
            format!("at most {} after it just goes", lines_of(lines)),
        ));
    }
    said
}

/// So many lines of the dial.
fn lines_of(lines: f64) -> String {
    let whole = show::float(lines, 0);
    if whole == "1" { "1 line".to_owned() } else { format!("{whole} lines") }
}

/// Whole lines still to go for the end shake that is wanted, by the one that was measured.
fn shake_left(thread: &Thread) -> Option<f64> {
    let (shake, ..) = line(thread)?;
    let left = thread.wanted.shake.as_ref()?.to_f64() - thread.wanted.shake_now.as_ref()?.to_f64();
    Some(libm::floor(left.max(0.0) / shake + 1e-9))
}

/// How far the measure over wires is from its limits.
enum Over {
    /// Past its least: nothing brings that back.
    Under,
    Within,
    /// So many lines deeper brings it to the middle of its limits; none where no line is known.
    Large(Option<f64>),
}

/// What the measure over wires says.
///
/// Over the same wires the measure falls by as much as the pitch diameter: NBS Handbook H28,
/// M = E + a constant for these wires.
fn measured(thread: &Thread) -> Option<Over> {
    let now = thread.wanted.over_wires.as_ref()?.to_f64();
    let (_, (min, max)) = thread.wires.as_ref()?.taken(thread)?;
    Some(if now < min {
        Over::Under
    } else if now <= max {
        Over::Within
    } else {
        // Into the limits without fail, and no further than their middle.
        Over::Large(line(thread).map(|(_, off, _)| {
            let middle = libm::floor((now - f64::midpoint(min, max)) / off + 1e-9);
            middle.max(libm::ceil((now - max) / off - 1e-9)).max(1.0)
        }))
    })
}

/// So many lines deeper, by the measure over wires that was entered; a thread of several starts is left to
/// its own next round.
pub(super) fn correction(thread: &Thread) -> Option<u32> {
    match measured(thread)? {
        // Whole, and never past what a dial counts.
        Over::Large(Some(lines)) if thread.wanted.thread.starts == 1 && lines < 1000.0 => {
            Some(lines as u32)
        }
        _ => None,
    }
}

/// Stopped, the burr off, clean.
fn to_gauge() -> [Action; 2] {
    [Action::Deburr { what: Tended::Thread }, Action::Clean { what: Tended::Thread }]
}

/// The nut (or, in a hole, the screw) in hand tried, after so many passes more.
pub(super) fn nut(made: &Made<'_>, more: u16) -> Step {
    let thread = made.thread;
    let (mate, with) = match thread.wanted.side {
        Side::Outside => ("nut", Instrument::Nut),
        Side::Inside => ("screw", Instrument::Mate),
    };
    let mut actions = Vec::new();
    if let Some(before) = usize::from(more).checked_sub(1)
        && let Some(lines) = made.depths.lines.get(made.depths.before_mate.saturating_add(before))
    {
        actions.extend(cut(made, 0, *lines, None, true));
    }
    actions.extend(stopped(made));
    actions.extend(to_gauge());
    actions.push(Action::Try { with });
    let line = line(thread);
    let shake = line.map(|(shake, ..)| small(thread, shake));
    let mut say = Vec::from([format!(
        "Once the {mate} goes on as it should, the passes after are left out."
    )]);
    let mut figure = shake.clone().unwrap_or_default();
    let mut label = if shake.is_some() { "shake for each line" } else { "" };
    if let Some(wanted) = line.and(thread.wanted.shake.as_ref()) {
        actions.push(Action::Measure {
            what: Measured::Shake,
            with: Instrument::Indicator,
            should_be: Some(Length::from(wanted)),
            up_to: None,
            is: thread.wanted.shake_now.as_ref().map(Length::from),
            fills: Some("shake_now".to_owned()),
        });
        match shake_left(thread) {
            Some(more) if more < 1.0 => {
                say.push("The end shake that is entered leaves no line more: done.".to_owned());
                (label, figure) = ("deeper by", lines_of(0.0));
            }
            Some(more) => (label, figure) = ("deeper by", lines_of(more)),
            None => {}
        }
    }
    if thread.wanted.shake.is_none() {
        say.push("It goes all the way by hand, with no shake that you can feel: done.".to_owned());
    }
    let title = match more {
        0 => format!("To the {mate} in hand"),
        more => format!("To the {mate} in hand, {more} deeper"),
    };
    Step {
        id: StepId::new("nut", u32::from(more).saturating_add(1)),
        title,
        actions,
        say,
        label: label.to_owned(),
        figure,
        done: "Fits",
        cuts: more > 0,
        measures: line.and(thread.wanted.shake.as_ref()).map(|_| "shake_now"),
        ..Step::default()
    }
}

/// Measured over wires, or tried with its mate; the second time after what the first said was cut.
pub(super) fn measure(made: &Made<'_>, n: u32) -> Step {
    let thread = made.thread;
    let mut actions: Vec<Action> = Vec::new();
    if n == 1 {
        actions.extend(stopped(made));
    }
    actions.extend(to_gauge());
    let over = thread.wires.as_ref().and_then(|wires| wires.taken(thread));
    let known = over.is_some();
    let unit = made.course.unit;
    let (mut label, mut figure) = match over {
        Some((wire, (min, max))) => {
            actions.push(Action::Measure {
                what: Measured::OverWires,
                with: Instrument::Wires,
                should_be: Length::near(min, unit),
                up_to: Length::near(max, unit),
                is: thread.wanted.over_wires.as_ref().filter(|_| n == 1).map(Length::from),
                fills: Some("over_wires".to_owned()),
            });
            (format!("over wires of {wire}"), range(thread, min, max))
        }
        None => {
            actions.push(Action::Try { with: Instrument::Mate });
            (String::new(), String::new())
        }
    };
    let mut say = Vec::new();
    match measured(thread).filter(|_| n == 1) {
        Some(Over::Under) => say.push(
            "Under its least: no cut brings that back. Its nut is made to suit, or another begun."
                .to_owned(),
        ),
        Some(Over::Within) => say.push("Within its limits: done.".to_owned()),
        Some(Over::Large(Some(lines))) => {
            say.push("Still too large: what is left to take follows from it.".to_owned());
            (label, figure) = ("deeper by".to_owned(), lines_of(lines));
        }
        Some(Over::Large(None)) => say.push("Still too large.".to_owned()),
        None => {}
    }
    Step {
        id: StepId::new("measure", n),
        title: format!("Measure {}", thread.wanted.name),
        actions,
        say,
        label,
        figure,
        done: "To size",
        measures: known.then_some("over_wires"),
        picture: section(thread, None),
        ..Step::default()
    }
}

/// As many lines deeper as the measure says.
pub(super) fn correct(made: &Made<'_>) -> Option<Step> {
    let more = correction(made.thread)?;
    let lines = made.depths.lines.last()?.checked_add(more)?;
    let (label, figure) = made.depths.shown(lines, made.course.unit);
    let mut actions = cut(made, 0, lines, None, true);
    actions.extend(stopped(made));
    Some(Step {
        id: StepId::new("correct", 1),
        title: "What is left to take".to_owned(),
        actions,
        label,
        figure,
        done: "Cut",
        cuts: true,
        ..Step::default()
    })
}

/// All out of gear again, seen before the next start.
pub(super) fn finish(made: &Made<'_>) -> Step {
    let (thread, course) = (made.thread, made.course);
    let mut actions = Vec::from([
        Action::Look(Statement::Spindle { of: Spindle::Lathe, is: Running::Stopped }),
        Action::Look(Statement::Cutter { is: CutterStands::Clear, off: None }),
        Action::HalfNuts { is: InOut::Out, at: Vec::new() },
        Action::Isolate,
    ]);
    let mut say = Vec::new();
    let geared = thread.gears.as_ref().is_ok_and(|gears| gears.best().is_some());
    if thread.kit.tumbler {
        actions.push(Action::Set(Setting::Tumbler { is: Tumbler::Neutral }));
    } else if geared {
        let pairs = thread.gears.as_ref().ok().and_then(Gears::best).map_or(0, |t| t.pairs().len());
        let last = chain(thread, pairs.saturating_sub(1));
        let parted = meshes(&last).last();
        actions.extend([
            Action::Guard { is: OpenShut::Open },
            Action::Unlock { what: Lockable::Banjo },
        ]);
        actions.extend(parted.map(|(driver, driven)| Action::Part { driver, driven }));
        actions.push(Action::Guard { is: OpenShut::Shut });
    }
    if geared || matches!(thread.gears, Err(NoGears::Leadscrew | NoGears::Drawer)) {
        say.push("The lead of this thread is still set: the next feed wants its own.".to_owned());
    }
    actions.push(match (made.depths.slide, moves_aside(made)) {
        (Slide::Compound, _) => Action::SquareUp { what: Adjustable::Compound, to: Axis::Along },
        (_, true) => Action::Look(Statement::Lies { what: Adjustable::Compound, to: Axis::Along }),
        _ => Action::Unlock { what: Lockable::Compound },
    });
    if course.slender == Slender::NeedsSteady {
        actions.push(Action::Remove(Item::Fitting { which: Fitting::FollowRest }));
    }
    if course.slender != Slender::Stiff {
        actions.extend([
            Action::Unlock { what: Lockable::Quill },
            Action::Remove(Item::Fitting { which: Fitting::TailCentre }),
            Action::Unlock { what: Lockable::Tailstock },
        ]);
    }
    Step {
        id: StepId::new("finish", 1),
        title: "Before the next start".to_owned(),
        actions,
        say,
        label: "half-nuts".to_owned(),
        figure: "open".to_owned(),
        done: "Seen",
        ..Step::default()
    }
}
