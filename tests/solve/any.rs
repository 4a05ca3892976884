//! Whatever is entered, at its least and its most, there is an answer or a reason: no panic, no number that
//! is none, and every step can be shown.

use latheside_core::operation::{KINDS, Operation};
use latheside_core::quantity::Measure;
use latheside_core::record::{Bound, Entry, Shape};
use latheside_core::setup::read_file;
use latheside_core::shop::Shop;
use latheside_tests::sound::answered;
use proptest::prelude::*;

const SHOPS: [&str; 7] = [
    r#"{"name": "bare"}"#,
    r#"{"name": "metric", "lathe": {"spindle_speeds": [45, 900], "dials": {
        "cross": {"division": "0.02 mm", "divisions": 125, "reads": "diameter", "backlash": "3 mm", "grows": "outwards"},
        "compound": {"reads": "radius", "division": "0.05 mm"}, "carriage": {"division": "0.1 mm", "divisions": 180}}},
        "indicators": [{"division": "0.01 mm", "travel": "10 mm"}], "drills": ["2 mm", "6.8 mm", "9 mm"],
        "cutters": [{"name": "a", "kind": "countersink", "diameter": "20 mm", "angle": "90 deg"}, {"name": "b"}]}"#,
    r#"{"name": "inch", "lathe": {"spindle_speeds": [100000], "dials": {
        "cross": {"reads": "radius", "division": "1 thou", "divisions": 100}, "tailstock": {"division": "0.000001 in", "divisions": 9999}}},
        "indicators": [{"division": "0.5 thou", "travel": "0.000001 in"}], "drills": ["1000000 mm", "0.000001 mm"]}"#,
    r#"{"name": "gear", "dividing": {"direct": [60, 24], "half_tooth": true},
        "cutters": [{"name": "a", "kind": "end-mill", "diameter": "3 mm"}, {"name": "b", "kind": "engraver", "angle": "60 deg"}],
        "holding": [{"name": "a", "kind": "chuck", "run_out": "0.1 mm"}, {"name": "b"}]}"#,
    r#"{"name": "head", "lathe": {"dials": {"cross": {"division": "1 thou", "divisions": 100, "reads": "diameter"},
        "carriage": {"division": "0.000001 in", "divisions": 9999}}},
        "dividing": {"head": {"worm_ratio": 40, "plates": [[15, 16, 17], [21, 23, 27]], "gears": [24, 40, 56, 64, 72, 86]}},
        "holding": [{"name": "a", "kind": "collet", "run_out": "1000000 mm"}]}"#,
    r#"{"name": "odd", "dividing": {"direct": [1], "head": {"worm_ratio": 1, "plates": [[2]], "gears": [1, 999], "pairs_max": 1}},
        "cutters": [{"name": "a", "kind": "engraver", "angle": "180 deg"}, {"name": "b", "width": "1000000 mm", "teeth": 1}]}"#,
    // A star marks a figure in what is told: not where it is part of a name.
    r#"{"name": "*", "lathe": {"spindle_speeds": [{"rpm": 45, "how": "low*"}, {"rpm": 900, "how": "*"}],
        "leadscrew": "2 mm", "change_gears": [20, 40], "gearbox": [{"ratio": "2/1", "how": "*"}, {"ratio": "1/2", "how": " "}]},
        "cutters": [{"name": "*", "kind": "drill", "diameter": "9 mm"}, {"name": "c*d", "kind": "end-mill", "diameter": "3 mm", "teeth": 2}],
        "holding": [{"name": "c*d", "kind": "chuck", "rpm_max": 500}]}"#,
];

#[rustfmt::skip]
const LENGTHS: [&str; 12] = [
    "0.000001 mm", "1000000 mm", "25 mm", "12 mm", "9.9 mm", "3/8 in", "5 thou", "0.000001 in", "10 mm", "2 mm",
    "0.02 mm", "2.5 thou",
];
const LEADS: [&str; 5] = ["8 tpi", "2 mm", "0.000001 mm", "1000000 mm", "3/8 in"];
#[rustfmt::skip]
const TEXTS: [&str; 16] = [
    "M8", "3/8 BSF", "2 BA", "1/4-20 UNC", "Tr 16x4", "M1000x6", "H7/g6", "presses in", "MT2", "7/24 no. 40", "10 mm H7", "a", "b", "c*d", "*", "\u{e9}",
];
const ANGLES: [&str; 5] = ["0 deg", "179 deg 59 min", "0.000001 deg", "60 deg", "361 deg"];
const LISTS_OF_ANGLES: [&str; 4] =
    ["0 deg, 17 deg 30 min, 52 deg 20 min", "360 deg", "0.000001 deg, 90 deg", "361 deg"];
const RATIOS: [&str; 4] = ["1/20", "1000000", "1/1000000", "7/24"];
const COUNTS: [&str; 8] = ["2", "3", "6", "10", "53", "97", "99", "127"];

/// Something that a field of this shape takes.
fn some(shape: &Shape, at: usize) -> &'static str {
    let pick = |list: &[&'static str]| list[at % list.len()];
    match shape {
        // The first is nothing.
        Shape::Quantity(Measure::Angle, Bound::Positive) => pick(&ANGLES[1..]),
        Shape::Quantity(Measure::Angle, _) => pick(&ANGLES),
        Shape::Quantity(Measure::Ratio, _) => pick(&RATIOS),
        Shape::Quantity(Measure::Lead, _) => pick(&LEADS),
        Shape::Quantity(..) => pick(&LENGTHS),
        Shape::Count(least, most) => {
            let fits = |text: &&str| (*least..=*most).contains(&text.parse().unwrap());
            pick(&COUNTS.into_iter().filter(fits).collect::<Vec<_>>())
        }
        Shape::Choice(choices) => choices[at % choices.len()].id,
        Shape::Flag => pick(&["yes", "no"]),
        Shape::List(Shape::Quantity(Measure::Angle, _), ..) => pick(&LISTS_OF_ANGLES),
        Shape::Pair(_) => pick(&["20, 127", "53, 53"]),
        Shape::List(one, ..) => some(one, at),
        _ => pick(&TEXTS),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(6000))]
    #[test]
    fn something_is_said(
        kind in prop::sample::select(KINDS.to_vec()),
        shop in prop::sample::select(SHOPS.to_vec()),
        entries in prop::collection::vec(prop::option::weighted(0.6, 0usize..1000), 19),
    ) {
        let file = format!(r#"{{"format": "latheside-setup", "version": 1, "name": "", "shop": {shop}, "operations": []}}"#);
        let mut setup = read_file(&file).unwrap();
        let mut operation = Operation::new(kind);
        for (field, at) in operation.kind.spec.fields.iter().zip(&entries) {
            if let Some(at) = at {
                let entry = Entry { text: some(&field.shape, *at), unit: None };
                let taken = operation.enter(field.key, entry);
                prop_assert!(taken.is_ok(), "{name} {}: {taken:?}", field.key, name = kind.name);
            }
        }
        if !operation.takes_long() {
            let answer = operation.answer(&Shop::new(setup.shop.clone()));
            prop_assert!(answer.found.is_some() != answer.refused.is_some());
            if let Some(card) = answer.found.as_ref().map(|found| found.card()) {
                // Angles of one's own in a bare shop have no move to show, and what no thread is has none
                // to name.
                let verdict_alone =
                    ["divide", "which-thread"].contains(&kind.name) && card.verdict.is_some();
                prop_assert!(!card.lines.is_empty() || verdict_alone, "{}", kind.name);
            }
        }
        setup.operations.push(operation);
        answered(&setup);
    }
}
