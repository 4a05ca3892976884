//! What comes before the first cut and after the last, whatever is cut: the machine made known, and left
//! safe.

use super::{Answer, Beat, Unmade};
use crate::cutting::Stock;
use crate::exact::Ratio;
use crate::lathe::Rule;
use crate::procedure::{
    self, Action, Adjustable, Axis, Cleared, Cutter, Fitting, Gauge, InOut, Item, Length, Lockable,
    Number, OnOff, OpenShut, Running, Setting, Shape, Slide, Spindle, Statement, Tended, Toward,
    Work,
};
use crate::shop::{Shop, Speed};
use alloc::boxed::Box;
use alloc::format;
use alloc::vec::Vec;

/// How far an indicator reads where that isn't said, mm. Common practice, no source.
const USUAL_TRAVEL: Ratio = Ratio::whole(10);

/// What is known of the machine that a kind needs again at every step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Kit {
    /// Whether an indicator is owned.
    pub(super) indicator: bool,
    /// How far the longest of them reads, mm.
    pub(super) reads: Option<Ratio>,
    /// Whether a tumbler is.
    pub(super) tumbler: bool,
}

impl Kit {
    pub(super) fn of(shop: &Shop) -> Kit {
        Kit {
            indicator: shop.indicators().next().is_some(),
            reads: shop
                .record()
                .records("indicators")
                .map(|one| one.ratio("travel").unwrap_or(USUAL_TRAVEL))
                .max(),
            tumbler: shop.lathe().flag("tumbler") == Some(true),
        }
    }

    /// What a slide is read on: its dial, else an indicator, else a rule.
    pub(super) const fn gauge(self, dial: bool) -> Gauge {
        match (dial, self.indicator) {
            (true, _) => Gauge::Dial,
            (false, true) => Gauge::Indicator,
            (false, false) => Gauge::Rule,
        }
    }

    /// What a slide is read on that goes so far, mm: its dial, else an indicator that reads as far, else a
    /// rule.
    pub(super) fn gauge_over(self, dial: bool, far: Option<Ratio>) -> Gauge {
        let short = self.reads.zip(far).is_some_and(|(reads, far)| reads < far);
        Kit { indicator: self.indicator && !short, ..self }.gauge(dial)
    }

    /// The same indicator taken off.
    pub(super) fn indicator_off(gauges: &[Gauge]) -> Option<Action> {
        let which = Fitting::Indicator;
        gauges.contains(&Gauge::Indicator).then_some(Action::Remove(Item::Fitting { which }))
    }

    /// An indicator put on, where one of these is read on it.
    pub(super) fn indicator_for(gauges: &[Gauge]) -> Option<Action> {
        let which = Fitting::Indicator;
        gauges.contains(&Gauge::Indicator).then_some(Action::Mount(Item::Fitting { which }))
    }

    /// Before anything runs: isolated, key out, nothing engaged.
    pub(super) fn safe() -> Vec<Action> {
        Vec::from([
            Action::Isolate,
            Action::Key { is: InOut::Out },
            Action::Look(Statement::HalfNuts { is: InOut::Out }),
            Action::Look(Statement::PowerFeed { is: InOut::Out }),
        ])
    }

    /// The rest of it, where the lathe spindle is to turn the work: its speed, everything clear by hand, guard
    /// shut.
    pub(super) fn to_turn(speed: &Speed) -> Vec<Action> {
        let mut actions = Vec::from([set_speed(speed), spindle_free()]);
        actions.extend(to_start(&[Cleared::Work, Cleared::Tool]));
        actions
    }
}

/// The lathe spindle isn't locked.
pub(super) const fn spindle_free() -> Action {
    Action::Look(Statement::Lock { what: Lockable::LatheSpindle, is: OnOff::Off })
}

/// Before a start: what is to turn meets nothing, guard shut, supply on.
pub(super) fn to_start(clears: &[Cleared]) -> Vec<Action> {
    let looks = clears.iter().map(|what| Action::Look(Statement::Clears { what: *what }));
    looks.chain([Action::Guard { is: OpenShut::Shut }, Action::Energise]).collect()
}

/// A slide back from where it went, until the cutter is clear.
pub(super) const fn back_from(slide: Slide, toward: Toward) -> Action {
    Action::Clear { slide, toward: toward.opposite(), by: None }
}

/// The tailstock's centre in the end of the work, everything of it locked.
pub(super) fn centre_on() -> impl Iterator<Item = Action> {
    centre_in().into_iter().chain(centre_fast())
}

/// The tailstock's centre put in, in line and oiled.
pub(super) const fn centre_in() -> [Action; 3] {
    [
        Action::Look(Statement::TailstockInLine),
        Action::Mount(Item::Fitting { which: Fitting::TailCentre }),
        Action::Oil { what: Tended::Centre },
    ]
}

/// What carries that centre made fast.
pub(super) const fn centre_fast() -> [Action; 2] {
    [Action::Lock { what: Lockable::Tailstock }, Action::Lock { what: Lockable::Quill }]
}

/// The gears that these actions brought into mesh, out of it again.
pub(super) fn parted(meshed: Vec<Action>) -> impl Iterator<Item = Action> {
    meshed.into_iter().filter_map(|action| match action {
        Action::Mesh { driver, driven } => Some(Action::Part { driver, driven }),
        _ => None,
    })
}

/// A speed of this machine, with its own word for it.
pub(super) fn set_speed(speed: &Speed) -> Action {
    Action::Set(Setting::Speed { rpm: speed.rpm, how: speed.how.clone() })
}

/// The lathe spindle, from now on.
pub(super) const fn lathe(is: Running) -> Action {
    Action::Spindle { of: Spindle::Lathe, is }
}

/// A tool in the tool post, at centre height.
pub(super) fn tool(cutter: Cutter) -> [Action; 2] {
    [
        Action::Mount(Item::Cutter(cutter)),
        Action::SetHeight { what: Adjustable::Tool, above: Length::mm(Ratio::ZERO) },
    ]
}

/// The compound square and locked: it doesn't give, and its angle is known.
pub(super) const fn compound_fast(to: Axis) -> [Action; 2] {
    [Action::SquareUp { what: Adjustable::Compound, to }, Action::Lock { what: Lockable::Compound }]
}

/// The work as it must be held already.
pub(super) const fn held(work: Work) -> Action {
    Action::Look(Statement::Work(work))
}

/// The shape of a cutter by its kind in the shop.
pub(super) fn shape(kind: Option<&str>) -> Option<Shape> {
    Some(match kind? {
        "end-mill" => Shape::EndMill,
        "turning-tool" => Shape::TurningTool,
        "boring-bar" => Shape::BoringBar,
        "parting-blade" => Shape::PartingBlade,
        "slitting-saw" => Shape::Disc,
        "engraver" => Shape::Engraver,
        "drill" => Shape::Drill,
        "reamer" => Shape::Reamer,
        "counterbore" => Shape::Counterbore,
        "countersink" => Shape::Countersink,
        "tap" => Shape::Tap,
        "die" => Shape::Die,
        "knurl" => Shape::Knurl,
        "form-tool" => Shape::FormTool,
        _ => return None,
    })
}

/// The lock that a slide has.
pub(super) const fn lock_of(slide: Slide) -> Lockable {
    match slide {
        Slide::Carriage => Lockable::Carriage,
        Slide::Cross => Lockable::Cross,
        Slide::Compound => Lockable::Compound,
        Slide::Vertical => Lockable::Vertical,
        Slide::Quill => Lockable::Quill,
    }
}

/// A bench's beat as an action has it.
pub(super) fn beat_of(beat: Beat) -> Option<procedure::Beat> {
    let turn = Ratio::new(1, beat.to_a_turn.max(1).into()).ok()?;
    let seconds = Ratio::new(beat.milliseconds.into(), 1000).ok()?;
    Some(procedure::Beat { turn: Number(turn), seconds: Number(seconds) })
}

/// What the modelled lathe finds at the machine that no entry told before: the figures stand, and it is said.
pub(super) fn found_out(mut answer: Answer, shop: &Shop, needs: &'static str) -> Answer {
    let made = answer.found.as_ref().filter(|_| answer.unmade.is_none());
    if let Some(fault) = made.and_then(|found| found.steps().fault(shop)) {
        let needs = match fault.rule {
            Rule::MoveTravel => "shop.lathe.dials",
            Rule::HolderRange | Rule::HolderMissing | Rule::Hol013 | Rule::Hol016 => {
                "operation.held_in"
            }
            _ => needs,
        };
        let why = format!(
            "carried out on a modelled lathe it fails at step {}: {}",
            fault.step, fault.detail
        );
        answer.unmade = Some(Box::new(Unmade { why, needs }));
    }
    answer
}

/// What the stock is cut with: nothing for what is cut dry, or where nothing says what it is.
pub(super) fn fluid(stock: Option<Stock>) -> Option<Action> {
    let dry =
        matches!(stock, None | Some(Stock::GreyIron | Stock::Brass | Stock::Acetal | Stock::Nylon));
    (!dry).then_some(Action::Oil { what: Tended::Cutter })
}
