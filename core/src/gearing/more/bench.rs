//! One drawer on the bench: its choices laid out, and what a candidate from them comes to.

use super::super::rule::Rule;
use super::super::{Drawer, GearingError};
use super::log::Logs;
use super::plan::{Part, Piece, Way, pieces, ways};
use super::sets;
use super::shelf::Shelf;
use super::stock::{Choice, Hand, Shape, Stock};
use super::wish::{Aim, Group};
use crate::exact::Ratio;
use alloc::vec::Vec;

/// Choices gone through and choices laid out, each made once.
#[derive(Clone, Debug, Default)]
pub(super) struct Store {
    lists: Vec<(Shape, Vec<Piece>)>,
    shelves: Vec<Shelf>,
}

impl Store {
    /// Makes a list that isn't there yet.
    fn list(&mut self, stock: &Stock, shape: Shape, strange: &[i64]) {
        if self.lists.iter().all(|(of, _)| *of != shape) {
            self.lists.push((shape, pieces(stock, shape, strange)));
        }
    }

    /// Lays out a shelf a piece further; true where it is ready.
    fn shelf(&mut self, stock: &Stock, shape: Shape, first: &mut usize) -> bool {
        if self.shelves.iter().all(|shelf| shelf.shape != shape) {
            self.shelves.push(Shelf::new(shape));
        }
        let Some(shelf) = self.shelves.iter_mut().find(|shelf| shelf.shape == shape) else {
            return true;
        };
        if !shelf.laid() {
            *first = if shelf.lay(stock, *first) { 0 } else { first.saturating_add(1) };
        }
        shelf.laid()
    }

    fn pieces(&self, shape: Shape) -> &[Piece] {
        let list = self.lists.iter().find(|(of, _)| *of == shape);
        list.map_or(&[], |(_, pieces)| pieces)
    }

    fn bytes(&self) -> usize {
        let lists = self.lists.iter().map(|(_, list)| core::mem::size_of_val(list.as_slice()));
        lists.chain(self.shelves.iter().map(Shelf::bytes)).sum()
    }
}

/// The gears that may be added.
#[derive(Clone, Debug)]
pub(super) struct Fresh {
    pub(super) stock: Stock,
    pub(super) store: Store,
}

impl Fresh {
    pub(super) fn new(sizes: &[u16], logs: &Logs) -> Fresh {
        Fresh {
            stock: Stock {
                teeth: sizes.to_vec(),
                logs: sizes.iter().map(|&teeth| logs.of(teeth)).collect(),
                owned: alloc::vec![3; sizes.len()],
                bits: 12,
            },
            store: Store::default(),
        }
    }

    /// The number of the set of these new gears.
    fn set(&self, choice: Choice, shape: Shape) -> u32 {
        let hand = self.stock.open(choice, shape);
        sets::number(hand.places.get(..usize::from(hand.len)).unwrap_or(&[]))
    }

    pub(super) fn bytes(&self) -> usize {
        self.store.bytes()
    }
}

/// A drawer ready to be asked.
#[derive(Clone, Debug)]
pub(super) struct Bench {
    pub(super) drawer: Drawer,
    pub(super) rule: Rule,
    pub(super) ways: Vec<Way>,
    /// The primes that none of its gears has, and what each size that may be added has in them.
    pub(super) strange: Vec<u16>,
    brings: Vec<i64>,
    stock: Stock,
    store: Store,
    /// Its own lists of new gears: what is strange is its own affair.
    new_lists: Store,
}

/// Where in a way the search stands, and how many looks it may still take.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Place {
    pub(super) upside_down: bool,
    pub(super) outer: usize,
}

impl Bench {
    pub(super) fn new(
        group: &Group,
        add: u8,
        fresh: &Fresh,
        logs: &Logs,
    ) -> Result<Bench, GearingError> {
        if !(1..=3).contains(&group.pairs_max) {
            return Err(GearingError::Pairs(group.pairs_max));
        }
        let teeth = group.drawer.teeth();
        let stock = Stock {
            teeth: teeth.to_vec(),
            logs: teeth.iter().map(|&teeth| logs.of(teeth)).collect(),
            owned: group.drawer.sizes().map(|(_, owned)| owned).collect(),
            bits: 7,
        };
        let rule = Rule::new(&group.mounting)?;
        let mut ways = ways(group.pairs_max, add, &stock, &fresh.stock);
        // What can never go on needn't be looked at: three pairs on a banjo, and its single pairs
        // are found with their idlers.
        ways.retain(|way| rule.is_free() || !rule.never(way.pairs));
        let strange = logs.strange(teeth);
        let sizes = fresh.stock.teeth.iter();
        let brings = sizes.map(|&teeth| logs.part(Ratio::from(u32::from(teeth)), &strange));
        Ok(Bench {
            drawer: group.drawer.clone(),
            rule,
            ways,
            brings: brings.collect(),
            strange,
            stock,
            store: Store::default(),
            new_lists: Store::default(),
        })
    }

    /// Lays out what one way needs, a piece at a time; true where it is all there.
    pub(super) fn lay_out(&mut self, way: &Way, fresh: &mut Fresh, first: &mut usize) -> bool {
        for part in [way.outer, way.inner] {
            match part.new {
                true => self.new_lists.list(&fresh.stock, part.shape, &self.brings),
                false => self.store.list(&self.stock, part.shape, &[]),
            }
        }
        let shape = way.shelved.shape;
        match way.shelved.new {
            true => fresh.store.shelf(&fresh.stock, shape, first),
            false => self.store.shelf(&self.stock, shape, first),
        }
    }

    /// How many looks one aim takes that way, more or less.
    pub(super) fn looks(&self, way: &Way, fresh: &Fresh) -> u64 {
        let of = |part: Part| match part.new {
            true => fresh.stock.most(part.shape),
            false => self.stock.most(part.shape),
        };
        of(way.outer).saturating_mul(of(way.inner)).saturating_mul(if way.both { 2 } else { 1 })
    }

    pub(super) fn bytes(&self) -> usize {
        self.store.bytes().saturating_add(self.new_lists.bytes())
    }

    /// Looks for trains of one way that meet an aim, from one place on. Each set of new gears that
    /// `known` doesn't have yet and that makes one is told to `found`, which says whether that was
    /// enough. True where it came to the end, or it was enough; false where the looks ran out.
    pub(super) fn look(
        &self,
        way: &Way,
        fresh: &Fresh,
        aim: &Aim,
        place: &mut Place,
        budget: &mut u64,
        marks: &mut dyn Marking,
    ) -> bool {
        let store = if way.shelved.new { &fresh.store } else { &self.store };
        let stock = |part: Part| if part.new { &fresh.stock } else { &self.stock };
        let shelves = &store.shelves;
        let Some(shelf) = shelves.iter().find(|shelf| shelf.shape == way.shelved.shape) else {
            return true;
        };
        let lists = if way.outer.new { &self.new_lists } else { &self.store };
        let outer = lists.pieces(way.outer.shape);
        // What the drawer can't bring must be in the new gears, where those are gone through.
        let strange = aim.strange.filter(|_| !way.shelved.new);
        let strange = match place.upside_down {
            true => strange.map(i64::wrapping_neg),
            false => strange,
        };
        let inner = self.store.pieces(way.inner.shape);
        let (low, high) = match place.upside_down {
            false => (aim.low, aim.high),
            true => (aim.high.wrapping_neg(), aim.low.wrapping_neg()),
        };
        let mut quick = 0_u32;
        while let Some(a) = outer.get(place.outer) {
            if *budget == 0 {
                return false;
            }
            place.outer = place.outer.wrapping_add(1);
            if strange.is_some_and(|strange| strange != a.strange) {
                quick = quick.wrapping_add(1);
                *budget = budget.saturating_sub(u64::from(quick & 15 == 0));
                continue;
            }
            let mut looks = 1_u64;
            let set = match way.outer.new {
                true => fresh.set(a.choice, way.outer.shape),
                false => 0,
            };
            let known = way.outer.new && marks.known(set);
            let with_a = Sides::default().with(stock(way.outer), a.choice, way.outer.shape);
            for b in inner.iter().take(if known { 0 } else { usize::MAX }) {
                let sum = a.log.wrapping_add(b.log);
                let with_b = with_a.with(&self.stock, b.choice, way.inner.shape);
                looks = looks.wrapping_add(1);
                let mut enough = false;
                for c in shelf.between(low.wrapping_sub(sum), high.wrapping_sub(sum)) {
                    looks = looks.wrapping_add(2);
                    let set = match way.shelved.new {
                        true => fresh.set(c, way.shelved.shape),
                        false => set,
                    };
                    if way.shelved.new && marks.known(set) {
                        continue;
                    }
                    let sides = with_b.with(stock(way.shelved), c, way.shelved.shape);
                    let old = [(way.outer, a.choice), (way.inner, b.choice), (way.shelved, c)];
                    if self.meets(way, aim, place.upside_down, sides) && self.owned(old) {
                        marks.put(set);
                        enough = !way.shelved.new;
                        if enough {
                            break;
                        }
                    }
                }
                if enough {
                    break;
                }
            }
            *budget = budget.saturating_sub(looks);
            if way.level == 0 && marks.known(0) {
                return true;
            }
        }
        true
    }

    /// Whether these gears meet the aim and go on in some order.
    fn meets(&self, way: &Way, aim: &Aim, upside_down: bool, sides: Sides) -> bool {
        let pairs = usize::from(way.pairs);
        if !self.rule.may_sum(pairs, sides.sum()) {
            return false;
        }
        let Sides { above, below, .. } = sides;
        let (drivers, driven) = if upside_down { (below, above) } else { (above, below) };
        let product = |side: &[u16; 3]| {
            let gears = side.iter().take(pairs);
            // Three gears of 999 teeth are below 2³⁰.
            gears.fold(1_u32, |product, &teeth| product.wrapping_mul(teeth.into()))
        };
        if !aim.met(product(&drivers), product(&driven)) {
            return false;
        }
        let (drivers, driven) = (sorted(drivers, pairs), sorted(driven, pairs));
        self.rule.may_fit(pairs, drivers, driven)
            && self.rule.mount(pairs, drivers, driven, &self.drawer, true).fits
    }

    /// Whether the drawer has as many of each of its gears as these parts take together.
    fn owned(&self, parts: [(Part, Choice); 3]) -> bool {
        let [a, b, c] = parts.map(|(part, choice)| match part.new {
            true => Hand::default(),
            false => self.stock.open(choice, part.shape),
        });
        self.stock.suffice([&a, &b, &c].into_iter())
    }
}

/// Drivers and driven gears as they come together, in teeth.
#[derive(Clone, Copy, Debug, Default)]
struct Sides {
    above: [u16; 3],
    below: [u16; 3],
    /// How many of each.
    count: (u8, u8),
}

impl Sides {
    /// With the gears of one more choice.
    fn with(mut self, stock: &Stock, choice: Choice, (above, below): Shape) -> Sides {
        let mut rest = choice;
        let mask = (1_u64 << stock.bits).wrapping_sub(1);
        let mut put = |side: &mut [u16; 3], count: &mut u8, gears: u8| {
            for _ in 0..gears {
                if let Some(slot) = side.get_mut(usize::from(*count)) {
                    *slot = stock.teeth_at((rest & mask) as u16);
                }
                *count = count.wrapping_add(1);
                rest >>= stock.bits;
            }
        };
        put(&mut self.above, &mut self.count.0, above);
        put(&mut self.below, &mut self.count.1, below);
        self
    }

    fn sum(&self) -> i32 {
        let of = |side: [u16; 3]| side.iter().fold(0_i32, |sum, &t| sum.wrapping_add(t.into()));
        of(self.above).wrapping_add(of(self.below))
    }
}

/// Marks on the sets of one level.
pub(super) trait Marking {
    fn known(&self, set: u32) -> bool;
    fn put(&mut self, set: u32);
}

/// The first so many, smallest first.
fn sorted(mut side: [u16; 3], count: usize) -> [u16; 3] {
    let [a, b, c] = &mut side;
    if count > 1 && a > b {
        core::mem::swap(a, b);
    }
    if count > 2 {
        if b > c {
            core::mem::swap(b, c);
        }
        if a > b {
            core::mem::swap(a, b);
        }
    }
    side
}
