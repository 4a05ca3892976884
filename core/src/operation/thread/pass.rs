//! Pass after pass, each at its own reading.

use super::super::Step;
use super::answer::Thread;
use super::card::length;
use super::cut::Cut;
use super::run::{along, approach, caution, to_the_start};
use super::section::of_pass;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;

fn cut(thread: &Thread) -> Option<&Cut> {
    thread.cut.as_ref()?.as_ref().ok()
}

/// How many passes are walked through for each start.
pub(super) fn count(thread: &Thread) -> u16 {
    let count = cut(thread).map_or(0, |cut| {
        if thread.wanted.to_nut { cut.before_the_nut() } else { cut.passes.passes.len() }
    });
    u16::try_from(count).unwrap_or(u16::MAX)
}

/// One pass.
pub(super) fn pass(thread: &Thread, at: u16) -> Option<Step> {
    let cut = cut(thread)?;
    let pass = cut.passes.passes.get(usize::from(at))?;
    let shown = cut.shown(pass.lines);
    let mut say = to_the_start(thread);
    say.push(approach(thread, pass.lines, &shown));
    if cut.alternating {
        say.push(aside(thread, pass.aside_mm));
    }
    say.extend(along(thread));
    Some(Step {
        title: format!("Pass {} of {}", at.saturating_add(1), count(thread)),
        say,
        label: cut.slide().to_owned(),
        figure: shown,
        caution: Some(caution(thread)),
        done: "Cut",
        cuts: true,
        measures: None,
        picture: of_pass(thread, Some(at)),
        ..Step::default()
    })
}

/// Where the compound, parallel to the work, stands for this flank.
fn aside(thread: &Thread, mm: f64) -> String {
    let reading = thread.lathe.compound.and_then(|dial| dial.reading_near(mm));
    let to = reading.map_or_else(|| length(thread, mm), |reading| reading.stands());
    format!("Compound back past by half a turn, then towards the headstock to *{to}*.")
}

/// Once more at the same reading.
pub(super) fn spring(thread: &Thread) -> Option<Step> {
    let step = pass(thread, count(thread).checked_sub(1)?)?;
    Some(Step { title: "Once more, to take the spring out".to_owned(), ..step })
}

/// Deeper by feel, where there is no list of passes.
pub(super) fn deepen(thread: &Thread) -> Step {
    let mut say = to_the_start(thread);
    let depth = thread.sizes.as_ref().map(|sizes| thread.wanted.length_text(sizes.depth));
    let to = depth.as_ref().map(|depth| format!(", to *{depth}* in all")).unwrap_or_default();
    say.push(format!("A little deeper each time, and less as it gets deeper{to}."));
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
        measures: None,
        picture: of_pass(thread, None),
        ..Step::default()
    }
}
