//! What each tooth takes, held against what a cutter of its shape can bear.

use super::cut::Asked;
use super::{Lathe, Rule};
use crate::procedure::Shape;

/// How many times the most of a band is a hazard: the bands are starting figures from memory.
const TIMES: f64 = 4.0;

impl Lathe {
    /// Judges the feed of a cutter that turns, mm a tooth.
    pub(super) fn chip(&mut self, asked: &Asked) {
        let Some(cutter) = &self.m.cutter else { return };
        let across = cutter.diameter.or(cutter.width).map_or(0.0, |l| l.mm.to_f64());
        let tip = cutter.width.or(cutter.diameter).map_or(0.0, |l| l.mm.to_f64());
        // Most of each band, mm a tooth: a saw 0.02 (MIL-021), an end mill 0.025 at 6 mm (MIL-020), a point
        // 0.005 at 0.3 mm (GRA-019).
        let (rule, most) = match cutter.shape {
            Shape::Disc => (Rule::Mil021, 0.02),
            Shape::EndMill => (Rule::Mil020, across * 0.025 / 6.0),
            Shape::Engraver => (Rule::Gra019, f64::max(tip, 0.1) * 0.005 / 0.3),
            _ => return,
        };
        let teeth = f64::from(cutter.teeth.unwrap_or(1).max(1));
        let rpm = if self.m.cutter_in_spindle() { self.m.rpm } else { self.m.cutter_rpm };
        let turn = self.sled(asked.slide).and_then(super::slides::Sled::each_turn);
        let each = match (asked.each_turn, asked.beat, rpm) {
            (Some(each), _, _) => Some(each),
            (None, Some(beat), Some(rpm)) => turn.and_then(|turn| {
                let seconds = beat.seconds.0.to_f64();
                (seconds > 0.0 && rpm > 0)
                    .then(|| turn * beat.turn.0.to_f64() / seconds * 60.0 / f64::from(rpm))
            }),
            _ => None,
        };
        if let Some(each) = each
            && most > 0.0
        {
            let heavy = each / teeth > most * TIMES;
            self.judge(rule, heavy, "each tooth takes many times what it can bear");
        }
    }
}
