//! A thread's name and what it says: series, size, pitch, starts, hand and class.

use core::fmt;

use super::class::Class;
use super::lead::{Inches, Lead, Plain};
use super::series::{Series, of_size};
use crate::exact::{Ratio, RatioError};
use crate::quantity::show;

/// Which way a thread winds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Hand {
    /// Right.
    #[default]
    Right,
    /// Left.
    Left,
}

/// A thread on the outside of the work, or in a hole.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Side {
    /// On a screw.
    #[default]
    Outside,
    /// In a nut.
    Inside,
}

/// What a thread's name says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Designation {
    /// Whose thread it is, and so its form.
    pub series: Series,
    /// The size as the name has it: mm for M and Tr, inches for Unified, Whitworth, Acme and pipe,
    /// the BA number, the module in mm, the diametral pitch. Nothing for a bare lead.
    pub size: Ratio,
    /// Nominal outside diameter, mm. Worms and bare leads have none until one is given.
    pub diameter: Option<Ratio>,
    /// From crest to crest.
    pub pitch: Lead,
    /// How many threads wind side by side.
    pub starts: u16,
    /// Which way they wind.
    pub hand: Hand,
    /// The class asked for, where one was.
    pub class: Option<Class>,
    /// Included angle in degrees, where it isn't the form's own: worms by pressure angle, and a
    /// bare lead's chosen one.
    pub angle: Option<Ratio>,
}

impl Designation {
    /// A right-hand, single-start thread with no class asked for.
    #[must_use]
    pub const fn new(
        series: Series,
        size: Ratio,
        diameter: Option<Ratio>,
        pitch: Lead,
    ) -> Designation {
        Designation {
            series,
            size,
            diameter,
            pitch,
            starts: 1,
            hand: Hand::Right,
            class: None,
            angle: None,
        }
    }

    /// A bare lead, single-start.
    #[must_use]
    pub const fn of_lead(lead: Lead) -> Designation {
        Designation::new(Series::Plain, Ratio::ZERO, None, lead)
    }

    /// The same thread with so many starts. A bare lead stays the lead and its pitch becomes a share
    /// of it; a named thread keeps its pitch and its lead grows.
    ///
    /// # Errors
    ///
    /// [`RatioError`] when there are no starts or the sizes are too large.
    pub fn with_starts(self, starts: u16) -> Result<Designation, RatioError> {
        let mut pitch = self.pitch;
        if matches!(self.series, Series::Plain) {
            let lead = self.lead()?;
            let share = lead.factor().div(Ratio::whole(i64::from(starts)))?;
            pitch = if lead.is_exact() { Lead::of_mm(share) } else { Lead::of_pi_mm(share) };
        } else if starts == 0 {
            return Err(RatioError::ZeroDenominator);
        }
        Ok(Designation { pitch, starts, ..self })
    }

    /// How far the nut goes in one turn: pitch × starts.
    ///
    /// # Errors
    ///
    /// [`RatioError::Overflow`].
    pub const fn lead(&self) -> Result<Lead, RatioError> {
        self.pitch.starts(self.starts)
    }

    /// Threads per inch as the name has it, where the pitch is one inch over some number.
    #[must_use]
    pub fn tpi(&self) -> Option<Ratio> {
        if !self.pitch.is_exact() {
            return None;
        }
        super::lead::INCH.div(self.pitch.factor()).ok()
    }

    /// The BA, number-size or fraction name of the size alone: `"#10"`, `"1 1/4"`, `"12"`.
    fn write_size(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.series {
            Series::Unc | Series::Unf | Series::Unef | Series::Uns => {
                match number_size(self.size) {
                    Some(number) => write!(f, "#{number}"),
                    None => self.write_inches(f),
                }
            }
            Series::Metric | Series::Trapezoidal | Series::Ba => {
                fmt::Display::fmt(&Plain(self.size), f)
            }
            Series::Module | Series::DiametralPitch => fmt::Display::fmt(&Plain(self.size), f),
            _ => self.write_inches(f),
        }
    }

    /// A size in inches, with its unit where it would be taken for a screw's number, or for a whole
    /// number with the fraction after it.
    fn write_inches(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(&Inches(self.size), f)?;
        if !self.size.is_whole() {
            return Ok(());
        }
        let tpi = self.tpi();
        let number = u8::try_from(self.size.numer()).ok().filter(|n| is_number(*n));
        let as_number = self.series.is_unified()
            && number.is_some_and(|n| number_or_inches(n, tpi, self.series) != self.size);
        let as_part = tpi.is_some_and(|tpi| tpi < Ratio::ONE && !show::terminates(tpi, 6));
        if as_number || as_part { f.write_str(" in") } else { Ok(()) }
    }
}

/// The Unified number of a diameter in inches: #n is 0.060 + 0.013 n (ASME B1.1).
pub(super) fn number_size(inches: Ratio) -> Option<u8> {
    (0..=12u8).find(|n| is_number(*n) && numbered(*n) == inches)
}

/// Whether there is a Unified screw of this number.
pub(super) const fn is_number(n: u8) -> bool {
    matches!(n, 0..=6 | 8 | 10 | 12)
}

/// Diameter in inches of the Unified number `n`.
pub(super) fn numbered(n: u8) -> Ratio {
    Ratio::of(i64::from(n).saturating_mul(13).saturating_add(60), 1000)
}

/// Whether "10" before a dash is the screw number ten or ten inches: the tables decide.
pub(super) fn number_or_inches(n: u8, tpi: Option<Ratio>, series: Series) -> Ratio {
    let inches = Ratio::whole(i64::from(n));
    let all = [Series::Unc, Series::Unf, Series::Unef, Series::Un8, Series::Un12, Series::Un16];
    let has = |size: Ratio| {
        all.into_iter()
            .filter(|s| tpi.is_some() || *s == series)
            .flat_map(|s| of_size(s, size))
            .any(|d| tpi.is_none_or(|tpi| d.tpi() == Some(tpi)))
    };
    if has(numbered(n)) && !has(inches) {
        return numbered(n);
    }
    if has(inches) {
        return inches;
    }
    // In no table: a fine pitch goes with a small screw, if it leaves any core in it.
    let fine = n > 4 || tpi.is_some_and(|tpi| tpi >= Ratio::whole(24));
    let core = |tpi| numbered(n).mul(tpi).is_ok_and(|pitches| pitches > Ratio::of(3, 2));
    if fine && tpi.is_none_or(core) { numbered(n) } else { inches }
}

/// As the trade writes it, so that it can be read again: `"M10 × 1.25-6g"`, `"1/4-20 UNC"`,
/// `"Tr 16 × 8 (P4) LH"`, `"module 1, 2 starts"`.
impl fmt::Display for Designation {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let name = self.series.name();
        match self.series {
            Series::Metric | Series::Trapezoidal => {
                let metric = self.series == Series::Metric;
                write!(f, "{name}{}", if metric { "" } else { " " })?;
                self.write_size(f)?;
                let coarse =
                    metric && super::series::coarse(self.size) == Some(self.pitch.factor());
                if self.starts > 1 {
                    let lead = self.lead().map_err(|_| fmt::Error)?;
                    let p = if metric { "Ph" } else { "" };
                    let pitch = Plain(self.pitch.factor());
                    write!(f, " × {p}{}", Plain(lead.factor()))?;
                    if metric { write!(f, " P{pitch}")? } else { write!(f, " (P{pitch})")? }
                } else if !coarse {
                    write!(f, " × {}", Plain(self.pitch.factor()))?;
                }
            }
            Series::Bsw | Series::Bsf | Series::Ba => {
                self.write_size(f)?;
                write!(f, " {name}")?;
            }
            Series::Pipe => {
                write!(f, "{name} ")?;
                self.write_size(f)?;
            }
            Series::Module | Series::DiametralPitch => {
                write!(f, "{name} ")?;
                self.write_size(f)?;
            }
            Series::Plain => {
                // A bare lead is named by its lead, whatever its starts.
                let lead = self.lead().map_err(|_| fmt::Error)?;
                match super::lead::INCH.div(lead.factor()) {
                    Ok(tpi) if lead.is_exact() && tpi > Ratio::ONE && by_the_inch(tpi, lead) => {
                        write!(f, "{} tpi", Plain(tpi))?;
                    }
                    _ => write!(f, "{lead}")?,
                }
            }
            _ => {
                self.write_size(f)?;
                write!(f, "-{} {name}", Plain(self.tpi().unwrap_or(Ratio::ZERO)))?;
            }
        }
        if self.starts > 1 && !matches!(self.series, Series::Metric | Series::Trapezoidal) {
            write!(f, ", {} starts", self.starts)?;
        }
        if let Some(class) = self.class {
            match class {
                Class::Pipe(_) => write!(f, "{class}")?,
                Class::Close | Class::Medium | Class::Free | Class::Normal => {
                    write!(f, " {class}")?
                }
                _ => write!(f, "-{class}")?,
            }
        }
        if self.hand == Hand::Left {
            f.write_str(" LH")?;
        }
        Ok(())
    }
}

/// Whether a bare lead is better said by the inch: so many threads, or 11 1/2 where the lead is no decimal
/// of a millimetre.
fn by_the_inch(tpi: Ratio, lead: Lead) -> bool {
    tpi.is_whole() || (matches!(tpi.denom(), 2 | 4 | 8) && !show::terminates(lead.factor(), 6))
}
