//! A thread that is there already: the tool led back into it.

use super::super::Step;
use super::answer::Thread;
use super::run::{TURNING, along, back, caution, closed, to_the_start};
use super::section::of_pass;
use crate::threads::Rule;
use alloc::borrow::ToOwned;
use alloc::vec;

/// The tool led into the groove, the dials zeroed there.
pub(super) fn pick_up(thread: &Thread) -> Step {
    let mut say = vec![
        "Spindle stopped, supply isolated; tool clear, over the middle of the thread.".to_owned(),
    ];
    let mark = thread.nuts.as_ref().is_some_and(|nuts| {
        matches!(nuts.rule, Rule::AnyMark | Rule::EveryNthMark(_) | Rule::OneMark)
    });
    say.push(if mark {
        "Half-nuts closed at mark *1*.".to_owned()
    } else {
        "Half-nuts closed.".to_owned()
    });
    say.push("Turn the spindle forward by hand until the slack is out and the carriage moves: never back.".to_owned());
    say.push(
        "With both slides lead the tool into the groove, until it touches both flanks.".to_owned(),
    );
    say.push("Both dials to *0*. Then the tool straight out, clear of the work.".to_owned());
    Step {
        title: "Pick up the thread".to_owned(),
        say,
        label: "both dials".to_owned(),
        figure: "0".to_owned(),
        caution: Some("Supply isolated while the spindle is turned by hand; chuck key out."),
        done: "Picked up",
        picture: of_pass(thread, None),
        ..Step::default()
    }
}

/// One pass in air, to see that the tool follows.
pub(super) fn in_air(thread: &Thread) -> Step {
    // Closed nuts stay closed from the moment that the groove is found.
    let mut say = if closed(thread) { vec![back(thread)] } else { to_the_start(thread) };
    say.push("Tool just clear of the crests.".to_owned());
    say.extend(along(thread));
    say.push(
        "The point must follow the groove from end to end. If not: pick it up again.".to_owned(),
    );
    Step {
        title: "A pass in air".to_owned(),
        say,
        label: "tool".to_owned(),
        figure: "clear".to_owned(),
        caution: Some(caution(thread)),
        done: "It follows",
        ..Step::default()
    }
}

/// A line or two deeper, by the groove that is there.
pub(super) fn deepen(thread: &Thread) -> Step {
    let mut say = to_the_start(thread);
    say.push("In to *0*, then *1* line deeper each time, until it cuts on both flanks.".to_owned());
    say.extend(along(thread));
    say.push("The same again, and try it or measure it each time.".to_owned());
    Step {
        title: "Deeper by the line".to_owned(),
        say,
        label: "lines each time".to_owned(),
        figure: "1".to_owned(),
        caution: Some(TURNING),
        done: "Cut",
        cuts: true,
        measures: None,
        picture: of_pass(thread, None),
        ..Step::default()
    }
}
