//! Milling at a speed: the cutter in the lathe spindle, the work on the cross slide.

use super::Cut;
use crate::exact::Ratio;
use crate::operation::ready::{
    Kit, back_from, beat_of, fluid, held, lathe, set_speed, spindle_free, to_start,
};
use crate::procedure::{
    Action, Adjustable, Axis, Between, Cleared, Cutter, CutterAt, Face, FeedBy, Item, Length,
    Lockable, Running, Shape, Slide, Statement, Tended, Toward, Until, Work, WorkAt,
};
use crate::shop::Speed;
use alloc::vec::Vec;

/// A saw runs true within this, mm (the rule's table).
const TRUE_WITHIN: Ratio = Ratio::of(1, 20);

impl Cut {
    /// The slide that feeds across, and the other one, which stands.
    fn mill_slide(&self) -> Slide {
        if self.slide == Some("compound") { Slide::Compound } else { Slide::Cross }
    }

    pub(super) fn mill_shape(&self) -> Shape {
        match (self.saws, self.engraves) {
            (true, _) => Shape::Disc,
            (_, true) => Shape::Engraver,
            _ => Shape::EndMill,
        }
    }

    fn mill_cutter(&self) -> Cutter {
        let shape = self.mill_shape();
        let point = shape == Shape::Engraver;
        Cutter {
            name: self.cutter.clone(),
            axis: Some(Axis::Along),
            diameter: self.diameter.as_ref().filter(|_| !point).map(Length::from),
            width: self
                .width
                .as_ref()
                .filter(|_| shape == Shape::Disc)
                .or(self.diameter.as_ref().filter(|_| point))
                .map(Length::from),
            teeth: self.teeth.map(u32::from),
            out: self.stick_out.as_ref().filter(|_| shape == Shape::EndMill).map(Length::from),
            holder: self.held_in.clone(),
            ..Cutter::new(shape, CutterAt::LatheSpindle)
        }
    }

    pub(super) fn milled_ready(&self, speed: &Speed) -> Vec<Action> {
        let mut actions = Kit::safe();
        actions.push(Action::Mount(Item::Cutter(self.mill_cutter())));
        actions.push(Action::Key { is: crate::procedure::InOut::Out });
        actions.extend([
            held(Work { stock: Some(self.stock.id().into()), ..Work::at(WorkAt::CrossSlide) }),
            Action::SetHeight { what: Adjustable::Work, above: self.length_like(Ratio::ZERO) },
        ]);
        if self.mill_slide() == Slide::Compound {
            actions.extend([
                Action::SquareUp { what: Adjustable::Compound, to: Axis::Across },
                Action::Lock { what: Lockable::Cross },
            ]);
        }
        if self.saws {
            actions
                .push(Action::Look(Statement::RunsTrue { within: self.length_like(TRUE_WITHIN) }));
        }
        actions.extend(fluid(Some(self.stock)));
        actions.extend(Kit::indicator_for(&[self.reads(self.deep_slide(), Ratio::ZERO).1]));
        actions.extend([set_speed(speed), spindle_free()]);
        actions.extend(to_start(&[Cleared::Work, Cleared::Cutter]));
        actions
    }

    /// What sets the depth: the carriage along an end cutter's axis, the slide across for a saw.
    fn deep_slide(&self) -> Slide {
        if self.saws { self.mill_slide() } else { Slide::Carriage }
    }

    const fn marks(slide: Slide, toward: Toward, face: Face) -> Action {
        Action::Touch { slide, toward, face, between: Between::RunningCutter, thick: None }
    }

    pub(super) fn milled_touch(&self) -> Vec<Action> {
        let slide = self.mill_slide();
        let mut actions = Vec::from([lathe(Running::Forward)]);
        if self.saws {
            actions.extend([
                Cut::marks(Slide::Carriage, Toward::Headstock, Face::Line),
                Action::Lock { what: Lockable::Carriage },
                Cut::marks(slide, Toward::Out, Face::NearEdge),
                Action::Zero { slide, on: self.reads(slide, Ratio::ZERO).1 },
                back_from(slide, Toward::Out),
            ]);
        } else {
            let on = self.reads(Slide::Carriage, Ratio::ZERO).1;
            actions.extend([
                Cut::marks(Slide::Carriage, Toward::Headstock, Face::End),
                Action::Zero { slide: Slide::Carriage, on },
                back_from(Slide::Carriage, Toward::Headstock),
            ]);
        }
        actions
    }

    /// A pass to `deep`, mm in all.
    pub(super) fn milled_pass(&self, deep: Ratio) -> Vec<Action> {
        let slide = self.mill_slide();
        let fed = |over, to, until| Action::Feed {
            slide,
            toward: Toward::Out,
            over,
            to,
            until,
            by: FeedBy::Hand,
            each_turn: None,
            beat: self.bench_beat().and_then(beat_of),
        };
        if self.saws {
            let (to, _) = self.reads(slide, deep);
            let over = Some(self.length_like(deep));
            return Vec::from([
                self.wind(slide, Toward::Out, Ratio::ZERO),
                fed(over.filter(|_| to.is_none()), to, None),
                back_from(slide, Toward::Out),
            ]);
        }
        let length = self.length.as_ref().map(Length::from);
        let until = length.is_none().then_some(Until::Mark);
        Vec::from([
            self.wind(Slide::Carriage, Toward::Headstock, deep),
            Action::Lock { what: Lockable::Carriage },
            Cut::marks(slide, Toward::Out, Face::NearEdge),
            fed(length, None, until),
            Action::Unlock { what: Lockable::Carriage },
            back_from(Slide::Carriage, Toward::Headstock),
            back_from(slide, Toward::Out),
        ])
    }

    pub(super) fn milled_end(&self) -> Vec<Action> {
        let mut actions = Vec::from([lathe(Running::Stopped)]);
        if self.saws {
            actions.push(Action::Unlock { what: Lockable::Carriage });
        }
        if self.mill_slide() == Slide::Compound {
            actions.push(Action::Unlock { what: Lockable::Cross });
        }
        actions.extend([
            Action::Isolate,
            Action::Deburr { what: Tended::Edges },
            Action::Clean { what: Tended::Work },
            Action::Remove(Item::Cutter(self.mill_cutter())),
        ]);
        actions
    }
}
