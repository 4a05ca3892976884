//! A thread from file to answers: gears, sizes, passes, half-nuts, steps.

use latheside_core::operation::{Picture, Span, Tone};
use latheside_core::record::Node;
use latheside_core::setup::{answers, read_file};
use latheside_core::shop::Shop;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;

/// The setup of one thread on one lathe.
fn setup(lathe: &str, thread: &str) -> String {
    format!(
        r#"{{"format": "latheside-setup", "version": 1, "name": "", "note": "",
        "shop": {{"name": "", "lathe": {{{lathe}}}, "drills": ["6.8 mm", "8.5 mm", "1/4 in"]}},
        "operations": [{{"kind": "thread", {thread}}}]}}"#
    )
}

/// Its answer.
fn solve(lathe: &str, thread: &str) -> Node {
    let read = read_file(&setup(lathe, thread)).expect(lathe);
    let Node::List(all) = answers(&read).get("answers").expect("answers").clone() else {
        panic!("no list")
    };
    all.into_iter().next().expect("one answer")
}

/// What stands at a path: `"half_nuts.rule"`, `"trains.0.lead"`.
fn at<'a>(node: &'a Node, path: &str) -> Option<&'a Node> {
    path.split('.').try_fold(node, |node, key| match node {
        Node::List(items) => items.get(key.parse::<usize>().ok()?),
        node => node.get(key),
    })
}

fn number(node: &Node, path: &str) -> f64 {
    match at(node, path) {
        Some(Node::Float(x)) => *x,
        Some(Node::Whole(n)) => *n as f64,
        other => panic!("{path}: {other:?}"),
    }
}

fn text<'a>(node: &'a Node, path: &str) -> &'a str {
    at(node, path).and_then(Node::as_text).unwrap_or_else(|| panic!("{path} in {node:?}"))
}

fn list<'a>(node: &'a Node, path: &str) -> &'a [Node] {
    match at(node, path) {
        Some(Node::List(items)) => items,
        other => panic!("{path}: {other:?}"),
    }
}

fn numbers(node: &Node, path: &str) -> Vec<f64> {
    (0..list(node, path).len()).map(|n| number(node, &format!("{path}.{n}"))).collect()
}

/// A train's pairs.
fn pairs(train: &Node) -> Vec<(u32, u32)> {
    list(train, "pairs")
        .iter()
        .map(|pair| (number(pair, "0") as u32, number(pair, "1") as u32))
        .collect()
}

/// Drivers and driven, whatever their order.
fn selection(pairs: &[(u32, u32)]) -> (Vec<u32>, Vec<u32>) {
    let (mut above, mut below): (Vec<u32>, Vec<u32>) = pairs.iter().copied().unzip();
    above.sort_unstable();
    below.sort_unstable();
    (above, below)
}

fn lacks(answer: &Node, key: &str) -> Option<String> {
    at(answer, "lacking")?;
    let found = list(answer, "lacking").iter().find(|lacking| text(lacking, "key") == key)?;
    Some(text(found, "needs").to_owned())
}

const JONES: &str = "Jones, Turning and Boring (1914, 1919 printing), ch. IV, Gutenberg #34030";
const USES: &str = "The Lathe and Its Uses, screw-cutting sections, Gutenberg #60819";
const WHEELS: &str = "chestofbooks.com, Construction Tools, Selection of Screwing Wheels";
const SIMPLE: &str = "chestofbooks.com, Construction Tools, Selection of Simple-Gear Wheels";
const WORK: &str = "chestofbooks.com, Lathe Operation, Lathe Work part 5, Figs 219-221";
const ROSE: &str = "Rose, Modern Machine-Shop Practice, screw-cutting wheels Figs 1235-1242";
const FRACTIONS: &str = "independent computation with exact fractions";

const BY_4: &str =
    "24, 28, 32, 36, 40, 44, 48, 52, 56, 60, 64, 68, 72, 76, 80, 84, 88, 92, 96, 100";
const BY_5: &str = "30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100";

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
            "goes on this banjo · 0.04 mm long in 300",
            "+0.0375 mm in 300",
        ),
        (
            "8 tpi",
            "2.5 mm",
            "26, 33",
            "goes on this banjo · 0.18 mm long in 300",
            "+0.1818 mm in 300",
        ),
        (
            "8 tpi",
            "2.5 mm",
            "48, 61",
            "goes on this banjo · 0.2 mm short in 300",
            "-0.1967 mm in 300",
        ),
        ("8 tpi", "2.5 mm", "100, 127", "goes on this banjo · exact", "+0.0000 mm in 300"),
        // 47/37 for 1.27 is +212.81 ppm: 2.55 thou in a foot.
        ("1 mm", "20 tpi", "47, 37", "goes on this banjo · 2.6 thou long in 12 in", "+212.81 ppm"),
        // 355/113 for π is +0.085 ppm: a fortieth of a micrometre in 300 mm.
        (
            "1 mm",
            "1 pi mm",
            "355, 113",
            "goes on this banjo · within 0.001 mm in 300",
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
    assert!(card(&read).verdict.unwrap().1.ends_with("0.1 mm long in 800 mm"));
}

fn card(setup: &latheside_core::setup::Setup) -> latheside_core::operation::Card {
    let answer = setup.operations[0].answer(&Shop::new(setup.shop.clone()));
    answer.found.expect("something found").card()
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

/// A small lathe with everything in it.
const LATHE: &str = r#""leadscrew": "3 mm", "leadscrew_hand": "right", "tumbler": true,
    "change_gears": [20, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100, 105, 110, 115, 120],
    "before_train": "1/1", "gearbox": ["1/1"], "pairs_max": 2, "stud_clearance_teeth": 15, "centres_teeth": null,
    "chasing_dials": [{"wheel_teeth": 15, "marks": 5}], "nose": "screwed", "reverse": true, "hand_crank": false,
    "spindle_speeds": [{"rpm": 45, "how": "back gear, belt 1"}, 70, 110],
    "dials": {"cross": {"division": "0.02 mm", "divisions": 125, "reads": "radius", "grows": "inwards"}}"#;

#[test]
fn every_key_of_a_whole_answer() {
    let bsf = r#""designation": "3/8 BSF", "side": "outside", "class": "medium", "length": "22 mm", "engaged": "10 mm", "ending": "groove""#;
    let answer = solve(LATHE, bsf);
    for key in [
        "lead",
        "ratio",
        "trains",
        "selections.all.count",
        "selections.all.least_error_ppm",
        "selections.mountable.count",
        "selections.mountable.least_error_ppm",
        "half_nuts.spacing",
        "half_nuts.rule",
        "half_nuts.marks",
        "depth_mm",
        "pitch_diameter_mm",
        "minor_diameter_mm",
        "limits.major_mm.1",
        "limits.pitch_mm.1",
        "limits.minor_mm.1",
        "tap_drill.drill",
        "tap_drill.percent",
        "wires.best_mm",
        "wires.over_mm.1",
        "helix_deg",
        "lead_error_share",
        "passes.0.dial",
        "passes.0.depth_mm",
        "cautions.0",
        "why.0.source",
        "steps.0.title",
    ] {
        assert!(at(&answer, key).is_some(), "{key}");
    }
    assert!(at(&answer, "lacking").is_none());
    assert_eq!(text(&answer, "lead"), "1.27 mm");
    assert_eq!(list(&answer, "trains").len(), 40);
    for train in list(&answer, "trains") {
        for key in ["pairs", "gearbox", "lead", "error_ppm", "exact", "mountable", "idlers"] {
            assert!(train.get(key).is_some(), "{key}");
        }
        assert_eq!(text(train, "gearbox"), "1/1");
    }
    // Bare leads: what can be said is said, the rest is named.
    let answer = solve(LATHE, r#""lead": "0.75 mm", "length": "12 mm", "to": "nut-in-hand""#);
    assert_eq!(text(&answer, "half_nuts.rule"), "anywhere");
    assert!(list(&answer, "trains").len() == 40 && at(&answer, "depth_mm").is_none());
    for key in ["depth_mm", "limits", "wires", "passes", "lead_error_share"] {
        assert_eq!(lacks(&answer, key).as_deref(), Some("operation.designation"), "{key}");
    }
    // No lathe: sizes still, and what the rest waits for.
    let answer = solve("", r#""designation": "M10", "length": "20 mm""#);
    assert!((number(&answer, "depth_mm") - 0.613_434 * 1.5).abs() < 1e-9, "ISO 68-1");
    for key in ["ratio", "trains", "selections", "half_nuts", "lead_error_share"] {
        assert_eq!(lacks(&answer, key).as_deref(), Some("shop.lathe.leadscrew"), "{key}");
        assert!(at(&answer, key).is_none(), "{key}");
    }
    assert_eq!(lacks(&answer, "passes").as_deref(), Some("shop.lathe.dials.cross"));
}

#[test]
fn sizes_and_limits_as_printed() {
    let source = "ISO 724, ISO 965-2, as seen in threadlib's design/metric_thread.csv";
    let near = |node: &Node, path: &str, value: f64| {
        let found = number(node, path);
        assert!((found - value).abs() < 0.0006, "{path}: {found}, not {value}: {source}");
    };
    let m10 = solve(LATHE, r#""designation": "M10", "length": "20 mm""#);
    near(&m10, "pitch_diameter_mm", 9.026);
    near(&m10, "minor_diameter_mm", 8.160);
    near(&m10, "limits.major_mm.0", 9.732);
    near(&m10, "limits.major_mm.1", 9.968);
    near(&m10, "limits.pitch_mm.0", 8.862);
    near(&m10, "limits.pitch_mm.1", 8.994);
    assert_eq!(text(&m10, "tap_drill.drill"), "8.5 mm", "ISO 2306");
    let percent = 100.0 * 1.5 / (1.299_038 * 1.5);
    assert!((number(&m10, "tap_drill.percent") - percent).abs() < 0.01, "FED-STD-H28/2B 20.2.3");
    // Wires at the limits: the lead angle's share is 10.3266 − 10.3248 at the basic size.
    near(&m10, "wires.best_mm", 0.8660);
    let over = numbers(&m10, "wires.over_mm");
    let pitch = numbers(&m10, "limits.pitch_mm");
    for (over, pitch) in over.iter().zip(&pitch) {
        let plain = 10.3248 + (pitch - 9.0257) + 0.0018;
        assert!((over - plain).abs() < 0.0003, "{over}, not {plain}: Handbook H28's formula");
    }
    let nut = solve(LATHE, r#""designation": "M10", "side": "inside", "length": "20 mm""#);
    near(&nut, "minor_diameter_mm", 8.376);
    near(&nut, "limits.minor_mm.0", 8.376);
    near(&nut, "limits.minor_mm.1", 8.676);
    assert!((number(&nut, "depth_mm") - 0.541_266 * 1.5).abs() < 1e-9, "ISO 68-1");
    assert_eq!(list(&nut, "limits.major_mm").len(), 1, "a nut's outside has no greatest");
    assert!(at(&nut, "wires").is_none() && lacks(&nut, "wires").is_none());
}

#[test]
fn the_lead_error_as_a_share_of_the_tolerance() {
    // 125 ppm over 10 mm, times cot 30°, of M10 6g's 132 µm (ISO 965-1).
    let lathe = r#""leadscrew": "8 tpi", "change_gears": [63, 80, 60, 100], "pairs_max": 2"#;
    let nut = r#""designation": "M10", "length": "25 mm", "engaged": "10 mm""#;
    let answer = solve(lathe, nut);
    assert!((number(&answer, "trains.0.error_ppm") - 125.0).abs() < 1e-9, "{FRACTIONS}");
    let share = 125e-6 * 10.0 * 3f64.sqrt() / 0.132;
    assert!((number(&answer, "lead_error_share") - share).abs() < 1e-6, "ISO 965-1 Td2 132 µm");
    // Without the nut's length its own counts.
    let answer = solve(lathe, r#""designation": "M10", "length": "25 mm""#);
    assert!((number(&answer, "lead_error_share") - share * 2.5).abs() < 1e-6, "arithmetic");
    let read = read_file(&setup(lathe, nut)).unwrap();
    let (tone, said) = card(&read).verdict.unwrap();
    assert_eq!(tone, Tone::Note);
    assert_eq!(
        said,
        "goes on this banjo · 0.04 mm long in 300 · fits a nut of 10 mm: the gears eat 2 % of what 6g allows"
    );
}

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
    assert!(last.say.iter().any(|say| say.contains("then out to *84*, which is 41 back from 0")));
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
fn how_the_carriage_gets_back_with_closed_nuts() {
    let pass = |reverse: &str, nose: &str, crank: &str| {
        let lathe = format!(
            r#""leadscrew": "3 mm", "change_gears": [25, 60], "pairs_max": 1, "reverse": {reverse}, "nose": "{nose}",
            "hand_crank": {crank}, "spindle_speeds": [45, 70, 110], "dials": {{"cross": {{"division": "0.02 mm", "divisions": 125}}}}"#
        );
        let answer =
            solve(&lathe, r#""designation": "M12 × 1.25", "length": "20 mm", "ending": "groove""#);
        // The nuts aren't opened, so there is no time to let go: the slowest, and the spindle stopped.
        assert!(at(&answer, "spindle_rpm").is_none());
        (say(&answer, "Pass 2"), format!("{:?}", answer.get("cautions")))
    };
    let (screwed, cautions) = pass("true", "screwed", "true");
    let order = [
        "Spindle stopped",
        "Tool out, clear",
        "by more than the slack of the gears",
        "past by half a turn",
        "Half-nuts closed",
        "forward at 45 rpm; stop it before the end",
        "Tool out, clear",
        "Reverse, at the slowest speed",
        "Stop.",
    ];
    let mut rest = screwed.as_str();
    for part in order {
        let at = rest.find(part).unwrap_or_else(|| panic!("{part}: {screwed}"));
        rest = &rest[at + part.len()..];
    }
    assert!(cautions.contains("never cut in reverse"), "{cautions}");
    let (locked, cautions) = pass("true", "locked", "false");
    assert!(
        locked.contains("Reverse, slowly") && !cautions.contains("never cut in reverse"),
        "{locked}"
    );
    assert!(
        pass("false", "screwed", "true")
            .0
            .contains("Supply isolated: wind back with the hand crank")
    );
    assert!(
        pass("false", "screwed", "false")
            .0
            .contains("Supply isolated: turn back by hand at the chuck")
    );
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
fn starts_by_the_gears_in_hand_or_by_the_compound() {
    // Six starts of 1 mm on 3: 60 drives 30, and a start is ten teeth of the 60.
    let lathe = |gears: &str, before: &str| {
        format!(
            r#""leadscrew": "3 mm", "before_train": "{before}", "change_gears": [{gears}], "pairs_max": 1,
            "dials": {{"cross": {{"division": "0.02 mm", "divisions": 125}}, "compound": {{"division": "0.02 mm", "divisions": 100}}}}"#
        )
    };
    let figure = |lathe: &str, starts: u32| {
        let answer =
            solve(lathe, &format!(r#""lead": "6 mm", "starts": {starts}, "angle": "60 deg""#));
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
    assert_eq!(figure(&lathe("40, 20", "1/1"), 6), say("compound on by", "50"), "1 mm / 0.02 mm");
}

#[test]
fn what_contradicts_itself_is_refused_in_words() {
    for (thread, said) in [
        (r#""side": "outside""#, "say which thread"),
        (r#""designation": "M10 by lunchtime""#, "by"),
        (r#""designation": "Tr 16 × 4 LH", "hand": "right""#, "the name says left-hand"),
        (r#""designation": "module 1, 2 starts", "starts": 3"#, "the name says 2 starts"),
    ] {
        let answer = solve(LATHE, thread);
        assert!(text(&answer, "refused").contains(said), "{answer:?}");
    }
    // A class that isn't one takes the limits away, not the rest.
    for class in ["6x", "2A", "6H"] {
        let answer = solve(LATHE, &format!(r#""designation": "M10", "class": "{class}""#));
        assert!(at(&answer, "limits").is_none() && at(&answer, "depth_mm").is_some(), "{class}");
        assert_eq!(lacks(&answer, "limits").as_deref(), Some("operation.class"), "{class}");
    }
}

#[test]
fn suggestions_for_the_blanks() {
    let read = read_file(&setup(LATHE, r#""designation": "M10""#)).unwrap();
    let shop = Shop::new(read.shop.clone());
    let suggest = |key, text| read.operations[0].suggest(key, text, &shop);
    assert_eq!(suggest("designation", "M10x1.25")[0], "M10 × 1.25");
    assert!(suggest("class", "").contains(&"6g".to_owned()));
    assert_eq!(suggest("class", "me"), ["medium"]);
    assert_eq!(suggest("to", "")[0], "nut-in-hand");
    assert_eq!(suggest("to", "ni"), [""; 0]);
    assert!(suggest("ending", "").is_empty());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]
    /// Whatever the file lets through gets an answer: no panic, no size below nothing, no null, and
    /// every train within what is owned.
    #[test]
    fn nothing_upsets_it(
        screw in select(LEADS), lead in select(LEADS), name in select(NAMES), by_lead in any::<bool>(),
        gears in vec(1u32..1000, 0..8), pairs_max in 1u32..4, clearance in select(&[0u32, 15, 999][..]),
        before in select(&["1/1", "999999/1", "1/999999"][..]), starts in select(&[1u32, 2, 99][..]),
        division in select(&["0.02 mm", "0.000001 mm", "1000000 mm", "1/64 in"][..]),
        side in select(&["inside", "outside"][..]), diameter in select(&["", "0.000001 mm", "1000000 mm", "20 mm"][..]),
        dial in (1u32..1000, 1u32..100), more in select(MORE),
    ) {
        let thread = if by_lead { format!(r#""lead": "{lead}""#) } else { format!(r#""designation": "{name}""#) };
        let diameter = if diameter.is_empty() { String::new() } else { format!(r#", "diameter": "{diameter}""#) };
        let lathe = format!(
            r#""leadscrew": "{screw}", "change_gears": {gears:?}, "pairs_max": {pairs_max}, "before_train": "{before}",
            "stud_clearance_teeth": {clearance}, "chasing_dials": [{{"wheel_teeth": {}, "marks": {}}}],
            "spindle_speeds": [50, 70], "dials": {{"cross": {{"division": "{division}", "divisions": 100}},
            "compound": {{"division": "{division}"}}}}"#, dial.0, dial.1
        );
        let thread = format!(r#"{thread}, "side": "{side}", "starts": {starts}{diameter}, "length": "20 mm"{more}"#);
        let answer = solve(&lathe, &thread);
        let whole = format!("{answer:?}");
        prop_assert!(!whole.contains("Null") && !whole.contains("NaN") && !whole.contains("inf)"));
        for key in ["depth_mm", "pitch_diameter_mm", "minor_diameter_mm", "helix_deg", "wires.best_mm"] {
            prop_assert!(at(&answer, key).is_none() || number(&answer, key) > 0.0, "{key}");
        }
        if at(&answer, "trains").is_some() {
            for train in list(&answer, "trains") {
                for (driver, driven) in pairs(train) {
                    prop_assert!(gears.contains(&driver) && gears.contains(&driven));
                }
            }
        }
    }
}

const MORE: &[&str] = &[
    "",
    r#", "infeed": "flank", "set_over": "0 deg", "ending": "groove""#,
    r#", "infeed": "flank", "set_over": "90 deg", "ending": "shoulder""#,
    r#", "infeed": "alternating", "passes": 999, "least_cut": "0.000001 mm", "springs": 20"#,
    r#", "radius": "0 mm", "ending": "groove", "groove": "0.000001 mm""#,
    r#", "radius": "1000000 mm", "begun": "thread""#,
    r#", "angle": "10 deg", "sharing": "depth", "to": "nut-in-hand", "shake": "1000000 mm""#,
    r#", "angle": "150 deg", "begun": "thread", "to": "nut-in-hand""#,
];

const LEADS: &[&str] = &[
    "3 mm",
    "8 tpi",
    "0.000001 mm",
    "1000000 mm",
    "1 pi mm",
    "999999.999999 mm",
    "13/127 in",
    "11 1/2 tpi",
];

const NAMES: &[&str] = &[
    "M10",
    "M10 × Ph3 P1.5",
    "1/4-20 UNC-2A",
    "G 1/4",
    "Tr 16 × 4 LH",
    "module 0.000001",
    "DP 999999",
    "16 BA",
    "1/2-10 stub Acme",
    "8 tpi",
    "M999999 x 0.000001",
    "",
];

/// A lathe with both dials, wires and speeds, and its thread.
fn solve_with(more: &str, thread: &str) -> Node {
    let file = setup(&format!("{LATHE}{more}"), thread);
    let file = file.replace(r#""drills""#, r#""wires": ["0.5 mm", "0.9 mm", "2 mm"], "drills""#);
    let Node::List(all) = answers(&read_file(&file).expect(thread)).get("answers").unwrap().clone()
    else {
        panic!("no list")
    };
    all.into_iter().next().expect("one answer")
}

/// What a step says, by the beginning of its title.
fn say(answer: &Node, title: &str) -> String {
    let step = list(answer, "steps")
        .iter()
        .find(|step| text(step, "title").starts_with(title))
        .unwrap_or_else(|| panic!("no step {title}"));
    let lines: Vec<&str> = list(step, "say").iter().filter_map(Node::as_text).collect();
    lines.join(" ")
}

fn fact(lathe: &str, thread: &str, label: &str) -> Option<String> {
    let read = read_file(&setup(lathe, thread)).unwrap();
    card(&read).facts.into_iter().find(|fact| fact.label.starts_with(label)).map(|fact| fact.value)
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
        let pass = say(&answer, "Pass 2");
        if f64::from(rpm) <= most {
            assert!(pass.contains(&format!("forward at {rpm} rpm")), "{pass}");
        } else {
            assert!(pass.contains("by hand at the chuck"), "{pass}");
            assert!(format!("{:?}", answer.get("cautions")).contains("no time to let go"));
        }
        // The scratch is at the slowest, whatever the passes are run at.
        assert!(say(&answer, "A scratch").contains("forward at 45 rpm, back gear, belt 1. Close"));
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

const BOTH: &str = r#""dials": {"cross": {"division": "0.02 mm", "divisions": 125, "reads": "radius", "grows": "inwards"},
    "compound": {"division": "0.02 mm", "divisions": 100}}"#;

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
    assert!(say(&flank, "The tool").contains("29.5° from the cross slide's direction, 60.5° from"));
    assert!(say(&flank, "Pass 2").contains("Cross slide in again to 0"));
    assert!(say(&flank, "Measure").contains("by the cross slide, straight in"), "{source}");
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
    assert!(say(&turns, "The tool").contains("Compound parallel to the work"));
    assert!(say(&turns, "Pass 2").contains("then towards the headstock to "));
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
fn the_tool_its_flat_and_its_sides() {
    let m10 = solve(LATHE, r#""designation": "M10", "length": "20 mm""#);
    // 17/24 H deep between flanks that meet 1/8 H below the pitch cylinder's basic triangle: P/6.
    assert!((number(&m10, "tool.flat_mm") - 0.25).abs() < 1e-5, "ISO 68-1: H/6 radius, P/6 flat");
    // Helix at the root and at the crest by tan φ = lead ÷ πd, 3° clear on either side.
    let helix = |d: f64| (1.5 / (std::f64::consts::PI * d)).atan().to_degrees();
    assert!((number(&m10, "tool.leading_deg") - (helix(8.159_698) + 3.0)).abs() < 1e-6, "geometry");
    assert!((number(&m10, "tool.trailing_deg") - (3.0 - helix(10.0))).abs() < 1e-6, "geometry");
    assert_eq!(
        fact(LATHE, r#""designation": "M10""#, "tool").as_deref(),
        Some("60°, flat 0.250 mm, sides 6.3° and 0.3° under")
    );
    // A sharp tool goes 7/8 H deep, the form's own radius H/6 as deep as the form.
    let sharp = solve(LATHE, r#""designation": "M10", "radius": "0 mm""#);
    let h = 1.5 * 3f64.sqrt() / 2.0;
    assert!((number(&sharp, "depth_mm") - 7.0 / 8.0 * h).abs() < 1e-5, "ISO 68-1: 7/8 H");
    assert_eq!(text(list(&sharp, "passes").last().unwrap(), "dial"), "57", "1.137 / 0.02");
    let own = solve(LATHE, r#""designation": "M10", "radius": "0.216507 mm""#);
    assert!((number(&own, "depth_mm") - 0.613_434 * 1.5).abs() < 1e-5, "ISO 68-1: 17/24 H");
    for (thread, said) in [
        (r#""designation": "M10", "radius": "3 mm""#, "too large"),
        (r#""designation": "Tr 16 × 4", "radius": "0.1 mm""#, "leave the nose radius out"),
        (r#""designation": "M10", "angle": "55 deg""#, "flanks at 60°, and the entry says 55 deg"),
        (r#""lead": "2 mm", "angle": "5 deg""#, "10 to 150"),
    ] {
        assert!(text(&solve(LATHE, thread), "refused").contains(said), "{thread}");
    }
    // A bare lead with flanks of one's own choice: a sharp V, P ÷ 2 tan α.
    let vee = solve(LATHE, r#""lead": "2 mm", "angle": "90 deg", "diameter": "20 mm""#);
    assert!((number(&vee, "depth_mm") - 1.0).abs() < 1e-6, "geometry of a right-angled V");
    let sixty = solve(LATHE, r#""lead": "1.5 mm", "angle": "60 deg""#);
    assert!((number(&sixty, "depth_mm") - 0.613_434 * 1.5).abs() < 1e-9, "ISO 68-1");
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
fn wires_that_are_owned() {
    // 0.5 mm falls between the crests of M10, 2 mm stands on them: 0.9 mm it is.
    let m10 = solve_with("", r#""designation": "M10", "length": "20 mm""#);
    assert_eq!(text(&m10, "wires.owned"), "0.9 mm");
    let fit = numbers(&m10, "wires.fit_mm");
    assert!(
        (fit[0] - 0.505 * 1.5).abs() < 0.001 && (fit[1] - 1.010 * 1.5).abs() < 0.001,
        "{fit:?}: 0.505 P to 1.010 P"
    );
    let (best, over) = (numbers(&m10, "wires.over_mm"), numbers(&m10, "wires.over_owned_mm"));
    // M grows by 1 + 1/sin 30° = 3 for each mm of wire (the lead angle's share by 2 %).
    for (best, over) in best.iter().zip(&over) {
        let grown = over - best - 3.0 * (0.9 - 0.866_025);
        assert!(grown.abs() < 0.0002, "{grown}: Handbook H28's formula");
    }
    let measure = say(&m10, "Measure");
    assert!(
        measure.contains("three wires of 0.9 mm: 10.265 to 10.397 mm")
            && measure.contains("one wire")
    );
    // None fits: said on the card, and the best is taken.
    let file = setup(LATHE, r#""designation": "M20", "length": "20 mm""#)
        .replace(r#""drills""#, r#""wires": ["0.5 mm"], "drills""#);
    let card = card(&read_file(&file).unwrap());
    let fact = card.facts.iter().find(|fact| fact.label == "over wires of 1.443 mm").unwrap();
    assert!(
        fact.value.contains("of yours none fits: they may be 1.263 to 2.526 mm"),
        "{}",
        fact.value
    );
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
            fact(&lathe, r#""lead": "2.5 mm""#, "nearest other"),
        )
    };
    let (rule, off) = dial(63, 3);
    assert_eq!(rule.as_deref(), Some("always the same mark"));
    // A third of 63 threads is 26 2/3 turns: a third of 2.5003 mm off either way.
    assert_eq!(off.as_deref(), Some("mark 2 by 833 µm"), "arithmetic");
    // An exact train: no offsets.
    let lathe = r#""leadscrew": "3 mm", "change_gears": [25, 60], "pairs_max": 1, "chasing_dials": [{"wheel_teeth": 15, "marks": 5}]"#;
    assert_eq!(fact(lathe, r#""lead": "1.25 mm""#, "nearest other"), None);
    // No dial at all.
    let none = fact(r#""leadscrew": "3 mm""#, r#""lead": "1.25 mm""#, "half-nuts").unwrap();
    assert!(none.starts_with("no dial: keep closed, run back; or a carriage stop"), "{none}");
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
fn to_the_nut_by_the_line() {
    // 0.02 mm of infeed: 0.023 of shake and 0.04 off the pitch diameter at 60°; 0.05 wants two lines.
    let answer = solve(LATHE, r#""designation": "M12", "to": "nut-in-hand", "shake": "0.05 mm""#);
    let nut = say(&answer, "To the nut in hand");
    assert!(
        nut.contains("adds 0.023 mm of end shake and takes 0.040 mm off the pitch diameter"),
        "2 and 1.155 for each 1 of infeed: {nut}"
    );
    assert!(
        nut.contains("For 0.05 mm of shake, by an indicator") && nut.contains("at most 2 lines"),
        "{nut}"
    );
}

#[test]
fn the_next_drills_up_and_down() {
    // 6.8, 8.5 and 1/4 in owned. Percent by FED-STD-H28: (10 − d) ÷ (1.299038 × 1.5).
    let answer = solve(LATHE, r#""designation": "M10""#);
    let beside = list(&answer, "tap_drill.beside");
    assert_eq!(beside.len(), 1, "nothing over 8.5 is owned");
    assert_eq!(text(&beside[0], "drill"), "6.8 mm");
    assert!(
        (number(&beside[0], "percent") - 320.0 / (1.299_038 * 1.5)).abs() < 0.01,
        "FED-STD-H28/2B 20.2.3"
    );
    let nut = fact(LATHE, r#""designation": "M10", "side": "inside""#, "tapping drill").unwrap();
    assert!(nut.starts_with("8.5 mm, 77 % of thread (of 3/4 H); 6.8 mm, 164 %"), "{nut}");
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
fn classes_of_the_threads_own() {
    for (thread, first, not) in [
        (r#""designation": "M10""#, "6g", "2A"),
        (r#""designation": "M10", "side": "inside""#, "6H", "6g"),
        (r#""designation": "1/4-20 UNC""#, "2A", "6g"),
        (r#""designation": "3/8 BSF""#, "medium", "2A"),
        (r#""designation": "Tr 16 × 4""#, "7e", "6g"),
        (r#""designation": "1/2-10 Acme""#, "2G", "A"),
    ] {
        let read = read_file(&setup(LATHE, thread)).unwrap();
        let shop = Shop::new(read.shop.clone());
        let found = read.operations[0].suggest("class", "", &shop);
        assert_eq!(found.first().map(String::as_str), Some(first), "{thread}: {found:?}");
        assert!(!found.iter().any(|class| class == not), "{thread}: {found:?}");
        // Each of them has limits.
        for class in found {
            let answer = solve(LATHE, &format!(r#"{thread}, "class": "{class}""#));
            assert!(at(&answer, "limits").is_some(), "{thread} {class}");
        }
    }
}

#[test]
fn what_thread_is_this() {
    let ask = |entries: &str| {
        let file = format!(
            r#"{{"format": "latheside-setup", "version": 1, "name": "", "note": "", "shop": {{"name": ""}},
            "operations": [{{"kind": "which-thread", {entries}}}]}}"#
        );
        read_file(&file).unwrap()
    };
    let answer = |entries: &str| {
        let Node::List(all) = answers(&ask(entries)).get("answers").unwrap().clone() else {
            panic!()
        };
        all.into_iter().next().unwrap()
    };
    let m10 = answer(r#""diameter": "9.85 mm", "spaces": 10, "over": "15 mm""#);
    assert_eq!(text(&m10, "candidates.0.thread"), "M10");
    assert!((number(&m10, "candidates.0.diameter_off_mm") + 0.15).abs() < 1e-9, "arithmetic");
    assert!(number(&m10, "candidates.0.length_off_mm").abs() < 1e-9, "arithmetic");
    let card = card(&ask(r#""diameter": "9.85 mm", "spaces": 10, "over": "15 mm""#));
    assert_eq!(card.verdict.unwrap().1, "outside 0.15 mm under, 10 spaces right");
    // 3/8 in, 20 to the inch: BSF before UNF, which has 24.
    let bsf = answer(r#""diameter": "0.37 in", "spaces": 10, "over": "1/2 in""#);
    assert_eq!(text(&bsf, "candidates.0.thread"), "3/8 BSF", "BS 84: 3/8 at 20 tpi");
    let none = ask(r#""diameter": "500 mm", "spaces": 1, "over": "1 mm""#);
    assert!(self::card(&none).verdict.unwrap().1.starts_with("no standard thread"));
    let missing = answer(r#""diameter": "10 mm""#);
    assert_eq!(lacks(&missing, "candidates").as_deref(), Some("operation.spaces"));
}
