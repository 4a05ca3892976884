//! The passes, as readings of this lathe's own dial.

use super::sizes::Sizes;
use super::wanted::Wanted;
use crate::exact::Ratio;
use crate::quantity::Unit;
use crate::shop::Shop;
use crate::threads::{
    Count, Dial, Feed, Passes, PassesError, Plan, Reads, Sharing, Side, compound_setting, passes,
};
use alloc::format;
use alloc::string::{String, ToString};

/// The passes, and on which slide.
#[derive(Clone, Debug)]
pub(super) struct Cut {
    pub(super) passes: Passes,
    pub(super) dial: Dial,
    /// The unit that the dial is marked in.
    pub(super) unit: Unit,
    /// Degrees from the cross slide's direction, where the compound feeds.
    pub(super) compound_deg: Option<f64>,
    /// Whether the numbers run down as the tool goes deeper: in a hole, on a dial that grows
    /// inwards.
    pub(super) backwards: bool,
}

/// Why there are no passes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum NoCut {
    /// Neither the cross slide nor the compound has a dial.
    Dial,
    /// The passes can't be shared out so.
    Because(PassesError),
}

/// The last cut but the spring pass takes no less than this, mm. Common practice, no source.
const LEAST_CUT: Ratio = Ratio::of(1, 50);

/// A pass for each tenth of a millimetre of pitch, at least four and at most sixty.
/// Common practice, no source.
fn count(pitch: Ratio) -> u16 {
    let tenths = pitch.mul(Ratio::whole(10)).map_or(60, |tenths| tenths.neg().floor());
    u16::try_from(tenths.saturating_neg().clamp(4, 60)).unwrap_or(60)
}

impl Cut {
    /// Straight in by the cross slide's dial; where it has none, along the flank by the compound's.
    pub(super) fn plan(wanted: &Wanted, sizes: &Sizes, shop: &Shop) -> Result<Cut, NoCut> {
        let (owned, compound_deg) = match (shop.dial("cross"), shop.dial("compound")) {
            (Some(dial), _) => (dial, None),
            (None, Some(dial)) => {
                let included = sizes.profile.included_deg.to_f64();
                (dial, Some(compound_setting(included).0))
            }
            (None, None) => return Err(NoCut::Dial),
        };
        let reads = if owned.reads_diameter { Reads::Diameter } else { Reads::Radius };
        // Where the lines of a turn aren't known they are simply counted on.
        let lines = owned.divisions.unwrap_or(u32::MAX);
        let because = |why| NoCut::Because(why);
        let dial = Dial::marked(owned.division, lines, reads)
            .map_err(|why| because(PassesError::TooLarge(why)))?;
        let plan = Plan {
            depth: sizes.depth,
            feed: compound_deg.map_or(Feed::Straight, Feed::Flank),
            sharing: Sharing::Area,
            count: Count::Passes(count(sizes.profile.pitch)),
            least_cut: LEAST_CUT,
            springs: 0,
        };
        let passes = passes(&plan, &dial).map_err(because)?;
        let inside = wanted.side == Side::Inside;
        let backwards = inside != (owned.grows == Some("outwards"));
        Ok(Cut { passes, dial, unit: owned.unit, compound_deg, backwards })
    }

    /// The slide whose dial is read.
    pub(super) const fn slide(&self) -> &'static str {
        if self.compound_deg.is_some() { "compound dial" } else { "cross dial" }
    }

    /// What the dial shows after so many lines from 0: "1 turn + 37"; where it runs down, the
    /// number that then stands there.
    pub(super) fn shown(&self, lines: u32) -> String {
        let reading = self.dial.reading(lines);
        if !self.backwards {
            return reading.to_string();
        }
        if self.dial.lines == u32::MAX {
            return format!("{lines} back");
        }
        let at = match reading.line {
            0 => 0,
            line => self.dial.lines.saturating_sub(line),
        };
        match reading.turns {
            0 => format!("{at}"),
            1 => format!("1 turn back, {at}"),
            turns => format!("{turns} turns back, {at}"),
        }
    }

    /// How many of the passes are cut before a nut is first tried: those that leave a tenth of the
    /// depth. Common practice, no source.
    pub(super) fn before_the_nut(&self) -> usize {
        let all = &self.passes.passes;
        let full = all.last().map_or(0.0, |pass| pass.depth_mm);
        all.iter().take_while(|pass| pass.depth_mm <= 0.9 * full).count().max(1)
    }

    /// Radial travel of one line, mm.
    pub(super) fn line(&self) -> f64 {
        let along = self.dial.travel.to_f64();
        along * self.compound_deg.map_or(1.0, |deg| libm::cos(deg.to_radians()))
    }
}
