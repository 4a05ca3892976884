//! A taper to scale, with its two diameters, its length and the angle to set.

use super::dimension::dimension;
use super::lettering::{WORD, width_at};
use super::reckon::length;
use super::sheet::{COLUMN, Path, Sheet, Stand, at, clock};

/// A taper, all lengths in one unit, every dimension also in words.
pub(crate) struct Taper<'a> {
    pub(crate) large: f64,
    pub(crate) small: f64,
    pub(crate) length: f64,
    pub(crate) large_words: &'a str,
    pub(crate) small_words: &'a str,
    pub(crate) length_words: &'a str,
    /// The angle between the axis and the side: what the slide is set to.
    pub(crate) angle_words: &'a str,
    /// How far an indicator is moved along the bed, and what it shows in words.
    pub(crate) indicator: Option<(f64, &'a str)>,
}

const WIDE: f64 = 168.0;
const HIGH: f64 = 116.0;

/// The taper from the side, large end to the left.
pub(crate) fn taper(taper: &Taper) -> String {
    let (large, along) = (length(taper.large), length(taper.length));
    let small = taper.small.max(0.0).min(large);
    let scale = (WIDE / along).min(HIGH / large);
    let (long, high, low) = (along * scale, large * scale / 2.0, small * scale / 2.0);
    let left = (COLUMN - long) / 2.0;
    let right = left + long;
    let axis = 44.0 + high;
    let ends = [
        (left - 17.0, high, taper.large_words, Stand::End, -6.0),
        (right + 17.0, low, taper.small_words, Stand::Start, 6.0),
    ];
    // Words that don't fit beside their line go below it, and the length below them.
    let beside = |x: f64, out: f64, words: &str| {
        width_at(words, WORD) <= if out < 0.0 { x - 8.0 } else { COLUMN - x - 8.0 }
    };
    let all_beside = ends.iter().all(|(x, _, words, _, out)| beside(*x, *out, words));
    let tried = taper.indicator.filter(|(travel, _)| *travel > 0.0 && *travel <= along);
    let mut under = axis + high + if all_beside { 20.0 } else { 42.0 };
    if tried.is_some() {
        under = axis + high + 62.0;
    }
    let height = under + 24.0;
    let said = [
        "Taper from ",
        taper.large_words,
        " to ",
        taper.small_words,
        " in ",
        taper.length_words,
        "; set over ",
        taper.angle_words,
        ".",
    ]
    .concat();
    let mut sheet = Sheet::new("taper", COLUMN, height, &said);

    let mut body = Path::new();
    body.polygon(&[
        at(left, axis - high),
        at(right, axis - low),
        at(right, axis + low),
        at(left, axis + high),
    ]);
    sheet.path("d-driven d-heavy", &body);
    sheet.line("d-chain", at(left - 14.0, axis), at(right + 14.0, axis));

    let mut extension = Path::new();
    for (x, side, half) in [(left, -1.0, high), (right, 1.0, low)] {
        for y in [axis - half, axis + half] {
            extension.stroke(at(x + side * 3.0, y), at(x + side * 22.0, y));
        }
    }
    for (x, half) in [(left, high), (right, low)] {
        extension.stroke(at(x, axis + half + 3.0), at(x, under + 5.0));
    }
    // A line level with the large end shows the angle that the side falls by.
    extension.stroke(at(left, axis - high), at(right + 4.0, axis - high));
    sheet.path("d-leader", &extension);
    let mut arc = Path::new();
    let radius = long * 0.72;
    let corner = at(left, axis - high);
    // Places on the arc: level, on the side, and half-way between.
    let on_arc = |fall: f64| {
        let share = radius / (long * long + fall * fall).sqrt();
        corner.shifted(long * share, fall * share)
    };
    arc.go(on_arc(0.0)).arc(radius, false, true, on_arc(high - low));
    sheet.path("d-ink", &arc);
    let words = at(corner.x + radius, axis - high - 14.0);
    sheet.line("d-leader", at(words.x, words.y + 4.0), on_arc((high - low) / 2.0));
    let half = width_at(taper.angle_words, WORD) / 2.0;
    let middle = words.x.max(half + 6.0).min(COLUMN - half - 6.0);
    sheet.text("d-dim", Stand::Middle, at(middle, words.y - 2.0), taper.angle_words);

    for (x, half, words, stand, out) in ends {
        dimension(&mut sheet, at(x, axis - half), at(x, axis + half));
        if beside(x, out, words) {
            sheet.text("d-dim", stand, at(x + out, axis + 5.0), words);
        } else if out < 0.0 {
            sheet.text("d-dim", Stand::Start, at(6.0, axis + half + 26.0), words);
        } else {
            sheet.text("d-dim", Stand::End, at(COLUMN - 6.0, axis + half + 26.0), words);
        }
    }
    if let Some((travel, words)) = tried {
        // From nought near the large end to what it shows, touching the near side.
        let (from, share) = (left + (long - travel * scale) / 2.0, travel * scale);
        let dial = axis + high + 22.0;
        for (x, turned) in [(from, 0.0), (from + share, 0.3)] {
            let side = axis + high - (high - low) * (x - left) / long;
            sheet.line("d-now-fine", at(x, side), at(x, dial - 9.0));
            sheet.circle("d-now-ring", at(x, dial), 9.0);
            sheet.line("d-now-fine", at(x, dial), at(x, dial).polar(7.0, clock(turned)));
        }
        let half = width_at(words, WORD) / 2.0;
        let middle = (from + share / 2.0).max(half + 4.0).min(COLUMN - half - 4.0);
        sheet.text("d-dim", Stand::Middle, at(middle, dial + 27.0), words);
    }
    dimension(&mut sheet, at(left, under), at(right, under));
    let half = width_at(taper.length_words, WORD) / 2.0;
    let middle = (left + right) / 2.0;
    sheet.text(
        "d-dim",
        Stand::Middle,
        at(middle.max(half + 4.0), under + 17.0),
        taper.length_words,
    );
    sheet.finish()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn odd_tapers_are_drawn() {
        for (large, small, length) in
            [(17.78, 14.533, 64.0), (0.0, 0.0, 0.0), (f64::NAN, 9.0, 1.0), (1.0, 2.0, 1e9)]
        {
            let picture = taper(&Taper {
                large,
                small,
                length,
                large_words: "a",
                small_words: "b",
                length_words: "c",
                angle_words: "d",
                indicator: Some((length / 2.0, "e")),
            });
            assert!(picture.contains("Taper from a to b in c; set over d."));
        }
    }
}
