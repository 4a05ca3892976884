//! How the tool is brought to the start, runs along, and gets back: sentences in the order in which
//! it is safe.

use super::answer::Thread;
use super::nuts::Nuts;
use super::pace::{Pace, said};
use crate::threads::{Hand, Rule, Side};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

/// What belongs to every turning thread.
pub(super) const TURNING: &str = "No gloves, and no rag near a turning thread.";

/// Which way the tool goes deeper, and which way it comes clear.
pub(super) const fn ways(side: Side) -> (&'static str, &'static str) {
    match side {
        Side::Outside => ("in", "out"),
        Side::Inside => ("out", "in"),
    }
}

/// Whether the half-nuts stay closed from the first pass to the last.
pub(super) fn closed(thread: &Thread) -> bool {
    thread.nuts.as_ref().is_none_or(Nuts::closed)
}

/// Where a pass begins.
pub(super) fn start(thread: &Thread) -> &'static str {
    match (thread.wanted.thread.hand, thread.wanted.side) {
        (Hand::Left, Side::Outside) => "in the groove where the thread begins",
        (Hand::Left, Side::Inside) => "past the far end of the thread",
        _ => "past the start",
    }
}

/// Tool clear and the carriage where a pass begins, the spindle stopped where it must be.
pub(super) fn to_the_start(thread: &Thread) -> Vec<String> {
    let (_, clear) = ways(thread.wanted.side);
    let start = start(thread);
    if closed(thread) {
        vec![
            "Spindle stopped.".to_owned(),
            format!(
                "Tool {clear}, clear of the work; carriage {start} by more than the slack of the gears."
            ),
        ]
    } else {
        vec![
            "Half-nuts open.".to_owned(),
            format!("Tool {clear}, clear of the work; carriage {start}."),
        ]
    }
}

/// The spindle started, at the speed that leaves time to let go, or by hand where none does.
fn forward(thread: &Thread) -> String {
    let slowest = thread.lathe.slowest.as_deref();
    match &thread.pace {
        _ if closed(thread) => match slowest {
            Some(slowest) => format!("Spindle forward at {slowest}"),
            None => "Spindle forward".to_owned(),
        },
        Some(pace) if pace.too_fast() && thread.lathe.crank => {
            "Supply isolated: spindle forward by the hand crank".to_owned()
        }
        Some(pace) if pace.too_fast() => {
            "Supply isolated: spindle forward by hand at the chuck".to_owned()
        }
        Some(Pace { speed: Some(speed), .. }) => format!("Spindle forward at {}", said(speed)),
        _ => "Spindle forward".to_owned(),
    }
}

/// Up to a reading from one side.
pub(super) fn approach(thread: &Thread, lines: u32, shown: &str) -> String {
    let (deeper, clear) = ways(thread.wanted.side);
    let out = if clear == "out" { "Out" } else { "In" };
    let cut = thread.cut.as_ref().and_then(|cut| cut.as_ref().ok());
    let back = cut.is_some_and(|cut| cut.backwards);
    let back = if back { format!(", which is {lines} back from 0") } else { String::new() };
    let to = format!("past by half a turn, then {deeper} to *{shown}*{back}.");
    if cut.is_some_and(|cut| cut.compound_deg.is_some()) {
        return format!(
            "Compound {} {to} Cross slide {deeper} again to *0*.",
            out.to_ascii_lowercase()
        );
    }
    format!("{out} {to}")
}

/// When the half-nuts are closed, and what happens at the end.
pub(super) fn along(thread: &Thread) -> Vec<String> {
    along_with(thread, &forward(thread))
}

/// The same with the spindle started otherwise.
pub(super) fn along_with(thread: &Thread, forward: &str) -> Vec<String> {
    let (_, clear) = ways(thread.wanted.side);
    if closed(thread) {
        return vec![
            "Half-nuts *closed*, and closed they stay to the last pass.".to_owned(),
            format!("{forward}; stop it before the end of the thread."),
            format!("Tool {clear}, clear of the work."),
            back(thread),
        ];
    }
    let mut say = Vec::new();
    if let Some(nuts) = &thread.nuts {
        let at = match nuts.rule {
            Rule::Anywhere => "*anywhere*".to_owned(),
            Rule::AnyMark => "at *any* mark".to_owned(),
            Rule::EveryNthMark(_) => format!("at mark *{}*, no other", nuts.list()),
            Rule::OneMark | Rule::KeepClosed => "at mark *1*, no other".to_owned(),
        };
        say.push(format!("{forward}. Close the half-nuts {at}."));
    }
    say.push(match thread.wanted.ending {
        Some("groove") => format!("In the groove at the end: half-nuts open, then tool {clear}."),
        Some("shoulder") => {
            format!("Well before the shoulder: tool {clear} and half-nuts open, both at once.")
        }
        _ => format!("At the end: tool {clear} and half-nuts open, both at once."),
    });
    say
}

/// How the carriage gets back with the half-nuts closed.
pub(super) fn back(thread: &Thread) -> String {
    let start = start(thread);
    match (thread.lathe.reverse, thread.lathe.crank) {
        (Some(true), _) => {
            let how = if thread.lathe.screwed {
                "at the slowest speed, for the chuck is screwed on"
            } else {
                "slowly"
            };
            format!("Reverse, {how}, until it is {start} again. Stop.")
        }
        (_, true) => {
            format!(
                "Supply isolated: wind back with the hand crank until it is {start}. Crank off."
            )
        }
        _ => format!("Supply isolated: turn back by hand at the chuck until it is {start}."),
    }
}

/// What belongs to a step that cuts.
pub(super) fn caution(thread: &Thread) -> &'static str {
    if closed(thread) && thread.lathe.screwed && thread.lathe.reverse == Some(true) {
        "Never cut in reverse: a screwed-on chuck comes off. No gloves, no rag near a turning thread."
    } else {
        TURNING
    }
}
