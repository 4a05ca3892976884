//! From a published surface speed to turns a minute.

use super::sources::*;
use super::speed_table::{PrintedUnit, SPEEDS, SpeedRow};
use super::{CutterMaterial, CuttingError, Process, Stock};
use crate::exact::Ratio;
use alloc::vec::Vec;
use core::f64::consts::PI;

/// A published range of surface speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SurfaceSpeed {
    /// The slow end, m/min.
    pub low: f64,
    /// The fast end, m/min.
    pub high: f64,
    /// The slow and fast ends as printed, before any rule.
    pub printed: (u16, u16, PrintedUnit),
    /// Who printed it.
    pub source: &'static str,
    /// The rule that carries it over to this process or cutter, and who says so.
    pub rules: [Option<Rule>; 2],
}

/// A share of a published speed that another process or cutter takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rule {
    /// Of the slow end.
    pub low: f64,
    /// Of the fast end.
    pub high: f64,
    /// Who says so.
    pub source: &'static str,
}

/// A range of spindle speed, rev/min.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RpmRange {
    /// The slow end.
    pub low: f64,
    /// The fast end.
    pub high: f64,
}

impl RpmRange {
    /// The middle: the speed to aim at.
    #[must_use]
    pub fn ideal(self) -> f64 {
        (self.low + self.high) / 2.0
    }
}

const fn rule(low: f64, high: f64, source: &'static str) -> Rule {
    Rule { low, high, source }
}

/// What a process without rows of its own goes by, best first.
fn borrowed(process: Process) -> (Process, &'static [Rule]) {
    const SAME: &[Rule] = &[rule(1.0, 1.0, PRACTICE)];
    const REAM: &[Rule] = &[rule(0.5, 0.5, WAR_DEPT), rule(0.5, 2.0 / 3.0, COLLEGE)];
    const SINK: &[Rule] = &[rule(0.25, 0.25, VOCABULARY)];
    const PART: &[Rule] = &[rule(0.25, 0.25, OPEN_TEXT), rule(1.0, 1.0, WAR_DEPT)];
    const ROLL: &[Rule] = &[rule(0.25, 1.0 / 3.0, PRACTICE)];
    const SCREW: &[Rule] = &[rule(0.25, 1.0 / 3.0, PRACTICE)];
    match process {
        Process::Finish | Process::Bore | Process::Face | Process::Turn => (Process::Turn, SAME),
        Process::Ream => (Process::Drill, REAM),
        Process::Countersink => (Process::Drill, SINK),
        Process::Part => (Process::Turn, PART),
        Process::Knurl => (Process::Turn, ROLL),
        Process::Thread => (Process::Turn, SCREW),
        Process::Die => (Process::Tap, SAME),
        Process::Drill | Process::Mill | Process::Tap => (process, SAME),
    }
}

fn printed(row: &SpeedRow) -> SurfaceSpeed {
    let per = match row.unit {
        // A foot is 0.3048 m exactly.
        PrintedUnit::FeetPerMinute => 0.3048,
        PrintedUnit::MetresPerMinute => 1.0,
    };
    SurfaceSpeed {
        low: f64::from(row.low) * per,
        high: f64::from(row.high) * per,
        printed: (row.low, row.high, row.unit),
        source: row.source,
        rules: [None; 2],
    }
}

fn by(speed: SurfaceSpeed, rule: Rule) -> SurfaceSpeed {
    let [first, _] = speed.rules;
    SurfaceSpeed {
        low: speed.low * rule.low,
        high: speed.high * rule.high,
        rules: if first.is_none() { [Some(rule), None] } else { [first, Some(rule)] },
        ..speed
    }
}

/// The rows for this process itself, with the cutter asked for or the nearest that is printed.
fn for_cutter(stock: Stock, process: Process, cutter: CutterMaterial) -> Vec<SurfaceSpeed> {
    let rows = |cutter| {
        SPEEDS
            .iter()
            .filter(move |row| (row.stock, row.process, row.cutter) == (stock, process, cutter))
            .map(printed)
            .collect::<Vec<_>>()
    };
    let own = rows(cutter);
    if !own.is_empty() || cutter == CutterMaterial::Hss {
        return own;
    }
    if cutter == CutterMaterial::Carbide {
        let brazed = rows(CutterMaterial::BrazedCarbide);
        if !brazed.is_empty() {
            return brazed;
        }
    }
    // Taps and dies are of high-speed steel and a knurl doesn't cut: no carbide rule for them.
    let faster = match process {
        Process::Drill => rule(2.0, 3.0, NAVY_DRILLS),
        Process::Tap => rule(1.0, 1.0, PRACTICE),
        _ => rule(2.0, 2.0, COLLEGE),
    };
    rows(CutterMaterial::Hss).into_iter().map(|speed| by(speed, faster)).collect()
}

/// Every published surface speed for this job, the one to use first.
///
/// Where books differ all of them stand. A process that no book prints for this stock borrows from
/// turning, drilling or tapping by a published rule, and a carbide cutter from high-speed steel;
/// the rules stand with the result.
///
/// # Errors
///
/// [`CuttingError::NotInTheBooks`].
pub fn surface_speeds(
    stock: Stock,
    process: Process,
    cutter: CutterMaterial,
) -> Result<Vec<SurfaceSpeed>, CuttingError> {
    let cutter = if process == Process::Knurl { CutterMaterial::Hss } else { cutter };
    let own = for_cutter(stock, process, cutter);
    if !own.is_empty() {
        return Ok(own);
    }
    let (base, rules) = borrowed(process);
    let speeds: Vec<_> = rules
        .iter()
        .flat_map(|rule| for_cutter(stock, base, cutter).into_iter().map(|speed| by(speed, *rule)))
        .collect();
    if speeds.is_empty() {
        return Err(CuttingError::NotInTheBooks { stock, process, cutter });
    }
    Ok(speeds)
}

fn positive(diameter_mm: Ratio) -> Result<f64, CuttingError> {
    if diameter_mm.is_positive() { Ok(diameter_mm.to_f64()) } else { Err(CuttingError::NoDiameter) }
}

/// Turns a minute at which `diameter_mm` runs at `m_per_min`: n = 1000 v / (π d).
///
/// # Errors
///
/// [`CuttingError::NoDiameter`].
pub fn rpm_at(m_per_min: f64, diameter_mm: Ratio) -> Result<f64, CuttingError> {
    Ok(1000.0 * m_per_min / (PI * positive(diameter_mm)?))
}

/// Surface speed in m/min of `diameter_mm` at `rpm`: v = π d n / 1000.
///
/// # Errors
///
/// [`CuttingError::NoDiameter`].
pub fn surface_at(rpm: f64, diameter_mm: Ratio) -> Result<f64, CuttingError> {
    Ok(PI * positive(diameter_mm)? * rpm / 1000.0)
}

/// The range of turns a minute that `speed` makes at `diameter_mm`.
///
/// # Errors
///
/// [`CuttingError::NoDiameter`].
pub fn rpm_range(speed: &SurfaceSpeed, diameter_mm: Ratio) -> Result<RpmRange, CuttingError> {
    Ok(RpmRange { low: rpm_at(speed.low, diameter_mm)?, high: rpm_at(speed.high, diameter_mm)? })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_stock_has_every_process_with_every_cutter() {
        for stock in Stock::ALL {
            for process in Process::ALL {
                for cutter in CutterMaterial::ALL {
                    let speeds = surface_speeds(*stock, *process, *cutter).unwrap();
                    for speed in speeds {
                        assert!(speed.low > 0.0 && speed.low <= speed.high, "{speed:?}");
                    }
                }
            }
        }
    }

    #[test]
    fn a_diameter_of_nothing_is_refused() {
        for d in [Ratio::ZERO, Ratio::whole(-3)] {
            assert_eq!(rpm_at(30.0, d), Err(CuttingError::NoDiameter));
            assert_eq!(surface_at(30.0, d), Err(CuttingError::NoDiameter));
        }
    }

    #[test]
    fn speed_and_turns_undo_each_other() {
        for d in 1..=400 {
            let d = Ratio::of(d, 2);
            let v = surface_at(rpm_at(24.0, d).unwrap(), d).unwrap();
            assert!((v - 24.0).abs() < 1e-9, "{d}");
        }
    }
}
