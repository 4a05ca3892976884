//! One setup: its operations as sentences, and under each what this shop makes of it.

use crate::parts::{AnswerCard, Menu, MenuKey, SentenceView, name_of};
use crate::place::Place;
use crate::platform::{self, Shared};
use crate::state::{Library, Saved, Target};
use latheside_core::operation::{Answer, KINDS, Operation};
use latheside_core::setup;
use latheside_core::shop::Shop;
use leptos::prelude::*;

/// The room of one setup.
#[component]
pub(crate) fn SetupRoom(id: String) -> impl IntoView {
    let library = expect_context::<Library>();
    let here = id.clone();
    let there = Memo::new(move |_| library.setup(&here).is_some());
    view! {
        {move || if there.get() {
            view! { <Sheet id=id.clone() /> }.into_any()
        } else {
            view! {
                <header class="head"><h1 tabindex="-1" id="title">"No such setup here"</h1></header>
                <p>"It may have been deleted, or saved on another device: open it there and share its link."</p>
                <a class="key" href="#setups">"All setups"</a>
            }
            .into_any()
        }}
    }
}

#[component]
fn Sheet(id: String) -> impl IntoView {
    let library = expect_context::<Library>();
    let saved = {
        let id = id.clone();
        Memo::new(move |_| library.setup(&id))
    };
    let shop = {
        let id = id.clone();
        Memo::new(move |_| library.shop_of(&id))
    };
    let count =
        Memo::new(move |_| saved.read().as_ref().map_or(0, |saved| saved.setup.operations.len()));
    let operations = {
        let id = id.clone();
        move || {
            (0..count.get())
                .map(|at| view! { <OperationView id=id.clone() at saved shop /> })
                .collect_view()
        }
    };
    let rename = {
        let id = id.clone();
        move |event| {
            let name: String =
                event_target_value(&event).chars().take(setup::LONGEST_NAME).collect();
            library.change(&id, |saved| saved.setup.name = name);
        }
    };
    let note = {
        let id = id.clone();
        move |event| {
            let note: String =
                event_target_value(&event).chars().take(setup::LONGEST_NOTE).collect();
            library.change(&id, |saved| saved.setup.note = note);
        }
    };
    let unfinished =
        Memo::new(move |_| saved.read().as_ref().is_some_and(|saved| !saved.drafts.is_empty()));
    let bench = Place::Bench(id.clone()).to_string();
    let running = {
        let id = id.clone();
        move || library.run(&id).is_some_and(|run| !run.finished)
    };
    let start = move || {
        if count.get() == 0 {
            return None;
        }
        Some(if unfinished.get() {
            view! { <p class="small">"An entry is unfinished: Bench waits until it is."</p> }
                .into_any()
        } else {
            let words = if running() { "Go on at the bench" } else { "Start work" };
            view! { <a class="key brass wide start" href=bench.clone()>{words}</a> }.into_any()
        })
    };
    let shown_name =
        move || saved.read().as_ref().map(|saved| saved.setup.name.clone()).unwrap_or_default();
    let shown_note =
        move || saved.read().as_ref().map(|saved| saved.setup.note.clone()).unwrap_or_default();
    view! {
        <header class="head">
            <h1 tabindex="-1" id="title" class="hidden">{move || name_of(&shown_name())}</h1>
            <input
                class="name"
                type="text"
                aria-label="name of the setup"
                placeholder="Name this setup"
                maxlength=setup::LONGEST_NAME.to_string()
                prop:value=shown_name
                on:input=rename
            />
            <SetupMenu id=id.clone() />
        </header>
        <WhoseShop id=id.clone() saved />
        {operations}
        <AddOperation id=id.clone() />
        <details class="fold">
            <summary>"note"</summary>
            <textarea class="note-text" aria-label="note" rows="3" prop:value=shown_note on:input=note></textarea>
        </details>
        {start}
    }
}

/// What is kept of an answer while the entry is unfinished.
type Last = Option<(String, Answer)>;

#[component]
fn OperationView(
    id: String,
    at: usize,
    saved: Memo<Option<Saved>>,
    shop: Memo<latheside_core::record::Record>,
) -> impl IntoView {
    let library = expect_context::<Library>();
    let operation = Memo::new(move |_| {
        saved.read().as_ref().and_then(|saved| saved.setup.operations.get(at).cloned())
    });
    let drafting = Memo::new(move |_| {
        let form = at.to_string();
        saved
            .read()
            .as_ref()
            .is_some_and(|saved| saved.drafts.iter().any(|draft| draft.form == form))
    });
    // Worked again only when this operation or the shop has changed.
    let last = RwSignal::new(Last::None);
    let answer = Memo::new_with_compare(
        move |_| {
            let operation = operation.get()?;
            let answer = operation.answer(&Shop::new(shop.get()));
            Some((operation.sentence().plain(), answer))
        },
        |_, _| true,
    );
    let target = Target::Operation { setup: id.clone(), at };
    let sentence = {
        let target = target.clone();
        move || {
            // What is half typed stands in the sentence too.
            saved.track();
            operation.get().map(|operation| {
                view! { <SentenceView sentence=operation.sentence() target=target.clone() /> }
            })
        }
    };
    let card = move || {
        let (plain, answer) = answer.get()?;
        let refused = answer.refused.is_some();
        if !refused && !drafting.get() {
            last.set(Some((plain, answer.clone())));
            return Some(view! { <AnswerCard answer stale=None /> }.into_any());
        }
        if drafting.get() {
            return Some(view! { <AnswerCard answer stale=Some(plain) /> }.into_any());
        }
        // Refused: the last good answer stays below, struck through and labelled.
        let before = last.get_untracked().map(|(words, answer)| {
            view! { <AnswerCard answer stale=Some(words) /> }
        });
        Some(view! { <AnswerCard answer stale=None /> {before} }.into_any())
    };
    let number = at + 1;
    let up = {
        let id = id.clone();
        move || library.change(&id, |saved| swap(saved, at, at.wrapping_sub(1)))
    };
    let down = {
        let id = id.clone();
        move || library.change(&id, |saved| swap(saved, at, at + 1))
    };
    let twice = {
        let id = id.clone();
        move || {
            library.change(&id, |saved| {
                if saved.setup.operations.len() < setup::MOST_OPERATIONS
                    && let Some(operation) = saved.setup.operations.get(at).cloned()
                {
                    saved
                        .drafts
                        .iter_mut()
                        .for_each(|draft| shift(draft, |n| if n > at { n + 1 } else { n }));
                    saved.setup.operations.insert(at + 1, operation);
                }
            })
        }
    };
    let gone = RwSignal::new(None::<Operation>);
    let remove = {
        let id = id.clone();
        move || {
            gone.set(operation.get_untracked());
            library.change(&id, |saved| {
                if at < saved.setup.operations.len() {
                    saved.setup.operations.remove(at);
                    saved.drafts.retain(|draft| draft.form != at.to_string());
                    saved
                        .drafts
                        .iter_mut()
                        .for_each(|draft| shift(draft, |n| if n > at { n - 1 } else { n }));
                }
            });
        }
    };
    view! {
        <section class="op" id=format!("op-{at}") aria-label=format!("operation {number}")>
            <div class="balloon" aria-hidden="true">{number}</div>
            <div class="op-body">
                {sentence}
                {card}
            </div>
            <Menu label=format!("operation {number}: more")>
                <MenuKey label="Move up" act=up />
                <MenuKey label="Move down" act=down />
                <MenuKey label="Once more" act=twice />
                <MenuKey label="Take out" act=remove />
            </Menu>
        </section>
    }
}

/// Moves a draft along with its operation.
fn shift(draft: &mut crate::state::Draft, to: impl Fn(usize) -> usize) {
    if let Ok(at) = draft.form.parse::<usize>() {
        draft.form = to(at).to_string();
    }
}

fn swap(saved: &mut Saved, a: usize, b: usize) {
    let len = saved.setup.operations.len();
    if a < len && b < len {
        saved.setup.operations.swap(a, b);
        saved.drafts.iter_mut().for_each(|draft| {
            shift(draft, |n| {
                if n == a {
                    b
                } else if n == b {
                    a
                } else {
                    n
                }
            });
        });
    }
}

#[component]
fn AddOperation(id: String) -> impl IntoView {
    let library = expect_context::<Library>();
    let (open, set_open) = signal(false);
    let kinds = KINDS.iter().map(|kind| {
        let id = id.clone();
        let add = move |_| {
            set_open.set(false);
            let mut at = 0;
            library.change(&id, |saved| {
                at = saved.setup.operations.len();
                if at < setup::MOST_OPERATIONS {
                    saved.setup.operations.push(Operation::new(kind));
                }
            });
            let name = format!("op-{at}");
            // Once it is there.
            leptos::task::spawn_local(async move { platform::scroll_to(&name) });
        };
        view! { <button type="button" class="menu-key" on:click=add>{kind.title}</button> }
    });
    view! {
        <div class="add-op">
            <button
                type="button"
                class="key wide"
                aria-expanded=move || open.get().to_string()
                on:click=move |_| set_open.update(|open| *open = !*open)
            >
                "Add an operation"
            </button>
            <div class="kinds" hidden=move || !open.get()>{kinds.collect_view()}</div>
        </div>
    }
}

#[component]
fn WhoseShop(id: String, saved: Memo<Option<Saved>>) -> impl IntoView {
    let library = expect_context::<Library>();
    move || {
        let saved = saved.get()?;
        if saved.setup.shop.is_empty() {
            return None;
        }
        let theirs = Shop::new(saved.setup.shop.clone()).name().to_owned();
        let mine = Shop::new(library.shop()).name().to_owned();
        let own = saved.own;
        let id = id.clone();
        let choose = move |own: bool| library.change(&id, |saved| saved.own = own);
        let mine_chosen = choose.clone();
        Some(view! {
            <div class="whose" role="group" aria-label="worked for which shop">
                <span>"Worked for"</span>
                <button type="button" class="key" aria-pressed=(!own).to_string() on:click=move |_| choose(false)>
                    {theirs}
                </button>
                <button type="button" class="key" aria-pressed=own.to_string() on:click=move |_| mine_chosen(true)>
                    {format!("{mine}, my own")}
                </button>
            </div>
        })
    }
}

#[component]
fn SetupMenu(id: String) -> impl IntoView {
    let library = expect_context::<Library>();
    let said = RwSignal::new(None::<(Shared, String)>);
    let share = {
        let id = id.clone();
        move || {
            let Some(setup) = library.whole(&id) else { return };
            let url = format!("{}#{}", platform::address(), setup::write_link(&setup));
            let shown = url.clone();
            platform::share(&name_of(&setup.name), &url, move |how| {
                said.set(Some((how, shown.clone())))
            });
        }
    };
    let export = {
        let id = id.clone();
        move || {
            let Some(setup) = library.whole(&id) else { return };
            let name: String = name_of(&setup.name)
                .chars()
                .map(|c| if c.is_alphanumeric() { c } else { '-' })
                .collect();
            platform::save_file(&format!("{name}.latheside.json"), &setup::write_file(&setup));
        }
    };
    let twice = {
        let id = id.clone();
        move || {
            let Some(saved) = library.setup(&id) else { return };
            let mut setup = saved.setup;
            setup.name = format!("{} again", name_of(&setup.name));
            setup.name = setup.name.chars().take(setup::LONGEST_NAME).collect();
            let id = library.add(setup, saved.own);
            platform::go(&Place::Setup(id).to_string());
        }
    };
    let delete = move || {
        library.delete(&id);
        platform::go("#setups");
    };
    let shared = move || {
        said.get().map(|(how, url)| {
            let words = match how {
                Shared::Sheet => "Sent.",
                Shared::Copied => "The link is on the clipboard.",
                Shared::Shown => "Copy this link by hand:",
            };
            view! {
                <div class="shared" role="status">
                    <p>{words}</p>
                    <input type="text" readonly aria-label="the link" prop:value=url />
                    <button type="button" class="key" on:click=move |_| said.set(None)>"Put away"</button>
                </div>
            }
        })
    };
    view! {
        <button type="button" class="key share" on:click=move |_| share()>"Share"</button>
        <Menu label="this setup: more".to_owned()>
            <MenuKey label="Save as a file" act=export />
            <MenuKey label="Duplicate" act=twice />
            <MenuKey label="Delete" act=delete />
        </Menu>
        {shared}
    }
}
