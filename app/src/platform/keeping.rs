//! Asking the device to keep what is saved, and to put the page among its own programs.

use super::share::{method, settled};
use js_sys::Reflect;
use wasm_bindgen::{JsCast, JsValue};

fn of_window(name: &str) -> Option<JsValue> {
    let window: JsValue = web_sys::window()?.into();
    let found = Reflect::get(&window, &name.into()).ok()?;
    (!found.is_undefined() && !found.is_null()).then_some(found)
}

/// Whether the device has said that it keeps what is saved here; `ask` asks it to.
pub(crate) fn kept(ask: bool, what: impl Fn(bool) + 'static) {
    let called = of_window("navigator").and_then(|navigator| {
        let storage = Reflect::get(&navigator, &"storage".into()).ok()?;
        let name = if ask { "persist" } else { "persisted" };
        method(&storage, name)?.call0(&storage).ok()?.dyn_into().ok()
    });
    settled(called, move |said| what(said.is_ok_and(|said| said.is_truthy())));
}

/// Whether the browser offers to install the page.
pub(crate) fn can_install() -> bool {
    of_window("lathesideInstall").is_some()
}

/// Takes up the browser's offer.
pub(crate) fn install() {
    if let Some(offer) = of_window("lathesideInstall")
        && let Some(prompt) = method(&offer, "prompt")
    {
        prompt.call0(&offer).ok();
    }
}
