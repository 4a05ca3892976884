//! Tools that cut with their end into work that turns: centre drill, drill, reamer, counterbore, countersink.

use super::cut::{Asked, end_only};
use super::{Lathe, Rule, SAME};
use crate::procedure::{CutterAt, FeedBy, Lockable, Running, Shape, Slide, Until, WorkAt};

/// What is remembered of end tools, threads turned in by hand, parting and knurling, to judge what follows.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Record {
    /// A centre drill has made its cone.
    pub(super) centred: bool,
    /// The speed at which it did, and that of the last drill, turns a minute.
    pub(super) centre_rpm: Option<u32>,
    pub(super) drill_rpm: Option<u32>,
    /// How deep this tool's tip has been, and how deep it was when it was drawn clear last, mm.
    pub(super) reached: f64,
    pub(super) cleared: f64,
    /// A tool was put in the tailstock since the key was last seen out.
    pub(super) tail_key: bool,
    /// What cuts was given its fluid.
    pub(super) oiled: bool,
    /// The tailstock's centre was oiled.
    pub(super) centre_oiled: bool,
    /// Somebody looked whether the hole suits the tap.
    pub(super) tap_hole: bool,
    /// Somebody looked what lies behind the work.
    pub(super) behind: bool,
    /// The edges were freed of their burr since the work was held.
    pub(super) edged: bool,
    /// A die stands open; it was seen to stand square.
    pub(super) die_open: Option<bool>,
    pub(super) die_square: bool,
    /// A die has cut with its screw open, and not yet closed.
    pub(super) die_rough: bool,
    /// What catches the part is there.
    pub(super) catches: bool,
    /// The part has come off.
    pub(super) parted: bool,
    /// A knurl's pattern was looked at; its wheels went along the work and press on it still.
    pub(super) pattern: bool,
    pub(super) pressed: bool,
}

impl Record {
    /// Other work is held.
    pub(super) fn work_held(&mut self) {
        *self = Record {
            tail_key: self.tail_key,
            catches: self.catches,
            centre_oiled: self.centre_oiled,
            ..Record::default()
        };
    }

    /// Another tool is mounted.
    pub(super) fn tool_mounted(&mut self, at: CutterAt, by_hand: bool) {
        self.reached = 0.0;
        self.cleared = 0.0;
        self.oiled = false;
        self.die_square = false;
        self.tap_hole = false;
        self.die_open = None;
        self.pressed = false;
        self.tail_key |= by_hand && at == CutterAt::Tailstock;
    }
}

/// As deep as a centre drill goes, two thirds up its cone, mm: the common sizes' middle. From memory.
const CONE: f64 = 3.0;
/// Above this a drill has a smaller one before it, mm (Walker, Modern Metalworking, ch. 28, by the rule's
/// table).
const WANTS_A_PILOT: f64 = 12.5;
/// A drill goes three diameters before it is cleared, and one more each time; its point is over that.
const FIRST: f64 = 3.0;
const POINT_OVER: f64 = 0.35;
/// Reamers up to this are left no more than 0.3 mm; larger ones up to the most of any, mm.
const SMALL_REAMER: f64 = 22.352;
/// Farther than this beside the axis is off centre, mm.
const LEVEL: f64 = 0.02;

/// How far a common drill's point runs ahead of its full diameter, mm: 118°.
fn point(shape: Shape, radius: f64) -> f64 {
    if shape == Shape::Drill { radius / libm::tan(59.0_f64.to_radians()) } else { 0.0 }
}

impl Lathe {
    /// Whether the tool cuts with its end, along the lathe's axis, into the end of the work: the one turns, or
    /// the other.
    pub(super) fn bores_end(&self) -> bool {
        let turns = self.m.work_in_spindle();
        let block = self.m.work_at() == Some(WorkAt::CrossSlide);
        self.m.cutter.as_ref().is_some_and(|cutter| {
            end_only(cutter.shape)
                && match cutter.at {
                    CutterAt::Tailstock | CutterAt::ToolPost => turns,
                    CutterAt::LatheSpindle => block,
                    _ => false,
                }
        })
    }

    /// How far such a tool stands off the metal: nought where it has been already, less in the metal.
    pub(super) fn end_gap(&self) -> Option<f64> {
        let place = self.m.at.get(2).filter(|place| place.known)?;
        let off = place.at * self.m.outward - self.part.face;
        let been = off <= 1e-4 && -off <= self.m.record.reached + SAME;
        Some(if been { 0.0 } else { off })
    }

    /// How far a feed of it goes that ends by what is seen; none where it isn't such a feed.
    pub(super) fn end_distance(&self, asked: &Asked) -> Option<f64> {
        let along = self.m.work_axis()?;
        let place = self.m.at.get(along).filter(|place| place.known)?;
        let off = place.at * self.m.outward - self.part.face;
        match (asked.until, self.m.shape()?) {
            (Some(Until::Cone), Shape::CentreDrill) => Some(f64::max(off + CONE, 0.0)),
            // Marked by whoever drills: full diameter for a little way.
            (Some(Until::Mark), shape) if self.bores_end() => {
                let across = self.m.cutter.as_ref()?.diameter.map_or(0.0, |l| l.mm.to_f64());
                let deep = if across > 0.0 { f64::min(CONE, 2.0 * across) } else { CONE };
                Some(f64::max(off, 0.0) + point(shape, across / 2.0) + deep)
            }
            (Some(Until::Through), Shape::PartingBlade) => {
                let x = self.m.at.first().filter(|place| place.known)?.at;
                let bore = self.part.bore_radius(place.at).unwrap_or(0.0);
                Some(f64::max(x - bore, 0.0))
            }
            _ => None,
        }
    }

    /// The radius of the hole where its mouth is, by whatever cut it.
    pub(super) fn hole_radius(&self) -> Option<f64> {
        let bore = self.part.bore.last().map(|segment| segment.radius).filter(|r| *r > 0.0);
        bore.or_else(|| {
            let drilled = self.part.marks.iter().filter(|mark| mark.shape == Shape::Drill);
            drilled.map(|mark| mark.width / 2.0).reduce(f64::max)
        })
    }

    /// Where a tool's axis stands when it touches the hole's mouth: its tip is inside by the cone's height.
    pub(super) fn at_mouth(&self) -> Option<f64> {
        let hole = self.hole_radius()?;
        let half = self.m.cutter.as_ref()?.angle.map(|a| (a.0.to_f64() / 2.0).to_radians());
        let deep = half.map_or(0.0, |half| hole / libm::tan(half));
        Some(self.part.face - deep)
    }

    /// The tool is drawn out of the hole.
    pub(super) fn drawn_out(&mut self) {
        if !self.bores_end() {
            return;
        }
        let inside = self.m.in_work && self.m.record.reached > SAME;
        if self.m.shape() == Some(Shape::Reamer) && inside {
            let forward = self.m.lathe == Some(Running::Forward);
            self.judge(Rule::Rea011, !forward, "a reamer is drawn out while it doesn't turn on");
        }
        self.m.record.cleared = self.m.record.reached;
    }

    /// The spindle stops, or begins to turn back.
    pub(super) fn stopped_in_hole(&mut self, is: Running) {
        if !self.bores_end() {
            return;
        }
        let inside = self.m.in_work && self.m.clear == Some(false);
        let reams = self.m.shape() == Some(Shape::Reamer);
        if is == Running::Reverse {
            self.judge(Rule::Rea009, reams, "a reamer is turned backward");
        } else if is == Running::Stopped {
            let rule = if reams { Rule::Rea011 } else { Rule::RunInWork };
            self.judge(rule, inside, "stopped with the tool in the hole");
        }
    }

    /// Whether it is fed by the slide that carries it along the axis.
    pub(super) fn carries(&mut self, fed: Slide) -> bool {
        if !self.bores_end() {
            return true;
        }
        let tail = self.m.cutter.as_ref().is_some_and(|c| c.at == CutterAt::Tailstock);
        let other = fed != if tail { Slide::Quill } else { Slide::Carriage };
        self.judge(Rule::Dri004, other, "fed by a slide that doesn't carry it along the axis");
        !other
    }

    /// A feed of a tool that cuts with its end: what it leaves, judged.
    pub(super) fn bore_end(&mut self, asked: &Asked, from: [f64; 3]) {
        let Some(cutter) = self.m.cutter.clone() else { return };
        let shape = cutter.shape;
        if cutter.at != CutterAt::Tailstock {
            self.on_axis();
        }
        let z = self.m.at.get(2).copied().unwrap_or_default();
        self.judge(Rule::UnknownPlace, !z.known, "where the tool stands isn't known");
        if !z.known {
            return;
        }
        let out = self.m.outward;
        let began = from.get(2).map_or(0.0, |from| self.part.face - *from * out);
        let deep = self.part.face - z.at * out;
        self.judge(Rule::PartNothing, deep <= SAME, "the feed meets no metal");
        let stock = self.m.work.as_ref().and_then(|work| work.stock.as_deref());
        let soft = matches!(stock, Some("brass" | "bronze"));
        let grabs = soft && shape == Shape::Drill && asked.by != FeedBy::Hand;
        self.judge(Rule::Dri010, grabs, "a drill in brass or bronze isn't held back by hand");
        if shape == Shape::CentreDrill {
            let past = asked.until != Some(Until::Cone);
            self.judge(Rule::Dri013, past, "nothing says how far up its cone a centre drill goes");
            self.m.record.centred = true;
            self.m.record.centre_rpm = self.m.rpm;
            self.m.record.reached = deep;
            return;
        }
        let radius = cutter.diameter.map(|l| l.mm.to_f64() / 2.0);
        self.judge(Rule::UnknownSize, radius.is_none(), "the tool's size isn't known");
        let Some(radius) = radius else { return };
        // A countersink cuts no wider than it goes in.
        let half = cutter.angle.map_or(45.0, |a| a.0.to_f64() / 2.0).to_radians();
        let sinks = shape == Shape::Countersink;
        let wide = if sinks { f64::min(deep * libm::tan(half), radius) } else { radius };
        let wide = self.outermost().is_some_and(|part| wide >= part - SAME);
        self.judge(Rule::PartFit, wide, "the tool is as wide as the part, or wider");
        match shape {
            Shape::Drill => self.drills(asked, radius, deep),
            Shape::Reamer => self.reams(radius, began),
            Shape::Countersink => {
                let mouth = f64::min(deep * libm::tan(half), radius);
                let mouth = f64::max(mouth, self.part.mouth.unwrap_or(0.0) / 2.0);
                self.part.mouth = Some(2.0 * mouth);
                self.m.record.reached = deep;
                return;
            }
            Shape::Counterbore => {
                let solid = self.part.bore.is_empty() && self.m.record.centred;
                self.judge(Rule::PartFit, solid, "there is no hole for the counterbore's pilot");
            }
            _ => {}
        }
        self.m.record.reached = f64::max(deep, self.m.record.reached);
        let end = self.part.length.map_or(f64::MIN, |length| -length);
        let mut bottom = f64::max(self.part.face - deep + point(shape, radius), end);
        if asked.until == Some(Until::Through) && self.part.face - deep < end {
            // Whoever drills feels when it is through.
            bottom = end;
        }
        if bottom < self.part.face {
            self.part.open(bottom, self.part.face, radius);
        }
    }

    /// A tool in the tool post stands on the work's axis.
    fn on_axis(&mut self) {
        let [x, y, _] = self.m.at;
        self.judge(Rule::UnknownPlace, !x.known, "nobody set the tool on the work's axis");
        self.judge(Rule::UnknownHeight, !y.known, "the tool's height was never set");
        let off = libm::fabs(x.at) > LEVEL || libm::fabs(y.at) > LEVEL;
        self.judge(Rule::PartOff, off, "the tool doesn't stand on the work's axis");
        let locked = self.m.lock(Lockable::Cross) == Some(true);
        self.judge(Rule::Dri004, !locked, "the cross slide isn't locked at the centre");
    }

    fn drills(&mut self, asked: &Asked, radius: f64, deep: f64) {
        let across = 2.0 * radius;
        let solid = self.part.bore.is_empty();
        let blind = solid && !self.m.record.centred;
        self.judge(Rule::Dri001, blind, "drilled without a centre to start in");
        let large = across > WANTS_A_PILOT + SAME;
        self.judge(Rule::Dri002, large && solid, "a large drill without a smaller one before it");
        let first = self.m.record.cleared <= SAME;
        let most = across * (if first { FIRST } else { 1.0 } + POINT_OVER);
        let packed = deep - self.m.record.cleared > most + SAME;
        self.judge(Rule::Dri007, packed, "fed too deep without drawing out to clear");
        let slower = self.m.record.centre_rpm.zip(self.m.rpm).is_some_and(|(c, rpm)| c < rpm);
        self.judge(Rule::Dri012, slower, "the centre drill turned slower than the drill");
        if self.part.length.is_some_and(|length| deep > length + SAME) {
            let behind = self.m.record.behind;
            self.judge(Rule::Dri009, !behind, "nobody looked what is behind the work");
            let eased = asked.until == Some(Until::Through);
            self.judge(Rule::Dri008, !eased, "it comes through in the feed that drills it");
        }
        self.m.record.drill_rpm = self.m.rpm;
    }

    fn reams(&mut self, radius: f64, began: f64) {
        let hole = self.hole_radius().unwrap_or(0.0);
        self.judge(Rule::Rea012, hole <= SAME, "a reamer follows a hole, and there is none");
        let again = began > SAME && self.m.record.reached > SAME;
        self.judge(Rule::Rea011, again, "reamed in more than one go");
        if again {
            return;
        }
        let left = 2.0 * (radius - hole);
        let most = if 2.0 * radius <= SMALL_REAMER { 0.3 } else { 0.8 };
        self.judge(Rule::Rea006, left > 0.8 + SAME, "the reamer is left too much");
        self.judge(Rule::Rea001, left > most + SAME, "the reamer is left more than it may be");
        self.judge(Rule::Rea018, left < 0.05 - SAME, "the reamer is left too little, it rubs");
        let fast = self.m.record.drill_rpm.zip(self.m.rpm).is_some_and(|(d, rpm)| rpm > d);
        self.judge(Rule::Rea003, fast, "reamed faster than it was drilled");
    }
}
