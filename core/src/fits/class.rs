//! A tolerance class as it is written: a letter and a grade.

use core::fmt;

/// Which of the two parts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// A capital letter.
    Hole,
    /// A small letter.
    Shaft,
}

/// A letter (or two) and a grade: `H7`, `g6`, `js5`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Class {
    /// Hole or shaft.
    pub side: Side,
    letters: [u8; 2],
    /// 1 to 18.
    pub grade: u8,
}

/// Why there are no limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum FitError {
    /// The size is nothing or less.
    NoSize,
    /// Over 500 mm.
    TooLarge,
    /// Not a grade from 1 to 18.
    NoGrade {
        /// The grade asked for.
        grade: u8,
    },
    /// Not a class as they are written.
    NotAClass,
    /// Not a hole and a shaft.
    NotAPair,
    /// The tables have no such letter at this size and grade.
    NoSuchClass {
        /// The class asked for.
        class: Class,
    },
}

impl fmt::Display for FitError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            FitError::NoSize => f.write_str("the size must be more than nothing"),
            FitError::TooLarge => f.write_str("the tables of fits end at 500 mm"),
            FitError::NoGrade { grade } => {
                write!(f, "grades run from 1 to 18, there is no {grade}")
            }
            FitError::NotAClass => f.write_str("expected a letter and a grade, like H7 or g6"),
            FitError::NotAPair => f.write_str("expected a hole and a shaft, like H7/g6"),
            FitError::NoSuchClass { class } => {
                write!(f, "the tables have no {class} at this size")
            }
        }
    }
}

impl core::error::Error for FitError {}

impl Class {
    /// Reads `H7`, `g6`, `JS5`.
    ///
    /// # Errors
    ///
    /// [`FitError::NotAClass`], [`FitError::NoGrade`].
    pub fn parse(text: &str) -> Result<Class, FitError> {
        let text = text.trim();
        let digits = text.find(|c: char| c.is_ascii_digit()).ok_or(FitError::NotAClass)?;
        let (letters, grade) = text.split_at_checked(digits).ok_or(FitError::NotAClass)?;
        let side = if letters.bytes().all(|b| b.is_ascii_uppercase()) {
            Side::Hole
        } else if letters.bytes().all(|b| b.is_ascii_lowercase()) {
            Side::Shaft
        } else {
            return Err(FitError::NotAClass);
        };
        let letters = match letters.as_bytes() {
            [one] => [one.to_ascii_lowercase(), b' '],
            [one, two] => [one.to_ascii_lowercase(), two.to_ascii_lowercase()],
            _ => return Err(FitError::NotAClass),
        };
        if !grade.bytes().all(|b| b.is_ascii_digit()) {
            return Err(FitError::NotAClass);
        }
        let grade = grade.parse().map_err(|_| FitError::NotAClass)?;
        if !(1..=18).contains(&grade) {
            return Err(FitError::NoGrade { grade });
        }
        Ok(Class { side, letters, grade })
    }

    /// The letters in lower case, the second a space where there is one.
    pub(super) const fn letters(&self) -> &[u8; 2] {
        &self.letters
    }
}

impl fmt::Display for Class {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for letter in self.letters.iter().filter(|letter| **letter != b' ') {
            let letter = match self.side {
                Side::Hole => letter.to_ascii_uppercase(),
                Side::Shaft => *letter,
            };
            write!(f, "{}", char::from(letter))?;
        }
        write!(f, "{}", self.grade)
    }
}

/// Reads `H7/g6` (also `H7-g6` and `H7 g6`), the hole first or second: hole, then shaft.
///
/// # Errors
///
/// [`FitError::NotAPair`], [`FitError::NotAClass`], [`FitError::NoGrade`].
pub fn parse_fit(code: &str) -> Result<(Class, Class), FitError> {
    let mut parts = code
        .split(|c: char| c == '/' || c == '-' || c.is_whitespace())
        .filter(|part| !part.is_empty());
    let (Some(first), Some(second), None) = (parts.next(), parts.next(), parts.next()) else {
        return Err(FitError::NotAPair);
    };
    let (first, second) = (Class::parse(first)?, Class::parse(second)?);
    match (first.side, second.side) {
        (Side::Hole, Side::Shaft) => Ok((first, second)),
        (Side::Shaft, Side::Hole) => Ok((second, first)),
        _ => Err(FitError::NotAPair),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;
    use proptest::prelude::*;

    #[test]
    fn written_and_read_again() {
        for code in ["H7", "g6", "js5", "JS13", "zc11", "cd8"] {
            assert_eq!(Class::parse(code).unwrap().to_string(), code);
        }
        for (code, why) in [
            ("", FitError::NotAClass),
            ("7", FitError::NotAClass),
            ("Hh7", FitError::NotAClass),
            ("H", FitError::NotAClass),
            ("H0", FitError::NoGrade { grade: 0 }),
            ("H19", FitError::NoGrade { grade: 19 }),
            ("H7a", FitError::NotAClass),
            ("Ø7", FitError::NotAClass),
            ("H999", FitError::NotAClass),
        ] {
            assert_eq!(Class::parse(code), Err(why), "{code}");
        }
    }

    #[test]
    fn a_hole_and_a_shaft_in_either_order() {
        let pair = parse_fit("H7/g6").unwrap();
        for code in ["H7 g6", " H7 / g6 ", "g6/H7", "H7-g6"] {
            assert_eq!(parse_fit(code), Ok(pair), "{code}");
        }
        for code in ["H7", "H7/H7", "g6/g6", "H7/g6/h6", ""] {
            assert_eq!(parse_fit(code), Err(FitError::NotAPair), "{code}");
        }
    }

    proptest! {
        #[test]
        fn nothing_panics(text in ".{0,12}") {
            let _ = parse_fit(&text);
        }
    }
}
