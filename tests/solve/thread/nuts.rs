//! Half-nuts, the chasing dial, and time to let go.

use super::*;

#[test]
fn the_chasing_dial_goes_by_the_lead_that_is_cut() {
    const RULE: &str =
        "Jones, Turning and Boring (1914) pp. 139-142, and the same for metric screws";
    let rows = [
        // screw, wheel, marks, lead, gears, rule, marks
        ("6 tpi", 24, 4, "6 tpi", "", "anywhere", 4),
        ("6 tpi", 24, 4, "12 tpi", "", "anywhere", 4),
        ("6 tpi", 24, 4, "18 tpi", "", "anywhere", 4),
        ("6 tpi", 24, 4, "7 tpi", "", "any-mark", 4),
        ("6 tpi", 24, 4, "11 tpi", "", "any-mark", 4),
        ("6 tpi", 24, 4, "2.25 tpi", "", "one-mark", 1),
        ("3 mm", 15, 3, "1.25 mm", "", "any-mark", 3),
        ("3 mm", 16, 4, "4 mm", "", "any-mark", 4),
        ("3 mm", 14, 1, "1.25 mm", "", "keep-closed", 0),
        ("1.5 mm", 16, 1, "1.25 mm", "", "keep-closed", 0),
        // 63/80 for an exact 100/127 never comes round: by the lead cut it does after 63 threads.
        ("8 tpi", 16, 4, "2.5 mm", "63, 80", "keep-closed", 0),
        ("8 tpi", 63, 3, "2.5 mm", "63, 80", "one-mark", 1),
    ];
    for (screw, wheel, marks, lead, gears, rule, usable) in rows {
        let lathe = format!(
            r#""leadscrew": "{screw}", "change_gears": [{gears}], "chasing_dials": [{{"wheel_teeth": {wheel}, "marks": {marks}}}]"#
        );
        let answer = solve(&lathe, &format!(r#""lead": "{lead}""#));
        assert_eq!(text(&answer, "half_nuts.rule"), rule, "{lead} on {screw}: {RULE}");
        assert_eq!(list(&answer, "half_nuts.marks").len(), usable, "{lead} on {screw}: {RULE}");
    }
    // A two-start thread of 8 to the inch has a lead of 1/4 in, and goes by that.
    let dial = r#""leadscrew": "6 tpi", "chasing_dials": [{"wheel_teeth": 24, "marks": 4}]"#;
    let two = solve(dial, r#""designation": "1-8 UNC", "starts": 2"#);
    let one = solve(dial, r#""lead": "4 tpi""#);
    assert_eq!(text(&two, "lead"), "6.35 mm");
    assert_eq!(at(&two, "half_nuts"), at(&one, "half_nuts"), "TM 1-420 (1940) p. 81");
    assert_eq!(
        text(&one, "half_nuts.spacing"),
        "12.7 mm",
        "{FRACTIONS}: 3 threads of 6 to the inch"
    );
    // Of several dials the freest, and none at all: closed.
    let dials = r#""leadscrew": "3 mm", "chasing_dials": [{"wheel_teeth": 14, "marks": 1}, {"wheel_teeth": 15, "marks": 3}]"#;
    assert_eq!(text(&solve(dials, r#""lead": "1.25 mm""#), "half_nuts.rule"), "any-mark");
    let answer = solve(r#""leadscrew": "3 mm""#, r#""lead": "1.25 mm""#);
    assert_eq!(text(&answer, "half_nuts.rule"), "keep-closed");
}

#[test]
fn how_the_carriage_gets_back_with_closed_nuts() {
    let pass = |reverse: &str, nose: &str, crank: &str| {
        let lathe = format!(
            r#""leadscrew": "3 mm", "change_gears": [25, 60], "pairs_max": 1, "reverse": {reverse}, "nose": "{nose}",
            "hand_crank": {crank}, "spindle_speeds": [45, 70, 110], "dials": {{"cross": {{"reads": "radius", "division": "0.02 mm", "divisions": 125}}}}"#
        );
        let answer =
            solve(&lathe, r#""designation": "M12 × 1.25", "length": "20 mm", "ending": "groove""#);
        // 2.5 P, and a second for the spindle to run down beside the one to act: 75 rpm at most.
        assert!((number(&answer, "spindle_rpm_most") - 75.0).abs() < 1e-9, "kinematics");
        assert_eq!(number(&answer, "spindle_rpm") as u32, 70, "kinematics");
        acts(&answer, "Pass 2")
    };
    let along = r#""by":"leadscrew""#;
    let (stop, out) = (r#""is":"stopped""#, r#""do":"clear","slide":"cross","toward":"out""#);
    let back = |by: &str| {
        format!(r#""do":"drive-by-hand","what":"lathe-spindle","by":"{by}","way":"back""#)
    };
    // A chuck that may be screwed on is never run back by power.
    for (reverse, nose, crank, by) in [
        ("true", "screwed", "true", "hand-crank"),
        ("false", "screwed", "true", "hand-crank"),
        ("false", "screwed", "false", "chuck"),
        ("false", "locked", "false", "chuck"),
    ] {
        let pass = pass(reverse, nose, crank);
        assert!(in_order(&pass, &[along, stop, out, "isolate", &back(by), "energise"]), "{pass:?}");
        assert!(!pass.iter().any(|act| act.contains("reverse") || act.contains("half-nuts")));
    }
    let locked = pass("true", "locked", "false");
    let reverse = r#""of":"lathe","is":"reverse""#;
    assert!(in_order(&locked, &[along, stop, out, reverse, along, stop]), "{locked:?}");
}

#[test]
fn the_spindle_leaves_time_to_let_go() {
    let source = "kinematics: rpm = 60 × room ÷ (lead × seconds), worked by hand";
    // LATHE has 45, 70 and 110 rpm; a second to let go unless entered.
    let rows = [
        // Groove of 3.5 pitches less a pitch of tool: 2.5 P in a second is 150 rpm.
        (r#""designation": "M10", "ending": "groove""#, "", 150.0, 110),
        // Before a shoulder 2.5 P less half a tool: 120 rpm.
        (r#""designation": "M10", "ending": "shoulder""#, "", 120.0, 110),
        // A groove of 3 mm: 1.5 mm at 1.5 mm a turn.
        (r#""designation": "M10", "ending": "groove", "groove": "3 mm""#, "", 60.0, 45),
        // Two starts of 1.5 go twice as fast along.
        (r#""designation": "M10 × Ph3 P1.5", "ending": "groove""#, "", 75.0, 70),
        // Half a second of one's own.
        (r#""designation": "M10 × Ph3 P1.5", "ending": "groove""#, "1/2", 150.0, 110),
        // Nothing leaves enough: the slowest, by hand.
        (r#""designation": "M10", "ending": "groove", "groove": "2 mm""#, "", 20.0, 45),
    ];
    for (thread, seconds, most, rpm) in rows {
        let own = if seconds.is_empty() {
            String::new()
        } else {
            format!(r#", "reaction_seconds": "{seconds}""#)
        };
        let answer = solve_with(&own, &format!(r#"{thread}, "length": "20 mm""#));
        let found = number(&answer, "spindle_rpm_most");
        assert!((found - most).abs() < 1e-9, "{thread}: {found}, not {most}: {source}");
        assert_eq!(number(&answer, "spindle_rpm") as u32, rpm, "{thread}: {source}");
        let pass = acts(&answer, "Pass 2");
        // 20 mm at that lead and speed each pass, and 20 s of the hand's own between two (common
        // practice, no source).
        let lead = if thread.contains("Ph3") { 3.0 } else { 1.5 };
        let passes = (number(&answer, "minutes") - number(&answer, "cutting_minutes")) * 3.0;
        let cutting = passes.round() * 20.0 / (lead * f64::from(rpm));
        assert!(passes > 2.5 && (passes - passes.round()).abs() < 1e-9, "{passes} passes");
        assert!((number(&answer, "cutting_minutes") - cutting).abs() < 1e-9, "arithmetic");
        if f64::from(rpm) <= most {
            let speed = acts(&answer, "Guard shut");
            assert!(in_order(&speed, &[&format!(r#""what":"speed","rpm":{rpm}"#)]), "{speed:?}");
        } else {
            assert!(in_order(&pass, &[r#""do":"drive-by-hand""#]), "{pass:?}");
            assert!(!acts(&answer, "Guard shut").iter().any(|act| act.contains("energise")));
        }
    }
    // A groove's width says that there is one.
    let answer = solve_with("", r#""designation": "M10", "groove": "3 mm""#);
    assert!((number(&answer, "spindle_rpm_most") - 60.0).abs() < 1e-9, "{source}");
    // Running out, or left-handed and so away from the shoulder: nothing to be in time for.
    for thread in [
        r#""designation": "M10", "ending": "runs-out""#,
        r#""designation": "M10", "hand": "left", "ending": "shoulder""#,
        r#""designation": "M10""#,
    ] {
        assert!(at(&solve_with("", thread), "spindle_rpm").is_none(), "{thread}");
    }
    let answer = solve(
        r#""leadscrew": "3 mm", "chasing_dials": [{"wheel_teeth": 15, "marks": 5}]"#,
        r#""designation": "M10", "ending": "groove""#,
    );
    assert_eq!(lacks(&answer, "spindle_rpm").as_deref(), Some("shop.lathe.spindle_speeds"));
}

#[test]
fn inexact_gears_and_the_marks() {
    // 47/37 for 1.27: 20 tpi on 1 mm comes round only after 47 threads; 48 are a thread past that.
    let lathe = r#""leadscrew": "1 mm", "change_gears": [47, 37], "pairs_max": 1, "chasing_dials": [{"wheel_teeth": 48, "marks": 4}]"#;
    let answer = solve(lathe, r#""lead": "20 tpi""#);
    assert_eq!(text(&answer, "half_nuts.rule"), "keep-closed");
    // By hand: n × 37/47 turns of the spindle less the nearest whole number, × 47/37 mm.
    for off in list(&answer, "half_nuts.off") {
        let threads = 12.0 * number(off, "after_marks");
        let turns = threads * 37.0 / 47.0;
        let um = (turns - turns.round()) * 47.0 / 37.0 * 1000.0;
        assert!((number(off, "off_um") - um).abs() < 1e-5, "{off:?}, not {um}: arithmetic");
    }
    assert_eq!(list(&answer, "half_nuts.off").len(), 4);
    assert!(format!("{:?}", answer.get("why")).contains("mark 4 by "), "all of them under why");
    // 63/80 on 8 to the inch: a dial of 64 misses by one thread's share, one of 63 comes round.
    let dial = |wheel: u32, marks: u32| {
        let lathe = format!(
            r#""leadscrew": "8 tpi", "change_gears": [63, 80], "pairs_max": 1, "chasing_dials": [{{"wheel_teeth": {wheel}, "marks": {marks}}}]"#
        );
        (
            fact(&lathe, r#""lead": "2.5 mm""#, "half-nuts"),
            fact(&lathe, r#""lead": "2.5 mm""#, "at a wrong mark"),
        )
    };
    let (rule, off) = dial(63, 3);
    assert_eq!(rule.as_deref(), Some("always the same mark"));
    // A third of 63 threads is 26 2/3 turns: a third of 2.5003 mm off either way.
    assert_eq!(off.as_deref(), Some("mark 2 by 833 µm"), "arithmetic");
    // An exact train: no offsets.
    let lathe = r#""leadscrew": "3 mm", "change_gears": [25, 60], "pairs_max": 1, "chasing_dials": [{"wheel_teeth": 15, "marks": 5}]"#;
    assert_eq!(fact(lathe, r#""lead": "1.25 mm""#, "at a wrong mark"), None);
    // No dial at all.
    let none = fact(r#""leadscrew": "3 mm""#, r#""lead": "1.25 mm""#, "half-nuts").unwrap();
    assert!(none.starts_with("no dial: keep closed, run back; or a carriage stop"), "{none}");
}
