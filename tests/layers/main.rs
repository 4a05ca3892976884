//! Rooms use only those below them, and the browser is spoken to in one place.

use std::fs::read_to_string;
use std::path::{Path, PathBuf};

/// Core's rooms from the ground up, each may use those before it: what is owned, what works on
/// numbers alone, and what brings the two together.
const ROOMS: [&[&str]; 4] = [
    &["exact", "quantity", "record", "shop"],
    OF_NUMBERS,
    &["procedure", "lathe"],
    &["chart", "operation", "setup"],
];
/// No forms, no shop.
const OF_NUMBERS: &[&str] = &[
    "gearing",
    "dividing",
    "graduation",
    "cutting",
    "holes",
    "tapers",
    "fits",
    "spacing",
    "threads",
];

/// Every Rust file under a folder of the project with its text, comments left out.
fn sources(folder: &str) -> Vec<(String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(folder);
    let mut folders: Vec<PathBuf> = vec![root.clone()];
    let mut found = Vec::new();
    while let Some(folder) = folders.pop() {
        for entry in folder.read_dir().unwrap().map(|entry| entry.unwrap().path()) {
            if entry.is_dir() {
                folders.push(entry);
            } else if entry.extension().is_some_and(|ext| ext == "rs") {
                let text = read_to_string(&entry).unwrap();
                let code = text.lines().filter(|line| !line.trim_start().starts_with("//"));
                let name = entry.strip_prefix(&root).unwrap().display().to_string();
                found.push((name, code.collect::<Vec<_>>().join("\n")));
            }
        }
    }
    assert!(!found.is_empty(), "{folder}");
    found
}

#[test]
fn rooms_look_down() {
    let sources = sources("core/src");
    let height = |room: &str| ROOMS.concat().iter().position(|name| *name == room);
    for (file, code) in &sources {
        let Some((room, _)) = file.split_once('/') else { continue };
        let here = height(room).unwrap_or_else(|| panic!("{room}: where does this room stand?"));
        for used in code.split("crate::").skip(1) {
            let name = used.split(|c: char| !c.is_alphanumeric() && c != '_').next().unwrap_or("");
            let there =
                height(name).unwrap_or_else(|| panic!("{file} uses crate::{name}: name the room"));
            assert!(there <= here, "{file} uses {name}, which stands above {room}");
            let forms = name == "record" || name == "shop";
            assert!(
                !(forms && OF_NUMBERS.contains(&room)),
                "{file} works on numbers, and uses {name}"
            );
        }
    }
    for room in ROOMS.concat() {
        assert!(
            sources.iter().any(|(file, _)| file.starts_with(&format!("{room}/"))),
            "{room} is gone"
        );
    }
}

#[test]
fn core_has_no_system_and_no_floats_but_libm() {
    let sources = sources("core/src");
    let tests: Vec<&str> =
        sources.iter().flat_map(|(_, code)| code.split("#[cfg(test)]\nmod ").skip(1)).collect();
    let tests: Vec<String> =
        tests.iter().filter_map(|rest| Some(format!("/{}.rs", rest.split_once(';')?.0))).collect();
    const FLOATS: [&str; 16] = [
        ".sqrt(",
        ".cbrt(",
        ".sin(",
        ".cos(",
        ".tan(",
        ".asin(",
        ".acos(",
        ".atan(",
        ".atan2(",
        ".exp(",
        ".ln(",
        ".log10(",
        ".powf(",
        ".powi(",
        ".hypot(",
        ".sin_cos(",
    ];
    for (file, code) in &sources {
        assert!(!code.contains("std::"), "{file} uses std");
        let own = code.split("#[cfg(test)]").next().unwrap_or("");
        if !tests.iter().any(|test| file.ends_with(test)) {
            for float in FLOATS {
                assert!(!own.contains(float), "{file} uses {float}..) where libm belongs");
            }
        }
    }
}

#[test]
fn the_browser_is_spoken_to_in_one_place() {
    for (file, code) in sources("app/src") {
        // The app's own tests in a browser look at the page from outside.
        if file.starts_with("platform/") || file == "in_browser.rs" {
            continue;
        }
        for bindings in ["web_sys", "js_sys", "wasm_bindgen"] {
            assert!(!code.contains(bindings), "{file} uses {bindings}: that belongs in platform");
        }
    }
}
