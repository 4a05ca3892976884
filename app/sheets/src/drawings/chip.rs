//! A cut to scale: the work, the tool, how deep it goes and what it takes.

use super::dimension::{Note, dimension, notes};
use super::hatch::hatch;
use super::lettering::{WORD, fitted};
use super::reckon::length;
use super::sheet::{COLUMN, Path, Point, Sheet, at};

/// A cut, lengths in one unit, each also in words.
pub(crate) struct Chip<'a> {
    /// How deep: on the radius where the work turns.
    pub(crate) depth: f64,
    /// The feed of a turn; where the cutter turns, how wide it cuts.
    pub(crate) across: f64,
    /// Whether the cutter turns, and not the work.
    pub(crate) milled: bool,
    /// In a bore.
    pub(crate) inside: bool,
    pub(crate) depth_words: &'a str,
    pub(crate) across_words: &'a str,
    pub(crate) chip_words: &'a str,
}

const HIGH: f64 = 190.0;
/// A depth is drawn no larger, nor a cutter's width, nor a feed.
const DEEP: f64 = 74.0;
const WIDE: f64 = 84.0;
const FED: f64 = 50.0;
/// Where the column of the words begins.
const WORDS: f64 = 196.0;

/// The cut; what is taken off next is drawn in brass.
pub(crate) fn chip(chip: &Chip) -> String {
    let said = [chip.depth_words, ", ", chip.across_words, ", ", chip.chip_words, "."].concat();
    let mut sheet = Sheet::new("chip", COLUMN, HIGH, &said);
    let (depth, across) = (length(chip.depth), length(chip.across));
    let scale = (DEEP / depth).min(if chip.milled { WIDE } else { FED } / across);
    let (deep, wide) = ((depth * scale).max(1.0), (across * scale).max(1.0));
    let places = if chip.milled {
        slot(&mut sheet, deep, wide)
    } else {
        shoulder(&mut sheet, deep, wide, chip.inside)
    };
    let room = COLUMN - WORDS - 6.0;
    let words = [chip.depth_words, chip.across_words, chip.chip_words]
        .map(|words| fitted(words, WORD, room));
    let labels: Vec<Note> =
        places.iter().zip(&words).map(|(place, words)| Note { place: *place, words }).collect();
    notes(&mut sheet, &labels, WORDS - 24.0, WORDS, 16.0, HIGH - 16.0);
    sheet.finish()
}

/// A bar or a bore from above, the tool coming from below: places of depth, feed and chip.
fn shoulder(sheet: &mut Sheet, deep: f64, feed: f64, inside: bool) -> [Point; 3] {
    // In a bore the near wall is cut, from the other side.
    let flip = |y: f64| if inside { HIGH - y } else { y };
    let place = |x: f64, y: f64| at(x, flip(y));
    let (left, right, top) = (8.0, 160.0, 20.0);
    let (corner, cut) = (70.0, 52.0);
    let uncut = cut + deep;
    let mut work = Path::new();
    work.polygon(&[
        place(left, top),
        place(right, top),
        place(right, cut),
        place(corner, cut),
        place(corner, uncut),
        place(left, uncut),
    ]);
    sheet.path("d-driven d-heavy", &work);
    let mut next = Path::new();
    let before = (corner - feed).max(left);
    next.rectangle(place(before, cut), place(corner, uncut));
    sheet.path("d-pin", &next);
    let mut tool = Path::new();
    tool.polygon(&[
        place(corner, cut),
        place(corner, uncut + 8.0),
        place(corner + 8.0, HIGH - 8.0),
        place(corner + 52.0, HIGH - 8.0),
        place(corner + 52.0, cut + 34.0),
    ]);
    sheet.path("d-tool", &tool);
    let beside = right - 14.0;
    let mut level = Path::new();
    level.stroke(place(corner + 56.0, uncut), place(right, uncut));
    sheet.path("d-leader", &level);
    dimension(sheet, place(beside, cut), place(beside, uncut));
    let middle = (before + corner) / 2.0;
    [
        place(beside, cut + deep * 0.5),
        place(before.max(left + 2.0), uncut),
        place(middle, cut + deep * 0.25),
    ]
}

/// A slot cut through, the cutter in it: places of depth, width and chip.
fn slot(sheet: &mut Sheet, deep: f64, wide: f64) -> [Point; 3] {
    let (left, right, top, bottom) = (8.0, 164.0, 74.0, HIGH - 10.0);
    let middle = (left + right) / 2.0 - 6.0;
    let (from, to, floor) = (middle - wide / 2.0, middle + wide / 2.0, top + deep);
    let outline = [
        at(left, top),
        at(from, top),
        at(from, floor),
        at(to, floor),
        at(to, top),
        at(right, top),
        at(right, bottom),
        at(left, bottom),
    ];
    let mut cut = Path::new();
    hatch(&mut cut, &outline, 7.0, true);
    sheet.path("d-hatch", &cut);
    let mut edge = Path::new();
    edge.polygon(&outline);
    sheet.path("d-ink d-heavy", &edge);
    let mut cutter = Path::new();
    cutter.rectangle(at(from, 12.0), at(to, floor));
    sheet.path("d-tool", &cutter);
    let mut lips = Path::new();
    lips.stroke(at(from, floor), at(to, floor));
    sheet.path("d-now-fine", &lips);
    sheet.line("d-chain", at(middle, 4.0), at(middle, floor + 8.0));
    let beside = right - 16.0;
    dimension(sheet, at(beside, top), at(beside, floor));
    dimension(sheet, at(from, 34.0), at(to, 34.0));
    [at(beside, top + deep * 0.5), at(to, 34.0), at(to, floor)]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn odd_cuts_are_drawn() {
        for (depth, across) in [(1.0, 0.1), (0.0, 0.0), (f64::NAN, 2.0), (1e9, 1e-9)] {
            for (milled, inside) in [(true, false), (false, false), (false, true)] {
                let svg = chip(&Chip {
                    depth,
                    across,
                    milled,
                    inside,
                    depth_words: "a",
                    across_words: "b",
                    chip_words: "c",
                });
                assert!(svg.contains("aria-label=\"a, b, c.\"") && !svg.contains("NaN"));
            }
        }
    }

    /// Depth and feed stand to one another as they are.
    #[test]
    fn it_is_to_scale() {
        let svg = chip(&Chip {
            depth: 1.0,
            across: 0.25,
            milled: false,
            inside: false,
            depth_words: "",
            across_words: "",
            chip_words: "",
        });
        // 74 deep, so 18.5 of feed: from 70 back to 51.5.
        assert!(svg.contains("class=\"d-pin\" d=\"M51.5 52L70 52L70 126L51.5 126z\""), "{svg}");
    }
}
