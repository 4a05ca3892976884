//! Holes on good and on badly equipped machines: carried out without a fault, or said to be unmade and why.

use super::KIND;
use super::work::answer;
use crate::operation::Answer;
use crate::record::{Node, read};
use crate::shop::{SHOP, Shop};
use alloc::format;
use alloc::string::{String, ToString};

const DRILLS: &str = r#""drills": ["2.5 mm", "4.2 mm", "5 mm", "6 mm", "6.6 mm", "6.8 mm", "7.8 mm", "9 mm", "9.7 mm", "10.2 mm", "13.5 mm", "17.5 mm"]"#;
const CUTTERS: &str = r#""cutters": [{"name": "bar", "kind": "boring-bar", "diameter": "6 mm"}, {"name": "cb", "kind": "counterbore", "diameter": "15 mm"}]"#;

fn node(text: &str) -> Node {
    serde_json::from_str(text).unwrap_or_else(|why| panic!("{text}: {why}"))
}

fn holed(shop: &str, entries: &str) -> Answer {
    let shop = Shop::new(read(&node(&format!("{{{shop}}}")), &SHOP, "", &[]).unwrap());
    let entries = read(&node(&format!("{{{entries}}}")), KIND.spec, "", &[]).unwrap();
    answer(&entries, &shop).proved(&shop)
}

fn machines() -> [String; 7] {
    let lathe = |dials: &str| {
        format!(
            r#""lathe": {{"spindle_speeds": [45, 70, 110, 190, 320, 540, 900]{dials}}}, {DRILLS}, {CUTTERS}"#
        )
    };
    [
        lathe(r#", "dials": {"tailstock": {"division": "0.05 mm", "divisions": 60}}"#),
        lathe(
            r#", "dials": {"tailstock": {"division": "0.001 in", "divisions": 100}}, "hand_crank": true"#,
        ),
        lathe(r#", "dials": {"carriage": {"division": "0.1 mm", "divisions": 180}}"#),
        lathe(
            r#", "dials": {"carriage": {"division": "0.25 mm", "divisions": 80}, "tailstock": {"division": "1 mm"}}"#,
        ),
        lathe("") + r#", "indicators": [{"division": "0.01 mm", "travel": "10 mm"}]"#,
        lathe(r#", "nose": "screwed", "reverse": true"#),
        format!("{DRILLS}, {CUTTERS}"),
    ]
}

const ENTRIES: &[&str] = &[
    r#""purpose": "tap", "designation": "M8", "depth": "12 mm", "thickness": "25 mm", "diameter": "20 mm""#,
    r#""purpose": "tap", "designation": "M8", "thickness": "12 mm""#,
    r#""purpose": "tap", "designation": "M5""#,
    r#""purpose": "tap", "designation": "M8", "depth": "12 mm", "thickness": "25 mm", "from_edge": "11 mm""#,
    r#""purpose": "tap", "designation": "1/4-20 UNC", "depth": "1/2 in""#,
    r#""purpose": "clear", "designation": "M12", "thickness": "50 mm""#,
    r#""purpose": "clear", "designation": "M6", "thickness": "70 mm""#,
    r#""purpose": "clear", "designation": "M8", "thickness": "6 mm", "from_edge": "30 mm""#,
    r#""purpose": "clear", "designation": "M6""#,
    r#""purpose": "counterbore", "designation": "M8", "thickness": "20 mm", "diameter": "40 mm""#,
    r#""purpose": "counterbore", "designation": "M6", "below": "0 mm", "thickness": "14 mm", "depth": "10 mm""#,
    r#""purpose": "counterbore", "designation": "M6""#,
    r#""purpose": "countersink", "designation": "M6", "thickness": "14 mm""#,
    r#""purpose": "countersink", "designation": "M5", "thickness": "14 mm", "from_edge": "20 mm""#,
    r#""purpose": "ream", "designation": "8 mm", "depth": "20 mm""#,
    r#""purpose": "ream", "designation": "8 mm", "thickness": "20 mm""#,
    r#""purpose": "ream", "designation": "10 mm""#,
    r#""purpose": "ream", "designation": "16 mm", "depth": "20 mm""#,
    r#""purpose": "ream", "designation": "10 mm H7", "thickness": "40 mm", "from_edge": "30 mm""#,
    r#""purpose": "dowel", "designation": "6 mm", "fit": "press", "thickness": "20 mm""#,
];

#[test]
fn every_purpose_is_carried_out_on_every_machine() {
    let mut made = 0;
    let mut wrong = alloc::vec::Vec::new();
    for machine in &machines() {
        for entries in ENTRIES {
            for stock in [
                "",
                r#", "stock": "mild-steel""#,
                r#", "stock": "brass""#,
                r#", "stock": "grey-iron""#,
            ] {
                let found = holed(machine, &format!("{entries}{stock}"));
                assert_eq!(found.refused, None, "{entries}{stock}");
                if let Some(unmade) = &found.unmade {
                    let owned = matches!(
                        unmade.needs,
                        "shop.drills"
                            | "shop.lathe.spindle_speeds"
                            | "shop.cutters"
                            | "operation.thickness"
                            | "operation.depth"
                    );
                    if !owned {
                        wrong.push(format!("{entries}{stock} in {machine}: {unmade:?}"));
                    }
                } else {
                    made += 1;
                    assert!(found.steps() > 3);
                }
            }
        }
    }
    assert!(
        wrong.is_empty(),
        "{} wrong: {:#?}",
        wrong.len(),
        wrong.iter().step_by(wrong.len() / 12 + 1).collect::<alloc::vec::Vec<_>>()
    );
    assert!(made >= 500, "{made}");
}

/// Whatever sizes are entered: made without a fault, or unmade and the entry named that would change it.
#[test]
fn whatever_is_entered_is_made_or_names_what_it_needs() {
    let mut wrong = alloc::vec::Vec::new();
    let [first, inch, along, coarse, .., bare] = machines();
    let short = first.replace(r#""divisions": 60"#, r#""divisions": 60, "travel": "30 mm""#);
    let none = first.split("}}, ").next().unwrap().to_string() + "}}";
    for (nth, machine) in
        [&first, &inch, &along, &coarse, &bare, &short, &none].into_iter().enumerate()
    {
        for purpose in ["tap", "clear", "counterbore", "countersink", "ream", "dowel"] {
            for name in ["M2", "M20", "1/4-20 UNC", "12 mm"] {
                for depth in ["", "0.5 mm", "200 mm"] {
                    for thickness in ["", "0.2 mm", "14 mm", "90 mm"] {
                        for place in ["", r#", "diameter": "18 mm""#, r#", "from_edge": "14 mm""#] {
                            let mut entries = format!(
                                r#""purpose": "{purpose}", "designation": "{name}", "stock": "bronze"{place}"#
                            );
                            for (key, value) in [("depth", depth), ("thickness", thickness)] {
                                if !value.is_empty() {
                                    entries += &format!(r#", "{key}": "{value}""#);
                                }
                            }
                            let found = holed(machine, &entries);
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
                                    format!("{purpose} {why}"),
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
