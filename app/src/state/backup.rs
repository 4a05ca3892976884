//! Everything that is kept, as one file, and back again to the byte.

use super::slots::{self, Keeper};
use super::{Run, Saved, saved};
use latheside_core::record::Node;

const FORMAT: &str = "latheside-backup";
const VERSION: i64 = 1;

/// Whether a text means to be a backup.
pub(crate) fn is_backup(text: &str) -> bool {
    text.get(..200).unwrap_or(text).contains(FORMAT)
}

/// Every record and whatever was set aside.
pub(crate) fn backup(keeper: &impl Keeper) -> String {
    let text = |text: String| Node::Text(text);
    let names = slots::names(keeper, "").into_iter();
    let records = names
        .filter_map(|name| Some((slots::read(keeper, &name).content?, name)))
        .map(|(c, name)| (name, text(c)));
    let records = Node::Object(records.collect());
    let aside = slots::aside(keeper).into_iter().map(|(key, held)| (key, text(held)));
    let pairs = vec![
        ("format".to_owned(), Node::from(FORMAT)),
        ("version".to_owned(), Node::Whole(VERSION)),
        ("records".to_owned(), records),
        ("aside".to_owned(), Node::Object(aside.collect())),
    ];
    serde_json::to_string(&Node::Object(pairs)).unwrap_or_default()
}

fn pairs<'a>(node: &'a Node, key: &str) -> Vec<(&'a str, &'a str)> {
    match node.get(key) {
        Some(Node::Object(pairs)) => {
            pairs.iter().filter_map(|(name, held)| Some((name.as_str(), held.as_text()?))).collect()
        }
        _ => Vec::new(),
    }
}

fn plain(name: &str) -> bool {
    name.len() <= 60 && name.chars().all(|c| c.is_ascii_alphanumeric() || c == '.' || c == '-')
}

/// Whether a record can be used here.
fn readable(name: &str, content: &str) -> bool {
    match name.split_once('.') {
        None if name == "shop" || name == "before" => saved::shop_from_text(content).is_some(),
        Some(("setup", id)) => Saved::from_text(id, content).is_some(),
        Some(("run", _)) => Run::from_text(content).is_some(),
        _ => plain(name),
    }
}

/// Puts back what a backup holds, all of it or nothing, and says which records have changed. What
/// stands in its place and is another is kept beside it; only an `untouched` example makes way.
pub(crate) fn restore(
    keeper: &impl Keeper,
    text: &str,
    untouched: impl Fn(&str, &str) -> bool,
) -> Result<Vec<String>, String> {
    let node: Node = serde_json::from_str(text)
        .map_err(|_| "this backup breaks off or is damaged: nothing was changed".to_owned())?;
    match (node.get("format").and_then(Node::as_text), node.get("version")) {
        (Some(FORMAT), Some(Node::Whole(VERSION))) => {}
        (Some(FORMAT), Some(Node::Whole(n))) if *n > VERSION => {
            return Err(
                "this backup was made by a newer Latheside: update, then open it".to_owned()
            );
        }
        _ => return Err("this is no backup: nothing was changed".to_owned()),
    }
    let records = pairs(&node, "records");
    if let Some((name, _)) =
        records.iter().find(|(name, held)| !plain(name) || !readable(name, held))
    {
        let name: String = name.chars().take(60).collect();
        return Err(format!("“{name}” in this backup can't be read: nothing was changed"));
    }
    let full = |()| "the device's storage is full: not everything was put back".to_owned();
    let write = |name: &str, held: &str| slots::write(keeper, name, held).map_err(|_| full(()));
    let mut changed = Vec::new();
    let has_before = records.iter().any(|(name, _)| *name == "before");
    for name in slots::names(keeper, "") {
        let here = slots::read(keeper, &name).content.unwrap_or_default();
        let is_setup = name.starts_with("setup.");
        let other = records.iter().find(|(other, _)| *other == name).map(|(_, held)| *held);
        if other == Some(here.as_str()) {
            continue;
        }
        match other {
            None if is_setup && untouched(&name, &here) => {
                slots::forget(keeper, &name);
                changed.push(name);
            }
            // What is half typed in it goes with it, and the run stays with the one put back.
            Some(_) if is_setup => {
                let free = (2..).map(|n| format!("{name}-{n}"));
                let mut free = free.filter(|free| slots::read(keeper, free).content.is_none());
                let free = free.next().unwrap_or_default();
                write(&free, &here)?;
                changed.push(free);
            }
            Some(_) if name == "shop" && !untouched(&name, &here) && !has_before => {
                write("before", &here)?;
            }
            _ => {}
        }
    }
    for (name, held) in records {
        if slots::read(keeper, name).content.as_deref() != Some(held) {
            write(name, held)?;
            changed.push(name.to_owned());
        }
    }
    for (key, held) in pairs(&node, "aside") {
        if key.starts_with("latheside.aside.")
            && keeper.get(key).is_none()
            && !keeper.set(key, held)
        {
            return Err(full(()));
        }
    }
    Ok(changed)
}

#[cfg(test)]
mod tests {
    use super::super::slots::tests::Memory;
    use super::*;
    use latheside_core::setup;

    fn filled() -> Memory {
        let memory = Memory::default();
        let example = setup::read_file(crate::demo::EXAMPLE).unwrap();
        let mut saved = Saved::new("k3x9".into(), example.clone(), true, 12.0);
        slots::write(&memory, "shop", &saved::shop_to_text(&example.shop, &[])).unwrap();
        saved.setup.note = "Ø 32 “quoted”\n\u{1f}".into();
        slots::write(&memory, "setup.k3x9", &saved.to_text()).unwrap();
        let mut run = Run::start(5.0, "2026-03-03 14:05:09".into());
        run.say("went-wrong", "0.05 under");
        slots::write(&memory, "run.k3x9", &run.to_text()).unwrap();
        slots::write(&memory, "theme", "sun").unwrap();
        slots::write(&memory, "seen", "1").unwrap();
        slots::set_aside(&memory, "latheside.setup.old.a", "1 2 damaged");
        memory
    }

    #[test]
    fn fault_11_all_evicted_a_backup_restores_to_the_byte() {
        let memory = filled();
        let file = backup(&memory);
        assert!(is_backup(&file) && !is_backup(crate::demo::EXAMPLE));
        let empty = Memory::default();
        let changed = restore(&empty, &file, |_, _| false).unwrap();
        assert_eq!(changed.len(), 5);
        assert_eq!(backup(&empty), file);
        // Once more changes nothing.
        assert!(restore(&empty, &file, |_, _| false).unwrap().is_empty());
        assert_eq!(backup(&empty), file);
        // A page that has begun again with its example makes way for it.
        let begun = Memory::default();
        slots::write(&begun, "setup.new", "example").unwrap();
        slots::write(&begun, "shop", "example").unwrap();
        restore(&begun, &file, |_, held| held == "example").unwrap();
        assert_eq!(backup(&begun), file);
    }

    #[test]
    fn what_stands_there_is_kept_beside_what_comes_back() {
        let memory = filled();
        let file = backup(&memory);
        let mut other =
            Saved::from_text("k3x9", &slots::read(&memory, "setup.k3x9").content.unwrap()).unwrap();
        other.setup.name = "Changed since".into();
        slots::write(&memory, "setup.k3x9", &other.to_text()).unwrap();
        let changed = restore(&memory, &file, |_, _| false).unwrap();
        assert_eq!(changed, ["setup.k3x9-2", "setup.k3x9"]);
        assert!(slots::read(&memory, "setup.k3x9-2").content.unwrap().contains("Changed since"));
        assert!(!slots::read(&memory, "setup.k3x9").content.unwrap().contains("Changed since"));
    }

    #[test]
    fn a_damaged_backup_changes_nothing() {
        let file = backup(&filled());
        for bad in [
            file[..file.len() / 2].to_owned(),
            file.replace("\"version\":1,\"records\"", "\"version\":9,\"records\""),
            file.replace("latheside-setup", "latheside-sepup"),
            file.replace("\"setup.k3x9\"", "\"setup.<b>\""),
            "{}".to_owned(),
            String::new(),
        ] {
            let memory = filled();
            let before = backup(&memory);
            assert!(restore(&memory, &bad, |_, _| false).is_err(), "{bad}");
            assert_eq!(backup(&memory), before);
        }
        // A full device says so, and what was there is still there.
        let memory = Memory::default();
        memory.writes_left.set(Some(1));
        let why = restore(&memory, &file, |_, _| false).unwrap_err();
        assert!(why.contains("full"), "{why}");
    }
}
