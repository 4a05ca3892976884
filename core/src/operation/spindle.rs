//! The machine's own speed for a cut, and where the figure comes from.

use super::{Beat, Tone, Why};
use crate::cutting::{
    self, CutterMaterial, CuttingError, FeedUnit, Process, Stock, SurfaceSpeed, Verdict,
};
use crate::exact::Ratio;
use crate::quantity::show;
use crate::record::Record;
use crate::shop::{Dial, Shop, Speed};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// A speed of this machine.
#[derive(Clone, Debug)]
pub(super) struct Spindle {
    /// It, and the machine's own word for it.
    pub(super) speed: Speed,
    /// How it stands to what is published.
    pub(super) verdict: Verdict,
    /// The feed advised, mm a turn.
    pub(super) feed: Option<f64>,
    /// The most that the book advises, mm a turn.
    pub(super) most: Option<f64>,
}

impl Spindle {
    /// The feed advised, mm/min.
    pub(super) fn feed_mm_per_min(&self) -> Option<f64> {
        Some(self.feed? * f64::from(self.speed.rpm))
    }

    /// That feed as a hand's beat on a slide; `length_mm` is how far it feeds.
    pub(super) fn beat(
        &self,
        dial: Option<Dial>,
        of: &'static str,
        length_mm: Option<f64>,
    ) -> Option<Beat> {
        let most = self.most? * f64::from(self.speed.rpm);
        let travel = dial?.travel_per_turn()?;
        let beat = cutting::hand_feed(self.feed_mm_per_min()?, most, travel).ok()?;
        Some(Beat::new(&beat, of, length_mm))
    }

    /// `320 rpm, back gear, belt 1`.
    pub(super) fn words(&self) -> String {
        match &self.speed.how {
            Some(how) => format!("{} rpm, {how}", self.speed.rpm),
            None => format!("{} rpm", self.speed.rpm),
        }
    }

    /// What is wrong with it, if anything, in a short phrase.
    pub(super) fn trouble(&self) -> Option<(Tone, String)> {
        Some(match self.verdict {
            Verdict::Within | Verdict::Near { .. } | Verdict::Between { .. } => return None,
            Verdict::OtherBook { wants } => {
                (Tone::Note, format!("over {wants} rpm, within what another book allows"))
            }
            Verdict::MachineTooSlow { wants, .. } => {
                (Tone::Note, format!("slow: {wants} rpm or more would suit, feed gently"))
            }
            Verdict::MachineTooFast { wants, .. } => {
                (Tone::Mind, format!("too fast for the edge: it wants {wants} rpm or less"))
            }
        })
    }

    /// The sentence that sets it.
    pub(super) fn say(&self) -> String {
        match &self.speed.how {
            Some(how) => format!("Set *{} rpm*: {how}.", self.speed.rpm),
            None => format!("Set *{} rpm*.", self.speed.rpm),
        }
    }
}

/// The machine's speeds, slowest first, also as the calculations take them.
pub(super) fn owned(shop: &Shop) -> (Vec<Speed>, Vec<f64>) {
    let speeds = shop.speeds();
    let rpm = speeds.iter().map(|speed| f64::from(speed.rpm)).collect();
    (speeds, rpm)
}

/// What a cut asks of the spindle.
pub(super) struct Job {
    pub(super) stock: Stock,
    pub(super) process: Process,
    pub(super) cutter: CutterMaterial,
    pub(super) diameter_mm: Ratio,
}

impl Job {
    /// The machine's speed for it, where it has any, and how the figure came about.
    pub(super) fn on(&self, shop: &Shop) -> Result<(Option<Spindle>, Option<Why>), CuttingError> {
        self.within(None, shop)
    }

    /// The same from speeds no faster than `most`, turns a minute.
    pub(super) fn within(
        &self,
        most: Option<u32>,
        shop: &Shop,
    ) -> Result<(Option<Spindle>, Option<Why>), CuttingError> {
        let (mut speeds, mut rpm) = owned(shop);
        if let Some(most) = most {
            speeds.retain(|speed| speed.rpm <= most);
            rpm.retain(|rpm| *rpm <= f64::from(most));
        }
        let cut = cutting::cut(self.stock, self.process, self.cutter, self.diameter_mm, 2, &rpm)?;
        let why = cut.speeds.first().map(|speed| why(speed, self.diameter_mm));
        Ok((spindle(&cut, &speeds), why))
    }
}

/// The speed that a worked-out cut runs at.
pub(super) fn spindle(cut: &cutting::Cut, speeds: &[Speed]) -> Option<Spindle> {
    let pick = cut.spindle?;
    let feed = cut.feeds.first().filter(|feed| feed.unit == FeedUnit::PerTurn);
    Some(Spindle {
        speed: speeds.get(pick.index)?.clone(),
        verdict: pick.verdict,
        feed: feed.map(|feed| feed.low),
        most: feed.map(|feed| feed.high),
    })
}

/// From a published surface speed to turns a minute.
pub(super) fn why(speed: &SurfaceSpeed, diameter_mm: Ratio) -> Why {
    let range = |low: f64, high: f64, places| {
        let (low, high) = (show::float_trimmed(low, places), show::float_trimmed(high, places));
        if low == high { low } else { format!("{low} to {high}") }
    };
    let rpm = cutting::rpm_range(speed, diameter_mm)
        .map_or_else(|_| String::new(), |rpm| format!(" = {} rpm", range(rpm.low, rpm.high, 0)));
    let mut source = speed.source.to_string();
    for rule in speed.rules.iter().flatten() {
        source.push_str("; ");
        if (rule.low, rule.high) != (1.0, 1.0) {
            source.push_str("× ");
            source.push_str(&range(rule.low, rule.high, 2));
            source.push(' ');
        }
        source.push_str(rule.source);
    }
    Why::new(
        "n = 1000 v / (π d)",
        format!(
            "1000 × {} m/min / (π × {}){rpm}",
            range(speed.low, speed.high, 1),
            show::mm(diameter_mm)
        ),
        source,
    )
}

/// What is entered as being cut.
pub(super) fn stock(entries: &Record) -> Option<Stock> {
    Stock::from_id(entries.choice("stock")?)
}

/// What a cutter of the shop is made of; high-speed steel where nothing says otherwise.
pub(super) fn made_of(form: Option<&Record>) -> CutterMaterial {
    form.and_then(|form| form.choice("material"))
        .and_then(CutterMaterial::from_id)
        .unwrap_or(CutterMaterial::Hss)
}
