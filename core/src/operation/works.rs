//! How a kind is worked out: apart from what it asks for, so that a page can show the sentence
//! before it holds the works.

use super::long::{self, Begin};
use super::{Answer, Deed, Kind};
use crate::record::Record;
use crate::shop::Shop;
use alloc::string::String;
use alloc::vec::Vec;

/// How a kind is worked out.
pub(super) struct Works {
    pub(super) kind: &'static Kind,
    pub(super) way: Way,
    /// What could stand in a blank, given the entries, its key and what is typed so far:
    /// designations, names in the shop.
    pub(super) suggest: fn(&Record, &str, &str, &Shop) -> Vec<String>,
    /// What it does to the part, given the entries.
    pub(super) deed: fn(&Record) -> Deed,
    /// What to look at before going on after a while away. Common practice, no source.
    pub(super) on_return: &'static str,
}

/// Whether a kind is answered at once.
#[derive(Clone, Copy)]
pub(super) enum Way {
    AtOnce(fn(&Record, &Shop) -> Answer),
    Long(Begin),
}

impl Works {
    /// A kind that is answered at once, of whose part there is nothing to say yet.
    pub(super) const fn at_once(
        kind: &'static Kind,
        answer: fn(&Record, &Shop) -> Answer,
    ) -> Works {
        Works::of(kind, Way::AtOnce(answer))
    }

    /// One that takes long, so that it is worked a moment at a time.
    pub(super) const fn long(kind: &'static Kind, begin: Begin) -> Works {
        Works::of(kind, Way::Long(begin))
    }

    const fn of(kind: &'static Kind, way: Way) -> Works {
        Works { kind, way, suggest: no_suggestions, deed: nothing_done, on_return: ANYTHING }
    }

    /// The answer, however long it takes.
    pub(super) fn answer(&self, entries: &Record, shop: &Shop) -> Answer {
        match self.way {
            Way::AtOnce(answer) => answer(entries, shop),
            Way::Long(begin) => long::whole(begin(entries, shop)),
        }
    }
}

impl core::fmt::Debug for Works {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.kind.name)
    }
}

fn no_suggestions(_: &Record, _: &str, _: &str, _: &Shop) -> Vec<String> {
    Vec::new()
}

fn nothing_done(_: &Record) -> Deed {
    Deed::NONE
}

/// Looked at on return, whatever is done.
const ANYTHING: &str = "Look before going on: what holds the work, and what may have been moved.";
/// Looked at where a tool turns, bores or faces.
pub(super) const TOOL_AND_DIAL: &str = "Look before going on: the dial where this step has it, the tool not bumped, the carriage clear, the speed as it was. Work that has cooled measures less.";
/// Looked at where a circle is divided.
pub(super) const PIN_AND_LOCK: &str = "Look before going on: the pin in the hole that this step names, the arms not knocked, the spindle locked. Count from the last mark that you can see.";
