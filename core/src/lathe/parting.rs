//! Parting off, and knurling: what a tool leaves that is pressed straight in.

use super::cut::Asked;
use super::{Lathe, Rule, SAME, Segment};
use crate::procedure::{Shape, Toward};

/// A blade stands out no farther than it goes in by this, mm: 1 to 2 mm, and a rule's half millimetre.
const PAST_MIDDLE: f64 = 2.6;
/// A knurl begins with no more than its wheels' width on the work, mm. Common practice, no source.
const WHEELS: f64 = 10.0;

impl Lathe {
    /// Nothing is cut on what a part has come off.
    pub(super) fn after_parting(&mut self) {
        let parted = self.m.record.parted;
        self.judge(Rule::Par019, parted, "something is cut after the part has come off");
    }

    /// A blade that has gone in until its end stands at `end` from the axis.
    pub(super) fn parts(&mut self, asked: &Asked, end: f64) {
        let Some(cutter) = self.m.cutter.clone() else { return };
        let z = self.m.at.get(2).copied().unwrap_or_default();
        self.judge(Rule::Par012, !z.known, "the parting place was never touched off");
        let width = cutter.width.map_or(0.0, |l| l.mm.to_f64());
        let outside = self.outermost().unwrap_or(0.0);
        let bore = self.part.bore_radius(z.at).unwrap_or(0.0);
        if let Some(out) = cutter.out.map(|l| l.mm.to_f64()) {
            let far = out > outside - bore + PAST_MIDDLE;
            self.judge(Rule::Par004, far, "the blade stands out farther than it goes in");
            let short = outside - end > out + SAME;
            self.judge(Rule::Par021, short, "the blade doesn't reach so far in");
        }
        if let Some(jaws) = self.part.outside.first().map(|s| s.from).filter(|from| *from > -1e6) {
            let far = z.at - jaws > 2.0 * outside + 1.0;
            self.judge(Rule::Par011, far, "parted more than a diameter from the holder");
            let holder = z.at < jaws - SAME;
            self.judge(Rule::PartHolder, holder, "the blade runs into the holder");
        }
        self.fluid(Rule::Par013);
        if end <= bore + SAME {
            let caught = self.m.record.catches;
            self.judge(Rule::Par016, !caught, "nothing catches the part");
            let edged = self.m.record.edged;
            self.judge(Rule::Par015, !edged, "its edges weren't freed of their burr before");
            self.part.part_off(z.at + width);
            self.m.record.parted = true;
        } else {
            self.part.turn(z.at, z.at + width, end);
        }
        let _ = asked;
    }

    /// A knurl pressed in, or fed along with its wheels pressed.
    pub(super) fn knurls(&mut self, asked: &Asked, across: Option<usize>, from: [f64; 3]) {
        let z = self.m.at.get(2).copied().unwrap_or_default();
        match across {
            Some(0) => {
                let out = asked.toward == Toward::Out;
                self.judge(Rule::Knu009, out, "a knurl is pressed away from the work");
                self.m.record.pattern = false;
            }
            Some(2) => {
                let began = from.get(2).copied().unwrap_or(0.0);
                let inside = self.part.face - began > WHEELS;
                self.judge(Rule::Knu003, inside, "knurling begins in the middle of the work");
                let unseen = !self.m.record.pattern;
                self.judge(Rule::Knu006, unseen, "nobody looked at the pattern before the feed");
                let pressed = self.m.record.pressed;
                self.judge(Rule::Knu008, pressed, "the feed stopped with the wheels pressed");
                self.stands_out(Rule::Knu014);
                let x = self.m.at.first().copied().unwrap_or_default();
                let free = self.outermost().is_some_and(|radius| x.known && x.at > radius + SAME);
                self.judge(Rule::PartNothing, free, "the wheels don't press on the work");
                let (low, high) = (f64::min(began, z.at), f64::max(began, z.at));
                self.part.knurls.push(Segment { from: low, to: high, radius: x.at });
                self.m.record.pressed = true;
            }
            _ => self.judge(Rule::PartWrong, true, "that slide doesn't press a knurl"),
        }
    }

    /// What was pressed along the work is drawn off before anything stops.
    pub(super) fn stopped_pressed(&mut self) {
        if self.m.shape() == Some(Shape::Knurl) {
            let pressed = self.m.record.pressed;
            self.judge(Rule::Knu008, pressed, "stopped with the wheels pressed on the work");
        }
    }
}
