//! Hold the work: what grips it, by what, and how true it then runs.

use super::{Answer, Kind};
use crate::record::{LENGTH, NAME, Record, Shape, Spec, field};
use crate::shop::Shop;

pub(super) static KIND: Kind = Kind {
    name: "hold",
    wire: 10,
    title: "Hold the work",
    spec: &Spec {
        name: "hold",
        fields: &[
            field("in", 1, "holder", NAME),
            field("on", 2, "gripped by", NAME),
            field("diameter", 3, "diameter gripped", LENGTH),
            field("stick_out", 4, "stick-out", LENGTH),
            field("true_to", 5, "must run true to", Shape::Text(90)),
        ],
    },
    sentences: &[(
        "",
        "Hold {on} in {in}[, Ø {diameter}][, {stick_out} sticking out][, true to {true_to}].",
    )],
    instead: &[],
    from_shop: &["holding", "lathe"],
    answer,
};

fn answer(_: &Record, _: &Shop) -> Answer {
    Answer::refused("not worked out yet")
}
