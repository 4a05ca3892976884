use super::setup::{CAME_TO_GRIEF, WORKING};
use crate::live::{Live, drawn};
use crate::platform;
use crate::state::{Folds, Library, Said, one_file};
use latheside_core::record::Record;
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
    // Opened once, as soon as the works are there.
    let opened = Memo::new(move |_| said.works.get().then(|| platform::works::unlink(&link)));
    said.own.set(false);
    let sheet = drawn(move || match &*opened.read() {
        Some(Some(Ok(setup))) => shown(setup, library, said, folds),
        Some(Some(Err(why))) => sheets::no_link(why).into_string(),
        Some(None) => CAME_TO_GRIEF.to_owned(),
        None => WORKING.to_owned(),
    });
    view! { <Live class="part" id="link".to_owned() sheet /> }
}

/// A setup that came with a shop, worked for that and for this one.
pub(super) fn two_shops(setup: &Setup, mine: Record) -> Option<String> {
    if setup.shop.is_empty() {
        return None;
    }
    let here = Setup { shop: mine, ..setup.clone() };
    platform::works::beside(&setup::write_file(setup), &setup::write_file(&here))
}

fn shown(setup: &Setup, library: Library, said: Said, folds: Folds) -> String {
    let theirs = Shop::new(setup.shop.clone());
    let mine = Shop::new(library.shop());
    let own = said.own.get() || setup.shop.is_empty();
    let shop = if own { &mine } else { &theirs };
    let answers = setup.operations.iter().enumerate().map(|(at, operation)| {
        let file = one_file(operation.clone(), shop.record().clone());
        let answer = platform::works::answer(&file, "link", at, &folds.open(), false);
        answer.unwrap_or_else(|| CAME_TO_GRIEF.to_owned())
    });
    let answers: Vec<String> = answers.collect();
    let both = !setup.shop.is_empty() && !setup.operations.is_empty();
    let whose = both.then(|| sheets::whose(theirs.name(), mine.name(), own));
    let more = match setup.operations.is_empty() {
        true => platform::works::shop_told(&setup::write_file(setup)),
        false if own => two_shops(setup, library.shop()),
        false => None,
    };
    sheets::from_link(setup, whose, &more.unwrap_or_default(), &answers).into_string()
}
