//! Turn or bore to size: roughing cuts, a measuring cut, the last cut and the length.

use super::{Answer, Kind};
use crate::record::{Choice, LENGTH, NAME, Record, Shape, Spec, choice, field};
use crate::shop::Shop;

use super::STOCKS;

const PROCESSES: &[Choice] =
    &[choice("turn", 0, "Turn"), choice("bore", 1, "Bore"), choice("face", 2, "Face")];

pub(super) static KIND: Kind = Kind {
    name: "size",
    wire: 4,
    title: "Turn or bore to size",
    spec: &Spec {
        name: "size",
        fields: &[
            field("process", 1, "process", Shape::Choice(PROCESSES)),
            field("from", 2, "from", LENGTH),
            field("to", 3, "to", LENGTH),
            field("length", 4, "length", LENGTH),
            field("stock", 5, "stock", Shape::Choice(STOCKS)),
            field("cutter", 6, "cutter", NAME),
        ],
    },
    sentences: &[(
        "",
        "{process} Ø {from} to Ø {to}, {length} long[, in {stock}][, with the {cutter}].",
    )],
    instead: &[],
    from_shop: &["lathe", "cutters"],
    suggest: super::no_suggestions,
    answer,
};

fn answer(_: &Record, _: &Shop) -> Answer {
    Answer::refused("not worked out yet")
}
