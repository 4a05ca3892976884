//! From one start of a thread to the next.

use super::super::Step;
use super::answer::Thread;
use super::card::picture;
use super::gears::Gears;
use crate::exact::Ratio;
use crate::gearing::Train;
use crate::shop::{Dial, Reading};
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
    let pitch = thread.wanted.thread.pitch.mm().unwrap_or(Ratio::ZERO);
    let on = thread.lathe.compound.and_then(|dial| on_by(&dial, pitch, start));
    let pitch = thread.wanted.length_text(pitch);
    let mut say = vec![
        "Spindle stopped, tool clear of the work.".to_owned(),
        format!("Compound parallel to the work, forward by one pitch: *{pitch}*."),
    ];
    if let Some((on, left)) = &on {
        let left = left.as_ref().map_or_else(String::new, |left| format!(" ({left})"));
        say.push(format!("On its dial: *{on}*{left} from where it stands, slack taken out first."));
    }
    Step {
        title,
        say,
        label: "compound on by".to_owned(),
        figure: on.map_or(pitch, |(on, _)| on.to_string()),
        caution: None,
        done: "Moved on",
        ..Step::default()
    }
}

/// From the start before to this one on a dial, and what the line that it comes to leaves over. Each
/// start is taken to its own nearest line: no rounding is carried on to the next.
fn on_by(dial: &Dial, pitch: Ratio, start: u16) -> Option<(Reading, Option<String>)> {
    let at = |start: u16| dial.reading(pitch.mul(Ratio::from(u32::from(start))).ok()?);
    let (before, now) = (at(start.checked_sub(1)?)?, at(start)?);
    Some((dial.reading(now.travel.sub(before.travel).ok()?)?, now.left()))
}
