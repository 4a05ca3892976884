//! A screw seated in its hole, cut through: head, seat, clearing hole, thread and drilled depth.

use super::dimension::{Note, notes};
use super::hatch::hatch;
use super::reckon::{half_tangent, length};
use super::sheet::{COLUMN, Path, Point, Sheet, at};

/// What the head sits in.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Seat {
    /// On the surface.
    Plain,
    /// In a flat-bottomed recess.
    Counterbore { diameter: f64, depth: f64 },
    /// In a cone of this included angle, as wide as this at the surface.
    Countersink { diameter: f64, included_deg: f64 },
}

/// A screw through one part into another, all lengths in one unit.
pub(crate) struct SeatedScrew<'a> {
    pub(crate) thread: f64,
    pub(crate) head_diameter: f64,
    /// Of a countersunk head, the whole height of the cone.
    pub(crate) head_height: f64,
    pub(crate) seat: Seat,
    pub(crate) clearance: f64,
    /// Thickness of the part with the clearing hole.
    pub(crate) thickness: f64,
    /// Length of screw in the tapped part.
    pub(crate) engaged: f64,
    pub(crate) tap_drill: f64,
    /// Full depth of the tapping hole, without the drill's point.
    pub(crate) drilled: f64,
    /// Labels, from the top down; an empty one is left out.
    pub(crate) head_words: &'a str,
    pub(crate) seat_words: &'a str,
    pub(crate) clearance_words: &'a str,
    pub(crate) tap_words: &'a str,
    pub(crate) drilled_words: &'a str,
}

const AXIS: f64 = 88.0;
const LEFT: f64 = 10.0;
const RIGHT: f64 = 166.0;
const HIGH: f64 = 220.0;
const TOP: f64 = 16.0;
/// Tangent of the angle that a drill's point of 118° falls by.
const DRILL_POINT: f64 = 0.601;

/// The seated screw in section.
pub(crate) fn seated_screw(screw: &SeatedScrew) -> String {
    let mut seat_width = length(screw.head_diameter);
    // How far the head's bearing face lies below the surface, and how far its top stands out.
    let (seat_depth, proud) = match screw.seat {
        Seat::Plain => (0.0, length(screw.head_height)),
        Seat::Counterbore { diameter, depth } => {
            seat_width = seat_width.max(length(diameter));
            (length(depth), (screw.head_height - depth).max(0.0))
        }
        Seat::Countersink { diameter, .. } => {
            seat_width = seat_width.max(length(diameter));
            (0.0, 0.0)
        }
    };
    let drilled = length(screw.drilled).max(length(screw.engaged));
    let point = length(screw.tap_drill) / 2.0 * DRILL_POINT;
    let tall = proud + length(screw.thickness) + drilled + point;
    let scale = (HIGH / (tall * 1.12)).min(112.0 / seat_width.max(length(screw.clearance)));
    let surface = TOP + proud * scale;
    let joint = surface + length(screw.thickness) * scale;
    let bottom = joint + drilled * scale;
    let floor = bottom + point * scale + 14.0;
    let said = [
        "Screw in section",
        &[
            screw.head_words,
            screw.seat_words,
            screw.clearance_words,
            screw.tap_words,
            screw.drilled_words,
        ]
        .iter()
        .filter(|words| !words.is_empty())
        .fold(String::new(), |mut all, words| {
            all.push_str(if all.is_empty() { ": " } else { ", " });
            all.push_str(words);
            all
        }),
        ".",
    ]
    .concat();
    let mut sheet = Sheet::new("screw", COLUMN, floor + 10.0, &said);

    let half = |diameter: f64| length(diameter) * scale / 2.0;
    let (clear, thread, drill) = (half(screw.clearance), half(screw.thread), half(screw.tap_drill));
    // The wall of the upper hole, from the surface down: distance from the axis, height.
    let mut wall: Vec<(f64, f64)> = Vec::new();
    match screw.seat {
        Seat::Plain => wall.push((clear, surface)),
        Seat::Counterbore { diameter, .. } => {
            let (wide, deep) = (half(diameter), (surface + seat_depth * scale).min(joint));
            wall.extend([(wide, surface), (wide, deep), (clear, deep)]);
        }
        Seat::Countersink { diameter, included_deg } => {
            let slope = half_tangent(included_deg, 20.0, 160.0);
            let wide = half(diameter).max(clear);
            let deep = (surface + (wide - clear) / slope).min(joint);
            wall.extend([(wide, surface), (clear, deep)]);
        }
    }
    wall.push((clear, joint));
    let hole = [(drill, joint), (drill, bottom)];
    let tip = at(AXIS, bottom + drill * DRILL_POINT);

    for side in [-1.0, 1.0] {
        let place = |(out, y): &(f64, f64)| at(AXIS + side * out, *y);
        let edge = if side < 0.0 { LEFT } else { RIGHT };
        let mut upper: Vec<Point> = wall.iter().map(place).collect();
        upper.extend([at(edge, joint), at(edge, surface)]);
        let mut lower: Vec<Point> = hole.iter().map(place).collect();
        lower.extend([tip, at(AXIS, floor), at(edge, floor), at(edge, joint)]);
        let mut lines = Path::new();
        hatch(&mut lines, &upper, 7.0, true);
        hatch(&mut lines, &lower, 7.0, false);
        sheet.path("d-hatch", &lines);
        let mut edges = Path::new();
        edges.go(at(edge, surface));
        for corner in &wall {
            edges.line(place(corner));
        }
        edges.stroke(at(edge, joint), place(&(drill, joint)));
        edges.line(place(&(drill, bottom))).line(tip);
        edges.stroke(place(&(drill, bottom)), at(AXIS, bottom));
        sheet.path("d-ink", &edges);
    }

    draw_screw(&mut sheet, screw, scale, surface, joint, seat_depth, thread, drill);
    sheet.line("d-chain", at(AXIS, 4.0), at(AXIS, floor + 6.0));

    let head = half(screw.head_diameter);
    let seat_out = wall.first().map_or(clear, |corner| corner.0);
    let seat_low = wall.get(1).map_or(surface, |corner| corner.1);
    let head_top = match screw.seat {
        Seat::Countersink { .. } => surface,
        _ => surface + (seat_depth - length(screw.head_height)) * scale,
    };
    let seat_place = match screw.seat {
        Seat::Countersink { .. } => at(AXIS + (seat_out + clear) / 2.0, (surface + seat_low) / 2.0),
        _ => at(AXIS + seat_out, (surface + seat_low) / 2.0 + 2.0),
    };
    let all = [
        Note { place: at(AXIS + head * 0.72, head_top + 6.0), words: screw.head_words },
        Note { place: seat_place, words: screw.seat_words },
        Note { place: at(AXIS + clear, (seat_low + joint) / 2.0), words: screw.clearance_words },
        Note {
            place: at(AXIS + thread, joint + length(screw.engaged) * scale * 0.5),
            words: screw.tap_words,
        },
        Note { place: at(AXIS + drill, bottom), words: screw.drilled_words },
    ];
    notes(&mut sheet, &all, RIGHT + 4.0, RIGHT + 22.0, 14.0, floor);
    sheet.finish()
}

/// The screw itself: screws aren't cut through in a section.
#[allow(clippy::too_many_arguments)]
fn draw_screw(
    sheet: &mut Sheet,
    screw: &SeatedScrew,
    scale: f64,
    surface: f64,
    joint: f64,
    seat_depth: f64,
    thread: f64,
    drill: f64,
) {
    let head = screw.head_diameter.max(screw.thread).max(1e-3) * scale / 2.0;
    let high = screw.head_height.max(1e-3) * scale;
    let end = joint + screw.engaged.max(1e-3) * scale;
    let bearing = surface + seat_depth * scale;
    let mut shape = Path::new();
    let sunk = matches!(screw.seat, Seat::Countersink { .. });
    // A countersunk head lies as deep as its cone lets it: flush, or below by what the seat is wider.
    let (top, foot) = match screw.seat {
        Seat::Countersink { diameter, included_deg } => {
            let slope = half_tangent(included_deg, 20.0, 160.0);
            let below = ((diameter * scale / 2.0 - head) / slope).max(0.0);
            (surface + below, surface + below + (head - thread).max(0.0) / slope)
        }
        _ => (bearing - high, bearing),
    };
    let chamfer = (thread - drill).max(1.0);
    let tip = end.max(foot + chamfer);
    let shoulder = if sunk { thread } else { head };
    shape.polygon(&[
        at(AXIS - head, top),
        at(AXIS + head, top),
        at(AXIS + shoulder, foot),
        at(AXIS + thread, foot),
        at(AXIS + thread, tip - chamfer),
        at(AXIS + thread - chamfer, tip),
        at(AXIS - thread + chamfer, tip),
        at(AXIS - thread, tip - chamfer),
        at(AXIS - thread, foot),
        at(AXIS - shoulder, foot),
    ]);
    sheet.path("d-driven d-heavy", &shape);
    // Thread as on a works drawing: a fine line at the root; the socket as hidden lines.
    let mut root = Path::new();
    for side in [-1.0, 1.0] {
        let x = AXIS + side * (thread - chamfer);
        root.stroke(at(x, (joint - thread).max(foot + 2.0)), at(x, tip));
    }
    sheet.path("d-fine", &root);
    let socket = head * 0.45;
    let deep = top + high * 0.5;
    let mut hidden = Path::new();
    hidden.go(at(AXIS - socket, top)).line(at(AXIS - socket, deep));
    hidden.line(at(AXIS, deep + socket * 0.4)).line(at(AXIS + socket, deep));
    hidden.line(at(AXIS + socket, top));
    sheet.path("d-hidden", &hidden);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn odd_screws_are_drawn() {
        let seats = [
            Seat::Plain,
            Seat::Counterbore { diameter: 11.0, depth: 6.5 },
            Seat::Countersink { diameter: 12.0, included_deg: 90.0 },
            Seat::Counterbore { diameter: f64::NAN, depth: -3.0 },
        ];
        for seat in seats {
            for size in [0.0, 6.0, f64::NAN, 1e6] {
                let picture = seated_screw(&SeatedScrew {
                    thread: size,
                    head_diameter: size * 1.6,
                    head_height: size,
                    seat,
                    clearance: size * 1.1,
                    thickness: size * 2.0,
                    engaged: size * 1.5,
                    tap_drill: size * 0.85,
                    drilled: size * 2.0,
                    head_words: "flush",
                    seat_words: "",
                    clearance_words: "Ø 6.6 clears",
                    tap_words: "",
                    drilled_words: "",
                });
                assert!(picture.contains("Screw in section: flush, Ø 6.6 clears."));
                assert!(picture.len() < 40_000, "{size} {}", picture.len());
            }
        }
    }
}
