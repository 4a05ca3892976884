//! Threads that a person may be about to name, while they are still typing.

use alloc::string::{String, ToString};
use alloc::vec::Vec;

use super::designation::Designation;
use super::parse::parse;
use super::series::{Series, standard};

/// At most so many threads are suggested.
const MOST: usize = 8;

/// What is compared: lower case, without spaces, a cross for a cross.
fn bare(text: &str) -> String {
    text.chars()
        .filter(|c| !c.is_whitespace())
        .map(|c| match c {
            '×' | '*' => 'x',
            ',' => '.',
            '–' | '—' => '-',
            other => other.to_ascii_lowercase(),
        })
        .collect()
}

/// How well the text fits a name, 0 best: the whole name, its start, a number in it, anywhere.
fn place(name: &str, text: &str) -> Option<u8> {
    let at = (0..name.len()).find(|at| name.get(*at..).is_some_and(|n| n.starts_with(text)))?;
    if at == 0 {
        return Some(u8::from(name.len() > text.len()));
    }
    // "10" finds M10 and #10 before it finds 1/10 and M100.
    let before = name.get(..at)?.chars().next_back()?;
    let digits = text.starts_with(|c: char| c.is_ascii_digit());
    Some(if digits && (before.is_ascii_digit() || matches!(before, '.' | '/')) {
        4
    } else if digits && before != '-' && before != 'x' {
        2
    } else {
        3
    })
}

/// Up to eight designations for what has been typed so far, likeliest first; none for nothing.
///
/// What can be read as it stands comes first, even where no standard has it.
#[must_use]
pub fn suggest(text: &str) -> Vec<Designation> {
    let typed = bare(text);
    let mut found: Vec<Designation> = Vec::new();
    if typed.is_empty() {
        return found;
    }
    if let Ok(read) = parse(text) {
        found.push(read);
    }
    // The best few of each rank, in the order of the tables.
    let mut ranks: [Vec<Designation>; 10] = Default::default();
    for thread in standard() {
        let Some(place) = place(&bare(&thread.to_string()), &typed) else { continue };
        // Stub Acme, extra fine and constant-pitch series are seldom what is meant.
        let rare = matches!(
            thread.series,
            Series::StubAcme | Series::Un8 | Series::Un12 | Series::Un16 | Series::Unef
        );
        let rank = place.saturating_mul(2).saturating_add(u8::from(rare && place > 0));
        if let Some(same) = ranks.get_mut(usize::from(rank))
            && same.len() < MOST
            && !found.contains(&thread)
        {
            same.push(thread);
        }
    }
    for same in ranks {
        found.extend(same);
    }
    found.truncate(MOST);
    found
}
