//! A plain model of a lathe that carries out a procedure's actions, and says what goes wrong.
//!
//! It reads the actions and the shop alone and knows no meaning: not which division or size is wanted. At
//! first everything is unknown; what an action sets or a look confirms is known from then on. Lengths are
//! mm in floating point, angles exact parts of a turn.

mod chip;
mod cut;
mod drilling;
#[cfg(test)]
mod end_tests;
mod head;
mod left;
mod look;
mod mount;
mod moves;
mod part;
mod parting;
mod rule;
mod slides;
mod spindle;
mod state;
mod swath;
mod taper;
mod tapping;
#[cfg(test)]
mod tests;
mod threading;

pub use part::{Cone, Mark, On, Part, SAME, Segment};
pub use rule::Rule;
pub use state::State;
pub use tapping::Tapped;
pub use threading::{Start, Thread};

use crate::procedure::{Action, Length, Toward};
use crate::shop::Shop;
use alloc::borrow::ToOwned;
use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;
use state::Machine;

/// A rule that an action broke.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// Which.
    pub rule: Rule,
    /// The step's id; `end` for how the machine is left.
    pub step: String,
    /// Which action of the step, from 0.
    pub action: usize,
    /// What was so.
    pub detail: &'static str,
}

/// A lathe on which actions are carried out one after the other.
#[derive(Clone, Debug)]
pub struct Lathe {
    m: Machine,
    part: Part,
    faults: Vec<Fault>,
    met: Vec<u32>,
    step: String,
    action: usize,
}

impl Lathe {
    /// The lathe of a shop, nothing known of how it stands.
    #[must_use]
    pub fn new(shop: &Shop) -> Lathe {
        Lathe {
            m: Machine::new(shop),
            part: Part::default(),
            faults: Vec::new(),
            met: vec![0; Rule::ALL.len()],
            step: String::new(),
            action: 0,
        }
    }

    /// Carries an action out, whatever was wrong before it.
    pub fn carry_out(&mut self, step: &str, action: &Action) {
        if self.step == step {
            self.action = self.action.saturating_add(1);
        } else {
            self.step = step.to_owned();
            self.action = 0;
        }
        match action {
            Action::Isolate => self.isolate(),
            Action::Energise => self.energise(),
            Action::Guard { is } => self.guard(*is),
            Action::Key { is } => self.key(*is),
            Action::Mount(item) => self.mount(item),
            Action::Remove(item) => self.remove(item),
            Action::Set(setting) => self.set(setting),
            Action::Spindle { of, is } => self.run_spindle(*of, *is),
            Action::TurnByHand { what, by, way, turns, teeth, of } => {
                match self.thread_teeth(*teeth, *of) {
                    Some(turns) => {
                        let turns = Some(crate::procedure::Number(turns));
                        self.turn_by_hand(*what, *by, *way, turns, None, None);
                    }
                    None => self.turn_by_hand(*what, *by, *way, *turns, *teeth, *of),
                }
            }
            Action::DriveByHand { what, by, way, over, until } => {
                self.drive_by_hand(*what, *by, *way, *over, *until);
            }
            Action::TurnIn { what, by, over, until, forward, back, follows } => {
                self.turn_in(&tapping::TurnedIn {
                    what: *what,
                    by: *by,
                    over: over.map(|l| l.mm.to_f64()),
                    until: *until,
                    forward: *forward,
                    back: *back,
                    follows: *follows,
                });
            }
            Action::TurnOut { what, by } => self.turn_out(*what, *by),
            Action::Lock { what } => self.lock(*what, true),
            Action::Unlock { what } => self.lock(*what, false),
            Action::Mesh { driver, driven } => self.mesh(*driver, *driven, true),
            Action::Part { driver, driven } => self.mesh(*driver, *driven, false),
            Action::HalfNuts { is, at } => {
                self.half_nuts(*is);
                self.nuts_at(*is, at);
            }
            Action::PowerFeed { is, slide } => self.power_feed(*is, *slide),
            Action::CrankPin { is } => self.crank_pin(*is),
            Action::StopPin { is } => self.stop_pin(*is),
            Action::Detent { is } => self.detent(*is),
            Action::Worm { is } => self.worm(*is),
            Action::TurnCrank { turns, holes, circle, way } => {
                self.turn_crank(*turns, *holes, *circle, *way);
            }
            Action::TurnPlate { holes, circle, way } => self.turn_plate(*holes, *circle, *way),
            Action::SetArms { circle, spaces } => self.set_arms(*circle, *spaces),
            Action::SwingArms => self.m.head.swung = true,
            Action::Swing { what, to, from, handle } => {
                self.swing(*what, Some(to.0), *from, *handle);
            }
            Action::SquareUp { what, to } => self.swing(*what, None, *to, Toward::Out),
            Action::SetOver { by, toward } => self.set_over(by.mm.to_f64(), *toward),
            Action::Adjust { what, angle, by, toward } => {
                self.adjust(*what, angle.map(|a| a.0.to_f64()), by.map(|l| l.mm.to_f64()), *toward);
            }
            Action::SetHeight { what, above } => self.set_height(*what, above.mm.to_f64()),
            Action::Touch { slide, toward, face, thick, .. } => {
                self.touch(*slide, *toward, *face, thick.map_or(0.0, |t| t.mm.to_f64()));
            }
            Action::Approach { slide, toward } => self.approach(*slide, *toward),
            Action::FindSlack { slide, .. } => self.find_slack(*slide),
            Action::Zero { slide, on } => self.zero(*slide, *on),
            Action::Wind { slide, to, by, toward, from, on } => {
                self.wind(*slide, to.as_ref(), *by, *toward, *from, *on);
            }
            Action::Feed { slide, toward, over, to, until, by, each_turn, beat } => {
                let asked = cut::Asked {
                    slide: *slide,
                    toward: *toward,
                    over: over.map(|l| l.mm.to_f64()),
                    to: *to,
                    until: *until,
                    by: *by,
                    each_turn: each_turn.map(|l| l.mm.to_f64()),
                    beat: *beat,
                };
                self.feed(&asked);
            }
            Action::Clear { slide, toward, by } => {
                self.clear(*slide, *toward, by.map(|l| l.mm.to_f64()));
            }
            Action::Look(statement) => self.look(statement),
            Action::Measure { what, with, should_be, up_to, is, fills } => {
                let mm = |length: &Option<Length>| length.map(|l| l.mm.to_f64());
                let should_be = mm(should_be);
                let should = should_be.map(|low| [low, mm(up_to).unwrap_or(low)]);
                self.measure(*what, *with, should, mm(is));
                // What it measures decides whether anything more is cut.
                self.m.unmeasured &= fills.is_none();
            }
            Action::Indicate { slide, over, should_be, is, .. } => {
                let (over, should_be) = (over.mm.to_f64(), should_be.mm.to_f64());
                self.indicate(*slide, over, should_be, is.map(|l| l.mm.to_f64()));
            }
            Action::Join { .. } => self.hands_at_work(false),
            Action::Try { .. } => self.tried_on(),
            Action::Clean { what } => self.tend(*what, false),
            Action::Deburr { what } => self.tend(*what, true),
            Action::Chalk { what } => self.chalk(*what),
            Action::Oil { what } => self.oil(*what),
            Action::MarkOut { .. } | Action::Wait { .. } => {}
        }
    }

    /// What was broken, in order.
    #[must_use]
    pub fn faults(&self) -> &[Fault] {
        &self.faults
    }

    /// The work as it is now.
    #[must_use]
    pub fn part(&self) -> &Part {
        &self.part
    }

    /// How far the work stands turned from where it was found, in turns forward.
    #[must_use]
    pub const fn work_angle(&self) -> crate::exact::Ratio {
        self.m.angle
    }

    /// Whether machine and part stand just as another's do, whatever led there.
    #[must_use]
    pub fn stands_as(&self, other: &Lathe) -> bool {
        self.m == other.m && self.part == other.part
    }

    /// The rules whose condition came up, with how often.
    pub fn met(&self) -> impl Iterator<Item = (Rule, u32)> + '_ {
        Rule::ALL.iter().copied().zip(self.met.iter().copied()).filter(|(_, n)| *n > 0)
    }

    /// A rule came up; whether it was broken.
    fn judge(&mut self, rule: Rule, broken: bool, detail: &'static str) {
        if let Some(met) = self.met.get_mut(rule as usize) {
            *met = met.saturating_add(1);
        }
        if broken {
            let (step, action) = (self.step.clone(), self.action);
            self.faults.push(Fault { rule, step, action, detail });
        }
    }

    /// Something must be known, and so.
    fn need(&mut self, known: Option<bool>, want: bool, rules: (Rule, Rule), detail: &'static str) {
        let (unknown, wrong) = rules;
        self.judge(unknown, known.is_none(), detail);
        if let Some(known) = known {
            self.judge(wrong, known != want, detail);
        }
    }
}

/// Carries steps out on the lathe of a shop, and looks at how it is left.
pub fn run<'a>(steps: impl IntoIterator<Item = (String, &'a [Action])>, shop: &Shop) -> Lathe {
    let mut lathe = Lathe::new(shop);
    for (id, actions) in steps {
        for action in actions {
            lathe.carry_out(&id, action);
        }
    }
    lathe.finish();
    lathe
}
