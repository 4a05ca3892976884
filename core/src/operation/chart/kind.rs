//! What a chart's sentence asks for.

use super::super::{Kind, Works};
use super::job::begin;
use crate::record::{Choice, LENGTH, Record, Shape, Spec, TEETH, choice, field};
use crate::shop::Shop;
use crate::threads;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

const OF: &[Choice] = &[
    choice("threads", 0, "threads"),
    choice("feeds", 1, "feeds"),
    choice("divisions", 2, "divisions"),
    choice("gears", 3, "gears"),
];
const ONLY: &[Choice] = &[
    choice("all", 0, "all of them"),
    choice("exact", 1, "the exact ones"),
    choice("within", 2, "those within their class"),
    choice("cannot", 3, "what can't be cut"),
];
const ORDER: &[Choice] = &[
    choice("standard", 0, "standard and size"),
    choice("lead", 1, "lead"),
    choice("error", 2, "error"),
    choice("share", 3, "share of the tolerance"),
    choice("changes", 4, "fewest gears changed"),
];

pub(in super::super) static KIND: Kind = Kind {
    name: "chart",
    wire: 11,
    title: "Chart of my lathe",
    spec: &Spec {
        name: "chart",
        fields: &[
            field("of", 1, "what", Shape::Choice(OF)),
            field("also", 2, "threads of one's own", Shape::List(&Shape::Text(60), 300, "threads")),
            field("only", 3, "rows", Shape::Choice(ONLY)),
            field("order", 4, "in order of", Shape::Choice(ORDER)),
            field("engaged", 5, "length of the nut", LENGTH),
            field("within", 7, "off in 300 mm by at most", LENGTH),
            field("now", 6, "on the banjo now", Shape::List(&TEETH, 6, "gears")),
        ],
    },
    sentences: &[(
        "",
        "Chart of this lathe for {of|threads}[, also {also}][, {only}][, by {order}][, in a nut of {engaged}][, without a class off by at most {within} in 300 mm][, with {now} on the banjo now].",
    )],
    instead: &[],
    from_shop: &["lathe", "dividing"],
    measured: &[],
};

pub(in super::super) static WORKS: Works = Works { suggest, ..Works::long(&KIND, begin) };

fn suggest(_: &Record, key: &str, text: &str, _: &Shop) -> Vec<String> {
    match key {
        "also" => threads::suggest(text.trim()).iter().map(ToString::to_string).collect(),
        _ => Vec::new(),
    }
}
