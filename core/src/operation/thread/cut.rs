//! The passes, as readings of this lathe's own dial.

use super::sizes::Sizes;
use super::wanted::Wanted;
use crate::exact::Ratio;
use crate::quantity::show;
use crate::record::Record;
use crate::shop::{Dial, Shop};
use crate::threads::{
    Count, Feed, Passes, PassesError, Plan, Sharing, Side, compound_setting, passes,
};
use alloc::format;
use alloc::string::{String, ToString};

/// The passes, and on which slide.
#[derive(Clone, Debug)]
pub(super) struct Cut {
    pub(super) passes: Passes,
    pub(super) dial: Dial,
    /// Degrees from the cross slide's direction, where the compound feeds.
    pub(super) compound_deg: Option<f64>,
    /// Whether the tool stands aside, one way and the other in turn.
    pub(super) alternating: bool,
    /// Whether the flank was asked for, and the starts need the compound parallel to the work.
    pub(super) parallel: bool,
    /// Whether the numbers run down as the tool goes deeper: in a hole, on a dial that grows
    /// inwards.
    pub(super) backwards: bool,
    /// Passes at full depth after the last.
    pub(super) springs: u32,
}

/// Why there are no passes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum NoCut {
    /// Neither the cross slide nor the compound has a dial.
    Dial,
    /// The compound is to feed and has none.
    Compound,
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
    /// By the entries; where they say nothing, straight in by the cross slide's dial, or along the
    /// flank by the compound's where that is the only one.
    pub(super) fn plan(
        entries: &Record,
        wanted: &Wanted,
        sizes: &Sizes,
        shop: &Shop,
    ) -> Result<Cut, NoCut> {
        let included = sizes.profile.included_deg.to_f64();
        let set_over = entries.ratio("set_over").map(Ratio::to_f64);
        let (cross, compound) = (shop.dial("cross"), shop.dial("compound"));
        let infeed = entries.choice("infeed");
        let flank = match infeed {
            // From start to start the compound goes on along the work: it can't be set over too.
            Some("flank") if wanted.thread.starts > 1 && cross.is_some() => false,
            Some(infeed) => infeed == "flank",
            None => set_over.is_some() || !shop.has_dial("cross"),
        };
        let alternating = infeed == Some("alternating");
        let dial = match (flank, cross, compound) {
            (true, _, Some(dial)) | (false, Some(dial), _) => dial,
            (true, _, None) if shop.has_dial("cross") || shop.has_dial("compound") => {
                return Err(NoCut::Compound);
            }
            _ => return Err(NoCut::Dial),
        };
        let compound_deg = flank.then(|| set_over.unwrap_or_else(|| compound_setting(included).0));
        let asked = entries.count("passes").and_then(|n| u16::try_from(n).ok());
        let plan = Plan {
            depth: sizes.depth,
            feed: match compound_deg {
                Some(degrees) => Feed::Flank(degrees),
                None if alternating => Feed::Alternate(included / 2.0),
                None => Feed::Straight,
            },
            sharing: match entries.choice("sharing") {
                Some("depth") => Sharing::Depth,
                _ => Sharing::Area,
            },
            count: Count::Passes(asked.unwrap_or_else(|| count(sizes.profile.pitch))),
            least_cut: entries.ratio("least_cut").unwrap_or(LEAST_CUT),
            springs: 0,
        };
        let passes = passes(&plan, dial.travel_per_line()).map_err(NoCut::Because)?;
        let inside = wanted.side == Side::Inside;
        let backwards = inside != (dial.grows == Some("outwards"));
        Ok(Cut {
            passes,
            dial,
            compound_deg,
            alternating,
            parallel: infeed == Some("flank") && !flank,
            backwards,
            springs: entries.count("springs").unwrap_or(1),
        })
    }

    /// The slide whose dial is read.
    pub(super) const fn slide(&self) -> &'static str {
        if self.compound_deg.is_some() { "compound dial" } else { "cross dial" }
    }

    /// What the dial shows after so many lines from 0: "1 turn + 37"; where it runs down, the
    /// number that then stands there.
    pub(super) fn shown(&self, lines: u32) -> String {
        self.stands(lines, self.backwards)
    }

    /// So many lines counted from 0, whichever way the dial runs: "1 turn + 37".
    pub(super) fn counted(&self, lines: u32) -> String {
        self.stands(lines, false)
    }

    fn stands(&self, lines: u32, back: bool) -> String {
        let reading = self.dial.after(lines.into(), back);
        reading.map_or_else(|| lines.to_string(), |reading| reading.stands())
    }

    /// "29.5° from the cross slide's direction, 60.5° from the work's axis".
    pub(super) fn set_over(&self, stars: &str) -> Option<String> {
        let degrees = self.compound_deg?;
        let shown = |degrees| show::float_trimmed(degrees, 2);
        Some(format!(
            "{stars}{}°{stars} from the cross slide's direction, {stars}{}°{stars} from the work's axis",
            shown(degrees),
            shown(90.0 - degrees)
        ))
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
        let along = self.dial.travel_per_line().to_f64();
        along * self.compound_deg.map_or(1.0, |deg| libm::cos(deg.to_radians()))
    }
}
