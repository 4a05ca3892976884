//! Touch, nought, winding and drawing back: how a slide comes to where it stands.

use super::slides::way;
use super::state::Lie;
use super::{Lathe, Rule, SAME};
use crate::procedure::{
    Axis, CutterAt, Face, Gauge, Length, Lockable, Reading, Shape, Slide, Toward,
};

/// How far from the end a line marked on the work is taken to be, mm: anybody sees where it is.
const LINE: f64 = 5.0;
/// How far clear a cutter is drawn where nothing says it, mm.
const CLEAR: f64 = 1.0;

impl Lathe {
    /// Which way the cutter goes against the work as a slide's coordinate grows: along x, y, z. None where
    /// nobody knows how the compound lies; noughts where the slide carries neither.
    pub(super) fn direction(&self, slide: Slide) -> Option<[f64; 3]> {
        let tail = self.m.cutter.as_ref().is_some_and(|c| c.at == CutterAt::Tailstock);
        if tail != (slide == Slide::Quill) {
            return Some([0.0; 3]);
        }
        let along = match slide {
            Slide::Carriage | Slide::Quill => [0.0, 0.0, 1.0],
            Slide::Cross => [1.0, 0.0, 0.0],
            Slide::Vertical => [0.0, 1.0, 0.0],
            Slide::Compound => match self.m.compound {
                Lie::Lies(Axis::Across) => [1.0, 0.0, 0.0],
                Lie::Lies(Axis::Along) => [0.0, 0.0, 1.0],
                Lie::Off(from, degrees) => {
                    let angle = degrees.to_radians();
                    let (sin, cos) = (libm::sin(angle), libm::cos(angle));
                    if from == Axis::Across { [cos, 0.0, sin] } else { [sin, 0.0, cos] }
                }
                Lie::Lies(Axis::Upright) | Lie::Unknown => return None,
            },
        };
        Some(if self.m.work_rides() { along.map(|part| -part) } else { along })
    }

    /// The direction in which a slide moves the cutter against the work, if it is one of the three.
    pub(super) fn axis_of(&self, slide: Slide) -> Option<usize> {
        self.direction(slide)?.iter().position(|part| libm::fabs(*part) > 1.0 - SAME)
    }

    pub(super) fn sled(&self, slide: Slide) -> Option<&super::slides::Sled> {
        self.m.slides.get(slide as usize)
    }

    pub(super) fn sled_mut(&mut self, slide: Slide) -> Option<&mut super::slides::Sled> {
        self.m.slides.get_mut(slide as usize)
    }

    /// Which way a slide goes, where it is one that may be moved.
    pub(super) fn may_move(&mut self, slide: Slide, toward: Toward) -> Option<f64> {
        let goes = way(slide, toward);
        self.judge(Rule::MoveWay, goes.is_none(), "that slide doesn't go that way");
        let there = match slide {
            Slide::Compound => self.m.compound_on,
            Slide::Vertical => self.m.vertical_on,
            _ => true,
        };
        self.judge(Rule::MoveMissing, !there, "that slide isn't mounted");
        let lock = match slide {
            Slide::Carriage => Lockable::Carriage,
            Slide::Cross => Lockable::Cross,
            Slide::Compound => Lockable::Compound,
            Slide::Vertical => Lockable::Vertical,
            Slide::Quill => Lockable::Quill,
        };
        let locked = self.m.lock(lock) == Some(true);
        self.judge(Rule::MoveLocked, locked, "the slide is locked");
        if slide == Slide::Compound {
            // Where nothing is cut it doesn't matter which way it goes.
            let cuts = self.m.cutter.is_some() || self.m.work.is_some();
            let unknown = cuts && self.m.compound == Lie::Unknown;
            self.judge(Rule::UnknownCompound, unknown, "nobody looked how the compound lies");
        }
        if slide == Slide::Carriage {
            let nuts = self.m.nuts_in == Some(true);
            self.judge(Rule::FeedEngaged, nuts, "the carriage is moved with the half-nuts closed");
            let feed = self.m.feed_in == Some(true);
            self.judge(Rule::FeedEngaged, feed, "the carriage is moved with the feed in");
            let wall = self.m.at_wall;
            self.judge(Rule::Bor010, wall, "the bar is drawn back along the wall that it cut");
            self.m.at_wall = false;
        }
        if slide == Slide::Cross {
            self.m.at_wall = false;
        }
        if matches!(slide, Slide::Cross | Slide::Compound) {
            self.m.at_middle = false;
        }
        goes
    }

    /// Moves a slide by so much, with what it carries.
    pub(super) fn shift(&mut self, slide: Slide, by: f64) {
        let direction = self.direction(slide).unwrap_or([0.0; 3]);
        for (place, part) in self.m.at.iter_mut().zip(direction) {
            place.at += by * part;
        }
        let inside = self.sled_mut(slide).is_none_or(|sled| {
            if libm::fabs(by) > SAME {
                sled.way = libm::copysign(1.0, by);
            }
            sled.go(sled.at + by)
        });
        self.judge(Rule::MoveTravel, !inside, "past the travel of the slide");
    }

    /// How far the cutter reaches from its middle, or from its point, along a direction.
    pub(super) fn reach(&self, axis: usize) -> f64 {
        let Some(cutter) = &self.m.cutter else { return 0.0 };
        let across = cutter.diameter.map_or(0.0, |l| l.mm.to_f64()) / 2.0;
        let width = cutter.width.map_or(0.0, |l| l.mm.to_f64()) / 2.0;
        let own = self.cutter_axis() == Some(axis);
        match cutter.shape {
            Shape::Disc if own => width,
            Shape::Disc => across,
            Shape::Engraver => 0.0,
            Shape::EndMill
            | Shape::Drill
            | Shape::CentreDrill
            | Shape::Countersink
            | Shape::Counterbore
            | Shape::Reamer
            | Shape::Tap
                if !own =>
            {
                across
            }
            _ => 0.0,
        }
    }

    /// The axis about which the cutter turns.
    pub(super) fn cutter_axis(&self) -> Option<usize> {
        let cutter = self.m.cutter.as_ref()?;
        if matches!(cutter.at, CutterAt::LatheSpindle | CutterAt::Tailstock) {
            return Some(2);
        }
        Some(match cutter.axis? {
            Axis::Across => 0,
            Axis::Upright => 1,
            Axis::Along => 2,
        })
    }

    pub(super) fn touch(&mut self, slide: Slide, toward: Toward, face: Face, thick: f64) {
        let Some(goes) = self.may_move(slide, toward) else { return };
        if face == Face::Barrel {
            // The tool post against the tailstock: it says nothing of the work.
            if let Some(sled) = self.sled_mut(slide) {
                sled.way = goes;
                sled.touched = true;
            }
            return;
        }
        if self.thread_touch(slide, toward, face) {
            return;
        }
        let unready = self.m.cutter.is_none() || self.m.work.is_none();
        self.judge(Rule::UnknownCutter, unready, "nothing is mounted that could touch");
        let Some(axis) = self.axis_of(slide) else {
            if slide == Slide::Compound {
                self.m.compound_touched = true;
            }
            return;
        };
        if face == Face::Bore {
            let wrong = toward == Toward::In && slide == Slide::Cross;
            self.judge(Rule::Bor001, wrong, "the near wall of a bore lies outward");
            let bar = self.m.cutter.as_ref().and_then(|cutter| cutter.diameter);
            let hole = self.part.bore.last().map(|segment| 2.0 * segment.radius);
            let wide = bar.zip(hole).is_some_and(|(bar, hole)| bar.mm.to_f64() > hole - SAME);
            self.judge(Rule::PartFit, wide, "the bar is as wide as the hole, or wider");
        }
        let rides = if self.m.work_rides() { -1.0 } else { 1.0 };
        let comes = goes * rides;
        let along = self.m.work_axis();
        let ends = face == Face::End || face == Face::Shoulder;
        let ends = ends || face == Face::Mouth;
        let fits =
            along.is_none_or(|along| ends == (axis == along)) || axis == 1 || face == Face::Line;
        self.judge(Rule::MoveWay, !fits, "that slide doesn't come to that face");
        if matches!(face, Face::Rim | Face::Bore)
            && let Some(along) = along.filter(|along| *along != axis)
            && let Some(place) = self.m.at.get(along).copied().filter(|p| p.known && !p.rough)
        {
            let end = place.at * self.m.outward - self.reach(along) - self.part.face;
            self.judge(Rule::UnknownTouch, end > SAME, "beyond the end there is nothing to touch");
        }
        let reach = self.reach(axis) + thick;
        let at = match face {
            Face::End => {
                self.m.outward = -comes;
                Some(-comes * (reach + self.part.face))
            }
            Face::Shoulder => self.part.outside.first().map(|s| -comes * (s.to + reach)),
            Face::Centre | Face::Barrel => Some(0.0),
            Face::Line if Some(axis) == along => Some(-self.m.outward * LINE),
            Face::Line => Some(0.0),
            Face::Mouth => self.at_mouth().map(|at| -comes * at),
            Face::Bore => self.part.bore.last().map(|s| comes * (s.radius - reach)),
            Face::ThreadFlank if self.in_bore() => {
                self.part.bore.last().map(|s| comes * (s.radius - reach))
            }
            Face::Rim | Face::NearEdge | Face::FarEdge | Face::ThreadFlank => {
                let z = self.m.at.get(2).filter(|p| p.known && along == Some(2)).map(|p| p.at);
                let radius = z.and_then(|z| self.part.radius(z)).or_else(|| self.outermost());
                radius.map(|radius| -comes * (radius + reach) + self.aslant())
            }
        };
        self.judge(Rule::UnknownSize, at.is_none(), "the size that is touched isn't known");
        if face == Face::Mouth
            && let Some(at) = at
        {
            self.m.record.reached = self.part.face - at * self.m.outward;
        }
        if let Some(sled) = self.sled_mut(slide) {
            sled.way = goes;
            sled.touched = true;
            sled.stale = false;
        }
        if let Some(place) = self.m.at.get_mut(axis) {
            place.at = at.unwrap_or(0.0);
            place.known = at.is_some();
            place.rough = false;
            place.face = Some(face);
        }
        self.m.thick = thick;
        self.m.clear = Some(false);
        self.m.depth_set = false;
    }

    /// The work's radius where it is thickest.
    pub(super) fn outermost(&self) -> Option<f64> {
        self.part.outside.iter().map(|s| s.radius).reduce(f64::max).or_else(|| self.m.radius())
    }

    /// Wound one way to where something begins: the cutter clear, for nobody says where that is.
    pub(super) fn approach(&mut self, slide: Slide, toward: Toward) {
        let Some(goes) = self.may_move(slide, toward) else { return };
        let clear = self.m.clear;
        let near = "a slide is wound up with the cutter at the work";
        self.need(clear, true, (Rule::UnknownPlace, Rule::Gen050), near);
        if let Some(sled) = self.sled_mut(slide) {
            sled.way = goes;
            sled.touched = true;
            sled.stale = false;
        }
    }

    /// A slide to and fro against an indicator.
    pub(super) fn find_slack(&mut self, slide: Slide) {
        let mounted = self.m.indicator;
        self.judge(Rule::Mea007, !mounted, "no indicator is mounted");
        let turning = self.m.turning();
        self.judge(Rule::Mea002, turning, "something turns while an indicator stands at a slide");
        let clear = self.m.clear;
        let near = "a slide is wound to and fro with the cutter at the work";
        self.need(clear, true, (Rule::UnknownPlace, Rule::Gen050), near);
        if let Some(sled) = self.sled_mut(slide) {
            // It ends on its other side.
            sled.way = 0.0;
            sled.stale = true;
        }
    }

    pub(super) fn zero(&mut self, slide: Slide, on: Gauge) {
        let (indicator, stop) = (self.m.indicator, self.m.stop);
        match on {
            Gauge::Indicator => self.judge(Rule::Mea007, !indicator, "no indicator is mounted"),
            Gauge::Stop => self.judge(Rule::MoveMissing, !stop, "no stop is mounted"),
            Gauge::Dial | Gauge::Rule => {}
        }
        let Some(sled) = self.sled_mut(slide) else { return };
        sled.zero = Some(sled.at);
        sled.zero_way = sled.way;
        sled.stale = false;
        // What carries the tool stands where it touched, whichever slide was moved to the touch.
        let touched = sled.touched;
        let carried = slide == Slide::Compound
            && self.threads()
            && self.sled(Slide::Cross).is_some_and(|sled| sled.touched);
        let touched = touched || carried;
        self.judge(Rule::UnknownTouch, !touched, "a nought that was never touched");
    }

    pub(super) fn wind(
        &mut self,
        slide: Slide,
        to: Option<&Reading>,
        by: Option<Length>,
        toward: Toward,
        from: Toward,
        on: Gauge,
    ) {
        let Some(side) = self.may_move(slide, toward) else { return };
        let come = way(slide, from).map(|from| -from);
        self.judge(Rule::MoveWay, come.is_none(), "that slide doesn't come from there");
        let Some((sled, come)) = self.sled(slide).copied().zip(come) else { return };
        let length = match (to, by) {
            (Some(reading), _) => {
                let false_mark = sled.mark_is_false(reading);
                self.judge(Rule::LookFalse, false_mark, "another mark stands there");
                sled.length(reading)
            }
            (None, Some(length)) => Some(length.mm.to_f64()),
            (None, None) => None,
        };
        self.thread_wound(slide, to, by, toward);
        let indicator = on == Gauge::Indicator;
        if indicator {
            let mounted = self.m.indicator;
            self.judge(Rule::Mea007, !mounted, "no indicator is mounted");
        }
        self.judge(Rule::UnknownDial, length.is_none(), "what a line is worth isn't known");
        self.judge(Rule::UnknownZero, sled.zero.is_none(), "nought was never set");
        let Some((length, zero)) = length.zip(sled.zero) else { return };
        // A dial came to from the other side leaves the slide behind by the slack; a rule doesn't.
        let other = on == Gauge::Dial && sled.zero_way * come < 0.0;
        let behind = if other { sled.slack() * sled.zero_way } else { 0.0 };
        let target = zero + side * length + behind;
        if self.m.in_work && self.m.clear == Some(false) && self.m.divides() {
            let across = self.axis_of(slide) != self.cutter_axis();
            self.judge(Rule::Mil014, across, "moved across with the cutter in the work");
        }
        self.shift(slide, target - sled.at);
        if let Some(sled) = self.sled_mut(slide) {
            sled.way = come;
            sled.stale = other;
        }
        if self.sets_depth(slide) {
            let again = self.m.depth_set;
            self.judge(Rule::PartNothing, again, "a depth was set, and nothing cut at it");
            self.m.depth_set = true;
        }
        let inside = self.inside();
        if let Some(inside) = inside {
            let rule = if self.m.divides() { Rule::Mil014 } else { Rule::Gen050 };
            self.judge(rule, inside, "wound into the work: only a feed cuts");
            self.m.clear = Some(self.beyond() == Some(true));
        }
    }

    /// Whether a tool that turns or bores stands deeper by this slide than the work is cut yet.
    fn sets_depth(&self, slide: Slide) -> bool {
        let Some(place) = self.axis_of(slide).and_then(|axis| Some((axis, *self.m.at.get(axis)?)))
        else {
            return false;
        };
        match (place, self.m.shape()) {
            ((_, place), _) if !place.known => false,
            ((0, place), Some(Shape::TurningTool)) => {
                self.part.outside.last().is_some_and(|end| place.at < end.radius - SAME)
            }
            ((0, place), Some(Shape::BoringBar)) => {
                self.part.bore.last().is_some_and(|end| place.at > end.radius + SAME)
            }
            ((2, place), Some(Shape::TurningTool)) => place.at < self.part.face - SAME,
            _ => false,
        }
    }

    /// Whether the cutter stands in the work's metal; none where that isn't known.
    pub(super) fn inside(&self) -> Option<bool> {
        self.gap().map(|gap| gap < -1e-4)
    }

    /// Whether it stands off it.
    pub(super) fn beyond(&self) -> Option<bool> {
        self.gap().map(|gap| gap > 1e-4)
    }

    /// The widest gap between cutter and work along any direction; less than nothing inside.
    fn gap(&self) -> Option<f64> {
        if self.bores_end() {
            return self.end_gap();
        }
        let along = self.m.work_axis()?;
        let place = |axis: usize| self.m.at.get(axis).copied().filter(|place| place.known);
        let end = place(along).map(|p| p.at * self.m.outward - self.reach(along) - self.part.face);
        if end.is_some_and(|end| end > 1e-4) {
            return end;
        }
        let z = place(along).map(|p| p.at * self.m.outward);
        if self.in_bore() {
            let x = place(0)?;
            let bore = z.and_then(|z| self.part.bore_radius(z))?;
            return Some(end.map_or(bore - x.at, |end| f64::max(end, bore - x.at)));
        }
        let Some(radius) = z.and_then(|z| self.part.radius(z)).or_else(|| self.outermost()) else {
            // However wide it is: behind its end a cutter that works in the end is in it.
            let bores = self.cutter_axis() == Some(along);
            return end.filter(|end| bores && *end < -1e-4);
        };
        let mut widest = end;
        for axis in [0, 1, 2] {
            if axis == along {
                continue;
            }
            if let Some(p) = place(axis) {
                let gap = libm::fabs(p.at) - self.reach(axis) - radius;
                widest = Some(widest.map_or(gap, |w| f64::max(w, gap)));
            }
        }
        // Inside only where every direction is known.
        let all = [0, 1, 2].iter().all(|axis| *axis == 1 || place(*axis).is_some());
        widest.filter(|gap| all || *gap > 1e-4)
    }

    pub(super) fn clear(&mut self, slide: Slide, toward: Toward, by: Option<f64>) {
        let Some(goes) = self.may_move(slide, toward) else { return };
        self.thread_cleared(slide);
        self.drawn_out();
        self.m.record.pressed &= slide != Slide::Cross;
        let axis = self.axis_of(slide);
        let drags = matches!(
            self.m.shape(),
            Some(Shape::TurningTool | Shape::Scriber | Shape::Engraver | Shape::EndMill)
        ) || self.m.shape() == Some(Shape::Disc) && self.m.divides();
        let along_cut = axis.is_some() && axis == self.m.fed && axis != self.cutter_axis();
        let back = drags && along_cut && self.m.in_work && self.m.clear == Some(false);
        let rule = if self.m.divides() { Rule::Mil014 } else { Rule::Gen050 };
        self.judge(rule, back, "drawn back along its cut before it is drawn off it");
        let along = self.m.work_axis();
        let rides = if self.m.work_rides() { -1.0 } else { 1.0 };
        let mut far = by.unwrap_or(CLEAR);
        let mut wrong = false;
        let bore = self.in_bore();
        if axis.is_none() && by.is_none() && self.m.shape() == Some(Shape::TurningTool) {
            far = f64::max(far, self.off_the_end(slide, goes));
        }
        if let (Some(axis), Some(along)) = (axis, along)
            && let Some(place) = self.m.at.get(axis).copied()
        {
            let moves = goes * rides;
            let radius = self.outermost().unwrap_or(0.0);
            if axis == along {
                let w = place.at * self.m.outward;
                let out = moves * self.m.outward > 0.0;
                if !place.known {
                    // Beyond the end by so much at least: that is all that is known then.
                    let start = self.m.outward * self.reach(along);
                    if let Some(p) = self.m.at.get_mut(axis) {
                        p.at = start;
                        p.known = true;
                        p.rough = true;
                    }
                    wrong = !out;
                } else if out {
                    let need = self.reach(along) + self.part.face + CLEAR - w;
                    far = f64::max(far, need);
                } else {
                    wrong = true;
                }
            } else if place.known && !bore {
                let need = radius + self.reach(axis) + CLEAR - libm::fabs(place.at);
                let out = moves * place.at > 0.0 || libm::fabs(place.at) < SAME;
                wrong = !out;
                far = if out { f64::max(far, need) } else { far };
            } else if bore && axis == 0 {
                wrong = moves > 0.0;
                let wall = self.part.bore.iter().map(|s| s.radius).reduce(f64::min);
                if let (true, Some(wall)) = (self.threads() && place.known, wall) {
                    far = f64::max(far, place.at - wall + CLEAR);
                }
            } else if axis == 0 && self.m.turns_work() {
                // How far out it stands isn't known: across the work is no way out of it.
                wrong = moves < 0.0;
            }
        }
        let rule = if bore && self.threads() { Rule::Thr035 } else { Rule::PartWrong };
        self.judge(rule, wrong, "drawn deeper into the work, not clear of it");
        self.shift(slide, goes * far);
        if !wrong {
            self.m.clear = Some(true);
            self.m.in_work = false;
        }
    }
}
