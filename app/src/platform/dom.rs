use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::HtmlElement;

fn document() -> Option<web_sys::Document> {
    web_sys::window()?.document()
}

/// The fragment of the address, its `#` included.
pub(crate) fn fragment() -> String {
    web_sys::window().and_then(|window| window.location().hash().ok()).unwrap_or_default()
}

/// The address without its fragment.
pub(crate) fn address() -> String {
    let href = web_sys::window().and_then(|window| window.location().href().ok());
    let href = href.unwrap_or_default();
    href.split_once('#').map_or(href.clone(), |(address, _)| address.to_owned())
}

/// Goes to a fragment; the browser's own back key brings one back.
pub(crate) fn go(fragment: &str) {
    if let Some(window) = web_sys::window() {
        window.location().set_hash(fragment).ok();
    }
}

/// Puts a fragment in the place of the present one, which is forgotten.
pub(crate) fn replace_fragment(fragment: &str) {
    if let Some(window) = web_sys::window()
        && let Ok(history) = window.history()
    {
        history.replace_state_with_url(&wasm_bindgen::JsValue::NULL, "", Some(fragment)).ok();
        // Nobody is told of a replaced fragment: the page is.
        if let Ok(event) = web_sys::Event::new("hashchange") {
            window.dispatch_event(&event).ok();
        }
    }
}

/// The page's title.
pub(crate) fn set_title(title: &str) {
    if let Some(document) = document() {
        document.set_title(title);
    }
}

/// Sets an attribute of the whole page; none takes it away.
pub(crate) fn set_root(name: &str, value: Option<&str>) {
    let Some(root) = document().and_then(|document| document.document_element()) else { return };
    match value {
        Some(value) => root.set_attribute(name, value).ok(),
        None => root.remove_attribute(name).ok(),
    };
}

/// Whether the whole page carries an attribute.
pub(crate) fn root_has(name: &str) -> bool {
    document()
        .and_then(|document| document.document_element())
        .is_some_and(|root| root.has_attribute(name))
}

/// Says that the page answers: its shell goes.
pub(crate) fn ready() {
    let Some(document) = document() else { return };
    if let Some(shell) = document.get_element_by_id("shell") {
        shell.remove();
    }
    if let Some(body) = document.body() {
        body.set_attribute("data-ready", "").ok();
    }
}

/// Tells `boot.js` of an end, and why it came.
pub(crate) fn tell(event: &str, why: &str) {
    if let Some(window) = web_sys::window()
        && let Ok(event) = web_sys::Event::new(event)
    {
        js_sys::Reflect::set(&event, &"why".into(), &why.into()).ok();
        window.dispatch_event(&event).ok();
    }
}

/// Listens to the window for as long as the page lives.
pub(crate) fn listen(event: &str, what: impl FnMut(web_sys::Event) + 'static) {
    let what = Closure::<dyn FnMut(web_sys::Event)>::new(what);
    if let Some(window) = web_sys::window() {
        window.add_event_listener_with_callback(event, what.as_ref().unchecked_ref()).ok();
    }
    what.forget();
}

/// Calls back when the page is shown or hidden: true for shown.
pub(crate) fn on_visible(mut what: impl FnMut(bool) + 'static) {
    let what = Closure::<dyn FnMut()>::new(move || {
        let hidden = document().is_some_and(|document| document.hidden());
        what(!hidden);
    });
    if let Some(document) = document() {
        document
            .add_event_listener_with_callback("visibilitychange", what.as_ref().unchecked_ref())
            .ok();
    }
    what.forget();
}

fn element(id: &str) -> Option<HtmlElement> {
    document()?.get_element_by_id(id)?.dyn_into().ok()
}

/// Moves the focus to an element.
pub(crate) fn focus(id: &str) {
    if let Some(element) = element(id) {
        element.focus().ok();
    }
}

/// Shows an element, or hides it.
pub(crate) fn show(id: &str, shown: bool) {
    if let Some(element) = element(id) {
        element.set_hidden(!shown);
    }
}

/// Does something once what has changed is on the screen.
pub(crate) fn soon(what: impl FnOnce() + 'static) {
    if let Some(window) = web_sys::window() {
        let what = Closure::once_into_js(what);
        window.request_animation_frame(what.unchecked_ref()).ok();
    }
}

/// Does something in another go: the browser may draw, or hear a touch, before it.
pub(crate) fn then(what: impl FnOnce() + 'static) {
    if let Some(window) = web_sys::window() {
        let what = Closure::once_into_js(what);
        window.set_timeout_with_callback(what.unchecked_ref()).ok();
    }
}

/// Brings an element into view.
pub(crate) fn scroll_to(id: &str) {
    if let Some(element) = element(id) {
        let options = web_sys::ScrollIntoViewOptions::new();
        options.set_block(web_sys::ScrollLogicalPosition::Start);
        element.scroll_into_view_with_scroll_into_view_options(&options);
    }
}

/// Opens the browser's own way of printing.
pub(crate) fn print() {
    if let Some(window) = web_sys::window() {
        window.print().ok();
    }
}

/// Goes to the head of the page.
pub(crate) fn to_top() {
    if let Some(window) = web_sys::window() {
        window.scroll_to_with_x_and_y(0.0, 0.0);
    }
}

/// Calls back with the key that another tab has written or taken away.
pub(crate) fn on_stored(mut what: impl FnMut(String) + 'static) {
    listen("storage", move |event| {
        if let Some(key) =
            event.dyn_into::<web_sys::StorageEvent>().ok().and_then(|event| event.key())
        {
            what(key);
        }
    });
}

/// Lets the newer page take over: only ever after a tap.
pub(crate) fn update_now() {
    if let Some(window) = web_sys::window()
        && let Ok(event) = web_sys::Event::new("latheside-update-now")
    {
        window.dispatch_event(&event).ok();
    }
}

/// Draws a sheet into an element, if it is there; the focus stays on what it was on.
pub(crate) fn draw(id: &str, html: &str) {
    let (Some(document), Some(element)) = (document(), element(id)) else { return };
    let focused = document.active_element().filter(|active| element.contains(Some(active)));
    let again = focused.and_then(|active| {
        let name = active.id();
        if !name.is_empty() {
            return Some(format!("#{name}"));
        }
        let act = active.get_attribute("data-do")?;
        Some(format!("[data-do=\"{}\"]", act.replace(['"', '\\'], "")))
    });
    element.set_inner_html(html);
    if let Some(selector) = again
        && let Ok(Some(found)) = element.query_selector(&selector)
        && let Ok(found) = found.dyn_into::<HtmlElement>()
    {
        found.focus().ok();
    }
}

fn field(id: &str) -> Option<web_sys::HtmlInputElement> {
    element(id)?.dyn_into().ok()
}

/// Moves the focus to a field or a key without bringing it into view.
pub(crate) fn focus_field(id: &str) {
    if let Some(element) = element(id) {
        let options = web_sys::FocusOptions::new();
        options.set_prevent_scroll(true);
        element.focus_with_options(&options).ok();
    }
}

/// Sets the text of a field; a fresh one is to be typed over.
pub(crate) fn set_field(id: &str, text: &str, fresh: bool) {
    if let Some(field) = field(id) {
        if field.value() != text {
            field.set_value(text);
        }
        if fresh {
            field.select();
        }
        field.class_list().toggle_with_force("fresh", fresh).ok();
    }
}

/// Says of a field whether what stands in it is understood.
pub(crate) fn set_invalid(id: &str, invalid: bool) {
    if let Some(element) = element(id) {
        element.set_attribute("aria-invalid", if invalid { "true" } else { "false" }).ok();
    }
}
