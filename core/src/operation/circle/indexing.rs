//! From one place to the next by pins, detent and crank, and what must be seen there.

use super::divided::Circle;
use crate::dividing::{At, Pin as At1, Place, Setting};
use crate::exact::Ratio;
use crate::procedure::{Action, InOut, Number, Statement, Turned, TurnedBy, Turning};
use alloc::vec::Vec;

impl Circle {
    /// Whether the detent in a gear or plate on the spindle itself holds the place.
    pub(super) fn direct(&self) -> bool {
        self.best().is_some_and(|way| {
            matches!(way.setting, Setting::Direct { .. } | Setting::HalfTooth { .. })
        })
    }

    /// The move from one place to another, pins and detent included; nothing where the first place is nought.
    pub(super) fn moved(&self, before: Option<&Place>, place: &Place, head: bool) -> Vec<Action> {
        match &place.at {
            At::Tooth { .. } | At::HalfTooth { .. } => self.teeth(before, place, head),
            At::Pin(pin) => match self.between(before, place) {
                Some((0, 0)) | None => Vec::new(),
                Some((turns, spaces)) => self.crank(turns, spaces, pin.circle),
            },
            At::Pins { crank, plate } => self.pins(before, crank, plate),
        }
    }

    fn teeth(&self, before: Option<&Place>, place: &Place, head: bool) -> Vec<Action> {
        let (teeth, halves) = match place.at {
            At::Tooth { positions, .. } => (positions, false),
            At::HalfTooth { positions, .. } => (positions, true),
            _ => return Vec::new(),
        };
        let Some((turns, spaces)) = self.between(before, place) else { return Vec::new() };
        let round = i64::from(teeth).saturating_mul(if halves { 2 } else { 1 });
        let spaces = turns.saturating_mul(round).saturating_add(spaces);
        let share =
            if halves { Ratio::new(spaces.into(), 2) } else { Ratio::new(spaces.into(), 1) };
        let Ok(share) = share else { return Vec::new() };
        if share.is_zero() {
            return Vec::new();
        }
        Vec::from([
            Action::Detent { is: InOut::Out },
            Action::TurnByHand {
                what: if head { Turned::HeadSpindle } else { Turned::LatheSpindle },
                by: if head { TurnedBy::Gear } else { TurnedBy::Chuck },
                way: Turning::Forward,
                turns: None,
                teeth: Some(Number(share)),
                of: Some(teeth),
            },
            Action::Detent { is: InOut::In },
        ])
    }

    /// The crank alone, always forward.
    fn crank(&self, turns: i64, spaces: i64, circle: Option<u16>) -> Vec<Action> {
        let mut actions = Vec::from([
            Action::CrankPin { is: InOut::Out },
            turn_crank(turns, spaces, circle, Turning::Forward),
            Action::CrankPin { is: InOut::In },
        ]);
        if self.arms_set().is_some() {
            actions.push(Action::SwingArms);
        }
        actions
    }

    /// Both pins of a compound move: the crank's first, then the plate and the crank together. What goes back
    /// goes a turn farther and comes up forward.
    fn pins(&self, before: Option<&Place>, crank: &At1, plate: &At1) -> Vec<Action> {
        let (was_crank, was_plate) = match before.map(|place| &place.at) {
            Some(At::Pins { crank, plate }) => (Some(crank), Some(plate)),
            _ => (None, None),
        };
        let mut actions = Vec::new();
        let first = further(was_crank, crank);
        if first != 0 {
            actions.push(Action::CrankPin { is: InOut::Out });
            actions.extend(crank_by(first, crank.circle));
            actions.push(Action::CrankPin { is: InOut::In });
            if self.arms_set().is_some() {
                actions.push(Action::SwingArms);
            }
        }
        let second = further(was_plate, plate);
        if second != 0 {
            actions.push(Action::StopPin { is: InOut::Out });
            actions.extend(plate_by(second, plate.circle));
            actions.push(Action::StopPin { is: InOut::In });
        }
        actions
    }

    /// What must be seen at a place before anything is cut there.
    pub(super) fn seen(&self, place: &Place) -> Vec<Action> {
        let pin = |pin: &At1| (Some(pin.hole).filter(|_| pin.circle.is_some()), pin.circle);
        let looks = match &place.at {
            At::Tooth { tooth, positions } => Vec::from([Statement::Detent {
                is: InOut::In,
                tooth: Some(Number::from(*tooth)),
                of: Some(*positions),
            }]),
            At::HalfTooth { half_teeth, positions } => Vec::from([Statement::Detent {
                is: InOut::In,
                tooth: Ratio::new(i128::from(*half_teeth), 2).ok().map(Number),
                of: Some(*positions),
            }]),
            At::Pin(at) => {
                let (hole, circle) = pin(at);
                Vec::from([Statement::CrankPin { is: InOut::In, hole, circle }])
            }
            At::Pins { crank, plate } => {
                let (hole, circle) = pin(crank);
                let (stop_hole, stop_circle) = pin(plate);
                Vec::from([
                    Statement::CrankPin { is: InOut::In, hole, circle },
                    Statement::StopPin { is: InOut::In, hole: stop_hole, circle: stop_circle },
                ])
            }
        };
        looks.into_iter().map(Action::Look).collect()
    }

    /// The circle of the crank's pin and the spaces that its arms stand apart, where every move is the same and
    /// goes forward.
    pub(super) fn arms_set(&self) -> Option<(u16, u16)> {
        let way = self.best().filter(|_| !self.uneven())?;
        let (circle, spaces) = match way.setting {
            Setting::Plain { holes, circle: Some(circle), .. }
            | Setting::Differential { holes, circle: Some(circle), .. } => (circle, holes),
            Setting::Compound { turns, first, .. } if turns > 0 || first.holes > 0 => {
                let circle = i64::from(first.circle);
                let spaces = i64::from(first.holes).checked_rem_euclid(circle)?;
                (first.circle, u16::try_from(spaces).ok()?)
            }
            _ => return None,
        };
        (spaces > 0).then_some((circle, spaces))
    }
}

/// How many spaces further a pin stands in one place than in another, less than nothing backwards.
fn further(before: Option<&At1>, place: &At1) -> i64 {
    let total = |pin: &At1| {
        let circle = i64::from(pin.circle.unwrap_or(1));
        pin.turns.saturating_mul(circle).saturating_add(pin.hole.into())
    };
    total(place).saturating_sub(before.map_or(0, total))
}

fn turn_crank(turns: i64, spaces: i64, circle: Option<u16>, way: Turning) -> Action {
    Action::TurnCrank {
        turns: u32::try_from(turns).unwrap_or(0),
        holes: u16::try_from(spaces).unwrap_or(0),
        circle: circle.filter(|_| spaces != 0),
        way,
    }
}

/// The crank by so many spaces; back by a turn more than asked, and that turn forward.
fn crank_by(spaces: i64, circle: Option<u16>) -> Vec<Action> {
    let round = i64::from(circle.unwrap_or(1)).max(1);
    let size = spaces.saturating_abs();
    let turns = size.checked_div(round).unwrap_or(0);
    let rest = size.checked_rem(round).unwrap_or(0);
    if spaces > 0 {
        return Vec::from([turn_crank(turns, rest, circle, Turning::Forward)]);
    }
    Vec::from([
        turn_crank(turns.saturating_add(1), rest, circle, Turning::Back),
        turn_crank(1, 0, circle, Turning::Forward),
    ])
}

/// Plate and crank by so many spaces; back by half a turn more than asked, and that forward.
fn plate_by(spaces: i64, circle: Option<u16>) -> Vec<Action> {
    let round = i64::from(circle.unwrap_or(1)).max(1);
    let turn = |spaces: i64, way| Action::TurnPlate {
        holes: u16::try_from(spaces).unwrap_or(u16::MAX),
        circle: circle.unwrap_or(1),
        way,
    };
    let size = spaces.saturating_abs();
    if spaces > 0 {
        return Vec::from([turn(size, Turning::Forward)]);
    }
    let half = round.saturating_add(1) >> 1;
    Vec::from([turn(size.saturating_add(half), Turning::Back), turn(half, Turning::Forward)])
}
