//! A vernier: a short scale that tells the parts of a division.

use super::error::GraduationError;
use crate::exact::{Ratio, RatioError};

/// So many divisions of the vernier over so many of the main scale.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Vernier {
    divisions: u32,
    over: u32,
}

/// The vernier that tells `least`, on a main scale divided into `main`: n divisions over n − 1.
///
/// # Errors
///
/// [`GraduationError::VernierNotWhole`] where `least` doesn't go into `main` at least twice.
pub fn vernier_for(main: Ratio, least: Ratio) -> Result<Vernier, GraduationError> {
    if !main.is_positive() || !least.is_positive() {
        return Err(GraduationError::NoVernier);
    }
    let parts = main.div(least)?;
    match u32::try_from(parts.numer()) {
        Ok(divisions) if parts.is_whole() && divisions > 1 => {
            Vernier::new(divisions, divisions.saturating_sub(1))
        }
        _ => Err(GraduationError::VernierNotWhole { main, least }),
    }
}

impl Vernier {
    /// So many divisions over so many of the main scale.
    ///
    /// # Errors
    ///
    /// [`GraduationError::NoVernier`] for none of either.
    pub fn new(divisions: u32, over: u32) -> Result<Vernier, GraduationError> {
        if divisions == 0 || over == 0 {
            return Err(GraduationError::NoVernier);
        }
        Ok(Vernier { divisions, over })
    }

    /// Divisions of the vernier.
    #[must_use]
    pub const fn divisions(self) -> u32 {
        self.divisions
    }

    /// Divisions of the main scale that they stand over.
    #[must_use]
    pub const fn over(self) -> u32 {
        self.over
    }

    /// One division of the vernier, in the main scale's unit.
    ///
    /// # Errors
    ///
    /// [`RatioError::Overflow`].
    pub fn division(self, main: Ratio) -> Result<Ratio, RatioError> {
        self.span(main)?.div(self.divisions.into())
    }

    /// The whole vernier, in the main scale's unit.
    ///
    /// # Errors
    ///
    /// [`RatioError::Overflow`].
    pub fn span(self, main: Ratio) -> Result<Ratio, RatioError> {
        main.mul(self.over.into())
    }

    /// What it tells: by how much its division falls short of the next whole number of the main
    /// scale's; nothing where it doesn't.
    ///
    /// # Errors
    ///
    /// [`RatioError::Overflow`].
    pub fn least_count(self, main: Ratio) -> Result<Ratio, RatioError> {
        let whole = main.mul(self.over.div_ceil(self.divisions).into())?;
        whole.sub(self.division(main)?)
    }
}
