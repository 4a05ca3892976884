//! The search for more gears beside searching each set's drawer by itself.
#![allow(clippy::arithmetic_side_effects)]

use super::super::{Banjo, Drawer, Mounting, Request, Tables};
use super::*;
use crate::exact::Ratio;
use alloc::vec;
use proptest::prelude::*;

/// Whether a drawer serves a wish, by the search for the best train.
fn serves(gears: &[u32], group: &Group, wish: &Wish) -> bool {
    let drawer = Drawer::new(gears).unwrap();
    let Ok(tables) = Tables::new(&drawer, group.pairs_max) else { return false };
    wish.ratios.iter().any(|&target| {
        let request = Request {
            target,
            before_train: Ratio::ONE,
            gearbox: &[Ratio::ONE],
            pairs_max: group.pairs_max,
            mounting: group.mounting,
            keep: 1,
        };
        let (best, complete) = tables.best_mountable(&request).unwrap();
        assert!(complete);
        best.is_some_and(|train| match wish.within {
            None => train.exact(),
            Some(within) => train.error.abs() <= within,
        })
    })
}

fn gears_of(drawer: &Drawer) -> Vec<u32> {
    drawer.sizes().flat_map(|(teeth, owned)| vec![u32::from(teeth); owned.into()]).collect()
}

/// Every set by itself.
fn plainly(question: &Question) -> (u32, Vec<Vec<u16>>, u64) {
    let mut best = (0, Vec::new(), 0);
    let n = question.sizes.len() as u16;
    sets::each(n, question.add, |places| {
        let set: Vec<u16> = places.iter().map(|&p| question.sizes[usize::from(p)]).collect();
        let mut gained = 0;
        for group in &question.groups {
            let owned = gears_of(&group.drawer);
            let more = [owned.clone(), set.iter().map(|&t| t.into()).collect()].concat();
            for wish in &group.wishes {
                if !serves(&owned, group, wish) && serves(&more, group, wish) {
                    gained += wish.weight;
                }
            }
        }
        best.2 += 1;
        match gained.cmp(&best.0) {
            core::cmp::Ordering::Greater => {
                best.0 = gained;
                best.1 = vec![set];
            }
            core::cmp::Ordering::Equal => best.1.push(set),
            core::cmp::Ordering::Less => {}
        }
    });
    best
}

fn agrees(question: &Question, budget: u64) {
    let mut search = Search::new(question).unwrap();
    let mut before = 0;
    loop {
        let progress = search.step(budget);
        assert!(progress.done >= before && progress.done <= progress.of);
        before = progress.done;
        if progress.finished() {
            break;
        }
    }
    let found = search.found(usize::MAX);
    let (gained, best, tried) = plainly(question);
    assert!(found.complete);
    assert_eq!(found.gained, gained);
    let sets: Vec<Vec<u16>> = found.best.iter().map(|added| added.gears.clone()).collect();
    assert_eq!(sets, best);
    assert_eq!((found.tried, found.ties), (tried, best.len() as u64));
    let mut wishes = question.groups.iter().flat_map(|group| {
        let owned = gears_of(&group.drawer);
        group.wishes.iter().map(move |wish| serves(&owned, group, wish))
    });
    assert!(found.served.iter().all(|&served| wishes.next() == Some(served)));
}

fn mounting() -> impl Strategy<Value = Mounting> {
    let rule = |k, centres| Mounting::Shop { stud_clearance_teeth: k, centres_teeth: centres };
    let banjo = |centres, slot: i64, boss| {
        Mounting::Banjo(Banjo {
            module: Ratio::ONE,
            centres: Ratio::whole(centres),
            slot: (Ratio::whole(slot), Ratio::whole(slot + 25)),
            boss_radius: Ratio::whole(boss),
        })
    };
    prop_oneof![
        Just(Mounting::Free),
        (0u32..60).prop_map(move |k| rule(k, None)),
        (0u32..40, 60u32..150, 0u32..20).prop_map(move |(k, n, w)| rule(k, Some((n, n + w)))),
        (40i64..120, 20i64..60, 0i64..12).prop_map(move |(c, s, b)| banjo(c, s, b)),
    ]
}

fn ratio() -> impl Strategy<Value = Ratio> {
    prop_oneof![
        (1i64..40, 1i64..40).prop_map(|(n, d)| Ratio::of(n, d)),
        (1i64..40).prop_map(|n| Ratio::of(n * 5, 127)),
        (1i64..2000, 1i64..2000).prop_map(|(n, d)| Ratio::of(n, d)),
    ]
}

fn wish() -> impl Strategy<Value = Wish> {
    let within = prop_oneof![
        2 => Just(None),
        1 => (1i64..300).prop_map(|n| Some(Ratio::of(n, 100_000))),
        1 => Just(Some(Ratio::ZERO)),
    ];
    (proptest::collection::vec(ratio(), 1..4), within, 1u32..3)
        .prop_map(|(ratios, within, weight)| Wish { ratios, within, weight })
}

fn group(gears: usize, pairs: u8) -> impl Strategy<Value = Group> {
    let gear = prop_oneof![(4u32..16).prop_map(|n| n * 5), 12u32..70, Just(20u32)];
    (
        proptest::collection::vec(gear, 0..gears),
        1..=pairs,
        mounting(),
        proptest::collection::vec(wish(), 1..5),
    )
        .prop_map(|(gears, pairs_max, mounting, wishes)| Group {
            drawer: Drawer::new(&gears).unwrap(),
            pairs_max,
            mounting,
            wishes,
        })
}

fn sizes(most: usize) -> impl Strategy<Value = Vec<u16>> {
    let size = prop_oneof![(4u16..14).prop_map(|n| n * 5), 12u16..80, Just(127u16)];
    proptest::collection::btree_set(size, 1..most).prop_map(|set| set.into_iter().collect())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn one_gear(group in group(10, 3), sizes in sizes(12), budget in 1u64..2_000_000) {
        agrees(&Question { groups: vec![group], sizes, add: 1 }, budget);
    }

    #[test]
    fn two_gears(group in group(8, 3), sizes in sizes(8), budget in 1u64..2_000_000) {
        agrees(&Question { groups: vec![group], sizes, add: 2 }, budget);
    }

    #[test]
    fn three_gears(group in group(6, 3), sizes in sizes(6), budget in 1u64..2_000_000) {
        agrees(&Question { groups: vec![group], sizes, add: 3 }, budget);
    }

    #[test]
    fn two_drawers(one in group(6, 3), two in group(6, 2), sizes in sizes(6), add in 1u8..=3) {
        agrees(&Question { groups: vec![one, two], sizes, add }, 10_000);
    }
}
