//! Whatever is entered, there is an answer or a reason: no panic, no number that is none.

use latheside_core::operation::{Operation, kind};
use latheside_core::record::{Entry, Node, Shape};
use latheside_core::setup::{answers, read_file};
use latheside_core::shop::Shop;
use proptest::prelude::*;

const SHOPS: [&str; 3] = [
    r#"{"name": "bare"}"#,
    r#"{"name": "metric", "lathe": {"spindle_speeds": [45, 900], "dials": {
        "cross": {"division": "0.02 mm", "divisions": 125, "reads": "diameter", "backlash": "3 mm", "grows": "outwards"},
        "compound": {"division": "0.05 mm"}, "carriage": {"division": "0.1 mm", "divisions": 180}}},
        "indicators": [{"division": "0.01 mm", "travel": "10 mm"}], "drills": ["2 mm", "6.8 mm", "9 mm"],
        "cutters": [{"name": "a", "kind": "countersink", "diameter": "20 mm", "angle": "90 deg"}, {"name": "b"}]}"#,
    r#"{"name": "inch", "lathe": {"spindle_speeds": [100000], "dials": {
        "cross": {"division": "1 thou", "divisions": 100}, "tailstock": {"division": "0.000001 in", "divisions": 9999}}},
        "indicators": [{"division": "0.5 thou", "travel": "0.000001 in"}], "drills": ["1000000 mm", "0.000001 mm"]}"#,
];

#[rustfmt::skip]
const LENGTHS: [&str; 10] = [
    "0.000001 mm", "1000000 mm", "25 mm", "12 mm", "9.9 mm", "3/8 in", "5 thou", "0.000001 in", "10 mm", "2 mm",
];
#[rustfmt::skip]
const TEXTS: [&str; 14] = [
    "M8", "3/8 BSF", "2 BA", "1/4-20 UNC", "Tr 16x4", "M1000x6", "H7/g6", "presses in", "MT2", "7/24 no. 40", "10 mm H7", "a", "b", "\u{e9}",
];
const ANGLES: [&str; 4] = ["0 deg", "179 deg 59 min", "0.000001 deg", "60 deg"];
const RATIOS: [&str; 4] = ["1/20", "1000000", "1/1000000", "7/24"];

fn pick<'a>(list: &[&'a str], at: usize) -> &'a str {
    list[at % list.len()]
}

/// Something for a field of this shape.
fn some(shape: &Shape, at: usize) -> &'static str {
    use latheside_core::quantity::Measure;
    match shape {
        Shape::Quantity(Measure::Angle, _) => pick(&ANGLES, at),
        Shape::Quantity(Measure::Ratio, _) => pick(&RATIOS, at),
        Shape::Quantity(..) => pick(&LENGTHS, at),
        Shape::Choice(choices) => choices[at % choices.len()].id,
        _ => pick(&TEXTS, at),
    }
}

fn finite(node: &Node) -> bool {
    match node {
        Node::Float(x) => x.is_finite(),
        Node::List(items) => items.iter().all(finite),
        Node::Object(pairs) => pairs.iter().all(|(_, item)| finite(item)),
        _ => true,
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1500))]
    #[test]
    fn something_is_said(
        name in prop::sample::select(vec!["size", "fit", "taper", "hole", "part-off"]),
        shop in prop::sample::select(SHOPS.to_vec()),
        entries in prop::collection::vec(prop::option::weighted(0.6, 0usize..1000), 16),
    ) {
        let file = format!(r#"{{"format": "latheside-setup", "version": 1, "name": "", "shop": {shop}, "operations": []}}"#);
        let mut setup = read_file(&file).unwrap();
        let mut operation = Operation::new(kind(name).unwrap());
        for (field, at) in operation.kind.spec.fields.iter().zip(&entries) {
            if let Some(at) = at {
                let text = some(&field.shape, *at);
                operation.enter(field.key, Entry { text, unit: None }).unwrap();
            }
        }
        let answer = operation.answer(&Shop::new(setup.shop.clone()));
        prop_assert!(answer.found.is_some() != answer.refused.is_some());
        if let Some(found) = &answer.found {
            let card = found.card();
            prop_assert!(!card.lines.is_empty() && card.others.len() <= 40);
            let steps = found.steps();
            for at in 0..steps.len() {
                let step = steps.get(at).unwrap();
                prop_assert!(!step.title.is_empty() && !step.done.is_empty() && !step.say.is_empty());
                for say in &step.say {
                    let stars = say.matches('*').count();
                    prop_assert!(stars % 2 == 0 && !say.contains("**"), "{say}");
                }
            }
        }
        setup.operations.push(operation);
        prop_assert!(finite(&answers(&setup)));
    }
}
