//! How the machine is left.

use super::state::Lie;
use super::{Lathe, Rule};
use crate::procedure::{Lockable, Running, Tumbler};
use alloc::borrow::ToOwned;

/// What is dragged wider than this is no line but a groove, mm. Common practice, no source.
const LINE: f64 = 1.0;

impl Lathe {
    /// Looks at how it is left: safe, and as it was found.
    pub fn finish(&mut self) {
        self.step = "end".to_owned();
        self.action = 0;
        let m = &self.m;
        let running = [m.lathe, m.cutter_spindle]
            .iter()
            .any(|is| is.is_some_and(|is| is != Running::Stopped));
        let nuts = m.nuts_in == Some(true);
        let feed = m.feed_in == Some(true);
        let cutter = m.cutter.is_some() && m.work.is_some() && m.clear == Some(false);
        let detent = m.detent_in == Some(true) && !m.in_head();
        let (board, key) = (m.board, m.key_in == Some(true));
        let over = m.in_line == Some(false);
        let swung = matches!(m.compound, Lie::Off(..));
        let guard = m.guard_shut == Some(false);
        let driven = !m.meshed.is_empty() && !m.geared() && m.shop.tumbler;
        let driven = driven && m.tumbler != Some(Tumbler::Neutral);
        let burr = m.burr;
        let locks = m.put_on.iter().zip(Lockable::ALL).any(|(on, what)| {
            // A tailstock stays clamped with a centre in the work; the banjo may stay so.
            let holds = matches!(what, Lockable::Tailstock | Lockable::Quill | Lockable::Banjo);
            *on && !holds
        });
        let lines = self.part.marks.iter().any(|mark| {
            matches!(
                mark.shape,
                crate::procedure::Shape::Scriber | crate::procedure::Shape::Engraver
            )
        });
        self.threads_left();
        let rough = self.m.record.die_rough;
        self.judge(Rule::Die005, rough, "a thread is left as the opened die cut it");
        self.judge(Rule::LeftSpindle, running, "a spindle is left running");
        self.judge(Rule::LeftNuts, nuts, "the half-nuts are left closed");
        self.judge(Rule::LeftFeed, feed, "the power feed is left in");
        self.judge(Rule::LeftCutter, cutter, "the cutter is left at the work");
        self.judge(Rule::LeftLock, locks, "a lock that was put on is left on");
        self.judge(Rule::LeftDetent, detent, "the detent is left in");
        self.judge(Rule::LeftBoard, board, "the board is left on the ways");
        self.judge(Rule::LeftKey, key, "the key is left in");
        let known = self.m.cone.over.is_some();
        self.judge(Rule::LeftTailstock, over && !known, "the tailstock is left set over");
        self.judge(Rule::LeftCompound, swung, "the compound is left swung");
        self.judge(Rule::LeftGuard, guard, "the guard is left open");
        self.judge(Rule::Chg009, driven, "the tumbler is left driving the train");
        let rule = if lines { Rule::Gra010 } else { Rule::Gen047 };
        self.judge(rule, burr, "the burr is left on");
        if self.m.tail_centre {
            let loose = self.m.lock(Lockable::Tailstock) != Some(true);
            self.judge(Rule::Gen012, loose, "the tailstock isn't clamped");
            let loose = self.m.lock(Lockable::Quill) != Some(true);
            self.judge(Rule::Cen004, loose, "the quill isn't locked");
            let unseen = self.m.in_line.is_none();
            self.judge(Rule::UnknownTailstock, unseen, "nobody looked whether it is in line");
        }
        let depth = self.m.depth_set;
        self.judge(Rule::PartNothing, depth, "a depth was set, and nothing cut at it");
        let worked = self.m.cutter.is_some() || self.m.chalked || self.m.turned_through;
        let empty = self.m.work.is_none() && worked;
        self.judge(Rule::UnknownWork, empty, "nothing is held that anybody mounted or looked at");
        let unmeasured = self.m.unmeasured;
        self.judge(
            Rule::Tur006,
            unmeasured,
            "turned to size with nothing measured before the last cut",
        );
        self.taper_left();
        self.too_close();
    }

    /// No line is wider than half the space to the next.
    fn too_close(&mut self) {
        use crate::procedure::Shape;
        let lines = self.part.marks.iter().filter(|mark| {
            matches!(mark.shape, Shape::Scriber | Shape::Engraver)
                && mark.on == super::On::Rim
                && mark.width <= LINE
        });
        let mut angles: alloc::vec::Vec<_> = lines.clone().map(|mark| mark.angle).collect();
        angles.sort_unstable();
        angles.dedup();
        let widest = lines.map(|mark| mark.width).fold(0.0, f64::max);
        let nearest = angles
            .windows(2)
            .filter_map(|two| match two {
                [a, b] => b.sub(*a).ok(),
                _ => None,
            })
            .min();
        if let (Some(space), Some(radius)) = (nearest, self.outermost()) {
            let space = space.to_f64() * core::f64::consts::TAU * radius;
            self.judge(Rule::Gra007, widest > space / 2.0, "lines wider than half their spacing");
        }
    }
}
