use leptos::prelude::*;

/// A menu behind three dots.
#[component]
pub(crate) fn Menu(
    /// What it is the menu of, for a reader.
    label: String,
    /// Its keys.
    children: Children,
) -> impl IntoView {
    let (open, set_open) = signal(false);
    view! {
        <div class="menu">
            <button
                type="button"
                class="dots"
                aria-label=label
                aria-expanded=move || open.get().to_string()
                on:click=move |_| set_open.update(|open| *open = !*open)
            >
                <span aria-hidden="true">"⋯"</span>
            </button>
            <div
                class="menu-list"
                hidden=move || !open.get()
                on:click=move |_| set_open.set(false)
                on:keydown=move |event| if event.key() == "Escape" { set_open.set(false) }
            >
                {children()}
            </div>
        </div>
    }
}

/// A key of a menu.
#[component]
pub(crate) fn MenuKey(
    /// What it does.
    label: &'static str,
    /// Does it.
    act: impl Fn() + 'static,
) -> impl IntoView {
    view! { <button type="button" class="menu-key" on:click=move |_| act()>{label}</button> }
}
