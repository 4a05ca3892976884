//! What a person does, told in plain words: a tap on something with an act, a key, a field typed in.

use super::dom::listen;
use super::files::pick_file;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlInputElement, HtmlTextAreaElement, KeyboardEvent, PointerEvent};

fn target(event: &Event) -> Option<Element> {
    event.target()?.dyn_into().ok()
}

fn closest(event: &Event, selector: &str) -> Option<Element> {
    target(event)?.closest(selector).ok()?
}

/// Calls back with the act of what was tapped, with a fold that is being opened or shut, and when
/// more than one finger is down.
pub(crate) fn on_tap(
    act: impl Fn(String) + 'static,
    fold: impl Fn(String, bool) + 'static,
    fingers: impl Fn() + 'static,
) {
    listen("click", move |event| {
        let tapped = closest(&event, "[data-do]");
        // A menu shuts when anything else is touched, or once it has served.
        let menu = closest(&event, "details.menu");
        shut_menus(if tapped.is_some() { None } else { menu.as_ref() });
        if let Some(summary) = closest(&event, "summary")
            && let Some(details) = summary.parent_element()
            && let Some(name) = details.get_attribute("data-fold")
        {
            // The browser opens or shuts it after this.
            fold(name, !details.has_attribute("open"));
        }
        if let Some(words) = tapped.and_then(|element| element.get_attribute("data-do")) {
            act(words);
        }
    });
    listen("pointerdown", move |event| {
        if event.dyn_ref::<PointerEvent>().is_some_and(|pointer| !pointer.is_primary()) {
            fingers();
        }
    });
}

fn shut_menus(but: Option<&Element>) {
    let document = web_sys::window().and_then(|window| window.document());
    let Some(open) = document.and_then(|d| d.query_selector_all("details.menu[open]").ok()) else {
        return;
    };
    for at in 0..open.length() {
        if let Some(menu) = open.get(at).and_then(|node| node.dyn_into::<Element>().ok())
            && but != Some(&menu)
        {
            menu.remove_attribute("open").ok();
        }
    }
}

/// Calls back with a key and whether it was pressed in a field; a key that was taken does nothing
/// else.
pub(crate) fn on_key(what: impl Fn(String, bool) -> bool + 'static) {
    listen("keydown", move |event| {
        let Some(key) = event.dyn_ref::<KeyboardEvent>() else { return };
        if key.alt_key() || key.ctrl_key() || key.meta_key() || key.repeat() {
            return;
        }
        let on = target(&event).map(|element| element.tag_name()).unwrap_or_default();
        let in_field = on == "INPUT" || on == "TEXTAREA";
        // Space on a key or a fold is the browser's own.
        let on_key = matches!(on.as_str(), "BUTTON" | "SUMMARY" | "A");
        let name = key.key();
        if (on_key && (name == " " || name == "Enter")) || (in_field && name == " ") {
            return;
        }
        if what(name, in_field) {
            event.prevent_default();
        }
    });
}

/// Calls back with a field's name and what now stands in it.
pub(crate) fn on_typed(what: impl Fn(String, String) + 'static) {
    listen("input", move |event| {
        let Some(element) = target(&event) else { return };
        let Some(name) = element.get_attribute("data-field") else { return };
        let text = match element.dyn_ref::<HtmlInputElement>() {
            Some(field) => field.value(),
            None => element.dyn_ref::<HtmlTextAreaElement>().map(|t| t.value()).unwrap_or_default(),
        };
        what(name, text);
    });
}

/// Calls back with the text of a file that was chosen.
pub(crate) fn on_file(what: impl Fn(Option<String>) + Clone + 'static) {
    listen("change", move |event| {
        let Some(field) = target(&event).and_then(|e| e.dyn_into::<HtmlInputElement>().ok()) else {
            return;
        };
        if field.get_attribute("data-field").as_deref() == Some("import") {
            pick_file(&field, what.clone());
        }
    });
}
