//! What a misplaced hole, tooth or division comes to, in arc and at the rim.

use crate::exact::Ratio;
use core::f64::consts::PI;

/// Seconds of arc in a turn: 360 × 60 × 60.
pub const ARCSEC_PER_TURN: f64 = 1_296_000.0;

/// A part of a turn in seconds of arc.
#[must_use]
pub fn arcsec(turns: Ratio) -> f64 {
    turns.to_f64() * ARCSEC_PER_TURN
}

/// The arc at the rim, in the diameter's unit, of a part of a turn.
#[must_use]
pub fn at_rim(turns: Ratio, diameter: Ratio) -> f64 {
    turns.to_f64() * PI * diameter.to_f64()
}

/// The angle in seconds of arc of an arc at a radius of the same unit; 0 at no radius.
///
/// A hole misplaced by `arc` on a circle of that radius puts the crank, or the spindle with a
/// plate on it, off by this; a plate off centre by `arc` puts it off by as much either way.
#[must_use]
pub fn arcsec_of(arc: Ratio, radius: Ratio) -> f64 {
    match arc.div(radius) {
        Ok(radians) => radians.to_f64() * ARCSEC_PER_TURN / (2.0 * PI),
        Err(_) => 0.0,
    }
}

/// What is left at the work of an angle that the crank, or its plate, is off by.
///
/// The worm divides it by its ratio, whatever the unit. The worm's and wheel's own errors come
/// after the plate and aren't lessened.
#[must_use]
pub fn at_work(at_crank: f64, worm_ratio: u32) -> f64 {
    at_crank / f64::from(worm_ratio.max(1))
}
