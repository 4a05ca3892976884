use crate::state::{Desk, Library, Target};
use leptos::prelude::*;

/// A blank in a sentence: what stands in it, or what is asked for, to be tapped.
#[component]
pub(crate) fn Blank(
    target: Target,
    key: &'static str,
    label: &'static str,
    text: Option<String>,
    assumed: bool,
) -> impl IntoView {
    let library = expect_context::<Library>();
    let desk = expect_context::<Desk>();
    let draft = library.draft(&target, key);
    let unread = draft.is_some();
    let shown = draft.or(text);
    let empty = shown.as_ref().is_none_or(String::is_empty);
    let shown = shown.filter(|text| !text.is_empty()).unwrap_or_else(|| label.to_owned());
    let spoken = if empty { format!("{label}: not entered") } else { format!("{label}: {shown}") };
    let here = target.clone();
    let open =
        move || desk.editing.read().as_ref().is_some_and(|e| e.key == key && e.target == here);
    let id = target.element(key);
    view! {
        <button
            type="button"
            id=id
            class="blank"
            class:blank-empty=empty
            class:blank-assumed=assumed
            class:blank-unread=unread
            class:blank-open=open
            aria-label=spoken
            on:click=move |_| desk.open(library, target.clone(), key)
        >
            {shown}
        </button>
    }
}
