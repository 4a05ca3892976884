use super::{Bound, Choice, Shape, Spec};
use crate::exact::Ratio;
use crate::quantity::{Measure, Quantity, Unit, show};
use alloc::borrow::ToOwned;
use alloc::boxed::Box;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// What stands in a field.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// A quantity.
    Quantity(Quantity),
    /// A whole number.
    Count(u32),
    /// One of a few words.
    Choice(&'static Choice),
    /// Words of the person's own.
    Text(String),
    /// Yes or no.
    Flag(bool),
    /// Several, in order; a pair is two.
    List(Vec<Value>),
    /// A value with the machine's own word beside it.
    Named(Box<Value>, String),
    /// A form within the form.
    Record(Record),
}

impl Value {
    /// The value itself, any word beside it left off.
    #[must_use]
    pub fn bare(&self) -> &Value {
        match self {
            Value::Named(value, _) => value,
            value => value,
        }
    }

    /// The machine's own word beside it.
    #[must_use]
    pub fn how(&self) -> Option<&str> {
        match self {
            Value::Named(_, how) => Some(how),
            _ => None,
        }
    }

    /// As it is typed and shown in a blank.
    #[must_use]
    pub fn text(&self) -> String {
        match self {
            Value::Quantity(q) => q.text().to_owned(),
            Value::Count(n) => n.to_string(),
            Value::Choice(choice) => choice.words.to_owned(),
            Value::Text(text) => text.clone(),
            Value::Flag(yes) => if *yes { "yes" } else { "no" }.to_owned(),
            Value::List(items) => {
                let within = items.iter().any(|item| matches!(item, Value::List(_)));
                let texts: Vec<String> = items.iter().map(Value::text).collect();
                texts.join(if within { "; " } else { ", " })
            }
            Value::Named(value, how) => format!("{} ({how})", value.text()),
            Value::Record(record) => {
                record.values.iter().flatten().map(Value::text).collect::<Vec<_>>().join(", ")
            }
        }
    }
}

/// Something typed for one value of a shape.
#[derive(Clone, Copy, Debug)]
pub struct Entry<'a> {
    /// What was typed.
    pub text: &'a str,
    /// The unit of a bare number.
    pub unit: Option<Unit>,
}

impl Shape {
    /// What is measured here, where anything is: a list's or a pair's, that of each.
    #[must_use]
    pub fn measure(&self) -> Option<Measure> {
        match self {
            Shape::Quantity(measure, _) => Some(*measure),
            Shape::List(inner, ..) | Shape::Pair(inner) | Shape::Named(inner, _) => inner.measure(),
            _ => None,
        }
    }

    /// Reads what was typed into a blank of this shape.
    ///
    /// Lists are typed with commas, and lists of whole numbers may be written short: `20-80 by 5,
    /// 127` or `2×20`.
    ///
    /// # Errors
    ///
    /// A sentence for the person who typed it.
    pub fn enter(&self, entry: Entry<'_>) -> Result<Value, String> {
        let text = entry.text.trim();
        match self {
            Shape::Quantity(measure, bound) => {
                let q =
                    Quantity::parse(text, *measure, entry.unit).map_err(|why| why.to_string())?;
                bounded(&q, *bound)?;
                Ok(Value::Quantity(q))
            }
            Shape::Count(least, most) => {
                let n: u32 = super::read::digits(text)
                    .ok_or_else(|| format!("“{}” is not a whole number", show::short(text)))?;
                within(n, *least, *most).map(Value::Count)
            }
            Shape::Choice(choices) => choices
                .iter()
                .find(|choice| choice.id == text || choice.words == text)
                .map(Value::Choice)
                .ok_or_else(|| {
                    format!("“{}” is not one of: {}", show::short(text), words(choices))
                }),
            Shape::Text(longest) => {
                if text.chars().count() > *longest {
                    return Err(format!("too long: at most {longest} characters"));
                }
                Ok(Value::Text(text.to_owned()))
            }
            Shape::Flag => match text {
                "yes" => Ok(Value::Flag(true)),
                "no" => Ok(Value::Flag(false)),
                _ => Err("yes or no".to_owned()),
            },
            Shape::List(Shape::Count(least, most), longest, noun) => {
                super::read::counts(text, *least, *most, *longest, noun)
                    .map(|items| Value::List(items.into_iter().map(Value::Count).collect()))
            }
            Shape::List(inner, longest, noun) => {
                let commas = !text.contains([';', '\n']) && !matches!(inner, Shape::List(..));
                let parts = parts(text, commas);
                if parts.len() > *longest {
                    return Err(format!("{} {noun}: at most {longest}", parts.len()));
                }
                parts
                    .into_iter()
                    .map(|text| inner.enter(Entry { text, ..entry }))
                    .collect::<Result<Vec<_>, _>>()
                    .map(Value::List)
            }
            Shape::Pair(inner) => {
                let halves: Vec<&str> = text.split([',', ';', '…']).map(str::trim).collect();
                let halves = match halves.as_slice() {
                    [one] => one.split(" to ").map(str::trim).collect(),
                    _ => halves,
                };
                match halves.as_slice() {
                    [least, most] => Ok(Value::List(alloc::vec![
                        inner.enter(Entry { text: least, ..entry })?,
                        inner.enter(Entry { text: most, ..entry })?,
                    ])),
                    _ => Err("two values: the least and the most, with a comma".to_owned()),
                }
            }
            Shape::Named(inner, _) => match text.split_once('(') {
                Some((bare, how)) => {
                    let value = inner.enter(Entry { text: bare, ..entry })?;
                    let how = how.trim().trim_end_matches(')').trim();
                    if how.is_empty() {
                        return Ok(value);
                    }
                    if how.chars().count() > 90 {
                        return Err("too long: at most 90 characters in brackets".to_owned());
                    }
                    Ok(Value::Named(Box::new(value), how.to_owned()))
                }
                None => inner.enter(entry),
            },
            Shape::Record(spec) => Err(format!("{} is a form of its own", spec.name)),
        }
    }
}

/// The parts between semicolons and line ends, or between commas; what stands in brackets is one
/// part.
fn parts(text: &str, commas: bool) -> Vec<&str> {
    let mut depth = 0_u32;
    text.split(|c| {
        match c {
            '(' => depth = depth.saturating_add(1),
            ')' => depth = depth.saturating_sub(1),
            _ => {}
        }
        depth == 0 && (if commas { c == ',' } else { c == ';' || c == '\n' })
    })
    .map(str::trim)
    .filter(|part| !part.is_empty())
    .collect()
}

/// Refuses what is below its bound.
pub(super) fn bounded(q: &Quantity, bound: Bound) -> Result<(), String> {
    match bound {
        Bound::Positive if !q.value().is_positive() => {
            Err(format!("{} won't do: it must be more than nothing", show::short(q.text())))
        }
        Bound::NotNegative if q.value().is_negative() => {
            Err(format!("{} won't do: it can't be less than nothing", show::short(q.text())))
        }
        _ => Ok(()),
    }
}

/// Refuses what is outside its limits.
pub(super) fn within(n: u32, least: u32, most: u32) -> Result<u32, String> {
    if n < least || n > most {
        return Err(format!("{n} is outside {least} to {most}"));
    }
    Ok(n)
}

/// The choices as a person would list them.
pub(super) fn words(choices: &[Choice]) -> String {
    choices.iter().map(|choice| choice.id).collect::<Vec<_>>().join(", ")
}

/// A filled-in form.
#[derive(Clone, Debug, PartialEq)]
pub struct Record {
    pub(super) spec: &'static Spec,
    pub(super) values: Vec<Option<Value>>,
}

impl Record {
    /// The form with nothing filled in.
    #[must_use]
    pub fn empty(spec: &'static Spec) -> Record {
        Record { spec, values: alloc::vec![None; spec.fields.len()] }
    }

    /// Its shape.
    #[must_use]
    pub fn spec(&self) -> &'static Spec {
        self.spec
    }

    /// What stands under a key.
    #[must_use]
    pub fn get(&self, key: &str) -> Option<&Value> {
        self.values.get(self.spec.place(key)?)?.as_ref()
    }

    /// Puts a value under a key, or takes it away; a key that the form hasn't is ignored.
    pub fn set(&mut self, key: &str, value: Option<Value>) {
        if let Some(place) = self.spec.place(key)
            && let Some(slot) = self.values.get_mut(place)
        {
            *slot = value;
        }
    }

    /// Reads what was typed into the blank of that key and keeps it; an empty blank takes away what
    /// was there.
    ///
    /// # Errors
    ///
    /// A sentence for the person who typed it; the form is left as it was.
    pub fn enter(&mut self, key: &str, entry: Entry<'_>) -> Result<(), String> {
        let Some(field) = self.spec.field(key) else { return Ok(()) };
        let value =
            if entry.text.trim().is_empty() { None } else { Some(field.shape.enter(entry)?) };
        self.set(key, value);
        Ok(())
    }

    /// Every field with what stands in it.
    pub fn iter(&self) -> impl Iterator<Item = (&'static super::Field, Option<&Value>)> {
        self.spec.fields.iter().zip(self.values.iter().map(Option::as_ref))
    }

    /// A quantity.
    #[must_use]
    pub fn quantity(&self, key: &str) -> Option<&Quantity> {
        match self.get(key)?.bare() {
            Value::Quantity(q) => Some(q),
            _ => None,
        }
    }

    /// A quantity's exact value in its base unit.
    #[must_use]
    pub fn ratio(&self, key: &str) -> Option<Ratio> {
        self.quantity(key).map(Quantity::value)
    }

    /// A whole number.
    #[must_use]
    pub fn count(&self, key: &str) -> Option<u32> {
        match self.get(key)?.bare() {
            Value::Count(n) => Some(*n),
            _ => None,
        }
    }

    /// The word chosen, as in the file.
    #[must_use]
    pub fn choice(&self, key: &str) -> Option<&'static str> {
        match self.get(key)? {
            Value::Choice(choice) => Some(choice.id),
            _ => None,
        }
    }

    /// Words; spaces alone are none.
    #[must_use]
    pub fn text(&self, key: &str) -> Option<&str> {
        match self.get(key)? {
            Value::Text(text) if !text.trim().is_empty() => Some(text),
            _ => None,
        }
    }

    /// Yes or no.
    #[must_use]
    pub fn flag(&self, key: &str) -> Option<bool> {
        match self.get(key)? {
            Value::Flag(yes) => Some(*yes),
            _ => None,
        }
    }

    /// A list, empty where nothing stands.
    #[must_use]
    pub fn list(&self, key: &str) -> &[Value] {
        match self.get(key) {
            Some(Value::List(items)) => items,
            _ => &[],
        }
    }

    /// A list of whole numbers.
    #[must_use]
    pub fn counts(&self, key: &str) -> Vec<u32> {
        counts(self.list(key))
    }

    /// A form within the form.
    #[must_use]
    pub fn record(&self, key: &str) -> Option<&Record> {
        match self.get(key)? {
            Value::Record(record) => Some(record),
            _ => None,
        }
    }

    /// The forms of a list.
    pub fn records(&self, key: &str) -> impl Iterator<Item = &Record> {
        self.list(key).iter().filter_map(|value| match value {
            Value::Record(record) => Some(record),
            _ => None,
        })
    }
}

/// The whole numbers of a list.
pub(crate) fn counts(items: &[Value]) -> Vec<u32> {
    items
        .iter()
        .filter_map(|value| match value.bare() {
            Value::Count(n) => Some(*n),
            _ => None,
        })
        .collect()
}
