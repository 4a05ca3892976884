use js_sys::{Function, Object, Promise, Reflect};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};

/// What became of a link that was to be shared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Shared {
    /// The system's own sheet took it.
    Sheet,
    /// It is on the clipboard.
    Copied,
    /// Neither: it is shown to be copied by hand.
    Shown,
}

/// Shares a link through the system's sheet, or else the clipboard, and says which.
pub(crate) fn share(title: &str, url: &str, what: impl Fn(Shared) + Clone + 'static) {
    let Some(window) = web_sys::window() else { return };
    let navigator = window.navigator();
    let sheet = method(&navigator, "share");
    if let Some(sheet) = sheet {
        let data = Object::new();
        Reflect::set(&data, &"title".into(), &title.into()).ok();
        Reflect::set(&data, &"url".into(), &url.into()).ok();
        let called = sheet.call1(&navigator, &data).ok().and_then(|p| p.dyn_into().ok());
        let (url, then) = (url.to_owned(), what.clone());
        settled(called, move |outcome| match outcome {
            Ok(_) => then(Shared::Sheet),
            // Put away by the person: that is an answer too.
            Err(why) if error_name(&why) == "AbortError" => {}
            Err(_) => copy(&url, then.clone()),
        });
    } else {
        copy(url, what);
    }
}

fn copy(url: &str, what: impl Fn(Shared) + 'static) {
    let clipboard = web_sys::window()
        .and_then(|window| Reflect::get(&window.navigator(), &"clipboard".into()).ok())
        .filter(|clipboard| !clipboard.is_undefined());
    let called = clipboard.and_then(|clipboard| {
        method(&clipboard, "writeText")?.call1(&clipboard, &url.into()).ok()?.dyn_into().ok()
    });
    settled(called, move |outcome| {
        what(if outcome.is_ok() { Shared::Copied } else { Shared::Shown });
    });
}

pub(super) fn method(object: &JsValue, name: &str) -> Option<Function> {
    Reflect::get(object, &name.into()).ok()?.dyn_into().ok()
}

fn error_name(error: &JsValue) -> String {
    Reflect::get(error, &"name".into()).ok().and_then(|name| name.as_string()).unwrap_or_default()
}

/// Calls back once with how a promise ended; a promise that never was ended badly.
pub(super) fn settled(promise: Option<Promise>, what: impl Fn(Result<JsValue, JsValue>) + 'static) {
    let Some(promise) = promise else {
        what(Err(JsValue::UNDEFINED));
        return;
    };
    let what = std::rc::Rc::new(what);
    let bad = what.clone();
    let good = Closure::once(move |said: JsValue| what(Ok(said)));
    let failed = Closure::once(move |why: JsValue| bad(Err(why)));
    let _ = promise.then2(&good, &failed);
    good.forget();
    failed.forget();
}
