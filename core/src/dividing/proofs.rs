//! Every search beside a slow and obvious one, on many small kits.

use super::*;
use crate::exact::{Ratio, gcd};
use alloc::collections::BTreeSet;
use alloc::vec;
use alloc::vec::Vec;
use proptest::prelude::*;

fn ratio(num: i64, den: i64) -> Ratio {
    Ratio::of(num, den)
}

fn heads() -> impl Strategy<Value = Head> {
    let plates = prop::collection::vec(prop::collection::vec(2u16..13, 1..4), 0..3);
    let gears =
        prop::collection::vec(prop::sample::select(vec![4u16, 5, 6, 7, 8, 9, 12, 15]), 0..6);
    let clearance = prop::option::of(0u16..6);
    let centres = prop::option::of((8u16..14, 14u16..26));
    (1u32..13, plates, gears, 0u8..3, clearance, centres).prop_map(
        |(worm_ratio, plates, gears, pairs_max, stud_clearance_teeth, centres_teeth)| Head {
            worm_ratio,
            plates,
            gears,
            pairs_max,
            stud_clearance_teeth,
            centres_teeth,
        },
    )
}

fn kits() -> impl Strategy<Value = Kit> {
    (prop::collection::vec(1u16..40, 0..4), any::<bool>(), prop::option::of(heads()))
        .prop_map(|(direct, half_tooth, head)| Kit { direct, half_tooth, head })
}

/// Turns and holes of every crank move up to so many turns, whole turns once.
fn crank_moves(head: &Head, most: u32) -> Vec<(u32, u16, Option<u16>)> {
    let mut moves: Vec<_> = (1..=most).map(|turns| (turns, 0, None)).collect();
    for circle in head.circles() {
        for turns in 0..=most {
            moves.extend((1..circle).map(|holes| (turns, holes, Some(circle))));
        }
    }
    moves
}

fn value((turns, holes, circle): (u32, u16, Option<u16>)) -> Ratio {
    ratio(turns.into(), 1).add(ratio(holes.into(), circle.unwrap_or(1).into())).unwrap()
}

fn in_mesh(head: &Head, (a, b): (u16, u16)) -> bool {
    head.centres_teeth.is_none_or(|(least, most)| a + b >= least && a + b <= most)
}

/// Every choice of gears by picking them up one by one: drivers sorted, driven sorted, and the
/// orders that mount.
type Choice = (Vec<u16>, Vec<u16>);

fn choices(head: &Head, pairs: usize) -> BTreeSet<Choice> {
    let gears = &head.gears;
    let mut found = BTreeSet::new();
    if usize::from(head.pairs_max) < pairs {
        return found;
    }
    for a in 0..gears.len() {
        for b in (0..gears.len()).filter(|b| *b != a) {
            let first = (gears[a], gears[b]);
            if !in_mesh(head, first) {
                continue;
            }
            if pairs == 1 {
                found.insert((vec![gears[a]], vec![gears[b]]));
                continue;
            }
            for c in (0..gears.len()).filter(|c| ![a, b].contains(c)) {
                for d in (0..gears.len()).filter(|d| ![a, b, c].contains(d)) {
                    let second = (gears[c], gears[d]);
                    let clear = |k: u16| {
                        gears[a] + gears[b] > gears[c] + k && gears[c] + gears[d] > gears[b] + k
                    };
                    if in_mesh(head, second) && head.stud_clearance_teeth.is_none_or(clear) {
                        let mut drivers = vec![gears[a], gears[c]];
                        let mut driven = vec![gears[b], gears[d]];
                        drivers.sort_unstable();
                        driven.sort_unstable();
                        found.insert((drivers, driven));
                    }
                }
            }
        }
    }
    found
}

fn size((drivers, driven): &Choice) -> Ratio {
    let product = |gears: &[u16]| gears.iter().map(|gear| i64::from(*gear)).product::<i64>();
    ratio(product(drivers), product(driven))
}

type Set = (u32, u16, Option<u16>, bool, Choice);

fn slow_differential(divisions: u32, head: &Head, pairs: usize) -> BTreeSet<Set> {
    let mut found = BTreeSet::new();
    let choices = choices(head, pairs);
    // The plate makes 15/4 · 15/5 turns at most for one of the spindle.
    for moved in crank_moves(head, head.worm_ratio + 15) {
        let turned = value(moved).mul(Ratio::from(divisions)).unwrap();
        let plate = Ratio::from(head.worm_ratio).sub(turned).unwrap();
        for choice in choices.iter().filter(|choice| size(choice) == plate.abs()) {
            found.insert((moved.0, moved.1, moved.2, plate.is_positive(), choice.clone()));
        }
    }
    found
}

fn as_set(way: &Way) -> Set {
    let Setting::Differential { turns, holes, circle, train } = way.setting else { panic!() };
    let mut drivers: Vec<u16> = train.pairs().iter().map(|pair| pair.0).collect();
    let mut driven: Vec<u16> = train.pairs().iter().map(|pair| pair.1).collect();
    drivers.sort_unstable();
    driven.sort_unstable();
    (turns, holes, circle, train.with_crank(), (drivers, driven))
}

fn same(ways: &[Way], slow: &BTreeSet<Set>) {
    let quick: BTreeSet<Set> = ways.iter().map(as_set).collect();
    assert_eq!(quick.len(), ways.len(), "one was found twice");
    assert_eq!(&quick, slow);
}

/// Every sum of two moves on a plate, with its value in turns.
fn sums(head: &Head) -> Vec<(i64, u16, i64, u16, Ratio)> {
    let mut sums = Vec::new();
    for plate in &head.plates {
        for one in plate {
            for other in plate.iter().filter(|other| *other > one) {
                let (h, k) = (i64::from(*one), i64::from(*other));
                for a in (1 - h..h).filter(|a| *a != 0) {
                    for b in (1 - k..k).filter(|b| *b != 0) {
                        let sum = ratio(a, h).add(ratio(b, k)).unwrap();
                        sums.push((a, *one, b, *other, sum));
                    }
                }
            }
        }
    }
    sums
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn one_pair_is_complete(n in 1u32..60, head in heads()) {
        same(&differential::one_pair(n, &head), &slow_differential(n, &head, 1));
    }

    #[test]
    fn two_pairs_are_complete(n in 1u32..60, head in heads()) {
        let (ways, complete) = differential::two_pairs(n, &head);
        prop_assert!(complete);
        for way in &ways {
            let Setting::Differential { train, .. } = way.setting else { panic!() };
            let [(a, b), (c, d)] = *train.pairs() else { panic!() };
            if let Some(k) = head.stud_clearance_teeth {
                prop_assert!(a + b > c + k && c + d > b + k);
            }
            prop_assert!(in_mesh(&head, (a, b)) && in_mesh(&head, (c, d)));
        }
        same(&ways, &slow_differential(n, &head, 2));
    }

    #[test]
    fn compound_is_complete(n in 1u32..90, head in heads()) {
        let wanted = ratio(head.worm_ratio.into(), n.into());
        let rest = wanted.sub(Ratio::whole(wanted.floor() as i64)).unwrap();
        let slow: BTreeSet<_> = sums(&head)
            .into_iter()
            .filter(|sum| sum.4 == rest)
            .map(|(a, one, b, other, _)| (a, one, b, other))
            .collect();
        // Two plates may share two circles: each setting counts for each plate.
        let quick: BTreeSet<_> = compound::exact(n, &head).iter().map(|way| {
            let Setting::Compound { turns, first, second, laps } = way.setting else { panic!() };
            assert_eq!((i128::from(turns), laps), (wanted.floor(), 1));
            let (one, other) = if first.circle < second.circle { (first, second) } else { (second, first) };
            (i64::from(one.holes), one.circle, i64::from(other.holes), other.circle)
        }).collect();
        prop_assert_eq!(quick, slow);
    }

    #[test]
    fn plain_is_complete(n in 1u32..90, head in heads()) {
        let slow: BTreeSet<_> = crank_moves(&head, head.worm_ratio)
            .into_iter()
            .filter(|moved| value(*moved) == ratio(head.worm_ratio.into(), n.into()))
            .collect();
        let ways = plain::exact(n, &head);
        let quick: BTreeSet<_> = ways.iter().map(|way| {
            let Setting::Plain { turns, holes, circle } = way.setting else { panic!() };
            (turns, holes, circle)
        }).collect();
        prop_assert_eq!(ways.len(), quick.len());
        prop_assert_eq!(quick, slow);
    }

    #[test]
    fn direct_is_complete(n in 1u32..90, kit in kits()) {
        let mut slow = BTreeSet::new();
        for positions in &kit.direct {
            let whole: Vec<_> = (1..=u32::from(*positions)).filter(|step| step * n == u32::from(*positions)).collect();
            for step in &whole {
                slow.insert((Method::Direct, *positions, *step));
            }
            for step in 1..=2 * u32::from(*positions) {
                if kit.half_tooth && whole.is_empty() && step * n == 2 * u32::from(*positions) {
                    slow.insert((Method::DirectHalfTooth, *positions, step));
                }
            }
        }
        let quick: BTreeSet<_> = direct::exact(n, &kit).iter().map(|way| match way.setting {
            Setting::Direct { positions, step } | Setting::HalfTooth { positions, step } => {
                (way.method(), positions, step)
            }
            _ => panic!(),
        }).collect();
        prop_assert_eq!(quick, slow);
    }

    #[test]
    fn nothing_rounds_nearer_than_the_nearest_circle(n in 2u32..90, head in heads()) {
        let mut least: Option<Ratio> = None;
        for circle in core::iter::once(1).chain(head.circles()) {
            let places = i64::from(head.worm_ratio) * i64::from(circle);
            if places < i64::from(n) {
                continue;
            }
            let worst = (0..i64::from(n)).map(|k| {
                let at = ratio(k * places, n.into());
                ratio(at.round() as i64, 1).sub(at).unwrap().abs().div(Ratio::whole(places)).unwrap()
            }).max().unwrap();
            least = Some(least.map_or(worst, |least| least.min(worst)));
        }
        let way = plain::nearest_way(n, &head).unwrap();
        prop_assert_eq!(way.map(|way| way.worst), least);
    }

    #[test]
    fn no_two_moves_come_nearer(n in 2u32..60, head in heads()) {
        let sums = sums(&head);
        let off = |laps: u32| {
            let wanted = ratio((head.worm_ratio * laps).into(), n.into());
            let rest = wanted.sub(Ratio::whole(wanted.floor() as i64)).unwrap();
            sums.iter().map(|sum| sum.4.sub(rest).unwrap().abs()).min()
        };
        let most = compound::MOST_LAPS.min(n - 1);
        let several = (2..=most).filter(|laps| gcd((*laps).into(), n.into()) == 1);
        let (once, several) = (off(1), several.filter_map(off).min());
        let each = |way: &Way| way.closing.abs().mul(head.worm_ratio.into()).unwrap().div(n.into()).unwrap();
        let ways = compound::nearest_ways(n, &head).unwrap();
        prop_assert_eq!(ways.first().map(each), once);
        let better = several.filter(|several| Some(*several) < once);
        prop_assert_eq!(ways.get(1).map(each), better);
    }

    #[test]
    fn no_train_comes_nearer(n in 2u32..60, head in heads()) {
        let mut least: Option<Ratio> = None;
        let mut sizes: BTreeSet<Ratio> = choices(&head, 1).iter().map(size).collect();
        sizes.extend(choices(&head, 2).iter().map(size));
        for moved in crank_moves(&head, head.worm_ratio + 15) {
            for plate in sizes.iter().flat_map(|size| [*size, size.neg()]) {
                let against = ratio(head.worm_ratio.into(), 1).sub(plate).unwrap();
                if against.is_positive() {
                    let all = value(moved).mul(n.into()).unwrap().div(against).unwrap();
                    let off = all.sub(Ratio::ONE).unwrap().abs();
                    least = Some(least.map_or(off, |least| least.min(off)));
                }
            }
        }
        let (way, complete) = differential::nearest_way(n, &head).unwrap();
        prop_assert!(complete);
        prop_assert_eq!(way.map(|way| way.closing.abs()), least);
    }

    #[test]
    fn the_places_bear_the_way_out(n in 1u32..60, kit in kits()) {
        let Ok(found) = ways(n, &kit) else { return Ok(()) };
        prop_assert!(found.ways.is_sorted_by_key(|way| way.worst));
        for way in &found.ways {
            let places: Vec<Place> = (0..n).map(|moves| place(way, moves).unwrap()).collect();
            let worst = places.iter().map(|place| place.error.abs()).max().unwrap();
            prop_assert_eq!(worst, way.worst, "{:?}", way);
            prop_assert_eq!(way.exact, worst.is_zero() && way.closing.is_zero());
            prop_assert_eq!(closing(way).unwrap().error, way.closing);
            let made: BTreeSet<u32> = places.iter().map(|place| place.division).collect();
            prop_assert_eq!(made.len(), places.len(), "a division was left out");
            // Each place says where the work is, whatever way it was come by.
            for place in &places {
                let spindle = match place.at {
                    At::Tooth { tooth, positions } => ratio(tooth.into(), positions.into()),
                    At::HalfTooth { half_teeth, positions } => ratio(half_teeth.into(), 2 * i64::from(positions)),
                    At::Pin(pin) => {
                        let turns = ratio(pin.turns, 1).add(ratio(pin.hole.into(), pin.circle.unwrap_or(1).into())).unwrap();
                        let plate = match way.setting {
                            Setting::Differential { train, .. } => train.ratio().unwrap(),
                            _ => Ratio::ZERO,
                        };
                        turns.div(Ratio::from(way.worm_ratio).sub(plate).unwrap()).unwrap()
                    }
                    At::Pins { crank, plate } => {
                        let turns = |pin: Pin| ratio(pin.turns, 1).add(ratio(pin.hole.into(), pin.circle.unwrap().into())).unwrap();
                        turns(crank).add(turns(plate)).unwrap().div(way.worm_ratio.into()).unwrap()
                    }
                };
                let true_place = spindle.sub(place.error).unwrap();
                let part = true_place.sub(Ratio::whole(true_place.floor() as i64)).unwrap();
                prop_assert_eq!(part, ratio(place.division.into(), n.into()), "{:?} {:?}", way, place);
            }
            if let Some(moves) = back_at_nought(way) {
                let at_nought = |place: Place| match place.at {
                    At::Tooth { tooth, .. } => tooth == 0,
                    At::HalfTooth { half_teeth, .. } => half_teeth == 0,
                    At::Pin(pin) => pin.hole == 0,
                    At::Pins { crank, plate } => crank.hole == 0 && plate.hole == 0,
                };
                let first = (1..=moves).find(|moves| at_nought(place(way, *moves).unwrap()));
                prop_assert_eq!(first, Some(moves), "{:?}", way);
            }
        }
    }

    #[test]
    fn nothing_holds_a_pattern_better(angles in prop::collection::vec((0i64..60, 1i64..60), 1..5), kit in kits()) {
        let angles: Vec<Ratio> = angles.into_iter().map(|(a, b)| ratio(a % b, b)).collect();
        let Ok(found) = pattern(&angles, &kit) else { return Ok(()) };
        let mut places: Vec<i64> = kit.direct.iter().map(|teeth| i64::from(*teeth)).collect();
        if kit.half_tooth {
            places.extend(kit.direct.iter().map(|teeth| 2 * i64::from(*teeth)));
        }
        if let Some(head) = &kit.head {
            let worm_ratio = i64::from(head.worm_ratio);
            places.push(worm_ratio);
            places.extend(head.circles().iter().map(|holes| worm_ratio * i64::from(*holes)));
        }
        let worst = |places: i64| angles.iter().map(|angle| {
            let at = angle.mul(Ratio::whole(places)).unwrap();
            ratio(at.round() as i64, 1).sub(at).unwrap().div(Ratio::whole(places)).unwrap().abs()
        }).max().unwrap();
        let least = places.into_iter().map(worst).min().unwrap();
        let best = found.ways.first().unwrap();
        prop_assert!(best.worst == least || best.exact, "{:?}", best);
        for (at, _) in angles.iter().enumerate() {
            let place = found.place(best, at).unwrap().unwrap();
            prop_assert!(place.error.abs() <= best.worst);
        }
    }
}
