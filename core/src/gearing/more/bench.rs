//! One drawer on the bench: its choices laid out, and what a candidate from them comes to.

use super::super::rule::Rule;
use super::super::{Drawer, GearingError};
use super::log::Logs;
use super::plan::{Part, Piece, Way, pieces, ways};
use super::sets;
use super::shelf::Shelf;
use super::stock::{Choice, Shape, Stock};
use super::wish::{Aim, Group};
use alloc::vec::Vec;

/// Choices gone through and choices laid out, each made once.
#[derive(Clone, Debug, Default)]
pub(super) struct Store {
    lists: Vec<(Shape, Vec<Piece>)>,
    shelves: Vec<Shelf>,
}

impl Store {
    /// Makes what is not there yet.
    fn list(&mut self, stock: &Stock, shape: Shape) {
        if self.lists.iter().all(|(of, _)| *of != shape) {
            self.lists.push((shape, pieces(stock, shape)));
        }
    }

    fn shelf(&mut self, stock: &Stock, shape: Shape) {
        if self.shelves.iter().all(|shelf| shelf.shape != shape) {
            self.shelves.push(Shelf::new(stock, shape));
        }
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
    stock: Stock,
    store: Store,
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
        Ok(Bench { drawer: group.drawer.clone(), rule, ways, stock, store: Store::default() })
    }

    /// Lays out what one way needs.
    pub(super) fn lay_out(&mut self, way: &Way, fresh: &mut Fresh) {
        for part in [way.outer, way.inner] {
            match part.new {
                true => fresh.store.list(&fresh.stock, part.shape),
                false => self.store.list(&self.stock, part.shape),
            }
        }
        match way.shelved.new {
            true => fresh.store.shelf(&fresh.stock, way.shelved.shape),
            false => self.store.shelf(&self.stock, way.shelved.shape),
        }
    }

    /// How many looks one aim takes that way, more or less.
    pub(super) fn looks(&self, way: &Way, fresh: &Fresh) -> u64 {
        let of = |part: Part| match part.new {
            true => fresh.stock.most(part.shape),
            false => self.stock.most(part.shape),
        };
        of(way.outer).saturating_mul(of(way.inner)).saturating_mul(1 + u64::from(way.both))
    }

    pub(super) fn bytes(&self) -> usize {
        self.store.bytes()
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
        let store = |part: Part| if part.new { &fresh.store } else { &self.store };
        let shelves = &store(way.shelved).shelves;
        let Some(shelf) = shelves.iter().find(|shelf| shelf.shape == way.shelved.shape) else {
            return true;
        };
        let outer = store(way.outer).pieces(way.outer.shape);
        let inner = self.store.pieces(way.inner.shape);
        let (low, high) = match place.upside_down {
            false => (aim.low, aim.high),
            true => (aim.high.wrapping_neg(), aim.low.wrapping_neg()),
        };
        while let Some(a) = outer.get(place.outer) {
            if *budget == 0 {
                return false;
            }
            place.outer = place.outer.wrapping_add(1);
            let mut looks = 1_u64;
            let set = match way.outer.new {
                true => fresh.set(a.choice, way.outer.shape),
                false => 0,
            };
            let known = way.outer.new && marks.known(set);
            for b in inner.iter().take(if known { 0 } else { usize::MAX }) {
                let sum = a.log.wrapping_add(b.log);
                looks = looks.wrapping_add(1);
                let mut enough = false;
                for c in shelf.between(low.wrapping_sub(sum), high.wrapping_sub(sum)) {
                    looks = looks.wrapping_add(4);
                    let set = match way.shelved.new {
                        true => fresh.set(c, way.shelved.shape),
                        false => set,
                    };
                    if way.shelved.new && marks.known(set) {
                        continue;
                    }
                    let parts = [(way.outer, a.choice), (way.inner, b.choice), (way.shelved, c)];
                    if self.goes(way, fresh, aim, place.upside_down, parts) {
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

    /// Whether these gears meet the aim, are all there, and go on in some order.
    fn goes(
        &self,
        way: &Way,
        fresh: &Fresh,
        aim: &Aim,
        upside_down: bool,
        parts: [(Part, Choice); 3],
    ) -> bool {
        let (mut above, mut below) = ([0_u16; 3], [0_u16; 3]);
        let (mut i, mut j) = (0_usize, 0_usize);
        for (part, choice) in parts {
            let stock = if part.new { &fresh.stock } else { &self.stock };
            let hand = stock.open(choice, part.shape);
            for (at, gear) in hand.iter().enumerate() {
                let (side, n) = match at < usize::from(part.shape.0) {
                    true => (&mut above, &mut i),
                    false => (&mut below, &mut j),
                };
                if let Some(slot) = side.get_mut(*n) {
                    *slot = stock.teeth_at(gear);
                }
                *n = n.wrapping_add(1);
            }
        }
        let (drivers, driven) = if upside_down { (below, above) } else { (above, below) };
        let product = |side: &[u16; 3]| {
            let gears = side.iter().take(way.pairs.into());
            // Three gears of 999 teeth are below 2³⁰.
            gears.fold(1_u32, |product, &teeth| product.wrapping_mul(teeth.into()))
        };
        if !aim.met(product(&drivers), product(&driven)) {
            return false;
        }
        let [a, b, c] = parts.map(|(part, choice)| match part.new {
            true => super::stock::Hand::default(),
            false => self.stock.open(choice, part.shape),
        });
        if !self.stock.suffice([&a, &b, &c].into_iter()) {
            return false;
        }
        let pairs = usize::from(way.pairs);
        let (drivers, driven) = (sorted(drivers, pairs), sorted(driven, pairs));
        self.rule.may_fit(pairs, drivers, driven)
            && self.rule.mount(pairs, drivers, driven, &self.drawer, true).fits
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
