//! A procedure spoilt in one action, as a person might read it wrong, skip it or do it twice.

use super::random::Random;
use super::runner::{Deed, carried};
use latheside_core::lathe::Lathe;
use latheside_core::procedure::{Action, Adjustable, Running, Slide};
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

impl Mutant {
    /// The action as it was and as it is.
    pub(crate) fn how(&self, deeds: &[Deed]) -> String {
        let json = |deeds: &[Deed]| {
            deeds.get(self.at).map(|(_, action)| serde_json::to_string(action).unwrap())
        };
        format!(
            "{:?} -> {:?}",
            json(deeds).unwrap_or_default(),
            json(&self.deeds).unwrap_or_default()
        )
    }
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
            return Some(Mutant {
                sort,
                what: format!(
                    "{} at {}",
                    what(&deeds[at].1),
                    deeds[at].0.split('/').next().unwrap_or("")
                ),
                deeds: spoilt,
                at,
            });
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

/// Why a mutant that nobody noticed does no harm; none where it should have been noticed.
///
/// Only what is seen to come to the same by comparing both runs, never the kind of action alone:
/// - machine and part stand just the same after it, so that whatever follows is the same: two looks in the
///   other order, a second look, a look at what an action before it made so;
/// - a slide that wasn't moved, or was moved otherwise, is moved again before anything but a slide's place
///   matters, and all stands the same from there on;
/// - a cutter that is clear is drawn farther from the work, or moved a line more or less in the air, and
///   the finished part is the very same;
/// - a compound that nothing moves lies square the other way.
pub(crate) fn harmless(deeds: &[Deed], mutant: &Mutant, shop: &Shop) -> Option<&'static str> {
    let action = &deeds[mutant.at].1;
    let (own, other) = match mutant.sort {
        Sort::Doubled => (mutant.at + 1, mutant.at + 2),
        Sort::Swapped => (mutant.at + 2, mutant.at + 2),
        Sort::Dropped | Sort::LeftRunning => (mutant.at + 1, mutant.at),
        _ => (mutant.at + 1, mutant.at + 1),
    };
    let after = |deeds: &[Deed], count: usize| {
        let mut lathe = Lathe::new(shop);
        for (step, action) in deeds.iter().take(count) {
            lathe.carry_out(step, action);
        }
        lathe
    };
    let (mut one, mut two) = (after(deeds, own), after(&mutant.deeds, other));
    if one.stands_as(&two) {
        return Some("all stands the same after it");
    }
    if moves_slide(action) || mutant.sort == Sort::Swapped && moves_slide(&deeds[mutant.at + 1].1) {
        for (step, action) in &deeds[own..] {
            if !moves_slide(action) && !matches!(action, Action::Look(_)) {
                break;
            }
            one.carry_out(step, action);
            two.carry_out(step, action);
            if one.stands_as(&two) {
                return Some("the slide is moved again before anything else is done");
            }
        }
    }
    let same_part = || carried(deeds, shop).part == carried(&mutant.deeds, shop).part;
    let farther = mutant.sort == Sort::Doubled && matches!(action, Action::Clear { .. });
    if farther && same_part() {
        return Some("a cutter that is clear is drawn farther off");
    }
    let line = matches!(mutant.sort, Sort::OneLineOff | Sort::Farther);
    if line && same_part() {
        return Some("a line in the air, or that a later cut takes away");
    }
    let square = matches!(action, Action::SquareUp { what: Adjustable::Compound, .. });
    let still = deeds.iter().all(|(_, action)| slide_of(action) != Some(Slide::Compound));
    if mutant.sort == Sort::OtherPlace && square && still && same_part() {
        return Some("a compound that nothing moves lies square either way");
    }
    None
}

fn slide_of(action: &Action) -> Option<Slide> {
    match action {
        Action::Wind { slide, .. }
        | Action::Clear { slide, .. }
        | Action::Touch { slide, .. }
        | Action::Feed { slide, .. } => Some(*slide),
        _ => None,
    }
}

/// Whether it moves a slide and cuts nothing.
fn moves_slide(action: &Action) -> bool {
    matches!(action, Action::Wind { .. } | Action::Clear { .. } | Action::Touch { .. })
}
