//! A divided circle on the card, in the file and at the machine.

use super::{Divide, Marks};
use crate::dividing::misplaced;
use crate::operation::circle::{Work, plain};
use crate::operation::{Card, Fact, Mark, Step, Tone, Worked, line};
use crate::procedure::{Action, Instrument, Length, Measured, Tended};
use crate::quantity::show;
use crate::record::Node;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

impl Divide {
    fn with_work<T>(&self, done: impl FnOnce(&Work<'_>) -> T) -> T {
        let noun = if self.into.is_some() { "division" } else { "mark" };
        done(&Work {
            noun: self.marks.map_or(noun, Marks::noun),
            first: 1,
            mark: self.marks.map_or(Mark::Line, Marks::drawn),
            layout: self.layout.as_ref(),
            length: &|_| self.length,
            after_cut: &|moves| self.after_cut(moves),
            at_place: &|_| Vec::new(),
            figure: &|_| None,
            diameter: self.diameter.as_ref(),
        })
    }

    /// What is cut, and what it leaves.
    fn cut_facts(&self) -> Vec<Fact> {
        let mut facts = Vec::new();
        if let Some(flats) = &self.flats {
            facts.push(Fact::new("depth, as read", plain(&self.depth)));
            facts.push(Fact::new("across flats", self.like(flats.across)));
            facts.push(Fact::new("each flat", format!("{} wide", self.like(flats.width))));
            match (flats.corner, flats.corners) {
                (Some(0.0), Some(corners)) => {
                    facts.push(Fact::new(
                        "corners",
                        format!("sharp, {} across", self.like(corners)),
                    ));
                }
                (Some(corner), _) => {
                    facts.push(Fact::new("round left at a corner", self.like(corner)));
                }
                _ => {}
            }
        }
        facts.extend(self.tool.fact());
        if let (Some(marks), Some(left)) = (self.marks, self.left()) {
            facts.push(Fact::new(marks.left(), self.like(left)));
        }
        if let Some(places) = &self.places {
            let from = if places.touched.is_some() { "from the edges" } else { "from the middle" };
            if let Some(first) = places.words(0) {
                facts.push(Fact::new(format!("hole 1, {from}"), plain(&first)));
            }
        }
        facts
    }
}

impl Worked for Divide {
    fn json(&self) -> Vec<(String, Node)> {
        let on_face = self.marks == Some(Marks::Holes);
        let mut pairs = self.circle.as_ref().map_or_else(Vec::new, |circle| circle.keys(on_face));
        let mut put = |key: &str, node: Node| pairs.push((key.to_owned(), node));
        if let Some(circle) = &self.circle {
            put("positions", circle.positions());
            if let (Some(way), Some(diameter)) = (circle.best(), &self.diameter) {
                let worst = misplaced::at_rim(way.worst, diameter.value());
                put("worst_error_mm", Node::from(worst));
            }
        }
        if let Some(each) = self.each() {
            put("angle", Node::from(format!("{} deg", show::exact(each))));
        }
        let flats = self.flats.as_ref();
        let lengths = [
            ("spacing_mm", self.spacing()),
            ("chord_mm", self.chord()),
            ("depth_mm", flats.map(|flats| flats.depth)),
            ("across_flats_mm", flats.map(|flats| flats.across)),
            ("flat_width_mm", flats.map(|flats| flats.width)),
            ("corner_left_mm", flats.and_then(|flats| flats.corner)),
            ("across_corners_mm", flats.and_then(|flats| flats.corners)),
            ("cut_width_mm", self.tool.cuts().map(crate::exact::Ratio::to_f64)),
            ("left_mm", self.left()),
        ];
        for (key, mm) in lengths {
            if let Some(mm) = mm {
                put(key, Node::from(mm));
            }
        }
        if let Some(places) = &self.places {
            put("coordinates", places.node());
        }
        pairs
    }

    fn card(&self) -> Card {
        let diameter = self.diameter.as_ref();
        let mut card = Card { others_title: "other ways", ..Card::default() };
        match &self.circle {
            Some(circle) => {
                card.lines = circle.lines();
                card.verdict = circle.verdict(diameter);
                card.facts = circle.facts(diameter);
                card.others = circle.others(diameter);
                card.picture = circle.card_picture();
            }
            None => {
                card.lines = self
                    .each()
                    .iter()
                    .map(|each| line(&format!("*{}* each", show::angle(*each))))
                    .collect();
                card.verdict = Some((Tone::Note, "nothing in the shop divides it yet".to_owned()));
            }
        }
        if self.left().is_some_and(|left| left <= 0.0) {
            card.verdict = Some((Tone::Mind, "the cuts run together".to_owned()));
        }
        card.facts.extend(self.cut_facts());
        if let (Some(each), true) = (self.each(), self.circle.is_some()) {
            card.facts.push(Fact::new("each", show::angle(each)));
        }
        if let Some(spacing) = self.spacing() {
            card.facts.push(Fact::new("spacing at the rim", self.like(spacing)));
        }
        if let (Some(chord), None) = (self.chord(), &self.flats) {
            let next = format!("each to the next {} across", self.like(chord));
            card.facts.push(Fact::seldom("lost the count?", next));
        }
        card
    }

    fn steps(&self) -> usize {
        match (&self.circle, &self.places) {
            (Some(circle), _) => self.with_work(|work| circle.steps(work)),
            (None, Some(places)) => places.len().saturating_add(1),
            (None, None) => 0,
        }
    }

    fn step(&self, at: usize) -> Option<Step> {
        let Some(circle) = &self.circle else { return self.places.as_ref()?.step(at) };
        self.with_work(|work| circle.step(at, work))
    }

    fn back(&self, at: usize) -> Option<String> {
        let circle = self.circle.as_ref()?;
        self.with_work(|work| circle.back(at, work))
    }
}

impl Divide {
    /// The first flat alone tells the depth: over it and the round.
    fn after_cut(&self, moves: u32) -> Vec<Action> {
        let (Some(flats), Some(diameter), 0) = (&self.flats, &self.diameter, moves) else {
            return Vec::new();
        };
        let left = Length::near(diameter.to_f64() - flats.depth, diameter.unit());
        left.map_or_else(Vec::new, |left| {
            Vec::from([
                Action::Clean { what: Tended::Swarf },
                Action::Deburr { what: Tended::Edges },
                Action::Measure {
                    what: Measured::LeftStanding,
                    with: Instrument::Micrometer,
                    should_be: Some(left),
                    is: None,
                    fills: None,
                },
            ])
        })
    }
}
