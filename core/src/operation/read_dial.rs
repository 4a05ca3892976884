//! From one dial to another: a travel in turns and lines of any dial of the shop, and how to come up
//! to it without the slack.

use super::cut::{SLIDES, slide_words};
use super::ready::{Kit, found_out};
use super::{
    Answer, Card, Fact, Found, Kind, Lacking, Other, Step, Tone, Why, Worked, Works, line,
};
use crate::exact::Ratio;
use crate::procedure::{
    self, Action, CutterStands, Fitting, Gauge, Item, Length, Slide, Statement, StepId, Toward,
};
use crate::quantity::{Unit, show};
use crate::record::{Choice, LENGTH, Node, Record, Shape, Spec, choice, field};
use crate::shop::{Dial, Reading, Shop};
use alloc::borrow::ToOwned;
use alloc::boxed::Box;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec;
use alloc::vec::Vec;

const MEANT: &[Choice] =
    &[choice("travel", 0, "of the slide"), choice("diameter", 1, "on the diameter")];

pub(super) static KIND: Kind = Kind {
    name: "read-dial",
    wire: 15,
    title: "From one dial to another",
    spec: &Spec {
        name: "read a dial",
        fields: &[
            field("amount", 1, "travel or depth", LENGTH),
            field("meant", 2, "meant", Shape::Choice(MEANT)),
            field("slide", 3, "read on", Shape::Choice(SLIDES)),
            field("from", 4, "dial read", Shape::Choice(SLIDES)),
            field("turns", 5, "turns", Shape::Count(0, 9999)),
            field("lines", 6, "lines", Shape::Count(0, 9999)),
        ],
    },
    sentences: &[
        ("from", "{turns} turns and {lines} lines of {from} are so much on {slide|the others}."),
        ("", "Move {amount}[ {meant}], on {slide|any slide}[, or as read on {from}]."),
    ],
    instead: &[("amount", "from"), ("amount", "turns"), ("amount", "lines"), ("from", "amount")],
    from_shop: &["lathe", "indicators"],
    measured: &[],
};

pub(super) static WORKS: Works = Works::at_once(&KIND, answer);

/// A travel on one dial.
#[derive(Clone, Debug)]
struct On {
    slide: &'static str,
    dial: Dial,
    /// How far the slide itself goes, mm.
    travel: Ratio,
    reading: Reading,
}

/// A travel on the dials of the shop: the one that is set first.
#[derive(Clone, Debug)]
pub struct ReadDial {
    on: Vec<On>,
    /// What was asked for, in words.
    asked: String,
    like: Unit,
    /// Whether an indicator is owned.
    indicator: bool,
}

/// Slides that go across the work: the diameter changes by twice their travel.
fn across(slide: &str) -> bool {
    matches!(slide, "cross" | "compound")
}

/// What is asked for, mm, as it is meant, and in words.
fn asked(entries: &Record, shop: &Shop) -> Result<(Ratio, String, Unit, bool), Answer> {
    let Some(from) = entries.choice("from") else {
        let Some(amount) = entries.quantity("amount") else {
            return Err(Answer::refused("say how far: a length, or turns and lines of a dial"));
        };
        let diameter = entries.choice("meant") == Some("diameter");
        let words =
            format!("{} {}", amount.text(), if diameter { "on the diameter" } else { "of travel" });
        return Ok((amount.value(), words, amount.unit(), diameter));
    };
    let needs = dial_path(from);
    let waits = |why: String| Answer {
        lacking: vec![Lacking { key: "readings", needs }],
        ..Answer::refused(why)
    };
    let words = slide_words(from);
    let Some(dial) = shop.dial(from) else {
        return Err(waits(unentered(from, shop)));
    };
    let (turns, lines) = (entries.count("turns").unwrap_or(0), entries.count("lines").unwrap_or(0));
    let in_a_turn = match (dial.divisions, turns) {
        (Some(divisions), _) => divisions,
        (None, 0) => 0,
        (None, _) => {
            return Err(waits(format!("how many lines make a turn of {words} isn't entered")));
        }
    };
    let counted =
        u64::from(turns).saturating_mul(u64::from(in_a_turn)).saturating_add(u64::from(lines));
    let travel =
        Ratio::new(i128::from(counted), 1).and_then(|counted| dial.travel_per_line().mul(counted));
    match travel {
        Ok(travel) if travel.is_positive() => {
            let words = format!("{} + {lines} of {words}", show::many(turns, "turn", "turns"));
            Ok((travel, words, dial.unit, false))
        }
        Ok(_) => Err(Answer::refused("say how many turns and lines: it hasn't moved yet")),
        Err(why) => Err(Answer::refused(why.to_string())),
    }
}

/// What of a slide's dial isn't entered.
fn unentered(slide: &str, shop: &Shop) -> String {
    let words = slide_words(slide);
    match shop.has_dial(slide) {
        true => format!("whether the dial of {words} reads radius or diameter isn't entered"),
        false => format!("the dial of {words} isn't entered"),
    }
}

/// Where what is lacking of a slide's dial is entered.
fn backlash_path(slide: &str) -> &'static str {
    match slide {
        "cross" => "shop.lathe.dials.cross.backlash",
        "compound" => "shop.lathe.dials.compound.backlash",
        "carriage" => "shop.lathe.dials.carriage.backlash",
        _ => "shop.lathe.dials.tailstock.backlash",
    }
}

pub(super) fn dial_path(slide: &str) -> &'static str {
    match slide {
        "cross" => "shop.lathe.dials.cross",
        "compound" => "shop.lathe.dials.compound",
        "carriage" => "shop.lathe.dials.carriage",
        _ => "shop.lathe.dials.tailstock",
    }
}

fn answer(entries: &Record, shop: &Shop) -> Answer {
    let (amount, words, like, diameter) = match asked(entries, shop) {
        Ok(asked) => asked,
        Err(refused) => return refused,
    };
    let wanted = entries.choice("slide");
    let mut on: Vec<On> = Vec::new();
    for slide in SLIDES.iter().map(|slide| slide.id) {
        if diameter && !across(slide) && wanted != Some(slide) {
            continue;
        }
        let halved = diameter && across(slide);
        let travel = if halved { amount.div(Ratio::whole(2)) } else { Ok(amount) };
        let (Some(dial), Ok(travel)) = (shop.dial(slide), travel) else { continue };
        let Some(reading) = dial.reading(travel) else { continue };
        on.push(On { slide, dial, travel, reading });
    }
    // The one that was asked for stands first; the dial that was read isn't read again.
    if wanted != entries.choice("from") {
        on.retain(|one| Some(one.slide) != entries.choice("from"));
    }
    on.sort_by_key(|one| Some(one.slide) != wanted);
    let missing = match wanted {
        Some(wanted) => on.first().is_none_or(|one| one.slide != wanted),
        None => on.is_empty(),
    };
    if missing {
        let needs = wanted.map_or("shop.lathe.dials", dial_path);
        let what =
            wanted.map_or("no other dial is entered".to_owned(), |wanted| unentered(wanted, shop));
        return Answer {
            lacking: vec![Lacking { key: "readings", needs }],
            ..Answer::refused(what)
        };
    }
    let mut lacking = Vec::new();
    if on.first().is_some_and(|first| first.dial.backlash.is_none()) {
        lacking.push(Lacking {
            key: "backlash_lines",
            needs: backlash_path(on.first().map_or("", |first| first.slide)),
        });
    }
    if on.first().is_some_and(|first| first.dial.divisions.is_none()) {
        lacking.push(Lacking {
            key: "turns",
            needs: dial_path(on.first().map_or("", |first| first.slide)),
        });
    }
    let why = on.first().map(why).into_iter().collect();
    let indicator = shop.record().records("indicators").next().is_some();
    let slide = on.first().map_or("", |first| first.slide);
    let found = ReadDial { on, asked: words, like, indicator };
    let found = Some(Found::ReadDial(Box::new(found)));
    found_out(Answer { found, lacking, why, ..Answer::default() }, shop, dial_path(slide))
}

fn why(on: &On) -> Why {
    let line = show::length_like(on.dial.travel_per_line(), on.dial.unit);
    let reads = if on.dial.reads_diameter {
        " (it reads the diameter: half of that is travel)"
    } else {
        ""
    };
    Why::new(
        "lines = travel / travel of one line; turns = lines / lines in a turn",
        format!(
            "{} / {line}{reads} = {}",
            show::length_like(on.travel, on.dial.unit),
            on.reading.words()
        ),
        "arithmetic; an inch is 25.4 mm, 1959",
    )
}

impl On {
    /// Lost motion in lines of this dial.
    fn slack(&self) -> Option<Ratio> {
        self.dial.backlash?.div(self.dial.travel_per_line()).ok()
    }

    fn line_is(&self) -> String {
        let line = self.dial.travel_per_line();
        if self.dial.reads_diameter {
            format!("{} on the diameter", show::length_like(self.dial.division, self.dial.unit))
        } else {
            show::length_like(line, self.dial.unit)
        }
    }
}

impl ReadDial {
    fn first(&self) -> Option<&On> {
        self.on.first()
    }

    /// The travel made on the first dial, its lost motion known and taken up.
    fn stages(&self) -> Vec<Step> {
        let Some(on) = self.first() else { return Vec::new() };
        let Some((slide, toward)) = moves(on.slide) else { return Vec::new() };
        let mut steps = Vec::new();
        if self.indicator {
            steps.push(find_the_slack(on, slide));
        }
        steps.extend([take_it_up(on, slide, toward), self.go(on, slide, toward)]);
        if let Some(first) = steps.first_mut() {
            let actions = core::mem::take(&mut first.actions);
            first.actions = Kit::safe();
            first
                .actions
                .push(Action::Look(Statement::Cutter { is: CutterStands::Clear, off: None }));
            first.actions.extend(actions);
        }
        steps
    }

    fn go(&self, on: &On, slide: Slide, toward: Toward) -> Step {
        let to = Some(procedure::Reading::from(on.reading));
        let wind = |to, toward| Action::Wind {
            slide,
            to,
            by: None,
            toward,
            from: toward.opposite(),
            on: Gauge::Dial,
        };
        Step {
            id: StepId::new("wind", 1),
            title: "Wind to it".to_owned(),
            actions: Vec::from([wind(to, toward)]),
            label: format!("{}, on by", slide_words(on.slide)),
            figure: on.reading.counted().to_string(),
            done: "There",
            ..Step::default()
        }
    }
}

/// A slide of a dial's name, and the way in which its cut goes on.
fn moves(slide: &str) -> Option<(Slide, Toward)> {
    Some(match slide {
        "cross" => (Slide::Cross, Toward::In),
        "compound" => (Slide::Compound, Toward::In),
        "carriage" => (Slide::Carriage, Toward::Headstock),
        "tailstock" => (Slide::Quill, Toward::Headstock),
        _ => return None,
    })
}

/// How much the screw is slack, by an indicator.
fn find_the_slack(on: &On, slide: Slide) -> Step {
    let indicator = Item::Fitting { which: Fitting::Indicator };
    let slack = on.dial.backlash.map(|slack| Length::like(slack, on.dial.unit));
    let lines = on.slack().map(|slack| show::trimmed(slack, 1));
    Step {
        id: StepId::new("slack", 1),
        title: "Find the slack".to_owned(),
        actions: Vec::from([
            Action::Mount(indicator.clone()),
            Action::FindSlack { slide, should_be: slack },
            Action::Remove(indicator),
        ]),
        say: Vec::from([match slack {
            Some(_) => "More than was entered with the dial: enter it anew.",
            None => "Enter it with the dial in the shop.",
        }
        .to_owned()]),
        label: lines.as_ref().map_or("", |_| "slack, lines").to_owned(),
        figure: lines.unwrap_or_default(),
        done: "Known",
        ..Step::default()
    }
}

/// Wound back, and up to where the travel begins, its dial at nought.
fn take_it_up(on: &On, slide: Slide, toward: Toward) -> Step {
    Step {
        id: StepId::new("nought", 1),
        title: "Take up the slack".to_owned(),
        actions: Vec::from([
            Action::Clear { slide, toward: toward.opposite(), by: Some(back_by(on)) },
            Action::Approach { slide, toward },
            Action::Zero { slide, on: Gauge::Dial },
        ]),
        label: slide_words(on.slide).to_owned(),
        figure: "0".to_owned(),
        done: "Set",
        ..Step::default()
    }
}

/// Farther back than any slack: half a turn of its handle, or 1 mm where a turn isn't known. Common practice,
/// no source.
fn back_by(on: &On) -> Length {
    let half = on.dial.travel_per_turn().and_then(|turn| turn.div(Ratio::whole(2)).ok());
    Length::like(half.unwrap_or(Ratio::ONE), on.dial.unit)
}

impl Worked for ReadDial {
    fn json(&self) -> Vec<(String, Node)> {
        let readings = self.on.iter().map(|on| {
            let mut pairs = vec![
                ("slide".to_owned(), Node::from(on.slide)),
                ("dial".to_owned(), Node::from(on.reading.words())),
            ];
            if on.dial.divisions.is_some() {
                let turns = u32::try_from(on.reading.turns).unwrap_or(u32::MAX);
                pairs.push(("turns".to_owned(), Node::from(turns)));
            }
            let lines = u32::try_from(on.reading.lines).unwrap_or(u32::MAX);
            pairs.push(("lines".to_owned(), Node::from(lines)));
            pairs
                .push(("left_over_lines".to_owned(), Node::from(on.reading.left_over.to_string())));
            pairs.push(("travel_mm".to_owned(), Node::from(on.reading.travel.to_f64())));
            if let Some(slack) = on.slack() {
                pairs.push(("backlash_lines".to_owned(), Node::from(slack.to_f64())));
            }
            Node::Object(pairs)
        });
        vec![("readings".to_owned(), Node::List(readings.collect()))]
    }

    fn card(&self) -> Card {
        let Some(first) = self.first() else { return Card::default() };
        let mut facts = vec![
            Fact::new("asked for", self.asked.clone()),
            Fact::new("a line is", first.line_is()),
        ];
        let at_line = show::length_like(first.reading.travel, self.like);
        facts.push(Fact::new("the line moves it", at_line));
        if let Ok(twice) = first.reading.travel.mul(Ratio::whole(2))
            && across(first.slide)
        {
            facts.push(Fact::new("of the diameter", show::length_like(twice, self.like)));
        }
        if let Some(turn) = first.dial.travel_per_turn() {
            facts.push(Fact::new("a turn moves it", show::length_like(turn, first.dial.unit)));
        }
        if let Some(slack) = first.slack() {
            facts.push(Fact::new("slack", show::many(show::trimmed(slack, 1), "line", "lines")));
        }
        let verdict = Some(match first.reading.left() {
            Some(left) => (Tone::Note, left),
            None => (Tone::Good, "it falls on a line".to_owned()),
        });
        let others = self.on.iter().skip(1).map(|on| Other {
            line: format!("{}: {}", slide_words(on.slide), on.reading.counted()),
            note: on.reading.left().unwrap_or_else(|| "on a line".to_owned()),
            usable: true,
        });
        Card {
            lines: vec![line(&format!(
                "{} *{}*",
                slide_words(first.slide),
                first.reading.counted()
            ))],
            verdict,
            facts,
            others_title: "on the other dials",
            others: others.collect(),
            ..Card::default()
        }
    }

    fn steps(&self) -> usize {
        self.stages().len()
    }

    fn step(&self, at: usize) -> Option<Step> {
        self.stages().into_iter().nth(at)
    }
}
