use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Blob, HtmlAnchorElement, HtmlInputElement, Url};

/// Offers a text for saving as a file.
pub(crate) fn save_file(name: &str, text: &str) -> bool {
    (|| {
        let document = web_sys::window()?.document()?;
        let parts = js_sys::Array::of1(&text.into());
        let blob = Blob::new_with_str_sequence(&parts).ok()?;
        let url = Url::create_object_url_with_blob(&blob).ok()?;
        let anchor: HtmlAnchorElement = document.create_element("a").ok()?.dyn_into().ok()?;
        anchor.set_href(&url);
        anchor.set_download(name);
        // The browser takes it in its own time: its address stays until the page goes.
        anchor.click();
        Some(())
    })()
    .is_some()
}

/// More than a setup file may have, in bytes: such a file isn't even read.
const TOO_LARGE: f64 = 4_000_000.0;

/// The text of the file just chosen in a file field, in its own time; none where it can't be had.
pub(crate) fn pick_file(field: &HtmlInputElement, what: impl Fn(Option<String>) + Clone + 'static) {
    let Some(file) = field.files().and_then(|files| files.get(0)) else { return };
    // A backup holds many: what it holds is looked at one by one.
    let most =
        if file.name().starts_with("latheside-backup") { 10.0 * TOO_LARGE } else { TOO_LARGE };
    if file.size() > most {
        field.set_value("");
        return what(None);
    }
    // So that the same file can be chosen again.
    let field = field.clone();
    let refused = what.clone();
    let done = Closure::once(move |text: wasm_bindgen::JsValue| {
        field.set_value("");
        what(text.as_string());
    });
    let failed = Closure::once(move |_: wasm_bindgen::JsValue| refused(None));
    let _ = file.text().then2(&done, &failed);
    done.forget();
    failed.forget();
}
