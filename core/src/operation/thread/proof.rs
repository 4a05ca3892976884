//! Does it fit: the nut in hand, or three wires; and everything out of gear again.

use super::super::Step;
use super::answer::Thread;
use super::card::range;
use super::run::TURNING;
use super::section::section;
use crate::quantity::{MM_PER_INCH, show};
use crate::threads::{Side, infeed, infeed_to_shake};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
use alloc::vec;

const CLEAN: &str = "Spindle stopped, tool clear. Clean the thread with a brush.";

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

/// What the measure over wires says, and how many lines deeper brings it to the middle of its
/// limits.
///
/// Over the same wires the measure falls by as much as the pitch diameter: NBS Handbook H28,
/// M = E + a constant for these wires.
fn corrected(thread: &Thread, (min, max): (f64, f64)) -> Option<(String, Option<String>)> {
    let measured = thread.wanted.over_wires.as_ref()?;
    let now = measured.to_f64();
    // In the thread's own system, as its limits are.
    let text = if measured.unit().is_inch() == thread.wanted.inch {
        measured.text().to_owned()
    } else {
        super::card::measured(thread, now)
    };
    if now < min {
        let under = small(thread, min - now);
        return Some((
            format!(
                "{text} measured: *{under}* under its least. No cut brings that back: a nut to suit it, or another."
            ),
            None,
        ));
    }
    if now <= max {
        return Some((format!("{text} measured: within its limits. *Done*."), None));
    }
    // Said as the size that it may have, never as what is over: that would read as a depth.
    let most = super::card::measured(thread, max);
    let Some((_, off, _)) = line(thread) else {
        return Some((format!("{text} measured: still too large, {most} at most."), None));
    };
    // Into the limits without fail, and no further than their middle.
    let middle = libm::floor((now - f64::midpoint(min, max)) / off + 1e-9);
    let lines = lines_of(middle.max(libm::ceil((now - max) / off - 1e-9)).max(1.0));
    Some((
        format!(
            "{text} measured, {most} at most: *{lines}* of the dial deeper, the same run again, and measure."
        ),
        Some(lines),
    ))
}

/// The nut (or, in a hole, the screw) in hand tried.
pub(super) fn nut(thread: &Thread) -> Step {
    let mate = match thread.wanted.side {
        Side::Outside => "nut",
        Side::Inside => "screw",
    };
    let line = line(thread);
    let shake = line.map(|(shake, ..)| small(thread, shake));
    let mut say = vec![
        CLEAN.to_owned(),
        format!(
            "Try the {mate}. If it doesn't go on: *one* line deeper, the same run again, and try."
        ),
    ];
    if let (Some(shake), Some((_, off, lines))) = (&shake, line) {
        let off = small(thread, off);
        say.push(format!(
            "Once it goes, each line more adds *{shake}* of end shake and takes {off} off the pitch diameter."
        ));
        if let (Some(lines), Some(wanted)) = (lines, &thread.wanted.shake) {
            say.push(format!(
                "For {} of shake, by an indicator against the {mate} pushed and pulled: at most *{}* lines after it just goes.",
                wanted.text(),
                show::float(lines, 0)
            ));
        }
    }
    let mut figure = shake.clone().unwrap_or_default();
    let mut label = if shake.is_some() { "shake for each line" } else { "" };
    if let (Some(now), Some(wanted), Some(more)) =
        (&thread.wanted.shake_now, &thread.wanted.shake, shake_left(thread))
    {
        let (now_text, wanted) = (now.text(), wanted.text());
        if more < 1.0 {
            say.push(format!("{now_text} of shake, {wanted} wanted: *no* line more. Done."));
        } else {
            let lines = lines_of(more);
            say.push(format!(
                "{now_text} of shake, {wanted} wanted: *{lines}* deeper, the same run again, and measure."
            ));
            (label, figure) = ("deeper by", lines);
        }
    }
    if thread.wanted.shake.is_none() {
        say.push("It goes all the way by hand, with no shake that you can feel: done.".to_owned());
    }
    Step {
        title: format!("To the {mate} in hand"),
        say,
        label: label.to_owned(),
        figure,
        caution: Some(TURNING),
        done: "Fits",
        measures: line.and(thread.wanted.shake.as_ref()).map(|_| "shake_now"),
        ..Step::default()
    }
}

/// Measured over wires, or tried with its mate.
pub(super) fn measure(thread: &Thread) -> Step {
    let mut say = vec![CLEAN.to_owned()];
    let over = thread.wires.as_ref().and_then(|wires| wires.taken(thread));
    let known = over.is_some();
    let corrected = over.as_ref().and_then(|(_, limits)| corrected(thread, *limits));
    let (mut label, mut figure) = match over {
        Some((wire, (min, max))) => {
            let figure = range(thread, min, max);
            say.push(format!("Over three wires of *{wire}*: *{figure}*."));
            say.push("With one wire: over it and the crests, half of that and the outside diameter together.".to_owned());
            ("over wires", figure)
        }
        None => {
            say.push("Try it with its mate, or a gauge.".to_owned());
            ("", String::new())
        }
    };
    if let Some((words, lines)) = corrected {
        say.push(words);
        if let Some(lines) = lines {
            (label, figure) = ("deeper by", lines);
        }
    }
    // The last cuts straight in, on both flanks: NAVEDTRA 14345 p. 179.
    let flank = matches!(&thread.cut, Some(Ok(cut)) if cut.compound_deg.is_some());
    let straight = if flank { " by the cross slide, straight in" } else { "" };
    say.push(format!("Metal left: *one* line deeper{straight}, the same run again, and measure."));
    Step {
        title: format!("Measure {}", thread.wanted.name),
        say,
        label: label.to_owned(),
        figure,
        caution: Some(TURNING),
        done: "To size",
        measures: known.then_some("over_wires"),
        picture: section(thread, None),
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
