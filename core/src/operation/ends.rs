//! Tools that cut with their end, at the machine: centre drill, drill, reamer, counterbore, countersink, tap
//! and die, in the tailstock, in the tool post or in the lathe spindle.

use super::ready::{Kit, beat_of, compound_fast, fluid, held, lathe, set_speed, spindle_free};
use super::spindle::{Job, Spindle};
use super::{Beat, Unmade};
use crate::cutting::{self, CutterMaterial, Process, Stock, Verdict};
use crate::exact::Ratio;
use crate::holes;
use crate::procedure::{
    self, Action, Adjustable, Axis, Between, Cleared, Cutter, CutterAt, Degrees, Face, FeedBy,
    Fitting, Gauge, InOut, Item, Length, Lockable, Number, OnOff, OpenShut, Running, Screwed,
    Setting, Shape, Slide, Statement, Tended, Toward, TurnedBy, Until, Work, WorkAt,
};
use crate::quantity::{Unit, show};
use crate::shop::{Dial, Shop, Speed};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::vec::Vec;

/// What carries the tool.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Carried {
    /// The tailstock: its quill feeds.
    Tailstock,
    /// The tool post, on the work's axis: the carriage feeds.
    ToolPost,
    /// The lathe spindle; the work is on the cross slide, and the carriage feeds.
    Spindle,
}

/// How deep a drill goes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Deep {
    /// At its full diameter, mm.
    pub(super) full: Ratio,
    /// From the touch of its tip, mm.
    pub(super) tip: Ratio,
    /// Whether it comes through there.
    pub(super) through: bool,
}

/// The machine for such tools.
#[derive(Clone, Debug)]
pub(super) struct Ends {
    pub(super) carried: Carried,
    /// Of the slide that feeds.
    pub(super) dial: Option<Dial>,
    pub(super) unit: Unit,
    pub(super) stock: Option<Stock>,
    /// Whether the spindle has a hand crank.
    pub(super) crank: bool,
    /// Whether the tool isn't on the work's axis yet when it opens a hole.
    pub(super) to_centre: bool,
}

/// A drill that has been so deep is wound in again until it stands so far short of it, mm. Common practice,
/// no source.
const SHORT_OF_IT: Ratio = Ratio::ONE;
/// The feed is eased where the tip is still so far from coming through, mm. Common practice, no source.
const BEFORE_THROUGH: Ratio = Ratio::of(1, 2);
/// A centre drill runs by its pilot's diameter, mm: the common sizes' middle (BS 328), from memory.
const PILOT: Ratio = Ratio::of(5, 2);
/// A die is looked at after so many turns: a few threads. Common practice, no source.
const FIRST_TURNS: i64 = 3;
/// A speed so many times what is published burns the edge: common practice, no source.
const BURNS: u32 = 2;

impl Ends {
    /// Where the tailstock's dial, else the carriage's reads the depth; a hole off the work's middle is drilled
    /// with the work on the cross slide.
    pub(super) fn of(beside: bool, unit: Unit, stock: Option<Stock>, shop: &Shop) -> Ends {
        let (tail, along) = (shop.dial("tailstock"), shop.dial("carriage"));
        let (carried, dial) = match (beside, tail, along) {
            (true, _, along) => (Carried::Spindle, along),
            (false, None, Some(along)) => (Carried::ToolPost, Some(along)),
            (false, tail, _) => (Carried::Tailstock, tail),
        };
        let crank = shop.lathe().flag("hand_crank") == Some(true);
        Ends { carried, dial, unit, stock, crank, to_centre: false }
    }

    pub(super) const fn slide(&self) -> Slide {
        match self.carried {
            Carried::Tailstock => Slide::Quill,
            _ => Slide::Carriage,
        }
    }

    /// What that slide is called: "the tailstock".
    pub(super) const fn slide_words(&self) -> &'static str {
        match self.carried {
            Carried::Tailstock => "the tailstock",
            _ => "the carriage",
        }
    }

    const fn gauge(&self) -> Gauge {
        if self.dial.is_some() { Gauge::Dial } else { Gauge::Rule }
    }

    pub(super) fn like(&self, mm: Ratio) -> Length {
        Length::like(mm, self.unit)
    }

    /// A depth to which one works: to a tenth of a millimetre where nothing but a rule reads it.
    fn depth(&self, mm: Ratio) -> Length {
        self.like(show::near(mm.to_f64(), if self.unit.is_inch() { 3 } else { 1 }).unwrap_or(mm))
    }

    pub(super) fn cutter(&self, shape: Shape) -> Cutter {
        match self.carried {
            Carried::Tailstock => Cutter::new(shape, CutterAt::Tailstock),
            Carried::ToolPost => {
                Cutter { axis: Some(Axis::Along), ..Cutter::new(shape, CutterAt::ToolPost) }
            }
            Carried::Spindle => {
                Cutter { axis: Some(Axis::Along), ..Cutter::new(shape, CutterAt::LatheSpindle) }
            }
        }
    }

    /// A drill of the shop, or as it can be bought.
    pub(super) fn drill(&self, name: &str, mm: Ratio) -> Cutter {
        Cutter {
            name: Some(show::unmarked(name)),
            diameter: Some(self.like(mm)),
            ..self.cutter(Shape::Drill)
        }
    }

    /// A slide's reading at so far from nought, to the nearest line.
    fn reading(&self, mm: Ratio) -> Option<procedure::Reading> {
        let reading = procedure::Reading::from(self.dial?.reading(mm)?);
        Some(procedure::Reading { beyond: None, ..reading })
    }

    /// The work held and looked at, what carries the tool in line and fast, everything safe.
    pub(super) fn ready(&self, mut work: Work, through: bool) -> Vec<Action> {
        let mut actions = Kit::safe();
        work.stock = self.stock.map(|stock| stock.id().to_owned());
        if self.carried == Carried::Spindle {
            work.at = WorkAt::CrossSlide;
        }
        actions.push(held(work));
        actions.extend(match self.carried {
            Carried::Tailstock => self.tailstock(),
            Carried::ToolPost => {
                let mut fast = Vec::from(compound_fast(Axis::Along));
                fast.push(self.free(Lockable::Carriage));
                fast
            }
            Carried::Spindle => Vec::from([
                Action::SetHeight {
                    what: Adjustable::Work,
                    above: Length::like(Ratio::ZERO, self.unit),
                },
                self.free(Lockable::Carriage),
            ]),
        });
        if through {
            actions.push(Action::Look(Statement::Clears { what: Cleared::Behind }));
        }
        actions.extend([
            spindle_free(),
            Action::Look(Statement::Clears { what: Cleared::Work }),
            Action::Guard { is: OpenShut::Shut },
        ]);
        actions
    }

    /// The tailstock in line, its quill free, clamped to the bed.
    pub(super) fn tailstock(&self) -> Vec<Action> {
        Vec::from([
            Action::Look(Statement::TailstockInLine),
            self.free(Lockable::Quill),
            Action::Lock { what: Lockable::Tailstock },
        ])
    }

    const fn free(&self, what: Lockable) -> Action {
        Action::Look(Statement::Lock { what, is: OnOff::Off })
    }

    /// A tool mounted at rest, the speed set.
    pub(super) fn change(&self, cutter: Cutter, speed: Option<&Speed>) -> Vec<Action> {
        let mut actions = Vec::new();
        if self.carried == Carried::Spindle {
            actions.push(Action::Isolate);
        }
        let post = cutter.at == CutterAt::ToolPost;
        actions.extend([Action::Mount(Item::Cutter(cutter)), Action::Key { is: InOut::Out }]);
        if post {
            let above = Length::like(Ratio::ZERO, self.unit);
            actions.push(Action::SetHeight { what: Adjustable::Cutter, above });
        }
        actions.extend(speed.map(set_speed));
        actions
    }

    /// The tool in the tool post, or the mark on the work, brought on to the other's axis and locked there.
    pub(super) fn centred(&self) -> Vec<Action> {
        if self.carried == Carried::Tailstock {
            return Vec::new();
        }
        Vec::from([
            Action::Touch {
                slide: Slide::Cross,
                toward: Toward::In,
                face: Face::Centre,
                between: Between::Metal,
                thick: None,
            },
            Action::Lock { what: Lockable::Cross },
        ])
    }

    /// Touched on at rest, nought set there, drawn back.
    pub(super) fn touched(&self, face: Face) -> Vec<Action> {
        let slide = self.slide();
        Vec::from([
            Action::Touch {
                slide,
                toward: Toward::Headstock,
                face,
                between: Between::Metal,
                thick: None,
            },
            Action::Zero { slide, on: self.gauge() },
            self.clear(),
        ])
    }

    pub(super) const fn clear(&self) -> Action {
        Action::Clear { slide: self.slide(), toward: Toward::Tailstock, by: None }
    }

    pub(super) fn start(&self) -> Vec<Action> {
        Vec::from([Action::Energise, lathe(Running::Forward)])
    }

    /// Drawn out while it turns, and stopped.
    pub(super) fn stop(&self) -> Vec<Action> {
        Vec::from([self.clear(), lathe(Running::Stopped), Action::Clean { what: Tended::Swarf }])
    }

    /// The slide to so far in from nought, nothing cut.
    fn wind(&self, mm: Ratio) -> Action {
        let to = self.dial.and_then(|dial| {
            let lines = mm.div(dial.travel_per_line()).ok()?.floor();
            let whole = dial.travel_per_line().mul(Ratio::new(lines, 1).ok()?).ok()?;
            self.reading(whole)
        });
        Action::Wind {
            slide: self.slide(),
            by: to.is_none().then(|| self.depth(mm)),
            to,
            toward: Toward::Headstock,
            from: Toward::Tailstock,
            on: self.gauge(),
        }
    }

    /// So far or a little farther: to the next line of the dial.
    pub(super) fn up(&self, mm: Ratio) -> Ratio {
        let line = self.dial.map_or(Ratio::of(1, 10), |dial| dial.travel_per_line());
        let whole = mm.div(line).and_then(|lines| Ratio::new(lines.neg().floor(), 1));
        whole.and_then(|lines| lines.neg().mul(line)).unwrap_or(mm)
    }

    /// Fed by hand to so far in from nought; `stands` is how far in it was wound.
    fn feed(
        &self,
        stands: Ratio,
        mm: Ratio,
        until: Option<Until>,
        beat: Option<procedure::Beat>,
    ) -> Action {
        let to = self.reading(mm);
        let over = to.is_none().then(|| {
            let (from, to) = (self.depth(stands).mm, self.depth(mm).mm);
            self.like(to.sub(from).unwrap_or(mm))
        });
        Action::Feed {
            slide: self.slide(),
            toward: Toward::Headstock,
            over,
            to,
            until,
            by: FeedBy::Hand,
            each_turn: None,
            beat,
        }
    }

    /// As deep as whoever drills has marked it.
    fn to_the_mark(&self, beat: Option<procedure::Beat>) -> Action {
        Action::Feed {
            slide: self.slide(),
            toward: Toward::Headstock,
            over: None,
            to: None,
            until: Some(Until::Mark),
            by: FeedBy::Hand,
            each_turn: None,
            beat,
        }
    }

    /// A centre drill, a little way up its cone.
    pub(super) fn centre(&self, speed: &Speed) -> Vec<Action> {
        let mut actions = self.change(self.cutter(Shape::CentreDrill), Some(speed));
        actions.extend(self.centred());
        actions.extend(self.touched(Face::End));
        actions.extend(self.start());
        actions.push(self.wind(Ratio::ZERO));
        actions.push(Action::Feed {
            slide: self.slide(),
            toward: Toward::Headstock,
            over: None,
            to: None,
            until: Some(Until::Cone),
            by: FeedBy::Hand,
            each_turn: None,
            beat: None,
        });
        actions.extend(self.stop());
        actions
    }

    /// Drilled, drawn out to clear as often as it wants, eased where it comes through.
    pub(super) fn drilled(
        &self,
        drill: Cutter,
        deep: Option<Deep>,
        speed: &Speed,
        beat: Option<Beat>,
    ) -> Vec<Action> {
        let across = drill.diameter.map_or(Ratio::ONE, |length| length.mm);
        let beat = beat.and_then(beat_of);
        let mut actions = self.change(drill, Some(speed));
        actions.extend(fluid(self.stock));
        actions.extend(self.touched(Face::End));
        actions.extend(self.start());
        let Some(deep) = deep else {
            actions.push(self.to_the_mark(beat));
            actions.extend(self.stop());
            return actions;
        };
        let mut been = Ratio::ZERO;
        for peck in holes::pecks(deep.full, across) {
            let stands = been.sub(SHORT_OF_IT).unwrap_or(Ratio::ZERO).max(Ratio::ZERO);
            actions.extend([self.wind(stands), self.feed(stands, peck, None, beat), self.clear()]);
            been = peck;
        }
        let mut stands = been.sub(SHORT_OF_IT).unwrap_or(Ratio::ZERO).max(Ratio::ZERO);
        actions.push(self.wind(stands));
        if deep.through {
            let before = deep.full.sub(BEFORE_THROUGH).unwrap_or(deep.full);
            if before > been {
                actions.push(self.feed(stands, before, None, beat));
                stands = before;
            }
            let eased = beat.map(|beat| procedure::Beat {
                seconds: Number(beat.seconds.0.mul(Ratio::whole(2)).unwrap_or(beat.seconds.0)),
                ..beat
            });
            actions.push(self.feed(stands, deep.tip, Some(Until::Through), eased));
        } else {
            actions.push(self.feed(stands, deep.tip, None, beat));
        }
        actions.extend(self.stop());
        actions
    }

    /// A reamer, a counterbore or a countersink, in one go to so far in from the touch.
    pub(super) fn opened(
        &self,
        cutter: Cutter,
        face: Face,
        deep: Option<Ratio>,
        speed: &Speed,
        beat: Option<Beat>,
    ) -> Vec<Action> {
        let beat = beat.and_then(beat_of);
        let mut actions = self.change(cutter, Some(speed));
        actions.extend(fluid(self.stock));
        if self.to_centre {
            actions.extend(self.centred());
        }
        actions.extend(self.touched(face));
        actions.extend(self.start());
        match deep {
            Some(deep) => {
                actions.extend([self.wind(Ratio::ZERO), self.feed(Ratio::ZERO, deep, None, beat)]);
            }
            None => actions.push(self.to_the_mark(beat)),
        }
        actions.extend(self.stop());
        actions
    }

    /// What is turned to screw a tap or a die in.
    const fn turned(&self) -> TurnedBy {
        if self.crank { TurnedBy::HandCrank } else { TurnedBy::Chuck }
    }

    const fn follows(&self) -> Slide {
        match self.carried {
            Carried::Spindle => Slide::Carriage,
            _ => Slide::Quill,
        }
    }

    /// A tap or a die; the tool post's is held in the tailstock.
    pub(super) fn screwing(&self, shape: Shape) -> Cutter {
        let how = match shape {
            Shape::Die => "a die holder, flat against the quill",
            _ => "a wrench, its arm on the slide, the tap on the tailstock's centre",
        };
        match self.carried {
            Carried::Spindle => self.cutter(shape),
            _ => Cutter { holder: Some(how.to_owned()), ..Cutter::new(shape, CutterAt::Tailstock) },
        }
    }

    /// The supply off, the guard open, the tap or die mounted and oiled.
    fn to_screw(&self, cutter: Cutter) -> Vec<Action> {
        let mut actions = Vec::from([Action::Isolate, Action::Guard { is: OpenShut::Open }]);
        if self.carried == Carried::ToolPost {
            actions.extend(self.tailstock());
        }
        actions.extend([
            Action::Mount(Item::Cutter(cutter)),
            Action::Key { is: InOut::Out },
            spindle_free(),
        ]);
        if self.stock != Some(Stock::GreyIron) {
            actions.push(Action::Oil { what: Tended::Cutter });
        }
        actions
    }

    fn turn_in(&self, what: Screwed, over: Option<Length>, until: Option<Until>) -> Action {
        let (forward, back) = match what {
            Screwed::Tap => (Ratio::of(1, 2), Ratio::of(1, 4)),
            Screwed::Die => (Ratio::ONE, Ratio::of(1, 4)),
        };
        Action::TurnIn {
            what,
            by: self.turned(),
            until: until.or(over.is_none().then_some(Until::Mark)),
            over,
            forward: Number(forward),
            back: Number(back),
            follows: Some(self.follows()),
        }
    }

    fn screwed_out(&self, what: Screwed) -> Vec<Action> {
        Vec::from([
            Action::TurnOut { what, by: self.turned() },
            Action::Clean { what: Tended::Thread },
            Action::Guard { is: OpenShut::Shut },
        ])
    }

    /// The tap or die mounted; what must be so of a hole that wasn't made here is looked at.
    pub(super) fn screw_mounted(&self, cutter: Cutter, known: bool) -> Vec<Action> {
        let looks = cutter.shape == Shape::Tap && !known;
        let mut actions = self.to_screw(cutter);
        if looks {
            actions.push(Action::Look(Statement::TapHole));
        }
        actions
    }

    /// Tapped by hand, the spindle turned and the tap kept in line by the tailstock.
    pub(super) fn tapped(&self, over: Option<Length>) -> Vec<Action> {
        let mut actions = Vec::from([self.turn_in(Screwed::Tap, over, None)]);
        actions.extend(self.screwed_out(Screwed::Tap));
        actions
    }

    /// Cut with a die by hand: opened for a rough thread, looked at after a few, closed for the size.
    pub(super) fn died(&self, pitch: Option<Length>, over: Option<Length>) -> Vec<Action> {
        let first = pitch
            .map_or(Ratio::ONE, |pitch| pitch.mm)
            .mul(Ratio::whole(FIRST_TURNS))
            .map(|mm| self.like(mm))
            .ok();
        let first = match (first, over) {
            (Some(first), Some(over)) if over.mm < first.mm => Some(over),
            (first, _) => first,
        };
        let mut actions = Vec::from([
            Action::Set(Setting::Die { is: OpenShut::Open }),
            self.turn_in(Screwed::Die, first, None),
            Action::Look(Statement::Square),
            self.turn_in(Screwed::Die, over, None),
            Action::TurnOut { what: Screwed::Die, by: self.turned() },
            Action::Set(Setting::Die { is: OpenShut::Shut }),
            self.turn_in(Screwed::Die, over, None),
        ]);
        actions.extend(self.screwed_out(Screwed::Die));
        actions
    }

    /// Isolated, clean, nothing left on.
    pub(super) fn finished(&self, last: Cutter) -> Vec<Action> {
        let mut actions = Vec::from([
            Action::Isolate,
            Action::Deburr { what: Tended::Edges },
            Action::Clean { what: Tended::Hole },
        ]);
        let tail = last.at == CutterAt::Tailstock;
        actions.push(Action::Remove(Item::Cutter(last)));
        if tail {
            actions.push(Action::Unlock { what: Lockable::Tailstock });
        }
        match self.carried {
            Carried::Tailstock => {}
            Carried::ToolPost => actions.extend([
                Action::Unlock { what: Lockable::Cross },
                Action::Unlock { what: Lockable::Compound },
            ]),
            Carried::Spindle => actions.push(Action::Unlock { what: Lockable::Cross }),
        }
        actions
    }

    /// The speed of a centre drill: by its pilot, and never slower than the drill that follows.
    pub(super) fn centre_speed(&self, after: &Speed, most: Option<u32>, shop: &Shop) -> Speed {
        let found = speed(self.stock, Process::Drill, PILOT, most, shop);
        if found.rpm >= after.rpm { found } else { after.clone() }
    }
}

/// From the touch of a drill's tip to where its full diameter is so deep, to a hundredth, mm.
pub(super) fn to_tip(full: Ratio, drill: Ratio) -> Ratio {
    let tip = holes::full_depth_to_tip(full, drill, holes::COMMON_POINT_DEG).ok();
    tip.and_then(|tip| show::near(tip, 2)).unwrap_or(full)
}

/// The speed at which it is run: of this machine, else where none is listed the book's; where nothing says
/// what is cut, one that the hardest stock bears.
pub(super) fn speed(
    stock: Option<Stock>,
    process: Process,
    diameter_mm: Ratio,
    most: Option<u32>,
    shop: &Shop,
) -> Speed {
    let stock = stock.unwrap_or(Stock::ToolSteel);
    let job = Job { stock, process, cutter: CutterMaterial::Hss, diameter_mm };
    let owned = job.within(most, shop).ok().and_then(|(spindle, _)| spindle);
    owned.map_or_else(|| book(stock, process, diameter_mm), |spindle| spindle.speed)
}

/// The slow end of what the book gives, where no speed of the machine is listed.
pub(super) fn book(stock: Stock, process: Process, diameter_mm: Ratio) -> Speed {
    let cut = cutting::cut(stock, process, CutterMaterial::Hss, diameter_mm, 2, &[]);
    let rpm = cut.map_or(1.0, |cut| cut.range.low);
    // Saturates, and is never negative.
    Speed { rpm: (libm::floor(rpm) as u32).max(1), how: Some(NEAREST.to_owned()) }
}

/// How a speed of the book is set on a machine whose speeds aren't listed.
pub(super) const NEAREST: &str = "that, or the nearest below it";

/// A speed that burns the edge isn't given as one.
pub(super) fn burns(spindle: Option<&Spindle>) -> Option<Unmade> {
    match spindle?.verdict {
        Verdict::MachineTooFast { wants, has } if has > wants.saturating_mul(BURNS) => {
            Some(Unmade {
                why: format!(
                    "{has} rpm, the slowest here, burns an edge that wants {wants} rpm or less"
                ),
                needs: "shop.lathe.spindle_speeds",
            })
        }
        _ => None,
    }
}

/// A countersink of that included angle.
pub(super) fn angled(cutter: Cutter, degrees: Ratio) -> Cutter {
    Cutter { angle: Some(Degrees(degrees)), ..cutter }
}

/// The screw that a hole is for, put in.
pub(super) const fn screw_in() -> Action {
    Action::Mount(Item::Fitting { which: Fitting::Screw })
}
