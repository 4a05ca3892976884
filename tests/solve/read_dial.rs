//! A travel on any dial of the shop: setup in, answers out.

use latheside_core::operation::Tone;
use latheside_core::record::Node;
use latheside_tests::solved::{answer, at, card, fact, found, items, lines, needs, number, text};

const SHOP: &str = r#"{"lathe": {"dials": {
    "cross": {"reads": "radius", "division": "0.02 mm", "divisions": 125, "backlash": "0.15 mm"},
    "compound": {"division": "1 thou", "divisions": 100, "reads": "diameter"},
    "carriage": {"division": "0.1 mm", "divisions": 180},
    "tailstock": {"division": "1 thou", "divisions": 100}}}}"#;

/// What each dial says.
fn readings(operation: &str) -> Vec<(String, String)> {
    let found = answer(SHOP, operation);
    let words = |item: &Node| (text(item, "slide").to_owned(), text(item, "dial").to_owned());
    items(at(&found, "readings")).iter().map(words).collect()
}

fn pairs(of: &[(&str, &str)]) -> Vec<(String, String)> {
    of.iter().map(|(a, b)| ((*a).to_owned(), (*b).to_owned())).collect()
}

#[test]
fn a_travel_on_every_dial() {
    // By hand: 6.35 mm is 317.5 lines of 0.02 mm; 500 of half a thou; 63.5 of 0.1 mm; 250 thou.
    assert_eq!(
        readings(r#"{"kind": "read-dial", "amount": "1/4 in"}"#),
        pairs(&[
            ("cross", "2 turns + 67, 0.5 of a line short"),
            ("compound", "5 turns"),
            ("carriage", "63 lines, 0.5 of a line short"),
            ("tailstock", "2 turns + 50"),
        ]),
        "an inch is 25.4 mm, 1959"
    );
}

#[test]
fn on_the_diameter_the_slide_goes_half_of_it() {
    // By hand: 1 mm of diameter is 0.5 mm of slide: 25 lines; 39.37 lines of half a thou. Along the
    // bed a diameter means nothing.
    assert_eq!(
        readings(r#"{"kind": "read-dial", "amount": "1 mm", "meant": "diameter"}"#),
        pairs(&[("cross", "25 lines"), ("compound", "39 lines, 0.37 of a line short")])
    );
}

#[test]
fn from_one_dial_to_another() {
    let operation = r#"{"kind": "read-dial", "from": "tailstock", "turns": 1, "lines": 25, "slide": "carriage"}"#;
    // By hand: 125 thou is 3.175 mm: 31.75 lines of 0.1 mm.
    let first = readings(operation).swap_remove(0);
    assert_eq!(first, ("carriage".to_owned(), "32 lines, 0.25 of a line past".to_owned()));
    let all = readings(operation);
    assert!(all.iter().all(|(slide, _)| slide != "tailstock"), "it isn't read again: {all:?}");
    let json = answer(SHOP, operation);
    assert_eq!(text(&json, "readings.0.left_over_lines"), "-1/4");
    assert_eq!(number(&json, "readings.0.travel_mm"), 3.2);
    let card = card(SHOP, operation);
    assert_eq!(lines(&card), ["the carriage 32 lines"]);
    assert_eq!(card.verdict, Some((Tone::Note, "0.25 of a line past".to_owned())));
    assert_eq!(card.others.len(), 2);
}

#[test]
fn the_drill_takes_the_slack_out_first() {
    let operation = r#"{"kind": "read-dial", "amount": "5.74 mm", "slide": "cross"}"#;
    // By hand: 0.15 mm is 7.5 lines; 287 lines are 2 turns + 37.
    assert_eq!(number(&answer(SHOP, operation), "readings.0.backlash_lines"), 7.5);
    let found = found(SHOP, operation);
    let steps = found.steps();
    let figures: Vec<_> = (0..3).map(|at| steps.get(at).unwrap().figure).collect();
    assert_eq!(figures, ["7.5", "0", "2 turns + 37"]);
    assert!(steps.get(1).unwrap().say[0].contains("back by half a turn"));
    assert!(steps.get(2).unwrap().say.iter().any(|say| say.starts_with("Gone past? Back by")));
    assert!((0..3).all(|at| steps.get(at).unwrap().caution.is_some()));
    assert_eq!(fact(&card(SHOP, operation), "slack"), "7.5 lines");
}

#[test]
fn what_is_missing_is_asked_for() {
    let bare = r#"{"lathe": {"dials": {"cross": {"reads": "radius", "division": "0.02 mm"}}}}"#;
    let found = answer(bare, r#"{"kind": "read-dial", "amount": "1 mm"}"#);
    assert_eq!(text(&found, "readings.0.dial"), "50 lines");
    assert_eq!(needs(&found, "turns"), "shop.lathe.dials.cross");
    assert_eq!(needs(&found, "backlash_lines"), "shop.lathe.dials.cross.backlash");
    for (operation, path) in [
        (
            r#"{"kind": "read-dial", "amount": "1 mm", "slide": "tailstock"}"#,
            "shop.lathe.dials.tailstock",
        ),
        (r#"{"kind": "read-dial", "from": "compound", "lines": 3}"#, "shop.lathe.dials.compound"),
        (r#"{"kind": "read-dial", "from": "cross", "turns": 3}"#, "shop.lathe.dials.cross"),
    ] {
        let refused = answer(bare, operation);
        assert!(!text(&refused, "refused").is_empty(), "{operation}");
        assert_eq!(needs(&refused, "readings"), path, "{operation}");
    }
    for operation in [r#"{"kind": "read-dial"}"#, r#"{"kind": "read-dial", "from": "cross"}"#] {
        assert!(!text(&answer(SHOP, operation), "refused").is_empty(), "{operation}");
    }
}
