//! Direct indexing beside manuals, old books and an independent computation.

use super::{COMPUTED, head};
use latheside_core::dividing::{Kit, Setting, compound, direct, misplaced, plain, ways};
use latheside_core::exact::Ratio;

fn kit(positions: &[u16], half_tooth: bool) -> Kit {
    Kit { direct: positions.to_vec(), half_tooth, head: None }
}

/// The teeth to move, where whole teeth do it.
fn step(positions: u16, divisions: u32) -> Option<u32> {
    match direct::exact(divisions, &kit(&[positions], false)).first()?.setting {
        Setting::Direct { step, .. } => Some(step),
        _ => None,
    }
}

/// The half teeth to move, where only they do it.
fn half_step(positions: u16, divisions: u32) -> Option<u32> {
    match direct::exact(divisions, &kit(&[positions], true)).first()?.setting {
        Setting::HalfTooth { step, .. } => Some(step),
        _ => None,
    }
}

const ANGULAR_UNIT: &str =
    "angular indexing unit (its.foxvalleytech.com/MachShop4/AdvMilling/Isangindex.htm)";
const TREATISE: &str = "Practical Treatise on Milling and Milling Machines, p. 81";
const LATHE_147: &str =
    "The Lathe and Its Uses, division-plate section, Fig. 147, Gutenberg #60819";
const LATHE_ECCENTRIC: &str = "The Lathe and Its Uses, eccentric-cutter example, Gutenberg #60819";
const MANIPULATION: &str =
    "Turning & Mechanical Manipulation, ch. V sec. I, division plate (chestofbooks.com)";
const COMMON: &str = "common practice, no source";

#[rustfmt::skip]
const STEPS: &[(u16, u32, Option<u32>, &str)] = &[
    // positions, divisions, teeth or holes to move, source
    (24, 2, Some(12), COMPUTED),
    (24, 3, Some(8), COMPUTED),
    (24, 6, Some(4), COMPUTED),
    (24, 5, None, COMPUTED),
    (24, 10, None, COMPUTED),
    (24, 16, None, COMPUTED),
    (24, 18, None, COMPUTED),
    (96, 12, Some(8), MANIPULATION),
    (144, 12, Some(12), MANIPULATION),
    (360, 6, Some(60), LATHE_ECCENTRIC),
    (80, 10, Some(8), COMMON),
];

#[test]
fn every_step_of_a_plate() {
    for (positions, divisions, expected, source) in STEPS {
        assert_eq!(
            step(*positions, *divisions),
            *expected,
            "{positions} into {divisions}: {source}"
        );
    }
    // The book's own series of holes: 8 16 24 32, 12 24 36 48.
    for (positions, series) in [(96, [8, 16, 24, 32]), (144, [12, 24, 36, 48])] {
        let way = direct::exact(12, &kit(&[positions], false))[0];
        for (moves, tooth) in (1..).zip(series) {
            let place = latheside_core::dividing::place(&way, moves).unwrap();
            let at = latheside_core::dividing::At::Tooth { tooth, positions };
            assert_eq!(place.at, at, "{MANIPULATION}");
        }
    }
    let one_hole = Ratio::of(360, 24);
    assert_eq!(one_hole, Ratio::whole(15), "degrees a hole of 24: {ANGULAR_UNIT}");
    assert_eq!(misplaced::arcsec(Ratio::of(1, 24)), 15.0 * 3600.0, "{ANGULAR_UNIT}");
}

#[test]
fn what_each_plate_or_gear_divides_into() {
    #[rustfmt::skip]
    let all: [(u16, &[u32], &str); 8] = [
        (360, &[1, 2, 3, 4, 5, 6, 8, 9, 10, 12, 15, 18, 20, 24, 30, 36, 40, 45, 60, 72, 90, 120, 180, 360], COMPUTED),
        (144, &[1, 2, 3, 4, 6, 8, 9, 12, 16, 18, 24, 36, 48, 72, 144], COMPUTED),
        (96, &[1, 2, 3, 4, 6, 8, 12, 16, 24, 32, 48, 96], COMPUTED),
        (60, &[1, 2, 3, 4, 5, 6, 10, 12, 15, 20, 30, 60], COMPUTED),
        (64, &[1, 2, 4, 8, 16, 32, 64], COMPUTED),
        (96, &[1, 2, 3, 4, 6, 8, 12, 16, 24, 32, 48, 96], COMPUTED),
        (120, &[1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 24, 30, 40, 60, 120], COMPUTED),
        (127, &[1, 127], COMPUTED),
    ];
    for (positions, expected, source) in all {
        let found: Vec<u32> = (1..=1000).filter(|n| step(positions, *n).is_some()).collect();
        assert_eq!(found, expected, "{positions}: {source}");
    }
    #[rustfmt::skip]
    let some: [(u16, &[u32]); 2] = [(360, &[2, 3, 4, 5, 6, 8, 9]), (144, &[2, 3, 4, 6, 8, 9])];
    for (positions, listed) in some {
        assert!(listed.iter().all(|n| step(positions, *n).is_some()), "{positions}: {LATHE_147}");
    }
    let claimed = [2, 3, 4, 5, 6, 7, 8, 10, 12, 14, 20, 24];
    let smallest = (1..=999).find(|plate| claimed.iter().all(|n| step(*plate, *n).is_some()));
    assert_eq!(smallest, Some(840), "no single circle below 840 holes: {TREATISE}");
}

#[test]
fn what_half_a_tooth_adds() {
    #[rustfmt::skip]
    let rows: [(u16, &[u32]); 6] = [
        (45, &[2, 6, 10, 18, 30, 90]),
        (55, &[2, 10, 22, 110]),
        (60, &[8, 24, 40, 120]),
        (100, &[8, 40, 200]),
        (125, &[2, 10, 50, 250]),
        (127, &[2, 254]),
    ];
    for (teeth, expected) in rows {
        let found: Vec<u32> = (1..=1000).filter(|n| half_step(teeth, *n).is_some()).collect();
        assert_eq!(found, expected, "{teeth} teeth, second detent half a tooth off: {COMPUTED}");
    }
    for (teeth, divisions, half_teeth) in [(60, 8, 15), (60, 24, 5), (45, 18, 5), (127, 254, 1)] {
        assert_eq!(half_step(teeth, divisions), Some(half_teeth), "{teeth}: {COMPUTED}");
    }
}

#[test]
fn which_change_gear_divides_a_dial() {
    let gears = |divisions, candidates: &[u16], half_tooth| -> Vec<u16> {
        let mut gears: Vec<u16> = direct::exact(divisions, &kit(candidates, half_tooth))
            .iter()
            .map(|way| match way.setting {
                Setting::Direct { positions, .. } | Setting::HalfTooth { positions, .. } => {
                    positions
                }
                _ => panic!("{way:?}"),
            })
            .collect();
        gears.sort_unstable();
        gears
    };
    assert_eq!(gears(125, &[25, 50, 100, 125], false), [125], "{COMPUTED}");
    assert_eq!(gears(125, &[25, 50, 100, 125], true), [125], "{COMPUTED}");
    assert_eq!(gears(50, &[25, 50, 75, 100], false), [50, 100], "{COMPUTED}");
    assert_eq!(gears(50, &[25, 50, 75, 100], true), [25, 50, 75, 100], "{COMPUTED}");
}

/// Two gears side by side, each with its own detent, are one plate of two circles without a worm.
#[test]
fn two_gears_that_let_go_one_at_a_time() {
    for (one, other, finest) in [(60, 64, 960), (60, 96, 480)] {
        let pair = head(1, &[&[one, other]]);
        for n in 2..=1000 {
            let possible =
                !plain::exact(n, &pair).is_empty() || !compound::exact(n, &pair).is_empty();
            assert_eq!(possible, finest % n == 0, "{one} and {other} into {n}: {COMPUTED}");
        }
    }
    let pair = head(1, &[&[60, 64]]);
    for (n, first, second) in [(48, 5, -4), (320, 3, -3)] {
        let has = compound::exact(n, &pair).iter().any(|way| match way.setting {
            Setting::Compound { turns: 0, first: a, second: b, .. } => {
                (a.holes, a.circle, b.holes, b.circle) == (first, 60, second, 64)
            }
            _ => false,
        });
        assert!(has, "{first}/60 {second}/64 makes {n}: {COMPUTED}");
    }
}

/// An index wheel on a pinion's shaft is a worm head of a small ratio.
#[test]
fn an_index_wheel_geared_to_the_spindle() {
    for (wheel, pinion, spindle, positions) in
        [(50u16, 20u32, 60u32, 150u32), (25, 20, 100, 125), (60, 30, 75, 150)]
    {
        if spindle % pinion == 0 {
            let geared = head(spindle / pinion, &[&[wheel]]);
            let finest = (2..=9_999).rev().find(|n| !plain::exact(*n, &geared).is_empty());
            assert_eq!(
                finest,
                Some(positions),
                "{wheel} on a {pinion}, {spindle} on the spindle: {COMPUTED}"
            );
        } else {
            // 5/2 turns of the wheel for one of the spindle: two turns of it are five.
            let turns = Ratio::of(spindle.into(), pinion.into());
            let each = turns.div(Ratio::from(positions)).unwrap();
            let found = plain::exact_move(each, &[wheel]);
            assert_eq!(
                found,
                [Setting::Plain { turns: 0, holes: 1, circle: Some(wheel) }],
                "{COMPUTED}"
            );
        }
    }
}

#[test]
fn a_tooth_nearby_where_none_is_right() {
    let found = ways(7, &kit(&[72, 24], true)).unwrap();
    assert_eq!(found.found.all(), 0);
    // 72/7 is 10 2/7: at most 3/7 of a tooth off; half teeth are at most 3/7 of a half.
    let worst: Vec<Ratio> = found.ways.iter().map(|way| way.worst).collect();
    assert_eq!(worst, [Ratio::of(3, 7 * 144), Ratio::of(3, 7 * 72)]);
    assert_eq!(
        ways(25, &kit(&[24], false)).unwrap_err().to_string(),
        "25 divisions need more positions than these plates and gears have"
    );
}
