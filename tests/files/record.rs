//! What came of a setup stays with it: in its file, and not in its link.

use latheside_core::setup::{
    Setup, keep_made, made, read_file, read_link, said, write_file, write_link,
};

fn with_a_record() -> Setup {
    let mut setup = Setup { name: "Stop screw".into(), ..Setup::default() };
    let wrong = said(0, "cut 2 of 3", "went-wrong", "0.05 under: the dial slipped");
    let measured = said(0, "Measure", "measured", "10.48 mm");
    keep_made(&mut setup.made, made("2026-03-03 14:05:09", "", &[]));
    keep_made(
        &mut setup.made,
        made("2026-03-03 14:05:09", "2026-03-03 15:00:00", &[wrong, measured]),
    );
    setup
}

#[test]
fn a_record_comes_back_to_the_byte() {
    let setup = with_a_record();
    // The run is one, however often it was put in.
    assert_eq!(setup.made.len(), 1);
    let file = write_file(&setup);
    for words in [
        "\"record\": [",
        "\"began\": \"2026-03-03 14:05:09\"",
        "\"operation\": 1",
        "\"step\": \"cut 2 of 3\"",
        "\"what\": \"went-wrong\"",
        "0.05 under: the dial slipped",
    ] {
        assert!(file.contains(words), "{words} in {file}");
    }
    let again = read_file(&file).unwrap();
    assert_eq!(again, setup);
    assert_eq!(write_file(&again), file);
}

#[test]
fn a_link_carries_no_record_and_a_file_without_one_has_no_key_for_it() {
    let setup = with_a_record();
    let sent = read_link(&write_link(&setup)).unwrap();
    assert!(sent.made.is_empty());
    assert_eq!(write_link(&sent), write_link(&setup));
    assert!(!write_file(&sent).contains("record"));
}

#[test]
fn a_record_that_cannot_be_is_refused_where_it_is_wrong() {
    let file = |record: &str| {
        format!("{{\"format\":\"latheside-setup\",\"version\":1,\"record\":{record}}}")
    };
    let runs = vec!["{}"; 101].join(",");
    for (record, words) in [
        ("{}".to_owned(), "record: expected a list of runs"),
        ("[{\"began\":7}]".to_owned(), "record[0].began: expected words in quotes"),
        ("[{\"end\":\"\"}]".to_owned(), "record[0].end: unknown key in a run in the record"),
        (
            "[{\"said\":[{\"what\":\"broke\"}]}]".to_owned(),
            "record[0].said[0].what: expected one of",
        ),
        (
            "[{\"said\":[{\"operation\":0}]}]".to_owned(),
            "record[0].said[0].operation: 0 is outside",
        ),
        (format!("[{runs}]"), "record: 101 runs: at most 100"),
    ] {
        let why = read_file(&file(&record)).unwrap_err().to_string();
        assert!(why.starts_with(words), "{why}");
    }
}

#[test]
fn a_long_record_keeps_the_latest() {
    let mut record = Vec::new();
    for n in 0..250 {
        keep_made(&mut record, made(&format!("{n}"), "", &[]));
    }
    assert_eq!(record.len(), 100);
    assert_eq!(record.last().and_then(|made| made.text("began")), Some("249"));
    let many: Vec<_> =
        (0..2000).map(|n| said(n, &"x".repeat(500), "?", &"é".repeat(500))).collect();
    let setup = Setup { made: vec![made("a", "b", &many)], ..Setup::default() };
    assert_eq!(read_file(&write_file(&setup)), Ok(setup));
}
