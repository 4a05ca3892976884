//! One step, in figures that read from two metres.

use super::answer::lines;
use super::key;
use super::picture::drawn;
use crate::act::Act;
use latheside_core::operation::{Step, line};
use maud::{Markup, PreEscaped, html};

/// What the bench shows.
pub struct Bench<'a> {
    /// The setup's name.
    pub name: &'a str,
    /// The operation in hand, numbered.
    pub operation: &'a str,
    /// The setup's place.
    pub setup: &'a str,
    /// Steps done and steps in all.
    pub done: (usize, usize),
    /// The step; none once all is done.
    pub step: Option<&'a Step>,
    /// How to come back to it, where it was come back to; figures between stars.
    pub back: Option<&'a str>,
    /// On return from a while away: how long ago the step before was finished.
    pub ago: Option<String>,
    /// Whether the screen stays on, in words; empty until it is known.
    pub lit: &'a str,
}

/// The bench.
pub fn bench(bench: &Bench) -> Markup {
    let (done, all) = bench.done;
    html! {
        div class="bench" {
            header class="bench-head" {
                h1 id="title" class="hidden" tabindex="-1" { "Bench: " (bench.name) }
                a class="bench-what" href=(bench.setup) {
                    @if bench.operation.is_empty() { (bench.name) } @else { (bench.operation) }
                }
                progress max=(all) value=(done) aria-label="steps done" {}
                p class="bench-lit" { span { (done) " of " (all) " steps" } span { (bench.lit) } }
            }
            @match (bench.step, &bench.ago) {
                (Some(step), Some(ago)) => (asking(step, ago)),
                (Some(step), None) => (doing(step, bench.back)),
                (None, _) => (finished(bench.setup)),
            }
        }
    }
}

fn figure(step: &Step) -> Markup {
    let long = step.figure.chars().count();
    let class = match long {
        0..=4 => "bench-figure",
        5..=6 => "bench-figure middling",
        7..=9 => "bench-figure long",
        _ => "bench-figure longer",
    };
    html! {
        @if !step.figure.is_empty() {
            p class="bench-label" { (step.label) }
            p class=(class) { (step.figure) }
        }
    }
}

fn doing(step: &Step, back: Option<&str>) -> Markup {
    html! {
        div class="bench-step" {
            p class="bench-title" aria-live="polite" { (step.title) }
            (figure(step))
            @if let Some(back) = back {
                div class="bench-say bench-again" { (lines(&[line(back)])) }
            }
            @if let Some(beat) = &step.beat { (super::beat::beat(beat)) }
            ol class="bench-say" {
                @for say in &step.say { li { (lines(&[line(say)])) } }
            }
            @if let Some(caution) = step.caution { p class="bench-caution" { (caution) } }
            @if let Some(picture) = &step.picture {
                div class="drawing bench-drawing" { (PreEscaped(drawn(picture))) }
            }
        }
        div class="bench-keys" {
            (key(&Act::Back, "bench-back", "Back"))
            (key(&Act::Forward, "bench-next", step.done))
        }
    }
}

/// On return: is the present one done?
fn asking(step: &Step, ago: &str) -> Markup {
    let (question, yes) =
        if step.cuts { ("Is this one cut?", "It is cut") } else { ("Is this done?", "It is done") };
    html! {
        div class="bench-step" {
            p class="bench-title" { (step.title) }
            p class="bench-label" { "The step before was finished " (ago) "." }
            (figure(step))
            p class="bench-question" { (question) }
            p class="say" {
                "Look at the work before you answer, and check that nothing has been moved: pin, lock and dials."
            }
        }
        div class="bench-keys" {
            (key(&Act::Forward, "bench-back", yes))
            (key(&Act::NotYet, "bench-next", "Not yet"))
        }
    }
}

fn finished(setup: &str) -> Markup {
    html! {
        div class="bench-step" {
            p class="bench-title" { "Done" }
            p class="say" { "Every step of this setup is carried out." }
            p class="say" { "Spindle stopped, work out, machine clean." }
            a class="key wide" href=(setup) { "To the setup" }
            (key(&Act::Again, "key wide", "Once more from the start"))
        }
        div class="bench-keys" {
            (key(&Act::Back, "bench-back", "Back"))
        }
    }
}

/// Why there is nothing on the bench, and where to go.
pub fn nothing_on(name: &str, why: &str, to: &str, words: &str) -> Markup {
    html! {
        header class="head" { h1 id="title" tabindex="-1" { (name) } }
        p class="refused" { (why) }
        a class="key brass" href=(to) { (words) }
    }
}
