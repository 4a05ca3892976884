//! One keypad for every blank: digits and units for a quantity, words for a choice, the device's
//! own keyboard for a name.

use crate::platform;
use crate::state::{Desk, Editing, Library, Target};
use latheside_core::quantity::{Measure, Quantity, show};
use latheside_core::record::{Choice, Piece, Shape};
use latheside_core::shop::Shop;
use leptos::prelude::*;

/// What kind of keys a shape wants.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Keys {
    Number { point: bool, fraction: bool, list: bool },
    Words,
    Choices,
}

fn keys_of(shape: &Shape) -> Keys {
    match shape {
        Shape::Quantity(Measure::Ratio, _) => {
            Keys::Number { point: true, fraction: true, list: false }
        }
        Shape::Quantity(..) => Keys::Number { point: true, fraction: true, list: false },
        Shape::Count(..) => Keys::Number { point: false, fraction: false, list: false },
        Shape::Choice(_) | Shape::Flag => Keys::Choices,
        Shape::Text(_) | Shape::Named(..) | Shape::Record(_) => Keys::Words,
        Shape::List(inner, ..) => match inner {
            Shape::Named(..) => Keys::Words,
            Shape::Quantity(..) => Keys::Number { point: true, fraction: true, list: true },
            _ => Keys::Number { point: false, fraction: false, list: true },
        },
        Shape::Pair(_) => Keys::Number { point: true, fraction: false, list: true },
    }
}

/// The units that a shape's keypad offers: what the key says, and what it types.
fn unit_keys(shape: &Shape) -> Vec<(&'static str, &'static str)> {
    match shape.measure() {
        Some(Measure::Length) => vec![("mm", " mm"), ("in", " in"), ("thou", " thou")],
        Some(Measure::Lead) => vec![("mm", " mm"), ("tpi", " tpi"), ("in", " in")],
        Some(Measure::Angle) => vec![("°", "°"), ("′", "′"), ("″", "″")],
        _ => Vec::new(),
    }
}

/// The sheet with the keys, there while a blank is being filled in.
#[component]
pub(crate) fn Keypad() -> impl IntoView {
    let desk = expect_context::<Desk>();
    view! {
        <Show when=move || desk.editing.read().is_some()>
            {move || desk.editing.get().map(|editing| view! { <Sheet editing /> })}
        </Show>
    }
}

#[component]
fn Sheet(editing: Editing) -> impl IntoView {
    let desk = expect_context::<Desk>();
    let library = expect_context::<Library>();
    let shape = editing.shape;
    let keys = keys_of(shape);
    let target = editing.target.clone();
    let key = editing.key;
    let next = {
        let target = target.clone();
        move || match next_blank(library, &target, key) {
            Some(next) => desk.open(library, target.clone(), next),
            None => desk.close(),
        }
    };
    let complaint = {
        let target = target.clone();
        move || {
            library
                .complaints(&target)
                .into_iter()
                .find(|(label, _)| *label == editing.label)
                .map(|(_, why)| why)
        }
    };
    let wrong = complaint.clone();
    let beside = {
        let target = target.clone();
        move || beside(library, &target, key)
    };
    // The field takes the focus as soon as it is there.
    Effect::new(move |_| {
        desk.editing.track();
        platform::focus("keypad-field");
    });
    let on_key = {
        let next = next.clone();
        move |event: leptos::ev::KeyboardEvent| match event.key().as_str() {
            "Enter" => {
                event.prevent_default();
                next();
            }
            "Escape" => desk.close(),
            _ => {}
        }
    };
    let mode = if keys == Keys::Words { "text" } else { "none" };
    let body = match keys {
        Keys::Choices => choices(shape, desk, library).into_any(),
        Keys::Words => suggestions(target.clone(), key, desk, library).into_any(),
        Keys::Number { point, fraction, list } => {
            number_keys(shape, point, fraction, list, desk, library).into_any()
        }
    };
    let field = (keys != Keys::Choices).then(|| {
        view! {
            <div class="pad-row">
                <input
                    id="keypad-field"
                    type="text"
                    inputmode=mode
                    autocomplete="off"
                    autocapitalize="off"
                    spellcheck="false"
                    aria-label=editing.label
                    aria-describedby="keypad-said"
                    aria-invalid=move || wrong().is_some().to_string()
                    prop:value=move || desk.text.get()
                    class:fresh=move || desk.fresh.get()
                    on:input=move |event| desk.typed(library, event_target_value(&event))
                    on:keydown=on_key
                />
                <button
                    type="button"
                    class="pad-key rub"
                    aria-label="rub out"
                    on:click=move |_| desk.rub(library)
                >
                    "⌫"
                </button>
            </div>
        }
    });
    view! {
        <section class="pad" role="group" aria-label=format!("Entry: {}", editing.label)>
            <div class="pad-head">
                <h2 id="keypad-label">{editing.label}</h2>
                <p id="keypad-said" class="pad-said" aria-live="polite">
                    {move || match complaint() {
                        Some(why) => view! { <span class="complaint">{why}</span> }.into_any(),
                        None => view! { <span>{beside()}</span> }.into_any(),
                    }}
                </p>
            </div>
            {field}
            {body}
            <div class="pad-row pad-foot">
                <button type="button" class="pad-key" on:click=move |_| desk.close()>"Done"</button>
                <button type="button" class="pad-key brass" on:click=move |_| next()>"Next blank"</button>
            </div>
        </section>
    }
}

fn number_keys(
    shape: &'static Shape,
    point: bool,
    fraction: bool,
    list: bool,
    desk: Desk,
    library: Library,
) -> impl IntoView {
    let press = move |face: &'static str, types: &'static str| {
        view! {
            <button type="button" class="pad-key" on:click=move |_| desk.key(library, types)>
                {face}
            </button>
        }
    };
    let digits = ["7", "8", "9", "4", "5", "6", "1", "2", "3"];
    let digits = digits.map(|digit| press(digit, digit)).collect_view();
    let mut side: Vec<(&'static str, &'static str)> = unit_keys(shape);
    if list {
        side.push((",", ", "));
        if !point {
            side.extend([("to", "-"), ("by", " by "), ("2×", "×")]);
            side.retain(|(face, _)| *face != "2×");
            side.push(("×", "×"));
            side.push((";", "; "));
        }
    }
    if fraction && !list {
        side.push(("space", " "));
    }
    let side = side.into_iter().map(|(face, types)| press(face, types)).collect_view();
    view! {
        <div class="pad-keys">
            <div class="pad-digits">
                {digits}
                {if point { press(".", ".").into_any() } else { view! { <span></span> }.into_any() }}
                {press("0", "0")}
                {if fraction { press("/", "/").into_any() } else { view! { <span></span> }.into_any() }}
            </div>
            <div class="pad-side">{side}</div>
        </div>
    }
}

fn choices(shape: &'static Shape, desk: Desk, library: Library) -> impl IntoView {
    let words: Vec<&'static str> = match shape {
        Shape::Choice(choices) => choices.iter().map(|choice: &Choice| choice.words).collect(),
        _ => vec!["yes", "no"],
    };
    let keys = words.into_iter().enumerate().map(|(at, words)| {
        let id = (at == 0).then_some("keypad-field");
        view! {
            <button
                type="button"
                id=id
                class="pad-key choice"
                aria-pressed=move || (desk.text.get() == words).to_string()
                on:click=move |_| {
                    desk.typed(library, words.to_owned());
                    desk.close();
                }
                on:keydown=move |event| if event.key() == "Escape" { desk.close() }
            >
                {words}
            </button>
        }
    });
    view! {
        <div class="pad-choices">
            {keys.collect_view()}
            <button
                type="button"
                class="pad-key choice"
                on:click=move |_| {
                    desk.typed(library, String::new());
                    desk.close();
                }
            >
                "leave out"
            </button>
        </div>
    }
}

fn suggestions(target: Target, key: &'static str, desk: Desk, library: Library) -> impl IntoView {
    let list = move || {
        let text = desk.text.get();
        let found = match &target {
            Target::Operation { setup, at } => library
                .setup(setup)
                .and_then(|saved| saved.setup.operations.get(*at).cloned())
                .map(|operation| {
                    let shop = Shop::new(library.shop_of(setup));
                    // Before anything is typed over it, the old entry narrows nothing down.
                    let typed = if desk.fresh.get() { "" } else { &text };
                    operation.suggest(key, typed, &shop)
                })
                .unwrap_or_default(),
            Target::Shop(_) => Vec::new(),
        };
        found
            .into_iter()
            .filter(|word| *word != text)
            .map(|word| {
                let typed = word.clone();
                view! {
                    <button
                        type="button"
                        class="pad-key choice"
                        on:click=move |_| {
                            desk.typed(library, typed.clone());
                            desk.close();
                        }
                    >
                        {word}
                    </button>
                }
            })
            .collect_view()
    };
    view! { <div class="pad-choices">{list}</div> }
}

/// What is said beside a good entry: the other system, and the unit that was assumed.
fn beside(library: Library, target: &Target, key: &str) -> String {
    let find = |record: &latheside_core::record::Record| {
        let field = record.spec().field(key)?;
        let unit_hint = match &field.shape {
            Shape::Count(least, most) => format!("{least} to {most}"),
            Shape::List(inner, ..) if matches!(inner, Shape::List(..)) => {
                "15-20; 21, 23, 27: a plate's circles with commas, plates with semicolons"
                    .to_owned()
            }
            Shape::List(inner, ..) if matches!(inner, Shape::Count(..)) => {
                "20-80 by 5, 127, or 2×20".to_owned()
            }
            Shape::List(inner, ..) if matches!(inner, Shape::Named(..)) => {
                "70, 110 (back gear, belt 1): the machine's own word in brackets".to_owned()
            }
            Shape::Pair(_) => "the least, a comma, the most".to_owned(),
            _ => String::new(),
        };
        Some(match record.quantity(key) {
            Some(q) => said_of(q),
            None => unit_hint,
        })
    };
    match target {
        Target::Operation { setup, at } => {
            library.setup(setup).and_then(|saved| find(&saved.setup.operations.get(*at)?.entries))
        }
        Target::Shop(path) => library.shop().change(path, |form| find(form)).flatten(),
    }
    .unwrap_or_default()
}

fn said_of(q: &Quantity) -> String {
    let other = show::in_the_other_system(q).map(|other| format!("= {other}")).unwrap_or_default();
    if q.assumed() { format!("{} {other}", q.text()) } else { other }
}

/// The blank after this one in its sentence.
fn next_blank(library: Library, target: &Target, key: &str) -> Option<&'static str> {
    let Target::Operation { setup, at } = target else { return None };
    let saved = library.setup(setup)?;
    let pieces = saved.setup.operations.get(*at)?.sentence().pieces;
    let keys: Vec<&'static str> = pieces
        .iter()
        .filter_map(|piece| match piece {
            Piece::Blank { key, .. } => Some(*key),
            Piece::Words(_) => None,
        })
        .collect();
    let here = keys.iter().position(|other| *other == key)?;
    keys.get(here + 1).copied()
}
