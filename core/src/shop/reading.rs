//! How far a slide has moved, as its dial shows it.

use super::Dial;
use crate::exact::Ratio;
use crate::quantity::show;
use alloc::format;
use alloc::string::{String, ToString};
use core::fmt;

/// A slide's travel from nought in whole turns and lines of its dial, to the nearest line.
///
/// Its Display is what is counted off: `2 turns + 37`, `24 lines`, `1 turn`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reading {
    /// Whether the handwheel is wound back from nought: against the way in which the dial grows.
    pub back: bool,
    /// Whole turns of the handwheel; none where the lines in a turn aren't known.
    pub turns: u64,
    /// Lines past them.
    pub lines: u64,
    /// The line that stands at the mark, if nought stood there before; none where the lines in a turn
    /// aren't known.
    pub mark: Option<u64>,
    /// What is wanted beyond the line, as a part of a line: above −1/2 (the line is past what is
    /// wanted), up to 1/2 (it falls short of it).
    pub left_over: Ratio,
    /// The slide's own travel at the line, mm, never negative.
    pub travel: Ratio,
}

/// Less of a line than this nobody sees: a hundredth.
const UNSEEN: Ratio = Ratio::of(1, 100);

impl Dial {
    /// The reading for a travel of the slide itself, mm; what is less than nothing is wound back.
    ///
    /// None where the numbers are too large to keep exactly.
    #[must_use]
    pub fn reading(&self, travel: Ratio) -> Option<Reading> {
        let per_line = self.travel_per_line();
        let wanted = travel.abs().div(per_line).ok()?;
        let below = wanted.floor();
        let part = wanted.sub(Ratio::new(below, 1).ok()?).ok()?;
        // A half stays short: what isn't cut off yet can still be.
        let (whole, left_over) = if part > Ratio::of(1, 2) {
            (below.checked_add(1)?, part.sub(Ratio::ONE).ok()?)
        } else {
            (below, part)
        };
        let whole = u64::try_from(whole).ok()?;
        Some(Reading { left_over, ..self.after(whole, travel.is_negative())? })
    }

    /// The reading after so many lines from nought, wound on or back.
    ///
    /// None where the numbers are too large to keep exactly.
    #[must_use]
    pub fn after(&self, counted: u64, back: bool) -> Option<Reading> {
        let (turns, lines, mark) = match self.divisions.map(u64::from) {
            Some(all) if all > 0 => {
                let (turns, lines) = (counted.checked_div(all)?, counted.checked_rem(all)?);
                let mark = if back && lines > 0 { all.saturating_sub(lines) } else { lines };
                (turns, lines, Some(mark))
            }
            _ => (0, counted, None),
        };
        let travel = self.travel_per_line().mul(Ratio::new(i128::from(counted), 1).ok()?).ok()?;
        Some(Reading { back, turns, lines, mark, left_over: Ratio::ZERO, travel })
    }

    /// The reading for a travel towards the middle of the work, or away from it, mm: wound back where
    /// the dial grows the other way. A dial that doesn't say grows inwards.
    #[must_use]
    pub fn reading_towards(&self, inwards: bool, travel: Ratio) -> Option<Reading> {
        let grows_inwards = self.grows != Some("outwards");
        self.reading(if grows_inwards == inwards { travel } else { travel.neg() })
    }

    /// The reading for a change of diameter, mm: the slide goes half of it.
    #[must_use]
    pub fn reading_on_diameter(&self, change: Ratio) -> Option<Reading> {
        self.reading(change.div(Ratio::whole(2)).ok()?)
    }

    /// The reading for a travel that is only nearly known, mm: taken to the nearest tenth of a
    /// micrometre.
    #[must_use]
    pub fn reading_near(&self, travel: f64) -> Option<Reading> {
        self.reading(show::near(travel, 4)?)
    }

    /// How far past a line to go before coming up to it, so that the lost motion is taken up: half a
    /// turn, or a whole one where the screw has more lost motion than that.
    #[must_use]
    pub fn past(&self) -> &'static str {
        let more = match (self.backlash, self.travel_per_turn()) {
            (Some(lost), Some(turn)) => lost.mul(Ratio::whole(2)).is_ok_and(|twice| twice >= turn),
            _ => false,
        };
        if more { "a whole turn" } else { "half a turn" }
    }
}

impl Reading {
    /// What the line leaves over: `0.15 of a line short`, `0.4 of a line past`; none where the
    /// line is right, or nearer than a hundredth of a line.
    #[must_use]
    pub fn left(&self) -> Option<String> {
        let size = self.left_over.abs();
        (size >= UNSEEN).then(|| {
            let side = if self.left_over.is_negative() { "past" } else { "short" };
            format!("{} of a line {side}", show::trimmed(size, 2))
        })
    }

    /// The same counted either way, for where the way is said already.
    #[must_use]
    pub fn counted(self) -> Reading {
        Reading { back: false, ..self }
    }

    /// What is counted off, figures between stars, and what stands at the mark where the dial is wound
    /// back: `*24 lines*: *101* at the mark`.
    #[must_use]
    pub fn set(&self) -> String {
        let counted = self.counted();
        match self.mark {
            Some(mark) if self.back && self.lines > 0 => {
                format!("*{counted}*: *{mark}* at the mark")
            }
            _ => format!("*{counted}*"),
        }
    }

    /// How the dial stands after it, from nought: `37`, `1 turn + 37`, `101`, `1 turn back, 101`; what
    /// is counted where the lines in a turn aren't known, `37`, `37 back`.
    #[must_use]
    pub fn stands(&self) -> String {
        match self.mark {
            None if self.back => format!("{} back", self.lines),
            None => self.lines.to_string(),
            Some(mark) if self.turns == 0 => mark.to_string(),
            Some(mark) if self.back => format!("{} back, {mark}", many(self.turns, "turn")),
            Some(mark) => format!("{} + {mark}", many(self.turns, "turn")),
        }
    }

    /// The reading with what it leaves over: `24 lines, 0.15 of a line short`.
    #[must_use]
    pub fn words(&self) -> String {
        match self.left() {
            Some(left) => format!("{self}, {left}"),
            None => format!("{self}"),
        }
    }

    /// How what the line leaves over is set, by eye, in eighths of a line: `then about 1/4 of a line on`,
    /// `stopping about 1/4 of a line before it`; none for less than a sixteenth.
    #[must_use]
    pub fn by_eye(&self) -> Option<String> {
        let eighths = self.left_over.abs().mul(Ratio::whole(8)).ok()?.round();
        let part = match eighths {
            1 => "1/8",
            2 => "1/4",
            3 => "3/8",
            4 => "1/2",
            _ => return None,
        };
        Some(if self.left_over.is_negative() {
            format!("stopping about {part} of a line before it")
        } else {
            format!("then about {part} of a line on")
        })
    }

    /// What is counted off, and what lies between two lines by eye: `24 lines, then about 1/8 of a line
    /// on`.
    #[must_use]
    pub fn as_set(&self) -> String {
        match self.by_eye() {
            Some(eye) => format!("{self}, {eye}"),
            None => format!("{self}"),
        }
    }

    /// Whether it is no line at all: the slide isn't moved.
    #[must_use]
    pub fn is_nought(&self) -> bool {
        self.turns == 0 && self.lines == 0
    }
}

impl fmt::Display for Reading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.back && !self.is_nought() {
            f.write_str("back ")?;
        }
        match (self.turns, self.lines) {
            (0, lines) => f.write_str(&many(lines, "line")),
            (turns, 0) => f.write_str(&many(turns, "turn")),
            (turns, lines) => write!(f, "{} + {lines}", many(turns, "turn")),
        }
    }
}

/// `1 line`, `2 lines`.
fn many(n: u64, what: &str) -> String {
    crate::quantity::show::many(n, what, &[what, "s"].concat())
}

#[cfg(test)]
#[allow(clippy::arithmetic_side_effects)]
mod tests {
    use super::*;
    use crate::quantity::Unit;
    use alloc::string::ToString;
    use proptest::prelude::*;

    fn dial(division: Ratio, divisions: u32, reads_diameter: bool) -> Dial {
        Dial {
            division,
            unit: Unit::Mm,
            divisions: Some(divisions),
            reads_diameter,
            backlash: None,
            grows: None,
            travel: None,
        }
    }

    #[test]
    fn turns_and_lines_by_hand() {
        let fine = dial(Ratio::of(2, 100), 125, false);
        // By hand: 2.5 mm a turn.
        for (hundredths, words, mark) in [
            (0, "0 lines", 0),
            (2, "1 line", 1),
            (48, "24 lines", 24),
            (250, "1 turn", 0),
            (574, "2 turns + 37", 37),
            (-48, "back 24 lines", 101),
            (-250, "back 1 turn", 0),
            (-298, "back 1 turn + 24", 101),
        ] {
            let reading = fine.reading(Ratio::of(hundredths, 100)).unwrap();
            assert_eq!(
                (reading.words().as_str(), reading.mark),
                (words, Some(mark)),
                "{hundredths}"
            );
        }
    }

    #[test]
    fn what_stands_at_the_mark() {
        let fine = dial(Ratio::of(2, 100), 125, false);
        let unknown = Dial { divisions: None, ..fine };
        let stands = |dial: &Dial, lines: i64| {
            dial.reading(Ratio::of(2 * lines, 100)).map(|reading| reading.stands()).unwrap()
        };
        for (lines, words, uncounted) in [
            (0, "0", "0"),
            (37, "37", "37"),
            (162, "1 turn + 37", "162"),
            (250, "2 turns + 0", "250"),
            (-24, "101", "24 back"),
            (-149, "1 turn back, 101", "149 back"),
        ] {
            assert_eq!((&*stands(&fine, lines), &*stands(&unknown, lines)), (words, uncounted));
        }
        // Nobody knows what stands there once it is wound back.
        assert_eq!(unknown.reading(Ratio::of(-48, 100)).unwrap().set(), "*24 lines*");
    }

    #[test]
    fn what_is_set_by_eye() {
        let fine = dial(Ratio::of(2, 100), 125, false);
        let words = |thousandths| fine.reading(Ratio::of(thousandths, 1000)).unwrap().by_eye();
        // 62 lines are 1.24 mm; 0.13 of a line more is an eighth.
        assert_eq!(words(1242).as_deref(), Some("then about 1/8 of a line on"));
        assert_eq!(words(1250).as_deref(), Some("then about 1/2 of a line on"));
        assert_eq!(words(1255).as_deref(), Some("stopping about 1/4 of a line before it"));
        assert_eq!(words(1241), None);
        assert_eq!(words(1240), None);
    }

    #[test]
    fn what_a_line_leaves_over() {
        let fine = dial(Ratio::of(2, 100), 125, false);
        let words = |thousandths| fine.reading(Ratio::of(thousandths, 1000)).unwrap().words();
        assert_eq!(words(483), "24 lines, 0.15 of a line short");
        assert_eq!(words(492), "25 lines, 0.4 of a line past");
        assert_eq!(words(490), "24 lines, 0.5 of a line short");
        // 10 thou on a dial of 0.02 mm: 0.254 mm is 12.7 lines.
        assert_eq!(words(254), "13 lines, 0.3 of a line past");
        assert_eq!(fine.reading(Ratio::of(48_001, 100_000)).unwrap().left(), None);
    }

    #[test]
    fn a_dial_that_reads_the_diameter() {
        let whole = dial(Ratio::of(4, 100), 100, true);
        // A line is 0.04 mm of diameter, so 0.02 mm of the slide.
        assert_eq!(whole.reading(Ratio::of(48, 100)).unwrap().to_string(), "24 lines");
        assert_eq!(whole.reading_on_diameter(Ratio::of(96, 100)).unwrap().to_string(), "24 lines");
        assert_eq!(whole.reading_near(0.2).unwrap().to_string(), "10 lines");
        assert_eq!(whole.reading_near(f64::NAN), None);
    }

    #[test]
    fn a_dial_may_grow_either_way() {
        let mut cross = dial(Ratio::of(2, 100), 125, false);
        let back = |cross: &Dial, inwards| {
            cross.reading_towards(inwards, Ratio::ONE).map(|reading| reading.back)
        };
        assert_eq!((back(&cross, true), back(&cross, false)), (Some(false), Some(true)));
        cross.grows = Some("outwards");
        assert_eq!((back(&cross, true), back(&cross, false)), (Some(true), Some(false)));
        let wound = cross.reading_towards(true, Ratio::of(48, 100)).unwrap();
        assert_eq!(wound.set(), "*24 lines*: *101* at the mark");
        assert_eq!(
            (wound.to_string().as_str(), wound.counted().set().as_str()),
            ("back 24 lines", "*24 lines*")
        );
    }

    #[test]
    fn lost_motion_decides_how_far_past() {
        let mut worn = dial(Ratio::of(1, 100), 100, false);
        assert_eq!(worn.past(), "half a turn");
        worn.backlash = Some(Ratio::of(1, 2));
        assert_eq!(worn.past(), "a whole turn");
    }

    proptest! {
        #[test]
        fn nothing_is_lost(travel in -10_000_000_i64..10_000_000, division in 1_i64..500, divisions in 1_u32..500, reads_diameter: bool) {
            let dial = dial(Ratio::of(division, 1000), divisions, reads_diameter);
            let travel = Ratio::of(travel, 10_000);
            let reading = dial.reading(travel).unwrap();
            let lines = reading.turns * u64::from(divisions) + reading.lines;
            let at = dial.travel_per_line().mul(Ratio::whole(lines as i64)).unwrap();
            prop_assert_eq!(at, reading.travel);
            let rest = dial.travel_per_line().mul(reading.left_over).unwrap();
            prop_assert_eq!(at.add(rest).unwrap(), travel.abs());
            prop_assert!(reading.left_over.abs() <= Ratio::of(1, 2));
            prop_assert!(reading.lines < u64::from(divisions) && reading.mark < Some(u64::from(divisions)));
            prop_assert_eq!(reading.back, travel.is_negative());
        }

        #[test]
        fn nothing_panics(num: i64, den: i64, division: i64, divisions: Option<u32>, near: f64) {
            let dial = Dial { divisions, ..dial(Ratio::of(division, 1000), 1, false) };
            let _ = dial.reading(Ratio::of(num, den));
            let _ = dial.reading_on_diameter(Ratio::of(num, den));
            let _ = dial.reading_near(near);
        }
    }
}
