//! Why a thread's name can't be taken, and what could be.

use super::class::Class;
use super::designation::Designation;
use super::lead::{Inches, Lead, Plain};
use super::parse::read;
use super::series::{Series, standard};
use crate::exact::Ratio;
use crate::quantity::show;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use core::fmt;

/// Why a thread's name can't be taken.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum DesignationError {
    /// Nothing is written.
    Nothing,
    /// This part means nothing here.
    NotUnderstood(String),
    /// A size stands alone, and several series have it.
    WhichSeries(String),
    /// A size and a pitch that several threads have.
    Which {
        /// As written.
        written: String,
        /// The threads that it could mean.
        meant: Vec<Designation>,
    },
    /// The series has no such size; what is nearest in it.
    NoSuchSize {
        /// As written.
        size: String,
        /// Of which series.
        series: &'static str,
        /// Sizes it does have.
        near: String,
    },
    /// The size has no pitch of its own, so one must be given.
    PitchWanted {
        /// As written.
        size: String,
        /// How it might be written.
        example: String,
    },
    /// A number is nothing, too large, or has a nought below the bar.
    BadNumber(String),
    /// The pitch is as large as the thread itself, or larger.
    PitchTooLarge(String),
    /// A lead that isn't a whole number of pitches.
    NotWholeStarts {
        /// The lead as written.
        lead: String,
        /// The pitch as written.
        pitch: String,
    },
    /// The class belongs to another kind of thread.
    ClassOfAnother {
        /// The class as written.
        class: String,
        /// What would be understood.
        would: &'static str,
    },
}

impl fmt::Display for DesignationError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        use DesignationError as E;
        match self {
            E::Nothing => {
                f.write_str("no thread yet: write one like M10, 1/4-20 UNC, 3/8 BSF, 2 BA")
            }
            E::NotUnderstood(what) => write!(
                f,
                "\u{201c}{}\u{201d} isn't understood: write a thread like M10 × 1.25, 1/4-20 UNC, \
                 3/8 BSF, G 1/4, 2 BA, Tr 16 × 4, 1/2-10 Acme, module 1, DP 20, or a lead like 3 mm or 8 tpi",
                show::short(what)
            ),
            E::WhichSeries(size) => write!(
                f,
                "{size} is a size, and several threads have it: say which, like M{size}, {size} BSW, {size} UNC"
            ),
            E::Which { written, meant } => {
                write!(f, "{} could be several threads: say which, ", show::short(written))?;
                for (at, thread) in meant.iter().enumerate() {
                    let before = match at {
                        0 => "",
                        _ if at.saturating_add(1) == meant.len() => " or ",
                        _ => ", ",
                    };
                    write!(f, "{before}{thread} ({})", thread.series.told_by())?;
                }
                Ok(())
            }
            E::NoSuchSize { size, series, near } => {
                write!(f, "there is no {series} thread of size {size}: the nearest are {near}")
            }
            E::PitchWanted { size, example } => {
                write!(f, "{size} has no pitch of its own: give one, like {example}")
            }
            E::BadNumber(number) => write!(f, "{number} can't be a size or a pitch"),
            E::PitchTooLarge(pitch) => write!(f, "a pitch of {pitch} is too large for this thread"),
            E::NotWholeStarts { lead, pitch } => {
                write!(f, "a lead of {lead} isn't a whole number of pitches of {pitch}")
            }
            E::ClassOfAnother { class, would } => {
                write!(
                    f,
                    "class {} isn't one of this thread's: it would be {would}",
                    show::short(class)
                )
            }
        }
    }
}

impl core::error::Error for DesignationError {}

#[inline(never)]
pub(super) fn not_understood(what: &str) -> DesignationError {
    DesignationError::NotUnderstood(what.trim().to_string())
}

#[inline(never)]
pub(super) fn bad(number: Ratio) -> DesignationError {
    DesignationError::BadNumber(Plain(number).to_string())
}

#[inline(never)]
pub(super) fn bad_lead(lead: Lead) -> DesignationError {
    DesignationError::BadNumber(lead.to_string())
}

pub(super) fn no_such(series: Series, size: Ratio) -> DesignationError {
    // The nearest size below and the nearest above.
    let (mut below, mut above): (Option<Designation>, Option<Designation>) = (None, None);
    for thread in standard().into_iter().filter(|d| d.series == series) {
        if thread.size <= size {
            if below.is_none_or(|b| b.size < thread.size) {
                below = Some(thread);
            }
        } else if above.is_none_or(|a| thread.size < a.size) {
            above = Some(thread);
        }
    }
    let mut near = String::new();
    for thread in [below, above].into_iter().flatten() {
        if !near.is_empty() {
            near.push_str(" and ");
        }
        near.push_str(&thread.to_string());
    }
    DesignationError::NoSuchSize { size: Inches(size).to_string(), series: series.name(), near }
}

/// Refuses what no lathe could cut.
pub(super) fn checked(thread: Designation) -> Result<Designation, DesignationError> {
    let pitch = thread.pitch.factor();
    if !pitch.is_positive() {
        return Err(bad_lead(thread.pitch));
    }
    if thread.lead().is_err() || pitch > Ratio::whole(1_000_000) {
        return Err(bad_lead(thread.pitch));
    }
    if let Some(diameter) = thread.diameter {
        if !diameter.is_positive() {
            return Err(bad(thread.size));
        }
        // 60° at 0.65 P to the pitch line: at two thirds of the diameter there is no core left.
        if pitch.mul(Ratio::of(3, 2)).map_or(true, |p| p >= diameter) {
            return Err(DesignationError::PitchTooLarge(thread.pitch.to_string()));
        }
    }
    if let Some(class) = thread.class {
        let (fits, would) = match thread.series {
            Series::Metric => (matches!(class, Class::Iso { .. }), "like 6g or 6H"),
            series if series.is_unified() => {
                (matches!(class, Class::Unified(..)), "1A to 3A or 1B to 3B")
            }
            Series::Bsw | Series::Bsf | Series::Whitworth => (
                matches!(class, Class::Close | Class::Medium | Class::Free | Class::Normal),
                "close, medium, free or normal",
            ),
            Series::Ba => (matches!(class, Class::Close | Class::Normal), "close or normal"),
            Series::Pipe => (matches!(class, Class::Pipe(_)), "A or B"),
            Series::Acme => (matches!(class, Class::Acme(_)), "2G"),
            Series::Trapezoidal => (matches!(class, Class::Iso { .. }), "like 7e or 7H"),
            _ => (false, "left out"),
        };
        if !fits {
            return Err(DesignationError::ClassOfAnother { class: class.to_string(), would });
        }
    }
    // It must be the same thread when its own name is read again, in a saved setup or a link.
    let said = thread.to_string();
    if read(&said)? == thread { Ok(thread) } else { Err(DesignationError::BadNumber(said)) }
}

#[cfg(test)]
mod tests {
    use crate::threads::parse;
    use alloc::format;
    use alloc::string::ToString;

    #[test]
    fn a_refusal_says_little_of_a_long_name_again() {
        for name in ["lunchtime".repeat(100), format!("M6-{}", "6h".repeat(300))] {
            let said = parse(&name).unwrap_err().to_string();
            assert!(said.contains('…') && said.chars().count() < 250, "{said}");
        }
    }

    #[test]
    fn a_number_that_could_not_be_written_down_is_refused() {
        for name in [
            "999999.9999 tpi",
            "123456789/123456788 tpi",
            "1234.567891 tpi LH",
            "5x18 1/118808888",
            "M100 1/118808888 x 1.5",
            "12 1/118808888-8 Acme",
        ] {
            let said = parse(name).unwrap_err().to_string();
            assert!(said.ends_with("can't be a size or a pitch"), "{said}");
        }
        // What can, is read from its own words as the same.
        for (name, said) in [
            ("11.5 tpi", "11.5 tpi"),
            ("11 1/2 tpi", "11.5 tpi"),
            ("2.5 tpi", "10.16 mm"),
            ("76.2 tpi", "1/3 mm"),
            ("1/3 mm", "1/3 mm"),
            ("16- RH 1/2 UNS", "16-0.5 UNS"),
            ("2-7/3 UNS", "2-7/3 UNS"),
            // A size that would be taken for a screw's number, or for a whole number before a fraction.
            ("8\"UNS-14", "8 in-14 UNS"),
            ("8-14 UNS", "#8-14 UNS"),
            ("8\"UNS-3", "8-3 UNS"),
            ("1-8 UN", "1-8 UNC"),
            ("16- RH 4/42 UNS", "16 in-2/21 UNS"),
            ("16 in-2/21 Acme", "16 in-2/21 Acme"),
            ("16 1/2-2/21 Acme", "16 1/2-2/21 Acme"),
        ] {
            let read = parse(name).unwrap();
            assert_eq!(read.to_string(), said);
            assert_eq!(parse(said), Ok(read));
        }
    }
}
