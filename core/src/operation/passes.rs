//! The passes as this dial can set them.

use crate::cutting::{CutKind, SizeError, after_measuring, size_cuts};
use crate::exact::Ratio;
use crate::shop::{Dial, Reading};
use alloc::vec::Vec;

/// Which way the tool goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::operation) enum Way {
    /// In, on the outside.
    Turn,
    /// Out, in a hole.
    Bore,
    /// Along the bed, across the end.
    Face,
}

/// One pass.
#[derive(Clone, Copy, Debug)]
pub(in crate::operation) struct Pass {
    /// What it is for.
    pub(in crate::operation) kind: CutKind,
    /// The slide's travel from the touch, mm.
    pub(in crate::operation) travel: Ratio,
    /// The diameter, or facing the length, that it leaves, mm.
    pub(in crate::operation) leaves: Ratio,
    /// The dial's reading, nought at the touch.
    pub(in crate::operation) reading: Option<Reading>,
}

/// The passes from one size to the other, roughing cuts of no more than about the first depth and
/// the last ones of the second. All but the last are put on the nearest line of the dial, for it
/// doesn't matter what they leave; what `measured` says decides the last, and brings in more before
/// it where a half more than a last cut is left.
pub(in crate::operation) fn plan(
    way: Way,
    [from, to]: [Ratio; 2],
    [rough, last]: [Ratio; 2],
    dial: Option<Dial>,
    measured: Option<Ratio>,
) -> Result<Vec<Pass>, SizeError> {
    // Facing takes the whole of its depth off the length, as if it were of twice the diameter.
    let share = if way == Way::Face { Ratio::ONE } else { Ratio::of(1, 2) };
    let double = Ratio::whole(2);
    let as_diameter = |size: Ratio| size.mul(share)?.mul(double);
    let cuts = size_cuts(as_diameter(from)?, as_diameter(to)?, rough, last)?;
    let whole = to.sub(from)?.abs().mul(share)?;
    let reads = |travel: Ratio| match (dial, way) {
        (Some(dial), Way::Face) => dial.reading(travel),
        (Some(dial), _) => dial.reading_towards(way == Way::Turn, travel),
        (None, _) => None,
    };
    let mut passes: Vec<Pass> = Vec::new();
    let mut travel = Ratio::ZERO;
    for cut in &cuts {
        travel = travel.add(cut.depth_mm)?;
        let last = cut.kind == CutKind::Last;
        let mut at = travel;
        let mut reading = reads(at);
        if let (false, Some(on_a_line)) = (last, reading) {
            at = on_a_line.travel;
            let before = passes.last().map_or(Ratio::ZERO, |pass| pass.travel);
            if at <= before || at >= whole {
                continue;
            }
            reading = reads(at);
        }
        let moved = at.div(share)?;
        let leaves = if way == Way::Bore { from.add(moved)? } else { from.sub(moved)? };
        passes.push(Pass { kind: cut.kind, travel: at, leaves, reading });
    }
    if let Some(measured) = measured {
        let left = after_measuring(measured, to, way == Way::Bore)?.mul(share)?;
        let stands = passes
            .iter()
            .rev()
            .find(|pass| pass.kind != CutKind::Last)
            .map_or(Ratio::ZERO, |pass| pass.travel);
        let Some(mut end) = passes.pop() else { return Ok(passes) };
        let bulk = left.sub(last)?;
        if bulk > last.div(double)? {
            let count = i64::try_from(bulk.div(rough)?.neg().floor().saturating_neg())
                .map_err(|_| SizeError::TooMany)?;
            if count > 1000 {
                return Err(SizeError::TooMany);
            }
            for nth in 1..=count {
                let further = bulk.mul(Ratio::new(nth.into(), count.into())?)?;
                let reading = reads(stands.add(further)?);
                let travel = reading.map_or(stands.add(further)?, |on_a_line| on_a_line.travel);
                let before = passes.last().map_or(Ratio::ZERO, |pass| pass.travel);
                if travel <= before || travel >= stands.add(left)? {
                    continue;
                }
                let moved = travel.sub(stands)?.div(share)?;
                let leaves =
                    if way == Way::Bore { measured.add(moved)? } else { measured.sub(moved)? };
                passes.push(Pass { kind: CutKind::Rough, travel, leaves, reading: reads(travel) });
            }
        }
        end.travel = stands.add(left)?;
        end.reading = reads(end.travel);
        passes.push(end);
    }
    Ok(passes)
}

#[cfg(test)]
#[allow(clippy::arithmetic_side_effects)]
mod tests {
    use super::*;
    use crate::quantity::Unit;
    use proptest::prelude::*;

    fn dial(grows: Option<&'static str>, reads_diameter: bool, hundredths: i64) -> Dial {
        Dial {
            division: Ratio::of(hundredths, 100),
            unit: Unit::Mm,
            divisions: Some(125),
            reads_diameter,
            backlash: None,
            grows,
            travel: None,
        }
    }

    fn mm(hundredths: i64) -> Ratio {
        Ratio::of(hundredths, 100)
    }

    #[test]
    fn what_the_micrometer_says_decides_the_last_cut() {
        let dial = Some(dial(Some("inwards"), false, 2));
        let sizes = [mm(1200), mm(990)];
        let depths = [mm(60), mm(25)];
        let planned = plan(Way::Turn, sizes, depths, dial, None).unwrap();
        let words: Vec<_> = planned.iter().map(|pass| pass.reading.unwrap().words()).collect();
        // By hand: 0.55 is 27.5 lines, put on 27; 0.8 is 40; 1.05 is 52.5.
        assert_eq!(words, ["27 lines", "40 lines", "52 lines, 0.5 of a line short"]);
        assert_eq!(planned[0].leaves, mm(1092));
        // 10.48 instead of 10.40: 0.29 more from 0.80 is 1.09, 54.5 lines.
        let measured = plan(Way::Turn, sizes, depths, dial, Some(mm(1048))).unwrap();
        assert_eq!(measured[2].travel, mm(109));
        // 10.96 instead of 10.40: 0.53 left, of which 0.28 comes before the last cut of 0.25;
        // 0.80 + 0.28 is 54 lines, and leaves 10.40; 0.80 + 0.53 is 66.5.
        let more = plan(Way::Turn, sizes, depths, dial, Some(mm(1096))).unwrap();
        let words: Vec<_> = more.iter().map(|pass| pass.reading.unwrap().words()).collect();
        assert_eq!(words, ["27 lines", "40 lines", "54 lines", "66 lines, 0.5 of a line short"]);
        assert_eq!((more[2].kind, more[2].leaves), (CutKind::Rough, mm(1040)));
        assert_eq!(
            plan(Way::Turn, sizes, depths, dial, Some(mm(985))).err(),
            Some(SizeError::PastSize)
        );
    }

    #[test]
    fn boring_winds_back_on_a_dial_that_grows_inwards() {
        let back = |way, grows, sizes| {
            let passes = plan(way, sizes, [mm(50), mm(25)], Some(dial(grows, false, 2)), None);
            passes.unwrap()[0].reading.unwrap().back
        };
        let (down, up) = ([mm(1200), mm(990)], [mm(990), mm(1200)]);
        assert!(!back(Way::Turn, Some("inwards"), down) && back(Way::Bore, Some("inwards"), up));
        assert!(back(Way::Turn, Some("outwards"), down) && !back(Way::Bore, Some("outwards"), up));
        assert!(!back(Way::Face, Some("towards-headstock"), down));
    }

    proptest! {
        #[test]
        fn the_readings_leave_what_they_say(
            from in 1i64..9000, to in 1i64..9000, rough in 5i64..300, last in 1i64..60,
            line in 1i64..10, reads_diameter: bool, face: bool,
        ) {
            prop_assume!(from != to && (!face || to < from));
            let way = if face { Way::Face } else if to > from { Way::Bore } else { Way::Turn };
            let dial = dial(None, reads_diameter, line);
            let Ok(passes) = plan(way, [mm(from), mm(to)], [mm(rough), mm(last)], Some(dial), None) else { return Ok(()) };
            let share = if face { Ratio::ONE } else { Ratio::of(1, 2) };
            let mut before = Ratio::ZERO;
            for pass in &passes {
                prop_assert!(pass.travel > before, "each goes further");
                before = pass.travel;
                let off = mm(from).sub(pass.leaves).unwrap().abs().mul(share).unwrap();
                prop_assert_eq!(off, pass.travel);
                let reading = pass.reading.unwrap();
                let half = dial.travel_per_line().div(Ratio::whole(2)).unwrap();
                prop_assert!(reading.travel.sub(off).unwrap().abs() <= half);
                prop_assert!(pass.kind == CutKind::Last || reading.left_over.is_zero());
            }
            let end = passes.last().unwrap();
            prop_assert_eq!((end.kind, end.leaves), (CutKind::Last, mm(to)));
        }
    }
}
