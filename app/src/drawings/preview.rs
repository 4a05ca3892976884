//! Every drawing in every theme, written out to be looked at.

use std::fs;
use std::path::Path;

use super::*;

const SHEET: &str = include_str!("../../style/drawings.css");

const THEMES: &[(&str, &str)] = &[
    (
        "blue",
        "--ground:#16284f;--ink:#e8eefc;--soft:#b4c3e8;--line:#3f5a97;--brass:#f0c05a;--driver:#3c5a9a;--driven:#1d3263;--done:#97dfa8",
    ),
    (
        "paper",
        "--ground:#f4ecdc;--ink:#1b2236;--soft:#4a5064;--line:#b9a88a;--brass:#7c4a00;--driver:#dccfb2;--driven:#fbf6ec;--done:#14592f",
    ),
    (
        "sun",
        "--ground:#fff;--ink:#000;--soft:#222;--line:#767676;--brass:#000;--driver:#ddd;--driven:#fff;--done:#000",
    ),
];

fn pictures() -> Vec<(&'static str, String)> {
    let stud = |pairs, idlers| train(&Train { pairs, idlers, from: "spindle", to: "leadscrew" });
    let usual = Lengths { long: 10, middle: 5 };
    let none = Numbers { every: 0, worth: 0, places: 0 };
    let thou = Numbers { every: 4, worth: 10, places: 0 };
    let tens = Numbers { every: 10, worth: 10, places: 0 };
    let of = |divisions, present, mark, numbers| rim(&Rim { divisions, present, mark, numbers });
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
    let hole =
        |circles, used, present, step, done| plate(&Plate { circles, used, present, step, done });
    let by_three: Vec<u32> = (0..24).map(|k| k * 3).collect();
    let by_half: Vec<u32> = (0..16).map(|k| k * 15).collect();
    vec![
        ("train-63", stud(&[(40, 63), (32, 48)], &[])),
        ("train-127", stud(&[(20, 127)], &[])),
        ("train-one", stud(&[(30, 60)], &[])),
        ("train-idler", stud(&[(30, 60)], &[Idler { pair: 0, teeth: None }])),
        ("train-idler-known", stud(&[(40, 65)], &[Idler { pair: 0, teeth: Some(50) }])),
        ("train-three", stud(&[(20, 60), (35, 70), (40, 55)], &[])),
        ("train-behind", stud(&[(60, 30), (65, 40)], &[])),
        ("train-large", stud(&[(100, 110), (95, 120), (90, 127)], &[])),
        ("train-refused", stud(&[(20, 20), (100, 30)], &[])),
        ("rim-40", of(40, 20, Mark::Line(usual), thou)),
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
        ("plate-33", hole(&circles, 33, 11, 11, &[0])),
        ("plate-49", hole(&large, 49, 21, 3, &[0, 3, 6, 9, 12, 15, 18])),
        ("plate-15", hole(&[15, 16, 17, 18, 19, 20], 15, 13, 5, &[0, 5, 10, 8, 3])),
        ("plate-200", hole(&[180, 200], 200, 60, 20, &[0, 20, 40])),
        ("plate-100", hole(&[100, 90, 80], 100, 0, 37, &[])),
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
    ]
}

/// `cargo test -p latheside-app previews -- --ignored`, then look into `target/previews`.
#[test]
#[ignore = "writes pictures to look at"]
fn previews() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../target/previews");
    fs::create_dir_all(&folder).unwrap();
    for (theme, tokens) in THEMES {
        // The renderer used for looking has no custom properties: put the values in.
        let mut style = String::from(SHEET);
        for token in tokens.split(';') {
            let (name, value) = token.split_once(':').unwrap();
            style = style.replace(&["var(", name, ")"].concat(), value);
        }
        let ground = tokens.split(';').next().unwrap().split_once(':').unwrap().1;
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
