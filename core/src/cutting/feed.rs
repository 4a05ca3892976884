//! How far the tool moves in each turn of the work or the drill.

use super::chip::chip_loads;
use super::sources::*;
use super::{CutterMaterial, CuttingError, Process, Stock};
use crate::exact::Ratio;
use alloc::vec;
use alloc::vec::Vec;

const MM_PER_INCH: f64 = 25.4;

/// What a feed is counted by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FeedUnit {
    /// mm per turn.
    PerTurn,
    /// mm per tooth.
    PerTooth,
}

/// A published range of feed. The low end suits a light machine, a slender cutter and a hand on the
/// wheel, and is what is advised (common practice, no source).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Feed {
    /// The fine end, mm.
    pub low: f64,
    /// The coarse end, mm.
    pub high: f64,
    /// Per turn or per tooth.
    pub unit: FeedUnit,
    /// Who says so.
    pub source: &'static str,
}

/// Drill feed in thousandths of an inch a turn, up to and including a diameter in inches.
#[rustfmt::skip]
const DRILL: &[(f64, f64, f64)] = &[
    (0.125,          1.0,  2.0),
    (0.25,           2.0,  4.0),
    (0.5,            4.0,  7.0),
    (1.0,            7.0, 15.0),
    (f64::INFINITY, 15.0, 25.0),
];

/// Thousandths of an inch a turn, as a feed in mm.
fn thou(low: f64, high: f64, source: &'static str) -> Feed {
    let mm = MM_PER_INCH / 1000.0;
    Feed { low: low * mm, high: high * mm, unit: FeedUnit::PerTurn, source }
}

/// The feeds printed for turning at an inch or more of diameter, thousandths of an inch a turn:
/// roughing, then finishing. The laboratory sheet goes by the stock.
fn turning(stock: Stock, finish: bool) -> [Feed; 2] {
    let sheet = match (finish, stock) {
        (false, Stock::Aluminium | Stock::Brass | Stock::Bronze) => (15.0, 25.0),
        (false, _) => (10.0, 20.0),
        (true, Stock::Aluminium) => (5.0, 10.0),
        (true, Stock::Copper) => (4.0, 8.0),
        (true, _) => (3.0, 10.0),
    };
    let quick = if finish { (2.0, 5.0) } else { (5.0, 15.0) };
    [thou(quick.0, quick.1, QUICK_REFERENCE), thou(sheet.0, sheet.1, LAB_SHEET)]
}

/// Every published feed for this job, the one to use first; empty where a pitch decides the feed.
///
/// Turning feeds are printed for work of an inch or more; below that they fall in proportion to the
/// diameter (T.O. 1-1A-9 Table 2-8, note 1), though to no less than a fifth of what is printed.
/// Milling gives the feed per tooth.
///
/// # Errors
///
/// [`CuttingError::NoDiameter`].
pub fn feeds(
    stock: Stock,
    process: Process,
    cutter: CutterMaterial,
    diameter_mm: Ratio,
) -> Result<Vec<Feed>, CuttingError> {
    if !diameter_mm.is_positive() {
        return Err(CuttingError::NoDiameter);
    }
    let inches = diameter_mm.to_f64() / MM_PER_INCH;
    let drill = || {
        let (_, low, high) =
            DRILL.iter().copied().find(|(up_to, ..)| inches <= *up_to).unwrap_or((0.0, 15.0, 25.0));
        thou(low, high, NAVY_DRILLS)
    };
    let small = inches.clamp(0.2, 1.0);
    let shrink = |feed: Feed| Feed { low: feed.low * small, high: feed.high * small, ..feed };
    Ok(match process {
        Process::Turn | Process::Face => turning(stock, false).map(shrink).into(),
        Process::Finish | Process::Bore => turning(stock, true).map(shrink).into(),
        Process::Drill => vec![drill()],
        // A reamer takes two to three times the drill's feed.
        Process::Ream => {
            let drill = drill();
            vec![Feed { low: drill.low * 2.0, high: drill.high * 3.0, source: PRACTICE, ..drill }]
        }
        Process::Countersink => {
            let drill = drill();
            vec![Feed { high: drill.low, source: PRACTICE, ..drill }]
        }
        Process::Part => vec![thou(2.0, 2.0, WAR_DEPT), thou(2.0, 5.0, QUICK_REFERENCE)],
        Process::Knurl => vec![thou(10.0, 30.0, PRACTICE)],
        Process::Mill => chip_loads(stock, cutter, diameter_mm)?,
        Process::Thread | Process::Tap | Process::Die => Vec::new(),
    })
}

/// Feed in mm/min: rev/min × mm per turn, or × teeth × mm per tooth.
#[must_use]
pub fn feed_per_minute(rpm: f64, feed_mm: f64, unit: FeedUnit, teeth: u16) -> f64 {
    match unit {
        FeedUnit::PerTurn => rpm * feed_mm,
        FeedUnit::PerTooth => rpm * feed_mm * f64::from(teeth),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_job_without_a_pitch_has_a_feed() {
        for stock in Stock::ALL {
            for process in Process::ALL {
                for cutter in CutterMaterial::ALL {
                    for d in
                        [Ratio::of(1, 10), Ratio::whole(2), Ratio::whole(25), Ratio::whole(900)]
                    {
                        let feeds = feeds(*stock, *process, *cutter, d).unwrap();
                        assert_eq!(feeds.is_empty(), process.follows_a_pitch(), "{process}");
                        for feed in feeds {
                            assert!(feed.low > 0.0 && feed.low <= feed.high, "{feed:?}");
                        }
                    }
                }
            }
        }
    }
}
