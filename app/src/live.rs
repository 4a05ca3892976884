//! A sheet on the screen, drawn again whenever what it is made from changes.

use crate::platform;
use leptos::prelude::*;

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
    Effect::new(move |_| platform::draw(&name, &sheet.read()));
    view! { <div class=class id=id></div> }
}
