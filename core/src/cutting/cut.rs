//! One cut on this machine: the speed to run at and the feed that goes with it.

use super::{
    ALLOWED, CutterMaterial, CuttingError, Feed, FeedUnit, Process, RpmRange, SpindlePick, Stock,
    SurfaceSpeed, Verdict, feed_per_minute, feeds, pick_spindle, rpm_range, surface_at,
    surface_speeds,
};
use crate::exact::Ratio;
use alloc::vec::Vec;

/// What a cut comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut {
    /// Every published surface speed; the first is used.
    pub speeds: Vec<SurfaceSpeed>,
    /// Turns a minute that the first of them makes at this diameter.
    pub range: RpmRange,
    /// The machine's own speed, where it has any.
    pub spindle: Option<SpindlePick>,
    /// Turns a minute that the rest is worked out at: the machine's own, else the ideal.
    pub rpm: f64,
    /// Surface speed at that, m/min.
    pub surface_m_per_min: f64,
    /// Every published feed; the first is used, at its fine end. Empty where a pitch decides.
    pub feeds: Vec<Feed>,
    /// Feed in mm/min, where a pitch doesn't decide it.
    pub feed_mm_per_min: Option<f64>,
    /// What each edge takes, mm: of a milling cutter's `teeth`, or of a drill's two lips.
    pub chip_mm_per_tooth: Option<f64>,
}

/// One cut at `diameter_mm` (of the work, or of the cutter where the cutter turns) with a cutter of
/// `teeth` on a machine whose speeds are `owned`, rev/min.
///
/// # Errors
///
/// [`CuttingError::NoDiameter`], [`CuttingError::NotInTheBooks`].
pub fn cut(
    stock: Stock,
    process: Process,
    cutter: CutterMaterial,
    diameter_mm: Ratio,
    teeth: u16,
    owned: &[f64],
) -> Result<Cut, CuttingError> {
    let speeds = surface_speeds(stock, process, cutter)?;
    let first = speeds.first().ok_or(CuttingError::NotInTheBooks { stock, process, cutter })?;
    let range = rpm_range(first, diameter_mm)?;
    let mut spindle = pick_spindle(range, owned);
    if let Some(pick) = &mut spindle
        && let Verdict::MachineTooFast { wants, .. } = pick.verdict
        && speeds.iter().skip(1).any(|other| {
            rpm_range(other, diameter_mm)
                .is_ok_and(|range| pick.rpm <= (1.0 + ALLOWED) * range.high)
        })
    {
        pick.verdict = Verdict::OtherBook { wants };
    }
    let rpm = spindle.map_or_else(|| range.ideal(), |pick| pick.rpm);
    let feeds = feeds(stock, process, cutter, diameter_mm)?;
    let teeth = teeth.max(1);
    let feed = feeds.first();
    let feed_mm_per_min = feed.map(|feed| feed_per_minute(rpm, feed.low, feed.unit, teeth));
    let chip_mm_per_tooth = feed.and_then(|feed| match (feed.unit, process) {
        (FeedUnit::PerTooth, _) => Some(feed.low),
        (FeedUnit::PerTurn, Process::Drill) => Some(feed.low / 2.0),
        (FeedUnit::PerTurn, _) => None,
    });
    let surface_m_per_min = surface_at(rpm, diameter_mm)?;
    Ok(Cut {
        speeds,
        range,
        spindle,
        rpm,
        surface_m_per_min,
        feeds,
        feed_mm_per_min,
        chip_mm_per_tooth,
    })
}
