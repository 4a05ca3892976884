//! A setup's answers as JSON.

use super::{Setup, order};
use crate::operation::{Answer, Operation};
use crate::record::Node;
use crate::shop::Shop;
use alloc::borrow::ToOwned;
use alloc::string::String;
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
        .map(|(at, operation)| answer_node(at, operation, &operation.answer(&shop)));
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
    let steps = answer.found.as_ref().map_or_else(Vec::new, |found| {
        let steps = found.steps();
        (0..steps.len()).filter_map(|at| steps.get(at)).map(|step| step_node(&step)).collect()
    });
    pairs.push(("steps".to_owned(), Node::List(steps)));
    Node::Object(pairs)
}

fn step_node(step: &crate::operation::Step) -> Node {
    let plain = |text: &str| Node::from(text.replace('*', ""));
    let mut pairs = vec![
        ("title".to_owned(), plain(&step.title)),
        ("say".to_owned(), Node::List(step.say.iter().map(|say| plain(say)).collect())),
    ];
    if !step.figure.is_empty() {
        pairs.push(("label".to_owned(), plain(&step.label)));
        pairs.push(("figure".to_owned(), plain(&step.figure)));
    }
    if let Some(caution) = step.caution {
        pairs.push(("caution".to_owned(), Node::from(caution)));
    }
    pairs.push(("cuts".to_owned(), Node::from(step.cuts)));
    Node::Object(pairs)
}
