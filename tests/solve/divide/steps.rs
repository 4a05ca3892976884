//! The steps, in the order in which they are safe.

use super::*;

#[test]
fn each_move_is_told_in_the_order_in_which_it_is_safe() {
    #[rustfmt::skip]
    let rows = [
        // the entries, which spindle holds the work, how the cut is made
        ("", "the head's spindle", &["the head's spindle locked", "crank's pin home in hole 10 of the 15"][..]),
        (r#","work_in":"head-on-cross-slide","cutter_in":"lathe-spindle","marks":"lines","depth":"0.2 mm","width":"0.3 mm""#,
         "the head's spindle",
         &["the head's spindle locked", "Start the lathe spindle, forward", "carriage", "Lock the carriage", "Feed the cross slide", "clear", "Stop the lathe spindle"][..]),
    ];
    let shop = NO_GEARS.replacen('{', r#"{"lathe":{"spindle_speeds":[900]},"#, 1);
    for (entries, spindle, cut) in rows {
        let operation = format!(r#"{{"kind":"divide","into":24,"diameter":"32 mm"{entries}}}"#);
        let all = steps_of(&shop, &operation);
        let noun = if entries.is_empty() { "division" } else { "line" };
        let second = format!("move to {noun} 2 of 24");
        let second = all.iter().position(|step| step.title == second).unwrap();
        let (second, at_it) = (&all[second], &all[second + 1]);
        let parts = [
            "the cutter is clear",
            &format!("Unlock {spindle}"),
            "Crank's pin out",
            "Crank forward 1 turn and 10 spaces on the 15",
            "Crank's pin in",
            &format!("Lock {spindle}"),
            "crank's pin home in hole 10 of the 15",
        ];
        assert!(in_order(&said(second), &parts), "{entries}: {}", said(second));
        assert_eq!(
            (second.label.as_str(), second.figure.as_str()),
            ("forward to turn + hole", "1 + 10")
        );
        assert_eq!((second.done, second.cuts), ("Locked", false));
        assert_eq!(second.id.to_string(), "move/2");
        assert_eq!(at_it.title, format!("cut {noun} 2 of 24"));
        assert!(in_order(&said(at_it), cut), "{entries}: {}", said(at_it));
        assert_eq!((at_it.done, at_it.cuts, at_it.figure.as_str()), ("Cut", true, "1 + 10"));
        assert!(matches!(at_it.picture, Some(Picture::Rim { into: 24, at: 1, first: 1, .. })));
        assert!(matches!(
            second.picture,
            Some(Picture::Plate { circle: 15, spaces: 10, hole: 10, .. })
        ));
        let cut = all.iter().filter(|step| step.cuts).count();
        assert_eq!(cut, 24, "one step cuts each division");
        // Moved half round, and before anything is cut there: the first cut is straight across.
        let check = all.iter().position(|step| step.title == "Half-way check").unwrap();
        assert!(said(&all[check]).contains("the first cut is straight across from the cutter"));
        assert_eq!(all[check - 1].title, format!("move to {noun} 13 of 24"));
        assert_eq!((all[check - 1].figure.as_str(), all[check + 1].cuts), ("20 + 0", true));
        let [.., round, deburr] = all.as_slice() else { panic!("steps") };
        let home = ["crank's pin home in hole 0", "the cutter stands over the first cut"];
        assert!(in_order(&said(round), &home), "{}", said(round));
        assert_eq!((deburr.title.as_str(), deburr.cuts), ("Deburr", false));
    }
}

/// What can't be so: the plates turn the head's own spindle, and of work and cutter one stands still.
#[test]
fn what_cannot_be_divided_so_has_no_steps_and_says_why() {
    #[rustfmt::skip]
    let rows = [
        (NO_GEARS, r#""cutter_in":"driven-spindle-on-slide""#, "operation.work_in"),
        (NO_GEARS, r#""cutter_in":"dragged-by-slide""#, "operation.work_in"),
        (FULL, r#""marks":"slots","depth":"2 mm","work_in":"head-on-cross-slide","cutter_in":"dragged-by-slide""#, "operation.cutter_in"),
        (FULL, r#""marks":"slots","depth":"2 mm","work_in":"lathe-spindle","cutter_in":"lathe-spindle""#, "operation.work_in"),
        (FULL, r#""marks":"flats","work_in":"lathe-spindle","cutter_in":"dragged-by-slide""#, "operation.cutter_in"),
        (FULL, r#""marks":"flats","cutter":"slot drill""#, "operation.cutter"),
        (FULL, r#""marks":"slots","work_in":"lathe-spindle","cutter_in":"driven-spindle-on-slide""#, "operation.depth"),
        (FULL, r#""marks":"slots","depth":"2 mm","cutter":"saw","work_in":"head-on-cross-slide""#, "operation.cutter_in"),
    ];
    for (shop, entries, needs) in rows {
        let operation = format!(r#"{{"kind":"divide","into":6,"diameter":"40 mm",{entries}}}"#);
        let found = answer(shop, &operation);
        assert_eq!(text(&found, "unmade.needs"), needs, "{entries}");
        assert!(text(&found, "unmade.why").len() > 20 && !text(&found, "ways.0.method").is_empty());
        assert!(items(at(&found, "steps")).is_empty(), "{entries}");
    }
}

#[test]
fn the_slides_and_the_locked_spindle_follow_from_where_things_are() {
    #[rustfmt::skip]
    let rows = [
        // A head that divides by its plates holds the work.
        ("", "head", "carriage", "cross"),
        (r#","cutter_in":"driven-spindle-on-slide""#, "lathe-spindle", "cross", "carriage"),
        (r#","cutter_in":"lathe-spindle""#, "head", "carriage", "cross"),
        (r#","work_in":"head-on-cross-slide""#, "head", "carriage", "cross"),
    ];
    for (places, locks, depth, length) in rows {
        let found = answer(HEAD, &format!(r#"{{"kind":"divide","into":6{places}}}"#));
        assert_eq!(
            (text(&found, "locks"), text(&found, "depth_by"), text(&found, "length_by")),
            (locks, depth, length)
        );
    }
    // A plate on the lathe's own spindle leaves the work there.
    let direct = r#"{"name": "x", "dividing": {"direct": [72]}}"#;
    let found = answer(direct, r#"{"kind":"divide","into":6}"#);
    assert_eq!(text(&found, "locks"), "lathe-spindle");
    let both =
        r#"{"kind":"divide","into":6,"work_in":"lathe-spindle","cutter_in":"lathe-spindle"}"#;
    let cautions = at(&answer(HEAD, both), "cautions").clone();
    assert!(items(&cautions)[0].as_text().unwrap().contains("can't both be in the lathe spindle"));
}

#[test]
fn a_move_back_takes_the_slack_up_again() {
    // 40/87 = 14/21 − 6/29: the second move goes back, half a turn more, and comes up forward.
    let steps = steps_of(NO_GEARS, r#"{"kind":"divide","into":87,"diameter":"32 mm"}"#);
    let second = steps.iter().find(|step| step.title == "move to division 2 of 87");
    let words = said(second.unwrap());
    let parts = [
        "Crank's pin out",
        "forward 14 spaces on the 21",
        "Crank's pin in",
        "stop pin out",
        "together back 21 spaces on the 29",
        "together forward 15 spaces on the 29",
        "stop pin in",
    ];
    assert!(in_order(&words, &parts), "{words}");
}

#[test]
fn a_train_is_told_gear_by_gear_and_why_it_helps() {
    let found = divide(HEAD, 127);
    let steps = items(at(&found, "steps"));
    assert_eq!(text(&steps[1], "title"), "Gear the plate to the spindle");
    let why = text(&found, "why.0.values");
    assert!(why.starts_with("40 − 127 × ("), "{why}");
    assert!(why.contains("drives") && why.contains("the crank"), "{why}");
    let card = card(HEAD, r#"{"kind":"divide","into":127,"diameter":"32 mm"}"#);
    assert!(matches!(card.picture, Some(Picture::HeadTrain { .. })));
    assert_eq!(fact(&card, "way"), "differential");
    assert!(card.others.len() <= 40 && !card.others.is_empty());
}

#[test]
fn the_most_divisions_are_stepped_through_one_at_a_time() {
    let shop = r#"{"name":"wheel","dividing":{"head":{"worm_ratio":360,"plates":[[30]]}}}"#;
    let found = found(shop, r#"{"kind":"divide","into":9999,"diameter":"200 mm"}"#);
    let steps = found.steps();
    assert!(steps.len() > 9999);
    let cuts = (0..steps.len()).filter_map(|at| steps.get(at)).filter(|step| step.cuts).count();
    assert_eq!(cuts, 9999);
    assert!(steps.get(steps.len()).is_none());
}

#[test]
fn the_depth_is_set_by_touching_off() {
    let operation = r#"{"kind":"divide","into":6,"diameter":"40 mm","marks":"slots","depth":"2 mm","cutter":"saw","work_in":"lathe-spindle","cutter_in":"driven-spindle-on-slide"}"#;
    let steps = steps_of(FULL, operation);
    let depth = steps.iter().position(|step| step.title == "Set the depth").unwrap();
    let order = [
        "Lock the lathe spindle",
        "The cross slide in, away from you to the rim",
        "Set the dial of the cross slide to 0",
        "clear",
    ];
    assert!(in_order(&said(&steps[depth]), &order), "{}", said(&steps[depth]));
    assert!(steps[..depth + 2].iter().all(|step| !step.cuts) && steps[depth + 2].cuts);
    // The saw is as wide as half of what it goes deep: four cuts of half a millimetre, 25 lines each.
    let cut = said(&steps[depth + 2]);
    let passes = ["25 lines", "50 lines", "75 lines", "100 lines", "Lock the cross slide"];
    assert!(in_order(&cut, &passes), "{cut}");
    // A head on the cross slide: the compound off, its axis level, depth by the carriage.
    let head = r#"{"kind":"divide","into":6,"diameter":"40 mm","marks":"slots","depth":"1 mm","cutter":"slot drill","work_in":"head-on-cross-slide"}"#;
    let fast = FULL.replace(r#""lathe":{"#, r#""lathe":{"spindle_speeds":[900],"#);
    let steps = steps_of(&fast, head);
    let order = [
        "Take off the compound",
        "dividing head on the cross slide, its axis across",
        "centre height",
    ];
    assert!(in_order(&said(&steps[0]), &order), "{}", said(&steps[0]));
    let first = steps.iter().find(|step| step.cuts).unwrap();
    assert!(said(first).contains("Wind the carriage to 10 lines"), "{}", said(first));
    // Without a dial, an indicator where one is owned, else a rule.
    let blind = r#"{"name":"x","lathe":{"spindle_speeds":[900]},"dividing":{"direct":[72]},"indicators":[{"division":"0.01 mm","travel":"10 mm"}]}"#;
    let head = head.replace(r#""cutter":"slot drill""#, r#""width":"3 mm""#);
    let all = |shop: &str| steps_of(shop, &head).iter().map(said).collect::<Vec<_>>().join(" ");
    assert!(all(blind).contains("An indicator against the carriage"));
    let ruled = blind
        .replace(r#""indicators":[{"division":"0.01 mm","travel":"10 mm"}]"#, r#""drills":[]"#);
    assert!(all(&ruled).contains("on a rule from where the carriage stands"));
}

#[test]
fn a_lost_count_is_found_by_a_caliper() {
    // From each place to the next of a hexagon on 40: a side.
    let operation = r#"{"kind":"divide","into":6,"diameter":"40 mm"}"#;
    assert_eq!(fact(&card(FULL, operation), "lost the count?"), "each to the next 20 mm across");
}
