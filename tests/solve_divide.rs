//! Divided circles from a setup file to their answers, beside what is printed.

use latheside_core::exact::Ratio;
use latheside_core::operation::{Mark, Picture, Step, Tone};
use latheside_core::record::Node;
use latheside_tests::solved::{answer, at, card, fact, found, items, lines, needs, number, text};
use proptest::prelude::*;

const HEAD: &str = r#"{"name":"head","dividing":{"head":{"worm_ratio":40,
  "plates":[[15,16,17,18,19,20],[21,23,27,29,31,33],[37,39,41,43,47,49]],
  "gears":[24,24,28,32,40,44,48,56,64,72,86,100],"pairs_max":2}}}"#;
const NO_GEARS: &str = r#"{"name":"head","dividing":{"head":{"worm_ratio":40,
  "plates":[[15,16,17,18,19,20],[21,23,27,29,31,33],[37,39,41,43,47,49]]}}}"#;
const GEAR: &str = r#"{"name":"gear","lathe":{"change_gears":[60,45,127]},
  "dividing":{"direct":[80],"any_change_gear":true,"half_tooth":true}}"#;

const ARMY: &str = "US Army OD1644 Milling Machine Operations, lesson 1";
const TREATISE: &str = "Practical Treatise on Milling and Milling Machines, p. 56";
const COMPUTED: &str = "independent computation in exact fractions";

fn divide(shop: &str, into: u32) -> Node {
    answer(shop, &format!(r#"{{"kind":"divide","into":{into},"diameter":"32 mm"}}"#))
}

fn whole(node: &Node, path: &str) -> i64 {
    match at(node, path) {
        Node::Whole(n) => *n,
        other => panic!("{path}: {other:?}"),
    }
}

#[test]
fn an_eighty_tooth_gear_moves_eight_teeth_for_ten() {
    let common = "common practice, no source";
    let found = divide(GEAR, 10);
    assert_eq!(text(&found, "ways.0.method"), "direct", "{common}");
    // The 60 of the change gears does it with fewer teeth to count.
    assert_eq!((whole(&found, "ways.0.positions"), whole(&found, "ways.0.step")), (60, 6));
    let only = r#"{"name":"gear","dividing":{"direct":[80]}}"#;
    let found = divide(only, 10);
    assert_eq!(
        (whole(&found, "ways.0.positions"), whole(&found, "ways.0.step")),
        (80, 8),
        "{common}"
    );
    let teeth: Vec<i64> =
        items(at(&found, "positions")).iter().map(|place| whole(place, "tooth")).collect();
    assert_eq!(teeth, [0, 8, 16, 24, 32, 40, 48, 56, 64, 72], "{common}");
    let card = card(only, r#"{"kind":"divide","into":10,"diameter":"32 mm"}"#);
    assert_eq!(lines(&card), ["move 8 teeth", "of 80"]);
    assert_eq!(card.verdict, Some((Tone::Good, "exact".to_owned())));
    // π × 32 / 10.
    assert_eq!(fact(&card, "spacing at the rim"), "10.053 mm", "arithmetic");
    assert_eq!(card.picture, Some(Picture::Direct { teeth: 80, into: 10, at: 0, half: false }));
}

#[test]
fn half_teeth_with_a_second_detent() {
    #[rustfmt::skip]
    let rows = [
        // divisions, gear, half teeth, figure at division 1
        (8, 60, 15, "7½"),
        (24, 60, 5, "2½"),
        (18, 45, 5, "2½"),
        (254, 127, 1, "½"),
    ];
    for (into, gear, half_teeth, figure) in rows {
        let shop =
            format!(r#"{{"name":"gear","dividing":{{"direct":[{gear}],"half_tooth":true}}}}"#);
        let found = divide(&shop, into);
        assert_eq!(text(&found, "ways.0.method"), "direct-half-tooth", "{COMPUTED}");
        assert_eq!(whole(&found, "ways.0.step"), half_teeth, "{into}: {COMPUTED}");
        assert_eq!(whole(&found, "positions.1.half_teeth"), half_teeth, "{into}: {COMPUTED}");
        let steps = items(at(&found, "steps"));
        let second =
            steps.iter().find(|s| text(s, "title") == format!("move to division 2 of {into}"));
        assert_eq!(text(second.unwrap(), "figure"), figure);
    }
    // Without the detent no gear of 60 divides into 8.
    let whole_teeth = r#"{"name":"gear","dividing":{"direct":[60]}}"#;
    assert_eq!(at(&divide(whole_teeth, 8), "ways.0.exact"), &Node::Flag(false));
}

/// Divisions, turns, holes, circle, holes inside the arms.
#[rustfmt::skip]
const PLAIN: &[(u32, i64, i64, u16, &str, &str)] = &[
    (15, 2, 18, 27, "18 spaces, 19 holes", "Dividing-head practice worksheet"),
    ( 9, 4, 12, 27, "12 spaces, 13 holes", TREATISE),
    (11, 3, 21, 33, "21 spaces, 22 holes", TREATISE),
    (13, 3,  3, 39, "3 spaces, 4 holes", TREATISE),
    (17, 2,  6, 17, "6 spaces, 7 holes", TREATISE),
    (21, 1, 19, 21, "19 spaces, 20 holes", TREATISE),
];

#[test]
fn turns_and_holes_of_a_worm_head_with_its_arms_said_both_ways() {
    for (into, turns, holes, circle, arms, source) in PLAIN {
        let shop = format!(
            r#"{{"name":"one circle","dividing":{{"head":{{"worm_ratio":40,"plates":[[{circle}]]}}}}}}"#
        );
        let found = divide(&shop, *into);
        let way = at(&found, "ways.0");
        let said = (whole(way, "turns"), whole(way, "holes"), whole(way, "circle"));
        assert_eq!(said, (*turns, *holes, i64::from(*circle)), "{into}: {source}");
        let operation = format!(r#"{{"kind":"divide","into":{into},"diameter":"32 mm"}}"#);
        let card = card(&shop, &operation);
        assert_eq!(fact(&card, "sector arms"), *arms, "{into}: {source}");
    }
    // 8: five whole turns (US Navy NAVEDTRA 12204-A, p. 7-12): one way, no circle.
    let eight = divide(NO_GEARS, 8);
    let way = at(&eight, "ways.0");
    assert_eq!((whole(way, "turns"), whole(way, "holes")), (5, 0), "NAVEDTRA 12204-A p. 7-12");
    assert_eq!(at(way, "circle"), &Node::Null);
    assert_eq!(whole(&eight, "ways_found.plain"), 1);
    // Every circle of 24 with the three plates, and how many there are.
    let found = divide(NO_GEARS, 24);
    let circles: Vec<i64> = items(at(&found, "ways"))
        .iter()
        .filter(|way| text(way, "method") == "plain")
        .map(|way| whole(way, "circle"))
        .collect();
    assert_eq!(circles, [15, 18, 21, 27, 33, 39], "a circle divisible by 3: {ARMY}");
    assert_eq!(whole(&found, "ways_found.plain"), 6, "{ARMY}");
}

/// Where the work stands for a place by way 0, in turns of the work, worked out afresh from the
/// head: the crank's turns over the ratio, less what the gears add.
fn stands(found: &Node, place: &Node) -> Ratio {
    let turns = |pin: &Node, circle: i64| {
        let hole = if circle > 0 { whole(pin, "hole") } else { 0 };
        Ratio::whole(whole(pin, "turns")).add(Ratio::of(hole, circle.max(1))).unwrap()
    };
    let way = at(found, "ways.0");
    let circle = |path: &str| match at(way, path) {
        Node::Whole(n) => *n,
        _ => 0,
    };
    let ratio = Ratio::whole(40);
    match text(way, "method") {
        "direct" => Ratio::of(whole(place, "tooth"), whole(way, "positions")),
        "plain" => turns(place, circle("circle")).div(ratio).unwrap(),
        "compound" => {
            let crank = turns(at(place, "crank"), circle("first.circle"));
            let plate = turns(at(place, "plate"), circle("second.circle"));
            crank.add(plate).unwrap().div(ratio).unwrap()
        }
        "differential" => {
            let gears = items(at(way, "gears")).iter().fold(Ratio::ONE, |size, pair| {
                size.mul(Ratio::of(whole(pair, "0"), whole(pair, "1"))).unwrap()
            });
            let against = text(way, "ratio").starts_with('-');
            let plate = if against { gears.neg() } else { gears };
            turns(place, circle("circle")).div(ratio.sub(plate).unwrap()).unwrap()
        }
        other => panic!("{other}"),
    }
}

#[test]
fn the_absolute_places_put_the_work_where_it_belongs() {
    for (shop, numbers) in [
        (NO_GEARS, &[24, 7, 8, 77, 87, 51][..]),
        (HEAD, &[51, 127, 97, 113, 382]),
        (GEAR, &[9, 127]),
    ] {
        for into in numbers {
            let found = divide(shop, *into);
            assert_eq!(at(&found, "ways.0.exact"), &Node::Flag(true), "{into}");
            let places = items(at(&found, "positions"));
            assert_eq!(places.len(), usize::try_from(*into).unwrap(), "{into}");
            for (division, place) in places.iter().enumerate() {
                let wanted = Ratio::of(i64::try_from(division).unwrap(), i64::from(*into));
                assert_eq!(stands(&found, place), wanted, "{into}: division {division}");
            }
        }
    }
}

#[test]
fn a_hundred_and_twenty_seven_has_six_settings_of_one_pair() {
    let found = divide(HEAD, 127);
    let one_pair =
        items(at(&found, "ways")).iter().filter(|way| items(at(way, "gears")).len() == 1);
    assert_eq!(one_pair.count(), 6, "{COMPUTED}");
    assert_eq!(whole(&found, "ways_found.plain") + whole(&found, "ways_found.compound"), 0);
    // 13/39, plate gear 24, spindle gear 56, two idlers, against the crank.
    let has = items(at(&found, "ways")).iter().any(|way| {
        text(way, "ratio") == "-7/3"
            && whole(at(way, "gears.0"), "0") == 56
            && whole(way, "idlers") == 2
    });
    assert!(has, "trade differential table for 40:1 heads (one maker's catalogue)");
    for way in items(at(&found, "ways")) {
        // ratio = R − N·(turns + holes/circle), whatever was found.
        let (holes, circle) = match at(way, "circle") {
            Node::Whole(circle) => (whole(way, "holes"), *circle),
            _ => (0, 1),
        };
        let moved = Ratio::whole(whole(way, "turns")).add(Ratio::of(holes, circle)).unwrap();
        let plate = Ratio::whole(40).sub(Ratio::whole(127).mul(moved).unwrap()).unwrap();
        assert_eq!(text(way, "ratio"), plate.to_string());
    }
}

#[test]
fn no_gears_divide_383_and_the_nearest_says_how_far_off_it_is() {
    let found = divide(HEAD, 383);
    assert_eq!(at(&found, "ways.0.exact"), &Node::Flag(false), "{COMPUTED}");
    for method in ["direct", "plain", "compound", "differential"] {
        assert_eq!(whole(&found, &format!("ways_found.{method}")), 0, "{COMPUTED}");
    }
    let arcsec = number(&found, "ways.0.worst_error_arcsec");
    let rim = arcsec / 1_296_000.0 * std::f64::consts::PI * 32.0;
    assert!(arcsec > 0.0 && (number(&found, "worst_error_mm") - rim).abs() < 1e-12);
    let worst = items(at(&found, "positions"))
        .iter()
        .map(|place| number(place, "error_arcsec").abs())
        .fold(0.0, f64::max);
    assert!((worst - arcsec).abs() < 1e-9, "the worst of the places is what is said");
}

#[test]
fn an_error_is_said_in_arc_and_at_the_rim() {
    // A plate of its own, for two circles of the common plates make it exactly.
    let shop = r#"{"name":"one circle","dividing":{"head":{"worm_ratio":40,"plates":[[49]]}}}"#;
    // 0.1° by one hole of 49 on 40:1 is 301.22″ off: independent computation.
    let operation = r#"{"kind":"divide","angles":["0 deg","0.1 deg"],"diameter":"32 mm"}"#;
    let found = answer(shop, operation);
    assert!((number(&found, "ways.0.worst_error_arcsec") - 301.22).abs() < 0.005, "{COMPUTED}");
    let card = card(shop, operation);
    // 301.22/1 296 000 × π × 32 = 0.0234.
    let words = "5′01″ off at worst: 0.023 mm at the rim of Ø 32 mm";
    assert_eq!(card.verdict.as_ref().unwrap().1, words);
    assert_eq!(lines(&card), ["on the 49 circle", "0° at 0 + 0", "6′ at 0 + 1"]);
    assert_eq!(fact(&card, "told as"), "turn + hole");
}

/// Angle, worm ratio, turns, holes, circle of the best way for 0 and that angle.
#[rustfmt::skip]
const ANGLES: &[(&str, i64, i64, i64, i64, &str)] = &[
    ("45 deg",        40, 5, 0,  0, ARMY),
    ("7.5 deg",       40, 0, 15, 18, COMPUTED),
    ("37.5 deg",      40, 4, 3, 18, COMPUTED),
    ("72 deg",        40, 8, 0,  0, COMPUTED),
    ("20 min",        40, 0, 1, 27, "Machinery's Handbook 1916 ed., indexing for angles"),
    ("48 deg 40 min", 40, 5, 11, 27, COMPUTED),
    ("25 deg",        60, 4, 3, 18, COMPUTED),
    ("4 deg",          5, 0, 1, 18, COMPUTED),
];

#[test]
fn angles_of_ones_own() {
    for (angle, ratio, turns, holes, circle, source) in ANGLES {
        let shop = NO_GEARS.replace(r#""worm_ratio":40"#, &format!(r#""worm_ratio":{ratio}"#));
        let operation = format!(r#"{{"kind":"divide","angles":["0 deg","{angle}"]}}"#);
        let found = answer(&shop, &operation);
        let ways = items(at(&found, "ways"));
        let has = ways.iter().any(|way| {
            let on = match at(way, "circle") {
                Node::Whole(circle) => *circle,
                _ => 0,
            };
            (whole(way, "turns"), whole(way, "holes"), on) == (*turns, *holes, *circle)
                && at(way, "exact") == &Node::Flag(true)
        });
        assert!(has, "{angle}: {ways:?}: {source}");
        assert_eq!(whole(&found, "positions.1.turns"), *turns, "{angle}: {source}");
    }
}

#[test]
fn angles_are_cut_going_forward_whatever_order_they_were_asked_in() {
    let operation =
        r#"{"kind":"divide","angles":["45 deg","9 deg","0 deg","360 deg"],"diameter":"32 mm"}"#;
    let found = answer(NO_GEARS, operation);
    let asked: Vec<_> =
        items(at(&found, "positions")).iter().map(|place| text(place, "angle")).collect();
    assert_eq!(asked, ["45 deg", "9 deg", "0 deg", "360 deg"]);
    let cuts: Vec<_> = items(at(&found, "steps"))
        .iter()
        .filter(|step| at(step, "cuts") == &Node::Flag(true))
        .map(|step| text(step, "figure"))
        .collect();
    // 0°, then 1 turn for 9°, then 5 for 45°; a whole turn is the first place again.
    assert_eq!(cuts, ["0", "1", "5"]);
}

/// Every step of a division, in the order in which it is said.
fn said(step: &Step) -> String {
    step.say.join(" ").replace('*', "")
}

fn in_order(text: &str, parts: &[&str]) -> bool {
    let mut rest = text;
    parts.iter().all(|part| match rest.find(part) {
        Some(from) => {
            rest = &rest[from + part.len()..];
            true
        }
        None => false,
    })
}

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
fn what_is_missing_is_named_and_the_rest_is_given() {
    let bare = answer(r#"{"name":"bare"}"#, r#"{"kind":"divide","into":6,"diameter":"30 mm"}"#);
    assert_eq!(needs(&bare, "ways"), "shop.dividing");
    assert_eq!(needs(&bare, "positions"), "shop.dividing");
    assert!((number(&bare, "spacing_mm") - 15.707_963).abs() < 1e-6);
    assert_eq!(text(&bare, "angle"), "60 deg");
    // The sides of a hexagon are half of its diameter across corners.
    assert!((number(&bare, "chord_mm") - 15.0).abs() < 1e-12);
    let no_ratio = r#"{"name":"bare","dividing":{"head":{"plates":[[24]]}}}"#;
    let no_ratio = answer(no_ratio, r#"{"kind":"divide","into":6}"#);
    assert_eq!(needs(&no_ratio, "ways"), "shop.dividing.head.worm_ratio");
    let no_size = answer(HEAD, r#"{"kind":"divide","into":6}"#);
    assert_eq!(needs(&no_size, "spacing_mm"), "operation.diameter");
    assert_eq!(needs(&no_size, "worst_error_mm"), "", "what is exact is off by nothing");
    let nothing = answer(HEAD, r#"{"kind":"divide","diameter":"30 mm"}"#);
    assert_eq!(text(&nothing, "refused"), "say into how many, or at which angles");
    let too_many =
        answer(r#"{"name":"bare","dividing":{"direct":[60]}}"#, r#"{"kind":"divide","into":9999}"#);
    assert!(text(&too_many, "refused").starts_with("9999 divisions need more positions"));
    let outside = answer(HEAD, r#"{"kind":"divide","angles":["361 deg"]}"#);
    assert!(text(&outside, "refused").starts_with("361 degrees"));
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

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// Whatever is owned, each exact place is where it belongs, and each step can be shown.
    #[test]
    fn any_shop_and_any_number(
        into in 2u32..300, direct in proptest::collection::vec(1u16..200, 0..4), half in any::<bool>(),
        plates in proptest::collection::vec(proptest::collection::vec(1u16..60, 1..4), 0..3),
        gears in proptest::collection::vec(18u16..100, 0..6),
    ) {
        let shop = format!(
            r#"{{"name":"any","dividing":{{"direct":{direct:?},"half_tooth":{half},"head":{{"worm_ratio":40,"plates":{plates:?},"gears":{gears:?}}}}}}}"#
        );
        let operation = format!(r#"{{"kind":"divide","into":{into},"diameter":"2 in"}}"#);
        let answered = answer(&shop, &operation);
        if !text(&answered, "refused").is_empty() {
            return Ok(());
        }
        let places = items(at(&answered, "positions"));
        prop_assert_eq!(places.len(), usize::try_from(into).unwrap());
        let exact = at(&answered, "ways.0.exact") == &Node::Flag(true);
        if exact && text(&answered, "ways.0.method") != "direct-half-tooth" {
            for (division, place) in places.iter().enumerate() {
                let wanted = Ratio::of(i64::try_from(division).unwrap(), into.into());
                prop_assert_eq!(stands(&answered, place), wanted);
            }
        }
        let found = found(&shop, &operation);
        let steps = found.steps();
        let all: Vec<Step> = (0..steps.len()).map(|at| steps.get(at).unwrap()).collect();
        prop_assert_eq!(all.iter().filter(|step| step.cuts).count(), places.len());
        prop_assert!(all.iter().all(|step| !step.title.is_empty() && !step.say.is_empty() && !step.done.is_empty()));
        prop_assert!(!found.card().lines.is_empty());
    }
}

/// A shop with dials, a drill chuck that runs out and a slot drill.
const FULL: &str = r#"{"name":"full",
  "lathe":{"dials":{"cross":{"division":"0.02 mm","divisions":125,"reads":"radius"},
                    "carriage":{"division":"0.1 mm","divisions":180}}},
  "holding":[{"name":"drill chuck","kind":"chuck","to":"10 mm","run_out":"0.08 mm"},
             {"name":"collet","kind":"collet","to":"10 mm"}],
  "cutters":[{"name":"slot drill","kind":"end-mill","diameter":"3 mm","teeth":2,"material":"hss"},
             {"name":"saw","kind":"slitting-saw","diameter":"50 mm","width":"1 mm","material":"hss"},
             {"name":"fly","kind":"form-tool","width":"1 mm","teeth":1,"material":"hss"}],
  "dividing":{"direct":[72,24],"head":{"worm_ratio":40,
    "plates":[[15,16,17,18,19,20],[21,23,27,29,31,33],[37,39,41,43,47,49]],
    "gears":[24,24,28,32,40,44,48,56,64,72,86,100],"pairs_max":2}}}"#;

fn steps_of(shop: &str, operation: &str) -> Vec<Step> {
    let found = found(shop, operation);
    let steps = found.steps();
    (0..steps.len()).map(|at| steps.get(at).unwrap()).collect()
}

#[test]
fn flats_are_told_by_depth_and_by_the_corner_left() {
    const POLYGON: &str = "arithmetic of regular polygons: across flats over across corners is \
        0.866025 for a hexagon, 0.707107 for a square, 0.923880 for an octagon";
    #[rustfmt::skip]
    let rows = [
        // flats, across flats over the diameter
        (6, 0.866_025), (4, std::f64::consts::FRAC_1_SQRT_2), (8, 0.923_880),
    ];
    for (into, across) in rows {
        let operation =
            format!(r#"{{"kind":"divide","into":{into},"diameter":"20 mm","marks":"flats"}}"#);
        let found = answer(FULL, &operation);
        let near = |key: &str, mm: f64| (number(&found, key) - mm).abs() < 1e-5 * 20.0;
        assert!(near("across_flats_mm", across * 20.0), "{into}: {POLYGON}");
        assert!(near("depth_mm", (1.0 - across) * 10.0), "{into}: {POLYGON}");
        assert!(near("corner_left_mm", 0.0) && near("across_corners_mm", 20.0), "{into}");
        let steps = steps_of(FULL, &operation);
        let depth = steps.iter().find(|step| step.title == "Set the depth").unwrap();
        // To the nearest line of 0.02 mm.
        let lines = ((1.0 - across) * 10.0 / 0.02).round() as u32;
        let counted = match (lines / 125, lines % 125) {
            (0, lines) => format!("{lines} lines ("),
            (_, lines) => format!("1 turn + {lines} ("),
        };
        assert!(depth.figure.starts_with(&counted), "{}", depth.figure);
        assert_eq!(steps.iter().filter(|step| step.title.starts_with("cut flat ")).count(), into);
    }
    // A square of 16 on 20: the triangle of 3, 4 and 5; round is left at the corners.
    let square =
        r#"{"kind":"divide","into":4,"diameter":"20 mm","marks":"flats","across":"16 mm"}"#;
    let found = answer(FULL, square);
    assert!((number(&found, "depth_mm") - 2.0).abs() < 1e-12);
    assert!((number(&found, "flat_width_mm") - 12.0).abs() < 1e-12);
    assert!(number(&found, "corner_left_mm") > 0.0);
    assert!(!fact(&card(FULL, square), "round left at a corner").is_empty());
    let first = steps_of(FULL, square).into_iter().find(|step| step.cuts).unwrap();
    assert!(said(&first).contains("over this flat and the round: 18 mm"), "{:?}", first.say);
    assert!(matches!(first.picture, Some(Picture::Rim { mark: Mark::Flat, .. })));
    for (entries, refused) in [
        (r#""into":2"#, "say how far it is across the flats on Ø 20 mm"),
        (r#""into":6,"across":"21 mm""#, "21 mm across flats is no less than Ø 20 mm"),
    ] {
        let operation =
            format!(r#"{{"kind":"divide",{entries},"diameter":"20 mm","marks":"flats"}}"#);
        assert!(text(&answer(FULL, &operation), "refused").starts_with(refused));
    }
    let no_size = answer(FULL, r#"{"kind":"divide","into":6,"marks":"flats"}"#);
    assert_eq!(needs(&no_size, "depth_mm"), "operation.diameter");
}

#[test]
fn holes_have_co_ordinates_from_a_touched_edge() {
    // Six on Ø 40, 30 mm from the edge to the middle, touched with a 3 mm cutter: 60° triangles
    // of sides 20, 10 and 10√3.
    let operation = r#"{"kind":"divide","into":6,"diameter":"40 mm","marks":"holes","cutter":"slot drill","edge":"30 mm"}"#;
    let found = answer(FULL, operation);
    let third = 10.0 * 3.0_f64.sqrt();
    #[rustfmt::skip]
    let places = [
        (20.0, 0.0), (10.0, third), (-10.0, third), (-20.0, 0.0), (-10.0, -third), (10.0, -third),
    ];
    for (hole, (across, up)) in places.iter().enumerate() {
        let at = |key: &str| number(&found, &format!("coordinates.{hole}.{key}"));
        assert!((at("across_mm") - (31.5 + across)).abs() < 1e-9, "{hole}");
        assert!((at("up_mm") - (31.5 + up)).abs() < 1e-9, "{hole}");
    }
    // The chord of a hexagon is its radius; 3 mm of it is hole.
    assert!((number(&found, "left_mm") - 17.0).abs() < 1e-9);
    let steps = steps_of(FULL, operation);
    let holes: Vec<&Step> = steps.iter().filter(|step| step.cuts).collect();
    // 51.5 mm by lines of 0.02 mm, 125 a turn: 20 turns and 75.
    assert!(
        said(holes[0]).contains("From the edges: across 20 turns + 75 (51.5 mm), up 31.5 mm."),
        "{:?}",
        holes[0].say
    );
    assert_eq!(text(&found, "depth_by"), "carriage", "holes go into the face");
    // The other edge may stand at another distance.
    let other = operation.replace(r#""edge":"#, r#""other_edge":"20 mm","edge":"#);
    let found = answer(FULL, &other);
    assert!((number(&found, "coordinates.0.up_mm") - 21.5).abs() < 1e-9);
    // With nothing that divides, the co-ordinates are the way.
    let bare = r#"{"name":"bare"}"#;
    let plain = r#"{"kind":"divide","into":6,"diameter":"40 mm","marks":"holes"}"#;
    let steps = steps_of(bare, plain);
    assert_eq!(steps.iter().filter(|step| step.cuts).count(), 6);
    assert!(said(&steps[0]).contains("over the middle"), "{:?}", steps[0].say);
    assert_eq!(steps[2].figure, "10, 17.32");
    let own = r#"{"kind":"divide","angles":["0 deg","90 deg"],"diameter":"40 mm","marks":"holes"}"#;
    assert_eq!(steps_of(bare, own)[2].figure, "0, 20");
}

#[test]
fn a_cutter_that_runs_out_cuts_wider() {
    let slots = |more: &str| {
        format!(r#"{{"kind":"divide","into":6,"diameter":"40 mm","marks":"slots"{more}}}"#)
    };
    let held = slots(r#","cutter":"slot drill","holder":"drill chuck""#);
    let found = answer(FULL, &held);
    // Off centre by 0.04 to each side.
    assert!((number(&found, "cut_width_mm") - 3.08).abs() < 1e-12);
    let spacing = std::f64::consts::PI * 40.0 / 6.0;
    assert!((number(&found, "left_mm") - (spacing - 3.08)).abs() < 1e-9);
    assert_eq!(fact(&card(FULL, &held), "cuts"), "up to 3.08 mm wide, perhaps with one tooth");
    let cautions = at(&found, "cautions");
    let says =
        |words: &str| items(cautions).iter().any(|one| one.as_text().unwrap().contains(words));
    assert!(says("one tooth only") && says("drill chuck isn't made for side load"));
    // A fly cutter has one tooth anyway; a saw is as wide as it is thick.
    let fly = slots(r#","cutter":"fly","holder":"drill chuck""#);
    assert_eq!(fact(&card(FULL, &fly), "cuts"), "up to 1.08 mm wide");
    let saw = answer(FULL, &slots(r#","cutter":"saw""#));
    assert!((number(&saw, "cut_width_mm") - 1.0).abs() < 1e-12);
    let unknown = answer(FULL, &slots(r#","cutter":"saw","holder":"collet""#));
    assert_eq!(needs(&unknown, "cut_width_mm"), "shop.holding");
    assert_eq!(needs(&answer(FULL, &slots("")), "left_mm"), "operation.width");
    let wide = card(FULL, &slots(r#","width":"22 mm""#));
    assert_eq!(wide.verdict, Some((Tone::Mind, "the cuts run together".to_owned())));
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
fn another_way_is_carried_out_when_it_is_asked_for() {
    let operation =
        |more: &str| format!(r#"{{"kind":"divide","into":24,"diameter":"32 mm"{more}}}"#);
    let first = answer(FULL, &operation(""));
    let third = answer(FULL, &operation(r#","way":3"#));
    assert_eq!(at(&first, "ways"), at(&third, "ways"), "the list stays as it is");
    assert_eq!((whole(&first, "way"), whole(&third, "way")), (1, 3));
    assert_eq!(text(&third, "ways.2.method"), "plain");
    let circle = whole(&third, "ways.2.circle");
    let steps = steps_of(FULL, &operation(r#","way":3"#));
    assert_eq!(steps[0].figure, circle.to_string());
    let card = card(FULL, &operation(r#","way":3"#));
    assert_eq!(lines(&card)[1], format!("of {circle}"));
    // The first is among the others now, each under its number.
    assert!(card.others[0].note.starts_with("way 1: direct"), "{}", card.others[0].note);
    assert!(card.others[2].note.starts_with("way 4: "), "{}", card.others[2].note);
    let none = self::card(FULL, &operation(r#","way":9999"#));
    assert!(fact(&none, "way asked for").starts_with("9999, of "));
    assert_eq!(lines(&none), lines(&self::card(FULL, &operation(""))));
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

#[test]
fn the_nearest_circle_stands_beside_an_odd_exact_way() {
    #[rustfmt::skip]
    let rows = [
        // worm, angle, turns, holes, circle, seconds off
        (40, "0.1 deg",     0,  1, 49, 301.22),
        (40, "13.45 deg",   1, 24, 49, 150.61),
        (60, "137.508 deg", 22, 45, 49, 7.9347),
    ];
    for (worm, angle, turns, holes, circle, arcsec) in rows {
        let shop = HEAD.replace(r#""worm_ratio":40"#, &format!(r#""worm_ratio":{worm}"#));
        let operation = format!(r#"{{"kind":"divide","angles":["0 deg","{angle}"]}}"#);
        let found = answer(&shop, &operation);
        let way = items(at(&found, "ways")).iter().find(|way| text(way, "method") == "plain");
        let way = way.unwrap();
        let said = (whole(way, "turns"), whole(way, "holes"), whole(way, "circle"));
        assert_eq!(said, (turns, holes, circle), "{angle}: {COMPUTED}");
        let off = number(way, "worst_error_arcsec");
        assert!((off - arcsec).abs() < 0.005, "{angle}: {off}: {COMPUTED}");
    }
    // 2′10″ off on one circle goes before two pairs of gears: half a protractor's 6′ is 3′
    // (MIL-P-288B, 3.6.1.1).
    let three = r#"{"kind":"divide","angles":["0 deg","17 deg 30 min","52 deg 20 min"],"diameter":"30 mm"}"#;
    let found = answer(HEAD, three);
    assert_eq!(text(&found, "ways.0.method"), "plain");
    assert_eq!(at(&found, "ways.1.exact"), &Node::Flag(true));
    let three = card(HEAD, three);
    assert_eq!(three.verdict.as_ref().unwrap().0, Tone::Note);
    assert_eq!(fact(&three, "exact would be"), "way 2: differential");
    // Of a quarter of a degree it would be a tenth: there the gears go first.
    let quarter = answer(HEAD, r#"{"kind":"divide","angles":["0 deg","15 min"]}"#);
    assert_eq!(text(&quarter, "ways.0.method"), "differential", "{TREATISE}");
}

#[test]
fn what_is_not_exact_is_told_in_arc_at_the_rim_and_as_a_share() {
    let found = divide(HEAD, 383);
    for way in items(at(&found, "ways")) {
        let share = number(way, "worst_error_arcsec") / 1_296_000.0 * 383.0;
        assert!((number(way, "worst_error_share") - share).abs() < 1e-12, "arithmetic");
    }
    let card = card(HEAD, r#"{"kind":"divide","into":383,"diameter":"32 mm"}"#);
    // 10.8″ of 3 384″, and of 100.5 mm round.
    assert_eq!(fact(&card, "off at the rim"), "0.001 mm, 0.3 % of a space");
    assert!(!fact(&card, "last space off by").is_empty());
}

/// How wide a line of the card is, in letters: a figure is as wide as three of them.
fn wide(line: &[latheside_core::operation::Span]) -> usize {
    use latheside_core::operation::Span;
    let width = |span: &Span| match span {
        Span::Figure(text) => text.chars().count() * 3,
        Span::Word(text) => text.chars().count(),
    };
    line.iter().map(width).sum()
}

#[test]
fn each_line_of_the_card_is_short() {
    for shop in [FULL, NO_GEARS, GEAR] {
        for into in (2..130).step_by(3).chain([254, 383, 9973]) {
            let operation = format!(r#"{{"kind":"divide","into":{into},"diameter":"32 mm"}}"#);
            if !text(&answer(shop, &operation), "refused").is_empty() {
                continue;
            }
            for line in card(shop, &operation).lines {
                assert!(wide(&line) <= 32, "{into}: {line:?}");
            }
        }
        let own = r#"{"kind":"divide","angles":["17 deg 30 min","152 deg 20 min"]}"#;
        assert!(card(shop, own).lines.iter().all(|line| wide(line) <= 32));
    }
}

#[test]
fn gears_and_plate_are_drawn_where_they_are_used() {
    let steps = steps_of(HEAD, r#"{"kind":"divide","into":127,"diameter":"32 mm"}"#);
    let gears = steps.iter().find(|step| step.title.starts_with("Gear the plate")).unwrap();
    assert!(matches!(gears.picture, Some(Picture::HeadTrain { .. })));
    let moves: Vec<&Step> = steps.iter().filter(|step| step.done == "Locked").collect();
    let (mut used, mut holes) = (0, Vec::new());
    for step in &moves[1..] {
        let Some(Picture::Plate { circle, spaces, hole, .. }) = &step.picture else {
            panic!("{:?}", step.title)
        };
        assert!(*spaces > 0 && hole < circle);
        used = usize::from(*circle);
        holes.push(usize::from(*hole));
    }
    // The pin goes on by the arms' spaces each time, round the plate.
    let step = holes[1];
    assert!(holes.iter().enumerate().all(|(k, hole)| *hole == k * step % used));
    let ready = steps.iter().find(|step| step.title == "Make ready").unwrap();
    assert!(matches!(ready.picture, Some(Picture::Rim { into: 127, at: 0, .. })));
}

const PLACES: [&str; 3] = [
    "",
    r#","work_in":"head-on-cross-slide","cutter_in":"lathe-spindle""#,
    r#","cutter_in":"dragged-by-slide""#,
];

/// Every kind of circle, each way of dividing it and each arrangement of work and cutter.
fn circles() -> Vec<(&'static str, String)> {
    let mut all = Vec::new();
    for places in PLACES {
        for kind in [
            r#""kind":"divide","into":24,"diameter":"32 mm""#,
            r#""kind":"divide","into":6,"diameter":"32 mm","marks":"flats""#,
            r#""kind":"divide","into":87,"diameter":"32 mm""#,
            r#""kind":"divide","into":40,"diameter":"32 mm","way":2"#,
            r#""kind":"divide","angles":["0 deg","17 deg 30 min","52 deg 20 min"],"diameter":"30 mm""#,
            r#""kind":"graduate","lead":"2 mm","least_count":"0.02 mm","diameter":"60 mm","vernier":"0.002 mm""#,
            r#""kind":"make-plate","holes":13,"diameter":"120 mm","further":true"#,
        ] {
            for shop in [HEAD, NO_GEARS, FULL, GEAR] {
                all.push((shop, format!("{{{kind}{places}}}")));
            }
        }
    }
    all.retain(|(shop, operation)| text(&answer(shop, operation), "refused").is_empty());
    assert!(all.len() > 60);
    all
}

/// No cut is come to but past a step that puts the lock on and is done by it.
#[test]
fn before_each_cut_a_step_puts_the_lock_on() {
    for (shop, operation) in circles() {
        let steps = steps_of(shop, &operation);
        let mut last = 0;
        for (at, step) in steps.iter().enumerate().filter(|(_, step)| step.cuts) {
            let of_vernier = step.title == "Cut the vernier";
            let before = &steps[at - 1];
            assert!(of_vernier || before.done == "Locked", "{operation}: {}", before.title);
            assert!(of_vernier || said(before).contains("Lock the "), "{:?}", before.say);
            assert!(!before.cuts && said(step).contains("lock"), "{operation}: {:?}", step.say);
            last = at;
        }
        assert!(last > 0, "{operation}");
        // Nor is the lock taken off but with the cutter clear and still.
        for step in steps.iter().filter(|step| said(step).contains("Unlock")) {
            let clear = step.say[0].contains("clear");
            assert!(
                clear && said(step).find("clear") < said(step).find("Unlock"),
                "{:?}",
                step.say
            );
        }
    }
}

/// A step that is come back to is passed and come up to again the same way.
#[test]
fn back_turns_past_and_comes_up_again() {
    for (shop, operation) in circles() {
        let found = found(shop, &operation);
        let steps = found.steps();
        for at in 0..steps.len() {
            let (step, back) = (steps.get(at).unwrap(), steps.back(at));
            let place = step.title.contains("move ") || step.title.contains("cut ");
            assert_eq!(place, back.is_some(), "{operation}: {}", step.title);
            let Some(back) = back.map(|words| words.replace('*', "")) else { continue };
            let order =
                ["clear", "Unlock", "out", "back past", "then forward up to", "in.", "Lock "];
            assert!(in_order(&back, &order), "{back}");
            // The place that it comes up to is the step's own.
            if step.done == "Locked" {
                let to = back.split("back past ").nth(1).unwrap();
                let to = to.split(" by ").next().unwrap();
                let stays = said(&step).contains("no move yet");
                assert!(stays || said(&step).contains(to), "{to}: {:?}", step.say);
            }
        }
        assert_eq!(steps.back(steps.len()), None);
    }
}

/// Where no plate, gear or train is drawn, the rim tells what is done and what is to do.
#[test]
fn every_step_is_drawn() {
    for (shop, operation) in circles() {
        let steps = steps_of(shop, &operation);
        let mut done = 0;
        for step in &steps {
            let Some(picture) = &step.picture else {
                assert_eq!(step.title, "The vernier", "{operation}");
                continue;
            };
            if let Picture::Rim { into, at, .. } = picture {
                assert!(
                    at <= into && done <= *at || operation.contains("make-plate"),
                    "{operation}"
                );
                done = *at;
            }
            if step.title == "Deburr" {
                let Picture::Rim { into, at, .. } = picture else { panic!("{operation}") };
                assert_eq!(into, at);
            }
        }
    }
}

/// What may hurt, each with the answer and with the step that it belongs to.
#[test]
fn each_caution_stands_with_the_answer_and_with_its_step() {
    let head = PLACES[1];
    #[rustfmt::skip]
    let rows: [(&str, &str, &str, &str); 6] = [
        // the arrangement, on the card, in the title of a step, there
        ("",   "Lock the spindle that holds the work before the cutter meets it", "cut ",       "Lock on, pin or detent home, before the cutter meets"),
        (head, "A cutter in the lathe spindle is stopped before each move",       "move ",      "lathe spindle stopped"),
        ("",   "Thin cutters want a light feed; eyes covered",                    "cut ",       "light feed"),
        ("",   "A drill chuck isn't made for side load",                          "Make ready", "not in a drill chuck"),
        ("",   "Every fresh cut has a sharp edge: break it",                      "Deburr",     "Fresh edges are sharp"),
        ("",   "look at the lock and the pin before each cut",                    "cut ",       "Look: the lathe spindle locked, pin home"),
    ];
    for (places, on_card, title, there) in rows {
        let operation = format!(r#"{{"kind":"divide","into":24,"diameter":"32 mm"{places}}}"#);
        let found = answer(NO_GEARS, &operation);
        let cautions = items(at(&found, "cautions"));
        let says = |part: &str| cautions.iter().any(|one| one.as_text().unwrap().contains(part));
        assert!(says(on_card), "{on_card}");
        assert!(says("machine's maker and the rules of the place"), "each defers to them");
        let steps = steps_of(NO_GEARS, &operation);
        let those: Vec<&Step> = steps.iter().filter(|step| step.title.starts_with(title)).collect();
        assert!(!those.is_empty(), "{title}");
        for step in those {
            let all = [said(step), step.caution.unwrap_or_default().to_owned()].join(" ");
            assert!(all.contains(there), "{there}: {all}");
        }
    }
    let ready = steps_of(NO_GEARS, r#"{"kind":"divide","into":24,"diameter":"32 mm"}"#);
    let ready = ready.iter().find(|step| step.title == "Make ready").unwrap();
    assert!(ready.caution.unwrap().contains("Eyes covered"));
    // Holes by co-ordinates alone: nothing is locked and turned, the rest holds.
    let bare = answer(
        r#"{"name":"bare"}"#,
        r#"{"kind":"divide","into":6,"diameter":"40 mm","marks":"holes"}"#,
    );
    let words: Vec<_> =
        items(at(&bare, "cautions")).iter().map(|one| one.as_text().unwrap()).collect();
    assert_eq!(words.len(), 5, "{words:?}");
}
