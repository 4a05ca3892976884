//! Part off.

use super::spindle::{Spindle, owned, spindle, stock, why};
use super::{
    Answer, Beat, CUTTER_MATERIALS, Card, Deed, Fact, Found, Kind, Lacking, Removes, STOCKS, Step,
    Tone, Why, Worked, Works, line,
};
use crate::cutting::{self, CutterMaterial};
use crate::exact::Ratio;
use crate::quantity::{MM_PER_INCH, Quantity, show};
use crate::record::{LENGTH, LENGTH_OR_NONE, NAME, Node, Record, Shape, Spec, field};
use crate::shop::{Dial, Shop};
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
    from_shop: &["lathe", "cutters"],
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
    let mut cautions = vec![
        "Close to the chuck, saddle locked, tool square and exactly at centre height. Guard down, eyes covered.",
        "Feed steadily and don't ease off in the cut: a rubbing blade hardens the work and then digs in. To clear chips, withdraw fully and return.",
        "Nothing long may hang from the far end, and no hand under it: it comes off turning. The machine's maker and the rules of the place come first.",
    ];
    if blade_mm.is_some() && parted.blade_too_thin {
        cautions.push("Deep for this blade: widen the groove as it goes, or saw the last of it.");
    }
    let parting = Parting {
        diameter: diameter.clone(),
        bore,
        blade_mm,
        stick_out: parted.stick_out_mm,
        facing: parted.facing_mm,
        // A saw doesn't need it finer than a tenth.
        core: show::near(parted.core_mm.to_f64(), 1).unwrap_or(parted.core_mm),
        spindle: spindle(&parted.cut, &speeds).filter(|_| stock.is_some()),
        work,
        cross: shop.dial("cross"),
        carriage: shop.dial("carriage"),
        length: entries.quantity("length").cloned(),
    };
    Answer {
        found: Some(Found::PartOff(Box::new(parting))),
        cautions,
        why: reasons,
        lacking,
        ..Answer::default()
    }
}

impl Parting {
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

    fn mount(&self) -> Step {
        let facing = self.ruled(self.facing);
        let mut say = vec![
            "Spindle stopped, supply isolated.".to_owned(),
            format!("Blade *{}* out of its holder, no more.", self.by_rule(self.stick_out)),
            "Square to the work, its edge exactly at centre height.".to_owned(),
            format!("Place it so that the part keeps *{}* for facing.", self.by_rule(facing)),
        ];
        if let Some(length) = &self.length {
            let with = length.value().add(facing);
            let reading = with.ok().and_then(|with| self.carriage?.reading(with));
            if let (Ok(with), Some(reading)) = (with, reading) {
                say.push(format!(
                    "The blade's tailstock side level with the end face: carriage dial to *0*. Then *{}* towards the headstock: *{}*.",
                    self.like(with),
                    reading.as_set()
                ));
            }
        }
        if let Some(spindle) = &self.spindle {
            say.push(spindle.say());
        }
        say.push("Lock the saddle. Chuck key out, guard down.".to_owned());
        Step {
            title: "Mount the blade".to_owned(),
            say,
            label: "stick-out".to_owned(),
            figure: self.by_rule(self.stick_out),
            caution: Some(
                "Belts, levers and blade only with the spindle stopped and the supply off.",
            ),
            done: "Mounted",
            cuts: false,
            ..Step::default()
        }
    }

    fn groove(&self) -> Step {
        let core = self.core;
        let solid = self.bore < core;
        let to = if solid { core } else { self.bore };
        let mut say =
            vec!["Spindle on. Wind in to the touch; cross slide's dial to *0*.".to_owned()];
        if let Some(feed) = self.feed() {
            say.push(format!(
                "Feed in steadily, about *{feed}* a turn. Oil it, except iron and brass."
            ));
        } else {
            say.push("Feed in steadily. Oil it, except iron and brass.".to_owned());
        }
        if self.cross.is_some() && self.spindle.is_some() && self.beat(to).is_none() {
            say.push(
                "By hand that is slower than can be kept even: by power where the cross slide has it, else steadily a little faster, never in jerks.".to_owned(),
            );
        }
        say.push("Don't ease off in the cut. To clear, withdraw fully and return.".to_owned());
        if self.too_thin() {
            say.push("Every so often come out, and take the groove half a blade wider.".to_owned());
        }
        let depth = self.depth_to(to);
        if solid {
            let at = depth
                .as_ref()
                .map_or_else(String::new, |depth| format!(", cross slide at *{depth}*"));
            say.push(format!("Stop at a core of *Ø {}*{at}.", self.by_rule(core)));
        } else if let Some(depth) = &depth {
            say.push(format!(
                "It is through at *{depth}*; catch the part on a rod, never by hand."
            ));
        }
        Step {
            title: if solid { "Groove to a core" } else { "Part it off" }.to_string(),
            say,
            label: if depth.is_some() { "cross slide, in to" } else { "down to" }.to_owned(),
            figure: depth.unwrap_or_else(|| format!("Ø {}", self.like(to))),
            beat: self.beat(to),
            caution: Some(
                "Eyes covered, no gloves; swarf with a hook, and stopped. If it chatters or sings, stop: slower, or shorter.",
            ),
            done: "Cut",
            cuts: true,
            ..Step::default()
        }
    }

    fn last(&self) -> Step {
        let core = self.core;
        let mut say = vec![
            "A finished part must not drop: spindle stopped, saw the core by hand, the part held or lying on a board.".to_owned(),
            "Where it may drop: go on, slowly, a soft catch below it, no hand near.".to_owned(),
        ];
        if let Some(depth) = self.depth_to(self.bore) {
            say.push(format!("It is through at *{depth}*."));
        }
        say.push("Face the end to length in another holding.".to_owned());
        Step {
            title: "The last of it".to_owned(),
            say,
            label: "core left".to_owned(),
            figure: format!("Ø {}", self.by_rule(core)),
            caution: Some("Never saw, and never touch the part, while it turns."),
            done: "Off",
            cuts: true,
            ..Step::default()
        }
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
        let core = self.core;
        if self.bore < core { 3 } else { 2 }
    }

    fn step(&self, at: usize) -> Option<Step> {
        Some(match at {
            0 => self.mount(),
            1 => self.groove(),
            _ => self.last(),
        })
    }
}
