//! How far a thread goes on in one turn.

use core::fmt;

use crate::exact::{Ratio, RatioError};
use crate::quantity::show;

/// Millimetres in an inch, exactly.
pub const INCH: Ratio = crate::quantity::MM_PER_INCH;

pub use crate::exact::PI;

/// A pitch or a lead: an exact number of millimetres, or an exact number times π.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Lead {
    mm: Ratio,
    pi: bool,
}

impl Lead {
    /// So many millimetres.
    #[must_use]
    pub const fn of_mm(mm: Ratio) -> Lead {
        Lead { mm, pi: false }
    }

    /// So many millimetres times π, as worms have it.
    #[must_use]
    pub const fn of_pi_mm(mm: Ratio) -> Lead {
        Lead { mm, pi: true }
    }

    /// One inch over `tpi` threads.
    ///
    /// # Errors
    ///
    /// [`RatioError`] when `tpi` is zero or too large.
    pub const fn of_tpi(tpi: Ratio) -> Result<Lead, RatioError> {
        match INCH.div(tpi) {
            Ok(mm) => Ok(Lead::of_mm(mm)),
            Err(why) => Err(why),
        }
    }

    /// The exact part: millimetres, or what π is to be multiplied by.
    #[must_use]
    pub const fn factor(self) -> Ratio {
        self.mm
    }

    /// Whether the lead is the factor itself, with no π in it.
    #[must_use]
    pub const fn is_exact(self) -> bool {
        !self.pi
    }

    /// Millimetres: exact, or with [`PI`] for π.
    ///
    /// # Errors
    ///
    /// [`RatioError::Overflow`].
    pub const fn mm(self) -> Result<Ratio, RatioError> {
        if self.pi { self.mm.mul(PI) } else { Ok(self.mm) }
    }

    /// The nearest float, in millimetres.
    #[must_use]
    pub fn to_f64(self) -> f64 {
        self.mm.to_f64() * if self.pi { core::f64::consts::PI } else { 1.0 }
    }

    /// The lead of a thread of this pitch with so many starts.
    ///
    /// # Errors
    ///
    /// [`RatioError::Overflow`].
    pub const fn starts(self, starts: u16) -> Result<Lead, RatioError> {
        match self.mm.mul(Ratio::whole(starts as i64)) {
            Ok(mm) => Ok(Lead { mm, pi: self.pi }),
            Err(why) => Err(why),
        }
    }
}

/// `"3 mm"`, `"2.5 pi mm"`.
impl fmt::Display for Lead {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&show::exact_mm(self.mm, self.pi))
    }
}

/// An exact number as a decimal where it ends within six places, else as a fraction.
#[derive(Clone, Copy)]
pub(super) struct Plain(pub(super) Ratio);

impl fmt::Display for Plain {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&show::exact(self.0))
    }
}

/// Inches as the trade writes them: `"1/4"`, `"1 1/4"`, else a decimal.
#[derive(Clone, Copy)]
pub(super) struct Inches(pub(super) Ratio);

impl fmt::Display for Inches {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0.mul(INCH).ok().and_then(show::inch_fraction) {
            Some(fraction) => f.write_str(&fraction),
            None => Plain(self.0).fmt(f),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    #[test]
    fn numbers_as_the_trade_writes_them() {
        for (num, den, plain, inches) in [
            (5, 4, "1.25", "1 1/4"),
            (1, 4, "0.25", "1/4"),
            (3, 1, "3", "3"),
            (19, 100, "0.19", "0.19"),
            (1, 3, "1/3", "1/3"),
            (-7, 2, "-3.5", "-3.5"),
        ] {
            assert_eq!(Plain(Ratio::of(num, den)).to_string(), plain);
            if num > 0 && den != 3 {
                assert_eq!(Inches(Ratio::of(num, den)).to_string(), inches);
            }
        }
    }

    #[test]
    fn a_module_worm_keeps_its_pi() {
        let lead = Lead::of_pi_mm(Ratio::of(5, 4)).starts(2).unwrap();
        assert_eq!(lead.to_string(), "2.5 pi mm");
        let near = lead.mm().unwrap().to_f64();
        assert!((near / lead.to_f64() - 1.0).abs() < 1e-15, "{near}");
    }
}
