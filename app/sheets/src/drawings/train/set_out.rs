//! Where each gear of a train stands: tangent on their pitch circles, on a gentle zigzag.

use core::f64::consts::PI;

use super::Train;
use super::letter::{Label, letter};
use crate::drawings::gear::{self, ADDENDUM};
use crate::drawings::lettering::Area;
use crate::drawings::reckon::order;
use crate::drawings::sheet::{COLUMN, Point, at};

pub(super) const MARGIN: f64 = 8.0;
/// Room for the gears themselves.
const GEARS_WIDE: f64 = COLUMN - 2.0 * MARGIN - 8.0;
const GEARS_HIGH: f64 = 178.0;
/// No gear is drawn with a larger module, however few there are.
const MODULE_MOST: f64 = 4.0;

#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Part {
    Driver,
    Driven,
    Idler,
    AnyIdler,
}

#[derive(Clone, Debug)]
pub(super) struct Wheel {
    pub(super) shaft: usize,
    pub(super) teeth: u16,
    pub(super) part: Part,
    /// 0 next to the headstock.
    pub(super) plane: usize,
    pub(super) phase: f64,
}

#[derive(Clone, Debug)]
pub(super) struct Shaft {
    pub(super) centre: Point,
    /// Tip radius of the largest gear on it.
    pub(super) reach: f64,
    pub(super) words: String,
    /// Where the words for the gears end and " on the …" begins.
    pub(super) own: usize,
}

/// Everything in its place, in CSS pixels.
#[derive(Clone, Debug)]
pub(super) struct Layout {
    pub(super) module: f64,
    pub(super) wheels: Vec<Wheel>,
    pub(super) shafts: Vec<Shaft>,
    pub(super) labels: Vec<Label>,
    pub(super) height: f64,
}

/// Shafts and gears in order, not yet in place; the distances between neighbours, in modules.
pub(super) fn assemble(train: &Train) -> (Vec<Shaft>, Vec<Wheel>) {
    let mut shafts: Vec<Shaft> = Vec::new();
    let mut wheels: Vec<Wheel> = Vec::new();
    let mut shaft = |gears: &[&str], on: &[&str]| {
        let mut words = gears.concat();
        let own = words.len();
        words.push_str(&on.concat());
        shafts.push(Shaft { centre: at(0.0, 0.0), reach: 0.0, words, own });
        shafts.len() - 1
    };
    let mut place = |shaft, teeth: u16, part, plane| {
        wheels.push(Wheel { shaft, teeth: teeth.clamp(6, 999), part, plane, phase: 0.0 });
    };
    let last = train.pairs.len() - 1;
    let mut here = 0;
    for (plane, &(driver, driven)) in train.pairs.iter().enumerate() {
        if plane == 0 {
            here = shaft(&[&driver.to_string()], &[" on the ", train.from]);
        }
        place(here, driver, Part::Driver, plane);
        for idler in train.idlers.iter().filter(|idler| idler.pair == plane) {
            match idler.teeth {
                Some(teeth) => {
                    here = shaft(&[&teeth.to_string(), " idler"], &[]);
                    place(here, teeth, Part::Idler, plane);
                }
                None => {
                    here = shaft(&["any idler that reaches"], &[]);
                    place(here, ((driver + driven) / 3).clamp(24, 60), Part::AnyIdler, plane);
                }
            }
        }
        let driven_words = driven.to_string();
        here = match train.pairs.get(plane + 1) {
            None => shaft(&[&driven_words], &[" on the ", train.to]),
            Some((next, _)) => {
                let stud = match (last, plane) {
                    (1, _) => "stud",
                    (_, 0) => "first stud",
                    (2, _) => "second stud",
                    _ => "next stud",
                };
                let gears = [&driven_words, " inner · ", &next.to_string(), " outer"];
                shaft(&gears, &[" on the ", stud])
            }
        };
        place(here, driven, Part::Driven, plane);
    }
    for wheel in &wheels {
        if let Some(shaft) = shafts.get_mut(wheel.shaft) {
            shaft.reach = shaft.reach.max(f64::from(wheel.teeth) / 2.0 + ADDENDUM);
        }
    }
    (shafts, wheels)
}

/// Sets the shafts out on a zigzag of `lean` radians either way, and turns the gears until they mesh.
fn set_out(shafts: &mut [Shaft], wheels: &mut [Wheel], lean: f64) {
    let mut down = true;
    for index in 1..wheels.len() {
        let (before, rest) = wheels.split_at_mut(index);
        let (Some(driver), Some(driven)) = (before.last(), rest.first_mut()) else { return };
        if driver.shaft == driven.shaft {
            continue;
        }
        let angle = if down { lean } else { -lean };
        down = !down;
        let apart = f64::from(driver.teeth + driven.teeth) / 2.0;
        driven.phase = gear::meshed_phase(driver.teeth, driver.phase, driven.teeth, angle);
        let from = shafts.get(driver.shaft).map_or(at(0.0, 0.0), |shaft| shaft.centre);
        if let Some(shaft) = shafts.get_mut(driven.shaft) {
            shaft.centre = from.polar(apart, angle);
        }
    }
}

fn bounds(shafts: &[Shaft]) -> Area {
    let mut all = Area { left: 0.0, top: 0.0, right: 0.0, bottom: 0.0 };
    for Shaft { centre, reach, .. } in shafts {
        all.left = all.left.min(centre.x - reach);
        all.right = all.right.max(centre.x + reach);
        all.top = all.top.min(centre.y - reach);
        all.bottom = all.bottom.max(centre.y + reach);
    }
    all
}

/// The train set out and lettered; nothing where there are no gears.
pub(super) fn layout(train: &Train) -> Option<Layout> {
    if train.pairs.is_empty() {
        return None;
    }
    let (shafts, wheels) = assemble(train);
    let mut tries: Vec<(f64, f64)> = Vec::new();
    for step in 0..=12 {
        let lean = f64::from(step) * PI / 45.0;
        let (mut shafts, mut wheels) = (shafts.clone(), wheels.clone());
        set_out(&mut shafts, &mut wheels, lean);
        let all = bounds(&shafts);
        let module = (GEARS_WIDE / (all.right - all.left))
            .min(GEARS_HIGH / (all.bottom - all.top))
            .min(MODULE_MOST);
        // Gears that don't mesh should be seen apart; a gentle lean looks best.
        let crowded = apart_crowd(&shafts);
        let gentle = 1.0 - (lean - 0.4).abs() * 0.12;
        tries.push((module * gentle / (1.0 + crowded), lean));
    }
    let ranks: Vec<f64> = tries.iter().map(|(fit, _)| -fit).collect();
    let mut best: Option<Layout> = None;
    for place in order(&ranks) {
        let Some(&(_, lean)) = tries.get(place) else { continue };
        let mut layout = Layout {
            module: 0.0,
            wheels: wheels.clone(),
            shafts: shafts.clone(),
            labels: Vec::new(),
            height: 0.0,
        };
        set_out(&mut layout.shafts, &mut layout.wheels, lean);
        let all = bounds(&layout.shafts);
        let module = (GEARS_WIDE / (all.right - all.left))
            .min(GEARS_HIGH / (all.bottom - all.top))
            .min(MODULE_MOST);
        layout.module = module;
        let aside = (COLUMN - (all.right - all.left) * module) / 2.0;
        for shaft in &mut layout.shafts {
            let Point { x, y } = shaft.centre;
            shaft.centre = at((x - all.left) * module + aside, (y - all.top) * module);
            shaft.reach *= module;
        }
        let found = letter(&mut layout);
        if found || best.is_none() {
            best = Some(layout);
        }
        if found {
            break;
        }
    }
    best
}

/// How many modules gears two or more shafts apart reach into each other.
fn apart_crowd(shafts: &[Shaft]) -> f64 {
    let mut crowd = 0.0;
    for (index, one) in shafts.iter().enumerate() {
        for other in shafts.iter().skip(index + 2) {
            let gap = one.centre.distance(other.centre) - one.reach - other.reach;
            if gap < 2.0 {
                crowd += 2.0 - gap;
            }
        }
    }
    crowd
}
