//! Differential indexing beside trade tables and an independent search.

#[rustfmt::skip]
const TABLE: &[(u32, u16, u16, &[(u16, u16)], &str, u8)] = &[
    // divisions, holes, circle, gears (driver, driven; spindle first), turns of the plate, idlers
    (53, 35, 49, &[(72, 24), (40, 56)], "15/7", 0),
    (57, 35, 49, &[(40, 56)], "-5/7", 2),
    (59, 26, 39, &[(32, 48)], "2/3", 1),
    (61, 26, 39, &[(32, 48)], "-2/3", 2),
    (63, 26, 39, &[(48, 24)], "-2", 2),
    (67, 28, 49, &[(48, 28)], "12/7", 1),
    (69, 12, 20, &[(56, 40)], "-7/5", 2),
    (77, 10, 20, &[(48, 32)], "3/2", 1),
    (79, 10, 20, &[(24, 48)], "1/2", 1),
    (81, 10, 20, &[(24, 48)], "-1/2", 2),
    (83, 10, 20, &[(48, 32)], "-3/2", 2),
    (87, 7, 15, &[(24, 40)], "-3/5", 2),
    (89, 8, 18, &[(32, 72)], "4/9", 1),
    (93, 8, 18, &[(32, 24)], "-4/3", 2),
    (96, 9, 21, &[(32, 28)], "-8/7", 2),
    (97, 8, 20, &[(48, 40)], "6/5", 1),
    (99, 8, 20, &[(32, 40), (28, 56)], "2/5", 0),
    (102, 8, 20, &[(32, 40)], "-4/5", 2),
    (103, 8, 20, &[(48, 40)], "-6/5", 2),
    (106, 16, 43, &[(48, 24), (24, 86)], "24/43", 0),
    (107, 8, 20, &[(64, 32), (56, 40)], "-14/5", 1),
    (109, 6, 16, &[(28, 32)], "-7/8", 2),
    (111, 13, 39, &[(72, 24)], "3", 1),
    (113, 13, 39, &[(56, 24)], "7/3", 1),
    (117, 13, 39, &[(24, 24)], "1", 1),
    (119, 13, 39, &[(24, 72)], "1/3", 1),
    (121, 13, 39, &[(24, 72)], "-1/3", 2),
    (122, 13, 39, &[(32, 48)], "-2/3", 2),
    (123, 13, 39, &[(24, 24)], "-1", 2),
    (126, 13, 39, &[(48, 24)], "-2", 2),
    (127, 13, 39, &[(56, 24)], "-7/3", 2),
    (133, 6, 21, &[(48, 24)], "2", 1),
    (137, 6, 21, &[(24, 28)], "6/7", 1),
    (139, 6, 21, &[(24, 48), (32, 56)], "2/7", 0),
    (143, 6, 21, &[(24, 28)], "-6/7", 2),
    (147, 6, 21, &[(48, 24)], "-2", 2),
    (149, 6, 21, &[(72, 28)], "-18/7", 2),
    (159, 5, 20, &[(28, 56), (32, 64)], "1/4", 0),
    (167, 5, 20, &[(56, 32)], "-7/4", 2),
    (173, 4, 18, &[(64, 32), (56, 72)], "14/9", 0),
    (179, 4, 18, &[(32, 48), (24, 72)], "2/9", 0),
    (187, 4, 18, &[(56, 24), (48, 72)], "-14/9", 1),
    (193, 4, 20, &[(56, 40)], "7/5", 1),
    (199, 4, 20, &[(32, 64), (40, 100)], "1/5", 0),
    (211, 3, 16, &[(28, 64)], "7/16", 1),
    (227, 8, 49, &[(72, 28), (64, 56)], "144/49", 0),
    (239, 3, 18, &[(32, 64), (24, 72)], "1/6", 0),
    (251, 3, 18, &[(64, 32), (44, 48)], "-11/6", 1),
    (263, 8, 49, &[(72, 28), (64, 56)], "-144/49", 1),
    (319, 4, 29, &[(72, 24), (64, 48)], "-4", 1),
];

#[rustfmt::skip]
const COUNTS: &[(u32, usize, usize)] = &[
    // divisions, settings of one pair, of two
    (59, 14, 62),
    (67, 3, 49),
    (83, 7, 31),
    (97, 4, 24),
    (131, 3, 33),
    (233, 2, 5),
    (382, 1, 5),
];

use super::{COMPUTED, THREE_PLATES, TWELVE_GEARS, full_head, full_kit};
use latheside_core::dividing::{Head, Method, Setting, Train, Way, differential, ways};
use latheside_core::exact::Ratio;
use std::collections::HashSet;

const TRADE_TABLE: &str = "trade differential table for 40:1 heads (one maker's catalogue, widely reprinted), from memory";
const FORMULA: &str = "scribd.com/document/704783930 textbook extract s. 1.15.4; scribd.com/document/786546758 gives (A-N)*40/A";

fn train(way: &Way) -> Train {
    let Setting::Differential { train, .. } = way.setting else { panic!("{way:?}") };
    train
}

/// Drivers and driven, each smallest first: their order on the studs makes no difference.
fn selection(pairs: &[(u16, u16)]) -> (Vec<u16>, Vec<u16>) {
    let (mut drivers, mut driven): (Vec<u16>, Vec<u16>) = pairs.iter().copied().unzip();
    drivers.sort_unstable();
    driven.sort_unstable();
    (drivers, driven)
}

#[test]
fn every_row_of_the_trade_table() {
    let head = full_head(40);
    for (divisions, holes, circle, gears, ratio, idlers) in TABLE {
        let ways = match gears.len() {
            1 => differential::one_pair(*divisions, &head),
            _ => differential::two_pairs(*divisions, &head).0,
        };
        let way = ways.iter().find(|way| match way.setting {
            Setting::Differential { turns: 0, holes: h, circle: c, train } => {
                (h, c) == (*holes, Some(*circle)) && selection(train.pairs()) == selection(gears)
            }
            _ => false,
        });
        let Some(way) = way else {
            panic!("{divisions}: {holes}/{circle} {gears:?}: {TRADE_TABLE}")
        };
        let train = train(way);
        assert_eq!(&train.ratio().unwrap().to_string(), ratio, "{divisions}: {TRADE_TABLE}");
        assert_eq!(train.idlers(), *idlers, "{divisions}: {TRADE_TABLE}");
        assert_eq!(train.with_crank(), !ratio.starts_with('-'), "{divisions}: {TRADE_TABLE}");
        assert_eq!(train.idlers_lacking(), 0, "{divisions}: twelve gears leave enough");
    }
    assert_eq!(TABLE.len(), 50);
}

#[test]
fn the_formula_of_the_textbooks() {
    // (n - N)·R/n with n the number actually set, and R - N·holes/circle, are the same.
    for (divisions, holes, circle, set, expected) in
        [(97, 8, 20, 100, Ratio::of(6, 5)), (233, 3, 18, 240, Ratio::of(7, 6))]
    {
        let formula = Ratio::of((set - divisions) * 40, set);
        assert_eq!(formula, expected, "{divisions}: {FORMULA}");
        let all = ways(u32::try_from(divisions).unwrap(), &full_kit()).unwrap();
        let has = all.ways.iter().any(|way| match way.setting {
            Setting::Differential { turns: 0, holes: h, circle: Some(c), train } => {
                (h, c) == (holes, circle) && train.ratio() == Ok(formula)
            }
            _ => false,
        });
        assert!(has, "{divisions}: {holes}/{circle} with {formula}: {FORMULA}");
    }
}

#[test]
fn which_way_the_plate_turns() {
    const SENSE: &str = "independent computation; the sense agrees with Practical Treatise on Milling and Milling Machines, p. 60";
    for divisions in 2..=382 {
        for way in differential::one_pair(divisions, &full_head(40)) {
            let Setting::Differential { turns, holes, circle, train } = way.setting else {
                panic!()
            };
            let circle = i64::from(circle.unwrap_or(1));
            // The number that the move would make with the plate held.
            let held = Ratio::of(40 * circle, i64::from(turns) * circle + i64::from(holes));
            let fewer = Ratio::from(divisions) < held;
            assert_eq!(train.with_crank(), fewer, "{divisions}: {SENSE}");
        }
    }
}

#[test]
fn idlers_on_the_usual_head() {
    const RULE: &str = "same direction simple 1, compound 0; opposite simple 2, compound 1: scribd.com/document/704783930 s. 1.15.4 for two of them, the counts from memory of trade tables";
    let mut seen = HashSet::new();
    for way in
        ways(97, &full_kit()).unwrap().ways.iter().chain(&ways(59, &full_kit()).unwrap().ways)
    {
        if way.method() == Method::Differential {
            let train = train(way);
            let expected = match (train.with_crank(), train.pairs().len()) {
                (true, 1) | (false, 2) => 1,
                (true, 2) => 0,
                _ => 2,
            };
            assert_eq!(train.idlers(), expected, "{RULE}");
            seen.insert((train.with_crank(), train.pairs().len()));
        }
    }
    assert_eq!(seen.len(), 4, "all four kinds were met");
    // Two gears alone leave none for an idler: said, and put behind what can be set up.
    let bare = Head { gears: vec![56, 24], pairs_max: 1, ..full_head(40) };
    assert!(differential::one_pair(127, &bare).iter().all(|way| train(way).idlers_lacking() == 2));
}

#[test]
fn how_many_settings_there_are() {
    let head = full_head(40);
    for (divisions, one, two) in COUNTS {
        let found = ways(*divisions, &full_kit()).unwrap().found;
        assert_eq!(
            differential::one_pair(*divisions, &head).len(),
            *one,
            "{divisions}: {COMPUTED}"
        );
        assert_eq!(
            differential::two_pairs(*divisions, &head).0.len(),
            *two,
            "{divisions}: {COMPUTED}"
        );
        assert_eq!((found.one_pair as usize, found.two_pairs as usize), (*one, *two));
    }
}

#[test]
fn what_the_twelve_gears_cover() {
    let divides = |kit, divisions| ways(divisions, kit).unwrap().found.all() > 0;
    let forty = full_kit();
    let not: Vec<u32> = (2..=500).filter(|n| !divides(&forty, *n)).collect();
    assert_eq!(not, [383, 401, 457, 471, 487, 489, 491], "{COMPUTED}");
    let sixty = latheside_core::dividing::Kit { head: Some(full_head(60)), ..Default::default() };
    assert!((2..=300).all(|n| divides(&sixty, n)), "60:1 up to 300, none: {COMPUTED}");
}

/// A head of 1:1 whose plate turns R - N·x shows every ratio by itself, one N at a time.
#[test]
fn how_many_ratios_the_gears_give() {
    let mut one = HashSet::new();
    let mut two = HashSet::new();
    let gears: Vec<(usize, &u16)> = TWELVE_GEARS.iter().enumerate().collect();
    for (a, driver) in &gears {
        for (_, driven) in gears.iter().filter(|(b, _)| b != a) {
            // The driver's teeth in a circle of the driven gear's: always a setting of one division.
            let pair = Head {
                plates: vec![vec![**driven]],
                gears: vec![**driver, **driven],
                pairs_max: 1,
                ..full_head(1)
            };
            let ways = differential::one_pair(1, &pair);
            one.extend(ways.iter().map(|way| train(way).ratio().unwrap().abs()));
        }
    }
    assert_eq!(one.len(), 99, "distinct one-pair ratios: {COMPUTED}");
    let product =
        |(_, one): &(usize, &u16), (_, two): &(usize, &u16)| i64::from(**one) * i64::from(**two);
    for a in &gears {
        for c in gears.iter().filter(|c| c.0 > a.0) {
            let left = || gears.iter().filter(|gear| gear.0 != a.0 && gear.0 != c.0);
            for b in left() {
                for d in left().filter(|d| d.0 > b.0) {
                    two.insert(Ratio::of(product(a, c), product(b, d)));
                }
            }
        }
    }
    assert_eq!(two.len(), 1309, "distinct two-pair ratios: {COMPUTED}");
    // Each is met by the search as a setting of some division, or has no circle that fits.
    let met: HashSet<Ratio> = (1..=400)
        .flat_map(|n| differential::two_pairs(n, &full_head(40)).0)
        .map(|way| train(&way).ratio().unwrap().abs())
        .collect();
    assert!(met.is_subset(&two));
    let circles: Vec<i128> = THREE_PLATES.concat().into_iter().map(i128::from).collect();
    for ratio in two.difference(&met) {
        assert!(circles.iter().all(|circle| circle % ratio.denom() != 0), "{ratio} was missed");
    }
}

/// The same gears lead a table for a helix: worm and second stud are driven.
#[test]
fn the_lead_of_a_helix() {
    const HELIX: &str = "Practical Treatise on Milling and Milling Machines, p. 69";
    // Screw 100 drives the second stud's 44, the first stud's 40 drives the worm's 56.
    let driven_over_drivers = Ratio::of(56 * 44, 40 * 100);
    let lead = driven_over_drivers.mul(Ratio::whole(10)).unwrap();
    assert_eq!(lead, Ratio::of(616, 100), "6.160 in with a constant of 10 in: {HELIX}");
    // A short lead by the crank: a fortieth of the table's.
    let by_crank = Ratio::of(10_467, 1000).div(Ratio::whole(40)).unwrap();
    assert_eq!(by_crank, Ratio::of(261_675, 1_000_000), "{HELIX}, recomputed");
    let error = by_crank.sub(Ratio::of(261, 1000)).unwrap();
    assert_eq!(error, Ratio::of(675, 1_000_000), "{HELIX}, recomputed");
}
