//! What a chart comes to, in a few lines: the rows themselves stand in the chart.

use super::super::circle::short;
use super::super::{Card, Fact, Other, Tone, line};
use super::answer::{ChartFound, Rows, name};
use crate::chart::{Chart, Divided, Row, Standing, Turn, word};
use crate::dividing::Method;
use crate::quantity::show;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// How many rows stand on the card itself.
const SHOWN: usize = 40;

pub(super) fn card(found: &ChartFound) -> Card {
    match &found.rows {
        Rows::Threads { chart, shown, turns, feed } => threads(chart, shown, turns, *feed),
        Rows::Divisions(rows) => divisions(rows),
    }
}

fn threads(chart: &Chart, shown: &[usize], turns: &[Turn], feed: Option<bool>) -> Card {
    let count = |standing: Standing| {
        chart.rows().iter().filter(|row| row.standing == standing).count() as u64
    };
    let all = show::count(chart.rows().len() as u64);
    let (exact, within) = (count(Standing::Exact), count(Standing::Within));
    let cannot = count(Standing::Beyond).saturating_add(count(Standing::None));
    let verdict = match cannot {
        0 => (Tone::Good, "nothing that it can't cut".to_owned()),
        n => (Tone::Note, format!("{n} can't be cut, or not near enough")),
    };
    let mut facts = Vec::from([Fact::new("near enough", show::count(within))]);
    if count(Standing::Untold) > 0 {
        facts.push(Fact::new(
            "near, with no class to judge by",
            show::count(count(Standing::Untold)),
        ));
    }
    facts.push(Fact::new("different leads", show::count(chart.leads() as u64)));
    let row = |place: &usize| chart.rows().get(*place);
    let turned = turns.iter().filter_map(|turn| Some((row(&turn.row)?, Some(turn))));
    let rest = shown.iter().filter_map(row).map(|row| (row, None));
    let others = turned.chain(rest).take(SHOWN).map(|(row, turn)| other(chart, row, turn, feed));
    Card {
        lines: Vec::from([line(&format!("*{exact}* of *{all}* exactly"))]),
        verdict: Some(verdict),
        facts,
        others_title: "rows",
        others: others.collect(),
        ..Card::default()
    }
}

fn other(chart: &Chart, row: &Row, turn: Option<&Turn>, feed: Option<bool>) -> Other {
    let train = turn.map(|turn| &turn.train).or(row.train.as_ref());
    let train = train.map(|train| {
        let pairs = train.pairs().iter();
        let pairs = pairs.map(|pair| format!("{} drives {}", pair.driver, pair.driven));
        let mut parts: Vec<String> = pairs.collect();
        if chart.lathe().gearbox.len() > 1 {
            let (ratio, how) = chart.lathe().position(train);
            parts.push(how.map_or_else(|| format!("gearbox at {ratio}"), ToOwned::to_owned));
        }
        parts.join(", ")
    });
    let mut note = word(row.standing).to_owned();
    if let (Some(share), Standing::Within | Standing::Beyond) = (row.share, row.standing) {
        note.push_str(&format!(", {} % of its tolerance", show::float(share * 100.0, 0)));
    }
    if let Some(turn) = turn {
        note.push_str(&match turn.changed {
            0 => ", no gear changed".to_owned(),
            1 => ", 1 gear changed".to_owned(),
            n => format!(", {n} gears changed"),
        });
    }
    let line = match train {
        Some(train) => format!("{}: {train}", name(row, feed)),
        None => name(row, feed),
    };
    Other { line, note, usable: row.train.is_some() }
}

fn divisions(rows: &[Divided]) -> Card {
    let count = |wanted: &dyn Fn(&Divided) -> bool| rows.iter().filter(|row| wanted(row)).count();
    let exact = count(&|row| row.method().is_some());
    let cannot = rows.len().saturating_sub(exact);
    let facts = [
        ("by teeth on the spindle", [Method::Direct, Method::DirectHalfTooth]),
        ("by turns and holes", [Method::Plain, Method::Plain]),
        ("with gears", [Method::Differential, Method::Differential]),
        ("by two moves", [Method::Compound, Method::Compound]),
    ];
    let facts = facts.iter().filter_map(|(label, methods)| {
        let n = count(&|row| row.method().is_some_and(|method| methods.contains(&method)));
        (n > 0).then(|| Fact::new(*label, n.to_string()))
    });
    let lacking = rows.iter().filter(|row| row.method().is_none()).take(SHOWN);
    let others = lacking.map(|row| Other {
        line: match &row.way {
            Some(way) => format!("{}: {}", row.into, short(&way.setting)),
            None => row.into.to_string(),
        },
        note: match &row.way {
            Some(way) => format!("{} off at worst", show::arc(way.worst_arcsec())),
            None => "too few positions".to_owned(),
        },
        usable: row.way.is_some(),
    });
    Card {
        lines: Vec::from([line(&format!("*{exact}* of *{}* exactly", rows.len()))]),
        verdict: Some(match cannot {
            0 => (Tone::Good, "every number".to_owned()),
            n => (Tone::Note, format!("{n} can't be divided exactly")),
        }),
        facts: facts.collect(),
        others_title: "not exactly",
        others: others.collect(),
        ..Card::default()
    }
}
