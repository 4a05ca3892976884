//! The works: what a setup comes to, as HTML, for a page that holds only its words.
//!
//! The page draws its sentences at once and asks here for the rest; each call takes a setup file's
//! text and gives text back, so nothing is shared but strings.

mod backup;
#[cfg(any(target_arch = "wasm32", test))]
mod pulse;
#[path = "../../src/state/slots.rs"]
#[allow(dead_code, reason = "the page's own; of it the works need reading and writing alone")]
mod slots;
#[cfg(target_arch = "wasm32")]
mod sound;
mod under_way;
mod watch;

use latheside_core::operation::{Answer, Operation, Step};
use latheside_core::record::{Node, Record, read};
use latheside_core::setup::{self, Setup};
use latheside_core::shop::Shop;
use latheside_sheets as sheets;
use std::cell::{Cell, RefCell};
use wasm_bindgen::prelude::wasm_bindgen;

/// The last good answer under a name, and what it was for.
type Last = Vec<(String, String, Answer)>;

thread_local! {
    static LAST: RefCell<Last> = const { RefCell::new(Vec::new()) };
    static WORK: RefCell<Work> = const { RefCell::new(Work::NONE) };
}

/// As many last good answers are remembered.
const REMEMBERED: usize = 32;

/// How long paper and bench wait for an answer that takes long, ms.
const PATIENCE: f64 = 300.0;

/// Hears the taps on what is drawn here, from the start.
#[wasm_bindgen(start)]
fn start() {
    watch::listen(tapped);
}

/// A tap on something that says in `data-work` what is to be done.
fn tapped(words: &str) {
    #[cfg(target_arch = "wasm32")]
    match words {
        "beat" => return sound::beat(),
        "faster" => return sound::pace(true),
        "slower" => return sound::pace(false),
        _ => {}
    }
    under_way::carry_out(words);
}

/// A beat doesn't outlast the step that it was begun for.
fn at_step(operation: usize, step: usize) {
    thread_local! {
        static LAST: Cell<(usize, usize)> = const { Cell::new((0, 0)) };
    }
    if LAST.replace((operation, step)) != (operation, step) {
        #[cfg(target_arch = "wasm32")]
        sound::hush();
    }
}

/// What is on the bench.
struct Work {
    operations: Vec<Operation>,
    made: Vec<Record>,
    answers: Vec<(String, Answer)>,
}

impl Work {
    const NONE: Work = Work { operations: Vec::new(), made: Vec::new(), answers: Vec::new() };

    fn of(setup: Setup) -> Work {
        let shop = Shop::new(setup.shop.clone());
        let answers = setup.operations.iter().map(|op| {
            let long = under_way::within(op, &setup.shop, PATIENCE);
            (op.sentence().plain(), long.unwrap_or_else(|| op.answer(&shop)))
        });
        let answers = answers.collect();
        Work { operations: setup.operations, made: setup.made, answers }
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
    let work = setup::read_file(file).map_or(Work::NONE, Work::of);
    let lens = work.lens();
    WORK.set(work);
    lens
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
            format!("By what was measured there is more to do: {a} steps left, not {b}.")
        }
        (Ok(b), Ok(a)) if a < b => {
            format!("By what was measured there is less to do: {a} steps left, not {b}.")
        }
        _ => "Taken in: what follows goes by it.".to_owned(),
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

/// Everything that a storage holds, given as JSON, as one file.
#[wasm_bindgen]
#[must_use]
pub fn backup(kept: &str) -> String {
    backup::Kept::of(kept).map_or(String::new(), |kept| backup::backup(&kept))
}

/// What of a storage, given as JSON, has to be set or taken away for a backup to be back: pairs of
/// a key and its text, unit separators within and record separators between; or, behind an
/// exclamation mark, why nothing is changed.
#[wasm_bindgen]
#[must_use]
pub fn restore(kept: &str, file: &str) -> String {
    let Some(before) = backup::Kept::of(kept) else {
        return "!nothing can be kept on this device: nothing was changed".to_owned();
    };
    let after = before.clone();
    match backup::restore(&after, file) {
        Ok(_) => after.since(&before),
        Err(why) => format!("!{why}"),
    }
}

/// How safe what is entered is, and what makes it safer.
#[wasm_bindgen]
#[must_use]
pub fn keeping(kept: bool, can_install: bool) -> String {
    sheets::keeping(kept, can_install).into_string()
}

/// A setup worked for the shop that it came with and for another: both answers side by side.
#[wasm_bindgen]
#[must_use]
pub fn beside(theirs: &str, mine: &str) -> String {
    let (Ok(theirs), Ok(mine)) = (setup::read_file(theirs), setup::read_file(mine)) else {
        return String::new();
    };
    let (there, here) = (Shop::new(theirs.shop), Shop::new(mine.shop));
    let told = |op: &Operation, shop: &Shop| {
        let long = under_way::within(op, shop.record(), PATIENCE);
        long.unwrap_or_else(|| op.answer(shop))
    };
    let both = theirs.operations.iter();
    let both = both.map(|op| (op.sentence().plain(), told(op, &there), told(op, &here)));
    let both: Vec<sheets::Both> = both.collect();
    sheets::beside(&both, there.name(), here.name()).into_string()
}

/// The shop of a file in sentences.
#[wasm_bindgen]
#[must_use]
pub fn shop_told(file: &str) -> String {
    setup::read_file(file)
        .map_or(String::new(), |setup| sheets::shop_told(&setup.shop).into_string())
}

/// What the order of a setup's operations spoils, and a better one.
#[wasm_bindgen]
#[must_use]
pub fn order(file: &str) -> String {
    setup::read_file(file)
        .map_or(String::new(), |setup| sheets::order(&setup::order(&setup)).into_string())
}

/// What came of a setup when it was made before.
#[wasm_bindgen]
#[must_use]
pub fn made(file: &str, open: bool) -> String {
    setup::read_file(file)
        .map_or(String::new(), |setup| sheets::made(&setup.made, open).into_string())
}

/// A setup as a link, without the page's address.
#[wasm_bindgen]
#[must_use]
pub fn link(file: &str) -> String {
    setup::read_file(file).map(|setup| setup::write_link(&setup)).unwrap_or_default()
}

/// The setup in a link, as a file; after a "!" why there is none.
#[wasm_bindgen]
#[must_use]
pub fn unlink(link: &str) -> String {
    match setup::read_link(link) {
        Ok(setup) => setup::write_file(&setup),
        Err(why) => format!("!{why}"),
    }
}

/// A setup as it will be printed, for the page at an address.
#[wasm_bindgen]
#[must_use]
pub fn paper(file: &str, address: &str, back: &str) -> String {
    let Ok(setup) = setup::read_file(file) else { return String::new() };
    let url = format!("{address}#{}", setup::write_link(&setup));
    let shop = Shop::new(setup.shop.clone());
    let (name, note) = (setup.name.clone(), setup.note.clone());
    let work = Work::of(setup);
    sheets::paper(&sheets::Paper {
        name: &name,
        note: &note,
        shop: shop.name(),
        answers: &work.answers,
        url: &url,
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
            {"kind":"size","process":"turn","from":"12 mm","to":"9.9 mm","length":"25 mm"}]}"#;
        setup.operations = setup::read_file(size).unwrap().operations;
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
        assert_eq!(find(0, 1, "cut 1 of 9, roughing"), 1);
        assert_eq!(meaning("cut 2 of 13, to size"), "cut 2 to size");
        assert_eq!(meaning("Division 7 of 24"), "Division 7");
        // What was said of a step is told again at that step.
        setup.operations[0].forget_measured();
        let said = setup::said(0, "cut 1 of 99, roughing", "went-wrong", "the tool rubbed");
        setup.made = vec![setup::made("2026-03-03 10:00:00", "2026-03-03 11:00:00", &[said])];
        assert_eq!(put_on_bench(&setup::write_file(&setup)), lens);
        let told = bench("Pin", "#setup/x", 0, 1, "", "", "", "", false, false);
        assert!(told.contains("Last time: went wrong: the tool rubbed"), "{told}");
        assert!(made(&setup::write_file(&setup), false).contains("Last made 3 March 2026"));
    }

    #[test]
    fn a_setup_from_elsewhere_stands_beside_itself() {
        let theirs = setup::read_file(EXAMPLE).unwrap();
        let mut mine = theirs.clone();
        let file = setup::write_file(&theirs);
        let alike = beside(&file, &file);
        assert!(alike.contains("3 the same, 0 set otherwise"), "{alike}");
        let lead = latheside_core::record::Entry { text: "8 tpi", unit: None };
        mine.shop.change("lathe", |lathe| lathe.enter("leadscrew", lead)).unwrap().unwrap();
        mine.shop.set("dividing", None);
        let apart = beside(&file, &setup::write_file(&mine));
        assert!(apart.contains("1 the same, 1 set otherwise, <b>1 can't be done"), "{apart}");
        assert!(apart.contains("1. Screw-cut 3/8 BSF") && apart.contains("2. Divide"), "{apart}");
        assert!(shop_told(&file).contains("The leadscrew is 3 mm"), "{}", shop_told(&file));
        assert!(!shop_told(&file).contains("gearbox"), "what isn't said isn't told");
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
