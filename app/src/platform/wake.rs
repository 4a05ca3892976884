//! Keeps the screen on while work goes on, where the browser allows it.
//!
//! web-sys has this behind its unstable flags, so it is asked for by name.

use super::share::method;
use js_sys::{Promise, Reflect};
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};

/// A hold on the screen; let go of when dropped.
#[derive(Clone, Default)]
pub(crate) struct WakeLock {
    sentinel: Rc<RefCell<Option<JsValue>>>,
}

impl WakeLock {
    /// Asks for the screen to stay on and says whether it will: none where the browser can't.
    pub(crate) fn ask(&self, what: impl Fn(bool) + 'static) {
        let promise = web_sys::window().and_then(|window| {
            let wake_lock = Reflect::get(&window.navigator(), &"wakeLock".into()).ok()?;
            let promise =
                method(&wake_lock, "request")?.call1(&wake_lock, &"screen".into()).ok()?;
            promise.dyn_into::<Promise>().ok()
        });
        let Some(promise) = promise else {
            what(false);
            return;
        };
        let what = Rc::new(what);
        let refused = what.clone();
        let slot = self.sentinel.clone();
        let good = Closure::once(move |sentinel: JsValue| {
            *slot.borrow_mut() = Some(sentinel);
            what(true);
        });
        let bad = Closure::once(move |_: JsValue| refused(false));
        let _ = promise.then2(&good, &bad);
        good.forget();
        bad.forget();
    }

    /// Lets the screen go dark again.
    pub(crate) fn let_go(&self) {
        if let Some(sentinel) = self.sentinel.borrow_mut().take()
            && let Some(release) = method(&sentinel, "release")
        {
            release.call0(&sentinel).ok();
        }
    }
}
