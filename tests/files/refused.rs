//! Each bad file gets its sentence: where it is wrong, and what was expected.

use latheside_core::setup::{read_file, write_file};

/// What is said of a file with this in its shop's lathe.
fn lathe(inside: &str) -> String {
    said(&format!(r#"{HEAD}, "shop": {{"lathe": {{{inside}}}}}}}"#))
}

/// What is said of a file with this operation after another.
fn operation(operation: &str) -> String {
    said(&format!(r#"{HEAD}, "operations": [{{"kind": "thread"}}, {operation}]}}"#))
}

/// What is said of a file with this in its shop.
fn shop(inside: &str) -> String {
    said(&format!(r#"{HEAD}, "shop": {{{inside}}}}}"#))
}

fn said(file: &str) -> String {
    match read_file(file) {
        Ok(setup) => format!("read: {}", write_file(&setup)),
        Err(why) => why.to_string(),
    }
}

const HEAD: &str = r#"{"format": "latheside-setup", "version": 1"#;

#[test]
fn what_is_no_setup_file() {
    let deep = "[".repeat(100_000);
    let deep_groups = format!(r#"{HEAD}, "shop": {}"#, r#"{"lathe":"#.repeat(500));
    let large = format!(r#"{HEAD}, "note": "{}"}}"#, "x".repeat(4_000_000));
    let many = format!("{HEAD}, {}", "\"a\": 1, ".repeat(200_000));
    for (file, sentence) in [
        ("", "the file is empty"),
        (" \n\t", "the file is empty"),
        ("hello", "not a setup file: line 1, column 1 is not JSON (expected value)"),
        ("<html></html>", "not a setup file: line 1, column 1 is not JSON (expected value)"),
        (
            "{\"format\": \"latheside-setup\",\n \"version\": 1",
            "the file breaks off in line 2: the rest of it is missing",
        ),
        ("{\"format\":\n \"latheside", "the file breaks off in line 2: the rest of it is missing"),
        ("{\"a\": 1,}", "not a setup file: line 1, column 9 is not JSON (trailing comma)"),
        ("{} and more", "not a setup file: line 1, column 4 is not JSON (trailing characters)"),
        ("{}{}", "not a setup file: line 1, column 3 is not JSON (trailing characters)"),
        ("{'format': 1}", "not a setup file: line 1, column 2 is not JSON (key must be a string)"),
        (&deep, "not a setup file: line 1, column 128 is not JSON (recursion limit exceeded)"),
        (
            &deep_groups,
            "not a setup file: line 1, column 1187 is not JSON (recursion limit exceeded)",
        ),
        ("7", "expected a setup as a group in { }, found 7"),
        ("[]", "expected a setup as a group in { }, found a list"),
        ("null", "expected a setup as a group in { }, found nothing"),
        ("{}", "format: missing: expected latheside-setup"),
        (
            r#"{"format": "latheside-answers"}"#,
            "format: expected latheside-setup, found “latheside-answers”",
        ),
        (r#"{"format": 1}"#, "format: expected latheside-setup, found 1"),
        (r#"{"format": "latheside-setup"}"#, "version: missing: expected 1"),
        (r#"{"format": "latheside-setup", "version": "1"}"#, "version: expected 1, found “1”"),
        (r#"{"format": "latheside-setup", "version": 0}"#, "version: expected 1, found 0"),
        (r#"{"format": "latheside-setup", "version": 1.5}"#, "version: expected 1, found 1.5"),
        (
            r#"{"format": "latheside-setup", "version": 2, "whatever": []}"#,
            "version: this file is of version 2, newer than this Latheside (1): update, then open it",
        ),
        (&large, "the file is larger than 4 MB: no more is read"),
        (&many, "the file breaks off in line 1: the rest of it is missing"),
    ] {
        assert_eq!(said(file), sentence, "{}", file.chars().take(80).collect::<String>());
    }
}

#[test]
fn an_unknown_key_at_each_level() {
    let long = "k".repeat(3_000_000);
    let top = |key: &str| said(&format!(r#"{HEAD}, "{key}": 1}}"#));
    assert_eq!(
        top("shops"),
        "shops: unknown key; known: format, version, name, note, shop, operations, record, place"
    );
    assert_eq!(
        top(&long),
        format!(
            "{}…: unknown key; known: format, version, name, note, shop, operations, record, place",
            "k".repeat(39)
        )
    );
    let cut = shop(&format!(r#""{long}": 1"#));
    assert!(cut.starts_with(&format!(
        "shop.{}…: unknown key in the shop; known: name, lathe, ",
        "k".repeat(39)
    )));
    for (said, start) in [
        (
            shop(r#""lath": {}"#),
            "shop.lath: unknown key in the shop; known: name, lathe, dividing, ",
        ),
        (
            lathe(r#""led": 1"#),
            "shop.lathe.led: unknown key in the lathe; known: leadscrew, leadscrew_hand, ",
        ),
        (
            lathe(r#""dials": {"top": {}}"#),
            "shop.lathe.dials.top: unknown key in the dials; known: cross, compound, carriage, tailstock",
        ),
        (
            lathe(r#""dials": {"cross": {"x": 1}}"#),
            "shop.lathe.dials.cross.x: unknown key in a dial; known: division, divisions, reads, backlash, grows",
        ),
        (
            lathe(r#""banjo": {"modul": "1 mm"}"#),
            "shop.lathe.banjo.modul: unknown key in the banjo; known: module, centres, slot, boss_radius",
        ),
        (
            lathe(r#""chasing_dials": [{"marks": 4}, {"mark": 4}]"#),
            "shop.lathe.chasing_dials[1].mark: unknown key in a chasing dial; known: wheel_teeth, marks",
        ),
        (
            lathe(r#""spindle_speeds": [45, {"rpm": 70, "belt": "1"}]"#),
            "shop.lathe.spindle_speeds[1].belt: unknown key; known: rpm, how",
        ),
        (
            lathe(r#""gearbox": [{"rpm": "1/2"}]"#),
            "shop.lathe.gearbox[0].rpm: unknown key; known: ratio, how",
        ),
        (
            shop(r#""dividing": {"head": {"worm": 40}}"#),
            "shop.dividing.head.worm: unknown key in the dividing head; known: worm_ratio, plates, ",
        ),
        (
            shop(r#""holding": [{"size": 4}]"#),
            "shop.holding[0].size: unknown key in a holder; known: name, kind, from, to, run_out, ",
        ),
        (
            shop(r#""cutters": [{"flutes": 4}]"#),
            "shop.cutters[0].flutes: unknown key in a cutter; known: name, kind, diameter, teeth, ",
        ),
        (
            operation(r#"{"kind": "thread", "pitch": "1 mm"}"#),
            "operations[1].pitch: unknown key in thread; known: kind, designation, lead, ",
        ),
        (
            operation(r#"{"kind": "fit", "size": "1 mm"}"#),
            "operations[1].size: unknown key in fit; known: kind, basic, code",
        ),
    ] {
        assert!(said.starts_with(start), "{said}");
    }
}

#[test]
fn a_key_that_stands_twice() {
    let twice = "stands here twice: keep one of them";
    for (said, path) in [
        (said(r#"{"format": "latheside-setup", "version": 1, "version": 2}"#), "version"),
        (said(&format!(r#"{HEAD}, "name": "a", "name": "b"}}"#)), "name"),
        (shop(r#""lathe": {}, "name": "a", "lathe": {}"#), "shop.lathe"),
        (lathe(r#""leadscrew": "3 mm", "leadscrew": "3 mm""#), "shop.lathe.leadscrew"),
        (lathe(r#""leadscrew": null, "leadscrew": "3 mm""#), "shop.lathe.leadscrew"),
        (
            lathe(r#""spindle_speeds": [{"rpm": 45, "rpm": 46}]"#),
            "shop.lathe.spindle_speeds[0].rpm",
        ),
        (operation(r#"{"kind": "fit", "kind": "hold"}"#), "operations[1].kind"),
        (operation(r#"{"kind": "divide", "into": 6, "into": 7}"#), "operations[1].into"),
    ] {
        assert_eq!(said, format!("{path}: {twice}"));
    }
}

#[test]
fn a_wrong_or_missing_unit() {
    for (said, sentence) in [
        (
            operation(r#"{"kind": "thread", "length": 22}"#),
            "operations[1].length: 22 of what? expected a length in mm, in or thou, in quotes: \"22 mm\"",
        ),
        (
            operation(r#"{"kind": "thread", "length": 22.5}"#),
            "operations[1].length: 22.5 of what? expected a length in mm, in or thou, in quotes: \"22.5 mm\"",
        ),
        (
            operation(r#"{"kind": "thread", "length": "22"}"#),
            "operations[1].length: 22 of what? enter a length in mm, in or thou",
        ),
        (
            operation(r#"{"kind": "thread", "lead": 1}"#),
            "operations[1].lead: 1 of what? expected a lead in mm, in, thou or tpi, in quotes: \"1 mm\"",
        ),
        (
            operation(r#"{"kind": "thread", "length": 1e300}"#),
            "operations[1].length: expected a length in mm, in or thou in quotes, found an enormous number",
        ),
        (
            lathe(r#""before_train": 2"#),
            "shop.lathe.before_train: 2 of what? expected a ratio like 40/1 or 1/2, in quotes: \"2/1\"",
        ),
        (
            operation(r#"{"kind": "divide", "angles": ["0 deg", 30]}"#),
            "operations[1].angles[1]: 30 of what? expected an angle in degrees, as 12.5° or 12° 30', in quotes: \"30 deg\"",
        ),
        (
            operation(r#"{"kind": "thread", "length": "22 deg"}"#),
            "operations[1].length: deg won't do here: enter a length in mm, in or thou",
        ),
        (
            operation(r#"{"kind": "thread", "length": "8 tpi"}"#),
            "operations[1].length: tpi won't do here: enter a length in mm, in or thou",
        ),
        (
            operation(r#"{"kind": "thread", "length": "2 pi mm"}"#),
            "operations[1].length: “pi mm” is no unit I know: enter a length in mm, in or thou",
        ),
        (
            operation(r#"{"kind": "thread", "length": "22 km"}"#),
            "operations[1].length: “km” is no unit I know: enter a length in mm, in or thou",
        ),
        (
            operation(r#"{"kind": "thread", "length": ""}"#),
            "operations[1].length: nothing here yet: enter a length in mm, in or thou",
        ),
        (
            operation(r#"{"kind": "thread", "length": true}"#),
            "operations[1].length: expected a length in mm, in or thou in quotes, found true",
        ),
        (
            lathe(r#""leadscrew": "8""#),
            "shop.lathe.leadscrew: 8 of what? enter a lead in mm, in, thou or tpi",
        ),
        (
            lathe(r#""gearbox": ["1/1", "1/2 mm"]"#),
            "shop.lathe.gearbox[1]: “mm” is no unit I know: enter a ratio like 40/1 or 1/2",
        ),
        (
            shop(r#""drills": ["5 mm", "M6"]"#),
            "shop.drills[1]: “M6” is not a number: enter a length in mm, in or thou",
        ),
    ] {
        assert_eq!(said, sentence);
    }
}

#[test]
fn a_wrong_kind_of_value() {
    for (said, sentence) in [
        (said(&format!(r#"{HEAD}, "name": 5}}"#)), "name: expected words in quotes, found 5"),
        (
            said(&format!(r#"{HEAD}, "note": null}}"#)),
            "note: expected words in quotes, found nothing",
        ),
        (
            said(&format!(r#"{HEAD}, "shop": []}}"#)),
            "shop: expected the shop as a group in { }, found a list",
        ),
        (
            said(&format!(r#"{HEAD}, "shop": null}}"#)),
            "shop: expected the shop as a group in { }, found nothing",
        ),
        (
            said(&format!(r#"{HEAD}, "operations": {{}}}}"#)),
            "operations: expected a list of operations, found a group in { }",
        ),
        (operation("5"), "operations[1]: expected an operation as a group in { }, found 5"),
        (
            operation("null"),
            "operations[1]: expected an operation as a group in { }, found nothing",
        ),
        (
            shop(r#""lathe": "mine""#),
            "shop.lathe: expected the lathe as a group in { }, found “mine”",
        ),
        (
            lathe(r#""change_gears": 40"#),
            "shop.lathe.change_gears: expected a list of gears, found 40",
        ),
        (
            lathe(r#""change_gears": "20-80 by 5""#),
            "shop.lathe.change_gears: expected a list of gears, found “20-80 by 5”",
        ),
        (
            lathe(r#""change_gears": [20, "30"]"#),
            "shop.lathe.change_gears[1]: expected a whole number from 1 to 999, found “30”",
        ),
        (
            lathe(r#""change_gears": [20, 30.5]"#),
            "shop.lathe.change_gears[1]: expected a whole number from 1 to 999, found 30.5",
        ),
        (
            lathe(r#""change_gears": [20, null]"#),
            "shop.lathe.change_gears[1]: expected a whole number from 1 to 999, found nothing",
        ),
        (
            lathe(r#""change_gears": [[20]]"#),
            "shop.lathe.change_gears[0]: expected a whole number from 1 to 999, found a list",
        ),
        (lathe(r#""tumbler": "yes""#), "shop.lathe.tumbler: expected true or false, found “yes”"),
        (
            lathe(r#""nose": "bayonet""#),
            "shop.lathe.nose: expected one of screwed, locked, found “bayonet”",
        ),
        (lathe(r#""nose": 1"#), "shop.lathe.nose: expected one of screwed, locked, found 1"),
        (
            lathe(r#""centres_teeth": [60]"#),
            "shop.lathe.centres_teeth: expected two in a list, least and most; found 1",
        ),
        (
            lathe(r#""centres_teeth": [60, 120, 180]"#),
            "shop.lathe.centres_teeth: expected two in a list, least and most; found 3",
        ),
        (
            lathe(r#""centres_teeth": 60"#),
            "shop.lathe.centres_teeth: expected two in a list, least and most, found 60",
        ),
        (
            lathe(r#""spindle_speeds": [{"how": "belt 1"}]"#),
            "shop.lathe.spindle_speeds[0]: “rpm” is missing",
        ),
        (
            lathe(r#""spindle_speeds": [{"rpm": 45, "how": 1}]"#),
            "shop.lathe.spindle_speeds[0].how: expected words in quotes, found 1",
        ),
    ] {
        assert_eq!(said, sentence);
    }
    // What is absent may be said to be.
    for accepted in [
        lathe(r#""centres_teeth": null, "dials": {"carriage": null}"#),
        operation(r#"{"kind": "fit", "code": null}"#),
    ] {
        assert!(accepted.starts_with("read: "), "{accepted}");
    }
}

#[test]
fn a_kind_that_is_none() {
    let kinds = "thread, divide, ";
    for (said, start) in [
        (operation("{}"), format!("operations[1]: “kind” is missing: one of {kinds}")),
        (operation(r#"{"kind": "weld"}"#), format!("operations[1].kind: expected one of {kinds}")),
        (operation(r#"{"kind": 3}"#), format!("operations[1].kind: expected one of {kinds}")),
    ] {
        assert!(said.starts_with(&start), "{said}");
    }
    assert!(operation(r#"{"kind": "weld"}"#).ends_with(", found “weld”"));
    let long = operation(&format!(r#"{{"kind": "{}"}}"#, "w".repeat(2000)));
    assert!(long.ends_with(&format!(", found “{}…”", "w".repeat(39))), "{long}");
}

#[test]
fn what_is_beyond_the_limits() {
    let list = |item: &str, n: usize| vec![item; n].join(", ");
    let gears = |n: usize| lathe(&format!(r#""change_gears": [{}]"#, list("20", n)));
    let operations =
        |n: usize| said(&format!(r#"{HEAD}, "operations": [{}]}}"#, list(r#"{"kind": "fit"}"#, n)));
    let boxes = |n: usize| lathe(&format!(r#""gearbox": [{}]"#, list(r#""1/2""#, n)));
    for (said, sentence) in [
        (
            operation(r#"{"kind": "divide", "into": 10000}"#),
            "operations[1].into: 10000 is outside 2 to 9999",
        ),
        (
            operation(r#"{"kind": "divide", "into": 0}"#),
            "operations[1].into: 0 is outside 2 to 9999",
        ),
        (
            operation(r#"{"kind": "divide", "into": -6}"#),
            "operations[1].into: -6 is outside 2 to 9999",
        ),
        (
            operation(r#"{"kind": "divide", "into": 99999999999}"#),
            "operations[1].into: 99999999999 is outside 2 to 9999",
        ),
        (
            operation(r#"{"kind": "divide", "into": 1e40}"#),
            "operations[1].into: expected a whole number from 2 to 9999, found an enormous number",
        ),
        (lathe(r#""change_gears": [20, 0]"#), "shop.lathe.change_gears[1]: 0 is outside 1 to 999"),
        (
            lathe(r#""change_gears": [20, 1000]"#),
            "shop.lathe.change_gears[1]: 1000 is outside 1 to 999",
        ),
        (lathe(r#""pairs_max": 4"#), "shop.lathe.pairs_max: 4 is outside 1 to 3"),
        (
            operation(r#"{"kind": "thread", "lead": "0 mm"}"#),
            "operations[1].lead: 0 mm won't do: it must be more than nothing",
        ),
        (
            operation(r#"{"kind": "thread", "lead": "0 tpi"}"#),
            "operations[1].lead: 0 tpi divides by nothing",
        ),
        (
            operation(r#"{"kind": "thread", "lead": "-1 mm"}"#),
            "operations[1].lead: -1 mm won't do: it must be more than nothing",
        ),
        (
            lathe(r#""leadscrew": "0 mm""#),
            "shop.lathe.leadscrew: 0 mm won't do: it must be more than nothing",
        ),
        (lathe(r#""gearbox": ["1/0"]"#), "shop.lathe.gearbox[0]: 1/0 divides by nothing"),
        (
            lathe(r#""dials": {"cross": {"backlash": "-1 mm"}}"#),
            "shop.lathe.dials.cross.backlash: -1 mm won't do: it can't be less than nothing",
        ),
        (gears(300), "shop.lathe.change_gears: 300 gears: at most 100"),
        (boxes(101), "shop.lathe.gearbox: 101 gearbox ratios: at most 100"),
        (operations(1001), "operations: 1001 operations: at most 1000"),
        (
            operation(r#"{"kind": "thread", "length": "0.1234567 mm"}"#),
            "operations[1].length: 0.1234567 has more than 6 decimals",
        ),
        (
            operation(r#"{"kind": "thread", "length": "1000001 mm"}"#),
            "operations[1].length: 1000001 mm is more than a kilometre",
        ),
        (
            operation(r#"{"kind": "thread", "length": "50000 in"}"#),
            "operations[1].length: 50000 in is more than a kilometre",
        ),
        (
            operation(r#"{"kind": "divide", "angles": ["1000001 deg"]}"#),
            "operations[1].angles[0]: 1000001 deg is more than a million degrees",
        ),
        (
            lathe(r#""before_train": "1000001""#),
            "shop.lathe.before_train: 1000001 is more than a million",
        ),
        (
            said(&format!(r#"{HEAD}, "name": "{}"}}"#, "n".repeat(91))),
            "name: 91 characters: at most 90",
        ),
        (
            said(&format!(r#"{HEAD}, "note": "{}"}}"#, "n".repeat(2001))),
            "note: 2001 characters: at most 2000",
        ),
        (shop(&format!(r#""name": "{}""#, "ß".repeat(91))), "shop.name: 91 characters: at most 90"),
    ] {
        assert_eq!(said, sentence);
    }
    // At the limits it is taken.
    for accepted in [
        gears(100),
        boxes(100),
        operations(1000),
        operation(r#"{"kind": "divide", "into": 9999}"#),
        operation(r#"{"kind": "thread", "length": "0.123456 mm"}"#),
        operation(r#"{"kind": "thread", "length": "1000000 mm"}"#),
        lathe(r#""change_gears": [999]"#),
        said(&format!(r#"{HEAD}, "name": "{}"}}"#, "ß".repeat(90))),
        said(&format!("\u{feff}{HEAD}}}")),
    ] {
        assert!(accepted.starts_with("read: "), "{accepted}");
    }
}

#[test]
fn a_place_is_two_numbers_from_one_on() {
    for (place, sentence) in [
        ("7", "place: expected an operation's number and a step's"),
        ("[1]", "place: expected an operation's number and a step's"),
        ("[1, 2, 3]", "place: expected an operation's number and a step's"),
        ("[0, 2]", "place[0]: expected a number from 1 to 1000"),
        ("[1, -4]", "place[1]: expected a number from 1 to 1000000"),
        ("[1, \"2\"]", "place[1]: expected a number from 1 to 1000000"),
    ] {
        let said = said(&format!(r#"{HEAD}, "place": {place}}}"#));
        assert!(said.starts_with(sentence), "{place}: {said}");
    }
    let read = said(&format!(r#"{HEAD}, "place": [2, 15]}}"#));
    assert!(read.replace([' ', '\n'], "").contains("\"place\":[2,15]"), "{read}");
}
