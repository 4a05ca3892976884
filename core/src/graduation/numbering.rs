//! Which way the numbers run, and where each digit is stamped.

use crate::exact::Ratio;
use alloc::vec::Vec;
use core::f64::consts::PI;

/// The hand of a screw.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Hand {
    /// Turned clockwise it goes away into its nut.
    #[default]
    Right,
    /// Turned clockwise it comes out of its nut.
    Left,
}

/// What moves along when the handle is turned.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Moves {
    /// The nut, and the slide with it: the handle stays where it is.
    #[default]
    Nut,
    /// The screw, handle and slide.
    Screw,
}

/// A way round, seen from the handle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turning {
    /// As the hands of a clock.
    Clockwise,
    /// Against them.
    Anticlockwise,
}

impl Turning {
    /// The other way round.
    #[must_use]
    pub const fn other(self) -> Turning {
        match self {
            Turning::Clockwise => Turning::Anticlockwise,
            Turning::Anticlockwise => Turning::Clockwise,
        }
    }
}

/// Which way the handle turns while the reading grows, seen from the handle.
///
/// From what hand means: a right-hand screw turned clockwise goes away from the one who turns it,
/// or, if it can't, draws its nut towards them. `inwards` is away from the handle.
#[must_use]
pub fn grows_turning(hand: Hand, moves: Moves, inwards: bool) -> Turning {
    let clockwise_goes_inwards = (hand == Hand::Right) == (moves == Moves::Screw);
    if clockwise_goes_inwards == inwards { Turning::Clockwise } else { Turning::Anticlockwise }
}

/// Which way round the dial its numbers grow, for a dial that turns under a fixed line: against
/// the way in which it turns while the reading grows.
///
/// "Numbers increase clockwise around the dial face (dial turns counter-clockwise for an
/// increase)": MIL-STD-1472E 5.2.3.3.1, which prefers that way; the other is its mirror image.
#[must_use]
pub const fn numbers_run(dial_turns: Turning) -> Turning {
    dial_turns.other()
}

/// Degrees from the line at which each digit of a number is stamped, centred on it, for a pitch
/// between digits measured straight across (a chord), in the diameter's unit.
///
/// Empty for no digits, or a pitch that isn't within the diameter.
#[must_use]
pub fn stamp_offsets(diameter: Ratio, digit_pitch: Ratio, digits: u32) -> Vec<f64> {
    let sine = digit_pitch.to_f64() / diameter.to_f64();
    if !(0.0..=1.0).contains(&sine) {
        return Vec::new();
    }
    let apart = 2.0 * libm::asin(sine) * 180.0 / PI;
    let middle = (f64::from(digits) - 1.0) / 2.0;
    (0..digits.min(9)).map(|digit| (f64::from(digit) - middle) * apart).collect()
}

/// Room along the rim from one number to the next, in the diameter's unit.
#[must_use]
pub fn stamp_room(diameter: Ratio, lines: u32, numbered_every: u32) -> f64 {
    super::spacing::pitch(diameter, lines) * f64::from(numbered_every)
}
