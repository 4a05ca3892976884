use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;

/// Milliseconds since 1970.
pub(crate) fn now() -> f64 {
    js_sys::Date::now()
}

/// Something that is to happen later; dropping it calls it off.
pub(crate) struct Timer {
    handle: i32,
    _what: Closure<dyn FnMut()>,
}

/// Does something once, so many milliseconds from now.
pub(crate) fn after(milliseconds: i32, what: impl FnMut() + 'static) -> Option<Timer> {
    let what = Closure::<dyn FnMut()>::new(what);
    let handle = web_sys::window()?
        .set_timeout_with_callback_and_timeout_and_arguments_0(
            what.as_ref().unchecked_ref(),
            milliseconds,
        )
        .ok()?;
    Some(Timer { handle, _what: what })
}

impl Drop for Timer {
    fn drop(&mut self) {
        if let Some(window) = web_sys::window() {
            window.clear_timeout_with_handle(self.handle);
        }
    }
}
