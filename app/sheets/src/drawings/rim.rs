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

/// A rim with its divisions.
pub(crate) struct Rim<'a> {
    pub(crate) divisions: u32,
    /// How many are done; the next is at the cutter.
    pub(crate) made: u32,
    /// How many divisions on each is from the one made before it: 1 but for a way that goes several
    /// times round.
    pub(crate) laps: u32,
    /// Where they are, in turns and in the order of work; empty where they are even.
    pub(crate) angles: &'a [f64],
    pub(crate) mark: Mark,
    /// The number of the first.
    pub(crate) first: u32,
    pub(crate) numbers: Numbers,
}

impl Rim<'_> {
    /// The division at the cutter; none once all are done.
    fn present(&self) -> Option<u32> {
        let on = u64::from(self.made) * u64::from(self.laps.max(1));
        let present = (on % u64::from(self.divisions.max(1))) as u32;
        (self.made < self.divisions.max(1)).then_some(present)
    }

    /// Whether each of the divisions is done, where they aren't done in order.
    fn out_of_order(&self) -> Vec<bool> {
        if self.laps <= 1 || self.divisions > MANY {
            return Vec::new();
        }
        let all = u64::from(self.divisions.max(1));
        let mut done = vec![false; all as usize];
        for made in 0..u64::from(self.made.min(self.divisions)) {
            done[(made * u64::from(self.laps) % all) as usize] = true;
        }
        done
    }
}

/// More divisions than any head is asked for.
const MANY: u32 = 100_000;

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
    let own = !rim.angles.is_empty();
    let whole = divisions <= ALL_ROUND || own;
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
    let step = if own { closest(rim.angles) } else { 2.0 * PI / count };
    let mut edge = Path::new();
    if whole {
        edge.circle(centre, radius);
    } else {
        let half = COLUMN / 2.0 + 14.0;
        let height = centre.y - (radius * radius - half * half).sqrt();
        edge.go(at(centre.x - half, height));
        edge.arc(radius, false, true, at(centre.x + half, height));
    }
    sheet.path("d-work", &edge);

    let present = rim.present();
    let at_top = present.unwrap_or(0);
    let out_of_order = rim.out_of_order();
    let is_done = |division: u32| match out_of_order.get(division as usize) {
        Some(done) => *done,
        None => division < rim.made,
    };
    let (mut done, mut to_do) = (Path::new(), Path::new());
    let numbers = rim.numbers.thinned(34.0 / (step * radius));
    let mut lettered: Vec<Area> = Vec::new();
    for (division, turned) in seen(rim, at_top, radius, step) {
        if Some(division) == present {
            continue;
        }
        let angle = turned - PI / 2.0;
        let path = if is_done(division) { &mut done } else { &mut to_do };
        trace(path, rim.mark, centre, radius, angle, step, division, is_done(division));
        let number = numbers.at(division.saturating_add(rim.first));
        if let Some(number) = number.filter(|_| division != at_top) {
            letter(&mut sheet, &mut lettered, centre, radius, angle, &number, whole);
        }
    }
    sheet.path("d-done", &done);
    let flats = matches!(rim.mark, Mark::Flat);
    sheet.path(if flats { "d-todo d-dash" } else { "d-todo" }, &to_do);

    let Some(present) = present else { return sheet.finish() };
    let mut now = Path::new();
    trace(&mut now, rim.mark, centre, radius, -PI / 2.0, step, present, true);
    sheet.path("d-now", &now);
    let tip = centre.shifted(0.0, -radius - 4.0);
    let mut index = Path::new();
    index.polygon(&[tip, tip.shifted(-7.0, -13.0), tip.shifted(7.0, -13.0)]);
    sheet.path("d-index", &index);
    let number = present.saturating_add(rim.first);
    let name = rim.numbers.at(number);
    if rim.numbers.every == 0 || name.is_some() {
        let name = name.unwrap_or_else(|| grouped(number));
        sheet.text("d-big", Stand::Middle, tip.shifted(0.0, -20.0), &name);
    }
    sheet.finish()
}

/// The divisions that there are to see, each once, and how far each is from the index, clockwise.
fn seen(rim: &Rim, at_top: u32, radius: f64, step: f64) -> Vec<(u32, f64)> {
    if !rim.angles.is_empty() {
        let top = rim.angles.get(at_top as usize).copied().unwrap_or(0.0);
        let from_top = rim.angles.iter().map(|turn| (turn - top) * 2.0 * PI);
        return (0..rim.divisions).zip(from_top).collect();
    }
    let divisions = rim.divisions.max(1);
    let half = COLUMN / 2.0 + 14.0;
    let near =
        |place: &u32| divisions <= ALL_ROUND || radius * sin_cos(f64::from(*place) * step).0 < half;
    let aside = (1..=divisions / 2).take_while(near).count() as u32;
    let turned = |place: i64| {
        let division = (i64::from(at_top) + place).rem_euclid(i64::from(divisions));
        (u32::try_from(division).unwrap_or(0), place as f64 * step)
    };
    let mut all: Vec<(u32, f64)> = (-i64::from(aside)..=i64::from(aside)).map(turned).collect();
    // On a full circle the lowest division of an even number is on both sides.
    if u64::from(aside) * 2 == u64::from(divisions) {
        all.remove(0);
    }
    all
}

/// The least angle between two neighbours, in radians.
fn closest(turns: &[f64]) -> f64 {
    let mut turns: Vec<f64> = turns.iter().map(|turn| turn.rem_euclid(1.0)).collect();
    turns.sort_by(f64::total_cmp);
    let round = turns.first().map(|first| first + 1.0);
    let next = turns.iter().skip(1).copied().chain(round);
    let least = turns.iter().zip(next).map(|(from, to)| to - from).fold(1.0, f64::min);
    least.max(0.001) * 2.0 * PI
}

fn said(rim: &Rim) -> String {
    let (one, many) = match rim.mark {
        Mark::Line(_) => ("line ", " lines"),
        Mark::Hole => ("hole ", " holes"),
        Mark::Flat => ("flat ", " flats"),
    };
    if rim.present().is_none() {
        return ["The rim: all ", &grouped(rim.divisions), many, " done."].concat();
    }
    let left = rim.divisions.saturating_sub(rim.made).saturating_sub(1);
    [
        "The rim: ",
        &grouped(rim.made),
        many,
        " done, ",
        one,
        &grouped(rim.made.saturating_add(1)),
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

    fn of(divisions: u32, made: u32) -> Rim<'static> {
        Rim {
            divisions,
            made,
            laps: 1,
            angles: &[],
            mark: Mark::Line(Lengths { long: 10, middle: 5 }),
            first: 0,
            numbers: Numbers { every: 10, worth: 10, places: 0 },
        }
    }

    fn strokes(picture: &str, class: &str) -> usize {
        let path = picture.split(&["class=\"", class, "\" d=\""].concat()).nth(1);
        path.map_or(0, |path| path.split('"').next().unwrap().matches('M').count())
    }

    #[test]
    fn only_what_is_seen_is_drawn_however_many_there_are() {
        for divisions in (2..400).chain([1000, 5000, 9999]) {
            for made in [0, 1, divisions / 2, divisions - 1, divisions] {
                let picture = rim(&of(divisions, made));
                assert!(picture.len() < 6_000, "{divisions}: {}", picture.len());
                assert_eq!(made < divisions, picture.contains("d-now"));
                assert_eq!(made > 0, picture.contains("\"d-done\""), "{divisions} {made}");
                assert_eq!(made == divisions, picture.contains("all "), "{divisions} {made}");
            }
        }
    }

    #[test]
    fn a_small_number_is_shown_whole() {
        for divisions in 2..=ALL_ROUND {
            for made in 0..=divisions {
                let picture = rim(&of(divisions, made));
                let done = strokes(&picture, "d-done");
                let to_do = strokes(&picture, "d-todo");
                let now = usize::from(made < divisions);
                assert_eq!((done, to_do + done + now), (made as usize, divisions as usize));
            }
        }
    }

    /// Two laps of 7 come to 0, 2, 4, 6, 1, 3, 5.
    #[test]
    fn a_way_that_goes_several_times_round_is_drawn_so() {
        let after = |made| Rim { laps: 2, first: 1, numbers: every(1), ..of(7, made) };
        let lapped = rim(&after(4));
        assert_eq!((strokes(&lapped, "d-done"), strokes(&lapped, "d-todo")), (4, 2));
        assert!(lapped.contains(">2</text>"), "the eighth place is division 2, counted from 1");
        assert_eq!(after(4).out_of_order(), [true, false, true, false, true, false, true]);
        assert!(after(7).out_of_order().iter().all(|done| *done));
        assert!(said(&after(4)).contains("line 5 of 7 at the cutter"));
    }

    fn every(every: u32) -> Numbers {
        Numbers { every, worth: every, places: 0 }
    }

    /// Angles of one's own are drawn where they are, the present one at the top.
    #[test]
    fn uneven_places_are_drawn_where_they_are() {
        let angles = [0.0, 0.25, 0.375];
        let picture = rim(&Rim { angles: &angles, first: 1, numbers: every(1), ..of(3, 1) });
        let start = |class: &str| -> (f64, f64) {
            let path = picture.split(&["class=\"", class, "\" d=\"M"].concat()).nth(1).unwrap();
            let (x, rest) = path.split_once(' ').unwrap();
            (x.parse().unwrap(), rest.split('L').next().unwrap().parse().unwrap())
        };
        let middle = (COLUMN / 2.0, TOP + ROUND_RADIUS);
        let edge = ROUND_RADIUS - 1.0;
        // The first is a quarter turn back of the second, the third an eighth on.
        let eighth = edge * 0.5_f64.sqrt();
        for (class, x, y) in [
            ("d-done", middle.0 - edge, middle.1),
            ("d-now", middle.0, middle.1 - edge),
            ("d-todo", middle.0 + eighth, middle.1 - eighth),
        ] {
            let found = start(class);
            assert!((found.0 - x).abs() < 0.02 && (found.1 - y).abs() < 0.02, "{class} {found:?}");
        }
        assert!((closest(&angles) - 2.0 * PI / 8.0).abs() < 1e-9);
        assert!((closest(&[0.0]) - 2.0 * PI).abs() < 1e-9);
    }

    #[test]
    fn nonsense_does_not_break_it() {
        for (divisions, made) in [(0, 0), (1, 0), (3, 9), (u32::MAX, u32::MAX)] {
            for mark in [Mark::Hole, Mark::Flat] {
                for laps in [0, 1, 5, u32::MAX] {
                    for angles in [&[][..], &[0.5], &[f64::NAN, 0.1, 0.1]] {
                        let first = u32::MAX;
                        let rim = Rim { mark, laps, angles, first, ..of(divisions, made) };
                        assert!(super::rim(&rim).ends_with("</svg>"));
                    }
                }
            }
        }
    }

    #[test]
    fn what_is_said_counts_from_one() {
        let rim = Rim { mark: Mark::Hole, ..of(40, 20) };
        assert_eq!(said(&rim), "The rim: 20 holes done, hole 21 of 40 at the cutter, 19 to do.");
        assert_eq!(said(&of(40, 40)), "The rim: all 40 lines done.");
    }
}
