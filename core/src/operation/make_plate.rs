//! A plate from nothing: a division plate that isn't owned, made from what is.

use super::circle::{Circle, Unmade, Work};
use super::works::PIN_AND_LOCK;
use super::{
    Answer, CUTTER_IN, Card, Deed, Fact, Found, Kind, Lacking, Mark, Step, Tone, WORK_IN, Why,
    Worked, Works,
};
use crate::dividing::misplaced;
use crate::exact::Ratio;
use crate::procedure::{self, Action, Item, StepId, WorkAt};
use crate::quantity::{Quantity, show};
use crate::record::{LENGTH, Node, Record, Shape, Spec, field};
use crate::shop::Shop;
use alloc::borrow::ToOwned;
use alloc::boxed::Box;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

pub(super) static KIND: Kind = Kind {
    name: "make-plate",
    wire: 14,
    title: "Make a division plate",
    spec: &Spec {
        name: "make-plate",
        fields: &[
            field("holes", 1, "holes", Shape::Count(2, 999)),
            field("diameter", 2, "circle's diameter", LENGTH),
            field("further", 3, "copied again", Shape::Flag),
            field("work_in", 4, "work in", Shape::Choice(WORK_IN)),
            field("cutter_in", 5, "cutter in", Shape::Choice(CUTTER_IN)),
            field("way", 6, "way, by its number", Shape::Count(1, 9999)),
        ],
    },
    sentences: &[(
        "",
        "Make a plate of {holes} holes on Ø {diameter}[, copied again: {further}][, work in {work_in}][, cutter in {cutter_in}][; by way {way}].",
    )],
    instead: &[],
    from_shop: &["lathe", "dividing"],
    measured: &[],
};

pub(super) static WORKS: Works = Works {
    deed: |_| Deed::of("the plate"),
    on_return: PIN_AND_LOCK,
    ..Works::at_once(&KIND, answer)
};

/// A plate to be made.
#[derive(Clone, Debug)]
pub struct MakePlate {
    circle: Circle,
    /// The same plate made over again on the head by the one just made.
    copy: Option<Circle>,
    diameter: Option<Quantity>,
    /// Turns of the crank for one of the work, where a head is owned.
    worm: Option<u32>,
}

fn answer(entries: &Record, shop: &Shop) -> Answer {
    let Some(holes) = entries.count("holes") else {
        return Answer {
            lacking: Vec::from([Lacking { key: "ways", needs: "operation.holes" }]),
            ..Answer::refused("say how many holes the plate is to have")
        };
    };
    let circle = match Circle::even(holes, entries, shop) {
        Ok(circle) => circle,
        Err(Unmade::Cannot(why)) => return Answer::refused(why.to_string()),
        Err(Unmade::NothingOwned(needs)) => {
            return Answer {
                lacking: Vec::from([Lacking { key: "ways", needs }]),
                ..Answer::refused("nothing in the shop divides a plate yet")
            };
        }
    };
    let mut lacking = Vec::new();
    let copy = circle.copied(entries, shop);
    let worm = copy.as_ref().and_then(Circle::best).map(|way| way.worm_ratio);
    if worm.is_none() {
        lacking.push(Lacking { key: "at_work_arcsec", needs: "shop.dividing" });
    }
    let diameter = entries.quantity("diameter").cloned();
    if diameter.is_none() {
        lacking.push(Lacking { key: "hole_error_mm", needs: "operation.diameter" });
    }
    let further = entries.flag("further") == Some(true);
    let plate = MakePlate { copy: copy.filter(|_| further), circle, diameter, worm };
    Answer {
        cautions: plate.circle.arrangement.cautions(),
        unmade: plate
            .circle
            .unmade(None)
            .or_else(|| plate.copy.as_ref().and_then(|copy| copy.unmade(None)))
            .map(Box::new),
        why: plate.why(),
        lacking,
        found: Some(Found::MakePlate(Box::new(plate))),
        ..Answer::default()
    }
}

impl MakePlate {
    /// The holes' places; what drills them isn't asked for yet.
    fn work(&self) -> Work<'_> {
        Work {
            noun: "hole",
            first: 1,
            mark: Mark::Hole,
            layout: None,
            length: &|_| None,
            at_place: &|_| Vec::new(),
            after_cut: &|_| Vec::new(),
            figure: &|_| None,
            diameter: self.diameter.as_ref(),
        }
    }

    /// The most that a hole is off, in turns of the plate.
    fn off(&self) -> Ratio {
        self.circle.best().map_or(Ratio::ZERO, |way| way.worst)
    }

    /// What the worm leaves of it, once for the work, and once more for each copy.
    fn after(&self, off: Ratio) -> Option<Ratio> {
        off.div(self.worm?.into()).ok()
    }

    /// Each stage and its error in turns: the holes, the work through the worm, and the same for
    /// the copy.
    fn stages(&self) -> Vec<(&'static str, &'static str, Ratio)> {
        let mut stages = Vec::from([("hole_error_arcsec", "holes off by up to", self.off())]);
        let mut add = |key, label, off: Option<Ratio>| {
            stages.extend(off.map(|off| (key, label, off)));
        };
        let once = self.after(self.off());
        add("at_work_arcsec", "of that at the work", once);
        if self.copy.is_some() {
            // The copy is drilled through the worm: its holes are off as the work would be.
            add("copy_hole_error_arcsec", "holes of the copy", once);
            let twice = once.and_then(|once| self.after(once));
            add("copy_at_work_arcsec", "at the work by the copy", twice);
        }
        stages
    }

    fn why(&self) -> Vec<Why> {
        let mut whys = self.circle.why(self.diameter.as_ref());
        if let Some(worm) = self.worm {
            let stages = self.stages();
            let said = stages.iter().map(|(_, _, off)| show::arc(misplaced::arcsec(*off)));
            whys.push(Why::new(
                "a hole off by so much puts the crank off by it, and the work by that over the worm's ratio; a copy made so starts from there. What worm and wheel are out by themselves is not lessened",
                format!("1/{worm} each time: {}", said.collect::<Vec<_>>().join(", ")),
                "arithmetic",
            ));
        }
        whys
    }
}

impl Worked for MakePlate {
    fn json(&self) -> Vec<(String, Node)> {
        let mut pairs = self.circle.keys(true);
        pairs.push(("positions".to_owned(), self.circle.positions()));
        for (key, _, off) in self.stages() {
            pairs.push((key.to_owned(), Node::from(misplaced::arcsec(off))));
        }
        if let Some(diameter) = &self.diameter {
            let off = misplaced::at_rim(self.off(), diameter.value());
            pairs.push(("hole_error_mm".to_owned(), Node::from(off)));
        }
        if let Some(copy) = &self.copy {
            pairs.push(("copy".to_owned(), Node::Object(copy.keys(true))));
        }
        pairs
    }

    fn card(&self) -> Card {
        let diameter = self.diameter.as_ref();
        let mut facts = Vec::new();
        for (at, (_, label, off)) in self.stages().into_iter().enumerate() {
            let mut value = match off.is_zero() {
                true => "nothing".to_owned(),
                false => show::arc(misplaced::arcsec(off)),
            };
            if let (0, false, Some(diameter)) = (at, off.is_zero(), diameter) {
                let mm = misplaced::at_rim(off, diameter.value());
                value.push_str(&format!(", {}", show::small_like(mm, diameter.unit())));
            }
            facts.push(Fact::new(label, value));
        }
        facts.extend(self.circle.facts(None));
        let verdict = match (self.circle.verdict(None), self.stages().last()) {
            (Some((Tone::Note | Tone::Mind, words)), Some((_, _, left)))
                if self.worm.is_some() && self.circle.idlers_short() == 0 =>
            {
                let left = show::arc(misplaced::arcsec(*left));
                Some((Tone::Note, format!("{words}; {left} of it left at the work")))
            }
            (verdict, _) => verdict,
        };
        Card {
            lines: self.circle.lines(),
            verdict,
            facts,
            picture: self.circle.card_picture(),
            others_title: "other ways",
            others: self.circle.others(diameter),
            ..Card::default()
        }
    }

    fn steps(&self) -> usize {
        let work = self.work();
        let copy = self.copy.as_ref().map_or(0, |copy| copy.steps(&work));
        self.circle.steps(&work).saturating_add(copy)
    }

    fn step(&self, at: usize) -> Option<Step> {
        let work = self.work();
        let Some(again) = at.checked_sub(self.circle.steps(&work)) else {
            return self.circle.step(at, &work);
        };
        let mut step = self.copy.as_ref()?.step(again, &work)?;
        let stage = match step.id.stage {
            "mount" => "copy-mount",
            "slack" => "copy-slack",
            "move" => "copy-move",
            "cut" => "copy-cut",
            "check" => "copy-check",
            "round" => "copy-round",
            _ => "copy-deburr",
        };
        step.id = StepId::new(stage, step.id.n);
        if stage == "copy-mount" {
            // The plate just made comes out, and the blank of its copy goes into the head.
            let out = procedure::Work::at(match self.circle.in_head() {
                true => WorkAt::Head,
                false => WorkAt::LatheSpindle,
            });
            let isolated = step.actions.len().min(2);
            step.actions.insert(isolated, Action::Remove(Item::Work(out)));
        }
        Some(Step { title: format!("The copy: {}", step.title), ..step })
    }

    fn back(&self, at: usize) -> Option<String> {
        let work = self.work();
        match at.checked_sub(self.circle.steps(&work)) {
            None => self.circle.back(at, &work),
            Some(again) => self.copy.as_ref()?.back(again, &work),
        }
    }
}
