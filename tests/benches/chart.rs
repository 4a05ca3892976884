//! How long the chart takes, and the search for more gears, beside trying everything in the same
//! run; and how the time grows, as a plot in the target folder.
#![allow(clippy::print_stdout)]

use latheside_core::chart::{Chart, Judged, Lathe};
use latheside_core::exact::Ratio;
use latheside_core::gearing::more::{Group, More, Question, Search, Wish};
use latheside_core::gearing::{Banjo, Drawer, Mounting, Tables};
use latheside_core::threads::{Designation, Lead, standard};
use latheside_tests::slow::any_order;
use latheside_tests::slow::gearing::every_selection;
use latheside_tests::slow::more::sets;
use std::fmt::Write as _;
use std::hint::black_box;
use std::time::{Duration, Instant};

/// 24 gears as a drawer comes to be: by fives, a doubled 20, and the odd ones bought since.
const DRAWER: [u32; 24] = [
    20, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100, 105, 110, 115, 120,
    63, 127,
];

const GEARBOX: [(i64, i64); 10] =
    [(1, 1), (1, 2), (1, 4), (2, 1), (8, 9), (8, 10), (8, 11), (16, 23), (8, 12), (8, 13)];

const K15: Mounting = Mounting::Shop { stud_clearance_teeth: 15, centres_teeth: None };

fn lathe(gears: &[u32], ratios: usize, pairs_max: u8, mounting: Mounting) -> Lathe {
    let gearbox: Vec<Ratio> = GEARBOX.iter().take(ratios).map(|&(n, d)| Ratio::of(n, d)).collect();
    Lathe {
        drawer: Drawer::new(gears).unwrap(),
        screw: Lead::of_tpi(Ratio::whole(8)).unwrap(),
        before_train: Ratio::ONE,
        levers: vec![None; gearbox.len()],
        gearbox,
        mounting,
        pairs_max,
        tumbler: None,
        screw_hand: None,
    }
}

/// 140 leads: every standard one, and module worms of more starts to fill up.
fn leads() -> Vec<Designation> {
    let mut threads: Vec<Designation> = Vec::new();
    let all = standard();
    let worms = all.iter().filter(|thread| !thread.pitch.is_exact());
    let more = worms.flat_map(|worm| [2, 3, 4].map(|starts| worm.with_starts(starts).unwrap()));
    for thread in all.iter().copied().chain(more) {
        let lead = thread.lead().unwrap();
        if threads.iter().all(|other| other.lead().unwrap() != lead) {
            threads.push(thread);
        }
    }
    threads.truncate(140);
    threads
}

/// The middle one of several runs, and the quickest.
fn time(runs: usize, mut work: impl FnMut()) -> (Duration, Duration) {
    let mut times: Vec<Duration> = (0..runs)
        .map(|_| {
            let start = Instant::now();
            work();
            start.elapsed()
        })
        .collect();
    times.sort_unstable();
    (times[runs / 2], times[0])
}

fn ms(time: Duration) -> f64 {
    time.as_secs_f64() * 1e3
}

fn show(what: &str, (middle, least): (Duration, Duration), slow: Option<Duration>) {
    print!("{what:<58} {:>9.2} ms (least {:>8.2})", ms(middle), ms(least));
    match slow {
        Some(slow) => {
            println!("  plain {:>10.1} ms  {:>8.0} times", ms(slow), ms(slow) / ms(middle));
        }
        None => println!(),
    }
}

fn chart(lathe: &Lathe, threads: &[Designation]) -> Chart {
    let mut chart = Chart::new(lathe.clone(), threads, Judged::default()).unwrap();
    while !chart.step(10).unwrap().finished() {}
    chart
}

/// Above and below the bar.
type Fraction = (i128, i128);

/// For each wish the least error that goes on, as a fraction; once through every selection, every
/// order of it, every wish and gearbox position, in whole numbers.
fn plain(gears: &[u32], pairs_max: u8, k: i64, wishes: &[Vec<Ratio>]) -> Vec<Option<Fraction>> {
    let weights: Vec<Vec<Fraction>> = wishes
        .iter()
        .map(|ratios| ratios.iter().map(|ratio| (ratio.denom(), ratio.numer())).collect())
        .collect();
    let mut least = vec![None::<Fraction>; wishes.len()];
    every_selection(gears, pairs_max, |drivers, driven| {
        if !any_order(drivers, driven, k) {
            return;
        }
        let product = |side: &[u16]| side.iter().map(|&g| i128::from(g)).product::<i128>();
        let (above, below) = (product(drivers), product(driven));
        for (least, weights) in least.iter_mut().zip(&weights) {
            for &(num, den) in weights {
                let error = ((above * num - below * den).abs(), below * den);
                if least.is_none_or(|least| error.0 * least.1 < least.0 * error.1) {
                    *least = Some(error);
                }
            }
        }
    });
    least
}

fn compare_chart(what: &str, lathe: &Lathe, threads: &[Designation], plainly: bool) {
    let quick = time(7, || {
        black_box(chart(black_box(lathe), threads));
    });
    let slow = plainly.then(|| {
        let wishes: Vec<Vec<Ratio>> =
            threads.iter().map(|t| lathe.ratios(t.lead().unwrap()).unwrap()).collect();
        let sizes = lathe.drawer.sizes();
        let gears: Vec<u32> =
            sizes.flat_map(|(teeth, owned)| vec![u32::from(teeth); owned.into()]).collect();
        let start = Instant::now();
        let least = black_box(plain(&gears, lathe.pairs_max, 15, &wishes));
        let slow = start.elapsed();
        for (row, least) in chart(lathe, threads).rows().iter().zip(least) {
            let least = least.map(|(diff, den)| Ratio::new(diff, den).unwrap());
            assert_eq!(row.train.map(|train| train.error.abs()), least, "{}", row.thread);
        }
        slow
    });
    show(what, quick, slow);
}

fn question(
    lathe: &Lathe,
    threads: &[Designation],
    from: std::ops::RangeInclusive<u16>,
    add: u8,
) -> Question {
    let wishes = threads.iter().filter(|thread| thread.pitch.is_exact()).map(|thread| Wish {
        ratios: lathe.ratios(thread.lead().unwrap()).unwrap(),
        within: None,
        weight: 1,
    });
    Question {
        groups: vec![Group {
            drawer: lathe.drawer.clone(),
            pairs_max: lathe.pairs_max,
            mounting: lathe.mounting,
            wishes: wishes.collect(),
        }],
        sizes: from.collect(),
        add,
    }
}

/// Searched in slices: what was found, the longest slice, and the memory held.
fn more(question: &Question) -> (More, Duration, usize) {
    let mut search = Search::new(question).unwrap();
    let mut longest = Duration::ZERO;
    loop {
        let start = Instant::now();
        let progress = search.step(100_000);
        longest = longest.max(start.elapsed());
        if progress.finished() {
            break;
        }
    }
    (search.found(1000), longest, search.bytes())
}

/// Every set, and for each every selection.
fn plain_more(gears: &[u32], question: &Question) -> (u32, Vec<Vec<u16>>) {
    let group = &question.groups[0];
    let wishes: Vec<Vec<Ratio>> = group.wishes.iter().map(|wish| wish.ratios.clone()).collect();
    let exact = |gears: &[u32]| -> Vec<bool> {
        let weights: Vec<Vec<Fraction>> = wishes
            .iter()
            .map(|ratios| ratios.iter().map(|ratio| (ratio.denom(), ratio.numer())).collect())
            .collect();
        let mut exact = vec![false; wishes.len()];
        every_selection(gears, group.pairs_max, |drivers, driven| {
            let product = |side: &[u16]| side.iter().map(|&g| i128::from(g)).product::<i128>();
            let (above, below) = (product(drivers), product(driven));
            for (exact, weights) in exact.iter_mut().zip(&weights) {
                if !*exact && weights.iter().any(|&(num, den)| above * num == below * den) {
                    *exact = any_order(drivers, driven, 15);
                }
            }
        });
        exact
    };
    let before = exact(gears);
    let mut best = (0, Vec::new());
    for set in sets(&question.sizes, question.add.into()) {
        let all: Vec<u32> = gears.iter().copied().chain(set.iter().map(|&t| t.into())).collect();
        let now = exact(&all);
        let gained = now.iter().zip(&before).filter(|(now, before)| **now && !**before);
        let gained = gained.count() as u32;
        if gained > best.0 {
            best = (gained, Vec::new());
        }
        if gained == best.0 {
            best.1.push(set);
        }
    }
    best
}

fn compare_more(what: &str, lathe: &Lathe, question: &Question, plainly: bool) {
    let (found, mut longest, bytes) = more(question);
    let runs = if question.add == 3 { 3 } else { 7 };
    let quick = time(runs, || {
        longest = longest.min(black_box(more(black_box(question))).1);
    });
    let slow = plainly.then(|| {
        let sizes = lathe.drawer.sizes();
        let gears: Vec<u32> =
            sizes.flat_map(|(teeth, owned)| vec![u32::from(teeth); owned.into()]).collect();
        let start = Instant::now();
        let (gained, sets) = black_box(plain_more(&gears, question));
        let slow = start.elapsed();
        let mut listed: Vec<Vec<u16>> = found.best.iter().map(|b| b.gears.clone()).collect();
        listed.sort();
        assert_eq!(found.ties, listed.len() as u64, "{what}: more ties than are listed");
        assert!((found.gained, listed) == (gained, sets), "{what}: another optimum");
        slow
    });
    show(what, quick, slow);
    println!(
        "    {:?} and {} others: {} more of {}, {} before; longest slice {:.1} ms, {} kB",
        found.best[0].gears,
        found.ties - 1,
        found.gained,
        found.of,
        found.before,
        ms(longest),
        bytes / 1000
    );
}

/// A drawer of so many gears: by fives, then in between.
fn drawer(gears: u32) -> Vec<u32> {
    (0..gears).map(|n| if n < 22 { 20 + 5 * n } else { 22 + 3 * (n - 22) }).collect()
}

/// Time against gears on logarithmic scales, one line for each number of pairs.
fn plot(lines: &[(u8, Vec<(u32, f64)>)], title: &str) -> String {
    let (left, top, width, height) = (70.0, 40.0, 520.0, 320.0);
    let all = || lines.iter().flat_map(|(_, points)| points);
    let low = all().map(|point| point.1).fold(f64::INFINITY, f64::min).log10().floor();
    let high = all().map(|point| point.1).fold(0.0, f64::max).log10().ceil();
    let x = |gears: u32| left + width * (f64::from(gears) / 10.0).ln() / 6_f64.ln();
    let y = |ms: f64| top + height * (high - ms.log10()) / (high - low);
    let mut svg = String::from(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 640 420\" font-family=\"sans-serif\" font-size=\"12\">\n",
    );
    let _ = writeln!(
        svg,
        "<rect width=\"640\" height=\"420\" fill=\"#fff\"/><text x=\"70\" y=\"24\">{title}</text>"
    );
    let mut decade = low;
    while decade <= high {
        let at = y(10_f64.powf(decade));
        let _ = writeln!(
            svg,
            "<path d=\"M{left} {at:.1}h{width}\" stroke=\"#ccc\"/><text x=\"62\" y=\"{:.1}\" text-anchor=\"end\">{} ms</text>",
            at + 4.0,
            10_f64.powf(decade)
        );
        decade += 1.0;
    }
    for gears in [10, 20, 30, 40, 60] {
        let _ = writeln!(
            svg,
            "<path d=\"M{:.1} {top}v{height}\" stroke=\"#ccc\"/><text x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"middle\">{gears}</text>",
            x(gears),
            x(gears),
            top + height + 18.0
        );
    }
    for (pairs, points) in lines {
        let path: Vec<String> =
            points.iter().map(|&(gears, ms)| format!("{:.1} {:.1}", x(gears), y(ms))).collect();
        let _ = writeln!(
            svg,
            "<path d=\"M{}\" fill=\"none\" stroke=\"#1a4f8b\" stroke-width=\"2\"/>",
            path.join("L")
        );
        if let Some(&(gears, ms)) = points.last() {
            let _ = writeln!(
                svg,
                "<text x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"end\">{pairs} {}</text>",
                x(gears),
                y(ms) - 6.0,
                if *pairs == 1 { "pair" } else { "pairs" }
            );
        }
    }
    svg.push_str(
        "<text x=\"330\" y=\"400\" text-anchor=\"middle\">gears in the drawer</text>\n</svg>\n",
    );
    svg
}

fn main() {
    let threads = leads();
    let worms = threads.iter().filter(|thread| !thread.pitch.is_exact()).count();
    println!("{} leads, {worms} of them with a π\n", threads.len());
    for (pairs, ratios) in [(2, 1), (2, 10), (3, 1), (3, 10)] {
        let what =
            format!("chart: {} leads, 24 gears, {pairs} pairs, {ratios} ratios", threads.len());
        compare_chart(&what, &lathe(&DRAWER, ratios, pairs, K15), &threads, true);
    }
    let banjo = Mounting::Banjo(Banjo {
        module: Ratio::ONE,
        centres: Ratio::whole(120),
        slot: (Ratio::whole(40), Ratio::whole(90)),
        boss_radius: Ratio::whole(9),
    });
    let tight = Mounting::Shop { stud_clearance_teeth: 15, centres_teeth: Some((120, 124)) };
    for (name, mounting) in [("sums 120 to 124", tight), ("banjo", banjo)] {
        let what = format!("chart: 24 gears, 3 pairs, 10 ratios, {name}");
        compare_chart(&what, &lathe(&DRAWER, 10, 3, mounting), &threads, false);
    }
    let tables = Tables::new(&Drawer::new(&DRAWER).unwrap(), 3).unwrap();
    println!("    the tables of 24 gears and 3 pairs hold {} kB\n", tables.bytes() / 1000);

    // Without 63 and 127, so that there is something to gain.
    let few = &DRAWER[..22];
    for add in [1, 2, 3] {
        for (name, gears, mounting) in [
            ("24 gears, k 15", &DRAWER[..], K15),
            ("22 gears, k 15", few, K15),
            ("24 gears, sums 120 to 124", &DRAWER, tight),
            ("24 gears, banjo", &DRAWER, banjo),
        ] {
            let lathe = lathe(gears, 10, 3, mounting);
            let question = question(&lathe, &threads, 20..=127, add);
            let what = format!("{add} more of 20 to 127: {name}, 3 pairs, 10 ratios");
            compare_more(&what, &lathe, &question, false);
        }
    }
    println!();
    let small = lathe(few, 1, 2, K15);
    let one = question(&small, &threads, 20..=127, 1);
    compare_more("1 more of 20 to 127: 22 gears, 2 pairs, 1 ratio", &small, &one, true);
    let two = question(&small, &threads, 84..=127, 2);
    compare_more("2 more of 84 to 127: 22 gears, 2 pairs, 1 ratio", &small, &two, true);
    let smaller = lathe(&few[..10], 1, 2, K15);
    let three = question(&smaller, &threads, 20..=60, 3);
    compare_more("3 more of 20 to 60: 10 gears, 2 pairs, 1 ratio", &smaller, &three, true);
    println!();

    let mut charts: Vec<(u8, Vec<(u32, f64)>)> = Vec::new();
    let mut advices: Vec<(u8, Vec<(u32, f64)>)> = Vec::new();
    for pairs in 1..=3 {
        let (mut of_chart, mut of_advice) = (Vec::new(), Vec::new());
        for gears in [10, 15, 20, 25, 30, 40, 50, 60] {
            let lathe = lathe(&drawer(gears), 10, pairs, K15);
            let (_, took) = time(3, || {
                black_box(chart(&lathe, &threads));
            });
            of_chart.push((gears, ms(took)));
            let question = question(&lathe, &threads, 20..=127, 2);
            let mut bytes = 0;
            let (_, took_more) = time(3, || bytes = black_box(more(&question)).2);
            of_advice.push((gears, ms(took_more)));
            println!(
                "{gears:>3} gears, {pairs} pairs: chart {:>8.2} ms; two more gears {:>9.2} ms, {:>6} kB",
                ms(took),
                ms(took_more),
                bytes / 1000
            );
        }
        charts.push((pairs, of_chart));
        advices.push((pairs, of_advice));
    }
    let target = std::env::current_exe().unwrap();
    // target/release/deps/chart-…
    let target = target.ancestors().nth(3).unwrap();
    for (name, lines, title) in [
        ("chart-growth.svg", &charts, "Chart of 138 leads, 10 ratios, time by gears"),
        (
            "more-gears-growth.svg",
            &advices,
            "Two more gears of 20 to 127, 10 ratios, time by gears",
        ),
    ] {
        let path = target.join(name);
        std::fs::write(&path, plot(lines, title)).unwrap();
        println!("{}", path.display());
    }
}
