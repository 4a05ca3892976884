//! Divided circles from a setup file to their answers, beside what is printed.

use latheside_core::exact::Ratio;
use latheside_core::operation::{Picture, Step, Tone};
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
        let second = steps.iter().find(|s| text(s, "title") == format!("division 2 of {into}"));
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
        ("", &["Slide clear, cutter stopped", "Unlock the lathe spindle", "Pin out", "Forward 1 turn and 10 spaces, into hole 10", "Pin in", "Lock the lathe spindle", "Cutter on, cut"]),
        (r#","work_in":"head-on-cross-slide","cutter_in":"lathe-spindle""#, &["Slide clear of the cutter, lathe spindle stopped", "Unlock the head's spindle", "Pin out", "Forward 1 turn and 10 spaces, into hole 10", "Pin in", "Lock the head's spindle", "Lathe spindle on, cut"]),
        (r#","cutter_in":"dragged-by-slide""#, &["Tool clear of the work", "Unlock the lathe spindle", "Pin out", "Forward 1 turn and 10 spaces, into hole 10", "Pin in", "Lock the lathe spindle", "Drag the cut"]),
    ];
    for (places, parts) in rows {
        let operation = format!(r#"{{"kind":"divide","into":24,"diameter":"32 mm"{places}}}"#);
        let found = found(NO_GEARS, &operation);
        let steps = found.steps();
        let all: Vec<Step> = (0..steps.len()).map(|at| steps.get(at).unwrap()).collect();
        let second = all.iter().find(|step| step.title == "division 2 of 24").unwrap();
        assert!(in_order(&said(second), parts), "{places}: {:?}", second.say);
        assert_eq!(
            (second.label.as_str(), second.figure.as_str()),
            ("forward to turn + hole", "1 + 10")
        );
        assert_eq!((second.done, second.cuts), ("Cut", true));
        assert!(second.caution.is_some());
        assert!(matches!(
            second.picture,
            Some(Picture::Plate { circle: 15, spaces: 10, hole: 10, .. })
        ));
        let cut = all.iter().filter(|step| step.cuts).count();
        assert_eq!(cut, 24, "one step cuts each division");
        // After division 12 the pin is in hole 0 again, half a turn round: told before the next.
        let check = all.iter().position(|step| step.title == "Half-way check").unwrap();
        assert!(said(&all[check]).contains("into hole 0 again"), "{:?}", all[check].say);
        assert_eq!(all[check + 1].title, "division 13 of 24");
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
    let second =
        (0..steps.len()).filter_map(|at| steps.get(at)).find(|s| s.title == "division 2 of 87");
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
