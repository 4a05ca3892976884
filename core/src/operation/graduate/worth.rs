//! What one line is really worth: everything that a reading can be out by, added up.

use super::Graduate;
use super::dial::BY_EYE_MM;
use crate::exact::Ratio;
use crate::graduation::Reads;
use crate::operation::circle::Circle;

/// What a reading can be out by, each in mm as read.
#[derive(Clone, Copy, Debug)]
pub(super) struct Worth {
    /// Lining up by eye.
    pub(super) by_eye: f64,
    /// The division's worst error at the rim.
    pub(super) division: f64,
    /// The screw's own error in a turn, where it is known.
    pub(super) lead: Option<f64>,
    /// The nut's shake, which counts only where a reading is come up to from the other side.
    pub(super) shake: Option<f64>,
    line: f64,
}

/// What a line can be trusted for: common practice, no source.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Trust {
    Half,
    Line,
    Indicator,
}

impl Trust {
    pub(super) const fn name(self) -> &'static str {
        match self {
            Trust::Half => "half-line",
            Trust::Line => "line",
            Trust::Indicator => "indicator",
        }
    }

    pub(super) const fn words(self) -> &'static str {
        match self {
            Trust::Half => "half a line",
            Trust::Line => "the line, not half of it",
            Trust::Indicator => "no single line: use an indicator",
        }
    }
}

impl Worth {
    pub(super) fn of(dial: &Graduate) -> Option<Worth> {
        let scale = dial.scale.as_ref()?;
        let line = scale.value.to_f64();
        let pitch = dial.pitch().filter(|pitch| *pitch > 0.0)?;
        let as_read =
            |mm: Ratio| mm.to_f64() * if dial.reads == Reads::Diameter { 2.0 } else { 1.0 };
        let best = dial.circle.as_ref().and_then(Circle::best);
        Some(Worth {
            by_eye: line * BY_EYE_MM / pitch,
            division: line * best.map_or(0.0, |way| way.worst_share()),
            lead: dial.lead_error.as_ref().map(|error| as_read(error.value())),
            shake: dial.shake.as_ref().map(|shake| as_read(shake.value())),
            line,
        })
    }

    /// All of it, never reversed, mm as read.
    pub(super) fn either_way(&self) -> f64 {
        self.by_eye + self.division + self.lead.unwrap_or(0.0)
    }

    /// The same in lines.
    pub(super) fn lines(&self) -> f64 {
        self.either_way() / self.line
    }

    pub(super) fn trust(&self) -> Trust {
        match self.lines() {
            told if told <= 0.25 => Trust::Half,
            told if told <= 0.5 => Trust::Line,
            _ => Trust::Indicator,
        }
    }
}
