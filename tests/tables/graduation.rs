//! Graduated dials beside printed examples and independent computations, a source on each row.

use latheside_core::dividing::{Head, Kit, Method, Setting, plain, ways};
use latheside_core::exact::Ratio;
use latheside_core::graduation::{
    Hand, Line, Marks, Moves, Reads, Scale, Turning, Vernier, grows_turning, line_lengths,
    numbers_run, reads_well, scale, spacing, stamp_offsets, stamp_room, vernier_for,
};

const COMPUTED: &str = "independent computation in exact fractions";
const TOOLS: &str = "Measuring Tools, Machinery's Reference Series 21, 3rd ed. 1910, micrometer chapter, Gutenberg #43375";
const CLOCK: &str = "The Modern Clock, pendulum regulating nut, Gutenberg #61494";
const TREATISE: &str = "Practical Treatise on Milling and Milling Machines, p. 93";
const PROTRACTOR: &str = "MIL-P-288B protractor specification, 3.5.2-3.5.3 (p. 5)";
const COMMON: &str = "common practice, no source";

const INCH: Ratio = Ratio::of(254, 10);

fn inches(num: i64, den: i64) -> Ratio {
    Ratio::of(num, den).mul(INCH).unwrap()
}

fn mm(num: i64, den: i64) -> Ratio {
    Ratio::of(num, den)
}

fn agrees(found: f64, printed: &str) -> bool {
    let decimals = printed.split_once('.').map_or(0, |(_, places)| places.len());
    let half_a_place = 0.5 * 10f64.powi(-i32::try_from(decimals).unwrap());
    (found - printed.parse::<f64>().unwrap()).abs() <= half_a_place * 1.000_001
}

#[test]
fn what_a_line_is_worth() {
    #[rustfmt::skip]
    let rows = [
        // lead, lines, one line, source
        (inches(1, 40), 25, inches(1, 1000), TOOLS),
        (inches(1, 40), 250, inches(1, 10_000), TOOLS),
        (inches(1, 2), 50, inches(1, 100), TOOLS),
        (inches(1, 36), 30, inches(1, 1080), CLOCK),
        (mm(1, 1), 50, mm(2, 100), COMPUTED),
        (mm(5, 4), 50, mm(25, 1000), COMPUTED),
        (mm(5, 2), 125, mm(2, 100), COMPUTED),
        (mm(5, 1), 250, mm(2, 100), COMPUTED),
        (inches(1, 10), 100, inches(1, 1000), COMPUTED),
        (inches(1, 8), 125, inches(1, 1000), COMPUTED),
        (inches(1, 5), 200, inches(1, 1000), COMPUTED),
        (inches(1, 4), 250, inches(1, 1000), COMPUTED),
        (inches(1, 20), 50, inches(1, 1000), COMPUTED),
        // An inch screw with a dial in millimetres.
        (inches(1, 4), 127, mm(5, 100), COMPUTED),
        (inches(1, 5), 127, mm(4, 100), COMPUTED),
        (inches(1, 16), 127, mm(125, 10_000), COMPUTED),
        (mm(1, 1), 10, mm(1, 10), COMMON),
    ];
    for (lead, lines, value, source) in rows {
        let found = scale(lead, value, Reads::Radius).unwrap();
        assert_eq!((found.lines, found.exact()), (lines, true), "{lead} mm: {source}");
        assert_eq!(found.leftover(), Ok(Ratio::ZERO), "{lead} mm: {source}");
        let back = Scale::of(lead, lines, value).unwrap();
        assert_eq!(back.value, value, "{lead} mm: {source}");
    }
    let nut = Scale::of(inches(1, 36), 30, mm(1, 1)).unwrap().value.div(INCH).unwrap();
    assert!(agrees(nut.to_f64(), "0.000925926"), "{CLOCK}");
}

#[test]
fn a_value_that_does_not_go_in() {
    let thou = inches(1, 1000);
    // 250/3 lines: neither whole nor a decimal part finer.
    let twelfth = scale(inches(1, 12), thou, Reads::Radius).unwrap();
    assert_eq!(
        (twelfth.exact(), twelfth.finer()),
        (false, Ok(None)),
        "use another value: {COMPUTED}"
    );
    let sixteenth = scale(inches(1, 16), thou, Reads::Radius).unwrap();
    assert!(!sixteenth.exact());
    let finer = sixteenth.finer().unwrap().unwrap();
    assert_eq!((finer.lines, finer.value), (125, inches(1, 2000)), "125 of 0.0005: {COMPUTED}");
}

#[test]
fn a_metric_screw_with_a_dial_in_thou() {
    #[rustfmt::skip]
    let rows = [
        // lead, lines, one line in inches, parts per million
        (mm(5, 4), 49, "0.001004339", "4338.7"),
        (mm(2, 1), 79, "0.0009967109", "-3289.1"),
        (mm(5, 2), 98, "0.001004339", "4338.7"),
        (mm(4, 1), 157, "0.001003059", "3059.3"),
        (mm(6, 1), 236, "0.001000934", "934.21"),
    ];
    for (lead, lines, inch, ppm) in rows {
        let found = scale(lead, inches(1, 1000), Reads::Radius).unwrap();
        assert_eq!(found.lines, lines, "{lead} mm: {COMPUTED}");
        assert!(agrees(found.value.div(INCH).unwrap().to_f64(), inch), "{lead} mm: {COMPUTED}");
        assert!(agrees(found.off().unwrap().to_f64() * 1e6, ppm), "{lead} mm: {COMPUTED}");
        // Over 100 lines' worth of travel the ppm are what is left over.
        let over = found.leftover_over(Ratio::whole(100)).unwrap().to_f64();
        assert!((over * 1e4 - found.off().unwrap().to_f64() * 1e6).abs() < 1e-6);
    }
}

#[test]
fn radius_and_diameter() {
    for (lead, lines, on_radius, on_diameter) in [
        (inches(1, 10), 100, inches(1, 1000), inches(2, 1000)),
        (mm(2, 1), 100, mm(2, 100), mm(4, 100)),
    ] {
        let radius = scale(lead, on_radius, Reads::Radius).unwrap();
        let diameter = scale(lead, on_diameter, Reads::Diameter).unwrap();
        assert_eq!((radius.lines, diameter.lines), (lines, lines), "{COMPUTED}");
        assert!(
            radius.exact() && diameter.exact(),
            "label each line with twice the travel: {COMPUTED}"
        );
        let twice = scale(lead, on_radius, Reads::Diameter).unwrap();
        assert_eq!(
            (twice.lines, twice.exact()),
            (2 * lines, true),
            "or twice the lines: {COMPUTED}"
        );
    }
}

#[test]
fn verniers() {
    let forty = vernier_for(inches(1, 40), inches(1, 1000)).unwrap();
    assert_eq!((forty.divisions(), forty.over()), (25, 24), "40ths to thousandths: {TREATISE}");
    #[rustfmt::skip]
    let rows = [
        // vernier, over main, main, least count, vernier division
        (10, 9, mm(1, 10), mm(1, 100), mm(9, 100)),
        (20, 19, mm(1, 1), mm(1, 20), mm(19, 20)),
        (50, 49, mm(1, 1), mm(1, 50), mm(49, 50)),
        (12, 11, mm(60, 1), mm(5, 1), mm(55, 1)),
        (12, 23, mm(60, 1), mm(5, 1), mm(115, 1)),
        (10, 19, mm(1, 1), mm(1, 10), mm(19, 10)),
    ];
    for (divisions, over, main, least, division) in rows {
        let vernier = Vernier::new(divisions, over).unwrap();
        assert_eq!(vernier.least_count(main), Ok(least), "{divisions} on {over}: {COMPUTED}");
        assert_eq!(vernier.division(main), Ok(division), "{divisions} on {over}: {COMPUTED}");
        if over + 1 == divisions {
            assert_eq!(vernier_for(main, least), Ok(vernier), "{COMPUTED}");
        }
    }
}

#[test]
fn a_vernier_beside_a_dial() {
    #[rustfmt::skip]
    let rows = [
        // lines, main, vernier division and span in degrees, turns of a 40:1 crank
        (50, Ratio::of(72, 10), Ratio::of(648, 100), Ratio::of(648, 10), Ratio::of(18, 25)),
        (100, Ratio::of(36, 10), Ratio::of(324, 100), Ratio::of(324, 10), Ratio::of(9, 25)),
        (200, Ratio::of(18, 10), Ratio::of(162, 100), Ratio::of(162, 10), Ratio::of(9, 50)),
    ];
    let vernier = Vernier::new(10, 9).unwrap();
    for (lines, main, division, span, crank) in rows {
        assert_eq!(Ratio::of(360, lines), main, "{COMPUTED}");
        assert_eq!(vernier.division(main), Ok(division), "{COMPUTED}");
        assert_eq!(vernier.span(main), Ok(span), "{COMPUTED}");
        let turns = vernier.division(Ratio::of(40, lines)).unwrap();
        assert_eq!(turns, crank, "{COMPUTED}");
    }
    let three: Vec<u16> =
        [15, 16, 17, 18, 19, 20, 21, 23, 27, 29, 31, 33, 37, 39, 41, 43, 47, 49].into();
    assert!(plain::exact_move(Ratio::of(9, 25), &three).is_empty(), "no circle by 25: {COMPUTED}");
    let expected = Setting::Plain { turns: 0, holes: 9, circle: Some(25) };
    assert_eq!(plain::exact_move(Ratio::of(9, 25), &[25]), [expected], "{COMPUTED}");
}

#[test]
fn how_long_the_lines_are() {
    let found = line_lengths(Ratio::of(19, 100)).unwrap();
    assert_eq!(found, [Ratio::of(19, 100), Ratio::of(15, 100), Ratio::of(11, 100)], "{PROTRACTOR}");
    let steps = [found[0].sub(found[1]), found[1].sub(found[2])];
    assert_eq!(steps, [Ok(Ratio::of(4, 100)); 2], "equal steps: {COMPUTED}");
    for (length, share) in line_lengths(Ratio::ONE).unwrap().iter().zip(["1.000", "0.789", "0.579"])
    {
        assert!(agrees(length.to_f64(), share), "{share} of the longest: {COMPUTED}");
    }
}

#[test]
fn how_many_are_long_middle_and_short() {
    #[rustfmt::skip]
    let rows = [
        // lines, middle every, long every, long, middle, short, last interval
        (127, 5, 10, (13, 13, 101), 7),
        (200, 5, 10, (20, 20, 160), 10),
        (250, 5, 25, (10, 40, 200), 25),
        (60, 5, 10, (6, 6, 48), 10),
        (50, 5, 10, (5, 5, 40), 10),
    ];
    for (lines, middle_every, long_every, counts, last) in rows {
        let marks = Marks { long_every, middle_every };
        assert_eq!(marks.counts(lines), counts, "{lines}: {COMPUTED}");
        assert_eq!(marks.last_interval(lines), last, "{lines}: {COMPUTED}");
    }
    let marks = Marks::default();
    // Numerals at every tenth, at most nine marks between: MIL-HDBK-759B notice 2, 5.2.2.3.1.4.1.
    let long: Vec<u32> = (0..40).filter(|line| marks.line(*line) == Line::Long).collect();
    assert_eq!(long, [0, 10, 20, 30], "numerals every 10: {PROTRACTOR}");
    assert!(long.windows(2).all(|pair| pair[1] - pair[0] - 1 <= 9));
}

#[test]
fn values_that_read_well() {
    const RULE: &str =
        "1, 2 or 5 units or decimal multiples: MIL-HDBK-759B notice 2 (1993), 5.2.2.3.1.4.1";
    for well in [mm(1, 100), mm(2, 100), mm(5, 100), mm(1, 1), mm(50, 1)] {
        assert!(reads_well(well), "{well}: {RULE}");
    }
    for badly in [mm(4, 100), mm(125, 10_000), mm(3, 1)] {
        assert!(!reads_well(badly), "{badly}: {RULE}");
    }
}

#[test]
fn which_way_the_numbers_run() {
    const STANDARD: &str = "fixed pointer, moving scale: numbers grow clockwise where the dial turns counter-clockwise for an increase: MIL-STD-1472E 5.2.3.3.1";
    assert_eq!(numbers_run(Turning::Anticlockwise), Turning::Clockwise, "{STANDARD}");
    // A cross slide that goes in when turned clockwise has a left-hand screw in a nut that moves.
    let turning = grows_turning(Hand::Left, Moves::Nut, true);
    assert_eq!(turning, Turning::Clockwise, "from what hand means");
    assert_eq!(numbers_run(turning), Turning::Anticlockwise, "{STANDARD}");
    // A right-hand screw that goes along with its handle does the same.
    assert_eq!(grows_turning(Hand::Right, Moves::Screw, true), Turning::Clockwise);
    assert_eq!(grows_turning(Hand::Right, Moves::Nut, true), Turning::Anticlockwise);
    assert_eq!(grows_turning(Hand::Right, Moves::Nut, false), Turning::Clockwise);
}

#[test]
fn lines_by_a_pointed_tool() {
    const PRACTICE: &str = "general shop practice, from memory; relation computed";
    let sixty = Ratio::whole(60);
    assert!(agrees(spacing::line_width(mm(1, 10), sixty), "0.1155"), "{COMPUTED}");
    assert!(agrees(spacing::line_width(mm(15, 100), sixty), "0.1732"), "{COMPUTED}");
    assert!(agrees(spacing::line_width(Ratio::ONE, sixty), "1.155"), "{PRACTICE}");
    // Widths of 0.10 to 0.20 mm come of depths of 0.08 to 0.20 mm, near enough.
    let width = |hundredths| spacing::line_width(mm(hundredths, 100), sixty);
    assert!(
        width(8) < 0.10 && width(9) > 0.10 && width(17) < 0.20 && width(20) > 0.20,
        "{PRACTICE}"
    );
}

#[test]
fn how_far_apart_the_lines_are() {
    for (diameter, lines, printed) in
        [(50, 100, "1.5708"), (60, 125, "1.5080"), (40, 100, "1.2566")]
    {
        let found = spacing::pitch(Ratio::whole(diameter), lines);
        assert!(agrees(found, printed), "{diameter} mm, {lines} lines: {found}: {COMPUTED}");
    }
    // 32 mm and 0.3 mm lines: 100.53/0.6 is 167.55.
    let width = mm(3, 10);
    assert_eq!(spacing::finest_lines(Ratio::whole(32), width, None), Some(167), "by hand");
    assert!(
        spacing::widest_line(Ratio::whole(32), 167) > 0.3
            && spacing::widest_line(Ratio::whole(32), 168) < 0.3
    );
    assert_eq!(
        spacing::finest_lines(Ratio::whole(32), width, Some(mm(5, 10))),
        Some(125),
        "by hand"
    );
}

#[test]
fn where_each_digit_is_stamped() {
    #[rustfmt::skip]
    let rows: [(i64, Ratio, &[&str]); 3] = [
        // diameter, pitch of the digits, degrees from the line
        (50, mm(16, 10), &["-3.6676", "0.0000", "3.6676"]),
        (38, mm(15, 10), &["-2.2623", "2.2623"]),
        (60, mm(25, 10), &["-4.7760", "0.0000", "4.7760"]),
    ];
    for (diameter, pitch, expected) in rows {
        let digits = u32::try_from(expected.len()).unwrap();
        let found = stamp_offsets(Ratio::whole(diameter), pitch, digits);
        assert_eq!(found.len(), expected.len());
        for (found, printed) in found.iter().zip(expected) {
            assert!(
                agrees(*found, printed),
                "{diameter} mm: {found} against {printed}: {COMPUTED}"
            );
        }
    }
    assert!(stamp_offsets(Ratio::whole(2), Ratio::whole(3), 2).is_empty());
    // 10 numbers round 50 mm, 2 digits at 2 mm.
    let room = stamp_room(Ratio::whole(50), 100, 10);
    assert!(agrees(room, "15.71") && room > 2.0 * 2.0, "fits: {COMPUTED}");
}

/// A dial's own numbers of lines on a common head are among the rows of plain indexing; 127 needs
/// gears.
#[test]
fn a_dial_of_127_on_a_head() {
    let head = Head {
        worm_ratio: 40,
        plates: vec![
            vec![15, 16, 17, 18, 19, 20],
            vec![21, 23, 27, 29, 31, 33],
            vec![37, 39, 41, 43, 47, 49],
        ],
        gears: vec![24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100],
        pairs_max: 2,
        stud_clearance_teeth: None,
        centres_teeth: None,
    };
    let kit = Kit { direct: vec![127], half_tooth: true, head: Some(head) };
    let lines = scale(inches(1, 4), mm(5, 100), Reads::Radius).unwrap().lines;
    let found = ways(lines, &kit).unwrap();
    assert_eq!((found.ways[0].method(), found.found.plain), (Method::Direct, 0));
    assert_eq!(found.ways[1].method(), Method::Differential);
}
