//! The works: what a setup comes to, as HTML, for a page that holds only its words.
//!
//! The page draws its sentences at once and asks here for the rest; each call takes a setup file's
//! text and gives text back, so nothing is shared but strings.

mod bench;
#[cfg(any(target_arch = "wasm32", test))]
mod pulse;
#[cfg(target_arch = "wasm32")]
mod sound;
mod under_way;
mod watch;

pub use bench::{answer_next, bench, find, lay_out, lens, put_on_bench, title};

use latheside_core::operation::{Answer, Operation};
use latheside_core::setup;
use latheside_core::shop::Shop;
use latheside_kept as kept;
use latheside_sheets as sheets;
use std::cell::RefCell;
use wasm_bindgen::prelude::wasm_bindgen;

/// The last good answer under a name, and what it was for.
type Last = Vec<(String, String, Answer)>;

thread_local! {
    static LAST: RefCell<Last> = const { RefCell::new(Vec::new()) };
}

/// As many last good answers are remembered.
const REMEMBERED: usize = 32;

/// Hears the taps on what is drawn here, and the folds that open in it, from the start.
#[wasm_bindgen(start)]
fn start() {
    watch::listen(tapped);
    watch::listen_to_folds(under_way::opened);
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
    let folds = sheets::Folds { of: at, open: &is_open, later: false };
    if unread {
        // What is typed isn't understood: the last good answer stays, plainly out of force.
        return sheets::answer(&answer, Some(&words), &setup.shop, folds).into_string();
    }
    let mut html = sheets::answer(&answer, None, &setup.shop, folds).into_string();
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
            let folds = sheets::Folds { of: &at, ..folds };
            let before = sheets::answer(before, Some(words), &setup.shop, folds);
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

/// Everything that a storage holds, given as JSON, as one file.
#[wasm_bindgen]
#[must_use]
pub fn backup(storage: &str) -> String {
    kept::Held::of(storage).map_or(String::new(), |held| kept::backup(&held))
}

/// What of a storage, given as JSON, has to be set or taken away for a backup to be back: pairs of
/// a key and its text, unit separators within and record separators between; or, behind an
/// exclamation mark, why nothing is changed.
#[wasm_bindgen]
#[must_use]
pub fn restore(storage: &str, file: &str) -> String {
    let Some(before) = kept::Held::of(storage) else {
        return "!nothing can be kept on this device: nothing was changed".to_owned();
    };
    let after = before.clone();
    match kept::restore(&after, file) {
        Ok(_) => after.since(&before),
        Err(why) => format!("!{why}"),
    }
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
        let long = under_way::within(op, shop.record(), bench::PATIENCE);
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
    let work = bench::Work::of(setup);
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

/// The rows of one of a setup's operations, as far as they are known soon, as a file of comma-separated
/// values; empty where it has none.
#[wasm_bindgen]
#[must_use]
pub fn rows(file: &str, at: usize) -> String {
    let Ok(setup) = setup::read_file(file) else { return String::new() };
    let Some(operation) = setup.operations.get(at) else { return String::new() };
    let long = under_way::within(operation, &setup.shop, bench::PATIENCE);
    let answer = long.unwrap_or_else(|| operation.answer(&Shop::new(setup.shop.clone())));
    answer.found.and_then(|found| found.csv()).unwrap_or_default()
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
    use latheside_kept::EXAMPLE;

    fn one(at: usize) -> setup::Setup {
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
        // A figure stays with its unit.
        assert!(refused.contains("This was for: Divide Ø\u{a0}32\u{a0}mm into 24"), "{refused}");
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
    fn rows_are_kept_from_whatever_has_them() {
        for (operation, heads, row) in [
            // 25.4 mm in two: by hand.
            (
                r#"{"kind": "space", "places": 3, "pitch": "12.7 mm"}"#,
                "place,from the first (mm),dial,left over",
                ",12.7,",
            ),
            // ISO 261: the coarse pitch of M10 is 1.5 mm.
            (r#"{"kind": "chart", "of": "threads"}"#, "", "\r\nM10,1.5,"),
        ] {
            let text =
                EXAMPLE.replace(r#""operations": ["#, &format!(r#""operations": [{operation},"#));
            let mut setup = setup::read_file(&text).unwrap();
            let rows = rows(&setup::write_file(&setup), 0);
            assert!(rows.starts_with(heads) && rows.contains(row), "{rows}");
            setup.operations.truncate(1);
            let html = answer(&setup::write_file(&setup), "a 7", "7", "rows-7", false);
            assert!(html.contains("data-do=\"rows 7\""), "{html}");
        }
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
        assert!(bench::put_on_bench("[]").is_empty());
        assert_eq!(paper("", "", ""), "");
        assert_eq!(square(&"x".repeat(5000)), "");
        assert_eq!(strip("", 0), "");
        assert_eq!(strip(EXAMPLE, 0), "");
        assert_eq!(strip(EXAMPLE, 9), "");
        assert_eq!(rows("", 0), "");
        assert_eq!(rows(EXAMPLE, 0), "");
        assert_eq!(rows(EXAMPLE, 9), "");
        assert!(suggest(&setup::write_file(&one(0)), "designation", "M10").contains("M10"));
    }
}
