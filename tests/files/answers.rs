//! Any operation in any shop: an answer that can be read, or a refusal; never a fall.

use latheside_core::operation::KINDS;
use latheside_core::record::Node;
use latheside_core::setup::{read_file, read_node};
use latheside_core::shop::{SHOP, Shop};
use latheside_tests::forms;
use latheside_tests::sound::sound;
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(160))]

    #[test]
    fn any_operations_in_any_shop(file in forms::setup(4)) {
        sound(&read_node(&file).unwrap());
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(160))]

    /// An ordinary shop with an entry or two changed, and any one operation.
    #[test]
    fn an_ordinary_shop_and_any_operation(file in forms::spoilt()) {
        sound(&read_node(&file).unwrap());
    }
}

#[test]
fn what_is_ordinary_is_answered() {
    for file in forms::ORDINARY {
        let setup = read_file(file).unwrap();
        let shop = Shop::new(setup.shop.clone());
        for (at, operation) in setup.operations.iter().enumerate() {
            let answer = operation.answer(&shop);
            let name = format!("{}, operation {at}, {}", setup.name, operation.kind.name);
            assert!(answer.found.is_some(), "{name}: {:?}", answer.refused);
        }
        sound(&setup);
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
                    "dials": {{"cross": {{"reads": "radius", "division": "0.01 mm", "divisions": 200}}}}}},
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
            sound(&setup);
        }
    }
}

/// Everything at its least and at its most, in a shop at its least and its most, and in ordinary ones.
#[test]
fn every_entry_at_its_edge_is_answered_or_refused() {
    let whole = |shop: &Node, operation| {
        let name = Node::from("edge");
        let file = forms::file(name, Node::from(""), shop.clone(), vec![operation]);
        read_node(&file).unwrap_or_else(|why| panic!("{why}: {file:?}"))
    };
    let mut shops = vec![forms::at_the_edge(&SHOP, false), forms::at_the_edge(&SHOP, true)];
    for ordinary in &forms::ORDINARY[..2] {
        let node: Node = serde_json::from_str(ordinary).unwrap();
        shops.push(node.get("shop").unwrap().clone());
    }
    let mut next = 0;
    for kind in KINDS {
        let filled = |most| match forms::at_the_edge(kind.spec, most) {
            Node::Object(pairs) => pairs,
            other => panic!("{other:?}"),
        };
        let mut works = Vec::new();
        for most in [false, true] {
            works.push(filled(most));
            // One entry alone at the other edge: where both can't be, one is refused.
            for (at, other) in filled(!most).into_iter().enumerate() {
                let mut mixed = filled(most);
                mixed[at] = other;
                works.push(mixed);
            }
        }
        for mut pairs in works {
            pairs.push(("kind".to_owned(), Node::from(kind.name)));
            // The shops take turns, so that each kind comes into all of them.
            next += 1;
            sound(&whole(&shops[next % shops.len()], Node::Object(pairs)));
        }
    }
}

#[test]
fn more_than_there_is_room_for_is_refused_at_the_door() {
    let refused = |shop: &str, operation: &str| {
        let file = latheside_tests::solved::file(shop, operation);
        read_file(&file).unwrap_err().to_string()
    };
    let gears = |many: u32, teeth: u32| {
        let list = vec![teeth.to_string(); many as usize].join(",");
        format!("{{\"lathe\": {{\"change_gears\": [{list}]}}}}")
    };
    for (shop, operation, sentence) in [
        (gears(400, 40), "", "shop.lathe.change_gears: 400 gears: at most 100"),
        (gears(101, 40), "", "shop.lathe.change_gears: 101 gears: at most 100"),
        (gears(1, 1000), "", "shop.lathe.change_gears[0]: 1000 is outside 1 to 999"),
        (gears(1, 0), "", "shop.lathe.change_gears[0]: 0 is outside 1 to 999"),
        (
            "{}".to_owned(),
            r#"{"kind": "size", "from": "1000000000000000000 mm"}"#,
            "operations[0].from: “1000000000000000000” has too many figures: write it with 18 at most",
        ),
        (
            "{}".to_owned(),
            r#"{"kind": "size", "from": "1/1000000000000000000 mm"}"#,
            "operations[0].from: “1000000000000000000” has too many figures: write it with 18 at most",
        ),
        (
            "{}".to_owned(),
            r#"{"kind": "size", "from": "170141183460469231731687303715884105728 mm"}"#,
            "operations[0].from: “170141183460469231731687303715884105728” has too many figures: write it with 18 at most",
        ),
    ] {
        assert_eq!(refused(&shop, operation), sentence);
    }
    let whole = r#"{"kind": "divide", "into": 9223372036854775807}"#;
    let why = refused("{}", whole);
    assert!(why.starts_with("operations[0].into: 9223372036854775807 is outside"), "{why}");
}
