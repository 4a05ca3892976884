//! The graduated collar unrolled: on the screen in rows, on paper at full size in pieces.

use core::f64::consts::PI;

use super::lettering::{WORD, width_at};
use super::reckon::within;
use super::scale::{Lengths, Numbers};
use super::sheet::{COLUMN, Path, Sheet, Stand, at, grouped};

/// A collar to be graduated.
pub(crate) struct Collar {
    pub(crate) lines: u32,
    pub(crate) lengths: Lengths,
    pub(crate) numbers: Numbers,
    /// Whether the numbers grow to the left.
    pub(crate) leftwards: bool,
    /// Diameter at the lines, in millimetres.
    pub(crate) diameter_mm: f64,
    /// Length of a long line, in millimetres.
    pub(crate) long_mm: f64,
    /// Width of a line, in millimetres.
    pub(crate) line_mm: f64,
}

const LEFT: f64 = 16.0;
const ROW_WIDE: f64 = COLUMN - 2.0 * LEFT;
/// Least room for a division.
const DIVISION: f64 = 5.0;
const ROWS_MOST: u32 = 4;
const LONG: f64 = 26.0;
const ROW_HIGH: f64 = 66.0;
/// Room for the dots that stand for rows left out.
const SKIP: f64 = 16.0;
const OVERRUN: f64 = 9.0;

/// The scale unrolled in rows; a very fine one shows its beginning and its end.
pub(crate) fn collar(collar: &Collar) -> String {
    let lines = collar.lines.max(1);
    let full = (ROW_WIDE / DIVISION) as u32;
    // Rows of whole tens look best; the last may be shorter.
    let rows = lines.div_ceil(full);
    let tens = lines.div_ceil(rows).div_ceil(10) * 10;
    let in_row = if rows == 1 { lines } else { tens.min(full / 10 * 10) };
    let rows = lines.div_ceil(in_row);
    let shown = rows.min(ROWS_MOST);
    let said = [
        "The scale unrolled: ",
        &grouped(lines),
        " lines, numbered to the ",
        if collar.leftwards { "left." } else { "right." },
    ]
    .concat();
    let skipped = if rows > shown { SKIP } else { 0.0 };
    let height = f64::from(shown) * ROW_HIGH + 8.0 + skipped;
    let mut sheet = Sheet::new("collar", COLUMN, height, &said);
    let pitch = ROW_WIDE / f64::from(in_row);
    let numbers = collar.numbers.thinned(30.0 / pitch);
    for shown_row in 0..shown {
        let row = if shown_row + 1 == shown { rows - 1 } else { shown_row };
        let first = row * in_row;
        let count = in_row.min(lines - first);
        // What isn't shown leaves a gap.
        let skip = if row > shown_row { SKIP } else { 0.0 };
        let edge = skip + f64::from(shown_row) * ROW_HIGH + LONG + 30.0;
        let place = |line: u32| {
            let along = f64::from(line) * pitch;
            if collar.leftwards { COLUMN - LEFT - along } else { LEFT + along }
        };
        let (mut long, mut other, mut closing) = (Path::new(), Path::new(), Path::new());
        let mut last_number = f64::NEG_INFINITY;
        for step in 0..=count {
            let line = first + step;
            let part = collar.lengths.of(line % lines);
            let x = place(step);
            let path = if line >= lines {
                &mut closing
            } else if part >= 1.0 {
                &mut long
            } else {
                &mut other
            };
            path.stroke(at(x, edge), at(x, edge - LONG * part));
            let Some(number) = numbers.at(line % lines) else { continue };
            let half = width_at(&number, WORD) / 2.0;
            let along = f64::from(step) * pitch;
            if along - half > last_number {
                last_number = along + half + 5.0;
                let middle = x.max(half + 1.0).min(COLUMN - half - 1.0);
                sheet.text("d-dim", Stand::Middle, at(middle, edge - LONG - 7.0), &number);
            }
        }
        sheet.path("d-ink", &long);
        sheet.path("d-fine", &other);
        sheet.path("d-todo d-dash", &closing);
        // A row that goes on, or comes from the one above, runs out over its end.
        let out = if collar.leftwards { -OVERRUN } else { OVERRUN };
        let from = place(0) - if row > 0 { out } else { 0.0 };
        let to = place(count) + if first + count < lines { out } else { 0.0 };
        sheet.line("d-work", at(from, edge), at(to, edge));
        if row > shown_row {
            for dot in [-12.0, 0.0, 12.0] {
                sheet.circle("d-dot", at(COLUMN / 2.0 + dot, edge - LONG - 29.0), 1.6);
            }
        }
    }
    sheet.finish()
}

/// Longest piece printed: a wider one would be shrunk by the printer.
const PIECE_MM: f64 = 170.0;
const EDGE_MM: f64 = 3.0;
const FIGURES_MM: f64 = 2.8;
/// The line to check the printer by.
const CHECK_MM: f64 = 100.0;
/// Between two pieces on one sheet, to cut along.
const APART_MM: f64 = 4.0;

/// What the pieces are styled by where no page styles them.
const STYLE: &str = ".d-black{fill:none;stroke:#000}.d-join{stroke-dasharray:.6 .4}.d-print{fill:#000;font:2.8px sans-serif}";

/// The scale at full size, as pieces to print, each with a line to check the printer by.
///
/// Empty where the diameter is nothing.
pub(crate) fn strip(collar: &Collar) -> Vec<String> {
    let piece = |piece: &Piece<'_>| {
        let mut sheet = Sheet::full_size("strip", piece.wide, piece.high, &piece.said());
        piece.draw(&mut sheet, 0.0);
        sheet.finish()
    };
    pieces(collar).iter().map(piece).collect()
}

/// The same as one file of full size, the pieces one under another, that needs no page round it.
///
/// Empty where the diameter is nothing.
pub(crate) fn strip_file(collar: &Collar) -> String {
    let pieces = pieces(collar);
    let Some(first) = pieces.first() else { return String::new() };
    let down = first.high + APART_MM;
    let high = down * pieces.len() as f64 - APART_MM;
    let wide = pieces.iter().map(|piece| piece.wide).fold(0.0, f64::max);
    let said = ["The scale at full size: ", &grouped(collar.lines), " lines."].concat();
    let mut sheet = Sheet::full_size("strip", wide, high, &said);
    sheet.style(STYLE);
    let mut top = 0.0;
    for piece in &pieces {
        piece.draw(&mut sheet, top);
        top += down;
    }
    sheet.finish()
}

/// A part of the strip that a printer takes.
struct Piece<'a> {
    collar: &'a Collar,
    /// From one line to the next.
    pitch: f64,
    /// Which it is, from 0, and how many there are.
    number: (u32, u32),
    first: u32,
    last: u32,
    wide: f64,
    high: f64,
}

fn pieces(collar: &Collar) -> Vec<Piece<'_>> {
    let around = PI * collar.diameter_mm;
    if !(1.0..=20_000.0).contains(&around) || collar.lines == 0 {
        return Vec::new();
    }
    let pitch = around / f64::from(collar.lines);
    let most = ((PIECE_MM - 2.0 * EDGE_MM) / pitch).floor().max(1.0) as u32;
    let all = collar.lines.div_ceil(most);
    let each = collar.lines.div_ceil(all);
    let piece = |number: u32| {
        let first = number * each;
        let last = (first + each).min(collar.lines);
        let length = f64::from(last.saturating_sub(first)) * pitch;
        Piece {
            collar,
            pitch,
            number: (number, all),
            first,
            last,
            // The check line has room on a short one too.
            wide: within(length, CHECK_MM, PIECE_MM - 2.0 * EDGE_MM) + 2.0 * EDGE_MM,
            high: within(collar.long_mm, 1.0, 40.0) + FIGURES_MM + 18.0,
        }
    };
    (0..all).map(piece).collect()
}

impl Piece<'_> {
    fn of(&self) -> String {
        let (number, all) = self.number;
        ["piece ", &(number + 1).to_string(), " of ", &all.to_string()].concat()
    }

    fn said(&self) -> String {
        ["The scale at full size, ", &self.of(), "."].concat()
    }

    fn draw(&self, sheet: &mut Sheet, top: f64) {
        let (collar, lines) = (self.collar, self.collar.lines);
        let (first, last, pitch) = (self.first, self.last, self.pitch);
        let long = within(collar.long_mm, 1.0, 40.0);
        let length = f64::from(last.saturating_sub(first)) * pitch;
        let edge = top + long + FIGURES_MM + 4.0;
        let place = |line: u32| {
            let along = f64::from(line - first) * pitch;
            if collar.leftwards { EDGE_MM + length - along } else { EDGE_MM + along }
        };
        let (mut cut, mut join) = (Path::new(), Path::new());
        let room = width_at(&collar.numbers.longest(lines), FIGURES_MM) + 2.0;
        let numbers = collar.numbers.thinned(room / pitch);
        for line in first..=last {
            let x = place(line);
            // The line that two pieces share is dashed on the second.
            let path = if line == last { &mut join } else { &mut cut };
            path.stroke(at(x, edge), at(x, edge - long * collar.lengths.of(line % lines)));
            if let Some(number) = numbers.at(line % lines).filter(|_| line < last) {
                let half = width_at(&number, FIGURES_MM) / 2.0;
                let middle = x.max(half).min((self.wide - half).max(half));
                sheet.text("d-print", Stand::Middle, at(middle, edge - long - 1.2), &number);
            }
        }
        let weight = within(collar.line_mm, 0.05, 1.0);
        sheet.weighted("d-black", weight, &cut);
        sheet.weighted("d-black d-join", 0.1, &join);
        let mut rule = Path::new();
        rule.stroke(at(place(first), edge), at(place(last), edge));
        let low = edge + 4.5;
        for x in [EDGE_MM, EDGE_MM + CHECK_MM] {
            rule.stroke(at(x, low - 1.5), at(x, low + 1.5));
        }
        rule.stroke(at(EDGE_MM, low), at(EDGE_MM + CHECK_MM, low));
        sheet.weighted("d-black", 0.15, &rule);
        let words = ["check ", &(CHECK_MM as u32).to_string(), " mm · ", &self.of()].concat();
        sheet.text("d-print", Stand::Start, at(EDGE_MM, low + 5.5), &words);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(lines: u32, diameter_mm: f64, leftwards: bool) -> Collar {
        Collar {
            lines,
            lengths: Lengths { long: 10, middle: 5 },
            numbers: Numbers { every: 10, worth: 10, places: 0 },
            leftwards,
            diameter_mm,
            long_mm: 6.0,
            line_mm: 0.2,
        }
    }

    /// Where the upright lines of a class stand.
    fn places(svg: &str, class: &str) -> Vec<f64> {
        let Some(rest) = svg.split(&["class=\"", class, "\""].concat()).nth(1) else {
            return Vec::new();
        };
        let d = rest.split(" d=\"").nth(1).unwrap().split('"').next().unwrap();
        d.split('M').skip(1).map(|at| at.split(' ').next().unwrap().parse().unwrap()).collect()
    }

    #[test]
    fn every_line_is_printed_once_and_in_its_place() {
        for (lines, diameter) in [(40, 32.0), (125, 60.0), (100, 150.0), (200, 20.0), (9999, 900.0)]
        {
            for leftwards in [false, true] {
                let pieces = strip(&of(lines, diameter, leftwards));
                let pitch = PI * diameter / f64::from(lines);
                let mut total = 0;
                for piece in &pieces {
                    let wide: f64 = piece
                        .split("width=\"")
                        .nth(1)
                        .unwrap()
                        .split("mm")
                        .next()
                        .unwrap()
                        .parse()
                        .unwrap();
                    assert!(wide <= 170.0, "{lines}: {wide}");
                    let mut lines_at = places(piece, "d-black");
                    lines_at.extend(places(piece, "d-black d-join"));
                    lines_at.sort_by(f64::total_cmp);
                    total += lines_at.len() - 1;
                    for (index, x) in lines_at.iter().enumerate() {
                        let want = lines_at[0] + index as f64 * pitch;
                        assert!((x - want).abs() <= 0.011, "{lines}: {x} {want}");
                    }
                    assert!(piece.contains("check 100 mm"));
                }
                assert_eq!(total as u32, lines);
            }
        }
        assert!(strip(&of(40, 0.0, false)).is_empty());
        assert!(strip(&of(0, 30.0, false)).is_empty());
        assert!(strip(&of(40, f64::NAN, false)).is_empty());
    }

    #[test]
    fn the_check_line_is_as_long_as_it_says() {
        for diameter in [5.0, 12.0, 32.0, 60.0] {
            for piece in strip(&of(50, diameter, false)) {
                let words = piece.split("check ").nth(1).unwrap();
                let said: f64 = words.split(' ').next().unwrap().parse().unwrap();
                let rule = piece.split("stroke-width=\".15\" d=\"").nth(1).unwrap();
                let last = rule.split('"').next().unwrap().rsplit('M').next().unwrap();
                let ends: Vec<f64> = last
                    .split('L')
                    .map(|end| end.split(' ').next().unwrap().parse().unwrap())
                    .collect();
                assert_eq!(ends[1] - ends[0], said);
            }
        }
    }

    /// On one sheet the pieces stand one under another, every line of them where it is on its own.
    #[test]
    fn the_file_holds_every_piece_at_its_size() {
        for (lines, diameter) in [(40, 32.0), (100, 150.0), (9999, 900.0)] {
            let collar = of(lines, diameter, true);
            let (file, pieces) = (strip_file(&collar), strip(&collar));
            let tag = file.split('>').next().unwrap();
            assert!(tag.contains("mm\" height=\"") && tag.contains("xmlns="), "{tag}");
            assert_eq!(file.matches("<svg").count(), 1);
            assert_eq!(file.matches("check 100 mm").count(), pieces.len());
            assert_eq!(file.matches("<path").count(), 3 * pieces.len());
            assert!(file.contains(STYLE), "a file styles itself");
            // Across, each piece's lines are the same ones; only their height is another.
            let across = |svg: &str| -> Vec<String> {
                let paths = svg.split(" d=\"M").skip(1);
                let ends = paths.flat_map(|d| d.split('"').next().unwrap().split(['M', 'L']));
                ends.map(|end| end.split(' ').next().unwrap().to_owned()).collect()
            };
            assert_eq!(
                across(&file),
                pieces.iter().flat_map(|one| across(one)).collect::<Vec<_>>()
            );
        }
        assert_eq!(strip_file(&of(40, 0.0, false)), "");
    }

    #[test]
    fn the_screen_shows_every_line_of_a_usual_scale() {
        for lines in [40, 60, 100, 125, 200, 240] {
            let picture = collar(&of(lines, 30.0, false));
            let mut drawn = 0;
            for class in ["d-ink", "d-fine"] {
                for part in picture.split(&["class=\"", class, "\" d=\""].concat()).skip(1) {
                    let d = part.split('"').next().unwrap();
                    drawn += d.matches('M').count();
                }
            }
            // The line at the end of a row begins the next one too.
            let rows = picture.matches("d-work").count();
            assert_eq!(drawn, lines as usize + rows - 1, "{lines}");
        }
        assert!(collar(&of(9999, 30.0, true)).len() < 20_000);
        assert!(collar(&of(0, 30.0, true)).ends_with("</svg>"));
    }
}
