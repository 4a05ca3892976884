//! A thread from file to answers: gears, sizes, passes, half-nuts, steps.

mod any;
mod gears;
mod nuts;
mod part;
mod passes;
mod sizes;
mod steps;
mod which;

use latheside_core::operation::{Picture, Span, Tone};
use latheside_core::record::Node;
use latheside_core::setup::{answers, read_file};
use latheside_core::shop::Shop;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;

/// The setup of one thread on one lathe.
fn setup(lathe: &str, thread: &str) -> String {
    format!(
        r#"{{"format": "latheside-setup", "version": 1, "name": "", "note": "",
        "shop": {{"name": "", "lathe": {{{lathe}}}, "drills": ["6.8 mm", "8.5 mm", "1/4 in"]}},
        "operations": [{{"kind": "thread", {thread}}}]}}"#
    )
}

/// Its answer.
fn solve(lathe: &str, thread: &str) -> Node {
    let read = read_file(&setup(lathe, thread)).expect(lathe);
    let Node::List(all) = answers(&read).get("answers").expect("answers").clone() else {
        panic!("no list")
    };
    all.into_iter().next().expect("one answer")
}

/// What stands at a path: `"half_nuts.rule"`, `"trains.0.lead"`.
fn at<'a>(node: &'a Node, path: &str) -> Option<&'a Node> {
    path.split('.').try_fold(node, |node, key| match node {
        Node::List(items) => items.get(key.parse::<usize>().ok()?),
        node => node.get(key),
    })
}

fn number(node: &Node, path: &str) -> f64 {
    match at(node, path) {
        Some(Node::Float(x)) => *x,
        Some(Node::Whole(n)) => *n as f64,
        other => panic!("{path}: {other:?}"),
    }
}

fn text<'a>(node: &'a Node, path: &str) -> &'a str {
    at(node, path).and_then(Node::as_text).unwrap_or_else(|| panic!("{path} in {node:?}"))
}

fn list<'a>(node: &'a Node, path: &str) -> &'a [Node] {
    match at(node, path) {
        Some(Node::List(items)) => items,
        other => panic!("{path}: {other:?}"),
    }
}

fn numbers(node: &Node, path: &str) -> Vec<f64> {
    (0..list(node, path).len()).map(|n| number(node, &format!("{path}.{n}"))).collect()
}

/// A train's pairs.
fn pairs(train: &Node) -> Vec<(u32, u32)> {
    list(train, "pairs")
        .iter()
        .map(|pair| (number(pair, "0") as u32, number(pair, "1") as u32))
        .collect()
}

/// Drivers and driven, whatever their order.
fn selection(pairs: &[(u32, u32)]) -> (Vec<u32>, Vec<u32>) {
    let (mut above, mut below): (Vec<u32>, Vec<u32>) = pairs.iter().copied().unzip();
    above.sort_unstable();
    below.sort_unstable();
    (above, below)
}

fn lacks(answer: &Node, key: &str) -> Option<String> {
    at(answer, "lacking")?;
    let found = list(answer, "lacking").iter().find(|lacking| text(lacking, "key") == key)?;
    Some(text(found, "needs").to_owned())
}

const JONES: &str = "Jones, Turning and Boring (1914, 1919 printing), ch. IV, Gutenberg #34030";
const USES: &str = "The Lathe and Its Uses, screw-cutting sections, Gutenberg #60819";
const WHEELS: &str = "chestofbooks.com, Construction Tools, Selection of Screwing Wheels";
const SIMPLE: &str = "chestofbooks.com, Construction Tools, Selection of Simple-Gear Wheels";
const WORK: &str = "chestofbooks.com, Lathe Operation, Lathe Work part 5, Figs 219-221";
const ROSE: &str = "Rose, Modern Machine-Shop Practice, screw-cutting wheels Figs 1235-1242";
const FRACTIONS: &str = "independent computation with exact fractions";

const BY_4: &str =
    "24, 28, 32, 36, 40, 44, 48, 52, 56, 60, 64, 68, 72, 76, 80, 84, 88, 92, 96, 100";
const BY_5: &str = "30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100";

fn card(setup: &latheside_core::setup::Setup) -> latheside_core::operation::Card {
    let answer = setup.operations[0].answer(&Shop::new(setup.shop.clone()));
    answer.found.expect("something found").card()
}

/// A small lathe with everything in it.
const LATHE: &str = r#""leadscrew": "3 mm", "leadscrew_hand": "right", "tumbler": true,
    "change_gears": [20, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100, 105, 110, 115, 120],
    "before_train": "1/1", "gearbox": ["1/1"], "pairs_max": 2, "stud_clearance_teeth": 15, "centres_teeth": null,
    "chasing_dials": [{"wheel_teeth": 15, "marks": 5}], "nose": "screwed", "reverse": true, "hand_crank": false,
    "spindle_speeds": [{"rpm": 45, "how": "back gear, belt 1"}, 70, 110],
    "dials": {"cross": {"division": "0.02 mm", "divisions": 125, "reads": "radius", "grows": "inwards"}}"#;

#[test]
fn every_key_of_a_whole_answer() {
    let bsf = r#""designation": "3/8 BSF", "side": "outside", "class": "medium", "length": "22 mm", "engaged": "10 mm", "ending": "groove""#;
    let answer = solve(LATHE, bsf);
    for key in [
        "lead",
        "ratio",
        "trains",
        "selections.all.count",
        "selections.all.least_error_ppm",
        "selections.mountable.count",
        "selections.mountable.least_error_ppm",
        "half_nuts.spacing",
        "half_nuts.rule",
        "half_nuts.marks",
        "depth_mm",
        "pitch_diameter_mm",
        "minor_diameter_mm",
        "limits.major_mm.1",
        "limits.pitch_mm.1",
        "limits.minor_mm.1",
        "tap_drill.drill",
        "tap_drill.percent",
        "wires.best_mm",
        "wires.over_mm.1",
        "helix_deg",
        "lead_error_share",
        "passes.0.dial",
        "passes.0.depth_mm",
        "cautions.0",
        "why.0.source",
        "steps.0.title",
    ] {
        assert!(at(&answer, key).is_some(), "{key}");
    }
    assert!(at(&answer, "lacking").is_none());
    assert_eq!(text(&answer, "lead"), "1.27 mm");
    assert_eq!(list(&answer, "trains").len(), 40);
    for train in list(&answer, "trains") {
        for key in ["pairs", "gearbox", "lead", "error_ppm", "exact", "mountable", "idlers"] {
            assert!(train.get(key).is_some(), "{key}");
        }
        assert_eq!(text(train, "gearbox"), "1/1");
    }
    // Bare leads: what can be said is said, the rest is named.
    let answer = solve(LATHE, r#""lead": "0.75 mm", "length": "12 mm", "to": "nut-in-hand""#);
    assert_eq!(text(&answer, "half_nuts.rule"), "anywhere");
    assert!(list(&answer, "trains").len() == 40 && at(&answer, "depth_mm").is_none());
    for key in ["depth_mm", "limits", "wires", "passes", "lead_error_share"] {
        assert_eq!(lacks(&answer, key).as_deref(), Some("operation.designation"), "{key}");
    }
    // No lathe: sizes still, and what the rest waits for.
    let answer = solve("", r#""designation": "M10", "length": "20 mm""#);
    assert!((number(&answer, "depth_mm") - 0.613_434 * 1.5).abs() < 1e-9, "ISO 68-1");
    for key in ["ratio", "trains", "selections", "half_nuts", "lead_error_share"] {
        assert_eq!(lacks(&answer, key).as_deref(), Some("shop.lathe.leadscrew"), "{key}");
        assert!(at(&answer, key).is_none(), "{key}");
    }
    assert_eq!(lacks(&answer, "passes").as_deref(), Some("shop.lathe.dials.cross"));
}

/// A lathe with both dials, wires and speeds, and its thread.
fn solve_with(more: &str, thread: &str) -> Node {
    let file = setup(&format!("{LATHE}{more}"), thread);
    let file = file.replace(r#""drills""#, r#""wires": ["0.5 mm", "0.9 mm", "2 mm"], "drills""#);
    let Node::List(all) = answers(&read_file(&file).expect(thread)).get("answers").unwrap().clone()
    else {
        panic!("no list")
    };
    all.into_iter().next().expect("one answer")
}

/// What a step says, by the beginning of its title.
fn say(answer: &Node, title: &str) -> String {
    let step = list(answer, "steps")
        .iter()
        .find(|step| text(step, "title").starts_with(title))
        .unwrap_or_else(|| panic!("no step {title}"));
    let lines: Vec<&str> = list(step, "say").iter().filter_map(Node::as_text).collect();
    lines.join(" ")
}

/// What is done in a step, by the beginning of its title: each action as its file has it.
fn acts(answer: &Node, title: &str) -> Vec<String> {
    let steps = list(answer, "steps").iter();
    let step = steps.into_iter().find(|step| text(step, "title").starts_with(title));
    let step = step.unwrap_or_else(|| panic!("no step {title}"));
    list(step, "actions").iter().map(|act| serde_json::to_string(act).expect("json")).collect()
}

/// Whether these stand in that order among the actions.
fn in_order(acts: &[String], parts: &[&str]) -> bool {
    let mut acts = acts.iter();
    parts.iter().all(|part| acts.any(|act| act.contains(part)))
}

/// What is read from two metres in a step.
fn shown(answer: &Node, title: &str) -> (String, String) {
    let steps = list(answer, "steps").iter();
    let step = steps.into_iter().find(|step| text(step, "title").starts_with(title));
    let step = step.unwrap_or_else(|| panic!("no step {title}"));
    (text(step, "label").to_owned(), text(step, "figure").to_owned())
}

fn fact(lathe: &str, thread: &str, label: &str) -> Option<String> {
    let read = read_file(&setup(lathe, thread)).unwrap();
    card(&read).facts.into_iter().find(|fact| fact.label.starts_with(label)).map(|fact| fact.value)
}
