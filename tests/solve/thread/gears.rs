//! Trains from the drawer: found, judged, mounted.

use super::*;

#[test]
fn the_books_own_trains_are_found_and_exact() {
    // Leadscrew, thread, gears owned, pairs at most, train, source.
    type Row = (&'static str, &'static str, &'static str, u32, &'static [(u32, u32)], &'static str);
    #[rustfmt::skip]
    let rows: &[Row] = &[
        ("6 tpi", "9 tpi", "24, 36, 40", 1, &[(24, 36)], JONES),
        ("6 tpi", "10 tpi", BY_4, 1, &[(24, 40)], JONES),
        ("6 tpi", "24 tpi", BY_5, 2, &[(40, 80), (30, 60)], JONES),
        ("8 tpi", "1 3/4 tpi", "28, 36, 64, 72", 2, &[(72, 36), (64, 28)], JONES),
        ("8 tpi", "3/8 in", "36, 64, 72, 96", 2, &[(72, 36), (96, 64)], JONES),
        ("6 tpi", "3 mm", "90, 100, 127", 1, &[(90, 127)], JONES),
        ("2 tpi", "8 tpi", "20, 80, 120, 30, 160, 40", 1, &[(20, 80)], USES),
        ("2 tpi", "8 tpi", "20, 80, 120, 30, 160, 40", 1, &[(30, 120)], USES),
        ("2 tpi", "8 tpi", "20, 80, 120, 30, 160, 40", 1, &[(40, 160)], USES),
        ("2 tpi", "10 tpi", "10, 50", 1, &[(10, 50)], USES),
        ("2 tpi", "5 tpi", "20, 25, 10, 20", 2, &[(20, 25), (10, 20)], USES),
        ("4 tpi", "11 tpi", "48, 18, 36, 66", 2, &[(48, 36), (18, 66)], ROSE),
        ("3 tpi", "16 tpi", "15, 80", 1, &[(15, 80)], ROSE),
        ("3 tpi", "17 tpi", "18, 102", 1, &[(18, 102)], ROSE),
        ("5 tpi", "16 tpi", "20, 64", 1, &[(20, 64)], ROSE),
        ("1 tpi", "7 tpi", "20, 140", 1, &[(20, 140)], WHEELS),
        ("2 tpi", "4 tpi", "20, 40", 1, &[(20, 40)], SIMPLE),
        ("2 tpi", "1 1/2 tpi", "20, 15, 40, 30", 1, &[(20, 15)], SIMPLE),
        ("2 tpi", "1 1/2 tpi", "20, 15, 40, 30", 1, &[(40, 30)], SIMPLE),
        ("4 tpi", "16 tpi", "36, 48, 24, 72", 2, &[(36, 48), (24, 72)], WORK),
        ("4 tpi", "1 tpi", "36, 48, 24, 72", 2, &[(72, 24), (48, 36)], WORK),
        ("4 tpi", "3 mm", "60, 127", 1, &[(60, 127)], FRACTIONS),
        ("5 mm", "8 tpi", "127, 200", 1, &[(127, 200)], FRACTIONS),
        ("8 tpi", "40 tpi", "20, 30, 40, 40, 50, 60", 3, &[(20, 60), (30, 50), (40, 40)], FRACTIONS),
        ("6 mm", "0.05 mm", "20, 20, 25, 100, 100, 120", 3, &[(20, 100), (25, 120), (20, 100)], FRACTIONS),
    ];
    for (screw, lead, gears, pairs_max, train, source) in rows {
        let lathe = format!(
            r#""leadscrew": "{screw}", "change_gears": [{gears}], "pairs_max": {pairs_max}"#
        );
        let answer = solve(&lathe, &format!(r#""lead": "{lead}""#));
        let wanted = selection(train);
        let found = list(&answer, "trains")
            .iter()
            .find(|found| selection(&pairs(found)) == wanted)
            .unwrap_or_else(|| panic!("{lead} on {screw}: {train:?}: {source}"));
        assert_eq!(found.get("exact"), Some(&Node::Flag(true)), "{lead} on {screw}: {source}");
        assert_eq!(number(found, "error_ppm"), 0.0, "{lead} on {screw}: {source}");
        assert_eq!(text(found, "lead"), text(&answer, "lead"), "{lead} on {screw}: {source}");
    }
}

#[test]
fn rules_of_the_books_about_gears() {
    let ppm = |lathe: &str, lead: &str| {
        number(&solve(lathe, &format!(r#""lead": "{lead}""#)), "selections.all.least_error_ppm")
    };
    let one = |screw: &str, gears: &str| {
        format!(r#""leadscrew": "{screw}", "change_gears": [{gears}], "pairs_max": 1"#)
    };
    // 83/84 put into a train for 0.200 in cuts 0.19762 in.
    let answer = solve(&one("0.2 in", "83, 84"), r#""lead": "0.2 in""#);
    let cut = list(&answer, "trains").iter().find(|train| pairs(train) == [(83, 84)]).unwrap();
    let inches = 0.2 * (1.0 + number(cut, "error_ppm") / 1e6);
    assert!((inches - 0.19762).abs() < 1e-5, "{inches}: {JONES} p. 167");
    // Transposing: 120/127 on 8 tpi is 3 mm; n × c × 5 against 127 the other way about.
    assert_eq!(ppm(&one("8 tpi", "120, 127"), "3 mm"), 0.0, "0.125 in × 120/127 = 3 mm");
    for (screw, tpi, driven) in [("3 mm", 8, 120), ("1.5 mm", 16, 120), ("2 mm", 10, 100)] {
        let answer =
            solve(&one(screw, &format!("127, {driven}")), &format!(r#""lead": "{tpi} tpi""#));
        assert_eq!(
            pairs(at(&answer, "trains.0").unwrap()),
            [(127, driven)],
            "n × c × 5: {JONES} p. 172"
        );
        assert_eq!(at(&answer, "trains.0.exact"), Some(&Node::Flag(true)), "{JONES} p. 172");
    }
    // A 21 and multiples for metric on 16 tpi: 125 ppm long.
    for (lead, gears, cut) in
        [("1 mm", "21, 60, 50, 40", 1.000_125), ("1.25 mm", "21, 30, 40, 20", 1.250_156)]
    {
        let lathe = format!(r#""leadscrew": "16 tpi", "change_gears": [{gears}], "pairs_max": 2"#);
        let mm: f64 = lead.trim_end_matches(" mm").parse().unwrap();
        let found = mm * (1.0 + ppm(&lathe, lead) / 1e6);
        assert!((found - cut).abs() < 1e-6, "{lead}: {found}: arithmetic");
    }
    // The two drivers, or the two driven, may change places: one selection, not two.
    let answer = solve(
        r#""leadscrew": "8 tpi", "change_gears": [28, 36, 64, 72], "pairs_max": 2"#,
        r#""lead": "1 3/4 tpi""#,
    );
    assert_eq!(number(&answer, "selections.all.count"), 1.0, "{JONES} p. 171");
    // A spindle not 1:1 to the stud: the lathe's own constant takes the leadscrew's place.
    let answer = solve(
        r#""leadscrew": "4 tpi", "before_train": "1/2", "change_gears": [24, 36], "pairs_max": 1"#,
        r#""lead": "12 tpi""#,
    );
    assert_eq!(pairs(at(&answer, "trains.0").unwrap()), [(24, 36)], "constant 8: {JONES} p. 170");
    assert_eq!(
        at(&answer, "trains.0.exact"),
        Some(&Node::Flag(true)),
        "constant 8: {JONES} p. 170"
    );
    // 20 on the stud and 95 on the screw cut 19 tpi: a screw of 4.
    assert_eq!(ppm(&one("4 tpi", "20, 95"), "19 tpi"), 0.0, "{JONES} p. 173");
    // A lead of 2 in from a screw of 20: 40 turns of the screw for one of the work.
    assert_eq!(
        text(&solve(r#""leadscrew": "20 tpi""#, r#""lead": "2 in""#), "ratio"),
        "40/1",
        "{USES}"
    );
}

#[test]
fn what_no_gears_can_do_is_not_called_exact() {
    // 18/23 needs a 23, 46, 69 ...
    let lathe = r#""leadscrew": "1.8 tpi", "change_gears": [20, 25, 26, 30, 35, 40, 45, 50], "pairs_max": 2"#;
    let answer = solve(lathe, r#""lead": "2.3 tpi""#);
    assert_eq!(text(&answer, "ratio"), "18/23", "{SIMPLE}");
    for train in list(&answer, "trains") {
        assert_eq!(train.get("exact"), Some(&Node::Flag(false)), "{SIMPLE}");
    }
    // A gear owned once is on one side only.
    let lathe = r#""leadscrew": "8 tpi", "change_gears": [20, 30, 40, 50, 60], "pairs_max": 3"#;
    let answer = solve(lathe, r#""lead": "40 tpi""#);
    for train in list(&answer, "trains") {
        let mut gears: Vec<u32> = pairs(train).iter().flat_map(|(a, b)| [*a, *b]).collect();
        let all = gears.len();
        gears.sort_unstable();
        gears.dedup();
        assert_eq!(gears.len(), all, "{train:?}");
    }
}

#[test]
fn ratios_between_the_two_systems() {
    let rows = [
        ("8 tpi", "1/2 mm", "20/127"),
        ("8 tpi", "7/10 mm", "28/127"),
        ("8 tpi", "3/4 mm", "30/127"),
        ("8 tpi", "1 mm", "40/127"),
        ("8 tpi", "3/2 mm", "60/127"),
        ("8 tpi", "7/4 mm", "70/127"),
        ("8 tpi", "2 mm", "80/127"),
        ("8 tpi", "5/2 mm", "100/127"),
        ("8 tpi", "3 mm", "120/127"),
        ("1.5 mm", "10 tpi", "127/75"),
        ("1.5 mm", "11 tpi", "254/165"),
        ("1.5 mm", "12 tpi", "127/90"),
        ("1.5 mm", "14 tpi", "127/105"),
        ("1.5 mm", "18 tpi", "127/135"),
        ("1.5 mm", "19 tpi", "254/285"),
        ("1.5 mm", "20 tpi", "127/150"),
        ("1.5 mm", "24 tpi", "127/180"),
        ("1.5 mm", "26 tpi", "127/195"),
        ("1.5 mm", "28 tpi", "127/210"),
        ("1.5 mm", "40 tpi", "127/300"),
    ];
    for (screw, lead, ratio) in rows {
        let lathe = format!(r#""leadscrew": "{screw}""#);
        let answer = solve(&lathe, &format!(r#""lead": "{lead}""#));
        assert_eq!(text(&answer, "ratio"), ratio, "{lead} on {screw}: {FRACTIONS}");
        assert_eq!(lacks(&answer, "trains").as_deref(), Some("shop.lathe.change_gears"));
    }
    // And without a 127: 63/80 for 100/127, or 37/47.
    for (lead, gears, ppm) in [
        ("3 mm", "63, 80, 120, 100", 125.0),
        ("3 mm", "47, 37, 60, 50", -212.8),
        ("2 mm", "63, 100", 125.0),
        ("2.5 mm", "63, 80", 125.0),
        ("2.5 mm", "37, 47", -212.8),
    ] {
        let lathe = format!(r#""leadscrew": "8 tpi", "change_gears": [{gears}]"#);
        let answer = solve(&lathe, &format!(r#""lead": "{lead}""#));
        let best = number(&answer, "selections.all.least_error_ppm");
        assert!((best - ppm).abs() < 0.05, "{lead}: {best}, not {ppm}: {FRACTIONS}");
    }
}

#[test]
fn errors_in_the_words_of_the_bench() {
    let rows = [
        (
            "8 tpi",
            "2.5 mm",
            "63, 80",
            "0.04 mm long in 300 · banjo not measured",
            "+0.0375 mm in 300",
        ),
        (
            "8 tpi",
            "2.5 mm",
            "26, 33",
            "0.18 mm long in 300 · banjo not measured",
            "+0.1818 mm in 300",
        ),
        (
            "8 tpi",
            "2.5 mm",
            "48, 61",
            "0.2 mm short in 300 · banjo not measured",
            "-0.1967 mm in 300",
        ),
        ("8 tpi", "2.5 mm", "100, 127", "exact · banjo not measured", "+0.0000 mm in 300"),
        // 47/37 for 1.27 is +212.81 ppm: 2.55 thou in a foot.
        ("1 mm", "20 tpi", "47, 37", "2.6 thou long in 12 in · banjo not measured", "+212.81 ppm"),
        // 355/113 for π is +0.085 ppm: a fortieth of a micrometre in 300 mm.
        (
            "1 mm",
            "1 pi mm",
            "355, 113",
            "within 0.001 mm in 300 · banjo not measured",
            "+0.085 ppm",
        ),
    ];
    for (screw, lead, gears, said, source) in rows {
        let lathe = format!(r#""leadscrew": "{screw}", "change_gears": [{gears}], "pairs_max": 1"#);
        let read = read_file(&setup(&lathe, &format!(r#""lead": "{lead}""#))).unwrap();
        let card = card(&read);
        assert_eq!(card.verdict.unwrap().1, said, "{source}: {FRACTIONS}");
    }
    // A thread longer than that is told over its own length: 125 ppm of 800 mm is 0.1 mm.
    let lathe = r#""leadscrew": "8 tpi", "change_gears": [63, 80], "pairs_max": 1"#;
    let read = read_file(&setup(lathe, r#""lead": "2.5 mm", "length": "800 mm""#)).unwrap();
    assert!(card(&read).verdict.unwrap().1.starts_with("0.1 mm long in 800 mm"));
    // It is said to go on where something is known of what goes on: by each of the three.
    for (known, said) in [
        (r#""stud_clearance_teeth": 0"#, "goes on this banjo · exact"),
        (r#""centres_teeth": [100, 300]"#, "goes on this banjo · exact"),
        (
            r#""banjo": {"module": "1 mm", "centres": "150 mm", "slot": ["40 mm", "140 mm"], "boss_radius": "5 mm"}"#,
            "goes on this banjo · exact",
        ),
        (r#""banjo": {"module": "1 mm"}"#, "exact · banjo not measured"),
        (r#""tumbler": true"#, "exact · banjo not measured"),
    ] {
        let gears = r#""leadscrew": "8 tpi", "change_gears": [45, 60, 100, 127], "pairs_max": 1"#;
        let file = setup(&format!("{gears}, {known}"), r#""lead": "2.5 mm""#);
        assert_eq!(card(&read_file(&file).unwrap()).verdict.unwrap().1, said, "{known}");
    }
}

#[test]
fn leads_with_pi_in_them() {
    // (screw, thread, ratio, gears, error in ppm)
    let rows = [
        ("3 mm", "module 0.5", "1/6 pi", "11, 21", 402.5),
        ("3 mm", "module 1", "1/3 pi", "22, 21", 402.5),
        ("3 mm", "module 1.25", "5/12 pi", "55, 42", 402.5),
        ("3 mm", "module 1.5", "1/2 pi", "11, 7", 402.5),
        ("3 mm", "module 2", "2/3 pi", "44, 21", 402.5),
        ("8 tpi", "DP 10", "4/5 pi", "88, 35", 402.5),
        ("8 tpi", "DP 10", "4/5 pi", "284, 113", 0.085),
        ("8 tpi", "DP 16", "1/2 pi", "355, 226", 0.085),
        ("8 tpi", "DP 32", "1/4 pi", "355, 452", 0.085),
    ];
    for (screw, thread, ratio, gears, ppm) in rows {
        let lathe = format!(r#""leadscrew": "{screw}", "change_gears": [{gears}], "pairs_max": 1"#);
        let answer = solve(&lathe, &format!(r#""designation": "{thread}""#));
        assert_eq!(text(&answer, "ratio"), ratio, "{thread} on {screw}: {FRACTIONS}");
        let best = list(&answer, "trains")
            .iter()
            .map(|train| number(train, "error_ppm"))
            .fold(f64::MAX, |least, one| if one.abs() < least.abs() { one } else { least });
        assert!((best - ppm).abs() < 0.05, "{thread} on {screw}: {best}, not {ppm}: {FRACTIONS}");
        for train in list(&answer, "trains") {
            assert_eq!(train.get("exact"), Some(&Node::Flag(false)), "{thread}");
        }
    }
    let answer = solve(r#""leadscrew": "3 mm""#, r#""designation": "module 1.25, 2 starts""#);
    assert_eq!(text(&answer, "lead"), "2.5 pi mm");
    // 19 × 21 / 127, +44.446 ppm.
    let lathe = r#""leadscrew": "1 mm", "change_gears": [19, 21, 127, 1], "pairs_max": 2"#;
    let answer = solve(lathe, r#""lead": "1 pi mm""#);
    let ppm = number(&answer, "selections.all.least_error_ppm");
    assert!((ppm - 44.446).abs() < 0.001, "{ppm}: {FRACTIONS}");
}

/// The rule in the shop's own words, for one order of four gears.
fn clears((a, b): (u32, u32), (c, d): (u32, u32), k: u32) -> bool {
    a + b > c + k && c + d > b + k
}

#[test]
fn mountable_is_what_the_clearance_rule_says() {
    assert!(!clears((25, 30), (60, 50), 15), "A+B=55 vs C+15=75: foul: common shop rule");
    let (mut on, mut off, mut edge) = (0, 0, 0);
    let drawers = ["20, 25, 60, 100", "30, 40, 60, 80", "50, 50, 65, 100", "20, 40, 100, 120"];
    // So few gears that every selection is listed, at ever more clearance.
    for (gears, k) in drawers.iter().flat_map(|gears| (15..90).step_by(5).map(move |k| (gears, k)))
    {
        let lathe = format!(
            r#""leadscrew": "3 mm", "change_gears": [{gears}], "stud_clearance_teeth": {k}"#
        );
        let answer = solve(&lathe, r#""lead": "1.25 mm""#);
        for train in list(&answer, "trains") {
            let [one, two] = pairs(train)[..] else { continue };
            let orders = [
                (one, two),
                (two, one),
                ((one.0, two.1), (two.0, one.1)),
                ((two.0, one.1), (one.0, two.1)),
            ];
            if train.get("mountable") == Some(&Node::Flag(true)) {
                on += 1;
                assert!(clears(one, two, k), "{train:?}");
            } else {
                off += 1;
                assert!(!orders.iter().any(|(one, two)| clears(*one, *two, k)), "{train:?}");
                // One tooth less of clearance and it would go on: 115 against 115 fouls.
                edge += u32::from(orders.iter().any(|(one, two)| clears(*one, *two, k - 1)));
            }
        }
    }
    assert!(on > 50 && off > 50 && edge > 2, "{on} {off} {edge}");
}

#[test]
fn a_measured_banjo_decides_alone() {
    // (module, centres, train, lead on a 3 mm screw)
    let rows = [
        ("1 mm", "120 mm", "40, 80, 60, 70", [(40, 80), (60, 70)], "9/7 mm"),
        ("1.25 mm", "150 mm", "40, 100, 40, 60", [(40, 100), (40, 60)], "0.8 mm"),
        ("1 mm", "130 mm", "65, 80, 30, 85", [(65, 80), (30, 85)], "117/136 mm"),
    ];
    for (module, centres, gears, train, lead) in rows {
        let banjo = |slot: &str| {
            format!(
                r#""leadscrew": "3 mm", "change_gears": [{gears}], "stud_clearance_teeth": 999,
                "banjo": {{"module": "{module}", "centres": "{centres}", "slot": {slot}, "boss_radius": "2 mm"}}"#
            )
        };
        let best = |lathe: &str| {
            let answer = solve(lathe, &format!(r#""lead": "{lead}""#));
            let exact = list(&answer, "trains")
                .iter()
                .find(|found| selection(&pairs(found)) == selection(&train))
                .expect("listed")
                .clone();
            exact.get("mountable") == Some(&Node::Flag(true))
        };
        assert!(best(&banjo(r#"["20 mm", "90 mm"]"#)), "{train:?} reaches: {FRACTIONS}");
        assert!(!best(&banjo(r#"["95 mm", "99 mm"]"#)), "{train:?} is out of the slot");
    }
}

#[test]
fn idlers_by_hand() {
    let source = "an even number of meshes turns the last wheel with the first; an idler more reverses (Rose)";
    let solve = |screw_hand: &str, tumbler: &str, thread: &str, gears: &str| {
        let lathe = format!(
            r#""leadscrew": "3 mm", "leadscrew_hand": "{screw_hand}", "change_gears": [{gears}] {tumbler}"#
        );
        let answer = solve(&lathe, thread);
        (at(&answer, "trains.0.idlers").cloned(), lacks(&answer, "idlers"))
    };
    let (pair, two) = ("20, 40", "20, 40, 25, 75");
    let none = r#", "tumbler": false"#;
    let rows = [
        ("right", none, r#""lead": "1.5 mm""#, pair, 1),
        ("right", none, r#""lead": "1.5 mm", "hand": "left""#, pair, 0),
        ("left", none, r#""lead": "1.5 mm""#, pair, 0),
        ("right", none, r#""lead": "0.5 mm""#, two, 0),
        ("right", none, r#""lead": "0.5 mm", "hand": "left""#, two, 1),
        ("right", r#", "tumbler": true"#, r#""lead": "0.5 mm", "hand": "left""#, two, 0),
        ("right", none, r#""designation": "Tr 10 × 1.5 LH""#, pair, 0),
    ];
    for (hand, tumbler, thread, gears, idlers) in rows {
        let (found, lacking) = solve(hand, tumbler, thread, gears);
        assert_eq!(found, Some(Node::Whole(idlers)), "{hand} {thread}: {source}");
        assert_eq!(lacking, None);
    }
    let (found, lacking) = solve("right", "", r#""lead": "1.5 mm""#, pair);
    assert_eq!((found, lacking.as_deref()), (None, Some("shop.lathe.tumbler")));
}

/// Another train of the list is carried out when it is asked for by its number, and stays.
#[test]
fn another_train_is_carried_out_when_it_is_asked_for() {
    let thread = |more: &str| format!(r#""designation": "M10", "length": "20 mm"{more}"#);
    let first = solve(LATHE, &thread(""));
    let third = solve(LATHE, &thread(r#", "train": 3"#));
    assert_eq!(list(&first, "trains"), list(&third, "trains"), "the list stays as it is");
    assert_eq!((number(&first, "train"), number(&third, "train")), (1.0, 3.0));
    let card_of = |more: &str| card(&read_file(&setup(LATHE, &thread(more))).unwrap());
    let (one, three) = (card_of(""), card_of(r#", "train": 3"#));
    assert_ne!(one.lines, three.lines);
    assert_ne!(one.picture, three.picture);
    // The lines, the notes of the others, and the pair mounted at the bench are the third's.
    let pairs = list(&list(&third, "trains")[2], "pairs").to_vec();
    let Some(Picture::Train { pairs: drawn, .. }) = &three.picture else { panic!() };
    assert_eq!(drawn.len(), pairs.len());
    for ((driver, driven), pair) in drawn.iter().zip(&pairs) {
        let Node::List(two) = pair else { panic!() };
        assert_eq!(two[..], [Node::from(u32::from(*driver)), Node::from(u32::from(*driven))]);
    }
    let (driver, driven) = drawn[0];
    let step = list(&third, "steps").iter().find(|step| text(step, "label") == "driver, driven");
    assert_eq!(text(step.unwrap(), "figure"), format!("{driver} → {driven}"));
    assert!(three.others[0].note.starts_with("train 1: "), "{}", three.others[0].note);
    assert!(three.others[2].note.starts_with("train 4: "), "{}", three.others[2].note);
    // What isn't in the list is said, and the first is carried out.
    let none = card_of(r#", "train": 9999"#);
    assert_eq!(none.lines, one.lines);
    let fact = none.facts.iter().find(|fact| fact.label == "train asked for").unwrap();
    assert!(fact.value.starts_with("9999, of "), "{}", fact.value);
}
