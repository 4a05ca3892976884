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

/// Where in `name` the text stands: at its start, at a number's start, anywhere.
fn place(name: &str, text: &str) -> Option<u8> {
    let at = name.find(text)?;
    if at == 0 {
        return Some(if name.len() == text.len() { 0 } else { 1 });
    }
    // "10" finds M10 and #10 before it finds 110.
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
    let mut ranked: Vec<(u8, usize, Designation)> = Vec::new();
    for (order, thread) in standard().into_iter().enumerate() {
        let name = bare(&thread.to_string());
        // Stub Acme worms and constant-pitch series are seldom what is meant.
        let rare = matches!(
            thread.series,
            Series::StubAcme | Series::Un8 | Series::Un12 | Series::Un16 | Series::Unef
        );
        if let Some(place) = place(&name, &typed) {
            let rank = place.saturating_mul(2).saturating_add(u8::from(rare && place > 0));
            ranked.push((rank, order, thread));
        }
    }
    ranked.sort_by_key(|(rank, order, _)| (*rank, *order));
    for (_, _, thread) in ranked {
        if found.len() >= MOST {
            break;
        }
        if !found.contains(&thread) {
            found.push(thread);
        }
    }
    found
}
