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
        let (major, pitch, minor) = match thread.diameter {
            Some(diameter) => {
                let minor = profile.minor(wanted.side, diameter)?;
                (
                    Some(profile.major(wanted.side, diameter)?),
                    Some(profile.pitch_diameter(diameter)?),
                    // A worm's shape on too thin a blank would leave nothing.
                    Some(minor).filter(|minor| minor.is_positive()),
                )
            }
            None => (None, None, None),
        };
        // A class that isn't understood must not be taken for the usual one.
        let limits = match wanted.no_class {
            Some(_) => Err(LimitsError::NoneHere(thread.series)),
            None => limits(thread, wanted.side),
        };
        Ok(Some(Sizes { profile, depth, major, pitch, minor, limits }))
    }
}
