//! A dial on the card: its lines, the move between them, and what a line can be trusted for.

use super::Graduate;
use super::keys::run;
use super::worth::Worth;
use crate::exact::Ratio;
use crate::graduation::{Reads, Turning, spacing};
use crate::operation::{Card, Fact, Line, Mark, Other, Picture, Tone, line};
use crate::quantity::show;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use core::f64::consts::PI;

impl Graduate {
    pub(super) fn as_card(&self) -> Card {
        Card {
            lines: self.lines(),
            verdict: self.verdict(),
            facts: self.facts(),
            picture: self.picture(),
            others_title: "other scales and ways",
            others: self.others(),
            ..Card::default()
        }
    }

    /// The collar unrolled; on a face, or where its size isn't known, the lines alone.
    pub(super) fn picture(&self) -> Option<Picture> {
        let lines = self.scale?.lines;
        let (Some(diameter), false) = (&self.diameter, self.on_face) else {
            return Some(Picture::Rim {
                into: lines,
                at: 0,
                mark: Mark::Graduation,
                first: 0,
                laps: 1,
                angles: Vec::new(),
            });
        };
        Some(Picture::Collar {
            lines,
            every: (self.marks.long_every, self.marks.middle_every),
            number: self.number(),
            // The handle's end upwards, what runs clockwise seen from it goes to the left.
            leftwards: self.numbers() == Turning::Clockwise,
            diameter_mm: diameter.to_f64(),
            long_mm: self.lengths.map_or(0.0, |[long, _, _]| long.to_f64()),
            line_mm: self.tool.cuts().map_or(0.2, Ratio::to_f64),
        })
    }

    /// Other scales for this screw, then the other ways of dividing for the one asked for.
    fn others(&self) -> Vec<Other> {
        let scales = self.other_scales().into_iter().take(SCALES);
        let mut others: Vec<Other> = scales
            .map(|(scale, unit)| {
                let divided = self.divides(scale.lines);
                let note = match divided {
                    true => "another scale, exact",
                    false => "another scale; nothing owned divides it exactly",
                };
                Other {
                    line: format!(
                        "{} lines of {}",
                        scale.lines,
                        show::length_like(scale.value, unit)
                    ),
                    note: note.to_owned(),
                    usable: divided,
                }
            })
            .collect();
        if let Some(circle) = &self.circle {
            others.extend(circle.others(self.diameter.as_ref()));
            others.truncate(MOST);
        }
        others
    }

    fn lines(&self) -> Vec<Line> {
        let Some(scale) = &self.scale else {
            let finest = self.finest().unwrap_or(0);
            let finest = show::count(finest.into());
            return Vec::from([line(&format!("*{finest}* lines at the most"))]);
        };
        let (lines, value) = (show::count(scale.lines.into()), self.worth(scale.value));
        let noun = if scale.lines == 1 { "line" } else { "lines" };
        // One line of the card where it fits.
        let wide = lines.len().saturating_add(value.rfind(' ').unwrap_or(0)) > 4;
        let mut lines = match wide {
            true => Vec::from([line(&format!("*{lines}* {noun}")), line(&format!("of *{value}*"))]),
            false => Vec::from([line(&format!("*{lines}* {noun} of *{value}*"))]),
        };
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

    /// What is wanted at the machine first: the arms, the lines, what a line may be trusted for.
    fn facts(&self) -> Vec<Fact> {
        let diameter = self.diameter.as_ref();
        let of_circle = self.circle.as_ref().map_or_else(Vec::new, |circle| circle.facts(diameter));
        // Which plate it is stands with the step that mounts it.
        let of_circle = of_circle.into_iter();
        let mut facts: Vec<Fact> = of_circle
            .map(|fact| Fact { seldom: fact.seldom || fact.label == "circle", ..fact })
            .collect();
        facts.extend(self.of_scale());
        if let Some([long, middle, short]) = self.lengths {
            let like = |mm| show::length_like(mm, self.drawn_like);
            let lengths = format!("{}, {}, {}", like(long), like(middle), like(short));
            facts.push(Fact::new("drawn to", lengths));
        }
        if self.scale.is_some() {
            let run = run(self.numbers());
            facts.push(Fact::new("numbers rise", format!("{run}, seen from the handle")));
        }
        if let Some((room, taken)) = self.room()
            && taken > room
        {
            let (room, taken) = (self.like(room), self.like(taken));
            facts.push(Fact::new("numbers too long", format!("{taken} in {room}")));
        }
        if let Some(worth) = Worth::of(self) {
            let own = if worth.lead.is_some() { "" } else { "; the screw's own error apart" };
            facts.push(Fact::new("trust", format!("{}{own}", worth.trust().words())));
            facts.push(Fact::seldom("out by up to", self.worth_near(worth.either_way())));
            if let Some(shake) = worth.shake {
                let more = format!("{} more", self.worth_near(shake));
                facts.push(Fact::seldom("if reversed", more));
            }
        }
        facts.extend(self.spaced());
        facts.extend(self.tool.fact());
        facts.extend(self.finer());
        if let Some(vernier) = &self.vernier {
            let (n, over) = (vernier.divisions(), vernier.over());
            let each = self.vernier_each().map(show::angle).unwrap_or_default();
            facts.push(Fact::new(
                "vernier",
                format!(
                    "{} over {}, {each} each",
                    show::many(n, "space", "spaces"),
                    show::many(over, "line", "lines")
                ),
            ));
        }
        facts.extend(self.stamps().into_iter().map(|words| Fact::seldom("stamped", words)));
        if let Some(diameter) = &self.diameter {
            let one = Ratio::new(1, self.scale.map_or(1, |scale| scale.lines).into());
            let chord = one.map(|one| diameter.to_f64() * libm::sin(one.to_f64() * PI));
            if let (Ok(chord), Some(_)) = (chord, &self.scale) {
                let next = format!("each to the next {} across", self.like(chord));
                facts.push(Fact::seldom("lost the count?", next));
            }
        }
        if self.starts > 1 {
            let starts = format!("{} starts: the lead is what one turn moves", self.starts);
            facts.push(Fact::seldom("screw", starts));
        }
        facts
    }

    /// What the scale comes to.
    fn of_scale(&self) -> Vec<Fact> {
        let mut facts = Vec::new();
        let Some(scale) = &self.scale else { return facts };
        if let Ok(Some(finer)) = scale.finer() {
            let (lines, value) = (show::count(finer.lines.into()), self.worth(finer.value));
            let undivided = match self.divides(finer.lines) {
                true => "",
                false => ", which nothing owned divides exactly",
            };
            let words = format!("{lines} lines of {value}{undivided}");
            facts.push(Fact::new("exact would be", words));
        }
        let (long, middle, short) = self.marks.counts(scale.lines);
        facts.push(Fact::new("lines", format!("{long} long, {middle} middle, {short} short")));
        let of = if self.reads == Reads::Diameter { " on the diameter" } else { "" };
        facts.push(Fact::seldom("one turn moves", format!("{}{of}", self.worth(scale.travel))));
        let last = self.marks.last_interval(scale.lines);
        if last != self.marks.long_every {
            facts.push(Fact::seldom("last number to 0", show::many(last, "line", "lines")));
        }
        facts
    }

    /// How close the lines stand.
    fn spaced(&self) -> Vec<Fact> {
        let mut facts = Vec::new();
        if let Some(gap) = self.gap() {
            facts.push(Fact::new("gap", self.like(gap)));
        }
        if let (Some(finest), Some(_)) = (self.finest(), &self.scale) {
            facts.push(Fact::new(
                "finest here",
                show::many(show::count(finest.into()), "line", "lines"),
            ));
        }
        if let Some(pitch) = self.pitch() {
            facts.push(Fact::seldom("line to line", self.like(pitch)));
        }
        if let (true, Some(closest), Some(scale)) = (self.on_face, self.closest(), &self.scale) {
            let pitch = self.like(spacing::pitch(closest, scale.lines));
            facts.push(Fact::seldom("the same, inner ends", pitch));
        }
        facts
    }

    /// What a finer cutter, or a pointed tool, would allow.
    fn finer(&self) -> Vec<Fact> {
        let mut facts = Vec::new();
        if let (Some(scale), Some(closest)) = (&self.scale, self.closest())
            && self.tool.width.is_some()
        {
            let widest = self.like(spacing::widest_line(closest, scale.lines));
            facts.push(Fact::seldom("lines no wider than", widest));
            if let Some(width) = self.point.width()
                && let Some(lines) = self.finest_of(width)
            {
                let (angle, depth) = (show::angle(self.point.angle), self.point.depth);
                let (depth, width) = (self.like(depth.to_f64()), self.like(width.to_f64()));
                let lines = show::count(lines.into());
                facts.push(Fact::seldom(
                    format!("a {angle} point, {depth} deep"),
                    format!("{width} wide: {}", show::many(&lines, "line", "lines")),
                ));
            }
        }
        facts
    }
}

/// Other scales and ways that are listed, and how many of them may be scales.
const MOST: usize = 40;
const SCALES: usize = 8;
