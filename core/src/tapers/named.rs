//! Tapers that have a name.

use super::{Taper, TaperError};
use crate::exact::Ratio;

/// What a taper is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Family {
    /// Morse: holds itself.
    Morse,
    /// Metric, 1 in 20: holds itself.
    Metric,
    /// 7 in 24: lets go by itself and needs a draw-bar.
    SevenIn24,
    /// Short, on the back of a drill chuck, by two diameters and a length in inches.
    DrillChuck,
    /// Short, cut from a Morse taper, on the back of a drill chuck.
    DrillChuckMorse,
}

impl Family {
    /// Whether it holds by friction alone.
    #[must_use]
    pub const fn holds_itself(self) -> bool {
        !matches!(self, Family::SevenIn24)
    }
}

/// A named taper with its sizes.
#[derive(Clone, Copy, Debug)]
pub struct NamedTaper {
    /// What a file calls it.
    pub id: &'static str,
    /// What it belongs to.
    pub family: Family,
    /// The diameter at the gauge line or large end, mm.
    pub large_mm: Ratio,
    /// From there to the small end of the plug, mm.
    pub length_mm: Ratio,
    /// Change of diameter over length, exactly as published.
    pub per_length: Ratio,
    /// Who says so.
    pub source: &'static str,
}

impl NamedTaper {
    /// As a taper.
    #[must_use]
    pub const fn taper(&self) -> Taper {
        Taper::PerLength(self.per_length)
    }

    /// The diameter at the small end, mm.
    ///
    /// # Errors
    ///
    /// [`TaperError`] never, for the rows of the table.
    pub fn small_mm(&self) -> Result<Ratio, TaperError> {
        self.taper().small_end(self.large_mm, self.length_mm)?.ok_or(TaperError::NotACone)
    }
}

const ISO_296: &str =
    "ISO 296:1991, plugs with a thread; as printed in a tool catalogue's table of taper standards";
const MORSE_7: &str = "Morse 7, inch standard (not in ISO 296); as printed in a tool catalogue's table of taper standards";
const ISO_296_MEMORY: &str = "ISO 296:1991; 1:20, sizes from memory";
const ISO_297_MEMORY: &str = "ISO 297; 7/24, sizes from memory";
const ISO_239_INCH: &str =
    "drill chuck tapers by two diameters and a length, in inches (ISO 239, second type), web table";
const ISO_239_MEMORY: &str = "ISO 239, first type: parts of Morse tapers; sizes from memory";

/// Thousandths of a millimetre, tenths of one, and one in so many thousandths.
const fn metric(
    id: &'static str,
    family: Family,
    large_um: i64,
    length_tenths: i64,
    one_in_thousandths: i64,
    source: &'static str,
) -> NamedTaper {
    NamedTaper {
        id,
        family,
        large_mm: Ratio::of(large_um, 1000),
        length_mm: Ratio::of(length_tenths, 10),
        per_length: Ratio::of(1000, one_in_thousandths),
        source,
    }
}

/// Both diameters and the length in hundred-thousandths of an inch.
const fn chuck(id: &'static str, large: i64, small: i64, length: i64) -> NamedTaper {
    NamedTaper {
        id,
        family: Family::DrillChuck,
        large_mm: hundred_thousandths(large),
        length_mm: hundred_thousandths(length),
        per_length: Ratio::of(large.saturating_sub(small), length),
        source: ISO_239_INCH,
    }
}

const fn hundred_thousandths(inches: i64) -> Ratio {
    match Ratio::of(inches, 100_000).mul(Ratio::of(127, 5)) {
        Ok(mm) => mm,
        Err(_) => Ratio::ZERO,
    }
}

use Family::{DrillChuckMorse as B, Metric, Morse, SevenIn24};

/// Every named taper.
#[rustfmt::skip]
pub const NAMED: &[NamedTaper] = &[
    metric("MT0", Morse,  9_045,   500, 19_212, ISO_296),
    metric("MT1", Morse, 12_065,   535, 20_047, ISO_296),
    metric("MT2", Morse, 17_780,   640, 20_020, ISO_296),
    metric("MT3", Morse, 23_825,   810, 19_922, ISO_296),
    metric("MT4", Morse, 31_267, 1_025, 19_254, ISO_296),
    metric("MT5", Morse, 44_399, 1_295, 19_002, ISO_296),
    metric("MT6", Morse, 63_348, 1_820, 19_180, ISO_296),
    metric("MT7", Morse, 83_058, 2_500, 19_231, MORSE_7),
    metric("metric 4",   Metric,   4_000,   230, 20_000, ISO_296_MEMORY),
    metric("metric 6",   Metric,   6_000,   320, 20_000, ISO_296_MEMORY),
    metric("metric 80",  Metric,  80_000, 1_960, 20_000, ISO_296_MEMORY),
    metric("metric 100", Metric, 100_000, 2_320, 20_000, ISO_296_MEMORY),
    metric("metric 120", Metric, 120_000, 2_680, 20_000, ISO_296_MEMORY),
    metric("metric 160", Metric, 160_000, 3_400, 20_000, ISO_296_MEMORY),
    metric("metric 200", Metric, 200_000, 4_120, 20_000, ISO_296_MEMORY),
    seven_24("7/24 no. 30",  31_750,   484),
    seven_24("7/24 no. 40",  44_450,   654),
    seven_24("7/24 no. 45",  57_150,   828),
    seven_24("7/24 no. 50",  69_850, 1_018),
    seven_24("7/24 no. 60", 107_950, 1_618),
    chuck("drill-chuck 0",        25_000,  22_844,  43_750),
    chuck("drill-chuck 1",        38_400,  33_341,  65_625),
    chuck("drill-chuck 2",        55_900,  48_764,  87_500),
    chuck("drill-chuck 2 short",  54_880,  48_764,  75_000),
    chuck("drill-chuck 3",        81_100,  74_610, 121_875),
    chuck("drill-chuck 4",       112_400, 103_720, 165_630),
    chuck("drill-chuck 5",       141_300, 131_610, 187_500),
    chuck("drill-chuck 6",        67_600,  62_410, 100_000),
    chuck("drill-chuck 33",       62_400,  56_050, 100_000),
    metric("B10", B, 10_094, 145, 20_047, ISO_239_MEMORY),
    metric("B12", B, 12_065, 185, 20_047, ISO_239_MEMORY),
    metric("B16", B, 15_733, 240, 20_020, ISO_239_MEMORY),
    metric("B18", B, 17_780, 320, 20_020, ISO_239_MEMORY),
    metric("B22", B, 21_793, 405, 19_922, ISO_239_MEMORY),
    metric("B24", B, 23_825, 505, 19_922, ISO_239_MEMORY),
];

const fn seven_24(id: &'static str, large_um: i64, length_tenths: i64) -> NamedTaper {
    let mut taper = metric(id, SevenIn24, large_um, length_tenths, 1, ISO_297_MEMORY);
    taper.per_length = Ratio::of(7, 24);
    taper
}

/// The taper of this name, as people write it: `MT2`, `2 MT`, `Morse 2`, `no. 2 Morse`,
/// `metric 80`, `7/24 no. 40`, `drill-chuck 33`, `B16`.
#[must_use]
pub fn find(name: &str) -> Option<&'static NamedTaper> {
    NAMED.iter().find(|taper| plain(taper.id).eq(plain(name))).or_else(|| morse(name))
}

/// The words of a name run together in lower case, without «no.» and «taper».
fn plain(text: &str) -> impl Iterator<Item = char> + '_ {
    text.split(|c: char| !c.is_ascii_alphanumeric())
        .filter(|word| !word.eq_ignore_ascii_case("no") && !word.eq_ignore_ascii_case("taper"))
        .flat_map(str::chars)
        .map(|c| c.to_ascii_lowercase())
}

/// «Morse» or «MT» with one digit, in any order, and nothing else but «no.» or «taper».
fn morse(name: &str) -> Option<&'static NamedTaper> {
    let mut digit = None;
    let mut says_morse = false;
    for word in name.split(|c: char| !c.is_ascii_alphanumeric()).filter(|word| !word.is_empty()) {
        let number = word.trim_matches(|c: char| c.is_ascii_alphabetic());
        let letters = |wanted: &str| {
            word.chars()
                .filter(char::is_ascii_alphabetic)
                .map(|c| c.to_ascii_lowercase())
                .eq(wanted.chars())
        };
        if letters("morse") || letters("mt") {
            says_morse = true;
        } else if !(letters("") || letters("no") || letters("taper")) {
            return None;
        }
        if !number.is_empty() {
            let one: u8 = number.parse().ok()?;
            if digit.replace(one).is_some() {
                return None;
            }
        }
    }
    let digit = digit.filter(|_| says_morse)?;
    NAMED
        .iter()
        .filter(|taper| taper.family == Family::Morse)
        .find(|taper| taper.id.strip_prefix("MT").and_then(|n| n.parse().ok()) == Some(digit))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_is_a_cone() {
        for row in NAMED {
            let small = row.small_mm().unwrap();
            assert!(small.is_positive() && small < row.large_mm, "{row:?}");
            assert_eq!(find(row.id).map(|found| found.id), Some(row.id));
        }
    }

    #[test]
    fn as_people_write_them() {
        let id = |name| find(name).map(|taper| taper.id);
        for name in ["MT2", "mt 2", "2 MT", "2MT", "Morse 2", "no. 2 Morse", "Morse taper no 2"] {
            assert_eq!(id(name), Some("MT2"), "{name}");
        }
        assert_eq!(id("7/24 40"), Some("7/24 no. 40"));
        assert_eq!(id("Metric 80"), Some("metric 80"));
        assert_eq!(id("drill chuck 2 short"), Some("drill-chuck 2 short"));
        assert_eq!(id("b16"), Some("B16"));
        for name in ["MT8", "MT", "2", "", "Morse 2 3", "40", "Morse 99999999999", "é"] {
            assert_eq!(id(name), None, "{name}");
        }
    }
}
