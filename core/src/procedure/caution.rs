//! Cautions, by rule from the actions: no kind of operation can forget one.
//!
//! Each is said once an operation, where it first matters. What the machine's maker and the rules of the place
//! say comes first, and is said with the first of them.

use super::{Action, Cutter, CutterAt, InOut, Item, Running, Shape, Spindle, Tended};
use alloc::vec::Vec;

/// What can hurt, as the actions tell it. Common practice, no source, but for what the table of rules in the
/// tests names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hazard {
    /// Hands at gears, work or cutter.
    HandsInside,
    /// Something is started.
    Turns,
    /// A cutter runs in the lathe's own spindle.
    CutterTurns,
    /// A bore hides its bottom.
    Bottom,
    /// Work is turned by hand to a place and cut there.
    Held,
    /// A thin cutter.
    Thin,
    /// Swarf and burr.
    Sharp,
    /// Something is measured.
    Measured,
}

impl Hazard {
    /// What to look out for.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Hazard::HandsInside => {
                "Isolated while hands are inside. The machine's maker and the rules of the place come first."
            }
            Hazard::Turns => "Eyes covered, no gloves, nothing loose; key out, guard shut.",
            Hazard::CutterTurns => "Hands clear until the cutter stands still.",
            Hazard::Bottom => "Stop the feed short of the bottom and finish by hand.",
            Hazard::Held => {
                "Lock on before the cutter meets the work: a pin or detent doesn't hold the cut."
            }
            Hazard::Thin => "Thin cutters break unseen: a light feed, eyes covered.",
            Hazard::Sharp => "Fresh edges and swarf cut: a brush or a hook, never a hand.",
            Hazard::Measured => "Never measure turning work.",
        }
    }
}

/// What can hurt in these actions, each once, in the order of [`Hazard`].
#[must_use]
pub fn hazards(actions: &[Action]) -> Vec<Hazard> {
    let mut found: Vec<Hazard> = actions.iter().flat_map(hazard).flatten().collect();
    found.sort_unstable();
    found.dedup();
    found
}

fn hazard(action: &Action) -> [Option<Hazard>; 2] {
    let one = |hazard| [Some(hazard), None];
    match action {
        Action::Mount(Item::Cutter(cutter)) => [Some(Hazard::HandsInside), of_cutter(cutter)],
        Action::Mount(_) | Action::Remove(_) | Action::Mesh { .. } | Action::Part { .. } => {
            one(Hazard::HandsInside)
        }
        Action::Spindle { of, is: Running::Forward | Running::Reverse } => {
            [Some(Hazard::Turns), (*of == Spindle::Cutter).then_some(Hazard::CutterTurns)]
        }
        Action::Detent { is: InOut::In } | Action::CrankPin { is: InOut::In } => one(Hazard::Held),
        Action::Deburr { .. } => one(Hazard::Sharp),
        Action::Clean { what: Tended::Swarf } => one(Hazard::Sharp),
        Action::Measure { .. } | Action::Indicate { .. } | Action::Try { .. } => {
            one(Hazard::Measured)
        }
        _ => [None, None],
    }
}

fn of_cutter(cutter: &Cutter) -> Option<Hazard> {
    match (cutter.shape, cutter.at) {
        (Shape::BoringBar, _) => Some(Hazard::Bottom),
        (Shape::Disc | Shape::Engraver | Shape::Drill, _) => Some(Hazard::Thin),
        (_, CutterAt::LatheSpindle) => Some(Hazard::CutterTurns),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::procedure::{OpenShut, Running};

    #[test]
    fn what_is_started_and_what_is_touched_has_its_caution() {
        let start = Action::Spindle { of: Spindle::Lathe, is: Running::Forward };
        assert_eq!(hazards(&[start.clone(), start]), [Hazard::Turns]);
        assert!(hazards(&[Action::Guard { is: OpenShut::Shut }, Action::Isolate]).is_empty());
        let saw = Cutter::new(Shape::Disc, CutterAt::LatheSpindle);
        assert_eq!(
            hazards(&[Action::Mount(Item::Cutter(saw))]),
            [Hazard::HandsInside, Hazard::Thin]
        );
    }
}
