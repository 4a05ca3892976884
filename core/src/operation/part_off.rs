//! Part off.

use super::{Answer, Kind};
use crate::record::{LENGTH, LENGTH_OR_NONE, Record, Shape, Spec, field};
use crate::shop::Shop;

use super::{CUTTER_MATERIALS, STOCKS};

pub(super) static KIND: Kind = Kind {
    name: "part-off",
    wire: 9,
    title: "Part off",
    spec: &Spec {
        name: "part off",
        fields: &[
            field("stock", 1, "stock", Shape::Choice(STOCKS)),
            field("diameter", 2, "diameter", LENGTH),
            field("blade_width", 3, "blade width", LENGTH),
            field("bore", 4, "bore", LENGTH_OR_NONE),
            field("material", 5, "blade made of", Shape::Choice(CUTTER_MATERIALS)),
        ],
    },
    sentences: &[(
        "",
        "Part off Ø {diameter} in {stock} with a blade {blade_width} wide[, bored Ø {bore}][, of {material}].",
    )],
    instead: &[],
    from_shop: &["lathe"],
    suggest: super::no_suggestions,
    answer,
};

fn answer(_: &Record, _: &Shop) -> Answer {
    Answer::refused("not worked out yet")
}
