/// Milliseconds since 1970.
pub(crate) fn now() -> f64 {
    js_sys::Date::now()
}
