//! Which lines are long, which middle and which short, numbered from 0.

use crate::exact::{Ratio, RatioError, gcd};

/// How long a line is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Line {
    /// Numbered.
    Long,
    /// Half-way between.
    Middle,
    /// The rest.
    Short,
}

/// Every so many lines are long, every so many middle; 0 leaves them out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Marks {
    /// Every so many, from line 0.
    pub long_every: u32,
    /// Every so many that isn't long.
    pub middle_every: u32,
}

impl Default for Marks {
    /// Every tenth long, the other fifths middle.
    fn default() -> Marks {
        Marks { long_every: 10, middle_every: 5 }
    }
}

impl Marks {
    /// What a line is, counted from 0.
    #[must_use]
    pub fn line(&self, line: u32) -> Line {
        if line.checked_rem(self.long_every) == Some(0) {
            Line::Long
        } else if line.checked_rem(self.middle_every) == Some(0) {
            Line::Middle
        } else {
            Line::Short
        }
    }

    /// How many of so many lines are long, middle and short.
    #[must_use]
    pub fn counts(&self, lines: u32) -> (u32, u32, u32) {
        let every = |step: u32| if step == 0 { 0 } else { lines.div_ceil(step) };
        let long = every(self.long_every);
        let common = u32::try_from(gcd(self.long_every.into(), self.middle_every.into()));
        let both = common.ok().and_then(|common| self.long_every.checked_div(common));
        let both = both.map_or(0, |share| every(share.saturating_mul(self.middle_every)));
        let middle = every(self.middle_every).saturating_sub(both);
        (long, middle, lines.saturating_sub(long).saturating_sub(middle))
    }

    /// Lines from the last long one on to line 0 again: as many as between the others only where
    /// they go round evenly.
    #[must_use]
    pub fn last_interval(&self, lines: u32) -> u32 {
        match lines.checked_rem(self.long_every) {
            Some(0) => self.long_every,
            Some(rest) => rest,
            None => lines,
        }
    }
}

/// The lengths of long, middle and short lines, for a longest of so much.
///
/// As 0.19, 0.15 and 0.11 in, equal steps: MIL-P-288B protractor specification, 3.5.2.
///
/// # Errors
///
/// [`RatioError::Overflow`].
pub fn line_lengths(longest: Ratio) -> Result<[Ratio; 3], RatioError> {
    let part = |hundredths: i128| longest.mul(Ratio::new(hundredths, 19)?);
    Ok([longest, part(15)?, part(11)?])
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_counts_are_what_one_counts(lines in 0u32..400, long_every in 0u32..30, middle_every in 0u32..30) {
            let marks = Marks { long_every, middle_every };
            let of = |kind| u32::try_from((0..lines).filter(|line| marks.line(*line) == kind).count()).unwrap();
            prop_assert_eq!(marks.counts(lines), (of(Line::Long), of(Line::Middle), of(Line::Short)));
        }
    }
}
