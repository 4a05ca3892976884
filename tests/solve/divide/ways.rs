//! Every way of dividing, and how far off it is.

use super::*;

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

/// A list of a hundred or fewer is whole: as many stand in it as are counted.
#[test]
fn a_list_of_a_hundred_or_fewer_is_whole() {
    let methods = ["direct", "direct-half-tooth", "plain", "compound", "differential"];
    let mut many = 0;
    for into in [24, 51, 53, 57, 59, 61, 63, 67, 69, 71, 77, 79, 83, 127, 131, 149, 201, 319] {
        let found = divide(HEAD, into);
        let counted: i64 =
            methods.iter().map(|method| whole(&found, &format!("ways_found.{method}"))).sum();
        let listed = i64::try_from(items(at(&found, "ways")).len()).unwrap();
        let exact = at(&found, "ways.0.exact") == &Node::Flag(true);
        if exact && counted <= 100 {
            assert_eq!(listed, counted, "{into}");
            many += i64::from(counted > 64);
        }
    }
    assert!(many >= 2, "some are long enough to have been cut");
    // Independent computation in exact fractions: 67 ways into 53, 76 into 59.
    assert_eq!(whole(&divide(HEAD, 53), "ways_found.differential"), 67, "{COMPUTED}");
    assert_eq!(whole(&divide(HEAD, 59), "ways_found.differential"), 76, "{COMPUTED}");
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
    // Two pairs of gears are exact: they go before one circle that is 2′10″ off, and it stands beside them.
    let three = r#"{"kind":"divide","angles":["0 deg","17 deg 30 min","52 deg 20 min"],"diameter":"30 mm"}"#;
    let found = answer(HEAD, three);
    assert_eq!(text(&found, "ways.0.method"), "differential");
    assert_eq!(at(&found, "ways.0.exact"), &Node::Flag(true));
    assert!(items(at(&found, "ways")).iter().any(|way| text(way, "method") == "plain"));
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
