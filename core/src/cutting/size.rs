//! Down to size: roughing cuts, a cut to measure, and the last one.

use super::sources::LAB_SHEET;
use super::{CutterMaterial, Stock};
use crate::exact::{Ratio, RatioError};
use alloc::vec::Vec;
use core::fmt;

/// What a cut is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CutKind {
    /// Takes the bulk off.
    Rough,
    /// As deep as the last one, so that the work springs the same; then measure.
    Measuring,
    /// To size, by what the micrometer said.
    Last,
}

/// One cut, and the diameter that it leaves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SizeCut {
    /// What it is for.
    pub kind: CutKind,
    /// What it leaves, mm.
    pub diameter_mm: Ratio,
    /// How deep it is, on the radius, mm.
    pub depth_mm: Ratio,
}

/// Why there is no plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum SizeError {
    /// A diameter or a depth of nothing or less.
    NoSize,
    /// It is that size already.
    NothingToCut,
    /// More than a thousand cuts.
    TooMany,
    /// The work is already past the size wanted.
    PastSize,
    /// A number too large to keep exactly.
    TooLarge,
}

impl fmt::Display for SizeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            SizeError::NoSize => "diameters and depths must be more than nothing",
            SizeError::NothingToCut => "it is that size already",
            SizeError::TooMany => "more than 1000 cuts: take deeper ones",
            SizeError::PastSize => "it measures past the size wanted already",
            SizeError::TooLarge => "the number is too large to keep exactly",
        })
    }
}

impl core::error::Error for SizeError {}

impl From<RatioError> for SizeError {
    fn from(_: RatioError) -> SizeError {
        SizeError::TooLarge
    }
}

/// The depth of the measuring and the last cut, on the radius, mm: a quarter of a millimetre.
/// Common practice, no source.
pub const LAST_CUT_MM: Ratio = Ratio::of(1, 4);

/// How deep a roughing cut goes on the radius, mm, and who says so. The laboratory sheet has the
/// steels, aluminium and brass; the others go by the one that they are most like.
#[must_use]
pub const fn rough_depth(stock: Stock, cutter: CutterMaterial) -> (Ratio, &'static str) {
    let hss = matches!(cutter, CutterMaterial::Hss);
    let thousandths = match stock {
        Stock::AlloySteel | Stock::ToolSteel => {
            if hss {
                25
            } else {
                45
            }
        }
        Stock::FreeCuttingSteel
        | Stock::MildSteel
        | Stock::MediumCarbonSteel
        | Stock::StainlessSteel
        | Stock::GreyIron => {
            if hss {
                30
            } else {
                50
            }
        }
        _ => {
            if hss {
                50
            } else {
                70
            }
        }
    };
    // A thousandth of an inch is 127/5000 mm.
    let depth = match Ratio::of(127, 5000).mul(Ratio::whole(thousandths)) {
        Ok(depth) => depth,
        Err(_) => Ratio::ONE,
    };
    (depth, LAB_SHEET)
}

/// What a steel boring bar stands out at most, in diameters of the bar: a reference page of overhang and
/// deflection has 4 for steel and 6 for solid carbide; what the edge is of changes nothing.
pub const BAR_OUT: i64 = 4;

/// How deep a roughing cut goes with a boring bar that stands out so far, of the depth that it takes
/// where it is short: the whole up to two diameters out, a half at four, between in proportion. `None`
/// past [`BAR_OUT`] diameters. Common practice, no source.
#[must_use]
pub fn bar_depth(rough_mm: Ratio, out_mm: Ratio, bar_mm: Ratio) -> Option<Ratio> {
    let out = out_mm.div(bar_mm).ok().filter(|out| bar_mm.is_positive() && !out.is_negative())?;
    if out > Ratio::whole(BAR_OUT) {
        return None;
    }
    let more = out.sub(Ratio::whole(2)).ok()?.max(Ratio::ZERO);
    let share = Ratio::ONE.sub(more.div(Ratio::whole(4)).ok()?).ok()?;
    rough_mm.mul(share).ok()
}

/// The cuts that bring `from_mm` to `to_mm`: equal roughing cuts no deeper than `rough_mm`, a cut
/// to measure and the last one of `last_mm` each, all depths on the radius. Outside where the work
/// gets smaller, inside where it gets larger.
///
/// Where less than both last cuts is there to take, it is taken in two equal ones; where no more
/// than one, in one.
///
/// # Errors
///
/// [`SizeError`].
pub fn size_cuts(
    from_mm: Ratio,
    to_mm: Ratio,
    rough_mm: Ratio,
    last_mm: Ratio,
) -> Result<Vec<SizeCut>, SizeError> {
    let nothing = |size: &Ratio| !size.is_positive();
    // A bore may begin in the solid.
    if from_mm.is_negative() || [to_mm, rough_mm, last_mm].iter().any(nothing) {
        return Err(SizeError::NoSize);
    }
    let two = Ratio::whole(2);
    let whole = to_mm.sub(from_mm)?;
    let depth = whole.abs().div(two)?;
    if depth.is_zero() {
        return Err(SizeError::NothingToCut);
    }
    let sign = if whole.is_negative() { Ratio::whole(-1) } else { Ratio::ONE };
    let mut cuts = Vec::new();
    let mut at = from_mm;
    let mut push = |kind, depth_mm: Ratio| -> Result<(), SizeError> {
        at = at.add(depth_mm.mul(two)?.mul(sign)?)?;
        cuts.push(SizeCut { kind, diameter_mm: at, depth_mm });
        Ok(())
    };
    let both = last_mm.mul(two)?;
    if depth <= last_mm {
        push(CutKind::Last, depth)?;
    } else if depth <= both {
        push(CutKind::Measuring, depth.div(two)?)?;
        push(CutKind::Last, depth.div(two)?)?;
    } else {
        let bulk = depth.sub(both)?;
        let passes = bulk.div(rough_mm)?;
        let floor = i64::try_from(passes.floor()).map_err(|_| SizeError::TooMany)?;
        let count = if passes.is_whole() { floor } else { floor.saturating_add(1) };
        if count > 1000 {
            return Err(SizeError::TooMany);
        }
        let each = bulk.div(Ratio::whole(count))?;
        for _ in 0..count {
            push(CutKind::Rough, each)?;
        }
        push(CutKind::Measuring, last_mm)?;
        push(CutKind::Last, last_mm)?;
    }
    Ok(cuts)
}

/// What the last cut takes on the diameter when the micrometer says `measured_mm`, mm.
///
/// # Errors
///
/// [`SizeError::PastSize`], [`SizeError::NothingToCut`], [`SizeError::TooLarge`].
pub fn after_measuring(measured_mm: Ratio, to_mm: Ratio, inside: bool) -> Result<Ratio, SizeError> {
    let left = if inside { to_mm.sub(measured_mm)? } else { measured_mm.sub(to_mm)? };
    if left.is_negative() {
        Err(SizeError::PastSize)
    } else if left.is_zero() {
        Err(SizeError::NothingToCut)
    } else {
        Ok(left)
    }
}

/// How a bar is held up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Slender {
    /// The chuck alone will do.
    Stiff,
    /// Over three diameters out of the chuck: bring up the tailstock.
    NeedsCentre,
    /// Over ten diameters between chuck and centre: a steady too.
    NeedsSteady,
}

/// What a length of this diameter wants. Common practice, no source.
#[must_use]
pub fn slender(stick_out_mm: Ratio, diameter_mm: Ratio) -> Slender {
    let over =
        |times: i64| diameter_mm.mul(Ratio::whole(times)).is_ok_and(|limit| stick_out_mm > limit);
    if over(10) {
        Slender::NeedsSteady
    } else if over(3) {
        Slender::NeedsCentre
    } else {
        Slender::Stiff
    }
}

#[cfg(test)]
#[allow(clippy::arithmetic_side_effects)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn mm(hundredths: i64) -> Ratio {
        Ratio::of(hundredths, 100)
    }

    #[test]
    fn twelve_down_to_nine_point_nine() {
        let cuts = size_cuts(mm(1200), mm(990), mm(60), mm(25)).unwrap();
        let left: Vec<_> = cuts.iter().map(|cut| (cut.kind, cut.diameter_mm)).collect();
        // By hand: 1.05 on the radius, 0.5 of it for the last two, so one of 0.55.
        let by_hand =
            [(CutKind::Rough, mm(1090)), (CutKind::Measuring, mm(1040)), (CutKind::Last, mm(990))];
        assert_eq!(left, by_hand);
    }

    #[test]
    fn what_cannot_be_cut() {
        let cuts = |from, to, rough| size_cuts(mm(from), mm(to), mm(rough), mm(25));
        assert_eq!(cuts(1000, 1000, 50), Err(SizeError::NothingToCut));
        assert_eq!(cuts(1000, 0, 50), Err(SizeError::NoSize));
        assert_eq!(cuts(-1, 500, 50), Err(SizeError::NoSize));
        assert_eq!(cuts(1000, 900, 0), Err(SizeError::NoSize));
        assert_eq!(cuts(1_000_000, 100, 1), Err(SizeError::TooMany));
        assert!(cuts(0, 500, 50).is_ok(), "a bore may begin in the solid");
        assert_eq!(after_measuring(mm(985), mm(990), false), Err(SizeError::PastSize));
        assert_eq!(after_measuring(mm(985), mm(990), true), Ok(mm(5)));
    }

    #[test]
    fn a_bar_takes_less_the_further_it_stands_out() {
        let depth = |out, bar| bar_depth(mm(100), mm(out), mm(bar));
        assert_eq!(depth(1600, 800), Some(mm(100)));
        assert_eq!(depth(2400, 800), Some(mm(75)));
        assert_eq!(depth(3200, 800), Some(mm(50)));
        assert_eq!(depth(3201, 800), None, "past four diameters");
        assert_eq!(depth(1600, 0), None);
    }

    #[test]
    fn slender_work_says_so() {
        assert_eq!(slender(mm(3000), mm(1000)), Slender::Stiff);
        assert_eq!(slender(mm(3001), mm(1000)), Slender::NeedsCentre);
        assert_eq!(slender(mm(10_001), mm(1000)), Slender::NeedsSteady);
    }

    proptest! {
        #[test]
        fn the_cuts_end_at_the_size(from in 1i64..20_000, to in 1i64..20_000, rough in 5i64..300, last in 1i64..60) {
            prop_assume!(from != to);
            let Ok(cuts) = size_cuts(mm(from), mm(to), mm(rough), mm(last)) else { return Ok(()) };
            prop_assert_eq!(cuts.last().unwrap().diameter_mm, mm(to));
            prop_assert_eq!(cuts.last().unwrap().kind, CutKind::Last);
            let mut at = mm(from);
            for cut in &cuts {
                let moved = cut.diameter_mm.sub(at).unwrap();
                prop_assert_eq!(moved.is_negative(), to < from);
                prop_assert_eq!(moved.abs(), cut.depth_mm.mul(Ratio::whole(2)).unwrap());
                let most = if cut.kind == CutKind::Rough { mm(rough) } else { mm(last) };
                prop_assert!(cut.depth_mm <= most);
                at = cut.diameter_mm;
            }
        }
    }
}
