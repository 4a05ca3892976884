//! The chart that an operation asks for, worked through to its end.

use super::super::circle::{kit, wanted};
use super::super::{Answer, Card, Found, Lacking, Step, Why, Worked};
use super::{card, json};
use crate::chart::{
    By, Chart, Divided, Divisions, FEED_OFF, Judged, Lathe, NoLathe, Only, Row, Turn, all_and,
    feeds, fewest_changes, sorted,
};
use crate::exact::Ratio;
use crate::gearing::Pair;
use crate::quantity::{Unit, show};
use crate::record::{Node, Record, Value};
use crate::shop::Shop;
use crate::threads::{Designation, parse};
use alloc::borrow::ToOwned;
use alloc::boxed::Box;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// A chart's rows.
#[derive(Clone, Debug)]
pub struct ChartFound {
    pub(super) rows: Rows,
}

/// Of what they are.
#[derive(Clone, Debug)]
pub(super) enum Rows {
    /// Threads or feeds, each in its turn; those of `turns` first where there are any.
    Threads {
        /// Every row, in the standards' order.
        chart: Box<Chart>,
        /// The rows shown, in order.
        shown: Vec<usize>,
        /// The same with what is changed from one to the next, where that is the order.
        turns: Vec<Turn>,
        /// Whether they are feeds, and then whether in inches.
        feed: Option<bool>,
    },
    /// Divisions.
    Divisions(Vec<Divided>),
}

/// What a row is called: a feed by what it feeds in a turn.
pub(super) fn name(row: &Row, feed: Option<bool>) -> String {
    match feed {
        Some(true) => show::length_like(row.lead.factor(), Unit::Thou),
        Some(false) => show::mm(row.lead.factor()),
        None => row.thread.to_string(),
    }
}

/// What an error is told over, mm.
const OVER: i64 = 300;

/// The least and most divisions charted.
const DIVISIONS: (u32, u32) = (2, 400);

/// A list of texts, each a thread's name or a lead; or the one that can't be read, and why.
pub(in super::super) fn threads(list: &[Value], key: &str) -> Result<Vec<Designation>, String> {
    let texts = list.iter().filter_map(|value| match value {
        Value::Text(text) => Some(text.as_str()),
        _ => None,
    });
    let read = |(at, text): (usize, &str)| {
        parse(text).map_err(|why| format!("{key}[{at}]: “{text}”: {why}"))
    };
    texts.enumerate().map(read).collect()
}

/// An answer that lacks what its rows need.
pub(in super::super) fn without(why: &NoLathe, key: &'static str) -> Answer {
    let (words, needs) = match why {
        NoLathe::Leadscrew => ("the leadscrew isn't known".to_owned(), "shop.lathe.leadscrew"),
        NoLathe::Gears => {
            ("there are no two change gears in the shop".to_owned(), "shop.lathe.change_gears")
        }
        NoLathe::Because(why) => (why.clone(), "shop.lathe"),
    };
    Answer { lacking: Vec::from([Lacking { key, needs }]), ..Answer::refused(words) }
}

pub(super) fn answer(entries: &Record, shop: &Shop) -> Answer {
    if entries.choice("of") == Some("divisions") {
        return divisions(shop);
    }
    let own = match threads(entries.list("also"), "also") {
        Ok(own) => own,
        Err(why) => return Answer::refused(why),
    };
    match of_threads(entries, shop, &own) {
        Ok((rows, why, complete)) => Answer {
            found: Some(Found::Chart(Box::new(ChartFound { rows }))),
            cautions: cautions(complete),
            why,
            ..Answer::default()
        },
        Err(why) => without(&why, "rows"),
    }
}

fn cautions(complete: bool) -> Vec<&'static str> {
    let mut cautions = Vec::from([
        "Change gears with the spindle stopped and the supply isolated; guard on again before anything turns. The machine's maker and the rules of the place come first.",
    ]);
    if !complete {
        cautions.push("So many gears and so tight a banjo: some trains were not looked at.");
    }
    cautions
}

fn of_threads(
    entries: &Record,
    shop: &Shop,
    own: &[Designation],
) -> Result<(Rows, Vec<Why>, bool), NoLathe> {
    let lathe = Lathe::of(shop, false)?;
    let inch = shop.leadscrew().is_some_and(|lead| lead.unit().is_inch());
    let threads = match entries.choice("of") {
        Some("feeds") => [feeds(inch), own.to_vec()].concat(),
        _ => all_and(own),
    };
    let feeding = entries.choice("of") == Some("feeds");
    let within = entries.ratio("within").and_then(|by| by.div(Ratio::whole(OVER)).ok());
    let judged = Judged {
        engaged: entries.ratio("engaged"),
        otherwise: within.or(feeding.then_some(FEED_OFF)),
    };
    let mut chart = Chart::new(lathe, &threads, judged)?;
    while !chart.step(usize::MAX)?.finished() {}
    let only = match entries.choice("only") {
        Some("exact") => Only::Exact,
        Some("within") => Only::Within,
        Some("cannot") => Only::Cannot,
        _ => Only::All,
    };
    let by = match entries.choice("order") {
        Some("lead") => By::Lead,
        Some("error") => By::Error,
        Some("share") => By::Share,
        _ => By::Standard,
    };
    let mut shown = sorted(chart.rows(), only, by);
    let mut turns = Vec::new();
    if entries.choice("order") == Some("changes") {
        let now: Vec<Pair> = pairs(&entries.counts("now"));
        turns = fewest_changes(&chart, only, &now)?;
        // What no train cuts comes after what is cut.
        shown.retain(|place| chart.rows().get(*place).is_some_and(|row| row.train.is_none()));
    }
    let complete = chart.complete();
    let why = why(&chart);
    let feed = feeding.then_some(inch);
    Ok((Rows::Threads { chart: Box::new(chart), shown, turns, feed }, why, complete))
}

/// Driver, driven, driver, driven.
fn pairs(teeth: &[u32]) -> Vec<Pair> {
    let small = |n: &u32| u16::try_from(*n).unwrap_or(0);
    let pair = |two: &[u32]| match two {
        [driver, driven] => Some(Pair { driver: small(driver), driven: small(driven) }),
        _ => None,
    };
    teeth.chunks(2).filter_map(pair).collect()
}

fn why(chart: &Chart) -> Vec<Why> {
    let gears = chart.lathe().drawer.gears();
    let rows = show::count(chart.rows().len() as u64);
    Vec::from([
        Why::new(
            "lead cut = leadscrew × drivers/driven × gearbox",
            format!("{rows} rows, {} leads, each searched through {gears} gears", chart.leads()),
            "arithmetic; every selection is looked at",
        ),
        Why::new(
            "share = error of lead over the nut × cot α / tolerance of the pitch diameter",
            "over the nut's length where it is entered, else over the thread's own diameter",
            "geometry, as in ISO 965-1; the nut's length: common practice, no source",
        ),
    ])
}

fn divisions(shop: &Shop) -> Answer {
    let (from, to) = DIVISIONS;
    let worked = Divisions::new(kit(shop), from, to).and_then(|mut chart| {
        while !chart.step(usize::MAX)?.finished() {}
        Ok(chart.rows().to_vec())
    });
    match worked {
        Ok(rows) => Answer {
            found: Some(Found::Chart(Box::new(ChartFound { rows: Rows::Divisions(rows) }))),
            why: Vec::from([Why::new(
                "divisions × (turns + holes/circle) = turns of the crank for one of the work",
                format!("{from} to {to}, the simplest exact way of each, else the nearest"),
                "arithmetic",
            )]),
            ..Answer::default()
        },
        Err(crate::dividing::DividingError::NothingOwned) => Answer {
            lacking: Vec::from([Lacking { key: "rows", needs: wanted(shop) }]),
            ..Answer::refused("nothing in the shop divides a circle yet")
        },
        Err(why) => Answer::refused(format!("{why}")),
    }
}

impl Worked for ChartFound {
    fn json(&self) -> Vec<(String, Node)> {
        json::json(self)
    }

    fn card(&self) -> Card {
        card::card(self)
    }

    fn steps(&self) -> usize {
        0
    }

    fn step(&self, _: usize) -> Option<Step> {
        None
    }
}
