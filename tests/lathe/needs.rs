//! What can't be made says what it needs: with that added, it is made.

use super::setups::Case;
use serde_json::{Value, json};

/// So many things may be lacking one after the other.
const MOST: usize = 8;

/// The case with what an answer says that it needs; none where nothing here knows what that is.
pub(crate) fn added(case: &Case, needs: &str) -> Option<Case> {
    let mut case = case.clone();
    let (entries, shop) = (&mut case.entries, &mut case.shop);
    let drop = |entries: &mut Value, key: &str| {
        entries.as_object_mut().unwrap().remove(key);
    };
    let marks = entries["marks"].as_str().unwrap_or("").to_owned();
    let in_head = entries["work_in"] == "head-on-cross-slide";
    match needs {
        "operation.length" => entries["length"] = json!("4 mm"),
        "operation.diameter" => entries["diameter"] = json!("40 mm"),
        "operation.depth" => match marks.as_str() {
            "flats" => {
                entries["across"] = nearly_round(entries);
            }
            _ => entries["depth"] = json!("0.1 mm"),
        },
        "operation.measured" => drop(entries, "measured"),
        "operation.width" => entries["width"] = json!("60 mm"),
        "operation.line_width" => drop(entries, "line_width"),
        // A worm turns its head's own spindle, and a head's cutter is in the lathe spindle.
        "operation.work_in" => {
            entries["work_in"] = json!("head-on-cross-slide");
            entries["cutter_in"] = json!("lathe-spindle");
        }
        "operation.cutter_in" if in_head => {
            entries["cutter_in"] = json!("lathe-spindle");
            drop(entries, "cutter");
        }
        "operation.cutter_in" => entries["cutter_in"] = json!("driven-spindle-on-slide"),
        "operation.cutter" => match (marks.as_str(), entries["process"].as_str()) {
            ("flats", _) => {
                drop(entries, "cutter");
                entries["width"] = json!("60 mm");
            }
            ("holes", _) => {
                drop(entries, "width");
                mounted(entries, shop, json!({ "kind": "end-mill", "diameter": "2 mm" }));
            }
            ("slots", _) => {
                drop(entries, "width");
                entries["depth"] = json!("2 mm");
                mounted(entries, shop, json!({ "kind": "end-mill", "diameter": "0.2 mm" }));
            }
            (_, Some("bore")) => drop(entries, "cutter"),
            _ => drop(entries, "cutter"),
        },
        "shop.cutters" => drop(entries, "cutter"),
        "shop.lathe.spindle_speeds" => {
            shop["lathe"]["spindle_speeds"] = json!([5, 12, 30, 75, 120, 210, 350, 560, 900, 1400]);
        }
        "shop.holding" => {
            let takes =
                json!({ "name": entries["in"], "kind": "chuck", "from": "1 mm", "to": "90 mm" });
            let own = |one: &Value| one["name"] != entries["in"];
            let all = shop["holding"].as_array().cloned().unwrap_or_default();
            let all = all.into_iter().filter(own).chain([takes]);
            shop["holding"] = Value::Array(all.collect());
        }
        "shop.indicators" => {
            shop["indicators"] = json!([{ "division": "0.01 mm", "travel": "10 mm" }]);
        }
        "shop.dividing" | "shop.dividing.head.gears" => exact(entries, shop),
        _ => return None,
    }
    Some(case)
}

/// A shop that makes the places exactly, whatever they are: a gear or plate of as many teeth, or a circle of
/// as many holes as the angles have in common.
fn exact(entries: &Value, shop: &mut Value) {
    let into = entries["into"].as_u64().or_else(|| entries["holes"].as_u64());
    shop["dividing"] = match into {
        Some(into) => json!({ "direct": [into.max(2)] }),
        // Angles here are whole degrees and thirds, halves or fifths of one.
        None => json!({ "head": { "worm_ratio": 360, "plates": [[30]] } }),
    };
}

fn nearly_round(entries: &Value) -> Value {
    let text = entries["diameter"].as_str().unwrap_or("40 mm");
    let mm: f64 = text.trim_end_matches(" mm").parse().unwrap();
    json!(format!("{:.2} mm", mm * 0.97))
}

/// A cutter of its own in the shop, and named.
fn mounted(entries: &mut Value, shop: &mut Value, mut cutter: Value) {
    cutter["name"] = json!("another");
    match shop["cutters"].as_array_mut() {
        Some(all) => all.push(cutter),
        None => shop["cutters"] = json!([cutter]),
    }
    entries["cutter"] = json!("another");
}

/// The case with all that it needs, one thing after the other; else what is wrong.
pub(crate) fn made_at_last(
    case: &Case,
    needs: &str,
    unmade: impl Fn(&Case) -> Option<String>,
) -> Result<(), String> {
    let mut case = case.clone();
    let mut needs = needs.to_owned();
    let mut before = Vec::new();
    for _ in 0..MOST {
        case = added(&case, &needs).ok_or_else(|| format!("nobody knows how {needs} is added"))?;
        before.push(needs);
        match unmade(&case) {
            None => return Ok(()),
            Some(next) => needs = next,
        }
    }
    Err(format!("with {} it is unmade still, {}", before.join(", "), case.setup()))
}
