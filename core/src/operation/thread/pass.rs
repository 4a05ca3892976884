//! Pass after pass, each at its own reading.

use super::super::Step;
use super::run::{along, depth, running, to_start};
use super::section::of_pass;
use super::steps::Made;
use crate::procedure::{Action, StepId};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::vec::Vec;

/// What is done for a pass at so many lines of a start; `starting` where the spindle stands before it.
pub(super) fn cut(
    made: &Made<'_>,
    start: u16,
    lines: u32,
    aside: Option<f64>,
    starting: bool,
) -> Vec<Action> {
    let start = u32::from(start);
    let mut actions: Vec<Action> = Vec::new();
    if starting {
        actions.extend(running(made));
    }
    actions.extend(to_start(made, start));
    actions.extend(depth(made, lines, aside, start));
    actions.extend(along(made, start, false));
    actions
}

fn aside(made: &Made<'_>, at: usize) -> Option<f64> {
    made.depths.asides.get(at).copied().filter(|_| made.depths.alternating)
}

/// One pass.
pub(super) fn pass(made: &Made<'_>, start: u16, at: u16) -> Option<Step> {
    let index = usize::from(at);
    let lines = *made.depths.lines.get(index)?;
    let all = made.depths.lines.len();
    let shown = if made.thread.by_mate() && made.thread.wanted.thread.starts == 1 {
        made.depths.before_mate
    } else {
        all
    };
    let (label, figure) = made.depths.shown(lines, made.course.unit);
    let n = usize::from(start).saturating_mul(all).saturating_add(index).saturating_add(1);
    Some(Step {
        id: StepId::new("pass", u32::try_from(n).unwrap_or(u32::MAX)),
        title: format!("Pass {} of {shown}", at.saturating_add(1)),
        actions: cut(made, start, lines, aside(made, index), at == 0),
        say: at_once(made),
        label,
        figure,
        done: "Cut",
        cuts: true,
        picture: of_pass(made.thread, Some(at)),
        ..Step::default()
    })
}

/// Where nothing is there to run out in, the tool and the nuts go together.
fn at_once(made: &Made<'_>) -> Vec<alloc::string::String> {
    let course = made.course;
    let together = course.powered() && !course.left && course.until.is_none();
    together.then(|| "At the end of the pass these two at once.".to_owned()).into_iter().collect()
}

/// Once more at the same reading.
pub(super) fn spring(made: &Made<'_>, start: u16, n: u16) -> Option<Step> {
    let last = u16::try_from(made.depths.lines.len()).ok()?.checked_sub(1)?;
    let lines = *made.depths.lines.last()?;
    let step = pass(made, start, last)?;
    let actions = cut(made, start, lines, aside(made, last.into()), false);
    let springs = made.depths.springs;
    let n = u32::from(start).saturating_mul(springs).saturating_add(u32::from(n)).saturating_add(1);
    Some(Step {
        id: StepId::new("spring", n),
        title: "Once more, to take the spring out".to_owned(),
        actions,
        ..step
    })
}
