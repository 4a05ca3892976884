//! What is drawn of a thread: its section with the passes, and the chasing dial's face.

use super::super::{Picture, Section};
use super::answer::Thread;
use super::card::{length, range};
use super::sizes::Sizes;
use super::wanted::lead_text;
use crate::exact::Ratio;
use crate::threads::{Rule, Side};
use alloc::boxed::Box;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// The section, with all the passes, or those before and at one.
pub(super) fn section(thread: &Thread, at: Option<u16>) -> Option<Picture> {
    let sizes = thread.sizes.as_ref()?;
    let (wanted, profile) = (&thread.wanted, &sizes.profile);
    let cut = thread.cut.as_ref().and_then(|cut| cut.as_ref().ok());
    let passes = cut.map_or_else(Vec::new, |cut| {
        let shown = at.map_or(usize::MAX, |at| usize::from(at).saturating_add(1));
        cut.passes.passes.iter().take(shown).map(|pass| pass.depth_mm).collect()
    });
    let inside = wanted.side == Side::Inside;
    // What is left between two grooves at the surface that is cut into.
    let crest = if inside {
        let above = profile.nut_crest.to_f64() - profile.addendum.to_f64();
        profile.pitch.to_f64() / 2.0 - 2.0 * above * libm::tan(profile.half_angle())
    } else {
        profile.crest_flat()
    };
    let limits = depth_limits(sizes).filter(|_| !inside);
    Some(Picture::ThreadSection(Box::new(Section {
        included_deg: profile.included_deg.to_f64(),
        pitch: profile.pitch.to_f64(),
        depth: sizes.depth.to_f64(),
        crest,
        rounded: matches!(
            profile.form,
            crate::threads::Form::Whitworth
                | crate::threads::Form::Ba
                | crate::threads::Form::Cycle
        ),
        passes_words: match passes.len() {
            0 => String::new(),
            1 => String::from("1 pass"),
            n => format!("{n} passes"),
        },
        passes,
        along_flank: cut.is_some_and(|cut| cut.compound_deg.is_some()),
        inside,
        pitch_words: lead_text(wanted.thread.pitch, wanted.inch),
        depth_words: length(thread, sizes.depth.to_f64()),
        limits_words: limits.map_or_else(String::new, |(least, most)| range(thread, least, most)),
        limits,
    })))
}

/// Least and greatest depth from the nominal surface, by the limits of the root.
fn depth_limits(sizes: &Sizes) -> Option<(f64, f64)> {
    let minor = sizes.limits.as_ref().ok()?.minor;
    let major = sizes.major.map(Ratio::to_f64)?;
    Some(((major - minor.max?) / 2.0, (major - minor.min?) / 2.0))
}

/// What a pass is run by: the dial's face where its marks matter, else the section so far.
pub(super) fn of_pass(thread: &Thread, at: Option<u16>) -> Option<Picture> {
    let dial = thread.nuts.as_ref().and_then(|nuts| {
        let dial = nuts.dial.filter(|_| {
            matches!(nuts.rule, Rule::AnyMark | Rule::EveryNthMark(_) | Rule::OneMark)
        })?;
        Some(Picture::ChasingDial { marks: dial.marks, usable: nuts.marks.clone() })
    });
    dial.or_else(|| section(thread, at))
}
