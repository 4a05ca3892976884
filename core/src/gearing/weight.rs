//! What a ratio of gears is worth on this lathe, for this lead.

use super::miss::Miss;
use super::{GearingError, Request};
use crate::exact::{Ratio, RatioError};

/// What a ratio of gears is measured with: cut/wanted = drivers/driven · num/den.
#[derive(Clone, Copy, Debug)]
pub(super) struct Weight {
    pub(super) num: u128,
    pub(super) den: u128,
}

impl Weight {
    pub(super) fn new(request: &Request<'_>, gearbox: Ratio) -> Result<Weight, GearingError> {
        for (what, ratio) in [
            ("the lead wanted", request.target),
            ("the ratio before the train", request.before_train),
            ("a gearbox ratio", gearbox),
        ] {
            if !ratio.is_positive() {
                return Err(GearingError::NotPositive(what, ratio));
            }
        }
        let ratio = request.before_train.mul(gearbox)?.div(request.target)?;
        let (num, den) = (ratio.numer().unsigned_abs(), ratio.denom().unsigned_abs());
        // A product of three gears is below 2³⁰: what it makes of these still fits.
        const MOST: u128 = 1 << 96;
        if num >= MOST || den >= MOST {
            return Err(GearingError::Exact(RatioError::Overflow));
        }
        Ok(Weight { num, den })
    }

    /// By how much these products miss, and whether they are above.
    pub(super) const fn miss(self, drivers: u32, driven: u32) -> (Miss, bool) {
        let cut = (drivers as u128).wrapping_mul(self.num);
        let wanted = (driven as u128).wrapping_mul(self.den);
        Miss::new(cut, wanted)
    }
}
