//! The work's rim at the Bench: what is done, what is under the cutter, what is to come.

use core::f64::consts::PI;

use super::lettering::{Area, WORD, width_at};
use super::reckon::{sin_cos, within};
use super::scale::{Lengths, Numbers};
use super::sheet::{COLUMN, Path, Point, Sheet, Stand, at, grouped};

/// What is cut at each division.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Mark {
    Line(Lengths),
    Hole,
    Flat,
}

/// A rim with its divisions, taken in order from 0.
pub(crate) struct Rim {
    pub(crate) divisions: u32,
    /// The one at the cutter, from 0; every one before it is done.
    pub(crate) present: u32,
    pub(crate) mark: Mark,
    pub(crate) numbers: Numbers,
}

/// As many divisions as are shown all round; beyond them, an arc.
const ALL_ROUND: u32 = 12;
const ROUND_RADIUS: f64 = 92.0;
const ARC_RADIUS: f64 = 230.0;
/// Least room for a division on an arc.
const DIVISION: f64 = 9.5;
const LONG: f64 = 36.0;
/// Where the rim stands below the top of the sheet, leaving room for the number and the index.
const TOP: f64 = 50.0;
const ARC_HIGH: f64 = 168.0;

/// The rim with the present division at the index, done ones to its left.
pub(crate) fn rim(rim: &Rim) -> String {
    let divisions = rim.divisions.max(1);
    let whole = divisions <= ALL_ROUND;
    let count = f64::from(divisions);
    let radius = if whole { ROUND_RADIUS } else { ARC_RADIUS.max(count * DIVISION / (2.0 * PI)) };
    let height = if whole {
        TOP + 2.0 * radius + 28.0
    } else {
        // A flat arc needs no more than its lines.
        let half = COLUMN / 2.0;
        let drop = radius - (radius * radius - half * half).max(0.0).sqrt();
        (TOP + drop + LONG + 14.0).min(ARC_HIGH)
    };
    let centre = at(COLUMN / 2.0, TOP + radius);
    let mut sheet = Sheet::new("rim", COLUMN, height, &said(rim));

    // How many to either side there are to see.
    let step = 2.0 * PI / count;
    let half = COLUMN / 2.0 + 14.0;
    let mut aside = divisions / 2;
    let mut edge = Path::new();
    if whole {
        edge.circle(centre, radius);
    } else {
        let height = centre.y - (radius * radius - half * half).sqrt();
        edge.go(at(centre.x - half, height));
        edge.arc(radius, false, true, at(centre.x + half, height));
        let seen = |place: &u32| radius * sin_cos(f64::from(*place) * step).0 < half;
        aside = (1..aside).take_while(seen).count() as u32;
    }
    sheet.path("d-work", &edge);

    let (mut done, mut to_do) = (Path::new(), Path::new());
    let numbers = rim.numbers.thinned(34.0 / (step * radius));
    let mut lettered: Vec<Area> = Vec::new();
    for place in -i64::from(aside)..=i64::from(aside) {
        let wrapped = (i64::from(rim.present) + place).rem_euclid(i64::from(divisions));
        let Ok(division) = u32::try_from(wrapped) else { continue };
        // On a full circle the lowest division of an even number would be drawn twice.
        if whole && divisions.is_multiple_of(2) && place == -i64::from(aside) {
            continue;
        }
        let angle = place as f64 * step - PI / 2.0;
        if place == 0 {
            continue;
        }
        let is_done = division < rim.present;
        let path = if is_done { &mut done } else { &mut to_do };
        trace(path, rim.mark, centre, radius, angle, step, division, is_done);
        if let Some(number) = numbers.at(division).filter(|_| place.unsigned_abs() > 0) {
            letter(&mut sheet, &mut lettered, centre, radius, angle, &number, whole);
        }
    }
    sheet.path("d-done", &done);
    let flats = matches!(rim.mark, Mark::Flat);
    sheet.path(if flats { "d-todo d-dash" } else { "d-todo" }, &to_do);

    let mut present = Path::new();
    trace(&mut present, rim.mark, centre, radius, -PI / 2.0, step, rim.present, true);
    sheet.path("d-now", &present);
    let tip = centre.shifted(0.0, -radius - 4.0);
    let mut index = Path::new();
    index.polygon(&[tip, tip.shifted(-7.0, -13.0), tip.shifted(7.0, -13.0)]);
    sheet.path("d-index", &index);
    let name = rim.numbers.at(rim.present).unwrap_or_else(|| grouped(rim.present));
    if rim.numbers.every == 0 || rim.numbers.at(rim.present).is_some() {
        sheet.text("d-big", Stand::Middle, tip.shifted(0.0, -20.0), &name);
    }
    sheet.finish()
}

fn said(rim: &Rim) -> String {
    let (one, many) = match rim.mark {
        Mark::Line(_) => ("line ", " lines"),
        Mark::Hole => ("hole ", " holes"),
        Mark::Flat => ("flat ", " flats"),
    };
    let left = rim.divisions.saturating_sub(rim.present).saturating_sub(1);
    [
        "The rim: ",
        &grouped(rim.present),
        many,
        " done, ",
        one,
        &grouped(rim.present.saturating_add(1)),
        " of ",
        &grouped(rim.divisions),
        " at the cutter, ",
        &grouped(left),
        " to do.",
    ]
    .concat()
}

#[allow(clippy::too_many_arguments)]
fn trace(
    path: &mut Path,
    mark: Mark,
    centre: Point,
    radius: f64,
    angle: f64,
    step: f64,
    division: u32,
    filled: bool,
) {
    match mark {
        Mark::Line(lengths) => {
            let long = LONG * lengths.of(division);
            path.stroke(
                centre.polar(radius - 1.0, angle),
                centre.polar(radius - 1.0 - long, angle),
            );
        }
        Mark::Hole => {
            let size = within(step * radius * 0.3, 2.2, 7.0);
            let place = centre.polar(radius - 16.0, angle);
            path.circle(place, size);
            // A drilled hole is a ring with its middle marked; one to come, a ring alone.
            if filled {
                path.circle(place, size * 0.4);
            }
        }
        Mark::Flat => {
            let half = (step / 2.0).min(0.9) * 0.86;
            let inside = radius * sin_cos(half).1.max(0.6);
            let across = (radius * radius - inside * inside).sqrt();
            let middle = centre.polar(inside, angle);
            let end = |side: f64| middle.polar(side * across, angle + PI / 2.0);
            path.stroke(end(-1.0), end(1.0));
        }
    }
}

fn letter(
    sheet: &mut Sheet,
    lettered: &mut Vec<Area>,
    centre: Point,
    radius: f64,
    angle: f64,
    number: &str,
    whole: bool,
) {
    let wide = width_at(number, WORD);
    let (sin, cos) = sin_cos(angle);
    let out = if whole { 9.0 + wide / 2.0 * cos.abs() + 5.0 * sin.abs() } else { 13.0 };
    let place = centre.polar(radius + out, angle);
    let area = Area {
        left: place.x - wide / 2.0,
        right: place.x + wide / 2.0,
        top: place.y - 6.0,
        bottom: place.y + 6.0,
    };
    // Room for the index and its number, and for the sheet's edge.
    let index =
        Area { left: COLUMN / 2.0 - 34.0, right: COLUMN / 2.0 + 34.0, top: 0.0, bottom: TOP };
    let off = area.left < 2.0 || area.right > COLUMN - 2.0;
    if off || area.near(&index, 2.0) || lettered.iter().any(|other| area.near(other, 4.0)) {
        return;
    }
    sheet.text("d-word", Stand::Middle, place.shifted(0.0, 5.0), number);
    lettered.push(area);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lines(divisions: u32, present: u32) -> String {
        rim(&Rim {
            divisions,
            present,
            mark: Mark::Line(Lengths { long: 10, middle: 5 }),
            numbers: Numbers { every: 10, worth: 10, places: 0 },
        })
    }

    #[test]
    fn only_what_is_seen_is_drawn_however_many_there_are() {
        for divisions in (2..400).chain([1000, 5000, 9999]) {
            for present in [0, 1, divisions / 2, divisions - 1] {
                let picture = lines(divisions, present);
                assert!(picture.len() < 6_000, "{divisions}: {}", picture.len());
                assert!(picture.contains("d-now"));
                assert_eq!(present > 0, picture.contains("\"d-done\""), "{divisions} {present}");
            }
        }
    }

    #[test]
    fn a_small_number_is_shown_whole() {
        for divisions in 2..=ALL_ROUND {
            let picture = lines(divisions, 0);
            let to_do = picture.split("class=\"d-todo\" d=\"").nth(1).unwrap();
            let strokes = to_do.split('"').next().unwrap().matches('M').count();
            assert_eq!(strokes as u32, divisions - 1);
        }
    }

    #[test]
    fn nonsense_does_not_break_it() {
        for (divisions, present) in [(0, 0), (1, 0), (3, 9), (u32::MAX, u32::MAX)] {
            for mark in [Mark::Hole, Mark::Flat] {
                let numbers = Numbers { every: 0, worth: 0, places: 0 };
                assert!(rim(&Rim { divisions, present, mark, numbers }).ends_with("</svg>"));
            }
        }
    }

    #[test]
    fn what_is_said_counts_from_one() {
        let rim = Rim {
            divisions: 40,
            present: 20,
            mark: Mark::Hole,
            numbers: Numbers { every: 0, worth: 0, places: 0 },
        };
        assert_eq!(said(&rim), "The rim: 20 holes done, hole 21 of 40 at the cutter, 19 to do.");
    }
}
