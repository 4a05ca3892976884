//! What a chart comes to: its rows.

use super::super::{Card, Step, Why, Worked};
use super::{card, json};
use crate::chart::{Chart, Divided, Lathe, Row, Spare, Spared, Turn, csv_line};
use crate::quantity::{Unit, show};
use crate::record::Node;
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
    Threads(Box<Threads>),
    Divisions(Vec<Divided>),
    Gears(Gears),
}

/// Threads or feeds, each in its turn; those of `turns` first where there are any.
#[derive(Clone, Debug)]
pub(super) struct Threads {
    pub(super) lathe: Lathe,
    /// Every row, in the standards' order.
    pub(super) rows: Vec<Row>,
    /// How many different leads they have.
    pub(super) leads: usize,
    pub(super) complete: bool,
    /// The rows shown, in order.
    pub(super) shown: Vec<usize>,
    /// The same with what is changed from one to the next, where that is the order.
    pub(super) turns: Vec<Turn>,
    /// Whether they stand series by series.
    pub(super) in_series: bool,
    /// Whether they are feeds, and then whether in inches.
    pub(super) feed: Option<bool>,
}

impl Threads {
    /// Each row shown, with its turn where there is one.
    pub(super) fn shown(&self) -> impl Iterator<Item = (&Row, Option<&Turn>)> {
        let row = |place: &usize| self.rows.get(*place);
        let turned = self.turns.iter().filter_map(move |turn| Some((row(&turn.row)?, Some(turn))));
        turned.chain(self.shown.iter().filter_map(move |place| Some((row(place)?, None))))
    }
}

/// The gears owned, and which of them could be spared.
#[derive(Clone, Debug)]
pub(super) struct Gears {
    /// A size, how many of it there are, and in how many leads' best trains it stands.
    pub(super) used: Vec<(u16, u8, u32)>,
    pub(super) spared: Spared,
    /// By how many leads they are judged.
    pub(super) leads: usize,
    /// How many sizes have been tried by themselves.
    pub(super) tried: usize,
    pub(super) finished: bool,
}

/// What a row is called: a feed by what it feeds in a turn.
pub(super) fn name(row: &Row, feed: Option<bool>) -> String {
    match feed {
        Some(true) => show::length_like(row.lead.factor(), Unit::Thou),
        Some(false) => show::mm(row.lead.factor()),
        None => row.thread.to_string(),
    }
}

pub(super) fn threads_why(chart: &Chart) -> Vec<Why> {
    let gears = chart.lathe().drawer.gears();
    let rows = show::count(chart.rows().len() as u64);
    Vec::from([
        Why::new(
            "lead cut = leadscrew × drivers/driven × gearbox",
            format!(
                "{}, {}, each searched through {}",
                show::many(rows, "row", "rows"),
                show::many(chart.leads(), "lead", "leads"),
                show::many(gears, "gear", "gears")
            ),
            "arithmetic; every selection is looked at",
        ),
        Why::new(
            "share = error of lead over the nut × cot α / tolerance of the pitch diameter",
            "over the nut's length where it is entered, else over the thread's own diameter",
            "geometry, as in ISO 965-1; the nut's length: common practice, no source",
        ),
    ])
}

pub(super) fn divisions_why((from, to): (u32, u32)) -> Vec<Why> {
    Vec::from([Why::new(
        "divisions × (turns + holes/circle) = turns of the crank for one of the work",
        format!("{from} to {to}, the simplest exact way of each, else the nearest"),
        "arithmetic",
    )])
}

pub(super) fn gears_why(search: &Spare) -> Vec<Why> {
    Vec::from([Why::new(
        "a gear can be spared if no lead's best train is further off without it",
        format!(
            "{}, each searched again without each size",
            show::many(search.leads(), "lead", "leads")
        ),
        "arithmetic; every selection is looked at",
    )])
}

impl Worked for ChartFound {
    fn json(&self) -> Vec<(String, Node)> {
        json::json(self)
    }

    fn csv(&self) -> Option<String> {
        if let Rows::Threads(threads) = &self.rows {
            let rows = threads.shown().map(|(row, turn)| Row {
                train: turn.map(|turn| turn.train).or(row.train),
                ..*row
            });
            return Some(crate::chart::csv(&threads.lathe, rows));
        }
        let table = self.card().table?;
        let mut text = String::new();
        let [name, setting] = table.heads;
        csv_line(&mut text, &[name, setting, "standing"]);
        for row in &table.rows {
            csv_line(&mut text, &[&row.name, &row.setting, &row.note]);
        }
        Some(text)
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
