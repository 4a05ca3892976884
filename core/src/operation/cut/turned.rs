//! Turning, facing, boring and knurling at a speed: one cut, by hand in a beat or by power.

use super::Cut;
use crate::cutting::{Process, Slender, slender};
use crate::exact::Ratio;
use crate::operation::ready::{
    Kit, back_from, beat_of, centre_on, compound_fast, fluid, held, lathe, set_speed, spindle_free,
    to_start, tool,
};
use crate::procedure::{
    self, Action, Adjustable, Axis, Between, Cleared, Cutter, CutterAt, CutterStands, Face, FeedBy,
    Fitting, Gauge, Instrument, Item, Length, Lockable, Measured, OnOff, Running, Shape, Slide,
    Statement, Tended, Toward, Until, Work, WorkAt,
};
use crate::shop::{Dial, Speed};
use alloc::vec::Vec;

/// As far over the work as is enough to touch its outside, mm. Common practice, no source.
const OVER_THE_END: Ratio = Ratio::whole(3);
/// The work stands out so much farther than it is cut, mm. Common practice, no source.
const CLEAR_OF_HOLDER: Ratio = Ratio::whole(5);
/// The power feed is thrown out so far from the end of a cut, mm, and the rest fed by hand.
const BY_HAND: Ratio = Ratio::whole(2);

impl Cut {
    /// The slide that sets the depth, and the way in which the depth grows.
    const fn deepens(&self) -> (Slide, Toward) {
        match self.process {
            Process::Bore => (Slide::Cross, Toward::Out),
            Process::Face => (Slide::Carriage, Toward::Headstock),
            _ => (Slide::Cross, Toward::In),
        }
    }

    fn by_compound(&self) -> bool {
        self.slide == Some("compound")
    }

    /// The slide that feeds along the work, or across it, and its way.
    fn feeds(&self) -> (Slide, Toward) {
        match (self.process, self.by_compound()) {
            (Process::Face, true) => (Slide::Compound, Toward::In),
            (Process::Face, false) => (Slide::Cross, Toward::In),
            (_, true) => (Slide::Compound, Toward::In),
            (_, false) => (Slide::Carriage, Toward::Headstock),
        }
    }

    fn dial_of(&self, slide: Slide) -> Option<Dial> {
        match slide {
            Slide::Cross => self.dials.cross,
            Slide::Carriage => self.dials.carriage,
            Slide::Compound => self.dials.compound,
            Slide::Vertical | Slide::Quill => None,
        }
    }

    pub(super) fn length_like(&self, mm: Ratio) -> Length {
        Length::like(mm, self.like)
    }

    /// How a slide stands so far from nought: by its dial to the nearest line, else by what measures it.
    pub(super) fn reads(&self, slide: Slide, mm: Ratio) -> (Option<procedure::Reading>, Gauge) {
        let reading = self.dial_of(slide).and_then(|dial| dial.reading(mm));
        let to = reading.map(procedure::Reading::from);
        let to = to.map(|to| procedure::Reading { beyond: None, ..to });
        let gauge = match (to, slide) {
            (Some(_), _) => Gauge::Dial,
            // A length along the work is read on a rule; a depth wants an indicator where there is one.
            (None, slide) if slide == self.deepens().0 => self.kit.gauge(false),
            (None, _) => Gauge::Rule,
        };
        (to, gauge)
    }

    pub(super) fn wind(&self, slide: Slide, toward: Toward, mm: Ratio) -> Action {
        let (to, on) = self.reads(slide, mm);
        Action::Wind {
            slide,
            by: to.is_none().then(|| self.length_like(mm)),
            to,
            toward,
            from: toward.opposite(),
            on,
        }
    }

    fn zero(&self, slide: Slide) -> Action {
        Action::Zero { slide, on: self.reads(slide, Ratio::ZERO).1 }
    }

    /// How far the work stands out: as entered, else a little farther than it is cut.
    fn out(&self) -> Option<Ratio> {
        match (&self.stick_out, &self.length) {
            (Some(out), _) if self.process != Process::Bore => Some(out.value()),
            (_, Some(length)) if matches!(self.process, Process::Turn | Process::Finish) => {
                length.value().add(CLEAR_OF_HOLDER).ok()
            }
            _ => None,
        }
    }

    fn slender(&self) -> Slender {
        match (self.out(), &self.diameter) {
            (Some(out), Some(diameter)) => slender(out, diameter.value()),
            _ => Slender::Stiff,
        }
    }

    fn turned_work(&self) -> Work {
        let diameter = self.diameter.as_ref().map(Length::from);
        let bores = self.process == Process::Bore;
        Work {
            holder: self.held_in.clone(),
            diameter: diameter.filter(|_| !bores),
            bore: diameter.filter(|_| bores),
            bore_depth: self.length.as_ref().filter(|_| bores).map(Length::from),
            out: self.out().map(|out| self.length_like(out)),
            stock: Some(self.stock.id().into()),
            ..Work::at(WorkAt::LatheSpindle)
        }
    }

    fn turned_tool(&self) -> Cutter {
        let shape = match self.process {
            Process::Bore => Shape::BoringBar,
            Process::Knurl => Shape::Knurl,
            _ => Shape::TurningTool,
        };
        let bores = shape == Shape::BoringBar;
        Cutter {
            name: self.cutter.clone(),
            diameter: self.thick.as_ref().filter(|_| bores).map(Length::from),
            out: self
                .stick_out
                .as_ref()
                .or(self.length.as_ref())
                .filter(|_| bores && self.thick.is_some())
                .map(Length::from),
            material: (!self.assumed).then(|| self.material.id().into()),
            ..Cutter::new(shape, CutterAt::ToolPost)
        }
    }

    /// The tailstock's centre where the work is long; a face leaves no room for one, a steady does it there.
    fn supported(&self) -> Vec<Action> {
        match (self.slender(), self.process) {
            (Slender::Stiff, _) => Vec::new(),
            (_, Process::Face) => {
                Vec::from([Action::Mount(Item::Fitting { which: Fitting::Steady })])
            }
            (long, _) => {
                let mut actions: Vec<Action> = centre_on().collect();
                if long == Slender::NeedsSteady {
                    actions.push(Action::Mount(Item::Fitting { which: Fitting::FollowRest }));
                }
                actions
            }
        }
    }

    fn unsupported(&self) -> Vec<Action> {
        match (self.slender(), self.process) {
            (Slender::Stiff, _) => Vec::new(),
            (_, Process::Face) => {
                Vec::from([Action::Remove(Item::Fitting { which: Fitting::Steady })])
            }
            (long, _) => {
                let mut actions = Vec::from([
                    Action::Unlock { what: Lockable::Quill },
                    Action::Remove(Item::Fitting { which: Fitting::TailCentre }),
                    Action::Unlock { what: Lockable::Tailstock },
                ]);
                if long == Slender::NeedsSteady {
                    actions.push(Action::Remove(Item::Fitting { which: Fitting::FollowRest }));
                }
                actions
            }
        }
    }

    /// Whether it is fed by power: where no hand keeps the feed even, and a length is known.
    fn powered(&self) -> Option<&crate::operation::feeding::PowerFeed> {
        let hand = self.beat.is_some() || self.by_compound();
        let long = self.length.as_ref().is_some_and(|length| length.value() > BY_HAND);
        self.power_feed.as_ref().filter(|_| !hand && long)
    }

    pub(super) fn turned_ready(&self, speed: &Speed) -> Vec<Action> {
        let mut actions = Kit::safe();
        actions.extend(self.supported());
        actions.push(held(self.turned_work()));
        if let Some(diameter) = &self.diameter
            && self.process != Process::Face
        {
            let (what, with) = self.gauged();
            actions.extend([
                Action::Look(Statement::Cutter { is: CutterStands::Clear, off: None }),
                Action::Clean { what: Tended::Work },
                Action::Measure {
                    what,
                    with,
                    should_be: Some(Length::from(diameter)),
                    up_to: None,
                    is: None,
                    fills: None,
                },
            ]);
        }
        actions.extend(tool(self.turned_tool()));
        if self.by_compound() {
            let to = if self.process == Process::Face { Axis::Across } else { Axis::Along };
            actions.extend([
                Action::SquareUp { what: Adjustable::Compound, to },
                Action::Look(Statement::Lock { what: Lockable::Compound, is: OnOff::Off }),
            ]);
            if self.process == Process::Face {
                actions.push(Action::Lock { what: Lockable::Cross });
            }
        } else {
            actions.extend(compound_fast(Axis::Along));
        }
        if let Some(power) = self.powered() {
            actions.extend(power.on(self.kit.tumbler, self.like));
        }
        let gauge = self.reads(self.deepens().0, Ratio::ZERO).1;
        actions.extend(Kit::indicator_for(&[gauge]));
        actions.extend([
            Action::Look(Statement::Cutter { is: CutterStands::Clear, off: None }),
            set_speed(speed),
            spindle_free(),
        ]);
        actions.extend(to_start(&[Cleared::Work, Cleared::Tool]));
        actions
    }

    const fn gauged(&self) -> (Measured, Instrument) {
        match self.process {
            Process::Bore => (Measured::Bore, Instrument::Caliper),
            _ => (Measured::Diameter, Instrument::Caliper),
        }
    }

    const fn touch(slide: Slide, toward: Toward, face: Face) -> Action {
        Action::Touch { slide, toward, face, between: Between::TurningWork, thick: None }
    }

    pub(super) fn turned_touch(&self) -> Vec<Action> {
        let (slide, toward) = self.deepens();
        let mut actions = Vec::from([
            lathe(Running::Forward),
            Cut::touch(Slide::Carriage, Toward::Headstock, Face::End),
            self.zero(Slide::Carriage),
        ]);
        if self.process == Process::Face {
            let across = self.feeds().0;
            actions.push(back_from(across, Toward::In));
            return actions;
        }
        let face = if self.process == Process::Bore { Face::Bore } else { Face::Rim };
        actions.extend([
            back_from(Slide::Carriage, Toward::Headstock),
            back_from(slide, toward),
            self.wind(Slide::Carriage, Toward::Headstock, OVER_THE_END),
            Cut::touch(slide, toward, face),
            self.zero(slide),
        ]);
        if self.process == Process::Knurl {
            // Here it is pressed in, part of the wheels' width on the work.
            return actions;
        }
        actions.extend([back_from(slide, toward), back_from(Slide::Carriage, Toward::Headstock)]);
        actions
    }

    fn hand_fed(
        &self,
        slide: Slide,
        toward: Toward,
        over: Option<Length>,
        until: Option<Until>,
    ) -> Action {
        Action::Feed {
            slide,
            toward,
            over,
            to: None,
            until,
            by: FeedBy::Hand,
            each_turn: None,
            beat: self.bench_beat().and_then(beat_of),
        }
    }

    pub(super) fn turned_cut(&self, depth: Ratio) -> Vec<Action> {
        let (slide, toward) = self.deepens();
        let (feeds, way) = self.feeds();
        let mut actions: Vec<Action> = fluid(Some(self.stock)).into_iter().collect();
        actions.push(self.wind(slide, toward, depth));
        if self.process == Process::Face {
            actions.extend([
                Action::Lock { what: Lockable::Carriage },
                self.hand_fed(feeds, way, None, Some(Until::Middle)),
                Action::Unlock { what: Lockable::Carriage },
                back_from(slide, toward),
                back_from(feeds, way),
                lathe(Running::Stopped),
            ]);
            return actions;
        }
        actions.push(self.wind(Slide::Carriage, Toward::Headstock, Ratio::ZERO));
        if self.by_compound() {
            actions.push(Action::Lock { what: Lockable::Carriage });
        }
        let length = self.length.as_ref().map(crate::quantity::Quantity::value);
        match (self.powered(), length.and_then(|length| length.sub(BY_HAND).ok())) {
            (Some(power), Some(far)) => {
                actions.extend(power.fed(feeds, way, self.length_like(far)));
                actions.push(self.hand_fed(feeds, way, Some(self.length_like(BY_HAND)), None));
            }
            _ => {
                let until = length.is_none().then_some(Until::Mark);
                let over = length.map(|length| self.length_like(length));
                actions.push(self.hand_fed(feeds, way, over, until));
            }
        }
        actions.push(back_from(Slide::Cross, toward));
        if self.by_compound() {
            actions.push(Action::Unlock { what: Lockable::Carriage });
        }
        actions.extend([back_from(Slide::Carriage, Toward::Headstock), lathe(Running::Stopped)]);
        actions
    }

    /// The knurl pressed in at the end, its print looked at, then fed along.
    pub(super) fn pressed(&self) -> Vec<Action> {
        let over = self.depth.as_ref().map(Length::from);
        let until = over.is_none().then_some(Until::Mark);
        Vec::from([
            Action::Lock { what: Lockable::Carriage },
            Action::Feed {
                slide: Slide::Cross,
                toward: Toward::In,
                over,
                to: None,
                until,
                by: FeedBy::Hand,
                each_turn: None,
                beat: None,
            },
            Action::Unlock { what: Lockable::Carriage },
            lathe(Running::Stopped),
            Action::Look(Statement::Pattern),
        ])
    }

    pub(super) fn knurled(&self) -> Vec<Action> {
        let length = self.length.as_ref().map(Length::from);
        let until = length.is_none().then_some(Until::Mark);
        Vec::from([
            lathe(Running::Forward),
            self.hand_fed(Slide::Carriage, Toward::Headstock, length, until),
            back_from(Slide::Cross, Toward::In),
            back_from(Slide::Carriage, Toward::Headstock),
            lathe(Running::Stopped),
        ])
    }

    pub(super) fn turned_end(&self) -> Vec<Action> {
        let mut actions = Vec::from([
            Action::Deburr { what: Tended::Edges },
            Action::Clean { what: Tended::Work },
        ]);
        let twice = |mm: Ratio| mm.mul(Ratio::whole(2)).ok();
        if let (Some(diameter), Some(deep)) = (&self.diameter, &self.depth)
            && let Some(deep) = twice(deep.value())
            && matches!(self.process, Process::Turn | Process::Finish | Process::Bore)
        {
            let size = match self.process {
                Process::Bore => diameter.value().add(deep),
                _ => diameter.value().sub(deep),
            };
            let (what, with) = self.gauged();
            actions.push(Action::Measure {
                what,
                with,
                should_be: size.ok().map(|size| Length::like(size, diameter.unit())),
                up_to: None,
                is: None,
                fills: None,
            });
        }
        actions.push(Action::Isolate);
        actions.extend(self.unsupported());
        if let Some(power) = self.powered() {
            actions.extend(power.off(self.kit.tumbler, self.like));
        }
        match (self.by_compound(), self.process) {
            (false, _) => actions.push(Action::Unlock { what: Lockable::Compound }),
            (true, Process::Face) => actions.push(Action::Unlock { what: Lockable::Cross }),
            (true, _) => {}
        }
        actions
    }
}
