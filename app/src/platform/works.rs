//! The works: a module of its own, loaded by `boot.js` once the page stands. Strings in, HTML out.

use js_sys::{Array, Function, Reflect};
use latheside_core::setup::{self, Setup};
use wasm_bindgen::{JsCast, JsValue};

/// Whether the works are there.
pub(crate) fn works_are_in() -> bool {
    works().is_some()
}

fn works() -> Option<JsValue> {
    let window: JsValue = web_sys::window()?.into();
    let works = Reflect::get(&window, &"lathesideWorks".into()).ok()?;
    (!works.is_undefined()).then_some(works)
}

/// Calls one of the works' functions; none where they are not there yet, or the call was their end:
/// then they are started afresh.
fn call(name: &str, arguments: &[JsValue]) -> Option<JsValue> {
    let works = works()?;
    let function: Function = Reflect::get(&works, &name.into()).ok()?.dyn_into().ok()?;
    let list = Array::new();
    for argument in arguments {
        list.push(argument);
    }
    let said = function.apply(&works, &list);
    if let Err(why) = &said {
        let why = why.dyn_ref::<js_sys::Error>().map(|why| String::from(why.message()));
        super::tell("latheside-works-over", &format!("{name}: {}", why.unwrap_or_default()));
    }
    said.ok()
}

fn said(name: &str, arguments: &[JsValue]) -> Option<String> {
    call(name, arguments)?.as_string()
}

/// The answer to the one operation of a setup file, drawn.
pub(crate) fn answer(
    file: &str,
    name: &str,
    at: usize,
    open: &str,
    unread: bool,
) -> Option<String> {
    let at = at.to_string();
    said("answer", &[file.into(), name.into(), at.into(), open.into(), unread.into()])
}

/// What could stand in a blank.
pub(crate) fn suggest(file: &str, key: &str, text: &str) -> Vec<String> {
    let words = said("suggest", &[file.into(), key.into(), text.into()]).unwrap_or_default();
    words.lines().map(str::to_owned).collect()
}

fn counts(name: &str, arguments: &[JsValue]) -> Option<Vec<usize>> {
    let counts: js_sys::Uint32Array = call(name, arguments)?.dyn_into().ok()?;
    Some(counts.to_vec().into_iter().map(|count| count as usize).collect())
}

/// Lays a setup out on the bench, to be worked an operation at a time.
pub(crate) fn lay_out(file: &str) {
    call("lay_out", &[file.into()]);
}

/// Works the next operation on the bench; whether there are more.
pub(crate) fn answer_next() -> bool {
    call("answer_next", &[]).is_some_and(|more| more.is_truthy())
}

/// How many steps each operation on the bench has.
pub(crate) fn lens() -> Option<Vec<usize>> {
    counts("lens", &[])
}

/// Puts a setup on the bench in one go: how many steps each of its operations has.
pub(crate) fn put_on_bench(file: &str) -> Option<Vec<usize>> {
    counts("put_on_bench", &[file.into()])
}

/// What a step is called.
pub(crate) fn title(operation: usize, step: usize) -> String {
    said("title", &[(operation as f64).into(), (step as f64).into()]).unwrap_or_default()
}

/// Where the step of that title is now.
pub(crate) fn find(operation: usize, step: usize, title: &str) -> usize {
    let place = call("find", &[(operation as f64).into(), (step as f64).into(), title.into()]);
    place.and_then(|place| place.as_f64()).map_or(step, |place| place as usize)
}

/// The bench at a step.
pub(crate) fn bench(
    (name, setup): (&str, &str),
    (operation, step): (usize, usize),
    run: &str,
    [ago, changed, lit]: [&str; 3],
    [open, back]: [bool; 2],
) -> Option<String> {
    let (operation, step) = (operation as f64, step as f64);
    let place = [name.into(), setup.into(), operation.into(), step.into()];
    let rest = [run.into(), ago.into(), changed.into(), lit.into(), open.into(), back.into()];
    said("bench", &[&place[..], &rest[..]].concat())
}

/// A setup worked for two shops: both answers side by side.
pub(crate) fn beside(theirs: &str, mine: &str) -> Option<String> {
    said("beside", &[theirs.into(), mine.into()])
}

/// The shop of a file in sentences.
pub(crate) fn shop_told(file: &str) -> Option<String> {
    said("shop_told", &[file.into()])
}

/// Every saved key of the device, as JSON.
fn kept() -> Option<JsValue> {
    let window: JsValue = web_sys::window()?.into();
    let kept: Function = Reflect::get(&window, &"lathesideKept".into()).ok()?.dyn_into().ok()?;
    kept.call0(&window).ok().filter(JsValue::is_string)
}

/// Everything that is kept, as one file.
pub(crate) fn backup() -> Option<String> {
    said("backup", &[kept()?])
}

/// What of the storage is to be set, or taken away, for a backup to be back.
pub(crate) fn restore(text: &str) -> Result<Vec<(String, Option<String>)>, String> {
    let said = kept().and_then(|kept| said("restore", &[kept, text.into()]));
    let said = said.unwrap_or("!it can't be put back here: nothing was changed".to_owned());
    if let Some(why) = said.strip_prefix('!') {
        return Err(why.to_owned());
    }
    let pairs = said.split('\u{1e}').filter_map(|pair| pair.split_once('\u{1f}'));
    let held = |held: &str| (!held.is_empty()).then(|| held.to_owned());
    Ok(pairs.map(|(key, text)| (key.to_owned(), held(text))).collect())
}

/// What the order of a setup's operations spoils.
pub(crate) fn order(file: &str) -> Option<String> {
    said("order", &[file.into()])
}

/// What came of a setup when it was made before.
pub(crate) fn made(file: &str, open: bool) -> Option<String> {
    said("made", &[file.into(), open.into()])
}

/// A setup as it will be printed, for the page at an address.
pub(crate) fn paper(file: &str, address: &str, back: &str) -> Option<String> {
    said("paper", &[file.into(), address.into(), back.into()])
}

/// A setup as a link, without the page's address.
pub(crate) fn link(setup: &Setup) -> Option<String> {
    said("link", &[setup::write_file(setup).into()])
}

/// The setup in a link, or why there is none.
pub(crate) fn unlink(link: &str) -> Option<Result<Setup, String>> {
    let file = said("unlink", &[link.into()])?;
    Some(match file.strip_prefix('!') {
        Some(why) => Err(why.to_owned()),
        None => setup::read_file(&file).map_err(|why| why.to_string()),
    })
}

/// A dial's scale at full size, as a file.
pub(crate) fn strip(file: &str, at: usize) -> Option<String> {
    said("strip", &[file.into(), (at as f64).into()])
}

/// An operation's rows, as a file.
pub(crate) fn rows(file: &str, at: usize) -> Option<String> {
    said("rows", &[file.into(), (at as f64).into()])
}

/// An address as a square that another phone reads.
pub(crate) fn square(url: &str) -> Option<String> {
    said("square", &[url.into()])
}
