//! Hold the work: what grips it, by what, and how true it then runs.

use super::{
    Answer, Card, Deed, Fact, Found, Kind, Lacking, Step, Tone, Unmade, Why, Worked, Works, line,
    names_in,
};
use crate::exact::Ratio;
use crate::procedure::{
    Action, Cleared, CutterStands, Fitting, HolderKind, InOut, Instrument, Item, Length, Lockable,
    Measured, Number, Statement, StepId, Tended, Turned, TurnedBy, Turning, Work, WorkAt,
};
use crate::quantity::{Quantity, show};
use crate::record::{LENGTH, NAME, Node, Record, Shape, Spec, field};
use crate::shop::Shop;
use alloc::borrow::ToOwned;
use alloc::boxed::Box;
use alloc::format;
use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

pub(super) static KIND: Kind = Kind {
    name: "hold",
    wire: 10,
    title: "Hold the work",
    spec: &Spec {
        name: "hold",
        fields: &[
            field("in", 1, "holder", NAME),
            field("on", 2, "gripped by", NAME),
            field("diameter", 3, "diameter gripped", LENGTH),
            field("stick_out", 4, "stick-out", LENGTH),
            field("true_to", 5, "must run true to", Shape::Text(90)),
        ],
    },
    sentences: &[(
        "",
        "Hold {on} in {in}[, Ø {diameter}][, {stick_out} sticking out][, true to {true_to}].",
    )],
    instead: &[],
    from_shop: &["holding", "lathe"],
    measured: &[],
};

pub(super) static WORKS: Works =
    Works { suggest, deed: |_| Deed::GRIPS, ..Works::at_once(&KIND, answer) };

fn suggest(_: &Record, key: &str, _: &str, shop: &Shop) -> Vec<String> {
    if key == "in" { names_in(shop, "holding") } else { Vec::new() }
}

/// What grips the work.
#[derive(Clone, Debug)]
pub struct Hold {
    holder: String,
    kind: Option<&'static str>,
    on: Option<String>,
    range: Option<(Quantity, Quantity)>,
    diameter: Option<Quantity>,
    run_out: Option<Quantity>,
    stick_out: Option<Quantity>,
    true_to: Option<String>,
    rpm_max: Option<u32>,
    /// Whether an indicator is owned.
    indicator: bool,
}

impl Hold {
    /// Whether the holder takes the diameter; none where either isn't known.
    fn fits(&self) -> Option<bool> {
        let (from, to) = self.range.as_ref()?;
        let diameter = self.diameter.as_ref()?.value();
        Some(from.value() <= diameter && diameter <= to.value())
    }

    /// A finished thread in hard jaws.
    fn jaws_on_thread(&self) -> bool {
        let thread = self.on.as_ref().is_some_and(|on| on.to_ascii_lowercase().contains("thread"));
        thread && self.kind == Some("chuck")
    }

    /// How many diameters stick out of the holder.
    fn diameters_out(&self) -> Option<Ratio> {
        self.stick_out.as_ref()?.value().div(self.diameter.as_ref()?.value()).ok()
    }
}

/// Past so many diameters a bar that stands free wants its far end supported (University of Ottawa CEED
/// workshop notes: lathe operations).
const FREE: i64 = 3;

fn answer(entries: &Record, shop: &Shop) -> Answer {
    let Some(name) = entries.text("in") else {
        return Answer::refused("say what grips the work: a holder of this shop, or any name");
    };
    let owned = shop.holder(name);
    let hold = Hold {
        holder: name.to_owned(),
        kind: owned.and_then(|holder| holder.choice("kind")),
        on: entries.text("on").map(ToOwned::to_owned),
        range: owned.and_then(|holder| {
            Some((holder.quantity("from")?.clone(), holder.quantity("to")?.clone()))
        }),
        diameter: entries.quantity("diameter").cloned(),
        run_out: owned.and_then(|holder| holder.quantity("run_out").cloned()),
        stick_out: entries.quantity("stick_out").cloned(),
        true_to: entries.text("true_to").map(ToOwned::to_owned),
        rpm_max: owned.and_then(|holder| holder.count("rpm_max")),
        indicator: shop.indicators().next().is_some(),
    };
    let mut cautions = vec![
        "Chuck key out before the spindle starts. Nothing loose near the chuck. The machine's maker and the rules of the place come first.",
    ];
    if hold.jaws_on_thread() {
        cautions.push("Jaws bruise a thread: a collet, a split bush or two nuts grip it unharmed.");
    }
    if hold.diameters_out().is_some_and(|out| out > Ratio::whole(FREE)) {
        cautions.push("Long for its thickness: support the far end with a centre or a steady.");
    }
    let mut lacking = Vec::new();
    if hold.run_out.is_none() {
        lacking.push(Lacking { key: "run_out", needs: "shop.holding" });
    }
    let holders = shop.record().records("holding").next().is_some();
    let lacks = |why, needs| Some(Unmade { why, needs });
    let unmade = if hold.fits() == Some(false) {
        let why =
            format!("{} doesn't take this diameter: another holder does, or a bush", hold.holder);
        lacks(why, "shop.holding")
    } else if owned.is_none() && holders {
        let why =
            format!("{} isn't among this shop's holders: what it takes isn't known", hold.holder);
        lacks(why, "shop.holding")
    } else if hold.true_to.is_some() && hold.run_out.is_none() && !hold.indicator {
        let why = "how true it runs is told by an indicator, and none is owned".to_owned();
        lacks(why, "shop.indicators")
    } else {
        None
    };
    let mut why = Vec::new();
    if let (Some((from, to)), Some(diameter)) = (&hold.range, &hold.diameter) {
        why.push(Why::new(
            "from ≤ Ø ≤ to",
            format!("{} ≤ {} ≤ {}", from.text(), diameter.text(), to.text()),
            "the holder's own range, as entered in the shop",
        ));
    }
    Answer {
        found: Some(Found::Hold(Box::new(hold))),
        unmade,
        cautions,
        why,
        lacking,
        ..Answer::default()
    }
}

impl Worked for Hold {
    fn json(&self) -> Vec<(String, Node)> {
        let mut pairs = vec![("in".to_owned(), Node::from(self.holder.as_str()))];
        if let Some(on) = &self.on {
            pairs.push(("on".to_owned(), Node::from(on.as_str())));
        }
        if let Some(fits) = self.fits() {
            pairs.push(("fits".to_owned(), Node::from(fits)));
        }
        if let Some(run_out) = &self.run_out {
            pairs.push(("run_out_mm".to_owned(), Node::from(run_out.to_f64())));
        }
        pairs
    }

    fn card(&self) -> Card {
        let verdict = match self.fits() {
            Some(false) => {
                Some((Tone::Mind, format!("{} doesn't take this diameter", self.holder)))
            }
            _ if self.jaws_on_thread() => {
                Some((Tone::Mind, "jaws would bruise the thread".to_owned()))
            }
            Some(true) => Some((Tone::Good, "within its range".to_owned())),
            None => None,
        };
        let mut facts = Vec::new();
        if let Some(run_out) = &self.run_out {
            facts.push(Fact::new("runs out", run_out.text()));
        }
        if let Some((from, to)) = &self.range {
            facts.push(Fact::new("grips", format!("{} to {}", from.text(), to.text())));
        }
        if let Some(out) = self.diameters_out() {
            facts.push(Fact::new("sticks out", format!("{} diameters", show::trimmed(out, 1))));
        }
        if let Some(rpm) = self.rpm_max {
            facts.push(Fact::new("never faster than", format!("{rpm} rpm")));
        }
        Card {
            lines: vec![line(&format!("*{}*", show::unmarked(&self.holder)))],
            verdict,
            facts,
            ..Card::default()
        }
    }

    fn steps(&self) -> usize {
        1
    }

    fn step(&self, _: usize) -> Option<Step> {
        Some(Step {
            id: StepId::new("hold", 1),
            title: "Hold the work".to_owned(),
            actions: self.actions(),
            label: "held in".to_owned(),
            figure: self.holder.clone(),
            done: "Held",
            ..Step::default()
        })
    }
}

impl Hold {
    /// Where its kind of holder holds work.
    fn place(&self) -> WorkAt {
        match self.holder_kind() {
            Some(HolderKind::Centres) => WorkAt::Centres,
            Some(HolderKind::Vice) => WorkAt::CrossSlide,
            _ => WorkAt::LatheSpindle,
        }
    }

    fn holder_kind(&self) -> Option<HolderKind> {
        HolderKind::ALL.iter().find(|kind| Some(kind.key()) == self.kind).copied()
    }

    fn actions(&self) -> Vec<Action> {
        let key = !matches!(self.holder_kind(), Some(HolderKind::Collet | HolderKind::Centres));
        let mut actions = Vec::from([
            Action::Isolate,
            Action::Look(Statement::Cutter { is: CutterStands::Clear, off: None }),
            Action::Clean { what: Tended::Work },
        ]);
        if key {
            actions.push(Action::Key { is: InOut::In });
        }
        actions.push(Action::Mount(Item::Work(Work {
            holder: Some(self.holder.clone()),
            holder_kind: self.holder_kind(),
            gripped_by: self.on.clone(),
            gripped: self.diameter.as_ref().map(Length::from),
            out: self.stick_out.as_ref().map(Length::from),
            ..Work::at(self.place())
        })));
        actions.push(Action::Key { is: InOut::Out });
        if self.place() == WorkAt::LatheSpindle {
            if self.diameters_out().is_some_and(|out| out > Ratio::whole(FREE)) {
                actions.extend([
                    Action::Look(Statement::TailstockInLine),
                    Action::Mount(Item::Fitting { which: Fitting::TailCentre }),
                    Action::Oil { what: Tended::Centre },
                    Action::Lock { what: Lockable::Tailstock },
                    Action::Lock { what: Lockable::Quill },
                ]);
            }
            actions.push(Action::Unlock { what: Lockable::LatheSpindle });
            if self.true_to.is_some() && self.indicator {
                let indicator = Item::Fitting { which: Fitting::Indicator };
                actions.extend([
                    Action::Mount(indicator.clone()),
                    Action::TurnByHand {
                        what: Turned::LatheSpindle,
                        by: TurnedBy::Chuck,
                        way: Turning::Forward,
                        turns: Some(Number(Ratio::ONE)),
                        teeth: None,
                        of: None,
                    },
                    Action::Measure {
                        what: Measured::RunOut,
                        with: Instrument::Indicator,
                        should_be: Some(Length::mm(Ratio::ZERO)),
                        fills: None,
                    },
                    Action::Remove(indicator),
                ]);
            } else if let Some(run_out) = &self.run_out {
                actions.push(Action::Look(Statement::RunsTrue { within: Length::from(run_out) }));
            }
            actions.push(Action::Look(Statement::Clears { what: Cleared::Work }));
        }
        actions
    }
}
