//! Random work on random machines, most of them worn or badly equipped.

use super::random::Random;
use serde_json::{Map, Value, json};

/// One operation on one shop.
#[derive(Clone, Debug)]
pub(crate) struct Case {
    pub(crate) kind: &'static str,
    /// Where work and cutter are.
    pub(crate) arrangement: String,
    /// What the machine lacks.
    pub(crate) lack: &'static str,
    pub(crate) entries: Value,
    pub(crate) shop: Value,
}

impl Case {
    pub(crate) fn setup(&self) -> Value {
        json!({
            "format": "latheside-setup", "version": 1, "name": "t", "note": "",
            "shop": self.shop, "operations": [self.entries],
        })
    }
}

pub(crate) const KINDS: &[&str] = &[
    "size turn",
    "size bore",
    "size face",
    "hold",
    "divide lines",
    "divide holes",
    "divide flats",
    "divide slots",
    "divide nothing",
    "graduate rim",
    "graduate face",
    "make-plate",
];

/// What is lacking, or odd.
pub(crate) const LACKS: &[&str] = &[
    "nothing",
    "no dial",
    "cross dial alone",
    "compound dial alone",
    "dial by diameter",
    "grows outwards",
    "inch dial",
    "backlash 1.5 mm",
    "no reverse",
    "screwed nose",
    "head without plates",
    "no head",
    "one gear",
    "no speed under 200",
    "one speed",
    "no speeds",
    "no cutters",
    "no indicator",
];

/// A well equipped shop; what it divides with differs.
fn full(random: &mut Random) -> Value {
    let gears = [20, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 80, 90, 100, 110, 120];
    let plates = match random.below(3) {
        0 => json!([[15, 16, 17, 18, 19, 20]]),
        1 => json!([[15, 16, 17, 18, 19, 20], [21, 23, 27, 29, 31, 33]]),
        _ => json!([[15, 18, 20], [24, 25, 28, 30, 34, 37], [38, 39, 41, 42, 43]]),
    };
    let head_gears = match random.below(3) {
        0 => json!([]),
        1 => json!([24, 24, 28, 32, 40, 44, 48, 56]),
        _ => json!([24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100]),
    };
    let direct = match random.below(4) {
        0 => json!([]),
        1 => json!([72, 24]),
        2 => json!([60]),
        _ => json!([80, 65]),
    };
    let mut shop = json!({
        "name": "s",
        "lathe": {
            "leadscrew": "3 mm", "leadscrew_hand": "right", "change_gears": gears,
            "tumbler": random.percent(60), "pairs_max": 2, "stud_clearance_teeth": 15,
            "spindle_speeds": [45, 75, 120, 210, 350, 560, 900, 1400],
            "nose": "locked", "reverse": true,
            "dials": {
                "cross": dial("0.02 mm", 125), "compound": dial("0.02 mm", 100),
                "carriage": dial("0.1 mm", 180),
            },
        },
        "dividing": {
            "direct": direct, "any_change_gear": random.percent(20), "half_tooth": random.percent(30),
            "head": {
                "worm_ratio": if random.percent(80) { 40 } else { 60 },
                "plates": plates, "gears": head_gears, "pairs_max": 2,
            },
        },
        "holding": [
            { "name": "three-jaw", "kind": "chuck", "from": "3 mm", "to": "80 mm", "run_out": "0.08 mm" },
            { "name": "10 mm collet", "kind": "collet", "from": "9 mm", "to": "10 mm", "run_out": "0.01 mm" },
            { "name": "plate", "kind": "faceplate", "rpm_max": 600 },
        ],
        "indicators": [{ "division": "0.01 mm", "travel": "10 mm" }],
        "drills": ["4.2 mm", "5 mm", "6.8 mm"],
        "cutters": [
            { "name": "mill 3", "kind": "end-mill", "diameter": "3 mm", "teeth": 2, "material": "hss" },
            { "name": "mill 10", "kind": "end-mill", "diameter": "10 mm", "teeth": 4, "material": "hss" },
            { "name": "mill 16", "kind": "end-mill", "diameter": "16 mm", "teeth": 4, "material": "hss" },
            { "name": "saw", "kind": "slitting-saw", "diameter": "40 mm", "width": "1 mm", "teeth": 48 },
            { "name": "point", "kind": "engraver", "diameter": "6 mm", "angle": "60 deg", "teeth": 1 },
            { "name": "drill 5", "kind": "drill", "diameter": "5 mm", "teeth": 2, "material": "hss" },
            { "name": "bar 8", "kind": "boring-bar", "diameter": "8 mm", "material": "hss" },
            { "name": "bar 12", "kind": "boring-bar", "diameter": "12 mm", "material": "carbide" },
            { "name": "knife", "kind": "turning-tool", "material": "hss" },
        ],
    });
    if random.percent(30) {
        shop["lathe"]["feeds"] = json!(["0.05 mm", "0.1 mm", "0.2 mm"]);
    } else if random.percent(40) {
        drop_key(&mut shop["lathe"], "change_gears");
    }
    if random.percent(25) {
        drop_key(&mut shop["dividing"], "head");
    }
    shop
}

fn dial(division: &str, divisions: u32) -> Value {
    json!({ "division": division, "divisions": divisions, "reads": "radius", "backlash": "0.15 mm" })
}

fn drop_key(of: &mut Value, key: &str) {
    if let Some(of) = of.as_object_mut() {
        of.remove(key);
    }
}

/// The shop made worse.
fn lacking(shop: &mut Value, lack: &str) {
    let plates = shop["dividing"]["head"].is_object();
    let lathe = &mut shop["lathe"];
    let each = |lathe: &mut Value, key: &str, value: Value| {
        for dial in lathe["dials"].as_object_mut().unwrap().values_mut() {
            dial[key] = value.clone();
        }
    };
    let only = |lathe: &mut Value, name: &str| {
        lathe["dials"].as_object_mut().unwrap().retain(|slide, _| slide == name);
    };
    match lack {
        "no dial" => drop_key(lathe, "dials"),
        "cross dial alone" => only(lathe, "cross"),
        "compound dial alone" => only(lathe, "compound"),
        "dial by diameter" => lathe["dials"]["cross"]["reads"] = json!("diameter"),
        "grows outwards" => lathe["dials"]["cross"]["grows"] = json!("outwards"),
        "inch dial" => {
            each(lathe, "division", json!("0.001 in"));
            each(lathe, "divisions", json!(100));
        }
        "backlash 1.5 mm" => each(lathe, "backlash", json!("1.5 mm")),
        "no reverse" => lathe["reverse"] = json!(false),
        "screwed nose" => lathe["nose"] = json!("screwed"),
        "head without plates" if plates => {
            shop["dividing"]["head"]["plates"] = json!([]);
        }
        "no head" => drop_key(&mut shop["dividing"], "head"),
        "one gear" => {
            drop_key(&mut shop["dividing"], "head");
            shop["dividing"]["direct"] = json!([65]);
            shop["dividing"]["any_change_gear"] = json!(false);
        }
        "no speed under 200" => lathe["spindle_speeds"] = json!([210, 350, 560, 900, 1400]),
        "one speed" => lathe["spindle_speeds"] = json!([350]),
        "no speeds" => drop_key(lathe, "spindle_speeds"),
        "no cutters" => drop_key(shop, "cutters"),
        "no indicator" => drop_key(shop, "indicators"),
        _ => {}
    }
}

fn mm(hundredths: i64) -> Value {
    let (whole, part) = (hundredths / 100, hundredths % 100);
    let text = format!("{whole}.{part:02}");
    json!(format!("{} mm", text.trim_end_matches('0').trim_end_matches('.')))
}

/// The case of that number.
pub(crate) fn case(seed: u64) -> Case {
    let random = &mut Random::new(seed);
    let kind = KINDS[random.below(KINDS.len())];
    let lack = LACKS[random.below(LACKS.len())];
    let mut shop = full(random);
    lacking(&mut shop, lack);
    let mut entries = Map::new();
    let mut arrangement = String::from("lathe spindle");
    let (first, rest) = kind.split_once(' ').unwrap_or((kind, ""));
    entries.insert("kind".to_owned(), json!(first));
    match first {
        "size" => size(random, rest, &mut entries),
        "hold" => hold(random, &mut entries),
        _ => {
            arrangement = arranged(random, &mut entries);
            match first {
                "divide" => divide(random, rest, &shop, &mut entries),
                "graduate" => graduate(random, rest, &shop, &mut entries),
                _ => {
                    entries.insert("holes".to_owned(), json!(random.between(2, 60)));
                    entries.insert("diameter".to_owned(), mm(random.between(3000, 9000)));
                }
            }
        }
    }
    Case { kind, arrangement, lack, entries: Value::Object(entries), shop }
}

const STOCKS: &[&str] = &["mild-steel", "tool-steel", "brass", "aluminium", "grey-iron"];

fn size(random: &mut Random, process: &str, entries: &mut Map<String, Value>) {
    let mut put = |key: &str, value: Value| entries.insert(key.to_owned(), value);
    put("process", json!(process));
    let small = random.between(400, 5000);
    let off = random.between(5, 700);
    let inch = random.percent(15);
    let length = |hundredths: i64| match inch {
        true => json!(format!("{}.{:03} in", hundredths / 2540, hundredths % 2540 * 1000 / 2540)),
        false => mm(hundredths),
    };
    let (from, to) = if process == "bore" { (small, small + off) } else { (small + off, small) };
    put("from", length(from));
    put("to", length(to));
    match process {
        "face" => {
            if random.percent(90) {
                put("diameter", mm(random.between(800, 6000)));
            }
        }
        _ => {
            if random.percent(95) {
                let most = if process == "bore" { small.min(4000) } else { small * 4 };
                put("length", mm(random.between(300, most.max(400))));
            }
        }
    }
    if random.percent(80) {
        put("stock", json!(random.one(STOCKS)));
    }
    if process == "bore" && random.percent(40) {
        put("cutter", json!(random.one(&["bar 8", "bar 12"])));
    }
    if random.percent(15) {
        put("rough_cut", mm(random.between(20, 150)));
    }
    if random.percent(15) {
        put("last_cut", mm(random.between(5, 40)));
    }
    if random.percent(15) && !inch {
        // A little more or less than was planned, now and then past its size.
        let way = if process == "bore" { -1 } else { 1 };
        put("measured", mm(to + way * random.between(-6, 120)));
    }
}

fn hold(random: &mut Random, entries: &mut Map<String, Value>) {
    let mut put = |key: &str, value: Value| entries.insert(key.to_owned(), value);
    put("in", json!(random.one(&["three-jaw", "10 mm collet", "plate", "something else"])));
    put("on", json!(random.one(&["the bar", "the finished thread"])));
    if random.percent(80) {
        put("diameter", mm(random.between(200, 4000)));
    }
    if random.percent(70) {
        put("stick_out", mm(random.between(500, 20000)));
    }
    if random.percent(40) {
        put("true_to", json!("the rim"));
    }
}

/// Where work and cutter are, each said or not.
fn arranged(random: &mut Random, entries: &mut Map<String, Value>) -> String {
    let work = ["", "lathe-spindle", "head-on-cross-slide"][random.below(3)];
    let cutter = match (work, random.below(10)) {
        (_, 0 | 1) => "",
        ("head-on-cross-slide", 2..=7) => "lathe-spindle",
        ("lathe-spindle", 2..=5) => "driven-spindle-on-slide",
        ("lathe-spindle", 6..=8) => "dragged-by-slide",
        (_, 2 | 3) => "lathe-spindle",
        ("", 4..=6) | ("head-on-cross-slide", 8) => "driven-spindle-on-slide",
        _ => "dragged-by-slide",
    };
    if !work.is_empty() {
        entries.insert("work_in".to_owned(), json!(work));
    }
    if !cutter.is_empty() {
        entries.insert("cutter_in".to_owned(), json!(cutter));
    }
    let said = |word: &str| if word.is_empty() { "unsaid".to_owned() } else { word.to_owned() };
    format!("{}, {}", said(work), said(cutter))
}

fn owned(shop: &Value, name: &str) -> bool {
    shop["cutters"].as_array().is_some_and(|all| all.iter().any(|one| one["name"] == name))
}

fn divide(random: &mut Random, marks: &str, shop: &Value, entries: &mut Map<String, Value>) {
    let dragged = entries.get("cutter_in").is_some_and(|to| to == "dragged-by-slide");
    let mut put = |key: &str, value: Value| entries.insert(key.to_owned(), value);
    let own = random.percent(20);
    if own {
        let mut at = 0;
        let angles: Vec<Value> = (0..random.between(2, 7))
            .map(|nth| {
                at += if nth == 0 { 0 } else { random.between(1, 100) };
                let minutes = [0, 0, 0, 30, 12, 20][random.below(6)];
                let minutes = if nth == 0 { 0 } else { minutes };
                json!(if minutes == 0 {
                    format!("{at} deg")
                } else {
                    format!("{at} deg {minutes} min")
                })
            })
            .filter(|text| {
                let degrees = text.as_str().unwrap().split(' ').next().unwrap();
                degrees.parse::<i64>().unwrap() < 360
            })
            .collect();
        if angles.len() < 2 {
            put("angles", json!(["0 deg", "90 deg"]));
        } else {
            put("angles", Value::Array(angles));
        }
    } else {
        let into = match random.below(10) {
            0..=5 => random.between(2, 16),
            6..=8 => random.between(17, 60),
            _ => random.between(61, 130),
        };
        put("into", json!(into));
    }
    let diameter = random.between(1000, 8000);
    if random.percent(97) {
        put("diameter", mm(diameter));
    }
    if marks == "nothing" {
        return;
    }
    put("marks", json!(marks));
    let deep = random.between(5, 300);
    match marks {
        "holes" => {
            if random.percent(60) {
                put("depth", mm(random.between(100, 1500)));
            }
            if random.percent(50) && owned(shop, "drill 5") {
                put("cutter", json!("drill 5"));
            } else if random.percent(85) {
                put("width", mm(random.between(200, 900)));
            }
        }
        "flats" => {
            if random.percent(95) {
                put("length", mm(random.between(300, 2500)));
            }
            if own || random.percent(60) {
                // Between nine and ten tenths of the diameter.
                put("across", mm(diameter * random.between(85, 97) / 100));
            }
            if owned(shop, "mill 16") && random.percent(80) {
                put("cutter", json!(random.one(&["mill 16", "mill 10", "mill 3"])));
            } else {
                put("width", mm(random.between(600, 2000)));
            }
        }
        "slots" => {
            put("depth", mm(deep));
            put("length", mm(random.between(200, 2000)));
            if !dragged && owned(shop, "saw") && random.percent(80) {
                put("cutter", json!(random.one(&["mill 3", "saw", "mill 10"])));
            } else if random.percent(80) {
                put("width", mm(random.between(100, 400)));
            }
        }
        _ => {
            put("depth", mm(random.between(5, 40)));
            if random.percent(85) {
                put("length", mm(random.between(200, 800)));
            }
            if !dragged && owned(shop, "point") && random.percent(60) {
                put("cutter", json!("point"));
            }
        }
    }
}

fn graduate(random: &mut Random, on: &str, shop: &Value, entries: &mut Map<String, Value>) {
    let dragged = entries.get("cutter_in").is_some_and(|to| to == "dragged-by-slide");
    let mut put = |key: &str, value: Value| entries.insert(key.to_owned(), value);
    let scales = [
        ("1 mm", "0.1 mm"),
        ("2 mm", "0.1 mm"),
        ("3 mm", "0.05 mm"),
        ("1 mm", "0.02 mm"),
        ("1.5 mm", "0.05 mm"),
        ("10 tpi", "1 thou"),
        ("8 tpi", "5 thou"),
        ("20 tpi", "1 thou"),
        ("2 mm", "0.05 mm"),
    ];
    let (lead, line) = scales[random.below(scales.len())];
    put("lead", json!(lead));
    put("least_count", json!(line));
    if random.percent(50) {
        put("reads", json!(random.one(&["radius", "diameter"])));
    }
    put("diameter", mm(random.between(3000, 8000)));
    if random.percent(80) {
        put("depth", mm(random.between(4, 25)));
    }
    put("lines_on", json!(on));
    if !dragged && owned(shop, "point") && random.percent(70) {
        put("cutter", json!("point"));
    }
}
