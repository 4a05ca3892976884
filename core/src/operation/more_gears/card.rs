//! The gears to get, and what they bring, as a screen takes it.

use super::super::{Card, Fact, Other, Tone, line};
use super::answer::MoreGears;
use crate::chart::Added;
use crate::quantity::show;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// How many other sets, and how many names of what is gained, stand on the card.
const OTHERS: usize = 40;
const NAMES: usize = 4;

pub(super) fn card(more: &MoreGears) -> Card {
    let found = &more.found;
    let what = if more.circles { "holes" } else { "teeth" };
    let (least, most, _) = more.sizes;
    let Some(best) = found.best.first().filter(|_| found.gained > 0) else {
        let tried = format!("nothing from *{least}* to *{most}* {what}");
        let said = format!("{} of {} as it is, and no more with it", found.before, found.of);
        return Card {
            lines: Vec::from([line(&tried)]),
            verdict: Some((Tone::Note, said)),
            ..Card::default()
        };
    };
    let served = match (more.circles, more.near) {
        (true, _) => "become possible",
        (false, true) => "come near enough",
        (false, false) => "become exact",
    };
    let verdict =
        format!("{} more of {} {served}; {} were before", found.gained, found.of, found.before);
    let mut facts = Vec::from([Fact::new("brings", names(more, &best.gained))]);
    if best.gears.len() > 1 {
        let together = best
            .gained
            .iter()
            .filter(|place| !best.alone.iter().any(|alone| alone.contains(place)));
        let together = together.count();
        for (teeth, alone) in best.gears.iter().zip(&best.alone) {
            facts.push(Fact::new(format!("{teeth} alone"), alone.len().to_string()));
        }
        if together > 0 {
            facts.push(Fact::new("only together", together.to_string()));
        }
    }
    facts.push(Fact::new("sets tried", show::count(found.tried)));
    if found.ties > 1 {
        facts.push(Fact::new("as good as this one", show::count(found.ties.saturating_sub(1))));
    }
    let others = found.best.iter().skip(1).take(OTHERS).map(|added| Other {
        line: format!("{} {what}", set(added, "")),
        note: "as good".to_owned(),
        usable: true,
    });
    Card {
        lines: Vec::from([line(&format!("{} {what}", set(best, "*")))]),
        verdict: Some((Tone::Good, verdict)),
        facts,
        others_title: "other sets",
        others: others.collect(),
        ..Card::default()
    }
}

/// "44 and 63", each between stars where `star` is one.
fn set(added: &Added, star: &str) -> String {
    let each = added.gears.iter().map(|teeth| format!("{star}{teeth}{star}"));
    let each: Vec<String> = each.collect();
    match each.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        _ => each.concat(),
    }
}

/// The first few names, and how many more.
fn names(more: &MoreGears, places: &[usize]) -> String {
    let names = places.iter().filter_map(|place| more.names.get(*place));
    let first: Vec<&str> = names.take(NAMES).map(String::as_str).collect();
    let mut text = first.join(", ");
    if places.len() > first.len() {
        text.push_str(&format!(", {} more", places.len().saturating_sub(first.len())));
    }
    text
}
