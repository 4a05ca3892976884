//! One cut worked out: whose sizes count, which speed is taken, which slide feeds.

use super::super::feeding::{PowerFeed, Time, power_feed};
use super::load::Load;
use super::why;
use crate::cutting::{
    self, Beat, CutterMaterial, FeedUnit, Process, SpindlePick, Stock, SurfaceSpeed,
    feed_per_minute,
};
use crate::exact::Ratio;
use crate::operation::{Answer, Found, Lacking};
use crate::quantity::{Measure, Quantity, Unit, show};
use crate::record::Record;
use crate::shop::{Shop, Speed};
use alloc::boxed::Box;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// What a cut comes to in this shop.
#[derive(Clone, Debug)]
pub struct Cut {
    pub(super) process: Process,
    pub(super) stock: Stock,
    pub(super) material: CutterMaterial,
    /// Whether nothing says what the cutter is made of.
    pub(super) assumed: bool,
    pub(super) cutter: Option<String>,
    /// Of the cutter where it turns, else of the work.
    pub(super) diameter: Option<Quantity>,
    pub(super) teeth: Option<u16>,
    pub(super) depth: Option<Quantity>,
    /// The machine's speeds, slowest first.
    pub(super) owned: Vec<Speed>,
    /// The published surface speed that is used.
    pub(super) book: SurfaceSpeed,
    /// What follows from it; none without a diameter.
    pub(super) at: Option<cutting::Cut>,
    pub(super) feed_mm_per_min: Option<f64>,
    /// What one edge takes, mm.
    pub(super) chip_mm: Option<f64>,
    pub(super) slide: Option<&'static str>,
    /// The unit of the dial that feeds, else of the diameter.
    pub(super) like: Unit,
    pub(super) beat: Option<Beat>,
    /// How little a hand keeps even on that slide, mm/min, where the feed is under it.
    pub(super) hand_mm_per_min: Option<f64>,
    /// Equal passes of a slot to the depth.
    pub(super) passes: Option<u32>,
    pub(super) width: Option<Quantity>,
    /// Whether the cutter is a saw: a disc that goes in by its rim.
    pub(super) saws: bool,
    /// Whether it is an engraving point.
    pub(super) engraves: bool,
    /// How far it cuts along, or across.
    pub(super) length: Option<Quantity>,
    /// What the machine feeds by itself.
    pub(super) power_feed: Option<PowerFeed>,
    /// What it asks of the motor and of what sticks out.
    pub(super) load: Option<Load>,
    /// Holders that don't allow the speed, and what they allow.
    pub(super) too_fast_for: Vec<(String, u32)>,
}

impl Cut {
    /// The machine's own speed, where it has any.
    pub(super) fn spindle(&self) -> Option<(SpindlePick, &Speed)> {
        let pick = self.at.as_ref()?.spindle?;
        Some((pick, self.owned.get(pick.index)?))
    }
}

/// What a cutter of that kind does, where nothing else is said.
fn process_of(kind: &str) -> Option<Process> {
    Some(match kind {
        "end-mill" | "slitting-saw" | "engraver" => Process::Mill,
        "turning-tool" | "form-tool" => Process::Turn,
        "boring-bar" => Process::Bore,
        "parting-blade" => Process::Part,
        "drill" => Process::Drill,
        "reamer" => Process::Ream,
        "counterbore" | "countersink" => Process::Countersink,
        "tap" => Process::Tap,
        "die" => Process::Die,
        "knurl" => Process::Knurl,
        _ => return None,
    })
}

/// The slide that feeds where none is named: the first of these that has a dial, else the only one
/// with a dial.
fn slide_of(process: Process, shop: &Shop) -> Option<&'static str> {
    let first: &[&'static str] = match process {
        Process::Face | Process::Mill | Process::Part => &["cross"],
        Process::Drill | Process::Ream | Process::Countersink => &["tailstock", "carriage"],
        _ => &["carriage"],
    };
    let has = |slide: &&'static str| shop.has_dial(slide);
    let mut all = ["cross", "compound", "carriage", "tailstock"].into_iter().filter(has);
    first.iter().copied().find(has).or_else(|| match (all.next(), all.next()) {
        (Some(only), None) => Some(only),
        _ => None,
    })
}

/// Where the worth of a slide's turn is entered.
fn dial_path(slide: Option<&str>) -> &'static str {
    match slide {
        Some("cross") => "shop.lathe.dials.cross",
        Some("compound") => "shop.lathe.dials.compound",
        Some("carriage") => "shop.lathe.dials.carriage",
        Some("tailstock") => "shop.lathe.dials.tailstock",
        _ => "shop.lathe.dials",
    }
}

pub(super) fn answer(entries: &Record, shop: &Shop) -> Answer {
    let name = entries.text("cutter");
    let owned_cutter = name.and_then(|name| shop.cutter(name));
    let process = entries
        .choice("process")
        .and_then(Process::from_id)
        .or_else(|| process_of(owned_cutter?.choice("kind")?));
    let Some(process) = process else {
        return asks("process", "say what is done: turn, drill, mill …");
    };
    let Some(stock) = entries.choice("stock").and_then(Stock::from_id) else {
        return asks("stock", "say what is cut: mild steel, brass …");
    };
    // What the shop says of the cutter counts; entries fill in what it doesn't say.
    let material = owned_cutter
        .and_then(|cutter| cutter.choice("material"))
        .or_else(|| entries.choice("material"))
        .and_then(CutterMaterial::from_id);
    let own_diameter = owned_cutter.and_then(|cutter| cutter.quantity("diameter"));
    let entered = entries.quantity("diameter");
    let kind = owned_cutter.and_then(|cutter| cutter.choice("kind"));
    let point = owned_cutter.filter(|_| kind == Some("engraver") && process == Process::Mill);
    let cuts_wide = point.and_then(|point| point_cuts(point, entries));
    let diameter = match process.goes_by_the_cutter() {
        // Its shank doesn't cut.
        true if point.is_some() => entered.or(cuts_wide.as_ref()),
        true => own_diameter.or(entered),
        false if process == Process::Die => entered.or(own_diameter),
        false => entered,
    };
    let teeth = owned_cutter
        .and_then(|cutter| cutter.count("teeth"))
        .or_else(|| entries.count("teeth"))
        .and_then(|teeth| u16::try_from(teeth).ok());
    let used = material.unwrap_or(CutterMaterial::Hss);
    let mut owned = shop.speeds();
    // Never faster than what grips it allows, unless nothing is slow enough for that.
    let holder = entries.text("held_in").and_then(|name| shop.holder(name));
    if let Some(most) = holder.and_then(|holder| holder.count("rpm_max"))
        && owned.iter().any(|speed| speed.rpm <= most)
    {
        owned.retain(|speed| speed.rpm <= most);
    }
    let rpms: Vec<f64> = owned.iter().map(|speed| f64::from(speed.rpm)).collect();
    let book = match cutting::surface_speeds(stock, process, used) {
        Ok(books) => books.first().copied(),
        Err(why) => return Answer::refused(why.to_string()),
    };
    let Some(book) = book else {
        return Answer::refused("no book gives a speed for this");
    };
    let at = diameter.map(|diameter| {
        cutting::cut(stock, process, used, diameter.value(), teeth.unwrap_or(1), &rpms)
    });
    let mut at = match at.transpose() {
        Ok(at) => at,
        Err(why) => return Answer::refused(why.to_string()),
    };
    if let Some(at) = at.as_mut().filter(|_| process == Process::Mill) {
        let own = match (kind, owned_cutter) {
            (Some("slitting-saw"), _) => Some(cutting::saw_chip()),
            (Some("engraver"), Some(cutter)) => {
                let tip = cutter.quantity("width").or(diameter).map_or(0.0, Quantity::to_f64);
                cutting::point_chip(tip).ok()
            }
            _ => None,
        };
        // An end mill's chart says nothing of these.
        at.feeds = own.map_or_else(|| core::mem::take(&mut at.feeds), |own| Vec::from([own]));
    }
    let slide = entries.choice("slide").or_else(|| slide_of(process, shop));
    let dial = slide.and_then(|slide| shop.dial(slide));
    let like = match (&dial, &diameter) {
        (Some(dial), _) => dial.unit,
        (None, Some(diameter)) => diameter.unit(),
        (None, None) => Unit::Mm,
    };
    let mut job = Cut {
        process,
        stock,
        material: used,
        assumed: material.is_none(),
        cutter: name.map(show::unmarked),
        diameter: diameter.cloned(),
        teeth,
        depth: entries.quantity("depth").cloned(),
        owned,
        book,
        at,
        feed_mm_per_min: None,
        chip_mm: None,
        slide,
        like,
        beat: None,
        hand_mm_per_min: None,
        passes: None,
        too_fast_for: Vec::new(),
        // A saw cuts as wide as it is.
        width: entries
            .quantity("width")
            .or_else(|| owned_cutter?.quantity("width").filter(|_| kind == Some("slitting-saw")))
            .cloned(),
        saws: kind == Some("slitting-saw"),
        engraves: point.is_some(),
        length: entries.quantity("length").cloned(),
        power_feed: None,
        load: None,
    };
    job.feed();
    let travel = dial.and_then(|dial| dial.travel_per_turn());
    if let Some(travel) = travel {
        job.by_hand(travel);
    }
    if process == Process::Mill
        && point.is_none()
        && let (Some(diameter), Some(depth)) = (&job.diameter, &job.depth)
    {
        let width = job.width.as_ref().filter(|_| job.saws);
        job.passes = match width {
            Some(width) => cutting::saw_passes(stock, width.value(), depth.value()),
            None if job.saws => None,
            None => cutting::passes_to_depth(stock, diameter.value(), depth.value()),
        };
    }
    if let Some(feed) = job.feed_along() {
        job.power_feed = power_feed(feed, shop);
    }
    job.load = Load::of(&job, entries, own_diameter, shop.lathe().count("motor_watts"));
    if let Some(rpm) = job.spindle().map(|(_, speed)| speed.rpm) {
        let held = entries.text("held_in");
        job.too_fast_for = shop
            .record()
            .records("holding")
            .filter(|holder| held.is_none() || holder.text("name") == held)
            .filter_map(|holder| Some((holder.text("name")?, holder.count("rpm_max")?)))
            .filter(|(_, most)| *most < rpm)
            .map(|(name, most)| (show::unmarked(name), most))
            .collect();
    }
    Answer {
        lacking: job.lacking(dial.is_some()),
        cautions: job.cautions(),
        why: why::why(&job, travel),
        found: Some(Found::Cut(Box::new(job))),
        ..Answer::default()
    }
}

/// How wide an engraving point cuts at the surface: its tip and, from its angle, what the depth adds.
/// None where neither the tip nor the depth is known.
fn point_cuts(point: &Record, entries: &Record) -> Option<Quantity> {
    let tip = point.quantity("width").map(Quantity::to_f64);
    let depth = entries.quantity("depth").map(Quantity::to_f64);
    let angle = point.quantity("angle").map(Quantity::to_f64);
    let width = match (tip, depth.zip(angle)) {
        (tip, Some((depth, angle))) => cutting::point_width(tip.unwrap_or(0.0), depth, angle),
        (tip, None) => tip?,
    };
    let width = show::near(width, 4)?;
    Quantity::parse(&show::mm(width), Measure::Length, None).ok()
}

fn asks(key: &'static str, why: &str) -> Answer {
    let needs = if key == "stock" { "operation.stock" } else { "operation.process" };
    Answer { lacking: Vec::from([Lacking { key, needs }]), ..Answer::refused(why) }
}

impl Cut {
    /// The feed and what one edge takes, as far as the teeth are known.
    fn feed(&mut self) {
        let Some(at) = &self.at else { return };
        let Some(feed) = at.feeds.first() else { return };
        match feed.unit {
            FeedUnit::PerTooth => {
                self.chip_mm = Some(feed.low);
                self.feed_mm_per_min =
                    self.teeth.map(|teeth| feed_per_minute(at.rpm, feed.low, feed.unit, teeth));
            }
            FeedUnit::PerTurn => {
                self.feed_mm_per_min = at.feed_mm_per_min;
                let edges = match self.process {
                    Process::Drill => Some(2),
                    Process::Ream | Process::Countersink => self.teeth,
                    Process::Knurl => None,
                    _ => Some(1),
                };
                self.chip_mm = edges.map(|edges| feed.low / f64::from(edges.max(1)));
            }
        }
    }

    /// The feed as a beat on a handwheel of that travel; where the fine end of the book's range is less
    /// than a hand keeps even, the least that it does, if the range allows that much.
    fn by_hand(&mut self, travel: Ratio) {
        let (Some(low), Some(most)) = (self.feed_mm_per_min, self.most_mm_per_min()) else {
            return;
        };
        self.beat = cutting::hand_feed(low, most, travel).ok();
        let least = cutting::slowest_by_hand(travel);
        if low >= least {
            return;
        }
        self.hand_mm_per_min = Some(least);
        if self.beat.is_some() {
            self.feed_mm_per_min = Some(least);
            self.chip_mm = self.chip_mm.map(|chip| chip * least / low);
        }
    }

    /// The coarse end of the book's range, mm/min, where the feed is known.
    pub(super) fn most_mm_per_min(&self) -> Option<f64> {
        let (at, now) = (self.at.as_ref()?, self.feed_mm_per_min?);
        let feed = at.feeds.first()?;
        Some(match feed.unit {
            FeedUnit::PerTooth => at.rpm * feed.high * f64::from(self.teeth?),
            FeedUnit::PerTurn => (at.rpm * feed.high).max(now),
        })
    }

    /// The feed a turn, mm, of what the carriage can feed by power.
    pub(super) fn feed_along(&self) -> Option<f64> {
        let along = matches!(self.process, Process::Turn | Process::Finish | Process::Bore);
        let feed = self.at.as_ref()?.feeds.first().filter(|_| along)?;
        Some(feed.low)
    }

    /// How long so many passes take, where the length is known.
    pub(super) fn time(&self, passes: u32) -> Option<Time> {
        let length = self.length.as_ref()?.to_f64();
        let feed = self.beat.map_or(self.feed_mm_per_min?, |beat| beat.feed_mm_per_min);
        Some(Time::default().and(passes, length, feed))
    }

    fn lacking(&self, has_dial: bool) -> Vec<Lacking> {
        let mut lacking = Vec::new();
        let mut lacks = |key, needs| lacking.push(Lacking { key, needs });
        if self.at.is_none() {
            for key in ["ideal_rpm", "ideal_range_rpm", "spindle_rpm", "surface_m_per_min"] {
                lacks(key, "operation.diameter");
            }
            if !self.process.follows_a_pitch() {
                for key in ["chip_mm_per_tooth", "feed_mm_per_min", "beat"] {
                    lacks(key, "operation.diameter");
                }
            }
            return lacking;
        }
        if self.owned.is_empty() {
            lacks("spindle_rpm", "shop.lathe.spindle_speeds");
        }
        if self.process.follows_a_pitch() {
            return lacking;
        }
        if self.chip_mm.is_none() && self.process != Process::Knurl {
            lacks("chip_mm_per_tooth", "operation.teeth");
        }
        if self.feed_mm_per_min.is_none() {
            lacks("feed_mm_per_min", "operation.teeth");
            lacks("beat", "operation.teeth");
        } else if self.length.is_none() {
            lacks("minutes", "operation.length");
        }
        if self.feed_mm_per_min.is_some() && self.beat.is_none() {
            // Where the hand is too quick, a finer screw is what is asked for.
            let finer = self.hand_mm_per_min.is_some().then_some("compound");
            let missing = if has_dial { self.slide } else { self.wanted_slide() };
            lacks("beat", dial_path(finer.or(missing)));
        }
        lacking
    }

    /// The slide whose dial is asked for: the one named, else the one that usually feeds.
    fn wanted_slide(&self) -> Option<&'static str> {
        self.slide.or(match self.process {
            Process::Face | Process::Mill | Process::Part => Some("cross"),
            Process::Drill | Process::Ream | Process::Countersink => Some("tailstock"),
            _ => Some("carriage"),
        })
    }

    fn cautions(&self) -> Vec<&'static str> {
        let mut cautions = Vec::from([
            "Chuck key out, guard closed, eyes covered before the spindle starts.",
            "No gloves, rings or loose sleeves near anything that turns.",
            "Swarf is sharp and hot: a brush or a hook, never fingers, and with the spindle stopped.",
        ]);
        match self.process {
            Process::Mill => cautions.push(
                "Feed against the cutter: fed with it, the slack in the screw lets it snatch.",
            ),
            Process::Tap | Process::Die | Process::Thread => cautions
                .push("Under power only where the spindle stops at once: else turn it by hand."),
            Process::Part => {
                cautions.push("Blade square, on centre and short; never part between centres.")
            }
            _ => {}
        }
        cautions.push("What the machine's maker and the rules of the place say comes first.");
        cautions
    }
}
