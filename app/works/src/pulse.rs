//! A steady beat: when the next one falls, by a clock that only goes forward.

/// A hand can't follow a quicker beat, milliseconds; nor does a slower one help.
const PACES: (u32, u32) = (400, 10_000);

/// Beat n falls at `from + n · every`: nothing is added up, so nothing drifts.
#[derive(Clone, Debug)]
pub(crate) struct Pulse {
    /// When beat 0 falls, seconds.
    from: f64,
    /// Milliseconds from beat to beat.
    every: u32,
    /// The next beat that isn't set out yet.
    next: u32,
    /// Beats set out under paces before this one.
    before: u32,
}

impl Pulse {
    /// Beats from a moment on.
    pub(crate) fn new(from: f64, every: u32) -> Pulse {
        Pulse { from, every, next: 0, before: 0 }
    }

    /// Milliseconds from beat to beat.
    pub(crate) fn every(&self) -> u32 {
        self.every
    }

    fn at(&self, beat: u32) -> f64 {
        self.from + f64::from(beat) * f64::from(self.every) / 1000.0
    }

    /// The next beat that falls before `until`, and its number; what has gone by while nobody asked
    /// is left out, and the rest stays in step.
    pub(crate) fn due(&mut self, now: f64, until: f64) -> Option<(f64, u32)> {
        if self.at(self.next) < now {
            let gone = (now - self.from) * 1000.0 / f64::from(self.every);
            self.next = self.next.max(gone.ceil() as u32);
        }
        let at = self.at(self.next);
        (at < until).then(|| {
            let number = self.before.saturating_add(self.next);
            self.next = self.next.saturating_add(1);
            (at, number)
        })
    }

    /// How many beats have gone by, with the part of the present one.
    pub(crate) fn gone(&self, now: f64) -> f64 {
        f64::from(self.before) + ((now - self.from) * 1000.0 / f64::from(self.every)).max(0.0)
    }

    /// A tenth quicker, or slower, from the last beat that is set out.
    pub(crate) fn pace(&mut self, faster: bool) {
        let every = if faster { self.every * 10 / 11 } else { self.every * 11 / 10 };
        let last = self.next.saturating_sub(1);
        self.from = self.at(last);
        self.before = self.before.saturating_add(last);
        self.next = self.next.min(1);
        self.every = every.clamp(PACES.0, PACES.1);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// As the page does: asked at each frame what falls within the next 0.2 s.
    fn heard(pulse: &mut Pulse, frames: impl Iterator<Item = f64>) -> Vec<(f64, u32)> {
        frames
            .flat_map(|now| {
                std::iter::from_fn(|| pulse.due(now, now + 0.2))
                    .inspect(move |(at, _)| assert!(*at >= now, "{at} set out at {now}"))
                    .collect::<Vec<_>>()
            })
            .collect()
    }

    #[test]
    fn an_hour_of_beats_stays_in_step() {
        let mut pulse = Pulse::new(0.1, 2267);
        let beats = heard(&mut pulse, (0..216_000).map(|frame| f64::from(frame) / 60.0));
        assert_eq!(beats.len(), 1589, "an hour of 2.267 s, and both ends");
        for (n, (at, number)) in beats.iter().enumerate() {
            assert_eq!(*number as usize, n);
            assert!((at - 0.1 - n as f64 * 2.267).abs() < 1e-9, "{n}: {at}");
        }
    }

    #[test]
    fn what_went_by_unasked_is_left_out_and_the_rest_is_in_step() {
        let mut pulse = Pulse::new(0.0, 500);
        let before = heard(&mut pulse, [0.0, 0.1, 0.4].into_iter());
        assert_eq!(before, [(0.0, 0), (0.5, 1)]);
        let after = heard(&mut pulse, [7.21, 7.4, 7.5].into_iter());
        assert_eq!(after, [(7.5, 15)]);
    }

    #[test]
    fn a_new_pace_goes_on_from_the_last_beat() {
        let mut pulse = Pulse::new(0.0, 1000);
        assert_eq!(heard(&mut pulse, [0.0, 0.9].into_iter()), [(0.0, 0), (1.0, 1)]);
        pulse.pace(false);
        assert_eq!(pulse.every(), 1100);
        assert_eq!(heard(&mut pulse, [1.0, 2.0].into_iter()), [(2.1, 2)]);
        assert!((pulse.gone(2.1) - 2.0).abs() < 1e-9 && (pulse.gone(2.65) - 2.5).abs() < 1e-9);
        pulse.pace(true);
        assert_eq!(pulse.every(), 1000);
        assert_eq!(heard(&mut pulse, [2.9, 3.0].into_iter()), [(3.1, 3)]);
    }

    #[test]
    fn no_hand_is_asked_for_the_impossible() {
        let mut pulse = Pulse::new(0.0, 450);
        for _ in 0..50 {
            pulse.pace(true);
        }
        assert_eq!(pulse.every(), 400);
        for _ in 0..50 {
            pulse.pace(false);
        }
        assert_eq!(pulse.every(), 10_000);
    }
}
