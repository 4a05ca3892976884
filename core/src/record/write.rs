use super::{Node, Record, Shape, Value};
use alloc::borrow::ToOwned;
use alloc::vec;
use alloc::vec::Vec;

/// The form as the file writes it; what is absent is left out.
#[must_use]
pub fn write(record: &Record) -> Vec<(alloc::string::String, Node)> {
    record
        .iter()
        .filter_map(|(field, value)| Some((field.key.to_owned(), node(value?, &field.shape))))
        .collect()
}

fn node(value: &Value, shape: &Shape) -> Node {
    match (value, shape) {
        (Value::Quantity(q), _) => Node::from(q.text()),
        (Value::Count(n), _) => Node::from(*n),
        (Value::Choice(choice), _) => Node::from(choice.id),
        (Value::Text(text), _) => Node::from(text.as_str()),
        (Value::Flag(yes), _) => Node::from(*yes),
        (Value::List(items), Shape::List(inner, _, _) | Shape::Pair(inner)) => {
            Node::List(items.iter().map(|item| node(item, inner)).collect())
        }
        (Value::Named(bare, how), Shape::Named(inner, key)) => Node::Object(vec![
            ((*key).to_owned(), node(bare, inner)),
            ("how".to_owned(), Node::from(how.as_str())),
        ]),
        (bare, Shape::Named(inner, _)) => node(bare, inner),
        (Value::Record(record), _) => Node::Object(write(record)),
        // A list or a name under a shape that has none can't be made by `read` or `enter`.
        (Value::List(_) | Value::Named(..), _) => Node::Null,
    }
}
