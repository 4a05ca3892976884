//! Where the pin or detent must stand at a division, counted from division 0 and not from the
//! one before, so that a miscount shows itself and isn't carried on.
//!
//! On a plate that stands still the hole is the check: each division has its own. Against a plate
//! that gears turn, turns and holes are counted on the plate itself, from the hole that the pin
//! was in at division 0 (chalk it): the pin still comes to the hole named here, but whether the
//! gears are right shows only on the work, half-way round ([`half_way`]: half a turn of the
//! spindle) and at the end ([`closing`]: the first line again).

use super::way::{Holes, Setting, Way};
use super::whole::{gcd, mul, nearest, quot, rem};
use crate::exact::{Ratio, RatioError};

/// Where the crank or the plate stands: turns from division 0 and the hole that the pin is in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pin {
    /// Whole turns since division 0, downwards where it goes backwards.
    pub turns: i64,
    /// The hole, counted from hole 0 in the usual direction.
    pub hole: u16,
    /// Holes in the circle; `None` where only whole turns are made.
    pub circle: Option<u16>,
}

/// What to see at a division.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum At {
    /// The tooth, or hole, under the detent, counted from tooth 0.
    Tooth {
        /// The tooth.
        tooth: u32,
        /// Teeth on the gear.
        positions: u16,
    },
    /// Half teeth from tooth 0: an odd number is between two teeth.
    HalfTooth {
        /// Half teeth.
        half_teeth: u32,
        /// Whole teeth on the gear.
        positions: u16,
    },
    /// The crank's turns and its pin's hole. Against a plate that gears turn, both are counted
    /// on the plate, which carries its hole 0 round with it.
    Pin(Pin),
    /// Both pins of a compound move.
    Pins {
        /// The crank against the plate.
        crank: Pin,
        /// The plate against the head.
        plate: Pin,
    },
}

/// A division's place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// Which division of the work this is, from 0: not the count of moves where a way goes
    /// several times round.
    pub division: u32,
    /// What to see there.
    pub at: At,
    /// How far past its true place, in turns of the work.
    pub error: Ratio,
}

/// The place after so many moves; after as many as there are divisions the work is round again.
///
/// # Errors
///
/// [`RatioError::Overflow`], beyond the shop's limits only.
pub fn place(way: &Way, moves: u32) -> Result<Place, RatioError> {
    let (n, k) = (i64::from(way.divisions), i64::from(moves));
    match way.setting {
        Setting::Direct { .. } | Setting::HalfTooth { .. } | Setting::Plain { .. } => {
            let angle = Ratio::new(k.into(), n.into())?;
            Ok(Place { division: moves, ..rounded(way, angle)? })
        }
        Setting::Compound { turns, first, second, laps } => {
            let step = Ratio::from(turns).add(part(first)?)?.add(part(second)?)?;
            let goal = Ratio::new(laps.into(), n.into())?;
            let error = step.div(way.worm_ratio.into())?.sub(goal)?.mul(Ratio::whole(k))?;
            let all = mul(turns.into(), first.circle.into()).saturating_add(first.holes.into());
            let division = u32::try_from(rem(mul(k, laps.into()), n)).unwrap_or(0);
            let crank = pin(Some(first.circle), mul(k, all));
            let plate = pin(Some(second.circle), mul(k, second.holes.into()));
            let whole_round = k > 0 && division == 0;
            let division = if whole_round { way.divisions } else { division };
            Ok(Place { division, at: At::Pins { crank, plate }, error })
        }
        Setting::Differential { turns, holes, circle, train } => {
            let size = i64::from(circle.unwrap_or(1));
            let all = mul(turns.into(), size).saturating_add(holes.into());
            // While the spindle turns once, the crank makes R turns and the plate `ratio` of them.
            let against = Ratio::from(way.worm_ratio).sub(train.ratio()?)?;
            let step = Ratio::new(all.into(), size.into())?.div(against)?;
            let error = step.sub(Ratio::new(1, n.into())?)?.mul(Ratio::whole(k))?;
            Ok(Place { division: moves, at: At::Pin(pin(circle, mul(k, all))), error })
        }
    }
}

/// The place of an angle, in turns of the work from division 0: the nearest that the way has.
///
/// A compound way goes there in one move, so that the plate makes no whole turn.
///
/// # Errors
///
/// [`RatioError::Overflow`].
pub fn place_at(way: &Way, angle: Ratio) -> Result<Place, RatioError> {
    match way.setting {
        Setting::Direct { .. } | Setting::HalfTooth { .. } | Setting::Plain { .. } => {
            rounded(way, angle)
        }
        Setting::Compound { .. } | Setting::Differential { .. } => {
            let division = angle.mul(way.divisions.into())?.round();
            let moves = u32::try_from(division).map_err(|_| RatioError::Overflow)?;
            let place = place(way, moves)?;
            let off = Ratio::new(division, way.divisions.into())?.sub(angle)?;
            let at = match place.at {
                // The plate's whole turns are the crank's as well, made in one move.
                At::Pins { crank, plate } => At::Pins {
                    crank: Pin { turns: crank.turns.saturating_add(plate.turns), ..crank },
                    plate: Pin { turns: 0, ..plate },
                },
                at => at,
            };
            Ok(Place { at, error: place.error.add(off)?, ..place })
        }
    }
}

/// The place when the work is once round: every way but an inexact one is at its hole 0 again.
///
/// # Errors
///
/// As [`place`].
pub fn closing(way: &Way) -> Result<Place, RatioError> {
    place(way, way.divisions)
}

/// The place opposite division 0, after half of the moves; `None` for an odd number.
///
/// # Errors
///
/// As [`place`].
pub fn half_way(way: &Way) -> Result<Option<Place>, RatioError> {
    match rem(way.divisions.into(), 2) {
        0 => place(way, way.divisions >> 1).map(Some),
        _ => Ok(None),
    }
}

/// After how many moves every pin is in hole 0 again, for the first time: the check that comes
/// soonest. `None` where a nearest hole is chosen for each division.
#[must_use]
pub fn back_at_nought(way: &Way) -> Option<u32> {
    let returns = |holes: i64, circle: i64| quot(circle, gcd(holes, circle).max(1));
    let moves = match way.setting {
        Setting::Direct { .. } | Setting::HalfTooth { .. } if !way.exact => return None,
        Setting::Direct { positions, step } => returns(step.into(), positions.into()),
        Setting::HalfTooth { positions, step } => returns(step.into(), mul(2, positions.into())),
        Setting::Plain { .. } if !way.exact => return None,
        Setting::Plain { holes, circle, .. } | Setting::Differential { holes, circle, .. } => {
            returns(holes.into(), circle.unwrap_or(1).into())
        }
        Setting::Compound { first, second, .. } => super::whole::lcm(
            returns(first.holes.into(), first.circle.into()),
            returns(second.holes.into(), second.circle.into()),
        ),
    };
    u32::try_from(moves).ok()
}

/// The nearest tooth or hole to an angle.
fn rounded(way: &Way, angle: Ratio) -> Result<Place, RatioError> {
    let places: i64 = match way.setting {
        Setting::HalfTooth { positions, .. } => mul(2, positions.into()),
        Setting::Direct { positions, .. } => positions.into(),
        Setting::Plain { circle, .. } => mul(way.worm_ratio.into(), circle.unwrap_or(1).into()),
        _ => 1,
    };
    let (above, below) = (i64::try_from(angle.numer()), i64::try_from(angle.denom()));
    let (Ok(above), Ok(below)) = (above, below) else { return Err(RatioError::Overflow) };
    let spaces = nearest(above.checked_mul(places).ok_or(RatioError::Overflow)?, below);
    let error = Ratio::new(spaces.into(), places.into())?.sub(angle)?;
    let on_gear = u32::try_from(rem(spaces, places)).unwrap_or(0);
    let at = match way.setting {
        Setting::Direct { positions, .. } => At::Tooth { tooth: on_gear, positions },
        Setting::HalfTooth { positions, .. } => At::HalfTooth { half_teeth: on_gear, positions },
        Setting::Plain { circle, .. } => At::Pin(pin(circle, spaces)),
        _ => At::Pin(pin(None, spaces)),
    };
    let division = angle.mul(way.divisions.into())?.round();
    Ok(Place { division: u32::try_from(division).unwrap_or(0), at, error })
}

fn pin(circle: Option<u16>, spaces: i64) -> Pin {
    let size = i64::from(circle.unwrap_or(1));
    Pin { turns: quot(spaces, size), hole: super::plain::small(rem(spaces, size)), circle }
}

fn part(holes: Holes) -> Result<Ratio, RatioError> {
    Ratio::new(holes.holes.into(), holes.circle.into())
}
