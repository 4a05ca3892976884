//! What a thread's sentence asks for, and what could stand in its blanks.

use super::super::{Deed, Kind, Made, Works};
use super::answer::answer;
use crate::quantity::Measure;
use crate::record::{
    ANGLE, Bound, Choice, LEAD, LENGTH, LENGTH_OR_NONE, Record, Shape, Spec, choice, field,
};
use crate::shop::Shop;
use crate::threads::{self, LimitsError, Side, limits, named_class};
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
const INFEEDS: &[Choice] = &[
    choice("straight", 0, "straight in"),
    choice("flank", 1, "along a flank"),
    choice("alternating", 2, "one flank and the other in turn"),
];
const SHARINGS: &[Choice] = &[choice("area", 0, "equal chips"), choice("depth", 1, "equal depths")];
const BEGUN: &[Choice] = &[
    choice("blank", 0, "from the blank"),
    choice("thread", 1, "picking up the thread that is there"),
];

/// What stands in `to` when the thread is to fit the nut that it is for.
pub(super) const NUT_IN_HAND: &str = "nut-in-hand";

/// A sentence that begins so, and goes on alike for a name and for a lead.
macro_rules! sentence {
    ($begins:literal) => {
        concat!(
            $begins,
            ", {length} long[, {ending}][, groove {groove} wide][, class {class}][, in a nut of {engaged}]",
            "[, to {to}][, end shake {shake}][, {begun}][, {infeed}][, set over {set_over}]",
            "[, {sharing}][, in {passes} passes][, none under {least_cut}]",
            "[, {springs} spring passes][, nose radius {radius}][; by train {train}]",
            "[; over wires it measures {over_wires}][; the end shake measures {shake_now}]."
        )
    };
}

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
            field(
                "angle",
                18,
                "angle of the flanks",
                Shape::Quantity(Measure::Angle, Bound::Positive),
            ),
            field("groove", 19, "width of the groove", LENGTH),
            field("infeed", 12, "infeed", Shape::Choice(INFEEDS)),
            field("set_over", 13, "compound set over", ANGLE),
            field("sharing", 14, "depth of the passes", Shape::Choice(SHARINGS)),
            field("passes", 15, "passes", Shape::Count(1, 999)),
            field("least_cut", 16, "least cut", LENGTH),
            field("springs", 17, "spring passes", Shape::Count(0, 20)),
            field("radius", 22, "tool's nose radius", LENGTH_OR_NONE),
            field("shake", 21, "end shake wanted", LENGTH),
            field("begun", 20, "blank or thread", Shape::Choice(BEGUN)),
            field("train", 23, "train, by its number", Shape::Count(1, 9999)),
            field("over_wires", 24, "measured over wires", LENGTH),
            field("shake_now", 25, "end shake measured", LENGTH_OR_NONE),
        ],
    },
    sentences: &[
        (
            "lead",
            sentence!(
                "Screw-cut a lead of {lead}[, flanks at {angle}][, {side}][, {hand}][, {starts} starts][, Ø {diameter}]"
            ),
        ),
        (
            "",
            sentence!(
                "Screw-cut {designation}[, flanks at {angle}], {side|outside}[, {hand}][, {starts} starts]"
            ),
        ),
    ],
    instead: &[("lead", "designation"), ("designation", "lead")],
    from_shop: &["lathe", "drills", "wires", "cutters", "holding", "indicators"],
    measured: &["over_wires", "shake_now"],
};

pub(in crate::operation) static WORKS: Works = Works {
    suggest,
    deed,
    on_return: "Look before going on: gears still in mesh and the guard shut, half-nuts open, the cross dial where this step has it. The mark on the dial is the same one as before.",
    ..Works::at_once(&KIND, answer)
};

fn deed(entries: &Record) -> Deed {
    let own = entries.ratio("diameter");
    let named = || threads::parse(entries.text("designation")?).ok()?.diameter;
    let major = own.or_else(named);
    let inside = entries.choice("side") == Some("inside");
    Deed::of("screw-cutting").making(if inside { Made::Tapped(major) } else { Made::Thread(major) })
}

/// The classes that are suggested, the usual ones of each series first.
const CLASSES: &[&str] = &[
    "6g", "6H", "2A", "2B", "medium", "close", "free", "normal", "4h", "6e", "8g", "5H", "7H",
    "1A", "1B", "3A", "3B", "7e", "2G", "3G", "4G", "A", "B",
];

/// The classes that this thread has on this side; all of them while it isn't known.
fn classes(entries: &Record, typed: &str) -> Vec<String> {
    let thread = entries.text("designation").and_then(|name| threads::parse(name).ok());
    let side = if entries.choice("side") == Some("inside") { Side::Inside } else { Side::Outside };
    let belongs = |name: &&&str| {
        let Some(mut thread) = thread else { return true };
        let class = named_class(thread.series, side, name);
        if class.is_none_or(|class| class.side().is_some_and(|of| of != side)) {
            return false;
        }
        thread.class = class;
        matches!(limits(&thread, side), Ok(_) | Err(LimitsError::NoDiameter))
    };
    CLASSES
        .iter()
        .filter(|name| begins(name, typed))
        .filter(belongs)
        .take(8)
        .map(|name| (*name).to_owned())
        .collect()
}

fn begins(name: &str, typed: &str) -> bool {
    name.get(..typed.len()).is_some_and(|head| head.eq_ignore_ascii_case(typed))
}

fn suggest(entries: &Record, key: &str, text: &str, _: &Shop) -> Vec<String> {
    let typed = text.trim();
    match key {
        "designation" => threads::suggest(typed).iter().map(ToString::to_string).collect(),
        "class" => classes(entries, typed),
        "to" => {
            let mut found = classes(entries, typed);
            if begins(NUT_IN_HAND, typed) {
                found.insert(0, NUT_IN_HAND.to_owned());
            }
            found
        }
        _ => Vec::new(),
    }
}
