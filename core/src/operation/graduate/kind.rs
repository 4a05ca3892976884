//! What graduating asks for, and its sentence.

use super::dial;
use crate::operation::divide::cutter_and_holder;
use crate::operation::works::PIN_AND_LOCK;
use crate::operation::{CUTTER_IN, Deed, Kind, Made, WORK_IN, Works};
use crate::record::{
    Choice, LEAD, LENGTH, LENGTH_OR_NONE, NAME, Record, Shape, Spec, choice, field,
};

const READS: &[Choice] = &[choice("radius", 0, "radius"), choice("diameter", 1, "diameter")];
const LINES_ON: &[Choice] = &[choice("rim", 0, "the rim"), choice("face", 1, "the face")];
const HAND: &[Choice] = &[choice("right", 0, "right-hand"), choice("left", 1, "left-hand")];

pub(in crate::operation) static KIND: Kind = Kind {
    name: "graduate",
    wire: 3,
    title: "Graduate a dial",
    spec: &Spec {
        name: "graduate",
        fields: &[
            field("lead", 1, "lead of its screw", LEAD),
            field("least_count", 2, "one line", LENGTH),
            field("reads", 3, "reads", Shape::Choice(READS)),
            field("diameter", 4, "diameter", LENGTH),
            field("line_width", 5, "width of a line", LENGTH),
            field("lines_on", 6, "lines on", Shape::Choice(LINES_ON)),
            field("work_in", 7, "work in", Shape::Choice(WORK_IN)),
            field("cutter_in", 8, "cutter in", Shape::Choice(CUTTER_IN)),
            field("starts", 9, "starts", Shape::Count(1, 99)),
            field("hand", 10, "hand of its screw", Shape::Choice(HAND)),
            field("way", 11, "way, by its number", Shape::Count(1, 9999)),
            field("cutter", 12, "cutter", NAME),
            field("holder", 13, "cutter held in", NAME),
            field("depth", 14, "depth of a line", LENGTH),
            field("least_gap", 15, "least gap", LENGTH),
            field("vernier", 16, "a vernier telling", LENGTH),
            field("stamp", 17, "figure to figure, stamped", LENGTH),
            field("shake", 18, "shake of its nut", LENGTH_OR_NONE),
            field("lead_error", 19, "its screw's error in a turn", LENGTH_OR_NONE),
        ],
    },
    sentences: &[(
        "",
        "Graduate Ø {diameter} for a screw of {lead}[, {starts} starts][, {hand}], {least_count} a line[ of {reads}][, lines {line_width} wide][, {depth} deep][, a gap of {least_gap} at least][, on {lines_on}][, work in {work_in}][, cutter in {cutter_in}][, cut by {cutter}][, held in {holder}][, with a vernier telling {vernier}][, figures {stamp} apart][; its nut shakes {shake}][; its screw is out by {lead_error} in a turn][; by way {way}].",
    )],
    instead: &[],
    from_shop: &["lathe", "dividing", "holding", "cutters", "indicators"],
    measured: &[],
};

pub(in crate::operation) static WORKS: Works = Works {
    suggest: cutter_and_holder,
    deed,
    on_return: PIN_AND_LOCK,
    ..Works::at_once(&KIND, dial::answer)
};

fn deed(entries: &Record) -> Deed {
    Deed::of("graduating").making(Made::Lines {
        diameter: entries.ratio("diameter"),
        depth: entries.ratio("depth"),
        face: entries.choice("lines_on") == Some("face"),
    })
}
