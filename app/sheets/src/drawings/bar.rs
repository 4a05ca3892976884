//! A bar with its holes or lines to scale: what is done, what is under the spindle, what is to come.

use super::dimension::dimension;
use super::lettering::{Area, WORD, width_at};
use super::reckon::{length, within};
use super::sheet::{COLUMN, Path, Sheet, Stand, at, grouped};

/// A bar with places in a row, all lengths in one unit.
#[derive(Clone, Copy)]
pub(crate) struct Bar<'a> {
    pub(crate) places: u32,
    /// How many are done; the next is under the spindle.
    pub(crate) made: u32,
    /// Whether lines are drawn, not holes drilled.
    pub(crate) lines: bool,
    pub(crate) pitch: f64,
    /// From the left end to the first, and from the last to the right end, where they are known.
    pub(crate) ends: [Option<f64>; 2],
    /// How wide a hole is, where that is known.
    pub(crate) drill: Option<f64>,
    /// From the middle of a hole to the nearer side, where that is known.
    pub(crate) side: Option<f64>,
    pub(crate) pitch_words: &'a str,
    pub(crate) overall_words: &'a str,
    pub(crate) first_words: &'a str,
}

/// Room for a bar between the margins.
const WIDE: f64 = COLUMN - 44.0;
/// The least that a space may take, so that one place is told from the next.
const SPACE: f64 = 9.0;
/// How far a bar that goes on is drawn beyond its places.
const BEYOND: f64 = 24.0;
/// Where the bar's nearer side stands, leaving room for the number and the index.
const TOP: f64 = 50.0;
const HALF_LEAST: f64 = 20.0;
const HALF_MOST: f64 = 40.0;

/// What of the bar is to be seen, and where.
struct Seen {
    scale: f64,
    /// Where the first of them stands, px.
    start: f64,
    from: u32,
    to: u32,
    /// Where the bar ends, px, and whether it goes on there.
    ends: [(f64, bool); 2],
}

impl Seen {
    fn x(&self, bar: &Bar, place: u32) -> f64 {
        self.start + (f64::from(place) - f64::from(self.from)) * length(bar.pitch) * self.scale
    }

    /// Whether it is seen from end to end, or all of its places at the least.
    fn all(&self, places: u32) -> bool {
        self.from == 0 && self.to + 1 == places
    }
}

/// The bar from above, the first place to the left.
pub(crate) fn bar(bar: &Bar) -> String {
    let places = bar.places.max(2);
    let seen = seen(bar, places);
    let radius = bar.drill.map_or(3.0, |drill| within(drill * seen.scale / 2.0, 1.2, HALF_MOST));
    let near = match bar.side {
        Some(side) => within(side * seen.scale, 4.0, HALF_MOST),
        None => within(radius + 8.0, HALF_LEAST, HALF_MOST),
    };
    let middle = TOP + near;
    let under = middle + near.max(radius + 4.0).max(HALF_LEAST);
    let overall = seen.all(places) && places > 2;
    let height = under + if overall { 76.0 } else { 40.0 };
    let mut sheet = Sheet::new("bar", COLUMN, height, &said(bar, places));
    sheet.path("d-driven d-heavy", &outline(&seen, under));

    let present = (bar.made < places).then_some(bar.made);
    let (mut done, mut to_do) = (Path::new(), Path::new());
    for place in seen.from..=seen.to {
        let is_done = place < bar.made;
        let path = if is_done { &mut done } else { &mut to_do };
        let x = seen.x(bar, place);
        if Some(place) == present {
            continue;
        }
        if bar.lines {
            path.stroke(at(x, TOP + 1.0), at(x, middle + 4.0));
        } else {
            path.circle(at(x, middle), radius);
            // A drilled hole is a ring with its middle marked; one to come, a ring alone.
            if is_done {
                path.circle(at(x, middle), radius * 0.4);
            }
        }
    }
    sheet.path("d-todo", &to_do);
    sheet.path("d-done", &done);
    if !bar.lines {
        sheet.line("d-chain", at(seen.ends[0].0 + 3.0, middle), at(seen.ends[1].0 - 3.0, middle));
    }
    if let Some(present) = present {
        let x = seen.x(bar, present);
        let mut now = Path::new();
        if bar.lines {
            now.stroke(at(x, TOP + 1.0), at(x, middle + 4.0));
            sheet.path("d-now", &now);
        } else {
            sheet.circle("d-now-ring", at(x, middle), radius);
            sheet.circle("d-index", at(x, middle), (radius * 0.5).max(1.2));
        }
        let mut index = Path::new();
        let tip = at(x, TOP - 4.0);
        index.polygon(&[tip, tip.shifted(-7.0, -13.0), tip.shifted(7.0, -13.0)]);
        sheet.path("d-index", &index);
        let number = grouped(present + 1);
        let inside = inside(&number, 24.0 * 1.1, x);
        sheet.text("d-big", Stand::Middle, at(inside, TOP - 24.0), &number);
    }
    dimensions(&mut sheet, bar, &seen, under, overall);
    sheet.finish()
}

/// The space at the right, the first from its end, and from first to last.
fn dimensions(sheet: &mut Sheet, bar: &Bar, seen: &Seen, under: f64, overall: bool) {
    let mut extension = Path::new();
    let mut between = |sheet: &mut Sheet, from: f64, to: f64, y: f64| {
        for x in [from, to] {
            extension.stroke(at(x, under + 3.0), at(x, y + 5.0));
        }
        dimension(sheet, at(from, y), at(to, y));
    };
    let row = under + 14.0;
    let (last, before) = (seen.x(bar, seen.to), seen.x(bar, seen.to.saturating_sub(1)));
    let pitch = Words::beside(bar.pitch_words, before, last, row, true);
    between(sheet, before, last, row);
    pitch.letter(sheet);
    let (end, goes_on) = seen.ends[0];
    let first = seen.x(bar, 0);
    if seen.from == 0 && !goes_on && first - end > 2.0 && !bar.first_words.is_empty() {
        let words = Words::beside(bar.first_words, end, first, row, false);
        // Where there is no room it is left out: it stands in the sentence.
        if !words.area.near(&pitch.area, 6.0) {
            between(sheet, end, first, row);
            words.letter(sheet);
        }
    }
    if overall {
        let row = row + 36.0;
        between(sheet, first, last, row);
        let words = inside(bar.overall_words, WORD, f64::midpoint(first, last));
        sheet.text("d-dim", Stand::Middle, at(words, row + 19.0), bar.overall_words);
    }
    sheet.path("d-leader", &extension);
}

/// Words of a dimension, and all the room that they take with its arrows.
struct Words<'a> {
    words: &'a str,
    middle: f64,
    baseline: f64,
    area: Area,
}

impl<'a> Words<'a> {
    /// Below the line where they fit between its ends, else beside it, where no other line crosses
    /// them: to the left or to the right, if there is room.
    fn beside(words: &'a str, from: f64, to: f64, row: f64, leftwards: bool) -> Words<'a> {
        let wide = width_at(words, WORD);
        let (top, bottom) = (row - 8.0, row + 20.0);
        if to - from > wide + 10.0 {
            let area = Area { left: from, right: to, top, bottom };
            return Words { words, middle: f64::midpoint(from, to), baseline: row + 18.0, area };
        }
        // Arrows of a short dimension stand outside it.
        let arrow = if to - from > 22.0 { 0.0 } else { 16.0 };
        let (left, right) = (from - arrow - 6.0 - wide, to + arrow + 6.0);
        let fits_right = right + wide + 3.0 <= COLUMN;
        let start = if left >= 3.0 && (leftwards || !fits_right) { left } else { right };
        let start = within(start, 3.0, COLUMN - wide - 3.0);
        let area = Area {
            left: start.min(from - arrow),
            right: (start + wide).max(to + arrow),
            top,
            bottom,
        };
        Words { words, middle: start + wide / 2.0, baseline: row + 5.0, area }
    }

    fn letter(&self, sheet: &mut Sheet) {
        sheet.text("d-dim", Stand::Middle, at(self.middle, self.baseline), self.words);
    }
}

/// The middle of lettering moved so far that it stays on the sheet.
fn inside(words: &str, size: f64, middle: f64) -> f64 {
    let half = width_at(words, size) / 2.0 + 3.0;
    within(middle, half, COLUMN - half)
}

/// All of it where the places stay apart, else as much as there is room for about the present one.
fn seen(bar: &Bar, places: u32) -> Seen {
    let pitch = length(bar.pitch);
    let known = |end: Option<f64>| end.map(|end| within(end, 0.0, 1e9));
    let ends = bar.ends.map(known);
    let spaces = f64::from(places - 1);
    let overall = spaces * pitch;
    let along: f64 = overall + ends.iter().flatten().sum::<f64>();
    let open = ends.iter().filter(|end| end.is_none()).count() as f64;
    let scale = (WIDE - open * BEYOND) / along;
    let left = (COLUMN - WIDE) / 2.0;
    if scale * pitch >= SPACE {
        let start = left + ends[0].map_or(BEYOND, |end| end * scale);
        let last = start + overall * scale;
        let right = last + ends[1].map_or(BEYOND, |end| end * scale);
        let ends = [(left, ends[0].is_none()), (right, ends[1].is_none())];
        return Seen { scale, start, from: 0, to: places - 1, ends };
    }
    // At a wider scale than the whole bar has room for.
    let room = WIDE - 2.0 * BEYOND;
    let shown = (spaces + 1.0).min((room / SPACE).floor() + 1.0) as u32;
    let scale = if shown == places { room / overall } else { SPACE / pitch };
    let from = bar.made.saturating_sub(shown / 2).min(places - shown);
    let to = from + shown - 1;
    let start = left + BEYOND;
    let last = start + f64::from(shown - 1) * pitch * scale;
    let end = |at_end: bool, end: Option<f64>| {
        let end = end.filter(|_| at_end).map(|end| end * scale).filter(|end| *end <= BEYOND);
        (end.unwrap_or(BEYOND), end.is_none())
    };
    let (before, after) = (end(from == 0, ends[0]), end(to + 1 == places, ends[1]));
    let ends = [(start - before.0, before.1), (last + after.0, after.1)];
    Seen { scale, start, from, to, ends }
}

/// The bar's outline, broken off where it goes on.
fn outline(seen: &Seen, under: f64) -> Path {
    let [(left, goes_left), (right, goes_right)] = seen.ends;
    let mut body = Path::new();
    let half = (under - TOP) / 2.0;
    body.go(at(left, TOP)).line(at(right, TOP));
    if goes_right {
        body.bend(at(right - 6.0, TOP + half / 2.0), at(right, TOP + half));
        body.bend(at(right + 6.0, under - half / 2.0), at(right, under));
    } else {
        body.line(at(right, under));
    }
    body.line(at(left, under));
    if goes_left {
        body.bend(at(left + 6.0, under - half / 2.0), at(left, TOP + half));
        body.bend(at(left - 6.0, TOP + half / 2.0), at(left, TOP));
    }
    body.close();
    body
}

fn said(bar: &Bar, places: u32) -> String {
    let (one, many) = if bar.lines { ("line ", " lines") } else { ("hole ", " holes") };
    let row = ["The bar: ", &grouped(places), many, " ", bar.pitch_words, " apart"].concat();
    if bar.made >= places {
        return [&row, ", all done."].concat();
    }
    let left = places - bar.made - 1;
    [
        &row,
        ", ",
        &grouped(bar.made),
        " done, ",
        one,
        &grouped(bar.made + 1),
        " under the spindle, ",
        &grouped(left),
        " to do.",
    ]
    .concat()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(places: u32, made: u32) -> Bar<'static> {
        Bar {
            places,
            made,
            lines: false,
            pitch: 32.0,
            ends: [Some(13.0), Some(13.0)],
            drill: Some(5.0),
            side: None,
            pitch_words: "32 mm",
            overall_words: "224 mm",
            first_words: "13 mm",
        }
    }

    fn circles(picture: &str, class: &str) -> Vec<f64> {
        let path = picture.split(&["class=\"", class, "\" d=\"M"].concat()).nth(1);
        let path = path.map_or("", |path| path.split('"').next().unwrap());
        let starts = path.split('M').filter_map(|from| from.split(' ').next()?.parse().ok());
        starts.collect()
    }

    #[test]
    fn holes_stand_to_scale_and_as_many_as_there_are() {
        // 250 mm of bar in 298 px; a hole's left edge lies 2.5 mm before its middle.
        let scale = WIDE / 250.0;
        let picture = bar(&of(8, 0));
        let to_do = circles(&picture, "d-todo");
        assert_eq!(to_do.len(), 7, "the present one is lit instead");
        for (place, edge) in (1..8).zip(to_do) {
            let want = 22.0 + (13.0 + 32.0 * f64::from(place) - 2.5) * scale;
            assert!((edge - want).abs() < 0.02, "{place}: {edge}, not {want}");
        }
        let done = bar(&of(8, 8));
        assert_eq!(circles(&done, "d-done").len(), 16, "each with its middle marked");
        assert!(!done.contains("d-now-ring") && done.contains("all done"));
        assert!(picture.contains("d-now-ring") && picture.contains(">224 mm</text>"));
    }

    #[test]
    fn only_what_is_seen_is_drawn_however_many_there_are() {
        for made in [0, 1, 400, 998, 999] {
            let picture = bar(&of(999, made));
            assert!(picture.len() < 9_000, "{made}: {}", picture.len());
            assert_eq!(made < 999, picture.contains("d-now-ring"), "{made}");
        }
    }

    #[test]
    fn what_is_said_counts_from_one() {
        let lines = Bar { lines: true, ..of(40, 20) };
        assert_eq!(
            said(&lines, 40),
            "The bar: 40 lines 32 mm apart, 20 done, line 21 under the spindle, 19 to do."
        );
    }

    #[test]
    fn nonsense_does_not_break_it() {
        for places in [0, 1, 2, 3, u32::MAX] {
            for made in [0, 1, u32::MAX] {
                for pitch in [0.0, -1.0, f64::NAN, 1e-9, 1e12] {
                    for end in [None, Some(0.0), Some(f64::NAN), Some(1e12)] {
                        let odd = Bar { pitch, ends: [end, None], drill: end, ..of(places, made) };
                        assert!(bar(&odd).ends_with("</svg>"));
                    }
                }
            }
        }
    }
}
