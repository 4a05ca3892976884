//! Where the work is and where the cutter turns: what must be clear, stopped and locked.

use crate::record::Record;

/// What holds the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::operation) enum WorkIn {
    /// The lathe's spindle.
    LatheSpindle,
    /// A head on the cross slide.
    Head,
}

/// What cuts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::operation) enum CutterIn {
    /// A cutter that nothing is said about.
    Somewhere,
    /// The lathe's spindle.
    LatheSpindle,
    /// A spindle of its own on the slide.
    OnSlide,
    /// The tool post, dragged.
    Dragged,
}

/// Where the work is and where the cutter is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::operation) struct Arrangement {
    pub(in crate::operation) work: WorkIn,
    pub(in crate::operation) cutter: CutterIn,
}

const STOP: &str = "A cutter in the lathe spindle is stopped before each move, and stands still before a hand comes near.";
const LIGHT: &str = "Thin cutters want a light feed; eyes covered.";
const DRILL_CHUCK: &str =
    "A drill chuck isn't made for side load: a collet or an arbor holds the cutter.";
const EDGES: &str = "Every fresh cut has a sharp edge: break it before the part is handled.";
const BOTH: &str =
    "The work and the cutter can't both be in the lathe spindle: say where the other one is.";
const MAKER: &str = "What the machine's maker and the rules of the place say comes first.";

impl Arrangement {
    /// As entered; by itself a cutter in the lathe spindle means that the work is elsewhere, and so does
    /// a head that divides `by_plates` where nothing is said of the cutter: it holds what it divides.
    pub(in crate::operation) fn of(entries: &Record, by_plates: bool) -> Arrangement {
        let cutter = match entries.choice("cutter_in") {
            Some("lathe-spindle") => CutterIn::LatheSpindle,
            Some("driven-spindle-on-slide") => CutterIn::OnSlide,
            Some("dragged-by-slide") => CutterIn::Dragged,
            _ => CutterIn::Somewhere,
        };
        let work = match (entries.choice("work_in"), cutter) {
            (Some("head-on-cross-slide"), _) | (None, CutterIn::LatheSpindle) => WorkIn::Head,
            (None, CutterIn::Somewhere) if by_plates => WorkIn::Head,
            _ => WorkIn::LatheSpindle,
        };
        let cutter = match (work, cutter) {
            (WorkIn::Head, CutterIn::Somewhere) => CutterIn::LatheSpindle,
            (_, cutter) => cutter,
        };
        Arrangement { work, cutter }
    }

    /// Whether both are said to be in the lathe spindle.
    pub(in crate::operation) fn clash(self) -> bool {
        self.work == WorkIn::LatheSpindle && self.cutter == CutterIn::LatheSpindle
    }

    pub(in crate::operation) fn cautions(self) -> alloc::vec::Vec<&'static str> {
        let mut cautions = alloc::vec::Vec::new();
        if self.clash() {
            cautions.push(BOTH);
        }
        if self.cutter != CutterIn::Dragged {
            cautions.push(DRILL_CHUCK);
        }
        cautions
    }

    /// The same where slides alone go from place to place, the cutter in the lathe spindle.
    pub(in crate::operation) fn by_slides() -> alloc::vec::Vec<&'static str> {
        alloc::vec::Vec::from([STOP, LIGHT, DRILL_CHUCK, EDGES, MAKER])
    }

    /// The same as the file names it.
    pub(in crate::operation) fn locked_key(self) -> &'static str {
        match self.work {
            WorkIn::LatheSpindle => "lathe-spindle",
            WorkIn::Head => "head",
        }
    }

    /// The slides that set the depth and the length of a cut on the rim, and on a face.
    pub(in crate::operation) fn slides(self, on_face: bool) -> (&'static str, &'static str) {
        match (self.work, on_face) {
            (WorkIn::LatheSpindle, false) => ("cross", "carriage"),
            // Whichever way the head stands, the carriage brings the work to a cutter in the lathe spindle.
            (WorkIn::LatheSpindle, true) | (WorkIn::Head, _) => ("carriage", "cross"),
        }
    }
}

/// A slide by its name at the machine.
pub(in crate::operation) fn slide(key: &str) -> &'static str {
    match key {
        "cross" => "the cross slide",
        "carriage" => "the carriage",
        _ => "the slide",
    }
}
