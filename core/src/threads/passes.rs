//! From the first scratch to full depth: each pass in lines of the dial.

use alloc::vec::Vec;
use core::fmt;

use super::form::near;
use crate::exact::{Ratio, RatioError};

/// Which way the tool goes in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Feed {
    /// Straight in, by the cross slide's dial.
    Straight,
    /// Along a flank, by the compound's dial, set over from the cross slide's direction by so many
    /// degrees.
    Flank(f64),
    /// Straight in by the cross slide's dial, a little to one side and the other in turn, so that
    /// each pass cuts one flank: half the angle between the flanks, degrees.
    Alternate(f64),
}

/// How the work is shared between passes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sharing {
    /// Each pass takes the same chip area: depth by the square root of the pass's number.
    /// Source: common practice, no source.
    Area,
    /// The same for a tool with a wide flat: as a tool goes `d` deep it has taken flat × d + d² × tan α,
    /// by geometry.
    FlatNosed {
        /// The tool's flat, mm.
        flat: Ratio,
        /// The angle between its flanks, degrees.
        included: Ratio,
    },
    /// Each pass goes equally deeper.
    Depth,
}

/// How many passes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Count {
    /// This many, spring passes not counted.
    Passes(u16),
    /// As few as keep the first pass no deeper than this, radially, mm.
    FirstCut(Ratio),
}

/// What is asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plan {
    /// Radial depth from the blank's surface, mm.
    pub depth: Ratio,
    /// Which way the tool goes in.
    pub feed: Feed,
    /// How the work is shared.
    pub sharing: Sharing,
    /// How many passes.
    pub count: Count,
    /// No pass but the last goes less than this deeper, radially, mm: a tool that only rubs wears.
    pub least_cut: Ratio,
    /// Passes at full depth after the last.
    pub springs: u8,
}

/// One pass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pass {
    /// Lines from first touch, whole turns included.
    pub lines: u32,
    /// Radial depth that those lines make, mm.
    pub depth_mm: f64,
    /// How much deeper than the pass before, radially, mm.
    pub cut_mm: f64,
    /// How far the tool stands aside from the middle, mm, towards the headstock where positive.
    pub aside_mm: f64,
    /// Whether it only takes the spring out.
    pub spring: bool,
}

/// All the passes.
#[derive(Clone, Debug, PartialEq)]
pub struct Passes {
    /// In order.
    pub passes: Vec<Pass>,
    /// Slide travel from first touch to full depth, mm.
    pub travel: Ratio,
    /// What the dial's last line leaves short of that travel, mm; past it where negative.
    pub short: Ratio,
}

/// Why there are no passes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum PassesError {
    /// The depth is nothing.
    NoDepth,
    /// A line of the dial moves nothing.
    NoDial,
    /// The compound can't be set so.
    Angle,
    /// The dial's lines are coarser than the whole depth.
    LinesTooCoarse,
    /// More than a thousand passes.
    TooMany,
    /// The first cut, or the number of passes, is nothing.
    NoCut,
    /// Sizes too large.
    TooLarge(RatioError),
}

impl fmt::Display for PassesError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            PassesError::NoDepth => "there is no depth to cut",
            PassesError::NoDial => "passes need a dial whose lines move the slide",
            PassesError::Angle => "the compound can be set over by 0 to 75 degrees",
            PassesError::LinesTooCoarse => "one line of this dial is more than the whole depth",
            PassesError::TooMany => "that would be more than 1000 passes: take a deeper first cut",
            PassesError::NoCut => "a first cut of nothing never gets there",
            PassesError::TooLarge(why) => return why.fmt(f),
        })
    }
}

impl core::error::Error for PassesError {}

impl From<RatioError> for PassesError {
    fn from(why: RatioError) -> PassesError {
        PassesError::TooLarge(why)
    }
}

/// Most passes that are ever listed.
const MOST: u16 = 1000;

/// What the compound must travel for a radial depth, set over from the cross slide's direction by
/// so many degrees, and how far that moves the tool along the work: (travel, along), in the depth's
/// unit. By geometry: depth / cos, depth × tan.
#[must_use]
pub fn compound_travel(depth: f64, degrees: f64) -> (f64, f64) {
    let angle = degrees.to_radians();
    (depth / libm::cos(angle), depth * libm::tan(angle))
}

/// Where to set the compound for a thread of this angle between the flanks, half a degree under
/// half of it, so that the following flank is just shaved: degrees from the cross slide's direction,
/// and the same read from the work's axis (29½ or 60½ for a 60° thread).
///
/// Source: NAVEDTRA 14345 p. 179 (29½ for 60°); other forms alike by common practice, no source.
#[must_use]
pub fn compound_setting(included_deg: f64) -> (f64, f64) {
    let from_cross = included_deg / 2.0 - 0.5;
    (from_cross, 90.0 - from_cross)
}

/// The passes on a dial whose slide moves so far for one line, mm, each rounded from the blank's surface
/// to the nearest line, so that no rounding is carried on; passes that would stand on the same line as
/// the one before are left out, and the last is the depth to the nearest line.
///
/// # Errors
///
/// [`PassesError`] says what can't be.
pub fn passes(plan: &Plan, per_line: Ratio) -> Result<Passes, PassesError> {
    if !plan.depth.is_positive() {
        return Err(PassesError::NoDepth);
    }
    if !per_line.is_positive() {
        return Err(PassesError::NoDial);
    }
    let depth = plan.depth.to_f64();
    let (travel, aslant) = match plan.feed {
        Feed::Straight | Feed::Alternate(_) => (plan.depth, 1.0),
        Feed::Flank(degrees) if (0.0..=75.0).contains(&degrees) => {
            let aslant = libm::cos(degrees.to_radians());
            (near(depth / aslant)?, aslant)
        }
        Feed::Flank(_) => return Err(PassesError::Angle),
    };
    let last = u32::try_from(travel.div(per_line)?.round())
        .map_err(|_| PassesError::TooLarge(RatioError::Overflow))?;
    if last == 0 {
        return Err(PassesError::LinesTooCoarse);
    }
    let whole = travel.to_f64() / per_line.to_f64();
    // Radial depth of one line.
    let line = per_line.to_f64() * aslant;
    let count = match plan.count {
        Count::Passes(0) => return Err(PassesError::NoCut),
        Count::Passes(count) => count,
        Count::FirstCut(cut) if cut.is_positive() => needed(plan.depth.div(cut)?, plan.sharing)?,
        Count::FirstCut(_) => return Err(PassesError::NoCut),
    };
    if count > MOST {
        return Err(PassesError::TooMany);
    }
    // Rounded up, so that no cut is less; a least cut beyond the depth leaves one pass.
    let least = libm::ceil(plan.least_cut.to_f64() / line - 1e-9) as u32;
    let mut found: Vec<Pass> = Vec::new();
    let (mut before, mut aside) = (0u32, 0.0);
    let mut left = true;
    let mut push = |lines: u32, spring: bool| {
        let cut = f64::from(lines.saturating_sub(before)) * line;
        if let Feed::Alternate(half_deg) = plan.feed
            && !spring
            && before > 0
        {
            // One flank stays where it is: the tool moves over by what it goes deeper.
            let over = cut * libm::tan(half_deg.to_radians());
            aside += if left { over } else { -over };
            left = !left;
        }
        found.push(Pass {
            lines,
            depth_mm: f64::from(lines) * line,
            cut_mm: cut,
            aside_mm: aside,
            spring,
        });
        before = lines;
    };
    let mut at = 0u32;
    for k in 1..count {
        let share = f64::from(k) / f64::from(count);
        let share = plan.sharing.depth(share, depth);
        // The cast holds: this isn't past the last line, which is a u32.
        let lines = (libm::round(whole * share) as u32).max(at.saturating_add(least));
        if lines.saturating_add(least.max(1)) > last {
            break;
        }
        if lines > at {
            push(lines, false);
            at = lines;
        }
    }
    push(last, false);
    for _ in 0..plan.springs {
        push(last, true);
    }
    let reached = per_line.mul(Ratio::whole(i64::from(last)))?;
    Ok(Passes { passes: found, travel, short: travel.sub(reached)? })
}

impl Sharing {
    /// The part of the whole depth, mm, at which so much of the work is done.
    fn depth(self, done: f64, whole: f64) -> f64 {
        match self {
            Sharing::Depth => done,
            Sharing::Area => libm::sqrt(done),
            Sharing::FlatNosed { flat, included } => {
                let (flat, tan) = (flat.to_f64(), libm::tan(included.to_f64().to_radians() / 2.0));
                let area = done * (flat * whole + whole * whole * tan);
                // The positive root of tan d² + flat d = area, said so that no flat is no trouble.
                let root = libm::sqrt(flat * flat + 4.0 * tan * area);
                2.0 * area / (flat + root) / whole
            }
        }
    }
}

/// The fewest passes whose first is no deeper than one part in so many of the depth.
fn needed(parts: Ratio, sharing: Sharing) -> Result<u16, PassesError> {
    // With a flat fewer would do: by the square root none is deeper.
    let parts = if sharing == Sharing::Depth { parts } else { parts.mul(parts)? };
    let up = parts.neg().floor().saturating_neg();
    u16::try_from(up).ok().filter(|n| *n <= MOST).map(|n| n.max(1)).ok_or(PassesError::TooMany)
}
