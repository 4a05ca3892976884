//! Hold the work: what grips it, by what, and how true it then runs.

use super::{
    Answer, Card, Deed, Fact, Found, Kind, Lacking, Step, Tone, Why, Worked, Works, line, names_in,
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
    fn diameters_out(&self) -> Option<crate::exact::Ratio> {
        self.stick_out.as_ref()?.value().div(self.diameter.as_ref()?.value()).ok()
    }
}

/// Past so many diameters a bar wants its far end supported: common practice, no source.
const SLENDER: i64 = 4;

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
    };
    let mut cautions = vec![
        "Chuck key out before the spindle starts. Nothing loose near the chuck. The machine's maker and the rules of the place come first.",
    ];
    if hold.jaws_on_thread() {
        cautions.push("Jaws bruise a thread: a collet, a split bush or two nuts grip it unharmed.");
    }
    if hold.diameters_out().is_some_and(|out| out > crate::exact::Ratio::whole(SLENDER)) {
        cautions.push("Long for its thickness: support the far end with a centre or a steady.");
    }
    let mut lacking = Vec::new();
    if hold.run_out.is_none() {
        lacking.push(Lacking { key: "run_out", needs: "shop.holding" });
    }
    let mut why = Vec::new();
    if let (Some((from, to)), Some(diameter)) = (&hold.range, &hold.diameter) {
        why.push(Why::new(
            "from ≤ Ø ≤ to",
            format!("{} ≤ {} ≤ {}", from.text(), diameter.text(), to.text()),
            "the holder's own range, as entered in the shop",
        ));
    }
    Answer { found: Some(Found::Hold(Box::new(hold))), cautions, why, lacking, ..Answer::default() }
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
        let mut say = vec!["Spindle stopped, supply isolated.".to_owned()];
        let on = self.on.as_deref().unwrap_or("the work");
        say.push(format!("Hold {} in *{}*.", show::unmarked(on), show::unmarked(&self.holder)));
        if let Some(stick_out) = &self.stick_out {
            say.push(format!("Leave *{}* sticking out.", stick_out.text()));
        }
        if let Some(true_to) = &self.true_to {
            say.push(format!("Indicate it true to {}.", show::unmarked(true_to)));
        } else if let Some(run_out) = &self.run_out {
            say.push(format!("Expect it to run out by up to {}.", run_out.text()));
        }
        say.push("Chuck key out. Turn once by hand: does everything clear?".to_owned());
        Some(Step {
            title: "Hold the work".to_owned(),
            say,
            label: "held in".to_owned(),
            figure: self.holder.clone(),
            caution: Some("Chuck key out before the spindle starts."),
            done: "Held",
            cuts: false,
            ..Step::default()
        })
    }
}
