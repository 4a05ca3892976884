//! What a fit comes to: the limits, what is left to take off, and the steps at the machine.

use super::super::ready::Kit;
use super::super::{Card, Fact, Picture, Step, Tone, Worked, Zone, line};
use crate::exact::Ratio;
use crate::fits::{self, Fit, FitKind, FitWords};
use crate::procedure::{
    self, Action, CutterStands, Instrument, Joining, Length, Measured, Running, Statement, StepId,
    Tended, WaitFor,
};
use crate::quantity::{MM_PER_INCH, Quantity, show};
use crate::record::Node;
use crate::shop::{Dial, Reading};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec;
use alloc::vec::Vec;

/// A fit at a size, and how far there is still to go.
#[derive(Clone, Debug)]
pub struct Fitted {
    pub(super) basic: Quantity,
    pub(super) fit: Fit,
    pub(super) words: Option<&'static FitWords>,
    pub(super) hole: [Ratio; 2],
    pub(super) shaft: [Ratio; 2],
    pub(super) dial: Option<Dial>,
    pub(super) left: Option<Left>,
    /// The hole and the shaft as each was measured in the making.
    pub(super) made: [Option<Left>; 2],
    /// The shaft's limits for a hole that isn't to size.
    pub(super) to_hole: Option<[Ratio; 2]>,
    pub(super) rise_c: Option<f64>,
}

/// What is left to take off one part.
#[derive(Clone, Debug)]
pub(super) struct Left {
    pub(super) hole: bool,
    pub(super) measured: Quantity,
    /// On the diameter, to the middle of the zone, mm; nothing or less where it is there already.
    pub(super) to_middle: Ratio,
    pub(super) reading: Option<Reading>,
    pub(super) past: bool,
    pub(super) within: bool,
}

impl Fitted {
    fn inch(&self) -> bool {
        self.basic.unit().is_inch()
    }

    /// A size to the last place that a micrometer shows, without its unit.
    fn bare(&self, mm: Ratio) -> String {
        if self.inch() {
            return mm.div(MM_PER_INCH).map_or_else(|_| show::mm(mm), |inch| show::fixed(inch, 4));
        }
        show::fixed(mm, 3)
    }

    /// What was measured: as it was entered, in the drawing's system where that is the other one.
    fn measured(&self, measured: &Quantity) -> String {
        if measured.unit().is_inch() == self.inch() {
            return measured.text().to_owned();
        }
        format!("{} {}", self.bare(measured.value()), self.unit())
    }

    /// The slack to be found when the two are put together, least and most: of what each was measured
    /// to be once it was made, and of the limits of what wasn't yet.
    fn expected(&self) -> [Ratio; 2] {
        let made = |left: &Option<Left>, limits: [Ratio; 2]| match left {
            Some(left) if left.past || left.within => {
                let now = left.measured.value();
                [now, now]
            }
            _ => limits,
        };
        let [made_hole, made_shaft] = &self.made;
        let [small, large] = made(made_hole, self.hole);
        let [thin, thick] = made(made_shaft, self.to_hole.unwrap_or(self.shaft));
        match (small.sub(thick), large.sub(thin)) {
            (Ok(least), Ok(most)) => [least, most],
            _ => self.fit.clearance_mm,
        }
    }

    fn unit(&self) -> &'static str {
        if self.inch() { "in" } else { "mm" }
    }

    fn range(&self, [low, high]: [Ratio; 2]) -> String {
        format!("*{}* to *{}* {}", self.bare(low), self.bare(high), self.unit())
    }

    fn plain(&self, limits: [Ratio; 2]) -> String {
        self.range(limits).replace('*', "")
    }

    /// The slack or the squeeze in words.
    fn slack(&self, [least, most]: [Ratio; 2]) -> String {
        let unit = self.unit();
        let size = |mm: Ratio| self.bare(mm.abs());
        let what = |mm: Ratio| if mm.is_negative() { "squeeze" } else { "slack" };
        if least == most {
            return format!("{} {unit} of {}", size(least), what(least));
        }
        if !least.is_negative() {
            format!("{} to {} {unit} of slack", size(least), size(most))
        } else if !most.is_positive() {
            format!("{} to {} {unit} of squeeze", size(most), size(least))
        } else {
            format!("from {} {unit} of squeeze to {} of slack", size(least), size(most))
        }
    }

    /// How many lines of the dial a zone is, on the diameter.
    fn lines(&self, [low, high]: [Ratio; 2]) -> Option<Ratio> {
        let line = self.dial?.travel_per_line().mul(Ratio::whole(2)).ok()?;
        high.sub(low).ok()?.div(line).ok()
    }

    fn heat(&self) -> Option<String> {
        self.rise_c.map(|rise| format!("{} °C", show::float(rise, 0)))
    }

    /// One part measured, and what its last cut comes to.
    fn part(&self, hole: bool) -> Step {
        let (name, limits) = if hole { ("hole", self.hole) } else { ("shaft", self.shaft) };
        let limits = self.to_hole.filter(|_| !hole).unwrap_or(limits);
        let mut say = vec![format!("The {name} is to be {}.", self.plain(limits))];
        let [made_hole, made_shaft] = &self.made;
        if let (false, Some(made), Some(_)) = (hole, made_hole, self.to_hole) {
            say.push(format!(
                "That is by the hole of {}, for the same slack.",
                self.measured(&made.measured)
            ));
        }
        let made = if hole { made_hole } else { made_shaft };
        let entered = self.left.as_ref().filter(|left| left.hole == hole);
        let left = made.as_ref().or(entered);
        let mut label = "limits".to_owned();
        let mut figure = self.plain(limits);
        match left {
            Some(left) if left.within => {
                say.push(format!(
                    "It measures {}: within its limits.",
                    self.measured(&left.measured)
                ));
            }
            Some(left) if left.past => {
                say.push(format!(
                    "It measures {}, past its size: no cut brings that back.",
                    self.measured(&left.measured)
                ));
            }
            Some(left) => {
                if let Some(reading) = &left.reading {
                    let direction = if hole { "out" } else { "in" };
                    label = format!(
                        "cross slide, {direction} from a touch where it measures {}",
                        self.measured(&left.measured)
                    );
                    let by_eye =
                        reading.by_eye().map_or_else(String::new, |eye| format!(", {eye}"));
                    figure = format!("{}{by_eye}", reading.set().replace('*', ""));
                }
            }
            None => {}
        }
        if !hole && self.to_hole.is_none() {
            say.push(
                "A hole that isn't quite to size: keep the slack, and make the shaft to it."
                    .to_owned(),
            );
        }
        let [low, high] = limits;
        let middle = low.add(high).and_then(|sum| sum.div(Ratio::whole(2))).ok();
        let mut actions = if hole { Kit::safe() } else { Vec::new() };
        actions.extend([
            Action::Look(Statement::Spindle {
                of: procedure::Spindle::Lathe,
                is: Running::Stopped,
            }),
            Action::Look(Statement::Cutter { is: CutterStands::Clear, off: None }),
            Action::Wait { until: WaitFor::Cool },
            Action::Deburr { what: Tended::Edges },
            Action::Clean { what: Tended::Work },
            Action::Measure {
                what: if hole { Measured::Bore } else { Measured::Diameter },
                with: if hole { Instrument::Plug } else { Instrument::Micrometer },
                should_be: middle.map(|middle| Length::like(middle, self.basic.unit())),
                up_to: None,
                is: left.map(|left| Length::like(left.measured.value(), self.basic.unit())),
                fills: Some(if hole { "hole_measures" } else { "shaft_measures" }.to_owned()),
            },
        ]);
        Step {
            id: StepId::new(name, 1),
            title: format!("Make the {name}"),
            actions,
            say,
            label,
            figure,
            done: "To size",
            cuts: true,
            measures: Some(if hole { "hole_measures" } else { "shaft_measures" }),
            ..Step::default()
        }
    }

    fn together(&self) -> Step {
        let how = match (self.fit.kind, self.rise_c) {
            (FitKind::Interference, Some(_)) => Joining::Shrunk,
            (FitKind::Interference, None) => Joining::Pressed,
            (FitKind::Transition, _) => Joining::Tapped,
            (FitKind::Clearance, _) => Joining::ByHand,
        };
        let mut actions = Vec::from([
            Action::Deburr { what: Tended::Edges },
            Action::Clean { what: Tended::Work },
        ]);
        if how != Joining::Shrunk {
            actions.push(Action::Oil { what: Tended::Work });
        }
        let warmer = self.rise_c.and_then(|rise| show::near(rise, 0)).map(procedure::Number);
        actions.push(Action::Join { how, warmer });
        if how == Joining::Shrunk {
            actions.push(Action::Wait { until: WaitFor::Cool });
        }
        Step {
            id: StepId::new("join", 1),
            title: "Put together".to_owned(),
            actions,
            say: vec![format!("Expect {}.", self.slack(self.expected()))],
            label: self.heat().map_or("", |_| "outer part warmer by").to_owned(),
            figure: self.heat().unwrap_or_default(),
            done: "Done",
            ..Step::default()
        }
    }
}

impl Worked for Fitted {
    fn json(&self) -> Vec<(String, Node)> {
        let pair = |limits: [Ratio; 2]| Node::from(limits.map(Ratio::to_f64).to_vec());
        let mut pairs = vec![
            ("hole_mm".to_owned(), pair(self.hole)),
            ("shaft_mm".to_owned(), pair(self.shaft)),
            ("clearance_mm".to_owned(), pair(self.fit.clearance_mm)),
        ];
        let expected = self.expected();
        if expected != self.fit.clearance_mm {
            pairs.push(("expected_clearance_mm".to_owned(), pair(expected)));
        }
        if let Some(reading) = self.left.as_ref().and_then(|left| left.reading) {
            pairs.push(("dial".to_owned(), Node::from(reading.words())));
        }
        if let Some(rise) = self.rise_c {
            pairs.push(("rise_c".to_owned(), Node::from(rise)));
        }
        pairs
    }

    fn card(&self) -> Card {
        let tone = if self.fit.kind == FitKind::Clearance { Tone::Good } else { Tone::Note };
        let mut verdict = (tone, self.slack(self.fit.clearance_mm));
        let mut facts = Vec::new();
        if let Some(words) = self.words {
            facts.push(Fact::new("in words", words.words));
            facts.push(Fact::new("for", words.use_for));
        }
        facts.push(Fact::new("code", format!("{}/{}", self.fit.hole_class, self.fit.shaft_class)));
        if let Some(left) = &self.left {
            let name = if left.hole { "hole" } else { "shaft" };
            let direction = if left.hole { "out" } else { "in" };
            if left.past {
                verdict = (Tone::Mind, format!("the {name} is past its size already"));
            } else if left.within {
                facts.push(Fact::new(name, "within its limits now"));
            } else if let Some(reading) = &left.reading {
                let label = format!("{name}: cross slide {direction}");
                facts.push(Fact::new(label, reading.counted().as_set()));
            } else {
                facts.push(Fact::new(
                    format!("{name}: still to go, on the diameter"),
                    format!("{} {}", self.bare(left.to_middle), self.unit()),
                ));
            }
        }
        let zone =
            if self.left.as_ref().is_some_and(|left| left.hole) { self.hole } else { self.shaft };
        if let Some(lines) = self.lines(zone) {
            let words = if zone == self.hole { "the hole's limits" } else { "the shaft's limits" };
            facts.push(Fact::new(
                words,
                format!("{} of a line of the cross slide", show::trimmed(lines, 2)),
            ));
        }
        if let Some(heat) = self.heat() {
            facts.push(Fact::new("outer part warmer by", heat));
        }
        Card {
            lines: vec![
                line(&format!("hole {}", self.range(self.hole))),
                line(&format!("shaft {}", self.range(self.shaft))),
            ],
            verdict: Some(verdict),
            facts,
            picture: Some(self.picture()),
            ..Card::default()
        }
    }

    fn steps(&self) -> usize {
        3
    }

    fn step(&self, at: usize) -> Option<Step> {
        Some(match at {
            0 => self.part(true),
            1 => self.part(false),
            _ => self.together(),
        })
    }
}

impl Fitted {
    fn picture(&self) -> Picture {
        let um = |mm: Ratio| mm.to_f64() * 1000.0;
        let zone = |name: String, deviations: fits::Zone, limits: [Ratio; 2]| Zone {
            name,
            deviation_um: (um(deviations.low_mm), um(deviations.high_mm)),
            // The basic size beside them has the unit.
            limits: limits.map(|limit| self.bare(limit)),
        };
        Picture::FitZones {
            hole: zone(format!("hole {}", self.fit.hole_class), self.fit.hole, self.hole),
            shaft: zone(format!("shaft {}", self.fit.shaft_class), self.fit.shaft, self.shaft),
            basic: self.basic.text().to_string(),
        }
    }
}
