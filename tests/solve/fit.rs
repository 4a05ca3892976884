//! Whole files with a fit: setup in, answers out.

use latheside_core::operation::{Operation, kind};
use latheside_core::record::Record;
use latheside_core::shop::{SHOP, Shop};
use latheside_tests::solved::{answer, near, numbers, says, text};

const LATHE: &str = r#"{"name": "a shop", "lathe": {"dials": {"cross": {"reads": "radius", "division": "0.02 mm", "divisions": 125, "grows": "inwards"}}}}"#;

fn fit(basic: &str, code: &str, more: &str) -> latheside_core::record::Node {
    let operation = format!(r#"{{"kind": "fit", "basic": "{basic}", "code": "{code}"{more}}}"#);
    answer(LATHE, &operation)
}

/// Basic size in mm, code, hole from and to, shaft from and to, slack from and to: micrometres.
type Row = (f64, &'static str, [f64; 2], [f64; 2], [f64; 2]);

#[rustfmt::skip]
const PRINTED: &[Row] = &[
    (  3.0, "H7/g6", [0.0, 10.0], [ -8.0,  -2.0], [  2.0,  18.0]),
    ( 10.0, "H7/g6", [0.0, 15.0], [-14.0,  -5.0], [  5.0,  29.0]),
    ( 30.0, "H7/g6", [0.0, 21.0], [-20.0,  -7.0], [  7.0,  41.0]),
    (100.0, "H7/g6", [0.0, 35.0], [-34.0, -12.0], [ 12.0,  69.0]),
    ( 25.0, "H7/h6", [0.0, 21.0], [-13.0,   0.0], [  0.0,  34.0]),
    ( 80.0, "H7/h6", [0.0, 30.0], [-19.0,   0.0], [  0.0,  49.0]),
    ( 18.0, "H7/p6", [0.0, 18.0], [ 18.0,  29.0], [-29.0,   0.0]),
    ( 25.0, "H7/p6", [0.0, 21.0], [ 22.0,  35.0], [-35.0,  -1.0]),
    ( 18.0, "H8/f7", [0.0, 27.0], [-34.0, -16.0], [ 16.0,  61.0]),
    ( 50.0, "H8/f7", [0.0, 39.0], [-50.0, -25.0], [ 25.0,  89.0]),
    ( 25.0, "H7/k6", [0.0, 21.0], [  2.0,  15.0], [-15.0,  19.0]),
    ( 10.0, "H7/n6", [0.0, 15.0], [ 10.0,  19.0], [-19.0,   5.0]),
];

#[test]
fn limits_as_printed() {
    let source = "ISO 286-1/-2, as an independent table-driven library of fits has them";
    for (basic, code, hole, shaft, slack) in PRINTED {
        let answer = fit(&format!("{basic} mm"), code, "");
        for (key, printed, from) in
            [("hole_mm", hole, *basic), ("shaft_mm", shaft, *basic), ("clearance_mm", slack, 0.0)]
        {
            for (ours, theirs) in numbers(&answer, key).iter().zip(printed) {
                near(*ours, from + theirs / 1000.0, 1e-9, source);
            }
        }
    }
}

#[test]
fn words_are_a_code_too() {
    let (words, code) = (fit("25 mm", "slides without shake", ""), fit("25 mm", "H7/g6", ""));
    assert_eq!(numbers(&words, "shaft_mm"), numbers(&code, "shaft_mm"));
    assert!(says(&words, "why", "H7/g6"));
    let wobbles = fit("25 mm", "wobbles", "");
    let refused = text(&wobbles, "refused");
    assert!(refused.contains("wobbles") && refused.contains("H7/g6"), "{refused}");
    assert!(text(&fit("600 mm", "H7/g6", ""), "refused").contains("500 mm"));
    let operation = Operation::new(kind("fit").unwrap());
    let empty = Shop::new(Record::empty(&SHOP));
    assert_eq!(operation.suggest("code", "slid", &empty), ["slides without shake"]);
    assert_eq!(operation.suggest("code", "h7/g", &empty), ["H7/g6"]);
}

#[test]
fn what_is_left_on_this_dial() {
    // By hand: the middle of 24.980 to 24.993 is 24.9865; 25.5 less that is 0.5135 on the diameter,
    // 0.25675 of the slide, 12.8375 lines.
    let shaft = fit("25 mm", "H7/g6", r#", "making": "shaft", "measured": "25.5 mm""#);
    assert_eq!(text(&shaft, "dial"), "13 lines, 0.16 of a line past");
    // The middle of the hole is 25.0105: 0.25525 of the slide outwards from 24.5, 12.7625 lines.
    let hole = fit("25 mm", "H7/g6", r#", "measured": "24.5 mm""#);
    assert_eq!(text(&hole, "dial"), "back 13 lines, 0.24 of a line past");
    assert!(says(&hole, "steps", "112 at the mark"), "125 lines less 13");
    let past = fit("25 mm", "H7/g6", r#", "making": "shaft", "measured": "24.9 mm""#);
    assert!(past.get("dial").is_none());
}

#[test]
fn heat_for_a_ring() {
    let cold = fit("25 mm", "shrinks on for good", "");
    assert!(says(&cold, "lacking", "operation.outer"));
    let hot = fit("25 mm", "H7/u6", r#", "outer": "mild-steel""#);
    // u6 at 25 mm is +48 to +61 µm (ISO 286-1): 61 + 25 over 25 mm × 11.5 millionths is 299 °C.
    near(latheside_tests::solved::number(&hot, "rise_c"), 299.1, 0.1, "by hand");
    assert!(says(&hot, "steps", "299 °C above the shaft"));
}

#[test]
fn what_each_part_measures_decides_its_last_cut() {
    // ISO 286: 25 H7/g6 is a shaft of 24.980 to 24.993, its middle 24.9865.
    let found = fit("25 mm", "H7/g6", r#", "shaft_measures": "25.1065 mm""#);
    // By hand: 0.12 on the diameter is 0.06 of slide, 3 lines of 0.02.
    assert!(says(&found, "steps", "Wind in to 3 lines."), "{found:?}");
    let found = fit("25 mm", "H7/g6", r#", "shaft_measures": "24.985 mm""#);
    assert!(says(&found, "steps", "It measures 24.985 mm: within its limits."), "{found:?}");
    let found = fit("25 mm", "H7/g6", r#", "shaft_measures": "24.97 mm""#);
    assert!(says(&found, "steps", "past its size"), "{found:?}");
}

#[test]
fn a_hole_gone_over_is_given_a_shaft_to_suit() {
    // By hand: H7 at 25 is 25.000 to 25.021, its middle 25.0105; the hole of 25.0505 is 0.04 over
    // that, and the shaft of 24.980 to 24.993 goes with it.
    let found = fit("25 mm", "H7/g6", r#", "hole_measures": "25.0505 mm""#);
    assert!(says(&found, "steps", "The shaft is to be 25.020 to 25.033 mm."), "{found:?}");
    assert!(says(&found, "steps", "by the hole of 25.0505 mm, for the same slack"), "{found:?}");
    // Within its limits it changes nothing.
    let found = fit("25 mm", "H7/g6", r#", "hole_measures": "25.02 mm""#);
    assert!(says(&found, "steps", "The shaft is to be 24.980 to 24.993 mm."), "{found:?}");
}

/// What is measured, and what the two come to together.
#[test]
fn slack_goes_by_what_was_made() {
    // By hand, H7/g6 at 16 (ISO 286-2: +18/0 and −6/−17): a hole of 16.02 is 0.011 over its middle, so
    // the shaft is 15.994 to 16.005, and the slack 0.015 to 0.026.
    let remade = r#", "hole_measures": "16.02 mm""#;
    let found = fit("16 mm", "H7/g6", remade);
    assert!(says(&found, "steps", "The shaft is to be 15.994 to 16.005 mm."), "{found:?}");
    assert!(says(&found, "steps", "Expect 0.015 to 0.026 mm of slack."), "{found:?}");
    for (ours, theirs) in numbers(&found, "expected_clearance_mm").iter().zip([0.015, 0.026]) {
        near(*ours, theirs, 1e-9, "by hand");
    }
    // The published slack stands, and is expected where nothing was measured.
    let source = "ISO 286-2, H7/g6 at 16 mm: 6 to 35 µm";
    for (ours, theirs) in numbers(&found, "clearance_mm").iter().zip([0.006, 0.035]) {
        near(*ours, theirs, 1e-9, source);
    }
    assert!(says(&fit("16 mm", "H7/g6", ""), "steps", "Expect 0.006 to 0.035 mm"), "{source}");
    // Both measured: one figure.
    let both = fit("16 mm", "H7/g6", &format!(r#"{remade}, "shaft_measures": "16 mm""#));
    assert!(says(&both, "steps", "Expect 0.020 mm of slack."), "{both:?}");
    // A hole within its limits: 16.010 less 15.994 and 15.983.
    let within = fit("16 mm", "H7/g6", r#", "hole_measures": "16.01 mm""#);
    assert!(says(&within, "steps", "Expect 0.016 to 0.027 mm of slack."), "{within:?}");
    // Nothing is said finer than a micrometer reads: its middle is 15.9995.
    assert!(!says(&found, "steps", "15.9995"), "to the micrometre");
}

#[test]
fn what_lies_between_two_lines_is_set_by_eye_and_said_in_one_system() {
    // By hand: from 28 to the middle of 24.980 to 24.993 are 1.50675 mm of slide, 75 lines of 0.02 mm
    // and 0.34 of a line.
    let found = fit("25 mm", "H7/g6", r#", "making": "shaft", "measured": "28 mm""#);
    assert!(says(&found, "steps", "75 lines, then about 3/8 of a line on"), "{found:?}");
    let inch = fit("25 mm", "H7/g6", r#", "shaft_measures": "1.1 in""#);
    assert!(says(&inch, "steps", "measures 27.940 mm"), "{inch:?}");
    assert!(!says(&inch, "steps", " in,"), "one system in a step");
}
