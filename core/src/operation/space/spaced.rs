//! A row worked out: where each place is, what the dial makes of it, and what the drill leaves.

use super::kind::SLIDES;
use super::places::{Place, places, reach};
use crate::exact::Ratio;
use crate::operation::cut::slide_words;
use crate::operation::read_dial::dial_path;
use crate::operation::{Answer, Found, Lacking, Why};
use crate::quantity::{MM_PER_INCH, Quantity, Unit, show};
use crate::record::Record;
use crate::shop::{Dial, Shop};
use crate::spacing::{Asked, Row, beside, between, thin};
use alloc::boxed::Box;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec;
use alloc::vec::Vec;

/// Holes or lines in a row.
#[derive(Clone, Debug)]
pub struct Spaced {
    pub(super) row: Row,
    pub(super) lines: bool,
    pub(super) like: Unit,
    pub(super) drill: Option<Quantity>,
    pub(super) side: Option<Ratio>,
    /// The slide that moves it, and its dial; none where no dial is entered.
    pub(super) on: Option<On>,
}

/// The slide that moves along the row.
#[derive(Clone, Debug)]
pub(super) struct On {
    pub(super) slide: &'static str,
    pub(super) dial: Dial,
    /// How many spaces it goes on without the bar being shifted; none where it isn't as far as one.
    pub(super) reach: Option<u32>,
    /// Every place; empty where it doesn't go as far as one space.
    pub(super) places: Vec<Place>,
}

/// As asked for, with the unit that the answer is given in.
fn asked(entries: &Record) -> (Asked, Unit) {
    let of = |key| entries.ratio(key);
    let asked = Asked {
        places: entries.count("places"),
        pitch: of("pitch"),
        overall: of("overall"),
        apart: of("apart"),
        length: of("length"),
        first: of("first"),
        last: of("last"),
    };
    let said = ["pitch", "overall", "apart", "length", "first", "last"];
    let like = said.iter().find_map(|key| entries.quantity(key)).map_or(Unit::Mm, Quantity::unit);
    (asked, like)
}

pub(super) fn answer(entries: &Record, shop: &Shop) -> Answer {
    let (asked, like) = asked(entries);
    let row = match asked.row() {
        Ok(row) => row,
        Err(why) => return Answer::refused(why.say(like)),
    };
    let lines = entries.choice("what") == Some("lines");
    let wanted = entries.choice("slide");
    let slide =
        wanted.or_else(|| SLIDES.iter().map(|slide| slide.id).find(|slide| shop.has_dial(slide)));
    let on = match slide.and_then(|slide| Some((slide, shop.dial(slide)?))) {
        Some((slide, dial)) => {
            let reach = reach(&row, &dial);
            let Some(places) = reach.map_or(Some(Vec::new()), |reach| places(&row, &dial, reach))
            else {
                return Answer::refused("the dial's lines are too fine to be counted so far");
            };
            Some(On { slide, dial, reach, places })
        }
        None => None,
    };
    let spaced = Spaced {
        row,
        lines,
        like,
        drill: entries.quantity("drill").filter(|_| !lines).cloned(),
        side: entries.ratio("side"),
        on,
    };
    Answer {
        cautions: spaced.cautions(),
        why: spaced.why(),
        lacking: spaced.lacking(wanted),
        found: Some(Found::Space(Box::new(spaced))),
        ..Answer::default()
    }
}

fn travel_path(slide: &str) -> &'static str {
    match slide {
        "cross" => "shop.lathe.dials.cross.travel",
        "compound" => "shop.lathe.dials.compound.travel",
        _ => "shop.lathe.dials.carriage.travel",
    }
}

impl Spaced {
    /// What one of them is called.
    pub(super) fn noun(&self) -> &'static str {
        if self.lines { "line" } else { "hole" }
    }

    pub(super) fn like(&self, mm: Ratio) -> String {
        show::length_like(mm, self.like)
    }

    /// A length with its fraction where its decimals don't end: `28.571 mm (28 4/7)`.
    pub(super) fn exactly(&self, mm: Ratio) -> String {
        let decimal = self.like(mm);
        let size = match self.like {
            Unit::Thou => Unit::Thou.size(),
            unit if unit.is_inch() => MM_PER_INCH,
            _ => Ratio::ONE,
        };
        let Ok(number) = mm.div(size) else { return decimal };
        if show::terminates(number, 4) || number.denom() > 999 {
            return decimal;
        }
        let whole = number.floor();
        let rest = Ratio::new(whole, 1).and_then(|whole| number.sub(whole));
        match rest {
            Ok(rest) if whole > 0 => format!("{decimal} ({whole} {rest})"),
            Ok(rest) => format!("{decimal} ({rest})"),
            Err(_) => decimal,
        }
    }

    /// Where a place stands from the first, mm.
    pub(super) fn at(&self, place: u32) -> Ratio {
        self.row.at(place).unwrap_or(Ratio::ZERO)
    }

    /// The most that a place is off, mm and in lines of the dial; none without a dial that reaches.
    pub(super) fn worst(&self) -> Option<(Ratio, Ratio)> {
        let on = self.on.as_ref()?;
        let off = |(place, found): (u32, &Place)| found.off(self.at(place)).abs();
        let worst = (0..self.row.places).zip(&on.places).map(off).max()?;
        Some((worst, worst.div(on.dial.travel_per_line()).ok()?))
    }

    /// What is left between two holes, mm.
    pub(super) fn web(&self) -> Option<Ratio> {
        between(self.row.pitch, self.drill.as_ref()?.value()).ok()
    }

    /// What is left beside the hole that is nearest to an edge, mm.
    pub(super) fn wall(&self) -> Option<Ratio> {
        let nearest = [self.row.first, self.row.last, self.side].into_iter().flatten().min()?;
        beside(nearest, self.drill.as_ref()?.value()).ok()
    }

    /// Whether so little is left that a drill wanders.
    pub(super) fn is_thin(&self, left: Option<Ratio>) -> bool {
        let drill = self.drill.as_ref().map(Quantity::value);
        left.zip(drill).is_some_and(|(left, drill)| thin(left, drill))
    }

    fn cautions(&self) -> Vec<&'static str> {
        let mut cautions = vec![match self.lines {
            true => {
                "The spindle stands still while lines are drawn along a bar: supply off, tool or scriber locked. The machine's maker and the rules of the place come first."
            }
            false => {
                "A drill that breaks through grabs the work and swings it: clamp it at two places at the least, never hold it. Key out, eyes covered, no gloves. The machine's maker and the rules of the place come first."
            }
        }];
        let (web, wall) = (self.web(), self.wall());
        if web.is_some_and(|web| !web.is_positive()) {
            cautions.push(
                "These holes run into each other: a twist drill is pulled into the one beside it. Drill them smaller and mill the slot, or plug each before the next.",
            );
        } else if self.is_thin(web) {
            cautions.push(
                "Little is left between the holes: drill a small pilot at every place first, then open every other one, fed lightly.",
            );
        }
        if self.is_thin(wall) {
            cautions.push(
                "Little is left to the edge: it bulges or breaks out. Drill it in a longer, wider piece and cut that to size after, where it may be.",
            );
        }
        cautions
    }

    fn lacking(&self, wanted: Option<&'static str>) -> Vec<Lacking> {
        let mut lacking = Vec::new();
        let mut lacks = |key, needs| lacking.push(Lacking { key, needs });
        match &self.on {
            None => lacks("dial", wanted.map_or("shop.lathe.dials", dial_path)),
            Some(on) => {
                if on.dial.divisions.is_none() {
                    lacks("turns", dial_path(on.slide));
                }
                if on.dial.travel.is_none() {
                    lacks("in_one_setting", travel_path(on.slide));
                }
            }
        }
        if !self.lines && self.drill.is_none() {
            lacks("web_mm", "operation.drill");
        }
        if self.drill.is_some() && self.wall().is_none() {
            lacks("wall_mm", "operation.first");
        }
        lacking
    }

    fn why(&self) -> Vec<Why> {
        let row = &self.row;
        let spaces = row.places.saturating_sub(1);
        let mut why = vec![Why::new(
            "a space = first to last / (places − 1); place n stands (n − 1) spaces from the first",
            format!("{} / {spaces} = {}", self.like(row.overall), self.exactly(row.pitch)),
            "arithmetic",
        )];
        if let Some(on) = &self.on
            && let Ok(lines) = row.pitch.div(on.dial.travel_per_line())
        {
            let line = show::length_like(on.dial.travel_per_line(), on.dial.unit);
            why.push(Why::new(
                "lines = place / travel of one line, each place to the nearest by itself: what one leaves over isn't added to the next",
                format!("{} / {line} = {} a space", self.like(row.pitch), show::many(show::trimmed(lines, 3), "line", "lines")),
                "arithmetic; an inch is 25.4 mm exactly, by the agreement on the yard of 1959",
            ));
        }
        if let (Some(drill), Some(web)) = (&self.drill, self.web()) {
            let mut values =
                format!("{} − {} = {}", self.like(row.pitch), drill.text(), self.like(web));
            if let Some(wall) = self.wall() {
                values.push_str(&format!("; beside the nearest edge {}", self.like(wall)));
            }
            why.push(Why::new(
                "between two holes = a space − Ø; beside an edge = distance − Ø / 2; thin below Ø / 2",
                values,
                "arithmetic; half a diameter as the least is common practice, no source",
            ));
        }
        why
    }
}

impl On {
    /// The slide by its name at the machine.
    pub(super) fn words(&self) -> &'static str {
        slide_words(self.slide)
    }

    /// What a line moves the slide by, in the dial's own unit.
    pub(super) fn line(&self) -> String {
        show::length_like(self.dial.travel_per_line(), self.dial.unit)
    }

    /// What the dial says at a place.
    pub(super) fn reading(&self, place: u32) -> Option<&Place> {
        self.places.get(usize::try_from(place).ok()?)
    }

    /// What is counted off for a place, as text.
    pub(super) fn counted(&self, place: u32) -> Option<String> {
        Some(self.reading(place)?.reading.counted().to_string())
    }
}
