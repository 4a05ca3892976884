//! How far apart the lines stand, and how fine a scale the cutter's width allows.

use crate::exact::Ratio;
use core::f64::consts::PI;

/// From one line to the next along the rim: π·diameter/lines, in the diameter's unit; for lines on
/// a face take the diameter of their inner ends, where they are closest. Nothing for no lines.
#[must_use]
pub fn pitch(diameter: Ratio, lines: u32) -> f64 {
    if lines == 0 { 0.0 } else { PI * diameter.to_f64() / f64::from(lines) }
}

/// What is left between two lines of a width; less than nothing where they run together.
#[must_use]
pub fn gap(diameter: Ratio, lines: u32, line_width: Ratio) -> f64 {
    pitch(diameter, lines) - line_width.to_f64()
}

/// The most lines whose gap is no less than the line, nor than `least_gap` where one is asked for.
///
/// None for a line without width and no least gap, which would allow any number.
#[must_use]
pub fn finest_lines(diameter: Ratio, line_width: Ratio, least_gap: Option<Ratio>) -> Option<u32> {
    let width = line_width.to_f64();
    let gap = least_gap.map_or(width, |least| least.to_f64().max(width));
    let lines = PI * diameter.to_f64() / (width + gap);
    (lines.is_finite() && lines >= 0.0).then_some(lines as u32)
}

/// The widest line that leaves a gap as wide as itself.
#[must_use]
pub fn widest_line(diameter: Ratio, lines: u32) -> f64 {
    pitch(diameter, lines) / 2.0
}

/// The width of a line that a pointed tool cuts: 2·depth·tan(half its angle in degrees), in the
/// depth's unit.
#[must_use]
pub fn line_width(depth: Ratio, included_angle: Ratio) -> f64 {
    let half = included_angle.to_f64() / 2.0 * PI / 180.0;
    2.0 * depth.to_f64() * libm::tan(half)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn one_line_more_is_too_many(diameter in 1i64..300, width in 1i64..200, least in proptest::option::of(1i64..300)) {
            let (diameter, width) = (Ratio::whole(diameter), Ratio::of(width, 100));
            let least = least.map(|least| Ratio::of(least, 100));
            let wanted = least.map_or(width, |least| least.max(width)).to_f64();
            let lines = finest_lines(diameter, width, least).unwrap();
            prop_assert!(lines == 0 || gap(diameter, lines, width) >= wanted);
            prop_assert!(gap(diameter, lines + 1, width) < wanted);
        }
    }

    #[test]
    fn a_line_without_width_sets_no_limit() {
        assert_eq!(finest_lines(Ratio::whole(30), Ratio::ZERO, None), None);
        assert_eq!(pitch(Ratio::whole(30), 0), 0.0);
    }
}
