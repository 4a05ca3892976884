//! Threads beside the printed tables: names and series.

use latheside_core::exact::Ratio;
use latheside_core::threads::{
    Class, Designation, DesignationError, Hand, Series, Side, listed, parse, standard, suggest,
};

/// As written; as understood; pitch × 127/5 or mm as a fraction; starts; left-hand.
type Name = (&'static str, &'static str, (i64, i64), u16, bool);

#[rustfmt::skip]
const NAMES: &[Name] = &[
    ("M10", "M10", (3, 2), 1, false),
    ("m10", "M10", (3, 2), 1, false),
    ("M10x1.25-6g", "M10 × 1.25-6g", (5, 4), 1, false),
    ("M 10 x 1,25", "M10 × 1.25", (5, 4), 1, false),
    ("Ø M12 × 1", "M12 × 1", (1, 1), 1, false),
    ("M12 × 1", "M12 × 1", (1, 1), 1, false),
    ("M12x1.75", "M12", (7, 4), 1, false),
    ("10x1.25", "M10 × 1.25", (5, 4), 1, false),
    ("M16xPh3P1.5", "M16 × Ph3 P1.5", (3, 2), 2, false),
    ("M27x1.5-4e6g", "M27 × 1.5-4e6g", (3, 2), 1, false),
    ("M8-6H", "M8-6H", (5, 4), 1, false),
    ("1/4-20 UNC-2A", "1/4-20 UNC-2A", (127, 100), 1, false),
    ("1/4 UNC", "1/4-20 UNC", (127, 100), 1, false),
    ("0.25-20 UNC", "1/4-20 UNC", (127, 100), 1, false),
    ("0.25-28", "1/4-28 UNF", (127, 140), 1, false),
    ("¼-28", "1/4-28 UNF", (127, 140), 1, false),
    ("1/4\" x 28", "1/4-28 UNF", (127, 140), 1, false),
    // A class says whose it is.
    ("1/4-20-2A", "1/4-20 UNC-2A", (127, 100), 1, false),
    ("1/4-24 UNS", "1/4-24 UNS", (127, 120), 1, false),
    ("1/4 x 40 ME", "1/4-40 ME", (127, 200), 1, false),
    ("1/4 brass", "1/4-26 Brass", (127, 130), 1, false),
    ("1/4 x 26 BSB", "1/4-26 Brass", (127, 130), 1, false),
    ("1/4 cycle", "1/4-26 BSC", (127, 130), 1, false),
    ("1.370 BSC", "1.37-24 BSC", (127, 120), 1, false),
    ("#10-32", "#10-32 UNF", (127, 160), 1, false),
    ("10-32 UNF", "#10-32 UNF", (127, 160), 1, false),
    ("No. 4-40", "#4-40 UNC", (127, 200), 1, false),
    ("1-8 UNC", "1-8 UNC", (127, 40), 1, false),
    ("1-64 UNC", "#1-64 UNC", (127, 320), 1, false),
    ("1 1/8-8 UN", "1 1/8-8 8-UN", (127, 40), 1, false),
    ("1-1/8-7 UNC", "1 1/8-7 UNC", (127, 35), 1, false),
    ("2 1/2-28 UNS", "2 1/2-28 UNS", (127, 140), 1, false),
    // Neither is in a table: a large number with few threads is a screw's number, a small one inches.
    ("5-20", "#5-20 UNS", (127, 100), 1, false),
    ("3-20 UNS", "3-20 UNS", (127, 100), 1, false),
    ("2-32", "#2-32 UNS", (127, 160), 1, false),
    ("1/4 BSW", "1/4 BSW", (127, 100), 1, false),
    ("1/4 Whit", "1/4 BSW", (127, 100), 1, false),
    ("1/2x32 Whit", "1/2-32 Whit", (127, 160), 1, false),
    ("3/8 BSF", "3/8 BSF", (127, 100), 1, false),
    ("3/8 in BSF medium", "3/8 BSF medium", (127, 100), 1, false),
    ("G1/4", "G 1/4", (127, 95), 1, false),
    ("1/4 BSP", "G 1/4", (127, 95), 1, false),
    ("G 1 1/4 A", "G 1 1/4A", (127, 55), 1, false),
    ("2 BA", "2 BA", (81, 100), 1, false),
    ("2BA", "2 BA", (81, 100), 1, false),
    ("Tr 16x4 LH", "Tr 16 × 4 LH", (4, 1), 1, true),
    ("Tr16", "Tr 16 × 4", (4, 1), 1, false),
    ("Tr16x8(P4)", "Tr 16 × 8 (P4)", (4, 1), 2, false),
    ("Tr16x8 2 starts", "Tr 16 × 8 (P4)", (4, 1), 2, false),
    ("1/2-10 Acme", "1/2-10 Acme", (127, 50), 1, false),
    ("1/2-10 Acme-2G", "1/2-10 Acme-2G", (127, 50), 1, false),
    ("1-5 Acme 2 start", "1-5 Acme, 2 starts", (127, 25), 2, false),
    ("1/2-10 Stub Acme left hand", "1/2-10 Stub Acme LH", (127, 50), 1, true),
    ("3 mm", "3 mm", (3, 1), 1, false),
    ("8 tpi", "8 tpi", (127, 40), 1, false),
    ("1/8 in", "8 tpi", (127, 40), 1, false),
    ("3 mm, two starts", "3 mm, 2 starts", (3, 2), 2, false),
];

#[test]
fn names_are_read_as_people_write_them() {
    for (written, shown, (num, den), starts, left) in NAMES {
        let thread = parse(written).unwrap_or_else(|why| panic!("{written}: {why}"));
        assert_eq!(thread.to_string(), *shown, "{written}");
        assert_eq!(thread.pitch.factor(), Ratio::of(*num, *den), "{written}");
        assert_eq!(thread.starts, *starts, "{written}");
        assert_eq!(thread.hand == Hand::Left, *left, "{written}");
        assert_eq!(parse(shown).as_ref(), Ok(&thread), "{shown} doesn't read back");
    }
}

#[test]
fn starts_share_a_bare_lead_and_multiply_a_pitch() {
    let bare = parse("6 mm").unwrap().with_starts(3).unwrap();
    assert_eq!(
        (bare.pitch.factor(), bare.lead().unwrap().factor()),
        (Ratio::of(2, 1), Ratio::of(6, 1))
    );
    let named = parse("M10").unwrap().with_starts(3).unwrap();
    assert_eq!(
        (named.pitch.factor(), named.lead().unwrap().factor()),
        (Ratio::of(3, 2), Ratio::of(9, 2))
    );
    assert!(bare.with_starts(0).is_err() && named.with_starts(0).is_err());
}

#[test]
fn worms_keep_their_pi() {
    for (written, shown, lead) in [
        ("module 1", "module 1", "1 pi mm"),
        ("mod 1 2 starts", "module 1, 2 starts", "2 pi mm"),
        ("module 1, two starts", "module 1, 2 starts", "2 pi mm"),
        ("DP 20", "DP 20", "1.27 pi mm"),
        ("20 DP", "DP 20", "1.27 pi mm"),
        ("2.5 pi mm", "2.5 pi mm", "2.5 pi mm"),
    ] {
        let thread = parse(written).unwrap_or_else(|why| panic!("{written}: {why}"));
        assert_eq!(
            (thread.to_string(), thread.lead().unwrap().to_string()),
            (shown.into(), lead.into())
        );
        assert!(!thread.pitch.is_exact(), "{written}");
    }
}

#[test]
fn what_is_not_understood_is_named() {
    for (written, says) in [
        ("", "no thread yet"),
        ("   ", "no thread yet"),
        ("M10 by lunchtime", "“bylunchtime” isn't understood"),
        ("дюйм", "“дюйм” isn't understood"),
        ("hello", "“hello” isn't understood"),
        ("3/8", "3/8 is a size, and several threads have it"),
        ("17 BA", "there is no BA thread of size 17"),
        ("2/5 BSW", "nearest are 3/8 BSW and 7/16 BSW"),
        ("M29", "M29 has no pitch of its own"),
        ("M15", "like M15 × 1.5"),
        ("1/4-28 UNC", "no UNC thread of size 1/4"),
        ("M10-2A", "class 2A isn't one of this thread's"),
        ("M3x3", "too large"),
        ("1/4-0", "0 can't be"),
        ("G 3/16", "no G thread of size 3/16"),
        ("Tr16x7(P4)", "a lead of 7 isn't a whole number of pitches of 4"),
        ("#9-32", "no Unified thread of size #9"),
        ("M99999999999", "can't be"),
        ("1/0-20", "1/0"),
        ("M10x", "isn't understood"),
    ] {
        let why = parse(written).expect_err(written).to_string();
        assert!(why.contains(says), "{written}: {why}");
    }
}

/// What is several threads is asked for, each by name with what tells it from the others.
#[test]
fn what_is_several_threads_is_asked_for() {
    for (written, says) in [
        (
            "1/4 × 40",
            "1/4 × 40 could be several threads: say which, 1/4-40 ME (55°, model engineers') or 1/4-40 UNS (60°)",
        ),
        (
            "1/4 x 26",
            "1/4 × 26 could be several threads: say which, 1/4 BSF (55°), 1/4-26 Brass (55°, brass tube and fittings), 1/4-26 BSC (60°, rounded, cycles) or 1/4-26 UNS (60°)",
        ),
        ("1/4-20", "say which, 1/4-20 UNC (60°) or 1/4 BSW (55°)"),
        (
            "3/8-26 tpi",
            "3/8-26 Brass (55°, brass tube and fittings), 3/8-26 BSC (60°, rounded, cycles)",
        ),
        ("1/2-12", "say which, 1/2 BSW (55°) or 1/2-12 UNS (60°)"),
        ("1/8 x 28", "1/8-28 Whit (55°)"),
        ("1/4-27", "say which, 1/4-27 UNS (60°) or 1/4-27 Whit (55°)"),
        (
            "1/4 ME",
            "say which, 1/4-40 ME (55°, model engineers') or 1/4-32 ME (55°, model engineers')",
        ),
        ("1 1/8-7", "say which, 1 1/8-7 UNC (60°) or 1 1/8 BSW (55°)"),
    ] {
        let why = parse(written).expect_err(written).to_string();
        assert!(why.contains(says), "{written}: {why}");
        // Each of them can be named.
        let Err(DesignationError::Which { meant, .. }) = parse(written) else {
            panic!("{written}")
        };
        for thread in meant {
            assert_eq!(parse(&thread.to_string()), Ok(thread), "{written}: {thread}");
        }
    }
    // Whatever two lists have at one size and pitch is never taken for one of them.
    let inch = |d: &&Designation| d.to_string().split(['-', ' ']).count() > 1;
    for thread in listed().iter().filter(inch) {
        let (Some(tpi), Some(_)) = (thread.tpi(), thread.diameter) else { continue };
        let same = listed().into_iter().filter(|d| d.size == thread.size && d.tpi() == Some(tpi));
        let kept = |d: &Designation| d.series.standard() != "ISO 261" && d.series != Series::Ba;
        let same: Vec<_> = same.filter(kept).collect();
        if same.len() > 1 && thread.size.numer() < 100 {
            let written = format!("{}-{tpi}", thread.size);
            assert!(
                matches!(parse(&written), Err(DesignationError::Which { .. })),
                "{written}: {same:?}"
            );
        }
    }
}

#[test]
fn every_standard_name_reads_back() {
    let all = listed();
    assert!(all.len() >= 200, "{}", all.len());
    for thread in &all {
        let name = thread.to_string();
        let read = parse(&name).unwrap_or_else(|why| panic!("{name}: {why}"));
        assert_eq!(read, *thread, "{name}");
        assert_eq!(all.iter().filter(|d| *d == thread).count(), 1, "{name} stands twice");
        if let Some(diameter) = thread.diameter {
            assert!(thread.pitch.factor() < diameter, "{name}");
        }
    }
}

#[test]
fn sizes_run_upwards_in_every_series() {
    let all = standard();
    for pair in all.windows(2) {
        if pair[0].series == pair[1].series {
            let worm = pair[0].series == Series::DiametralPitch;
            assert!(worm || pair[0].size <= pair[1].size, "{} before {}", pair[0], pair[1]);
        }
    }
}

#[test]
fn suggestions_come_as_one_types() {
    let names = |text: &str| suggest(text).iter().map(ToString::to_string).collect::<Vec<_>>();
    for (typed, wanted) in [
        ("M10", "M10"),
        ("10", "M10"),
        ("10", "#10-32 UNF"),
        ("1/4", "1/4-20 UNC"),
        ("1/4", "1/4 BSW"),
        ("1/4", "1/4 BSF"),
        ("1/4", "G 1/4"),
        ("3/8 b", "3/8 BSF"),
        ("tr16", "Tr 16 × 4"),
        ("2ba", "2 BA"),
        ("m12x1", "M12 × 1"),
        ("M29x1.25", "M29 × 1.25"),
        ("mod", "module 1"),
    ] {
        let found = names(typed);
        assert!(found.len() <= 8);
        assert!(found.iter().any(|name| name == wanted), "{typed}: {found:?}");
    }
    assert_eq!(names("M10")[0], "M10");
    assert!(names("").is_empty() && names("zzz").is_empty());
}

#[test]
fn classes_read_back() {
    for name in [
        "6g", "4h", "6e", "8g", "5H", "6H", "7H", "4g6g", "1A", "2B", "close", "medium", "free",
        "2G",
    ] {
        assert_eq!(Class::parse(name).unwrap().to_string(), name);
    }
    assert_eq!(Class::parse("6H").unwrap().side(), Some(Side::Inside));
    assert_eq!(Class::parse("6g").unwrap().side(), Some(Side::Outside));
    for none in ["", "6", "g6", "66", "2C", "9H9H9H", "10g"] {
        assert_eq!(Class::parse(none), None, "{none}");
    }
}

/// Diameter and pitches. Source: the open table of bd-warehouse 0.4.0 (Apache-2.0) up to 100 mm.
#[rustfmt::skip]
const TRAPEZOIDAL: &[(i64, &str)] = &[
    (8, "1.5"), (9, "1.5 2"), (10, "1.5 2"), (11, "2 3"), (12, "2 3"), (14, "2 3"), (16, "2 3 4"),
    (18, "2 3 4"), (20, "2 3 4"), (22, "3 5 8"), (24, "3 5 8"), (26, "3 5 8"), (28, "3 5 8"),
    (30, "3 6 10"), (32, "3 6 10"), (34, "3 6 10"), (36, "3 6 10"), (38, "3 7 10"), (40, "3 7 10"),
    (42, "3 7 10"), (44, "3 7 12"), (46, "3 8 12"), (48, "3 8 12"), (50, "3 8 12"), (52, "3 8 12"),
    (55, "3 9 14"), (60, "3 9 14"), (65, "4 10 16"), (70, "4 10 16"), (75, "4 10 16"),
    (80, "4 10 16"), (85, "4 12 18"), (90, "4 12 18"), (95, "4 12 18"), (100, "4 12 20"),
];

#[test]
fn trapezoidal_sizes_beside_an_open_table() {
    let mut listed = Vec::new();
    for (diameter, pitches) in TRAPEZOIDAL {
        for pitch in pitches.split(' ') {
            // ISO 2904 has only 2 and 4 mm for these three.
            if !(matches!(diameter, 16 | 18 | 20) && pitch == "3") {
                listed.push(parse(&format!("Tr {diameter} × {pitch}")).unwrap());
            }
        }
    }
    let ours: Vec<_> = standard().into_iter().filter(|d| d.series == Series::Trapezoidal).collect();
    for thread in &listed {
        assert!(ours.contains(thread), "{thread}: ISO 2904, bd-warehouse 0.4.0");
    }
    assert_eq!(ours.len(), listed.len());
}
