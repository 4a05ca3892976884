//! How steeply a thread climbs, and the clearance that the tool's sides need.

use super::form::Profile;
use super::lead::Lead;

/// Angles of a helix and of the tool that cuts it, degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Helix {
    /// At the pitch diameter.
    pub pitch_deg: f64,
    /// At the crests.
    pub major_deg: f64,
    /// At the roots, where it's steepest.
    pub minor_deg: f64,
    /// The tool's side that leads, ground under by the steepest angle and the clearance.
    pub leading_side_deg: f64,
    /// The tool's side that follows, ground under by the clearance less the flattest angle;
    /// where it's negative that side may lean the other way.
    pub trailing_side_deg: f64,
}

/// The angle whose tangent is lead / (π × diameter), degrees; a right angle on no diameter.
#[must_use]
pub fn helix_deg(lead: Lead, diameter_mm: f64) -> f64 {
    libm::atan2(lead.to_f64(), core::f64::consts::PI * diameter_mm.max(0.0)).to_degrees()
}

/// The helix between two diameters in mm, and the tool's side angles with this much clearance in
/// degrees on each side.
#[must_use]
pub fn helix(lead: Lead, major: f64, pitch: f64, minor: f64, clearance_deg: f64) -> Helix {
    let (major_deg, minor_deg) = (helix_deg(lead, major), helix_deg(lead, minor));
    Helix {
        pitch_deg: helix_deg(lead, pitch),
        major_deg,
        minor_deg,
        leading_side_deg: minor_deg + clearance_deg,
        trailing_side_deg: clearance_deg - major_deg,
    }
}

/// What an error of lead over the engaged length does, mm: it is as if the pitch diameter were so
/// much larger (or the nut's so much smaller).
///
/// Error × cot α, α half the angle between the flanks: 1.732 for 60°, 1.921 for 55°.
/// By geometry; ISO 965-1 and FED-STD-H28 say the same.
#[must_use]
pub fn diametral_equivalent(profile: &Profile, lead_error: f64) -> f64 {
    lead_error.abs() / libm::tan(profile.half_angle())
}

/// What an error of lead comes to over the engaged length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeadError {
    /// Over the engaged length, mm, positive where the thread is too long.
    pub over_length: f64,
    /// As a growth of the pitch diameter, mm.
    pub diametral: f64,
    /// That as a share of the pitch diameter's tolerance, where there is one.
    pub share: Option<f64>,
}

/// Judges an inexact lead: its error in parts per million over an engaged length in mm, beside a
/// pitch diameter's tolerance in mm.
#[must_use]
pub fn lead_error(
    profile: &Profile,
    error_ppm: f64,
    engaged: f64,
    tolerance: Option<f64>,
) -> LeadError {
    let over_length = error_ppm * engaged / 1e6;
    let diametral = diametral_equivalent(profile, over_length);
    LeadError {
        over_length,
        diametral,
        share: tolerance.filter(|t| *t > 0.0).map(|t| diametral / t),
    }
}
