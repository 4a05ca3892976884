//! Section lines: what is cut through is hatched, neighbours in opposite directions.

use super::reckon::order;
use super::sheet::{Path, Point, at};

/// Lines at 45°, `gap` apart, within a closed outline; `rising` to the right or falling.
pub(crate) fn hatch(path: &mut Path, outline: &[Point], gap: f64, rising: bool) {
    // Along a rising line x + y stays the same, along a falling one x − y.
    let sign = if rising { 1.0 } else { -1.0 };
    let level = |point: &Point| point.x + sign * point.y;
    let least = outline.iter().map(level).fold(f64::INFINITY, f64::min);
    let most = outline.iter().map(level).fold(f64::NEG_INFINITY, f64::max);
    let count = ((most - least) / gap).min(2_000.0) as u32;
    for index in 0..count {
        let line = least + (f64::from(index) + 0.5) * gap;
        let mut crossings: Vec<f64> = Vec::new();
        for (here, from) in outline.iter().enumerate() {
            let Some(to) = outline.get(here + 1).or(outline.first()) else { continue };
            let (a, b) = (level(from), level(to));
            if (a <= line) != (b <= line) {
                crossings.push(from.x + (to.x - from.x) * (line - a) / (b - a));
            }
        }
        for pair in order(&crossings).chunks_exact(2) {
            let place = |index: &usize| {
                let x = crossings.get(*index).copied().unwrap_or(0.0);
                at(x, (line - x) * sign)
            };
            if let [left, right] = pair {
                path.stroke(place(left), place(right));
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hatching_stays_within_a_hollow_outline() {
        // A U: the hollow between x 10 and 20 above y 10 stays empty.
        let u = [(0, 0), (10, 0), (10, 10), (20, 10), (20, 0), (30, 0), (30, 20), (0, 20)];
        let outline: Vec<Point> = u.iter().map(|(x, y)| at(f64::from(*x), f64::from(*y))).collect();
        for rising in [true, false] {
            let mut path = Path::new();
            hatch(&mut path, &outline, 3.0, rising);
            let mut sheet = super::super::sheet::Sheet::new("x", 1.0, 1.0, "");
            sheet.path("h", &path);
            let svg = sheet.finish();
            let d = svg.split(" d=\"").nth(1).unwrap().split('"').next().unwrap();
            let numbers: Vec<f64> = d
                .split(['M', 'L', ' '])
                .filter(|word| !word.is_empty())
                .map(|word| word.parse().unwrap())
                .collect();
            assert!(numbers.len() > 40);
            for line in numbers.chunks_exact(4) {
                let (x, y) = ((line[0] + line[2]) / 2.0, (line[1] + line[3]) / 2.0);
                assert!(!(x > 10.01 && x < 19.99 && y < 9.99), "{line:?}");
                assert!((-0.01..=30.01).contains(&x) && (-0.01..=20.01).contains(&y));
            }
        }
    }
}
