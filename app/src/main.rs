//! The page.
// The component macro makes each component `pub` within its module.
#![allow(unreachable_pub)]

mod demo;
mod drawings;
mod parts;
mod place;
mod platform;
mod rooms;
mod state;

use leptos::prelude::*;
use parts::{Keypad, NoticeBar, TitleBlock};
use place::Place;
use rooms::{BenchRoom, LinkRoom, SetupRoom, SetupsRoom, ShopRoom};
use state::{Desk, Here, Library, Notice, Notices, Theme};

fn main() {
    std::panic::set_hook(Box::new(|_| {
        platform::tell_trouble("Something went wrong in its own works.");
    }));
    mount_to_body(Page);
    platform::ready();
}

#[component]
fn Page() -> impl IntoView {
    let notices = Notices(RwSignal::default());
    let library = Library::open(notices);
    let desk = Desk::new();
    let here = Here(RwSignal::new(start(library)));
    provide_context(notices);
    provide_context(library);
    provide_context(desk);
    provide_context(here);

    platform::listen("hashchange", move |_| {
        desk.editing.set(None);
        here.0.set(Place::parse(&platform::fragment()));
    });
    platform::listen("latheside-update", move |_| notices.put_up(Notice::Update));
    if platform::root_has("data-update") {
        notices.put_up(Notice::Update);
    }
    platform::on_stored(move |key| {
        if let Some(name) = state::slots::record_of(&key) {
            library.take_in(name);
        }
    });
    Effect::new(move |_| {
        let theme = library.theme();
        platform::set_root("data-theme", (theme != Theme::Device).then_some(theme.word()));
    });
    // A change of place is told to a reader: the title, and the focus on the sheet's head.
    Effect::new(move |before: Option<Place>| {
        let place = here.0.get();
        platform::set_title(&title(library, &place));
        platform::set_root("data-room", Some(room(&place)));
        if before.is_some_and(|before| before != place) {
            platform::to_top();
            platform::focus("title");
        }
        place
    });
    let sheet = move || match here.0.get() {
        Place::Shop => view! { <ShopRoom /> }.into_any(),
        Place::Setups => view! { <SetupsRoom /> }.into_any(),
        Place::Setup(id) => view! { <SetupRoom id /> }.into_any(),
        Place::Bench(id) => view! { <BenchRoom id /> }.into_any(),
        Place::Link(link) => view! { <LinkRoom link /> }.into_any(),
    };
    let typing = move || desk.editing.read().is_some();
    view! {
        <NoticeBar />
        <main class="sheet" class:typing=typing>{sheet}</main>
        <Keypad />
        <TitleBlock />
    }
}

/// Where a visit begins: where the address says, else at the example on a first visit.
fn start(library: Library) -> Place {
    let place = Place::parse(&platform::fragment());
    match (&place, library.setups().first()) {
        (Place::Setups, Some(saved)) if platform::fragment().len() < 2 => {
            let place = Place::Setup(saved.id.clone());
            platform::replace_fragment(&place.to_string());
            place
        }
        _ => place,
    }
}

fn title(library: Library, place: &Place) -> String {
    let of = |id: &str| {
        library.setup(id).map_or("Setup".to_owned(), |saved| parts::name_of(&saved.setup.name))
    };
    let room = match place {
        Place::Shop => "Shop".to_owned(),
        Place::Setups => "Setups".to_owned(),
        Place::Setup(id) => of(id),
        Place::Bench(id) => format!("Bench: {}", of(id)),
        Place::Link(_) => "A setup from a link".to_owned(),
    };
    format!("{room} · Latheside")
}

fn room(place: &Place) -> &'static str {
    match place {
        Place::Shop => "shop",
        Place::Bench(_) => "bench",
        _ => "setups",
    }
}
