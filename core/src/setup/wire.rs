//! A setup as the fewest bytes, written along the forms' specs.
//!
//! For each filled field its number ([`Field::wire`](crate::record::Field::wire)), then the value as
//! its shape calls for. A field's number and the
//! way its shape is written never change, and a field is only ever added: links already sent keep
//! opening.

use super::Setup;
use crate::operation::KINDS;
use crate::quantity::{Quantity, Unit};
use crate::record::{Node, Record, Shape, Spec, Value};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec;
use alloc::vec::Vec;

/// A setup with that much of its shop.
pub(super) fn content(setup: &Setup, shop: &Record) -> Vec<u8> {
    let mut out = Vec::new();
    put_text(&mut out, &setup.name);
    put_text(&mut out, &setup.note);
    put_record(&mut out, shop);
    put_count(&mut out, setup.operations.len());
    for operation in &setup.operations {
        out.push(operation.kind.wire);
        put_record(&mut out, &operation.entries);
    }
    // A link to a setup that isn't on the bench ends here.
    if let Some((operation, step)) = setup.place {
        put_count(&mut out, operation);
        put_count(&mut out, step);
    }
    out
}

/// The bytes taken apart into the same JSON that a file holds, so that both pass the same checks;
/// none where they can't be a setup's.
pub(super) fn node(bytes: &[u8]) -> Option<Node> {
    Reader { rest: bytes }.setup()
}

fn put_count(out: &mut Vec<u8>, n: usize) {
    let n = u32::try_from(n).unwrap_or(u32::MAX);
    put_number(out, u64::from(n));
}

/// Seven bits a byte, the lowest first, the top bit set on all but the last.
fn put_number(out: &mut Vec<u8>, mut n: u64) {
    while n > 127 {
        out.push(n.to_le_bytes()[0] | 128);
        n >>= 7;
    }
    out.push(n.to_le_bytes()[0]);
}

fn put_text(out: &mut Vec<u8>, text: &str) {
    put_count(out, text.len());
    out.extend(text.as_bytes());
}

fn put_record(out: &mut Vec<u8>, record: &Record) {
    put_count(out, record.iter().filter(|(_, value)| value.is_some()).count());
    for (field, value) in record.iter() {
        if let Some(value) = value {
            out.push(field.wire);
            put_value(out, value, &field.shape);
        }
    }
}

fn put_value(out: &mut Vec<u8>, value: &Value, shape: &Shape) {
    match (value, shape) {
        (Value::Named(bare, how), Shape::Named(inner, _)) => {
            out.push(1);
            put_value(out, bare, inner);
            put_text(out, how);
        }
        (bare, Shape::Named(inner, _)) => {
            out.push(0);
            put_value(out, bare, inner);
        }
        (Value::Quantity(q), _) => put_quantity(out, q),
        (Value::Count(n), _) => put_number(out, u64::from(*n)),
        (Value::Choice(choice), _) => out.push(choice.wire),
        (Value::Text(text), _) => put_text(out, text),
        (Value::Flag(yes), _) => out.push(u8::from(*yes)),
        (Value::List(items), Shape::List(Shape::Count(..), ..)) => {
            put_count(out, items.len());
            let mut last = 0;
            for n in items.iter().filter_map(count) {
                put_number(out, folded(n.wrapping_sub(last)));
                last = n;
            }
        }
        (Value::List(items), Shape::List(inner, _, _) | Shape::Pair(inner)) => {
            put_count(out, items.len());
            for item in items {
                put_value(out, item, inner);
            }
        }
        (Value::Record(record), _) => put_record(out, record),
        // Neither `read` nor `enter` makes any other.
        (Value::List(_) | Value::Named(..), _) => {}
    }
}

fn count(value: &Value) -> Option<i64> {
    match value {
        Value::Count(n) => Some(i64::from(*n)),
        _ => None,
    }
}

/// 0, −1, 1, −2, 2… as 0, 1, 2, 3, 4…
fn folded(n: i64) -> u64 {
    (n.wrapping_shl(1) ^ n.wrapping_shr(63)).cast_unsigned()
}

fn unfolded(n: u64) -> i64 {
    (n >> 1).cast_signed() ^ (n & 1).cast_signed().wrapping_neg()
}

const UNITS: &[Unit] = &[
    Unit::One,
    Unit::Mm,
    Unit::Inch,
    Unit::Thou,
    Unit::Tpi,
    Unit::Degree,
    Unit::Minute,
    Unit::Second,
    Unit::Micron,
    Unit::Cm,
    Unit::Metre,
];
const FRACTION: u8 = 7;
const WRITTEN: u8 = 8;

/// A quantity in two or three bytes where it is written plainly, else its text.
fn put_quantity(out: &mut Vec<u8>, q: &Quantity) {
    let unit = UNITS.iter().position(|unit| *unit == q.unit()).unwrap_or(0);
    let unit = u8::try_from(unit).unwrap_or(0) << 4;
    let (number, word) = q.text().split_once(' ').unwrap_or((q.text(), ""));
    let plain = word == q.unit().symbol() && !q.pi();
    if plain && let Some((digits, places)) = decimal(number) {
        out.push(unit | places);
        put_number(out, digits);
    } else if plain && let Some((above, below)) = fraction(number) {
        out.push(unit | FRACTION);
        put_number(out, above);
        put_number(out, below);
    } else {
        out.push(unit | WRITTEN);
        put_text(out, q.text());
    }
}

/// The digits and decimals of a number that would be written again just so.
fn decimal(number: &str) -> Option<(u64, u8)> {
    let (whole, part) = number.split_once('.').unwrap_or((number, ""));
    let places = u8::try_from(part.len()).ok().filter(|places| *places <= 6)?;
    let digits: u64 = format!("{whole}{part}").parse().ok()?;
    (write_decimal(digits, places)? == number).then_some((digits, places))
}

fn write_decimal(digits: u64, places: u8) -> Option<String> {
    if places == 0 {
        return Some(digits.to_string());
    }
    let scale = 10_u64.checked_pow(places.into())?;
    let (whole, part) = (digits.checked_div(scale)?, digits.checked_rem(scale)?);
    let width = usize::from(places);
    Some(format!("{whole}.{part:0width$}"))
}

fn fraction(number: &str) -> Option<(u64, u64)> {
    let (above, below) = number.split_once('/')?;
    let (above, below): (u64, u64) = (above.parse().ok()?, below.parse().ok()?);
    (format!("{above}/{below}") == number).then_some((above, below))
}

struct Reader<'a> {
    rest: &'a [u8],
}

impl<'a> Reader<'a> {
    fn setup(mut self) -> Option<Node> {
        let name = self.text()?;
        let note = self.text()?;
        let shop = Node::Object(self.record(&crate::shop::SHOP)?);
        let count = self.len()?;
        let mut operations = Vec::new();
        for _ in 0..count {
            let wire = self.byte()?;
            let kind = KINDS.iter().find(|kind| kind.wire == wire)?;
            let mut pairs = vec![("kind".to_owned(), Node::from(kind.name))];
            pairs.extend(self.record(kind.spec)?);
            operations.push(Node::Object(pairs));
        }
        let mut place = Vec::new();
        if !self.rest.is_empty() {
            for _ in 0..2 {
                let at = i64::try_from(self.number()?).ok()?.checked_add(1)?;
                place.push(Node::Whole(at));
            }
        }
        if !self.rest.is_empty() {
            return None;
        }
        let mut pairs = vec![
            ("format".to_owned(), Node::from("latheside-setup")),
            ("version".to_owned(), Node::Whole(1)),
            ("name".to_owned(), Node::from(name)),
            ("note".to_owned(), Node::from(note)),
            ("shop".to_owned(), shop),
            ("operations".to_owned(), Node::List(operations)),
        ];
        if !place.is_empty() {
            pairs.push(("place".to_owned(), Node::List(place)));
        }
        Some(Node::Object(pairs))
    }

    fn byte(&mut self) -> Option<u8> {
        let (first, rest) = self.rest.split_first()?;
        self.rest = rest;
        Some(*first)
    }

    fn number(&mut self) -> Option<u64> {
        let mut n = 0_u64;
        for place in (0..63).step_by(7) {
            let byte = self.byte()?;
            n |= u64::from(byte & 127) << place;
            if byte < 128 {
                return Some(n);
            }
        }
        None
    }

    /// A count of things that each take a byte or more.
    fn len(&mut self) -> Option<usize> {
        usize::try_from(self.number()?).ok().filter(|len| *len <= self.rest.len())
    }

    fn text(&mut self) -> Option<&'a str> {
        let len = self.len()?;
        let (text, rest) = self.rest.split_at_checked(len)?;
        self.rest = rest;
        core::str::from_utf8(text).ok()
    }

    fn record(&mut self, spec: &'static Spec) -> Option<Vec<(String, Node)>> {
        let count = self.len()?;
        let mut pairs: Vec<(String, Node)> = Vec::new();
        for _ in 0..count {
            let wire = self.byte()?;
            let field = spec.fields.iter().find(|field| field.wire == wire)?;
            if pairs.iter().any(|(key, _)| key == field.key) {
                return None;
            }
            pairs.push((field.key.to_owned(), self.value(&field.shape)?));
        }
        Some(pairs)
    }

    fn value(&mut self, shape: &Shape) -> Option<Node> {
        Some(match shape {
            Shape::Quantity(..) => Node::from(self.quantity()?),
            Shape::Count(..) => Node::Whole(i64::try_from(self.number()?).ok()?),
            Shape::Choice(choices) => {
                let wire = self.byte()?;
                Node::from(choices.iter().find(|choice| choice.wire == wire)?.id)
            }
            Shape::Text(_) => Node::from(self.text()?),
            Shape::Flag => match self.byte()? {
                0 => Node::Flag(false),
                1 => Node::Flag(true),
                _ => return None,
            },
            Shape::List(Shape::Count(..), ..) => {
                let mut last = 0_i64;
                let mut items = Vec::new();
                for _ in 0..self.len()? {
                    last = last.checked_add(unfolded(self.number()?))?;
                    items.push(Node::Whole(last));
                }
                Node::List(items)
            }
            Shape::List(inner, ..) | Shape::Pair(inner) => {
                let count = self.len()?;
                let items: Option<Vec<Node>> = (0..count).map(|_| self.value(inner)).collect();
                Node::List(items?)
            }
            Shape::Named(inner, key) => match self.byte()? {
                0 => self.value(inner)?,
                1 => {
                    let bare = self.value(inner)?;
                    let how = Node::from(self.text()?);
                    Node::Object(vec![((*key).to_owned(), bare), ("how".to_owned(), how)])
                }
                _ => return None,
            },
            Shape::Record(spec) => Node::Object(self.record(spec)?),
        })
    }

    fn quantity(&mut self) -> Option<String> {
        let head = self.byte()?;
        let unit = UNITS.get(usize::from(head >> 4))?;
        let number = match head & 15 {
            places @ 0..=6 => write_decimal(self.number()?, places)?,
            FRACTION => format!("{}/{}", self.number()?, self.number()?),
            WRITTEN => return Some(self.text()?.to_owned()),
            _ => return None,
        };
        Some(if *unit == Unit::One { number } else { format!("{number} {}", unit.symbol()) })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_number_in_a_link_is_given_once() {
        fn check(spec: &'static Spec) {
            let mut wires: Vec<u8> = spec.fields.iter().map(|field| field.wire).collect();
            wires.sort_unstable();
            wires.dedup();
            assert_eq!(wires.len(), spec.fields.len(), "{}", spec.name);
            for field in spec.fields {
                inner(&field.shape);
            }
        }
        fn inner(shape: &Shape) {
            match shape {
                Shape::Record(spec) => check(spec),
                Shape::List(shape, ..) | Shape::Pair(shape) | Shape::Named(shape, _) => {
                    inner(shape)
                }
                Shape::Choice(choices) => {
                    let mut wires: Vec<u8> = choices.iter().map(|choice| choice.wire).collect();
                    wires.sort_unstable();
                    wires.dedup();
                    assert_eq!(wires.len(), choices.len());
                }
                _ => {}
            }
        }
        check(&crate::shop::SHOP);
        let mut kinds: Vec<u8> = KINDS.iter().map(|kind| kind.wire).collect();
        kinds.sort_unstable();
        kinds.dedup();
        assert_eq!(kinds.len(), KINDS.len());
        for kind in KINDS {
            check(kind.spec);
        }
    }
}
