//! A setup in, what its operations come to out: as a file does it.

use latheside_core::operation::{Card, Found, Line, Span, Step};
use latheside_core::record::Node;
use latheside_core::setup::{answers, read_file};
use latheside_core::shop::Shop;

/// The answers to these operations in this shop, both as they stand in a file.
///
/// # Panics
///
/// Where the file is refused.
#[must_use]
pub fn solved(shop: &str, operations: &str) -> Vec<Node> {
    let file = file(shop, operations);
    let setup = read_file(&file).unwrap_or_else(|why| panic!("{why}: {file}"));
    items(answers(&setup).get("answers").unwrap_or(&Node::Null)).to_vec()
}

/// The answer to one operation.
///
/// # Panics
///
/// Where the file is refused.
#[must_use]
pub fn answer(shop: &str, operation: &str) -> Node {
    solved(shop, operation).into_iter().next().unwrap_or(Node::Null)
}

/// One operation as the screen takes it.
///
/// # Panics
///
/// Where the file is refused or nothing is found.
#[must_use]
pub fn card(shop: &str, operation: &str) -> Card {
    found(shop, operation).card()
}

/// What one operation comes to.
///
/// # Panics
///
/// Where the file is refused or nothing is found.
#[must_use]
pub fn found(shop: &str, operation: &str) -> Found {
    let setup = read_file(&file(shop, operation)).unwrap_or_else(|why| panic!("{why}"));
    let answer = setup.operations[0].answer(&Shop::new(setup.shop.clone()));
    answer.found.unwrap_or_else(|| panic!("{:?}", answer.refused))
}

/// A card's large lines, as text.
#[must_use]
pub fn lines(card: &Card) -> Vec<String> {
    let text = |span: &Span| match span {
        Span::Figure(text) | Span::Word(text) => text.clone(),
    };
    card.lines.iter().map(|line| line.iter().map(text).collect()).collect()
}

/// All that a step says, in the order in which it is read.
#[must_use]
pub fn said(step: &Step) -> String {
    let lines = step.lines();
    let text = |line: &Line| line.iter().map(Span::text).collect::<String>();
    lines.iter().map(text).collect::<Vec<_>>().join(" ")
}

/// The value of a card's small setting; empty where there is none.
#[must_use]
pub fn fact<'a>(card: &'a Card, label: &str) -> &'a str {
    card.facts.iter().find(|fact| fact.label == label).map_or("", |fact| &fact.value)
}

/// A setup file of these.
#[must_use]
pub fn file(shop: &str, operations: &str) -> String {
    format!(
        r#"{{"format":"latheside-setup","version":1,"name":"check","shop":{shop},"operations":[{operations}]}}"#
    )
}

/// The items of a list; none of anything else.
#[must_use]
pub fn items(node: &Node) -> &[Node] {
    match node {
        Node::List(items) => items,
        _ => &[],
    }
}

/// What stands at a path such as `ways.0.circle`; nothing where nothing does.
#[must_use]
pub fn at<'a>(node: &'a Node, path: &str) -> &'a Node {
    path.split('.').fold(node, |node, part| match (node, part.parse::<usize>()) {
        (Node::List(items), Ok(at)) => items.get(at).unwrap_or(&Node::Null),
        _ => node.get(part).unwrap_or(&Node::Null),
    })
}

/// The number at a path; no number where there is none.
#[must_use]
pub fn number(node: &Node, path: &str) -> f64 {
    match at(node, path) {
        Node::Whole(n) => *n as f64,
        Node::Float(x) => *x,
        _ => f64::NAN,
    }
}

/// The text at a path; empty where there is none.
#[must_use]
pub fn text<'a>(node: &'a Node, path: &str) -> &'a str {
    at(node, path).as_text().unwrap_or_default()
}

/// The entry that a missing key waits for; empty where it isn't missing.
#[must_use]
pub fn needs<'a>(node: &'a Node, key: &str) -> &'a str {
    let mut lacking = items(at(node, "lacking")).iter();
    lacking.find(|one| text(one, "key") == key).map_or("", |one| text(one, "needs"))
}

/// The numbers of a list at a path.
#[must_use]
pub fn numbers(node: &Node, path: &str) -> Vec<f64> {
    let items = items(at(node, path));
    (0..items.len()).map(|n| number(node, &format!("{path}.{n}"))).collect()
}

/// Whether these words stand anywhere under a path.
#[must_use]
pub fn says(node: &Node, path: &str, words: &str) -> bool {
    fn within(node: &Node, words: &str) -> bool {
        match node {
            Node::Text(text) => text.contains(words),
            Node::List(items) => items.iter().any(|item| within(item, words)),
            Node::Object(pairs) => pairs.iter().any(|(_, item)| within(item, words)),
            _ => false,
        }
    }
    within(at(node, path), words)
}

/// Nearly equal, or the source with both figures.
///
/// # Panics
///
/// Where they aren't.
pub fn near(ours: f64, theirs: f64, tolerance: f64, source: &str) {
    assert!((ours - theirs).abs() <= tolerance, "{source}: ours {ours}, theirs {theirs}");
}
