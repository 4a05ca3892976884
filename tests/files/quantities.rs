//! Odd entries: read as meant, or refused in few words.

use latheside_core::quantity::{Measure, Quantity, Unit};
use proptest::prelude::*;

const MEASURES: [Measure; 4] = [Measure::Length, Measure::Lead, Measure::Angle, Measure::Ratio];

fn length(text: &str) -> String {
    match Quantity::parse(text, Measure::Length, None) {
        Ok(q) => q.value().to_string(),
        Err(why) => why.to_string(),
    }
}

#[test]
fn read_as_meant() {
    for (text, mm) in [
        ("3\u{a0}mm", "3"),
        ("3\u{202f}mm", "3"),
        ("3\u{2009}mm", "3"),
        ("\t3 mm\n", "3"),
        ("3MM", "3"),
        ("3 Inches", "381/5"),
        ("1\u{2044}4 in", "127/20"),
        ("1 ½″", "381/10"),
        ("1 ½”", "381/10"),
        ("1–1/2 in", "381/10"),
        ("⌀ 8 mm", "8"),
        ("+5 mm", "5"),
        ("−5 mm", "-5"),
        ("5. mm", "5"),
        (",5 mm", "1/2"),
        ("12,345 mm", "2469/200"),
        ("3''", "381/5"),
        ("25 μm", "1/40"),
        ("25 µm", "1/40"),
        ("000000000000000000001 mm", "1"),
        ("0.000001 mm", "1/1000000"),
        ("1/3 thou", "127/15000"),
    ] {
        assert_eq!(length(text), mm, "{text}");
    }
}

#[test]
fn refused_in_few_words() {
    let wanted = "enter a length in mm, in or thou";
    let two = "has two points or commas: write one at most, and none between thousands";
    for (text, sentence) in [
        ("1,250.5 mm", format!("“1,250.5” {two}")),
        ("1.250,5 mm", format!("“1.250,5” {two}")),
        ("1,250,000 mm", format!("“1,250,000” {two}")),
        ("1..5 mm", format!("“1..5” {two}")),
        ("1 250 mm", format!("“1 250 mm” can't be read as one entry: {wanted}")),
        ("1 - 1/2 in", format!("“1 - 1/2 in” can't be read as one entry: {wanted}")),
        ("1'250 mm", format!("“'250 mm” is no unit I know: {wanted}")),
        ("1_000 mm", format!("“_000 mm” is no unit I know: {wanted}")),
        ("3 ft", format!("“ft” is no unit I know: {wanted}")),
        ("3 feet 2 in", format!("“feet 2 in” is no unit I know: {wanted}")),
        ("3' 2\"", format!("“' 2\"” is no unit I know: {wanted}")),
        ("M6", format!("“M6” is not a number: {wanted}")),
        ("M6x1 mm", format!("“M6x1 mm” is not a number: {wanted}")),
        ("No. 7", format!("“No. 7” is not a number: {wanted}")),
        ("1e3 mm", format!("“e3 mm” is no unit I know: {wanted}")),
        ("1E-3 mm", format!("“e-3 mm” is no unit I know: {wanted}")),
        ("0x10 mm", format!("“x10 mm” is no unit I know: {wanted}")),
        ("NaN mm", format!("“NaN mm” is not a number: {wanted}")),
        ("∞ mm", format!("“∞ mm” is not a number: {wanted}")),
        ("٣ mm", format!("“٣ mm” is not a number: {wanted}")),
        ("３ mm", format!("“３ mm” is not a number: {wanted}")),
        ("三 mm", format!("“三 mm” is not a number: {wanted}")),
        ("10³ mm", format!("“³ mm” is no unit I know: {wanted}")),
        ("--5 mm", format!("“--5 mm” is not a number: {wanted}")),
        (".", format!("“.” is not a number: {wanted}")),
        (",mm", format!("“,” is not a number: {wanted}")),
        ("mm", format!("“mm” is not a number: {wanted}")),
        ("5 mm 5 mm", format!("“mm 5 mm” is no unit I know: {wanted}")),
        ("1/2/3 in", format!("“/3 in” is no unit I know: {wanted}")),
        ("3 mm; DROP", format!("“mm; drop” is no unit I know: {wanted}")),
        ("5 mm\u{0}", format!("“mm\u{0}” is no unit I know: {wanted}")),
        (
            "9999999999999999999999 mm",
            "“9999999999999999999999” has too many figures: write it with 18 at most".to_owned(),
        ),
    ] {
        assert_eq!(length(text), sentence, "{text}");
    }
    let lead = |text| Quantity::parse(text, Measure::Lead, None).map_err(|why| why.to_string());
    assert_eq!(lead("2.5 × π mm").map(|q| (q.pi(), q.unit())), Ok((true, Unit::Mm)));
    assert_eq!(lead("2.5 * pi mm").map(|q| (q.pi(), q.unit())), Ok((true, Unit::Mm)));
    assert_eq!(
        lead("2 pi tpi"),
        Err("“2 pi tpi” can't be read as one entry: enter a lead in mm, in, thou or tpi".to_owned())
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn a_refusal_says_little_of_a_long_entry_again(
        text in prop_oneof!["\\PC{30,90}", "[0-9./, a-z°'\"]{30,90}", "[0-9]{1,3} [a-z]{41,80}", "[0-9]{1,70} mm"]
    ) {
        let letters: Vec<char> = text.chars().collect();
        for measure in MEASURES {
            if let Err(why) = Quantity::parse(&text, measure, None) {
                let said = why.to_string().to_lowercase();
                for part in letters.windows(41) {
                    let part = String::from_iter(part).to_lowercase();
                    prop_assert!(!said.contains(&part), "{}", said);
                }
            }
        }
    }
}
