//! The tool: its angle, its flat, its sides, and how it is set.

use super::super::Step;
use super::answer::Thread;
use super::card::length;
use super::section::section;
use super::sizes::Sizes;
use super::wanted::Wanted;
use crate::exact::Ratio;
use crate::quantity::show;
use crate::threads::{Form, Helix, Point, helix};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
use alloc::vec;

/// Clearance under each side of the tool, degrees. Common practice, no source.
pub(super) const CLEARANCE: f64 = 3.0;

/// What the tool must be.
#[derive(Clone, Debug)]
pub(super) struct Tool {
    /// Angle between its edges, degrees.
    pub(super) included: f64,
    /// Width of its flat, mm.
    pub(super) flat: f64,
    /// How far under its sides are ground; none where the thread's diameter isn't known.
    pub(super) helix: Option<Helix>,
}

impl Tool {
    pub(super) fn of(wanted: &Wanted, sizes: &Sizes) -> Tool {
        let crests = sizes.major.zip(sizes.pitch).zip(sizes.minor);
        let mm = Ratio::to_f64;
        Tool {
            included: mm(sizes.profile.included_deg),
            flat: sizes.profile.root_flat(wanted.side).max(0.0),
            helix: crests.map(|((major, pitch), minor)| {
                helix(wanted.lead, mm(major), mm(pitch), mm(minor), CLEARANCE)
            }),
        }
    }

    /// "sides 6.4° and 0.3° under", the leading one first.
    pub(super) fn sides(&self) -> Option<String> {
        let helix = self.helix.as_ref()?;
        let one = |degrees| show::float(degrees, 1);
        Some(format!(
            "sides {}° and {}° under",
            one(helix.leading_side_deg),
            one(helix.trailing_side_deg)
        ))
    }

    /// "60°, flat 0.188 mm", or its radius where that is what the form has or what was entered.
    pub(super) fn point(&self, thread: &Thread, sizes: &Sizes) -> String {
        let point = match (thread.wanted.radius, sizes.profile.form) {
            (Some(radius), _) => Some(radius),
            (None, Form::Whitworth | Form::Ba | Form::Cycle) => sizes.profile.root_radius,
            _ => None,
        };
        let said = match point {
            Some(radius) if radius.is_zero() => "a sharp point".to_owned(),
            Some(radius) => format!("radius {}", length(thread, radius.to_f64())),
            None => format!("flat {}", length(thread, self.flat)),
        };
        format!("{}°, {said}", show::float_trimmed(self.included, 2))
    }
}

/// The tool ground and set.
pub(super) fn tool(thread: &Thread) -> Option<Step> {
    let (sizes, tool) = (thread.sizes.as_ref()?, thread.tool.as_ref()?);
    let figure = format!("{}°", show::float_trimmed(tool.included, 2));
    let mut say =
        vec!["Spindle stopped.".to_owned(), format!("The tool: *{}*.", tool.point(thread, sizes))];
    if let Some(sides) = tool.sides() {
        say.push(format!("Its {sides}, the side that leads first."));
    }
    if thread.wanted.radius.is_none() {
        let sharp = sizes.profile.tool_depth(thread.wanted.side, Point::Sharp);
        say.push(format!(
            "The depths are for this point; a sharp one goes {} deep.",
            length(thread, sharp)
        ));
    }
    say.push("At centre height, square to the work by the gauge.".to_owned());
    match &thread.cut {
        Some(Ok(cut)) if cut.alternating => {
            say.push("Compound parallel to the work, its dial to *0*.".to_owned());
        }
        Some(Ok(cut)) => {
            if let Some(set_over) = cut.set_over("*") {
                say.push(format!("Compound set over: {set_over}."));
            }
        }
        _ => {}
    }
    Some(Step {
        title: "The tool".to_owned(),
        say,
        label: "angle".to_owned(),
        figure,
        caution: Some("Spindle stopped, and out of gear, while hands are at the tool."),
        done: "Set",
        picture: section(thread, None),
        ..Step::default()
    })
}
