//! What only a browser can show: storage, focus, the address and taps, as the page uses them.

use crate::platform::{self, Browser};
use latheside_kept::slots::{self, Keeper as _};
use latheside_sheets::act::Act;
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};
use web_sys::{Document, Element, HtmlElement, HtmlInputElement};

wasm_bindgen_test_configure!(run_in_browser);

fn document() -> Document {
    web_sys::window().unwrap().document().unwrap()
}

/// An element of this name at the end of the page, with this in it.
fn stand(name: &str, html: &str) -> Element {
    let element = document().create_element("div").unwrap();
    element.set_id(name);
    element.set_inner_html(html);
    document().body().unwrap().append_child(&element).unwrap();
    element
}

fn tap(selector: &str) {
    let found = document().query_selector(selector).unwrap().unwrap();
    found.dyn_into::<HtmlElement>().unwrap().click();
}

#[wasm_bindgen_test]
fn records_are_kept_and_a_damaged_one_is_set_aside() {
    assert!(Browser::works());
    slots::write(&Browser, "trial", "older").unwrap();
    slots::write(&Browser, "trial", "newer, Ø 32 mm").unwrap();
    assert_eq!(slots::read(&Browser, "trial").content.as_deref(), Some("newer, Ø 32 mm"));
    assert_eq!(slots::names(&Browser, "tri"), ["trial"]);
    let whole = Browser.get("latheside.trial.b").unwrap();
    assert!(Browser.set("latheside.trial.b", &whole.replace("32", "23")));
    let kept = slots::read(&Browser, "trial");
    assert_eq!((kept.content.as_deref(), kept.set_aside), (Some("older"), true));
    let aside = slots::aside(&Browser);
    assert!(aside.iter().any(|(_, text)| text.contains("Ø 23 mm")), "{aside:?}");
    slots::forget(&Browser, "trial");
    for (key, _) in aside {
        Browser.remove(&key);
    }
    assert_eq!(slots::names(&Browser, "tri"), Vec::<String>::new());
}

#[wasm_bindgen_test]
fn a_sheet_drawn_again_leaves_the_focus_where_it_was() {
    let sheet = stand("redrawn", "");
    let keys = |word: &str| {
        format!(
            "<button data-do=\"type 7\">{word}</button><button id=\"blank-0-lead\">{word}</button>"
        )
    };
    let focused = || document().active_element().unwrap().text_content().unwrap();
    for selector in ["[data-do='type 7']", "#blank-0-lead"] {
        platform::draw("redrawn", &keys("before"));
        let key = sheet.query_selector(selector).unwrap().unwrap();
        key.dyn_into::<HtmlElement>().unwrap().focus().unwrap();
        platform::draw("redrawn", &keys("after"));
        assert_eq!(focused(), "after", "{selector}");
        assert!(document().active_element().unwrap().matches(selector).unwrap());
    }
    sheet.remove();
}

#[wasm_bindgen_test]
fn a_fresh_field_is_typed_over() {
    let stood = stand("typed", "<input id=\"trial-field\">");
    let field: HtmlInputElement =
        stood.query_selector("input").unwrap().unwrap().dyn_into().unwrap();
    let selected = || (field.selection_start().unwrap(), field.selection_end().unwrap());
    platform::set_field("trial-field", "22 mm", true);
    assert_eq!((field.value().as_str(), selected()), ("22 mm", (Some(0), Some(5))));
    assert!(field.class_list().contains("fresh"));
    platform::set_field("trial-field", "3", false);
    assert_eq!(field.value(), "3");
    assert!(!field.class_list().contains("fresh"));
    platform::set_invalid("trial-field", true);
    assert_eq!(field.get_attribute("aria-invalid").as_deref(), Some("true"));
    stood.remove();
}

#[wasm_bindgen_test]
fn a_replaced_fragment_is_told_like_any_other() {
    let told = Rc::new(Cell::new(0));
    let count = Rc::clone(&told);
    platform::listen("hashchange", move |_| count.set(count.get() + 1));
    platform::replace_fragment("#setups");
    assert_eq!((platform::fragment().as_str(), told.get()), ("#setups", 1));
    assert!(!platform::address().contains('#'), "{}", platform::address());
}

#[wasm_bindgen_test]
fn a_tap_hands_on_the_act_of_what_it_fell_within() {
    let (acts, folds) = (Rc::new(RefCell::new(Vec::new())), Rc::new(RefCell::new(Vec::new())));
    let (heard, opened) = (Rc::clone(&acts), Rc::clone(&folds));
    platform::on_tap(
        move |act| heard.borrow_mut().push(act),
        move |fold, open| opened.borrow_mut().push((fold, open)),
        || {},
    );
    let act = Act::Blank("lathe.dials.cross".into(), "division".into());
    let stood = stand(
        "tapped",
        &format!(
            "<button data-do=\"{act}\"><b>0.02 mm</b></button>
             <details data-fold=\"why-0\"><summary>why</summary></details>
             <details class=\"menu\" open><summary>more</summary></details>"
        ),
    );
    tap("#tapped b");
    assert_eq!(Act::parse(&acts.borrow()[0]), Some(act));
    let menu = document().query_selector("#tapped .menu").unwrap().unwrap();
    assert!(!menu.has_attribute("open"), "a menu shuts when anything else is touched");
    tap("#tapped [data-fold] summary");
    assert_eq!(*folds.borrow(), [("why-0".to_owned(), true)]);
    tap("#tapped [data-fold] summary");
    assert_eq!(folds.borrow()[1], ("why-0".to_owned(), false));
    assert_eq!(acts.borrow().len(), 1);
    stood.remove();
}

#[wasm_bindgen_test]
fn the_example_is_worked_out_on_this_machine_too() {
    let setup = latheside_core::setup::read_file(latheside_kept::EXAMPLE).unwrap();
    let shop = latheside_core::shop::Shop::new(setup.shop.clone());
    for operation in &setup.operations {
        let answer = operation.answer(&shop);
        assert_eq!(answer.refused, None, "{}", operation.sentence().plain());
        let found = answer.found.unwrap();
        assert!(!found.card().lines.is_empty() && !found.steps().is_empty());
    }
}
