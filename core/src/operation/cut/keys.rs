//! A cut's keys in the file.

use super::Cut;
use crate::cutting::Beat;
use crate::record::Node;
use alloc::borrow::ToOwned;
use alloc::string::{String, ToString};
use alloc::vec;
use alloc::vec::Vec;

impl Cut {
    pub(super) fn keys(&self) -> Vec<(String, Node)> {
        let mut pairs: Vec<(String, Node)> = Vec::new();
        let mut put = |key: &str, node: Node| pairs.push((key.to_owned(), node));
        put("book_m_per_min", Node::from(vec![self.book.low, self.book.high]));
        put("cutter_material", Node::from(self.material.id()));
        put("cutter_material_assumed", Node::from(self.assumed));
        if let Some(at) = &self.at {
            put("ideal_rpm", Node::from(at.range.ideal()));
            put("ideal_range_rpm", Node::from(vec![at.range.low, at.range.high]));
            if let Some((_, speed)) = self.spindle() {
                put("spindle_rpm", Node::from(speed.rpm));
                if let Some(how) = &speed.how {
                    put("how", Node::from(how.as_str()));
                }
            }
            put("surface_m_per_min", Node::from(at.surface_m_per_min));
        }
        if let Some(chip) = self.chip_mm {
            put("chip_mm_per_tooth", Node::from(chip));
        }
        if let Some(feed) = self.feed_mm_per_min {
            put("feed_mm_per_min", Node::from(feed));
        }
        if let (Some(beat), Some(slide)) = (&self.beat, self.slide) {
            put("beat", beat_node(beat, slide));
        }
        if let Some(passes) = self.passes {
            put("passes", Node::from(passes));
        }
        if let Some(power) = &self.power_feed {
            put("power_feed_mm_per_rev", Node::from(power.mm));
        }
        if let Some(time) = self.time(self.passes.unwrap_or(1)) {
            put("cutting_minutes", Node::from(time.cutting / 60.0));
            put("minutes", Node::from(time.minutes()));
        }
        if let Some(load) = &self.load {
            put("force_n", Node::from(load.force_n));
            put("power_w", Node::from(load.power_w));
            if let Some(gives) = load.gives_mm {
                put("gives_mm", Node::from(gives));
            }
        }
        if !self.too_fast_for.is_empty() {
            let names = self.too_fast_for.iter().map(|(name, _)| Node::from(name.as_str()));
            put("too_fast_for", Node::List(names.collect()));
        }
        pairs
    }
}

fn beat_node(beat: &Beat, slide: &str) -> Node {
    Node::Object(vec![
        ("slide".to_owned(), Node::from(slide)),
        ("turn".to_owned(), Node::from(beat.turn.to_string())),
        ("seconds".to_owned(), Node::from(beat.seconds)),
    ])
}
