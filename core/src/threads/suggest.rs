//! Threads that a person may be about to name, while they are still typing.

use alloc::string::{String, ToString};
use alloc::vec::Vec;

use super::designation::Designation;
use super::parse::parse;
use super::refusal::DesignationError;
use super::series::{Series, listed};

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

/// What a bare count of threads per inch could be of: the first of each inch series that has it.
fn of_lead(lead: &Designation) -> Vec<Designation> {
    let mut found: Vec<Designation> = Vec::new();
    if lead.series == Series::Plain && lead.tpi().is_some_and(|tpi| tpi.is_whole()) {
        for thread in listed().into_iter().filter(|d| d.series.is_inch() && d.pitch == lead.pitch) {
            if !found.iter().any(|other| other.series == thread.series) {
                found.push(thread);
            }
        }
    }
    found
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
    match parse(text) {
        Ok(read) => {
            found.push(read);
            found.extend(of_lead(&read));
        }
        Err(DesignationError::Which { meant, .. }) => found.extend(meant),
        Err(_) => {}
    }
    // The best few of each rank, in the order of the tables.
    let mut ranks: [Vec<Designation>; 10] = Default::default();
    for thread in listed() {
        let Some(place) = place(&bare(&thread.to_string()), &typed) else { continue };
        // Stub Acme, extra fine and constant-pitch series are seldom what is meant.
        let rare = matches!(
            thread.series,
            Series::StubAcme | Series::Un8 | Series::Un12 | Series::Un16 | Series::Unef
        );
        // And those of no standard's list come after the others.
        let last = matches!(thread.series, Series::ModelEngineer | Series::Brass | Series::Cycle);
        let seldom = if last { 3 } else { u8::from(rare) };
        let rank =
            place.saturating_mul(2).saturating_add(if place > 0 { seldom } else { 0 }).min(9);
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

#[cfg(test)]
mod tests {
    use super::suggest;
    use alloc::string::{String, ToString};
    use alloc::vec::Vec;

    fn names(text: &str) -> Vec<String> {
        suggest(text).iter().map(ToString::to_string).collect()
    }

    #[test]
    fn the_size_that_is_typed_comes_before_one_that_only_ends_so() {
        for typed in ["1/2", "1/2 B", "1/2 BSW", "1/2 bs", "½ BSW", ".5 BSW", "1/2 W", "1/2 whit"]
        {
            let names = names(typed);
            let at = |name: &str| names.iter().position(|n| n == name).unwrap_or(usize::MAX);
            assert!(at("1/2 BSW") < names.len(), "{typed}: {names:?}");
            assert!(at("1/2 BSW") <= at("1 1/2 BSW"), "{typed}: {names:?}");
        }
        assert_eq!(names("1 1/2 BSW").first().map(String::as_str), Some("1 1/2 BSW"));
        assert_eq!(names("1/2 BSW").first().map(String::as_str), Some("1/2 BSW"));
    }

    #[test]
    fn what_could_be_several_threads_offers_each() {
        assert_eq!(names("1/4 x 40").get(..2).unwrap(), ["1/4-40 ME", "1/4-40 UNS"]);
        let names = names("26 tpi");
        // 26 tpi is three threads: brass, cycle and Whitworth form's fine series.
        for name in ["26 tpi", "1/4 BSF", "1/8-26 Brass", "1/4-26 BSC"] {
            assert!(names.iter().any(|n| n == name), "{name}: {names:?}");
        }
    }
}
