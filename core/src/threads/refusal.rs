//! Why a thread's name can't be taken, and what could be.

use crate::quantity::show;
use alloc::string::String;
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
