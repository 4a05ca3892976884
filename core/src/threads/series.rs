//! The standard sizes: which pitches belong to which diameters.

use alloc::vec::Vec;

use super::designation::Designation;
use super::lead::{INCH, Lead};
use crate::exact::Ratio;

/// Which standard a thread is taken from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Series {
    /// ISO metric, coarse, fine or of any other pitch (ISO 261).
    Metric,
    /// Unified coarse (ASME B1.1).
    Unc,
    /// Unified fine (ASME B1.1).
    Unf,
    /// Unified extra fine (ASME B1.1).
    Unef,
    /// Unified, 8 threads per inch (ASME B1.1).
    Un8,
    /// Unified, 12 threads per inch (ASME B1.1).
    Un12,
    /// Unified, 16 threads per inch (ASME B1.1).
    Un16,
    /// Unified of a special diameter or pitch (ASME B1.1).
    Uns,
    /// Standard Whitworth (BS 84).
    Bsw,
    /// Standard fine of Whitworth form (BS 84).
    Bsf,
    /// Whitworth form of a special diameter or pitch (BS 84).
    Whitworth,
    /// Parallel pipe of Whitworth form (ISO 228).
    Pipe,
    /// BA (BS 93).
    Ba,
    /// ISO metric trapezoidal (ISO 2904).
    Trapezoidal,
    /// Acme (ASME B1.5).
    Acme,
    /// Stub Acme (ASME B1.8).
    StubAcme,
    /// Model engineers', Whitworth form (common practice; its lists differ).
    ModelEngineer,
    /// Brass thread: 26 threads per inch at every diameter, Whitworth form (no standard).
    Brass,
    /// Cycle thread, 60° with rounded crests and roots (BS 811).
    Cycle,
    /// A worm by its module.
    Module,
    /// A worm by its diametral pitch.
    DiametralPitch,
    /// A bare lead, its form left open.
    Plain,
}

use Series::{
    Acme, Ba, Brass, Bsf, Bsw, Cycle, Metric, ModelEngineer, Pipe, StubAcme, Trapezoidal, Un8,
    Un12, Un16, Unc, Unef, Unf,
};

/// The trade's name of a series, as it stands in a designation.
impl Series {
    /// Whether it is one of the unified, ASME B1.1.
    pub(crate) const fn is_unified(self) -> bool {
        matches!(self, Unc | Unf | Unef | Un8 | Un12 | Un16 | Series::Uns)
    }

    /// Whether its sizes are named in inches.
    pub(super) const fn is_inch(self) -> bool {
        self.is_unified()
            || matches!(
                self,
                Bsw | Bsf
                    | Series::Whitworth
                    | Pipe
                    | Acme
                    | StubAcme
                    | ModelEngineer
                    | Brass
                    | Cycle
            )
    }

    /// What tells it from another of the same size and pitch: `"60°"`, `"55°, model engineers'"`.
    #[must_use]
    pub const fn told_by(self) -> &'static str {
        match self {
            Bsw | Bsf | Series::Whitworth => "55°",
            ModelEngineer => "55°, model engineers'",
            Brass => "55°, brass tube and fittings",
            Cycle => "60°, rounded, cycles",
            Pipe => "55°, a pipe's size",
            Ba => "47½°",
            Trapezoidal => "30°",
            Acme => "29°",
            StubAcme => "29°, shallow",
            Series::Module | Series::DiametralPitch => "a worm",
            Series::Plain => "",
            _ => "60°",
        }
    }

    /// `"UNC"`, `"BSF"`, `"Tr"`; empty for a bare lead.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Metric => "M",
            Unc => "UNC",
            Unf => "UNF",
            Unef => "UNEF",
            Un8 => "8-UN",
            Un12 => "12-UN",
            Un16 => "16-UN",
            Series::Uns => "UNS",
            Bsw => "BSW",
            Bsf => "BSF",
            Series::Whitworth => "Whit",
            Pipe => "G",
            Ba => "BA",
            Trapezoidal => "Tr",
            Acme => "Acme",
            StubAcme => "Stub Acme",
            ModelEngineer => "ME",
            Brass => "Brass",
            Cycle => "BSC",
            Series::Module => "module",
            Series::DiametralPitch => "DP",
            Series::Plain => "",
        }
    }

    /// The standard that says so.
    #[must_use]
    pub const fn standard(self) -> &'static str {
        match self {
            Metric => "ISO 261",
            Unc | Unf | Unef | Un8 | Un12 | Un16 | Series::Uns => "ASME B1.1",
            Bsw | Bsf | Series::Whitworth => "BS 84",
            Pipe => "ISO 228-1",
            Ba => "BS 93",
            Trapezoidal => "ISO 2904",
            Acme => "ASME B1.5",
            StubAcme => "ASME B1.8",
            ModelEngineer | Brass => "common practice",
            Cycle => "BS 811",
            Series::Module | Series::DiametralPitch => "pitch = π × module = π / DP",
            Series::Plain => "",
        }
    }
}

/// Diameter in 0.01 mm; pitches in µm, the coarse one first (0 where there is none).
/// Source: ISO 261 general plan, first to third choice, M1 to M68 (from memory; up to M36 every
/// pair stands in the open table of threadlib too).
#[rustfmt::skip]
const METRIC: &[(u16, &[u16])] = &[
    (100, &[250, 200]), (110, &[250, 200]), (120, &[250, 200]), (140, &[300, 200]),
    (160, &[350, 200]), (180, &[350, 200]), (200, &[400, 250]), (220, &[450, 250]),
    (250, &[450, 350]), (300, &[500, 350]), (350, &[600, 350]), (400, &[700, 500]),
    (450, &[750, 500]), (500, &[800, 500]), (550, &[0, 500]), (600, &[1000, 750]),
    (700, &[1000, 750]), (800, &[1250, 1000, 750]), (900, &[1250, 1000, 750]),
    (1000, &[1500, 1250, 1000, 750]), (1100, &[1500, 1000, 750]),
    (1200, &[1750, 1500, 1250, 1000]), (1400, &[2000, 1500, 1250, 1000]),
    (1500, &[0, 1500, 1000]), (1600, &[2000, 1500, 1000]), (1700, &[0, 1500, 1000]),
    (1800, &[2500, 2000, 1500, 1000]), (2000, &[2500, 2000, 1500, 1000]),
    (2200, &[2500, 2000, 1500, 1000]), (2400, &[3000, 2000, 1500, 1000]),
    (2500, &[0, 2000, 1500, 1000]), (2600, &[0, 1500]), (2700, &[3000, 2000, 1500, 1000]),
    (2800, &[0, 2000, 1500, 1000]), (3000, &[3500, 3000, 2000, 1500, 1000]),
    (3200, &[0, 2000, 1500]), (3300, &[3500, 3000, 2000, 1500]), (3500, &[0, 1500]),
    (3600, &[4000, 3000, 2000, 1500]), (3800, &[0, 1500]), (3900, &[4000, 3000, 2000, 1500]),
    (4000, &[0, 3000, 2000, 1500]), (4200, &[4500, 4000, 3000, 2000, 1500]),
    (4500, &[4500, 4000, 3000, 2000, 1500]), (4800, &[5000, 4000, 3000, 2000, 1500]),
    (5000, &[0, 3000, 2000, 1500]), (5200, &[5000, 4000, 3000, 2000, 1500]),
    (5500, &[0, 4000, 3000, 2000, 1500]), (5600, &[5500, 4000, 3000, 2000, 1500]),
    (5800, &[0, 4000, 3000, 2000, 1500]), (6000, &[5500, 4000, 3000, 2000, 1500]),
    (6200, &[0, 4000, 3000, 2000, 1500]), (6400, &[6000, 4000, 3000, 2000, 1500]),
    (6500, &[0, 4000, 3000, 2000, 1500]), (6800, &[6000, 4000, 3000, 2000, 1500]),
];

/// The Unified series in the order of the columns of [`UNIFIED`].
const UNIFIED_SERIES: [Series; 6] = [Unc, Unf, Unef, Un8, Un12, Un16];

/// Diameter in 0.00001 in; half-threads per inch of UNC, UNF, UNEF, 8-UN, 12-UN, 16-UN
/// (0 where there is none, or where the pitch already stands under UNC or UNF).
/// Source: ASME B1.1 Table 1 (from memory; UNC and UNF up to 1 in checked against FED-STD-H28/2B).
#[rustfmt::skip]
const UNIFIED: &[(u32, [u8; 6])] = &[
    (6_000, [0, 160, 0, 0, 0, 0]), (7_300, [128, 144, 0, 0, 0, 0]), (8_600, [112, 128, 0, 0, 0, 0]),
    (9_900, [96, 112, 0, 0, 0, 0]), (11_200, [80, 96, 0, 0, 0, 0]), (12_500, [80, 88, 0, 0, 0, 0]),
    (13_800, [64, 80, 0, 0, 0, 0]), (16_400, [64, 72, 0, 0, 0, 0]), (19_000, [48, 64, 0, 0, 0, 0]),
    (21_600, [48, 56, 64, 0, 0, 0]),
    (25_000, [40, 56, 64, 0, 0, 0]), (31_250, [36, 48, 64, 0, 0, 0]),
    (37_500, [32, 48, 64, 0, 0, 0]), (43_750, [28, 40, 56, 0, 0, 32]),
    (50_000, [26, 40, 56, 0, 0, 32]), (56_250, [24, 36, 48, 0, 0, 32]),
    (62_500, [22, 36, 48, 0, 24, 32]), (68_750, [0, 0, 48, 0, 24, 32]),
    (75_000, [20, 32, 40, 0, 24, 0]), (81_250, [0, 0, 40, 0, 24, 32]),
    (87_500, [18, 28, 40, 0, 24, 32]), (93_750, [0, 0, 40, 0, 24, 32]),
    (100_000, [16, 24, 40, 0, 0, 32]), (106_250, [0, 0, 36, 16, 24, 32]),
    (112_500, [14, 24, 36, 16, 0, 32]), (118_750, [0, 0, 36, 16, 24, 32]),
    (125_000, [14, 24, 36, 16, 0, 32]), (131_250, [0, 0, 36, 16, 24, 32]),
    (137_500, [12, 24, 36, 16, 0, 32]), (143_750, [0, 0, 36, 16, 24, 32]),
    (150_000, [12, 24, 36, 16, 0, 32]), (156_250, [0, 0, 36, 16, 24, 32]),
    (162_500, [0, 0, 36, 16, 24, 32]), (168_750, [0, 0, 36, 16, 24, 32]),
    (175_000, [10, 0, 0, 16, 24, 32]), (181_250, [0, 0, 0, 16, 24, 32]),
    (187_500, [0, 0, 0, 16, 24, 32]), (193_750, [0, 0, 0, 16, 24, 32]),
    (200_000, [9, 0, 0, 16, 24, 32]), (212_500, [0, 0, 0, 16, 24, 32]),
    (225_000, [9, 0, 0, 16, 24, 32]), (237_500, [0, 0, 0, 16, 24, 32]),
    (250_000, [8, 0, 0, 16, 24, 32]), (262_500, [0, 0, 0, 16, 24, 32]),
    (275_000, [8, 0, 0, 16, 24, 32]), (287_500, [0, 0, 0, 16, 24, 32]),
    (300_000, [8, 0, 0, 16, 24, 32]), (325_000, [8, 0, 0, 16, 24, 32]),
    (350_000, [8, 0, 0, 16, 24, 32]), (375_000, [8, 0, 0, 16, 24, 32]),
    (400_000, [8, 0, 0, 16, 24, 32]),
];

/// Diameter in 0.00001 in, half-threads per inch.
/// Source: BS 84 (from memory; 1/8 to 1 in checked against the reference table; the sizes below
/// 1/8 and 5/32, 7/32, 13/16, 15/16 and 1 3/8, 1 5/8 in are of the older lists).
#[rustfmt::skip]
const BSW: &[(u32, u8)] = &[
    (6_250, 120), (9_375, 96), (12_500, 80), (15_625, 64), (18_750, 48), (21_875, 48),
    (25_000, 40), (31_250, 36), (37_500, 32), (43_750, 28), (50_000, 24), (56_250, 24),
    (62_500, 22), (68_750, 22), (75_000, 20), (81_250, 20), (87_500, 18), (93_750, 18),
    (100_000, 16), (112_500, 14), (125_000, 14), (137_500, 12), (150_000, 12), (162_500, 10),
    (175_000, 10), (200_000, 9), (225_000, 8), (250_000, 8), (275_000, 7), (300_000, 7),
];

/// Diameter in 0.00001 in, half-threads per inch. Source: BS 84 (as above).
#[rustfmt::skip]
const BSF: &[(u32, u8)] = &[
    (18_750, 64), (21_875, 56), (25_000, 52), (28_125, 52), (31_250, 44), (37_500, 40),
    (43_750, 36), (50_000, 32), (56_250, 32), (62_500, 28), (68_750, 28), (75_000, 24),
    (81_250, 24), (87_500, 22), (100_000, 20), (112_500, 18), (125_000, 18), (137_500, 16),
    (150_000, 16), (162_500, 16), (175_000, 14), (200_000, 14), (225_000, 12), (250_000, 12),
    (275_000, 12), (300_000, 10),
];

/// Size in sixteenths of an inch, threads per inch, major diameter in µm.
/// Source: ISO 228-1 Table 1 as in the open table of bd-warehouse 0.4.0 (Apache-2.0).
#[rustfmt::skip]
const PIPE: &[(u8, u8, u32)] = &[
    (1, 28, 7_723), (2, 28, 9_728), (4, 19, 13_157), (6, 19, 16_662), (8, 14, 20_955),
    (10, 14, 22_911), (12, 14, 26_441), (14, 14, 30_201), (16, 11, 33_249), (18, 11, 37_897),
    (20, 11, 41_910), (24, 11, 47_803), (28, 11, 53_746), (32, 11, 59_614), (36, 11, 65_710),
    (40, 11, 75_184), (44, 11, 81_534), (48, 11, 87_884), (56, 11, 100_330), (64, 11, 113_030),
    (72, 11, 125_730), (80, 11, 138_430), (88, 11, 151_130), (96, 11, 163_830),
];

/// BA number by place: diameter and pitch in 0.01 mm. Source: BS 93 (from memory; the minor
/// diameters of eight sizes are checked against the reference table).
#[rustfmt::skip]
const BA: [(u16, u8); 17] = [
    (600, 100), (530, 90), (470, 81), (410, 73), (360, 66), (320, 59), (280, 53), (250, 48),
    (220, 43), (190, 39), (170, 35), (150, 31), (130, 28), (120, 25), (100, 23), (90, 21), (79, 19),
];

/// Diameter in mm; pitches in 0.1 mm, the preferred one first.
/// Source: ISO 2904 Table 1 (from memory; checked pair by pair against an
/// open table, whose 16, 18 and 20 × 3 the standard hasn't).
#[rustfmt::skip]
const TRAPEZOIDAL: &[(u8, &[u8])] = &[
    (8, &[15]), (9, &[20, 15]), (10, &[20, 15]), (11, &[20, 30]), (12, &[30, 20]), (14, &[30, 20]),
    (16, &[40, 20]), (18, &[40, 20]), (20, &[40, 20]), (22, &[50, 30, 80]), (24, &[50, 30, 80]),
    (26, &[50, 30, 80]), (28, &[50, 30, 80]), (30, &[60, 30, 100]), (32, &[60, 30, 100]),
    (34, &[60, 30, 100]), (36, &[60, 30, 100]), (38, &[70, 30, 100]), (40, &[70, 30, 100]),
    (42, &[70, 30, 100]), (44, &[70, 30, 120]), (46, &[80, 30, 120]), (48, &[80, 30, 120]),
    (50, &[80, 30, 120]), (52, &[80, 30, 120]), (55, &[90, 30, 140]), (60, &[90, 30, 140]),
    (65, &[100, 40, 160]), (70, &[100, 40, 160]), (75, &[100, 40, 160]), (80, &[100, 40, 160]),
    (85, &[120, 40, 180]), (90, &[120, 40, 180]), (95, &[120, 40, 180]), (100, &[120, 40, 200]),
];

/// Diameter in sixteenths of an inch, threads per inch; stub Acme has the same.
/// Source: ASME B1.5 and B1.8, preferred series (from memory; fourteen of them as in the open
/// table of bd-warehouse 0.4.0).
#[rustfmt::skip]
const ACME: &[(u8, u8)] = &[
    (4, 16), (5, 14), (6, 12), (7, 12), (8, 10), (10, 8), (12, 6), (14, 6), (16, 5), (18, 5),
    (20, 5), (22, 4), (24, 4), (28, 4), (32, 4), (36, 3), (40, 3), (44, 3), (48, 2), (56, 2),
    (64, 2), (72, 2), (80, 2),
];

/// Diameter in thirty-seconds of an inch, threads per inch.
/// Source: sizes that hobby and trade lists of model engineers' threads agree on; common practice.
#[rustfmt::skip]
const MODEL_ENGINEER: &[(u8, u8)] = &[
    (4, 40), (5, 40), (6, 40), (7, 40), (8, 40), (8, 32), (10, 32), (12, 32), (14, 32), (16, 32),
];

/// Diameter in sixteenths of an inch; each has 26 threads per inch.
/// Source: public tables of brass threads; no British Standard exists for them.
const BRASS: &[u8] = &[2, 3, 4, 5, 6, 7, 8, 10, 12, 14, 16, 20, 24];

/// Diameter in millionths of an inch, threads per inch.
/// Source: BS 811 (a public table of it; 1/8 and 3/16 from memory; 1.370 is a bottom bracket's).
#[rustfmt::skip]
const CYCLE: &[(u32, u8)] = &[
    (125_000, 40), (187_500, 32), (250_000, 26), (312_500, 26), (375_000, 26), (437_500, 26),
    (500_000, 26), (562_500, 26), (625_000, 26), (687_500, 26), (750_000, 26), (1_000_000, 26),
    (1_370_000, 24),
];

/// Modules in 0.05 mm. Source: ISO 54 series I, with 0.75, from 0.3 to 6 (from memory).
const MODULES: &[u8] = &[6, 8, 10, 12, 15, 16, 20, 25, 30, 40, 50, 60, 80, 100, 120];

/// Diametral pitches. Source: common practice, no source.
const DPS: &[u8] = &[64, 48, 40, 32, 24, 20, 16, 12, 10, 8, 6];

/// A thread whose size is in inches; `None` only if the numbers are out of all reason.
pub(super) fn inch_thread(series: Series, size: Ratio, tpi: Ratio) -> Option<Designation> {
    let diameter = size.mul(INCH).ok()?;
    Some(Designation::new(series, size, Some(diameter), Lead::of_tpi(tpi).ok()?))
}

/// A thread whose size is in millimetres.
pub(super) fn metric_thread(series: Series, size: Ratio, pitch: Ratio) -> Designation {
    Designation::new(series, size, Some(size), Lead::of_mm(pitch))
}

/// A worm by its module in mm: pitch π × module. Its outside diameter is left open.
pub(super) fn module_worm(module: Ratio) -> Designation {
    Designation::new(Series::Module, module, None, Lead::of_pi_mm(module))
}

/// A worm by its diametral pitch: pitch π × 25.4 / DP.
pub(super) fn dp_worm(dp: Ratio) -> Option<Designation> {
    let module = INCH.div(dp).ok()?;
    Some(Designation::new(Series::DiametralPitch, dp, None, Lead::of_pi_mm(module)))
}

/// The parallel pipe thread of this size in inches.
pub(super) fn pipe(size: Ratio) -> Option<Designation> {
    of_size(Pipe, size).first().copied()
}

/// The BA thread of this number.
pub(super) fn ba(number: Ratio) -> Option<Designation> {
    of_size(Ba, number).first().copied()
}

/// A size as a whole number of so many parts, where it is one.
fn key(size: Ratio, parts: i64) -> Option<u32> {
    let key = size.mul(Ratio::whole(parts)).ok()?;
    if key.is_whole() { u32::try_from(key.numer()).ok() } else { None }
}

/// Calls with each row of a series: the size in parts of what its name counts, a pitch as the table
/// has it, and a diameter where the table has that too.
fn rows(series: Series, call: &mut dyn FnMut(u32, u32, u32)) {
    match series {
        Metric => METRIC.iter().for_each(|(size, pitches)| {
            pitches.iter().for_each(|pitch| call(u32::from(*size), u32::from(*pitch), 0));
        }),
        Trapezoidal => TRAPEZOIDAL.iter().for_each(|(size, pitches)| {
            pitches.iter().for_each(|pitch| call(u32::from(*size), u32::from(*pitch), 0));
        }),
        Unc | Unf | Unef | Un8 | Un12 | Un16 => UNIFIED.iter().for_each(|(size, pitches)| {
            let column = UNIFIED_SERIES.iter().position(|s| *s == series);
            let half_tpi = column.and_then(|column| pitches.get(column)).copied();
            call(*size, u32::from(half_tpi.unwrap_or(0)), 0);
        }),
        Bsw => BSW.iter().for_each(|(size, half_tpi)| call(*size, u32::from(*half_tpi), 0)),
        Bsf => BSF.iter().for_each(|(size, half_tpi)| call(*size, u32::from(*half_tpi), 0)),
        Acme | StubAcme => {
            ACME.iter().for_each(|(size, tpi)| call(u32::from(*size), u32::from(*tpi), 0));
        }
        Pipe => {
            PIPE.iter().for_each(|(size, tpi, um)| call(u32::from(*size), u32::from(*tpi), *um))
        }
        Ba => (0..).zip(BA).for_each(|(number, (diameter, pitch))| {
            call(number, u32::from(pitch), u32::from(diameter));
        }),
        ModelEngineer => {
            MODEL_ENGINEER.iter().for_each(|(size, tpi)| call((*size).into(), (*tpi).into(), 0));
        }
        Brass => BRASS.iter().for_each(|size| call((*size).into(), 26, 0)),
        Cycle => CYCLE.iter().for_each(|(size, tpi)| call(*size, (*tpi).into(), 0)),
        Series::Module => MODULES.iter().for_each(|module| call(u32::from(*module), 1, 0)),
        Series::DiametralPitch => DPS.iter().for_each(|dp| call(u32::from(*dp), 1, 0)),
        Series::Uns | Series::Whitworth | Series::Plain => {}
    }
}

/// What the sizes of a series' table are counted in: so many to one of what the name counts.
const fn parts(series: Series) -> i64 {
    match series {
        Metric => 100,
        Unc | Unf | Unef | Un8 | Un12 | Un16 | Bsw | Bsf => 100_000,
        Pipe | Acme | StubAcme | Brass => 16,
        ModelEngineer => 32,
        Cycle => 1_000_000,
        Series::Module => 20,
        _ => 1,
    }
}

/// The thread of one row.
fn thread(series: Series, size: Ratio, pitch: u32, diameter: u32) -> Option<Designation> {
    let of = |parts: i64| Ratio::of(i64::from(pitch), parts);
    Some(match series {
        Metric => metric_thread(series, size, of(1000)),
        Trapezoidal => metric_thread(series, size, of(10)),
        Pipe => Designation {
            diameter: Some(Ratio::of(i64::from(diameter), 1000)),
            ..inch_thread(series, size, of(1))?
        },
        Ba => Designation {
            diameter: Some(Ratio::of(i64::from(diameter), 100)),
            ..metric_thread(series, size, of(100))
        },
        Acme | StubAcme | ModelEngineer | Brass | Cycle => inch_thread(series, size, of(1))?,
        Series::Module => module_worm(size),
        Series::DiametralPitch => dp_worm(size)?,
        _ => inch_thread(series, size, of(2))?,
    })
}

/// Adds a series' threads, of one size (in the table's parts) or of all.
fn collect(series: Series, wanted: Option<u32>, all: &mut Vec<Designation>) {
    rows(series, &mut |size, pitch, diameter| {
        if pitch > 0 && wanted.is_none_or(|wanted| wanted == size) {
            let size = Ratio::of(i64::from(size), parts(series));
            all.extend(thread(series, size, pitch, diameter));
        }
    });
}

/// Every standard designation, series by series, each in order of size.
#[must_use]
pub fn standard() -> Vec<Designation> {
    let mut all = Vec::with_capacity(700);
    for series in [
        Metric,
        Unc,
        Unf,
        Bsw,
        Bsf,
        Pipe,
        Ba,
        Trapezoidal,
        Acme,
        Unef,
        Un8,
        Un12,
        Un16,
        StubAcme,
        Series::Module,
        Series::DiametralPitch,
    ] {
        collect(series, None, &mut all);
    }
    all
}

/// [`standard`], and after them those of lists that are no standard or not a chart's: model engineers',
/// brass and cycle threads. What a name could mean is looked for among them all.
#[must_use]
pub fn listed() -> Vec<Designation> {
    let mut all = standard();
    for series in [ModelEngineer, Brass, Cycle] {
        collect(series, None, &mut all);
    }
    all
}

/// The threads of all lists that a size in inches and so many threads per inch could mean, and special
/// ones of both forms where no list has that angle.
pub(super) fn meant(size: Ratio, tpi: Ratio) -> Vec<Designation> {
    let mut found: Vec<Designation> = listed()
        .into_iter()
        .filter(|d| d.size == size && d.tpi() == Some(tpi) && d.series.is_inch())
        .collect();
    for (special, kin) in [
        (Series::Uns, Series::is_unified as fn(Series) -> bool),
        (Series::Whitworth, |series| matches!(series, Bsw | Bsf | ModelEngineer | Brass)),
    ] {
        if !found.iter().any(|d| kin(d.series)) {
            found.extend(inch_thread(special, size, tpi));
        }
    }
    found
}

/// The threads that a series has for a size (as its designation names it), the first choice first.
///
/// Where a metric size has no coarse pitch the list begins with the coarsest fine one; [`coarse`]
/// tells the two apart.
#[must_use]
pub fn of_size(series: Series, size: Ratio) -> Vec<Designation> {
    let mut found = Vec::new();
    if let Some(key) = key(size, parts(series)) {
        collect(series, Some(key), &mut found);
    }
    found
}

/// The coarse metric pitch of a diameter, mm.
#[must_use]
pub fn coarse(diameter: Ratio) -> Option<Ratio> {
    let hundredths = key(diameter, 100)?;
    let row = METRIC.iter().find(|(d, _)| u32::from(*d) == hundredths)?;
    let pitch = *row.1.first()?;
    (pitch > 0).then(|| Ratio::of(i64::from(pitch), 1000))
}
