//! What graduating asks for, and its sentence.

use super::dial;
use crate::operation::{CUTTER_IN, Kind, WORK_IN, Works, no_suggestions};
use crate::record::{Choice, LEAD, LENGTH, Shape, Spec, choice, field};

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
        ],
    },
    sentences: &[(
        "",
        "Graduate Ø {diameter} for a screw of {lead}[, {starts} starts][, {hand}], {least_count} a line[ of {reads}][, lines {line_width} wide][, on {lines_on}][, work in {work_in}][, cutter in {cutter_in}].",
    )],
    instead: &[],
    from_shop: &["lathe", "dividing"],
};

pub(in crate::operation) static WORKS: Works =
    Works { kind: &KIND, suggest: no_suggestions, answer: dial::answer };
