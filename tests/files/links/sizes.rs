//! A link is short enough to be sent and to be scanned.

use latheside_core::setup::{read_file, write_link};

/// Letters that an address may have in a code of version 12 at level M, in bytes: ISO/IEC
/// 18004:2015, table 7.
const SCANNED: usize = 287;
/// Of which the page's own address may take so many.
const ADDRESS: usize = 40;

fn letters(file: &str) -> usize {
    write_link(&read_file(file).unwrap()).len()
}

#[test]
#[expect(clippy::print_stdout, reason = "a table to look at")]
fn short_enough() {
    let small = r#"{"format": "latheside-setup", "version": 1, "name": "Clamp screw",
        "shop": {"name": "Bench lathe", "lathe": {"leadscrew": "8 tpi",
            "change_gears": [20, 20, 25, 30, 35, 38, 40, 45, 50, 55, 60, 65, 70, 75, 80, 90, 100, 110, 127],
            "spindle_speeds": [45, 70, 110, 190, 320, 540, 900, 1400]}},
        "operations": [{"kind": "thread", "designation": "M10", "length": "22 mm"},
            {"kind": "divide", "into": 24, "diameter": "30 mm"},
            {"kind": "cut", "process": "turn", "stock": "mild-steel", "diameter": "20 mm"}]}"#;
    let other = r#"{"format": "latheside-setup", "version": 1, "name": "Lead nut for the milling slide",
        "shop": {"name": "Old treadle lathe", "lathe": {"leadscrew": "4 tpi", "leadscrew_hand": "right",
            "change_gears": [16, 16, 20, 24, 28, 32, 36, 40, 44, 48, 52, 56, 60, 64, 72, 80, 91, 127],
            "tumbler": true, "pairs_max": 2, "stud_clearance_teeth": 12,
            "spindle_speeds": [{"rpm": 38, "how": "treadle, back gear"}, {"rpm": 85, "how": "large pulley"},
                {"rpm": 170, "how": "middle pulley"}, {"rpm": 390, "how": "small pulley"}],
            "nose": "screwed", "reverse": false,
            "dials": {"cross": {"division": "2 thou", "divisions": 50, "reads": "radius", "backlash": "8 thou"}}}},
        "operations": [{"kind": "thread", "designation": "5/8 BSF", "side": "inside", "length": "1 1/8 in", "ending": "runs-out"},
            {"kind": "cut", "process": "bore", "stock": "bronze", "diameter": "9/16 in", "material": "hss"}]}"#;
    for (name, file, most) in [
        ("the example", include_str!("../../../app/demo/example.json"), 200),
        ("8 speeds, 19 gears, three operations", small, 100),
        ("a shop in inches, its belts named", other, 200),
        ("twelve operations", include_str!("format.json"), 260),
    ] {
        let letters = letters(file);
        println!("{name}: {letters} letters");
        assert!(letters <= most, "{name}: {letters} letters");
        assert!(most > 200 || letters + ADDRESS <= SCANNED);
    }
}
