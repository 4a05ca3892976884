//! Cuts from a setup file to their answers, beside what is printed.

use latheside_core::operation::{Picture, Tone};
use latheside_core::record::Node;
use latheside_tests::solved::{
    answer, at, card, fact, found, items, lines, needs, number, says, text,
};

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
fn a_hair_above_the_range_beats_one_far_below() {
    // 70 to 90 ft/min on 25 mm is 272 to 349 rpm (technical college sheet).
    let shop =
        |speeds: &str| format!(r#"{{"name": "x", "lathe": {{"spindle_speeds": [{speeds}]}}}}"#);
    let turn = r#"{"kind":"cut","process":"turn","stock":"mild-steel","diameter":"25 mm"}"#;
    for (speeds, rpm, tone) in [
        ("200, 350", 350, Tone::Good),
        ("200, 366", 366, Tone::Good),
        ("200, 367", 200, Tone::Note),
        ("200, 300, 350", 300, Tone::Good),
        ("350", 350, Tone::Good),
        ("270", 270, Tone::Good),
    ] {
        let found = answer(&shop(speeds), turn);
        assert_eq!(at(&found, "spindle_rpm"), &Node::Whole(rpm), "{speeds}");
        assert_eq!(card(&shop(speeds), turn).verdict.unwrap().0, tone, "{speeds}");
    }
}

/// Each cutter's chip is its own shape's; the bands are starting figures, and say so.
#[test]
fn a_chip_by_the_shape_of_the_cutter() {
    let shop = r#"{"name": "x", "lathe": {"spindle_speeds": [40, 120, 1400],
      "dials": {"cross": {"division": "0.02 mm", "divisions": 125, "reads": "radius"}}},
      "cutters": [
        {"name": "saw", "kind": "slitting-saw", "diameter": "63 mm", "teeth": 64, "width": "1 mm", "material": "hss"},
        {"name": "tip", "kind": "engraver", "diameter": "6 mm", "teeth": 1, "angle": "60 deg", "width": "0.3 mm"},
        {"name": "pt", "kind": "engraver", "diameter": "6 mm", "teeth": 1, "angle": "60 deg"}]}"#;
    let cut = |cutter: &str, more: &str| {
        let operation =
            format!(r#"{{"kind":"cut","stock":"mild-steel","cutter":"{cutter}"{more}}}"#);
        answer(shop, &operation)
    };
    let saw = cut("saw", r#","depth":"3 mm""#);
    let source = "0.005 to 0.02 mm a tooth of a thin saw: a starting figure, from memory";
    let chip = number(&saw, "chip_mm_per_tooth");
    assert!((0.005..=0.02).contains(&chip), "{source}: {chip}");
    assert!(says(&saw, "why", "starting figure"), "{source}");
    // 120 × 64 × 0.005 = 38.4 mm/min.
    assert!(close(number(&saw, "feed_mm_per_min"), 38.4, 1e-9), "arithmetic");
    let source = "0.002 to 0.005 mm a tooth of a tip of 0.3 mm: a starting figure, from memory";
    let tip = cut("tip", r#","depth":"0.2 mm""#);
    let chip = number(&tip, "chip_mm_per_tooth");
    assert!((0.002..=0.005).contains(&chip), "{source}: {chip}");
    assert!(says(&tip, "why", "starting figure"), "{source}");
    assert_eq!(at(&tip, "spindle_rpm"), &Node::Whole(1400), "the fastest there is");
    // A sharp one is as wide as what it cuts: 2 × 0.2 × tan 30° = 0.231 mm.
    let sharp = number(&cut("pt", r#","depth":"0.2 mm""#), "chip_mm_per_tooth");
    assert!((0.001..=0.004).contains(&sharp), "{source}: {sharp}");
    assert_eq!(needs(&cut("pt", ""), "chip_mm_per_tooth"), "operation.diameter");
}

/// A feed under a thirty-second of a turn each three seconds isn't asked of a hand.
#[test]
fn a_hand_is_not_asked_for_less_than_it_keeps_even() {
    let shop = |rpm: u32| {
        format!(
            r#"{{"name": "x", "lathe": {{"spindle_speeds": [{rpm}],
            "dials": {{"cross": {{"division": "0.02 mm", "divisions": 125, "reads": "radius"}}}}}}}}"#
        )
    };
    let mill =
        r#"{"kind":"cut","process":"mill","stock":"mild-steel","diameter":"2 mm","teeth":2}"#;
    // 100 × 2 × 0.006 is 1.2 mm/min, 100 × 2 × 0.018 is 3.6; a 32nd of 2.5 mm each 3 s is 1.5625.
    let lifted = answer(&shop(100), mill);
    assert_eq!(text(&lifted, "beat.turn"), "1/32");
    assert!(close(number(&lifted, "beat.seconds"), 3.0, 1e-9), "common practice, no source");
    assert!(close(number(&lifted, "feed_mm_per_min"), 1.5625, 1e-9), "common practice, no source");
    assert!(close(number(&lifted, "chip_mm_per_tooth"), 1.5625 / 200.0, 1e-9), "arithmetic");
    // 40 × 2 × 0.018 is 1.44: past what may break it.
    let slow = answer(&shop(40), mill);
    assert_eq!(needs(&slow, "beat"), "shop.lathe.dials.compound");
    assert!(fact(&card(&shop(40), mill), "beat").starts_with("not by hand: "));
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
    let near = "near enough to 566 to 728";
    assert_eq!(fits.verdict, Some((Tone::Good, near.to_owned())));
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

#[test]
fn a_power_feed_of_the_machine_stands_beside_the_hand() {
    let shop = |more: &str| {
        format!(r#"{{"lathe": {{"spindle_speeds": [320], "leadscrew": "3 mm"{more}}}}}"#)
    };
    let turn = r#"{"kind":"cut","process":"turn","stock":"mild-steel","diameter":"25.4 mm"}"#;
    // 5 thou a turn at an inch (quick reference sheet): 0.127 mm.
    let listed = shop(r#", "feeds": ["0.2 mm", {"feed": "0.1 mm", "how": "lever A2"}, "0.05 mm"]"#);
    assert!(close(number(&answer(&listed, turn), "power_feed_mm_per_rev"), 0.1, 1e-9));
    assert_eq!(fact(&card(&listed, turn), "by power"), "0.1 mm a turn: lever A2");
    let coarse = shop(r#", "feeds": ["0.2 mm"]"#);
    assert_eq!(fact(&card(&coarse, turn), "by power"), "0.2 mm a turn, the finest");
    // By hand: 3 mm × 20/80 × 20/120 = 0.125 mm a turn, just short of 0.127.
    let geared = shop(r#", "change_gears": [20, 20, 80, 120], "pairs_max": 2"#);
    assert!(close(number(&answer(&geared, turn), "power_feed_mm_per_rev"), 0.125, 1e-9));
    let words = card(&geared, turn);
    assert!(fact(&words, "by power").ends_with("half-nuts closed"), "{}", fact(&words, "by power"));
    // Every train is coarser than that: by hand.
    let none = answer(&shop(r#", "change_gears": [50, 60]"#), turn);
    assert_eq!(at(&none, "power_feed_mm_per_rev"), &Node::Null);
    let drill = r#"{"kind":"cut","process":"drill","stock":"mild-steel","diameter":"10 mm"}"#;
    assert_eq!(at(&answer(&listed, drill), "power_feed_mm_per_rev"), &Node::Null);
}

#[test]
fn a_cut_says_how_long_it_takes_and_the_hand_apart() {
    let operation = r#"{"kind":"cut","stock":"mild-steel","cutter":"2 mm slot drill","depth":"1.5 mm","length":"20 mm"}"#;
    let json = answer(SHOP, operation);
    let feed = number(&json, "feed_mm_per_min");
    // Three passes of 20 mm; 20 s between them by hand: common practice, no source.
    assert!(close(number(&json, "cutting_minutes"), 3.0 * 20.0 / feed, 1e-6), "arithmetic");
    assert!(close(number(&json, "minutes"), 3.0 * 20.0 / feed + 1.0, 1e-6), "arithmetic");
    let beat = found(SHOP, operation).steps().get(2).unwrap().beat.unwrap();
    // 20 mm at 2.5 / 8 mm a beat.
    assert_eq!(beat.beats, Some(64));
    assert_eq!(
        needs(&answer(SHOP, &operation.replace(r#","length":"20 mm""#, "")), "minutes"),
        "operation.length"
    );
}

#[test]
fn a_cut_that_cannot_be_taken_says_so() {
    let turn = |more: &str| {
        format!(
            r#"{{"kind":"cut","process":"turn","stock":"mild-steel","diameter":"10 mm","depth":"1 mm"{more}}}"#
        )
    };
    let found = answer(SHOP, &turn(r#","stick_out":"40 mm""#));
    // 5 thou × 10 / 25.4 is 0.05 mm a turn; 1800 / 0.05^0.2 = 3277 N/mm², × 1 × 0.05 = 163.85 N.
    let source = "Tabellenbuch Zerspantechnik, 5th ed. (2022) p. 215";
    assert!(close(number(&found, "force_n"), 163.85, 0.01), "{source}");
    // 900 rpm, near enough to 873, on 10 mm is 28.27 m/min: 163.85 N × 28.27 / 60 = 77.2 W.
    assert!(close(number(&found, "power_w"), 77.21, 0.02), "arithmetic");
    // I = π 10⁴ / 64 = 490.87 mm⁴; 163.85 × 40³ / (3 × 205000 × 490.87) = 0.0347 mm.
    assert!(close(number(&found, "gives_mm"), 0.0347, 0.0001), "mechanics");
    assert!(says(&found, "why", source), "the table is named");
    let verdict = |operation: &str, shop: &str| card(shop, operation).verdict.unwrap();
    assert_ne!(verdict(&turn(r#","stick_out":"40 mm""#), SHOP).0, Tone::Mind);
    let long = verdict(&turn(r#","stick_out":"70 mm""#), SHOP);
    assert_eq!(long, (Tone::Mind, "the work gives 0.19 mm: shallower, shorter or held up".into()));
    let weak = SHOP.replace(r#""leadscrew""#, r#""motor_watts": 20, "leadscrew""#);
    let weak = verdict(&turn(""), &weak);
    assert_eq!(
        weak,
        (Tone::Mind, "asks 77 W where about 14 reach the cut: a shallower one".into())
    );
    let bar = SHOP.replace(
        r#"{"name": "blade""#,
        r#"{"name": "bar", "kind": "boring-bar", "diameter": "8 mm"}, {"name": "blade""#,
    );
    let bored = r#"{"kind":"cut","stock":"aluminium","diameter":"20 mm","cutter":"bar","depth":"0.2 mm","stick_out":"40 mm"}"#;
    let bored = verdict(bored, &bar);
    assert_eq!(bored, (Tone::Mind, "the bar sticks out 5.0 diameters: shorter, or held up".into()));
}

#[test]
fn a_machine_too_slow_for_a_small_cutter_says_all_of_it() {
    // 1,400 rpm and a 2 mm cutter of two teeth.
    let shop = SHOP.replace("[900,", "[1400, 900,");
    let slow = card(&shop, r#"{"kind":"cut","stock":"mild-steel","cutter":"2 mm slot drill"}"#);
    assert!(
        slow.verdict.as_ref().unwrap().1.starts_with("the fastest there is: "),
        "{:?}",
        slow.verdict
    );
    // π × 2 mm × 1400 = 8.8 m/min.
    assert!(fact(&slow, "surface speed").starts_with("8.8 m/min; the book: "));
    // 3 and 9 thousandths of D a tooth: a cutter maker's user guide (2022).
    assert_eq!(fact(&slow, "chip"), "0.006 mm a tooth: less rubs, over 0.018 mm may break it");
    // 1400 × 2 × 0.006 = 16.8 mm/min, the figure of the worked example.
    assert_eq!(fact(&slow, "feed"), "16.8 mm/min, never over 50.4 mm/min");
    assert_eq!(fact(&slow, "a slot, each pass"), "0.5 mm deep at most");
    let shop = shop.replace(r#""divisions": 125"#, r#""divisions": 127"#);
    let beat = card(&shop, r#"{"kind":"cut","stock":"mild-steel","cutter":"2 mm slot drill"}"#);
    // 2.54 mm a turn: a quarter turn in 2.3 s, as in the worked example.
    assert_eq!(fact(&beat, "beat"), "1/4 turn of the cross slide each 2.3 s");
}

#[test]
fn what_grips_it_may_forbid_the_speed() {
    let turned = |held: &str| {
        let operation = format!(
            r#"{{"kind":"cut","process":"turn","stock":"brass","diameter":"10 mm"{held}}}"#
        );
        answer(SHOP, &operation)
    };
    let held = turned(r#","held_in":"four-jaw""#);
    assert_eq!(number(&held, "spindle_rpm"), 540.0, "the four-jaw is made for 800 rpm at most");
    assert_eq!(at(&held, "too_fast_for"), &Node::Null);
    assert_eq!(number(&turned(r#","held_in":"collet""#), "spindle_rpm"), 900.0);
    assert_eq!(number(&turned(""), "spindle_rpm"), 900.0);
}

#[test]
fn where_books_differ_both_stand_and_the_hardness_beside_them() {
    let found =
        answer(SHOP, r#"{"kind":"cut","process":"turn","stock":"mild-steel","diameter":"1 in"}"#);
    let whys = items(at(&found, "why"));
    let of = |formula: &str| -> Vec<&str> {
        let those = whys.iter().filter(|why| text(why, "formula") == formula);
        those.map(|why| text(why, "values")).collect()
    };
    // Jones, Turning and Boring (1914) p. 72-75, machine steel: 45 to 65 ft/min.
    assert!(of("v, by another book").contains(&"45 to 65 ft/min"), "{whys:?}");
    assert!(of("v as printed")[0].contains("150 to 170 Brinell"), "college sheet, 150-170 Bhn");
    assert!(!of("feed, by another book").is_empty(), "quick reference and laboratory sheet");
}
