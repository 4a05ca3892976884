//! What a hole's sentence asks for, and what could stand in its blanks.

use super::super::{Deed, Kind, Made, STOCKS, Works};
use super::work::answer;
use crate::record::{Choice, LENGTH, LENGTH_OR_NONE, Record, Shape, Spec, choice, field};
use crate::shop::Shop;
use crate::threads;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

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
const HEADS: &[Choice] =
    &[choice("hexagon", 0, "a hexagon socket"), choice("slotted", 1, "a slot or a cross")];

const SUNK: &str = "Make a hole to {purpose} for {designation}[ with {head}][, {fit}][, head {below} below flush][, head Ø {head_diameter}][, {head_height} tall][, the thread {depth} deep][, in Ø {diameter}][, {from_edge} from the edge][, {thickness} thick][, in {stock}][, leaving {least_wall} at least].";

pub(in super::super) static KIND: Kind = Kind {
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
            field("from_edge", 9, "middle of the hole from the edge", LENGTH),
            field("least_wall", 10, "least wall to leave", LENGTH),
            field("head", 11, "head", Shape::Choice(HEADS)),
            field("head_diameter", 12, "diameter of the head", LENGTH),
            field("head_height", 13, "height of the head", LENGTH),
        ],
    },
    sentences: &[
        ("purpose=counterbore", SUNK),
        ("purpose=countersink", SUNK),
        (
            "purpose=ream",
            "Make a hole to {purpose} to {designation}[, {depth} deep][, in Ø {diameter}][, {from_edge} from the edge][, {thickness} thick][, in {stock}][, leaving {least_wall} at least].",
        ),
        (
            "purpose=dowel",
            "Make a hole for a {purpose} of {designation}, {fit|slip}[, {depth} deep][, in Ø {diameter}][, {from_edge} from the edge][, {thickness} thick][, in {stock}][, leaving {least_wall} at least].",
        ),
        (
            "purpose=clear",
            "Make a hole to {purpose} {designation}, {fit|medium}[, {depth} deep][, in Ø {diameter}][, {from_edge} from the edge][, {thickness} thick][, in {stock}][, leaving {least_wall} at least].",
        ),
        (
            "",
            "Make a hole to {purpose} {designation}[, {depth} deep][, in Ø {diameter}][, {from_edge} from the edge][, {thickness} thick][, in {stock}][, leaving {least_wall} at least].",
        ),
    ],
    instead: &[("from_edge", "diameter"), ("diameter", "from_edge")],
    from_shop: &["lathe", "drills", "cutters", "holding", "indicators"],
    measured: &[],
};

pub(in crate::operation) static WORKS: Works = Works {
    suggest,
    deed,
    on_return: "Look before going on: the depth on the tailstock, chips out of the hole, the tap or drill whole.",
    ..Works::at_once(&KIND, answer)
};

fn deed(entries: &Record) -> Deed {
    if entries.choice("purpose").is_some_and(|purpose| purpose != "tap") {
        return Deed::of("the hole");
    }
    let named = entries.text("designation").and_then(|name| threads::parse(name).ok());
    Deed::of("tapping").making(Made::Tapped(named.and_then(|thread| thread.diameter)))
}

fn suggest(_: &Record, key: &str, text: &str, _: &Shop) -> Vec<String> {
    if key == "designation" {
        threads::suggest(text.trim()).iter().map(ToString::to_string).collect()
    } else {
        Vec::new()
    }
}
