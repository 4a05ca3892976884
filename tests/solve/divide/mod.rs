//! Divided circles from a setup file to their answers, beside what is printed.

mod angles;
mod card;
mod every_circle;
mod flats;
mod steps;
mod ways;

use latheside_core::exact::Ratio;
use latheside_core::operation::{Mark, Picture, Step, Tone};
use latheside_core::record::Node;
use latheside_tests::solved::{answer, at, card, fact, found, items, lines, needs, number, text};
use proptest::prelude::*;

const HEAD: &str = r#"{"name":"head","dividing":{"head":{"worm_ratio":40,
  "plates":[[15,16,17,18,19,20],[21,23,27,29,31,33],[37,39,41,43,47,49]],
  "gears":[24,24,28,32,40,44,48,56,64,72,86,100],"pairs_max":2}}}"#;
const NO_GEARS: &str = r#"{"name":"head","dividing":{"head":{"worm_ratio":40,
  "plates":[[15,16,17,18,19,20],[21,23,27,29,31,33],[37,39,41,43,47,49]]}}}"#;
const GEAR: &str = r#"{"name":"gear","lathe":{"change_gears":[60,45,127]},
  "dividing":{"direct":[80],"any_change_gear":true,"half_tooth":true}}"#;

const ARMY: &str = "US Army OD1644 Milling Machine Operations, lesson 1";
const TREATISE: &str = "Practical Treatise on Milling and Milling Machines, p. 56";
const COMPUTED: &str = "independent computation in exact fractions";

fn divide(shop: &str, into: u32) -> Node {
    answer(shop, &format!(r#"{{"kind":"divide","into":{into},"diameter":"32 mm"}}"#))
}

fn whole(node: &Node, path: &str) -> i64 {
    match at(node, path) {
        Node::Whole(n) => *n,
        other => panic!("{path}: {other:?}"),
    }
}

/// Every step of a division, in the order in which it is said.
fn said(step: &Step) -> String {
    latheside_tests::solved::said(step)
}

fn in_order(text: &str, parts: &[&str]) -> bool {
    let mut rest = text;
    parts.iter().all(|part| match rest.find(part) {
        Some(from) => {
            rest = &rest[from + part.len()..];
            true
        }
        None => false,
    })
}

/// A shop with dials, a drill chuck that runs out and a slot drill.
const FULL: &str = r#"{"name":"full",
  "lathe":{"dials":{"cross":{"division":"0.02 mm","divisions":125,"reads":"radius"},
                    "carriage":{"division":"0.1 mm","divisions":180}}},
  "holding":[{"name":"drill chuck","kind":"chuck","to":"10 mm","run_out":"0.08 mm"},
             {"name":"collet","kind":"collet","to":"10 mm"}],
  "cutters":[{"name":"slot drill","kind":"end-mill","diameter":"3 mm","teeth":2,"material":"hss"},
             {"name":"saw","kind":"slitting-saw","diameter":"50 mm","width":"1 mm","material":"hss"},
             {"name":"fly","kind":"form-tool","width":"1 mm","teeth":1,"material":"hss"}],
  "dividing":{"direct":[72,24],"head":{"worm_ratio":40,
    "plates":[[15,16,17,18,19,20],[21,23,27,29,31,33],[37,39,41,43,47,49]],
    "gears":[24,24,28,32,40,44,48,56,64,72,86,100],"pairs_max":2}}}"#;

fn steps_of(shop: &str, operation: &str) -> Vec<Step> {
    let found = found(shop, operation);
    let steps = found.steps();
    (0..steps.len()).map(|at| steps.get(at).unwrap()).collect()
}

/// Where the work stands for a place by way 0, in turns of the work, worked out afresh from the
/// head: the crank's turns over the ratio, less what the gears add.
fn stands(found: &Node, place: &Node) -> Ratio {
    let turns = |pin: &Node, circle: i64| {
        let hole = if circle > 0 { whole(pin, "hole") } else { 0 };
        Ratio::whole(whole(pin, "turns")).add(Ratio::of(hole, circle.max(1))).unwrap()
    };
    let way = at(found, "ways.0");
    let circle = |path: &str| match at(way, path) {
        Node::Whole(n) => *n,
        _ => 0,
    };
    let ratio = Ratio::whole(40);
    match text(way, "method") {
        "direct" => Ratio::of(whole(place, "tooth"), whole(way, "positions")),
        "plain" => turns(place, circle("circle")).div(ratio).unwrap(),
        "compound" => {
            let crank = turns(at(place, "crank"), circle("first.circle"));
            let plate = turns(at(place, "plate"), circle("second.circle"));
            crank.add(plate).unwrap().div(ratio).unwrap()
        }
        "differential" => {
            let gears = items(at(way, "gears")).iter().fold(Ratio::ONE, |size, pair| {
                size.mul(Ratio::of(whole(pair, "0"), whole(pair, "1"))).unwrap()
            });
            let against = text(way, "ratio").starts_with('-');
            let plate = if against { gears.neg() } else { gears };
            turns(place, circle("circle")).div(ratio.sub(plate).unwrap()).unwrap()
        }
        other => panic!("{other}"),
    }
}
