//! Where a pass begins and ends, what drives it, and how it gets back.

use super::super::Unmade;
use super::answer::{Lathe, Thread};
use super::cut::NoCut;
use super::depths::Depths;
use super::gears::NoGears;
use super::pace::{RUN_DOWN, RUN_OUT};
use super::starts;
use crate::cutting::{Slender, slender};
use crate::exact::Ratio;
use crate::procedure::{Length, Toward, TurnedBy, Until, Winding, Work, WorkAt};
use crate::quantity::{Unit, show};
use crate::shop::{Dial, Shop, Speed};
use crate::threads::{Hand, Rule, Side};
use alloc::format;
use alloc::vec::Vec;

/// The leadscrew turns no more than so many times for one of the spindle under power. Common practice, no
/// source.
const STEP_UP: Ratio = Ratio::whole(3);
/// No pass goes deeper than this, mm: twice the most that a first pass usually takes. Common practice, no
/// source.
const DEEPEST: f64 = 0.6;
/// Where a thread runs out on plain work it is let go within so many turns; a faster spindle is turned by hand.
/// Common practice, no source.
const TURNS: f64 = 3.0;
/// From wherever a thread ends to the holder, mm. Common practice, no source.
const CLEAR: Ratio = Ratio::whole(5);
/// Past the work where nothing stands in the way, mm. Common practice, no source.
const PAST: Ratio = Ratio::whole(2);
/// A bar clears the hole's far wall by so much more than the thread's depth, mm.
const BESIDE: f64 = 0.75;
/// The thinnest bar that is thought of, mm, and how many of its diameters it may stand out. Common practice,
/// no source.
const BAR: (f64, f64) = (2.0, 6.0);

/// What turns spindle and leadscrew.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Drive {
    /// The motor.
    Power(Speed),
    /// A hand at the spindle, the supply isolated.
    Spindle(TurnedBy),
    /// A hand at the leadscrew, the supply isolated.
    Leadscrew,
}

/// A pass from end to end. Along the work nought is its free end, into the work is less than nothing, mm.
#[derive(Clone, Debug)]
pub(super) struct Course {
    pub(super) left: bool,
    pub(super) inside: bool,
    pub(super) unit: Unit,
    /// The lead that is cut, mm.
    pub(super) lead: Ratio,
    pub(super) pitch: Ratio,
    /// Where the tool begins, and where it ends.
    pub(super) from: Ratio,
    pub(super) to: Ratio,
    pub(super) until: Option<Until>,
    pub(super) drive: Drive,
    /// Whether the half-nuts stay closed.
    pub(super) closed: bool,
    /// Whether the carriage is run back by power.
    pub(super) reverses: bool,
    /// Marks of the chasing dial; none for anywhere.
    pub(super) marks: Vec<u32>,
    /// The wheel of the dial that is read, where several are owned.
    pub(super) wheel: Option<u32>,
    /// The work as it is held.
    pub(super) work: Work,
    /// The bar in a hole, and how far it stands out.
    pub(super) bar: Option<(Ratio, Ratio)>,
    pub(super) slender: Slender,
    /// How far the compound, set over, takes the tool on along the work by the last pass, mm.
    slant: Ratio,
    /// Whether the starts are reached by teeth of the first driver.
    pub(super) by_teeth: bool,
    pub(super) carriage: Option<Dial>,
}

fn unmade(why: impl Into<alloc::string::String>, needs: &'static str) -> Unmade {
    Unmade { why: why.into(), needs }
}

fn near(mm: f64) -> Ratio {
    show::near(mm, 4).unwrap_or(Ratio::ZERO)
}

fn sum(of: &[Ratio]) -> Ratio {
    of.iter().fold(Ratio::ZERO, |all, one| all.add(*one).unwrap_or(all))
}

/// So many times a length.
pub(super) fn times(length: Ratio, n: u32) -> Ratio {
    length.mul(Ratio::from(n)).unwrap_or(length)
}

/// Up to the next whole millimetre.
fn up(mm: Ratio) -> Ratio {
    Ratio::new(mm.neg().floor().saturating_neg(), 1).unwrap_or(mm)
}

impl Course {
    /// The course of this thread on this lathe, or why it can't be made.
    pub(super) fn of(thread: &Thread, depths: &Depths, shop: &Shop) -> Result<Course, Unmade> {
        let wanted = &thread.wanted;
        let too_large =
            |_| unmade("its sizes are too large to be kept exactly", "operation.designation");
        let gears = match &thread.gears {
            Ok(gears) => match gears.best() {
                Some(train) => Some((gears, train)),
                None => {
                    return Err(unmade(
                        "none of the trains goes on this lathe",
                        "shop.lathe.change_gears",
                    ));
                }
            },
            Err(NoGears::Because(why)) => return Err(unmade(why.clone(), "shop.lathe")),
            Err(NoGears::Leadscrew | NoGears::Drawer) => None,
        };
        let Some(length) = wanted.length.as_ref() else {
            return Err(unmade("say how long the thread is", "operation.length"));
        };
        let unit = if wanted.inch { Unit::Inch } else { Unit::Mm };
        let (left, inside) = (wanted.thread.hand == Hand::Left, wanted.side == Side::Inside);
        let pitch = wanted.thread.pitch.mm().map_err(too_large)?;
        let lead = match gears {
            Some((gears, train)) => gears.lead_cut(train).and_then(crate::threads::Lead::mm),
            None => wanted.lead.mm(),
        }
        .map_err(too_large)?;
        if length.value() < pitch.div(Ratio::whole(2)).unwrap_or(pitch) {
            return Err(unmade("that is shorter than half a turn of it", "operation.length"));
        }
        let blank = blank(thread).ok_or_else(|| {
            let (what, needs) = if inside && thread.sizes.is_none() {
                (
                    "without the angle of its flanks nobody knows how large the hole is",
                    "operation.angle",
                )
            } else {
                ("say its diameter: nobody knows how thick the blank is", "operation.diameter")
            };
            unmade(what, needs)
        })?;
        if let Some(unfit) = depths_unfit(thread, depths) {
            return Err(unfit);
        }
        let starts = u32::from(wanted.thread.starts);
        let by_teeth = starts > 1 && starts::teeth(thread).is_some();
        let closed = super::run::closed(thread);
        let lathe = &thread.lathe;
        let steep = match (gears, thread.screw) {
            (Some((_, train)), _) => train.total > STEP_UP,
            (None, Some(screw)) => {
                screw.mm().and_then(|screw| lead.div(screw)).is_ok_and(|ratio| ratio > STEP_UP)
            }
            (None, None) => false,
        };
        if steep && !lathe.crank {
            return Err(unmade(
                "the leadscrew would turn more than three times for one of the spindle: it is driven by hand at the leadscrew's end, which wants a crank",
                "shop.lathe.hand_crank",
            ));
        }
        let half = half_width(thread, depths, pitch);
        let hand = if lathe.crank { TurnedBy::HandCrank } else { TurnedBy::Chuck };
        let slowest = shop.speeds().into_iter().next();
        let walled = !left && matches!(wanted.ending, Some("groove" | "shoulder"));
        let drive = match (&thread.pace, slowest) {
            _ if steep => Drive::Leadscrew,
            (_, None) => Drive::Spindle(hand),
            (Some(pace), _) if walled => match &pace.speed {
                Some(speed) if !pace.too_fast() => Drive::Power(speed.clone()),
                _ => Drive::Spindle(hand),
            },
            (_, Some(speed)) if !left && f64::from(speed.rpm) * lathe.reaction > 60.0 * TURNS => {
                Drive::Spindle(hand)
            }
            (_, Some(speed)) => Drive::Power(speed),
        };
        let closed = closed || !matches!(drive, Drive::Power(_));
        // Nuts closed, the compound takes the tool nearer to where it ends for each start.
        let nearer =
            if closed && !by_teeth { times(pitch, starts.saturating_sub(1)) } else { Ratio::ZERO };
        // The compound that feeds along the flank, or aside, takes the tool on along the work.
        let aside = near(depths.aside_most());
        let nearer = sum(&[nearer, aside]);
        let length = length.value();
        let two_halves = sum(&[half, half]);
        let entered = wanted.groove();
        let run_up = if left { sum(&[two_halves, pitch, nearer]) } else { Ratio::ZERO };
        let wide = if wanted.groove_entered() { entered } else { entered.max(run_up) };
        let grooved = wanted.ending == Some("groove") || (left && !inside);
        let middle = wide.div(Ratio::whole(2)).unwrap_or(wide);
        let (from, to, until) = if left {
            let from = if grooved {
                sum(&[length.neg(), middle.neg(), nearer.div(Ratio::whole(2)).unwrap_or_default()])
            } else {
                let past = times(pitch, 3).max(Ratio::whole(3));
                sum(&[length, half, past]).neg()
            };
            (from, sum(&[half, PAST]), Some(Until::Clear))
        } else {
            // A quarter more, for a dial of the carriage is read to its nearest line.
            let from = up(sum(&[times(pitch, 3).max(Ratio::whole(3)), nearer, Ratio::of(1, 4)]));
            match wanted.ending {
                Some("groove") => (from, sum(&[length, half]).neg(), Some(Until::Groove)),
                Some("shoulder") => (from, length.neg(), None),
                _ if inside => (from, sum(&[length, half, PAST]).neg(), Some(Until::Through)),
                _ => (from, length.neg(), None),
            }
        };
        if grooved {
            let takes = if left {
                sum(&[two_halves, pitch.div(Ratio::whole(2)).unwrap_or(pitch), nearer])
            } else {
                two_halves
            };
            if wide < takes {
                return Err(unmade(
                    format!(
                        "the tool is {} wide at the surface, and the groove doesn't leave it room",
                        wanted.length_text(near(two_halves.to_f64()))
                    ),
                    "operation.groove",
                ));
            }
        }
        let like = |mm: Ratio| Some(Length::like(near(mm.to_f64()), unit));
        if !inside && blank.to_f64() <= 2.0 * depths.deepest() + 0.2 {
            return Err(unmade(
                "so thin a blank has nothing left under the thread",
                "operation.diameter",
            ));
        }
        let mut work = Work::at(WorkAt::LatheSpindle);
        let root = match &thread.sizes {
            Some(sizes) if inside => sizes.major,
            Some(sizes) => sizes.minor,
            None => None,
        };
        let more = super::proof::correction(thread).map_or(0.0, |lines| depths.so_deep(lines));
        let deep = near(2.0 * (depths.deepest() + more) + 0.2);
        let root = root.unwrap_or(blank).to_f64();
        let reached = if inside { blank.add(deep) } else { blank.sub(deep) };
        let reached = reached.map_err(too_large)?.to_f64();
        let under = if inside { f64::max(root, reached) } else { f64::min(root, reached) };
        let far;
        if grooved {
            work.groove = like(wide);
            work.groove_at = like(length);
            work.groove_diameter = like(near(f64::max(under, 0.2)));
            far = sum(&[length, wide]);
        } else if !left && wanted.ending == Some("shoulder") {
            far = sum(&[length, pitch.mul(RUN_OUT).unwrap_or(pitch)]);
            work.shoulder = like(far);
        } else if !left
            && !inside
            && let Drive::Power(speed) = &drive
        {
            // As far as the carriage goes while somebody lets it go.
            let pace = lead.to_f64() * f64::from(speed.rpm) / 60.0;
            let runs = pace * (lathe.reaction + RUN_DOWN);
            far = sum(&[length, half, near(runs)]);
        } else {
            far = sum(&[length, half]);
        }
        let mut slim = Slender::Stiff;
        let mut bar = None;
        if inside {
            work.bore = like(blank);
            if grooved || wanted.ending == Some("shoulder") && !left {
                work.bore_depth = like(far);
            } else {
                (work.length, work.bore_depth) = (like(length), like(length));
            }
            bar = Some(self::bar(blank, depths, sum(&[far, PAST]))?);
        } else {
            work.diameter = like(blank);
            let out = up(sum(&[far, CLEAR]));
            work.out = like(out);
            slim = slender(out, blank);
        }
        if wanted.there {
            work.lead = like(lead);
            work.winding = Some(if left { Winding::Left } else { Winding::Right });
        } else {
            work.chamfer = like(near(f64::max(under, 0.2)));
        }
        let nuts = thread.nuts.as_ref();
        let marks = match nuts.map(|nuts| nuts.rule) {
            Some(Rule::AnyMark | Rule::EveryNthMark(_) | Rule::OneMark) => nuts
                .map_or_else(Vec::new, |nuts| nuts.marks.iter().map(|m| u32::from(*m)).collect()),
            _ => Vec::new(),
        };
        let several = shop.chasing_dials().len() > 1 && !marks.is_empty();
        let wheel = nuts.filter(|_| several).and_then(|nuts| nuts.dial);
        Ok(Course {
            left,
            inside,
            unit,
            lead,
            pitch,
            from,
            to,
            until,
            closed,
            reverses: closed
                && !left
                && matches!(drive, Drive::Power(_))
                && lathe.reverse == Some(true)
                && lathe.fixed_nose,
            drive,
            marks: if closed { Vec::new() } else { marks },
            wheel: wheel.filter(|_| !closed).map(|dial| u32::from(dial.wheel_teeth)),
            work,
            bar,
            slender: slim,
            slant: if depths.degrees.is_some() { aside } else { Ratio::ZERO },
            by_teeth,
            carriage: shop.dial("carriage"),
        })
    }

    /// The way in which a pass goes.
    pub(super) const fn along(&self) -> Toward {
        if self.left { Toward::Tailstock } else { Toward::Headstock }
    }

    /// The way in which the depth grows.
    pub(super) const fn deeper(&self) -> Toward {
        if self.inside { Toward::Out } else { Toward::In }
    }

    /// The way in which the handle of a compound lies that gives the depth along the flank that leads.
    pub(super) const fn handle(&self) -> Toward {
        if self.left == self.inside { Toward::Tailstock } else { Toward::Headstock }
    }

    /// How far a pass goes for a start, counted from 0.
    pub(super) fn over(&self, start: u32) -> Ratio {
        let all = self.to.sub(self.from).unwrap_or_default().abs();
        // Each pass ends where its own width fits: the deeper, the farther on the compound stands.
        let all = if self.left { all } else { all.sub(self.slant).unwrap_or(all) };
        if !self.closed || self.by_teeth {
            return all;
        }
        let nearer = times(self.pitch, start);
        // Toward the headstock it stands nearer to its end, toward the tailstock farther from it.
        if self.left { all.add(nearer) } else { all.sub(nearer) }.unwrap_or(all)
    }

    /// Where the carriage stands, mm from where the tool touches the end, at the beginning for a start.
    pub(super) fn begins(&self, start: u32) -> Ratio {
        if self.closed || self.by_teeth {
            return self.from;
        }
        // The compound took the tool toward the headstock: the carriage stands back by as much.
        self.from.add(times(self.pitch, start)).unwrap_or(self.from)
    }

    pub(super) fn like(&self, mm: Ratio) -> Length {
        Length::like(mm, self.unit)
    }

    /// Whether the motor drives it.
    pub(super) const fn powered(&self) -> bool {
        matches!(self.drive, Drive::Power(_))
    }

    /// By what the spindle is turned back.
    pub(super) fn hand(&self, lathe: &Lathe) -> TurnedBy {
        match (&self.drive, lathe.crank) {
            (Drive::Spindle(by), _) => *by,
            (_, true) => TurnedBy::HandCrank,
            (_, false) => TurnedBy::Chuck,
        }
    }
}

/// The blank's diameter, or the bore's: the middle of its limits, where there are any.
fn blank(thread: &Thread) -> Option<Ratio> {
    let inside = thread.wanted.side == Side::Inside;
    let Some(sizes) = &thread.sizes else {
        return thread.wanted.thread.diameter.filter(|_| !inside);
    };
    let limits = sizes.limits.as_ref().ok();
    let limits = limits.map(|limits| if inside { limits.minor } else { limits.major });
    let middle = limits
        .filter(|_| !thread.wanted.there)
        .and_then(|range| range.min.zip(range.max))
        .and_then(|(min, max)| show::near(f64::midpoint(min, max), 4));
    middle.or(if inside { sizes.minor } else { sizes.major })
}

/// How far the tool reaches to either side at full depth, mm.
fn half_width(thread: &Thread, depths: &Depths, pitch: Ratio) -> Ratio {
    match (&thread.tool, &thread.sizes) {
        (Some(tool), Some(sizes)) => {
            let tan = libm::tan(sizes.profile.half_angle());
            near(tool.flat / 2.0 + f64::max(depths.deepest(), sizes.depth.to_f64()) * tan + 0.0005)
        }
        _ => pitch.div(Ratio::whole(2)).unwrap_or(pitch),
    }
}

/// Passes that can't be cut so.
fn depths_unfit(thread: &Thread, depths: &Depths) -> Option<Unmade> {
    match &thread.cut {
        Some(Err(NoCut::Compound)) => {
            return Some(unmade(
                "along a flank the compound gives the depth, and its dial isn't known",
                "shop.lathe.dials.compound",
            ));
        }
        Some(Err(NoCut::Because(why))) => {
            return Some(unmade(format!("{why}"), "shop.lathe.dials.cross.division"));
        }
        _ => {}
    }
    let half = thread.sizes.as_ref().map_or(90.0, |s| s.profile.included_deg.to_f64() / 2.0);
    if depths.degrees.is_some_and(|degrees| degrees > half + 1e-9) {
        return Some(unmade(
            "the compound stands over by more than half the thread's angle: the flank that follows would be cut away",
            "operation.set_over",
        ));
    }
    if depths.largest() > DEEPEST {
        return Some(unmade(
            "one of so few passes goes deeper than a tool bears",
            "operation.passes",
        ));
    }
    None
}

/// The thickest bar, to half a millimetre, that goes into the hole and clears its far wall when withdrawn.
fn bar(bore: Ratio, depths: &Depths, out: Ratio) -> Result<(Ratio, Ratio), Unmade> {
    let room = bore.to_f64() - depths.deepest() - BESIDE;
    let halves = libm::floor(room * 2.0);
    let bar = halves / 2.0;
    if bar < BAR.0 {
        return Err(unmade(
            "no bar that is stiff enough goes into so small a hole: a tap is the way",
            "operation.diameter",
        ));
    }
    if out.to_f64() > BAR.1 * bar {
        return Err(unmade(
            "the bar would stand out more than six times its thickness: a tap is the way",
            "operation.length",
        ));
    }
    Ok((near(bar), up(out)))
}
