//! A form as a plain sentence with blanks.

use super::{Field, Record, Shape, Value};
use crate::quantity::Measure;
use alloc::borrow::ToOwned;
use alloc::string::String;
use alloc::vec::Vec;

/// A piece of the sentence.
#[derive(Clone, Debug, PartialEq)]
pub enum Piece {
    /// Words between blanks.
    Words(String),
    /// A blank.
    Blank {
        /// The key of what stands in it.
        key: &'static str,
        /// What it is called.
        label: &'static str,
        /// What stands in it, if anything.
        text: Option<String>,
        /// What could stand in it, while nothing does: "say 8 tpi or 3 mm".
        example: String,
        /// Whether its unit, or all of it, was assumed.
        assumed: bool,
    },
}

/// The sentence, and the blanks that it can have besides.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sentence {
    /// Words and blanks in order.
    pub pieces: Vec<Piece>,
    /// Keys and labels of what may be added.
    pub more: Vec<(&'static str, &'static str)>,
}

impl Sentence {
    /// The sentence in one line, gaps as dashes.
    #[must_use]
    pub fn plain(&self) -> String {
        let mut out = String::new();
        for piece in &self.pieces {
            match piece {
                Piece::Words(words) => out.push_str(words),
                Piece::Blank { text: Some(text), .. } => out.push_str(text),
                Piece::Blank { .. } => out.push('…'),
            }
        }
        out
    }
}

/// Templates, each under what calls for it: a key that is filled in, or `key=word` for a choice that
/// is made; the last under none.
pub type Templates = &'static [(&'static str, &'static str)];

/// Fills a form's sentence in.
///
/// A template is words with `{key}` for each blank, `{key|words}` where an empty one is answered as
/// if those words stood in it; `[…]` stands only where a blank in it is filled. The first template whose condition is filled in is used; the last has none.
#[must_use]
pub fn sentence(entries: &Record, templates: Templates) -> Sentence {
    let template = templates
        .iter()
        .find(|(condition, _)| match condition.split_once('=') {
            Some((key, word)) => entries.choice(key) == Some(word),
            None => condition.is_empty() || entries.get(condition).is_some(),
        })
        .map_or("", |(_, template)| *template);
    let mut sentence = Sentence::default();
    let mut used: Vec<&str> = Vec::new();
    let mut rest = template;
    while !rest.is_empty() {
        let (before, optional, after) = match rest.split_once('[') {
            Some((before, tail)) => {
                let (optional, after) = tail.split_once(']').unwrap_or((tail, ""));
                (before, Some(optional), after)
            }
            None => (rest, None, ""),
        };
        fill(before, entries, &mut sentence.pieces, &mut used);
        if let Some(optional) = optional {
            let filled = keys(optional).any(|key| entries.get(key).is_some());
            if filled {
                fill(optional, entries, &mut sentence.pieces, &mut used);
            }
        }
        rest = after;
    }
    sentence.more = entries
        .iter()
        .filter(|(field, value)| value.is_none() && !used.contains(&field.key))
        .map(|(field, _)| (field.key, field.label))
        .collect();
    sentence
}

fn keys(template: &str) -> impl Iterator<Item = &str> {
    template.split('{').skip(1).filter_map(|tail| tail.split_once('}').map(|(key, _)| key))
}

fn fill(template: &str, entries: &Record, pieces: &mut Vec<Piece>, used: &mut Vec<&str>) {
    let mut rest = template;
    while let Some((words, tail)) = rest.split_once('{') {
        if !words.is_empty() {
            pieces.push(Piece::Words(words.to_owned()));
        }
        let (key, after) = tail.split_once('}').unwrap_or((tail, ""));
        let (key, otherwise) = key.split_once('|').map_or((key, None), |(key, o)| (key, Some(o)));
        if let Some(field) = entries.spec().field(key) {
            let value = entries.get(key);
            pieces.push(blank(field, value, otherwise));
            used.push(field.key);
            if matches!(value, Some(Value::Count(1)))
                && let Some(words) = singular(after)
            {
                let (one, after) = words;
                pieces.push(Piece::Words(one));
                rest = after;
                continue;
            }
        }
        rest = after;
    }
    if !rest.is_empty() {
        pieces.push(Piece::Words(rest.to_owned()));
    }
}

/// What stands behind a count, in the plural of its template and for one.
const PLURALS: &[(&str, &str)] = &[
    (" spring passes", " spring pass"),
    (" passes", " pass"),
    (" pairs go", " pair goes"),
    (" pairs", " pair"),
    (" starts", " start"),
    (" lines", " line"),
    (" teeth", " tooth"),
    (" marks", " mark"),
    (" turns", " turn"),
    (" holes", " hole"),
    (" spaces", " space"),
    (" places", " place"),
    (" cuts", " cut"),
];

/// The first words behind a count of one, and what follows them.
fn singular(words: &str) -> Option<(String, &str)> {
    PLURALS.iter().find_map(|(more, one)| {
        let rest = words.strip_prefix(more)?;
        (!rest.starts_with(char::is_alphanumeric)).then(|| ((*one).to_owned(), rest))
    })
}

/// What could stand in a blank: an example of its measure, the words that it may be, or its name.
fn example(field: &Field) -> String {
    let measure = |shape: &Shape| match shape {
        Shape::Quantity(Measure::Length, _) => "12 mm or 1/2 in",
        Shape::Quantity(Measure::Lead, _) => "8 tpi or 3 mm",
        Shape::Quantity(Measure::Angle, _) => "30\u{b0}",
        Shape::Quantity(Measure::Ratio, _) => "1/2",
        Shape::Count(..) => "24",
        _ => "",
    };
    match &field.shape {
        Shape::Choice(choices) => {
            let mut words = String::new();
            for (at, choice) in choices.iter().take(3).enumerate() {
                words.push_str(match at {
                    0 => "",
                    _ if at.saturating_add(1) == choices.len() => " or ",
                    _ => ", ",
                });
                words.push_str(choice.words);
            }
            if choices.len() > 3 {
                words.push_str(" \u{2026}");
            }
            words
        }
        Shape::Flag => "yes or no".to_owned(),
        Shape::List(Shape::List(..), ..) => "say 15, 16, 17; 21, 23, 27".to_owned(),
        Shape::List(Shape::Named(Shape::Count(..), _), ..) => "say 70, 110, 190".to_owned(),
        Shape::List(Shape::Named(Shape::Quantity(Measure::Length, _), _), ..) => {
            "say 0.1 mm, 0.2 mm".to_owned()
        }
        Shape::List(Shape::Named(..), ..) => "say 1/1, 1/2".to_owned(),
        Shape::List(Shape::Count(..), ..) => "say 20, 25, 30".to_owned(),
        Shape::List(Shape::Quantity(..), ..) => "say 5 mm, 1/4 in".to_owned(),
        Shape::Pair(Shape::Count(..)) => "say 80 to 160".to_owned(),
        Shape::Pair(_) => "say 40 mm to 90 mm".to_owned(),
        shape => match measure(shape) {
            "" => field.label.to_owned(),
            one => ["say ", one].concat(),
        },
    }
}

/// The blank of a field, and what it is taken for while it is empty.
fn blank(field: &'static Field, value: Option<&Value>, otherwise: Option<&str>) -> Piece {
    Piece::Blank {
        key: field.key,
        label: field.label,
        example: match (value, otherwise) {
            (None, None) => example(field),
            _ => String::new(),
        },
        text: value.map(Value::text).or_else(|| otherwise.map(ToOwned::to_owned)),
        assumed: match value {
            Some(Value::Quantity(q)) => q.assumed(),
            Some(_) => false,
            None => otherwise.is_some(),
        },
    }
}
