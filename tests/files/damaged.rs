//! Whatever happens to a file: a setup or a sentence.

use latheside_core::setup::{answers, read_file, write_file};
use latheside_tests::forms;
use proptest::prelude::*;
use proptest::sample::Index;

const EXAMPLES: [&str; 3] = [
    include_str!("links/example.json"),
    include_str!("links/inch.json"),
    include_str!("links/every.json"),
];

/// Read, or refused in one short line.
fn read_or_refused(text: &str) -> Result<(), TestCaseError> {
    match read_file(text) {
        Ok(setup) => prop_assert_eq!(read_file(&write_file(&setup)), Ok(setup)),
        Err(why) => {
            let said = why.to_string();
            prop_assert!(!said.is_empty() && said.chars().count() < 700, "{}", said);
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]

    #[test]
    fn fault_12_a_damaged_file(
        file in 0..EXAMPLES.len(),
        damage in prop::collection::vec((0..5_u8, any::<Index>(), any::<Index>(), any::<u8>()), 1..4),
    ) {
        let mut bytes = EXAMPLES[file].as_bytes().to_vec();
        for (what, at, to, byte) in damage {
            let (at, to) = (at.index(bytes.len()), to.index(bytes.len()));
            match what {
                0 => bytes[at] = byte,
                1 => bytes[at] ^= 1 << (byte & 7),
                2 => bytes.truncate(at.max(1)),
                3 => drop(bytes.drain(at.min(to)..at.max(to))),
                _ => {
                    let part: Vec<u8> = bytes[at.min(to)..at.max(to)].iter().copied().take(400).collect();
                    bytes.splice(at..at, part);
                }
            }
            if bytes.is_empty() {
                bytes.push(byte);
            }
        }
        read_or_refused(&String::from_utf8_lossy(&bytes))?;
    }

    #[test]
    fn any_text(text in prop_oneof!["\\PC{0,200}", "[\\[\\]{}:,\"0-9a-z. ]{0,200}"]) {
        read_or_refused(&text)?;
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// Values put where they don't belong.
    #[test]
    fn fault_12_a_mixed_up_file(file in forms::setup(4), other in forms::setup(2), from in any::<Index>(), to in any::<Index>()) {
        let (file, other) = (serde_json::to_string(&file).unwrap(), serde_json::to_string(&other).unwrap());
        // From one colon's value on, the rest of the other.
        let cut = |text: &str, at: Index| {
            let places: Vec<usize> = text.match_indices(':').map(|(at, _)| at + 1).collect();
            places[at.index(places.len())]
        };
        let mixed = format!("{}{}", &file[..cut(&file, from)], &other[cut(&other, to)..]);
        read_or_refused(&mixed)?;
    }
}

#[test]
fn the_longest_file_there_may_be_is_read_and_worked() {
    let operation = r#"{"kind": "fit", "basic": "25 mm", "code": "H7/g6"}"#;
    let file = format!(
        r#"{{"format": "latheside-setup", "version": 1, "operations": [{}]{}}}"#,
        vec![operation; 1000].join(","),
        " ".repeat(3_900_000)
    );
    let setup = read_file(&file).unwrap();
    assert_eq!(setup.operations.len(), 1000);
    let all = answers(&setup);
    assert_eq!(latheside_tests::solved::items(all.get("answers").unwrap()).len(), 1000);
}
