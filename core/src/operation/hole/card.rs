//! A hole as the file and the screen have it.

use super::super::{Card, Fact, Other, Picture, Step, Tone, Worked, line};
use super::depth::reading;
use super::pick::{Drill, Purpose, enters};
use super::work::Hole;
use crate::exact::Ratio;
use crate::quantity::show;
use crate::record::Node;
use crate::threads::Percent;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

fn of_thread(percent: Percent) -> String {
    format!("{} % of thread", show::float(percent.of_chart, 0))
}

impl Hole {
    fn lines(&self) -> Vec<String> {
        let mut lines = Vec::from([format!("drill *{}*", self.drill_words())]);
        match (self.purpose, &self.recess) {
            (Purpose::Tap, _) => lines.push(format!("tap *{}*", self.screw.name)),
            (Purpose::Ream | Purpose::Dowel, _) => {
                lines.push(format!("ream *{}*", self.screw.name));
            }
            (_, Some(recess)) => lines.push(match recess.cone {
                Some(angle) => format!(
                    "countersink *{}°* to *Ø {}*",
                    show::trimmed(angle, 1),
                    self.like(recess.diameter)
                ),
                None => format!(
                    "counterbore *Ø {}*, *{}* deep",
                    self.like(recess.diameter),
                    self.like(recess.depth)
                ),
            }),
            _ => {}
        }
        lines
    }

    fn verdict(&self) -> Option<(Tone, String)> {
        if let Some(trouble) = self.left.trouble() {
            return Some((Tone::Mind, trouble.to_owned()));
        }
        let Some(drill) = &self.drill else {
            return Some((Tone::Note, format!("asks for {}", self.like(self.wanted.hole))));
        };
        let thread = self.percent.map(of_thread);
        Some(match (self.purpose, drill.within, thread) {
            (Purpose::Tap, Some(true), Some(thread)) => {
                (Tone::Good, format!("{thread}, within the nut's limits"))
            }
            (Purpose::Tap, Some(false), Some(thread)) => {
                (Tone::Mind, format!("{thread}: {}", self.tapped_in(drill.mm)))
            }
            (Purpose::Tap, _, Some(thread)) => (Tone::Note, thread),
            (_, Some(true), _) => {
                let exactly = drill.mm == self.wanted.hole;
                let words =
                    if exactly { "the size that is asked for" } else { "within what will do" };
                (Tone::Good, words.to_owned())
            }
            (Purpose::Ream | Purpose::Dowel, ..) => {
                let words = if self.too_small(drill.mm) {
                    "leaves the reamer too much: bore it out first"
                } else {
                    "leaves the reamer too little: it rubs"
                };
                (Tone::Mind, words.to_owned())
            }
            _ if self.too_small(drill.mm) => {
                (Tone::Mind, "no drill here is large enough: bore it out".to_owned())
            }
            _ => (Tone::Note, "looser than a free fit".to_owned()),
        })
    }

    fn too_small(&self, hole: Ratio) -> bool {
        self.wanted.range.is_some_and(|(smallest, _)| hole < smallest)
    }

    /// What becomes of a tap in a hole outside the nut's limits.
    fn tapped_in(&self, hole: Ratio) -> &'static str {
        if !self.too_small(hole) {
            "larger than the nut's limits, a weak thread"
        } else if enters(&self.screw, hole) {
            "tight, a tap may break"
        } else {
            "too small, the tap won't enter"
        }
    }

    /// What another drill would make of it.
    fn would(&self, drill: &Drill, percent: Option<Percent>) -> String {
        let words = match (drill.within, self.purpose) {
            (None, _) => "",
            (Some(true), Purpose::Tap) => "within the nut's limits",
            (Some(true), _) => "will do",
            (Some(false), Purpose::Tap) => self.tapped_in(drill.mm),
            (Some(false), _) if self.too_small(drill.mm) => "too small",
            (Some(false), _) => "too large",
        };
        match percent.map(of_thread) {
            Some(thread) if words.is_empty() => thread,
            Some(thread) => format!("{thread}: {words}"),
            None => words.to_owned(),
        }
    }

    fn facts(&self) -> Vec<Fact> {
        let mut facts = Vec::new();
        if self.drill.as_ref().is_some_and(|drill| drill.mm != self.wanted.hole) {
            facts.push(Fact::new("asks for", self.like(self.wanted.hole)));
        }
        if let Some(([low, high], unit)) = self.reamed() {
            facts.push(Fact::new("reamed hole", format!("{low} to {high} {unit}")));
        }
        if let Some(depth) = &self.depth {
            match reading(self.dial, depth.tip) {
                Some((name, reading)) => {
                    facts.push(Fact::new(format!("to the tip, {name}"), format!("{reading}")));
                }
                None => facts.push(Fact::new("to the tip", self.deep(depth.tip))),
            }
        }
        if let Some(recess) = &self.recess {
            if let Some((name, reading)) = reading(self.dial, recess.depth.to_f64()) {
                facts.push(Fact::new(format!("recess, {name}"), reading.as_set()));
            }
            let below = if recess.below.is_zero() {
                "flush".to_owned()
            } else {
                format!("{} below flush", self.like(recess.below))
            };
            facts.push(Fact::new("head lies", below));
            if let Some(cutter) = &recess.cutter {
                facts.push(Fact::new("cutter", cutter.clone()));
            }
        }
        if let Some(Some(wall)) = self.left.wall {
            facts.push(Fact::new("wall left", self.like(wall)));
        }
        if let Some(Some(floor)) = self.left.floor {
            facts.push(Fact::new("floor left", self.deep(floor)));
        }
        if !self.pilots.is_empty() {
            let first: Vec<&str> =
                self.pilots.iter().map(|(drill, _)| drill.text.as_str()).collect();
            facts.push(Fact::new("drill first", first.join(", then ")));
        }
        if let Some(spindle) = &self.spindle {
            facts.push(Fact::new("speed", spindle.words()));
        }
        facts.truncate(8);
        facts
    }
}

impl Worked for Hole {
    fn json(&self) -> Vec<(String, Node)> {
        let mut pairs = Vec::new();
        let mut put = |key: &str, node: Node| pairs.push((key.to_owned(), node));
        if let Some(drill) = &self.drill {
            put("drill", Node::from(drill.text.as_str()));
        }
        put("hole_mm", Node::from(self.wanted.hole.to_f64()));
        if let Some(percent) = self.percent {
            put("percent", Node::from(percent.of_chart));
        }
        if let Some(recess) = &self.recess {
            let key = if recess.cone.is_some() { "countersink_mm" } else { "counterbore_mm" };
            put(key, Node::from(recess.diameter.to_f64()));
            put("depth_mm", Node::from(recess.depth.to_f64()));
        } else if let Some(depth) = &self.depth {
            put("depth_mm", Node::from(depth.tip));
        }
        if let Some(Some(wall)) = self.left.wall {
            put("wall_mm", Node::from(wall.to_f64()));
        }
        if let Some(Some(floor)) = self.left.floor {
            put("floor_mm", Node::from(floor));
        }
        if let Some(limits) = self.wanted.limits {
            put("limits_mm", Node::from(limits.map(Ratio::to_f64).to_vec()));
        }
        if !self.pilots.is_empty() {
            let pilots = self.pilots.iter().map(|(drill, spindle)| {
                let mut pairs = alloc::vec![("drill".to_owned(), Node::from(drill.text.as_str()))];
                if let Some(spindle) = spindle {
                    pairs.push(("spindle_rpm".to_owned(), Node::from(spindle.speed.rpm)));
                }
                Node::Object(pairs)
            });
            put("pilots", Node::List(pilots.collect()));
        }
        if let Some(spindle) = &self.spindle {
            put("spindle_rpm", Node::from(spindle.speed.rpm));
        }
        pairs
    }

    fn card(&self) -> Card {
        let others = self
            .near
            .iter()
            .map(|(drill, percent)| Other {
                line: drill.text.clone(),
                note: self.would(drill, *percent),
                usable: true,
            })
            .collect();
        Card {
            lines: self.lines().iter().map(|text| line(text)).collect(),
            verdict: self.verdict(),
            facts: self.facts(),
            picture: self.seated().map(Picture::SeatedScrew),
            others_title: "other drills",
            others,
            ..Card::default()
        }
    }

    fn steps(&self) -> usize {
        self.stages().len()
    }

    fn step(&self, at: usize) -> Option<Step> {
        self.stages().into_iter().nth(at)
    }
}
