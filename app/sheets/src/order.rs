//! What the order of the operations spoils, and a better one.

use super::key;
use crate::act::Act;
use latheside_core::setup::Order;
use maud::{Markup, html};

/// What there is to say of an order; nothing where there is nothing.
pub fn order(order: &Order) -> Markup {
    if order.is_empty() {
        return html! {};
    }
    html! {
        section class="order" aria-label="order and holding" {
            @if !order.remarks.is_empty() {
                h2 { "Before you begin" }
                ul class="cautions" {
                    @for remark in &order.remarks {
                        li { b { (first_large(&remark.words)) "." } " " (remark.why) }
                    }
                }
            }
            @if let Some(places) = &order.proposed {
                @let numbers: Vec<String> = places.iter().map(|at| (at + 1).to_string()).collect();
                @let act: Vec<String> = places.iter().map(usize::to_string).collect();
                p class="small" { "A better order: " b { (numbers.join(", ")) } "." }
                (key(&Act::Arrange(act.join(" ")), "key", "Put them in that order"))
            }
            @if let Some((_, words)) = &order.rehearse { p class="small" { (words) } }
        }
    }
}

fn first_large(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use latheside_core::setup;

    #[test]
    fn a_better_order_is_a_tap_away() {
        let file = r#"{"format":"latheside-setup","version":1,"operations":[
            {"kind":"part-off","diameter":"20 mm"},{"kind":"hole","purpose":"tap","designation":"M6"}]}"#;
        let html = order(&setup::order(&setup::read_file(file).unwrap())).into_string();
        assert!(
            html.contains("After parting off in 1 nothing is left to hold for tapping in 2."),
            "{html}"
        );
        assert!(html.contains("data-do=\"arrange 1 0\""), "{html}");
        assert!(order(&Order::default()).into_string().is_empty());
    }
}
