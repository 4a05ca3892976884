//! What a head sinks into.

use super::super::Why;
use super::pick::{Purpose, Screw};
use crate::exact::Ratio;
use crate::holes::{
    cap_head, counterbore, counterbore_depth, countersink_depth, countersink_diameter,
    countersunk_head,
};
use crate::quantity::show;
use crate::record::Record;
use crate::shop::Shop;
use crate::threads::Series;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;

/// A counterbore or a countersink.
#[derive(Clone, Debug)]
pub(super) struct Recess {
    /// How wide it is at the surface, mm.
    pub(super) diameter: Ratio,
    /// How deep: a counterbore from the surface, a countersink from the touch on the hole's rim, mm.
    pub(super) depth: Ratio,
    /// A cone's included angle, degrees.
    pub(super) cone: Option<Ratio>,
    /// The head's diameter and height, mm.
    pub(super) head: (Ratio, Ratio),
    /// How far the head lies under the surface, mm.
    pub(super) below: Ratio,
    /// A cutter of the shop for it, and how wide it is, mm.
    pub(super) cutter: Option<String>,
    pub(super) owned: Option<Ratio>,
}

/// What says how large a head is.
struct Head {
    diameter: Ratio,
    height: Ratio,
    source: String,
}

/// The recess for a screw's head, how it came about, or the entry that is missing.
pub(super) fn recess(
    purpose: Purpose,
    screw: &Screw,
    hole: Ratio,
    entries: &Record,
    shop: &Shop,
) -> Option<(Recess, Why)> {
    match purpose {
        Purpose::Counterbore => flat(screw, entries, shop),
        Purpose::Countersink => cone(screw, hole, entries, shop),
        _ => None,
    }
}

fn flat(screw: &Screw, entries: &Record, shop: &Shop) -> Option<(Recess, Why)> {
    let tabled = cap_head(screw.diameter);
    let own = entries.ratio("head_diameter");
    let own_height = entries.ratio("head_height");
    let below = entries.ratio("below");
    let (diameter, head, depth, below, source) = match (own, tabled) {
        (None, Some(head)) => {
            let bore = counterbore(screw.diameter)?;
            let height = own_height.unwrap_or_else(|| head.height_mm());
            let standard = counterbore_depth(head, below).ok()?;
            let addition = standard.sub(head.height_mm()).ok()?;
            let depth = height.add(addition).ok()?;
            let source = format!("{}; head of ISO 4762 or ASME B18.3", bore.source);
            (bore.mm(), (head.head_mm(), height), depth, addition, source)
        }
        (Some(own), _) => {
            // Room for the head: half a millimetre, from 6 mm on a whole one.
            let room = if own > Ratio::whole(6) { Ratio::ONE } else { Ratio::of(1, 2) };
            let height = own_height.unwrap_or(screw.diameter);
            let below = below.unwrap_or(Ratio::ZERO);
            let source = "the head as entered, and room for it: common practice, no source";
            let depth = height.add(below).ok()?;
            (own.add(room).ok()?, (own, height), depth, below, source.to_owned())
        }
        (None, None) => return None,
    };
    let why = Why::new(
        "depth = height of the head + below flush",
        format!("{} + {} = {}", show::mm(head.1), show::mm(below), show::mm(depth)),
        source,
    );
    let cutter = wide_enough(shop, "counterbore", diameter, None)
        .or_else(|| wide_enough(shop, "end-mill", diameter, None));
    let (cutter, owned) = cutter.unzip();
    Some((Recess { diameter, depth, cone: None, head, below, cutter, owned }, why))
}

fn cone(screw: &Screw, hole: Ratio, entries: &Record, shop: &Shop) -> Option<(Recess, Why)> {
    let slotted = entries.choice("head") == Some("slotted");
    let tabled = || {
        let row = countersunk_head(screw.diameter, !slotted)
            .or_else(|| countersunk_head(screw.diameter, slotted))?;
        let standard = if row.hexagon { "ISO 10642 Table 1" } else { "ISO 7046-1 / ISO 2009" };
        let diameter = row.sharp_mm();
        // The cone of 90° from the sharp edge down to the shank.
        let height = diameter.sub(screw.diameter).ok()?.div(Ratio::whole(2)).ok()?;
        Some(Head { diameter, height, source: format!("{standard}, head to its sharp edge") })
    };
    let own = entries.ratio("head_diameter").map(|diameter| Head {
        diameter,
        height: entries.ratio("head_height").unwrap_or(screw.diameter),
        source: "the head as entered".to_owned(),
    });
    let head = own.or_else(tabled)?;
    let unified = screw.thread.is_some_and(|thread| {
        matches!(
            thread.series,
            Series::Unc | Series::Unf | Series::Unef | Series::Un8 | Series::Un12 | Series::Un16
        )
    });
    // Unified flat heads are of 82°, metric ones of 90°.
    let angle = Ratio::whole(if unified { 82 } else { 90 });
    let below = entries.ratio("below").unwrap_or(Ratio::ZERO);
    let opening = countersink_diameter(head.diameter, below, angle).ok()?;
    let depth = countersink_depth(opening, hole, angle).ok()?;
    let diameter = show::near(opening, 6)?;
    let why = Why::new(
        "Ø at the surface = head + 2 × below × tan(angle / 2); depth from the rim = (Ø − hole) / 2 / tan(angle / 2)",
        format!(
            "{} + 2 × {} × tan({}°) = {}; ({} − {}) / 2 / tan({}°) = {} mm",
            show::mm(head.diameter),
            show::mm(below),
            show::trimmed(angle.div(Ratio::whole(2)).ok()?, 1),
            show::mm(diameter),
            show::mm(diameter),
            show::mm(hole),
            show::trimmed(angle.div(Ratio::whole(2)).ok()?, 1),
            show::float_trimmed(depth, 3)
        ),
        head.source,
    );
    let (cutter, owned) = wide_enough(shop, "countersink", diameter, Some(angle)).unzip();
    let recess = Recess {
        diameter,
        depth: show::near(depth, 6)?,
        cone: Some(angle),
        head: (head.diameter, head.height),
        below,
        cutter,
        owned,
    };
    Some((recess, why))
}

/// The smallest cutter of that kind that is wide enough, and of that angle where one is asked for. A
/// counterbore or an end mill may be a fifth wider, no more.
pub(super) fn wide_enough(
    shop: &Shop,
    kind: &'static str,
    diameter: Ratio,
    angle: Option<Ratio>,
) -> Option<(String, Ratio)> {
    let widest = diameter.mul(Ratio::of(6, 5)).ok()?;
    shop.cutters(kind)
        .filter_map(|form| {
            let wide = form.ratio("diameter")?;
            let right = match angle {
                Some(_) => form.ratio("angle") == angle,
                None => wide <= widest,
            };
            (right && wide >= diameter).then_some((wide, form.text("name")?))
        })
        .reduce(|best, one| if one.0 < best.0 { one } else { best })
        .map(|(wide, name)| (show::unmarked(name), wide))
}
