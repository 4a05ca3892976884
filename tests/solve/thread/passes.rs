//! Passes on the lathe's own dials, start after start, to the nut.

use super::*;

#[test]
fn passes_on_the_lathes_own_dial() {
    let answer = solve(LATHE, r#""designation": "M10", "length": "20 mm""#);
    let passes = list(&answer, "passes");
    let depths: Vec<f64> = passes.iter().map(|pass| number(pass, "depth_mm")).collect();
    assert!(depths.windows(2).all(|two| two[0] < two[1]), "{depths:?}");
    // 0.920151 mm is 46.008 lines of 0.02 mm.
    assert_eq!(text(passes.last().unwrap(), "dial"), "46", "arithmetic");
    assert!((depths.last().unwrap() - 0.92).abs() < 1e-9);
    // Constant chip area: depth by the square root of the pass's number, to the nearest line
    // (common in insert makers' guides, from memory); no cut but the last under 0.02 mm.
    let n = 15.0;
    for (k, depth) in (1..).zip(depths.iter().take(5)) {
        let rule = 0.920_151 * (f64::from(k) / n).sqrt();
        assert!((depth - rule).abs() <= 0.010_001, "{k}: {depth}, not {rule}");
    }
    // Thousandths that read diameter: two of 0.613434/8 in are 153.4 lines.
    let dial =
        r#""dials": {"cross": {"division": "1 thou", "divisions": 100, "reads": "diameter"}}"#;
    let answer = solve(dial, r#""designation": "1-8 UNC", "length": "1 in""#);
    let last = list(&answer, "passes").last().unwrap();
    assert_eq!(text(last, "dial"), "1 turn + 53", "2 × 0.613434/8 in is 153.4 thou");
    assert!((number(last, "depth_mm") - 76.5 * 0.0254).abs() < 1e-6);
    // Only a compound: along the flank at 29½°, cos 29.5° of its travel goes in.
    let dial =
        r#""dials": {"compound": {"division": "0.02 mm", "divisions": 100, "reads": "radius"}}"#;
    let answer = solve(dial, r#""designation": "M12", "length": "20 mm""#);
    let last = list(&answer, "passes").last().unwrap();
    assert_eq!(text(last, "dial"), "62", "1.233 mm of compound travel for M12 (h3/cos 29.5°)");
}

#[test]
fn a_hole_runs_the_dial_backwards() {
    let read =
        read_file(&setup(LATHE, r#""designation": "M10", "side": "inside", "length": "20 mm""#));
    let read = read.unwrap();
    let answer = read.operations[0].answer(&Shop::new(read.shop.clone()));
    let found = answer.found.unwrap();
    let steps = found.steps();
    let last = (0..steps.len())
        .filter_map(|at| steps.get(at))
        .find(|step| step.title == "Once more, to take the spring out")
        .unwrap();
    // 0.811899 mm is 40.6 lines of 0.02; the dial of 125 lines then stands at 84.
    assert_eq!(last.figure, "84", "arithmetic");
    let said: String = last.lines().iter().flatten().map(Span::text).collect();
    assert!(said.contains("41 lines: 84 at the mark, out, toward you of 0"), "{said}");
}

#[test]
fn several_starts_one_after_the_other() {
    let answer = solve(LATHE, r#""designation": "Tr 16 × 8 (P4)", "length": "60 mm""#);
    assert_eq!(text(&answer, "ratio"), "8/3");
    let steps = list(&answer, "steps");
    let next: Vec<&Node> =
        steps.iter().filter(|step| text(step, "title").starts_with("Start ")).collect();
    assert_eq!(next.len(), 1);
    let driver = pairs(at(&answer, "trains.0").unwrap())[0].0;
    assert_eq!(text(next[0], "figure"), (driver / 2).to_string(), "half a turn of the spindle");
    let passes = list(&answer, "passes").len();
    let walked = steps.iter().filter(|step| text(step, "title").starts_with("Pass ")).count();
    assert_eq!(walked, 2 * passes);
}

#[test]
fn starts_by_the_gears_in_hand_or_by_the_compound() {
    // Six starts of 1 mm on 3: 60 drives 30, and a start is ten teeth of the 60.
    let lathe = |gears: &str, before: &str| {
        format!(
            r#""leadscrew": "3 mm", "before_train": "{before}", "change_gears": [{gears}], "pairs_max": 1,
            "dials": {{"cross": {{"reads": "radius", "division": "0.02 mm", "divisions": 125}}, "compound": {{"reads": "radius", "division": "0.02 mm", "divisions": 100}}}}"#
        )
    };
    let figure = |lathe: &str, starts: u32| {
        let answer = solve(
            lathe,
            &format!(
                r#""lead": "6 mm", "starts": {starts}, "angle": "60 deg", "diameter": "40 mm", "length": "20 mm""#
            ),
        );
        let steps: Vec<&Node> = list(&answer, "steps")
            .iter()
            .filter(|step| text(step, "title").starts_with("Start "))
            .collect();
        assert_eq!(steps.len() as u32, starts - 1);
        (text(steps[0], "label").to_owned(), text(steps[0], "figure").to_owned())
    };
    let say = |label: &str, figure: &str| (label.to_owned(), figure.to_owned());
    assert_eq!(figure(&lathe("60, 30", "1/1"), 6), say("teeth on", "10"), "60 / 6");
    // Half a turn of the first driver for one of the spindle: half as many.
    assert_eq!(figure(&lathe("80, 20", "1/2"), 4), say("teeth on", "10"), "80 × 1/2 / 4");
    // 40 teeth don't divide by 6: the compound, on by a pitch of 1 mm, 50 lines of 0.02.
    assert_eq!(
        figure(&lathe("40, 20", "1/1"), 6),
        say("compound on by", "50 lines"),
        "1 mm / 0.02 mm"
    );
    // By hand: a pitch of 0.25 mm is 12.5 lines of 0.02; each start is on its own nearest line, a half
    // short of it: 12, 25, 37, 50, 62.
    let answer = solve(
        &lathe("40, 20, 80", "1/1"),
        r#""lead": "1.5 mm", "starts": 6, "angle": "60 deg", "diameter": "20 mm", "length": "20 mm", "train": 1"#,
    );
    let moves: Vec<(&str, bool)> = list(&answer, "steps")
        .iter()
        .filter(|step| text(step, "title").starts_with("Start "))
        .map(|step| {
            let said = serde_json::to_string(at(step, "actions").unwrap()).unwrap();
            (text(step, "figure"), said.contains(r#""beyond":"0.5""#))
        })
        .collect();
    let by_hand = ["12 lines", "13 lines", "12 lines", "13 lines", "12 lines"];
    assert_eq!(moves, by_hand.map(|lines| (lines, lines == "12 lines")));
}

/// Gears for M12 on a leadscrew of 3 mm, and its chasing dial.
const GEARED: &str = r#""leadscrew": "3 mm", "leadscrew_hand": "right", "tumbler": true, "change_gears": [35, 60],
    "spindle_speeds": [45], "chasing_dials": [{"wheel_teeth": 14, "marks": 2}]"#;
const BOTH: &str = r#""dials": {"cross": {"division": "0.02 mm", "divisions": 125, "reads": "radius", "grows": "inwards"},
    "compound": {"reads": "radius", "division": "0.02 mm", "divisions": 100}}"#;

#[test]
fn infeed_of_choice() {
    let m12 =
        |more: &str| solve(BOTH, &format!(r#""designation": "M12", "length": "20 mm"{more}"#));
    // Along the flank: 1.233 mm of compound travel, 29.5° or read from the axis 60.5°.
    let flank = m12(r#", "infeed": "flank""#);
    let source = "NAVEDTRA 14345 p. 179; h3 / cos 29.5° = 1.233 mm for M12";
    assert!((number(&flank, "compound.travel_mm") - 1.233).abs() < 0.002, "{source}");
    assert_eq!(number(&flank, "compound.from_cross_deg"), 29.5, "{source}");
    assert_eq!(number(&flank, "compound.from_axis_deg"), 60.5, "90 − 29.5");
    assert_eq!(text(list(&flank, "passes").last().unwrap(), "dial"), "62", "1.233 / 0.02");
    let swung = r#""swing","what":"compound","to":"29.5 deg","from":"across","handle":"tailstock""#;
    let turned = solve(
        &format!("{GEARED}, {BOTH}"),
        r#""designation": "M12", "length": "20 mm", "infeed": "flank""#,
    );
    assert!(in_order(&acts(&turned, "The tool"), &[swung]), "{source}");
    let pass = acts(&turned, "Pass 2");
    let nought = r#""slide":"cross","to":{"turns":0,"lines":0"#;
    assert!(in_order(&pass, &[nought, r#""wind","slide":"compound""#, "half-nuts"]), "{pass:?}");
    // At 29° the other reading is 61°.
    let set = m12(r#", "infeed": "flank", "set_over": "29 deg""#);
    assert_eq!(number(&set, "compound.from_axis_deg"), 61.0, "quia shop vocabulary list: 61 or 29");
    // The angle for every form: half of it, less half a degree.
    for (name, degrees) in
        [("1/4 BSW", 27.0), ("2 BA", 23.25), ("Tr 16 × 4", 14.5), ("1/2-10 Acme", 14.0)]
    {
        let answer = solve(BOTH, &format!(r#""designation": "{name}", "infeed": "flank""#));
        assert_eq!(
            number(&answer, "compound.from_cross_deg"),
            degrees,
            "{name}: by the form's angle"
        );
    }
    // In turn: one flank stays where it is, so the tool moves aside by the cut × tan 30°.
    let turns = m12(r#", "infeed": "alternating", "passes": 6, "springs": 2"#);
    let passes = list(&turns, "passes");
    assert_eq!(passes.len(), 6);
    for two in passes.windows(2) {
        let by = |key: &str| number(&two[1], key) - number(&two[0], key);
        let off = by("aside_mm").abs() - by("depth_mm") * 30f64.to_radians().tan();
        assert!(off.abs() < 2e-6, "geometry: {off}");
    }
    let springs =
        list(&turns, "steps").iter().filter(|s| text(s, "title").starts_with("Once more"));
    assert_eq!(springs.count(), 2);
    assert!(in_order(
        &acts(&turns, "The tool"),
        &[r#""square-up","what":"compound","to":"along""#]
    ));
    assert!(in_order(
        &acts(&turns, "Pass 2"),
        &[r#""slide":"compound","to""#, r#""slide":"cross""#]
    ));
    // Equal depths, and no cut under what is asked.
    let even = m12(r#", "sharing": "depth", "passes": 4"#);
    let depths: Vec<f64> = list(&even, "passes").iter().map(|p| number(p, "depth_mm")).collect();
    for (k, depth) in (1..).zip(&depths) {
        let rule = 0.613_434 * 1.75 * f64::from(k) / 4.0;
        assert!((depth - rule).abs() <= 0.010_001, "{depth}, not {rule}");
    }
    let thick = m12(r#", "passes": 40, "least_cut": "0.1 mm""#);
    let depths: Vec<f64> = list(&thick, "passes").iter().map(|p| number(p, "depth_mm")).collect();
    assert!(
        depths.len() > 4 && depths.windows(2).all(|two| two[1] - two[0] > 0.0999),
        "{depths:?}"
    );
    // No dial on the compound, none by the flank.
    let none = solve(LATHE, r#""designation": "M12", "infeed": "flank""#);
    assert_eq!(lacks(&none, "passes").as_deref(), Some("shop.lathe.dials.compound"));
    // Several starts need the compound parallel: straight in, and said.
    let two = solve(BOTH, r#""designation": "M10 × Ph3 P1.5", "infeed": "flank""#);
    assert!(at(&two, "compound").is_none() && at(&two, "passes").is_some());
    assert!(format!("{:?}", two.get("cautions")).contains("fed straight in"));
}

#[test]
fn to_the_nut_by_the_line() {
    // 0.02 mm of infeed: 0.023 of shake and 0.04 off the pitch diameter at 60°; 0.05 wants two lines.
    let answer = solve(
        LATHE,
        r#""designation": "M12", "to": "nut-in-hand", "shake": "0.05 mm", "length": "20 mm""#,
    );
    assert_eq!(shown(&answer, "To the nut").1, "0.023 mm", "2 tan 30° for each 1 of infeed");
    let thread =
        r#""designation": "M12", "to": "nut-in-hand", "shake": "0.05 mm", "length": "20 mm""#;
    let line = fact(LATHE, thread, "each line more").unwrap();
    assert_eq!(line, "0.023 mm of end shake, 0.040 mm off the pitch diameter", "2 and 1.155 × √3");
    let lines = fact(LATHE, thread, "for 0.05 mm of shake").unwrap();
    assert_eq!(lines, "at most 2 lines after it just goes");
}
