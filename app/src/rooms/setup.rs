use super::link::two_shops;
use crate::live::{Live, drawn};
use crate::platform;
use crate::state::{Desk, Folds, Library, Said, Target, one_file};
use latheside_core::operation::Operation;
use latheside_core::record::Record;
use latheside_core::setup::{self, Setup};
use latheside_core::shop::Shop;
use latheside_kept::{Place, Saved};
use latheside_sheets as sheets;
use leptos::prelude::*;

/// The room of one setup.
#[component]
pub(crate) fn SetupRoom(id: String) -> impl IntoView {
    let library = expect_context::<Library>();
    let said = expect_context::<Said>();
    let folds = expect_context::<Folds>();
    let here = StoredValue::new(id);
    let saved = Memo::new(move |_| library.setup(&here.get_value()));
    let shop = Memo::new(move |_| library.shop_of(&here.get_value()));
    let there = Memo::new(move |_| saved.read().is_some());
    // The name is typed in the head itself: drawing it again would take the caret away.
    let head = drawn(move || {
        if !there.get() {
            return sheets::nothing_on(
                "No such setup here",
                "It may have been deleted, or saved on another device: open it there and share its link.",
                "#setups",
                "All setups",
            )
            .into_string();
        }
        let name = saved.read_untracked().as_ref().map(|saved| saved.setup.name.clone());
        sheets::setup_head(&name.unwrap_or_default()).into_string()
    });
    let above = drawn(move || {
        let mut html = String::new();
        let theirs = saved.read().as_ref().map(|saved| (saved.setup.shop.clone(), saved.own));
        if let Some((shop, own)) = theirs.filter(|(shop, _)| !shop.is_empty()) {
            let mine = Shop::new(library.shop());
            html.push_str(&sheets::whose(Shop::new(shop).name(), mine.name(), own).into_string());
            if let Some(saved) = saved.read().as_ref().filter(|_| own && said.works.get()) {
                let both = two_shops(&saved.setup, library.shop());
                html.push_str(&both.unwrap_or_default());
            }
        }
        let made = saved.read().as_ref().map(|saved| saved.setup.made.clone()).unwrap_or_default();
        if !made.is_empty() && said.works.get() {
            let file = setup::write_file(&Setup { made, ..Setup::default() });
            html.push_str(&platform::works::made(&file, folds.is_open("made")).unwrap_or_default());
        }
        html
    });
    let count =
        Memo::new(move |_| saved.read().as_ref().map_or(0, |saved| saved.setup.operations.len()));
    let order = drawn(move || {
        let Some(saved) = saved.get() else { return String::new() };
        if saved.setup.operations.len() < 2 || !said.works.get() {
            return String::new();
        }
        let made = Vec::new();
        let file = setup::write_file(&Setup { shop: shop.get(), made, ..saved.setup });
        platform::works::order(&file).unwrap_or_default()
    });
    let foot = drawn(move || {
        if !there.get() {
            return String::new();
        }
        let id = here.get_value();
        let unread = saved.read().as_ref().is_some_and(|saved| !saved.drafts.is_empty());
        let note = saved.read_untracked().as_ref().map(|saved| saved.setup.note.clone());
        let place = Place::Bench(id.clone()).to_string();
        let running = library.run(&id).is_some_and(|run| !run.finished);
        let start = (count.get() > 0).then_some((place.as_str(), running));
        let kinds = sheets::kinds(folds.is_open("kinds")).into_string();
        let foot = sheets::setup_foot(
            &note.unwrap_or_default(),
            start,
            &Place::Paper(id).to_string(),
            unread,
            folds.is_open("note"),
        );
        order.get() + &kinds + &foot.into_string() + &shared(said)
    });
    view! {
        <Live class="part" id="setup-head".to_owned() sheet=head />
        <Live class="part" id="setup-above".to_owned() sheet=above />
        <For each=move || 0..count.get() key=|at| *at let(at)>
            <OperationRoom at saved shop />
        </For>
        <Live class="part" id="setup-foot".to_owned() sheet=foot />
    }
}

/// What became of a link that was shared.
pub(crate) fn shared(said: Said) -> String {
    said.shared.get().map_or_else(String::new, |(words, url)| {
        let square = platform::works::square(&url).unwrap_or_default();
        sheets::Shared { words, url: &url, square: &square }.html().into_string()
    })
}

/// One operation: its sentence at once, and under it what the works make of it, worked again only
/// when it or the shop has changed.
#[component]
fn OperationRoom(at: usize, saved: Memo<Option<Saved>>, shop: Memo<Record>) -> impl IntoView {
    let library = expect_context::<Library>();
    let desk = expect_context::<Desk>();
    let folds = expect_context::<Folds>();
    let said = expect_context::<Said>();
    let operation: Memo<Option<Operation>> = Memo::new(move |_| {
        saved.read().as_ref().and_then(|saved| saved.setup.operations.get(at).cloned())
    });
    let id =
        Memo::new(move |_| saved.read().as_ref().map(|saved| saved.id.clone()).unwrap_or_default());
    let drafts = Memo::new(move |_| library.drafts(&Target::Operation { setup: id.get(), at }));
    let sentence = drawn(move || {
        let Some(operation) = operation.get() else { return String::new() };
        let editing = desk.editing.get().filter(|editing| {
            matches!(&editing.target, Target::Operation { at: other, .. } if *other == at)
        });
        sheets::balloon(&sheets::Balloon {
            at,
            operation: &operation,
            drafts: &drafts.read(),
            editing: editing.map(|editing| editing.key),
            fixed: false,
        })
        .into_string()
    });
    let answer = drawn(move || {
        let Some(operation) = operation.get() else { return String::new() };
        if !said.works.get() {
            return WORKING.to_owned();
        }
        let file = one_file(operation, shop.get());
        let unread = !drafts.read().is_empty();
        let name = format!("{} {at}", id.read());
        platform::works::answer(&file, &name, at, &folds.open(), unread)
            .unwrap_or_else(|| CAME_TO_GRIEF.to_owned())
    });
    view! {
        <section class="op" id=format!("op-{at}")>
            <Live class="op-head" id=format!("op-{at}-head") sheet=sentence />
            <Live class="op-answer" id=format!("op-{at}-answer") sheet=answer />
        </section>
    }
}

/// Until the works are there: as high as the screen, so that nothing in view moves when they are.
pub(super) const WORKING: &str = "<p class=\"small working\">Working it out…</p>";
/// Where the works stopped.
pub(super) const CAME_TO_GRIEF: &str = "<p class=\"complaint\" role=\"alert\">This could not be worked out. What you entered is kept: load the page again.</p>";
