//! A form read from the file, with the path to whatever is wrong.

use super::value::{bounded, within, words};
use super::{Node, Record, Shape, Spec, Value};
use crate::quantity::{Quantity, show};
use alloc::borrow::ToOwned;
use alloc::boxed::Box;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use core::fmt;

/// What is wrong with a file, and where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileError {
    /// The path to the value: `shop.lathe.change_gears[3]`; empty for the whole file.
    pub path: String,
    /// What is wrong with it and what was expected.
    pub what: String,
}

impl FileError {
    pub(crate) fn new(path: &str, what: impl Into<String>) -> FileError {
        FileError { path: path.to_owned(), what: what.into() }
    }
}

impl fmt::Display for FileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.path.is_empty() {
            f.write_str(&self.what)
        } else {
            write!(f, "{}: {}", self.path, self.what)
        }
    }
}

impl core::error::Error for FileError {}

/// Reads a form of the given shape from an object, `skip` being keys that somebody else has read.
///
/// # Errors
///
/// A [`FileError`] with the path to the value and what was expected: an unknown key, a wrong unit,
/// an impossible value.
pub fn read(
    node: &Node,
    spec: &'static Spec,
    path: &str,
    skip: &[&str],
) -> Result<Record, FileError> {
    let Node::Object(pairs) = node else {
        return Err(expected(path, &format!("{} as a group in {{ }}", spec.name), node));
    };
    let mut record = Record::empty(spec);
    for (at, (key, node)) in pairs.iter().enumerate() {
        let here = join(path, key);
        if skip.contains(&key.as_str()) {
            once(pairs, at, &here)?;
            continue;
        }
        let Some(field) = spec.field(key) else {
            let known = skip.iter().copied().chain(spec.fields.iter().map(|field| field.key));
            return Err(unknown(&here, Some(spec.name), known));
        };
        once(pairs, at, &here)?;
        if *node != Node::Null {
            record.set(key, Some(shape(node, &field.shape, &here)?));
        }
    }
    Ok(record)
}

fn join(path: &str, key: &str) -> String {
    let key = show::short(key);
    if path.is_empty() { key } else { format!("{path}.{key}") }
}

/// Refuses a key that has stood before among these.
///
/// # Errors
///
/// A [`FileError`] at that path.
pub(crate) fn once(pairs: &[(String, Node)], at: usize, path: &str) -> Result<(), FileError> {
    let twice = pairs.get(at).is_some_and(|(key, _)| pairs.iter().take(at).any(|(k, _)| k == key));
    if twice { Err(FileError::new(path, "stands here twice: keep one of them")) } else { Ok(()) }
}

/// A key that a form hasn't.
pub(crate) fn unknown<'a>(
    path: &str,
    form: Option<&str>,
    known: impl Iterator<Item = &'a str>,
) -> FileError {
    let known = known.collect::<Vec<_>>().join(", ");
    let within = form.map_or_else(String::new, |form| format!(" in {form}"));
    FileError::new(path, format!("unknown key{within}; known: {known}"))
}

pub(crate) fn expected(path: &str, what: &str, node: &Node) -> FileError {
    FileError::new(path, format!("expected {what}, found {}", node.described()))
}

fn shape(node: &Node, shape: &Shape, path: &str) -> Result<Value, FileError> {
    match (shape, node) {
        (Shape::Quantity(measure, bound), Node::Text(text)) => {
            let q = Quantity::parse(text, *measure, None)
                .map_err(|why| FileError::new(path, why.to_string()))?;
            bounded(&q, *bound).map_err(|why| FileError::new(path, why))?;
            Ok(Value::Quantity(q))
        }
        (Shape::Quantity(measure, _), node) => Err(match node.figure() {
            // A bare number: default units belong to the page.
            Some(n) => {
                let like = match measure.units().first() {
                    Some(unit) => format!("{n} {}", unit.symbol()),
                    None => format!("{n}/1"),
                };
                let wanted = measure.wanted();
                FileError::new(
                    path,
                    format!("{n} of what? expected {wanted}, in quotes: \"{like}\""),
                )
            }
            None => expected(path, &format!("{} in quotes", measure.wanted()), node),
        }),
        (Shape::Count(least, most), Node::Whole(n)) => {
            let n = u32::try_from(*n)
                .map_err(|_| FileError::new(path, format!("{n} is outside {least} to {most}")))?;
            within(n, *least, *most).map(Value::Count).map_err(|why| FileError::new(path, why))
        }
        (Shape::Count(least, most), node) => {
            Err(expected(path, &format!("a whole number from {least} to {most}"), node))
        }
        (Shape::Choice(choices), Node::Text(text)) => choices
            .iter()
            .find(|choice| choice.id == text)
            .map(Value::Choice)
            .ok_or_else(|| expected(path, &format!("one of {}", words(choices)), node)),
        (Shape::Choice(choices), node) => {
            Err(expected(path, &format!("one of {}", words(choices)), node))
        }
        (Shape::Text(longest), Node::Text(text)) => {
            fits(text, *longest, path)?;
            Ok(Value::Text(text.clone()))
        }
        (Shape::Text(_), node) => Err(expected(path, "words in quotes", node)),
        (Shape::Flag, Node::Flag(yes)) => Ok(Value::Flag(*yes)),
        (Shape::Flag, node) => Err(expected(path, "true or false", node)),
        (Shape::List(inner, longest, noun), Node::List(items)) => {
            if items.len() > *longest {
                let what = format!("{} {noun}: at most {longest}", items.len());
                return Err(FileError::new(path, what));
            }
            list(items, inner, path)
        }
        (Shape::List(_, _, noun), node) => Err(expected(path, &format!("a list of {noun}"), node)),
        (Shape::Pair(inner), Node::List(items)) if items.len() == 2 => list(items, inner, path),
        (Shape::Pair(_), Node::List(items)) => {
            let n = items.len();
            Err(FileError::new(path, format!("expected two in a list, least and most; found {n}")))
        }
        (Shape::Pair(_), node) => Err(expected(path, "two in a list, least and most", node)),
        (Shape::Named(inner, key), Node::Object(pairs)) => named(pairs, inner, key, path),
        (Shape::Named(inner, _), node) => self::shape(node, inner, path),
        (Shape::Record(spec), node) => read(node, spec, path, &[]).map(Value::Record),
    }
}

/// Refuses words of more characters.
///
/// # Errors
///
/// A [`FileError`] at that path.
pub(crate) fn fits(text: &str, longest: usize, path: &str) -> Result<(), FileError> {
    match text.chars().count() {
        n if n > longest => Err(FileError::new(path, format!("{n} characters: at most {longest}"))),
        _ => Ok(()),
    }
}

/// The longest word that a machine has for a position.
const LONGEST_HOW: usize = 90;

fn list(items: &[Node], inner: &Shape, path: &str) -> Result<Value, FileError> {
    items
        .iter()
        .enumerate()
        .map(|(at, item)| shape(item, inner, &format!("{path}[{at}]")))
        .collect::<Result<Vec<_>, _>>()
        .map(Value::List)
}

fn named(
    pairs: &[(String, Node)],
    inner: &Shape,
    key: &str,
    path: &str,
) -> Result<Value, FileError> {
    let mut bare = None;
    let mut how = None;
    for (at, (name, node)) in pairs.iter().enumerate() {
        let path = join(path, name);
        if name == key {
            bare = Some(shape(node, inner, &path)?);
        } else if name == "how" {
            match shape(node, &Shape::Text(LONGEST_HOW), &path)? {
                Value::Text(text) => how = Some(text),
                _ => return Err(expected(&path, "words in quotes", node)),
            }
        } else {
            return Err(unknown(&path, None, [key, "how"].into_iter()));
        }
        once(pairs, at, &path)?;
    }
    match (bare, how) {
        (Some(bare), Some(how)) => Ok(Value::Named(Box::new(bare), how)),
        (Some(bare), None) => Ok(bare),
        (None, _) => Err(FileError::new(path, format!("“{key}” is missing"))),
    }
}

/// A whole number of at most nine digits.
pub(super) fn digits(text: &str) -> Option<u32> {
    let text = text.trim();
    if text.is_empty() || text.len() > 9 || !text.bytes().all(|b| b.is_ascii_digit()) {
        return None;
    }
    text.parse().ok()
}

/// Whole numbers typed short: `20-80 by 5, 127`, `2×20`.
pub(super) fn counts(
    text: &str,
    least: u32,
    most: u32,
    longest: usize,
    noun: &str,
) -> Result<Vec<u32>, String> {
    let mut all = Vec::new();
    let text = text.replace([';', '\n'], ",").replace(['–', '−'], "-");
    for part in text.split(',').map(str::trim).filter(|part| !part.is_empty()) {
        let not_read = || {
            let part = show::short(part);
            format!("“{part}” can't be read: write 20, 2×20, or 20-80 by 5, with commas between")
        };
        let number = |text: &str| {
            let n = digits(text).ok_or_else(not_read)?;
            within(n, least, most)
        };
        if let Some((times, of)) = part.split_once(['×', 'x', '*']) {
            let times = digits(times).ok_or_else(not_read)?;
            let of = number(of)?;
            for _ in 0..times.min(1000) {
                all.push(of);
            }
        } else if let Some((from, rest)) = part.split_once('-').or_else(|| part.split_once(" to "))
        {
            let (to, by) = rest.split_once("by").unwrap_or((rest, "1"));
            let (from, to) = (number(from)?, number(to)?);
            let by = digits(by).filter(|by| *by > 0).ok_or_else(not_read)?;
            if to < from {
                return Err(format!("{} runs backwards", show::short(part)));
            }
            let step = usize::try_from(by).unwrap_or(1);
            all.extend((from..=to).step_by(step));
        } else if part.contains(' ') {
            for one in part.split_whitespace() {
                all.push(number(one)?);
            }
        } else {
            all.push(number(part)?);
        }
        if all.len() > longest {
            return Err(format!("more than {longest} {noun}"));
        }
    }
    Ok(all)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_are_quick_to_type() {
        let read = |text| counts(text, 1, 999, 100, "gears");
        assert_eq!(read("20-35 by 5, 127").unwrap(), [20, 25, 30, 35, 127]);
        assert_eq!(read("2×20, 3x7").unwrap(), [20, 20, 7, 7, 7]);
        assert_eq!(read("15–17").unwrap(), [15, 16, 17]);
        assert_eq!(read("24 24 28").unwrap(), [24, 24, 28]);
        assert_eq!(read("").unwrap(), [0u32; 0]);
        assert_eq!(read("0").unwrap_err(), "0 is outside 1 to 999");
        assert_eq!(read("80-20").unwrap_err(), "80-20 runs backwards");
        assert_eq!(read("1-999").unwrap_err(), "more than 100 gears");
        assert!(read("20 teeth").is_err() && read("2×").is_err() && read("5 by 0").is_err());
    }
}
