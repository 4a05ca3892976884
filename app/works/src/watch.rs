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
    use web_sys::{AbortSignal, AddEventListenerOptions, Document, Element};

    thread_local! {
        static WAITING: Cell<bool> = const { Cell::new(false) };
        /// What the page gives up when these works are over and others stand in their place.
        static LIFE: Option<AbortSignal> =
            web_sys::window().and_then(|on| on.get("lathesideLife")?.dyn_into().ok());
    }

    /// Does what was to be done, unless others do it by now.
    fn alive(what: fn()) {
        if !LIFE.with(|life| life.as_ref().is_some_and(AbortSignal::aborted)) {
            what();
        }
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
            alive(what);
        });
        if let Some(window) = web_sys::window() {
            let _ = window.set_timeout_with_callback(turn.unchecked_ref());
        }
    }

    /// Does something at the next frame.
    pub(crate) fn soon(what: fn()) {
        let frame = Closure::once_into_js(move || alive(what));
        if let Some(window) = web_sys::window() {
            let _ = window.request_animation_frame(frame.unchecked_ref());
        }
    }

    /// Hears every tap on something that has `data-work`.
    pub(crate) fn listen(what: fn(&str)) {
        hear("click", move |on| {
            let on = on.closest("[data-work]").ok().flatten();
            if let Some(words) = on.and_then(|on| on.get_attribute("data-work")) {
                what(&words);
            }
        });
    }

    /// Hears the name of every fold that is opened.
    pub(crate) fn listen_to_folds(what: fn(&str)) {
        hear("toggle", move |fold| {
            let name = fold.get_attribute("data-fold").filter(|_| fold.has_attribute("open"));
            if let Some(name) = name {
                what(&name);
            }
        });
    }

    /// Hears a kind of event on any element, on its way down: not all of them rise again.
    fn hear(kind: &str, what: impl Fn(Element) + 'static) {
        let heard = Closure::<dyn Fn(web_sys::Event)>::new(move |event: web_sys::Event| {
            if let Some(on) = event.target().and_then(|on| on.dyn_into::<Element>().ok()) {
                what(on);
            }
        });
        if let Some(document) = document() {
            let heard = heard.as_ref().unchecked_ref();
            let options = AddEventListenerOptions::new();
            options.set_capture(true);
            LIFE.with(|life| life.iter().for_each(|life| options.set_signal(life)));
            let _ = document.add_event_listener_with_callback_and_add_event_listener_options(
                kind, heard, &options,
            );
        }
        heard.forget();
    }

    /// Draws in a fold what belongs behind its title, where there is nothing yet.
    pub(crate) fn fill(fold: &str, html: &str) {
        let all =
            document().and_then(|on| on.query_selector(&format!("[data-fold=\"{fold}\"]")).ok());
        if let Some(fold) = all.flatten().filter(|fold| fold.child_element_count() == 1) {
            let _ = fold.insert_adjacent_html("beforeend", html);
        }
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

    /// Draws in it; the focus stays on the key or the fold that it was on.
    pub(crate) fn put(id: &str, html: &str) {
        let Some(on) = element(id) else { return };
        let focused = document().and_then(|document| document.active_element());
        let same = focused.filter(|focused| on.contains(Some(focused))).and_then(|focused| {
            // Stopped or going on, it is the same key.
            if focused.has_attribute("data-work") {
                return Some("[data-work]".to_owned());
            }
            let act = focused.get_attribute("data-do");
            let fold = || focused.parent_element()?.get_attribute("data-fold");
            act.map(|act| format!("[data-do=\"{act}\"]"))
                .or_else(|| fold().map(|fold| format!("[data-fold=\"{fold}\"] > summary")))
        });
        on.set_inner_html(html);
        let same = same.and_then(|same| on.query_selector(&same).ok().flatten());
        if let Some(same) = same.and_then(|same| same.dyn_into::<web_sys::HtmlElement>().ok()) {
            let _ = same.focus();
        }
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

    pub(crate) fn listen_to_folds(_: fn(&str)) {}

    pub(crate) fn fill(_: &str, _: &str) {}

    pub(crate) fn stands(_: &str) -> bool {
        false
    }

    pub(crate) fn open_folds(_: &str) -> Vec<String> {
        Vec::new()
    }

    pub(crate) fn tell_progress(_: &str, _: &str, _: u64) {}

    pub(crate) fn put(_: &str, _: &str) {}
}
