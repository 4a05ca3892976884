//! A feed as a share of a handwheel's turn in so many seconds.

use super::CuttingError;
use crate::exact::Ratio;

/// A hand can't follow a quicker beat than this, seconds.
pub const QUICKEST_BEAT_S: f64 = 0.4;

/// The longest that a beat is left before a smaller share of a turn is taken, seconds.
const SLOWEST_BEAT_S: f64 = 3.0;

/// A hand doesn't keep smaller shares of a turn than one in so many even. Common practice, no source.
const SMALLEST_SHARE: i64 = 32;

/// The slowest feed that a hand keeps even on a handwheel of that travel a turn, mm/min: a
/// thirty-second of a turn each three seconds.
#[must_use]
pub fn slowest_by_hand(travel_mm: Ratio) -> f64 {
    60.0 * travel_mm.to_f64() / (32.0 * SLOWEST_BEAT_S)
}

/// A share of a turn each so many seconds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beat {
    /// The share: 1, 1/2, 1/4 … 1/32 of a turn.
    pub turn: Ratio,
    /// How long each takes, never under [`QUICKEST_BEAT_S`].
    pub seconds: f64,
    /// The feed that the beat makes, mm/min: less than was asked where a hand couldn't follow.
    pub feed_mm_per_min: f64,
}

impl Beat {
    /// Whether the feed asked for is quicker than a hand can turn.
    #[must_use]
    pub fn held_back(&self, asked_mm_per_min: f64) -> bool {
        self.feed_mm_per_min < asked_mm_per_min
    }
}

/// The beat of `feed_mm_per_min` on a handwheel that moves its slide `travel_mm` a turn: the
/// largest natural share of a turn that takes no longer than three seconds.
///
/// ```
/// use latheside_core::{cutting::beat, exact::Ratio};
/// let beat = beat(16.8, Ratio::of(254, 100)).unwrap();
/// assert_eq!(beat.turn, Ratio::of(1, 4));
/// assert!((beat.seconds - 2.27).abs() < 0.005);
/// ```
///
/// # Errors
///
/// [`CuttingError::NoTravel`], [`CuttingError::NoFeed`]; [`CuttingError::TooSlowForAHand`] under
/// [`slowest_by_hand`].
pub fn beat(feed_mm_per_min: f64, travel_mm: Ratio) -> Result<Beat, CuttingError> {
    if !travel_mm.is_positive() {
        return Err(CuttingError::NoTravel);
    }
    if !(feed_mm_per_min.is_finite() && feed_mm_per_min > 0.0) {
        return Err(CuttingError::NoFeed);
    }
    let travel = travel_mm.to_f64();
    let turn_s = 60.0 * travel / feed_mm_per_min;
    if turn_s < QUICKEST_BEAT_S {
        let feed_mm_per_min = 60.0 * travel / QUICKEST_BEAT_S;
        return Ok(Beat { turn: Ratio::ONE, seconds: QUICKEST_BEAT_S, feed_mm_per_min });
    }
    let (mut share, mut seconds) = (1_i64, turn_s);
    while seconds > SLOWEST_BEAT_S && share < SMALLEST_SHARE {
        share = share.saturating_mul(2);
        seconds /= 2.0;
    }
    // A float's error is no reason to refuse the slowest.
    if seconds > SLOWEST_BEAT_S * (1.0 + 1e-9) {
        return Err(CuttingError::TooSlowForAHand);
    }
    Ok(Beat { turn: Ratio::of(1, share), seconds, feed_mm_per_min })
}

/// The beat of a feed from `low` to `high` mm/min: of `low`, or, where a hand can't keep that even, of
/// the slowest that it can, as long as that isn't over `high`.
///
/// # Errors
///
/// As for [`beat`].
pub fn hand_feed(low: f64, high: f64, travel_mm: Ratio) -> Result<Beat, CuttingError> {
    let least = slowest_by_hand(travel_mm);
    match beat(low, travel_mm) {
        Err(CuttingError::TooSlowForAHand) if least <= high => beat(least, travel_mm),
        other => other,
    }
}

#[cfg(test)]
#[allow(clippy::arithmetic_side_effects)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn too_quick_for_a_hand_is_held_back() {
        let beat = beat(900.0, Ratio::of(5, 2)).unwrap();
        assert_eq!((beat.turn, beat.seconds), (Ratio::ONE, 0.4));
        assert!((beat.feed_mm_per_min - 375.0).abs() < 1e-9 && beat.held_back(900.0));
    }

    #[test]
    fn too_slow_for_a_hand_is_lifted_within_the_range() {
        // A 64th of 2.5 mm each 1.7 s is 1.4 mm/min; a 32nd each 3 s is 1.5625.
        let travel = Ratio::of(5, 2);
        let least = 1.5625;
        assert_eq!(beat(1.4, travel), Err(CuttingError::TooSlowForAHand));
        assert_eq!(hand_feed(1.4, 1.5, travel), beat(1.4, travel));
        let lifted = hand_feed(1.4, 2.0, travel).unwrap();
        assert_eq!((lifted.turn, lifted.feed_mm_per_min), (Ratio::of(1, 32), least));
        assert!((lifted.seconds - 3.0).abs() < 1e-9);
        assert_eq!(hand_feed(20.0, 40.0, travel), beat(20.0, travel));
    }

    #[test]
    fn nothing_has_no_beat() {
        assert_eq!(beat(0.0, Ratio::ONE), Err(CuttingError::NoFeed));
        assert_eq!(beat(f64::NAN, Ratio::ONE), Err(CuttingError::NoFeed));
        assert_eq!(beat(5.0, Ratio::ZERO), Err(CuttingError::NoTravel));
    }

    proptest! {
        #[test]
        fn share_and_seconds_make_the_feed(feed in 0.01f64..5000.0, thou in 20i64..500) {
            let travel = Ratio::of(127 * thou, 5000);
            let Ok(beat) = beat(feed, travel) else {
                prop_assert!(feed < slowest_by_hand(travel));
                return Ok(());
            };
            prop_assert!(beat.turn >= Ratio::of(1, 32) && beat.seconds <= 3.0 + 1e-6);
            let made = 60.0 * travel.to_f64() * beat.turn.to_f64() / beat.seconds;
            prop_assert!((made / beat.feed_mm_per_min - 1.0).abs() < 1e-9);
            prop_assert!(beat.seconds >= QUICKEST_BEAT_S && beat.feed_mm_per_min <= feed);
        }
    }
}
