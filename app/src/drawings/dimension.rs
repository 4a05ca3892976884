//! Dimension lines with their arrows, and labels in a column beside what they point to.

use super::lettering::spread;
use super::sheet::{Path, Point, Sheet, Stand, at};

/// A slender arrow with its tip at a place, pointing along `angle`.
pub(crate) fn arrow(path: &mut Path, tip: Point, angle: f64) {
    let back = tip.polar(-8.0, angle);
    let aside = |side: f64| back.polar(side, angle + core::f64::consts::FRAC_PI_2);
    path.polygon(&[tip, aside(2.0), aside(-2.0)]);
}

/// A dimension line between two places; where they are close, the arrows stand outside.
pub(crate) fn dimension(sheet: &mut Sheet, from: Point, to: Point) {
    let angle = (to.y - from.y).atan2(to.x - from.x);
    let (mut line, mut heads) = (Path::new(), Path::new());
    if from.distance(to) > 22.0 {
        line.stroke(from, to);
        arrow(&mut heads, from, angle + core::f64::consts::PI);
        arrow(&mut heads, to, angle);
    } else {
        line.stroke(from.polar(-16.0, angle), to.polar(16.0, angle));
        arrow(&mut heads, from, angle);
        arrow(&mut heads, to, angle + core::f64::consts::PI);
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
    let mut notes: Vec<&Note> = notes.iter().filter(|note| !note.words.is_empty()).collect();
    notes.sort_by(|a, b| a.place.y.total_cmp(&b.place.y));
    let wished: Vec<f64> = notes.iter().map(|note| note.place.y).collect();
    let rightward = column > turn;
    let side = if rightward { 1.0 } else { -1.0 };
    for (note, row) in notes.iter().zip(spread(&wished, 23.0, least, most)) {
        let mut leader = Path::new();
        leader.go(note.place).line(at(turn, note.place.y));
        leader.line(at(column - side * 10.0, row)).line(at(column - side * 4.0, row));
        sheet.path("d-leader", &leader);
        sheet.circle("d-dot", note.place, 1.8);
        let stand = if rightward { Stand::Start } else { Stand::End };
        sheet.text("d-dim", stand, at(column, row + 5.0), note.words);
    }
}
