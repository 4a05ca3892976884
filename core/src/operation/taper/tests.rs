//! Tapers carried out on the modelled lathe: the cone as it was asked for, and what one change breaks.

use crate::lathe::{Lathe, run};
use crate::operation::{Operation, kind};
use crate::procedure::Action;
use crate::record::{Node, read};
use crate::shop::{SHOP, Shop};
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use alloc::{format, vec};

const OWNED: &str = r#"{"lathe": {"nose": "screwed", "spindle_speeds": [110, 190, 320, 540],
  "dials": {"compound": {"division": "0.02 mm", "divisions": 100, "reads": "radius", "travel": "120 mm"},
            "cross": {"division": "0.02 mm", "divisions": 125, "reads": "radius"}}},
 "indicators": [{"division": "0.01 mm", "travel": "10 mm"}]}"#;
const BARE: &str = r#"{"lathe": {"spindle_speeds": [110, 190]}}"#;

fn shop(owned: &str) -> Shop {
    let node: Node = serde_json::from_str(owned).unwrap();
    Shop::new(read(&node, &SHOP, "", &[]).unwrap())
}

fn lines(owned: &str, entries: &str) -> Vec<String> {
    let kind = kind("taper").unwrap();
    let node: Node = serde_json::from_str(entries).unwrap();
    let entries = read(&node, kind.spec, "", &[]).unwrap();
    let answer = Operation { entries, ..Operation::new(kind) }.answer(&shop(owned));
    assert!(answer.unmade.is_none(), "{:?}", answer.unmade);
    let steps = answer.found.as_ref().unwrap().steps();
    let all = (0..steps.len()).filter_map(|at| steps.get(at));
    let actions = all.flat_map(|step| step.actions);
    actions.map(|action| serde_json::to_string(&action).unwrap()).collect()
}

fn carried(owned: &str, lines: &[String]) -> Lathe {
    let actions: Vec<Action> =
        lines.iter().map(|line| serde_json::from_str(line).unwrap()).collect();
    run(vec![("all/1".to_string(), actions.as_slice())], &shop(owned))
}

const BY_COMPOUND: &str =
    r#"{"large": "20 mm", "ratio": "1/10", "length": "40 mm", "stock": "mild-steel"}"#;
const SET_OVER: &str =
    r#"{"large": "20 mm", "ratio": "1/20", "length": "40 mm", "between_centres": "100 mm"}"#;

#[test]
fn the_cone_is_as_asked_within_half_a_line() {
    for (owned, entries, ends, length) in [
        (OWNED, BY_COMPOUND, [10.0, 8.0], 40.0),
        (OWNED, SET_OVER, [10.0, 9.0], 40.0),
        (BARE, BY_COMPOUND, [10.0, 8.0], 40.0),
        (BARE, SET_OVER, [10.0, 9.0], 40.0),
        // 17.780 at the large end, 1 in 20.020, 64 long: ISO 296's no. 2, and half of each on the radius.
        (OWNED, r#"{"named": "MT2"}"#, [8.89, 8.89 - 64.0 / 20.02 / 2.0], 64.0),
        // What the indicator moved by puts it right.
        (
            OWNED,
            r#"{"large": "20 mm", "ratio": "1/20", "length": "40 mm", "travel": "30 mm", "proved": "0.72 mm"}"#,
            [10.0, 9.0],
            40.0,
        ),
        (
            OWNED,
            r#"{"large": "20 mm", "ratio": "1/20", "length": "40 mm", "travel": "30 mm", "between_centres": "100 mm", "checked": "0.78 mm"}"#,
            [10.0, 9.0],
            40.0,
        ),
    ] {
        let lathe = carried(owned, &lines(owned, entries));
        assert_eq!(lathe.faults().first(), None, "{entries}");
        let [cone] = lathe.part().cones.as_slice() else { panic!("one cone: {entries}") };
        assert!((cone.from_radius - ends[0]).abs() < 1e-3, "{entries}: {cone:?}");
        // The last pass stands within half of a line of 0.02 mm; without a dial it is set to its length.
        assert!((cone.to_radius - ends[1]).abs() <= 0.0101, "{entries}: {cone:?}");
        let slope = (cone.from_radius - cone.to_radius) / (cone.to - cone.from);
        let asked = (ends[0] - ends[1]) / length;
        assert!((slope - asked).abs() < 2e-5, "{entries}: {slope} for {asked}");
    }
}

/// Of the lines with that in them the one of that number, from 0, becomes another.
fn first_fault(entries: &str, (has, nth): (&str, usize), becomes: &str) -> Option<String> {
    let mut lines = lines(OWNED, entries);
    let found: Vec<usize> = (0..lines.len()).filter(|at| lines[*at].contains(has)).collect();
    let at = *found.get(nth).unwrap_or_else(|| panic!("no {has} of that number"));
    if becomes.is_empty() {
        lines.remove(at);
    } else {
        lines[at] = becomes.to_string();
    }
    carried(OWNED, &lines).faults().first().map(|fault| fault.rule.id().to_string())
}

#[test]
fn one_change_breaks_one_rule_first() {
    let lock = |what| format!(r#""do":"lock","what":"{what}""#);
    let (carriage, cross) = (lock("carriage"), lock("cross"));
    #[rustfmt::skip]
    let rows: &[(&str, &str, (&str, usize), &str)] = &[
        ("TAP-006", BY_COMPOUND, (&carriage, 0), ""),
        ("TAP-006", BY_COMPOUND, (&cross, 0), r#"{"do":"clear","slide":"cross","toward":"out"}"#),
        ("TAP-008", BY_COMPOUND, ("set-height", 0), r#"{"do":"set-height","what":"tool","above":"0.3 mm"}"#),
        ("TAP-011", SET_OVER, ("ball-centres", 0), ""),
        ("TAP-012", SET_OVER, (r#""at":"centres""#, 0), r#"{"do":"look","that":"work","at":"lathe-spindle","out":"100 mm","diameter":"20 mm","length":"100 mm"}"#),
        ("TAP-015", BY_COMPOUND, ("chalk", 0), ""),
        ("TAP-020", BY_COMPOUND, ("indicate", 0), ""),
        ("LEFT-COMPOUND", BY_COMPOUND, ("square-up", 0), ""),
        ("LOOK-FALSE", BY_COMPOUND, ("swing", 0), r#"{"do":"swing","what":"compound","to":"5.7106 deg","from":"along","handle":"in"}"#),
        // Swung the other way it would go deeper and deeper.
        ("PART-CUT-WRONG", BY_COMPOUND, ("swing", 0), r#"{"do":"swing","what":"compound","to":"2.8624 deg","from":"along","handle":"out"}"#),
        ("PART-CUT-WRONG", SET_OVER, ("set-over", 0), r#"{"do":"set-over","by":"2.5 mm","toward":"in"}"#),
    ];
    for (id, entries, line, becomes) in rows {
        assert_eq!(first_fault(entries, *line, becomes).as_deref(), Some(*id), "{line:?}");
    }
    // Neither tried nor indicated before the last pass; never set back in line.
    #[rustfmt::skip]
    let without: &[(&str, &str, [&str; 2])] = &[
        ("TAP-016", BY_COMPOUND, [r#""do":"try""#, r#""slide":"carriage","over""#]),
        ("TAP-013", SET_OVER, [r#""by":"0 mm""#, "tailstock-in-line"]),
    ];
    for (id, entries, gone) in without {
        let mut lines = lines(OWNED, entries);
        lines.retain(|line| !gone.iter().any(|gone| line.contains(gone)));
        let first = carried(OWNED, &lines).faults().first().map(|fault| fault.rule.id());
        assert_eq!(first, Some(*id));
    }
}

#[test]
fn what_is_lacking_makes_it() {
    let unmade = |owned: &str, entries: &str| {
        let kind = kind("taper").unwrap();
        let node: Node = serde_json::from_str(entries).unwrap();
        let entries = read(&node, kind.spec, "", &[]).unwrap();
        let answer = Operation { entries, ..Operation::new(kind) }.answer(&shop(owned));
        answer.unmade.map(|unmade| unmade.needs)
    };
    assert_eq!(unmade(OWNED, r#"{"ratio": "1/20"}"#), Some("operation.large"));
    assert_eq!(unmade(OWNED, r#"{"ratio": "1/20", "large": "20 mm"}"#), Some("operation.length"));
    assert_eq!(unmade(OWNED, r#"{"ratio": "1/20", "large": "20 mm", "length": "40 mm"}"#), None);
    // 81 mm of no. 3 and a compound that goes 50.
    let short = OWNED.replace("120 mm", "50 mm");
    assert_eq!(unmade(&short, r#"{"named": "MT3"}"#), Some("operation.between_centres"));
    assert_eq!(unmade(&short, r#"{"named": "MT3", "between_centres": "180 mm"}"#), None);
    let still = r#"{"lathe": {}}"#;
    assert_eq!(unmade(still, BY_COMPOUND), Some("shop.lathe.spindle_speeds"));
}
