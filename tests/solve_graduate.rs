//! Graduated dials from a setup file to their answers, beside what is printed.

use latheside_core::operation::{Mark, Picture, Step, Tone};
use latheside_core::record::Node;
use latheside_tests::solved::{answer, at, card, fact, found, items, lines, needs, number, text};

const SHOP: &str = r#"{"name":"head",
  "lathe":{"dials":{"cross":{"division":"0.02 mm","divisions":125,"reads":"radius"},
                    "carriage":{"division":"0.1 mm","divisions":180}}},
  "dividing":{"direct":[72,24],"head":{"worm_ratio":40,
    "plates":[[15,16,17,18,19,20],[21,23,27,29,31,33],[37,39,41,43,47,49]],
    "gears":[24,24,28,32,40,44,48,56,64,72,86,100],"pairs_max":2}}}"#;

const COMPUTED: &str = "independent computation in exact fractions";
const TOOLS: &str =
    "Measuring Tools, Machinery's Reference Series 21, 3rd ed. 1910, micrometer chapter";
const COMMON: &str = "common practice, no source";

fn graduate(entries: &str) -> Node {
    answer(SHOP, &format!(r#"{{"kind":"graduate",{entries}}}"#))
}

/// Lead, one line, reads, lines, one line exactly.
#[rustfmt::skip]
const DIALS: &[(&str, &str, &str, i64, &str, &str)] = &[
    ("1/40 in", "1 thou",     "radius",   25,  "0.0254 mm",  TOOLS),
    ("1/40 in", "0.1 thou",   "radius",   250, "0.00254 mm", TOOLS),
    ("1/2 in",  "10 thou",    "radius",   50,  "0.254 mm",   TOOLS),
    ("1 mm",    "0.1 mm",     "radius",   10,  "0.1 mm",     COMMON),
    ("1 mm",    "0.02 mm",    "radius",   50,  "0.02 mm",    COMPUTED),
    ("2.5 mm",  "0.02 mm",    "radius",   125, "0.02 mm",    COMPUTED),
    ("10 tpi",  "1 thou",     "radius",   100, "0.0254 mm",  COMPUTED),
    ("8 tpi",   "1 thou",     "radius",   125, "0.0254 mm",  COMPUTED),
    ("10 tpi",  "2 thou",     "diameter", 100, "0.0508 mm",  COMPUTED),
    ("2 mm",    "0.04 mm",    "diameter", 100, "0.04 mm",    COMPUTED),
    ("4 tpi",   "0.05 mm",    "radius",   127, "0.05 mm",    COMPUTED),
    ("5 tpi",   "0.04 mm",    "radius",   127, "0.04 mm",    COMPUTED),
    ("16 tpi",  "0.0125 mm",  "radius",   127, "0.0125 mm",  COMPUTED),
];

#[test]
fn lines_and_what_each_is_worth() {
    for (lead, one, reads, lines, value, source) in DIALS {
        let found = graduate(&format!(
            r#""lead":"{lead}","least_count":"{one}","reads":"{reads}","diameter":"60 mm""#
        ));
        assert_eq!(at(&found, "lines"), &Node::Whole(*lines), "{lead} {one}: {source}");
        assert_eq!(text(&found, "value"), *value, "{lead} {one}: {source}");
        assert_eq!(at(&found, "exact"), &Node::Flag(true), "{lead} {one}: {source}");
        // Every tenth long, the other fifths middle.
        let count = |every: i64| (lines + every - 1) / every;
        let (long, middle) = (count(10), count(5) - count(10));
        assert_eq!(at(&found, "long"), &Node::Whole(long), "{lines}");
        assert_eq!(at(&found, "middle"), &Node::Whole(middle), "{lines}");
        assert_eq!(at(&found, "short"), &Node::Whole(lines - long - middle), "{lines}");
        assert_eq!(items(at(&found, "positions")).len(), usize::try_from(*lines).unwrap());
    }
}

#[test]
fn an_inch_screw_of_twelve_has_no_whole_thou() {
    let entries = r#""lead":"1/12 in","least_count":"1 thou","diameter":"60 mm""#;
    let found = graduate(entries);
    // 250/3 lines: 83, and a third of a thou over.
    assert_eq!(at(&found, "lines"), &Node::Whole(83), "{COMPUTED}");
    assert_eq!(at(&found, "exact"), &Node::Flag(false), "{COMPUTED}");
    assert_eq!(text(&found, "leftover"), "127/15000 mm", "a third of 0.0254 mm");
    let card = card(SHOP, &format!(r#"{{"kind":"graduate",{entries}}}"#));
    let words = "not exactly 1 thou: 0.33 thou left over in a turn";
    assert_eq!(card.verdict, Some((Tone::Note, words.to_owned())));
    let sixteen = r#"{"kind":"graduate","lead":"16 tpi","least_count":"1 thou"}"#;
    assert_eq!(
        fact(&self::card(SHOP, sixteen), "exact would be"),
        "125 lines of 0.5 thou",
        "{COMPUTED}"
    );
}

#[test]
fn spacing_gap_and_the_finest_scale() {
    let found = graduate(
        r#""lead":"10 tpi","least_count":"2.5 thou","diameter":"32 mm","line_width":"0.3 mm""#,
    );
    let pitch = std::f64::consts::PI * 32.0 / 40.0;
    assert!((number(&found, "pitch_mm") - pitch).abs() < 1e-9, "π·d/lines");
    assert!((number(&found, "gap_mm") - (pitch - 0.3)).abs() < 1e-9, "less the line");
    // π·32/0.6 = 167.55.
    assert_eq!(at(&found, "finest_lines"), &Node::Whole(167));
    let close = r#"{"kind":"graduate","lead":"10 tpi","least_count":"0.5 thou","diameter":"32 mm","line_width":"0.3 mm"}"#;
    let (tone, words) = card(SHOP, close).verdict.unwrap();
    assert_eq!(
        (tone, words.as_str()),
        (Tone::Mind, "the lines too close to tell: 167 at the most here")
    );
}

#[test]
fn each_line_says_how_long_it_is_and_what_it_reads() {
    let operation = r#"{"kind":"graduate","lead":"10 tpi","least_count":"2.5 thou","reads":"radius","diameter":"32 mm",
      "line_width":"0.3 mm","lines_on":"rim","work_in":"head-on-cross-slide","cutter_in":"lathe-spindle"}"#;
    let found = found(SHOP, operation);
    let steps = found.steps();
    let all: Vec<Step> = (0..steps.len()).map(|at| steps.get(at).unwrap()).collect();
    let cuts: Vec<&Step> = all.iter().filter(|step| step.cuts).collect();
    assert_eq!(cuts.len(), 40);
    for (line, step) in cuts.iter().enumerate() {
        assert_eq!(step.title, format!("line {line} of 40"));
        let said = step.say.join(" ").replace('*', "");
        // The cross slide draws them: 4 mm, and 15/19 and 11/19 of it, on lines of 0.02 mm
        // (MIL-P-288B, 3.5.2: 0.19, 0.15 and 0.11 in).
        let length = match (line % 10, line % 5) {
            (0, _) => "Long line: the cross slide to 4 mm.",
            (_, 0) => "Middle line: the cross slide to 3.16 mm.",
            _ => "Short line: the cross slide to 2.32 mm.",
        };
        assert!(said.contains(length), "{line}: {said}");
        let number = match line {
            0 => Some("It is numbered 0."),
            10 => Some("It is numbered 25 thou."),
            30 => Some("It is numbered 75 thou."),
            _ => None,
        };
        match number {
            Some(number) => assert!(said.contains(number), "{line}: {said}"),
            None => assert!(line == 20 || !said.contains("numbered"), "{line}: {said}"),
        }
        // One turn of the crank each: no hole to show, so the rim.
        let at = u32::try_from(line).unwrap();
        assert_eq!(step.picture, Some(Picture::Rim { into: 40, at, mark: Mark::Graduation }));
        // Locked before the cut, and the lathe spindle stopped before the move.
        let order = ["stopped", "Lock the head's spindle", "Lathe spindle on, cut"];
        let places: Vec<_> = order.iter().map(|part| said.find(part).unwrap()).collect();
        assert!(places.is_sorted(), "{said}");
    }
    assert_eq!(all.last().unwrap().title, "Number it");
}

#[test]
fn a_dial_of_127_lines_is_divided_through_gears() {
    let operation =
        r#"{"kind":"graduate","lead":"4 tpi","least_count":"0.05 mm","diameter":"60 mm"}"#;
    let found = answer(SHOP, operation);
    assert_eq!(text(&found, "ways.0.method"), "differential", "{COMPUTED}");
    let card = card(SHOP, operation);
    assert_eq!(lines(&card)[..2], ["127 lines", "of 0.05 mm"]);
    assert_eq!(card.verdict, Some((Tone::Good, "exact".to_owned())));
    assert_eq!(fact(&card, "last number to 0"), "7 lines");
}

#[test]
fn numbers_rise_against_the_turning_dial() {
    // MIL-STD-1472E 5.2.3.3.1: they increase clockwise where the dial turns anticlockwise for more.
    for (hand, run) in [("right", "anticlockwise"), ("left", "clockwise")] {
        let entries = format!(r#""lead":"2 mm","least_count":"0.02 mm","hand":"{hand}""#);
        assert_eq!(text(&graduate(&entries), "numbers_run"), run, "{hand}");
    }
}

#[test]
fn what_is_missing_is_named_and_the_rest_is_given() {
    let no_lead = graduate(r#""diameter":"32 mm","line_width":"0.3 mm""#);
    assert_eq!(at(&no_lead, "finest_lines"), &Node::Whole(167));
    assert_eq!(needs(&no_lead, "lines"), "operation.lead");
    let bare =
        answer(r#"{"name":"bare"}"#, r#"{"kind":"graduate","lead":"1 mm","least_count":"0.1 mm"}"#);
    assert_eq!(at(&bare, "lines"), &Node::Whole(10));
    assert_eq!(needs(&bare, "ways"), "shop.dividing");
    assert_eq!(needs(&bare, "pitch_mm"), "operation.diameter");
    assert_eq!(items(at(&bare, "steps")).len(), 0);
    let no_width = graduate(r#""lead":"1 mm","least_count":"0.1 mm","diameter":"20 mm""#);
    assert_eq!(needs(&no_width, "gap_mm"), "operation.line_width");
    assert!(number(&no_width, "pitch_mm") > 0.0);
    for (entries, refused) in [
        (r#""lead":"1 mm""#, "say the screw's lead and what one line is to be worth"),
        (
            r#""lead":"1 mm","least_count":"3 mm""#,
            "one line of 3 mm is more than a turn moves, 1 mm",
        ),
        (
            r#""lead":"2 pi mm","least_count":"0.1 mm""#,
            "a lead with π in it is a worm's: no whole lines go round for it",
        ),
    ] {
        assert_eq!(text(&graduate(entries), "refused"), refused);
    }
}

#[test]
fn too_few_positions_leave_the_lines_standing() {
    let shop = r#"{"name":"small","dividing":{"direct":[24]}}"#;
    let operation =
        r#"{"kind":"graduate","lead":"1 mm","least_count":"0.01 mm","diameter":"40 mm"}"#;
    let found = answer(shop, operation);
    assert_eq!(at(&found, "lines"), &Node::Whole(100));
    assert_eq!(needs(&found, "ways"), "shop.dividing");
    let (tone, words) = card(shop, operation).verdict.unwrap();
    assert!(
        tone == Tone::Mind && words.starts_with("100 divisions need more positions"),
        "{words}"
    );
}
