//! What a cut asks for, and its sentence.

use super::job;
use crate::exact::Ratio;
use crate::operation::works::TOOL_AND_DIAL;
use crate::operation::{CUTTER_MATERIALS, Deed, Kind, Removes, STOCKS, Works, names_in};
use crate::record::{Choice, LENGTH, NAME, Record, Shape, Spec, choice, field};
use crate::shop::Shop;
use alloc::string::String;
use alloc::vec::Vec;

const PROCESSES: &[Choice] = &[
    choice("turn", 0, "Turn"),
    choice("finish", 1, "Finish"),
    choice("bore", 2, "Bore"),
    choice("face", 3, "Face"),
    choice("drill", 4, "Drill"),
    choice("ream", 5, "Ream"),
    choice("countersink", 6, "Countersink"),
    choice("mill", 7, "Mill"),
    choice("part", 8, "Part off"),
    choice("knurl", 9, "Knurl"),
    choice("thread", 10, "Screw-cut"),
    choice("tap", 11, "Tap"),
    choice("die", 12, "Cut with a die"),
];
/// The slides that may feed.
pub(in crate::operation) const SLIDES: &[Choice] = &[
    choice("cross", 0, "the cross slide"),
    choice("compound", 1, "the compound slide"),
    choice("carriage", 2, "the carriage"),
    choice("tailstock", 3, "the tailstock"),
];

pub(in crate::operation) static KIND: Kind = Kind {
    name: "cut",
    wire: 5,
    title: "Cut at a speed",
    spec: &Spec {
        name: "cut",
        fields: &[
            field("process", 1, "process", Shape::Choice(PROCESSES)),
            field("stock", 2, "stock", Shape::Choice(STOCKS)),
            field("cutter", 3, "cutter", NAME),
            field("depth", 4, "depth of cut", LENGTH),
            field("diameter", 5, "diameter", LENGTH),
            field("slide", 6, "fed by", Shape::Choice(SLIDES)),
            field("material", 7, "cutter made of", Shape::Choice(CUTTER_MATERIALS)),
            field("teeth", 8, "teeth", Shape::Count(1, 99)),
            field("width", 9, "width of cut", LENGTH),
            field("stick_out", 10, "stick-out", LENGTH),
            field("length", 11, "length of cut", LENGTH),
            field("held_in", 12, "held in", NAME),
        ],
    },
    sentences: &[
        (
            "cutter",
            "{process} {stock} with the {cutter}[, Ø {diameter}][, {depth} deep][, {width} wide][, {length} long][, {stick_out} sticking out][, held in the {held_in}][, fed by {slide}].",
        ),
        (
            "",
            "{process} {stock} at Ø {diameter}[ with {material}][, {teeth} teeth][, {depth} deep][, {width} wide][, {length} long][, {stick_out} sticking out][, held in the {held_in}][, fed by {slide}].",
        ),
    ],
    instead: &[],
    from_shop: &["lathe", "cutters", "holding", "indicators", "drills"],
    measured: &[],
};

pub(in crate::operation) static WORKS: Works =
    Works { suggest, deed, on_return: TOOL_AND_DIAL, ..Works::at_once(&KIND, job::answer) };

fn deed(entries: &Record) -> Deed {
    let (diameter, depth) = (entries.ratio("diameter"), entries.ratio("depth"));
    let after = diameter.zip(depth).and_then(|(diameter, depth)| {
        Some((diameter, diameter.sub(depth.mul(Ratio::whole(2)).ok()?).ok()?))
    });
    let removes = match (entries.choice("process"), after) {
        (Some("turn" | "finish"), Some((from, to))) => Some(Removes::Outside(from, to)),
        (Some("face"), _) => Some(Removes::End(depth)),
        (Some("part"), _) => Some(Removes::Off),
        (Some("knurl"), _) => Some(Removes::Pressed),
        _ => None,
    };
    Deed { removes, ..Deed::of("the cut") }
}

fn suggest(_: &Record, key: &str, _: &str, shop: &Shop) -> Vec<String> {
    match key {
        "cutter" => names_in(shop, "cutters"),
        "held_in" => names_in(shop, "holding"),
        _ => Vec::new(),
    }
}
