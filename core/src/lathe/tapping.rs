//! Threads by tap and die: turned in by hand, a little back after each bite.

use super::{Lathe, On, Rule, SAME};
use crate::exact::Ratio;
use crate::procedure::{
    CutterAt, Lockable, Number, Running, Screwed, Shape, Slide, TurnedBy, Until,
};
use alloc::string::String;

/// A thread that a tap or a die left.
#[derive(Clone, Debug, PartialEq)]
pub struct Tapped {
    /// Its name, where the tap or die has one.
    pub name: Option<String>,
    /// Whether it is in a hole.
    pub inside: bool,
    /// Its major diameter, mm, where it is known.
    pub diameter: Option<f64>,
    /// Its pitch, mm, where it is known.
    pub pitch: Option<f64>,
    /// Where it ends in the work, mm from the free end, never positive.
    pub from: f64,
    /// Where it begins.
    pub to: f64,
}

/// What a tap or a die is asked to do, lengths in mm.
pub(super) struct TurnedIn {
    pub(super) what: Screwed,
    pub(super) by: TurnedBy,
    pub(super) over: Option<f64>,
    pub(super) until: Option<Until>,
    pub(super) forward: Number,
    pub(super) back: Number,
    pub(super) follows: Option<Slide>,
}

/// A tap's core is at least so many pitches under its outside: of the common forms the most (Whitworth's
/// 1.28), and the wear of a tap. Common practice, no source.
const CORE: f64 = 1.3;
/// A tap that finishes a blind hole has so many threads of lead at the least, pitches.
const LEAD: f64 = 2.0;
/// After so many threads a die is looked at, mm where its pitch isn't known. Common practice, no source.
const FIRST_THREADS: f64 = 5.0;
/// As deep as a mark that nobody measured, mm.
const MARKED: f64 = 3.0;
/// A bar that a die goes on to is no thicker than the thread by more than this, mm. Common practice, no
/// source.
const OVER: f64 = 0.1;

impl Lathe {
    pub(super) fn turn_in(&mut self, asked: &TurnedIn) {
        let tap = asked.what == Screwed::Tap;
        let shape = if tap { Shape::Tap } else { Shape::Die };
        let missing = self.m.shape() != Some(shape) || self.m.work.is_none();
        self.judge(Rule::UnknownCutter, missing, "nothing is mounted that cuts a thread so");
        let Some(cutter) = self.m.cutter.clone().filter(|_| !missing) else { return };
        self.by_hand(asked.by, cutter.diameter.is_some_and(|d| d.mm <= Ratio::whole(6)));
        self.kept_up_to(asked, cutter.at);
        let none = asked.back.0.is_zero();
        if tap {
            let far = asked.forward.0 > Ratio::of(1, 2);
            self.judge(Rule::Tph007, far || none, "a tap isn't turned back after each half turn");
        } else {
            let little = asked.back.0 < Ratio::of(1, 4) || asked.forward.0 > Ratio::ONE;
            self.judge(Rule::Die006, little, "a die isn't turned back a quarter after each turn");
        }
        let pitch = cutter.pitch.map(|l| l.mm.to_f64());
        let major = cutter.diameter.map(|l| l.mm.to_f64());
        let over = match (asked.over, asked.until) {
            (Some(over), _) => over,
            (None, Some(Until::Mark)) => f64::min(MARKED, self.marked_depth()),
            (None, Some(Until::Through)) if self.part.length.is_some() => {
                self.part.length.unwrap_or(MARKED)
            }
            _ => {
                self.judge(Rule::UnknownPlace, true, "nothing says how far it is turned in");
                return;
            }
        };
        self.fluid(Rule::Tph010);
        let face = self.part.face;
        if tap {
            self.taps(over, asked.over.is_none(), major, pitch);
        } else {
            self.dies(over, major, pitch);
        }
        self.part.tapped.retain(|old| old.inside != tap || old.to != face);
        self.part.tapped.push(Tapped {
            name: cutter.thread.clone(),
            inside: tap,
            diameter: major,
            pitch,
            from: face - over,
            to: face,
        });
        self.m.dirty = true;
        self.m.burr = true;
        self.m.clear = Some(false);
        self.m.in_work = true;
    }

    /// Nothing taps by power: the supply off, and what should turn turns, the rest is held.
    fn by_hand(&mut self, by: TurnedBy, small: bool) {
        let runs = self.m.lathe.is_some_and(|is| is != Running::Stopped);
        if small {
            self.judge(Rule::Tph006, runs, "a small tap is driven by power");
        }
        self.judge(Rule::Tph004, runs, "a tap or a die is driven by power");
        let live = self.m.supply != Some(false);
        self.judge(Rule::Tph003, live, "tapped by hand with the supply on");
        let lock = self.m.lock(Lockable::LatheSpindle);
        let held = self.m.work_in_spindle() || self.m.cutter_in_spindle();
        match by {
            TurnedBy::Wrench | TurnedBy::DieHolder => {
                let loose = held && lock != Some(true);
                self.judge(Rule::Tph003, loose, "the wrench is turned and the spindle is free");
            }
            _ => self.judge(Rule::MoveLocked, lock == Some(true), "the spindle is locked"),
        }
    }

    /// What lets it follow its own thread, square and in line.
    fn kept_up_to(&mut self, asked: &TurnedIn, at: CutterAt) {
        let carried = match at {
            CutterAt::Tailstock => Some(Slide::Quill),
            CutterAt::LatheSpindle => Some(Slide::Carriage),
            _ => None,
        };
        if let Some(carried) = carried {
            let lock = if carried == Slide::Quill { Lockable::Quill } else { Lockable::Carriage };
            let stuck = self.m.lock(lock) == Some(true);
            let slides = carried == Slide::Quill && self.m.lock(Lockable::Tailstock) == Some(false);
            let left = asked.follows != Some(carried) && !slides;
            self.judge(Rule::Tph011, stuck || left, "what carries it doesn't follow the thread");
        }
        if at == CutterAt::Tailstock {
            let line = self.m.in_line;
            let over = "the tailstock is set over";
            self.need(line, true, (Rule::UnknownTailstock, Rule::Dri005), over);
        }
        if asked.what == Screwed::Die {
            let open = asked.follows.is_none();
            self.judge(Rule::Die004, open, "nothing flat behind the die keeps it square");
        }
    }

    fn taps(&mut self, over: f64, marked: bool, major: Option<f64>, pitch: Option<f64>) {
        if self.m.record.tap_hole && self.part.bore.is_empty() {
            return;
        }
        let hole = self.threaded_hole(over, major);
        self.judge(Rule::PartFit, hole.is_none(), "there is no hole to tap");
        let Some((across, bottom)) = hole else { return };
        if let Some(major) = major {
            let core = pitch.map_or(0.7 * major, |pitch| major - CORE * pitch);
            let small = across < core - SAME;
            self.judge(Rule::PartFit, small, "the tap's core doesn't go into the hole");
            self.judge(Rule::PartNothing, across >= major - SAME, "the hole leaves no thread");
            let sharp = self.mouth_across() < major - 0.01;
            self.judge(Rule::Tph012, sharp, "the mouth isn't countersunk to the thread's size");
        }
        if let (Some(pitch), Some(bottom), false) = (pitch, bottom, marked) {
            let short = over + LEAD * pitch > bottom + 1e-3;
            self.judge(Rule::Tph009, short, "the hole isn't deeper than the thread by the lead");
        }
    }

    /// As deep as the hole goes, where a mark says how far it is tapped.
    fn marked_depth(&self) -> f64 {
        let bottom = self.part.bore.first().map_or(MARKED, |s| self.part.face - s.from);
        f64::max(bottom, SAME)
    }

    /// The hole's diameter where a thread of that size is cut, and its depth where it is blind.
    fn threaded_hole(&self, over: f64, major: Option<f64>) -> Option<(f64, Option<f64>)> {
        let face = self.part.face;
        let small = |across: f64| major.is_none_or(|major| across < major - SAME);
        let mut drilled =
            self.part.marks.iter().filter(|m| m.shape == Shape::Drill && m.on == On::Face);
        if let Some(mark) = drilled.next_back() {
            let point = mark.width / 2.0 / libm::tan(59.0_f64.to_radians());
            let bottom = mark.depth - point;
            let through = self.part.length.is_some_and(|length| bottom >= length - SAME);
            return Some((mark.width, (!through).then_some(bottom)));
        }
        let cut = |s: &&super::Segment| s.to > face - over + SAME && s.radius > SAME;
        let narrow = self.part.bore.iter().filter(cut).filter(|s| small(2.0 * s.radius));
        let across = narrow.map(|s| 2.0 * s.radius).reduce(f64::min);
        let across = across.or_else(|| self.part.bore.last().map(|s| 2.0 * s.radius))?;
        let deepest = self.part.bore.iter().filter(|s| 2.0 * s.radius >= across - SAME);
        let bottom = deepest.map(|s| face - s.from).reduce(f64::max)?;
        let through =
            self.part.length.is_some_and(|length| bottom >= length - SAME) || bottom > 1e6;
        Some((across, (!through).then_some(bottom)))
    }

    /// How wide the hole is at its mouth.
    fn mouth_across(&self) -> f64 {
        let sunk = self.part.marks.iter().filter(|mark| mark.shape == Shape::Countersink);
        let sunk = sunk.map(|mark| 2.0 * mark.depth).fold(0.0, f64::max);
        let bore = self.part.bore.last().map_or(0.0, |s| 2.0 * s.radius);
        f64::max(f64::max(sunk, bore), self.part.mouth.unwrap_or(0.0))
    }

    fn dies(&mut self, over: f64, major: Option<f64>, pitch: Option<f64>) {
        let bar = self.part.outside.last().map(|s| 2.0 * s.radius);
        if let Some((bar, major)) = bar.zip(major) {
            self.judge(
                Rule::PartFit,
                bar > major + OVER,
                "the bar is thicker than the die's thread",
            );
        }
        let first = FIRST_THREADS * pitch.unwrap_or(1.0);
        let blind = !self.m.record.die_square && over > first + SAME;
        self.judge(Rule::Die007, blind, "nobody looked whether the die stands square");
        let open = self.m.record.die_open == Some(true);
        let straight = !open && !self.m.record.die_rough && over > first + SAME;
        self.judge(
            Rule::Die005,
            straight,
            "a split die is run to size without a rough thread first",
        );
        self.m.record.die_rough |= open;
        if !open && self.m.record.die_open == Some(false) {
            self.m.record.die_rough = false;
        }
    }

    pub(super) fn turn_out(&mut self, what: Screwed, by: TurnedBy) {
        self.by_hand(by, false);
        let shape = if what == Screwed::Tap { Shape::Tap } else { Shape::Die };
        let other = self.m.shape() != Some(shape);
        self.judge(Rule::UnknownCutter, other, "it isn't mounted");
        self.m.clear = Some(true);
        self.m.in_work = false;
    }

    /// Steel is cut with its oil, grey iron dry.
    pub(super) fn fluid(&mut self, rule: Rule) {
        let stock = self.m.work.as_ref().and_then(|work| work.stock.as_deref());
        let wrong = match stock {
            Some(stock) if stock.ends_with("steel") => !self.m.record.oiled,
            Some("grey-iron") => self.m.record.oiled,
            _ => false,
        };
        self.judge(rule, wrong, "steel wants its oil here, and iron none");
    }
}
