//! Which of the machine's own speeds to use.

use super::RpmRange;
use core::fmt;

/// One of the machine's speeds, and how it stands to the range wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpindlePick {
    /// Its place in the list given.
    pub index: usize,
    /// Turns a minute.
    pub rpm: f64,
    /// How it stands to the range.
    pub verdict: Verdict,
}

/// How a speed stands to the published range. The figures are whole turns a minute.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Within the range.
    Within,
    /// So little off the range that it makes no difference: [`ALLOWED`].
    Near {
        /// The end of the range that it lies beyond.
        wants: u32,
    },
    /// Above the range of the book that is used, within that of another.
    OtherBook {
        /// The fast end of the range that is used.
        wants: u32,
    },
    /// Below the range though not the fastest owned: the next one up is above the range.
    Between {
        /// The slow end of the range.
        wants: u32,
    },
    /// The fastest owned is below the range.
    MachineTooSlow {
        /// The slow end of the range.
        wants: u32,
        /// The fastest owned.
        has: u32,
    },
    /// The slowest owned is above the range.
    MachineTooFast {
        /// The fast end of the range.
        wants: u32,
        /// The slowest owned.
        has: u32,
    },
}

impl fmt::Display for Verdict {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Verdict::Within => f.write_str("within the published range"),
            Verdict::Near { wants } => {
                write!(f, "near enough to {wants}, where the published range ends")
            }
            Verdict::OtherBook { wants } => {
                write!(f, "over {wants}, where this book's range ends, but within another's")
            }
            Verdict::Between { wants } => {
                write!(
                    f,
                    "a little slow, {wants} or more would suit; the next speed up is too fast"
                )
            }
            Verdict::MachineTooSlow { wants, has } => write!(
                f,
                "this cut wants {wants} or more and the machine's fastest is {has}: the edge is safe, \
                 but feed gently and keep the chip as it is, so that the feed a minute falls with the speed"
            ),
            Verdict::MachineTooFast { wants, has } => write!(
                f,
                "this cut wants {wants} or less and the machine's slowest is {has}: the edge will burn; \
                 turn the spindle by hand, or use carbide or a smaller diameter"
            ),
        }
    }
}

/// A speed up to this share beyond either end of the published range counts as good as within it: the
/// ranges are rounder than that. Common practice, no source.
pub const ALLOWED: f64 = 0.05;

fn whole(rpm: f64) -> u32 {
    // Saturates, and is never negative.
    libm::round(rpm) as u32
}

fn usable(owned: &[f64]) -> impl Iterator<Item = (usize, f64)> + '_ {
    owned.iter().copied().enumerate().filter(|(_, rpm)| rpm.is_finite() && *rpm > 0.0)
}

/// The highest owned within the range; else, where one is [no more](ALLOWED) beyond an end of it, the
/// nearest; else the highest below it, else the lowest owned; the first of equals. `None` when no
/// usable speed is owned.
#[must_use]
pub fn pick_spindle(range: RpmRange, owned: &[f64]) -> Option<SpindlePick> {
    let (below, above) = neighbours(range.high, owned);
    let at = |index: Option<usize>| index.and_then(|index| Some((index, *owned.get(index)?)));
    let (below, above) = (at(below), at(above));
    if let Some((index, rpm)) = below.filter(|(_, rpm)| *rpm >= range.low) {
        return Some(SpindlePick { index, rpm, verdict: Verdict::Within });
    }
    let under = below.map(|(_, rpm)| range.low / rpm);
    let over = above.map(|(_, rpm)| rpm / range.high);
    let near = |off: Option<f64>| off.is_some_and(|off| off <= 1.0 + ALLOWED);
    let nearer = over.zip(under).is_none_or(|(over, under)| over < under);
    if let Some((index, rpm)) = above.filter(|_| near(over) && nearer) {
        let verdict = Verdict::Near { wants: whole(range.high) };
        return Some(SpindlePick { index, rpm, verdict });
    }
    if let Some((index, rpm)) = below {
        let wants = whole(range.low);
        let verdict = if near(under) {
            Verdict::Near { wants }
        } else if above.is_some() {
            Verdict::Between { wants }
        } else {
            Verdict::MachineTooSlow { wants, has: whole(rpm) }
        };
        return Some(SpindlePick { index, rpm, verdict });
    }
    let (index, rpm) = above?;
    let verdict = Verdict::MachineTooFast { wants: whole(range.high), has: whole(rpm) };
    Some(SpindlePick { index, rpm, verdict })
}

/// The nearest owned at or below `rpm` and the nearest above it, as places in the list.
#[must_use]
pub fn neighbours(rpm: f64, owned: &[f64]) -> (Option<usize>, Option<usize>) {
    let below = usable(owned)
        .filter(|(_, one)| *one <= rpm)
        .reduce(|best, one| if one.1 > best.1 { one } else { best });
    let above = usable(owned)
        .filter(|(_, one)| *one > rpm)
        .reduce(|best, one| if one.1 < best.1 { one } else { best });
    (below.map(|(index, _)| index), above.map(|(index, _)| index))
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::vec::Vec;
    use proptest::prelude::*;

    const RANGE: RpmRange = RpmRange { low: 300.0, high: 500.0 };

    #[test]
    fn the_fastest_that_is_not_too_fast() {
        let pick = |owned: &[f64]| pick_spindle(RANGE, owned).map(|p| (p.index, p.verdict));
        assert_eq!(pick(&[900.0, 70.0, 480.0, 310.0]), Some((2, Verdict::Within)));
        assert_eq!(pick(&[70.0, 500.0, 501.0]), Some((1, Verdict::Within)));
        assert_eq!(pick(&[900.0, 190.0]), Some((1, Verdict::Between { wants: 300 })));
        assert_eq!(
            pick(&[45.0, 190.0]),
            Some((1, Verdict::MachineTooSlow { wants: 300, has: 190 }))
        );
        assert_eq!(
            pick(&[900.0, 540.0]),
            Some((1, Verdict::MachineTooFast { wants: 500, has: 540 }))
        );
        // A hair above beats far below, and not what is as near below; in the range beats both.
        assert_eq!(pick(&[190.0, 505.0]), Some((1, Verdict::Near { wants: 500 })));
        assert_eq!(pick(&[525.0, 900.0]), Some((0, Verdict::Near { wants: 500 })));
        assert_eq!(pick(&[298.0, 520.0]), Some((0, Verdict::Near { wants: 300 })));
        assert_eq!(pick(&[310.0, 501.0]), Some((0, Verdict::Within)));
        assert_eq!(pick(&[190.0, 526.0]), Some((0, Verdict::Between { wants: 300 })));
        assert_eq!(pick(&[]), None);
        assert_eq!(pick(&[f64::NAN, 0.0, -4.0, f64::INFINITY]), None);
    }

    proptest! {
        #[test]
        fn the_pick_is_what_sorting_would_find(
            owned in prop::collection::vec(1u32..3000, 1..15), low in 1u32..2000, span in 0u32..1500,
        ) {
            let range = RpmRange { low: f64::from(low), high: f64::from(low.saturating_add(span)) };
            let list: Vec<f64> = owned.iter().map(|n| f64::from(*n)).collect();
            let pick = pick_spindle(range, &list).unwrap();
            let mut sorted = owned.clone();
            sorted.sort_unstable();
            let slow = sorted.iter().rev().map(|n| f64::from(*n)).find(|n| *n <= range.high);
            let over = sorted.iter().map(|n| f64::from(*n)).find(|n| *n > range.high);
            let over = over.filter(|n| *n <= 1.05 * range.high);
            let wanted = match (slow, over) {
                (Some(slow), _) if slow >= range.low => slow,
                (Some(slow), Some(over)) if over / range.high < range.low / slow => over,
                (Some(slow), _) => slow,
                (None, _) => f64::from(sorted[0]),
            };
            prop_assert_eq!(pick.rpm, wanted);
            prop_assert_eq!(list[pick.index], pick.rpm);
        }
    }
}
