//! Parting off on good and on badly equipped machines: carried out without a fault, the part as long as asked.

use super::{KIND, answer};
use crate::lathe::run;
use crate::operation::Answer;
use crate::record::{Node, read};
use crate::shop::{SHOP, Shop};
use alloc::format;
use alloc::string::ToString;
use alloc::vec::Vec;

fn node(text: &str) -> Node {
    serde_json::from_str(text).unwrap_or_else(|why| panic!("{text}: {why}"))
}

fn shop(text: &str) -> Shop {
    Shop::new(read(&node(&format!("{{{text}}}")), &SHOP, "", &[]).unwrap())
}

fn parted(shop: &Shop, entries: &str) -> Answer {
    let entries = read(&node(&format!("{{{entries}}}")), KIND.spec, "", &[]).unwrap();
    answer(&entries, shop).proved(shop)
}

const CROSS: &str = r#""cross": {"reads": "radius", "division": "0.02 mm", "divisions": 125}"#;
const CARRIAGE: &str = r#""carriage": {"division": "0.1 mm", "divisions": 180}"#;

#[test]
fn every_bar_and_tube_is_parted_on_every_machine() {
    let speeds = r#""spindle_speeds": [45, 110, 320]"#;
    let machines = [
        format!(r#""lathe": {{{speeds}, "dials": {{{CROSS}, {CARRIAGE}}}}}"#),
        format!(r#""lathe": {{{speeds}, "nose": "screwed", "dials": {{{CROSS}}}}}"#),
        format!(
            r#""lathe": {{{speeds}, "dials": {{"cross": {{"reads": "diameter", "division": "0.001 in", "divisions": 100}}}}}}"#
        ),
        format!(r#""lathe": {{{speeds}}}"#),
        r#""name": "bare""#.to_string(),
    ];
    for machine in &machines {
        let shop = shop(machine);
        for entries in [
            r#""diameter": "20 mm", "blade_width": "2 mm", "length": "15 mm""#,
            r#""diameter": "20 mm", "blade_width": "2 mm""#,
            r#""diameter": "20 mm""#,
            r#""diameter": "40 mm", "bore": "30 mm", "blade_width": "1.5 mm", "length": "8 mm""#,
            r#""diameter": "20 mm", "bore": "2 mm", "blade_width": "2 mm", "length": "8 mm""#,
            r#""diameter": "60 mm", "blade_width": "2 mm", "length": "20 mm""#,
            r#""diameter": "10 mm", "blade_width": "2 mm", "length": "60 mm""#,
            r#""diameter": "1/2 in", "blade_width": "2 mm", "length": "0.6 in""#,
        ] {
            for stock in ["", r#", "stock": "mild-steel""#, r#", "stock": "grey-iron""#] {
                let found = parted(&shop, &format!("{entries}{stock}"));
                assert_eq!(found.unmade, None, "{entries}{stock} in {machine}");
                let steps = found.found.as_ref().unwrap().steps();
                let steps: Vec<_> = (0..steps.len()).filter_map(|at| steps.get(at)).collect();
                let actions = steps.iter().map(|s| (s.id.to_string(), s.actions.as_slice()));
                let part = run(actions, &shop).part().clone();
                assert!(part.parted, "{entries}");
                let entered = read(&node(&format!("{{{entries}}}")), KIND.spec, "", &[]).unwrap();
                if let Some(length) = entered.ratio("length") {
                    // Half a millimetre for facing, or what a rule adds to it; half a line either way.
                    let over = part.length.unwrap() - length.to_f64();
                    assert!((0.4..=1.1).contains(&over), "{entries} in {machine}: {over}");
                }
            }
        }
    }
}

#[test]
fn what_is_too_fast_or_too_little_known_keeps_its_figures() {
    let fast = shop(r#""lathe": {"spindle_speeds": [1400]}"#);
    let bar = r#""diameter": "40 mm", "stock": "tool-steel", "blade_width": "2 mm""#;
    let found = parted(&fast, bar);
    assert_eq!(found.unmade.unwrap().needs, "shop.lathe.spindle_speeds");
    let slow = shop(r#""lathe": {"spindle_speeds": [20, 1400]}"#);
    assert_eq!(parted(&slow, bar).unmade, None);
    let blade = parted(&slow, r#""diameter": "20 mm", "length": "8 mm""#);
    assert_eq!(blade.unmade.unwrap().needs, "operation.blade_width");
}

/// Whatever sizes are entered: made without a fault, or unmade and the entry named that would change it.
#[test]
fn whatever_is_entered_is_made_or_names_what_it_needs() {
    let mut wrong = Vec::new();
    for dials in [
        format!("{CROSS}, {CARRIAGE}"),
        r#""cross": {"reads": "radius", "division": "0.02 mm", "divisions": 125, "travel": "20 mm"}, "carriage": {"division": "1 mm", "travel": "30 mm"}"#.to_string(),
    ] {
        let shop = shop(&format!(r#""lathe": {{"spindle_speeds": [45, 110], "dials": {{{dials}}}}}"#));
        for diameter in ["0.2 mm", "3 mm", "20 mm", "150 mm"] {
            for bore in ["", "0.1 mm", "2.9 mm", "19.9 mm"] {
                for width in ["", "0.01 mm", "1.5 mm", "30 mm"] {
                    for length in ["", "0.01 mm", "10 mm", "300 mm"] {
                        let mut entries = format!(r#""diameter": "{diameter}", "stock": "mild-steel""#);
                        for (key, value) in [("bore", bore), ("blade_width", width), ("length", length)] {
                            if !value.is_empty() {
                                entries += &format!(r#", "{key}": "{value}""#);
                            }
                        }
                        let found = parted(&shop, &entries);
                        if let Some(unmade) = found.unmade.filter(|unmade| unmade.needs == "operation") {
                            let why = unmade.why.split(": the").next().unwrap_or_default().to_string();
                            wrong.push((why, entries));
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
