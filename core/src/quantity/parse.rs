//! What people write, read as an exact quantity, or why not.

use super::{Measure, Quantity, QuantityError, Unit, show};
use crate::exact::{Ratio, RatioError};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;

/// The largest entry: a kilometre, or a million of anything.
const LARGEST: Ratio = Ratio::whole(1_000_000);
/// The most decimals that an entry may have.
pub(super) const MOST_DECIMALS: usize = 6;
/// The most figures of one number: so many fit, whatever they are.
pub(super) const MOST_FIGURES: usize = 18;
/// The longest entry that is read at all.
const LONGEST: usize = 64;

impl Quantity {
    /// Reads an entry such as `5 thou`, `0.005"`, `1 3/8`, `0,5`, `11 1/2 tpi` or `12°30'`.
    ///
    /// A bare number is taken in `bare`; a bare fraction of halves down to sixty-fourths is taken in
    /// inches, for nobody measures in eighths of a millimetre. Without `bare` a unit must be
    /// written.
    ///
    /// # Errors
    ///
    /// A [`QuantityError`] that says which part was not understood and what was expected.
    ///
    /// ```
    /// use latheside_core::quantity::{Measure, Quantity, Unit};
    /// let q = Quantity::parse("0,5", Measure::Length, Some(Unit::Mm)).unwrap();
    /// assert_eq!((q.text(), q.assumed()), ("0,5 mm", true));
    /// assert!(Quantity::parse("0,5", Measure::Length, None).is_err());
    /// ```
    pub fn parse(
        text: &str,
        measure: Measure,
        bare: Option<Unit>,
    ) -> Result<Quantity, QuantityError> {
        let trimmed = text.trim();
        if trimmed.is_empty() {
            return Err(QuantityError::Empty { wanted: measure });
        }
        if trimmed.chars().count() > LONGEST {
            let found: String = trimmed.chars().take(12).chain("…".chars()).collect();
            return Err(QuantityError::Muddled { found, wanted: measure });
        }
        let plain = plain(trimmed);
        let entry = Entry { written: trimmed, measure };
        match measure {
            Measure::Angle => entry.angle(&plain, bare),
            Measure::Ratio => entry.ratio(&plain),
            Measure::Length | Measure::Lead => entry.length(&plain, bare),
        }
    }
}

/// The same entry in plain characters: one kind of space, tick, minus and fraction.
fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '′' | '’' | '‘' => out.push('\''),
            '″' | '”' | '“' => out.push('"'),
            '−' | '–' => out.push('-'),
            '⁄' => out.push('/'),
            '½' => out.push_str(" 1/2"),
            '¼' => out.push_str(" 1/4"),
            '¾' => out.push_str(" 3/4"),
            '⅛' => out.push_str(" 1/8"),
            '⅜' => out.push_str(" 3/8"),
            '⅝' => out.push_str(" 5/8"),
            '⅞' => out.push_str(" 7/8"),
            'º' | '˚' => out.push('°'),
            'Ø' | 'ø' | '⌀' if out.is_empty() => {}
            c if c.is_whitespace() => out.push(' '),
            c => out.push(c.to_ascii_lowercase()),
        }
    }
    out
}

/// A number at the head of an entry.
struct Number {
    value: Ratio,
    fraction: bool,
}

struct Entry<'a> {
    written: &'a str,
    measure: Measure,
}

impl Entry<'_> {
    fn length(&self, plain: &str, bare: Option<Unit>) -> Result<Quantity, QuantityError> {
        let (number, rest) = self.number(plain)?;
        let times = rest.trim_start().trim_start_matches(['*', '×']).trim_start();
        let (pi, rest) = match times.strip_prefix("pi").or(times.strip_prefix('π')) {
            Some(after) if self.measure == Measure::Lead => (true, after),
            _ => (false, rest),
        };
        let word = rest.trim();
        let (unit, assumed) = self.unit(word, &number, bare)?;
        if pi && unit == Unit::Tpi {
            return Err(self.muddled());
        }
        let value = if unit == Unit::Tpi {
            unit.size().div(number.value)
        } else {
            unit.size().mul(number.value)
        };
        self.finish(value, pi, unit, assumed)
    }

    fn unit(
        &self,
        word: &str,
        number: &Number,
        bare: Option<Unit>,
    ) -> Result<(Unit, bool), QuantityError> {
        if word.is_empty() {
            let Some(bare) = bare else {
                return Err(QuantityError::NoUnit {
                    found: show::short(self.written),
                    wanted: self.measure,
                });
            };
            let eighths = number.fraction && bare != Unit::Tpi;
            return Ok((if eighths { Unit::Inch } else { bare }, true));
        }
        let Some(unit) = Unit::named(word, self.measure) else {
            return Err(if word.starts_with(|c: char| c.is_ascii_digit() || c == '-') {
                self.muddled()
            } else {
                QuantityError::UnknownUnit { found: show::short(word), wanted: self.measure }
            });
        };
        if !unit.fits(self.measure) {
            return Err(QuantityError::WrongUnit { found: unit, wanted: self.measure });
        }
        Ok((unit, false))
    }

    fn angle(&self, plain: &str, bare: Option<Unit>) -> Result<Quantity, QuantityError> {
        let negative = plain.starts_with('-');
        let mut rest = plain.trim_start_matches('-').trim();
        let mut total = Ratio::ZERO;
        let mut last: Option<Unit> = None;
        let mut assumed = false;
        while !rest.is_empty() {
            let (number, after) = self.number(rest)?;
            if number.value.is_negative() {
                return Err(self.muddled());
            }
            let after = after.trim_start();
            let end = after
                .char_indices()
                .find(|&(at, c)| {
                    c == ' ' || c.is_ascii_digit() || (at > 0 && after.starts_with('°'))
                })
                .map_or(after.len(), |(at, _)| at);
            let (word, after) = after.split_at_checked(end).unwrap_or((after, ""));
            let (unit, was_bare) = if word.is_empty() {
                // `12°30` is half of a whole: the minutes need no tick.
                match last {
                    Some(Unit::Degree) => (Unit::Minute, false),
                    Some(Unit::Minute) => (Unit::Second, false),
                    _ => self.unit(word, &Number { fraction: false, ..number }, bare)?,
                }
            } else {
                self.unit(word, &number, bare)?
            };
            assumed |= was_bare;
            let in_order = matches!(
                (last, unit),
                (None, _)
                    | (Some(Unit::Degree), Unit::Minute | Unit::Second)
                    | (Some(Unit::Minute), Unit::Second)
            );
            let below_sixty = last.is_none() || number.value < Ratio::whole(60);
            let bare_and_more = was_bare && !after.trim().is_empty();
            if !in_order || !below_sixty || bare_and_more {
                return Err(self.muddled());
            }
            total = unit
                .size()
                .mul(number.value)
                .and_then(|part| total.add(part))
                .map_err(|why| self.refused(why))?;
            last = Some(unit);
            rest = after.trim();
        }
        let total = if negative { total.neg() } else { total };
        self.finish(Ok(total), false, last.unwrap_or(Unit::Degree), assumed)
    }

    fn ratio(&self, plain: &str) -> Result<Quantity, QuantityError> {
        let with_bar = plain.replace(':', "/");
        let (number, rest) = match with_bar.split_once('/') {
            // Either side may be a decimal: `1/2.5`.
            Some((above, below)) if !above.trim().contains(' ') => {
                let (above, rest) = self.number(above)?;
                if !rest.trim().is_empty() {
                    return Err(self.muddled());
                }
                let (below, rest) = self.number(below)?;
                let value = above.value.div(below.value).map_err(|why| self.refused(why))?;
                (value, rest.trim().to_owned())
            }
            _ => {
                let (number, rest) = self.number(&with_bar)?;
                (number.value, rest.trim().to_owned())
            }
        };
        if !rest.is_empty() {
            return Err(QuantityError::UnknownUnit {
                found: show::short(&rest),
                wanted: self.measure,
            });
        }
        self.finish(Ok(number), false, Unit::One, false)
    }

    fn finish(
        &self,
        value: Result<Ratio, RatioError>,
        pi: bool,
        unit: Unit,
        assumed: bool,
    ) -> Result<Quantity, QuantityError> {
        let value = value.map_err(|why| self.refused(why))?;
        if value.abs() > LARGEST {
            return Err(self.too_large());
        }
        let text = if assumed {
            format!("{} {}", self.written, unit.symbol())
        } else {
            self.written.to_owned()
        };
        // With its unit written out it is to be read again.
        if text.chars().count() > LONGEST {
            return Err(self.muddled());
        }
        Ok(Quantity { text, value, pi, unit, assumed })
    }

    /// The number at the head of `text` (`3`, `0.5`, `0,5`, `.5`, `3/8`, `1 3/8`, `1-3/8`), and
    /// what follows it.
    fn number<'t>(&self, text: &'t str) -> Result<(Number, &'t str), QuantityError> {
        let text = text.trim_start();
        let (sign, unsigned) = match text.strip_prefix('-') {
            Some(rest) => (Ratio::whole(-1), rest.trim_start()),
            None => (Ratio::ONE, text.strip_prefix('+').unwrap_or(text)),
        };
        let (first, rest) = self.decimal(unsigned)?;
        let (value, fraction, rest) = if let Some(below) = rest.trim_start().strip_prefix('/') {
            let (below, rest) = self.decimal(below.trim_start())?;
            (first.div(below).map_err(|why| self.refused(why))?, true, rest)
        } else if let Some((part, after)) = self.and_a_fraction(first, rest)? {
            (first.add(part).map_err(|why| self.refused(why))?, true, after)
        } else {
            (first, false, rest)
        };
        let value = value.mul(sign).map_err(|why| self.refused(why))?;
        Ok((Number { value, fraction }, rest))
    }

    /// The `3/8` of `1 3/8` or `1-3/8`, if that is what follows a whole number.
    fn and_a_fraction<'t>(
        &self,
        whole: Ratio,
        rest: &'t str,
    ) -> Result<Option<(Ratio, &'t str)>, QuantityError> {
        let Some(tail) = rest.strip_prefix('-').or(rest.strip_prefix(' ')) else {
            return Ok(None);
        };
        let tail = tail.trim_start();
        if !whole.is_whole() || !tail.starts_with(|c: char| c.is_ascii_digit()) {
            return Ok(None);
        }
        let (above, after) = self.decimal(tail)?;
        let Some(below) = after.trim_start().strip_prefix('/') else { return Ok(None) };
        let (below, after) = self.decimal(below.trim_start())?;
        let part = above.div(below).map_err(|why| self.refused(why))?;
        if part >= Ratio::ONE {
            return Err(self.muddled());
        }
        Ok(Some((part, after)))
    }

    fn decimal<'t>(&self, text: &'t str) -> Result<(Ratio, &'t str), QuantityError> {
        let end = text
            .char_indices()
            .find(|(_, c)| !(c.is_ascii_digit() || *c == '.' || *c == ','))
            .map_or(text.len(), |(at, _)| at);
        let (digits, rest) = text.split_at_checked(end).unwrap_or((text, ""));
        let (whole, part) = digits.split_once(['.', ',']).unwrap_or((digits, ""));
        if part.contains(['.', ',']) {
            return Err(QuantityError::TwoPoints { found: show::short(digits) });
        }
        if whole.is_empty() && part.is_empty() {
            let found = if digits.is_empty() { self.written } else { digits };
            return Err(QuantityError::NotANumber {
                found: show::short(found),
                wanted: self.measure,
            });
        }
        if part.len() > MOST_DECIMALS {
            return Err(QuantityError::TooFine { found: show::short(digits) });
        }
        let whole = whole.trim_start_matches('0');
        // What it makes of the entry isn't known yet: below a bar, a large number makes a small one.
        let too_many = || QuantityError::TooManyFigures { found: show::short(digits) };
        if whole.len().saturating_add(part.len()) > MOST_FIGURES {
            return Err(too_many());
        }
        let mut all = String::from(whole);
        all.push_str(part);
        let above: i64 = if all.is_empty() { 0 } else { all.parse().map_err(|_| too_many())? };
        let below = 10_i64.saturating_pow(u32::try_from(part.len()).unwrap_or(0));
        let value =
            Ratio::new(i128::from(above), i128::from(below)).map_err(|why| self.refused(why))?;
        Ok((value, rest))
    }

    fn muddled(&self) -> QuantityError {
        QuantityError::Muddled { found: show::short(self.written), wanted: self.measure }
    }

    fn too_large(&self) -> QuantityError {
        QuantityError::TooLarge { found: show::short(self.written), wanted: self.measure }
    }

    fn refused(&self, why: RatioError) -> QuantityError {
        match why {
            RatioError::ZeroDenominator => {
                QuantityError::OverNothing { found: show::short(self.written) }
            }
            RatioError::Overflow => {
                QuantityError::TooManyFigures { found: show::short(self.written) }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn read(text: &str, measure: Measure, bare: Option<Unit>) -> String {
        match Quantity::parse(text, measure, bare) {
            Ok(q) => format!("{}{}", q.value(), if q.pi() { " pi" } else { "" }),
            Err(why) => format!("{why}"),
        }
    }

    #[test]
    fn lengths_as_people_write_them() {
        #[rustfmt::skip]
        let rows = [
            ("5 thou", "127/1000"), ("0.005\"", "127/1000"), ("1/4 in", "127/20"), ("1 3/8", "1397/40"),
            ("3/8", "381/40"), ("10mm", "10"), ("0,5", "1/2"), (".5 in", "127/10"), ("1-1/2\"", "381/10"),
            ("½ in", "127/10"), ("1½ in", "381/10"), ("-3 mm", "-3"), ("12", "12"), ("Ø 32 mm", "32"),
            ("25 µm", "1/40"), ("2.5 cm", "25"), ("1/3 mm", "1/3"), ("3 mm ", "3"), ("7,25 mm", "29/4"),
        ];
        for (text, value) in rows {
            assert_eq!(read(text, Measure::Length, Some(Unit::Mm)), value, "{text}");
        }
    }

    #[test]
    fn leads_and_angles_and_ratios() {
        assert_eq!(read("8 tpi", Measure::Lead, None), "127/40");
        assert_eq!(read("11 1/2 tpi", Measure::Lead, None), "254/115");
        assert_eq!(read("11½ tpi", Measure::Lead, None), "254/115");
        assert_eq!(read("2.5 pi mm", Measure::Lead, None), "5/2 pi");
        assert_eq!(read("20", Measure::Lead, Some(Unit::Tpi)), "127/100");
        for (text, value) in [
            ("12°30'", "25/2"),
            ("12°30", "25/2"),
            ("17 deg 30 min", "35/2"),
            ("12.5", "25/2"),
            ("0°0'30\"", "1/120"),
            ("-1° 30′", "-3/2"),
            ("30 deg", "30"),
            ("45 min", "3/4"),
            ("1 1/2 deg", "3/2"),
        ] {
            assert_eq!(read(text, Measure::Angle, Some(Unit::Degree)), value, "{text}");
        }
        for (text, value) in [("40/1", "40"), ("1:2", "1/2"), ("0.5", "1/2"), ("1/2.5", "2/5")] {
            assert_eq!(read(text, Measure::Ratio, None), value, "{text}");
        }
    }

    #[test]
    fn refusals_say_what_was_expected() {
        #[rustfmt::skip]
        let rows = [
            ("", Measure::Length, "nothing here yet: enter a length in mm, in or thou"),
            ("abc", Measure::Length, "“abc” is not a number: enter a length in mm, in or thou"),
            ("3 furlongs", Measure::Length, "“furlongs” is no unit I know: enter a length in mm, in or thou"),
            ("3", Measure::Length, "3 of what? enter a length in mm, in or thou"),
            ("3 deg", Measure::Length, "deg won't do here: enter a length in mm, in or thou"),
            ("8 tpi", Measure::Length, "tpi won't do here: enter a length in mm, in or thou"),
            ("0 tpi", Measure::Lead, "0 tpi divides by nothing"),
            ("1/0 in", Measure::Length, "1/0 in divides by nothing"),
            ("1.2.3 mm", Measure::Length, "“1.2.3” has two points or commas: write one at most, and none between thousands"),
            ("1 9/8 in", Measure::Length, "“1 9/8 in” can't be read as one entry: enter a length in mm, in or thou"),
            ("0.1234567 mm", Measure::Length, "0.1234567 has more than 6 decimals"),
            ("99999999 mm", Measure::Length, "99999999 mm is more than a kilometre"),
            ("1/1000000000000000000 mm", Measure::Length, "“1000000000000000000” has too many figures: write it with 18 at most"),
            ("1000000000000000000 tpi", Measure::Lead, "“1000000000000000000” has too many figures: write it with 18 at most"),
            ("30' 12 deg", Measure::Angle, "“30' 12 deg” can't be read as one entry: enter an angle in degrees, as 12.5° or 12° 30'"),
            ("1° 75'", Measure::Angle, "“1° 75'” can't be read as one entry: enter an angle in degrees, as 12.5° or 12° 30'"),
        ];
        for (text, measure, words) in rows {
            assert_eq!(read(text, measure, None), words, "{text}");
        }
    }

    #[test]
    fn the_longest_entry_has_room_for_its_unit() {
        let of = |noughts: usize| format!("{}1", "0".repeat(noughts));
        let kept = Quantity::parse(&of(60), Measure::Length, Some(Unit::Mm)).unwrap();
        assert_eq!(
            Quantity::parse(kept.text(), Measure::Length, None).unwrap().value(),
            Ratio::ONE
        );
        for noughts in [61, 62, 63] {
            let refused = Quantity::parse(&of(noughts), Measure::Length, Some(Unit::Mm));
            assert!(matches!(refused, Err(QuantityError::Muddled { .. })), "{noughts}");
        }
    }

    proptest! {
        #[test]
        fn nothing_typed_panics(text in "\\PC{0,70}") {
            for measure in [Measure::Length, Measure::Lead, Measure::Angle, Measure::Ratio] {
                let _ = Quantity::parse(&text, measure, None);
                let _ = Quantity::parse(&text, measure, Some(Unit::Mm));
            }
        }

        #[test]
        fn nothing_nearly_right_panics(text in "[-+0-9.,/ °'\"½a-z]{0,20}") {
            for measure in [Measure::Length, Measure::Lead, Measure::Angle, Measure::Ratio] {
                if let Ok(q) = Quantity::parse(&text, measure, measure.units().first().copied()) {
                    // What is kept as written is read back the same.
                    let again = Quantity::parse(q.text(), measure, None).unwrap();
                    prop_assert_eq!(again.value(), q.value());
                }
            }
        }
    }
}
