//! Where a cut's figures come from.

use super::super::feeding::Time;
use super::{Cut, words};
use crate::cutting::{FeedUnit, PrintedUnit};
use crate::exact::Ratio;
use crate::operation::Why;
use crate::quantity::{Unit, show};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

pub(super) fn why(cut: &Cut, travel: Option<Ratio>) -> Vec<Why> {
    let mut whys = Vec::from([book(cut)]);
    let (Some(at), Some(diameter)) = (&cut.at, &cut.diameter) else { return whys };
    let (low, high) = (show::float(cut.book.low, 1), show::float(cut.book.high, 1));
    let d = show::mm(diameter.value());
    // Where books differ they stand beside one another.
    whys.extend(at.speeds.iter().skip(1).map(|other| {
        let speed = words::surface(other.low, other.high, diameter.unit());
        Why::new("v, by another book", speed, other.source)
    }));
    whys.push(Why::new(
        "n = 1000·v / (π·d)",
        format!(
            "1000 × {low} to {high} m/min / (π × {d}) = {} to {} rpm",
            words::rpm(at.range.low),
            words::rpm(at.range.high),
        ),
        "arithmetic",
    ));
    if let Some((pick, _)) = cut.spindle() {
        whys.push(Why::new(
            "the highest speed in the range, or no more than a twentieth beyond it; else the highest below, else the lowest there is",
            format!("{} rpm: {}", words::rpm(pick.rpm), pick.verdict),
            "common practice, no source",
        ));
    }
    if let (Some(feed), Some(per_minute)) = (at.feeds.first(), cut.feed_mm_per_min) {
        let range = format!("{} to {} mm", show::float(feed.low, 4), show::float(feed.high, 4));
        let n = words::rpm(at.rpm);
        let fine = show::float(feed.low, 4);
        let makes = show::float(per_minute, 1);
        // What the books make, before a hand lifts it.
        let book = match (feed.unit, cut.teeth) {
            (FeedUnit::PerTooth, Some(teeth)) => at.rpm * feed.low * f64::from(teeth),
            _ => at.rpm * feed.low,
        };
        let makes = match cut.hand_mm_per_min.filter(|_| cut.beat.is_some()) {
            Some(_) => {
                let book = show::float(book, 1);
                format!("{book} mm/min, by hand no less than {makes}")
            }
            None => format!("{makes} mm/min"),
        };
        let (formula, values) = match (feed.unit, cut.teeth) {
            (FeedUnit::PerTooth, Some(teeth)) => (
                "feed = n · teeth · chip, at the fine end of the book's range",
                format!("{n} × {teeth} × {fine} (of {range}) = {makes}"),
            ),
            _ => (
                "feed = n · feed a turn, at the fine end of the book's range",
                format!("{n} × {fine} (of {range}) = {makes}"),
            ),
        };
        whys.push(Why::new(formula, values, feed.source));
    }
    whys.extend(at.feeds.iter().skip(1).map(|other| {
        let per = if other.unit == FeedUnit::PerTooth { "a tooth" } else { "a turn" };
        let (low, high) = (words::chip(other.low, cut.like), words::chip(other.high, cut.like));
        let range = if low == high { low } else { format!("{low} to {high}") };
        Why::new("feed, by another book", format!("{range} {per}"), other.source)
    }));
    if let (Some(beat), Some(travel), Some(feed)) = (&cut.beat, travel, cut.feed_mm_per_min) {
        let mut values = format!(
            "{} × {} × 60 / {} mm/min = {}",
            beat.turn,
            show::mm(travel),
            show::float(beat.feed_mm_per_min, 1),
            words::seconds(beat),
        );
        if beat.held_back(feed) {
            values.push_str(", as quick as a hand can follow");
        }
        whys.push(Why::new(
            "seconds = share of a turn · travel a turn · 60 / feed",
            values,
            "arithmetic",
        ));
    }
    if let (Some(power), Some(wanted)) = (&cut.power_feed, cut.feed_along()) {
        whys.push(power.why(wanted, cut.like));
    }
    if let Some(load) = &cut.load {
        whys.extend(load.why());
    }
    whys.extend(cut.time(cut.passes.unwrap_or(1)).map(Time::why));
    whys
}

/// The surface speed as printed, with the rules that carry it over.
fn book(cut: &Cut) -> Why {
    let (low, high, unit) = cut.book.printed;
    let unit = match unit {
        PrintedUnit::FeetPerMinute => "ft/min",
        PrintedUnit::MetresPerMinute => "m/min",
    };
    let hard = cut
        .stock
        .brinell()
        .map_or_else(String::new, |(least, most)| format!(" of {least} to {most} Brinell"));
    let mut values = format!("{}{hard} with {}: {low}", cut.stock, cut.material);
    if low != high {
        values.push_str(&format!(" to {high}"));
    }
    values.push_str(&format!(" {unit}"));
    let mut source = String::from(cut.book.source);
    for rule in cut.book.rules.iter().flatten().filter(|rule| rule.low != 1.0 || rule.high != 1.0) {
        let (low, high) = (show::float_trimmed(rule.low, 2), show::float_trimmed(rule.high, 2));
        values.push_str(&format!(" × {low}"));
        if low != high {
            values.push_str(&format!(" to {high}"));
        }
        source.push_str("; ");
        source.push_str(rule.source);
    }
    values.push_str(&format!(" = {}", words::surface(cut.book.low, cut.book.high, Unit::Mm)));
    if cut.assumed {
        values.push_str("; no cutter material is given, so high-speed steel is assumed");
    }
    Why::new("v as printed", values, source)
}
