//! A look at something that must be so: false of what is known it is a fault, unknown it makes it known.

use super::slides::way;
use super::state::Lie;
use super::{Lathe, Rule, SAME};
use crate::exact::Ratio;
use crate::procedure::{
    Adjustable, Axis, Cleared, CutterStands, Face, InOut, Lockable, OnOff, OpenShut, Running,
    Spindle, Statement, Turning,
};

impl Lathe {
    /// What was known must be what is seen.
    fn see<T: PartialEq + Copy>(&mut self, known: Option<T>, is: T) -> Option<T> {
        let other = known.is_some_and(|known| known != is);
        self.judge(Rule::LookFalse, other, "it isn't so");
        Some(is)
    }

    pub(super) fn look(&mut self, statement: &Statement) {
        match statement {
            Statement::Supply { is } => {
                self.m.supply = self.see(self.m.supply, *is == OnOff::On);
                if *is == OnOff::Off && self.m.lathe.is_none() {
                    self.m.lathe = Some(Running::Stopped);
                }
            }
            Statement::Guard { is } => {
                self.m.guard_shut = self.see(self.m.guard_shut, *is == OpenShut::Shut);
            }
            Statement::Key { is } => {
                self.m.key_in = self.see(self.m.key_in, *is == InOut::In);
            }
            Statement::Spindle { of: Spindle::Lathe, is } => {
                self.m.lathe = self.see(self.m.lathe, *is);
            }
            Statement::Spindle { of: Spindle::Cutter, is } => {
                self.m.cutter_spindle = self.see(self.m.cutter_spindle, *is);
            }
            Statement::Lock { what, is } => {
                let known = self.see(self.m.lock(*what), *is == OnOff::On);
                if let Some(lock) = self.m.locks.get_mut(*what as usize) {
                    *lock = known;
                }
            }
            Statement::HalfNuts { is } => {
                self.m.nuts_in = self.see(self.m.nuts_in, *is == InOut::In);
            }
            Statement::PowerFeed { is } => {
                self.m.feed_in = self.see(self.m.feed_in, *is == InOut::In);
            }
            Statement::Tumbler { is } => self.m.tumbler = self.see(self.m.tumbler, *is),
            Statement::CrankPin { is, hole, circle } => {
                self.m.head.crank_in = self.see(self.m.head.crank_in, *is == InOut::In);
                self.stands_in(self.m.head.crank, *hole, *circle);
                if hole.is_some() {
                    let loose = self.m.lock(Lockable::Head) != Some(true);
                    self.judge(Rule::Idx003, loose, "at its place the head isn't clamped");
                    let back = self.m.head.way == Some(Turning::Back);
                    self.judge(
                        Rule::Idx002,
                        back,
                        "come to backwards: the slack lies on the other side",
                    );
                }
            }
            Statement::StopPin { is, hole, circle } => {
                self.m.head.stop_in = self.see(self.m.head.stop_in, *is == InOut::In);
                self.stands_in(self.m.head.plate_at, *hole, *circle);
            }
            Statement::Detent { is, tooth, of } => {
                self.m.detent_in = self.see(self.m.detent_in, *is == InOut::In);
                if let Some((tooth, of)) = tooth.zip(*of) {
                    let (lock, rule) = match self.m.in_head() {
                        true => (Lockable::Head, Rule::Idx009),
                        false => (Lockable::LatheSpindle, Rule::Idx022),
                    };
                    let loose = self.m.lock(lock) != Some(true);
                    self.judge(rule, loose, "at its place nothing but the detent holds the work");
                    let there = tooth.0.div(Ratio::from(u32::from(of))).ok();
                    let other = there.is_some_and(|there| apart(there, self.m.detent_at));
                    self.judge(Rule::LookFalse, other, "the detent stands in another tooth");
                }
            }
            Statement::Worm { is } => {
                self.m.head.worm = self.see(self.m.head.worm, *is == InOut::In);
                self.m.head.direct = *is == InOut::Out && self.m.head.own_gear;
            }
            Statement::PlateCreep { way } => {
                self.m.head.creep = self.see(self.m.head.creep, *way);
            }
            Statement::Dial { slide, reads, toward } => {
                let Some(side) = way(*slide, *toward) else {
                    self.judge(Rule::MoveWay, true, "that slide doesn't go that way");
                    return;
                };
                let Some(sled) = self.sled(*slide).copied() else { return };
                if let Some((length, zero)) = sled.length(reads).zip(sled.zero) {
                    let off = libm::fabs(sled.at - zero - side * length);
                    let other = off > 1e-4 || sled.mark_is_false(reads);
                    self.judge(Rule::LookFalse, other, "the dial stands elsewhere");
                } else {
                    self.judge(Rule::UnknownZero, true, "nought was never set");
                }
            }
            Statement::Cutter { is, off } => {
                self.stands(*is, off.map_or(0.0, |off| off.mm.to_f64()));
            }
            Statement::Tool(cutter) => {
                let other = self.m.cutter.as_ref().is_some_and(|c| {
                    c.shape != cutter.shape || c.at != cutter.at || c.axis != cutter.axis
                });
                self.judge(Rule::LookFalse, other, "another tool is mounted");
                if self.m.cutter.is_none() {
                    self.cutter(cutter);
                }
            }
            Statement::Work(work) => {
                let other = self.m.work.as_ref().is_some_and(|w| {
                    w.at != work.at || (w.out.is_some() && work.out.is_some() && w.out != work.out)
                });
                self.judge(Rule::LookFalse, other, "the work is held otherwise");
                if self.m.work.is_none() {
                    self.held(work);
                }
            }
            Statement::Lies { what, to } => self.lies(*what, *to),
            Statement::TailstockInLine => self.m.in_line = self.see(self.m.in_line, true),
            Statement::Height { what, above } => {
                let above = above.mm.to_f64();
                let known = match what {
                    Adjustable::Head | Adjustable::Work => self.m.head.height,
                    _ => self.m.tool_height,
                };
                let other = known.is_some_and(|known| libm::fabs(known - above) > SAME);
                self.judge(Rule::LookFalse, other, "it stands at another height");
                match what {
                    Adjustable::Head | Adjustable::Work => self.m.head.height = Some(above),
                    _ => self.m.tool_height = Some(above),
                }
                self.level();
            }
            Statement::Clears { what } => {
                if *what == Cleared::Behind {
                    self.m.record.behind = true;
                    return;
                }
                if *what != Cleared::Train {
                    self.at_rest(Rule::Gen009, "tried by hand while it turns");
                }
                if *what != Cleared::Train {
                    let against = self.m.clear == Some(false) && self.m.in_work;
                    self.judge(Rule::LookFalse, against, "the cutter stands in the work");
                    self.m.clear = self.m.clear.or(Some(true));
                }
                if *what == Cleared::Work && self.m.work_in_spindle() {
                    let lock = self.m.lock(Lockable::LatheSpindle);
                    let rules = (Rule::UnknownLock, Rule::MoveLocked);
                    self.need(
                        lock,
                        false,
                        rules,
                        "the spindle's lock as the work is turned through",
                    );
                }
                match what {
                    Cleared::Work => self.m.turned_through = true,
                    Cleared::Tool => self.m.tool_tried = true,
                    Cleared::Cutter => self.m.turned_through |= self.m.cutter_in_spindle(),
                    Cleared::Train | Cleared::Behind => {}
                }
            }
            Statement::Slack { slide, toward } => {
                let goes = way(*slide, *toward);
                self.judge(Rule::MoveWay, goes.is_none(), "that slide doesn't go that way");
                if let (Some(goes), Some(sled)) = (goes, self.sled_mut(*slide)) {
                    let other = sled.way * goes < 0.0;
                    sled.way = goes;
                    self.judge(Rule::LookFalse, other, "it was wound the other way last");
                }
            }
            Statement::Touches { face: Face::Barrel, .. } => {
                let unset = self.m.cone.over.is_none();
                self.judge(Rule::LookFalse, unset, "the tailstock was never set over to it");
            }
            Statement::Touches { .. } => {}
            Statement::TapHole => self.m.record.tap_hole = true,
            Statement::Square => {
                self.at_rest(Rule::Gen007, "looked at closely while it turns");
                self.m.record.die_square = true;
            }
            Statement::Pattern => {
                self.at_rest(Rule::Knu006, "the pattern is looked at while it turns");
                self.m.record.pattern = true;
            }
            Statement::CarriageCreep { toward } => self.creeps(*toward),
            Statement::Spaces { count, over } => self.look_spaces(*count, over.mm.to_f64()),
            Statement::FlanksSquare => self.flanks_square(),
            Statement::ChasingDial { wheel } => self.chasing_dial(*wheel),
            Statement::RunsTrue { .. } => self.m.saw_true = true,
        }
    }

    fn lies(&mut self, what: Adjustable, to: Axis) {
        match what {
            Adjustable::Compound => {
                let other =
                    !matches!(self.m.compound, Lie::Unknown) && self.m.compound != Lie::Lies(to);
                self.judge(Rule::LookFalse, other, "the compound lies otherwise");
                self.m.compound = Lie::Lies(to);
            }
            Adjustable::Head => self.m.head.axis = self.see(self.m.head.axis, to),
            Adjustable::Tailstock => self.m.in_line = self.see(self.m.in_line, true),
            Adjustable::Tool | Adjustable::Cutter | Adjustable::Work => {}
        }
    }

    fn stands_in(&mut self, at: Ratio, hole: Option<u16>, circle: Option<u16>) {
        let Some((hole, circle)) = hole.zip(circle) else { return };
        let there = Ratio::new(i128::from(hole), i128::from(circle)).ok();
        let other = there.is_none_or(|there| apart(there, at));
        self.judge(Rule::LookFalse, other, "the pin stands in another hole");
    }

    fn stands(&mut self, is: CutterStands, off: f64) {
        match is {
            CutterStands::Clear | CutterStands::BeyondEnd => {
                // What it only touches can be seen to be off; what is in the metal can't.
                self.m.clear = self.see(self.m.clear, true);
            }
            CutterStands::OverFirst | CutterStands::OppositeFirst => {
                // How the work was turned when the first mark was cut.
                let first = self.m.first_cut.unwrap_or_default();
                let half = is == CutterStands::OppositeFirst;
                let there = if half { first.add(Ratio::of(1, 2)) } else { Ok(first) };
                let apart = there.and_then(|there| self.m.angle.sub(there));
                let other = apart.is_ok_and(|turns| {
                    let over = turns.sub(Ratio::new(turns.round(), 1).unwrap_or_default());
                    let turns = libm::fabs(over.unwrap_or_default().to_f64());
                    let rim = turns * core::f64::consts::TAU * self.outermost().unwrap_or(0.0);
                    rim > off + SAME
                });
                self.judge(Rule::LookFalse, other, "the cutter stands at another place");
            }
            CutterStands::InGroove | CutterStands::InRunOut => {}
        }
    }
}

/// Whether two angles in turns aren't the same place.
fn apart(a: Ratio, b: Ratio) -> bool {
    !a.sub(b).is_ok_and(Ratio::is_whole)
}
