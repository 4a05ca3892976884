//! The hole under a tap.

use super::HoleError;
use crate::exact::Ratio;
use libm::sqrt;

/// ISO 2306 drills for the coarse series, hundredths of a millimetre: diameter, pitch, drill.
/// From memory, and within a tenth of the trainee tables in the tests.
#[rustfmt::skip]
pub const COARSE: &[(u16, u16, u16)] = &[
    ( 100,  25,   75), ( 110,  25,   85), ( 120,  25,   95), ( 140,  30,  110),
    ( 160,  35,  125), ( 180,  35,  145), ( 200,  40,  160), ( 220,  45,  175),
    ( 250,  45,  205), ( 300,  50,  250), ( 350,  60,  290), ( 400,  70,  330),
    ( 450,  75,  370), ( 500,  80,  420), ( 600, 100,  500), ( 700, 100,  600),
    ( 800, 125,  680), ( 900, 125,  780), (1000, 150,  850), (1100, 150,  950),
    (1200, 175, 1020), (1400, 200, 1200), (1600, 200, 1400), (1800, 250, 1550),
    (2000, 250, 1750), (2200, 250, 1950), (2400, 300, 2100), (2700, 300, 2400),
    (3000, 350, 2650), (3300, 350, 2950), (3600, 400, 3200), (3900, 400, 3500),
    (4200, 450, 3750), (4500, 450, 4050), (4800, 500, 4300), (5200, 500, 4700),
];

/// What a hundred per cent of thread is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Percent {
    /// Three quarters of H on each side: FED-STD-H28.
    OfThreeQuartersH,
    /// Five eighths of H: the depth of the basic ISO thread.
    OfFiveEighthsH,
}

impl Percent {
    /// Twice the depth of a full thread, in pitches: 2 × 3/4 H or 2 × 5/8 H, H = √3/2 P.
    fn full_depths(self) -> f64 {
        let h = sqrt(3.0) / 2.0;
        match self {
            Percent::OfThreeQuartersH => 1.5 * h,
            Percent::OfFiveEighthsH => 1.25 * h,
        }
    }
}

/// The tapping drill of a coarse metric thread, mm, where ISO 2306 prints one.
#[must_use]
pub fn tapping_drill_of(diameter_mm: Ratio, pitch_mm: Ratio) -> Option<Ratio> {
    let mm = |hundredths: u16| Ratio::of(i64::from(hundredths), 100);
    COARSE
        .iter()
        .find(|(d, p, _)| mm(*d) == diameter_mm && mm(*p) == pitch_mm)
        .map(|(_, _, drill)| mm(*drill))
}

/// The tapping drill of any 60° thread, mm: the printed one, else the diameter less the pitch
/// (ISO 2306's rule; stock drills are the nearest, as 8.8 mm for M10 × 1.25).
///
/// # Errors
///
/// [`HoleError::NoSize`] where the pitch is nothing or not less than the diameter.
pub fn tapping_drill(diameter_mm: Ratio, pitch_mm: Ratio) -> Result<Ratio, HoleError> {
    if !pitch_mm.is_positive() || pitch_mm >= diameter_mm {
        return Err(HoleError::NoSize);
    }
    match tapping_drill_of(diameter_mm, pitch_mm) {
        Some(drill) => Ok(drill),
        None => Ok(diameter_mm.sub(pitch_mm)?),
    }
}

/// The hole that leaves so much of a 60° thread, mm. `share` is 0.75 for 75 %.
#[must_use]
pub fn hole_for_percent(diameter_mm: Ratio, pitch_mm: Ratio, share: f64, of: Percent) -> f64 {
    diameter_mm.to_f64() - share * of.full_depths() * pitch_mm.to_f64()
}

/// How much of a 60° thread a hole leaves, 1 for all of it.
#[must_use]
pub fn percent_of_hole(diameter_mm: Ratio, pitch_mm: Ratio, hole_mm: Ratio, of: Percent) -> f64 {
    (diameter_mm.to_f64() - hole_mm.to_f64()) / (of.full_depths() * pitch_mm.to_f64())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn printed_drills_are_near_diameter_less_pitch() {
        for (d, p, drill) in COARSE {
            let rule = d.checked_sub(*p).unwrap();
            assert!(rule.abs_diff(*drill) <= 10, "{d} {p} {drill}");
        }
        let none = tapping_drill(Ratio::ONE, Ratio::ONE);
        assert_eq!(none, Err(HoleError::NoSize));
    }
}
