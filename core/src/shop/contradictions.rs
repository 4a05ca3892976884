//! What in a shop can't be so.

use super::Shop;
use crate::quantity::show;
use crate::record::{Record, counts};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// What contradicts itself, each with the path of the entry to look at and a sentence.
#[must_use]
pub fn contradictions(shop: &Shop) -> Vec<(&'static str, String)> {
    let mut found = Vec::new();
    let lathe = shop.lathe();
    if !lathe.list("chasing_dials").is_empty() && shop.leadscrew().is_none() {
        found.push((
            "lathe.chasing_dials",
            String::from("a chasing dial runs on the leadscrew: enter the leadscrew too"),
        ));
    }
    for dial in shop.chasing_dials() {
        if dial.marks > dial.wheel_teeth {
            found.push((
                "lathe.chasing_dials",
                format!(
                    "{} on a wheel of {}: a mark between teeth can't be used",
                    show::many(dial.marks, "mark", "marks"),
                    show::many(dial.wheel_teeth, "tooth", "teeth")
                ),
            ));
        }
    }
    if let Some(least_most) = backwards(lathe, "centres_teeth") {
        found.push(("lathe.centres_teeth", least_most));
    }
    if let Some(banjo) = lathe.record("banjo") {
        let slot: Vec<_> = banjo.list("slot").iter().map(crate::record::Value::bare).collect();
        if let [crate::record::Value::Quantity(least), crate::record::Value::Quantity(most)] =
            slot.as_slice()
            && least.value() > most.value()
        {
            found.push((
                "lathe.banjo.slot",
                format!(
                    "the slot runs from {} to {}: the smaller first",
                    least.text(),
                    most.text()
                ),
            ));
        }
        for key in ["module", "centres", "slot", "boss_radius"] {
            if banjo.get(key).is_none() {
                let label = banjo.spec().field(key).map_or(key, |field| field.label);
                found.push((
                    "lathe.banjo",
                    format!(
                        "a banjo decides what mounts only when all of it is known: enter {label}"
                    ),
                ));
            }
        }
    }
    let speeds = shop.speeds();
    for pair in speeds.windows(2) {
        if let [slow, fast] = pair
            && slow.rpm == fast.rpm
        {
            found.push(("lathe.spindle_speeds", format!("{} rpm is entered twice", slow.rpm)));
        }
    }
    if let Some(head) = shop.dividing().and_then(|dividing| dividing.record("head")) {
        for (at, plate) in head.list("plates").iter().enumerate() {
            let crate::record::Value::List(circles) = plate else { continue };
            let mut circles = counts(circles);
            circles.sort_unstable();
            for pair in circles.windows(2) {
                if let [a, b] = pair
                    && a == b
                {
                    let plate = at.saturating_add(1);
                    found.push((
                        "dividing.head.plates",
                        format!("the circle of {a} is entered twice on plate {plate}"),
                    ));
                }
            }
        }
        if head.count("worm_ratio").is_none() {
            found.push((
                "dividing.head.worm_ratio",
                String::from("a dividing head needs its worm's ratio: 40 turns for one, say"),
            ));
        }
    }
    for holder in shop.record().records("holding") {
        if let (Some(from), Some(to)) = (holder.quantity("from"), holder.quantity("to"))
            && from.value() > to.value()
        {
            found.push((
                "holding",
                format!(
                    "{} grips from {} to {}: the smaller first",
                    holder.text("name").unwrap_or("a holder"),
                    from.text(),
                    to.text()
                ),
            ));
        }
    }
    found
}

fn backwards(record: &Record, key: &str) -> Option<String> {
    match counts(record.list(key)).as_slice() {
        [least, most] if least > most => {
            Some(format!("from {least} to {most} runs backwards: the smaller first"))
        }
        _ => None,
    }
}
