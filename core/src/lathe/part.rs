//! The work as the cutter leaves it: its profile outside and in the bore, its face, and what is cut round it.

use crate::exact::Ratio;
use crate::procedure::Shape;
use alloc::vec;
use alloc::vec::Vec;

/// Lengths nearer than this, mm, are the same: far below what any dial shows.
pub const SAME: f64 = 1e-6;

/// A stretch of the profile at one radius, mm. Nought along the axis is the free end as it was mounted;
/// into the work is less than nought.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Segment {
    /// Its end at the holder.
    pub from: f64,
    /// Its free end.
    pub to: f64,
    /// Its radius.
    pub radius: f64,
}

/// A cone turned on the outside, its ends along the axis as a [`Segment`] has them, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cone {
    /// Its end at the holder.
    pub from: f64,
    /// Its free end.
    pub to: f64,
    /// Its radius at the holder's end.
    pub from_radius: f64,
    /// Its radius at the free end.
    pub to_radius: f64,
}

/// Where a mark stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum On {
    /// On the outside.
    Rim,
    /// On the end face.
    Face,
}

/// What a feed left at one angle of the work: a line, a slot, a hole, a flat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// What cut it.
    pub shape: Shape,
    /// Which way from the work's start, in turns, from 0 up to 1.
    pub angle: Ratio,
    /// On the rim or on the face.
    pub on: On,
    /// Its near end, mm: along the axis on the rim (the free end is nought, into the work less), from the
    /// axis on the face.
    pub from: f64,
    /// Its other end, mm, counted the same way; the same as `from` is where it was plunged.
    pub to: f64,
    /// How deep below the surface, mm.
    pub depth: f64,
    /// How wide at the surface, mm.
    pub width: f64,
    /// How far beside the line through the work's axis, mm.
    pub off: f64,
    /// Whether it runs out at both sides: a flat, no slot.
    pub flat: bool,
}

impl Mark {
    /// How far it goes, mm.
    #[must_use]
    pub fn length(&self) -> f64 {
        libm::fabs(self.to - self.from)
    }
}

/// The part.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Part {
    /// Outside, from the holder to the free end; empty where its size isn't known.
    pub outside: Vec<Segment>,
    /// Its bores, from the holder to the free end.
    pub bore: Vec<Segment>,
    /// How far the end face has come in, mm, never positive.
    pub face: f64,
    /// The flat length that it had, where that was said.
    pub length: Option<f64>,
    /// What is cut round it, in order.
    pub marks: Vec<Mark>,
    /// The cones turned on it, each as its last pass left it.
    pub cones: Vec<Cone>,
}

impl Part {
    /// A round bar of a radius, standing out so far.
    pub(super) fn bar(radius: f64, out: f64) -> Vec<Segment> {
        vec![Segment { from: -out, to: 0.0, radius }]
    }

    /// The radius outside at a place along it, the greatest where two meet.
    #[must_use]
    pub fn radius(&self, z: f64) -> Option<f64> {
        at(&self.outside, z)
    }

    /// The bore's radius at a place along it.
    #[must_use]
    pub fn bore_radius(&self, z: f64) -> Option<f64> {
        at(&self.bore, z)
    }

    /// Outside: nothing beyond `radius` is left between two places.
    pub(super) fn turn(&mut self, from: f64, to: f64, radius: f64) {
        cut(&mut self.outside, from, to, |r| if radius < r { radius } else { r });
    }

    /// Inside: the bore is at least of `radius` between two places.
    pub(super) fn open(&mut self, from: f64, to: f64, radius: f64) {
        let reach = self.bore.iter().map(|s| s.from).fold(self.face, f64::min);
        if from < reach - SAME {
            self.bore.insert(0, Segment { from, to: reach, radius: 0.0 });
        }
        cut(&mut self.bore, from, to, |r| if radius > r { radius } else { r });
    }

    /// The end is faced back to a place.
    pub(super) fn shorten(&mut self, to: f64) {
        self.face = f64::min(self.face, to);
        for list in [&mut self.outside, &mut self.bore] {
            list.retain(|s| s.from < to - SAME);
            if let Some(last) = list.last_mut() {
                last.to = f64::min(last.to, to);
            }
        }
    }

    /// A mark, one with what was cut at the same place before.
    pub(super) fn mark(&mut self, new: Mark) {
        let near = |a: f64, b: f64| libm::fabs(a - b) < SAME;
        let same = |old: &&mut Mark| {
            old.angle == new.angle
                && old.shape == new.shape
                && old.on == new.on
                && near(old.from, new.from)
                && near(old.off, new.off)
        };
        match self.marks.iter_mut().rev().find(same) {
            Some(old) => {
                old.to = if new.length() > old.length() { new.to } else { old.to };
                old.depth = f64::max(old.depth, new.depth);
                old.width = f64::max(old.width, new.width);
                old.flat = new.flat;
            }
            None => self.marks.push(new),
        }
    }
}

fn at(list: &[Segment], z: f64) -> Option<f64> {
    list.iter()
        .filter(|s| s.from - SAME <= z && z <= s.to + SAME)
        .map(|s| s.radius)
        .reduce(f64::max)
}

/// Changes the radius between two places, splitting stretches at them.
fn cut(list: &mut Vec<Segment>, from: f64, to: f64, new: impl Fn(f64) -> f64) {
    let mut out: Vec<Segment> = Vec::with_capacity(list.len().saturating_add(2));
    let mut put = |from: f64, to: f64, radius: f64| {
        if to - from <= SAME {
            return;
        }
        match out.last_mut() {
            Some(last) if libm::fabs(last.radius - radius) < SAME => last.to = to,
            _ => out.push(Segment { from, to, radius }),
        }
    };
    for s in list.iter() {
        let (a, b) = (f64::max(s.from, from), f64::min(s.to, to));
        if b - a <= SAME {
            put(s.from, s.to, s.radius);
        } else {
            put(s.from, a, s.radius);
            put(a, b, new(s.radius));
            put(b, s.to, s.radius);
        }
    }
    *list = out;
}
