//! An answer's picture, drawn.

use crate::drawings::{self, DirectGear, Lengths, Mark, Numbers, Plate, Rim, Speed, SpeedLadder};
use latheside_core::operation::Picture;

/// The drawing as SVG.
pub(crate) fn drawn(picture: &Picture) -> String {
    match picture {
        Picture::Train { pairs, idlers } => {
            // Idlers only turn the direction: they stand in the last pair, where there is room.
            let pair = pairs.len().saturating_sub(1);
            let idlers = vec![drawings::Idler { pair, teeth: None }; *idlers as usize];
            drawings::train(&drawings::Train { pairs, idlers: &idlers, from: "spindle", to: "leadscrew" })
        }
        Picture::Plate { circles, circle, spaces, hole } => drawings::plate(&Plate {
            circles,
            used: *circle,
            present: *hole,
            step: *spaces,
            done: &[],
        }),
        Picture::Direct { teeth, into, at, half } => {
            let positions = u64::from(*teeth) * if *half { 2 } else { 1 };
            let places: Vec<u32> = (0..*into)
                .map(|n| (u64::from(n) * positions / u64::from((*into).max(1))) as u32)
                .collect();
            drawings::direct_gear(&DirectGear {
                teeth: *teeth,
                half_teeth: *half,
                places: &places,
                present: *at as usize,
            })
        }
        Picture::Speeds { owned, range, chosen } => {
            let speeds: Vec<Speed> = owned.iter().map(|rpm| Speed { rpm: *rpm, how: "" }).collect();
            drawings::speed_ladder(&SpeedLadder {
                speeds: &speeds,
                ideal: Some((range.0.round() as u32, range.1.round() as u32)),
                chosen: owned.iter().position(|rpm| rpm == chosen),
            })
        }
        Picture::FitZones { .. } | Picture::Taper { .. } | Picture::SeatedScrew(_) => String::new(),
        Picture::Rim { into, at, graduated } => drawings::rim(&Rim {
            divisions: *into,
            present: *at,
            mark: if *graduated {
                Mark::Line(Lengths { long: 10, middle: 5 })
            } else {
                Mark::Line(Lengths { long: 0, middle: 0 })
            },
            numbers: Numbers { every: if *graduated { 10 } else { 1 }, worth: if *graduated { 10 } else { 1 }, places: 0 },
        }),
    }
}
