//! The clock, and the little of the page that is drawn from here. Off a browser, time stands still.

#[cfg(not(target_arch = "wasm32"))]
pub(crate) use elsewhere::*;
#[cfg(target_arch = "wasm32")]
pub(crate) use page::*;

#[cfg(target_arch = "wasm32")]
mod page {
    use std::cell::Cell;
    use wasm_bindgen::JsCast;
    use wasm_bindgen::closure::Closure;
    use web_sys::{Blob, Document, Element, HtmlAnchorElement, Url};

    thread_local! {
        static WAITING: Cell<bool> = const { Cell::new(false) };
        static LISTENING: Cell<bool> = const { Cell::new(false) };
    }

    fn document() -> Option<Document> {
        web_sys::window()?.document()
    }

    fn element(id: &str) -> Option<Element> {
        document()?.get_element_by_id(id)
    }

    /// Now, in ms since some time.
    pub(crate) fn now() -> f64 {
        web_sys::window().and_then(|window| window.performance()).map_or(0.0, |clock| clock.now())
    }

    /// Does something once the page has had its turn; asked for twice, it is done once.
    pub(crate) fn later(what: fn()) {
        if WAITING.replace(true) {
            return;
        }
        let turn = Closure::once_into_js(move || {
            WAITING.set(false);
            what();
        });
        if let Some(window) = web_sys::window() {
            let _ = window.set_timeout_with_callback(turn.unchecked_ref());
        }
    }

    /// Does something at the next frame.
    pub(crate) fn soon(what: fn()) {
        let frame = Closure::once_into_js(what);
        if let Some(window) = web_sys::window() {
            let _ = window.request_animation_frame(frame.unchecked_ref());
        }
    }

    /// Hears every tap on something that has `data-work`, from the first call on.
    pub(crate) fn listen(what: fn(&str)) {
        if LISTENING.replace(true) {
            return;
        }
        let tap = Closure::<dyn Fn(web_sys::Event)>::new(move |event: web_sys::Event| {
            let on = event.target().and_then(|target| target.dyn_into::<Element>().ok());
            let on = on.and_then(|on| on.closest("[data-work]").ok().flatten());
            if let Some(words) = on.and_then(|on| on.get_attribute("data-work")) {
                what(&words);
            }
        });
        if let Some(document) = document() {
            let _ =
                document.add_event_listener_with_callback("click", tap.as_ref().unchecked_ref());
        }
        tap.forget();
    }

    /// Whether an element of that name stands on the page.
    pub(crate) fn stands(id: &str) -> bool {
        element(id).is_some()
    }

    /// The names of the folds that are open in it.
    pub(crate) fn open_folds(id: &str) -> Vec<String> {
        let found = element(id).and_then(|on| on.query_selector_all("details[open]").ok());
        let found = found.iter().flat_map(|list| (0..list.length()).filter_map(|at| list.item(at)));
        found
            .filter_map(|node| node.dyn_into::<Element>().ok()?.get_attribute("data-fold"))
            .collect()
    }

    /// Says in the progress that stands in it how far work has come.
    pub(crate) fn tell_progress(id: &str, words: &str, done: u64) {
        let Some(on) = element(id) else { return };
        if let Ok(Some(said)) = on.query_selector(".how-far") {
            said.set_text_content(Some(words));
        }
        if let Ok(Some(bar)) = on.query_selector("progress") {
            let _ = bar.set_attribute("value", &done.to_string());
        }
    }

    /// Draws in it; the focus stays on the key that it was on.
    pub(crate) fn put(id: &str, html: &str) {
        let Some(on) = element(id) else { return };
        let focused = document().and_then(|document| document.active_element());
        let key = focused.filter(|key| on.contains(Some(key)));
        let key = key.and_then(|key| key.get_attribute("data-work"));
        on.set_inner_html(html);
        // Stopped or going on, it is the same key.
        let again = key.and_then(|key| {
            let name = if key.starts_with("csv") { "csv" } else { "" };
            on.query_selector(&format!("[data-work^=\"{name}\"]")).ok().flatten()
        });
        if let Some(again) = again.and_then(|again| again.dyn_into::<web_sys::HtmlElement>().ok()) {
            let _ = again.focus();
        }
    }

    /// Offers a text as a file.
    pub(crate) fn save(name: &str, text: &str) {
        let _ = (|| {
            let parts = js_sys::Array::of1(&text.into());
            let blob = Blob::new_with_str_sequence(&parts).ok()?;
            let anchor = document()?.create_element("a").ok()?;
            let anchor: HtmlAnchorElement = anchor.dyn_into().ok()?;
            anchor.set_href(&Url::create_object_url_with_blob(&blob).ok()?);
            anchor.set_download(name);
            anchor.click();
            Some(())
        })();
    }
}

#[cfg(not(target_arch = "wasm32"))]
mod elsewhere {
    /// Time stands still: what is begun is finished in one go.
    pub(crate) fn now() -> f64 {
        0.0
    }

    pub(crate) fn later(_: fn()) {}

    pub(crate) fn listen(_: fn(&str)) {}

    pub(crate) fn stands(_: &str) -> bool {
        false
    }

    pub(crate) fn open_folds(_: &str) -> Vec<String> {
        Vec::new()
    }

    pub(crate) fn tell_progress(_: &str, _: &str, _: u64) {}

    pub(crate) fn put(_: &str, _: &str) {}

    pub(crate) fn save(_: &str, _: &str) {}
}
