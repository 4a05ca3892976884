//! The feed by power at the machine: its gears put on and off, engaged and let go.

use super::feeding::PowerFeed;
use super::ready::parted;
use crate::procedure::{
    self, Action, FeedBy, Gear, GearOn, InOut, Item, Length, Lockable, Setting, Slide, Toward,
    Tumbler,
};
use crate::quantity::Unit;
use alloc::vec::Vec;

impl PowerFeed {
    /// What makes the feed, set or put on while everything is isolated.
    pub(super) fn on(&self, tumbler: bool, unit: Unit) -> Vec<Action> {
        let mut actions = Vec::new();
        let Some(gears) = &self.gears else {
            if let Some(each_turn) = Length::near(self.mm, unit) {
                let how = (!self.set.is_empty()).then(|| self.set.clone());
                actions.push(Action::Set(Setting::Feed { each_turn, how }));
            }
            return actions;
        };
        let seats = [GearOn::Spindle, GearOn::Stud, GearOn::SecondStud, GearOn::Leadscrew];
        let last = gears.pairs.len().saturating_sub(1);
        for (at, (driver, driven)) in gears.pairs.iter().enumerate() {
            let from = *seats.get(at).unwrap_or(&GearOn::Stud);
            let onto = match at == last {
                true => GearOn::Leadscrew,
                false => *seats.get(at.saturating_add(1)).unwrap_or(&GearOn::Stud),
            };
            let driver = Gear { teeth: Some(*driver), on: from };
            let driven = Gear { teeth: Some(*driven), on: onto };
            actions.extend([Action::Mount(Item::Gear(driver)), Action::Mount(Item::Gear(driven))]);
            if last == 0 {
                let idler = Gear { teeth: None, on: GearOn::IdlerStud };
                actions.extend([
                    Action::Mount(Item::Gear(idler)),
                    Action::Mesh { driver, driven: idler },
                    Action::Mesh { driver: idler, driven },
                ]);
            } else {
                actions.push(Action::Mesh { driver, driven });
            }
        }
        if !gears.pairs.is_empty() {
            actions.push(Action::Lock { what: Lockable::Banjo });
        }
        if let Some((ratio, how)) = &gears.gearbox {
            actions.push(Action::Set(Setting::Gearbox {
                ratio: procedure::Number(*ratio),
                how: how.clone(),
            }));
        }
        if tumbler {
            actions.push(Action::Set(Setting::Tumbler { is: Tumbler::Forward }));
        }
        actions
    }

    /// Its gears out of mesh again, in isolation.
    pub(super) fn off(&self, tumbler: bool, unit: Unit) -> Vec<Action> {
        let Some(gears) = &self.gears else { return Vec::new() };
        let mut off: Vec<Action> = parted(self.on(tumbler, unit)).collect();
        if tumbler && !gears.pairs.is_empty() {
            off.push(Action::Set(Setting::Tumbler { is: Tumbler::Neutral }));
        }
        off
    }

    /// Engaged, fed so far, and let go.
    pub(super) fn fed(&self, slide: Slide, toward: Toward, far: Length) -> [Action; 3] {
        let nuts = self.gears.as_ref().is_some_and(|gears| gears.by_nuts);
        let engage = |is| match nuts {
            true => Action::HalfNuts { is, at: Vec::new() },
            false => Action::PowerFeed { is, slide },
        };
        [
            engage(InOut::In),
            Action::Feed {
                slide,
                toward,
                over: Some(far),
                to: None,
                until: None,
                by: if nuts { FeedBy::Leadscrew } else { FeedBy::Power },
                each_turn: Length::near(self.mm, far.unit()),
                beat: None,
            },
            engage(InOut::Out),
        ]
    }
}
