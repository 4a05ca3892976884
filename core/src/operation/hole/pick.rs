//! The hole that is wanted, and the drill of this shop that makes it.

use crate::exact::Ratio;
use crate::fits;
use crate::holes::{self, DrillName, clearance, nearest, ream_allowance, series};
use crate::quantity::{Measure, Quantity, Unit, show};
use crate::shop::Shop;
use crate::threads::{self, Designation, Percent, Profile, Side, limits, percent, tap_hole};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// What the hole is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Purpose {
    Tap,
    Clear,
    Counterbore,
    Countersink,
    Ream,
    Dowel,
}

impl Purpose {
    pub(super) fn of(id: &str) -> Purpose {
        match id {
            "tap" => Purpose::Tap,
            "counterbore" => Purpose::Counterbore,
            "countersink" => Purpose::Countersink,
            "ream" => Purpose::Ream,
            "dowel" => Purpose::Dowel,
            _ => Purpose::Clear,
        }
    }

    /// Whether a head sinks into it.
    pub(super) fn sunk(self) -> bool {
        matches!(self, Purpose::Counterbore | Purpose::Countersink)
    }

    /// Whether a reamer finishes it.
    pub(super) fn reamed(self) -> bool {
        matches!(self, Purpose::Ream | Purpose::Dowel)
    }
}

/// What goes into the hole.
#[derive(Clone, Debug)]
pub(super) struct Screw {
    /// As it is called.
    pub(super) name: String,
    /// Its diameter, mm.
    pub(super) diameter: Ratio,
    /// Its thread, where it has one.
    pub(super) thread: Option<Designation>,
    /// The system that it is written in.
    pub(super) unit: Unit,
}

impl Screw {
    /// Reads a screw's designation, or for a smooth hole a size: `M8`, `10 mm`, `10 mm H7`.
    pub(super) fn read(text: &str, bare: Unit, smooth: bool) -> Result<Screw, String> {
        let size = |text: &str| Quantity::parse(text, Measure::Length, Some(bare));
        let of_size = |quantity: Quantity| Screw {
            name: quantity.text().to_owned(),
            diameter: quantity.value(),
            thread: None,
            unit: quantity.unit(),
        };
        let threaded = threads::parse(text);
        if let Ok(thread) = &threaded
            && let Some(diameter) = thread.diameter
        {
            let inch = thread.tpi().is_some_and(|tpi| tpi.denom() <= 2)
                && thread.series != threads::Series::Metric;
            return Ok(Screw {
                name: thread.to_string(),
                diameter,
                thread: Some(*thread),
                unit: if inch { Unit::Inch } else { Unit::Mm },
            });
        }
        let without_class =
            text.rsplit_once(' ').filter(|(_, last)| fits::Class::parse(last).is_ok());
        let length = size(text).or_else(|why| match without_class {
            Some((size_alone, _)) => size(size_alone),
            None => Err(why),
        });
        match (length, threaded) {
            (Ok(length), _) if smooth && length.value().is_positive() => Ok(of_size(length)),
            (Err(why), _) if smooth => Err(why.to_string()),
            (_, Err(why)) => Err(why.to_string()),
            _ => {
                Err(format!("“{text}” has no diameter: write a screw like M8, 1/4-20 UNC, 3/8 BSF"))
            }
        }
    }
}

/// The hole that is wanted.
#[derive(Clone, Debug)]
pub(super) struct Wanted {
    /// Its diameter, mm.
    pub(super) hole: Ratio,
    /// What would do as well, mm: from, to.
    pub(super) range: Option<(Ratio, Ratio)>,
    /// Who says so.
    pub(super) source: String,
    /// How it follows.
    pub(super) formula: &'static str,
    /// The limits of a reamed hole, mm.
    pub(super) limits: Option<[Ratio; 2]>,
}

/// The hole under a tap; the nut's bore within its limits does as well.
pub(super) fn under_a_tap(screw: &Screw) -> Result<Wanted, String> {
    let none = || format!("{} is not a thread that is tapped", screw.name);
    let thread = screw.thread.as_ref().ok_or_else(none)?;
    let hole = tap_hole(thread).map_err(|why| why.to_string())?.ok_or_else(none)?;
    let range = limits(thread, threads::Side::Inside).ok().and_then(|limits| {
        Some((show::near(limits.minor.min?, 6)?, show::near(limits.minor.max?, 6)?))
    });
    Ok(Wanted {
        hole: hole.diameter,
        range,
        source: hole.source.to_owned(),
        formula: "hole under the tap",
        limits: None,
    })
}

/// A hole that clears the screw; anything from close to free does as well.
pub(super) fn clearing(screw: &Screw, fit: Option<&str>) -> Wanted {
    let fit = match fit {
        Some("close") => holes::Fit::Close,
        Some("free") => holes::Fit::Free,
        _ => holes::Fit::Medium,
    };
    let d = screw.diameter;
    let part = |percent: i64| d.mul(Ratio::of(percent, 100)).unwrap_or(d);
    let printed = |fit| clearance(d, fit);
    match (printed(fit), printed(holes::Fit::Close), printed(holes::Fit::Free)) {
        (Some(hole), Some(close), Some(free)) => {
            let source = if screw.unit.is_inch() { "ASME B18.2.8" } else { "ISO 273" };
            Wanted {
                hole,
                range: Some((close, free)),
                source: source.to_owned(),
                formula: "hole that clears the screw",
                limits: None,
            }
        }
        _ => {
            let percent = match fit {
                holes::Fit::Close => 105,
                holes::Fit::Medium => 110,
                holes::Fit::Free => 115,
            };
            Wanted {
                hole: part(percent),
                range: Some((part(104), part(120))),
                source: "not a size of ISO 273 or ASME B18.2.8: a tenth over, common practice, no source"
                    .to_owned(),
                formula: "hole that clears the screw",
                limits: None,
            }
        }
    }
}

/// The hole before a reamer, which leaves it something to cut but not too much.
pub(super) fn before_a_reamer(
    screw: &Screw,
    fit: Option<&str>,
    dowel: bool,
) -> Result<Wanted, String> {
    let d = screw.diameter;
    let left = ream_allowance(d)
        .map_err(|why| format!("{}: {why}, reamers are tabled up to 2 1/2 in", screw.name))?;
    let less = |left: Ratio| d.sub(left).map_err(|why| why.to_string());
    let (smallest, largest) = (less(left.most)?, less(left.least)?);
    let class = match (dowel, fit) {
        (true, Some("press")) => "P7",
        (true, _) => "G7",
        (false, _) => "H7",
    };
    let limits = fits::Class::parse(class)
        .and_then(|class| fits::zone(class, d))
        .and_then(|zone| zone.limits_mm(d))
        .ok();
    Ok(Wanted {
        hole: less(left.aim)?,
        range: Some((smallest, largest)),
        source: left.source.to_owned(),
        formula: "reamer's size − what it is left to take",
        limits,
    })
}

impl Wanted {
    /// Whether a hole of this size will do; known where a range is.
    fn within(&self, size: Ratio) -> Option<bool> {
        self.range.map(|(from, to)| from <= size && size <= to)
    }

    fn by(&self, drill: &Quantity) -> Drill {
        let mm = drill.value();
        Drill { text: drill.text().to_owned(), mm, within: self.within(mm) }
    }
}

/// A drill of the shop.
#[derive(Clone, Debug)]
pub(in crate::operation) struct Drill {
    /// As it was entered.
    pub(in crate::operation) text: String,
    /// Its diameter, mm.
    pub(in crate::operation) mm: Ratio,
    /// Whether it makes a hole that will do; known where a range is.
    pub(super) within: Option<bool>,
}

/// The drills owned that could make such a hole at all: under a tap, those that are smaller than the
/// thread.
fn owned<'a>(screw: &Screw, purpose: Purpose, shop: &'a Shop) -> Vec<&'a Quantity> {
    let could = |drill: &&Quantity| purpose != Purpose::Tap || drill.value() < screw.diameter;
    shop.drills().filter(could).collect()
}

fn sizes(drills: &[&Quantity]) -> Vec<Ratio> {
    drills.iter().map(|drill| drill.value()).collect()
}

/// The drill of the shop for the hole: for a tap the nearest; else the nearest of those that will do,
/// or, where none will, the next that errs on the side that can be mended.
pub(super) fn choose(
    wanted: &Wanted,
    screw: &Screw,
    purpose: Purpose,
    shop: &Shop,
) -> Option<Drill> {
    let drills = owned(screw, purpose, shop);
    let sizes = sizes(&drills);
    let at = if purpose == Purpose::Tap {
        nearest(wanted.hole, &sizes)
    } else {
        // A size that won't do is put out of the running, not out of the list.
        let fit: Vec<Ratio> = sizes
            .iter()
            .map(|size| if wanted.within(*size) == Some(true) { *size } else { Ratio::ZERO })
            .collect();
        nearest(wanted.hole, &fit).or_else(|| {
            let (from, to) = wanted.range?;
            if purpose.reamed() {
                holes::at_most(to, &sizes)
            } else {
                holes::at_least(from, &sizes).or_else(|| holes::at_most(from, &sizes))
            }
        })
    }?;
    drills.get(at).map(|drill| wanted.by(drill))
}

/// The drills of the shop near the hole, nearest first.
pub(super) fn near(
    wanted: &Wanted,
    screw: &Screw,
    purpose: Purpose,
    shop: &Shop,
    most: usize,
) -> Vec<Drill> {
    let mut ranked: Vec<(Ratio, &Quantity)> = owned(screw, purpose, shop)
        .into_iter()
        .filter_map(|drill| Some((drill.value().sub(wanted.hole).ok()?.abs(), drill)))
        .collect();
    ranked.sort_by_key(|(away, _)| *away);
    ranked.into_iter().map(|(_, drill)| wanted.by(drill)).take(most).collect()
}

/// The drill of the common series that is nearest to a size, in the screw's own system first.
pub(super) fn bought(wanted: Ratio, inch: bool) -> Option<DrillName> {
    series()
        .filter(|name| inch != matches!(name, DrillName::Metric(_)))
        .filter_map(|name| Some((name.mm()?.sub(wanted).ok()?.abs(), name)))
        .reduce(|best, one| if one.0 < best.0 { one } else { best })
        .map(|(_, name)| name)
}

/// The drills before the last, smallest first: each about a third of the next, for what is over
/// 8 mm. Common practice, no source.
pub(in crate::operation) fn pilots(hole: Ratio, shop: &Shop) -> Vec<Drill> {
    let drills: Vec<&Quantity> = shop.drills().collect();
    let sizes = sizes(&drills);
    let before = |size: Ratio| {
        let third = size.div(Ratio::whole(3)).ok()?;
        let drill = drills.get(nearest(third, &sizes)?)?;
        // More than half leaves the next one nothing but its corners to cut with.
        let half = size.div(Ratio::whole(2)).ok()?;
        let fits = size > Ratio::whole(8) && drill.value() <= half;
        fits.then(|| Drill { text: drill.text().to_owned(), mm: drill.value(), within: None })
    };
    let mut pilots: Vec<Drill> =
        core::iter::successors(before(hole), |drill| before(drill.mm)).take(4).collect();
    pilots.reverse();
    pilots
}

/// The drill to buy for before a large one, a third of it, where no drill at all is entered.
pub(in crate::operation) fn pilot_to_buy(hole: Ratio, inch: bool, shop: &Shop) -> Option<Drill> {
    if shop.drills().next().is_some() || hole <= LARGE {
        return None;
    }
    let name = bought(hole.div(Ratio::whole(3)).ok()?, inch)?;
    Some(Drill { text: name.to_string(), mm: name.mm()?, within: None })
}

/// Above this a drill wants a smaller one before it, mm (Walker, Modern Metalworking, 2004, ch. 28).
pub(in crate::operation) const LARGE: Ratio = Ratio::of(25, 2);

/// The boring bar of the shop that goes into a hole with room for the chips, a fifth of the hole: the
/// thickest. Common practice, no source.
pub(super) fn bar_for(hole: Ratio, shop: &Shop) -> Option<String> {
    let room = hole.mul(Ratio::of(4, 5)).ok()?;
    shop.record()
        .records("cutters")
        .filter(|cutter| cutter.choice("kind") == Some("boring-bar"))
        .filter_map(|cutter| Some((cutter.ratio("diameter")?, cutter.text("name")?)))
        .filter(|(diameter, _)| *diameter <= room)
        .reduce(|best, one| if one.0 > best.0 { one } else { best })
        .map(|(_, name)| show::unmarked(name))
}

/// Whether a tap's own core goes into the hole: it is as thick as the screw's.
pub(super) fn enters(screw: &Screw, hole: Ratio) -> bool {
    let core =
        || Profile::of(screw.thread.as_ref()?).ok()??.minor(Side::Outside, screw.diameter).ok();
    core().is_none_or(|core| hole >= core)
}

/// How much thread a hole leaves.
pub(super) fn thread_left(screw: &Screw, hole: Ratio) -> Option<Percent> {
    let profile = Profile::of(screw.thread.as_ref()?).ok()??;
    Some(percent(&profile, screw.diameter.to_f64(), hole.to_f64()))
}
