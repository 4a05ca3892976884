//! The blank before the thread: its diameter, its chamfer, its groove.

use super::super::Step;
use super::answer::Thread;
use super::card::range;
use crate::threads::{Hand, Side};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::vec;

/// The blank turned, or the hole bored.
pub(super) fn blank(thread: &Thread) -> Option<Step> {
    let sizes = thread.sizes.as_ref()?;
    let wanted = &thread.wanted;
    let limits = sizes.limits.as_ref().ok();
    let inside = wanted.side == Side::Inside;
    let (label, basic, limits) = if inside {
        ("bore", sizes.minor?, limits.map(|limits| limits.minor))
    } else {
        ("outside diameter", sizes.major?, limits.map(|limits| limits.major))
    };
    let figure = match limits.and_then(|range| range.min.zip(range.max)) {
        Some((min, max)) => range(thread, min, max),
        None => wanted.length_text(basic),
    };
    let mut say = vec![if inside {
        format!("The hole bored to *Ø {figure}*.")
    } else {
        format!("The blank turned to *Ø {figure}*.")
    }];
    // What the tool's point reaches: the end is chamfered past it, and the groove goes past it.
    if let Some(root) = if inside { sizes.major } else { sizes.minor } {
        let root = wanted.length_text(root);
        let (end, past) = if inside { ("Mouth", "above") } else { ("End", "below") };
        say.push(format!("{end} chamfered at 45° to {past} *Ø {root}*."));
        let left = wanted.thread.hand == Hand::Left;
        if wanted.ending == Some("groove") || (left && !inside) {
            let wide = wanted.length_text(wanted.groove());
            let at = if left { "begins" } else { "ends" };
            say.push(format!("A groove where the thread {at}: *{wide}* wide, {past} *Ø {root}*."));
        }
    }
    Some(Step {
        title: format!("The blank for {}", wanted.name),
        say,
        label: label.to_owned(),
        figure,
        done: "Ready",
        ..Step::default()
    })
}
