//! A hole at the machine, and the screw that is sunk in it.

use super::super::ends::{angled, screw_in};
use super::super::{Beat, Picture, Step, Worked};
use super::depth::{Depth, reading};
use super::pick::{Drill, LARGE, Purpose};
use super::recess::Recess;
use super::work::Hole;
use crate::cutting::Stock;
use crate::exact::Ratio;
use crate::holes::{COMMON_POINT_DEG, full_depth_to_tip};
use crate::operation::ends::Deep;
use crate::procedure::{
    Action, Cutter, Face, Instrument, Length, Lockable, Measured, Shape, StepId, Tended, Work,
    WorkAt,
};
use crate::quantity::show;
use crate::shop::Speed;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// The mouth of a tapped hole is sunk so much deeper than to the thread's own diameter, mm. Common practice,
/// no source.
const OVER_MAJOR: Ratio = Ratio::of(1, 5);
/// The included angle at a tapped hole's mouth.
const MOUTH_DEG: Ratio = Ratio::whole(90);
/// Threads of lead of a tap that finishes a hole, and of what it runs past where it goes through.
const LEAD: Ratio = Ratio::whole(3);

/// What is made at a step.
struct Made<'a> {
    id: StepId,
    title: &'a str,
    actions: Vec<Action>,
    figure: (String, String),
    done: &'static str,
    beat: Option<Beat>,
}

impl Made<'_> {
    fn step(self) -> Step {
        let (label, figure) = self.figure;
        Step {
            id: self.id,
            title: self.title.to_owned(),
            actions: self.actions,
            label,
            figure,
            done: self.done,
            cuts: true,
            beat: self.beat,
            ..Step::default()
        }
    }
}

impl Hole {
    /// All of it, in order.
    pub(super) fn stages(&self) -> Vec<Step> {
        let mut steps = Vec::from([self.ready(), self.centre()]);
        let first = self.pilots.iter().zip(&self.speeds.pilots).enumerate();
        steps.extend(first.map(|(at, ((drill, _), speed))| self.pilot(at, drill, speed)));
        steps.extend(self.to_buy.as_ref().map(|(drill, speed)| self.pilot(0, drill, speed)));
        if self.screwed_under() {
            steps.push(self.both());
            steps.push(self.drill("Open the upper part"));
        } else {
            steps.push(self.drill("Drill"));
        }
        steps.extend(self.bore());
        match (self.purpose, &self.recess) {
            (Purpose::Tap, _) => steps.extend([self.mouth(), self.tap()]),
            (Purpose::Ream | Purpose::Dowel, _) => steps.push(self.ream()),
            (_, Some(recess)) => {
                steps.push(self.sink(recess));
                if self.screwed_under() {
                    steps.push(self.tap());
                }
            }
            _ => {}
        }
        steps.push(self.end());
        steps
    }

    /// Whether a second part below is tapped for the screw.
    fn screwed_under(&self) -> bool {
        self.purpose.sunk() && self.tapped.is_some()
    }

    fn length(&self, mm: Ratio) -> Length {
        self.ends.like(mm)
    }

    /// A length that is only nearly known, to a hundredth.
    fn near(mm: f64) -> Ratio {
        show::near(mm, 2).unwrap_or(Ratio::ZERO)
    }

    fn ready(&self) -> Step {
        let two = self.screwed_under() || self.purpose == Purpose::Dowel;
        let work = Work {
            diameter: self.part.as_ref().map(Length::from),
            length: self.thickness.as_ref().map(Length::from).filter(|_| !self.screwed_under()),
            parts: two.then_some(2),
            ..Work::at(WorkAt::LatheSpindle)
        };
        let through = self.depth.as_ref().is_some_and(|depth| depth.through);
        let mut actions = self.ends.ready(work, through);
        if let Some(edge) = &self.from_edge {
            // Marked on the bench, before the work is clamped to the slide.
            let at = actions.iter().position(|action| {
                matches!(action, Action::Look(crate::procedure::Statement::Work(_)))
            });
            actions.insert(at.unwrap_or(0), Action::MarkOut { from_edge: Length::from(edge) });
        }
        Step {
            id: StepId::new("ready", 1),
            title: "Make ready".to_owned(),
            actions,
            done: "Ready",
            ..Step::default()
        }
    }

    fn centre(&self) -> Step {
        Made {
            id: StepId::new("centre", 1),
            title: "Centre it",
            actions: self.ends.centre(&self.speeds.centre),
            figure: ("rpm".to_owned(), self.speeds.centre.rpm.to_string()),
            done: "Centred",
            beat: None,
        }
        .step()
    }

    /// As deep as a drill goes, to the nearest hundredth.
    fn goes(depth: &Depth) -> Deep {
        Deep { full: depth.full, tip: Hole::near(depth.tip), through: depth.through }
    }

    /// What is read from two metres: the depth on its dial, else which drill.
    fn depth_figure(&self, tip: Option<f64>, drill: &str) -> (String, String) {
        match tip.and_then(|tip| reading(self.dial, tip)) {
            Some((dial, reading)) => {
                (format!("{dial}, from the touch of the tip"), format!("{reading}"))
            }
            None => ("drill".to_owned(), drill.to_owned()),
        }
    }

    /// The feed as a beat of the dial that reads the depth.
    fn beat(
        &self,
        spindle: Option<&super::super::spindle::Spindle>,
        tip: Option<f64>,
    ) -> Option<Beat> {
        let (_, dial) = self.dial?;
        spindle?.beat(Some(dial), self.ends.slide_words(), tip)
    }

    /// A smaller drill first, as deep at its full diameter as the last.
    fn pilot(&self, at: usize, drill: &Drill, speed: &Speed) -> Step {
        let depth = self.depth_for(drill.mm);
        let tip = depth.map(|depth| depth.tip);
        let spindle = self.pilots.get(at).and_then(|(_, spindle)| spindle.as_ref());
        let beat = self.beat(spindle, tip);
        let cutter = self.ends.drill(&drill.text, drill.mm);
        let n = u32::try_from(at).unwrap_or(0).saturating_add(1);
        Made {
            id: StepId::new("pilot", n),
            title: &format!("Drill {} first", drill.text),
            actions: self.ends.drilled(cutter, depth.as_ref().map(Hole::goes), speed, beat),
            figure: self.depth_figure(tip, &drill.text),
            done: "Drilled",
            beat,
        }
        .step()
    }

    /// How deep a drill before the last goes: as deep as what follows it.
    fn depth_for(&self, drill: Ratio) -> Option<Depth> {
        let depth = if self.screwed_under() { self.both_depth()? } else { self.depth? };
        let tip = full_depth_to_tip(depth.full, drill, COMMON_POINT_DEG).ok()?;
        Some(Depth { tip, ..depth })
    }

    /// Through the upper part and as far into the lower as its thread and three pitches more.
    fn both_depth(&self) -> Option<Depth> {
        let (_, under) = self.tapped.as_ref()?;
        let into = self.engaged()?.add(self.pitch()?.mul(LEAD).ok()?).ok()?;
        let full = self.thickness.as_ref()?.value().add(into).ok()?;
        let tip = full_depth_to_tip(full, *under, COMMON_POINT_DEG).ok()?;
        Some(Depth { full, tip, through: false })
    }

    fn pitch(&self) -> Option<Ratio> {
        self.screw.thread.as_ref()?.pitch.mm().ok()
    }

    /// How far the screw goes into the lower part: as entered, else one and a half diameters, common
    /// practice, no source.
    fn engaged(&self) -> Option<Ratio> {
        match &self.own_depth {
            Some(depth) => Some(depth.value()),
            None => self.screw.diameter.mul(Ratio::of(3, 2)).ok(),
        }
    }

    /// Both parts together, at the size under the tap.
    fn both(&self) -> Step {
        let (text, mm) = self.tapped.clone().unwrap_or_default();
        let depth = self.both_depth();
        let beat = self.beat(self.under.as_ref(), depth.map(|depth| depth.tip));
        let cutter = self.ends.drill(&text, mm);
        Made {
            id: StepId::new("drill", 1),
            title: "Drill for the tap",
            actions: self.ends.drilled(
                cutter,
                depth.as_ref().map(Hole::goes),
                &self.speeds.under,
                beat,
            ),
            figure: ("drill, both parts".to_owned(), text),
            done: "Drilled",
            beat,
        }
        .step()
    }

    fn drill(&self, title: &str) -> Step {
        let words = self.drill_words();
        let tip = self.depth.as_ref().map(|depth| depth.tip);
        let beat = self.beat(self.spindle.as_ref(), tip);
        // What lies under the upper part keeps its smaller hole: nothing comes through into the open.
        let deep = self.depth.as_ref().map(Hole::goes);
        let deep = deep.map(|deep| Deep { through: deep.through && !self.screwed_under(), ..deep });
        let cutter = self.ends.drill(&words, self.drilled());
        let stage = if self.screwed_under() { "open" } else { "drill" };
        Made {
            id: StepId::new(stage, 1),
            title,
            actions: self.ends.drilled(cutter, deep, &self.speeds.drill, beat),
            figure: self.depth_figure(tip, &words),
            done: "Drilled",
            beat,
        }
        .step()
    }

    /// Where no drill is large enough: bored, the tailstock out of the way.
    fn bore(&self) -> Vec<Step> {
        let Some(size) = &self.bored else { return Vec::new() };
        let stage = |stage| match stage {
            "ready" => "bore-ready",
            "touch" => "bore-touch",
            "pass" => "bore",
            "measure" => "bore-measure",
            _ => "bore-check",
        };
        let last = size.steps().saturating_sub(1);
        (0..=last)
            .filter_map(|at| size.step(at))
            .enumerate()
            .map(|(at, mut step)| {
                step.id = StepId { stage: stage(step.id.stage), ..step.id };
                step.measures = None;
                step.say.clear();
                for action in &mut step.actions {
                    if let Action::Measure { fills, .. } = action {
                        *fills = None;
                    }
                }
                if at == 0 {
                    step.title = "Make ready to bore".to_owned();
                    step.actions.insert(0, Action::Unlock { what: Lockable::Tailstock });
                } else if at == last {
                    step.title = "Check the bore".to_owned();
                    step.actions.extend(self.ends.tailstock());
                } else if step.id.stage == "bore" {
                    step.title = format!("Bore, {}", step.title);
                }
                step
            })
            .collect()
    }

    /// The mouth sunk to the thread's own diameter: the tap starts square, and no burr stands up.
    fn mouth(&self) -> Step {
        let major = self.screw.diameter;
        let deep = major.sub(self.hole_now()).and_then(|left| left.div(Ratio::whole(2)));
        let deep = deep.and_then(|deep| deep.add(OVER_MAJOR)).unwrap_or(OVER_MAJOR);
        let owned = self.countersink.as_ref();
        let cutter = Cutter {
            name: owned.map(|(name, _)| name.clone()),
            diameter: owned
                .map(|(_, wide)| *wide)
                .or_else(|| major.add(Ratio::whole(2)).ok())
                .map(|wide| self.length(wide)),
            ..angled(self.ends.cutter(Shape::Countersink), MOUTH_DEG)
        };
        Made {
            id: StepId::new("mouth", 1),
            title: "Countersink the mouth",
            actions: self.ends.opened(
                cutter,
                Face::Mouth,
                Some(self.ends.up(deep)),
                &self.speeds.mouth,
                None,
            ),
            figure: ("at the surface".to_owned(), format!("Ø {}", self.like(major))),
            done: "Sunk",
            beat: None,
        }
        .step()
    }

    /// The hole as it is before the tap or the reamer.
    fn hole_now(&self) -> Ratio {
        if self.bored.is_some() { self.wanted.hole } else { self.drilled() }
    }

    fn tap_cutter(&self) -> Cutter {
        Cutter {
            diameter: Some(self.length(self.screw.diameter)),
            pitch: self.pitch().map(|pitch| self.length(pitch)),
            thread: Some(self.screw.name.clone()),
            ..self.ends.screwing(Shape::Tap)
        }
    }

    /// How far the tap goes in.
    fn tap_depth(&self) -> Option<Ratio> {
        let thick = || Some(self.thickness.as_ref()?.value());
        if self.screwed_under() {
            return thick()?.add(self.engaged()?).ok();
        }
        match (&self.depth, &self.own_depth) {
            (Some(depth), Some(own)) if !depth.through => Some(own.value()),
            (Some(_), _) => thick()?.add(self.pitch()?.mul(LEAD).ok()?).ok(),
            (None, _) => None,
        }
    }

    fn tap(&self) -> Step {
        let over = self.tap_depth().map(|over| self.length(over));
        let mut actions = self.ends.screw_mounted(self.tap_cutter(), true);
        actions.extend(self.ends.tapped(over));
        actions.push(Action::Try { with: Instrument::Mate });
        let under = self.screwed_under();
        Made {
            id: StepId::new("tap", 1),
            title: if under { "Tap the lower part" } else { "Tap" },
            actions,
            figure: (
                if under { "tap the lower part" } else { "tap" }.to_owned(),
                self.screw.name.clone(),
            ),
            done: "Tapped",
            beat: None,
        }
        .step()
    }

    fn reamer(&self) -> Cutter {
        Cutter {
            name: Some(self.screw.name.clone()),
            diameter: Some(self.length(self.screw.diameter)),
            ..self.ends.cutter(Shape::Reamer)
        }
    }

    /// As deep as the reamer goes: where it comes through, its lead as well.
    fn ream_depth(&self) -> Option<Ratio> {
        match (&self.depth, &self.own_depth, &self.thickness) {
            (Some(depth), Some(own), _) if !depth.through => Some(own.value()),
            (_, _, Some(thick)) => {
                thick.value().add(self.screw.diameter.div(Ratio::whole(4)).ok()?).ok()
            }
            _ => None,
        }
    }

    fn ream(&self) -> Step {
        let deep = self.ream_depth();
        let tip = deep.map(Ratio::to_f64);
        let beat = self.beat(self.second.as_ref(), tip);
        let mut actions =
            self.ends.opened(self.reamer(), Face::Mouth, deep, &self.speeds.second, beat);
        actions.push(Action::Clean { what: Tended::Hole });
        if let Some([low, high]) = self.wanted.limits {
            let inch = self.screw.unit.is_inch();
            let limit = |mm: Ratio| {
                let near = if inch {
                    let inches = mm.div(crate::quantity::MM_PER_INCH).ok();
                    inches
                        .and_then(|inches| show::near(inches.to_f64(), 4))
                        .and_then(|inches| inches.mul(crate::quantity::MM_PER_INCH).ok())
                } else {
                    Some(mm)
                };
                Length::like(near.unwrap_or(mm), self.screw.unit)
            };
            actions.push(Action::Measure {
                what: Measured::Bore,
                with: Instrument::Plug,
                should_be: Some(limit(low)),
                up_to: Some(limit(high)),
                is: None,
                fills: None,
            });
        }
        // Brass and grey iron are reamed dry: oil makes a reamer grab in the one and packs the dust of
        // the other. Common practice, no source.
        let say = match self.stock {
            Some(Stock::Brass) => Some("Brass is reamed slowly, dry: oil makes a reamer grab."),
            Some(Stock::GreyIron) => Some("Iron is reamed dry: oil packs its dust."),
            _ => None,
        };
        Step {
            say: say.map(ToOwned::to_owned).into_iter().collect(),
            ..Made {
                id: StepId::new("ream", 1),
                title: "Ream",
                actions,
                figure: ("ream".to_owned(), self.screw.name.clone()),
                done: "Reamed",
                beat,
            }
            .step()
        }
    }

    fn sinker(&self, recess: &Recess) -> Cutter {
        let wide = recess.owned.unwrap_or(recess.diameter);
        let sized = |cutter: Cutter| Cutter {
            name: recess.cutter.clone(),
            diameter: Some(self.length(wide)),
            ..cutter
        };
        match recess.cone {
            Some(angle) => sized(angled(self.ends.cutter(Shape::Countersink), angle)),
            None => sized(self.ends.cutter(Shape::Counterbore)),
        }
    }

    fn sink(&self, recess: &Recess) -> Step {
        let deep = Hole::near(recess.depth.to_f64());
        let (title, from, face) = match recess.cone {
            Some(_) => ("Countersink", "the rim of the hole", Face::Mouth),
            None => ("Counterbore", "the surface", Face::End),
        };
        let beat = self.beat(self.second.as_ref(), Some(recess.depth.to_f64()));
        let mut actions =
            self.ends.opened(self.sinker(recess), face, Some(deep), &self.speeds.second, beat);
        // The head is tried before the work is moved.
        actions.push(Action::Try { with: Instrument::Head });
        let figure = match reading(self.dial, recess.depth.to_f64()) {
            Some((dial, reading)) => (format!("{dial}, from {from}"), format!("{reading}")),
            None => (format!("from {from}"), self.like(recess.depth)),
        };
        Step {
            picture: self.seated().map(Picture::SeatedScrew),
            ..Made { id: StepId::new("sink", 1), title, actions, figure, done: "Cut", beat }.step()
        }
    }

    /// What was mounted last.
    fn last_tool(&self) -> Cutter {
        match (self.purpose, &self.recess) {
            (Purpose::Tap, _) => self.tap_cutter(),
            (Purpose::Ream | Purpose::Dowel, _) => self.reamer(),
            (_, Some(_)) if self.screwed_under() => self.tap_cutter(),
            (_, Some(recess)) => self.sinker(recess),
            _ => self.ends.drill(&self.drill_words(), self.drilled()),
        }
    }

    fn end(&self) -> Step {
        let mut actions = self.ends.finished(self.last_tool());
        if self.screwed_under() {
            actions.push(screw_in());
        }
        Step {
            id: StepId::new("end", 1),
            title: "Finish".to_owned(),
            actions,
            done: "Done",
            ..Step::default()
        }
    }

    /// Whether a drill of this size wants a smaller one first, and there is none.
    pub(super) fn lacks_a_pilot(&self) -> bool {
        let large = |mm: Ratio| mm > LARGE;
        let first = self.tapped.as_ref().filter(|_| self.purpose.sunk()).map(|(_, mm)| *mm);
        large(first.unwrap_or_else(|| self.drilled()))
            && self.pilots.is_empty()
            && self.to_buy.is_none()
    }
}
