use crate::exact::Ratio;

/// Millimetres in an inch.
///
/// Exact by definition since the yard and pound agreement of 1 July 1959.
pub const MM_PER_INCH: Ratio = Ratio::of(127, 5);

/// What a blank asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// A length, held in millimetres.
    Length,
    /// Travel in a turn, held in millimetres; threads per inch and multiples of π are understood.
    Lead,
    /// An angle, held in degrees.
    Angle,
    /// A plain ratio, `40/1` or `1/2`.
    Ratio,
}

impl Measure {
    /// What it is called in a refusal, with its units.
    #[must_use]
    pub const fn wanted(self) -> &'static str {
        match self {
            Measure::Length => "a length in mm, in or thou",
            Measure::Lead => "a lead in mm, in, thou or tpi",
            Measure::Angle => "an angle in degrees, as 12.5° or 12° 30'",
            Measure::Ratio => "a ratio like 40/1 or 1/2",
        }
    }

    /// The units that its keypad offers, first one first.
    #[must_use]
    pub const fn units(self) -> &'static [Unit] {
        match self {
            Measure::Length => &[Unit::Mm, Unit::Inch, Unit::Thou],
            Measure::Lead => &[Unit::Mm, Unit::Tpi, Unit::Inch, Unit::Thou],
            Measure::Angle => &[Unit::Degree, Unit::Minute, Unit::Second],
            Measure::Ratio => &[],
        }
    }
}

/// A way in and out for a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// A plain number.
    One,
    /// Millimetres.
    Mm,
    /// Inches.
    Inch,
    /// Thousandths of an inch.
    Thou,
    /// Threads in an inch; the lead is an inch over it.
    Tpi,
    /// Degrees.
    Degree,
    /// Minutes of arc.
    Minute,
    /// Seconds of arc.
    Second,
    /// Thousandths of a millimetre.
    Micron,
    /// Centimetres.
    Cm,
    /// Metres.
    Metre,
}

impl Unit {
    /// How the file writes it.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Unit::One => "",
            Unit::Mm => "mm",
            Unit::Inch => "in",
            Unit::Thou => "thou",
            Unit::Tpi => "tpi",
            Unit::Degree => "deg",
            Unit::Minute => "min",
            Unit::Second => "sec",
            Unit::Micron => "um",
            Unit::Cm => "cm",
            Unit::Metre => "m",
        }
    }

    /// What one of it is in the base unit (mm, degree); `Tpi` is an inch, to be divided.
    #[must_use]
    pub const fn size(self) -> Ratio {
        match self {
            Unit::One | Unit::Mm | Unit::Degree => Ratio::ONE,
            Unit::Inch | Unit::Tpi => MM_PER_INCH,
            Unit::Thou => Ratio::of(127, 5000),
            Unit::Minute => Ratio::of(1, 60),
            Unit::Second => Ratio::of(1, 3600),
            Unit::Micron => Ratio::of(1, 1000),
            Unit::Cm => Ratio::of(10, 1),
            Unit::Metre => Ratio::of(1000, 1),
        }
    }

    /// Whether it belongs to the inch system.
    #[must_use]
    pub const fn is_inch(self) -> bool {
        matches!(self, Unit::Inch | Unit::Thou | Unit::Tpi)
    }

    pub(super) const fn fits(self, measure: Measure) -> bool {
        match measure {
            Measure::Length => matches!(
                self,
                Unit::Mm | Unit::Inch | Unit::Thou | Unit::Micron | Unit::Cm | Unit::Metre
            ),
            Measure::Lead => matches!(
                self,
                Unit::Mm | Unit::Inch | Unit::Thou | Unit::Micron | Unit::Cm | Unit::Tpi
            ),
            Measure::Angle => matches!(self, Unit::Degree | Unit::Minute | Unit::Second),
            Measure::Ratio => matches!(self, Unit::One),
        }
    }

    /// The unit that a word names; a tick is a minute and two are seconds only in an angle.
    pub(super) fn named(word: &str, measure: Measure) -> Option<Unit> {
        let angle = matches!(measure, Measure::Angle);
        Some(match word {
            "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => Unit::Mm,
            "in" | "inch" | "inches" | "in." => Unit::Inch,
            "\"" | "''" => {
                if angle {
                    Unit::Second
                } else {
                    Unit::Inch
                }
            }
            "thou" | "thous" | "mil" | "mils" => Unit::Thou,
            "tpi" | "t.p.i." | "threads per inch" | "per inch" | "per in" => Unit::Tpi,
            "°" | "deg" | "degs" | "degree" | "degrees" => Unit::Degree,
            "'" | "min" | "mins" | "minute" | "minutes" => Unit::Minute,
            "sec" | "secs" | "second" | "seconds" => Unit::Second,
            "um" | "µm" | "μm" | "micron" | "microns" => Unit::Micron,
            "cm" => Unit::Cm,
            "m" => Unit::Metre,
            _ => return None,
        })
    }
}
