//! Figures for people: rounded once, here, at the edge.

use super::{MM_PER_INCH, Quantity, Unit};
use crate::exact::Ratio;
use alloc::format;
use alloc::string::{String, ToString};

/// `value` to so many places, a half away from nothing; trailing noughts stay.
#[must_use]
pub fn fixed(value: Ratio, places: u32) -> String {
    let scale = scale(places);
    let rounded = match whole_times(scale, value).and_then(|times| value.numer().checked_mul(times))
    {
        Some(exact) => exact,
        None => match value.mul(Ratio::whole(scale)) {
            Ok(scaled) => scaled.round(),
            Err(_) => return value.to_string(),
        },
    };
    let sign = if rounded < 0 { "−" } else { "" };
    let size = rounded.unsigned_abs();
    let scale = scale.unsigned_abs().into();
    let whole = size.checked_div(scale).unwrap_or(0);
    let rest = size.checked_rem(scale).unwrap_or(0);
    if places == 0 {
        return format!("{sign}{whole}");
    }
    let width = usize::try_from(places.min(15)).unwrap_or(0);
    format!("{sign}{whole}.{rest:0width$}")
}

/// A one with so many noughts.
fn scale(places: u32) -> i64 {
    10_i64.saturating_pow(places.min(15))
}

/// How often the denominator goes into `scale`, where it goes without a rest: then all of the
/// value's decimals are there, and nothing need be brought to lowest terms to see it.
fn whole_times(scale: i64, value: Ratio) -> Option<i128> {
    let (scale, below) = (i128::from(scale), value.denom());
    if scale.checked_rem(below)? == 0 { scale.checked_div(below) } else { None }
}

/// The same without trailing noughts.
#[must_use]
pub fn trimmed(value: Ratio, places: u32) -> String {
    let text = fixed(value, places);
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_string()
    } else {
        text
    }
}

/// A float to so many places; what is no number is a dash.
#[must_use]
pub fn float(value: f64, places: u32) -> String {
    near(value, places).map_or_else(|| String::from("–"), |ratio| fixed(ratio, places))
}

/// A float to so many places without trailing noughts.
#[must_use]
pub fn float_trimmed(value: f64, places: u32) -> String {
    near(value, places).map_or_else(|| String::from("–"), |ratio| trimmed(ratio, places))
}

/// A float as the nearest fraction with that many decimals.
pub(crate) fn near(value: f64, places: u32) -> Option<Ratio> {
    let scale = 10_i64.saturating_pow(places.min(9));
    let scaled = libm::round(value * scale as f64);
    if scaled.abs() < 1e18 { Ratio::new(scaled as i128, i128::from(scale)).ok() } else { None }
}

/// What somebody wrote, cut short where it would swamp the sentence that it stands in.
#[must_use]
pub fn short(text: &str) -> String {
    let mut short: String = text.chars().take(LONGEST_ECHO).collect();
    if short.len() < text.len() {
        short.pop();
        short.push('…');
    }
    short
}

/// The most characters of an entry that a refusal says again.
const LONGEST_ECHO: usize = 40;

/// A name as somebody wrote it, ready to stand in a sentence where stars mark the figures: its own look the
/// same and mark nothing.
#[must_use]
pub fn unmarked(name: &str) -> String {
    name.replace('*', "∗")
}

/// So many of something: `1 line`, `2 lines`, `1.5 lines`.
#[must_use]
pub fn many(n: impl core::fmt::Display, one: &str, more: &str) -> String {
    let n = n.to_string();
    let what = if n == "1" { one } else { more };
    [&n, " ", what].concat()
}

/// A whole number with a thin space between thousands, as drawings write it.
#[must_use]
pub fn count(n: u64) -> String {
    let digits = n.to_string();
    if digits.len() < 5 {
        return digits;
    }
    let mut out = String::with_capacity(digits.len().saturating_add(4));
    for (at, digit) in digits.chars().enumerate() {
        let left = digits.len().saturating_sub(at);
        if at > 0 && left.checked_rem(3) == Some(0) {
            out.push('\u{202f}');
        }
        out.push(digit);
    }
    out
}

/// Whether `value` comes out in at most `places` decimals, nothing left over.
#[must_use]
pub fn terminates(value: Ratio, places: u32) -> bool {
    whole_times(scale(places), value).is_some()
}

/// Millimetres to the sensible last place: all of them where they end within four decimals, else
/// three.
#[must_use]
pub fn mm(value: Ratio) -> String {
    let places = if terminates(value, 4) { 4 } else { 3 };
    format!("{} mm", trimmed(value, places))
}

/// An exact length as the file writes it: a decimal where it ends within six places, else a
/// fraction.
#[must_use]
pub fn exact_mm(value: Ratio, pi: bool) -> String {
    let number = exact(value);
    if pi { format!("{number} pi mm") } else { format!("{number} mm") }
}

/// An exact number as the file writes it.
#[must_use]
pub fn exact(value: Ratio) -> String {
    if terminates(value, 6) { trimmed(value, 6).replace('−', "-") } else { value.to_string() }
}

/// Inches as halves down to sixty-fourths, `1 3/8`, where they are exactly that and no whole
/// number.
#[must_use]
pub fn inch_fraction(mm: Ratio) -> Option<String> {
    let inches = mm.div(MM_PER_INCH).ok()?;
    let below = inches.denom();
    if inches.is_negative() || !matches!(below, 2 | 4 | 8 | 16 | 32 | 64) {
        return None;
    }
    let whole = inches.floor();
    let above = inches.numer().checked_rem(below)?;
    Some(if whole == 0 { format!("{above}/{below}") } else { format!("{whole} {above}/{below}") })
}

/// Inches to four places at most, or as the fraction that they are.
#[must_use]
pub fn inches(mm: Ratio) -> String {
    if let Some(fraction) = inch_fraction(mm) {
        return format!("{fraction} in");
    }
    match mm.div(MM_PER_INCH) {
        Ok(inches) => format!("{} in", trimmed(inches, 4)),
        Err(_) => self::mm(mm),
    }
}

/// The same quantity in the other system, for the small print under an entry.
#[must_use]
pub fn in_the_other_system(q: &Quantity) -> Option<String> {
    if q.pi() {
        return Some(format!("{} mm", float_trimmed(q.to_f64(), 4)));
    }
    match q.unit() {
        Unit::Mm | Unit::Micron | Unit::Cm | Unit::Metre => Some(inches(q.value())),
        Unit::Inch | Unit::Thou | Unit::Tpi => Some(mm(q.value())),
        _ => None,
    }
}

/// A length in the system of `like`, inches beside an inch dial, millimetres beside another, to the
/// last place that is measured: a micrometre, a tenth of a thousandth of an inch.
#[must_use]
pub fn length_like(mm: Ratio, like: Unit) -> String {
    match like {
        Unit::Thou => match mm.div(Unit::Thou.size()) {
            Ok(thou) => format!("{} thou", trimmed(thou, 2)),
            Err(_) => self::mm(mm),
        },
        unit if unit.is_inch() => inches(mm),
        _ => format!("{} mm", trimmed(mm, 3)),
    }
}

/// An angle in degrees, minutes and seconds, to the nearest second, what is nothing left out.
#[must_use]
pub fn angle(degrees: Ratio) -> String {
    match degrees.mul(Ratio::whole(3600)) {
        Ok(seconds) => dms(seconds.round()),
        Err(_) => format!("{}°", trimmed(degrees, 4)),
    }
}

/// An error in seconds of arc, never negative: `1′12″`, or `0.4″` where it is under ten seconds.
#[must_use]
pub fn arc(arcsec: f64) -> String {
    let size = arcsec.abs();
    if size < 0.05 {
        return String::from("under 0.1″");
    }
    if size < 9.95 {
        return format!("{}″", float_trimmed(size, 1));
    }
    // Saturates, and is never negative.
    dms(i128::from(libm::round(size) as u64))
}

fn dms(seconds: i128) -> String {
    let sign = if seconds < 0 { "−" } else { "" };
    let part = |size: u128, by: u128| {
        (size.checked_div(by).unwrap_or(0), size.checked_rem(by).unwrap_or(0))
    };
    let (minutes, seconds) = part(seconds.unsigned_abs(), 60);
    let (degrees, minutes) = part(minutes, 60);
    let mut out = String::from(sign);
    if degrees > 0 || (minutes == 0 && seconds == 0) {
        out.push_str(&format!("{degrees}°"));
    }
    if minutes > 0 || (degrees > 0 && seconds > 0) {
        out.push_str(&if degrees > 0 {
            format!("{minutes:02}′")
        } else {
            format!("{minutes}′")
        });
    }
    if seconds > 0 {
        let alone = degrees == 0 && minutes == 0;
        out.push_str(&if alone { format!("{seconds}″") } else { format!("{seconds:02}″") });
    }
    out
}

/// A length that isn't exact, in the system of `like`: inches to four places, or millimetres to three.
#[must_use]
pub fn float_like(mm: f64, like: Unit) -> String {
    match like.is_inch() {
        true => format!("{} in", float_trimmed(mm / 25.4, 4)),
        false => format!("{} mm", float_trimmed(mm, 3)),
    }
}

/// A length too small for an entry, never negative, in thousandths of the system of `like`.
#[must_use]
pub fn small_like(mm: f64, like: Unit) -> String {
    let size = mm.abs();
    if like.is_inch() {
        let thou = float_trimmed(size / 0.0254, 1);
        if thou == "0" { String::from("under 0.1 thou") } else { format!("{thou} thou") }
    } else {
        let mm = float_trimmed(size, 3);
        if mm == "0" { String::from("under 0.001 mm") } else { format!("{mm} mm") }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Measure;

    #[test]
    fn figures_round_once() {
        for (num, den, places, text) in [
            (1, 2, 0, "1"),
            (-1, 3, 3, "−0.333"),
            (127, 40, 4, "3.1750"),
            (1, 8, 2, "0.13"),
            (0, 1, 2, "0.00"),
            (-1, 1000, 2, "0.00"),
        ] {
            assert_eq!(fixed(Ratio::of(num, den), places), text, "{num}/{den}");
        }
        assert_eq!(trimmed(Ratio::of(127, 40), 4), "3.175");
        assert_eq!(float(2.2677, 1), "2.3");
        assert_eq!(float(f64::NAN, 1), "–");
        assert_eq!(float(f64::INFINITY, 1), "–");
        assert_eq!(count(1234), "1234");
        assert_eq!(count(1_234_567), "1\u{202f}234\u{202f}567");
    }

    #[test]
    fn angles_as_they_are_read() {
        for (num, den, text) in [
            (0, 1, "0°"),
            (15, 1, "15°"),
            (35, 2, "17°30′"),
            (157, 3, "52°20′"),
            (360, 7, "51°25′43″"),
            (361, 360, "1°00′10″"),
            (-1, 2, "−30′"),
            (1, 360, "10″"),
        ] {
            assert_eq!(angle(Ratio::of(num, den)), text, "{num}/{den}");
        }
        for (arcsec, text) in
            [(72.0, "1′12″"), (0.42, "0.4″"), (0.001, "under 0.1″"), (-9.96, "10″"), (3600.0, "1°")]
        {
            assert_eq!(arc(arcsec), text);
        }
        assert_eq!(float_like(3.92699, Unit::Mm), "3.927 mm");
        assert_eq!(float_like(3.92699, Unit::Thou), "0.1546 in");
        assert_eq!(small_like(0.0052, Unit::Mm), "0.005 mm");
        assert_eq!(small_like(0.0052, Unit::Inch), "0.2 thou");
        assert_eq!(small_like(1e-5, Unit::Thou), "under 0.1 thou");
    }

    #[test]
    fn lengths_in_both_systems() {
        let rows = [
            ("3/8 in", "9.525 mm"),
            ("9.525 mm", "3/8 in"),
            ("8 tpi", "3.175 mm"),
            ("10 mm", "0.3937 in"),
            ("25.4 mm", "1 in"),
            ("34.925 mm", "1 3/8 in"),
            ("5 thou", "0.127 mm"),
        ];
        for (text, other) in rows {
            let q = Quantity::parse(text, Measure::Lead, None).unwrap();
            assert_eq!(in_the_other_system(&q).unwrap(), other, "{text}");
        }
        assert_eq!(exact_mm(Ratio::of(20, 9), false), "20/9 mm");
        assert_eq!(exact_mm(Ratio::of(127, 40), false), "3.175 mm");
        assert_eq!(exact_mm(Ratio::of(5, 2), true), "2.5 pi mm");
    }
}
