//! Compound indexing: a move on one circle of a plate, then the plate itself on another.

use super::kit::Head;
use super::plain::small;
use super::way::{Holes, Setting, Way};
use super::whole::{divides, gcd, lcm, mul, quot, rem, sizes};
use crate::exact::{Ratio, RatioError};
use alloc::vec::Vec;

/// The most times round the work that a nearest way goes.
///
/// Each move is then so many divisions at once; beyond this the cranking outweighs the gain.
pub const MOST_LAPS: u32 = 20;

/// Calls `found` with every exact setting.
///
/// R/N = turns + first + second with the whole turns of R/N itself: the same holes with a turn
/// more and a circle back are the same places said otherwise. A setting is there only where what
/// is below the bar of R/N divides the least common multiple of the two circles. Going several
/// laps changes nothing in that, for laps have no divisor in common with N.
pub(super) fn each_exact(divisions: u32, head: &Head, mut found: impl FnMut(Setting)) {
    let (r, n) = (i64::from(head.worm_ratio), i64::from(divisions));
    let lowest = gcd(r, n);
    let (turns, left, below) = (quot(r, n), quot(rem(r, n), lowest), quot(n, lowest));
    for (one, other) in pairs_of_circles(head) {
        let common = lcm(one, other);
        if divides(below, common) {
            let parts = mul(left, quot(common, below));
            splits(parts, one, other, |a, b| found(setting(turns, (a, one), (b, other), 1)));
        }
    }
}

/// Every exact setting, the fewest spaces first.
#[must_use]
pub fn exact(divisions: u32, head: &Head) -> Vec<Way> {
    let mut ways = Vec::new();
    each_exact(divisions, head, |setting| {
        ways.push(Way::exact(setting, divisions, head.worm_ratio));
    });
    ways.sort_by_key(|way| way.setting.burden());
    ways
}

/// The nearest settings by one move, the same each time: round the work once, and where it is
/// better round it several times (up to [`MOST_LAPS`], with no divisor in common with the
/// divisions).
///
/// # Errors
///
/// [`RatioError::Overflow`], beyond the shop's limits only.
pub fn nearest_ways(divisions: u32, head: &Head) -> Result<Vec<Way>, RatioError> {
    let n = i64::from(divisions);
    let mut once: Option<(Ratio, Setting)> = None;
    let mut round: Option<(Ratio, Setting)> = None;
    let most = MOST_LAPS.min(divisions.saturating_sub(1)).max(1);
    for laps in (1..=most).filter(|laps| gcd((*laps).into(), n) == 1) {
        let turns = Ratio::new(mul(head.worm_ratio.into(), laps.into()).into(), n.into())?;
        let Some((setting, error)) = nearest_move(turns, &head.plates)? else { break };
        let Setting::Compound { turns, first, second, .. } = setting else { break };
        let setting = Setting::Compound { turns, first, second, laps };
        let better = |best: &Option<(Ratio, Setting)>| {
            best.as_ref().is_none_or(|(least, _)| error.abs() < least.abs())
        };
        if laps == 1 {
            once = Some((error, setting));
        } else if better(&once) && better(&round) {
            round = Some((error, setting));
        }
    }
    let found = once.into_iter().chain(round);
    found.map(|(error, setting)| repeated(setting, divisions, head.worm_ratio, error)).collect()
}

/// The way that repeats a move which is off by `error` turns of the crank each time: division
/// N − 1 is off by N − 1 errors, and the last space differs from the others by N of them.
fn repeated(
    setting: Setting,
    divisions: u32,
    worm_ratio: u32,
    error: Ratio,
) -> Result<Way, RatioError> {
    let error = error.div(worm_ratio.into())?;
    let worst = error.abs().mul(divisions.saturating_sub(1).into())?;
    let closing = error.mul(divisions.into())?;
    let exact = error.is_zero();
    Ok(Way { exact, worst, closing, ..Way::exact(setting, divisions, worm_ratio) })
}

/// The nearest two moves to so many turns of the crank, and how far the sum is beyond it; of
/// those as near, the one with the fewest spaces to count. None for a move backwards.
///
/// # Errors
///
/// [`RatioError::Overflow`].
pub fn nearest_move(
    turns: Ratio,
    plates: &[Vec<u16>],
) -> Result<Option<(Setting, Ratio)>, RatioError> {
    if turns.is_negative() {
        return Ok(None);
    }
    let whole = i64::try_from(turns.floor()).map_err(|_| RatioError::Overflow)?;
    let rest = turns.sub(Ratio::whole(whole))?;
    let mut best: Option<(Ratio, u32, Setting)> = None;
    for (one, other) in plates.iter().flat_map(|plate| circle_pairs(plate)) {
        let common = lcm(one, other);
        let exact_parts = rest.mul(Ratio::whole(common))?;
        let below = i64::try_from(exact_parts.floor()).map_err(|_| RatioError::Overflow)?;
        // Some sums can't be had with both moves in them; few steps outwards there is one.
        for upwards in [false, true] {
            for out in 0..MOST_OUT {
                let parts = match upwards {
                    false => below.saturating_sub(out),
                    true => below.saturating_add(out).saturating_add(1),
                };
                let error = Ratio::new(parts.into(), common.into())?.sub(rest)?;
                if best.is_some_and(|(least, _, _)| error.abs() > least.abs()) {
                    break;
                }
                let mut here: Option<(u32, Setting)> = None;
                splits(parts, one, other, |a, b| {
                    let setting = setting(whole, (a, one), (b, other), 1);
                    let (_, counted, _) = setting.burden();
                    if here.is_none_or(|(fewest, _)| counted < fewest) {
                        here = Some((counted, setting));
                    }
                });
                if let Some((counted, setting)) = here {
                    if best.is_none_or(|(least, fewest, _)| {
                        (error.abs(), counted) < (least.abs(), fewest)
                    }) {
                        best = Some((error, counted, setting));
                    }
                    break;
                }
            }
        }
    }
    Ok(best.map(|(error, _, setting)| (setting, error)))
}

/// How many parts outwards a sum with both moves in it is looked for. Two circles of 3 holes or
/// more give one of any three neighbouring sums; with 2 holes every other.
const MOST_OUT: i64 = 4;

/// Calls `found` with every a, b such that a/one + b/other is `parts` of their least common
/// multiple, each neither nothing nor a whole circle.
fn splits(parts: i64, one: i64, other: i64, mut found: impl FnMut(i64, i64)) {
    let common = lcm(one, other);
    let (per_one, per_other) = (quot(common, one), quot(common, other));
    let least = one.saturating_neg().saturating_add(1);
    let left = |a: i64| parts.saturating_sub(mul(a, per_one));
    // The two have no divisor in common, so that every `per_other`-th a leaves whole holes.
    let within = least.saturating_add(per_other).min(one);
    let Some(first) = (least..within).find(|a| divides(per_other, left(*a))) else { return };
    let mut a = first;
    while a < one {
        let b = quot(left(a), per_other);
        if a != 0 && b != 0 && b.saturating_abs() < other {
            found(a, b);
        }
        a = a.saturating_add(per_other.max(1));
    }
}

fn setting(turns: i64, first: (i64, i64), second: (i64, i64), laps: u32) -> Setting {
    // The longer forward move comes first, so that a move back is made from there.
    let (first, second) =
        if (first.0 < 0) && (second.0 > 0) { (second, first) } else { (first, second) };
    let holes = |(holes, circle): (i64, i64)| Holes {
        holes: i16::try_from(holes).unwrap_or(i16::MAX),
        circle: small(circle),
    };
    Setting::Compound {
        turns: super::direct::step(turns),
        first: holes(first),
        second: holes(second),
        laps,
    }
}

fn pairs_of_circles(head: &Head) -> Vec<(i64, i64)> {
    head.plates.iter().flat_map(|plate| circle_pairs(plate)).collect()
}

/// Every two different circles of one plate.
fn circle_pairs(plate: &[u16]) -> Vec<(i64, i64)> {
    let circles = sizes(plate.iter().copied());
    let mut pairs = Vec::new();
    for (at, one) in circles.iter().enumerate() {
        for other in circles.iter().skip(at.saturating_add(1)) {
            pairs.push((i64::from(*one), i64::from(*other)));
        }
    }
    pairs
}
