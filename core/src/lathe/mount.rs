//! What is put on and taken off: work, cutters, gears, holders, fittings.

use super::state::Place;
use super::{Lathe, Part, Rule};
use crate::procedure::{
    Axis, Cutter, CutterAt, Fitting, GearOn, HolderKind, Item, Lockable, Pin, Shape, Work, WorkAt,
};

/// Half the width that a block of unsaid size is taken to have, mm: any will do, for it is touched.
const BLOCK: f64 = 5000.0;

impl Lathe {
    pub(super) fn mount(&mut self, item: &Item) {
        match item {
            Item::Work(work) => {
                if work.at != WorkAt::Bench {
                    self.at_rest(Rule::Gen009, "work is mounted while the spindle turns");
                    self.isolated(Rule::MountLive, "work is mounted with the supply on");
                }
                if work.at == WorkAt::LatheSpindle
                    && matches!(work.holder_kind, Some(HolderKind::Chuck | HolderKind::Faceplate))
                {
                    let key = self.m.key_in == Some(true);
                    self.judge(Rule::HolderKey, !key, "a chuck isn't tightened without its key");
                }
                let unseen = self.m.clear.is_none() && work.at != WorkAt::Bench;
                self.judge(
                    Rule::UnknownPlace,
                    unseen,
                    "nobody looked whether a cutter is in the way",
                );
                self.held(work);
            }
            Item::Cutter(cutter) => {
                let turning = "a tool is mounted while the spindle turns";
                self.at_rest(Rule::Gen008, turning);
                if cutter.at == CutterAt::LatheSpindle {
                    self.isolated(Rule::MountLive, "a cutter is mounted with the supply on");
                }
                if cutter.at == CutterAt::DrivenSpindle {
                    let live = self.m.turning();
                    self.judge(Rule::Mil016, live, "a cutter is mounted while its spindle turns");
                }
                self.cutter(cutter);
                self.m.record.tool_mounted(cutter.at, true);
            }
            Item::Gear(gear) => {
                self.m.head.own_gear |= gear.on == GearOn::HeadSpindle;
                self.m.head.direct = self.m.head.own_gear && self.m.head.worm == Some(false);
                self.isolated(Rule::Chg001, "a gear is put on with the supply on");
            }
            Item::Plate { on, circles, .. } => {
                self.isolated(Rule::Gen020, "a plate is put on with the supply on");
                if !matches!(on, GearOn::LatheSpindle) {
                    self.m.head.plate = Some(circles.clone());
                }
            }
            Item::Pin { pin, circle } => match pin {
                Pin::Crank => self.m.head.crank_circle = Some(*circle),
                Pin::Stop => self.m.head.stop_circle = Some(*circle),
            },
            Item::Head { axis } => {
                let unseen = self.m.clear.is_none() && self.m.cutter.is_none();
                self.judge(
                    Rule::UnknownPlace,
                    unseen,
                    "nobody looked whether a cutter is in the way",
                );
                // Along the bed the work's free end stands toward the cutter in the lathe spindle.
                self.m.outward = if *axis == Axis::Along { -1.0 } else { 1.0 };
                self.m.head.on = true;
                self.m.head.axis = Some(*axis);
                self.m.head.tilted = false;
                self.m.compound_on = false;
            }
            Item::Holder { name, on, .. } => {
                self.holder_on_spindle(*on);
                let nose = self.m.nose_clean || *on != WorkAt::LatheSpindle;
                self.judge(Rule::Hol004, !nose, "the nose isn't cleaned before the holder goes on");
                self.m.rpm_max = self.m.shop.holder(name).and_then(|holder| holder.rpm_max);
            }
            Item::Fitting { which } => self.fitting(*which, true),
        }
    }

    pub(super) fn remove(&mut self, item: &Item) {
        match item {
            Item::Work(_) => {
                self.stands_clear(Rule::Gen013, "the work is taken out with the tool at it");
                self.at_rest(Rule::Gen009, "work is taken out while the spindle turns");
                self.isolated(Rule::MountLive, "work is taken out with the supply on");
                self.burr_at_hand();
                self.m.work = None;
                self.lose_place();
            }
            Item::Cutter(cutter) => {
                self.at_rest(Rule::Gen008, "a tool is taken off while the spindle turns");
                if cutter.at == CutterAt::LatheSpindle {
                    self.isolated(Rule::MountLive, "a cutter is taken out with the supply on");
                }
                self.m.cutter = None;
                self.lose_place();
            }
            Item::Gear(_) => self.isolated(Rule::Chg001, "a gear is taken off with the supply on"),
            Item::Plate { .. } => {
                self.isolated(Rule::Gen020, "a plate is taken off with the supply on");
                self.m.head.plate = None;
            }
            Item::Pin { .. } => {}
            Item::Head { .. } => self.m.head.on = false,
            Item::Holder { on, .. } => {
                self.holder_on_spindle(*on);
                self.m.rpm_max = None;
            }
            Item::Fitting { which } => self.fitting(*which, false),
        }
    }

    fn holder_on_spindle(&mut self, on: WorkAt) {
        if on == WorkAt::LatheSpindle {
            self.at_rest(Rule::Hol003, "a holder is put on or off by power");
            self.isolated(Rule::Hol004, "a holder is put on or off with the supply on");
            let detent = self.m.detent_in == Some(true);
            self.judge(Rule::Hol006, detent, "the detent takes the force of a holder");
        }
    }

    /// The work, as it is held.
    pub(super) fn held(&mut self, work: &Work) {
        self.part = Part::default();
        self.lose_place();
        self.m.approach = None;
        self.m.turned_through = false;
        self.m.disturbed = false;
        self.m.angle_lost = false;
        self.m.measured = false;
        self.m.record.work_held();
        let out = work.out.or(work.length).map(|l| l.mm.to_f64());
        let across = work.diameter.map(|l| l.mm.to_f64());
        self.part.length = work.length.map(|l| l.mm.to_f64());
        if work.at == WorkAt::CrossSlide {
            // Its face looks at the cutter; where its middle is, the first touch says.
            self.m.outward = -1.0;
            if across.is_none() {
                self.part.outside = Part::bar(BLOCK, out.unwrap_or(f64::MAX));
            }
        }
        if let Some(across) = across {
            self.part.outside = Part::bar(across / 2.0, out.unwrap_or(f64::MAX));
        }
        if let Some(bore) = work.bore.map(|l| l.mm.to_f64()) {
            let deep = work.bore_depth.map(|l| l.mm.to_f64()).or(out).unwrap_or(f64::MAX);
            self.part.bore = Part::bar(bore / 2.0, deep);
        }
        let mm = |length: Option<crate::procedure::Length>| length.map(|l| l.mm.to_f64());
        if let (Some(wide), Some(at), Some(to)) =
            (mm(work.groove), mm(work.groove_at), mm(work.groove_diameter))
        {
            if work.bore.is_some() {
                self.part.open(-(at + wide), -at, to / 2.0);
            } else {
                self.part.turn(-(at + wide), -at, to / 2.0);
            }
        }
        self.new_blank();
        if let Some(name) = &work.holder {
            let holder = self.m.shop.holder(name).cloned();
            let missing = holder.is_none() && !self.m.shop.holders.is_empty();
            self.judge(Rule::HolderMissing, missing, "no holder of that name is owned");
            if let Some(holder) = holder {
                self.m.rpm_max = if work.at == WorkAt::Head { None } else { holder.rpm_max };
                if let Some(grip) = work.gripped.map(|l| l.mm.to_f64()) {
                    let small = holder.from.is_some_and(|from| grip < from - super::SAME);
                    let large = holder.to.is_some_and(|to| grip > to + super::SAME);
                    let collet = work.holder_kind == Some(HolderKind::Collet)
                        || holder.kind == Some("collet");
                    let rule = if collet { Rule::Hol016 } else { Rule::HolderRange };
                    self.judge(rule, small || large, "the holder doesn't grip that diameter");
                }
            }
        }
        self.m.work = Some(work.clone());
        self.level();
    }

    /// The cutter, as it is mounted.
    pub(super) fn cutter(&mut self, cutter: &Cutter) {
        let again = self.part.marks.iter().any(|mark| mark.shape == cutter.shape);
        self.m.disturbed |= again;
        let drills = |shape| {
            matches!(
                shape,
                Shape::Drill
                    | Shape::CentreDrill
                    | Shape::Countersink
                    | Shape::Counterbore
                    | Shape::Reamer
                    | Shape::Tap
            )
        };
        let same = |old: &Cutter| {
            (old.at, old.axis) == (cutter.at, cutter.axis)
                && drills(old.shape)
                && drills(cutter.shape)
        };
        let exchanged = self.m.cutter.as_ref().is_some_and(same);
        self.m.cutter = Some(cutter.clone());
        self.m.tool_tried = false;
        self.new_tool();
        self.m.saw_true = false;
        self.m.record.tool_mounted(cutter.at, false);
        if exchanged {
            // One drill for another in the same spindle: only how far it reaches is new.
            if let Some(place) = self.cutter_axis().and_then(|axis| self.m.at.get_mut(axis)) {
                *place = Place::default();
            }
            self.m.clear = None;
            self.m.in_work = false;
        } else {
            self.lose_place();
        }
        if cutter.at == CutterAt::LatheSpindle {
            let named = cutter.holder.as_deref().and_then(|name| self.m.shop.holder(name));
            let chuck = named.is_some_and(|holder| holder.kind == Some("chuck"));
            self.m.rpm_max = named.and_then(|holder| holder.rpm_max);
            if matches!(cutter.shape, Shape::EndMill | Shape::Engraver) {
                self.judge(Rule::Mil006, chuck, "an end cutter is held in chuck jaws");
            }
        }
        let Some((out, across)) = cutter.out.zip(cutter.diameter) else { return };
        let times = out.mm.to_f64() / across.mm.to_f64();
        if cutter.shape == Shape::BoringBar {
            let carbide = cutter.material.as_deref() == Some("carbide")
                || cutter.name.as_ref().is_some_and(|n| self.m.shop.carbide.contains(n));
            let (rule, most) = if carbide { (Rule::Bor003, 6.0) } else { (Rule::Bor002, 4.0) };
            self.judge(rule, times > most + super::SAME, "the bar stands out too far");
        } else if cutter.shape == Shape::EndMill {
            self.judge(Rule::Mil019, times > 4.0 + super::SAME, "the cutter stands out too far");
        }
    }

    /// Nothing of where the cutter stands to the work is known any more.
    pub(super) fn lose_place(&mut self) {
        self.m.at = [Place::default(); 3];
        for slide in &mut self.m.slides {
            slide.touched = false;
            slide.zero = None;
        }
        self.m.clear = None;
        self.m.in_work = false;
        self.m.at_wall = false;
        self.m.at_middle = false;
        self.level();
    }

    fn fitting(&mut self, which: Fitting, on: bool) {
        match which {
            Fitting::Compound => self.m.compound_on = on,
            Fitting::TailCentre => {
                self.m.tail_centre = on;
                self.m.record.centre_oiled = false;
            }
            Fitting::BallCentres => self.m.cone.ball = on,
            Fitting::Tailstock => {
                if !on {
                    self.m.tail_centre = false;
                }
            }
            Fitting::Steady | Fitting::FollowRest => self.m.steady = on,
            Fitting::VerticalSlide => self.m.vertical_on = on,
            Fitting::Indicator => {
                let owned = self.m.shop.indicator || !on;
                self.judge(Rule::Mea007, !owned, "no indicator is owned");
                self.m.indicator = on;
            }
            Fitting::CarriageStop => self.m.stop = on,
            Fitting::BedBoard => self.m.board = on,
            Fitting::ChangeTrain => {
                self.isolated(Rule::Chg001, "the train is handled with the supply on");
                if !on {
                    self.m.meshed.clear();
                }
            }
            Fitting::Catcher | Fitting::Rod => self.m.record.catches = on,
            Fitting::Screw => {}
            Fitting::Detent | Fitting::Brake => {
                self.isolated(Rule::Gen020, "hands at the spindle with the supply on");
                if which == Fitting::Brake && !on {
                    self.lock(Lockable::LatheSpindle, false);
                }
            }
        }
    }
}
