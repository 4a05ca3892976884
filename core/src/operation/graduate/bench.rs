//! A dial graduated at the machine, line after line, long, middle and short.

use super::Graduate;
use super::keys::run;
use crate::graduation::Line;
use crate::operation::circle::{Circle, Work, slide};
use crate::operation::{Card, Step, Worked};
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
        // Numbering comes last.
        self.circle.as_ref().map_or(0, |circle| circle.steps().saturating_add(1))
    }

    fn step(&self, at: usize) -> Option<Step> {
        let circle = self.circle.as_ref()?;
        if at == circle.steps() {
            return self.number();
        }
        let at_place = |number: u32| self.line_words(circle, number);
        let work = Work {
            noun: "line",
            first: 0,
            graduated: true,
            on_face: self.on_face,
            at_place: &at_place,
            lost: self
                .pitch()
                .map(|pitch| format!("Lost the count? Lines stand *{}* apart.", self.like(pitch))),
        };
        circle.step(at, &work)
    }
}

impl Graduate {
    /// What is drawn at a line, by the moves made so far.
    fn line_words(&self, circle: &Circle, moves: u32) -> Vec<String> {
        let line = circle.division(moves).unwrap_or(moves);
        let kind = self.marks.line(line);
        let (word, at) = match kind {
            Line::Long => ("Long", 0),
            Line::Middle => ("Middle", 1),
            Line::Short => ("Short", 2),
        };
        let to = self.lengths.as_ref().and_then(|lengths| lengths.get(at)).map_or_else(
            String::new,
            |mm| {
                format!(
                    ": {} to *{}*",
                    slide(self.drawn_by),
                    show::length_like(*mm, self.drawn_like)
                )
            },
        );
        let mut say = Vec::from([format!("*{word}* line{to}.")]);
        if kind == Line::Long
            && let Some(number) = self.stamped(line)
        {
            say.push(format!("It is numbered *{number}*."));
        }
        say
    }

    /// The number of a long line: what it was asked to read, and plain 0 at line 0.
    fn stamped(&self, line: u32) -> Option<String> {
        if line == 0 {
            return Some("0".to_owned());
        }
        Some(self.worth(self.scale?.wanted.mul(line.into()).ok()?))
    }

    fn number(&self) -> Option<Step> {
        let scale = self.scale.as_ref()?;
        let every = self.marks.long_every;
        let mut say = Vec::from(["Stamp *0* at line 0.".to_owned()]);
        if scale.lines > every {
            let first = self.stamped(every)?;
            let last = scale.lines.saturating_sub(1);
            let last = last.saturating_sub(last.checked_rem(every).unwrap_or(0));
            let last = self.stamped(last)?;
            say.push(format!("Then every *{every}* lines: *{first}* … *{last}*."));
        }
        say.push(format!("Rising *{}* round the dial, seen from the handle.", run(self.numbers())));
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
            ..Step::default()
        })
    }
}
