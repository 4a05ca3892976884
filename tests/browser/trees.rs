//! What a screen reader reads, in its order: the accessibility tree of each room, as an outline
//! that is kept and compared.

use crate::phone::Phone;
use crate::{Outcome, ensure};
use serde_json::{Value, json};
use std::collections::HashMap;
use std::fs;
use std::path::Path;

/// Where the outlines are kept.
const KEPT: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/browser/trees");

pub(crate) async fn every_room_is_read_in_order(phone: &mut Phone) -> Outcome {
    // The browser's offer to install the page comes when it comes.
    phone
        .before_load("addEventListener('beforeinstallprompt', (e) => e.stopImmediatePropagation())")
        .await?;
    phone.open("").await?;
    phone.find("#op-2 .setting").await?;
    let setup = phone.fragment().await?.trim_start_matches("#setup/").to_owned();
    let mut wrong = Vec::new();
    wrong.extend(compared(phone, "setup").await?);
    phone.open_blank("#blank-1-into").await?;
    wrong.extend(compared(phone, "keypad").await?);
    phone.tap("[data-do=done]").await?;
    phone.to("#shop").await?;
    phone.find("#shop .section").await?;
    wrong.extend(compared(phone, "shop").await?);
    phone.to("#setups").await?;
    phone.find(".entry").await?;
    wrong.extend(compared(phone, "setups").await?);
    phone.to(&format!("#bench/{setup}")).await?;
    phone.says(".bench-lit span", "0 of").await?;
    phone.tap("[data-do=forward]").await?;
    phone.says(".bench-lit span", "1 of").await?;
    phone.says(".bench-lit", "screen stays on").await?;
    wrong.extend(compared(phone, "bench").await?);
    ensure(wrong.is_empty(), wrong.join("\n"))
}

/// What differs from the outline that is kept.
async fn compared(phone: &Phone, room: &str) -> Outcome<Option<String>> {
    let all = phone.devtools("Accessibility.getFullAXTree", json!({})).await?;
    let nodes = all.get("nodes").and_then(Value::as_array).ok_or("there is no tree")?;
    let now = outline(nodes);
    ensure(now.lines().count() > 10, format!("{room}: next to nothing is read:\n{now}"))?;
    let kept = fs::read_to_string(Path::new(KEPT).join(format!("{room}.txt"))).unwrap_or_default();
    if now == kept {
        return Ok(None);
    }
    let to = phone.settings.shots.join(format!("tree-{room}.txt"));
    fs::create_dir_all(&phone.settings.shots)?;
    fs::write(&to, &now)?;
    let at = now.lines().zip(kept.lines()).position(|(now, kept)| now != kept);
    let at = at.unwrap_or_else(|| now.lines().count().min(kept.lines().count()));
    Ok(Some(format!(
        "{room} is read otherwise from line {}:\n  now:  {}\n  kept: {}\n\
         read {} as a screen reader would; if it is right, it belongs into tests/browser/trees/{room}.txt",
        at + 1,
        now.lines().nth(at).unwrap_or("its end"),
        kept.lines().nth(at).unwrap_or("its end"),
        to.display(),
    )))
}

/// Role and name of whatever is read, a level deeper for each that it stands in.
fn outline(nodes: &[Value]) -> String {
    let id = |node: &Value| node.get("nodeId").and_then(Value::as_str).map(str::to_owned);
    let by_id: HashMap<String, &Value> =
        nodes.iter().filter_map(|node| Some((id(node)?, node))).collect();
    let mut lines = String::new();
    if let Some(root) = nodes.first() {
        read(root, 0, &by_id, &mut lines);
    }
    lines
}

fn read(node: &Value, depth: usize, all: &HashMap<String, &Value>, lines: &mut String) {
    let said = |key: &str| node.get(key).and_then(|it| it.get("value")?.as_str()).unwrap_or("");
    let (role, name) = (said("role"), said("name"));
    // Boxes that mean nothing, and the letters that a name is made of.
    let silent = node.get("ignored") == Some(&Value::Bool(true))
        || matches!(role, "generic" | "none" | "InlineTextBox" | "LineBreak" | "ListMarker");
    if !silent {
        let states = node.get("properties").and_then(Value::as_array).into_iter().flatten();
        let states: String = states
            .filter_map(|state| {
                let name = state.get("name")?.as_str()?;
                let value = state.get("value")?.get("value")?;
                let told = ["expanded", "pressed", "checked", "disabled", "level", "live"];
                told.contains(&name).then(|| format!(" {name}={value}").replace('"', ""))
            })
            .collect();
        let name = name.replace('\u{a0}', " ");
        let name = if name.is_empty() { name } else { format!(" \"{name}\"") };
        lines.push_str(&format!("{}{role}{name}{states}\n", "  ".repeat(depth)));
    }
    // What is in an element that is read by its name alone needn't be read again.
    if matches!(role, "button" | "link" | "StaticText" | "heading") && !name.is_empty() {
        return;
    }
    let below = node.get("childIds").and_then(Value::as_array).into_iter().flatten();
    for child in below.filter_map(Value::as_str).filter_map(|id| all.get(id)) {
        read(child, depth + usize::from(!silent), all, lines);
    }
}
