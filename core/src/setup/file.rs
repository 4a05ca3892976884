//! The setup file: JSON in, JSON out.

use super::{LONGEST_NAME, LONGEST_NOTE, MADE, MOST_MADE, MOST_OPERATIONS, MOST_STEPS, Setup};
use crate::operation::{self, KINDS, Operation};
use crate::quantity::show;
use crate::record::{FileError, Node, Record, expected, fits, once, read, unknown, write};
use crate::shop::SHOP;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec;
use alloc::vec::Vec;

/// The largest file that is read, in bytes.
pub const LARGEST_FILE: usize = 4_000_000;
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
        return Err(FileError::new("", "the file is larger than 4 MB: no more is read"));
    }
    // Some editors put a byte order mark before the text.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim().is_empty() {
        return Err(FileError::new("", "the file is empty"));
    }
    let node: Node = serde_json::from_str(text).map_err(|why| not_json(&why))?;
    read_node(&node)
}

fn not_json(why: &serde_json::Error) -> FileError {
    let (line, column) = (why.line(), why.column());
    FileError::new(
        "",
        if why.is_eof() {
            format!("the file breaks off in line {line}: the rest of it is missing")
        } else {
            let said = why.to_string();
            let what = said.split(" at line ").next().unwrap_or_default();
            format!("not a setup file: line {line}, column {column} is not JSON ({what})")
        },
    )
}

/// Reads a setup from JSON already taken apart.
///
/// # Errors
///
/// As [`read_file`].
pub fn read_node(node: &Node) -> Result<Setup, FileError> {
    let Node::Object(pairs) = node else {
        return Err(expected("", "a setup as a group in { }", node));
    };
    match node.get("format") {
        Some(Node::Text(format)) if format == FORMAT => {}
        Some(other) => return Err(expected("format", FORMAT, other)),
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
        Some(other) => return Err(expected("version", &VERSION.to_string(), other)),
        None => return Err(FileError::new("version", format!("missing: expected {VERSION}"))),
    }
    let mut setup = Setup::default();
    for (at, (key, node)) in pairs.iter().enumerate() {
        match key.as_str() {
            "format" | "version" => {}
            "name" => setup.name = text(node, "name", LONGEST_NAME)?,
            "note" => setup.note = text(node, "note", LONGEST_NOTE)?,
            "shop" => setup.shop = read(node, &SHOP, "shop", &[])?,
            "operations" => setup.operations = operations(node)?,
            "record" => setup.made = made(node)?,
            "place" => setup.place = Some(place(node)?),
            other => {
                let known =
                    ["format", "version", "name", "note", "shop", "operations", "record", "place"];
                return Err(unknown(&show::short(other), None, known.into_iter()));
            }
        }
        once(pairs, at, key)?;
    }
    Ok(setup)
}

fn text(node: &Node, path: &str, longest: usize) -> Result<String, FileError> {
    match node {
        Node::Text(text) => fits(text, longest, path).map(|()| text.clone()),
        _ => Err(expected(path, "words in quotes", node)),
    }
}

fn operations(node: &Node) -> Result<Vec<Operation>, FileError> {
    let Node::List(items) = node else {
        return Err(expected("operations", "a list of operations", node));
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

fn made(node: &Node) -> Result<Vec<Record>, FileError> {
    let Node::List(items) = node else {
        return Err(expected("record", "a list of runs", node));
    };
    if items.len() > MOST_MADE {
        let what = format!("{} runs: at most {MOST_MADE}", items.len());
        return Err(FileError::new("record", what));
    }
    let runs = items.iter().enumerate();
    runs.map(|(at, node)| read(node, &MADE, &format!("record[{at}]"), &[])).collect()
}

/// An operation's number and its step's, as they are counted on the bench: from 1.
fn place(node: &Node) -> Result<(usize, usize), FileError> {
    let number = |at: usize, most: usize| -> Result<usize, FileError> {
        let Node::List(items) = node else {
            return Err(expected("place", "an operation's number and a step's in [ ]", node));
        };
        let path = format!("place[{at}]");
        let words = format!("a number from 1 to {most}");
        let item = items.get(at).filter(|_| items.len() == 2);
        let item =
            item.ok_or_else(|| expected("place", "an operation's number and a step's", node))?;
        match item {
            Node::Whole(n) => {
                let n = usize::try_from(*n).ok().filter(|n| *n <= most);
                n.and_then(|n| n.checked_sub(1)).ok_or_else(|| expected(&path, &words, item))
            }
            _ => Err(expected(&path, &words, item)),
        }
    };
    Ok((number(0, MOST_OPERATIONS)?, number(1, MOST_STEPS)?))
}

/// A place as it is written, counted from 1.
fn place_node((operation, step): (usize, usize)) -> Node {
    let whole = |n: usize| Node::Whole(i64::try_from(n).unwrap_or(0).saturating_add(1));
    Node::List(vec![whole(operation), whole(step)])
}

fn operation(node: &Node, path: &str) -> Result<Operation, FileError> {
    let Node::Object(_) = node else {
        return Err(expected(path, "an operation as a group in { }", node));
    };
    let names = || KINDS.iter().map(|kind| kind.name).collect::<Vec<_>>().join(", ");
    let Some(named) = node.get("kind") else {
        return Err(FileError::new(path, format!("“kind” is missing: one of {}", names())));
    };
    let Some(kind) = named.as_text().and_then(operation::kind) else {
        return Err(expected(&format!("{path}.kind"), &format!("one of {}", names()), named));
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
    let mut pairs = vec![
        ("format".to_owned(), Node::from(FORMAT)),
        ("version".to_owned(), Node::Whole(VERSION)),
        ("name".to_owned(), Node::from(setup.name.as_str())),
        ("note".to_owned(), Node::from(setup.note.as_str())),
        ("shop".to_owned(), Node::Object(write(&setup.shop))),
        ("operations".to_owned(), Node::List(operations.collect())),
    ];
    if !setup.made.is_empty() {
        let made = setup.made.iter().map(|made| Node::Object(write(made)));
        pairs.push(("record".to_owned(), Node::List(made.collect())));
    }
    if let Some(place) = setup.place {
        pairs.push(("place".to_owned(), place_node(place)));
    }
    Node::Object(pairs)
}
