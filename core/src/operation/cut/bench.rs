//! A cut at the machine: set the speed with the spindle stopped, look, cut to the beat.

use super::super::feeding::lasting;
use super::{Cut, words};
use crate::cutting::Process;
use crate::operation::{Beat, Card, Chip, Picture, Step, Worked};
use crate::quantity::{Quantity, show};
use crate::record::Node;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Setting the speed, and looking before the spindle starts.
const BEFORE: usize = 2;
/// Beyond so many passes they aren't counted a step each.
const MOST_PASSES: u32 = 200;

impl Worked for Cut {
    fn json(&self) -> Vec<(String, Node)> {
        self.keys()
    }

    fn card(&self) -> Card {
        self.as_card()
    }

    fn steps(&self) -> usize {
        if self.at.is_none() {
            return 0;
        }
        BEFORE.saturating_add(usize::try_from(self.counted()).unwrap_or(1))
    }

    fn step(&self, at: usize) -> Option<Step> {
        match at {
            0 => self.set_the_speed(),
            1 => Some(self.look()),
            _ => {
                let pass = u32::try_from(at.checked_sub(BEFORE)?).ok()?.checked_add(1)?;
                Some(self.pass(pass))
            }
        }
    }
}

impl Cut {
    /// Passes that are a step each.
    fn counted(&self) -> u32 {
        self.passes.filter(|passes| *passes <= MOST_PASSES).unwrap_or(1)
    }

    fn set_the_speed(&self) -> Option<Step> {
        let mut say = Vec::from(["Spindle stopped, supply isolated.".to_owned()]);
        match self.spindle().map(|(_, speed)| speed) {
            Some(speed) => match &speed.how {
                Some(how) => say.push(format!("Set *{how}*: *{}* rpm.", speed.rpm)),
                None => say.push(format!("Set *{}* rpm.", speed.rpm)),
            },
            None => say.push("Set the nearest speed at or below this.".to_owned()),
        }
        for (name, most) in &self.too_fast_for {
            say.push(format!("Not in the {name}: it is made for *{most}* rpm at most."));
        }
        Some(Step {
            title: "Set the speed".to_owned(),
            say,
            label: "rpm".to_owned(),
            figure: self.rpm_figure()?,
            caution: Some("Belts and levers only with the spindle stopped and the supply off."),
            done: "Set",
            picture: self.as_card().picture,
            ..Step::default()
        })
    }

    fn look(&self) -> Step {
        let mut say = Vec::new();
        say.push(match self.process.goes_by_the_cutter() {
            true => format!("{}: sharp, tight and running true?", self.cutter_words()),
            false => format!("{}: sharp, tight and on centre?", self.cutter_words()),
        });
        say.push("Work tight, key out, guard closed.".to_owned());
        say.push("Turn once by hand: does everything clear?".to_owned());
        Step {
            title: "Look before it turns".to_owned(),
            say,
            caution: Some("Eyes covered. No gloves, rings or loose sleeves near what turns."),
            done: "Clear",
            ..Step::default()
        }
    }

    /// The cut to scale: from above where the work turns, cut through where the cutter does.
    fn chip(&self, pass: u32) -> Option<Picture> {
        let deep = self.depth.as_ref()?;
        let milled = self.process == Process::Mill;
        let turned = matches!(self.process, Process::Turn | Process::Finish | Process::Bore);
        let (depth, across, across_words) = if milled {
            let part =
                deep.value().mul(pass.into()).ok()?.div(self.passes.unwrap_or(1).into()).ok()?;
            let wide = self.width.as_ref().or(self.diameter.as_ref())?;
            (part, wide.to_f64(), format!("{} wide", wide.text()))
        } else {
            let feed = self.at.as_ref()?.feeds.first().filter(|_| turned)?.low;
            (deep.value(), feed, format!("{} a turn", words::chip(feed, self.like)))
        };
        let chip = self.chip_mm?;
        let chip_words = match milled {
            true => format!("{} a tooth", words::chip(chip, self.like)),
            false => "the next chip".to_owned(),
        };
        Some(Picture::Chip(Chip {
            depth_mm: depth.to_f64(),
            across_mm: across,
            milled,
            inside: self.process == Process::Bore,
            words: [
                format!("{} deep", show::length_like(depth, deep.unit())),
                across_words,
                chip_words,
            ],
        }))
    }

    fn pass(&self, pass: u32) -> Step {
        let mut say = Vec::from(["Spindle on.".to_owned()]);
        let passes = self.passes.unwrap_or(1);
        let depth = self.depth.as_ref();
        let to = depth.and_then(|depth| {
            let part = depth.value().mul(pass.into()).ok()?.div(passes.into()).ok()?;
            Some(show::length_like(part, depth.unit()))
        });
        let counted = self.counted() == passes && passes > 1;
        if let (true, Some(to)) = (counted, &to) {
            say.push(format!("Set the depth to *{to}* in all, coming up to it from one side."));
        } else if let Some(depth) = depth {
            say.push(format!("Depth *{}*, coming up to it from one side.", depth.text()));
            if passes > 1 {
                say.push(format!("In *{}* equal passes.", show::count(passes.into())));
            }
        } else {
            say.push("Come up to the work from one side.".to_owned());
        }
        match (&self.beat, self.slide, self.feed_mm_per_min) {
            (Some(beat), Some(slide), _) => {
                let (turn, seconds) = (words::turn(beat), words::seconds(beat));
                let slide = words::slide(slide);
                say.push(format!("Feed *{turn}* of {slide} each *{seconds}*."));
            }
            (_, _, Some(feed)) => say.push(format!("Feed *{}*.", words::feed(feed, self.like))),
            _ if self.process.follows_a_pitch() => {
                say.push("The pitch feeds it: don't hold it back.".to_owned());
            }
            _ => say.push("Feed gently and evenly.".to_owned()),
        }
        if let Some(power) = &self.power_feed {
            say.push(format!("By power: {}.", power.words(self.like)));
        }
        if let Some(time) = self.time(1) {
            say.push(format!("It takes *{}*.", lasting(time.cutting)));
        }
        say.push("Back off, spindle off.".to_owned());
        let (label, figure) = match (&self.beat, counted, to) {
            (_, true, Some(to)) => ("depth in all".to_owned(), to),
            (Some(beat), ..) => {
                (format!("of a turn each {}", words::seconds(beat)), beat.turn.to_string())
            }
            _ => ("rpm".to_owned(), self.rpm_figure().unwrap_or_default()),
        };
        Step {
            title: if counted { format!("Pass {pass} of {passes}") } else { "Cut".to_owned() },
            say,
            label,
            figure,
            caution: Some(
                "Swarf with a brush or a hook, and with the spindle stopped. Where coolant is used: off the floor, off the skin, no mist to breathe.",
            ),
            done: "Cut",
            cuts: true,
            picture: self.chip(pass),
            beat: self.beat.zip(self.slide).map(|(beat, id)| {
                let length = self.length.as_ref().map(Quantity::to_f64);
                Beat::new(&beat, words::slide(id), length)
            }),
            ..Step::default()
        }
    }
}
