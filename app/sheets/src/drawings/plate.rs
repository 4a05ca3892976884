//! The division plate with its pin and arms, or the gear used as one with its detent.

use core::f64::consts::PI;

use super::gear;
use super::lettering::{FIGURE, WORD, width_at};
use super::reckon::{order, sin_cos, within};
use super::sheet::{COLUMN, Path, Point, Sheet, Stand, at, clock};

/// A plate of hole circles, hole 0 at the top, counted clockwise.
pub(crate) struct Plate<'a> {
    /// Every circle of the plate, by its holes.
    pub(crate) circles: &'a [u16],
    /// The circle in use, by its holes.
    pub(crate) used: u16,
    /// Where the pin is.
    pub(crate) present: u16,
    /// Spaces between the arms: the holes of one move beyond whole turns.
    pub(crate) step: u16,
    /// Holes that the pin has been in.
    pub(crate) done: &'a [u16],
}

/// A gear used as a division plate, its present space under the detent at the top.
pub(crate) struct DirectGear<'a> {
    pub(crate) teeth: u16,
    /// Whether places are counted in half teeth, odd ones on top of a tooth.
    pub(crate) half_teeth: bool,
    /// Every place that is used, in the order of the work.
    pub(crate) places: &'a [u32],
    /// Which of them is under the detent; those before it are done.
    pub(crate) present: usize,
}

const CENTRE: Point = at(COLUMN / 2.0, COLUMN / 2.0);
const EDGE: f64 = 126.0;
/// More holes than this in the used circle are shown as ticks.
const HOLES_MOST: u16 = 120;
/// More holes than this in the other circles together are shown as plain rings.
const DOTS_MOST: u32 = 420;

/// The plate, drawn in a square.
pub(crate) fn plate(plate: &Plate) -> String {
    let used = plate.used.max(1);
    let count = f64::from(used);
    let angle = |hole: f64| clock(hole / count);
    let mut circles: Vec<u16> = plate.circles.iter().copied().filter(|c| *c > 0).collect();
    circles.push(used);
    let holes: Vec<f64> = circles.iter().map(|holes| f64::from(*holes)).collect();
    circles = order(&holes).into_iter().filter_map(|place| circles.get(place).copied()).collect();
    circles.dedup();
    let said = [
        "Division plate, ",
        &used.to_string(),
        " circle: pin in hole ",
        &plate.present.to_string(),
        ", arms set to ",
        &plate.step.to_string(),
        if plate.step == 1 { " hole." } else { " holes." },
    ]
    .concat();
    let mut sheet = Sheet::new("plate", COLUMN, COLUMN, &said);
    sheet.circle("d-driven", CENTRE, EDGE);

    // The circles stand evenly, the most holes outermost.
    let rings = circles.len() as f64;
    let apart = (78.0 / rings).min(16.0);
    let mut radius = EDGE - 12.0;
    let mut dots = Path::new();
    let together: u32 = circles.iter().map(|c| u32::from(*c)).sum();
    for (place, &holes) in circles.iter().rev().enumerate() {
        let ring = EDGE - 12.0 - place as f64 * apart;
        if holes == used {
            radius = ring;
        } else if together <= DOTS_MOST {
            for hole in 0..holes {
                let turns = f64::from(hole) / f64::from(holes);
                dots.circle(CENTRE.polar(ring, clock(turns)), 0.9);
            }
        } else {
            sheet.circle("d-line", CENTRE, ring);
        }
    }
    sheet.path("d-line", &dots);
    sheet.circle("d-fine", CENTRE, radius);

    let gap = 2.0 * PI * radius / count;
    let next = (u32::from(plate.present) + u32::from(plate.step)) % u32::from(used);
    let (mut open, mut done) = (Path::new(), Path::new());
    for hole in 0..used {
        let was_done = plate.done.contains(&hole);
        let place = CENTRE.polar(radius, angle(f64::from(hole)));
        if used <= HOLES_MOST {
            let size = within(gap * 0.32, 1.5, 4.2);
            if was_done { &mut done } else { &mut open }.circle(place, size);
        } else {
            let long = if was_done { 5.0 } else { 2.5 };
            let (from, to) = (radius - long, radius + long);
            let turned = angle(f64::from(hole));
            if was_done { &mut done } else { &mut open }
                .stroke(CENTRE.polar(from, turned), CENTRE.polar(to, turned));
        }
    }
    let holes = used <= HOLES_MOST;
    sheet.path(if holes { "d-hole d-dense" } else { "d-fine" }, &open);
    sheet.path(if holes { "d-hole-done" } else { "d-done" }, &done);

    // The arms: one edge behind the pin's hole, the other just past the hole it goes to.
    let slack = (0.5_f64).min(9.0 / gap);
    let from = f64::from(plate.present) - slack;
    let to = f64::from(plate.present) + f64::from(plate.step) + slack;
    if plate.step > 0 && plate.step < used {
        let mut arms = Path::new();
        arm(&mut arms, angle(from), -1.0, radius);
        arm(&mut arms, angle(to), 1.0, radius);
        sheet.path("d-arm", &arms);
        let mut sweep = Path::new();
        // The way to go, as an arc with a barb between the arms.
        let start = angle(f64::from(plate.present));
        let turn = f64::from(plate.step) / count * 2.0 * PI;
        if turn > 0.25 {
            let inner = 40.0;
            let stop = start + turn;
            sweep.go(CENTRE.polar(inner, start));
            sweep.arc(inner, turn > PI, true, CENTRE.polar(inner, stop));
            let tip = CENTRE.polar(inner, stop);
            sweep.stroke(CENTRE.polar(inner - 4.0, stop - 0.2), tip);
            sweep.line(CENTRE.polar(inner + 4.0, stop - 0.2));
            sheet.path("d-now-fine", &sweep);
        }
        let target = CENTRE.polar(radius, angle(f64::from(next)));
        sheet.circle("d-now-ring", target, within(gap * 0.42, 3.0, 6.0));
    }
    sheet.circle("d-hole", CENTRE, 17.0);
    sheet.circle("d-fine", CENTRE, 8.0);
    let pin = CENTRE.polar(radius, angle(f64::from(plate.present)));
    sheet.circle("d-pin", pin, within(gap * 0.46, 3.4, 6.5));
    if plate.step > 0 {
        number_round(&mut sheet, used.into(), plate.present.into(), Some(next));
    } else {
        number_round(&mut sheet, used.into(), plate.present.into(), None);
    }
    sheet.finish()
}

/// One arm, its straight edge at `edge`, its body on `side` of it.
fn arm(path: &mut Path, edge: f64, side: f64, radius: f64) {
    let end = radius + 8.0;
    path.go(CENTRE.polar(12.0, edge));
    path.line(CENTRE.polar(end, edge));
    path.line(CENTRE.polar(end - 3.0, edge + side * 6.0 / end));
    path.line(CENTRE.polar(20.0, edge + side * 0.6)).close();
}

/// Numbers round the edge: every so many, and the present and the next wherever they fall.
fn number_round(sheet: &mut Sheet, count: u32, present: u32, next: Option<u32>) {
    let every = [1, 2, 5, 10, 20, 25, 50, 100, 200, 500]
        .into_iter()
        .find(|every| count / every <= 24)
        .unwrap_or(1000);
    let angle = |place: u32| clock(f64::from(place) / f64::from(count));
    // Whether two numbers, the second one large, would touch.
    let touch = |a: u32, size: f64, b: u32| {
        let apart = a.abs_diff(b) % count;
        let along = f64::from(apart.min(count - apart)) / f64::from(count) * 2.0 * PI;
        let wide = width_at(&a.to_string(), size) + width_at(&b.to_string(), FIGURE * 1.1);
        along * (EDGE + 14.0) < (wide / 2.0 + 4.0).max(24.0)
    };
    let mut put = |place: u32, class: &str, size: f64| {
        let turned = angle(place);
        let words = place.to_string();
        let wide = width_at(&words, size) / 2.0;
        let (sin, cos) = sin_cos(turned);
        let out = EDGE + 5.0 + wide * cos.abs() + size * 0.4 * sin.abs();
        let middle = CENTRE.polar(out, turned);
        sheet.text(class, Stand::Middle, middle.shifted(0.0, size * 0.36), &words);
    };
    let mut place = 0;
    while place < count {
        let clear = [Some(present), next].into_iter().flatten().all(|at| !touch(place, WORD, at));
        if clear && (count - place) * 5 >= every * 4 {
            put(place, "d-word", WORD);
        }
        place += every;
    }
    if let Some(next) = next.filter(|next| !touch(*next, FIGURE * 1.1, present)) {
        put(next, "d-fig d-chosen", FIGURE);
    }
    put(present, "d-fig", FIGURE);
}

/// The gear with its used places marked, drawn in a square.
pub(crate) fn direct_gear(direct: &DirectGear) -> String {
    let teeth = direct.teeth.clamp(6, 999);
    let places = u32::from(teeth) * if direct.half_teeth { 2 } else { 1 };
    let present = direct.places.get(direct.present).copied().unwrap_or(0) % places;
    let said = [
        "Gear of ",
        &direct.teeth.to_string(),
        " teeth as a division plate, detent in ",
        if direct.half_teeth { "half-tooth " } else { "space " },
        &present.to_string(),
        ", place ",
        &(direct.present + 1).to_string(),
        " of ",
        &direct.places.len().to_string(),
        ".",
    ]
    .concat();
    let top = 34.0;
    let centre = CENTRE.shifted(0.0, top / 2.0);
    let mut sheet = Sheet::new("plate", COLUMN, COLUMN + top / 2.0, &said);
    // The gear turns, the detent stands: the present place is brought to the top.
    let turned = |place: f64| clock((place - f64::from(present)) / f64::from(places));
    let module = EDGE / (f64::from(teeth) / 2.0 + gear::ADDENDUM);
    let half = PI / f64::from(teeth);
    let mut edge = Path::new();
    gear::outline(&mut edge, centre, teeth, module, turned(0.0) + half);
    sheet.path(if module < 1.6 { "d-driven d-dense" } else { "d-driven" }, &edge);
    let root = gear::root_radius(teeth, module);
    let (rim, hub) = (root - 20.0, 30.0);
    let mut lines = Path::new();
    lines.circle(centre, rim).circle(centre, hub);
    gear::arms(&mut lines, centre, hub, rim, 6, turned(0.0) + half);
    sheet.path("d-fine", &lines);
    sheet.circle("d-hole", centre, 14.0);

    let used = direct.places.len().max(1) as f64;
    let size = within(2.0 * PI * (root - 9.0) / used * 0.3, 1.4, 4.5);
    let (mut open, mut done) = (Path::new(), Path::new());
    for (index, place) in direct.places.iter().enumerate() {
        if index != direct.present {
            let dot = centre.polar(root - 9.0, turned(f64::from(place % places)));
            if index < direct.present { &mut done } else { &mut open }.circle(dot, size);
        }
    }
    sheet.path("d-hole d-dense", &open);
    sheet.path("d-hole-done", &done);
    sheet.circle("d-pin", centre.polar(root - 9.0, clock(0.0)), size.max(4.0));

    // The detent: in a space, or astride a tooth for half teeth.
    let astride = direct.half_teeth && !present.is_multiple_of(2);
    let tip = if astride { EDGE + 2.0 } else { root + 2.0 };
    let width = within(module * 0.5, 1.0, 5.0);
    let (foot, head) = (centre.shifted(0.0, -tip), centre.shifted(0.0, -EDGE - 12.0));
    let mut detent = Path::new();
    detent.polygon(&[
        foot.shifted(-width * 0.7, 0.0),
        foot.shifted(width * 0.7, 0.0),
        at(foot.x + width.max(4.0) + 1.0, head.y),
        at(foot.x + width.max(4.0) + 1.0, head.y - 12.0),
        at(foot.x - width.max(4.0) - 1.0, head.y - 12.0),
        at(foot.x - width.max(4.0) - 1.0, head.y),
    ]);
    sheet.path("d-index", &detent);
    let words = present.to_string();
    sheet.text("d-fig", Stand::Start, at(foot.x + 16.0, head.y + 1.0), &words);
    sheet.text("d-word", Stand::End, at(foot.x - 16.0, head.y + 1.0), "detent");

    let every = [1, 2, 3, 5, 10, 20, 25, 50, 100, 200]
        .into_iter()
        .find(|every| direct.places.len() / every <= 18)
        .unwrap_or(500);
    for (index, place) in direct.places.iter().enumerate().step_by(every) {
        let turn = turned(f64::from(place % places));
        let (sin, cos) = sin_cos(turn);
        // Nothing close to the detent at the top.
        if index == direct.present || sin < -0.913 {
            continue;
        }
        let words = (place % places).to_string();
        let wide = width_at(&words, WORD) / 2.0;
        let out = EDGE + 8.0 + wide * cos.abs() + 5.0 * sin.abs();
        let middle = centre.polar(out, turn);
        sheet.text("d-word", Stand::Middle, middle.shifted(0.0, 5.0), &words);
    }
    sheet.finish()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_used_circle_has_every_hole() {
        for used in [1, 2, 15, 49, 120] {
            let picture =
                plate(&Plate { circles: &[15, 33, 49], used, present: 0, step: 0, done: &[] });
            let holes = picture.split("class=\"d-hole d-dense\" d=\"").nth(1).unwrap();
            let drawn = holes.split('"').next().unwrap().matches('M').count();
            assert_eq!(drawn, usize::from(used));
        }
    }

    #[test]
    fn odd_plates_are_drawn() {
        for (used, present, step) in [(0, 0, 0), (3, 9, 9), (999, 998, 997), (u16::MAX, 4, 3)] {
            let done = [0, 1, 2];
            let picture = plate(&Plate { circles: &[0, 7], used, present, step, done: &done });
            assert!(picture.ends_with("</svg>"));
        }
        for (teeth, places) in [(0, &[][..]), (72, &[0, 3, 999][..])] {
            let direct = DirectGear { teeth, half_teeth: true, places, present: 1 };
            assert!(direct_gear(&direct).ends_with("</svg>"));
        }
    }

    #[test]
    fn what_is_said_gives_the_hole_and_the_arms() {
        let picture =
            plate(&Plate { circles: &[], used: 49, present: 21, step: 3, done: &[0, 7, 14] });
        assert!(picture.contains(
            "aria-label=\"Division plate, 49 circle: pin in hole 21, arms set to 3 holes.\""
        ));
    }
}
