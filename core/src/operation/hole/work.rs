//! A hole worked out: what to drill, how deep, and what is left.

use super::super::ends::{self, Carried, Ends};
use super::super::ready::found_out;
use super::super::size::{self, Size};
use super::super::spindle::{Job, Spindle, stock};
use super::super::{Answer, Found, Lacking, Operation, Seat, Seated, Unmade, Why};
use super::depth::{Depth, Left, depth, left};
use super::pick::{
    Drill, Purpose, Screw, Wanted, bar_for, before_a_reamer, bought, choose, clearing, enters,
    near, pilot_to_buy, pilots, thread_left, under_a_tap,
};
use super::recess::{Recess, recess, wide_enough};
use crate::cutting::{CutterMaterial, Process, Stock};
use crate::exact::Ratio;
use crate::quantity::{MM_PER_INCH, Measure, Quantity, Unit, show};
use crate::record::{Entry, Record};
use crate::shop::{Dial, Shop, Speed};
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
    /// How a boring bar brings the hole to size where no drill does.
    pub(super) bored: Option<Box<Size>>,
    /// The drill before the last where none at all is entered, and its speed.
    pub(super) to_buy: Option<(Drill, Speed)>,
    /// The countersink of the shop for the mouth of a tapped hole, and how wide it is, mm.
    pub(super) countersink: Option<(String, Ratio)>,
    /// What carries the tools.
    pub(super) ends: Ends,
    pub(super) speeds: Speeds,
    /// The part's diameter, and how far the hole is from its edge.
    pub(super) part: Option<Quantity>,
    pub(super) from_edge: Option<Quantity>,
    /// What is cut.
    pub(super) stock: Option<Stock>,
}

/// The speeds at which it is made: the machine's, else what the book gives.
#[derive(Clone, Debug)]
pub(super) struct Speeds {
    pub(super) centre: Speed,
    /// One for each of the drills before the last.
    pub(super) pilots: Vec<Speed>,
    pub(super) under: Speed,
    pub(super) drill: Speed,
    /// The reamer's, the counterbore's or the countersink's.
    pub(super) second: Speed,
    /// Of the countersink at a tapped hole's mouth.
    pub(super) mouth: Speed,
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
        Ok(answer) => found_out(answer, shop, "operation.depth"),
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
    let mut ends = Ends::of(entries.get("from_edge").is_some(), screw.unit, stock(entries), shop);
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
    let first = tapped.as_ref().map_or(hole, |(_, under)| *under);
    let pilots: Vec<(Drill, Option<Spindle>)> = pilots(first, shop)
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
    let beside = ends.carried == Carried::Spindle;
    let bar = if short && !beside { bar_for(hole, shop) } else { None };
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
    let full = depth.as_ref().map(|depth| depth.full);
    let bored = bar.map(|bar| bored(&bar, [hole, wanted.hole], full, entries, shop));
    let (bored, unbored) = match bored {
        Some(Ok(size)) => (Some(size), None),
        Some(Err(unmade)) => (None, Some(unmade)),
        None => (None, None),
    };
    if bored.is_some() && ends.carried == Carried::ToolPost {
        // The bar takes the tool post.
        ends.carried = Carried::Tailstock;
        ends.dial = None;
    }
    let inch = screw.unit.is_inch();
    let on_its_own = |process, diameter| ends::speed(stock, process, diameter, None, shop);
    let own_speed = |spindle: Option<&Spindle>, process, diameter| match spindle {
        Some(spindle) => spindle.speed.clone(),
        None => on_its_own(process, diameter),
    };
    let to_buy = pilot_to_buy(first, inch, shop)
        .map(|drill| (drill.clone(), on_its_own(Process::Drill, drill.mm)));
    let second_diameter = recess.as_ref().map_or(screw.diameter, |recess| recess.diameter);
    let second_process = if purpose.reamed() { Process::Ream } else { Process::Countersink };
    let pilot_speeds: Vec<Speed> = pilots
        .iter()
        .map(|(drill, spindle)| own_speed(spindle.as_ref(), Process::Drill, drill.mm))
        .collect();
    let under_speed = own_speed(under.as_ref(), Process::Drill, first);
    let drill_speed = own_speed(spindle.as_ref(), Process::Drill, hole);
    let fastest = pilot_speeds
        .iter()
        .chain(to_buy.iter().map(|(_, speed)| speed))
        .chain([&under_speed, &drill_speed])
        .max_by_key(|speed| speed.rpm)
        .unwrap_or(&drill_speed);
    let mut second_speed = own_speed(second.as_ref(), second_process, second_diameter);
    if purpose.reamed() && second_speed.rpm > drill_speed.rpm {
        second_speed = drill_speed.clone();
    }
    let speeds = Speeds {
        centre: ends.centre_speed(fastest, None, shop),
        second: second_speed,
        mouth: on_its_own(Process::Countersink, screw.diameter),
        pilots: pilot_speeds,
        under: under_speed,
        drill: drill_speed,
    };
    let slow = [&spindle, &second, &under].into_iter().find_map(|one| ends::burns(one.as_ref()));
    let none_smaller = drill.is_none() && shop.drills().next().is_some();
    let wide = entries.quantity("diameter").filter(|part| widest >= part.value());
    let unmade = unmade
        .or(unbored)
        .or_else(|| none_smaller.then(|| too_large(&screw, &wanted)))
        .or_else(|| wide.map(|part| wider(widest, part)))
        .or_else(|| unsound(&left))
        .or(slow);
    let countersink = wide_enough(shop, "countersink", screw.diameter, Some(Ratio::whole(90)));
    let dial = ends.dial.map(|dial| {
        (if ends.carried == Carried::Tailstock { "tailstock" } else { "carriage" }, dial)
    });
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
        to_buy,
        countersink,
        ends,
        speeds,
        part: entries.quantity("diameter").cloned(),
        from_edge: entries.quantity("from_edge").cloned(),
    };
    let unmade = unmade.or_else(|| hole.lacks_a_pilot().then(no_pilot)).or_else(|| {
        let thin = hole.tapped.is_some() && purpose.sunk() && hole.thickness.is_none();
        thin.then(|| Unmade {
            why:
                "say how thick the part is through which the screw goes: the hole below is smaller"
                    .into(),
            needs: "operation.thickness",
        })
    });
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

/// How a bar brings a hole to size, by what turning and boring to size make of it.
fn bored(
    bar: &str,
    [from, to]: [Ratio; 2],
    full: Option<Ratio>,
    entries: &Record,
    shop: &Shop,
) -> Result<Box<Size>, Unmade> {
    let Some(deep) = full else {
        return Err(Unmade {
            why: "how deep it is bored isn't said".into(),
            needs: "operation.depth",
        });
    };
    let mut job = Operation::new(&size::KIND);
    let mut enter = |key: &str, text: &str| {
        let _ = job.enter(key, Entry { text, unit: Some(Unit::Mm) });
    };
    let mm = |mm: Ratio| format!("{} mm", show::trimmed(mm, 3));
    enter("process", "bore");
    enter("from", &mm(from));
    enter("to", &mm(to));
    enter("length", &mm(deep));
    enter("cutter", bar);
    if let Some(stock) = entries.choice("stock") {
        enter("stock", stock);
    }
    let answer = job.answer(shop);
    match (answer.found, answer.unmade) {
        (_, Some(unmade)) => Err(*unmade),
        (Some(Found::Size(size)), None) => Ok(size),
        _ => Err(Unmade {
            why: answer.refused.unwrap_or_else(|| "it can't be bored to that size".into()),
            needs: "shop.drills",
        }),
    }
}

/// Drills are owned, and all of them are too large.
fn too_large(screw: &Screw, wanted: &Wanted) -> Unmade {
    Unmade {
        why: format!(
            "every drill here is too large for {}, which asks for {}",
            screw.name,
            show::length_like(wanted.hole, screw.unit)
        ),
        needs: "shop.drills",
    }
}

/// What is as wide as its part.
fn wider(widest: Ratio, part: &Quantity) -> Unmade {
    Unmade {
        why: format!(
            "Ø {} leaves nothing of a part of Ø {}",
            show::length_like(widest, part.unit()),
            part.text()
        ),
        needs: "operation.diameter",
    }
}

/// A hole that breaks out.
fn unsound(left: &Left) -> Option<Unmade> {
    let (why, needs) = match (left.wall, left.floor) {
        (Some(None), _) => ("the hole breaks out of the side", "operation.from_edge"),
        (_, Some(None)) => ("the drill's point comes through the floor", "operation.thickness"),
        _ => return None,
    };
    Some(Unmade { why: why.into(), needs })
}

fn no_pilot() -> Unmade {
    Unmade {
        why: "a drill so large wants a smaller one first, half its size at the most, and none is owned"
            .into(),
        needs: "shop.drills",
    }
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
    let mut cautions = Vec::new();
    match hole.purpose {
        Purpose::Counterbore | Purpose::Countersink => cautions.extend([
            "A right-hand screw that drives a right-hand part works loose when wound back: bond it or pin it.",
        ]),
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
