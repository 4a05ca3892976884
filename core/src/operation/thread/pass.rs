//! Blank, scratch, passes, measuring: what is cut, and how the carriage gets back for the next.

use super::super::Step;
use super::answer::Thread;
use super::card::range;
use super::nuts::Nuts;
use super::sizes::Sizes;
use crate::exact::Ratio;
use crate::quantity::{MM_PER_INCH, show};
use crate::threads::{Rule, Side, infeed};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec;
use alloc::vec::Vec;

const TURNING: &str = "No gloves, and no rag near a turning thread.";

/// Which way the tool goes deeper, and which way it comes clear.
const fn ways(side: Side) -> (&'static str, &'static str) {
    match side {
        Side::Outside => ("in", "out"),
        Side::Inside => ("out", "in"),
    }
}

/// The blank turned, or the hole bored.
pub(super) fn blank(thread: &Thread) -> Option<Step> {
    let sizes = thread.sizes.as_ref()?;
    let wanted = &thread.wanted;
    let (label, basic, limits) = match wanted.side {
        Side::Outside => {
            ("outside diameter", sizes.major?, sizes.limits.as_ref().ok().map(|l| l.major))
        }
        Side::Inside => ("bore", sizes.minor?, sizes.limits.as_ref().ok().map(|l| l.minor)),
    };
    let figure = match limits.and_then(|range| range.min.zip(range.max)) {
        Some((min, max)) => range(thread, min, max),
        None => wanted.length_text(basic),
    };
    let mut say = vec![match wanted.side {
        Side::Outside => format!("Blank turned to Ø *{figure}*."),
        Side::Inside => format!("Hole bored to Ø *{figure}*."),
    }];
    let root = match wanted.side {
        Side::Outside => sizes.minor,
        Side::Inside => sizes.major,
    };
    if let Some(root) = root {
        let root = wanted.length_text(root);
        let (end, groove) = match wanted.side {
            Side::Outside => (format!("End chamfered to below Ø *{root}*."), "below"),
            Side::Inside => (format!("Mouth chamfered to above Ø *{root}*."), "above"),
        };
        say.push(end);
        if wanted.ending == Some("groove") {
            let width = wanted.length_text(wanted.lead.mm().ok()?);
            say.push(format!(
                "Groove at the end of the thread, {groove} Ø *{root}*, wider than *{width}*."
            ));
        }
    }
    Some(Step {
        title: format!("The blank for {}", thread.wanted.name),
        say,
        label: label.to_owned(),
        figure,
        caution: None,
        done: "Ready",
        ..Step::default()
    })
}

/// How the tool is brought to the work before a pass: sentences in order.
fn to_the_start(thread: &Thread) -> Vec<String> {
    let (_, clear) = ways(thread.wanted.side);
    if thread.nuts.as_ref().is_some_and(Nuts::closed) {
        vec![format!(
            "Spindle stopped, tool drawn {clear} clear, past the start by more than the gears' slack."
        )]
    } else {
        vec![format!("Half-nuts open, tool drawn {clear} clear, carriage back past the start.")]
    }
}

/// When the half-nuts are closed, and what happens at the end: sentences in order.
fn along(thread: &Thread) -> Vec<String> {
    let (_, clear) = ways(thread.wanted.side);
    let closed = thread.nuts.as_ref().is_some_and(Nuts::closed);
    let mut say = Vec::new();
    if let Some(nuts) = &thread.nuts {
        say.push(match nuts.rule {
            Rule::Anywhere => "Close the half-nuts *anywhere*.".to_owned(),
            Rule::AnyMark => "Close the half-nuts at *any* mark.".to_owned(),
            Rule::EveryNthMark(_) => {
                format!("Close the half-nuts at mark *{}*, no other.", nuts.list())
            }
            Rule::OneMark => "Close the half-nuts at mark *1*, no other.".to_owned(),
            Rule::KeepClosed => {
                "Half-nuts *stay closed* from the first pass to the last.".to_owned()
            }
        });
    }
    if closed {
        say.push("Spindle forward. Stop it before the end of the thread.".to_owned());
        say.push(format!("Tool {clear} clear."));
        say.push(back(thread));
        return say;
    }
    say.push(match thread.wanted.ending {
        Some("groove") => format!("In the groove: half-nuts open, then tool {clear}."),
        Some("shoulder") => {
            format!("Well before the shoulder: tool {clear} and half-nuts open, both at once.")
        }
        _ => format!("At the end: tool {clear} and half-nuts open, both at once."),
    });
    say
}

/// How the carriage gets back with the half-nuts closed.
fn back(thread: &Thread) -> String {
    match (thread.lathe.reverse, thread.lathe.crank) {
        (Some(true), _) if thread.lathe.screwed => {
            "Back past the start in reverse, at the slowest speed: the chuck is screwed on. Stop."
                .to_owned()
        }
        (Some(true), _) => "Back past the start in reverse, slowly. Stop.".to_owned(),
        (_, true) => {
            "Supply isolated: wind back past the start with the hand crank. Crank off.".to_owned()
        }
        _ => "Supply isolated: turn back past the start by hand at the chuck.".to_owned(),
    }
}

fn caution(thread: &Thread) -> &'static str {
    let closed = thread.nuts.as_ref().is_some_and(Nuts::closed);
    if closed && thread.lathe.screwed && thread.lathe.reverse == Some(true) {
        "Never cut in reverse: a screwed-on chuck comes off. No gloves, no rag near a turning thread."
    } else {
        TURNING
    }
}

/// A scratch, to see the lead before any metal is lost.
pub(super) fn scratch(thread: &Thread) -> Step {
    let (deeper, clear) = ways(thread.wanted.side);
    let mut say = Vec::new();
    if let Some(slowest) = &thread.lathe.slowest {
        say.push(format!("Slowest speed: {slowest}."));
    }
    let dial = thread.cut.as_ref().and_then(|cut| cut.as_ref().ok());
    let slide = dial.map_or("cross dial", |cut| cut.slide());
    if let Some(deg) = dial.and_then(|cut| cut.compound_deg) {
        let deg = show::float_trimmed(deg, 2);
        say.push(format!("Compound set over *{deg}°* from the cross slide's direction."));
    }
    say.push(format!(
        "Tool to the turning blank until it just marks it; {slide} to *0*, fed {deeper}wards."
    ));
    say.push(format!("Tool {clear} clear, spindle stopped, carriage past the start."));
    say.push(format!("{} past by half a turn, then {deeper} to *1*.", capital(clear)));
    say.extend(along(thread));
    say.push("Spindle stopped.".to_owned());
    Step {
        title: "A scratch".to_owned(),
        say,
        label: slide.to_owned(),
        figure: "1".to_owned(),
        caution: Some(caution(thread)),
        done: "Scratched",
        cuts: true,
        ..Step::default()
    }
}

fn capital(word: &str) -> String {
    let mut chars = word.chars();
    chars.next().map(|first| first.to_ascii_uppercase()).into_iter().chain(chars).collect()
}

/// How many spaces to count, and what they must come to.
fn spaces(thread: &Thread) -> (u32, String) {
    let wanted = &thread.wanted;
    let lead = wanted.lead.mm().unwrap_or(Ratio::ONE);
    let room = wanted.length.as_ref().map(crate::quantity::Quantity::value);
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
    let room = room.unwrap_or(Ratio::whole(50)).min(Ratio::whole(50));
    let fits = |n: &u32| lead.mul(Ratio::from(*n)).is_ok_and(|length| length <= room);
    let n = [20, 10, 5, 4, 3, 2].into_iter().find(fits).unwrap_or(1);
    let length = lead.mul(Ratio::from(n)).unwrap_or(lead);
    (n, if wanted.inch { show::inches(length) } else { format!("{} mm", show::trimmed(length, 2)) })
}

/// A rule along the scratch.
pub(super) fn check(thread: &Thread) -> Step {
    let (n, figure) = spaces(thread);
    let spaces = if n == 1 { "space".to_owned() } else { format!("{n} spaces") };
    let mut say = vec![
        "Spindle stopped. Lay a rule along the scratch.".to_owned(),
        format!("From one line to the *{n}*th after it: *{figure}*.")
            .replace("*1*th", "next one")
            .replace("to the next one after it", "to the next one"),
    ];
    if thread.wanted.thread.starts > 1 {
        say.push("This is the lead: the other starts come between.".to_owned());
    }
    say.push("If not, supply isolated again, and look at the gears and the lever.".to_owned());
    Step {
        title: "Is the lead right?".to_owned(),
        say,
        label: spaces,
        figure,
        caution: Some(TURNING),
        done: "It is",
        ..Step::default()
    }
}

/// One pass.
pub(super) fn pass(thread: &Thread, at: usize) -> Option<Step> {
    let cut = thread.cut.as_ref()?.as_ref().ok()?;
    let passes = &cut.passes.passes;
    let pass = passes.get(at)?;
    let reading = pass.reading.to_string();
    let (deeper, clear) = ways(thread.wanted.side);
    let mut say = to_the_start(thread);
    say.push(format!("{} past by half a turn, then {deeper} to *{reading}*.", capital(clear)));
    say.extend(along(thread));
    Some(Step {
        title: format!("Pass {} of {}", at.saturating_add(1), passes.len()),
        say,
        label: cut.slide().to_owned(),
        figure: reading,
        caution: Some(caution(thread)),
        done: "Cut",
        cuts: true,
        ..Step::default()
    })
}

/// Once more at the same reading.
pub(super) fn spring(thread: &Thread) -> Option<Step> {
    let last = thread.cut.as_ref()?.as_ref().ok()?.passes.passes.len().checked_sub(1)?;
    let step = pass(thread, last)?;
    Some(Step { title: "Once more, to take the spring out".to_owned(), ..step })
}

/// Deeper by feel, where there is no list of passes.
pub(super) fn deepen(thread: &Thread) -> Step {
    let mut say = to_the_start(thread);
    let depth = thread.sizes.as_ref().map(|sizes| thread.wanted.length_text(sizes.depth));
    say.push(match &depth {
        Some(depth) => {
            format!("A little deeper each time, less as it gets deeper, to *{depth}* in all.")
        }
        None => "A little deeper each time, less as it gets deeper.".to_owned(),
    });
    say.extend(along(thread));
    say.push("The same again until it is deep enough.".to_owned());
    Step {
        title: "Pass after pass".to_owned(),
        say,
        label: if depth.is_some() { "depth".to_owned() } else { String::new() },
        figure: depth.unwrap_or_default(),
        caution: Some(caution(thread)),
        done: "Cut",
        cuts: true,
        ..Step::default()
    }
}

/// What one more line does to the shake of the nut, in the thread's own system.
fn shake(thread: &Thread, sizes: &Sizes) -> Option<String> {
    let cut = thread.cut.as_ref()?.as_ref().ok()?;
    let shake = infeed(&sizes.profile).end_shake * cut.line();
    Some(if thread.wanted.inch {
        format!("{} thou", show::float(shake / MM_PER_INCH.to_f64() * 1000.0, 1))
    } else {
        format!("{} mm", show::float(shake, 3))
    })
}

/// The nut in hand tried.
pub(super) fn nut(thread: &Thread) -> Step {
    let shake = thread.sizes.as_ref().and_then(|sizes| shake(thread, sizes));
    let mut say = vec![
        "Spindle stopped, tool clear. Brush the thread clean, with a brush.".to_owned(),
        "Try the nut. Not on yet: *one* line deeper, and try again.".to_owned(),
    ];
    if let Some(shake) = &shake {
        say.push(format!("Each line more adds *{shake}* of end shake."));
    }
    say.push("On by hand all the way without shake you can feel: done.".to_owned());
    Step {
        title: "To the nut in hand".to_owned(),
        say,
        label: if shake.is_some() { "shake for each line".to_owned() } else { String::new() },
        figure: shake.unwrap_or_default(),
        caution: Some(TURNING),
        done: "Fits",
        cuts: true,
        ..Step::default()
    }
}

/// Measured over wires, or at the pitch diameter, or with its mate.
pub(super) fn measure(thread: &Thread) -> Step {
    let mut say =
        vec!["Spindle stopped, tool clear. Brush the thread clean, with a brush.".to_owned()];
    let over = thread.wires.as_ref().and_then(|wires| Some((wires.best, wires.over?)));
    let (label, figure) = if let Some((best, (min, max))) = over {
        let figure = range(thread, min, max);
        let best = if thread.wanted.inch {
            format!("{} in", show::float(best / MM_PER_INCH.to_f64(), 4))
        } else {
            format!("{} mm", show::float(best, 3))
        };
        say.push(format!("Over three wires of *{best}*: *{figure}*."));
        ("over wires", figure)
    } else {
        say.push("Try it with its mate, or a gauge.".to_owned());
        ("", String::new())
    };
    say.push("Too tight: *one* line deeper, and measure again.".to_owned());
    Step {
        title: format!("Measure {}", thread.wanted.name),
        say,
        label: label.to_owned(),
        figure,
        caution: Some(TURNING),
        done: "To size",
        cuts: true,
        ..Step::default()
    }
}

/// All out of gear again, seen before the next start.
pub(super) fn finish() -> Step {
    Step {
        title: "Before the next start".to_owned(),
        say: vec![
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
