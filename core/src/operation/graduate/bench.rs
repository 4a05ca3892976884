//! A dial graduated at the machine, line after line, long, middle and short.

use super::Graduate;
use super::keys::run;
use crate::graduation::Line;
use crate::operation::circle::{Circle, Work, plain, reading, slide, starred};
use crate::operation::{Card, Mark, Step, Worked};
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
        self.circle.as_ref().map_or(0, |circle| circle.steps().saturating_add(after))
    }

    fn step(&self, at: usize) -> Option<Step> {
        let circle = self.circle.as_ref()?;
        match (at.checked_sub(circle.steps()), self.vernier.is_some()) {
            (Some(0), true) => return self.vernier_step(),
            (Some(1), true) => return self.vernier_cut(),
            (Some(_), _) => return self.number_step(),
            (None, _) => {}
        }
        let at_place = |number: u32| self.line_words(circle, number);
        let work = Work {
            noun: "line",
            first: 0,
            mark: Mark::Graduation,
            on_face: self.on_face,
            at_place: &at_place,
            figure: &|number| self.line_figure(circle, number),
            diameter: self.diameter.as_ref(),
            depth: &self.depth,
            dial: self.dial,
        };
        circle.step(at, &work)
    }

    fn back(&self, at: usize) -> Option<String> {
        self.circle.as_ref()?.back(at)
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

    /// What is drawn at a line, by the moves made so far.
    fn line_words(&self, circle: &Circle, moves: u32) -> Vec<String> {
        let (line, word, to) = self.line(circle, moves);
        let to = to.map_or_else(String::new, |to| format!(": {} to {to}", slide(self.drawn_by)));
        let mut say = Vec::from([format!("*{word}* line{to}.")]);
        if self.marks.line(line) == Line::Long
            && let Some(number) = self.stamped(line)
        {
            say.push(format!("It is numbered {}.", starred(&number)));
        }
        say
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
