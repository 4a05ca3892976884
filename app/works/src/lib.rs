//! The works: what a setup comes to, as HTML, for a page that holds only its words.
//!
//! The page draws its sentences at once and asks here for the rest; each call takes a setup file's
//! text and gives text back, so nothing is shared but strings.

mod under_way;
mod watch;

use latheside_core::operation::{Answer, Step};
use latheside_core::setup::{self, Setup};
use latheside_core::shop::Shop;
use latheside_sheets as sheets;
use std::cell::RefCell;
use wasm_bindgen::prelude::wasm_bindgen;

/// The last good answer under a name, and what it was for.
type Last = Vec<(String, String, Answer)>;

thread_local! {
    static LAST: RefCell<Last> = const { RefCell::new(Vec::new()) };
    static WORK: RefCell<Work> = const { RefCell::new(Work { answers: Vec::new() }) };
}

/// As many last good answers are remembered.
const REMEMBERED: usize = 32;

/// How long paper and bench wait for an answer that takes long, ms.
const PATIENCE: f64 = 300.0;

/// What is on the bench.
struct Work {
    answers: Vec<(String, Answer)>,
}

impl Work {
    fn of(setup: &Setup) -> Work {
        let shop = Shop::new(setup.shop.clone());
        let answers = setup.operations.iter().map(|op| {
            let long = under_way::within(op, &setup.shop, PATIENCE);
            (op.sentence().plain(), long.unwrap_or_else(|| op.answer(&shop)))
        });
        Work { answers: answers.collect() }
    }

    fn lens(&self) -> Vec<u32> {
        let len = |answer: &Answer| answer.found.as_ref().map_or(0, |found| found.steps().len());
        self.answers
            .iter()
            .map(|(_, answer)| u32::try_from(len(answer)).unwrap_or(u32::MAX))
            .collect()
    }

    fn step(&self, operation: usize, step: usize) -> Option<Step> {
        self.answers.get(operation)?.1.found.as_ref()?.steps().get(step)
    }

    fn back(&self, operation: usize, step: usize) -> Option<String> {
        self.answers.get(operation)?.1.found.as_ref()?.steps().back(step)
    }
}

/// The answer to the one operation of a setup, drawn.
///
/// `name` is remembered with the last good answer; `at` names the folds, of which `open` (with
/// spaces between) are open; `unread` says that what is typed now isn't understood.
#[wasm_bindgen]
#[must_use]
pub fn answer(file: &str, name: &str, at: &str, open: &str, unread: bool) -> String {
    let Ok(setup) = setup::read_file(file) else { return String::new() };
    let Some(operation) = setup.operations.first() else { return String::new() };
    let is_open = |fold: &str| open.split(' ').any(|other| other == fold);
    if let Some(html) = under_way::answer(&setup, at, unread, &is_open) {
        return html;
    }
    let answer = operation.answer(&Shop::new(setup.shop.clone()));
    let words = operation.sentence().plain();
    if unread {
        // What is typed isn't understood: the last good answer stays, plainly out of force.
        return sheets::answer(&answer, Some(&words), &setup.shop, at, &is_open).into_string();
    }
    let mut html = sheets::answer(&answer, None, &setup.shop, at, &is_open).into_string();
    LAST.with_borrow_mut(|last| {
        let known = last.iter().position(|(other, ..)| other == name);
        if answer.refused.is_none() {
            if let Some(known) = known {
                last.remove(known);
            } else if last.len() >= REMEMBERED {
                last.remove(0);
            }
            last.push((name.to_owned(), words, answer));
        } else if let Some((_, words, before)) = known.and_then(|known| last.get(known)) {
            let at = format!("{at}-last");
            let before = sheets::answer(before, Some(words), &setup.shop, &at, &is_open);
            html.push_str(&before.into_string());
        }
    });
    html
}

/// What could stand in a blank of a setup's one operation, a line each.
#[wasm_bindgen]
#[must_use]
pub fn suggest(file: &str, key: &str, text: &str) -> String {
    let Ok(setup) = setup::read_file(file) else { return String::new() };
    let shop = Shop::new(setup.shop.clone());
    let words = setup.operations.first().map(|operation| operation.suggest(key, text, &shop));
    words.unwrap_or_default().join("\n")
}

/// Puts a setup on the bench and says how many steps each of its operations has.
#[wasm_bindgen]
#[must_use]
pub fn put_on_bench(file: &str) -> Vec<u32> {
    let work = setup::read_file(file).map(|setup| Work::of(&setup));
    let work = work.unwrap_or(Work { answers: Vec::new() });
    let lens = work.lens();
    WORK.set(work);
    lens
}

/// The bench at a step; past the last operation, all is done.
///
/// `ago` says on return how long ago the step before was finished, `lit` whether the screen stays
/// on; each is empty where there is nothing to say. `back` says that the step was come back to.
#[wasm_bindgen]
#[must_use]
pub fn bench(
    name: &str,
    setup: &str,
    operation: usize,
    step: usize,
    ago: &str,
    lit: &str,
    back: bool,
) -> String {
    WORK.with_borrow(|work| {
        let lens = work.lens();
        let total: u32 = lens.iter().sum();
        let finished = operation >= lens.len();
        let before: u32 = lens.iter().take(operation).sum();
        let here = u32::try_from(step).unwrap_or(u32::MAX);
        let done = if finished { total } else { before.saturating_add(here) };
        let words = work.answers.get(operation).map_or("", |(words, _)| words.as_str());
        let number = operation.saturating_add(1);
        let back = work.back(operation, step).filter(|_| back);
        let step = work.step(operation, step);
        sheets::bench(&sheets::Bench {
            name,
            operation: &if finished { String::new() } else { format!("{number}. {words}") },
            setup,
            done: (done as usize, total as usize),
            step: step.as_ref(),
            back: back.as_deref(),
            ago: (!ago.is_empty()).then(|| ago.to_owned()),
            lit,
        })
        .into_string()
    })
}

/// A setup as it will be printed.
#[wasm_bindgen]
#[must_use]
pub fn paper(file: &str, url: &str, back: &str) -> String {
    let Ok(setup) = setup::read_file(file) else { return String::new() };
    let work = Work::of(&setup);
    let shop = Shop::new(setup.shop.clone());
    sheets::paper(&sheets::Paper {
        name: &setup.name,
        note: &setup.note,
        shop: shop.name(),
        answers: &work.answers,
        url,
        back,
    })
    .into_string()
}

/// The scale of one of a setup's operations at full size, as a file; empty where it has none.
#[wasm_bindgen]
#[must_use]
pub fn strip(file: &str, at: usize) -> String {
    let Ok(setup) = setup::read_file(file) else { return String::new() };
    let Some(operation) = setup.operations.get(at) else { return String::new() };
    let found = operation.answer(&Shop::new(setup.shop.clone())).found;
    let picture = found.and_then(|found| found.card().picture);
    picture.as_ref().map(sheets::strip).unwrap_or_default()
}

/// An address as a square that another phone reads; empty where it is too long for one.
#[wasm_bindgen]
#[must_use]
pub fn square(url: &str) -> String {
    sheets::qr(url).map(|square| square.into_string()).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    const EXAMPLE: &str = include_str!("../../demo/example.json");

    fn one(at: usize) -> Setup {
        let mut setup = setup::read_file(EXAMPLE).unwrap();
        setup.operations = vec![setup.operations[at].clone()];
        setup
    }

    #[test]
    fn an_answer_is_drawn_and_the_last_good_one_stays_when_the_next_is_refused() {
        let mut setup = one(1);
        let good = answer(&setup::write_file(&setup), "a 1", "1", "why-1", false);
        assert!(good.contains("<b>3</b>") && good.contains("data-fold=\"why-1\" open"), "{good}");
        setup.operations[0].entries.set("into", None);
        let refused = answer(&setup::write_file(&setup), "a 1", "1", "", false);
        assert!(refused.contains("class=\"refused\"") && refused.contains("answer stale"));
        assert!(refused.contains("This was for: Divide Ø 32 mm into 24"), "{refused}");
        let unread = answer(&setup::write_file(&one(1)), "a 1", "1", "", true);
        assert!(unread.contains("answer stale"));
    }

    #[test]
    fn a_dials_strip_is_kept_from_its_card() {
        let text = EXAMPLE.replace(
            r#""operations": ["#,
            r#""operations": [{ "kind": "graduate", "lead": "2 mm", "least_count": "0.02 mm", "diameter": "60 mm" },"#,
        );
        let mut setup = setup::read_file(&text).unwrap();
        let svg = strip(&setup::write_file(&setup), 0);
        assert!(svg.starts_with("<svg") && svg.contains("check 100 mm"), "{svg}");
        setup.operations.truncate(1);
        let html = answer(&setup::write_file(&setup), "a 7", "7", "", false);
        assert!(html.contains("data-do=\"strip 7\""), "{html}");
        // Six figures in sight, the others to open.
        let (seen, folded) = html.split_once("data-fold=\"figures-7\"").unwrap();
        assert_eq!(seen.matches("<dt>").count(), 6);
        assert!(folded.contains("<dt>"), "{html}");
        let stale = answer(&setup::write_file(&setup), "a 7", "7", "", true);
        assert!(!stale.contains("data-do=\"strip"), "{stale}");
        // A circle has nothing of full size.
        let html = answer(&setup::write_file(&one(1)), "a 1", "1", "", false);
        assert!(!html.contains("data-do=\"strip"));
    }

    #[test]
    fn the_bench_goes_through_every_step() {
        let lens = put_on_bench(EXAMPLE);
        assert_eq!(lens.len(), 3);
        for (operation, len) in lens.iter().enumerate() {
            for step in 0..*len as usize {
                let html = bench("Stop", "#setup/x", operation, step, "", "", false);
                assert!(
                    html.contains("bench-next") && html.contains("bench-title"),
                    "{operation} {step}"
                );
            }
        }
        assert!(
            bench("Stop", "#setup/x", 0, 3, "2 minutes ago", "", false).contains("Is this done?")
        );
        assert!(
            bench("Stop", "#setup/x", 3, 0, "", "", false).contains("Every step of this setup")
        );
    }

    #[test]
    fn a_division_that_is_come_back_to_says_how() {
        let lens = put_on_bench(EXAMPLE);
        let html = |step: u32, back| bench("Stop", "#setup/x", 1, step as usize, "", "", back);
        let said =
            |back| (0..lens[1]).filter(|step| html(*step, back).contains("back past")).count();
        // 24 divisions, each a move and a cut.
        assert_eq!((said(false), said(true)), (0, 48));
    }

    #[test]
    fn nonsense_gives_nothing_and_breaks_nothing() {
        assert_eq!(answer("{}", "a", "0", "", false), "");
        assert_eq!(suggest("", "designation", "M1"), "");
        assert!(put_on_bench("[]").is_empty());
        assert_eq!(paper("", "", ""), "");
        assert_eq!(square(&"x".repeat(5000)), "");
        assert_eq!(strip("", 0), "");
        assert_eq!(strip(EXAMPLE, 0), "");
        assert_eq!(strip(EXAMPLE, 9), "");
        assert!(suggest(&setup::write_file(&one(0)), "designation", "M10").contains("M10"));
    }
}
