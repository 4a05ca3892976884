//! What thread is this? From its outside diameter and the spaces between crests over a length.

use super::{
    Answer, Card, Fact, Found, Kind, Lacking, Other, Step, Tone, Why, Worked, Works, line,
};
use crate::quantity::{Quantity, show};
use crate::record::{LENGTH, Node, Record, Shape, Spec, field};
use crate::shop::Shop;
use crate::threads::{Candidate, Profile, identify};
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
    measured: &[],
};

pub(super) static WORKS: Works = Works::at_once(&KIND, answer);

/// What a thread may be.
#[derive(Clone, Debug)]
pub struct WhichThread {
    /// Likeliest first; none until it is measured.
    found: Vec<Candidate>,
    outside: Option<Quantity>,
    /// Spaces from crest to crest, and the length of them.
    counted: Option<(u32, Quantity)>,
}

fn answer(entries: &Record, _: &Shop) -> Answer {
    let outside = entries.quantity("diameter").cloned();
    let counted = entries.count("spaces").zip(entries.quantity("over").cloned());
    let mut which = WhichThread { found: Vec::new(), outside, counted };
    let (mut lacking, mut why) = (Vec::new(), Vec::new());
    match (&which.outside, &which.counted) {
        (Some(diameter), Some((spaces, over))) => {
            let pitch = over.to_f64() / f64::from((*spaces).max(1));
            why.push(Why::new(
                "off = outside diameter − nominal; length − spaces × pitch",
                format!("{} ÷ {spaces}: a pitch of {} mm", over.text(), show::float_trimmed(pitch, 4)),
                "the standards' tables; that a screw is made a tenth of its pitch under: common practice, no source",
            ));
            which.found = identify(diameter.to_f64(), *spaces, over.to_f64());
        }
        (outside, _) => {
            let needs = match (outside, entries.get("spaces")) {
                (None, _) => "operation.diameter",
                (_, None) => "operation.spaces",
                _ => "operation.over",
            };
            lacking.push(Lacking { key: "candidates", needs });
        }
    }
    Answer { found: Some(Found::WhichThread(Box::new(which))), why, lacking, ..Answer::default() }
}

impl WhichThread {
    /// Whether it has been measured, so that there is something to compare.
    fn measured(&self) -> Option<(u32, &Quantity)> {
        let (spaces, over) = self.counted.as_ref()?;
        self.outside.as_ref().map(|_| (*spaces, over))
    }

    /// "outside 0.15 mm under, 10 spaces 0.02 mm long".
    fn off(&self, candidate: &Candidate) -> String {
        let Some((spaces, over)) = self.measured() else { return String::new() };
        let said = |mm: f64, less: &str, more: &str| {
            let size = show::float_like(mm.abs(), over.unit());
            let way = if mm < 0.0 { less } else { more };
            if size.starts_with("0 ") { "right".to_owned() } else { format!("{size} {way}") }
        };
        format!(
            "outside {}, {} {}",
            said(candidate.diameter_off, "under", "over"),
            show::many(spaces, "space", "spaces"),
            said(candidate.length_off, "short", "long")
        )
    }

    fn outside(&self) -> Step {
        Step {
            title: "Measure the outside".to_owned(),
            say: vec![
                "Clean the thread: no swarf in it, no burr on it.".to_owned(),
                "Micrometer or caliper over the crests, where it is least worn.".to_owned(),
                "Try it in two places, and enter the larger.".to_owned(),
            ],
            label: "outside diameter".to_owned(),
            figure: self.outside.as_ref().map_or_else(String::new, |d| d.text().to_owned()),
            caution: Some(AT_REST),
            done: "Measured",
            ..Step::default()
        }
    }

    fn count(&self) -> Step {
        let counted = self.counted.as_ref();
        Step {
            title: "Count the crests".to_owned(),
            say: vec![
                "A rule along the thread, one of its marks on a crest.".to_owned(),
                "Count *spaces* from crest to crest, not crests: ten or more if there is room."
                    .to_owned(),
                "Or lay gauges in, until one lets no light through.".to_owned(),
            ],
            label: "spaces, in a length of".to_owned(),
            figure: counted.map_or_else(String::new, |(n, over)| format!("{n} in {}", over.text())),
            caution: Some(AT_REST),
            done: "Counted",
            ..Step::default()
        }
    }

    fn compare(&self) -> Step {
        let one = |candidate: &Candidate| {
            let name = &candidate.thread;
            let angle = included(candidate).map_or_else(String::new, |angle| format!(", {angle}"));
            format!("*{name}*{angle}: {}.", self.off(candidate))
        };
        let mut say: Vec<String> = self.found.iter().take(SHOWN).map(one).collect();
        if say.is_empty() {
            say.push("No standard thread is within 5 % of both: measure once more.".to_owned());
        } else if self.angles() > 1 {
            say.push("They differ by the angle of their flanks: lay a gauge in.".to_owned());
        }
        let likeliest = self.found.first();
        Step {
            title: "Compare".to_owned(),
            say,
            label: likeliest.map_or("", |_| "likeliest").to_owned(),
            figure: likeliest.map_or_else(String::new, |one| one.thread.to_string()),
            done: "Compared",
            ..Step::default()
        }
    }

    fn try_it(&self) -> Step {
        let mut say = Vec::new();
        if let Some(first) = self.found.first() {
            let name = &first.thread;
            say.push(format!(
                "A nut or a gauge of *{name}*, by hand: it must go on its whole length."
            ));
        }
        say.push(
            "Tight after a turn or two: another pitch. Loose and rocking: another size.".to_owned(),
        );
        if let Some(second) = self.found.get(1) {
            say.push(format!("Then try *{}*.", second.thread));
        }
        say.push("Never force it on.".to_owned());
        Step {
            title: "Try".to_owned(),
            say,
            caution: Some(AT_REST),
            done: "Tried",
            ..Step::default()
        }
    }

    /// How many angles the likeliest have between their flanks.
    fn angles(&self) -> usize {
        let mut angles: Vec<String> = self.found.iter().take(SHOWN).filter_map(included).collect();
        angles.sort_unstable();
        angles.dedup();
        angles.len()
    }
}

/// So many are compared at the bench.
const SHOWN: usize = 4;

const AT_REST: &str = "The spindle stands still and is isolated while hands are at the work.";

/// The angle between a thread's flanks.
fn included(candidate: &Candidate) -> Option<String> {
    let profile = Profile::of(&candidate.thread).ok()??;
    Some(show::angle(profile.included_deg))
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
        if self.measured().is_none() {
            return Vec::new();
        }
        vec![("candidates".to_owned(), Node::List(self.found.iter().map(one).collect()))]
    }

    fn card(&self) -> Card {
        let Some((first, others)) = self.found.split_first() else {
            let (tone, words) = match self.measured() {
                Some(_) => (Tone::Mind, "no standard thread is within 5 % of both"),
                None => (Tone::Note, "measured across and along, it can be told"),
            };
            return Card { verdict: Some((tone, words.to_owned())), ..Card::default() };
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
        // There is nothing to compare or to try until it is measured.
        if self.measured().is_some() { 4 } else { 2 }
    }

    fn step(&self, at: usize) -> Option<Step> {
        Some(match at {
            0 => self.outside(),
            1 => self.count(),
            2 => self.compare(),
            3 => self.try_it(),
            _ => return None,
        })
    }
}
