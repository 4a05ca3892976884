//! Speeds and feeds beside what is printed.

use latheside_core::cutting::{
    CutterMaterial, LAST_CUT_MM, Process, SPEEDS, Stock, Verdict, after_measuring, beat,
    chip_loads, cut, cutting_force_n, feeds, part_off, point_chip, point_width, power_w,
    rough_depth, rpm_at, rpm_range, saw_chip, saw_passes, size_cuts, specific_force, surface_at,
    surface_speeds,
};
use latheside_core::exact::Ratio;

fn inches(num: i64, den: i64) -> Ratio {
    Ratio::of(127 * num, 5 * den)
}

/// Printed ranges, ft/min, that must stand among the books for the job.
#[rustfmt::skip]
const PRINTED: &[(&str, &str, u16, u16, &str)] = &[
    // stock, process, ft/min low, high, source
    ("mild-steel",          "turn",   45,  65, "Jones, Turning and Boring (1914) p. 72-75, machine steel"),
    ("grey-iron",           "turn",   40,  50, "Jones, Turning and Boring (1914) p. 72-75, gray cast iron"),
    ("tool-steel",          "turn",   25,  35, "Jones, Turning and Boring (1914) p. 72-75, annealed tool steel"),
    ("brass",               "turn",  150, 200, "Jones, Turning and Boring (1914) p. 72-75, soft yellow brass"),
    ("bronze",              "turn",   35,  80, "Jones, Turning and Boring (1914) p. 72-75, hard bronze"),
    ("mild-steel",          "drill",  80, 110, "NAVEDTRA 14345 p. 93, low carbon steel"),
    ("medium-carbon-steel", "drill",  70,  80, "NAVEDTRA 14345 p. 93, medium carbon steel"),
    ("alloy-steel",         "drill",  50,  70, "NAVEDTRA 14345 p. 93, alloy steel"),
    ("stainless-steel",     "drill",  30,  40, "NAVEDTRA 14345 p. 93, corrosion-resistant steel"),
    ("brass",               "drill", 200, 300, "NAVEDTRA 14345 p. 93, brass"),
    ("bronze",              "drill", 200, 300, "NAVEDTRA 14345 p. 93, bronze"),
    ("aluminium",           "drill", 200, 300, "NAVEDTRA 14345 p. 93, aluminum"),
    ("grey-iron",           "drill",  70, 150, "NAVEDTRA 14345 p. 93, cast iron"),
    ("stainless-steel",     "turn",   20,  40, "T.O. 1-1A-9 Table 2-8, 302/304/310/316 rough, high speed steel"),
    ("stainless-steel",     "finish", 50,  80, "T.O. 1-1A-9 Table 2-8, 302/304/310/316 finish, high speed steel"),
];

#[test]
fn printed_ranges_stand_among_the_books() {
    for (stock, process, low, high, source) in PRINTED {
        let speeds = surface_speeds(
            Stock::from_id(stock).unwrap(),
            Process::from_id(process).unwrap(),
            CutterMaterial::Hss,
        )
        .unwrap();
        let found = speeds.iter().any(|speed| {
            (speed.low / 0.3048 - f64::from(*low)).abs() < 1e-6
                && (speed.high / 0.3048 - f64::from(*high)).abs() < 1e-6
        });
        assert!(found, "{stock} {process}: {source}");
    }
}

#[test]
fn carbide_turning_of_stainless_steel() {
    let source =
        "T.O. 1-1A-9 Table 2-8, 302/304/310/316, carbide: rough 150-200, finish 150-300 ft/min";
    for (process, low, high) in [(Process::Turn, 150.0, 200.0), (Process::Finish, 150.0, 300.0)] {
        for cutter in [CutterMaterial::BrazedCarbide, CutterMaterial::Carbide] {
            let speed = surface_speeds(Stock::StainlessSteel, process, cutter).unwrap()[0];
            assert!((speed.low / 0.3048 - low).abs() < 1e-6, "{source}");
            assert!((speed.high / 0.3048 - high).abs() < 1e-6, "{source}");
        }
    }
}

/// What one process takes of another's speed.
#[test]
fn shares_of_another_speed() {
    let first = |stock, process, cutter| surface_speeds(stock, process, cutter).unwrap()[0];
    let (hss, carbide) = (CutterMaterial::Hss, CutterMaterial::Carbide);
    let near = |a: f64, b: f64, source: &str| assert!((a - b).abs() < 1e-9, "{source}: {a} {b}");
    let drill = first(Stock::AlloySteel, Process::Drill, hss);
    let ream = first(Stock::AlloySteel, Process::Ream, hss);
    near(ream.low, drill.low / 2.0, "TM 1-420 par. 37: reamers at about half of drilling");
    let sink = first(Stock::AlloySteel, Process::Countersink, hss);
    near(sink.low, drill.low / 4.0, "machine-shop vocabulary list: countersinking, a quarter");
    let turn = first(Stock::MildSteel, Process::Turn, hss);
    let part = first(Stock::MildSteel, Process::Part, hss);
    near(part.high, turn.high / 4.0, "Machining 1 (CC BY) 10.6: grooving at about 1/4 of turning");
    let fast = first(Stock::MildSteel, Process::Drill, carbide);
    let slow = first(Stock::MildSteel, Process::Drill, hss);
    near(fast.low, slow.low * 2.0, "NAVEDTRA 14345 p. 93: carbide drills at two to three times");
    near(fast.high, slow.high * 3.0, "NAVEDTRA 14345 p. 93: carbide drills at two to three times");
}

#[test]
fn turns_a_minute() {
    let mm = |ft: f64| ft * 0.3048;
    #[rustfmt::skip]
    let rows: &[(f64, Ratio, f64, f64, &str)] = &[
        // ft/min, diameter, rpm, tolerance, source
        (100.0, inches(1, 1),  382.0, 0.1, "12/pi = 3.8197, computed"),
        (300.0, inches(3, 8), 3056.0, 1.0, "milling procedures sheet: 300 ft/min at 3/8 in"),
        (300.0, inches(1, 1), 300.0 / 0.2618, 0.2, "TM 1-420 C1 (1942) par. 8: fpm / (0.2618 D)"),
    ];
    for (ft, diameter, rpm, tolerance, source) in rows {
        let ours = rpm_at(mm(*ft), *diameter).unwrap();
        assert!((ours - rpm).abs() < *tolerance, "{source}: {ours}");
    }
    // 4·CS/D is quick in the head, and a twentieth fast: 400 against 382 (machine-shop arithmetic).
    let ours = rpm_at(mm(100.0), inches(1, 1)).unwrap();
    assert!((400.0 / ours - 1.0 - 0.047).abs() < 0.001, "12/pi = 3.8197, computed: {ours}");
    // CS × 320 / D against 1000/π = 318.31 (machine-shop vocabulary list).
    let ours = rpm_at(1.0, Ratio::ONE).unwrap();
    assert!((ours - 318.31).abs() < 0.005 && (320.0 / ours - 1.0) < 0.006, "{ours}");
}

#[test]
fn a_two_millimetre_cutter_in_steel() {
    let source = "common practice, no source: 3,000 to 4,000 rpm";
    let job =
        cut(Stock::MildSteel, Process::Mill, CutterMaterial::Hss, Ratio::whole(2), 2, &[]).unwrap();
    assert!((3000.0..=4000.0).contains(&job.range.ideal()), "{source}: {:?}", job.range);
    // The slow end of a gentler book and the fast end of a bolder one bracket the range.
    assert!(job.range.low > 2900.0 && job.range.high < 4500.0, "{source}");
}

#[test]
fn a_machine_too_slow_for_a_small_cutter() {
    let owned = [45.0, 200.0, 1400.0];
    let job = cut(Stock::MildSteel, Process::Mill, CutterMaterial::Hss, Ratio::whole(2), 2, &owned)
        .unwrap();
    assert_eq!(job.spindle.unwrap().index, 2);
    let by_hand = "by hand: 2 pi 1400 / 1000 = 8.796 m/min";
    assert!((job.surface_m_per_min - 8.796).abs() < 0.001, "{by_hand}");
    let feed = job.feed_mm_per_min.unwrap();
    assert!((feed - 16.8).abs() < 1e-9, "by hand: 1400 × 2 teeth × 0.006 mm: {feed}");
    let beat = beat(feed, inches(1, 10)).unwrap();
    assert_eq!(beat.turn, Ratio::of(1, 4), "by hand: 2.54/16.8 min a turn, 9.07 s");
    assert!((beat.seconds - 2.27).abs() < 0.005, "by hand: 9.07 s / 4");
}

#[test]
fn drill_feeds() {
    #[rustfmt::skip]
    let rows: &[(Ratio, f64, f64)] = &[
        (inches(1, 16), 0.001, 0.002), (inches(1, 8), 0.001, 0.002),
        (inches(3, 16), 0.002, 0.004), (inches(1, 2), 0.004, 0.007),
        (inches(3, 4),  0.007, 0.015), (inches(5, 4), 0.015, 0.025),
    ];
    for (diameter, low, high) in rows {
        let feed =
            feeds(Stock::MildSteel, Process::Drill, CutterMaterial::Hss, *diameter).unwrap()[0];
        let source = "NAVEDTRA 14345 p. 93, drill feeds in/rev";
        assert!((feed.low / 25.4 - low).abs() < 1e-9, "{source}: {diameter}");
        assert!((feed.high / 25.4 - high).abs() < 1e-9, "{source}: {diameter}");
    }
    let part = feeds(Stock::MildSteel, Process::Part, CutterMaterial::Hss, Ratio::whole(20));
    let part = part.unwrap()[0].low / 25.4;
    assert!((part - 0.002).abs() < 1e-9, "TM 1-420 par. 32: about 0.002 in a turn");
}

/// High-speed steel by Taylor's measured table: what is used first is no faster than his tools
/// stood for an hour and a half in soft stock.
#[test]
fn within_what_taylor_measured() {
    let first = |stock| surface_speeds(stock, Process::Turn, CutterMaterial::Hss).unwrap()[0];
    #[rustfmt::skip]
    let rows: &[(Stock, f64, &str)] = &[
        (Stock::ToolSteel,          73.8, "depth 3/32, feed 1/32, hard steel"),
        (Stock::MildSteel,         325.0, "depth 3/32, feed 1/32, soft steel"),
        (Stock::MediumCarbonSteel, 162.0, "depth 3/32, feed 1/32, medium steel"),
        (Stock::MildSteel,         222.0, "depth 3/32, feed 1/16, soft steel"),
        (Stock::MediumCarbonSteel, 111.0, "depth 3/32, feed 1/16, medium steel"),
        (Stock::ToolSteel,          50.4, "depth 3/32, feed 1/16, hard steel"),
        (Stock::MildSteel,         420.0, "depth 1/8, feed 1/64, soft steel"),
        (Stock::MediumCarbonSteel, 210.0, "depth 1/8, feed 1/64, medium steel"),
        (Stock::ToolSteel,          95.5, "depth 1/8, feed 1/64, hard steel"),
        (Stock::MildSteel,         195.0, "depth 1/8, feed 1/16, soft steel"),
        (Stock::MediumCarbonSteel,  97.6, "depth 1/8, feed 1/16, medium steel"),
        (Stock::ToolSteel,          44.4, "depth 1/8, feed 1/16, hard steel"),
        (Stock::MildSteel,         240.0, "depth 3/16, feed 1/32, soft steel"),
        (Stock::MediumCarbonSteel, 120.0, "depth 3/16, feed 1/32, medium steel"),
        (Stock::ToolSteel,          54.5, "depth 3/16, feed 1/32, hard steel"),
        (Stock::MildSteel,         122.0, "depth 3/8, feed 1/16, soft steel"),
        (Stock::GreyIron,          112.0, "depth 1/8, feed 1/16, soft cast iron"),
    ];
    for (stock, most, cut) in rows {
        let ours = first(*stock).high / 0.3048;
        assert!(ours <= *most, "Taylor's table in Jones (1914) p. 71, {cut} in: {ours} ft/min");
    }
    let irons = surface_speeds(Stock::GreyIron, Process::Turn, CutterMaterial::Hss).unwrap();
    let slow = irons.iter().any(|book| book.high / 0.3048 <= 56.2);
    assert!(slow, "Taylor's table, depth 1/8, feed 1/16, medium cast iron: {irons:?}");
    // His heaviest cuts, and hard cast iron, are no small lathe's: medium and hard steel at 61.1 and
    // 27.8 ft/min under a chip of 3/8 by 1/16 in, hard cast iron at 32.8 under 1/8 by 1/16.
    let ours = rough_depth(Stock::ToolSteel, CutterMaterial::Hss).0.to_f64() / 25.4
        * feeds(Stock::ToolSteel, Process::Turn, CutterMaterial::Hss, inches(1, 1)).unwrap()[0].low
        / 25.4;
    assert!(ours < 0.1 * 0.125 * 0.0625, "a tenth of the lightest of these chips: {ours} in²");
}

/// Other stainless steels than the 18/8 that is asked for, ft/min: the books of ours reach into each
/// of their ranges.
#[test]
fn other_stainless_steels() {
    let source = "T.O. 1-1A-9 Table 2-8, stainless turning";
    let (hss, carbide) = (CutterMaterial::Hss, CutterMaterial::Carbide);
    #[rustfmt::skip]
    let rows: &[(&str, CutterMaterial, Process, f64, f64)] = &[
        ("420/431/440/321", hss,     Process::Turn,    20.0,  40.0),
        ("420/431/440/321", carbide, Process::Turn,   165.0, 220.0),
        ("430F/416",        hss,     Process::Turn,    30.0,  60.0),
        ("430F/416",        hss,     Process::Finish,  75.0, 120.0),
        ("303/420F",        hss,     Process::Turn,    25.0,  55.0),
        ("303/420F",        carbide, Process::Finish, 195.0, 350.0),
    ];
    for (steel, cutter, process, low, high) in rows {
        let books = surface_speeds(Stock::StainlessSteel, *process, *cutter).unwrap();
        let reach = |book: &&latheside_core::cutting::SurfaceSpeed| {
            book.low / 0.3048 <= *high && book.high / 0.3048 >= *low
        };
        assert!(books.iter().any(|book| reach(&book)), "{source}, {steel}, {process}: {books:?}");
    }
    let ours = surface_speeds(Stock::StainlessSteel, Process::Drill, hss).unwrap()[0];
    assert!(ours.high / 0.3048 <= 50.0 + 1e-6, "NAVEDTRA 14345 p. 93: Monel, tougher, 40 to 50");
}

/// Cutters of carbon steel ran slower than ours of high-speed steel may.
#[test]
fn no_slower_than_carbon_steel_cutters_were() {
    let source =
        "Cyclopedia, Machine Shop Work, Table IV: milling with carbon-steel cutters, ft/min";
    #[rustfmt::skip]
    let rows: &[(Stock, f64)] = &[
        (Stock::GreyIron, 60.0), (Stock::MildSteel, 45.0), (Stock::MediumCarbonSteel, 24.0),
        (Stock::ToolSteel, 30.0), (Stock::Brass, 120.0), (Stock::Bronze, 80.0),
        // Hard cast steel.
        (Stock::AlloySteel, 40.0),
    ];
    for (stock, printed) in rows {
        let speed = surface_speeds(*stock, Process::Mill, CutterMaterial::Hss).unwrap()[0];
        assert!(speed.high / 0.3048 >= *printed, "{source}: {stock}");
    }
}

#[test]
fn tapping_and_centring() {
    // Free-cutting steel's and copper's taps come from a bolder table.
    let bold = [Stock::FreeCuttingSteel, Stock::Copper];
    for stock in Stock::ALL.iter().filter(|stock| !bold.contains(stock)) {
        let high = |process| surface_speeds(*stock, process, CutterMaterial::Hss).unwrap()[0].high;
        let share = high(Process::Tap) / high(Process::Drill);
        assert!(share <= 0.6, "TC 9-524, from memory: tapping at about half of drilling: {stock}");
    }
    // A small centre drill has a body of a quarter of an inch.
    let drill = surface_speeds(Stock::MildSteel, Process::Drill, CutterMaterial::Hss).unwrap()[0];
    let range = rpm_range(&drill, inches(1, 4)).unwrap();
    let source = "machine-shop vocabulary list: 1,200 to 1,500 rpm for a small centre drill";
    assert!(range.low <= 1500.0 && range.high >= 1200.0, "{source}: {range:?}");
}

#[test]
fn depths_of_roughing_cuts() {
    let source = "Machine Tool Speeds and Feeds, laboratory data sheet: depth of cut, lathe, in";
    #[rustfmt::skip]
    let rows: &[(Stock, i64, i64)] = &[
        // stock, thousandths with high-speed steel, with carbide
        (Stock::Aluminium, 50, 70), (Stock::MildSteel, 30, 50), (Stock::AlloySteel, 25, 45),
        (Stock::StainlessSteel, 30, 50), (Stock::Brass, 50, 70),
    ];
    for (stock, hss, carbide) in rows {
        for (cutter, thou) in [(CutterMaterial::Hss, hss), (CutterMaterial::Carbide, carbide)] {
            assert_eq!(rough_depth(*stock, cutter).0, inches(*thou, 1000), "{source}: {stock}");
        }
    }
}

#[test]
fn sizing_by_a_measuring_cut() {
    // By hand: Ø 12 to 3/8 in is 1.2375 on the radius; 0.5 of it for the last two cuts, so one
    // roughing cut of 0.7375 with high-speed steel's 0.762.
    let (rough, _) = rough_depth(Stock::MildSteel, CutterMaterial::Hss);
    let cuts = size_cuts(Ratio::whole(12), inches(3, 8), rough, LAST_CUT_MM).unwrap();
    let left: Vec<_> = cuts.iter().map(|cut| cut.diameter_mm).collect();
    let by_hand = [Ratio::of(10_525, 1000), Ratio::of(10_025, 1000), inches(3, 8)];
    assert_eq!(left, by_hand, "by hand");
    let last = after_measuring(Ratio::of(10_031, 1000), inches(3, 8), false).unwrap();
    assert_eq!(last, Ratio::of(506, 1000), "by hand: 10.031 − 9.525");
}

#[test]
fn parting_off_a_bar() {
    let owned = [45.0, 70.0, 110.0, 190.0, 320.0, 540.0, 900.0];
    let bar = part_off(
        Stock::MildSteel,
        CutterMaterial::Hss,
        Ratio::whole(20),
        Ratio::ZERO,
        Ratio::whole(2),
        &owned,
    )
    .unwrap();
    let source = "Army Ordnance OD1645: blade out slightly more than half the diameter";
    assert!(bar.stick_out_mm > Ratio::whole(10) && bar.stick_out_mm < Ratio::whole(14), "{source}");
    let source = "Army Ordnance OD1645: power feed of about 0.002 in a turn";
    assert!((bar.feed_mm_per_rev / 25.4 - 0.002).abs() < 1e-9, "{source}");
    // By hand: a quarter of 70 to 90 ft/min on 20 mm is 84.9 to 109.1 rpm: 110 is within a twentieth.
    let pick = bar.cut.spindle.unwrap();
    assert_eq!((pick.rpm, pick.verdict), (110.0, Verdict::Near { wants: 109 }), "by hand");
    // 100 rpm is over a quarter of turning speed, 91 on 24 mm (Machining 1, open textbook, ch. 10.6), and
    // under turning speed itself, which TM 1-420 (1940) parts at: not too fast.
    let (d, blade) = (Ratio::whole(24), Ratio::whole(2));
    let slowest = |rpm: f64| {
        part_off(Stock::MildSteel, CutterMaterial::Hss, d, Ratio::ZERO, blade, &[rpm])
            .unwrap()
            .cut
            .spindle
            .unwrap()
            .verdict
    };
    assert_eq!(slowest(100.0), Verdict::OtherBook { wants: 91 });
    assert_eq!(slowest(95.0), Verdict::Near { wants: 91 });
    assert_eq!(slowest(600.0), Verdict::MachineTooFast { wants: 91, has: 600 });
}

/// kc at a chip's thickness, and the force and the power of turning cuts.
#[test]
fn forces_of_the_tables() {
    // Source: kc1.1 and mc of the Tabellenbuch Zerspantechnik, 5th ed. (2022) p. 215, kc = kc1.1 / h^mc,
    // worked independently.
    let source = "Tabellenbuch Zerspantechnik, 5th ed. (2022) p. 215";
    for (stock, thick, kc) in [
        (Stock::MildSteel, 0.1, 2852.808),
        (Stock::MildSteel, 0.05, 3277.016),
        (Stock::MildSteel, 0.3, 2290.067),
        (Stock::Aluminium, 0.05, 1055.300),
        (Stock::StainlessSteel, 0.15, 2922.885),
    ] {
        let found = specific_force(stock).unwrap().turning(thick);
        assert!((found - kc).abs() < 0.001, "{stock} {thick}: {found} ({source})");
    }
    for (stock, depth, feed, speed, force, power) in [
        (Stock::MildSteel, 1.0, 0.1, 30.0, 285.281, 142.640),
        (Stock::Aluminium, 2.0, 0.1, 100.0, 175.036, 291.727),
    ] {
        let found = cutting_force_n(stock, depth, feed).unwrap();
        assert!((found - force).abs() < 0.001, "{stock}: {found} ({source})");
        assert!((power_w(found, speed) - power).abs() < 0.001, "{stock}: arithmetic");
    }
    // The exponent of grey iron: 1.5 mm deep, 0.15 mm a turn, 45°, 25 m/min ask 164.922 W.
    let iron = specific_force(Stock::GreyIron).unwrap();
    let (b, h) = (1.5 * 2f64.sqrt(), 0.15 / 2f64.sqrt());
    let watts = power_w(iron.turning(h) * b * h, 25.0);
    assert!((watts - 164.922).abs() < 0.01, "{watts} ({source})");
    // Carried to milling and no rake: × 1.2 / (1 − rake / 100), the same table's cards.
    for (stock, kc) in
        [(Stock::MildSteel, 2298.0), (Stock::StainlessSteel, 2553.0), (Stock::GreyIron, 1286.0)]
    {
        let found = specific_force(stock).unwrap().milling(1.0);
        assert!((found - kc).abs() < 1.0, "{stock}: {found} ({source})");
    }
}

/// A chip by the cutter's own shape. No published table of saws and engraving points is at hand: the
/// bands are starting figures from memory.
#[test]
fn chips_by_shape() {
    let saw = saw_chip();
    assert_eq!((saw.low, saw.high), (0.005, 0.02), "thin slitting saws, from memory");
    let point = point_chip(0.3).unwrap();
    assert!((point.low - 0.002).abs() < 1e-12 && (point.high - 0.005).abs() < 1e-12);
    // Small end mills, steel: 1 mm 0.003 to 0.006, 3 mm 0.01 to 0.02 mm a tooth (shop teaching, memory).
    for (d, low, high) in [(1, 0.003, 0.006), (3, 0.005, 0.02)] {
        let loads = chip_loads(Stock::MildSteel, CutterMaterial::Hss, Ratio::whole(d)).unwrap();
        assert!(loads[0].low >= low && loads[0].low <= high, "{d} mm: {:?}", loads[0]);
    }
    // A thin saw goes to its depth at once in soft metal only: common practice, no source.
    let (width, mm) = (Ratio::ONE, Ratio::whole);
    assert_eq!(saw_passes(Stock::Aluminium, width, mm(10)), Some(1));
    assert_eq!(saw_passes(Stock::MildSteel, width, mm(3)), Some(1));
    assert_eq!(saw_passes(Stock::MildSteel, width, mm(10)), Some(4));
    // Width of a line: w + 2 d tan(a/2), geometry.
    for (tip, depth, angle, width) in
        [(0.1, 0.3, 60.0, 0.446_410), (0.2, 0.2, 60.0, 0.430_940), (0.0, 0.25, 90.0, 0.5)]
    {
        let found = point_width(tip, depth, angle);
        assert!((found - width).abs() < 1e-6, "{found}");
    }
}

/// A reamer in brass goes slowly: no faster than 20 m/min, where half of drilling would be 30 and more.
#[test]
fn reaming_brass() {
    let source = "German practice tables, reaming with high-speed steel; from memory";
    let speeds = surface_speeds(Stock::Brass, Process::Ream, CutterMaterial::Hss).unwrap();
    assert!(speeds[0].high <= 20.0, "{source}");
}

#[test]
fn every_row_names_its_book() {
    for row in SPEEDS {
        assert!(row.source.len() > 10, "{row:?}");
    }
    let speed = |d| {
        let speeds = surface_speeds(Stock::MildSteel, Process::Turn, CutterMaterial::Hss).unwrap();
        rpm_range(&speeds[0], d).unwrap().ideal()
    };
    let turned = surface_at(speed(Ratio::whole(25)), Ratio::whole(25)).unwrap();
    assert!((turned / 0.3048 - 80.0).abs() < 1e-6, "the middle of 70 to 90 ft/min");
}
