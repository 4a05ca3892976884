//! The gears that serve the most of what is wanted, searched for to the end.

use super::super::chart::{threads, without};
use super::super::circle::{kit, wanted};
use super::super::long::{Long, Progress};
use super::super::{Answer, Card, Found, Lacking, Step, Why, Worked};
use super::{card, json};
use crate::chart::{Advice, Allowed, Circles, Lathe, More, NoLathe, Wants};
use crate::dividing::DividingError;
use crate::exact::Ratio;
use crate::quantity::show;
use crate::record::{Node, Record};
use crate::shop::Shop;
use crate::threads::standard;
use alloc::boxed::Box;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// How many of the best sets are listed.
const LISTED: usize = 1_000;
/// The sizes that are tried where no others are named. Common practice, no source.
const SIZES: (u32, u32) = (20, 127);
/// What an error is told over, mm.
const OVER: i64 = 300;
/// Looks at a time, each some ten nanoseconds: well below a millisecond.
const SLICE: u64 = 1 << 15;

/// What more gears, or circles, would do.
#[derive(Clone, Debug)]
pub struct MoreGears {
    pub(super) found: More,
    /// What each thing wanted is called.
    pub(super) names: Vec<String>,
    pub(super) add: u8,
    /// The sizes tried: least, most, how many.
    pub(super) sizes: (u16, u16, usize),
    pub(super) circles: bool,
    /// Whether near is good enough.
    pub(super) near: bool,
}

/// The search that is asked for, none of it done yet.
pub(in super::super) fn begin(entries: &Record, shop: &Shop) -> Result<Box<dyn Long>, Answer> {
    let listed = threads(entries.list("want"), "want").map_err(Answer::refused)?;
    let circles = entries.choice("what") == Some("circles");
    let mut wants = Wants { threads: listed, divisions: entries.counts("divisions") };
    if wants.threads.is_empty() && wants.divisions.is_empty() {
        // Nothing in particular: as much of everything as can be had.
        match circles {
            true => wants.divisions = (2..=400).collect(),
            false => wants.threads = standard(),
        }
    }
    let sizes = sizes(entries, circles).map_err(Answer::refused)?;
    let add = entries.count("add").and_then(|n| u8::try_from(n).ok()).unwrap_or(1);
    let within = entries.ratio("within");
    let allowed = Allowed {
        otherwise: within.and_then(|by| by.div(Ratio::whole(OVER)).ok()),
        engaged: entries.ratio("engaged"),
    };
    let search = match circles {
        true => Circles::new(&kit(shop), &wants.divisions, &sizes, add)
            .map(|search| Search::Circles(Box::new(search)))
            .map_err(Without::from),
        false => of_gears(shop, &wants, allowed, &sizes, add),
    };
    let search = search.map_err(|why| match why {
        Without::Lathe(why) => without(&why, "best"),
        Without::Dividing => Answer {
            lacking: Vec::from([Lacking { key: "best", needs: wanted(shop) }]),
            ..Answer::refused("there is no dividing head in the shop")
        },
    })?;
    let names = wants.threads.iter().filter(|_| !circles).map(ToString::to_string);
    let names = names.chain(wants.divisions.iter().map(|into| format!("{into} divisions")));
    let ends = (sizes.first().copied().unwrap_or(0), sizes.last().copied().unwrap_or(0));
    Ok(Box::new(Job {
        search,
        names: names.collect(),
        add,
        sizes: (ends.0, ends.1, sizes.len()),
        near: within.is_some(),
        finished: false,
    }))
}

/// The search under way.
struct Job {
    search: Search,
    names: Vec<String>,
    add: u8,
    sizes: (u16, u16, usize),
    near: bool,
    finished: bool,
}

enum Search {
    Gears(Box<Advice>),
    Circles(Box<Circles>),
}

impl Long for Job {
    fn go_on(&mut self) -> Progress {
        let progress = match &mut self.search {
            Search::Gears(search) => search.step(SLICE),
            Search::Circles(search) => search.step(1),
        };
        self.finished = progress.finished();
        progress
    }

    fn so_far(&self) -> Answer {
        if !self.finished {
            // Which set is best isn't known before all are tried.
            return Answer::default();
        }
        let more = MoreGears {
            names: self.names.clone(),
            add: self.add,
            sizes: self.sizes,
            circles: matches!(self.search, Search::Circles(_)),
            near: self.near,
            found: match &self.search {
                Search::Gears(search) => search.found(LISTED),
                Search::Circles(search) => search.found(LISTED),
            },
        };
        Answer {
            why: more.why(),
            cautions: more.cautions(),
            found: Some(Found::MoreGears(Box::new(more))),
            ..Answer::default()
        }
    }
}

/// What there is to choose from.
fn sizes(entries: &Record, circles: bool) -> Result<Vec<u16>, String> {
    let shelf = entries.counts("shelf");
    if !shelf.is_empty() {
        return Ok(crate::shop::teeth(&shelf));
    }
    let (least, most) = match entries.counts("from").as_slice() {
        [least, most] => (*least, *most),
        _ if circles => (15, 49),
        _ => SIZES,
    };
    if least > most {
        return Err(format!("from {least} to {most} runs backwards"));
    }
    Ok((least..=most).filter_map(|teeth| u16::try_from(teeth).ok()).collect())
}

enum Without {
    Lathe(NoLathe),
    Dividing,
}

impl From<NoLathe> for Without {
    fn from(why: NoLathe) -> Without {
        Without::Lathe(why)
    }
}

impl From<DividingError> for Without {
    fn from(why: DividingError) -> Without {
        match why {
            DividingError::NothingOwned => Without::Dividing,
            why => Without::Lathe(NoLathe::Because(why.to_string())),
        }
    }
}

fn of_gears(
    shop: &Shop,
    wants: &Wants,
    allowed: Allowed,
    sizes: &[u16],
    add: u8,
) -> Result<Search, Without> {
    let lathe = match wants.threads.is_empty() {
        true => None,
        false => Some(Lathe::of(shop, true)?),
    };
    let kit = kit(shop);
    if kit.head.is_none() && !wants.divisions.is_empty() {
        return Err(Without::Dividing);
    }
    let advice = Advice::new(lathe.as_ref(), Some(&kit), wants, allowed, sizes, add)?;
    Ok(Search::Gears(Box::new(advice)))
}

impl MoreGears {
    fn why(&self) -> Vec<Why> {
        let n = self.sizes.2;
        let formula = match self.add {
            1 => "sets = n",
            2 => "sets = n·(n + 1)/2",
            _ => "sets = n·(n + 1)·(n + 2)/6",
        };
        let tried = show::count(self.found.tried);
        Vec::from([Why::new(
            formula,
            format!("n = {n} sizes: {tried} sets, each judged by everything that is wanted"),
            "arithmetic; the search leaves nothing out",
        )])
    }

    fn cautions(&self) -> Vec<&'static str> {
        let mut cautions = Vec::from([match self.circles {
            false => {
                "Before you buy or cut one: module, pressure angle, bore and width as those that you have."
            }
            true => "Before you buy or drill one: the bore, and the reach of the crank's pin.",
        }]);
        if !self.found.complete {
            cautions.push("So many gears on the head: some ways were not looked at.");
        }
        cautions
    }
}

impl Worked for MoreGears {
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
