//! The setup file: JSON in, JSON out.

use super::{LONGEST_NAME, LONGEST_NOTE, MOST_OPERATIONS, Setup};
use crate::operation::{self, KINDS, Operation};
use crate::record::{FileError, Node, read, write};
use crate::shop::SHOP;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec;
use alloc::vec::Vec;

/// The largest file that is read, in bytes.
const LARGEST_FILE: usize = 4_000_000;
const FORMAT: &str = "latheside-setup";
const VERSION: i64 = 1;

/// Reads a setup file.
///
/// # Errors
///
/// A [`FileError`] with the path to whatever is wrong and what was expected. A file of a newer
/// version is refused as newer.
pub fn read_file(text: &str) -> Result<Setup, FileError> {
    if text.len() > LARGEST_FILE {
        let megabytes = text.len().div_ceil(1_000_000);
        return Err(FileError::new("", format!("a file of {megabytes} MB: at most 4 MB are read")));
    }
    let node: Node = serde_json::from_str(text)
        .map_err(|why| FileError::new("", format!("not a setup file: {why}")))?;
    read_node(&node)
}

/// Reads a setup from JSON already taken apart.
///
/// # Errors
///
/// As [`read_file`].
pub fn read_node(node: &Node) -> Result<Setup, FileError> {
    let Node::Object(pairs) = node else {
        return Err(FileError::new("", "not a setup file: expected an object"));
    };
    match node.get("format").and_then(Node::as_text) {
        Some(FORMAT) => {}
        Some(other) => {
            let short: String = other.chars().take(40).collect();
            return Err(FileError::new("format", format!("expected {FORMAT}, found “{short}”")));
        }
        None => return Err(FileError::new("format", format!("missing: expected {FORMAT}"))),
    }
    match node.get("version") {
        Some(Node::Whole(VERSION)) => {}
        Some(Node::Whole(newer)) if *newer > VERSION => {
            let what = format!(
                "this file is of version {newer}, newer than this Latheside ({VERSION}): update, then open it"
            );
            return Err(FileError::new("version", what));
        }
        Some(_) => return Err(FileError::new("version", format!("expected {VERSION}"))),
        None => return Err(FileError::new("version", format!("missing: expected {VERSION}"))),
    }
    let mut setup = Setup::default();
    for (key, node) in pairs {
        match key.as_str() {
            "format" | "version" => {}
            "name" => setup.name = text(node, "name", LONGEST_NAME)?,
            "note" => setup.note = text(node, "note", LONGEST_NOTE)?,
            "shop" => setup.shop = read(node, &SHOP, "shop", &[])?,
            "operations" => setup.operations = operations(node)?,
            other => {
                let what = "unknown key; known: format, version, name, note, shop, operations";
                return Err(FileError::new(other, what));
            }
        }
    }
    Ok(setup)
}

fn text(node: &Node, path: &str, longest: usize) -> Result<String, FileError> {
    match node {
        Node::Text(text) if text.chars().count() <= longest => Ok(text.clone()),
        Node::Text(_) => Err(FileError::new(path, format!("longer than {longest} characters"))),
        _ => Err(FileError::new(path, "expected a string")),
    }
}

fn operations(node: &Node) -> Result<Vec<Operation>, FileError> {
    let Node::List(items) = node else {
        return Err(FileError::new("operations", "expected a list"));
    };
    if items.len() > MOST_OPERATIONS {
        let what = format!("{} operations: at most {MOST_OPERATIONS}", items.len());
        return Err(FileError::new("operations", what));
    }
    items
        .iter()
        .enumerate()
        .map(|(at, node)| operation(node, &format!("operations[{at}]")))
        .collect()
}

fn operation(node: &Node, path: &str) -> Result<Operation, FileError> {
    let kinds = || KINDS.iter().map(|kind| kind.name).collect::<Vec<_>>().join(", ");
    let Some(name) = node.get("kind").and_then(Node::as_text) else {
        return Err(FileError::new(path, format!("“kind” is missing: one of {}", kinds())));
    };
    let Some(kind) = operation::kind(name) else {
        let short: String = name.chars().take(40).collect();
        let what = format!("“{short}” is not one of: {}", kinds());
        return Err(FileError::new(&format!("{path}.kind"), what));
    };
    Ok(Operation { kind, entries: read(node, kind.spec, path, &["kind"])? })
}

/// The setup as JSON, laid out for a person to read.
#[must_use]
pub fn write_file(setup: &Setup) -> String {
    // A tree of strings and numbers always has a JSON form.
    serde_json::to_string_pretty(&write_node(setup)).unwrap_or_else(|why| why.to_string())
}

/// The setup as JSON not yet put together.
#[must_use]
pub fn write_node(setup: &Setup) -> Node {
    let operations = setup.operations.iter().map(|operation| {
        let mut pairs = vec![("kind".to_owned(), Node::from(operation.kind.name))];
        pairs.extend(write(&operation.entries));
        Node::Object(pairs)
    });
    Node::Object(vec![
        ("format".to_owned(), Node::from(FORMAT)),
        ("version".to_owned(), Node::Whole(VERSION)),
        ("name".to_owned(), Node::from(setup.name.as_str())),
        ("note".to_owned(), Node::from(setup.note.as_str())),
        ("shop".to_owned(), Node::Object(write(&setup.shop))),
        ("operations".to_owned(), Node::List(operations.collect())),
    ])
}
