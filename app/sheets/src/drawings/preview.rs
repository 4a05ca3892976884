//! Every drawing in every theme, written out to be looked at.

use std::fs;
use std::path::Path;

use super::*;

const SHEET: &str = include_str!("../../../style/drawings.css");

/// The page's own colours.
const TOKENS: &str = include_str!("../../../style/tokens.css");
const THEMES: &[&str] = &["blue", "paper", "sun"];

pub(super) fn pictures() -> Vec<(&'static str, String)> {
    let stud = |pairs, idlers| train(&Train { pairs, idlers, from: "spindle", to: "leadscrew" });
    let usual = Lengths { long: 10, middle: 5 };
    let fours = Lengths { long: 4, middle: 2 };
    let none = Numbers { every: 0, worth: 0, places: 0 };
    let thou = Numbers { every: 4, worth: 10, places: 0 };
    let tens = Numbers { every: 10, worth: 10, places: 0 };
    let of = |divisions, made, mark, numbers| {
        rim(&Rim { divisions, made, laps: 1, angles: &[], mark, first: 0, numbers })
    };
    let speeds = [
        Speed { rpm: 45, how: "back gear, belt 1" },
        Speed { rpm: 70, how: "back gear, belt 2" },
        Speed { rpm: 110, how: "back gear, belt 3" },
        Speed { rpm: 190, how: "belt 1" },
        Speed { rpm: 320, how: "belt 2" },
        Speed { rpm: 540, how: "belt 3" },
        Speed { rpm: 900, how: "belt 4" },
    ];
    let many: Vec<Speed> =
        [28, 40, 56, 80, 112, 160, 224, 315, 450, 630, 900, 1250, 1800, 2000, 2100, 2240]
            .map(|rpm| Speed { rpm, how: "" })
            .into();
    let ladder = |speeds, ideal, chosen| speed_ladder(&SpeedLadder { speeds, ideal, chosen });
    let circles = [21, 23, 27, 29, 31, 33];
    let large = [37, 39, 41, 43, 47, 49];
    let pinned =
        |circles, used, present, step, done| plate(&Plate { circles, used, present, step, done });
    let by_three: Vec<u32> = (0..24).map(|k| k * 3).collect();
    let by_half: Vec<u32> = (0..16).map(|k| k * 15).collect();
    let scale = |lines, numbers, leftwards| Collar {
        lines,
        lengths: usual,
        numbers,
        leftwards,
        diameter_mm: 60.0,
        long_mm: 6.0,
        line_mm: 0.2,
    };
    let passes = |count: u32, depth: f64| -> Vec<f64> {
        (1..=count).map(|k| depth * (f64::from(k) / f64::from(count)).sqrt()).collect()
    };
    let (twelve, eight) = (passes(12, 0.814), passes(8, 0.812));
    let bsf = ThreadSection {
        included_deg: 55.0,
        pitch: 1.27,
        depth: 0.813,
        crest: 0.208,
        rounded: true,
        passes: &twelve,
        along_flank: false,
        inside: false,
        pitch_words: "20 tpi",
        depth_words: "0.813 mm",
        passes_words: "12 passes",
        limits: Some((0.775, 0.845)),
        limits_words: "± 35 µm",
    };
    let iso = ThreadSection {
        included_deg: 60.0,
        pitch: 1.5,
        depth: 0.812,
        crest: 0.375,
        rounded: false,
        passes: &eight,
        along_flank: true,
        inside: true,
        pitch_words: "1.5 mm",
        depth_words: "0.812 mm",
        passes_words: "8 passes",
        limits: None,
        limits_words: "",
    };
    let acme = ThreadSection {
        included_deg: 29.0,
        pitch: 5.08,
        depth: 2.79,
        crest: 1.883,
        rounded: false,
        passes: &[0.5, 1.0, 1.4, 1.8, 2.1, 2.4, 2.6, 2.79],
        along_flank: false,
        inside: false,
        pitch_words: "5 tpi",
        depth_words: "110 thou",
        passes_words: "8 passes",
        limits: None,
        limits_words: "",
    };
    let morse = Taper {
        large: 17.78,
        small: 14.533,
        length: 65.0,
        large_words: "Ø 17.78",
        small_words: "Ø 14.53",
        length_words: "65 mm",
        angle_words: "1° 26′",
        indicator: Some((50.0, "1.249 mm over 50 mm")),
    };
    let steep = Taper {
        large: 30.0,
        small: 8.0,
        length: 20.0,
        large_words: "Ø 30",
        small_words: "Ø 8",
        length_words: "20 mm",
        angle_words: "28° 49′",
        indicator: None,
    };
    let hole = Zone { deviation: (0.0, 21.0), name: "hole H7", least: "25.000", most: "25.021" };
    let shaft =
        Zone { deviation: (-20.0, -7.0), name: "shaft g6", least: "24.980", most: "24.993" };
    let slides = FitZones { hole, shaft, basic: "25 mm" };
    let hole = Zone { deviation: (0.0, 21.0), name: "hole H7", least: "25.000", most: "25.021" };
    let shaft = Zone { deviation: (22.0, 35.0), name: "shaft p6", least: "25.022", most: "25.035" };
    let presses = FitZones { hole, shaft, basic: "25 mm" };
    let cap = SeatedScrew {
        thread: 6.0,
        head_diameter: 10.0,
        head_height: 6.0,
        seat: Seat::Counterbore { diameter: 11.0, depth: 6.5 },
        clearance: 6.6,
        thickness: 14.0,
        engaged: 9.0,
        tap_drill: 5.0,
        drilled: 12.0,
        head_words: "head 0.5 mm below",
        seat_words: "counterbore Ø 11",
        clearance_words: "Ø 6.6 clears",
        tap_words: "M6, drill Ø 5",
        drilled_words: "12 mm deep",
    };
    let sunk = SeatedScrew {
        head_diameter: 12.0,
        head_height: 3.3,
        seat: Seat::Countersink { diameter: 12.4, included_deg: 90.0 },
        thickness: 8.0,
        head_words: "head 0.2 mm below",
        seat_words: "90° to Ø 12.4",
        ..cap
    };
    let cut = |depth, across, milled, inside| {
        chip(&Chip {
            depth,
            across,
            milled,
            inside,
            depth_words: "0.75 mm deep",
            across_words: if milled { "3 mm wide" } else { "0.127 mm a turn" },
            chip_words: if milled { "0.006 mm a tooth" } else { "the next chip" },
        })
    };
    let rail = Bar {
        places: 8,
        made: 0,
        lines: false,
        pitch: 32.0,
        ends: [Some(13.0), Some(13.0)],
        drill: Some(5.0),
        side: Some(12.0),
        pitch_words: "32 mm",
        overall_words: "224 mm",
        first_words: "13 mm",
    };
    vec![
        ("bar-8", bar(&Bar { made: 3, ..rail })),
        ("bar-first", bar(&rail)),
        ("bar-done", bar(&Bar { made: 8, ..rail })),
        ("bar-two", bar(&Bar { places: 2, ends: [Some(20.0), None], side: None, ..rail })),
        ("bar-lines", bar(&Bar { places: 20, made: 11, lines: true, ends: [None; 2], ..rail })),
        ("bar-many", bar(&Bar { places: 150, made: 70, ..rail })),
        ("bar-thin", bar(&Bar { made: 4, drill: Some(31.0), side: Some(20.0), ..rail })),
        ("chip-turned", cut(0.75, 0.127, false, false)),
        ("chip-bored", cut(0.25, 0.2, false, true)),
        ("chip-fine", cut(0.05, 0.2, false, false)),
        ("chip-slot", cut(0.75, 3.0, true, false)),
        ("chip-deep", cut(3.0, 1.0, true, false)),
        ("train-63", stud(&[(40, 63), (32, 48)], &[])),
        ("train-127", stud(&[(20, 127)], &[])),
        ("train-one", stud(&[(30, 60)], &[])),
        ("train-idler", stud(&[(30, 60)], &[Idler { pair: 0, teeth: None }])),
        ("train-idler-known", stud(&[(40, 65)], &[Idler { pair: 0, teeth: Some(50) }])),
        ("train-three", stud(&[(20, 60), (35, 70), (40, 55)], &[])),
        ("train-behind", stud(&[(60, 30), (65, 40)], &[])),
        ("train-large", stud(&[(100, 110), (95, 120), (90, 127)], &[])),
        ("train-refused", stud(&[(20, 20), (100, 30)], &[])),
        ("rim-40", of(40, 20, Mark::Line(fours), thou)),
        ("rim-125", of(125, 3, Mark::Line(usual), tens)),
        ("rim-9999", of(9999, 5020, Mark::Line(usual), tens)),
        ("rim-6", of(6, 2, Mark::Flat, Numbers { every: 1, worth: 1, places: 0 })),
        ("rim-2", of(2, 1, Mark::Flat, none)),
        ("rim-holes", of(24, 7, Mark::Hole, Numbers { every: 1, worth: 1, places: 0 })),
        ("rim-holes-8", of(8, 3, Mark::Hole, Numbers { every: 1, worth: 1, places: 0 })),
        ("rim-flats", of(16, 5, Mark::Flat, none)),
        ("rim-12", of(12, 7, Mark::Line(usual), Numbers { every: 3, worth: 25, places: 0 })),
        ("speeds", ladder(&speeds, Some((230, 310)), Some(3))),
        ("speeds-many", ladder(&many, Some((1700, 2050)), Some(12))),
        ("speeds-slow", ladder(&speeds, Some((2400, 3600)), Some(6))),
        ("plate-33", pinned(&circles, 33, 11, 11, &[0])),
        ("plate-49", pinned(&large, 49, 21, 3, &[0, 3, 6, 9, 12, 15, 18])),
        ("plate-15", pinned(&[15, 16, 17, 18, 19, 20], 15, 13, 5, &[0, 5, 10, 8, 3])),
        ("plate-200", pinned(&[180, 200], 200, 60, 20, &[0, 20, 40])),
        ("plate-100", pinned(&[100, 90, 80], 100, 0, 37, &[])),
        (
            "gear-72",
            direct_gear(&DirectGear {
                teeth: 72,
                half_teeth: false,
                places: &by_three,
                present: 7,
            }),
        ),
        (
            "gear-120-half",
            direct_gear(&DirectGear { teeth: 120, half_teeth: true, places: &by_half, present: 3 }),
        ),
        (
            "gear-20",
            direct_gear(&DirectGear {
                teeth: 20,
                half_teeth: false,
                places: &[0, 4, 8, 12, 16],
                present: 1,
            }),
        ),
        ("collar-40", collar(&Collar { lengths: fours, ..scale(40, thou, false) })),
        ("collar-125", collar(&scale(125, tens, true))),
        ("collar-200", collar(&scale(200, Numbers { every: 10, worth: 2, places: 1 }, false))),
        ("collar-1000", collar(&scale(1000, tens, false))),
        ("strip", strip(&scale(125, tens, false)).remove(0)),
        ("dial-4", chasing_dial(&ChasingDial { marks: 4, usable: &[1, 3] })),
        ("dial-8", chasing_dial(&ChasingDial { marks: 8, usable: &[1, 3, 5, 7] })),
        ("dial-none", chasing_dial(&ChasingDial { marks: 5, usable: &[] })),
        ("thread-bsf", thread_section(&bsf)),
        ("thread-iso", thread_section(&iso)),
        ("thread-acme", thread_section(&acme)),
        ("taper-mt2", taper(&morse)),
        ("taper-steep", taper(&steep)),
        ("fit-h7g6", fit_zones(&slides)),
        ("fit-h7p6", fit_zones(&presses)),
        ("screw-cap", seated_screw(&cap)),
        ("screw-sunk", seated_screw(&sunk)),
    ]
}

/// `cargo test -p latheside-sheets previews -- --ignored`, then look into `target/previews`.
#[test]
#[ignore = "writes pictures to look at"]
fn previews() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../target/previews");
    fs::create_dir_all(&folder).unwrap();
    for theme in THEMES {
        let block = TOKENS.split(&["[data-theme=\"", theme, "\"] {"].concat()).nth(1).unwrap();
        let tokens = block.split('}').next().unwrap();
        // The renderer used for looking has no custom properties: put the values in.
        let mut style = String::from(SHEET);
        let mut ground = "";
        for (name, value) in tokens.split(';').filter_map(|token| token.trim().split_once(": ")) {
            style = style.replace(&["var(", name, ")"].concat(), value);
            if name == "--ground" {
                ground = value;
            }
        }
        let extra = [
            "<style>text{font-family:'DejaVu Sans',sans-serif}",
            &style,
            "</style><rect width='100%' height='100%' fill='",
            ground,
            "'/>",
        ]
        .concat();
        for (name, picture) in pictures() {
            let cut = picture.find('>').unwrap() + 1;
            let whole = [&picture[..cut], &extra, &picture[cut..]].concat();
            fs::write(folder.join([name, "-", theme, ".svg"].concat()), whole).unwrap();
        }
    }
}
