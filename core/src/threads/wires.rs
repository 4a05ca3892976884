//! Measuring a thread over wires.

use super::form::Profile;
use super::lead::Lead;

/// A correction smaller than this, mm, is left out: nobody's micrometer shows it.
const SEEN: f64 = 0.001;

/// Wires for one thread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wires {
    /// The wire that touches the flanks at the pitch line, mm.
    pub best: f64,
    /// The thinnest that stands above the crests, mm.
    pub least: f64,
    /// The thickest that still touches the flanks, mm.
    pub greatest: f64,
}

/// The wires for this shape.
///
/// Best: P / (2 cos α), α half the angle between the flanks, from the thread's geometry. The least
/// stands level with the crest of the nominal screw; the greatest touches the flanks at its crest's
/// edge. For 60° that is 0.505 P to 1.010 P.
#[must_use]
pub fn wires(profile: &Profile) -> Wires {
    let (pitch, half) = (profile.pitch.to_f64(), profile.half_angle());
    let (sin, cos, tan) = (libm::sin(half), libm::cos(half), libm::tan(half));
    let addendum = profile.addendum.to_f64();
    let best = pitch / (2.0 * cos);
    // Over the pitch line the wire's top stands w/2 (1 + 1/sin α) - P/4 cot α.
    let least = 2.0 * (addendum + pitch / 4.0 / tan) / (1.0 + 1.0 / sin);
    // It touches w/2 sin α outside its centre, which is w/2 / sin α above where the flanks meet.
    let greatest = 2.0 * (addendum + pitch / 4.0 / tan) / (1.0 / sin - sin);
    Wires { best, least, greatest }
}

impl Wires {
    /// Whether a wire of this diameter in mm can be used.
    #[must_use]
    pub fn fits(&self, wire: f64) -> bool {
        wire > self.least && wire < self.greatest
    }
}

/// What the lead angle adds to the size over wires, mm: nothing where it's under a micrometre.
///
/// (w/2) s² cos α cot α with s = lead / (π E), after Handbook H28 (from memory).
#[must_use]
pub fn lead_correction(profile: &Profile, lead: Lead, pitch_diameter: f64, wire: f64) -> f64 {
    let half = profile.half_angle();
    if pitch_diameter <= 0.0 {
        return 0.0;
    }
    let slope = lead.to_f64() / (core::f64::consts::PI * pitch_diameter);
    let added = wire / 2.0 * slope * slope * libm::cos(half) / libm::tan(half);
    if added < SEEN { 0.0 } else { added }
}

/// Size over three wires, mm, for a pitch diameter and a wire in mm:
/// M = E + w (1 + 1/sin α) - (P/2) cot α, and the lead's correction where it shows.
#[must_use]
pub fn over_wires(profile: &Profile, lead: Lead, pitch_diameter: f64, wire: f64) -> f64 {
    pitch_diameter
        + over_pitch_line(profile, wire)
        + lead_correction(profile, lead, pitch_diameter, wire)
}

/// How far M stands over the pitch diameter with no lead angle, mm.
fn over_pitch_line(profile: &Profile, wire: f64) -> f64 {
    let half = profile.half_angle();
    wire * (1.0 + 1.0 / libm::sin(half)) - profile.pitch.to_f64() / 2.0 / libm::tan(half)
}

/// Size over one wire on one side and the crests on the other, mm, on a blank whose outside
/// diameter was measured: the mean of that and the size over three wires.
#[must_use]
pub fn over_one_wire(
    profile: &Profile,
    lead: Lead,
    pitch_diameter: f64,
    wire: f64,
    outside: f64,
) -> f64 {
    f64::midpoint(over_wires(profile, lead, pitch_diameter, wire), outside)
}

/// The pitch diameter, mm, that a size over three wires tells of.
#[must_use]
pub fn pitch_diameter_from(profile: &Profile, lead: Lead, over: f64, wire: f64) -> f64 {
    let first = over - over_pitch_line(profile, wire);
    // The correction hardly depends on what is looked for: a second look is enough.
    let second = first - lead_correction(profile, lead, first, wire);
    first - lead_correction(profile, lead, second, wire)
}
