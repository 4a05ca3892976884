//! The hole under a tap, and how much thread it leaves.

use super::designation::{Designation, Side};
use super::form::{Form, Profile};
use super::lead::INCH;
use super::limits::Range;
use super::series::Series;
use crate::exact::{Ratio, RatioError};

/// The hole to drill for a thread.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TapHole {
    /// Its diameter, mm.
    pub diameter: Ratio,
    /// Who says so.
    pub source: &'static str,
}

/// How much of a full thread a hole leaves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Percent {
    /// Of the form's own basic height (60°: 5/8 H; 92.4 for M10 in 8.5 mm).
    pub of_basic: f64,
    /// Of 3/4 H, as FED-STD-H28 and most charts count for 60° threads (77.0 for M10 in 8.5 mm);
    /// other forms have only the one.
    pub of_chart: f64,
}

/// Size in sixteenths of an inch; the drill in 0.01 mm for BSW and for BSF, 0 where none is listed.
/// Source: BS 1157, every row in the reference table.
#[rustfmt::skip]
const WHITWORTH: &[(u8, u16, u16)] = &[
    (3, 370, 400), (4, 510, 530), (5, 650, 680), (6, 790, 830), (8, 1050, 1110), (9, 0, 1270),
    (10, 1350, 1400), (12, 1625, 1675), (14, 1925, 1975), (16, 2200, 2275),
];

/// The hole for this thread; `None` where there is no diameter, or nobody taps such a thread.
///
/// Metric by ISO 2306, as the holes have it. Unified: three quarters of the chart's
/// full thread (FED-STD-H28/2B Table II.A.1). Whitworth by BS 1157 where it lists the size, else 81 %
/// of full thread (so too model engineers', brass and cycle threads: common practice, no source); BA 75 % and pipe 80 % (common practice, no source). Trapezoidal and Acme: the bore.
///
/// # Errors
///
/// [`RatioError`] when the sizes are too large.
pub fn tap_hole(thread: &Designation) -> Result<Option<TapHole>, RatioError> {
    let Some(diameter) = thread.diameter else { return Ok(None) };
    let Some(profile) = Profile::of(thread)? else { return Ok(None) };
    let share = |percent: i64| {
        let full = profile.nut_crest.add(profile.nut_crest)?;
        diameter.sub(full.mul(Ratio::of(percent, 100))?)
    };
    let (diameter, source) = match thread.series {
        Series::Metric => {
            let Ok(drill) = crate::holes::tapping_drill(diameter, profile.pitch) else {
                return Ok(None);
            };
            (drill, "ISO 2306")
        }
        Series::Unc
        | Series::Unf
        | Series::Unef
        | Series::Un8
        | Series::Un12
        | Series::Un16
        | Series::Uns => {
            let full = profile.pitch.mul(Ratio::of(1_299_038, 1_000_000))?;
            (diameter.sub(full.mul(Ratio::of(3, 4))?)?, "75 % of 3/4 H, FED-STD-H28/2B")
        }
        Series::Bsw | Series::Bsf => {
            let sixteenths = diameter.div(INCH)?.mul(Ratio::whole(16))?;
            let row = WHITWORTH.iter().find(|row| Ratio::whole(i64::from(row.0)) == sixteenths);
            let drill =
                row.map_or(0, |row| if thread.series == Series::Bsw { row.1 } else { row.2 });
            if drill > 0 {
                (Ratio::of(i64::from(drill), 100), "BS 1157")
            } else {
                (share(81)?, "81 % of full thread")
            }
        }
        Series::Whitworth | Series::ModelEngineer | Series::Brass | Series::Cycle => {
            (share(81)?, "81 % of full thread")
        }
        Series::Ba => (share(75)?, "75 % of full thread"),
        Series::Pipe => (share(80)?, "80 % of full thread"),
        Series::Trapezoidal | Series::Acme | Series::StubAcme => {
            (profile.minor(Side::Inside, diameter)?, thread.series.standard())
        }
        Series::Module | Series::DiametralPitch | Series::Plain => return Ok(None),
    };
    Ok(Some(TapHole { diameter, source }))
}

/// How much of a full thread of this shape and diameter a hole leaves, both in mm.
#[must_use]
pub fn percent(profile: &Profile, diameter: f64, hole: f64) -> Percent {
    let cut = (diameter - hole) / 2.0;
    let of_basic = 100.0 * cut / profile.nut_crest.to_f64();
    let of_chart = if profile.form == Form::Sixty {
        // 3/4 H on each side is 1.299038 P on the diameter.
        100.0 * (diameter - hole) / (1.299_038 * profile.pitch.to_f64())
    } else {
        of_basic
    };
    Percent { of_basic, of_chart }
}

/// The hole that leaves so much of the chart's full thread, mm.
#[must_use]
pub fn hole_for_percent(profile: &Profile, diameter: f64, of_chart: f64) -> f64 {
    let full = if profile.form == Form::Sixty {
        1.299_038 * profile.pitch.to_f64()
    } else {
        2.0 * profile.nut_crest.to_f64()
    };
    diameter - full * of_chart / 100.0
}

/// Which part of the bore's limits to make a unified nut to, mm, by how many diameters of the thread
/// are engaged: the lower half up to a third, the upper half from two thirds to one and a half.
///
/// None between and beyond, where the rule isn't at hand. Source: FED-STD-H28/2B, 30.1.
#[must_use]
pub fn bore_by_engagement(minor: Range, diameters: f64) -> Option<(f64, f64)> {
    let (min, max) = (minor.min?, minor.max?);
    let middle = min + (max - min) / 2.0;
    if diameters > 0.0 && diameters <= 0.33 {
        Some((min, middle))
    } else if (0.67..=1.5).contains(&diameters) {
        Some((middle, max))
    } else {
        None
    }
}
