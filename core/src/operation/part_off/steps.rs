//! Parting off at the machine.

use super::Parting;
use crate::cutting::Slender;
use crate::exact::Ratio;
use crate::operation::ready::{
    Kit, back_from, beat_of, compound_fast, fluid, held, lathe, set_speed, spindle_free, to_start,
    tool,
};
use crate::operation::{Beat, Step};
use crate::procedure::{
    self, Action, Adjustable, Axis, Between, Cleared, Cutter, CutterAt, Face, FeedBy, Fitting,
    Gauge, Item, Length, Lockable, Running, Shape, Slide, StepId, Tended, Toward, Until, Work,
    WorkAt,
};
use crate::quantity::show;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// The work stands out so much farther than the blade goes, mm, so that it stays clear of the holder. Common
/// practice, no source.
const CLEAR_OF_HOLDER: Ratio = Ratio::whole(3);
/// A groove that is deep for its blade is widened each time it has gone in so many times its width. Common
/// practice, no source.
const WIDTHS_DEEP: i64 = 4;
/// No more grooves than so many one beside the other.
const MOST_STAGES: usize = 12;

impl Parting {
    /// All of it, in order.
    pub(in crate::operation) fn stages(&self) -> Vec<Step> {
        let mut steps = Vec::from([self.mount(), self.place()]);
        let solid = self.bore < self.core;
        if solid {
            steps.push(self.groove());
        }
        steps.push(self.through(solid));
        steps
    }

    fn length(&self, mm: Ratio) -> Length {
        Length::like(mm, self.diameter.unit())
    }

    /// From the end face to the blade's headstock side when it stands at its place: the part, what is left for
    /// facing, the blade's own width.
    fn away(&self) -> Option<Ratio> {
        let part = self.length.as_ref()?.value().add(self.ruled(self.facing)).ok()?;
        part.add(self.blade_mm?).ok()
    }

    /// How far the work stands out of its holder.
    fn out(&self) -> Option<Ratio> {
        self.away()?.add(CLEAR_OF_HOLDER).ok()
    }

    fn long(&self) -> bool {
        self.out().is_some_and(|out| {
            crate::cutting::slender(out, self.diameter.value()) != Slender::Stiff
        })
    }

    fn blade(&self) -> Cutter {
        Cutter {
            name: self.blade.clone(),
            width: self.blade_mm.map(|width| self.length(width)),
            out: Some(self.length(self.ruled(self.stick_out))),
            ..Cutter::new(Shape::PartingBlade, CutterAt::ToolPost)
        }
    }

    fn catcher(&self) -> Fitting {
        if self.bore.is_zero() { Fitting::Catcher } else { Fitting::Rod }
    }

    fn mount(&self) -> Step {
        let mut actions = Kit::safe();
        actions.extend([
            Action::Remove(Item::Fitting { which: Fitting::TailCentre }),
            held(Work {
                holder: self.held_in.clone(),
                diameter: Some(Length::from(&self.diameter)),
                bore: (!self.bore.is_zero()).then(|| self.length(self.bore)),
                out: self.out().map(|out| self.length(out)),
                stock: self.stock.map(|stock| stock.id().to_owned()),
                ..Work::at(WorkAt::LatheSpindle)
            }),
        ]);
        if self.long() {
            // No centre: the part would jam the blade as it comes off.
            actions.push(Action::Mount(Item::Fitting { which: Fitting::Steady }));
        }
        actions.extend(tool(self.blade()));
        actions.push(Action::SquareUp { what: Adjustable::Tool, to: Axis::Across });
        actions.extend(compound_fast(Axis::Along));
        actions.extend([
            Action::Deburr { what: Tended::Edges },
            Action::Mount(Item::Fitting { which: self.catcher() }),
            set_speed(&self.speed),
            spindle_free(),
        ]);
        actions.extend(to_start(&[Cleared::Work, Cleared::Tool]));
        Step {
            id: StepId::new("mount", 1),
            title: "Mount the blade".to_owned(),
            actions,
            label: "stick-out".to_owned(),
            figure: self.by_rule(self.stick_out),
            done: "Mounted",
            ..Step::default()
        }
    }

    /// The blade to its place along the work, the carriage locked there, nought where it touches the outside.
    fn place(&self) -> Step {
        let carriage = |face| Action::Touch {
            slide: Slide::Carriage,
            toward: Toward::Headstock,
            face,
            between: Between::TurningWork,
            thick: None,
        };
        let mut actions = Vec::from([lathe(Running::Forward)]);
        let (mut label, mut figure) = ("cross slide".to_owned(), "0".to_owned());
        match self.away() {
            Some(away) => {
                let reading = self.carriage.and_then(|dial| dial.reading(away));
                let on = if reading.is_some() { Gauge::Dial } else { Gauge::Rule };
                // To the nearest line: what is left for facing takes up the rest.
                let to = reading.map(procedure::Reading::from);
                let to = to.map(|to| procedure::Reading { beyond: None, ..to });
                (label, figure) = match reading {
                    Some(reading) => {
                        ("carriage, toward the headstock".to_owned(), format!("{reading}"))
                    }
                    None => ("carriage, from the end".to_owned(), self.by_rule(away)),
                };
                actions.extend([
                    carriage(Face::End),
                    Action::Zero { slide: Slide::Carriage, on },
                    back_from(Slide::Carriage, Toward::Headstock),
                    back_from(Slide::Cross, Toward::In),
                    Action::Wind {
                        slide: Slide::Carriage,
                        by: to.is_none().then(|| self.length(self.ruled(away))),
                        to,
                        toward: Toward::Headstock,
                        from: Toward::Tailstock,
                        on,
                    },
                ]);
            }
            None => actions.push(carriage(Face::Line)),
        }
        actions.extend([
            Action::Lock { what: Lockable::Carriage },
            Action::Touch {
                slide: Slide::Cross,
                toward: Toward::In,
                face: Face::Rim,
                between: Between::TurningWork,
                thick: None,
            },
            Action::Zero { slide: Slide::Cross, on: self.gauge() },
            back_from(Slide::Cross, Toward::In),
            lathe(Running::Stopped),
        ]);
        Step {
            id: StepId::new("place", 1),
            title: "Set the place".to_owned(),
            actions,
            label,
            figure,
            done: "Set",
            ..Step::default()
        }
    }

    const fn gauge(&self) -> Gauge {
        if self.cross.is_some() { Gauge::Dial } else { Gauge::Rule }
    }

    /// The blade wound in to where it touched, and fed from there.
    fn fed(&self, deep: Option<Ratio>, until: Option<Until>, beat: Option<Beat>) -> [Action; 2] {
        let reading = |mm: Ratio| {
            let reading = procedure::Reading::from(self.cross?.reading_towards(true, mm)?);
            Some(procedure::Reading { beyond: None, ..reading })
        };
        let nought = reading(Ratio::ZERO);
        let to = deep.and_then(reading);
        [
            Action::Wind {
                slide: Slide::Cross,
                by: nought.is_none().then(|| self.length(Ratio::ZERO)),
                to: nought,
                toward: Toward::In,
                from: Toward::Out,
                on: self.gauge(),
            },
            Action::Feed {
                slide: Slide::Cross,
                toward: Toward::In,
                over: deep.filter(|_| to.is_none()).map(|deep| self.length(deep)),
                to,
                until,
                by: FeedBy::Hand,
                each_turn: None,
                beat: beat.and_then(beat_of),
            },
        ]
    }

    /// Where the groove is deep for its blade: how deep it is each time it is widened, mm.
    fn stages_of(&self, deep: Ratio) -> Vec<Ratio> {
        let step = self.blade_mm.and_then(|width| width.mul(Ratio::whole(WIDTHS_DEEP)).ok());
        let Some(step) = step.filter(|step| self.too_thin() && step.is_positive()) else {
            return Vec::new();
        };
        let each = |n: i64| step.mul(Ratio::whole(n)).ok().filter(|at| *at < deep);
        (1..).map_while(each).take(MOST_STAGES).collect()
    }

    /// Fed in and drawn out; widened on the holder's side as it goes, where it is deep for its blade.
    fn grooved(&self, deep: Ratio, beat: Option<Beat>) -> Vec<Action> {
        let mut actions = Vec::new();
        let stages = self.stages_of(deep);
        let half = self.blade_mm.and_then(|width| width.div(Ratio::whole(2)).ok());
        for stage in stages {
            actions.extend(self.fed(Some(stage), None, beat));
            actions.push(back_from(Slide::Cross, Toward::In));
            let (Some(away), Some(half)) = (self.away(), half) else { continue };
            let Ok(beside) = away.add(half) else { continue };
            for (at, feeds) in [(beside, true), (away, false)] {
                actions.extend([
                    Action::Unlock { what: Lockable::Carriage },
                    self.along(at),
                    Action::Lock { what: Lockable::Carriage },
                ]);
                if feeds {
                    actions.extend(self.fed(Some(stage), None, beat));
                    actions.push(back_from(Slide::Cross, Toward::In));
                }
            }
        }
        actions
    }

    fn along(&self, away: Ratio) -> Action {
        let to = self.carriage.and_then(|dial| dial.reading(away)).map(procedure::Reading::from);
        let to = to.map(|to| procedure::Reading { beyond: None, ..to });
        Action::Wind {
            slide: Slide::Carriage,
            by: to.is_none().then(|| self.length(self.ruled(away))),
            to,
            toward: Toward::Headstock,
            from: Toward::Tailstock,
            on: if to.is_some() { Gauge::Dial } else { Gauge::Rule },
        }
    }

    fn in_to(&self, diameter: Ratio) -> Option<Ratio> {
        self.diameter.value().sub(diameter).ok()?.div(Ratio::whole(2)).ok()
    }

    /// What hand feeding there is to say beside the actions.
    fn remarks(&self, to: Ratio) -> Vec<String> {
        let uneven = self.cross.is_some() && self.spindle.is_some() && self.beat(to).is_none();
        let slow = "That is slower than can be kept even by hand: a little quicker does less harm than jerks.";
        uneven.then(|| slow.to_owned()).into_iter().collect()
    }

    fn groove(&self) -> Step {
        let core = self.core;
        let beat = self.beat(core);
        let deep = self.in_to(core).unwrap_or(Ratio::ONE);
        let mut actions: Vec<Action> = fluid(self.stock).into_iter().collect();
        actions.extend(to_start(&[Cleared::Tool]));
        actions.push(lathe(Running::Forward));
        actions.extend(self.grooved(deep, beat));
        actions.extend(self.fed(Some(deep), None, beat));
        actions.extend([
            back_from(Slide::Cross, Toward::In),
            lathe(Running::Stopped),
            Action::Deburr { what: Tended::Edges },
            Action::Clean { what: Tended::Swarf },
        ]);
        let depth = self.depth_to(core);
        Step {
            id: StepId::new("groove", 1),
            title: "Groove to a core".to_owned(),
            actions,
            say: self.remarks(core),
            label: if depth.is_some() { "cross slide, in to" } else { "down to" }.to_owned(),
            figure: depth.unwrap_or_else(|| format!("Ø {}", self.like(core))),
            done: "Cut",
            cuts: true,
            beat,
            ..Step::default()
        }
    }

    /// To the middle, or into the bore, what comes off caught.
    fn through(&self, solid: bool) -> Step {
        let beat = self.beat(self.bore);
        let deep = self.in_to(self.bore).unwrap_or(Ratio::ONE);
        let mut actions: Vec<Action> = fluid(self.stock).into_iter().collect();
        actions.extend(to_start(&[Cleared::Tool]));
        actions.push(lathe(Running::Forward));
        if !solid {
            actions.extend(self.grooved(deep, beat));
        }
        let until = if self.bore.is_zero() { Until::Middle } else { Until::Through };
        actions.extend(self.fed(None, Some(until), beat));
        actions.extend([
            back_from(Slide::Cross, Toward::In),
            lathe(Running::Stopped),
            Action::Isolate,
            Action::Unlock { what: Lockable::Carriage },
            Action::Unlock { what: Lockable::Compound },
            Action::Remove(Item::Fitting { which: self.catcher() }),
        ]);
        if self.long() {
            actions.push(Action::Remove(Item::Fitting { which: Fitting::Steady }));
        }
        actions.extend([
            Action::Clean { what: Tended::Swarf },
            Action::Deburr { what: Tended::Edges },
        ]);
        let depth = self.depth_to(self.bore);
        let title = if solid { "The last of it" } else { "Part it off" };
        let mut say = if solid { Vec::new() } else { self.remarks(self.bore) };
        if solid {
            say.push(
                "A finished part that must not drop: sawing the core by hand with the supply isolated spares it."
                    .to_owned(),
            );
        }
        Step {
            id: StepId::new("through", 1),
            title: title.to_string(),
            actions,
            say,
            label: if depth.is_some() { "cross slide, through at" } else { "down to" }.to_owned(),
            figure: depth.unwrap_or_else(|| match self.bore.is_zero() {
                true => "the middle".to_owned(),
                false => format!("Ø {}", show::length_like(self.bore, self.diameter.unit())),
            }),
            done: "Off",
            cuts: true,
            beat: if solid { self.beat(Ratio::ZERO) } else { beat },
            ..Step::default()
        }
    }
}
