//! One gear: its teeth, and what fills it.

use core::f64::consts::PI;

use super::sheet::{Path, Point};

/// Height of a tooth above the pitch circle, in modules (ISO 53 basic rack).
pub(crate) const ADDENDUM: f64 = 1.0;
/// Depth of a space below the pitch circle, in modules (ISO 53 basic rack).
pub(crate) const DEDENDUM: f64 = 1.25;
/// Half of a tooth's thickness on the pitch circle, in modules: a quarter of the pitch, less some play to be seen.
const HALF_TOOTH: f64 = 0.74;
/// Tangent of the 20° pressure angle.
const FLANK: f64 = 0.364;

/// Radius of the circle at the bottom of the spaces.
pub(crate) fn root_radius(teeth: u16, module: f64) -> f64 {
    (f64::from(teeth) / 2.0 - DEDENDUM).max(f64::from(teeth) * 0.2) * module
}

/// The outline of a gear with straight-flanked teeth, the middle of one of them at `phase`.
pub(crate) fn outline(path: &mut Path, centre: Point, teeth: u16, module: f64, phase: f64) {
    let count = f64::from(teeth);
    let root = root_radius(teeth, module);
    let tip = (count / 2.0 + ADDENDUM) * module;
    let half_tip = (HALF_TOOTH - FLANK * ADDENDUM) * module / tip;
    let half_root = ((HALF_TOOTH + FLANK * DEDENDUM) * module / root).min(PI / count * 0.96);
    for tooth in 0..teeth {
        let middle = phase + f64::from(tooth) * 2.0 * PI / count;
        let foot = centre.polar(root, middle - half_root);
        if tooth == 0 {
            path.go(foot)
        } else {
            path.line(foot)
        };
        path.line(centre.polar(tip, middle - half_tip))
            .line(centre.polar(tip, middle + half_tip))
            .line(centre.polar(root, middle + half_root));
    }
    path.close();
}

/// Where the driven gear's tooth must stand so that it meets the driver's space.
///
/// `toward` is the direction from the driver's centre to the driven's.
pub(crate) fn meshed_phase(driver: u16, phase: f64, driven: u16, toward: f64) -> f64 {
    let ratio = f64::from(driver) / f64::from(driven);
    toward + PI - (phase - toward) * ratio + PI / f64::from(driven)
}

/// Section lines at 45° within a ring, `gap` apart.
pub(crate) fn hatch(path: &mut Path, centre: Point, inner: f64, outer: f64, gap: f64) {
    let (dx, dy) = (0.5_f64.sqrt(), -(0.5_f64.sqrt()));
    let lines = (outer / gap) as i32;
    for index in -lines..=lines {
        let offset = (f64::from(index) + 0.5) * gap;
        if offset.abs() >= outer {
            continue;
        }
        let middle = centre.shifted(-dy * offset, dx * offset);
        let along = |length: f64| middle.shifted(dx * length, dy * length);
        let far = (outer * outer - offset * offset).sqrt();
        if offset.abs() < inner {
            let near = (inner * inner - offset * offset).sqrt();
            path.stroke(along(-far), along(-near)).stroke(along(near), along(far));
        } else {
            path.stroke(along(-far), along(far));
        }
    }
}

/// Arms from a hub to a rim, each a pair of lines that draw together outwards.
pub(crate) fn arms(path: &mut Path, centre: Point, hub: f64, rim: f64, count: u16, phase: f64) {
    for arm in 0..count {
        let angle = phase + f64::from(arm) * 2.0 * PI / f64::from(count);
        for side in [-1.0, 1.0] {
            let foot = centre.polar(hub, angle + side * 0.32);
            let head = centre.polar(rim, angle + side * (hub * 0.21 / rim));
            path.stroke(foot, head);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// How far the middle of the nearest tooth is from `direction`, in pitches, −½ to ½.
    fn tooth_at(teeth: u16, phase: f64, direction: f64) -> f64 {
        let pitches = (phase - direction) * f64::from(teeth) / (2.0 * PI);
        pitches - pitches.round()
    }

    #[test]
    fn a_tooth_meets_a_space_wherever_the_gears_meet() {
        for driver in [10, 20, 33, 127, 200] {
            for driven in [10, 21, 63, 127] {
                for step in 0..40 {
                    let (phase, toward) = (f64::from(step) * 0.37, f64::from(step) * 0.11 - 2.0);
                    let other = meshed_phase(driver, phase, driven, toward);
                    let ahead = tooth_at(driver, phase, toward);
                    let behind = tooth_at(driven, other, toward + PI);
                    // The two turn opposite ways: their places add up to half a pitch.
                    let sum = (ahead + behind).abs();
                    assert!((sum - 0.5).abs() < 1e-9, "{driver} {driven} {step} {sum}");
                }
            }
        }
    }
}
