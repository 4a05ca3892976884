//! What must hold for every drawing: lettering on the sheet and apart, styled by classes alone.

use super::lettering::{Area, FIGURE, WORD, width_at};
use super::*;

const SHEET: &str = include_str!("../../../style/drawings.css");

fn attribute<'a>(tag: &'a str, name: &str) -> &'a str {
    let start = [" ", name, "=\""].concat();
    tag.split(&start).nth(1).and_then(|rest| rest.split('"').next()).unwrap_or("")
}

fn size_of(class: &str) -> f64 {
    if class.contains("d-fig") {
        FIGURE
    } else if class.contains("d-big") {
        24.0
    } else if class.contains("d-print") {
        2.8
    } else {
        WORD
    }
}

/// Every line of lettering, with the room it takes.
fn lettering(svg: &str) -> Vec<(String, Area)> {
    let mut all = Vec::new();
    for part in svg.split("<text").skip(1) {
        let (tag, rest) = part.split_once('>').unwrap();
        let inside = rest.split("</text>").next().unwrap();
        let size = size_of(attribute(tag, "class"));
        let (mut wide, mut words) = (0.0, String::new());
        let mut figure = false;
        for piece in inside.split('<') {
            let text = match piece.split_once('>') {
                Some((tag, text)) => {
                    figure = tag.starts_with("tspan");
                    text
                }
                None => piece,
            };
            let bold = if figure { FIGURE * 1.1 } else { size };
            let bold = if attribute(tag, "class").contains("d-fig") { size * 1.1 } else { bold };
            wide += width_at(text, bold);
            words.push_str(text);
        }
        let x: f64 = attribute(tag, "x").parse().unwrap();
        let y: f64 = attribute(tag, "y").parse().unwrap();
        let left = match attribute(tag, "text-anchor") {
            "middle" => x - wide / 2.0,
            "end" => x - wide,
            _ => x,
        };
        let high = if inside.contains("tspan") { FIGURE } else { size };
        let area = Area { left, right: left + wide, top: y - high * 0.74, bottom: y + size * 0.05 };
        all.push((words, area));
    }
    all
}

fn check(name: &str, svg: &str) {
    assert!(svg.contains(" role=\"img\" aria-label=\""), "{name}");
    assert!(!svg.contains("style="), "{name}");
    let view: Vec<f64> =
        attribute(svg, "viewBox").split(' ').map(|number| number.parse().unwrap()).collect();
    let all = lettering(svg);
    for (index, (words, area)) in all.iter().enumerate() {
        let inside = area.left >= -0.5
            && area.top >= -0.5
            && area.right <= view[2] + 0.5
            && area.bottom <= view[3] + 0.5;
        assert!(inside, "{name}: {words:?} leaves the sheet: {area:?} {view:?}");
        for (other, there) in &all[index + 1..] {
            assert!(!area.near(there, 0.0), "{name}: {words:?} on {other:?}");
        }
    }
    for part in svg.split("class=\"").skip(1) {
        for class in part.split('"').next().unwrap().split(' ') {
            let kind = ["train", "rim", "speeds", "plate", "collar", "strip", "dial", "thread"];
            let known = SHEET.contains(&[".", class, "{"].concat())
                || kind
                    .iter()
                    .chain(&["taper", "fit", "screw", "chip", "bar"])
                    .any(|k| class == ["d-", k].concat());
            assert!(known, "{name}: no style for {class}");
        }
    }
}

#[test]
fn every_picture_is_legible() {
    for (name, svg) in preview::pictures() {
        check(name, &svg);
    }
}

#[test]
fn every_uneven_rim_is_legible() {
    let numbers = Numbers { every: 1, worth: 1, places: 0 };
    for count in 1_u32..40 {
        // Close together here, far apart there.
        let angles: Vec<f64> =
            (0..count).map(|n| (f64::from(n) / f64::from(count)).powi(3)).collect();
        for made in [0, count / 2, count] {
            let (mark, angles) = (Mark::Hole, &angles);
            let rim =
                rim(&Rim { divisions: count, made, laps: 1, angles, mark, first: 1, numbers });
            check("rim", &rim);
        }
    }
}

#[test]
fn every_rim_is_legible() {
    let numbers = [(1, 1), (3, 25), (10, 10), (4, 100), (0, 0)];
    for divisions in (1..=130).chain([360, 999, 5000, 9999]) {
        for (every, worth) in numbers {
            for made in [0, 1, divisions / 2, divisions - 1, divisions] {
                for laps in [1, 3] {
                    let numbers = Numbers { every, worth, places: 0 };
                    let (mark, first) = (Mark::Hole, 1);
                    let angles = &[];
                    check(
                        "rim",
                        &rim(&Rim { divisions, made, laps, angles, mark, first, numbers }),
                    );
                }
            }
        }
    }
}

#[test]
fn every_plate_is_legible() {
    for used in [1, 2, 3, 7, 15, 24, 33, 49, 66, 100, 120, 199, 360, 999] {
        for present in [0, 1, used / 3, used / 2, used - 1] {
            for step in [0, 1, 2, used / 4, used / 2] {
                let circles = [15, 20, 49];
                let picture = plate(&Plate { circles: &circles, used, present, step, done: &[] });
                check(&format!("plate {used} {present} {step}"), &picture);
            }
        }
    }
    for teeth in [12, 20, 40, 60, 72, 127, 200] {
        for count in [1, 2, 5, 8, 24, 40] {
            for half_teeth in [false, true] {
                let all = u32::from(teeth) * if half_teeth { 2 } else { 1 };
                let count = count.min(all);
                let places: Vec<u32> = (0..count).map(|k| k * all / count).collect();
                for present in 0..places.len() {
                    let direct = DirectGear { teeth, half_teeth, places: &places, present };
                    check(&format!("gear {teeth} {count} {present}"), &direct_gear(&direct));
                }
            }
        }
    }
}

#[test]
fn every_collar_is_legible() {
    for lines in (1..=260).chain([500, 1000, 9999]) {
        for (every, worth, places) in [(1, 1, 0), (4, 10, 0), (10, 10, 0), (5, 125, 3)] {
            for leftwards in [false, true] {
                let scale = Collar {
                    lines,
                    lengths: Lengths { long: 10, middle: 5 },
                    numbers: Numbers { every, worth, places },
                    leftwards,
                    diameter_mm: 8.0 + f64::from(lines) / 4.0,
                    long_mm: 6.0,
                    line_mm: 0.2,
                };
                check(&format!("collar {lines} {every}"), &collar(&scale));
                for piece in strip(&scale) {
                    check(&format!("strip {lines} {every}"), &piece);
                }
            }
        }
    }
}

#[test]
fn every_ladder_and_dial_is_legible() {
    let sets: &[&[u32]] = &[
        &[45, 70, 110, 190, 320, 540, 900],
        &[1000, 1001, 1002, 1003, 1004],
        &[30],
        &[25, 3000],
        &[9999, 12_000],
    ];
    for set in sets {
        let speeds: Vec<Speed> =
            set.iter().map(|&rpm| Speed { rpm, how: "back gear in, belt on 1, lever B" }).collect();
        for ideal in [None, Some((5, 9)), Some((300, 340)), Some((8000, 19_999))] {
            for chosen in (0..set.len()).map(Some).chain([None]) {
                let ladder = SpeedLadder { speeds: &speeds, ideal, chosen };
                check(&format!("{set:?} {ideal:?}"), &speed_ladder(&ladder));
            }
        }
    }
    for marks in 1..=16 {
        for every in 1..=4 {
            let usable: Vec<u16> = (1..=marks).step_by(every).collect();
            let picture = chasing_dial(&ChasingDial { marks, usable: &usable });
            check(&format!("dial {marks} {every}"), &picture);
        }
        check("dial", &chasing_dial(&ChasingDial { marks, usable: &[] }));
    }
}

#[test]
fn every_bar_is_legible() {
    for places in (2..60).chain([100, 999]) {
        for made in [0, 1, places / 2, places - 1, places] {
            for ends in
                [[Some(13.0), Some(13.0)], [Some(3.0), None], [None; 2], [Some(400.0), Some(1.0)]]
            {
                for (lines, drill, side) in
                    [(false, Some(5.0), Some(6.0)), (false, Some(31.0), None), (true, None, None)]
                {
                    let picture = bar(&Bar {
                        places,
                        made,
                        lines,
                        pitch: 200.0 / 7.0,
                        ends,
                        drill,
                        side,
                        pitch_words: "28.571 mm",
                        overall_words: "28514.286 mm",
                        first_words: "1.0625 in",
                    });
                    check(&format!("bar {places} {made} {ends:?}"), &picture);
                }
            }
        }
    }
}

#[test]
fn every_fit_is_legible() {
    for lower in [-60.0, -7.0, 0.0, 15.0, 120.0] {
        for wide in [1.0, 9.0, 46.0] {
            for shaft in [-80.0, -20.0, 0.0, 2.0, 43.0] {
                let zone = |lower: f64, wide: f64, name| Zone {
                    deviation: (lower, lower + wide),
                    name,
                    least: "124.980",
                    most: "125.021",
                };
                let fit = FitZones {
                    hole: zone(lower, wide, "hole H11"),
                    shaft: zone(shaft, 13.0, "shaft js9"),
                    basic: "125 mm",
                };
                check(&format!("fit {lower} {wide} {shaft}"), &fit_zones(&fit));
            }
        }
    }
}
