//! What the thread measures: depth, diameters, limits.

use super::wanted::Wanted;
use crate::exact::{Ratio, RatioError};
use crate::threads::{Limits, LimitsError, Profile, limits};

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
    pub(super) fn of(wanted: &Wanted) -> Result<Option<Sizes>, RatioError> {
        let thread = &wanted.thread;
        let Some(profile) = Profile::of(thread)? else { return Ok(None) };
        let depth = profile.depth(wanted.side)?;
        let left = |size: Ratio| Some(size).filter(|size| size.is_positive());
        let (major, pitch, minor) = match thread.diameter {
            Some(diameter) => (
                left(profile.major(wanted.side, diameter)?),
                left(profile.pitch_diameter(diameter)?),
                left(profile.minor(wanted.side, diameter)?),
            ),
            None => (None, None, None),
        };
        let limits = match wanted.no_class {
            // A class that isn't understood must not be taken for the usual one.
            Some(_) => Err(LimitsError::NoneHere(thread.series)),
            // So thin a blank has nothing left under the thread.
            None if minor.is_none() => Err(LimitsError::NoDiameter),
            None => limits(thread, wanted.side),
        };
        Ok(Some(Sizes { profile, depth, major, pitch, minor, limits }))
    }
}
