//! Whatever is entered for a circle, there is an answer or a reason, and every step can be shown.

use latheside_core::operation::{Operation, kind};
use latheside_core::record::{Entry, Node, Shape};
use latheside_core::setup::{answers, read_file};
use latheside_core::shop::Shop;
use proptest::prelude::*;

const SHOPS: [&str; 4] = [
    r#"{"name": "bare"}"#,
    r#"{"name": "gear", "dividing": {"direct": [60, 24], "half_tooth": true},
        "cutters": [{"name": "a", "kind": "end-mill", "diameter": "3 mm"}, {"name": "b", "kind": "engraver", "angle": "60 deg"}],
        "holding": [{"name": "a", "kind": "chuck", "run_out": "0.1 mm"}, {"name": "b"}]}"#,
    r#"{"name": "head", "lathe": {"dials": {"cross": {"division": "1 thou", "divisions": 100, "reads": "diameter"},
        "carriage": {"division": "0.000001 in", "divisions": 9999}}},
        "dividing": {"head": {"worm_ratio": 40, "plates": [[15, 16, 17], [21, 23, 27]], "gears": [24, 40, 56, 64, 72, 86]}},
        "holding": [{"name": "a", "kind": "collet", "run_out": "1000000 mm"}]}"#,
    r#"{"name": "odd", "dividing": {"direct": [1], "head": {"worm_ratio": 1, "plates": [[2]], "gears": [1, 999], "pairs_max": 1}},
        "cutters": [{"name": "a", "kind": "engraver", "angle": "180 deg"}, {"name": "b", "width": "1000000 mm", "teeth": 1}]}"#,
];
#[rustfmt::skip]
const LENGTHS: [&str; 10] = [
    "0.000001 mm", "1000000 mm", "25 mm", "12 mm", "0.02 mm", "3/8 in", "5 thou", "0.000001 in", "8 tpi", "2.5 thou",
];
const ANGLES: [&str; 4] =
    ["0 deg, 17 deg 30 min, 52 deg 20 min", "360 deg", "0.000001 deg, 90 deg", "361 deg"];
const COUNTS: [&str; 8] = ["2", "3", "6", "10", "53", "97", "99", "127"];

fn some(shape: &Shape, at: usize) -> Option<&'static str> {
    Some(match shape {
        // A length is no lead: what isn't taken is left out.
        Shape::Quantity(..) => LENGTHS[at % LENGTHS.len()],
        Shape::Choice(choices) => choices[at % choices.len()].id,
        Shape::Count(..) => COUNTS[at % COUNTS.len()],
        Shape::List(..) => ANGLES[at % ANGLES.len()],
        Shape::Flag => ["yes", "no"][at % 2],
        Shape::Text(_) => ["a", "b", "c"][at % 3],
        _ => return None,
    })
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
    #![proptest_config(ProptestConfig::with_cases(700))]
    #[test]
    fn something_is_said(
        name in prop::sample::select(vec!["divide", "graduate", "make-plate"]),
        shop in prop::sample::select(SHOPS.to_vec()),
        entries in prop::collection::vec(prop::option::weighted(0.6, 0usize..1000), 19),
    ) {
        let file = format!(r#"{{"format": "latheside-setup", "version": 1, "name": "", "shop": {shop}, "operations": []}}"#);
        let mut setup = read_file(&file).unwrap();
        let mut operation = Operation::new(kind(name).unwrap());
        for (field, at) in operation.kind.spec.fields.iter().zip(&entries) {
            if let Some(text) = at.and_then(|at| some(&field.shape, at)) {
                // What doesn't fit is refused, and the blank stays as it was.
                let _ = operation.enter(field.key, Entry { text, unit: None });
            }
        }
        let answer = operation.answer(&Shop::new(setup.shop.clone()));
        prop_assert!(answer.found.is_some() != answer.refused.is_some());
        if let Some(found) = &answer.found {
            let card = found.card();
            // Angles of one's own in a bare shop have no move to show.
            prop_assert!(card.others.len() <= 40 && (!card.lines.is_empty() || card.verdict.is_some()));
            let steps = found.steps();
            for at in 0..steps.len() {
                let step = steps.get(at).unwrap();
                prop_assert!(!step.title.is_empty() && !step.done.is_empty() && !step.say.is_empty());
                for say in &step.say {
                    let stars = say.matches('*').count();
                    prop_assert!(stars % 2 == 0 && !say.contains("**"), "{say}");
                }
            }
            prop_assert!(steps.get(steps.len()).is_none());
        }
        setup.operations.push(operation);
        prop_assert!(finite(&answers(&setup)));
    }
}
