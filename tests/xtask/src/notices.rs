//! The licences of all that the page is built from, for whoever gets the page.

use crate::command::{self, Outcome, cargo, program, read, write};
use crate::tools::WASM;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use xtask::folder::files;
use xtask::worker::LICENCES;

/// What ends up in the page's two modules, with all that they use.
const ROOTS: [&str; 2] = ["latheside-app", "latheside-works"];

/// Writes them beside the page, each text once, under the names of those that come with it.
pub(crate) fn write_beside(page: &Path) -> Outcome {
    let own = read(&command::root().join("LICENSE"))?;
    let mut texts: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for krate in linked()? {
        let (name, text) = notice(&krate, &own)?;
        texts.entry(text).or_default().insert(name);
    }
    let rust = program("rustc", ["--version"]).said()?;
    let rust = format!("the standard library of {}: MIT OR Apache-2.0", rust.trim());
    texts.entry(mit("The Rust Project contributors", &own)?).or_default().insert(rust);
    let mut all: Vec<_> = texts.into_iter().map(|(text, names)| (names, text)).collect();
    all.sort();
    let mut words = format!("Latheside is built from these, each under its own licence.\n\n{own}");
    for (names, text) in all {
        let names: Vec<String> = names.into_iter().collect();
        words.push_str(&format!("\n{}\n{}\n\n{}\n", "=".repeat(80), names.join("\n"), text.trim()));
    }
    write(&page.join(LICENCES), words)
}

/// The crates whose code is in the modules, as `cargo metadata` tells of them: what only helps to build
/// is not among them.
fn linked() -> Outcome<Vec<Value>> {
    let said = cargo(["metadata", "--locked", "--format-version=1"])
        .arg(format!("--filter-platform={WASM}"))
        .said()?;
    let all: Value = serde_json::from_str(&said).map_err(|why| format!("cargo metadata: {why}"))?;
    let by_id = |list: &Value| -> BTreeMap<String, Value> {
        let list = list.as_array().into_iter().flatten();
        list.map(|one| (text(&one["id"]), one.clone())).collect()
    };
    let (crates, nodes) = (by_id(&all["packages"]), by_id(&all["resolve"]["nodes"]));
    let mut next: Vec<String> = ROOTS
        .iter()
        .filter_map(|root| crates.iter().find(|(_, krate)| krate["name"] == *root))
        .map(|(id, _)| id.clone())
        .collect();
    let mut seen = BTreeSet::new();
    while let Some(id) = next.pop() {
        let helps = |target: &Value| {
            target["kind"].as_array().is_some_and(|kinds| kinds.contains(&"proc-macro".into()))
        };
        let helps = crates[&id]["targets"].as_array().is_some_and(|all| all.iter().any(helps));
        if helps || !seen.insert(id.clone()) {
            continue;
        }
        let used = nodes[&id]["deps"].as_array().into_iter().flatten();
        let linked = |used: &&Value| {
            used["dep_kinds"]
                .as_array()
                .is_some_and(|kinds| kinds.iter().any(|kind| kind["kind"].is_null()))
        };
        next.extend(used.filter(linked).map(|used| text(&used["pkg"])));
    }
    Ok(seen
        .iter()
        .map(|id| crates[id].clone())
        .filter(|krate| !krate["source"].is_null())
        .collect())
}

fn text(value: &Value) -> String {
    value.as_str().unwrap_or_default().to_owned()
}

/// A crate's name and licence, and the licence's words: its own, or MIT's where it has none with it.
fn notice(krate: &Value, own: &str) -> Outcome<(String, String)> {
    let licence = text(&krate["license"]);
    let name = format!("{} {}", text(&krate["name"]), text(&krate["version"]));
    let manifest = text(&krate["manifest_path"]);
    let folder = Path::new(&manifest).parent().ok_or_else(|| format!("{name} is nowhere"))?;
    let mut words = Vec::new();
    for file in chosen(files(folder)?, &licence) {
        words.push(read(&folder.join(file))?.replace("\r\n", "\n").trim().to_owned());
    }
    if words.is_empty() {
        if !licence.contains("MIT") {
            return Err(format!("{name} comes with no text of its licence, {licence}"));
        }
        let authors: Vec<String> =
            krate["authors"].as_array().into_iter().flatten().map(text).collect();
        let whose =
            if authors.is_empty() { format!("the authors of {name}") } else { authors.join(", ") };
        words.push(mit(&whose, own)?);
    }
    Ok((format!("{name}: {licence}"), words.join("\n\n")))
}

/// Of a folder's files, those that say the licence: MIT's alone where it may be had under that.
fn chosen(mut files: Vec<String>, licence: &str) -> Vec<String> {
    const NAMES: [&str; 5] = ["LICENSE", "LICENCE", "COPYRIGHT", "NOTICE", "COPYING"];
    let is =
        |file: &String, words: &[&str]| words.iter().any(|word| file.to_uppercase().contains(word));
    files.retain(|file| is(file, &NAMES) && (!file.contains('/') || file.starts_with("LICENSES/")));
    if licence.contains("MIT") && files.iter().any(|file| is(file, &["MIT"])) {
        files.retain(|file| !is(file, &["APACHE", "UNLICENSE", "COPYING"]));
    }
    files.sort();
    files
}

/// The words of the MIT licence, as our own file has them.
fn mit(whose: &str, own: &str) -> Outcome<String> {
    let (_, terms) = own
        .split_once("\nPermission is hereby granted")
        .ok_or("LICENSE has no MIT licence in it")?;
    Ok(format!("Copyright (c) {whose}\n\nPermission is hereby granted{}", terms.trim_end()))
}

#[cfg(test)]
mod tests {
    use super::chosen;

    #[test]
    fn the_licence_is_taken_and_of_two_mits() {
        let of = |files: &[&str], licence: &str| {
            chosen(files.iter().map(|&file| file.to_owned()).collect(), licence)
        };
        let both = ["src", "LICENSE-MIT", "LICENSE-APACHE", "Cargo.toml", "COPYRIGHT"];
        assert_eq!(of(&both, "MIT OR Apache-2.0"), ["COPYRIGHT", "LICENSE-MIT"]);
        assert_eq!(
            of(&["COPYING", "LICENSE-MIT", "UNLICENSE"], "Unlicense OR MIT"),
            ["LICENSE-MIT"]
        );
        let unicode = ["LICENSE-UNICODE", "LICENSE-MIT", "LICENSE-APACHE"];
        let of_unicode = of(&unicode, "(MIT OR Apache-2.0) AND Unicode-3.0");
        assert_eq!(of_unicode, ["LICENSE-MIT", "LICENSE-UNICODE"]);
        assert_eq!(of(&["license.txt", "lib.rs"], "Zlib"), ["license.txt"]);
        assert_eq!(of(&["LICENSES/MIT.txt", "src/license.rs"], "MIT"), ["LICENSES/MIT.txt"]);
        assert!(of(&["README.md"], "MIT").is_empty());
    }
}
