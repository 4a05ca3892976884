//! The lines of a dial and what each is worth, exactly.

use super::error::GraduationError;
use crate::exact::{Ratio, RatioError};
use alloc::vec::Vec;

/// The most lines that are worked out.
pub const MOST_LINES: u32 = 9_999;

/// What a dial's lines count.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Reads {
    /// What the slide moves.
    #[default]
    Radius,
    /// What it takes off the diameter: twice that.
    Diameter,
}

/// The lines round a dial.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Scale {
    /// How many.
    pub lines: u32,
    /// What one turn moves, in mm as read.
    pub travel: Ratio,
    /// What one line is worth, in mm as read: a turn's travel over the lines.
    pub value: Ratio,
    /// What one line was to be worth.
    pub wanted: Ratio,
}

/// The scale for a screw's lead and the value wanted for a line, both in mm.
///
/// The nearest whole number of lines; where that isn't exact, [`Scale::leftover`] says by how much.
///
/// ```
/// use latheside_core::{exact::Ratio, graduation::{Reads, scale}};
/// // 10 threads an inch, half a thou off the radius a line.
/// let (lead, half_a_thou) = (Ratio::of(254, 100), Ratio::of(127, 10_000));
/// let dial = scale(lead, half_a_thou, Reads::Radius).unwrap();
/// assert_eq!((dial.lines, dial.exact()), (200, true));
/// ```
///
/// # Errors
///
/// A lead or value that isn't more than nothing; a line of more than twice a turn's travel; more
/// than [`MOST_LINES`]; [`GraduationError::Number`] where the numbers can't be kept exactly.
pub fn scale(lead: Ratio, value: Ratio, reads: Reads) -> Result<Scale, GraduationError> {
    if !lead.is_positive() {
        return Err(GraduationError::NoLead { lead });
    }
    if !value.is_positive() {
        return Err(GraduationError::NoValue { value });
    }
    let travel = match reads {
        Reads::Radius => lead,
        Reads::Diameter => lead.mul(Ratio::whole(2))?,
    };
    let lines = travel.div(value)?.round();
    if lines < 1 {
        return Err(GraduationError::TooCoarse { value, travel });
    }
    match u32::try_from(lines) {
        Ok(lines) if lines <= MOST_LINES => Ok(Scale::of(travel, lines, value)?),
        _ => Err(GraduationError::TooManyLines { value }),
    }
}

impl Scale {
    /// So many lines for what a turn moves, in mm as read; nothing is worked out for 0 lines.
    ///
    /// # Errors
    ///
    /// [`RatioError`].
    pub fn of(travel: Ratio, lines: u32, wanted: Ratio) -> Result<Scale, RatioError> {
        Ok(Scale { lines, travel, value: travel.div(lines.into())?, wanted })
    }

    /// Whether each line is worth what was wanted.
    #[must_use]
    pub fn exact(&self) -> bool {
        self.value == self.wanted
    }

    /// What a turn moves beyond the lines at the value wanted, in mm; less than nothing where it
    /// moves less.
    ///
    /// # Errors
    ///
    /// [`RatioError::Overflow`].
    pub fn leftover(&self) -> Result<Ratio, RatioError> {
        self.travel.sub(self.wanted.mul(self.lines.into())?)
    }

    /// What is moved beyond a travel that was counted in lines at the value wanted, in mm.
    ///
    /// # Errors
    ///
    /// [`RatioError::Overflow`].
    pub fn leftover_over(&self, travel: Ratio) -> Result<Ratio, RatioError> {
        travel.mul(self.off()?)
    }

    /// How far a line is off the value wanted, as a part of it.
    ///
    /// # Errors
    ///
    /// [`RatioError`].
    pub fn off(&self) -> Result<Ratio, RatioError> {
        self.value.div(self.wanted)?.sub(Ratio::ONE)
    }

    /// What line `line` reads, in mm, from 0 at line 0.
    ///
    /// # Errors
    ///
    /// [`RatioError::Overflow`].
    pub fn reading(&self, line: u32) -> Result<Ratio, RatioError> {
        self.value.mul(line.into())
    }

    /// The exact scale of finer lines, each a half, a fifth, a quarter… of the value wanted, where
    /// the decimals allow one: 1/16 in has no whole number of thou, but 125 lines of half a thou.
    ///
    /// # Errors
    ///
    /// [`RatioError`].
    pub fn finer(&self) -> Result<Option<Scale>, RatioError> {
        let exact = self.travel.div(self.wanted)?;
        let lines = u32::try_from(exact.numer()).unwrap_or(u32::MAX);
        if self.exact() || lines > MOST_LINES || !is_decimal(exact.denom()) {
            return Ok(None);
        }
        let value = self.travel.div(lines.into())?;
        Scale::of(self.travel, lines, value).map(Some)
    }
}

/// Whether a value in its own unit is one that reads well: 1, 2 or 5 or a decimal multiple.
///
/// MIL-HDBK-759B notice 2 (1993), 5.2.2.3.1.4.1.
#[must_use]
pub fn reads_well(value: Ratio) -> bool {
    [1, 2, 5].into_iter().any(|digit| {
        value.div(Ratio::whole(digit)).is_ok_and(|power| {
            power.is_positive()
                && ((power.is_whole() && is_power_of_ten(power.numer()))
                    || (power.numer() == 1 && is_power_of_ten(power.denom())))
        })
    })
}

/// Every scale of whole lines whose value reads well in a unit (given in mm), from so few lines to
/// so many, finest first: an inch screw in millimetres has 127 of them, or a multiple.
///
/// Beside 1, 2 and 5 a quarter of ten counts here (2.5 thou, 0.025 mm): common practice, no source.
///
/// # Errors
///
/// [`RatioError`].
pub fn whole_scales(
    travel: Ratio,
    unit: Ratio,
    fewest: u32,
    most: u32,
) -> Result<Vec<Scale>, RatioError> {
    let mut scales = Vec::new();
    for power in [100_000, 10_000, 1000, 100, 10, 1] {
        for (above, below) in [(1, 1), (2, 1), (5, 2), (5, 1)] {
            let part = Ratio::new(above, below)?.div(Ratio::whole(power))?;
            let value = unit.mul(part)?;
            let lines = travel.div(value)?;
            if let Ok(whole) = u32::try_from(lines.floor())
                && lines.is_whole()
                && (fewest.max(1)..=most).contains(&whole)
            {
                scales.push(Scale::of(travel, whole, value)?);
            }
        }
    }
    Ok(scales)
}

fn stripped(mut number: i128, of: i128) -> i128 {
    while number != 0 && number.checked_rem(of) == Some(0) {
        number = number.checked_div(of).unwrap_or(0);
    }
    number
}

fn is_decimal(denom: i128) -> bool {
    stripped(stripped(denom, 2), 5) == 1
}

fn is_power_of_ten(number: i128) -> bool {
    stripped(number, 10) == 1
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;
    use proptest::prelude::*;

    #[test]
    fn what_reads_well() {
        for (num, den, well) in [
            (1, 50, true),
            (1, 1000, true),
            (5, 1, true),
            (1, 400, false),
            (3, 10, false),
            (20, 1, true),
        ] {
            assert_eq!(reads_well(Ratio::of(num, den)), well, "{num}/{den}");
        }
        assert!(!reads_well(Ratio::ZERO) && !reads_well(Ratio::of(-1, 10)));
    }

    #[test]
    fn an_inch_screw_in_millimetres_has_127_or_its_kin() {
        let travel = Ratio::of(254, 40);
        let scales = whole_scales(travel, Ratio::ONE, 50, 700).unwrap();
        assert!(scales.iter().all(|scale| scale.lines % 127 == 0 && scale.exact()));
        let lines: Vec<u32> = scales.iter().map(|scale| scale.lines).collect();
        assert_eq!(lines, [635, 254, 127]);
    }

    #[test]
    fn each_refusal_has_its_sentence() {
        let (one, none) = (Ratio::ONE, Ratio::ZERO);
        let refused = |lead, value| scale(lead, value, Reads::Radius).unwrap_err().to_string();
        assert_eq!(refused(none, one), "a lead of 0 mm moves nothing forward");
        assert_eq!(refused(one, Ratio::of(-1, 2)), "a line worth -1/2 mm tells nothing");
        assert_eq!(
            refused(one, Ratio::whole(3)),
            "one line of 3 mm is more than a turn moves, 1 mm"
        );
        assert_eq!(
            refused(one, Ratio::of(1, 20_000)),
            "lines of 1/20000 mm are more than the 9999 worked out here"
        );
    }

    proptest! {
        #[test]
        fn no_other_number_of_lines_leaves_less(lead in 1i64..500, below in 1i64..60, value in 1i64..60) {
            let (lead, value) = (Ratio::of(lead, below), Ratio::of(value, 10));
            let Ok(found) = scale(lead, value, Reads::Radius) else { return Ok(()) };
            let left = |lines: u32| lead.sub(value.mul(lines.into()).unwrap()).unwrap().abs();
            let least = (1..=found.lines + 2).map(left).min().unwrap();
            prop_assert_eq!(found.leftover().unwrap().abs(), least);
            prop_assert_eq!(found.reading(found.lines).unwrap(), lead);
            prop_assert_eq!(found.exact(), least.is_zero());
            // A turn counted in lines at the wanted value is out by the leftover.
            let counted = value.mul(found.lines.into()).unwrap();
            prop_assert_eq!(found.leftover_over(counted).unwrap(), found.leftover().unwrap());
            if let Some(finer) = found.finer().unwrap() {
                prop_assert!(finer.exact() && finer.value < value);
                let parts = value.div(finer.value).unwrap();
                prop_assert!(parts.is_whole());
            }
        }
    }
}
