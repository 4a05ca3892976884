//! Whole files with a taper: setup in, answers out.

use latheside_core::operation::{Operation, kind};
use latheside_core::record::Record;
use latheside_core::shop::{SHOP, Shop};
use latheside_tests::solved::{answer, near, number, says, text};

const LATHE: &str = r#"{"name": "a shop", "lathe": {"spindle_speeds": [110, 190, 320], "dials": {"cross": {"reads": "radius", "division": "0.02 mm", "divisions": 125}, "compound": {"reads": "radius", "division": "0.02 mm", "divisions": 100}}},
    "indicators": [{"division": "0.01 mm", "travel": "10 mm"}]}"#;

fn taper(entries: &str) -> latheside_core::record::Node {
    answer(LATHE, &format!(r#"{{"kind": "taper", {entries}}}"#))
}

#[test]
fn named_tapers() {
    #[rustfmt::skip]
    let rows: &[(&str, &str, f64, f64, &str)] = &[
        ("MT0", "included_deg",   2.9816, 0.002, "2 atan(TPF/24) from the inch taper"),
        ("MT1", "half_angle_deg", 1.4287, 0.001, "table of angles, there as 'angle of taper'"),
        ("MT2", "half_angle_deg", 1.4307, 0.001, "table of angles, there as 'angle of taper'"),
        ("MT2", "included_deg",   2.8614, 0.002, "2 atan(TPF/24) from the inch taper"),
        ("MT3", "included_deg",   2.8754, 0.002, "2 atan(TPF/24) from the inch taper"),
        ("MT4", "half_angle_deg", 1.4876, 0.001, "table of angles, there as 'angle of taper'"),
        ("MT5", "included_deg",   3.0145, 0.002, "2 atan(TPF/24) from the inch taper"),
        ("MT6", "included_deg",   2.9866, 0.002, "2 atan(TPF/24) from the inch taper"),
        ("MT7", "half_angle_deg", 1.4894, 0.001, "2 atan(TPF/24) from the inch taper"),
        ("MT1", "per_mm",   1.0 / 20.047, 1e-6,  "ISO 296 ratio, from memory"),
        ("MT4", "per_mm",   1.0 / 19.254, 1e-6,  "ISO 296 ratio, from memory"),
    ];
    for (name, key, printed, tolerance, source) in rows {
        let answer = taper(&format!(r#""named": "{name}""#));
        near(number(&answer, key), *printed, *tolerance, &format!("{name}: {source}"));
    }
    let answer = taper(r#""named": "MT3", "between_centres": "8 in""#);
    near(
        number(&answer, "set_over_mm") / 25.4,
        0.2008,
        0.0003,
        "TPI .05019 over 8 in, rule of Jones p. 82",
    );
}

#[test]
fn tailstock_over() {
    #[rustfmt::skip]
    let rows: &[(&str, f64, &str)] = &[
        (r#""per_foot": "1 in", "between_centres": "12 in""#,   12.7,   "Jones, Turning and Boring (1914) p. 82-83: 1/2 in"),
        (r#""large": "2.5 in", "small": "2 in", "length": "6 in", "between_centres": "9 in""#, 9.525, "Jones p. 82-83: 3/8 in"),
        (r#""per_foot": "1 1/2 in", "between_centres": "8 in""#, 12.7,  "Jones p. 82-83: 1/2 in"),
        (r#""per_foot": "1 in", "between_centres": "36 in""#,    38.1,  "Rose, Modern Machine-Shop Practice: 1 1/2 in"),
        (r#""large": "3 in", "small": "2 in", "length": "12 in", "between_centres": "12 in""#, 12.7, "NAVEDTRA 14345 p. 168: 1/2 in"),
        (r#""large": "25 mm", "small": "24 mm", "length": "50 mm", "between_centres": "150 mm""#, 1.5, "rule of Jones p. 82, computed"),
    ];
    for (entries, printed, source) in rows {
        near(number(&taper(entries), "set_over_mm"), *printed, 1e-9, source);
    }
    let answer = taper(
        r#""ratio": "1/50", "large": "20 mm", "length": "60 mm", "between_centres": "150 mm""#,
    );
    // 1.5 mm is 75 lines of 0.02 mm.
    assert!(says(&answer, "steps", "75 lines"), "{answer:?}");
    assert!(says(&answer, "steps", "50 at the mark"), "125 − 75: {answer:?}");
}

#[test]
fn where_the_lines_in_a_turn_are_not_known_nor_is_what_stands_at_the_mark() {
    let shop = LATHE.replace(r#", "divisions": 125"#, "");
    let over = answer(
        &shop,
        r#"{"kind": "taper", "ratio": "1/50", "large": "20 mm", "length": "60 mm", "between_centres": "150 mm"}"#,
    );
    assert!(says(&over, "steps", "75 lines") && !says(&over, "steps", "at the mark"), "{over:?}");
}

#[test]
fn angles() {
    #[rustfmt::skip]
    let rows: &[(&str, &str, f64, f64, &str)] = &[
        (r#""large": "40 mm", "small": "30 mm", "length": "50 mm""#, "half_angle_deg", 5.711, 0.001, "atan((D - d) / 2l), computed"),
        (r#""ratio": "1:20""#,   "half_angle_deg", 1.4321, 0.0001, "atan(1/40), computed"),
        (r#""ratio": "1:16""#,   "half_angle_deg", 1.7899, 0.0001, "atan(1/32), computed: 1 deg 47 min 24 s"),
        (r#""angle": "1 deg""#,  "per_mm", 0.01746, 4e-5, "Collard, Turning and Boring Tapers (1902), degree table"),
        (r#""angle": "3 deg""#,  "per_mm", 0.05236, 4e-5, "Collard (1902), degree table"),
        (r#""angle": "20 deg""#, "per_mm", 0.35266, 4e-5, "Collard (1902), degree table"),
        (r#""angle": "50 deg""#, "per_mm", 0.93262, 4e-5, "Collard (1902), degree table"),
        (r#""angle": "60 deg""#, "half_angle_deg", 30.0, 0.0, "Jones p. 96-97"),
        (r#""per_foot": "0.75 in""#, "per_mm", 0.0625, 1e-9, "Jones, rules on p. 97"),
    ];
    for (entries, key, printed, tolerance, source) in rows {
        near(number(&taper(entries), key), *printed, *tolerance, source);
    }
    let answer = taper(r#""angle": "60 deg", "large": "10 mm", "length": "8 mm""#);
    assert!(says(&answer, "steps", "nought across the bed that is 60°"), "Jones p. 96-97: 90 - 30");
}

#[test]
fn an_indicator_proves_it() {
    let morse = taper(r#""named": "MT2""#);
    let check = morse.get("indicator").unwrap();
    assert_eq!(number(check, "travel_mm"), 50.0);
    near(number(check, "reading_mm"), 50.0 / 20.02 / 2.0, 1e-12, "half the taper by the travel");
    // 50 mm of a compound of 2 mm a turn.
    assert!(says(&morse, "steps", "25 turns") && says(&morse, "steps", "1.248 mm"));
    let steep = taper(r#""angle": "90 deg""#);
    assert_eq!(number(steep.get("indicator").unwrap(), "travel_mm"), 10.0, "the plunger's travel");
    let own = taper(r#""ratio": "1/20", "travel": "30 mm""#);
    near(number(own.get("indicator").unwrap(), "reading_mm"), 0.75, 1e-12, "30 / 40, by hand");
    let none =
        answer(r#"{"name": "a shop", "lathe": {}}"#, r#"{"kind": "taper", "ratio": "1/20"}"#);
    assert!(none.get("indicator").is_none() && says(&none, "lacking", "shop.indicators"));
    assert!(says(&none, "lacking", "operation.between_centres"));
}

#[test]
fn what_is_not_a_taper() {
    for (entries, why) in [
        (r#""named": "MT9""#, "MT9"),
        (r#""angle": "180 deg""#, "not at 180"),
        (r#""large": "20 mm", "small": "20 mm", "length": "10 mm""#, "nothing tapers"),
        (r#""large": "20 mm", "length": "10 mm""#, "two diameters and a length"),
        (r#""ratio": "1/5", "large": "10 mm", "length": "60 mm""#, "runs out to a point"),
    ] {
        assert!(text(&taper(entries), "refused").contains(why), "{entries}");
    }
    let operation = Operation::new(kind("taper").unwrap());
    let empty = Shop::new(Record::empty(&SHOP));
    assert_eq!(operation.suggest("named", "morse 2", &empty)[0], "MT2");
    assert_eq!(operation.suggest("named", "b1", &empty), ["B10", "B12", "B16", "B18"]);
}

#[test]
fn an_inch_job_has_an_inch_of_travel() {
    let found = taper(r#""per_foot": "0.6 in", "large": "1 in", "length": "2 in""#);
    assert_eq!(number(&found, "indicator.travel_mm"), 50.8);
    near(number(&found, "indicator.reading_mm"), 1.27, 1e-9, "2 in × 0.05 / 2, by hand");
    assert!(says(&found, "steps", "2 in"));
    let steep = taper(r#""per_foot": "6 in", "large": "3 in", "length": "1 1/2 in""#);
    assert_eq!(number(&steep, "indicator.travel_mm"), 25.4, "no longer than the cone");
}

#[test]
fn a_speed_for_the_large_end() {
    let shop = r#"{"lathe": {"spindle_speeds": [110, 190, 320, 540], "dials": {"compound": {"reads": "radius", "division": "0.02 mm", "divisions": 100}}}}"#;
    let operation = r#"{"kind": "taper", "large": "25.4 mm", "small": "20 mm", "length": "40 mm", "stock": "mild-steel"}"#;
    let found = answer(shop, operation);
    // 70 to 90 ft/min at an inch, 12·v/(π·d): 267 to 344 rpm (TM 1-420 C1 (1942) para 8).
    assert_eq!(number(&found, "spindle_rpm"), 320.0, "college machine-shop sheet");
    assert!(says(&found, "steps", "Set 320 rpm"));
    let bare = answer(shop, &operation.replace(r#", "stock": "mild-steel""#, ""));
    assert!(says(&bare, "lacking", "operation.stock"));
}

#[test]
fn what_the_indicator_read_says_how_far_to_swing() {
    // 0.78 over 30 is atan 0.026 = 1° 29.36′; half of 1 in 20 is atan 0.025 = 1° 25.93′: by hand.
    let steep = taper(
        r#""ratio": "1/20", "large": "20 mm", "length": "40 mm", "travel": "30 mm", "checked": "0.78 mm""#,
    );
    // 3.43′ is 3′26″.
    assert!(says(&steep, "steps", "too steep"), "{steep:?}");
    assert!(
        says(&steep, "steps", "compound by 3′26″ from where it is, its handle out"),
        "{steep:?}"
    );
    let right = taper(
        r#""ratio": "1/20", "large": "20 mm", "length": "40 mm", "travel": "30 mm", "checked": "0.75 mm""#,
    );
    assert!(says(&right, "steps", "What it moved by is right."), "{right:?}");
    // On a cylinder the compound's own travel is the long side: 30 sin(1° 25.93′) = 0.7498.
    let proved = taper(
        r#""ratio": "1/20", "large": "20 mm", "length": "40 mm", "travel": "30 mm", "proved": "0.72 mm""#,
    );
    // asin 0.024 = 1° 22.51′.
    assert!(says(&proved, "steps", "too slow"), "{proved:?}");
    assert!(
        says(&proved, "steps", "compound by 3′25″ from where it is, its handle in"),
        "{proved:?}"
    );
    // Set over between centres: 200 × (0.026 − 0.025) = 0.2 mm less.
    let over = taper(
        r#""ratio": "1/20", "large": "20 mm", "length": "40 mm", "travel": "30 mm", "between_centres": "200 mm", "checked": "0.78 mm""#,
    );
    assert!(
        says(&over, "steps", "Move the tailstock by 0.2 mm from where it is, away from you"),
        "{over:?}"
    );
    let past = taper(
        r#""ratio": "1/20", "large": "20 mm", "length": "40 mm", "travel": "30 mm", "proved": "90 mm""#,
    );
    assert!(says(&past, "steps", "too steep"), "no sine is over one, and nothing breaks");
}
