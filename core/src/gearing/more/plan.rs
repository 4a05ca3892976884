//! How trains with so many new gears are put together from choices that are laid out beforehand.

use super::stock::{Choice, Shape, Stock};
use alloc::vec::Vec;

/// The most choices that one shelf may hold: 16 MB. So few where it is tested that small drawers take
/// the road of the largest.
const SHELF_MOST: u64 = if cfg!(test) { 200 } else { 1 << 21 };

/// A part of a train: drivers and driven gears, all from the drawer or all new.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Part {
    pub(super) new: bool,
    pub(super) shape: Shape,
}

impl Part {
    pub(super) const fn old(above: u8, below: u8) -> Part {
        Part { new: false, shape: (above, below) }
    }

    const fn gears(self) -> u8 {
        self.shape.0.saturating_add(self.shape.1)
    }
}

/// One way of putting trains together: each choice of `outer` with each of `inner`, and what goes
/// with the two is looked up on the shelf of `shelved`.
///
/// The three together are all trains of so many pairs with `level` new gears of which no fewer are
/// drivers than driven; turned upside down, those with no more drivers than driven. Together with
/// the other ways of the same level that is every such train.
#[derive(Clone, Copy, Debug)]
pub(super) struct Way {
    pub(super) level: u8,
    pub(super) pairs: u8,
    pub(super) outer: Part,
    pub(super) inner: Part,
    pub(super) shelved: Part,
    /// Whether it is to be tried upside down too.
    pub(super) both: bool,
}

/// Every way for trains of up to so many pairs with up to so many new gears.
pub(super) fn ways(pairs_max: u8, add: u8, old: &Stock, new: &Stock) -> Vec<Way> {
    let mut ways = Vec::new();
    for level in 0..=add {
        for pairs in 1..=pairs_max {
            // i of the new gears are drivers.
            let half = level.div_ceil(2);
            for i in half..=level.min(pairs) {
                let j = level.saturating_sub(i);
                let (above, below) = (pairs.saturating_sub(i), pairs.saturating_sub(j));
                ways.push(way(level, pairs, (i, j), (above, below), old, new));
            }
        }
    }
    ways
}

fn way(level: u8, pairs: u8, news: Shape, olds: Shape, old: &Stock, new: &Stock) -> Way {
    let mut shelved = Part { new: false, shape: olds };
    let mut inner = Part::old(0, 0);
    let take = |from: &mut Part, to: &mut Part, above: bool| {
        let side = |shape: Shape, more: bool| {
            let by = |n: u8| if more { n.saturating_add(1) } else { n.saturating_sub(1) };
            if above { (by(shape.0), shape.1) } else { (shape.0, by(shape.1)) }
        };
        from.shape = side(from.shape, false);
        to.shape = side(to.shape, true);
    };
    if level == 0 {
        // With no new gear, one driver of the drawer takes its place: then the shelf is one that is
        // needed anyway.
        take(&mut shelved, &mut inner, true);
    }
    while old.most(shelved.shape) > SHELF_MOST && shelved.gears() > 1 {
        let above = shelved.shape.0 >= shelved.shape.1;
        take(&mut shelved, &mut inner, above);
    }
    let outer = Part { new: true, shape: news };
    let way = Way { level, pairs, outer, inner, shelved, both: news.0 != news.1 };
    if level == 0 {
        return Way { outer: inner, inner: Part::old(0, 0), ..way };
    }
    // Whichever there are more of is laid out, so that the fewer are gone through.
    let (fresh, laid) = (new.most(news), old.most(shelved.shape));
    if inner.gears() == 0 && laid < fresh && fresh <= SHELF_MOST && level > 1 {
        return Way { outer: shelved, shelved: outer, ..way };
    }
    way
}

/// A choice that is gone through.
#[derive(Clone, Copy, Debug)]
pub(super) struct Piece {
    pub(super) log: i64,
    pub(super) choice: Choice,
    /// The logarithm of what its ratio has in primes that no gear of the drawer has.
    pub(super) strange: i64,
}

/// Every choice of a shape; `strange` is that part of each size's logarithm.
pub(super) fn pieces(stock: &Stock, shape: Shape, strange: &[i64]) -> Vec<Piece> {
    let mut all = Vec::new();
    stock.each(shape, &mut |log, choice| {
        let mut part = 0_i64;
        for (at, place) in stock.open(choice, shape).iter().enumerate() {
            let of = strange.get(usize::from(place)).copied().unwrap_or(0);
            part = match at < usize::from(shape.0) {
                true => part.wrapping_add(of),
                false => part.wrapping_sub(of),
            };
        }
        all.push(Piece { log, choice, strange: part });
    });
    all
}
