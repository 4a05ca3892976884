//! Whole files with a hole: setup in, answers out.

use latheside_core::operation::{Operation, Picture, Tone, kind};
use latheside_core::record::{Node, Record};
use latheside_core::shop::{SHOP, Shop};
use latheside_tests::solved::{answer, at, card, items, near, needs, number, numbers, says, text};

const KIT: &str = r#"{"name": "a shop",
    "lathe": {"spindle_speeds": [45, 70, 110, 190, 320, 540, 900],
              "dials": {"tailstock": {"division": "0.05 mm", "divisions": 60}}},
    "drills": ["2.5 mm", "3.3 mm", "4.2 mm", "5 mm", "6.6 mm", "6.8 mm", "7 mm", "8.5 mm", "9 mm", "9.7 mm", "10.2 mm", "13.5 mm"],
    "cutters": [{"name": "M8 counterbore", "kind": "counterbore", "diameter": "15 mm"},
                {"name": "20 mm end mill", "kind": "end-mill", "diameter": "20 mm"},
                {"name": "82° countersink", "kind": "countersink", "diameter": "25 mm", "angle": "82 deg"},
                {"name": "90° countersink", "kind": "countersink", "diameter": "20 mm", "angle": "90 deg"}]}"#;
const BARE: &str = r#"{"name": "bare"}"#;

fn entry(entries: &str) -> String {
    format!(r#"{{"kind": "hole", {entries}}}"#)
}

fn hole(entries: &str) -> Node {
    answer(KIT, &entry(entries))
}

#[test]
fn under_a_tap() {
    #[rustfmt::skip]
    let rows: &[(&str, &str, f64, &str)] = &[
        ("M10", "8.5 mm",  77.0, "FED-STD-H28/2B percent, computed; the drill is NZDL's Appendix 1"),
        ("M8",  "6.8 mm",  73.9, "FED-STD-H28/2B percent, computed"),
        ("M12", "10.2 mm", 79.2, "ISO 2306; 1.8 / (1.299038 × 1.75)"),
        ("M6",  "5 mm",    77.0, "ISO 2306; 1 / 1.299038"),
    ];
    for (screw, drill, percent, source) in rows {
        let found = hole(&format!(r#""purpose": "tap", "designation": "{screw}""#));
        assert_eq!(text(&found, "drill"), *drill, "{screw}: {source}");
        near(number(&found, "percent"), *percent, 0.1, source);
        let card = card(KIT, &entry(&format!(r#""purpose": "tap", "designation": "{screw}""#)));
        assert_eq!(card.verdict.as_ref().map(|(tone, _)| *tone), Some(Tone::Good), "{screw}: 6H");
    }
    let fine = answer(BARE, &entry(r#""purpose": "tap", "designation": "M12x1.5""#));
    near(number(&fine, "hole_mm"), 10.5, 0.06, "ISO 2306 / NZDL trainee handbook appendix");
    assert_eq!(needs(&fine, "drill"), "shop.drills");
    assert!(fine.get("drill").is_none());
    // M7 asks for 6 mm; 6.6 mm is over the nut's greatest bore.
    let wrong = card(KIT, &entry(r#""purpose": "tap", "designation": "M7""#));
    assert_eq!(wrong.verdict.unwrap().0, Tone::Mind, "the nearest owned is 6.6 mm");
}

#[test]
fn other_drills_say_what_they_would_make_of_it() {
    let others = |of: &str| -> Vec<(String, String)> {
        let card = card(KIT, &entry(of));
        card.others.into_iter().map(|other| (other.line, other.note)).collect()
    };
    // 6.6 mm is nearer to 5 mm than most, but leaves M6 nothing; (6 − 4.2) / 1.299038 = 139 %.
    let under_m6 = others(r#""purpose": "tap", "designation": "M6""#);
    assert!(!under_m6.is_empty());
    for (drill, note) in &under_m6 {
        assert!(drill.trim_end_matches(" mm").parse::<f64>().unwrap() < 6.0, "{drill}");
        assert!(note.contains("% of thread: "), "{drill}: {note}");
    }
    let small = under_m6.iter().find(|(drill, _)| drill == "4.2 mm");
    // The core of M6 is 6 − 1.226869 mm, ISO 68-1 and its root's radius: 4.773 mm.
    assert_eq!(small.unwrap().1, "139 % of thread: too small, the tap won't enter");
    let larger = KIT.replace(r#""4.2 mm""#, r#""4.8 mm""#);
    let card = card(&larger, &entry(r#""purpose": "tap", "designation": "M6""#));
    let tight = card.others.iter().find(|other| other.line == "4.8 mm");
    assert_eq!(tight.unwrap().note, "92 % of thread: tight, a tap may break");
    // ISO 273: 6.6 mm clears M6, from 6.4 to 7.
    let over_m6 = others(r#""purpose": "clear", "designation": "M6""#);
    let said = |drill: &str| over_m6.iter().find(|(other, _)| other == drill).unwrap().1.clone();
    assert_eq!([said("7 mm"), said("5 mm")], ["will do", "too small"]);
    // With nothing but drills as large as the thread there is none for it.
    let bare = answer(
        r#"{"name": "large", "drills": ["6 mm", "10 mm"]}"#,
        &entry(r#""purpose": "tap", "designation": "M6""#),
    );
    assert!(bare.get("drill").is_none());
    assert_eq!(needs(&bare, "drill"), "shop.drills");
}

#[test]
fn how_deep_under_a_tap() {
    let found = hole(
        r#""purpose": "tap", "designation": "M8", "depth": "12 mm", "thickness": "25 mm", "diameter": "20 mm", "stock": "mild-steel""#,
    );
    // 12 + 3 × 1.25 = 15.75 at full diameter; the point of 118° on 6.8 mm is 2.043 mm.
    near(number(&found, "depth_mm"), 17.793, 0.001, "geometry: d / 2 / tan 59°");
    // 17.793 mm of 0.05 mm is 355.86 lines: 5 turns of 60 and 55.86.
    assert!(says(&found, "steps", "5 turns + 56."));
    assert_eq!(number(&found, "wall_mm"), 6.0, "(20 − 8) / 2");
    near(number(&found, "floor_mm"), 7.207, 0.001, "25 less the depth");
    assert!(says(&found, "steps", "never with the spindle under power"));
    // NAVEDTRA 14345 p. 93: 80 to 110 ft/min for low-carbon steel, at 6.8 mm over 1,000 rpm.
    assert_eq!(number(&found, "spindle_rpm"), 900.0);
    let thin =
        hole(r#""purpose": "tap", "designation": "M8", "depth": "12 mm", "diameter": "10 mm""#);
    assert!(says(&thin, "cautions", "thin wall"), "a millimetre of wall");
    let out =
        hole(r#""purpose": "tap", "designation": "M8", "depth": "12 mm", "diameter": "8 mm""#);
    assert!(out.get("wall_mm").is_none() && says(&out, "cautions", "breaks out"));
}

#[test]
fn clearing_a_screw() {
    #[rustfmt::skip]
    let rows: &[(&str, &str, f64)] = &[
        ("M3", "close", 3.2), ("M3", "medium", 3.4), ("M3", "free", 3.6), ("M6", "medium", 6.6),
        ("M8", "medium", 9.0), ("M10", "close", 10.5), ("M12", "medium", 13.5), ("M20", "free", 24.0),
    ];
    for (screw, fit, printed) in rows {
        let operation =
            entry(&format!(r#""purpose": "clear", "designation": "{screw}", "fit": "{fit}""#));
        near(number(&answer(BARE, &operation), "hole_mm"), *printed, 1e-9, "ISO 273:1979");
    }
    let inch =
        answer(BARE, &entry(r#""purpose": "clear", "designation": "1/4-20 UNC", "fit": "close""#));
    near(number(&inch, "hole_mm") / 25.4, 17.0 / 64.0, 1e-4, "ASME B18.2.8: 17/64 in");
    let medium = hole(r#""purpose": "clear", "designation": "M8""#);
    assert_eq!(text(&medium, "drill"), "9 mm");
    // 6.6 and 7 mm are both within 6.4 to 7; the nearest to 6.6 is taken.
    assert_eq!(text(&hole(r#""purpose": "clear", "designation": "M6""#), "drill"), "6.6 mm");
    let sizes = hole(r#""purpose": "clear", "designation": "M10""#);
    assert_eq!(text(&sizes, "drill"), "13.5 mm", "over a free 12, the next that lets it through");
}

#[test]
fn a_cap_head_sinks() {
    #[rustfmt::skip]
    let rows: &[(&str, f64, f64)] = &[
        ("M5", 10.0, 5.4), ("M6", 11.0, 6.4), ("M8", 15.0, 8.6), ("M12", 20.0, 12.6), ("M20", 33.0, 20.6),
    ];
    for (screw, wide, deep) in rows {
        let found = hole(&format!(r#""purpose": "counterbore", "designation": "{screw}""#));
        near(number(&found, "counterbore_mm"), *wide, 1e-9, "DIN 974-1 series 1");
        near(number(&found, "depth_mm"), *deep, 0.2, "DIN 974-1: head height and its addition");
    }
    let flush = hole(
        r#""purpose": "counterbore", "designation": "M8", "below": "0 mm", "thickness": "20 mm""#,
    );
    assert_eq!(number(&flush, "depth_mm"), 8.0, "ISO 4762: k = 8");
    assert_eq!(text(&flush, "drill"), "9 mm", "ISO 273 medium");
    let titles: Vec<&str> =
        items(at(&flush, "steps")).iter().map(|step| text(step, "title")).collect();
    let order = [
        "Centre it",
        "Drill for the tap",
        "Open the upper part",
        "Counterbore",
        "Tap the lower part",
        "Degrease",
        "Fit and secure",
        "Let it cure",
        "Skim it flush",
    ];
    assert_eq!(titles, order);
    assert!(
        says(&flush, "steps", "with the M8 counterbore") && says(&flush, "steps", "Drill 6.8 mm")
    );
    assert!(says(&flush, "cautions", "bond it or pin it"));
    let below = hole(r#""purpose": "counterbore", "designation": "M8", "below": "1 mm""#);
    assert_eq!(number(&below, "depth_mm"), 9.0);
    assert!(!says(&below, "steps", "lightest of cuts"), "a head below the surface isn't skimmed");
    let drawn =
        card(KIT, &entry(r#""purpose": "counterbore", "designation": "M8", "thickness": "20 mm""#));
    assert!(matches!(drawn.picture, Some(Picture::SeatedScrew(_))));
    let unknown = hole(r#""purpose": "counterbore", "designation": "3 BA""#);
    assert_eq!(needs(&unknown, "counterbore_mm"), "operation.head_diameter");
    let measured = hole(
        r#""purpose": "counterbore", "designation": "3 BA", "head_diameter": "6 mm", "head_height": "4 mm""#,
    );
    assert_eq!((number(&measured, "counterbore_mm"), number(&measured, "depth_mm")), (6.5, 4.0));
}

#[test]
fn a_flat_head_sinks() {
    let found = hole(r#""purpose": "countersink", "designation": "M6""#);
    near(number(&found, "countersink_mm"), 13.44, 1e-9, "ISO 10642 Table 1");
    near(number(&found, "depth_mm"), 3.42, 0.001, "(13.44 − 6.6) / 2 / tan 45°, computed");
    assert!(says(&found, "steps", "90° countersink"));
    for (screw, sharp) in [("M5", 10.4), ("M8", 17.3), ("M10", 20.0)] {
        let slotted = hole(&format!(
            r#""purpose": "countersink", "designation": "{screw}", "head": "slotted""#
        ));
        near(number(&slotted, "countersink_mm"), sharp, 0.05, "ISO 7046-1 / ISO 2009");
    }
    let deeper = hole(r#""purpose": "countersink", "designation": "M6", "below": "0.5 mm""#);
    near(number(&deeper, "countersink_mm"), 14.44, 1e-9, "a millimetre wider at 90°");
    let unified =
        hole(r#""purpose": "countersink", "designation": "1/4-20 UNC", "head_diameter": "0.5 in""#);
    assert!(says(&unified, "steps", "82° countersink"), "Unified flat heads are of 82°");
}

#[test]
fn before_a_reamer() {
    let found = hole(r#""purpose": "ream", "designation": "10 mm H7""#);
    assert_eq!(text(&found, "drill"), "9.7 mm", "10 to 12 thou left: TC 9-524 and a maker's guide");
    let limits = numbers(&found, "limits_mm");
    near(limits[1], 10.015, 1e-9, "ISO 286: H7 at 10 mm is +15 µm");
    let dowel = |fit: &str| {
        let entries = format!(r#""purpose": "dowel", "designation": "6 mm", "fit": "{fit}""#);
        numbers(&answer(BARE, &entry(&entries)), "limits_mm")
    };
    // ISO 286-2 at 6 mm: P7 −8 to −20 µm, G7 +4 to +16 µm.
    let (press, slip) = (dowel("press"), dowel("slip"));
    for (ours, theirs) in press.iter().chain(&slip).zip([5.98, 5.992, 6.004, 6.016]) {
        near(*ours, theirs, 1e-9, "ISO 286-2, P7 and G7");
    }
    let large = hole(r#""purpose": "ream", "designation": "80 mm""#);
    assert!(text(&large, "refused").contains("80 mm"));
}

/// A hole is what comes next can begin from, or it isn't made.
#[test]
fn a_hole_too_small_for_what_comes_next() {
    let solve = |drills: &str, cutters: &str, entries: &str| {
        let shop = format!(r#"{{"name": "x", "drills": [{drills}], "cutters": [{cutters}]}}"#);
        answer(&shop, &format!(r#"{{"kind": "hole", "depth": "20 mm", {entries}}}"#))
    };
    let ream = r#""purpose": "ream", "designation": "8 mm", "stock": "mild-steel""#;
    // 0.1 to 0.3 mm left: TC 9-524 (1996) ch. 7, reaming on the lathe.
    for (drills, drill) in [
        (r#""6.8 mm", "7.8 mm""#, "7.8 mm"),
        (r#""7.7 mm", "7.9 mm""#, "7.7 mm"),
        (r#""7.6 mm", "7.8 mm", "7.95 mm""#, "7.8 mm"),
    ] {
        let found = solve(drills, "", ream);
        assert_eq!(text(&found, "drill"), drill, "TC 9-524 (1996) ch. 7");
        assert!(found.get("unmade").is_none());
    }
    let bar = r#"{"name": "bar", "kind": "boring-bar", "diameter": "4 mm"}"#;
    for (drill, entries, words) in [
        (r#""6.8 mm""#, ream, "leaves the reamer too much"),
        (r#""9.8 mm""#, r#""purpose": "tap", "designation": "M20""#, "the tap won't enter"),
        (r#""6 mm""#, r#""purpose": "clear", "designation": "M8""#, "the screw won't pass"),
    ] {
        let unmade = solve(drill, "", entries);
        assert!(text(&unmade, "unmade.why").contains(words), "{}", text(&unmade, "unmade.why"));
        assert_eq!(text(&unmade, "unmade.needs"), "shop.drills");
        assert!(items(at(&unmade, "steps")).is_empty());
        // With a bar that goes in, it is bored between.
        let bored = solve(drill, bar, entries);
        assert!(bored.get("unmade").is_none() && says(&bored, "steps", "Bore to Ø"), "{drill}");
    }
    // Short of the nut's least by a little a tap still goes in, tight: said, not refused.
    assert!(
        solve(r#""17 mm""#, "", r#""purpose": "tap", "designation": "M20""#)
            .get("unmade")
            .is_none()
    );
    // Brass is reamed dry, and slowly.
    let brass = solve(r#""7.8 mm""#, "", &ream.replace("mild-steel", "brass"));
    assert!(says(&brass, "steps", "slowly, dry"), "common practice, no source");
}

#[test]
fn what_is_missing_and_what_is_wrong() {
    assert!(text(&hole(r#""designation": "M8""#), "refused").contains("what the hole is for"));
    assert!(text(&hole(r#""purpose": "tap""#), "refused").contains("which screw"));
    assert!(
        text(&hole(r#""purpose": "tap", "designation": "10 mm""#), "refused").contains("10 mm")
    );
    assert!(text(&hole(r#""purpose": "ream", "designation": "wide""#), "refused").contains("wide"));
    let found = hole(r#""purpose": "tap", "designation": "M8""#);
    assert_eq!(needs(&found, "depth_mm"), "operation.depth");
    assert_eq!(needs(&found, "wall_mm"), "operation.diameter");
    assert_eq!(needs(&found, "spindle_rpm"), "operation.stock");
    let operation = Operation::new(kind("hole").unwrap());
    let empty = Shop::new(Record::empty(&SHOP));
    assert_eq!(operation.suggest("designation", "M8", &empty)[0], "M8");
}

#[test]
fn a_large_hole_is_drilled_in_steps_each_at_its_own_speed_and_reading() {
    let operation = entry(
        r#""purpose": "clear", "designation": "M12", "fit": "medium", "thickness": "50 mm", "stock": "mild-steel""#,
    );
    let json = answer(KIT, &operation);
    assert_eq!(text(&json, "drill"), "13.5 mm", "ISO 273, medium");
    // A third of 13.5 is 4.5: the nearest here is 4.2, which itself is under 8 mm: common practice,
    // no source.
    assert_eq!(text(&json, "pilots.0.drill"), "4.2 mm");
    // 80 to 110 ft/min (NAVEDTRA 14345 p. 93): at 4.2 mm 1848 to 2541 rpm, at 13.5 mm 575 to 790.
    assert_eq!(
        (number(&json, "pilots.0.spindle_rpm"), number(&json, "spindle_rpm")),
        (900.0, 540.0)
    );
    let found = latheside_tests::solved::found(KIT, &operation);
    let steps = found.steps();
    let titles: Vec<_> = (0..3).map(|at| steps.get(at).unwrap().title).collect();
    assert_eq!(titles, ["Centre it", "Drill 4.2 mm first", "Drill"]);
    let (first, last) = (steps.get(1).unwrap(), steps.get(2).unwrap());
    // 50 mm and the point of 118°: d / 2 / tan 59° is 1.262 and 4.056 mm; 3 mm a turn of 60 lines.
    assert_eq!(first.figure, "17 turns + 5", "51.262 mm of 0.05 mm: 1025.2 lines");
    assert_eq!(last.figure, "18 turns + 1", "54.056 mm of 0.05 mm: 1081.1 lines");
    assert!(first.say[0].contains("Set *900 rpm*") && last.say[0].contains("Set *540 rpm*"));
    // Three diameters at first, then one more each time: 12.6 mm is 252 lines.
    assert!(
        first
            .say
            .iter()
            .any(|say| say.starts_with("Draw out and clear at 12.6 mm (*4 turns + 12*), 16.8 mm")),
        "{:?}",
        first.say
    );
    assert!(last.say.iter().any(|say| say == "Draw out and clear at 40.5 mm (*13 turns + 30*)."));
    for step in [&first, &last] {
        let beat = step.beat.unwrap();
        assert_eq!(beat.of, "the tailstock");
        assert!(beat.beats.is_some() && beat.milliseconds >= 400);
    }
    let small = answer(KIT, &entry(r#""purpose": "tap", "designation": "M6""#));
    assert!(small.get("pilots").is_none());
}

/// An inch screw's hole is told in inches throughout.
#[test]
fn one_system_in_a_step() {
    for entries in [
        r#""purpose": "tap", "designation": "1/4-20 UNC", "depth": "1/2 in""#,
        r#""purpose": "ream", "designation": "1/2 in", "depth": "1 in""#,
        r#""purpose": "clear", "designation": "3/8-16 UNC", "thickness": "1 in""#,
    ] {
        let shop = r#"{"name": "x", "drills": ["0.201 in", "31/64 in", "25/64 in"],
            "lathe": {"spindle_speeds": [300]}}"#;
        let found = answer(shop, &format!(r#"{{"kind": "hole", "stock": "brass", {entries}}}"#));
        assert!(!says(&found, "steps", " mm"), "{found:?}");
    }
    let ream = r#"{"kind": "hole", "purpose": "ream", "designation": "1/2 in", "depth": "1 in"}"#;
    let found = answer(r#"{"name": "x"}"#, ream);
    // ISO 286: H7 at 12.7 mm is 0 to +18 µm: 0.5000 to 0.5007 in.
    assert!(says(&found, "steps", "It should measure 0.5000 to 0.5007 in."), "ISO 286-2");
}
