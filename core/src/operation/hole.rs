//! Make a hole for a screw, or a bore to ream.

use super::{Answer, Kind};
use crate::record::{Choice, LENGTH, LENGTH_OR_NONE, Record, Shape, Spec, choice, field};
use crate::shop::Shop;

use super::STOCKS;

const PURPOSES: &[Choice] = &[
    choice("tap", 0, "tap"),
    choice("clear", 1, "clear"),
    choice("counterbore", 2, "counterbore"),
    choice("countersink", 3, "countersink"),
    choice("ream", 4, "ream"),
    choice("dowel", 5, "dowel"),
];
const FITS: &[Choice] = &[
    choice("close", 0, "close"),
    choice("medium", 1, "medium"),
    choice("free", 2, "free"),
    choice("press", 3, "press"),
    choice("slip", 4, "slip"),
];

pub(super) static KIND: Kind = Kind {
    name: "hole",
    wire: 6,
    title: "Make a hole for a screw",
    spec: &Spec {
        name: "hole",
        fields: &[
            field("purpose", 1, "purpose", Shape::Choice(PURPOSES)),
            field("designation", 2, "screw or size", Shape::Text(60)),
            field("fit", 3, "fit", Shape::Choice(FITS)),
            field("depth", 4, "depth", LENGTH),
            field("below", 5, "head below flush by", LENGTH_OR_NONE),
            field("diameter", 6, "diameter of the part", LENGTH),
            field("thickness", 7, "thickness of the part", LENGTH),
            field("stock", 8, "stock", Shape::Choice(STOCKS)),
        ],
    },
    sentences: &[(
        "",
        "Make a hole to {purpose} {designation}[, {fit}][, {depth} deep][, head {below} below flush][, in Ø {diameter}][, {thickness} thick][, in {stock}].",
    )],
    instead: &[],
    from_shop: &["lathe", "drills", "cutters"],
    suggest: super::no_suggestions,
    answer,
};

fn answer(_: &Record, _: &Shop) -> Answer {
    Answer::refused("not worked out yet")
}
