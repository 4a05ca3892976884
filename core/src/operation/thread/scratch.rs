//! A scratch before any metal is lost, and a rule laid along it.

use super::super::Step;
use super::answer::Thread;
use super::pace::said;
use super::run::{TURNING, along_with, approach, caution, start, ways};
use super::section::of_pass;
use crate::exact::Ratio;
use crate::quantity::{MM_PER_INCH, Quantity, show};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

/// One line deep.
pub(super) fn scratch(thread: &Thread) -> Step {
    let (deeper, clear) = ways(thread.wanted.side);
    let mut say: Vec<String> = Vec::new();
    let cut = thread.cut.as_ref().and_then(|cut| cut.as_ref().ok());
    let slide = cut.map_or("cross dial", |cut| cut.slide());
    say.push("Half-nuts open. Nobody's sleeve, hair or rag near the work.".to_owned());
    let forward = match &thread.lathe.slowest {
        Some(slowest) => format!("Spindle forward at {slowest}"),
        None => "Spindle forward, at its slowest".to_owned(),
    };
    say.push(format!("{forward}."));
    let zero = match cut {
        Some(cut) if cut.compound_deg.is_some() => "both dials",
        _ => slide,
    };
    say.push(format!("Tool {deeper} until it just marks the work; {zero} to *0*."));
    say.push(format!(
        "Tool {clear}, clear of the work; carriage {}. Spindle stopped.",
        start(thread)
    ));
    let one = cut.map_or_else(|| "1".to_owned(), |cut| cut.shown(1));
    say.push(approach(thread, 1, &one));
    say.extend(along_with(thread, &forward));
    say.push("Spindle stopped.".to_owned());
    Step {
        title: "A scratch".to_owned(),
        say,
        label: slide.to_owned(),
        figure: one,
        caution: Some(caution(thread)),
        done: "Scratched",
        cuts: true,
        measures: None,
        picture: of_pass(thread, None),
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
pub(super) fn check(thread: &Thread) -> Step {
    let (n, figure) = spaces(thread);
    let spaces = if n == 1 { "1 space".to_owned() } else { format!("{n} spaces") };
    let mut say = vec![
        "Spindle stopped, tool clear.".to_owned(),
        format!("Lay a rule along the scratch: *{spaces}*, line to line, must measure *{figure}*."),
    ];
    if thread.wanted.thread.starts > 1 {
        say.push("This is the lead of one start; the others come between.".to_owned());
    }
    say.push("If not: supply isolated again, and look at the gears and the lever.".to_owned());
    if let Some(pace) = &thread.pace
        && let Some(speed) = pace.speed.as_ref().filter(|_| !pace.too_fast())
    {
        say.push(format!("Still stopped: {} for the passes.", said(speed)));
    }
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
