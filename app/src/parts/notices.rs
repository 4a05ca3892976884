use crate::platform;
use crate::state::{Notice, Notices};
use leptos::prelude::*;

/// The notices across the head of the sheet.
#[component]
pub(crate) fn NoticeBar() -> impl IntoView {
    let notices = expect_context::<Notices>();
    let list = move || {
        notices.0.get().into_iter().map(|notice| {
            let update = notice == Notice::Update;
            view! {
                <div class="notice" role="status">
                    <p>{notice.words()}</p>
                    {update.then(|| view! {
                        <button type="button" class="key" on:click=move |_| platform::update_now()>
                            "Update"
                        </button>
                    })}
                    <button type="button" class="key" on:click=move |_| notices.take_down(notice)>
                        {if update { "Later" } else { "Seen" }}
                    </button>
                </div>
            }
        })
        .collect_view()
    };
    view! { <div class="notices">{list}</div> }
}
