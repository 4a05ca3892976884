//! Gears on: which goes where, and that it runs free before the guard is shut.

use super::super::{Picture, Step};
use super::answer::Thread;
use super::card::picture;
use super::course::Drive;
use super::gears::Gears;
use super::steps::Made;
use super::words;
use crate::exact::Ratio;
use crate::gearing::{self, Hand, Train};
use crate::operation::ready::{set_speed, spindle_free};
use crate::procedure::{
    Action, Cleared, Gear, GearOn, InOut, Item, Lockable, Number, OnOff, OpenShut, Setting,
    Statement, StepId, Toward, Tumbler, Turned, TurnedBy, Turning,
};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::ToString;
use alloc::vec::Vec;

fn best(thread: &Thread) -> Option<(&Gears, &Train)> {
    let gears = thread.gears.as_ref().ok()?;
    Some((gears, gears.best()?))
}

pub(super) fn train(thread: &Thread) -> Option<Picture> {
    best(thread).map(|(gears, train)| picture(gears, train))
}

/// Where the gears of each pair sit.
fn seats(at: usize, pairs: usize) -> (GearOn, GearOn) {
    let far = |n: usize| match (n, pairs) {
        (n, pairs) if n == pairs => GearOn::Leadscrew,
        (1, _) => GearOn::Stud,
        _ => GearOn::SecondStud,
    };
    (if at == 0 { GearOn::Spindle } else { far(at) }, far(at.saturating_add(1)))
}

/// The gears of a pair, with the idlers that stand between the first, from the driver on.
pub(super) fn chain(thread: &Thread, at: usize) -> Vec<Gear> {
    let Some((gears, train)) = best(thread) else { return Vec::new() };
    let pairs = train.pairs();
    let Some(pair) = pairs.get(at) else { return Vec::new() };
    let (from, to) = seats(at, pairs.len());
    let mut chain = Vec::from([Gear { teeth: Some(pair.driver), on: from }]);
    if at == 0 {
        let idlers = idlers(gears, train);
        if idlers > 0 {
            chain.push(Gear { teeth: train.idler, on: GearOn::IdlerStud });
        }
        if idlers > 1 {
            chain.push(Gear { teeth: None, on: GearOn::SecondIdler });
        }
    }
    chain.push(Gear { teeth: Some(pair.driven), on: to });
    chain
}

/// How many idlers go on: those that the hand and the distance need; where the leadscrew's hand isn't known it
/// is taken for right-handed, and the carriage is looked at.
fn idlers(gears: &Gears, train: &Train) -> u32 {
    if gears.tumbler == Some(true) {
        // The tumbler sets the hand: an idler is for the distance alone.
        return train.reach().max(u32::from(gears.may_not_reach(train)));
    }
    let screw = gears.screw_hand.unwrap_or(Hand::Right);
    let pairs = train.pairs().len();
    gearing::idlers(pairs, gears.hand(), Some(screw), Some(false), train.reach()).unwrap_or(0)
}

/// The meshes of a pair.
pub(super) fn meshes(chain: &[Gear]) -> impl Iterator<Item = (Gear, Gear)> + '_ {
    chain.windows(2).filter_map(|two| match two {
        [driver, driven] => Some((*driver, *driven)),
        _ => None,
    })
}

/// Supply isolated, guard open, the gears that are on taken off.
pub(super) fn isolate() -> Step {
    Step {
        id: StepId::new("gears", 1),
        title: "Before the gears".to_owned(),
        actions: Vec::from([
            Action::Isolate,
            Action::Guard { is: OpenShut::Open },
            Action::Remove(Item::Fitting { which: crate::procedure::Fitting::ChangeTrain }),
        ]),
        label: "supply".to_owned(),
        figure: "off".to_owned(),
        done: "Isolated",
        ..Step::default()
    }
}

/// One pair, the spindle's end first.
pub(super) fn pair(made: &Made<'_>, at: usize) -> Option<Step> {
    let (gears, train) = best(made.thread)?;
    let pairs = train.pairs();
    let pair = pairs.get(at)?;
    let chain = chain(made.thread, at);
    let mut actions = Vec::from([Action::Look(Statement::Supply { is: OnOff::Off })]);
    actions.extend(chain.iter().map(|gear| Action::Mount(Item::Gear(*gear))));
    actions.extend(meshes(&chain).map(|(driver, driven)| Action::Mesh { driver, driven }));
    let last = at.saturating_add(1) == pairs.len();
    if last {
        actions.push(Action::Lock { what: Lockable::Banjo });
    }
    let mut say = Vec::new();
    if at > 0 {
        say.push("Both gears on a stud are keyed to each other, the driver outermost.".to_owned());
    }
    if chain.len() > 2 && train.idler.is_none() {
        say.push("Any gear that meshes with both will do for an idler.".to_owned());
    }
    let _ = gears;
    let title = match pairs.len() {
        1 => "The pair of gears".to_owned(),
        n => format!("Pair {} of {n}", at.saturating_add(1)),
    };
    Some(Step {
        id: StepId::new("gears", u32::try_from(at.saturating_add(2)).unwrap_or(u32::MAX)),
        title,
        actions,
        say,
        label: "driver, driven".to_owned(),
        figure: format!("{} → {}", pair.driver, pair.driven),
        done: "Mounted",
        picture: self::train(made.thread),
        ..Step::default()
    })
}

fn tumbler(left: bool) -> Action {
    Action::Set(Setting::Tumbler { is: if left { Tumbler::Reverse } else { Tumbler::Forward } })
}

const fn hand_words(left: bool) -> &'static str {
    if left { "left-hand" } else { "right-hand" }
}

/// The carriage creeps the way in which it must.
fn creeps(left: bool) -> [Action; 4] {
    [
        Action::HalfNuts { is: InOut::In, at: Vec::new() },
        Action::TurnByHand {
            what: Turned::LatheSpindle,
            by: TurnedBy::Chuck,
            way: Turning::Forward,
            turns: Some(Number(Ratio::whole(2))),
            teeth: None,
            of: None,
        },
        Action::Look(Statement::CarriageCreep {
            toward: if left { Toward::Tailstock } else { Toward::Headstock },
        }),
        Action::HalfNuts { is: InOut::Out, at: Vec::new() },
    ]
}

/// Idlers and tumbler, for the hand.
pub(super) fn hand(made: &Made<'_>) -> Option<Step> {
    let (gears, train) = best(made.thread)?;
    let left = made.course.left;
    let mut actions = Vec::from([Action::Look(Statement::Supply { is: OnOff::Off })]);
    let mut say = Vec::new();
    match gears.tumbler {
        Some(true) => actions.push(tumbler(left)),
        _ if gears.screw_hand.is_none() => say.push(
            "The leadscrew's hand isn't entered: the next look tells whether an idler more or less is needed."
                .to_owned(),
        ),
        _ => say.push("The idlers that are on make the hand.".to_owned()),
    }
    let hand = hand_words(left);
    let (label, figure) = match gears.idlers(train) {
        Some(_) => ("idlers", idlers(gears, train).to_string()),
        None => ("thread", hand.to_owned()),
    };
    Some(Step {
        id: StepId::new("hand", 1),
        title: format!("For a {hand} thread"),
        actions,
        say,
        label: label.to_owned(),
        figure,
        done: "Set",
        picture: self::train(made.thread),
        ..Step::default()
    })
}

/// The gearbox's lever.
pub(super) fn lever(made: &Made<'_>) -> Option<Step> {
    let (gears, train) = best(made.thread)?;
    let (ratio, how) = gears.position(train);
    let words = words::fraction(ratio);
    Some(Step {
        id: StepId::new("gearbox", 1),
        title: "The gearbox".to_owned(),
        actions: Vec::from([Action::Set(Setting::Gearbox {
            ratio: Number(ratio),
            how: how.map(ToOwned::to_owned),
        })]),
        label: "gearbox".to_owned(),
        figure: how.map_or(words, ToOwned::to_owned),
        done: "Set",
        ..Step::default()
    })
}

/// Turned by hand before anything else turns it.
pub(super) fn free(made: &Made<'_>) -> Step {
    let mut actions = Vec::from([
        Action::Look(Statement::Supply { is: OnOff::Off }),
        spindle_free(),
        Action::Look(Statement::Clears { what: Cleared::Train }),
    ]);
    actions.extend(creeps(made.course.left));
    Step {
        id: StepId::new("free", 1),
        title: "Turn it by hand".to_owned(),
        actions,
        say: Vec::from(["No tight place, nothing touches.".to_owned()]),
        label: "turns by hand".to_owned(),
        figure: "2".to_owned(),
        done: "Runs free",
        picture: self::train(made.thread),
        ..Step::default()
    }
}

/// Without change gears: by the lathe's own gearbox or plate.
pub(super) fn set_lead(made: &Made<'_>) -> Step {
    let course = made.course;
    let mut actions = Vec::from([
        Action::Isolate,
        Action::Set(Setting::Lead { each_turn: course.like(course.lead) }),
    ]);
    if made.thread.kit.tumbler {
        actions.push(tumbler(course.left));
    }
    actions.extend([spindle_free(), Action::Look(Statement::Clears { what: Cleared::Train })]);
    actions.extend(creeps(course.left));
    Step {
        id: StepId::new("lead", 1),
        title: "Set the lead".to_owned(),
        actions,
        label: "lead".to_owned(),
        figure: made.thread.wanted.lead_text(),
        done: "Set",
        ..Step::default()
    }
}

/// Guard shut, the speed set, then the supply.
pub(super) fn guard(made: &Made<'_>) -> Step {
    let course = made.course;
    let mut actions = Vec::new();
    if let Drive::Power(speed) = &course.drive {
        actions.push(set_speed(speed));
    }
    actions.extend([
        spindle_free(),
        Action::Look(Statement::Clears { what: Cleared::Work }),
        Action::Look(Statement::Clears { what: Cleared::Tool }),
        Action::Guard { is: OpenShut::Shut },
    ]);
    if let Some(wheel) = course.wheel {
        actions.push(Action::Look(Statement::ChasingDial { wheel }));
    }
    let mut say = Vec::new();
    if course.powered() {
        actions.push(Action::Energise);
    } else {
        say.push(
            match course.drive {
                Drive::Leadscrew => "So coarse a lead is driven from the leadscrew, by hand.",
                _ => "No speed of this lathe leaves the time to act: by hand from here on.",
            }
            .to_owned(),
        );
    }
    Step {
        id: StepId::new("ready", 1),
        title: "Guard shut".to_owned(),
        actions,
        say,
        label: "guard".to_owned(),
        figure: "shut".to_owned(),
        done: "Shut",
        ..Step::default()
    }
}
