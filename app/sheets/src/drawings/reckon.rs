//! The little arithmetic that drawings need, kept small: a hundredth of a pixel is enough here.

use core::f64::consts::{FRAC_2_PI, FRAC_PI_2};

/// Sine and cosine, to within 1e-9 for angles of a few hundred turns.
///
/// The usual routines carry tables for angles that no drawing has.
pub(crate) fn sin_cos(angle: f64) -> (f64, f64) {
    let quarter = (angle * FRAC_2_PI + 0.5).floor();
    let x = angle - quarter * FRAC_PI_2;
    let square = x * x;
    // The first terms of the series, enough within an eighth of a turn.
    let series = |terms: &[f64]| terms.iter().rev().fold(1.0, |sum, d| 1.0 - square / d * sum);
    let sin = x * series(&[6.0, 20.0, 42.0, 72.0, 110.0]);
    let cos = series(&[2.0, 12.0, 30.0, 56.0, 90.0, 132.0]);
    match (quarter as i64) & 3 {
        0 => (sin, cos),
        1 => (cos, -sin),
        2 => (-sin, -cos),
        _ => (-cos, sin),
    }
}

/// The tangent of half an angle in degrees, the angle kept within bounds.
pub(crate) fn half_tangent(degrees: f64, least: f64, most: f64) -> f64 {
    let (sin, cos) = sin_cos(within(degrees, least, most).to_radians() / 2.0);
    sin / cos
}

/// A value kept within bounds; the least where it isn't a number.
///
/// Unlike `clamp` it can't panic, and doesn't bring the printing of floats with it.
pub(crate) fn within(value: f64, least: f64, most: f64) -> f64 {
    if value > most && most >= least {
        most
    } else if value >= least {
        value
    } else {
        least
    }
}

/// A length fit to be drawn: more than nothing, whatever was entered.
pub(crate) fn length(value: f64) -> f64 {
    within(value, 1e-3, 1e9)
}

/// The places of `keys` from the least to the greatest; equal ones keep their order.
pub(crate) fn order(keys: &[f64]) -> Vec<usize> {
    let mut places: Vec<usize> = (0..keys.len()).collect();
    let after = |one: usize, other: usize| {
        let (a, b) = (keys.get(one), keys.get(other));
        a > b || (a == b && one > other)
    };
    // Insertion over shrinking gaps: short, and quick enough for a thousand.
    for gap in [301, 132, 57, 23, 10, 4, 1] {
        for start in gap..places.len() {
            let mut here = start;
            while let (Some(&before), Some(&now)) =
                (here.checked_sub(gap).and_then(|place| places.get(place)), places.get(here))
            {
                if !after(before, now) {
                    break;
                }
                places.swap(here - gap, here);
                here -= gap;
            }
        }
    }
    places
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sines_agree_with_the_standard_library() {
        for step in -40_000..40_000 {
            let angle = f64::from(step) * 0.013;
            let (sin, cos) = sin_cos(angle);
            assert!((sin - angle.sin()).abs() < 1e-9, "std's sin({angle})");
            assert!((cos - angle.cos()).abs() < 1e-9, "std's cos({angle})");
        }
        for degrees in 0..160 {
            let angle = f64::from(degrees);
            let want = (angle / 2.0).to_radians().tan();
            assert!((half_tangent(angle, 0.0, 160.0) - want).abs() < 1e-8, "std's tan({angle})");
        }
    }

    #[test]
    fn bounds_hold_for_anything() {
        for value in [f64::NAN, f64::NEG_INFINITY, -1.0, 0.5, 2.0, f64::INFINITY] {
            assert!((0.0..=1.0).contains(&within(value, 0.0, 1.0)), "{value}");
            assert!(length(value) > 0.0 && length(value).is_finite());
            assert!(within(value, 3.0, 1.0) >= 1.0);
        }
    }

    #[test]
    fn order_is_by_size_and_then_by_place() {
        assert_eq!(order(&[3.0, 1.0, 2.0, 1.0]), [1, 3, 2, 0]);
        assert_eq!(order(&[]), [0_usize; 0]);
        let keys: Vec<f64> = (0..400_u32).map(|k| f64::from(k * 7919 % 257)).collect();
        let mut want: Vec<usize> = (0..keys.len()).collect();
        want.sort_by(|a, b| keys[*a].total_cmp(&keys[*b]));
        assert_eq!(order(&keys), want);
    }
}
