//! What a thread's sentence asks for, and what could stand in its blanks.

use super::super::{Kind, Works};
use super::answer::answer;
use crate::record::{Choice, LEAD, LENGTH, Shape, Spec, choice, field};
use crate::shop::Shop;
use crate::threads;
use alloc::borrow::ToOwned;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

const SIDES: &[Choice] = &[choice("outside", 0, "outside"), choice("inside", 1, "inside")];
const HAND: &[Choice] = &[choice("right", 0, "right-hand"), choice("left", 1, "left-hand")];
const ENDINGS: &[Choice] = &[
    choice("groove", 0, "in a groove"),
    choice("shoulder", 1, "before a shoulder"),
    choice("runs-out", 2, "running out"),
];

/// What stands in `to` when the thread is to fit the nut that it is for.
pub(super) const NUT_IN_HAND: &str = "nut-in-hand";

pub(in super::super) static KIND: Kind = Kind {
    name: "thread",
    wire: 1,
    title: "Screw-cut a thread",
    spec: &Spec {
        name: "thread",
        fields: &[
            field("designation", 1, "thread", Shape::Text(60)),
            field("lead", 2, "lead", LEAD),
            field("side", 3, "side", Shape::Choice(SIDES)),
            field("hand", 4, "hand", Shape::Choice(HAND)),
            field("starts", 5, "starts", Shape::Count(1, 99)),
            field("class", 6, "class", Shape::Text(30)),
            field("length", 7, "length", LENGTH),
            field("engaged", 8, "length of the nut", LENGTH),
            field("ending", 9, "ending", Shape::Choice(ENDINGS)),
            field("to", 10, "to fit", Shape::Text(30)),
            field("diameter", 11, "diameter", LENGTH),
        ],
    },
    sentences: &[
        (
            "lead",
            "Screw-cut a lead of {lead}[, {side}][, {hand}][, {starts} starts][, Ø {diameter}], {length} long[, {ending}][, class {class}][, in a nut of {engaged}][, to {to}].",
        ),
        (
            "",
            "Screw-cut {designation}, {side}[, {hand}][, {starts} starts], {length} long[, {ending}][, class {class}][, in a nut of {engaged}][, to {to}].",
        ),
    ],
    instead: &[("lead", "designation"), ("designation", "lead")],
    from_shop: &["lathe", "drills"],
};

pub(in crate::operation) static WORKS: Works = Works { kind: &KIND, suggest, answer };

/// The classes that are suggested, the usual ones of each series first.
const CLASSES: &[&str] = &[
    "6g", "6H", "2A", "2B", "medium", "close", "free", "normal", "4h", "6e", "8g", "5H", "7H",
    "1A", "1B", "3A", "3B", "7e", "2G", "3G", "4G", "A", "B",
];

fn suggest(key: &str, text: &str, _: &Shop) -> Vec<String> {
    let typed = text.trim();
    let begins =
        |name: &&&str| name.get(..typed.len()).is_some_and(|head| head.eq_ignore_ascii_case(typed));
    let classes = CLASSES.iter().filter(begins).take(8).map(|name| (*name).to_owned());
    match key {
        "designation" => threads::suggest(typed).iter().map(ToString::to_string).collect(),
        "class" => classes.collect(),
        "to" => [NUT_IN_HAND]
            .iter()
            .filter(begins)
            .map(|name| (*name).to_owned())
            .chain(classes)
            .collect(),
        _ => Vec::new(),
    }
}
