//! Whatever the file lets through.

use super::*;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]
    /// Whatever the file lets through gets an answer: no panic, no size below nothing, no null, and
    /// every train within what is owned.
    #[test]
    fn nothing_upsets_it(
        screw in select(LEADS), lead in select(LEADS), name in select(NAMES), by_lead in any::<bool>(),
        gears in vec(1u32..1000, 0..8), pairs_max in 1u32..4, clearance in select(&[0u32, 15, 999][..]),
        before in select(&["1/1", "999999/1", "1/999999"][..]), starts in select(&[1u32, 2, 99][..]),
        division in select(&["0.02 mm", "0.000001 mm", "1000000 mm", "1/64 in"][..]),
        side in select(&["inside", "outside"][..]), diameter in select(&["", "0.000001 mm", "1000000 mm", "20 mm"][..]),
        dial in (1u32..1000, 1u32..100), more in select(MORE),
    ) {
        let thread = if by_lead { format!(r#""lead": "{lead}""#) } else { format!(r#""designation": "{name}""#) };
        let diameter = if diameter.is_empty() { String::new() } else { format!(r#", "diameter": "{diameter}""#) };
        let lathe = format!(
            r#""leadscrew": "{screw}", "change_gears": {gears:?}, "pairs_max": {pairs_max}, "before_train": "{before}",
            "stud_clearance_teeth": {clearance}, "chasing_dials": [{{"wheel_teeth": {}, "marks": {}}}],
            "spindle_speeds": [50, 70], "dials": {{"cross": {{"reads": "radius", "division": "{division}", "divisions": 100}},
            "compound": {{"reads": "radius", "division": "{division}"}}}}"#, dial.0, dial.1
        );
        let thread = format!(r#"{thread}, "side": "{side}", "starts": {starts}{diameter}, "length": "20 mm"{more}"#);
        let answer = solve(&lathe, &thread);
        let whole = format!("{answer:?}");
        prop_assert!(!whole.contains("Null") && !whole.contains("NaN") && !whole.contains("inf)"));
        for key in ["depth_mm", "pitch_diameter_mm", "minor_diameter_mm", "helix_deg", "wires.best_mm"] {
            prop_assert!(at(&answer, key).is_none() || number(&answer, key) > 0.0, "{key}");
        }
        if at(&answer, "trains").is_some() {
            for train in list(&answer, "trains") {
                for (driver, driven) in pairs(train) {
                    prop_assert!(gears.contains(&driver) && gears.contains(&driven));
                }
            }
        }
    }
}

const MORE: &[&str] = &[
    "",
    r#", "infeed": "flank", "set_over": "0 deg", "ending": "groove""#,
    r#", "infeed": "flank", "set_over": "90 deg", "ending": "shoulder""#,
    r#", "infeed": "alternating", "passes": 999, "least_cut": "0.000001 mm", "springs": 20"#,
    r#", "radius": "0 mm", "ending": "groove", "groove": "0.000001 mm""#,
    r#", "radius": "1000000 mm", "begun": "thread""#,
    r#", "angle": "10 deg", "sharing": "depth", "to": "nut-in-hand", "shake": "1000000 mm""#,
    r#", "angle": "150 deg", "begun": "thread", "to": "nut-in-hand""#,
];

const LEADS: &[&str] = &[
    "3 mm",
    "8 tpi",
    "0.000001 mm",
    "1000000 mm",
    "1 pi mm",
    "999999.999999 mm",
    "13/127 in",
    "11 1/2 tpi",
];

const NAMES: &[&str] = &[
    "M10",
    "M10 × Ph3 P1.5",
    "1/4-20 UNC-2A",
    "G 1/4",
    "Tr 16 × 4 LH",
    "module 0.000001",
    "DP 999999",
    "16 BA",
    "1/2-10 stub Acme",
    "8 tpi",
    "M999999 x 0.000001",
    "",
];
