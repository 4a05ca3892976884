//! Turn a taper.

use super::{Answer, Kind};
use crate::record::{ANGLE, LENGTH, RATIO, Record, Shape, Spec, field};
use crate::shop::Shop;

pub(super) static KIND: Kind = Kind {
    name: "taper",
    wire: 7,
    title: "Turn a taper",
    spec: &Spec {
        name: "taper",
        fields: &[
            field("named", 1, "taper", Shape::Text(60)),
            field("angle", 2, "included angle", ANGLE),
            field("ratio", 3, "ratio", RATIO),
            field("large", 4, "large diameter", LENGTH),
            field("small", 5, "small diameter", LENGTH),
            field("length", 6, "length", LENGTH),
            field("between_centres", 7, "length between centres", LENGTH),
            field("travel", 8, "indicator travel", LENGTH),
        ],
    },
    sentences: &[
        (
            "angle",
            "Turn a taper of {angle} included[, Ø {large} at the large end][, Ø {small} at the small end][, {length} long][, {between_centres} between centres][, checked over {travel}].",
        ),
        (
            "ratio",
            "Turn a taper of {ratio}[, Ø {large} at the large end][, Ø {small} at the small end][, {length} long][, {between_centres} between centres][, checked over {travel}].",
        ),
        (
            "large",
            "Turn a taper from Ø {large} to Ø {small} in {length}[, {between_centres} between centres][, checked over {travel}].",
        ),
        (
            "",
            "Turn a {named} taper[, {length} long][, {between_centres} between centres][, checked over {travel}].",
        ),
    ],
    instead: &[
        ("named", "angle"),
        ("named", "ratio"),
        ("angle", "named"),
        ("angle", "ratio"),
        ("ratio", "named"),
        ("ratio", "angle"),
    ],
    from_shop: &["lathe", "indicators"],
    suggest: super::no_suggestions,
    answer,
};

fn answer(_: &Record, _: &Shop) -> Answer {
    Answer::refused("not worked out yet")
}
