//! Forms filled in at random: any value that a form's shape allows, as a file writes it.

use latheside_core::operation::{KINDS, Kind};
use latheside_core::quantity::Measure;
use latheside_core::record::{Bound, Field, Node, Shape, Spec};
use latheside_core::shop::SHOP;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;

/// A whole setup file of any shop and up to so many operations.
pub fn setup(operations: usize) -> impl Strategy<Value = Node> {
    let named = (text(90), text(300), record(&SHOP, 6), vec(operation(), 0..=operations));
    named.prop_map(|(name, note, shop, operations)| file(name, note, shop, operations))
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
pub fn operation() -> impl Strategy<Value = Node> {
    select(KINDS).prop_flat_map(operation_of)
}

/// An operation of that kind, any of its blanks filled in.
pub fn operation_of(kind: &'static Kind) -> impl Strategy<Value = Node> {
    record(kind.spec, 6).prop_map(|record| {
        let Node::Object(mut pairs) = record else { return record };
        pairs.insert(0, ("kind".to_owned(), Node::from(kind.name)));
        Node::Object(pairs)
    })
}

/// A form, any of its fields filled in; no list longer than `longest`.
pub fn record(spec: &'static Spec, longest: usize) -> BoxedStrategy<Node> {
    let fields: Vec<_> = spec
        .fields
        .iter()
        .map(|field| prop::option::weighted(0.7, value(&field.shape, longest)))
        .collect();
    let named = |values: Vec<Option<Node>>| {
        let pairs = spec.fields.iter().zip(values);
        object(pairs.filter_map(|(field, value): (&Field, _)| Some((field.key, value?))))
    };
    fields.prop_map(named).boxed()
}

/// Any value of that shape; no list longer than `longest`.
pub fn value(shape: &'static Shape, longest: usize) -> BoxedStrategy<Node> {
    match shape {
        Shape::Quantity(measure, bound) => quantity(*measure, *bound).prop_map(Node::from).boxed(),
        Shape::Count(least, most) => {
            let small = (*most).min(least.saturating_add(130));
            prop_oneof![3 => *least..=small, 1 => *least..=*most].prop_map(Node::from).boxed()
        }
        Shape::Choice(choices) => {
            (0..choices.len()).prop_map(|at| Node::from(choices[at].id)).boxed()
        }
        Shape::Text(most) => text(*most),
        Shape::Flag => any::<bool>().prop_map(Node::from).boxed(),
        Shape::List(inner, most, _) => {
            vec(value(inner, longest), 0..=longest.min(*most)).prop_map(Node::List).boxed()
        }
        Shape::Pair(inner) => vec(value(inner, longest), 2).prop_map(Node::List).boxed(),
        Shape::Named(inner, key) => {
            let bare = value(inner, longest);
            let named = (bare.clone(), text(90))
                .prop_map(|(bare, how)| object([(*key, bare), ("how", how)]));
            prop_oneof![bare, named].boxed()
        }
        Shape::Record(spec) => record(spec, longest),
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

/// Words of the person's own: plain ones, any letters at all, and a thread's or a fit's name.
fn text(most: usize) -> BoxedStrategy<Node> {
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
    let names = select(NAMES).prop_map(str::to_owned);
    let any_letters = vec(any::<char>(), 0..20).prop_map(String::from_iter);
    prop_oneof![3 => names, 2 => "[ -~]{0,24}", 1 => any_letters, 1 => "[a-zé-ÿ軸]{90,300}"]
        .prop_map(move |text| Node::from(text.chars().take(most).collect::<String>()))
        .boxed()
}

/// A quantity as somebody may write it.
pub fn quantity(measure: Measure, bound: Bound) -> BoxedStrategy<String> {
    let least = u32::from(bound == Bound::Positive);
    let numbers = prop_oneof![
        3 => (least..200).prop_map(|n| n.to_string()),
        1 => (least..=9999_u32).prop_map(|n| n.to_string()),
        2 => (least..100, 0..1000_u32).prop_map(|(whole, part)| format!("{whole}.{part}")),
        1 => (least..10, 0..1_000_000_u32).prop_map(|(whole, part)| format!("{whole}.{part:06}")),
        1 => (1..1000_u32).prop_map(|part| format!("0,{part:03}")),
        1 => (1..100_u32).prop_map(|part| format!(".{part:02}")),
        2 => (1..64_u32, 1..65_u32).prop_map(|(above, below)| format!("{above}/{below}")),
        1 => (1..9_u32, 1..32_u32).prop_map(|(whole, above)| format!("{whole} {above}/32")),
        1 => (1..9_u32).prop_map(|whole| format!("{whole}½")),
    ];
    let lengths = &["mm", "in", "thou", "um", "cm", "\"", "inches", "µm"];
    let with = |units: &'static [&'static str]| {
        (numbers.clone(), select(units), any::<bool>()).prop_map(|(number, unit, apart)| {
            format!("{number}{}{unit}", if apart { " " } else { "" })
        })
    };
    match measure {
        Measure::Length => with(lengths).boxed(),
        Measure::Lead => prop_oneof![
            3 => with(lengths),
            2 => with(&["tpi"]),
            1 => with(&["pi mm", "π mm", "* pi in"]),
        ]
        .boxed(),
        Measure::Angle => prop_oneof![
            2 => with(&["deg", "°", "degrees"]),
            1 => with(&["min", "'", "sec"]),
            2 => (least..360, 0..60_u32).prop_map(|(d, m)| format!("{d}°{m:02}'")),
            1 => (0..360_u32, least..60).prop_map(|(d, m)| format!("{d} deg {m} min")),
            1 => (0..360_u32, 0..60_u32, least..60).prop_map(|(d, m, s)| format!("{d}° {m}′ {s}″")),
        ]
        .boxed(),
        Measure::Ratio => prop_oneof![
            2 => (1..200_u32, 1..200_u32).prop_map(|(a, b)| format!("{a}/{b}")),
            1 => (1..20_u32, 1..20_u32).prop_map(|(a, b)| format!("{a}:{b}")),
            1 => numbers,
        ]
        .boxed(),
    }
}

/// An object of these keys.
pub fn object<'a>(pairs: impl IntoIterator<Item = (&'a str, Node)>) -> Node {
    Node::Object(pairs.into_iter().map(|(key, node)| (key.to_owned(), node)).collect())
}
