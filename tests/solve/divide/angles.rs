//! Angles of one's own in place of equal parts.

use super::*;

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
