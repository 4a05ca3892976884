//! Fitting a thread to the nut in hand: what a touch more infeed does.

use super::form::Profile;

/// What one unit of radial infeed does to the fit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Infeed {
    /// Taken off the pitch diameter, for each 1 of radial infeed.
    pub off_pitch_diameter: f64,
    /// Added to the end shake, for each 1 of radial infeed.
    pub end_shake: f64,
}

/// Straight infeed with a tool of the form's angle: two off the pitch diameter; the groove widens by
/// 2 tan α, and so does the nut's end shake (60°: 1.155).
///
/// By geometry.
#[must_use]
pub fn infeed(profile: &Profile) -> Infeed {
    Infeed { off_pitch_diameter: 2.0, end_shake: 2.0 * libm::tan(profile.half_angle()) }
}

/// End shake, mm, of a nut whose pitch diameter is so much larger than the screw's, mm.
#[must_use]
pub fn end_shake(profile: &Profile, pitch_diameter_clearance: f64) -> f64 {
    pitch_diameter_clearance * libm::tan(profile.half_angle())
}

/// Radial infeed still wanted, mm, to bring an end shake that was felt to the one wanted.
///
/// Nothing where there is already enough: metal can't be put back.
#[must_use]
pub fn infeed_to_shake(profile: &Profile, shake: f64, wanted: f64) -> f64 {
    ((wanted - shake) / (2.0 * libm::tan(profile.half_angle()))).max(0.0)
}
