//! How deep, as this lathe's dials read it, and what is left around it and under it.

use super::super::{Lacking, Why};
use super::pick::{Purpose, Screw};
use crate::exact::Ratio;
use crate::holes::{
    COMMON_POINT_DEG, floor_left, full_depth_to_tip, point_length, tapped_depth, wall_beside,
    wall_round,
};
use crate::quantity::show;
use crate::record::Record;
use crate::shop::{Dial, Reading};
use alloc::format;
use alloc::vec::Vec;

/// How deep the drill goes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Depth {
    /// At its full diameter, mm.
    pub(super) full: Ratio,
    /// From the touch of its tip, mm.
    pub(super) tip: f64,
    /// Whether it goes through.
    pub(super) through: bool,
}

/// A tap that finishes a blind hole has two threads of lead, a plug tap's. Common practice, no source.
const PLUG_LEAD: u8 = 2;

/// The depth to drill to; nothing where neither a depth nor a thickness is entered.
pub(super) fn depth(
    purpose: Purpose,
    screw: &Screw,
    hole: Ratio,
    entries: &Record,
) -> Option<(Depth, Why)> {
    let thickness = entries.ratio("thickness");
    let own = entries.ratio("depth").filter(|_| !purpose.sunk());
    let point = point_length(hole, COMMON_POINT_DEG).ok()?;
    let (full, through, what) = match (own, thickness) {
        (Some(own), None) => (blind(purpose, screw, own)?, false, own),
        (Some(own), Some(thick)) if own < thick => (blind(purpose, screw, own)?, false, own),
        (_, Some(thick)) => (thick, true, thick),
        (None, None) => return None,
    };
    let tip = full_depth_to_tip(full, hole, COMMON_POINT_DEG).ok()?;
    let formula = match (through, purpose) {
        (true, _) => "to the tip = thickness + point",
        (false, Purpose::Tap) => "to the tip = thread + 3 pitches for the tap's lead + point",
        (false, purpose) if purpose.reamed() => {
            "to the tip = depth + a quarter Ø for the reamer's lead + point"
        }
        _ => "to the tip = depth + point",
    };
    let why = Why::new(
        formula,
        format!(
            "{}: {} at full diameter + {} mm of point of 118° = {} mm",
            show::mm(what),
            show::mm(full),
            show::float(point, 2),
            show::float(tip, 2)
        ),
        "geometry of the point; room for the lead is common practice, no source",
    );
    Some((Depth { full, tip, through }, why))
}

fn blind(purpose: Purpose, screw: &Screw, own: Ratio) -> Option<Ratio> {
    match (purpose, &screw.thread) {
        (Purpose::Tap, Some(thread)) => tapped_depth(own, thread.pitch.mm().ok()?, PLUG_LEAD).ok(),
        (purpose, _) if purpose.reamed() => own.add(screw.diameter.div(Ratio::whole(4)).ok()?).ok(),
        _ => Some(own),
    }
}

/// A depth on that dial.
pub(super) fn reading(
    dial: Option<(&'static str, Dial)>,
    mm: f64,
) -> Option<(&'static str, Reading)> {
    let (name, dial) = dial?;
    Some((name, dial.reading_near(mm)?))
}

/// What is left around the hole and under it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Left {
    /// The thinnest wall, mm; nothing where the hole breaks out.
    pub(super) wall: Option<Option<Ratio>>,
    /// What is left under the tip, mm; nothing where it comes through though it shouldn't.
    pub(super) floor: Option<Option<f64>>,
    /// The least that is wanted, mm.
    pub(super) least: Ratio,
}

/// What is left. Where no least is entered, it is a quarter of the hole, or a millimetre: common
/// practice, no source.
pub(super) fn left(
    widest: Ratio,
    drilled: Option<&Depth>,
    entries: &Record,
    lacking: &mut Vec<Lacking>,
) -> Left {
    let least = entries
        .ratio("least_wall")
        .unwrap_or_else(|| widest.div(Ratio::whole(4)).unwrap_or(Ratio::ONE).max(Ratio::ONE));
    let wall = match (entries.ratio("diameter"), entries.ratio("from_edge")) {
        (Some(part), _) => Some(wall_round(part, widest).ok()),
        (None, Some(edge)) => Some(wall_beside(edge, widest).ok()),
        (None, None) => {
            lacking.push(Lacking { key: "wall_mm", needs: "operation.diameter" });
            None
        }
    };
    let floor = match (entries.ratio("thickness"), drilled) {
        (Some(thick), Some(depth)) if !depth.through => Some(floor_left(thick, depth.tip).ok()),
        _ => None,
    };
    Left { wall, floor, least }
}

impl Left {
    /// Whether too little is left somewhere, in words.
    pub(super) fn trouble(&self) -> Option<&'static str> {
        match (self.wall, self.floor) {
            (Some(None), _) => Some("the hole breaks out of the side"),
            (_, Some(None)) => Some("the drill's point comes through"),
            (Some(Some(wall)), _) if wall < self.least => Some("the wall is thin"),
            (_, Some(Some(floor))) if floor < self.least.to_f64() => Some("the floor is thin"),
            _ => None,
        }
    }
}
