//! Time to let go: how fast the spindle may turn towards a shoulder or a groove.

use super::super::Why;
use super::super::feeding::Time;
use super::answer::Thread;
use super::wanted::Wanted;
use crate::exact::Ratio;
use crate::quantity::show;
use crate::shop::{Shop, Speed};
use crate::threads::Hand;
use alloc::format;
use alloc::string::String;

/// From seeing the mark to half-nuts open and tool clear, seconds, where nothing is entered.
/// Common practice, no source.
pub(super) const SECONDS: f64 = 1.0;

/// A spindle that is switched off runs on for two seconds, slowing down: as far as in one at full speed.
/// Common practice, no source.
pub(super) const RUN_DOWN: f64 = 1.0;

/// Width of a relief groove in pitches: DIN 76-1, its greatest for the regular form (from memory).
pub(super) const GROOVE: Ratio = Ratio::of(7, 2);
/// Thread that may be left unfinished before a shoulder, in pitches: DIN 76-1, regular (from memory).
pub(super) const RUN_OUT: Ratio = Ratio::of(5, 2);

/// How fast a pass may be run.
#[derive(Clone, Debug)]
pub(super) struct Pace {
    /// Carriage travel in which the nuts must be opened, mm.
    room: f64,
    lead: f64,
    /// What the person needs for it, seconds.
    seconds: f64,
    /// Whether they said so themselves.
    own: bool,
    /// Whether the half-nuts stay closed, and the spindle is stopped instead.
    closed: bool,
    /// The highest owned speed that leaves it, else the lowest.
    pub(super) speed: Option<Speed>,
}

impl Pace {
    /// For a thread that ends in a groove or before a shoulder; a left-hand one runs out at the
    /// free end.
    pub(super) fn of(wanted: &Wanted, shop: &Shop, closed: bool) -> Option<Pace> {
        if wanted.thread.hand == Hand::Left {
            return None;
        }
        let pitch = wanted.thread.pitch.to_f64();
        // The tool is a pitch wide at the crests: all of it in the groove, or half of it past the
        // last full thread.
        let room = match wanted.ending? {
            "groove" => wanted.groove().to_f64() - pitch,
            "shoulder" => (RUN_OUT.to_f64() - 0.5) * pitch,
            _ => return None,
        };
        let entered = shop.lathe().ratio("reaction_seconds");
        let mut pace = Pace {
            room: room.max(0.0),
            lead: wanted.lead.to_f64(),
            seconds: entered.map_or(SECONDS, Ratio::to_f64) + if closed { RUN_DOWN } else { 0.0 },
            closed,
            own: entered.is_some(),
            speed: None,
        };
        let most = pace.most();
        let mut speeds = shop.speeds();
        let fit = speeds.iter().filter(|speed| f64::from(speed.rpm) <= most).count();
        let at = fit.saturating_sub(1);
        pace.speed = (at < speeds.len()).then(|| speeds.swap_remove(at));
        Some(pace)
    }

    /// Turns a minute that leave just the time needed.
    pub(super) fn most(&self) -> f64 {
        60.0 * self.room / (self.lead * self.seconds)
    }

    /// Seconds that the chosen speed leaves.
    fn left(&self, speed: &Speed) -> f64 {
        60.0 * self.room / (self.lead * f64::from(speed.rpm))
    }

    /// Whether even the lowest speed leaves too little.
    pub(super) fn too_fast(&self) -> bool {
        self.speed.as_ref().is_some_and(|speed| f64::from(speed.rpm) > self.most())
    }

    /// How long all the passes take at that speed, with the hand's own time apart.
    pub(super) fn takes(&self, thread: &Thread) -> Option<Time> {
        let passes = thread.cut.as_ref()?.as_ref().ok()?.passes.passes.len();
        let length = thread.wanted.length.as_ref()?.to_f64();
        let feed = self.lead * f64::from(self.speed.as_ref()?.rpm);
        Some(Time::default().and(u32::try_from(passes).ok()?, length, feed))
    }

    /// "70 rpm, belt 2: 1.3 s to let go".
    pub(super) fn words(&self) -> String {
        let Some(speed) = &self.speed else {
            return format!("{} rpm at most", show::float(libm::floor(self.most()), 0));
        };
        let left = show::float(self.left(speed), 1);
        let speed = said(speed).replace('*', "");
        if self.too_fast() {
            format!("by hand: {speed} leaves only {left} s to let go")
        } else {
            format!("{speed}: {left} s to let go")
        }
    }

    pub(super) fn why(&self) -> Why {
        let source = if self.closed {
            "kinematics; 1 s to act until you enter your own, and 1 s more for the spindle to run down, the half-nuts closed: common practice, no source; groove of 3.5 P, run-out of 2.5 P: DIN 76-1, from memory"
        } else if self.own {
            "kinematics, with your own time to let go"
        } else {
            "kinematics; 1 s to let go until you enter your own: common practice, no source; groove of 3.5 P, run-out of 2.5 P: DIN 76-1, from memory"
        };
        Why::new(
            "rpm ≤ 60 × room ÷ (lead × seconds)",
            format!(
                "60 × {} ÷ ({} × {}) = {}",
                show::float_trimmed(self.room, 2),
                show::float_trimmed(self.lead, 4),
                show::float_trimmed(self.seconds, 2),
                show::float_trimmed(self.most(), 0),
            ),
            source,
        )
    }
}

/// A speed with its lever's or belt's own word, its figure between stars.
pub(super) fn said(speed: &Speed) -> String {
    match &speed.how {
        Some(how) => format!("*{}* rpm, {how}", speed.rpm),
        None => format!("*{}* rpm", speed.rpm),
    }
}
