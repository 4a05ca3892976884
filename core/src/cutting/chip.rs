//! How much each tooth of a milling cutter takes: less rubs, more breaks.

use super::feed::{Feed, FeedUnit};
use super::sources::*;
use super::{CutterMaterial, CuttingError, Stock};
use crate::exact::Ratio;
use alloc::vec::Vec;

/// The most that a tooth is asked to take, mm: the largest figure of the chart.
pub const CHIP_CAP_MM: f64 = 0.15;

/// Chip chart, mm per tooth by cutter diameter: aluminium, steel, stainless steel.
#[rustfmt::skip]
const CHART: &[(f64, [f64; 3])] = &[
    ( 1.5, [0.010, 0.005, 0.004]),
    ( 3.0, [0.025, 0.013, 0.010]),
    ( 6.0, [0.050, 0.025, 0.020]),
    ( 8.0, [0.064, 0.038, 0.030]),
    (10.0, [0.075, 0.050, 0.040]),
    (12.0, [0.090, 0.064, 0.050]),
    (16.0, [0.110, 0.080, 0.064]),
    (20.0, [0.130, 0.100, 0.080]),
    (25.0, [0.150, 0.115, 0.090]),
];

/// The share of the diameter that a tooth takes, thousandths: fine and coarse end.
///
/// Steels and iron from the guide's rows of their kind, the fine end of the steels being that of
/// its tougher rows, for a light machine; the soft stocks from the chart, which keeps between six
/// and eight thousandths.
const fn share(stock: Stock) -> (f64, f64, &'static str) {
    match stock {
        Stock::FreeCuttingSteel | Stock::MildSteel | Stock::MediumCarbonSteel => {
            (3.0, 9.0, CUTTER_GUIDE)
        }
        Stock::AlloySteel => (3.0, 8.0, CUTTER_GUIDE),
        Stock::ToolSteel | Stock::StainlessSteel => (2.0, 7.0, CUTTER_GUIDE),
        Stock::GreyIron => (5.0, 10.0, CUTTER_GUIDE),
        Stock::Aluminium
        | Stock::Brass
        | Stock::Bronze
        | Stock::Copper
        | Stock::Acetal
        | Stock::Nylon => (6.0, 8.0, CHIP_CHART),
    }
}

/// What each tooth of a slitting saw takes, mm: its gullets and its thin body bear no more, whatever
/// its diameter. A starting figure, from memory.
pub const SAW_CHIP_MM: (f64, f64) = (0.005, 0.02);

/// The chip of a slitting saw, mm a tooth.
#[must_use]
pub const fn saw_chip() -> Feed {
    let (low, high) = SAW_CHIP_MM;
    Feed { low, high, unit: FeedUnit::PerTooth, source: SAWS }
}

/// The chip of an engraving point that is so wide at its tip, mm a tooth: 0.002 to 0.005 mm for a tip
/// of 0.3 mm, in proportion for others; for a sharp one as for 0.1 mm. A starting figure, from memory.
///
/// # Errors
///
/// [`CuttingError::NoDiameter`].
pub fn point_chip(tip_mm: f64) -> Result<Feed, CuttingError> {
    if !(tip_mm.is_finite() && tip_mm >= 0.0) {
        return Err(CuttingError::NoDiameter);
    }
    let share = tip_mm.max(0.1) / 0.3;
    let (low, high) = ((0.002 * share).min(0.02), (0.005 * share).min(0.05));
    Ok(Feed { low, high, unit: FeedUnit::PerTooth, source: POINTS })
}

/// How wide a point cuts at the surface, mm: tip + 2 depth tan(angle / 2).
#[must_use]
pub fn point_width(tip_mm: f64, depth_mm: f64, angle_deg: f64) -> f64 {
    tip_mm + 2.0 * depth_mm * libm::tan(angle_deg.to_radians() / 2.0)
}

/// The chart's figure at a diameter, straight between its rows and in proportion outside them.
fn charted(stock: Stock, diameter: f64) -> Option<f64> {
    let column = match stock {
        Stock::FreeCuttingSteel | Stock::MildSteel | Stock::MediumCarbonSteel => 1,
        Stock::StainlessSteel => 2,
        Stock::Aluminium => 0,
        _ => return None,
    };
    let at = |row: &(f64, [f64; 3])| row.1.get(column).copied().map(|chip| (row.0, chip));
    let (first, last) = (at(CHART.first()?)?, at(CHART.last()?)?);
    if diameter <= first.0 {
        return Some(first.1 * diameter / first.0);
    }
    for (a, b) in CHART.iter().zip(CHART.iter().skip(1)) {
        let (a, b) = (at(a)?, at(b)?);
        if diameter <= b.0 {
            return Some(a.1 + (b.1 - a.1) * (diameter - a.0) / (b.0 - a.0));
        }
    }
    Some(last.1)
}

/// Published chip loads of an end mill, mm per tooth, the one to use first. Both books are for
/// carbide; high-speed steel keeps the same chip at its lower speed.
///
/// # Errors
///
/// [`CuttingError::NoDiameter`].
pub fn chip_loads(
    stock: Stock,
    _cutter: CutterMaterial,
    diameter_mm: Ratio,
) -> Result<Vec<Feed>, CuttingError> {
    if !diameter_mm.is_positive() {
        return Err(CuttingError::NoDiameter);
    }
    let diameter = diameter_mm.to_f64();
    let (low, high, source) = share(stock);
    let chip = |low: f64, high: f64, source| Feed {
        low: low.min(CHIP_CAP_MM),
        high: high.min(CHIP_CAP_MM),
        unit: FeedUnit::PerTooth,
        source,
    };
    let first = chip(low * diameter / 1000.0, high * diameter / 1000.0, source);
    let second = charted(stock, diameter).map(|one| chip(one, one, CHIP_CHART));
    Ok(core::iter::once(first).chain(second).collect())
}

/// The depth of a slot that a cutter takes at one pass, as a share of its diameter: a quarter in
/// steel and iron, a half in soft metals, the whole in plastics. Common practice, no source.
#[must_use]
pub const fn slot_depth_share(stock: Stock) -> Ratio {
    match stock {
        Stock::Aluminium | Stock::Brass | Stock::Bronze | Stock::Copper => Ratio::of(1, 2),
        Stock::Acetal | Stock::Nylon => Ratio::ONE,
        _ => Ratio::of(1, 4),
    }
}

/// How many equal passes of a slitting saw of that width make `depth_mm`: in soft metal and plastics
/// one, in steel and iron none deeper than three times its width. Common practice, no source.
#[must_use]
pub fn saw_passes(stock: Stock, width_mm: Ratio, depth_mm: Ratio) -> Option<u32> {
    if !width_mm.is_positive() || !depth_mm.is_positive() {
        return None;
    }
    if slot_depth_share(stock) > Ratio::of(1, 4) {
        return Some(1);
    }
    equal(depth_mm, width_mm.mul(Ratio::whole(3)).ok()?)
}

/// So many equal parts, none larger than `each`.
fn equal(whole: Ratio, each: Ratio) -> Option<u32> {
    let parts = whole.div(each).ok()?;
    let count = if parts.is_whole() { parts.floor() } else { parts.floor().checked_add(1)? };
    u32::try_from(count).ok().filter(|n| *n <= 1_000_000)
}

/// How many equal passes, none deeper than advised, make `depth_mm`. `None` where either size is
/// nothing, or the count is past a million.
#[must_use]
pub fn passes_to_depth(stock: Stock, cutter_mm: Ratio, depth_mm: Ratio) -> Option<u32> {
    if !cutter_mm.is_positive() || !depth_mm.is_positive() {
        return None;
    }
    equal(depth_mm, cutter_mm.mul(slot_depth_share(stock)).ok()?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_books_agree_within_the_range() {
        for stock in [Stock::MildSteel, Stock::StainlessSteel, Stock::Aluminium] {
            for d in [2, 3, 4, 6] {
                let loads = chip_loads(stock, CutterMaterial::Hss, Ratio::whole(d)).unwrap();
                let [share, chart] = loads.as_slice() else { panic!("two books") };
                assert!(
                    chart.low > share.low * 0.8 && chart.high < share.high * 1.2,
                    "{stock} {d}: {share:?} {chart:?}"
                );
            }
        }
    }

    #[test]
    fn passes_cover_the_depth_and_no_more() {
        let passes = |depth| passes_to_depth(Stock::MildSteel, Ratio::whole(2), depth);
        assert_eq!(passes(Ratio::of(1, 2)), Some(1));
        assert_eq!(passes(Ratio::of(51, 100)), Some(2));
        assert_eq!(passes(Ratio::whole(2)), Some(4));
        assert_eq!(passes(Ratio::ZERO), None);
    }
}
