use crate::place::Place;
use crate::state::{Here, Library};
use latheside_core::shop::Shop;
use leptos::prelude::*;

/// The title block along the foot: the way between the rooms, and how each stands.
#[component]
pub(crate) fn TitleBlock() -> impl IntoView {
    let library = expect_context::<Library>();
    let here = expect_context::<Here>();
    let shop = move || Shop::new(library.shop()).name().to_owned();
    // The setup in view, or the one last used.
    let setup = move || match here.0.get() {
        Place::Setup(id) | Place::Bench(id) => library.setup(&id),
        _ => library.setups().into_iter().next(),
    };
    let setup_name =
        move || setup().map_or("none yet".to_owned(), |saved| name_of(&saved.setup.name));
    let bench = move || match library.last_run() {
        Some((_, run)) => format!("step {} of {}", run.step + 1, ordinal(run.operation)),
        None => "nothing on".to_owned(),
    };
    let setup_to = move || match here.0.get() {
        // From a setup the cell leads up to the list, from elsewhere to the setup.
        Place::Setup(_) | Place::Setups => "#setups".to_owned(),
        _ => setup().map_or("#setups".to_owned(), |saved| Place::Setup(saved.id).to_string()),
    };
    let bench_to = move || match (here.0.get(), library.last_run()) {
        (Place::Setup(id), None) => Place::Bench(id).to_string(),
        (_, Some((id, _))) => Place::Bench(id).to_string(),
        _ => setup().map_or("#setups".to_owned(), |saved| Place::Bench(saved.id).to_string()),
    };
    let at = move |room: &'static str| {
        let now = match here.0.get() {
            Place::Shop => "shop",
            Place::Bench(_) => "bench",
            _ => "setups",
        };
        (now == room).then_some("page")
    };
    view! {
        <nav class="block" aria-label="Rooms">
            <a href="#shop" aria-current=move || at("shop")>
                <span class="block-room">"Shop"</span>
                <span class="block-state">{shop}</span>
            </a>
            <a href=setup_to aria-current=move || at("setups")>
                <span class="block-room">"Setups"</span>
                <span class="block-state">{setup_name}</span>
            </a>
            <a href=bench_to aria-current=move || at("bench")>
                <span class="block-room">"Bench"</span>
                <span class="block-state">{bench}</span>
            </a>
        </nav>
    }
}

/// A setup's name, or a word where it has none.
pub(crate) fn name_of(name: &str) -> String {
    if name.trim().is_empty() { "Unnamed setup".to_owned() } else { name.to_owned() }
}

fn ordinal(operation: usize) -> String {
    format!("op. {}", operation + 1)
}
