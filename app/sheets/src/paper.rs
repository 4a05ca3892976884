//! A setup on paper: sentences, settings, drawings, lists to tick, cautions, and its link as a square.

use super::answer::lines;
use super::picture::{drawn, printed};
use super::table::printed as rows_printed;
use super::{key, name_of, qr};
use crate::act::Act;
use latheside_core::operation::{Answer, Step, line};
use maud::{Markup, PreEscaped, html};

/// More steps than this are not listed on paper: the bench counts them.
const STEPS_MOST: usize = 400;

/// A setup to be printed.
pub struct Paper<'a> {
    /// Its name.
    pub name: &'a str,
    /// Its note.
    pub note: &'a str,
    /// The shop's name.
    pub shop: &'a str,
    /// Each operation's sentence and answer.
    pub answers: &'a [(String, Answer)],
    /// The whole address of the setup.
    pub url: &'a str,
    /// The way back.
    pub back: &'a str,
}

/// The card, as it will be printed.
pub fn paper(paper: &Paper) -> Markup {
    html! {
        header class="head screen" {
            h1 id="title" tabindex="-1" { "On paper" }
            a class="key" href=(paper.back) { "Back" }
            (key(&Act::Print, "key brass", "Print"))
        }
        article class="paper" {
            header class="paper-head" {
                div {
                    h2 { (name_of(paper.name)) }
                    p { "for " (paper.shop) }
                    @if !paper.note.is_empty() { p { (paper.note) } }
                }
                @if let Some(square) = qr(paper.url) { div class="qr" { (square) } }
            }
            @for (at, (sentence, answer)) in paper.answers.iter().enumerate() {
                (operation(at + 1, sentence, answer))
            }
            p class="paper-foot" {
                "Worked out by Latheside from the shop as entered. The machine's maker, the rules of the place and your own eyes come first."
            }
        }
    }
}

fn operation(number: usize, sentence: &str, answer: &Answer) -> Markup {
    let card = answer.found.as_ref().map(|found| found.card());
    let steps: Vec<Step> = answer.found.as_ref().map_or_else(Vec::new, |found| {
        let steps = found.steps();
        (0..steps.len().min(STEPS_MOST)).filter_map(|at| steps.get(at)).collect()
    });
    let all = answer.found.as_ref().map_or(0, |found| found.steps().len());
    html! {
        section class="paper-op" {
            h3 { span class="balloon" { (number) } (sentence) }
            @if let Some(why) = &answer.refused { p { (why) } }
            @if let Some(card) = &card {
                div class="paper-card" {
                    div {
                        (lines(&card.lines))
                        @if let Some((_, words)) = &card.verdict { p { (words) } }
                        dl class="facts" {
                            @for fact in &card.facts { div { dt { (fact.label) } dd { (fact.value) } } }
                        }
                    }
                    @if let Some(picture) = &card.picture {
                        div class="drawing" { (PreEscaped(drawn(picture))) }
                    }
                }
                @for piece in card.picture.iter().flat_map(printed) {
                    div class="strip" { (PreEscaped(piece)) }
                }
            }
            @if let Some(rows) = card.as_ref().and_then(|card| card.table.as_ref()) { (rows_printed(rows)) }
            @if !answer.cautions.is_empty() {
                ul class="cautions" { @for caution in &answer.cautions { li { (caution) } } }
            }
            ol class="ticks" {
                @for (at, step) in steps.iter().enumerate() {
                    (tick(step, at.checked_sub(1).and_then(|before| steps.get(before))))
                }
            }
            @if all > STEPS_MOST {
                p { "and " (all - STEPS_MOST) " more steps, which the bench counts" }
            }
        }
    }
}

/// A step with a box to tick; of one like the step before only what differs is said.
fn tick(step: &Step, before: Option<&Step>) -> Markup {
    let new = |say: &&String| before.is_none_or(|before| !before.say.contains(say));
    html! {
        li {
            span class="box" {}
            b { (step.title) }
            @if !step.figure.is_empty() { " · " (step.label) " " b { (step.figure) } }
            @for say in step.say.iter().filter(new) { (lines(&[line(say)])) }
        }
    }
}
