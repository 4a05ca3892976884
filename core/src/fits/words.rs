//! Fits as people ask for them.

/// A fit in words and its code.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FitWords {
    /// How it goes together.
    pub words: &'static str,
    /// What it is for.
    pub use_for: &'static str,
    /// Its code on the hole basis.
    pub code: &'static str,
}

const fn row(words: &'static str, use_for: &'static str, code: &'static str) -> FitWords {
    FitWords { words, use_for, code }
}

/// From loosest to tightest: the ten preferred hole-basis fits (ANSI B4.2 Table 1, from memory; the
/// same ten as in an independent library of fits), in our own words.
#[rustfmt::skip]
pub const FITS_IN_WORDS: &[FitWords] = &[
    row("rattles", "dirt, heat, parts that don't line up", "H11/c11"),
    row("runs freely", "fast shafts, long bearings, pulleys", "H9/d9"),
    row("runs closely", "shafts in plain bearings, with oil", "H8/f7"),
    row("slides without shake", "slides, spindles, parts that are moved by hand", "H7/g6"),
    row("goes together by hand", "locating parts that come apart again", "H7/h6"),
    row("taps together", "locating with a light tap, apart again with a puller", "H7/k6"),
    row("taps hard together", "locating more firmly, with a mallet or a vice", "H7/n6"),
    row("presses in", "bushes and pins that stay where they are pressed", "H7/p6"),
    row("drives in for good", "parts of steel or iron that are not to come apart", "H7/s6"),
    row("shrinks on for good", "parts put together hot, that must never move", "H7/u6"),
];

/// The fit of these words, or of this code.
#[must_use]
pub fn in_words(text: &str) -> Option<&'static FitWords> {
    let text = text.trim();
    FITS_IN_WORDS.iter().find(|fit| fit.words.eq_ignore_ascii_case(text) || fit.code == text)
}

#[cfg(test)]
mod tests {
    use super::super::fit;
    use super::*;
    use crate::exact::Ratio;

    #[test]
    fn each_is_tighter_than_the_one_before() {
        for size in [2, 5, 8, 15, 25, 45, 70, 100, 200, 400] {
            let slack: alloc::vec::Vec<_> = FITS_IN_WORDS
                .iter()
                .map(|row| fit(row.code, Ratio::whole(size)).unwrap().clearance_mm[0])
                .collect();
            assert!(slack.is_sorted_by(|a, b| a > b), "{size}: {slack:?}");
        }
        assert_eq!(in_words("Presses in").map(|row| row.code), Some("H7/p6"));
        assert_eq!(in_words("H7/g6").map(|row| row.words), Some("slides without shake"));
        assert_eq!(in_words("wobbles"), None);
    }
}
