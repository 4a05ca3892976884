//! The dividing head, its crank, plate, pins and arms, and the detent.

use super::state::{Lie, Machine};
use super::{Lathe, Rule};
use crate::exact::Ratio;
use crate::procedure::{Adjustable, Axis, Chalked, GearOn, InOut, Lockable, Toward, Turning};

impl Machine {
    /// Whether the plate is geared to the head's spindle.
    pub(super) fn geared(&self) -> bool {
        let plate = |on: GearOn| matches!(on, GearOn::HeadSpindle | GearOn::PlateShaft);
        self.meshed.iter().any(|(driver, driven)| plate(driver.on) || plate(driven.on))
    }

    /// Turns of the plate for one of the head's spindle, against the crank less than nothing.
    fn plate_turns(&self) -> Option<Ratio> {
        let mut all = Ratio::ONE;
        for (driver, driven) in &self.meshed {
            // An idler between two gears drives what it is driven by.
            if let Some(teeth) = driver.teeth.filter(|_| driver.on != GearOn::IdlerStud) {
                all = all.mul(Ratio::from(u32::from(teeth))).ok()?;
            }
            if let Some(teeth) = driven.teeth.filter(|_| driven.on != GearOn::IdlerStud) {
                all = all.div(Ratio::from(u32::from(teeth))).ok()?;
            }
        }
        Some(if self.head.creep == Some(Turning::Back) { all.neg() } else { all })
    }
}

impl Lathe {
    /// The head's spindle may be turned: its clamp off, the cutter clear.
    pub(super) fn free_to_index(&mut self) {
        let on = self.m.head.on;
        self.judge(Rule::UnknownHead, !on, "no head is mounted");
        let clamp = self.m.lock(Lockable::Head);
        let clamped = "the head's spindle is turned while it is clamped";
        self.need(clamp, false, (Rule::UnknownLock, Rule::Idx003), clamped);
        self.not_in_work(Rule::Div015, "the work is turned with the cutter in it");
        self.hands_off_the_cutter();
    }

    pub(super) fn turn_crank(&mut self, turns: u32, holes: u16, circle: Option<u16>, way: Turning) {
        self.free_to_index();
        let (worm, crank, stop) = (self.m.head.worm, self.m.head.crank_in, self.m.head.stop_in);
        let geared = self.m.geared();
        self.need(
            worm,
            true,
            (Rule::UnknownWorm, Rule::Idx008),
            "the worm while the crank is turned",
        );
        self.need(
            crank,
            false,
            (Rule::UnknownPin, Rule::PinHeld),
            "the crank's pin while it is turned",
        );
        let held = "the plate's stop pin while the crank is turned";
        self.need(stop, !geared, (Rule::UnknownPin, Rule::Idx010), held);
        if geared {
            let creep = self.m.head.creep.is_none();
            self.judge(Rule::UnknownCreep, creep, "nobody looked which way the plate creeps");
            let tilted = self.m.head.tilted;
            self.judge(Rule::Idx011, tilted, "a tilted head can't be geared to its plate");
        }
        if let Some(circle) = circle {
            self.owns_circle(circle);
            let other = self.m.head.crank_circle.is_some_and(|pin| pin != circle);
            self.judge(Rule::PinCircle, other, "the crank's pin runs in another circle");
        }
        let part = match circle {
            Some(circle) => ratio(holes, circle),
            None => (holes == 0).then_some(Ratio::ZERO),
        };
        self.judge(Rule::PlateCircle, part.is_none(), "holes of no circle");
        if let (Some((of, spaces)), true) = (self.m.head.arms, holes > 0) {
            let other = spaces != holes || circle.is_some_and(|circle| circle != of);
            self.judge(Rule::Idx005, other, "the arms stand at another count");
            let behind = !self.m.head.swung;
            self.judge(Rule::Idx007, behind, "the arms weren't swung on to the pin");
        }
        let part = part.unwrap_or(Ratio::ZERO);
        let Ok(amount) = Ratio::from(turns).add(part) else {
            self.m.angle_lost = true;
            return;
        };
        if way == Turning::Back {
            self.m.head.back = self.m.head.back.add(amount).unwrap_or_default();
        } else if self.m.head.back.is_positive() {
            let short = self.m.head.back < Ratio::of(1, 2);
            self.judge(
                Rule::Idx002,
                short,
                "back by less than half a turn before it comes forward",
            );
            self.m.head.back = Ratio::ZERO;
        }
        let signed = if way == Turning::Back { amount.neg() } else { amount };
        self.m.head.crank = self.m.head.crank.add(signed).unwrap_or_default();
        self.m.head.way = Some(way);
        self.m.head.moved = true;
        self.m.head.swung = false;
        self.m.head.direct = false;
        let by = self.worm_turns().and_then(|worm| {
            let worm = if geared { worm.sub(self.m.plate_turns()?).ok()? } else { worm };
            signed.div(worm).ok()
        });
        self.by_worm(by, way);
    }

    pub(super) fn turn_plate(&mut self, holes: u16, circle: u16, way: Turning) {
        self.free_to_index();
        let (worm, crank, stop) = (self.m.head.worm, self.m.head.crank_in, self.m.head.stop_in);
        self.need(
            worm,
            true,
            (Rule::UnknownWorm, Rule::Idx008),
            "the worm while the plate is turned",
        );
        self.need(
            crank,
            true,
            (Rule::UnknownPin, Rule::PinsBothOut),
            "the crank's pin as the plate turns",
        );
        self.need(
            stop,
            false,
            (Rule::UnknownPin, Rule::PinHeld),
            "the stop pin as the plate turns",
        );
        self.owns_circle(circle);
        let other = self.m.head.stop_circle.is_some_and(|pin| pin != circle);
        self.judge(Rule::PinCircle, other, "the stop pin runs in another circle");
        let Some(amount) = ratio(holes, circle) else {
            self.judge(Rule::PlateCircle, true, "holes of no circle");
            return;
        };
        let signed = if way == Turning::Back { amount.neg() } else { amount };
        self.m.head.plate_at = self.m.head.plate_at.add(signed).unwrap_or_default();
        self.m.head.way = Some(way);
        let by = self.worm_turns().and_then(|worm| signed.div(worm).ok());
        self.by_worm(by, way);
    }

    fn worm_turns(&self) -> Option<Ratio> {
        self.m.shop.worm_ratio.map(Ratio::from)
    }

    fn by_worm(&mut self, by: Option<Ratio>, way: Turning) {
        self.judge(Rule::UnknownHead, by.is_none(), "the worm's ratio isn't known");
        match by {
            Some(by) => self.turned(by, way),
            None => self.m.angle_lost = true,
        }
    }

    fn owns_circle(&mut self, circle: u16) {
        let missing = self.m.head.plate.as_ref().is_none_or(|plate| !plate.contains(&circle));
        self.judge(Rule::PlateCircle, missing, "the plate that is on hasn't got that circle");
    }

    pub(super) fn crank_pin(&mut self, is: InOut) {
        self.m.head.crank_in = Some(is == InOut::In);
        self.both_out();
    }

    pub(super) fn stop_pin(&mut self, is: InOut) {
        self.m.head.stop_in = Some(is == InOut::In);
        self.both_out();
    }

    fn both_out(&mut self) {
        let both = self.m.head.crank_in == Some(false) && self.m.head.stop_in == Some(false);
        let lost = both && !self.m.geared();
        self.judge(Rule::PinsBothOut, lost, "both pins are out: the angle is lost");
        self.m.angle_lost |= lost;
    }

    pub(super) fn detent(&mut self, is: InOut) {
        if is == InOut::In && self.m.work_in_spindle() {
            let live = self.m.supply != Some(false);
            self.judge(Rule::Idx018, live, "the detent goes in with the supply on");
        }
        if is == InOut::Out {
            self.not_in_work(Rule::Div015, "the detent is drawn with the cutter in the work");
        }
        self.m.detent_in = Some(is == InOut::In);
    }

    pub(super) fn worm(&mut self, is: InOut) {
        self.not_in_work(Rule::Div015, "the worm is moved with the cutter in the work");
        self.m.head.worm = Some(is == InOut::In);
        self.m.head.direct = is == InOut::Out && self.m.head.own_gear;
    }

    pub(super) fn set_arms(&mut self, circle: u16, spaces: u16) {
        self.owns_circle(circle);
        self.m.head.arms = Some((circle, spaces));
        self.m.head.swung = false;
    }

    pub(super) fn chalk(&mut self, what: Chalked) {
        self.m.chalked = true;
        if self.part.marks.is_empty() {
            self.m.first_cut = Some(self.m.angle);
        }
        match what {
            Chalked::Mesh => self.chalk_mesh(),
            Chalked::CrankPin => self.m.head.crank = Ratio::ZERO,
            Chalked::StopPin => self.m.head.plate_at = Ratio::ZERO,
            Chalked::Detent => self.m.detent_at = Ratio::ZERO,
            Chalked::Work => {}
            Chalked::Cone => self.m.cone.blued = true,
        }
    }

    pub(super) fn swing(
        &mut self,
        what: Adjustable,
        to: Option<Ratio>,
        from: Axis,
        handle: Toward,
    ) {
        let off = to.filter(|angle| !angle.is_zero());
        match what {
            Adjustable::Compound => {
                self.m.compound = match off {
                    Some(angle) if matches!(handle, Toward::Out | Toward::Tailstock) => {
                        Lie::Off(from, angle.to_f64())
                    }
                    Some(angle) => Lie::Off(from, -angle.to_f64()),
                    None => Lie::Lies(from),
                };
                self.m.cone.angle_proved = false;
            }
            Adjustable::Head => {
                self.m.head.axis = Some(from);
                self.m.head.tilted = off.is_some();
                self.lose_place();
            }
            Adjustable::Tool | Adjustable::Cutter => {
                let turning = self.m.turning();
                self.judge(Rule::Gen008, turning, "the tool is moved while something turns");
            }
            Adjustable::Tailstock => self.m.in_line = Some(off.is_none()),
            Adjustable::Work => {}
        }
    }

    pub(super) fn set_height(&mut self, what: Adjustable, above: f64) {
        let turning = self.m.turning();
        self.judge(Rule::Gen008, turning, "the height is set while something turns");
        match what {
            Adjustable::Head | Adjustable::Work => self.m.head.height = Some(above),
            Adjustable::Tool | Adjustable::Cutter => self.m.tool_height = Some(above),
            Adjustable::Compound | Adjustable::Tailstock => {}
        }
        self.m.disturbed |= !self.part.marks.is_empty();
        self.level();
    }

    /// The cutter's height over the work's axis, where both are known.
    pub(super) fn level(&mut self) {
        let height = if self.m.work_rides() {
            self.m.head.height.map(|head| -head)
        } else {
            self.m.tool_height
        };
        if let (Some(height), Some(place)) = (height, self.m.at.get_mut(1)) {
            place.at = height;
            place.known = true;
        }
    }
}

fn ratio(holes: u16, circle: u16) -> Option<Ratio> {
    Ratio::new(i128::from(holes), i128::from(circle)).ok()
}
