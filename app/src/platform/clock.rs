/// The clock on the wall, to the second: `2026-03-03 14:05:09`.
pub(crate) fn wall() -> String {
    let now = js_sys::Date::new_0();
    let here = now.get_time() - now.get_timezone_offset() * 60_000.0;
    let text = js_sys::Date::new(&here.into()).to_iso_string();
    String::from(text).chars().take(19).map(|c| if c == 'T' { ' ' } else { c }).collect()
}

/// Milliseconds since 1970.
pub(crate) fn now() -> f64 {
    js_sys::Date::now()
}
