//! What comes before the first cut and after the last, whatever is cut: the machine made known, and left
//! safe.

use crate::exact::Ratio;
use crate::procedure::{
    Action, Adjustable, Axis, Cleared, Cutter, Fitting, Gauge, InOut, Item, Length, Lockable,
    OnOff, OpenShut, Running, Setting, Shape, Slide, Spindle, Statement, Work,
};
use crate::shop::{Shop, Speed};
use alloc::vec::Vec;

/// How far an indicator reads where that isn't said, mm. Common practice, no source.
const USUAL_TRAVEL: Ratio = Ratio::whole(10);

/// What is known of the machine that a kind needs again at every step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Kit {
    /// Whether something divides on the spindle, and a detent with it.
    pub(super) detent: bool,
    /// How far the longest indicator owned reads, mm.
    pub(super) indicator: Option<Ratio>,
    /// Whether a tumbler is.
    pub(super) tumbler: bool,
}

impl Kit {
    pub(super) fn of(shop: &Shop) -> Kit {
        let dividing = shop.dividing();
        let direct = dividing.is_some_and(|dividing| {
            !dividing.list("direct").is_empty() || dividing.flag("any_change_gear") == Some(true)
        });
        Kit {
            detent: direct,
            indicator: shop
                .record()
                .records("indicators")
                .map(|one| one.ratio("travel").unwrap_or(USUAL_TRAVEL))
                .max(),
            tumbler: shop.lathe().flag("tumbler") == Some(true),
        }
    }

    /// What a slide is read on that goes so far, mm: its dial, else an indicator that reads as far, else a
    /// rule.
    pub(super) fn gauge(self, dial: bool, far: Option<Ratio>) -> Gauge {
        let reads = self.indicator.zip(far).is_some_and(|(travel, far)| far <= travel);
        match (dial, reads) {
            (true, _) => Gauge::Dial,
            (false, true) => Gauge::Indicator,
            (false, false) => Gauge::Rule,
        }
    }

    /// Before anything runs: isolated, key out, nothing engaged.
    pub(super) fn safe(self) -> Vec<Action> {
        let mut actions = Vec::from([
            Action::Isolate,
            Action::Key { is: InOut::Out },
            Action::Look(Statement::HalfNuts { is: InOut::Out }),
            Action::Look(Statement::PowerFeed { is: InOut::Out }),
        ]);
        if self.detent {
            actions.push(Action::Look(Statement::Detent { is: InOut::Out, tooth: None, of: None }));
        }
        actions
    }

    /// The rest of it, where the lathe spindle is to run: its speed, everything clear by hand, guard shut.
    pub(super) fn to_run(self, speed: &Speed, tool_clears: bool) -> Vec<Action> {
        let mut actions = Vec::from([
            set_speed(speed),
            Action::Look(Statement::Lock { what: Lockable::LatheSpindle, is: OnOff::Off }),
            Action::Look(Statement::Clears { what: Cleared::Work }),
        ]);
        if tool_clears {
            actions.push(Action::Look(Statement::Clears { what: Cleared::Tool }));
        }
        actions.push(Action::Guard { is: OpenShut::Shut });
        actions.push(Action::Energise);
        actions
    }
}

/// The indicator against the slide that is read on it, put on at rest; nothing where it is read otherwise.
pub(super) fn indicator_on(gauge: Gauge) -> Option<Action> {
    (gauge == Gauge::Indicator)
        .then_some(Action::Mount(Item::Fitting { which: Fitting::Indicator }))
}

/// The same indicator taken off.
pub(super) fn indicator_off(gauge: Gauge) -> Option<Action> {
    (gauge == Gauge::Indicator)
        .then_some(Action::Remove(Item::Fitting { which: Fitting::Indicator }))
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
