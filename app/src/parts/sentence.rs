use super::Blank;
use crate::state::{Desk, Library, Target};
use latheside_core::record::{Piece, Sentence};
use leptos::prelude::*;

/// A form as its sentence, with what is wrong under it and what may be added.
#[component]
pub(crate) fn SentenceView(sentence: Sentence, target: Target) -> impl IntoView {
    let library = expect_context::<Library>();
    let desk = expect_context::<Desk>();
    let pieces = sentence.pieces.into_iter().map({
        let target = target.clone();
        move |piece| match piece {
            Piece::Words(words) => view! { <span>{words}</span> }.into_any(),
            Piece::Blank { key, label, text, assumed } => {
                view! { <Blank target=target.clone() key label text assumed /> }.into_any()
            }
        }
    });
    let pieces = pieces.collect_view();
    let complaints = library
        .complaints(&target)
        .into_iter()
        .map(|(label, why)| view! { <p class="complaint" role="alert">{format!("{label}: {why}")}</p> })
        .collect_view();
    let more = sentence.more;
    let add = (!more.is_empty()).then(|| {
        let keys = more.into_iter().map(|(key, label)| {
            let target = target.clone();
            view! {
                <button
                    type="button"
                    class="add"
                    id=target.element(key)
                    on:click=move |_| desk.open(library, target.clone(), key)
                >
                    {label}
                </button>
            }
        });
        view! {
            <details class="more">
                <summary>"more to say"</summary>
                <div class="adds">{keys.collect_view()}</div>
            </details>
        }
    });
    view! {
        <p class="sentence">{pieces}</p>
        {complaints}
        {add}
    }
}
