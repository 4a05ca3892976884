//! Gears on: which goes where, and that it runs free before the guard is shut.

use super::super::{Picture, Step};
use super::answer::Thread;
use super::card::picture;
use super::gears::Gears;
use super::words;
use crate::gearing::{Hand, Train};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec;
use alloc::vec::Vec;

const ISOLATED: &str = "Supply isolated for as long as hands are at the gears; as the machine's maker and the place's own rules say.";

fn best(thread: &Thread) -> Option<(&Gears, &Train)> {
    let gears = thread.gears.as_ref().ok()?;
    Some((gears, gears.best()?))
}

fn train(thread: &Thread) -> Option<Picture> {
    best(thread).map(|(gears, train)| picture(gears, train))
}

/// Supply isolated, guard open.
pub(super) fn isolate() -> Step {
    Step {
        title: "Before the gears".to_owned(),
        say: vec![
            "Stop the spindle.".to_owned(),
            "Isolate the supply.".to_owned(),
            "Open the guard.".to_owned(),
            "Take off the gears that are on.".to_owned(),
        ],
        label: "supply".to_owned(),
        figure: "off".to_owned(),
        caution: Some(ISOLATED),
        done: "Isolated",
        ..Step::default()
    }
}

/// One pair, the spindle's end first.
pub(super) fn pair(thread: &Thread, at: usize) -> Option<Step> {
    let (gears, train) = best(thread)?;
    let pairs = train.pairs();
    let pair = pairs.get(at)?;
    let (first, last) = (at == 0, at.saturating_add(1) == pairs.len());
    let (driver, driven) = (pair.driver, pair.driven);
    let stud = |n: usize| match (n, pairs.len()) {
        (_, 2) => "the stud",
        (1, _) => "the first stud",
        _ => "the second stud",
    };
    let mut say = Vec::new();
    say.push(if first {
        format!("*{driver}* on the spindle's end of the train.")
    } else {
        let before = at.checked_sub(1).and_then(|at| pairs.get(at))?.driven;
        format!("*{driver}* on {}, outside the *{before}* and keyed to it.", stud(at))
    });
    let far = if last { "the leadscrew's end" } else { stud(at.saturating_add(1)) };
    match train.idler.filter(|_| first && last) {
        Some(idler) => {
            say.push(format!("*{driven}* on {far}, in line with it."));
            say.push(format!("*{idler}* on the stud as an idler, into mesh with both."));
        }
        None => {
            let inner = if last { "" } else { ", innermost" };
            say.push(format!("*{driven}* on {far}{inner}, in line with the *{driver}*."));
            say.push("Into mesh with a slip of paper between; paper out.".to_owned());
            if gears.may_not_reach(train) {
                say.push(
                    "Where they don't reach each other: any gear as an idler on the stud between, into mesh with both."
                        .to_owned(),
                );
            }
        }
    }
    say.push("Nuts tight.".to_owned());
    let title = match pairs.len() {
        1 => "The pair of gears".to_owned(),
        n => format!("Pair {} of {n}", at.saturating_add(1)),
    };
    Some(Step {
        title,
        say,
        label: "driver, driven".to_owned(),
        figure: format!("{driver} → {driven}"),
        caution: Some(ISOLATED),
        done: "Mounted",
        picture: self::train(thread),
        ..Step::default()
    })
}

/// Idlers and tumbler, for the hand.
pub(super) fn hand(thread: &Thread) -> Option<Step> {
    let (gears, train) = best(thread)?;
    let mut say = Vec::new();
    let hand = match gears.hand() {
        Hand::Right => "right-hand",
        Hand::Left => "left-hand",
    };
    let idlers = gears.idlers(train);
    // The one that a banjo's single pair reaches across with is on already.
    let more = idlers.map(|n| n.saturating_sub(train.reach()));
    match more {
        Some(0) | None => {}
        Some(_) => say.push(
            "An idler between any driver and the gear it drives: its teeth don't matter."
                .to_owned(),
        ),
    }
    match gears.tumbler {
        Some(true) => say.push(format!("Tumbler for a {hand} thread.")),
        _ if more == Some(0) => say.push("No idler more: the hand is right as it is.".to_owned()),
        _ if more.is_none() => {
            say.push("An idler more or less, if the carriage goes the wrong way.".to_owned())
        }
        _ => {}
    }
    say.push(format!(
        "With the spindle forward the carriage must go {}.",
        words::towards(gears.hand())
    ));
    let (label, figure) = match idlers {
        Some(n) => ("idlers", n.to_string()),
        None => ("thread", hand.to_owned()),
    };
    Some(Step {
        title: format!("For a {hand} thread"),
        say,
        label: label.to_owned(),
        figure,
        caution: Some(ISOLATED),
        done: "Set",
        picture: self::train(thread),
        ..Step::default()
    })
}

/// The gearbox's lever.
pub(super) fn lever(thread: &Thread) -> Option<Step> {
    let (gears, train) = best(thread)?;
    let (ratio, how) = gears.position(train);
    let ratio = words::fraction(ratio);
    let mut say = vec!["Spindle still stopped.".to_owned()];
    say.push(match how {
        Some(how) => format!("Gearbox to *{how}*, which is {ratio}."),
        None => format!("Gearbox to *{ratio}*."),
    });
    say.push("Turn the spindle a little by hand until it drops in.".to_owned());
    Some(Step {
        title: "The gearbox".to_owned(),
        say,
        label: "gearbox".to_owned(),
        figure: how.map_or(ratio, ToOwned::to_owned),
        caution: None,
        done: "Set",
        ..Step::default()
    })
}

/// Turned by hand before anything else turns it.
pub(super) fn free(thread: &Thread) -> Option<Step> {
    let (gears, _) = best(thread)?;
    Some(Step {
        title: "Turn it by hand".to_owned(),
        say: vec![
            "Supply still isolated. Tool and carriage clear of everything.".to_owned(),
            "Turn the spindle forward by hand, *two* whole turns: no tight place, nothing touches."
                .to_owned(),
            format!("Half-nuts closed: the carriage creeps {}.", words::towards(gears.hand())),
            "Half-nuts open again.".to_owned(),
        ],
        label: "turns by hand".to_owned(),
        figure: "2".to_owned(),
        caution: Some("Fingers off the gears while somebody turns the spindle."),
        done: "Runs free",
        picture: self::train(thread),
        ..Step::default()
    })
}

/// Guard shut, then the supply.
pub(super) fn guard(thread: &Thread) -> Step {
    let mut say =
        vec!["Spanner and paper out of the way.".to_owned(), "Shut the guard.".to_owned()];
    if let Some(slowest) = &thread.lathe.slowest {
        say.push(format!("Back gear or belt for the slowest speed: {slowest}."));
    }
    say.push("Then the supply on.".to_owned());
    Step {
        title: "Guard shut".to_owned(),
        say,
        label: "guard".to_owned(),
        figure: "shut".to_owned(),
        caution: Some("Guard on over the change gears before anything turns."),
        done: "Shut",
        ..Step::default()
    }
}

/// Without change gears: by the lathe's own gearbox or plate.
pub(super) fn set_lead(thread: &Thread) -> Step {
    let lead: String = thread.wanted.lead_text();
    Step {
        title: "Set the lead".to_owned(),
        say: vec![
            "Spindle stopped, supply isolated while hands are at gears.".to_owned(),
            format!("Set the lathe for a lead of *{lead}*, by its own plate."),
            "Turn it by hand: it runs free.".to_owned(),
            "Guard shut, then the supply on.".to_owned(),
        ],
        label: "lead".to_owned(),
        figure: lead,
        caution: Some(ISOLATED),
        done: "Set",
        ..Step::default()
    }
}
