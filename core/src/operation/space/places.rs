//! Each place of a row as the dial has it.

use crate::exact::Ratio;
use crate::shop::{Dial, Reading};
use crate::spacing::Row;
use alloc::vec::Vec;

/// One place as the dial has it; lengths in mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Place {
    /// From the dial's nought.
    pub(super) reading: Reading,
    /// Where the line puts it, from the first.
    pub(super) made: Ratio,
}

impl Place {
    /// How far the line is from where the place belongs, mm; less than nothing where it falls short.
    pub(super) fn off(&self, at: Ratio) -> Ratio {
        self.made.sub(at).unwrap_or(Ratio::ZERO)
    }
}

/// How many spaces a slide goes on without the bar being shifted; none where it doesn't go as far
/// as one.
pub(super) fn reach(row: &Row, dial: &Dial) -> Option<u32> {
    let all = row.places.saturating_sub(1);
    let Some(travel) = dial.travel else { return Some(all) };
    // The nearest line may lie half a line beyond.
    let half = dial.travel_per_line().div(Ratio::whole(2)).ok()?;
    let spaces = travel.sub(half).ok()?.div(row.pitch).ok()?.floor();
    let spaces = u32::try_from(spaces).unwrap_or(if spaces > 0 { all } else { 0 }).min(all);
    (spaces > 0).then_some(spaces)
}

/// The places from which the dial's nought is counted: the first, and where the slide doesn't go on
/// so far, each to which the bar is shifted back.
pub(super) fn nought(place: u32, reach: u32) -> u32 {
    let before = place.saturating_sub(1);
    before.saturating_sub(before.checked_rem(reach).unwrap_or(0))
}

/// Every place on the dial; none where the numbers are too large to keep exactly.
///
/// After a shift it is counted from where the place picked up really is, so that what a line leaves
/// over isn't carried on.
pub(super) fn places(row: &Row, dial: &Dial, reach: u32) -> Option<Vec<Place>> {
    let mut places: Vec<Place> = Vec::new();
    for place in 0..row.places {
        let from = places.get(usize::try_from(nought(place, reach)).ok()?);
        let from = from.map_or(Ratio::ZERO, |from| from.made);
        let reading = dial.reading(row.at(place).ok()?.sub(from).ok()?)?;
        places.push(Place { made: from.add(reading.travel).ok()?, reading });
    }
    Some(places)
}

#[cfg(test)]
#[allow(clippy::arithmetic_side_effects)]
mod tests {
    use super::*;
    use crate::quantity::Unit;
    use crate::spacing::Asked;
    use proptest::prelude::*;

    fn dial(division: Ratio, travel: Option<Ratio>) -> Dial {
        Dial {
            division,
            unit: Unit::Mm,
            divisions: Some(100),
            reads_diameter: false,
            backlash: None,
            grows: None,
            travel,
        }
    }

    fn row(places: u32, pitch: Ratio) -> Row {
        Asked { places: Some(places), pitch: Some(pitch), ..Asked::default() }.row().unwrap()
    }

    #[test]
    fn a_short_slide_is_counted_anew_from_where_the_bar_is_shifted_to() {
        let row = row(8, Ratio::whole(32));
        // By hand: 100 mm of travel are 3 spaces of 32 mm, so the dial begins anew at 3 and at 6.
        let short = dial(Ratio::of(1, 20), Some(Ratio::whole(100)));
        assert_eq!(reach(&row, &short), Some(3));
        let from: Vec<u32> = (0..8).map(|place| nought(place, 3)).collect();
        assert_eq!(from, [0, 0, 0, 0, 3, 3, 3, 6]);
        let places = places(&row, &short, 3).unwrap();
        let lines: Vec<u64> = places.iter().map(|place| place.reading.turns).collect();
        // 32 mm are 640 lines of 0.05 mm: 6 turns of 100, and 40.
        assert_eq!(lines, [0, 6, 12, 19, 6, 12, 19, 6]);
        assert_eq!(reach(&row, &dial(Ratio::of(1, 20), Some(Ratio::whole(31)))), None);
        assert_eq!(reach(&row, &dial(Ratio::of(1, 20), None)), Some(7));
        // 96 mm and no more: the line that is nearest to 96 mm might lie beyond the stop.
        assert_eq!(reach(&row, &dial(Ratio::of(1, 20), Some(Ratio::whole(96)))), Some(2));
    }

    proptest! {
        /// However it is shifted, no place is further off than half a line, and nothing adds up.
        #[test]
        fn no_place_is_off_by_more_than_half_a_line(
            count in 2_u32..200, pitch in 1_i64..50_000, below in 1_i64..128, line in 1_i64..600, reach in 1_u32..200,
        ) {
            let (row, dial) = (row(count, Ratio::of(pitch, below)), dial(Ratio::of(line, 1000), None));
            let places = places(&row, &dial, reach).unwrap();
            let half = dial.travel_per_line().div(Ratio::whole(2)).unwrap();
            prop_assert_eq!(places.len(), count as usize);
            for (place, found) in (0..count).zip(&places) {
                // The plain way: so many pitches, and the nearest whole lines to them.
                let at = Ratio::of(pitch * i64::from(place), below);
                prop_assert!(found.off(at).abs() <= half, "{}", place);
                let from = places[nought(place, reach) as usize].made;
                let lines = found.made.sub(from).unwrap().div(dial.travel_per_line()).unwrap();
                prop_assert!(lines.is_whole());
                prop_assert_eq!(lines.floor(), i128::from(found.reading.turns * 100 + found.reading.lines));
                prop_assert!(!found.reading.back || at < from);
            }
        }
    }
}
