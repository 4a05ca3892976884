//! Holes on a bolt circle by co-ordinates: readings from two touched edges, or from the middle.

use crate::exact::Ratio;
use crate::operation::circle::{Tool, reading};
use crate::operation::{Mark, Picture, Step};
use crate::quantity::{Quantity, Unit, show};
use crate::record::{Node, Record};
use crate::shop::{Dial, Shop};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use core::f64::consts::PI;

/// Where each hole is: across by the cross slide, up by a vertical slide.
#[derive(Clone, Debug)]
pub(super) struct Places {
    /// Across and up, in mm from where the dials are zeroed.
    at: Vec<(f64, f64)>,
    /// Angles of one's own, in turns.
    turns: Vec<f64>,
    /// What touches the edges, where they are touched.
    pub(super) touched: Option<String>,
    cross: Option<Dial>,
    up: Option<Dial>,
    like: Unit,
}

impl Places {
    /// The first hole stands straight across from the middle, away from the edge touched; the
    /// others follow upwards. An edge touched by the cutter is half its width from its axis.
    pub(super) fn of(
        entries: &Record,
        shop: &Shop,
        diameter: &Quantity,
        tool: &Tool,
        into: Option<u32>,
        angles: &[Ratio],
    ) -> Places {
        let edge = entries.quantity("edge");
        let other = entries.quantity("other_edge").or(edge);
        let half = tool.width.as_ref().map_or(0.0, |width| width.to_f64() / 2.0);
        let from = |edge: Option<&Quantity>| edge.map_or(0.0, |edge| edge.to_f64() + half);
        let (across, up) = (from(edge), from(other));
        let radius = diameter.to_f64() / 2.0;
        let even = (0..into.unwrap_or(0)).map(|k| f64::from(k) / f64::from(into.unwrap_or(1)));
        let own = angles.iter().map(|angle| angle.to_f64() / 360.0);
        let at = even.chain(own).map(|turn| {
            let angle = 2.0 * PI * turn;
            (across + radius * libm::cos(angle), up + radius * libm::sin(angle))
        });
        let width = tool.width.as_ref().map_or("", Quantity::text);
        Places {
            at: at.collect(),
            turns: angles.iter().map(|angle| angle.to_f64() / 360.0).collect(),
            touched: edge.map(|_| width.to_owned()),
            cross: shop.dial("cross"),
            up: shop.dial("compound"),
            like: diameter.unit(),
        }
    }

    pub(super) fn len(&self) -> usize {
        self.at.len()
    }

    pub(super) fn node(&self) -> Node {
        let pair = |(across, up): &(f64, f64)| {
            Node::Object(Vec::from([
                ("across_mm".to_owned(), Node::from(*across)),
                ("up_mm".to_owned(), Node::from(*up)),
            ]))
        };
        Node::List(self.at.iter().map(pair).collect())
    }

    /// "across 14 turns + 1.2 mm, up 33.1 mm", figures between stars.
    pub(super) fn words(&self, hole: usize) -> Option<String> {
        let (across, up) = self.at.get(hole)?;
        let across = reading(self.cross.as_ref(), self.like, *across);
        let up = reading(self.up.as_ref(), self.like, *up);
        Some(format!("across {across}, up {up}"))
    }

    /// The steps where nothing divides the circle: the edges, or the middle, then hole by hole.
    pub(super) fn step(&self, at: usize) -> Option<Step> {
        let Some(hole) = at.checked_sub(1) else { return Some(self.zero()) };
        let (across, up) = self.at.get(hole)?;
        let all = u32::try_from(self.len()).ok()?;
        let number = u32::try_from(at).ok()?;
        Some(Step {
            title: format!("hole {number} of {all}"),
            say: Vec::from([
                "Cutter clear and stopped. Both slides unlocked.".to_owned(),
                format!("Cross slide to {}.", reading(self.cross.as_ref(), self.like, *across)),
                format!("Vertical slide to {}.", reading(self.up.as_ref(), self.like, *up)),
                "Each from the side from which it was zeroed. Lock both.".to_owned(),
                "Cutter on, cut.".to_owned(),
            ]),
            label: "across, up".to_owned(),
            figure: format!(
                "{}, {}",
                show::float_trimmed(self.shown(*across), self.places()),
                show::float_trimmed(self.shown(*up), self.places())
            ),
            caution: Some("Slides locked before the cutter meets the work; hands clear of it."),
            done: "Cut",
            cuts: true,
            measures: None,
            picture: Some(Picture::Rim {
                into: all,
                at: number.saturating_sub(1),
                mark: Mark::Hole,
                first: 1,
                laps: 1,
                angles: self.turns.clone(),
            }),
            ..Step::default()
        })
    }

    fn shown(&self, mm: f64) -> f64 {
        if self.like.is_inch() { mm / 25.4 } else { mm }
    }

    fn places(&self) -> u32 {
        if self.like.is_inch() { 3 } else { 2 }
    }

    fn zero(&self) -> Step {
        let mut say = Vec::new();
        match &self.touched {
            Some(width) => {
                let by = if width.is_empty() { "the cutter" } else { "the cutter of " };
                say.push(format!("Touch the edges with {by}{width}, turned by hand."));
                say.push(
                    "Zero the cross slide at one, the vertical slide at the other.".to_owned(),
                );
            }
            None => say.push("The spindle over the middle: zero both slides.".to_owned()),
        }
        say.push("Come up from one side only, and so at every hole.".to_owned());
        Step {
            title: "Zero the slides".to_owned(),
            say,
            caution: Some("Spindle isolated while a hand turns it."),
            done: "Zeroed",
            ..Step::default()
        }
    }
}
