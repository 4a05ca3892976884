//! What doesn't part at the end of a line: a figure and its unit, the sign of a diameter and its figure.

/// What a figure is of.
const UNITS: [&str; 13] = [
    "mm", "in", "thou", "µm", "tpi", "rpm", "m/min", "mm/min", "in/min", "lines", "turns", "teeth",
    "holes",
];

/// The same words, with spaces that don't break where a line shouldn't.
pub(crate) fn bound(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    for (at, word) in words.split(' ').enumerate() {
        if at > 0 {
            let of = word.trim_end_matches(|c: char| c.is_ascii_punctuation());
            let unit = UNITS.contains(&of) && out.ends_with(|c: char| c.is_ascii_digit());
            out.push(if unit || out.ends_with('Ø') { '\u{a0}' } else { ' ' });
        }
        out.push_str(word);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::bound;

    /// With `_` for a space that doesn't break.
    fn shown(words: &str) -> String {
        bound(words).replace('\u{a0}', "_")
    }

    #[test]
    fn a_figure_stays_with_its_unit_and_its_sign() {
        for (words, expected) in [
            ("It leaves Ø 10.92 mm.", "It leaves Ø_10.92_mm."),
            (
                "Turn Ø 1 3/8 in down to Ø 9.9 mm, in mild steel",
                "Turn Ø_1 3/8_in down to Ø_9.9_mm, in mild steel",
            ),
            ("1 of 66 steps; 40 lines; 3 turns back", "1 of 66 steps; 40_lines; 3_turns back"),
            // Between figures set in bold.
            (" rpm, up to ", " rpm, up to "),
            (", past Ø ", ", past Ø_"),
            ("in mm  and", "in mm  and"),
            ("", ""),
        ] {
            assert_eq!(shown(words), expected);
        }
    }
}
