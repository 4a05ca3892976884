//! How long the train search takes, beside trying everything in the same run.
#![allow(clippy::print_stdout)]

use latheside_core::exact::Ratio;
use latheside_core::gearing::{Banjo, Drawer, Mounting, Request, Tables, search};
use latheside_tests::slow::any_order;
use latheside_tests::slow::gearing::every_selection;
use std::hint::black_box;
use std::time::{Duration, Instant};

/// The middle one of several runs.
fn time(runs: usize, mut work: impl FnMut()) -> Duration {
    let mut times: Vec<Duration> = (0..runs)
        .map(|_| {
            let start = Instant::now();
            work();
            start.elapsed()
        })
        .collect();
    times.sort_unstable();
    times[runs / 2]
}

/// The plain way, as plainly as it can be quick: every selection, every order of it, every
/// gearbox position, whole numbers only, nothing kept but the least and how many reach it.
fn plain(gears: &[u32], request: &Request<'_>) -> [(i128, i128, u64); 2] {
    let mut least = [(1, 0, 0); 2];
    let k = match request.mounting {
        Mounting::Shop { stud_clearance_teeth, .. } => i64::from(stud_clearance_teeth),
        _ => 0,
    };
    let weights: Vec<(i128, i128)> = request
        .gearbox
        .iter()
        .map(|&step| request.before_train.mul(step).and_then(|x| x.div(request.target)).unwrap())
        .map(|x| (x.numer(), x.denom()))
        .collect();
    every_selection(gears, request.pairs_max, |drivers, driven| {
        let mountable = any_order(drivers, driven, k);
        let product = |side: &[u16]| side.iter().map(|&g| i128::from(g)).product::<i128>();
        let (above, below) = (product(drivers), product(driven));
        for &(num, den) in &weights {
            let (diff, den) = ((above * num - below * den).abs(), below * den);
            for (slot, counts) in least.iter_mut().zip([true, mountable]) {
                if counts {
                    match (diff * slot.1).cmp(&(slot.0 * den)) {
                        std::cmp::Ordering::Less => *slot = (diff, den, 1),
                        std::cmp::Ordering::Equal => slot.2 += 1,
                        std::cmp::Ordering::Greater => {}
                    }
                }
            }
        }
    });
    least
}

fn show(what: &str, quick: Duration, slow: Option<Duration>) {
    let ms = |d: Duration| d.as_secs_f64() * 1e3;
    match slow {
        Some(slow) => println!(
            "{what:<58} {:>10.3} ms  plain {:>10.1} ms  {:>8.0} times",
            ms(quick),
            ms(slow),
            ms(slow) / ms(quick)
        ),
        None => println!("{what:<58} {:>10.3} ms", ms(quick)),
    }
}

/// Against the plain version where that can be waited for; the answers must agree.
fn compare(what: &str, gears: &[u32], request: &Request<'_>, plainly: bool) {
    let drawer = Drawer::new(gears).unwrap();
    let quick = time(9, || {
        black_box(search(black_box(&drawer), black_box(request)).unwrap());
    });
    let slow = plainly.then(|| {
        let start = Instant::now();
        let [all, mountable] = black_box(plain(gears, request));
        let slow = start.elapsed();
        let found = search(&drawer, request).unwrap();
        assert!(found.complete);
        let same = |(diff, den, count): (i128, i128, u64), error: Ratio, found: u64| {
            assert_eq!((Ratio::new(diff, den).unwrap(), count), (error.abs(), found), "{what}");
        };
        same(all, found.all.least_error, found.all.count);
        match found.mountable {
            Some(reached) => same(mountable, reached.least_error, reached.count),
            None => assert_eq!(mountable.2, 0, "{what}"),
        }
        slow
    });
    show(what, quick, slow);
}

fn by_five(gears: u32) -> Vec<u32> {
    (0..gears).map(|n| 20 + 5 * n).collect()
}

/// 24 gears as a drawer comes to be: by fives, a doubled 20, and the odd ones bought since.
const DRAWER: [u32; 24] = [
    20, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100, 105, 110, 115, 120,
    63, 127,
];

const GEARBOX: [(i64, i64); 10] =
    [(1, 1), (1, 2), (1, 4), (2, 1), (8, 9), (8, 10), (8, 11), (16, 23), (8, 12), (8, 13)];

fn main() {
    let ten: Vec<Ratio> = GEARBOX.iter().map(|&(n, d)| Ratio::of(n, d)).collect();
    let hundred: Vec<Ratio> = (0..100).map(|n| Ratio::of(40 + n, 79)).collect();
    let shop = |k| Mounting::Shop { stud_clearance_teeth: k, centres_teeth: None };
    let request = |target, gearbox, pairs_max, mounting| Request {
        target,
        before_train: Ratio::ONE,
        gearbox,
        pairs_max,
        mounting,
        keep: 40,
    };
    let one = &ten[..1];
    let exact = Ratio::of(1, 3);
    let inexact = Ratio::of(127, 480);
    let worm = Ratio::of(314_159_265, 300_000_000);
    let full = std::env::args().any(|arg| arg == "--full");

    for (name, target) in [("exact", exact), ("inexact", inexact), ("pi", worm)] {
        compare(
            &format!("24 gears, 2 pairs, 1 ratio, k 15, {name}"),
            &DRAWER,
            &request(target, one, 2, shop(15)),
            true,
        );
        compare(
            &format!("24 gears, 2 pairs, 10 ratios, k 15, {name}"),
            &DRAWER,
            &request(target, &ten, 2, shop(15)),
            true,
        );
        compare(
            &format!("24 gears, 3 pairs, 10 ratios, k 15, {name}"),
            &DRAWER,
            &request(target, &ten, 3, shop(15)),
            true,
        );
    }
    let banjo = Mounting::Banjo(Banjo {
        module: Ratio::ONE,
        centres: Ratio::whole(120),
        slot: (Ratio::whole(40), Ratio::whole(90)),
        boss_radius: Ratio::whole(9),
    });
    let centres = |least, most| Mounting::Shop {
        stud_clearance_teeth: 15,
        centres_teeth: Some((least, most)),
    };
    for (name, mounting) in [
        ("free", Mounting::Free),
        ("k 0", shop(0)),
        ("k 40", shop(40)),
        ("k 80", shop(80)),
        ("k 110", shop(110)),
        ("k 999", shop(999)),
        ("centres 100..=180", centres(100, 180)),
        ("centres 120..=124", centres(120, 124)),
        ("centres 120", centres(120, 120)),
        ("centres 1", centres(1, 1)),
        ("banjo", banjo),
    ] {
        compare(
            &format!("24 gears, 3 pairs, 10 ratios, {name}, inexact"),
            &DRAWER,
            &request(inexact, &ten, 3, mounting),
            false,
        );
        compare(
            &format!("24 gears, 3 pairs, 10 ratios, {name}, exact"),
            &DRAWER,
            &request(exact, &ten, 3, mounting),
            false,
        );
        compare(
            &format!("24 gears, 2 pairs, 10 ratios, {name}, inexact"),
            &DRAWER,
            &request(inexact, &ten, 2, mounting),
            false,
        );
    }
    for (name, target) in
        [("far below", Ratio::of(1, 100_000)), ("far above", Ratio::whole(100_000))]
    {
        for (rule, mounting) in [("k 15", shop(15)), ("k 80", shop(80)), ("banjo", banjo)] {
            compare(
                &format!("24 gears, 3 pairs, 10 ratios, {rule}, {name}"),
                &DRAWER,
                &request(target, &ten, 3, mounting),
                false,
            );
        }
    }

    // 140 leads, each with the best train that can be mounted.
    let leads: Vec<Ratio> = (1..=100)
        .map(|n| Ratio::of(n, 24))
        .chain(
            (1..=40)
                .map(|n| Ratio::new(3_141_592_653_589_793 * n, 12_000_000_000_000_000).unwrap()),
        )
        .collect();
    for (rule, mounting) in [
        ("k 15", shop(15)),
        ("k 80", shop(80)),
        ("centres 120..=124", centres(120, 124)),
        ("banjo", banjo),
    ] {
        let drawer = Drawer::new(&DRAWER).unwrap();
        let quick = time(5, || {
            let tables = Tables::new(&drawer, 3).unwrap();
            for &target in &leads {
                black_box(tables.best_mountable(&request(target, &ten, 3, mounting)).unwrap());
            }
        });
        show(&format!("140 leads, 24 gears, 3 pairs, 10 ratios, {rule}"), quick, None);
    }

    for gears in [10, 20, 30, 40, 60] {
        compare(
            &format!("{gears} gears, 3 pairs, 10 ratios, k 15"),
            &by_five(gears),
            &request(inexact, &ten, 3, shop(15)),
            gears <= 20,
        );
    }
    let most: Vec<u32> = (20..120).collect();
    let drawer = Drawer::new(&most).unwrap();
    show(
        "100 gears, tables alone",
        time(3, || {
            black_box(Tables::new(&drawer, 3).unwrap());
        }),
        None,
    );
    compare("100 gears, 3 pairs, 1 ratio, k 15", &most, &request(inexact, one, 3, shop(15)), false);
    if full {
        for (name, mounting) in [
            ("k 15", shop(15)),
            ("k 80", shop(80)),
            ("k 100", shop(100)),
            ("k 115", shop(115)),
            ("centres 120", centres(120, 120)),
            ("centres 30..=32", centres(30, 32)),
            ("banjo", banjo),
        ] {
            for (how, target) in
                [("inexact", inexact), ("exact", exact), ("far below", Ratio::of(1, 100_000))]
            {
                for (ratios, gearbox) in [(1, one), (100, &hundred[..])] {
                    let start = Instant::now();
                    let found = search(&drawer, &request(target, gearbox, 3, mounting)).unwrap();
                    println!(
                        "{:<58} {:>10.1} ms  {:?} {:?} {}",
                        format!("100 gears, 3 pairs, {ratios} ratios, {name}, {how}"),
                        start.elapsed().as_secs_f64() * 1e3,
                        found.all.count,
                        found.mountable.map(|r| r.count),
                        found.complete
                    );
                }
            }
        }
    }
}
