//! A hole at the machine, and the screw that is sunk in it.

use super::super::spindle::Spindle;
use super::super::{Beat, Picture, Step};
use super::depth::{Depth, draw_out, reading};
use super::pick::{Drill, Purpose};
use super::recess::Recess;
use super::work::Hole;
use crate::cutting::Stock;
use crate::exact::Ratio;
use crate::holes::{COMMON_POINT_DEG, full_depth_to_tip};
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

/// Mounting a drill, and its speed.
fn mount(drill: &str, spindle: Option<&Spindle>) -> String {
    let speed = spindle.map_or_else(String::new, |spindle| format!(" {}", spindle.say()));
    format!("Spindle stopped: mount the *{drill}* drill.{speed}")
}

impl Hole {
    /// All of it, in order.
    pub(super) fn stages(&self) -> Vec<Step> {
        let mut steps = vec![self.centre()];
        steps
            .extend(self.pilots.iter().map(|(drill, spindle)| self.pilot(drill, spindle.as_ref())));
        if self.purpose.sunk() && self.tapped.is_some() {
            steps.push(self.both());
            steps.push(self.drill("Open the upper part"));
        } else {
            steps.push(self.drill("Drill"));
        }
        steps.extend(self.bored.as_ref().map(|(bar, spindle)| self.bore(bar, spindle.as_ref())));
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
        let first = self.pilots.first().map_or(&self.spindle, |(_, spindle)| spindle);
        say.extend(first.as_ref().map(Spindle::say));
        say.push("Key out, guard down. Centre drill, just into its cone.".to_owned());
        Step { caution: EYES, cuts: true, ..plain("Centre it", say, "Done") }
    }

    /// A smaller drill first, as deep at its full diameter as the last.
    fn pilot(&self, drill: &Drill, spindle: Option<&Spindle>) -> Step {
        let words = &drill.text;
        let mut say = vec![mount(words, spindle)];
        let tip = self
            .depth
            .as_ref()
            .and_then(|depth| full_depth_to_tip(depth.full, drill.mm, COMMON_POINT_DEG).ok());
        let (mut label, mut figure) = ("first drill".to_owned(), words.clone());
        if let (Some(tip), Some(depth)) = (tip, &self.depth) {
            let depth = Depth { tip, ..*depth };
            if let Some(reading) = self.to_depth(&depth, &mut say) {
                (label, figure) = reading;
            }
            self.clear(&depth, drill.mm, &mut say);
        } else {
            say.push("As deep as the hole.".to_owned());
        }
        let beat = self.beat(spindle, tip);
        let title = format!("Drill {words} first");
        Step { label, figure, caution: EYES, cuts: true, beat, ..plain(&title, say, "Drilled") }
    }

    /// The feed as a beat of the dial that reads the depth.
    fn beat(&self, spindle: Option<&Spindle>, tip: Option<f64>) -> Option<Beat> {
        let (name, dial) = self.dial?;
        let of = if name == "carriage" { "the carriage" } else { "the tailstock" };
        spindle?.beat(Some(dial), of, tip)
    }

    /// Says how deep from the touch of the tip; what the dial reads then.
    fn to_depth(&self, depth: &Depth, say: &mut Vec<String>) -> Option<(String, String)> {
        let deep = self.deep(depth.tip);
        let name = if depth.through { "It is through after" } else { "From the touch of the tip:" };
        let Some((dial, reading)) = reading(self.dial, depth.tip) else {
            say.push(format!("{name} *{deep}*."));
            return None;
        };
        say.push(format!("Touch the tip, the {dial}'s dial to *0*."));
        say.push(format!("{name} *{deep}*, the {dial} at *{reading}*."));
        Some((format!("{dial}, from the touch of the tip"), format!("{reading}")))
    }

    /// Says where to draw out, and to ease off where it comes through.
    fn clear(&self, depth: &Depth, drill: Ratio, say: &mut Vec<String>) {
        let at = draw_out(depth, drill).into_iter().map(|mm| {
            let deep = self.deep(mm.to_f64());
            match reading(self.dial, mm.to_f64()) {
                Some((_, reading)) => format!("{deep} (*{reading}*)"),
                None => deep,
            }
        });
        let at: Vec<String> = at.collect();
        if !at.is_empty() {
            say.push(format!("Draw out and clear at {}.", at.join(", ")));
        }
        if depth.through {
            say.push("Ease the feed as the point comes through: it snatches.".to_owned());
        }
    }

    /// Both parts together, at the size under the tap.
    fn both(&self) -> Step {
        let drill = self.tapped.as_ref().map_or("", |(drill, _)| drill);
        let mut say = vec![
            mount(drill, self.under.as_ref()),
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
        let mut say = vec![mount(&words, self.spindle.as_ref())];
        if self.purpose.sunk() {
            say.push("The upper part alone: the lower one keeps its smaller hole.".to_owned());
        }
        let (mut label, mut figure) = ("drill".to_owned(), words);
        if let Some(depth) = &self.depth {
            if let Some(reading) = self.to_depth(depth, &mut say) {
                (label, figure) = reading;
            }
            self.clear(depth, self.drilled(), &mut say);
        }
        let beat = self.beat(self.spindle.as_ref(), self.depth.as_ref().map(|depth| depth.tip));
        Step { label, figure, caution: EYES, cuts: true, beat, ..plain(title, say, "Drilled") }
    }

    /// Where no drill is large enough.
    fn bore(&self, bar: &str, spindle: Option<&Spindle>) -> Step {
        let mut say = vec![format!("Spindle stopped: the *{bar}* at centre height, short.")];
        say.extend(spindle.map(Spindle::say));
        let size = self.like(self.wanted.hole);
        say.push(format!("Bore to *Ø {size}*, in cuts that it bears, measuring between."));
        if let Some((from, to)) = self.wanted.range {
            say.push(format!("From *{}* to *{}* will do.", self.like(from), self.like(to)));
        }
        Step {
            label: "bore to".to_owned(),
            figure: format!("Ø {size}"),
            caution: EYES,
            cuts: true,
            ..plain("Bore", say, "Bored")
        }
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
        // Brass and grey iron are reamed dry: oil makes a reamer grab in the one and packs the dust of
        // the other. Common practice, no source.
        let how = match self.stock {
            Some(Stock::Brass) => "slowly, dry",
            Some(Stock::GreyIron) => "dry",
            _ => "oiled",
        };
        say.push(format!("Ream *{}*, {how}, steadily, in one go.", self.screw.name));
        say.push("Draw it out while it turns forwards; never turn a reamer back.".to_owned());
        if let Some(([low, high], unit)) = self.reamed() {
            say.push(format!("It should measure *{low}* to *{high}* {unit}."));
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
                    reading.as_set()
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
        let key =
            recess.key.map_or_else(String::new, |key| format!(": a key of *{}*", self.like(key)));
        steps.push(plain(
            "Fit and secure",
            vec![
                format!("Screw in and tighten{key}."),
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
