//! What turning or boring to size comes to: the cuts, and the steps at the machine.

use super::super::feeding::{PowerFeed, Time};
use super::super::spindle::Spindle;
use super::super::{Card, Fact, Other, Step, Tone, Worked, line};
use super::plan::{Pass, Way};
use crate::cutting::{CutKind, Slender};
use crate::exact::Ratio;
use crate::quantity::{Quantity, show};
use crate::record::Node;
use crate::shop::Dial;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec;
use alloc::vec::Vec;

/// The cuts that bring the work to size.
#[derive(Clone, Debug)]
pub struct Size {
    pub(super) way: Way,
    pub(super) from: Quantity,
    pub(super) to: Quantity,
    pub(super) length: Option<Quantity>,
    pub(super) dial: Option<(&'static str, Dial)>,
    pub(super) carriage: Option<Dial>,
    /// What feeds in facing.
    pub(super) across: Option<Dial>,
    pub(super) passes: Vec<Pass>,
    pub(super) rough: Option<Spindle>,
    pub(super) finish: Option<Spindle>,
    pub(super) out: Slender,
    pub(super) cutter: Option<String>,
    pub(super) measured: Option<Quantity>,
    /// The feeds by power, along: for roughing and for the last cut.
    pub(super) power: [Option<PowerFeed>; 2],
    /// How far a pass feeds, mm.
    pub(super) travel: Option<f64>,
    /// How far past its size it was measured, mm; nothing where it was to size.
    pub(super) past: Option<Ratio>,
}

/// What is done at a step.
enum Stage<'a> {
    Touch,
    Cut(usize, &'a Pass),
    Measure(&'a Pass),
    Check,
}

impl Size {
    fn sized(&self, mm: Ratio) -> String {
        let sign = if self.way == Way::Face { "" } else { "Ø " };
        format!("{sign}{}", show::length_like(mm, self.to.unit()))
    }

    fn slide(&self) -> &'static str {
        self.dial.map_or("slide", |(name, _)| name)
    }

    /// In or out.
    fn direction(&self) -> &'static str {
        if self.way == Way::Bore { "out" } else { "in" }
    }

    /// How long all of it takes, where the length and the feeds are known.
    pub(super) fn time(&self) -> Option<Time> {
        let length = self.travel?;
        let mut time = Time::default();
        for pass in &self.passes {
            let last = pass.kind == CutKind::Last;
            let spindle = if last { self.finish.as_ref() } else { self.rough.as_ref() };
            let feed = spindle.or(self.rough.as_ref())?.feed_mm_per_min()?;
            time = time.and(1, length, feed);
            if pass.kind == CutKind::Measuring {
                time = time.and_measuring();
            }
        }
        Some(time)
    }

    fn measuring(&self) -> Option<usize> {
        self.passes.iter().position(|pass| pass.kind == CutKind::Measuring)
    }

    fn stage(&self, at: usize) -> Stage<'_> {
        let Some(after) = at.checked_sub(1) else { return Stage::Touch };
        let measuring = self.measuring();
        let index = match measuring {
            Some(place) if after == place.saturating_add(1) => {
                return self.passes.get(place).map_or(Stage::Check, Stage::Measure);
            }
            Some(place) if after > place => after.saturating_sub(1),
            _ => after,
        };
        self.passes.get(index).map_or(Stage::Check, |pass| Stage::Cut(index, pass))
    }

    /// `24 mm; carriage 3 turns + 12`: how far along.
    fn along(&self) -> Option<String> {
        let length = self.length.as_ref()?;
        let reading = self.carriage.and_then(|dial| dial.reading(length.value()));
        Some(match reading {
            Some(reading) => {
                format!("*{}*, the carriage dial at *{}*", length.text(), reading.words())
            }
            None => format!("*{}*", length.text()),
        })
    }

    fn touch(&self) -> Step {
        let mut say = Vec::new();
        if let Some(spindle) = &self.rough {
            say.push(format!("Spindle stopped. {}", spindle.say()));
        }
        if let Some(cutter) = &self.cutter {
            say.push(format!("Mount the {cutter} at centre height."));
        }
        say.push("Chuck key out, guard down. Spindle on.".to_owned());
        let slide = self.slide();
        say.push(match self.way {
            Way::Face => "Wind the tool along until it just touches the end.".to_owned(),
            Way::Turn => format!(
                "Wind in until the tool just touches the outside of {}.",
                self.sized(self.from.value())
            ),
            Way::Bore => format!(
                "Wind out until the tool just touches the bore of {}.",
                self.sized(self.from.value())
            ),
        });
        say.push(format!("Set the {slide}'s dial to *0*. Draw clear along the other slide."));
        if self.carriage.is_some() && self.length.is_some() {
            say.push("Touch the end face too, and set the carriage dial to *0*.".to_owned());
        }
        Step {
            title: "Touch on".to_owned(),
            say,
            label: self.slide().to_owned(),
            figure: "0".to_owned(),
            caution: Some("Eyes covered, sleeves and hair tied back, no gloves near turning work."),
            done: "Done",
            cuts: false,
            ..Step::default()
        }
    }

    fn cut(&self, index: usize, pass: &Pass) -> Step {
        let what = match pass.kind {
            CutKind::Rough => "roughing",
            CutKind::Measuring => "to measure",
            CutKind::Last => "to size",
        };
        let count = self.passes.len();
        let mut say = Vec::new();
        if pass.kind == CutKind::Last
            && count > 1
            && let Some(finish) = &self.finish
            && self.rough.as_ref().is_none_or(|rough| rough.speed != finish.speed)
        {
            say.push(format!("Spindle stopped. {} Spindle on.", finish.say()));
        }
        let (label, figure) = match (&pass.reading, self.dial) {
            (Some(reading), Some((slide, dial))) => {
                let direction = self.direction();
                say.push(format!(
                    "Wind {direction} to {}. If it goes past: back by {}, then up to it.",
                    reading.set(),
                    dial.past()
                ));
                let part = show::trimmed(reading.left_over.abs(), 2);
                if reading.left().is_some() {
                    say.push(if reading.left_over.is_negative() {
                        format!("That line is {part} of a line too far: stop that much before it.")
                    } else {
                        format!("That line is {part} of a line short: go that much beyond it.")
                    });
                }
                (format!("{slide}, {direction} to"), reading.counted().to_string())
            }
            _ => {
                let by = show::length_like(pass.travel, self.to.unit());
                say.push(format!("Wind {} to *{by}* from the touch.", self.direction()));
                (format!("{} from the touch", self.direction()), by)
            }
        };
        let last = pass.kind == CutKind::Last;
        let (spindle, power) = match (last, &self.power) {
            (true, [_, finish]) => (self.finish.as_ref().or(self.rough.as_ref()), finish),
            (false, [rough, _]) => (self.rough.as_ref(), rough),
        };
        say.extend(
            power.as_ref().map(|power| format!("By power: {}.", power.words(self.to.unit()))),
        );
        say.push(match (self.along(), self.way) {
            (_, Way::Face) => "Feed across, steadily.".to_owned(),
            (Some(along), _) => format!("Feed along to {along}."),
            (None, _) => "Feed along, steadily.".to_owned(),
        });
        say.push(if pass.kind == CutKind::Measuring {
            "Return along without moving this dial.".to_owned()
        } else {
            "Draw clear, and return.".to_owned()
        });
        say.push(format!("It leaves {}.", self.sized(pass.leaves)));
        Step {
            title: format!("cut {} of {count}, {what}", index.saturating_add(1)),
            say,
            label,
            figure,
            caution: Some(
                "Hands, sleeves and rag away from what turns; swarf with a hook, spindle stopped.",
            ),
            done: "Cut",
            cuts: true,
            beat: spindle.and_then(|spindle| match self.way {
                Way::Face => spindle.beat(self.across, "the cross slide", self.travel),
                _ => spindle.beat(self.carriage, "the carriage", self.travel),
            }),
            ..Step::default()
        }
    }

    fn measure(&self, pass: &Pass) -> Step {
        let mut say = vec![
            "Spindle stopped, work cool, burr off.".to_owned(),
            format!("Measure: it should be *{}*.", self.sized(pass.leaves)),
        ];
        if let Some(measured) = &self.measured {
            say.push(match self.past {
                None => format!("Measured: {}. What is still to cut goes by that.", measured.text()),
                Some(past) if past.is_zero() => {
                    format!("Measured: {}. It is to size: no more cuts.", measured.text())
                }
                Some(past) => format!(
                    "Measured: {}, past its size by *{}*: nothing is left to cut. Make its mate to it, or begin another.",
                    measured.text(),
                    show::length_like(past, self.to.unit())
                ),
            });
        } else if let Some((_, dial)) = self.dial {
            let line = match self.way {
                Way::Face => Ok(dial.travel_per_line()),
                _ => dial.travel_per_line().mul(Ratio::whole(2)),
            };
            if let Ok(line) = line {
                let line = show::length_like(line, dial.unit);
                let (more, less) =
                    if self.way == Way::Bore { ("under", "over") } else { ("over", "under") };
                say.push(format!(
                    "For each {line} {more}, the last cut goes one line further; for each {line} {less}, one line less."
                ));
            }
        }
        Step {
            title: "Measure".to_owned(),
            say,
            label: "should measure".to_owned(),
            figure: self.sized(pass.leaves),
            caution: Some("Never measure turning work."),
            done: "Measured",
            cuts: false,
            measures: Some("measured"),
            ..Step::default()
        }
    }

    fn check(&self) -> Step {
        let mut say = vec!["Spindle stopped. Break the edges with a file or a chamfer.".to_owned()];
        say.push(format!("Measure *{}*.", self.sized(self.to.value())));
        if let Some(length) = &self.length {
            let word = if self.way == Way::Bore { "depth" } else { "length" };
            say.push(format!("Measure the {word}: *{}*.", length.text()));
        }
        Step {
            title: "Check".to_owned(),
            say,
            label: "to size".to_owned(),
            figure: self.sized(self.to.value()),
            caution: None,
            done: "Done",
            cuts: false,
            ..Step::default()
        }
    }
}

impl Worked for Size {
    fn json(&self) -> Vec<(String, Node)> {
        let cuts = self.passes.iter().map(|pass| {
            let mut pairs = Vec::new();
            if let Some(reading) = &pass.reading {
                pairs.push(("dial".to_owned(), Node::from(reading.words())));
            }
            // Facing leaves a length.
            let key = if self.way == Way::Face { "length_mm" } else { "diameter_mm" };
            pairs.push((key.to_owned(), Node::from(pass.leaves.to_f64())));
            Node::Object(pairs)
        });
        let mut pairs = vec![("cuts".to_owned(), Node::List(cuts.collect()))];
        if let Some(spindle) = &self.rough {
            pairs.push(("spindle_rpm".to_owned(), Node::from(spindle.speed.rpm)));
        }
        if let Some(time) = self.time() {
            pairs.push(("cutting_minutes".to_owned(), Node::from(time.cutting / 60.0)));
            pairs.push(("minutes".to_owned(), Node::from(time.minutes())));
        }
        pairs
    }

    fn card(&self) -> Card {
        let mut lines = Vec::new();
        let mut verdict = None;
        if let Some(last) = self.passes.last() {
            lines.push(match &last.reading {
                Some(reading) => {
                    line(&format!("{} {} *{}*", self.slide(), self.direction(), reading.counted()))
                }
                None => line(&format!(
                    "{} *{}*",
                    self.direction(),
                    show::length_like(last.travel, self.to.unit())
                )),
            });
            let count = self.passes.len();
            let cuts = if count == 1 { "one cut".to_owned() } else { format!("{count} cuts") };
            lines.push(line(&format!("in {cuts} to *{}*", self.sized(self.to.value()))));
            verdict = last.reading.map(|reading| match reading.left() {
                Some(left) => {
                    let of = if reading.left_over.is_negative() { "" } else { " of" };
                    (Tone::Note, format!("{left}{of} size: measure"))
                }
                None => (Tone::Good, "size falls on a line".to_owned()),
            });
        }
        if let Some(past) = self.past {
            lines =
                vec![line(&format!("nothing left to cut to *{}*", self.sized(self.to.value())))];
            verdict = Some(if past.is_zero() {
                (Tone::Good, "measured to size".to_owned())
            } else {
                let past = show::length_like(past, self.to.unit());
                (Tone::Mind, format!("measured {past} past its size"))
            });
        }
        let trouble = self.rough.as_ref().and_then(Spindle::trouble);
        verdict = trouble.filter(|(tone, _)| *tone == Tone::Mind).or(verdict);
        match self.out {
            Slender::Stiff => {}
            Slender::NeedsCentre => {
                verdict = Some((Tone::Mind, "slender: bring up the centre".to_owned()));
            }
            Slender::NeedsSteady => {
                verdict = Some((Tone::Mind, "very slender: centre and steady".to_owned()));
            }
        }
        let mut facts = Vec::new();
        if let Some(spindle) = &self.rough {
            facts.push(Fact::new("speed", spindle.words()));
        }
        if let Some(finish) = &self.finish
            && self.rough.as_ref().is_some_and(|rough| rough.speed != finish.speed)
        {
            facts.push(Fact::new("last cut at", finish.words()));
        }
        if let Some(measuring) = self.measuring().and_then(|at| self.passes.get(at)) {
            facts.push(Fact::new("measure at", self.sized(measuring.leaves)));
        }
        if let (Some(length), Some(dial)) = (&self.length, self.carriage)
            && let Some(reading) = dial.reading(length.value())
        {
            facts.push(Fact::new("carriage", reading.words()));
        }
        if let [Some(rough), _] = &self.power {
            facts.push(Fact::new("by power", rough.words(self.to.unit())));
        }
        if let Some(time) = self.time() {
            facts.push(Fact::new("it takes", time.words()));
        }
        let others = self
            .passes
            .iter()
            .take(40)
            .map(|pass| Other {
                line: match &pass.reading {
                    Some(reading) => reading.counted().words(),
                    None => show::length_like(pass.travel, self.to.unit()),
                },
                note: match pass.kind {
                    CutKind::Rough => self.sized(pass.leaves),
                    CutKind::Measuring => format!("{}: measure", self.sized(pass.leaves)),
                    CutKind::Last => format!("{}: the last", self.sized(pass.leaves)),
                },
                usable: true,
            })
            .collect();
        Card { lines, verdict, facts, others_title: "cuts", others, ..Card::default() }
    }

    fn steps(&self) -> usize {
        let measuring = usize::from(self.measuring().is_some());
        self.passes.len().saturating_add(measuring).saturating_add(2)
    }

    fn step(&self, at: usize) -> Option<Step> {
        Some(match self.stage(at) {
            Stage::Touch => self.touch(),
            Stage::Cut(index, pass) => self.cut(index, pass),
            Stage::Measure(pass) => self.measure(pass),
            Stage::Check => self.check(),
        })
    }
}
