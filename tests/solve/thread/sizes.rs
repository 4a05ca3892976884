//! Sizes, limits, tool, wires and drills.

use super::*;

#[test]
fn sizes_and_limits_as_printed() {
    let source = "ISO 724, ISO 965-2, as seen in threadlib's design/metric_thread.csv";
    let near = |node: &Node, path: &str, value: f64| {
        let found = number(node, path);
        assert!((found - value).abs() < 0.0006, "{path}: {found}, not {value}: {source}");
    };
    let m10 = solve(LATHE, r#""designation": "M10", "length": "20 mm""#);
    near(&m10, "pitch_diameter_mm", 9.026);
    near(&m10, "minor_diameter_mm", 8.160);
    near(&m10, "limits.major_mm.0", 9.732);
    near(&m10, "limits.major_mm.1", 9.968);
    near(&m10, "limits.pitch_mm.0", 8.862);
    near(&m10, "limits.pitch_mm.1", 8.994);
    assert_eq!(text(&m10, "tap_drill.drill"), "8.5 mm", "ISO 2306");
    let percent = 100.0 * 1.5 / (1.299_038 * 1.5);
    assert!((number(&m10, "tap_drill.percent") - percent).abs() < 0.01, "FED-STD-H28/2B 20.2.3");
    // Wires at the limits: the lead angle's share is 10.3266 − 10.3248 at the basic size.
    near(&m10, "wires.best_mm", 0.8660);
    let over = numbers(&m10, "wires.over_mm");
    let pitch = numbers(&m10, "limits.pitch_mm");
    for (over, pitch) in over.iter().zip(&pitch) {
        let plain = 10.3248 + (pitch - 9.0257) + 0.0018;
        assert!((over - plain).abs() < 0.0003, "{over}, not {plain}: Handbook H28's formula");
    }
    let nut = solve(LATHE, r#""designation": "M10", "side": "inside", "length": "20 mm""#);
    near(&nut, "minor_diameter_mm", 8.376);
    near(&nut, "limits.minor_mm.0", 8.376);
    near(&nut, "limits.minor_mm.1", 8.676);
    assert!((number(&nut, "depth_mm") - 0.541_266 * 1.5).abs() < 1e-9, "ISO 68-1");
    assert_eq!(list(&nut, "limits.major_mm").len(), 1, "a nut's outside has no greatest");
    assert!(at(&nut, "wires").is_none() && lacks(&nut, "wires").is_none());
}

/// How long the nut is changes what its thread may be.
#[test]
fn limits_go_by_how_long_the_thread_is_engaged() {
    let source = "FED-STD-H28/2B 5.4, 2.500-28 UNS over 1 in";
    let limits = |entries: &str, key: &str| {
        let found = solve(LATHE, &format!(r#"{entries}, "length": "20 mm""#));
        numbers(&found, key).iter().map(|mm| mm / 25.4).collect::<Vec<_>>()
    };
    for (entries, key, printed) in [
        (r#""class": "2A""#, "limits.major_mm", [2.4921, 2.4986]),
        (r#""class": "2A""#, "limits.pitch_mm", [2.4698, 2.4754]),
        (r#""class": "2B", "side": "inside""#, "limits.pitch_mm", [2.4768, 2.4841]),
    ] {
        let entries = format!(r#""designation": "2.500-28 UNS", "engaged": "1 in", {entries}"#);
        for (found, printed) in limits(&entries, key).iter().zip(printed) {
            assert!((found - printed).abs() < 1e-6, "{key}: {found}, not {printed}: {source}");
        }
    }
    // Td2 of grade 7 at M8 is 150 µm, of grade 6 118: ISO 965-1, recommended classes for a long
    // engagement (from memory).
    for (engaged, tolerance) in [("10 mm", 0.118), ("20 mm", 0.150)] {
        let pitch =
            limits(&format!(r#""designation": "M8", "engaged": "{engaged}""#), "limits.pitch_mm");
        let width = (pitch[1] - pitch[0]) * 25.4;
        assert!((width - tolerance).abs() < 1e-6, "{engaged}: {width}: ISO 965-1");
    }
}

#[test]
fn the_lead_error_as_a_share_of_the_tolerance() {
    // 125 ppm over 10 mm, times cot 30°, of M10 6g's 132 µm (ISO 965-1).
    let lathe = r#""leadscrew": "8 tpi", "change_gears": [63, 80, 60, 100], "pairs_max": 2"#;
    let nut = r#""designation": "M10", "length": "25 mm", "engaged": "10 mm""#;
    let answer = solve(lathe, nut);
    assert!((number(&answer, "trains.0.error_ppm") - 125.0).abs() < 1e-9, "{FRACTIONS}");
    let share = 125e-6 * 10.0 * 3f64.sqrt() / 0.132;
    assert!((number(&answer, "lead_error_share") - share).abs() < 1e-6, "ISO 965-1 Td2 132 µm");
    // Without the nut's length its own counts.
    let answer = solve(lathe, r#""designation": "M10", "length": "25 mm""#);
    assert!((number(&answer, "lead_error_share") - share * 2.5).abs() < 1e-6, "arithmetic");
    let read = read_file(&setup(lathe, nut)).unwrap();
    let (tone, said) = card(&read).verdict.unwrap();
    assert_eq!(tone, Tone::Note);
    assert_eq!(
        said,
        "0.04 mm long in 300 · banjo not measured · fits a nut of 10 mm: the lead's error takes 2 % of the 6g tolerance"
    );
}

#[test]
fn what_contradicts_itself_is_refused_in_words() {
    for (thread, said) in [
        (r#""side": "outside""#, "say which thread"),
        (r#""designation": "M10 by lunchtime""#, "by"),
        (r#""designation": "Tr 16 × 4 LH", "hand": "right""#, "the name says left-hand"),
        (r#""designation": "module 1, 2 starts", "starts": 3"#, "the name says 2 starts"),
    ] {
        let answer = solve(LATHE, thread);
        assert!(text(&answer, "refused").contains(said), "{answer:?}");
    }
    // A class that isn't one takes the limits away, not the rest.
    for class in ["6x", "2A", "6H"] {
        let answer = solve(LATHE, &format!(r#""designation": "M10", "class": "{class}""#));
        assert!(at(&answer, "limits").is_none() && at(&answer, "depth_mm").is_some(), "{class}");
        assert_eq!(lacks(&answer, "limits").as_deref(), Some("operation.class"), "{class}");
    }
}

#[test]
fn suggestions_for_the_blanks() {
    let read = read_file(&setup(LATHE, r#""designation": "M10""#)).unwrap();
    let shop = Shop::new(read.shop.clone());
    let suggest = |key, text| read.operations[0].suggest(key, text, &shop);
    assert_eq!(suggest("designation", "M10x1.25")[0], "M10 × 1.25");
    assert!(suggest("class", "").contains(&"6g".to_owned()));
    assert_eq!(suggest("class", "me"), ["medium"]);
    assert_eq!(suggest("to", "")[0], "nut-in-hand");
    assert_eq!(suggest("to", "ni"), [""; 0]);
    assert!(suggest("ending", "").is_empty());
}

#[test]
fn the_tool_its_flat_and_its_sides() {
    let m10 = solve(LATHE, r#""designation": "M10", "length": "20 mm""#);
    // 17/24 H deep between flanks that meet 1/8 H below the pitch cylinder's basic triangle: P/6.
    assert!((number(&m10, "tool.flat_mm") - 0.25).abs() < 1e-5, "ISO 68-1: H/6 radius, P/6 flat");
    // Helix at the root and at the crest by tan φ = lead ÷ πd, 3° clear on either side.
    let helix = |d: f64| (1.5 / (std::f64::consts::PI * d)).atan().to_degrees();
    assert!((number(&m10, "tool.leading_deg") - (helix(8.159_698) + 3.0)).abs() < 1e-6, "geometry");
    assert!((number(&m10, "tool.trailing_deg") - (3.0 - helix(10.0))).abs() < 1e-6, "geometry");
    assert_eq!(
        fact(LATHE, r#""designation": "M10""#, "tool").as_deref(),
        Some("60°, flat 0.250 mm, sides 6.3° and 0.3° under")
    );
    // A sharp tool goes 7/8 H deep, the form's own radius H/6 as deep as the form.
    let sharp = solve(LATHE, r#""designation": "M10", "radius": "0 mm""#);
    let h = 1.5 * 3f64.sqrt() / 2.0;
    assert!((number(&sharp, "depth_mm") - 7.0 / 8.0 * h).abs() < 1e-5, "ISO 68-1: 7/8 H");
    assert_eq!(text(list(&sharp, "passes").last().unwrap(), "dial"), "57", "1.137 / 0.02");
    let own = solve(LATHE, r#""designation": "M10", "radius": "0.216507 mm""#);
    assert!((number(&own, "depth_mm") - 0.613_434 * 1.5).abs() < 1e-5, "ISO 68-1: 17/24 H");
    for (thread, said) in [
        (r#""designation": "M10", "radius": "3 mm""#, "too large"),
        (r#""designation": "Tr 16 × 4", "radius": "0.1 mm""#, "leave the nose radius out"),
        (r#""designation": "M10", "angle": "55 deg""#, "flanks at 60°, and the entry says 55 deg"),
        (r#""lead": "2 mm", "angle": "5 deg""#, "10 to 150"),
    ] {
        assert!(text(&solve(LATHE, thread), "refused").contains(said), "{thread}");
    }
    // A bare lead with flanks of one's own choice: a sharp V, P ÷ 2 tan α.
    let vee = solve(LATHE, r#""lead": "2 mm", "angle": "90 deg", "diameter": "20 mm""#);
    assert!((number(&vee, "depth_mm") - 1.0).abs() < 1e-6, "geometry of a right-angled V");
    let sixty = solve(LATHE, r#""lead": "1.5 mm", "angle": "60 deg""#);
    assert!((number(&sixty, "depth_mm") - 0.613_434 * 1.5).abs() < 1e-9, "ISO 68-1");
}

#[test]
fn wires_that_are_owned() {
    // 0.5 mm falls between the crests of M10, 2 mm stands on them: 0.9 mm it is.
    let m10 = solve_with("", r#""designation": "M10", "length": "20 mm""#);
    assert_eq!(text(&m10, "wires.owned"), "0.9 mm");
    let fit = numbers(&m10, "wires.fit_mm");
    assert!(
        (fit[0] - 0.505 * 1.5).abs() < 0.001 && (fit[1] - 1.010 * 1.5).abs() < 0.001,
        "{fit:?}: 0.505 P to 1.010 P"
    );
    let (best, over) = (numbers(&m10, "wires.over_mm"), numbers(&m10, "wires.over_owned_mm"));
    // M grows by 1 + 1/sin 30° = 3 for each mm of wire (the lead angle's share by 2 %).
    for (best, over) in best.iter().zip(&over) {
        let grown = over - best - 3.0 * (0.9 - 0.866_025);
        assert!(grown.abs() < 0.0002, "{grown}: Handbook H28's formula");
    }
    let (label, figure) = shown(&m10, "Measure");
    assert_eq!((&*label, &*figure), ("over wires of 0.9 mm", "10.265 to 10.397 mm"));
    let measured = acts(&m10, "Measure").join(" ");
    assert!(measured.contains(r#""what":"over-wires","with":"wires","should_be":"10.26"#));
    // None fits: said on the card, and the best is taken.
    let file = setup(LATHE, r#""designation": "M20", "length": "20 mm""#)
        .replace(r#""drills""#, r#""wires": ["0.5 mm"], "drills""#);
    let card = card(&read_file(&file).unwrap());
    let fact = card.facts.iter().find(|fact| fact.label == "over wires of 1.443 mm").unwrap();
    assert!(
        fact.value.contains("of yours none fits: they may be 1.263 to 2.526 mm"),
        "{}",
        fact.value
    );
}

#[test]
fn the_next_drills_up_and_down() {
    // 6.8, 8.5 and 1/4 in owned. Percent by FED-STD-H28: (10 − d) ÷ (1.299038 × 1.5).
    let answer = solve(LATHE, r#""designation": "M10""#);
    let beside = list(&answer, "tap_drill.beside");
    assert_eq!(beside.len(), 1, "nothing over 8.5 is owned");
    assert_eq!(text(&beside[0], "drill"), "6.8 mm");
    assert!(
        (number(&beside[0], "percent") - 320.0 / (1.299_038 * 1.5)).abs() < 0.01,
        "FED-STD-H28/2B 20.2.3"
    );
    let nut = fact(LATHE, r#""designation": "M10", "side": "inside""#, "tapping drill").unwrap();
    assert!(nut.starts_with("8.5 mm, 77 % of thread (of 3/4 H); 6.8 mm, 164 %"), "{nut}");
}

#[test]
fn a_unified_nut_is_bored_by_its_length() {
    // A nut as long as the thread's diameter: the upper half of the bore's limits, FED-STD-H28/2B 30.1.
    let nut = r#""designation": "1/4-20 UNC", "side": "inside", "length": "1/4 in""#;
    let bore = numbers(&solve(LATHE, nut), "limits.minor_mm");
    let inch = |mm: f64| format!("{:.4}", mm / 25.4);
    let said = format!("{} to {} in", inch((bore[0] + bore[1]) / 2.0), inch(bore[1]));
    assert_eq!(fact(LATHE, nut, "bore for 1/4 in of it"), Some(said));
    let metric = r#""designation": "M10", "side": "inside", "length": "10 mm""#;
    assert_eq!(fact(LATHE, metric, "bore for"), None, "the rule is the inch standard's");
}

#[test]
fn classes_of_the_threads_own() {
    for (thread, first, not) in [
        (r#""designation": "M10""#, "6g", "2A"),
        (r#""designation": "M10", "side": "inside""#, "6H", "6g"),
        (r#""designation": "1/4-20 UNC""#, "2A", "6g"),
        (r#""designation": "3/8 BSF""#, "medium", "2A"),
        (r#""designation": "Tr 16 × 4""#, "7e", "6g"),
        (r#""designation": "1/2-10 Acme""#, "2G", "A"),
    ] {
        let read = read_file(&setup(LATHE, thread)).unwrap();
        let shop = Shop::new(read.shop.clone());
        let found = read.operations[0].suggest("class", "", &shop);
        assert_eq!(found.first().map(String::as_str), Some(first), "{thread}: {found:?}");
        assert!(!found.iter().any(|class| class == not), "{thread}: {found:?}");
        // Each of them has limits.
        for class in found {
            let answer = solve(LATHE, &format!(r#"{thread}, "class": "{class}""#));
            assert!(at(&answer, "limits").is_some(), "{thread} {class}");
        }
    }
}
