//! Trains built from the middle pair outwards: only what goes on is ever looked at.

use super::bounds::Window;
use super::run::Run;
use super::tables::sort;
use super::{Pair, Tables};
use alloc::vec::Vec;

/// Every pair that the drawer allows, by its ratio.
///
/// Where almost nothing that comes near can be mounted, looking at what comes near is no way to
/// find what can. But with the second pair C→D fixed, the rule for a pair A→B ahead of it
/// doesn't ask what follows, nor the rule for a pair E→F after it what goes ahead. So for each C→D the
/// pairs that may go ahead and those that may follow are two lists, every
/// combination of which goes on (as far as the gears suffice), and the combinations near a ratio are found
/// by two pointers.
pub(super) struct Chains {
    pairs: Vec<Pair>,
}

impl Chains {
    pub(super) fn new(tables: &Tables) -> Chains {
        let drawer = &tables.drawer;
        let mut keys = Vec::new();
        for &driver in drawer.teeth() {
            for (driven, owned) in drawer.sizes() {
                if driver != driven || owned > 1 {
                    keys.push(key(Pair { driver, driven }));
                }
            }
        }
        sort(&mut keys);
        Chains { pairs: keys.into_iter().map(pair).collect() }
    }

    /// Looks at every mountable train of so many pairs that misses by no more than the list
    /// allows. False where that was more than so many steps.
    pub(super) fn walk(&self, run: &mut Run<'_>, count: usize, patience: u64) -> bool {
        let mut left = patience;
        let none = [Pair { driver: 1, driven: 1 }];
        let (mut ahead, mut after) = (Vec::new(), Vec::new());
        for &middle in &self.pairs {
            if !run.rule.may_be_second(middle) {
                continue;
            }
            if !spend(&mut left, self.pairs.len()) {
                return false;
            }
            choose(&mut ahead, &self.pairs, |pair| run.rule.stud(pair, middle).0);
            if ahead.is_empty() {
                continue;
            }
            let tails: &[Pair] = if count == 2 {
                &none
            } else {
                choose(&mut after, &self.pairs, |pair| run.rule.stud(middle, pair).0);
                &after
            };
            if tails.is_empty() {
                continue;
            }
            for position in 0..run.weights.len() {
                if !meet(run, position, middle, &ahead, tails, count, &mut left) {
                    return false;
                }
            }
        }
        true
    }
}

/// The pair's ratio in 2⁻³², then the pair. Two ratios of gears up to 999 that differ at all
/// differ by more than a millionth, so rounding keeps their order.
const fn key(pair: Pair) -> u64 {
    let (driver, driven) = (pair.driver as u64, pair.driven as u64);
    let ratio = match (driver << 32).checked_div(driven) {
        Some(ratio) => ratio,
        None => 0,
    };
    (ratio << 20) | (driver << 10) | driven
}

const fn pair(key: u64) -> Pair {
    Pair { driver: ((key >> 10) & 1023) as u16, driven: (key & 1023) as u16 }
}

/// How many steps it costs to look at one train.
const LOOK: usize = 16;

/// Takes so many steps off what is left, if there are so many.
fn spend(left: &mut u64, steps: usize) -> bool {
    match left.checked_sub(steps as u64) {
        Some(rest) => {
            *left = rest;
            true
        }
        None => false,
    }
}

fn choose(into: &mut Vec<Pair>, from: &[Pair], fits: impl Fn(Pair) -> bool) {
    into.clear();
    into.extend(from.iter().copied().filter(|&pair| fits(pair)));
}

/// The combinations with this middle pair that miss by no more than the list allows.
fn meet(
    run: &mut Run<'_>,
    position: usize,
    middle: Pair,
    ahead: &[Pair],
    after: &[Pair],
    count: usize,
    patience: &mut u64,
) -> bool {
    let Some(&weight) = run.weights.get(position) else { return true };
    let products = |head: &Pair, tail: &Pair| {
        let of = |a: u16, b: u16, c: u16| {
            // Three gears of 999 teeth are below 2³⁰.
            u32::from(a).wrapping_mul(u32::from(b)).wrapping_mul(u32::from(c))
        };
        (of(head.driver, middle.driver, tail.driver), of(head.driven, middle.driven, tail.driven))
    };
    let mut window = Window::straight(weight.den, weight.num, run.mountable_limit());
    // If even the largest is too small, or the smallest too large, there is nothing here.
    let outside = |head: Option<&Pair>, tail: Option<&Pair>, large: bool| {
        head.zip(tail).is_some_and(|(head, tail)| {
            let (drivers, driven) = products(head, tail);
            let drivers = u64::from(drivers);
            if large { drivers > window.high(driven) } else { drivers < window.low(driven) }
        })
    };
    if outside(ahead.last(), after.last(), false) || outside(ahead.first(), after.first(), true) {
        return spend(patience, 1);
    }
    if !spend(patience, ahead.len().saturating_add(after.len())) {
        return false;
    }
    // The heads grow, so the tails that are too large for one are so for the next.
    let mut top = after.len();
    for head in ahead {
        let mut place = top;
        let mut too_large = true;
        while let Some(tail) = place.checked_sub(1).and_then(|at| after.get(at)) {
            let (drivers, driven) = products(head, tail);
            if too_large && u64::from(drivers) > window.high(driven) {
                place = place.saturating_sub(1);
                top = place;
                continue;
            }
            too_large = false;
            if u64::from(drivers) < window.low(driven) {
                break;
            }
            let (miss, over) = weight.miss(drivers, driven);
            if run.mountable_limit().is_none_or(|limit| miss <= limit) {
                if !spend(patience, LOOK) {
                    return false;
                }
                if run.chain(count, position, [*head, middle, *tail], (miss, over)) {
                    window = Window::straight(weight.den, weight.num, run.mountable_limit());
                }
            }
            place = place.saturating_sub(1);
        }
        if top == 0 {
            break;
        }
    }
    true
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gearing::Drawer;

    #[test]
    fn the_pairs_stand_in_the_order_of_their_ratios() {
        let gears: Vec<u32> = (1..=30).chain(940..=999).collect();
        let tables = Tables::new(&Drawer::new(&gears).unwrap(), 1).unwrap();
        let pairs = Chains::new(&tables).pairs;
        assert_eq!(pairs.len(), 90 * 89);
        let cross = |a: &Pair, b: &Pair| u32::from(a.driver) * u32::from(b.driven);
        assert!(pairs.is_sorted_by(|a, b| cross(a, b) <= cross(b, a)));
        for held in pairs {
            assert_eq!(pair(key(held)), held);
        }
    }
}
