//! Flats, holes and the cutter that makes them.

use super::*;

#[test]
fn flats_are_told_by_depth_and_by_the_corner_left() {
    const POLYGON: &str = "arithmetic of regular polygons: across flats over across corners is \
        0.866025 for a hexagon, 0.707107 for a square, 0.923880 for an octagon";
    #[rustfmt::skip]
    let rows = [
        // flats, across flats over the diameter
        (6, 0.866_025), (4, std::f64::consts::FRAC_1_SQRT_2), (8, 0.923_880),
    ];
    for (into, across) in rows {
        let operation =
            format!(r#"{{"kind":"divide","into":{into},"diameter":"20 mm","marks":"flats"}}"#);
        let found = answer(FULL, &operation);
        let near = |key: &str, mm: f64| (number(&found, key) - mm).abs() < 1e-5 * 20.0;
        assert!(near("across_flats_mm", across * 20.0), "{into}: {POLYGON}");
        assert!(near("depth_mm", (1.0 - across) * 10.0), "{into}: {POLYGON}");
        assert!(near("corner_left_mm", 0.0) && near("across_corners_mm", 20.0), "{into}");
        let wide = operation.replace(r#""marks""#, r#""width":"20 mm","work_in":"lathe-spindle","cutter_in":"driven-spindle-on-slide","marks""#);
        let steps = steps_of(FULL, &wide);
        let first = steps.iter().find(|step| step.cuts).unwrap();
        // To the nearest line of 0.02 mm.
        let lines = ((1.0 - across) * 10.0 / 0.02).round() as u32;
        let counted = match (lines / 125, lines % 125) {
            (0, lines) => format!("Wind the cross slide to {lines} lines"),
            (_, lines) => format!("Wind the cross slide to 1 turn + {lines}"),
        };
        assert!(said(first).contains(&counted), "{}", said(first));
        assert_eq!(steps.iter().filter(|step| step.title.starts_with("cut flat ")).count(), into);
    }
    // A square of 16 on 20: the triangle of 3, 4 and 5; round is left at the corners.
    let square =
        r#"{"kind":"divide","into":4,"diameter":"20 mm","marks":"flats","across":"16 mm"}"#;
    let found = answer(FULL, square);
    assert!((number(&found, "depth_mm") - 2.0).abs() < 1e-12);
    assert!((number(&found, "flat_width_mm") - 12.0).abs() < 1e-12);
    assert!(number(&found, "corner_left_mm") > 0.0);
    assert!(!fact(&card(FULL, square), "round left at a corner").is_empty());
    let wide = square.replace(r#""marks""#, r#""width":"12 mm","work_in":"lathe-spindle","cutter_in":"driven-spindle-on-slide","marks""#);
    let first = steps_of(FULL, &wide).into_iter().find(|step| step.cuts).unwrap();
    assert!(
        said(&first).contains("left standing with a micrometer: it should be 18 mm"),
        "{}",
        said(&first)
    );
    assert!(matches!(first.picture, Some(Picture::Rim { mark: Mark::Flat, .. })));
    for (entries, refused) in [
        (r#""into":2"#, "say how far it is across the flats on Ø 20 mm"),
        (r#""into":6,"across":"21 mm""#, "21 mm across flats is no less than Ø 20 mm"),
    ] {
        let operation =
            format!(r#"{{"kind":"divide",{entries},"diameter":"20 mm","marks":"flats"}}"#);
        assert!(text(&answer(FULL, &operation), "refused").starts_with(refused));
    }
    let no_size = answer(FULL, r#"{"kind":"divide","into":6,"marks":"flats"}"#);
    assert_eq!(needs(&no_size, "depth_mm"), "operation.diameter");
}

#[test]
fn holes_have_co_ordinates_from_a_touched_edge() {
    // Six on Ø 40, 30 mm from the edge to the middle, touched with a 3 mm cutter: 60° triangles
    // of sides 20, 10 and 10√3.
    let operation = r#"{"kind":"divide","into":6,"diameter":"40 mm","marks":"holes","cutter":"slot drill","edge":"30 mm"}"#;
    let found = answer(FULL, operation);
    let third = 10.0 * 3.0_f64.sqrt();
    #[rustfmt::skip]
    let places = [
        (20.0, 0.0), (10.0, third), (-10.0, third), (-20.0, 0.0), (-10.0, -third), (10.0, -third),
    ];
    for (hole, (across, up)) in places.iter().enumerate() {
        let at = |key: &str| number(&found, &format!("coordinates.{hole}.{key}"));
        assert!((at("across_mm") - (31.5 + across)).abs() < 1e-9, "{hole}");
        assert!((at("up_mm") - (31.5 + up)).abs() < 1e-9, "{hole}");
    }
    // The chord of a hexagon is its radius; 3 mm of it is hole.
    assert!((number(&found, "left_mm") - 17.0).abs() < 1e-9);
    let steps = steps_of(FULL, operation);
    let holes: Vec<&Step> = steps.iter().filter(|step| step.cuts).collect();
    // Turned from hole to hole, or gone to by the slides: never both.
    assert_eq!(holes.len(), 6);
    assert!(steps.iter().all(|step| !said(step).contains("From the edges")), "{}", said(holes[0]));
    assert_eq!(text(&found, "depth_by"), "carriage", "holes go into the face");
    // The other edge may stand at another distance.
    let other = operation.replace(r#""edge":"#, r#""other_edge":"20 mm","edge":"#);
    let found = answer(FULL, &other);
    assert!((number(&found, "coordinates.0.up_mm") - 21.5).abs() < 1e-9);
    // With nothing that divides, the co-ordinates are the way.
    let bare = r#"{"name":"bare"}"#;
    let plain = r#"{"kind":"divide","into":6,"diameter":"40 mm","marks":"holes"}"#;
    let steps = steps_of(bare, plain);
    assert_eq!(steps.iter().filter(|step| step.cuts).count(), 6);
    assert!(said(&steps[0]).contains("over the middle"), "{:?}", steps[0].say);
    assert_eq!(steps[2].figure, "10, 17.32");
    let own = r#"{"kind":"divide","angles":["0 deg","90 deg"],"diameter":"40 mm","marks":"holes"}"#;
    assert_eq!(steps_of(bare, own)[2].figure, "0, 20");
}

#[test]
fn a_cutter_that_runs_out_cuts_wider() {
    let slots = |more: &str| {
        format!(r#"{{"kind":"divide","into":6,"diameter":"40 mm","marks":"slots"{more}}}"#)
    };
    let held = slots(r#","cutter":"slot drill","holder":"drill chuck""#);
    let found = answer(FULL, &held);
    // Off centre by 0.04 to each side.
    assert!((number(&found, "cut_width_mm") - 3.08).abs() < 1e-12);
    let spacing = std::f64::consts::PI * 40.0 / 6.0;
    assert!((number(&found, "left_mm") - (spacing - 3.08)).abs() < 1e-9);
    assert_eq!(fact(&card(FULL, &held), "cuts"), "up to 3.08 mm wide, perhaps with one tooth");
    let cautions = at(&found, "cautions");
    let says =
        |words: &str| items(cautions).iter().any(|one| one.as_text().unwrap().contains(words));
    assert!(says("one tooth only") && says("drill chuck isn't made for side load"));
    // A fly cutter has one tooth anyway; a saw is as wide as it is thick.
    let fly = slots(r#","cutter":"fly","holder":"drill chuck""#);
    assert_eq!(fact(&card(FULL, &fly), "cuts"), "up to 1.08 mm wide");
    let saw = answer(FULL, &slots(r#","cutter":"saw""#));
    assert!((number(&saw, "cut_width_mm") - 1.0).abs() < 1e-12);
    let unknown = answer(FULL, &slots(r#","cutter":"saw","holder":"collet""#));
    assert_eq!(needs(&unknown, "cut_width_mm"), "shop.holding");
    assert_eq!(needs(&answer(FULL, &slots("")), "left_mm"), "operation.width");
    let wide = card(FULL, &slots(r#","width":"22 mm""#));
    assert_eq!(wide.verdict, Some((Tone::Mind, "the cuts run together".to_owned())));
}
