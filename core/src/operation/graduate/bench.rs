//! A dial graduated at the machine, line after line, long, middle and short.

use super::Graduate;
use super::keys::run;
use crate::exact::Ratio;
use crate::graduation::Line;
use crate::operation::circle::{Circle, Work, plain, reading, slide, starred};
use crate::operation::{Card, Mark, Step, Worked};
use crate::procedure::StepId;
use crate::quantity::show;
use crate::record::Node;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

impl Worked for Graduate {
    fn json(&self) -> Vec<(String, Node)> {
        self.keys()
    }

    fn card(&self) -> Card {
        self.as_card()
    }

    fn steps(&self) -> usize {
        // The vernier, laid out and cut, and the numbers come last.
        let after = if self.vernier.is_some() { 3 } else { 1 };
        self.circle.as_ref().map_or(0, |_| self.circle_steps().saturating_add(after))
    }

    fn step(&self, at: usize) -> Option<Step> {
        let circle = self.circle.as_ref()?;
        match (at.checked_sub(self.circle_steps()), self.vernier.is_some()) {
            (Some(0), true) => return self.vernier_step(),
            (Some(1), true) => return self.vernier_cut(),
            (Some(_), _) => return self.number_step(),
            (None, _) => {}
        }
        self.with_work(circle, |work| circle.step(at, work))
    }

    fn back(&self, at: usize) -> Option<String> {
        let circle = self.circle.as_ref()?;
        self.with_work(circle, |work| circle.back(at, work))
    }
}

impl Graduate {
    fn with_work<T>(&self, circle: &Circle, done: impl FnOnce(&Work<'_>) -> T) -> T {
        done(&Work {
            noun: "line",
            first: 0,
            mark: Mark::Graduation,
            layout: self.layout.as_ref(),
            length: &|number| self.line_length(circle, number),
            at_place: &|number| self.line_words(circle, number),
            after_cut: &|_| Vec::new(),
            figure: &|number| self.line_figure(circle, number),
            diameter: self.diameter.as_ref(),
        })
    }

    fn circle_steps(&self) -> usize {
        let steps = |circle: &Circle| self.with_work(circle, |work| circle.steps(work));
        self.circle.as_ref().map_or(0, steps)
    }
}

impl Graduate {
    /// The line that is cut after so many moves, its kind in one word, and what the slide that draws
    /// it reads at its end, as far as that is known.
    fn line(&self, circle: &Circle, moves: u32) -> (u32, &'static str, Option<String>) {
        let line = circle.division(moves).unwrap_or(moves);
        let (word, at) = match self.marks.line(line) {
            Line::Long => ("Long", 0),
            Line::Middle => ("Middle", 1),
            Line::Short => ("Short", 2),
        };
        let length = self.lengths.as_ref().and_then(|lengths| lengths.get(at));
        let to = length.map(|mm| reading(self.drawn_dial.as_ref(), self.drawn_like, mm.to_f64()));
        (line, word, to)
    }

    /// How long a line is, by the moves made so far, mm.
    fn line_length(&self, circle: &Circle, moves: u32) -> Option<Ratio> {
        let line = circle.division(moves).unwrap_or(moves);
        let [long, middle, short] = self.lengths?;
        Some(match self.marks.line(line) {
            Line::Long => long,
            Line::Middle => middle,
            Line::Short => short,
        })
    }

    /// What kind of line is drawn, by the moves made so far.
    fn line_words(&self, circle: &Circle, moves: u32) -> Vec<String> {
        let (_, word, _) = self.line(circle, moves);
        Vec::from([format!("A {} line.", word.to_lowercase())])
    }

    /// The same as one figure.
    fn line_figure(&self, circle: &Circle, moves: u32) -> Option<(String, String)> {
        let (_, word, to) = self.line(circle, moves);
        let to = to?;
        // On a dial the lines are read, the length stands with the step.
        let counted = self.drawn_dial.as_ref().and_then(|_| to.split('*').nth(1));
        let figure = counted.map_or_else(|| plain(&to), String::from);
        Some((format!("{word} line: {} to", slide(self.drawn_by)), figure))
    }

    /// The short scale on the part that stands still.
    fn vernier_step(&self) -> Option<Step> {
        let (scale, vernier) = (self.scale?, self.vernier?);
        let (divisions, over) = (vernier.divisions(), vernier.over());
        let each = self.vernier_each()?;
        let mut say = Vec::from([
            "On the part that stands still, its 0 at the dial's 0.".to_owned(),
            format!("*{divisions}* spaces over *{over}* of the dial's lines."),
            format!("One space to the next: *{}*.", show::angle(each)),
        ]);
        say.push(format!(
            "The line that meets one of the dial's tells so many {}.",
            self.worth(vernier.least_count(scale.value).ok()?)
        ));
        say.push("It is read the way in which the dial's numbers rise.".to_owned());
        Some(Step {
            id: StepId::new("vernier", 1),
            title: "The vernier".to_owned(),
            say,
            label: "each space".to_owned(),
            figure: show::angle(each),
            done: "Seen",
            ..Step::default()
        })
    }

    /// Its lines, each under a lock of its own.
    fn vernier_cut(&self) -> Option<Step> {
        let vernier = self.vernier?;
        let each = show::angle(self.vernier_each()?);
        let lines = vernier.divisions().saturating_add(1);
        Some(Step {
            id: StepId::new("vernier-cut", 1),
            title: "Cut the vernier".to_owned(),
            say: Vec::from([
                format!("*{lines}* lines, *{each}* apart. For each of them:"),
                "Lock off, forward to its place, lock on.".to_owned(),
                "Look at the lock and the pin, then cut it.".to_owned(),
            ]),
            label: "each space".to_owned(),
            figure: each,
            caution: Some("Lock on, pin or detent home, before the cutter meets the work."),
            done: "Cut",
            cuts: true,
            picture: self.picture(),
            ..Step::default()
        })
    }

    fn number_step(&self) -> Option<Step> {
        let scale = self.scale.as_ref()?;
        let every = self.marks.long_every;
        let mut say = Vec::from(["Stamp *0* at line 0.".to_owned()]);
        if scale.lines > every {
            let first = self.stamped(every)?;
            let last = scale.lines.saturating_sub(1);
            let last = last.saturating_sub(last.checked_rem(every).unwrap_or(0));
            let last = self.stamped(last)?;
            let (first, last) = (starred(&first), starred(&last));
            say.push(format!("Then every *{every}* lines: {first} … {last}."));
        }
        say.push(format!("Rising *{}* round the dial, seen from the handle.", run(self.numbers())));
        say.extend(self.stamps());
        say.push(
            "Try it first: turn the slide in; the numbers must rise past the mark.".to_owned(),
        );
        say.push("If the nut moves and not the screw, it is the other way round.".to_owned());
        Some(Step {
            id: StepId::new("number", 1),
            title: "Number it".to_owned(),
            say,
            label: "every so many lines".to_owned(),
            figure: every.to_string(),
            caution: Some("Work on something solid for stamping, out of the machine's bearings."),
            done: "Done",
            picture: self.picture(),
            ..Step::default()
        })
    }
}
