//! The chart's rows, each recomputed another way, and beside worked examples.

use latheside_core::chart::{
    By, Changes, Chart, Divisions, FEED_OFF, Judged, Lathe, NoLathe, Only, Row, Standing, all_and,
    changed, csv, feeds, simplest, sorted,
};
use latheside_core::dividing::{Head, Kit, Setting, ways};
use latheside_core::exact::Ratio;
use latheside_core::gearing::{Banjo, Drawer, Mounting, Pair};
use latheside_core::threads::{Designation, Lead, parse, standard};
use latheside_tests::slow::gearing::{every_selection, goes_on, mounted, sizes};
use std::collections::BTreeMap;

const COMPUTED: &str = "independent computation in exact fractions";
const JONES: &str =
    "Jones F.D., Turning and Boring (1914, 1919 printing), ch. IV, Gutenberg #34030";
const LATHE_AND_USES: &str =
    "The Lathe and Its Uses, screw-cutting sections, Figs 155-157, Gutenberg #60819";
const SIMPLE_GEAR: &str = "Construction Tools, Selection of Simple-Gear Wheels (a shared copy)";

fn lathe(gears: &[u32], screw: Lead, gearbox: &[(i64, i64)], mounting: Mounting) -> Lathe {
    Lathe {
        drawer: Drawer::new(gears).unwrap(),
        screw,
        before_train: Ratio::ONE,
        gearbox: gearbox.iter().map(|&(n, d)| Ratio::of(n, d)).collect(),
        levers: vec![None; gearbox.len()],
        mounting,
        pairs_max: 2,
        tumbler: Some(true),
        screw_hand: None,
    }
}

const K15: Mounting = Mounting::Shop { stud_clearance_teeth: 15, centres_teeth: None };
const ONE: &[(i64, i64)] = &[(1, 1)];

fn worked(lathe: Lathe, threads: &[Designation], judged: Judged) -> Chart {
    let mut chart = Chart::new(lathe, threads, judged).unwrap();
    // The rows come from the top.
    let progress = chart.step(1).unwrap();
    assert_eq!(progress.done, 1);
    assert_eq!(chart.rows()[0].thread, threads[0]);
    while !chart.step(7).unwrap().finished() {}
    assert_eq!(chart.rows().len(), threads.len());
    chart
}

fn tpi(n: i64, d: i64) -> Lead {
    Lead::of_tpi(Ratio::of(n, d)).unwrap()
}

fn by_fives() -> Vec<u32> {
    let mut gears: Vec<u32> = (4..=24).map(|n| n * 5).collect();
    gears.push(20);
    gears
}

#[test]
fn there_is_enough_on_it() {
    let threads = all_and(&[parse("0.123 mm").unwrap(), parse("M10").unwrap()]);
    assert!(threads.len() >= 200 && threads.len() == standard().len() + 1);
    let chart = Chart::new(lathe(&by_fives(), tpi(8, 1), ONE, K15), &threads, Judged::default());
    assert!(chart.unwrap().leads() >= 100);
}

/// Everything that goes on, by its ratio, with the fewest pairs: for once searched by trying all.
fn everything(lathe: &Lathe) -> BTreeMap<Ratio, usize> {
    let gears: Vec<u32> = lathe
        .drawer
        .sizes()
        .flat_map(|(teeth, owned)| vec![u32::from(teeth); owned.into()])
        .collect();
    let owned = sizes(&gears);
    let mut ratios: BTreeMap<Ratio, usize> = BTreeMap::new();
    every_selection(&gears, lathe.pairs_max, |drivers, driven| {
        let product = |side: &[u16]| side.iter().map(|&gear| i64::from(gear)).product::<i64>();
        let ratio = Ratio::of(product(drivers), product(driven));
        let held = ratios.get(&ratio).copied();
        if held.is_none_or(|pairs| drivers.len() < pairs)
            && mounted(&lathe.mounting, &owned, drivers, driven).0
        {
            ratios.insert(ratio, drivers.len());
        }
    });
    ratios
}

#[test]
fn every_row_is_the_best_of_everything_that_goes_on() {
    let banjo = Mounting::Banjo(Banjo {
        module: Ratio::ONE,
        centres: Ratio::whole(120),
        slot: (Ratio::whole(40), Ratio::whole(90)),
        boss_radius: Ratio::whole(9),
    });
    let box_of_three: &[(i64, i64)] = &[(1, 1), (1, 2), (8, 9)];
    let tight = Mounting::Shop { stud_clearance_teeth: 40, centres_teeth: Some((120, 140)) };
    let small = [20, 30, 40, 40, 45, 60, 63, 80, 100, 127];
    for lathe in [
        lathe(&by_fives(), Lead::of_mm(Ratio::whole(3)), ONE, K15),
        lathe(&by_fives(), tpi(8, 1), box_of_three, tight),
        lathe(&small, tpi(4, 1), box_of_three, banjo),
        lathe(&small, Lead::of_mm(Ratio::whole(6)), ONE, Mounting::Free),
        lathe(&[20, 20], Lead::of_mm(Ratio::whole(6)), ONE, Mounting::Mesh(50, 60)),
    ] {
        let all = everything(&lathe);
        let owned: Vec<(u16, u8)> = lathe.drawer.sizes().collect();
        let chart = worked(lathe.clone(), &standard(), Judged::default());
        assert!(chart.complete());
        let mut done: Vec<Lead> = Vec::new();
        for row in chart.rows() {
            if done.contains(&row.lead) {
                let before = chart.rows().iter().find(|other| other.lead == row.lead).unwrap();
                assert_eq!(row.train, before.train);
                continue;
            }
            done.push(row.lead);
            let wanted = lathe.target(row.lead).unwrap();
            let mut least: Option<(Ratio, usize)> = None;
            for (ratio, &pairs) in &all {
                for position in &lathe.gearbox {
                    let cut = ratio.mul(*position).unwrap();
                    let error = cut.div(wanted).unwrap().sub(Ratio::ONE).unwrap().abs();
                    if least.is_none_or(|least| (error, pairs) < least) {
                        least = Some((error, pairs));
                    }
                }
            }
            let found = row.train.map(|train| (train.error.abs(), train.pairs().len()));
            assert_eq!(found, least, "{}", row.thread);
            let Some(train) = row.train else {
                assert_eq!((row.standing, row.share), (Standing::None, None));
                continue;
            };
            // The train itself: its own product, in the order given.
            let (drivers, driven): (Vec<u16>, Vec<u16>) =
                train.pairs().iter().map(|pair| (pair.driver, pair.driven)).unzip();
            assert!(goes_on(&lathe.mounting, &owned, &drivers, &driven).0, "{}", row.thread);
            let product = |side: &[u16]| side.iter().map(|&g| i64::from(g)).product::<i64>();
            let turns = Ratio::of(product(&drivers), product(&driven));
            let cut = turns.mul(lathe.gearbox[train.gearbox]).unwrap();
            assert_eq!(cut, train.total);
            let lead = lathe.cuts(&train).unwrap().mm().unwrap();
            assert_eq!(lead, cut.mul(lathe.screw.mm().unwrap()).unwrap());
            let ppm = (lead.to_f64() / row.lead.to_f64() - 1.0) * 1e6;
            assert!((ppm - train.error_ppm()).abs() < 1e-6 * ppm.abs().max(1.0), "{}", row.thread);
            let exact = row.lead.is_exact() && lead == row.lead.factor();
            assert_eq!(row.standing == Standing::Exact, exact);
        }
    }
}

/// A chart of one thread.
fn row(lathe: Lathe, name: &str) -> Row {
    worked(lathe, &[parse(name).unwrap()], Judged::default()).rows()[0]
}

#[test]
fn metric_threads_from_an_inch_screw() {
    // Exact with 127; with 63/80 for 100/127 the lead is 125.0 ppm too long, with 37/47 212.8 short.
    let rows =
        ["0.5 mm", "0.7 mm", "0.75 mm", "1 mm", "1.5 mm", "1.75 mm", "2 mm", "2.5 mm", "3 mm"];
    let twenties = [20, 25, 28, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 120];
    let with = |more: &[u32]| [&twenties[..], more].concat();
    for name in rows {
        let free = |gears: &[u32]| lathe(gears, tpi(8, 1), ONE, Mounting::Free);
        let exact = row(free(&with(&[127])), name);
        assert_eq!(exact.standing, Standing::Exact, "{name}: {COMPUTED}");
        for (gears, ppm) in [(&[63u32, 80][..], 125.0), (&[37, 47][..], 212.8)] {
            let near = row(free(&with(gears)), name);
            let error = near.train.unwrap().error_ppm().abs();
            // As near as that, or nearer where the other gears do better.
            assert!(error < ppm + 0.05, "{name}: {error}: {COMPUTED}");
        }
    }
    // With little else, it is just that.
    for (name, gears, ppm) in [
        ("2.5 mm", &[63, 80][..], 125.0),
        ("2.5 mm", &[37, 47], -212.8),
        ("1 mm", &[63, 80, 40, 100], 125.0),
    ] {
        let near = row(lathe(gears, tpi(8, 1), ONE, Mounting::Free), name);
        let error = near.train.unwrap().error_ppm();
        assert!((error - ppm).abs() < 0.05, "{name}: {error}: {COMPUTED}");
    }
}

#[test]
fn inch_threads_from_a_metric_screw() {
    for (n, ratio) in [
        (10, (127, 75)),
        (11, (254, 165)),
        (12, (127, 90)),
        (14, (127, 105)),
        (18, (127, 135)),
        (19, (254, 285)),
        (20, (127, 150)),
        (24, (127, 180)),
        (26, (127, 195)),
        (28, (127, 210)),
        (40, (127, 300)),
    ] {
        let gears = [127, 30, 38, 40, 50, 60, 65, 70, 75, 80, 90, 100, 20, 110, 55];
        let screw = Lead::of_mm(Ratio::of(3, 2));
        let row = row(lathe(&gears, screw, ONE, Mounting::Free), &format!("{n} tpi"));
        assert_eq!(row.standing, Standing::Exact, "{n} tpi: {COMPUTED}");
        let total = row.train.unwrap().total;
        assert_eq!(total, Ratio::of(ratio.0, ratio.1), "{n} tpi: {COMPUTED}");
    }
}

#[test]
fn worms_are_near_and_never_exact() {
    for (screw, name, gears, ppm) in [
        (Lead::of_mm(Ratio::whole(3)), "module 0.5", &[11, 21][..], 402.5),
        (Lead::of_mm(Ratio::whole(3)), "module 1", &[22, 21], 402.5),
        (Lead::of_mm(Ratio::whole(3)), "module 1.25", &[55, 42], 402.5),
        (Lead::of_mm(Ratio::whole(3)), "module 1.5", &[11, 7], 402.5),
        (Lead::of_mm(Ratio::whole(3)), "module 2", &[44, 21], 402.5),
        (tpi(8, 1), "10 DP", &[284, 113], 0.085),
        (tpi(8, 1), "16 DP", &[355, 226], 0.085),
        (tpi(8, 1), "20 DP", &[142, 113], 0.085),
        (tpi(8, 1), "32 DP", &[355, 452], 0.085),
    ] {
        let row = row(lathe(gears, screw, ONE, Mounting::Free), name);
        let error = row.train.unwrap().error_ppm();
        assert!((error - ppm).abs() < 0.05, "{name}: {error}: {COMPUTED}");
        assert_eq!((row.standing, row.share), (Standing::Untold, None), "{name}");
    }
}

#[test]
fn the_old_books_gears() {
    let by_four: Vec<u32> = (6..=25).map(|n| n * 4).collect();
    let by_fives: Vec<u32> = (6..=20).map(|n| n * 5).collect();
    for (screw, name, gears, exact, source) in [
        (tpi(6, 1), "9 tpi", &by_four[..], true, JONES),
        (tpi(6, 1), "10 tpi", &by_four, true, JONES),
        (tpi(6, 1), "24 tpi", &by_fives, true, JONES),
        (tpi(8, 1), "1 3/4 tpi", &[72, 64, 36, 28], true, JONES),
        (tpi(6, 1), "3 mm", &[90, 127], true, JONES),
        (tpi(4, 1), "19 tpi", &[20, 95], true, JONES),
        (tpi(2, 1), "8 tpi", &[80, 20], true, LATHE_AND_USES),
        (tpi(2, 1), "10 tpi", &[50, 10], true, LATHE_AND_USES),
        (tpi(2, 1), "5 tpi", &[20, 25, 10, 20], true, LATHE_AND_USES),
        (tpi(2, 1), "4 tpi", &[20, 40], true, SIMPLE_GEAR),
        (tpi(2, 1), "1 1/2 tpi", &[20, 15], true, SIMPLE_GEAR),
        (tpi(9, 5), "2.3 tpi", &[20, 25, 26, 40, 45], false, SIMPLE_GEAR),
        (tpi(9, 5), "2.3 tpi", &[18, 23], true, SIMPLE_GEAR),
        (tpi(4, 1), "3 mm", &[60, 127], true, COMPUTED),
        (Lead::of_mm(Ratio::whole(5)), "8 tpi", &[127, 200], true, COMPUTED),
    ] {
        let row = row(lathe(gears, screw, ONE, Mounting::Free), name);
        assert_eq!(row.standing == Standing::Exact, exact, "{name}: {source}");
    }
}

#[test]
fn the_share_is_the_error_over_the_nut_beside_the_tolerance() {
    // M10 outside in 6g: pitch-diameter tolerance 132 µm (ISO 965-1 table, from memory); cot 30° =
    // 1.7321 (FED-STD-H28): 125 ppm over 10 mm is 1.25 µm, 2.165 µm on the diameter.
    let inch = lathe(&[63, 80, 40, 60, 50], tpi(8, 1), ONE, Mounting::Free);
    let m10 = row(inch.clone(), "M10");
    let share = m10.share.unwrap();
    let ppm = m10.train.unwrap().error_ppm().abs();
    assert!((share - ppm * 1e-6 * 10.0 * 1.732_05 / 0.132).abs() < 1e-5, "{share}: ISO 965-1");
    // In a nut of 5 mm it is half as much.
    let judged = Judged { engaged: Some(Ratio::whole(5)), otherwise: None };
    let chart = worked(inch, &[parse("M10").unwrap()], judged);
    assert!((chart.rows()[0].share.unwrap() * 2.0 - share).abs() < 1e-9);
    // Four gears, and M10 that is off by far: more than its class allows.
    let bad = lathe(&[40, 45], tpi(8, 1), ONE, Mounting::Free);
    assert_eq!(row(bad.clone(), "M10").standing, Standing::Beyond);
    assert_eq!(row(bad, "module 1").standing, Standing::Untold);
}

#[test]
fn rows_sorted_and_chosen() {
    let chart = worked(lathe(&by_fives(), tpi(8, 1), ONE, K15), &standard(), Judged::default());
    let rows = chart.rows();
    let all: Vec<usize> = (0..rows.len()).collect();
    assert_eq!(sorted(rows, Only::All, By::Standard), all);
    let by_lead = sorted(rows, Only::All, By::Lead);
    assert!(by_lead.is_sorted_by(|&a, &b| rows[a].lead.to_f64() <= rows[b].lead.to_f64() + 1e-9));
    let by_error = sorted(rows, Only::All, By::Error);
    let error = |at: usize| rows[at].train.map_or(f64::INFINITY, |t| t.error.abs().to_f64());
    assert!(by_error.is_sorted_by(|&a, &b| error(a) <= error(b) * (1.0 + 1e-11)));
    let by_share = sorted(rows, Only::Within, By::Share);
    let share = |at: usize| rows[at].share.unwrap_or(f64::INFINITY);
    assert!(by_share.is_sorted_by(|&a, &b| share(a) <= share(b) + 1e-9));
    let count = |only: Only| sorted(rows, only, By::Standard).len();
    let exact = rows.iter().filter(|row| row.train.is_some_and(|t| t.exact())).count();
    assert_eq!(count(Only::Exact), exact);
    let untold = rows.iter().filter(|row| row.standing == Standing::Untold).count();
    assert_eq!(count(Only::Within) + count(Only::Cannot) + untold, rows.len());
}

#[test]
fn gears_changed_are_counted_by_their_places() {
    let pair = |driver, driven| Pair { driver, driven };
    let (a, b, c) = (pair(20, 40), pair(30, 60), pair(50, 55));
    for (from, to, count) in [
        (&[][..], &[a][..], 2),
        (&[a], &[a], 0),
        (&[a], &[pair(20, 80)], 1),
        (&[a], &[pair(40, 20)], 2),
        // 20 stays on the spindle, 60 comes on the leadscrew, two on the stud.
        (&[a], &[a, b], 3),
        // 20 on the spindle and 40 on the leadscrew stay.
        (&[a], &[pair(20, 60), pair(30, 40)], 2),
        (&[a, b], &[a], 1),
        (&[a, b], &[pair(20, 60)], 0),
        (&[a, b], &[a, pair(35, 60)], 1),
        (&[a, b], &[a, b, c], 3),
        (&[a, b, c], &[a, b], 1),
        (&[a, b, c], &[a, b, c], 0),
    ] {
        assert_eq!(changed(from, to), count, "{from:?} {to:?}");
    }
}

#[test]
fn each_turn_changes_the_fewest_gears_from_the_last() {
    let threads = standard();
    let chart = worked(
        lathe(&by_fives(), Lead::of_mm(Ratio::whole(3)), &[(1, 1), (1, 2)], K15),
        &threads,
        Judged::default(),
    );
    let now = [Pair { driver: 35, driven: 60 }];
    let mut changes = Changes::new(Only::Exact, &now);
    while !changes.step(&chart).unwrap().finished() {}
    let turns = changes.turns();
    let mut rows: Vec<usize> = turns.iter().map(|turn| turn.row).collect();
    rows.sort_unstable();
    assert_eq!(rows, sorted(chart.rows(), Only::Exact, By::Standard));
    // What is on cuts 1.75 mm: M12 comes first, and nothing is changed for it.
    assert_eq!(
        (chart.rows()[turns[0].row].thread.to_string().as_str(), turns[0].changed),
        ("M12", 0)
    );
    let mut on = now.to_vec();
    let mut total = 0;
    for (at, turn) in turns.iter().enumerate() {
        let row = &chart.rows()[turn.row];
        let own = row.train.unwrap();
        assert_eq!((turn.train.error, turn.train.pairs().len()), (own.error, own.pairs().len()));
        assert!(turn.train.mountable);
        assert_eq!(turn.changed, changed(&on, turn.train.pairs()));
        // None of those still to come has a train of its own that is nearer.
        for later in &turns[at..] {
            let other = chart.rows()[later.row].train.unwrap();
            assert!(changed(&on, other.pairs()) >= turn.changed);
        }
        on = turn.train.pairs().to_vec();
        total += u32::from(turn.changed);
    }
    // Beside the order of the standards it saves most of the work.
    let mut on = now.to_vec();
    let mut plain = 0;
    for place in sorted(chart.rows(), Only::Exact, By::Standard) {
        let train = chart.rows()[place].train.unwrap();
        plain += u32::from(changed(&on, train.pairs()));
        on = train.pairs().to_vec();
    }
    assert!(total * 5 < plain, "{total} beside {plain}");
}

#[test]
fn the_text_for_a_spreadsheet() {
    let lathe = lathe(&[63, 80, 40, 100], tpi(8, 1), &[(1, 1), (1, 2)], Mounting::Free);
    let threads = [parse("2.5 mm").unwrap(), parse("module 1, 2 starts").unwrap()];
    let chart = worked(lathe, &threads, Judged::default());
    let text = csv(chart.lathe(), chart.rows().iter().copied());
    let lines: Vec<&str> = text.split("\r\n").collect();
    assert_eq!(lines.len(), 4);
    assert_eq!(lines[1], "2.5 mm,2.5,63,80,,,,,1:1,2.500313,125,,near");
    // A name with a comma in it is one cell.
    assert!(lines[2].starts_with("\"module 1, 2 starts\",6.283185,"), "{}", lines[2]);
    let cells = |line: &str| line.split(',').count();
    assert_eq!(cells(lines[0]), cells(lines[1]));
    assert_eq!(lines[3], "");
}

#[test]
fn feeds_in_both_systems() {
    for inch in [false, true] {
        let feeds = feeds(inch);
        assert!(feeds.len() > 12);
        let judged = Judged { engaged: None, otherwise: Some(FEED_OFF) };
        let chart = worked(lathe(&by_fives(), tpi(8, 1), ONE, K15), &feeds, judged);
        for row in chart.rows() {
            let off = row.train.unwrap().error.abs();
            let near = matches!(row.standing, Standing::Exact | Standing::Within);
            assert_eq!(near, off <= FEED_OFF);
        }
    }
}

#[test]
fn a_chart_needs_two_gears_and_an_end() {
    let few = Chart::new(lathe(&[40], tpi(8, 1), ONE, K15), &standard(), Judged::default());
    assert!(matches!(few.unwrap_err(), NoLathe::Because(_)));
    let many = vec![parse("M10").unwrap(); 5000];
    let why = Chart::new(lathe(&[40, 50], tpi(8, 1), ONE, K15), &many, Judged::default());
    assert!(matches!(why.unwrap_err(), NoLathe::Because(why) if why.contains("5000")));
}

fn kit() -> Kit {
    let plates: [&[u16]; 3] =
        [&[15, 16, 17, 18, 19, 20], &[21, 23, 27, 29, 31, 33], &[37, 39, 41, 43, 47, 49]];
    Kit {
        direct: vec![72, 24],
        half_tooth: false,
        head: Some(Head {
            worm_ratio: 40,
            plates: plates.iter().map(|plate| plate.to_vec()).collect(),
            gears: vec![24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100],
            pairs_max: 2,
            stud_clearance_teeth: None,
            centres_teeth: None,
        }),
    }
}

#[test]
fn every_number_with_its_simplest_way() {
    let kit = kit();
    let mut chart = Divisions::new(kit.clone(), 2, 400).unwrap();
    while !chart.step(10).unwrap().finished() {}
    assert_eq!(chart.rows().len(), 399);
    let head = kit.head.as_ref().unwrap();
    for row in chart.rows() {
        let found = ways(row.into, &kit).unwrap();
        let way = row.way.unwrap();
        // The long way round: everything, and of that the least to get wrong.
        assert_eq!((way.exact, way.setting.burden()), {
            let first = found.ways.first().unwrap();
            (first.exact, first.setting.burden())
        });
        assert_eq!(row.method().is_some(), found.found.all() > 0, "{}", row.into);
        // And the move itself: so many of it come round once.
        let n = i64::from(row.into);
        match way.setting {
            Setting::Direct { positions, step } => {
                assert_eq!(i64::from(step) * n, i64::from(positions));
            }
            Setting::Plain { turns, holes, circle } if way.exact => {
                let circle = i64::from(circle.unwrap_or(1));
                assert_eq!((i64::from(turns) * circle + i64::from(holes)) * n, 40 * circle);
            }
            Setting::Differential { turns, holes, circle, train } if way.exact => {
                let circle = circle.unwrap_or(1);
                assert!(circle == 1 || head.circles().contains(&circle));
                let moved = Ratio::of(
                    i64::from(turns) * i64::from(circle) + i64::from(holes),
                    circle.into(),
                );
                let rest = Ratio::whole(40).sub(moved.mul(Ratio::whole(n)).unwrap()).unwrap();
                assert_eq!(rest, train.ratio().unwrap(), "{}", row.into);
            }
            _ => {}
        }
    }
    let source = "known answer: with 40:1, the common plates and the common twelve gears 383 can't be divided";
    assert!(chart.rows()[383 - 2].method().is_none(), "{source}");
    let direct = Kit { direct: vec![24], ..Kit::default() };
    assert_eq!(simplest(25, &direct).unwrap().way, None);
}
