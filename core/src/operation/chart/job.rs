//! A chart under way: what is done of it stands at once.

use super::super::circle::{kit, wanted};
use super::super::long::{Long, Progress};
use super::super::{Answer, Found, Lacking};
use super::answer::{ChartFound, Gears, Rows, Threads, divisions_why, gears_why, threads_why};
use crate::chart::{
    By, Changes, Chart, Divisions, FEED_OFF, Judged, Lathe, NoLathe, Only, Row, Spare, all_and,
    feeds, sorted,
};
use crate::dividing::DividingError;
use crate::exact::Ratio;
use crate::gearing::Pair;
use crate::record::{Record, Value};
use crate::shop::Shop;
use crate::threads::{Designation, Lead, parse};
use alloc::borrow::ToOwned;
use alloc::boxed::Box;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

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

/// The chart that is asked for, none of it worked yet.
pub(in super::super) fn begin(entries: &Record, shop: &Shop) -> Result<Box<dyn Long>, Answer> {
    let of = entries.choice("of").unwrap_or("threads");
    if of == "divisions" {
        return divisions(shop);
    }
    let own = threads(entries.list("also"), "also").map_err(Answer::refused)?;
    let no_rows = |why: NoLathe| without(&why, "rows");
    let lathe = Lathe::of(shop, false).map_err(no_rows)?;
    let inch = shop.leadscrew().is_some_and(|lead| lead.unit().is_inch());
    let rows = match of {
        "feeds" => [feeds(inch), own].concat(),
        _ => all_and(&own),
    };
    if of == "gears" {
        return gears(lathe, &rows).map_err(no_rows);
    }
    let feed = (of == "feeds").then_some(inch);
    let within = entries.ratio("within").and_then(|by| by.div(Ratio::whole(OVER)).ok());
    let judged = Judged {
        engaged: entries.ratio("engaged"),
        otherwise: within.or(feed.is_some().then_some(FEED_OFF)),
    };
    let only = match entries.choice("only") {
        Some("exact") => Only::Exact,
        Some("within") => Only::Within,
        Some("cannot") => Only::Cannot,
        _ => Only::All,
    };
    let by_changes = entries.choice("order") == Some("changes");
    let changes = by_changes.then(|| Changes::new(only, &pairs(&entries.counts("now"))));
    Ok(Box::new(OfThreads {
        chart: Chart::new(lathe, &rows, judged).map_err(no_rows)?,
        only,
        by: match entries.choice("order") {
            Some("lead") => By::Lead,
            Some("error") => By::Error,
            Some("share") => By::Share,
            _ => By::Standard,
        },
        changes,
        feed,
        charted: false,
        finished: false,
        failed: None,
    }))
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

/// Takes a piece of work further; what goes wrong ends it.
fn taken<E>(step: Result<Progress, E>, failed: &mut Option<E>) -> Progress {
    step.unwrap_or_else(|why| {
        *failed = Some(why);
        Progress { done: 1, of: 1 }
    })
}

/// The first half or the second of two pieces of work, each in thousandths.
fn half(progress: Progress, before: u64) -> Progress {
    let parts = progress.done.saturating_mul(1000).checked_div(progress.of).unwrap_or(1000);
    Progress { done: before.saturating_mul(1000).saturating_add(parts.min(1000)), of: 2000 }
}

/// Threads or feeds.
struct OfThreads {
    chart: Chart,
    only: Only,
    by: By,
    /// Where the rows follow each other by what is changed.
    changes: Option<Changes>,
    /// Whether the rows are feeds, and then whether in inches.
    feed: Option<bool>,
    /// Whether every row is known.
    charted: bool,
    finished: bool,
    failed: Option<NoLathe>,
}

impl Long for OfThreads {
    fn go_on(&mut self) -> Progress {
        let progress = match &mut self.changes {
            Some(changes) if self.charted => {
                half(taken(changes.step(&self.chart), &mut self.failed), 1)
            }
            _ => {
                let progress = taken(self.chart.step(1), &mut self.failed);
                self.charted = progress.finished() && self.failed.is_none();
                match (&self.failed, &self.changes) {
                    (None, Some(_)) => half(progress, 0),
                    _ => progress,
                }
            }
        };
        self.finished = progress.finished();
        progress
    }

    fn so_far(&self) -> Answer {
        if let Some(why) = &self.failed {
            return without(why, "rows");
        }
        let mut shown = sorted(self.chart.rows(), self.only, self.by);
        let mut turns = Vec::new();
        if let (true, Some(changes)) = (self.finished, &self.changes) {
            turns = changes.turns().to_vec();
            // What no train cuts comes after what is cut.
            let uncut = |row: &Row| row.train.is_none();
            shown.retain(|place| self.chart.rows().get(*place).is_some_and(uncut));
        }
        let rows = Rows::Threads(Box::new(Threads {
            lathe: self.chart.lathe().clone(),
            rows: self.chart.rows().to_vec(),
            leads: self.chart.leads(),
            complete: self.chart.complete(),
            shown,
            in_series: self.by == By::Standard && self.changes.is_none(),
            turns,
            feed: self.feed,
        }));
        answer(rows, threads_why(&self.chart), self.chart.complete())
    }
}

/// Divisions.
struct OfDivisions {
    chart: Divisions,
    failed: Option<DividingError>,
}

fn divisions(shop: &Shop) -> Result<Box<dyn Long>, Answer> {
    let (from, to) = DIVISIONS;
    match Divisions::new(kit(shop), from, to) {
        Ok(chart) => Ok(Box::new(OfDivisions { chart, failed: None })),
        Err(DividingError::NothingOwned) => Err(Answer {
            lacking: Vec::from([Lacking { key: "rows", needs: wanted(shop) }]),
            ..Answer::refused("nothing in the shop divides a circle yet")
        }),
        Err(why) => Err(Answer::refused(why.to_string())),
    }
}

impl Long for OfDivisions {
    fn go_on(&mut self) -> Progress {
        taken(self.chart.step(1), &mut self.failed)
    }

    fn so_far(&self) -> Answer {
        if let Some(why) = &self.failed {
            return Answer::refused(why.to_string());
        }
        let rows = Rows::Divisions(self.chart.rows().to_vec());
        Answer { found: Some(found(rows)), why: divisions_why(DIVISIONS), ..Answer::default() }
    }
}

/// The gears themselves.
struct OfGears {
    search: Spare,
    finished: bool,
    failed: Option<NoLathe>,
}

fn gears(lathe: Lathe, threads: &[Designation]) -> Result<Box<dyn Long>, NoLathe> {
    let mut leads: Vec<Lead> = Vec::new();
    for thread in threads {
        let lead = thread.lead().map_err(|why| NoLathe::Because(why.to_string()))?;
        if !leads.contains(&lead) {
            leads.push(lead);
        }
    }
    let search = Spare::new(lathe, &leads)?;
    Ok(Box::new(OfGears { search, finished: false, failed: None }))
}

impl Long for OfGears {
    fn go_on(&mut self) -> Progress {
        let progress = taken(self.search.step(1), &mut self.failed);
        self.finished = progress.finished();
        progress
    }

    fn so_far(&self) -> Answer {
        if let Some(why) = &self.failed {
            return without(why, "rows");
        }
        let rows = Rows::Gears(Gears {
            used: self.search.used().collect(),
            spared: self.search.found().clone(),
            leads: self.search.leads(),
            tried: self.search.tried(),
            finished: self.finished,
        });
        answer(rows, gears_why(&self.search), true)
    }
}

fn found(rows: Rows) -> Found {
    Found::Chart(Box::new(ChartFound { rows }))
}

fn answer(rows: Rows, why: Vec<super::super::Why>, complete: bool) -> Answer {
    let mut cautions = Vec::from([
        "Change gears with the spindle stopped and the supply isolated; guard on again before anything turns. The machine's maker and the rules of the place come first.",
    ]);
    if !complete {
        cautions.push("So many gears and so tight a banjo: some trains were not looked at.");
    }
    Answer { found: Some(found(rows)), cautions, why, ..Answer::default() }
}
