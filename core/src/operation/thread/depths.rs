//! How deep each pass goes, and what it is read on.

use super::answer::Thread;
use super::cut::Cut;
use crate::exact::Ratio;
use crate::operation::ready::Kit;
use crate::procedure::{self, Action, Gauge, Length, Slide, Toward};
use crate::quantity::{Unit, show};
use crate::shop::{Dial, Shop};
use crate::threads::{Count, Feed, Plan, Sharing, Side, passes};
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Where no form is known a mate is first tried at so much of the pitch: no common form is shallower (stub
/// Acme, ASME B1.8), mm for each of pitch.
const UNKNOWN: Ratio = Ratio::of(3, 10);
/// What is read on an indicator, and on a rule, to the nearest, mm. Common practice, no source.
const INDICATOR: Ratio = Ratio::of(1, 100);
const RULE: Ratio = Ratio::of(1, 20);

/// The depths of the passes, in lines.
#[derive(Clone, Debug)]
pub(super) struct Depths {
    pub(super) slide: Slide,
    pub(super) on: Gauge,
    dial: Option<Dial>,
    /// The slide's travel for a line, mm.
    line: Ratio,
    /// Whether the numbers run down as the tool goes deeper.
    backwards: bool,
    /// Lines from the touch, pass by pass.
    pub(super) lines: Vec<u32>,
    /// How far aside the tool stands, toward the headstock, mm.
    pub(super) asides: Vec<f64>,
    pub(super) alternating: bool,
    /// How far the compound is set over, degrees from lying across.
    pub(super) degrees: Option<f64>,
    /// How many are cut before a mate is first tried.
    pub(super) before_mate: usize,
    pub(super) springs: u32,
    /// The compound's own dial, and what it is read on.
    compound: Option<Dial>,
    pub(super) compound_on: Gauge,
}

impl Depths {
    pub(super) fn of(thread: &Thread, springs: u32, kit: Kit, shop: &Shop) -> Depths {
        let compound = shop.dial("compound");
        let compound_on = kit.gauge(compound.is_some());
        if let Some(Ok(cut)) = &thread.cut {
            return Depths::cut(cut, compound, compound_on);
        }
        let dial = shop.dial("cross");
        let on = kit.gauge(dial.is_some());
        let line = match (&dial, on) {
            (Some(dial), _) => dial.travel_per_line(),
            (None, Gauge::Indicator) => INDICATOR,
            _ => RULE,
        };
        let pitch = thread.wanted.thread.pitch.mm().unwrap_or(Ratio::ONE);
        let depth = match &thread.sizes {
            Some(sizes) => sizes.depth,
            None => pitch.mul(UNKNOWN).unwrap_or(pitch),
        };
        let sharing = thread
            .sizes
            .as_ref()
            .map_or(Sharing::Area, |sizes| super::cut::chips(sizes, &thread.wanted));
        let plan = Plan {
            depth,
            feed: Feed::Straight,
            sharing,
            count: Count::Passes(super::cut::count_for(pitch, depth, sharing)),
            least_cut: super::cut::LEAST_CUT,
            springs: 0,
        };
        let found = passes(&plan, line).map(|found| found.passes).unwrap_or_default();
        let inside = thread.wanted.side == Side::Inside;
        let lines: Vec<u32> = found.iter().map(|pass| pass.lines).collect();
        let lines = if lines.is_empty() { Vec::from([1]) } else { lines };
        Depths {
            slide: Slide::Cross,
            on,
            dial,
            line,
            backwards: inside != dial.is_some_and(|dial| dial.grows == Some("outwards")),
            before_mate: lines.len(),
            asides: Vec::new(),
            lines,
            alternating: false,
            degrees: None,
            springs,
            compound,
            compound_on,
        }
    }

    fn cut(cut: &Cut, compound: Option<Dial>, compound_on: Gauge) -> Depths {
        let flank = cut.compound_deg.is_some();
        Depths {
            slide: if flank { Slide::Compound } else { Slide::Cross },
            on: Gauge::Dial,
            dial: Some(cut.dial),
            line: cut.dial.travel_per_line(),
            backwards: cut.backwards,
            lines: cut.passes.passes.iter().map(|pass| pass.lines).collect(),
            asides: cut.passes.passes.iter().map(|pass| pass.aside_mm).collect(),
            alternating: cut.alternating,
            degrees: cut.compound_deg,
            before_mate: cut.before_the_nut(),
            springs: cut.springs,
            compound,
            compound_on,
        }
    }

    /// Radial travel of a line, mm.
    fn across(&self) -> f64 {
        self.line.to_f64() * self.degrees.map_or(1.0, |degrees| libm::cos(degrees.to_radians()))
    }

    /// The farthest that the compound takes the tool on along the work, mm.
    pub(super) fn aside_most(&self) -> f64 {
        match self.degrees {
            Some(degrees) => self.deepest() * libm::tan(degrees.to_radians()),
            None => self.asides.iter().fold(0.0, |most, aside| f64::max(most, aside.abs())),
        }
    }

    /// How deep so many lines go, mm.
    pub(super) fn so_deep(&self, lines: u32) -> f64 {
        f64::from(lines) * self.across()
    }

    /// The whole depth, mm.
    pub(super) fn deepest(&self) -> f64 {
        self.so_deep(self.lines.last().copied().unwrap_or(0))
    }

    /// The most that a pass goes deeper, mm.
    pub(super) fn largest(&self) -> f64 {
        let before = core::iter::once(0).chain(self.lines.iter().copied());
        let steps = before.zip(&self.lines).map(|(a, b)| b.saturating_sub(a)).max();
        f64::from(steps.unwrap_or(0)) * self.across()
    }

    /// The slide brought so many lines deeper than the touch.
    pub(super) fn wind(&self, lines: u32, deeper: Toward, unit: Unit) -> Action {
        self.wound(self.slide, lines, deeper, unit)
    }

    fn wound(&self, slide: Slide, lines: u32, deeper: Toward, unit: Unit) -> Action {
        let reading = self.dial.and_then(|dial| dial.after(lines.into(), self.backwards));
        let by = self.line.mul(Ratio::from(lines)).unwrap_or(self.line);
        Action::Wind {
            slide,
            by: reading.is_none().then(|| Length::like(by, unit)),
            to: reading.map(procedure::Reading::from),
            toward: deeper,
            from: deeper.opposite(),
            on: self.on,
        }
    }

    /// The cross slide back to its nought.
    pub(super) fn to_nought(
        &self,
        deeper: Toward,
        unit: Unit,
        cross: Option<Dial>,
        on: Gauge,
    ) -> Action {
        let reading = cross.and_then(|dial| dial.after(0, false)).map(procedure::Reading::from);
        Action::Wind {
            slide: Slide::Cross,
            by: reading.is_none().then(|| Length::like(Ratio::ZERO, unit)),
            to: reading,
            toward: deeper,
            from: deeper.opposite(),
            on,
        }
    }

    /// The compound, parallel to the work, so far from its nought toward the headstock.
    pub(super) fn aside(&self, mm: Ratio, unit: Unit) -> Action {
        let back = self.compound.is_some_and(|dial| dial.grows == Some("outwards"));
        let toward = if mm.is_negative() { Toward::Out } else { Toward::In };
        let reading = self.compound.and_then(|dial| {
            let near = dial.reading(mm.abs())?;
            let counted = near.turns.saturating_mul(dial.divisions.map_or(0, u64::from));
            let again = dial.after(counted.saturating_add(near.lines), back != mm.is_negative())?;
            Some(crate::shop::Reading { left_over: near.left_over, ..again })
        });
        Action::Wind {
            slide: Slide::Compound,
            by: reading.is_none().then(|| Length::like(mm.abs(), unit)),
            to: reading.map(procedure::Reading::from),
            toward,
            from: Toward::Out,
            on: self.compound_on,
        }
    }

    /// What is called and read from two metres for a pass.
    pub(super) fn shown(&self, lines: u32, unit: Unit) -> (String, String) {
        let slide = if self.slide == Slide::Compound { "compound" } else { "cross" };
        let label = match self.on {
            Gauge::Dial => alloc::format!("{slide} dial"),
            _ => alloc::format!("{slide} slide"),
        };
        let by = self.line.mul(Ratio::from(lines)).unwrap_or(self.line);
        let figure = match self.dial {
            Some(dial) => {
                let reading = dial.after(lines.into(), self.backwards);
                reading.map_or_else(|| lines.to_string(), |reading| reading.stands())
            }
            None => show::length_like(by, unit),
        };
        (label, figure)
    }
}
