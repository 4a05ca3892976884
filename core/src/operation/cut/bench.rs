//! A cut at the machine, step by step: made ready, touched on, cut to the beat, left safe.

use super::{Cut, words};
use crate::cutting::Process;
use crate::exact::Ratio;
use crate::holes;
use crate::operation::ends::{self, Deep};
use crate::operation::{Beat, Card, Chip, Picture, Step, Worked};
use crate::procedure::{Action, Cutter, Face, Instrument, Length, Shape, StepId, Work, WorkAt};
use crate::quantity::{Quantity, show};
use crate::record::Node;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Beyond so many passes they aren't counted a step each.
const MOST_PASSES: u32 = 200;
/// A countersink's included angle where its form doesn't say.
const COUNTERSINK_DEG: Ratio = Ratio::whole(90);

impl Worked for Cut {
    fn json(&self) -> Vec<(String, Node)> {
        self.keys()
    }

    fn card(&self) -> Card {
        self.as_card()
    }

    fn steps(&self) -> usize {
        self.stages().len()
    }

    fn step(&self, at: usize) -> Option<Step> {
        self.stages().into_iter().nth(at)
    }
}

/// A step of a stage.
fn step(
    stage: &'static str,
    n: u32,
    title: &str,
    actions: Vec<Action>,
    done: &'static str,
) -> Step {
    Step { id: StepId::new(stage, n), title: title.to_owned(), actions, done, ..Step::default() }
}

impl Cut {
    /// Passes that are a step each.
    fn counted(&self) -> u32 {
        self.passes.filter(|passes| *passes <= MOST_PASSES).unwrap_or(1)
    }

    /// The beat of the slide that feeds.
    pub(super) fn bench_beat(&self) -> Option<Beat> {
        let (beat, id) = self.beat.zip(self.slide)?;
        let length = self.length.as_ref().map(Quantity::to_f64);
        Some(Beat::new(&beat, words::slide(id), length))
    }

    /// All of it, in order; nothing where it can't be made.
    fn stages(&self) -> Vec<Step> {
        match self.process {
            Process::Turn | Process::Finish | Process::Bore | Process::Face => self.turning(),
            Process::Knurl => self.knurling(),
            Process::Mill => self.milling(),
            Process::Drill | Process::Ream | Process::Countersink => self.ending(),
            Process::Tap | Process::Die => self.screwing(),
            Process::Part => self.parting.as_ref().map_or_else(Vec::new, |part| part.stages()),
            Process::Thread => Vec::new(),
        }
    }

    fn rpm_step(&self, actions: Vec<Action>) -> Step {
        let figure = self.rpm_figure().unwrap_or_default();
        Step {
            label: if figure.is_empty() { "" } else { "rpm" }.to_owned(),
            figure,
            picture: self.as_card().picture,
            ..step("ready", 1, "Make ready", actions, "Ready")
        }
    }

    fn touching(&self, actions: Vec<Action>) -> Step {
        Step {
            label: "from the touch".to_owned(),
            figure: "0".to_owned(),
            ..step("touch", 1, "Touch on", actions, "Done")
        }
    }

    fn turning(&self) -> Vec<Step> {
        let (Some(speed), Some(depth)) = (&self.speed, &self.depth) else { return Vec::new() };
        let cut = Step {
            cuts: true,
            picture: self.chip(1),
            ..self.passing(1, self.turned_cut(depth.value()))
        };
        Vec::from([
            self.rpm_step(self.turned_ready(speed)),
            self.touching(self.turned_touch()),
            cut,
            step("end", 1, "Check", self.turned_end(), "Done"),
        ])
    }

    fn knurling(&self) -> Vec<Step> {
        let Some(speed) = &self.speed else { return Vec::new() };
        let mut press = self.turned_touch();
        press.extend(self.pressed());
        Vec::from([
            self.rpm_step(self.turned_ready(speed)),
            Step { cuts: true, ..step("press", 1, "Press it in at the end", press, "Looked at") },
            Step { cuts: true, ..self.passing(1, self.knurled()) },
            step("end", 1, "Check", self.turned_end(), "Done"),
        ])
    }

    fn milling(&self) -> Vec<Step> {
        let (Some(speed), Some(depth)) = (&self.speed, &self.depth) else { return Vec::new() };
        let passes = self.passes.unwrap_or(1).max(1);
        let counted = self.counted();
        let deep = |n: u32| {
            let part = depth.value().mul(n.into()).and_then(|deep| deep.div(passes.into()));
            part.unwrap_or(depth.value())
        };
        let mut steps = Vec::from([
            self.rpm_step(self.milled_ready(speed)),
            self.touching(self.milled_touch()),
        ]);
        if counted == passes {
            steps.extend((1..=passes).map(|n| self.passing(n, self.milled_pass(deep(n)))));
        } else {
            // So many alike aren't a step each.
            let all = (1..=passes.min(MOST_PASSES.saturating_mul(2)))
                .flat_map(|n| self.milled_pass(deep(n)));
            steps.push(self.passing(1, all.collect()));
        }
        steps.push(step("end", 1, "Finish", self.milled_end(), "Done"));
        steps
    }

    /// The cut to scale: from above where the work turns, cut through where the cutter does.
    fn chip(&self, pass: u32) -> Option<Picture> {
        let deep = self.depth.as_ref()?;
        let milled = self.process == Process::Mill;
        let turned = matches!(self.process, Process::Turn | Process::Finish | Process::Bore);
        let (depth, across, across_words) = if milled {
            let part =
                deep.value().mul(pass.into()).ok()?.div(self.passes.unwrap_or(1).into()).ok()?;
            let wide = self.width.as_ref().or(self.diameter.as_ref())?;
            (part, wide.to_f64(), format!("{} wide", wide.text()))
        } else {
            let feed = self.at.as_ref()?.feeds.first().filter(|_| turned)?.low;
            (deep.value(), feed, format!("{} a turn", words::chip(feed, self.like)))
        };
        let chip = self.chip_mm?;
        let chip_words = match milled {
            true => format!("{} a tooth", words::chip(chip, self.like)),
            false => "the next chip".to_owned(),
        };
        Some(Picture::Chip(Chip {
            depth_mm: depth.to_f64(),
            across_mm: across,
            milled,
            inside: self.process == Process::Bore,
            words: [
                format!("{} deep", show::length_like(depth, deep.unit())),
                across_words,
                chip_words,
            ],
        }))
    }

    /// A pass, with what is read from two metres.
    fn passing(&self, pass: u32, actions: Vec<Action>) -> Step {
        let passes = self.passes.unwrap_or(1);
        let counted = self.counted() == passes && passes > 1;
        let to = self.depth.as_ref().and_then(|depth| {
            let part = depth.value().mul(pass.into()).ok()?.div(passes.into()).ok()?;
            Some(show::length_like(part, depth.unit()))
        });
        let (label, figure) = match (&self.beat, counted, to) {
            (_, true, Some(to)) => ("depth in all".to_owned(), to),
            (Some(beat), ..) => {
                (format!("of a turn each {}", words::seconds(beat)), beat.turn.to_string())
            }
            _ => ("rpm".to_owned(), self.rpm_figure().unwrap_or_default()),
        };
        let title = if counted { format!("Pass {pass} of {passes}") } else { "Cut".to_owned() };
        Step {
            label,
            figure,
            cuts: true,
            picture: self.chip(pass),
            beat: self.bench_beat(),
            ..step("pass", pass, &title, actions, "Cut")
        }
    }

    fn cutter_at(&self, cutter: Cutter) -> Cutter {
        Cutter {
            name: self.cutter.clone(),
            diameter: self.diameter.as_ref().map(Length::from),
            ..cutter
        }
    }

    /// How deep an end tool goes: the depth entered, else the length.
    fn end_depth(&self) -> Option<Ratio> {
        self.depth.as_ref().or(self.length.as_ref()).map(Quantity::value)
    }

    /// Drilling, reaming, countersinking.
    fn ending(&self) -> Vec<Step> {
        let (Some(ends), Some(speed), Some(diameter)) = (&self.ends, &self.speed, &self.diameter)
        else {
            return Vec::new();
        };
        let across = diameter.value();
        let reams = self.process == Process::Ream;
        // What a reamer is let into is as large as the table wants it.
        let bore = reams
            .then(|| holes::ream_allowance(across).ok())
            .flatten()
            .and_then(|left| across.sub(left.aim).ok());
        let work = Work {
            holder: self.held_in.clone(),
            bore: bore.map(|bore| self.length_like(bore)),
            ..Work::at(WorkAt::LatheSpindle)
        };
        let beat = self.bench_beat();
        let mut steps = Vec::from([self.rpm_step(ends.ready(work, false))]);
        let deep = self.end_depth();
        let (cutter, actions) = match self.process {
            Process::Drill => {
                let centre = self.centre.as_ref().unwrap_or(speed);
                steps.push(Step {
                    cuts: true,
                    ..step("centre", 1, "Centre it", ends.centre(centre), "Centred")
                });
                let goes = |mm: Ratio| {
                    let tip = deep.map(|deep| ends::to_tip(deep, mm));
                    deep.zip(tip).map(|(full, tip)| Deep { full, tip, through: false })
                };
                for (at, (drill, speed)) in self.pilots.iter().enumerate() {
                    let n = u32::try_from(at).unwrap_or(0).saturating_add(1);
                    let title = format!("Drill {} first", drill.text);
                    let small = ends.drill(&drill.text, drill.mm);
                    let actions = ends.drilled(small, goes(drill.mm), speed, None);
                    steps.push(Step {
                        label: "drill".to_owned(),
                        figure: drill.text.clone(),
                        cuts: true,
                        ..step("pilot", n, &title, actions, "Drilled")
                    });
                }
                let drill = self.cutter_at(ends.cutter(Shape::Drill));
                (drill.clone(), ends.drilled(drill, goes(across), speed, beat))
            }
            Process::Ream => {
                let reamer = self.cutter_at(ends.cutter(Shape::Reamer));
                (reamer.clone(), ends.opened(reamer, Face::Mouth, deep, speed, beat))
            }
            _ => {
                let shape = if self.flat { Shape::Counterbore } else { Shape::Countersink };
                let sinker = self.cutter_at(ends.cutter(shape));
                let sinker = match self.flat {
                    true => sinker,
                    false => ends::angled(sinker, self.angle.unwrap_or(COUNTERSINK_DEG)),
                };
                (sinker.clone(), ends.opened(sinker, Face::End, deep, speed, beat))
            }
        };
        steps.push(self.passing(1, actions));
        steps.push(step("end", 1, "Finish", ends.finished(cutter), "Done"));
        steps
    }

    /// A tap or a die, by hand: no speed is given.
    fn screwing(&self) -> Vec<Step> {
        let Some(ends) = &self.ends else { return Vec::new() };
        let tap = self.process == Process::Tap;
        let shape = if tap { Shape::Tap } else { Shape::Die };
        let work = Work {
            holder: self.held_in.clone(),
            diameter: self.diameter.as_ref().filter(|_| !tap).map(Length::from),
            ..Work::at(WorkAt::LatheSpindle)
        };
        let cutter = self.cutter_at(ends.screwing(shape));
        let over = self.end_depth().map(|deep| self.length_like(deep));
        let mut actions = match tap {
            true => ends.tapped(over),
            false => ends.died(cutter.pitch, over),
        };
        actions.push(Action::Try { with: if tap { Instrument::Mate } else { Instrument::Nut } });
        let (mount, title) = match tap {
            true => ("Mount the tap", "Tap by hand"),
            false => ("Mount the die", "Cut the thread by hand"),
        };
        let (label, figure) = match (&self.diameter, tap) {
            (Some(diameter), true) => ("tap", format!("Ø {}", diameter.text())),
            (Some(diameter), false) => ("die", format!("Ø {}", diameter.text())),
            (None, _) => ("", String::new()),
        };
        Vec::from([
            step("ready", 1, "Make ready", ends.ready(work, false), "Ready"),
            step("mount", 1, mount, ends.screw_mounted(cutter.clone(), false), "Mounted"),
            Step {
                label: label.to_owned(),
                figure,
                cuts: true,
                ..step("pass", 1, title, actions, "Cut")
            },
            step("end", 1, "Finish", ends.finished(cutter), "Done"),
        ])
    }
}
