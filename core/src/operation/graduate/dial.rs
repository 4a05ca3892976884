//! A dial worked out: its lines, their spacing, and how the circle is divided for them.

use super::{lengths, why};
use crate::dividing::{Kit, ways};
use crate::exact::Ratio;
use crate::graduation::{
    Hand, Marks, Moves, Reads, Scale, Turning, Vernier, grows_turning, numbers_run, scale, spacing,
    vernier_for, whole_scales,
};
use crate::operation::Mark;
use crate::operation::circle::{Circle, Cut, Layout, Tool, Unmade, kit};
use crate::operation::{Answer, Found, Lacking};
use crate::quantity::{Quantity, Unit, show};
use crate::record::Record;
use crate::shop::{Dial, Shop};
use alloc::boxed::Box;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// How far a line is lined up wrong by eye, mm at the rim: common practice, no source.
pub(super) const BY_EYE_MM: f64 = 0.2;

/// How many lines another scale has, from and to: fewer don't make a dial, more aren't read.
const FEWEST_OTHER: u32 = 10;
const MOST_OTHER: u32 = 500;

/// The depth of a line that a pointed tool cuts where none is said, in mm, and its angle where no
/// engraving point is owned, in degrees: common practice, no source.
const SHALLOW: Ratio = Ratio::of(1, 10);
const POINTED: Ratio = Ratio::whole(60);

/// What a pointed tool would cut.
#[derive(Clone, Copy, Debug)]
pub(super) struct Point {
    /// Its included angle, in degrees.
    pub(super) angle: Ratio,
    /// How deep, in mm.
    pub(super) depth: Ratio,
}

impl Point {
    fn of(shop: &Shop, depth: Option<&Quantity>) -> Point {
        let mut engravers = shop.record().records("cutters");
        let owned = engravers.find(|cutter| cutter.choice("kind") == Some("engraver"));
        Point {
            angle: owned.and_then(|cutter| cutter.ratio("angle")).unwrap_or(POINTED),
            depth: depth.map_or(SHALLOW, Quantity::value),
        }
    }

    /// How wide a line it cuts, mm, to a micron.
    pub(super) fn width(self) -> Option<Ratio> {
        let microns = libm::round(spacing::line_width(self.depth, self.angle) * 1000.0);
        if (1.0..1e9).contains(&microns) { Ratio::new(microns as i128, 1000).ok() } else { None }
    }
}

/// A dial to graduate.
#[derive(Clone, Debug)]
pub struct Graduate {
    pub(super) lead: Option<Quantity>,
    pub(super) starts: u32,
    pub(super) reads: Reads,
    /// One line as asked for.
    pub(super) wanted: Option<Quantity>,
    pub(super) scale: Option<Scale>,
    pub(super) marks: Marks,
    pub(super) diameter: Option<Quantity>,
    /// The cutter; its width is that of a line.
    pub(super) tool: Tool,
    pub(super) least_gap: Option<Quantity>,
    pub(super) vernier: Option<Vernier>,
    /// From one figure to the next, as stamped.
    pub(super) stamp: Option<Quantity>,
    pub(super) shake: Option<Quantity>,
    pub(super) lead_error: Option<Quantity>,
    /// How a line is cut; none where nothing divides.
    pub(super) layout: Option<Layout>,
    /// What a pointed tool would cut.
    pub(super) point: Point,
    pub(super) on_face: bool,
    pub(super) hand: Hand,
    pub(super) circle: Option<Circle>,
    /// Why nothing in the shop divides it, where something is owned.
    pub(super) cannot: Option<String>,
    /// Long, middle and short lines in mm.
    pub(super) lengths: Option<[Ratio; 3]>,
    /// The slide that draws them, and the unit of its dial.
    pub(super) drawn_by: &'static str,
    pub(super) drawn_like: Unit,
    pub(super) drawn_dial: Option<Dial>,
    /// What there is to divide with.
    pub(super) kit: Kit,
}

pub(super) fn answer(entries: &Record, shop: &Shop) -> Answer {
    let lead = entries.quantity("lead");
    let wanted = entries.quantity("least_count");
    let reads = match entries.choice("reads") {
        Some("diameter") => Reads::Diameter,
        _ => Reads::Radius,
    };
    let diameter = entries.quantity("diameter").cloned();
    let tool = Tool::of(entries.quantity("line_width"), entries, shop);
    if lead.is_some_and(Quantity::pi) {
        return Answer::refused("a lead with π in it is a worm's: no whole lines go round for it");
    }
    let scale = match (lead, wanted) {
        (Some(lead), Some(wanted)) => match scale(lead.value(), wanted.value(), reads) {
            Ok(scale) => Some(scale),
            Err(why) => return Answer::refused(why.to_string()),
        },
        _ => None,
    };
    let mut lacking = Vec::new();
    if scale.is_none() {
        let needs = if lead.is_none() { "operation.lead" } else { "operation.least_count" };
        let keys = ["lines", "value", "long", "middle", "short", "pitch_mm", "gap_mm", "ways"];
        lacking.extend(keys.map(|key| Lacking { key, needs }));
        if diameter.is_none() || tool.width.is_none() {
            return Answer {
                lacking,
                ..Answer::refused("say the screw's lead and what one line is to be worth")
            };
        }
    }
    let (mut circle, mut cannot) = (None, None);
    if let Some(scale) = &scale {
        match Circle::even(scale.lines, entries, shop) {
            Ok(divided) => circle = Some(divided),
            Err(Unmade::NothingOwned(needs)) => lacking.push(Lacking { key: "ways", needs }),
            Err(Unmade::Cannot(why)) => {
                lacking.push(Lacking { key: "ways", needs: "shop.dividing" });
                cannot = Some(why.to_string());
            }
        }
        if diameter.is_none() {
            lacking.push(Lacking { key: "pitch_mm", needs: "operation.diameter" });
        }
        for key in ["gap_mm", "finest_lines"] {
            if diameter.is_none() {
                lacking.push(Lacking { key, needs: "operation.diameter" });
            } else if tool.width.is_none() {
                lacking.push(Lacking { key, needs: "operation.line_width" });
            }
        }
    }
    let vernier = match (entries.quantity("vernier"), &scale) {
        (Some(least), Some(scale)) => match vernier_for(scale.value, least.value()) {
            Ok(vernier) => Some(vernier),
            Err(why) => return Answer::refused(why.to_string()),
        },
        _ => None,
    };
    lacking.extend(tool.lacking());
    let on_face = entries.choice("lines_on") == Some("face");
    let arrangement = Circle::arranged(circle.as_ref(), entries);
    let (_, drawn_by) = arrangement.slides(on_face);
    let dial = shop.dial(drawn_by);
    let depth = entries.quantity("depth");
    let drawn_like = match (&dial, &diameter) {
        (Some(dial), _) => dial.unit,
        (None, Some(diameter)) => diameter.unit(),
        (None, None) => Unit::Mm,
    };
    let lengths = diameter
        .as_ref()
        .and_then(|diameter| lengths::lengths(diameter.value(), dial.as_ref(), drawn_like));
    let point = Point::of(shop, depth);
    let cut = Cut {
        mark: Mark::Graduation,
        slot: false,
        on_face,
        depth: Some(point.depth),
        flat: None,
        diameter: diameter.as_ref().map(Quantity::value),
        length: lengths.map(|[long, ..]| long),
        apart: circle.as_ref().and_then(Circle::apart),
        unit: diameter.as_ref().map_or(Unit::Mm, Quantity::unit),
        crowded: crowded(&diameter, scale.as_ref().map(|scale| scale.lines), &tool),
    };
    let (layout, unmade) = match circle.as_ref().map(|_| Layout::of(arrangement, &cut, &tool, shop))
    {
        Some(Ok(layout)) => (Some(layout), None),
        Some(Err(unmade)) => (None, Some(unmade)),
        None => (None, None),
    };
    let undivided = circle.as_ref().and_then(|circle| circle.unmade(layout.as_ref()));
    let graduate = Graduate {
        lead: lead.cloned(),
        starts: entries.count("starts").unwrap_or(1),
        reads,
        wanted: wanted.cloned(),
        scale,
        marks: Marks::default(),
        layout,
        point,
        diameter,
        tool,
        least_gap: entries.quantity("least_gap").cloned(),
        vernier,
        stamp: entries.quantity("stamp").cloned(),
        shake: entries.quantity("shake").cloned(),
        lead_error: entries.quantity("lead_error").cloned(),
        on_face,
        hand: if entries.choice("hand") == Some("left") { Hand::Left } else { Hand::Right },
        circle,
        cannot,
        lengths,
        drawn_by,
        drawn_like,
        drawn_dial: dial,
        kit: kit(shop),
    };
    let mut cautions = arrangement.cautions();
    cautions.extend(graduate.tool.caution());
    Answer {
        cautions,
        unmade: undivided.or(unmade).map(Box::new),
        why: why::why(&graduate, dial.as_ref().map(Dial::travel_per_line)),
        lacking,
        found: Some(Found::Graduate(Box::new(graduate))),
        ..Answer::default()
    }
}

/// Whether lines are wider than half of what lies from one to the next.
fn crowded(diameter: &Option<Quantity>, lines: Option<u32>, tool: &Tool) -> bool {
    let space = diameter.as_ref().zip(lines).map(|(d, lines)| spacing::pitch(d.value(), lines));
    let width = tool.width.as_ref().map(Quantity::to_f64);
    space.zip(width).is_some_and(|(space, width)| width > space / 2.0)
}

impl Graduate {
    /// From one line to the next, mm.
    pub(super) fn pitch(&self) -> Option<f64> {
        Some(spacing::pitch(self.diameter.as_ref()?.value(), self.scale?.lines))
    }

    /// Where two neighbours come closest: the rim, or on a face the inner end of the shorter.
    pub(super) fn closest(&self) -> Option<Ratio> {
        let diameter = self.diameter.as_ref()?.value();
        match (self.on_face, self.lengths) {
            (true, Some([_, _, short])) => {
                let inner = diameter.sub(short.mul(Ratio::whole(2)).ok()?).ok()?;
                Some(if inner.is_positive() { inner } else { Ratio::ZERO })
            }
            _ => Some(diameter),
        }
    }

    /// What is left between two lines, mm; less than nothing where they run together.
    pub(super) fn gap(&self) -> Option<f64> {
        Some(spacing::gap(self.closest()?, self.scale?.lines, self.tool.cuts()?))
    }

    /// The most lines with a gap no less than the line, nor than the person's own least.
    pub(super) fn finest(&self) -> Option<u32> {
        self.finest_of(self.tool.cuts()?)
    }

    /// The same for lines of another width.
    pub(super) fn finest_of(&self, width: Ratio) -> Option<u32> {
        spacing::finest_lines(self.closest()?, width, self.least_gap.as_ref().map(Quantity::value))
    }

    /// From one space of the vernier to the next, in degrees of the dial.
    pub(super) fn vernier_each(&self) -> Option<Ratio> {
        let line = Ratio::new(360, self.scale?.lines.into()).ok()?;
        self.vernier?.division(line).ok()
    }

    /// Other scales that come out whole and read well, in either system, finest first: an inch
    /// screw in millimetres has 127 lines or a multiple.
    pub(super) fn other_scales(&self) -> Vec<(Scale, Unit)> {
        let Some(scale) = self.scale else { return Vec::new() };
        let most = self.finest().map_or(MOST_OTHER, |finest| finest.min(MOST_OTHER));
        let inch = self.wanted.as_ref().is_some_and(|wanted| wanted.unit().is_inch());
        let units = if inch { [Unit::Thou, Unit::Mm] } else { [Unit::Mm, Unit::Thou] };
        let mut others = Vec::new();
        for unit in units {
            let size = if unit == Unit::Mm { Ratio::ONE } else { Unit::Inch.size() };
            let found = whole_scales(scale.travel, size, FEWEST_OTHER, most).unwrap_or_default();
            let found = found.into_iter().filter(|other| other.lines != scale.lines);
            others.extend(found.map(|other| (other, unit)));
        }
        others
    }

    /// Whether what is owned divides a circle into so many exactly.
    pub(super) fn divides(&self, lines: u32) -> bool {
        ways(lines, &self.kit).is_ok_and(|ways| ways.found.all() > 0)
    }

    /// Which way round the dial its numbers rise, seen from the handle, for a screw that moves
    /// with its slide and a reading that grows inwards.
    pub(super) fn numbers(&self) -> Turning {
        numbers_run(grows_turning(self.hand, Moves::Screw, true))
    }

    /// A value in the unit of the line that was asked for.
    pub(super) fn worth(&self, mm: Ratio) -> String {
        show::length_like(mm, self.wanted.as_ref().map_or(Unit::Mm, Quantity::unit))
    }

    /// One that isn't exact.
    pub(super) fn worth_near(&self, mm: f64) -> String {
        show::small_like(mm, self.wanted.as_ref().map_or(Unit::Mm, Quantity::unit))
    }

    /// A length at the work in the system of its diameter.
    pub(super) fn like(&self, mm: f64) -> String {
        show::float_like(mm, self.diameter.as_ref().map_or(Unit::Mm, Quantity::unit))
    }
}
