//! How hot an outer part must be to slip over a press fit.

use crate::cutting::Stock;
use crate::exact::Ratio;

/// Growth in millionths of the size for each degree Celsius, near room temperature. Handbook
/// values, from memory.
#[must_use]
pub const fn expansion_per_million(stock: Stock) -> f64 {
    match stock {
        Stock::FreeCuttingSteel
        | Stock::MildSteel
        | Stock::MediumCarbonSteel
        | Stock::AlloySteel
        | Stock::ToolSteel => 11.5,
        Stock::StainlessSteel => 17.0,
        Stock::GreyIron => 10.5,
        Stock::Aluminium => 23.0,
        Stock::Brass => 19.0,
        Stock::Bronze => 18.0,
        Stock::Copper => 17.0,
        Stock::Acetal => 110.0,
        Stock::Nylon => 90.0,
    }
}

/// The rise in °C at which a hole of `basic_mm` has grown by the tightest squeeze and `ease_mm`
/// more. `None` for plastics, which soften first, or a size of nothing.
#[must_use]
pub fn rise_to_slip_c(
    outer: Stock,
    basic_mm: Ratio,
    squeeze_mm: Ratio,
    ease_mm: Ratio,
) -> Option<f64> {
    if matches!(outer, Stock::Acetal | Stock::Nylon) || !basic_mm.is_positive() {
        return None;
    }
    let growth = squeeze_mm.add(ease_mm).ok().filter(|growth| growth.is_positive())?;
    Some(growth.to_f64() / (basic_mm.to_f64() * expansion_per_million(outer) * 1e-6))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_steel_ring_over_a_shaft() {
        // By hand: 48 + 20 µm on 25 mm at 11.5 millionths is 236.5 °C.
        let rise = rise_to_slip_c(
            Stock::MildSteel,
            Ratio::whole(25),
            Ratio::of(48, 1000),
            Ratio::of(20, 1000),
        );
        assert!((rise.unwrap() - 236.5).abs() < 0.1);
        let ten = Ratio::whole(10);
        assert_eq!(rise_to_slip_c(Stock::Nylon, ten, Ratio::ONE, Ratio::ONE), None);
        assert_eq!(rise_to_slip_c(Stock::Brass, ten, Ratio::whole(-1), Ratio::ZERO), None);
    }
}
