use super::Dial;
use crate::exact::Ratio;
use crate::quantity::{Measure, Quantity, Unit, show};
use crate::record::{Record, Value};
use alloc::string::String;
use alloc::vec::Vec;

/// The machine's own words for a value, where there are any.
fn words(value: &Value) -> Option<String> {
    value.how().filter(|how| !how.trim().is_empty()).map(show::unmarked)
}

/// A spindle speed with the machine's own word for it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Speed {
    /// Turns a minute.
    pub rpm: u32,
    /// "back gear, belt 1".
    pub how: Option<String>,
}

/// A chasing dial's wheel and marks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ChasingDial {
    /// Teeth of the wheel that runs on the leadscrew.
    pub wheel_teeth: u32,
    /// Marks round its face.
    pub marks: u32,
}

/// The shop as the calculations take it; the forms it was read from stay at hand.
#[derive(Clone, Debug, PartialEq)]
pub struct Shop {
    record: Record,
    empty: Record,
}

impl Shop {
    /// The shop of a filled-in form.
    #[must_use]
    pub fn new(record: Record) -> Shop {
        Shop { record, empty: Record::empty(&super::LATHE) }
    }

    /// The form itself.
    #[must_use]
    pub fn record(&self) -> &Record {
        &self.record
    }

    /// Its name, or a plain word for it.
    #[must_use]
    pub fn name(&self) -> &str {
        self.record.text("name").filter(|name| !name.is_empty()).unwrap_or("this shop")
    }

    /// The lathe's form, empty where there is none.
    #[must_use]
    pub fn lathe(&self) -> &Record {
        self.record.record("lathe").unwrap_or(&self.empty)
    }

    /// The leadscrew's lead.
    #[must_use]
    pub fn leadscrew(&self) -> Option<&Quantity> {
        self.lathe().quantity("leadscrew")
    }

    /// The unit of a bare number: that of the leadscrew for a lead, that of the cross slide's dial
    /// (or else the leadscrew) for a length.
    #[must_use]
    pub fn bare_unit(&self, measure: Measure) -> Unit {
        let screw_is_inch = self.leadscrew().is_some_and(|lead| lead.unit().is_inch());
        match measure {
            Measure::Angle => Unit::Degree,
            Measure::Ratio => Unit::One,
            Measure::Lead if screw_is_inch => Unit::Tpi,
            Measure::Lead => Unit::Mm,
            Measure::Length => {
                let cross = self.dial_form("cross").and_then(Dial::read);
                let inch = cross.map_or(screw_is_inch, |dial| dial.unit.is_inch());
                if inch { Unit::Inch } else { Unit::Mm }
            }
        }
    }

    /// The change gears, as often as owned.
    #[must_use]
    pub fn change_gears(&self) -> Vec<u16> {
        teeth(&self.lathe().counts("change_gears"))
    }

    /// The fixed ratio from the spindle to the first driver.
    #[must_use]
    pub fn before_train(&self) -> Ratio {
        self.lathe().ratio("before_train").unwrap_or(Ratio::ONE)
    }

    /// The gearbox's ratios with its levers' own words; one of 1/1 where there is no gearbox.
    #[must_use]
    pub fn gearbox(&self) -> Vec<(Ratio, Option<String>)> {
        let mut ratios: Vec<_> = self
            .lathe()
            .list("gearbox")
            .iter()
            .filter_map(|value| match value.bare() {
                Value::Quantity(q) => Some((q.value(), words(value))),
                _ => None,
            })
            .collect();
        if ratios.is_empty() {
            ratios.push((Ratio::ONE, None));
        }
        ratios
    }

    /// The most pairs that a train may have.
    #[must_use]
    pub fn pairs_max(&self) -> u8 {
        self.lathe().count("pairs_max").and_then(|n| u8::try_from(n).ok()).unwrap_or(2)
    }

    /// The spindle's speeds, slowest first.
    #[must_use]
    pub fn speeds(&self) -> Vec<Speed> {
        let mut speeds: Vec<Speed> = self
            .lathe()
            .list("spindle_speeds")
            .iter()
            .filter_map(|value| match value.bare() {
                Value::Count(rpm) => Some(Speed { rpm: *rpm, how: words(value) }),
                _ => None,
            })
            .collect();
        speeds.sort_by_key(|speed| speed.rpm);
        speeds
    }

    /// The carriage's feeds by power, mm a turn of the spindle, finest first, with the lever's own
    /// words.
    #[must_use]
    pub fn feeds(&self) -> Vec<(Ratio, Option<String>)> {
        let feed = |value: &Value| match value.bare() {
            Value::Quantity(q) => Some((q.value(), words(value))),
            _ => None,
        };
        let mut feeds: Vec<_> = self.lathe().list("feeds").iter().filter_map(feed).collect();
        feeds.sort_by_key(|(feed, _)| *feed);
        feeds
    }

    /// The chasing dials.
    #[must_use]
    pub fn chasing_dials(&self) -> Vec<ChasingDial> {
        self.lathe()
            .records("chasing_dials")
            .filter_map(|dial| {
                Some(ChasingDial {
                    wheel_teeth: dial.count("wheel_teeth")?,
                    marks: dial.count("marks")?,
                })
            })
            .collect()
    }

    /// The dial of a slide: `cross`, `compound`, `carriage` or `tailstock`. None where it isn't said
    /// whether the cross slide's or the compound's reads radius or diameter: see [`Shop::unsaid`].
    #[must_use]
    pub fn dial(&self, slide: &str) -> Option<Dial> {
        let form = self.dial_form(slide)?;
        let said = !across(slide) || form.choice("reads").is_some();
        Dial::read(form).filter(|_| said)
    }

    /// Whether there is a dial on a slide, though it mayn't be known what its lines are of.
    #[must_use]
    pub fn has_dial(&self, slide: &str) -> bool {
        self.dial_form(slide).and_then(Dial::read).is_some()
    }

    fn dial_form(&self, slide: &str) -> Option<&Record> {
        self.lathe().record("dials")?.record(slide)
    }

    /// What is to be entered for an entry that an answer waits for, where the dial that it names is
    /// there but for whether it reads radius or diameter.
    #[must_use]
    pub fn unsaid(&self, needs: &'static str) -> &'static str {
        let unsaid = |slide| self.has_dial(slide) && self.dial(slide).is_none();
        match needs {
            "shop.lathe.dials.cross" | "shop.lathe.dials" if unsaid("cross") => {
                "shop.lathe.dials.cross.reads"
            }
            "shop.lathe.dials.compound" | "shop.lathe.dials" if unsaid("compound") => {
                "shop.lathe.dials.compound.reads"
            }
            needs => needs,
        }
    }

    /// The form of what there is to divide with.
    #[must_use]
    pub fn dividing(&self) -> Option<&Record> {
        self.record.record("dividing")
    }

    /// The cutter of that name.
    #[must_use]
    pub fn cutter(&self, name: &str) -> Option<&Record> {
        self.record.records("cutters").find(|cutter| cutter.text("name") == Some(name))
    }

    /// The cutters of a kind.
    pub fn cutters(&self, kind: &'static str) -> impl Iterator<Item = &Record> {
        self.record.records("cutters").filter(move |cutter| cutter.choice("kind") == Some(kind))
    }

    /// The indicators: what one line is, and how far the plunger goes.
    pub fn indicators(&self) -> impl Iterator<Item = (&Quantity, &Quantity)> {
        self.record
            .records("indicators")
            .filter_map(|form| Some((form.quantity("division")?, form.quantity("travel")?)))
    }

    /// The holder of that name.
    #[must_use]
    pub fn holder(&self, name: &str) -> Option<&Record> {
        self.record.records("holding").find(|holder| holder.text("name") == Some(name))
    }

    /// The drills owned.
    pub fn drills(&self) -> impl Iterator<Item = &Quantity> {
        self.sizes("drills")
    }

    /// The measuring wires owned, a size once.
    pub fn wires(&self) -> impl Iterator<Item = &Quantity> {
        self.sizes("wires")
    }

    fn sizes(&self, key: &str) -> impl Iterator<Item = &Quantity> {
        self.record.list(key).iter().filter_map(|value| match value.bare() {
            Value::Quantity(q) => Some(q),
            _ => None,
        })
    }
}

/// Whether a slide can move across the work, where a line may be counted on the diameter.
fn across(slide: &str) -> bool {
    matches!(slide, "cross" | "compound")
}

/// Tooth counts; the form holds none over 999.
pub(crate) fn teeth(counts: &[u32]) -> Vec<u16> {
    counts.iter().filter_map(|n| u16::try_from(*n).ok()).collect()
}
