//! What comes before the first cut: plate or gear, train, slack, slides.

use super::arrangement::{self, Arrangement, CutterIn, WorkIn};
use super::bench::Work;
use super::divided::Circle;
use super::reading::plain;
use super::words;
use crate::dividing::{Setting, Way};
use crate::operation::{Picture, Step};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

impl Circle {
    pub(super) fn mount(&self, way: &Way) -> Step {
        let mut say = Vec::from(["Everything off and isolated.".to_owned()]);
        let (label, figure, title) = match way.setting {
            Setting::Direct { positions, .. } => {
                say.push(format!(
                    "The *{positions}* gear or plate on the spindle that holds the work, tight."
                ));
                say.push("Detent into a tooth: that is tooth *0*. Chalk it.".to_owned());
                ("on the spindle", format!("{positions}"), "Put the gear or plate on")
            }
            Setting::HalfTooth { positions, .. } => {
                say.push(format!(
                    "The *{positions}* gear or plate on the spindle that holds the work, tight."
                ));
                say.push("Detent into a tooth: that is tooth *0*. Chalk it.".to_owned());
                say.push("At a half, the half-tooth detent holds between two teeth.".to_owned());
                ("on the spindle", format!("{positions}"), "Put the gear or plate on")
            }
            Setting::Compound { first, second, .. } => {
                let plate = self.plate_of(&[first.circle, second.circle]);
                say.push(format!("{plate} on the head: it has both circles."));
                say.push(format!("Crank's pin to the *{}* circle.", first.circle));
                say.push(format!("The plate's stop pin at the back to the *{}*.", second.circle));
                say.push("Both pins in: those are the holes *0*. Chalk them.".to_owned());
                ("circles", format!("{}, {}", first.circle, second.circle), "Put the plate on")
            }
            Setting::Plain { circle, .. } | Setting::Differential { circle, .. } => {
                match circle {
                    Some(circle) => {
                        say.push(format!("{} on the head.", self.plate_of(&[circle])));
                        say.push(format!("Crank's pin to the *{circle}* circle."));
                        say.push("Pin into a hole: that is hole *0*. Chalk it.".to_owned());
                    }
                    None => {
                        say.push("Any circle will do: the turns are whole.".to_owned());
                        say.push("Pin into a hole: each move ends in it. Chalk it.".to_owned());
                    }
                }
                let figure = circle.map_or_else(String::new, |circle| format!("{circle}"));
                ("circle", figure, "Put the plate on")
            }
        };
        if !self.uneven() {
            let arms = words::arms(&way.setting);
            say.extend(arms.iter().map(|(circle, words)| {
                format!("Sector arms on the *{circle}*: {words} with the pin's own.")
            }));
        }
        Step {
            title: title.to_owned(),
            say,
            label: label.to_owned(),
            figure,
            caution: Some("Everything isolated while hands are at the head or the spindle."),
            done: "Mounted",
            picture: self.picture(None, 0),
            ..Step::default()
        }
    }

    fn plate_of(&self, circles: &[u16]) -> String {
        let has = |plate: &Vec<u16>| circles.iter().all(|circle| plate.contains(circle));
        match self.plates.iter().position(has) {
            Some(at) if self.plates.len() > 1 => format!("Plate *{}*", at.saturating_add(1)),
            _ => "The plate".to_owned(),
        }
    }

    pub(super) fn gears_on(&self, way: &Way) -> Option<Step> {
        let Setting::Differential { train, .. } = way.setting else { return None };
        let pairs = train.pairs();
        let mut say = Vec::new();
        match pairs {
            [(driver, driven)] => {
                say.push(format!("*{driver}* on the head's spindle."));
                say.push(format!("*{driven}* on the shaft that turns the plate."));
            }
            [(first, second), (third, fourth)] => {
                say.push(format!("*{first}* on the head's spindle, into *{second}* on a stud."));
                say.push(format!(
                    "*{third}* on the same stud, into *{fourth}* on the shaft that turns the plate."
                ));
            }
            _ => return None,
        }
        let turning = if train.with_crank() { "with the crank" } else { "against the crank" };
        say.push(match train.idlers() {
            0 => "No idler between.".to_owned(),
            _ => format!("*{}*, of any size that meshes.", words::idlers(&train)),
        });
        say.push(format!("Turn the crank: the plate must creep *{turning}*."));
        say.push("If it creeps the other way, one idler more or one less.".to_owned());
        say.push("The plate's stop pin stays *out*: the gears turn the plate.".to_owned());
        Some(Step {
            title: "Gear the plate to the spindle".to_owned(),
            say,
            label: "drives".to_owned(),
            figure: words::gears(&train, "").replace(" drives ", " : "),
            caution: Some("Fingers out of the gears; nobody turns the crank meanwhile."),
            done: "Mounted",
            picture: Some(Picture::HeadTrain {
                pairs: pairs.to_vec(),
                idlers: train.idlers().into(),
            }),
            ..Step::default()
        })
    }
}

pub(super) fn slack(way: &Way) -> Step {
    let mut say = Vec::from([
        "Pin out. Turn forward a whole turn, to hole *0* again. Pin in.".to_owned(),
        "That takes up the slack of the worm. From now on always *forward*.".to_owned(),
        "Past the hole? Back by half a turn, then forward up to it.".to_owned(),
    ]);
    if matches!(way.setting, Setting::Compound { .. }) {
        say.push("The moves that go back say so, and come up forward again.".to_owned());
    }
    Step {
        title: "Take up the slack".to_owned(),
        say,
        label: "always".to_owned(),
        figure: "forward".to_owned(),
        done: "Done",
        ..Step::default()
    }
}

pub(super) fn ready(arrangement: Arrangement, work: &Work<'_>) -> Step {
    let (_, length) = arrangement.slides(work.on_face);
    let length = arrangement::slide(length);
    let mut say = Vec::new();
    if arrangement.work == WorkIn::LatheSpindle {
        say.push("Lathe motor isolated: the spindle is turned by hand only.".to_owned());
    } else {
        say.push("The compound is off; the head stands on the cross slide.".to_owned());
        say.push("Head square to the slide and on centre height: check both.".to_owned());
    }
    if arrangement.cutter != CutterIn::Dragged {
        say.push("The cutter in a collet or on an arbor, not in a drill chuck.".to_owned());
    }
    say.push(format!("Length by {length}: zero it at the edge of the work."));
    say.push(format!("*{}* holds the work: locked for each cut.", capital(arrangement.locked())));
    Step {
        title: "Make ready".to_owned(),
        say,
        caution: Some("Eyes covered. Key out. Nothing loose near what turns."),
        done: "Done",
        ..Step::default()
    }
}

/// Touch, zero, back off, set the depth, lock.
pub(super) fn depth(arrangement: Arrangement, work: &Work<'_>) -> Step {
    let depth = arrangement::slide(arrangement.slides(work.on_face).0);
    let dial = if work.dial { "dial" } else { "dial, or an indicator against it" };
    let touch = match arrangement.cutter {
        CutterIn::Dragged => "until the tool just grips a slip of paper",
        _ => "until the running cutter just marks the work",
    };
    let set = match work.depth {
        "" => "the depth".to_owned(),
        depth => depth.to_owned(),
    };
    let say = Vec::from([
        format!("Touch: {depth} in, from one side only, {touch}."),
        format!("Zero its {dial}."),
        format!("Back off. {}", arrangement.clear()),
        format!("{} in to {set}; past it, back half a turn and up again.", capital(depth)),
        format!("Lock {depth}: it stays so for every cut."),
    ]);
    Step {
        title: "Set the depth".to_owned(),
        say,
        label: if work.depth.is_empty() { "" } else { "depth, as read" }.to_owned(),
        figure: plain(work.depth),
        caution: Some(LOCKED_FIRST),
        done: "Locked",
        ..Step::default()
    }
}

const LOCKED_FIRST: &str =
    "The spindle that holds the work is locked before the cutter comes near.";

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}
