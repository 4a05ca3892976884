//! Compound indexing beside old tables, an accurate angular table and an independent search.

#[rustfmt::skip]
const EXACT: &[(u32, [(i16, u16); 2], &str)] = &[
    // divisions, first and second move, source
    (51, [(10, 15), (2, 17)], "classical compound tables (old milling handbooks), from memory"),
    (69, [(21, 23), (-11, 33)], "classical compound tables (old milling handbooks), from memory"),
    (77, [(9, 21), (3, 33)], "classical compound tables (old milling handbooks), from memory"),
    (87, [(23, 29), (-11, 33)], "classical compound tables (old milling handbooks), from memory"),
    (93, [(3, 31), (11, 33)], "classical compound tables (old milling handbooks), from memory"),
    (99, [(15, 27), (-5, 33)], "classical compound tables (old milling handbooks), from memory"),
];

#[rustfmt::skip]
const COUNTS: &[(u32, usize, &[(i16, u16)], &str)] = &[
    // divisions, settings with the whole turns of R/N, that with the fewest holes, source
    (51, 2, &[(10, 15), (2, 17)], "independent computation in exact fractions"),
    (53, 0, &[], "independent computation in exact fractions"),
    (57, 2, &[(5, 15), (7, 19)], "independent computation in exact fractions"),
    (61, 0, &[], "independent computation in exact fractions"),
    (63, 4, &[(11, 21), (3, 27)], "independent computation in exact fractions"),
    (67, 0, &[], "independent computation in exact fractions"),
    (73, 0, &[], "independent computation in exact fractions"),
    (81, 0, &[], "independent computation in exact fractions"),
    (91, 1, &[(6, 39), (14, 49)], "independent computation in exact fractions"),
    (93, 3, &[(7, 21), (3, 31)], "independent computation in exact fractions"),
    (96, 16, &[(4, 15), (3, 20)], "independent computation in exact fractions"),
    (99, 5, &[(6, 27), (6, 33)], "independent computation in exact fractions"),
    (101, 0, &[], "independent computation in exact fractions"),
    (102, 2, &[(5, 15), (1, 17)], "independent computation in exact fractions"),
    (106, 0, &[], "independent computation in exact fractions"),
    (107, 0, &[], "independent computation in exact fractions"),
    (109, 0, &[], "independent computation in exact fractions"),
    (111, 1, &[(1, 37), (13, 39)], "independent computation in exact fractions"),
    (112, 0, &[], "independent computation in exact fractions"),
    (113, 0, &[], "independent computation in exact fractions"),
    (121, 0, &[], "independent computation in exact fractions"),
    (122, 0, &[], "independent computation in exact fractions"),
    (123, 2, &[(-13, 39), (27, 41)], "independent computation in exact fractions"),
    (125, 0, &[], "independent computation in exact fractions"),
    (126, 5, &[(2, 21), (6, 27)], "independent computation in exact fractions"),
    (131, 0, &[], "independent computation in exact fractions"),
    (133, 0, &[], "independent computation in exact fractions"),
    (134, 0, &[], "independent computation in exact fractions"),
    (137, 0, &[], "independent computation in exact fractions"),
    (138, 6, &[(7, 21), (-1, 23)], "independent computation in exact fractions"),
    (142, 0, &[], "independent computation in exact fractions"),
    (143, 0, &[], "independent computation in exact fractions"),
    (149, 0, &[], "independent computation in exact fractions"),
];

#[rustfmt::skip]
const ANGULAR: &[(&str, &[&[u16]], [(i16, u16); 2], f64, f64, f64, &str)] = &[
    // turn, plates, first and second move, its value, its error in turns of the crank, and in arcsec at the work (40:1), source
    ("0.1910", THREE_PLATES, [(17, 39), (-12, 49)], 0.1909995, -5.23e-07, -0.017, "Machinery's Handbook 27th ed., p. 1995 (accurate angular indexing table; excerpt at 123docz doc 2062982); error computed"),
    ("0.1910", TWO_SIDED, [(21, 57), (-11, 62)], 0.1910017, 1.7e-06, 0.055, "Machinery's Handbook 27th ed., p. 1995 (accurate angular indexing table; excerpt at 123docz doc 2062982); error computed"),
    ("0.1920", THREE_PLATES, [(7, 41), (1, 47)], 0.1920083, 8.3e-06, 0.269, "Machinery's Handbook 27th ed., p. 1995 (accurate angular indexing table; excerpt at 123docz doc 2062982); error computed"),
    ("0.1930", THREE_PLATES, [(10, 19), (-5, 15)], 0.1929825, -1.75e-05, -0.568, "Machinery's Handbook 27th ed., p. 1995 (accurate angular indexing table; excerpt at 123docz doc 2062982); error computed"),
    ("0.1950", THREE_PLATES, [(1, 23), (5, 33)], 0.1949934, -6.59e-06, -0.213, "Machinery's Handbook 27th ed., p. 1995 (accurate angular indexing table; excerpt at 123docz doc 2062982); error computed"),
    ("0.1950", TWO_SIDED, [(8, 25), (-3, 24)], 0.1950000, 0.0, 0.0, "Machinery's Handbook 27th ed., p. 1995 (accurate angular indexing table; excerpt at 123docz doc 2062982); error computed"),
    ("0.1960", THREE_PLATES, [(21, 49), (-10, 43)], 0.1960133, 1.33e-05, 0.431, "Machinery's Handbook 27th ed., p. 1995 (accurate angular indexing table; excerpt at 123docz doc 2062982); error computed"),
    ("0.1970", THREE_PLATES, [(21, 39), (-14, 41)], 0.1969981, -1.88e-06, -0.0608, "Machinery's Handbook 27th ed., p. 1995 (accurate angular indexing table; excerpt at 123docz doc 2062982); error computed"),
    ("0.1970", TWO_SIDED, [(11, 47), (-2, 54)], 0.1970055, 5.52e-06, 0.179, "Machinery's Handbook 27th ed., p. 1995 (accurate angular indexing table; excerpt at 123docz doc 2062982); error computed"),
    ("0.1980", THREE_PLATES, [(2, 29), (4, 31)], 0.1979978, -2.22e-06, -0.0721, "Machinery's Handbook 27th ed., p. 1995 (accurate angular indexing table; excerpt at 123docz doc 2062982); error computed"),
    ("0.1980", TWO_SIDED, [(17, 49), (-7, 47)], 0.1980026, 2.61e-06, 0.0844, "Machinery's Handbook 27th ed., p. 1995 (accurate angular indexing table; excerpt at 123docz doc 2062982); error computed"),
    ("0.1990", THREE_PLATES, [(5, 37), (3, 47)], 0.1989649, -3.51e-05, -1.14, "Machinery's Handbook 27th ed., p. 1995 (accurate angular indexing table; excerpt at 123docz doc 2062982); error computed"),
    ("0.1990", TWO_SIDED, [(27, 59), (-15, 58)], 0.1990064, 6.43e-06, 0.208, "Machinery's Handbook 27th ed., p. 1995 (accurate angular indexing table; excerpt at 123docz doc 2062982); error computed"),
    ("0.2010", TWO_SIDED, [(8, 49), (2, 53)], 0.2010012, 1.16e-06, 0.0374, "Machinery's Handbook 27th ed., p. 1995 (accurate angular indexing table; excerpt at 123docz doc 2062982); error computed"),
    ("0.2030", THREE_PLATES, [(2, 37), (7, 47)], 0.2029902, -9.78e-06, -0.317, "Machinery's Handbook 27th ed., p. 1995 (accurate angular indexing table; excerpt at 123docz doc 2062982); error computed"),
    ("0.2030", TWO_SIDED, [(19, 62), (-6, 58)], 0.2030033, 3.34e-06, 0.108, "Machinery's Handbook 27th ed., p. 1995 (accurate angular indexing table; excerpt at 123docz doc 2062982); error computed"),
    ("0.2050", TWO_SIDED, [(3, 24), (2, 25)], 0.2050000, 0.0, 0.0, "Machinery's Handbook 27th ed., p. 1995 (accurate angular indexing table; excerpt at 123docz doc 2062982); error computed"),
    ("0.2250", THREE_PLATES, [(2, 16), (2, 20)], 0.2250000, 0.0, 0.0, "Machinery's Handbook 27th ed., p. 1995 (accurate angular indexing table; excerpt at 123docz doc 2062982); error computed"),
    ("0.2250", TWO_SIDED, [(3, 24), (3, 30)], 0.2250000, 0.0, 0.0, "Machinery's Handbook 27th ed., p. 1995 (accurate angular indexing table; excerpt at 123docz doc 2062982); error computed"),
    ("0.2300", THREE_PLATES, [(7, 37), (2, 49)], 0.2300055, 5.52e-06, 0.179, "Machinery's Handbook 27th ed., p. 1995 (accurate angular indexing table; excerpt at 123docz doc 2062982); error computed"),
    ("0.2310", TWO_SIDED, [(26, 59), (-13, 62)], 0.2310005, 5.47e-07, 0.0177, "Machinery's Handbook 27th ed., p. 1995 (accurate angular indexing table; excerpt at 123docz doc 2062982); error computed"),
    ("0.2350", THREE_PLATES, [(11, 27), (-5, 29)], 0.2349936, -6.39e-06, -0.207, "Machinery's Handbook 27th ed., p. 1995 (accurate angular indexing table; excerpt at 123docz doc 2062982); error computed"),
];

#[rustfmt::skip]
const NEAREST: &[(u32, [(i16, u16); 2], f64, f64, &str)] = &[
    // divisions, first and second move, arcsec a step, closing arcsec, source
    (53, [(8, 37), (21, 39)], -1.271, -67.36, "independent computation in exact fractions"),
    (59, [(18, 37), (9, 47)], 0.3158, 18.63, "independent computation in exact fractions"),
    (71, [(33, 43), (-10, 49)], -0.6497, -46.13, "independent computation in exact fractions"),
    (73, [(-9, 41), (33, 43)], -0.5035, -36.76, "independent computation in exact fractions"),
    (79, [(21, 37), (-3, 49)], 0.4524, 35.74, "independent computation in exact fractions"),
    (89, [(-7, 43), (30, 49)], 0.5183, 46.13, "independent computation in exact fractions"),
    (97, [(15, 41), (2, 43)], -0.1895, -18.38, "independent computation in exact fractions"),
    (101, [(15, 29), (-4, 33)], -0.3352, -33.86, "independent computation in exact fractions"),
    (113, [(14, 37), (-1, 41)], 0.189, 21.36, "independent computation in exact fractions"),
    (131, [(5, 37), (8, 47)], 0.1422, 18.63, "independent computation in exact fractions"),
];

use super::{COMPUTED, THREE_PLATES, TWO_SIDED, head, owned};
use latheside_core::dividing::{Holes, Setting, Way, compound, misplaced};
use latheside_core::exact::Ratio;

type Moves = [(i16, u16); 2];

/// The two moves by the smaller circle first.
fn moves(setting: &Setting) -> Moves {
    let Setting::Compound { turns: 0, first, second, laps: 1 } = setting else {
        panic!("{setting:?}")
    };
    ordered([(first.holes, first.circle), (second.holes, second.circle)])
}

fn ordered(mut moves: Moves) -> Moves {
    moves.sort_by_key(|one| one.1);
    moves
}

fn spaces(way: &Way) -> u16 {
    moves(&way.setting).iter().map(|one| one.0.unsigned_abs()).sum()
}

#[test]
fn every_setting_of_the_old_tables() {
    for (divisions, expected, source) in EXACT {
        let ways = compound::exact(*divisions, &head(40, THREE_PLATES));
        let has = ways.iter().any(|way| moves(&way.setting) == ordered(*expected));
        assert!(has, "{divisions}: {expected:?}: {source}");
    }
}

#[test]
fn every_count_of_settings() {
    for (divisions, count, fewest, source) in COUNTS {
        let ways = compound::exact(*divisions, &head(40, THREE_PLATES));
        assert_eq!(ways.len(), *count, "{divisions}: {source}");
        if let [one, other] = fewest {
            let least = ways.iter().map(spaces).min().unwrap();
            assert_eq!(
                least,
                one.0.unsigned_abs() + other.0.unsigned_abs(),
                "{divisions}: {source}"
            );
            let expected = ordered([*one, *other]);
            let has =
                ways.iter().any(|way| moves(&way.setting) == expected && spaces(way) == least);
            assert!(has && spaces(&ways[0]) == least, "{divisions}: {source}");
        }
    }
}

#[test]
fn every_row_of_the_accurate_angular_table_and_none_nearer_missed() {
    for (turn, plates, expected, value, in_turns, in_arcsec, source) in ANGULAR {
        let digits: i64 = turn.trim_start_matches("0.").parse().unwrap();
        let wanted = Ratio::of(digits, 10_000);
        let sum = expected
            .iter()
            .map(|(holes, circle)| Ratio::of((*holes).into(), (*circle).into()))
            .try_fold(Ratio::ZERO, Ratio::add)
            .unwrap();
        assert!((sum.to_f64() - value).abs() <= 0.5e-7, "{turn}: {source}");
        let printed = sum.sub(wanted).unwrap();
        assert!((printed.to_f64() - in_turns).abs() <= 0.005 * in_turns.abs(), "{turn}: {source}");
        let arcsec = misplaced::at_work(misplaced::arcsec(printed), 40);
        assert!((arcsec - in_arcsec).abs() <= 0.01 * in_arcsec.abs(), "{turn}: {source}");
        let one_plate =
            plates.iter().any(|plate| expected.iter().all(|one| plate.contains(&one.1)));
        assert!(one_plate, "{turn}: {source}");
        // Ours is the nearest that there is, and so at least as near as the table's.
        let (setting, error) = compound::nearest_move(wanted, &owned(plates)).unwrap().unwrap();
        let ours = moves(&setting);
        assert!(error.abs() <= printed.abs(), "{turn}: {ours:?} off {error}: {source}");
        assert_eq!(moves_sum(ours).sub(wanted).unwrap(), error, "{turn}");
        if error.is_zero() {
            assert_eq!(*in_arcsec, 0.0, "{turn}: {source}");
        }
    }
}

fn moves_sum(moves: Moves) -> Ratio {
    let parts = moves.map(|(holes, circle)| Ratio::of(holes.into(), circle.into()));
    parts.into_iter().try_fold(Ratio::ZERO, Ratio::add).unwrap()
}

#[test]
fn every_nearest_setting_where_none_is_exact() {
    for (divisions, expected, step, closing, source) in NEAREST {
        let ways = compound::nearest_ways(*divisions, &head(40, THREE_PLATES)).unwrap();
        let once = &ways[0];
        assert_eq!(moves(&once.setting), ordered(*expected), "{divisions}: {source}");
        let each = once.closing_arcsec() / f64::from(*divisions);
        assert!((each - step).abs() <= 0.5e-3, "{divisions}: {each} a step: {source}");
        assert!((once.closing_arcsec() - closing).abs() <= 0.5e-2, "{divisions}: {source}");
        let worst = each.abs() * f64::from(divisions - 1);
        assert!((once.worst_arcsec() - worst).abs() < 1e-9, "k steps are k errors off: {COMPUTED}");
    }
}

/// What a move comes to that schsm.org's article on compound indexing begins from.
#[test]
fn one_division_of_127() {
    let turn = Ratio::of(40, 127);
    assert!((turn.to_f64() - 0.31496).abs() < 0.5e-5, "schsm.org compound-indexing article");
    assert!(compound::exact(127, &head(40, THREE_PLATES)).is_empty());
    let (setting, error) = compound::nearest_move(turn, &owned(TWO_SIDED)).unwrap().unwrap();
    assert!(error.abs().to_f64() < 1e-4, "{setting:?}");
}

/// Several laps only where they are nearer, and each division still made once.
#[test]
fn several_laps_are_nearer_for_53() {
    let ways = compound::nearest_ways(53, &head(40, THREE_PLATES)).unwrap();
    let [once, several] = ways.as_slice() else { panic!("{ways:?}") };
    assert!(several.worst < once.worst);
    let Setting::Compound { laps, .. } = several.setting else { panic!("{several:?}") };
    let mut made: Vec<u32> = (0..53)
        .map(|moves| latheside_core::dividing::place(several, moves).unwrap().division)
        .collect();
    assert_eq!(made[1], laps);
    made.sort_unstable();
    assert_eq!(made, (0..53).collect::<Vec<_>>());
}

/// The arms are set for each of the two moves, and the second may go back.
#[test]
fn two_settings_of_the_arms() {
    let way = compound::exact(69, &head(40, THREE_PLATES))
        .into_iter()
        .find(|way| moves(&way.setting) == [(21, 23), (-11, 33)])
        .unwrap();
    let Setting::Compound { first: Holes { holes: 21, .. }, .. } = way.setting else {
        panic!("{way:?}")
    };
    let arms = latheside_core::dividing::sector_arms(&way.setting);
    assert_eq!((arms[0].spaces, arms[0].holes, arms[0].backwards), (21, 22, false));
    assert_eq!((arms[1].spaces, arms[1].holes, arms[1].backwards), (11, 12, true));
}
