//! One setup being carried out, a step at a time, in figures that read from two metres.

use crate::parts::{drawn, lines, name_of};
use crate::place::Place;
use crate::platform::{self, WakeLock};
use crate::state::{Library, Run};
use latheside_core::operation::{Answer, Step, line};
use latheside_core::shop::Shop;
use leptos::prelude::*;
use std::cell::Cell;
use std::rc::Rc;

/// After a step the keys are deaf for so many milliseconds: a second tap of the same thumb, a drip
/// or a palm does nothing.
const DEAF: f64 = 400.0;
/// Away for longer than this, the first question is whether the present one is cut.
const AWAY: f64 = 60_000.0;

/// What there is to do, worked once for a visit.
#[derive(Clone)]
struct Work {
    answers: Vec<(String, Answer)>,
    lens: Vec<usize>,
}

/// The room of the bench.
#[component]
pub(crate) fn BenchRoom(id: String) -> impl IntoView {
    let library = expect_context::<Library>();
    let Some(saved) = library.setup(&id) else {
        return view! {
            <header class="head"><h1 tabindex="-1" id="title">"Nothing on the bench"</h1></header>
            <p>"Open a setup and start work on it."</p>
            <a class="key" href="#setups">"All setups"</a>
        }
        .into_any();
    };
    let back = Place::Setup(id.clone()).to_string();
    if !saved.drafts.is_empty() {
        return view! {
            <header class="head"><h1 tabindex="-1" id="title">{name_of(&saved.setup.name)}</h1></header>
            <p class="complaint" role="alert">"An entry in this setup is unfinished. Finish it first, so that what you set here is what you meant."</p>
            <a class="key brass" href=back>"To the setup"</a>
        }
        .into_any();
    }
    let shop = Shop::new(library.shop_of(&id));
    let answers: Vec<(String, Answer)> = saved
        .setup
        .operations
        .iter()
        .map(|operation| (operation.sentence().plain(), operation.answer(&shop)))
        .collect();
    let lens: Vec<usize> = answers
        .iter()
        .map(|(_, answer)| answer.found.as_ref().map_or(0, |found| found.steps().len()))
        .collect();
    if lens.iter().sum::<usize>() == 0 {
        return view! {
            <header class="head"><h1 tabindex="-1" id="title">{name_of(&saved.setup.name)}</h1></header>
            <p>"There is nothing to carry out yet: fill in an operation first."</p>
            <a class="key brass" href=back>"To the setup"</a>
        }
        .into_any();
    }
    view! { <Running id name=name_of(&saved.setup.name) work=Work { answers, lens } /> }.into_any()
}

#[component]
fn Running(id: String, name: String, work: Work) -> impl IntoView {
    let library = expect_context::<Library>();
    let work = StoredValue::new(work);
    let known = library.run(&id);
    let begun = known.is_some();
    if known.is_none() {
        library.set_run(&id, Run::start(platform::now()));
    }
    let run = {
        let id = id.clone();
        Memo::new(move |_| {
            let run = library.run(&id).unwrap_or(Run::start(0.0));
            if run.finished { run } else { work.with_value(|work| run.within(&work.lens)) }
        })
    };
    let step = Memo::new(move |_| {
        let run = run.get();
        work.with_value(|work| {
            work.answers.get(run.operation)?.1.found.as_ref()?.steps().get(run.step)
        })
    });
    // The first sight of a step after a while away asks before it goes on.
    let returned = RwSignal::new(begun && !run.get_untracked().finished);
    let away_since = Rc::new(Cell::new(0.0));
    let awake = WakeLock::default();
    let lit = RwSignal::new(None::<bool>);
    awake.ask(move |on| _ = lit.try_set(Some(on)));
    let still_here = Rc::new(Cell::new(true));
    {
        let (awake, still_here) = (awake.clone(), still_here.clone());
        let away_since = away_since.clone();
        platform::on_visible(move |shown| {
            if !still_here.get() {
                return;
            }
            if shown {
                if platform::now() - away_since.get() > AWAY {
                    returned.try_set(true);
                }
                awake.ask(move |on| _ = lit.try_set(Some(on)));
            } else {
                away_since.set(platform::now());
            }
        });
    }
    {
        let parts = send_wrapper::SendWrapper::new((awake, still_here));
        on_cleanup(move || {
            parts.1.set(false);
            parts.0.let_go();
        });
    }
    let deaf_until = StoredValue::new(0.0_f64);
    let hears = move || {
        let now = platform::now();
        let hears = now >= deaf_until.get_value();
        if hears {
            deaf_until.set_value(now + DEAF);
        }
        hears
    };
    let advance = {
        let id = id.clone();
        move |forward: bool| {
            let now = platform::now();
            let next = work.with_value(|work| {
                let run = run.get_untracked();
                if forward { run.next(&work.lens, now) } else { run.back(&work.lens, now) }
            });
            returned.set(false);
            library.set_run(&id, next);
        }
    };
    let go = {
        let advance = advance.clone();
        move |forward: bool| {
            if hears() {
                advance(forward);
            }
        }
    };
    let again = {
        let id = id.clone();
        move |_| {
            if hears() {
                library.set_run(&id, Run::start(platform::now()));
            }
        }
    };
    // Space, arrows and page keys: a Bluetooth pedal is a keyboard.
    {
        let go = send_wrapper::SendWrapper::new(go.clone());
        let handle = window_event_listener(leptos::ev::keydown, move |event| {
            if event.repeat() || event.alt_key() || event.ctrl_key() || event.meta_key() {
                return;
            }
            let asking = returned.get_untracked() || run.get_untracked().finished;
            match event.key().as_str() {
                " " | "ArrowRight" | "PageDown" if !asking => {
                    event.prevent_default();
                    go(true);
                }
                "ArrowLeft" | "PageUp" if !asking => {
                    event.prevent_default();
                    go(false);
                }
                _ => {}
            }
        });
        on_cleanup(move || handle.remove());
    }
    let setup_place = Place::Setup(id.clone()).to_string();
    let total = work.with_value(|work| work.lens.iter().sum::<usize>());
    let done_before = move || {
        let run = run.get();
        if run.finished {
            return total;
        }
        work.with_value(|work| work.lens.iter().take(run.operation).sum::<usize>()) + run.step
    };
    let sentence = move || {
        work.with_value(|work| {
            let at = run.get().operation;
            work.answers
                .get(at)
                .map(|(words, _)| format!("{}  {words}", at + 1))
                .unwrap_or_default()
        })
    };
    let body = {
        let go = go.clone();
        let advance = advance.clone();
        let setup_place = setup_place.clone();
        move || {
            if run.get().finished {
                return view! {
                    <div class="bench-done">
                        <p class="bench-title">"Done"</p>
                        <p class="say">"Every step of this setup is carried out."</p>
                        <p class="say">"Spindle stopped, work out, machine clean."</p>
                        <a class="key" href=setup_place.clone()>"To the setup"</a>
                        <button type="button" class="key" on:click=again.clone()>"Once more from the start"</button>
                    </div>
                }
                .into_any();
            }
            let Some(step) = step.get() else { return ().into_any() };
            if returned.get() {
                return asking(&step, run.get(), hears, advance.clone(), returned).into_any();
            }
            step_view(step, go.clone()).into_any()
        }
    };
    let lit_words = move || match lit.get() {
        Some(true) => "screen stays on",
        Some(false) => "the screen may go dark: the place is kept",
        None => "",
    };
    view! {
        <div class="bench">
            <header class="bench-head">
                <h1 tabindex="-1" id="title" class="hidden">{format!("Bench: {name}")}</h1>
                <a class="bench-what" href=setup_place>{sentence}</a>
                <p class="bench-lit small">{lit_words}</p>
                <progress max=total.to_string() value=move || done_before().to_string() aria-label="steps done"></progress>
            </header>
            {body}
        </div>
    }
}

fn step_view(step: Step, go: impl Fn(bool) + Clone + 'static) -> impl IntoView {
    let say = step
        .say
        .iter()
        .map(|say| {
            let words = lines(vec![line(say)]);
            view! { <li>{words}</li> }
        })
        .collect_view();
    let figure = (!step.figure.is_empty()).then(|| {
        let long = step.figure.chars().count() > 6;
        view! {
            <p class="bench-label">{step.label.clone()}</p>
            <p class="bench-figure" class:long=long>{step.figure.clone()}</p>
        }
    });
    let picture = step.picture.as_ref().map(|picture| {
        view! { <div class="drawing bench-drawing" inner_html=drawn(picture)></div> }
    });
    let caution = step.caution.map(|caution| view! { <p class="bench-caution">{caution}</p> });
    let back = go.clone();
    view! {
        <div class="bench-step">
            <p class="bench-title" aria-live="polite">{step.title.clone()}</p>
            <ol class="bench-say">{say}</ol>
            {figure}
            {picture}
            {caution}
        </div>
        <div class="bench-keys">
            <button type="button" class="bench-back" on:click=move |_| back(false)>"Back"</button>
            <button type="button" class="bench-next" on:click=move |_| go(true)>{step.done}</button>
        </div>
    }
}

/// On return: is the present one done?
fn asking(
    step: &Step,
    run: Run,
    hears: impl Fn() -> bool + Copy + 'static,
    advance: impl Fn(bool) + 'static,
    returned: RwSignal<bool>,
) -> impl IntoView {
    let ago = ago(platform::now() - run.touched);
    let question = if step.cuts { "Is this one cut?" } else { "Is this done?" };
    view! {
        <div class="bench-step">
            <p class="bench-title">{step.title.clone()}</p>
            <p class="bench-label">{format!("The step before was finished {ago}.")}</p>
            {(!step.figure.is_empty()).then(|| view! {
                <p class="bench-label">{step.label.clone()}</p>
                <p class="bench-figure">{step.figure.clone()}</p>
            })}
            <p class="bench-question">{question}</p>
            <p class="say">"Look at the work before you answer. Check that nothing has been moved: pin, lock and dials."</p>
        </div>
        <div class="bench-keys">
            <button type="button" class="bench-back" on:click=move |_| if hears() { advance(true) }>
                {if step.cuts { "It is cut" } else { "It is done" }}
            </button>
            <button type="button" class="bench-next" on:click=move |_| if hears() { returned.set(false) }>
                "Not yet"
            </button>
        </div>
    }
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
