//! The tolerances of metric threads as the standards print them, in µm.

use crate::exact::Ratio;

/// The numbers that the tolerances are rounded to: R40, as ISO 965-1 prints them.
#[rustfmt::skip]
const R40: [u16; 70] = [
    22, 24, 25, 26, 28, 30, 32, 34, 36, 38, 40, 42, 45, 48, 50, 53, 56, 60, 63, 67, 71, 75, 80, 85, 90,
    95, 100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212, 224, 236, 250, 265, 280,
    300, 315, 335, 355, 375, 400, 425, 450, 475, 500, 530, 560, 600, 630, 670, 710, 750, 800, 850, 900,
    950, 1000, 1060, 1120, 1180,
];

/// So many steps along R40 from a number that is in it.
fn step(from: u16, steps: i8) -> Option<u16> {
    let at = R40.iter().position(|n| *n == from)?;
    R40.get(at.checked_add_signed(isize::from(steps))?).copied()
}

/// The R40 number nearest to a formula's result, by ratio.
fn nearest(um: f64) -> Option<u16> {
    let off = |n: &u16| (f64::from(*n) / um).max(um / f64::from(*n));
    R40.iter().copied().min_by(|a, b| off(a).total_cmp(&off(b)))
}

/// Steps from grade 6: the grades' factors 0.63, 0.8, 1, 1.25, 1.6 are four steps of R40 apart.
fn by_grade(six: u16, grade: u8) -> Option<u16> {
    step(six, i8::try_from(grade).ok()?.checked_sub(6)?.checked_mul(4)?)
}

/// One range of diameters: over so many 0.01 mm, with grade 6 of Td2 for each pitch in µm.
struct Range {
    over: u16,
    rows: &'static [(u16, u16)],
}

/// Grade 6 of the screw's pitch diameter by diameter and pitch.
///
/// Source: ISO 965-1 Table 5 (from memory; every metric row of the reference tables agrees, and so
/// do the nuts' tolerances of the open table of threadlib). The other grades and the nuts' Table 4
/// are the same column moved along R40, as the whole printed tables are.
#[rustfmt::skip]
const TD2_SIX: [Range; 8] = [
    Range { over: 99, rows: &[(200, 48), (250, 53), (300, 56)] },
    Range { over: 140, rows: &[(200, 50), (250, 56), (350, 63), (400, 67), (450, 71)] },
    Range { over: 280, rows: &[(350, 67), (500, 75), (600, 85), (700, 90), (750, 90), (800, 95)] },
    Range { over: 560, rows: &[(750, 100), (1000, 112), (1250, 118), (1500, 132)] },
    Range { over: 1120, rows: &[
        (1000, 118), (1250, 132), (1500, 140), (1750, 150), (2000, 160), (2500, 170),
    ] },
    Range { over: 2240, rows: &[
        (1000, 125), (1500, 150), (2000, 170), (3000, 200), (3500, 212), (4000, 224), (4500, 236),
    ] },
    Range { over: 4500, rows: &[
        (1500, 160), (2000, 180), (3000, 212), (4000, 236), (5000, 250), (5500, 265), (6000, 280),
    ] },
    Range { over: 9000, rows: &[(2000, 190), (3000, 224), (4000, 250), (6000, 300)] },
];

/// By range of diameters: pitch in µm, and the normal length of engagement from and to, in 0.1 mm.
///
/// Source: ISO 965-1, table of lengths of thread engagement (from memory; every row is near the
/// formula behind it).
#[rustfmt::skip]
const NORMAL: [&[(u16, u16, u16)]; 8] = [
    &[(200, 5, 14), (250, 6, 17), (300, 7, 20)],
    &[(200, 5, 15), (250, 6, 19), (350, 8, 26), (400, 10, 30), (450, 13, 38)],
    &[(350, 10, 30), (500, 15, 45), (600, 17, 50), (700, 20, 60), (750, 22, 67), (800, 25, 75)],
    &[(750, 24, 71), (1000, 30, 90), (1250, 40, 120), (1500, 50, 150)],
    &[(1000, 38, 110), (1250, 45, 130), (1500, 56, 160), (1750, 60, 180), (2000, 80, 240),
      (2500, 100, 300)],
    &[(1000, 40, 120), (1500, 63, 190), (2000, 85, 250), (3000, 120, 360), (3500, 150, 450),
      (4000, 180, 530), (4500, 210, 630)],
    &[(1500, 75, 220), (2000, 95, 280), (3000, 150, 450), (4000, 190, 560), (5000, 240, 710),
      (5500, 280, 850), (6000, 320, 950)],
    &[(2000, 120, 360), (3000, 180, 530), (4000, 240, 710), (6000, 360, 1060)],
];

/// Ends of the ranges of diameters, mm, for the formula's mean.
const ENDS: [f64; 10] = [0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0, 180.0, 355.0];

/// By pitch in µm: positions e, f, g (0 where there is none), grade 6 of Td and of TD1.
///
/// Source: ISO 965-1 Tables 1, 2 and 3 (from memory; g, Td and TD1 agree with every metric row of
/// the reference tables).
#[rustfmt::skip]
const BY_PITCH: [[u16; 6]; 24] = [
    [200, 0, 0, 17, 56, 60], [250, 0, 0, 18, 67, 71], [300, 0, 0, 18, 75, 85],
    [350, 0, 34, 19, 85, 100], [400, 0, 34, 19, 95, 112], [450, 0, 35, 20, 100, 125],
    [500, 50, 36, 20, 106, 140], [600, 53, 36, 21, 125, 160], [700, 56, 38, 22, 140, 180],
    [750, 56, 38, 22, 140, 190], [800, 60, 38, 24, 150, 200], [1000, 60, 40, 26, 180, 236],
    [1250, 63, 42, 28, 212, 265], [1500, 67, 45, 32, 236, 300], [1750, 71, 48, 34, 265, 335],
    [2000, 71, 52, 38, 280, 375], [2500, 80, 58, 42, 335, 450], [3000, 85, 63, 48, 375, 500],
    [3500, 90, 70, 53, 425, 560], [4000, 95, 75, 60, 475, 600], [4500, 100, 80, 63, 500, 670],
    [5000, 106, 85, 71, 530, 710], [5500, 112, 90, 75, 560, 750], [6000, 118, 95, 80, 600, 800],
];

/// By pitch in µm: position e, grade 4 of the screw's outside and of the nut's bore.
///
/// Source: ISO 2903 Tables 1 to 3 (from memory).
#[rustfmt::skip]
const TRAPEZOIDAL: [[u16; 4]; 15] = [
    [1500, 67, 150, 190], [2000, 71, 180, 236], [3000, 85, 236, 315], [4000, 95, 300, 375],
    [5000, 106, 335, 450], [6000, 118, 375, 500], [7000, 125, 425, 560], [8000, 132, 450, 630],
    [9000, 140, 500, 670], [10000, 150, 530, 710], [12000, 160, 600, 800], [14000, 180, 670, 900],
    [16000, 190, 710, 1000], [18000, 200, 800, 1120], [20000, 212, 850, 1180],
];

/// A tolerance or deviation in µm, and whether the standard prints it or only its formula gives it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Micrometres {
    pub(super) um: f64,
    pub(super) printed: bool,
}

const fn printed(um: u16) -> Micrometres {
    Micrometres { um: um as f64, printed: true }
}

const fn computed(um: f64) -> Micrometres {
    Micrometres { um, printed: false }
}

fn micrometres(mm: Ratio) -> Option<u16> {
    let um = mm.mul(Ratio::whole(1000)).ok()?;
    um.is_whole().then(|| u16::try_from(um.numer()).ok()).flatten()
}

fn by_pitch(pitch: Ratio) -> Option<&'static [u16; 6]> {
    let um = micrometres(pitch)?;
    BY_PITCH.iter().find(|row| row.first() == Some(&um))
}

/// How far the tolerance stands off the basic size: always a size, outwards for a nut.
///
/// Off the printed pitches by the formulas of ISO 965-1: e 50 + 11 P, f 30 + 11 P, g and G 15 + 11 P.
pub(super) fn deviation(position: char, pitch: Ratio) -> Option<Micrometres> {
    let (column, base) = match position {
        'h' | 'H' => return Some(printed(0)),
        'e' => (1usize, 50.0),
        'f' => (2, 30.0),
        'g' | 'G' => (3, 15.0),
        _ => return None,
    };
    match by_pitch(pitch) {
        // Too fine a pitch for so loose a fit: the standard has none.
        Some(row) => row.get(column).copied().filter(|um| *um > 0).map(printed),
        None => Some(computed(base + 11.0 * pitch.to_f64())),
    }
}

/// Factor of a grade where only the formula is to be had.
fn factor(grade: u8) -> Option<f64> {
    [0.5, 0.63, 0.8, 1.0, 1.25, 1.6, 2.0].get(usize::from(grade.checked_sub(3)?)).copied()
}

/// Tolerance of the screw's pitch diameter, Td2.
///
/// Off the table by ISO 965-1's formula 90 P^0.4 d^0.1 with the diameter itself, as FED-STD-H28/21B
/// 5.1.3 does it.
pub(super) fn screw_pitch(grade: u8, diameter: Ratio, pitch: Ratio) -> Option<Micrometres> {
    if let Some(six) = tabled(diameter, pitch) {
        return by_grade(six, grade).map(printed);
    }
    Some(computed(factor(grade)? * formula(diameter.to_f64(), pitch)))
}

/// Tolerance of the nut's pitch diameter, TD2: Td2 five steps of R40 on (× 1.32).
pub(super) fn nut_pitch(grade: u8, diameter: Ratio, pitch: Ratio) -> Option<Micrometres> {
    if let Some(six) = tabled(diameter, pitch) {
        return by_grade(step(six, 5)?, grade).map(printed);
    }
    let factor = [0.85, 1.06, 1.32, 1.7, 2.12].get(usize::from(grade.checked_sub(4)?))?;
    Some(computed(factor * formula(diameter.to_f64(), pitch)))
}

fn tabled(diameter: Ratio, pitch: Ratio) -> Option<u16> {
    let um = micrometres(pitch)?;
    let over = |range: &&Range| diameter > Ratio::of(i64::from(range.over), 100);
    let range = TD2_SIX.iter().rev().find(over)?;
    (diameter <= Ratio::whole(180)).then_some(())?;
    range.rows.iter().find(|(p, _)| *p == um).map(|(_, six)| *six)
}

fn formula(diameter: f64, pitch: Ratio) -> f64 {
    // P^0.4 d^0.1 is the tenth root of P^4 d.
    let p = pitch.to_f64();
    90.0 * root(10, power(p, 4) * diameter)
}

/// The normal length of engagement, mm, from and to: shorter ones are group S, longer ones L. Off the
/// table by the formula behind it, 2.24 P d^0.2 to 6.7 P d^0.2, with the least diameter of its range.
pub(super) fn normal_engagement(diameter: Ratio, pitch: Ratio) -> (f64, f64) {
    let d = diameter.to_f64();
    let range = ENDS.windows(2).enumerate().find_map(|(at, ends)| match ends {
        [from, to] if d > *from && d <= *to => Some((at, *from)),
        _ => None,
    });
    let row = range
        .and_then(|(at, _)| NORMAL.get(at))
        .zip(micrometres(pitch))
        .and_then(|(rows, um)| rows.iter().find(|(p, ..)| *p == um));
    if let Some((_, from, to)) = row {
        return (f64::from(*from) / 10.0, f64::from(*to) / 10.0);
    }
    let scale = pitch.to_f64() * root(5, range.map_or(d, |(_, from)| from));
    (2.24 * scale, 6.7 * scale)
}

fn power(x: f64, n: u8) -> f64 {
    (0..n).fold(1.0, |product, _| product * x)
}

/// The `n`th root of a size, by Newton's method from above: a general power would be larger code.
fn root(n: u8, x: f64) -> f64 {
    let mut y = x.max(1.0);
    for _ in 0..5000 {
        let next = y - (y - x / power(y, n.saturating_sub(1))) / f64::from(n);
        if next >= y || next.is_nan() {
            break;
        }
        y = next;
    }
    y
}

/// Tolerance of the screw's outside diameter, Td, grades 4, 6 and 8.
pub(super) fn screw_crest(grade: u8, pitch: Ratio) -> Option<Micrometres> {
    if !matches!(grade, 4 | 6 | 8) {
        return None;
    }
    if let Some([_, _, _, _, six, _]) = by_pitch(pitch) {
        return by_grade(*six, grade).map(printed);
    }
    let p = pitch.to_f64();
    Some(computed(factor(grade)? * (180.0 * libm::cbrt(p * p) - 3.15 / libm::sqrt(p))))
}

/// Tolerance of the nut's bore, TD1, grades 4 to 8.
pub(super) fn nut_crest(grade: u8, pitch: Ratio) -> Option<Micrometres> {
    if !(4..=8).contains(&grade) {
        return None;
    }
    if let Some([_, _, _, _, _, six]) = by_pitch(pitch) {
        return by_grade(*six, grade).map(printed);
    }
    let p = pitch.to_f64();
    // P^1.22 and P^0.7, as roots.
    let six = if p <= 0.8 {
        433.0 * p - 190.0 * p * root(50, power(p, 11))
    } else {
        230.0 * root(10, power(p, 7))
    };
    Some(computed(factor(grade)? * six))
}

/// A trapezoidal screw's tolerances in µm: position e, outside diameter, nut's bore, and the pitch
/// diameter of screw and nut in this grade (ISO 2903: ISO 965's formula to the nearest R40 number).
pub(super) fn trapezoidal(grade: u8, diameter: Ratio, pitch: Ratio) -> Option<[f64; 5]> {
    let um = micrometres(pitch)?;
    let [_, e, outside, bore] = TRAPEZOIDAL.iter().find(|row| row.first() == Some(&um))?;
    let d = diameter.to_f64();
    let range = ENDS.windows(2).find_map(|ends| match ends {
        [from, to] if d > *from && d <= *to => Some((*from, *to)),
        _ => None,
    })?;
    let six = nearest(formula(libm::sqrt(range.0 * range.1), pitch))?;
    let screw = by_grade(six, grade)?;
    let nut = step(screw, 5)?;
    Some([*e, *outside, *bore, screw, nut].map(f64::from))
}

#[cfg(test)]
#[allow(clippy::arithmetic_side_effects)]
mod tests {
    use super::*;
    use alloc::vec::Vec;

    /// What the tables print follows from the standard's formulas to about a step of R40: a slip of
    /// memory in a digit would show.
    #[test]
    fn every_row_is_near_its_formula() {
        for (range, ends) in TD2_SIX.iter().zip(ENDS.windows(2)) {
            assert_eq!(f64::from(range.over) / 100.0, ends[0]);
            for (pitch, six) in range.rows {
                let pitch = Ratio::of(i64::from(*pitch), 1000);
                let by_formula = formula((ends[0] * ends[1]).sqrt(), pitch);
                let off = f64::from(*six) / by_formula - 1.0;
                assert!(off.abs() < 0.045, "over {} pitch {pitch}: {six}, {by_formula}", ends[0]);
            }
        }
        for [pitch, e, f, g, td, td1] in BY_PITCH {
            let p = f64::from(pitch) / 1000.0;
            for (um, base) in [(e, 50.0), (f, 30.0), (g, 15.0)] {
                let off = f64::from(um) - base - 11.0 * p;
                assert!(um == 0 || off.abs() <= 5.6, "pitch {p}: {um} {off}");
            }
            let crest = 180.0 * p.powf(2.0 / 3.0) - 3.15 / p.sqrt();
            // A pitch of 4 mm has 475 in print where the formula gives 452.
            assert!((f64::from(td) / crest - 1.0).abs() < 0.055, "pitch {p}: {td} {crest}");
            let bore =
                if p <= 0.8 { 433.0 * p - 190.0 * p.powf(1.22) } else { 230.0 * p.powf(0.7) };
            assert!((f64::from(td1) / bore - 1.0).abs() < 0.045, "pitch {p}: {td1} {bore}");
        }
    }

    /// A slip of memory in a length of engagement would show beside the formula.
    #[test]
    fn every_normal_length_is_near_its_formula() {
        for (rows, ends) in NORMAL.iter().zip(ENDS.windows(2)) {
            for (pitch, from, to) in *rows {
                let scale = f64::from(*pitch) / 1000.0 * ends[0].powf(0.2);
                for (tenths, factor) in [(from, 2.24), (to, 6.7)] {
                    let off = f64::from(*tenths) / 10.0 / (factor * scale) - 1.0;
                    assert!(off.abs() < 0.22, "over {}, {pitch}: {tenths}, {off}", ends[0]);
                }
            }
        }
    }

    #[test]
    fn roots_are_powers() {
        for x in [0.001, 0.3, 1.0, 2.5, 180.0, 1e12] {
            for (n, by) in [(10, 0.1), (50, 0.02)] {
                let (found, known) = (root(n, x), x.powf(by));
                assert!((found / known - 1.0).abs() < 1e-12, "{x} {n}: {found} {known}");
            }
        }
    }

    #[test]
    fn grades_move_along_the_series() {
        // Source: ISO 965-1 Tables 2 to 5, rows printed there (from memory).
        let p = Ratio::of(3, 2);
        let d = Ratio::whole(10);
        let row: Vec<f64> = (3..=9).map(|g| screw_pitch(g, d, p).unwrap().um).collect();
        assert_eq!(row, [67.0, 85.0, 106.0, 132.0, 170.0, 212.0, 265.0]);
        let row: Vec<f64> = (4..=8).map(|g| nut_pitch(g, d, p).unwrap().um).collect();
        assert_eq!(row, [112.0, 140.0, 180.0, 224.0, 280.0]);
        let row: Vec<f64> = (4..=8).map(|g| nut_crest(g, p).unwrap().um).collect();
        assert_eq!(row, [190.0, 236.0, 300.0, 375.0, 475.0]);
        let row: Vec<f64> = [4, 6, 8].into_iter().map(|g| screw_crest(g, p).unwrap().um).collect();
        assert_eq!(row, [150.0, 236.0, 375.0]);
        assert_eq!(screw_crest(5, p), None);
        assert_eq!(deviation('e', Ratio::of(7, 20)), None, "too fine for e");
    }
}
