//! An answer's rows, and how far a long one has come.

use super::act::Act;
use super::answer::{Folds, mark};
use super::bound::bound;
use super::key;
use latheside_core::operation::{Answer, Table, TableRow};
use maud::{Markup, html};

/// The name of the fold that holds every row; that of a group has its place before what it ends in.
const NAME: &str = "rows";

/// Every row, in a fold.
pub(super) fn every_row(table: &Table, folds: Folds<'_>) -> Markup {
    let title = format!("every row ({})", table.rows.len());
    folds.rows(NAME, &title, || folded(table, folds))
}

/// Those that belong together in a fold of their own; and the key that keeps them all.
fn folded(table: &Table, folds: Folds<'_>) -> Markup {
    html! {
        @if table.groups.len() < 2 { (rows(table, None, &table.rows)) }
        @else {
            @for (at, (title, of)) in groups(table).enumerate() {
                (folds.rows(&format!("{NAME}-{at}"), &format!("{title} ({})", of.len()), || {
                    rows(table, Some(title), of)
                }))
            }
        }
        @if let Ok(at) = folds.of.parse() { (key(&Act::Rows(at), "key", "Keep these rows as a file")) }
    }
}

/// What comes into a fold of rows that was drawn without them; none where it isn't one of this answer's.
#[must_use]
pub fn rows_in(fold: &str, answer: &Answer, folds: Folds<'_>) -> Option<Markup> {
    let name = fold.strip_suffix(folds.of)?.strip_suffix('-')?.strip_prefix(NAME)?;
    let table = answer.found.as_ref()?.card().table?;
    if name.is_empty() {
        return Some(folded(&table, folds));
    }
    let at = name.strip_prefix('-')?.parse().ok()?;
    let (title, of) = groups(&table).nth(at)?;
    Some(rows(&table, Some(title), of))
}

/// Every row, or the same in short, as it will be printed.
pub(super) fn printed(table: &Table) -> Markup {
    html! {
        div class="rows-printed" {
            @if !table.in_short.is_empty() { (rows(table, None, &table.in_short)) }
            @else if table.groups.is_empty() { (rows(table, None, &table.rows)) }
            @for (title, of) in groups(table).filter(|_| table.in_short.is_empty()) {
                h4 { (title) }
                (rows(table, Some(title), of))
            }
        }
    }
}

fn groups(table: &Table) -> impl Iterator<Item = (&str, &[TableRow])> {
    let mut rest = table.rows.as_slice();
    table.groups.iter().map(move |(title, rows)| {
        let (these, others) = rest.split_at((*rows).min(rest.len()));
        rest = others;
        (title.as_str(), these)
    })
}

/// Rows: name, setting, how it stands.
fn rows(table: &Table, of: Option<&str>, rows: &[TableRow]) -> Markup {
    let [name, setting] = table.heads;
    html! {
        table class="rows" aria-label=[of] {
            thead class="hidden" { tr { th scope="col" { (name) } th scope="col" { (setting) } } }
            tbody {
                @for row in rows {
                    tr {
                        th scope="row" { (row.name) }
                        td {
                            @if !row.setting.is_empty() { b { (bound(&row.setting)) } " " }
                            span {
                                @if let Some(tone) = row.tone {
                                    span class=(mark(tone).0) aria-hidden="true" { (mark(tone).1) }
                                }
                                (bound(&row.note))
                            }
                        }
                    }
                }
            }
        }
    }
}

/// How far work has come that takes long, and the key that stops it or lets it go on.
pub fn under_way(done: u64, of: u64, stopped: bool, name: &str) -> Markup {
    let (words, act, key) = match stopped {
        false => ("Working it out", "stop", "Stop"),
        true => ("Stopped", "go-on", "Go on"),
    };
    html! {
        div class="under-way" role="group" aria-label="Progress" {
            label {
                (words) ": "
                span class="how-far" { (how_far(done, of)) }
                progress max=(of) value=(done) {}
            }
            button type="button" class="key" data-work={ (act) " " (name) } { (key) }
        }
    }
}

/// How far, in words.
#[must_use]
pub fn how_far(done: u64, of: u64) -> String {
    format!("{} %", done.saturating_mul(100) / of.max(1))
}
