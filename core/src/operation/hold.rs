//! Hold the work: what grips it, by what, and how true it then runs.

use super::ready::{centre_fast, centre_in, centre_on};
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
use crate::record::{Choice, LENGTH, NAME, Node, Record, Shape, Spec, choice, field};
use crate::shop::Shop;
use alloc::borrow::ToOwned;
use alloc::boxed::Box;
use alloc::format;
use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

/// What a holder grips on.
const SURFACES: &[Choice] = &[
    choice("plain", 0, "a plain surface"),
    choice("finished", 1, "a finished surface"),
    choice("thread", 2, "a thread"),
    choice("taper", 3, "a taper"),
];

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
            field("surface", 6, "surface gripped", Shape::Choice(SURFACES)),
        ],
    },
    sentences: &[(
        "",
        "Hold {on} in {in}[, on {surface}][, Ø {diameter}][, {stick_out} sticking out][, true to {true_to}].",
    )],
    instead: &[],
    from_shop: &["holding", "lathe", "indicators"],
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
    surface: Option<&'static str>,
    from: Option<Quantity>,
    to: Option<Quantity>,
    diameter: Option<Quantity>,
    run_out: Option<Quantity>,
    stick_out: Option<Quantity>,
    true_to: Option<String>,
    rpm_max: Option<u32>,
}

impl Hold {
    /// Whether the holder takes the diameter; none where either isn't known.
    fn fits(&self) -> Option<bool> {
        let diameter = self.diameter.as_ref()?.value();
        let to = self.to.as_ref().map(Quantity::value);
        let own = || to.filter(|_| self.kind == Some("collet"))?.sub(SPRING).ok();
        let from = self.from.as_ref().map(Quantity::value).or_else(own);
        if from.is_none() && to.is_none() {
            return None;
        }
        Some(from.is_none_or(|from| from <= diameter) && to.is_none_or(|to| diameter <= to))
    }

    /// What is gripped in hard jaws that they spoil, and what grips it unharmed.
    fn spoiled(&self) -> Option<(&'static str, &'static str)> {
        let jaws = matches!(self.holder_kind(), Some(HolderKind::Chuck | HolderKind::Vice));
        Some(match self.surface.filter(|_| jaws)? {
            "thread" => (
                "jaws would bruise the thread",
                "Jaws bruise a thread: a collet, a split bush or two nuts grip it unharmed.",
            ),
            "taper" => (
                "parallel jaws hold a taper on one line",
                "Parallel jaws hold a taper on one line, and it walks out: a socket of the same taper holds it.",
            ),
            "finished" => (
                "hard jaws would mark the finished surface",
                "Hard jaws mark a finished surface: soft jaws, packing or a collet hold it unharmed.",
            ),
            _ => return None,
        })
    }

    /// How many diameters stick out of the holder.
    fn diameters_out(&self) -> Option<Ratio> {
        self.stick_out.as_ref()?.value().div(self.diameter.as_ref()?.value()).ok()
    }
}

/// A spring collet closes by so much below its own size, mm, and no farther: from memory.
const SPRING: Ratio = Ratio::of(1, 2);

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
        surface: entries.choice("surface"),
        from: owned.and_then(|holder| holder.quantity("from").cloned()),
        to: owned.and_then(|holder| holder.quantity("to").cloned()),
        diameter: entries.quantity("diameter").cloned(),
        run_out: owned.and_then(|holder| holder.quantity("run_out").cloned()),
        stick_out: entries.quantity("stick_out").cloned(),
        true_to: entries.text("true_to").map(ToOwned::to_owned),
        rpm_max: owned.and_then(|holder| holder.count("rpm_max")),
    };
    let mut cautions = Vec::new();
    cautions.extend(hold.spoiled().map(|(_, unharmed)| unharmed));
    if hold.stands_free() {
        cautions.push("Long for its thickness: support the far end with a centre or a steady.");
    }
    let mut lacking = Vec::new();
    if hold.run_out.is_none() {
        lacking.push(Lacking { key: "run_out", needs: "shop.holding" });
    }
    let unmade = (hold.fits() == Some(false)).then(|| Unmade {
        why: format!("{} doesn't take this diameter: another holder does, or a bush", hold.holder),
        needs: "shop.holding",
    });
    let listed = shop.record().records("holding").next().is_some();
    let unmade = unmade.or_else(|| {
        (listed && owned.is_none()).then(|| Unmade {
            why: format!("no holder called {} is entered", show::unmarked(&hold.holder)),
            needs: "shop.holding",
        })
    });
    let unmade = unmade.or_else(|| {
        (hold.holder_kind() == Some(HolderKind::Steady)).then(|| Unmade {
            why: "a steady carries the far end of work that something else drives".to_owned(),
            needs: "operation.in",
        })
    });
    let indicator = shop.record().records("indicators").next().is_some();
    let blind = hold.true_to.is_some() && !indicator;
    let unmade = unmade.or_else(|| {
        blind.then(|| Unmade {
            why: "what must run true is read on an indicator".to_owned(),
            needs: "shop.indicators",
        })
    });
    let mut why = Vec::new();
    if let (Some(from), Some(to), Some(diameter)) = (&hold.from, &hold.to, &hold.diameter) {
        why.push(Why::new(
            "from ≤ Ø ≤ to",
            format!("{} ≤ {} ≤ {}", from.text(), diameter.text(), to.text()),
            "the holder's own range, as entered in the shop",
        ));
    }
    Answer {
        found: Some(Found::Hold(Box::new(hold))),
        unmade: unmade.map(Box::new),
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
            fits => match self.spoiled() {
                Some((trouble, _)) => Some((Tone::Mind, trouble.to_owned())),
                None if fits == Some(true) => Some((Tone::Good, "within its range".to_owned())),
                None => None,
            },
        };
        let mut facts = Vec::new();
        if let Some(run_out) = &self.run_out {
            facts.push(Fact::new("runs out", run_out.text()));
        }
        if let (Some(from), Some(to)) = (&self.from, &self.to) {
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

    /// Whether it stands out of what alone carries it by so much that its far end wants support.
    fn stands_free(&self) -> bool {
        self.place() == WorkAt::LatheSpindle
            && self.diameters_out().is_some_and(|out| out > Ratio::whole(FREE))
    }

    fn actions(&self) -> Vec<Action> {
        let between = self.place() == WorkAt::Centres;
        let key = !between && self.holder_kind() != Some(HolderKind::Collet);
        let mut actions = Vec::from([
            Action::Isolate,
            Action::Look(Statement::Cutter { is: CutterStands::Clear, off: None }),
            Action::Clean { what: Tended::Work },
        ]);
        if between {
            actions.extend(centre_in());
        }
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
        if between {
            actions.extend(centre_fast());
        }
        if self.stands_free() {
            actions.extend(centre_on());
        }
        if self.place() == WorkAt::CrossSlide {
            return actions;
        }
        actions.push(Action::Unlock { what: Lockable::LatheSpindle });
        if self.true_to.is_some() {
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
                    is: None,
                    fills: None,
                },
                Action::Remove(indicator),
            ]);
        } else if let Some(run_out) = &self.run_out {
            actions.push(Action::Look(Statement::RunsTrue { within: Length::from(run_out) }));
        }
        actions.push(Action::Look(Statement::Clears { what: Cleared::Work }));
        actions
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::read;
    use crate::shop::SHOP;

    const OWNED: &str = r#"{
     "holding": [{"name": "three-jaw", "kind": "chuck", "from": "2 mm", "to": "80 mm", "run_out": "0.05 mm"},
                 {"name": "collet 12", "kind": "collet", "to": "12 mm"},
                 {"name": "plate", "kind": "faceplate", "to": "200 mm"},
                 {"name": "centres", "kind": "centres"},
                 {"name": "mandrel", "kind": "mandrel", "from": "10 mm", "to": "12 mm"},
                 {"name": "bush", "kind": "split-bush", "from": "5 mm", "to": "50 mm"},
                 {"name": "vice", "kind": "vice", "to": "60 mm"},
                 {"name": "rest", "kind": "steady", "from": "5 mm", "to": "50 mm"}],
     "indicators": [{"division": "0.01 mm"}]
    }"#;

    fn node(text: &str) -> Node {
        serde_json::from_str(text).unwrap()
    }

    fn held(owned: &str, entries: &str) -> Answer {
        let shop = Shop::new(read(&node(owned), &SHOP, "", &[]).unwrap());
        answer(&read(&node(entries), KIND.spec, "", &[]).unwrap(), &shop).proved(&shop)
    }

    #[test]
    fn what_each_holder_holds_is_carried_out_without_a_fault() {
        for entries in [
            r#"{"in": "three-jaw", "diameter": "12 mm", "stick_out": "20 mm"}"#,
            r#"{"in": "three-jaw", "diameter": "12 mm", "stick_out": "90 mm", "true_to": "the bore"}"#,
            r#"{"in": "collet 12", "diameter": "12 mm"}"#,
            r#"{"in": "plate", "diameter": "90 mm", "true_to": "the bore"}"#,
            r#"{"in": "centres", "diameter": "20 mm", "stick_out": "200 mm"}"#,
            r#"{"in": "centres", "diameter": "20 mm", "true_to": "the rim"}"#,
            r#"{"in": "mandrel", "diameter": "11 mm"}"#,
            r#"{"in": "bush", "diameter": "20 mm", "surface": "thread"}"#,
            r#"{"in": "vice", "diameter": "20 mm"}"#,
        ] {
            let found = held(OWNED, entries);
            assert_eq!((found.unmade.clone(), found.steps()), (None, 1), "{entries}");
        }
    }

    #[test]
    fn what_does_not_hold_it_is_said() {
        for (entries, needs) in [
            (r#"{"in": "three-jaw", "diameter": "90 mm"}"#, "shop.holding"),
            // Closed by more than half a millimetre a spring collet grips on its mouth: from memory.
            (r#"{"in": "collet 12", "diameter": "11.4 mm"}"#, "shop.holding"),
            (r#"{"in": "plate", "diameter": "201 mm"}"#, "shop.holding"),
            (r#"{"in": "rest", "diameter": "20 mm"}"#, "operation.in"),
            (r#"{"in": "nothing", "diameter": "20 mm"}"#, "shop.holding"),
        ] {
            let found = held(OWNED, entries);
            assert_eq!(found.unmade.map(|unmade| unmade.needs), Some(needs), "{entries}");
        }
        let none = OWNED.replace(r#"{"division": "0.01 mm"}"#, "");
        let found = held(&none, r#"{"in": "three-jaw", "true_to": "the bore"}"#);
        assert_eq!(found.unmade.map(|unmade| unmade.needs), Some("shop.indicators"));
    }

    #[test]
    fn what_is_gripped_is_chosen_and_not_read_from_words() {
        let said = |entries| {
            let found = held(OWNED, entries);
            found.cautions.iter().any(|caution| caution.contains("unharmed"))
        };
        assert!(said(r#"{"in": "three-jaw", "on": "the far end", "surface": "thread"}"#));
        assert!(said(r#"{"in": "three-jaw", "on": "the far end", "surface": "finished"}"#));
        assert!(!said(r#"{"in": "three-jaw", "on": "beside the thread", "surface": "plain"}"#));
        assert!(!said(r#"{"in": "three-jaw", "on": "the threadbare end"}"#));
        assert!(!said(r#"{"in": "collet 12", "on": "the far end", "surface": "thread"}"#));
    }
}
