//! The gears between a head's spindle and its plate: one pair or two, and their idlers.

use crate::exact::{Ratio, RatioError};

/// Pairs of driver and driven gears, spindle end first, and which way they turn the plate.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Train {
    pairs: [(u16, u16); 2],
    two: bool,
    with_crank: bool,
    owned: u8,
}

impl Train {
    pub(super) const fn one(pair: (u16, u16), with_crank: bool, owned: u8) -> Train {
        Train { pairs: [pair, (1, 1)], two: false, with_crank, owned }
    }

    pub(super) const fn two(pairs: [(u16, u16); 2], with_crank: bool, owned: u8) -> Train {
        Train { pairs, two: true, with_crank, owned }
    }

    /// The same gears, turning the plate the other way or this.
    pub(super) const fn turning(self, with_crank: bool) -> Train {
        Train { with_crank, ..self }
    }

    /// Driver and driven of each pair, spindle end first; the last driven gear turns the plate.
    #[must_use]
    pub fn pairs(&self) -> &[(u16, u16)] {
        let [one, _] = &self.pairs;
        if self.two { &self.pairs } else { core::slice::from_ref(one) }
    }

    /// Whether the plate turns the same way as the crank.
    #[must_use]
    pub const fn with_crank(&self) -> bool {
        self.with_crank
    }

    /// Turns of the plate for one of the spindle, positive when it turns with the crank.
    ///
    /// # Errors
    ///
    /// [`RatioError`], for gears beyond the shop's limits only.
    pub fn ratio(&self) -> Result<Ratio, RatioError> {
        let size = self.pairs().iter().try_fold(Ratio::ONE, |size, (driver, driven)| {
            size.mul(Ratio::new((*driver).into(), (*driven).into())?)
        })?;
        Ok(if self.with_crank { size } else { size.neg() })
    }

    /// Idlers that the usual head needs for the direction: with the crank 1 for one pair and 0
    /// for two; against it 2 and 1 (textbook extract scribd.com/document/704783930 s. 1.15.4 for
    /// two of them; the counts from memory of trade tables).
    #[must_use]
    pub const fn idlers(&self) -> u8 {
        match (self.two, self.with_crank) {
            (false, true) | (true, false) => 1,
            (false, false) => 2,
            (true, true) => 0,
        }
    }

    /// How many more gears than are owned the idlers would take, each gear being used once.
    #[must_use]
    pub const fn idlers_lacking(&self) -> u8 {
        let used: u8 = if self.two { 4 } else { 2 };
        used.saturating_add(self.idlers()).saturating_sub(self.owned)
    }
}
