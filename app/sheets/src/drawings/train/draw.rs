//! A train's gears, shafts and labels as lines: drivers solid and hatched, driven gears with arms.

use super::Train;
use super::letter::{Label, SECOND_HIGH, edge, lines};
use super::set_out::{Layout, Part, Shaft, Wheel, layout};
use crate::drawings::gear::{self, ADDENDUM};
use crate::drawings::lettering::Area;
use crate::drawings::reckon::within;
use crate::drawings::sheet::{COLUMN, Path, Point, Sheet, Stand, at};

/// Below this module, teeth are shown as on a works drawing: tip circle and pitch circle.
const MODULE_TOOTHED: f64 = 0.6;
/// Below this one, teeth are drawn with a finer line.
const MODULE_DENSE: f64 = 1.2;

/// The train drawn to scale in a column 342 wide; empty where there are no gears.
pub(crate) fn train(train: &Train) -> String {
    let Some(layout) = layout(train) else { return String::new() };
    draw(&layout, &said(train))
}

pub(super) fn said(train: &Train) -> String {
    let mut out = String::from("Gears: ");
    for (index, (driver, driven)) in train.pairs.iter().enumerate() {
        if index > 0 {
            out.push_str("; keyed with it, ");
        }
        out.push_str(&driver.to_string());
        if index == 0 {
            out.push_str(" on the ");
            out.push_str(train.from);
        }
        out.push_str(" drives ");
        out.push_str(&driven.to_string());
        let between = train.idlers.iter().filter(|idler| idler.pair == index).count();
        match between {
            0 => {}
            1 => out.push_str(" through an idler"),
            _ => out.push_str(" through idlers"),
        }
    }
    out.push_str(" on the ");
    out.push_str(train.to);
    out.push('.');
    out
}

fn draw(layout: &Layout, said: &str) -> String {
    let mut sheet = Sheet::new("train", COLUMN, layout.height, said);
    let module = layout.module;
    let planes = layout.wheels.iter().map(|wheel| wheel.plane).max().unwrap_or(0);
    for plane in 0..=planes {
        for wheel in layout.wheels.iter().filter(|wheel| wheel.plane == plane) {
            if let Some(shaft) = layout.shafts.get(wheel.shaft) {
                draw_wheel(&mut sheet, wheel, shaft, module);
            }
        }
    }
    for (index, shaft) in layout.shafts.iter().enumerate() {
        let on_it = || layout.wheels.iter().filter(|wheel| wheel.shaft == index);
        let (mut least, mut front) = (u16::MAX, 0);
        for wheel in on_it() {
            least = least.min(wheel.teeth);
            front = front.max(wheel.plane);
        }
        // What stands behind a larger gear shows as a hidden line.
        let front_teeth = on_it().filter(|w| w.plane == front).map(|w| w.teeth).max().unwrap_or(0);
        if least < front_teeth {
            let tip = (f64::from(least) / 2.0 + ADDENDUM) * module;
            sheet.circle("d-hidden", shaft.centre, tip);
        }
        draw_shaft(&mut sheet, shaft.centre, bore(least, module), on_it());
    }
    for label in &layout.labels {
        draw_label(&mut sheet, label, layout.shafts.get(label.shaft));
    }
    sheet.finish()
}

/// Radius of the hole in a gear, so that even the smallest on its shaft leaves a wall.
fn bore(teeth: u16, module: f64) -> f64 {
    within(gear::root_radius(teeth, module) * 0.42, 2.0, 8.0)
}

fn draw_wheel(sheet: &mut Sheet, wheel: &Wheel, shaft: &Shaft, module: f64) {
    let centre = shaft.centre;
    let mut edge = Path::new();
    let toothed = module >= MODULE_TOOTHED && wheel.part != Part::AnyIdler;
    if toothed {
        gear::outline(&mut edge, centre, wheel.teeth, module, wheel.phase);
    } else {
        edge.circle(centre, (f64::from(wheel.teeth) / 2.0 + ADDENDUM) * module);
    }
    let class = match (wheel.part, module < MODULE_DENSE) {
        (Part::Driver, false) => "d-driver",
        (Part::Driver, true) => "d-driver d-dense",
        (Part::AnyIdler, _) => "d-driven d-hidden",
        (_, false) => "d-driven",
        (_, true) => "d-driven d-dense",
    };
    sheet.path(class, &edge);
    if !toothed {
        sheet.circle("d-chain", centre, f64::from(wheel.teeth) / 2.0 * module);
    }
    let root = gear::root_radius(wheel.teeth, module);
    let hub = (bore(wheel.teeth, module) * 1.9).min(root * 0.7);
    match wheel.part {
        // A driver is solid, so it is hatched as a section is.
        Part::Driver => {
            let mut lines = Path::new();
            gear::hatch(&mut lines, centre, hub, root - 1.0, 5.0);
            sheet.path("d-hatch", &lines);
            sheet.circle("d-fine", centre, hub);
        }
        // A driven gear has a rim, a hub and arms.
        Part::Driven | Part::Idler if root > 17.0 => {
            let rim = root - within(root * 0.16, 3.0, 7.0);
            let mut lines = Path::new();
            lines.circle(centre, rim).circle(centre, hub);
            let count = if root > 40.0 { 6 } else { 5 };
            gear::arms(&mut lines, centre, hub, rim, count, wheel.phase);
            sheet.path("d-fine", &lines);
        }
        _ => {}
    }
}

fn draw_shaft<'a>(
    sheet: &mut Sheet,
    centre: Point,
    radius: f64,
    on_it: impl Iterator<Item = &'a Wheel>,
) {
    sheet.circle("d-hole", centre, radius);
    let mut turns_free = false;
    for wheel in on_it {
        turns_free |= matches!(wheel.part, Part::Idler | Part::AnyIdler);
    }
    if turns_free {
        sheet.circle("d-fine", centre, radius * 0.6);
    } else {
        let half = (radius * 0.3).max(0.8);
        let mut key = Path::new();
        key.rectangle(
            centre.shifted(-half, -radius - half * 1.2),
            centre.shifted(half, -radius + half * 1.2),
        );
        sheet.path("d-solid", &key);
    }
    let mut cross = Path::new();
    let arm = radius * 0.45;
    cross
        .stroke(centre.shifted(-arm, 0.0), centre.shifted(arm, 0.0))
        .stroke(centre.shifted(0.0, -arm), centre.shifted(0.0, arm));
    sheet.path("d-fine", &cross);
}

fn draw_label(sheet: &mut Sheet, label: &Label, shaft: Option<&Shaft>) {
    let Some(shaft) = shaft else { return };
    let Area { left, right, top, bottom } = label.area;
    let mut leader = Path::new();
    // The words stand on a rule above the gears, and hang from one below them.
    let rule = edge(label);
    let (first, second) = lines(shaft, label.broken);
    let last = if label.above { bottom - 5.0 } else { bottom - 3.0 };
    let baseline = if second.is_empty() { last } else { last - SECOND_HIGH };
    if label.foot.y != top {
        let until = label.foot.x.max(left + (right - left) * 0.86);
        leader.stroke(at(left, rule), at(until, rule));
        leader.stroke(at(label.foot.x, rule), label.foot);
        sheet.path("d-leader", &leader);
        sheet.circle("d-dot", label.foot, 2.0);
    }
    sheet.label(Stand::Start, at(left, baseline), first);
    if !second.is_empty() {
        sheet.label(Stand::Start, at(left, last), second);
    }
}
