//! Divide a circle.

use super::{Answer, Kind};
use crate::record::{ANGLE, LENGTH, Record, Shape, Spec, field};
use crate::shop::Shop;

use super::{CUTTER_IN, WORK_IN};

pub(super) static KIND: Kind = Kind {
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
        ],
    },
    sentences: &[
        (
            "angles",
            "Divide Ø {diameter} at {angles}[, work in {work_in}][, cutter in {cutter_in}].",
        ),
        ("", "Divide Ø {diameter} into {into}[, work in {work_in}][, cutter in {cutter_in}]."),
    ],
    instead: &[("into", "angles"), ("angles", "into")],
    from_shop: &["lathe", "dividing"],
    suggest: super::no_suggestions,
    answer,
};

fn answer(_: &Record, _: &Shop) -> Answer {
    Answer::refused("not worked out yet")
}
