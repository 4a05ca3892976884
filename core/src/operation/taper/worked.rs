//! What a taper comes to: the slide or the tailstock, the check, and the steps at the machine.

use super::super::spindle::Spindle;
use super::super::{Card, Fact, Picture, Step, Tone, Worked, line};
use crate::exact::Ratio;
use crate::quantity::{MM_PER_INCH, Quantity, Unit, show};
use crate::record::Node;
use crate::shop::{Dial, Reading};
use crate::tapers::{Check, NamedTaper, Taper};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec;
use alloc::vec::Vec;

/// A taper and how to turn it here.
#[derive(Clone, Debug)]
pub struct Tapered {
    pub(super) taper: Taper,
    pub(super) named: Option<&'static NamedTaper>,
    pub(super) large: Option<f64>,
    pub(super) small: Option<f64>,
    pub(super) length: Option<f64>,
    pub(super) unit: Unit,
    pub(super) between: Option<Quantity>,
    pub(super) set_over: Option<f64>,
    pub(super) indicator: Option<Indicator>,
    /// What the indicator moved by on a cylinder.
    pub(super) proved: Option<Quantity>,
    /// What it changed by along the cone.
    pub(super) checked: Option<Quantity>,
    pub(super) cross: Option<Dial>,
    pub(super) compound: Option<Dial>,
    pub(super) carriage: Option<Dial>,
    /// The speed for the large end.
    pub(super) spindle: Option<Spindle>,
}

/// How an indicator proves it.
#[derive(Clone, Debug)]
pub(super) struct Indicator {
    /// On the finished cone, moved along the bed.
    pub(super) bed: Check,
    /// On a true cylinder, moved with the compound.
    pub(super) compound: Check,
    /// What one of its lines says.
    pub(super) division: Option<Quantity>,
    /// Whether the plunger can't go that far.
    pub(super) beyond: bool,
}

/// How far off a degree scale may be read: it has quarters, so half of one. Common practice, no
/// source.
const SCALE_DEG: f64 = 0.125;

/// Degrees and minutes: `1° 25.8′`.
pub(super) fn angle(degrees: f64) -> String {
    let tenths = libm::round(degrees * 600.0);
    let whole = libm::floor(tenths / 600.0);
    let minutes = (tenths - whole * 600.0) / 10.0;
    if minutes > 0.0 {
        format!("{}° {}′", show::float(whole, 0), show::float_trimmed(minutes, 1))
    } else {
        format!("{}°", show::float(whole, 0))
    }
}

impl Tapered {
    /// A length that is only nearly known, in the job's own system.
    pub(super) fn long(&self, mm: f64, places: u32) -> String {
        if self.unit.is_inch() {
            let inches = mm / MM_PER_INCH.to_f64();
            return format!("{} in", show::float_trimmed(inches, places.saturating_add(1)));
        }
        format!("{} mm", show::float_trimmed(mm, places))
    }

    fn half(&self) -> String {
        angle(self.taper.half_angle_deg())
    }

    /// How far the compound moves for the indicator's travel, on its own dial.
    fn travel_reading(&self, travel: Ratio) -> String {
        let length = show::length_like(travel, self.unit);
        match self.compound.and_then(|dial| dial.reading(travel)) {
            Some(reading) => format!("*{length}* (its dial: *{}*)", reading.as_set()),
            None => format!("*{length}*"),
        }
    }

    fn set_over_reading(&self) -> Option<Reading> {
        self.cross?.reading_towards(false, show::near(self.set_over?, 4)?)
    }

    /// How much the diameter may be out over the length by the scale alone.
    fn scale_error(&self, off_deg: f64) -> Option<f64> {
        let length = show::near(self.length?, 6)?;
        Some(self.taper.diameter_error_mm(off_deg, length).abs())
    }

    /// The nearest quarter of a degree, and how much it is out by.
    fn quarter(&self) -> (f64, f64) {
        let half = self.taper.half_angle_deg();
        let quarter = libm::round(half * 4.0) / 4.0;
        (quarter, quarter - half)
    }

    /// What the indicator should say, to a tenth of its line.
    fn shown(&self, reading_mm: f64) -> String {
        let division = self.indicator.as_ref().and_then(|indicator| indicator.division.as_ref());
        let inch = division.map_or(self.unit.is_inch(), |division| division.unit().is_inch());
        if inch {
            format!("{} thou", show::float_trimmed(reading_mm / 0.0254, 1))
        } else {
            format!("{} mm", show::float(reading_mm, 3))
        }
    }

    fn swing(&self) -> Step {
        let half = self.half();
        let (quarter, off) = self.quarter();
        let mut say = vec![
            "Spindle stopped. Loosen the compound.".to_owned(),
            format!("Swing it *{half}* from parallel with the bed."),
            format!(
                "On a scale with nought across the bed that is *{}*.",
                angle(self.taper.across_scale_deg())
            ),
        ];
        if let Some(error) = self.scale_error(off)
            && error >= 0.0005
        {
            say.push(format!(
                "The nearest quarter, {}°, is {} out on the diameter over the length.",
                show::float_trimmed(quarter, 2),
                self.long(error, 3)
            ));
        }
        Step {
            title: "Swing the compound".to_owned(),
            say,
            label: "from parallel".to_owned(),
            figure: half,
            caution: None,
            done: "Set",
            cuts: false,
            ..Step::default()
        }
    }

    /// What an indicator's reading says of the angle, and what to do about it: `half` is the half
    /// angle that the reading comes of.
    fn corrected(&self, read: &Quantity, half: f64) -> String {
        let off = half - self.taper.half_angle_deg();
        // A tenth of a minute is less than anybody sets.
        if off.abs() < 0.1 / 60.0 {
            return format!("It read {}: *right*.", read.text());
        }
        let (steep, back) = if off > 0.0 { ("steep", "back") } else { ("slow", "on") };
        let read = read.text();
        let by = angle(off.abs());
        match (self.set_over, &self.between) {
            (Some(_), Some(between)) => {
                let over = between.to_f64()
                    * (libm::tan(half.to_radians()) - self.taper.per_mm() / 2.0).abs();
                format!(
                    "It read {read}: too {steep} by {by}. Tailstock {back} by *{}*, and again.",
                    self.long(over, 3)
                )
            }
            _ => format!("It read {read}: too {steep} by {by}. Swing {back} by *{by}*, and again."),
        }
    }

    fn prove(&self, indicator: &Indicator) -> Step {
        let check = &indicator.compound;
        let corrected = self.proved.as_ref().map(|read| {
            // The compound's travel is the long side, the indicator's movement the short one.
            let sine = (read.to_f64() / check.travel_mm.to_f64()).clamp(0.0, 1.0);
            self.corrected(read, libm::asin(sine).to_degrees())
        });
        let mut step = self.proving(check);
        step.say.extend(corrected);
        step
    }

    fn proving(&self, check: &Check) -> Step {
        Step {
            title: "Prove it by the indicator".to_owned(),
            say: vec![
                "Spindle stopped. Hold a cylinder that is known to run true.".to_owned(),
                "Indicator in the tool post, its plunger level, square to the axis, at centre height."
                    .to_owned(),
                "Wind the compound one way until the lost motion is out. Indicator to *0*.".to_owned(),
                format!("Wind on, the same way, by {}.", self.travel_reading(check.travel_mm)),
                format!("It should have moved by *{}*.", self.shown(check.reading_mm)),
                "Tap the compound round until it does. Tighten, and prove it again.".to_owned(),
            ],
            label: "indicator".to_owned(),
            figure: self.shown(check.reading_mm),
            caution: Some("The spindle stays stopped while an indicator touches."),
            done: "Proved",
            cuts: false,
            measures: Some("proved"),
            ..Step::default()
        }
    }

    fn over(&self, over: f64) -> Step {
        let words = self.long(over, 3);
        let mut say = vec![
            "Spindle stopped, work out.".to_owned(),
            format!(
                "Set the tailstock over by *{words}*: towards you for a small end at the tailstock."
            ),
        ];
        let mut label = "tailstock over by".to_owned();
        let mut figure = words;
        if let (Some(reading), Some(dial)) = (self.set_over_reading(), self.cross) {
            say.push("Bring the tool post up to the barrel of the tailstock; a slip of paper says when it touches. Dial to *0*.".to_owned());
            let left = reading.left().map_or_else(String::new, |left| format!(" ({left})"));
            let counted = reading.counted();
            let until = match reading.mark {
                Some(mark) => format!("until *{mark}* stands at the mark"),
                None => format!("to *{counted}*"),
            };
            say.push(format!(
                "Wind away by *{counted}*{left} and {} more, then in again {until}.",
                dial.past()
            ));
            say.push("Move the tailstock until the paper is gripped again.".to_owned());
            label = "cross slide, back from the touch".to_owned();
            figure = counted.to_string();
        }
        Step {
            title: "Set the tailstock over".to_owned(),
            say,
            label,
            figure,
            caution: None,
            done: "Set",
            cuts: false,
            ..Step::default()
        }
    }

    fn cut(&self) -> Step {
        let per = self.taper.per_mm();
        let mut say = vec!["Tool exactly at centre height. Guard down, chuck key out.".to_owned()];
        if let Some(spindle) = &self.spindle {
            say.insert(0, format!("Spindle stopped. {}", spindle.say()));
        }
        if self.set_over.is_some() {
            say.push("Feed along the bed. Light cuts.".to_owned());
        } else {
            say.push(
                "Lock the carriage. Feed with the compound; set the depth with the cross slide."
                    .to_owned(),
            );
        }
        if let Some(large) = self.large {
            say.push(format!(
                "Stop while the large end is a little over *Ø {}*.",
                self.long(large, 3)
            ));
        }
        let mut figure = String::new();
        let mut label = String::new();
        if let Some(dial) = self.cross {
            let (step, words) =
                if self.unit.is_inch() { (2.54, "0.1 in") } else { (1.0, "millimetre") };
            let lines = step * per / 2.0 / dial.travel_per_line().to_f64();
            figure = show::many(show::float_trimmed(lines, 2), "line", "lines");
            say.push(format!(
                "For each {words} that it still has to go into its gauge, the cross slide goes in by *{figure}*."
            ));
            label = format!("deeper, for each {words} along");
        }
        Step {
            title: "Cut, and try".to_owned(),
            say,
            label,
            figure,
            caution: Some(
                "Eyes covered, no gloves; stop before swarf is cleared or the gauge goes near.",
            ),
            done: "Cut",
            cuts: true,
            beat: self.spindle.as_ref().and_then(|spindle| match self.set_over {
                Some(_) => spindle.beat(self.carriage, "the carriage", self.length),
                None => spindle.beat(self.compound, "the compound slide", self.length),
            }),
            ..Step::default()
        }
    }

    fn check(&self) -> Step {
        let mut say = vec![
            "Spindle stopped. Wipe clean; three thin lines of blue along the cone.".to_owned(),
            "Try it in its gauge with a quarter turn: the blue should rub off along the whole length.".to_owned(),
            "Rubbed at the large end only, the taper is too steep; at the small end only, too slow.".to_owned(),
        ];
        let mut figure = String::new();
        if let Some(indicator) = &self.indicator {
            say.push(format!(
                "Or by the indicator on the carriage: over *{}* along the bed it changes by *{}*.",
                show::length_like(indicator.bed.travel_mm, self.unit),
                self.shown(indicator.bed.reading_mm)
            ));
            figure = self.shown(indicator.bed.reading_mm);
            if let Some(read) = &self.checked {
                let tangent = read.to_f64() / indicator.bed.travel_mm.to_f64();
                say.push(self.corrected(read, libm::atan(tangent).to_degrees()));
            }
        }
        if self.set_over.is_some() {
            say.push("Then set the tailstock back, and prove it with a test bar.".to_owned());
        }
        Step {
            title: "Check the taper".to_owned(),
            say,
            label: if figure.is_empty() {
                String::new()
            } else {
                "indicator along the bed".to_owned()
            },
            figure,
            caution: Some("The spindle stays stopped while a gauge or an indicator touches."),
            done: "Right",
            cuts: false,
            measures: self.indicator.as_ref().map(|_| "checked"),
            ..Step::default()
        }
    }

    /// The steps in order.
    fn stages(&self) -> Vec<Step> {
        let mut steps = Vec::new();
        match (self.set_over, &self.indicator) {
            (Some(over), _) => steps.push(self.over(over)),
            (None, Some(indicator)) => steps.extend([self.swing(), self.prove(indicator)]),
            (None, None) => steps.push(self.swing()),
        }
        steps.extend([self.cut(), self.check()]);
        steps
    }

    fn picture(&self) -> Option<Picture> {
        let part = |mm: f64| (mm, self.long(mm, 3));
        Some(Picture::Taper {
            large: part(self.large?),
            small: part(self.small?),
            length: part(self.length?),
            angle: self.half(),
            indicator: self.indicator.as_ref().filter(|indicator| !indicator.beyond).map(
                |indicator| {
                    let check = &indicator.bed;
                    let travel = show::length_like(check.travel_mm, self.unit);
                    let words = format!("{} over {travel}", self.shown(check.reading_mm));
                    (check.travel_mm.to_f64(), words)
                },
            ),
        })
    }
}

impl Worked for Tapered {
    fn json(&self) -> Vec<(String, Node)> {
        let mut pairs = vec![
            ("half_angle_deg".to_owned(), Node::from(self.taper.half_angle_deg())),
            ("included_deg".to_owned(), Node::from(self.taper.included_deg())),
            ("per_mm".to_owned(), Node::from(self.taper.per_mm())),
        ];
        if let Some(over) = self.set_over {
            pairs.push(("set_over_mm".to_owned(), Node::from(over)));
        }
        if let Some(indicator) = &self.indicator {
            let check = Node::Object(vec![
                ("travel_mm".to_owned(), Node::from(indicator.bed.travel_mm.to_f64())),
                ("reading_mm".to_owned(), Node::from(indicator.bed.reading_mm)),
            ]);
            pairs.push(("indicator".to_owned(), check));
        }
        if let Some(spindle) = &self.spindle {
            pairs.push(("spindle_rpm".to_owned(), Node::from(spindle.speed.rpm)));
        }
        pairs
    }

    fn card(&self) -> Card {
        let half = self.half();
        let mut lines = vec![line(&format!("compound *{half}* from parallel"))];
        let mut facts = Vec::new();
        if let Some(over) = self.set_over {
            lines.insert(0, line(&format!("tailstock over *{}*", self.long(over, 3))));
            if let Some(reading) = self.set_over_reading() {
                facts.push(Fact::new("over, on the cross slide", reading.counted().words()));
            }
        }
        facts.push(Fact::new("included", angle(self.taper.included_deg())));
        let one_in = show::float_trimmed(1.0 / self.taper.per_mm(), 3);
        facts.push(Fact::new("taper", format!("1 in {one_in}")));
        facts.push(Fact::new("scale with nought across", angle(self.taper.across_scale_deg())));
        let mut verdict = self.scale_error(SCALE_DEG).map(|error| {
            (
                Tone::Note,
                format!("by the scale alone up to {} out on the diameter", self.long(error, 2)),
            )
        });
        if let Some(indicator) = &self.indicator {
            let travel = show::length_like(indicator.bed.travel_mm, self.unit);
            facts.push(Fact::new(
                format!("indicator over {travel} of bed"),
                self.shown(indicator.bed.reading_mm),
            ));
            facts.push(Fact::new(
                format!("over {travel} of compound, on a cylinder"),
                self.shown(indicator.compound.reading_mm),
            ));
            if indicator.beyond {
                verdict =
                    Some((Tone::Mind, "the indicator's plunger doesn't go that far".to_owned()));
            }
        }
        if let Some(spindle) = &self.spindle {
            facts.push(Fact::new("speed, at the large end", spindle.words()));
            verdict = spindle.trouble().filter(|(tone, _)| *tone == Tone::Mind).or(verdict);
        }
        if let (Some(small), None) = (self.small, self.named.filter(|_| self.large.is_none())) {
            facts.push(Fact::new("small end", format!("Ø {}", self.long(small, 3))));
        }
        Card { lines, verdict, facts, picture: self.picture(), ..Card::default() }
    }

    fn steps(&self) -> usize {
        match (self.set_over, &self.indicator) {
            (None, Some(_)) => 4,
            _ => 3,
        }
    }

    fn step(&self, at: usize) -> Option<Step> {
        self.stages().into_iter().nth(at)
    }
}
