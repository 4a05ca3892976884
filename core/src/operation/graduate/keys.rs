//! A dial's keys in the file.

use super::Graduate;
use super::worth::Worth;
use crate::graduation::{Turning, spacing};
use crate::operation::circle::Circle;
use crate::quantity::show;
use crate::record::Node;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

impl Graduate {
    pub(super) fn keys(&self) -> Vec<(String, Node)> {
        let mut pairs: Vec<(String, Node)> = Vec::new();
        let mut put = |key: &str, node: Node| pairs.push((key.to_owned(), node));
        if let Some(scale) = &self.scale {
            put("lines", Node::from(scale.lines));
            put("value", Node::from(show::exact_mm(scale.value, false)));
            put("exact", Node::from(scale.exact()));
            if let (false, Ok(leftover)) = (scale.exact(), scale.leftover()) {
                put("leftover", Node::from(show::exact_mm(leftover, false)));
            }
            let (long, middle, short) = self.marks.counts(scale.lines);
            put("long", Node::from(long));
            put("middle", Node::from(middle));
            put("short", Node::from(short));
        }
        if let Some(pitch) = self.pitch() {
            put("pitch_mm", Node::from(pitch));
        }
        if let Some(gap) = self.gap() {
            put("gap_mm", Node::from(gap));
        }
        if let Some(finest) = self.finest() {
            put("finest_lines", Node::from(finest));
        }
        if let Some(lengths) = &self.lengths {
            let exact = lengths.iter().map(|mm| Node::from(show::exact_mm(*mm, false)));
            put("line_lengths", Node::List(exact.collect()));
        }
        if let (Some(cuts), Some(_)) = (self.tool.cuts(), &self.diameter) {
            put("cut_width_mm", Node::from(cuts.to_f64()));
        }
        if let (true, Some(closest), Some(scale)) = (self.on_face, self.closest(), &self.scale) {
            put("inner_pitch_mm", Node::from(spacing::pitch(closest, scale.lines)));
        }
        let others = self.other_scales().into_iter().map(|(scale, _)| {
            Node::Object(Vec::from([
                ("lines".to_owned(), Node::from(scale.lines)),
                ("value".to_owned(), Node::from(show::exact_mm(scale.value, false))),
            ]))
        });
        put("other_scales", Node::List(others.collect()));
        if let (Some(vernier), Some(each), Some(scale)) =
            (&self.vernier, self.vernier_each(), &self.scale)
        {
            let mut pairs = Vec::from([
                ("divisions".to_owned(), Node::from(vernier.divisions())),
                ("over".to_owned(), Node::from(vernier.over())),
                ("angle".to_owned(), Node::from(format!("{} deg", show::exact(each)))),
            ]);
            if let Ok(least) = vernier.least_count(scale.value) {
                let least = Node::from(show::exact_mm(least, false));
                pairs.push(("least_count".to_owned(), least));
            }
            put("vernier", Node::Object(pairs));
        }
        if let Some(worth) = Worth::of(self) {
            put("out_by_mm", Node::from(worth.either_way()));
            put("trust", Node::from(worth.trust().name()));
        }
        put("numbers", self.number_nodes());
        put("numbers_run", Node::from(run(self.numbers())));
        pairs
            .extend(self.circle.as_ref().map_or_else(Vec::new, |circle| circle.keys(self.on_face)));
        pairs.extend(
            self.circle.as_ref().map(|circle| ("positions".to_owned(), Circle::positions(circle))),
        );
        pairs
    }
}

/// A way round in one word.
pub(super) fn run(turning: Turning) -> &'static str {
    match turning {
        Turning::Clockwise => "clockwise",
        Turning::Anticlockwise => "anticlockwise",
    }
}
