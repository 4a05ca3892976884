//! What turning or boring to size comes to: the cuts, and the steps at the machine.

use super::super::feeding::{PowerFeed, Time};
use super::super::ready::Kit;
use super::super::spindle::Spindle;
use super::super::{Card, Fact, Other, Step, Tone, Worked, line};
use crate::cutting::{CutKind, Slender};
use crate::exact::Ratio;
use crate::operation::passes::{Pass, Way};
use crate::quantity::{Quantity, show};
use crate::record::Node;
use crate::shop::Dial;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
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
    /// What is owned that the steps go by.
    pub(super) kit: Kit,
    /// Whether the compound sets the depth of facing.
    pub(super) by_compound: bool,
    /// The speed for the hardest stock, where nothing says what it is.
    pub(super) cautious: Option<Spindle>,
    /// The diameter faced, mm.
    pub(super) faced: Option<Ratio>,
    /// What holds the work, where that is known.
    pub(super) held_in: Option<String>,
    /// A boring bar's diameter, mm, and what it is made of.
    pub(super) bar: Option<(Ratio, Option<&'static str>)>,
}

impl Size {
    pub(super) fn sized(&self, mm: Ratio) -> String {
        let sign = if self.way == Way::Face { "" } else { "Ø " };
        format!("{sign}{}", show::length_like(mm, self.to.unit()))
    }

    pub(super) fn slide(&self) -> &'static str {
        self.dial.map_or("slide", |(name, _)| name)
    }

    /// In or out.
    pub(super) fn direction(&self) -> &'static str {
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

    pub(super) fn measuring(&self) -> Option<usize> {
        self.passes.iter().position(|pass| pass.kind == CutKind::Measuring)
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
        self.count()
    }

    fn step(&self, at: usize) -> Option<Step> {
        Some(self.at(at))
    }
}
