//! A setup from elsewhere worked again for this shop: both answers side by side.

use super::answer::lines;
use latheside_core::operation::{Answer, Card, Tone};
use latheside_core::shop::entry_words;
use maud::{Markup, html};

/// One operation: its sentence, what it comes to there, and what it comes to here.
pub type Both = (String, Answer, Answer);

fn card(answer: &Answer) -> Option<Card> {
    answer.found.as_ref().map(|found| found.card())
}

/// Whether it can't be done as it stands: nothing found, or no way of setting it with what is owned.
fn cannot(answer: &Answer) -> bool {
    let no_way = |key: &str| key == "ways" || key == "trains";
    card(answer).is_none_or(|card| card.lines.is_empty())
        || answer.lacking.iter().any(|gap| no_way(gap.key))
}

fn same(there: &Answer, here: &Answer) -> bool {
    match (card(there), card(here)) {
        (Some(there), Some(here)) => {
            there.lines == here.lines && there.verdict == here.verdict && there.facts == here.facts
        }
        (None, None) => true,
        _ => false,
    }
}

/// The answers beside each other, and first how many differ.
pub fn beside(all: &[Both], there: &str, here: &str) -> Markup {
    let cannot_be = all.iter().filter(|(_, _, mine)| cannot(mine)).count();
    let alike = all.iter().filter(|(_, theirs, mine)| !cannot(mine) && same(theirs, mine)).count();
    let differ = all.len() - alike - cannot_be;
    html! {
        section class="beside" aria-label="on my machine" {
            p class="small" {
                "On my machine: " (alike) " the same, " (differ) " set otherwise"
                @if cannot_be > 0 { ", " b { (cannot_be) " can't be done as they stand" } } "."
            }
            @for (at, (sentence, theirs, mine)) in all.iter().enumerate() {
                @if !same(theirs, mine) || cannot(mine) {
                    div class="beside-op" {
                        p class="beside-what" { (at + 1) ". " (sentence) }
                        div class="beside-both" {
                            div { p class="bench-label" { (there) } (told(theirs)) }
                            div { p class="bench-label" { (here) } (told(mine)) }
                        }
                        (apart(theirs, mine))
                    }
                }
            }
        }
    }
}

fn told(answer: &Answer) -> Markup {
    let card = card(answer);
    html! {
        @if let Some(card) = &card {
            (lines(&card.lines))
            @if let Some((tone, words)) = &card.verdict {
                p { @if *tone == Tone::Mind { "! " } (words) }
            }
        }
        @if let Some(why) = &answer.refused { p class="refused" { (why) } }
    }
}

/// The small settings that differ, and what the shop here lacks.
fn apart(theirs: &Answer, mine: &Answer) -> Markup {
    let facts = |answer| card(answer).map(|card| card.facts).unwrap_or_default();
    let (there, here) = (facts(theirs), facts(mine));
    let value = |label: &str| {
        here.iter().find(|fact| fact.label == label).map_or("not here", |fact| fact.value.as_str())
    };
    let differ: Vec<_> = there.iter().filter(|fact| value(&fact.label) != fact.value).collect();
    let lacks = mine.lacking.iter().filter(|gap| {
        gap.needs.starts_with("shop.")
            && theirs.lacking.iter().all(|other| other.needs != gap.needs)
    });
    let mut lacks: Vec<String> =
        lacks.map(|gap| entry_words(gap.needs.trim_start_matches("shop."))).collect();
    lacks.dedup();
    html! {
        @if !differ.is_empty() {
            dl class="facts" {
                @for fact in differ {
                    div { dt { (fact.label) } dd { (fact.value) " → " (value(&fact.label)) } }
                }
            }
        }
        @if !lacks.is_empty() { p class="small" { "This shop doesn't say: " (lacks.join(", ")) "." } }
    }
}
