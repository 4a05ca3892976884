//! The largest and smallest that each diameter may be.

use core::fmt;

use super::class::Class;
use super::designation::{Designation, Side};
use super::form::Profile;
use super::limits_inch::{acme, ba, pipe, unified, whitworth};
use super::limits_iso::{Engagement, Quality, engagement, metric, trapezoidal};
use super::series::Series;
use crate::exact::{Ratio, RatioError};

/// Least and greatest, mm; a bound that the standard leaves open is absent.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// Not smaller than this, mm.
    pub min: Option<f64>,
    /// Not larger than this, mm.
    pub max: Option<f64>,
}

impl Range {
    /// From least to greatest.
    pub(super) const fn of(min: f64, max: f64) -> Range {
        Range { min: Some(min), max: Some(max) }
    }
}

/// The limits of a thread on one side, in one class.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// The class they are of.
    pub class: Class,
    /// Outside diameter; a nut's has no greatest.
    pub major: Range,
    /// Pitch diameter.
    pub pitch: Range,
    /// Root of the screw, bore of the nut.
    pub minor: Range,
    /// Tolerance of the pitch diameter, mm.
    pub pitch_tolerance: f64,
    /// Whether every tolerance is printed in the standard, rather than worked from its formula.
    pub printed: bool,
    /// The standard.
    pub source: &'static str,
}

/// Why there are no limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum LimitsError {
    /// The thread has no diameter yet.
    NoDiameter,
    /// The class isn't one of this thread's, or not on this side.
    WrongClass(Class, Side),
    /// The standard has no such class at this pitch.
    NotAtThisPitch(Class),
    /// There are no limits of this series here.
    NoneHere(Series),
    /// The sizes are too large.
    TooLarge(RatioError),
}

impl fmt::Display for LimitsError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            LimitsError::NoDiameter => f.write_str("limits need the thread's diameter"),
            LimitsError::WrongClass(class, Side::Outside) => {
                write!(f, "{class} isn't a class for this thread outside")
            }
            LimitsError::WrongClass(class, Side::Inside) => {
                write!(f, "{class} isn't a class for this thread inside")
            }
            LimitsError::NotAtThisPitch(class) => {
                write!(f, "the standard has no class {class} at this pitch")
            }
            LimitsError::NoneHere(series) if series.name().is_empty() => {
                f.write_str("a bare lead has no limits: name a thread")
            }
            LimitsError::NoneHere(series) => {
                write!(f, "no limits are known here for {} threads", series.name())
            }
            LimitsError::TooLarge(why) => why.fmt(f),
        }
    }
}

impl core::error::Error for LimitsError {}

impl From<RatioError> for LimitsError {
    fn from(why: RatioError) -> LimitsError {
        LimitsError::TooLarge(why)
    }
}

/// The class that is meant when none is named: 6g and 6H, 2A and 2B, medium, normal, A, 2G, 7e and 7H.
#[must_use]
pub const fn usual_class(series: Series, side: Side) -> Option<Class> {
    Some(match (series, side) {
        (Series::Metric, Side::Outside) => Class::iso(6, 'g'),
        (Series::Metric, Side::Inside) => Class::iso(6, 'H'),
        (Series::Trapezoidal, Side::Outside) => Class::iso(7, 'e'),
        (Series::Trapezoidal, Side::Inside) => Class::iso(7, 'H'),
        (Series::Bsw | Series::Bsf | Series::Whitworth, _) => Class::Medium,
        (Series::Ba, _) => Class::Normal,
        (Series::Pipe, _) => Class::Pipe('A'),
        (Series::Acme, _) => Class::Acme(2),
        (series, side) if series.is_unified() => Class::Unified(2, side),
        _ => return None,
    })
}

/// A class as a person names it for this series and side: its own name, or, for metric threads of
/// normal length, fine, medium or coarse (ISO 965-1: 4h and 5H, 6g and 6H, 8g and 7H).
#[must_use]
pub fn named_class(series: Series, side: Side, name: &str) -> Option<Class> {
    if series == Series::Metric
        && let Some(quality) = Quality::of(name)
    {
        return Some(one_of(quality.classes(Engagement::Normal), side));
    }
    Class::parse(name)
}

/// [`named_class`] of a thread that is `engaged` over so many mm: what fine, medium and coarse mean
/// for a metric one goes by it.
#[must_use]
pub fn named_class_engaged(
    thread: &Designation,
    side: Side,
    name: &str,
    engaged: Option<Ratio>,
) -> Option<Class> {
    if let (Series::Metric, Some(quality), Some(diameter), Some(length)) =
        (thread.series, Quality::of(name), thread.diameter, engaged)
    {
        let engaged = engagement(diameter, thread.pitch.factor(), length);
        return Some(one_of(quality.classes(engaged), side));
    }
    named_class(thread.series, side, name)
}

const fn one_of((screw, nut): (Class, Class), side: Side) -> Class {
    match side {
        Side::Outside => screw,
        Side::Inside => nut,
    }
}

/// The limits of a thread on this side, in its own class or, where it names none for this side, the
/// usual one.
///
/// # Errors
///
/// [`LimitsError`] says what is missing: limits are never guessed.
pub fn limits(thread: &Designation, side: Side) -> Result<Limits, LimitsError> {
    limits_engaged(thread, side, None)
}

/// [`limits`] of a thread that is `engaged` over so many mm: a longer nut is given more of the
/// pitch diameter, a shorter one less. Where the length is left open it is the standard's usual one.
///
/// # Errors
///
/// [`LimitsError`], as for [`limits`].
pub fn limits_engaged(
    thread: &Designation,
    side: Side,
    engaged: Option<Ratio>,
) -> Result<Limits, LimitsError> {
    let none = LimitsError::NoneHere(thread.series);
    let diameter = thread.diameter.ok_or(LimitsError::NoDiameter);
    let engaged = engaged.filter(|length| length.is_positive());
    let usual = match (thread.series, diameter, engaged) {
        (Series::Metric, Ok(diameter), Some(length)) => {
            let engaged = engagement(diameter, thread.pitch.factor(), length);
            Some(one_of(Quality::Medium.classes(engaged), side))
        }
        // ISO 2903: 8e and 8H where it is long (from memory); it has no short group.
        (Series::Trapezoidal, Ok(diameter), Some(length))
            if engagement(diameter, thread.pitch.factor(), length) == Engagement::Long =>
        {
            Some(one_of((Class::iso(8, 'e'), Class::iso(8, 'H')), side))
        }
        _ => usual_class(thread.series, side),
    }
    .ok_or(none)?;
    let class = thread.class.filter(|c| c.side().is_none_or(|s| s == side)).unwrap_or(usual);
    let diameter = diameter?;
    let profile = Profile::of(thread)?.ok_or(none)?;
    let basic = Basic {
        side,
        class,
        pitch: profile.pitch.to_f64(),
        major: profile.major(side, diameter)?.to_f64(),
        effective: profile.pitch_diameter(diameter)?.to_f64(),
        root: profile.minor(Side::Outside, diameter)?.to_f64(),
        bore: profile.minor(Side::Inside, diameter)?.to_f64(),
    };
    match thread.series {
        Series::Metric => metric(&basic, diameter, profile.pitch),
        Series::Trapezoidal => trapezoidal(&basic, diameter, profile.pitch),
        series if series.is_unified() => unified(&basic, series, engaged),
        Series::Bsw | Series::Bsf | Series::Whitworth => whitworth(&basic),
        Series::Ba => ba(&basic, thread.size),
        Series::Pipe => pipe(&basic),
        Series::Acme => acme(&basic),
        _ => Err(none),
    }
}

/// What the limits are counted from, mm.
pub(super) struct Basic {
    pub(super) side: Side,
    pub(super) class: Class,
    pub(super) pitch: f64,
    pub(super) major: f64,
    pub(super) effective: f64,
    pub(super) root: f64,
    pub(super) bore: f64,
}

impl Basic {
    pub(super) const fn wrong(&self) -> LimitsError {
        LimitsError::WrongClass(self.class, self.side)
    }

    /// Limits whose tolerances are in mm: all three inwards from the basic size less the allowance
    /// for a screw; pitch and bore outwards for a nut.
    pub(super) const fn limits(
        &self,
        allowance: f64,
        tolerances: [f64; 3],
        printed: bool,
        source: &'static str,
    ) -> Limits {
        let [major, pitch, minor] = tolerances;
        let (majors, effective, minors) = match self.side {
            Side::Outside => {
                let (d, e, r) =
                    (self.major - allowance, self.effective - allowance, self.root - allowance);
                (Range::of(d - major, d), Range::of(e - pitch, e), Range::of(r - minor, r))
            }
            Side::Inside => {
                let (d, e, b) =
                    (self.major + allowance, self.effective + allowance, self.bore + allowance);
                (
                    Range { min: Some(d), max: None },
                    Range::of(e, e + pitch),
                    Range::of(b, b + minor),
                )
            }
        };
        Limits {
            class: self.class,
            major: majors,
            pitch: effective,
            minor: minors,
            pitch_tolerance: pitch,
            printed,
            source,
        }
    }
}
