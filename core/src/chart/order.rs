//! The rows in another order: by lead, by error, or by how few gears change from one to the next.

use super::lathe::NoLathe;
use super::row::{Row, Standing};
use super::threads::Chart;
use crate::exact::RatioError;
use crate::gearing::more::Progress;
use crate::gearing::{Pair, Train, sort};
use crate::threads::Lead;
use alloc::string::ToString;
use alloc::vec::Vec;

/// What the rows are put in order by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// Series by series, each by size.
    Standard,
    /// The finest lead first.
    Lead,
    /// The least error first; what can't be cut last.
    Error,
    /// The least share of the tolerance first; what has none, and what can't be cut, last.
    Share,
}

/// Which rows are wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Only {
    /// All.
    All,
    /// Those that are cut exactly.
    Exact,
    /// Those that are cut exactly or within their usual class.
    Within,
    /// Those that can't be cut.
    Cannot,
}

impl Only {
    /// Whether a row is wanted.
    #[must_use]
    pub const fn wants(self, row: &Row) -> bool {
        match self {
            Only::All => true,
            Only::Exact => matches!(row.standing, Standing::Exact),
            Only::Within => matches!(row.standing, Standing::Exact | Standing::Within),
            Only::Cannot => row.standing.cannot(),
        }
    }
}

/// The places of the rows wanted, in order; rows that are alike keep the order of the standards.
#[must_use]
pub fn sorted(rows: &[Row], only: Only, by: By) -> Vec<usize> {
    // What is measured is never negative, so its bits stand in its order; the lowest twelve make
    // room for the row's place. Rows within a part in 10¹² are alike.
    const PLACE: u64 = 0xfff;
    let mut keys: Vec<u64> = Vec::new();
    for (place, row) in rows.iter().enumerate().filter(|(_, row)| only.wants(row)) {
        let size = match by {
            By::Standard => 0.0,
            By::Lead => row.lead.to_f64(),
            By::Error => row.error().unwrap_or(f64::INFINITY),
            By::Share => row.share.unwrap_or(f64::INFINITY),
        };
        keys.push((size.to_bits() & !PLACE) | (place as u64 & PLACE));
    }
    sort(&mut keys);
    keys.into_iter().map(|key| (key & PLACE) as usize).collect()
}

/// A row in its turn, with the train that it is to be cut with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Turn {
    /// The row's place in the chart.
    pub row: usize,
    /// Its train: the row's own, or one that is as good and has as few pairs.
    pub train: Train,
    /// How many gears are put on for it.
    pub changed: u8,
    /// Whether the gearbox's lever is moved for it.
    pub lever: bool,
}

/// How many gears must be put on to come from one train to another: the places on the spindle,
/// the studs and the leadscrew where the second has another gear than the first.
#[must_use]
pub fn changed(from: &[Pair], to: &[Pair]) -> u8 {
    let place = |pairs: &[Pair], at: usize, count: usize| {
        // The last driven gear is the leadscrew's, however many pairs there are.
        let (first, last) = (pairs.first(), pairs.last());
        match at {
            0 => first.map(|pair| pair.driver),
            1 => last.map(|pair| pair.driven),
            _ => {
                let stud = at.saturating_sub(2) >> 1;
                let driven = at & 1 == 0;
                let pair = pairs.get(if driven { stud } else { stud.saturating_add(1) });
                let here = stud.saturating_add(1) < count;
                pair.filter(|_| here).map(|pair| if driven { pair.driven } else { pair.driver })
            }
        }
    };
    let gears = to.len().saturating_mul(2);
    let differ = |at: &usize| {
        let new = place(to, *at, to.len());
        new.is_some() && new != place(from, *at, from.len())
    };
    u8::try_from((0..gears).filter(differ).count()).unwrap_or(u8::MAX)
}

/// The rows wanted that can be cut, lead by lead, each after the one from which the fewest gears
/// change, what is on the banjo being known or not. Where a row has several trains as good as its best,
/// with as few pairs, the one is taken for which least changes.
///
/// Each step is the least from where one stands; that the sum is the least of all orders isn't
/// promised.
#[derive(Clone, Debug)]
pub struct Changes {
    only: Only,
    on: Vec<Pair>,
    lever: Option<usize>,
    /// The rows looked at.
    seen: usize,
    left: Vec<OneLead>,
    turns: Vec<Turn>,
}

impl Changes {
    /// None of it worked yet; `now` is what is on the banjo.
    #[must_use]
    pub fn new(only: Only, now: &[Pair]) -> Changes {
        let (left, turns) = (Vec::new(), Vec::new());
        Changes { only, on: now.to_vec(), lever: None, seen: 0, left, turns }
    }

    /// Goes on with a finished chart: by a row while their trains are looked up, then by a lead.
    ///
    /// # Errors
    ///
    /// As [`Chart::step`].
    pub fn step(&mut self, chart: &Chart) -> Result<Progress, NoLathe> {
        if self.seen < chart.rows().len() {
            self.look_up(chart)?;
        } else {
            self.turn();
        }
        let rows = chart.rows().len() as u64;
        let (seen, left) = (self.seen as u64, self.left.len() as u64);
        // Not finished while a lead is left.
        let of = rows.saturating_add(left);
        Ok(Progress { done: seen, of })
    }

    /// The rows in their order, so far.
    #[must_use]
    pub fn turns(&self) -> &[Turn] {
        &self.turns
    }

    fn look_up(&mut self, chart: &Chart) -> Result<(), NoLathe> {
        let at = self.seen;
        self.seen = at.saturating_add(1);
        let row = chart.rows().get(at).filter(|row| self.only.wants(row));
        let Some((row, best)) = row.and_then(|row| Some((row, row.train?))) else { return Ok(()) };
        match self.left.iter_mut().find(|of| of.lead == row.lead) {
            Some(of) => of.rows.push(at),
            None => self.left.push(OneLead::new(chart, row.lead, &best, at)?),
        }
        Ok(())
    }

    fn turn(&mut self) {
        let mut best: Option<(u32, usize, Train, u8, bool)> = None;
        for (index, of) in self.left.iter().enumerate() {
            for train in &of.trains {
                let changed = changed(&self.on, train.pairs());
                let moved = self.lever.is_some_and(|lever| lever != train.gearbox);
                let cost = u32::from(changed).saturating_mul(2).saturating_add(u32::from(moved));
                if best.as_ref().is_none_or(|(least, ..)| cost < *least) {
                    best = Some((cost, index, *train, changed, moved));
                }
            }
        }
        let Some((_, index, train, changed, lever_moved)) = best else {
            self.left.clear();
            return;
        };
        // For the others of that lead nothing is changed at all.
        for (nth, row) in self.left.remove(index).rows.into_iter().enumerate() {
            let first = nth == 0;
            let changed = if first { changed } else { 0 };
            self.turns.push(Turn { row, train, changed, lever: first && lever_moved });
        }
        self.on = train.pairs().to_vec();
        self.lever = Some(train.gearbox);
    }
}

/// A lead, the trains that are as good as its best, and its rows.
#[derive(Clone, Debug)]
struct OneLead {
    lead: Lead,
    trains: Vec<Train>,
    rows: Vec<usize>,
}

impl OneLead {
    fn new(chart: &Chart, lead: Lead, best: &Train, row: usize) -> Result<OneLead, NoLathe> {
        let because = |why: RatioError| NoLathe::Because(why.to_string());
        let request = chart.lathe().request(lead).map_err(because)?;
        let mut trains = chart.tables().as_good(&request, AS_GOOD)?;
        // On its own side of the lead, as the row says.
        trains.retain(|train| train.error == best.error);
        Ok(OneLead { lead, trains, rows: Vec::from([row]) })
    }
}

/// How many trains as good as the best are weighed for each lead.
const AS_GOOD: usize = 24;
