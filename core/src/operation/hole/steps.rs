//! A hole at the machine, and the screw that is sunk in it.

use super::super::{Picture, Step};
use super::depth::{draw_out, reading};
use super::pick::Purpose;
use super::recess::Recess;
use super::work::Hole;
use crate::quantity::show;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

const EYES: Option<&str> =
    Some("Eyes covered, no gloves, swarf with a hook and the spindle stopped.");

/// A step without a figure.
fn plain(title: &str, say: Vec<String>, done: &'static str) -> Step {
    Step { title: title.to_owned(), say, done, ..Step::default() }
}

impl Hole {
    /// All of it, in order.
    pub(super) fn stages(&self) -> Vec<Step> {
        let mut steps = vec![self.centre()];
        if self.purpose.sunk() && self.tapped.is_some() {
            steps.push(self.both());
            steps.push(self.drill("Open the upper part"));
        } else {
            steps.push(self.drill("Drill"));
        }
        match (self.purpose, &self.recess) {
            (Purpose::Tap, _) => steps.push(self.tap()),
            (Purpose::Ream | Purpose::Dowel, _) => steps.push(self.ream()),
            (_, Some(recess)) => {
                steps.push(self.sink(recess));
                self.fit_the_screw(recess, &mut steps);
            }
            _ => {}
        }
        steps
    }

    fn centre(&self) -> Step {
        let mut say = vec!["Spindle stopped. Work held so that it can't turn or lift.".to_owned()];
        if self.purpose.sunk() && self.tapped.is_some() {
            say.push("Clamp both parts together, as they are to sit.".to_owned());
        }
        say.extend(self.spindle.as_ref().map(super::super::spindle::Spindle::say));
        say.push("Key out, guard down. Centre drill, just into its cone.".to_owned());
        if let Some(pilot) = &self.pilot {
            say.push(format!("A first drill of *{pilot}*, as deep as the hole."));
        }
        Step { caution: EYES, cuts: true, ..plain("Centre it", say, "Done") }
    }

    /// Both parts together, at the size under the tap.
    fn both(&self) -> Step {
        let drill = self.tapped.as_ref().map_or("", |(drill, _)| drill);
        let mut say = vec![
            format!("Spindle stopped: mount the *{drill}* drill."),
            format!("Drill *{drill}* through the upper and into the lower part."),
        ];
        if let Some(depth) = &self.own_depth {
            say.push(format!(
                "Into the lower part: *{}* of thread, and three pitches more.",
                depth.text()
            ));
        }
        Step {
            label: "drill, both parts".to_owned(),
            figure: drill.to_owned(),
            caution: EYES,
            cuts: true,
            ..plain("Drill for the tap", say, "Drilled")
        }
    }

    fn drill(&self, title: &str) -> Step {
        let words = self.drill_words();
        let mut say = vec![format!("Spindle stopped: mount the *{words}* drill.")];
        if self.purpose.sunk() {
            say.push("The upper part alone: the lower one keeps its smaller hole.".to_owned());
        }
        let (mut label, mut figure) = ("drill".to_owned(), words);
        if let Some(depth) = &self.depth {
            let deep = show::float_trimmed(depth.tip, 1);
            let name =
                if depth.through { "It is through after" } else { "From the touch of the tip:" };
            match reading(self.dial, depth.tip) {
                Some((dial, reading)) => {
                    say.push(format!("Touch the tip, the {dial}'s dial to *0*."));
                    say.push(format!("{name} *{deep} mm*, the {dial} at *{}*.", reading.words()));
                    label = format!("{dial}, from the touch of the tip");
                    figure = format!("{reading}");
                }
                None => say.push(format!("{name} *{deep} mm*.")),
            }
            let pecks = draw_out(depth, self.drilled());
            if !pecks.is_empty() {
                let at: Vec<String> = pecks.iter().map(|mm| show::trimmed(*mm, 1)).collect();
                say.push(format!("Draw out and clear at {} mm.", at.join(", ")));
            }
            if depth.through {
                say.push("Ease the feed as the point comes through: it snatches.".to_owned());
            }
        }
        Step { label, figure, caution: EYES, cuts: true, ..plain(title, say, "Drilled") }
    }

    fn tap(&self) -> Step {
        let mut say = vec![
            "Spindle stopped, out of gear. A light chamfer at the mouth.".to_owned(),
            format!("Tap *{}*, guided by the tailstock's centre.", self.screw.name),
            "Half a turn on, a quarter back; oil, except in iron and brass.".to_owned(),
        ];
        if let (Some(depth), Some(drilled)) = (&self.own_depth, &self.depth)
            && !drilled.through
        {
            say.push(format!(
                "*{}* of full thread; finish with the plug tap. It stops short of the bottom.",
                depth.text()
            ));
        }
        Step {
            label: "tap".to_owned(),
            figure: self.screw.name.clone(),
            caution: Some("Taps by hand: never with the spindle under power."),
            cuts: true,
            ..plain("Tap", say, "Tapped")
        }
    }

    fn ream(&self) -> Step {
        let mut say = Vec::new();
        if let Some(spindle) = &self.second {
            say.push(format!("Spindle stopped. {}", spindle.say()));
        }
        say.push(format!("Ream *{}*, oiled, steadily, in one go.", self.screw.name));
        say.push("Draw it out while it turns forwards; never turn a reamer back.".to_owned());
        if let Some(limits) = self.wanted.limits {
            let [low, high] = limits.map(|size| show::fixed(size, 3));
            say.push(format!("It should measure *{low}* to *{high}* mm."));
        }
        if self.purpose == Purpose::Dowel {
            say.push("Both parts together, clamped as they are to sit.".to_owned());
        }
        Step {
            label: "ream".to_owned(),
            figure: self.screw.name.clone(),
            caution: EYES,
            cuts: true,
            ..plain("Ream", say, "Reamed")
        }
    }

    fn sink(&self, recess: &Recess) -> Step {
        let mut say = Vec::new();
        if let Some(spindle) = &self.second {
            say.push(format!("Spindle stopped. {}", spindle.say()));
        }
        let with =
            recess.cutter.as_ref().map_or_else(String::new, |cutter| format!(" with the {cutter}"));
        let wide = self.like(recess.diameter);
        let deep = self.like(recess.depth);
        let (title, from) = match recess.cone {
            Some(angle) => {
                say.push(format!(
                    "Countersink *{}°*{with} until it is *Ø {wide}* at the surface.",
                    show::trimmed(angle, 1)
                ));
                ("Countersink", "the rim of the hole")
            }
            None => {
                say.push(format!("Counterbore *Ø {wide}*{with}."));
                ("Counterbore", "the surface")
            }
        };
        let (mut label, mut figure) = (format!("from {from}"), deep.clone());
        match reading(self.dial, recess.depth.to_f64()) {
            Some((dial, reading)) => {
                say.push(format!(
                    "Touch {from}, the {dial}'s dial to *0*; then on by *{deep}*, to *{}*.",
                    reading.words()
                ));
                label = format!("{dial}, from {from}");
                figure = format!("{reading}");
            }
            None => say.push(format!("From the touch on {from}: *{deep}*.")),
        }
        say.push("Try the head in it before the work is moved.".to_owned());
        Step {
            label,
            figure,
            caution: EYES,
            cuts: true,
            picture: self.seated().map(Picture::SeatedScrew),
            ..plain(title, say, "Cut")
        }
    }

    /// From the tapped thread to a head that is level with its part.
    fn fit_the_screw(&self, recess: &Recess, steps: &mut Vec<Step>) {
        if self.tapped.is_some() {
            steps.push(Step {
                label: "tap the lower part".to_owned(),
                figure: self.screw.name.clone(),
                caution: Some("Taps by hand: never with the spindle under power."),
                cuts: true,
                ..plain(
                    "Tap the lower part",
                    vec![
                        format!("Tap *{}* in the lower part alone.", self.screw.name),
                        "Half a turn on, a quarter back; burrs off both faces.".to_owned(),
                    ],
                    "Tapped",
                )
            });
        }
        steps.push(Step {
            caution: Some("Air moving, no flame; the makers' sheets decide."),
            ..plain(
                "Degrease",
                vec!["Swarf out, then degrease hole and screw, and let them dry.".to_owned()],
                "Clean",
            )
        });
        steps.push(plain(
            "Fit and secure",
            vec![
                "Screw in and tighten.".to_owned(),
                "Where the part is wound both ways: bond the thread, or drill for a pin beside it."
                    .to_owned(),
            ],
            "Fitted",
        ));
        steps.push(plain(
            "Let it cure",
            vec!["As long, and as warm, as the adhesive's maker says.".to_owned()],
            "Cured",
        ));
        if recess.below.is_zero() {
            steps.push(Step {
                caution: EYES,
                cuts: true,
                ..plain(
                    "Skim it flush",
                    vec![
                        "The lightest of cuts across head and part together.".to_owned(),
                        "A bonded screw that grows warm lets go: let it cool between cuts."
                            .to_owned(),
                    ],
                    "Flush",
                )
            });
        }
    }
}
