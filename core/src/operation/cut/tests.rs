//! Cuts on good and on badly equipped machines: carried out without a fault, or said to be unmade and why.

use super::kind::KIND;
use crate::operation::{Answer, Operation};
use crate::record::{Node, read};
use crate::shop::{SHOP, Shop};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

const CUTTERS: &str = r#""cutters": [
    {"name": "bar", "kind": "boring-bar", "diameter": "8 mm"}, {"name": "mill", "kind": "end-mill", "diameter": "6 mm", "teeth": 2},
    {"name": "saw", "kind": "slitting-saw", "diameter": "40 mm", "width": "1 mm", "teeth": 40},
    {"name": "point", "kind": "engraver", "diameter": "3 mm", "width": "0.3 mm", "angle": "60 deg", "teeth": 1},
    {"name": "blade", "kind": "parting-blade", "width": "2 mm"}, {"name": "cb", "kind": "counterbore", "diameter": "12 mm"}],
    "drills": ["2.5 mm", "4.2 mm", "6 mm", "8 mm"],
    "holding": [{"name": "chuck", "kind": "chuck", "rpm_max": 1000}, {"name": "old", "kind": "chuck", "rpm_max": 30}, {"name": "collet", "kind": "collet"}]"#;

fn node(text: &str) -> Node {
    serde_json::from_str(text).unwrap_or_else(|why| panic!("{text}: {why}"))
}

fn made(shop: &str, entries: &str) -> Answer {
    let shop = Shop::new(read(&node(&format!("{{{shop}}}")), &SHOP, "", &[]).unwrap());
    let entries = read(&node(&format!("{{{entries}}}")), KIND.spec, "", &[]).unwrap();
    Operation { kind: &KIND, entries }.proved(&shop)
}

fn needs(found: &Answer) -> Option<&'static str> {
    found.unmade.as_ref().map(|unmade| unmade.needs)
}

fn machines() -> [String; 6] {
    let lathe = |more: &str| {
        format!(r#""lathe": {{"spindle_speeds": [45, 110, 320, 540, 900]{more}}}, {CUTTERS}"#)
    };
    let dials = r#", "dials": {"cross": {"reads": "radius", "division": "0.02 mm", "divisions": 125, "backlash": "0.2 mm"},
        "compound": {"reads": "radius", "division": "0.02 mm", "divisions": 100}, "carriage": {"division": "0.1 mm", "divisions": 180},
        "tailstock": {"division": "0.05 mm", "divisions": 60}}"#;
    [
        lathe(dials),
        lathe(
            r#", "dials": {"cross": {"reads": "diameter", "division": "0.001 in", "divisions": 100, "grows": "outwards"}}, "nose": "screwed", "hand_crank": true"#,
        ),
        lathe(
            r#", "dials": {"carriage": {"division": "0.1 mm", "divisions": 180}}, "feeds": ["0.05 mm", "0.1 mm"]"#,
        ),
        lathe(r#", "leadscrew": "3 mm", "change_gears": [20, 20, 80, 120], "tumbler": true"#),
        lathe("") + r#", "indicators": [{"division": "0.01 mm", "travel": "10 mm"}]"#,
        format!(r#""name": "bare", {CUTTERS}"#),
    ]
}

const ENTRIES: &[&str] = &[
    r#""process": "turn", "diameter": "25 mm", "depth": "1 mm""#,
    r#""process": "turn", "diameter": "25 mm", "depth": "1 mm", "length": "40 mm""#,
    r#""process": "turn", "diameter": "25 mm", "depth": "1 mm", "length": "40 mm", "slide": "compound""#,
    r#""process": "turn", "diameter": "10 mm", "depth": "1 mm", "length": "60 mm", "held_in": "chuck""#,
    r#""process": "turn", "diameter": "6 mm", "depth": "0.5 mm", "length": "80 mm""#,
    r#""process": "finish", "diameter": "1 in", "depth": "0.1 mm", "length": "20 mm", "stick_out": "30 mm""#,
    r#""process": "bore", "diameter": "20 mm", "depth": "0.5 mm", "length": "20 mm", "cutter": "bar""#,
    r#""process": "bore", "diameter": "20 mm", "depth": "0.5 mm""#,
    r#""process": "face", "diameter": "30 mm", "depth": "0.5 mm""#,
    r#""process": "face", "diameter": "30 mm", "depth": "0.5 mm", "stick_out": "120 mm", "slide": "compound""#,
    r#""process": "drill", "diameter": "6 mm""#,
    r#""process": "drill", "diameter": "6 mm", "depth": "60 mm""#,
    r#""process": "drill", "diameter": "16 mm", "depth": "30 mm", "slide": "carriage""#,
    r#""process": "ream", "diameter": "8 mm", "depth": "20 mm""#,
    r#""process": "ream", "diameter": "8 mm", "slide": "carriage""#,
    r#""process": "countersink", "diameter": "12 mm", "depth": "3 mm""#,
    r#""process": "countersink", "cutter": "cb", "depth": "3 mm""#,
    r#""process": "mill", "cutter": "mill", "depth": "4 mm", "length": "30 mm""#,
    r#""process": "mill", "cutter": "mill", "depth": "4 mm", "slide": "compound", "held_in": "collet""#,
    r#""process": "mill", "diameter": "6 mm", "teeth": 2, "depth": "1 mm""#,
    r#""process": "mill", "cutter": "saw", "depth": "8 mm""#,
    r#""process": "mill", "cutter": "point", "depth": "0.2 mm", "length": "5 mm""#,
    r#""process": "part", "diameter": "20 mm", "cutter": "blade""#,
    r#""process": "part", "diameter": "20 mm", "width": "2 mm""#,
    r#""process": "knurl", "diameter": "20 mm", "length": "12 mm""#,
    r#""process": "knurl", "diameter": "20 mm", "length": "12 mm", "depth": "0.3 mm""#,
    r#""process": "tap", "diameter": "6 mm""#,
    r#""process": "tap", "diameter": "10 mm", "depth": "15 mm""#,
    r#""process": "die", "diameter": "6 mm""#,
    r#""process": "die", "diameter": "10 mm", "length": "20 mm""#,
];

#[test]
fn every_process_is_carried_out_on_every_machine() {
    let mut wrong = Vec::new();
    let mut count = 0;
    for (nth, machine) in machines().iter().enumerate() {
        for entries in ENTRIES {
            for stock in ["mild-steel", "brass", "grey-iron"] {
                let found = made(machine, &format!(r#"{entries}, "stock": "{stock}""#));
                assert_eq!(found.refused, None, "{entries}");
                match &found.unmade {
                    Some(unmade) => wrong.push(format!("{entries} on {nth}: {}", unmade.why)),
                    None if found.steps() < 3 => wrong.push(format!("{entries}: no steps")),
                    None => count += 1,
                }
            }
        }
    }
    wrong.dedup();
    assert!(wrong.is_empty(), "{count} made; {wrong:#?}");
}

/// No speed is given for what is turned in by hand, and nothing starts.
#[test]
fn taps_and_dies_go_in_by_hand() {
    for process in ["tap", "die"] {
        let entries = format!(r#""process": "{process}", "stock": "brass", "diameter": "6 mm""#);
        let found = made(r#""lathe": {"spindle_speeds": [600, 1400]}"#, &entries);
        let steps = found.found.as_ref().unwrap().steps();
        for at in 0..steps.len() {
            let actions = format!("{:?}", steps.get(at).unwrap().actions);
            assert!(!actions.contains("Forward }") && !actions.contains("Speed"), "{actions}");
        }
    }
}

#[test]
fn what_cannot_be_cut_so_says_what_would_change_it() {
    let [machine, ..] = machines();
    for (entries, wanted) in [
        (r#""process": "turn", "diameter": "25 mm""#, "operation.depth"),
        (r#""process": "turn", "diameter": "25 mm", "depth": "13 mm""#, "operation.depth"),
        (r#""process": "turn", "depth": "1 mm""#, "operation.diameter"),
        (r#""process": "thread", "diameter": "10 mm""#, "operation.process"),
        (
            r#""process": "turn", "diameter": "25 mm", "depth": "1 mm", "slide": "tailstock""#,
            "operation.slide",
        ),
        (
            r#""process": "turn", "diameter": "25 mm", "depth": "1 mm", "held_in": "old""#,
            "shop.lathe.spindle_speeds",
        ),
        (
            r#""process": "turn", "diameter": "25 mm", "depth": "1 mm", "held_in": "lent""#,
            "shop.holding",
        ),
        (r#""process": "drill", "diameter": "10 mm", "slide": "cross""#, "operation.slide"),
        (
            r#""process": "drill", "diameter": "4 mm", "depth": "5 mm", "slide": "compound""#,
            "operation.slide",
        ),
        (
            r#""process": "mill", "cutter": "mill", "depth": "1 mm", "held_in": "chuck""#,
            "operation.held_in",
        ),
        (
            r#""process": "mill", "cutter": "mill", "depth": "1 mm", "stick_out": "40 mm""#,
            "operation.stick_out",
        ),
        (
            r#""process": "bore", "diameter": "8 mm", "depth": "0.2 mm", "cutter": "bar""#,
            "operation.cutter",
        ),
        (
            r#""process": "bore", "diameter": "20 mm", "depth": "0.2 mm", "length": "60 mm", "cutter": "bar""#,
            "operation.cutter",
        ),
    ] {
        let found = made(&machine, &format!(r#"{entries}, "stock": "mild-steel""#));
        assert_eq!((needs(&found), found.steps()), (Some(wanted), 0), "{entries}");
        assert!(found.found.is_some(), "the figures stand");
    }
    let fast = r#""lathe": {"spindle_speeds": [1400]}"#;
    let turn = r#""process": "turn", "diameter": "60 mm", "depth": "1 mm", "stock": "tool-steel""#;
    assert_eq!(needs(&made(fast, turn)), Some("shop.lathe.spindle_speeds"));
    assert_eq!(needs(&made(r#""lathe": {"spindle_speeds": [60, 1400]}"#, turn)), None);
}

/// Whatever sizes are entered: made without a fault, or unmade and the entry named that would change it.
#[test]
fn whatever_is_entered_is_made_or_names_what_it_needs() {
    let [dials, inch, .., bare] = machines();
    let short = dials.replace(
        r#""division": "0.1 mm", "divisions": 180"#,
        r#""division": "0.1 mm", "divisions": 180, "travel": "40 mm""#,
    );
    let mut wrong = Vec::new();
    for (nth, machine) in [&dials, &inch, &bare, &short].into_iter().enumerate() {
        for process in [
            "turn",
            "finish",
            "bore",
            "face",
            "drill",
            "ream",
            "countersink",
            "mill",
            "part",
            "knurl",
            "tap",
            "die",
        ] {
            for cutter in ["", "saw", "point"] {
                for diameter in ["0.1 mm", "3 mm", "400 mm"] {
                    for depth in ["0.01 mm", "30 mm"] {
                        for (length, out) in
                            [("", ""), ("20 mm", "10 mm"), ("300 mm", ""), ("5 mm", "400 mm")]
                        {
                            let mut entries = format!(
                                r#""process": "{process}", "stock": "mild-steel", "diameter": "{diameter}""#
                            );
                            for (key, value) in [
                                ("cutter", cutter),
                                ("depth", depth),
                                ("length", length),
                                ("stick_out", out),
                            ] {
                                if !value.is_empty() {
                                    entries += &format!(r#", "{key}": "{value}""#);
                                }
                            }
                            let found = made(machine, &entries);
                            if let Some(unmade) =
                                found.unmade.filter(|unmade| unmade.needs == "operation")
                            {
                                let why = unmade
                                    .why
                                    .split(": the")
                                    .next()
                                    .unwrap_or_default()
                                    .replace("carried out on a modelled lathe, ", "");
                                wrong.push((
                                    format!("{process} {why}"),
                                    format!("{entries} on {nth}"),
                                ));
                            }
                        }
                    }
                }
            }
        }
    }
    wrong.sort();
    wrong.dedup_by(|a, b| a.0 == b.0);
    assert!(wrong.is_empty(), "{wrong:#?}");
}
