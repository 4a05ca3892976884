//! Sizes on good and on badly equipped machines: carried out without a fault, or said to be unmade and why.

use super::{KIND, answer};
use crate::operation::Answer;
use crate::record::{Node, read};
use crate::shop::{SHOP, Shop};
use alloc::format;
use alloc::string::String;

const DIALS: &str = r#""dials": {
    "cross": {"division": "0.02 mm", "divisions": 125, "reads": "radius", "grows": "inwards", "backlash": "0.4 mm"},
    "compound": {"division": "0.02 mm", "divisions": 100, "reads": "radius"},
    "carriage": {"division": "0.1 mm", "divisions": 200}}"#;
const INCH: &str = r#""dials": {"cross": {"division": "0.001 in", "divisions": 100, "reads": "diameter", "grows": "outwards"}}"#;
const SPEEDS: &str = r#""spindle_speeds": [120, 320, 800]"#;
const BAR: &str = r#""cutters": [{"name": "bar", "kind": "boring-bar", "diameter": "8 mm", "material": "hss"},
    {"name": "stout", "kind": "boring-bar", "diameter": "12 mm"}, {"name": "mill", "kind": "end-mill", "diameter": "6 mm"}]"#;

const TURN: &str = r#""process": "turn", "from": "25 mm", "to": "20 mm", "length": "30 mm", "stock": "mild-steel""#;
const BORE: &str = r#""process": "bore", "from": "10 mm", "to": "16 mm", "length": "20 mm", "stock": "mild-steel""#;
const FACE: &str = r#""process": "face", "from": "31 mm", "to": "30 mm", "diameter": "25 mm", "stock": "mild-steel""#;

fn node(text: &str) -> Node {
    serde_json::from_str(text).unwrap_or_else(|why| panic!("{text}: {why}"))
}

fn sized(shop: &str, entries: &str) -> Answer {
    let shop = Shop::new(read(&node(&format!("{{{shop}}}")), &SHOP, "", &[]).unwrap());
    let entries = read(&node(&format!("{{{entries}}}")), KIND.spec, "", &[]).unwrap();
    answer(&entries, &shop).proved(&shop)
}

fn lathe(parts: &[&str]) -> String {
    format!(r#""lathe": {{{}}}, {BAR}"#, parts.join(","))
}

fn needs(found: &Answer) -> Option<&'static str> {
    found.unmade.as_ref().map(|unmade| unmade.needs)
}

#[test]
fn every_way_is_carried_out_on_every_machine() {
    let feeds = r#""feeds": ["0.1 mm", "0.05 mm"]"#;
    let gears = r#""leadscrew": "3 mm", "change_gears": [20, 20, 80, 120], "tumbler": true"#;
    let machines = [
        lathe(&[DIALS, SPEEDS]),
        lathe(&[DIALS, SPEEDS, feeds]),
        lathe(&[DIALS, SPEEDS, gears]),
        lathe(&[INCH, SPEEDS, r#""nose": "screwed", "reverse": false"#]),
        lathe(&[SPEEDS]),
        lathe(&[SPEEDS]) + r#", "indicators": [{"division": "0.01 mm", "travel": "10 mm"}]"#,
        lathe(&[DIALS, SPEEDS])
            + r#", "holding": [{"name": "c", "kind": "chuck", "rpm_max": 200}]"#,
    ];
    let measured = format!(r#"{TURN}, "measured": "20.6 mm""#);
    let long = TURN.replace("30 mm", "120 mm");
    let bar = format!(r#"{BORE}, "cutter": "bar""#);
    for machine in &machines {
        for entries in [TURN, BORE, FACE, &measured, &long, &bar] {
            let found = sized(machine, entries);
            assert_eq!(found.unmade, None, "{entries} in {machine}");
            assert!(found.steps() > 3, "{entries} in {machine}");
        }
    }
}

#[test]
fn a_cutter_that_does_not_cut_so_is_told_before_it_is_mounted() {
    let machine = lathe(&[DIALS, SPEEDS]);
    for (entries, why) in [
        (format!(r#"{BORE}, "cutter": "stout""#), "doesn't enter"),
        (format!(r#"{BORE}, "cutter": "mill""#), "a boring bar"),
        (format!(r#"{TURN}, "cutter": "mill""#), "a turning tool"),
        (format!(r#"{FACE}, "cutter": "bar""#), "a turning tool"),
    ] {
        let found = sized(&machine, &entries);
        assert_eq!((needs(&found), found.steps()), (Some("operation.cutter"), 0), "{entries}");
        assert!(found.unmade.is_some_and(|unmade| unmade.why.contains(why)), "{entries}");
        assert!(found.found.is_some(), "the figures stand");
    }
    // As wide as the hole it doesn't enter either; a hole that is larger takes it.
    let wider = BORE.replace("10 mm", "12 mm");
    assert!(needs(&sized(&machine, &format!(r#"{wider}, "cutter": "stout""#))).is_some());
    let wider = BORE.replace("10 mm", "14 mm");
    assert!(needs(&sized(&machine, &format!(r#"{wider}, "cutter": "stout""#))).is_none());
}

#[test]
fn no_faster_than_what_holds_it_may_turn() {
    let held = |speeds: &str, said: &str| {
        let holding = r#"[{"name": "old", "kind": "chuck", "rpm_max": 200}, {"name": "new", "kind": "chuck", "rpm_max": 2000}]"#;
        let shop = lathe(&[DIALS, speeds]) + &format!(r#", "holding": {holding}"#);
        sized(&shop, &format!("{TURN}{said}"))
    };
    let speed = |found: &Answer| {
        let json = found.found.as_ref().map(crate::operation::Found::json).unwrap_or_default();
        json.iter().find(|(key, _)| key == "spindle_rpm").map(|(_, node)| node.clone())
    };
    // 349 rpm at most for the edge, by the same tables as ever: 320 of these; the old chuck bears 200.
    assert_eq!(speed(&held(SPEEDS, "")), Some(Node::from(320u32)));
    assert_eq!(speed(&held(SPEEDS, r#", "held_in": "new""#)), Some(Node::from(320u32)));
    assert_eq!(speed(&held(SPEEDS, r#", "held_in": "old""#)), Some(Node::from(120u32)));
    let fast = r#""spindle_speeds": [320]"#;
    let found = held(fast, r#", "held_in": "old""#);
    assert_eq!((needs(&found), found.steps()), (Some("shop.lathe.spindle_speeds"), 0));
    assert_eq!(needs(&held(fast, r#", "held_in": "new""#)), None);
    assert_eq!(needs(&held(fast, r#", "held_in": "lent""#)), Some("shop.holding"));
}
