//! What a taper comes to: the slide or the tailstock, the check, and the steps at the machine.

use super::super::passes::Pass;
use super::super::ready::Kit;
use super::super::spindle::Spindle;
use super::super::{Card, Fact, Picture, Step, Tone, Worked, line};
use crate::exact::Ratio;
use crate::procedure::Length;
use crate::quantity::{MM_PER_INCH, Quantity, Unit, show};
use crate::record::Node;
use crate::shop::{Dial, Reading};
use crate::tapers::{Check, NamedTaper, Taper};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
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
    /// Whether an indicator is owned.
    pub(super) owned: bool,
    /// The same where one is owned, over what its plunger can follow.
    pub(super) proof: Option<Indicator>,
    /// What the indicator moved by on a cylinder.
    pub(super) proved: Option<Quantity>,
    /// What it changed by along the cone.
    pub(super) checked: Option<Quantity>,
    pub(super) cross: Option<Dial>,
    pub(super) compound: Option<Dial>,
    pub(super) carriage: Option<Dial>,
    /// The speed where nothing says what is cut.
    pub(super) cautious: Option<Spindle>,
    /// The speed for the large end.
    pub(super) spindle: Option<Spindle>,
    /// The passes, where it is known what is taken off; each leaves a cone that is shorter than the last.
    pub(super) passes: Vec<Pass>,
    pub(super) kit: Kit,
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

    pub(super) fn half(&self) -> String {
        angle(self.taper.half_angle_deg())
    }

    pub(super) fn set_over_reading(&self) -> Option<Reading> {
        self.cross?.reading_towards(false, show::near(self.set_over?, 4)?)
    }

    /// How much the diameter may be out over the length by the scale alone.
    pub(super) fn scale_error(&self, off_deg: f64) -> Option<f64> {
        let length = show::near(self.length?, 6)?;
        Some(self.taper.diameter_error_mm(off_deg, length).abs())
    }

    /// The nearest quarter of a degree, and how much it is out by.
    pub(super) fn quarter(&self) -> (f64, f64) {
        let half = self.taper.half_angle_deg();
        let quarter = libm::round(half * 4.0) / 4.0;
        (quarter, quarter - half)
    }

    /// What the indicator should say, to a tenth of its line.
    pub(super) fn shown(&self, reading_mm: f64) -> String {
        let division = self.indicator.as_ref().and_then(|indicator| indicator.division.as_ref());
        let inch = division.map_or(self.unit.is_inch(), |division| division.unit().is_inch());
        if inch {
            format!("{} thou", show::float_trimmed(reading_mm / 0.0254, 1))
        } else {
            format!("{} mm", show::float(reading_mm, 3))
        }
    }

    /// Half of the included angle in degrees, to a thousand-millionth.
    pub(super) fn half_exact(&self) -> Ratio {
        show::near(self.taper.half_angle_deg(), 9).unwrap_or(Ratio::ZERO)
    }

    /// Whether the tailstock is set over farther than plain centres bear: about 2 % of the length between
    /// centres (workshop practice, from memory).
    pub(super) fn wants_balls(&self) -> bool {
        let far = self.between.as_ref().map(|between| between.to_f64() / 50.0);
        self.set_over.zip(far).is_some_and(|(over, far)| over > far)
    }

    /// What the indicator should move by, in the system of its lines.
    pub(super) fn read(&self, mm: f64) -> Length {
        let division = self.indicator.as_ref().and_then(|indicator| indicator.division.as_ref());
        let inch = division.map_or(self.unit.is_inch(), |division| division.unit().is_inch());
        let unit = if inch { Unit::Thou } else { Unit::Mm };
        Length::near(mm, unit).unwrap_or_else(|| Length::mm(Ratio::ZERO))
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
        self.count()
    }

    fn step(&self, at: usize) -> Option<Step> {
        self.at(at)
    }
}
