//! A procedure spoilt in one action, as a person might read it wrong, skip it or do it twice.

use super::random::Random;
use super::runner::{Deed, carried};
use latheside_core::lathe::Lathe;
use latheside_core::procedure::{Action, Running};
use latheside_core::shop::Shop;
use serde_json::{Value, json};

/// How an action is spoilt.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Sort {
    Dropped,
    Doubled,
    Swapped,
    OtherSlide,
    OtherWay,
    OneLineOff,
    OtherLock,
    LeftRunning,
    WrongHole,
    OtherPlace,
    OtherHeight,
    Farther,
}

pub(crate) const SORTS: &[Sort] = &[
    Sort::Dropped,
    Sort::Doubled,
    Sort::Swapped,
    Sort::OtherSlide,
    Sort::OtherWay,
    Sort::OneLineOff,
    Sort::OtherLock,
    Sort::LeftRunning,
    Sort::WrongHole,
    Sort::OtherPlace,
    Sort::OtherHeight,
    Sort::Farther,
];

/// A spoilt procedure.
#[derive(Clone, Debug)]
pub(crate) struct Mutant {
    pub(crate) sort: Sort,
    /// What was spoilt, by what it does.
    pub(crate) what: String,
    pub(crate) deeds: Vec<Deed>,
    /// Which action.
    pub(crate) at: usize,
}

fn what(action: &Action) -> String {
    let json = serde_json::to_value(action).unwrap();
    let of = ["what", "that", "of", "slide"].into_iter().find_map(|key| json[key].as_str());
    format!("{} {}", json["do"].as_str().unwrap(), of.unwrap_or("")).trim().to_owned()
}

/// Spoils one action at random; none where that sort has nothing to spoil there.
pub(crate) fn mutant(deeds: &[Deed], sort: Sort, random: &mut Random) -> Option<Mutant> {
    // A long procedure is the same over and over: its places are drawn evenly all the same.
    let start = random.below(deeds.len());
    let order = (start..deeds.len()).chain(0..start);
    for at in order.take(60) {
        if let Some(spoilt) = spoilt(deeds, at, sort, random) {
            return Some(Mutant { sort, what: what(&deeds[at].1), deeds: spoilt, at });
        }
    }
    None
}

fn spoilt(deeds: &[Deed], at: usize, sort: Sort, random: &mut Random) -> Option<Vec<Deed>> {
    let (step, action) = &deeds[at];
    // Any whole turn takes up the slack, before anything is counted.
    if step.starts_with("slack/") && sort == Sort::WrongHole {
        return None;
    }
    // Once round is the same either way.
    let round = matches!(action, Action::TurnByHand { turns: Some(_), .. });
    if round && sort == Sort::OtherWay {
        return None;
    }
    let mut new = deeds.to_vec();
    let running = |action: &Action| matches!(action, Action::Spindle { is: Running::Stopped, .. });
    match sort {
        Sort::Dropped => {
            new.remove(at);
        }
        Sort::Doubled => new.insert(at, deeds[at].clone()),
        Sort::Swapped => {
            let next = deeds.get(at + 1)?;
            if next.1 == *action {
                return None;
            }
            new[at] = (step.clone(), next.1.clone());
            new[at + 1] = (next.0.clone(), action.clone());
        }
        Sort::LeftRunning => {
            if !running(action) {
                return None;
            }
            new.remove(at);
        }
        _ => {
            let mut json = serde_json::to_value(action).unwrap();
            if !altered(&mut json, sort, random) {
                return None;
            }
            let altered: Action = serde_json::from_value(json).ok()?;
            if altered == *action {
                return None;
            }
            new[at].1 = altered;
        }
    }
    Some(new)
}

/// Alters a field of an action; whether it has one to alter.
fn altered(json: &mut Value, sort: Sort, random: &mut Random) -> bool {
    let done = json["do"].as_str().unwrap_or("").to_owned();
    let has = |json: &Value, key: &str| json.get(key).is_some();
    match sort {
        Sort::OtherSlide if has(json, "slide") && done != "look" => {
            let own = json["slide"].clone();
            let others: Vec<&str> =
                ["carriage", "cross", "compound"].into_iter().filter(|one| own != *one).collect();
            json["slide"] = json!(random.one(&others));
            // Each goes its own ways.
            let inward = ["in", "headstock"].iter().any(|way| json["toward"] == *way);
            let ways = if json["slide"] == "carriage" {
                ["headstock", "tailstock"]
            } else {
                ["in", "out"]
            };
            if has(json, "toward") {
                json["toward"] = json!(ways[usize::from(!inward)]);
            }
            if has(json, "from") {
                json["from"] = json!(ways[usize::from(inward)]);
            }
            true
        }
        Sort::OtherWay => {
            for key in ["toward", "way"] {
                let other = match json[key].as_str() {
                    Some("in") => "out",
                    Some("out") => "in",
                    Some("headstock") => "tailstock",
                    Some("tailstock") => "headstock",
                    Some("forward") => "back",
                    Some("back") => "forward",
                    _ => continue,
                };
                json[key] = json!(other);
                return done != "look";
            }
            if done == "spindle" && json["is"] == "forward" {
                json["is"] = json!("reverse");
                return true;
            }
            false
        }
        Sort::OneLineOff if matches!(done.as_str(), "wind" | "feed") && has(json, "to") => {
            let lines = json["to"]["lines"].as_u64().unwrap_or(0);
            json["to"]["lines"] = json!(lines + 1);
            if let Some(mark) = json["to"].get("mark").and_then(Value::as_u64) {
                // The mark is read with it, whichever way the dial grows.
                json["to"]["mark"] = json!(if mark == lines { mark + 1 } else { mark.max(1) - 1 });
            }
            true
        }
        Sort::OtherLock if matches!(done.as_str(), "lock" | "unlock") => {
            let own = json["what"].clone();
            let locks = ["lathe-spindle", "head", "carriage", "cross", "compound", "tailstock"];
            let others: Vec<&str> = locks.into_iter().filter(|one| own != *one).collect();
            json["what"] = json!(random.one(&others));
            true
        }
        Sort::WrongHole => match done.as_str() {
            "turn-crank" if json["holes"].as_u64().unwrap_or(0) > 0 => {
                json["holes"] = json!(json["holes"].as_u64().unwrap_or(0) + 1);
                true
            }
            "turn-crank" => {
                json["turns"] = json!(json["turns"].as_u64().unwrap_or(0) + 1);
                true
            }
            "turn-plate" => {
                json["holes"] = json!(json["holes"].as_u64().unwrap_or(0) + 1);
                true
            }
            "turn-by-hand" if has(json, "teeth") => {
                let teeth = json["teeth"].as_str().and_then(|teeth| teeth.parse::<u64>().ok());
                teeth.is_some_and(|teeth| {
                    json["teeth"] = json!((teeth + 1).to_string());
                    true
                })
            }
            _ => false,
        },
        Sort::OtherPlace => match done.as_str() {
            "touch" => {
                let own = json["face"].clone();
                let others: Vec<&str> =
                    ["rim", "end", "bore"].into_iter().filter(|one| own != *one).collect();
                json["face"] = json!(random.one(&others));
                true
            }
            "crank-pin" | "stop-pin" | "detent" | "worm" | "power-feed" | "half-nuts" | "key" => {
                json["is"] = json!(if json["is"] == "in" { "out" } else { "in" });
                true
            }
            "guard" => {
                json["is"] = json!(if json["is"] == "shut" { "open" } else { "shut" });
                true
            }
            "mount" if json["what"] == "pin" => {
                json["circle"] = json!(json["circle"].as_u64().unwrap_or(0) + 1);
                true
            }
            "square-up" => {
                json["to"] = json!(if json["to"] == "along" { "across" } else { "along" });
                true
            }
            "mount" if json["what"] == "cutter" && has(json, "axis") => {
                json["axis"] = json!(if json["axis"] == "along" { "across" } else { "along" });
                true
            }
            "mount" if json["what"] == "head" => {
                json["axis"] = json!(if json["axis"] == "along" { "across" } else { "along" });
                true
            }
            _ => false,
        },
        Sort::OtherHeight if done == "set-height" => {
            json["above"] = json!(random.one(&["3 mm", "-3 mm"]));
            true
        }
        Sort::Farther if done == "feed" && has(json, "over") => {
            json["over"] = json!("2.345 mm");
            true
        }
        _ => false,
    }
}

fn squared_otherwise(sort: Sort, action: &Action) -> bool {
    sort == Sort::OtherPlace && matches!(action, Action::SquareUp { .. })
}

/// Why a mutant that nobody noticed does no harm; none where it should have been noticed.
///
/// A narrow rule: oil, a brush or a wait left out or given twice; drawn back twice, or wound or fed a line
/// farther, where the finished part is the very same; and what leaves the machine and the part just
/// as they would have been, so that it was a second look at the same, or two things in the other order.
pub(crate) fn harmless(deeds: &[Deed], mutant: &Mutant, shop: &Shop) -> Option<&'static str> {
    let action = &deeds[mutant.at].1;
    let tends = matches!(
        action,
        Action::Oil { .. } | Action::Clean { .. } | Action::Wait { .. } | Action::Deburr { .. }
    );
    if tends && matches!(mutant.sort, Sort::Dropped | Sort::Doubled) {
        return Some("oil, brush or wait");
    }
    let drawn_back = mutant.sort == Sort::Doubled && matches!(action, Action::Clear { .. });
    let lies = squared_otherwise(mutant.sort, action);
    if lies && carried(deeds, shop).part == carried(&mutant.deeds, shop).part {
        return Some("a compound that is locked and never moved lies square either way");
    }
    let line = matches!(mutant.sort, Sort::OneLineOff | Sort::Farther);
    if (drawn_back || line) && carried(deeds, shop).part == carried(&mutant.deeds, shop).part {
        return Some(if line {
            "a line more in the air, or where a later cut takes it away"
        } else {
            "drawn back farther"
        });
    }
    let after = |deeds: &[Deed], count: usize| {
        let mut lathe = Lathe::new(shop);
        for (step, action) in deeds.iter().take(count) {
            lathe.carry_out(step, action);
        }
        lathe
    };
    let (own, other, why) = match (mutant.sort, action) {
        (Sort::Doubled, _) => (mutant.at + 1, mutant.at + 2, "done twice, nothing changes"),
        (Sort::Swapped, _) => (mutant.at + 2, mutant.at + 2, "in the other order, all the same"),
        (Sort::Dropped, Action::Look(_)) => {
            (mutant.at + 1, mutant.at, "a look at what was made so just before")
        }
        (Sort::Dropped | Sort::LeftRunning, _) => {
            (mutant.at + 1, mutant.at, "done already, or done again in the same step")
        }
        _ => (mutant.at + 1, mutant.at + 1, "nothing changes: nought is nought either way"),
    };
    // At once, or once the step is done.
    let step = &deeds[mutant.at].0;
    let more = deeds[own.min(deeds.len())..].iter().take_while(|(id, _)| id == step).count();
    let same = |more| after(deeds, own + more).stands_as(&after(&mutant.deeds, other + more));
    (same(0) || same(more)).then_some(why)
}
