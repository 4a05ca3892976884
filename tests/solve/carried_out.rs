//! Holes, cuts and parts carried out from the answer's JSON alone: the part is what the entries ask for.

use latheside_core::lathe::{Part, run};
use latheside_core::procedure::FiledStep;
use latheside_core::record::Node;
use latheside_core::setup::{answers, read_file};
use latheside_core::shop::Shop;
use latheside_tests::solved::{items, near, text};

const DIALS: &str = r#""dials": {"cross": {"reads": "radius", "division": "0.02 mm", "divisions": 125},
    "carriage": {"division": "0.1 mm", "divisions": 180}, "tailstock": {"division": "0.05 mm", "divisions": 60}}"#;
const DRILLS: &str = r#""drills": ["2.5 mm", "3.3 mm", "4.2 mm", "5 mm", "6.6 mm", "6.8 mm", "7.7 mm", "7.8 mm", "8.5 mm", "9 mm", "10.2 mm", "13.5 mm", "17.5 mm"]"#;

/// Half a line of the tailstock's dial, and what a point of 118° leaves to a hundredth, mm.
const LINE: f64 = 0.04;

fn shop(dials: &str) -> String {
    format!(
        r#"{{"name": "x", "lathe": {{"spindle_speeds": [45, 70, 110, 190, 320, 540, 900]{dials}}}, {DRILLS}}}"#
    )
}

/// The shops: with dials, and with nothing but a rule.
fn shops() -> [(String, f64); 2] {
    [(shop(&format!(", {DIALS}")), LINE), (shop(""), 0.1)]
}

/// The part as the answer's own JSON makes it.
fn part(shop: &str, operation: &str) -> Part {
    let file = format!(
        r#"{{"format": "latheside-setup", "version": 1, "name": "x", "shop": {shop}, "operations": [{operation}]}}"#
    );
    let setup = read_file(&file).unwrap_or_else(|why| panic!("{why}: {operation}"));
    let written = serde_json::to_string(&answers(&setup)).unwrap();
    let all: Node = serde_json::from_str(&written).unwrap();
    let answer = &items(all.get("answers").unwrap())[0];
    assert_eq!(text(answer, "unmade.why"), "", "{operation}");
    let steps = serde_json::to_string(answer.get("steps").unwrap()).unwrap();
    let steps: Vec<FiledStep> = serde_json::from_str(&steps).unwrap();
    let shop = Shop::new(setup.shop.clone());
    let lathe = run(steps.iter().map(|step| (step.id.clone(), step.actions.as_slice())), &shop);
    assert_eq!(lathe.faults(), [], "{operation}");
    lathe.part().clone()
}

/// How deep a bore of at least this diameter goes, mm.
fn deep(part: &Part, diameter: f64) -> f64 {
    let wide = part.bore.iter().filter(|s| 2.0 * s.radius >= diameter - 1e-6);
    wide.map(|s| -s.from).fold(0.0, f64::max)
}

#[test]
fn tapped_holes() {
    #[rustfmt::skip]
    let rows: &[(&str, f64, f64, &str)] = &[
        ("M8",  6.8,  1.25, "ISO 2306"),
        ("M10", 8.5,  1.5,  "ISO 2306"),
        ("M12", 10.2, 1.75, "ISO 2306"),
        ("M20", 17.5, 2.5,  "ISO 2306"),
    ];
    for (shop, line) in shops() {
        for (screw, drill, pitch, source) in rows {
            let hole = format!(
                r#"{{"kind": "hole", "purpose": "tap", "designation": "{screw}", "depth": "16 mm", "thickness": "40 mm", "diameter": "40 mm", "stock": "mild-steel"}}"#
            );
            let part = part(&shop, &hole);
            let [thread] = part.tapped.as_slice() else { panic!("{screw}: one thread") };
            assert_eq!(thread.name.as_deref(), Some(*screw));
            assert!(thread.inside);
            near(-thread.from, 16.0, 1e-9, "as deep as entered");
            let drilled = part.bore.iter().map(|s| 2.0 * s.radius).fold(0.0, f64::max);
            near(drilled, *drill, 1e-9, source);
            // Three pitches for a plug tap's lead and room: common practice, no source.
            near(deep(&part, *drill), 16.0 + 3.0 * pitch, line, "deeper than the thread");
            let major: f64 = screw[1..].parse().unwrap();
            assert!(part.mouth.unwrap() >= major - 0.02, "its mouth is sunk: {:?}", part.mouth);
        }
    }
}

#[test]
fn cleared_sunk_and_reamed_holes() {
    for (shop, line) in shops() {
        let through = part(
            &shop,
            r#"{"kind": "hole", "purpose": "clear", "designation": "M8", "thickness": "30 mm", "stock": "brass"}"#,
        );
        near(deep(&through, 9.0), 30.0, 1e-9, "ISO 273, medium: 9 mm, through all of it");
        let sunk = part(
            &shop,
            r#"{"kind": "hole", "purpose": "counterbore", "designation": "M8", "below": "0 mm", "thickness": "20 mm", "depth": "12 mm", "diameter": "40 mm"}"#,
        );
        near(deep(&sunk, 15.0), 8.0, line, "DIN 974-1: Ø 15; ISO 4762: a head 8 mm tall");
        near(deep(&sunk, 9.0), 20.0, line, "ISO 273, through the upper part");
        near(deep(&sunk, 6.8), 20.0 + 12.0 + 3.75, line, "and three pitches past the thread");
        near(-sunk.tapped[0].from, 32.0, 1e-9, "12 mm of thread below 20");
        let cone = part(
            &shop,
            r#"{"kind": "hole", "purpose": "countersink", "designation": "M6", "thickness": "14 mm", "stock": "mild-steel"}"#,
        );
        near(cone.mouth.unwrap(), 13.44, 2.5 * line, "ISO 10642 Table 1, to its sharp edge at 90°");
        let reamed = part(
            &shop,
            r#"{"kind": "hole", "purpose": "ream", "designation": "8 mm", "depth": "20 mm", "stock": "mild-steel"}"#,
        );
        near(deep(&reamed, 8.0), 20.0, line, "as deep as entered");
        // 0.1 to 0.3 mm left: TC 9-524 (1996) ch. 7, reaming on the lathe.
        let left = 8.0 - reamed.bore.iter().map(|s| 2.0 * s.radius).fold(f64::MAX, f64::min);
        assert!((0.1..=0.3 + 1e-9).contains(&left), "{left}");
    }
}

#[test]
fn a_hole_beside_the_middle_is_drilled_on_the_cross_slide() {
    for (shop, line) in shops() {
        let part = part(
            &shop,
            r#"{"kind": "hole", "purpose": "tap", "designation": "M8", "depth": "12 mm", "thickness": "25 mm", "from_edge": "15 mm", "stock": "mild-steel"}"#,
        );
        near(deep(&part, 6.8), 12.0 + 3.75, f64::max(line, 0.06), "ISO 2306 and three pitches");
        assert_eq!(part.tapped.len(), 1);
    }
}

#[test]
fn parted_lengths() {
    for (shop, _) in shops() {
        for (entries, length) in [
            (r#""diameter": "20 mm", "blade_width": "2 mm", "length": "15 mm""#, 15.0),
            (
                r#""diameter": "40 mm", "bore": "30 mm", "blade_width": "3 mm", "length": "8 mm""#,
                8.0,
            ),
        ] {
            let part = part(
                &shop,
                &format!(r#"{{"kind": "part-off", "stock": "mild-steel", {entries}}}"#),
            );
            assert!(part.parted);
            // Half a millimetre is left for facing: common practice, no source.
            near(part.length.unwrap(), length + 0.5, 0.05, "by the dial or the rule");
        }
    }
}

#[test]
fn turned_bored_and_faced() {
    let [(dials, _), (bare, _)] = shops();
    for (shop, line) in [(dials, 0.01), (bare, 1e-9)] {
        let cut = |entries: &str| {
            part(&shop, &format!(r#"{{"kind": "cut", "stock": "mild-steel", {entries}}}"#))
        };
        let turned =
            cut(r#""process": "turn", "diameter": "25 mm", "depth": "1.5 mm", "length": "40 mm""#);
        near(2.0 * turned.radius(-20.0).unwrap(), 22.0, 2.0 * line, "twice the depth less");
        near(2.0 * turned.radius(-42.0).unwrap(), 25.0, 1e-9, "beyond the length nothing");
        let bored =
            cut(r#""process": "bore", "diameter": "20 mm", "depth": "0.5 mm", "length": "20 mm""#);
        near(2.0 * bored.bore_radius(-10.0).unwrap(), 21.0, 2.0 * line, "twice the depth more");
        let faced = cut(r#""process": "face", "diameter": "30 mm", "depth": "0.4 mm""#);
        near(-faced.face, 0.4, 0.05, "by the carriage");
        let drilled = cut(r#""process": "drill", "diameter": "6 mm", "depth": "30 mm""#);
        near(deep(&drilled, 6.0), 30.0, 0.1, "at its full diameter");
        let knurled = cut(r#""process": "knurl", "diameter": "20 mm", "length": "12 mm""#);
        near(knurled.knurls[0].to - knurled.knurls[0].from, 12.0, 1e-9, "as long as entered");
        let die = cut(r#""process": "die", "diameter": "8 mm", "length": "15 mm""#);
        assert_eq!((die.tapped[0].inside, -die.tapped[0].from), (false, 15.0));
    }
}
