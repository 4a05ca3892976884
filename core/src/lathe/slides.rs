//! A slide: where it stands, its nought, its slack.

use crate::exact::Ratio;
use crate::procedure::{Reading, Slide, Toward};
use crate::shop::{Dial, Shop};

/// Lost motion of a slide whose dial doesn't say, mm: a worn screw's. Common practice, no source.
const SLACK: f64 = 0.1;

/// A slide.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Sled {
    /// Where it stands, mm from where it was found, growing out, toward the tailstock, up.
    pub(super) at: f64,
    /// Where its nought is.
    pub(super) zero: Option<f64>,
    /// Which way it came to its nought; 0 where that isn't known.
    pub(super) zero_way: f64,
    /// Which way it moved last; 0 where that isn't known.
    pub(super) way: f64,
    /// It was touched since the cutter or the work was mounted.
    pub(super) touched: bool,
    /// Its dial doesn't read true: it came from the other side.
    pub(super) stale: bool,
    least: f64,
    most: f64,
    dial: Option<Dial>,
}

impl Sled {
    pub(super) fn new(shop: &Shop, name: &str) -> Sled {
        let dial = shop.dial(name);
        Sled {
            at: 0.0,
            zero: None,
            zero_way: 0.0,
            way: 0.0,
            touched: false,
            stale: false,
            least: 0.0,
            most: 0.0,
            dial,
        }
    }

    /// How far a reading is from nought, mm of the slide; none without a dial.
    pub(super) fn length(&self, reading: &Reading) -> Option<f64> {
        let dial = self.dial?;
        let lines = match dial.divisions {
            Some(all) => reading.turns.saturating_mul(u64::from(all)),
            None => 0,
        };
        let lines = lines.saturating_add(reading.lines) as f64;
        let beyond = reading.beyond.map_or(0.0, |part| part.0.to_f64());
        Some((lines + beyond) * dial.travel_per_line().to_f64())
    }

    /// The same, exactly; what is beyond a line with it.
    pub(super) fn exact(&self, reading: &Reading) -> Option<Ratio> {
        let dial = self.dial?;
        let all = Ratio::from(dial.divisions.unwrap_or(0));
        let turns = Ratio::new(i128::from(reading.turns), 1).and_then(|n| n.mul(all)).ok()?;
        let lines = Ratio::new(i128::from(reading.lines), 1).and_then(|n| n.add(turns)).ok()?;
        let beyond = reading.beyond.map_or(Ratio::ZERO, |part| part.0);
        lines.add(beyond).and_then(|lines| lines.mul(dial.travel_per_line())).ok()
    }

    /// The mark that a reading must have at the index; none where any will do.
    pub(super) fn mark_is_false(&self, reading: &Reading) -> bool {
        let (Some(mark), Some(all)) = (reading.mark, self.dial.and_then(|d| d.divisions)) else {
            return false;
        };
        let all = u64::from(all);
        let lines = reading.lines.checked_rem(all).unwrap_or(0);
        let other = all.saturating_sub(lines).checked_rem(all).unwrap_or(0);
        mark != lines && mark != other
    }

    /// What a line of its dial moves it by, mm.
    pub(super) fn line(&self) -> Option<f64> {
        Some(self.dial?.travel_per_line().to_f64())
    }

    /// Travel for one turn of its handwheel, mm.
    pub(super) fn each_turn(&self) -> Option<f64> {
        self.dial?.travel_per_turn().map(crate::exact::Ratio::to_f64)
    }

    pub(super) fn slack(&self) -> f64 {
        self.dial.and_then(|dial| dial.backlash).map_or(SLACK, crate::exact::Ratio::to_f64)
    }

    /// Moves it; whether it stays within its travel.
    pub(super) fn go(&mut self, to: f64) -> bool {
        self.at = to;
        self.least = f64::min(self.least, to);
        self.most = f64::max(self.most, to);
        let travel = self.dial.and_then(|dial| dial.travel);
        travel.is_none_or(|travel| self.most - self.least <= travel.to_f64() + super::SAME)
    }
}

/// Which way a slide goes: more or less of its coordinate. None where it can't go that way.
pub(super) const fn way(slide: Slide, toward: Toward) -> Option<f64> {
    match (slide, toward) {
        (Slide::Cross | Slide::Compound, Toward::Out)
        | (Slide::Carriage | Slide::Quill, Toward::Tailstock)
        | (Slide::Vertical, Toward::Up) => Some(1.0),
        (Slide::Cross | Slide::Compound, Toward::In)
        | (Slide::Carriage | Slide::Quill, Toward::Headstock)
        | (Slide::Vertical, Toward::Down) => Some(-1.0),
        _ => None,
    }
}
