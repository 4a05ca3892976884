//! Fits beside printed values and an independent library.

use latheside_core::exact::Ratio;
use latheside_core::fits::{Class, FitKind, fit, grade_tenths_um, zone};

const LIBRARY: &str = "PyPI pressfit 0.1.0, a library of ISO 286-1/-2 tables";

fn um(value: Ratio) -> Ratio {
    value.mul(Ratio::whole(1000)).unwrap()
}

/// Code, nominal mm, and in micrometres: ES, EI, es, ei, then one end of the slack and the other.
#[rustfmt::skip]
const PRINTED: &[(&str, i64, [i64; 6])] = &[
    ("H7/g6", 3, [10, 0, -2, -8, 2, 18]),
    ("H7/g6", 6, [12, 0, -4, -12, 4, 24]),
    ("H7/g6", 10, [15, 0, -5, -14, 5, 29]),
    ("H7/g6", 18, [18, 0, -6, -17, 6, 35]),
    ("H7/g6", 30, [21, 0, -7, -20, 7, 41]),
    ("H7/g6", 50, [25, 0, -9, -25, 9, 50]),
    ("H7/g6", 100, [35, 0, -12, -34, 12, 69]),
    ("H7/g6", 120, [35, 0, -12, -34, 12, 69]),
    ("H7/h6", 3, [10, 0, 0, -6, 0, 16]),
    ("H7/h6", 6, [12, 0, 0, -8, 0, 20]),
    ("H7/h6", 10, [15, 0, 0, -9, 0, 24]),
    ("H7/h6", 25, [21, 0, 0, -13, 0, 34]),
    ("H7/h6", 50, [25, 0, 0, -16, 0, 41]),
    ("H7/h6", 80, [30, 0, 0, -19, 0, 49]),
    ("H7/h6", 120, [35, 0, 0, -22, 0, 57]),
    ("H7/p6", 3, [10, 0, 12, 6, -12, 4]),
    ("H7/p6", 6, [12, 0, 20, 12, -20, 0]),
    ("H7/p6", 10, [15, 0, 24, 15, -24, 0]),
    ("H7/p6", 18, [18, 0, 29, 18, -29, 0]),
    ("H7/p6", 25, [21, 0, 35, 22, -35, -1]),
    ("H7/p6", 30, [21, 0, 35, 22, -35, -1]),
    ("H7/p6", 100, [35, 0, 59, 37, -59, -2]),
    ("H7/p6", 120, [35, 0, 59, 37, -59, -2]),
    ("H8/f7", 3, [14, 0, -6, -16, 6, 30]),
    ("H8/f7", 6, [18, 0, -10, -22, 10, 40]),
    ("H8/f7", 18, [27, 0, -16, -34, 16, 61]),
    ("H8/f7", 25, [33, 0, -20, -41, 20, 74]),
    ("H8/f7", 30, [33, 0, -20, -41, 20, 74]),
    ("H8/f7", 50, [39, 0, -25, -50, 25, 89]),
    ("H8/f7", 80, [46, 0, -30, -60, 30, 106]),
    ("H8/f7", 100, [54, 0, -36, -71, 36, 125]),
    ("H7/k6", 25, [21, 0, 15, 2, -15, 19]),
    ("H7/k6", 50, [25, 0, 18, 2, -18, 23]),
    ("H7/n6", 10, [15, 0, 19, 10, -19, 5]),
    ("H7/n6", 25, [21, 0, 28, 15, -28, 6]),
    ("H7/s6", 10, [15, 0, 32, 23, -32, -8]),
    ("H7/s6", 25, [21, 0, 48, 35, -48, -14]),
    ("H7/s6", 50, [25, 0, 59, 43, -59, -18]),
];

#[test]
fn preferred_fits() {
    for (code, size, [hole_high, hole_low, shaft_high, shaft_low, least, most]) in PRINTED {
        let ours = fit(code, Ratio::whole(*size)).unwrap();
        let at = Ratio::whole;
        let source = format!("ISO 286-1/-2 by {LIBRARY}: {code} at {size} mm");
        assert_eq!(um(ours.hole.high_mm), at(*hole_high), "{source}");
        assert_eq!(um(ours.hole.low_mm), at(*hole_low), "{source}");
        assert_eq!(um(ours.shaft.high_mm), at(*shaft_high), "{source}");
        assert_eq!(um(ours.shaft.low_mm), at(*shaft_low), "{source}");
        let [low, high] = ours.clearance_mm;
        assert_eq!((um(low), um(high)), (at(*least), at(*most)), "{source}");
    }
}

/// Nominal sizes, tenths of a millimetre: both edges of most steps.
const SIZES: [i64; 29] = [
    15, 30, 45, 60, 80, 100, 140, 180, 240, 250, 300, 400, 500, 650, 800, 1000, 1200, 1400, 1600,
    1800, 2000, 2250, 2500, 2800, 3150, 3550, 4000, 4500, 5000,
];
/// Where a shaft's zone starts by the independent library (upper deviation to h, lower from k),
/// at each of the sizes, in micrometres.
#[rustfmt::skip]
const SHAFTS: &[(&str, [i64; 29])] = &[
    ("c", [-60, -60, -70, -70, -80, -80, -95, -95, -110, -110, -110, -120, -130, -140, -150, -170, -180, -200, -210, -230, -240, -260, -280, -300, -330, -360, -400, -440, -480]),
    ("d", [-20, -20, -30, -30, -40, -40, -50, -50, -65, -65, -65, -80, -80, -100, -100, -120, -120, -145, -145, -145, -170, -170, -170, -190, -190, -210, -210, -230, -230]),
    ("e", [-14, -14, -20, -20, -25, -25, -32, -32, -40, -40, -40, -50, -50, -60, -60, -72, -72, -85, -85, -85, -100, -100, -100, -110, -110, -125, -125, -135, -135]),
    ("f", [-6, -6, -10, -10, -13, -13, -16, -16, -20, -20, -20, -25, -25, -30, -30, -36, -36, -43, -43, -43, -50, -50, -50, -56, -56, -62, -62, -68, -68]),
    ("g", [-2, -2, -4, -4, -5, -5, -6, -6, -7, -7, -7, -9, -9, -10, -10, -12, -12, -14, -14, -14, -15, -15, -15, -17, -17, -18, -18, -20, -20]),
    ("h", [0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0]),
    ("k", [0, 0, 1, 1, 1, 1, 1, 1, 2, 2, 2, 2, 2, 2, 2, 3, 3, 3, 3, 3, 4, 4, 4, 4, 4, 4, 4, 5, 5]),
    ("m", [2, 2, 4, 4, 6, 6, 7, 7, 8, 8, 8, 9, 9, 11, 11, 13, 13, 15, 15, 15, 17, 17, 17, 20, 20, 21, 21, 23, 23]),
    ("n", [4, 4, 8, 8, 10, 10, 12, 12, 15, 15, 15, 17, 17, 20, 20, 23, 23, 27, 27, 27, 31, 31, 31, 34, 34, 37, 37, 40, 40]),
    ("p", [6, 6, 12, 12, 15, 15, 18, 18, 22, 22, 22, 26, 26, 32, 32, 37, 37, 43, 43, 43, 50, 50, 50, 56, 56, 62, 62, 68, 68]),
    ("s", [14, 14, 19, 19, 23, 23, 28, 28, 35, 35, 35, 43, 43, 53, 59, 71, 79, 92, 100, 108, 122, 130, 140, 158, 170, 190, 208, 232, 252]),
    ("u", [18, 18, 23, 23, 28, 28, 33, 33, 41, 48, 48, 60, 70, 87, 102, 124, 144, 170, 190, 210, 236, 258, 284, 315, 350, 390, 435, 490, 540]),
];
/// The width of grades 5 to 11 by the same.
#[rustfmt::skip]
const GRADES: &[(u8, [i64; 29])] = &[
    (5, [4, 4, 5, 5, 6, 6, 8, 8, 9, 9, 9, 11, 11, 13, 13, 15, 15, 18, 18, 18, 20, 20, 20, 23, 23, 25, 25, 27, 27]),
    (6, [6, 6, 8, 8, 9, 9, 11, 11, 13, 13, 13, 16, 16, 19, 19, 22, 22, 25, 25, 25, 29, 29, 29, 32, 32, 36, 36, 40, 40]),
    (7, [10, 10, 12, 12, 15, 15, 18, 18, 21, 21, 21, 25, 25, 30, 30, 35, 35, 40, 40, 40, 46, 46, 46, 52, 52, 57, 57, 63, 63]),
    (8, [14, 14, 18, 18, 22, 22, 27, 27, 33, 33, 33, 39, 39, 46, 46, 54, 54, 63, 63, 63, 72, 72, 72, 81, 81, 89, 89, 97, 97]),
    (9, [25, 25, 30, 30, 36, 36, 43, 43, 52, 52, 52, 62, 62, 74, 74, 87, 87, 100, 100, 100, 115, 115, 115, 130, 130, 140, 140, 155, 155]),
    (10, [40, 40, 48, 48, 58, 58, 70, 70, 84, 84, 84, 100, 100, 120, 120, 140, 140, 160, 160, 160, 185, 185, 185, 210, 210, 230, 230, 250, 250]),
    (11, [60, 60, 75, 75, 90, 90, 110, 110, 130, 130, 130, 160, 160, 190, 190, 220, 220, 250, 250, 250, 290, 290, 290, 320, 320, 360, 360, 400, 400]),
];

#[test]
fn shafts_by_the_library() {
    for (letter, starts) in SHAFTS {
        for (size, start) in SIZES.iter().zip(starts) {
            let class = Class::parse(&format!("{letter}6")).unwrap();
            let ours = zone(class, Ratio::of(*size, 10)).unwrap();
            let ours = if *letter <= "h" { ours.high_mm } else { ours.low_mm };
            assert_eq!(um(ours), Ratio::whole(*start), "{LIBRARY}: {letter} at {size}/10 mm");
        }
    }
}

#[test]
fn grades_by_the_library() {
    for (grade, widths) in GRADES {
        for (size, width) in SIZES.iter().zip(widths) {
            let ours = grade_tenths_um(*grade, Ratio::of(*size, 10)).unwrap();
            assert_eq!(i64::from(ours), width * 10, "{LIBRARY}: grade {grade} at {size}/10 mm");
        }
    }
    let source = "ISO 286-1 Table 1, two public transcriptions: grades 1 to 18 at 50 to 80 mm";
    let printed = [
        20, 30, 50, 80, 130, 190, 300, 460, 740, 1200, 1900, 3000, 4600, 7400, 12_000, 19_000,
        30_000, 46_000,
    ];
    for (grade, width) in (1..=18).zip(printed) {
        assert_eq!(grade_tenths_um(grade, Ratio::whole(63)).unwrap(), width, "{source}: {grade}");
    }
}

/// Holes that don't start at zero, upper and lower deviation in micrometres.
#[test]
fn other_holes() {
    let memory = "ISO 286-2 tables, from memory";
    #[rustfmt::skip]
    let rows: &[(&str, i64, i64, i64, &str)] = &[
        ("K7",  25,   6,  -15, memory), ("N7",  25,  -7,  -28, memory),
        ("P7",  25, -14,  -35, memory), ("M7",  25,   0,  -21, memory),
        ("S7",  25, -27,  -48, memory), ("F8",  25,  53,   20, memory),
        ("K6",  50,   3,  -13, memory), ("N9",  50,   0,  -62, memory),
        ("M6", 280,  -9,  -41, memory), ("P9",  25, -22,  -74, memory),
        ("K7",   3,   0,  -10, memory), ("N9",   3,  -4,  -29, memory),
        ("J7",  25,  12,   -9, memory), ("G7",  25,  28,    7, memory),
        ("D10", 25, 149,   65, memory), ("U7",  25, -40,  -61, memory),
    ];
    for (code, size, high, low, source) in rows {
        let ours = zone(Class::parse(code).unwrap(), Ratio::whole(*size)).unwrap();
        let ours = (um(ours.high_mm), um(ours.low_mm));
        assert_eq!(ours, (Ratio::whole(*high), Ratio::whole(*low)), "{source}: {code} {size} mm");
    }
}

#[test]
fn half_each_way() {
    let js = zone(Class::parse("js6").unwrap(), Ratio::whole(10)).unwrap();
    assert_eq!(js.high_mm, Ratio::of(45, 10_000), "ISO 286: js is half the grade each way");
    assert_eq!(js.low_mm, js.high_mm.neg(), "ISO 286: js is half the grade each way");
}

#[test]
fn the_kind_changes_with_the_size() {
    let source =
        "H7/p6 is a transition fit at 3 mm and an interference fit at 50 mm, by PyPI pressfit";
    assert_eq!(fit("H7/p6", Ratio::whole(3)).unwrap().kind, FitKind::Transition, "{source}");
    assert_eq!(fit("H7/p6", Ratio::whole(50)).unwrap().kind, FitKind::Interference, "{source}");
    assert_eq!(fit("H7/g6", Ratio::whole(50)).unwrap().kind, FitKind::Clearance, "{source}");
}
