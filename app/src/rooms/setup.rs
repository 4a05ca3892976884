use crate::live::Live;
use crate::place::Place;
use crate::sheets;
use crate::state::{Desk, Folds, Library, Said, Saved, Target};
use latheside_core::operation::{Answer, Operation};
use latheside_core::record::Record;
use latheside_core::shop::Shop;
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
    let head = Memo::new(move |_| {
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
    let above = Memo::new(move |_| {
        let mut html = String::new();
        if let Some((words, url)) = said.shared.get() {
            html.push_str(&sheets::Shared { words, url: &url }.html().into_string());
        }
        let theirs = saved.read().as_ref().map(|saved| (saved.setup.shop.clone(), saved.own));
        if let Some((shop, own)) = theirs.filter(|(shop, _)| !shop.is_empty()) {
            let mine = Shop::new(library.shop());
            html.push_str(&sheets::whose(Shop::new(shop).name(), mine.name(), own).into_string());
        }
        html
    });
    let count =
        Memo::new(move |_| saved.read().as_ref().map_or(0, |saved| saved.setup.operations.len()));
    let foot = Memo::new(move |_| {
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
        let foot =
            sheets::setup_foot(&note.unwrap_or_default(), start, unread, folds.is_open("note"));
        kinds + &foot.into_string()
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

/// One operation: worked again only when it or the shop has changed.
#[component]
fn OperationRoom(at: usize, saved: Memo<Option<Saved>>, shop: Memo<Record>) -> impl IntoView {
    let library = expect_context::<Library>();
    let desk = expect_context::<Desk>();
    let folds = expect_context::<Folds>();
    let operation: Memo<Option<Operation>> = Memo::new(move |_| {
        saved.read().as_ref().and_then(|saved| saved.setup.operations.get(at).cloned())
    });
    let drafts = Memo::new(move |_| {
        let id = saved.read().as_ref().map(|saved| saved.id.clone()).unwrap_or_default();
        library.drafts(&Target::Operation { setup: id, at })
    });
    let editing = Memo::new(move |_| {
        let editing = desk.editing.get()?;
        matches!(&editing.target, Target::Operation { at: other, .. } if *other == at)
            .then_some(editing.key)
    });
    let last = StoredValue::new(None::<(String, Answer)>);
    let answer: Memo<Option<Answer>> = Memo::new_with_compare(
        move |_| Some(operation.get()?.answer(&Shop::new(shop.get()))),
        |_, _| true,
    );
    let sheet = Memo::new(move |_| {
        let (Some(operation), Some(answer)) = (operation.get(), answer.get()) else {
            return String::new();
        };
        let drafts = drafts.get();
        if answer.refused.is_none() && drafts.is_empty() {
            last.set_value(Some((operation.sentence().plain(), answer.clone())));
        }
        let last = last.get_value();
        let sheet = sheets::OperationSheet {
            at,
            operation: &operation,
            answer: &answer,
            last: last.as_ref(),
            shop: &shop.read(),
            drafts: &drafts,
            editing: editing.get(),
            fixed: false,
        };
        sheets::operation(&sheet, &|fold| folds.is_open(fold)).into_string()
    });
    view! { <Live class="op" id=format!("op-{at}") sheet /> }
}
