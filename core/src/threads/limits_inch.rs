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

/// To so many decimals of an inch, as the tables print it.
fn printed(inches: f64, decimals: u8) -> f64 {
    let ten = (0..decimals).fold(1.0, |ten, _| ten * 10.0);
    // What stands half-way but for a float's error goes up, as by hand.
    libm::floor(inches * ten + 0.5 + 1e-9) / ten
}

/// 2A's pitch tolerance: 0.0015 D^1/3 + 0.0015 LE^1/2 + 0.015 P^2/3, to six decimals.
fn two_a(d: f64, p: f64, engaged: f64) -> f64 {
    let p23 = libm::cbrt(p * p);
    printed(0.0015 * libm::cbrt(d) + 0.0015 * libm::sqrt(engaged) + 0.015 * p23, 6)
}

/// Whether it is of the constant-pitch series 4-UN or 6-UN: from 2 1/2 and 1 3/8 in up, by sixteenths.
fn four_or_six(d: f64, p: f64) -> bool {
    let sixteenths = d * 16.0;
    let pitched = |tpi: f64, from: f64| (p * tpi - 1.0).abs() < 1e-6 && d > from - 1e-6;
    (pitched(4.0, 2.5) || pitched(6.0, 1.375))
        && (sixteenths - libm::round(sixteenths)).abs() < 1e-6
}

/// 2A's pitch tolerance at the standard's own length of engagement, and at this one.
///
/// UNC, UNF, 4-, 6- and 8-UN: one diameter, good up to one and a half; the others: nine pitches, good
/// from five to fifteen (ASME B1.1). Over fifteen pitches a quarter more, as FED-STD-H28/2B 5.4 works
/// 2.500-28 UNS over 28; that this ends at thirty is from memory. Beyond, and under five pitches,
/// the formula with the length itself, past thirty pitches no less than at thirty.
fn tolerances(d: f64, p: f64, series: Series, engaged: Option<f64>) -> (f64, f64) {
    let by_diameter =
        matches!(series, Series::Unc | Series::Unf | Series::Un8) || four_or_six(d, p);
    let standard = two_a(d, p, if by_diameter { d } else { 9.0 * p });
    let Some(length) = engaged else { return (standard, standard) };
    let own = two_a(d, p, length);
    // A length that is just so many pitches or diameters isn't past them by a float's error.
    let within = |most: f64| length <= most * (1.0 + 1e-9);
    let here = if by_diameter {
        if within(1.5 * d) { standard } else { own }
    } else if length < 5.0 * p * (1.0 - 1e-9) {
        own
    } else if within(15.0 * p) {
        standard
    } else if within(30.0 * p) {
        1.25 * standard
    } else {
        own.max(1.25 * standard)
    };
    (standard, here)
}

/// ASME B1.1's formulas, in inches: allowances and tolerances to four decimals, basic pitch
/// diameters too; the bore of 1B and 2B to three from No. 6 up, as the tables print them. The
/// allowance goes by the standard's length of engagement, the tolerance by the one there is.
pub(super) fn unified(
    basic: &Basic,
    series: Series,
    engaged: Option<Ratio>,
) -> Result<Limits, LimitsError> {
    let Class::Unified(class @ 1..=3, side) = basic.class else { return Err(basic.wrong()) };
    if side != basic.side {
        return Err(basic.wrong());
    }
    let (d, p) = (inches(basic.major), inches(basic.pitch));
    let (standard, two_a) = tolerances(d, p, series, engaged.map(|mm| inches(mm.to_f64())));
    let p23 = libm::cbrt(p * p);
    let effective = printed(inches(basic.effective), 4);
    let basic = Basic { effective: mm(effective), ..*basic };
    let source = match engaged {
        Some(_) => "ASME B1.1; length of engagement FED-STD-H28/2B 5.4",
        None => "ASME B1.1",
    };
    if side == Side::Outside {
        let factor =
            [1.5, 1.0, 0.75].get(usize::from(class.saturating_sub(1))).copied().unwrap_or(1.0);
        let allowance = if class == 3 { 0.0 } else { printed(0.3 * standard, 4) };
        let major = printed(if class == 1 { 0.09 } else { 0.06 } * p23, 4);
        let pitch = printed(factor * two_a, 4);
        let mut limits = basic.limits(mm(allowance), [mm(major), mm(pitch), 0.0], false, source);
        // The flat form's greatest root, and a root flat of P/8 at the least pitch diameter.
        let least = printed(effective - allowance - pitch - 0.649_519 * p, 4);
        let most = printed(inches(basic.bore) - allowance, 4);
        limits.minor = Range::of(mm(least), mm(most));
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
    let pitch = printed(factor * two_a, 4);
    let mut limits = basic.limits(0.0, [0.0, mm(pitch), 0.0], false, source);
    let decimals = if class == 3 || d < 0.137_999 { 4 } else { 3 };
    let bore = printed(inches(basic.bore), 4);
    let most = bore + printed(minor, 4);
    limits.minor = Range::of(mm(printed(bore, decimals)), mm(printed(most, decimals)));
    Ok(limits)
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
