//! Graduated dials from a setup file to their answers, beside what is printed.

use latheside_core::operation::{Mark, Picture, Step, Tone};
use latheside_core::record::Node;
use latheside_tests::solved::{
    answer, at, card, fact, found, items, lines, needs, number, said, text,
};

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

/// The same with a speed for a cutter in the lathe spindle.
fn running() -> String {
    SHOP.replace(r#""lathe":{"#, r#""lathe":{"spindle_speeds":[900],"#)
}

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
    let found = found(&running(), operation);
    let steps = found.steps();
    let all: Vec<Step> = (0..steps.len()).map(|at| steps.get(at).unwrap()).collect();
    let cuts: Vec<&Step> = all.iter().filter(|step| step.cuts).collect();
    assert_eq!(cuts.len(), 40);
    for (line, step) in cuts.iter().enumerate() {
        assert_eq!(step.title, format!("cut line {line} of 40"));
        let words = said(step);
        // The cross slide draws them: 4 mm, and 15/19 and 11/19 of it, on lines of 0.02 mm
        // (MIL-P-288B, 3.5.2: 0.19, 0.15 and 0.11 in), 125 of them a turn.
        let (kind, length) = match (line % 10, line % 5) {
            (0, _) => ("A long line.", "1 turn + 75"),
            (_, 0) => ("A middle line.", "1 turn + 33"),
            _ => ("A short line.", "116 lines"),
        };
        let drawn = format!("Feed the cross slide in, away from you to {length}");
        assert!(words.contains(&drawn) && words.contains(kind), "{line}: {words}");
        let Some(Picture::Rim { into, at, mark, first, .. }) = step.picture else { panic!() };
        assert_eq!((into, mark, first), (40, Mark::Graduation, 0));
        assert_eq!(at, u32::try_from(line).unwrap());
        // What the slide reads is the figure.
        assert_eq!(step.figure, length);
        // Locked before the cut, and the lathe spindle stopped before the move.
        let before = all.iter().position(|other| other == *step).unwrap() - 1;
        let before = if all[before].title == "Half-way check" { before - 1 } else { before };
        let before = &all[before];
        assert_eq!((before.done, before.cuts), ("Locked", false));
        let words = [said(before), said(step)].concat();
        let order = [
            "clear",
            "Lock the head's spindle",
            "the head's spindle locked",
            "Start the lathe spindle, forward",
            "Stop the lathe spindle",
        ];
        let places: Vec<_> = order.iter().map(|part| words.find(part).unwrap()).collect();
        assert!(places.is_sorted(), "{words}");
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

/// The entries of a dial of 127 lines for an inch screw in millimetres.
const INCH_SCREW: &str = r#""lead":"4 tpi","least_count":"0.05 mm","diameter":"60 mm""#;

fn dial(more: &str) -> String {
    format!(r#"{{"kind":"graduate",{INCH_SCREW}{more}}}"#)
}

#[test]
fn other_scales_for_an_inch_screw_have_127_lines_or_go_by_the_thou() {
    let found = answer(SHOP, &dial(""));
    let scales: Vec<(f64, &str)> = items(at(&found, "other_scales"))
        .iter()
        .map(|scale| (number(scale, "lines"), text(scale, "value")))
        .collect();
    // 6.35 mm a turn: 254 lines of 0.025 mm; a quarter of an inch: 250 thou.
    assert!(scales.contains(&(254.0, "0.025 mm")), "{scales:?}: {COMPUTED}");
    assert!(scales.contains(&(250.0, "0.0254 mm")), "{scales:?}: {COMPUTED}");
    assert!(scales.contains(&(125.0, "0.0508 mm")), "{scales:?}: {COMPUTED}");
    assert!(scales.iter().all(|(lines, _)| *lines != 127.0), "the one asked for isn't another");
    let card = card(SHOP, &dial(""));
    let named = |line: &str| card.others.iter().any(|other| other.line == line);
    assert!(named("254 lines of 0.025 mm") && named("125 lines of 2 thou"), "{:?}", card.others);
    assert!(card.others.len() <= 40);
    // An inch dial on a metric screw: 5 mm is 196.85 thou, and no whole number of anything in inches.
    let metric = answer(SHOP, r#"{"kind":"graduate","lead":"5 mm","least_count":"1 thou"}"#);
    assert_eq!(at(&metric, "exact"), &Node::Flag(false));
    let whole = items(at(&metric, "other_scales"));
    assert!(whole.iter().any(|scale| number(scale, "lines") == 250.0), "0.02 mm: {COMPUTED}");
}

#[test]
fn a_vernier_of_its_own() {
    // 10 over 9 tells a tenth: Measuring Tools, Machinery's Reference Series 21, vernier chapter.
    let operation = r#"{"kind":"graduate","lead":"5 mm","least_count":"0.1 mm","diameter":"60 mm","vernier":"0.01 mm"}"#;
    let found = answer(SHOP, operation);
    assert_eq!(number(&found, "vernier.divisions"), 10.0, "{TOOLS}");
    assert_eq!(number(&found, "vernier.over"), 9.0, "{TOOLS}");
    assert_eq!(text(&found, "vernier.least_count"), "0.01 mm", "{TOOLS}");
    // 360° / 50 lines × 9 / 10.
    assert_eq!(text(&found, "vernier.angle"), "6.48 deg", "arithmetic");
    let found = self::found(SHOP, operation);
    let steps = found.steps();
    let vernier = steps.get(steps.len() - 3).unwrap();
    let cut = steps.get(steps.len() - 2).unwrap();
    assert!(cut.cuts && cut.say.join(" ").contains("*11* lines"), "{:?}", cut.say);
    assert!(cut.say.join(" ").contains("lock on"), "{:?}", cut.say);
    assert_eq!((vernier.title.as_str(), vernier.figure.as_str()), ("The vernier", "6°28′48″"));
    let odd = operation.replace("0.01 mm", "0.03 mm");
    assert!(text(&answer(SHOP, &odd), "refused").contains("isn't a whole number of"));
}

#[test]
fn figures_are_stamped_astride_their_lines() {
    let found = answer(SHOP, &dial(r#","stamp":"1.5 mm""#));
    let numbers = items(at(&found, "numbers"));
    assert_eq!(numbers.len(), 13);
    let figures: Vec<&str> = numbers.iter().map(|number| text(number, "figures")).collect();
    assert_eq!(figures[..4], ["0", "0.5", "1", "1.5"]);
    for entry in numbers {
        let places = items(at(entry, "stamped_deg"));
        assert_eq!(places.len(), text(entry, "figures").len());
        // Astride the line, and a chord of 1.5 mm on Ø 60 from each to the next.
        let at: Vec<f64> =
            (0..places.len()).map(|n| number(entry, &format!("stamped_deg.{n}"))).collect();
        assert!(at.iter().sum::<f64>().abs() < 1e-9);
        for pair in at.windows(2) {
            let chord = 60.0 * ((pair[1] - pair[0]) / 2.0).to_radians().sin();
            assert!((chord - 1.5).abs() < 1e-9, "arithmetic: {chord}");
        }
    }
    // Numbers that have no room are told.
    let close = card(SHOP, &dial(r#","stamp":"5.5 mm""#));
    assert!(fact(&close, "numbers too long").starts_with("16.5 mm in 14.842 mm"));
}

#[test]
fn the_gap_goes_by_the_cutter_its_holder_and_ones_own_least() {
    let around = std::f64::consts::PI * 60.0;
    let shop = SHOP.replace(
        r#""dividing""#,
        r#""holding":[{"name":"chuck","kind":"chuck","run_out":"0.1 mm"}],
           "cutters":[{"name":"point","kind":"engraver","angle":"60 deg"}],"dividing""#,
    );
    #[rustfmt::skip]
    let rows = [
        // entries, line as cut, gap that must be left
        (r#","line_width":"0.3 mm""#, 0.3, 0.3),
        (r#","line_width":"0.3 mm","holder":"chuck""#, 0.4, 0.4),
        (r#","line_width":"0.3 mm","least_gap":"0.5 mm""#, 0.3, 0.5),
        (r#","line_width":"0.3 mm","least_gap":"0.2 mm""#, 0.3, 0.3),
    ];
    for (entries, line, gap) in rows {
        let found = answer(&shop, &dial(entries));
        assert!((number(&found, "cut_width_mm") - line).abs() < 1e-12, "{entries}");
        assert!((number(&found, "gap_mm") - (around / 127.0 - line)).abs() < 1e-9, "{entries}");
        let finest = (around / (line + gap)).floor();
        assert_eq!(number(&found, "finest_lines"), finest, "{entries}: {COMMON}");
    }
    let card = card(&shop, &dial(r#","line_width":"0.3 mm","depth":"0.1 mm""#));
    // 2 × 0.1 × tan 30° = 0.1155 wide: π·60 / 0.231 = 816 lines; to a micron, 819.
    assert_eq!(fact(&card, "a 60° point, 0.1 mm deep"), "0.115 mm wide: 819 lines");
    assert_eq!(fact(&card, "lines no wider than"), "0.742 mm", "half of line to line");
}

#[test]
fn on_a_face_the_inner_ends_decide() {
    let rim = answer(SHOP, &dial(r#","line_width":"0.3 mm""#));
    let face = answer(SHOP, &dial(r#","line_width":"0.3 mm","lines_on":"face""#));
    let short: f64 = text(&face, "line_lengths.2").trim_end_matches(" mm").parse().unwrap();
    let inner = std::f64::consts::PI * (60.0 - 2.0 * short);
    assert_eq!(number(&rim, "pitch_mm"), number(&face, "pitch_mm"));
    assert!((number(&face, "inner_pitch_mm") - inner / 127.0).abs() < 1e-9);
    assert!((number(&face, "gap_mm") - (inner / 127.0 - 0.3)).abs() < 1e-9);
    assert_eq!(number(&face, "finest_lines"), (inner / 0.6).floor());
    assert!(number(&face, "finest_lines") < number(&rim, "finest_lines"));
}

#[test]
fn what_one_line_is_really_worth() {
    let pitch = std::f64::consts::PI * 60.0 / 127.0;
    let by_eye = 0.05 * 0.2 / pitch;
    #[rustfmt::skip]
    let rows = [
        // entries, out by in mm, what it is trusted for
        ("", by_eye, "half-line"),
        (r#","lead_error":"0.01 mm""#, by_eye + 0.01, "line"),
        (r#","lead_error":"0.03 mm""#, by_eye + 0.03, "indicator"),
        (r#","lead_error":"0.01 mm","shake":"0.2 mm""#, by_eye + 0.01, "line"),
    ];
    for (entries, out_by, trust) in rows {
        let found = answer(SHOP, &dial(entries));
        assert!((number(&found, "out_by_mm") - out_by).abs() < 1e-9, "{entries}: {COMMON}");
        assert_eq!(text(&found, "trust"), trust, "{entries}: {COMMON}");
    }
    // On the diameter the screw's error and the shake count twice.
    let diameter = r#"{"kind":"graduate","lead":"2 mm","least_count":"0.04 mm","reads":"diameter","diameter":"60 mm","lead_error":"0.01 mm","shake":"0.2 mm"}"#;
    let pitch = std::f64::consts::PI * 60.0 / 100.0;
    let out_by = 0.04 * 0.2 / pitch + 0.02;
    assert!((number(&answer(SHOP, diameter), "out_by_mm") - out_by).abs() < 1e-9);
    assert_eq!(fact(&card(SHOP, diameter), "if reversed"), "0.4 mm more");
    // A division that isn't exact is added too: 383 lines have no exact way here.
    let odd = r#"{"kind":"graduate","lead":"3.83 mm","least_count":"0.01 mm","diameter":"200 mm"}"#;
    let found = answer(SHOP, odd);
    let share = number(&found, "ways.0.worst_error_share");
    let by_eye = 0.2 / (std::f64::consts::PI * 200.0 / 383.0);
    assert!(share > 0.0);
    assert!((number(&found, "out_by_mm") - 0.01 * (by_eye + share)).abs() < 1e-9, "{COMMON}");
}

#[test]
fn the_strip_has_what_it_takes_to_print_it() {
    let picture = card(SHOP, &dial(r#","line_width":"0.3 mm""#)).picture;
    let Some(Picture::Collar { lines, every, number, leftwards, diameter_mm, line_mm, .. }) =
        picture
    else {
        panic!("{picture:?}")
    };
    assert_eq!((lines, every, number), (127, (10, 5), (5, 1)), "0.5 mm a number");
    assert!((diameter_mm - 60.0).abs() < 1e-12 && (line_mm - 0.3).abs() < 1e-12);
    // Right-hand: anticlockwise from the handle is to the right with the handle's end upwards.
    assert!(!leftwards);
    let left = card(SHOP, &dial(r#","hand":"left""#)).picture;
    assert!(matches!(left, Some(Picture::Collar { leftwards: true, .. })));
    let thou = r#"{"kind":"graduate","lead":"10 tpi","least_count":"2.5 thou","diameter":"32 mm"}"#;
    let thou = card(SHOP, thou).picture;
    assert!(matches!(thou, Some(Picture::Collar { number: (25, 0), .. })));
    let face = card(SHOP, &dial(r#","lines_on":"face""#)).picture;
    assert!(matches!(face, Some(Picture::Rim { mark: Mark::Graduation, .. })));
}

#[test]
fn the_card_says_units_beside_figures_and_stays_short() {
    use latheside_core::operation::Span;
    let card = card(
        SHOP,
        r#"{"kind":"graduate","lead":"10 tpi","least_count":"2.5 thou","diameter":"32 mm"}"#,
    );
    let figure = |text: &str| Span::Figure(text.to_owned());
    let word = |text: &str| Span::Word(text.to_owned());
    assert_eq!(
        card.lines[..2],
        [vec![figure("40"), word(" lines")], vec![word("of "), figure("2.5 thou")]]
    );
    for operation in [dial(""), dial(r#","line_width":"0.3 mm""#)] {
        for line in self::card(SHOP, &operation).lines {
            let width = |span: &Span| match span {
                Span::Figure(text) => text.chars().count() * 3,
                Span::Word(text) => text.chars().count(),
            };
            assert!(line.iter().map(width).sum::<usize>() <= 32, "{line:?}");
        }
    }
}

#[test]
fn six_facts_are_in_sight_and_the_rest_a_fold_away() {
    use latheside_core::operation::FACTS_IN_SIGHT;
    let labels = |facts: &[&latheside_core::operation::Fact]| -> Vec<String> {
        facts.iter().map(|fact| fact.label.clone()).collect()
    };
    let all = card(SHOP, &dial(r#","line_width":"0.3 mm","depth":"0.1 mm","stamp":"1.5 mm""#));
    let (seen, more) = all.in_sight();
    assert_eq!(seen.len(), FACTS_IN_SIGHT);
    assert_eq!(seen.len() + more.len(), all.facts.len(), "none is lost");
    let seen = labels(&seen);
    for wanted in ["sector arms", "lines", "drawn to", "numbers rise", "trust"] {
        assert!(seen.iter().any(|label| label == wanted), "{wanted} in {seen:?}");
    }
    assert!(labels(&more).contains(&"lost the count?".to_owned()), "{:?}", labels(&more));
    // Where all have room there is no fold.
    let few =
        card(r#"{"name":"bare"}"#, r#"{"kind":"graduate","lead":"2 mm","least_count":"0.02 mm"}"#);
    assert!(few.facts.len() <= FACTS_IN_SIGHT && few.in_sight().1.is_empty());
}

#[test]
fn a_plate_is_drawn_at_each_line_and_the_depth_is_touched_off() {
    let found = found(&running(), &dial(r#","depth":"0.2 mm""#));
    let steps = found.steps();
    let all: Vec<Step> = (0..steps.len()).map(|at| steps.get(at).unwrap()).collect();
    let cuts: Vec<&Step> = all.iter().filter(|step| step.cuts).collect();
    assert_eq!(cuts.len(), 127);
    let moves: Vec<&Step> =
        all.iter().filter(|step| step.done == "Locked" && !step.figure.is_empty()).collect();
    assert!(
        moves[2..]
            .iter()
            .all(|step| matches!(step.picture, Some(Picture::Plate { spaces: 1.., .. })))
    );
    let depth = all.iter().find(|step| step.title == "Set the depth").unwrap();
    let words = [said(depth), said(cuts[0])].concat();
    let order = [
        "the running cutter just marks it",
        "to 0",
        "clear",
        "Lock the carriage",
        "Feed the cross slide",
    ];
    let places: Vec<_> = order.iter().map(|part| words.find(part).unwrap()).collect();
    assert!(places.is_sorted(), "{words}");
    let way = self::found(SHOP, &dial(r#","way":2"#));
    assert_ne!(way.steps().get(0), found.steps().get(0), "another way asked for");
}
