//! The card, the sentence and the steps at the bench.

use super::*;

#[test]
fn the_card_says_it_as_one_would() {
    let lathe = r#""leadscrew": "8 tpi", "change_gears": [30, 36, 40, 45, 50, 63, 80, 120], "stud_clearance_teeth": 15,
        "gearbox": [{"ratio": "1/1", "how": "lever A"}, {"ratio": "1/2", "how": "lever B"}],
        "leadscrew_hand": "right", "tumbler": false"#;
    let read = read_file(&setup(lathe, r#""lead": "2.5 mm", "length": "20 mm""#)).unwrap();
    let card = card(&read);
    let said: Vec<String> = card
        .lines
        .iter()
        .map(|line| {
            line.iter()
                .map(|span| match span {
                    Span::Figure(text) => format!("*{text}*"),
                    Span::Word(text) => text.clone(),
                })
                .collect()
        })
        .collect();
    assert_eq!(said, ["*63* drives *80*", "*lever A*"]);
    assert_eq!(card.verdict.unwrap().1, "goes on this banjo · 0.04 mm long in 300");
    let Some(Picture::Train { pairs, idlers }) = card.picture else { panic!("no train") };
    assert_eq!((pairs, idlers), (vec![(63, 80)], 1));
    assert!(card.others.len() <= 39 && card.others.iter().any(|other| other.usable));
    assert!(card.others[0].line.ends_with("lever A") || card.others[0].line.ends_with("lever B"));
    // Nothing goes on: said so, and there is nothing to walk through.
    let lathe = r#""leadscrew": "3 mm", "change_gears": [20, 40], "centres_teeth": [80, 120]"#;
    let read = read_file(&setup(lathe, r#""lead": "1.5 mm""#)).unwrap();
    let answer = read.operations[0].answer(&Shop::new(read.shop.clone()));
    let found = answer.found.unwrap();
    let (tone, said) = found.card().verdict.unwrap();
    assert_eq!(tone, Tone::Mind);
    assert_eq!(
        said,
        "these gears can't be mounted on this banjo: a pair is too large or too small for the centres"
    );
    assert_eq!(found.steps().len(), 0);
}

#[test]
fn steps_in_the_order_in_which_it_is_safe() {
    for thread in [
        r#""designation": "3/8 BSF", "length": "22 mm", "ending": "groove""#,
        r#""designation": "M12 × 1", "length": "22 mm", "side": "inside""#,
        r#""designation": "Tr 16 × 8 (P4) LH", "length": "60 mm""#,
        r#""lead": "0.75 mm", "length": "12 mm", "to": "nut-in-hand""#,
        r#""designation": "M8", "length": "12 mm", "to": "nut-in-hand""#,
    ] {
        let answer = solve(LATHE, thread);
        let steps = list(&answer, "steps");
        let place = |title: &str| {
            steps
                .iter()
                .position(|step| text(step, "title").starts_with(title))
                .unwrap_or_else(|| panic!("{thread}: no step {title}"))
        };
        let (off, hand, free, guard) = (
            place("Before the gears"),
            place("For a "),
            place("Turn it by hand"),
            place("Guard shut"),
        );
        let (scratch, check) = (place("A scratch"), place("Is the lead right?"));
        let mounted = steps.iter().position(|step| {
            let title = text(step, "title");
            title.starts_with("Pair ") || title == "The pair of gears"
        });
        assert!(off < mounted.unwrap() && mounted.unwrap() < hand, "{thread}");
        assert!(hand < free && free < guard && guard < scratch && scratch < check, "{thread}");
        assert!(
            check < place("Pass") && place("Before the next start") == steps.len() - 1,
            "{thread}"
        );
        // Nothing is cut before the guard is shut; isolating comes before any gear is touched.
        for (at, step) in steps.iter().enumerate() {
            let cuts = step.get("cuts") == Some(&Node::Flag(true));
            assert!(!cuts || at > guard, "{thread}");
            let say: String = list(step, "say")
                .iter()
                .map(|say| say.as_text().unwrap())
                .collect::<Vec<_>>()
                .join(" ");
            assert!(!say.is_empty() && !say.contains('*'), "{thread}: {say}");
        }
        let first = list(&steps[off], "say");
        assert_eq!(first[0].as_text(), Some("Stop the spindle."));
        assert_eq!(first[1].as_text(), Some("Isolate the supply."));
    }
    // The rule laid along the scratch.
    let figure = |thread: &str| {
        let answer = solve(LATHE, thread);
        let step = list(&answer, "steps")
            .iter()
            .find(|step| text(step, "title") == "Is the lead right?")
            .unwrap()
            .clone();
        (text(&step, "label").to_owned(), text(&step, "figure").to_owned())
    };
    let say = |label: &str, figure: &str| (label.to_owned(), figure.to_owned());
    assert_eq!(figure(r#""designation": "M10", "length": "22 mm""#), say("10 spaces", "15 mm"));
    assert_eq!(
        figure(r#""designation": "3/8 BSF", "length": "22 mm""#),
        say("10 spaces", "1/2 in")
    );
    assert_eq!(figure(r#""designation": "3/8 BSF", "length": "2 in""#), say("20 spaces", "1 in"));
    assert_eq!(figure(r#""designation": "M10", "length": "4 mm""#), say("2 spaces", "3 mm"));
}

#[test]
fn the_sentence_reads_with_everything_in_it() {
    let read = read_file(&setup(
        LATHE,
        r#""designation": "M10", "side": "outside", "length": "20 mm", "ending": "groove", "groove": "3 mm", "to": "nut-in-hand",
        "shake": "0.05 mm", "begun": "thread", "infeed": "flank", "set_over": "29 deg", "sharing": "area", "passes": 12,
        "least_cut": "0.02 mm", "springs": 2, "radius": "0.1 mm""#,
    ))
    .unwrap();
    assert_eq!(
        read.operations[0].sentence().plain(),
        "Screw-cut M10, outside, 20 mm long, in a groove, groove 3 mm wide, to nut-in-hand, end shake 0.05 mm, picking up the thread that is there, along a flank, set over 29 deg, equal chips, in 12 passes, none under 0.02 mm, 2 spring passes, nose radius 0.1 mm."
    );
}

#[test]
fn the_blank_has_its_chamfer_and_its_groove() {
    let answer = solve(LATHE, r#""designation": "M10", "ending": "groove""#);
    let blank = say(&answer, "The blank");
    assert!(blank.contains("chamfered at 45° to below Ø 8.16 mm"), "{blank}");
    assert!(blank.contains("groove where the thread ends: 5.25 mm wide"), "{blank}: 3.5 × 1.5");
    // Left-handed outside: the groove is where it begins, whatever it ends in.
    let left = solve(LATHE, r#""designation": "M10", "hand": "left""#);
    assert!(say(&left, "The blank").contains("groove where the thread begins"));
    assert!(say(&left, "Pass 2").contains("carriage in the groove where the thread begins"));
}

#[test]
fn a_thread_that_is_there_is_picked_up() {
    let answer =
        solve(LATHE, r#""designation": "M12 × 1.25", "begun": "thread", "to": "nut-in-hand""#);
    let titles: Vec<&str> = list(&answer, "steps").iter().map(|step| text(step, "title")).collect();
    let place = |title: &str| {
        titles.iter().position(|t| *t == title).unwrap_or_else(|| panic!("{titles:?}: {title}"))
    };
    assert!(
        !titles
            .iter()
            .any(|t| t.starts_with("The blank") || *t == "A scratch" || t.starts_with("Pass "))
    );
    assert!(place("The tool") < place("Pick up the thread"));
    assert!(place("Pick up the thread") < place("A pass in air"));
    assert!(place("A pass in air") < place("Deeper by the line"));
    assert!(place("Deeper by the line") < place("To the nut in hand"));
    let pick = say(&answer, "Pick up");
    let order = [
        "supply isolated",
        "Half-nuts closed at mark 1",
        "forward by hand",
        "both slides",
        "Both dials to 0",
    ];
    let places: Vec<usize> = order.iter().map(|part| pick.find(part).expect(part)).collect();
    assert!(places.is_sorted(), "{pick}");
    // With nothing that repeats they stay closed and the carriage is run back.
    let closed = solve(LATHE, r#""designation": "Tr 16 × 8 (P4)", "begun": "thread""#);
    assert!(
        say(&closed, "A pass in air").starts_with("Reverse"),
        "{}",
        say(&closed, "A pass in air")
    );
}

#[test]
fn pictures_where_they_belong() {
    let read =
        read_file(&setup(LATHE, r#""designation": "M12 × 1.25", "length": "20 mm""#)).unwrap();
    let found = read.operations[0].answer(&Shop::new(read.shop.clone())).found.unwrap();
    let steps = found.steps();
    let picture = |title: &str| {
        (0..steps.len())
            .filter_map(|at| steps.get(at))
            .find(|s| s.title.starts_with(title))
            .unwrap()
            .picture
    };
    // 1.25 on 3: every 5 threads, a wheel of 15 with 5 marks: only mark 1.
    assert_eq!(picture("Pass 3"), Some(Picture::ChasingDial { marks: 5, usable: vec![1] }));
    assert_eq!(picture("A scratch"), picture("Pass 3"));
    let Some(Picture::ThreadSection(section)) = picture("Measure") else { panic!("no section") };
    assert_eq!((section.pitch, section.included_deg), (1.25, 60.0));
    assert!((section.crest - 1.25 / 8.0).abs() < 1e-6, "ISO 68-1: P/8 at the crest");
    assert_eq!(section.passes.len(), 13);
    assert_eq!(section.passes_words, "13 passes");
    // Closing anywhere needs no dial: the section, as far as it is cut.
    let read = read_file(&setup(LATHE, r#""designation": "M10", "side": "inside""#)).unwrap();
    let found = read.operations[0].answer(&Shop::new(read.shop.clone())).found.unwrap();
    let steps = found.steps();
    let third = (0..steps.len())
        .filter_map(|at| steps.get(at))
        .find(|s| s.title.starts_with("Pass 3"))
        .unwrap();
    let Some(Picture::ThreadSection(section)) = third.picture else { panic!("no section") };
    assert_eq!(section.passes.len(), 3);
    assert!(
        section.inside && (section.crest - 1.5 / 4.0).abs() < 1e-5,
        "ISO 68-1: P/4 at the bore"
    );
}

#[test]
fn what_it_measures_over_wires_says_how_many_lines_are_left() {
    let wires = |over: &str| {
        let file = setup(
            LATHE,
            &format!(r#""designation": "M10", "length": "20 mm", "class": "6g"{over}"#),
        )
        .replace(r#""drills""#, r#""wires": ["0.9 mm"], "drills""#);
        let read = read_file(&file).unwrap();
        say(&list_of(&read), "Measure")
    };
    // The limits are 10.265 to 10.397, the middle 10.331; a line of 0.02 mm takes 0.04 off.
    // By hand: 0.269 over the middle is 6.7 lines: 6, which leaves 10.36.
    let more = wires(r#", "over_wires": "10.6 mm""#);
    assert!(
        more.contains("10.6 mm measured, 10.397 mm at most: 6 lines of the dial deeper"),
        "{more}"
    );
    let just = wires(r#", "over_wires": "10.4 mm""#);
    assert!(just.contains("1 line of the dial deeper"), "{just}");
    let within = wires(r#", "over_wires": "10.3 mm""#);
    assert!(within.contains("10.3 mm measured: within its limits. Done."), "{within}");
    let under = wires(r#", "over_wires": "10.2 mm""#);
    assert!(under.contains("0.065 mm under its least"), "{under}");
}

#[test]
fn the_shake_that_is_there_says_how_many_lines_bring_the_one_wanted() {
    let shake = |now: &str| {
        let thread = format!(
            r#""designation": "M10", "length": "20 mm", "to": "nut-in-hand", "shake": "0.1 mm"{now}"#
        );
        say(&solve(LATHE, &thread), "To the nut")
    };
    // 2 tan 30° of a line of 0.02 mm is 0.0231 mm of shake: 0.07 wanted is three lines and a bit.
    let more = shake(r#", "shake_now": "0.03 mm""#);
    assert!(more.contains("0.03 mm of shake, 0.1 mm wanted: 3 lines deeper"), "{more}");
    let done = shake(r#", "shake_now": "0.09 mm""#);
    assert!(done.contains("no line more. Done."), "{done}");
}

/// The first answer of a setup.
fn list_of(read: &latheside_core::setup::Setup) -> Node {
    let all = answers(read);
    list(&all, "answers").first().expect("one answer").clone()
}
