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
