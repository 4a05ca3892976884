//! Teeth or holes on the spindle itself, counted off under a detent.

use super::kit::Kit;
use super::way::{Setting, Way};
use super::whole::{divides, gcd, mul, nearest, quot, sizes};
use crate::exact::{Ratio, RatioError};
use alloc::vec::Vec;

/// Every plate or gear that divides exactly, by whole teeth, and by half teeth where whole ones
/// don't and the detent for it is owned.
#[must_use]
pub fn exact(divisions: u32, kit: &Kit) -> Vec<Way> {
    let n = i64::from(divisions);
    let each = |positions: u16| {
        let teeth = i64::from(positions);
        let setting = if divides(n, teeth) {
            Setting::Direct { positions, step: step(quot(teeth, n)) }
        } else if kit.half_tooth && divides(n, mul(teeth, 2)) {
            Setting::HalfTooth { positions, step: step(quot(mul(teeth, 2), n)) }
        } else {
            return None;
        };
        Some(Way::exact(setting, divisions, 1))
    };
    sizes(kit.direct.iter().copied()).into_iter().filter_map(each).collect()
}

/// The plate or gear that comes nearest, each division at the tooth nearest to it; and the same
/// for half teeth where the detent is owned.
///
/// Only those with a tooth for every division.
///
/// # Errors
///
/// [`RatioError::Overflow`], beyond the limits of [`Kit::check`] only.
pub fn nearest_ways(divisions: u32, kit: &Kit) -> Result<Vec<Way>, RatioError> {
    let mut found = Vec::new();
    for half in [false, true] {
        if half && !kit.half_tooth {
            continue;
        }
        let mut best: Option<Way> = None;
        for positions in sizes(kit.direct.iter().copied()) {
            let places = mul(positions.into(), if half { 2 } else { 1 });
            let Some(worst) = worst_rounding(divisions, places)? else { continue };
            if best.is_none_or(|best| worst < best.worst) {
                let step = step(nearest(places, divisions.into()));
                let setting = match half {
                    false => Setting::Direct { positions, step },
                    true => Setting::HalfTooth { positions, step },
                };
                let exact = worst.is_zero();
                best = Some(Way { exact, worst, ..Way::exact(setting, divisions, 1) });
            }
        }
        found.extend(best);
    }
    Ok(found)
}

/// The most that any division is off, in turns of the work, where each is put at the nearest of
/// so many evenly spaced places; `None` where there are fewer places than divisions.
///
/// Division k belongs at k·places/divisions. In lowest terms over q, its distance from a whole
/// number takes every value 0, 1/q, 2/q … and the largest is ⌊q/2⌋/q of a space.
pub(super) fn worst_rounding(divisions: u32, places: i64) -> Result<Option<Ratio>, RatioError> {
    let n = i64::from(divisions);
    if places < n {
        return Ok(None);
    }
    let q = quot(n, gcd(n, places));
    Ratio::new(quot(q, 2).into(), mul(q, places).into()).map(Some)
}

pub(super) fn step(step: i64) -> u32 {
    u32::try_from(step).unwrap_or(u32::MAX)
}
