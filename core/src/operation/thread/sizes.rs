//! What the thread measures: depth, diameters, limits.

use super::wanted::Wanted;
use crate::exact::Ratio;
use crate::quantity::Quantity;
use crate::threads::{Form, Limits, LimitsError, Point, Profile, limits_engaged};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};

/// The sizes that can be said of a thread.
#[derive(Clone, Debug)]
pub(super) struct Sizes {
    /// Its shape.
    pub(super) profile: Profile,
    /// From the blank's surface to the root, mm.
    pub(super) depth: Ratio,
    /// Basic outside diameter, mm.
    pub(super) major: Option<Ratio>,
    /// Basic pitch diameter, mm.
    pub(super) pitch: Option<Ratio>,
    /// Basic root of the screw, or bore of the nut, mm.
    pub(super) minor: Option<Ratio>,
    /// Limits, or why there are none.
    pub(super) limits: Result<Limits, LimitsError>,
}

impl Sizes {
    /// The sizes; none for a lead whose form is left open.
    ///
    /// Errors are sentences for the person who entered it.
    pub(super) fn of(wanted: &Wanted) -> Result<Option<Sizes>, String> {
        let too_large = |why: crate::exact::RatioError| why.to_string();
        let thread = &wanted.thread;
        let Some(profile) = Profile::of(thread).map_err(too_large)? else { return Ok(None) };
        let depth = match wanted.radius {
            Some(radius) => deep(&profile, wanted, radius)?,
            None => profile.depth(wanted.side).map_err(too_large)?,
        };
        if !depth.is_positive() {
            return Err("so fine a lead leaves no depth to cut".to_owned());
        }
        let left = |size: Ratio| Some(size).filter(|size| size.is_positive());
        let (major, pitch, minor) = match thread.diameter {
            Some(diameter) => (
                left(profile.major(wanted.side, diameter).map_err(too_large)?),
                left(profile.pitch_diameter(diameter).map_err(too_large)?),
                left(profile.minor(wanted.side, diameter).map_err(too_large)?),
            ),
            None => (None, None, None),
        };
        let limits = match wanted.no_class {
            // A class that isn't understood must not be taken for the usual one.
            Some(_) => Err(LimitsError::NoneHere(thread.series)),
            // So thin a blank has nothing left under the thread.
            None if minor.is_none() => Err(LimitsError::NoDiameter),
            None => {
                let engaged = wanted.engaged.as_ref().map(Quantity::value);
                limits_engaged(thread, wanted.side, engaged)
            }
        };
        Ok(Some(Sizes { profile, depth, major, pitch, minor, limits }))
    }
}

/// How deep a tool of that nose radius goes for the basic pitch diameter, to the nanometre.
fn deep(profile: &Profile, wanted: &Wanted, radius: Ratio) -> Result<Ratio, String> {
    if !matches!(profile.form, Form::Sixty | Form::Whitworth | Form::Ba | Form::Cycle | Form::Vee) {
        return Err("this form's tool has a flat: leave the nose radius out".to_owned());
    }
    let depth = profile.tool_depth(wanted.side, Point::Radius(radius.to_f64()));
    let depth = Ratio::of(libm::round(depth * 1e6) as i64, 1_000_000);
    if depth.is_positive() {
        return Ok(depth);
    }
    Err(format!("a nose radius of {} is too large for this thread", wanted.length_text(radius)))
}
