//! The search for the best gears to add, a slice at a time.

use super::super::GearingError;
use super::across;
use super::bench::{Bench, Fresh, Marking, Place};
use super::log::Logs;
use super::sets::{self, Marks};
use super::wish::{Aim, Group, aims};
use super::{Added, More, SETS_MOST};
use alloc::vec::Vec;

/// How far a job has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Progress {
    /// Done so far.
    pub done: u64,
    /// Of so much.
    pub of: u64,
}

impl Progress {
    /// Whether all is done.
    #[must_use]
    pub const fn finished(self) -> bool {
        self.done >= self.of
    }
}

/// What is to be found out: which so many gears, added to the drawers, serve the most wishes.
#[derive(Clone, Debug)]
pub struct Question {
    /// The drawers. A gear that is added is added to each.
    pub groups: Vec<Group>,
    /// The sizes that may be added, any of them more than once.
    pub sizes: Vec<u16>,
    /// How many: one, two or three.
    pub add: u8,
}

/// A wish and what is known of it.
#[derive(Clone, Debug)]
struct Wanted {
    group: usize,
    aims: Vec<Aim>,
    weight: u32,
    /// It is served by what is owned.
    before: bool,
    /// The single gears that serve it.
    alone: Marks,
    /// The sets of as many gears as may be added that serve it.
    served: Marks,
}

/// Where the search stands.
#[derive(Clone, Copy, Debug, Default)]
struct Cursor {
    wish: usize,
    /// Whether the wish has been begun.
    begun: bool,
    level: u8,
    way: usize,
    aim: usize,
    place: Place,
}

/// A search under way.
#[derive(Clone, Debug)]
pub struct Search {
    logs: Logs,
    fresh: Fresh,
    benches: Vec<Bench>,
    wanted: Vec<Wanted>,
    add: u8,
    /// How many ways have been laid out, over all benches.
    laid: usize,
    /// Where in the shelf being laid out.
    first: usize,
    at: Cursor,
    /// Whether the wish in hand is served by what is owned, then which single gears, which twos
    /// and which threes serve it.
    before: bool,
    marks: [Marks; 3],
    counts: Vec<u32>,
    done: u64,
    of: u64,
}

/// Laying out counts as so many looks.
const LAYING: u64 = 100_000;

impl Marking for Marks {
    fn known(&self, set: u32) -> bool {
        self.has(set)
    }

    fn put(&mut self, set: u32) {
        Marks::put(self, set);
    }
}

impl Marking for bool {
    fn known(&self, _: u32) -> bool {
        *self
    }

    fn put(&mut self, _: u32) {
        *self = true;
    }
}

impl Search {
    /// A search, nothing of it done yet.
    ///
    /// # Errors
    ///
    /// [`GearingError::ToAdd`] unless one, two or three gears are to be added; [`GearingError::NoTeeth`] and
    /// [`GearingError::TooManyTeeth`] for sizes that are no gears; [`GearingError::TooManySets`]
    /// where there are more sets of them than are tried; what a mounting, a ratio or a number of pairs
    /// has against it.
    pub fn new(question: &Question) -> Result<Search, GearingError> {
        let add = question.add;
        if !(1..=3).contains(&add) {
            return Err(GearingError::ToAdd(add));
        }
        let sizes = sizes(&question.sizes)?;
        let count = sets::count(sizes.len() as u32, add);
        if count > SETS_MOST {
            return Err(GearingError::TooManySets(sizes.len(), add));
        }
        let logs = Logs::new();
        let fresh = Fresh::new(&sizes, &logs);
        let mut search = Search {
            benches: Vec::new(),
            wanted: Vec::new(),
            add,
            laid: 0,
            first: 0,
            at: Cursor::default(),
            before: false,
            marks: Default::default(),
            counts: alloc::vec![0; count as usize],
            done: 0,
            of: 1,
            fresh,
            logs,
        };
        for (group, of) in question.groups.iter().enumerate() {
            let bench = Bench::new(of, add, &search.fresh, &search.logs)?;
            search.of = search.of.saturating_add(LAYING.saturating_mul(bench.ways.len() as u64));
            for wish in &of.wishes {
                let aims = aims(wish, &search.logs, &bench.strange)?;
                let wanted = Wanted {
                    group,
                    aims,
                    weight: wish.weight,
                    before: false,
                    alone: Marks::default(),
                    served: Marks::default(),
                };
                search.of = search.of.saturating_add(looks(&bench, &wanted, &search.fresh, 0));
                search.wanted.push(wanted);
            }
            search.benches.push(bench);
        }
        Ok(search)
    }

    /// Goes on for so many looks, each a good ten nanoseconds, or a little longer.
    pub fn step(&mut self, budget: u64) -> Progress {
        let mut left = budget.max(1);
        while left > 0 && self.done < self.of {
            if !self.lay_out(&mut left) {
                self.go_on(&mut left);
            }
        }
        Progress { done: self.done, of: self.of }
    }

    /// Lays out a piece of the next way, if there is one left.
    fn lay_out(&mut self, left: &mut u64) -> bool {
        let mut at = self.laid;
        for bench in &mut self.benches {
            if let Some(way) = bench.ways.get(at).copied() {
                if bench.lay_out(&way, &mut self.fresh, &mut self.first) {
                    self.laid = self.laid.saturating_add(1);
                    self.done = self.done.saturating_add(LAYING);
                }
                *left = left.saturating_sub(LAYING / 4);
                return true;
            }
            at = at.saturating_sub(bench.ways.len());
        }
        false
    }

    fn go_on(&mut self, left: &mut u64) {
        let Some(wanted) = self.wanted.get(self.at.wish) else {
            self.done = self.of;
            return;
        };
        let Some(bench) = self.benches.get(wanted.group) else {
            self.done = self.of;
            return;
        };
        if !self.at.begun {
            self.begin(left);
            return;
        }
        let Some(way) = bench.ways.get(self.at.way) else {
            self.end();
            return;
        };
        if way.level > self.at.level {
            let level = way.level;
            self.rise(level);
            return;
        }
        let Some(aim) = wanted.aims.get(self.at.aim) else {
            self.at.aim = 0;
            self.at.way = self.at.way.saturating_add(1);
            return;
        };
        let [one, two, three] = &mut self.marks;
        let marks: &mut dyn Marking = match way.level {
            0 => &mut self.before,
            1 => one,
            2 => two,
            _ => three,
        };
        if bench.look(way, &self.fresh, aim, &mut self.at.place, left, marks) {
            let both = way.both && !self.at.place.upside_down;
            self.at.place = Place { upside_down: both, outer: 0 };
            if !both {
                self.at.aim = self.at.aim.saturating_add(1);
                self.done = self.done.saturating_add(bench.looks(way, &self.fresh));
            }
        }
        if self.before {
            // It needs nothing more.
            self.end();
        }
    }

    /// On to so many new gears: what serves with fewer serves with more.
    fn rise(&mut self, level: u8) {
        let sizes = self.fresh.stock.teeth.len() as u16;
        let [one, two, three] = &mut self.marks;
        if self.at.level < 2 && level >= 2 {
            two.inherit(one, sizes, 2);
        }
        if self.at.level < 3 && level >= 3 {
            three.inherit(two, sizes, 3);
        }
        self.at.level = level;
    }

    /// Begins the next wish.
    fn begin(&mut self, left: &mut u64) {
        let sizes = self.fresh.stock.teeth.len() as u32;
        let marks =
            |gears: u8| Marks::new(if gears <= self.add { sets::count(sizes, gears) } else { 0 });
        self.marks = [marks(1), marks(2), marks(3)];
        self.before = false;
        self.at = Cursor { wish: self.at.wish, begun: true, ..Cursor::default() };
        *left = left.saturating_sub(1);
        let Some(wanted) = self.wanted.get(self.at.wish) else { return };
        let Some(bench) = self.benches.get(wanted.group) else { return };
        if !bench.rule.is_banjo() {
            return;
        }
        *left = left.saturating_sub(u64::from(sizes).saturating_mul(sizes.into()));
        let stock = &self.fresh.stock;
        let [one, two, three] = &mut self.marks;
        let before = &mut self.before;
        across::each(&bench.drawer, &stock.teeth, &bench.rule, &self.logs, &wanted.aims, |new| {
            let mut places = [0_u16; 3];
            for (place, teeth) in places.iter_mut().zip(new) {
                *place = stock.teeth.binary_search(teeth).unwrap_or(0) as u16;
            }
            let set = sets::number(places.get(..new.len()).unwrap_or(&[]));
            match new.len() {
                0 => *before = true,
                1 => one.put(set),
                2 => two.put(set),
                _ => three.put(set),
            }
        });
        if self.before {
            self.end();
        }
    }

    /// The wish in hand is done with: counts what serves it.
    fn end(&mut self) {
        if !self.before {
            self.rise(self.add);
        }
        let at = self.at;
        let [one, two, three] = core::mem::take(&mut self.marks);
        let Some(wanted) = self.wanted.get_mut(at.wish) else { return };
        if let Some(bench) = self.benches.get(wanted.group) {
            let all = looks(bench, wanted, &self.fresh, 0);
            let told = looks(bench, wanted, &self.fresh, at.way);
            let aim = bench.ways.get(at.way).map_or(0, |way| bench.looks(way, &self.fresh));
            let told = told.saturating_sub(aim.saturating_mul(at.aim as u64));
            self.done = self.done.saturating_add(told.min(all));
        }
        wanted.before = self.before;
        if !self.before {
            wanted.served = match self.add {
                1 => one.clone(),
                2 => two,
                _ => three,
            };
            wanted.alone = one;
            let weight = wanted.weight;
            wanted.served.each(|set| {
                if let Some(count) = self.counts.get_mut(set) {
                    *count = count.saturating_add(weight);
                }
            });
        }
        self.at = Cursor { wish: at.wish.saturating_add(1), ..Cursor::default() };
        if self.at.wish >= self.wanted.len() {
            self.done = self.of;
        }
    }

    /// What came of it, at most so many of the best sets listed; so far, where it isn't finished.
    #[must_use]
    pub fn found(&self, listed: usize) -> More {
        let most = self.counts.iter().copied().max().unwrap_or(0);
        let ties = self.counts.iter().filter(|&&count| count == most).count();
        let weights = |of: &dyn Fn(&Wanted) -> bool| {
            self.wanted.iter().filter(|wanted| of(wanted)).map(|wanted| wanted.weight).sum()
        };
        let sizes = &self.fresh.stock.teeth;
        let mut best = Vec::new();
        let mut set = 0_u32;
        sets::each(sizes.len() as u16, self.add, |places| {
            let number = set;
            set = set.saturating_add(1);
            if best.len() >= listed || self.counts.get(number as usize) != Some(&most) {
                return;
            }
            let served = |of: &dyn Fn(&Wanted) -> bool| {
                let all = self.wanted.iter().enumerate().filter(|(_, wanted)| of(wanted));
                all.map(|(at, _)| at).collect::<Vec<usize>>()
            };
            let teeth = |place: &u16| sizes.get(usize::from(*place)).copied().unwrap_or(0);
            best.push(Added {
                gears: places.iter().map(teeth).collect(),
                gained: served(&|wanted| wanted.served.has(number)),
                alone: places
                    .iter()
                    .map(|&place| served(&|wanted| wanted.alone.has(place.into())))
                    .collect(),
            });
        });
        More {
            best,
            gained: most,
            of: weights(&|_| true),
            before: weights(&|wanted| wanted.before),
            served: self.wanted.iter().map(|wanted| wanted.before).collect(),
            tried: self.counts.len() as u64,
            ties: ties as u64,
            complete: self.done >= self.of,
        }
    }

    /// How many bytes it holds.
    #[must_use]
    pub fn bytes(&self) -> usize {
        let benches = self.benches.iter().map(Bench::bytes);
        let marks = self.wanted.iter().map(|w| w.alone.bytes().saturating_add(w.served.bytes()));
        let counts = self.counts.len().saturating_mul(4);
        benches
            .chain(marks)
            .sum::<usize>()
            .saturating_add(counts)
            .saturating_add(self.fresh.bytes())
    }
}

/// How many looks a wish takes from one of its ways on.
fn looks(bench: &Bench, wanted: &Wanted, fresh: &Fresh, from: usize) -> u64 {
    let each = bench.ways.iter().skip(from).map(|way| bench.looks(way, fresh));
    each.fold(0, u64::saturating_add).saturating_mul(wanted.aims.len() as u64)
}

/// The sizes, smallest first and each once.
fn sizes(given: &[u16]) -> Result<Vec<u16>, GearingError> {
    let mut sizes = Vec::new();
    for &teeth in given {
        if teeth == 0 {
            return Err(GearingError::NoTeeth);
        }
        if u32::from(teeth) > super::super::TEETH_MOST {
            return Err(GearingError::TooManyTeeth(teeth.into()));
        }
        if let Err(at) = sizes.binary_search(&teeth) {
            sizes.insert(at, teeth);
        }
    }
    Ok(sizes)
}
