//! Parting off: how fast, how far out the blade, and what to leave.

use super::{Cut, CutterMaterial, CuttingError, Process, Stock, cut};
use crate::exact::Ratio;

/// What parting off comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct PartOff {
    /// Speed and feed; the feed is per turn of the work.
    pub cut: Cut,
    /// Feed, mm a turn.
    pub feed_mm_per_rev: f64,
    /// How far the blade stands out of its holder, mm: a little more than half the diameter.
    pub stick_out_mm: Ratio,
    /// Whether the blade is too thin for how deep it goes.
    pub blade_too_thin: bool,
    /// What the blade turns into chips, mm of the bar's length.
    pub lost_mm: Ratio,
    /// What to leave on the part for facing, mm.
    pub facing_mm: Ratio,
    /// The core at which to stop and saw where a finished part must not drop, mm.
    pub core_mm: Ratio,
}

/// How much further than the middle the blade reaches, mm. Common practice, no source.
const REACH_PAST_MIDDLE_MM: Ratio = Ratio::of(2, 1);
/// What is left for facing, mm. Common practice, no source.
const FACING_MM: Ratio = Ratio::of(1, 2);
/// A blade goes no deeper than so many times its width. Common practice, no source.
const DEPTH_PER_WIDTH: i64 = 8;

/// Parting off `diameter_mm`, down to a bore of `bore_mm` (nothing for a solid bar).
///
/// Stick-out: the cutting part of the blade stands out only slightly more than half the diameter
/// (Army Ordnance lathe course OD1645).
///
/// # Errors
///
/// [`CuttingError::NoDiameter`], also for a bore as wide as the work or a blade of no width;
/// [`CuttingError::NotInTheBooks`].
pub fn part_off(
    stock: Stock,
    cutter: CutterMaterial,
    diameter_mm: Ratio,
    bore_mm: Ratio,
    blade_mm: Ratio,
    owned: &[f64],
) -> Result<PartOff, CuttingError> {
    let refused = |_| CuttingError::NoDiameter;
    if bore_mm.is_negative() || bore_mm >= diameter_mm || !blade_mm.is_positive() {
        return Err(CuttingError::NoDiameter);
    }
    let cut = cut(stock, Process::Part, cutter, diameter_mm, 1, owned)?;
    let feed_mm_per_rev = cut.feeds.first().map_or(0.0, |feed| feed.low);
    let depth = diameter_mm.sub(bore_mm).map_err(refused)?.div(Ratio::whole(2)).map_err(refused)?;
    let stick_out_mm = depth.add(REACH_PAST_MIDDLE_MM).map_err(refused)?;
    let deepest = blade_mm.mul(Ratio::whole(DEPTH_PER_WIDTH)).map_err(refused)?;
    let core = diameter_mm.div(Ratio::whole(6)).map_err(refused)?.max(Ratio::whole(3));
    Ok(PartOff {
        cut,
        feed_mm_per_rev,
        stick_out_mm,
        blade_too_thin: depth > deepest,
        lost_mm: blade_mm,
        facing_mm: FACING_MM,
        core_mm: core.min(diameter_mm),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bar_and_a_tube() {
        let part = |d, bore, blade| {
            let (d, bore) = (Ratio::whole(d), Ratio::whole(bore));
            part_off(Stock::MildSteel, CutterMaterial::Hss, d, bore, blade, &[45.0, 110.0, 320.0])
        };
        let bar = part(20, 0, Ratio::whole(2)).unwrap();
        assert_eq!(bar.stick_out_mm, Ratio::whole(12));
        assert!(!bar.blade_too_thin && bar.cut.spindle.is_some());
        assert!(part(40, 0, Ratio::whole(2)).unwrap().blade_too_thin);
        assert_eq!(part(40, 30, Ratio::whole(2)).unwrap().stick_out_mm, Ratio::whole(7));
        assert_eq!(part(20, 20, Ratio::ONE).err(), Some(CuttingError::NoDiameter));
        assert_eq!(part(20, 0, Ratio::ZERO).err(), Some(CuttingError::NoDiameter));
    }
}
