//! Whole files with turning to size: setup in, answers out.

use latheside_tests::solved::{answer, at, items, number, says, text};

const SHOP: &str = r#"{"name": "a shop", "lathe": {"spindle_speeds": [{"rpm": 45, "how": "back gear, belt 1"}, 70, 110, 190, 320, 540, 900],
    "dials": {"cross": {"division": "0.02 mm", "divisions": 125, "reads": "radius", "backlash": "0.15 mm", "grows": "inwards"},
              "carriage": {"division": "0.1 mm", "divisions": 180}}}}"#;

#[test]
fn down_to_a_size_on_this_dial() {
    let found = answer(
        SHOP,
        r#"{"kind": "size", "process": "turn", "from": "12 mm", "to": "9.9 mm", "length": "25 mm", "stock": "mild-steel"}"#,
    );
    let cuts: Vec<(&str, f64)> = items(at(&found, "cuts"))
        .iter()
        .map(|cut| (text(cut, "dial"), number(cut, "diameter_mm")))
        .collect();
    // By hand: 1.05 mm on the radius, the last two of 0.25 mm (common practice, no source); 0.55 mm
    // is under the 30 thou of the laboratory data sheet, so one roughing cut of 27.5 lines.
    let by_hand = [("27 lines", 10.92), ("40 lines", 10.4), ("52 lines, 0.5 of a line short", 9.9)];
    assert_eq!(cuts, by_hand);
    // 70 to 90 ft/min (college machine-shop sheet) at 12 mm is 566 to 728 rpm: 900 would be too fast.
    assert_eq!(number(&found, "spindle_rpm"), 540.0);
    assert!(
        says(&found, "steps", "Feed the carriage toward the headstock to 1 turn + 70"),
        "{found:?}"
    );
}

#[test]
fn what_the_micrometer_said() {
    let found = answer(
        SHOP,
        r#"{"kind": "size", "from": "12 mm", "to": "9.9 mm", "length": "25 mm", "measured": "10.48 mm", "stock": "mild-steel"}"#,
    );
    let last = items(at(&found, "cuts")).last().unwrap();
    // By hand: 40 lines stand; (10.48 − 9.9) / 2 = 0.29 mm more is 14.5 lines.
    assert_eq!(text(last, "dial"), "54 lines, 0.5 of a line short");
}

#[test]
fn more_left_than_a_last_cut_is_taken_in_more() {
    let found = answer(
        SHOP,
        r#"{"kind": "size", "from": "12 mm", "to": "9.9 mm", "length": "25 mm", "measured": "10.96 mm", "stock": "mild-steel"}"#,
    );
    let dials: Vec<&str> = items(at(&found, "cuts")).iter().map(|cut| text(cut, "dial")).collect();
    // By hand: 0.53 mm left on the radius, 0.28 of it before the last 0.25; 40 lines stand.
    assert_eq!(dials, ["27 lines", "40 lines", "54 lines", "66 lines, 0.5 of a line short"]);
    assert!(says(&found, "steps", "cut 4 of 4, to size"), "{found:?}");
}

#[test]
fn measured_to_size_or_past_it_nothing_more_is_cut() {
    for (measured, words) in
        [("9.9 mm", "It is to size: no more cuts"), ("9.85 mm", "it was found to be 9.85 mm")]
    {
        let found = answer(
            SHOP,
            &format!(
                r#"{{"kind": "size", "from": "12 mm", "to": "9.9 mm", "length": "25 mm", "measured": "{measured}", "stock": "mild-steel"}}"#
            ),
        );
        let dials: Vec<&str> =
            items(at(&found, "cuts")).iter().map(|cut| text(cut, "dial")).collect();
        assert_eq!(dials, ["27 lines", "40 lines"]);
        assert!(says(&found, "steps", words), "{found:?}");
        assert!(says(&found, "steps", "Check"), "the check still stands: {found:?}");
    }
}

#[test]
fn an_inch_size_on_a_metric_dial() {
    let found = answer(
        SHOP,
        r#"{"kind": "size", "process": "turn", "from": "12 mm", "to": "3/8 in", "length": "24 mm"}"#,
    );
    let last = items(at(&found, "cuts")).last().unwrap();
    assert_eq!(number(last, "diameter_mm"), 9.525, "an inch is 25.4 mm, 1959");
    // (12 − 9.525) / 2 = 1.2375 mm is 61.875 lines.
    assert_eq!(text(last, "dial"), "62 lines, 0.13 of a line past");
    assert!(says(&found, "lacking", "operation.stock"));
}

#[test]
fn a_bore_winds_outwards() {
    let found = answer(
        SHOP,
        r#"{"kind": "size", "process": "bore", "from": "20 mm", "to": "22 mm", "length": "15 mm", "stock": "brass"}"#,
    );
    let dials: Vec<&str> = items(at(&found, "cuts")).iter().map(|cut| text(cut, "dial")).collect();
    // By hand: 1 mm on the radius: 0.5 rough, 0.25, 0.25, at 0.02 mm a line, against the dial.
    assert_eq!(dials, ["back 25 lines", "back 37 lines", "back 50 lines"]);
    assert!(says(&found, "steps", "100 at the mark"), "125 lines less 25");
}

/// How deep and how far out a boring bar goes.
#[test]
fn a_bar_stands_out_no_more_than_four_diameters() {
    let source =
        "4 diameters of a steel bar: a reference page of boring-bar overhang and deflection";
    let bore = |long: &str| {
        let shop = SHOP.replacen(
            r#""lathe""#,
            r#""cutters": [{"name": "bar", "kind": "boring-bar", "diameter": "8 mm", "material": "carbide"}], "lathe""#,
            1,
        );
        let operation = format!(
            r#"{{"kind": "size", "process": "bore", "from": "10 mm", "to": "16 mm", "length": "{long}", "stock": "mild-steel", "cutter": "bar"}}"#
        );
        answer(&shop, &operation)
    };
    let far = bore("60 mm");
    assert!(text(&far, "unmade.why").contains("7.5 diameters"), "{source}");
    assert_eq!(text(&far, "unmade.needs"), "shop.cutters", "{source}");
    assert!(items(at(&far, "steps")).is_empty() && !items(at(&far, "cuts")).is_empty());
    // The sheet's 50 thou at two diameters, half of that at four: common practice, no source.
    let deepest = |found: &latheside_core::record::Node| {
        let mut from = 10.0;
        let mut most: f64 = 0.0;
        for at in 0..items(latheside_tests::solved::at(found, "cuts")).len() {
            let leaves = number(found, &format!("cuts.{at}.diameter_mm"));
            most = most.max((leaves - from) / 2.0);
            from = leaves;
        }
        most
    };
    let (short, long) = (bore("16 mm"), bore("32 mm"));
    assert!(short.get("unmade").is_none() && long.get("unmade").is_none(), "{source}");
    let line = 0.02;
    assert!(deepest(&short) <= 1.27 + line && deepest(&short) > 0.8, "{}", deepest(&short));
    assert!(deepest(&long) <= 1.27 / 2.0 + line, "{}", deepest(&long));
}

#[test]
fn without_a_dial_the_diameters_stand() {
    let found = answer(
        r#"{"name": "a shop", "lathe": {}}"#,
        r#"{"kind": "size", "process": "turn", "from": "12 mm", "to": "10 mm", "length": "90 mm", "stock": "mild-steel"}"#,
    );
    let cuts = items(at(&found, "cuts"));
    assert!(cuts.iter().all(|cut| cut.get("dial").is_none()));
    assert_eq!(number(cuts.last().unwrap(), "diameter_mm"), 10.0);
    assert!(says(&found, "lacking", "shop.lathe.dials.cross"));
    assert!(says(&found, "lacking", "shop.lathe.spindle_speeds"));
    assert!(says(&found, "cautions", "tailstock"), "nine diameters out: common practice");
}

#[test]
fn facing_leaves_a_length() {
    let found = answer(
        r#"{"name": "a shop", "lathe": {"dials": {"compound": {"reads": "radius", "division": "0.02 mm", "divisions": 100}}}}"#,
        r#"{"kind": "size", "process": "face", "from": "25.6 mm", "to": "25 mm", "diameter": "20 mm", "stock": "brass"}"#,
    );
    let cuts: Vec<(&str, f64)> = items(at(&found, "cuts"))
        .iter()
        .map(|cut| (text(cut, "dial"), number(cut, "length_mm")))
        .collect();
    let by_hand = [("5 lines", 25.5), ("17 lines", 25.26), ("30 lines", 25.0)];
    assert_eq!(cuts, by_hand);
}

#[test]
fn what_cannot_be() {
    for (operation, why) in [
        (r#"{"kind": "size", "process": "turn", "from": "12 mm", "to": "13 mm"}"#, "13 mm is over"),
        (
            r#"{"kind": "size", "process": "bore", "from": "12 mm", "to": "11 mm"}"#,
            "11 mm is under",
        ),
        (r#"{"kind": "size", "from": "12 mm", "to": "12 mm"}"#, "that size already"),
        (r#"{"kind": "size", "from": "12 mm"}"#, "what size it is to be"),
    ] {
        let found = answer(SHOP, operation);
        assert!(text(&found, "refused").contains(why), "{operation}: {found:?}");
    }
}

#[test]
fn how_long_it_takes_and_its_beat() {
    let operation = r#"{"kind": "size", "process": "turn", "from": "25.4 mm", "to": "23.4 mm", "length": "50 mm", "stock": "mild-steel"}"#;
    let json = answer(SHOP, operation);
    // By hand: 70 to 90 ft/min at an inch is 267 to 344 rpm; 5 thou a turn roughing (quick
    // reference sheet) is 40.6 mm/min.
    let rough = 50.0 / (320.0 * 0.127);
    assert_eq!(number(&json, "spindle_rpm"), 320.0);
    let finish = number(&json, "cutting_minutes") - 2.0 * rough;
    assert!(finish > 0.0, "{finish}");
    let hand = number(&json, "minutes") - number(&json, "cutting_minutes");
    assert!(
        (hand - 2.0).abs() < 1e-9,
        "three passes of 20 s and a minute to measure: common practice, no source"
    );
    let found = latheside_tests::solved::found(SHOP, operation);
    let steps = found.steps();
    let beats: Vec<_> = (0..steps.len()).filter_map(|at| steps.get(at)?.beat).collect();
    assert_eq!(beats.len(), 3, "one with each cut");
    assert!(beats.iter().all(|beat| beat.of == "the carriage"));
}
