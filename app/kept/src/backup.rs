//! Everything that is kept, as one file, and back again to the byte.

use crate::EXAMPLE;
use crate::slots::{self, Keeper};
use latheside_core::record::{Node, Record};
use latheside_core::setup::{self, Setup};
use std::cell::RefCell;
use std::collections::BTreeMap;

const FORMAT: &str = "latheside-backup";
const VERSION: i64 = 1;

/// The storage as it stands: its keys and texts.
#[derive(Clone, Default)]
pub struct Held(RefCell<BTreeMap<String, String>>);

impl Held {
    /// Out of the page's JSON of it.
    pub fn of(json: &str) -> Option<Held> {
        let node: Node = serde_json::from_str(json).ok()?;
        let Node::Object(pairs) = &node else { return None };
        let pairs = pairs.iter().filter_map(|(k, v)| Some((k.clone(), v.as_text()?.to_owned())));
        Some(Held(RefCell::new(pairs.collect())))
    }

    /// What has to be set, or taken away, to make of `before` this.
    pub fn since(&self, before: &Held) -> String {
        let (now, before) = (self.0.borrow(), before.0.borrow());
        let plain = |text: &str| !text.contains(['\u{1e}', '\u{1f}']);
        let set = now.iter().filter(|(key, text)| before.get(*key) != Some(text) && plain(text));
        let set = set.map(|(key, text)| format!("{key}\u{1f}{text}"));
        let gone = before.keys().filter(|key| !now.contains_key(*key));
        let gone = gone.map(|key| format!("{key}\u{1f}"));
        set.chain(gone).collect::<Vec<_>>().join("\u{1e}")
    }
}

impl Keeper for Held {
    fn get(&self, key: &str) -> Option<String> {
        self.0.borrow().get(key).cloned()
    }
    fn set(&self, key: &str, value: &str) -> bool {
        self.0.borrow_mut().insert(key.to_owned(), value.to_owned());
        true
    }
    fn remove(&self, key: &str) {
        self.0.borrow_mut().remove(key);
    }
    fn keys(&self) -> Vec<String> {
        self.0.borrow().keys().cloned().collect()
    }
}

/// The setup within a record of the page's.
fn within(content: &str) -> Option<(Node, Setup)> {
    let node: Node = serde_json::from_str(content).ok()?;
    let setup = setup::read_node(node.get("setup")?).ok()?;
    Some((node, setup))
}

/// Whether a record is the example's, nothing of it changed yet.
fn untouched(name: &str, content: &str) -> bool {
    let Ok(example) = setup::read_file(EXAMPLE) else { return false };
    let Some((node, setup)) = within(content) else { return false };
    let own = node.get("own").is_none_or(|own| *own == Node::Flag(true));
    let drafts = matches!(node.get("drafts"), Some(Node::List(drafts)) if !drafts.is_empty());
    let as_it_came = if name == "shop" {
        setup.shop == example.shop
    } else {
        Setup { shop: Record::empty(setup.shop.spec()), ..example } == setup
    };
    own && !drafts && as_it_came
}

/// Every record and whatever was set aside.
pub fn backup(keeper: &impl Keeper) -> String {
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
        None if name == "shop" || name == "before" => within(content).is_some(),
        Some(("setup", _)) => within(content).is_some(),
        Some(("run", _)) => matches!(serde_json::from_str(content), Ok(Node::List(_))),
        _ => plain(name),
    }
}

/// Puts back what a backup holds, all of it or nothing, and says which records have changed. What
/// stands in its place and is another is kept beside it; only an untouched example makes way.
///
/// # Errors
///
/// A sentence: the text is no backup, a newer page's or damaged, and nothing was changed; or the storage
/// is full.
pub fn restore(keeper: &impl Keeper, text: &str) -> Result<Vec<String>, String> {
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
    // Nothing of it changed, and no work on it under way.
    let makes_way = |name: &str, here: &str| {
        let run = name.replacen("setup.", "run.", 1);
        untouched(name, here) && slots::read(keeper, &run).content.is_none()
    };
    for name in slots::names(keeper, "") {
        let here = slots::read(keeper, &name).content.unwrap_or_default();
        let is_setup = name.starts_with("setup.");
        let other = records.iter().find(|(other, _)| *other == name).map(|(_, held)| *held);
        if other == Some(here.as_str()) {
            continue;
        }
        match other {
            None if is_setup && makes_way(&name, &here) => {
                slots::forget(keeper, &name);
                changed.push(name);
            }
            // What is half typed in it goes with it, and the run stays with the one put back.
            Some(_) if is_setup && !makes_way(&name, &here) => {
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
    use super::*;

    const SHOP: &str = r#"{"drafts":[["lathe","leadscrew","8 t"]],"setup":{"format":"latheside-setup","version":1,"name":"","note":"","shop":{"name":"mine"},"operations":[]}}"#;
    const SETUP: &str = r#"{"own":true,"touched":5,"drafts":[],"setup":{"format":"latheside-setup","version":1,"name":"Ø 32 “quoted”","note":"","shop":{},"operations":[],"record":[{"began":"2026-03-03 14:05:09","said":[]}]}}"#;

    fn filled() -> Held {
        let kept = Held::default();
        for (name, content) in [
            ("shop", SHOP),
            ("setup.k3x9", SETUP),
            ("setup.example", SETUP),
            ("run.k3x9", r#"[0,1,false,5,"cut 1",{"began":"2026-03-03 14:05:09"},"half ty"]"#),
            ("theme", "sun"),
            ("seen", "1"),
        ] {
            slots::write(&kept, name, content).unwrap();
        }
        slots::set_aside(&kept, "latheside.setup.old.a", "1 2 damaged");
        kept
    }

    /// A page that has begun again with its example, under a name of its own.
    fn begun(id: &str) -> Held {
        let kept = Held::default();
        let example = setup::read_file(EXAMPLE).unwrap();
        let wrap = |setup: &Setup| {
            let node = serde_json::to_string(&setup::write_node(setup)).unwrap();
            format!(r#"{{"own":true,"touched":9,"drafts":[],"setup":{node}}}"#)
        };
        let shop = Setup { shop: example.shop.clone(), ..Setup::default() };
        slots::write(&kept, "shop", &wrap(&shop)).unwrap();
        let setup = Setup { shop: Record::empty(example.shop.spec()), ..example };
        slots::write(&kept, &format!("setup.{id}"), &wrap(&setup)).unwrap();
        slots::write(&kept, "seen", "1").unwrap();
        kept
    }

    #[test]
    fn fault_11_all_evicted_a_backup_restores_to_the_byte() {
        let file = backup(&filled());
        for kept in [Held::default(), begun("new"), begun("example")] {
            let before = kept.clone();
            assert!(!restore(&kept, &file).unwrap().is_empty());
            assert_eq!(backup(&kept), file);
            // Once more changes nothing.
            assert!(restore(&kept, &file).unwrap().is_empty());
            // And the page is told what to set and what to take away.
            let told = kept.since(&before);
            let page = before.clone();
            for pair in told.split('\u{1e}') {
                match pair.split_once('\u{1f}').unwrap() {
                    (key, "") => page.remove(key),
                    (key, text) => assert!(page.set(key, text)),
                }
            }
            assert_eq!(backup(&page), file);
        }
    }

    #[test]
    fn what_stands_there_is_kept_beside_what_comes_back() {
        let kept = filled();
        let file = backup(&kept);
        slots::write(&kept, "setup.k3x9", &SETUP.replace("quoted", "changed since")).unwrap();
        slots::write(&kept, "shop", &SHOP.replace("mine", "another")).unwrap();
        assert_eq!(restore(&kept, &file).unwrap(), ["setup.k3x9-2", "setup.k3x9", "shop"]);
        let held = |name: &str| slots::read(&kept, name).content.unwrap();
        assert!(held("setup.k3x9-2").contains("changed since"));
        assert_eq!(held("setup.k3x9"), SETUP);
        assert!(held("before").contains("another"));
    }

    #[test]
    fn an_example_that_is_being_worked_on_stays() {
        for id in ["new", "example"] {
            let kept = begun(id);
            slots::write(&kept, &format!("run.{id}"), "[0,1]").unwrap();
            restore(&kept, &backup(&filled())).unwrap();
            let setups = slots::names(&kept, "setup.");
            assert_eq!(setups.len(), 3, "{setups:?}");
        }
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
            let kept = filled();
            let before = backup(&kept);
            assert!(restore(&kept, &bad).is_err(), "{bad}");
            assert_eq!(backup(&kept), before);
        }
    }
}
