//! How the thread is measured, what its lead does to it, and the hole under its tap.

use super::answer::Thread;
use super::card::length;
use super::gears::Gears;
use super::sizes::Sizes;
use super::wanted::Wanted;
use crate::exact::{Ratio, RatioError};
use crate::holes::nearest;
use crate::quantity::Quantity;
use crate::shop::Shop;
use crate::threads::{
    LeadError, Percent, Side, TapHole, Wires, helix_deg, lead_error, over_wires, percent, tap_hole,
    wires,
};
use alloc::string::String;
use alloc::vec::Vec;

/// Three wires and the size over them.
#[derive(Clone, Debug)]
pub(super) struct OverWires {
    /// The best wire and those that can be used, mm.
    pub(super) fit: Wires,
    /// The owned one nearest to the best among them, as entered in the shop and in mm.
    pub(super) owned: Option<(String, f64)>,
    /// Whether wires are owned, fitting or not.
    pub(super) any_owned: bool,
    /// Least and greatest over three of the best, mm, where the pitch diameter has limits.
    pub(super) over: Option<(f64, f64)>,
    /// The same over three of the owned.
    pub(super) over_owned: Option<(f64, f64)>,
}

impl OverWires {
    /// Wires for a screw; none for a nut.
    pub(super) fn of(wanted: &Wanted, sizes: &Sizes, shop: &Shop) -> Option<OverWires> {
        if wanted.side == Side::Inside {
            return None;
        }
        let fit = wires(&sizes.profile);
        let over = |wire: f64| {
            let pitch = sizes.limits.as_ref().ok()?.pitch;
            let over = |pitch: f64| over_wires(&sizes.profile, wanted.lead, pitch, wire);
            Some((over(pitch.min?), over(pitch.max?)))
        };
        let off = |wire: &Quantity| (wire.to_f64() - fit.best).abs();
        let owned = shop
            .wires()
            .filter(|wire| fit.fits(wire.to_f64()))
            .min_by(|a, b| off(a).total_cmp(&off(b)))
            .map(|wire| (String::from(wire.text()), wire.to_f64()));
        Some(OverWires {
            over: over(fit.best),
            over_owned: owned.as_ref().and_then(|(_, wire)| over(*wire)),
            any_owned: shop.wires().next().is_some(),
            fit,
            owned,
        })
    }

    /// The wire to take, in the thread's own system or as entered, and the limits over three.
    pub(super) fn taken(&self, thread: &Thread) -> Option<(String, (f64, f64))> {
        match &self.owned {
            Some((name, _)) => Some((name.clone(), self.over_owned?)),
            None => Some((length(thread, self.fit.best), self.over?)),
        }
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
    /// The owned ones next under and over it, and percent of 3/4 H that each leaves.
    pub(super) beside: Vec<(String, f64)>,
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
        let leaves = |drill: &Quantity| percent(&sizes.profile, nominal.to_f64(), drill.to_f64());
        let drill = drill.map(|drill| {
            let size = |drill: &&&Quantity| drill.value();
            let under = owned.iter().filter(|other| other.value() < drill.value()).max_by_key(size);
            let over = owned.iter().filter(|other| other.value() > drill.value()).min_by_key(size);
            // As large as the thread, it leaves none.
            let over = over.filter(|over| over.value() < nominal);
            let beside = under.into_iter().chain(over);
            TapDrill {
                drill: String::from(drill.text()),
                percent: leaves(drill),
                beside: beside
                    .map(|drill| (String::from(drill.text()), leaves(drill).of_chart))
                    .collect(),
            }
        });
        Ok(Some((hole, drill)))
    }
}
