//! Limits of Unified, Whitworth, BA, pipe and Acme threads.

use super::class::Class;
use super::designation::Side;
use super::lead::INCH;
use super::limits::{Basic, Limits, LimitsError, Range};
use super::series::Series;
use crate::exact::Ratio;

fn inches(mm: f64) -> f64 {
    mm / INCH.to_f64()
}

fn mm(inches: f64) -> f64 {
    inches * INCH.to_f64()
}

/// ASME B1.1's formulas, in inches: 2A's pitch tolerance is 0.0015 D^1/3 + 0.0015 LE^1/2 +
/// 0.015 P^2/3, its length of engagement one diameter for UNC, UNF and 8-UN, else nine pitches.
pub(super) fn unified(basic: &Basic, series: Series) -> Result<Limits, LimitsError> {
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
pub(super) fn whitworth(basic: &Basic) -> Result<Limits, LimitsError> {
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
pub(super) fn ba(basic: &Basic, number: Ratio) -> Result<Limits, LimitsError> {
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
pub(super) fn pipe(basic: &Basic) -> Result<Limits, LimitsError> {
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
pub(super) fn acme(basic: &Basic) -> Result<Limits, LimitsError> {
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
