//! How closely a thread is to be made: 6g, 2A, medium.

use core::fmt;

use super::designation::Side;

/// A class of fit, by the name that its standard gives it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Class {
    /// ISO 965: grade and position for the pitch diameter, then for the crest; `"4h6h"`, `"6g"`.
    Iso {
        /// Grade of the pitch diameter, 3 to 9.
        pitch_grade: u8,
        /// Position of the pitch diameter: e, f, g, h for a screw; G, H for a nut.
        pitch_position: char,
        /// Grade of the crest diameter.
        crest_grade: u8,
        /// Position of the crest diameter.
        crest_position: char,
    },
    /// ASME B1.1: 1, 2 or 3, with A for a screw and B for a nut.
    Unified(u8, Side),
    /// BS 84 and BS 93: close.
    Close,
    /// BS 84: medium.
    Medium,
    /// BS 84 bolts: free.
    Free,
    /// BS 84 nuts and BS 93: normal.
    Normal,
    /// ASME B1.5 general purpose: 2, 3 or 4 (G).
    Acme(u8),
    /// ISO 228: A or B on the pipe, the one class in the socket has no letter.
    Pipe(char),
}

impl Class {
    /// An ISO class that has one grade and position for both diameters.
    #[must_use]
    pub const fn iso(grade: u8, position: char) -> Class {
        Class::Iso {
            pitch_grade: grade,
            pitch_position: position,
            crest_grade: grade,
            crest_position: position,
        }
    }

    /// Reads a class by itself: `"6g"`, `"4g6g"`, `"2A"`, `"medium"`, `"2G"`.
    ///
    /// `None` when it is no class that is known here. `fine` and `coarse` are not read, for what
    /// they mean depends on the series.
    #[must_use]
    pub fn parse(text: &str) -> Option<Class> {
        let text = text.trim();
        for (name, class) in [
            ("close", Class::Close),
            ("medium", Class::Medium),
            ("free", Class::Free),
            ("normal", Class::Normal),
            ("A", Class::Pipe('A')),
            ("B", Class::Pipe('B')),
        ] {
            if text.eq_ignore_ascii_case(name) {
                return Some(class);
            }
        }
        let mut chars = text.chars();
        let mut pair = || {
            let grade = u8::try_from(chars.next()?.to_digit(10)?).ok()?;
            Some((grade, chars.next()?))
        };
        let (grade, letter) = pair()?;
        let second = pair();
        if chars.next().is_some() {
            return None;
        }
        match (grade, letter, second) {
            (1..=3, 'A' | 'a', None) => Some(Class::Unified(grade, Side::Outside)),
            (1..=3, 'B' | 'b', None) => Some(Class::Unified(grade, Side::Inside)),
            (2, 'G', None) => Some(Class::Acme(2)),
            (3..=9, 'e'..='h', None) | (4..=8, 'G' | 'H', None) => Some(Class::iso(grade, letter)),
            (3..=9, 'e'..='h', Some((crest, position @ 'e'..='h')))
                if matches!(crest, 4 | 6 | 8) =>
            {
                Some(Class::Iso {
                    pitch_grade: grade,
                    pitch_position: letter,
                    crest_grade: crest,
                    crest_position: position,
                })
            }
            (4..=8, 'G' | 'H', Some((4..=8, 'G' | 'H'))) => Some(Class::Iso {
                pitch_grade: grade,
                pitch_position: letter,
                crest_grade: second?.0,
                crest_position: second?.1,
            }),
            _ => None,
        }
    }

    /// The side that the class is for, where its name says so.
    #[must_use]
    pub const fn side(self) -> Option<Side> {
        match self {
            Class::Iso { pitch_position, .. } => {
                Some(if pitch_position.is_ascii_uppercase() { Side::Inside } else { Side::Outside })
            }
            Class::Unified(_, side) => Some(side),
            Class::Free | Class::Pipe(_) => Some(Side::Outside),
            Class::Close | Class::Medium | Class::Normal | Class::Acme(_) => None,
        }
    }
}

impl fmt::Display for Class {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Class::Iso { pitch_grade, pitch_position, crest_grade, crest_position } => {
                write!(f, "{pitch_grade}{pitch_position}")?;
                if (pitch_grade, pitch_position) == (crest_grade, crest_position) {
                    return Ok(());
                }
                write!(f, "{crest_grade}{crest_position}")
            }
            Class::Unified(class, Side::Outside) => write!(f, "{class}A"),
            Class::Unified(class, Side::Inside) => write!(f, "{class}B"),
            Class::Close => f.write_str("close"),
            Class::Medium => f.write_str("medium"),
            Class::Free => f.write_str("free"),
            Class::Normal => f.write_str("normal"),
            Class::Acme(class) => write!(f, "{class}G"),
            Class::Pipe(class) => write!(f, "{class}"),
        }
    }
}
