//! What the sentence asks for.

use super::super::{Kind, Works};
use super::answer::begin;
use crate::record::{Choice, LENGTH, Record, Shape, Spec, TEETH, choice, field};
use crate::shop::Shop;
use crate::threads;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

const WHAT: &[Choice] =
    &[choice("gears", 0, "more gears"), choice("circles", 1, "circles on one more plate")];

pub(in super::super) static KIND: Kind = Kind {
    name: "more-gears",
    wire: 12,
    title: "What one more gear would do",
    spec: &Spec {
        name: "more-gears",
        fields: &[
            field("want", 1, "wanted", Shape::List(&Shape::Text(60), 300, "threads and leads")),
            field("add", 2, "how many more", Shape::Count(1, 3)),
            field("from", 3, "from so many teeth to", Shape::Pair(&TEETH)),
            field("shelf", 4, "of these alone", Shape::List(&TEETH, 300, "sizes")),
            field("divisions", 5, "divisions", Shape::List(&Shape::Count(2, 9999), 400, "numbers")),
            field("within", 6, "off in 300 mm by at most", LENGTH),
            field("engaged", 7, "length of the nut", LENGTH),
            field("what", 8, "what is added", Shape::Choice(WHAT)),
        ],
    },
    sentences: &[
        (
            "divisions",
            "{add|1} more[ of {what}][ from {from} teeth][ of {shelf}] for dividing into {divisions}[ and for {want}][, off by at most {within} in 300 mm].",
        ),
        (
            "",
            "{add|1} more gears[ from {from} teeth][ of {shelf}] for {want}[, off by at most {within} in 300 mm][, in a nut of {engaged}].",
        ),
    ],
    instead: &[("from", "shelf"), ("shelf", "from")],
    from_shop: &["lathe", "dividing"],
    measured: &[],
};

pub(in super::super) static WORKS: Works = Works { suggest, ..Works::long(&KIND, begin) };

fn suggest(_: &Record, key: &str, text: &str, _: &Shop) -> Vec<String> {
    match key {
        "want" => threads::suggest(text.trim()).iter().map(ToString::to_string).collect(),
        _ => Vec::new(),
    }
}
