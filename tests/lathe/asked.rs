//! What was asked, from an operation's entries alone: sizes, and where each mark is to stand.

use latheside_core::exact::Ratio;
use latheside_core::quantity::{Measure, Quantity};
use serde_json::Value;
use std::f64::consts::PI;

/// What is to come out, lengths in mm.
#[derive(Clone, Debug)]
pub(crate) enum Asked {
    /// From one diameter to another, so far along.
    Turned {
        from: f64,
        to: f64,
        length: f64,
        measured: Option<f64>,
    },
    Bored {
        from: f64,
        to: f64,
        length: f64,
        measured: Option<f64>,
    },
    /// To such a length.
    Faced {
        to: f64,
        measured: Option<f64>,
    },
    /// Nothing cut.
    Held,
    Marks(Marks),
}

/// What is cut round the work.
#[derive(Clone, Debug)]
pub(crate) struct Marks {
    /// Where, in turns forward from the first, each once, in order.
    pub(crate) places: Vec<Ratio>,
    /// How many, where they are even.
    pub(crate) even: Option<u64>,
    pub(crate) on_face: bool,
    pub(crate) kind: MarkKind,
    /// The diameter of the rim, or of the circle on which holes stand.
    pub(crate) diameter: Option<f64>,
    /// None where a hole goes through or nothing says it.
    pub(crate) depth: Option<f64>,
    pub(crate) width: Option<f64>,
    /// The radius of the circle on which holes stand.
    pub(crate) circle: Option<f64>,
    pub(crate) length: Option<f64>,
    /// Whether lengths go by tens and fives.
    pub(crate) scale: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum MarkKind {
    Nothing,
    Line,
    Slot,
    Hole,
    Flat,
}

fn exact(entries: &Value, key: &str, measure: Measure) -> Option<Ratio> {
    let text = entries.get(key)?.as_str()?;
    Some(Quantity::parse(text, measure, None).unwrap().value())
}

fn mm(entries: &Value, key: &str) -> Option<f64> {
    exact(entries, key, Measure::Length).map(Ratio::to_f64)
}

/// A cutter of the shop, by the name that the entries give it.
fn cutter<'a>(entries: &Value, shop: &'a Value) -> Option<&'a Value> {
    let name = entries.get("cutter")?;
    shop["cutters"].as_array()?.iter().find(|cutter| &cutter["name"] == name)
}

/// What these entries ask for.
pub(crate) fn asked(entries: &Value, shop: &Value) -> Asked {
    let kind = entries["kind"].as_str().unwrap();
    match kind {
        "size" => size(entries),
        "hold" => Asked::Held,
        "divide" => Asked::Marks(divided(entries, shop)),
        "graduate" => Asked::Marks(graduated(entries, shop)),
        "make-plate" => Asked::Marks(Marks {
            kind: MarkKind::Nothing,
            ..evenly(entries["holes"].as_u64().unwrap())
        }),
        other => panic!("{other} isn't judged here"),
    }
}

fn size(entries: &Value) -> Asked {
    let get = |key| mm(entries, key);
    let (from, to) = (get("from").unwrap(), get("to").unwrap());
    let (length, measured) = (get("length").unwrap_or(0.0), get("measured"));
    match entries["process"].as_str() {
        Some("face") => Asked::Faced { to, measured },
        Some("bore") => Asked::Bored { from, to, length, measured },
        _ => Asked::Turned { from, to, length, measured },
    }
}

fn evenly(into: u64) -> Marks {
    let place = |k: u64| Ratio::new(k.into(), into.into()).unwrap();
    Marks {
        places: (0..into).map(place).collect(),
        even: Some(into),
        on_face: false,
        kind: MarkKind::Line,
        diameter: None,
        depth: None,
        width: None,
        circle: None,
        length: None,
        scale: false,
    }
}

fn divided(entries: &Value, shop: &Value) -> Marks {
    let marks = match entries["into"].as_u64() {
        Some(into) => evenly(into),
        None => {
            let turn = Ratio::whole(360);
            let own = entries["angles"].as_array().unwrap().iter();
            let own = own.map(|text| {
                let text = text.as_str().unwrap();
                let degrees = Quantity::parse(text, Measure::Angle, None).unwrap().value();
                degrees.div(turn).unwrap()
            });
            let mut own: Vec<Ratio> = own.collect();
            own.sort_unstable();
            own.dedup();
            // Counted from the first of them.
            let first = own[0];
            let places = own.iter().map(|at| at.sub(first).unwrap()).collect();
            Marks { places, even: None, ..evenly(1) }
        }
    };
    let get = |key| mm(entries, key);
    let diameter = get("diameter");
    let kind = match entries.get("marks").and_then(Value::as_str) {
        None => MarkKind::Nothing,
        Some("holes") => MarkKind::Hole,
        Some("flats") => MarkKind::Flat,
        Some("slots") => MarkKind::Slot,
        Some(_) => MarkKind::Line,
    };
    let depth = match (kind, diameter) {
        (MarkKind::Flat, Some(d)) => {
            // Across flats as large as leaves sharp corners: d·cos(π/N).
            let sharp = marks.even.map(|into| d * (PI / into as f64).cos());
            get("across").or(sharp).map(|across| (d - across) / 2.0)
        }
        _ => get("depth"),
    };
    let owned = cutter(entries, shop);
    let own = |key: &str| owned.and_then(|cutter| mm(cutter, key));
    let disc = owned.is_some_and(|cutter| cutter["kind"] == "slitting-saw");
    let width = match kind {
        MarkKind::Slot if disc => own("width"),
        MarkKind::Slot | MarkKind::Hole => get("width").or(own("diameter")),
        _ => None,
    };
    Marks {
        on_face: kind == MarkKind::Hole,
        kind,
        depth,
        width,
        circle: diameter.filter(|_| kind == MarkKind::Hole).map(|d| d / 2.0),
        diameter,
        length: get("length")
            .filter(|_| matches!(kind, MarkKind::Line | MarkKind::Slot | MarkKind::Flat)),
        ..marks
    }
}

fn graduated(entries: &Value, shop: &Value) -> Marks {
    let lead = exact(entries, "lead", Measure::Lead).unwrap();
    let line = exact(entries, "least_count", Measure::Length).unwrap();
    let moves = match entries.get("reads").and_then(Value::as_str) {
        // A line of the diameter is half of it on the slide.
        Some("diameter") => line.div(Ratio::whole(2)).unwrap(),
        _ => line,
    };
    let lines = lead.div(moves).unwrap();
    assert!(lines.is_whole(), "only whole scales are asked for here");
    let lines = u64::try_from(lines.floor()).unwrap();
    let depth = mm(entries, "depth").unwrap_or(0.1);
    let owned = cutter(entries, shop).filter(|cutter| cutter["kind"] == "engraver");
    // A pointed cutter's line: 2·h·tan(angle/2).
    let width = owned.and_then(|cutter| {
        let angle = exact(cutter, "angle", Measure::Angle)?.to_f64();
        Some(2.0 * depth * (angle.to_radians() / 2.0).tan())
    });
    Marks {
        on_face: entries.get("lines_on").and_then(Value::as_str) == Some("face"),
        depth: Some(depth),
        width: width.filter(|_| entries.get("line_width").is_none()),
        scale: true,
        ..evenly(lines)
    }
}
