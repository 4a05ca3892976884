//! A setup file with one operation, worked out.

#![allow(dead_code, reason = "each file of tests uses some of it")]

use latheside_core::record::Node;
use latheside_core::setup::{answers, read_file};

/// A setup file: what stands in the shop besides its name, and one operation.
pub(crate) fn shop(shop: &str, operation: &str) -> String {
    format!(
        r#"{{"format": "latheside-setup", "version": 1, "name": "", "shop": {{"name": "a shop", {shop}}}, "operations": [{operation}]}}"#
    )
}

/// The answer to a file's one operation.
pub(crate) fn only(file: &str) -> Node {
    let setup = read_file(file).unwrap_or_else(|why| panic!("{why}: {file}"));
    let answers = answers(&setup);
    list(&answers, "answers").first().cloned().unwrap()
}

/// The list under a key.
pub(crate) fn list<'a>(node: &'a Node, key: &str) -> &'a [Node] {
    match node.get(key) {
        Some(Node::List(items)) => items,
        other => panic!("{key}: {other:?}"),
    }
}

/// The number under a key.
pub(crate) fn number(node: &Node, key: &str) -> f64 {
    match node.get(key) {
        Some(Node::Float(x)) => *x,
        Some(Node::Whole(n)) => *n as f64,
        other => panic!("{key}: {other:?} in {node:?}"),
    }
}

/// The numbers of a list under a key.
pub(crate) fn numbers(node: &Node, key: &str) -> Vec<f64> {
    list(node, key)
        .iter()
        .map(|node| match node {
            Node::Float(x) => *x,
            other => panic!("{key}: {other:?}"),
        })
        .collect()
}

/// The string under a key.
pub(crate) fn text(node: &Node, key: &str) -> String {
    node.get(key).and_then(Node::as_text).unwrap_or_else(|| panic!("{key}: {node:?}")).to_owned()
}

/// Whether these words stand somewhere under a key.
pub(crate) fn says(node: &Node, key: &str, words: &str) -> bool {
    fn within(node: &Node, words: &str) -> bool {
        match node {
            Node::Text(text) => text.contains(words),
            Node::List(items) => items.iter().any(|item| within(item, words)),
            Node::Object(pairs) => pairs.iter().any(|(_, item)| within(item, words)),
            _ => false,
        }
    }
    node.get(key).is_some_and(|under| within(under, words))
}

/// Nearly equal, or the source with both figures.
pub(crate) fn near(ours: f64, theirs: f64, tolerance: f64, source: &str) {
    assert!((ours - theirs).abs() <= tolerance, "{source}: ours {ours}, theirs {theirs}");
}
