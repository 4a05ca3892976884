//! What a turning cut asks of the motor and of a slender bar.

use super::Stock;
use core::f64::consts::PI;

/// N for each square millimetre of chip, where the handbook prints the stock: Carvill, Mechanical
/// Engineer's Data Handbook (1993) p. 192.
#[must_use]
pub const fn specific_force(stock: Stock) -> Option<f64> {
    match stock {
        Stock::Aluminium => Some(700.0),
        Stock::Brass => Some(1250.0),
        Stock::GreyIron => Some(900.0),
        Stock::MildSteel => Some(1200.0),
        Stock::ToolSteel => Some(3000.0),
        _ => None,
    }
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

/// The force on the tool, N, of a cut `depth_mm` deep at `feed_mm` a turn.
#[must_use]
pub fn cutting_force_n(stock: Stock, depth_mm: f64, feed_mm: f64) -> Option<f64> {
    specific_force(stock).map(|k| k * depth_mm * feed_mm)
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
        // By hand: 1 mm × 0.1 mm × 1200 is 120 N; at 25 m/min 50 W.
        let force = cutting_force_n(Stock::MildSteel, 1.0, 0.1).unwrap();
        assert!((force - 120.0).abs() < 1e-9 && (power_w(force, 25.0) - 50.0).abs() < 1e-9);
        // I = π 10⁴ / 64 = 490.87; 120 × 50³ / (3 × 205000 × 490.87) = 0.0497.
        let gives = bar_gives_mm(force, 50.0, 10.0, Stock::MildSteel).unwrap();
        assert!((gives - 0.0497).abs() < 0.0001, "{gives}");
        assert_eq!(bar_gives_mm(force, 50.0, 0.0, Stock::MildSteel), None);
    }
}
