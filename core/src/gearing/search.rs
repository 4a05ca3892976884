//! The complete search: the best trains for a lead, and how many selections reach it.

use super::bounds::Window;
use super::chains::Chains;
use super::miss::Miss;
use super::rank::{Best, Entry, Tally};
use super::rule::Rule;
use super::tables::{Gears, Products};
use super::{Drawer, Found, GearingError, Mounting, Pair, Reached, Tables, Train};
use crate::exact::{Ratio, RatioError};
use alloc::vec::Vec;

/// The most ratios that a gearbox may have.
pub const GEARBOX_MOST: usize = 100;

/// What is wanted of the drawer.
#[derive(Clone, Copy, Debug)]
pub struct Request<'a> {
    /// The lead wanted over the leadscrew's lead.
    pub target: Ratio,
    /// The fixed ratio from the spindle to the first driver.
    pub before_train: Ratio,
    /// The ratios from the last driven gear to the leadscrew, one for each position. Two
    /// positions with the same ratio are two positions: each counts and each is listed.
    pub gearbox: &'a [Ratio],
    /// How many pairs a train may have: one, two or three.
    pub pairs_max: u8,
    /// What decides whether a train goes on.
    pub mounting: Mounting,
    /// How many of the best to keep.
    pub keep: usize,
}

/// Every train from this drawer for this wish: [`Tables::new`], then [`Tables::search`].
///
/// ```
/// use latheside_core::exact::Ratio;
/// use latheside_core::gearing::{Drawer, Mounting, Request, search};
/// // 3 mm from a screw of 8 to the inch: 120/127, and 63/80 for 100/127 comes near.
/// let drawer = Drawer::new(&[30, 36, 40, 45, 50, 63, 80, 120]).unwrap();
/// let found = search(&drawer, &Request {
///     target: Ratio::of(120, 127),
///     before_train: Ratio::ONE,
///     gearbox: &[Ratio::ONE],
///     pairs_max: 2,
///     mounting: Mounting::Shop { stud_clearance_teeth: 15, centres_teeth: None },
///     keep: 40,
/// }).unwrap();
/// let best = &found.best[0];
/// assert_eq!(best.total, Ratio::of(189, 200));
/// assert_eq!(best.error, Ratio::of(1, 8000));
/// assert!(best.mountable && !best.exact());
/// ```
///
/// # Errors
///
/// As [`Tables::new`] and [`Tables::search`].
pub fn search(drawer: &Drawer, request: &Request<'_>) -> Result<Found, GearingError> {
    Tables::new(drawer, request.pairs_max)?.search(request)
}

/// Steps through [`Chains`] after which the search says that it isn't complete: some
/// seconds of them, which only drawers and gearboxes near the limits can ask for.
const PATIENCE: u64 = 2_000_000_000;

impl Tables {
    /// The best trains, and how many selections come as near as can be.
    ///
    /// A selection is some gears as drivers and as many as driven gears, whatever their
    /// order; none is used more often than it is owned. Complete, unless
    /// [`Found::complete`] says otherwise.
    ///
    /// # Errors
    ///
    /// [`GearingError::Pairs`] for more pairs than the tables were made for, or none; an empty or too
    /// long gearbox; a ratio or a measure that isn't more than nothing; a limit the wrong way
    /// round; [`GearingError::Exact`] where a number is too large to keep exactly.
    pub fn search(&self, request: &Request<'_>) -> Result<Found, GearingError> {
        let mut run = Run::new(self, request, request.keep.max(1), true)?;
        run.overall();
        run.only_mountable();
        run.found(request)
    }

    /// The best train that can be mounted, and nothing else: what a chart asks for, row by row.
    ///
    /// The flag beside it is [`Found::complete`].
    ///
    /// # Errors
    ///
    /// As [`Tables::search`].
    pub fn best_mountable(
        &self,
        request: &Request<'_>,
    ) -> Result<(Option<Train>, bool), GearingError> {
        let mut run = Run::new(self, request, 1, false)?;
        run.only_mountable();
        let first = run.mountable.entries.first().copied();
        let train = first.map(|entry| run.train(request, &entry)).transpose()?;
        Ok((train, run.complete))
    }
}

/// What a ratio of gears is measured with: cut/wanted = drivers/driven · num/den.
#[derive(Clone, Copy, Debug)]
pub(super) struct Weight {
    pub(super) num: u128,
    pub(super) den: u128,
}

impl Weight {
    fn new(request: &Request<'_>, gearbox: Ratio) -> Result<Weight, GearingError> {
        for (what, ratio) in [
            ("the lead wanted", request.target),
            ("the ratio before the train", request.before_train),
            ("a gearbox ratio", gearbox),
        ] {
            if !ratio.is_positive() {
                return Err(GearingError::NotPositive(what, ratio));
            }
        }
        let ratio = request.before_train.mul(gearbox)?.div(request.target)?;
        let (num, den) = (ratio.numer().unsigned_abs(), ratio.denom().unsigned_abs());
        // A product of three gears is below 2³⁰: what it makes of these still fits.
        const MOST: u128 = 1 << 96;
        if num >= MOST || den >= MOST {
            return Err(GearingError::Exact(RatioError::Overflow));
        }
        Ok(Weight { num, den })
    }

    /// By how much these products miss, and whether they are above.
    pub(super) const fn miss(self, drivers: u32, driven: u32) -> (Miss, bool) {
        let cut = (drivers as u128).wrapping_mul(self.num);
        let wanted = (driven as u128).wrapping_mul(self.den);
        Miss::new(cut, wanted)
    }
}

/// Which list says how wide one must look.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Led {
    ByAll,
    ByMountable,
}

pub(super) struct Run<'t> {
    pub(super) tables: &'t Tables,
    pub(super) rule: Rule,
    pub(super) weights: Vec<Weight>,
    all: Best,
    pub(super) mountable: Best,
    all_tally: Tally,
    pub(super) tally: Tally,
    pairs_max: usize,
    /// Whether it matters how many reach the least, and how near the unmountable ones come.
    counting: bool,
    complete: bool,
    /// How many selections have been looked at.
    seen: u64,
}

impl<'t> Run<'t> {
    fn new(
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
    fn overall(&mut self) {
        for pairs in 1..=self.pairs_max {
            self.sweep(pairs, Led::ByAll, u64::MAX);
        }
    }

    /// Carries on, for the mountable ones, from wherever [`Run::overall`] left off.
    fn only_mountable(&mut self) {
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
        let gears = drawer.teeth().len() as u64;
        for pairs in 1..=self.pairs_max {
            if self.rule.hopeless(pairs, drawer) {
                continue;
            }
            let best = self.mountable.entries.first();
            if !self.counting && best.is_some_and(|best| best.miss.diff == 0) {
                return;
            }
            // Look at what lies near, as long as that is no more work than building every
            // mountable train from the middle outwards. With nothing yet in hand to say how near, or one
            // pair alone, the choice is clear.
            let ways = self.weights.len() as u64;
            let each = if pairs == 3 { ways.saturating_mul(2).saturating_add(1) } else { 1 };
            let fair = gears.saturating_pow(4).saturating_mul(each) / 8;
            let before = self.tally;
            let near = match self.mountable.limit() {
                _ if pairs == 1 => self.sweep(pairs, Led::ByMountable, u64::MAX),
                _ if self.rule.is_free() => self.sweep(pairs, Led::ByMountable, u64::MAX),
                Some(_) => self.sweep(pairs, Led::ByMountable, fair),
                None => false,
            };
            if !near {
                self.tally = before;
                let whole = Chains::new(self.tables).walk(self, pairs, PATIENCE);
                self.complete &= whole;
            }
        }
    }

    /// Looks at every selection of so many pairs that misses by no more than the list allows,
    /// and tightens as it fills. False where that was too much work.
    ///
    /// Two pointers: the products of the one side in ascending order, and for each of them
    /// those of the other side that lie in its window, whose lower end only moves up. The outer side
    /// is the one whose product must be the smaller, so that its run ends early.
    fn sweep(&mut self, pairs: usize, led: Led, budget: u64) -> bool {
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
        self.seen = self.seen.saturating_add(1);
        let count = pairs as u8;
        let by_all = led == Led::ByAll;
        if by_all {
            self.all_tally.add(miss);
        }
        let listed = by_all && self.all.may_take(miss, count);
        let asked =
            self.mountable.may_take(miss, count) || self.counting && self.tally.counts(miss);
        if !listed && !asked {
            return false;
        }
        let drawer = &self.tables.drawer;
        let teeth = |gears: Gears| gears.map(|place| drawer.teeth_at(place));
        let mounted = self.rule.mount(pairs, teeth(drivers), teeth(driven), drawer);
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
        let mounted = self.rule.mount(count, drivers, driven, &self.tables.drawer);
        if mounted.pairs.get(..count) != pairs.get(..count) {
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

    fn found(&self, request: &Request<'_>) -> Result<Found, GearingError> {
        let reached = |tally: Tally, best: Option<&Entry>| match best {
            Some(best) => {
                let least_error = best.miss.signed(best.over)?;
                Ok::<_, GearingError>(Some(Reached { count: tally.count, least_error }))
            }
            None => Ok(None),
        };
        let nearest = self.all.entries.first();
        // Two gears make a pair, so there is always one.
        let all = reached(self.all_tally, nearest)?
            .ok_or(GearingError::TooFewGears(self.tables.drawer.gears()))?;
        let mountable = reached(self.tally, self.mountable.entries.first())?;
        let unmountable = self.all.entries.iter().filter(|entry| !entry.fits);
        let mut entries: Vec<&Entry> =
            self.mountable.entries.iter().chain(unmountable).take(request.keep).collect();
        if let (Some(nearest), true) = (nearest, request.keep > 1)
            && !nearest.fits
            && entries.iter().all(|entry| entry.fits)
            && let Some(last) = entries.last_mut()
        {
            *last = nearest;
        }
        let best = entries.into_iter().map(|entry| self.train(request, entry));
        Ok(Found { best: best.collect::<Result<_, _>>()?, all, mountable, complete: self.complete })
    }

    fn train(&self, request: &Request<'_>, entry: &Entry) -> Result<Train, GearingError> {
        let error = entry.miss.signed(entry.over)?;
        let gearbox = usize::from(entry.gearbox);
        let total = error.add(Ratio::ONE)?.mul(request.target)?;
        let [first, ..] = entry.pairs;
        let single = entry.count == 1;
        Ok(Train {
            pairs: entry.pairs,
            count: entry.count,
            gearbox,
            total,
            error,
            mountable: entry.fits,
            clearance: self.rule.clearance(entry.count, entry.slack),
            idler: if single { self.rule.idler(first, &self.tables.drawer) } else { None },
        })
    }
}
