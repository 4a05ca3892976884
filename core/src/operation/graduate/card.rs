//! A dial on the card: its lines, the move between them, and what a line can be trusted for.

use super::Graduate;
use super::keys::run;
use crate::graduation::Reads;
use crate::operation::{Card, Fact, Line, Picture, Tone, line};
use crate::quantity::show;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

impl Graduate {
    pub(super) fn as_card(&self) -> Card {
        let diameter = self.diameter.as_ref();
        Card {
            lines: self.lines(),
            verdict: self.verdict(),
            facts: self.facts(),
            picture: self.scale.map(|scale| Picture::Rim {
                into: scale.lines,
                at: 0,
                graduated: true,
            }),
            others_title: "other ways",
            others: self.circle.as_ref().map_or_else(Vec::new, |circle| circle.others(diameter)),
        }
    }

    fn lines(&self) -> Vec<Line> {
        let Some(scale) = &self.scale else {
            let finest = self.finest().unwrap_or(0);
            let finest = show::count(finest.into());
            return Vec::from([line(&format!("*{finest}* lines at the most"))]);
        };
        let (lines, value) = (show::count(scale.lines.into()), self.worth(scale.value));
        let mut lines = Vec::from([line(&format!("*{lines}* lines of *{value}*"))]);
        lines.extend(self.circle.as_ref().map_or_else(Vec::new, |circle| circle.lines()));
        lines
    }

    fn verdict(&self) -> Option<(Tone, String)> {
        let scale = self.scale.as_ref()?;
        let diameter = self.diameter.as_ref();
        if let (Some(finest), Some(gap)) = (self.finest(), self.gap())
            && scale.lines > finest
        {
            let finest = show::count(finest.into());
            let words = if gap > 0.0 { "too close to tell" } else { "run together" };
            return Some((Tone::Mind, format!("the lines {words}: {finest} at the most here")));
        }
        if let Some(cannot) = &self.cannot {
            return Some((Tone::Mind, cannot.clone()));
        }
        if !scale.exact() {
            let left = self.worth(scale.leftover().ok()?.abs());
            let wanted = self.worth(scale.wanted);
            return Some((Tone::Note, format!("not exactly {wanted}: {left} left over in a turn")));
        }
        match &self.circle {
            Some(circle) => circle.verdict(diameter),
            None => Some((Tone::Note, "nothing in the shop divides it yet".to_owned())),
        }
    }

    fn facts(&self) -> Vec<Fact> {
        let mut facts = Vec::new();
        if let Some(scale) = &self.scale {
            let of = if self.reads == Reads::Diameter { " on the diameter" } else { "" };
            facts.push(Fact::new("one turn moves", format!("{}{of}", self.worth(scale.travel))));
            if let Ok(Some(finer)) = scale.finer() {
                let (lines, value) = (show::count(finer.lines.into()), self.worth(finer.value));
                facts.push(Fact::new("exact would be", format!("{lines} lines of {value}")));
            }
            let (long, middle, short) = self.marks.counts(scale.lines);
            let counts = format!("{long} long, {middle} middle, {short} short");
            facts.push(Fact::new("lines", counts));
            let last = self.marks.last_interval(scale.lines);
            if last != self.marks.long_every {
                facts.push(Fact::new("last number to 0", format!("{last} lines")));
            }
        }
        if let Some([long, middle, short]) = self.lengths {
            let like = |mm| show::length_like(mm, self.drawn_like);
            let lengths = format!("{}, {}, {}", like(long), like(middle), like(short));
            facts.push(Fact::new("drawn to", lengths));
        }
        if let Some(pitch) = self.pitch() {
            let on = if self.on_face { "line to line, inner ends" } else { "line to line" };
            facts.push(Fact::new(on, self.like(pitch)));
        }
        if let Some(gap) = self.gap() {
            facts.push(Fact::new("gap", self.like(gap)));
        }
        if let (Some(finest), Some(_)) = (self.finest(), &self.scale) {
            facts.push(Fact::new("finest here", format!("{} lines", show::count(finest.into()))));
        }
        if self.scale.is_some() {
            let run = run(self.numbers());
            facts.push(Fact::new("numbers rise", format!("{run}, seen from the handle")));
        }
        if let Some(told) = self.told() {
            facts.push(Fact::new("trust", trust(told)));
        }
        if self.starts > 1 {
            let starts = format!("{} starts: the lead is what one turn moves", self.starts);
            facts.push(Fact::new("screw", starts));
        }
        let diameter = self.diameter.as_ref();
        facts.extend(self.circle.as_ref().map_or_else(Vec::new, |circle| circle.facts(diameter)));
        facts
    }
}

/// How far a reading can be trusted that is told to so much of a line: common practice, no source.
fn trust(told: f64) -> &'static str {
    if told <= 0.25 {
        "half a line, the screw's own error apart"
    } else if told <= 0.5 {
        "the line, not half of it; the screw's own error apart"
    } else {
        "no single line: use an indicator"
    }
}
