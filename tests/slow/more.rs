//! What more gears would do, the plain way: every set of them, and for each every selection.

use super::gearing::{every_selection, mounted, sizes};
use latheside_core::exact::Ratio;
use latheside_core::gearing::more::{Group, Wish};

/// Every set of so many of these, a size as often as one likes, smallest first.
#[must_use]
pub fn sets(of: &[u16], add: usize) -> Vec<Vec<u16>> {
    if add == 0 {
        return vec![vec![]];
    }
    let mut all = Vec::new();
    for shorter in sets(of, add - 1) {
        for &teeth in of {
            if shorter.last().is_none_or(|&last| last <= teeth) {
                all.push([shorter.clone(), vec![teeth]].concat());
            }
        }
    }
    all
}

/// Which wishes these gears serve.
#[must_use]
pub fn served(gears: &[u32], group: &Group) -> Vec<bool> {
    let mut served = vec![false; group.wishes.len()];
    let owned = sizes(gears);
    every_selection(gears, group.pairs_max, |drivers, driven| {
        let product = |side: &[u16]| side.iter().map(|&g| i128::from(g)).product::<i128>();
        let (above, below) = (product(drivers), product(driven));
        let mut goes_on = None;
        for (served, wish) in served.iter_mut().zip(&group.wishes) {
            if !*served && wish.ratios.iter().any(|&ratio| meets(above, below, ratio, wish)) {
                *served = *goes_on
                    .get_or_insert_with(|| mounted(&group.mounting, &owned, drivers, driven).0);
            }
        }
    });
    served
}

fn meets(above: i128, below: i128, ratio: Ratio, wish: &Wish) -> bool {
    let (cut, wanted) = (above * ratio.denom(), below * ratio.numer());
    match wish.within {
        None => cut == wanted,
        Some(within) => (cut - wanted).abs() * within.denom() <= wanted * within.numer(),
    }
}

/// The most that any set serves which wasn't served before, every set that does, and how many were tried.
#[must_use]
pub fn best(gears: &[u32], group: &Group, from: &[u16], add: usize) -> (u32, Vec<Vec<u16>>, usize) {
    let before = served(gears, group);
    let mut best = (0, Vec::new(), 0);
    for set in sets(from, add) {
        let more: Vec<u32> = gears.iter().copied().chain(set.iter().map(|&t| t.into())).collect();
        let gained = served(&more, group)
            .iter()
            .zip(&before)
            .zip(&group.wishes)
            .filter(|((now, before), _)| **now && !**before)
            .map(|(_, wish)| wish.weight)
            .sum::<u32>();
        best.2 += 1;
        if gained > best.0 {
            best.0 = gained;
            best.1.clear();
        }
        if gained == best.0 {
            best.1.push(set);
        }
    }
    best
}
