//! The limits of a hole, a shaft, and the slack between them.

use super::deviation::limits;
use super::grade::step;
use super::{Class, FitError, grade_tenths_um, parse_fit};
use crate::exact::Ratio;

/// A tolerance zone, mm from the nominal size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Zone {
    /// The lower deviation.
    pub low_mm: Ratio,
    /// The upper deviation.
    pub high_mm: Ratio,
}

impl Zone {
    /// The least and greatest size, mm.
    ///
    /// # Errors
    ///
    /// [`FitError::TooLarge`].
    pub fn limits_mm(&self, basic_mm: Ratio) -> Result<[Ratio; 2], FitError> {
        let at = |deviation: Ratio| basic_mm.add(deviation).map_err(|_| FitError::TooLarge);
        Ok([at(self.low_mm)?, at(self.high_mm)?])
    }

    /// The size to aim at: the middle, mm from the nominal size.
    ///
    /// # Errors
    ///
    /// [`FitError::TooLarge`].
    pub fn middle_mm(&self) -> Result<Ratio, FitError> {
        let sum = self.low_mm.add(self.high_mm).map_err(|_| FitError::TooLarge)?;
        sum.div(Ratio::whole(2)).map_err(|_| FitError::TooLarge)
    }
}

/// Whether the shaft always, sometimes or never goes in freely.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FitKind {
    /// There is always slack.
    Clearance,
    /// There may be slack or squeeze.
    Transition,
    /// It always squeezes.
    Interference,
}

/// A hole with its shaft.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fit {
    /// The hole's class.
    pub hole_class: Class,
    /// The shaft's class.
    pub shaft_class: Class,
    /// The hole's zone.
    pub hole: Zone,
    /// The shaft's zone.
    pub shaft: Zone,
    /// The least and the most slack, mm; negative where it squeezes.
    pub clearance_mm: [Ratio; 2],
    /// What it comes to.
    pub kind: FitKind,
}

/// The zone of one class at a size.
///
/// # Errors
///
/// [`FitError::NoSize`], [`FitError::TooLarge`], [`FitError::NoSuchClass`].
pub fn zone(class: Class, basic_mm: Ratio) -> Result<Zone, FitError> {
    if class.letters() == b"js" {
        // Half the grade each way, exactly: an odd micrometre isn't rounded down.
        let width = i64::from(grade_tenths_um(class.grade, basic_mm)?);
        let half = Ratio::of(width, 20_000);
        return Ok(Zone { low_mm: half.neg(), high_mm: half });
    }
    let (low, high) = limits(class, basic_mm, step(basic_mm)?)?;
    let mm = |tenths: i32| Ratio::of(i64::from(tenths), 10_000);
    Ok(Zone { low_mm: mm(low), high_mm: mm(high) })
}

/// A fit by its code, at a size.
///
/// ```
/// use latheside_core::{exact::Ratio, fits::fit};
/// let sliding = fit("H7/g6", Ratio::whole(25)).unwrap();
/// assert_eq!(sliding.clearance_mm, [Ratio::of(7, 1000), Ratio::of(41, 1000)]);
/// ```
///
/// # Errors
///
/// [`FitError`].
pub fn fit(code: &str, basic_mm: Ratio) -> Result<Fit, FitError> {
    let (hole_class, shaft_class) = parse_fit(code)?;
    let (hole, shaft) = (zone(hole_class, basic_mm)?, zone(shaft_class, basic_mm)?);
    let slack = |hole: Ratio, shaft: Ratio| hole.sub(shaft).map_err(|_| FitError::TooLarge);
    let clearance_mm = [slack(hole.low_mm, shaft.high_mm)?, slack(hole.high_mm, shaft.low_mm)?];
    let [least, most] = clearance_mm;
    let kind = if !least.is_negative() {
        FitKind::Clearance
    } else if !most.is_positive() {
        FitKind::Interference
    } else {
        FitKind::Transition
    };
    Ok(Fit { hole_class, shaft_class, hole, shaft, clearance_mm, kind })
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::format;

    #[test]
    fn every_class_at_every_size_has_limits_or_a_reason() {
        for letters in [
            "a", "b", "c", "cd", "d", "e", "ef", "f", "fg", "g", "h", "js", "j", "k", "m", "n",
            "p", "r", "s", "t", "u", "v", "x", "z", "q", "zz",
        ] {
            for grade in 1..=18 {
                for size in (1..=1020).map(|n| Ratio::of(n, 2)) {
                    for text in
                        [format!("{letters}{grade}"), format!("{}{grade}", letters.to_uppercase())]
                    {
                        let class = Class::parse(&text).unwrap();
                        if let Ok(zone) = zone(class, size) {
                            assert!(zone.low_mm < zone.high_mm, "{text} {size}");
                        }
                    }
                }
            }
        }
    }

    #[test]
    fn a_size_without_a_table_is_refused() {
        assert_eq!(fit("H7/g6", Ratio::ZERO), Err(FitError::NoSize));
        assert_eq!(fit("H7/g6", Ratio::of(5001, 10)), Err(FitError::TooLarge));
        assert!(fit("H7/t6", Ratio::whole(20)).is_err());
        assert!(fit("H7/g6", Ratio::whole(500)).is_ok());
    }
}
