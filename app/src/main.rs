//! The page.
// The component macro makes each component `pub` within its module.
#![allow(unreachable_pub)]

#[cfg(all(test, target_arch = "wasm32"))]
mod in_browser;
mod live;
mod platform;
mod rooms;
mod state;

use latheside_core::record::Record;
use latheside_core::setup::{self, Setup};
use latheside_core::shop::Shop;
use latheside_kept::{Place, Saved, slots};
use latheside_sheets as sheets;
use leptos::prelude::*;
use live::{Live, drawn, follow};
use rooms::{BenchRoom, Hand, LinkRoom, SetupRoom, shared};
use sheets::act::Act;
use state::{Desk, Folds, Here, Library, Notice, Notices, Said, Target, Theme};

fn main() {
    // Where it was, without the folders of whoever built the page.
    std::panic::set_hook(Box::new(|why| {
        let place = why.location().map_or_else(String::new, |at| {
            let file = at.file().rsplit(['/', '\\']).next().unwrap_or_default();
            format!("{file}, line {}: ", at.line())
        });
        let what = why.payload_as_str().unwrap_or_default();
        platform::tell("latheside-trouble", &format!("{place}{what}"));
    }));
    // Each a piece of work of its own, so that a touch is heard between: the module has been made
    // ready, what is kept is read, and the page is drawn.
    platform::then(|| {
        let notices = Notices(RwSignal::default());
        let library = Library::open(notices);
        platform::then(move || mount_to_body(move || view! { <Page library notices /> }));
    });
}

#[component]
fn Page(library: Library, notices: Notices) -> impl IntoView {
    let desk = Desk::new();
    let here = Here(RwSignal::new(start(library)));
    let said = Said::new();
    let folds = Folds::new();
    provide_context(library);
    provide_context(desk);
    provide_context(said);
    provide_context(folds);

    follow(move || {
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
    let notice_bar = drawn(move || {
        let up = notices.0.get().into_iter();
        let up: Vec<_> = up
            .map(|notice| sheets::Notice {
                words: notice.words(),
                update: notice == Notice::Update,
            })
            .collect();
        sheets::notices(&up).into_string()
    });
    let block = drawn(move || title_block(library, &here.0.get()));
    // Two more pieces of work, once the frame stands: what the page listens to, and the room.
    platform::then(move || listen(Hand { library, desk, here, said, notices, folds }));
    let framed = RwSignal::new(false);
    platform::then(move || {
        framed.set(true);
        platform::ready();
    });
    let standing = move || match here.0.get() {
        Place::Shop => shop_room(library, desk, said, folds).into_any(),
        Place::Setups => setups_room(library, said, folds).into_any(),
        Place::Setup(id) => view! { <SetupRoom id /> }.into_any(),
        Place::Bench(id) => view! { <BenchRoom id /> }.into_any(),
        Place::Paper(id) => paper_room(library, said, id).into_any(),
        Place::Link(link) => view! { <LinkRoom link /> }.into_any(),
    };
    let sheet = move || framed.get().then(standing);
    let typing = move || desk.editing.read().is_some();
    view! {
        <Live class="notices" id="notices".to_owned() sheet=notice_bar />
        <main class="sheet" class:typing=typing>{sheet}</main>
        {keypad(library, desk)}
        <nav class="block" aria-label="Rooms"><Live class="cells" id="cells".to_owned() sheet=block /></nav>
    }
}

/// One listener a kind of event, for as long as the page lives.
fn listen(hand: Hand) {
    let Hand { library, desk, here, said, notices, folds } = hand;
    let standing = || Place::parse(&platform::fragment());
    platform::listen("hashchange", move |_| {
        desk.editing.set(None);
        said.shared.set(None);
        here.0.set(standing());
    });
    // Where the person has gone while nobody listened yet.
    if here.0.get_untracked() != standing() {
        here.0.set(standing());
    }
    platform::listen("latheside-works", move |_| said.works.set(platform::works::works_are_in()));
    said.works.set(platform::works::works_are_in());
    platform::listen("latheside-update", move |_| notices.put_up(Notice::Update));
    if platform::root_has("data-update") {
        notices.put_up(Notice::Update);
    }
    platform::on_stored(move |key| {
        if let Some(name) = slots::record_of(&key) {
            library.take_in(name);
        }
    });
    platform::on_tap(
        move |act| {
            if let Some(act) = Act::parse(&act) {
                hand.carry_out(act);
            }
        },
        move |fold, open| folds.note(&fold, open),
        move || hand.deafen(),
    );
    platform::on_key(move |key, in_field| hand.pressed(&key, in_field));
    platform::on_typed(move |field, text| match field.as_str() {
        "keypad" => desk.typed(library, text),
        "paste" => said.pasted.set(text),
        "search" => said.search.set(text),
        "said" => {
            if let Place::Bench(id) = here.0.get_untracked() {
                library.draft_note(&id, &first(&text, setup::LONGEST_SAID));
            }
        }
        "shop-name" => library.enter(&Target::Shop(String::new()), "name", &text),
        "name" | "note" => {
            if let Place::Setup(id) = here.0.get_untracked() {
                library.change(&id, |saved| match field.as_str() {
                    "name" => saved.setup.name = first(&text, setup::LONGEST_NAME),
                    _ => saved.setup.note = first(&text, setup::LONGEST_NOTE),
                });
            }
        }
        _ => {}
    });
    platform::listen("latheside-install", move |_| said.can_install.set(true));
    said.can_install.set(platform::can_install());
    platform::kept(false, move |on| said.kept.set(on));
    platform::on_file(move |text| match text.map(|text| opened(library, &text)) {
        Some(Ok(None)) => {
            said.wrong.set(None);
            said.search.set(String::new());
        }
        Some(Ok(Some(setup))) => {
            said.wrong.set(None);
            let own = setup.shop.is_empty();
            let id = library.add(setup, own);
            platform::go(&Place::Setup(id).to_string());
        }
        Some(Err(why)) => said.wrong.set(Some(format!("That file can't be opened: {why}"))),
        None => {
            let words = "That file can't be read: a setup file is text, and of 4 MB at most.";
            said.wrong.set(Some(words.to_owned()));
        }
    });
}

/// The setup of a file; none where it was a backup, which is put back.
fn opened(library: Library, text: &str) -> Result<Option<Setup>, String> {
    if text.get(..200).unwrap_or(text).contains("latheside-backup") {
        return library.restore(text).map(|()| None);
    }
    setup::read_file(text).map(Some).map_err(|why| why.to_string())
}

fn first(text: &str, most: usize) -> String {
    text.chars().take(most).collect()
}

/// Where a visit begins: where the address says, else at the setup used last.
fn start(library: Library) -> Place {
    let fragment = platform::fragment();
    let place = Place::parse(&fragment);
    match (&place, library.setups().first()) {
        (Place::Setups, Some(saved)) if fragment.len() < 2 => {
            let place = Place::Setup(saved.id.clone());
            platform::replace_fragment(&place.to_string());
            place
        }
        _ => place,
    }
}

fn title(library: Library, place: &Place) -> String {
    let of = |id: &str| {
        let saved = library.setup(id);
        saved.map_or("Setup".to_owned(), |saved| sheets::name_of(&saved.setup.name).to_owned())
    };
    let room = match place {
        Place::Shop => "Shop".to_owned(),
        Place::Setups => "Setups".to_owned(),
        Place::Setup(id) => of(id),
        Place::Bench(id) => format!("Bench: {}", of(id)),
        Place::Paper(id) => format!("{} on paper", of(id)),
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

fn shop_room(library: Library, desk: Desk, said: Said, folds: Folds) -> impl IntoView {
    // The name is typed in the head itself: drawing it again would take the caret away.
    let head = drawn(move || {
        library.cleared();
        let name = untrack(|| library.shop()).text("name").unwrap_or_default().to_owned();
        sheets::shop_head(&name).into_string()
    });
    let body = drawn(move || {
        let shop: Record = library.shop();
        let editing = desk.editing.get().map(|editing| (editing.target.form(), editing.key));
        let drafts = |form: &str| library.drafts(&Target::Shop(form.to_owned()));
        let chosen = library.theme();
        let grounds = Theme::ALL.map(|theme| sheets::Ground {
            word: theme.word(),
            label: theme.label(),
            chosen: theme == chosen,
        });
        sheets::shop(&shop, &drafts, editing.as_ref(), &grounds).into_string()
    });
    // On its own: what is being touched below it isn't drawn again for it.
    let keeping = drawn(move || {
        let keeping =
            sheets::keeping(said.kept.get(), said.can_install.get(), folds.is_open("install"));
        shared(said) + &keeping.into_string()
    });
    view! {
        <Live class="part" id="shop-head".to_owned() sheet=head />
        <Live class="part" id="shop-keeping".to_owned() sheet=keeping />
        <Live class="part" id="shop".to_owned() sheet=body />
    }
}

fn setups_room(library: Library, said: Said, folds: Folds) -> impl IntoView {
    said.search.set(String::new());
    // Typed in itself: drawing it again would take the caret away.
    let several = Memo::new(move |_| library.setups().len() > 1);
    let head = drawn(move || sheets::setups_head(several.get()).into_string());
    let sheet = drawn(move || {
        let mut lines: Vec<sheets::SetupLine> = library
            .setups()
            .into_iter()
            .map(|saved| sheets::SetupLine {
                to: Place::Setup(saved.id.clone()).to_string(),
                lines: saved.setup.operations.iter().map(|op| op.sentence().plain()).collect(),
                running: library.run(&saved.id).is_some_and(|run| !run.finished),
                name: saved.setup.name,
            })
            .collect();
        let words = said.search.get();
        lines.retain(|line| line.has(&words));
        let gone = library.gone().map(|saved| saved.setup.name);
        let aside = slots::aside(&platform::Browser).len();
        let wrong = said.wrong.get();
        sheets::setups(&lines, gone.as_deref(), wrong.as_deref(), aside, folds.is_open("open"))
            .into_string()
    });
    view! {
        <Live class="part" id="setups-head".to_owned() sheet=head />
        <Live class="part" id="setups".to_owned() sheet />
    }
}

fn paper_room(library: Library, said: Said, id: String) -> impl IntoView {
    let sheet = drawn(move || {
        let back = Place::Setup(id.clone()).to_string();
        let Some(setup) = library.whole(&id) else {
            let why = "Open a setup to put it on paper.";
            return sheets::nothing_on("No such setup here", why, "#setups", "All setups")
                .into_string();
        };
        said.works
            .get()
            .then(|| {
                platform::works::paper(&setup::write_file(&setup), &platform::address(), &back)
            })
            .flatten()
            .unwrap_or_default()
    });
    view! { <Live class="part" id="paper".to_owned() sheet /> }
}

/// The keypad: its keys are drawn once a blank, what is said beside them at each key.
fn keypad(library: Library, desk: Desk) -> impl IntoView {
    let keys = drawn(move || {
        desk.editing.get().map_or(String::new(), |editing| {
            let text = desk.text.get_untracked();
            sheets::keys(editing.label, editing.shape, &text).into_string()
        })
    });
    // In one go and in this order: drawn, shown, given the focus, filled in.
    Effect::new(move |before: Option<String>| {
        let keys = keys.get();
        let text = desk.text.get();
        let fresh = desk.fresh.get();
        let editing = desk.editing.get();
        if before.as_ref() != Some(&keys) {
            platform::draw("pad", &keys);
            platform::show("entry", editing.is_some());
            platform::focus_field("keypad-field");
        }
        let Some(editing) = editing else { return keys };
        platform::set_field("keypad-field", &text, fresh);
        let drafts = library.drafts(&editing.target);
        let wrong =
            drafts.iter().find(|(key, ..)| key == editing.key).map(|(_, _, why)| why.as_str());
        let entered = library.quantity(&editing.target, editing.key);
        let said = sheets::said(wrong, editing.shape, entered.as_ref());
        platform::draw("keypad-said", &said.into_string());
        platform::set_invalid("keypad-field", wrong.is_some());
        let typed = if fresh { "" } else { text.as_str() };
        let words = library.suggestions(&editing.target, editing.key, typed);
        platform::draw("suggestions", &sheets::suggestions(&words, &text).into_string());
        keys
    });
    view! {
        <section class="pad" id="entry" aria-label="Entry" hidden=true>
            <div class="pad-body" id="pad"></div>
        </section>
    }
}

fn title_block(library: Library, place: &Place) -> String {
    let name = |saved: &Saved| sheets::name_of(&saved.setup.name).to_owned();
    let setups = library.setups();
    let in_view = match place {
        Place::Setup(id) | Place::Bench(id) | Place::Paper(id) => library.setup(id),
        _ => setups.first().cloned(),
    };
    let last_run = match place {
        Place::Setup(id) | Place::Bench(id) | Place::Paper(id) => {
            library.run(id).map(|run| (id.clone(), run))
        }
        _ => library.last_run(),
    };
    let here = room(place);
    let shop = sheets::Standing {
        to: "#shop".to_owned(),
        state: Shop::new(library.shop()).name().to_owned(),
        here: here == "shop",
    };
    let to_setups = match (place, &in_view) {
        // From a setup the cell leads up to the list, from elsewhere to the setup.
        (Place::Setup(_) | Place::Setups | Place::Link(_), _) | (_, None) => "#setups".to_owned(),
        (_, Some(saved)) => Place::Setup(saved.id.clone()).to_string(),
    };
    let setup = sheets::Standing {
        to: to_setups,
        state: in_view.as_ref().map_or("none yet".to_owned(), name),
        here: here == "setups",
    };
    let bench = sheets::Standing {
        to: match (&last_run, &in_view) {
            (Some((id, _)), _) => Place::Bench(id.clone()).to_string(),
            (None, Some(saved)) => Place::Bench(saved.id.clone()).to_string(),
            (None, None) => "#setups".to_owned(),
        },
        state: match last_run {
            Some((_, run)) if run.finished => "done".to_owned(),
            Some((_, run)) => format!("{}, step {}", run.operation + 1, run.step + 1),
            None => "nothing on".to_owned(),
        },
        here: here == "bench",
    };
    sheets::title_block(&shop, &setup, &bench).into_string()
}
