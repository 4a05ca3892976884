//! An answer: the setting large, how it stands, the drawing, the rest to open.

use super::bound::bound;
use super::picture::{drawn, prints};
use super::sentence::{Beside, FormView, blank};
use super::table::every_row;
use super::{fold, key};
use crate::act::Act;
use latheside_core::operation::{Answer, Card, Fact, Line, Other, Span, Tone, line};
use latheside_core::record::{Record, Sentence, Shape, Value};
use latheside_core::shop::entry_words;
use maud::{Markup, PreEscaped, html};

/// Lines of figures and words.
pub(super) fn lines(lines: &[Line]) -> Markup {
    html! {
        @for line in lines {
            p class="setting" { @for span in line { (spanned(span)) } }
        }
    }
}

fn spanned(span: &Span) -> Markup {
    html! {
        @match span {
            Span::Figure(text) => b class=[kind(text)] { (figure(text)) },
            Span::Word(text) => (bound(text)),
        }
    }
}

/// What is said in a step, its figures no larger than its words: a short one is never alone on a line,
/// but with the word before it.
pub(super) fn said(words: &str) -> Markup {
    said_in(&line(words))
}

/// The same of a line in spans.
pub(super) fn said_in(line: &Line) -> Markup {
    let short = |at: usize| matches!(line.get(at), Some(Span::Figure(text)) if is_short(text));
    html! {
        p class="setting" {
            @for (at, span) in line.iter().enumerate() {
                @match span {
                    Span::Figure(text) if is_short(text) => b class="short" { (figure(text)) },
                    Span::Word(text) if short(at + 1) && text.ends_with(' ') => {
                        (bound(text.trim_end())) "\u{a0}"
                    }
                    _ => (spanned(span)),
                }
            }
        }
    }
}

/// Whether a figure is no wider than a word.
fn is_short(text: &str) -> bool {
    text.chars().count() <= 4
}

/// A figure: its numbers large, the words beside them smaller; a long name is smaller altogether.
pub(super) fn figure(text: &str) -> Markup {
    if !has_number(text) {
        return html! { @if is_name(text) { small { (text) } } @else { (text) } };
    }
    let mut runs: Vec<(bool, String)> = Vec::new();
    for word in text.split(' ') {
        let small = is_small(text, word);
        match runs.last_mut() {
            Some((before, run)) if *before == small => *run = [run, " ", word].concat(),
            Some(_) => runs.push((small, [" ", word].concat())),
            None => runs.push((small, word.to_owned())),
        }
    }
    html! { @for (small, run) in runs { @if small { small { (run) } } @else { (run) } } }
}

/// A figure too long for its place, or a name as long as a sentence's part.
fn kind(text: &str) -> Option<&'static str> {
    if is_long(text) { Some("long") } else { is_name(text).then_some("name") }
}

/// Whether it is words alone, and many.
fn is_name(text: &str) -> bool {
    !has_number(text) && text.len() > LONG_NAME
}

/// Whether a figure is too long for a phone's line at its full size.
fn is_long(text: &str) -> bool {
    let numbers = text.split(' ').filter(|word| !is_small(text, word));
    has_number(text) && numbers.map(|word| word.chars().count() + 1).sum::<usize>() > 9
}

fn has_number(text: &str) -> bool {
    text.bytes().any(|b| b.is_ascii_digit())
}

/// Whether a word of a figure is set smaller than its numbers.
pub(super) fn is_small(figure: &str, word: &str) -> bool {
    let letters = word.chars().all(|c| c.is_alphabetic() || matches!(c, ',' | '-' | '.'));
    has_number(figure) && letters && word != "Ø"
}

/// A name longer than this doesn't stand on a phone's line as large as a figure.
const LONG_NAME: usize = 12;

/// The folds of an answer.
#[derive(Clone, Copy)]
pub struct Folds<'a> {
    /// What their names end in.
    pub of: &'a str,
    /// Which of them are open, by their names.
    pub open: &'a dyn Fn(&str) -> bool,
    /// Whether rows come only into a fold that is open: [`rows_in`](super::rows_in) gives the others' later.
    pub later: bool,
}

impl Folds<'_> {
    pub(super) fn named(&self, name: &str, title: &str, body: &Markup) -> Markup {
        let id = format!("{name}-{}", self.of);
        fold(&id, (self.open)(&id), title, body)
    }

    /// One for rows, which may come later.
    pub(super) fn rows(&self, name: &str, title: &str, body: impl FnOnce() -> Markup) -> Markup {
        let now = !self.later || (self.open)(&format!("{name}-{}", self.of));
        let body = if now { body() } else { Markup::default() };
        self.named(name, title, &body)
    }
}

/// The answer as it stands under the sentence.
///
/// `stale` is what it was for, where what is typed now isn't understood.
pub fn answer(answer: &Answer, stale: Option<&str>, shop: &Record, folds: Folds<'_>) -> Markup {
    let card = answer.found.as_ref().map(|found| found.card());
    // What was and is no more isn't kept.
    let strip =
        stale.is_none() && card.as_ref().and_then(|card| card.picture.as_ref()).is_some_and(prints);
    let class = if stale.is_some() { "answer stale" } else { "answer" };
    html! {
        div class=(class) {
            @if let Some(words) = stale {
                p class="stale-for" { "This was for: " (bound(words)) }
            }
            @if let Some(card) = &card { (setting(card)) }
            @if let Some(why) = &answer.refused { p class="refused" { (bound(why)) } }
            @if let Some(unmade) = &answer.unmade {
                p class="refused" { "The figures stand, the steps don't: " (bound(&unmade.why)) "." }
            }
            (asks(answer, shop))
            div class="folds" {
                @if let Some(card) = &card {
                    @let more = card.in_sight().1;
                    @if !more.is_empty() {
                        (folds.named("figures", &format!("more figures ({})", more.len()), &facts(&more)))
                    }
                }
                @if let (true, Ok(at)) = (strip, folds.of.parse()) {
                    (key(&Act::Strip(at), "key", "Save the scale as a strip, full size"))
                }
                @if let Some(card) = &card {
                    @if let Some(rows) = card.table.as_ref().filter(|rows| !rows.rows.is_empty()) {
                        (every_row(rows, folds))
                    }
                    @if !card.others.is_empty() {
                        (folds.named("others", &others_title(card), &others(card, folds)))
                    }
                }
                @if !answer.why.is_empty() {
                    (folds.named("why", "why", &html! {
                        @for why in &answer.why {
                            div class="why" {
                                p class="formula" { (bound(&why.formula)) }
                                p class="values" { (bound(&why.values)) }
                                p class="source" { (why.source) }
                            }
                        }
                    }))
                }
            }
            @if !answer.cautions.is_empty() {
                ul class="cautions" aria-label="Cautions" {
                    @for caution in &answer.cautions { li { (bound(caution)) } }
                }
            }
        }
    }
}

/// How something stands, as a class and as a mark before its words.
pub(super) const fn mark(tone: Tone) -> (&'static str, &'static str) {
    match tone {
        Tone::Good => ("good", "✓ "),
        Tone::Note => ("note", "≈ "),
        Tone::Mind => ("mind", "! "),
    }
}

fn setting(card: &Card) -> Markup {
    html! {
        div class="settings" {
            (lines(&card.lines))
            @if let Some((tone, words)) = &card.verdict {
                @let (class, mark) = mark(*tone);
                p class={ "verdict " (class) } { span aria-hidden="true" { (mark) } (bound(words)) }
            }
        }
        @if let Some(picture) = &card.picture {
            div class="drawing" { (PreEscaped(drawn(picture))) }
        }
        (facts(&card.in_sight().0))
    }
}

fn facts(facts: &[&Fact]) -> Markup {
    html! {
        @if !facts.is_empty() {
            dl class="facts" {
                @for fact in facts { div { dt { (fact.label) } dd { (bound(&fact.value)) } } }
            }
        }
    }
}

fn others_title(card: &Card) -> String {
    let usable = card.others.iter().filter(|other| other.usable).count();
    format!("{} ({usable})", card.others_title)
}

fn others(card: &Card, folds: Folds<'_>) -> Markup {
    let rows = |usable: bool| {
        let rows: Vec<&Other> = card.others.iter().filter(|other| other.usable == usable).collect();
        html! {
            ol class="others" {
                @for other in rows { li { b { (bound(&other.line)) } " " span { (bound(&other.note)) } } }
            }
        }
    };
    let hidden = card.others.iter().filter(|other| !other.usable).count();
    html! {
        (rows(true))
        @if hidden > 0 {
            (folds.named("not", &format!("can't be set up here ({hidden})"), &rows(false)))
        }
    }
}

/// What the answer waits for: an entry of the shop is asked for in place.
fn asks(answer: &Answer, shop: &Record) -> Markup {
    let mut places: Vec<&'static str> =
        answer.lacking.iter().filter_map(|lacking| lacking.needs.strip_prefix("shop.")).collect();
    places.sort_unstable();
    places.dedup();
    html! {
        @for place in places { (ask(place, shop)) }
    }
}

fn ask(place: &str, shop: &Record) -> Markup {
    let (path, key) = place.rsplit_once('.').unwrap_or(("", place));
    let mut shop = shop.clone();
    let found = shop.change(path, |form| {
        let field = form.spec().field(key)?;
        Some((field, form.get(key).map(Value::text)))
    });
    let Some(Some((field, text))) = found else { return html! {} };
    let of_its_own = matches!(field.shape, Shape::Record(_) | Shape::List(Shape::Record(_), ..));
    let view = FormView { form: path, sentence: &Sentence::default(), drafts: &[], editing: None };
    html! {
        p class="ask" {
            "For more, say " (entry_words(place)) ": "
            @if of_its_own {
                a class="inline" href="#shop" { "enter it in the shop" }
            } @else {
                (blank(&view, field.key, field.label, text.as_deref(), false, Beside::default()))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::figure;

    #[test]
    fn numbers_are_larger_than_the_words_beside_them() {
        for (text, html) in [
            ("Ø 9.9 mm", "Ø 9.9<small> mm</small>"),
            ("3 turns + 17", "3<small> turns</small> + 17"),
            ("75 rpm, slow belt", "75<small> rpm, slow belt</small>"),
            ("M10 × 1.25", "M10 × 1.25"),
            ("open", "open"),
            ("between centres", "<small>between centres</small>"),
        ] {
            assert_eq!(figure(text).into_string(), html);
        }
    }
}
