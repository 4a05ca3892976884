//! A circle divided at the machine: mount, take up the slack, then place after place, with a check
//! half-way and one at the end.
//!
//! Each place is two steps: lock off, move, lock on, which is done when it is locked; then the cut,
//! which is done when it is cut. So no cut can be come to but past a lock.

use super::arrangement::{Arrangement, WorkIn};
use super::divided::Circle;
use super::reading::starred;
use super::{mount, words};
use crate::dividing::{At, Place, Setting, Way};
use crate::operation::{Mark, Step};
use crate::quantity::{Quantity, show};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use core::cmp::Ordering;
use core::f64::consts::PI;

/// What is made at each place, as far as it isn't the same for every circle.
pub(in crate::operation) struct Work<'a> {
    /// What a place is called: "division", "line".
    pub(in crate::operation) noun: &'static str,
    /// The number of the first place.
    pub(in crate::operation) first: u32,
    /// What is cut there.
    pub(in crate::operation) mark: Mark,
    /// Whether the cuts are on a face, not on the rim.
    pub(in crate::operation) on_face: bool,
    /// What to add when a place is cut, by its number from 0.
    pub(in crate::operation) at_place: &'a dyn Fn(u32) -> Vec<String>,
    /// What is read while it is cut, and its figure; where there is nothing to read, the place is shown.
    pub(in crate::operation) figure: &'a dyn Fn(u32) -> Option<(String, String)>,
    /// Across the cuts, for a caliper to tell them by.
    pub(in crate::operation) diameter: Option<&'a Quantity>,
    /// How deep they are, as read on the slide that sets it; empty where it isn't known.
    pub(in crate::operation) depth: &'a str,
    /// Whether that slide has a dial.
    pub(in crate::operation) dial: bool,
}

#[derive(Clone, Copy)]
enum Stage {
    Mount,
    Gears,
    Slack,
    Ready,
    Depth,
    Move(u32),
    Cut(u32),
    HalfWay,
    Round,
    Deburr,
}

const LOCKED: &str = "Lock on, pin or detent home, before the cutter meets the work.";
const STILL: &str = "The lathe spindle stands still before a hand comes near the work.";

impl Circle {
    pub(in crate::operation) fn steps(&self) -> usize {
        let made = usize::try_from(self.made()).unwrap_or(usize::MAX);
        let check = usize::from(self.check().is_some());
        let places = made.saturating_mul(2).saturating_add(check);
        // Round again, and deburring.
        self.before().len().saturating_add(places).saturating_add(2)
    }

    pub(in crate::operation) fn step(&self, at: usize, work: &Work<'_>) -> Option<Step> {
        let way = self.best()?;
        match self.stage(at)? {
            Stage::Mount => Some(self.mount(way)),
            Stage::Gears => self.gears_on(way),
            Stage::Slack => {
                let mut step = mount::slack(way);
                if let Some((passed, moves)) = self.laps() {
                    let noun = work.noun;
                    step.say.push(format!(
                        "Each move passes *{passed}* {noun}s: they come out of order, and the next to the first is made *{moves}* moves on."
                    ));
                }
                Some(self.with_rim(step, 0, work))
            }
            Stage::Ready => Some(self.with_rim(mount::ready(self.arrangement, work), 0, work)),
            Stage::Depth => Some(self.with_rim(mount::depth(self.arrangement, work), 0, work)),
            Stage::Move(after) => self.move_to(way, after, work),
            Stage::Cut(after) => self.cut(way, after, work),
            Stage::HalfWay => self.half_way_check(way, work),
            Stage::Round => self.round_check(way, work),
            Stage::Deburr => Some(self.with_rim(deburr(self.arrangement), self.made(), work)),
        }
    }

    /// How to come back to a step that was left: past its place, and up to it again the way in which
    /// every place is come to.
    pub(in crate::operation) fn back(&self, at: usize) -> Option<String> {
        let place = match self.stage(at)? {
            Stage::Move(after) | Stage::Cut(after) => self.worked(after)?,
            _ => return None,
        };
        let (clear, spindle) = (self.arrangement.clear(), self.arrangement.locked());
        let to = words::place(&place.at, "*");
        let turned = match place.at {
            At::Tooth { .. } | At::HalfTooth { .. } => {
                format!(
                    "Detent out, back past {to} by a few teeth, then forward up to it. Detent in."
                )
            }
            At::Pin(_) => {
                format!("Pin out, back past {to} by half a turn, then forward up to it. Pin in.")
            }
            At::Pins { .. } => {
                format!(
                    "Pins out, back past {to} by half a turn, then forward up to both. Pins in."
                )
            }
        };
        Some(format!(
            "Gone past it? {clear} Unlock {spindle}. {turned} Lock {spindle}. If it was never left, leave it."
        ))
    }

    fn with_rim(&self, step: Step, after: u32, work: &Work<'_>) -> Step {
        Step { picture: Some(self.rim(after, work.mark, work.first)), ..step }
    }

    /// What comes before the first cut.
    fn before(&self) -> Vec<Stage> {
        let mut stages = Vec::from([Stage::Mount]);
        match self.best().map(|way| way.setting) {
            Some(Setting::Direct { .. } | Setting::HalfTooth { .. }) | None => {}
            Some(Setting::Differential { .. }) => stages.extend([Stage::Gears, Stage::Slack]),
            Some(_) => stages.push(Stage::Slack),
        }
        stages.extend([Stage::Ready, Stage::Depth]);
        stages
    }

    fn stage(&self, at: usize) -> Option<Stage> {
        let before = self.before();
        if let Some(stage) = before.get(at) {
            return Some(*stage);
        }
        let (made, check) = (self.made(), self.check().map(|(after, _)| after));
        let mut at = u32::try_from(at.checked_sub(before.len())?).ok()?;
        // The check stands before the move to the place that it looks at.
        if let Some(look) = check.map(|after| after.saturating_mul(2)) {
            match at.cmp(&look) {
                Ordering::Less => {}
                Ordering::Equal => return Some(Stage::HalfWay),
                Ordering::Greater => at = at.checked_sub(1)?,
            }
        }
        Some(match (at >> 1, at & 1) {
            (after, 0) if after < made => Stage::Move(after),
            (after, _) if after < made => Stage::Cut(after),
            (after, 0) if after == made => Stage::Round,
            (after, _) if after == made => Stage::Deburr,
            _ => return None,
        })
    }

    /// Lock off, from the last place to this, lock on.
    fn move_to(&self, way: &Way, after: u32, work: &Work<'_>) -> Option<Step> {
        let place = self.worked(after)?;
        let before = after.checked_sub(1).and_then(|before| self.worked(before));
        let degrees = self.degrees(&place).map(show::angle).unwrap_or_default();
        let spindle = self.arrangement.locked();
        let pin = words::pin(&way.setting);
        let mut say = Vec::from([self.arrangement.clear().to_owned()]);
        let moved = self.between(before.as_ref(), &place);
        let stays = before.is_none() && at_nought(&place.at);
        let (mut label, mut figure) = words::figure(&place.at, moved.map_or(0, |moved| moved.0));
        if stays {
            label = match place.at {
                At::Tooth { .. } | At::HalfTooth { .. } => "detent in tooth",
                At::Pins { .. } => "both pins in hole",
                At::Pin(_) => "pin in hole",
            };
            figure = "0".to_owned();
            say.push(format!("The {pin} stays at *0*: no move yet, {degrees}."));
            say.push(format!("Lock {spindle}."));
        } else {
            say.push(format!("Unlock {spindle}."));
            say.extend(self.moves(way, before.as_ref(), &place, &degrees));
            say.push(match words::arms(&way.setting).len() {
                1 if !self.uneven() => format!("Arms on to the pin. Lock {spindle}."),
                _ => format!("Lock {spindle}."),
            });
        }
        let still = self.arrangement.work == WorkIn::Head;
        Some(Step {
            title: self.title("move", after, &place, work),
            say,
            label: label.to_owned(),
            figure,
            caution: Some(if still { STILL } else { LOCKED }),
            done: "Locked",
            picture: self.place_picture(&place, after, work),
            ..Step::default()
        })
    }

    /// The cut at a place, the lock being on.
    fn cut(&self, way: &Way, after: u32, work: &Work<'_>) -> Option<Step> {
        let place = self.worked(after)?;
        let (spindle, pin) = (self.arrangement.locked(), words::pin(&way.setting));
        let to = words::place(&place.at, "*");
        let mut say = Vec::from([format!("Look: {spindle} locked, {pin} home in {to}.")]);
        say.extend((work.at_place)(after));
        say.push(self.arrangement.cut().to_owned());
        say.extend(self.lost(after, &place, work));
        let (label, figure) = (work.figure)(after).unwrap_or_else(|| {
            let (label, figure) = words::figure(&place.at, 1);
            (format!("locked, {pin} home: {}", label.trim_start_matches("forward to ")), figure)
        });
        Some(Step {
            title: self.title("cut", after, &place, work),
            say,
            label,
            figure,
            caution: Some(LOCKED),
            done: "Cut",
            cuts: true,
            picture: Some(self.rim(after, work.mark, work.first)),
            ..Step::default()
        })
    }

    /// Which place this is, told by a caliper from the first cut.
    fn lost(&self, after: u32, place: &Place, work: &Work<'_>) -> Option<String> {
        let diameter = work.diameter.filter(|_| after > 0 && work.mark != Mark::Flat)?;
        let chord = self.chord(place, diameter.value())?;
        let chord = starred(&show::float_like(chord, diameter.unit()));
        Some(format!("Lost the count? From the first cut to this, straight across: {chord}."))
    }

    /// Which cut is wrong, told by a caliper from each to the next.
    fn neighbours(&self, work: &Work<'_>) -> Option<String> {
        let diameter = work.diameter.filter(|_| !self.irregular() && work.mark != Mark::Flat)?;
        let chord = diameter.to_f64() * libm::sin(PI / f64::from(self.into.max(1)));
        let chord = starred(&show::float_like(chord, diameter.unit()));
        Some(format!(
            "Lost the count? Caliper from each cut to the next, straight across: {chord}. One that reads otherwise is wrong."
        ))
    }

    /// "move to line 3 of 40", "cut line 3 of 40".
    fn title(&self, done: &str, after: u32, place: &Place, work: &Work<'_>) -> String {
        let (noun, all) = (work.noun, self.made());
        let number = after.saturating_add(work.first);
        // A way that goes several times round comes to the divisions out of order.
        let own = place.division.saturating_add(work.first);
        if !self.irregular() && own != number {
            return format!("{done} {number} of {all}: {noun} {own}");
        }
        let to = if done == "cut" { "" } else { " to" };
        format!("{done}{to} {noun} {number} of {all}")
    }

    /// From pin out to pin in.
    fn moves(
        &self,
        way: &Way,
        before: Option<&Place>,
        place: &Place,
        degrees: &str,
    ) -> Vec<String> {
        let to = words::place(&place.at, "*");
        match (way.setting, self.between(before, place)) {
            (Setting::Compound { turns, first, second, .. }, _) if !self.irregular() => {
                let (turns, spaces) = words::crank_move(turns, first);
                let one = words::moved(&place.at, turns, spaces);
                let two = words::moved(&place.at, 0, second.holes.unsigned_abs().into());
                let mut say = Vec::from([format!("Crank's pin out. Forward {one}. Pin in.")]);
                say.push(match second.holes < 0 {
                    // Back so far, and the slack taken up again.
                    true => format!(
                        "Stop pin out. Plate and crank together back {two} and half a turn more, then forward half a turn. Pin in."
                    ),
                    false => {
                        format!("Stop pin out. Plate and crank together forward {two}. Pin in.")
                    }
                });
                say.push(format!("Now in {to}: {degrees}."));
                say
            }
            (_, Some((turns, spaces))) => {
                let (pin, moved) =
                    (words::pin(&way.setting), words::moved(&place.at, turns, spaces));
                let (out, home) = match pin {
                    "detent" => ("Detent out.", "Detent in."),
                    _ => ("Pin out.", "Pin in."),
                };
                Vec::from([format!("{out} Forward {moved}, into {to}: {degrees}. {home}")])
            }
            _ => Vec::from([format!("Pins out. Forward into {to}: {degrees}. Pins in.")]),
        }
    }

    fn half_way_check(&self, way: &Way, work: &Work<'_>) -> Option<Step> {
        let (after, place) = self.check()?;
        let noun = work.noun;
        let half = after.checked_mul(2) == Some(self.into);
        let pin = words::pin(&way.setting);
        let to = words::place(&place.at, "*");
        let again = again(&place.at);
        let mut say = Vec::from([format!("*{after}* of *{}* are cut.", self.into)]);
        say.push(format!("The next move must bring the {pin} into {to}{again}."));
        if half {
            say.push("There the work is half a turn from the first cut: look across.".to_owned());
        }
        say.push("If it doesn't come out so, cut nothing.".to_owned());
        say.extend(self.neighbours(work));
        let (label, figure) = words::figure(&place.at, 0);
        Some(Step {
            title: match half {
                true => "Half-way check".to_owned(),
                false => format!("Check after {noun} {after}"),
            },
            say,
            label: label.to_owned(),
            figure,
            done: "Seen",
            picture: self.place_picture(&place, after, work),
            ..Step::default()
        })
    }

    fn round_check(&self, way: &Way, work: &Work<'_>) -> Option<Step> {
        let place = self.closing()?;
        let all = self.made();
        let spindle = self.arrangement.locked();
        let pin = words::pin(&way.setting);
        let mut say = Vec::from([self.arrangement.clear().to_owned()]);
        say.push(match self.irregular() {
            true => format!("Unlock {spindle}. Go on forward, once round."),
            false => format!("Unlock {spindle}. One move more."),
        });
        let again = again(&place.at);
        let to = words::place(&place.at, "*");
        say.push(format!("After *{all}* the {pin} must be in {to}{again}."));
        let off = show::arc(way.closing_arcsec());
        say.push(match way.closing.is_zero() {
            true => "The cutter must stand over the first cut. Cut nothing.".to_owned(),
            false => format!("The cutter stands off the first cut by {off}. Cut nothing."),
        });
        say.extend(self.neighbours(work));
        let (label, figure) = words::figure(&place.at, 0);
        Some(Step {
            title: "Once round".to_owned(),
            say,
            label: label.to_owned(),
            figure,
            done: "Seen",
            picture: self.place_picture(&place, self.into, work),
            ..Step::default()
        })
    }
}

/// What is added where the pin comes back to where it began.
fn again(at: &At) -> &'static str {
    match at {
        At::Pin(pin) if pin.circle.is_none() => "",
        at if at_nought(at) => " again",
        _ => "",
    }
}

fn at_nought(at: &At) -> bool {
    match at {
        At::Tooth { tooth, .. } => *tooth == 0,
        At::HalfTooth { half_teeth, .. } => *half_teeth == 0,
        At::Pin(pin) => pin.hole == 0,
        At::Pins { crank, plate } => crank.hole == 0 && plate.hole == 0,
    }
}

fn deburr(arrangement: Arrangement) -> Step {
    let mut say = Vec::from([arrangement.clear().to_owned()]);
    say.push("Everything isolated.".to_owned());
    say.push("Break every fresh edge with a fine file or a stone.".to_owned());
    Step {
        title: "Deburr".to_owned(),
        say,
        caution: Some("Fresh edges are sharp: brush the swarf off, never a hand."),
        done: "Done",
        ..Step::default()
    }
}
