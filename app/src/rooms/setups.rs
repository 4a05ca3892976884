//! The list of saved setups.

use crate::parts::name_of;
use crate::place::Place;
use crate::platform;
use crate::state::Library;
use latheside_core::operation::KINDS;
use latheside_core::setup::{self, Setup};
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;

/// The room of all setups.
#[component]
pub(crate) fn SetupsRoom() -> impl IntoView {
    let library = expect_context::<Library>();
    let said = RwSignal::new(None::<String>);
    let list = move || {
        library
            .setups()
            .into_iter()
            .map(|saved| {
                let to = Place::Setup(saved.id.clone()).to_string();
                let lines = saved.setup.operations.iter().map(|op| op.sentence().plain());
                let first: Vec<String> = lines.take(3).collect();
                let more = saved.setup.operations.len().saturating_sub(3);
                let running = library.run(&saved.id).is_some_and(|run| !run.finished);
                view! {
                    <li class="entry">
                        <a href=to>
                            <h2>{name_of(&saved.setup.name)}</h2>
                            {first.into_iter().map(|line| view! { <p>{line}</p> }).collect_view()}
                            {(more > 0).then(|| view! { <p>{format!("and {more} more")}</p> })}
                            {running.then(|| view! { <p class="running">"on the bench"</p> })}
                        </a>
                    </li>
                }
            })
            .collect_view()
    };
    let begin = move |_| {
        let id = library.add_own(Setup::default());
        platform::go(&Place::Setup(id).to_string());
    };
    let back = move || {
        library.gone().map(|gone| {
            view! {
                <p class="undo" role="status">
                    {format!("{} was deleted. ", name_of(&gone.setup.name))}
                    <button type="button" class="key" on:click=move |_| library.bring_back()>
                        "Bring it back"
                    </button>
                </p>
            }
        })
    };
    let link = RwSignal::new(String::new());
    let open_link = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        match setup::read_link(&link.get_untracked()) {
            Ok(setup) => {
                said.set(None);
                platform::go(&Place::Link(setup::write_link(&setup)).to_string());
            }
            Err(why) => said.set(Some(why.to_string())),
        }
    };
    let import = move |event: leptos::ev::Event| {
        let Some(field) = event.target().and_then(|field| field.dyn_into().ok()) else { return };
        platform::pick_file(&field, move |text| match text.map(|text| setup::read_file(&text)) {
            Some(Ok(setup)) => {
                said.set(None);
                let id = library.add(setup, false);
                platform::go(&Place::Setup(id).to_string());
            }
            Some(Err(why)) => said.set(Some(format!("That file can't be opened: {why}"))),
            None => said.set(Some("That file can't be read.".to_owned())),
        });
    };
    view! {
        <header class="head"><h1 tabindex="-1" id="title">"Setups"</h1></header>
        {back}
        {move || said.get().map(|why| view! { <p class="complaint" role="alert">{why}</p> })}
        <ul class="entries">{list}</ul>
        <button type="button" class="key brass wide" on:click=begin>"New setup"</button>
        <details class="fold">
            <summary>"Open a link or a file"</summary>
            <form class="paste" on:submit=open_link>
                <label for="paste">"A link that somebody sent"</label>
                <input
                    id="paste"
                    type="text"
                    autocomplete="off"
                    spellcheck="false"
                    prop:value=move || link.get()
                    on:input=move |event| link.set(event_target_value(&event))
                />
                <button type="submit" class="key">"Open the link"</button>
            </form>
            <label class="key file" for="import">"Open a setup file"</label>
            <input id="import" class="hidden-file" type="file" accept="application/json,.json" on:change=import />
        </details>
        <p class="small">{format!("{} kinds of operation; everything is worked out on this device.", KINDS.len())}</p>
    }
}
