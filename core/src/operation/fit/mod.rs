//! Fit a shaft and a hole to each other.

mod worked;

use super::works::TOOL_AND_DIAL;
use super::{Answer, Deed, Found, Kind, Lacking, STOCKS, Why, Works};
use crate::cutting::Stock;
use crate::exact::Ratio;
use crate::fits::{self, FITS_IN_WORDS, FitKind, in_words, rise_to_slip_c};
use crate::quantity::{Quantity, show};
use crate::record::{Choice, LENGTH, Record, Shape, Spec, choice, field};
use crate::shop::{Dial, Shop};
use alloc::boxed::Box;
use alloc::format;
use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;
pub(super) use worked::Fitted;
use worked::Left;

const MAKING: &[Choice] = &[choice("shaft", 0, "the shaft"), choice("hole", 1, "the hole")];

pub(super) static KIND: Kind = Kind {
    name: "fit",
    wire: 8,
    title: "Fit a shaft and a hole",
    spec: &Spec {
        name: "fit",
        fields: &[
            field("basic", 1, "basic size", LENGTH),
            field("code", 2, "fit", Shape::Text(30)),
            field("making", 3, "what is being made", Shape::Choice(MAKING)),
            field("measured", 4, "it measures now", LENGTH),
            field("outer", 5, "stock of the outer part", Shape::Choice(STOCKS)),
            field("hole_measures", 6, "the hole measures", LENGTH),
            field("shaft_measures", 7, "the shaft measures", LENGTH),
        ],
    },
    sentences: &[(
        "",
        "Fit a shaft to a hole of Ø {basic}: {code}[; {making} measures {measured} now][; the hole measures {hole_measures}][; the shaft measures {shaft_measures}][; the outer part is {outer}].",
    )],
    instead: &[],
    from_shop: &["lathe"],
    measured: &["hole_measures", "shaft_measures"],
};

pub(super) static WORKS: Works = Works {
    suggest,
    deed: |_| Deed::of("the fit"),
    on_return: TOOL_AND_DIAL,
    ..Works::at_once(&KIND, answer)
};

fn suggest(_: &Record, key: &str, text: &str, _: &Shop) -> Vec<String> {
    if key != "code" {
        return Vec::new();
    }
    let typed = text.trim().to_ascii_lowercase();
    let like = |candidate: &&str| candidate.to_ascii_lowercase().contains(&typed);
    let words = FITS_IN_WORDS.iter().map(|row| row.words).filter(like);
    let codes = FITS_IN_WORDS.iter().map(|row| row.code).filter(like);
    words.chain(codes).map(String::from).collect()
}

/// Slack enough for a heated part to slip on: a thousandth of the size, at least 0.01 mm. Common
/// practice, no source.
fn ease(basic: Ratio) -> Ratio {
    basic.div(Ratio::whole(1000)).unwrap_or(Ratio::ZERO).max(Ratio::of(1, 100))
}

fn answer(entries: &Record, shop: &Shop) -> Answer {
    let Some(basic) = entries.quantity("basic") else {
        return Answer::refused("say the basic size: 25 mm, say");
    };
    let Some(code) = entries.text("code") else {
        return Answer::refused(
            "say the fit: a code like H7/g6, or words like “slides without shake”",
        );
    };
    let words = in_words(code);
    let code = words.map_or(code, |row| row.code);
    let size = basic.value();
    let fit = match fits::fit(code, size) {
        Ok(fit) => fit,
        Err(why) => return Answer::refused(format!("“{code}” at {}: {why}", basic.text())),
    };
    let (Ok(hole), Ok(shaft)) = (fit.hole.limits_mm(size), fit.shaft.limits_mm(size)) else {
        return Answer::refused(format!("{} is too large to keep exactly", basic.text()));
    };
    let mut lacking = Vec::new();
    let dial = shop.dial("cross");
    let of_part = |key: &str, is_hole: bool| {
        let measured = entries.quantity(key)?;
        let making = if is_hole { "hole" } else { "shaft" };
        Some(left(Some(making), measured, size, [hole, shaft], dial))
    };
    let made_hole = of_part("hole_measures", true);
    // A hole that isn't to size: the shaft is made to it, for the same slack.
    let shift = made_hole.as_ref().filter(|hole| hole.past).and_then(|made| {
        let [low, high] = hole;
        made.measured.value().sub(low.add(high).ok()?.div(Ratio::whole(2)).ok()?).ok()
    });
    let shifted = |limit: Ratio| shift.and_then(|shift| limit.add(shift).ok()).unwrap_or(limit);
    let to_hole = shift.map(|_| shaft.map(shifted));
    let shaft_now = entries.quantity("shaft_measures");
    let made_shaft = shaft_now.map(|measured| {
        left(Some("shaft"), measured, size, [hole, to_hole.unwrap_or(shaft)], dial)
    });
    let any = ["measured", "hole_measures", "shaft_measures"];
    if dial.is_none() && any.iter().any(|key| entries.get(key).is_some()) {
        lacking.push(Lacking { key: "dial", needs: "shop.lathe.dials.cross" });
    }
    let left = entries.quantity("measured").map(|measured| {
        let limits = [hole, to_hole.unwrap_or(shaft)];
        left(entries.choice("making"), measured, size, limits, dial)
    });
    let mut rise_c = None;
    let [least, _] = fit.clearance_mm;
    if fit.kind == FitKind::Interference {
        match entries.choice("outer").and_then(Stock::from_id) {
            Some(stock) => rise_c = rise_to_slip_c(stock, size, least.neg(), ease(size)),
            None => lacking.push(Lacking { key: "rise_c", needs: "operation.outer" }),
        }
    }
    let basic = basic.clone();
    let made = [made_hole, made_shaft];
    let fitted = Fitted { basic, fit, words, hole, shaft, dial, left, made, to_hole, rise_c };
    let why = fitted.why(entries);
    Answer { found: Some(Found::Fit(Box::new(fitted))), why, lacking, ..Answer::default() }
}

/// What is left to take off the part being made: the one chosen, or else the one that can still come
/// to size.
fn left(
    making: Option<&str>,
    measured: &Quantity,
    basic: Ratio,
    [hole, shaft]: [[Ratio; 2]; 2],
    dial: Option<Dial>,
) -> Left {
    let now = measured.value();
    let is_hole = making.map_or(now < basic, |making| making == "hole");
    let [low, high] = if is_hole { hole } else { shaft };
    let middle = low.add(high).and_then(|sum| sum.div(Ratio::whole(2))).unwrap_or(low);
    let to_middle = if is_hole { middle.sub(now) } else { now.sub(middle) };
    let to_middle = to_middle.unwrap_or(Ratio::ZERO);
    let past = if is_hole { now > high } else { now < low };
    let within = low <= now && now <= high;
    let reading = dial
        .filter(|_| to_middle.is_positive() && !past)
        .and_then(|dial| dial.reading_towards(!is_hole, to_middle.div(Ratio::whole(2)).ok()?));
    Left { hole: is_hole, measured: measured.clone(), to_middle, reading, past, within }
}

impl Fitted {
    fn why(&self, entries: &Record) -> Vec<Why> {
        let um = |mm: Ratio| {
            let text =
                mm.mul(Ratio::whole(1000)).map_or_else(|_| show::mm(mm), |um| show::trimmed(um, 1));
            if mm.is_positive() { format!("+{text}") } else { text }
        };
        let (hole, shaft) = (&self.fit.hole, &self.fit.shaft);
        let [least, most] = self.fit.clearance_mm;
        let mut why = vec![
            Why::new(
                "limits = basic size + deviations",
                format!(
                    "{}: {} and {} µm; {}: {} and {} µm",
                    self.fit.hole_class,
                    um(hole.low_mm),
                    um(hole.high_mm),
                    self.fit.shaft_class,
                    um(shaft.low_mm),
                    um(shaft.high_mm)
                ),
                "ISO 286-1, fundamental deviations and standard tolerances",
            ),
            Why::new(
                "slack = hole − shaft",
                format!("least {} µm, most {} µm", um(least), um(most)),
                "arithmetic",
            ),
        ];
        if let Some(words) = self.words {
            why.push(Why::new(
                words.words,
                format!("{}: {}", words.code, words.use_for),
                "preferred fits, ANSI B4.2 Table 1, from memory",
            ));
        }
        if let (Some(rise), Some(outer)) = (self.rise_c, entries.choice("outer")) {
            why.push(Why::new(
                "rise = (squeeze + ease) / (Ø × growth)",
                format!(
                    "({} + {}) µm / ({} × {} millionths, {outer}) = {} °C",
                    um(least.neg()),
                    um(ease(self.basic.value())),
                    self.basic.text(),
                    Stock::from_id(outer).map_or_else(String::new, |stock| {
                        show::float_trimmed(fits::expansion_per_million(stock), 1)
                    }),
                    show::float(rise, 0)
                ),
                "handbook values of expansion, from memory; the ease is common practice, no source",
            ));
        }
        why
    }
}
