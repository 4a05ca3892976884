//! One way of dividing a circle, and how much there is in it to get wrong.

use super::train::Train;
use crate::exact::Ratio;

/// How the circle is divided.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Method {
    /// A plate or gear on the spindle.
    Direct,
    /// The same, with a detent that also holds half-way between two teeth.
    DirectHalfTooth,
    /// Turns and holes on a worm head.
    Plain,
    /// Two moves on two circles of one plate.
    Compound,
    /// Turns and holes while gears from the spindle turn the plate.
    Differential,
}

impl Method {
    /// Its name in a file.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Method::Direct => "direct",
            Method::DirectHalfTooth => "direct-half-tooth",
            Method::Plain => "plain",
            Method::Compound => "compound",
            Method::Differential => "differential",
        }
    }
}

/// Hole spaces on a circle; less than nothing is the other way round.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Holes {
    /// Spaces moved, 0 < |holes| < circle.
    pub holes: i16,
    /// Holes in the circle.
    pub circle: u16,
}

/// The move from one division to the next.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Setting {
    /// Teeth, or holes, of a plate on the spindle.
    Direct {
        /// Teeth on it.
        positions: u16,
        /// Teeth to move.
        step: u32,
    },
    /// Half teeth of a gear on the spindle.
    HalfTooth {
        /// Whole teeth on it.
        positions: u16,
        /// Half teeth to move.
        step: u32,
    },
    /// Turns of the crank and spaces on a circle.
    Plain {
        /// Whole turns.
        turns: u32,
        /// Spaces beyond them; 0 where the turns are whole.
        holes: u16,
        /// Holes in the circle; none is needed for whole turns. Where each division goes to the
        /// nearest hole, turns and holes are those to division 1, and the places tell the rest.
        circle: Option<u16>,
    },
    /// Turns of the crank, spaces with the crank's pin, and spaces with crank and plate together.
    Compound {
        /// Whole turns.
        turns: u32,
        /// With the crank's pin, the plate held.
        first: Holes,
        /// With the plate, crank and all, on another circle of it.
        second: Holes,
        /// Times round the work for all the divisions: move k makes division k·laps.
        laps: u32,
    },
    /// Turns and spaces of the crank against a plate that gears from the spindle turn.
    Differential {
        /// Whole turns, against the plate.
        turns: u32,
        /// Spaces beyond them.
        holes: u16,
        /// Holes in the circle; none is needed for whole turns.
        circle: Option<u16>,
        /// The gears, spindle end first.
        train: Train,
    },
}

/// One way of dividing a circle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Way {
    /// The move.
    pub setting: Setting,
    /// Divisions of the whole circle that it steps by.
    pub divisions: u32,
    /// Turns of the crank for one of the spindle; 1 without a head.
    pub worm_ratio: u32,
    /// Whether every division falls where it should.
    pub exact: bool,
    /// The most that any division is off its place, in turns of the work, never negative.
    pub worst: Ratio,
    /// How far past one turn the last move ends, in turns of the work: the last space is short
    /// by so much. Nothing where each division is placed by itself (direct, plain).
    pub closing: Ratio,
}

impl Setting {
    /// How the circle is divided.
    #[must_use]
    pub const fn method(&self) -> Method {
        match self {
            Setting::Direct { .. } => Method::Direct,
            Setting::HalfTooth { .. } => Method::DirectHalfTooth,
            Setting::Plain { .. } => Method::Plain,
            Setting::Compound { .. } => Method::Compound,
            Setting::Differential { .. } => Method::Differential,
        }
    }

    /// How much there is to set up, to count and to get wrong, least first.
    ///
    /// First by method: teeth on the spindle, half teeth, turns and holes; then one setting-up
    /// of gears, with the same single move each time; last two moves with two pins each time,
    /// which are the easiest to get wrong ("compound superseded by differential because moves
    /// are error-prone": Practical Treatise on Milling and Milling Machines, p. 58). A train whose
    /// idlers aren't owned comes after all that can be set up. Then by what is counted in a
    /// move, and by the smaller circle or fewer idlers.
    #[must_use]
    pub fn burden(&self) -> (u8, u32, u32) {
        let size = |circle: Option<u16>| u32::from(circle.unwrap_or(0));
        match *self {
            Setting::Direct { positions, step } => (0, step, positions.into()),
            Setting::HalfTooth { positions, step } => (1, step, positions.into()),
            Setting::Plain { turns, holes, circle } => {
                (2, turns.saturating_add(holes.into()), size(circle))
            }
            Setting::Differential { turns, holes, circle, train } => {
                let order: u8 = if train.pairs().len() < 2 { 3 } else { 4 };
                let order = if train.idlers_lacking() > 0 { 6 } else { order };
                let fewest = size(circle).saturating_add(u32::from(train.idlers()) << 16);
                (order, turns.saturating_add(holes.into()), fewest)
            }
            Setting::Compound { turns, first, second, laps } => {
                let spaces = u32::from(first.holes.unsigned_abs())
                    .saturating_add(second.holes.unsigned_abs().into());
                let circles = u32::from(first.circle).saturating_add(second.circle.into());
                (5, turns.saturating_add(spaces), circles.saturating_add(laps << 16))
            }
        }
    }
}

impl Way {
    /// A way that is exact.
    pub(super) const fn exact(setting: Setting, divisions: u32, worm_ratio: u32) -> Way {
        Way {
            setting,
            divisions,
            worm_ratio,
            exact: true,
            worst: Ratio::ZERO,
            closing: Ratio::ZERO,
        }
    }

    /// How the circle is divided.
    #[must_use]
    pub const fn method(&self) -> Method {
        self.setting.method()
    }

    /// The most that any division is off its place, in seconds of arc.
    #[must_use]
    pub fn worst_arcsec(&self) -> f64 {
        super::misplaced::arcsec(self.worst)
    }

    /// The most that any division is off its place, as a share of the spacing.
    #[must_use]
    pub fn worst_share(&self) -> f64 {
        self.worst.to_f64() * f64::from(self.divisions)
    }

    /// How far past one turn the last move ends, in seconds of arc.
    #[must_use]
    pub fn closing_arcsec(&self) -> f64 {
        super::misplaced::arcsec(self.closing)
    }
}
