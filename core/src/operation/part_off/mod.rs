//! Part off.

mod steps;
#[cfg(test)]
mod tests;

use super::ends::{book, burns};
use super::ready::found_out;
use super::spindle::{Spindle, owned, spindle, stock, why};
use super::{
    Answer, Beat, CUTTER_MATERIALS, Card, Deed, Fact, Found, Kind, Lacking, Removes, STOCKS, Step,
    Tone, Unmade, Why, Worked, Works, line,
};
use crate::cutting::{self, CutterMaterial};
use crate::exact::Ratio;
use crate::quantity::{MM_PER_INCH, Quantity, show};
use crate::record::{LENGTH, LENGTH_OR_NONE, NAME, Node, Record, Shape, Spec, field};
use crate::shop::{Dial, Shop, Speed};
use alloc::borrow::ToOwned;
use alloc::boxed::Box;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec;
use alloc::vec::Vec;

pub(super) static KIND: Kind = Kind {
    name: "part-off",
    wire: 9,
    title: "Part off",
    spec: &Spec {
        name: "part off",
        fields: &[
            field("stock", 1, "stock", Shape::Choice(STOCKS)),
            field("diameter", 2, "diameter", LENGTH),
            field("blade_width", 3, "blade width", LENGTH),
            field("bore", 4, "bore", LENGTH_OR_NONE),
            field("material", 5, "blade made of", Shape::Choice(CUTTER_MATERIALS)),
            field("blade", 6, "blade", NAME),
            field("length", 7, "length of the part", LENGTH),
        ],
    },
    sentences: &[
        (
            "blade",
            "Part off Ø {diameter} in {stock} with the {blade}[, {blade_width} wide][, bored Ø {bore}][, {length} long].",
        ),
        (
            "",
            "Part off Ø {diameter} in {stock} with a blade {blade_width} wide[, of {material}][, bored Ø {bore}][, {length} long].",
        ),
    ],
    instead: &[("blade", "blade_width"), ("blade", "material")],
    from_shop: &["lathe", "cutters", "holding", "indicators"],
    measured: &[],
};

pub(super) static WORKS: Works = Works {
    suggest,
    deed: |_| Deed::of("the cut").removing(Removes::Off),
    on_return: "Look before going on: the blade square and clear of the groove, the dial where this step has it, nothing slack.",
    ..Works::at_once(&KIND, answer)
};

fn suggest(_: &Record, key: &str, _: &str, shop: &Shop) -> Vec<String> {
    let named = |form: &Record| form.text("name").map(ToOwned::to_owned);
    if key == "blade" {
        shop.cutters("parting-blade").filter_map(named).collect()
    } else {
        Vec::new()
    }
}

/// Parting off: the speed, the feed, the blade, and what it leaves.
#[derive(Clone, Debug)]
pub struct Parting {
    diameter: Quantity,
    bore: Ratio,
    blade_mm: Option<Ratio>,
    /// What stands out of the holder, mm.
    stick_out: Ratio,
    /// What is left on the part for facing, mm.
    facing: Ratio,
    /// The core at which to stop and saw, mm.
    core: Ratio,
    work: Option<cutting::PartOff>,
    spindle: Option<Spindle>,
    cross: Option<Dial>,
    carriage: Option<Dial>,
    length: Option<Quantity>,
    /// The blade's name.
    blade: Option<String>,
    held_in: Option<String>,
    stock: Option<cutting::Stock>,
    /// At which it runs: of this machine, else of the book.
    speed: Speed,
}

fn answer(entries: &Record, shop: &Shop) -> Answer {
    let Some(diameter) = entries.quantity("diameter") else {
        return Answer::refused("say the diameter that is parted off");
    };
    let owned_blade = entries.text("blade").and_then(|name| shop.cutter(name));
    let blade_mm =
        entries.ratio("blade_width").or_else(|| owned_blade.and_then(|blade| blade.ratio("width")));
    let material = entries
        .choice("material")
        .or_else(|| owned_blade.and_then(|blade| blade.choice("material")))
        .and_then(CutterMaterial::from_id)
        .unwrap_or(CutterMaterial::Hss);
    let bore = entries.ratio("bore").unwrap_or(Ratio::ZERO);
    if bore >= diameter.value() {
        let words = entries.quantity("bore").map_or("", Quantity::text);
        return Answer::refused(format!(
            "a bore of {words} leaves nothing of {} to part off",
            diameter.text()
        ));
    }
    let (speeds, rpm) = owned(shop);
    // The width decides only whether the blade is stiff enough and what is lost.
    let width = blade_mm.unwrap_or(Ratio::ONE);
    let stock = stock(entries);
    let any = stock.unwrap_or(cutting::Stock::MildSteel);
    let parted = match cutting::part_off(any, material, diameter.value(), bore, width, &rpm) {
        Ok(parted) => parted,
        Err(refused) => return Answer::refused(format!("{refused}")),
    };
    let mut lacking = Vec::new();
    let mut lacks = |key, needs| lacking.push(Lacking { key, needs });
    if stock.is_none() {
        lacks("spindle_rpm", "operation.stock");
        lacks("feed_mm_per_rev", "operation.stock");
    } else if speeds.is_empty() {
        lacks("spindle_rpm", "shop.lathe.spindle_speeds");
    }
    if blade_mm.is_none() {
        let needs = if owned_blade.is_some() { "shop.cutters" } else { "operation.blade_width" };
        lacks("blade_width_mm", needs);
    }
    let mut reasons = vec![Why::new(
        "stick-out = (Ø − bore) / 2 + 2 mm",
        format!(
            "({} − {}) / 2 + 2 mm = {}",
            diameter.text(),
            show::length_like(bore, diameter.unit()),
            show::length_like(parted.stick_out_mm, diameter.unit())
        ),
        "only slightly more than half the diameter: Army Ordnance lathe course OD1645; the 2 mm are common practice, no source",
    )];
    let work = stock.map(|_| parted.clone());
    if let Some(work) = &work {
        reasons.extend(work.cut.speeds.first().map(|speed| why(speed, diameter.value())));
        reasons.extend(work.cut.feeds.first().map(|feed| {
            Why::new(
                "feed by hand, a turn",
                format!("{} mm", show::float_trimmed(feed.low, 3)),
                feed.source,
            )
        }));
    }
    let mut cautions = Vec::new();
    if blade_mm.is_some() && parted.blade_too_thin {
        cautions.push("Deep for this blade: widen the groove as it goes, or saw the last of it.");
    }
    let spindle = spindle(&parted.cut, &speeds);
    let unmade = burns(spindle.as_ref().filter(|_| stock.is_some())).or_else(|| {
        let wide = entries.get("length").is_some() && blade_mm.is_none();
        wide.then(|| Unmade {
            why: "say how wide the blade is: the part's length is measured from its side".into(),
            needs: if owned_blade.is_some() { "shop.cutters" } else { "operation.blade_width" },
        })
    });
    // Where nothing says what is parted, what the hardest stock bears does no harm.
    let hardest = cutting::Stock::ToolSteel;
    let cautious = || {
        let cut = cutting::part_off(hardest, material, diameter.value(), bore, width, &rpm).ok()?;
        super::spindle::spindle(&cut.cut, &speeds)
    };
    let runs = if stock.is_some() { spindle.clone() } else { cautious() };
    let speed = runs.map_or_else(
        || book(stock.unwrap_or(hardest), cutting::Process::Part, diameter.value()),
        |spindle| spindle.speed,
    );
    let parting = Parting {
        diameter: diameter.clone(),
        bore,
        blade_mm,
        stick_out: parted.stick_out_mm,
        facing: parted.facing_mm,
        // A saw doesn't need it finer than a tenth.
        core: show::near(parted.core_mm.to_f64(), 1).unwrap_or(parted.core_mm),
        spindle: spindle.filter(|_| stock.is_some()),
        work,
        cross: shop.dial("cross"),
        carriage: shop.dial("carriage"),
        length: entries.quantity("length").cloned(),
        blade: entries.text("blade").map(show::unmarked),
        held_in: None,
        stock,
        speed,
    };
    let answer = Answer {
        unmade: unmade.map(Box::new),
        found: Some(Found::PartOff(Box::new(parting))),
        cautions,
        why: reasons,
        lacking,
        ..Answer::default()
    };
    found_out(answer, shop, "operation.diameter")
}

impl Parting {
    /// The same at that speed, in that holder.
    pub(super) fn at(self, speed: Option<Speed>, held_in: Option<String>) -> Parting {
        Parting { speed: speed.unwrap_or(self.speed), held_in, ..self }
    }

    fn like(&self, mm: Ratio) -> String {
        show::length_like(mm, self.diameter.unit())
    }

    /// A length that is set by a rule, never shorter: to the next half millimetre or 64th of an inch.
    fn ruled(&self, mm: Ratio) -> Ratio {
        let part = if self.diameter.unit().is_inch() {
            MM_PER_INCH.div(Ratio::whole(64)).unwrap_or(Ratio::ONE)
        } else {
            Ratio::of(1, 2)
        };
        let next = mm.div(part).and_then(|parts| {
            let whole = Ratio::new(parts.floor(), 1)?;
            if parts == whole { Ok(whole) } else { whole.add(Ratio::ONE) }
        });
        next.and_then(|parts| parts.mul(part)).unwrap_or(mm)
    }

    fn by_rule(&self, mm: Ratio) -> String {
        self.like(self.ruled(mm))
    }

    /// From the outside to the diameter at which it is through, or to the core, on the dial; to the
    /// nearest line, for no more hangs on it.
    fn depth_to(&self, diameter: Ratio) -> Option<String> {
        let deep = self.diameter.value().sub(diameter).ok()?.div(Ratio::whole(2)).ok()?;
        Some(self.cross?.reading_towards(true, deep)?.to_string())
    }

    fn too_thin(&self) -> bool {
        self.blade_mm.is_some() && self.work.as_ref().is_some_and(|work| work.blade_too_thin)
    }

    fn feed(&self) -> Option<String> {
        let feed = self.work.as_ref()?.feed_mm_per_rev;
        Some(if self.diameter.unit().is_inch() {
            format!("{} thou", show::float_trimmed(feed / 0.0254, 1))
        } else {
            format!("{} mm", show::float_trimmed(feed, 3))
        })
    }

    /// The feed as a beat of the cross slide, down to a diameter.
    fn beat(&self, to: Ratio) -> Option<Beat> {
        let deep = self.diameter.value().sub(to).ok()?.to_f64() / 2.0;
        self.spindle.as_ref()?.beat(self.cross, "the cross slide", Some(deep))
    }
}

impl Worked for Parting {
    fn json(&self) -> Vec<(String, Node)> {
        let mut pairs = Vec::new();
        if let Some(spindle) = &self.spindle {
            pairs.push(("spindle_rpm".to_owned(), Node::from(spindle.speed.rpm)));
        }
        if let Some(work) = &self.work {
            pairs.push(("feed_mm_per_rev".to_owned(), Node::from(work.feed_mm_per_rev)));
        }
        pairs.push(("stick_out_mm".to_owned(), Node::from(self.stick_out.to_f64())));
        pairs
    }

    fn card(&self) -> Card {
        let mut lines = Vec::new();
        if let Some(spindle) = &self.spindle {
            lines.push(line(&format!("*{}*", spindle.words())));
        }
        lines.push(line(&format!("blade *{}* out", self.by_rule(self.stick_out))));
        let mut facts = Vec::new();
        if let Some(feed) = self.feed() {
            facts.push(Fact::new("feed a turn", feed));
        }
        let (facing, core) = (self.facing, self.core);
        facts.push(Fact::new("leave for facing", self.by_rule(facing)));
        if let Some(blade) = self.blade_mm {
            facts.push(Fact::new("turned into chips", self.like(blade)));
        }
        if self.bore < core {
            facts.push(Fact::new("saw the core below", format!("Ø {}", self.by_rule(core))));
        }
        if let Some(depth) = self.depth_to(self.bore) {
            facts.push(Fact::new("through at", depth));
        }
        let verdict = if self.too_thin() {
            Some((Tone::Mind, "deep for this blade: widen the groove as it goes".to_owned()))
        } else {
            self.spindle.as_ref().map(|spindle| {
                let blade = (Tone::Good, "within what this blade stands".to_owned());
                spindle.trouble().unwrap_or(blade)
            })
        };
        let verdict = verdict.filter(|(tone, _)| *tone != Tone::Good || self.blade_mm.is_some());
        Card { lines, verdict, facts, ..Card::default() }
    }

    fn steps(&self) -> usize {
        self.stages().len()
    }

    fn step(&self, at: usize) -> Option<Step> {
        self.stages().into_iter().nth(at)
    }
}
