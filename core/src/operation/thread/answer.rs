//! One thread on one lathe: everything that can be said of it.

use super::super::{Answer, Card, Found, Lacking, Step, Worked};
use super::course::Course;
use super::cut::{Cut, NoCut};
use super::depths::Depths;
use super::gauge::{OverWires, TapDrill, helix, judged};
use super::gears::{Gears, NoGears, leadscrew};
use super::nuts::Nuts;
use super::pace::{Pace, SECONDS};
use super::sizes::Sizes;
use super::steps::{Made, Stage};
use super::tool::Tool;
use super::wanted::Wanted;
use super::{card, json, steps, why};
use crate::exact::Ratio;
use crate::operation::ready::{Kit, found_out};
use crate::record::{Node, Record};
use crate::shop::{Dial, Shop};
use crate::threads::{Hand, Lead, LeadError, LimitsError, Series, Side, TapHole};
use alloc::boxed::Box;
use alloc::string::String;
use alloc::vec::Vec;

/// A thread, worked out for one shop.
#[derive(Clone, Debug)]
pub struct Thread {
    pub(super) wanted: Wanted,
    pub(super) screw: Option<Lead>,
    pub(super) gears: Result<Gears, NoGears>,
    pub(super) nuts: Option<Nuts>,
    pub(super) sizes: Option<Sizes>,
    pub(super) cut: Option<Result<Cut, NoCut>>,
    pub(super) wires: Option<OverWires>,
    pub(super) helix: Option<f64>,
    pub(super) tool: Option<Tool>,
    pub(super) pace: Option<Pace>,
    pub(super) judged: Option<LeadError>,
    pub(super) tap: Option<(TapHole, Option<TapDrill>)>,
    pub(super) lathe: Lathe,
    pub(super) kit: Kit,
    /// How deep the passes go, and where they run: none where nothing is made.
    made: Option<Box<(Course, Depths)>>,
    /// What Bench walks through.
    plan: Vec<Stage>,
}

/// What of the lathe decides how a pass is run.
#[derive(Clone, Debug)]
pub(super) struct Lathe {
    /// The chuck can't screw itself off when the spindle is driven backwards: that is said.
    pub(super) fixed_nose: bool,
    /// The spindle can be driven backwards; none where it isn't said.
    pub(super) reverse: Option<bool>,
    /// It can be turned by a crank.
    pub(super) crank: bool,
    /// Seconds to let go of a thread.
    pub(super) reaction: f64,
    /// The cross slide's dial.
    pub(super) cross: Option<Dial>,
    /// The compound's dial, for setting from one start to the next.
    pub(super) compound: Option<Dial>,
}

impl Lathe {
    fn of(shop: &Shop) -> Lathe {
        let lathe = shop.lathe();
        Lathe {
            fixed_nose: lathe.choice("nose").is_some_and(|nose| nose != "screwed"),
            reverse: lathe.flag("reverse"),
            crank: lathe.flag("hand_crank") == Some(true),
            reaction: lathe.ratio("reaction_seconds").map_or(SECONDS, Ratio::to_f64),
            cross: shop.dial("cross"),
            compound: shop.dial("compound"),
        }
    }
}

pub(super) fn answer(entries: &Record, shop: &Shop) -> Answer {
    let wanted = match Wanted::read(entries) {
        Ok(wanted) => wanted,
        Err(why) => return Answer::refused(why),
    };
    let sizes = match Sizes::of(&wanted) {
        Ok(sizes) => sizes,
        Err(why) => return Answer::refused(why),
    };
    let gears = Gears::search(&wanted, shop);
    let screw = leadscrew(shop);
    let nuts = screw.and_then(|screw| Nuts::of(wanted.lead, screw, gears.as_ref().ok(), shop).ok());
    let of_sizes = sizes.as_ref();
    let mut thread = Thread {
        cut: of_sizes.map(|sizes| Cut::plan(entries, &wanted, sizes, shop)),
        wires: of_sizes.and_then(|sizes| OverWires::of(&wanted, sizes, shop)),
        tool: of_sizes.map(|sizes| Tool::of(&wanted, sizes)),
        pace: Pace::of(&wanted, shop, nuts.as_ref().is_none_or(Nuts::closed)),
        helix: of_sizes.and_then(|sizes| helix(&wanted, sizes)),
        judged: of_sizes.zip(gears.as_ref().ok()).and_then(|(s, g)| judged(&wanted, s, g)),
        tap: of_sizes.and_then(|sizes| TapDrill::of(&wanted, sizes, shop).ok().flatten()),
        lathe: Lathe::of(shop),
        wanted,
        screw,
        gears,
        nuts,
        sizes,
        kit: Kit::of(shop),
        made: None,
        plan: Vec::new(),
    };
    let springs = entries.count("springs").unwrap_or(1);
    let depths = Depths::of(&thread, springs, thread.kit, shop);
    let mut unmade = None;
    match Course::of(&thread, &depths, shop) {
        Ok(course) => {
            thread.plan = steps::plan(&thread, &depths);
            thread.made = Some(Box::new((course, depths)));
        }
        Err(why) => unmade = Some(Box::new(why)),
    }
    let answer = Answer {
        unmade,
        lacking: thread.lacking(),
        cautions: thread.cautions(),
        why: why::why(&thread),
        found: Some(Found::Thread(Box::new(thread))),
        ..Answer::default()
    };
    found_out(answer, shop, "operation.length")
}

impl Thread {
    /// What could not be worked out, each with the entry that would bring it.
    fn lacking(&self) -> Vec<Lacking> {
        let mut lacking = Vec::new();
        let mut lacks = |key, needs| lacking.push(Lacking { key, needs });
        let screw = "shop.lathe.leadscrew";
        let gears_need = match &self.gears {
            Ok(gears) => gears.best().is_none().then_some("shop.lathe.change_gears"),
            Err(NoGears::Leadscrew) => Some(screw),
            Err(NoGears::Drawer) => Some("shop.lathe.change_gears"),
            Err(NoGears::Because(_)) => Some("shop.lathe"),
        };
        if self.screw.is_none() {
            lacks("ratio", screw);
        }
        match &self.gears {
            Ok(gears) => {
                if gears.screw_hand.is_none() {
                    lacks("idlers", "shop.lathe.leadscrew_hand");
                } else if gears.tumbler.is_none() {
                    lacks("idlers", "shop.lathe.tumbler");
                }
            }
            Err(_) => {
                let needs = gears_need.unwrap_or(screw);
                lacks("trains", needs);
                lacks("selections", needs);
            }
        }
        if self.nuts.is_none() {
            lacks("half_nuts", screw);
        }
        if self.pace.as_ref().is_some_and(|pace| pace.speed.is_none()) {
            lacks("spindle_rpm", "shop.lathe.spindle_speeds");
        }
        let Some(sizes) = &self.sizes else {
            for key in [
                "depth_mm",
                "pitch_diameter_mm",
                "minor_diameter_mm",
                "limits",
                "tap_drill",
                "wires",
                "helix_deg",
                "lead_error_share",
                "passes",
            ] {
                lacks(key, "operation.designation");
            }
            return lacking;
        };
        for (key, absent) in [
            ("pitch_diameter_mm", sizes.pitch.is_none()),
            ("minor_diameter_mm", sizes.minor.is_none()),
            ("helix_deg", self.helix.is_none()),
        ] {
            if absent {
                lacks(key, "operation.diameter");
            }
        }
        let limits_need = match (&self.wanted.no_class, &sizes.limits) {
            (Some(_), _) => Some("operation.class"),
            (None, Ok(_)) => None,
            (None, Err(LimitsError::NoDiameter)) => Some("operation.diameter"),
            (None, Err(LimitsError::WrongClass(..) | LimitsError::NotAtThisPitch(_))) => {
                Some("operation.class")
            }
            // Of a worm or the like there are none, whatever is entered.
            (None, Err(_)) => None,
        };
        if let Some(needs) = limits_need {
            lacks("limits", needs);
        }
        if self.share().is_none() && (sizes.limits.is_ok() || limits_need.is_some()) {
            let length = self.wanted.engaged.is_none() && self.wanted.length.is_none();
            let length = length.then_some("operation.length");
            let needs = gears_need.or(limits_need).or(length).unwrap_or("operation.length");
            lacks("lead_error_share", needs);
        }
        match &self.tap {
            Some((_, None)) => lacks("tap_drill", "shop.drills"),
            None if self.wanted.thread.diameter.is_none() => {
                lacks("tap_drill", "operation.diameter");
            }
            _ => {}
        }
        match &self.cut {
            Some(Err(NoCut::Dial)) => lacks("passes", "shop.lathe.dials.cross"),
            Some(Err(NoCut::Compound)) => lacks("passes", "shop.lathe.dials.compound"),
            Some(Err(NoCut::Because(_))) => lacks("passes", "shop.lathe.dials.cross.division"),
            _ => {}
        }
        lacking
    }

    /// Whether only its mate says how deep it goes.
    pub(super) fn by_mate(&self) -> bool {
        self.wanted.to_nut || self.sizes.is_none()
    }

    /// The lead's error as a share of the pitch diameter's tolerance.
    pub(super) fn share(&self) -> Option<f64> {
        self.judged.and_then(|judged| judged.share)
    }

    /// What to look out for, before anything of it is done.
    fn cautions(&self) -> Vec<&'static str> {
        let mut cautions = Vec::new();
        if self.wanted.thread.hand == Hand::Left && self.wanted.side == Side::Outside {
            cautions
                .push("A left-hand thread is cut towards the tailstock: it starts in a groove.");
        }
        if let Some(Ok(cut)) = &self.cut
            && cut.parallel
        {
            cautions.push(
                "For several starts the compound stands parallel to the work: fed straight in.",
            );
        }
        if self.wanted.class_of_other_side() {
            cautions.push("The class in the name is for the other side; the usual one is taken.");
        }
        if let Ok(gears) = &self.gears
            && !gears.found.complete
        {
            cautions.push(
                "So many gears and so tight a banjo: some mountable trains were not looked at.",
            );
        }
        if matches!(self.wanted.thread.series, Series::Plain) && self.wanted.to_nut {
            cautions
                .push("Without the thread's form only the nut itself says when it is deep enough.");
        }
        cautions
    }
}

impl Worked for Thread {
    fn json(&self) -> Vec<(String, Node)> {
        json::json(self)
    }

    fn card(&self) -> Card {
        card::card(self)
    }

    fn steps(&self) -> usize {
        self.plan.len()
    }

    fn step(&self, at: usize) -> Option<Step> {
        let (course, depths) = self.made.as_deref()?;
        let made = Made { thread: self, course, depths };
        self.plan.get(at).and_then(|stage| steps::step(&made, *stage))
    }
}
