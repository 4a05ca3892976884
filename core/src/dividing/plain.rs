//! Plain indexing: whole turns of the crank and spaces on one circle.

use super::direct::{step, worst_rounding};
use super::kit::Head;
use super::way::{Setting, Way};
use super::whole::{divides, gcd, mul, nearest, quot, rem};
use crate::exact::{Ratio, RatioError};
use alloc::vec::Vec;

/// Every circle that divides exactly; one way without a circle where the turns are whole.
///
/// R/N = turns + holes/circle; the circle must be divisible by what is below the bar of R/N in
/// lowest terms (US Army OD1644, Milling Machine Operations, lesson 1).
#[must_use]
pub fn exact(divisions: u32, head: &Head) -> Vec<Way> {
    let (r, n) = (i64::from(head.worm_ratio), i64::from(divisions));
    settings(r, n, &head.circles())
        .into_iter()
        .map(|setting| Way::exact(setting, divisions, head.worm_ratio))
        .collect()
}

/// Every exact setting for a crank move of so many turns; none for a move backwards.
#[must_use]
pub fn exact_move(turns: Ratio, circles: &[u16]) -> Vec<Setting> {
    match (i64::try_from(turns.numer()), i64::try_from(turns.denom())) {
        (Ok(r), Ok(n)) if r >= 0 => settings(r, n, circles),
        _ => Vec::new(),
    }
}

fn settings(r: i64, n: i64, circles: &[u16]) -> Vec<Setting> {
    let lowest = gcd(r, n);
    let (turns, left, below) = (step(quot(r, n)), quot(rem(r, n), lowest), quot(n, lowest));
    if left == 0 {
        return Vec::from([Setting::Plain { turns, holes: 0, circle: None }]);
    }
    let fits = circles.iter().copied().filter(|circle| divides(below, i64::from(*circle)));
    fits.map(|circle| Setting::Plain {
        turns,
        holes: small(mul(left, quot(circle.into(), below))),
        circle: Some(circle),
    })
    .collect()
}

/// The circle that comes nearest, each division at the hole nearest to it, counted from
/// division 0 and not from the one before, so that nothing adds up.
///
/// # Errors
///
/// [`RatioError::Overflow`], beyond the limits of the shop only.
pub fn nearest_way(divisions: u32, head: &Head) -> Result<Option<Way>, RatioError> {
    let mut best: Option<Way> = None;
    // Whole turns are made on the circle of one hole.
    for circle in core::iter::once(1).chain(head.circles()) {
        let places = mul(head.worm_ratio.into(), circle.into());
        let Some(worst) = worst_rounding(divisions, places)? else { continue };
        if best.is_none_or(|best| worst < best.worst) {
            let setting = on(circle, nearest(places, divisions.into()));
            let exact = worst.is_zero();
            best = Some(Way { exact, worst, ..Way::exact(setting, divisions, head.worm_ratio) });
        }
    }
    Ok(best)
}

/// The nearest single circle to a crank move of so many turns, and how far the setting is beyond
/// it in turns of the crank; the first of two circles that are as near. None for a
/// move backwards.
///
/// # Errors
///
/// [`RatioError::Overflow`].
pub fn nearest_move(turns: Ratio, circles: &[u16]) -> Result<Option<(Setting, Ratio)>, RatioError> {
    let mut best: Option<(Setting, Ratio)> = None;
    if turns.is_negative() {
        return Ok(None);
    }
    for &circle in circles {
        let spaces = turns.mul(Ratio::from(u32::from(circle)))?.round();
        let error = Ratio::new(spaces, circle.into())?.sub(turns)?;
        if best.is_none_or(|(_, least)| error.abs() < least.abs()) {
            let spaces = i64::try_from(spaces).map_err(|_| RatioError::Overflow)?;
            best = Some((on(circle, spaces), error));
        }
    }
    Ok(best)
}

/// So many spaces of a circle as turns and holes.
pub(super) fn on(circle: u16, spaces: i64) -> Setting {
    let holes = i64::from(circle);
    Setting::Plain {
        turns: step(quot(spaces, holes)),
        holes: small(rem(spaces, holes)),
        circle: (circle > 1).then_some(circle),
    }
}

pub(super) fn small(holes: i64) -> u16 {
    u16::try_from(holes).unwrap_or(u16::MAX)
}
