use crate::quantity::show;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;
use serde::de::{Deserialize, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use serde::ser::{Serialize, SerializeMap, Serializer};

/// A piece of JSON with its keys in order, those that stand twice too.
#[derive(Clone, Debug, PartialEq)]
pub enum Node {
    /// `null`
    Null,
    /// `true` or `false`
    Flag(bool),
    /// A whole number.
    Whole(i64),
    /// Any other number.
    Float(f64),
    /// A string.
    Text(String),
    /// An array.
    List(Vec<Node>),
    /// An object, in the order in which it is written.
    Object(Vec<(String, Node)>),
}

impl Node {
    /// What stands under a key of an object.
    #[must_use]
    pub fn get(&self, key: &str) -> Option<&Node> {
        match self {
            Node::Object(pairs) => pairs.iter().find(|(name, _)| name == key).map(|(_, node)| node),
            _ => None,
        }
    }

    /// The string, where it is one.
    #[must_use]
    pub fn as_text(&self) -> Option<&str> {
        match self {
            Node::Text(text) => Some(text),
            _ => None,
        }
    }

    /// What it is, for a refusal.
    pub(super) fn described(&self) -> String {
        match self {
            Node::Null => String::from("nothing"),
            Node::Flag(true) => String::from("true"),
            Node::Flag(false) => String::from("false"),
            Node::Text(text) => alloc::format!("“{}”", show::short(text)),
            Node::List(_) => String::from("a list"),
            Node::Object(_) => String::from("a group in { }"),
            number => number.figure().unwrap_or_else(|| String::from("an enormous number")),
        }
    }

    /// The figures of a number that isn't enormous.
    pub(super) fn figure(&self) -> Option<String> {
        match self {
            Node::Whole(n) => Some(alloc::format!("{n}")),
            Node::Float(x) if x.abs() < 1e12 => Some(show::float_trimmed(*x, 6).replace('−', "-")),
            _ => None,
        }
    }
}

impl From<&str> for Node {
    fn from(text: &str) -> Node {
        Node::Text(String::from(text))
    }
}

impl From<String> for Node {
    fn from(text: String) -> Node {
        Node::Text(text)
    }
}

impl From<u32> for Node {
    fn from(n: u32) -> Node {
        Node::Whole(n.into())
    }
}

impl From<f64> for Node {
    fn from(x: f64) -> Node {
        Node::Float(x)
    }
}

impl From<bool> for Node {
    fn from(yes: bool) -> Node {
        Node::Flag(yes)
    }
}

impl<T: Into<Node>> From<Vec<T>> for Node {
    fn from(items: Vec<T>) -> Node {
        Node::List(items.into_iter().map(Into::into).collect())
    }
}

struct NodeVisitor;

impl<'de> Visitor<'de> for NodeVisitor {
    type Value = Node;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("JSON")
    }

    fn visit_unit<E: Error>(self) -> Result<Node, E> {
        Ok(Node::Null)
    }

    fn visit_bool<E: Error>(self, yes: bool) -> Result<Node, E> {
        Ok(Node::Flag(yes))
    }

    fn visit_i64<E: Error>(self, n: i64) -> Result<Node, E> {
        Ok(Node::Whole(n))
    }

    fn visit_u64<E: Error>(self, n: u64) -> Result<Node, E> {
        Ok(i64::try_from(n).map_or(Node::Float(n as f64), Node::Whole))
    }

    fn visit_f64<E: Error>(self, x: f64) -> Result<Node, E> {
        // `40.0` is forty: JSON knows one kind of number.
        let whole = x as i64;
        Ok(if whole as f64 == x && x.abs() < 9e15 { Node::Whole(whole) } else { Node::Float(x) })
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<Node, E> {
        Ok(Node::from(text))
    }

    fn visit_string<E: Error>(self, text: String) -> Result<Node, E> {
        Ok(Node::Text(text))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Node, A::Error> {
        let mut list = Vec::new();
        while let Some(item) = items.next_element()? {
            list.push(item);
        }
        Ok(Node::List(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut pairs: A) -> Result<Node, A::Error> {
        let mut object: Vec<(String, Node)> = Vec::new();
        while let Some(pair) = pairs.next_entry()? {
            object.push(pair);
        }
        Ok(Node::Object(object))
    }
}

impl<'de> Deserialize<'de> for Node {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Node, D::Error> {
        deserializer.deserialize_any(NodeVisitor)
    }
}

impl Serialize for Node {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Node::Null => serializer.serialize_unit(),
            Node::Flag(yes) => serializer.serialize_bool(*yes),
            Node::Whole(n) => serializer.serialize_i64(*n),
            Node::Float(x) => serializer.serialize_f64(*x),
            Node::Text(text) => serializer.serialize_str(text),
            Node::List(items) => serializer.collect_seq(items),
            Node::Object(pairs) => {
                let mut map = serializer.serialize_map(Some(pairs.len()))?;
                for (key, node) in pairs {
                    map.serialize_entry(key, node)?;
                }
                map.end()
            }
        }
    }
}
