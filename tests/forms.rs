//! Forms filled in at random: any value that a form's shape allows, as a file writes it.
//!
//! What is filled in hangs on nothing but the throws of [`Dice`], and dice are bytes: a test throws them at
//! random, a fuzzer as it likes.

use latheside_core::operation::{KINDS, Kind};
use latheside_core::quantity::Measure;
use latheside_core::record::{Bound, Node, Shape, Spec};
use latheside_core::shop::SHOP;
use proptest::prelude::*;

/// Dice that fall as the bytes say, each thrown once; when all are thrown, every throw is a nought.
#[derive(Clone, Debug)]
pub struct Dice<'a>(&'a [u8]);

impl<'a> Dice<'a> {
    /// Dice of these bytes.
    #[must_use]
    pub fn of(bytes: &'a [u8]) -> Dice<'a> {
        Dice(bytes)
    }

    fn byte(&mut self) -> u8 {
        let Some((first, rest)) = self.0.split_first() else { return 0 };
        self.0 = rest;
        *first
    }

    /// From the least to the most, both of them too.
    fn among(&mut self, least: u32, most: u32) -> u32 {
        let many = u64::from(most.saturating_sub(least)) + 1;
        let mut thrown = 0_u64;
        let mut below = 1_u64;
        // As many bytes as there are numbers for.
        while below < many {
            thrown = thrown << 8 | u64::from(self.byte());
            below <<= 8;
        }
        least + u32::try_from(thrown % many).unwrap_or(0)
    }

    fn below(&mut self, many: usize) -> usize {
        let most = u32::try_from(many.saturating_sub(1)).unwrap_or(u32::MAX);
        usize::try_from(self.among(0, most)).unwrap_or(0)
    }

    /// So many times in ten; a nought is a no.
    fn often(&mut self, in_ten: u32) -> bool {
        self.among(0, 249) >= 250 - in_ten * 25
    }

    fn pick<T: Copy>(&mut self, of: &[T]) -> T {
        of[self.below(of.len())]
    }

    fn list<T>(&mut self, most: usize, mut one: impl FnMut(&mut Dice<'a>) -> T) -> Vec<T> {
        (0..self.below(most + 1)).map(|_| one(self)).collect()
    }
}

/// The most bytes that a test throws: enough for any setup here.
const MOST_THROWS: usize = 4000;

/// Whatever those dice make, of any bytes.
fn thrown<T: std::fmt::Debug>(make: impl Fn(&mut Dice) -> T) -> impl Strategy<Value = T> {
    prop::collection::vec(any::<u8>(), 0..MOST_THROWS)
        .prop_map(move |bytes| make(&mut Dice::of(&bytes)))
}

/// A whole setup file of any shop and up to so many operations.
pub fn setup(operations: usize) -> impl Strategy<Value = Node> {
    thrown(move |dice| any_setup(dice, operations))
}

/// A setup that comes to something with an entry or two changed, and any one operation more.
pub fn spoilt() -> impl Strategy<Value = Node> {
    thrown(spoilt_setup)
}

/// A whole setup file of any shop and up to so many operations, by these dice.
pub fn any_setup(dice: &mut Dice, operations: usize) -> Node {
    // What is worked comes first, so that few throws make something.
    let operations = dice.list(operations, operation);
    let shop = record(dice, &SHOP, 6);
    let (name, note) = (text(dice, 90), text(dice, 300));
    file(name, note, shop, operations)
}

/// Setups that come to something.
pub const ORDINARY: [&str; 4] = [
    include_str!("files/links/example.json"),
    include_str!("files/links/inch.json"),
    include_str!("files/links/common.json"),
    include_str!("files/links/format.json"),
];

/// The file of a setup that comes to something, with an entry or two of one kind of operation and of the
/// shop changed, and any one operation more, by these dice.
///
/// # Panics
///
/// Where what comes to something is no file.
pub fn spoilt_setup(dice: &mut Dice) -> Node {
    let ordinary = dice.pick(&ORDINARY);
    let mut file: Node = serde_json::from_str(ordinary).unwrap_or_else(|why| panic!("{why}"));
    let Node::Object(parts) = &mut file else { panic!("no setup: {ordinary}") };
    let kept = dice.pick(KINDS);
    for (key, part) in parts {
        match (key.as_str(), part) {
            ("operations", Node::List(operations)) => {
                operations.retain(|one| one.get("kind").and_then(Node::as_text) == Some(kept.name));
                for one in &mut *operations {
                    (0..dice.below(3)).for_each(|_| change(dice, one, kept.spec));
                }
                operations.push(operation(dice));
            }
            ("shop", shop) => (0..dice.below(4)).for_each(|_| change(dice, shop, &SHOP)),
            _ => {}
        }
    }
    file
}

/// Changes an entry of a form that is filled in, or takes it away.
fn change(dice: &mut Dice, form: &mut Node, spec: &'static Spec) {
    let Node::Object(pairs) = form else { return };
    let field = &spec.fields[dice.below(spec.fields.len())];
    let filled = pairs.iter().position(|(key, _)| key == field.key);
    if let (Shape::Record(within), Some(at)) = (&field.shape, filled)
        && dice.often(9)
    {
        return change(dice, &mut pairs[at].1, within);
    }
    pairs.retain(|(key, _)| key != field.key);
    if dice.often(8) {
        pairs.push((field.key.to_owned(), value(dice, &field.shape, 8)));
    }
}

/// A setup file of these parts.
#[must_use]
pub fn file(name: Node, note: Node, shop: Node, operations: Vec<Node>) -> Node {
    object([
        ("format", Node::from("latheside-setup")),
        ("version", Node::Whole(1)),
        ("name", name),
        ("note", note),
        ("shop", shop),
        ("operations", Node::List(operations)),
    ])
}

/// An operation of any kind, any of its blanks filled in.
pub fn operation(dice: &mut Dice) -> Node {
    let kind: &Kind = dice.pick(KINDS);
    let Node::Object(mut pairs) = record(dice, kind.spec, 6) else { return Node::Null };
    pairs.insert(0, ("kind".to_owned(), Node::from(kind.name)));
    Node::Object(pairs)
}

/// A form, any of its fields filled in; no list longer than `longest`.
pub fn record(dice: &mut Dice, spec: &'static Spec, longest: usize) -> Node {
    let mut pairs = Vec::new();
    for field in spec.fields {
        if dice.often(7) {
            pairs.push((field.key, value(dice, &field.shape, longest)));
        }
    }
    object(pairs)
}

/// Any value of that shape; no list longer than `longest`.
pub fn value(dice: &mut Dice, shape: &'static Shape, longest: usize) -> Node {
    match shape {
        Shape::Quantity(measure, bound) => Node::from(quantity(dice, *measure, *bound)),
        Shape::Count(least, most) => {
            let small = (*most).min(least.saturating_add(130));
            Node::from(match dice.below(8) {
                0..6 => dice.among(*least, small),
                6 => dice.among(*least, *most),
                _ => *most,
            })
        }
        Shape::Choice(choices) => Node::from(choices[dice.below(choices.len())].id),
        Shape::Text(most) => text(dice, *most),
        Shape::Flag => Node::from(dice.often(5)),
        Shape::List(inner, most, _) => {
            Node::List(dice.list(longest.min(*most), |dice| value(dice, inner, longest)))
        }
        Shape::Pair(inner) => {
            Node::List(vec![value(dice, inner, longest), value(dice, inner, longest)])
        }
        Shape::Named(inner, key) => {
            let bare = value(dice, inner, longest);
            if dice.often(5) { object([(*key, bare), ("how", text(dice, 90))]) } else { bare }
        }
        Shape::Record(spec) => record(dice, spec, longest),
    }
}

/// A form with every field filled in, always alike: the largest counts, the last of the choices.
#[must_use]
pub fn full(spec: &'static Spec) -> Node {
    object(spec.fields.iter().map(|field| (field.key, full_value(&field.shape))))
}

fn full_value(shape: &'static Shape) -> Node {
    match shape {
        Shape::Quantity(Measure::Length, _) => Node::from("1 3/8 in"),
        Shape::Quantity(Measure::Lead, _) => Node::from("2.5 pi mm"),
        Shape::Quantity(Measure::Angle, _) => Node::from("12°30'"),
        Shape::Quantity(Measure::Ratio, _) => Node::from("1:2.5"),
        Shape::Count(_, most) => Node::from(*most),
        Shape::Choice(choices) => Node::from(choices[choices.len() - 1].id),
        Shape::Text(most) => Node::from("Ø 12 → 3/8″ ✓".chars().take(*most).collect::<String>()),
        Shape::Flag => Node::from(true),
        Shape::List(inner, ..) => Node::List(vec![full_value(inner)]),
        Shape::Pair(inner) => Node::List(vec![full_value(inner), full_value(inner)]),
        Shape::Named(inner, key) => {
            object([(*key, full_value(inner)), ("how", Node::from("Hebel „B“"))])
        }
        Shape::Record(spec) => full(spec),
    }
}

/// A form with every field filled in with the least that it takes, or with the most: counts, sizes, and the
/// lengths of lists and of texts.
#[must_use]
pub fn at_the_edge(spec: &'static Spec, most: bool) -> Node {
    object(spec.fields.iter().map(|field| (field.key, edge_value(&field.shape, most))))
}

fn edge_value(shape: &'static Shape, most: bool) -> Node {
    match shape {
        Shape::Quantity(measure, _) => {
            let number = if most { "1000000" } else { "1/999999999999999999" };
            Node::from(match measure {
                Measure::Length | Measure::Lead => format!("{number} mm"),
                Measure::Angle => format!("{number} deg"),
                Measure::Ratio => number.to_owned(),
            })
        }
        Shape::Count(least, largest) => Node::from(if most { *largest } else { *least }),
        Shape::Choice(choices) => Node::from(choices[if most { choices.len() - 1 } else { 0 }].id),
        Shape::Text(longest) => Node::from("W".repeat(if most { *longest } else { 1 })),
        Shape::Flag => Node::from(most),
        Shape::List(inner, longest, _) => {
            Node::List(vec![edge_value(inner, most); if most { *longest } else { 1 }])
        }
        Shape::Pair(inner) => Node::List(vec![edge_value(inner, most), edge_value(inner, most)]),
        Shape::Named(inner, key) => {
            object([(*key, edge_value(inner, most)), ("how", edge_value(&Shape::Text(90), most))])
        }
        Shape::Record(spec) => at_the_edge(spec, most),
    }
}

/// Names of threads, of fits and of tapers, and words that nobody expects.
const NAMES: &[&str] = &[
    "",
    "M10",
    "M8 x 1-6g",
    "1/4 BSW",
    "3/8 BSF",
    "2 BA",
    "1/2-13 UNC-2A",
    "G1/4",
    "Tr 16 x 4",
    "1/2-10 Acme",
    "module 1",
    "0.75 mm",
    "6g",
    "6H",
    "2A",
    "medium",
    "nut-in-hand",
    "H7/g6",
    "P6/h5",
    "MT2",
    "MT 3",
    "R8",
    "three-jaw",
    "3 mm slot drill",
    "Hülse",
    "軸",
    "a*b*c",
    "1*2",
    "<b>&amp;\"",
    "one\ntwo",
    "\u{202e}mirrored",
];

/// Words of the person's own: a thread's or a fit's name, plain ones, any letters at all.
fn text(dice: &mut Dice, most: usize) -> Node {
    let text = match dice.below(7) {
        0..3 => dice.pick(NAMES).to_owned(),
        3 | 4 => dice.list(24, |dice| char::from(b' ' + dice.byte() % 95)).into_iter().collect(),
        5 => {
            let any = |dice: &mut Dice| char::from_u32(dice.among(0, 0x10_ffff)).unwrap_or('?');
            dice.list(20, any).into_iter().collect()
        }
        _ => {
            let letters = ['a', 'm', 'z', 'é', 'ü', 'ÿ', '軸'];
            let one = dice.pick(&letters);
            String::from_iter(std::iter::repeat_n(one, 90 + dice.below(211)))
        }
    };
    Node::from(text.chars().take(most).collect::<String>())
}

/// The finest and the largest that an entry may be, as numbers that any unit of length stands behind.
const EDGES: [&str; 5] = [
    "0.000001",
    "1/999999999999999999",
    "999999999999999999/999999999999999998",
    "123456789012345678/987654321098765432",
    "39370",
];

/// A number as somebody may write it.
fn number(dice: &mut Dice, least: u32) -> String {
    match dice.below(14) {
        0..3 => dice.among(least, 199).to_string(),
        3 => dice.among(least, 9999).to_string(),
        4 | 5 => format!("{}.{}", dice.among(least, 99), dice.among(0, 999)),
        6 => format!("{}.{:06}", dice.among(least, 9), dice.among(0, 999_999)),
        7 => format!("0,{:03}", dice.among(1, 999)),
        8 => format!(".{:02}", dice.among(1, 99)),
        9 | 10 => format!("{}/{}", dice.among(1, 63), dice.among(1, 64)),
        11 => format!("{} {}/32", dice.among(1, 8), dice.among(1, 31)),
        12 => format!("{}½", dice.among(1, 8)),
        _ => dice.pick(&EDGES).to_owned(),
    }
}

/// A quantity as somebody may write it.
pub fn quantity(dice: &mut Dice, measure: Measure, bound: Bound) -> String {
    let least = u32::from(bound == Bound::Positive);
    let with = |dice: &mut Dice, units: &[&str]| {
        let (number, unit) = (number(dice, least), dice.pick(units));
        format!("{number}{}{unit}", if dice.often(5) { " " } else { "" })
    };
    const LENGTHS: &[&str] = &["mm", "in", "thou", "um", "cm", "\"", "inches", "µm"];
    match measure {
        Measure::Length => with(dice, LENGTHS),
        Measure::Lead => match dice.below(6) {
            0..3 => with(dice, LENGTHS),
            3 | 4 => {
                // A lead goes down as its threads in an inch go up, and has its own end.
                let number = number(dice, least);
                let fine = EDGES[..2].contains(&number.as_str());
                format!("{} tpi", if fine { "1000000" } else { &number })
            }
            _ => with(dice, &["pi mm", "π mm", "* pi in"]),
        },
        Measure::Angle => match dice.below(7) {
            0 | 1 => with(dice, &["deg", "°", "degrees"]),
            2 => with(dice, &["min", "'", "sec"]),
            3 | 4 => format!("{}°{:02}'", dice.among(least, 359), dice.among(0, 59)),
            5 => format!("{} deg {} min", dice.among(0, 359), dice.among(least, 59)),
            _ => {
                let (d, m, s) = (dice.among(0, 359), dice.among(0, 59), dice.among(least, 59));
                format!("{d}° {m}′ {s}″")
            }
        },
        Measure::Ratio => match dice.below(4) {
            0 | 1 => format!("{}/{}", dice.among(1, 199), dice.among(1, 199)),
            2 => format!("{}:{}", dice.among(1, 19), dice.among(1, 19)),
            _ => number(dice, least),
        },
    }
}

/// An object of these keys.
pub fn object<'a>(pairs: impl IntoIterator<Item = (&'a str, Node)>) -> Node {
    Node::Object(pairs.into_iter().map(|(key, node)| (key.to_owned(), node)).collect())
}
