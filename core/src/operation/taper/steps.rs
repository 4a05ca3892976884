//! Turning a taper as a person does it at the machine: by the compound, or by the tailstock set over.

use super::Tapered;
use crate::cutting::{LAST_CUT_MM, Slender, slender};
use crate::exact::Ratio;
use crate::operation::passes::{Pass, Way, plan};
use crate::operation::ready::{
    Kit, back_from, beat_of, centre_fast, centre_in, centre_on, compound_fast, held, lathe, tool,
};
use crate::operation::spindle::Spindle;
use crate::operation::{Step, Unmade};
use crate::procedure::{
    self, Action, Adjustable, Axis, Between, Chalked, Cutter, CutterAt, CutterStands, Degrees,
    Face, FeedBy, Fitting, Gauge, Instrument, Item, Length, Lockable, Measured, Running, Shape,
    Slide, Statement, StepId, Tended, Toward, Until, WaitFor, Work, WorkAt,
};
use crate::quantity::show;
use crate::shop::Dial;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// As far over the work as is enough to touch its outside, mm. Common practice, no source.
pub(super) const OVER_THE_END: Ratio = Ratio::whole(3);
/// The work stands out so much farther than it is cut, mm, so that the tool stays clear of the holder. Common
/// practice, no source.
const CLEAR_OF_HOLDER: Ratio = Ratio::whole(5);
/// The compound stands back from the end by so much before a pass, mm. Common practice, no source.
const BEFORE_THE_END: Ratio = Ratio::whole(2);
/// The compound needs so much more than the cone, mm: to stand back from it and to run out. Common practice,
/// no source.
const TO_CLEAR: f64 = 5.0;

/// No pass takes less off the radius, mm: the tool would rub. Common practice, no source.
const LEAST_CUT: Ratio = Ratio::of(1, 100);

/// Half angles past this are set from across the bed, degrees. Common practice, no source.
const BLUNT: f64 = 75.0;

/// No work is longer, mm: common practice, no source.
const LONGEST: f64 = 5000.0;

/// A roughing pass of a cone goes so deep on the radius, mm: half of what a parallel cut takes, for the compound
/// is wound by hand. Common practice, no source.
const ROUGH_MM: Ratio = Ratio::of(1, 2);

/// What is done at a step.
enum Stage<'a> {
    Over,
    Ready,
    Prove,
    Touch,
    Cut(usize, &'a Pass),
    Try,
    Check,
}

impl Tapered {
    /// Why it isn't made, though its figures stand.
    pub(super) fn lacks(&self) -> Option<Unmade> {
        let unmade = |why: &str, needs| Some(Unmade { why: String::from(why), needs });
        match (self.large, self.length) {
            (None, _) => return unmade("say how thick its large end is", "operation.large"),
            (_, None) => return unmade("say how long it is", "operation.length"),
            _ => {}
        }
        if let Some(unmade) = self.contradicts() {
            return Some(unmade);
        }
        self.too_far().or_else(|| match (self.runs(), self.passes.is_empty()) {
            (None, _) => {
                unmade("no spindle speed of this lathe is known", "shop.lathe.spindle_speeds")
            }
            (_, true) => {
                unmade("so little is taken off that no pass of it can be set", "operation.length")
            }
            _ => None,
        })
    }

    /// Ends and a length that make another taper than the one asked for, or more of it than is held.
    fn contradicts(&self) -> Option<Unmade> {
        let (large, small, length) = (self.large?, self.small?, self.length?);
        let ends = small + length * self.taper.per_mm();
        // Nobody could measure less along it: common practice, no source.
        if (large - ends).abs() > 0.02 {
            return Some(Unmade {
                why: format!(
                    "in this length the taper goes from Ø {} to Ø {}: one of the sizes is another's",
                    self.long(small, 3),
                    self.long(ends, 3)
                ),
                needs: "operation.small",
            });
        }
        if self.taper.half_angle_deg() > BLUNT {
            return Some(Unmade {
                why: "so blunt a cone is nearly a face: the compound swung from across the bed turns it"
                    .to_owned(),
                needs: "operation.angle",
            });
        }
        if length > LONGEST {
            return Some(Unmade {
                why: "it is longer than any bed that a person could stand at".to_owned(),
                needs: "operation.length",
            });
        }
        let sizes = show::near(length, 4).zip(show::near(large, 4));
        let slight =
            sizes.is_none_or(|(length, large)| slender(length, large) == Slender::NeedsSteady);
        if slight {
            return Some(Unmade {
                why: "so long for its thickness it would spring from the tool".to_owned(),
                needs: "operation.length",
            });
        }
        let between = self.between.as_ref().map(crate::quantity::Quantity::to_f64)?;
        (length > between).then(|| Unmade {
            why: "it is longer than the work between its centres".to_owned(),
            needs: "operation.between_centres",
        })
    }

    /// A compound that doesn't go as far as the cone is long.
    fn too_far(&self) -> Option<Unmade> {
        let slope = self.length? / libm::cos(self.taper.half_angle_deg().to_radians()) + TO_CLEAR;
        let travel = self.compound.and_then(|dial| dial.travel).map(Ratio::to_f64);
        let short = travel.filter(|travel| self.set_over.is_none() && *travel < slope)?;
        Some(Unmade {
            why: format!(
                "the compound goes {}, and this cone with what it takes to draw clear wants {}: \
                 between centres the tailstock can be set over instead",
                self.long(short, 1),
                self.long(slope, 1)
            ),
            needs: "operation.between_centres",
        })
    }

    /// The passes: from the large end's size, as it is turned to begin with, to what the small end is at the
    /// plane where the cross slide is at nought.
    pub(super) fn share_out(&mut self) {
        let sizes = self.large.zip(self.small).and_then(|(large, small)| {
            // Between centres the outside is touched a little way along, where the cone is so much thicker.
            let along = self.set_over.map_or(0.0, |_| OVER_THE_END.to_f64());
            let small = small + along * self.taper.per_mm();
            Some([show::near(large, 4)?, show::near(small, 4)?])
        });
        let passes = sizes.and_then(|[large, small]| {
            // The angle is tried on a cone that is still to be cut: never in one pass.
            let third = large.sub(small).ok()?.div(Ratio::whole(6)).ok()?;
            if third < LEAST_CUT {
                return None;
            }
            let depths = [ROUGH_MM, LAST_CUT_MM.min(third)];
            plan(Way::Turn, [large, small], depths, self.cross, None).ok()
        });
        let passes = passes.filter(|passes| passes.len() > 1);
        self.passes = passes.unwrap_or_default();
    }

    /// The speed that it runs at.
    fn runs(&self) -> Option<&Spindle> {
        self.spindle.as_ref().or(self.cautious.as_ref())
    }

    fn stages(&self) -> Vec<Stage<'_>> {
        let mut stages = Vec::new();
        match (self.set_over, self.indicated()) {
            (Some(_), _) => stages.extend([Stage::Over, Stage::Ready]),
            (None, Some(_)) => stages.extend([Stage::Ready, Stage::Prove]),
            (None, None) => stages.push(Stage::Ready),
        }
        stages.push(Stage::Touch);
        let last = self.passes.len().saturating_sub(1);
        for (at, pass) in self.passes.iter().enumerate() {
            if at == last {
                stages.push(Stage::Try);
            }
            stages.push(Stage::Cut(at, pass));
        }
        stages.push(Stage::Check);
        stages
    }

    pub(super) fn count(&self) -> usize {
        self.stages().len()
    }

    pub(super) fn at(&self, at: usize) -> Option<Step> {
        Some(match self.stages().get(at)? {
            Stage::Over => self.over()?,
            Stage::Ready => self.ready(),
            Stage::Prove => self.prove()?,
            Stage::Touch => self.touch(),
            Stage::Cut(index, pass) => self.pass(*index, pass),
            Stage::Try => self.tried(),
            Stage::Check => self.check(),
        })
    }

    fn like(&self, mm: Ratio) -> Length {
        Length::like(mm, self.unit)
    }

    fn near(&self, mm: f64) -> Length {
        Length::near(mm, self.unit).unwrap_or_else(|| Length::mm(Ratio::ZERO))
    }

    /// The slide that feeds.
    const fn feeding(&self) -> (Slide, Toward) {
        match self.set_over {
            Some(_) => (Slide::Carriage, Toward::Headstock),
            None => (Slide::Compound, Toward::In),
        }
    }

    fn gauge(&self) -> Gauge {
        self.kit.gauge(self.cross.is_some())
    }

    fn work(&self) -> Work {
        let mut work = Work::at(match self.set_over {
            Some(_) => WorkAt::Centres,
            None => WorkAt::LatheSpindle,
        });
        work.diameter = self.large.map(|mm| self.near(mm));
        work.length = self.between.as_ref().map(Length::from);
        if self.set_over.is_some() {
            work.out = work.length;
        } else {
            let out = self.length.and_then(|mm| show::near(mm, 4)?.add(CLEAR_OF_HOLDER).ok());
            work.out = out.map(|out| self.like(out));
        }
        work
    }

    /// Whether its far end wants the tailstock's centre: it stands out by more than three diameters.
    fn free_end(&self) -> bool {
        let out = self.length.map(|length| length + CLEAR_OF_HOLDER.to_f64());
        self.set_over.is_none() && out.zip(self.large).is_some_and(|(out, large)| out > 3.0 * large)
    }

    /// How it is proved by the indicator, where one that goes so far is owned.
    fn indicated(&self) -> Option<&super::worked::Indicator> {
        self.proof.as_ref().filter(|_| self.owned)
    }

    /// The indicator off the machine, or on it.
    const fn indicator() -> Item {
        Item::Fitting { which: Fitting::Indicator }
    }

    /// The tailstock over by so much, read on the cross slide where it has a dial.
    fn over(&self) -> Option<Step> {
        let over = self.set_over?;
        let by = self.near(over);
        let mut actions = Kit::safe();
        actions.extend([
            Action::Look(Statement::Cutter { is: CutterStands::Clear, off: None }),
            Action::Unlock { what: Lockable::Tailstock },
        ]);
        if self.wants_balls() {
            actions.push(Action::Mount(Item::Fitting { which: Fitting::BallCentres }));
        }
        let set = Action::SetOver { by, toward: Toward::Out };
        let (mut label, mut figure) = ("tailstock over by", self.long(over, 3));
        match self.set_over_reading() {
            Some(reading) => {
                label = "cross slide, back from the touch";
                figure = reading.counted().to_string();
                actions.extend([
                    Action::Touch {
                        slide: Slide::Cross,
                        toward: Toward::In,
                        face: Face::Barrel,
                        between: Between::Paper,
                        thick: None,
                    },
                    Action::Zero { slide: Slide::Cross, on: Gauge::Dial },
                    Action::Wind {
                        slide: Slide::Cross,
                        to: Some(procedure::Reading::from(reading)),
                        by: None,
                        toward: Toward::Out,
                        from: Toward::Out,
                        on: Gauge::Dial,
                    },
                    set,
                    Action::Look(Statement::Touches {
                        face: Face::Barrel,
                        between: Between::Paper,
                    }),
                    back_from(Slide::Cross, Toward::In),
                ]);
            }
            None => actions.push(set),
        }
        Some(Step {
            id: StepId::new("set-over", 1),
            title: "Set the tailstock over".to_owned(),
            actions,
            label: label.to_owned(),
            figure,
            done: "Set",
            ..Step::default()
        })
    }

    fn ready(&self) -> Step {
        let mut actions = Kit::safe();
        if self.set_over.is_some() {
            let centres = centre_in()
                .into_iter()
                .filter(|action| !matches!(action, Action::Look(Statement::TailstockInLine)));
            actions.extend(centres);
            actions.extend(centre_fast());
        } else if self.free_end() {
            actions.extend(centre_on());
        }
        actions.extend([
            held(self.work()),
            Action::Look(Statement::Cutter { is: CutterStands::Clear, off: None }),
            Action::Clean { what: Tended::Work },
        ]);
        if let Some(large) = self.large {
            actions.push(Action::Measure {
                what: Measured::Diameter,
                with: Instrument::Micrometer,
                should_be: Some(self.near(large)),
                up_to: None,
                is: None,
                fills: None,
            });
        }
        actions.extend(tool(Cutter::new(Shape::TurningTool, CutterAt::ToolPost)));
        let half = self.half();
        let mut say = Vec::new();
        let (mut title, mut label, mut figure) = ("Make ready", "", String::new());
        if self.set_over.is_some() {
            actions.extend(compound_fast(Axis::Along));
        } else {
            actions.extend([
                Action::Unlock { what: Lockable::Compound },
                Action::Swing {
                    what: Adjustable::Compound,
                    to: Degrees(self.half_exact()),
                    from: Axis::Along,
                    handle: Toward::In,
                },
            ]);
            (title, label, figure) = ("Swing the compound", "from parallel", half);
            let (quarter, off) = self.quarter();
            if let Some(error) = self.scale_error(off)
                && error >= 0.0005
            {
                say.push(format!(
                    "The nearest quarter, {}°, is {} out on the diameter over the length.",
                    show::float_trimmed(quarter, 2),
                    self.long(error, 3)
                ));
            }
            let across = super::worked::angle(self.taper.across_scale_deg());
            say.push(format!("On a scale with nought across the bed that is {across}."));
        }
        actions.extend(Kit::indicator_for(&[self.gauge()]));
        actions.extend(self.start(self.set_over.is_some() || self.indicated().is_none()));
        Step {
            id: StepId::new("ready", 1),
            title: title.to_owned(),
            actions,
            say,
            label: label.to_owned(),
            figure,
            done: "Set",
            ..Step::default()
        }
    }

    /// Everything clear, speed set, guard shut, supply on.
    fn start(&self, here: bool) -> Vec<Action> {
        let speed = self.runs().filter(|_| here).map(|spindle| &spindle.speed);
        speed.map(Kit::to_turn).unwrap_or_default()
    }

    fn prove(&self) -> Option<Step> {
        let check = &self.indicated()?.compound;
        let should_be = self.read(check.reading_mm);
        let over = self.like(check.travel_mm);
        let reads = self.compound.and_then(|dial| dial.reading(check.travel_mm));
        let indicate = |is| Action::Indicate {
            slide: Slide::Compound,
            over,
            reads: reads.map(procedure::Reading::from),
            should_be,
            is,
            fills: Some("proved".to_owned()),
        };
        let mut actions = Vec::from([
            Action::Look(Statement::Spindle {
                of: procedure::Spindle::Lathe,
                is: Running::Stopped,
            }),
            Action::Look(Statement::Cutter { is: CutterStands::Clear, off: None }),
            Action::Mount(Tapered::indicator()),
            indicate(self.proved.as_ref().map(Length::from)),
        ]);
        let mut say = Vec::from([
            "A bar that runs true, or the work turned parallel in this holding, proves it."
                .to_owned(),
        ]);
        if let Some(read) = &self.proved {
            // The compound's travel is the long side, the indicator's movement the short one.
            let sine = (read.to_f64() / check.travel_mm.to_f64()).clamp(0.0, 1.0);
            self.correct(libm::asin(sine).to_degrees(), &mut actions, &mut say);
            if actions.last().is_some_and(|action| matches!(action, Action::Adjust { .. })) {
                actions.push(indicate(None));
            }
        }
        if self.gauge() != Gauge::Indicator {
            actions.push(Action::Remove(Tapered::indicator()));
        }
        actions.extend(self.start(true));
        Some(Step {
            id: StepId::new("prove", 1),
            title: "Prove it by the indicator".to_owned(),
            actions,
            say,
            label: "indicator".to_owned(),
            figure: self.shown(check.reading_mm),
            done: "Proved",
            measures: Some("proved"),
            ..Step::default()
        })
    }

    /// What an indicator's reading says of the angle, and what puts it right: `half` is the half angle that it
    /// comes of.
    fn correct(&self, half: f64, actions: &mut Vec<Action>, say: &mut Vec<String>) {
        let off = half - self.taper.half_angle_deg();
        // A tenth of a minute is less than anybody sets.
        if off.abs() < 0.1 / 60.0 {
            say.push("What it moved by is right.".to_owned());
            return;
        }
        let steep = off > 0.0;
        say.push(format!("The taper is too {}.", if steep { "steep" } else { "slow" }));
        let adjust = match (self.set_over, &self.between) {
            (Some(_), Some(between)) => {
                let over = between.to_f64()
                    * (libm::tan(half.to_radians()) - self.taper.per_mm() / 2.0).abs();
                Action::Adjust {
                    what: Adjustable::Tailstock,
                    angle: None,
                    by: Some(self.near(over)),
                    toward: if steep { Toward::In } else { Toward::Out },
                }
            }
            _ => Action::Adjust {
                what: Adjustable::Compound,
                angle: show::near(off.abs(), 4).map(Degrees),
                by: None,
                toward: if steep { Toward::Out } else { Toward::In },
            },
        };
        actions.push(adjust);
    }

    fn touch(&self) -> Step {
        let on = self.gauge();
        let along = self.along_gauge();
        let touch = |slide, toward, face| Action::Touch {
            slide,
            toward,
            face,
            between: Between::TurningWork,
            thick: None,
        };
        let mut actions = Vec::from([
            lathe(Running::Forward),
            touch(Slide::Carriage, Toward::Headstock, Face::End),
            Action::Zero { slide: Slide::Carriage, on: along },
            back_from(Slide::Carriage, Toward::Headstock),
            back_from(Slide::Cross, Toward::In),
            self.wind_along(OVER_THE_END),
            touch(Slide::Cross, Toward::In, Face::Rim),
            Action::Zero { slide: Slide::Cross, on },
            back_from(Slide::Cross, Toward::In),
        ]);
        if self.set_over.is_some() {
            actions.push(back_from(Slide::Carriage, Toward::Headstock));
        } else {
            // The tool's point in the plane of the end: from here the compound alone moves it along.
            actions.extend([
                self.wind_along(Ratio::ZERO),
                Action::Lock { what: Lockable::Carriage },
                Action::Clear {
                    slide: Slide::Compound,
                    toward: Toward::Out,
                    by: Some(self.like(BEFORE_THE_END)),
                },
            ]);
        }
        Step {
            id: StepId::new("touch", 1),
            title: "Touch on".to_owned(),
            actions,
            label: "cross slide".to_owned(),
            figure: "0".to_owned(),
            done: "Done",
            ..Step::default()
        }
    }

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

    fn pass(&self, index: usize, pass: &Pass) -> Step {
        let (slide, toward) = self.feeding();
        let last = index.saturating_add(1) == self.passes.len();
        let to = pass.reading.map(procedure::Reading::from);
        let mut actions = Vec::new();
        if last {
            // The spindle stood while the cone was tried.
            actions.extend(self.start(true));
            actions.push(lathe(Running::Forward));
        }
        actions.push(Action::Wind {
            slide: Slide::Cross,
            by: to.is_none().then(|| self.like(pass.travel)),
            to,
            toward: Toward::In,
            from: Toward::Out,
            on: self.gauge(),
        });
        let beat = self.runs().and_then(|spindle| match self.set_over {
            Some(_) => spindle.beat(self.carriage, "the carriage", self.length),
            None => spindle.beat(self.compound, "the compound slide", self.length),
        });
        actions.push(Action::Lock { what: Lockable::Cross });
        actions.push(Action::Feed {
            slide,
            toward,
            over: None,
            to: None,
            until: Some(Until::Clear),
            by: FeedBy::Hand,
            each_turn: None,
            beat: beat.and_then(beat_of),
        });
        actions.extend([
            Action::Unlock { what: Lockable::Cross },
            back_from(Slide::Cross, Toward::In),
            back_from(slide, toward),
        ]);
        let (label, figure) = match &pass.reading {
            Some(reading) => ("cross slide, in to", reading.counted().to_string()),
            None => ("in from the touch", show::length_like(pass.travel, self.unit)),
        };
        let count = self.passes.len();
        Step {
            id: StepId::new("pass", u32::try_from(index.saturating_add(1)).unwrap_or(u32::MAX)),
            title: format!(
                "cut {} of {count}{}",
                index.saturating_add(1),
                if last { ", to size" } else { "" }
            ),
            actions,
            label: label.to_owned(),
            figure,
            done: "Cut",
            cuts: true,
            beat,
            ..Step::default()
        }
    }

    /// A length along, and how much deeper the cross slide goes for it.
    fn deeper(&self) -> Option<(&'static str, String)> {
        let dial: Dial = self.cross?;
        let (step, words) = if self.unit.is_inch() {
            (2.54, "deeper, for each 0.1 in along")
        } else {
            (1.0, "deeper, for each millimetre along")
        };
        let lines = step * self.taper.per_mm() / 2.0 / dial.travel_per_line().to_f64();
        Some((words, show::many(show::float_trimmed(lines, 2), "line", "lines")))
    }

    fn tried(&self) -> Step {
        let mut actions = Vec::from([
            lathe(Running::Stopped),
            Action::Isolate,
            Action::Deburr { what: Tended::Edges },
            Action::Clean { what: Tended::Work },
            Action::Chalk { what: Chalked::Cone },
            Action::Try { with: Instrument::Mate },
            Action::Clean { what: Tended::Work },
        ]);
        let mut say = Vec::from([
            "Rubbed along the whole length it is right; at the large end only, too steep; at the small end only, too slow.".to_owned(),
        ]);
        let (mut label, mut figure) = (String::new(), String::new());
        if let Some((words, lines)) = self.deeper() {
            (label, figure) = (words.to_owned(), lines);
        }
        if let Some(indicator) = self.indicated() {
            let check = &indicator.bed;
            let indicate = |is| Action::Indicate {
                slide: Slide::Carriage,
                over: self.like(check.travel_mm),
                reads: None,
                should_be: self.read(check.reading_mm),
                is,
                fills: Some("checked".to_owned()),
            };
            let carried = self.gauge() != Gauge::Indicator;
            if carried {
                actions.push(Action::Mount(Tapered::indicator()));
            }
            let locked = self.set_over.is_none();
            if locked {
                actions.push(Action::Unlock { what: Lockable::Carriage });
            }
            actions.push(indicate(self.checked.as_ref().map(Length::from)));
            if let Some(read) = &self.checked {
                let tangent = read.to_f64() / check.travel_mm.to_f64();
                self.correct(libm::atan(tangent).to_degrees(), &mut actions, &mut say);
            }
            if locked {
                actions.extend([
                    self.wind_along(Ratio::ZERO),
                    Action::Lock { what: Lockable::Carriage },
                ]);
            }
            if carried {
                actions.push(Action::Remove(Tapered::indicator()));
            }
            label = "indicator along the bed".to_owned();
            figure = self.shown(check.reading_mm);
        }
        Step {
            id: StepId::new("try", 1),
            title: "Try the taper".to_owned(),
            actions,
            say,
            label,
            figure,
            done: "Right",
            measures: self.indicated().map(|_| "checked"),
            ..Step::default()
        }
    }

    fn check(&self) -> Step {
        let measure = |what, mm: f64| Action::Measure {
            what,
            with: Instrument::Caliper,
            should_be: Some(self.near(mm)),
            up_to: None,
            is: None,
            fills: None,
        };
        let mut actions = Vec::from([
            lathe(Running::Stopped),
            Action::Wait { until: WaitFor::Cool },
            Action::Deburr { what: Tended::Edges },
            Action::Clean { what: Tended::Work },
        ]);
        actions.extend(self.small.map(|mm| measure(Measured::SmallEnd, mm)));
        actions.extend(self.length.map(|mm| measure(Measured::Length, mm)));
        actions.extend([
            Action::Chalk { what: Chalked::Cone },
            Action::Try { with: Instrument::Mate },
            Action::Isolate,
        ]);
        if self.set_over.is_some() || self.free_end() {
            actions.extend([
                Action::Unlock { what: Lockable::Quill },
                Action::Remove(Item::Fitting { which: Fitting::TailCentre }),
                Action::Unlock { what: Lockable::Tailstock },
            ]);
        }
        if self.set_over.is_some() {
            actions.push(Action::Unlock { what: Lockable::Compound });
            if self.wants_balls() {
                actions.push(Action::Remove(Item::Fitting { which: Fitting::BallCentres }));
            }
            actions.extend([
                Action::SetOver { by: self.near(0.0), toward: Toward::Out },
                Action::Look(Statement::TailstockInLine),
            ]);
        } else {
            actions.extend([
                Action::Unlock { what: Lockable::Carriage },
                Action::SquareUp { what: Adjustable::Compound, to: Axis::Along },
            ]);
        }
        let (label, figure) = match self.small {
            Some(small) => ("small end", format!("Ø {}", self.long(small, 3))),
            None => ("", String::new()),
        };
        Step {
            id: StepId::new("check", 1),
            title: "Check the taper".to_owned(),
            actions,
            label: label.to_owned(),
            figure,
            done: "Done",
            ..Step::default()
        }
    }
}
