//! An answer's picture, drawn.

use crate::drawings::{
    self, Collar, DirectGear, FitZones, Lead, Lengths, Mark, Numbers, Plate, Rim, Seat,
    SeatedScrew, Speed, SpeedLadder, Stands, Taper, Zone,
};
use latheside_core::operation::{self, Picture, Tone};

/// The drawing as SVG.
pub(super) fn drawn(picture: &Picture) -> String {
    match picture {
        Picture::Train { pairs, idlers } => train(pairs, *idlers, "leadscrew"),
        Picture::HeadTrain { pairs, idlers } => train(pairs, *idlers, "plate"),
        Picture::Collar { .. } => {
            collar(picture).as_ref().map(drawings::collar).unwrap_or_default()
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
        Picture::FitZones { hole, shaft, basic } => {
            drawings::fit_zones(&FitZones { hole: zone(hole), shaft: zone(shaft), basic })
        }
        Picture::Taper { large, small, length, angle, indicator } => drawings::taper(&Taper {
            large: large.0,
            small: small.0,
            length: length.0,
            large_words: &large.1,
            small_words: &small.1,
            length_words: &length.1,
            angle_words: angle,
            indicator: indicator.as_ref().map(|(travel, words)| (*travel, words.as_str())),
        }),
        Picture::SeatedScrew(seated) => {
            let [head, seat, clearance, tap, drilled] = &seated.words;
            drawings::seated_screw(&SeatedScrew {
                thread: seated.thread,
                head_diameter: seated.head.0,
                head_height: seated.head.1,
                seat: match seated.seat {
                    operation::Seat::Plain => Seat::Plain,
                    operation::Seat::Counterbore(diameter, depth) => {
                        Seat::Counterbore { diameter, depth }
                    }
                    operation::Seat::Countersink(diameter, included_deg) => {
                        Seat::Countersink { diameter, included_deg }
                    }
                },
                clearance: seated.clearance,
                thickness: seated.thickness,
                engaged: seated.engaged,
                tap_drill: seated.tap_drill,
                drilled: seated.drilled,
                head_words: head,
                seat_words: seat,
                clearance_words: clearance,
                tap_words: tap,
                drilled_words: drilled,
            })
        }
        Picture::ChasingDial { marks, usable } => {
            drawings::chasing_dial(&drawings::ChasingDial { marks: *marks, usable })
        }
        Picture::Chip(chip) => {
            let [depth_words, across_words, chip_words] = &chip.words;
            drawings::chip(&drawings::Chip {
                depth: chip.depth_mm,
                across: chip.across_mm,
                milled: chip.milled,
                inside: chip.inside,
                depth_words,
                across_words,
                chip_words,
            })
        }
        Picture::ThreadSection(section) => drawings::thread_section(&drawings::ThreadSection {
            included_deg: section.included_deg,
            pitch: section.pitch,
            depth: section.depth,
            crest: section.crest,
            rounded: section.rounded,
            passes: &section.passes,
            along_flank: section.along_flank,
            inside: section.inside,
            pitch_words: &section.pitch_words,
            depth_words: &section.depth_words,
            passes_words: &section.passes_words,
            limits: section.limits,
            limits_words: &section.limits_words,
        }),
        Picture::Bar(bar) => {
            let [pitch_words, overall_words, first_words] = &bar.words;
            drawings::bar(&drawings::Bar {
                places: bar.places,
                made: bar.made,
                lines: bar.mark == operation::Mark::Line,
                pitch: bar.pitch_mm,
                ends: bar.ends_mm,
                drill: bar.drill_mm,
                side: bar.side_mm,
                pitch_words,
                overall_words,
                first_words,
            })
        }
        Picture::Leads(points) => {
            let lead = |point: &operation::LeadPoint| Lead {
                lead: point.lead_mm,
                off: point.off.map(|off| off * 300.0),
                stands: match point.tone {
                    Some(Tone::Good) => Stands::Exact,
                    Some(Tone::Note) => Stands::Near,
                    Some(Tone::Mind) => Stands::Beyond,
                    None => Stands::Untold,
                },
            };
            drawings::leads(&points.iter().map(lead).collect::<Vec<Lead>>())
        }
        Picture::Rim { into, at, mark, first, laps, angles } => {
            let every = if *mark == operation::Mark::Graduation { 10 } else { 1 };
            drawings::rim(&Rim {
                divisions: *into,
                made: *at,
                laps: *laps,
                angles,
                mark: match mark {
                    operation::Mark::Hole => Mark::Hole,
                    operation::Mark::Flat => Mark::Flat,
                    operation::Mark::Graduation => Mark::Line(Lengths { long: 10, middle: 5 }),
                    operation::Mark::Line => Mark::Line(Lengths { long: 0, middle: 0 }),
                },
                first: *first,
                numbers: Numbers { every, worth: every, places: 0 },
            })
        }
    }
}

/// What is printed at full size, in pieces; nothing for most pictures.
pub(super) fn printed(picture: &Picture) -> Vec<String> {
    collar(picture).as_ref().map(drawings::strip).unwrap_or_default()
}

/// Whether there is something to print at full size.
pub(super) fn prints(picture: &Picture) -> bool {
    !printed(picture).is_empty()
}

/// The same as a file of its own; empty where nothing is printed at full size.
pub fn strip(picture: &Picture) -> String {
    collar(picture).as_ref().map(drawings::strip_file).unwrap_or_default()
}

fn train(pairs: &[(u16, u16)], idlers: u32, to: &'static str) -> String {
    // Idlers only turn the direction: they stand in the last pair, where there is room.
    let pair = pairs.len().saturating_sub(1);
    let idlers = vec![drawings::Idler { pair, teeth: None }; idlers as usize];
    drawings::train(&drawings::Train { pairs, idlers: &idlers, from: "spindle", to })
}

fn collar(picture: &Picture) -> Option<Collar> {
    let Picture::Collar { lines, every, number, leftwards, diameter_mm, long_mm, line_mm } =
        picture
    else {
        return None;
    };
    Some(Collar {
        lines: *lines,
        lengths: Lengths { long: every.0, middle: every.1 },
        numbers: Numbers { every: every.0, worth: number.0, places: number.1 },
        leftwards: *leftwards,
        diameter_mm: *diameter_mm,
        long_mm: *long_mm,
        line_mm: *line_mm,
    })
}

fn zone(zone: &operation::Zone) -> Zone<'_> {
    let [least, most] = &zone.limits;
    Zone { deviation: zone.deviation_um, name: &zone.name, least, most }
}
