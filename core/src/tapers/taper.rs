//! A taper: what the diameter loses in a length.

use crate::exact::{Ratio, RatioError};
use core::fmt;
use libm::{asin, atan, sin, tan};

/// How a cone narrows.
///
/// Where it was given as a ratio it stays one; an angle has no exact ratio.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Taper {
    /// Change of diameter over length.
    PerLength(Ratio),
    /// The whole angle of the cone, degrees.
    Included(Ratio),
}

/// Why there is no such taper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum TaperError {
    /// A length of nothing or less.
    NoLength,
    /// Both ends are of one diameter: a cylinder.
    Straight,
    /// The small end is nothing or less, or not the small end.
    NotACone,
    /// The included angle isn't between 0 and 180 degrees.
    AngleOutOfRange {
        /// In whole degrees.
        degrees: i32,
    },
    /// A number too large to keep exactly.
    TooLarge,
}

impl fmt::Display for TaperError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            TaperError::NoLength => f.write_str("the length must be more than nothing"),
            TaperError::Straight => f.write_str("both ends are the same diameter: nothing tapers"),
            TaperError::NotACone => {
                f.write_str("the small end must be more than nothing and less than the large end")
            }
            TaperError::AngleOutOfRange { degrees } => {
                write!(f, "an included angle lies between 0 and 180 degrees, not at {degrees}")
            }
            TaperError::TooLarge => f.write_str("the number is too large to keep exactly"),
        }
    }
}

impl core::error::Error for TaperError {}

impl From<RatioError> for TaperError {
    fn from(_: RatioError) -> TaperError {
        TaperError::TooLarge
    }
}

/// How to know that it is right: a travel and what an indicator reads over it, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Check {
    /// How far the carriage or the compound is moved.
    pub travel_mm: Ratio,
    /// What the indicator changes by.
    pub reading_mm: f64,
}

const RIGHT_ANGLE: f64 = 90.0;

fn half_turn() -> Ratio {
    Ratio::whole(180)
}

impl Taper {
    /// One in `n` on the diameter.
    ///
    /// # Errors
    ///
    /// [`TaperError::Straight`] where `n` is nothing or less.
    pub fn one_in(n: Ratio) -> Result<Taper, TaperError> {
        if n.is_positive() { Ok(Taper::PerLength(n.recip()?)) } else { Err(TaperError::Straight) }
    }

    /// So much of diameter lost in each of length, both in one unit (mm per mm, in per in).
    ///
    /// # Errors
    ///
    /// [`TaperError::Straight`] where nothing is lost.
    pub fn per_length(loss: Ratio) -> Result<Taper, TaperError> {
        if loss.is_positive() { Ok(Taper::PerLength(loss)) } else { Err(TaperError::Straight) }
    }

    /// Inches of diameter lost in a foot of length.
    ///
    /// # Errors
    ///
    /// [`TaperError::Straight`] where nothing is lost.
    pub fn per_foot(inches: Ratio) -> Result<Taper, TaperError> {
        Taper::per_length(inches.div(Ratio::whole(12))?)
    }

    /// By both diameters and the length between them, all in one unit.
    ///
    /// # Errors
    ///
    /// [`TaperError::NoLength`], [`TaperError::Straight`], [`TaperError::NotACone`],
    /// [`TaperError::TooLarge`].
    pub fn between(large: Ratio, small: Ratio, length: Ratio) -> Result<Taper, TaperError> {
        if !length.is_positive() {
            return Err(TaperError::NoLength);
        }
        if large == small {
            return Err(TaperError::Straight);
        }
        if small.is_negative() || small > large {
            return Err(TaperError::NotACone);
        }
        Taper::per_length(large.sub(small)?.div(length)?)
    }

    /// By the whole angle of the cone, degrees.
    ///
    /// # Errors
    ///
    /// [`TaperError::AngleOutOfRange`].
    pub fn included(degrees: Ratio) -> Result<Taper, TaperError> {
        if degrees.is_positive() && degrees < half_turn() {
            return Ok(Taper::Included(degrees));
        }
        let degrees = i32::try_from(degrees.floor()).unwrap_or(i32::MAX);
        Err(TaperError::AngleOutOfRange { degrees })
    }

    /// By the angle between the side and the centre line, degrees.
    ///
    /// # Errors
    ///
    /// [`TaperError::AngleOutOfRange`].
    pub fn half(degrees: Ratio) -> Result<Taper, TaperError> {
        Taper::included(degrees.mul(Ratio::whole(2))?)
    }

    /// Change of diameter over length, exactly, where it was given so.
    #[must_use]
    pub fn exact(self) -> Option<Ratio> {
        match self {
            Taper::PerLength(ratio) => Some(ratio),
            Taper::Included(_) => None,
        }
    }

    /// Change of diameter over length: 2 tan(included / 2).
    #[must_use]
    pub fn per_mm(self) -> f64 {
        match self {
            Taper::PerLength(ratio) => ratio.to_f64(),
            Taper::Included(degrees) => 2.0 * tan(degrees.to_f64().to_radians() / 2.0),
        }
    }

    /// Between the side and the centre line, degrees: what the compound is swung by from
    /// parallel. atan(taper / 2).
    #[must_use]
    pub fn half_angle_deg(self) -> f64 {
        match self {
            Taper::PerLength(ratio) => atan(ratio.to_f64() / 2.0).to_degrees(),
            Taper::Included(degrees) => degrees.to_f64() / 2.0,
        }
    }

    /// The whole angle of the cone, degrees.
    #[must_use]
    pub fn included_deg(self) -> f64 {
        2.0 * self.half_angle_deg()
    }

    /// What the compound's scale shows where its zero lies across the bed: 90 less the half angle.
    #[must_use]
    pub fn across_scale_deg(self) -> f64 {
        RIGHT_ANGLE - self.half_angle_deg()
    }

    /// How far the tailstock is set over for work of `between_centres`, mm: half the taper by the
    /// whole length, whatever the length of the tapered part. Centre holes shorten it a little, so
    /// a cut and a measure decide.
    ///
    /// Jones, Turning and Boring (1914) p. 82.
    #[must_use]
    pub fn set_over_mm(self, between_centres: Ratio) -> f64 {
        self.per_mm() * between_centres.to_f64() / 2.0
    }

    /// The set-over exactly, in the unit of the length, where the taper is a ratio.
    ///
    /// # Errors
    ///
    /// [`TaperError::TooLarge`].
    pub fn set_over_exact(self, between_centres: Ratio) -> Result<Option<Ratio>, TaperError> {
        match self.exact() {
            Some(ratio) => Ok(Some(ratio.mul(between_centres)?.div(Ratio::whole(2))?)),
            None => Ok(None),
        }
    }

    /// The diameter `length` on from the large end, exactly, where the taper is a ratio.
    ///
    /// # Errors
    ///
    /// [`TaperError::NotACone`] past the point, [`TaperError::TooLarge`].
    pub fn small_end(self, large: Ratio, length: Ratio) -> Result<Option<Ratio>, TaperError> {
        let Some(ratio) = self.exact() else { return Ok(None) };
        let small = large.sub(ratio.mul(length)?)?;
        if small.is_negative() { Err(TaperError::NotACone) } else { Ok(Some(small)) }
    }

    /// An indicator on the carriage, its plunger square to the axis on a finished cone, read over
    /// `travel_mm` along the bed: travel × tan(half angle).
    #[must_use]
    pub fn along_the_bed(self, travel_mm: Ratio) -> Check {
        Check { travel_mm, reading_mm: travel_mm.to_f64() * self.per_mm() / 2.0 }
    }

    /// An indicator on the compound, its plunger square to the axis on a true cylinder, read while
    /// the swung compound moves by `travel_mm`: travel × sin(half angle).
    #[must_use]
    pub fn along_the_compound(self, travel_mm: Ratio) -> Check {
        let half = self.half_angle_deg().to_radians();
        Check { travel_mm, reading_mm: travel_mm.to_f64() * sin(half) }
    }

    /// How much the diameter is out over `length_mm` when the compound stands `off_deg` from the
    /// right angle: with a scale read to a quarter of a degree, an eighth.
    #[must_use]
    pub fn diameter_error_mm(self, off_deg: f64, length_mm: Ratio) -> f64 {
        let half = self.half_angle_deg();
        let wrong = 2.0 * tan((half + off_deg).to_radians());
        (wrong - self.per_mm()) * length_mm.to_f64()
    }

    /// How far down the cone the tool goes for a cut that takes `diameter_mm` off: a plug that
    /// stands proud by that much goes in by diameter / taper.
    #[must_use]
    pub fn advance_mm(self, diameter_mm: f64) -> f64 {
        diameter_mm / self.per_mm()
    }
}

/// The longest of the travels 50, 25, 20, 10, 5 mm that neither slide nor indicator runs out on;
/// the smaller of both limits where even 5 mm is too much.
///
/// `slide_mm` is what the slide can move, `indicator_mm` what the indicator can read.
#[must_use]
pub fn travel_for(taper: Taper, slide_mm: Ratio, indicator_mm: Ratio) -> Option<Ratio> {
    if !slide_mm.is_positive() || !indicator_mm.is_positive() {
        return None;
    }
    let reach = indicator_mm.to_f64();
    let fits =
        |travel: &Ratio| *travel <= slide_mm && taper.along_the_bed(*travel).reading_mm <= reach;
    [50, 25, 20, 10, 5].map(Ratio::whole).into_iter().find(fits)
}

/// The half angle in degrees of a straight edge laid on two discs: sin = difference of the radii
/// over the distance between centres. `None` where they would not stand side by side.
///
/// Jones, Turning and Boring (1914) p. 100.
#[must_use]
pub fn half_angle_from_discs(large: Ratio, small: Ratio, centres: Ratio) -> Option<f64> {
    let difference = large.sub(small).ok()?.div(Ratio::whole(2)).ok()?;
    if !small.is_positive() || difference.is_negative() || centres <= difference {
        return None;
    }
    Some(asin(difference.div(centres).ok()?.to_f64()).to_degrees())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_does_not_taper_is_refused() {
        let mm = Ratio::whole;
        assert_eq!(Taper::between(mm(10), mm(10), mm(5)), Err(TaperError::Straight));
        assert_eq!(Taper::between(mm(9), mm(10), mm(5)), Err(TaperError::NotACone));
        assert_eq!(Taper::between(mm(10), mm(9), mm(0)), Err(TaperError::NoLength));
        assert_eq!(Taper::one_in(mm(0)), Err(TaperError::Straight));
        for degrees in [0, 180, 200, -4] {
            let refused = Err(TaperError::AngleOutOfRange { degrees });
            assert_eq!(Taper::included(mm(i64::from(degrees))), refused);
        }
    }

    #[test]
    fn a_travel_that_the_indicator_can_read() {
        let slow = Taper::one_in(Ratio::whole(20)).unwrap();
        let steep = Taper::included(Ratio::whole(90)).unwrap();
        let ten = Ratio::whole(10);
        assert_eq!(travel_for(slow, Ratio::whole(100), ten), Some(Ratio::whole(50)));
        assert_eq!(travel_for(slow, Ratio::whole(30), ten), Some(Ratio::whole(25)));
        assert_eq!(travel_for(steep, Ratio::whole(100), ten), Some(ten));
        assert_eq!(travel_for(steep, Ratio::whole(100), Ratio::ONE), None);
    }

    proptest! {
        #[test]
        fn angle_and_ratio_undo_each_other(n in 1i64..2000) {
            let taper = Taper::one_in(Ratio::of(n, 10)).unwrap();
            let per = 2.0 * tan(taper.included_deg().to_radians() / 2.0);
            prop_assert!((per / taper.per_mm() - 1.0).abs() < 1e-12);
        }

        #[test]
        fn the_check_agrees_with_the_ends(large in 10i64..200, less in 1i64..9, length in 1i64..300) {
            let taper = Taper::between(
                Ratio::whole(large), Ratio::whole(large.saturating_sub(less)), Ratio::whole(length),
            ).unwrap();
            let small = taper.small_end(Ratio::whole(large), Ratio::whole(length)).unwrap().unwrap();
            prop_assert_eq!(small, Ratio::whole(large.saturating_sub(less)));
            let half = taper.along_the_bed(Ratio::whole(length)).reading_mm;
            prop_assert!((2.0 * half - less as f64).abs() < 1e-9);
        }
    }
}
