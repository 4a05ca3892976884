//! How long the lines are, as readings of the slide that draws them.

use crate::exact::Ratio;
use crate::graduation::line_lengths;
use crate::quantity::Unit;
use crate::shop::Dial;

/// The longest line as a share of the diameter, and the least and most of it in mm: common
/// practice, no source.
const SHARE: Ratio = Ratio::of(1, 8);
const LEAST: Ratio = Ratio::whole(3);
const MOST: Ratio = Ratio::whole(8);

/// Long, middle and short in mm, on whole lines of the slide's dial, else of a tenth of a
/// millimetre or five thou.
pub(super) fn lengths(diameter: Ratio, dial: Option<&Dial>, like: Unit) -> Option<[Ratio; 3]> {
    let longest = diameter.mul(SHARE).ok()?.clamp(LEAST, MOST);
    // Half millimetres or twenty thou read easily.
    let step = if like.is_inch() { Ratio::of(508, 1000) } else { Ratio::of(1, 2) };
    let [long, middle, short] = line_lengths(to(step, longest)?).ok()?;
    let fine = if like.is_inch() { Ratio::of(127, 1000) } else { Ratio::of(1, 10) };
    let line = dial.map_or(fine, Dial::travel_per_line);
    Some([to(line, long)?, to(line, middle)?, to(line, short)?])
}

/// The nearest whole number of steps.
fn to(step: Ratio, length: Ratio) -> Option<Ratio> {
    let steps = i64::try_from(length.div(step).ok()?.round()).ok()?;
    step.mul(Ratio::whole(steps)).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_fall_on_lines_of_the_dial() {
        let dial = Dial {
            division: Ratio::of(1, 50),
            unit: Unit::Mm,
            divisions: Some(100),
            reads_diameter: false,
            backlash: None,
            grows: None,
            travel: None,
        };
        let found = lengths(Ratio::whole(32), Some(&dial), Unit::Mm).unwrap();
        // 4 mm, and 15/19 and 11/19 of it to the nearest line of 0.02 mm.
        assert_eq!(found, [Ratio::whole(4), Ratio::of(316, 100), Ratio::of(232, 100)]);
        let by_eye = lengths(Ratio::whole(200), None, Unit::Inch).unwrap();
        assert!(by_eye.iter().all(|mm| mm.div(Ratio::of(127, 1000)).unwrap().is_whole()));
        assert!(by_eye[0] > by_eye[1] && by_eye[1] > by_eye[2]);
    }
}
