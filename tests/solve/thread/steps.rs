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
        r#""lead": "0.75 mm", "length": "12 mm", "diameter": "10 mm", "to": "nut-in-hand""#,
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
        let isolated = "Isolate: the supply off at its switch. Guard open.";
        assert_eq!(first[0].as_text(), Some(isolated));
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
    let answer = solve(LATHE, r#""designation": "M10", "length": "20 mm", "ending": "groove""#);
    let blank = acts(&answer, "The blank").join(" ");
    // Below the root, h3 = 0.613434 P under each side of the middle of the blank's limits.
    let part = |key: &str| {
        let from = blank.find(&format!("\"{key}\":\"")).expect(key) + key.len() + 4;
        let size = blank[from..].split(' ').next().unwrap();
        size.parse::<f64>().unwrap()
    };
    assert!(part("chamfer") < 8.16 && part("groove_diameter") < 8.16, "{blank}");
    assert_eq!((part("groove"), part("groove_at")), (5.25, 20.0), "3.5 × 1.5, where it ends");
    assert_eq!(shown(&answer, "The blank").1, "9.732 to 9.968 mm", "ISO 965-1: M10 6g");
    // Left-handed outside: the groove is where it begins, at the same end, whatever it ends in; from there
    // toward the tailstock.
    let left = solve(LATHE, r#""designation": "M10", "length": "20 mm", "hand": "left""#);
    assert!(acts(&left, "The blank").join(" ").contains(r#""groove_at":"20 mm""#));
    let begins = r#""slide":"carriage","by":"22.625 mm","toward":"headstock""#;
    let cut = r#""do":"feed","slide":"carriage","toward":"tailstock""#;
    assert!(in_order(&acts(&left, "Pass 2"), &[begins, "half-nuts", cut]), "the groove's middle");
}

#[test]
fn a_thread_that_is_there_is_picked_up() {
    let there =
        r#""designation": "M12 × 1.25", "length": "20 mm", "begun": "thread", "to": "nut-in-hand""#;
    let answer = solve(LATHE, there);
    let titles: Vec<&str> = list(&answer, "steps").iter().map(|step| text(step, "title")).collect();
    let place = |title: &str| {
        titles.iter().position(|t| *t == title).unwrap_or_else(|| panic!("{titles:?}: {title}"))
    };
    assert!(!titles.iter().any(|t| *t == "A scratch" || t.starts_with("Pass ")));
    assert!(place("The tool") < place("Pick up the thread"));
    assert!(place("Pick up the thread") < place("A pass in air"));
    assert!(place("A pass in air") < place("Deeper by the line"));
    assert!(place("Deeper by the line") < place("To the nut in hand"));
    let order = [
        "isolate",
        r#""half-nuts","is":"in","at":[1]"#,
        r#""turn-by-hand","what":"lathe-spindle","by":"chuck","way":"forward""#,
        r#""slide":"compound","toward":"in","face":"thread-flank""#,
        r#""slide":"cross","toward":"in","face":"thread-flank""#,
        r#""zero","slide":"cross""#,
        r#""zero","slide":"compound""#,
    ];
    let pick = acts(&answer, "Pick up");
    assert!(in_order(&pick, &order), "{pick:?}");
    // With nothing that repeats they stay closed and the carriage is turned back.
    let two = r#""designation": "Tr 16 × 8 (P4)", "length": "40 mm", "begun": "thread""#;
    let closed = acts(&solve(LATHE, two), "A pass in air");
    let turned = r#""drive-by-hand","what":"lathe-spindle","by":"chuck","way":"back""#;
    assert!(in_order(&closed, &[r#""by":"leadscrew""#, turned]), "{closed:?}");
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
    let read =
        read_file(&setup(LATHE, r#""designation": "M10", "side": "inside", "length": "15 mm""#))
            .unwrap();
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
        list_of(&read_file(&file).unwrap())
    };
    // The limits are 10.265 to 10.397, the middle 10.331; a line of 0.02 mm takes 0.04 off.
    // By hand: 0.269 over the middle is 6.7 lines: 6, which leaves 10.36.
    let deeper = |lines: &str| ("deeper by".to_owned(), lines.to_owned());
    let more = wires(r#", "over_wires": "10.6 mm""#);
    assert_eq!(shown(&more, "Measure"), deeper("6 lines"));
    let last = text(list(&more, "passes").last().unwrap(), "dial").parse::<u32>().unwrap();
    assert_eq!(shown(&more, "What is left").1, (last + 6).to_string(), "six lines on");
    let just = wires(r#", "over_wires": "10.4 mm""#);
    assert_eq!(shown(&just, "Measure"), deeper("1 line"));
    let within = wires(r#", "over_wires": "10.3 mm""#);
    assert!(say(&within, "Measure").contains("Within its limits: done."));
    assert_eq!(shown(&within, "Measure").1, "10.265 to 10.397 mm");
    let under = wires(r#", "over_wires": "10.2 mm""#);
    assert!(say(&under, "Measure").contains("Under its least: no cut brings that back."));
}

#[test]
fn the_shake_that_is_there_says_how_many_lines_bring_the_one_wanted() {
    let shake = |now: &str| {
        let thread = format!(
            r#""designation": "M10", "length": "20 mm", "to": "nut-in-hand", "shake": "0.1 mm"{now}"#
        );
        solve(LATHE, &thread)
    };
    // 2 tan 30° of a line of 0.02 mm is 0.0231 mm of shake: 0.07 wanted is three lines and a bit.
    let more = shake(r#", "shake_now": "0.03 mm""#);
    assert_eq!(shown(&more, "To the nut"), ("deeper by".to_owned(), "3 lines".to_owned()));
    let done = say(&shake(r#", "shake_now": "0.09 mm""#), "To the nut");
    assert!(done.contains("no line more: done."), "{done}");
}

/// The first answer of a setup.
fn list_of(read: &latheside_core::setup::Setup) -> Node {
    let all = answers(read);
    list(&all, "answers").first().expect("one answer").clone()
}
