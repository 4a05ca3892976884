//! Advice on more gears and circles beside trying everything, and beside known answers.

use latheside_core::chart::{Advice, Allowed, Circles, Lathe, Spare, Wants};
use latheside_core::dividing::{DividingError, Head, Kit, ways};
use latheside_core::exact::Ratio;
use latheside_core::gearing::more::{Group, Question, Search, Wish};
use latheside_core::gearing::{Banjo, Drawer, Mounting};
use latheside_core::threads::{Lead, parse};
use latheside_tests::slow::more::{best, served, sets};
use proptest::collection::{btree_set, vec};
use proptest::prelude::*;

fn mounting() -> impl Strategy<Value = Mounting> {
    let shop = |k, centres| Mounting::Shop { stud_clearance_teeth: k, centres_teeth: centres };
    let banjo = |centres, slot: i64, boss| {
        Mounting::Banjo(Banjo {
            module: Ratio::of(5, 4),
            centres: Ratio::whole(centres),
            slot: (Ratio::whole(slot), Ratio::whole(slot + 30)),
            boss_radius: Ratio::whole(boss),
        })
    };
    prop_oneof![
        Just(Mounting::Free),
        (0u32..60).prop_map(move |k| shop(k, None)),
        (0u32..40, 60u32..150, 0u32..20).prop_map(move |(k, n, w)| shop(k, Some((n, n + w)))),
        (60u32..150, 0u32..20).prop_map(|(n, w)| Mounting::Mesh(n, n + w)),
        (40i64..120, 20i64..60, 0i64..12).prop_map(move |(c, s, b)| banjo(c, s, b)),
    ]
}

fn wish() -> impl Strategy<Value = Wish> {
    let ratio = prop_oneof![
        (1i64..40, 1i64..40).prop_map(|(n, d)| Ratio::of(n, d)),
        (1i64..40).prop_map(|n| Ratio::of(n * 5, 127)),
        (1i64..4000, 1i64..4000).prop_map(|(n, d)| Ratio::of(n, d)),
    ];
    let within = prop_oneof![
        2 => Just(None),
        1 => (0i64..300).prop_map(|n| Some(Ratio::of(n, 100_000))),
    ];
    (vec(ratio, 0..4), within, 1u32..3).prop_map(|(ratios, within, weight)| Wish {
        ratios,
        within,
        weight,
    })
}

fn gears(most: usize) -> impl Strategy<Value = Vec<u32>> {
    let gear = prop_oneof![(4u32..16).prop_map(|n| n * 5), 12u32..70, Just(20u32)];
    vec(gear, 0..most)
}

fn shelf(most: usize) -> impl Strategy<Value = Vec<u16>> {
    let size = prop_oneof![(4u16..14).prop_map(|n| n * 5), 12u16..80, Just(127u16)];
    btree_set(size, 1..most).prop_map(|set| set.into_iter().collect())
}

/// The best sets, all of them, how many were tried, and what each brings.
fn agrees(
    gears: &[u32],
    pairs_max: u8,
    mounting: Mounting,
    wishes: Vec<Wish>,
    from: &[u16],
    add: u8,
) {
    let drawer = Drawer::new(gears).unwrap();
    let group = Group { drawer, pairs_max, mounting, wishes };
    let question = Question { groups: vec![group.clone()], sizes: from.to_vec(), add };
    let mut search = Search::new(&question).unwrap();
    while !search.step(1000).finished() {}
    let found = search.found(usize::MAX);
    let (gained, plain, tried) = best(gears, &group, from, add.into());
    let mut listed: Vec<_> = found.best.iter().map(|added| added.gears.clone()).collect();
    listed.sort();
    assert_eq!((found.gained, found.tried, found.ties), (gained, tried as u64, plain.len() as u64));
    assert_eq!(listed, plain);
    let before = served(gears, &group);
    assert_eq!(found.served, before);
    for added in found.best.iter().take(3) {
        let with = |more: &[u16]| {
            let all: Vec<u32> =
                gears.iter().copied().chain(more.iter().map(|&t| t.into())).collect();
            let now = served(&all, &group);
            (0..now.len()).filter(|&at| now[at] && !before[at]).collect::<Vec<usize>>()
        };
        assert_eq!(added.gained, with(&added.gears));
        for (teeth, alone) in added.gears.iter().zip(&added.alone) {
            assert_eq!(*alone, with(&[*teeth]));
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(120))]

    #[test]
    fn one_more_gear(
        gears in gears(9), pairs in 1u8..=3, mounting in mounting(), wishes in vec(wish(), 1..5),
        from in shelf(10),
    ) {
        agrees(&gears, pairs.min(if gears.len() > 6 { 2 } else { 3 }), mounting, wishes, &from, 1);
    }

    #[test]
    fn two_more_gears(
        gears in gears(7), pairs in 1u8..=3, mounting in mounting(), wishes in vec(wish(), 1..4),
        from in shelf(5),
    ) {
        agrees(&gears, pairs.min(if gears.len() > 5 { 2 } else { 3 }), mounting, wishes, &from, 2);
    }

    #[test]
    fn three_more_gears(
        gears in gears(5), pairs in 1u8..=3, mounting in mounting(), wishes in vec(wish(), 1..4),
        from in shelf(4),
    ) {
        agrees(&gears, pairs, mounting, wishes, &from, 3);
    }
}

const PLATES: [&[u16]; 3] =
    [&[15, 16, 17, 18, 19, 20], &[21, 23, 27, 29, 31, 33], &[37, 39, 41, 43, 47, 49]];
const TWELVE: [u16; 12] = [24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100];

fn head(gears: &[u16], pairs_max: u8) -> Head {
    Head {
        worm_ratio: 40,
        plates: PLATES.iter().map(|plate| plate.to_vec()).collect(),
        gears: gears.to_vec(),
        pairs_max,
        stud_clearance_teeth: None,
        centres_teeth: None,
    }
}

fn advice(kit: &Kit, divisions: &[u32], from: &[u16], add: u8) -> latheside_core::chart::More {
    let wants = Wants { threads: vec![], divisions: divisions.to_vec() };
    let mut advice = Advice::new(None, Some(kit), &wants, Allowed::default(), from, add).unwrap();
    while !advice.step(100_000).finished() {}
    advice.found(usize::MAX)
}

const KNOWN: &str = "known answer: with 40:1, the common three plates and the common twelve gears 383 \
    can't be divided; a 20, 23, 26 or 30 tooth gear makes it possible with two pairs, a 21, 22 or 25 doesn't";

#[test]
fn what_makes_383_possible() {
    let kit = Kit { head: Some(head(&TWELVE, 2)), ..Kit::default() };
    assert_eq!(ways(383, &kit).unwrap().found.all(), 0, "{KNOWN}");
    let from: Vec<u16> = (18..=60).collect();
    let found = advice(&kit, &[383], &from, 1);
    assert_eq!((found.gained, found.before, found.of, found.tried), (1, 0, 1, 43), "{KNOWN}");
    let good: Vec<u16> = found.best.iter().map(|added| added.gears[0]).collect();
    for teeth in [20, 23, 26, 30] {
        assert!(good.contains(&teeth), "{teeth}: {KNOWN}");
    }
    for teeth in [21, 22, 25] {
        assert!(!good.contains(&teeth), "{teeth}: {KNOWN}");
    }
    // And each one, by the search that divides.
    for teeth in from {
        let mut gears = TWELVE.to_vec();
        gears.push(teeth);
        let kit = Kit { head: Some(head(&gears, 2)), ..Kit::default() };
        let possible = ways(383, &kit).unwrap().found.two_pairs > 0;
        assert_eq!(possible, good.contains(&teeth), "{teeth}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// Every number, by the search that divides, with each set of gears added.
    #[test]
    fn gears_for_divisions(
        gears in vec(prop_oneof![(6u16..26).prop_map(|n| n * 4), 20u16..60], 1..7),
        divisions in btree_set(51u32..400, 1..5), from in btree_set(20u16..64, 1..5),
        k in prop_oneof![Just(None), (0u16..30).prop_map(Some)],
        centres in prop_oneof![2 => Just(None), 1 => (60u16..120).prop_map(|n| Some((n, n + 30)))],
        add in 1u8..=2, pairs_max in 1u8..=2,
    ) {
        let head = Head { stud_clearance_teeth: k, centres_teeth: centres, ..head(&gears, pairs_max) };
        let kit = Kit { head: Some(head.clone()), ..Kit::default() };
        let divisions: Vec<u32> = divisions.into_iter().collect();
        let from: Vec<u16> = from.into_iter().collect();
        let possible = |gears: &[u16], into: u32| {
            let head = Head { gears: gears.to_vec(), ..head.clone() };
            let found = ways(into, &Kit { head: Some(head), ..Kit::default() }).unwrap();
            assert!(found.complete);
            found.found.all() > 0
        };
        let before: Vec<bool> = divisions.iter().map(|&into| possible(&gears, into)).collect();
        let mut best = (0, vec![]);
        for set in sets(&from, add.into()) {
            let more = [gears.clone(), set.clone()].concat();
            let now = divisions.iter().zip(&before);
            let gained = now.filter(|&(&into, &before)| !before && possible(&more, into)).count();
            if gained > best.0 {
                best = (gained, vec![]);
            }
            if gained == best.0 {
                best.1.push(set);
            }
        }
        let found = advice(&kit, &divisions, &from, add);
        prop_assert_eq!(&found.served, &before);
        prop_assert_eq!(found.gained as usize, best.0);
        let mut listed: Vec<_> = found.best.iter().map(|added| added.gears.clone()).collect();
        listed.sort();
        prop_assert_eq!(listed, best.1);
    }

    /// Every number, by the search that divides, with each plate added.
    #[test]
    fn circles_for_divisions(
        gears in vec((6u16..26).prop_map(|n| n * 4), 0..4),
        divisions in btree_set(51u32..400, 1..6), from in btree_set(15u16..70, 1..7), add in 1u8..=3,
    ) {
        let head = head(&gears, if gears.is_empty() { 0 } else { 2 });
        let kit = Kit { head: Some(head.clone()), ..Kit::default() };
        let divisions: Vec<u32> = divisions.into_iter().collect();
        let from: Vec<u16> = from.into_iter().collect();
        let possible = |plate: &[u16], into: u32| {
            let mut head = head.clone();
            head.plates.push(plate.to_vec());
            let found = ways(into, &Kit { head: Some(head), ..Kit::default() }).unwrap();
            found.found.all() > 0
        };
        let before: Vec<bool> = divisions.iter().map(|&into| possible(&[], into)).collect();
        let mut best = (0, vec![]);
        for set in sets(&from, add.into()) {
            let now = divisions.iter().zip(&before);
            let gained = now.filter(|&(&into, &before)| !before && possible(&set, into)).count();
            if gained > best.0 {
                best = (gained, vec![]);
            }
            if gained == best.0 {
                best.1.push(set);
            }
        }
        let mut search = Circles::new(&kit, &divisions, &from, add).unwrap();
        while !search.step(3).finished() {}
        let found = search.found(usize::MAX);
        prop_assert!(found.complete);
        prop_assert_eq!(&found.served, &before);
        prop_assert_eq!(found.gained as usize, best.0);
        let mut listed: Vec<_> = found.best.iter().map(|added| added.gears.clone()).collect();
        listed.sort();
        prop_assert_eq!(listed, best.1);
    }
}

#[test]
fn circles_need_a_head() {
    let none = Circles::new(&Kit { direct: vec![24], ..Kit::default() }, &[51], &[17], 1);
    assert_eq!(none.unwrap_err(), DividingError::NothingOwned);
}

fn lathe(gears: &[u32], screw: Lead, pairs_max: u8) -> Lathe {
    Lathe {
        drawer: Drawer::new(gears).unwrap(),
        screw,
        before_train: Ratio::ONE,
        gearbox: vec![Ratio::ONE],
        levers: vec![None],
        mounting: Mounting::Shop { stud_clearance_teeth: 15, centres_teeth: None },
        pairs_max,
        tumbler: None,
        screw_hand: None,
    }
}

/// The wanted threads that come out exactly, by the wishes of the lathe's own words.
#[test]
fn a_metric_lathe_wants_the_127_for_inch_threads() {
    let gears: Vec<u32> = (4..=24).map(|n| n * 5).collect();
    let lathe = lathe(&gears, Lead::of_mm(Ratio::whole(3)), 2);
    let names = ["8 tpi", "19 tpi", "26 tpi", "M10", "module 1", "1/4-20 UNC", "20 tpi"];
    let threads = names.iter().map(|name| parse(name).unwrap()).collect();
    let wants = Wants { threads, divisions: vec![] };
    let from: Vec<u16> = (20..=127).collect();
    let mut advice = Advice::new(Some(&lathe), None, &wants, Allowed::default(), &from, 1).unwrap();
    while !advice.step(10_000).finished() {}
    let found = advice.found(10);
    // Only a gear with 127 in it brings the inch, 25.4 mm; a π is never exact.
    assert_eq!(found.best.len(), 1);
    assert_eq!(found.best[0].gears, [127], "independent computation: 127/150 and its like");
    assert_eq!(found.best[0].gained, [0, 1, 2, 5, 6]);
    assert_eq!(found.served, [false, false, false, true, false, false, false]);
    assert_eq!((found.gained, found.before, found.of), (5, 1, 7));
}

#[test]
fn a_spared_gear_is_never_missed() {
    let gears = [20, 20, 30, 40, 45, 50, 60, 63, 80, 100];
    let lathe = lathe(&gears, Lead::of_mm(Ratio::whole(3)), 2);
    let names = ["1 mm", "1.5 mm", "2 mm", "0.75 mm", "20 tpi", "M12"];
    let leads: Vec<Lead> = names.iter().map(|name| parse(name).unwrap().lead().unwrap()).collect();
    let mut spare = Spare::new(lathe.clone(), &leads).unwrap();
    let mut last = 0;
    loop {
        let progress = spare.step(1).unwrap();
        assert!(progress.done >= last && progress.done <= progress.of);
        last = progress.done;
        if progress.finished() {
            break;
        }
    }
    let least = |gears: &[u32]| -> Vec<Option<Ratio>> {
        let best = |lead: &Lead| {
            let request = lathe.request(*lead).unwrap();
            let ways = latheside_tests::slow::gearing::every_way(gears, &request);
            ways.iter().filter(|way| way.mountable).map(|way| way.error.abs()).min()
        };
        leads.iter().map(best).collect()
    };
    let without = |gears: &[u32], gone: u32| {
        let mut left = gears.to_vec();
        left.remove(left.iter().position(|gear| *gear == gone).unwrap());
        left
    };
    let all = least(&gears);
    let mut each: Vec<u16> = gears.iter().map(|&gear| gear as u16).collect();
    each.dedup();
    each.retain(|gear| least(&without(&gears, u32::from(*gear))) == all);
    assert_eq!(spare.found().each, each);
    assert!(!each.is_empty() && each.len() < 9, "{each:?}");
    let mut left = gears.to_vec();
    for gone in &spare.found().together {
        left = without(&left, u32::from(*gone));
    }
    assert_eq!(least(&left), all);
    for gear in left.clone() {
        assert_ne!(least(&without(&left, gear)), all, "{gear} could go as well");
    }
}

#[test]
fn what_cannot_be_asked_is_refused() {
    let question = |sizes: Vec<u16>, add| Question { groups: vec![], sizes, add };
    let why = |q: Question| Search::new(&q).unwrap_err().to_string();
    assert_eq!(why(question(vec![20], 4)), "4 more gears are not one, two or three");
    assert_eq!(why(question(vec![0], 1)), "a gear can't have 0 teeth");
    assert!(why(question(vec![1000], 1)).contains("1000"));
    let many = why(question((1..=999).collect(), 3));
    assert_eq!(many, "3 gears of 999 sizes are more than can be tried: narrow the bounds");
    let mut none = Search::new(&question(vec![], 1)).unwrap();
    while !none.step(10).finished() {}
    assert!(none.found(10).best.is_empty());
}
