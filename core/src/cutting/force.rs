//! What a turning cut asks of the motor and of a slender bar.

use super::Stock;
use super::sources::{CUTTING_TABLES, OLDER_FORCES};
use core::f64::consts::PI;

/// What a stock asks of the edge: N for a square millimetre of chip one millimetre thick, and how
/// that grows as the chip gets thinner: kc = kc1.1 / h^mc.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpecificForce {
    /// kc1.1, N/mm².
    pub kc11: f64,
    /// mc.
    pub exponent: f64,
    /// The rake that the table is for, degrees, where it says.
    pub rake_deg: f64,
    /// The table.
    pub source: &'static str,
}

impl SpecificForce {
    /// N/mm² of a chip `thick_mm` thick, in turning.
    #[must_use]
    pub fn turning(self, thick_mm: f64) -> f64 {
        self.kc11 / libm::pow(thick_mm, self.exponent)
    }

    /// N/mm² of a chip that is `thick_mm` thick on the whole, in milling with no rake: a fifth more,
    /// and one part in a hundred for each degree of the table's rake.
    #[must_use]
    pub fn milling(self, thick_mm: f64) -> f64 {
        1.2 / (1.0 - self.rake_deg / 100.0) * self.turning(thick_mm)
    }
}

/// The stock's row, where a table has one.
///
/// The newer table's exponent of grey iron follows from a worked figure of it: 1.5 mm deep at 0.15 mm
/// a turn and 45°, 25 m/min, 164.9 W. The older tables are the Kienzle values of C45, 42CrMo4, C60
/// and brass; they run higher than the newer one.
#[must_use]
pub const fn specific_force(stock: Stock) -> Option<SpecificForce> {
    let (kc11, exponent, rake_deg, source) = match stock {
        Stock::MildSteel => (1800.0, 0.20, 6.0, CUTTING_TABLES),
        Stock::StainlessSteel => (2000.0, 0.20, 6.0, CUTTING_TABLES),
        Stock::GreyIron => (1050.0, 0.23, 2.0, CUTTING_TABLES),
        Stock::Aluminium => (470.0, 0.27, 12.0, CUTTING_TABLES),
        Stock::MediumCarbonSteel => (2220.0, 0.14, 6.0, OLDER_FORCES),
        Stock::AlloySteel => (2500.0, 0.26, 6.0, OLDER_FORCES),
        Stock::ToolSteel => (2130.0, 0.18, 6.0, OLDER_FORCES),
        Stock::Brass => (780.0, 0.18, 0.0, OLDER_FORCES),
        _ => return None,
    };
    Some(SpecificForce { kc11, exponent, rake_deg, source })
}

/// How thick a milling cutter's chip is on the whole, mm: 2 fz ae / (D φ), where φ is the arc that a
/// tooth is in the work, cos φ = 1 − 2 ae/D. Geometry.
#[must_use]
pub fn milled_chip_mm(per_tooth_mm: f64, width_mm: f64, diameter_mm: f64) -> Option<f64> {
    let part = (width_mm / diameter_mm).min(1.0);
    let arc = libm::acos(1.0 - 2.0 * part);
    (part > 0.0 && arc > 0.0).then(|| 2.0 * per_tooth_mm * part / arc)
}

/// Young's modulus, N/mm². Handbook values, from memory.
#[must_use]
pub const fn stiffness(stock: Stock) -> f64 {
    match stock {
        Stock::Aluminium => 70_000.0,
        Stock::Brass | Stock::Bronze => 105_000.0,
        Stock::Copper => 120_000.0,
        Stock::GreyIron => 110_000.0,
        Stock::Acetal | Stock::Nylon => 2_800.0,
        _ => 205_000.0,
    }
}

/// The force on the tool, N, of a turning cut `depth_mm` deep at `feed_mm` a turn, with an edge square
/// to the feed: kc · depth · feed, the chip as thick as the feed.
#[must_use]
pub fn cutting_force_n(stock: Stock, depth_mm: f64, feed_mm: f64) -> Option<f64> {
    specific_force(stock).map(|force| force.turning(feed_mm) * depth_mm * feed_mm)
}

/// The power at the work, W: force × surface speed.
#[must_use]
pub fn power_w(force_n: f64, m_per_min: f64) -> f64 {
    force_n * m_per_min / 60.0
}

/// How far a round bar held at one end gives under a force at the other, mm:
/// 64 F L³ / (3 π E d⁴). `None` for a bar of no diameter.
#[must_use]
pub fn bar_gives_mm(force_n: f64, length_mm: f64, diameter_mm: f64, stock: Stock) -> Option<f64> {
    if diameter_mm <= 0.0 {
        return None;
    }
    let stiff = 3.0 * PI * stiffness(stock) * libm::pow(diameter_mm, 4.0);
    Some(64.0 * force_n * libm::pow(length_mm, 3.0) / stiff)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cut_on_a_bar() {
        // By hand: 1800 / 0.1^0.2 = 2852.8 N/mm²; × 1 mm × 0.1 mm is 285.28 N; at 30 m/min 142.64 W.
        let force = cutting_force_n(Stock::MildSteel, 1.0, 0.1).unwrap();
        assert!((force - 285.281).abs() < 1e-3 && (power_w(force, 30.0) - 142.640).abs() < 1e-3);
        // I = π 10⁴ / 64 = 490.87; 285.28 × 50³ / (3 × 205000 × 490.87) = 0.1181.
        let gives = bar_gives_mm(force, 50.0, 10.0, Stock::MildSteel).unwrap();
        assert!((gives - 0.1181).abs() < 0.0001, "{gives}");
        // A slot: the arc is half a turn, so that the chip is 2/π of what a tooth takes.
        let slot = milled_chip_mm(0.02, 6.0, 6.0).unwrap();
        assert!((slot - 0.04 / PI).abs() < 1e-9, "{slot}");
        assert_eq!(milled_chip_mm(0.02, 0.0, 6.0), None);
        assert_eq!(bar_gives_mm(force, 50.0, 0.0, Stock::MildSteel), None);
    }
}
