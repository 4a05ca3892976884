//! A row on the screen, in the file and as rows to keep.

use super::places::nought;
use super::spaced::{On, Spaced};
use crate::exact::Ratio;
use crate::operation::{Bar, Card, Fact, Mark, Picture, Step, Table, TableRow, Tone, Worked, line};
use crate::quantity::{Quantity, show};
use crate::record::Node;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec;
use alloc::vec::Vec;

impl Spaced {
    /// The bar with so many of its places done.
    pub(super) fn picture(&self, made: u32) -> Picture {
        let mm = |ratio: Ratio| ratio.to_f64();
        Picture::Bar(Bar {
            places: self.row.places,
            made,
            mark: if self.lines { Mark::Line } else { Mark::Hole },
            pitch_mm: mm(self.row.pitch),
            ends_mm: [self.row.first.map(mm), self.row.last.map(mm)],
            drill_mm: self.drill.as_ref().map(Quantity::to_f64),
            side_mm: self.side.map(mm),
            words: [
                self.like(self.row.pitch),
                self.like(self.row.overall),
                self.row.first.map_or_else(String::new, |first| self.like(first)),
            ],
        })
    }

    fn verdict(&self) -> Option<(Tone, String)> {
        let mind = |words: String| Some((Tone::Mind, words));
        let (web, wall) = (self.web(), self.wall());
        if web.is_some_and(|web| !web.is_positive()) {
            return mind("the holes run into each other".to_owned());
        }
        if wall.is_some_and(|wall| !wall.is_positive()) {
            return mind("the drill breaks out of the edge".to_owned());
        }
        if let (Some(on), Some(travel)) = (&self.on, self.travel()) {
            match on.reach {
                None => {
                    return mind(format!(
                        "{} goes {travel}, not as far as one space: another slide, or a rule",
                        on.words()
                    ));
                }
                Some(reach) if reach < self.row.places.saturating_sub(1) => {
                    return mind(format!(
                        "{} goes {travel}: after {} the bar is shifted",
                        on.words(),
                        reach.saturating_add(1)
                    ));
                }
                Some(_) => {}
            }
        }
        if let Some(web) = web.filter(|web| self.is_thin(Some(*web))) {
            return mind(format!("only {} between the holes", self.like(web)));
        }
        if let Some(wall) = wall.filter(|wall| self.is_thin(Some(*wall))) {
            return mind(format!("only {} left to the edge", self.like(wall)));
        }
        let (mm, lines) = self.worst()?;
        Some(match mm.is_zero() {
            true => (Tone::Good, "every place falls on a line".to_owned()),
            false => (
                Tone::Note,
                format!(
                    "none off by more than {} of a line, {}; it doesn't add up",
                    show::trimmed(lines, 2),
                    show::small_like(mm.to_f64(), self.like)
                ),
            ),
        })
    }

    fn travel(&self) -> Option<String> {
        let on = self.on.as_ref()?;
        Some(show::length_like(on.dial.travel?, on.dial.unit))
    }

    fn facts(&self) -> Vec<Fact> {
        let row = &self.row;
        let mut facts = vec![Fact::new("first to last", self.exactly(row.overall))];
        if let Some(last) = row.last {
            facts.push(Fact::new("last from its end", self.exactly(last)));
        }
        if let Some(web) = self.web() {
            facts.push(Fact::new("left between holes", self.like(web)));
        }
        if let Some(wall) = self.wall() {
            facts.push(Fact::new("left to the edge", self.like(wall)));
        }
        if let Some(on) = &self.on {
            if let Ok(lines) = row.pitch.div(on.dial.travel_per_line()) {
                facts.push(Fact::new("a space in lines", show::trimmed(lines, 2)));
            }
            facts.push(Fact::seldom("a line is", on.line()));
        }
        if let Some(travel) = self.travel() {
            facts.push(Fact::seldom("the slide goes", travel));
        }
        facts
    }

    /// `2 turns + 37`, and after a shift `6 turns + 40 from 4`.
    fn setting(&self, on: &On, place: u32) -> Option<String> {
        let counted = on.counted(place)?;
        let from = nought(place, on.reach?);
        Some(match from {
            0 => counted,
            _ => format!("{counted} from {}", from.saturating_add(1)),
        })
    }

    fn row_of(&self, place: u32) -> TableRow {
        let on = self.on.as_ref();
        let left = on.and_then(|on| on.reading(place)?.reading.left());
        let at = self.exactly(self.at(place));
        TableRow {
            name: place.saturating_add(1).to_string(),
            setting: on.and_then(|on| self.setting(on, place)).unwrap_or_default(),
            note: left.map_or_else(|| at.clone(), |left| format!("{at}, {left}")),
            tone: None,
        }
    }
}

impl Worked for Spaced {
    fn json(&self) -> Vec<(String, Node)> {
        let row = &self.row;
        let positions = (0..row.places).map(|place| {
            let at = self.at(place);
            let mut pairs = vec![
                ("place".to_owned(), Node::from(place.saturating_add(1))),
                ("from_first".to_owned(), Node::from(show::exact_mm(at, false))),
                ("from_first_mm".to_owned(), Node::from(at.to_f64())),
            ];
            if let Some(found) = self.on.as_ref().and_then(|on| on.reading(place)) {
                let reading = found.reading;
                let whole = |n: u64| Node::from(u32::try_from(n).unwrap_or(u32::MAX));
                if self.on.as_ref().is_some_and(|on| on.dial.divisions.is_some()) {
                    pairs.push(("turns".to_owned(), whole(reading.turns)));
                }
                pairs.push(("lines".to_owned(), whole(reading.lines)));
                pairs.push(("dial".to_owned(), Node::from(reading.counted().words())));
                pairs.push(("off_mm".to_owned(), Node::from(found.off(at).to_f64())));
            }
            if let Some(reach) = self.on.as_ref().and_then(|on| on.reach) {
                let from = nought(place, reach).saturating_add(1);
                pairs.push(("dial_from_place".to_owned(), Node::from(from)));
            }
            Node::Object(pairs)
        });
        let exact = |mm: Ratio| Node::from(show::exact_mm(mm, false));
        let mut pairs = vec![
            ("places".to_owned(), Node::from(row.places)),
            ("pitch".to_owned(), exact(row.pitch)),
            ("pitch_mm".to_owned(), Node::from(row.pitch.to_f64())),
            ("overall".to_owned(), exact(row.overall)),
            ("positions".to_owned(), Node::List(positions.collect())),
        ];
        let mut mm = |key: &str, value: Option<Ratio>| {
            pairs.extend(value.map(|mm| (key.to_owned(), Node::from(mm.to_f64()))));
        };
        mm("last_mm", row.last);
        mm("web_mm", self.web());
        mm("wall_mm", self.wall());
        if let Some((worst, lines)) = self.worst() {
            mm("worst_mm", Some(worst));
            mm("worst_lines", Some(lines));
        }
        if let Some(on) = &self.on {
            pairs.push(("slide".to_owned(), Node::from(on.slide)));
            if on.dial.travel.is_some() {
                let most = on.reach.map_or(1, |reach| reach.saturating_add(1));
                pairs.push(("in_one_setting".to_owned(), Node::from(most)));
            }
        }
        pairs
    }

    fn csv(&self) -> Option<String> {
        let mut out = String::from("place,from the first (mm),dial,left over\r\n");
        for place in 0..self.row.places {
            let row = self.row_of(place);
            let on = self.on.as_ref();
            let left = on.and_then(|on| on.reading(place)?.reading.left()).unwrap_or_default();
            let at = show::trimmed(self.at(place), 6);
            out.push_str(&format!("{},{at},{},{left}\r\n", row.name, row.setting));
        }
        Some(out)
    }

    fn card(&self) -> Card {
        let row = &self.row;
        let mut lines = vec![line(&format!(
            "*{}* {}s, *{}* apart",
            row.places,
            self.noun(),
            self.exactly(row.pitch)
        ))];
        if let Some(on) = &self.on
            && let Some(counted) = on.counted(1)
        {
            lines.push(line(&format!("{}, the second at *{counted}*", on.words())));
        }
        Card {
            lines,
            verdict: self.verdict(),
            facts: self.facts(),
            picture: Some(self.picture(0)),
            table: Some(Table {
                heads: ["place", "dial"],
                rows: (0..row.places).map(|place| self.row_of(place)).collect(),
                ..Table::default()
            }),
            ..Card::default()
        }
    }

    fn steps(&self) -> usize {
        self.stages().len()
    }

    fn step(&self, at: usize) -> Option<Step> {
        Some(self.staged(*self.stages().get(at)?))
    }

    fn back(&self, at: usize) -> Option<String> {
        self.come_back(*self.stages().get(at)?)
    }
}
