//! An irregular pattern: angles of one's own on one circle.

use super::compound;
use super::error::DividingError;
use super::kit::{Kit, MOST_ANGLES, MOST_DIVISIONS};
use super::place::{At, Place, place_at};
use super::way::{Method, Setting, Way};
use super::ways::ways;
use super::whole::{lcm, sizes};
use crate::exact::{Ratio, RatioError};
use alloc::vec::Vec;

/// A worm of 999 and circles of 999 and 998 holes make fewer divisions than this, and any others fewer yet.
const MOST_COMMON: u32 = 1_000_000_000;

/// How many differential and compound ways a pattern lists at most.
const LISTED: usize = 20;

/// As near as this, in turns of the work, a hole is as good as the exact place: three minutes of
/// arc, half of what a type II protractor may be out by in all (MIL-P-288B, 3.6.1.1).
pub const AS_GOOD: Ratio = Ratio::of(1, 7200);

/// The ways of making a pattern of angles.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pattern {
    /// The angles in the order asked for, in turns of the work from division 0.
    pub angles: Vec<Ratio>,
    /// Exact ways, the least to get wrong first, else the nearest of each kind, the least error
    /// first. Where only gears or two moves make it exactly, the nearest of the other kinds stand
    /// after those, within [`AS_GOOD`] and a hundredth of the smallest angle before the rest: there is
    /// so much less to get wrong. A direct or plain way's setting is the move to the first angle that isn't nought;
    /// the places of all are what counts.
    pub ways: Vec<Way>,
}

impl Pattern {
    /// The place of an angle by one of the ways; its division is the angle's number, from 0.
    ///
    /// # Errors
    ///
    /// [`RatioError::Overflow`].
    pub fn place(&self, way: &Way, angle: usize) -> Result<Option<Place>, RatioError> {
        let Some(turns) = self.angles.get(angle) else { return Ok(None) };
        let place = place_at(way, *turns)?;
        Ok(Some(Place { division: u32::try_from(angle).unwrap_or(u32::MAX), ..place }))
    }
}

/// The best plate, gear or circle for all of the angles, given in turns of the work.
///
/// Each is placed by itself, so nothing adds up. Where none makes them all exactly, the angles
/// may still be divisions of the whole circle that gears or two moves make.
///
/// # Errors
///
/// What [`Kit::check`] refuses; no angles or more than [`MOST_ANGLES`]; an angle that isn't within
/// one turn; [`DividingError::Number`] for one too fine to be kept exactly.
pub fn pattern(angles: &[Ratio], kit: &Kit) -> Result<Pattern, DividingError> {
    kit.check()?;
    if angles.is_empty() {
        return Err(DividingError::NoDivisions);
    }
    if angles.len() > MOST_ANGLES {
        return Err(DividingError::TooManyAngles { angles: angles.len() });
    }
    if let Some(outside) = angles.iter().find(|angle| angle.is_negative() || **angle > Ratio::ONE) {
        return Err(DividingError::AngleOutside { degrees: outside.mul(Ratio::whole(360))? });
    }
    let first = angles.iter().copied().find(|angle| !angle.is_zero()).unwrap_or(Ratio::ZERO);
    let common = common_divisions(angles);
    let divisions = common.unwrap_or(u32::try_from(angles.len()).unwrap_or(1));
    let mut exact = Vec::new();
    let mut nearest: Vec<Way> = Vec::new();
    for setting in candidates(kit) {
        let worm_ratio = match (setting, &kit.head) {
            (Setting::Plain { .. }, Some(head)) => head.worm_ratio,
            _ => 1,
        };
        let way = Way::exact(setting, divisions, worm_ratio);
        // Once it is no better than another of its kind, the rest of the angles can't save it.
        let so_far = nearest.iter().find(|best| best.method() == way.method());
        let so_far = so_far.map(|best| best.worst);
        let mut worst = Ratio::ZERO;
        for angle in angles {
            worst = worst.max(place_at(&way, *angle)?.error.abs());
            if so_far.is_some_and(|so_far| worst >= so_far) {
                break;
            }
        }
        if so_far.is_some_and(|so_far| worst >= so_far) {
            continue;
        }
        let setting = moved(setting, place_at(&way, first)?.at);
        let way = Way { setting, exact: worst.is_zero(), worst, ..way };
        if way.exact {
            // Half teeth only where whole ones don't do it; a circle only where turns don't.
            let fewer = match setting {
                Setting::HalfTooth { positions, .. } => Some((Method::Direct, Some(positions))),
                Setting::Plain { circle: Some(_), .. } => Some((Method::Plain, None)),
                _ => None,
            };
            if !exact.iter().any(|way: &Way| Some(by(&way.setting)) == fewer) {
                exact.push(way);
            }
        } else {
            nearest.retain(|other| other.method() != way.method());
            nearest.push(way);
        }
    }
    let odd = exact.is_empty();
    if odd
        && let Some(divisions) = common
        && let Ok(found) = ways(divisions, kit)
    {
        let others = found.ways.into_iter().filter(|way| {
            way.exact && matches!(way.method(), Method::Compound | Method::Differential)
        });
        exact.extend(others.take(LISTED));
    } else if odd
        && let Some(head) = &kit.head
        && let Some(divisions) = common_within(angles, MOST_COMMON)
    {
        // No gears make so many divisions; two circles of a plate may.
        let mut found = compound::exact(divisions, head);
        found.truncate(LISTED);
        exact.extend(found);
    }
    let mut ways = exact;
    let found = !ways.is_empty();
    if odd {
        ways.extend(nearest);
    }
    let smallest = angles.iter().copied().filter(|angle| !angle.is_zero()).min();
    let as_good = smallest.and_then(|angle| angle.div(Ratio::whole(100)).ok());
    let as_good = as_good.map_or(AS_GOOD, |hundredth| hundredth.min(AS_GOOD));
    let rank = |way: &Way| match (found, way.exact) {
        (_, true) => 0,
        (true, false) if way.worst <= as_good => 1,
        _ => 2_u8,
    };
    ways.sort_by(|one, other| {
        let burdens = || one.setting.burden().cmp(&other.setting.burden());
        rank(one).cmp(&rank(other)).then(one.worst.cmp(&other.worst)).then_with(burdens)
    });
    Ok(Pattern { angles: angles.to_vec(), ways })
}

/// The fewest equal divisions of the circle that have all of the angles among them; `None` beyond
/// [`MOST_DIVISIONS`].
fn common_divisions(angles: &[Ratio]) -> Option<u32> {
    common_within(angles, MOST_DIVISIONS)
}

/// The same; `None` beyond `most`.
fn common_within(angles: &[Ratio], most: u32) -> Option<u32> {
    let mut common: u32 = 1;
    for angle in angles {
        let below = i64::try_from(angle.denom()).ok()?;
        let both = u32::try_from(lcm(common.into(), below)).ok()?;
        common = (both <= most).then_some(both)?;
    }
    Some(common)
}

/// Every plate, gear and circle, with no move yet.
fn candidates(kit: &Kit) -> Vec<Setting> {
    let mut all = Vec::new();
    for positions in sizes(kit.direct.iter().copied()) {
        all.push(Setting::Direct { positions, step: 0 });
        if kit.half_tooth {
            all.push(Setting::HalfTooth { positions, step: 0 });
        }
    }
    if let Some(head) = &kit.head {
        all.push(Setting::Plain { turns: 0, holes: 0, circle: None });
        let circles = head.circles().into_iter();
        all.extend(circles.map(|circle| Setting::Plain {
            turns: 0,
            holes: 0,
            circle: Some(circle),
        }));
    }
    all
}

/// The setting with the move to a place.
fn moved(setting: Setting, at: At) -> Setting {
    match (setting, at) {
        (Setting::Direct { positions, .. }, At::Tooth { tooth, .. }) => {
            Setting::Direct { positions, step: tooth }
        }
        (Setting::HalfTooth { positions, .. }, At::HalfTooth { half_teeth, .. }) => {
            Setting::HalfTooth { positions, step: half_teeth }
        }
        (Setting::Plain { circle, .. }, At::Pin(pin)) => {
            Setting::Plain { turns: super::direct::step(pin.turns), holes: pin.hole, circle }
        }
        _ => setting,
    }
}

fn by(setting: &Setting) -> (Method, Option<u16>) {
    match *setting {
        Setting::Direct { positions, .. } | Setting::HalfTooth { positions, .. } => {
            (setting.method(), Some(positions))
        }
        Setting::Plain { circle, .. } => (Method::Plain, circle),
        _ => (setting.method(), None),
    }
}
