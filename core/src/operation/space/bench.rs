//! A row at the machine: clamp, find the first, then place after place from the same side.

use super::places::nought;
use super::spaced::{On, Spaced};
use crate::operation::Step;
use crate::quantity::{Quantity, show};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec;
use alloc::vec::Vec;

/// What is done at a step.
#[derive(Clone, Copy)]
pub(super) enum Stage {
    Clamp,
    First,
    /// The bar is shifted back, so that this place stands at the dial's nought.
    Shift(u32),
    Place(u32),
    Check,
}

const CLAMPED: &str = "Clamped, never held by hand: a drill that grabs swings the work. Supply off while it is set up.";
const CLAMPED_FOR_LINES: &str =
    "Supply off while it is set up: a spindle that starts sweeps bar and hand away.";
const STILL: &str = "Spindle stopped before a hand comes near drill, tool or work.";
const DRILLING: &str =
    "Eyes covered, no gloves near the spinning drill; swarf with a brush, spindle stopped.";

impl Spaced {
    pub(super) fn stages(&self) -> Vec<Stage> {
        let mut stages = vec![Stage::Clamp, Stage::First];
        let reach = self.on.as_ref().and_then(|on| on.reach);
        for place in 0..self.row.places {
            let from = reach.map_or(0, |reach| nought(place, reach));
            if from > 0 && from.saturating_add(1) == place {
                stages.push(Stage::Shift(from));
            }
            stages.push(Stage::Place(place));
        }
        stages.push(Stage::Check);
        stages
    }

    pub(super) fn staged(&self, stage: Stage) -> Step {
        let (step, made) = match stage {
            Stage::Clamp => (self.clamp(), 0),
            Stage::First => (self.find_the_first(), 0),
            Stage::Shift(to) => (self.shift(to), to.saturating_add(1)),
            Stage::Place(place) => (self.make(place), place),
            Stage::Check => (self.check(), self.row.places),
        };
        Step { picture: Some(self.picture(made)), ..step }
    }

    /// Up to a place again from the side from which every place is come to.
    pub(super) fn come_back(&self, stage: Stage) -> Option<String> {
        let on = self.dial()?;
        let Stage::Place(place) = stage else { return None };
        let counted = on.counted(place)?;
        let clear = if self.lines { "Tool clear." } else { "Drill drawn clear, spindle stopped." };
        Some(format!(
            "Gone past it? {clear} Unlock {slide}. Back by {past}, then on again to *{counted}* from *0*. Lock {slide}.",
            slide = on.words(),
            past = on.dial.past(),
        ))
    }

    /// The slide, where its dial is entered and it goes as far as a space.
    fn dial(&self) -> Option<&On> {
        self.on.as_ref().filter(|on| on.reach.is_some())
    }

    /// What carries the bar or the tool along.
    fn slide(&self) -> &'static str {
        self.on.as_ref().map_or("the slide", On::words)
    }

    fn clamped(&self) -> &'static str {
        if self.lines { CLAMPED_FOR_LINES } else { CLAMPED }
    }

    /// What comes over each place.
    fn point(&self) -> &'static str {
        if self.lines { "the tool's point" } else { "the spindle" }
    }

    fn clamp(&self) -> Step {
        let slide = self.slide();
        let mut say = vec![
            "Spindle stopped, supply isolated.".to_owned(),
            "Clamp the bar down at two places at the least.".to_owned(),
        ];
        if self.lines {
            say.push("Scriber or pointed tool at its height, the spindle locked.".to_owned());
        } else {
            say.push("Scrap under it where the drill comes through.".to_owned());
        }
        say.push(format!(
            "True it: an indicator along its edge stays still while {slide} goes from end to end."
        ));
        if self.dial().is_some_and(|on| on.dial.travel.is_some()) {
            say.push(format!("At the first, {slide} has its whole way still before it."));
        }
        say.push("Lock the other slides.".to_owned());
        Step {
            title: "Clamp the bar".to_owned(),
            say,
            caution: Some(self.clamped()),
            done: "Clamped",
            ..Step::default()
        }
    }

    fn find_the_first(&self) -> Step {
        let mut say = Vec::new();
        let point = self.point();
        if let Some(first) = self.row.first.filter(|first| first.is_positive()) {
            say.push(match self.lines {
                true => format!("Bring the bar's end level with {point}, by a rule or a square."),
                false => "Touch the bar's end with a pin of known size in the spindle, through thin paper. Wind on by half of the pin and the paper: the end is under the spindle.".to_owned(),
            });
            let first_words = self.exactly(first);
            say.push(match self.dial().and_then(|on| on.dial.reading(first)) {
                Some(reading) => format!(
                    "The first stands *{first_words}* on from there: *{}*.",
                    reading.counted().words()
                ),
                None => format!("The first stands *{first_words}* on from there."),
            });
        } else {
            say.push(format!("Bring the first place, marked out, under {point}."));
        }
        let (mut label, mut figure) = (String::new(), String::new());
        if let Some(on) = self.dial() {
            say.push(format!(
                "Back by {}, then up to it again, the way in which the row goes on.",
                on.dial.past()
            ));
            say.push(
                "Hold the handwheel and set the dial to *0*. Every place is come to from this side."
                    .to_owned(),
            );
            label = on.words().to_owned();
            figure = "0".to_owned();
        }
        Step {
            title: "Find the first".to_owned(),
            say,
            label,
            figure,
            caution: Some(STILL),
            done: "Set",
            ..Step::default()
        }
    }

    fn shift(&self, to: u32) -> Step {
        let number = to.saturating_add(1);
        let noun = self.noun();
        let past = self.on.as_ref().map_or("half a turn", |on| on.dial.past());
        Step {
            title: "Shift the bar".to_owned(),
            say: vec![
                format!(
                    "{} goes no further. Spindle stopped, supply isolated.",
                    capital(self.slide())
                ),
                format!(
                    "Wind it back, unclamp the bar and shift it until {noun} *{number}* is under {} again.",
                    self.point()
                ),
                match self.lines {
                    true => format!(
                        "Set the tool's point in line *{number}*. Clamp, and true the edge with the indicator."
                    ),
                    false => format!(
                        "A pin that fits the hole, held in the spindle, goes into hole *{number}* freely. Clamp, and true the edge with the indicator."
                    ),
                },
                format!("Back by {past}, then up to it the same way as before. Dial to *0*."),
            ],
            label: self.slide().to_owned(),
            figure: "0".to_owned(),
            caution: Some(self.clamped()),
            done: "Shifted",
            ..Step::default()
        }
    }

    fn make(&self, place: u32) -> Step {
        let (noun, slide) = (self.noun(), self.slide());
        let at = self.exactly(self.at(place));
        let mut say = vec![match self.lines {
            true => "Tool drawn clear.".to_owned(),
            false => "Spindle stopped, drill drawn clear.".to_owned(),
        }];
        let (mut label, mut figure) = ("from the first".to_owned(), at.clone());
        if let Some((on, found)) = self.dial().and_then(|on| Some((on, on.reading(place)?))) {
            let counted = found.reading.counted();
            if counted.is_nought() {
                say.push("The dial stays at *0*: no move yet.".to_owned());
            } else {
                say.push(format!(
                    "Unlock {slide}. Wind on to *{counted}* from *0*. Gone past? Back by {}, then up to it.",
                    on.dial.past()
                ));
            }
            let part = show::trimmed(found.reading.left_over.abs(), 2);
            if found.reading.left().is_some() {
                say.push(if found.reading.left_over.is_negative() {
                    format!("That line is {part} of a line too far: stop that much before it.")
                } else {
                    format!("That line is {part} of a line short: go that much beyond it.")
                });
            }
            (label, figure) = match counted.is_nought() {
                true => (slide.to_owned(), "0".to_owned()),
                false => (format!("{slide}, on to"), counted.to_string()),
            };
        }
        if place > 0 {
            say.push(format!("It stands *{at}* from the first."));
        }
        say.push(format!("Lock {slide}."));
        say.push(match (&self.drill, self.lines) {
            (_, true) => "Draw the line, one stroke, the same way each time.".to_owned(),
            (Some(drill), false) => format!(
                "Key out, guard down. Spindle on: a centre drill to its taper, then *{}* through, easing off as it comes out.",
                drill.text()
            ),
            (None, false) => {
                "Key out, guard down. Spindle on: a centre drill to its taper, then the drill, easing off as it comes out."
                    .to_owned()
            }
        });
        Step {
            title: format!("{noun} {} of {}", place.saturating_add(1), self.row.places),
            say,
            label,
            figure,
            caution: Some(if self.lines { STILL } else { DRILLING }),
            done: if self.lines { "Drawn" } else { "Drilled" },
            cuts: true,
            ..Step::default()
        }
    }

    fn check(&self) -> Step {
        let overall = self.row.overall;
        let mut say = vec!["Spindle stopped. Brush off, deburr both sides.".to_owned()];
        let mut figure = self.exactly(overall);
        let mut label = "first to last";
        match self.drill.as_ref().map(Quantity::value).and_then(|drill| overall.add(drill).ok()) {
            Some(over) => {
                say.push(format!(
                    "Over the far sides of the first and the last hole: *{}*, or over pins that fit them, first to last and one pin more.",
                    self.exactly(over)
                ));
                figure = self.exactly(over);
                label = "over the first and the last";
            }
            None => say.push(format!("From the first to the last: *{figure}*.")),
        }
        say.push(format!("Count them: *{}*.", self.row.places));
        Step {
            title: "Check the row".to_owned(),
            say,
            label: label.to_owned(),
            figure,
            caution: Some("Edges fresh from the drill cut: deburr before a finger goes over them."),
            done: "Right",
            ..Step::default()
        }
    }
}

/// The same with a capital to begin a sentence.
fn capital(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(|first| first.to_ascii_uppercase());
    first.into_iter().chain(letters).collect()
}
