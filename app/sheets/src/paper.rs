//! A setup on paper: sentences, settings, drawings, lists to tick, cautions, and its link as a square.

use super::answer::lines;
use super::picture::{drawn, printed};
use super::table::printed as rows_printed;
use super::{key, name_of, qr};
use crate::act::Act;
use latheside_core::operation::{Answer, Line, Span, Step};
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
    let all = answer.steps();
    let steps: Vec<Step> = answer.found.as_ref().map_or_else(Vec::new, |found| {
        let steps = found.steps();
        (0..all.min(STEPS_MOST)).filter_map(|at| steps.get(at)).collect()
    });
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
            @if let Some(unmade) = &answer.unmade { p { "No steps: " (unmade.why) "." } }
            @if !answer.cautions.is_empty() {
                ul class="cautions" { @for caution in &answer.cautions { li { (caution) } } }
            }
            (ticks(&steps))
            @if all > STEPS_MOST {
                p { "and " (all - STEPS_MOST) " more steps, which the bench counts" }
            }
        }
    }
}

/// So many steps alike, or so many turns of two, are told once and ticked in rows.
const ALIKE_LEAST: usize = 3;

/// Steps that are told together: from, to, and after how many they come round; 0 where each is
/// told by itself.
type Group = (usize, usize, usize);

/// The steps in order: those alike together, each with its box and its figure.
fn ticks(steps: &[Step]) -> Markup {
    let mut groups: Vec<Group> = Vec::new();
    let mut at = 0;
    while at < steps.len() {
        let run = [1, 2].map(|round| (round, rounds(&steps[at..], round)));
        let run = run.into_iter().find(|(_, times)| *times >= ALIKE_LEAST);
        match (run, groups.last_mut()) {
            (Some((round, times)), _) => groups.push((at, at + round * times, round)),
            // One by one, they stand in one list.
            (None, Some((_, to, 0))) => *to += 1,
            (None, _) => groups.push((at, at + 1, 0)),
        }
        at = groups.last().map_or(at + 1, |(_, to, _)| *to);
    }
    html! {
        @for (from, to, round) in groups {
            @if round > 0 {
                (run(&steps[from..to], round))
            } @else {
                ol class="ticks" {
                    @for at in from..to { (tick(&steps[at], at.checked_sub(1).map(|before| &steps[before]))) }
                }
            }
        }
    }
}

/// How often the first so many steps come round again, each time alike.
fn rounds(steps: &[Step], round: usize) -> usize {
    let alike =
        |turn: &[Step]| turn.iter().zip(steps).all(|(step, first)| kind(step) == kind(first));
    steps.chunks_exact(round).take_while(|turn| alike(turn)).count()
}

/// What steps that are alike share: the title up to a comma, its numbers left out, and the label.
fn kind(step: &Step) -> (String, &str) {
    let head = step.title.split(',').next().unwrap_or_default();
    let words = head.split(' ').map(|word| {
        if word.bytes().all(|b| b.is_ascii_digit()) && !word.is_empty() { "#" } else { word }
    });
    (words.collect::<Vec<_>>().join(" "), &step.label)
}

/// A line word by word: figures apart, and whatever has a number in it.
fn words(line: &Line) -> Vec<(bool, &str)> {
    let of = |span: &'_ Span| matches!(span, Span::Figure(_));
    line.iter()
        .flat_map(|span| span.text().split(' ').map(move |word| (of(span), word)))
        .filter(|(_, word)| !word.is_empty())
        .map(|(figure, word)| (figure || word.bytes().any(|b| b.is_ascii_digit()), word))
        .collect()
}

/// Whether two lines differ in their figures alone.
fn same_but_figures(a: &Line, b: &Line) -> bool {
    let (one, other) = (words(a), words(b));
    one.len() == other.len() && one.iter().zip(&other).all(|(a, b)| a.1 == b.1 || (a.0 && b.0))
}

/// What is done at each of several steps, and what of it differs from one to the next.
struct Told {
    /// The lines that all share, an ellipsis for each figure that differs.
    shared: Line,
    /// For each step the figures that differ, those left out that are its own large one.
    figures: Vec<Vec<String>>,
}

fn told(steps: &[&Step]) -> Told {
    let mut told = Told { shared: Line::new(), figures: vec![Vec::new(); steps.len()] };
    let all: Vec<Vec<Line>> = steps.iter().map(|step| step.lines()).collect();
    for say in all.first().map_or(&[][..], Vec::as_slice) {
        let here: Vec<&Line> = all.iter().filter_map(|lines| like(lines, say)).collect();
        if here.len() < steps.len() {
            continue;
        }
        let each: Vec<Vec<(bool, &str)>> = here.iter().map(|line| words(line)).collect();
        for (at, (figure, word)) in each[0].iter().enumerate() {
            let stop = word.starts_with(['.', ',', ':', ';']);
            let space = if told.shared.is_empty() || stop { "" } else { " " };
            if each.iter().all(|other| other[at].1 == *word) {
                told.shared.push(Span::Word(space.to_owned()));
                told.shared.push(match figure {
                    true => Span::Figure((*word).to_owned()),
                    false => Span::Word((*word).to_owned()),
                });
                continue;
            }
            let end = word.trim_end_matches(['.', ',', ':', ';']);
            told.shared.push(Span::Word(format!("{space}…{}", &word[end.len()..])));
            for (figures, (step, other)) in told.figures.iter_mut().zip(steps.iter().zip(&each)) {
                let bare = other[at].1.trim_end_matches(['.', ',', ':', ';']);
                if !step.figure.split([' ', ',']).any(|part| part == bare) {
                    figures.push(bare.to_owned());
                }
            }
        }
    }
    told
}

/// The line among others that is another but for its figures.
fn like<'a>(lines: &'a [Line], say: &Line) -> Option<&'a Line> {
    lines.iter().find(|other| same_but_figures(other, say))
}

/// Steps alike, or turns of two: what is done each time, and a row of boxes with the figures.
fn run(steps: &[Step], round: usize) -> Markup {
    let columns: Vec<Vec<&Step>> =
        (0..round).map(|at| steps.iter().skip(at).step_by(round).collect()).collect();
    let told: Vec<Told> = columns.iter().map(|column| told(column)).collect();
    html! {
        div class="run" {
            @for (column, told) in columns.iter().zip(&told) {
                @if let Some(first) = column.first() {
                    @let (title, label) = kind(first);
                    p class="run-what" {
                        b { (title.replace(" # of #", "").replace(" #", "")) }
                        @if !label.is_empty() { " · " (label) }
                    }
                    p class="run-say" { (lines(std::slice::from_ref(&told.shared))) }
                }
            }
            ol class="run-ticks" {
                @for (at, turn) in steps.chunks(round).enumerate() {
                    li {
                        @for (nth, (step, (column, told))) in turn.iter().zip(columns.iter().zip(&told)).enumerate() {
                            (ticked(step, column, &told.figures[at], (nth == 0).then_some(at)))
                        }
                    }
                }
            }
        }
    }
}

/// A box and what differs; of a turn's first step its number and its figure too.
fn ticked(step: &Step, alike: &[&Step], figures: &[String], first: Option<usize>) -> Markup {
    let said = step.lines();
    let own = |say: &&Line| alike.iter().any(|step| like(&step.lines(), say).is_none());
    let more = step.title.split_once(',').map_or("", |(_, more)| more);
    html! {
        span class=(if first.is_some() { "box" } else { "box box-next" }) {}
        @if let Some(at) = first {
            span class="run-number" { (number(step).unwrap_or_else(|| (at + 1).to_string())) }
            " " b { (step.figure) } (more)
        }
        @for figure in figures { span class="run-number" { " · " (figure) } }
        @for say in said.iter().filter(own) { (lines(std::slice::from_ref(say))) }
    }
}

/// The first number in a step's title.
fn number(step: &Step) -> Option<String> {
    step.title.split([' ', ',']).find(|word| word.parse::<u32>().is_ok()).map(str::to_owned)
}

/// A step with a box to tick; of one like the step before only what differs is said.
fn tick(step: &Step, before: Option<&Step>) -> Markup {
    let (said, before) = (step.lines(), before.map(Step::lines).unwrap_or_default());
    let new = |say: &&Line| !before.contains(say);
    html! {
        li {
            span class="box" {}
            b { (step.title) }
            @if !step.figure.is_empty() { " · " (step.label) " " b { (step.figure) } }
            @for say in said.iter().filter(new) { (lines(std::slice::from_ref(say))) }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pass(n: usize, figure: &str, say: &[&str]) -> Step {
        Step {
            title: format!("Pass {n} of 4"),
            say: say.iter().map(|say| (*say).to_owned()).collect(),
            label: "cross dial".to_owned(),
            figure: figure.to_owned(),
            ..Step::default()
        }
    }

    #[test]
    fn steps_alike_are_told_once_and_lose_nothing() {
        let steps = [
            Step { title: "Scratch".to_owned(), ..Step::default() },
            pass(1, "8", &["Tool clear.", "In to *8*."]),
            pass(2, "12", &["Tool clear.", "In to *12*."]),
            pass(3, "15", &["Tool clear.", "In to *15*.", "Half a line short: go beyond it."]),
            Step { title: "Measure".to_owned(), ..Step::default() },
        ];
        let html = ticks(&steps).into_string();
        assert_eq!(html.matches("Tool clear.").count(), 1, "{html}");
        assert!(html.contains("Tool clear. In to …."), "{html}");
        assert_eq!(html.matches("Half a line short").count(), 1, "{html}");
        assert_eq!(html.matches("class=\"box\"").count(), 5, "{html}");
        for figure in ["<b>8</b>", "<b>12</b>", "<b>15</b>"] {
            assert!(html.contains(figure), "{html}");
        }
        // What differs besides the large figure stands in its row.
        let way = |n: usize, tooth: usize| {
            let say = format!("Forward *3* teeth, into tooth *{tooth}*: {}°.", n * 15);
            pass(n, &tooth.to_string(), &[&say])
        };
        let html = ticks(&[way(1, 3), way(2, 6), way(3, 9)]).into_string();
        assert!(html.contains("teeth, into tooth …: …."), "{html}");
        assert!(html.contains("<b>6</b><span class=\"run-number\"> · 30°</span>"), "{html}");
        assert_eq!(html.matches("teeth").count(), 1, "{html}");
        // So are turns of two: a move and its cut.
        let cut = |n: usize| Step {
            title: format!("cut {n} of 4"),
            say: vec!["Look at the lock.".to_owned()],
            ..Step::default()
        };
        let turns = [way(1, 3), cut(1), way(2, 6), cut(2), way(3, 9), cut(3)];
        let html = ticks(&turns).into_string();
        assert_eq!(html.matches("Look at the lock.").count(), 1, "{html}");
        assert_eq!(html.matches("class=\"box").count(), 6, "{html}");
        assert_eq!(html.matches("<li>").count(), 3, "{html}");
        // Two are no run.
        assert!(!ticks(&steps[..3]).into_string().contains("class=\"run\""));
    }
}
