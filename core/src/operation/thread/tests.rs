//! Threads carried out on the modelled lathe: each arrangement without a fault, and one change in it breaks
//! one rule first.

use super::answer::answer as solved;
use super::kind::KIND;
use crate::lathe::{Part, run};
use crate::operation::Answer;
use crate::procedure::Action;
use crate::record::{Node, read};
use crate::shop::{SHOP, Shop};
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use alloc::{format, vec};

const GEARS: &str = r#""leadscrew": "3 mm", "leadscrew_hand": "right", "pairs_max": 2, "stud_clearance_teeth": 15,
 "change_gears": [20, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100]"#;
const DIALS: &str = r#""dials": {
 "cross": {"division": "0.02 mm", "divisions": 125, "reads": "radius", "grows": "inwards"},
 "compound": {"division": "0.02 mm", "divisions": 100, "reads": "radius"}}"#;

fn whole() -> String {
    format!(
        r#"{GEARS}, {DIALS}, "tumbler": true, "nose": "locked", "reverse": true, "spindle_speeds": [45, 70, 110],
         "chasing_dials": [{{"wheel_teeth": 15, "marks": 5}}]"#
    )
}

fn shop(lathe: &str) -> Shop {
    let node: Node = serde_json::from_str(&format!("{{\"lathe\": {{{lathe}}}}}")).unwrap();
    Shop::new(read(&node, &SHOP, "", &[]).unwrap())
}

fn answer(shop: &Shop, entries: &str) -> Answer {
    let node: Node = serde_json::from_str(&format!("{{{entries}}}")).unwrap();
    solved(&read(&node, KIND.spec, "", &[]).unwrap(), shop)
}

/// Each action as a file has it, under its step's id.
fn lines(shop: &Shop, entries: &str) -> Vec<(String, String)> {
    let answer = answer(shop, entries);
    assert!(answer.unmade.is_none(), "{entries}: {:?}", answer.unmade);
    let found = answer.found.unwrap();
    let steps = found.steps();
    let mut lines = vec![];
    for step in (0..steps.len()).map(|at| steps.get(at).unwrap()) {
        for action in &step.actions {
            lines.push((step.id.to_string(), serde_json::to_string(action).unwrap()));
        }
    }
    lines
}

/// Carries them out: the first fault's id, and the part.
fn carried(shop: &Shop, lines: &[(String, String)]) -> (Option<String>, Part) {
    let actions: Vec<(String, Action)> =
        lines.iter().map(|(id, line)| (id.clone(), serde_json::from_str(line).unwrap())).collect();
    let steps = actions.iter().map(|(id, action)| (id.clone(), core::slice::from_ref(action)));
    let lathe = run(steps, shop);
    let first = lathe.faults().first();
    let told = first.map(|fault| format!("{} {}: {}", fault.rule.id(), fault.step, fault.detail));
    (told, lathe.part().clone())
}

/// The first fault where the nth action that holds `find` is changed: `with` put for it, or the whole left out.
fn changed(lathe: &str, entries: &str, find: &str, nth: usize, with: Option<&str>) -> String {
    let shop = shop(lathe);
    let mut all = lines(&shop, entries);
    let at = all.iter().enumerate().filter(|(_, (_, line))| line.contains(find)).nth(nth);
    let Some((at, _)) = at else { return format!("no {find}") };
    match with {
        Some(with) => all[at].1 = all[at].1.replace(find, with),
        None => drop(all.remove(at)),
    }
    carried(&shop, &all).0.unwrap_or_default()
}

#[test]
fn every_arrangement_is_carried_out() {
    let closed = format!(
        r#"{GEARS}, {DIALS}, "tumbler": false, "nose": "screwed", "reverse": true, "spindle_speeds": [45]"#
    );
    let fast = format!(r#"{GEARS}, {DIALS}, "hand_crank": true, "spindle_speeds": [300]"#);
    for lathe in [whole(), closed, fast, GEARS.to_string()] {
        let shop = shop(&lathe);
        for name in ["M20", "Tr 24 x 8 (P4)", "M24 x 6 (P3)"] {
            for side in ["outside", "inside"] {
                for hand in ["right", "left"] {
                    for more in [
                        r#""ending": "groove""#,
                        r#""ending": "shoulder""#,
                        r#""ending": "runs-out""#,
                        r#""begun": "thread""#,
                        r#""to": "nut-in-hand""#,
                    ] {
                        let entries = format!(
                            r#""designation": "{name}", "side": "{side}", "hand": "{hand}", "length": "20 mm", {more}"#
                        );
                        let (fault, part) = carried(&shop, &lines(&shop, &entries));
                        assert_eq!(fault, None, "{entries}");
                        let thread = &part.threads[0];
                        assert_eq!(thread.lead.is_negative(), hand == "left", "{entries}");
                        assert_eq!(thread.inside, side == "inside", "{entries}");
                        let starts = if name == "M20" { 1 } else { 2 };
                        if !more.contains("begun") {
                            assert_eq!(thread.starts.len(), starts, "{entries}");
                        }
                    }
                }
            }
        }
    }
}

/// The rule, the lathe, the entries, what to find, which of them, and what is put for it.
type Change<'a> = (&'a str, &'a str, &'a str, &'a str, usize, Option<&'a str>);

#[test]
fn one_change_breaks_one_rule_first() {
    let whole = whole();
    let tumblerless = format!(
        r#"{GEARS}, {DIALS}, "tumbler": false, "nose": "locked", "reverse": true, "spindle_speeds": [45]"#
    );
    let m10 = r#""designation": "M10", "length": "20 mm", "ending": "groove""#;
    let m12 = r#""designation": "M12 x 1.25", "length": "20 mm", "ending": "groove""#;
    let left = r#""designation": "M10", "length": "20 mm", "hand": "left""#;
    let nut = r#""designation": "M20", "side": "inside", "length": "20 mm", "ending": "groove""#;
    let left_nut = r#""designation": "M20", "side": "inside", "hand": "left", "length": "20 mm""#;
    let flank = r#""designation": "M10", "length": "20 mm", "ending": "groove", "infeed": "flank""#;
    let two = r#""designation": "Tr 24 x 8 (P4)", "length": "20 mm", "ending": "groove""#;
    let there = r#""designation": "M12 x 1.25", "length": "20 mm", "begun": "thread""#;
    let acme = r#""designation": "1-5 Acme", "length": "20 mm", "infeed": "flank""#;
    let long = r#""designation": "M10", "length": "150 mm""#;
    let shoulder = r#""designation": "M10", "length": "20 mm", "ending": "shoulder""#;
    let coarse = r#""lead": "25 mm", "diameter": "40 mm", "length": "20 mm""#;
    let cranked = format!(
        r#""leadscrew": "3 mm", "leadscrew_hand": "right", "tumbler": true, "hand_crank": true, "change_gears": [100, 20, 50, 30], {DIALS}"#
    );
    let with = |more: &str, entries: &str| format!("{entries}, {more}");
    let table: &[Change<'_>] = &[
        ("THR-014", &whole, m10, "flanks-square", 0, None),
        ("THR-015", &whole, m10, r#""above":"0 mm""#, 0, Some(r#""above":"0.3 mm""#)),
        ("THR-018", &whole, m10, r#""that":"spaces""#, 0, None),
        ("THR-020", &whole, m10, r#""do":"clear","slide":"cross""#, 4, None),
        ("THR-023", &whole, m12, r#""at":[1]"#, 3, Some(r#""at":[2]"#)),
        (
            "THR-030",
            &whole,
            m10,
            r#""groove_diameter":"7.81 mm""#,
            0,
            Some(r#""groove_diameter":"9.5 mm""#),
        ),
        ("THR-032", &whole, m10, r#""what":"diameter""#, 0, None),
        ("THR-033", &whole, nut, r#""what":"bore""#, 0, None),
        (
            "THR-035",
            &whole,
            nut,
            r#""do":"clear","slide":"cross","toward":"in""#,
            3,
            Some(r#""do":"clear","slide":"cross","toward":"out""#),
        ),
        (
            "THR-036",
            &whole,
            nut,
            r#""shape":"threading-tool","at":"tool-post","diameter":"15 mm""#,
            0,
            Some(r#""shape":"threading-tool","at":"tool-post","diameter":"16.5 mm""#),
        ),
        (
            "THR-002",
            &whole,
            &with(r#""infeed": "flank""#, left),
            r#""handle":"headstock""#,
            0,
            Some(r#""handle":"tailstock""#),
        ),
        (
            "THR-003",
            &whole,
            &with(r#""infeed": "flank""#, nut),
            r#""handle":"headstock""#,
            0,
            Some(r#""handle":"tailstock""#),
        ),
        (
            "THR-004",
            &whole,
            &with(r#""infeed": "flank""#, left_nut),
            r#""handle":"tailstock""#,
            0,
            Some(r#""handle":"headstock""#),
        ),
        (
            "PART-FLANK",
            &whole,
            flank,
            r#""handle":"tailstock""#,
            0,
            Some(r#""handle":"headstock""#),
        ),
        ("THR-007", &whole, flank, r#""to":"29.5 deg""#, 0, Some(r#""to":"31 deg""#)),
        ("THR-017", &whole, flank, r#""that":"slack""#, 0, None),
        ("THR-021", &whole, flank, r#""do":"wind","slide":"cross""#, 2, None),
        ("THR-046", &whole, two, r#""what":"mesh""#, 0, None),
        ("THR-046", &whole, two, r#""teeth":"40""#, 0, Some(r#""teeth":"40.5""#)),
        (
            "THR-051",
            &whole,
            there,
            r#""way":"forward","turns":"1""#,
            0,
            Some(r#""way":"back","turns":"1""#),
        ),
        ("THR-060", &whole, m10, r#""groove":"5.25 mm""#, 0, Some(r#""groove":"2 mm""#)),
        ("THR-060", &tumblerless, m12, r#""groove":"4.375 mm""#, 0, Some(r#""groove":"2 mm""#)),
        ("CHG-001", &whole, m10, r#""do":"isolate""#, 1, Some(r#""do":"energise""#)),
        (
            "CHG-007",
            &whole,
            m10,
            r#""count":10,"over":"15 mm""#,
            0,
            Some(r#""count":2,"over":"3 mm""#),
        ),
        (
            "CHG-012",
            &cranked,
            coarse,
            r#""what":"leadscrew","by""#,
            0,
            Some(r#""what":"lathe-spindle","by""#),
        ),
        ("THR-009", &whole, acme, r#""to":"14 deg""#, 0, Some(r#""to":"15 deg""#)),
        ("THR-026", &tumblerless, m12, r#""do":"clear","slide":"cross""#, 2, None),
        ("THR-027", &whole, m10, r#""by":"5 mm""#, 0, Some(r#""by":"2 mm""#)),
        (
            "THR-037",
            &whole,
            nut,
            r#""groove_diameter":"20.4387 mm""#,
            0,
            Some(r#""groove_diameter":"18 mm""#),
        ),
        ("THR-042", &whole, left, r#""that":"clears","what":"tool""#, 0, None),
        ("THR-043", &whole, two, r#""teeth":"40""#, 0, Some(r#""teeth":"39""#)),
        ("THR-054", &whole, m10, r#""lines":12,"mark":12"#, 0, Some(r#""lines":45,"mark":45"#)),
        ("THR-056", &whole, long, r#""which":"follow-rest""#, 0, None),
        (
            "PART-INTO-SHOULDER",
            &whole,
            shoulder,
            r#""shoulder":"23.75 mm""#,
            0,
            Some(r#""shoulder":"19 mm""#),
        ),
        ("UNKNOWN-TRAIN", &whole, m10, r#""what":"tumbler","is":"forward""#, 0, None),
        ("CHG-003", &whole, m10, r#""do":"lock","what":"banjo""#, 0, None),
        ("CHG-009", &whole, m10, r#""is":"neutral""#, 0, None),
        ("CHG-013", &tumblerless, m10, r#""do":"part""#, 0, None),
        ("PART-LEAD", &whole, m10, r#""each_turn":"1.5 mm""#, 0, Some(r#""each_turn":"1.75 mm""#)),
        ("LOOK-FALSE", &whole, m10, r#""is":"forward""#, 0, Some(r#""is":"reverse""#)),
        ("LEFT-COMPOUND", &whole, flank, r#""do":"square-up","what":"compound""#, 0, None),
        ("LEFT-HALF-NUTS", &tumblerless, m12, r#""do":"half-nuts","is":"out""#, 1, None),
        ("UNKNOWN-SIZE", &whole, m10, r#""diameter":"9.85 mm","#, 0, Some("")),
    ];
    let mut wrong = String::new();
    for (id, lathe, entries, find, nth, with) in table {
        let found = changed(lathe, entries, find, *nth, *with);
        if !found.starts_with(&format!("{id} ")) {
            wrong.push_str(&format!("{id} by {find}: {found}\n"));
        }
    }
    assert!(wrong.is_empty(), "\n{wrong}");
}

#[test]
fn what_cannot_be_made_says_what_it_needs() {
    let coarse =
        r#""leadscrew": "3 mm", "change_gears": [100, 20, 50, 30], "spindle_speeds": [45]"#;
    let needs = |lathe: &str, entries: &str| {
        answer(&shop(lathe), entries).unmade.map(|unmade| unmade.needs)
    };
    let lead = r#""lead": "25 mm", "length": "60 mm""#;
    assert_eq!(needs(coarse, lead), Some("operation.diameter"));
    let wide = format!(r#"{lead}, "diameter": "40 mm""#);
    assert_eq!(needs(coarse, &wide), Some("shop.lathe.hand_crank"));
    let cranked = format!(r#"{coarse}, "hand_crank": true"#);
    let shop = shop(&cranked);
    let all = lines(&shop, &wide);
    assert!(all.iter().any(|(_, line)| line.contains(r#""what":"leadscrew","by":"hand-crank""#)));
    assert!(!all.iter().any(|(_, line)| line.contains(r#""do":"energise""#)));
    assert_eq!(carried(&shop, &all).0, None);
    let m10 = r#""designation": "M10", "length": "20 mm""#;
    assert_eq!(needs(&whole(), &format!(r#"{m10}, "passes": 1"#)), Some("operation.passes"));
    let over = format!(r#"{m10}, "set_over": "40 deg""#);
    assert_eq!(needs(&whole(), &over), Some("operation.set_over"));
    let narrow = format!(r#"{m10}, "groove": "1 mm""#);
    assert_eq!(needs(&whole(), &narrow), Some("operation.groove"));
    assert_eq!(needs(&whole(), r#""designation": "M10""#), Some("operation.length"));
}
