//! The steps, in the order in which they are safe.

use super::*;

#[test]
fn each_move_is_told_in_the_order_in_which_it_is_safe() {
    #[rustfmt::skip]
    let rows = [
        ("", &["Slide clear, cutter stopped", "Unlock the lathe spindle", "Pin out", "Forward 1 turn and 10 spaces, into hole 10", "Pin in", "Lock the lathe spindle"], &["lathe spindle locked", "pin home in hole 10", "Cutter on, a light feed, cut"]),
        (r#","work_in":"head-on-cross-slide","cutter_in":"lathe-spindle""#, &["Slide clear of the cutter, lathe spindle stopped", "Unlock the head's spindle", "Pin out", "Forward 1 turn and 10 spaces, into hole 10", "Pin in", "Lock the head's spindle"], &["head's spindle locked", "pin home in", "Lathe spindle on, a light feed, cut"]),
        (r#","cutter_in":"dragged-by-slide""#, &["Tool clear of the work", "Unlock the lathe spindle", "Pin out", "Forward 1 turn and 10 spaces, into hole 10", "Pin in", "Lock the lathe spindle"], &["lathe spindle locked", "pin home in", "Drag the cut"]),
    ];
    for (places, parts, cut) in rows {
        let operation = format!(r#"{{"kind":"divide","into":24,"diameter":"32 mm"{places}}}"#);
        let found = found(NO_GEARS, &operation);
        let steps = found.steps();
        let all: Vec<Step> = (0..steps.len()).map(|at| steps.get(at).unwrap()).collect();
        let second = all.iter().position(|step| step.title == "move to division 2 of 24");
        let (second, at_it) = (&all[second.unwrap()], &all[second.unwrap() + 1]);
        assert!(in_order(&said(second), parts), "{places}: {:?}", second.say);
        assert_eq!(
            (second.label.as_str(), second.figure.as_str()),
            ("forward to turn + hole", "1 + 10")
        );
        assert_eq!((second.done, second.cuts), ("Locked", false));
        assert!(second.caution.is_some());
        assert_eq!(at_it.title, "cut division 2 of 24");
        assert!(in_order(&said(at_it), cut), "{places}: {:?}", at_it.say);
        assert_eq!((at_it.done, at_it.cuts, at_it.figure.as_str()), ("Cut", true, "1 + 10"));
        assert!(matches!(at_it.picture, Some(Picture::Rim { into: 24, at: 1, first: 1, .. })));
        assert!(matches!(
            second.picture,
            Some(Picture::Plate { circle: 15, spaces: 10, hole: 10, .. })
        ));
        let cut = all.iter().filter(|step| step.cuts).count();
        assert_eq!(cut, 24, "one step cuts each division");
        // After division 12 the pin is in hole 0 again, half a turn round: told before the next.
        let check = all.iter().position(|step| step.title == "Half-way check").unwrap();
        assert!(said(&all[check]).contains("into hole 0 again"), "{:?}", all[check].say);
        assert_eq!(all[check + 1].title, "move to division 13 of 24");
        assert_eq!(all[check + 1].figure, "20 + 0");
        let [.., round, deburr] = all.as_slice() else { panic!("steps") };
        assert!(said(round).contains("After 24 the pin must be in hole 0 again"));
        assert_eq!((deburr.title.as_str(), deburr.cuts), ("Deburr", false));
    }
}

#[test]
fn the_slides_and_the_locked_spindle_follow_from_where_things_are() {
    #[rustfmt::skip]
    let rows = [
        ("", "lathe-spindle", "cross", "carriage"),
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
    let both =
        r#"{"kind":"divide","into":6,"work_in":"lathe-spindle","cutter_in":"lathe-spindle"}"#;
    let cautions = at(&answer(HEAD, both), "cautions").clone();
    assert!(items(&cautions)[0].as_text().unwrap().contains("can't both be in the lathe spindle"));
}

#[test]
fn a_move_back_takes_the_slack_up_again() {
    // 40/87 = 14/21 − 6/29: the second move goes back.
    let found = found(NO_GEARS, r#"{"kind":"divide","into":87,"diameter":"32 mm"}"#);
    let steps = found.steps();
    let second = (0..steps.len())
        .filter_map(|at| steps.get(at))
        .find(|s| s.title == "move to division 2 of 87");
    let words = said(&second.unwrap());
    assert!(
        in_order(
            &words,
            &[
                "Crank's pin out",
                "Forward 14 spaces",
                "Pin in",
                "Stop pin out",
                "back 6 spaces and half a turn more, then forward half a turn",
                "Pin in"
            ]
        ),
        "{words}"
    );
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
    let operation =
        r#"{"kind":"divide","into":6,"diameter":"40 mm","marks":"slots","depth":"2 mm"}"#;
    let steps = steps_of(FULL, operation);
    let depth = steps.iter().position(|step| step.title == "Set the depth").unwrap();
    let order = ["Touch", "Zero its dial", "Back off", "100 lines (2 mm)", "Lock the cross slide"];
    assert!(in_order(&said(&steps[depth]), &order), "{:?}", steps[depth].say);
    assert!(steps[..depth + 2].iter().all(|step| !step.cuts) && steps[depth + 2].cuts);
    // A head on the cross slide: the compound off, square and on centre, depth by the carriage.
    let head = operation.replace(r#""depth""#, r#""work_in":"head-on-cross-slide","depth""#);
    let steps = steps_of(FULL, &head);
    let ready = steps.iter().find(|step| step.title == "Make ready").unwrap();
    assert!(in_order(&said(ready), &["compound is off", "square", "centre height"]));
    let depth = steps.iter().find(|step| step.title == "Set the depth").unwrap();
    assert!(said(depth).contains("The carriage in to 20 lines (2 mm)"), "{:?}", depth.say);
    // Without a dial, an indicator.
    let steps = steps_of(HEAD, &head);
    let depth = steps.iter().find(|step| step.title == "Set the depth").unwrap();
    assert!(said(depth).contains("an indicator against it"), "{:?}", depth.say);
}

#[test]
fn a_lost_count_is_found_by_a_caliper() {
    // The chords of a hexagon on 40: a side, √3 sides, two.
    let operation = r#"{"kind":"divide","into":6,"diameter":"40 mm"}"#;
    let steps = steps_of(FULL, operation);
    let cuts: Vec<&Step> = steps.iter().filter(|step| step.cuts).collect();
    for (cut, mm) in [(1, "20"), (2, "34.641"), (3, "40"), (4, "34.641"), (5, "20")] {
        let words = format!("From the first cut to this, straight across: {mm} mm.");
        assert!(said(cuts[cut]).contains(&words), "{:?}", cuts[cut].say);
    }
    assert!(!said(cuts[0]).contains("Lost"));
    let check = steps.iter().find(|step| step.title == "Half-way check").unwrap();
    assert!(said(check).contains("from each cut to the next, straight across: 20 mm."));
    assert_eq!(fact(&card(FULL, operation), "lost the count?"), "each to the next 20 mm across");
}
