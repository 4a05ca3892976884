//! A setup that came by link: shown, and saved only on a tap.

use crate::parts::{AnswerCard, name_of};
use crate::place::Place;
use crate::platform;
use crate::state::Library;
use latheside_core::operation::Operation;
use latheside_core::setup::{self, Setup};
use latheside_core::shop::Shop;
use leptos::prelude::*;

/// The room of a link.
#[component]
pub(crate) fn LinkRoom(link: String) -> impl IntoView {
    match setup::read_link(&link) {
        Ok(setup) => view! { <Opened setup /> }.into_any(),
        Err(why) => view! {
            <header class="head"><h1 tabindex="-1" id="title">"This link can't be opened"</h1></header>
            <p class="complaint" role="alert">{why.to_string()}</p>
            <p>"Nothing here has been changed."</p>
            <a class="key" href="#setups">"My setups"</a>
        }
        .into_any(),
    }
}

#[component]
fn Opened(setup: Setup) -> impl IntoView {
    let library = expect_context::<Library>();
    let theirs = Shop::new(setup.shop.clone());
    let theirs_name = theirs.name().to_owned();
    let has_shop = !setup.shop.is_empty();
    let (own, set_own) = signal(!has_shop);
    let operations = setup.operations.clone();
    let cards = move || {
        let shop = if own.get() { Shop::new(library.shop()) } else { theirs.clone() };
        operations
            .iter()
            .enumerate()
            .map(|(at, operation)| one(at, operation, &shop))
            .collect_view()
    };
    let save = {
        let setup = setup.clone();
        move |_| {
            let mut setup = setup.clone();
            let own = own.get_untracked();
            if own && !has_shop {
                setup.shop = library.shop();
            }
            let id = library.add(setup, own);
            platform::replace_fragment(&Place::Setup(id).to_string());
        }
    };
    let mine = move || format!("{}, my own", Shop::new(library.shop()).name());
    view! {
        <header class="head"><h1 tabindex="-1" id="title">{name_of(&setup.name)}</h1></header>
        <p class="small">"Opened from a link. Nothing is saved until you say so."</p>
        {(!setup.note.is_empty()).then(|| view! { <p class="note">{setup.note.clone()}</p> })}
        <div class="whose" role="group" aria-label="worked for which shop">
            <span>"Worked for"</span>
            <button type="button" class="key" aria-pressed=move || (!own.get()).to_string() on:click=move |_| set_own.set(false)>
                {theirs_name}
            </button>
            <button type="button" class="key" aria-pressed=move || own.get().to_string() on:click=move |_| set_own.set(true)>
                {mine}
            </button>
        </div>
        {cards}
        <button type="button" class="key brass wide start" on:click=save>"Save this setup"</button>
    }
}

fn one(at: usize, operation: &Operation, shop: &Shop) -> impl IntoView + use<> {
    let answer = operation.answer(shop);
    view! {
        <section class="op">
            <div class="balloon" aria-hidden="true">{at + 1}</div>
            <div class="op-body">
                <p class="sentence">{operation.sentence().plain()}</p>
                <AnswerCard answer stale=None />
            </div>
        </section>
    }
}
