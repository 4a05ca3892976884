use super::setup::{CAME_TO_GRIEF, WORKING};
use crate::live::{Live, drawn};
use crate::platform;
use crate::state::{Folds, Library, Said, one_file};
use latheside_core::setup::{self, Setup};
use latheside_core::shop::Shop;
use latheside_sheets as sheets;
use leptos::prelude::*;

/// The room of a setup that came by link: shown, and saved only on a tap.
#[component]
pub(crate) fn LinkRoom(link: String) -> impl IntoView {
    let library = expect_context::<Library>();
    let said = expect_context::<Said>();
    let folds = expect_context::<Folds>();
    let opened = StoredValue::new(setup::read_link(&link));
    said.own.set(false);
    let sheet = drawn(move || {
        opened.with_value(|opened| match opened {
            Ok(setup) => shown(setup, library, said, folds),
            Err(why) => sheets::no_link(&why.to_string()).into_string(),
        })
    });
    view! { <Live class="part" id="link".to_owned() sheet /> }
}

fn shown(setup: &Setup, library: Library, said: Said, folds: Folds) -> String {
    let theirs = Shop::new(setup.shop.clone());
    let mine = Shop::new(library.shop());
    let own = said.own.get() || setup.shop.is_empty();
    let shop = if own { &mine } else { &theirs };
    let works = said.works.get();
    let answers = setup.operations.iter().enumerate().map(|(at, operation)| {
        if !works {
            return WORKING.to_owned();
        }
        let file = one_file(operation.clone(), shop.record().clone());
        let answer = platform::works::answer(&file, "link", at, &folds.open(), false);
        answer.unwrap_or_else(|| CAME_TO_GRIEF.to_owned())
    });
    let answers: Vec<String> = answers.collect();
    let whose = (!setup.shop.is_empty()).then(|| sheets::whose(theirs.name(), mine.name(), own));
    sheets::from_link(setup, whose, &answers).into_string()
}
