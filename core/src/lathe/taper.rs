//! Tapers: the compound swung, the tailstock set over, and the cone that either leaves.

use super::cut::Asked;
use super::part::Cone;
use super::state::Lie;
use super::{Lathe, Rule, SAME};
use crate::procedure::{Adjustable, Slide, Toward, WorkAt};

/// Past the work by so much, along the slide, mm.
const PAST: f64 = 1.0;
/// A centre bears on its edge when the tailstock is set over by more than this part of the length between
/// centres: about 2 % (workshop practice, from memory).
const SET_OVER: f64 = 0.02;
/// What an indicator moves by is told from another movement by this much of it, or by [`READ`] mm.
const SHARE: f64 = 0.02;
/// See [`SHARE`].
const READ: f64 = 0.002;

/// What is known of a taper that is being turned.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Taper {
    /// How far the tailstock is set over, mm, more than nothing toward the person.
    pub(super) over: Option<f64>,
    /// An indicator told that the compound lies at its angle.
    pub(super) angle_proved: bool,
    /// The centres are balls.
    pub(super) ball: bool,
    /// Its lines of blue are drawn.
    pub(super) blued: bool,
    /// It was tried, or indicated, since it was cut first.
    tried: bool,
    /// Its last pass was cut with nothing tried before.
    untried: bool,
}

impl Lathe {
    pub(super) fn set_over(&mut self, by: f64, toward: Toward) {
        self.m.in_line = Some(by < SAME);
        let sign = if toward == Toward::Out { 1.0 } else { -1.0 };
        self.m.cone.over = (by > SAME).then_some(sign * by);
    }

    pub(super) fn adjust(
        &mut self,
        what: Adjustable,
        angle: Option<f64>,
        by: Option<f64>,
        toward: Toward,
    ) {
        let sign = match toward {
            Toward::Out | Toward::Tailstock => 1.0,
            _ => -1.0,
        };
        match (what, self.m.compound, self.m.cone.over) {
            (Adjustable::Compound, Lie::Off(from, lies), _) => {
                self.m.compound = Lie::Off(from, lies + sign * angle.unwrap_or(0.0));
            }
            (Adjustable::Tailstock, _, Some(over)) => {
                self.m.cone.over = Some(over + sign * by.unwrap_or(0.0));
            }
            _ => self.judge(Rule::LookFalse, true, "it was neither swung nor set over"),
        }
    }

    /// How far a swung slide is from where the cutter stands beyond the end of the work, mm.
    pub(super) fn off_the_end(&self, slide: Slide, goes: f64) -> f64 {
        let Some([_, _, along]) = self.direction(slide) else { return 0.0 };
        let Some(z) = self.m.at.get(2).filter(|place| place.known) else { return 0.0 };
        let rate = along * goes * self.m.outward;
        if rate < SAME { 0.0 } else { (self.part.face + PAST - z.at * self.m.outward) / rate }
    }

    /// How far a swung slide goes until its tool runs out of the work, mm.
    pub(super) fn up_the_cone(&mut self, slide: Slide, goes: f64) -> Option<f64> {
        let [across, _, _] = self.direction(slide)?;
        let x = self.m.at.first().filter(|place| place.known).map(|place| place.at);
        self.judge(Rule::UnknownTouch, x.is_none(), "the tool never touched a diameter");
        let rate = across * goes;
        let leaves = rate > SAME;
        self.judge(Rule::PartWrong, !leaves, "the tool goes deeper all the way and never runs out");
        let size = self.outermost()?;
        let out = size - x?;
        leaves.then(|| f64::max(out, 0.0) / rate + PAST)
    }

    /// How far the work's axis stands toward the person of the lathe's, where the tool stands along it, mm.
    pub(super) fn aslant(&self) -> f64 {
        let [_, _, z] = self.m.at;
        let between = self.m.work.as_ref().and_then(|work| work.length).map(|l| l.mm.to_f64());
        let far = self.m.cone.over.zip(between.filter(|_| z.known));
        far.map_or(0.0, |(over, between)| over * (1.0 + (z.at - self.part.face) / between))
    }

    /// How far the carriage goes until its tool runs out of work that lies aslant between centres, mm.
    pub(super) fn along_the_cone(&mut self) -> Option<f64> {
        let [x, _, z] = self.m.at;
        let unknown = !x.known || !z.known;
        self.judge(Rule::UnknownTouch, unknown, "where the tool stands isn't known");
        let (over, size) = (self.m.cone.over?, self.outermost()?);
        let between = self.m.work.as_ref()?.length?.mm.to_f64();
        let out = self.part.face - (size - (x.at - over)) * between / over;
        self.judge(
            Rule::PartWrong,
            over < SAME,
            "the tool goes deeper all the way and never runs out",
        );
        Some(f64::max(z.at - out, 0.0) + PAST)
    }

    /// A pass of the swung compound.
    pub(super) fn cone(&mut self, asked: &Asked, from: [f64; 3]) {
        let [x, _, z] = from;
        let known = self.m.at.iter().step_by(2).all(|place| place.known);
        let Some([across, _, along]) = self.direction(asked.slide).filter(|_| known) else {
            return;
        };
        let end = self.m.at.get(2).map_or(z, |place| place.at);
        self.judge(Rule::PartWrong, z < self.part.face - SAME, "a cone begun inside the work");
        let back = asked.toward != Toward::In;
        self.judge(Rule::Tur003, back, "turned away from the headstock");
        if self.m.shop.indicator {
            let unproved = !self.m.cone.angle_proved;
            self.judge(Rule::Tap020, unproved, "nobody proved the angle with the indicator");
        }
        let slope = across / along;
        self.leave(x + (self.part.face - z) * slope, slope, end);
    }

    /// A pass along the bed with the tailstock set over.
    pub(super) fn cone_between_centres(&mut self, asked: &Asked) {
        let (x, end) = match self.m.at {
            [x, _, z] if x.known && z.known => (x.at, z.at),
            _ => return,
        };
        let Some(over) = self.m.cone.over else { return };
        let between = self.m.work.as_ref().and_then(|work| work.length).map(|l| l.mm.to_f64());
        self.judge(
            Rule::UnknownSize,
            between.is_none(),
            "how long it is between centres isn't known",
        );
        let Some(between) = between else { return };
        let far = libm::fabs(over) > SET_OVER * between + SAME && !self.m.cone.ball;
        self.judge(Rule::Tap011, far, "set over farther than plain centres bear");
        let centred = self.m.work_at() == Some(WorkAt::Centres);
        self.judge(Rule::Tap012, !centred, "the tailstock is set over with the work in a holder");
        let back = asked.toward == Toward::Tailstock;
        self.judge(Rule::Tur003, back, "turned away from the headstock");
        // Toward the headstock the work's axis comes nearer to the lathe's, so the tool stands farther out of it.
        self.leave(x - over, -over / between, end);
    }

    /// A cone of `radius` at the end face, growing by `slope` for each mm away from the headstock, as far as it
    /// runs out of the work or as `end`.
    fn leave(&mut self, radius: f64, slope: f64, end: f64) {
        let height = self.m.tool_height.is_some_and(|height| libm::fabs(height) > SAME);
        self.judge(Rule::Tap008, height, "a cone by a tool that isn't at centre height");
        self.m.cone.untried = !self.m.cone.tried;
        let Some(size) = self.outermost() else { return };
        let face = self.part.face;
        let out = if slope < -SAME { face + (size - radius) / slope } else { end };
        let from = f64::max(end, out);
        let cone =
            Cone { from, to: face, from_radius: radius + (from - face) * slope, to_radius: radius };
        self.judge(Rule::PartNothing, radius > size - SAME, "the pass takes nothing off");
        let reach = self.part.outside.first().map_or(f64::MIN, |s| s.from);
        self.judge(Rule::PartHolder, from < reach - SAME, "the tool runs into the holder");
        self.part.cones.clear();
        self.part.cones.push(cone);
    }

    /// An indicator carried along by a slide.
    pub(super) fn indicate(&mut self, slide: Slide, over: f64, should_be: f64, is: Option<f64>) {
        let mounted = self.m.indicator;
        self.judge(Rule::Mea007, !mounted, "no indicator is mounted");
        self.hands_at_work(true);
        let any = self.m.turning();
        self.judge(Rule::Mea002, any, "something turns while an indicator touches it");
        let moves = match slide {
            Slide::Compound => self.direction(slide).map(|[x, ..]| over * libm::fabs(x)),
            Slide::Carriage => self.part.cones.last().map(|cone| {
                let slope = (cone.from_radius - cone.to_radius) / (cone.to - cone.from);
                over * libm::fabs(slope)
            }),
            _ => None,
        };
        let other = moves
            .is_none_or(|moves| libm::fabs(moves - should_be) > f64::max(READ, SHARE * should_be));
        self.judge(Rule::LookFalse, other, "the indicator doesn't move by so much here");
        if let Some(is) = is {
            self.lies_so(slide, is / over);
        }
        match slide {
            Slide::Compound => self.m.cone.angle_proved = true,
            _ => self.m.cone.tried = true,
        }
    }

    /// What was found is so: the slope that the indicator told.
    fn lies_so(&mut self, slide: Slide, slope: f64) {
        if slide == Slide::Compound {
            if let Lie::Off(from, lies) = self.m.compound {
                let is = libm::asin(slope.clamp(0.0, 1.0)).to_degrees();
                self.m.compound = Lie::Off(from, libm::copysign(is, lies));
            }
            return;
        }
        if let Lie::Off(from, lies) = self.m.compound {
            let is = libm::atan(slope).to_degrees();
            self.m.compound = Lie::Off(from, libm::copysign(is, lies));
        }
        let between = self.m.work.as_ref().and_then(|work| work.length).map(|l| l.mm.to_f64());
        if let Some((over, between)) = self.m.cone.over.zip(between) {
            self.m.cone.over = Some(libm::copysign(slope * between, over));
        }
    }

    /// Something is tried on.
    pub(super) fn tried_on(&mut self) {
        self.hands_at_work(false);
        if !self.part.cones.is_empty() {
            let bare = !self.m.cone.blued;
            self.judge(
                Rule::Tap015,
                bare,
                "a cone is tried without a line that shows where it bears",
            );
            self.m.cone.tried = true;
        }
    }

    /// How a taper leaves the machine.
    pub(super) fn taper_left(&mut self) {
        let untried = self.m.cone.untried;
        self.judge(Rule::Tap016, untried, "cut to size before its angle was tried");
        let over = self.m.in_line == Some(false) && self.m.cone.over.is_some();
        self.judge(Rule::Tap013, over, "the tailstock is left set over");
    }

    /// Whether the compound is swung off its square.
    pub(super) const fn compound_swung(&self) -> bool {
        matches!(self.m.compound, Lie::Off(..))
    }
}
