//! A thread cut through along its axis, with the tool above it and its passes within.

use super::dimension::{arrow, dimension};
use super::hatch::hatch;
use super::lettering::{WORD, fitted, width_at};
use super::reckon::{half_tangent, length, within};
use super::sheet::{COLUMN, Path, Point, Sheet, Stand, at};

/// A thread's form, all lengths in one unit.
pub(crate) struct ThreadSection<'a> {
    /// Angle between the flanks, in degrees; 0 for a square thread.
    pub(crate) included_deg: f64,
    pub(crate) pitch: f64,
    pub(crate) depth: f64,
    /// Width of the flat that is left between grooves.
    pub(crate) crest: f64,
    /// Whether crests and roots are rounded.
    pub(crate) rounded: bool,
    /// Depths after each pass, rising.
    pub(crate) passes: &'a [f64],
    /// Whether the tool goes in along one flank, rather than straight.
    pub(crate) along_flank: bool,
    /// Inside a hole rather than outside a shaft.
    pub(crate) inside: bool,
    pub(crate) pitch_words: &'a str,
    pub(crate) depth_words: &'a str,
    pub(crate) passes_words: &'a str,
    /// The least and the most that the depth may be, and in words.
    pub(crate) limits: Option<(f64, f64)>,
    pub(crate) limits_words: &'a str,
}

const LEFT: f64 = 16.0;
const MIDDLE: f64 = 128.0;
const RIGHT: f64 = 2.0 * MIDDLE - LEFT;
/// Length of plain shank that is drawn of the tool, and how far it is drawn back.
const SHANK: f64 = 24.0;
const BACK: f64 = 12.0;
const BODY: f64 = 30.0;
/// At most so many passes are drawn, evenly picked.
const PASSES_MOST: usize = 16;

/// A groove's shape on the sheet.
struct Groove {
    /// Height of the surface that is threaded.
    surface: f64,
    depth: f64,
    /// Half of its width at the bottom.
    half_root: f64,
    /// Sideways for each unit down.
    slope: f64,
}

impl Groove {
    /// The tool's edge at a depth: left of the surface, left and right of the bottom, right of the surface.
    fn at(&self, middle: f64, depth: f64) -> [Point; 4] {
        let half = self.half_root + depth * self.slope;
        [
            at(middle - half, self.surface),
            at(middle - self.half_root, self.surface + depth),
            at(middle + self.half_root, self.surface + depth),
            at(middle + half, self.surface),
        ]
    }
}

/// The section to scale, its dimensions given in words.
pub(crate) fn thread_section(thread: &ThreadSection) -> String {
    let (pitch, depth) = (length(thread.pitch), length(thread.depth));
    let depth = depth.min(pitch * 3.0);
    let scale = ((MIDDLE - LEFT) / pitch).min(116.0 / depth);
    let slope = half_tangent(thread.included_deg, 0.0, 120.0);
    let wide = pitch * scale;
    let crest = length(thread.crest).min(pitch * 0.9) * scale;
    let deep = depth * scale;
    // A groove no wider than its pitch allows, whatever was entered.
    let slope = slope.min((wide - crest) / 2.0 / deep);
    let half_root = (wide - crest) / 2.0 - deep * slope;
    let surface = 6.0 + SHANK + deep + BACK;
    let groove = Groove { surface, depth: deep, half_root, slope };
    let floor = surface + deep + BODY;
    let height = floor + 34.0;
    // Inside, the same drawing stands on its head.
    let turn = |p: Point| if thread.inside { at(p.x, height - p.y) } else { p };
    let mut sheet = Sheet::new("thread", COLUMN, height, &said(thread));

    let outline = outline(&groove, wide);
    let turned: Vec<Point> = outline.iter().map(|p| turn(*p)).collect();
    let mut body = Path::new();
    body.polygon(&turned);
    sheet.path("d-plain", &body);
    let mut lines = Path::new();
    hatch(&mut lines, &turned, 6.0, true);
    sheet.path("d-hatch", &lines);
    // The surface itself is drawn; where the drawing stops, nothing is.
    let mut crests = Path::new();
    let seen = turned.len().saturating_sub(2);
    rounded(&mut crests, turned.get(..seen).unwrap_or(&[]), thread.rounded, wide * 0.09);
    sheet.path("d-ink", &crests);

    let mut passes = Path::new();
    let every = thread.passes.len().div_ceil(PASSES_MOST).max(1);
    let last = thread.passes.len().saturating_sub(1);
    for (index, pass) in thread.passes.iter().enumerate() {
        let depth = within(pass * scale, 0.0, deep);
        if depth >= deep || !(last - index).is_multiple_of(every) {
            continue;
        }
        let aside = if thread.along_flank { (deep - depth) * slope } else { 0.0 };
        for (place, point) in groove.at(MIDDLE - aside, depth).iter().enumerate() {
            // What is left of the finished groove's edge would cut air.
            let edge = MIDDLE - half_root - (deep - (point.y - surface)) * slope;
            let kept = turn(at(point.x.max(edge), point.y));
            if place == 0 {
                passes.go(kept)
            } else {
                passes.line(kept)
            };
        }
    }
    sheet.path("d-pass", &passes);

    // The tool, drawn back, its flanks as long as the groove is deep and a little over.
    let opening = half_root + deep * slope;
    let over = if slope > 0.05 { 5.0 } else { 0.0 };
    let (shank, lift) = (opening + over * slope, -(deep + BACK));
    let mut tool: Vec<Point> = groove.at(MIDDLE, deep).to_vec();
    for (place, x) in [(0, MIDDLE - shank), (tool.len() + 1, MIDDLE + shank)] {
        tool.insert(place, at(x, surface - over));
    }
    tool.insert(0, at(MIDDLE - shank, surface - SHANK));
    tool.push(at(MIDDLE + shank, surface - SHANK));
    let tool: Vec<Point> = tool.iter().map(|p| turn(p.shifted(0.0, lift))).collect();
    let mut drawn = Path::new();
    drawn.polygon(&tool);
    sheet.path("d-tool", &drawn);

    let mut extension = Path::new();
    let dimension_x = RIGHT + 13.0;
    let root_right = MIDDLE + wide + half_root;
    for (from, y) in [(root_right.min(RIGHT), surface + deep), (RIGHT, surface)] {
        extension.stroke(turn(at(from + 2.0, y)), turn(at(dimension_x + 5.0, y)));
    }
    let under = floor + 14.0;
    for x in [MIDDLE - wide, MIDDLE] {
        extension.stroke(turn(at(x, surface + deep + 2.0)), turn(at(x, under + 5.0)));
    }
    sheet.path("d-leader", &extension);
    dimension(&mut sheet, turn(at(dimension_x, surface)), turn(at(dimension_x, surface + deep)));
    let words = turn(at(dimension_x + 7.0, surface + deep / 2.0));
    let fitting = fitted(thread.depth_words, WORD, COLUMN - words.x - 2.0);
    sheet.text("d-dim", Stand::Start, words.shifted(0.0, 5.0), &fitting);
    dimension(&mut sheet, turn(at(MIDDLE - wide, under)), turn(at(MIDDLE, under)));
    let beside = turn(at(MIDDLE + 10.0, under)).shifted(0.0, 5.0);
    sheet.text("d-dim", Stand::Start, beside, thread.pitch_words);

    if let Some((least, most)) = thread.limits {
        let mut limits = Path::new();
        for depth in [least, most] {
            let y = surface + within(depth * scale, 0.0, deep + BODY * 0.6);
            limits.stroke(turn(at(RIGHT - half_root, y)), turn(at(dimension_x - 6.0, y)));
        }
        sheet.path("d-hidden", &limits);
        // "0.828 to 0.928 mm" has no room on one line: its two ends stand one under the other.
        let parts = match thread.limits_words.find(" to ") {
            Some(at) => thread.limits_words.split_at(at + " to".len()),
            None => (thread.limits_words, ""),
        };
        for (part, down) in [(parts.0, 23.0), (parts.1.trim_start(), 40.0)] {
            if !part.is_empty() {
                let fitting = fitted(part, WORD, COLUMN - words.x - 2.0);
                sheet.text("d-word", Stand::Start, words.shifted(0.0, down), &fitting);
            }
        }
    }

    if !thread.passes_words.is_empty() {
        let wide = width_at(thread.passes_words, WORD);
        let start = at(LEFT + wide + 4.0, surface - 26.0);
        let end = at(MIDDLE - opening * 0.55, surface + deep * 0.12);
        sheet.line("d-leader", turn(start), turn(end));
        let mut head = Path::new();
        let (a, b) = (turn(start), turn(end));
        arrow(&mut head, a, b);
        sheet.path("d-dot", &head);
        let words = turn(at(LEFT, surface - 26.0)).shifted(0.0, 5.0);
        sheet.text("d-dim", Stand::Start, words, thread.passes_words);
    }
    sheet.finish()
}

/// The material from the left edge along the grooves to the right edge, then back below.
fn outline(groove: &Groove, wide: f64) -> Vec<Point> {
    let floor = groove.surface + groove.depth + BODY;
    let mut points = Vec::new();
    let count = ((RIGHT - LEFT) / wide).min(40.0) as i32 + 2;
    for place in -count..=count {
        points.extend(groove.at(MIDDLE + f64::from(place) * wide, groove.depth));
    }
    // Cut off at both edges, where a line crosses them.
    let mut kept: Vec<Point> = Vec::new();
    for pair in points.windows(2) {
        let [from, to] = *pair else { continue };
        for edge in [LEFT, RIGHT] {
            if (from.x < edge) != (to.x < edge) {
                let share = (edge - from.x) / (to.x - from.x);
                kept.push(at(edge, from.y + (to.y - from.y) * share));
            }
        }
        if (LEFT..=RIGHT).contains(&to.x) {
            kept.push(to);
        }
    }
    kept.push(at(RIGHT, floor));
    kept.push(at(LEFT, floor));
    kept
}

/// A line through the places, its corners cut by curves where they are rounded.
fn rounded(path: &mut Path, points: &[Point], round: bool, size: f64) {
    let Some(first) = points.first() else { return };
    path.go(*first);
    for triple in points.windows(3) {
        let [before, corner, after] = *triple else { continue };
        if round {
            let toward = |other: Point| {
                let share = (size / corner.distance(other).max(1e-6)).min(0.5);
                at(corner.x + (other.x - corner.x) * share, corner.y + (other.y - corner.y) * share)
            };
            path.line(toward(before)).bend(corner, toward(after));
        } else {
            path.line(corner);
        }
    }
    if let Some(last) = points.last() {
        path.line(*last);
    }
}

fn said(thread: &ThreadSection) -> String {
    [
        if thread.inside { "Inside thread in section" } else { "Outside thread in section" },
        ", pitch ",
        thread.pitch_words,
        ", depth ",
        thread.depth_words,
        if thread.passes_words.is_empty() { "" } else { ", in " },
        thread.passes_words,
        if thread.along_flank { ", fed in along the flank." } else { ", fed straight in." },
    ]
    .concat()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn odd_threads_are_drawn() {
        for (angle, pitch, depth, crest) in [
            (60.0, 1.5, 0.92, 0.19),
            (0.0, 2.0, 1.0, 1.0),
            (f64::NAN, f64::NAN, f64::NAN, f64::NAN),
            (60.0, 0.0, 0.0, 0.0),
            (180.0, 1.0, 50.0, 2.0),
            (29.0, 1e-9, 1e9, 1.0),
        ] {
            for inside in [false, true] {
                let thread = ThreadSection {
                    included_deg: angle,
                    pitch,
                    depth,
                    crest,
                    rounded: inside,
                    passes: &[0.1, 0.2, f64::NAN, 0.5],
                    along_flank: true,
                    inside,
                    pitch_words: "",
                    depth_words: "",
                    passes_words: "",
                    limits: Some((depth * 0.9, depth)),
                    limits_words: "",
                };
                let picture = thread_section(&thread);
                assert!(picture.ends_with("</svg>") && picture.len() < 100_000, "{angle} {pitch}");
            }
        }
    }

    #[test]
    fn the_groove_is_to_scale() {
        // ISO 68-1: depth 17/24 H cut from a crest of P/8 leaves a root of P/6 at 60°.
        let pitch = 96.0;
        let depth = 17.0 / 24.0 * pitch * 3.0_f64.sqrt() / 2.0;
        let slope = 30.0_f64.to_radians().tan();
        let half_root = (pitch - pitch / 8.0) / 2.0 - depth * slope;
        assert!((half_root * 2.0 - pitch / 6.0).abs() < 1e-9);
        let groove = Groove { surface: 0.0, depth, half_root, slope };
        let points = outline(&groove, pitch);
        let deepest = points.iter().map(|p| p.y).fold(0.0, f64::max);
        assert!((deepest - (depth + BODY)).abs() < 1e-9);
        assert!(points.iter().all(|p| (LEFT..=RIGHT).contains(&p.x)));
    }

    #[test]
    fn both_limits_of_the_depth_can_be_read() {
        for (words, lines) in [
            ("0.828 to 0.928 mm", &["0.828 to", "0.928 mm"][..]),
            ("0.0331 to 0.0365 in", &["0.0331 to", "0.0365 in"][..]),
            ("± 35 µm", &["± 35 µm"][..]),
        ] {
            let svg = thread_section(&ThreadSection {
                included_deg: 60.0,
                pitch: 1.5,
                depth: 0.92,
                crest: 0.19,
                rounded: false,
                passes: &[0.5, 0.92],
                along_flank: false,
                inside: false,
                pitch_words: "1.5 mm",
                depth_words: "0.920 mm",
                passes_words: "2 passes",
                limits: Some((0.828, 0.928)),
                limits_words: words,
            });
            for line in lines {
                assert!(svg.contains(&[">", line, "</text>"].concat()), "{line}: {svg}");
            }
        }
    }
}
