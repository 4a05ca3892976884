//! Holes and lines in a row: setup in, answers out.

use latheside_core::operation::{Picture, Step, Tone};
use latheside_core::record::Node;
use latheside_tests::solved::{
    answer, at, card, fact, found, items, lines, near, needs, number, says, text,
};
use proptest::prelude::*;

const SHOP: &str = r#"{"lathe": {"dials": {
    "cross": {"reads": "radius", "division": "0.02 mm", "divisions": 125, "backlash": "0.15 mm", "travel": "140 mm"},
    "compound": {"reads": "radius", "division": "1 thou", "divisions": 100, "travel": "3 1/2 in"},
    "carriage": {"division": "0.1 mm", "divisions": 180, "travel": "2 m"}}},
    "drills": ["5 mm", "6 mm"]}"#;

fn row(entries: &str) -> String {
    format!(r#"{{"kind": "space", {entries}}}"#)
}

/// What the dial says at each place.
fn dial(found: &Node) -> Vec<&str> {
    items(at(found, "positions")).iter().map(|place| text(place, "dial")).collect()
}

fn steps(operation: &str) -> Vec<Step> {
    let found = found(SHOP, operation);
    let steps = found.steps();
    (0..steps.len()).filter_map(|at| steps.get(at)).collect()
}

#[test]
fn a_row_of_pin_holes() {
    let pins = row(
        r#""places": 8, "what": "holes", "pitch": "32 mm", "length": "250 mm", "first": "13 mm", "drill": "5 mm", "slide": "carriage""#,
    );
    let found = answer(SHOP, &pins);
    // Common practice of cabinet makers, no source: holes of 5 mm, 32 mm apart.
    assert_eq!((number(&found, "places"), number(&found, "pitch_mm")), (8.0, 32.0));
    assert_eq!(text(&found, "overall"), "224 mm", "by hand: 7 × 32");
    assert_eq!(number(&found, "last_mm"), 13.0, "by hand: 250 − 13 − 224");
    // By hand: 32 mm are 320 lines of 0.1 mm, a turn of 180 and 140.
    #[rustfmt::skip]
    let by_hand = ["0 lines", "1 turn + 140", "3 turns + 100", "5 turns + 60", "7 turns + 20", "8 turns + 160", "10 turns + 120", "12 turns + 80"];
    assert_eq!(dial(&found), by_hand);
    assert_eq!(number(&found, "worst_mm"), 0.0);
    assert_eq!(number(&found, "web_mm"), 27.0, "by hand: 32 − 5");
    assert_eq!(number(&found, "wall_mm"), 10.5, "by hand: 13 − 5 / 2");
    assert!(at(&found, "lacking") == &Node::Null, "{found:?}");
    let card = card(SHOP, &pins);
    assert_eq!(lines(&card), ["8 holes, 32 mm apart", "the carriage, the second at 1 turn + 140"]);
    assert_eq!(card.verdict, Some((Tone::Good, "every place falls on a line".to_owned())));
    assert_eq!(fact(&card, "left between holes"), "27 mm");
    let rows = card.table.unwrap().rows;
    assert_eq!(rows.len(), 8);
    assert_eq!(
        (&*rows[7].name, &*rows[7].setting, &*rows[7].note),
        ("8", "12 turns + 80", "224 mm")
    );
}

#[test]
fn a_scale_of_units_comes_out_as_published() {
    // IEC 60297: a unit of 44.45 mm, which is 1 3/4 in; 42 of them are 1866.9 mm.
    for pitch in ["44.45 mm", "1 3/4 in", "1750 thou"] {
        let found =
            answer(SHOP, &row(&format!(r#""places": 43, "pitch": "{pitch}", "what": "lines""#)));
        assert_eq!(text(&found, "overall"), "1866.9 mm", "IEC 60297, {pitch}");
    }
}

#[test]
fn millimetres_on_an_inch_dial_do_not_add_up_their_errors() {
    let mixed = row(r#""places": 4, "pitch": "10 mm", "slide": "compound""#);
    let found = answer(SHOP, &mixed);
    // By hand: 10 mm are 393.70 thou, 20 are 787.40, 30 are 1181.10; three times 394 would be 1182.
    assert_eq!(
        dial(&found),
        [
            "0 lines",
            "3 turns + 94, 0.3 of a line past",
            "7 turns + 87, 0.4 of a line short",
            "11 turns + 81, 0.1 of a line short",
        ],
        "an inch is 25.4 mm by the agreement on the yard of 1959"
    );
    // By hand: 20 − 787 × 0.0254 = 0.0102 mm short.
    near(number(&found, "positions.2.off_mm"), -0.0102, 1e-9, "787 × 0.0254 = 19.9898");
    near(number(&found, "worst_mm"), 0.0102, 1e-9, "the worst of the four");
    near(number(&found, "worst_lines"), 0.0102 / 0.0254, 1e-9, "in lines");
    let (tone, words) = card(SHOP, &mixed).verdict.unwrap();
    assert_eq!(
        (tone, words.starts_with("none off by more than 0.4 of a line, 0.01 mm")),
        (Tone::Note, true),
        "{words}"
    );
    // The other way about, an eighth of an inch is 3.175 mm: 31.75 lines of 0.1 mm.
    let inch = answer(SHOP, &row(r#""places": 5, "pitch": "1/8 in", "slide": "carriage""#));
    assert_eq!(text(&inch, "positions.1.dial"), "32 lines, 0.25 of a line past");
    assert_eq!(text(&inch, "positions.4.dial"), "127 lines", "half an inch is 12.7 mm");
}

#[test]
fn spaces_between_two_ends_are_equal() {
    let posts =
        row(r#""apart": "30 mm", "length": "220 mm", "first": "10 mm", "slide": "carriage""#);
    let found = answer(SHOP, &posts);
    // By hand: 200 mm in spaces of 30 mm at the most: 7 of them, 28 4/7 mm each.
    assert_eq!((number(&found, "places"), text(&found, "pitch")), (8.0, "200/7 mm"));
    assert_eq!(text(&found, "positions.3.from_first"), "600/7 mm");
    assert_eq!(text(&found, "positions.7.from_first"), "200 mm", "the last is exact");
    assert_eq!(number(&found, "last_mm"), 10.0, "as far from its end as the first");
    assert_eq!(lines(&card(SHOP, &posts))[0], "8 holes, 28.571 mm (28 4/7) apart");
    // The same with both ends and the count, in inches: 7 1/2 in between the ends, 1 1/2 in each.
    let inch = row(r#""places": 6, "length": "8 in", "first": "1/4 in", "last": "1/4 in""#);
    assert_eq!(lines(&card(SHOP, &inch))[0], "6 holes, 1 1/2 in apart");
}

#[test]
fn a_slide_that_goes_no_further_has_the_bar_shifted() {
    let long = row(r#""places": 8, "pitch": "32 mm", "slide": "cross""#);
    let found = answer(SHOP, &long);
    // By hand: 140 mm hold 4 spaces of 32 mm, so 5 holes; 32 mm are 1600 lines: 12 turns and 100.
    assert_eq!(number(&found, "in_one_setting"), 5.0);
    assert_eq!(dial(&found)[3..6], ["38 turns + 50", "51 turns + 25", "12 turns + 100"]);
    assert_eq!(number(&found, "positions.4.dial_from_place"), 1.0);
    assert_eq!(number(&found, "positions.5.dial_from_place"), 5.0);
    let (tone, words) = card(SHOP, &long).verdict.unwrap();
    assert_eq!(
        (tone, &*words),
        (Tone::Mind, "the cross slide goes 140 mm: after 5 the bar is shifted")
    );
    let steps = steps(&long);
    let titles: Vec<&str> = steps.iter().map(|step| &*step.title).collect();
    assert_eq!(titles[6..9], ["hole 5 of 8", "Shift the bar", "hole 6 of 8"]);
    assert_eq!(steps.len(), 12, "two before, eight holes, a shift, a check");
    assert!(steps[7].say.iter().any(|say| say.contains("hole *5* freely")), "{:?}", steps[7].say);
    // Not as far as one space: no dial helps.
    let far = answer(SHOP, &row(r#""places": 3, "pitch": "150 mm", "slide": "cross""#));
    assert_eq!((number(&far, "in_one_setting"), text(&far, "positions.1.dial")), (1.0, ""));
}

#[test]
fn each_hole_is_a_step_come_to_from_one_side() {
    let pins = row(
        r#""places": 3, "pitch": "10 mm", "first": "13 mm", "drill": "6 mm", "slide": "compound""#,
    );
    let found = found(SHOP, &pins);
    let steps = found.steps();
    let titles: Vec<String> = (0..steps.len()).map(|at| steps.get(at).unwrap().title).collect();
    assert_eq!(
        titles,
        [
            "Clamp the bar",
            "Find the first",
            "hole 1 of 3",
            "hole 2 of 3",
            "hole 3 of 3",
            "Check the row"
        ]
    );
    let first = steps.get(1).unwrap();
    // By hand: 13 mm are 511.81 thou.
    assert!(
        first.say.iter().any(|say| say.contains("*5 turns + 12, 0.19 of a line past*")),
        "{first:?}"
    );
    let here = steps.get(2).unwrap();
    assert_eq!((&*here.label, &*here.figure), ("the compound slide", "0"), "no move yet");
    let second = steps.get(3).unwrap();
    assert_eq!((&*second.label, &*second.figure), ("the compound slide, on to", "3 turns + 94"));
    assert!(
        second.say.iter().any(|say| say.contains("0.3 of a line too far: stop that much before"))
    );
    assert!(second.cuts && second.caution.is_some());
    assert!(
        steps
            .get(4)
            .unwrap()
            .say
            .iter()
            .any(|say| say.contains("0.4 of a line short: go that much beyond"))
    );
    assert!(
        steps.back(3).unwrap().contains("Back by half a turn, then on again to *3 turns + 94*")
    );
    assert_eq!(steps.back(0), None);
    // The slide is free before each move and locked before each cut.
    for at in 3..5 {
        let say = steps.get(at).unwrap().say.join(" ");
        let place = |words: &str| say.find(words).unwrap_or_else(|| panic!("{words}: {say}"));
        assert!(
            place("Unlock") < place("Wind on") && place("Lock the") < place("Spindle on"),
            "{say}"
        );
    }
    // By hand: 20 mm from first to last and a hole of 6 mm.
    assert_eq!(steps.get(5).unwrap().figure, "26 mm");
    for (at, made) in [(0, 0), (2, 0), (3, 1), (5, 3)] {
        let Some(Picture::Bar(bar)) = steps.get(at).unwrap().picture else { panic!("no bar") };
        assert_eq!((bar.places, bar.made), (3, made), "{at}");
    }
}

#[test]
fn little_left_is_told_with_its_figure() {
    #[rustfmt::skip]
    let rows = [
        // Thin below half of a diameter: common practice, no source.
        (r#""places": 4, "pitch": "6 mm", "drill": "5 mm""#, "only 1 mm between the holes", "pilot at every place"),
        (r#""places": 4, "pitch": "5 mm", "drill": "6 mm""#, "the holes run into each other", "run into each other"),
        (r#""places": 4, "pitch": "20 mm", "drill": "5 mm", "first": "4 mm""#, "only 1.5 mm left to the edge", "bulges or breaks out"),
        (r#""places": 4, "pitch": "20 mm", "drill": "5 mm", "first": "9 mm", "side": "3 mm""#, "only 0.5 mm left to the edge", "bulges or breaks out"),
        (r#""places": 4, "pitch": "20 mm", "drill": "5 mm", "first": "2 mm""#, "the drill breaks out of the edge", "bulges or breaks out"),
    ];
    for (entries, verdict, caution) in rows {
        let operation = row(&format!(r#"{entries}, "slide": "carriage""#));
        assert_eq!(card(SHOP, &operation).verdict.unwrap(), (Tone::Mind, verdict.to_owned()));
        assert!(says(&answer(SHOP, &operation), "cautions", caution), "{entries}");
    }
    // Lines are not drilled: nothing is left out between them.
    let lines =
        answer(SHOP, &row(r#""places": 4, "pitch": "1 mm", "drill": "5 mm", "what": "lines""#));
    assert!(at(&lines, "web_mm") == &Node::Null);
}

#[test]
fn what_is_missing_or_does_not_agree_is_said() {
    let bare = r#"{"name": "bare"}"#;
    let found = answer(bare, &row(r#""places": 3, "pitch": "10 mm""#));
    assert_eq!(needs(&found, "dial"), "shop.lathe.dials");
    assert_eq!(needs(&found, "web_mm"), "operation.drill");
    assert_eq!(number(&found, "positions.2.from_first_mm"), 20.0, "a rule will do");
    let cross = r#"{"lathe": {"dials": {"cross": {"reads": "radius", "division": "0.02 mm"}}}}"#;
    let found = answer(cross, &row(r#""places": 3, "pitch": "10 mm", "drill": "5 mm""#));
    assert_eq!(needs(&found, "turns"), "shop.lathe.dials.cross");
    assert_eq!(needs(&found, "in_one_setting"), "shop.lathe.dials.cross.travel");
    assert_eq!(needs(&found, "wall_mm"), "operation.first");
    let found = answer(cross, &row(r#""places": 3, "pitch": "10 mm", "slide": "carriage""#));
    assert_eq!(needs(&found, "dial"), "shop.lathe.dials.carriage");
    for (entries, words) in [
        (r#""places": 3"#, "how far apart"),
        (r#""pitch": "10 mm""#, "say how many"),
        (r#""pitch": "1 in", "overall": "7 1/2 in""#, "7 of them are 7 in, 8 are 8 in"),
        (
            r#""places": 8, "pitch": "32 mm", "overall": "200 mm""#,
            "8 of them 32 mm apart are 224 mm from first to last, not 200 mm",
        ),
        (
            r#""places": 8, "pitch": "32 mm", "length": "200 mm", "first": "10 mm""#,
            "the last would stand 34 mm beyond the end of 200 mm",
        ),
    ] {
        let refused = answer(SHOP, &row(entries));
        assert!(says(&refused, "refused", words), "{entries}: {refused:?}");
    }
}

/// The whole number at a path.
fn whole(node: &Node, path: &str) -> i128 {
    match at(node, path) {
        Node::Whole(n) => i128::from(*n),
        other => panic!("{path}: {other:?}"),
    }
}

/// Numerator and denominator of `200/7 mm` or of `1.25 mm`.
fn fraction(length: &str) -> (i128, i128) {
    let bare = length.strip_suffix(" mm").unwrap();
    if let Some((above, below)) = bare.split_once('/') {
        return (above.parse().unwrap(), below.parse().unwrap());
    }
    let (whole, part) = bare.split_once('.').unwrap_or((bare, ""));
    (format!("{whole}{part}").parse().unwrap(), 10_i128.pow(part.len() as u32))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]
    /// The plain way, in whole numbers: place n of N stands n/(N − 1) of the whole from the first, and
    /// the dial's line is never further from it than half a line.
    #[test]
    fn every_place_is_where_the_plain_way_has_it(
        places in 2_u32..120, overall in 100_i128..1_000_000, line in 1_i128..500, divisions in 10_i128..400,
    ) {
        let shop = format!(
            r#"{{"lathe": {{"dials": {{"cross": {{"reads": "radius", "division": "{line} um", "divisions": {divisions}}}}}}}}}"#
        );
        let found = answer(&shop, &row(&format!(r#""places": {places}, "overall": "{overall} um""#)));
        let spaces = i128::from(places) - 1;
        for (n, place) in (0_i128..).zip(items(at(&found, "positions"))) {
            // In micrometres: overall × n / spaces.
            let (above, below) = fraction(text(place, "from_first"));
            prop_assert_eq!(above * 1000 * spaces, overall * n * below, "place {}", n);
            let counted = whole(place, "turns") * divisions + whole(place, "lines");
            prop_assert!(whole(place, "lines") < divisions);
            let off = counted * line * spaces - overall * n;
            prop_assert!(2 * off.abs() <= line * spaces, "place {} is off by {}/{} um", n, off, spaces);
        }
        let last = items(at(&found, "positions")).last().unwrap();
        let (above, below) = fraction(text(last, "from_first"));
        prop_assert_eq!(above * 1000, overall * below, "the last is exact");
    }
}
