//! One search under way: two lists filling up, and two ways of filling them.

use super::bounds::Window;
use super::chains::Chains;
use super::miss::Miss;
use super::rank::{Best, Entry, Tally};
use super::rule::Rule;
use super::search::GEARBOX_MOST;
use super::tables::{Gears, Products};
use super::weight::Weight;
use super::{GearingError, Pair, Request, Tables};
use alloc::vec::Vec;

/// What either way of finding the mountable trains is given to begin with, in steps of some
/// nanoseconds.
const FIRST_TRY: u64 = 1 << 13;
/// How many such steps it costs to look at one selection.
const STEPS_A_LOOK: u64 = 8;
/// Where the search gives up and says so: after some ten seconds, which only a drawer
/// and a gearbox near the limits can ask for.
const PATIENCE: u64 = 1 << 32;

/// Which list says how wide one must look.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Led {
    ByAll,
    ByMountable,
}

pub(super) struct Run<'t> {
    pub(super) tables: &'t Tables,
    pub(super) rule: Rule,
    pub(super) weights: Vec<Weight>,
    pub(super) all: Best,
    pub(super) mountable: Best,
    pub(super) all_tally: Tally,
    pub(super) tally: Tally,
    pairs_max: usize,
    /// Whether it matters how many reach the least, and how near the unmountable ones come.
    counting: bool,
    pub(super) complete: bool,
    /// How many selections have been looked at.
    seen: u64,
}

impl<'t> Run<'t> {
    pub(super) fn new(
        tables: &'t Tables,
        request: &Request<'_>,
        keep: usize,
        counting: bool,
    ) -> Result<Self, GearingError> {
        let pairs = request.pairs_max;
        if pairs == 0 || pairs > tables.pairs_max() {
            return Err(GearingError::Pairs(pairs));
        }
        match request.gearbox.len() {
            0 => return Err(GearingError::NoGearbox),
            n if n > GEARBOX_MOST => return Err(GearingError::TooManyRatios(n)),
            _ => {}
        }
        let weights = request.gearbox.iter().map(|&ratio| Weight::new(request, ratio));
        Ok(Run {
            tables,
            rule: Rule::new(&request.mounting)?,
            weights: weights.collect::<Result<_, _>>()?,
            all: Best::new(if counting { keep } else { 0 }),
            mountable: Best::new(keep),
            all_tally: Tally::default(),
            tally: Tally::default(),
            pairs_max: usize::from(pairs),
            counting,
            complete: true,
            seen: 0,
        })
    }

    /// The nearest selections, mountable or not.
    pub(super) fn overall(&mut self) {
        for pairs in 1..=self.pairs_max {
            self.sweep(pairs, Led::ByAll, u64::MAX);
        }
    }

    /// Carries on, for the mountable ones, from wherever [`Run::overall`] left off.
    pub(super) fn only_mountable(&mut self) {
        // Nothing was ever excluded, or nothing further off can be of use.
        let enough = match (self.all.limit(), self.mountable.limit()) {
            (None, _) => true,
            (Some(all), Some(mountable)) => mountable <= all,
            (Some(_), None) => false,
        };
        if enough && self.counting {
            return;
        }
        self.tally = Tally::default();
        let drawer = &self.tables.drawer;
        for pairs in 1..=self.pairs_max {
            if self.rule.hopeless(pairs, drawer) {
                continue;
            }
            let best = self.mountable.entries.first();
            if !self.counting && best.is_some_and(|best| best.miss.diff == 0) {
                return;
            }
            self.complete &= self.either_way(pairs);
        }
    }

    /// All that can be mounted of so many pairs, by whichever of two ways is the shorter: to
    /// look at all that comes near, or to build all that goes on. Which it is
    /// shows only on the way, so each in turn is given some work to do, then
    /// four times as much; at worst it costs a few times what the shorter one does. False if neither was enough.
    fn either_way(&mut self, pairs: usize) -> bool {
        if pairs == 1 || self.rule.is_free() {
            return self.sweep(pairs, Led::ByMountable, u64::MAX);
        }
        let before = self.tally;
        let chains = Chains::new(self.tables);
        // With nothing in hand to say what is near, begin with the other.
        let mut near = self.mountable.limit().is_some();
        let mut budget = FIRST_TRY;
        while budget < PATIENCE {
            self.tally = before;
            let done = if near {
                self.sweep(pairs, Led::ByMountable, budget / STEPS_A_LOOK)
            } else {
                chains.walk(self, pairs, budget)
            };
            if done {
                return true;
            }
            near = !near;
            budget = budget.saturating_mul(2);
        }
        false
    }

    /// Looks at every selection of so many pairs that misses by no more than the list allows,
    /// and tightens as it fills. False where that was too much work.
    ///
    /// Two pointers: the products of the one side in ascending order, and for each of them
    /// those of the other side that lie in its window, whose lower end only moves up. The outer side
    /// is the one whose product must be the smaller, so that its run ends early.
    pub(super) fn sweep(&mut self, pairs: usize, led: Led, budget: u64) -> bool {
        let tables = self.tables;
        let Some(products) = tables.products.get(pairs.saturating_sub(1)) else { return true };
        let stop = self.seen.saturating_add(budget);
        for position in 0..self.weights.len() {
            let Some(&weight) = self.weights.get(position) else { break };
            // drivers/driven should be den/num.
            let drivers_outside = weight.num > weight.den;
            let window = |by: Option<Miss>| {
                if drivers_outside {
                    Window::upturned(weight.den, weight.num, by)
                } else {
                    Window::straight(weight.den, weight.num, by)
                }
            };
            let mut now = window(self.limit(led));
            let mut from = 0_usize;
            for (outer, &u) in products.values.iter().enumerate() {
                let low = now.low(u);
                while products.values.get(from).is_some_and(|&v| u64::from(v) < low) {
                    from = from.wrapping_add(1);
                }
                let mut high = now.high(u);
                let mut inner = from;
                while let Some(&v) = products.values.get(inner) {
                    if u64::from(v) > high {
                        break;
                    }
                    let places = if drivers_outside { (outer, inner) } else { (inner, outer) };
                    let sides = if drivers_outside { (u, v) } else { (v, u) };
                    let (miss, over) = weight.miss(sides.0, sides.1);
                    if self.limit(led).is_none_or(|limit| miss <= limit) {
                        let tightened =
                            self.meet(led, pairs, position, products, places, (miss, over));
                        if tightened {
                            now = window(self.limit(led));
                            high = now.high(u);
                        }
                    }
                    inner = inner.wrapping_add(1);
                }
                if self.seen > stop {
                    return false;
                }
                if from >= products.values.len() {
                    break;
                }
            }
        }
        true
    }

    fn limit(&self, led: Led) -> Option<Miss> {
        match led {
            Led::ByAll => self.all.limit(),
            Led::ByMountable => self.mountable.limit(),
        }
    }

    /// Every selection with these two products. True where the leading list may have
    /// tightened.
    fn meet(
        &mut self,
        led: Led,
        pairs: usize,
        position: usize,
        products: &Products,
        (drivers, driven): (usize, usize),
        missed: (Miss, bool),
    ) -> bool {
        let mut tightened = false;
        for &above in products.choices(drivers) {
            for &below in products.choices(driven) {
                self.seen = self.seen.saturating_add(1);
                if self.tables.together(pairs, above, below) {
                    tightened |= self.consider(led, pairs, position, (above, below), missed);
                }
            }
        }
        tightened
    }

    fn consider(
        &mut self,
        led: Led,
        pairs: usize,
        position: usize,
        (drivers, driven): (Gears, Gears),
        (miss, over): (Miss, bool),
    ) -> bool {
        let count = pairs as u8;
        let by_all = led == Led::ByAll;
        if by_all {
            self.all_tally.add(miss);
        }
        let listed = by_all && self.all.may_take(miss, count);
        let wanted = self.mountable.may_take(miss, count);
        let counted = self.counting && self.tally.counts(miss);
        if !(listed || wanted || counted) {
            return false;
        }
        let drawer = &self.tables.drawer;
        let teeth = |gears: Gears| gears.map(|place| drawer.teeth_at(place));
        let (drivers, driven) = (teeth(drivers), teeth(driven));
        if !listed && !self.rule.may_fit(pairs, drivers, driven) {
            return false;
        }
        // Where it only counts, any order that goes on will do.
        let any = !listed && !wanted;
        let mounted = self.rule.mount(pairs, drivers, driven, drawer, any);
        if any {
            if mounted.fits {
                self.tally.add(miss);
            }
            return false;
        }
        let entry = Entry {
            miss,
            over,
            fits: mounted.fits,
            count,
            slack: mounted.slack,
            gearbox: position as u8,
            pairs: mounted.pairs,
        };
        let tightened = listed && self.all.put(entry);
        if !mounted.fits {
            return tightened;
        }
        self.tally.add(miss);
        let also = self.mountable.put(entry);
        if by_all { tightened } else { also }
    }

    /// A train that goes on in the order in which it is given: counted and kept where that is
    /// the very order that its selection is given in, so that each selection has its turn once.
    pub(super) fn chain(
        &mut self,
        count: usize,
        position: usize,
        pairs: [Pair; 3],
        (miss, over): (Miss, bool),
    ) -> bool {
        let asked =
            self.mountable.may_take(miss, count as u8) || self.counting && self.tally.counts(miss);
        if !asked || !self.owned(pairs.get(..count).unwrap_or(&pairs)) {
            return false;
        }
        let (mut drivers, mut driven) = (pairs.map(|p| p.driver), pairs.map(|p| p.driven));
        for side in [&mut drivers, &mut driven] {
            if let Some(side) = side.get_mut(..count) {
                side.sort_unstable();
            }
        }
        let mounted = self.rule.mount(count, drivers, driven, &self.tables.drawer, false);
        if !mounted.fits || mounted.pairs.get(..count) != pairs.get(..count) {
            return false;
        }
        self.tally.add(miss);
        self.mountable.put(Entry {
            miss,
            over,
            fits: mounted.fits,
            count: count as u8,
            slack: mounted.slack,
            gearbox: position as u8,
            pairs: mounted.pairs,
        })
    }

    /// Whether all of these gears can be had at once.
    fn owned(&self, pairs: &[Pair]) -> bool {
        let gears = || pairs.iter().flat_map(|pair| [pair.driver, pair.driven]);
        gears().all(|gear| {
            let used = gears().filter(|&other| other == gear).count();
            used == 1 || used <= usize::from(self.tables.drawer.owned(gear))
        })
    }

    /// How much a mountable train may miss by and still be of use.
    pub(super) fn mountable_limit(&self) -> Option<Miss> {
        self.limit(Led::ByMountable)
    }
}
