//! How the thread is measured, what its lead does to it, and the hole under its tap.

use super::gears::Gears;
use super::sizes::Sizes;
use super::wanted::Wanted;
use crate::exact::{Ratio, RatioError};
use crate::holes::nearest;
use crate::quantity::Quantity;
use crate::shop::Shop;
use crate::threads::{
    LeadError, Percent, Side, TapHole, helix_deg, lead_error, over_wires, percent, tap_hole, wires,
};
use alloc::string::String;
use alloc::vec::Vec;

/// Three wires and the size over them.
#[derive(Clone, Copy, Debug)]
pub(super) struct OverWires {
    /// The best wire, mm.
    pub(super) best: f64,
    /// Least and greatest over three of them, mm, where the pitch diameter has limits.
    pub(super) over: Option<(f64, f64)>,
}

impl OverWires {
    /// Wires for a screw; none for a nut.
    pub(super) fn of(wanted: &Wanted, sizes: &Sizes) -> Option<OverWires> {
        if wanted.side == Side::Inside {
            return None;
        }
        let best = wires(&sizes.profile).best;
        let over = sizes.limits.as_ref().ok().and_then(|limits| {
            let over = |pitch: f64| over_wires(&sizes.profile, wanted.lead, pitch, best);
            Some((over(limits.pitch.min?), over(limits.pitch.max?)))
        });
        Some(OverWires { best, over })
    }
}

/// The helix at the pitch diameter, degrees.
pub(super) fn helix(wanted: &Wanted, sizes: &Sizes) -> Option<f64> {
    sizes.pitch.filter(|pitch| pitch.is_positive()).map(|d| helix_deg(wanted.lead, d.to_f64()))
}

/// What the best train's error of lead does to this thread, over the nut's length or else its own.
pub(super) fn judged(wanted: &Wanted, sizes: &Sizes, gears: &Gears) -> Option<LeadError> {
    let train = gears.best()?;
    let engaged = wanted.engaged.as_ref().or(wanted.length.as_ref())?;
    let tolerance = sizes.limits.as_ref().ok().map(|limits| limits.pitch_tolerance);
    let ppm = train.error_ppm();
    Some(lead_error(&sizes.profile, ppm, engaged.to_f64(), tolerance))
}

/// The owned drill nearest to the hole under the tap.
#[derive(Clone, Debug)]
pub(super) struct TapDrill {
    /// As entered in the shop.
    pub(super) drill: String,
    pub(super) percent: Percent,
}

impl TapDrill {
    /// The hole that the standard asks for, and the drill for it where any is owned.
    pub(super) fn of(
        wanted: &Wanted,
        sizes: &Sizes,
        shop: &Shop,
    ) -> Result<Option<(TapHole, Option<TapDrill>)>, RatioError> {
        let Some(hole) = tap_hole(&wanted.thread)? else { return Ok(None) };
        let Some(nominal) = wanted.thread.diameter else { return Ok(None) };
        let owned: Vec<&Quantity> = shop.drills().collect();
        let sizes_owned: Vec<Ratio> = owned.iter().map(|drill| drill.value()).collect();
        let drill = nearest(hole.diameter, &sizes_owned).and_then(|at| owned.get(at));
        let drill = drill.map(|drill| TapDrill {
            drill: String::from(drill.text()),
            percent: percent(&sizes.profile, nominal.to_f64(), drill.to_f64()),
        });
        Ok(Some((hole, drill)))
    }
}
