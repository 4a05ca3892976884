//! Divide a circle: the move, the places, what is cut there, and how far off it is at the rim.

mod card;
mod flats;
mod kind;
mod marks;
mod places;
mod why;

pub(super) use kind::{KIND, WORKS, cutter_and_holder};

use super::circle::{Arrangement, Circle, Cut, Layout, Tool, Unmade, reading};
use super::{Answer, Found, Lacking};
use crate::dividing::misplaced;
use crate::exact::Ratio;
use crate::quantity::{Quantity, Unit, show};
use crate::record::{Record, Value};
use crate::shop::Shop;
use alloc::boxed::Box;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use core::f64::consts::PI;
use flats::Flats;
use marks::Marks;
use places::Places;

/// A circle divided.
#[derive(Clone, Debug)]
pub struct Divide {
    /// None where the shop has nothing to divide with.
    circle: Option<Circle>,
    /// Even divisions; none for angles of one's own.
    into: Option<u32>,
    diameter: Option<Quantity>,
    marks: Option<Marks>,
    tool: Tool,
    flats: Option<Flats>,
    places: Option<Places>,
    /// How deep it is cut, as read on the slide that sets it.
    depth: String,
    /// How it is cut at each place; none where nothing says what is cut.
    layout: Option<Layout>,
    /// How long each cut is along the work, mm.
    length: Option<Ratio>,
}

fn answer(entries: &Record, shop: &Shop) -> Answer {
    let angles: Vec<Ratio> = entries
        .list("angles")
        .iter()
        .filter_map(|value| match value {
            Value::Quantity(angle) => Some(angle.value()),
            _ => None,
        })
        .collect();
    let into = entries.count("into").filter(|_| angles.is_empty());
    let circle = match into {
        Some(into) => Circle::even(into, entries, shop),
        None if angles.is_empty() => {
            return Answer {
                lacking: Vec::from([Lacking { key: "ways", needs: "operation.into" }]),
                ..Answer::refused("say into how many, or at which angles")
            };
        }
        None => Circle::angles(&angles, entries, shop),
    };
    let mut lacking = Vec::new();
    let circle = match circle {
        Ok(circle) => Some(circle),
        Err(Unmade::Cannot(why)) => return Answer::refused(why.to_string()),
        Err(Unmade::NothingOwned(needs)) => {
            for key in ["ways", "ways_found", "positions"] {
                lacking.push(Lacking { key, needs });
            }
            None
        }
    };
    let diameter = entries.quantity("diameter");
    let marks = Marks::of(entries);
    let tool = Tool::of(entries.quantity("width"), entries, shop);
    let across = entries.quantity("across");
    let flats = match (marks, diameter) {
        (Some(Marks::Flats), Some(diameter)) => {
            match Flats::of(into, diameter.to_f64(), across.map(Quantity::to_f64)) {
                Ok(flats) => Some(flats),
                Err(why) => return Answer::refused(why.words(diameter, across)),
            }
        }
        _ => None,
    };
    let places = match (marks, diameter) {
        (Some(Marks::Holes), Some(diameter)) => {
            Some(Places::of(entries, shop, diameter, &tool, into, &angles))
        }
        _ => None,
    };
    let arrangement = Circle::arranged(circle.as_ref(), entries);
    let cut = marks.map(|marks| Cut {
        mark: marks.drawn(),
        slot: marks == Marks::Slots,
        on_face: marks == Marks::Holes,
        depth: match &flats {
            Some(flats) => show::near(flats.depth, 4),
            None => entries.ratio("depth"),
        },
        flat: flats.as_ref().map(|flats| flats.width),
        diameter: entries.ratio("diameter"),
        length: entries.ratio("length"),
        apart: circle.as_ref().and_then(Circle::apart),
        unit: diameter.map_or(Unit::Mm, Quantity::unit),
        crowded: false,
    });
    let unit = diameter.map_or(Unit::Mm, Quantity::unit);
    let dial = shop.dial(arrangement.slides(marks == Some(Marks::Holes)).0);
    let depth = match &flats {
        Some(flats) => Some(flats.depth),
        None => entries.quantity("depth").map(Quantity::to_f64),
    };
    let (layout, unmade) = match cut.filter(|_| circle.is_some()) {
        Some(cut) => match Layout::of(arrangement, &cut, &tool, shop) {
            Ok(layout) => (Some(layout), None),
            Err(unmade) => (None, Some(unmade)),
        },
        None => (None, None),
    };
    // By co-ordinates the figures stand, but what slides up and down isn't among what is owned.
    let by_places = circle.is_none() && places.is_some();
    let undivided = circle.as_ref().and_then(|circle| circle.unmade(layout.as_ref())).or_else(|| {
        by_places.then(|| crate::operation::Unmade {
            why: String::from(
                "nothing is owned that divides, nor a vertical slide: the places are for a machine that has both ways",
            ),
            needs: "shop.dividing",
        })
    });
    let divide = Divide {
        circle,
        into,
        marks,
        tool,
        flats,
        places,
        depth: depth.map_or_else(String::new, |mm| reading(dial.as_ref(), unit, mm)),
        layout,
        length: entries.ratio("length"),
        diameter: diameter.cloned(),
    };
    divide.lacks(&mut lacking);
    let mut cautions = match (&divide.circle, &divide.places) {
        (Some(circle), _) => circle.arrangement.cautions(),
        (None, Some(_)) => Arrangement::by_slides(),
        (None, None) => Vec::new(),
    };
    cautions.extend(divide.tool.caution());
    Answer {
        cautions,
        unmade: undivided.or(unmade).map(Box::new),
        why: divide.whys(),
        lacking,
        found: Some(Found::Divide(Box::new(divide))),
        ..Answer::default()
    }
}

impl Divide {
    fn lacks(&self, lacking: &mut Vec<Lacking>) {
        if self.diameter.is_none() {
            let exact = self.circle.as_ref().and_then(Circle::best).is_none_or(|way| way.exact);
            let even = self.into.is_some();
            let keys = [
                ("spacing_mm", even),
                ("chord_mm", even),
                ("worst_error_mm", !exact),
                ("depth_mm", self.marks == Some(Marks::Flats)),
                ("coordinates", self.marks == Some(Marks::Holes)),
            ];
            lacking.extend(
                keys.iter()
                    .filter(|(_, wanted)| *wanted)
                    .map(|(key, _)| Lacking { key, needs: "operation.diameter" }),
            );
        }
        if self.marks.is_some_and(Marks::leave) && self.tool.width.is_none() {
            lacking.push(Lacking { key: "left_mm", needs: "operation.width" });
        }
        lacking.extend(self.tool.lacking());
    }

    /// From one division to the next along the rim, mm.
    fn spacing(&self) -> Option<f64> {
        let (into, diameter) = (self.into?, self.diameter.as_ref()?);
        Some(misplaced::at_rim(Ratio::new(1, into.into()).ok()?, diameter.value()))
    }

    /// The same straight across, mm: d·sin(π/N).
    fn chord(&self) -> Option<f64> {
        let (into, diameter) = (self.into?, self.diameter.as_ref()?);
        Some(diameter.to_f64() * libm::sin(PI / f64::from(into)))
    }

    /// From one division to the next, degrees.
    fn each(&self) -> Option<Ratio> {
        Ratio::new(360, self.into?.into()).ok()
    }

    /// What is left between two cuts, mm, straight across between holes, along the rim otherwise;
    /// less than nothing where they run together.
    fn left(&self) -> Option<f64> {
        let between = match self.marks.filter(|marks| marks.leave())? {
            Marks::Holes => self.chord()?,
            _ => self.spacing()?,
        };
        Some(between - self.tool.cuts()?.to_f64())
    }

    /// A length at the work in the system of its diameter.
    fn like(&self, mm: f64) -> String {
        show::float_like(mm, self.diameter.as_ref().map_or(Unit::Mm, Quantity::unit))
    }
}
