//! Supply, guard, key, spindles, gears, nuts and feed: what is set, started and engaged.

use super::{Lathe, Rule};
use crate::exact::Ratio;
use crate::procedure::{
    Gear, InOut, Instrument, Lockable, Measured, Number, OpenShut, Running, Setting, Shape, Slide,
    Spindle, Tended, Turned, TurnedBy, Turning, WorkAt,
};

/// What a micrometer tells, mm.
const TOLD: f64 = 0.002;

impl Lathe {
    pub(super) fn isolate(&mut self) {
        self.m.supply = Some(false);
        self.m.lathe = Some(Running::Stopped);
    }

    pub(super) fn energise(&mut self) {
        // A detent on the head's own spindle is no matter of the lathe's motor.
        let detent = self.m.detent_in == Some(true) && !self.m.in_head();
        self.judge(Rule::Idx019, detent, "the supply is put on with the detent in");
        self.m.supply = Some(true);
        if self.m.lathe.is_none() {
            self.m.lathe = Some(Running::Stopped);
        }
    }

    pub(super) fn guard(&mut self, is: OpenShut) {
        if is == OpenShut::Open {
            let turning = self.m.lathe_turns() == Some(true);
            self.judge(Rule::RunGuard, turning, "the guard is opened while the spindle turns");
        }
        self.m.guard_shut = Some(is == OpenShut::Shut);
    }

    pub(super) fn key(&mut self, is: InOut) {
        if is == InOut::In {
            let turning = self.m.lathe_turns() == Some(true);
            self.judge(Rule::Gen010, turning, "the key is put to a turning chuck");
            self.isolated(Rule::MountLive, "the key is in while the supply is on");
        }
        self.m.key_in = Some(is == InOut::In);
        self.m.record.tail_key &= is == InOut::In;
    }

    /// Hands are where only an isolated machine is safe.
    pub(super) fn isolated(&mut self, rule: Rule, detail: &'static str) {
        self.need(self.m.supply, false, (Rule::UnknownSupply, rule), detail);
    }

    /// The lathe spindle must be at rest, and known to be.
    pub(super) fn at_rest(&mut self, rule: Rule, detail: &'static str) {
        self.need(self.m.lathe_turns(), false, (Rule::UnknownSpindle, rule), detail);
    }

    /// The cutter must stand clear, and be known to.
    pub(super) fn stands_clear(&mut self, rule: Rule, detail: &'static str) {
        if self.m.cutter.is_some() && self.m.work.is_some() {
            self.need(self.m.clear, true, (Rule::UnknownPlace, rule), detail);
        }
    }

    /// It must not stand in the work.
    pub(super) fn not_in_work(&mut self, rule: Rule, detail: &'static str) {
        if self.m.cutter.is_some() && self.m.work.is_some() {
            self.judge(rule, self.m.clear == Some(false), detail);
        }
    }

    pub(super) fn run_spindle(&mut self, of: Spindle, is: Running) {
        if is == Running::Stopped {
            let middle = self.m.at_middle;
            self.judge(Rule::Fac006, middle, "stopped with the tool at the middle of the face");
            let mills = (of == Spindle::Cutter || self.m.cutter_in_spindle())
                && self.m.in_work
                && self.m.clear != Some(true);
            self.judge(Rule::Mil013, mills, "the cutter is stopped in the cut");
            if of == Spindle::Lathe {
                self.spindle_stops();
                self.stopped_in_hole(is);
                self.stopped_pressed();
            }
        } else {
            self.start(of, is);
        }
        match of {
            Spindle::Lathe => self.m.lathe = Some(is),
            Spindle::Cutter => self.m.cutter_spindle = Some(is),
        }
    }

    fn start(&mut self, of: Spindle, is: Running) {
        // A knurl's first print is looked at with its wheels left where they are.
        if self.m.shape() != Some(Shape::Knurl) {
            self.stands_clear(Rule::RunInWork, "started with the cutter against the work");
        }
        if of == Spindle::Cutter {
            let back = is == Running::Reverse;
            self.judge(Rule::Mil011, back, "a right-hand cutter is run backwards");
            // A spindle of its own on the slide has the speeds that its maker gave it: no shop lists them.
            return;
        }
        self.thread_start(is);
        let m = &self.m;
        let (key, guard, supply) = (m.key_in, m.guard_shut, m.supply);
        let (nuts, feed, lock) = (m.nuts_in, m.feed_in, m.lock(Lockable::LatheSpindle));
        self.need(supply, true, (Rule::UnknownSupply, Rule::RunIsolated), "the supply at a start");
        self.need(key, false, (Rule::UnknownKey, Rule::Gen010), "the key at a start");
        self.need(guard, true, (Rule::UnknownGuard, Rule::RunGuard), "the guard at a start");
        if self.m.shape() != Some(Shape::ThreadingTool) {
            self.need(nuts, false, (Rule::UnknownNuts, Rule::Gen017), "the half-nuts at a start");
        }
        self.need(feed, false, (Rule::UnknownFeed, Rule::Gen017), "the power feed at a start");
        let locked = "the spindle's lock at a start";
        self.need(lock, false, (Rule::UnknownLock, Rule::RunLock), locked);
        let detent = self.m.detent_in == Some(true) && !self.m.in_head();
        let held = detent || (self.m.divides() && self.m.work_in_spindle());
        self.judge(Rule::Idx018, held, "the spindle is started while it holds work to be divided");
        let board = self.m.board;
        self.judge(Rule::Hol007, board, "the board is on the ways");
        let rpm = self.m.rpm;
        self.judge(Rule::UnknownSpeed, rpm.is_none(), "no speed was set");
        if let (Some(rpm), Some(most)) = (rpm, self.m.rpm_max) {
            self.judge(Rule::Hol013, rpm > most, "faster than the holder may turn");
        }
        let key = self.m.record.tail_key;
        self.judge(Rule::Dri017, key, "the key of the tailstock's chuck wasn't looked for");
        self.stopped_in_hole(is);
        if is == Running::Reverse {
            let mills = self.m.cutter_in_spindle();
            self.judge(Rule::Mil011, mills, "a right-hand cutter is run backwards");
            let screwed = self.m.shop.screwed != Some(false);
            self.judge(Rule::Hol002, screwed, "a chuck that may be screwed on is reversed");
        }
        let empty = self.m.work.is_none();
        self.judge(Rule::UnknownWork, empty, "nobody mounted the work or looked at it");
        let through = self.m.turned_through;
        self.judge(Rule::Gen011, !through, "not turned through by hand before the start");
        if self.m.tail_centre {
            let clamped = self.m.lock(Lockable::Tailstock) == Some(true);
            self.judge(Rule::Gen012, !clamped, "the tailstock isn't clamped");
            let quill = self.m.lock(Lockable::Quill) == Some(true);
            self.judge(Rule::Cen004, !quill, "the quill that bears the centre isn't locked");
            let dry = !self.m.record.centre_oiled;
            self.judge(Rule::Cen006, dry, "the centre wasn't oiled before the start");
            let unseen = self.m.in_line.is_none();
            self.judge(
                Rule::UnknownTailstock,
                unseen,
                "nobody looked whether the tailstock is in line",
            );
        }
        if self.m.work_in_spindle() {
            self.stands_out(Rule::Tur012);
        }
    }

    /// Work that stands far out has a centre or a steady.
    pub(super) fn stands_out(&mut self, rule: Rule) {
        let Some(work) = &self.m.work else { return };
        if let (Some(out), Some(across), WorkAt::LatheSpindle | WorkAt::Head) =
            (work.out, work.diameter, work.at)
        {
            let long = out.mm.to_f64() > 3.0 * across.mm.to_f64() + super::SAME;
            let alone = !self.m.tail_centre && !self.m.steady;
            self.judge(rule, long && alone, "more than three diameters out, without a centre");
        }
    }

    pub(super) fn set(&mut self, setting: &Setting) {
        let mills = self.m.in_work && self.m.turning() && self.m.clear != Some(true);
        match setting {
            Setting::Speed { rpm, .. } => {
                self.judge(Rule::Mil015, mills, "the speed is changed in the cut");
                self.at_rest(Rule::Gen018, "the speed is set while the spindle turns");
                let owned = &self.m.shop.speeds;
                let missing = !owned.is_empty() && !owned.contains(rpm);
                self.judge(Rule::SpeedMissing, missing, "the lathe hasn't got that speed");
                self.m.rpm = Some(*rpm);
            }
            Setting::CutterSpeed { rpm } => {
                self.judge(Rule::Mil015, mills, "the speed is changed in the cut");
                self.m.cutter_rpm = Some(*rpm);
            }
            Setting::Feed { each_turn, .. } => {
                self.judge(Rule::Mil015, mills, "the feed is changed in the cut");
                self.m.each_turn = Some(each_turn.mm.to_f64());
            }
            Setting::Gearbox { ratio, .. } => {
                self.at_rest(Rule::Gen018, "the gearbox is set while the spindle turns");
                self.set_gearbox(ratio.0);
            }
            Setting::Lead { each_turn } => self.set_lead(each_turn.mm),
            Setting::Tumbler { is } => {
                self.at_rest(Rule::Chg008, "the tumbler is shifted while the spindle turns");
                self.m.tumbler = Some(*is);
            }
            Setting::Die { is } => {
                self.at_rest(Rule::Gen008, "a die is set while the spindle turns");
                self.m.record.die_open = Some(*is == OpenShut::Open);
            }
            Setting::BackGear { is } => {
                self.at_rest(Rule::Gen018, "the back gear is moved while the spindle turns");
                let locked = self.m.lock(Lockable::LatheSpindle) == Some(true);
                let solid = *is == InOut::In && locked;
                self.judge(Rule::Gen019, solid, "the back gear goes in on a locked spindle");
                self.m.back_gear = Some(*is == InOut::In);
            }
        }
    }

    pub(super) fn turn_by_hand(
        &mut self,
        what: Turned,
        by: TurnedBy,
        way: Turning,
        turns: Option<Number>,
        teeth: Option<Number>,
        of: Option<u16>,
    ) {
        let part =
            teeth.zip(of).and_then(|(teeth, of)| teeth.0.div(Ratio::from(u32::from(of))).ok());
        if let Some(teeth) = teeth {
            self.m.by_teeth = true;
            let two = teeth.0.mul(Ratio::whole(2)).is_ok_and(Ratio::is_whole);
            let seats = teeth.0.is_whole() || (two && self.m.shop.half_tooth);
            self.judge(Rule::Idx021, !seats, "the detent doesn't seat there");
        }
        let amount = part.or(turns.map(|n| n.0)).unwrap_or(Ratio::ZERO);
        let signed = if way == Turning::Back { amount.neg() } else { amount };
        match what {
            Turned::LatheSpindle => {
                self.at_rest(Rule::Gen009, "a hand on the turning spindle");
                if by == TurnedBy::Gear {
                    let live = self.m.supply != Some(false);
                    self.judge(Rule::Chg014, live, "fingers in the gears, the supply on");
                }
                self.isolated(Rule::MountLive, "the spindle is turned by hand, the supply on");
                let lock = self.m.lock(Lockable::LatheSpindle);
                let locked = "the spindle's lock while it is turned";
                self.need(lock, false, (Rule::UnknownLock, Rule::MoveLocked), locked);
                self.hands_off_the_cutter();
                let held = self.m.detent_in == Some(true);
                self.judge(Rule::DetentHeld, held, "the detent is in");
                if amount >= Ratio::ONE {
                    self.m.turned_through = true;
                }
                let reams = self.m.shape() == Some(Shape::Reamer) && self.m.in_work;
                let back = reams && way == Turning::Back;
                self.judge(Rule::Rea009, back, "a reamer is turned backward");
                self.spindle_by_hand(signed);
                if self.m.work_in_spindle() {
                    if self.m.divides() {
                        self.not_in_work(Rule::Div015, "the work is turned in the cut");
                        self.burr_at_hand();
                    }
                    self.turned(signed, way);
                    self.m.hand_way = Some(way);
                }
            }
            Turned::HeadSpindle => {
                let worm = self.m.head.worm;
                let mesh = "the head's spindle is turned with the worm in mesh";
                self.need(worm, false, (Rule::UnknownWorm, Rule::Idx008), mesh);
                self.free_to_index();
                let held = self.m.detent_in == Some(true);
                self.judge(Rule::DetentHeld, held, "the detent is in");
                self.m.head.direct = true;
                self.turned(signed, way);
                self.m.hand_way = Some(way);
            }
            Turned::CutterSpindle => {
                let turning = self.m.cutter_spindle.is_some_and(|is| is != Running::Stopped);
                self.judge(Rule::Gen009, turning, "a hand on the turning cutter");
            }
            Turned::Leadscrew => {}
        }
    }

    /// The work is turned by so much.
    pub(super) fn turned(&mut self, by: Ratio, way: Turning) {
        self.m.approach.get_or_insert(way);
        match self.m.angle.add(by) {
            Ok(angle) => self.m.angle = angle,
            Err(_) => self.m.angle_lost = true,
        }
        self.m.detent_at = self.m.detent_at.add(by).unwrap_or_default();
    }

    pub(super) fn lock(&mut self, what: Lockable, on: bool) {
        let holds = match what {
            Lockable::LatheSpindle => self.m.work_in_spindle(),
            Lockable::Head => self.m.work_rides(),
            _ => false,
        };
        if holds {
            self.hands_off_the_cutter();
        }
        if !on && holds {
            self.not_in_work(Rule::Div015, "the work is let go with the cutter in it");
        }
        if on && what == Lockable::LatheSpindle {
            self.at_rest(Rule::RunLock, "the turning spindle is locked");
        }
        if let Some(lock) = self.m.locks.get_mut(what as usize) {
            *lock = Some(on);
        }
        if let Some(here) = self.m.put_on.get_mut(what as usize) {
            *here = on;
        }
    }

    /// No hand goes to the work while a cutter turns beside it.
    pub(super) fn hands_off_the_cutter(&mut self) {
        let mills = self.m.divides()
            && match self.m.cutter_in_spindle() {
                true => self.m.lathe.is_some_and(|is| is != Running::Stopped),
                false => self.m.cutter_spindle.is_some_and(|is| is != Running::Stopped),
            };
        self.judge(Rule::Mil016, mills, "a hand near a turning cutter");
    }

    pub(super) fn mesh(&mut self, driver: Gear, driven: Gear, on: bool) {
        self.isolated(Rule::Chg001, "gears are handled with the supply on");
        self.remeshed(driver, on);
        if on {
            self.m.meshed.push((driver, driven));
        } else {
            self.m.meshed.retain(|pair| *pair != (driver, driven));
        }
    }

    pub(super) fn half_nuts(&mut self, is: InOut) {
        if is == InOut::In {
            let feed = self.m.feed_in;
            let both = "the half-nuts are closed with the feed in";
            self.need(feed, false, (Rule::UnknownFeed, Rule::Gen036), both);
            self.carriage_free();
        }
        self.m.nuts_in = Some(is == InOut::In);
    }

    pub(super) fn power_feed(&mut self, is: InOut, slide: Slide) {
        if is == InOut::In {
            let nuts = self.m.nuts_in;
            let both = "the feed is put in with the half-nuts closed";
            self.need(nuts, false, (Rule::UnknownNuts, Rule::Gen036), both);
            if slide == Slide::Carriage {
                self.carriage_free();
            }
        }
        self.m.feed_in = Some(is == InOut::In);
    }

    pub(super) fn carriage_free(&mut self) {
        let locked = self.m.lock(Lockable::Carriage) == Some(true);
        self.judge(Rule::Tur017, locked, "the carriage is locked");
    }

    /// Hands, or a gauge, go to the work.
    pub(super) fn hands_at_work(&mut self, measures: bool) {
        let rest = self.m.lathe_turns();
        let (unknown, wrong) = (Rule::UnknownSpindle, Rule::Gen007);
        self.need(rest, false, (unknown, wrong), "a gauge or a hand at turning work");
        self.not_in_work(Rule::Mea003, "the cutter isn't withdrawn");
        if measures {
            let turned = matches!(self.m.shape(), Some(Shape::TurningTool | Shape::BoringBar));
            let dirty = self.m.dirty || turned && self.m.burr;
            self.judge(Rule::Mea001, dirty, "neither wiped nor deburred since the cut");
        }
        self.burr_at_hand();
    }

    pub(super) fn burr_at_hand(&mut self) {
        let burr = self.m.burr && self.m.milled;
        self.judge(Rule::Mil034, burr, "a milled edge is handled before it is deburred");
    }

    pub(super) fn measure(
        &mut self,
        what: Measured,
        with: Instrument,
        should: Option<[f64; 2]>,
        found: Option<f64>,
    ) {
        let turning = self.m.lathe_turns() == Some(true);
        if what == Measured::Bore {
            self.judge(Rule::Bor011, turning, "a gauge in a turning bore");
        } else if with == Instrument::Caliper {
            self.judge(Rule::Mea011, turning, "a caliper on turning work");
        }
        let mills = self.m.turning() && self.m.shape().is_some_and(turns_itself);
        self.judge(Rule::Mil016, mills, "a gauge near a turning cutter");
        self.hands_at_work(true);
        let place = self.m.at.get(2).filter(|place| place.known && !place.rough);
        let over =
            place.is_some_and(|place| place.at * self.m.outward < self.part.face - super::SAME);
        let near = over
            && self.m.turns_work()
            && !self.threads()
            && self.m.shape() != Some(Shape::PartingBlade);
        self.judge(Rule::Mea003, near, "the tool stands over the work where the hands go");
        let any = self.m.turning();
        self.judge(Rule::Mea002, any, "something turns while it is measured");
        self.m.measured = true;
        let along = self.part.outside.last().map(|s| s.to);
        let is = match what {
            Measured::Diameter => along.and_then(|z| self.part.radius(z)).map(|r| r * 2.0),
            Measured::Bore => self.part.bore.last().map(|s| s.radius * 2.0),
            _ => None,
        };
        if let Some(found) = found {
            self.found(what, found);
        } else if let Some((is, [low, high])) = is.zip(should) {
            // Nearer than a micrometer tells it, or as near as a line of the cross slide sets it.
            let line = self.sled(Slide::Cross).and_then(super::slides::Sled::line);
            let told = f64::max(TOLD, line.unwrap_or(0.0) * 1.01);
            let other = is < low - told || is > high + told;
            self.judge(Rule::LookFalse, other, "it measures otherwise");
        }
    }

    /// The part is as it was measured, whatever the touch and the dial said: what is cut across from here on
    /// comes out by as much otherwise. Along, places are counted from the end that was touched: it is only as
    /// long as it measures.
    fn found(&mut self, what: Measured, is: f64) {
        let off = match what {
            Measured::Diameter => {
                let Some(last) = self.part.outside.last_mut() else { return };
                let off = is / 2.0 - last.radius;
                last.radius = is / 2.0;
                off
            }
            Measured::Bore => {
                let Some(last) = self.part.bore.last_mut() else { return };
                let off = is / 2.0 - last.radius;
                last.radius = is / 2.0;
                off
            }
            Measured::Length => {
                self.part.length = self.part.length.map(|_| is - self.part.face);
                0.0
            }
            _ => return,
        };
        if let Some(place) = self.m.at.first_mut() {
            place.at += off;
        }
    }

    /// Oil, or the fluid for the cut.
    pub(super) fn oil(&mut self, what: Tended) {
        if what == Tended::Centre {
            self.m.record.centre_oiled = true;
            return;
        }
        let brass = self.m.work.as_ref().is_some_and(|work| work.stock.as_deref() == Some("brass"));
        let turned = self.m.turns_work() && self.m.shape() == Some(Shape::TurningTool);
        self.judge(Rule::Gen040, brass && turned, "brass is turned dry");
        self.m.record.oiled = true;
    }

    pub(super) fn tend(&mut self, what: Tended, deburrs: bool) {
        let turning = self.m.turning();
        let mills = turning && self.m.shape().is_some_and(turns_itself);
        self.judge(Rule::Mil016, mills, "a brush or a rag near a turning cutter");
        let (rule, detail) = if deburrs {
            (Rule::Gen047, "deburred while it turns")
        } else {
            (Rule::Gen006, "cleaned while it turns")
        };
        self.judge(rule, turning, detail);
        match what {
            Tended::Work | Tended::Edges | Tended::Hole | Tended::Thread => {
                self.m.dirty = false;
                self.m.burr &= !deburrs;
                self.m.record.edged |= deburrs;
            }
            Tended::Nose => self.m.nose_clean = true,
            Tended::Slides | Tended::Swarf | Tended::Cutter | Tended::Centre => {}
        }
    }
}

/// Whether a cutter turns by itself.
pub(super) const fn turns_itself(shape: Shape) -> bool {
    matches!(shape, Shape::EndMill | Shape::Engraver | Shape::Disc)
}
