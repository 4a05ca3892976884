//! What dividing asks for, and its sentences.

use super::marks::MARKS;
use crate::operation::works::PIN_AND_LOCK;
use crate::operation::{CUTTER_IN, Deed, Kind, Made, WORK_IN, Works, names_in};
use crate::record::{ANGLE, LENGTH, LENGTH_OR_NONE, NAME, Record, Shape, Spec, field};
use crate::shop::Shop;
use alloc::string::String;
use alloc::vec::Vec;

/// What follows into how many, or at which angles.
macro_rules! rest {
    ($start:literal) => {
        concat!(
            $start,
            "[: {marks}][, {across} across flats][, {width} wide][, {depth} deep][, {length} long][, work in {work_in}][, cutter in {cutter_in}][, cut by {cutter}][, held in {holder}][, the middle {edge} from the edge touched][ and {other_edge} from the other][; by way {way}]."
        )
    };
}

pub(in crate::operation) static KIND: Kind = Kind {
    name: "divide",
    wire: 2,
    title: "Divide a circle",
    spec: &Spec {
        name: "divide",
        fields: &[
            field("into", 1, "divisions", Shape::Count(2, 9999)),
            field("angles", 2, "angles", Shape::List(&ANGLE, 999, "angles")),
            field("diameter", 3, "diameter", LENGTH),
            field("work_in", 4, "work in", Shape::Choice(WORK_IN)),
            field("cutter_in", 5, "cutter in", Shape::Choice(CUTTER_IN)),
            field("way", 6, "way, by its number", Shape::Count(1, 9999)),
            field("marks", 7, "what is cut", Shape::Choice(MARKS)),
            field("cutter", 8, "cutter", NAME),
            field("width", 9, "cutter's width", LENGTH),
            field("holder", 10, "cutter held in", NAME),
            field("depth", 11, "depth", LENGTH),
            field("across", 12, "across flats", LENGTH),
            field("edge", 13, "middle from the edge touched", LENGTH_OR_NONE),
            field("other_edge", 14, "middle from the other edge", LENGTH_OR_NONE),
            field("length", 15, "length along the work", LENGTH),
        ],
    },
    sentences: &[
        ("angles", rest!("Divide Ø {diameter} at {angles}")),
        ("", rest!("Divide Ø {diameter} into {into}")),
    ],
    instead: &[("into", "angles"), ("angles", "into")],
    from_shop: &["lathe", "dividing", "holding", "cutters", "indicators"],
    measured: &[],
};

pub(in crate::operation) static WORKS: Works = Works {
    suggest: cutter_and_holder,
    deed,
    on_return: PIN_AND_LOCK,
    ..Works::at_once(&KIND, super::answer)
};

fn deed(entries: &Record) -> Deed {
    let made = match entries.choice("marks") {
        Some("lines") => Made::Lines {
            diameter: entries.ratio("diameter"),
            depth: entries.ratio("depth"),
            face: false,
        },
        _ => Made::Shaped,
    };
    Deed::of("dividing").making(made)
}

/// The shop's cutters and holders.
pub(in crate::operation) fn cutter_and_holder(
    _: &Record,
    key: &str,
    _: &str,
    shop: &Shop,
) -> Vec<String> {
    match key {
        "cutter" => names_in(shop, "cutters"),
        "holder" => names_in(shop, "holding"),
        _ => Vec::new(),
    }
}
