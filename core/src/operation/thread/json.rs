//! The answer's keys as the file has them.

use super::answer::Thread;
use super::gears::Gears;
use super::sizes::Sizes;
use super::words::fraction;
use crate::exact::Ratio;
use crate::gearing::{Reached, Train};
use crate::quantity::show;
use crate::record::Node;
use crate::threads::{Lead, Limits, Range};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

type Pairs = Vec<(String, Node)>;

fn exact_lead(lead: Lead) -> String {
    show::exact_mm(lead.factor(), !lead.is_exact())
}

pub(super) fn json(thread: &Thread) -> Pairs {
    let mut pairs: Pairs = Vec::new();
    let mut put = |key: &str, node: Node| pairs.push((key.to_owned(), node));
    let wanted = thread.wanted.lead;
    put("lead", Node::from(exact_lead(wanted)));
    if let Some(ratio) = thread.screw.and_then(|screw| ratio(wanted, screw)) {
        put("ratio", Node::from(ratio));
    }
    if let Ok(gears) = &thread.gears {
        let trains: Vec<Node> =
            gears.found.best.iter().map(|train| self::train(gears, train, wanted)).collect();
        put("trains", Node::List(trains));
        if gears.train().is_some() {
            let number = u32::try_from(gears.chosen()).unwrap_or(0).saturating_add(1);
            put("train", Node::from(number));
        }
        put("selections", selections(gears));
    }
    if let Some(nuts) = &thread.nuts {
        let mut of: Pairs = Vec::new();
        if let Some(spacing) = nuts.spacing {
            of.push(("spacing".to_owned(), Node::from(exact_lead(spacing))));
        }
        of.push(("rule".to_owned(), Node::from(nuts.rule.key())));
        let marks: Vec<u32> = nuts.marks.iter().map(|mark| u32::from(*mark)).collect();
        of.push(("marks".to_owned(), Node::from(marks)));
        if !nuts.off.is_empty() {
            let off = nuts.off.iter().map(|(steps, um)| {
                Node::Object(vec![
                    ("after_marks".to_owned(), Node::from(u32::from(*steps))),
                    ("off_um".to_owned(), Node::from(nanometres(*um))),
                ])
            });
            of.push(("off".to_owned(), Node::List(off.collect())));
        }
        put("half_nuts", Node::Object(of));
    }
    if let Some(pace) = &thread.pace {
        put("spindle_rpm_most", Node::from(pace.most()));
        if let Some(speed) = &pace.speed {
            put("spindle_rpm", Node::from(speed.rpm));
        }
        if let Some(time) = pace.takes(thread) {
            put("cutting_minutes", Node::from(time.cutting / 60.0));
            put("minutes", Node::from(time.minutes()));
        }
    }
    if let Some(sizes) = &thread.sizes {
        sizes_json(thread, sizes, &mut put);
    }
    pairs
}

/// Lead over leadscrew, exactly: `"127/200"`, or `"1/3 pi"` where one of the two has a π.
fn ratio(lead: Lead, screw: Lead) -> Option<String> {
    let ratio = fraction(lead.factor().div(screw.factor()).ok()?);
    Some(match (lead.is_exact(), screw.is_exact()) {
        (false, true) => format!("{ratio} pi"),
        (true, false) => format!("{ratio} / pi"),
        _ => ratio,
    })
}

fn train(gears: &Gears, train: &Train, wanted: Lead) -> Node {
    let pairs = train.pairs().iter().map(|pair| {
        Node::List(vec![Node::from(u32::from(pair.driver)), Node::from(u32::from(pair.driven))])
    });
    let mut of: Pairs = vec![
        ("pairs".to_owned(), Node::List(pairs.collect())),
        ("gearbox".to_owned(), Node::from(fraction(gears.position(train).0))),
    ];
    if let Ok(cut) = gears.lead_cut(train) {
        of.push(("lead".to_owned(), Node::from(exact_lead(cut))));
    }
    of.push(("error_ppm".to_owned(), Node::from(train.error_ppm())));
    of.push(("exact".to_owned(), Node::from(gears.exact(train, wanted))));
    of.push(("mountable".to_owned(), Node::from(train.mountable)));
    if let Some(idlers) = gears.idlers(train) {
        of.push(("idlers".to_owned(), Node::from(idlers)));
    }
    Node::Object(of)
}

fn selections(gears: &Gears) -> Node {
    let reached = |reached: &Reached| {
        let count = i64::try_from(reached.count).unwrap_or(i64::MAX);
        Node::Object(vec![
            ("count".to_owned(), Node::Whole(count)),
            ("least_error_ppm".to_owned(), Node::from(reached.least_error.to_f64() * 1e6)),
        ])
    };
    let none = || Node::Object(vec![("count".to_owned(), Node::Whole(0))]);
    let mut of = vec![
        ("all".to_owned(), reached(&gears.found.all)),
        ("mountable".to_owned(), gears.found.mountable.as_ref().map_or_else(none, reached)),
    ];
    if !gears.found.complete {
        of.push(("complete".to_owned(), Node::from(false)));
    }
    Node::Object(of)
}

fn sizes_json(thread: &Thread, sizes: &Sizes, put: &mut impl FnMut(&str, Node)) {
    let mm = |ratio: Ratio| Node::from(ratio.to_f64());
    put("depth_mm", mm(sizes.depth));
    if let Some(pitch) = sizes.pitch {
        put("pitch_diameter_mm", mm(pitch));
    }
    if let Some(minor) = sizes.minor {
        put("minor_diameter_mm", mm(minor));
    }
    if let Ok(limits) = &sizes.limits {
        put("limits", self::limits(limits));
    }
    if let Some((_, Some(tap))) = &thread.tap {
        let beside = tap.beside.iter().map(|(name, percent)| Node::Object(drill(name, *percent)));
        let mut of = drill(&tap.drill, tap.percent.of_chart);
        of.push(("beside".to_owned(), Node::List(beside.collect())));
        put("tap_drill", Node::Object(of));
    }
    if let Some(wires) = &thread.wires {
        let fit = &wires.fit;
        let mut of = vec![
            ("best_mm".to_owned(), Node::from(fit.best)),
            ("fit_mm".to_owned(), Node::from(vec![fit.least, fit.greatest])),
        ];
        if let Some((least, most)) = wires.over {
            of.push(("over_mm".to_owned(), Node::from(vec![least, most])));
        }
        if let Some((name, _)) = &wires.owned {
            of.push(("owned".to_owned(), Node::from(name.as_str())));
        }
        if let Some((least, most)) = wires.over_owned {
            of.push(("over_owned_mm".to_owned(), Node::from(vec![least, most])));
        }
        put("wires", Node::Object(of));
    }
    if let Some(helix) = thread.helix {
        put("helix_deg", Node::from(helix));
    }
    if let Some(tool) = &thread.tool {
        let mut of = vec![
            ("included_deg".to_owned(), Node::from(tool.included)),
            ("flat_mm".to_owned(), Node::from(nanometres(tool.flat))),
        ];
        if let Some(helix) = &tool.helix {
            of.push(("leading_deg".to_owned(), Node::from(helix.leading_side_deg)));
            of.push(("trailing_deg".to_owned(), Node::from(helix.trailing_side_deg)));
        }
        put("tool", Node::Object(of));
    }
    if let Some(share) = thread.share() {
        put("lead_error_share", Node::from(share));
    }
    if let Some(Ok(cut)) = &thread.cut {
        let passes = cut.passes.passes.iter().map(|pass| {
            let mut of = vec![
                ("dial".to_owned(), Node::from(cut.counted(pass.lines))),
                ("depth_mm".to_owned(), Node::from(nanometres(pass.depth_mm))),
            ];
            if cut.alternating {
                of.push(("aside_mm".to_owned(), Node::from(nanometres(pass.aside_mm))));
            }
            Node::Object(of)
        });
        put("passes", Node::List(passes.collect()));
        if let Some(degrees) = cut.compound_deg {
            put(
                "compound",
                Node::Object(vec![
                    ("from_cross_deg".to_owned(), Node::from(degrees)),
                    ("from_axis_deg".to_owned(), Node::from(90.0 - degrees)),
                    ("travel_mm".to_owned(), Node::from(cut.passes.travel.to_f64())),
                ]),
            );
        }
    }
}

fn drill(name: &str, percent: f64) -> Pairs {
    vec![("drill".to_owned(), Node::from(name)), ("percent".to_owned(), Node::from(percent))]
}

/// The nearest nanometre, in mm: so many lines of a dial come out as they are said.
fn nanometres(mm: f64) -> f64 {
    libm::round(mm * 1e6) / 1e6
}

/// Least and greatest of each diameter; a nut's outside diameter has only a least.
fn limits(limits: &Limits) -> Node {
    let range =
        |range: Range| Node::from(range.min.into_iter().chain(range.max).collect::<Vec<f64>>());
    Node::Object(vec![
        ("major_mm".to_owned(), range(limits.major)),
        ("pitch_mm".to_owned(), range(limits.pitch)),
        ("minor_mm".to_owned(), range(limits.minor)),
    ])
}
