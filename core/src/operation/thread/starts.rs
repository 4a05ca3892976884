//! From one start of a thread to the next.

use super::super::Step;
use super::answer::Thread;
use super::card::picture;
use super::gears::Gears;
use crate::exact::Ratio;
use crate::gearing::Train;
use crate::shop;
use crate::threads::{Dial, Reads};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec;

/// How many teeth the first driver goes on for one start, where that is a whole number.
fn teeth(gears: &Gears, train: &Train, starts: u16) -> Option<i128> {
    let driver = train.pairs().first()?.driver;
    let each = gears
        .before
        .mul(Ratio::from(u32::from(driver)))
        .and_then(|teeth| teeth.div(Ratio::from(u32::from(starts))))
        .ok()?;
    each.is_whole().then(|| each.numer())
}

/// On to the next start: the second is 1.
pub(super) fn next(thread: &Thread, start: u16) -> Step {
    let starts = thread.wanted.thread.starts;
    let title = format!("Start {} of {starts}", start.saturating_add(1));
    let train = thread.gears.as_ref().ok().and_then(|gears| Some((gears, gears.best()?)));
    let by_teeth = train.and_then(|(gears, train)| {
        Some((gears, train, teeth(gears, train, starts)?, train.pairs().first()?))
    });
    if let Some((gears, train, teeth, pair)) = by_teeth {
        let (driver, driven) = (pair.driver, pair.driven);
        return Step {
            title,
            say: vec![
                "Spindle stopped, tool clear of the work. Supply isolated, guard open.".to_owned(),
                format!(
                    "Chalk the tooth of the *{driver}* that is in mesh, and the gap that it stands in."
                ),
                format!("Take the *{driven}* out of mesh; it must not turn."),
                format!(
                    "Turn the spindle forward until the *{driver}* has gone on *{teeth}* teeth."
                ),
                "Back into mesh. Turn it by hand: it runs free. Guard shut, then the supply on."
                    .to_owned(),
            ],
            label: "teeth on".to_owned(),
            figure: teeth.to_string(),
            caution: Some(
                "Supply isolated for as long as hands are at the gears; as the machine's maker and the place's own rules say.",
            ),
            done: "Moved on",
            picture: Some(picture(gears, train)),
            ..Step::default()
        };
    }
    let pitch = thread.wanted.length_text(thread.wanted.thread.pitch.mm().unwrap_or(Ratio::ZERO));
    let reading = compound(thread);
    let mut say = vec![
        "Spindle stopped, tool clear of the work.".to_owned(),
        format!("Compound parallel to the work, forward by one pitch: *{pitch}*."),
    ];
    if let Some(reading) = &reading {
        say.push(format!("On its dial: *{reading}* from where it stands, slack taken out first."));
    }
    Step {
        title,
        say,
        label: "compound on by".to_owned(),
        figure: reading.unwrap_or(pitch),
        caution: None,
        done: "Moved on",
        ..Step::default()
    }
}

/// A slide's dial as the passes take it; where the lines of a turn aren't known they are counted on.
pub(super) fn marked(owned: &shop::Dial) -> Option<Dial> {
    let reads = if owned.reads_diameter { Reads::Diameter } else { Reads::Radius };
    Dial::marked(owned.division, owned.divisions.unwrap_or(u32::MAX), reads).ok()
}

/// One pitch on the compound's dial, to the nearest line.
fn compound(thread: &Thread) -> Option<String> {
    let dial = marked(thread.lathe.compound.as_ref()?)?;
    let lines = thread.wanted.thread.pitch.mm().ok()?.div(dial.travel).ok()?.round();
    Some(dial.reading(u32::try_from(lines).ok()?).to_string())
}
