//! Limits of metric and trapezoidal threads.

use super::class::Class;
use super::designation::Side;
use super::iso965;
use super::limits::{Basic, Limits, LimitsError, Range};
use crate::exact::Ratio;

/// How long a metric thread is engaged, in the standard's groups.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Engagement {
    /// S.
    Short,
    /// N, also where the length is unknown.
    Normal,
    /// L.
    Long,
}

/// How fine a fit is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Quality {
    Fine,
    Medium,
    Coarse,
}

impl Quality {
    /// As it is said.
    pub(super) fn of(name: &str) -> Option<Quality> {
        let name = name.trim();
        [("fine", Quality::Fine), ("medium", Quality::Medium), ("coarse", Quality::Coarse)]
            .into_iter()
            .find(|(word, _)| name.eq_ignore_ascii_case(word))
            .map(|(_, quality)| quality)
    }

    /// The classes of screw and nut: ISO 965-1, the tables of recommended tolerance classes (from
    /// memory). A coarse fit has none of its own where it is short.
    pub(super) const fn classes(self, engaged: Engagement) -> (Class, Class) {
        const fn screw(pitch_grade: u8, crest_grade: u8, position: char) -> Class {
            Class::Iso {
                pitch_grade,
                pitch_position: position,
                crest_grade,
                crest_position: position,
            }
        }
        match (self, engaged) {
            (Quality::Fine, Engagement::Short) => (screw(3, 4, 'h'), Class::iso(4, 'H')),
            (Quality::Fine, Engagement::Normal) => (screw(4, 4, 'h'), Class::iso(5, 'H')),
            (Quality::Fine, Engagement::Long) => (screw(5, 4, 'h'), Class::iso(6, 'H')),
            (Quality::Medium, Engagement::Short) => (screw(5, 6, 'g'), Class::iso(5, 'H')),
            (Quality::Medium, Engagement::Normal) => (screw(6, 6, 'g'), Class::iso(6, 'H')),
            (Quality::Medium, Engagement::Long) => (screw(7, 6, 'g'), Class::iso(7, 'H')),
            (Quality::Coarse, Engagement::Short | Engagement::Normal) => {
                (screw(8, 8, 'g'), Class::iso(7, 'H'))
            }
            (Quality::Coarse, Engagement::Long) => (screw(9, 8, 'g'), Class::iso(8, 'H')),
        }
    }
}

/// The group of a length.
pub(super) fn engagement(diameter: Ratio, pitch: Ratio, length: Ratio) -> Engagement {
    let (from, to) = iso965::normal_engagement(diameter, pitch);
    let length = length.to_f64();
    if length < from - 1e-9 {
        Engagement::Short
    } else if length > to + 1e-9 {
        Engagement::Long
    } else {
        Engagement::Normal
    }
}

/// ISO 965-1. The screw's root lies between the flat form at the basic bore less the deviation, and
/// a round root of radius P/8 at the least pitch diameter.
pub(super) fn metric(basic: &Basic, diameter: Ratio, pitch: Ratio) -> Result<Limits, LimitsError> {
    let Class::Iso { pitch_grade, pitch_position, crest_grade, crest_position } = basic.class
    else {
        return Err(basic.wrong());
    };
    let none = LimitsError::NotAtThisPitch(basic.class);
    let pitch_off = iso965::deviation(pitch_position, pitch).ok_or(none)?;
    let crest_off = iso965::deviation(crest_position, pitch).ok_or(none)?;
    let (effective, crest) = match basic.side {
        Side::Outside => (
            iso965::screw_pitch(pitch_grade, diameter, pitch),
            iso965::screw_crest(crest_grade, pitch),
        ),
        Side::Inside => {
            (iso965::nut_pitch(pitch_grade, diameter, pitch), iso965::nut_crest(crest_grade, pitch))
        }
    };
    let (effective, crest) = (effective.ok_or(none)?, crest.ok_or(none)?);
    let printed = [pitch_off, crest_off, effective, crest].iter().all(|t| t.printed);
    let mm = |um: f64| um / 1000.0;
    let tolerances = [mm(crest.um), mm(effective.um), mm(crest.um)];
    let mut limits = basic.limits(mm(pitch_off.um), tolerances, printed, "ISO 965-1");
    match basic.side {
        Side::Outside => {
            let d = basic.major - mm(crest_off.um);
            limits.major = Range::of(d - mm(crest.um), d);
            let least = basic.effective - mm(pitch_off.um) - mm(effective.um);
            // H - 2 × P/8 on the diameter below the pitch line.
            limits.minor =
                Range::of(least - 0.616_025 * basic.pitch, basic.bore - mm(pitch_off.um));
        }
        Side::Inside => {
            let bore = basic.bore + mm(crest_off.um);
            limits.minor = Range::of(bore, bore + mm(crest.um));
        }
    }
    Ok(limits)
}

/// ISO 2903, from memory: grades 7 to 9 on the pitch diameter, position e outside and H inside;
/// outside diameter 4h, bore 4H, root 1.25 Td2 + the deviation.
pub(super) fn trapezoidal(
    basic: &Basic,
    diameter: Ratio,
    pitch: Ratio,
) -> Result<Limits, LimitsError> {
    let Class::Iso { pitch_grade: grade @ 7..=9, pitch_position, .. } = basic.class else {
        return Err(basic.wrong());
    };
    let (off, outside) = match (pitch_position, basic.side) {
        ('e', Side::Outside) => (1.0, true),
        ('H', Side::Inside) => (0.0, false),
        _ => return Err(basic.wrong()),
    };
    let [e, crest, bore, screw, nut] = iso965::trapezoidal(grade, diameter, pitch)
        .ok_or(LimitsError::NotAtThisPitch(basic.class))?
        .map(|um| um / 1000.0);
    let source = "ISO 2903, from memory";
    if !outside {
        return Ok(basic.limits(off, [0.0, nut, bore], false, source));
    }
    let mut limits = basic.limits(e, [crest, screw, 0.0], false, source);
    limits.major = Range::of(basic.major - crest, basic.major);
    limits.minor = Range::of(basic.root - 1.25 * screw - e, basic.root);
    Ok(limits)
}
