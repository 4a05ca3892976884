//! What came of a setup each time it was made: when, what was measured, what went wrong.

use crate::record::{Choice, Record, Shape, Spec, Value, choice, field};
use alloc::borrow::ToOwned;
use alloc::string::String;
use alloc::vec::Vec;

/// The most runs that a setup keeps; the oldest goes first.
pub const MOST_MADE: usize = 100;
/// The most that is said of one run.
pub const MOST_SAID: usize = 999;
/// The longest note on a step, in characters.
pub const LONGEST_SAID: usize = 400;

const WHAT: &[Choice] = &[
    choice("note", 0, "note"),
    choice("went-wrong", 1, "went wrong"),
    choice("measured", 2, "measured"),
    choice("skipped", 3, "skipped"),
    choice("repeated", 4, "done again"),
];

/// What is said of one step: its operation, counted from 1 as on the sheet, and its title.
static SAID: Spec = Spec {
    name: "an entry of the record",
    fields: &[
        field("operation", 1, "operation", Shape::Count(1, 1000)),
        field("step", 2, "step", Shape::Text(200)),
        field("what", 3, "what", Shape::Choice(WHAT)),
        field("text", 4, "text", Shape::Text(LONGEST_SAID)),
    ],
};

/// One run through a setup. Its times are the clock's on the wall: `2026-03-03 14:05:09`.
pub static MADE: Spec = Spec {
    name: "a run in the record",
    fields: &[
        field("began", 1, "began", Shape::Text(19)),
        field("ended", 2, "ended", Shape::Text(19)),
        field("said", 3, "said", Shape::List(&Shape::Record(&SAID), MOST_SAID, "entries")),
    ],
};

/// An entry: `what` is `note`, `went-wrong`, `measured`, `skipped` or `repeated`, else a note.
#[must_use]
pub fn said(operation: usize, step: &str, what: &str, text: &str) -> Record {
    let mut said = Record::empty(&SAID);
    let number = u32::try_from(operation).unwrap_or(u32::MAX).saturating_add(1).min(1000);
    let what = WHAT.iter().find(|choice| choice.id == what).or(WHAT.first());
    let short = |text: &str, most: usize| text.chars().take(most).collect::<String>();
    said.set("operation", Some(Value::Count(number)));
    said.set("step", Some(Value::Text(short(step, 200))));
    said.set("what", what.map(Value::Choice));
    if !text.is_empty() {
        said.set("text", Some(Value::Text(short(text, LONGEST_SAID))));
    }
    said
}

/// A run, from when to when, with the latest of what was said.
#[must_use]
pub fn made(began: &str, ended: &str, said: &[Record]) -> Record {
    let mut made = Record::empty(&MADE);
    let latest = said.iter().skip(said.len().saturating_sub(MOST_SAID));
    made.set("began", Some(Value::Text(began.to_owned())));
    if !ended.is_empty() {
        made.set("ended", Some(Value::Text(ended.to_owned())));
    }
    made.set("said", Some(Value::List(latest.cloned().map(Value::Record).collect())));
    made
}

/// Puts a run into a record, in the place of one that began at the same time.
pub fn keep_made(record: &mut Vec<Record>, made: Record) {
    record.retain(|other| other.text("began") != made.text("began"));
    record.push(made);
    let over = record.len().saturating_sub(MOST_MADE);
    record.drain(..over);
}
