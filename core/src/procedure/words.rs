//! Actions in words: the one place that makes them.
//!
//! What belongs together stands on one line: pins and crank, locks, looks. Changing any field of an action
//! changes its words.

use super::action::{Chalked, Cleared, CutterStands, Pin};
use super::term::{
    Adjustable, CutterAt, FeedBy, Gauge, GearOn, InOut, OnOff, OpenShut, Running, Screwed, Slide,
    Spindle, Toward, Turned, TurnedBy, Turning, Until, WaitFor, WorkAt,
};
use super::value::{Beat, Length, Number, Reading};
use super::{Action, Cutter, Gear, Item, Line, Setting, Span, Statement, Work};
use crate::exact::Ratio;
use crate::quantity::show;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// What to do, a sentence or two a line.
#[must_use]
pub fn lines(actions: &[Action]) -> Vec<Line> {
    let mut lines: Vec<Line> = Vec::new();
    let mut before: Option<Group> = None;
    for action in actions {
        let group = Group::of(action);
        let mut said = Sentence::of(action);
        match lines.last_mut().filter(|_| group.is_some() && before == group) {
            Some(line) => {
                line.push(Span::Word(String::from(" ")));
                line.append(&mut said.spans);
            }
            None => lines.push(said.spans),
        }
        before = group;
    }
    lines.iter().map(|line| joined(line)).collect()
}

/// Neighbouring words as one run.
fn joined(line: &[Span]) -> Line {
    let mut out: Line = Vec::new();
    for span in line {
        match (out.last_mut(), span) {
            (Some(Span::Word(before)), Span::Word(text)) => before.push_str(text),
            _ => out.push(span.clone()),
        }
    }
    out
}

/// What stands on one line with its like.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Group {
    Supply,
    Lock,
    Index,
    Look,
    Tend,
    Withdraw,
}

impl Group {
    fn of(action: &Action) -> Option<Group> {
        Some(match action {
            Action::Isolate | Action::Energise | Action::Guard { .. } | Action::Key { .. } => {
                Group::Supply
            }
            Action::Lock { .. } | Action::Unlock { .. } => Group::Lock,
            Action::CrankPin { .. }
            | Action::StopPin { .. }
            | Action::Detent { .. }
            | Action::TurnCrank { .. }
            | Action::TurnPlate { .. }
            | Action::TurnByHand { .. }
            | Action::TurnIn { .. }
            | Action::TurnOut { .. }
            | Action::SwingArms => Group::Index,
            Action::Look(_) => Group::Look,
            Action::Clean { .. } | Action::Oil { .. } | Action::Deburr { .. } => Group::Tend,
            Action::Clear { .. } | Action::Spindle { is: Running::Stopped, .. } => Group::Withdraw,
            _ => return None,
        })
    }
}

/// A sentence under way.
#[derive(Default)]
struct Sentence {
    spans: Line,
}

impl Sentence {
    fn of(action: &Action) -> Sentence {
        let mut said = Sentence::default();
        said.action(action);
        said
    }

    fn word(&mut self, text: &str) -> &mut Sentence {
        if !text.is_empty() {
            self.spans.push(Span::Word(String::from(text)));
        }
        self
    }

    fn figure(&mut self, text: impl Into<String>) -> &mut Sentence {
        self.spans.push(Span::Figure(text.into()));
        self
    }

    fn length(&mut self, length: Length) -> &mut Sentence {
        self.figure(length.words())
    }

    /// The first letter made large.
    fn capital(&mut self, text: &str) -> &mut Sentence {
        let mut letters = text.chars();
        let first = letters.next().map(|c| c.to_uppercase().to_string()).unwrap_or_default();
        self.word(&format!("{first}{}", letters.as_str()))
    }

    fn action(&mut self, action: &Action) {
        match action {
            Action::Isolate => self.word("Isolate: the supply off at its switch."),
            Action::Energise => self.word("Supply on."),
            Action::Guard { is: OpenShut::Shut } => self.word("Guard shut."),
            Action::Guard { is: OpenShut::Open } => self.word("Guard open."),
            Action::Key { is: InOut::Out } => self.word("Key out."),
            Action::Key { is: InOut::In } => self.word("Key in."),
            Action::Mount(item) => self.mount(item),
            Action::Remove(item) => self.remove(item),
            Action::Set(setting) => self.set(setting),
            Action::Spindle { of, is } => self.spindle(*of, *is),
            Action::TurnByHand { what, by, way, turns, teeth, of } => {
                self.turned(*what, *by, *way, *turns, (*teeth, *of))
            }
            Action::TurnIn { what, by, over, until, forward, back, follows } => {
                self.turned_in(*what, *by, (*over, *until), (*forward, *back), *follows)
            }
            Action::TurnOut { what, by } => {
                self.word("Turn back ").word(by.words()).word(" until ").word(what.words());
                self.word(" is out.")
            }
            Action::MarkOut { from_edge } => {
                self.word("Mark the middle of the hole ").length(*from_edge);
                self.word(" from the edge, and punch it.")
            }
            Action::Lock { what } => self.word("Lock ").word(what.words()).word("."),
            Action::Unlock { what } => self.word("Unlock ").word(what.words()).word("."),
            Action::Mesh { driver, driven } => {
                self.word("Bring ").gear(*driver);
                self.word(" into mesh with ").gear(*driven).word(", a slip of paper between.")
            }
            Action::Part { driver, driven } => {
                self.word("Bring ").gear(*driver);
                self.word(" out of mesh with ").gear(*driven).word(".")
            }
            Action::DriveByHand { what, by, way, over, until } => {
                self.word("Turn ").word(what.words()).word(" ").word(way.words()).word(" ");
                self.word(by.words()).word(", until the carriage has gone ").length(*over);
                match until {
                    Some(until) => self.word(", ").word(until.words()).word("."),
                    None => self.word("."),
                }
            }
            Action::HalfNuts { is, at } => self.half_nuts(*is, at),
            Action::PowerFeed { is, slide } => {
                let engaged = if *is == InOut::In { "Engage" } else { "Throw out" };
                self.word(engaged).word(" the power feed of ").word(slide.words()).word(".")
            }
            Action::CrankPin { is } => self.word("Crank's pin ").word(is.words()).word("."),
            Action::StopPin { is } => self.word("Plate's stop pin ").word(is.words()).word("."),
            Action::Detent { is } => self.word("Detent ").word(is.words()).word("."),
            Action::Worm { is: InOut::In } => self.word("Worm into mesh, and locked there."),
            Action::Worm { is: InOut::Out } => self.word("Worm out of mesh."),
            Action::TurnCrank { turns, holes, circle, way } => {
                self.word("Crank ").word(way.words()).word(" ");
                self.moved(*turns, *holes, *circle).word(".")
            }
            Action::TurnPlate { holes, circle, way } => {
                self.word("Plate and crank together ").word(way.words()).word(" ");
                self.moved(0, *holes, Some(*circle)).word(".")
            }
            Action::SetArms { circle, spaces } => {
                let holes = spaces.saturating_add(1);
                self.word("Sector arms over the ").figure(circle.to_string()).word(": ");
                self.figure(spaces.to_string()).word(if *spaces == 1 {
                    " space, "
                } else {
                    " spaces, "
                });
                self.figure(holes.to_string()).word(" holes with the pin's own. Lock the arms.")
            }
            Action::SwingArms => self.word("Arms on to the pin."),
            Action::Swing { what, to, from, handle } => {
                self.word("Swing ").word(what.words()).word(" to ").figure(show::angle(to.0));
                self.word(" from lying ").word(from.words());
                let end = if *what == Adjustable::Head { ", its nose " } else { ", its handle " };
                self.word(end).word(handle.words()).word("; clamp it.")
            }
            Action::SquareUp { what, to } => {
                self.word("Set ").word(what.words()).word(" square, to lie ");
                self.word(to.words()).word("; clamp it.")
            }
            Action::SetOver { by, toward } if by.mm.is_zero() => {
                self.word("Set the tailstock back in line, from ").word(toward.words()).word(".")
            }
            Action::SetOver { by, toward } => {
                self.word("Set the tailstock over by ").length(*by).word(", ");
                self.word(across(*toward)).word("; clamp it.")
            }
            Action::Adjust { what, angle, by, toward } => {
                let handle = matches!(what, Adjustable::Compound);
                self.word(if angle.is_some() { "Swing " } else { "Move " }).word(what.words());
                if let Some(angle) = angle {
                    self.word(" by ").figure(show::angle(angle.0));
                }
                if let Some(by) = by {
                    self.word(" by ").length(*by);
                }
                self.word(" from where it is, ");
                if handle {
                    self.word("its handle ").word(toward.words());
                } else {
                    self.word(across(*toward));
                }
                self.word("; clamp it.")
            }
            Action::SetHeight { what, above } if above.mm.is_zero() => {
                self.word("Set ").word(what.words()).word(" to centre height.")
            }
            Action::SetHeight { what, above } => {
                self.word("Set ").word(what.words()).word(" ").height(*above).word(".")
            }
            Action::Touch { slide, toward, face, between, thick } => {
                self.capital(slide.words()).word(" ").word(way(*slide, *toward));
                self.word(" to ").word(face.words()).word(", until ").word(between.words());
                match thick {
                    Some(thick) => self.word(": that is ").length(*thick).word(" off."),
                    None => self.word("."),
                }
            }
            Action::Approach { slide, toward } => {
                self.word("Wind ").word(slide.words()).word(" ").word(way(*slide, *toward));
                self.word(" to where it is to begin, one way only.")
            }
            Action::FindSlack { slide, should_be } => {
                self.word("Wind ").word(slide.words());
                self.word(" one way until the indicator moves, set its dial to ").figure("0");
                self.word(", and wind back until the indicator just moves again: what the dial shows is the slack");
                if let Some(should) = should_be {
                    self.word("; it was ").length(*should);
                }
                self.word(".")
            }
            Action::Zero { slide, on: Gauge::Dial } => {
                self.word("Set the dial of ").word(slide.words()).word(" to ").figure("0").word(".")
            }
            Action::Zero { slide, on: Gauge::Indicator } => {
                self.word("An indicator against ").word(slide.words());
                self.word(", its plunger along the travel: set it to ").figure("0").word(".")
            }
            Action::Zero { slide, on: Gauge::Rule } => {
                self.word("Take ").figure("0").word(" on a rule from where ");
                self.word(slide.words()).word(" stands.")
            }
            Action::Zero { slide, on: Gauge::Stop } => {
                self.word("Set the stop of ").word(slide.words()).word(" where it stands.")
            }
            Action::Wind { slide, to, by, toward, from, on } => {
                self.wind(*slide, (*to, *by), *toward, *from, *on)
            }
            Action::Feed { slide, toward, over, to, until, by, each_turn, beat } => {
                self.capital(match by {
                    FeedBy::Hand => "feed ",
                    FeedBy::Power => "by power, feed ",
                    FeedBy::Leadscrew => "by the leadscrew, ",
                    FeedBy::TapWrench => "by the tap wrench, ",
                });
                self.word(slide.words()).word(" ").word(way(*slide, *toward));
                if let Some(over) = over {
                    self.word(" by ").length(*over);
                }
                if let Some(to) = to {
                    self.word(" to ").reading(*to);
                }
                if let Some(until) = until {
                    self.word(" ").word(until.words());
                }
                if let Some(each) = each_turn {
                    self.word(", ").length(*each).word(" a turn");
                }
                if let Some(beat) = beat {
                    self.word(", ").beat(*beat);
                }
                self.word(".")
            }
            Action::Clear { slide, toward, by } => {
                self.capital(slide.words()).word(" ").word(way(*slide, *toward)).word(", clear");
                if let Some(by) = by {
                    self.word(" by ").length(*by);
                }
                self.word(".")
            }
            Action::Look(statement) => self.word("Look: ").statement(statement).word("."),
            Action::Measure { what, with, should_be, up_to, is, fills } => {
                self.word("Measure ").word(what.words()).word(" with ").word(with.words());
                if let Some(should) = should_be {
                    self.word(": it should be ").length(*should);
                }
                if let Some(up_to) = up_to {
                    self.word(" to ").length(*up_to);
                }
                if let Some(is) = is {
                    self.word("; it was found to be ").length(*is);
                }
                match (is, fills) {
                    (Some(_), Some(entry)) => self.word(", entered as ").entry(entry),
                    (None, Some(entry)) => self.word(". Enter what it is as ").entry(entry),
                    (_, None) => self,
                }
                .word(".")
            }
            Action::Indicate { slide, over, reads, should_be, is, fills } => {
                self.word("Take the lost motion out of ").word(slide.words());
                self.word(", set the indicator to 0, and wind on the same way by ").length(*over);
                if let Some(reading) = reads {
                    self.word(" (its dial: ").reading(*reading).word(")");
                }
                self.word(": it should move by ").length(*should_be);
                if let Some(is) = is {
                    self.word("; it moved by ").length(*is);
                }
                match (is, fills) {
                    (Some(_), Some(entry)) => self.word(", entered as ").entry(entry),
                    (None, Some(entry)) => self.word(". Enter what it moves by as ").entry(entry),
                    (_, None) => self,
                }
                .word(".")
            }
            Action::Join { how, warmer } => {
                if let Some(Number(by)) = warmer {
                    self.word("Make the outer part evenly warmer by ");
                    self.figure(format!("{} °C", show::trimmed(*by, 0))).word(". ");
                }
                self.word("Put them together ").word(how.words()).word(".")
            }
            Action::Try { with } => self.word("Try it with ").word(with.words()).word("."),
            Action::Clean { what } => self.word("Clean ").word(what.words()).word("."),
            Action::Oil { what } => self.word("Oil ").word(what.words()).word("."),
            Action::Deburr { what } => self.word("Take the burr off ").word(what.words()).word("."),
            Action::Chalk { what: Chalked::Cone } => {
                self.word("Draw three thin lines of blue along the cone.")
            }
            Action::Chalk { what } => {
                let place = match what {
                    Chalked::Detent => "Chalk the tooth that the detent is in: that is ",
                    Chalked::CrankPin => "Chalk the hole that the crank's pin is in: that is ",
                    Chalked::StopPin => "Chalk the hole that the stop pin is in: that is ",
                    Chalked::Mesh => {
                        "Chalk the first driver's tooth that is in mesh, and its gap: that is "
                    }
                    Chalked::Work | Chalked::Cone => {
                        "Mark the work in front of the cutter: that is "
                    }
                };
                self.word(place).figure("0").word(".")
            }
            Action::Wait { until: WaitFor::Cool } => {
                self.word("Wait until the work is as cool as the room.")
            }
            Action::Wait { until } => self.word("Wait ").word(until.words()).word("."),
        };
    }

    /// An entry by its name, a space where its key has an underscore.
    fn entry(&mut self, key: &str) -> &mut Sentence {
        self.word(&show::unmarked(&key.replace('_', " ")))
    }

    /// `1 turn and 5 spaces of the 18`.
    fn moved(&mut self, turns: u32, holes: u16, circle: Option<u16>) -> &mut Sentence {
        if turns > 0 {
            self.figure(turns.to_string()).word(match (turns, holes) {
                (1, 0) => " whole turn",
                (_, 0) => " whole turns",
                (1, _) => " turn and ",
                _ => " turns and ",
            });
        }
        if holes > 0 || turns == 0 {
            self.figure(holes.to_string()).word(if holes == 1 { " space" } else { " spaces" });
        }
        if let Some(circle) = circle {
            self.word(" on the ").figure(circle.to_string());
        }
        self
    }

    fn gear(&mut self, gear: Gear) -> &mut Sentence {
        match gear.teeth {
            Some(teeth) => self.word("the ").figure(teeth.to_string()),
            None => self.word("an idler"),
        };
        self.word(" on ").word(gear.on.words())
    }

    fn height(&mut self, above: Length) -> &mut Sentence {
        let side =
            if above.mm.is_negative() { " below centre height" } else { " above centre height" };
        self.length(Length { mm: above.mm.abs(), ..above }).word(side)
    }

    fn reading(&mut self, reading: Reading) -> &mut Sentence {
        let n = |n: u64, one: &str| format!("{n} {one}{}", if n == 1 { "" } else { "s" });
        match (reading.turns, reading.lines) {
            (0, lines) => self.figure(n(lines, "line")),
            (turns, 0) => self.figure(n(turns, "turn")),
            (turns, lines) => self.figure(format!("{} + {lines}", n(turns, "turn"))),
        };
        if let Some(mark) = reading.mark {
            match mark == reading.lines {
                true => self.word(" (").figure(mark.to_string()).word(" at the mark)"),
                false => self.word(": ").figure(mark.to_string()).word(" at the mark"),
            };
        }
        if let Some(Number(part)) = reading.beyond {
            let line = show::trimmed(part.abs(), 2);
            match part.is_negative() {
                true => self.word(", stopping ").figure(line).word(" of a line short of it"),
                false => self.word(", and ").figure(line).word(" of a line beyond it"),
            };
        }
        self
    }

    fn beat(&mut self, beat: Beat) -> &mut Sentence {
        let seconds = show::trimmed(beat.seconds.0, 1);
        self.figure(turn_words(beat.turn.0)).word(" of the handwheel in ");
        self.figure(format!("{seconds} s"))
    }

    fn wind(
        &mut self,
        slide: Slide,
        (to, by): (Option<Reading>, Option<Length>),
        toward: Toward,
        from: Toward,
        on: Gauge,
    ) -> &mut Sentence {
        self.word("Wind ").word(slide.words()).word(" to ");
        if let Some(to) = to {
            self.reading(to);
        }
        if let Some(by) = by {
            self.length(by);
        }
        match to.is_some_and(|to| to.turns == 0 && to.lines == 0) && by.is_none() {
            true => self.word(" by "),
            false => self.word(", ").word(way(slide, toward)).word(" of 0 by "),
        };
        self.word(on.words()).word("; come up to it from ").word(side(from)).word(".")
    }

    fn turned(
        &mut self,
        what: Turned,
        by: TurnedBy,
        way: Turning,
        turns: Option<Number>,
        (teeth, of): (Option<Number>, Option<u16>),
    ) -> &mut Sentence {
        self.word("Turn ")
            .word(what.words())
            .word(" ")
            .word(way.words())
            .word(" ")
            .word(by.words());
        if let Some(Number(turns)) = turns {
            let one = turns == Ratio::ONE;
            self.word(", ").figure(turn_words(turns).replace(" turn", ""));
            self.word(if one { " turn" } else { " turns" });
        }
        if let Some(Number(teeth)) = teeth {
            self.word(", ").figure(halves(teeth));
            self.word(if teeth == Ratio::ONE { " tooth" } else { " teeth" });
        }
        if let Some(of) = of {
            self.word(" of the ").figure(of.to_string());
        }
        self.word(".")
    }

    fn turned_in(
        &mut self,
        what: Screwed,
        by: TurnedBy,
        (over, until): (Option<Length>, Option<Until>),
        (forward, back): (Number, Number),
        follows: Option<Slide>,
    ) -> &mut Sentence {
        self.word("Turn ").word(what.words()).word(" in ").word(by.words()).word(": ");
        self.figure(turn_words(forward.0)).word(" on, ").figure(turn_words(back.0)).word(" back");
        if let Some(over) = over {
            self.word(", by ").length(over).word(" in all");
        }
        if let Some(until) = until {
            self.word(", ").word(until.words());
        }
        if let Some(slide) = follows {
            self.word("; ").word(slide.words()).word(" follows by hand");
        }
        self.word(".")
    }

    fn half_nuts(&mut self, is: InOut, at: &[u32]) -> &mut Sentence {
        if is == InOut::Out {
            self.word("Half-nuts open");
        } else {
            self.word("Close the half-nuts");
        }
        if !at.is_empty() {
            let marks: Vec<String> = at.iter().map(u32::to_string).collect();
            self.word(" at mark ").figure(marks.join(", ")).word(" of the chasing dial");
        }
        self.word(".")
    }

    fn spindle(&mut self, of: Spindle, is: Running) -> &mut Sentence {
        self.word(match (of, is) {
            (Spindle::Lathe, Running::Stopped) => "Stop the lathe spindle; wait until it stands.",
            (Spindle::Lathe, Running::Forward) => "Start the lathe spindle, forward.",
            (Spindle::Lathe, Running::Reverse) => "Start the lathe spindle, in reverse.",
            (Spindle::Cutter, Running::Stopped) => "Stop the cutter; wait until it stands.",
            (Spindle::Cutter, Running::Forward) => "Start the cutter.",
            (Spindle::Cutter, Running::Reverse) => "Start the cutter, in reverse.",
        })
    }

    fn set(&mut self, setting: &Setting) -> &mut Sentence {
        let how = |said: &mut Sentence, how: &Option<String>| {
            if let Some(how) = how {
                said.word(": ").word(&show::unmarked(how));
            }
        };
        match setting {
            Setting::Speed { rpm, how: word } => {
                self.word("Set ").figure(format!("{rpm} rpm"));
                how(self, word);
            }
            Setting::CutterSpeed { rpm } => {
                self.word("Set the cutter's spindle to ").figure(format!("{rpm} rpm"));
            }
            Setting::Feed { each_turn, how: word } => {
                self.word("Set the feed to ").length(*each_turn).word(" a turn");
                how(self, word);
            }
            Setting::Gearbox { ratio, how: word } => {
                self.word("Set the gearbox to ").figure(ratio_words(ratio.0));
                how(self, word);
            }
            Setting::Lead { each_turn } => {
                self.word("Set the lathe, by its own plate, for a lead of ").length(*each_turn);
            }
            Setting::Tumbler { is } => {
                self.word("Set the tumbler ").word(is.words());
            }
            Setting::BackGear { is } => {
                self.word("Back gear ").word(is.words());
            }
            Setting::Die { is: OpenShut::Open } => {
                self.word("Open the split die by its screw");
            }
            Setting::Die { is: OpenShut::Shut } => {
                self.word("Close the split die to size by its screw");
            }
        }
        self.word(".")
    }

    fn mount(&mut self, item: &Item) -> &mut Sentence {
        match item {
            Item::Work(work) => self.word("Hold the work").held(work),
            Item::Cutter(cutter) => self.word("Mount ").cutter(cutter),
            Item::Gear(gear) => self.word("Put on ").gear(*gear),
            Item::Plate { .. } => self.word("Put on ").plate(item),
            Item::Pin { pin, circle } => {
                self.word(pin_words(*pin)).word(" to the circle of ").figure(circle.to_string())
            }
            Item::Head { axis } => self
                .word("Mount the dividing head on the cross slide, its axis ")
                .word(axis.words()),
            Item::Holder { .. } => self.word("Mount ").holder(item),
            Item::Fitting { which } => self.word("Put on ").word(which.words()),
        }
        .word(".")
    }

    fn remove(&mut self, item: &Item) -> &mut Sentence {
        match item {
            Item::Work(work) => self.word("Take the work out").held(work),
            Item::Cutter(cutter) => self.word("Take off ").cutter(cutter),
            Item::Gear(gear) => self.word("Take off ").gear(*gear),
            Item::Plate { .. } => self.word("Take off ").plate(item),
            Item::Pin { pin, circle } => {
                self.word(pin_words(*pin)).word(" off the circle of ").figure(circle.to_string())
            }
            Item::Head { axis } => {
                self.word("Take off the dividing head that lies ").word(axis.words())
            }
            Item::Holder { .. } => self.word("Take off ").holder(item),
            Item::Fitting { which } => self.word("Take off ").word(which.words()),
        }
        .word(".")
    }

    fn plate(&mut self, item: &Item) -> &mut Sentence {
        let Item::Plate { on, number, circles } = item else { return self };
        match number {
            Some(number) => self.word("plate ").figure(number.to_string()),
            None => self.word("the plate"),
        };
        let circles: Vec<String> = circles.iter().map(u16::to_string).collect();
        if !circles.is_empty() {
            self.word(" (").word(&circles.join(", ")).word(")");
        }
        if *on != GearOn::PlateShaft {
            self.word(" on ").word(on.words());
        }
        self
    }

    fn holder(&mut self, item: &Item) -> &mut Sentence {
        let Item::Holder { name, kind, on } = item else { return self };
        self.figure(show::unmarked(name));
        if let Some(kind) = kind {
            self.word(", a ").word(kind.words()).word(",");
        }
        self.word(" on ").word(on.words())
    }

    /// How work is held, and its sizes.
    fn held(&mut self, work: &Work) -> &mut Sentence {
        self.word(match work.at {
            WorkAt::LatheSpindle => " in the lathe spindle",
            WorkAt::Head => " in the head",
            WorkAt::CrossSlide => " on the cross slide",
            WorkAt::Centres => " between centres",
            WorkAt::Bench => " in the bench vice",
        });
        if let Some(holder) = &work.holder {
            self.word(", by the ").figure(show::unmarked(holder));
        }
        if let Some(kind) = work.holder_kind {
            self.word(if work.holder.is_some() { " (" } else { ", by a " }).word(kind.words());
            self.word(if work.holder.is_some() { ")" } else { "" });
        }
        if let Some(by) = &work.gripped_by {
            self.word(", gripped by ").word(&show::unmarked(by));
        }
        let mut sized = |before: &str, length: Option<Length>, after: &str| {
            if let Some(length) = length {
                self.word(before).length(length).word(after);
            }
        };
        sized(", Ø ", work.gripped, " in its grip");
        sized(", over ", work.grip, " at least");
        sized(", ", work.out, " standing out");
        sized(", Ø ", work.diameter, " where it is cut");
        sized(", its hole Ø ", work.bore, "");
        sized(", ", work.bore_depth, " deep");
        sized(", a groove ", work.groove, " wide");
        sized(" from ", work.groove_at, " behind its end");
        sized(" and Ø ", work.groove_diameter, " in it");
        sized(", ", work.shoulder, " from its end to the shoulder");
        sized(", chamfered to Ø ", work.chamfer, "");
        sized(", on it a thread with a lead of ", work.lead, "");
        sized(", ", work.length, " long");
        if let Some(parts) = work.parts {
            self.word(", ").figure(parts.to_string());
            self.word(" parts clamped together as they are to sit");
        }
        if let Some(winding) = work.winding {
            self.word(", ").word(winding.words());
        }
        if let Some(stock) = &work.stock {
            self.word(", of ").word(&stock.replace('-', " "));
        }
        self
    }

    fn cutter(&mut self, cutter: &Cutter) -> &mut Sentence {
        match &cutter.name {
            Some(name) => {
                self.word("the ")
                    .figure(show::unmarked(name))
                    .word(" (")
                    .word(cutter.shape.words());
                self.word(")")
            }
            None => self.word("the ").word(cutter.shape.words()),
        };
        if let Some(diameter) = cutter.diameter {
            self.word(", Ø ").length(diameter);
        }
        if let Some(width) = cutter.width {
            self.word(", ").length(width).word(" wide");
        }
        if let Some(angle) = cutter.angle {
            self.word(", ").figure(show::angle(angle.0));
        }
        if let Some(teeth) = cutter.teeth {
            self.word(", ").figure(teeth.to_string());
            self.word(if teeth == 1 { " tooth" } else { " teeth" });
        }
        if let Some(material) = &cutter.material {
            self.word(", of ").word(&material.replace('-', " "));
        }
        if let Some(thread) = &cutter.thread {
            self.word(", ").figure(show::unmarked(thread));
        }
        if let Some(pitch) = cutter.pitch {
            self.word(", ").length(pitch).word(" pitch");
        }
        self.word(match cutter.at {
            CutterAt::Hand => " by hand",
            _ => " in ",
        });
        if cutter.at != CutterAt::Hand {
            self.word(cutter.at.words());
        }
        if let Some(holder) = &cutter.holder {
            self.word(", held in ").word(&show::unmarked(holder));
        }
        if let Some(axis) = cutter.axis {
            self.word(", its axis ").word(axis.words());
        }
        if let Some(out) = cutter.out {
            self.word(", at most ").length(out).word(" standing out");
        }
        self
    }

    fn statement(&mut self, statement: &Statement) -> &mut Sentence {
        match statement {
            Statement::Supply { is: OnOff::On } => self.word("the supply is on"),
            Statement::Supply { is: OnOff::Off } => self.word("the supply is isolated"),
            Statement::Guard { is } => self.word("the guard is ").word(is.words()),
            Statement::Key { is } => self.word("the key is ").word(is.words()),
            Statement::Spindle { of, is: Running::Stopped } => {
                self.word(of.words()).word(" stands still")
            }
            Statement::Spindle { of, is } => self.word(of.words()).word(" runs ").word(is.words()),
            Statement::Lock { what, is: OnOff::On } => self.word(what.words()).word(" locked"),
            Statement::Lock { what, is: OnOff::Off } => self.word(what.words()).word(" free"),
            Statement::HalfNuts { is: InOut::In } => self.word("half-nuts closed"),
            Statement::HalfNuts { is: InOut::Out } => self.word("half-nuts open"),
            Statement::PowerFeed { is: InOut::In } => self.word("power feed engaged"),
            Statement::PowerFeed { is: InOut::Out } => self.word("power feed out"),
            Statement::Tumbler { is } => self.word("the tumbler stands ").word(is.words()),
            Statement::CrankPin { is, hole, circle } => {
                self.word("crank's pin ").word(if *is == InOut::In { "home" } else { "out" });
                self.hole(*hole, *circle)
            }
            Statement::StopPin { is, hole, circle } => {
                self.word("stop pin ").word(if *is == InOut::In { "home" } else { "out" });
                self.hole(*hole, *circle)
            }
            Statement::Detent { is, tooth, of } => {
                self.word("detent ").word(if *is == InOut::In { "home" } else { "out" });
                if let Some(Number(tooth)) = tooth {
                    self.word(" in tooth ").figure(halves(*tooth));
                }
                if let Some(of) = of {
                    self.word(" of the ").figure(of.to_string());
                }
                self
            }
            Statement::Worm { is: InOut::In } => self.word("the worm is in mesh"),
            Statement::Worm { is: InOut::Out } => self.word("the worm is out of mesh"),
            Statement::PlateCreep { way } => {
                self.word("while the crank goes forward the plate creeps ");
                self.word(match way {
                    Turning::Forward => "with it",
                    Turning::Back => "against it",
                })
            }
            Statement::Dial { slide, reads, toward } => {
                self.word("the dial of ").word(slide.words()).word(" stands at ").reading(*reads);
                self.word(", ").word(way(*slide, *toward)).word(" of 0")
            }
            Statement::Cutter { is, off } => {
                self.word(match is {
                    CutterStands::Clear => "the cutter is clear of the work",
                    CutterStands::OverFirst => "the cutter stands over the first cut",
                    CutterStands::OppositeFirst => {
                        "the first cut is straight across from the cutter"
                    }
                    CutterStands::InGroove => "the tool is in the groove that is cut",
                    CutterStands::BeyondEnd => "the tool is beyond the end of the work",
                    CutterStands::InRunOut => "the tool is in the groove where the pass ends",
                });
                if let Some(off) = off {
                    self.word(", within ").length(*off);
                }
                self
            }
            Statement::Tool(cutter) => self.cutter(cutter),
            Statement::Work(work) => self.word("the work is held").held(work),
            Statement::Lies { what, to } => self.word(what.words()).word(" lies ").word(to.words()),
            Statement::TailstockInLine => self.word("the tailstock is in line with the spindle"),
            Statement::Height { what, above } if above.mm.is_zero() => {
                self.word(what.words()).word(" is at centre height")
            }
            Statement::Height { what, above } => {
                self.word(what.words()).word(" is ").height(*above)
            }
            Statement::Clears { what } => self.word(match what {
                Cleared::Work => "the work and its holder clear everything, a whole turn by hand",
                Cleared::Cutter => "the cutter clears everything, a whole turn by hand",
                Cleared::Tool => "the tool clears everything along the whole of the cut, by hand",
                Cleared::Train => "the gears turn freely, a whole turn by hand",
                Cleared::Behind => "there is room behind the work for the drill's point",
            }),
            Statement::CarriageCreep { toward } => {
                self.word("the carriage creeps ").word(toward.words());
                self.word(" while the spindle is turned forward")
            }
            Statement::Spaces { count, over } => {
                self.figure(count.to_string());
                self.word(if *count == 1 { " space" } else { " spaces" });
                self.word(", line to line along the work, ");
                self.word(if *count == 1 { "comes to " } else { "come to " }).length(*over)
            }
            Statement::FlanksSquare => {
                self.word("the tool's flanks stand square to the work by the gauge")
            }
            Statement::ChasingDial { wheel } => {
                self.word("the chasing dial is the one whose wheel has ");
                self.figure(wheel.to_string()).word(" teeth")
            }
            Statement::Slack { slide, toward } => {
                self.word(slide.words()).word(" was wound ").word(way(*slide, *toward));
                self.word(" last, its slack taken up")
            }
            Statement::Touches { face, between } => {
                self.word("at ").word(face.words()).word(" ").word(between.words()).word(" again")
            }
            Statement::TapHole => self.word(
                "the hole is of the size for this tap, deeper than the thread, its mouth sunk",
            ),
            Statement::Square => self.word("it stands square to the work's end"),
            Statement::Pattern => self.word("the pattern is single all round, not doubled"),
            Statement::RunsTrue { within } => self.word("it runs true within ").length(*within),
        }
    }

    fn hole(&mut self, hole: Option<u16>, circle: Option<u16>) -> &mut Sentence {
        if let Some(hole) = hole {
            self.word(" in hole ").figure(hole.to_string());
        }
        if let Some(circle) = circle {
            self.word(" of the ").figure(circle.to_string());
        }
        self
    }
}

/// A way as it is said of a slide.
fn way(slide: Slide, toward: Toward) -> &'static str {
    match (slide, toward) {
        (Slide::Cross, Toward::In) => "in, away from you",
        (Slide::Cross, Toward::Out) => "out, toward you",
        _ => toward.words(),
    }
}

/// The side from which a slide comes.
fn side(from: Toward) -> &'static str {
    match from {
        Toward::In => "the inner side",
        Toward::Out => "the outer side",
        Toward::Headstock => "the headstock's side",
        Toward::Tailstock => "the tailstock's side",
        Toward::Up => "above",
        Toward::Down => "below",
    }
}

/// Across the bed.
fn across(toward: Toward) -> &'static str {
    match toward {
        Toward::In => "away from you",
        Toward::Out => "toward you",
        other => other.words(),
    }
}

fn pin_words(pin: Pin) -> &'static str {
    match pin {
        Pin::Crank => "Crank's pin",
        Pin::Stop => "Plate's stop pin",
    }
}

/// Whole teeth, and a half: `7½`.
fn halves(teeth: Ratio) -> String {
    let whole = teeth.floor();
    let half = teeth.sub(Ratio::new(whole, 1).unwrap_or(Ratio::ZERO));
    match half {
        Ok(half) if half == Ratio::of(1, 2) && whole == 0 => String::from("½"),
        Ok(half) if half == Ratio::of(1, 2) => format!("{whole}½"),
        _ => show::exact(teeth),
    }
}

/// A part of a turn, or turns: `1/4 turn`, `2 turn`.
fn turn_words(turns: Ratio) -> String {
    match (turns.floor(), turns.is_whole()) {
        (0, _) | (_, true) => format!("{turns} turn"),
        (whole, false) => {
            let part = turns.sub(Ratio::new(whole, 1).unwrap_or(Ratio::ZERO)).unwrap_or(turns);
            format!("{whole} {part} turn")
        }
    }
}

/// `1 : 2`.
fn ratio_words(ratio: Ratio) -> String {
    format!("{} : {}", ratio.numer(), ratio.denom())
}
