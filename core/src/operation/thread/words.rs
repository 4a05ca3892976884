//! Gears and errors in the words of the bench.

use super::gears::Gears;
use super::wanted::Wanted;
use crate::exact::Ratio;
use crate::gearing::{Hand, Mounting, Pair, Train};
use crate::quantity::{MM_PER_INCH, Unit, show};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// An exact ratio as the file writes it: `"40/1"`.
pub(super) fn fraction(ratio: Ratio) -> String {
    if ratio.is_whole() { format!("{ratio}/1") } else { ratio.to_string() }
}

/// `40 drives 63`, figures between stars.
pub(super) fn drives(pair: &Pair) -> String {
    format!("*{}* drives *{}*", pair.driver, pair.driven)
}

/// What the gearbox must stand at, figures between stars; nothing where there is none to set.
pub(super) fn lever(gears: &Gears, train: &Train) -> Option<String> {
    if !gears.has_gearbox() {
        return None;
    }
    let (ratio, how) = gears.position(train);
    Some(match how {
        Some(how) => format!("*{how}*"),
        None => format!("gearbox at *{}*", fraction(ratio)),
    })
}

/// A whole train in one line, without stars.
pub(super) fn in_a_line(gears: &Gears, train: &Train) -> String {
    let mut parts: Vec<String> = train.pairs().iter().map(drives).collect();
    parts.extend(lever(gears, train));
    parts.join(", ").replace('*', "")
}

/// The length over which an error of lead is told: a thread longer than a foot, else 300 mm or
/// 12 in.
fn over(wanted: &Wanted) -> (Ratio, String) {
    let foot = if wanted.inch {
        MM_PER_INCH.mul(Ratio::whole(12)).unwrap_or(MM_PER_INCH)
    } else {
        Ratio::whole(300)
    };
    match &wanted.length {
        Some(length) if length.value() > foot => (length.value(), length.text().to_owned()),
        _ if wanted.inch => (foot, "12 in".to_owned()),
        _ => (foot, "300".to_owned()),
    }
}

/// By how much the lead is off, as it shows on a rule: "exact", "0.04 mm short in 300".
pub(super) fn off(gears: &Gears, train: &Train, wanted: &Wanted) -> String {
    if gears.exact(train, wanted.lead) {
        return "exact".to_owned();
    }
    let (length, length_text) = over(wanted);
    // To a tenth of a micrometre is far more than is shown.
    let error = (train.error.to_f64() * length.to_f64()).abs();
    let (size, places, least, unit) = if wanted.inch {
        (error / Unit::Thou.size().to_f64(), 1, 0.1, "thou")
    } else {
        (error, 2, 0.001, "mm")
    };
    if size < least / 2.0 {
        let least = show::float_trimmed(least, 3);
        return format!("within {least} {unit} in {length_text}");
    }
    let places = if size < 0.01 { 3 } else { places };
    let way = if train.error.is_negative() { "short" } else { "long" };
    format!("{} {unit} {way} in {length_text}", show::float_trimmed(size, places))
}

/// Why the best train won't go on.
pub(super) fn why_not(gears: &Gears, train: &Train) -> String {
    let banjo = matches!(gears.mounting, Mounting::Banjo(_));
    match train.clearance {
        _ if banjo && train.pairs().len() > 2 => "three pairs don't go on a banjo".to_owned(),
        Some(clear) if !clear.is_positive() => {
            let short = clear.neg().floor().saturating_add(1);
            let teeth = if short == 1 { "tooth" } else { "teeth" };
            format!("a gear fouls the next stud by {short} {teeth}")
        }
        _ if banjo && train.pairs().len() == 1 => {
            "no gear in the drawer reaches across as an idler".to_owned()
        }
        _ if banjo => "the stud's slot doesn't let them mesh".to_owned(),
        _ => "a pair is too large or too small for the centres".to_owned(),
    }
}

/// Which way the carriage must go with the spindle forward.
pub(super) const fn towards(hand: Hand) -> &'static str {
    match hand {
        Hand::Right => "towards the headstock",
        Hand::Left => "towards the tailstock",
    }
}

/// So many idlers, in words.
pub(super) fn idlers(gears: &Gears, train: &Train) -> Option<String> {
    let n = gears.idlers(train)?;
    let mut text = match n {
        0 => "none".to_owned(),
        n => n.to_string(),
    };
    if let Some(teeth) = train.idler {
        text.push_str(&format!(", of {teeth} teeth"));
        if n > 1 {
            text.push_str(" and any other");
        }
    }
    if n == 0 && gears.may_not_reach(train) {
        text.push_str(", or one where the two don't reach each other");
    }
    if gears.tumbler == Some(true) {
        text.push_str("; the tumbler sets the hand");
    }
    Some(text)
}
