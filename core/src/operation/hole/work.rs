//! A hole worked out: what to drill, how deep, and what is left.

use super::super::spindle::{Job, Spindle, stock};
use super::super::{Answer, Found, Lacking, Seat, Seated, Unmade, Why};
use super::depth::{Depth, Left, depth, depth_dial, left};
use super::pick::{
    Drill, Purpose, Screw, Wanted, bar_for, before_a_reamer, bought, choose, clearing, enters,
    near, pilots, thread_left, under_a_tap,
};
use super::recess::{Recess, recess};
use crate::cutting::{CutterMaterial, Process, Stock};
use crate::exact::Ratio;
use crate::quantity::{MM_PER_INCH, Measure, Quantity, Unit, show};
use crate::record::Record;
use crate::shop::{Dial, Shop};
use crate::threads::Percent;
use alloc::boxed::Box;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec;
use alloc::vec::Vec;

/// A hole and how to make it here.
#[derive(Clone, Debug)]
pub struct Hole {
    pub(super) purpose: Purpose,
    pub(super) screw: Screw,
    pub(super) wanted: Wanted,
    pub(super) drill: Option<Drill>,
    /// The drill to buy, where none is owned.
    pub(super) bought: Option<String>,
    pub(super) percent: Option<Percent>,
    /// Other drills of the shop near it, with the thread that each leaves.
    pub(super) near: Vec<(Drill, Option<Percent>)>,
    /// The drills before the last, smallest first, each with its own speed.
    pub(super) pilots: Vec<(Drill, Option<Spindle>)>,
    /// For the drill under the tap, of a sunk head.
    pub(super) under: Option<Spindle>,
    pub(super) recess: Option<Recess>,
    /// Under a sunk head: the drill and the depth for the tapped part.
    pub(super) tapped: Option<(String, Ratio)>,
    pub(super) depth: Option<Depth>,
    pub(super) dial: Option<(&'static str, Dial)>,
    pub(super) left: Left,
    pub(super) thickness: Option<Quantity>,
    pub(super) own_depth: Option<Quantity>,
    pub(super) spindle: Option<Spindle>,
    /// For the reamer, the counterbore or the countersink.
    pub(super) second: Option<Spindle>,
    /// The boring bar that brings a hole to size where no drill does, and its speed.
    pub(super) bored: Option<(String, Option<Spindle>)>,
    /// What is cut.
    pub(super) stock: Option<Stock>,
}

pub(super) fn answer(entries: &Record, shop: &Shop) -> Answer {
    let Some(purpose) = entries.choice("purpose").map(Purpose::of) else {
        return Answer::refused(
            "say what the hole is for: tap, clear, counterbore, countersink, ream or dowel",
        );
    };
    let Some(text) = entries.text("designation") else {
        return Answer::refused(
            "say which screw or size: M8, 1/4-20 UNC, 3/8 BSF, or 10 mm to ream",
        );
    };
    match work(purpose, text, entries, shop) {
        Ok(answer) => answer,
        Err(why) => Answer::refused(why),
    }
}

fn work(purpose: Purpose, text: &str, entries: &Record, shop: &Shop) -> Result<Answer, String> {
    let bare = shop.bare_unit(Measure::Length);
    let screw = Screw::read(text, bare, purpose != Purpose::Tap)?;
    let fit = entries.choice("fit");
    let wanted = match purpose {
        Purpose::Tap => under_a_tap(&screw)?,
        Purpose::Ream => before_a_reamer(&screw, fit, false)?,
        Purpose::Dowel => before_a_reamer(&screw, fit, true)?,
        _ => clearing(&screw, fit),
    };
    let mut lacking = Vec::new();
    let mut why =
        vec![Why::new(wanted.formula, wanted_values(&screw, &wanted), wanted.source.clone())];
    let drill = choose(&wanted, &screw, purpose, shop);
    if drill.is_none() {
        lacking.push(Lacking { key: "drill", needs: "shop.drills" });
    }
    let hole = drill.as_ref().map_or(wanted.hole, |drill| drill.mm);
    // A hole that the tap doesn't enter leaves no thread to speak of.
    let taps = purpose == Purpose::Tap && enters(&screw, hole);
    let percent = if taps { thread_left(&screw, hole) } else { None };
    why.extend(percent.map(|percent| {
        Why::new(
            "thread = (Ø − hole) / full depth of both sides",
            format!(
                "({} − {}): {} %; of the form's own basic depth {} %",
                show::mm(screw.diameter),
                show::mm(hole),
                show::float(percent.of_chart, 0),
                show::float(percent.of_basic, 0)
            ),
            if percent.of_chart == percent.of_basic {
                "full thread by the form's own basic depth"
            } else {
                "FED-STD-H28/2B: full thread is 3/4 H each side"
            },
        )
    }));
    let sunk = recess(purpose, &screw, hole, entries, shop);
    if sunk.is_none() && purpose.sunk() {
        let key = if purpose == Purpose::Counterbore { "counterbore_mm" } else { "countersink_mm" };
        lacking.push(Lacking { key, needs: "operation.head_diameter" });
    }
    let (recess, because) = sunk.map_or((None, None), |(recess, why)| (Some(recess), Some(why)));
    why.extend(because);
    let drilled = depth(purpose, &screw, hole, entries);
    let (depth, because) = drilled.map_or((None, None), |(depth, why)| (Some(depth), Some(why)));
    why.extend(because);
    if depth.is_none() && recess.is_none() {
        let needs = if purpose.sunk() { "operation.thickness" } else { "operation.depth" };
        lacking.push(Lacking { key: "depth_mm", needs });
    }
    let dial = depth_dial(shop);
    let own = if purpose == Purpose::Tap || purpose.reamed() { screw.diameter } else { hole };
    let widest = recess.as_ref().map_or(own, |recess| recess.diameter.max(own));
    let left = left(widest, depth.as_ref(), entries, &mut lacking);
    let (mut spindle, mut second) = (None, None);
    let stock = stock(entries);
    let job = |process, diameter_mm| {
        let job = Job { stock: stock?, process, cutter: CutterMaterial::Hss, diameter_mm };
        job.on(shop).ok()
    };
    if stock.is_some() {
        if let Some((found, because)) = job(Process::Drill, hole) {
            spindle = found;
            why.extend(because);
        }
        let next = match (purpose, &recess) {
            (Purpose::Ream | Purpose::Dowel, _) => job(Process::Ream, screw.diameter),
            (_, Some(recess)) => job(Process::Countersink, recess.diameter),
            _ => None,
        };
        second = next.and_then(|(found, _)| found);
        if spindle.is_none() {
            lacking.push(Lacking { key: "spindle_rpm", needs: "shop.lathe.spindle_speeds" });
        }
    } else {
        lacking.push(Lacking { key: "spindle_rpm", needs: "operation.stock" });
    }
    let tapped = under_a_tap(&screw).ok().filter(|_| purpose.sunk()).map(|under| {
        let drill = choose(&under, &screw, Purpose::Tap, shop);
        let hole = drill.as_ref().map_or(under.hole, |drill| drill.mm);
        (drill.map_or_else(|| show::mm(under.hole), |drill| drill.text), hole)
    });
    let under = tapped.as_ref().and_then(|(_, under)| job(Process::Drill, *under)?.0);
    let pilots = pilots(tapped.as_ref().map_or(hole, |(_, under)| *under), shop)
        .into_iter()
        .map(|drill| {
            let spindle = job(Process::Drill, drill.mm).and_then(|(spindle, _)| spindle);
            (drill, spindle)
        })
        .collect();
    // Too small for what comes next, and no drill of the shop is nearer.
    let short = drill.as_ref().is_some_and(|drill| {
        let small = wanted.range.is_some_and(|(smallest, _)| drill.mm < smallest);
        small && (purpose != Purpose::Tap || !enters(&screw, drill.mm))
    });
    let bar = if short { bar_for(hole, shop) } else { None };
    let unmade = if short && bar.is_none() {
        Some(too_small(purpose, &screw, &wanted, hole))
    } else {
        // Under a sunk head, the part that is tapped.
        under_a_tap(&screw).ok().filter(|_| purpose.sunk()).and_then(|under| {
            let drill = choose(&under, &screw, Purpose::Tap, shop)?;
            let small = !enters(&screw, drill.mm);
            small.then(|| too_small(Purpose::Tap, &screw, &under, drill.mm))
        })
    };
    let unmade = unmade.map(|why| Unmade { why, needs: "shop.drills" });
    let bored = if bar.is_some() { job(Process::Bore, wanted.hole) } else { None };
    let bored = bar.map(|bar| (bar, bored.and_then(|(spindle, _)| spindle)));
    let bought = bought(wanted.hole, screw.unit == Unit::Inch).map(|name| name.to_string());
    let near = near(&wanted, &screw, purpose, shop, 6)
        .into_iter()
        .filter(|other| drill.as_ref().is_none_or(|drill| drill.text != other.text))
        .map(|other| {
            let percent = thread_left(&screw, other.mm).filter(|_| purpose == Purpose::Tap);
            (other, percent)
        })
        .collect();
    let hole = Hole {
        purpose,
        pilots,
        under,
        screw,
        wanted,
        drill,
        bought,
        percent,
        near,
        recess,
        tapped,
        depth,
        dial,
        left,
        thickness: entries.quantity("thickness").cloned(),
        own_depth: entries.quantity("depth").cloned(),
        spindle,
        second,
        bored,
        stock,
    };
    let cautions = cautions(&hole);
    Ok(Answer {
        unmade: unmade.map(Box::new),
        found: Some(Found::Hole(Box::new(hole))),
        cautions,
        why,
        lacking,
        ..Answer::default()
    })
}

/// What a hole that is far too small comes to.
fn too_small(purpose: Purpose, screw: &Screw, wanted: &Wanted, hole: Ratio) -> String {
    let least = wanted.range.map_or(wanted.hole, |(smallest, _)| smallest);
    // As a calliper reads it.
    let least = show::near(least.to_f64(), 2).unwrap_or(least);
    let what = match purpose {
        Purpose::Tap => "the tap won't enter it",
        Purpose::Ream | Purpose::Dowel => "it leaves the reamer too much",
        _ => "the screw won't pass it",
    };
    format!(
        "the nearest drill here makes {} where {} is the least for {}: {what}; a larger drill, or a boring bar that goes in",
        show::mm(hole),
        show::length_like(least, screw.unit),
        screw.name,
    )
}

fn wanted_values(screw: &Screw, wanted: &Wanted) -> String {
    let range = wanted.range.map_or_else(String::new, |(from, to)| {
        format!("; from {} to {} will do", show::mm(from), show::mm(to))
    });
    format!("{}: {}{range}", screw.name, show::mm(wanted.hole))
}

fn cautions(hole: &Hole) -> Vec<&'static str> {
    let mut cautions = vec![
        "Work held so that it can't turn or lift, key out, eyes covered, no gloves. The machine's maker and the rules of the place come first.",
    ];
    match hole.purpose {
        Purpose::Counterbore | Purpose::Countersink => cautions.extend([
            "A right-hand screw that drives a right-hand part works loose when wound back: bond it or pin it.",
            "Degreaser, adhesive, cure and heat by their makers' sheets alone, with air moving.",
        ]),
        Purpose::Tap => cautions.push("Tap by hand with the spindle stopped: half a turn on, a little back."),
        Purpose::Dowel => {
            cautions.push("The limits are for a pin of h6: measure it, for an m6 pin is larger.");
        }
        _ => {}
    }
    if hole.left.trouble().is_some() {
        cautions.push("Little is left around this hole: a thin wall bulges, cracks or breaks out.");
    }
    cautions
}

impl Hole {
    /// The hole that is really drilled, mm.
    pub(super) fn drilled(&self) -> Ratio {
        self.drill.as_ref().map_or(self.wanted.hole, |drill| drill.mm)
    }

    /// The drill in words: as owned, else as it can be bought.
    pub(super) fn drill_words(&self) -> String {
        match (&self.drill, &self.bought) {
            (Some(drill), _) => drill.text.clone(),
            (None, Some(name)) => name.clone(),
            (None, None) => show::mm(self.wanted.hole),
        }
    }

    /// A depth as a dial or a rule has it, in the screw's own system: `24 mm`, `0.95 in`.
    pub(super) fn deep(&self, mm: f64) -> String {
        if self.screw.unit.is_inch() {
            format!("{} in", show::float_trimmed(mm / MM_PER_INCH.to_f64(), 2))
        } else {
            format!("{} mm", show::float_trimmed(mm, 1))
        }
    }

    /// The limits of a reamed hole in the screw's own system, without its unit, and the unit.
    pub(super) fn reamed(&self) -> Option<([String; 2], &'static str)> {
        let limits = self.wanted.limits?;
        if !self.screw.unit.is_inch() {
            return Some((limits.map(|size| show::fixed(size, 3)), "mm"));
        }
        let inches = |size: Ratio| show::float(size.to_f64() / MM_PER_INCH.to_f64(), 4);
        Some((limits.map(inches), "in"))
    }

    /// A length in the screw's own system.
    pub(super) fn like(&self, mm: Ratio) -> String {
        show::length_like(mm, self.screw.unit)
    }

    /// The screw in its hole, where the part's thickness is known.
    pub(super) fn seated(&self) -> Option<Seated> {
        let recess = self.recess.as_ref()?;
        let thickness = self.thickness.as_ref()?.to_f64();
        let (drill, tap) = self.tapped.as_ref()?;
        let d = self.screw.diameter.to_f64();
        let pitch = self.screw.thread?.pitch.to_f64();
        // One and a half diameters of thread where nothing else is entered: common practice.
        let engaged = self.own_depth.as_ref().map_or(1.5 * d, Quantity::to_f64);
        let (diameter, depth) = (recess.diameter.to_f64(), recess.depth.to_f64());
        let (seat, seat_words) = match recess.cone {
            Some(angle) => (
                Seat::Countersink(diameter, angle.to_f64()),
                format!("{}° to Ø {}", show::trimmed(angle, 1), self.like(recess.diameter)),
            ),
            None => (
                Seat::Counterbore(diameter, depth),
                format!("Ø {} × {}", self.like(recess.diameter), self.like(recess.depth)),
            ),
        };
        Some(Seated {
            thread: d,
            head: (recess.head.0.to_f64(), recess.head.1.to_f64()),
            seat,
            clearance: self.drilled().to_f64(),
            thickness,
            engaged,
            tap_drill: tap.to_f64(),
            drilled: engaged + 3.0 * pitch,
            words: [
                self.screw.name.clone(),
                seat_words,
                format!("clears: {}", self.drill_words()),
                format!("tapped: drill {drill}"),
                String::new(),
            ],
        })
    }
}
