//! The tool: its angle, its flat, its sides, and how it is set.

use super::super::Step;
use super::answer::Thread;
use super::card::length;
use super::section::section;
use super::sizes::Sizes;
use super::steps::Made;
use super::wanted::Wanted;
use crate::exact::Ratio;
use crate::operation::ready::{Kit, compound_fast, tool as mounted};
use crate::procedure::{
    Action, Adjustable, Axis, Cutter, CutterAt, CutterStands, Degrees, Gauge, Length, Running,
    Shape, Slide, Spindle, Statement, StepId,
};
use crate::quantity::show;
use crate::threads::{Form, Helix, helix};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

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

    /// Whether its point is a flat, not a radius.
    fn flat_nosed(&self, thread: &Thread) -> bool {
        let form = thread.sizes.as_ref().map(|sizes| sizes.profile.form);
        let round = matches!(form, None | Some(Form::Whitworth | Form::Ba | Form::Cycle));
        self.flat > 0.0 && thread.wanted.radius.is_none() && !round
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
pub(super) fn tool(made: &Made<'_>) -> Step {
    let (thread, course, depths) = (made.thread, made.course, made.depths);
    let flat = thread.tool.as_ref().filter(|tool| tool.flat_nosed(thread)).map(|tool| tool.flat);
    let included = thread.sizes.as_ref().map(|sizes| sizes.profile.included_deg);
    let cutter = Cutter {
        name: None,
        diameter: course.bar.map(|(bar, _)| course.like(bar)),
        out: course.bar.map(|(_, out)| course.like(out)),
        width: flat.and_then(|flat| Length::near(flat, course.unit)),
        angle: included.map(Degrees),
        ..Cutter::new(Shape::ThreadingTool, CutterAt::ToolPost)
    };
    let mut actions =
        Vec::from([Action::Look(Statement::Spindle { of: Spindle::Lathe, is: Running::Stopped })]);
    actions.extend(mounted(cutter));
    actions.extend([
        Action::SquareUp { what: Adjustable::Tool, to: Axis::Across },
        Action::Look(Statement::FlanksSquare),
    ]);
    match depths.degrees.and_then(|degrees| show::near(degrees, 4)) {
        Some(degrees) => actions.push(Action::Swing {
            what: Adjustable::Compound,
            to: Degrees(degrees),
            from: Axis::Across,
            handle: course.handle(),
        }),
        None if moves_aside(made) => {
            actions.push(Action::SquareUp { what: Adjustable::Compound, to: Axis::Along });
        }
        None => actions.extend(compound_fast(Axis::Along)),
    }
    if !thread.wanted.there {
        let carriage = if course.carriage.is_some() { Gauge::Dial } else { Gauge::Rule };
        let cross = thread.kit.gauge(thread.lathe.cross.is_some());
        let gauges = [carriage, cross, depths.on, depths.compound_on];
        let some = if moves_aside(made) || depths.slide == Slide::Compound { 4 } else { 3 };
        actions.extend(Kit::indicator_for(gauges.get(..some).unwrap_or(&gauges)));
    } else {
        let cross = thread.kit.gauge(thread.lathe.cross.is_some());
        actions.extend(Kit::indicator_for(&[cross, depths.compound_on]));
    }
    actions.push(Action::Look(Statement::Cutter { is: CutterStands::Clear, off: None }));
    let mut say = Vec::new();
    match (&thread.tool, &thread.sizes) {
        (Some(_), Some(_)) if flat.is_none() => {
            say.push("Its point as the card says; the depths are for that point.".to_owned());
        }
        (None, _) | (_, None) => {
            say.push("Ground to the form of its mate: the form isn't entered.".to_owned());
        }
        _ => {}
    }
    if thread.tool.as_ref().and_then(Tool::sides).is_some() {
        say.push("Its sides under the cut as the card says, the one that leads first.".to_owned());
    }
    let figure = included.map(|deg| format!("{}°", show::float_trimmed(deg.to_f64(), 2)));
    Step {
        id: StepId::new("tool", 1),
        title: "The tool".to_owned(),
        actions,
        say,
        label: if figure.is_some() { "angle" } else { "" }.to_owned(),
        figure: figure.unwrap_or_default(),
        done: "Set",
        picture: section(thread, None),
        ..Step::default()
    }
}

/// Whether the compound, parallel to the work, moves in the job.
pub(super) fn moves_aside(made: &Made<'_>) -> bool {
    let starts = made.thread.wanted.thread.starts > 1 && !made.course.by_teeth;
    made.depths.alternating || starts || made.thread.wanted.there
}
