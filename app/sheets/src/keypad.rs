//! One keypad for every blank: digits and units for a quantity, words for a choice, the device's
//! own keyboard for a name.

use super::key;
use crate::act::Act;
use latheside_core::quantity::{Measure, Quantity, show};
use latheside_core::record::{Choice, Shape};
use maud::{Markup, html};

/// The sheet of keys for a blank, its field included.
pub fn keys(label: &str, shape: &Shape, text: &str) -> Markup {
    let choices: Option<Vec<&str>> = match shape {
        Shape::Choice(choices) => {
            Some(choices.iter().map(|choice: &Choice| choice.words).collect())
        }
        Shape::Flag => Some(vec!["yes", "no"]),
        _ => None,
    };
    let words =
        matches!(shape, Shape::Text(_) | Shape::Named(..) | Shape::List(Shape::Named(..), ..));
    html! {
        div class="pad-head" {
            h2 id="keypad-label" { (label) }
            p id="keypad-said" class="pad-said" aria-live="polite" {}
        }
        @if let Some(choices) = choices {
            div class="pad-choices" {
                @for (at, words) in choices.iter().enumerate() {
                    button type="button" class="pad-key choice" id=[(at == 0).then_some("keypad-field")]
                        aria-pressed=(*words == text) data-do=(Act::Choose((*words).to_owned())) { (words) }
                }
                (key(&Act::Choose(String::new()), "pad-key choice", "leave out"))
            }
        } @else {
            div class="pad-row" {
                input id="keypad-field" type="text" data-field="keypad" autocomplete="off"
                    autocapitalize="off" spellcheck="false" aria-labelledby="keypad-label"
                    aria-describedby="keypad-said" inputmode=(if words { "text" } else { "none" })
                    value=(text);
                button type="button" class="pad-key rub" aria-label="rub out" data-do=(Act::Rub) { "⌫" }
            }
            @if !words { (number_keys(shape)) }
            div id="suggestions" class="pad-choices" {}
        }
        div class="pad-row pad-foot" {
            (key(&Act::Done, "pad-key", "Done"))
            (key(&Act::Next, "pad-key brass", "Next blank"))
        }
    }
}

fn number_keys(shape: &Shape) -> Markup {
    let point = shape.measure().is_some();
    let list = matches!(shape, Shape::List(..) | Shape::Pair(_));
    let mut side: Vec<(&str, &str)> = match shape.measure() {
        Some(Measure::Length) => vec![("mm", " mm"), ("in", " in"), ("thou", " thou")],
        Some(Measure::Lead) => vec![("mm", " mm"), ("tpi", " tpi"), ("in", " in")],
        Some(Measure::Angle) => vec![("°", "°"), ("′", "'"), ("″", "\"")],
        Some(Measure::Ratio) => vec![("to", ":")],
        None => Vec::new(),
    };
    match shape {
        Shape::List(Shape::List(..), ..) => {
            side.extend([(",", ", "), ("–", "-"), ("next plate", "; ")]);
        }
        Shape::List(Shape::Count(..), ..) => {
            side.extend([(",", ", "), ("–", "-"), ("by", " by "), ("×", "×")]);
        }
        Shape::List(..) | Shape::Pair(_) => side.push((";", "; ")),
        _ => {}
    }
    if point && !list && !matches!(shape.measure(), Some(Measure::Ratio)) {
        side.push(("and", " "));
    }
    let press = |face: &str, types: &str| key(&Act::Type(types.to_owned()), "pad-key", face);
    html! {
        div class={ "pad-keys" @if side.is_empty() { " pad-plain" } } {
            div class="pad-digits" {
                @for digit in ["7", "8", "9", "4", "5", "6", "1", "2", "3"] { (press(digit, digit)) }
                @if point { (press(".", ".")) } @else { span {} }
                (press("0", "0"))
                @if point { (press("/", "/")) } @else { span {} }
            }
            @if !side.is_empty() {
                div class="pad-side" {
                    @for (face, types) in side { (press(face, types)) }
                }
            }
        }
    }
}

/// What could stand in the blank, to be tapped.
pub fn suggestions(words: &[String], text: &str) -> Markup {
    html! {
        @for word in words {
            @if word != text { (key(&Act::Choose(word.clone()), "pad-key choice", word)) }
        }
    }
}

/// What is said beside the field: what is wrong, else the other system or how to write it.
pub fn said(wrong: Option<&str>, shape: &Shape, entered: Option<&Quantity>) -> Markup {
    if let Some(why) = wrong {
        return html! { span class="complaint" { (why) } };
    }
    let other = entered.and_then(show::in_the_other_system);
    let words = match (entered, shape) {
        (Some(q), _) => {
            let other = other.map(|other| format!(" = {other}")).unwrap_or_default();
            format!("{}{other}", if q.assumed() { q.text() } else { "" })
        }
        (None, Shape::Count(least, most)) => format!("{least} to {most}"),
        (None, Shape::List(Shape::List(..), ..)) => {
            "15–20; 21, 23, 27: circles with commas, plates with semicolons".to_owned()
        }
        (None, Shape::List(Shape::Count(..), ..)) => "20–80 by 5, 127, or 2×20".to_owned(),
        (None, Shape::List(Shape::Named(..), ..)) => {
            "70, 110 (back gear, belt 1): the machine's own word in brackets".to_owned()
        }
        (None, Shape::Pair(_)) => "the least; the most".to_owned(),
        _ => String::new(),
    };
    html! { (words.trim_start_matches(" = ")) }
}
