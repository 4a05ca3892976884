//! Where work and cutter lie, and which slide then sets the depth, makes the stroke or sets the place.
//!
//! Derived from the axes: an end cutter cuts along its own axis, a disc square to its own, and of work and
//! cutter one rides on the slides and the other doesn't.

use super::arrangement::{Arrangement, CutterIn, WorkIn};
use super::tool::Tool;
use crate::cutting::{CutterMaterial, Process, Stock};
use crate::exact::Ratio;
use crate::operation::ready::Kit;
use crate::operation::spindle::{Job, owned};
use crate::operation::{self as op, Mark};
use crate::procedure::{
    Axis, Cutter, CutterAt, Degrees, Face, Gauge, Length, Reading, Shape, Slide, Toward, WorkAt,
};
use crate::quantity::{Quantity, Unit, show};
use crate::shop::{Dial, Shop, Speed};
use alloc::string::String;
use alloc::vec::Vec;

/// What is cut at every place.
#[derive(Clone, Debug)]
pub(in crate::operation) struct Cut {
    /// A line, a slot, a hole or a flat.
    pub(in crate::operation) mark: Mark,
    /// Whether a line is no line but a slot: an end mill's, or a disc's.
    pub(in crate::operation) slot: bool,
    /// On the end face, not on the rim.
    pub(in crate::operation) on_face: bool,
    /// How deep, mm; a hole without it goes through.
    pub(in crate::operation) depth: Option<Ratio>,
    /// How wide a flat comes out, mm.
    pub(in crate::operation) flat: Option<f64>,
    /// The diameter of the rim, or of the circle on which the holes lie, mm.
    pub(in crate::operation) diameter: Option<Ratio>,
    /// How long it is where that isn't each place's own, mm.
    pub(in crate::operation) length: Option<Ratio>,
    /// From one place to the nearest other, in turns; none where there is only one.
    pub(in crate::operation) apart: Option<Ratio>,
    /// The system in which it is said.
    pub(in crate::operation) unit: Unit,
    /// Whether it is wider than half of what lies between two of them (common practice, no source).
    pub(in crate::operation) crowded: bool,
}

impl Cut {
    /// Whether there is room round the work for every cut beside the next, by a cutter of that shape.
    fn fits(&self, shape: Shape, tool: &Tool) -> Result<(), op::Unmade> {
        let (Some(diameter), Some(depth)) = (self.diameter, self.depth) else { return Ok(()) };
        let (diameter, depth) = (diameter.to_f64(), depth.to_f64());
        let wide = tool.width.as_ref().map_or(0.0, |width| width.to_f64());
        let pointed = matches!(shape, Shape::Scriber | Shape::Engraver);
        let half = tool.angle.map_or(0.0, |angle| angle.to_f64().to_radians() / 2.0);
        let wide = if pointed { wide + 2.0 * depth * libm::tan(half) } else { wide };
        let chord = 2.0 * libm::sqrt(f64::max(depth * (diameter - depth), 0.0));
        if self.slot && !self.on_face && shape == Shape::EndMill && chord <= wide {
            return Err(unmade(
                "so shallow a slot is no wider than the round: the cutter leaves a flat",
                "operation.cutter",
            ));
        }
        let space = self.apart.map(|apart| apart.to_f64() * core::f64::consts::PI * diameter);
        match (self.mark, space) {
            (Mark::Line | Mark::Graduation, Some(space)) if wide >= space => Err(unmade(
                "the cuts run into each other: fewer of them, or a narrower cutter",
                "operation.cutter",
            )),
            // No wider than half the space to the next (common practice, no source).
            (Mark::Line | Mark::Graduation, Some(space))
                if pointed && !self.slot && wide > space / 2.0 =>
            {
                Err(unmade(
                    "a line would be wider than half the space to the next: cut it less deep",
                    "operation.depth",
                ))
            }
            _ => Ok(()),
        }
    }
}

/// Where everything is, and what moves.
#[derive(Clone, Debug)]
pub(in crate::operation) struct Layout {
    pub(super) work: WorkAt,
    pub(super) cutter: Cutter,
    /// How the head's axis lies, where one holds the work.
    pub(super) head: Option<Axis>,
    pub(super) depth: (Slide, Toward),
    /// The slide that makes the stroke; none for a hole.
    pub(super) stroke: Option<(Slide, Toward)>,
    pub(super) cut: Cut,
    pub(super) kit: Kit,
    /// The lathe spindle's speed, where it turns the cutter.
    pub(super) speed: Option<Speed>,
    cross: Option<Dial>,
    carriage: Option<Dial>,
    /// Depths of the strokes at a place, one after the other, mm.
    pub(super) strokes: Vec<Ratio>,
}

/// A tool dragged over the work takes so little at a stroke, mm (common practice, no source).
const DRAGGED: Ratio = Ratio::of(1, 10);

/// No cut is shallower, mm: nobody could set it. Common practice, no source.
const SHALLOWEST: Ratio = Ratio::of(1, 1000);

/// A slide needs so much more than the work to draw clear, mm. Common practice, no source.
const TO_CLEAR: Ratio = Ratio::whole(20);

/// So many strokes at a place, and no more.
const MOST_STROKES: i64 = 99;

/// Why it can't be cut so.
fn unmade(why: &str, needs: &'static str) -> op::Unmade {
    op::Unmade { why: String::from(why), needs }
}

impl Layout {
    /// The layout of a cut, or why there is none.
    pub(in crate::operation) fn of(
        arrangement: Arrangement,
        cut: &Cut,
        tool: &Tool,
        shop: &Shop,
    ) -> Result<Layout, op::Unmade> {
        let in_head = arrangement.work == WorkIn::Head;
        let shape = tool.shape.unwrap_or(match (cut.mark, arrangement.cutter) {
            (Mark::Hole, _) => Shape::Drill,
            (Mark::Flat, _) => Shape::EndMill,
            (_, CutterIn::Dragged) => Shape::Scriber,
            (_, CutterIn::Somewhere) if !cut.slot => Shape::Scriber,
            _ if cut.slot => Shape::EndMill,
            _ => Shape::Engraver,
        });
        let dragged = match arrangement.cutter {
            CutterIn::Dragged => true,
            CutterIn::Somewhere => shape == Shape::Scriber,
            _ => false,
        };
        if arrangement.clash() {
            return Err(unmade(
                "work and cutter can't both be in the lathe spindle",
                "operation.work_in",
            ));
        }
        if in_head && (dragged || arrangement.cutter == CutterIn::OnSlide) {
            return Err(unmade(
                "the head and the cutter would ride on the same slide: put the cutter in the lathe spindle",
                "operation.cutter_in",
            ));
        }
        if dragged && matches!(cut.mark, Mark::Hole | Mark::Flat) {
            return Err(unmade(
                "a dragged tool cuts lines and grooves, no holes and no flats",
                "operation.cutter_in",
            ));
        }
        let turns = matches!(shape, Shape::EndMill | Shape::Disc | Shape::Drill);
        if dragged && turns {
            return Err(unmade(
                "that cutter must turn: a driven spindle, or the lathe's own",
                "operation.cutter_in",
            ));
        }
        let end_cutter = matches!(
            shape,
            Shape::EndMill
                | Shape::Engraver
                | Shape::Drill
                | Shape::CentreDrill
                | Shape::Counterbore
        );
        let fits = match cut.mark {
            Mark::Hole => matches!(shape, Shape::Drill | Shape::EndMill | Shape::CentreDrill),
            Mark::Flat => shape == Shape::EndMill,
            _ if dragged => true,
            _ => matches!(shape, Shape::EndMill | Shape::Engraver | Shape::Disc),
        };
        if !fits {
            return Err(unmade("that cutter doesn't cut this: name another", "operation.cutter"));
        }
        if cut.diameter.is_none() {
            return Err(unmade("say on what diameter", "operation.diameter"));
        }
        if cut.mark != Mark::Hole && cut.depth.is_none() {
            return Err(unmade("say how deep it is cut", "operation.depth"));
        }
        cut.fits(shape, tool)?;
        if in_head && shape == Shape::Disc {
            return Err(unmade(
                "a disc in the lathe spindle would be fed flat side on: a vertical slide, or a driven spindle with the work in the lathe spindle",
                "operation.cutter_in",
            ));
        }
        if let (Some(flat), Some(wide)) = (cut.flat, tool.width.as_ref())
            && flat > wide.to_f64() + 1e-9
        {
            return Err(unmade(
                "the flat is wider than the cutter: a wider cutter, or a vertical slide to sweep it",
                "operation.cutter",
            ));
        }
        if cut.flat.is_some() && tool.width.is_none() {
            return Err(unmade(
                "say how wide the cutter is: a flat comes out no wider",
                "operation.width",
            ));
        }
        let most = DRAGGED.mul(Ratio::whole(MOST_STROKES)).unwrap_or(DRAGGED);
        if dragged && cut.depth.is_some_and(|depth| depth > most) {
            return Err(unmade(
                "too deep for a dragged tool: a driven cutter",
                "operation.cutter_in",
            ));
        }
        let face = cut.on_face || cut.mark == Mark::Hole;
        let half = cut.diameter.and_then(|diameter| diameter.mul(Ratio::of(1, 2)).ok());
        let hollow = cut.depth.zip(half).is_some_and(|(depth, radius)| depth >= radius);
        if hollow && !face {
            return Err(unmade("the cut is deeper than the middle of the work", "operation.depth"));
        }
        if cut.depth.is_some_and(|depth| depth < SHALLOWEST) {
            return Err(unmade("a cut of no depth to speak of cuts nothing", "operation.depth"));
        }
        let travels =
            [("cross", "shop.lathe.dials.cross"), ("carriage", "shop.lathe.dials.carriage")];
        for (slide, needs) in travels {
            let travel = shop.dial(slide).and_then(|dial| dial.travel);
            let wants =
                cut.depth.unwrap_or(Ratio::ZERO).max(half.unwrap_or(Ratio::ZERO)).add(TO_CLEAR);
            if travel.zip(wants.ok()).is_some_and(|(travel, wants)| travel < wants) {
                return Err(unmade(
                    "a slide doesn't go far enough for it and to draw clear",
                    needs,
                ));
            }
        }
        if cut.crowded {
            return Err(unmade(
                "the lines are wider than half their spacing: they would run together",
                "operation.line_width",
            ));
        }
        let axis = match (in_head, shape, face) {
            _ if dragged => None,
            (true, ..) => Some(Axis::Along),
            (false, Shape::Disc, _) => Some(Axis::Upright),
            (false, _, true) => Some(Axis::Along),
            (false, _, false) => Some(Axis::Across),
        };
        let carriage = (Slide::Carriage, Toward::Headstock);
        let cross = (Slide::Cross, Toward::In);
        let (depth, stroke) = match (in_head, face) {
            (false, false) => (cross, carriage),
            (false, true) | (true, _) => (carriage, cross),
        };
        let at = match (dragged, in_head) {
            (true, _) => CutterAt::ToolPost,
            (false, true) => CutterAt::LatheSpindle,
            (false, false) => CutterAt::DrivenSpindle,
        };
        let like = |mm: Ratio| Length::like(mm, cut.unit);
        let pointed = matches!(shape, Shape::Scriber | Shape::Engraver);
        let wide = match tool.width.as_ref() {
            Some(width) if pointed => Some(tip(width, cut.depth, tool.angle)),
            width => width.map(Length::from),
        };
        let across = tool.diameter.map(like).or(wide.filter(|_| end_cutter && !pointed));
        let cutter = Cutter {
            name: tool.name.clone(),
            holder: tool.holder.clone(),
            axis,
            diameter: if dragged || shape == Shape::Engraver { None } else { across },
            width: if shape == Shape::EndMill || shape == Shape::Drill { None } else { wide },
            angle: tool.angle.map(Degrees),
            teeth: tool.teeth,
            ..Cutter::new(shape, at)
        };
        let speed = if in_head { cutter_speed(shape, tool, cut, shop) } else { None };
        if in_head && speed.is_none() {
            return Err(unmade(
                "no speed of this lathe is known for the cutter in its spindle",
                "shop.lathe.spindle_speeds",
            ));
        }
        let layout = Layout {
            work: if in_head { WorkAt::Head } else { WorkAt::LatheSpindle },
            cutter,
            head: in_head.then_some(if face { Axis::Along } else { Axis::Across }),
            depth,
            stroke: (cut.mark != Mark::Hole).then_some(stroke),
            kit: Kit::of(shop),
            speed,
            cross: shop.dial("cross"),
            carriage: shop.dial("carriage"),
            strokes: strokes(cut.depth, dragged, tool),
            cut: cut.clone(),
        };
        Ok(layout)
    }

    pub(super) fn in_head(&self) -> bool {
        self.work == WorkAt::Head
    }

    pub(super) fn dragged(&self) -> bool {
        self.cutter.at == CutterAt::ToolPost
    }

    /// Whether it is cut in the end face.
    pub(super) fn on_face(&self) -> bool {
        self.cut.on_face || self.cut.mark == Mark::Hole
    }

    fn dial(&self, slide: Slide) -> Option<&Dial> {
        match slide {
            Slide::Cross => self.cross.as_ref(),
            Slide::Carriage => self.carriage.as_ref(),
            _ => None,
        }
    }

    pub(super) fn gauge(&self, slide: Slide) -> Gauge {
        // Across, a hole is set on its circle; a stroke goes as far as the mark is long.
        let far = match (slide == self.depth.0, self.stroke) {
            (true, _) => self.cut.depth,
            (false, None) => self.cut.diameter.and_then(|circle| circle.mul(Ratio::of(1, 2)).ok()),
            (false, Some(_)) => self.cut.length,
        };
        self.kit.gauge_over(self.dial(slide).is_some(), far)
    }

    /// A travel from nought as it is read, or else its length.
    pub(super) fn read(
        &self,
        slide: Slide,
        toward: Toward,
        mm: Ratio,
    ) -> (Option<Reading>, Option<Length>) {
        let to = self.dial(slide).and_then(|dial| match (slide, toward) {
            (Slide::Cross, Toward::Out) => dial.reading_towards(false, mm),
            (Slide::Cross, _) => dial.reading_towards(true, mm),
            _ => dial.reading(mm),
        });
        let to = to.map(Reading::from);
        (to, to.is_none().then(|| Length::like(mm, self.cut.unit)))
    }

    /// The face that the depth is touched on, and the one from which a stroke is measured.
    pub(super) fn faces(&self) -> (Face, Face) {
        if self.on_face() { (Face::End, Face::Rim) } else { (Face::Rim, Face::End) }
    }
}

/// How wide a point is at its end that leaves a line so wide at a depth: the line's width less
/// 2 · depth · tan(angle / 2).
fn tip(width: &Quantity, depth: Option<Ratio>, angle: Option<Ratio>) -> Length {
    let half = angle.map_or(0.0, |angle| angle.to_f64().to_radians() / 2.0);
    let flanks = 2.0 * depth.map_or(0.0, Ratio::to_f64) * libm::tan(half);
    match show::near(flanks, 4).and_then(|flanks| width.value().sub(flanks).ok()) {
        Some(tip) if tip.is_positive() => Length::like(tip, width.unit()),
        _ => Length::like(Ratio::ZERO, width.unit()),
    }
}

/// The depths of the strokes at a place: a dragged tool takes a tenth of a millimetre each, an end mill half
/// its diameter at most (common practice, no source).
fn strokes(depth: Option<Ratio>, dragged: bool, tool: &Tool) -> Vec<Ratio> {
    let Some(depth) = depth else { return Vec::new() };
    let each = match (dragged, tool.width.as_ref()) {
        (true, _) => DRAGGED,
        (false, Some(width)) => width.value().mul(Ratio::of(1, 2)).unwrap_or(depth),
        (false, None) => depth,
    };
    let count = depth
        .div(each)
        .map_or(1, |count| count.neg().floor().saturating_neg())
        .clamp(1, MOST_STROKES.into());
    (1..=count).filter_map(|nth| depth.mul(Ratio::new(nth, count).ok()?).ok()).collect()
}

/// The lathe's speed for a cutter in its spindle. What is cut isn't said: the speed is one that the hardest
/// stock of the tables bears; an engraver's point is so small that it takes the highest there is (common
/// practice, no source).
fn cutter_speed(shape: Shape, tool: &Tool, cut: &Cut, shop: &Shop) -> Option<Speed> {
    let (speeds, _) = owned(shop);
    if shape == Shape::Engraver {
        return speeds.last().cloned();
    }
    let diameter = tool.width.as_ref().map(|width| width.value()).or(tool.diameter);
    let process = if cut.mark == Mark::Hole { Process::Drill } else { Process::Mill };
    let job = |diameter_mm| Job {
        stock: Stock::ToolSteel,
        process,
        cutter: CutterMaterial::Hss,
        diameter_mm,
    };
    let chosen = diameter.and_then(|diameter| job(diameter).on(shop).ok()?.0);
    chosen.map(|spindle| spindle.speed).or_else(|| speeds.first().cloned())
}
