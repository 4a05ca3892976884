//! A feed: what must hold before it, how far it goes, and a turning tool's cut.

use super::slides::way;
use super::state::Lie;
use super::{Lathe, Rule, SAME};
use crate::procedure::{
    Beat, Face, FeedBy, Lockable, Reading, Running, Shape, Slide, Toward, Until, WorkAt,
};

/// How thick work is taken to be through which a drill goes, where nothing says it, mm.
const THROUGH: f64 = 100.0;

/// What a feed is asked to do, lengths in mm.
pub(super) struct Asked {
    pub(super) slide: Slide,
    pub(super) toward: Toward,
    pub(super) over: Option<f64>,
    pub(super) to: Option<Reading>,
    pub(super) until: Option<Until>,
    pub(super) by: FeedBy,
    pub(super) each_turn: Option<f64>,
    pub(super) beat: Option<Beat>,
}

/// How far along a mark on the work is taken to be, mm.
const MARKED: f64 = 3.0;
/// How far past the work a feed runs that ends when it is clear, mm.
const PAST: f64 = 1.0;

impl Lathe {
    pub(super) fn feed(&mut self, asked: &Asked) {
        if asked.by == FeedBy::Leadscrew && self.threads() {
            self.thread_feed(asked);
            return;
        }
        let Some(goes) = self.may_feed(asked) else { return };
        let (work, cutter) = (self.m.work.is_none(), self.m.cutter.is_none());
        self.judge(Rule::UnknownWork, work, "nobody mounted the work or looked at it");
        self.judge(Rule::UnknownCutter, cutter, "nobody mounted the cutter or looked at it");
        if work || cutter {
            return;
        }
        self.after_parting();
        if !self.carries(asked.slide) {
            return;
        }
        self.holds_still();
        self.turns_right(asked);
        self.others_bear(asked.slide);
        self.engaged(asked);
        self.chip(asked);
        let Some(far) = self.distance(asked, goes) else { return };
        let from = self.m.at.map(|place| place.at);
        self.shift(asked.slide, goes * far);
        self.m.depth_set = false;
        self.m.fed = self.axis_of(asked.slide);
        if self.m.turns_work() {
            let before = (self.part.outside.clone(), self.part.bore.clone(), self.part.face);
            self.turn(asked, from);
            let after = (&self.part.outside, &self.part.bore, self.part.face);
            let same = (&before.0, &before.1, before.2) == after && !self.part.outside.is_empty();
            let edge = matches!(self.m.shape(), Some(Shape::TurningTool | Shape::BoringBar));
            let nothing = same && edge && self.m.fed.is_some() && self.m.in_line != Some(false);
            self.judge(Rule::PartNothing, nothing, "the feed meets no metal");
        } else if self.bores_end() {
            self.bore_end(asked, from);
        } else {
            self.sweep(asked, from);
        }
        self.m.clear = match asked.until {
            Some(Until::Clear | Until::Through) if !self.bores_end() => Some(true),
            _ => Some(self.beyond() == Some(true)),
        };
        self.m.in_work = self.m.clear == Some(false);
        self.m.dirty = true;
        self.m.burr = true;
        self.m.milled |= matches!(self.m.shape(), Some(Shape::EndMill | Shape::Disc));
    }

    fn may_feed(&mut self, asked: &Asked) -> Option<f64> {
        let wall = self.m.at_wall && asked.slide == Slide::Carriage;
        if wall {
            // Another pass by the same bar goes on from the wall.
            self.m.at_wall = false;
        }
        if asked.slide == Slide::Carriage && asked.by != FeedBy::Hand {
            self.carriage_free();
            let goes = way(asked.slide, asked.toward);
            self.judge(Rule::MoveWay, goes.is_none(), "that slide doesn't go that way");
            return goes;
        }
        self.may_move(asked.slide, asked.toward)
    }

    /// What turns, and what stands, suits the cutter.
    fn turns_right(&mut self, asked: &Asked) {
        let Some(shape) = self.m.shape() else { return };
        let screws = matches!(shape, Shape::Tap | Shape::Die);
        self.judge(Rule::Tph004, screws, "a tap or a die is turned in, not fed");
        if self.m.turns_work() || self.bores_end() {
            let run = self.m.lathe.map(|is| is != Running::Stopped);
            self.judge(Rule::FeedStopped, run != Some(true), "the work stands while it is turned");
            let back = self.m.lathe == Some(Running::Reverse) && self.m.shop.screwed != Some(false);
            self.judge(Rule::Hol001, back, "a chuck that may be screwed on cuts in reverse");
            let back = self.m.lathe == Some(Running::Reverse);
            self.judge(Rule::FeedReverse, back, "the work runs against the back of the edge");
            return;
        }
        if shape == Shape::Scriber {
            self.isolated(Rule::Gra018, "a line is dragged with the supply on");
        } else if self.m.cutter_in_spindle() {
            let run = self.m.lathe.map(|is| is != Running::Stopped);
            self.judge(Rule::Mil013, run != Some(true), "fed with the cutter stopped");
        } else {
            let run = self.m.cutter_spindle.map(|is| is != Running::Stopped);
            self.judge(Rule::Mil013, run != Some(true), "fed with the cutter stopped");
            self.isolated(Rule::Idx018, "the work is cut in a spindle whose supply is on");
        }
        if shape == Shape::Disc {
            let untried = !self.m.saw_true;
            self.judge(Rule::Mil025, untried, "nobody looked whether the saw runs true");
        }
        let _ = asked;
    }

    /// The spindle that holds divided work is held, its pin home.
    fn holds_still(&mut self) {
        if !self.m.divides() {
            return;
        }
        let chalked = self.m.chalked || !self.part.marks.is_empty();
        self.judge(Rule::Div026, !chalked, "nothing is marked as nought before the first cut");
        self.stands_out(Rule::Hol012);
        let head = self.m.lock(Lockable::Head);
        let spindle = self.m.lock(Lockable::LatheSpindle);
        let detent = self.m.detent_in == Some(true);
        if self.m.work_at() == Some(WorkAt::Head) {
            let other = spindle == Some(true) && head != Some(true);
            self.judge(
                Rule::Div014,
                other,
                "the lathe spindle is locked, and the head holds the work",
            );
            let direct = self.m.head.direct;
            let rule = if direct { Rule::Idx009 } else { Rule::Idx003 };
            self.judge(rule, head != Some(true), "the head's spindle isn't clamped in the cut");
            let home = if direct { self.m.detent_in } else { self.m.head.crank_in };
            self.need(home, true, (Rule::UnknownPin, Rule::PinHome), "the pin isn't home");
            if !direct && !self.m.geared() {
                let stop = self.m.head.stop_in;
                self.need(stop, true, (Rule::UnknownPin, Rule::PinHome), "the stop pin isn't home");
            }
            if !direct {
                let worm = self.m.head.worm;
                self.need(
                    worm,
                    true,
                    (Rule::UnknownWorm, Rule::Idx008),
                    "the worm is out in the cut",
                );
            }
            let behind = self.m.head.arms.is_some() && self.m.head.moved && !self.m.head.swung;
            self.judge(Rule::Idx007, behind, "the arms weren't swung on before the cut");
        } else {
            let other = head == Some(true) && spindle != Some(true);
            self.judge(
                Rule::Div014,
                other,
                "the head is locked, and the lathe spindle holds the work",
            );
            let rule = if detent { Rule::Idx022 } else { Rule::Div025 };
            self.judge(rule, spindle != Some(true), "the lathe spindle isn't locked");
            self.at_rest(Rule::FeedStopped, "divided work turns while it is cut");
            if self.m.by_teeth {
                self.judge(Rule::PinHome, !detent, "the detent isn't home");
            }
        }
        let (way, rule) = if self.m.work_at() == Some(WorkAt::Head) && !self.m.head.direct {
            (self.m.head.way, Rule::Idx002)
        } else {
            (self.m.hand_way, Rule::Idx023)
        };
        if let Some(way) = way {
            let first = self.m.approach.unwrap_or(way);
            self.judge(rule, way != first, "come to from the other side than the first place");
        }
        let disturbed = self.m.disturbed;
        let rule = if self.m.shape() == Some(Shape::Scriber) { Rule::Gra008 } else { Rule::Div016 };
        self.judge(rule, disturbed, "the cutter was moved between two places");
    }

    /// One slide moves: each other that bears the force is locked, or stands against its slack.
    fn others_bear(&mut self, fed: Slide) {
        let rides = self.m.work_rides();
        let tail = fed == Slide::Quill;
        if tail {
            let clamped = self.m.lock(Lockable::Tailstock);
            let loose = "the tailstock isn't clamped";
            self.judge(Rule::Dri003, clamped != Some(true), loose);
            let reams = self.m.shape() == Some(Shape::Reamer);
            let over = if reams { Rule::Rea015 } else { Rule::Dri005 };
            let line = self.m.in_line;
            self.need(line, true, (Rule::UnknownTailstock, over), "the tailstock is set over");
            return;
        }
        let stale = [Slide::Carriage, Slide::Cross, Slide::Compound, Slide::Vertical]
            .into_iter()
            .filter(|slide| *slide != fed)
            .filter_map(|slide| self.sled(slide))
            .any(|sled| sled.stale);
        self.judge(Rule::Gen049, stale, "a slide was come to from the other side than its touch");
        let shape = self.m.shape();
        let spindle = self.m.cutter_in_spindle();
        if fed != Slide::Carriage {
            let swung = self.compound_swung();
            let rule = match shape {
                _ if fed == Slide::Compound && swung => Rule::Tap006,
                Some(Shape::PartingBlade) => Rule::Par008,
                Some(Shape::TurningTool) if fed == Slide::Cross => Rule::Fac004,
                Some(Shape::Engraver) if spindle => Rule::Gra014,
                Some(Shape::Scriber) if fed == Slide::Cross => Rule::Div002,
                Some(Shape::Scriber) => Rule::Div001,
                Some(Shape::EndMill)
                    if fed == Slide::Cross && self.cutter_axis() == Some(2) && !spindle =>
                {
                    Rule::Div005
                }
                _ if spindle => Rule::Mil001,
                _ => Rule::Gen048,
            };
            let lock = self.m.lock(Lockable::Carriage);
            self.judge(rule, lock != Some(true), "the carriage isn't locked");
        }
        if fed != Slide::Compound && !rides && self.m.compound_on {
            let locked = self.m.lock(Lockable::Compound) == Some(true);
            let pressed = self.sled(Slide::Compound).is_some_and(|sled| sled.way < 0.0);
            let lie = self.m.compound == Lie::Unknown;
            self.judge(Rule::UnknownCompound, lie, "nobody looked how the compound lies");
            let loose = !locked && !pressed;
            let rule = if shape == Some(Shape::PartingBlade) { Rule::Par008 } else { Rule::Gen048 };
            self.judge(rule, loose, "the compound is neither locked nor against its slack");
        }
        if fed != Slide::Cross {
            let locked = self.m.lock(Lockable::Cross) == Some(true);
            let sled = self.sled(Slide::Cross).copied();
            let pressed = sled.is_some_and(|s| s.touched && s.way * s.zero_way > 0.0);
            let drill = shape.is_some_and(end_only) && self.m.work_at() == Some(WorkAt::Head);
            let swung = fed == Slide::Compound && self.compound_swung();
            let rule = match (drill, swung) {
                (true, _) => Rule::Div032,
                (_, true) => Rule::Tap006,
                _ => Rule::Gen048,
            };
            let loose = !locked && (drill || !pressed);
            self.judge(rule, loose, "the cross slide is neither locked nor against its slack");
        }
        if fed != Slide::Vertical && self.m.vertical_on {
            let lock = self.m.lock(Lockable::Vertical);
            self.judge(Rule::Gen048, lock != Some(true), "the vertical slide isn't locked");
        }
    }

    /// What drives the feed, and nothing else with it.
    fn engaged(&mut self, asked: &Asked) {
        let (nuts, feed) = (self.m.nuts_in, self.m.feed_in);
        match asked.by {
            FeedBy::Power => {
                let both = "fed by power with the half-nuts closed";
                self.need(nuts, false, (Rule::UnknownNuts, Rule::Gen036), both);
                if asked.slide != Slide::Quill {
                    let out = "the power feed isn't in";
                    self.need(feed, true, (Rule::UnknownFeed, Rule::FeedEngaged), out);
                }
                let each = asked.each_turn.is_none() && self.m.each_turn.is_none();
                self.judge(Rule::UnknownFeed, each, "no feed was set");
                let untried = !self.m.tool_tried;
                if self.m.shape() == Some(Shape::TurningTool) {
                    self.judge(Rule::Tur018, untried, "not tried by hand before the feed by power");
                }
                let shoulder = asked.until == Some(Until::Shoulder);
                self.judge(Rule::Tur014, shoulder, "by power up to a shoulder");
                self.m.feed_in = Some(false);
            }
            FeedBy::Leadscrew => {
                let both = "fed by the leadscrew with the feed in";
                self.need(feed, false, (Rule::UnknownFeed, Rule::Gen036), both);
                let open = "the half-nuts aren't closed";
                self.need(nuts, true, (Rule::UnknownNuts, Rule::FeedEngaged), open);
            }
            FeedBy::Hand | FeedBy::TapWrench if asked.slide == Slide::Carriage => {
                self.need(nuts, false, (Rule::UnknownNuts, Rule::FeedEngaged), "the half-nuts");
                self.need(feed, false, (Rule::UnknownFeed, Rule::FeedEngaged), "the power feed");
            }
            FeedBy::Hand | FeedBy::TapWrench => {}
        }
        if self.m.shape() == Some(Shape::BoringBar) {
            let untried = !self.m.tool_tried;
            self.judge(Rule::Bor006, untried, "the bar wasn't run in by hand first");
        }
    }

    /// How far the slide goes, mm; none where that can't be told.
    fn distance(&mut self, asked: &Asked, goes: f64) -> Option<f64> {
        if let Some(over) = asked.over {
            return Some(over);
        }
        if asked.to.is_none()
            && let Some(far) = self.end_distance(asked)
        {
            return Some(far);
        }
        if let Some(reading) = &asked.to {
            let sled = self.sled(asked.slide).copied()?;
            let side = way(asked.slide, asked.toward)?;
            let length = sled.length(reading);
            self.judge(Rule::UnknownDial, length.is_none(), "what a line is worth isn't known");
            self.judge(Rule::UnknownZero, sled.zero.is_none(), "nought was never set");
            let (length, zero) = length.zip(sled.zero)?;
            let other = sled.zero_way * goes < 0.0;
            self.judge(Rule::Gen051, other, "read after the handle was turned back");
            let behind = if other { sled.slack() * sled.zero_way } else { 0.0 };
            let far = (zero + side * length + behind - sled.at) * goes;
            self.judge(Rule::MoveWay, far < -SAME, "it stands beyond that reading already");
            return Some(f64::max(far, 0.0));
        }
        let axis = self.axis_of(asked.slide);
        if asked.until == Some(Until::Clear) {
            if axis.is_none() {
                return self.up_the_cone(asked.slide, goes);
            }
            if axis == Some(2) && self.m.cone.over.is_some() && self.m.turns_work() {
                return self.along_the_cone();
            }
        }
        // The middle can be seen, whether or not a diameter was touched.
        if asked.until == Some(Until::Middle)
            && let Some(place) = axis.and_then(|axis| self.m.at.get_mut(axis))
            && !place.known
        {
            *place = super::state::Place { known: true, ..Default::default() };
            return Some(0.0);
        }
        let place = axis.and_then(|axis| self.m.at.get(axis)).copied();
        self.judge(Rule::UnknownPlace, place.is_none_or(|p| !p.known), "where it ends isn't known");
        let (axis, place) = axis.zip(place.filter(|p| p.known))?;
        let along = self.m.work_axis();
        let rides = if self.m.work_rides() { -1.0 } else { 1.0 };
        if asked.until == Some(Until::Middle) {
            let away = place.at * goes * rides > SAME;
            self.judge(Rule::MoveWay, away, "fed away from the middle");
        }
        match asked.until {
            Some(Until::Middle) => Some(libm::fabs(place.at)),
            Some(Until::Stop) => {
                let stop = self.m.stop;
                self.judge(Rule::MoveMissing, !stop, "no stop is mounted");
                let sled = self.sled(asked.slide)?;
                Some(f64::max((sled.zero? - sled.at) * goes, 0.0))
            }
            Some(Until::Shoulder) if Some(axis) == along => {
                let end = self.part.outside.first()?.to;
                Some(libm::fabs(place.at * self.m.outward - end))
            }
            Some(Until::Through)
                if self.part.outside.is_empty() && self.m.shape().is_some_and(end_only) =>
            {
                // The end of a hole that goes through shows itself.
                Some(self.part.length.unwrap_or(THROUGH) + PAST)
            }
            Some(Until::Clear | Until::Through | Until::Full) => {
                let open = self.part.outside.is_empty();
                self.judge(Rule::UnknownSize, open, "how long the work is isn't known");
                let reach = self.reach(axis) + PAST;
                let ahead = place.at * goes * rides;
                if Some(axis) == along {
                    let toward_end = goes * rides * self.m.outward > 0.0;
                    let edge =
                        if toward_end { self.part.face } else { -self.part.outside.first()?.from };
                    Some(f64::max(edge + reach - ahead, 0.0))
                } else {
                    Some(f64::max(self.outermost()? + reach - ahead, 0.0))
                }
            }
            // A mark made on the work by whoever cuts it: anybody sees where it ends.
            Some(Until::Mark) => Some(MARKED),
            _ => {
                self.judge(Rule::UnknownPlace, true, "nothing says how far the feed goes");
                None
            }
        }
    }

    /// A tool that stands against turning work, fed from where it stood.
    fn turn(&mut self, asked: &Asked, from: [f64; 3]) {
        let Some(shape) = self.m.shape() else { return };
        let across = self.axis_of(asked.slide);
        let height = self.m.tool_height;
        let size = self.outermost();
        self.m.unmeasured = !self.m.measured && across == Some(2) && self.m.cone.over.is_none();
        self.judge(Rule::UnknownHeight, height.is_none(), "the tool's height was never set");
        let faces = across == Some(0) && shape == Shape::TurningTool;
        let sized = faces || shape == Shape::BoringBar || size.is_some();
        self.judge(Rule::UnknownSize, !sized, "the work's size isn't known");
        let size = size.or(sized.then_some(0.0));
        if let (Some(height), Some(size)) = (height, size) {
            let (rule, low, high) = match shape {
                Shape::BoringBar => (Rule::Bor008, 0.0, 0.04 * size),
                _ if faces => (Rule::Fac005, 0.0, 0.0),
                _ => (Rule::Tur011, 0.0, 0.04 * size),
            };
            let off = height < low - SAME || height > high + SAME;
            self.judge(rule, off, "the tool isn't at its height");
        }
        let [x, _, z] = self.m.at;
        self.judge(Rule::UnknownTouch, !x.known, "the tool never touched a diameter or the middle");
        let face = self.m.at.get(2).is_some_and(|p| p.face == Some(Face::End));
        if !z.known || (z.rough && asked.over.is_some()) {
            self.judge(Rule::UnknownPlace, true, "where it stands along the work isn't known");
        } else {
            self.judge(Rule::UnknownPlace, false, "");
        }
        if shape == Shape::PartingBlade {
            let centre = self.m.tail_centre;
            self.judge(Rule::Par003, centre, "parted with a centre in the work");
        }
        let reach = self.part.outside.first().map_or(f64::MIN, |s| s.from);
        let swung = across.is_none() && asked.slide == Slide::Compound;
        if swung && shape == Shape::TurningTool {
            self.cone(asked, from);
            return;
        }
        if across == Some(2) && self.m.cone.over.is_some() && shape == Shape::TurningTool {
            self.cone_between_centres(asked);
            return;
        }
        match across {
            _ if shape == Shape::Knurl => self.knurls(asked, across, from),
            Some(2) => {
                let (from_z, to_z) = (from.get(2).copied().unwrap_or(0.0), z.at);
                let (low, high) = (f64::min(from_z, to_z), f64::max(from_z, to_z));
                let holder = low < reach - SAME && shape == Shape::TurningTool;
                self.judge(Rule::PartHolder, holder, "the tool runs into the holder");
                if shape == Shape::BoringBar {
                    let nothing =
                        self.part.bore_radius(high).is_none() && self.part.bore.is_empty();
                    self.judge(Rule::PartFit, nothing, "there is no hole for the bar");
                    self.part.open(low, f64::min(high, self.part.face), x.at);
                    self.m.at_wall = true;
                } else {
                    let back = asked.toward == Toward::Tailstock;
                    self.judge(Rule::Tur003, back, "turned away from the headstock");
                    self.part.turn(low, f64::max(high, 0.0), x.at);
                }
            }
            Some(0) if shape == Shape::BoringBar => {
                let end = f64::max(x.at, from.first().copied().unwrap_or(0.0));
                self.part.open(z.at, self.part.face, end);
            }
            Some(0) => {
                let end = f64::min(x.at, from.first().copied().unwrap_or(0.0));
                if asked.until == Some(Until::Middle) {
                    let centre = self.m.tail_centre;
                    self.judge(Rule::Fac008, centre, "faced to the middle with a centre in it");
                    self.m.at_middle = asked.by == FeedBy::Power || asked.by == FeedBy::Hand;
                }
                if shape == Shape::TurningTool {
                    let lying = self.m.compound_touched && self.m.compound == Lie::Unknown;
                    self.judge(
                        Rule::Fac003,
                        lying,
                        "a face's depth by a compound never set along the bed",
                    );
                }
                let hole = self.part.bore.last().map_or(0.0, |s| s.radius);
                if shape == Shape::PartingBlade {
                    self.parts(asked, end);
                } else if end <= hole + SAME {
                    self.part.shorten(z.at);
                } else {
                    self.part.turn(z.at, 0.0, end);
                }
            }
            _ => self.judge(Rule::PartWrong, true, "that slide neither turns nor faces here"),
        }
        let _ = face;
    }
}

/// Whether a cutter cuts with its end only.
pub(super) const fn end_only(shape: Shape) -> bool {
    matches!(
        shape,
        Shape::Drill
            | Shape::CentreDrill
            | Shape::Reamer
            | Shape::Counterbore
            | Shape::Countersink
            | Shape::Tap
    )
}
