//! How wide a tolerance is: the standard grades by size.

use super::FitError;
use crate::exact::Ratio;

/// The steps of nominal size, mm: over the one before, up to and including this one.
#[rustfmt::skip]
pub const STEPS_MM: [u16; 13] = [3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500];

/// The tables end here, mm.
pub const GREATEST_SIZE_MM: u16 = 500;

/// Tenths of a micrometre, grades 1 to 5, by step. ISO 286-1 Table 1.
#[rustfmt::skip]
const FINE: [[u16; 13]; 5] = [
    [ 8, 10, 10, 12, 15,  15,  20,  25,  35,  45,  60,  70,  80],
    [12, 15, 15, 20, 25,  25,  30,  40,  50,  70,  80,  90, 100],
    [20, 25, 25, 30, 40,  40,  50,  60,  80, 100, 120, 130, 150],
    [30, 40, 40, 50, 60,  70,  80, 100, 120, 140, 160, 180, 200],
    [40, 50, 60, 80, 90, 110, 130, 150, 180, 200, 230, 250, 270],
];

/// Micrometres, grades 6 to 11, by step. ISO 286-1 Table 1. The printed values stand where they
/// differ from the formula (10 i at 315 to 400 mm gives 35, printed 36; grade 11 over 3 up to 6 mm
/// is 75, not ten times grade 6). From grade 12 each is ten times the one five grades finer.
#[rustfmt::skip]
const COARSE: [[u16; 13]; 6] = [
    [ 6,  8,  9, 11, 13,  16,  19,  22,  25,  29,  32,  36,  40],
    [10, 12, 15, 18, 21,  25,  30,  35,  40,  46,  52,  57,  63],
    [14, 18, 22, 27, 33,  39,  46,  54,  63,  72,  81,  89,  97],
    [25, 30, 36, 43, 52,  62,  74,  87, 100, 115, 130, 140, 155],
    [40, 48, 58, 70, 84, 100, 120, 140, 160, 185, 210, 230, 250],
    [60, 75, 90, 110, 130, 160, 190, 220, 250, 290, 320, 360, 400],
];

/// Which step a size falls in.
pub(super) fn step(size_mm: Ratio) -> Result<usize, FitError> {
    if !size_mm.is_positive() {
        return Err(FitError::NoSize);
    }
    STEPS_MM
        .iter()
        .position(|up_to| size_mm <= Ratio::from(u32::from(*up_to)))
        .ok_or(FitError::TooLarge)
}

/// The width of grade 1 to 18 in the step, tenths of a micrometre.
pub(super) fn in_step(grade: u8, step: usize) -> Option<i32> {
    let cell = |rows: &[[u16; 13]], row: u8, times: i32| {
        let value = *rows.get(usize::from(row))?.get(step)?;
        i32::from(value).checked_mul(times)
    };
    match grade {
        1..=5 => cell(&FINE, grade.checked_sub(1)?, 1),
        6..=11 => cell(&COARSE, grade.checked_sub(6)?, 10),
        12..=16 => cell(&COARSE, grade.checked_sub(11)?, 100),
        17 | 18 => cell(&COARSE, grade.checked_sub(16)?, 1000),
        _ => None,
    }
}

/// The width of standard grade 1 to 18 at a size, tenths of a micrometre. ISO 286-1 Table 1.
///
/// # Errors
///
/// [`FitError::NoSize`], [`FitError::TooLarge`], [`FitError::NoGrade`].
pub fn grade_tenths_um(grade: u8, size_mm: Ratio) -> Result<i32, FitError> {
    in_step(grade, step(size_mm)?).ok_or(FitError::NoGrade { grade })
}
