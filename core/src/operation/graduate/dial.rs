//! A dial worked out: its lines, their spacing, and how the circle is divided for them.

use super::{lengths, why};
use crate::exact::Ratio;
use crate::graduation::{
    Hand, Marks, Moves, Reads, Scale, Turning, grows_turning, numbers_run, scale, spacing,
};
use crate::operation::circle::{Circle, Unmade};
use crate::operation::{Answer, Found, Lacking};
use crate::quantity::{Quantity, Unit, show};
use crate::record::Record;
use crate::shop::{Dial, Shop};
use alloc::boxed::Box;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// How far a line is lined up wrong by eye, mm at the rim: common practice, no source.
pub(super) const BY_EYE_MM: f64 = 0.2;

/// A dial to graduate.
#[derive(Clone, Debug)]
pub struct Graduate {
    pub(super) lead: Option<Quantity>,
    pub(super) starts: u32,
    pub(super) reads: Reads,
    /// One line as asked for.
    pub(super) wanted: Option<Quantity>,
    pub(super) scale: Option<Scale>,
    pub(super) marks: Marks,
    pub(super) diameter: Option<Quantity>,
    pub(super) width: Option<Quantity>,
    pub(super) on_face: bool,
    pub(super) hand: Hand,
    pub(super) circle: Option<Circle>,
    /// Why nothing in the shop divides it, where something is owned.
    pub(super) cannot: Option<String>,
    /// Long, middle and short lines in mm.
    pub(super) lengths: Option<[Ratio; 3]>,
    /// The slide that draws them, and the unit of its dial.
    pub(super) drawn_by: &'static str,
    pub(super) drawn_like: Unit,
}

pub(super) fn answer(entries: &Record, shop: &Shop) -> Answer {
    let lead = entries.quantity("lead");
    let wanted = entries.quantity("least_count");
    let reads = match entries.choice("reads") {
        Some("diameter") => Reads::Diameter,
        _ => Reads::Radius,
    };
    let diameter = entries.quantity("diameter").cloned();
    let width = entries.quantity("line_width").cloned();
    if lead.is_some_and(Quantity::pi) {
        return Answer::refused("a lead with π in it is a worm's: no whole lines go round for it");
    }
    let scale = match (lead, wanted) {
        (Some(lead), Some(wanted)) => match scale(lead.value(), wanted.value(), reads) {
            Ok(scale) => Some(scale),
            Err(why) => return Answer::refused(why.to_string()),
        },
        _ => None,
    };
    let mut lacking = Vec::new();
    if scale.is_none() {
        let needs = if lead.is_none() { "operation.lead" } else { "operation.least_count" };
        let keys = ["lines", "value", "long", "middle", "short", "pitch_mm", "gap_mm", "ways"];
        lacking.extend(keys.map(|key| Lacking { key, needs }));
        if diameter.is_none() || width.is_none() {
            return Answer {
                lacking,
                ..Answer::refused("say the screw's lead and what one line is to be worth")
            };
        }
    }
    let (mut circle, mut cannot) = (None, None);
    if let Some(scale) = &scale {
        match Circle::even(scale.lines, entries, shop) {
            Ok(divided) => circle = Some(divided),
            Err(Unmade::NothingOwned(needs)) => lacking.push(Lacking { key: "ways", needs }),
            Err(Unmade::Cannot(why)) => {
                lacking.push(Lacking { key: "ways", needs: "shop.dividing" });
                cannot = Some(why.to_string());
            }
        }
        if diameter.is_none() {
            lacking.push(Lacking { key: "pitch_mm", needs: "operation.diameter" });
        }
        for key in ["gap_mm", "finest_lines"] {
            if diameter.is_none() {
                lacking.push(Lacking { key, needs: "operation.diameter" });
            } else if width.is_none() {
                lacking.push(Lacking { key, needs: "operation.line_width" });
            }
        }
    }
    let on_face = entries.choice("lines_on") == Some("face");
    let arrangement = Circle::arranged(entries);
    let (_, drawn_by) = arrangement.slides(on_face);
    let dial = shop.dial(drawn_by);
    let drawn_like = match (&dial, &diameter) {
        (Some(dial), _) => dial.unit,
        (None, Some(diameter)) => diameter.unit(),
        (None, None) => Unit::Mm,
    };
    let lengths = diameter
        .as_ref()
        .and_then(|diameter| lengths::lengths(diameter.value(), dial.as_ref(), drawn_like));
    let graduate = Graduate {
        lead: lead.cloned(),
        starts: entries.count("starts").unwrap_or(1),
        reads,
        wanted: wanted.cloned(),
        scale,
        marks: Marks::default(),
        diameter,
        width,
        on_face,
        hand: if entries.choice("hand") == Some("left") { Hand::Left } else { Hand::Right },
        circle,
        cannot,
        lengths,
        drawn_by,
        drawn_like,
    };
    Answer {
        cautions: arrangement.cautions(),
        why: why::why(&graduate, dial.as_ref().map(Dial::travel_per_line)),
        lacking,
        found: Some(Found::Graduate(Box::new(graduate))),
        ..Answer::default()
    }
}

impl Graduate {
    /// From one line to the next, mm.
    pub(super) fn pitch(&self) -> Option<f64> {
        Some(spacing::pitch(self.diameter.as_ref()?.value(), self.scale?.lines))
    }

    /// What is left between two lines, mm; less than nothing where they run together.
    pub(super) fn gap(&self) -> Option<f64> {
        let (diameter, width) = (self.diameter.as_ref()?, self.width.as_ref()?);
        Some(spacing::gap(diameter.value(), self.scale?.lines, width.value()))
    }

    /// The most lines with a gap no less than the line.
    pub(super) fn finest(&self) -> Option<u32> {
        let (diameter, width) = (self.diameter.as_ref()?, self.width.as_ref()?);
        spacing::finest_lines(diameter.value(), width.value(), None)
    }

    /// Which way round the dial its numbers rise, seen from the handle, for a screw that moves
    /// with its slide and a reading that grows inwards.
    pub(super) fn numbers(&self) -> Turning {
        numbers_run(grows_turning(self.hand, Moves::Screw, true))
    }

    /// What can be told by eye, in lines: lining up at the rim and the division's own error.
    pub(super) fn told(&self) -> Option<f64> {
        let worst =
            self.circle.as_ref().and_then(Circle::best).map_or(0.0, |way| way.worst_share());
        let pitch = self.pitch().filter(|pitch| *pitch > 0.0)?;
        Some(BY_EYE_MM / pitch + worst)
    }

    /// A value in the unit of the line that was asked for.
    pub(super) fn worth(&self, mm: Ratio) -> String {
        show::length_like(mm, self.wanted.as_ref().map_or(Unit::Mm, Quantity::unit))
    }

    /// A length at the work in the system of its diameter.
    pub(super) fn like(&self, mm: f64) -> String {
        show::float_like(mm, self.diameter.as_ref().map_or(Unit::Mm, Quantity::unit))
    }
}
