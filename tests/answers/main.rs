//! Any operation in any shop: an answer that can be read, or a refusal; never a fall.

use latheside_core::operation::{Answer, FACTS_IN_SIGHT, KINDS, Operation, Span};
use latheside_core::record::Node;
use latheside_core::setup::{Setup, answers, read_file, read_node};
use latheside_core::shop::{Shop, contradictions};
use latheside_tests::forms;
use latheside_tests::solved::items;
use proptest::prelude::*;
use proptest::sample::Index;

/// Nothing in it but what JSON can say: no number that is none, and no null but the circle of whole
/// turns, where no hole is counted, and a row of a chart for which there is no train or way.
fn whole(node: &Node, path: &str) -> Result<(), TestCaseError> {
    match node {
        Node::Null if [".circle", "].train", "].way"].iter().any(|end| path.ends_with(end)) => {}
        Node::Null => return Err(TestCaseError::fail(format!("{path} is null"))),
        Node::Float(x) => prop_assert!(x.is_finite(), "{path} is {x}"),
        Node::List(items) => {
            for (at, item) in items.iter().enumerate() {
                whole(item, &format!("{path}[{at}]"))?;
            }
        }
        Node::Object(pairs) => {
            for (at, (key, node)) in pairs.iter().enumerate() {
                prop_assert!(
                    !pairs[..at].iter().any(|(k, _)| k == key),
                    "{path}.{key} stands twice"
                );
                whole(node, &format!("{path}.{key}"))?;
            }
        }
        Node::Flag(_) | Node::Whole(_) | Node::Text(_) => {}
    }
    Ok(())
}

/// Figures and words that somebody reads: none empty, none that a float has spoilt.
fn readable(text: &str, of: &str) -> Result<(), TestCaseError> {
    prop_assert!(!text.trim().is_empty(), "{of} is empty");
    for bad in ["NaN", "inf ", "-inf", "None", "Some("] {
        prop_assert!(!text.contains(bad), "{of}: {text}");
    }
    Ok(())
}

fn screen(answer: &Answer) -> Result<(), TestCaseError> {
    let Some(found) = &answer.found else {
        return match &answer.refused {
            Some(why) => readable(why, "a refusal"),
            None => {
                prop_assert!(!answer.lacking.is_empty(), "no answer, no refusal, nothing lacking");
                Ok(())
            }
        };
    };
    let card = found.card();
    for span in card.lines.iter().flatten() {
        let (Span::Figure(text) | Span::Word(text)) = span;
        prop_assert!(!text.is_empty());
    }
    for fact in &card.facts {
        readable(&fact.label, "a label")?;
        readable(&fact.value, &fact.label)?;
    }
    let (seen, folded) = card.in_sight();
    prop_assert!(seen.len() <= FACTS_IN_SIGHT && seen.len() + folded.len() == card.facts.len());
    prop_assert!(card.others.len() <= 40, "{} other ways", card.others.len());
    for why in &answer.why {
        readable(&why.formula, "a formula")?;
        readable(&why.values, &why.formula)?;
        readable(&why.source, &why.formula)?;
    }
    let steps = found.steps();
    prop_assert!(steps.get(steps.len()).is_none());
    for at in 0..steps.len() {
        let Some(step) = steps.get(at) else {
            return Err(TestCaseError::fail(format!("step {at} of {} is not there", steps.len())));
        };
        readable(&step.title, "a title")?;
        readable(step.done, "a button")?;
        prop_assert!(
            step.figure.is_empty() || !step.label.is_empty(),
            "{}: a bare figure",
            step.title
        );
        for say in &step.say {
            readable(say, &step.title)?;
        }
    }
    Ok(())
}

/// Work that takes longer than so many moments isn't waited for.
const MOMENTS: usize = 300;

/// Takes out of a setup what takes long; what it comes to so far is looked at.
fn begun(mut setup: Setup) -> Result<Setup, TestCaseError> {
    let shop = Shop::new(setup.shop.clone());
    let mut result = Ok(());
    setup.operations.retain(|operation| match operation.begin(&shop) {
        Some(Ok(mut work)) if result.is_ok() => {
            let finished = (0..MOMENTS).any(|_| work.go_on().finished());
            let answer = work.so_far();
            if answer.found.is_some() || answer.refused.is_some() {
                result = screen(&answer);
            }
            finished
        }
        _ => true,
    });
    result.map(|()| setup)
}

fn sound(setup: &Setup) -> Result<(), TestCaseError> {
    let setup = &begun(setup.clone())?;
    let shop = Shop::new(setup.shop.clone());
    for (path, why) in contradictions(&shop) {
        prop_assert!(!path.is_empty() && !why.is_empty());
    }
    let all = answers(setup);
    whole(&all, "answers")?;
    let written = serde_json::to_string(&all).unwrap();
    let again: Node = serde_json::from_str(&written).unwrap();
    let listed = items(again.get("answers").unwrap_or(&Node::Null));
    prop_assert_eq!(listed.len(), setup.operations.len());
    for (operation, node) in setup.operations.iter().zip(listed) {
        prop_assert_eq!(node.get("kind").and_then(Node::as_text), Some(operation.kind.name));
        let answer = operation.answer(&shop);
        screen(&answer)
            .map_err(|why| TestCaseError::fail(format!("{}: {why}", operation.kind.name)))?;
        for lacking in &answer.lacking {
            let known =
                lacking.needs.starts_with("shop.") || lacking.needs.starts_with("operation.");
            prop_assert!(known && !lacking.key.is_empty(), "{lacking:?}");
        }
        blanks(operation, &shop)?;
    }
    Ok(())
}

fn blanks(operation: &Operation, shop: &Shop) -> Result<(), TestCaseError> {
    let _ = operation.sentence();
    for field in operation.kind.spec.fields {
        for typed in ["", "M", "1/4", "ü", "\u{1f529}"] {
            for one in operation.suggest(field.key, typed, shop) {
                prop_assert!(!one.is_empty());
            }
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(160))]

    #[test]
    fn any_operations_in_any_shop(file in forms::setup(4)) {
        sound(&read_node(&file).unwrap())?;
    }
}

/// Setups that come to something, to be spoilt.
const ORDINARY: [&str; 4] = [
    include_str!("../links/example.json"),
    include_str!("../links/inch.json"),
    include_str!("../links/common.json"),
    include_str!("../links/format.json"),
];

proptest! {
    #![proptest_config(ProptestConfig::with_cases(160))]

    /// An ordinary shop with an entry or two changed, and any one operation.
    #[test]
    fn an_ordinary_shop_and_any_operation(
        file in 0..ORDINARY.len(), kind in 0..KINDS.len(), any_shop in forms::record(&latheside_core::shop::SHOP, 8),
        changed in prop::collection::vec(any::<Index>(), 0..3), seed in prop::collection::vec(forms::operation(), 1..3),
        filled in (0..KINDS.len()).prop_flat_map(|kind| forms::operation_of(KINDS[kind])),
    ) {
        let mut setup = read_file(ORDINARY[file]).unwrap();
        let other = read_node(&forms::file(Node::from(""), Node::from(""), any_shop, seed)).unwrap();
        let one = read_node(&forms::file(Node::from(""), Node::from(""), Node::Object(Vec::new()), vec![filled])).unwrap();
        setup.operations.retain(|operation| operation.kind == KINDS[kind]);
        // An ordinary operation of the kind with an entry of another.
        for operation in &mut setup.operations {
            for other in other.operations.iter().filter(|other| other.kind == operation.kind) {
                for at in &changed {
                    let field = &operation.kind.spec.fields[at.index(operation.kind.spec.fields.len())];
                    operation.entries.set(field.key, other.entries.get(field.key).cloned());
                }
            }
        }
        setup.operations.extend(one.operations);
        for (path, spec) in [("lathe", 16), ("lathe.dials.cross", 5), ("dividing", 4), ("dividing.head", 6)] {
            if let (Some(at), Some(from)) = (changed.first(), other.shop.at(path)) {
                setup.shop.change(path, |record| {
                    let field = &record.spec().fields[at.index(spec.min(record.spec().fields.len()))];
                    record.set(field.key, from.get(field.key).cloned());
                });
            }
        }
        sound(&setup)?;
    }
}

#[test]
fn what_is_ordinary_is_answered() {
    for file in ORDINARY {
        let setup = read_file(file).unwrap();
        let shop = Shop::new(setup.shop.clone());
        for (at, operation) in setup.operations.iter().enumerate() {
            let answer = operation.answer(&shop);
            let name = format!("{}, operation {at}, {}", setup.name, operation.kind.name);
            assert!(answer.found.is_some(), "{name}: {:?}", answer.refused);
        }
        sound(&setup).unwrap_or_else(|why| panic!("{}: {why}", setup.name));
    }
}

/// As much as the limits allow: every size from 20 teeth up, a hundred levers, three pairs.
#[test]
fn the_largest_shop_is_answered() {
    let list = |items: &mut dyn Iterator<Item = String>| items.collect::<Vec<_>>().join(", ");
    let gears = list(&mut (20..120).map(|n| n.to_string()));
    let levers = list(&mut (0..100).map(|n| format!("\"{}/{}\"", 101 + 2 * n, 150 - n)));
    let speeds = list(&mut (1..=100).map(|n| (n * 20).to_string()));
    let plates = list(
        &mut (0..20)
            .map(|at| format!("[{}]", list(&mut (0..30).map(|n| (15 + at * 30 + n).to_string())))),
    );
    let lengths = list(&mut (1..=300).map(|n| format!("\"0.{n:03} in\"")));
    let mountings = [
        r#""stud_clearance_teeth": 15, "centres_teeth": [60, 180]"#,
        r#""banjo": {"module": "1 mm", "centres": "120 mm", "slot": ["40 mm", "90 mm"], "boss_radius": "9 mm"}"#,
        r#""stud_clearance_teeth": 0"#,
    ];
    let operations = r#"
        {"kind": "thread", "lead": "1.234567 mm", "length": "500 mm", "hand": "left", "diameter": "30 mm"},
        {"kind": "thread", "lead": "2.5 pi mm", "starts": 7},
        {"kind": "divide", "into": 9973, "diameter": "300 mm"},
        {"kind": "divide", "into": 9999}, {"kind": "divide", "into": 127},
        {"kind": "graduate", "lead": "11 1/2 tpi", "least_count": "0.001 in", "diameter": "60 mm"},
        {"kind": "cut", "process": "turn", "stock": "mild-steel", "diameter": "20 mm"},
        {"kind": "size", "from": "100 mm", "to": "10 mm", "length": "50 mm", "process": "turn", "stock": "brass"},
        {"kind": "taper", "ratio": "1/20", "large": "20 mm", "length": "100 mm"}"#;
    for (at, mounting) in mountings.into_iter().enumerate() {
        let file = format!(
            r#"{{"format": "latheside-setup", "version": 1, "shop": {{
                "lathe": {{"leadscrew": "3.175 mm", "leadscrew_hand": "right", "tumbler": true, "pairs_max": 3, {mounting},
                    "change_gears": [{gears}], "gearbox": [{levers}], "spindle_speeds": [{speeds}],
                    "dials": {{"cross": {{"division": "0.01 mm", "divisions": 200}}}}}},
                "dividing": {{"direct": [{gears}], "any_change_gear": true, "half_tooth": true,
                    "head": {{"worm_ratio": 90, "plates": [{plates}], "gears": [{gears}], "pairs_max": 2}}}},
                "drills": [{lengths}]}}, "operations": [{operations}]}}"#
        );
        let setup = read_file(&file).unwrap();
        let shop = Shop::new(setup.shop.clone());
        for operation in &setup.operations {
            let answer = operation.answer(&shop);
            assert!(answer.found.is_some(), "{}: {:?}", operation.kind.name, answer.refused);
        }
        if at == 0 {
            sound(&setup).unwrap();
        }
    }
}
