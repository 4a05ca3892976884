//! The chart itself: every thread with its best train, worked a slice at a time.

use super::lathe::{Lathe, NoLathe};
use super::row::{Judged, Row};
use crate::gearing::Tables;
use crate::gearing::more::Progress;
use crate::threads::{Designation, Lead, standard};
use alloc::string::ToString;
use alloc::vec::Vec;

/// The most rows that a chart has.
pub const ROWS_MOST: usize = 4_000;

/// A chart under way: the rows appear from the top.
#[derive(Clone, Debug)]
pub struct Chart {
    lathe: Lathe,
    tables: Tables,
    /// Each with the place of its lead.
    threads: Vec<(Designation, usize)>,
    leads: Vec<Lead>,
    /// The leads that have been worked: so many rows stand.
    worked: usize,
    rows: Vec<Row>,
    trains: Vec<Option<crate::gearing::Train>>,
    judged: Judged,
    complete: bool,
}

impl Chart {
    /// The chart of these threads, none of it worked yet.
    ///
    /// # Errors
    ///
    /// [`NoLathe`] where the lathe has too few gears, or a number is too large; or there are more than
    /// [`ROWS_MOST`] threads.
    pub fn new(lathe: Lathe, threads: &[Designation], judged: Judged) -> Result<Chart, NoLathe> {
        if threads.len() > ROWS_MOST {
            return Err(NoLathe::Because(alloc::format!(
                "{} threads are more than the {ROWS_MOST} that a chart has",
                threads.len()
            )));
        }
        let tables = Tables::new(&lathe.drawer, lathe.pairs_max)?;
        let mut leads: Vec<Lead> = Vec::new();
        let mut placed = Vec::with_capacity(threads.len());
        for thread in threads {
            let lead = thread.lead().map_err(|why| NoLathe::Because(why.to_string()))?;
            let place = leads.iter().position(|other| *other == lead).unwrap_or_else(|| {
                leads.push(lead);
                leads.len().saturating_sub(1)
            });
            placed.push((*thread, place));
        }
        Ok(Chart {
            lathe,
            tables,
            threads: placed,
            leads,
            worked: 0,
            rows: Vec::new(),
            trains: Vec::new(),
            judged,
            complete: true,
        })
    }

    /// Works so many more leads.
    ///
    /// # Errors
    ///
    /// As [`Tables::best_mountable`].
    pub fn step(&mut self, leads: usize) -> Result<Progress, NoLathe> {
        for _ in 0..leads {
            let Some(&lead) = self.leads.get(self.worked) else { break };
            let request =
                self.lathe.request(lead).map_err(|why| NoLathe::Because(why.to_string()))?;
            let (train, complete) = self.tables.best_mountable(&request)?;
            self.complete &= complete;
            self.trains.push(train);
            self.worked = self.worked.saturating_add(1);
        }
        // Every thread from the top whose lead is known.
        while let Some(&(thread, place)) = self.threads.get(self.rows.len()) {
            let (Some(&train), Some(&lead)) = (self.trains.get(place), self.leads.get(place))
            else {
                break;
            };
            let exact = train.is_some_and(|t| t.exact()) && self.lathe.may_be_exact(lead);
            self.rows.push(Row::new(thread, lead, train, exact, self.judged));
        }
        Ok(Progress { done: self.worked as u64, of: self.leads.len() as u64 })
    }

    /// The rows so far, in the order of the threads given.
    #[must_use]
    pub fn rows(&self) -> &[Row] {
        &self.rows
    }

    /// The lathe that it is of.
    #[must_use]
    pub fn lathe(&self) -> &Lathe {
        &self.lathe
    }

    /// How many different leads there are.
    #[must_use]
    pub fn leads(&self) -> usize {
        self.leads.len()
    }

    /// Whether nothing was left out of any search.
    #[must_use]
    pub fn complete(&self) -> bool {
        self.complete
    }

    /// The gears ready for searching.
    pub(super) fn tables(&self) -> &Tables {
        &self.tables
    }
}

/// Every standard thread, and whatever else is wanted after them.
#[must_use]
pub fn all_and(own: &[Designation]) -> Vec<Designation> {
    let mut threads = standard();
    threads.extend(own.iter().filter(|own| !threads.contains(own)).copied().collect::<Vec<_>>());
    threads
}
