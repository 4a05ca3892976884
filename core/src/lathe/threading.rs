//! Threads by the leadscrew: the lead that the gears make, the groove that a pass falls into, and what
//! stands in its way.

use super::cut::Asked;
use super::slides::way;
use super::state::Lie;
use super::{Lathe, Rule, SAME};
use crate::exact::{PI, Ratio};
use crate::procedure::{
    Axis, Face, Gear, GearOn, InOut, Length, Lockable, Number, Reading, Running, Shape, Slide,
    Toward, Tumbler, Turned, TurnedBy, Turning, Until, Winding,
};
use crate::shop::Shop;
use alloc::vec::Vec;

/// A thread that was cut, or picked up, by the leadscrew.
#[derive(Clone, Debug, PartialEq)]
pub struct Thread {
    /// Whether it is in a hole.
    pub inside: bool,
    /// How far a nut goes on it in a turn, mm; less than nothing is left-handed.
    pub lead: Ratio,
    /// Its grooves, in the order in which they were begun.
    pub starts: Vec<Start>,
    /// Its end at the holder, mm: nought is the free end, into the work less than nothing.
    pub from: f64,
    /// Its other end.
    pub to: f64,
    /// The angle between its flanks, degrees, where the tool's is known.
    pub angle: Option<f64>,
    /// The flat at its root, mm.
    pub flat: f64,
    /// Whether it was there before.
    pub there: bool,
}

/// One groove of a thread.
#[derive(Clone, Debug, PartialEq)]
pub struct Start {
    /// Where round the work it begins, in turns from the first, from 0 up to 1.
    pub angle: Ratio,
    /// How deep it is below the surface, mm.
    pub depth: f64,
    /// Passes that took something.
    pub passes: u32,
    /// The most that a pass took, as the area of its chip, mm².
    most: f64,
}

/// What a thread asks of the machine beyond its other parts.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Threading {
    own: Own,
    gearbox: Option<Ratio>,
    set_lead: Option<Ratio>,
    creeps: Option<Toward>,
    dial: Option<u32>,
    /// Marks at which the half-nuts were closed last, and how often they were.
    at: Vec<u32>,
    closings: u32,
    /// The closing of the first cut.
    first: Option<(u32, Vec<u32>)>,
    /// Turns of the spindle while the leadscrew stood.
    shifted: Ratio,
    /// How far the compound, parallel to the work, stands from its nought, mm along z.
    aside: Ratio,
    in_groove: bool,
    square: bool,
    chalked: bool,
    lost: bool,
    spaces: bool,
    cut: bool,
    back: bool,
    /// Seconds that the end of the last pass leaves before a wall.
    leaves: Option<f64>,
    /// The least run-up before a free end, mm.
    run_up: Option<f64>,
}

/// What of the shop belongs to threads.
#[derive(Clone, Debug, Default, PartialEq)]
struct Own {
    screw: Option<Ratio>,
    left_screw: Option<bool>,
    before: Ratio,
    gearbox: Option<Ratio>,
    dials: Vec<(u32, u32)>,
    crank: bool,
    reaction: f64,
}

/// From seeing the mark to nuts open and tool clear, seconds, where the shop says nothing. Common practice,
/// no source.
const REACTION: f64 = 1.0;
/// A spindle that is switched off runs on for two seconds, slowing down: as far as in one at full speed.
/// Common practice, no source.
const RUN_DOWN: f64 = 1.0;
/// The leadscrew turns no more than so many times for one of the spindle under power. Common practice, no
/// source.
const STEP_UP: i64 = 3;
/// No pass goes deeper than this, mm: twice the most that a first pass usually takes (THR-054, from memory).
const DEEPEST: f64 = 0.6;
/// The deepest that a scratch may be, mm: a line of a coarse dial. Common practice, no source.
const SCRATCH: f64 = 0.12;
/// No pass takes more than so many times what all take on the average.
const TIMES: f64 = 4.0;

impl Threading {
    pub(super) fn new(shop: &Shop) -> Threading {
        let lathe = shop.lathe();
        let gearbox = shop.gearbox();
        let own = Own {
            screw: shop.leadscrew().and_then(|lead| {
                let value = lead.value();
                if lead.pi() { value.mul(PI).ok() } else { Some(value) }
            }),
            left_screw: lathe.choice("leadscrew_hand").map(|hand| hand == "left"),
            before: shop.before_train(),
            gearbox: match gearbox.as_slice() {
                [(ratio, _)] => Some(*ratio),
                _ => None,
            },
            dials: shop.chasing_dials().iter().map(|d| (d.wheel_teeth, d.marks)).collect(),
            crank: lathe.flag("hand_crank") == Some(true),
            reaction: lathe.ratio("reaction_seconds").map_or(REACTION, Ratio::to_f64),
        };
        Threading { own, ..Threading::default() }
    }
}

/// How much metal a tool of that flat and half angle takes down to a depth, mm².
fn area(depth: f64, flat: f64, half: f64) -> f64 {
    flat * depth + depth * depth * libm::tan(half)
}

impl Lathe {
    pub(super) fn threads(&self) -> bool {
        self.m.shape() == Some(Shape::ThreadingTool)
    }

    /// Whether the tool is on a bar in a hole.
    pub(super) fn in_bore(&self) -> bool {
        match &self.m.cutter {
            Some(cutter) if cutter.shape == Shape::ThreadingTool => cutter.diameter.is_some(),
            Some(cutter) => cutter.shape == Shape::BoringBar,
            None => false,
        }
    }

    /// Turns of the leadscrew for one of the spindle by what is in mesh, against it less than nothing.
    fn train(&self) -> Option<Ratio> {
        let t = &self.m.threading;
        let gearbox = t.gearbox.or(t.own.gearbox)?;
        // An idler's teeth don't matter: what it is driven by at its rim, it drives.
        let idles = |on: GearOn| matches!(on, GearOn::IdlerStud | GearOn::SecondIdler);
        let mut speeds: Vec<(GearOn, Ratio)> = Vec::from([(GearOn::Spindle, t.own.before)]);
        let mut rims: Vec<(GearOn, Ratio)> = Vec::new();
        let known = |list: &[(GearOn, Ratio)], on: GearOn| {
            list.iter().rev().find(|(at, _)| *at == on).map(|(_, value)| *value)
        };
        // In whatever order they were brought into mesh: what is driven is known once its driver is.
        for _ in 0..self.m.meshed.len() {
            for (driver, driven) in &self.m.meshed {
                let rim = match driver.teeth {
                    Some(teeth) if !idles(driver.on) => known(&speeds, driver.on)
                        .and_then(|turns| turns.mul(Ratio::from(u32::from(teeth))).ok()),
                    _ => known(&rims, driver.on),
                };
                let Some(rim) = rim.map(Ratio::neg) else { continue };
                match driven.teeth {
                    Some(teeth) if !idles(driven.on) && known(&speeds, driven.on).is_none() => {
                        speeds.push((driven.on, rim.div(Ratio::from(u32::from(teeth))).ok()?));
                    }
                    _ if idles(driven.on) && known(&rims, driven.on).is_none() => {
                        rims.push((driven.on, rim))
                    }
                    _ => {}
                }
            }
        }
        known(&speeds, GearOn::Leadscrew)?.mul(gearbox).ok()
    }

    /// How far the carriage goes toward the headstock in a turn of the spindle forward, mm.
    fn lead(&self) -> Option<Ratio> {
        let t = &self.m.threading;
        let train = self.train();
        let size = match (t.set_lead, train) {
            (Some(lead), _) => lead,
            (None, Some(train)) => train.abs().mul(t.own.screw?).ok()?,
            (None, None) => return None,
        };
        let right = if self.m.shop.tumbler {
            match self.m.tumbler? {
                Tumbler::Forward => true,
                Tumbler::Reverse => false,
                Tumbler::Neutral => return None,
            }
        } else {
            match (train, t.own.left_screw, t.creeps) {
                (_, _, Some(toward)) => toward == Toward::Headstock,
                (Some(train), Some(left), None) => train.is_positive() != left,
                _ => return None,
            }
        };
        Some(if right { size } else { size.neg() })
    }

    /// Turns of the leadscrew for one of the spindle, however the lead is set.
    fn step_up(&self) -> Option<Ratio> {
        self.lead()?.abs().div(self.m.threading.own.screw?).ok()
    }

    pub(super) fn geared_to_screw(&self) -> bool {
        self.m.meshed.iter().any(|(_, driven)| driven.on == GearOn::Leadscrew)
    }

    pub(super) fn set_gearbox(&mut self, ratio: Ratio) {
        self.m.threading.gearbox = Some(ratio);
    }

    pub(super) fn set_lead(&mut self, lead: Ratio) {
        self.at_rest(Rule::Gen018, "the lead is set while the spindle turns");
        self.m.threading.set_lead = Some(lead);
    }

    /// Gears come into mesh, or out of it: what held the banjo is loose, and what was seen of it is past.
    pub(super) fn remeshed(&mut self, driver: Gear, on: bool) {
        if on && driver.on == GearOn::Spindle && self.m.threading.cut {
            let unchalked = !self.m.threading.chalked;
            self.judge(Rule::Thr046, unchalked, "the mesh wasn't chalked before it was parted");
        }
        if let Some(lock) = self.m.locks.get_mut(Lockable::Banjo as usize) {
            *lock = Some(false);
        }
        if !self.m.threading.cut {
            self.m.threading.creeps = None;
        }
    }

    /// What is to turn has its gears made fast.
    pub(super) fn banjo_fast(&mut self) {
        if self.train().is_some() && self.threading_train() {
            let loose = self.m.lock(Lockable::Banjo) != Some(true);
            self.judge(Rule::Chg003, loose, "the banjo and its studs aren't tightened");
        }
    }

    fn threading_train(&self) -> bool {
        self.m.lock(Lockable::Banjo).is_some() && !self.m.geared()
    }

    pub(super) fn chalk_mesh(&mut self) {
        self.isolated(Rule::Chg001, "gears are chalked with the supply on");
        self.m.threading.chalked = true;
    }

    pub(super) fn creeps(&mut self, toward: Toward) {
        let goes = self.lead().map(|lead| lead.is_positive());
        let other = goes.is_some_and(|right| right != (toward == Toward::Headstock));
        self.judge(Rule::LookFalse, other, "the carriage creeps the other way");
        self.m.threading.creeps = Some(toward);
    }

    pub(super) fn chasing_dial(&mut self, wheel: u32) {
        let owned = self.m.threading.own.dials.iter().any(|(teeth, _)| *teeth == wheel);
        self.judge(Rule::LookFalse, !owned, "no chasing dial has that wheel");
        self.m.threading.dial = Some(wheel);
    }

    pub(super) fn flanks_square(&mut self) {
        let turning = self.m.turning();
        self.judge(Rule::Gen008, turning, "a gauge at the tool while something turns");
        self.m.threading.square = true;
    }

    /// A tool is mounted, or another: nothing of how it stands is known.
    pub(super) fn new_tool(&mut self) {
        self.m.threading.square = false;
        self.m.threading.in_groove = false;
    }

    /// Other work: no thread is begun on it.
    pub(super) fn new_blank(&mut self) {
        let t = &mut self.m.threading;
        t.first = None;
        t.shifted = Ratio::ZERO;
        t.spaces = false;
        t.cut = false;
        t.lost = false;
        t.run_up = None;
    }

    /// So many spaces of the scratch measured.
    pub(super) fn look_spaces(&mut self, count: u32, over: f64) {
        self.hands_at_work(false);
        let lead = self.part.threads.last().map(|thread| thread.lead.abs().to_f64());
        let want = lead.map(|lead| lead * f64::from(count));
        let off = want.is_none_or(|want| libm::fabs(want - over) > 0.05 + 0.005 * want);
        self.judge(Rule::LookFalse, off, "the spaces come to something else");
        let long = self.part.threads.last().map_or(0.0, |thread| thread.to - thread.from);
        let few = count < 5 && over < 40.0 && lead.is_some_and(|lead| 10.0 * lead < long);
        self.judge(Rule::Chg007, few, "measured over a few spaces where more were cut");
        self.m.threading.spaces = true;
    }

    /// The half-nuts closed at these marks, or opened.
    pub(super) fn nuts_at(&mut self, is: InOut, at: &[u32]) {
        if is == InOut::Out {
            self.let_go(self.m.threading.own.reaction);
            return;
        }
        if self.threads() {
            let at_work = self.m.turning() && self.m.clear != Some(true);
            self.judge(Rule::Thr028, at_work, "the nuts are closed with the tool at the work");
        }
        let t = &mut self.m.threading;
        t.closings = t.closings.saturating_add(1);
        t.at = at.to_vec();
        let missing = !at.is_empty() && self.chaser().is_none();
        self.judge(Rule::MoveMissing, missing, "which chasing dial is read isn't known");
    }

    /// The dial that is read: its wheel and marks.
    fn chaser(&self) -> Option<(u32, u32)> {
        let t = &self.m.threading;
        match (t.own.dials.as_slice(), t.dial) {
            ([one], None) => Some(*one),
            (all, Some(wheel)) => all.iter().find(|(teeth, _)| *teeth == wheel).copied(),
            _ => None,
        }
    }

    /// How the end of a pass was let go: was there time for it before the wall?
    fn let_go(&mut self, needs: f64) {
        if let Some(leaves) = self.m.threading.leaves.take() {
            self.judge(Rule::Thr060, leaves < needs - SAME, "the end comes before a person acts");
        }
    }

    pub(super) fn spindle_stops(&mut self) {
        let needs = self.m.threading.own.reaction + RUN_DOWN;
        self.let_go(needs);
    }

    /// A start of the spindle: the gears fast, the tool out of its groove before it goes back.
    pub(super) fn thread_start(&mut self, is: Running) {
        self.banjo_fast();
        if !self.threads() {
            return;
        }
        let stuck = is == Running::Reverse && self.m.threading.in_groove;
        let screwed = self.m.shop.screwed != Some(false);
        let rule = if screwed { Rule::Thr059 } else { Rule::Thr026 };
        self.judge(rule, stuck, "reversed with the tool in the groove");
        if self.m.threading.cut && self.train().is_none() && self.m.threading.set_lead.is_none() {
            self.m.threading.lost = true;
        }
    }

    /// Whether the nuts, closed now, let the tool fall into the groove that the first cut was made with.
    fn same_groove(&self) -> bool {
        let t = &self.m.threading;
        let Some((closing, first)) = &t.first else { return true };
        if *closing == t.closings {
            return true;
        }
        let Some(ratio) = self.step_up() else { return false };
        let right = |threads: Ratio| threads.div(ratio).is_ok_and(Ratio::is_whole);
        if right(Ratio::ONE) {
            return true;
        }
        let Some((wheel, marks)) = self.chaser() else { return false };
        if first.is_empty() || t.at.is_empty() || !right(Ratio::from(wheel)) {
            return false;
        }
        first.iter().all(|a| {
            t.at.iter().all(|b| {
                let steps = Ratio::from(*a).sub(Ratio::from(*b));
                let passed = steps.and_then(|steps| steps.mul(Ratio::from(wheel)));
                passed.and_then(|p| p.div(Ratio::from(marks))).is_ok_and(right)
            })
        })
    }

    /// A pass by the leadscrew under power.
    pub(super) fn thread_feed(&mut self, asked: &Asked) {
        let (work, cutter) = (self.m.work.is_none(), self.m.cutter.is_none());
        self.judge(Rule::UnknownWork, work, "nobody mounted the work or looked at it");
        if work || cutter {
            return;
        }
        let run = self.m.lathe.map(|is| is != Running::Stopped);
        self.judge(Rule::FeedStopped, run != Some(true), "the work stands while it is threaded");
        let forward = self.m.lathe != Some(Running::Reverse);
        let steep = self.step_up().is_some_and(|up| up > Ratio::whole(STEP_UP));
        self.judge(Rule::Chg012, steep, "so coarse a lead is driven by power from the spindle");
        if let (Some(each), Some(lead)) = (asked.each_turn, self.lead()) {
            let off = libm::fabs(each - lead.abs().to_f64()) > 2e-4;
            self.judge(Rule::PartLead, off, "the gears make another lead");
        }
        self.thread_run(asked.toward, asked.over, asked.until, forward, true);
    }

    /// A pass, or a way back, by a hand that turns the spindle or the leadscrew.
    pub(super) fn drive_by_hand(
        &mut self,
        what: Turned,
        by: TurnedBy,
        turning: Turning,
        over: Length,
        until: Option<Until>,
    ) {
        self.at_rest(Rule::Gen009, "a hand on what turns");
        self.isolated(Rule::MountLive, "turned by hand with the supply on");
        self.banjo_fast();
        let locked = self.m.lock(Lockable::LatheSpindle) == Some(true);
        self.judge(Rule::MoveLocked, locked, "the spindle is locked");
        let crank = by == TurnedBy::HandCrank && !self.m.threading.own.crank;
        self.judge(Rule::MoveMissing, crank, "no hand crank is owned");
        let steep = self.step_up().is_some_and(|up| up > Ratio::whole(STEP_UP));
        let steep = steep && what == Turned::LatheSpindle;
        self.judge(Rule::Chg012, steep, "so coarse a lead is driven from the spindle");
        let forward = turning == Turning::Forward;
        if !forward {
            let stuck = self.m.threading.in_groove;
            self.judge(Rule::Thr026, stuck, "turned back with the tool in the groove");
        }
        let right = self.lead().is_none_or(Ratio::is_positive);
        let toward = if right == forward { Toward::Headstock } else { Toward::Tailstock };
        self.thread_run(toward, Some(over.mm.to_f64()), until, forward, false);
    }

    /// The carriage goes by the leadscrew.
    fn thread_run(
        &mut self,
        toward: Toward,
        over: Option<f64>,
        until: Option<Until>,
        forward: bool,
        power: bool,
    ) {
        let nuts = self.m.nuts_in;
        let open = "by the leadscrew with the half-nuts open";
        self.need(nuts, true, (Rule::UnknownNuts, Rule::FeedEngaged), open);
        let feed = self.m.feed_in;
        let both = "fed by the leadscrew with the feed in";
        self.need(feed, false, (Rule::UnknownFeed, Rule::Gen036), both);
        self.carriage_free();
        let lead = self.lead();
        self.judge(Rule::UnknownTrain, lead.is_none(), "what lead the gears make isn't known");
        self.judge(Rule::UnknownPlace, over.is_none(), "nothing says how far the feed goes");
        let goes = way(Slide::Carriage, toward);
        let (Some(over), Some(lead), Some(goes)) = (over, lead, goes) else { return };
        let does = if lead.is_positive() == forward { -1.0 } else { 1.0 };
        self.judge(Rule::MoveWay, does * goes < 0.0, "the leadscrew takes it the other way");
        let z = self.m.at.get(2).copied().unwrap_or_default();
        let x = self.m.at.first().copied().unwrap_or_default();
        self.judge(Rule::UnknownPlace, !z.known, "where it stands along the work isn't known");
        self.shift(Slide::Carriage, goes * over);
        if !z.known {
            return;
        }
        let (from, to) = (z.at, z.at + goes * over);
        let (low, high) = (f64::min(from, to), f64::min(f64::max(from, to), self.part.face));
        let surface = self.surface(low, high);
        let depth = surface.map(|r| if self.in_bore() { x.at - r } else { r - x.at });
        let cuts = high > low + SAME && depth.is_none_or(|depth| depth > SAME);
        if !cuts {
            self.m.clear = Some(true);
            return;
        }
        self.judge(Rule::UnknownTouch, !x.known, "the tool never touched the work");
        self.judge(Rule::UnknownSize, surface.is_none(), "the work's size isn't known");
        let (Some(depth), true) = (depth, x.known) else { return };
        if !forward {
            let screwed = self.m.shop.screwed != Some(false);
            self.judge(Rule::Hol001, screwed, "a chuck that may be screwed on cuts in reverse");
            self.judge(Rule::Thr040, true, "the spindle goes backward in the cut");
        }
        self.ready_to_thread(lead, depth, from, goes);
        self.ends(to, goes, depth, until, power.then_some(lead));
        self.groove(lead, depth, low, high);
        self.m.threading.in_groove = true;
        self.m.clear = Some(self.beyond() == Some(true));
        self.m.in_work = self.m.clear == Some(false);
        self.m.dirty = true;
        self.m.burr = true;
        self.m.threading.cut = true;
    }

    /// The surface that is cut into between two places: the thickest of the bar, the narrowest of the bore.
    fn surface(&self, low: f64, high: f64) -> Option<f64> {
        let list = if self.in_bore() { &self.part.bore } else { &self.part.outside };
        let over = list.iter().filter(|s| s.to > low + SAME && s.from < high - SAME);
        if self.in_bore() {
            over.map(|s| s.radius).reduce(f64::min)
        } else {
            over.map(|s| s.radius).reduce(f64::max)
        }
    }

    /// How wide the tool is where it goes so deep, mm, to either side; its flat; half its angle.
    fn tool_form(&self, depth: f64) -> (f64, f64, f64) {
        let cutter = self.m.cutter.as_ref();
        let flat = cutter.and_then(|c| c.width).map_or(0.0, |l| l.mm.to_f64());
        let degrees = cutter.and_then(|c| c.angle).map_or(60.0, |angle| angle.0.to_f64());
        let half = (degrees / 2.0).to_radians();
        (flat / 2.0 + depth * libm::tan(half), flat, half)
    }

    /// What must hold before a thread is cut.
    fn ready_to_thread(&mut self, lead: Ratio, depth: f64, from: f64, goes: f64) {
        let inside = self.in_bore();
        let there = self.m.work.as_ref().is_some_and(|work| work.lead.is_some());
        let height = self.m.tool_height;
        self.judge(Rule::UnknownHeight, height.is_none(), "the tool's height was never set");
        let off = height.is_some_and(|height| libm::fabs(height) > SAME);
        self.judge(Rule::Thr015, off, "the threading tool isn't at centre height");
        let square = self.m.threading.square;
        self.judge(Rule::Thr014, !square, "nobody set the tool square by the gauge");
        let measured = self.m.measured || there;
        let rule = if inside { Rule::Thr033 } else { Rule::Thr032 };
        self.judge(rule, !measured, "the blank wasn't measured before it is threaded");
        self.chamfered(there);
        self.swung_right(lead);
        for slide in [Slide::Cross, Slide::Compound] {
            let lock = if slide == Slide::Cross { Lockable::Cross } else { Lockable::Compound };
            let locked = self.m.lock(lock) == Some(true);
            let sled = self.sled(slide).copied();
            let pressed = sled.is_some_and(|sled| sled.way != 0.0 && !sled.stale);
            let stale = sled.is_some_and(|sled| sled.stale && !locked);
            self.judge(Rule::Gen049, stale, "a slide was come to from the other side");
            let loose = !locked && !pressed;
            self.judge(Rule::Gen048, loose, "a slide is neither locked nor against its slack");
        }
        if inside {
            let bar = self.m.cutter.as_ref().and_then(|c| c.diameter).map(|l| l.mm.to_f64());
            let bore = self.part.bore.iter().map(|s| 2.0 * s.radius).reduce(f64::min);
            let tight = bar.zip(bore).is_some_and(|(bar, bore)| bore < bar + depth + 0.5 - SAME);
            self.judge(Rule::Thr036, tight, "the bar doesn't clear the far wall when withdrawn");
        }
        if let (Some(out), Some(across)) =
            self.m.work.as_ref().map_or((None, None), |work| (work.out, work.diameter))
        {
            let slender = out.mm.to_f64() > 10.0 * across.mm.to_f64() + SAME && !self.m.steady;
            self.judge(Rule::Thr056, slender, "a slender screw without a travelling steady");
        }
        if goes < 0.0 {
            let run_up = from - self.part.face;
            self.judge(Rule::Thr027, run_up < 3.0 - SAME, "too little run-up for the backlash");
            let least = self.m.threading.run_up.map_or(run_up, |least| f64::min(least, run_up));
            self.m.threading.run_up = Some(least);
        } else {
            let centre = self.m.tail_centre && !self.m.tool_tried;
            self.judge(Rule::Thr042, centre, "it runs out where the tailstock's centre is");
            let r = if inside { self.part.bore_radius(from) } else { self.part.radius(from) };
            let x = self.m.at.first().map_or(0.0, |p| p.at);
            let in_metal = r.is_some_and(|r| if inside { x > r + SAME } else { x < r - SAME });
            self.judge(Rule::PartWrong, in_metal, "it begins in the metal, not in a groove");
        }
        let scratched = there || self.m.threading.spaces;
        let begun = self.m.threading.cut;
        self.judge(
            Rule::Thr018,
            !scratched && (begun || depth > SCRATCH),
            "no scratch was cut and its pitch measured first",
        );
        let same = self.same_groove();
        self.judge(Rule::Thr023, !same, "the nuts closed where the tool falls beside its groove");
        let lost = self.m.threading.lost;
        self.judge(Rule::PartLost, lost, "where the groove is was lost");
        if self.m.threading.first.is_none() {
            let t = &mut self.m.threading;
            t.first = Some((t.closings, t.at.clone()));
        }
    }

    /// The end, or the mouth, is chamfered to the root of the thread.
    fn chamfered(&mut self, there: bool) {
        if there {
            return;
        }
        let chamfer = self.m.work.as_ref().and_then(|w| w.chamfer).map(|l| l.mm.to_f64());
        let x = 2.0 * self.m.at.first().map_or(0.0, |p| p.at);
        let bare = match chamfer {
            Some(to) if self.in_bore() => to < x - 1e-3,
            Some(to) => to > x + 1e-3,
            None => true,
        };
        self.judge(Rule::Thr032, bare, "the end isn't chamfered to the root of the thread");
    }

    /// The compound, set over, moves the tool toward the flank that leads, and no more than the flank allows.
    fn swung_right(&mut self, lead: Ratio) {
        let lie = self.m.compound;
        self.judge(Rule::UnknownCompound, lie == Lie::Unknown, "how the compound lies isn't known");
        let Lie::Off(Axis::Across, degrees) = lie else { return };
        let inside = self.in_bore();
        let angle = self.m.cutter.as_ref().and_then(|c| c.angle).map(|a| a.0.to_f64());
        let trails = (degrees > 0.0) != (lead.is_positive() != inside);
        let rule = match (inside, lead.is_positive()) {
            (false, true) => Rule::PartFlank,
            (false, false) => Rule::Thr002,
            (true, true) => Rule::Thr003,
            (true, false) => Rule::Thr004,
        };
        self.judge(rule, trails, "the compound is swung to the flank that follows");
        let over = angle.is_some_and(|angle| libm::fabs(degrees) > angle / 2.0 + 1e-6);
        let wide = angle.is_some_and(|angle| angle <= 30.0);
        let rule = if wide { Rule::Thr009 } else { Rule::Thr007 };
        self.judge(rule, over, "the compound stands over by more than half the thread's angle");
    }

    /// The wall that a pass runs toward, and the time that is left before it.
    fn ends(&mut self, to: f64, goes: f64, depth: f64, until: Option<Until>, power: Option<Ratio>) {
        let (half, ..) = self.tool_form(depth);
        let inside = self.in_bore();
        let mm = |l: Option<Length>| l.map(|l| l.mm.to_f64());
        let Some(work) = &self.m.work else { return };
        let (groove, at) = (mm(work.groove), mm(work.groove_at));
        let far = groove.zip(at).map(|(wide, at)| -(at + wide));
        let shoulder = mm(work.shoulder).map(|at| -at);
        let out = if inside { None } else { mm(work.out).map(|out| -out) };
        if until == Some(Until::Groove) {
            let x = self.m.at.first().map_or(0.0, |p| p.at);
            let r = if inside { self.part.bore_radius(to) } else { self.part.radius(to) };
            let met = r.is_none_or(|r| if inside { r < x - SAME } else { r > x + SAME });
            let rule = if inside { Rule::Thr037 } else { Rule::Thr030 };
            self.judge(rule, met, "there is no groove, as deep as the thread, where it ends");
        }
        if goes > 0.0 {
            return;
        }
        let walls = [far, shoulder, out];
        let wall = walls.into_iter().flatten().filter(|wall| *wall < self.part.face);
        let Some(wall) = wall.reduce(f64::max) else { return };
        let room = to - half - wall;
        self.judge(Rule::PartShoulder, room < -1e-3, "the tool is driven into the shoulder");
        if let (Some(lead), Some(rpm)) = (power, self.m.rpm) {
            let pace = lead.abs().to_f64() * f64::from(rpm) / 60.0;
            if pace > 0.0 {
                self.m.threading.leaves = Some(room / pace);
            }
        }
    }

    /// The groove that a pass leaves.
    fn groove(&mut self, lead: Ratio, depth: f64, from: f64, to: f64) {
        let (half_width, flat, half) = self.tool_form(depth);
        let inside = self.in_bore();
        let degrees = self.m.cutter.as_ref().and_then(|c| c.angle).map(|a| a.0.to_f64());
        let along = self.m.threading.aside.div(lead).unwrap_or_default();
        let angle = self.m.threading.shifted.add(along).unwrap_or_default();
        let angle = angle.sub(Ratio::new(angle.floor(), 1).unwrap_or_default()).unwrap_or_default();
        let same = self.part.threads.iter().position(|t| t.inside == inside && t.lead == lead);
        let place = same.unwrap_or_else(|| {
            let starts = Vec::new();
            self.part.threads.push(Thread {
                inside,
                lead,
                starts,
                from,
                to,
                angle: degrees,
                flat,
                there: false,
            });
            self.part.threads.len().saturating_sub(1)
        });
        let other = same.is_none() && self.m.threading.cut;
        self.judge(Rule::PartLead, other, "a pass with another lead in the same thread");
        let Some(thread) = self.part.threads.get_mut(place) else { return };
        thread.from = f64::min(thread.from, from);
        thread.to = f64::max(thread.to, to);
        let pitch = lead.abs().to_f64();
        // A groove is met again where it lies within its own width.
        let near = |start: &&mut Start| {
            let turns = start.angle.sub(angle).map_or(0.0, Ratio::to_f64);
            let turns = turns - libm::round(turns);
            libm::fabs(turns) * pitch <= half_width + 1e-6
        };
        let mut heavy = false;
        match thread.starts.iter_mut().find(near) {
            Some(start) => {
                let takes = area(depth, flat, half) - area(start.depth, flat, half);
                heavy = !thread.there && depth - start.depth > DEEPEST;
                if depth > start.depth + SAME {
                    start.passes = start.passes.saturating_add(1);
                    start.most = f64::max(start.most, takes);
                    start.depth = depth;
                }
            }
            None => {
                let most = area(depth, flat, half);
                heavy |= !thread.there && depth > DEEPEST;
                thread.starts.push(Start { angle, depth, passes: 1, most });
            }
        }
        self.judge(Rule::Thr054, heavy, "one pass goes deeper than a tool bears");
    }

    /// The spindle is turned by hand: by teeth of the first driver, else as it is said.
    pub(super) fn thread_teeth(&mut self, teeth: Option<Number>, of: Option<u16>) -> Option<Ratio> {
        let (teeth, of) = teeth.zip(of)?;
        if !self.threads() {
            return None;
        }
        let broken = !teeth.0.is_whole();
        self.judge(Rule::Thr046, broken, "the driver isn't moved by whole teeth");
        let driver = teeth.0.div(Ratio::from(u32::from(of))).ok()?;
        driver.div(self.m.threading.own.before).ok()
    }

    /// The spindle went on by so much: the carriage with it where the nuts are closed; against the leadscrew
    /// where the train is parted.
    pub(super) fn spindle_by_hand(&mut self, turns: Ratio) {
        self.banjo_fast();
        self.m.threading.back = turns.is_negative();
        if self.train().is_none() && self.m.threading.set_lead.is_none() {
            if let Ok(shifted) = self.m.threading.shifted.add(turns) {
                self.m.threading.shifted = shifted;
            }
        } else if let (Some(true), Some(lead)) = (self.m.nuts_in, self.lead()) {
            self.shift(Slide::Carriage, -turns.mul(lead).map_or(0.0, Ratio::to_f64));
        }
    }

    /// A slide is wound to a place, the tool one that cuts threads.
    pub(super) fn thread_wound(
        &mut self,
        slide: Slide,
        to: Option<&Reading>,
        by: Option<Length>,
        toward: Toward,
    ) {
        if !self.threads() {
            return;
        }
        self.returns(slide);
        if slide != Slide::Compound {
            return;
        }
        match self.m.compound {
            Lie::Off(..) => {
                let zero = self.sled(Slide::Cross).copied();
                let away = zero.is_some_and(|s| s.zero.is_none_or(|z| libm::fabs(s.at - z) > 1e-4));
                self.judge(
                    Rule::Thr021,
                    away,
                    "the cross slide isn't at its nought when the compound goes on",
                );
            }
            Lie::Lies(Axis::Along) => {
                let exact = match (to, by) {
                    (Some(reading), _) => self.sled(slide).and_then(|sled| sled.exact(reading)),
                    (None, by) => by.map(|length| length.mm),
                };
                let back = toward == Toward::In;
                let exact = exact.unwrap_or_default();
                self.m.threading.aside = if back { exact.neg() } else { exact };
            }
            Lie::Lies(_) | Lie::Unknown => {}
        }
    }

    /// The carriage goes back: the tool is out of its groove first.
    pub(super) fn returns(&mut self, slide: Slide) {
        if slide == Slide::Carriage && self.threads() {
            let stuck = self.m.threading.in_groove;
            self.judge(Rule::Thr020, stuck, "the carriage goes back with the tool in its groove");
        }
    }

    pub(super) fn thread_cleared(&mut self, slide: Slide) {
        self.returns(slide);
        if slide == Slide::Cross {
            self.m.threading.in_groove = false;
        }
    }

    /// Before a touch on the surface: the compound that is to give the depth has its slack taken up.
    pub(super) fn thread_touch(&mut self, slide: Slide, toward: Toward, face: Face) -> bool {
        if !self.threads() {
            return false;
        }
        if face == Face::ThreadFlank {
            let open = self.m.nuts_in != Some(true);
            let back = self.m.threading.back || open;
            self.judge(Rule::Thr051, back, "picked up with the backlash on the wrong side");
            self.isolated(Rule::MountLive, "led into the groove with the supply on");
            self.picked_up();
            if slide == Slide::Compound {
                if let Some(sled) = self.sled_mut(slide) {
                    sled.touched = true;
                    sled.way = way(slide, toward).unwrap_or(sled.way);
                }
                return true;
            }
        }
        if slide == Slide::Cross && matches!(self.m.compound, Lie::Off(..)) {
            let deeper = if self.in_bore() { 1.0 } else { -1.0 };
            let slack = self.sled(Slide::Compound).is_none_or(|sled| sled.way * deeper <= 0.0);
            self.judge(Rule::Thr017, slack, "the compound's slack isn't taken up first");
        }
        false
    }

    /// The tool lies in a groove that was there.
    fn picked_up(&mut self) {
        let Some(lead) = self.lead() else { return };
        let Some(work) = &self.m.work else { return };
        let size = work.lead.map(|l| l.mm);
        let left = work.winding == Some(Winding::Left);
        let off = size.is_none_or(|size| {
            libm::fabs(size.to_f64() - lead.abs().to_f64()) > 1e-3 * size.to_f64()
        });
        let other = off || left == lead.is_positive();
        self.judge(Rule::PartLead, other, "the gears make another lead than the thread has");
        if self.part.threads.is_empty() {
            let inside = self.in_bore();
            let starts =
                Vec::from([Start { angle: Ratio::ZERO, depth: 0.0, passes: 0, most: 0.0 }]);
            self.part.threads.push(Thread {
                inside,
                lead,
                starts,
                from: self.part.face,
                to: self.part.face,
                angle: None,
                flat: 0.0,
                there: true,
            });
        }
        self.m.threading.in_groove = true;
        self.m.threading.first = Some((self.m.threading.closings, self.m.threading.at.clone()));
    }

    /// How the thread and its train are left.
    pub(super) fn threads_left(&mut self) {
        let needs = self.m.threading.own.reaction + RUN_DOWN;
        self.let_go(needs);
        let cut = self.m.threading.cut;
        let driven = cut && self.geared_to_screw() && !self.m.shop.tumbler;
        self.judge(Rule::Chg013, driven, "the thread's gears are left driving the leadscrew");
        let run_up = self.m.threading.run_up;
        let mut broken = Vec::new();
        for thread in self.part.threads.iter().filter(|thread| !thread.there) {
            let count = thread.starts.len().max(1);
            let n = u32::try_from(count).unwrap_or(1);
            let lead = thread.lead.abs().to_f64();
            let pitch = lead / f64::from(n);
            let short = run_up.is_some_and(|run_up| run_up < 3.0 * pitch - 1e-3);
            broken.push((Rule::Thr027, short, "too little run-up for the backlash"));
            let half = (thread.angle.unwrap_or(60.0) / 2.0).to_radians();
            for start in thread.starts.iter().filter(|start| start.passes >= 6) {
                let mean = area(start.depth, thread.flat, half) / f64::from(start.passes);
                let heavy = start.most > TIMES * mean;
                broken.push((Rule::Thr054, heavy, "one pass takes many times the others"));
            }
            let depth = thread.starts.first().map_or(0.0, |start| start.depth);
            let uneven = thread.starts.iter().any(|s| libm::fabs(s.depth - depth) > 1e-4);
            broken.push((Rule::Thr045, uneven, "the starts aren't cut to one depth"));
            if count > 1 {
                let mut angles: Vec<f64> =
                    thread.starts.iter().map(|start| start.angle.to_f64()).collect();
                angles.sort_by(f64::total_cmp);
                let first = angles.first().copied().unwrap_or(0.0);
                let off = angles.iter().zip(0_u32..).any(|(angle, k)| {
                    let want = first + f64::from(k) / f64::from(n);
                    libm::fabs(angle - want) * lead > 0.06
                });
                broken.push((Rule::Thr043, off, "the starts aren't evenly spaced"));
            }
        }
        for (rule, is, detail) in broken {
            self.judge(rule, is, detail);
        }
    }
}
