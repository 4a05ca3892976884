//! Cuts from a setup file to their answers, beside what is printed.

use latheside_core::operation::{Picture, Tone};
use latheside_core::record::Node;
use latheside_tests::solved::{answer, at, card, fact, found, items, lines, needs, number, text};

const SHOP: &str = r#"{
  "name": "small lathe",
  "lathe": {
    "leadscrew": "3 mm",
    "spindle_speeds": [900, {"rpm": 45, "how": "back gear, belt 1"}, 70, 110, 190, 320, {"rpm": 540, "how": "belt 2"}],
    "dials": {
      "cross": {"division": "0.02 mm", "divisions": 125, "reads": "radius"},
      "compound": {"division": "0.02 mm", "divisions": 100, "reads": "radius"}
    }
  },
  "holding": [{"name": "four-jaw", "kind": "chuck", "to": "90 mm", "rpm_max": 800}],
  "cutters": [
    {"name": "3 mm slot drill", "kind": "end-mill", "diameter": "3 mm", "teeth": 2, "material": "hss"},
    {"name": "2 mm slot drill", "kind": "end-mill", "diameter": "2 mm", "teeth": 2, "material": "hss"},
    {"name": "blade", "kind": "parting-blade", "width": "2 mm"}
  ]
}"#;

fn close(found: f64, wanted: f64, within: f64) -> bool {
    (found - wanted).abs() <= within
}

/// Ideal turns a minute from a printed surface speed: n = 12·CS/(π·d) with feet and inches
/// (TM 1-420 C1 (1942) para 8: fpm / (0.2618 D)).
#[rustfmt::skip]
const PRINTED: &[(&str, &str, &str, f64, f64, f64, &str)] = &[
    // process, stock, diameter, inches of it, ft/min low and high, source
    ("turn",  "mild-steel",          "1 in",   1.0,   70.0,  90.0, "technical college sheet for high-speed steel, 150-170 Bhn"),
    ("drill", "mild-steel",          "1/4 in", 0.25,  80.0, 110.0, "NAVEDTRA 14345 p. 93, low carbon steel"),
    ("drill", "medium-carbon-steel", "1/2 in", 0.5,   70.0,  80.0, "NAVEDTRA 14345 p. 93, medium carbon steel"),
    ("drill", "alloy-steel",         "1/2 in", 0.5,   50.0,  70.0, "NAVEDTRA 14345 p. 93, alloy steel"),
    ("part",  "mild-steel",          "1 in",   1.0,   17.5,  22.5, "open textbook Machining 1 ch. 10.6: grooving at about 1/4 of turning"),
    ("countersink", "mild-steel",    "1/2 in", 0.5,   20.0,  27.5, "machine-shop vocabulary list: countersink at a quarter of drilling"),
];

#[test]
fn turns_a_minute_from_printed_surface_speeds() {
    for (process, stock, diameter, inches, low, high, source) in PRINTED {
        let operation = format!(
            r#"{{"kind":"cut","process":"{process}","stock":"{stock}","diameter":"{diameter}"}}"#
        );
        let found = answer(SHOP, &operation);
        let rpm = |feet: f64| feet / (0.261_799_387_8 * inches);
        for (at, feet) in [("ideal_range_rpm.0", *low), ("ideal_range_rpm.1", *high)] {
            assert!(
                close(number(&found, at) / rpm(feet), 1.0, 1e-6),
                "{process} {stock}: {source}"
            );
        }
        let middle = rpm((low + high) / 2.0);
        assert!(close(number(&found, "ideal_rpm") / middle, 1.0, 1e-6), "{source}");
    }
}

#[test]
fn a_small_cutter_in_steel_wants_some_thousands_and_gets_a_beat() {
    let operation = r#"{"kind":"cut","process":"mill","stock":"mild-steel","cutter":"2 mm slot drill","depth":"8 thou"}"#;
    let found = answer(SHOP, operation);
    let source = "a 2 mm high-speed-steel cutter in steel wants some 3,000 to 4,000 rpm: common practice, no source";
    assert!((3000.0..=4000.0).contains(&number(&found, "ideal_rpm")), "{source}");
    assert_eq!(at(&found, "spindle_rpm"), &Node::Whole(900), "the fastest there is");
    // v = π·d·n: 5.65 m/min.
    assert!(close(number(&found, "surface_m_per_min"), 5.6549, 1e-3));
    let chip = number(&found, "chip_mm_per_tooth");
    assert!(
        close(chip, 0.006, 1e-9),
        "3 thousandths of D, from the cutter maker's user guide (2022)"
    );
    let feed = number(&found, "feed_mm_per_min");
    assert!(close(feed, 900.0 * 2.0 * chip, 1e-9), "feed = n·z·chip, arithmetic");
    // 125 lines of 0.02 mm: 2.5 mm a turn of the cross slide, which feeds in milling.
    assert_eq!(text(&found, "beat.slide"), "cross");
    assert_eq!(text(&found, "beat.turn"), "1/8");
    let seconds = 2.5 / 8.0 * 60.0 / feed;
    assert!(close(number(&found, "beat.seconds"), seconds, 1e-9), "arithmetic");
    assert!((0.4..=3.0).contains(&seconds));
    let steps = items(at(&found, "steps"));
    assert_eq!(text(&steps[0], "figure"), "900");
    let last = steps.last().unwrap();
    assert_eq!((text(last, "figure"), at(last, "cuts")), ("1/8", &Node::Flag(true)));
    assert_eq!(steps.iter().filter(|step| at(step, "cuts") == &Node::Flag(true)).count(), 1);
}

#[test]
fn the_cut_carries_its_beat_and_nothing_else_does() {
    let operation =
        r#"{"kind":"cut","process":"mill","stock":"mild-steel","cutter":"2 mm slot drill"}"#;
    let found = found(SHOP, operation);
    let json = answer(SHOP, operation);
    let steps = found.steps();
    for at in 0..steps.len() {
        let step = steps.get(at).unwrap();
        assert_eq!(step.beat.is_some(), step.cuts, "{}", step.title);
        let Some(beat) = step.beat else { continue };
        assert_eq!((beat.to_a_turn, beat.of), (8, "the cross slide"));
        let seconds = f64::from(beat.milliseconds) / 1000.0;
        assert!(close(seconds, number(&json, "beat.seconds"), 0.0005), "to the millisecond");
    }
}

#[test]
fn a_deep_slot_is_cut_in_passes_that_reach_the_depth() {
    let operation =
        r#"{"kind":"cut","stock":"mild-steel","cutter":"2 mm slot drill","depth":"1.5 mm"}"#;
    let found = answer(SHOP, operation);
    // A quarter of the diameter a pass: common practice, no source.
    assert_eq!(at(&found, "passes"), &Node::Whole(3));
    let figures: Vec<_> =
        items(at(&found, "steps")).iter().skip(2).map(|step| text(step, "figure")).collect();
    assert_eq!(figures, ["0.5 mm", "1 mm", "1.5 mm"]);
}

#[test]
fn the_speed_is_the_highest_that_is_not_above_the_range_else_the_lowest() {
    // 70 to 90 ft/min by the technical college sheet.
    for (diameter, rpm) in [("40 mm", 190), ("12 mm", 540), ("8 mm", 900), ("300 mm", 45)] {
        let operation = format!(
            r#"{{"kind":"cut","process":"turn","stock":"mild-steel","diameter":"{diameter}"}}"#
        );
        let found = answer(SHOP, &operation);
        assert_eq!(at(&found, "spindle_rpm"), &Node::Whole(rpm), "{diameter}");
    }
    let found =
        answer(SHOP, r#"{"kind":"cut","process":"turn","stock":"mild-steel","diameter":"12 mm"}"#);
    assert_eq!(text(&found, "how"), "belt 2");
}

#[test]
fn a_holder_that_does_not_allow_the_speed_is_named() {
    let fast =
        answer(SHOP, r#"{"kind":"cut","process":"turn","stock":"brass","diameter":"10 mm"}"#);
    assert_eq!(text(&fast, "too_fast_for.0"), "four-jaw");
    let slow =
        answer(SHOP, r#"{"kind":"cut","process":"turn","stock":"brass","diameter":"60 mm"}"#);
    assert_eq!(at(&slow, "too_fast_for"), &Node::Null);
}

#[test]
fn what_is_missing_is_named_and_the_rest_is_given() {
    let bare = answer(
        r#"{"name":"bare"}"#,
        r#"{"kind":"cut","process":"mill","stock":"brass","diameter":"6 mm"}"#,
    );
    assert!(number(&bare, "ideal_rpm") > 0.0 && number(&bare, "chip_mm_per_tooth") > 0.0);
    assert_eq!(at(&bare, "cutter_material_assumed"), &Node::Flag(true), "high-speed steel");
    assert_eq!(needs(&bare, "spindle_rpm"), "shop.lathe.spindle_speeds");
    assert_eq!(needs(&bare, "feed_mm_per_min"), "operation.teeth");
    let no_size = answer(SHOP, r#"{"kind":"cut","process":"turn","stock":"brass"}"#);
    assert_eq!(needs(&no_size, "spindle_rpm"), "operation.diameter");
    assert!(number(&no_size, "book_m_per_min.0") > 0.0);
    let turned =
        answer(SHOP, r#"{"kind":"cut","process":"turn","stock":"brass","diameter":"9 mm"}"#);
    assert_eq!(
        needs(&turned, "beat"),
        "shop.lathe.dials.carriage",
        "neither of two slides feeds it"
    );
    for operation in [r#"{"kind":"cut","stock":"brass"}"#, r#"{"kind":"cut","process":"turn"}"#] {
        assert!(!text(&answer(SHOP, operation), "refused").is_empty(), "{operation}");
    }
}

#[test]
fn a_slide_that_is_named_gives_the_beat_and_a_hand_is_never_outrun() {
    let operation = r#"{"kind":"cut","process":"mill","stock":"aluminium","diameter":"6 mm","teeth":99,"slide":"compound"}"#;
    let found = answer(SHOP, operation);
    assert_eq!(text(&found, "beat.slide"), "compound");
    assert_eq!(text(&found, "beat.turn"), "1");
    assert!(number(&found, "beat.seconds") >= 0.4);
}

#[test]
fn the_card_says_the_speed_how_to_set_it_and_how_it_stands() {
    let fits =
        card(SHOP, r#"{"kind":"cut","process":"turn","stock":"mild-steel","diameter":"12 mm"}"#);
    assert_eq!(lines(&fits), ["540 rpm", "belt 2"]);
    // 70 to 90 ft/min at 12 mm, worked by hand: 1000·21.336/(π·12) = 566, 27.432 gives 728.
    let between = "a little slow: the next one up is beyond 566 to 728";
    assert_eq!(fits.verdict, Some((Tone::Note, between.to_owned())));
    assert_eq!(fact(&fits, "surface speed"), "20 m/min; the book: 21 to 27 m/min");
    let Some(Picture::Speeds { owned, chosen, .. }) = &fits.picture else { panic!("speeds") };
    assert_eq!((owned.len(), *chosen), (7, 540));
    let notes: Vec<_> = fits.others.iter().map(|other| other.line.as_str()).collect();
    assert_eq!(notes, ["900 rpm", "320 rpm"]);

    let slow = card(
        SHOP,
        r#"{"kind":"cut","process":"mill","stock":"mild-steel","cutter":"3 mm slot drill"}"#,
    );
    let words = "the fastest there is: two fifths of what the book asks";
    assert_eq!(slow.verdict, Some((Tone::Note, words.to_owned())));
    assert_eq!(fact(&slow, "beat"), "1/4 turn of the cross slide each 2.3 s");

    let inch =
        card(SHOP, r#"{"kind":"cut","process":"turn","stock":"mild-steel","diameter":"1 in"}"#);
    assert_eq!(fact(&inch, "surface speed"), "84 ft/min; the book: 70 to 90 ft/min");
    assert_eq!(inch.verdict, Some((Tone::Good, "within 267 to 344".to_owned())));
}
