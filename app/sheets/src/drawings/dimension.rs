//! Dimension lines with their arrows, and labels in a column beside what they point to.

use super::lettering::spread;
use super::reckon::order;
use super::sheet::{Path, Point, Sheet, Stand, at};

/// A slender arrow with its tip at a place, coming from another.
pub(crate) fn arrow(path: &mut Path, from: Point, tip: Point) {
    let apart = from.distance(tip).max(1e-6);
    let (x, y) = ((tip.x - from.x) / apart, (tip.y - from.y) / apart);
    let aside = |side: f64| tip.shifted(-8.0 * x - side * y, -8.0 * y + side * x);
    path.polygon(&[tip, aside(2.0), aside(-2.0)]);
}

/// A dimension line between two places; where they are close, the arrows stand outside.
pub(crate) fn dimension(sheet: &mut Sheet, from: Point, to: Point) {
    let (mut line, mut heads) = (Path::new(), Path::new());
    let apart = from.distance(to).max(1e-6);
    let out = |end: Point, other: Point| {
        let share = 16.0 / apart;
        end.shifted((end.x - other.x) * share, (end.y - other.y) * share)
    };
    if apart > 22.0 {
        line.stroke(from, to);
        arrow(&mut heads, to, from);
        arrow(&mut heads, from, to);
    } else {
        let (before, after) = (out(from, to), out(to, from));
        line.stroke(before, after);
        arrow(&mut heads, before, from);
        arrow(&mut heads, after, to);
    }
    sheet.path("d-leader", &line);
    sheet.path("d-dot", &heads);
}

/// A label and the place it points to.
pub(crate) struct Note<'a> {
    pub(crate) place: Point,
    pub(crate) words: &'a str,
}

/// Labels in a column that begins at `column`, their leaders level as far as `turn`, then slanting.
///
/// Empty labels are left out. Sorted by height, so that no leader crosses another.
pub(crate) fn notes(
    sheet: &mut Sheet,
    notes: &[Note],
    turn: f64,
    column: f64,
    least: f64,
    most: f64,
) {
    let heights: Vec<f64> = notes.iter().map(|note| note.place.y).collect();
    let sorted: Vec<&Note> = order(&heights)
        .into_iter()
        .filter_map(|place| notes.get(place))
        .filter(|note| !note.words.is_empty())
        .collect();
    let wished: Vec<f64> = sorted.iter().map(|note| note.place.y).collect();
    let rightward = column > turn;
    let side = if rightward { 1.0 } else { -1.0 };
    for (note, row) in sorted.iter().zip(spread(&wished, 23.0, least, most)) {
        let mut leader = Path::new();
        leader.go(note.place).line(at(turn, note.place.y));
        leader.line(at(column - side * 10.0, row)).line(at(column - side * 4.0, row));
        sheet.path("d-leader", &leader);
        sheet.circle("d-dot", note.place, 1.8);
        let stand = if rightward { Stand::Start } else { Stand::End };
        sheet.text("d-dim", stand, at(column, row + 5.0), note.words);
    }
}
