//! A sheet on the screen, drawn again whenever what it is made from changes.

use crate::platform;
use leptos::prelude::*;

/// A sheet's HTML, worked again when what it reads has changed; all of one type, so that one memo's
/// machinery serves them.
pub(crate) fn drawn(sheet: impl Fn() -> String + Send + Sync + 'static) -> Memo<String> {
    let sheet: Box<dyn Fn() -> String + Send + Sync> = Box::new(sheet);
    Memo::new(move |_| sheet())
}

/// Does something now, and again whenever what it reads has changed.
pub(crate) fn follow(what: impl Fn() + 'static) {
    let what: Box<dyn Fn()> = Box::new(what);
    Effect::new(move |_| what());
}

/// An element that holds a sheet's HTML. The focus stays on what it was on.
#[component]
pub(crate) fn Live(
    /// Its class.
    class: &'static str,
    /// Its name.
    id: String,
    /// Its HTML.
    sheet: Memo<String>,
) -> impl IntoView {
    let name = id.clone();
    follow(move || platform::draw(&name, &sheet.read()));
    view! { <div class=class id=id></div> }
}
