//! What came of a setup when it was made before.

use super::fold;
use latheside_core::record::Record;
use maud::{Markup, html};

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// `2026-03-03 14:05:09` as a person says it: 3 March 2026; as it stands where it is no date.
fn day(wall: &str) -> String {
    let date = wall.split(' ').next().unwrap_or_default();
    let parts: Vec<usize> = date.split('-').filter_map(|part| part.parse().ok()).collect();
    match parts.as_slice() {
        [year, month, day] => match month.checked_sub(1).and_then(|month| MONTHS.get(month)) {
            Some(month) => format!("{day} {month} {year}"),
            None => date.to_owned(),
        },
        _ => date.to_owned(),
    }
}

/// One entry: the step, what of it, and the words.
pub(crate) fn said_line(said: &Record, with_step: bool) -> String {
    let what = match said.choice("what") {
        Some("went-wrong") => "went wrong",
        Some("measured") => "measured",
        Some("skipped") => "skipped",
        Some("repeated") => "done again",
        _ => "",
    };
    let step = said.text("step").filter(|_| with_step).unwrap_or_default();
    let step = match said.count("operation") {
        Some(number) if !step.is_empty() => format!("{number}, {step}"),
        _ => String::new(),
    };
    let text = said.text("text").unwrap_or_default();
    let parts = [step.as_str(), what, text];
    parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(": ")
}

/// When it was made last and what came of it; the runs before that behind a fold.
pub fn made(made: &[Record], open: bool) -> Markup {
    let mut runs = made.iter().rev();
    let Some(last) = runs.next() else { return html! {} };
    html! {
        div class="made" {
            (run(last, "Last made"))
            @if made.len() > 1 {
                (fold("made", open, &format!("{} times before", made.len() - 1), &html! {
                    @for earlier in runs { (run(earlier, "Made")) }
                }))
            }
        }
    }
}

fn run(made: &Record, words: &str) -> Markup {
    let ended = made.text("ended");
    let when = day(ended.or(made.text("began")).unwrap_or_default());
    let said: Vec<&Record> = made.records("said").collect();
    html! {
        p class="made-when" { (words) " " (when) @if ended.is_none() { ", not finished" } @if !said.is_empty() { ":" } }
        @if !said.is_empty() {
            ul class="made-said" { @for said in said { li { (said_line(said, true)) } } }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use latheside_core::setup;

    #[test]
    fn a_record_is_told_as_a_person_would() {
        let wrong = setup::said(0, "cut 2 of 3", "went-wrong", "0.05 under: the dial slipped");
        let runs = [
            setup::made("2025-12-31 23:59:59", "", &[]),
            setup::made("2026-03-03 14:05:09", "2026-03-03 15:00:00", &[wrong]),
        ];
        let html = made(&runs, false).into_string();
        assert!(html.contains("Last made 3 March 2026:"), "{html}");
        assert!(html.contains("1, cut 2 of 3: went wrong: 0.05 under: the dial slipped"), "{html}");
        assert!(html.contains("Made 31 December 2025, not finished"), "{html}");
        assert_eq!(day("2026-13-01 x"), "2026-13-01");
        assert_eq!(day("<b>"), "<b>");
        assert!(made(&[], true).into_string().is_empty());
    }
}
