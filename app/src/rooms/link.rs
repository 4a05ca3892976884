use crate::live::Live;
use crate::sheets;
use crate::state::{Folds, Library, Said};
use latheside_core::setup::{self, Setup};
use latheside_core::shop::Shop;
use leptos::prelude::*;
use maud::html;

/// The room of a setup that came by link: shown, and saved only on a tap.
#[component]
pub(crate) fn LinkRoom(link: String) -> impl IntoView {
    let library = expect_context::<Library>();
    let said = expect_context::<Said>();
    let folds = expect_context::<Folds>();
    let opened = StoredValue::new(setup::read_link(&link));
    said.own.set(false);
    let sheet = Memo::new(move |_| {
        opened.with_value(|opened| match opened {
            Ok(setup) => shown(setup, library, said.own.get(), folds),
            Err(why) => html! {
                header class="head" { h1 id="title" tabindex="-1" { "This link can't be opened" } }
                p class="complaint" role="alert" { (why.to_string()) }
                p class="small" { "Nothing here has been changed." }
                a class="key" href="#setups" { "My setups" }
            }
            .into_string(),
        })
    });
    view! { <Live class="part" id="link".to_owned() sheet /> }
}

fn shown(setup: &Setup, library: Library, own: bool, folds: Folds) -> String {
    let theirs = Shop::new(setup.shop.clone());
    let mine = Shop::new(library.shop());
    let own = own || setup.shop.is_empty();
    let shop = if own { &mine } else { &theirs };
    html! {
        header class="head" { h1 id="title" tabindex="-1" { (sheets::name_of(&setup.name)) } }
        p class="small" { "Opened from a link. Nothing is saved until you say so." }
        @if !setup.note.is_empty() { p class="note" { (setup.note) } }
        @if !setup.shop.is_empty() { (sheets::whose(theirs.name(), mine.name(), own)) }
        @for (at, operation) in setup.operations.iter().enumerate() {
            div class="op" {
                (sheets::operation(
                    &sheets::OperationSheet {
                        at,
                        operation,
                        answer: &operation.answer(shop),
                        last: None,
                        shop: shop.record(),
                        drafts: &[],
                        editing: None,
                        fixed: true,
                    },
                    &|fold| folds.is_open(fold),
                ))
            }
        }
        button type="button" class="key brass wide start" data-do=(crate::act::Act::SaveLink) {
            "Save this setup"
        }
    }
    .into_string()
}
