//! Turning, boring and facing to size as a person does it at the machine.

use super::worked::Size;
use crate::cutting::{CutKind, Slender};
use crate::exact::Ratio;
use crate::operation::feeding::PowerFeed;
use crate::operation::passes::{Pass, Way};
use crate::operation::ready::{
    Kit, back_from, beat_of, centre_on, compound_fast, held, lathe, lock_of, set_speed, tool,
};
use crate::operation::spindle::Spindle;
use crate::operation::{Beat, Step};
use crate::procedure::{
    self, Action, Adjustable, Axis, Between, Cutter, CutterAt, CutterStands, Face, FeedBy, Fitting,
    Gauge, Instrument, Item, Length, Lockable, Measured, Running, Shape, Slide, Statement, StepId,
    Tended, Toward, Until, WaitFor, Work, WorkAt,
};
use crate::quantity::{Unit, show};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::ToString;
use alloc::vec::Vec;

/// Before a shoulder the power feed is thrown out by so much, mm, and the rest fed by hand: 1 to 2 mm (US
/// Army TC 9-524, ch. 7, shoulders, by the rule's table).
const BY_HAND: Ratio = Ratio::whole(2);
/// As far over the work as is enough to touch its outside, mm. Common practice, no source.
const OVER_THE_END: Ratio = Ratio::whole(3);
/// The work stands out so much farther than it is cut, mm, so that the tool stays clear of the holder. Common
/// practice, no source.
const CLEAR_OF_HOLDER: Ratio = Ratio::whole(5);

/// How far work stands out of its holder that is cut over such a length, mm.
pub(super) fn stands_out(length: Ratio) -> Ratio {
    length.add(CLEAR_OF_HOLDER).unwrap_or(length)
}

/// What is done at a step.
enum Stage<'a> {
    Ready,
    Touch,
    Trial(&'a Pass),
    Cut(usize, &'a Pass),
    Measure(&'a Pass),
    Check,
}

impl Size {
    pub(super) fn count(&self) -> usize {
        let measuring = usize::from(self.measuring().is_some());
        let trial = usize::from(self.tried().is_some());
        self.passes.len().saturating_add(measuring).saturating_add(trial).saturating_add(3)
    }

    pub(super) fn at(&self, at: usize) -> Step {
        match self.stage(at) {
            Stage::Ready => self.ready(),
            Stage::Touch => self.touch(),
            Stage::Trial(pass) => self.trial(pass),
            Stage::Cut(index, pass) => self.pass(index, pass),
            Stage::Measure(pass) => self.measure(pass),
            Stage::Check => self.check(),
        }
    }

    fn stage(&self, at: usize) -> Stage<'_> {
        let Some(after) = at.checked_sub(1) else { return Stage::Ready };
        let Some(after) = after.checked_sub(1) else { return Stage::Touch };
        let after = match self.tried() {
            Some(first) => match after.checked_sub(1) {
                None => return Stage::Trial(first),
                Some(after) => after,
            },
            None => after,
        };
        let measuring = self.measuring();
        let index = match measuring {
            Some(place) if after == place.saturating_add(1) => {
                return self.passes.get(place).map_or(Stage::Check, Stage::Measure);
            }
            Some(place) if after > place => after.saturating_sub(1),
            _ => after,
        };
        self.passes.get(index).map_or(Stage::Check, |pass| Stage::Cut(index, pass))
    }

    /// The slide that sets the depth, and the way in which the depth grows.
    fn depth(&self) -> (Slide, Toward) {
        match self.way {
            Way::Turn => (Slide::Cross, Toward::In),
            Way::Bore => (Slide::Cross, Toward::Out),
            Way::Face if self.by_compound => (Slide::Compound, Toward::In),
            Way::Face => (Slide::Carriage, Toward::Headstock),
        }
    }

    /// The slide that feeds, and its way in the cut.
    const fn feeding(&self) -> (Slide, Toward) {
        match self.way {
            Way::Face => (Slide::Cross, Toward::In),
            _ => (Slide::Carriage, Toward::Headstock),
        }
    }

    fn gauge(&self) -> Gauge {
        self.kit.gauge_over(self.dial.is_some(), self.passes.last().map(|pass| pass.travel))
    }

    fn speed(&self) -> Option<&Spindle> {
        self.rough.as_ref().or(self.cautious.as_ref())
    }

    fn unit(&self) -> Unit {
        self.to.unit()
    }

    fn like(&self, mm: Ratio) -> Length {
        Length::like(mm, self.unit())
    }

    /// The size that it has before the first pass: where none comes before it is measured, what it measures.
    fn found(&self) -> Length {
        let measured = self.measured.as_ref().filter(|_| self.measuring().is_none());
        measured.unwrap_or(&self.from).into()
    }

    /// The work as it must be held.
    fn work(&self) -> Work {
        let mut work = Work::at(WorkAt::LatheSpindle);
        let from = self.found();
        work.holder.clone_from(&self.held_in);
        match self.way {
            Way::Turn => {
                work.diameter = Some(from);
                let out = self.length.as_ref().map(|length| stands_out(length.value()));
                work.out = out.map(|out| self.like(out));
            }
            Way::Bore => {
                work.bore = Some(from);
                work.bore_depth = self.length.as_ref().map(Length::from);
            }
            Way::Face => {
                work.length = Some(from);
                work.diameter = self.faced.map(|faced| self.like(faced));
            }
        }
        work
    }

    fn tool(&self) -> Cutter {
        let shape = if self.way == Way::Bore { Shape::BoringBar } else { Shape::TurningTool };
        let bar = self.bar.as_ref().filter(|_| self.way == Way::Bore);
        Cutter {
            name: self.cutter.clone(),
            diameter: bar.map(|(diameter, _)| self.like(*diameter)),
            material: bar.and_then(|(_, material)| material.map(ToOwned::to_owned)),
            out: bar.and(self.length.as_ref()).map(Length::from),
            ..Cutter::new(shape, CutterAt::ToolPost)
        }
    }

    fn ready(&self) -> Step {
        let mut actions = Kit::safe();
        if self.out != Slender::Stiff {
            actions.extend(centre_on());
        }
        if self.out == Slender::NeedsSteady {
            actions.push(Action::Mount(Item::Fitting { which: Fitting::FollowRest }));
        }
        actions.push(held(self.work()));
        if self.measuring().is_none() || self.past.is_some() {
            // Nothing is measured between the cuts: what it measures now decides.
            let (what, with) = self.gauged();
            actions.extend([
                Action::Look(Statement::Cutter { is: CutterStands::Clear, off: None }),
                Action::Clean { what: Tended::Work },
                Action::Measure {
                    what,
                    with,
                    should_be: Some(self.found()),
                    up_to: None,
                    is: None,
                    fills: None,
                },
            ]);
        }
        actions.extend(tool(self.tool()));
        match (self.way, self.depth()) {
            (Way::Face, (Slide::Compound, _)) => {
                actions.extend([
                    Action::SquareUp { what: Adjustable::Compound, to: Axis::Along },
                    Action::Lock { what: Lockable::Carriage },
                ]);
            }
            _ => actions.extend(compound_fast(Axis::Along)),
        }
        actions.extend(self.gears_on());
        actions.extend(Kit::indicator_for(&[self.gauge()]));
        actions.push(Action::Look(Statement::Cutter { is: CutterStands::Clear, off: None }));
        if let Some(spindle) = self.speed() {
            actions.extend(Kit::to_turn(&spindle.speed));
        }
        let figure = self.speed().map(|spindle| spindle.speed.rpm.to_string());
        Step {
            id: StepId::new("ready", 1),
            title: "Make ready".to_owned(),
            label: if figure.is_some() { "rpm" } else { "" }.to_owned(),
            figure: figure.unwrap_or_default(),
            actions,
            done: "Ready",
            ..Step::default()
        }
    }

    /// The feed by power of roughing, where there is one.
    fn powered(&self) -> Option<&PowerFeed> {
        self.power.first().and_then(Option::as_ref).filter(|_| self.way != Way::Face)
    }

    /// The gears out of mesh again: the next job finds none that it didn't put on.
    fn gears_off(&self) -> Vec<Action> {
        self.powered().map_or_else(Vec::new, |power| power.off(self.kit.tumbler, self.unit()))
    }

    /// The gears that make the feed, put on while everything is isolated.
    fn gears_on(&self) -> Vec<Action> {
        self.powered().map_or_else(Vec::new, |power| power.on(self.kit.tumbler, self.unit()))
    }

    fn touch(&self) -> Step {
        let (slide, toward) = self.depth();
        let on = self.gauge();
        let mut actions = Vec::from([lathe(Running::Forward)]);
        let touch = |slide, toward, face| Action::Touch {
            slide,
            toward,
            face,
            between: Between::TurningWork,
            thick: None,
        };
        let zero = |slide, on| Action::Zero { slide, on };
        if self.way == Way::Face {
            actions.extend([
                touch(slide, toward, Face::End),
                zero(slide, on),
                back_from(Slide::Cross, Toward::In),
            ]);
        } else {
            let face = if self.way == Way::Bore { Face::Bore } else { Face::Rim };
            let along = self.along_gauge();
            actions.extend([
                touch(Slide::Carriage, Toward::Headstock, Face::End),
                zero(Slide::Carriage, along),
                back_from(Slide::Carriage, Toward::Headstock),
                back_from(slide, toward),
                self.wind_along(OVER_THE_END),
                touch(slide, toward, face),
                zero(slide, on),
                back_from(slide, toward),
                back_from(Slide::Carriage, Toward::Headstock),
            ]);
        }
        Step {
            id: StepId::new("touch", 1),
            title: "Touch on".to_owned(),
            actions,
            label: self.slide().to_owned(),
            figure: "0".to_owned(),
            done: "Done",
            ..Step::default()
        }
    }

    /// The first pass, where a short length is to be tried by hand: before the power feed goes on, and where
    /// nothing else is measured before the last cut.
    fn tried(&self) -> Option<&Pass> {
        let by_power = self.way == Way::Turn && self.powered().is_some();
        let unmeasured = self.way != Way::Face && self.measuring().is_none();
        self.passes.first().filter(|_| by_power || unmeasured)
    }

    /// A few millimetres by hand at the first depth, and measured: the dial, the tool and the size touched are
    /// right before the length is cut by power.
    fn trial(&self, pass: &Pass) -> Step {
        let bores = self.way == Way::Bore;
        let (_, deeper) = self.depth();
        let short =
            self.length.as_ref().map_or(OVER_THE_END, |length| OVER_THE_END.min(length.value()));
        let actions = Vec::from([
            self.set_depth(pass),
            self.wind_along(Ratio::ZERO),
            Action::Feed {
                slide: Slide::Carriage,
                toward: Toward::Headstock,
                over: Some(self.like(short)),
                to: None,
                until: None,
                by: FeedBy::Hand,
                each_turn: None,
                beat: None,
            },
            back_from(Slide::Cross, deeper),
            back_from(Slide::Carriage, Toward::Headstock),
            lathe(Running::Stopped),
            Action::Deburr { what: Tended::Edges },
            Action::Clean { what: Tended::Work },
            Action::Measure {
                what: if bores { Measured::Bore } else { Measured::Diameter },
                with: Instrument::Caliper,
                should_be: Some(self.like(pass.leaves)),
                up_to: None,
                is: None,
                fills: None,
            },
        ]);
        Step {
            id: StepId::new("trial", 1),
            title: "Try the first cut by hand".to_owned(),
            actions,
            say: Vec::from([
                "If it measures otherwise, the size touched or the dial is wrong: touch again."
                    .to_owned(),
            ]),
            label: "should measure".to_owned(),
            figure: self.sized(pass.leaves),
            done: "Measured",
            cuts: true,
            ..Step::default()
        }
    }

    /// What the carriage is read on.
    fn along_gauge(&self) -> Gauge {
        if self.carriage.is_some() { Gauge::Dial } else { Gauge::Rule }
    }

    /// The carriage to so far from the end, not cutting.
    fn wind_along(&self, mm: Ratio) -> Action {
        let to = self.carriage.and_then(|dial| dial.reading(mm)).map(procedure::Reading::from);
        Action::Wind {
            slide: Slide::Carriage,
            by: to.is_none().then(|| self.like(mm)),
            to,
            toward: Toward::Headstock,
            from: Toward::Tailstock,
            on: self.along_gauge(),
        }
    }

    /// The depth of a pass.
    fn set_depth(&self, pass: &Pass) -> Action {
        let (slide, toward) = self.depth();
        let to = pass.reading.map(procedure::Reading::from);
        Action::Wind {
            slide,
            by: to.is_none().then(|| self.like(pass.travel)),
            to,
            toward,
            from: toward.opposite(),
            on: self.gauge(),
        }
    }

    /// The cut of a pass: by power as far as it goes, the last of it by hand.
    fn feed(&self, last: bool, beat: Option<Beat>) -> Vec<Action> {
        let (slide, toward) = self.feeding();
        let beat = beat.and_then(beat_of);
        let by_hand = |over, to, until| Action::Feed {
            slide,
            toward,
            over,
            to,
            until,
            by: FeedBy::Hand,
            each_turn: None,
            beat,
        };
        let Some(length) = self.length.as_ref().map(crate::quantity::Quantity::value) else {
            return Vec::from([by_hand(None, None, Some(Until::Middle))]);
        };
        let to = self.carriage.and_then(|dial| dial.reading(length)).map(procedure::Reading::from);
        let by_power = self.powered().filter(|power| !last || power.gears.is_none());
        // As far as it is tried by hand there is nothing left to feed by power.
        let far = length.sub(BY_HAND).ok().filter(|far| *far > OVER_THE_END);
        let (Some(power), Some(far)) = (by_power, far) else {
            // Begun where the end was touched, or before it: the length is read from there.
            let over = to.is_none().then(|| self.like(length));
            return Vec::from([self.wind_along(Ratio::ZERO), by_hand(over, to, None)]);
        };
        let rest = to.is_none().then(|| self.like(BY_HAND));
        let mut actions = Vec::from([self.wind_along(Ratio::ZERO)]);
        actions.extend(power.fed(slide, toward, self.like(far)));
        actions.push(by_hand(rest, to, None));
        actions
    }

    fn pass(&self, index: usize, pass: &Pass) -> Step {
        let what = match pass.kind {
            CutKind::Rough => "roughing",
            CutKind::Measuring => "to measure",
            CutKind::Last => "to size",
        };
        let count = self.passes.len();
        let last = pass.kind == CutKind::Last;
        let (depth, deeper) = self.depth();
        let mut actions = Vec::new();
        let before = index.checked_sub(1).and_then(|before| self.passes.get(before));
        let stopped = match before {
            Some(before) => before.kind == CutKind::Measuring,
            None => self.tried().is_some(),
        };
        let other = self.finish.as_ref().filter(|finish| {
            last && count > 1 && self.rough.as_ref().is_none_or(|rough| rough.speed != finish.speed)
        });
        if let Some(finish) = other {
            if !stopped {
                actions.push(lathe(Running::Stopped));
            }
            actions.push(set_speed(&finish.speed));
        }
        if stopped || other.is_some() {
            actions.push(lathe(Running::Forward));
        }
        actions.push(self.set_depth(pass));
        if self.way == Way::Face {
            actions.push(Action::Lock { what: lock_of(depth) });
        }
        let spindle = if last { self.finish.as_ref().or(self.speed()) } else { self.speed() };
        let beat = spindle.and_then(|spindle| match self.way {
            Way::Face => spindle.beat(self.across, "the cross slide", self.travel),
            _ => spindle.beat(self.carriage, "the carriage", self.travel),
        });
        actions.extend(self.feed(last, beat));
        match self.way {
            Way::Face => actions.extend([
                Action::Unlock { what: lock_of(depth) },
                back_from(depth, deeper),
                back_from(Slide::Cross, Toward::In),
            ]),
            _ => actions.extend([
                back_from(Slide::Cross, deeper),
                back_from(Slide::Carriage, Toward::Headstock),
            ]),
        }
        if pass.kind == CutKind::Measuring {
            actions.push(lathe(Running::Stopped));
        }
        let (label, figure) = match (&pass.reading, self.dial) {
            (Some(reading), Some((slide, _))) => {
                (format!("{slide}, {} to", self.direction()), reading.counted().to_string())
            }
            _ => {
                let by = show::length_like(pass.travel, self.unit());
                (format!("{} from the touch", self.direction()), by)
            }
        };
        Step {
            id: StepId::new("pass", u32::try_from(index.saturating_add(1)).unwrap_or(u32::MAX)),
            title: format!("cut {} of {count}, {what}", index.saturating_add(1)),
            actions,
            label,
            figure,
            done: "Cut",
            cuts: true,
            beat,
            ..Step::default()
        }
    }

    /// What is measured, and by what.
    const fn gauged(&self) -> (Measured, Instrument) {
        match self.way {
            Way::Turn => (Measured::Diameter, Instrument::Micrometer),
            Way::Bore => (Measured::Bore, Instrument::Caliper),
            Way::Face => (Measured::Length, Instrument::Caliper),
        }
    }

    fn measure(&self, pass: &Pass) -> Step {
        let (what, with) = self.gauged();
        let actions = Vec::from([
            Action::Look(Statement::Spindle {
                of: procedure::Spindle::Lathe,
                is: Running::Stopped,
            }),
            Action::Wait { until: WaitFor::Cool },
            Action::Deburr { what: Tended::Edges },
            Action::Clean { what: Tended::Work },
            Action::Measure {
                what,
                with,
                should_be: Some(self.like(pass.leaves)),
                up_to: None,
                is: self.measured.as_ref().map(Length::from),
                fills: Some("measured".to_owned()),
            },
        ]);
        let remark = match (&self.measured, self.past) {
            (None, _) => "What it measures decides the last cut: enter it before going on.",
            (Some(_), None) => "It is entered: what is still to cut goes by it.",
            (Some(_), Some(past)) if past.is_zero() => "It is to size: no more cuts.",
            (Some(_), Some(_)) => {
                "It is past its size: nothing is left to cut. Make its mate to it, or begin another."
            }
        };
        Step {
            id: StepId::new("measure", 1),
            title: "Measure".to_owned(),
            actions,
            say: Vec::from([remark.to_owned()]),
            label: "should measure".to_owned(),
            figure: self.sized(pass.leaves),
            done: "Measured",
            measures: Some("measured"),
            ..Step::default()
        }
    }

    fn check(&self) -> Step {
        let mut actions = Vec::from([
            lathe(Running::Stopped),
            Action::Wait { until: WaitFor::Cool },
            Action::Deburr { what: Tended::Edges },
            Action::Clean { what: Tended::Work },
        ]);
        let measure = |what, with, should| Action::Measure {
            what,
            with,
            should_be: Some(should),
            up_to: None,
            is: None,
            fills: None,
        };
        // Past its size it is as it was measured: nothing more comes off.
        let measured = self.measured.as_ref().filter(|_| self.past.is_some());
        let size = Length::from(measured.unwrap_or(&self.to));
        let (what, with) = self.gauged();
        actions.push(measure(what, with, size));
        if let Some(length) = &self.length {
            actions.push(match self.way {
                Way::Bore => measure(Measured::Depth, Instrument::DepthGauge, length.into()),
                _ => measure(Measured::Length, Instrument::Caliper, length.into()),
            });
        }
        actions.push(Action::Isolate);
        if self.out == Slender::NeedsSteady {
            actions.push(Action::Remove(Item::Fitting { which: Fitting::FollowRest }));
        }
        if self.out != Slender::Stiff {
            actions.extend([
                Action::Unlock { what: Lockable::Quill },
                Action::Remove(Item::Fitting { which: Fitting::TailCentre }),
                Action::Unlock { what: Lockable::Tailstock },
            ]);
        }
        actions.extend(self.gears_off());
        actions.extend(Kit::indicator_off(&[self.gauge()]));
        actions.push(Action::Unlock {
            what: match (self.way, self.depth()) {
                (Way::Face, (Slide::Compound, _)) => Lockable::Carriage,
                _ => Lockable::Compound,
            },
        });
        Step {
            id: StepId::new("check", 1),
            title: "Check".to_owned(),
            actions,
            label: "to size".to_owned(),
            figure: self.sized(self.to.value()),
            done: "Done",
            ..Step::default()
        }
    }
}
