//! What each crate adds to a module, before the optimiser has been through it.

use crate::command::Outcome;
use rustc_demangle::demangle;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use wasmparser::{KnownCustom, Name, Parser, Payload};

/// The bytes of a module by the crate that they come from: its functions' bodies one after
/// another, and all data under a name of their own.
pub(crate) fn parts(wasm: &Path) -> Outcome<BTreeMap<String, Vec<u8>>> {
    let bytes = fs::read(wasm).map_err(|why| format!("can't read {}: {why}", wasm.display()))?;
    let parsed = parse(&bytes);
    let (bodies, names, data) = parsed.map_err(|why| format!("{}: {why}", wasm.display()))?;
    let mut parts: BTreeMap<String, Vec<u8>> = BTreeMap::new();
    for (index, body) in bodies {
        let name = names.get(&index).map(|name| format!("{:#}", demangle(name)));
        let part = name.as_deref().and_then(krate).unwrap_or("the rest").to_owned();
        parts.entry(part).or_default().extend(body);
    }
    parts.insert("data: texts and tables".to_owned(), data.concat());
    Ok(parts)
}

type Parsed<'a> = (Vec<(u32, &'a [u8])>, BTreeMap<u32, &'a str>, Vec<&'a [u8]>);

fn parse(bytes: &[u8]) -> wasmparser::Result<Parsed<'_>> {
    let (mut bodies, mut names, mut data) = (Vec::new(), BTreeMap::new(), Vec::new());
    // Functions are numbered from those that come from outside.
    let mut next = 0;
    for payload in Parser::new(0).parse_all(bytes) {
        match payload? {
            Payload::ImportSection(imports) => {
                for import in imports.into_imports() {
                    next += u32::from(matches!(import?.ty, wasmparser::TypeRef::Func(_)));
                }
            }
            Payload::CodeSectionEntry(body) => {
                bodies.push((next, body.as_bytes()));
                next += 1;
            }
            Payload::DataSection(segments) => {
                for segment in segments {
                    data.push(segment?.data);
                }
            }
            Payload::CustomSection(section) => {
                let KnownCustom::Name(section) = section.as_known() else { continue };
                for name in section {
                    let Name::Function(map) = name? else { continue };
                    for named in map {
                        let named = named?;
                        names.insert(named.index, named.name);
                    }
                }
            }
            _ => {}
        }
    }
    Ok((bodies, names, data))
}

/// The crate that a function's path begins in: that of a trait's implementor, if there is one.
fn krate(path: &str) -> Option<&str> {
    const AROUND: [&str; 10] = [
        "<",
        "&",
        "(",
        "[",
        "*",
        "mut ",
        "dyn ",
        "const ",
        "alloc::boxed::Box<",
        "core::option::Option<",
    ];
    let mut path = path;
    while let Some(inner) = AROUND.iter().find_map(|around| path.strip_prefix(around)) {
        path = inner;
    }
    let end = path.find(|c: char| !c.is_ascii_alphanumeric() && c != '_').unwrap_or(path.len());
    // A bare name is the compiler's own or the bindings'.
    (end > 0 && path[end..].starts_with("::")).then(|| &path[..end])
}

#[cfg(test)]
mod tests {
    use super::krate;

    #[test]
    fn a_functions_crate_is_the_first_that_its_path_names() {
        assert_eq!(krate("leptos::mount::mount_to"), Some("leptos"));
        assert_eq!(krate("<tachys::view::Text as tachys::Render>::build"), Some("tachys"));
        assert_eq!(
            krate("<alloc::boxed::Box<dyn any_spawner::Task> as X>::y"),
            Some("any_spawner")
        );
        assert_eq!(krate("<&mut serde_json::Value as A>::b"), Some("serde_json"));
        assert_eq!(krate("memcpy"), None);
    }
}
