//! What a chart comes to, as a screen takes it: how much of it can be had, and every row.

use super::super::circle::short;
use super::super::{Card, Fact, LeadPoint, Picture, Table, TableRow, Tone, line};
use super::answer::{ChartFound, Gears, Rows, Threads, name};
use crate::chart::{Divided, Lathe, Row, Standing, Turn, word};
use crate::dividing::Method;
use crate::gearing::Train;
use crate::quantity::show;
use crate::threads::{INCH, Lead};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// What an error of lead is told over, mm. Common practice, no source.
const OVER: u16 = 300;

pub(super) fn card(found: &ChartFound) -> Card {
    match &found.rows {
        Rows::Threads(threads) => of_threads(threads),
        Rows::Divisions(rows) => of_divisions(rows),
        Rows::Gears(gears) => of_gears(gears),
    }
}

const fn tone(standing: Standing) -> Option<Tone> {
    match standing {
        Standing::Exact => Some(Tone::Good),
        Standing::Within => Some(Tone::Note),
        Standing::Untold => None,
        Standing::Beyond | Standing::None => Some(Tone::Mind),
    }
}

fn of_threads(threads: &Threads) -> Card {
    let count = |standing: Standing| {
        threads.rows.iter().filter(|row| row.standing == standing).count() as u64
    };
    let all = show::count(threads.rows.len() as u64);
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
    facts.push(Fact::new("different leads", show::count(threads.leads as u64)));
    let rows = threads.shown().map(|(row, turn)| thread_row(threads, row, turn));
    Card {
        lines: Vec::from([line(&format!("*{exact}* of *{all}* exactly"))]),
        verdict: Some(verdict),
        facts,
        picture: Some(Picture::Leads(points(&threads.rows))),
        table: Some(Table {
            heads: [if threads.feed.is_some() { "feed" } else { "thread" }, "gears, driver/driven"],
            rows: rows.collect(),
            groups: groups(threads),
            in_short: if threads.feed.is_some() { Vec::new() } else { by_lead(threads) },
        }),
        ..Card::default()
    }
}

/// Whether a lead is a part of an inch: 127 is a factor of no other.
fn in_inches(lead: Lead) -> bool {
    lead.is_exact() && lead.factor().numer().checked_rem(127) == Some(0)
}

/// Each lead once, as a lathe's own plate has it.
fn by_lead(threads: &Threads) -> Vec<TableRow> {
    let mut seen: Vec<Lead> = Vec::new();
    let mut rows = Vec::new();
    for (row, turn) in threads.shown() {
        if seen.contains(&row.lead) {
            continue;
        }
        seen.push(row.lead);
        let tpi = INCH.div(row.lead.factor()).ok();
        let name = match tpi.filter(|_| in_inches(row.lead)) {
            Some(tpi) => format!("{} tpi", show::exact(tpi)),
            None => row.lead.to_string(),
        };
        // Threads of one lead share a train, but each has a tolerance of its own.
        let note = off(row).unwrap_or_else(|| word(row.standing).to_owned());
        rows.push(TableRow { name, note, ..thread_row(threads, row, turn) });
    }
    rows
}

/// The series, where the rows stand in their order.
fn groups(threads: &Threads) -> Vec<(String, usize)> {
    let mut groups: Vec<(String, usize)> = Vec::new();
    if threads.feed.is_some() || !threads.in_series {
        return groups;
    }
    for (row, _) in threads.shown() {
        let series = row.thread.series;
        let title = match series.standard() {
            "" => "your own".to_owned(),
            standard => format!("{}, {standard}", series.name()),
        };
        match groups.last_mut().filter(|(last, _)| *last == title) {
            Some((_, rows)) => *rows = rows.saturating_add(1),
            None => groups.push((title, 1)),
        }
    }
    groups
}

/// Each lead once, at its best.
fn points(rows: &[Row]) -> Vec<LeadPoint> {
    let mut points: Vec<LeadPoint> = Vec::new();
    for row in rows {
        let lead_mm = row.lead.to_f64();
        let point = LeadPoint { lead_mm, off: row.error(), tone: tone(row.standing) };
        // Threads of one lead share a train; the one that it serves best is drawn.
        match points.iter_mut().find(|other| other.lead_mm.total_cmp(&lead_mm).is_eq()) {
            Some(other) if rank(point.tone) < rank(other.tone) => *other = point,
            Some(_) => {}
            None => points.push(point),
        }
    }
    points
}

const fn rank(tone: Option<Tone>) -> u8 {
    match tone {
        Some(Tone::Good) => 0,
        Some(Tone::Note) => 1,
        None => 2,
        Some(Tone::Mind) => 3,
    }
}

fn gears(lathe: &Lathe, train: &Train) -> String {
    let pairs = train.pairs().iter();
    let pairs: Vec<String> = pairs.map(|pair| format!("{}/{}", pair.driver, pair.driven)).collect();
    let mut text = pairs.join(" · ");
    if lathe.gearbox.len() > 1 {
        let (ratio, how) = lathe.position(train);
        text.push_str(", ");
        text.push_str(&how.map_or_else(|| format!("gearbox at {ratio}"), ToOwned::to_owned));
    }
    text
}

/// How far a lead is off that isn't exact.
fn off(row: &Row) -> Option<String> {
    let error = row.error().filter(|_| row.standing != Standing::Exact)?;
    Some(format!("{} mm off in {OVER}", show::float_trimmed(error * f64::from(OVER), 3)))
}

fn thread_row(threads: &Threads, row: &Row, turn: Option<&Turn>) -> TableRow {
    let train = turn.map(|turn| &turn.train).or(row.train.as_ref());
    let mut note = word(row.standing).to_owned();
    if let Some(off) = off(row) {
        note.push_str(", ");
        note.push_str(&off);
    }
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
    TableRow {
        name: name(row, threads.feed),
        setting: train.map_or_else(String::new, |train| gears(&threads.lathe, train)),
        note,
        tone: tone(row.standing),
    }
}

fn of_divisions(rows: &[Divided]) -> Card {
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
    let row = |row: &Divided| {
        let (setting, note, tone) = match &row.way {
            Some(way) if way.exact => (short(&way.setting), "exact".to_owned(), Tone::Good),
            Some(way) => {
                let off = format!("{} off at worst", show::arc(way.worst_arcsec()));
                (short(&way.setting), off, Tone::Note)
            }
            None => (String::new(), "too few positions".to_owned(), Tone::Mind),
        };
        TableRow { name: row.into.to_string(), setting, note, tone: Some(tone) }
    };
    Card {
        lines: Vec::from([line(&format!("*{exact}* of *{}* exactly", rows.len()))]),
        verdict: Some(match cannot {
            0 => (Tone::Good, "every number".to_owned()),
            n => (Tone::Note, format!("{n} can't be divided exactly")),
        }),
        facts: facts.collect(),
        table: Some(Table {
            heads: ["divisions", "a move"],
            rows: rows.iter().map(row).collect(),
            ..Table::default()
        }),
        ..Card::default()
    }
}

fn of_gears(gears: &Gears) -> Card {
    let spared = &gears.spared;
    let all: usize = gears.used.iter().map(|(_, owned, _)| usize::from(*owned)).sum();
    let together = spared.together.len();
    let verdict = match (gears.finished, together) {
        (false, _) => None,
        (_, 0) => Some((Tone::Good, "each is needed for some thread".to_owned())),
        _ => Some((Tone::Note, "without them no thread is cut any worse".to_owned())),
    };
    let mut facts = Vec::new();
    if together > 0 {
        let sizes: Vec<String> = spared.together.iter().map(ToString::to_string).collect();
        facts.push(Fact::new("could all go at once", sizes.join(", ")));
    }
    facts.push(Fact::new("leads judged by", show::count(gears.leads as u64)));
    let row = |(at, (teeth, owned, used)): (usize, &(u16, u8, u32))| {
        let spare = spared.each.contains(teeth);
        let name = match owned {
            1 => teeth.to_string(),
            n => format!("{teeth}, {n} of them"),
        };
        let leads = match used {
            1 => "1 lead".to_owned(),
            n => format!("{n} leads"),
        };
        let (note, tone) = match (at < gears.tried, spare) {
            (false, _) => ("not tried yet", None),
            (_, true) => ("one could be spared", Some(Tone::Note)),
            (_, false) => ("needed", Some(Tone::Good)),
        };
        TableRow { name, setting: leads, note: note.to_owned(), tone }
    };
    Card {
        lines: Vec::from([line(&format!("*{together}* of *{all}* gears never needed"))]),
        verdict,
        facts,
        table: Some(Table {
            heads: ["teeth", "in the best trains of"],
            rows: gears.used.iter().enumerate().map(row).collect(),
            ..Table::default()
        }),
        ..Card::default()
    }
}
