use crate::exact::Ratio;
use crate::quantity::Unit;
use crate::record::Record;

/// A slide's dial.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Dial {
    /// What one line says, in millimetres.
    pub division: Ratio,
    /// The unit that one line is written in.
    pub unit: Unit,
    /// Lines in a turn, where known.
    pub divisions: Option<u32>,
    /// Whether a line is that much of the diameter; else of the slide's own travel.
    pub reads_diameter: bool,
    /// Lost motion of the screw, in millimetres of the slide.
    pub backlash: Option<Ratio>,
    /// Which way the reading grows, as in the file.
    pub grows: Option<&'static str>,
    /// How far the slide goes from one stop to the other, in millimetres.
    pub travel: Option<Ratio>,
}

impl Dial {
    /// The dial of a filled-in form; none without the worth of a line.
    #[must_use]
    pub fn read(record: &Record) -> Option<Dial> {
        let division = record.quantity("division")?;
        Some(Dial {
            division: division.value(),
            unit: division.unit(),
            divisions: record.count("divisions"),
            reads_diameter: record.choice("reads") == Some("diameter"),
            backlash: record.ratio("backlash"),
            grows: record.choice("grows"),
            travel: record.ratio("travel"),
        })
    }

    /// The slide's own travel for one line, in millimetres.
    #[must_use]
    pub fn travel_per_line(&self) -> Ratio {
        if self.reads_diameter {
            self.division.div(Ratio::whole(2)).unwrap_or(self.division)
        } else {
            self.division
        }
    }

    /// The slide's travel for one turn of its handwheel, in millimetres, where the lines are known.
    #[must_use]
    pub fn travel_per_turn(&self) -> Option<Ratio> {
        self.travel_per_line().mul(Ratio::from(self.divisions?)).ok()
    }
}
