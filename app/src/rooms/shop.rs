//! What is owned, as sentences with blanks.

use crate::parts::{Menu, MenuKey, SentenceView};
use crate::state::{Library, Target, Theme};
use latheside_core::record::{Record, sentence};
use latheside_core::shop::{SECTIONS, SHOP, Section, Shop, contradictions};
use leptos::prelude::*;

/// The room of the shop.
#[component]
pub(crate) fn ShopRoom() -> impl IntoView {
    let library = expect_context::<Library>();
    let name = move || library.shop().text("name").unwrap_or_default().to_owned();
    let rename = move |event| {
        let name: String = event_target_value(&event).chars().take(90).collect();
        library.enter(&Target::Shop(String::new()), "name", &name);
    };
    let sections = move || {
        let shop = library.shop();
        let wrong = contradictions(&Shop::new(shop.clone()));
        SECTIONS.iter().map(|section| section_view(section, &shop, &wrong)).collect_view()
    };
    let grounds = Theme::ALL.map(|theme| {
        view! {
            <button
                type="button"
                class="key"
                aria-pressed=move || (library.theme() == theme).to_string()
                on:click=move |_| library.set_theme(theme)
            >
                {theme.label()}
            </button>
        }
    });
    view! {
        <header class="head">
            <h1 tabindex="-1" id="title" class="hidden">"Shop"</h1>
            <input class="name" type="text" aria-label="name of the shop" placeholder="Name this shop" maxlength="90" prop:value=name on:input=rename />
            <Menu label="this shop: more".to_owned()>
                <MenuKey label="Start from nothing" act=move || library.empty_shop() />
                <MenuKey label="Bring the last one back" act=move || library.last_shop() />
            </Menu>
        </header>
        <p class="small">"What you own. Leave out what you don't; an operation that needs it will ask."</p>
        <div class="sections">{sections}</div>
        <section class="section">
            <h2>"The ground it is drawn on"</h2>
            <div class="grounds">{grounds.collect_view()}</div>
        </section>
    }
}

fn section_view(
    section: &'static Section,
    shop: &Record,
    wrong: &[(&'static str, String)],
) -> impl IntoView + use<> {
    let library = expect_context::<Library>();
    let path = section.path;
    let keys: Vec<&str> =
        section.sentences.iter().flat_map(|(_, template)| keys(template)).collect();
    let complaints = wrong
        .iter()
        .filter(|(at, _)| belongs(at, path, &keys, !section.one_more.is_empty()))
        .map(|(_, why)| view! { <p class="complaint" role="alert">{why.clone()}</p> })
        .collect_view();
    let body = if section.one_more.is_empty() {
        let form = form_at(shop, path);
        let mut words = sentence(&form, section.sentences);
        // A form that several sections share offers in each only what that section speaks of.
        words.more.retain(|(key, _)| keys.contains(key));
        view! { <SentenceView sentence=words target=Target::Shop(path.to_owned()) /> }.into_any()
    } else {
        let (parent, list) = path.rsplit_once('.').unwrap_or(("", path));
        let holder = shop.at(parent);
        let forms: Vec<Record> =
            holder.map(|holder| holder.records(list).cloned().collect()).unwrap_or_default();
        let count = forms.len();
        let rows = forms.into_iter().enumerate().map(|(at, form)| {
            let words = sentence(&form, section.sentences);
            let target = Target::Shop(format!("{path}.{at}"));
            let out = move || {
                library.change_shop(|shop| _ = shop.change(parent, |form| form.remove(list, at)));
            };
            view! {
                <div class="item">
                    <div class="item-body"><SentenceView sentence=words target /></div>
                    <button type="button" class="key take-out" aria-label=format!("take out item {}", at + 1) on:click=move |_| out()>
                        "Take out"
                    </button>
                </div>
            }
        });
        let add = move |_| {
            library.change_shop(|shop| _ = shop.change(&format!("{path}.{count}"), |_| ()));
        };
        view! {
            {rows.collect_view()}
            <button type="button" class="key" on:click=add>{format!("Add {}", section.one_more)}</button>
        }
        .into_any()
    };
    view! {
        <section class="section">
            <h2>{section.title}</h2>
            {body}
            {complaints}
        </section>
    }
}

fn keys(template: &'static str) -> impl Iterator<Item = &'static str> {
    template.split('{').skip(1).filter_map(|tail| tail.split_once('}').map(|(key, _)| key))
}

/// Whether a complaint about a path belongs under a section.
fn belongs(at: &str, path: &str, keys: &[&str], list: bool) -> bool {
    if list {
        return at == path;
    }
    let within = if path.is_empty() { Some(at) } else { at.strip_prefix(path) };
    match within {
        Some("") => true,
        Some(rest) => keys.contains(&rest.trim_start_matches('.')),
        None => false,
    }
}

/// The form at a path, empty where there is none yet.
fn form_at(shop: &Record, path: &str) -> Record {
    shop.at(path).cloned().unwrap_or_else(|| {
        let mut blank = Record::empty(&SHOP);
        blank.change(path, |form| form.clone()).unwrap_or(blank)
    })
}
