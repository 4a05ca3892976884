//! The thread's settings as a screen takes them.

use super::super::{Card, Fact, Other, Picture, Tone, line};
use super::answer::Thread;
use super::cut::Cut;
use super::gears::{Gears, NoGears};
use super::section::section;
use super::sizes::Sizes;
use super::words;
use crate::exact::Ratio;
use crate::gearing::Train;
use crate::quantity::{MM_PER_INCH, show};
use crate::threads::{Class, LimitsError, Side, bore_by_engagement};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Past so much of the tolerance an inexact lead is something to look out for; past all of it the
/// nut binds. Common practice, no source.
const MUCH: f64 = 0.5;

pub(super) fn card(thread: &Thread) -> Card {
    let mut card = Card { facts: facts(thread), others_title: "other trains", ..Card::default() };
    match &thread.gears {
        Ok(gears) => with_gears(thread, gears, &mut card),
        Err(NoGears::Because(why)) => card.verdict = Some((Tone::Mind, why.clone())),
        Err(_) => {
            card.picture = section(thread, None);
            card.lines.push(line(&format!("a lead of *{}*", thread.wanted.lead_text())));
        }
    }
    card
}

fn with_gears(thread: &Thread, gears: &Gears, card: &mut Card) {
    let Some(first) = gears.train() else { return };
    card.lines = first.pairs().iter().map(|pair| line(&words::drives(pair))).collect();
    card.lines.extend(words::lever(gears, first).map(|lever| line(&lever)));
    card.verdict = Some(verdict(thread, gears, first));
    card.picture = Some(picture(gears, first));
    let rest = gears.found.best.iter().enumerate().filter(|(at, _)| *at != gears.chosen());
    card.others = rest
        .map(|(at, train)| {
            // By its number it can be asked for.
            let off = words::off(gears, train, &thread.wanted);
            let mut note = format!("train {}: {off}", at.saturating_add(1));
            if !train.mountable {
                note.push_str(&format!("; can't be mounted: {}", words::why_not(gears, train)));
            }
            Other { line: words::in_a_line(gears, train), note, usable: train.mountable }
        })
        .collect();
}

/// The train, to be drawn.
pub(super) fn picture(gears: &Gears, train: &Train) -> Picture {
    Picture::Train {
        pairs: train.pairs().iter().map(|pair| (pair.driver, pair.driven)).collect(),
        idlers: gears.drawn(train),
    }
}

fn verdict(thread: &Thread, gears: &Gears, train: &Train) -> (Tone, String) {
    if !train.mountable {
        let why = words::why_not(gears, train);
        return (Tone::Mind, format!("these gears can't be mounted on this banjo: {why}"));
    }
    let exact = gears.exact(train, thread.wanted.lead);
    let off = words::off(gears, train, &thread.wanted);
    let mut said = match gears.measured {
        true => format!("goes on this banjo · {off}"),
        false => format!("{off} · banjo not measured"),
    };
    let share = thread.share().filter(|_| !exact);
    if let Some(eaten) = share.and_then(|share| eaten(thread, share)) {
        said.push_str(" · ");
        said.push_str(&eaten);
    }
    let tone = match share {
        _ if exact => Tone::Good,
        Some(share) if share > MUCH => Tone::Mind,
        _ => Tone::Note,
    };
    (tone, said)
}

/// "the lead's error takes 4 % of the 6g tolerance".
fn eaten(thread: &Thread, share: f64) -> Option<String> {
    let class = thread.sizes.as_ref()?.limits.as_ref().ok()?.class;
    let percent = share * 100.0;
    let percent = match percent {
        p if p < 0.5 => "less than 1".to_owned(),
        p => show::float(p, 0),
    };
    let eaten = format!("the lead's error takes {percent} % of the {class} tolerance");
    Some(match &thread.wanted.engaged {
        Some(nut) if share < 1.0 => format!("fits a nut of {}: {eaten}", nut.text()),
        Some(nut) => format!("binds in a nut of {}: {eaten}", nut.text()),
        None => eaten,
    })
}

fn facts(thread: &Thread) -> Vec<Fact> {
    let mut facts = Vec::new();
    if let Ok(gears) = &thread.gears
        && let Some(train) = gears.best()
        && let Some(idlers) = words::idlers(gears, train)
    {
        facts.push(Fact::new("idlers", idlers));
    }
    if let Ok(gears) = &thread.gears
        && let Some(asked) = gears.asked
        && usize::try_from(asked).is_ok_and(|asked| asked > gears.found.best.len())
    {
        let listed = gears.found.best.len();
        facts.push(Fact::new("train asked for", format!("{asked}, of {listed} here")));
    }
    if let Some(nuts) = &thread.nuts {
        facts.push(Fact::new("half-nuts", nuts.words()));
        facts
            .extend(nuts.off_words(1).map(|off| Fact::seldom("at a wrong mark it is off by", off)));
    }
    if let Some(pace) = &thread.pace {
        facts.push(Fact::new("spindle", pace.words()));
        facts.extend(pace.takes(thread).map(|time| Fact::new("it takes", time.words())));
    }
    if let Some(class) = &thread.wanted.no_class {
        facts.push(Fact::new("class", format!("“{class}” isn't one of this thread's")));
    } else if let Some(sizes) = &thread.sizes
        && let Err(why @ (LimitsError::WrongClass(..) | LimitsError::NotAtThisPitch(_))) =
            &sizes.limits
    {
        facts.push(Fact::new("class", why.to_string()));
    }
    let Some(sizes) = &thread.sizes else { return facts };
    match &thread.cut {
        Some(Ok(cut)) => {
            let depth = show::length_like(sizes.depth, cut.dial.unit);
            facts.push(Fact::new("depth", format!("{depth}: {}", full_depth(cut))));
        }
        _ => facts.push(Fact::new("depth", thread.wanted.length_text(sizes.depth))),
    }
    let inside = thread.wanted.side == Side::Inside;
    // Of a hole the bore is measured.
    let by_the_line = super::proof::by_the_line(thread);
    facts.extend(by_the_line.into_iter().map(|(label, value)| Fact::new(label, value)));
    facts.extend(pitch_diameter(thread, sizes).map(|fact| Fact { seldom: inside, ..fact }));
    match thread.wanted.side {
        Side::Outside => facts.extend(over_wires(thread)),
        Side::Inside => {
            facts.extend(bore(thread, sizes));
            facts.extend(bore_for_the_nut(thread, sizes));
            facts.extend(tapping(thread));
        }
    }
    if let Some(tool) = &thread.tool {
        let mut said = tool.point(thread, sizes);
        if let Some(sides) = tool.sides() {
            said.push_str(", ");
            said.push_str(&sides);
        }
        facts.push(Fact::seldom("tool", said));
    }
    facts
}

/// The dial at full depth, and what its lines leave over: "cross dial at 1 turn + 21, 0.001 mm
/// short".
fn full_depth(cut: &Cut) -> String {
    let Some(last) = cut.passes.passes.last() else { return String::new() };
    let mut text = format!("{} at {}", cut.slide(), cut.shown(last.lines));
    if cut.backwards {
        text.push_str(&format!(", {} back", show::many(last.lines, "line", "lines")));
    }
    if let Some(set_over) = cut.set_over("") {
        text.push_str(&format!(", set over {set_over}"));
    }
    let short = cut.passes.short;
    // What a tenth of a line is can't be set by eye.
    let line = cut.dial.travel_per_line();
    let tenth = line.div(Ratio::whole(10)).unwrap_or(line);
    if short.abs() >= tenth {
        let way = if short.is_negative() { "deep" } else { "short" };
        text.push_str(&format!(", {} {way}", show::length_like(short.abs(), cut.dial.unit)));
    }
    text
}

/// A length that a micrometer reads, in the thread's own system.
pub(super) fn length(thread: &Thread, mm: f64) -> String {
    if thread.wanted.inch {
        format!("{} in", show::float(mm / MM_PER_INCH.to_f64(), 4))
    } else {
        format!("{} mm", show::float(mm, 3))
    }
}

/// "8.862 to 8.994 mm", in the thread's own system.
pub(super) fn range(thread: &Thread, min: f64, max: f64) -> String {
    if thread.wanted.inch {
        format!("{} to {}", show::float(min / MM_PER_INCH.to_f64(), 4), measured(thread, max))
    } else {
        format!("{} to {}", show::float(min, 3), measured(thread, max))
    }
}

/// A size to the last place that is measured, in the thread's own system.
pub(super) fn measured(thread: &Thread, mm: f64) -> String {
    if thread.wanted.inch {
        format!("{} in", show::float(mm / MM_PER_INCH.to_f64(), 4))
    } else {
        format!("{} mm", show::float(mm, 3))
    }
}

fn pitch_diameter(thread: &Thread, sizes: &Sizes) -> Option<Fact> {
    let Ok(limits) = &sizes.limits else {
        let basic = sizes.pitch?;
        return Some(Fact::new("pitch diameter", thread.wanted.length_text(basic)));
    };
    let text = range(thread, limits.pitch.min?, limits.pitch.max?);
    Some(Fact::new(format!("pitch diameter, {}", limits.class), text))
}

fn over_wires(thread: &Thread) -> Option<Fact> {
    let wires = thread.wires.as_ref()?;
    let (wire, (min, max)) = wires.taken(thread)?;
    let mut text = range(thread, min, max);
    if wires.any_owned && wires.owned.is_none() {
        let fit = range(thread, wires.fit.least, wires.fit.greatest);
        text.push_str(&format!("; of yours none fits: they may be {fit}"));
    }
    Some(Fact::new(format!("over wires of {wire}"), text))
}

/// The owned drill for it, where it leaves a thread worth having.
fn tapping(thread: &Thread) -> Option<Fact> {
    let tap = thread.tap.as_ref()?.1.as_ref()?;
    let percent = tap.percent.of_chart;
    let mut text = format!("{}, {} % of thread (of 3/4 H)", tap.drill, show::float(percent, 0));
    for (drill, percent) in &tap.beside {
        text.push_str(&format!("; {drill}, {} %", show::float(*percent, 0)));
    }
    (40.0..100.0).contains(&percent).then(|| Fact::new("tapping drill", text))
}

fn bore(thread: &Thread, sizes: &Sizes) -> Option<Fact> {
    if let Ok(limits) = &sizes.limits {
        let text = range(thread, limits.minor.min?, limits.minor.max?);
        return Some(Fact::new("bore first", text));
    }
    Some(Fact::new("bore first", thread.wanted.length_text(sizes.minor?)))
}

/// The part of a unified nut's bore that suits its length.
fn bore_for_the_nut(thread: &Thread, sizes: &Sizes) -> Option<Fact> {
    let wanted = &thread.wanted;
    let limits = sizes.limits.as_ref().ok()?;
    if !matches!(limits.class, Class::Unified(..)) {
        return None;
    }
    let long = wanted.engaged.as_ref().or(wanted.length.as_ref())?;
    let diameters = long.to_f64() / wanted.thread.diameter?.to_f64();
    let (min, max) = bore_by_engagement(limits.minor, diameters)?;
    Some(Fact::seldom(format!("bore for {} of it", long.text()), range(thread, min, max)))
}
