//! What thread is this? From its outside diameter and the spaces between crests over a length.

use super::{
    Answer, Card, Fact, Found, Kind, Lacking, Other, Step, Tone, Why, Worked, Works, line,
    no_suggestions,
};
use crate::quantity::{Quantity, show};
use crate::record::{LENGTH, Node, Record, Shape, Spec, field};
use crate::shop::Shop;
use crate::threads::{Candidate, identify};
use alloc::borrow::ToOwned;
use alloc::boxed::Box;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec;
use alloc::vec::Vec;

pub(super) static KIND: Kind = Kind {
    name: "which-thread",
    wire: 13,
    title: "What thread is this?",
    spec: &Spec {
        name: "which-thread",
        fields: &[
            field("diameter", 1, "outside diameter", LENGTH),
            field("spaces", 2, "spaces from crest to crest", Shape::Count(1, 999)),
            field("over", 3, "length of them", LENGTH),
        ],
    },
    sentences: &[(
        "",
        "What thread is this: Ø {diameter} outside, {spaces} spaces from crest to crest in {over}?",
    )],
    instead: &[],
    from_shop: &[],
};

pub(super) static WORKS: Works = Works { kind: &KIND, suggest: no_suggestions, answer };

/// What a thread may be.
#[derive(Clone, Debug)]
pub struct WhichThread {
    found: Vec<Candidate>,
    over: Quantity,
    spaces: u32,
}

fn answer(entries: &Record, _: &Shop) -> Answer {
    let (Some(diameter), Some(spaces), Some(over)) =
        (entries.quantity("diameter"), entries.count("spaces"), entries.quantity("over"))
    else {
        let needs = match (entries.get("diameter"), entries.get("spaces")) {
            (None, _) => "operation.diameter",
            (_, None) => "operation.spaces",
            _ => "operation.over",
        };
        let lacking = vec![Lacking { key: "candidates", needs }];
        return Answer { lacking, ..Answer::default() };
    };
    let pitch = over.to_f64() / f64::from(spaces);
    let why = Why::new(
        "off = outside diameter − nominal; length − spaces × pitch",
        format!("{} ÷ {spaces}: a pitch of {} mm", over.text(), show::float_trimmed(pitch, 4)),
        "the standards' tables; that a screw is made a tenth of its pitch under: common practice, no source",
    );
    let found = identify(diameter.to_f64(), spaces, over.to_f64());
    let which = WhichThread { found, over: over.clone(), spaces };
    Answer { found: Some(Found::WhichThread(Box::new(which))), why: vec![why], ..Answer::default() }
}

impl WhichThread {
    /// "outside 0.15 mm under, 10 spaces 0.02 mm long".
    fn off(&self, candidate: &Candidate) -> String {
        let said = |mm: f64, less: &str, more: &str| {
            let size = show::float_like(mm.abs(), self.over.unit());
            let way = if mm < 0.0 { less } else { more };
            if size.starts_with("0 ") { "right".to_owned() } else { format!("{size} {way}") }
        };
        format!(
            "outside {}, {} spaces {}",
            said(candidate.diameter_off, "under", "over"),
            self.spaces,
            said(candidate.length_off, "short", "long")
        )
    }
}

impl Worked for WhichThread {
    fn json(&self) -> Vec<(String, Node)> {
        let one = |candidate: &Candidate| {
            Node::Object(vec![
                ("thread".to_owned(), Node::from(candidate.thread.to_string())),
                ("diameter_off_mm".to_owned(), Node::from(candidate.diameter_off)),
                ("length_off_mm".to_owned(), Node::from(candidate.length_off)),
            ])
        };
        vec![("candidates".to_owned(), Node::List(self.found.iter().map(one).collect()))]
    }

    fn card(&self) -> Card {
        let Some((first, others)) = self.found.split_first() else {
            let none = "no standard thread is within 5 % of both".to_owned();
            return Card { verdict: Some((Tone::Mind, none)), ..Card::default() };
        };
        let other = |candidate: &Candidate| Other {
            line: candidate.thread.to_string(),
            note: self.off(candidate),
            usable: true,
        };
        Card {
            lines: vec![line(&format!("*{}*", first.thread))],
            verdict: Some((Tone::Note, self.off(first))),
            facts: vec![Fact::new("pitch", first.thread.pitch.to_string())],
            others_title: "other threads",
            others: others.iter().map(other).collect(),
            ..Card::default()
        }
    }

    fn steps(&self) -> usize {
        0
    }

    fn step(&self, _: usize) -> Option<Step> {
        None
    }
}
