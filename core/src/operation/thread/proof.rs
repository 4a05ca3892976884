//! Does it fit: the nut in hand, or three wires; and everything out of gear again.

use super::super::Step;
use super::answer::Thread;
use super::card::{length, range};
use super::run::TURNING;
use crate::quantity::{MM_PER_INCH, show};
use crate::threads::{Side, infeed};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
use alloc::vec;

const CLEAN: &str = "Spindle stopped, tool clear. Clean the thread with a brush.";

/// What one more line of infeed adds to the end shake, in the thread's own system.
fn shake(thread: &Thread) -> Option<String> {
    let cut = thread.cut.as_ref()?.as_ref().ok()?;
    let shake = infeed(&thread.sizes.as_ref()?.profile).end_shake * cut.line();
    Some(if thread.wanted.inch {
        format!("{} thou", show::float(shake / MM_PER_INCH.to_f64() * 1000.0, 1))
    } else {
        format!("{} mm", show::float(shake, 3))
    })
}

/// The nut (or, in a hole, the screw) in hand tried.
pub(super) fn nut(thread: &Thread) -> Step {
    let mate = match thread.wanted.side {
        Side::Outside => "nut",
        Side::Inside => "screw",
    };
    let shake = shake(thread);
    let mut say = vec![
        CLEAN.to_owned(),
        format!(
            "Try the {mate}. If it doesn't go on: *one* line deeper, the same run again, and try."
        ),
    ];
    if let Some(shake) = &shake {
        say.push(format!("Once it goes, each line more adds *{shake}* of end shake."));
    }
    say.push("It goes all the way by hand, with no shake that you can feel: done.".to_owned());
    Step {
        title: format!("To the {mate} in hand"),
        say,
        label: if shake.is_some() { "shake for each line".to_owned() } else { String::new() },
        figure: shake.unwrap_or_default(),
        caution: Some(TURNING),
        done: "Fits",
        ..Step::default()
    }
}

/// Measured over wires, or tried with its mate.
pub(super) fn measure(thread: &Thread) -> Step {
    let mut say = vec![CLEAN.to_owned()];
    let over = thread.wires.as_ref().and_then(|wires| Some((wires.best, wires.over?)));
    let (label, figure) = match over {
        Some((best, (min, max))) => {
            let figure = range(thread, min, max);
            say.push(format!("Over three wires of *{}*: *{figure}*.", length(thread, best)));
            ("over wires", figure)
        }
        None => {
            say.push("Try it with its mate, or a gauge.".to_owned());
            ("", String::new())
        }
    };
    say.push("Metal left: *one* line deeper, the same run again, and measure.".to_owned());
    Step {
        title: format!("Measure {}", thread.wanted.name),
        say,
        label: label.to_owned(),
        figure,
        caution: Some(TURNING),
        done: "To size",
        ..Step::default()
    }
}

/// All out of gear again, seen before the next start.
pub(super) fn finish() -> Step {
    Step {
        title: "Before the next start".to_owned(),
        say: vec![
            "Spindle stopped.".to_owned(),
            "Half-nuts open.".to_owned(),
            "Feed out of gear.".to_owned(),
            "Speed and back gear as the next job wants them.".to_owned(),
        ],
        label: "half-nuts".to_owned(),
        figure: "open".to_owned(),
        caution: Some("A forgotten feed runs the carriage into the chuck."),
        done: "Seen",
        ..Step::default()
    }
}
