//! One step, in figures that read from two metres.

use super::answer::{figure as set, is_small, said, said_in};
use super::bound::bound;
use super::made::said_line;
use super::picture::drawn;
use super::sentence::element;
use super::{fold, key};
use crate::act::Act;
use latheside_core::operation::{Line, Operation, Step};
use latheside_core::record::{Record, Value};
use maud::{Markup, PreEscaped, html};

/// What the bench shows.
pub struct Bench<'a> {
    /// The setup's name.
    pub name: &'a str,
    /// The operation in hand, numbered.
    pub operation: &'a str,
    /// The setup's place.
    pub setup: &'a str,
    /// Steps done and steps in all; the same of the operation in hand.
    pub done: [(usize, usize); 2],
    /// The step; none once all is done.
    pub step: Option<&'a Step>,
    /// How to come back to it, where it was come back to; figures between stars.
    pub back: Option<&'a str>,
    /// The operation that it belongs to, and its place.
    pub of: Option<(usize, &'a Operation)>,
    /// On return from a while away: how long ago, and which, was the step finished before.
    pub ago: Option<(&'a str, &'a str)>,
    /// What the step's figures have become by what was measured.
    pub changed: &'a str,
    /// What was said of this step when the setup was made before.
    pub before: &'a [&'a Record],
    /// What has been said of this run so far.
    pub said: &'a [Record],
    /// What is half typed of a note.
    pub draft: &'a str,
    /// Whether the notes are open.
    pub open: bool,
    /// Whether the screen stays on, in words; empty until it is known.
    pub lit: &'a str,
}

impl Bench<'_> {
    /// The bench.
    pub fn html(&self) -> Markup {
        html! {
            div class="bench" {
                (self.top())
                div class="bench-said" { (self.more()) }
                div class="bench-keys" { (self.keys()) }
            }
        }
    }

    fn top(&self) -> Markup {
        let [(done, all), (here, in_all)] = self.done;
        html! {
            header class="bench-head" {
                h1 id="title" class="hidden" tabindex="-1" { "Bench: " (self.name) }
                a class="bench-what" href=(self.setup) {
                    @if self.operation.is_empty() { (self.name) } @else { (bound(self.operation)) }
                }
                progress max=(all) value=(done) aria-label="steps done" {}
                p class="bench-lit" {
                    span { (done) " of " (all) " steps" }
                    @if in_all > 0 && in_all != all { span { (here) " of " (in_all) " here" } }
                    span { (self.lit) }
                }
            }
            @match (self.step, self.ago) {
                (Some(step), Some(ago)) => (asking(step, ago, self.of)),
                (Some(step), None) => (self.doing(step)),
                (None, _) => (finished(self.setup)),
            }
        }
    }

    fn doing(&self, step: &Step) -> Markup {
        html! {
            div class={ "bench-step" @if self.crowded(step) { " crowded" } } {
              div class="bench-words" {
                p class="bench-title" aria-live="polite" { (step.title) }
                @if !self.changed.is_empty() { p class="bench-changed" role="status" { (self.changed) } }
                @for said in self.before { p class="bench-before" { "Last time: " (said_line(said, false)) } }
                (figure(step))
                @if let Some(back) = self.back {
                    div class="bench-say bench-again" { (said(back)) }
                }
                @if let Some(beat) = &step.beat { (super::beat::beat(beat)) }
                @if let (Some(key), Some((at, operation))) = (step.measures, self.of) {
                    (measuring(at, operation, key))
                }
                div class="bench-then" {
                    ol class="bench-say" {
                        @for say in step.lines() { li { (said_in(&say)) } }
                    }
                    @if let Some(caution) = step.caution { p class="bench-caution" { (bound(caution)) } }
                }
              }
                @if let Some(picture) = &step.picture {
                    div class="drawing bench-drawing" { (PreEscaped(drawn(picture))) }
                }
            }
        }
    }

    /// Whether there is more to read than stands above a phone's keys under a figure of full height.
    fn crowded(&self, step: &Step) -> bool {
        const LETTERS: usize = 28;
        const LINES: usize = 6;
        let lines = |words: &str| words.chars().count().div_ceil(LETTERS);
        let letters =
            |say: &Line| say.iter().map(|span| span.text().chars().count()).sum::<usize>();
        let said: usize = step.lines().iter().map(|say| letters(say).div_ceil(LETTERS)).sum();
        let again = lines(self.changed) + self.back.map_or(0, lines) + self.before.len();
        let keys = if step.measures.is_some() { 3 } else { 0 } + step.beat.map_or(0, |_| 4);
        said + step.caution.map_or(0, lines) + again + keys > LINES
    }

    fn more(&self) -> Markup {
        if self.step.is_none() || self.ago.is_some() {
            return html! {};
        }
        fold(
            "bench-more",
            self.open,
            "skip, repeat, went wrong, note",
            &html! {
                div class="bench-more" {
                    textarea id="bench-note" data-field="said" rows="2" aria-label="what went wrong, or a note on this step"
                        placeholder="what went wrong, or a note" maxlength=(latheside_core::setup::LONGEST_SAID) { (self.draft) }
                    (key(&Act::Wrong, "key", "It went wrong"))
                    (key(&Act::Note, "key", "Note it"))
                    (key(&Act::Skip, "key", "Skip this step"))
                    (key(&Act::Repeat, "key", "Done again"))
                }
                @if !self.said.is_empty() {
                    ul class="bench-record" {
                        @for (at, said) in self.said.iter().enumerate().rev() {
                            li { span { (said_line(said, true)) } (key(&Act::Unsay(at), "key", "Take out")) }
                        }
                    }
                }
                (key(&Act::Over, "key wide", "Start over from the first step"))
            },
        )
    }

    fn keys(&self) -> Markup {
        html! {
            @match (self.step, self.ago) {
                (Some(step), Some(_)) => {
                    (key(&Act::Forward, "bench-back", if step.cuts { "It is cut" } else { "It is done" }))
                    (key(&Act::NotYet, "bench-next", "Not yet"))
                }
                (Some(step), None) => {
                    (key(&Act::Back, "bench-back", "Back"))
                    (key(&Act::Forward, "bench-next", step.done))
                }
                (None, _) => (key(&Act::Back, "bench-back", "Back")),
            }
        }
    }
}

/// How wide a figure is, in tenths of a numeral.
fn width(figure: &str) -> usize {
    let letter = |c| match c {
        '.' | ',' | '′' | '″' | '°' | '/' => 5,
        'm' | 'w' | 'M' | 'W' => 15,
        _ => 10,
    };
    let wide = |word: &str| {
        let wide: usize = word.chars().map(letter).sum();
        if is_small(figure, word) { wide / 2 } else { wide }
    };
    figure.split(' ').map(|word| wide(word) + 4).sum()
}

fn figure(step: &Step) -> Markup {
    let class = match width(&step.figure) {
        0..=41 => "bench-figure",
        42..=48 => "bench-figure four",
        49..=65 => "bench-figure middling",
        66..=92 => "bench-figure long",
        _ => "bench-figure longer",
    };
    html! {
        @if !step.figure.is_empty() {
            p class="bench-label" { (step.label) }
            p class=(class) { (set(&step.figure)) }
        }
    }
}

/// The blank for what is measured here.
fn measuring(at: usize, operation: &Operation, key: &str) -> Markup {
    let Some(field) = operation.entries.spec().field(key) else { return html! {} };
    let text = operation.entries.get(key).map(Value::text);
    let spoken = text.as_deref().unwrap_or("type it");
    let act = Act::Blank(at.to_string(), key.to_owned());
    html! {
        p class="bench-measured" {
            span aria-hidden="true" { (field.label) }
            button type="button" class="key" id=(element(&at.to_string(), key)) data-do=(act)
                aria-label={ (field.label) ": " (spoken) } { (text.as_deref().unwrap_or("type it")) }
        }
    }
}

/// On return: is the present one done?
fn asking(step: &Step, (ago, last): (&str, &str), of: Option<(usize, &Operation)>) -> Markup {
    let question = if step.cuts { "Is this one cut?" } else { "Is this done?" };
    html! {
        div class="bench-step" {
            p class="bench-title" { (step.title) }
            p class="bench-label" {
                @if last.is_empty() { "You left here " (ago) "." }
                @else { "Done last, " (ago) ": " b { (last) } "." }
            }
            (figure(step))
            p class="bench-question" { (question) }
            @if let Some((_, operation)) = of { p class="say" { (operation.on_return()) } }
        }
    }
}

fn finished(setup: &str) -> Markup {
    html! {
        div class="bench-step" {
            p class="bench-title" { "Done" }
            p class="say" { "Every step of this setup is carried out. What was said on the way stays with the setup." }
            p class="say" { "Spindle stopped, work out, machine clean." }
            a class="key wide" href=(setup) { "To the setup" }
            (key(&Act::Again, "key wide", "Again from the start"))
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

#[cfg(test)]
mod tests {
    use super::*;

    fn drawn(say: &[&str], changed: &str) -> String {
        let step = Step {
            title: "Touch on".to_owned(),
            label: "cross slide".to_owned(),
            figure: "0".to_owned(),
            say: say.iter().map(|&say| say.to_owned()).collect(),
            done: "Done",
            ..Step::default()
        };
        let bench = Bench {
            name: "a knob",
            operation: "",
            setup: "#setup/a",
            done: [(0, 2), (0, 2)],
            step: Some(&step),
            back: None,
            of: None,
            ago: None,
            changed,
            before: &[],
            said: &[],
            draft: "",
            open: false,
            lit: "",
        };
        bench.html().into_string()
    }

    #[test]
    fn a_figure_makes_room_where_there_is_much_to_read() {
        let long = "Wind in until the tool just touches the outside of Ø 12 mm.";
        assert!(drawn(&[long], "").contains("class=\"bench-step\""));
        assert!(drawn(&[long, long, long], "").contains("class=\"bench-step crowded\""));
        // What comes between the figure and the words needs its room too.
        assert!(drawn(&[long, long], "").contains("class=\"bench-step\""));
        assert!(drawn(&[long, long], long).contains("class=\"bench-step crowded\""));
    }

    #[test]
    fn a_name_of_many_words_is_told_from_a_figure() {
        let html = drawn(&["Set *fast belt, second motor pulley*: *900* rpm."], "");
        assert!(html.contains("<b class=\"name\"><small>fast belt"), "{html}");
        assert!(html.contains(":\u{a0}<b class=\"short\">900</b> rpm."), "{html}");
    }

    #[test]
    fn a_short_figure_is_never_alone_on_a_line() {
        let html = drawn(&["Detent home: tooth *12*. *4* holes on, to *Ø 9.9 mm*."], "");
        assert!(html.contains("home: tooth\u{a0}<b class=\"short\">12</b>"), "{html}");
        assert!(html.contains(".\u{a0}<b class=\"short\">4</b> holes on, to <b>Ø 9.9"), "{html}");
    }
}
