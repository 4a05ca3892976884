//! A circle divided at the machine: mount, take up the slack, then place after place, with a check half-way
//! and one at the end.
//!
//! Each place is two steps: lock off, move, lock on, which is done when it is locked; then the cut, which is
//! done when it is cut. So no cut can be come to but past a lock. Where nothing is cut, because nothing says
//! what, a place is its move alone.

use super::divided::Circle;
use super::layout::Layout;
use super::words;
use crate::dividing::{At, Place, Setting, Way};
use crate::exact::Ratio;
use crate::operation::ready::{
    Kit, back_from, compound_fast, held, lathe, lock_of, parted, set_speed, spindle_free, to_start,
};
use crate::operation::{Mark, Picture, Step};
use crate::procedure::{
    Action, Adjustable, Axis, Between, Chalked, Cleared, Cutter, CutterAt, CutterStands, Face,
    FeedBy, Fitting, Gear, GearOn, InOut, Item, Length, Lockable, OnOff, Pin, Running, Shape,
    Slide, Spindle, Statement, StepId, Tended, Toward, Turning, Until,
};
use crate::quantity::{Quantity, show};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// What is made at each place, as far as it isn't the same for every circle.
pub(in crate::operation) struct Work<'a> {
    /// What a place is called: "division", "line".
    pub(in crate::operation) noun: &'static str,
    /// The number of the first place.
    pub(in crate::operation) first: u32,
    /// How it is drawn.
    pub(in crate::operation) mark: Mark,
    /// How it is cut; none where nothing says what is cut.
    pub(in crate::operation) layout: Option<&'a Layout>,
    /// How long the stroke is at a place, by its number from 0, mm; up to a mark on the work where none is known.
    pub(in crate::operation) length: &'a dyn Fn(u32) -> Option<Ratio>,
    /// What to remark when a place is cut; no figure in it.
    pub(in crate::operation) at_place: &'a dyn Fn(u32) -> Vec<String>,
    /// What is done at a place once it is cut, everything clear and stopped.
    pub(in crate::operation) after_cut: &'a dyn Fn(u32) -> Vec<Action>,
    /// What is read while it is cut, and its figure; where there is nothing to read, the place is shown.
    pub(in crate::operation) figure: &'a dyn Fn(u32) -> Option<(String, String)>,
    /// Across the cuts.
    pub(in crate::operation) diameter: Option<&'a Quantity>,
}

#[derive(Clone, Copy)]
enum Stage {
    Mount,
    Gears,
    Slack,
    Ready,
    Depth,
    /// A lap round with the centre drill comes before the drill's own.
    Move(u32, bool),
    Cut(u32, bool),
    Change,
    HalfWay,
    Round,
    Deburr,
}

/// Over the work's edge by so much, a face or rim can be touched, mm. Common practice, no source.
const OVER: Ratio = Ratio::whole(3);
/// How deep a centre drill goes, mm: so that the drill doesn't wander. Common practice, no source.
const SPOT: Ratio = Ratio::ONE;

impl Circle {
    pub(in crate::operation) fn steps(&self, work: &Work<'_>) -> usize {
        let made = usize::try_from(self.made()).unwrap_or(usize::MAX);
        let laps = if self.spotted(work) { 2 } else { 1 };
        let places = made.saturating_mul(2).saturating_mul(laps);
        let check = usize::from(self.half().is_some()).saturating_mul(laps);
        // The tool is changed between two laps.
        let change = laps.saturating_sub(1);
        // Round again, and deburring.
        let before = self.before(work).len();
        before.saturating_add(places).saturating_add(check).saturating_add(change).saturating_add(2)
    }

    pub(in crate::operation) fn step(&self, at: usize, work: &Work<'_>) -> Option<Step> {
        let way = self.best()?;
        match self.stage(at, work)? {
            Stage::Mount => Some(self.mount(way, work)),
            Stage::Gears => self.gears_on(way),
            Stage::Slack => Some(self.with_rim(self.slack(way, work), 0, work)),
            Stage::Ready => Some(self.with_rim(self.ready(work)?, 0, work)),
            Stage::Depth => Some(self.with_rim(self.depth(work)?, 0, work)),
            Stage::Move(after, spot) => self.move_to(after, spot, work),
            Stage::Cut(after, spot) => self.cut(after, spot, work),
            Stage::Change => Some(self.with_rim(self.change(work)?, 0, work)),
            Stage::HalfWay => self.half_way_check(work),
            Stage::Round => self.round_check(way, work),
            Stage::Deburr => Some(self.with_rim(self.deburr(work), self.made(), work)),
        }
    }

    fn with_rim(&self, step: Step, after: u32, work: &Work<'_>) -> Step {
        Step { picture: Some(self.rim(after, work.mark, work.first)), ..step }
    }

    /// Whether a lap with a centre drill comes first: the drill would wander.
    fn spotted(&self, work: &Work<'_>) -> bool {
        let drill = work.layout.is_some_and(|layout| layout.cutter.shape == Shape::Drill);
        drill && self.comes_round()
    }

    /// Whether a second lap comes to the same places: its holes are others where two pins or a plate that
    /// gears turn aren't home again, and are counted on.
    fn comes_round(&self) -> bool {
        self.best().is_some_and(|way| way.closing.is_zero())
    }

    /// After how many places the first cut is straight across.
    fn half(&self) -> Option<u32> {
        let way = self.best()?;
        let even = !self.irregular() && self.into >= 4 && self.into & 1 == 0 && way.exact;
        even.then_some(self.into >> 1)
    }

    /// What comes before the first cut.
    fn before(&self, work: &Work<'_>) -> Vec<Stage> {
        let mut stages = Vec::from([Stage::Mount]);
        match self.best().map(|way| way.setting) {
            Some(Setting::Direct { .. } | Setting::HalfTooth { .. }) | None => {}
            Some(Setting::Differential { .. }) => stages.extend([Stage::Gears, Stage::Slack]),
            Some(_) => stages.push(Stage::Slack),
        }
        if work.layout.is_some() {
            stages.extend([Stage::Ready, Stage::Depth]);
        }
        stages
    }

    fn stage(&self, at: usize, work: &Work<'_>) -> Option<Stage> {
        let before = self.before(work);
        if let Some(stage) = before.get(at) {
            return Some(*stage);
        }
        let mut at = u32::try_from(at.checked_sub(before.len())?).ok()?;
        let half = self.half();
        let lap = self.made().saturating_mul(2).saturating_add(u32::from(half.is_some()));
        let mut spot = self.spotted(work);
        if spot {
            match at.checked_sub(lap) {
                None => {}
                Some(0) => return Some(Stage::Change),
                Some(past) => {
                    at = past.saturating_sub(1);
                    spot = false;
                }
            }
        }
        // The check stands between the move to the place that it looks at and its cut.
        if let Some(look) = half.map(|after| after.saturating_mul(2).saturating_add(1)) {
            if at == look {
                return Some(Stage::HalfWay);
            }
            if at > look {
                at = at.saturating_sub(1);
            }
        }
        let made = self.made().saturating_mul(2);
        if at >= made {
            return match at.saturating_sub(made) {
                0 => Some(Stage::Round),
                1 => Some(Stage::Deburr),
                _ => None,
            };
        }
        let after = at.checked_div(2)?;
        Some(if at.checked_rem(2)? == 0 {
            Stage::Move(after, spot)
        } else {
            Stage::Cut(after, spot)
        })
    }

    /// Why nothing can be divided so, though the figures stand.
    pub(in crate::operation) fn unmade(
        &self,
        layout: Option<&Layout>,
    ) -> Option<crate::operation::Unmade> {
        let unmade =
            |why: &str, needs| Some(crate::operation::Unmade { why: why.to_owned(), needs });
        self.best()?;
        if !self.direct() && !self.in_head() {
            return unmade(
                "the head's worm turns the head's own spindle: the work must be in the head",
                "operation.work_in",
            );
        }
        if self.irregular() && self.confused() {
            return unmade(
                "two of the angles are nearer to each other than what is owned tells apart",
                "shop.dividing",
            );
        }
        if self.idlers_short() > 0 {
            return unmade(
                "too few gears for the idlers of this train",
                "shop.dividing.head.gears",
            );
        }
        let drilled = layout.is_some_and(|layout| layout.cutter.shape == Shape::Drill);
        if drilled && !self.comes_round() {
            return unmade(
                "a drill wanders without a centre drill before it, and this way doesn't come round to the same places: an end mill plunges by itself",
                "operation.cutter",
            );
        }
        None
    }

    /// Whether a head holds the work.
    pub(in crate::operation) fn in_head(&self) -> bool {
        self.arrangement.work == super::arrangement::WorkIn::Head
    }

    const fn locked(&self) -> Lockable {
        match self.arrangement.work {
            super::arrangement::WorkIn::Head => Lockable::Head,
            super::arrangement::WorkIn::LatheSpindle => Lockable::LatheSpindle,
        }
    }

    fn mount(&self, way: &Way, work: &Work<'_>) -> Step {
        let mut actions = Vec::from([Action::Isolate, Action::Key { is: InOut::Out }]);
        actions.push(Action::Look(Statement::Cutter { is: CutterStands::Clear, off: None }));
        let head = self.in_head();
        if head {
            let axis = work.layout.and_then(|layout| layout.head).unwrap_or(Axis::Across);
            actions.extend([
                Action::Remove(Item::Fitting { which: Fitting::Compound }),
                Action::Mount(Item::Head { axis }),
            ]);
            // Where nothing is said of a cutter there is nothing to be level with.
            if work.layout.is_some() {
                let above = Length::mm(Ratio::ZERO);
                actions.push(Action::SetHeight { what: Adjustable::Head, above });
            }
        }
        let mut held_at = crate::procedure::Work::at(match head {
            true => crate::procedure::WorkAt::Head,
            false => crate::procedure::WorkAt::LatheSpindle,
        });
        if work.mark != Mark::Hole {
            held_at.diameter = work.diameter.map(Length::from);
        }
        actions.push(held(held_at));
        actions.push(Action::Unlock { what: self.locked() });
        let on = if head { GearOn::HeadSpindle } else { GearOn::LatheSpindle };
        let (label, figure, title) = match way.setting {
            Setting::Direct { positions, .. } | Setting::HalfTooth { positions, .. } => {
                if head {
                    actions.push(match self.plates.is_empty() {
                        true => Action::Look(Statement::Worm { is: InOut::Out }),
                        false => Action::Worm { is: InOut::Out },
                    });
                }
                actions.extend([
                    Action::Mount(Item::Gear(Gear { teeth: Some(positions), on })),
                    Action::Detent { is: InOut::In },
                    Action::Chalk { what: Chalked::Detent },
                ]);
                ("on the spindle", positions.to_string(), "Put the gear or plate on")
            }
            Setting::Compound { first, second, .. } => {
                actions.extend(self.plate_on(&[first.circle, second.circle]));
                actions.extend([
                    Action::Mount(Item::Pin { pin: Pin::Crank, circle: first.circle }),
                    Action::Mount(Item::Pin { pin: Pin::Stop, circle: second.circle }),
                ]);
                ("circles", format!("{}, {}", first.circle, second.circle), "Put the plate on")
            }
            Setting::Plain { circle, .. } | Setting::Differential { circle, .. } => {
                let circles: Vec<u16> = circle.into_iter().collect();
                actions.extend(self.plate_on(&circles));
                if let Some(circle) = circle {
                    actions.push(Action::Mount(Item::Pin { pin: Pin::Crank, circle }));
                }
                let figure = circle.map_or_else(String::new, |circle| circle.to_string());
                ("circle", figure, "Put the plate on")
            }
        };
        if !self.direct() {
            actions.extend([
                Action::Worm { is: InOut::In },
                Action::StopPin { is: InOut::In },
                Action::CrankPin { is: InOut::In },
            ]);
            if let Some((circle, spaces)) = self.arms_set() {
                actions.push(Action::SetArms { circle, spaces });
            }
        }
        Step {
            id: StepId::new("mount", 1),
            title: title.to_owned(),
            actions,
            label: label.to_owned(),
            figure,
            done: "Mounted",
            picture: self.picture(None, 0),
            ..Step::default()
        }
    }

    /// The plate that has these circles.
    fn plate_on(&self, circles: &[u16]) -> Option<Action> {
        let has = |plate: &&Vec<u16>| circles.iter().all(|circle| plate.contains(circle));
        let number = self.plates.iter().position(|plate| has(&plate))?;
        let plate = self.plates.get(number)?;
        let number = u32::try_from(number.saturating_add(1)).ok();
        Some(Action::Mount(Item::Plate {
            on: GearOn::PlateShaft,
            number: number.filter(|_| self.plates.len() > 1),
            circles: plate.clone(),
        }))
    }

    fn gears_on(&self, way: &Way) -> Option<Step> {
        let Setting::Differential { train, .. } = way.setting else { return None };
        let pairs = train.pairs();
        let gear = |teeth: u16, on| Gear { teeth: Some(teeth), on };
        let mut actions = Vec::new();
        let (first, last) = match pairs {
            [(driver, driven)] => {
                (gear(*driver, GearOn::HeadSpindle), gear(*driven, GearOn::PlateShaft))
            }
            [(first, second), (third, fourth)] => {
                let (first, second) =
                    (gear(*first, GearOn::HeadSpindle), gear(*second, GearOn::Stud));
                actions.extend([
                    Action::Mount(Item::Gear(first)),
                    Action::Mount(Item::Gear(second)),
                    Action::Mesh { driver: first, driven: second },
                ]);
                (gear(*third, GearOn::Stud), gear(*fourth, GearOn::PlateShaft))
            }
            _ => return None,
        };
        actions.extend([Action::Mount(Item::Gear(first)), Action::Mount(Item::Gear(last))]);
        let idler = Gear { teeth: None, on: GearOn::IdlerStud };
        let mut before = first;
        for _ in 0..train.idlers() {
            actions.extend([
                Action::Mount(Item::Gear(idler)),
                Action::Mesh { driver: before, driven: idler },
            ]);
            before = idler;
        }
        actions.push(Action::Mesh { driver: before, driven: last });
        actions.push(Action::StopPin { is: InOut::Out });
        let way = if train.with_crank() { Turning::Forward } else { Turning::Back };
        actions.push(Action::Look(Statement::PlateCreep { way }));
        Some(Step {
            id: StepId::new("gears", 1),
            title: "Gear the plate to the spindle".to_owned(),
            actions,
            say: Vec::from(["If it creeps the other way: one idler more, or one less.".to_owned()]),
            label: "drives".to_owned(),
            figure: words::gears(&train, "").replace(" drives ", " : "),
            done: "Mounted",
            picture: Some(Picture::HeadTrain {
                pairs: pairs.to_vec(),
                idlers: train.idlers().into(),
            }),
            ..Step::default()
        })
    }

    /// A whole turn forward takes up the slack of the worm; where the pins are then is nought.
    fn slack(&self, way: &Way, work: &Work<'_>) -> Step {
        let mut actions = Vec::from([
            Action::CrankPin { is: InOut::Out },
            Action::TurnCrank { turns: 1, holes: 0, circle: None, way: Turning::Forward },
            Action::CrankPin { is: InOut::In },
        ]);
        if self.arms_set().is_some() {
            actions.push(Action::SwingArms);
        }
        actions.push(Action::Chalk { what: Chalked::CrankPin });
        if matches!(way.setting, Setting::Compound { .. }) {
            actions.push(Action::Chalk { what: Chalked::StopPin });
        }
        let mut say = Vec::from([
            "That takes up the slack of the worm: from now on every place is come to forward."
                .to_owned(),
            "Past the hole? Back by half a turn, then forward up to it.".to_owned(),
        ]);
        if let Some((passed, moves)) = self.laps() {
            let noun = work.noun;
            say.push(format!(
                "Each move passes *{passed}* {noun}s: they come out of order, and the next to the first is made *{moves}* moves on."
            ));
        }
        Step {
            id: StepId::new("slack", 1),
            title: "Take up the slack".to_owned(),
            actions,
            say,
            label: "always".to_owned(),
            figure: "forward".to_owned(),
            done: "Done",
            ..Step::default()
        }
    }

    /// The cutter, the slides that stand still, and what runs.
    fn ready(&self, work: &Work<'_>) -> Option<Step> {
        let layout = work.layout?;
        let mut actions = Vec::from([
            Action::Look(Statement::HalfNuts { is: InOut::Out }),
            Action::Look(Statement::PowerFeed { is: InOut::Out }),
        ]);
        let first = if self.spotted(work) { spotter(layout) } else { layout.cutter.clone() };
        actions.extend(cutter_on(layout, first));
        if !layout.in_head() {
            actions.extend(compound_fast(Axis::Along));
        }
        let gauges = [layout.gauge(Slide::Cross), layout.gauge(Slide::Carriage)];
        actions.extend(Kit::indicator_for(&gauges));
        if layout.in_head() {
            actions.extend(layout.speed.as_ref().map(set_speed));
            actions.push(spindle_free());
            actions.extend(to_start(&[Cleared::Cutter]));
        }
        Some(Step {
            id: StepId::new("ready", 1),
            title: "Make ready".to_owned(),
            actions,
            done: "Done",
            ..Step::default()
        })
    }

    /// Touch both faces and set nought; a hole's slide goes to its place and is locked there.
    fn depth(&self, work: &Work<'_>) -> Option<Step> {
        let layout = work.layout?;
        let mut actions = Vec::from([Action::Lock { what: self.locked() }]);
        if layout.stroke.is_none() {
            actions.extend(hole_place(layout)?);
        }
        actions.extend(touched(layout));
        Some(Step {
            id: StepId::new("depth", 1),
            title: "Set the depth".to_owned(),
            actions,
            label: "nought at the touch".to_owned(),
            figure: "0".to_owned(),
            done: "Set",
            ..Step::default()
        })
    }

    /// The drill in place of the centre drill, and its own nought.
    fn change(&self, work: &Work<'_>) -> Option<Step> {
        let layout = work.layout?;
        let mut actions = Vec::new();
        if layout.in_head() {
            actions.push(Action::Isolate);
        }
        // The spindle stays where it is, and its height with it.
        actions.push(Action::Mount(Item::Cutter(layout.cutter.clone())));
        actions.push(Action::Look(Statement::Cutter { is: CutterStands::Clear, off: None }));
        if layout.in_head() {
            actions.extend(to_start(&[Cleared::Cutter]));
        }
        actions.extend(touched(layout));
        Some(Step {
            id: StepId::new("change", 1),
            title: "Change to the drill".to_owned(),
            actions,
            label: "nought at the touch".to_owned(),
            figure: "0".to_owned(),
            done: "Set",
            ..Step::default()
        })
    }

    fn number(after: u32) -> u32 {
        after.saturating_add(1)
    }

    /// Lock off, from the last place to this, lock on.
    fn move_to(&self, after: u32, spot: bool, work: &Work<'_>) -> Option<Step> {
        let place = self.worked(after)?;
        let lap = self.spotted(work);
        // The second lap begins where the first has come round, and is counted on from there.
        let second = lap && !spot;
        let at = |after| if second { self.once_round(after) } else { self.worked(after) };
        let target = at(after)?;
        let before = match after.checked_sub(1) {
            Some(before) => at(before),
            None if second => self.made().checked_sub(1).and_then(|last| self.worked(last)),
            None => None,
        };
        let spindle = self.locked();
        let head = self.in_head();
        let moves = self.moved(before.as_ref(), &target, head);
        let mut actions =
            Vec::from([Action::Look(Statement::Cutter { is: CutterStands::Clear, off: None })]);
        if !moves.is_empty() {
            actions.push(Action::Unlock { what: spindle });
            actions.extend(moves);
        }
        actions.push(Action::Lock { what: spindle });
        actions.extend(self.seen(&target));
        let (mut label, mut figure) = words::figure(
            &place.at,
            self.between(before.as_ref(), &target).map_or(0, |moved| moved.0),
        );
        if before.is_none() && at_nought(&place.at) {
            label = match place.at {
                At::Tooth { .. } | At::HalfTooth { .. } => "detent in tooth",
                At::Pins { .. } => "both pins in hole",
                At::Pin(_) => "pin in hole",
            };
            figure = "0".to_owned();
        }
        let degrees = self.degrees(&place).map(show::angle).unwrap_or_default();
        let stage = if lap && spot { "spot-move" } else { "move" };
        Some(Step {
            id: StepId::new(stage, Circle::number(after)),
            title: self.title(if lap && spot { "spot: move" } else { "move" }, after, &place, work),
            actions,
            say: Vec::from([format!("That is {degrees} on the work.")]),
            label: label.to_owned(),
            figure,
            done: "Locked",
            picture: self.place_picture(&place, after, work),
            ..Step::default()
        })
    }

    /// The cut at a place, the lock being on.
    fn cut(&self, after: u32, spot: bool, work: &Work<'_>) -> Option<Step> {
        let place = self.worked(after)?;
        let lap = self.spotted(work);
        let (what, is) = (self.locked(), OnOff::On);
        let mut actions = Vec::from([Action::Look(Statement::Lock { what, is })]);
        let mut say = (work.at_place)(after);
        if let Some(layout) = work.layout {
            actions.extend(running(layout, Running::Forward));
            match layout.stroke {
                Some(_) => actions.extend(strokes(layout, (work.length)(after))),
                None => actions.extend(plunge(layout, (lap && spot).then_some(SPOT))),
            }
            actions.extend(running(layout, Running::Stopped));
            if matches!(layout.cutter.shape, Shape::EndMill | Shape::Disc) {
                // A milled edge is a razor: off with its burr before a hand turns the work.
                actions.extend([
                    Action::Clean { what: Tended::Swarf },
                    Action::Deburr { what: Tended::Edges },
                ]);
            }
            if !(lap && spot) {
                actions.extend((work.after_cut)(after));
            }
        } else {
            actions.extend(self.seen(&place));
            say.push("What is cut here isn't said: name it, and how is told too.".to_owned());
        }
        let (label, figure) = (work.figure)(after).unwrap_or_else(|| {
            let (label, figure) = words::figure(&place.at, 1);
            (format!("locked: {}", label.trim_start_matches("forward to ")), figure)
        });
        Some(Step {
            id: StepId::new(if lap && spot { "spot" } else { "cut" }, Circle::number(after)),
            title: self.title(if lap && spot { "spot" } else { "cut" }, after, &place, work),
            actions,
            say,
            label,
            figure,
            done: "Cut",
            cuts: true,
            picture: Some(self.rim(after, work.mark, work.first)),
            ..Step::default()
        })
    }

    /// "move to line 3 of 40", "cut line 3 of 40".
    fn title(&self, done: &str, after: u32, place: &Place, work: &Work<'_>) -> String {
        let (noun, all) = (work.noun, self.made());
        let number = after.saturating_add(work.first);
        // A way that goes several times round comes to the divisions out of order.
        let own = place.division.saturating_add(work.first);
        if !self.irregular() && own != number {
            return format!("{done} {number} of {all}: {noun} {own}");
        }
        let to = if done.ends_with("move") { " to" } else { "" };
        format!("{done}{to} {noun} {number} of {all}")
    }

    fn half_way_check(&self, work: &Work<'_>) -> Option<Step> {
        let after = self.half()?;
        let place = self.worked(after)?;
        let (label, figure) = words::figure(&place.at, 0);
        Some(Step {
            id: StepId::new("check", 1),
            title: "Half-way check".to_owned(),
            actions: Vec::from([Action::Look(Statement::Cutter {
                is: CutterStands::OppositeFirst,
                off: None,
            })]),
            say: Vec::from(["If it isn't so, cut nothing: count again from the first.".to_owned()]),
            label: label.to_owned(),
            figure,
            done: "Seen",
            picture: self.place_picture(&place, after, work),
            ..Step::default()
        })
    }

    fn round_check(&self, way: &Way, work: &Work<'_>) -> Option<Step> {
        // A second lap was counted on from the first.
        let lap = self.spotted(work);
        let place = if lap { self.twice_round()? } else { self.closing()? };
        let spindle = self.locked();
        let last = self.made().checked_sub(1);
        let last =
            last.and_then(|last| if lap { self.once_round(last) } else { self.worked(last) });
        let mut actions = Vec::from([
            Action::Look(Statement::Cutter { is: CutterStands::Clear, off: None }),
            Action::Unlock { what: spindle },
        ]);
        actions.extend(self.moved(last.as_ref(), &place, self.in_head()));
        actions.push(Action::Lock { what: spindle });
        actions.extend(self.seen(&place));
        let first = self.worked(0).and_then(|place| self.degrees(&place));
        if first.is_some_and(Ratio::is_zero) {
            let rim = work.diameter.map(|diameter| {
                let turns = way.closing.abs().to_f64();
                let arc = turns * core::f64::consts::PI * diameter.to_f64();
                // Rounded up: it is a bound.
                Length::near(arc + 1e-4, diameter.unit())
            });
            let off = rim.flatten().filter(|_| !way.closing.is_zero());
            actions.push(Action::Look(Statement::Cutter { is: CutterStands::OverFirst, off }));
        }
        let (label, figure) = words::figure(&place.at, 0);
        Some(Step {
            id: StepId::new("round", 1),
            title: "Once round".to_owned(),
            actions,
            say: Vec::from([
                "Cut nothing here: it only shows whether the count was kept.".to_owned()
            ]),
            label: label.to_owned(),
            figure,
            done: "Seen",
            picture: self.place_picture(&place, self.into, work),
            ..Step::default()
        })
    }

    fn deburr(&self, work: &Work<'_>) -> Step {
        let mut actions = Vec::from([
            Action::Look(Statement::Cutter { is: CutterStands::Clear, off: None }),
            Action::Isolate,
        ]);
        if work.layout.is_some() {
            actions.extend([
                Action::Clean { what: Tended::Swarf },
                Action::Deburr { what: Tended::Edges },
            ]);
        }
        if let Some(layout) = work.layout {
            let gauges = [layout.gauge(Slide::Cross), layout.gauge(Slide::Carriage)];
            actions.extend(Kit::indicator_off(&gauges));
            if layout.stroke.is_none() {
                actions.push(Action::Unlock { what: Lockable::Cross });
            }
            if !layout.in_head() {
                actions.push(Action::Unlock { what: Lockable::Compound });
            }
        }
        actions.push(Action::Unlock { what: self.locked() });
        if self.direct() {
            actions.push(Action::Detent { is: InOut::Out });
        }
        if let Some(Setting::Differential { .. }) = self.best().map(|way| way.setting) {
            actions.extend(self.gears_off());
        }
        Step {
            id: StepId::new("deburr", 1),
            title: "Deburr".to_owned(),
            actions,
            done: "Done",
            ..Step::default()
        }
    }

    /// The plate's gears out of mesh, and its stop pin in again.
    fn gears_off(&self) -> Vec<Action> {
        let on = self.best().and_then(|way| self.gears_on(way)).map(|step| step.actions);
        parted(on.unwrap_or_default()).chain([Action::StopPin { is: InOut::In }]).collect()
    }

    /// How to come back to a step that was left: past its place, and up to it again the way in which
    /// every place is come to.
    pub(in crate::operation) fn back(&self, at: usize, work: &Work<'_>) -> Option<String> {
        let place = match self.stage(at, work)? {
            Stage::Move(after, _) | Stage::Cut(after, _) => self.worked(after)?,
            _ => return None,
        };
        let to = words::place(&place.at, "*");
        Some(format!(
            "Gone past it? Go back past {to} by half a turn, then forward up to it. If it was never left, leave it."
        ))
    }
}

fn at_nought(at: &At) -> bool {
    match at {
        At::Tooth { tooth, .. } => *tooth == 0,
        At::HalfTooth { half_teeth, .. } => *half_teeth == 0,
        At::Pin(pin) => pin.hole == 0 && pin.turns == 0,
        At::Pins { crank, plate } => crank.hole == 0 && plate.hole == 0,
    }
}

/// A centre drill in the drill's place.
fn spotter(layout: &Layout) -> Cutter {
    Cutter {
        shape: Shape::CentreDrill,
        name: None,
        diameter: None,
        teeth: None,
        ..layout.cutter.clone()
    }
}

/// The cutter mounted, at centre height where it rides on the slides.
fn cutter_on(layout: &Layout, cutter: Cutter) -> Vec<Action> {
    let (disc, at) = (cutter.shape == Shape::Disc, cutter.at);
    let mut actions = Vec::from([Action::Mount(Item::Cutter(cutter))]);
    if at != CutterAt::LatheSpindle {
        let what = if layout.dragged() { Adjustable::Tool } else { Adjustable::Cutter };
        actions.push(Action::SetHeight { what, above: Length::mm(Ratio::ZERO) });
    }
    actions.push(Action::Look(Statement::Cutter { is: CutterStands::Clear, off: None }));
    if disc {
        // A saw that runs out by more cuts with a few teeth (by the rule's table).
        let within = Length::mm(Ratio::of(5, 100));
        actions.push(Action::Look(Statement::RunsTrue { within }));
    }
    actions
}

/// The spindle that turns the cutter; nothing where it is dragged.
fn running(layout: &Layout, is: Running) -> Option<Action> {
    match (layout.dragged(), layout.in_head()) {
        (true, _) => None,
        (false, true) => Some(lathe(is)),
        (false, false) => Some(Action::Spindle { of: Spindle::Cutter, is }),
    }
}

fn clear((slide, toward): (Slide, Toward)) -> Action {
    back_from(slide, toward)
}

fn wind(layout: &Layout, (slide, toward): (Slide, Toward), mm: Ratio) -> Action {
    let (to, by) = layout.read(slide, toward, mm);
    Action::Wind { slide, to, by, toward, from: toward.opposite(), on: layout.gauge(slide) }
}

fn touch(layout: &Layout, (slide, toward): (Slide, Toward), face: Face) -> [Action; 2] {
    let between = if layout.dragged() { Between::Metal } else { Between::RunningCutter };
    [
        Action::Touch { slide, toward, face, between, thick: None },
        Action::Zero { slide, on: layout.gauge(slide) },
    ]
}

/// The touches with the cutter running, stopped again after them.
fn touched(layout: &Layout) -> Vec<Action> {
    let mut actions: Vec<Action> = running(layout, Running::Forward).into_iter().collect();
    actions.extend(touches(layout));
    actions.extend(running(layout, Running::Stopped));
    actions
}

/// The edge from which a stroke is measured, then the face that the depth is measured from.
fn touches(layout: &Layout) -> Vec<Action> {
    let (deep, long) = layout.faces();
    let mut actions = Vec::new();
    match layout.stroke {
        Some(stroke) => {
            actions.extend(touch(layout, stroke, long));
            actions.extend([clear(stroke), clear(layout.depth), wind(layout, stroke, OVER)]);
            actions.extend(touch(layout, layout.depth, deep));
            actions.extend([clear(layout.depth), clear(stroke)]);
        }
        None => {
            actions.extend(touch(layout, layout.depth, deep));
            actions.push(clear(layout.depth));
        }
    }
    actions
}

/// The cross slide out from the work's middle to the circle of holes, and locked there.
fn hole_place(layout: &Layout) -> Option<Vec<Action>> {
    let radius = layout.cut.diameter?.mul(Ratio::of(1, 2)).ok()?;
    let out = (Slide::Cross, Toward::Out);
    Some(Vec::from([
        Action::Touch {
            slide: Slide::Cross,
            toward: Toward::Out,
            face: Face::Centre,
            between: Between::Metal,
            thick: None,
        },
        Action::Zero { slide: Slide::Cross, on: layout.gauge(Slide::Cross) },
        clear(layout.depth),
        wind(layout, out, radius),
        Action::Lock { what: Lockable::Cross },
    ]))
}

/// One hole.
fn plunge(layout: &Layout, spot: Option<Ratio>) -> Vec<Action> {
    let (slide, toward) = layout.depth;
    let (to, over) = match spot.or(layout.cut.depth) {
        Some(depth) => layout.read(slide, toward, depth),
        None => (None, None),
    };
    let until = (to.is_none() && over.is_none()).then_some(Until::Through);
    Vec::from([
        wind(layout, layout.depth, Ratio::ZERO),
        Action::Feed {
            slide,
            toward,
            over,
            to,
            until,
            by: FeedBy::Hand,
            each_turn: None,
            beat: None,
        },
        clear(layout.depth),
    ])
}

/// The strokes of one place, each a little deeper.
fn strokes(layout: &Layout, length: Option<Ratio>) -> Vec<Action> {
    let Some((slide, toward)) = layout.stroke else { return Vec::new() };
    let lock = lock_of(layout.depth.0);
    let mut actions = Vec::new();
    for depth in &layout.strokes {
        let (to, over) = match length {
            Some(length) => layout.read(slide, toward, length),
            None => (None, None),
        };
        let until = (to.is_none() && over.is_none()).then_some(Until::Mark);
        actions.extend([
            wind(layout, layout.depth, *depth),
            Action::Lock { what: lock },
            wind(layout, (slide, toward), Ratio::ZERO),
            Action::Feed {
                slide,
                toward,
                over,
                to,
                until,
                by: FeedBy::Hand,
                each_turn: None,
                beat: None,
            },
            Action::Unlock { what: lock },
            clear(layout.depth),
            clear((slide, toward)),
        ]);
    }
    actions
}
