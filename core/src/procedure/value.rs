//! Figures as an action carries them: exact, and written in a file as a person would write them.

use crate::exact::Ratio;
use crate::quantity::{MM_PER_INCH, Quantity, Unit, show};
use crate::shop;
use alloc::format;
use alloc::string::String;
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// A length in the system in which it is said: `"22 mm"`, `"0.012 in"`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Length {
    /// Millimetres.
    pub mm: Ratio,
    /// Whether it is said in inches.
    pub inch: bool,
}

impl Length {
    /// Millimetres, said in the system of `like`.
    #[must_use]
    pub const fn like(mm: Ratio, like: Unit) -> Length {
        Length { mm, inch: like.is_inch() }
    }

    /// Millimetres.
    #[must_use]
    pub const fn mm(mm: Ratio) -> Length {
        Length { mm, inch: false }
    }

    /// A length that is only nearly known, to the nearest tenth of a micrometre; none where it is no
    /// number, or too large.
    #[must_use]
    pub fn near(mm: f64, like: Unit) -> Option<Length> {
        Some(Length::like(show::near(mm, 4)?, like))
    }

    /// The unit in which it is said.
    #[must_use]
    pub const fn unit(self) -> Unit {
        if self.inch { Unit::Inch } else { Unit::Mm }
    }

    /// As a screen says it.
    #[must_use]
    pub fn words(self) -> String {
        show::length_like(self.mm, self.unit())
    }
}

impl From<&Quantity> for Length {
    fn from(quantity: &Quantity) -> Length {
        Length::like(quantity.value(), quantity.unit())
    }
}

impl Serialize for Length {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let inches = self.inch.then(|| self.mm.div(MM_PER_INCH).ok()).flatten();
        serializer.serialize_str(&match inches {
            Some(inches) => format!("{} in", show::exact(inches)),
            None => format!("{} mm", show::exact(self.mm)),
        })
    }
}

impl<'de> Deserialize<'de> for Length {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Length, D::Error> {
        let text = String::deserialize(deserializer)?;
        let (number, unit) = text.rsplit_once(' ').unwrap_or((&text, ""));
        let (size, inch) = match unit {
            "mm" => (Ratio::ONE, false),
            "in" => (MM_PER_INCH, true),
            _ => return Err(D::Error::custom(format!("“{text}” is no length in mm or in"))),
        };
        let mm = exact(number).and_then(|number| number.mul(size).ok());
        let mm = mm.ok_or_else(|| D::Error::custom(format!("“{text}” is no length")))?;
        Ok(Length { mm, inch })
    }
}

/// An angle in degrees: `"29.5 deg"`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Degrees(pub Ratio);

impl Serialize for Degrees {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&format!("{} deg", show::exact(self.0)))
    }
}

impl<'de> Deserialize<'de> for Degrees {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Degrees, D::Error> {
        let text = String::deserialize(deserializer)?;
        let degrees = text.strip_suffix(" deg").and_then(exact);
        degrees.map(Degrees).ok_or_else(|| D::Error::custom(format!("“{text}” is no angle")))
    }
}

/// A plain number that may have a part: turns, teeth, parts of a line: `"7.5"`, `"1/3"`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Number(pub Ratio);

impl From<u32> for Number {
    fn from(n: u32) -> Number {
        Number(Ratio::from(n))
    }
}

impl Serialize for Number {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&show::exact(self.0))
    }
}

impl<'de> Deserialize<'de> for Number {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Number, D::Error> {
        let text = String::deserialize(deserializer)?;
        exact(&text).map(Number).ok_or_else(|| D::Error::custom(format!("“{text}” is no number")))
    }
}

/// A decimal or a fraction, with its sign.
fn exact(text: &str) -> Option<Ratio> {
    let (sign, size) = match text.strip_prefix('-') {
        Some(size) => (-1, size),
        None => (1, text),
    };
    let value = match size.split_once('/') {
        Some((above, below)) => Ratio::new(above.parse().ok()?, below.parse().ok()?).ok()?,
        None => match size.split_once('.') {
            Some((whole, part)) => {
                let scale = 10_i128.checked_pow(u32::try_from(part.len()).ok()?)?;
                let part = Ratio::new(part.parse().ok()?, scale).ok()?;
                Ratio::new(whole.parse().ok()?, 1).ok()?.add(part).ok()?
            }
            None => Ratio::new(size.parse().ok()?, 1).ok()?,
        },
    };
    Some(if sign < 0 { value.neg() } else { value })
}

/// How a slide's dial stands, counted from the nought that was set at the touch: whole turns and lines,
/// on the side of nought that the action's `toward` names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reading {
    /// Whole turns of the handwheel from nought.
    pub turns: u64,
    /// Lines past them.
    pub lines: u64,
    /// The line that stands at the mark; none where the lines in a turn aren't known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mark: Option<u64>,
    /// To go beyond that line, as a part of a line; less than nothing stops short of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub beyond: Option<Number>,
}

impl From<shop::Reading> for Reading {
    fn from(reading: shop::Reading) -> Reading {
        let beyond = reading.left().map(|_| Number(reading.left_over));
        Reading { turns: reading.turns, lines: reading.lines, mark: reading.mark, beyond }
    }
}

/// A feed by hand as a beat: that part of a turn of the handwheel in so many seconds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Beat {
    /// A part of a turn of the handwheel.
    pub turn: Number,
    /// In so many seconds.
    pub seconds: Number,
}
