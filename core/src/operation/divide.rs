//! Divide a circle: the move, the places, and how far off they are at the rim.

use super::circle::{Circle, Unmade, Work};
use super::{
    Answer, CUTTER_IN, Card, Fact, Found, Kind, Lacking, Step, Tone, WORK_IN, Why, Worked, Works,
    line,
};
use crate::dividing::misplaced;
use crate::exact::Ratio;
use crate::quantity::{Quantity, Unit, show};
use crate::record::{ANGLE, LENGTH, Node, Record, Shape, Spec, Value, field};
use crate::shop::Shop;
use alloc::borrow::ToOwned;
use alloc::boxed::Box;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use core::f64::consts::PI;

pub(super) static KIND: Kind = Kind {
    name: "divide",
    wire: 2,
    title: "Divide a circle",
    spec: &Spec {
        name: "divide",
        fields: &[
            field("into", 1, "divisions", Shape::Count(2, 9999)),
            field("angles", 2, "angles", Shape::List(&ANGLE, 999, "angles")),
            field("diameter", 3, "diameter", LENGTH),
            field("work_in", 4, "work in", Shape::Choice(WORK_IN)),
            field("cutter_in", 5, "cutter in", Shape::Choice(CUTTER_IN)),
        ],
    },
    sentences: &[
        (
            "angles",
            "Divide Ø {diameter} at {angles}[, work in {work_in}][, cutter in {cutter_in}].",
        ),
        ("", "Divide Ø {diameter} into {into}[, work in {work_in}][, cutter in {cutter_in}]."),
    ],
    instead: &[("into", "angles"), ("angles", "into")],
    from_shop: &["lathe", "dividing"],
};

pub(super) static WORKS: Works = Works { kind: &KIND, suggest: super::no_suggestions, answer };

/// A circle divided.
#[derive(Clone, Debug)]
pub struct Divide {
    /// None where the shop has nothing to divide with.
    circle: Option<Circle>,
    /// Even divisions; none for angles of one's own.
    into: Option<u32>,
    diameter: Option<Quantity>,
}

fn answer(entries: &Record, shop: &Shop) -> Answer {
    let angles: Vec<Ratio> = entries
        .list("angles")
        .iter()
        .filter_map(|value| match value {
            Value::Quantity(angle) => Some(angle.value()),
            _ => None,
        })
        .collect();
    let into = entries.count("into").filter(|_| angles.is_empty());
    let circle = match into {
        Some(into) => Circle::even(into, entries, shop),
        None if angles.is_empty() => {
            return Answer {
                lacking: Vec::from([Lacking { key: "ways", needs: "operation.into" }]),
                ..Answer::refused("say into how many, or at which angles")
            };
        }
        None => Circle::angles(&angles, entries, shop),
    };
    let mut lacking = Vec::new();
    let circle = match circle {
        Ok(circle) => Some(circle),
        Err(Unmade::Cannot(why)) => return Answer::refused(why.to_string()),
        Err(Unmade::NothingOwned(needs)) => {
            for key in ["ways", "ways_found", "positions"] {
                lacking.push(Lacking { key, needs });
            }
            None
        }
    };
    let divide = Divide { circle, into, diameter: entries.quantity("diameter").cloned() };
    if divide.diameter.is_none() {
        let exact = divide.circle.as_ref().and_then(Circle::best).is_none_or(|way| way.exact);
        let keys = [("spacing_mm", into.is_some()), ("chord_mm", into.is_some())];
        let keys = keys.into_iter().chain([("worst_error_mm", !exact)]);
        lacking.extend(
            keys.filter(|(_, wanted)| *wanted)
                .map(|(key, _)| Lacking { key, needs: "operation.diameter" }),
        );
    }
    Answer {
        cautions: divide.circle.as_ref().map_or_else(Vec::new, |c| c.arrangement.cautions()),
        why: divide.whys(),
        lacking,
        found: Some(Found::Divide(Box::new(divide))),
        ..Answer::default()
    }
}

impl Divide {
    /// From one division to the next along the rim, mm.
    fn spacing(&self) -> Option<f64> {
        let (into, diameter) = (self.into?, self.diameter.as_ref()?);
        Some(misplaced::at_rim(Ratio::new(1, into.into()).ok()?, diameter.value()))
    }

    /// The same straight across, mm: d·sin(π/N).
    fn chord(&self) -> Option<f64> {
        let (into, diameter) = (self.into?, self.diameter.as_ref()?);
        Some(diameter.to_f64() * libm::sin(PI / f64::from(into)))
    }

    /// From one division to the next, degrees.
    fn each(&self) -> Option<Ratio> {
        Ratio::new(360, self.into?.into()).ok()
    }

    /// A length at the work in the system of its diameter.
    fn like(&self, mm: f64) -> String {
        show::float_like(mm, self.diameter.as_ref().map_or(Unit::Mm, Quantity::unit))
    }

    fn whys(&self) -> Vec<Why> {
        let diameter = self.diameter.as_ref();
        let mut whys = self.circle.as_ref().map_or_else(Vec::new, |circle| circle.why(diameter));
        if let (Some(into), Some(d), Some(spacing), Some(chord)) =
            (self.into, diameter, self.spacing(), self.chord())
        {
            let (d, spacing, chord) = (d.text(), self.like(spacing), self.like(chord));
            whys.push(Why::new(
                "spacing = π·d/N; straight across d·sin(180°/N)",
                format!("π × {d} / {into} = {spacing}; {d} × sin(180°/{into}) = {chord}"),
                "arithmetic",
            ));
        }
        whys
    }

    fn work<'a>(&self, at_place: &'a dyn Fn(u32) -> Vec<String>) -> Work<'a> {
        Work {
            noun: if self.into.is_some() { "division" } else { "mark" },
            first: 1,
            graduated: false,
            on_face: false,
            at_place,
            lost: self.chord().map(|chord| {
                format!(
                    "Lost the count? Neighbours are *{}* apart, straight across.",
                    self.like(chord)
                )
            }),
        }
    }
}

impl Worked for Divide {
    fn json(&self) -> Vec<(String, Node)> {
        let mut pairs = self.circle.as_ref().map_or_else(Vec::new, |circle| circle.keys(false));
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
        if let (Some(spacing), Some(chord)) = (self.spacing(), self.chord()) {
            put("spacing_mm", Node::from(spacing));
            put("chord_mm", Node::from(chord));
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
        if let (Some(each), true) = (self.each(), self.circle.is_some()) {
            card.facts.push(Fact::new("each", show::angle(each)));
        }
        if let Some(spacing) = self.spacing() {
            card.facts.push(Fact::new("spacing at the rim", self.like(spacing)));
        }
        card
    }

    fn steps(&self) -> usize {
        self.circle.as_ref().map_or(0, Circle::steps)
    }

    fn step(&self, at: usize) -> Option<Step> {
        self.circle.as_ref()?.step(at, &self.work(&|_| Vec::new()))
    }
}
