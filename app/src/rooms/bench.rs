use crate::live::Live;
use crate::place::Place;
use crate::platform::{self, WakeLock};
use crate::sheets;
use crate::state::{Library, Run, Said};
use latheside_core::operation::{Answer, Step};
use latheside_core::shop::Shop;
use leptos::prelude::*;
use std::cell::Cell;
use std::rc::Rc;

/// Away for longer than this, the first question is whether the present one is cut.
const AWAY: f64 = 60_000.0;

/// What there is to do: every operation's sentence and answer, worked once for a visit.
pub(crate) struct Work {
    /// Each operation's sentence and answer.
    pub(crate) answers: Vec<(String, Answer)>,
    /// How many steps each operation has.
    lens: Vec<usize>,
}

impl Work {
    /// The work of a setup.
    pub(crate) fn of(library: Library, id: &str) -> Work {
        let shop = Shop::new(library.shop_of(id));
        let operations = library.setup(id).map(|saved| saved.setup.operations).unwrap_or_default();
        let answers: Vec<(String, Answer)> = operations
            .iter()
            .map(|operation| (operation.sentence().plain(), operation.answer(&shop)))
            .collect();
        let len = |answer: &Answer| answer.found.as_ref().map_or(0, |found| found.steps().len());
        let lens = answers.iter().map(|(_, answer)| len(answer)).collect();
        Work { answers, lens }
    }

    fn step(&self, run: Run) -> Option<Step> {
        self.answers.get(run.operation)?.1.found.as_ref()?.steps().get(run.step)
    }
}

/// The room of the bench.
#[component]
pub(crate) fn BenchRoom(id: String) -> impl IntoView {
    let library = expect_context::<Library>();
    let said = expect_context::<Said>();
    let saved = library.setup(&id);
    let setup = Place::Setup(id.clone()).to_string();
    let name = saved.as_ref().map(|saved| saved.setup.name.clone()).unwrap_or_default();
    let work = Work::of(library, &id);
    let unread = saved.as_ref().is_some_and(|saved| !saved.drafts.is_empty());
    let why = match &saved {
        None => Some(("#setups", "Open a setup and start work on it.", "All setups")),
        Some(_) if unread => Some((
            setup.as_str(),
            "An entry in this setup is unfinished. Finish it first, so that what you set here is what you meant.",
            "To the setup",
        )),
        Some(_) if work.lens.iter().all(|len| *len == 0) => Some((
            setup.as_str(),
            "There is nothing to carry out yet: fill in an operation first.",
            "To the setup",
        )),
        Some(_) => None,
    };
    if let Some((to, why, words)) = why {
        let title = if saved.is_some() { sheets::name_of(&name) } else { "Nothing on the bench" };
        let html = sheets::nothing_on(title, why, to, words).into_string();
        let sheet = Memo::new(move |_| html.clone());
        return view! { <Live class="part" id="bench".to_owned() sheet /> };
    }
    let known = library.run(&id);
    // The first sight of a step after a while away asks before it goes on.
    said.returned.set(known.is_some_and(|run| !run.finished && run != Run::start(run.touched)));
    if known.is_none() {
        library.set_run(&id, Run::start(platform::now()));
    }
    let lit = RwSignal::new(None::<bool>);
    stay_awake(said, lit);
    let total: usize = work.lens.iter().sum();
    said.lens.set_value(work.lens.clone());
    let work = StoredValue::new_local(work);
    let sheet = Memo::new(move |_| {
        let run = library.run(&id).unwrap_or(Run::start(0.0));
        work.with_value(|work| {
            let run = if run.finished { run } else { run.within(&work.lens) };
            let before: usize = work.lens.iter().take(run.operation).sum();
            let step = if run.finished { None } else { work.step(run) };
            let words = work.answers.get(run.operation).map_or("", |(words, _)| words.as_str());
            sheets::bench(&sheets::Bench {
                name: sheets::name_of(&name),
                operation: &format!("{}. {words}", run.operation + 1),
                setup: &setup,
                done: (if run.finished { total } else { before + run.step }, total),
                step: step.as_ref(),
                ago: said.returned.get().then(|| ago(platform::now() - run.touched)),
                lit: lit.get(),
            })
            .into_string()
        })
    });
    view! { <Live class="part" id="bench".to_owned() sheet /> }
}

/// Keeps the screen on for as long as the room is there, and notices when the person has been away.
fn stay_awake(said: Said, lit: RwSignal<Option<bool>>) {
    let awake = WakeLock::default();
    let here = Rc::new(Cell::new(true));
    awake.ask(move |on| _ = lit.try_set(Some(on)));
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
                awake.ask(move |on| _ = lit.try_set(Some(on)));
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
