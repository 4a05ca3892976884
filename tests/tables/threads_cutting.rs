//! Threads beside the printed tables: cutting them.

use latheside_core::exact::Ratio;
use latheside_core::quantity::Unit;
use latheside_core::shop::Dial;
use latheside_core::threads::{
    ChasingDial, Count, Designation, Feed, INCH, PassesError, Plan, Profile, Rule, Sharing, Side,
    compound_setting, compound_travel, diametral_equivalent, end_shake, half_nuts, helix,
    helix_deg, identify, infeed, infeed_to_shake, lead_error, limits, parse, passes,
};

type Turn = ((i64, i64), u16, &'static [(i64, i64)]);
type Step = ((i64, i64), u16, u16, (i64, i64), Option<u16>);

/// Leadscrew mm, dial wheel, the pitches (mm) of the list that repeat in one turn. Source: principle in
/// Jones, Turning and Boring (1914) p. 142, worked for metric.
#[rustfmt::skip]
const ONE_TURN: &[Turn] = &[
    ((3, 1), 14, &[(1, 2), (7, 10), (3, 4), (1, 1), (3, 2), (7, 4), (2, 1), (3, 1), (7, 2)]),
    ((3, 1), 16, &[(1, 2), (3, 4), (4, 5), (1, 1), (3, 2), (2, 1), (3, 1), (4, 1)]),
    ((3, 1), 21, &[(1, 2), (7, 10), (3, 4), (1, 1), (3, 2), (7, 4), (3, 1), (7, 2)]),
    ((3, 1), 22, &[(1, 2), (3, 4), (1, 1), (3, 2), (2, 1), (3, 1)]),
    ((3, 1), 24, &[(1, 2), (3, 4), (4, 5), (1, 1), (3, 2), (2, 1), (3, 1), (4, 1)]),
    ((2, 1), 18, &[(1, 2), (3, 4), (4, 5), (1, 1), (3, 2), (2, 1), (3, 1), (4, 1)]),
    ((2, 1), 21, &[(1, 2), (7, 10), (3, 4), (1, 1), (3, 2), (7, 4), (2, 1), (3, 1), (7, 2)]),
    ((2, 1), 24, &[(1, 2), (3, 4), (4, 5), (1, 1), (3, 2), (2, 1), (3, 1), (4, 1)]),
    ((3, 2), 15, &[(1, 2), (3, 4), (5, 4), (3, 2), (5, 2)]),
    ((3, 2), 16, &[(1, 2), (3, 4), (4, 5), (1, 1), (3, 2), (2, 1), (3, 1), (4, 1)]),
    ((3, 2), 18, &[(1, 2), (3, 4), (1, 1), (3, 2), (3, 1)]),
    ((3, 2), 22, &[(1, 2), (3, 4), (1, 1), (3, 2), (3, 1)]),
    ((3, 2), 24, &[(1, 2), (3, 4), (4, 5), (1, 1), (3, 2), (2, 1), (3, 1), (4, 1)]),
];

/// Leadscrew mm, dial wheel, marks, pitch mm, marks between engagements. Source: as above.
#[rustfmt::skip]
const STEPS: &[Step] = &[
    ((3, 1), 14, 1, (7, 4), Some(1)), ((3, 1), 15, 1, (5, 4), Some(1)),
    ((3, 1), 15, 3, (5, 4), Some(1)), ((3, 1), 16, 4, (4, 1), Some(1)),
    ((3, 1), 16, 1, (1, 1), Some(1)), ((3, 1), 16, 1, (4, 5), Some(1)),
    ((3, 2), 16, 1, (5, 4), None), ((3, 1), 20, 1, (4, 5), Some(1)), ((3, 1), 14, 1, (5, 4), None),
];

fn ratio((num, den): (i64, i64)) -> Ratio {
    Ratio::of(num, den)
}

fn tpi(n: i64) -> Ratio {
    INCH.div(Ratio::whole(n)).unwrap()
}

fn read(name: &str) -> (Designation, Profile) {
    let thread = parse(name).unwrap_or_else(|why| panic!("{name}: {why}"));
    (thread, Profile::of(&thread).unwrap().unwrap())
}

#[track_caller]
fn near(found: f64, printed: f64, within: f64, name: &str, source: &str) {
    assert!((found - printed).abs() <= within + 1e-12, "{name}: {found}, not {printed} ({source})");
}

#[test]
fn one_mark_dials_on_metric_leadscrews() {
    // The pitches that the source's list was made from.
    let tried: [(i64, i64); 13] = [
        (1, 2),
        (7, 10),
        (3, 4),
        (4, 5),
        (1, 1),
        (5, 4),
        (3, 2),
        (7, 4),
        (2, 1),
        (5, 2),
        (3, 1),
        (7, 2),
        (4, 1),
    ];
    for (leadscrew, wheel_teeth, repeat) in ONE_TURN {
        let dial = ChasingDial { wheel_teeth: *wheel_teeth, marks: 1 };
        for pitch in tried {
            let found = half_nuts(ratio(pitch), ratio(*leadscrew), Some(dial)).unwrap();
            let closed = found.rule == Rule::KeepClosed;
            assert_eq!(!closed, repeat.contains(&pitch), "{leadscrew:?} {wheel_teeth} {pitch:?}");
        }
    }
    for (leadscrew, wheel_teeth, marks, pitch, step) in STEPS {
        let dial = ChasingDial { wheel_teeth: *wheel_teeth, marks: *marks };
        let found = half_nuts(ratio(*pitch), ratio(*leadscrew), Some(dial)).unwrap();
        let between = match found.rule {
            Rule::KeepClosed => None,
            Rule::Anywhere | Rule::AnyMark => Some(1),
            Rule::EveryNthMark(n) => Some(n),
            Rule::OneMark => Some(*marks),
        };
        assert_eq!(between, *step, "{leadscrew:?} {wheel_teeth} {marks} {pitch:?}");
    }
}

#[test]
fn half_nuts_by_the_handbooks() {
    // Source: Jones, Turning and Boring (1914) p. 139-142, leadscrew of 6 tpi: dial of 24 teeth.
    let dial = Some(ChasingDial { wheel_teeth: 24, marks: 4 });
    for n in [6, 12, 18] {
        let found = half_nuts(tpi(n), tpi(6), dial).unwrap();
        assert_eq!(found.rule, Rule::Anywhere, "{n} tpi: any time (Jones p. 139)");
    }
    for n in [3, 7, 9, 11] {
        let found = half_nuts(tpi(n), tpi(6), dial).unwrap();
        let source = "odd threads: any of the 4 numbered lines, one inch apart (Jones p. 139-142)";
        assert_eq!((found.rule, found.marks.len()), (Rule::AnyMark, 4), "{n} tpi: {source}");
    }
    for quarters in [9, 13] {
        // 2 1/4 and 3 1/4 tpi.
        let lead = INCH.div(Ratio::of(quarters, 4)).unwrap();
        let found = half_nuts(lead, tpi(6), dial).unwrap();
        let source = "quarter threads: back to the starting point (handbook, p. 192)";
        assert_eq!((found.rule, found.marks), (Rule::OneMark, vec![1]), "{quarters}/4: {source}");
    }
    // Half threads: every other line, by hand.
    let found = half_nuts(INCH.div(Ratio::of(9, 2)).unwrap(), tpi(6), dial).unwrap();
    assert_eq!((found.rule, found.marks), (Rule::EveryNthMark(2), vec![1, 3]));
    // Source: Jones p. 139, the same principle: pitches that divide a 3 mm leadscrew.
    for pitch in [(1, 2), (3, 4), (1, 1), (3, 2), (3, 1)] {
        assert_eq!(half_nuts(ratio(pitch), ratio((3, 1)), None).unwrap().rule, Rule::Anywhere);
    }
    // Source: TM 1-420 (1940) p. 81: a two-start thread of 8 tpi goes by its lead, 1/4 in.
    let two = parse("1/2-8 UNS, 2 starts").unwrap();
    let lead = two.lead().unwrap();
    assert_eq!(lead.factor(), tpi(4));
    let dial = Some(ChasingDial { wheel_teeth: 16, marks: 4 });
    let by_lead = half_nuts(lead.factor(), tpi(8), dial).unwrap();
    assert_eq!((by_lead.rule, by_lead.repeats_every), (Rule::AnyMark, 2));
    assert_eq!(half_nuts(two.pitch.factor(), tpi(8), dial).unwrap().rule, Rule::Anywhere);
}

#[test]
fn how_often_the_thread_comes_round() {
    // Leadscrew and thread per inch; leadscrew threads, and travel in inches, between engagements.
    // Source: independent computation with exact fractions.
    for (screw, (num, den), threads, travel) in [
        (6, (10, 1), 3, (1, 2)),
        (6, (9, 1), 2, (1, 3)),
        (8, (27, 1), 8, (1, 1)),
        (8, (19, 1), 8, (1, 1)),
        (6, (12, 1), 1, (1, 6)),
        (6, (9, 2), 4, (2, 3)),
    ] {
        let lead = INCH.div(Ratio::of(num, den)).unwrap();
        let found = half_nuts(lead, tpi(screw), None).unwrap();
        assert_eq!(found.repeats_every, threads, "{num}/{den} on {screw}: exact fractions");
        assert_eq!(found.spacing, INCH.mul(ratio(travel)).unwrap(), "{num}/{den} on {screw}");
    }
    // Eight lines half an inch apart: a wheel of 24 on 6 to the inch. Even threads at any line.
    // Source: Jones, Turning and Boring (1914) ch. IV, thread indicator, Fig. 6.
    let dial = Some(ChasingDial { wheel_teeth: 24, marks: 8 });
    for n in [4, 8, 10, 14, 16, 20] {
        let found = half_nuts(tpi(n), tpi(6), dial).unwrap();
        assert_eq!(
            (found.rule, found.marks.len()),
            (Rule::AnyMark, 8),
            "{n} tpi: any line (Jones)"
        );
    }
    // 9 tpi on 6 comes round every third of an inch, and of the half-inch lines only those at whole
    // inches are such points, as Jones has it.
    let found = half_nuts(tpi(9), tpi(6), dial).unwrap();
    assert_eq!((found.rule, found.marks), (Rule::EveryNthMark(2), vec![1, 3, 5, 7]));
}

/// The dial played through: the nuts can be closed on every whole leadscrew thread; a mark is good
/// when the carriage is right every time the mark comes round.
#[test]
fn half_nuts_agree_with_a_dial_played_through() {
    let leads: Vec<Ratio> = (1..=40)
        .map(|n| Ratio::of(n, 20))
        .chain((3..=30).map(tpi))
        .chain([Ratio::of(127, 60), Ratio::of(3, 1), Ratio::of(7, 2), Ratio::of(12, 1)])
        .collect();
    for leadscrew in [Ratio::whole(3), Ratio::of(3, 2), tpi(8), tpi(6)] {
        for lead in &leads {
            for (wheel_teeth, marks) in
                [(15, 5), (16, 4), (24, 8), (14, 1), (16, 3), (20, 20), (18, 4)]
            {
                let right = |threads: i64| {
                    leadscrew.mul(Ratio::whole(threads)).unwrap().div(*lead).unwrap().is_whole()
                };
                let good = |mark: i64| {
                    let threads = (mark - 1) * i64::from(wheel_teeth);
                    threads % i64::from(marks) == 0
                        && (0..30).all(|turn| {
                            right(threads / i64::from(marks) + turn * i64::from(wheel_teeth))
                        })
                };
                let expected: Vec<u16> = (1..=marks).filter(|m| good(i64::from(*m))).collect();
                let dial = ChasingDial { wheel_teeth, marks };
                let found = half_nuts(*lead, leadscrew, Some(dial)).unwrap();
                let anywhere = (1..200).all(right);
                assert_eq!(found.rule == Rule::Anywhere, anywhere, "{lead} on {leadscrew}");
                if !anywhere {
                    assert_eq!(
                        found.marks, expected,
                        "{lead} on {leadscrew}, {wheel_teeth} {marks}"
                    );
                    assert_eq!(found.rule == Rule::KeepClosed, expected.is_empty());
                }
                let first = (1..=100_000).find(|threads| right(*threads)).unwrap();
                assert_eq!(found.spacing, leadscrew.mul(Ratio::whole(first)).unwrap());
            }
        }
    }
    assert!(half_nuts(Ratio::ZERO, Ratio::ONE, None).is_err());
    assert!(half_nuts(Ratio::ONE, Ratio::ZERO, None).is_err());
}

#[test]
fn the_compounds_travel() {
    #[rustfmt::skip]
    let factors = [
        // depth / P, compound degrees, travel / P; source: depth / cos, computed
        (0.541_266, 29.0, 0.6189), (0.649_519, 29.5, 0.7463), (0.613_434, 29.5, 0.7048), (0.541_266, 29.5, 0.6219),
    ];
    for (depth, degrees, travel) in factors {
        near(compound_travel(depth, degrees).0, travel, 0.0002, "per pitch", "depth / cos");
    }
    for (name, travel) in
        [("M6", 0.705), ("M8", 0.881), ("M12", 1.233), ("M16", 1.410), ("M20", 1.762)]
    {
        let depth = read(name).1.depth(Side::Outside).unwrap().to_f64();
        near(compound_travel(depth, 29.5).0, travel, 0.002, name, "h3 / cos 29.5");
    }
    let depth = read("1/4 BSW").1.depth(Side::Outside).unwrap().to_f64() / 25.4;
    near(compound_travel(depth, 27.5).0, 0.0361, 0.0003, "1/4 BSW", "depth / cos 27.5");
    // Source: a shop handbook, p. 191: half the double depth over 0.866.
    near(compound_travel(0.5, 30.0).0, 1.0 / 2.0 / 0.866, 2e-5, "DD = 1", "DD / 2 / 0.866");
    let (travel, along) = compound_travel(0.9202, 30.0);
    near(travel, 1.0626, 0.0005, "M10", "depth 0.9202");
    near(along, 0.5312, 0.001, "M10", "depth x tan 30");
    // Source: NAVEDTRA 14345 p. 179; 29 from the cross slide is 61 from the axis (90 - 29).
    assert_eq!(compound_setting(60.0), (29.5, 60.5));
    near(90.0 - 29.0, 61.0, 0.0, "either zero", "61 or 29");
    near(
        compound_setting(55.0).0 + compound_setting(55.0).1,
        90.0,
        1e-12,
        "BSW",
        "one right angle",
    );
}

/// What the slide moves for one line, mm.
const FINE: Ratio = Ratio::of(1, 1000);

/// A slide's dial by what one line says, mm, the lines in a turn, and whether it reads the diameter.
fn marked(division: Ratio, divisions: u32, reads: &str) -> Dial {
    let (unit, reads_diameter) = (Unit::Mm, reads == "diameter");
    let divisions = Some(divisions);
    Dial { division, unit, divisions, reads_diameter, backlash: None, grows: None, travel: None }
}

fn plan(depth: Ratio, count: u16, sharing: Sharing) -> Plan {
    Plan {
        depth,
        feed: Feed::Straight,
        sharing,
        count: Count::Passes(count),
        least_cut: Ratio::ZERO,
        springs: 0,
    }
}

#[test]
fn equal_areas_go_by_the_square_root() {
    // Source: constant chip area rule h sqrt(k/n), common practice, no source; M10 x 1.5, 6 passes.
    let depth = read("M10").1.depth(Side::Outside).unwrap();
    let found = passes(&plan(depth, 6, Sharing::Area), FINE).unwrap();
    assert_eq!(found.passes.len(), 6);
    for (k, printed) in [(2, 0.531), (4, 0.751), (5, 0.840), (6, 0.920)] {
        near(found.passes[k - 1].depth_mm, printed, 0.002, "M10", "h sqrt(k/6)");
    }
    let depth = read("1-10 UNS").1.depth(Side::Outside).unwrap();
    let found = passes(&plan(depth, 10, Sharing::Area), FINE).unwrap();
    near(found.passes[0].depth_mm, 0.493, 0.003, "10 tpi", "h sqrt(1/10)");
}

#[test]
fn readings_wrap_and_say_what_is_left() {
    // By hand: 0.92015 mm on lines of 0.02 mm is 46 lines, and 0.00015 mm is left.
    let line = Ratio::of(1, 50);
    let depth = read("M10").1.depth(Side::Outside).unwrap();
    let mut asked = plan(depth, 4, Sharing::Depth);
    asked.springs = 2;
    let found = passes(&asked, line).unwrap();
    let lines: Vec<u32> = found.passes.iter().map(|p| p.lines).collect();
    assert_eq!(lines, [12, 23, 35, 46, 46, 46]);
    let dial = marked(line, 20, "radius");
    let stands = |lines: &u32| dial.after(u64::from(*lines), false).unwrap().stands();
    assert_eq!(
        lines.iter().map(stands).collect::<Vec<_>>(),
        ["12", "1 turn + 3", "1 turn + 15", "2 turns + 6", "2 turns + 6", "2 turns + 6"]
    );
    assert_eq!(found.passes.iter().filter(|p| p.spring).count(), 2);
    assert_eq!(found.short, depth.sub(Ratio::of(46, 50)).unwrap());
    // A dial that reads diameter moves half as far: twice the lines.
    let diameter = marked(line, 250, "diameter").travel_per_line();
    assert_eq!(passes(&asked, diameter).unwrap().passes.last().unwrap().lines, 92);
    // Thousandths on a metric thread: 36.23 thou is 36 lines and 0.2264 thou left.
    let found = passes(&asked, INCH.div(Ratio::whole(1000)).unwrap()).unwrap();
    assert_eq!(found.passes.last().unwrap().lines, 36);
    near(
        found.short.to_f64() / 25.4 * 1000.0,
        0.2264,
        1e-3,
        "M10 in thou",
        "920.151 / 25.4 by hand",
    );
}

/// No rounding is carried on, no cut is less than the least but where the dial leaves none, and the
/// last stands on the nearest line.
#[test]
fn passes_keep_their_promises() {
    for name in ["M3", "M10", "1/4-20 UNC", "3/8 BSF", "Tr30x6", "2 BA"] {
        let depth = read(name).1.depth(Side::Outside).unwrap();
        for (num, den) in [(1, 1000), (1, 100), (1, 50), (127, 5000), (1, 20)] {
            let line = Ratio::of(num, den);
            let dial = marked(line, 100, "radius");
            for sharing in [Sharing::Area, Sharing::Depth] {
                for count in [1, 2, 5, 9, 30] {
                    for least in [(0, 1), (1, 50), (1, 10)] {
                        let mut asked = plan(depth, count, sharing);
                        asked.least_cut = ratio(least);
                        let found = passes(&asked, line).unwrap();
                        let last = found.passes.last().unwrap();
                        assert_eq!(i128::from(last.lines), depth.div(line).unwrap().round());
                        assert!(found.passes.len() <= usize::from(count), "{name}");
                        assert!(found.short.abs() <= line.mul(Ratio::of(1, 2)).unwrap());
                        let mut before = 0;
                        for pass in &found.passes {
                            assert!(pass.lines > before, "{name}: a pass that cuts nothing");
                            let cut = f64::from(pass.lines - before) * line.to_f64();
                            near(pass.cut_mm, cut, 1e-9, name, "lines x travel");
                            let alone = found.passes.len() == 1;
                            assert!(
                                alone || cut + 1e-9 >= asked.least_cut.to_f64(),
                                "{name}: {cut}"
                            );
                            let reading = dial.after(u64::from(pass.lines), false).unwrap();
                            assert_eq!(reading.turns * 100 + reading.lines, u64::from(pass.lines));
                            before = pass.lines;
                        }
                        if least.0 == 0 && den == 1000 && name != "M3" {
                            let n = f64::from(count);
                            for (k, pass) in (1u16..).zip(&found.passes) {
                                let share = f64::from(k) / n;
                                let share =
                                    if sharing == Sharing::Area { share.sqrt() } else { share };
                                let off = pass.depth_mm - share * depth.to_f64();
                                assert!(off.abs() <= 0.000_501, "{name}: pass {k} is off by {off}");
                            }
                        }
                    }
                }
            }
        }
    }
}

#[test]
fn along_a_flank_and_by_turns() {
    let depth = read("M10").1.depth(Side::Outside).unwrap();
    let flank = Plan { feed: Feed::Flank(29.5), ..plan(depth, 6, Sharing::Area) };
    let found = passes(&flank, FINE).unwrap();
    near(found.travel.to_f64(), 1.0572, 0.0002, "M10", "0.920151 / cos 29.5");
    near(found.passes.last().unwrap().depth_mm, 0.920, 0.001, "M10", "the depth all the same");
    let half = 30.0_f64;
    let turns = Plan { feed: Feed::Alternate(half), ..plan(depth, 6, Sharing::Area) };
    let found = passes(&turns, FINE).unwrap();
    // One flank stays where it was: aside moves by the cut x tan 30, this way and that.
    for pair in found.passes.windows(2) {
        let moved = pair[1].aside_mm - pair[0].aside_mm;
        near(moved.abs(), pair[1].cut_mm * half.to_radians().tan(), 1e-9, "M10", "by geometry");
    }
    let asides: Vec<f64> = found.passes.iter().map(|p| p.aside_mm).collect();
    assert!(asides[0] == 0.0 && asides[1] > 0.0 && asides[2] < asides[1] && asides[3] > asides[2]);
}

#[test]
fn first_cuts_set_the_number_of_passes() {
    let depth = Ratio::of(9, 10);
    let by = |cut: (i64, i64), sharing| {
        let asked = Plan { count: Count::FirstCut(ratio(cut)), ..plan(depth, 1, sharing) };
        passes(&asked, FINE).map(|found| found.passes.len())
    };
    // By hand: 0.9 / 0.3 = 3 equal cuts, 9 of equal area.
    assert_eq!(by((3, 10), Sharing::Depth), Ok(3));
    assert_eq!(by((3, 10), Sharing::Area), Ok(9));
    assert_eq!(by((2, 1), Sharing::Area), Ok(1));
    assert_eq!(by((1, 1000), Sharing::Area), Err(PassesError::TooMany));
    assert_eq!(by((0, 1), Sharing::Area), Err(PassesError::NoCut));
    let asked = plan(depth, 3, Sharing::Area);
    assert_eq!(passes(&asked, Ratio::whole(3)), Err(PassesError::LinesTooCoarse));
    assert_eq!(passes(&asked, Ratio::ZERO), Err(PassesError::NoDial));
    assert_eq!(passes(&plan(Ratio::ZERO, 3, Sharing::Area), FINE), Err(PassesError::NoDepth));
    let over = Plan { feed: Feed::Flank(89.0), ..asked };
    assert_eq!(passes(&over, FINE), Err(PassesError::Angle));
}

#[test]
fn helix_and_side_angles() {
    let (thread, profile) = read("M10");
    let pitch = profile.pitch_diameter(thread.diameter.unwrap()).unwrap().to_f64();
    near(helix_deg(thread.lead().unwrap(), pitch), 3.028, 0.005, "M10", "tan = lead / (pi E)");
    let found = helix(thread.lead().unwrap(), 10.0, pitch, 8.16, 3.0);
    assert!(found.minor_deg > found.pitch_deg && found.pitch_deg > found.major_deg);
    near(found.leading_side_deg, found.minor_deg + 3.0, 1e-12, "M10", "by definition");
    near(found.trailing_side_deg, 3.0 - found.major_deg, 1e-12, "M10", "by definition");
    near(helix_deg(thread.lead().unwrap(), 0.0), 90.0, 1e-9, "no diameter", "a right angle");
}

#[test]
fn an_inexact_lead_judged() {
    // Source: cot of the half angle, by geometry; 1.732 for 60 degrees as in FED-STD-H28.
    for (name, cot) in [
        ("M10", 1.732_05),
        ("1/4 BSW", 1.920_98),
        ("2 BA", 2.272_67),
        ("Tr16x4", 3.732_05),
        ("1-5 Acme", 3.866_71),
    ] {
        near(diametral_equivalent(&read(name).1, 1.0), cot, 1e-4, name, "cot of the half angle");
    }
    // Source: arithmetic: 125 ppm over 100 mm is 0.0125 mm.
    let (thread, profile) = read("M10");
    let found = lead_error(&profile, 125.0, 100.0, None);
    near(found.over_length, 0.0125, 1e-9, "125 ppm", "arithmetic");
    assert_eq!(found.share, None);
    let tolerance = limits(&thread, Side::Outside).unwrap().pitch_tolerance;
    let found = lead_error(&profile, -125.0, 10.0, Some(tolerance));
    near(found.share.unwrap(), 0.00125 * 1.732_05 / 0.132, 1e-6, "M10-6g over 10 mm", "by hand");
    assert!(found.over_length < 0.0);
    // Ratios of the handbooks: what each makes of an inch in millimetres.
    #[rustfmt::skip]
    let ratios = [(160, 63, 254, 100, -125), (33, 13, 254, 100, -606), (38, 15, 254, 100, -2625),
        (47, 37, 127, 100, 213), (108, 85, 127, 100, 463), (94, 74, 127, 100, 213), (127, 100, 127, 100, 0)];
    for (num, den, true_num, true_den, ppm) in ratios {
        let off = Ratio::of(num, den).div(Ratio::of(true_num, true_den)).unwrap().to_f64() - 1.0;
        near(off * 1e6, f64::from(ppm), 1.0, "conversion", "computed");
        let over = lead_error(&profile, off * 1e6, 1000.0, None).over_length;
        near(over, f64::from(ppm) / 1000.0, 0.001, "conversion over a metre", "computed");
    }
}

#[test]
fn to_the_nut_in_hand() {
    // By geometry: 2 tan of the half angle; 60 degrees: a thou of infeed adds 1.155 of end shake.
    for (name, shake) in [
        ("M10", 1.1547),
        ("3/8 BSF", 1.0411),
        ("2 BA", 0.8800),
        ("Tr16x4", 0.5359),
        ("1/2-10 Acme", 0.5172),
    ] {
        let (_, profile) = read(name);
        near(infeed(&profile).end_shake, shake, 1e-4, name, "2 tan of the half angle");
        near(infeed(&profile).off_pitch_diameter, 2.0, 0.0, name, "both sides of the work");
        // Infeed and clearance tell the same story.
        let more = infeed_to_shake(&profile, 0.05, 0.15);
        near(end_shake(&profile, 2.0 * more), 0.10, 1e-9, name, "there and back");
        near(infeed_to_shake(&profile, 0.2, 0.1), 0.0, 0.0, name, "metal can't be put back");
    }
}

#[test]
fn what_thread_is_this() {
    // outside mm, pitches, length mm, what it is; sizes of made screws by hand from their limits.
    for (outside, pitches, length, wanted) in [
        (9.85, 10, 15.0, "M10"),
        (6.27, 20, 25.4, "1/4-20 UNC"),
        (9.40, 20, 25.4, "3/8 BSF"),
        (13.1, 19, 25.4, "G 1/4"),
        (4.65, 10, 8.1, "2 BA"),
        (11.9, 8, 10.0, "M12 × 1.25"),
        (15.9, 5, 20.0, "Tr 16 × 4"),
    ] {
        let found = identify(outside, pitches, length);
        let names: Vec<String> = found.iter().map(|c| c.thread.to_string()).collect();
        assert!(names.iter().take(2).any(|name| name == wanted), "{outside}: {names:?}");
        let candidate = found.iter().find(|c| c.thread.to_string() == wanted).unwrap();
        let pitch = candidate.thread.pitch.to_f64();
        near(
            candidate.length_off,
            length - pitch * f64::from(pitches),
            1e-9,
            wanted,
            "by definition",
        );
        assert!(candidate.diameter_off < 0.0 && found.len() <= 8);
    }
    assert!(identify(0.0, 10, 10.0).is_empty() && identify(10.0, 0, 10.0).is_empty());
    assert!(identify(f64::NAN, 10, 10.0).is_empty());
}
