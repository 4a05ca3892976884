//! What must hold for every drawn train, tried on thousands.

use super::draw::said;
use super::letter::edge;
use super::set_out::{Layout, Wheel, assemble, layout};
use super::*;
use crate::drawings::lettering::Area;
use crate::drawings::sheet::{COLUMN, at};

struct Dice(u64);
impl Dice {
    fn upto(&mut self, count: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
        (self.0 >> 33) % count
    }
    fn teeth(&mut self) -> u16 {
        10 + self.upto(191) as u16
    }
}

/// Whether every gear clears its neighbours' shafts: A + B > C and C + D > B at each stud, and so for idlers.
fn mounts(train: &Train) -> bool {
    let (_, wheels) = assemble(train);
    wheels.windows(2).filter(|w| w[0].shaft != w[1].shaft).all(|mesh| {
        let beside = |w: &&Wheel| w.shaft == mesh[0].shaft || w.shaft == mesh[1].shaft;
        let largest = wheels.iter().filter(beside).map(|w| w.teeth).max().unwrap();
        // A tiny idler between large gears can be out of sight though it goes on.
        let spare = if train.idlers.is_empty() { 0 } else { 15 };
        mesh[0].teeth + mesh[1].teeth > largest + spare
    })
}

fn random_trains(count: usize, idlers: bool, mut check: impl FnMut(&Train, &Layout)) {
    let mut dice = Dice(11);
    let mut done = 0;
    while done < count {
        let pairs: Vec<(u16, u16)> =
            (0..1 + dice.upto(3)).map(|_| (dice.teeth(), dice.teeth())).collect();
        let mut between = Vec::new();
        if idlers {
            for pair in 0..pairs.len() {
                if dice.upto(3) == 0 {
                    let teeth = (dice.upto(2) == 0).then(|| dice.teeth());
                    between.push(Idler { pair, teeth });
                }
            }
        }
        let train = Train { pairs: &pairs, idlers: &between, from: "spindle", to: "leadscrew" };
        if !mounts(&train) {
            continue;
        }
        let layout = layout(&train).unwrap();
        check(&train, &layout);
        done += 1;
    }
}

fn every_rule(train: &Train, layout: &Layout) {
    let told = format!("{:?} {:?}", train.pairs, train.idlers);
    assert_eq!(layout.labels.len(), layout.shafts.len());
    for (index, label) in layout.labels.iter().enumerate() {
        let Area { left, right, top, bottom } = label.area;
        assert!(left >= 7.9 && right <= COLUMN - 7.4 && top >= 7.9, "{told}: off the sheet");
        assert!(bottom <= layout.height - 7.9, "{told}: off the foot of the sheet");
        assert!((left..=right).contains(&label.foot.x), "{told}: leader leaves its label");
        for other in &layout.labels[index + 1..] {
            assert!(!label.area.near(&other.area, 4.0), "{told}: labels overlap");
            assert!((label.foot.x - other.foot.x).abs() > 1.0, "{told}: leaders meet");
        }
        for other in layout.labels.iter().filter(|l| l.shaft != label.shaft) {
            let crossed = label.area.near_upright(other.foot.x, edge(other), other.foot.y, 2.0);
            assert!(!crossed, "{told}: a leader crosses a label");
        }
        for (place, shaft) in layout.shafts.iter().enumerate() {
            // No gear reaches under a label.
            let near = label.area.nearest(shaft.centre).distance(shaft.centre);
            assert!(near > shaft.reach + 1.0, "{told}: label on a gear");
            // The leader stays out of every gear but its own, and ends in that one.
            let line = Area {
                left: label.foot.x,
                right: label.foot.x,
                top: edge(label).min(label.foot.y),
                bottom: edge(label).max(label.foot.y),
            };
            let gap = line.nearest(shaft.centre).distance(shaft.centre);
            if place == label.shaft {
                assert!(label.foot.distance(shaft.centre) < shaft.reach, "{told}");
                let start = at(label.foot.x, edge(label));
                assert!(start.distance(shaft.centre) > shaft.reach, "{told}");
            } else {
                assert!(gap > shaft.reach, "{told}: leader of {index} crosses {place}");
            }
        }
    }
    for shaft in &layout.shafts {
        assert!(shaft.centre.x - shaft.reach >= 1.0, "{told}");
        assert!(shaft.centre.x + shaft.reach <= COLUMN - 1.0, "{told}");
        assert!(shaft.centre.y - shaft.reach >= 1.0, "{told}");
        assert!(shaft.centre.y + shaft.reach <= layout.height - 1.0, "{told}");
    }
    // Gears in mesh touch pitch circle to pitch circle; others in the plane keep apart.
    for (index, one) in layout.wheels.iter().enumerate() {
        for (place, other) in layout.wheels.iter().enumerate().skip(index + 1) {
            let apart = layout.shafts[one.shaft].centre.distance(layout.shafts[other.shaft].centre);
            let radii = f64::from(one.teeth + other.teeth) / 2.0 * layout.module;
            if one.plane == other.plane && place == index + 1 {
                assert!((apart - radii).abs() < 1e-6, "{told}: not tangent");
            } else if one.plane == other.plane {
                assert!(apart > radii, "{told}: {index} and {place} in one plane overlap");
            }
        }
    }
}

#[test]
fn every_mountable_train_is_drawn_clearly() {
    random_trains(2000, false, every_rule);
}

#[test]
fn every_train_with_idlers_is_drawn_clearly() {
    random_trains(1000, true, every_rule);
}

#[test]
fn the_trains_of_the_trade_are_drawn_clearly() {
    let studs: &[&[(u16, u16)]] = &[
        &[(20, 127)],
        &[(40, 63), (32, 48)],
        &[(10, 200)],
        &[(200, 10)],
        &[(20, 20)],
        &[(200, 200), (200, 200), (200, 200)],
        &[(30, 127), (60, 40)],
        &[(20, 100), (20, 90), (20, 80)],
    ];
    for pairs in studs {
        let train = Train { pairs, idlers: &[], from: "spindle", to: "leadscrew" };
        every_rule(&train, &layout(&train).unwrap());
    }
}

#[test]
fn gears_that_cannot_be_mounted_are_still_drawn() {
    let mut dice = Dice(5);
    for _ in 0..300 {
        let pairs: Vec<(u16, u16)> =
            (0..1 + dice.upto(3)).map(|_| (dice.teeth(), dice.teeth())).collect();
        let picture =
            train(&Train { pairs: &pairs, idlers: &[], from: "spindle", to: "leadscrew" });
        assert!(picture.starts_with("<svg") && picture.ends_with("</svg>"));
        assert!(picture.matches("<text").count() > pairs.len());
    }
    assert_eq!(train(&Train { pairs: &[], idlers: &[], from: "", to: "" }), "");
}

#[test]
fn what_is_said_names_every_gear() {
    let train = Train {
        pairs: &[(40, 63), (32, 48)],
        idlers: &[Idler { pair: 1, teeth: None }],
        from: "spindle",
        to: "leadscrew",
    };
    assert_eq!(
        said(&train),
        "Gears: 40 on the spindle drives 63; keyed with it, 32 drives 48 through an idler on the leadscrew."
    );
}
