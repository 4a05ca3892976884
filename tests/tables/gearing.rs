//! Change gears beside printed tables and worked examples; each row carries its source.

use latheside_core::exact::Ratio;
use latheside_core::gearing::{
    Banjo, Drawer, Found, Hand, Mounting, Pair, Request, Train, idlers, search,
};

const JONES: &str =
    "Jones F.D., Turning and Boring (1914, 1919 printing), ch. IV, Gutenberg #34030";
const LATHE_AND_USES: &str =
    "The Lathe and Its Uses, screw-cutting sections, Figs 155-157 and 170s, Gutenberg #60819";
const ROSE: &str = "Rose J., Modern Machine-Shop Practice, screw-cutting wheels, Figs 1235-1242";
const SCREWING_WHEELS: &str = "Construction Tools, Selection of Screwing Wheels (a shared copy)";
const SIMPLE_GEAR: &str = "Construction Tools, Selection of Simple-Gear Wheels (a shared copy)";
const LATHE_OPERATION: &str = "Lathe Operation, Lathe Work part 5, Figs 219-221 (a shared copy)";
const HAYES: &str = "Hayes B., On the Teeth of Wheels, American Scientist 88 (July-Aug 2000), p. 4";
const GOODRICH: &str =
    "Goodrich, The Modern Clock, Gutenberg #61494, Brocot calendar, Figs 116-120";
const COMPUTED: &str = "independent computation in exact fractions";
const BENCHMARK: &str = "the four-gear benchmark of Deb & Goyal, ICGA 1997, pp. 521-528; best known \
    cost 2.7009e-12 with 16 19 43 49 from memory; ranks by an independent exhaustive computation";

const FREE: Mounting = Mounting::Free;
const ONE: &[Ratio] = &[Ratio::ONE];

fn r(num: i64, den: i64) -> Ratio {
    Ratio::of(num, den)
}

/// 25.4 mm.
fn inches(num: i64, den: i64) -> Ratio {
    r(127 * num, 5 * den)
}

fn over(a: Ratio, b: Ratio) -> Ratio {
    a.div(b).unwrap()
}

fn look(gears: &[u32], target: Ratio, pairs_max: u8, keep: usize) -> Found {
    let drawer = Drawer::new(gears).unwrap();
    let request =
        Request { target, before_train: Ratio::ONE, gearbox: ONE, pairs_max, mounting: FREE, keep };
    let found = search(&drawer, &request).unwrap();
    assert!(found.complete);
    found
}

fn sides(train: &Train) -> (Vec<u16>, Vec<u16>) {
    let mut drivers: Vec<u16> = train.pairs().iter().map(|pair| pair.driver).collect();
    let mut driven: Vec<u16> = train.pairs().iter().map(|pair| pair.driven).collect();
    drivers.sort_unstable();
    driven.sort_unstable();
    (drivers, driven)
}

/// The train with these drivers and these driven gears, among all that the search lists.
fn train(found: &Found, drivers: &[u16], driven: &[u16]) -> Option<Train> {
    let sorted = |side: &[u16]| {
        let mut side = side.to_vec();
        side.sort_unstable();
        side
    };
    let wanted = (sorted(drivers), sorted(driven));
    found.best.iter().copied().find(|train| sides(train) == wanted)
}

/// A train made of just these gears, whatever its error.
fn made_of(target: Ratio, drivers: &[u16], driven: &[u16]) -> Train {
    let gears: Vec<u32> = drivers.iter().chain(driven).map(|&gear| u32::from(gear)).collect();
    let pairs = u8::try_from(drivers.len()).unwrap();
    train(&look(&gears, target, pairs, 10_000), drivers, driven).expect("every selection")
}

fn every(from: u32, to: u32, step: usize) -> Vec<u32> {
    (from..=to).step_by(step).collect()
}

fn near(a: f64, b: f64, by: f64) -> bool {
    (a - b).abs() <= by
}

/// One worked example: gears to choose from, screw and thread wanted as leads, what comes out.
struct Example {
    gears: Vec<u32>,
    screw: Ratio,
    thread: Ratio,
    drivers: &'static [u16],
    driven: &'static [u16],
    source: &'static str,
}

fn example(
    gears: &[u32],
    screw: Ratio,
    thread: Ratio,
    drivers: &'static [u16],
    driven: &'static [u16],
    source: &'static str,
) -> Example {
    Example { gears: gears.to_vec(), screw, thread, drivers, driven, source }
}

/// Threads to the inch as a lead in inches (the unit falls out of the ratio).
fn tpi(num: i64, den: i64) -> Ratio {
    r(den, num)
}

#[test]
fn worked_examples_of_change_gears() {
    let by_four = every(24, 100, 4);
    let by_five = every(30, 100, 5);
    let mm = |n| over(Ratio::whole(n), inches(1, 1));
    let with_127 = [every(20, 120, 5), vec![127]].concat();
    let rows = [
        example(&by_four, tpi(6, 1), tpi(9, 1), &[24], &[36], JONES),
        example(&by_four, tpi(6, 1), tpi(10, 1), &[24], &[40], JONES),
        example(&by_five, tpi(6, 1), tpi(24, 1), &[40, 30], &[80, 60], JONES),
        example(&by_four, tpi(8, 1), tpi(7, 4), &[72, 64], &[36, 28], JONES),
        example(&with_127, tpi(6, 1), mm(3), &[90], &[127], JONES),
        example(&with_127, tpi(4, 1), tpi(19, 1), &[20], &[95], JONES),
        // 2 2/3 to the inch is a lead of 3/8 in.
        example(&by_four, tpi(6, 1), tpi(8, 3), &[72], &[32], JONES),
        example(&[20, 80, 30, 120, 40, 160], tpi(2, 1), tpi(8, 1), &[20], &[80], LATHE_AND_USES),
        example(&[20, 80, 30, 120, 40, 160], tpi(2, 1), tpi(8, 1), &[30], &[120], LATHE_AND_USES),
        example(&[20, 80, 30, 120, 40, 160], tpi(2, 1), tpi(8, 1), &[40], &[160], LATHE_AND_USES),
        example(&every(10, 60, 5), tpi(2, 1), tpi(10, 1), &[10], &[50], LATHE_AND_USES),
        example(&[10, 20, 20, 25], tpi(2, 1), tpi(5, 1), &[20, 10], &[25, 20], LATHE_AND_USES),
        example(&every(18, 66, 6), tpi(4, 1), tpi(11, 1), &[48, 18], &[66, 36], ROSE),
        example(&[20, 140, 60], tpi(1, 1), tpi(7, 1), &[20], &[140], SCREWING_WHEELS),
        example(&[20, 40, 60], tpi(2, 1), tpi(4, 1), &[20], &[40], SIMPLE_GEAR),
        example(&[20, 15, 40, 30], tpi(2, 1), tpi(3, 2), &[20], &[15], SIMPLE_GEAR),
        example(&[20, 15, 40, 30], tpi(2, 1), tpi(3, 2), &[40], &[30], SIMPLE_GEAR),
        example(&[24, 36, 48, 72], tpi(4, 1), tpi(16, 1), &[36, 24], &[48, 72], LATHE_OPERATION),
        example(&[24, 36, 48, 72], tpi(4, 1), tpi(1, 1), &[48, 72], &[36, 24], LATHE_OPERATION),
        example(&[5, 6, 200, 216], r(1440, 1), Ratio::ONE, &[6, 5], &[200, 216], HAYES),
        example(&[5, 6, 6, 60, 60, 72], r(1440, 1), Ratio::ONE, &[6, 6, 5], &[72, 60, 60], HAYES),
        example(
            &[20, 30, 40, 40, 50, 60],
            tpi(8, 1),
            tpi(40, 1),
            &[20, 30, 40],
            &[60, 50, 40],
            COMPUTED,
        ),
        example(
            &[20, 20, 25, 100, 100, 120],
            r(6, 1),
            r(1, 20),
            &[20, 25, 20],
            &[100, 120, 100],
            COMPUTED,
        ),
        example(&with_127, tpi(4, 1), mm(3), &[60], &[127], COMPUTED),
        example(&[127, 200, 50], r(5, 1), inches(1, 8), &[127], &[200], COMPUTED),
    ];
    for row in rows {
        let target = over(row.thread, row.screw);
        let found = look(&row.gears, target, 3, 60);
        let pairs = u8::try_from(row.drivers.len()).unwrap();
        let fewer = look(&row.gears, target, pairs, 2_000);
        let cut = train(&fewer, row.drivers, row.driven);
        let cut = cut.unwrap_or_else(|| panic!("{}: {:?}", row.source, row.drivers));
        assert!(cut.exact(), "{}: {:?} over {:?}", row.source, row.drivers, row.driven);
        assert_eq!(cut.total, target, "{}", row.source);
        assert!(found.all.least_error.is_zero() && found.best[0].exact(), "{}", row.source);
    }
}

#[test]
fn examples_that_are_not_a_list_of_gears() {
    // Three sets of wheels, and no others.
    let found = look(&[20, 80, 30, 120, 40, 160], r(1, 4), 1, 40);
    assert_eq!((found.all.count, found.all.least_error), (3, Ratio::ZERO), "{LATHE_AND_USES}");
    // 0.200 in by way of 83/84 is 0.19762 in.
    let found = look(&[83, 84], Ratio::ONE, 1, 40);
    let pitch = found.best[0].total.mul(r(1, 5)).unwrap().to_f64();
    assert!(near(pitch, 0.19762, 5e-6), "{JONES}: {pitch}");
    // 40 drives 10 (an idler) drives 20: the last turns twice. 60 on 10, 30 beside it on 20: nine times,
    // and three times if first and last met.
    assert_eq!(made_of(Ratio::ONE, &[40], &[20]).total, r(2, 1), "{LATHE_AND_USES}");
    assert_eq!(made_of(Ratio::ONE, &[60, 30], &[10, 20]).total, r(9, 1), "{LATHE_AND_USES}");
    assert_eq!(made_of(Ratio::ONE, &[60], &[20]).total, r(3, 1), "{LATHE_AND_USES}");
    // A lead of 2 in from a screw of 20 to the inch: 40 turns of the screw.
    let target = over(r(2, 1), tpi(20, 1));
    assert_eq!(target, r(40, 1), "{LATHE_AND_USES}");
    assert!(made_of(target, &[200, 100], &[10, 50]).exact(), "{LATHE_AND_USES}");
    // Screw 1.8, thread 2.3 to the inch: 20 would want 25.5555; only a factor 23 makes it.
    let target = over(r(10, 23), r(10, 18));
    assert_eq!(target, r(18, 23), "{SIMPLE_GEAR}");
    let wanted = over(Ratio::whole(20), target).to_f64();
    assert!(near(wanted, 25.5555, 1e-4), "{SIMPLE_GEAR}");
    let without: Vec<u32> = every(20, 100, 1).into_iter().filter(|n| n % 23 != 0).collect();
    assert!(!look(&without, target, 2, 1).all.least_error.is_zero(), "{SIMPLE_GEAR}");
    let with = [without, vec![46]].concat();
    assert!(look(&with, target, 1, 1).all.least_error.is_zero(), "{SIMPLE_GEAR}");
    assert_eq!(tpi(8, 3), r(3, 8), "{JONES}");
    // A cone of eight, times three, times three: 72 changes from one pair.
    let cone = [8, 9, 10, 11, 12, 13, 14, 15];
    let steps: Vec<Ratio> = cone
        .iter()
        .flat_map(|&n| [1, 2, 4].map(|m| r(8 * m, n)))
        .flat_map(|x| [1, 8, 64].map(|m| x.mul(r(1, m)).unwrap()))
        .collect();
    let drawer = Drawer::new(&[40, 40]).unwrap();
    let request = Request {
        target: Ratio::ONE,
        before_train: Ratio::ONE,
        gearbox: &steps,
        pairs_max: 3,
        mounting: FREE,
        keep: 100,
    };
    assert_eq!(search(&drawer, &request).unwrap().best.len(), 72, "{JONES}");
}

#[test]
fn the_lathes_constant_stands_for_a_stud_that_does_not_turn_with_the_spindle() {
    // The thread cut with equal gears in place of the screw's own: a screw of 4 behind a stud
    // that turns 1/2 for one of the spindle has the constant 8.
    let drawer = Drawer::new(&every(24, 100, 4)).unwrap();
    let request = Request {
        target: over(tpi(7, 4), tpi(4, 1)),
        before_train: r(1, 2),
        gearbox: ONE,
        pairs_max: 2,
        mounting: FREE,
        keep: 1_000,
    };
    let found = search(&drawer, &request).unwrap();
    assert!(train(&found, &[72, 64], &[36, 28]).is_some_and(|cut| cut.exact()), "{JONES}");
}

#[test]
fn three_pairs_and_a_127() {
    // A constant of 8 and 40 to the inch.
    let target = over(tpi(40, 1), tpi(8, 1));
    let cut = made_of(target, &[20, 30, 40], &[60, 50, 40]);
    assert_eq!((cut.total, cut.exact()), (r(24_000, 120_000), true), "{COMPUTED}");
    // A feed of 0.05 mm from a screw of 6 mm.
    let target = over(r(1, 20), r(6, 1));
    let cut = made_of(target, &[20, 25, 20], &[100, 120, 100]);
    assert_eq!((cut.total, cut.exact()), (r(1, 120), true), "{COMPUTED}");
    // 3 mm on 4 to the inch: 4 × 3 × 5 over 127.
    assert_eq!(over(r(3, 1), inches(1, 4)), r(4 * 3 * 5, 127), "{COMPUTED}");
    // Two wheels of 100 and 101 on one worm part by a turn in so many of the worm.
    let gained = r(1, 100).sub(r(1, 101)).unwrap();
    assert_eq!(gained, r(1, 10_100), "507 Mechanical Movements (1868), no. 264");
}

#[test]
fn the_moon_train() {
    // A seven-day arbor, 10 into 84 and 75 into 113, one turn in three lunations.
    let lunation = r(29, 1)
        .add(r(12, 24))
        .and_then(|days| days.add(r(44, 24 * 60)))
        .and_then(|days| days.add(r(29, 10 * 86_400)))
        .unwrap();
    let target = over(r(7, 3), lunation);
    let found = look(&[10, 75, 84, 113], target, 2, 40);
    assert_eq!(sides(&found.best[0]), (vec![10, 75], vec![84, 113]), "{GOODRICH}");
    let cut = over(r(7, 3), found.best[0].total);
    assert!(near(cut.to_f64(), 29.530_667, 5e-7), "{GOODRICH}: {}", cut.to_f64());
    let off = cut.sub(lunation).unwrap().to_f64();
    assert!(near(off, 0.000_078, 5e-7), "{GOODRICH}: {off}");
}

#[test]
fn inch_threads_from_metric_screws_and_metric_from_inch() {
    // Screw 8 to the inch, pitch in mm, the exact ratio, and with 63/80 for 100/127.
    let rows = [
        (r(1, 2), r(20, 127), r(63, 400), [20, 100]),
        (r(7, 10), r(28, 127), r(441, 2000), [28, 100]),
        (r(3, 4), r(30, 127), r(189, 800), [30, 100]),
        (r(1, 1), r(40, 127), r(63, 200), [40, 100]),
        (r(3, 2), r(60, 127), r(189, 400), [60, 100]),
        (r(7, 4), r(70, 127), r(441, 800), [70, 100]),
        (r(2, 1), r(80, 127), r(63, 100), [40, 50]),
        (r(5, 2), r(100, 127), r(63, 80), [50, 50]),
        (r(3, 1), r(120, 127), r(189, 200), [60, 50]),
    ];
    for (pitch, exact, with_63, [driver, driven]) in rows {
        let target = over(pitch, inches(1, 8));
        assert_eq!(target, exact, "{COMPUTED}");
        let near_63 = made_of(target, &[63, driver], &[80, driven]);
        assert_eq!(near_63.total, with_63, "{COMPUTED}");
        assert!(near(near_63.error_ppm(), 125.0, 0.05), "{COMPUTED}: {}", near_63.error_ppm());
        let near_37 = made_of(target, &[37, driver], &[47, driven]);
        assert!(near(near_37.error_ppm(), -212.8, 0.05), "{COMPUTED}: {}", near_37.error_ppm());
        // With a 127 it is exact, without one never: 127 is prime.
        let by_five = every(20, 120, 5);
        assert!(!look(&by_five, target, 2, 1).all.least_error.is_zero(), "{COMPUTED}");
        let with_127 = [by_five, vec![127]].concat();
        let found = look(&with_127, target, 2, 1);
        assert!(found.best[0].exact(), "{COMPUTED}: {pitch}");
        assert!(sides(&found.best[0]).1.contains(&127), "{COMPUTED}");
    }
    // Screw of 1.5 mm, threads to the inch.
    let rows = [
        (10, r(127, 75)),
        (11, r(254, 165)),
        (12, r(127, 90)),
        (14, r(127, 105)),
        (18, r(127, 135)),
        (19, r(254, 285)),
        (20, r(127, 150)),
        (24, r(127, 180)),
        (26, r(127, 195)),
        (28, r(127, 210)),
        (40, r(127, 300)),
    ];
    for (threads, exact) in rows {
        let target = over(inches(1, threads), r(3, 2));
        assert_eq!(target, exact, "{COMPUTED}");
        let with_127 = [every(20, 120, 5), vec![127]].concat();
        let found = look(&with_127, target, 2, 1);
        assert!(found.best[0].exact(), "{COMPUTED}: {threads} to the inch");
        assert!(sides(&found.best[0]).0.contains(&127), "{COMPUTED}");
    }
}

#[test]
fn stand_ins_for_127() {
    let rows = [
        (r(127, 100), 47, 37, 212.81),
        (r(127, 100), 14, 11, 2147.46),
        (r(127, 100), 61, 48, 656.17),
        (r(127, 100), 108, 85, 463.18),
        (r(127, 100), 113, 89, -265.42),
        (r(127, 100), 52, 41, -1344.34),
        (r(100, 127), 63, 80, 125.00),
        (r(100, 127), 26, 33, 606.06),
        (r(100, 127), 48, 61, -655.74),
        (r(100, 127), 100, 127, 0.0),
        (r(100, 127), 52, 66, 606.06),
        (r(127, 150), 44, 52, -605.69),
        (r(50, 127), 24, 61, -655.74),
        (r(50, 127), 13, 33, 606.06),
        (r(50, 127), 37, 94, -212.77),
    ];
    for (target, driver, driven, ppm) in rows {
        let cut = made_of(target, &[driver], &[driven]);
        assert!(
            near(cut.error_ppm(), ppm, 0.005),
            "{COMPUTED}: {driver}/{driven} {}",
            cut.error_ppm()
        );
        assert_eq!(cut.exact(), ppm == 0.0, "{COMPUTED}");
    }
    // 63/80 is 0.0375 mm long in 300.
    let long = made_of(r(100, 127), &[63], &[80]).error.mul(r(300, 1)).unwrap();
    assert_eq!(long, r(375, 10_000), "{COMPUTED}");

    // The best of all that a set allows; the source gives the size of the error alone.
    let best = |gears: &[u32], pairs| look(gears, r(127, 100), pairs, 1).best[0];
    let one = best(&every(20, 50, 1), 1);
    assert_eq!(sides(&one), (vec![47], vec![37]), "{COMPUTED}");
    assert!(near(one.error_ppm(), 212.81, 0.005), "{COMPUTED}");
    // 20..126 is more than a drawer holds, so its two ends are taken away in turn.
    for set in [every(20, 100, 1), every(20, 119, 1), every(27, 126, 1)] {
        let one = best(&set, 1);
        assert_eq!(sides(&one), (vec![80], vec![63]), "{COMPUTED}: {}", set.len());
        assert!(near(one.error_ppm(), -124.98, 0.005), "{COMPUTED}");
    }
    for (set, ppm, drivers, driven) in [
        (every(20, 80, 5), -124.9844, [25, 80], [35, 45]),
        (every(20, 120, 5), -124.9844, [20, 100], [35, 45]),
        (every(20, 80, 1), 3.3693, [53, 56], [41, 57]),
    ] {
        let found = look(&set, r(127, 100), 2, 1_000);
        assert!(
            near(found.best[0].error_ppm(), ppm, 5e-5),
            "{COMPUTED}: {}",
            found.best[0].error_ppm()
        );
        let named = train(&found, &drivers, &driven).expect("listed");
        assert_eq!(named.error, found.all.least_error, "{COMPUTED}");
    }
}

/// π to fifteen places: some 10⁻¹⁶ of it off, far below what shows in the rows.
fn pi() -> Ratio {
    r(3_141_592_653_589_793, 1_000_000_000_000_000)
}

#[test]
#[allow(clippy::approx_constant)]
fn worms_and_other_leads_with_pi_in_them() {
    let rows: [(&[u16], &[u16], f64); 8] = [
        (&[44], &[14], 402.499),
        (&[71, 60], &[12, 113], 0.085),
        (&[57, 84], &[127, 12], 44.446),
        (&[111, 60], &[106, 20], -26.490),
        (&[25, 47], &[22, 17], 37.744),
        (&[8, 97], &[13, 19], 34.298),
        (&[49, 100], &[78, 20], -180.486),
        (&[32, 27], &[25, 11], 71.788),
    ];
    for (drivers, driven, ppm) in rows {
        let cut = made_of(pi(), drivers, driven);
        assert!(near(cut.error_ppm(), ppm, 5e-4), "{COMPUTED}: {drivers:?} {}", cut.error_ppm());
        assert!(!cut.exact());
    }
    // Screw 3 mm, modules; 22/7.
    for (module, ratio, stand_in) in [
        (r(1, 2), 0.523_598_776, r(11, 21)),
        (r(1, 1), 1.047_197_551, r(22, 21)),
        (r(5, 4), 1.308_996_939, r(55, 42)),
        (r(3, 2), 1.570_796_327, r(11, 7)),
        (r(2, 1), 2.094_395_102, r(44, 21)),
    ] {
        let target = over(pi().mul(module).unwrap(), r(3, 1));
        assert!(near(target.to_f64(), ratio, 5e-10), "{COMPUTED}");
        let (driver, driven) = (stand_in.numer() as u16 * 2, stand_in.denom() as u16 * 2);
        let cut = made_of(target, &[driver], &[driven]);
        assert_eq!(cut.total, stand_in, "{COMPUTED}");
        assert!(near(cut.error_ppm(), 402.5, 0.05), "{COMPUTED}");
    }
    // Screw 8 to the inch, diametral pitches; 22/7, and 355/113 by way of 71·…/113.
    for (pitch, ratio, stand_in, better) in [
        (10, 2.513_274_12, r(88, 35), r(284, 113)),
        (16, 1.570_796_33, r(11, 7), r(355, 226)),
        (20, 1.256_637_06, r(44, 35), r(142, 113)),
        (32, 0.785_398_16, r(11, 14), r(355, 452)),
    ] {
        let target = over(over(pi(), r(pitch, 1)), tpi(8, 1));
        assert!(near(target.to_f64(), ratio, 5e-9), "{COMPUTED}");
        let (driver, driven) = (stand_in.numer() as u16 * 2, stand_in.denom() as u16 * 2);
        let cut = made_of(target, &[driver], &[driven]);
        assert!(near(cut.error_ppm(), 402.5, 0.05), "{COMPUTED}");
        // 8·10/pitch · 71/113 · 1/2 …: 71 and 40 over 113 and what is left.
        let left = over(r(71 * 40, 113), better);
        assert!(left.is_whole(), "{COMPUTED}");
        let cut = made_of(target, &[71, 40], &[113, left.numer() as u16]);
        assert_eq!(cut.total, better, "{COMPUTED}");
        assert!(near(cut.error_ppm(), 0.085, 5e-4), "{COMPUTED}: {}", cut.error_ppm());
    }
}

fn pair(driver: u16, driven: u16) -> Pair {
    Pair { driver, driven }
}

fn banjo(module: Ratio, centres: Ratio, boss_radius: Ratio) -> Mounting {
    Mounting::Banjo(Banjo { module, centres, slot: (r(1, 1), r(400, 1)), boss_radius })
}

#[test]
fn what_clears_and_what_fouls() {
    let nothing = Drawer::new(&[]).unwrap();
    let shop = Mounting::Shop { stud_clearance_teeth: 15, centres_teeth: None };
    // A=25 B=30 C=60 D=50: 55 against 75 fouls; 110 against 45 is right.
    let stands = shop.stands(&[pair(25, 30), pair(60, 50)], &nothing).unwrap();
    assert_eq!((stands.mountable, stands.clearance), (false, Some(r(-20, 1))), "{COMPUTED}");
    // 115 against 115 fouls: the rule is strict (common shop rule, from memory).
    let stands = shop.stands(&[pair(60, 55), pair(100, 40)], &nothing).unwrap();
    assert_eq!((stands.mountable, stands.clearance), (false, Some(r(0, 1))), "from memory");
    let stands = shop.stands(&[pair(61, 55), pair(100, 40)], &nothing).unwrap();
    assert_eq!((stands.mountable, stands.clearance), (true, Some(r(1, 1))), "from memory");

    // The same rule from the gears' own measure: module, boss, the k that it comes to.
    for (module, boss, k) in
        [(r(1, 1), r(13, 2), 15), (r(1, 1), r(10, 1), 22), (r(2, 1), r(13, 1), 15)]
    {
        // The stud as far from the spindle as from the screw, so that nothing else decides.
        let mounting = banjo(module, module.mul(r(60, 1)).unwrap(), boss);
        for more in 0..3 {
            // A + B = C + k + more.
            let (b, c, d) = (60, 80, 70);
            let a = c + k + more - b;
            let stands = mounting.stands(&[pair(a, b), pair(c, d)], &nothing).unwrap();
            let expected = (more > 0, Some(r(i64::from(more), 1)));
            assert_eq!((stands.mountable, stands.clearance), expected, "{COMPUTED}");
        }
    }
}

#[test]
fn what_reaches() {
    let nothing = Drawer::new(&[]).unwrap();
    let none = Ratio::ZERO;
    let on = |module, centres, a, b, c, d| {
        banjo(module, centres, none).stands(&[pair(a, b), pair(c, d)], &nothing).unwrap()
    };
    // d1 60, d2 65 over 120.
    assert!(on(r(1, 1), r(120, 1), 40, 80, 60, 70).mountable, "{COMPUTED}");
    assert!(!on(r(1, 1), r(126, 1), 40, 80, 60, 70).mountable, "{COMPUTED}");
    // d1 72.5 and d2 57.5 just reach over 130: the stud lies on the line of centres.
    assert!(on(r(1, 1), r(130, 1), 65, 80, 30, 85).mountable, "{COMPUTED}");
    assert!(!on(r(1, 1), r(130_000_001, 1_000_000), 65, 80, 30, 85).mountable, "{COMPUTED}");
    // d1 87.5 and d2 62.5 of module 1.25 just reach over 150, but the tips of the 100
    // stand 63.75 from its centre, 2 teeth beyond the screw's.
    let stands = on(r(5, 4), r(150, 1), 40, 100, 40, 60);
    assert_eq!((stands.mountable, stands.clearance), (false, Some(r(-2, 1))), "{COMPUTED}");
    // Without those, a smaller B that reaches the same: 60 and 80 for 40 and 100.
    assert!(on(r(5, 4), r(150, 1), 60, 80, 40, 60).mountable, "{COMPUTED}");
    assert!(!on(r(5, 4), r(150_000_001, 1_000_000), 60, 80, 40, 60).mountable, "{COMPUTED}");
}

#[test]
fn a_single_pair_on_a_banjo_takes_an_idler() {
    // The idler must satisfy (A + 2I + D)·m/2 ≥ L.
    let mounting = banjo(r(1, 1), r(100, 1), r(9, 1));
    let on = |gears: &[u32]| {
        let drawer = Drawer::new(gears).unwrap();
        mounting.stands(&[pair(40, 60)], &drawer).unwrap()
    };
    assert!(!on(&[40, 60]).mountable, "{COMPUTED}");
    assert!(!on(&[40, 49, 60]).mountable, "{COMPUTED}");
    assert_eq!(on(&[40, 49, 50, 55, 60]).idler, Some(50), "{COMPUTED}");
    // One of the two in use is no idler; a second of its size is.
    assert!(!on(&[40, 60]).mountable && on(&[40, 60, 60]).idler == Some(60), "the rule's words");
    // Three pairs don't go on.
    let drawer = Drawer::new(&[20, 30, 40, 50, 60, 70]).unwrap();
    let three = [pair(40, 50), pair(40, 50), pair(40, 50)];
    assert!(!mounting.stands(&three, &drawer).unwrap().mountable, "the rule's words");
}

#[test]
fn direction() {
    let right = Some(Hand::Right);
    let least = |pairs, hand| idlers(pairs, hand, right, Some(false), 0);
    // An even number of meshes: the last wheel turns with the first. A–idler–D has two.
    assert_eq!(least(1, Hand::Right), Some(1), "{COMPUTED}");
    // 10 on the mandrel, 50 on the screw, an idler between.
    assert_eq!(least(1, Hand::Right), Some(1), "{LATHE_AND_USES}");
    // A/B compound C/D has two as well, and one idler more reverses.
    assert_eq!(least(2, Hand::Right), Some(0), "{ROSE}");
    assert_eq!(least(2, Hand::Left), Some(1), "{ROSE}");
    assert_eq!((least(3, Hand::Right), least(3, Hand::Left)), (Some(1), Some(0)), "{COMPUTED}");
}

fn one_pair(target: Ratio, gearbox: &[Ratio]) -> Request<'_> {
    Request { target, before_train: Ratio::ONE, gearbox, pairs_max: 1, mounting: FREE, keep: 40 }
}

#[test]
fn through_a_quick_change_box() {
    // 100/127 outside, the box set for so many to the inch: 20/n mm.
    let cone = [r(8, 1), r(9, 1), r(10, 1), r(11, 1), r(23, 2), r(12, 1), r(13, 1), r(14, 1)];
    let screw = inches(1, 8);
    let steps: Vec<Ratio> = cone.iter().map(|&n| over(r(8, 1), n)).collect();
    let drawer = Drawer::new(&[100, 127, 60, 60]).unwrap();
    for (set, mm) in
        [(0, r(5, 2)), (1, r(20, 9)), (2, r(2, 1)), (4, r(40, 23)), (6, r(20, 13)), (7, r(10, 7))]
    {
        let found = search(&drawer, &one_pair(over(mm, screw), &steps)).unwrap();
        let first = &found.best[0];
        assert!(first.exact() && first.gearbox == set, "{COMPUTED}: {mm}");
        assert_eq!(first.pairs(), [pair(100, 127)], "{COMPUTED}");
    }
    // Thread = constant · cone · multiplier, with equal gears outside.
    let rows = [
        (r(1, 2), [r(4, 1), r(9, 2), r(5, 1), r(11, 2), r(23, 4), r(6, 1), r(13, 2), r(7, 1)]),
        (r(1, 1), cone),
        (r(8, 1), [64, 72, 80, 88, 92, 96, 104, 112].map(|n| r(n, 1))),
    ];
    for (multiplier, threads) in rows {
        let steps: Vec<Ratio> =
            cone.iter().map(|&n| over(r(8, 1), n.mul(multiplier).unwrap())).collect();
        for (set, n) in threads.into_iter().enumerate() {
            let found =
                search(&drawer, &one_pair(over(inches(1, 1), screw.mul(n).unwrap()), &steps))
                    .unwrap();
            let first = &found.best[0];
            let hits = (first.exact(), first.gearbox, first.pairs());
            assert_eq!(hits, (true, set, &[pair(60, 60)][..]), "common 4-112 layout, from memory");
        }
    }
}

/// Any four gears of 12 to 60: two of each are enough, as a size on both sides cancels.
#[test]
fn the_four_gear_benchmark() {
    let twice: Vec<u32> = (12..=60).chain(12..=60).collect();
    let target = r(1000, 6931);
    let found = look(&twice, target, 2, 200);
    let mut ratios: Vec<Ratio> = Vec::new();
    for train in &found.best {
        if ratios.last() != Some(&train.total) {
            ratios.push(train.total);
        }
    }
    for (rank, ratio, squared, ppm) in [
        (1, r(304, 2107), 2.700_857_148_9e-12, 11.3906),
        (3, r(403, 2793), 9.939_875_595_2e-11, 69.1013),
        (4, r(187, 1296), 1.166_115_767_8e-10, 74.8457),
        (7, r(299, 2072), 6.602_089_880_2e-10, 178.0888),
        (8, r(74, 513), 8.887_614_372_7e-10, 206.6277),
        (9, r(400, 2773), 9.745_653_447_0e-10, 216.3722),
        (10, r(156, 1081), 9.921_579_584_0e-10, 218.3164),
    ] {
        assert_eq!(ratios[rank - 1], ratio, "{BENCHMARK}");
        let off = ratio.sub(target).unwrap();
        let square = off.mul(off).unwrap().to_f64();
        assert!(near(square, squared, squared * 1e-9), "{BENCHMARK}: {square}");
        let error = over(ratio, target).sub(Ratio::ONE).unwrap().to_f64().abs() * 1e6;
        assert!(near(error, ppm, 5e-5), "{BENCHMARK}: {error}");
    }
    let best = &found.best[0];
    assert_eq!(sides(best), (vec![16, 19], vec![43, 49]), "{BENCHMARK}");
    assert_eq!(found.all.count, 1, "{BENCHMARK}");
    for (drivers, driven) in [
        ([13, 31], [49, 57]),
        ([17, 22], [48, 54]),
        ([13, 23], [37, 56]),
        ([12, 37], [54, 57]),
        ([16, 25], [47, 59]),
        ([20, 20], [47, 59]),
        ([12, 13], [23, 47]),
        ([12, 26], [46, 47]),
        ([13, 24], [46, 47]),
    ] {
        assert!(train(&found, &drivers, &driven).is_some(), "{BENCHMARK}: {drivers:?}");
    }
}

#[test]
fn the_stepping_drive() {
    // 64·22·26·31·32/(9·9·10·11) steps a turn, times ab/(cd), to come to 720; four gears of 8 to 40.
    let steps = r(64 * 22 * 26 * 31 * 32, 9 * 9 * 10 * 11);
    let target = over(r(720, 1), steps);
    let off = |from: u32, to: u32| {
        let twice: Vec<u32> = (from..=to).chain(from..=to).collect();
        let found = look(&twice, target, 2, 40);
        // Of the half degree that a step should be.
        let step = over(r(1, 2), found.all.least_error.add(Ratio::ONE).unwrap());
        (step.sub(r(1, 2)).unwrap().abs().to_f64(), sides(&found.best[0]))
    };
    let source =
        "a published question on the number of teeth in gears, recomputed in exact fractions";
    let (degrees, gears) = off(8, 40);
    assert!(near(degrees, 0.000_043_696_344_953_2, 1e-15), "{source}: {degrees} {gears:?}");
    assert_eq!(gears, (vec![8, 31], vec![36, 39]), "{source}");
    let (degrees, gears) = off(10, 38);
    assert!(near(degrees, 0.000_065_613_7, 5e-11), "{COMPUTED}: {degrees} {gears:?}");
    assert_eq!(gears, (vec![10, 13], vec![23, 32]), "{COMPUTED}");
}

#[test]
fn how_many_there_are() {
    // 15 different gears: 8,190 selections of two and two, 210 of one and one.
    let fifteen = every(20, 90, 5);
    let found = look(&fifteen, Ratio::ONE, 2, 10_000);
    let of = |pairs| found.best.iter().filter(|train| train.pairs().len() == pairs).count();
    assert_eq!((of(1), of(2)), (210, 8190), "{COMPUTED}");
    // One of each 20..80 by 5: 116 ratios of one pair, 1,423 of two.
    for (pairs, ratios) in [(1, 116), (2, 1423)] {
        let found = look(&every(20, 80, 5), Ratio::ONE, 2, 10_000);
        let mut totals: Vec<Ratio> =
            found.best.iter().filter(|t| t.pairs().len() == pairs).map(|t| t.total).collect();
        totals.sort_unstable();
        totals.dedup();
        assert_eq!(totals.len(), ratios, "{COMPUTED}");
    }
}
