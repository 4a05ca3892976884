//! The largest and smallest that each diameter may be.

use core::fmt;

use super::class::Class;
use super::designation::{Designation, Side};
use super::form::Profile;
use super::iso965;
use super::lead::INCH;
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
    const fn of(min: f64, max: f64) -> Range {
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
        (
            Series::Unc
            | Series::Unf
            | Series::Unef
            | Series::Un8
            | Series::Un12
            | Series::Un16
            | Series::Uns,
            side,
        ) => Class::Unified(2, side),
        _ => return None,
    })
}

/// A class as a person names it for this series and side: its own name, or, for metric threads,
/// fine, medium or coarse (ISO 965-1: 4h and 5H, 6g and 6H, 8g and 7H).
#[must_use]
pub fn named_class(series: Series, side: Side, name: &str) -> Option<Class> {
    if series == Series::Metric {
        for (word, screw, nut) in [
            ("fine", Class::iso(4, 'h'), Class::iso(5, 'H')),
            ("medium", Class::iso(6, 'g'), Class::iso(6, 'H')),
            ("coarse", Class::iso(8, 'g'), Class::iso(7, 'H')),
        ] {
            if name.trim().eq_ignore_ascii_case(word) {
                return Some(if side == Side::Outside { screw } else { nut });
            }
        }
    }
    Class::parse(name)
}

/// The limits of a thread on this side, in its own class or, where it names none for this side, the
/// usual one.
///
/// # Errors
///
/// [`LimitsError`] says what is missing: limits are never guessed.
pub fn limits(thread: &Designation, side: Side) -> Result<Limits, LimitsError> {
    let none = LimitsError::NoneHere(thread.series);
    let usual = usual_class(thread.series, side).ok_or(none)?;
    let class = thread.class.filter(|c| c.side().is_none_or(|s| s == side)).unwrap_or(usual);
    let diameter = thread.diameter.ok_or(LimitsError::NoDiameter)?;
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
        Series::Unc
        | Series::Unf
        | Series::Unef
        | Series::Un8
        | Series::Un12
        | Series::Un16
        | Series::Uns => unified(&basic, thread.series),
        Series::Bsw | Series::Bsf | Series::Whitworth => whitworth(&basic),
        Series::Ba => ba(&basic, thread.size),
        Series::Pipe => pipe(&basic),
        Series::Acme => acme(&basic),
        _ => Err(none),
    }
}

/// What the limits are counted from, mm.
struct Basic {
    side: Side,
    class: Class,
    pitch: f64,
    major: f64,
    effective: f64,
    root: f64,
    bore: f64,
}

impl Basic {
    const fn wrong(&self) -> LimitsError {
        LimitsError::WrongClass(self.class, self.side)
    }

    /// Limits whose tolerances are in mm: all three inwards from the basic size less the allowance
    /// for a screw; pitch and bore outwards for a nut.
    const fn limits(
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

/// ISO 965-1. The screw's root lies between the flat form at the basic bore less the deviation, and
/// a round root of radius P/8 at the least pitch diameter.
fn metric(basic: &Basic, diameter: Ratio, pitch: Ratio) -> Result<Limits, LimitsError> {
    let Class::Iso { pitch_grade, pitch_position, crest_grade, crest_position } = basic.class
    else {
        return Err(basic.wrong());
    };
    let none = LimitsError::NotAtThisPitch(basic.class);
    let pitch_off = iso965::deviation(pitch_position, pitch).ok_or(none)?;
    let crest_off = iso965::deviation(crest_position, pitch).ok_or(none)?;
    let (effective, crest) = match basic.side {
        Side::Outside => (
            iso965::screw_pitch(pitch_grade, diameter, pitch),
            iso965::screw_crest(crest_grade, pitch),
        ),
        Side::Inside => {
            (iso965::nut_pitch(pitch_grade, diameter, pitch), iso965::nut_crest(crest_grade, pitch))
        }
    };
    let (effective, crest) = (effective.ok_or(none)?, crest.ok_or(none)?);
    let printed = [pitch_off, crest_off, effective, crest].iter().all(|t| t.printed);
    let mm = |um: f64| um / 1000.0;
    let tolerances = [mm(crest.um), mm(effective.um), mm(crest.um)];
    let mut limits = basic.limits(mm(pitch_off.um), tolerances, printed, "ISO 965-1");
    match basic.side {
        Side::Outside => {
            let d = basic.major - mm(crest_off.um);
            limits.major = Range::of(d - mm(crest.um), d);
            let least = basic.effective - mm(pitch_off.um) - mm(effective.um);
            // H - 2 × P/8 on the diameter below the pitch line.
            limits.minor =
                Range::of(least - 0.616_025 * basic.pitch, basic.bore - mm(pitch_off.um));
        }
        Side::Inside => {
            let bore = basic.bore + mm(crest_off.um);
            limits.minor = Range::of(bore, bore + mm(crest.um));
        }
    }
    Ok(limits)
}

/// ISO 2903, from memory: grades 7 to 9 on the pitch diameter, position e outside and H inside;
/// outside diameter 4h, bore 4H, root 1.25 Td2 + the deviation.
fn trapezoidal(basic: &Basic, diameter: Ratio, pitch: Ratio) -> Result<Limits, LimitsError> {
    let Class::Iso { pitch_grade: grade @ 7..=9, pitch_position, .. } = basic.class else {
        return Err(basic.wrong());
    };
    let (off, outside) = match (pitch_position, basic.side) {
        ('e', Side::Outside) => (1.0, true),
        ('H', Side::Inside) => (0.0, false),
        _ => return Err(basic.wrong()),
    };
    let [e, crest, bore, screw, nut] = iso965::trapezoidal(grade, diameter, pitch)
        .ok_or(LimitsError::NotAtThisPitch(basic.class))?
        .map(|um| um / 1000.0);
    let source = "ISO 2903, from memory";
    if !outside {
        return Ok(basic.limits(off, [0.0, nut, bore], false, source));
    }
    let mut limits = basic.limits(e, [crest, screw, 0.0], false, source);
    limits.major = Range::of(basic.major - crest, basic.major);
    limits.minor = Range::of(basic.root - 1.25 * screw - e, basic.root);
    Ok(limits)
}

fn inches(mm: f64) -> f64 {
    mm / INCH.to_f64()
}

fn mm(inches: f64) -> f64 {
    inches * INCH.to_f64()
}

/// ASME B1.1's formulas, in inches: 2A's pitch tolerance is 0.0015 D^1/3 + 0.0015 LE^1/2 +
/// 0.015 P^2/3, its length of engagement one diameter for UNC, UNF and 8-UN, else nine pitches.
fn unified(basic: &Basic, series: Series) -> Result<Limits, LimitsError> {
    let Class::Unified(class @ 1..=3, side) = basic.class else { return Err(basic.wrong()) };
    if side != basic.side {
        return Err(basic.wrong());
    }
    let (d, p) = (inches(basic.major), inches(basic.pitch));
    let engaged =
        if matches!(series, Series::Unc | Series::Unf | Series::Un8) { d } else { 9.0 * p };
    let p23 = libm::cbrt(p * p);
    let two_a = 0.0015 * libm::cbrt(d) + 0.0015 * libm::sqrt(engaged) + 0.015 * p23;
    let source = "ASME B1.1";
    if side == Side::Outside {
        let factor =
            [1.5, 1.0, 0.75].get(usize::from(class.saturating_sub(1))).copied().unwrap_or(1.0);
        let allowance = if class == 3 { 0.0 } else { 0.3 * two_a };
        let major = if class == 1 { 0.09 } else { 0.06 } * p23;
        let mut limits =
            basic.limits(mm(allowance), [mm(major), mm(factor * two_a), 0.0], false, source);
        // The flat form's greatest root, and a root flat of P/8 at the least pitch diameter.
        let least = basic.effective - mm(allowance + factor * two_a);
        limits.minor = Range::of(least - 0.649_519 * basic.pitch, basic.bore - mm(allowance));
        return Ok(limits);
    }
    let factor =
        [1.95, 1.3, 0.975].get(usize::from(class.saturating_sub(1))).copied().unwrap_or(1.3);
    let fine = 0.05 * p23 + 0.03 * p / d - 0.002;
    let coarse = 0.25 * p - 0.4 * p * p;
    // Threads per inch are told apart with a margin far above a float's error.
    let minor = if class == 3 {
        let least = if p < 1.0 / 12.5 { 0.23 * p - 1.5 * p * p } else { 0.12 * p };
        fine.min(0.394 * p).max(least)
    } else if d < 0.249_999 {
        fine.min(0.394 * p).max(coarse)
    } else if p > 0.250_001 {
        0.15 * p
    } else {
        coarse
    };
    Ok(basic.limits(0.0, [0.0, mm(factor * two_a), mm(minor)], false, source))
}

/// BS 84's formulas, in inches, from memory: T = 0.002 D^1/3 + 0.003 L^1/2 + 0.005 P^1/2 with L one
/// diameter; two thirds of it close, T medium, half as much again free (bolts) or normal (nuts);
/// medium and free bolts of 3/4 in and less are smaller by 0.3 T.
fn whitworth(basic: &Basic) -> Result<Limits, LimitsError> {
    let (d, p) = (inches(basic.major), inches(basic.pitch));
    let t = 0.002 * libm::cbrt(d) + 0.003 * libm::sqrt(d) + 0.005 * libm::sqrt(p);
    let source = "BS 84, from memory";
    let root_p = libm::sqrt(p);
    match basic.side {
        Side::Outside => {
            let (part, root) = match basic.class {
                Class::Close => (2.0 / 3.0 * t, 0.013),
                Class::Medium => (t, 0.02),
                Class::Free => (1.5 * t, 0.02),
                _ => return Err(basic.wrong()),
            };
            let loose = basic.class != Class::Close && d < 0.750_001;
            let allowance = if loose { 0.3 * t } else { 0.0 };
            let tolerances = [part + 0.01 * root_p, part, part + root * root_p].map(mm);
            Ok(basic.limits(mm(allowance), tolerances, false, source))
        }
        Side::Inside => {
            let part = match basic.class {
                Class::Close => 2.0 / 3.0 * t,
                Class::Medium => t,
                Class::Normal => 1.5 * t,
                _ => return Err(basic.wrong()),
            };
            let bore = 0.2 * p
                + if p < 1.0 / 25.5 {
                    0.004
                } else if p < 1.0 / 21.5 {
                    0.005
                } else {
                    0.007
                };
            Ok(basic.limits(0.0, [0.0, mm(part), mm(bore)], false, source))
        }
    }
}

/// BS 93:2008 annex B, in mm; normal bolts of 0 to 10 BA are smaller by 0.025 mm.
fn ba(basic: &Basic, number: Ratio) -> Result<Limits, LimitsError> {
    let p = basic.pitch;
    let source = "BS 93 annex B";
    if basic.side == Side::Inside {
        if !matches!(basic.class, Class::Close | Class::Normal) {
            return Err(basic.wrong());
        }
        return Ok(basic.limits(0.0, [0.0, 0.12 * p + 0.03, 0.375 * p], false, source));
    }
    let small = number > Ratio::whole(10);
    let (allowance, tolerances) = match basic.class {
        Class::Close if !small => (0.0, [0.15 * p, 0.08 * p + 0.02, 0.16 * p + 0.04]),
        Class::Normal => {
            let (allowance, major) = if small { (0.0, 0.25) } else { (0.025, 0.2) };
            (allowance, [major * p, 0.1 * p + 0.025, 0.2 * p + 0.05])
        }
        Class::Close => return Err(LimitsError::NotAtThisPitch(basic.class)),
        _ => return Err(basic.wrong()),
    };
    Ok(basic.limits(allowance, tolerances, false, source))
}

/// ISO 228-1, as in the open table of bd-warehouse 0.4.0: one tolerance of the pitch diameter by
/// threads per inch (twice that in class B), twice that outside, and a bore tolerance.
fn pipe(basic: &Basic) -> Result<Limits, LimitsError> {
    let Class::Pipe(class) = basic.class else { return Err(basic.wrong()) };
    let (t, bore) = if basic.pitch < 1.0 {
        (0.107, 0.282)
    } else if basic.pitch < 1.5 {
        (0.125, 0.445)
    } else if basic.pitch < 2.0 {
        (0.142, 0.541)
    } else if basic.major < 60.0 {
        (0.180, 0.640)
    } else {
        (0.217, 0.640)
    };
    let source = "ISO 228-1 Table 1";
    if basic.side == Side::Inside {
        return Ok(basic.limits(0.0, [0.0, t, bore], true, source));
    }
    let effective = if class == 'B' { 2.0 * t } else { t };
    let mut limits = basic.limits(0.0, [2.0 * t, effective, 0.0], true, source);
    // The standard leaves the root open downwards.
    limits.minor.min = None;
    Ok(limits)
}

/// ASME B1.5 general purpose, in inches, from memory: 2G, 3G and 4G with allowance 0.008, 0.006 and
/// 0.004 D^1/2 and tolerance 0.030 P^1/2 + 0.006 D^1/2, 0.014 and 0.0028, 0.010 and 0.002.
fn acme(basic: &Basic) -> Result<Limits, LimitsError> {
    let (allowance, by_pitch, by_diameter) = match basic.class {
        Class::Acme(2) => (0.008, 0.030, 0.006),
        Class::Acme(3) => (0.006, 0.014, 0.0028),
        Class::Acme(4) => (0.004, 0.010, 0.002),
        _ => return Err(basic.wrong()),
    };
    let p = inches(basic.pitch);
    let gap = inches(basic.bore - basic.root) / 2.0;
    let outside = basic.side == Side::Outside;
    let d = inches(basic.major) - if outside { 0.0 } else { 2.0 * gap };
    let effective = by_pitch * libm::sqrt(p) + by_diameter * libm::sqrt(d);
    let crest = (0.05 * p).max(0.005);
    let source = "ASME B1.5, from memory";
    if !outside {
        let mut limits = basic.limits(0.0, [0.0, mm(effective), mm(crest)], false, source);
        limits.major = Range::of(basic.major, basic.major + mm(2.0 * gap));
        return Ok(limits);
    }
    let mut limits = basic.limits(
        mm(allowance * libm::sqrt(d)),
        [mm(crest), mm(effective), mm(1.5 * effective)],
        false,
        source,
    );
    // Outside diameter and root stand at their basic sizes.
    limits.major = Range::of(basic.major - mm(crest), basic.major);
    limits.minor = Range::of(basic.root - mm(1.5 * effective), basic.root);
    Ok(limits)
}
