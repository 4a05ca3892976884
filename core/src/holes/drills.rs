//! Drill sizes by number, letter, fraction and millimetre.

use crate::exact::Ratio;
use core::fmt;

/// Number drills 1 to 80, ten-thousandths of an inch. ANSI/ASME B94.11M.
#[rustfmt::skip]
pub const NUMBERS: [u16; 80] = [
    2280, 2210, 2130, 2090, 2055, 2040, 2010, 1990, 1960, 1935,
    1910, 1890, 1850, 1820, 1800, 1770, 1730, 1695, 1660, 1610,
    1590, 1570, 1540, 1520, 1495, 1470, 1440, 1405, 1360, 1285,
    1200, 1160, 1130, 1110, 1100, 1065, 1040, 1015,  995,  980,
     960,  935,  890,  860,  820,  810,  785,  760,  730,  700,
     670,  635,  595,  550,  520,  465,  430,  420,  410,  400,
     390,  380,  370,  360,  350,  330,  320,  310,  292,  280,
     260,  250,  240,  225,  210,  200,  180,  160,  145,  135,
];

/// Letter drills A to Z, thousandths of an inch. ANSI/ASME B94.11M.
#[rustfmt::skip]
pub const LETTERS: [u16; 26] = [
    234, 238, 242, 246, 250, 257, 261, 266, 272, 277, 281, 290, 295,
    302, 316, 323, 332, 339, 348, 358, 368, 377, 386, 397, 404, 413,
];

/// What a drill is called.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DrillName {
    /// Number 1 to 80.
    Number(u8),
    /// Letter A to Z.
    Letter(u8),
    /// So many sixty-fourths of an inch.
    SixtyFourths(u16),
    /// Hundredths of a millimetre.
    Metric(u32),
}

impl DrillName {
    /// Its diameter, mm.
    #[must_use]
    pub fn mm(self) -> Option<Ratio> {
        let inches = match self {
            DrillName::Number(n) => {
                let row = usize::from(n).checked_sub(1)?;
                Ratio::of(i64::from(*NUMBERS.get(row)?), 10_000)
            }
            DrillName::Letter(letter) => {
                let row = usize::from(letter).checked_sub(usize::from(b'A'))?;
                Ratio::of(i64::from(*LETTERS.get(row)?), 1000)
            }
            DrillName::SixtyFourths(n) => Ratio::of(i64::from(n), 64),
            DrillName::Metric(hundredths) => return Some(Ratio::of(i64::from(hundredths), 100)),
        };
        inches.mul(Ratio::of(127, 5)).ok()
    }
}

/// `no. 7`, `letter F`, `1/4 in`, `4.2 mm`.
impl fmt::Display for DrillName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            DrillName::Number(n) => write!(f, "no. {n}"),
            DrillName::Letter(letter) => write!(f, "letter {}", char::from(letter)),
            DrillName::SixtyFourths(n) => {
                let (whole, rest) = (n.checked_div(64), n.checked_rem(64));
                let rest = Ratio::of(i64::from(rest.unwrap_or(0)), 64);
                match (whole.unwrap_or(0), rest.is_zero()) {
                    (whole, true) => write!(f, "{whole} in"),
                    (0, false) => write!(f, "{rest} in"),
                    (whole, false) => write!(f, "{whole} {rest} in"),
                }
            }
            DrillName::Metric(hundredths) => {
                let whole = hundredths.checked_div(100).unwrap_or(0);
                match hundredths.checked_rem(100).unwrap_or(0) {
                    0 => write!(f, "{whole} mm"),
                    rest if rest.checked_rem(10) == Some(0) => {
                        write!(f, "{whole}.{} mm", rest.checked_div(10).unwrap_or(0))
                    }
                    rest => write!(f, "{whole}.{rest:02} mm"),
                }
            }
        }
    }
}

/// The drill called `#7`, `no 7`, `no. 7` or `F`, `letter F`. Fractions and millimetres are
/// lengths, which the entry of a length reads.
#[must_use]
pub fn find_drill(name: &str) -> Option<DrillName> {
    let name = name.trim();
    let number = ["#", "no.", "No.", "no", "No"].iter().find_map(|sign| name.strip_prefix(sign));
    if let Some(digits) = number {
        let n: u8 = digits.trim().parse().ok()?;
        return (1..=80).contains(&n).then_some(DrillName::Number(n));
    }
    let letter = name.strip_prefix("letter").map_or(name, str::trim);
    match letter.as_bytes() {
        [one] if one.is_ascii_alphabetic() => Some(DrillName::Letter(one.to_ascii_uppercase())),
        _ => None,
    }
}

/// So many sixty-fourths of an inch, from 1/64 in to 1 in.
#[must_use]
pub fn fraction_drill(sixty_fourths: u16) -> Option<DrillName> {
    (1..=64).contains(&sixty_fourths).then_some(DrillName::SixtyFourths(sixty_fourths))
}

/// Every drill by number, letter and fraction, and every tenth of a millimetre up to 13 mm with
/// the half-tenths between up to 3 mm: the sizes that are commonly kept.
pub fn series() -> impl Iterator<Item = DrillName> {
    let numbers = (1..=80).map(DrillName::Number);
    let letters = (b'A'..=b'Z').map(DrillName::Letter);
    let fractions = (1..=64).map(DrillName::SixtyFourths);
    let fine = (6..=59).map(|n: u32| DrillName::Metric(n.saturating_mul(5)));
    let tenths = (30..=130).map(|n: u32| DrillName::Metric(n.saturating_mul(10)));
    numbers.chain(letters).chain(fractions).chain(fine).chain(tenths)
}

/// What a drill of exactly this size is called, best known name first: millimetre, fraction,
/// number, letter.
#[must_use]
pub fn name_of(mm: Ratio) -> Option<DrillName> {
    let rank = |name: &DrillName| match name {
        DrillName::Metric(_) => 0,
        DrillName::SixtyFourths(_) => 1,
        DrillName::Number(_) => 2,
        DrillName::Letter(_) => 3,
    };
    series().filter(|name| name.mm() == Some(mm)).min_by_key(rank)
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    #[test]
    fn numbers_fall_and_letters_rise() {
        assert!(NUMBERS.is_sorted_by(|a, b| a > b) && LETTERS.is_sorted_by(|a, b| a < b));
    }

    #[test]
    fn names_read_and_shown() {
        for name in ["#7", "no 7", "no. 7", " No.7 "] {
            assert_eq!(find_drill(name), Some(DrillName::Number(7)), "{name}");
        }
        assert_eq!(find_drill("f"), Some(DrillName::Letter(b'F')));
        assert_eq!(find_drill("letter F"), Some(DrillName::Letter(b'F')));
        for name in ["#0", "#81", "#", "ff", "", "é", "#300"] {
            assert_eq!(find_drill(name), None, "{name}");
        }
        let shown = |name: DrillName| name.to_string();
        assert_eq!(shown(DrillName::SixtyFourths(16)), "1/4 in");
        assert_eq!(shown(DrillName::SixtyFourths(80)), "1 1/4 in");
        assert_eq!(shown(DrillName::Metric(420)), "4.2 mm");
        assert_eq!(shown(DrillName::Metric(405)), "4.05 mm");
        assert_eq!(shown(DrillName::Metric(500)), "5 mm");
    }

    #[test]
    fn every_size_finds_its_name() {
        for name in series() {
            let mm = name.mm().unwrap();
            assert_eq!(name_of(mm).unwrap().mm(), Some(mm));
        }
        assert_eq!(name_of(Ratio::of(254, 40)), Some(DrillName::SixtyFourths(16)));
        assert_eq!(DrillName::Letter(b'!').mm(), None);
        assert_eq!(DrillName::Number(0).mm(), None);
    }
}
