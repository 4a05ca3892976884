//! The order of a setup's operations: what it spoils, what it leaves to hold, and a better one.

use latheside_core::record::Node;
use latheside_core::setup::{answers, read_file};
use latheside_tests::solved::{at, items, says, text};

const SHOP: &str = r#"{"name": "a shop", "holding": [
    {"name": "three-jaw", "kind": "chuck", "from": "3 mm", "to": "80 mm", "run_out": "0.08 mm"},
    {"name": "10 mm collet", "kind": "collet", "from": "9 mm", "to": "10 mm", "run_out": "0.01 mm"}]}"#;

const BSF: &str = r#"{"kind": "thread", "designation": "3/8 BSF", "length": "22 mm"}"#;
const LINES: &str = r#"{"kind": "graduate", "lead": "10 tpi", "least_count": "2.5 thou", "diameter": "32 mm", "depth": "5 thou"}"#;
const OFF: &str =
    r#"{"kind": "part-off", "stock": "mild-steel", "diameter": "20 mm", "blade_width": "2 mm"}"#;
const TAP: &str = r#"{"kind": "hole", "purpose": "tap", "designation": "M6"}"#;
const DOWN: &str =
    r#"{"kind": "size", "process": "turn", "from": "12 mm", "to": "9.5 mm", "length": "24 mm"}"#;

fn order(operations: &[&str]) -> Node {
    let file = format!(
        r#"{{"format":"latheside-setup","version":1,"shop":{SHOP},"operations":[{}]}}"#,
        operations.join(",")
    );
    let setup = read_file(&file).unwrap_or_else(|why| panic!("{why}"));
    at(&answers(&setup), "order").clone()
}

/// The warnings' words.
fn said(order: &Node) -> Vec<&str> {
    items(at(order, "warnings")).iter().map(|warning| text(warning, "words")).collect()
}

fn proposed(order: &Node) -> Vec<usize> {
    let places = items(at(order, "proposed")).iter();
    places.map(|place| if let Node::Whole(n) = place { *n as usize } else { 99 }).collect()
}

#[test]
fn jaws_on_a_thread() {
    let hold = |holder: &str| {
        format!(r#"{{"kind": "hold", "in": "{holder}", "on": "the far end", "surface": "thread"}}"#)
    };
    let found = order(&[BSF, DOWN, TAP, &hold("three-jaw")]);
    assert!(
        said(&found).contains(&"4 grips the thread cut in 1: a collet or a split bush"),
        "{found:?}"
    );
    assert!(says(&found, "warnings", "bruise"), "with its reason");
    // By its diameter too: 3/8 in is 9.525 mm.
    let by_size = r#"{"kind": "hold", "in": "three-jaw", "diameter": "9.5 mm"}"#;
    assert_eq!(
        said(&order(&[BSF, by_size])),
        ["2 grips the thread cut in 1: a collet or a split bush"]
    );
    for soft in ["10 mm collet", "a split bush of brass"] {
        assert!(said(&order(&[BSF, &hold(soft)])).is_empty(), "{soft}");
    }
    // Before there is a thread there is nothing to bruise.
    assert!(said(&order(&[&hold("three-jaw"), BSF])).is_empty());
}

#[test]
fn skimming_after_graduating() {
    // 32 mm down by 6 thou on the diameter is 3 thou of the 5: 2 are left.
    let skim = r#"{"kind": "size", "process": "turn", "from": "32 mm", "to": "31.8476 mm", "length": "8 mm"}"#;
    let found = order(&[LINES, skim]);
    assert_eq!(said(&found), ["skimming in 2 after graduating in 1 leaves 2 of 5 thou of line"]);
    assert_eq!(proposed(&found), [1, 0], "the skim first");
    assert!(said(&order(&[skim, LINES])).is_empty());
    let deep =
        r#"{"kind": "size", "process": "turn", "from": "32 mm", "to": "31 mm", "length": "8 mm"}"#;
    assert_eq!(
        said(&order(&[LINES, deep])),
        ["skimming in 2 after graduating in 1 leaves nothing of its lines"]
    );
    // Another diameter has nothing to do with it.
    assert!(said(&order(&[LINES, DOWN])).is_empty());
    let finish = r#"{"kind": "cut", "process": "finish", "stock": "brass", "diameter": "32 mm", "depth": "1 thou"}"#;
    assert_eq!(
        said(&order(&[LINES, finish])),
        ["skimming in 2 after graduating in 1 leaves 4 of 5 thou of line"]
    );
}

#[test]
fn nothing_left_to_hold() {
    let found = order(&[DOWN, OFF, TAP]);
    assert_eq!(said(&found), ["after parting off in 2 nothing is left to hold for tapping in 3"]);
    assert_eq!(proposed(&found), [0, 2, 1]);
    // Held again, it can be tapped.
    let hold = r#"{"kind": "hold", "in": "10 mm collet", "on": "the plain end"}"#;
    let held = order(&[OFF, hold, TAP]);
    assert!(said(&held).is_empty(), "{held:?}");
    // Two of them after it: both come before, in their order.
    assert_eq!(proposed(&order(&[OFF, DOWN, TAP])), [1, 2, 0]);
}

#[test]
fn what_a_later_cut_takes_away() {
    assert_eq!(
        said(&order(&[
            BSF,
            r#"{"kind": "size", "process": "turn", "from": "9.525 mm", "to": "9 mm", "length": "5 mm"}"#
        ])),
        ["2 turns away the crests of the thread cut in 1"]
    );
    assert_eq!(
        said(&order(&[
            TAP,
            r#"{"kind": "size", "process": "bore", "from": "5 mm", "to": "8 mm", "length": "9 mm"}"#
        ])),
        ["2 bores into the thread made in 1"]
    );
    assert_eq!(
        said(&order(&[
            TAP,
            r#"{"kind": "size", "process": "face", "from": "25.6 mm", "to": "25 mm", "diameter": "20 mm"}"#
        ])),
        ["facing in 2 takes 0.6 mm off the thread made in 1"]
    );
    let flats = r#"{"kind": "divide", "into": 6, "diameter": "12 mm", "marks": "flats", "across": "10 mm"}"#;
    let found = order(&[flats, BSF]);
    assert_eq!(said(&found), ["2 cuts a thread over the edges made in 1"]);
    assert_eq!(proposed(&found), [1, 0]);
    let knurl =
        r#"{"kind": "cut", "process": "knurl", "stock": "mild-steel", "diameter": "20 mm"}"#;
    assert_eq!(said(&order(&[DOWN, knurl])), ["knurling in 2 presses on what is finished in 1"]);
    let between = r#"{"kind": "taper", "ratio": "1/20", "between_centres": "200 mm"}"#;
    let found = order(&[between, DOWN]);
    assert_eq!(said(&found), ["after 1 the tailstock is set over: set it back before 2"]);
    assert!(proposed(&found).is_empty(), "that is mended by no order");
}

#[test]
fn held_again_it_runs_out() {
    let hold = r#"{"kind": "hold", "in": "three-jaw", "on": "the plain end"}"#;
    let found = order(&[DOWN, hold, BSF]);
    assert_eq!(
        said(&found),
        ["held again in 2, screw-cutting in 3 runs out by up to 0.08 mm to what was made in 1"]
    );
    let trued =
        r#"{"kind": "hold", "in": "three-jaw", "on": "the plain end", "true_to": "the shank"}"#;
    assert!(said(&order(&[DOWN, trued, BSF])).is_empty());
}

#[test]
fn a_rehearsal_for_what_cannot_be_taken_back() {
    let found = order(&[DOWN, LINES]);
    assert!(
        text(&found, "rehearse.words").starts_with("Rehearse 2 on the off-cut: ten divisions"),
        "{found:?}"
    );
    // On a blank with nothing in it yet there is nothing to lose; alone, nothing to say.
    assert_eq!(order(&[LINES]), Node::Null);
    assert_eq!(order(&[DOWN, BSF]), Node::Null);
}

#[test]
fn it_is_never_a_block_and_never_goes_round_in_circles() {
    // Each is better before the other: the order stays, and both are said.
    let skim = r#"{"kind": "size", "process": "turn", "from": "9.525 mm", "to": "9 mm", "length": "5 mm"}"#;
    let found = order(&[OFF, BSF, skim, BSF, skim, TAP, LINES]);
    assert!(said(&found).len() > 4);
    let thousand = vec![TAP; 1000];
    assert_eq!(order(&thousand), Node::Null);
    let file = order(&[]);
    assert_eq!(file, Node::Null);
}
