use super::setup::{CAME_TO_GRIEF, WORKING};
use crate::live::{Live, drawn, follow};
use crate::platform::{self, WakeLock};
use crate::state::{Desk, Folds, Library, Said};
use latheside_core::setup;
use latheside_kept::{Place, Run};
use latheside_sheets as sheets;
use leptos::prelude::*;
use std::cell::Cell;
use std::rc::Rc;

/// Away for longer than this, the first question is whether the present one is cut.
const AWAY: f64 = 60_000.0;

/// The room of the bench.
#[component]
pub(crate) fn BenchRoom(id: String) -> impl IntoView {
    let library = expect_context::<Library>();
    let said = expect_context::<Said>();
    let desk = expect_context::<Desk>();
    let folds = expect_context::<Folds>();
    let saved = library.setup(&id);
    let setup = Place::Setup(id.clone()).to_string();
    let name = saved.as_ref().map(|saved| saved.setup.name.clone()).unwrap_or_default();
    said.went_back.set(false);
    said.lens.set_value(Vec::new());
    said.worked.set(false);
    said.before.set_value(String::new());
    said.changed.set(String::new());
    let found = saved.is_some();
    if saved.is_some_and(|saved| saved.drafts.is_empty()) {
        let known = library.run(&id);
        // The first sight of a step after a while away asks before it goes on.
        said.returned.set(known.as_ref().is_some_and(|run| !run.finished && !run.is_new()));
        if known.is_none() {
            library.set_run(&id, Run::start(platform::now(), platform::wall()));
        }
    }
    // Worked at once where the works are warm, else as soon as they are there; after that when
    // something is measured.
    let worked = id.clone();
    let warm = Cell::new(said.works.get_untracked());
    follow(move || {
        if !said.works.get() {
            // Not there yet, or there no longer.
            said.worked.set(false);
        } else if warm.take() {
            untrack(|| rework(library, said, &worked));
        } else {
            lay_out(library, said, worked.clone());
        }
    });
    let lit = RwSignal::new("");
    stay_awake(said, lit);
    let sheet = drawn(move || {
        let nothing = |why, to: &str, words| {
            let title = if found { sheets::name_of(&name) } else { "Nothing on the bench" };
            sheets::nothing_on(title, why, to, words).into_string()
        };
        if !found {
            return nothing("Open a setup and start work on it.", "#setups", "All setups");
        }
        // While a blank is being filled in, what stands here stays.
        let typing = desk.editing.read().is_some();
        let unread = library.setup(&id).is_some_and(|saved| !saved.drafts.is_empty());
        if unread && !typing {
            return nothing(
                "An entry in this setup is unfinished. Finish it first, so that what you set here is what you meant.",
                &setup,
                "To the setup",
            );
        }
        if !said.worked.get() {
            return WORKING.to_owned();
        }
        let lens = said.lens.get_value();
        if lens.iter().all(|len| *len == 0) {
            let why = "There is nothing to carry out yet: fill in an operation first.";
            return nothing(why, &setup, "To the setup");
        }
        let run = library.run(&id).unwrap_or(Run::start(0.0, String::new()));
        let run = if run.finished { run } else { run.within(&lens) };
        let place = if run.finished { (lens.len(), 0) } else { (run.operation, run.step) };
        let ago = if said.returned.get() { run.ago(platform::now()) } else { String::new() };
        let words = [ago.as_str(), &said.changed.read(), lit.get()];
        let names = (sheets::name_of(&name), setup.as_str());
        let how = [folds.is_open("bench-more"), said.went_back.get()];
        platform::works::bench(names, place, &run.to_text(), words, how)
            .unwrap_or_else(|| CAME_TO_GRIEF.to_owned())
    });
    view! { <Live class="part" id="bench".to_owned() sheet /> }
}

/// Works the setup out an operation at a time, and then draws it: the page hears a touch between.
fn lay_out(library: Library, said: Said, id: String) {
    when_here(id, move |id| {
        let Some(setup) = library.whole(&id) else { return };
        platform::works::lay_out(&setup::write_file(&setup));
        answer_next(library, said, id);
    });
}

fn answer_next(library: Library, said: Said, id: String) {
    when_here(id, move |id| {
        if platform::works::answer_next() {
            return answer_next(library, said, id);
        }
        when_here(id, move |id| {
            let Some(lens) = platform::works::lens() else { return };
            // Nothing has been measured: the steps are what they were.
            said.lens.set_value(Vec::new());
            settle(library, said, &id, lens);
            when_here(id, move |_| said.worked.set(true));
        });
    });
}

/// Does something in a task of its own, unless the person has gone elsewhere: then there are other
/// things on the bench, or none.
fn when_here(id: String, what: impl FnOnce(String) + 'static) {
    platform::then(move || {
        if Place::parse(&platform::fragment()) == Place::Bench(id.clone()) {
            what(id);
        }
    });
}

/// Works the setup on the bench out again.
pub(super) fn rework(library: Library, said: Said, id: &str) {
    let Some(setup) = library.whole(id) else { return };
    if let Some(lens) = platform::works::put_on_bench(&setup::write_file(&setup)) {
        settle(library, said, id, lens);
        said.worked.set(true);
    }
}

/// The place stays with the step that it was, wherever that is now.
fn settle(library: Library, said: Said, id: &str, lens: Vec<usize>) {
    if let Some(run) = library.run(id).filter(|run| !run.finished) {
        let place = platform::works::find(run.operation, run.step, &run.title);
        let left = |lens: &[usize], step: usize| {
            lens.iter().skip(run.operation).sum::<usize>().saturating_sub(step)
        };
        let known = said.lens.get_value();
        if !known.is_empty() {
            // Put into words where the steps are.
            said.changed.set(format!("{} {}", left(&known, run.step), left(&lens, place)));
        }
        let mut moved = run.clone();
        moved.step = place;
        moved = moved.within(&lens);
        moved.title = platform::works::title(moved.operation, moved.step);
        if moved != run {
            library.set_run(id, moved);
        }
    }
    said.lens.set_value(lens);
}

/// Keeps the screen on for as long as the room is there, and notices when the person has been away.
fn stay_awake(said: Said, lit: RwSignal<&'static str>) {
    let awake = WakeLock::default();
    let here = Rc::new(Cell::new(true));
    awake.ask(move |on| _ = lit.try_set(lit_words(on)));
    {
        let (awake, here) = (awake.clone(), here.clone());
        let since = Cell::new(f64::INFINITY);
        platform::on_visible(move |shown| {
            if !here.get() {
                return;
            }
            if shown {
                if platform::now() - since.get() > AWAY {
                    said.returned.set(true);
                }
                awake.ask(move |on| _ = lit.try_set(lit_words(on)));
            } else {
                since.set(platform::now());
            }
        });
    }
    let parts = send_wrapper::SendWrapper::new((awake, here));
    on_cleanup(move || {
        parts.1.set(false);
        parts.0.let_go();
    });
}

fn lit_words(on: bool) -> &'static str {
    if on { "screen stays on" } else { "the screen may go dark: the place is kept" }
}
