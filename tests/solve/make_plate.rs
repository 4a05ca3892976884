//! A division plate made from what there is, and what its errors come to.

use latheside_core::record::Node;
use latheside_tests::solved::{answer, at, card, fact, found, items, needs, number, says, text};

const NO_GEARS: &str = r#"{"name":"head","dividing":{"head":{"worm_ratio":40,
  "plates":[[15,16,17,18,19,20],[21,23,27,29,31,33],[37,39,41,43,47,49]]}}}"#;
const COMPUTED: &str = "independent computation in exact fractions";

fn make(shop: &str, entries: &str) -> Node {
    answer(shop, &format!(r#"{{"kind":"make-plate",{entries}}}"#))
}

/// What the worm leaves of a plate's error, and of a copy's made by that plate: 600″ leave 15″,
/// then 0.375″ by 40:1; 10″, then 0.1667″ by 60:1; 1800″ leave 20″, then 0.2222″ by 90:1.
#[test]
fn each_time_through_the_worm_the_error_is_divided_by_it() {
    for (worm, rough, once, twice) in
        [(40.0, 600.0, 15.0, 0.375), (60.0, 600.0, 10.0, 0.1667), (90.0, 1800.0, 20.0, 0.2222)]
    {
        let shop = NO_GEARS.replace(r#""worm_ratio":40"#, &format!(r#""worm_ratio":{worm}"#));
        // Whatever the plate's own error is, it goes down as the rough plate's does.
        let found = make(&shop, r#""holes":127,"diameter":"120 mm","further":true"#);
        let off = number(&found, "hole_error_arcsec");
        assert!(off > 0.0, "{COMPUTED}");
        let like = |key: &str, rough_error: f64| {
            let share = number(&found, key) / off;
            (share - rough_error / rough).abs() < 1e-7
        };
        assert!(like("at_work_arcsec", once), "{worm}: {COMPUTED}");
        assert!(like("copy_hole_error_arcsec", once), "{worm}: {COMPUTED}");
        assert!(like("copy_at_work_arcsec", twice), "{worm}: {COMPUTED}");
        // At the holes of the plate: π × 120 round.
        let rim = off / 1_296_000.0 * std::f64::consts::PI * 120.0;
        assert!((number(&found, "hole_error_mm") - rim).abs() < 1e-12, "arithmetic");
    }
}

#[test]
fn the_best_there_is_makes_it_and_a_copy_is_stepped_on_its_own_circle() {
    let operation = r#"{"kind":"make-plate","holes":127,"diameter":"120 mm","further":true}"#;
    let answered = answer(NO_GEARS, operation);
    assert_eq!(at(&answered, "ways.0.exact"), &Node::Flag(false), "127: {COMPUTED}");
    let worst: Vec<f64> =
        items(at(&answered, "ways")).iter().map(|way| number(way, "worst_error_arcsec")).collect();
    assert!(worst.is_sorted(), "{worst:?}");
    assert!((number(&answered, "hole_error_arcsec") - worst[0]).abs() < 1e-12);
    // R/N = 40/127: forty spaces of the new circle, exactly.
    assert_eq!(at(&answered, "copy.ways.0.circle"), &Node::Whole(127));
    assert_eq!(at(&answered, "copy.ways.0.holes"), &Node::Whole(40));
    assert_eq!(at(&answered, "copy.ways.0.exact"), &Node::Flag(true));
    let found = found(NO_GEARS, operation);
    let steps = found.steps();
    let all: Vec<_> = (0..steps.len()).map(|at| steps.get(at).unwrap()).collect();
    assert_eq!(all.iter().filter(|step| step.cuts).count(), 254, "the plate and its copy");
    let copy = all.iter().find(|step| step.title == "The copy: move to hole 2 of 127").unwrap();
    assert_eq!(copy.figure, "40");
    let alone = r#"{"kind":"make-plate","holes":127,"diameter":"120 mm"}"#;
    let alone = self::found(NO_GEARS, alone);
    let cuts = (0..alone.steps().len()).filter(|at| alone.steps().get(*at).unwrap().cuts).count();
    assert_eq!(cuts, 127);
}

#[test]
fn what_is_exact_leaves_nothing_and_what_is_missing_is_named() {
    // 87 goes by two circles of one plate: 23/29 − 11/33 (old compound tables, from memory).
    let exact = r#"{"kind":"make-plate","holes":87,"diameter":"120 mm"}"#;
    assert_eq!(fact(&card(NO_GEARS, exact), "holes off by up to"), "nothing");
    assert!(number(&answer(NO_GEARS, exact), "hole_error_arcsec").abs() < 1e-12);
    let gear = r#"{"name":"gear","dividing":{"direct":[60]}}"#;
    let direct = make(gear, r#""holes":24,"diameter":"120 mm""#);
    assert!(number(&direct, "hole_error_arcsec") > 0.0);
    // Without a worm nothing divides the error.
    assert_eq!(needs(&direct, "at_work_arcsec"), "shop.dividing");
    assert_eq!(needs(&make(NO_GEARS, r#""holes":53"#), "hole_error_mm"), "operation.diameter");
    assert_eq!(
        text(&make(NO_GEARS, r#""diameter":"120 mm""#), "refused"),
        "say how many holes the plate is to have"
    );
    let bare = make(r#"{"name":"bare"}"#, r#""holes":53"#);
    assert_eq!(
        (text(&bare, "refused"), needs(&bare, "ways")),
        ("nothing in the shop divides a plate yet", "shop.dividing")
    );
    // The most holes there are in a file, and another way than the first.
    let most = make(NO_GEARS, r#""holes":999,"diameter":"200 mm","way":2,"further":true"#);
    assert_eq!(items(at(&most, "positions")).len(), 999);
    assert_eq!(at(&most, "way"), &Node::Whole(2));
}

/// A way that goes several times round says so before the first move, and what neighbours are off by.
#[test]
fn holes_that_come_out_of_order() {
    let operation = r#"{"kind":"make-plate","holes":127,"diameter":"120 mm"}"#;
    let found = answer(NO_GEARS, operation);
    let laps = number(&found, "ways.0.laps") as u32;
    // 14 · 118 = 1652 = 13 · 127 + 1.
    assert_eq!((laps, 14 * 118 % 127), (14, 1), "by hand");
    let steps = at(&found, "steps");
    let first_cut = items(steps).iter().position(|step| says(step, "title", "cut ")).unwrap();
    let told = items(steps)[..first_cut].iter().any(|step| {
        says(step, "say", "Each move passes 14 holes") && says(step, "say", "made 118 moves on")
    });
    assert!(told, "told before the first hole");
}
