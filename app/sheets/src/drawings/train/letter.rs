//! Where a train's labels stand, so that no leader crosses a gear, a label or another leader.

use super::set_out::{Layout, MARGIN, Shaft};
use crate::drawings::lettering::{Area, width};
use crate::drawings::reckon::order;
use crate::drawings::sheet::{COLUMN, Point, at};

/// Height of a label of one line, and what a second adds.
const LINE_HIGH: f64 = 21.0;
pub(super) const SECOND_HIGH: f64 = 17.0;
const ROW: f64 = 27.0;
/// How many places are tried, and how many more once all labels stand.
const TRIES: u32 = 600;
const FURTHER: u32 = 200;

/// A label and the upright leader from it to its gear.
#[derive(Clone, Copy, Debug)]
pub(super) struct Label {
    pub(super) shaft: usize,
    pub(super) area: Area,
    pub(super) above: bool,
    /// Whether "on the …" stands on a second line.
    pub(super) broken: bool,
    /// Where the leader ends, on the gear's face.
    pub(super) foot: Point,
}

#[derive(Clone, Copy)]
struct Wish {
    cost: f64,
    label: Label,
}

/// Finds a place for every label, and moves the whole down to make room; false where some label found none.
pub(super) fn letter(layout: &mut Layout) -> bool {
    let floor = layout.shafts.iter().map(|s| s.centre.y + s.reach).fold(0.0, f64::max);
    let wishes: Vec<Vec<Wish>> =
        (0..layout.shafts.len()).map(|shaft| places(&layout.shafts, shaft, floor)).collect();
    let open: Vec<Vec<&Wish>> =
        wishes.iter().filter(|w| !w.is_empty()).map(|w| w.iter().collect()).collect();
    let mut search =
        Search { taken: Vec::new(), best: Vec::new(), least: f64::INFINITY, left: TRIES };
    search.go(&open, 0.0);
    let mut labels = search.best;
    let found = labels.len() == layout.shafts.len();
    if !found {
        list_below(&layout.shafts, floor, &mut labels);
    }
    line_up(&mut labels);
    let top = labels.iter().map(|l| l.area.top).fold(0.0, f64::min) - MARGIN;
    let bottom = labels.iter().map(|l| l.area.bottom).fold(floor, f64::max) + MARGIN;
    for shaft in &mut layout.shafts {
        shaft.centre.y -= top;
    }
    for label in &mut labels {
        label.area.top -= top;
        label.area.bottom -= top;
        label.foot.y -= top;
    }
    layout.labels = labels;
    layout.height = bottom - top;
    found
}

struct Search {
    taken: Vec<Label>,
    best: Vec<Label>,
    least: f64,
    left: u32,
}

impl Search {
    /// Tries the places still open to each label, the label with the fewest first.
    fn go(&mut self, open: &[Vec<&Wish>], cost: f64) {
        let cheapest: f64 = open.iter().filter_map(|w| w.first()).map(|wish| wish.cost).sum();
        if cost + cheapest >= self.least {
            return;
        }
        let Some((tightest, wishes)) = open.iter().enumerate().min_by_key(|(_, w)| w.len()) else {
            self.least = cost;
            self.best.clone_from(&self.taken);
            // The first found is nearly always good: look only a little further.
            self.left = self.left.min(FURTHER);
            return;
        };
        for wish in wishes {
            if self.left == 0 || cost + wish.cost >= self.least {
                return;
            }
            self.left -= 1;
            let mut rest: Vec<Vec<&Wish>> = open.to_vec();
            rest.remove(tightest);
            for places in &mut rest {
                places.retain(|other| clear(&other.label, &wish.label));
            }
            self.taken.push(wish.label);
            self.go(&rest, cost + wish.cost);
            self.taken.pop();
        }
    }
}

/// Whether two labels and their leaders keep clear of each other.
fn clear(one: &Label, other: &Label) -> bool {
    let crosses = |a: &Label, b: &Label| a.area.near_upright(b.foot.x, edge(b), b.foot.y, 5.0);
    !one.area.near(&other.area, 6.0)
        && !crosses(one, other)
        && !crosses(other, one)
        && (one.foot.x - other.foot.x).abs() > 4.0
}

/// Moves labels outwards to the level of a neighbour, where they nearly stand level and nothing is in the way.
fn line_up(labels: &mut [Label]) {
    for index in 0..labels.len() {
        let Some(&label) = labels.get(index) else { return };
        let mut level = label;
        for other in labels.iter().filter(|other| other.above == label.above) {
            let outwards =
                if label.above { edge(&label) - edge(other) } else { edge(other) - edge(&label) };
            if outwards > 0.0 && outwards < 20.0 {
                level.area.top = label.area.top + edge(other) - edge(&label);
                level.area.bottom = label.area.bottom + edge(other) - edge(&label);
            }
        }
        if labels.iter().all(|other| other.shaft == label.shaft || clear(other, &level))
            && let Some(place) = labels.get_mut(index)
        {
            *place = level;
        }
    }
}

/// Where the leader leaves its label.
pub(super) fn edge(label: &Label) -> f64 {
    if label.above { label.area.bottom } else { label.area.top }
}

/// Places for one shaft's label, cheapest first.
fn places(shafts: &[Shaft], index: usize, floor: f64) -> Vec<Wish> {
    let mut wishes = Vec::new();
    let Some(own) = shafts.get(index) else { return wishes };
    let others = || shafts.iter().enumerate().filter(|(i, _)| *i != index).map(|(_, s)| s);
    for (above, broken) in [(true, false), (false, false), (true, true), (false, true)] {
        let (first, second) = lines(own, broken);
        if broken && second.is_empty() {
            continue;
        }
        let wide = width(first).max(width(second));
        let high = if broken { LINE_HIGH + SECOND_HIGH } else { LINE_HIGH };
        let breaking = if broken { 16.0 } else { 0.0 };
        // Everything is worked out as if above; below, the sheet is turned over.
        let turn = |y: f64| if above { y } else { -y };
        let ceiling = if above { 0.0 } else { -floor };
        // A few places that can be seen are enough.
        let mut seen = 0;
        for step in [0, -3, 3, -5, 5, -1, 1, -4, 4, -2, 2] {
            let across = f64::from(step) * 0.17 * own.reach;
            let x = own.centre.x + across;
            let rim = turn(own.centre.y) - (own.reach * own.reach - across * across).sqrt();
            let deep = (own.reach * 0.3).min(7.0);
            let foot = at(x, rim + deep);
            let hidden = others().any(|other| {
                let (dx, near) = ((x - other.centre.x).abs(), other.reach + 3.0);
                dx < near && turn(other.centre.y) - (near * near - dx * dx).sqrt() < foot.y + 2.0
            });
            if hidden {
                continue;
            }
            seen += 1;
            if seen > 3 {
                break;
            }
            let mut before = -1.0;
            for slide in 0..=4 {
                let left = x - wide * (0.03 + f64::from(slide) * 0.2);
                let left = left.min(COLUMN - MARGIN - wide).max(MARGIN);
                let right = left + wide;
                if left == before {
                    continue;
                }
                before = left;
                if x < left + 3.0 || x > left + wide * 0.86 || right > COLUMN - MARGIN + 0.5 {
                    continue;
                }
                // The label comes down until it rests above whatever is under it.
                let mut rest = rim - 9.0;
                for shaft in shafts {
                    let inside = shaft.centre.x.max(left - 5.0).min(right + 5.0);
                    let dx = (inside - shaft.centre.x).abs();
                    let near = shaft.reach + 6.0;
                    if dx < near {
                        let y = turn(shaft.centre.y) - (near * near - dx * dx).sqrt();
                        rest = rest.min(y);
                    }
                }
                for row in 0..5 {
                    let edge = rest - f64::from(row) * ROW;
                    let over = (ceiling - (edge - high)).max(0.0);
                    let (a, b) = (turn(edge), turn(edge - high));
                    let area = Area { left, right, top: a.min(b), bottom: a.max(b) };
                    let foot = at(foot.x, turn(foot.y));
                    wishes.push(Wish {
                        cost: (rim - edge) + over * 1.5 + across.abs() * 0.2 + breaking,
                        label: Label { shaft: index, area, above, broken, foot },
                    });
                }
            }
        }
    }
    let costs: Vec<f64> = wishes.iter().map(|wish| wish.cost).collect();
    order(&costs).into_iter().filter_map(|place| wishes.get(place).copied()).collect()
}

/// A label's words on one line, or broken before what the gear is on.
pub(super) fn lines(shaft: &Shaft, broken: bool) -> (&str, &str) {
    match (broken, shaft.words.split_at_checked(shaft.own)) {
        (true, Some((own, on))) if !on.is_empty() => (own, on.trim_start()),
        _ => (&shaft.words, ""),
    }
}

/// The last resort, for gears hidden behind others: their labels in a list, without leaders.
fn list_below(shafts: &[Shaft], floor: f64, labels: &mut Vec<Label>) {
    let mut top = labels.iter().map(|l| l.area.bottom).fold(floor, f64::max) + 8.0;
    for (shaft, Shaft { words, .. }) in shafts.iter().enumerate() {
        if labels.iter().any(|label| label.shaft == shaft) {
            continue;
        }
        let right = MARGIN + width(words);
        let area = Area { left: MARGIN, right, top, bottom: top + LINE_HIGH };
        labels.push(Label { shaft, area, above: false, broken: false, foot: at(MARGIN, top) });
        top += ROW;
    }
}
