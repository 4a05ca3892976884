//! Straight lines on a printed page, as long as they come out of the printer.

use crate::Outcome;
use miniz_oxide::inflate::decompress_to_vec_zlib;

/// A straight line, its ends in millimetres across and up.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Line {
    pub(crate) from: (f64, f64),
    pub(crate) to: (f64, f64),
}

impl Line {
    /// How long a level line is; none where it isn't level.
    pub(crate) fn level(&self) -> Option<f64> {
        ((self.from.1 - self.to.1).abs() < 0.01).then(|| (self.from.0 - self.to.0).abs())
    }

    /// Where across an upright line stands; none where it isn't upright.
    pub(crate) fn upright(&self) -> Option<f64> {
        ((self.from.0 - self.to.0).abs() < 0.01).then_some(self.from.0)
    }
}

/// A point of a page is a 72nd of an inch (ISO 32000-1:2008, 8.3.2.3).
const POINT_MM: f64 = 25.4 / 72.0;

/// `a b c d e f` of a transformation (ISO 32000-1:2008, 8.3.4).
type Matrix = [f64; 6];

const AS_IT_IS: Matrix = [1.0, 0.0, 0.0, 1.0, 0.0, 0.0];

fn times(m: Matrix, n: Matrix) -> Matrix {
    let [a, b, c, d, e, f] = m;
    let [p, q, r, s, t, u] = n;
    [
        a * p + b * r,
        a * q + b * s,
        c * p + d * r,
        c * q + d * s,
        e * p + f * r + t,
        e * q + f * s + u,
    ]
}

/// The straight lines of every page of a file, each path's together.
pub(crate) fn paths(file: &[u8]) -> Outcome<Vec<Vec<Line>>> {
    let mut found = Vec::new();
    for part in streams(file) {
        // What isn't packed so, or isn't text, is no page.
        let Ok(words) = decompress_to_vec_zlib(part) else { continue };
        let Ok(words) = String::from_utf8(words) else { continue };
        found.extend(drawn(&words));
    }
    if found.is_empty() { Err("nothing is drawn on paper".into()) } else { Ok(found) }
}

/// What stands between `stream` and `endstream`.
fn streams(file: &[u8]) -> Vec<&[u8]> {
    const ENDS: &[u8] = b"endstream";
    let mut found = Vec::new();
    let mut rest = file;
    while let Some(end) = rest.windows(ENDS.len()).position(|window| window == ENDS) {
        let before = &rest[..end];
        if let Some(start) = before.windows(7).rposition(|window| window == b"stream\n") {
            found.push(&before[start + 7..]);
        }
        rest = &rest[end + ENDS.len()..];
    }
    found
}

/// The paths of a page's own words (ISO 32000-1:2008, 8.5.2).
fn drawn(words: &str) -> Vec<Vec<Line>> {
    let (mut now, mut kept) = (AS_IT_IS, Vec::new());
    let (mut numbers, mut pen) = (Vec::<f64>::new(), (0.0, 0.0));
    let (mut path, mut paths) = (Vec::new(), Vec::new());
    for word in words.split_ascii_whitespace() {
        if let Ok(number) = word.parse() {
            numbers.push(number);
            continue;
        }
        let place = |numbers: &[f64]| {
            let [.., x, y] = *numbers else { return (0.0, 0.0) };
            let [a, b, c, d, e, f] = now;
            ((a * x + c * y + e) * POINT_MM, (b * x + d * y + f) * POINT_MM)
        };
        match word {
            "q" => kept.push(now),
            "Q" => now = kept.pop().unwrap_or(AS_IT_IS),
            "cm" => {
                if let [.., a, b, c, d, e, f] = *numbers {
                    now = times([a, b, c, d, e, f], now);
                }
            }
            "m" => pen = place(&numbers),
            "l" => {
                let to = place(&numbers);
                path.push(Line { from: pen, to });
                pen = to;
            }
            "S" | "s" | "f" | "f*" | "B" | "b" | "n" => paths.push(std::mem::take(&mut path)),
            _ => {}
        }
        numbers.clear();
    }
    paths.push(path);
    paths.retain(|path| !path.is_empty());
    paths
}
