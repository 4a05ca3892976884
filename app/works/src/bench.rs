//! The bench: which step comes, what it is called, how it stands on the screen.

use crate::under_way;
use latheside_core::operation::{Answer, Operation, Step};
use latheside_core::record::{Node, Record, read};
use latheside_core::setup::{self, Setup};
use latheside_core::shop::Shop;
use latheside_sheets as sheets;
use std::cell::{Cell, RefCell};
use wasm_bindgen::prelude::wasm_bindgen;

thread_local! {
    static WORK: RefCell<Work> = RefCell::new(Work::laid_out(Setup::default()));
}

/// How long paper and bench wait for an answer that takes long, ms.
pub(crate) const PATIENCE: f64 = 300.0;

/// A beat doesn't outlast the step that it was begun for.
fn at_step(operation: usize, step: usize) {
    thread_local! {
        static LAST: Cell<(usize, usize)> = const { Cell::new((0, 0)) };
    }
    if LAST.replace((operation, step)) != (operation, step) {
        #[cfg(target_arch = "wasm32")]
        crate::sound::hush();
    }
}

/// What is on the bench.
pub(crate) struct Work {
    shop: Shop,
    operations: Vec<Operation>,
    made: Vec<Record>,
    /// Of the first so many operations.
    pub(crate) answers: Vec<(String, Answer)>,
}

impl Work {
    /// The whole of it, worked in one go.
    pub(crate) fn of(setup: Setup) -> Work {
        let mut work = Work::laid_out(setup);
        while work.answer_next() {}
        work
    }

    /// None of it worked yet.
    fn laid_out(setup: Setup) -> Work {
        let Setup { shop, operations, made, .. } = setup;
        Work { shop: Shop::new(shop), operations, made, answers: Vec::new() }
    }

    /// Works the next operation; whether there are more.
    fn answer_next(&mut self) -> bool {
        if let Some(next) = self.operations.get(self.answers.len()) {
            let long = under_way::within(next, self.shop.record(), PATIENCE);
            let answer = long.unwrap_or_else(|| next.answer(&self.shop)).proved(&self.shop);
            self.answers.push((next.sentence().plain(), answer));
        }
        self.answers.len() < self.operations.len()
    }

    fn lens(&self) -> Vec<u32> {
        let len = |answer: &Answer| u32::try_from(answer.steps()).unwrap_or(u32::MAX);
        self.answers.iter().map(|(_, answer)| len(answer)).collect()
    }

    fn step(&self, operation: usize, step: usize) -> Option<Step> {
        self.answers.get(operation)?.1.found.as_ref()?.steps().get(step)
    }

    fn back(&self, operation: usize, step: usize) -> Option<String> {
        self.answers.get(operation)?.1.found.as_ref()?.steps().back(step)
    }

    fn title(&self, operation: usize, step: usize) -> String {
        self.step(operation, step).map(|step| step.title).unwrap_or_default()
    }

    /// The title of the step before this one.
    fn before(&self, operation: usize, step: usize) -> String {
        if let Some(step) = step.checked_sub(1) {
            return self.title(operation, step);
        }
        let earlier = self.lens();
        let earlier = earlier.iter().take(operation).enumerate().rev().find(|(_, len)| **len > 0);
        earlier.map_or(String::new(), |(at, len)| self.title(at, (*len as usize).saturating_sub(1)))
    }

    /// What was said of a step when the setup was made last.
    fn said_before(&self, operation: usize, title: &str) -> Vec<&Record> {
        let number = u32::try_from(operation).unwrap_or(u32::MAX).saturating_add(1);
        let Some(last) = self.made.last() else { return Vec::new() };
        let here = |said: &&Record| {
            said.count("operation") == Some(number)
                && said.text("step").is_some_and(|step| meaning(step) == meaning(title))
        };
        last.records("said").filter(here).collect()
    }
}

/// A step's title without how many of its like there are: that may change under way.
fn meaning(title: &str) -> String {
    let mut words: Vec<&str> = Vec::new();
    for word in title.split(' ') {
        let bare = word.trim_end_matches([',', '.']);
        let count = !bare.is_empty() && bare.bytes().all(|b| b.is_ascii_digit());
        if count && words.last() == Some(&"of") {
            words.pop();
        } else {
            words.push(word.trim_end_matches(','));
        }
    }
    words.join(" ")
}

/// Lays a setup out on the bench, to be worked an operation at a time: the page is free between.
#[wasm_bindgen]
pub fn lay_out(file: &str) {
    WORK.set(Work::laid_out(setup::read_file(file).unwrap_or_default()));
}

/// Works the next operation on the bench; whether there are more.
#[wasm_bindgen]
#[must_use]
pub fn answer_next() -> bool {
    WORK.with_borrow_mut(Work::answer_next)
}

/// How many steps each operation that is worked has.
#[wasm_bindgen]
#[must_use]
pub fn lens() -> Vec<u32> {
    WORK.with_borrow(Work::lens)
}

/// Puts a setup on the bench in one go and says how many steps each of its operations has.
#[wasm_bindgen]
#[must_use]
pub fn put_on_bench(file: &str) -> Vec<u32> {
    lay_out(file);
    while answer_next() {}
    lens()
}

/// What a step is called.
#[wasm_bindgen]
#[must_use]
pub fn title(operation: usize, step: usize) -> String {
    WORK.with_borrow(|work| work.title(operation, step))
}

/// Where the step of that title is now: the nearest to where it was, or that place itself.
#[wasm_bindgen]
#[must_use]
pub fn find(operation: usize, step: usize, title: &str) -> usize {
    WORK.with_borrow(|work| {
        let wanted = meaning(title);
        let len = work.lens().get(operation).map_or(0, |len| *len as usize);
        let same = |at: &usize| meaning(&work.title(operation, *at)) == wanted;
        if title.is_empty() || same(&step) {
            return step;
        }
        (0..len).filter(same).min_by_key(|at| at.abs_diff(step)).unwrap_or(step)
    })
}

/// The bench at a step; past the last operation, all is done.
///
/// `run` is the run as it is kept, `ago` says on return how long ago the step before was finished,
/// `lit` whether the screen stays on, `changed` how many steps were left before something was
/// measured and after; each is empty where there is nothing to say.
#[wasm_bindgen]
#[must_use]
#[expect(clippy::too_many_arguments, reason = "strings in, strings out")]
pub fn bench(
    name: &str,
    setup: &str,
    operation: usize,
    step: usize,
    run: &str,
    ago: &str,
    changed: &str,
    lit: &str,
    open: bool,
    back: bool,
) -> String {
    let (said, draft) = of_run(run);
    at_step(operation, step);
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
        let last = work.before(operation, step);
        let in_all = lens.get(operation).map_or(0, |len| *len as usize);
        let shown = work.step(operation, step);
        let title = shown.as_ref().map(|step| step.title.clone()).unwrap_or_default();
        let sheet = sheets::Bench {
            name,
            operation: &if finished { String::new() } else { format!("{number}. {words}") },
            setup,
            done: [(done as usize, total as usize), (step, in_all)],
            step: shown.as_ref(),
            of: work.operations.get(operation).map(|of| (operation, of)),
            back: back.as_deref(),
            ago: (!ago.is_empty()).then_some((ago, &last)),
            changed: &changed_words(changed),
            before: &work.said_before(operation, &title),
            said: &said,
            draft: &draft,
            open,
            lit,
        };
        sheet.html().into_string()
    })
}

/// What has become of the steps that were left, before and after.
fn changed_words(counts: &str) -> String {
    let Some((before, after)) = counts.split_once(' ') else { return String::new() };
    match (before.parse::<usize>(), after.parse::<usize>()) {
        (Ok(b), Ok(a)) if a > b => {
            format!(
                "By what was measured there is more to do: {} left, not {b}.",
                latheside_core::quantity::show::many(a, "step", "steps")
            )
        }
        (Ok(b), Ok(a)) if a < b => {
            format!(
                "By what was measured there is less to do: {} left, not {b}.",
                latheside_core::quantity::show::many(a, "step", "steps")
            )
        }
        _ => "Entered: what follows is worked from it.".to_owned(),
    }
}

/// What was said of a run so far and what is half typed, out of the text in which it is kept.
fn of_run(text: &str) -> (Vec<Record>, String) {
    let Ok(Node::List(items)) = serde_json::from_str::<Node>(text) else {
        return (Vec::new(), String::new());
    };
    let made = items.get(5).and_then(|node| read(node, &setup::MADE, "run", &[]).ok());
    let draft = items.get(6).and_then(Node::as_text).unwrap_or_default().to_owned();
    (made.map_or_else(Vec::new, |made| made.records("said").cloned().collect()), draft)
}

#[cfg(test)]
mod tests {
    use super::*;
    use latheside_kept::EXAMPLE;

    #[test]
    fn an_operation_at_a_time_comes_to_the_same() {
        let whole = put_on_bench(EXAMPLE);
        lay_out(EXAMPLE);
        assert!(lens().is_empty());
        assert!(answer_next());
        assert_eq!(lens(), whole[..1]);
        assert!(answer_next());
        // The last is worked, and none is left.
        assert!(!answer_next() && !answer_next());
        assert_eq!(lens(), whole);
    }

    #[test]
    fn the_bench_goes_through_every_step() {
        let lens = put_on_bench(EXAMPLE);
        assert_eq!(lens.len(), 3);
        for (operation, len) in lens.iter().enumerate() {
            for step in 0..*len as usize {
                let html = bench("Stop", "#setup/x", operation, step, "", "", "", "", false, false);
                assert!(
                    html.contains("bench-next") && html.contains("bench-title"),
                    "{operation} {step}"
                );
            }
        }
        let asked = bench("Stop", "#setup/x", 0, 3, "", "2 minutes ago", "", "", false, false);
        assert!(asked.contains("Is this done?") && asked.contains("half-nuts open"), "{asked}");
        assert!(asked.contains(&format!("2 minutes ago: <b>{}</b>", title(0, 2))), "{asked}");
        let done = bench("Stop", "#setup/x", 3, 0, "", "", "", "", false, false);
        assert!(done.contains("Every step of this setup"));
    }

    #[test]
    fn a_division_that_is_come_back_to_says_how() {
        let lens = put_on_bench(EXAMPLE);
        let html = |step: u32, back| {
            bench("Stop", "#setup/x", 1, step as usize, "", "", "", "", false, back)
        };
        let said =
            |back| (0..lens[1]).filter(|step| html(*step, back).contains("back past")).count();
        // 24 divisions, each a move and a cut.
        assert_eq!((said(false), said(true)), (0, 48));
    }

    #[test]
    fn a_step_is_found_again_by_its_meaning() {
        let mut setup = Setup::default();
        let size = r#"{"format":"latheside-setup","version":1,"operations":[
            {"kind":"size","process":"turn","from":"12 mm","to":"9.9 mm","length":"25 mm"}],
            "shop":{"lathe":{"spindle_speeds":[200]}}}"#;
        let read = setup::read_file(size).unwrap();
        (setup.operations, setup.shop) = (read.operations, read.shop);
        let lens = put_on_bench(&setup::write_file(&setup));
        let measuring = (0..lens[0] as usize).find(|at| title(0, *at) == "Measure").unwrap();
        let shown = bench("Pin", "#setup/x", 0, measuring, "", "", "", "", false, false);
        assert!(shown.contains("blank 0 measured"), "{shown}");
        // A millimetre and a half too much: more cuts, and the place is still the measuring.
        let more = latheside_core::record::Entry { text: "11.5 mm", unit: None };
        setup.operations[0].enter("measured", more).unwrap();
        let after = put_on_bench(&setup::write_file(&setup));
        assert!(after[0] > lens[0], "{lens:?} {after:?}");
        let place = find(0, measuring, "Measure");
        assert_eq!(title(0, place), "Measure");
        assert_eq!(find(0, 1, "cut 1 of 9, roughing"), 2);
        assert_eq!(meaning("cut 2 of 13, to size"), "cut 2 to size");
        assert_eq!(meaning("Division 7 of 24"), "Division 7");
        // What was said of a step is told again at that step.
        setup.operations[0].forget_measured();
        let said = setup::said(0, "cut 1 of 99, roughing", "went-wrong", "the tool rubbed");
        setup.made = vec![setup::made("2026-03-03 10:00:00", "2026-03-03 11:00:00", &[said])];
        assert_eq!(put_on_bench(&setup::write_file(&setup)), lens);
        let told = bench("Pin", "#setup/x", 0, 2, "", "", "", "", false, false);
        assert!(told.contains("Last time: went wrong: the tool rubbed"), "{told}");
        assert!(crate::made(&setup::write_file(&setup), false).contains("Last made 3 March 2026"));
    }
}
