//! The complete search beside the plain one that tries everything.

use latheside_core::exact::Ratio;
use latheside_core::gearing::{Banjo, Drawer, Found, Mounting, Request, Tables, Train, search};
use latheside_tests::slow::gearing::{Way, every_way, goes_on, sizes};
use proptest::collection::vec;
use proptest::prelude::*;

fn ratio(n: std::ops::Range<i64>, d: std::ops::Range<i64>) -> impl Strategy<Value = Ratio> {
    (n, d).prop_map(|(n, d)| Ratio::of(n, d))
}

fn shop() -> impl Strategy<Value = Mounting> {
    let centres = prop_oneof![
        2 => Just(None),
        1 => (10u32..120, 0u32..40).prop_map(|(least, more)| Some((least, least + more))),
    ];
    (0u32..60, centres).prop_map(|(stud_clearance_teeth, centres_teeth)| Mounting::Shop {
        stud_clearance_teeth,
        centres_teeth,
    })
}

fn banjo() -> impl Strategy<Value = Mounting> {
    let module = prop_oneof![
        Just(Ratio::ONE),
        Just(Ratio::of(5, 4)),
        Just(Ratio::of(127, 80)),
        Just(Ratio::of(1, 3))
    ];
    (module, ratio(20..120, 1..3), ratio(0..60, 1..4), ratio(1..60, 1..4), ratio(0..24, 1..5))
        .prop_map(|(module, centres, from, long, boss_radius)| {
            Mounting::Banjo(Banjo {
                module,
                centres,
                slot: (from, from.add(long).unwrap()),
                boss_radius,
            })
        })
}

fn mounting() -> impl Strategy<Value = Mounting> {
    prop_oneof![1 => Just(Mounting::Free), 3 => shop(), 3 => banjo()]
}

/// Drawers with many equal and commensurable sizes, and with none.
fn gears(most: usize) -> impl Strategy<Value = Vec<u32>> {
    let one = prop_oneof![
        3 => (4u32..14).prop_map(|n| n * 5),
        2 => 12u32..80,
        1 => 1u32..1000,
        1 => Just(20u32),
    ];
    vec(one, 2..=most)
}

/// A target: any, or one that some gears reach, so that exact answers are common.
fn target() -> impl Strategy<Value = Ratio> {
    prop_oneof![
        2 => ratio(1..40, 1..40),
        1 => Just(Ratio::of(120, 127)),
        1 => ratio(1..1_000_000, 1..1_000_000),
        1 => (1i64..1_000_000_000).prop_map(|n| Ratio::of(3_141_592_653_589_793, 1_000_000 * n)),
        1 => Just(Ratio::ONE),
    ]
}

fn gearbox() -> impl Strategy<Value = Vec<Ratio>> {
    prop_oneof![2 => Just(vec![Ratio::ONE]), 1 => vec(ratio(1..9, 1..9), 1..4)]
}

fn shape(train: &Train) -> (bool, Ratio, usize, Option<Ratio>) {
    (train.mountable, train.error.abs(), train.pairs().len(), train.clearance)
}

fn same_shape(way: &Way) -> (bool, Ratio, usize, Option<Ratio>) {
    (way.mountable, way.error.abs(), way.drivers.len(), way.clearance)
}

/// Every train of the answer is one of the ways, each at most once, and stands as it says.
fn trains_hold(gears: &[u32], request: &Request<'_>, found: &Found, ways: &[Way]) {
    let sizes = sizes(gears);
    let mut seen = Vec::new();
    for train in &found.best {
        let drivers: Vec<u16> = train.pairs().iter().map(|pair| pair.driver).collect();
        let driven: Vec<u16> = train.pairs().iter().map(|pair| pair.driven).collect();
        let here = goes_on(&request.mounting, &sizes, &drivers, &driven);
        assert_eq!(here, (train.mountable, train.clearance), "{train:?}");
        let (mut a, mut b) = (drivers, driven);
        a.sort_unstable();
        b.sort_unstable();
        let way = ways
            .iter()
            .position(|way| (&way.drivers, &way.driven, way.gearbox) == (&a, &b, train.gearbox))
            .expect("a selection that the drawer allows");
        assert!(!seen.contains(&way), "twice: {train:?}");
        seen.push(way);
        let way = &ways[way];
        assert_eq!(shape(train), same_shape(way));
        assert_eq!(train.error, way.error);
        assert_eq!(train.total.div(request.target).unwrap().sub(Ratio::ONE).unwrap(), way.error);
        let single_on_banjo = train.mountable
            && train.pairs().len() == 1
            && matches!(request.mounting, Mounting::Banjo(_));
        assert_eq!(train.idler.is_some(), single_on_banjo);
    }
}

fn least(ways: &[&Way]) -> Option<(Ratio, u64)> {
    let least = ways.iter().map(|way| way.error.abs()).min()?;
    Some((least, ways.iter().filter(|way| way.error.abs() == least).count() as u64))
}

/// The whole answer beside everything there is.
fn agrees(gears: &[u32], request: &Request<'_>) {
    let found = search(&Drawer::new(gears).unwrap(), request).unwrap();
    let ways = every_way(gears, request);
    assert!(found.complete);
    trains_hold(gears, request, &found, &ways);

    let all: Vec<&Way> = ways.iter().collect();
    let mountable: Vec<&Way> = ways.iter().filter(|way| way.mountable).collect();
    let (least_all, count) = least(&all).expect("a pair");
    assert_eq!((found.all.least_error.abs(), found.all.count), (least_all, count), "all");
    let reached = found.mountable.map(|reached| (reached.least_error.abs(), reached.count));
    assert_eq!(reached, least(&mountable), "mountable");

    // The list: the best of the plain one, and the nearest of all where it isn't among them.
    let mut expected: Vec<_> = ways.iter().take(request.keep).map(same_shape).collect();
    if mountable.len() >= request.keep
        && request.keep > 1
        && mountable[0].error.abs() > least_all
        && let Some(last) = expected.last_mut()
    {
        let nearest = ways.iter().find(|way| !way.mountable).unwrap();
        assert_eq!(nearest.error.abs(), least_all);
        *last = same_shape(nearest);
    }
    assert_eq!(found.best.iter().map(shape).collect::<Vec<_>>(), expected);
    // The sign is that of the best that comes as near.
    if let (Some(reached), Some(first)) = (found.mountable, found.best.first()) {
        assert_eq!(reached.least_error, first.error);
    }

    // And the short cut for a chart gives the first of the list.
    let tables = Tables::new(&Drawer::new(gears).unwrap(), request.pairs_max).unwrap();
    let (best, complete) = tables.best_mountable(request).unwrap();
    assert!(complete);
    assert_eq!(best.as_ref().map(shape), mountable.first().map(|way| same_shape(way)));
    assert_eq!(
        best,
        found.best.first().copied().filter(|train| train.mountable || request.keep == 0)
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn one_and_two_pairs(
        gears in gears(9), target in target(), before in ratio(1..4, 1..4), gearbox in gearbox(),
        pairs_max in 1u8..=2, mounting in mounting(), keep in 1usize..50,
    ) {
        agrees(&gears, &Request { target, before_train: before, gearbox: &gearbox, pairs_max, mounting, keep });
    }

    #[test]
    fn three_pairs(
        gears in gears(7), target in target(), gearbox in gearbox(), mounting in mounting(), keep in 1usize..50,
    ) {
        agrees(&gears, &Request { target, before_train: Ratio::ONE, gearbox: &gearbox, pairs_max: 3, mounting, keep });
    }

    /// Few gears on, many near: the trains are built from the middle outwards.
    #[test]
    fn three_pairs_that_hardly_go_on(
        gears in gears(8), target in target(), k in 20u32..80, keep in 1usize..6,
    ) {
        let mounting = Mounting::Shop { stud_clearance_teeth: k, centres_teeth: None };
        agrees(&gears, &Request { target, before_train: Ratio::ONE, gearbox: &[Ratio::ONE, Ratio::of(1, 2)], pairs_max: 3, mounting, keep });
    }
}
