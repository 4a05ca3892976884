//! Threads beside the printed tables: pitches and basic sizes.

use latheside_core::exact::Ratio;
use latheside_core::threads::{Designation, INCH, Profile, Series, Side, parse};

/// Coarse pitch, mm. Source: ISO 261/262.
#[rustfmt::skip]
const METRIC_PITCH: &[(&str, f64)] = &[
    ("M1.6", 0.35), ("M2", 0.4), ("M2.5", 0.45), ("M3", 0.5), ("M4", 0.7), ("M5", 0.8), ("M6", 1.0),
    ("M8", 1.25), ("M10", 1.5), ("M12", 1.75), ("M20", 2.5), ("M22", 2.5), ("M24", 3.0),
    ("M27", 3.0), ("M30", 3.5),
];

/// Basic pitch diameter, mm ± 0.001. Source: ISO 724.
#[rustfmt::skip]
const METRIC_D2: &[(&str, f64)] = &[
    ("M1.6", 1.373), ("M2", 1.74), ("M2.5", 2.208), ("M3", 2.675), ("M3.5", 3.11), ("M4", 3.545),
    ("M6", 5.35), ("M7", 6.35), ("M8", 7.188), ("M10", 9.026), ("M12", 10.863), ("M14", 12.701),
    ("M18", 16.376), ("M20", 18.376), ("M24", 22.051), ("M27", 25.051), ("M30", 27.727),
    ("M33", 30.727), ("M3x0.35", 2.773), ("M4x0.5", 3.675), ("M6x0.75", 5.513), ("M8x1", 7.35),
    ("M10x0.75", 9.513), ("M10x1", 9.35), ("M10x1.25", 9.188), ("M12x1.25", 11.188),
    ("M12x1.5", 11.026), ("M14x1.5", 13.026), ("M16x1", 15.35), ("M16x1.5", 15.026),
    ("M18x1.5", 17.026), ("M20x1.5", 19.026), ("M20x2", 18.701), ("M22x1.5", 21.026),
    ("M24x1.5", 23.026), ("M24x2", 22.701), ("M27x2", 25.701), ("M33x2", 31.701),
];

/// Basic minor diameter of the nut, mm ± 0.001. Source: ISO 724.
#[rustfmt::skip]
const METRIC_D1: &[(&str, f64)] = &[
    ("M1.6", 1.221), ("M2", 1.567), ("M2.5", 2.013), ("M3.5", 2.85), ("M4", 3.242), ("M6", 4.917),
    ("M8", 6.647), ("M10", 8.376), ("M12", 10.106), ("M16", 13.835), ("M18", 15.294),
    ("M20", 17.294), ("M24", 20.752), ("M27", 23.752), ("M30", 26.211), ("M36", 31.67),
    ("M3x0.35", 2.621), ("M4x0.5", 3.459), ("M5x0.5", 4.459), ("M6x0.75", 5.188),
    ("M8x0.75", 7.188), ("M10x0.75", 9.188), ("M10x1", 8.917), ("M10x1.25", 8.647),
    ("M12x1", 10.917), ("M12x1.5", 10.376), ("M14x1.5", 12.376), ("M16x1", 14.917),
    ("M16x1.5", 14.376), ("M20x2", 17.835), ("M24x1.5", 22.376), ("M30x2", 27.835),
    ("M33x2", 30.835),
];

/// Height of engagement 5/8 H, mm ± 0.001. Source: ISO 68-1.
#[rustfmt::skip]
const METRIC_H1: &[(&str, f64)] = &[
    ("M1.6", 0.189), ("M2.5", 0.244), ("M3", 0.271), ("M3.5", 0.325), ("M4", 0.379), ("M7", 0.541),
    ("M8", 0.677), ("M10", 0.812), ("M12", 0.947), ("M16", 1.083), ("M18", 1.353), ("M20", 1.353),
    ("M22", 1.353), ("M24", 1.624), ("M27", 1.624), ("M30", 1.894), ("M36", 2.165),
];

/// Threads per inch. Sources: FED-STD-H28/2B Table II.A.1 (Unified); BS 84.
#[rustfmt::skip]
const TPI: &[(&str, f64)] = &[
    ("#0 UNF", 80.0), ("#1 UNC", 64.0), ("#2 UNC", 56.0), ("#2 UNF", 64.0), ("#3 UNC", 48.0),
    ("#4 UNC", 40.0), ("#4 UNF", 48.0), ("#5 UNC", 40.0), ("#5 UNF", 44.0), ("#8 UNF", 36.0),
    ("#10 UNC", 24.0), ("#10 UNF", 32.0), ("#12 UNC", 24.0), ("#12 UNF", 28.0), ("1/4 UNC", 20.0),
    ("5/16 UNC", 18.0), ("5/16 UNF", 24.0), ("7/16 UNC", 14.0), ("1/2 UNF", 20.0),
    ("9/16 UNC", 12.0), ("9/16 UNF", 18.0), ("5/8 UNC", 11.0), ("7/8 UNC", 9.0), ("7/8 UNF", 14.0),
    ("1 UNC", 8.0), ("1 UNF", 12.0), ("1/8 BSW", 40.0), ("3/16 BSW", 24.0), ("1/4 BSW", 20.0),
    ("3/8 BSW", 16.0), ("7/16 BSW", 14.0), ("1/2 BSW", 12.0), ("9/16 BSW", 12.0), ("3/4 BSW", 10.0),
    ("7/8 BSW", 9.0), ("1 BSW", 8.0), ("3/16 BSF", 32.0), ("7/32 BSF", 28.0), ("1/4 BSF", 26.0),
    ("5/16 BSF", 22.0), ("3/8 BSF", 20.0), ("1/2 BSF", 16.0), ("9/16 BSF", 16.0), ("5/8 BSF", 14.0),
    ("3/4 BSF", 12.0), ("1 BSF", 10.0),
];

/// Unified basic pitch diameter, in ± 0.0001. Source: ASME B1.1.
#[rustfmt::skip]
const UN_E: &[(&str, f64)] = &[
    ("#0-80 UNF", 0.0519), ("#1-64 UNC", 0.0629), ("#1-72 UNF", 0.064), ("#2-56 UNC", 0.0744),
    ("#2-64 UNF", 0.0759), ("#3-56 UNF", 0.0874), ("#5-40 UNC", 0.1088), ("#5-44 UNF", 0.1102),
    ("#6-32 UNC", 0.1177), ("#6-40 UNF", 0.1218), ("#8-36 UNF", 0.146), ("#10-32 UNF", 0.1697),
    ("#12-28 UNF", 0.1928), ("1/4-28 UNF", 0.2268), ("5/16-18 UNC", 0.2764),
    ("5/16-24 UNF", 0.2854), ("3/8-24 UNF", 0.3479), ("7/16-20 UNF", 0.405), ("1/2-13 UNC", 0.45),
    ("9/16-12 UNC", 0.5084), ("9/16-18 UNF", 0.5264), ("5/8-11 UNC", 0.566), ("5/8-18 UNF", 0.5889),
    ("3/4-16 UNF", 0.7094), ("7/8-9 UNC", 0.8028), ("7/8-14 UNF", 0.8286), ("1-8 UNC", 0.9188),
];

/// Unified basic minor diameter, in ± 0.0002. Source: ASME B1.1; FED-STD-H28/2B Table II.A.1.
#[rustfmt::skip]
const UN_D1: &[(&str, f64)] = &[
    ("#0-80 UNF", 0.0465), ("#1-64 UNC", 0.0561), ("#1-72 UNF", 0.058), ("#2-64 UNF", 0.0691),
    ("#3-56 UNF", 0.0797), ("#4-40 UNC", 0.0849), ("#4-48 UNF", 0.0894), ("#5-40 UNC", 0.0979),
    ("#5-44 UNF", 0.1004), ("#6-32 UNC", 0.1042), ("#6-40 UNF", 0.1109), ("#8-36 UNF", 0.1339),
    ("#10-32 UNF", 0.1562), ("#12-24 UNC", 0.1709), ("#12-28 UNF", 0.1773), ("1/4-20 UNC", 0.1959),
    ("1/4-28 UNF", 0.2113), ("5/16-18 UNC", 0.2524), ("5/16-24 UNF", 0.2674),
    ("3/8-16 UNC", 0.3073), ("3/8-24 UNF", 0.3299), ("7/16-20 UNF", 0.3834), ("1/2-13 UNC", 0.4167),
    ("1/2-20 UNF", 0.4459), ("9/16-12 UNC", 0.4723), ("9/16-18 UNF", 0.5024),
    ("5/8-11 UNC", 0.5266), ("5/8-18 UNF", 0.5649), ("3/4-10 UNC", 0.6417), ("3/4-16 UNF", 0.6823),
    ("7/8-9 UNC", 0.7547), ("7/8-14 UNF", 0.7977),
];

/// Whitworth core diameter, in ± 0.0001. Source: BS 84.
#[rustfmt::skip]
const CORE: &[(&str, f64)] = &[
    ("1/8 BSW", 0.093), ("3/16 BSW", 0.1341), ("5/16 BSW", 0.2414), ("3/8 BSW", 0.295),
    ("7/16 BSW", 0.346), ("1/2 BSW", 0.3933), ("9/16 BSW", 0.4558), ("5/8 BSW", 0.5086),
    ("3/4 BSW", 0.6219), ("7/8 BSW", 0.7327), ("7/32 BSF", 0.173), ("1/4 BSF", 0.2007),
    ("9/16 BSF", 0.4825), ("5/8 BSF", 0.5335), ("3/4 BSF", 0.6433), ("7/8 BSF", 0.7586),
];

/// BA minor diameter, mm ± 0.005. Source: BS 93.
#[rustfmt::skip]
const BA_MINOR: &[(&str, f64)] = &[
    ("0BA", 4.8), ("2BA", 3.728), ("3BA", 3.224), ("5BA", 2.492), ("6BA", 2.164), ("7BA", 1.924),
    ("10BA", 1.28),
];

/// Threads per inch; major, pitch, minor diameter, mm ± 0.001. Source: ISO 228-1 Table 1.
#[rustfmt::skip]
const PIPE: &[(&str, [f64; 4])] = &[
    ("G1/4", [19.0, 13.157, 12.301, 11.445]), ("G1/2", [14.0, 20.955, 19.793, 18.631]),
    ("G5/8", [14.0, 22.911, 21.749, 20.587]), ("G1 1/4", [11.0, 41.91, 40.431, 38.952]),
    ("G2", [11.0, 59.614, 58.135, 56.656]),
];

/// Threads per inch, depth in ± 0.0001. Source: Jones, Turning and Boring (1914) p. 156.
#[rustfmt::skip]
const ACME_DEPTH: &[(i64, f64)] = &[
    (4, 0.135), (6, 0.0933), (8, 0.0725),
];

/// d2, d3, D1, D4, mm ± 0.001. Source: ISO 2904.
#[rustfmt::skip]
const TRAPEZOIDAL: &[(&str, [f64; 4])] = &[
    ("Tr8x1.5", [7.25, 6.2, 6.5, 8.3]), ("Tr9x1.5", [8.25, 7.2, 7.5, 9.3]),
    ("Tr9x2", [8.0, 6.5, 7.0, 9.5]), ("Tr10x2", [9.0, 7.5, 8.0, 10.5]),
    ("Tr11x2", [10.0, 8.5, 9.0, 11.5]), ("Tr11x3", [9.5, 7.5, 8.0, 11.5]),
    ("Tr12x2", [11.0, 9.5, 10.0, 12.5]), ("Tr12x3", [10.5, 8.5, 9.0, 12.5]),
    ("Tr14x2", [13.0, 11.5, 12.0, 14.5]), ("Tr14x3", [12.5, 10.5, 11.0, 14.5]),
    ("Tr16x2", [15.0, 13.5, 14.0, 16.5]), ("Tr16x4", [14.0, 11.5, 12.0, 16.5]),
    ("Tr24x5", [21.5, 18.5, 19.0, 24.5]), ("Tr30x6", [27.0, 23.0, 24.0, 31.0]),
    ("Tr36x6", [33.0, 29.0, 30.0, 37.0]), ("Tr40x7", [36.5, 32.0, 33.0, 41.0]),
    ("Tr44x7", [40.5, 36.0, 37.0, 45.0]), ("Tr48x8", [44.0, 39.0, 40.0, 49.0]),
    ("Tr42x10", [37.0, 31.0, 32.0, 43.0]),
];

fn read(name: &str) -> (Designation, Profile) {
    let thread = parse(name).unwrap_or_else(|why| panic!("{name}: {why}"));
    let profile = Profile::of(&thread).unwrap().unwrap();
    (thread, profile)
}

#[track_caller]
fn near(found: Ratio, printed: f64, within: f64, name: &str, source: &str) {
    let found = found.to_f64();
    assert!((found - printed).abs() <= within + 1e-9, "{name}: {found}, not {printed} ({source})");
}

fn inches(mm: Ratio) -> Ratio {
    mm.div(INCH).unwrap()
}

#[test]
fn metric_sizes() {
    for (name, printed) in METRIC_PITCH {
        near(read(name).0.pitch.factor(), *printed, 0.0, name, "ISO 261/262");
    }
    for (name, printed) in METRIC_D2 {
        let (thread, profile) = read(name);
        let d2 = profile.pitch_diameter(thread.diameter.unwrap()).unwrap();
        near(d2, *printed, 0.001, name, "ISO 724");
    }
    for (name, printed) in METRIC_D1 {
        let (thread, profile) = read(name);
        let d1 = profile.minor(Side::Inside, thread.diameter.unwrap()).unwrap();
        near(d1, *printed, 0.001, name, "ISO 724");
    }
    for (name, printed) in METRIC_H1 {
        near(read(name).1.depth(Side::Inside).unwrap(), *printed, 0.001, name, "ISO 68-1");
    }
}

#[test]
fn the_screws_root_is_not_the_nuts_bore() {
    let (thread, profile) = read("M10");
    let diameter = thread.diameter.unwrap();
    let source = "ISO 724: d3 = d - 1.226869 P, D1 = d - 1.082532 P";
    near(profile.minor(Side::Outside, diameter).unwrap(), 8.160, 0.0005, "M10 d3", source);
    near(profile.minor(Side::Inside, diameter).unwrap(), 8.376, 0.0005, "M10 D1", source);
    near(profile.depth(Side::Outside).unwrap(), 0.613_434 * 1.5, 1e-9, "M10", "ISO 68-1: 17/24 H");
    near(profile.depth(Side::Inside).unwrap(), 0.541_266 * 1.5, 1e-9, "M10", "ISO 68-1: 5/8 H");
}

#[test]
fn inch_sizes() {
    for (name, printed) in TPI {
        let source = "FED-STD-H28/2B Table II.A.1; BS 84";
        near(read(name).0.tpi().unwrap(), *printed, 0.0, name, source);
    }
    for (name, printed) in UN_E {
        let (thread, profile) = read(name);
        let e = profile.pitch_diameter(thread.diameter.unwrap()).unwrap();
        near(inches(e), *printed, 0.0001, name, "ASME B1.1");
    }
    for (name, printed) in UN_D1 {
        let (thread, profile) = read(name);
        let d1 = profile.minor(Side::Inside, thread.diameter.unwrap()).unwrap();
        near(inches(d1), *printed, 0.0002, name, "ASME B1.1; FED-STD-H28/2B Table II.A.1");
    }
    for (name, printed) in CORE {
        let (thread, profile) = read(name);
        for side in [Side::Outside, Side::Inside] {
            let core = profile.minor(side, thread.diameter.unwrap()).unwrap();
            near(inches(core), *printed, 0.0001, name, "BS 84");
        }
    }
}

/// Model engineers', brass and cycle threads: pitch diameter and screw's root, in or mm.
#[test]
fn threads_of_the_other_lists() {
    // (name, pitch diameter in, minor diameter in, within, source)
    let whitworth = "Whitworth form, BS 84: depth 0.640327 p";
    let cycle = "a public table of BS 811 cycle threads; depth 0.5327 p";
    #[rustfmt::skip]
    let rows = [
        ("1/8-40 ME", Some(0.108_992), 0.092_984, 1e-5, whitworth),
        ("5/32-40 ME", None, 0.124_234, 1e-5, whitworth),
        ("3/16-40 ME", Some(0.171_492), 0.155_484, 1e-5, whitworth),
        ("1/4 x 40 ME", Some(0.233_992), 0.217_984, 1e-5, whitworth),
        ("1/4 x 32 ME", None, 0.209_980, 1e-5, whitworth),
        ("5/16 ME", Some(0.292_490), 0.272_480, 1e-5, whitworth),
        ("7/16 ME", Some(0.417_490), 0.397_480, 1e-5, whitworth),
        ("1/2 ME", None, 0.459_980, 1e-5, whitworth),
        ("1/8 brass", None, 1.923_9 / 25.4, 1e-5, whitworth),
        ("1/4 brass", None, 5.098_9 / 25.4, 1e-5, whitworth),
        ("1 1/4 brass", None, 30.498_9 / 25.4, 1e-5, whitworth),
        ("1/4 BSC", None, 0.209, 5e-4, cycle),
        ("5/16 BSC", Some(0.292_012), 0.272, 5e-4, cycle),
        ("7/16 BSC", Some(0.417_012), 0.397, 5e-4, cycle),
        ("3/4 BSC", None, 0.709, 5e-4, cycle),
        ("1 BSC", Some(0.979_512), 0.959, 5e-4, cycle),
        ("1.370 BSC", None, 1.326, 5e-4, cycle),
    ];
    for (name, pitch, minor, within, source) in rows {
        let (thread, profile) = read(name);
        let diameter = thread.diameter.unwrap();
        if let Some(pitch) = pitch {
            near(inches(profile.pitch_diameter(diameter).unwrap()), pitch, 1e-5, name, source);
        }
        near(inches(profile.minor(Side::Outside, diameter).unwrap()), minor, within, name, source);
    }
    // 1/4 BSF and 1/4 BSC are both 26 tpi, and not the same thread: both forms, computed.
    let minor = |name: &str| {
        let (thread, profile) = read(name);
        inches(profile.minor(Side::Outside, thread.diameter.unwrap()).unwrap()).to_f64()
    };
    assert!((minor("1/4 BSF") - minor("1/4 BSC") + 0.008_279).abs() < 1e-6);
}

#[test]
fn ba_pipe_acme_and_trapezoidal_sizes() {
    for (name, printed) in BA_MINOR {
        let (thread, profile) = read(name);
        let minor = profile.minor(Side::Outside, thread.diameter.unwrap()).unwrap();
        near(minor, *printed, 0.005, name, "BS 93");
    }
    for (name, [tpi, major, pitch, minor]) in PIPE {
        let (thread, profile) = read(name);
        let diameter = thread.diameter.unwrap();
        let source = "ISO 228-1 Table 1";
        near(thread.tpi().unwrap(), *tpi, 0.0, name, source);
        near(diameter, *major, 0.001, name, source);
        near(profile.pitch_diameter(diameter).unwrap(), *pitch, 0.001, name, source);
        near(profile.minor(Side::Outside, diameter).unwrap(), *minor, 0.001, name, source);
    }
    for (tpi, printed) in ACME_DEPTH {
        let name = format!("1-{tpi} Acme");
        let (_, profile) = read(&name);
        for side in [Side::Outside, Side::Inside] {
            let depth = inches(profile.depth(side).unwrap());
            near(depth, *printed, 0.0001, &name, "Jones, Turning and Boring (1914) p. 156");
        }
    }
    for (name, [d2, d3, d1, d4]) in TRAPEZOIDAL {
        let (thread, profile) = read(name);
        let diameter = thread.diameter.unwrap();
        let source = "ISO 2904";
        near(profile.pitch_diameter(diameter).unwrap(), *d2, 0.001, name, source);
        near(profile.minor(Side::Outside, diameter).unwrap(), *d3, 0.001, name, source);
        near(profile.minor(Side::Inside, diameter).unwrap(), *d1, 0.001, name, source);
        near(profile.major(Side::Inside, diameter).unwrap(), *d4, 0.001, name, source);
    }
}

/// Flats and radii that the standards give as parts of the pitch, found here by geometry.
#[test]
fn flats_follow_from_the_flanks() {
    #[rustfmt::skip]
    let rows = [
        // thread, screw's root flat / P less so much of the gap, crest flat / P, source
        ("M10", 1.0 / 6.0, 0.0, 0.125, "ISO 68-1: crest P/8; root P/6 at 17/24 H by hand"),
        ("Tr16x4", 0.366_025, 0.535_898, 0.366_025, "ISO 2904: 0.366 P - 0.536 ac"),
        ("1-5 Acme", 0.3707, 0.5172, 0.3707, "ASME B1.5: 0.3707 P - 0.259 x clearance on diameter"),
        ("1-5 Stub Acme", 0.4224, 0.5172, 0.4224, "ASME B1.8: 0.4224 P"),
    ];
    for (name, root, per_gap, crest, source) in rows {
        let (_, profile) = read(name);
        let (pitch, gap) = (profile.pitch.to_f64(), profile.nut_clearance.to_f64());
        let flat = profile.root_flat(Side::Outside);
        assert!(
            (flat - (root * pitch - per_gap * gap)).abs() < 3e-4 * pitch,
            "{name}: {flat} ({source})"
        );
        assert!((profile.crest_flat() - crest * pitch).abs() < 3e-4 * pitch, "{name} ({source})");
    }
}

/// A tool with the form's own radius goes to the form's own depth: the two constants agree.
#[test]
fn the_forms_own_radius_gives_the_forms_own_depth() {
    use latheside_core::threads::Point;
    for name in ["M10", "1/4-20 UNC", "1/4 BSW", "2 BA"] {
        let (_, profile) = read(name);
        let radius = profile.root_radius.unwrap().to_f64();
        let (pitch, depth) = (profile.pitch.to_f64(), profile.screw_depth.to_f64());
        let found = profile.tool_depth(Side::Outside, Point::Radius(radius));
        assert!((found - depth).abs() < 5e-5 * pitch, "{name}: {found} {depth}");
        let flat = profile.root_flat(Side::Outside);
        let found = profile.tool_depth(Side::Outside, Point::Flat(flat));
        assert!((found - depth).abs() < 1e-9, "{name}: {found} {depth}");
        let sharp = profile.tool_depth(Side::Outside, Point::Sharp);
        assert!(sharp > depth, "{name}: a sharp tool goes deeper");
    }
    // By hand: a sharp 60 degree tool goes 7/8 H = 0.757772 P.
    let (_, profile) = read("M10");
    assert!((profile.sharp_depth(Side::Outside) - 1.5 * 0.757_772).abs() < 1e-5);
}

#[test]
fn worms_by_module_and_by_diametral_pitch() {
    let (thread, profile) = read("module 2");
    near(profile.addendum, 2.0, 1e-12, "module 2", "addendum one module: common practice");
    near(profile.screw_depth, 4.5, 1e-12, "module 2", "2.25 modules: common practice");
    assert_eq!(profile.included_deg, Ratio::whole(40));
    let steep = Designation { angle: Some(Ratio::whole(29)), ..thread };
    let profile = Profile::of(&steep).unwrap().unwrap();
    near(
        profile.screw_depth,
        0.6866 * core::f64::consts::TAU,
        1e-6,
        "29 degrees",
        "0.6866 P: from memory",
    );
    let (dp, _) = read("DP 20");
    assert_eq!(dp.series, Series::DiametralPitch);
    near(dp.pitch.factor(), 1.27, 0.0, "DP 20", "25.4/20 by definition");
}

#[test]
fn a_bare_lead_has_a_shape_only_when_told_one() {
    let bare = parse("3 mm").unwrap();
    assert_eq!(Profile::of(&bare), Ok(None));
    let sixty = Designation { angle: Some(Ratio::whole(60)), ..bare };
    near(Profile::of(&sixty).unwrap().unwrap().screw_depth, 1.840_302, 1e-9, "3 mm", "17/24 H");
    let square_ish = Designation { angle: Some(Ratio::whole(90)), ..bare };
    near(
        Profile::of(&square_ish).unwrap().unwrap().screw_depth,
        1.5,
        1e-6,
        "90 deg",
        "P/2 by hand",
    );
}
