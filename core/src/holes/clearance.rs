//! Holes that a screw passes through.

use crate::exact::Ratio;

/// How freely.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fit {
    /// Fine series: parts that must line up.
    Close,
    /// Medium series: the ordinary one.
    Medium,
    /// Coarse series: holes drilled apart.
    Free,
}

/// A screw's holes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ClearanceRow {
    /// The screw's nominal diameter: hundredths of a millimetre, or ten-thousandths of an inch.
    pub screw: u16,
    /// Close, medium and free, in the same unit.
    pub holes: [u16; 3],
}

const fn row(screw: u16, close: u16, medium: u16, free: u16) -> ClearanceRow {
    ClearanceRow { screw, holes: [close, medium, free] }
}

/// ISO 273:1979, hundredths of a millimetre.
#[rustfmt::skip]
pub const CLEARANCE_METRIC: &[ClearanceRow] = &[
    row( 100,  110,  120,  130), row( 120,  130,  140,  150), row( 140,  150,  160,  180),
    row( 160,  170,  180,  200), row( 180,  200,  210,  220), row( 200,  220,  240,  260),
    row( 250,  270,  290,  310), row( 300,  320,  340,  360), row( 350,  370,  390,  420),
    row( 400,  430,  450,  480), row( 450,  480,  500,  530), row( 500,  530,  550,  580),
    row( 600,  640,  660,  700), row( 700,  740,  760,  800), row( 800,  840,  900, 1000),
    row(1000, 1050, 1100, 1200), row(1200, 1300, 1350, 1450), row(1400, 1500, 1550, 1650),
    row(1600, 1700, 1750, 1850), row(1800, 1900, 2000, 2100), row(2000, 2100, 2200, 2400),
    row(2200, 2300, 2400, 2600), row(2400, 2500, 2600, 2800), row(2700, 2800, 3000, 3200),
    row(3000, 3100, 3300, 3500), row(3300, 3400, 3600, 3800), row(3600, 3700, 3900, 4200),
    row(3900, 4000, 4200, 4500), row(4200, 4300, 4500, 4800), row(4500, 4600, 4800, 5200),
    row(4800, 5000, 5200, 5600), row(5200, 5400, 5600, 6200), row(5600, 5800, 6200, 6600),
    row(6000, 6200, 6600, 7000), row(6400, 6600, 7000, 7400),
];

/// ASME B18.2.8 for inch screws, ten-thousandths of an inch; the drills of the table are those of
/// an open library of fasteners.
#[rustfmt::skip]
pub const CLEARANCE_INCH: &[ClearanceRow] = &[
    row(  600,   670,   760,   938), row(  730,   810,   890,  1040), row(  860,   938,  1015,  1160),
    row(  990,  1065,  1160,  1285), row( 1120,  1200,  1285,  1440), row( 1250,  1406,  1563,  1719),
    row( 1380,  1540,  1695,  1850), row( 1640,  1800,  1960,  2130), row( 1900,  2055,  2210,  2380),
    row( 2500,  2656,  2813,  2969), row( 3125,  3281,  3438,  3594), row( 3750,  3906,  4063,  4219),
    row( 4375,  4531,  4688,  4844), row( 5000,  5313,  5625,  6094), row( 6250,  6563,  6875,  7344),
    row( 7500,  7813,  8125,  9063), row( 8750,  9063,  9375, 10313), row(10000, 10313, 10938, 11563),
];

/// The hole for a screw of this nominal diameter, mm: as the standard gives it where it has the
/// size, `None` where it has not.
#[must_use]
pub fn clearance(screw_mm: Ratio, fit: Fit) -> Option<Ratio> {
    let column = match fit {
        Fit::Close => 0,
        Fit::Medium => 1,
        Fit::Free => 2,
    };
    let find = |rows: &[ClearanceRow], unit: Ratio| {
        rows.iter().find_map(|row| {
            let size = Ratio::from(u32::from(row.screw)).mul(unit).ok()?;
            let hole = *row.holes.get(column)?;
            (size == screw_mm).then(|| Ratio::from(u32::from(hole)).mul(unit).ok())?
        })
    };
    find(CLEARANCE_METRIC, Ratio::of(1, 100))
        .or_else(|| find(CLEARANCE_INCH, Ratio::of(127, 50_000)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_hole_lets_its_screw_through() {
        for row in CLEARANCE_METRIC.iter().chain(CLEARANCE_INCH) {
            let [close, medium, free] = row.holes;
            assert!(row.screw < close && close < medium && medium < free, "{row:?}");
        }
        assert_eq!(clearance(Ratio::whole(8), Fit::Medium), Some(Ratio::whole(9)));
        assert_eq!(clearance(Ratio::of(127, 20), Fit::Close), Some(Ratio::of(2656 * 127, 50_000)));
        assert_eq!(clearance(Ratio::of(77, 10), Fit::Close), None);
    }
}
