//! The search from inside: its two ways against each other, its edges, its refusals.
#![allow(clippy::arithmetic_side_effects)]

use super::chains::Chains;
use super::rank::Tally;
use super::run::{Led, Run};
use super::*;
use crate::exact::Ratio;
use alloc::string::ToString;
use alloc::vec;
use alloc::vec::Vec;
use proptest::prelude::*;

fn request(target: Ratio, gearbox: &[Ratio], mounting: Mounting) -> Request<'_> {
    Request { target, before_train: Ratio::ONE, gearbox, pairs_max: 3, mounting, keep: 40 }
}

fn mounting() -> impl Strategy<Value = Mounting> {
    let rule = |k, centres| Mounting::Shop { stud_clearance_teeth: k, centres_teeth: centres };
    let banjo = |module: i64, centres, slot: i64, boss| {
        Mounting::Banjo(Banjo {
            module: Ratio::of(module, 4),
            centres: Ratio::whole(centres),
            slot: (Ratio::whole(slot), Ratio::whole(slot + 25)),
            boss_radius: Ratio::whole(boss),
        })
    };
    prop_oneof![
        (0u32..110).prop_map(move |k| rule(k, None)),
        (0u32..40, 60u32..150, 0u32..9).prop_map(move |(k, n, w)| rule(k, Some((n, n + w)))),
        (3i64..7, 60i64..160, 20i64..90, 0i64..20).prop_map(move |(m, c, s, b)| banjo(m, c, s, b)),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// The two ways of finding what goes on share neither products nor order: larger
    /// drawers than the plain version can be waited for.
    #[test]
    fn what_comes_near_and_what_goes_on_meet(
        gears in proptest::collection::vec(prop_oneof![(4u32..25).prop_map(|n| n * 5), 12u32..130], 4..18),
        num in 1i64..300, den in 1i64..300, steps in proptest::collection::vec(1i64..9, 1..4),
        mounting in mounting(), keep in 1usize..50,
    ) {
        let tables = Tables::new(&Drawer::new(&gears).unwrap(), 3).unwrap();
        let gearbox: Vec<Ratio> = steps.iter().map(|&n| Ratio::of(n, 4)).collect();
        let wish = request(Ratio::of(num, den), &gearbox, mounting);
        let fresh = || Run::new(&tables, &wish, keep, true).unwrap();
        let (mut near, mut far, mut both) = (fresh(), fresh(), fresh());
        for pairs in 1..=3 {
            prop_assert!(near.sweep(pairs, Led::ByMountable, u64::MAX));
            let whole = if pairs == 1 {
                far.sweep(pairs, Led::ByMountable, u64::MAX)
            } else {
                Chains::new(&tables).walk(&mut far, pairs, u64::MAX)
            };
            prop_assert!(whole);
        }
        both.overall();
        both.only_mountable();
        let told = |run: &Run<'_>| {
            let trains = run.mountable.entries.iter().map(|entry| run.train(&wish, entry).unwrap());
            (trains.collect::<Vec<_>>(), run.tally.count)
        };
        prop_assert_eq!(told(&near), told(&far));
        prop_assert_eq!(told(&near), told(&both));
    }
}

#[test]
fn what_is_given_up_is_said_and_what_was_counted_is_not_counted_again() {
    let gears: Vec<u32> = (20..44).collect();
    let tables = Tables::new(&Drawer::new(&gears).unwrap(), 3).unwrap();
    let mounting = Mounting::Shop { stud_clearance_teeth: 30, centres_teeth: None };
    let wish = request(Ratio::of(1, 3), &[Ratio::ONE], mounting);
    let mut run = Run::new(&tables, &wish, 40, true).unwrap();
    assert!(!run.sweep(3, Led::ByMountable, 10));
    assert!(!Chains::new(&tables).walk(&mut run, 3, 10));
    run.tally = Tally::default();
    assert!(run.sweep(3, Led::ByMountable, u64::MAX));
    let once = run.tally.count;
    run.tally = Tally::default();
    assert!(run.sweep(3, Led::ByMountable, u64::MAX));
    assert_eq!(run.tally.count, once);
}

/// Every selection of gears of 1 to 6 teeth under every rule that tells them apart.
#[test]
fn what_is_put_aside_unlooked_at_would_not_have_gone_on() {
    let drawer = Drawer::new(&[]).unwrap();
    let sides =
        || (1_u16..7).flat_map(|a| (a..7).flat_map(move |b| (b..7).map(move |c| [a, b, c])));
    let (mut refused, mut edges) = (0, 0);
    for k in 0..6 {
        for centres_teeth in [None, Some((5, 5)), Some((4, 7)), Some((8, 9))] {
            let mounting = Mounting::Shop { stud_clearance_teeth: k, centres_teeth };
            let rule = rule::Rule::new(&mounting).unwrap();
            for (drivers, driven) in sides().flat_map(|a| sides().map(move |b| (a, b))) {
                for pairs in 2..=3 {
                    let may = rule.may_fit(pairs, drivers, driven);
                    let fits = rule.mount(pairs, drivers, driven, &drawer, false).fits;
                    assert_eq!(fits, rule.mount(pairs, drivers, driven, &drawer, true).fits);
                    assert!(may || !fits, "{pairs} {drivers:?} {driven:?} {mounting:?}");
                    refused += usize::from(!may);
                    edges += usize::from(fits && drivers[1] + driven[1] == 2 * (k as u16 + 1));
                }
            }
        }
    }
    assert!(refused > 10_000 && edges > 100, "{refused} {edges}");
}

#[test]
fn two_positions_with_one_ratio_are_two_positions() {
    let drawer = Drawer::new(&[20, 40]).unwrap();
    let twice = [Ratio::ONE, Ratio::ONE];
    let found = search(&drawer, &request(Ratio::of(1, 2), &twice, Mounting::Free)).unwrap();
    assert_eq!(found.all, Reached { count: 2, least_error: Ratio::ZERO });
    let positions: Vec<usize> = found.best.iter().map(|train| train.gearbox).collect();
    assert_eq!(positions, [0, 1, 0, 1]);
}

#[test]
fn the_same_distance_on_both_sides_counts_on_both() {
    // Between 4/5 and 6/5 with nothing nearer: two, and the sign of the one listed first.
    let steps = [Ratio::of(4, 5), Ratio::of(6, 5)];
    let drawer = Drawer::new(&[20, 20]).unwrap();
    let found = search(&drawer, &request(Ratio::ONE, &steps, Mounting::Free)).unwrap();
    assert_eq!(found.all, Reached { count: 2, least_error: Ratio::of(-1, 5) });
    assert_eq!(found.best[0].error, Ratio::of(-1, 5));
}

#[test]
fn the_nearest_of_all_is_shown_though_it_wont_go_on() {
    // Only 20 20 / 40 100 makes 1/10, and k keeps it off.
    let gears = [20, 20, 40, 100, 50, 60, 70, 80, 90];
    let drawer = Drawer::new(&gears).unwrap();
    let mounting = Mounting::Shop { stud_clearance_teeth: 200, centres_teeth: None };
    let wish = Request { pairs_max: 2, ..request(Ratio::of(1, 10), &[Ratio::ONE], mounting) };
    let found = search(&drawer, &wish).unwrap();
    assert!(found.best.iter().take(39).all(|train| train.mountable));
    let last = found.best.last().unwrap();
    assert!(last.exact() && !last.mountable);
    assert_eq!(last.clearance.map(Ratio::is_negative), Some(true));
    let one = search(&drawer, &Request { keep: 1, ..wish }).unwrap();
    assert!(one.best.len() == 1 && one.best[0].mountable);
    assert!(search(&drawer, &Request { keep: 0, ..wish }).unwrap().best.is_empty());
}

#[test]
fn what_cannot_be_asked_is_refused() {
    let drawer = Drawer::new(&[20, 40]).unwrap();
    let free = request(Ratio::ONE, &[Ratio::ONE], Mounting::Free);
    let why = |wish: &Request<'_>| search(&drawer, wish).unwrap_err().to_string();
    let zero = Ratio::ZERO;
    assert_eq!(
        why(&Request { target: zero, ..free }),
        "the lead wanted must be more than nothing, not 0"
    );
    assert_eq!(
        why(&Request { before_train: Ratio::of(-1, 2), ..free }),
        "the ratio before the train must be more than nothing, not -1/2"
    );
    assert_eq!(
        why(&Request { gearbox: &[zero], ..free }),
        "a gearbox ratio must be more than nothing, not 0"
    );
    assert_eq!(why(&Request { gearbox: &[], ..free }), "the gearbox has no ratio, not even 1/1");
    assert!(why(&Request { gearbox: &vec![Ratio::ONE; 101], ..free }).starts_with("101 "));
    assert!(why(&Request { pairs_max: 0, ..free }).contains("0 pairs"));
    assert!(why(&Request { pairs_max: 4, ..free }).contains("4 pairs"));
    let huge = Ratio::new(1 << 100, 3).unwrap();
    assert_eq!(why(&Request { target: huge, ..free }), "the number is too large to keep exactly");
    let banjo = Banjo {
        module: Ratio::ONE,
        centres: Ratio::whole(120),
        slot: (Ratio::whole(40), Ratio::whole(90)),
        boss_radius: Ratio::whole(9),
    };
    let on = |banjo| Request { mounting: Mounting::Banjo(banjo), ..free };
    assert!(search(&drawer, &on(banjo)).is_ok());
    assert!(why(&on(Banjo { module: zero, ..banjo })).starts_with("the module must"));
    assert_eq!(
        why(&on(Banjo { slot: (Ratio::whole(90), Ratio::whole(40)), ..banjo })),
        "the least of the slot is more than the most"
    );
}
