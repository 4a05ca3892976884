//! A setup's answers as JSON.

use super::{Setup, order};
use crate::operation::{Answer, Operation};
use crate::procedure::{Action, Line, Span};
use crate::record::Node;
use crate::shop::Shop;
use alloc::borrow::ToOwned;
use alloc::string::{String, ToString};
use alloc::vec;
use alloc::vec::Vec;

/// Everything that a setup's operations come to in its own shop.
#[must_use]
pub fn answers(setup: &Setup) -> Node {
    let shop = Shop::new(setup.shop.clone());
    let answers = setup
        .operations
        .iter()
        .enumerate()
        .map(|(at, operation)| answer_node(at, operation, &operation.proved(&shop)));
    let mut pairs = vec![
        ("format".to_owned(), Node::from("latheside-answers")),
        ("version".to_owned(), Node::Whole(1)),
        ("answers".to_owned(), Node::List(answers.collect())),
    ];
    let order = order(setup);
    if !order.is_empty() {
        pairs.push(("order".to_owned(), order.node()));
    }
    Node::Object(pairs)
}

fn answer_node(at: usize, operation: &Operation, answer: &Answer) -> Node {
    let mut pairs: Vec<(String, Node)> = vec![
        ("operation".to_owned(), Node::Whole(i64::try_from(at).unwrap_or(i64::MAX))),
        ("kind".to_owned(), Node::from(operation.kind.name)),
    ];
    if let Some(why) = &answer.refused {
        pairs.push(("refused".to_owned(), Node::from(why.as_str())));
    }
    if let Some(found) = &answer.found {
        pairs.extend(found.json());
    }
    if let Some(unmade) = &answer.unmade {
        pairs.push((
            "unmade".to_owned(),
            Node::Object(vec![
                ("why".to_owned(), Node::from(unmade.why.as_str())),
                ("needs".to_owned(), Node::from(unmade.needs)),
            ]),
        ));
    }
    if !answer.lacking.is_empty() {
        let lacking = answer.lacking.iter().map(|lacking| {
            Node::Object(vec![
                ("key".to_owned(), Node::from(lacking.key)),
                ("needs".to_owned(), Node::from(lacking.needs)),
            ])
        });
        pairs.push(("lacking".to_owned(), Node::List(lacking.collect())));
    }
    pairs.push(("cautions".to_owned(), Node::from(answer.cautions.clone())));
    let why = answer.why.iter().map(|why| {
        Node::Object(vec![
            ("formula".to_owned(), Node::from(why.formula.as_str())),
            ("values".to_owned(), Node::from(why.values.as_str())),
            ("source".to_owned(), Node::from(why.source.as_str())),
        ])
    });
    pairs.push(("why".to_owned(), Node::List(why.collect())));
    let made = answer.found.as_ref().filter(|_| answer.unmade.is_none());
    let steps = made.map_or_else(Vec::new, |found| {
        let steps = found.steps();
        (0..steps.len()).filter_map(|at| steps.get(at)).map(|step| step_node(&step)).collect()
    });
    pairs.push(("steps".to_owned(), Node::List(steps)));
    Node::Object(pairs)
}

/// A value as a node, by way of its text.
fn node_of(action: &Action) -> Node {
    let text = serde_json::to_string(action).unwrap_or_default();
    serde_json::from_str(&text).unwrap_or(Node::Null)
}

fn step_node(step: &crate::operation::Step) -> Node {
    let plain = |text: &str| Node::from(text.replace('*', ""));
    let mut pairs = Vec::new();
    if !step.id.stage.is_empty() {
        pairs.push(("id".to_owned(), Node::from(step.id.to_string())));
    }
    pairs.push(("title".to_owned(), plain(&step.title)));
    if !step.id.stage.is_empty() {
        let actions = step.actions.iter().map(node_of);
        pairs.push(("actions".to_owned(), Node::List(actions.collect())));
    }
    let said = |line: &Line| Node::from(line.iter().map(Span::text).collect::<String>());
    pairs.push(("say".to_owned(), Node::List(step.lines().iter().map(said).collect())));
    if !step.figure.is_empty() {
        pairs.push(("label".to_owned(), plain(&step.label)));
        pairs.push(("figure".to_owned(), plain(&step.figure)));
    }
    if let Some(caution) = step.caution {
        pairs.push(("caution".to_owned(), Node::from(caution)));
    }
    pairs.push(("cuts".to_owned(), Node::from(step.cuts)));
    if let Some(entry) = step.measures {
        pairs.push(("measures".to_owned(), Node::from(entry)));
    }
    Node::Object(pairs)
}
