//! Heads that sink into the work: cap heads in a counterbore, flat heads in a countersink.

use super::HoleError;
use crate::exact::Ratio;
use libm::tan;

/// Metric sizes are in hundredths of a millimetre, inch sizes in ten-thousandths of an inch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HeadSeries {
    /// Metric.
    Metric,
    /// Inch.
    Inch,
}

impl HeadSeries {
    fn mm(self, value: u16) -> Ratio {
        match self {
            HeadSeries::Metric => Ratio::of(i64::from(value), 100),
            // 127/5 mm in an inch, by ten-thousandths.
            HeadSeries::Inch => Ratio::of(i64::from(value).saturating_mul(127), 50_000),
        }
    }
}

/// A socket head cap screw's head.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CapHead {
    /// Of the figures.
    pub series: HeadSeries,
    /// Nominal diameter.
    pub screw: u16,
    /// Greatest head diameter, plain.
    pub head: u16,
    /// Greatest head diameter, knurled; the same where the standard has one figure.
    pub knurled: u16,
    /// Greatest head height.
    pub height: u16,
    /// Across the flats of the key; metric in hundredths, inch in ten-thousandths.
    pub key: u16,
}

impl CapHead {
    /// The widest that the head may be, mm.
    #[must_use]
    pub fn head_mm(&self) -> Ratio {
        self.series.mm(self.knurled.max(self.head))
    }

    /// The tallest that the head may be, mm.
    #[must_use]
    pub fn height_mm(&self) -> Ratio {
        self.series.mm(self.height)
    }

    /// The key, mm.
    #[must_use]
    pub fn key_mm(&self) -> Ratio {
        self.series.mm(self.key)
    }
}

const fn metric(screw: u16, head: u16, knurled: u16, height: u16, key: u16) -> CapHead {
    CapHead { series: HeadSeries::Metric, screw, head, knurled, height, key }
}

const fn inch(screw: u16, head: u16, key: u16) -> CapHead {
    // The head is as tall as the screw is thick.
    CapHead { series: HeadSeries::Inch, screw, head, knurled: head, height: screw, key }
}

/// ISO 4762 Table 1 (M18 and M22, which it lacks, from memory of DIN 912), then ASME B18.3.
#[rustfmt::skip]
pub const CAP_HEADS: &[CapHead] = &[
    metric( 160,  300,  314,  160,  150), metric( 200,  380,  398,  200,  150),
    metric( 250,  450,  468,  250,  200), metric( 300,  550,  568,  300,  250),
    metric( 400,  700,  722,  400,  300), metric( 500,  850,  872,  500,  400),
    metric( 600, 1000, 1022,  600,  500), metric( 800, 1300, 1327,  800,  600),
    metric(1000, 1600, 1627, 1000,  800), metric(1200, 1800, 1827, 1200, 1000),
    metric(1400, 2100, 2133, 1400, 1200), metric(1600, 2400, 2433, 1600, 1400),
    metric(1800, 2700, 2733, 1800, 1400), metric(2000, 3000, 3033, 2000, 1700),
    metric(2200, 3300, 3339, 2200, 1700), metric(2400, 3600, 3639, 2400, 1900),
    metric(3000, 4500, 4539, 3000, 2200), metric(3600, 5400, 5446, 3600, 2700),
    inch( 600,   960,  500), inch( 730,  1180,  625), inch( 860,  1400,  781),
    inch( 990,  1610,  781), inch(1120,  1830,  938), inch(1250,  2050,  938),
    inch(1380,  2260, 1094), inch(1640,  2700, 1406), inch(1900,  3120, 1563),
    inch(2500,  3750, 1875), inch(3125,  4690, 2500), inch(3750,  5620, 3125),
    inch(4375,  6560, 3750), inch(5000,  7500, 3750), inch(6250,  9380, 5000),
    inch(7500, 11250, 6250), inch(8750, 13120, 7500), inch(10000, 15000, 7500),
];

/// A counterbore's diameter for a cap head without a washer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Counterbore {
    /// Of the figures.
    pub series: HeadSeries,
    /// Nominal diameter of the screw.
    pub screw: u16,
    /// Diameter of the counterbore.
    pub bore: u16,
    /// Who says so.
    pub source: &'static str,
}

impl Counterbore {
    /// Its diameter, mm.
    #[must_use]
    pub fn mm(&self) -> Ratio {
        self.series.mm(self.bore)
    }
}

const DIN_974: &str = "DIN 974-1 series 1";
const DIN_974_2008: &str = "DIN 974-1:2008 series 1, from memory";
const DIN_74: &str = "DIN 974-1 series 1 as an open CAD program has it (the older DIN 74)";
const B18_3: &str = "ASME B18.3, counterbore for socket head cap screws, from memory";

const fn bore(screw: u16, bore: u16, source: &'static str) -> Counterbore {
    Counterbore { series: HeadSeries::Metric, screw, bore, source }
}

const fn bore_inch(screw: u16, bore: u16) -> Counterbore {
    Counterbore { series: HeadSeries::Inch, screw, bore, source: B18_3 }
}

/// Counterbores; where two editions differ the newer stands first.
#[rustfmt::skip]
pub const COUNTERBORES: &[Counterbore] = &[
    bore( 160,  350, DIN_974), bore( 200,  440, DIN_974_2008), bore( 200,  430, DIN_74),
    bore( 250,  550, DIN_974_2008), bore( 300,  650, DIN_974_2008), bore( 300,  600, DIN_74),
    bore( 400,  800, DIN_974), bore( 500, 1000, DIN_974), bore( 600, 1100, DIN_974),
    bore( 800, 1500, DIN_974), bore(1000, 1800, DIN_974), bore(1200, 2000, DIN_974),
    bore(1400, 2400, DIN_974_2008), bore(1600, 2600, DIN_974), bore(1800, 3000, DIN_974_2008), bore(2000, 3300, DIN_974),
    bore(2200, 3600, DIN_974_2008), bore(2400, 4000, DIN_974), bore(3000, 5000, DIN_974_2008), bore(3600, 5800, DIN_974_2008),
    bore_inch( 600,  1250), bore_inch( 730,  1563), bore_inch( 860,  1875), bore_inch( 990,  2188),
    bore_inch(1120,  2188), bore_inch(1250,  2500), bore_inch(1380,  2813), bore_inch(1640,  3125),
    bore_inch(1900,  3750), bore_inch(2500,  4375), bore_inch(3125,  5313), bore_inch(3750,  6250),
    bore_inch(4375,  7188), bore_inch(5000,  8125), bore_inch(6250, 10000), bore_inch(7500, 11875),
    bore_inch(8750, 13750), bore_inch(10000, 16250),
];

/// A flat head's cone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CountersunkHead {
    /// Nominal diameter, hundredths of a millimetre.
    pub screw: u16,
    /// Diameter at which the cone would come to a sharp edge, greatest, hundredths.
    pub sharp: u16,
    /// Real diameter of the head, greatest, hundredths, where it is tabled.
    pub head: Option<u16>,
    /// Height, greatest, hundredths, where it is tabled.
    pub height: Option<u16>,
    /// The hexagon key, hundredths, where it takes one.
    pub key: Option<u16>,
    /// Whether it takes a hexagon key (ISO 10642) or a cross recess or slot (ISO 7046, ISO 2009).
    pub hexagon: bool,
}

impl CountersunkHead {
    /// The diameter that a countersink must open to at the surface for the head to lie flush, mm.
    #[must_use]
    pub fn sharp_mm(&self) -> Ratio {
        HeadSeries::Metric.mm(self.sharp)
    }

    /// The hexagon key, mm, where it takes one.
    #[must_use]
    pub fn key_mm(&self) -> Option<Ratio> {
        self.key.map(|key| HeadSeries::Metric.mm(key))
    }
}

const fn hexagon(screw: u16, sharp: u16, height: u16, key: u16) -> CountersunkHead {
    CountersunkHead {
        screw,
        sharp,
        head: None,
        height: Some(height),
        key: Some(key),
        hexagon: true,
    }
}

const fn slotted(screw: u16, sharp: u16, head: u16) -> CountersunkHead {
    CountersunkHead { screw, sharp, head: Some(head), height: None, key: None, hexagon: false }
}

/// ISO 10642 Table 1 with its keys (those of M3, M4, M12, M14 and M16 from memory), then ISO 7046-1 /
/// ISO 2009, all of 90°. The real diameters of the latter are from memory.
#[rustfmt::skip]
pub const COUNTERSUNK_HEADS: &[CountersunkHead] = &[
    hexagon( 200,  409,  124,  130), hexagon( 250,  508,  155,  150), hexagon( 300,  672,  186,  200),
    hexagon( 400,  896,  248,  250), hexagon( 500, 1120,  310,  300), hexagon( 600, 1344,  372,  400),
    hexagon( 800, 1792,  496,  500), hexagon(1000, 2240,  620,  600), hexagon(1200, 2688,  744,  800),
    hexagon(1400, 3080,  840, 1000), hexagon(1600, 3360,  880, 1000), hexagon(2000, 4032, 1016, 1200),
    slotted( 160,  360,  300), slotted( 200,  440,  380), slotted( 250,  550,  470),
    slotted( 300,  630,  550), slotted( 350,  820,  730), slotted( 400,  940,  840),
    slotted( 500, 1040,  930), slotted( 600, 1260, 1130), slotted( 800, 1730, 1580),
    slotted(1000, 2000, 1830),
];

/// The cap head of a screw of this nominal diameter, mm.
#[must_use]
pub fn cap_head(screw_mm: Ratio) -> Option<&'static CapHead> {
    CAP_HEADS.iter().find(|head| head.series.mm(head.screw) == screw_mm)
}

/// The counterbore of a screw of this nominal diameter, mm: the first of the books.
#[must_use]
pub fn counterbore(screw_mm: Ratio) -> Option<&'static Counterbore> {
    COUNTERBORES.iter().find(|bore| bore.series.mm(bore.screw) == screw_mm)
}

/// The flat head of a screw of this nominal diameter, mm.
#[must_use]
pub fn countersunk_head(screw_mm: Ratio, hexagon: bool) -> Option<&'static CountersunkHead> {
    COUNTERSUNK_HEADS
        .iter()
        .find(|head| head.hexagon == hexagon && HeadSeries::Metric.mm(head.screw) == screw_mm)
}

/// How deep a counterbore goes, mm: the tallest head and `below_mm`.
///
/// Without a `below_mm` of your own DIN 974-1 adds 0.2 mm up to M1.4, 0.3 up to M2, 0.4 up to M6,
/// 0.6 up to M20, 0.8 up to M27, then 1 mm (additions from memory); an inch head lies flush.
///
/// # Errors
///
/// [`HoleError::TooLarge`].
pub fn counterbore_depth(head: &CapHead, below_mm: Option<Ratio>) -> Result<Ratio, HoleError> {
    let usual = match (head.series, head.screw) {
        (HeadSeries::Inch, _) => 0,
        (_, ..=140) => 2,
        (_, ..=200) => 3,
        (_, ..=600) => 4,
        (_, ..=2000) => 6,
        (_, ..=2700) => 8,
        _ => 10,
    };
    Ok(head.height_mm().add(below_mm.unwrap_or(Ratio::of(usual, 10)))?)
}

fn half_tangent(angle_deg: Ratio) -> Result<f64, HoleError> {
    if !angle_deg.is_positive() || angle_deg >= Ratio::whole(180) {
        return Err(HoleError::NoPoint);
    }
    Ok(tan((angle_deg.to_f64() / 2.0).to_radians()))
}

/// How wide a countersink opens at the surface, mm, for a head of sharp diameter `sharp_mm` to lie
/// `below_mm` under it: D + 2 b tan(angle / 2).
///
/// # Errors
///
/// [`HoleError::NoPoint`].
pub fn countersink_diameter(
    sharp_mm: Ratio,
    below_mm: Ratio,
    angle_deg: Ratio,
) -> Result<f64, HoleError> {
    Ok(sharp_mm.to_f64() + 2.0 * below_mm.to_f64() * half_tangent(angle_deg)?)
}

/// How far a countersink goes on after it first touches the rim of the hole, mm:
/// (D − d) / 2 / tan(angle / 2).
///
/// # Errors
///
/// [`HoleError::NoPoint`], [`HoleError::NoWall`] where the hole is the wider.
pub fn countersink_depth(
    opening_mm: f64,
    hole_mm: Ratio,
    angle_deg: Ratio,
) -> Result<f64, HoleError> {
    let wider = opening_mm - hole_mm.to_f64();
    if !(wider.is_finite() && wider >= 0.0) {
        return Err(HoleError::NoWall);
    }
    Ok(wider / 2.0 / half_tangent(angle_deg)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_counterbore_takes_its_head() {
        for bore in COUNTERBORES {
            let head = cap_head(bore.series.mm(bore.screw)).unwrap();
            assert!(bore.mm() > head.head_mm(), "{bore:?} {head:?}");
        }
        for head in CAP_HEADS {
            let screw = head.series.mm(head.screw);
            assert!(counterbore(screw).is_some(), "{head:?}");
            let depth = counterbore_depth(head, None).unwrap();
            assert!(depth >= head.height_mm());
            let flush = counterbore_depth(head, Some(Ratio::ZERO)).unwrap();
            assert_eq!(flush, head.height_mm());
        }
    }

    #[test]
    fn deeper_opens_wider() {
        let sharp = countersunk_head(Ratio::whole(6), true).unwrap().sharp_mm();
        let ninety = Ratio::whole(90);
        let flush = countersink_diameter(sharp, Ratio::ZERO, ninety).unwrap();
        let below = countersink_diameter(sharp, Ratio::of(1, 2), ninety).unwrap();
        assert!((flush - 13.44).abs() < 1e-9 && (below - 14.44).abs() < 1e-9);
        assert_eq!(countersink_diameter(sharp, Ratio::ZERO, Ratio::ZERO), Err(HoleError::NoPoint));
        let narrow = countersink_depth(5.0, Ratio::whole(6), ninety);
        assert_eq!(narrow, Err(HoleError::NoWall));
    }
}
