//! What a cutter that is fed past standing work leaves in it: a line, a slot, a hole, a flat.

use super::cut::{Asked, end_only};
use super::state::Place;
use super::{Lathe, Mark, On, Rule, SAME};
use crate::exact::Ratio;
use crate::procedure::{CutterAt, Face, Running, Shape};

/// Farther than this beside the axis is off centre, mm: two lines of a usual dial.
const LEVEL: f64 = 0.02;

impl Lathe {
    /// Judges the cut and marks the part, the cutter having gone from `from` to where it stands.
    pub(super) fn sweep(&mut self, asked: &Asked, from: [f64; 3]) {
        let Some(shape) = self.m.shape() else { return };
        let fed = self.axis_of(asked.slide);
        let along = self.m.work_axis();
        let head = self.m.work_at() == Some(crate::procedure::WorkAt::Head) && along.is_none();
        self.judge(Rule::UnknownHead, head, "nobody looked how the head lies");
        let (Some(fed), Some(along)) = (fed, along) else { return };
        let scribes = shape == Shape::Scriber;
        let own = self.cutter_axis();
        self.judge(
            Rule::UnknownCutter,
            !scribes && own.is_none(),
            "how the cutter lies isn't known",
        );
        if !scribes && own.is_none() {
            return;
        }
        let spindle = self.m.cutter_in_spindle();
        if shape == Shape::Disc {
            let flat = own == Some(fed);
            let rule = match (spindle, fed, along) {
                (true, 2, 2) => Rule::Div030,
                (true, ..) => Rule::Div013,
                _ => Rule::PartDisc,
            };
            self.judge(rule, flat, "a disc is fed along its own axis");
            if flat {
                return;
            }
        }
        if end_only(shape) {
            let side = own != Some(fed);
            let rule = if spindle && along == 0 { Rule::Div032 } else { Rule::PartSideways };
            self.judge(rule, side, "a drill is fed to its side");
            if side {
                return;
            }
        }
        let across = if along == 2 { 0 } else { 2 };
        let places = self.m.at;
        let place = |axis: usize| places.get(axis).copied().unwrap_or_default();
        let start = |axis: usize| from.get(axis).copied().unwrap_or(0.0);
        // A hole in the end needs no rim.
        let in_end = own == Some(along) && fed == along;
        let Some(radius) = self.outermost().or(in_end.then_some(f64::MAX)) else {
            self.judge(Rule::UnknownSize, true, "the work's size isn't known");
            return;
        };
        let on_rim = |axis: usize| {
            place(axis).face.is_some_and(|face| !matches!(face, Face::End | Face::Shoulder))
        };
        let upright = on_rim(1) && !on_rim(across);
        let outward = self.m.outward;
        let w = |at: f64| at * outward;
        let on = match (shape, own) {
            (Shape::Scriber, _) => {
                if fed == along {
                    On::Rim
                } else {
                    On::Face
                }
            }
            (Shape::Disc, _) if own == Some(along) => On::Rim,
            (Shape::Disc, _) if fed == along => {
                let within = libm::fabs(place(across).at) < radius && !upright;
                if within { On::Face } else { On::Rim }
            }
            (Shape::Disc, _) => {
                if place(along).known && w(place(along).at) > SAME {
                    On::Face
                } else {
                    On::Rim
                }
            }
            (_, own) if own == Some(along) => {
                let side = libm::fabs(place(across).at) >= radius
                    || libm::fabs(place(1).at) >= radius
                    || libm::fabs(start(across)) >= radius && fed != across;
                if side { On::Rim } else { On::Face }
            }
            _ => On::Rim,
        };
        // The direction in which the depth grows, and the one beside it that must lie level.
        let deep = match (on, own) {
            (On::Face, _) => along,
            (On::Rim, Some(1)) if shape != Shape::Disc => 1,
            (On::Rim, _) if upright => 1,
            (On::Rim, _) => across,
        };
        let beside = match on {
            On::Rim if deep == 1 => across,
            On::Face if fed == 1 => across,
            _ => 1,
        };
        let depth_at = place(deep);
        self.judge(
            Rule::UnknownTouch,
            !depth_at.known,
            "the slide that sets the depth never touched",
        );
        if !depth_at.known {
            return;
        }
        let side = libm::copysign(1.0, if fed == deep { start(deep) } else { depth_at.at });
        let reach = self.reach(deep);
        let depth = match on {
            On::Face => self.part.face - (w(depth_at.at) - reach),
            On::Rim => radius - (side * depth_at.at - reach),
        };
        self.judge(Rule::PartNothing, depth <= SAME, "the feed meets no metal");
        if depth <= SAME {
            return;
        }
        let thick = self.m.thick;
        if thick > 0.0 {
            self.judge(
                Rule::PartThick,
                thick > depth,
                "what was touched with is thicker than the cut",
            );
        }
        let off = if fed == beside {
            0.0
        } else {
            self.level_with(on, beside, place(beside), along, fed)
        };
        self.geometry(asked, on, fed, along, across, deep);
        self.climbs(fed, on, own, asked, &places.map(|p| p.at));
        let wide = self.width(depth, own, deep);
        let run = if on == On::Rim {
            along
        } else if fed == 1 {
            1
        } else {
            across
        };
        let mut near = place(run).at;
        let mut far;
        let sign = if on == On::Rim {
            self.m.outward
        } else {
            libm::copysign(
                1.0,
                if libm::fabs(start(run)) > libm::fabs(near) { start(run) } else { near },
            )
        };
        if fed == run {
            let ends = (start(run) * sign, place(run).at * sign);
            let reach = self.reach(run);
            near = f64::min(ends.0, ends.1) - reach;
            far = f64::max(ends.0, ends.1) + reach;
            let most = if on == On::Rim { self.part.face } else { radius };
            far = f64::min(far, most);
            if on == On::Face {
                near = f64::max(near, -radius);
                let outside = ends.0 > ends.1 || ends.0 > radius;
                if shape == Shape::Scriber {
                    self.judge(
                        Rule::Gra013,
                        !outside,
                        "a face's line isn't stroked inward from the rim",
                    );
                }
            }
        } else {
            near *= sign;
            far = near;
        }
        let unknown = !place(run).known || (place(run).rough && asked.over.is_some());
        self.judge(Rule::UnknownPlace, unknown, "where it stands along the cut isn't known");
        if on == On::Rim
            && let Some(reach) = self.part.outside.first().map(|first| first.from)
        {
            let holder = near < reach - SAME && fed == along;
            self.judge(Rule::PartHolder, holder, "the cut runs into the holder");
            near = f64::max(near, reach);
        }
        let chord =
            2.0 * libm::sqrt(f64::max(radius * radius - (radius - depth) * (radius - depth), 0.0));
        let swept = if fed == beside {
            libm::fabs(place(beside).at - start(beside)) + 2.0 * self.reach(beside)
        } else {
            wide
        };
        let mills = shape == Shape::EndMill;
        let flat = on == On::Rim && mills && fed != deep && chord <= swept + SAME;
        if !flat && mills && on == On::Rim && fed == beside {
            self.judge(Rule::PartFit, true, "the sweep doesn't cross the whole flat");
        }
        let width = if flat {
            chord
        } else if fed == beside && mills {
            swept
        } else {
            wide
        };
        if scribes {
            let before = self.part.marks.iter().rev().find(|mark| mark.angle == self.m.angle);
            let bite = depth - before.map_or(0.0, |mark| mark.depth);
            self.judge(Rule::Div023, bite > 0.3 + SAME, "a dragged tool takes too much at once");
        }
        let lost = self.m.angle_lost && !self.part.marks.is_empty();
        self.judge(Rule::PartLost, lost, "how far the work is turned was lost");
        let quarter = match (on, deep, side < 0.0) {
            (On::Rim, 1, false) => Ratio::of(1, 4),
            (On::Rim, 1, true) => Ratio::of(3, 4),
            (On::Rim, _, true) => Ratio::of(1, 2),
            (On::Face, ..) if sign < 0.0 => Ratio::of(1, 2),
            _ => Ratio::ZERO,
        };
        let Ok(angle) = self.m.angle.add(quarter) else { return };
        let whole = Ratio::new(angle.floor(), 1).and_then(|whole| angle.sub(whole));
        let Ok(angle) = whole else { return };
        let lean = if fed == beside || flat { 0.0 } else { off };
        if self.part.marks.is_empty() {
            self.m.first_cut = Some(self.m.angle);
        }
        self.part.mark(Mark {
            shape,
            angle,
            on,
            from: near,
            to: far,
            depth,
            width,
            off: lean,
            flat,
        });
    }

    /// How far beside the line through the axis the cutter goes, mm, judged.
    fn level_with(&mut self, on: On, beside: usize, place: Place, along: usize, fed: usize) -> f64 {
        let known = place.known;
        let rule = if beside == 1 { Rule::UnknownHeight } else { Rule::UnknownPlace };
        self.judge(rule, !known, "how high the cutter stands to the work's axis isn't known");
        if !known {
            return 0.0;
        }
        let shape = self.m.shape();
        let driven = self.m.cutter.as_ref().is_some_and(|c| c.at == CutterAt::DrivenSpindle);
        let rule = match (shape, on) {
            (Some(Shape::Scriber), _) => Rule::Gra003,
            (Some(Shape::Disc), On::Rim) if driven => Rule::Div006,
            (Some(Shape::Disc), On::Face) if driven => Rule::Div031,
            (Some(Shape::Disc), _) => Rule::Div030,
            (_, On::Rim) if driven => Rule::Div003,
            (_, On::Face) if driven && fed == along => Rule::Div004,
            (_, On::Face) if driven => Rule::Div005,
            _ if along == 0 => Rule::Div009,
            (_, On::Rim) => Rule::Div028,
            _ => Rule::PartOff,
        };
        let off = libm::fabs(place.at) > LEVEL;
        self.judge(rule, off, "the axes aren't level: the cut comes off centre");
        place.at
    }

    /// Which slide may make which cut.
    fn geometry(
        &mut self,
        asked: &Asked,
        on: On,
        fed: usize,
        along: usize,
        across: usize,
        deep: usize,
    ) {
        let Some(shape) = self.m.shape() else { return };
        let spindle = self.m.cutter_in_spindle();
        let own = self.cutter_axis();
        if shape == Shape::Scriber {
            let (rule, stroke) =
                if on == On::Rim { (Rule::Div001, along) } else { (Rule::Div002, across) };
            self.judge(rule, fed != stroke, "the stroke is made by the wrong slide");
        }
        if shape == Shape::EndMill && spindle && along == 2 {
            let plunged = fed == own.unwrap_or(2);
            match on {
                On::Face => {
                    self.judge(Rule::Div010, deep != 2, "the carriage sets the depth in a face")
                }
                On::Rim if !plunged => {
                    let swept = fed == across && deep == across;
                    self.judge(Rule::Div029, swept, "a flat is swept square to its depth");
                }
                On::Rim => {}
            }
        }
        if shape == Shape::EndMill && spindle && along == 0 {
            let wrong = deep == 2 && own != Some(2);
            self.judge(Rule::Mil002, wrong, "an end mill's depth lies along its axis");
        }
        let _ = asked;
    }

    /// Against the cutter's motion, where the lathe spindle turns it and the screw has slack.
    fn climbs(&mut self, fed: usize, on: On, own: Option<usize>, asked: &Asked, at: &[f64; 3]) {
        let side = self.m.shape() == Some(Shape::Disc)
            || (self.m.shape() == Some(Shape::EndMill)
                && on == On::Rim
                && own == self.m.work_axis());
        if !self.m.cutter_in_spindle() || !side || fed == 2 {
            return;
        }
        let [x, y, _] = *at;
        let back = if self.m.lathe == Some(Running::Reverse) { -1.0 } else { 1.0 };
        // From the cutter's axis to the work's is (-x, -y); there a tooth moves toward (-y, x).
        let tooth = if fed == 0 { -y } else { x } * back;
        let plunge =
            if fed == 0 { libm::fabs(x) > libm::fabs(y) } else { libm::fabs(y) > libm::fabs(x) };
        let goes = super::slides::way(asked.slide, asked.toward).unwrap_or(0.0);
        if !plunge {
            let rule = if fed == 1 { Rule::Mil009 } else { Rule::Mil008 };
            self.judge(
                rule,
                tooth * goes > SAME,
                "fed with the cutter's motion on a screw with slack",
            );
        }
    }

    /// How wide it cuts at the surface, mm.
    fn width(&self, depth: f64, own: Option<usize>, deep: usize) -> f64 {
        let Some(cutter) = &self.m.cutter else { return 0.0 };
        let across = cutter.diameter.map_or(0.0, |l| l.mm.to_f64());
        let tip = cutter.width.map_or(0.0, |l| l.mm.to_f64());
        match cutter.shape {
            Shape::Disc => tip,
            Shape::Scriber | Shape::Engraver => {
                let half = cutter.angle.map_or(0.0, |angle| angle.0.to_f64().to_radians() / 2.0);
                tip + 2.0 * depth * libm::tan(half)
            }
            Shape::EndMill if own != Some(deep) => {
                // Its side leaves a hollow as wide as its own chord.
                let r = across / 2.0;
                2.0 * libm::sqrt(f64::max(r * r - (r - depth) * (r - depth), 0.0))
            }
            _ => across,
        }
    }
}
