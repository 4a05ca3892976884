//! What thread is this? From the outside diameter and the crests over a length.

use alloc::vec::Vec;

use super::designation::Designation;
use super::series::listed;

/// A thread that it may be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Candidate {
    /// The thread.
    pub thread: Designation,
    /// What was measured less the nominal outside diameter, mm: a made screw is a little under.
    pub diameter_off: f64,
    /// The length measured less that of as many pitches, mm.
    pub length_off: f64,
    /// How unlikely, for ordering.
    pub unlikely: f64,
}

/// At most so many are worth looking at.
const MOST: usize = 8;

/// Standard threads near an outside diameter and so many pitches over a length, both in mm,
/// likeliest first.
///
/// A screw's outside is taken to be under its nominal by a tenth of the pitch, as 6g and 2A leave it
/// on the average; a thread is listed when its diameter is within 5 % and its pitch within 5 %. Two
/// parts in a hundred of diameter count as much as one of pitch, for crests can be counted.
#[must_use]
pub fn identify(outside: f64, pitches: u32, length: f64) -> Vec<Candidate> {
    let mut found: Vec<Candidate> = Vec::new();
    if !(outside > 0.0 && length > 0.0) || pitches == 0 {
        return found;
    }
    let measured = length / f64::from(pitches);
    for thread in listed() {
        let Some(nominal) = thread.diameter else { continue };
        let (nominal, pitch) = (nominal.to_f64(), thread.pitch.to_f64());
        let diameter_part = (outside + 0.1 * pitch - nominal) / nominal;
        let pitch_part = measured / pitch - 1.0;
        if diameter_part.abs() > 0.05 || pitch_part.abs() > 0.05 {
            continue;
        }
        let unlikely = libm::sqrt(diameter_part * diameter_part / 4.0 + pitch_part * pitch_part);
        let at = found.iter().position(|c| c.unlikely > unlikely).unwrap_or(found.len());
        if at < MOST {
            found.truncate(MOST.saturating_sub(1));
            found.insert(
                at,
                Candidate {
                    thread,
                    diameter_off: outside - nominal,
                    length_off: length - pitch * f64::from(pitches),
                    unlikely,
                },
            );
        }
    }
    found
}
