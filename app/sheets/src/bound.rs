//! What doesn't part at the end of a line: a figure and its unit, the parts of one figure, and what is
//! numbered and its number.

/// What a figure is of.
const UNITS: [&str; 17] = [
    "mm", "in", "thou", "µm", "tpi", "rpm", "m/min", "mm/min", "in/min", "line", "lines", "turn",
    "turns", "tooth", "teeth", "hole", "holes",
];

/// What has a number behind it.
const NUMBERED: [&str; 2] = ["train", "plate"];

/// The same words, with spaces that don't break where a line shouldn't.
pub(crate) fn bound(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    let mut before = "";
    for (at, word) in words.split(' ').enumerate() {
        if at > 0 {
            out.push(if belongs(before, word) { '\u{a0}' } else { ' ' });
        }
        out.push_str(word);
        before = word;
    }
    out
}

/// Whether a word stays with the one before it.
fn belongs(before: &str, word: &str) -> bool {
    let figure = |text: &str| text.starts_with(|c: char| c.is_ascii_digit());
    let bare = word.trim_end_matches(|c: char| c.is_ascii_punctuation());
    if before.ends_with(|c: char| c.is_ascii_digit()) {
        let fraction = bare.split_once('/').is_some_and(|(n, d)| figure(n) && figure(d));
        return UNITS.contains(&bare) || fraction;
    }
    match before {
        "turn" | "turns" => word == "+",
        "+" | "/" => figure(word),
        _ if NUMBERED.contains(&before) => figure(word),
        _ => before.ends_with('Ø') || (before.ends_with('°') && bare.ends_with('′')),
    }
}

#[cfg(test)]
mod tests {
    use super::bound;

    /// With `_` for a space that doesn't break.
    fn shown(words: &str) -> String {
        bound(words).replace('\u{a0}', "_")
    }

    #[test]
    fn what_belongs_together_stays() {
        for (words, expected) in [
            ("It leaves Ø 10.92 mm.", "It leaves Ø_10.92_mm."),
            (
                "Turn Ø 1 3/8 in down to Ø 9.9 mm, in mild steel",
                "Turn Ø_1_3/8_in down to Ø_9.9_mm, in mild steel",
            ),
            ("1 of 66 steps; 40 lines; 3 turns back", "1 of 66 steps; 40_lines; 3_turns back"),
            ("train 2: exact, 1 turn + 37 by 17° 30′.", "train_2: exact, 1_turn_+_37 by 17°_30′."),
            ("taper × whole length / 2", "taper × whole length /_2"),
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
