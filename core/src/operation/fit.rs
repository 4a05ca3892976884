//! Fit a shaft and a hole to each other.

use super::{Answer, Kind};
use crate::record::{LENGTH, Record, Shape, Spec, field};
use crate::shop::Shop;

pub(super) static KIND: Kind = Kind {
    name: "fit",
    wire: 8,
    title: "Fit a shaft and a hole",
    spec: &Spec {
        name: "fit",
        fields: &[
            field("basic", 1, "basic size", LENGTH),
            field("code", 2, "fit", Shape::Text(30)),
        ],
    },
    sentences: &[("", "Fit a shaft to a hole of {basic}, {code}.")],
    instead: &[],
    from_shop: &["lathe"],
    suggest: super::no_suggestions,
    answer,
};

fn answer(_: &Record, _: &Shop) -> Answer {
    Answer::refused("not worked out yet")
}
