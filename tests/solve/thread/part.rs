//! The part that comes off the modelled lathe, held against what was asked: lead, hand, depth, starts.

use super::*;
use latheside_core::lathe::{Part, run};
use latheside_core::procedure::{Action, FiledStep};

/// Carries an answer's steps out from their JSON and the shop alone.
fn carried(lathe: &str, thread: &str) -> (Node, Part) {
    let read = read_file(&setup(lathe, thread)).expect(thread);
    let all = answers(&read);
    let answer = list(&all, "answers")[0].clone();
    assert!(at(&answer, "unmade").is_none(), "{thread}: {:?}", at(&answer, "unmade"));
    let steps = serde_json::to_string(at(&answer, "steps").unwrap()).unwrap();
    let steps: Vec<FiledStep> = serde_json::from_str(&steps).unwrap();
    let shop = Shop::new(read.shop.clone());
    let filed = steps.iter().map(|step| (step.id.clone(), step.actions.as_slice()));
    let carried = run(filed.collect::<Vec<(String, &[Action])>>(), &shop);
    assert!(carried.faults().is_empty(), "{thread}: {:?}", carried.faults().first());
    (answer, carried.part().clone())
}

/// A thread, its lead in mm, its starts, its depth in mm, and where that is published.
const ROWS: &[(&str, f64, usize, f64, &str)] = &[
    ("M10", 1.5, 1, 0.920_15, "ISO 68-1, ISO 724: 17/24 H of 1.5 mm"),
    ("M20", 2.5, 1, 1.533_585, "ISO 68-1: 0.613434 P"),
    ("M24 × 6 (P3)", 6.0, 2, 1.840_302, "ISO 68-1: 0.613434 P"),
    ("Tr 20 × 4", 4.0, 1, 2.25, "ISO 2904: 0.5 P + 0.25"),
    ("Tr 24 × 8 (P4)", 8.0, 2, 2.25, "ISO 2904: 0.5 P + 0.25"),
    ("3/8 BSF", 1.27, 1, 0.813_215, "BS 84: 0.640327 P, 20 to the inch"),
    ("1/2 UNC", 25.4 / 13.0, 1, 1.198_556, "ASME B1.1: as ISO 68-1, 13 to the inch"),
];

#[test]
fn the_part_is_what_was_asked() {
    let line = 0.02;
    for (name, lead, starts, depth, source) in ROWS {
        for hand in ["right", "left"] {
            for ending in ["groove", "shoulder", "runs-out"] {
                let thread = format!(
                    r#""designation": "{name}", "hand": "{hand}", "length": "20 mm", "ending": "{ending}""#
                );
                let (answer, part) = carried(LATHE, &thread);
                let [cut] = part.threads.as_slice() else { panic!("{thread}: one thread") };
                // The train's own error is stated, in parts of a million.
                let ppm = number(&answer, "trains.0.error_ppm");
                let want = lead * (1.0 + ppm / 1e6);
                let signed = cut.lead.to_f64();
                assert!((signed.abs() - want).abs() < 1e-6, "{thread}: {signed}, {source}");
                assert_eq!(signed < 0.0, hand == "left", "{thread}");
                assert!(!cut.inside && cut.to.abs() < 1e-9 && cut.from <= -20.0 + 1e-9, "{thread}");
                assert_eq!(cut.starts.len(), *starts, "{thread}");
                for (k, start) in cut.starts.iter().enumerate() {
                    assert!((start.depth - depth).abs() <= line / 2.0 + 1e-6, "{thread}: {source}");
                    let even = k as f64 / *starts as f64;
                    assert!((start.angle.to_f64() - even).abs() < 1e-9, "{thread}: {even}");
                }
            }
        }
    }
}

#[test]
fn chips_of_a_flat_nosed_tool_are_alike() {
    // By geometry: so deep it has taken flat × d + d² × tan 15°, flat 0.366 P − 0.536 × 0.25 (ISO 2904).
    let (answer, _) = carried(LATHE, r#""designation": "Tr 16 × 4", "length": "30 mm""#);
    let flat = 4.0 * 0.366_025 - 0.25 * 0.535_898;
    assert!((number(&answer, "tool.flat_mm") - flat).abs() < 1e-4, "ISO 2904");
    let taken = |d: f64| flat * d + d * d * 15f64.to_radians().tan();
    let depths: Vec<f64> =
        list(&answer, "passes").iter().map(|pass| number(pass, "depth_mm")).collect();
    let each = taken(2.25) / 40.0;
    for (k, depth) in (1..).zip(&depths) {
        let off = taken(*depth) - each * f64::from(k);
        // Half a line of 0.02 mm, at the width that the tool has there, or a line where none would be moved.
        let line = 0.02 * (flat + 2.0 * depth * 15f64.to_radians().tan());
        assert!(off.abs() <= 3.0 * line, "pass {k}: {off}");
    }
    assert!(depths[0] < 0.11, "a sane first pass: {}", depths[0]);
}
