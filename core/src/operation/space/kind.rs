//! What spacing asks for, and its sentences.

use super::spaced::answer;
use crate::operation::{Deed, Kind, Works};
use crate::record::{Choice, LENGTH, LENGTH_OR_NONE, Record, Shape, Spec, choice, field};
use crate::shop::Shop;
use alloc::borrow::ToOwned;
use alloc::string::String;
use alloc::vec::Vec;

const WHAT: &[Choice] = &[choice("holes", 0, "holes"), choice("lines", 1, "lines")];
/// The slides that carry the bar, or the tool along it.
pub(super) const SLIDES: &[Choice] = &[
    choice("cross", 0, "the cross slide"),
    choice("compound", 1, "the compound slide"),
    choice("carriage", 2, "the carriage"),
];

/// A sentence that begins so, and goes on alike however the row is asked for.
macro_rules! sentence {
    ($begins:literal) => {
        concat!($begins, "[, drilled {drill}][, {side} from its side][, moved by {slide}].")
    };
}

const BY_PITCH: &str = sentence!(
    "Space {places} {what} {pitch} apart[, the first {first} from the end][, of a bar {length} long][, {overall} from first to last]"
);

pub(in crate::operation) static KIND: Kind = Kind {
    name: "space",
    wire: 16,
    title: "Space holes in a line",
    spec: &Spec {
        name: "space",
        fields: &[
            field("places", 1, "how many", Shape::Count(2, 999)),
            field("what", 2, "holes or lines", Shape::Choice(WHAT)),
            field("pitch", 3, "apart", LENGTH),
            field("overall", 4, "first to last", LENGTH),
            field("apart", 5, "apart at the most", LENGTH),
            field("length", 6, "length of the bar", LENGTH),
            field("first", 7, "first from the end", LENGTH_OR_NONE),
            field("last", 8, "last from the other end", LENGTH_OR_NONE),
            field("drill", 9, "drill", LENGTH),
            field("side", 10, "from the side", LENGTH),
            field("slide", 11, "moved by", Shape::Choice(SLIDES)),
        ],
    },
    sentences: &[
        ("pitch", BY_PITCH),
        (
            "overall",
            sentence!(
                "Space {places} {what} over {overall} from first to last[, the first {first} from the end][, of a bar {length} long]"
            ),
        ),
        (
            "apart",
            sentence!(
                "Space {what} evenly, {apart} apart at the most, along a bar {length} long, the first {first} from its end[, the last {last} from the other]"
            ),
        ),
        (
            "length",
            sentence!(
                "Space {places} {what} evenly along a bar {length} long, the first {first} from its end[, the last {last} from the other]"
            ),
        ),
        ("", BY_PITCH),
    ],
    instead: &[
        ("pitch", "overall"),
        ("pitch", "apart"),
        ("pitch", "last"),
        ("overall", "pitch"),
        ("overall", "apart"),
        ("overall", "last"),
        ("apart", "pitch"),
        ("apart", "overall"),
        ("apart", "places"),
        ("places", "apart"),
        ("last", "pitch"),
        ("last", "overall"),
    ],
    from_shop: &["lathe"],
    measured: &[],
};

pub(in crate::operation) static WORKS: Works = Works {
    suggest,
    deed: |_| Deed::of("the row"),
    on_return: "Look before going on: the bar not shifted in its clamps, the other slides locked, the dial where this step has it. Count from the last hole or line that you can see.",
    ..Works::at_once(&KIND, answer)
};

fn suggest(_: &Record, key: &str, _: &str, shop: &Shop) -> Vec<String> {
    if key == "drill" {
        shop.drills().map(|drill| drill.text().to_owned()).collect()
    } else {
        Vec::new()
    }
}
