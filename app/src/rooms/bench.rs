use super::setup::{CAME_TO_GRIEF, WORKING};
use crate::live::{Live, drawn};
use crate::place::Place;
use crate::platform::{self, WakeLock};
use crate::state::{Library, Run, Said};
use latheside_core::setup;
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
    let saved = library.setup(&id);
    let setup = Place::Setup(id.clone()).to_string();
    let name = saved.as_ref().map(|saved| saved.setup.name.clone()).unwrap_or_default();
    let unread = saved.as_ref().is_some_and(|saved| !saved.drafts.is_empty());
    let file = library.whole(&id).map(|setup| setup::write_file(&setup)).unwrap_or_default();
    // Worked once for a visit, as soon as the works are there.
    let there = Memo::new(move |_| {
        let lens = said.works.get().then(|| platform::works::put_on_bench(&file)).flatten();
        said.lens.set_value(lens.clone().unwrap_or_default());
        lens.map(|lens| lens.iter().any(|len| *len > 0))
    });
    said.went_back.set(false);
    if saved.is_some() && !unread {
        let known = library.run(&id);
        // The first sight of a step after a while away asks before it goes on.
        said.returned.set(known.is_some_and(|run| !run.finished && run != Run::start(run.touched)));
        if known.is_none() {
            library.set_run(&id, Run::start(platform::now()));
        }
    }
    let lit = RwSignal::new("");
    stay_awake(said, lit);
    let found = saved.is_some();
    let sheet = drawn(move || {
        let nothing = |why, to: &str, words| {
            let title = if found { sheets::name_of(&name) } else { "Nothing on the bench" };
            sheets::nothing_on(title, why, to, words).into_string()
        };
        if !found {
            return nothing("Open a setup and start work on it.", "#setups", "All setups");
        }
        if unread {
            return nothing(
                "An entry in this setup is unfinished. Finish it first, so that what you set here is what you meant.",
                &setup,
                "To the setup",
            );
        }
        match there.get() {
            None => return WORKING.to_owned(),
            Some(false) => {
                let why = "There is nothing to carry out yet: fill in an operation first.";
                return nothing(why, &setup, "To the setup");
            }
            Some(true) => {}
        }
        let run = library.run(&id).unwrap_or(Run::start(0.0));
        let place = said.lens.with_value(|lens| {
            if run.finished {
                return (lens.len(), 0);
            }
            let run = run.within(lens);
            (run.operation, run.step)
        });
        let ago =
            if said.returned.get() { ago(platform::now() - run.touched) } else { String::new() };
        platform::works::bench(
            sheets::name_of(&name),
            &setup,
            place,
            &ago,
            lit.get(),
            said.went_back.get(),
        )
        .unwrap_or_else(|| CAME_TO_GRIEF.to_owned())
    });
    view! { <Live class="part" id="bench".to_owned() sheet /> }
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

/// How long ago, to a person's measure.
fn ago(milliseconds: f64) -> String {
    let minutes = (milliseconds / 60_000.0) as u64;
    match minutes {
        0 => "just now".to_owned(),
        1 => "a minute ago".to_owned(),
        2..=119 => format!("{minutes} minutes ago"),
        120..=2879 => format!("{} hours ago", minutes / 60),
        _ => format!("{} days ago", minutes / 1440),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_away_in_words() {
        for (ms, words) in [
            (10.0, "just now"),
            (61_000.0, "a minute ago"),
            (12.0 * 60_000.0, "12 minutes ago"),
            (3.0 * 3_600_000.0, "3 hours ago"),
            (72.0 * 3_600_000.0, "3 days ago"),
        ] {
            assert_eq!(ago(ms), words);
        }
    }
}
