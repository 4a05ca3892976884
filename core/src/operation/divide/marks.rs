//! What is cut at each division.

use crate::operation::Mark;
use crate::record::{Choice, Record, choice};

pub(super) const MARKS: &[Choice] = &[
    choice("lines", 0, "lines"),
    choice("holes", 1, "holes"),
    choice("flats", 2, "flats"),
    choice("slots", 3, "slots"),
];

/// What is cut at each division.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Marks {
    Lines,
    Holes,
    Flats,
    Slots,
}

impl Marks {
    pub(super) fn of(entries: &Record) -> Option<Marks> {
        Some(match entries.choice("marks")? {
            "holes" => Marks::Holes,
            "flats" => Marks::Flats,
            "slots" => Marks::Slots,
            _ => Marks::Lines,
        })
    }

    /// What one is called.
    pub(super) fn noun(self) -> &'static str {
        match self {
            Marks::Lines => "line",
            Marks::Holes => "hole",
            Marks::Flats => "flat",
            Marks::Slots => "slot",
        }
    }

    pub(super) fn drawn(self) -> Mark {
        match self {
            Marks::Lines | Marks::Slots => Mark::Line,
            Marks::Holes => Mark::Hole,
            Marks::Flats => Mark::Flat,
        }
    }

    /// Whether something is left between two of them.
    pub(super) fn leave(self) -> bool {
        self != Marks::Flats
    }

    /// What that is called.
    pub(super) fn left(self) -> &'static str {
        match self {
            Marks::Lines => "gap",
            Marks::Holes => "left between holes",
            _ => "left between slots",
        }
    }
}
