//! Threads beside the printed tables: the hole under a tap.

use latheside_core::exact::Ratio;
use latheside_core::holes::nearest;
use latheside_core::threads::{
    Designation, INCH, Profile, Side, bore_by_engagement, hole_for_percent, limits, parse, percent,
    tap_hole,
};

/// Thread, drill mm, within mm. The open table of bd-warehouse 0.4.0 disagrees at M14 (12.1) and other
/// tables print 6.75 for M8: ISO 2306's 12 and 6.8 stand. Sources: ISO 2306; NZDL trainee handbook, Thread Cutting by Dies and Taps.
#[rustfmt::skip]
const METRIC_DRILLS: &[(&str, f64, f64)] = &[
    ("M1.6", 1.25, 0.05), ("M2.5", 2.05, 0.05), ("M3", 2.5, 0.05), ("M3.5", 2.9, 0.05),
    ("M4", 3.3, 0.05), ("M6", 5.0, 0.05), ("M7", 6.0, 0.05), ("M8", 6.8, 0.1), ("M10", 8.5, 0.05),
    ("M14", 12.0, 0.1), ("M16", 14.0, 0.05), ("M18", 15.5, 0.05), ("M20", 17.5, 0.05),
    ("M24", 21.0, 0.05), ("M27", 24.0, 0.05), ("M30", 26.5, 0.05), ("M36", 32.0, 0.05),
    ("M10", 8.5, 0.05), ("M12", 10.25, 0.05), ("M14", 12.0, 0.05), ("M16", 14.0, 0.05),
    ("M18", 15.5, 0.05), ("M20", 17.5, 0.05), ("M27", 24.0, 0.05), ("M33", 29.5, 0.05),
    ("M8x1", 7.0, 0.06), ("M10x1", 9.0, 0.06), ("M10x1.25", 8.75, 0.06), ("M12x1.25", 10.75, 0.06),
    ("M12x1.5", 10.5, 0.06), ("M16x1.5", 14.5, 0.06), ("M18x1.5", 16.5, 0.06),
    ("M20x1.5", 18.5, 0.06), ("M24x2", 22.0, 0.06), ("M30x2", 28.0, 0.06),
];

/// Thread, drill mm ± 0.15. Source: BS 1157.
#[rustfmt::skip]
const WHITWORTH_DRILLS: &[(&str, f64)] = &[
    ("3/16 BSW", 3.7), ("1/4 BSW", 5.1), ("5/16 BSW", 6.5), ("3/8 BSW", 7.9), ("1/2 BSW", 10.5),
    ("5/8 BSW", 13.5), ("3/4 BSW", 16.25), ("7/8 BSW", 19.25), ("1 BSW", 22.0), ("3/16 BSF", 4.0),
    ("1/4 BSF", 5.3), ("5/16 BSF", 6.8), ("3/8 BSF", 8.3), ("1/2 BSF", 11.1), ("9/16 BSF", 12.7),
    ("5/8 BSF", 14.0), ("3/4 BSF", 16.75), ("7/8 BSF", 19.75), ("1 BSF", 22.75),
];

/// Thread, drill in, percent of 3/4 H ± 1. Source: FED-STD-H28/2B Table II.A.1.
#[rustfmt::skip]
const PERCENT: &[(&str, f64, f64)] = &[
    ("#0-80 UNF", 0.0469, 81.0), ("#1-64 UNC", 0.055, 89.0), ("#1-72 UNF", 0.0625, 58.0),
    ("#2-56 UNC", 0.067, 82.0), ("#2-56 UNC", 0.07, 69.0), ("#2-64 UNF", 0.07, 79.0),
    ("#2-64 UNF", 0.073, 64.0), ("#3-48 UNC", 0.0781, 77.0), ("#3-48 UNC", 0.0785, 76.0),
    ("#3-48 UNC", 0.081, 67.0), ("#3-48 UNC", 0.082, 63.0), ("#3-56 UNF", 0.081, 78.0),
    ("#3-56 UNF", 0.086, 56.0), ("#4-40 UNC", 0.089, 71.0), ("#4-48 UNF", 0.089, 85.0),
    ("#4-48 UNF", 0.0935, 68.0), ("#4-48 UNF", 0.096, 59.0), ("#5-40 UNC", 0.098, 83.0),
    ("#5-40 UNC", 0.0995, 79.0), ("#5-40 UNC", 0.1015, 72.0), ("#5-44 UNF", 0.1015, 80.0),
    ("#5-44 UNF", 0.104, 71.0), ("#5-44 UNF", 0.1065, 63.0), ("#6-32 UNC", 0.104, 84.0),
    ("#6-32 UNC", 0.111, 67.0), ("#6-32 UNC", 0.113, 62.0), ("#8-32 UNC", 0.136, 69.0),
    ("#8-36 UNF", 0.136, 78.0), ("#10-24 UNC", 0.144, 85.0), ("#10-24 UNC", 0.1495, 75.0),
    ("#10-24 UNC", 0.152, 70.0), ("#10-24 UNC", 0.154, 66.0), ("#10-32 UNF", 0.159, 76.0),
    ("#10-32 UNF", 0.161, 71.0), ("#12-24 UNC", 0.1719, 82.0), ("#12-24 UNC", 0.173, 79.0),
    ("#12-24 UNC", 0.177, 72.0), ("#12-24 UNC", 0.18, 67.0), ("#12-28 UNF", 0.177, 84.0),
    ("#12-28 UNF", 0.18, 78.0), ("#12-28 UNF", 0.182, 73.0), ("#12-28 UNF", 0.185, 67.0),
    ("1/4-20 UNC", 0.196, 83.0), ("1/4-20 UNC", 0.199, 79.0), ("1/4-20 UNC", 0.2031, 72.0),
    ("1/4-20 UNC", 0.204, 71.0), ("1/4-28 UNF", 0.213, 80.0), ("1/4-28 UNF", 0.2188, 67.0),
    ("5/16-18 UNC", 0.257, 77.0), ("5/16-24 UNF", 0.266, 86.0), ("5/16-24 UNF", 0.272, 75.0),
    ("3/8-16 UNC", 0.3125, 77.0), ("3/8-16 UNC", 0.316, 73.0), ("3/8-24 UNF", 0.332, 79.0),
    ("3/8-24 UNF", 0.339, 67.0), ("7/16-14 UNC", 0.358, 86.0), ("7/16-14 UNC", 0.3594, 84.0),
    ("7/16-20 UNF", 0.3906, 72.0), ("1/2-13 UNC", 0.4219, 78.0), ("1/2-20 UNF", 0.4531, 72.0),
    ("9/16-12 UNC", 0.4688, 87.0), ("9/16-12 UNC", 0.4844, 72.0), ("9/16-18 UNF", 0.5, 87.0),
    ("5/8-11 UNC", 0.5312, 79.0), ("5/8-18 UNF", 0.5625, 87.0), ("3/4-10 UNC", 0.6406, 84.0),
    ("3/4-10 UNC", 0.6562, 72.0), ("3/4-16 UNF", 0.6875, 77.0), ("7/8-9 UNC", 0.7656, 76.0),
    ("1-8 UNC", 0.8594, 87.0), ("1-12 UNF", 0.9219, 72.0),
];

/// Thread, the listed drill (in) nearest to 75 %. Source: FED-STD-H28/2B Table II.A.1.
#[rustfmt::skip]
const THREE_QUARTERS: &[(&str, f64)] = &[
    ("#0-80 UNF", 0.0469), ("#1-72 UNF", 0.0595), ("#2-56 UNC", 0.07), ("#2-64 UNF", 0.07),
    ("#3-48 UNC", 0.0785), ("#3-56 UNF", 0.082), ("#4-48 UNF", 0.0935), ("#5-44 UNF", 0.104),
    ("#6-40 UNF", 0.113), ("#8-32 UNC", 0.136), ("#8-36 UNF", 0.136), ("#10-24 UNC", 0.1495),
    ("#12-24 UNC", 0.177), ("#12-28 UNF", 0.182), ("1/4-20 UNC", 0.201), ("1/4-28 UNF", 0.213),
    ("5/16-18 UNC", 0.257), ("3/8-16 UNC", 0.3125), ("3/8-24 UNF", 0.332), ("7/16-14 UNC", 0.3594),
    ("1/2-13 UNC", 0.4219), ("1/2-20 UNF", 0.4531), ("9/16-18 UNF", 0.5), ("5/8-11 UNC", 0.5312),
    ("5/8-18 UNF", 0.5625), ("3/4-10 UNC", 0.6562), ("7/8-14 UNF", 0.8125), ("1-8 UNC", 0.875),
    ("1-12 UNF", 0.9219),
];

/// Thread, percent of 3/4 H, hole mm ± 0.01. Source: FED-STD-H28/2B 20.2.3.
#[rustfmt::skip]
const HOLES: &[(&str, f64, f64)] = &[
    ("M6", 60.0, 5.221), ("M6", 65.0, 5.156), ("M6", 83.33, 4.918), ("M8", 50.0, 7.188),
    ("M8", 60.0, 7.026), ("M8", 65.0, 6.945), ("M8", 75.0, 6.782), ("M8", 83.33, 6.647),
    ("M10", 50.0, 9.026), ("M10", 60.0, 8.831), ("M10", 65.0, 8.733), ("M10", 75.0, 8.539),
    ("M10", 83.33, 8.376), ("M12", 50.0, 10.863), ("M12", 60.0, 10.636), ("M12", 65.0, 10.522),
    ("M12", 75.0, 10.295),
];

/// Thread, drill mm. Source: the open table of bd-warehouse 0.4.0 (Apache-2.0), soft materials.
#[rustfmt::skip]
const OPEN_DRILLS: &[(&str, f64)] = &[
    ("M1.5x0.35", 1.15), ("M1.6x0.35", 1.25), ("M1.8x0.35", 1.45), ("M2x0.45", 1.55),
    ("M2x0.4", 1.6), ("M2.2x0.45", 1.75), ("M2.5x0.45", 2.05), ("M3x0.6", 2.4), ("M3x0.5", 2.5),
    ("M3.5x0.6", 2.9), ("M4x0.75", 3.25), ("M4x0.7", 3.3), ("M4.5x0.75", 3.75), ("M5x1", 4.0),
    ("M5x0.9", 4.1), ("M5x0.8", 4.2), ("M5.5x0.9", 4.6), ("M6x1", 5.0), ("M6x0.75", 5.25),
    ("M7x1.0", 6.0), ("M7x0.75", 6.25), ("M8x1.25", 6.8), ("M8x1", 7.0), ("M9x1.25", 7.8),
    ("M9x1", 8.0), ("M10x1.5", 8.5), ("M10x1.25", 8.8), ("M10x1", 9.0), ("M11x1.5", 9.5),
    ("M12x1.75", 10.3), ("M12x1.5", 10.5), ("M12x1.25", 10.8), ("M14x2", 12.1), ("M14x1.5", 12.5),
    ("M14x1.25", 12.8), ("M15x1.5", 13.5), ("M16x2", 14.0), ("M16x1.5", 14.5), ("M17x1.5", 15.5),
    ("M18x2.5", 15.5), ("M18x2", 16.0), ("M18x1.5", 16.5), ("M19x2.5", 16.5), ("M20x2.5", 17.5),
    ("M21x2", 18.0), ("M22x2.5", 18.5),
];

fn read(name: &str) -> (Designation, Profile, f64) {
    let thread = parse(name).unwrap_or_else(|why| panic!("{name}: {why}"));
    let profile = Profile::of(&thread).unwrap().unwrap();
    (thread, profile, thread.diameter.unwrap().to_f64())
}

fn hole(name: &str) -> Ratio {
    tap_hole(&read(name).0).unwrap().unwrap().diameter
}

#[track_caller]
fn near(found: f64, printed: f64, within: f64, name: &str, source: &str) {
    assert!((found - printed).abs() <= within + 1e-9, "{name}: {found}, not {printed} ({source})");
}

#[test]
fn drills_of_the_standards() {
    for (name, drill, within) in METRIC_DRILLS {
        near(hole(name).to_f64(), *drill, *within, name, "ISO 2306; trainee handbook");
    }
    for (name, drill) in WHITWORTH_DRILLS {
        near(hole(name).to_f64(), *drill, 0.15, name, "BS 1157");
        near(hole(name).to_f64(), *drill, 0.0, name, "BS 1157, the listed drill itself");
    }
    for (name, exactly) in [("M8", (34, 5)), ("M12", (51, 5)), ("M10", (17, 2))] {
        assert_eq!(hole(name), Ratio::of(exactly.0, exactly.1), "{name}: ISO 2306, from memory");
    }
    assert_eq!(tap_hole(&parse("module 1").unwrap()), Ok(None));
    assert_eq!(tap_hole(&parse("3 mm").unwrap()), Ok(None));
}

#[test]
fn metric_drills_beside_an_open_table() {
    let source = "bd-warehouse 0.4.0 beside ISO 2306";
    for (name, drill) in OPEN_DRILLS {
        // The open table has 18 and 18.5 for these two, a millimetre under d - P: ISO 2306 has 19.5
        // for M22, and d - P stands.
        let drill = match *name {
            "M21x2" => &19.0,
            "M22x2.5" => &19.5,
            _ => drill,
        };
        near(hole(name).to_f64(), *drill, 0.1 + 1e-9, name, source);
    }
}

#[test]
fn percent_of_thread() {
    for (name, drill, printed) in PERCENT {
        let (_, profile, diameter) = read(name);
        let found = percent(&profile, diameter, drill * 25.4).of_chart;
        near(found, *printed, 1.0, name, "FED-STD-H28/2B Table II.A.1");
    }
    for (name, share, printed) in HOLES {
        let (_, profile, diameter) = read(name);
        near(
            hole_for_percent(&profile, diameter, *share),
            *printed,
            0.01,
            name,
            "FED-STD-H28/2B 20.2.3",
        );
    }
    for (name, drill, chart, basic) in [("M10", 8.5, 77.0, 92.4), ("M8", 6.8, 73.9, 88.7)] {
        let (_, profile, diameter) = read(name);
        let found = percent(&profile, diameter, drill);
        near(found.of_chart, chart, 0.2, name, "of 3/4 H, computed from the definition");
        near(found.of_basic, basic, 0.2, name, "of 5/8 H, computed from the definition");
    }
    // A drill cuts larger than itself: what the standard's mean oversize leaves.
    // Source: FED-STD-H28/2B 20.2.3 and Table II.A.1.
    for (name, hole, printed) in
        [("1/4-20 UNC", 0.2048, 70.0), ("1/2-13 UNC", 0.4266, 73.0), ("#4-40 UNC", 0.0910, 65.0)]
    {
        let (_, profile, diameter) = read(name);
        let found = percent(&profile, diameter, hole * 25.4).of_chart;
        near(found, printed, 1.0, name, "FED-STD-H28/2B, probable hole");
    }
}

#[test]
fn the_nearest_drill_to_three_quarters() {
    for (name, printed) in THREE_QUARTERS {
        let mut drills: Vec<Ratio> = PERCENT
            .iter()
            .filter(|(thread, ..)| thread == name)
            .map(|(_, drill, _)| Ratio::of((drill * 10_000.0).round() as i64, 10_000))
            .chain([Ratio::of((printed * 10_000.0).round() as i64, 10_000)])
            .map(|inches| inches.mul(INCH).unwrap())
            .collect();
        drills.sort();
        let found = drills[nearest(hole(name), &drills).unwrap()].to_f64() / 25.4;
        near(found, *printed, 0.000_06, name, "FED-STD-H28/2B Table II.A.1");
    }
    let drills = [Ratio::of(42, 10), Ratio::whole(5), Ratio::of(68, 10)];
    assert_eq!(nearest(hole("M8"), &drills), Some(2));
}

/// Every hole leaves some thread and not too much, and lies by the bore's limits where there are any.
#[test]
fn every_standard_thread_has_a_hole_that_can_be_tapped() {
    for thread in latheside_core::threads::standard() {
        let Some(hole) = tap_hole(&thread).unwrap() else { continue };
        let profile = Profile::of(&thread).unwrap().unwrap();
        let diameter = thread.diameter.unwrap().to_f64();
        let share = percent(&profile, diameter, hole.diameter.to_f64()).of_basic;
        assert!((65.0..=101.0).contains(&share), "{thread}: {share} ({})", hole.source);
        if thread.series.standard() == "ISO 261" {
            // ISO 2306's drills stay inside 6H but where the smallest sizes run a hair over.
            let bore = limits(&thread, Side::Inside).unwrap().minor;
            let drill = hole.diameter.to_f64();
            assert!(drill > bore.min.unwrap() && drill < bore.max.unwrap() + 0.02, "{thread}");
        }
    }
}

/// How long the nut is decides which half of its bore's limits is made.
#[test]
fn a_unified_bore_goes_by_how_much_is_engaged() {
    const RULE: &str = "FED-STD-H28/2B 30.1";
    let thread = parse("2.500-28 UNS-2B").unwrap();
    let minor = limits(&thread, Side::Inside).unwrap().minor;
    let (min, max) = (minor.min.unwrap(), minor.max.unwrap());
    let half = (max - min) / 2.0;
    // 0.67 to 1.5 diameters: least bore and half of its tolerance up to the greatest.
    for diameters in [0.67, 1.0, 1.5] {
        let (from, to) = bore_by_engagement(minor, diameters).unwrap();
        near(from, min + half, 1e-9, "0.67 D to 1.5 D", RULE);
        near(to, max, 1e-9, "0.67 D to 1.5 D", RULE);
    }
    // Up to 0.33: the least to that and half of its tolerance.
    for diameters in [0.01, 0.2, 0.33] {
        let (from, to) = bore_by_engagement(minor, diameters).unwrap();
        near(from, min, 1e-9, "up to 0.33 D", RULE);
        near(to, min + half, 1e-9, "up to 0.33 D", RULE);
    }
    for diameters in [0.0, -1.0, 0.5, 1.6, f64::NAN] {
        assert_eq!(bore_by_engagement(minor, diameters), None, "not in what was seen of {RULE}");
    }
}
