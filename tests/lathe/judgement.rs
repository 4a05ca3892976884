//! Whether a part is what was asked.

use super::asked::{Asked, MarkKind, Marks};
use super::runner::Carried;
use latheside_core::exact::Ratio;
use latheside_core::lathe::{Mark, On, Part};
use latheside_core::procedure::Shape;
use serde_json::Value;

/// Sums of binary fractions may be off by so much, mm.
const SUMS: f64 = 1e-6;

/// What a line of a slide's dial moves it, mm; nothing where it has none.
pub(crate) fn line(shop: &Value, slide: &str) -> f64 {
    let dial = &shop["lathe"]["dials"][slide];
    let Some(text) = dial["division"].as_str() else { return 0.0 };
    let mm = latheside_core::quantity::Quantity::parse(
        text,
        latheside_core::quantity::Measure::Length,
        None,
    );
    let mm = mm.unwrap().value().to_f64();
    if dial["reads"] == "diameter" { mm / 2.0 } else { mm }
}

/// How near a slide's reading is told: a hundredth of a line, less than which nobody is told to go beyond.
fn told(shop: &Value, slide: &str) -> f64 {
    line(shop, slide) / 100.0 + SUMS
}

/// What is wrong with the part; none where it is as asked. `off` is the answer's own error in turns.
pub(crate) fn wrong(asked: &Asked, run: &Carried, shop: &Value, off: f64) -> Option<String> {
    let part = &run.part;
    match asked {
        Asked::Turned { from, to, length, measured } => {
            let radius = measured.map_or(*to, |measured| f64::min(measured, *to)) / 2.0;
            sized(&part.outside, radius, from / 2.0, *length, shop)
                .or_else(|| marked(part))
                .or_else(|| (part.face != 0.0).then(|| "the end was faced".to_owned()))
        }
        Asked::Bored { from, to, length, measured } => {
            let radius = measured.map_or(*to, |measured| f64::max(measured, *to)) / 2.0;
            sized(&part.bore, radius, from / 2.0, *length, shop).or_else(|| marked(part))
        }
        Asked::Faced { to, measured } => {
            let slide = if line(shop, "compound") > 0.0 { "compound" } else { "carriage" };
            let length = measured.map_or(*to, |measured| f64::min(measured, *to));
            let Some(was) = part.length else { return Some("of no known length".to_owned()) };
            let off = (was + part.face - length).abs();
            (off > told(shop, slide)).then(|| format!("{} long for {length}", was + part.face))
        }
        Asked::Held => marked(part).or_else(|| {
            let cut = part.face != 0.0 || part.outside.len() > 1 || part.bore.len() > 1;
            cut.then(|| "something was cut".to_owned())
        }),
        Asked::Marks(marks) => cut_round(marks, part, &run.places, shop, off),
    }
}

fn marked(part: &Part) -> Option<String> {
    (!part.marks.is_empty()).then(|| "marks that nobody asked for".to_owned())
}

/// One radius from the end to the length, the old one from there on.
fn sized(
    profile: &[latheside_core::lathe::Segment],
    radius: f64,
    was: f64,
    length: f64,
    shop: &Value,
) -> Option<String> {
    let near = told(shop, "cross");
    let along = told(shop, "carriage");
    let Some(end) = profile.last() else { return Some("nothing was cut".to_owned()) };
    if (end.radius - radius).abs() > near {
        return Some(format!("a radius of {} for {radius}", end.radius));
    }
    if end.to.abs() > SUMS {
        return Some(format!("the end lies at {}", end.to));
    }
    if (end.from + length).abs() > along {
        return Some(format!("{} long for {length}", -end.from));
    }
    let rest = &profile[..profile.len() - 1];
    let touched = rest.iter().find(|one| (one.radius - was).abs() > SUMS);
    touched.map(|one| format!("past the length it has a radius of {} for {was}", one.radius))
}

fn cut_round(
    asked: &Marks,
    part: &Part,
    places: &[Ratio],
    shop: &Value,
    off: f64,
) -> Option<String> {
    if asked.kind == MarkKind::Nothing {
        return marked(part).or_else(|| stood(asked, places, off));
    }
    let spots: Vec<&Mark> =
        part.marks.iter().filter(|mark| mark.shape == Shape::CentreDrill).collect();
    let marks: Vec<&Mark> =
        part.marks.iter().filter(|mark| mark.shape != Shape::CentreDrill).collect();
    if marks.len() != asked.places.len() {
        return Some(format!("{} cut for {}", marks.len(), asked.places.len()));
    }
    if !spots.is_empty() {
        let alone = spots.len() != marks.len()
            || spots.iter().any(|spot| marks.iter().all(|mark| mark.angle != spot.angle));
        if alone {
            return Some("centre drilled elsewhere than drilled".to_owned());
        }
    }
    let first = marks[0].angle;
    let mut at: Vec<(Ratio, &Mark)> = Vec::new();
    for mark in &marks {
        let from = mark.angle.sub(first).unwrap();
        let turns = Ratio::new(from.floor(), 1).unwrap();
        at.push((from.sub(turns).unwrap(), mark));
    }
    // The first once more where it comes a little short of a whole turn.
    at.sort_by_key(|(from, _)| *from);
    for ((from, _), wanted) in at.iter().zip(&asked.places) {
        let by = from.sub(*wanted).unwrap().abs();
        let wrong = if off > 0.0 { by.to_f64() > off * 1.000_001 + 1e-12 } else { !by.is_zero() };
        if wrong {
            return Some(format!("at {from} of a turn for {wanted}, {off} allowed"));
        }
    }
    for (number, (_, mark)) in at.iter().enumerate() {
        let why = one_wrong(asked, mark, shop).or_else(|| narrow(asked, mark, number, shop));
        if let Some(why) = why {
            return Some(format!("mark {number}: {why}"));
        }
    }
    if asked.scale { lengths(&at) } else { None }
}

/// Whether a flat leaves a ridge at one of its edges: it must be as wide as the chord at its depth, or reach
/// as far as where the next flat, as deep, takes over: half the distance across times the tangent of half
/// the angle between the two.
fn narrow(asked: &Marks, mark: &Mark, number: usize, shop: &Value) -> Option<String> {
    let (MarkKind::Flat, Some(depth), Some(diameter)) = (asked.kind, asked.depth, asked.diameter)
    else {
        return None;
    };
    // Its depth is told to a tenth of a micrometre.
    let depth = depth - 1e-4;
    let count = asked.places.len();
    let place = |number: usize| asked.places[number % count].to_f64();
    let on = (place(number + 1) - place(number)).rem_euclid(1.0);
    let back = (place(number) - place(number + count - 1)).rem_euclid(1.0);
    let chord = (depth * (diameter - depth)).max(0.0).sqrt();
    let half = |turns: f64| {
        let meets = turns > 0.0 && turns < 0.5;
        let met = (diameter / 2.0 - depth) * (std::f64::consts::PI * turns).tan();
        if meets { chord.min(met) } else { chord }
    };
    let wants = 2.0 * half(on).max(half(back));
    let near = 2.0 * told(shop, "cross").max(told(shop, "carriage")) + 1e-3;
    (mark.width + near < wants).then(|| format!("a flat {} wide for {wants}", mark.width))
}

/// Where nothing is cut: the work was locked at every place that was asked for, and at no other.
fn stood(asked: &Marks, places: &[Ratio], off: f64) -> Option<String> {
    let first = *places.first()?;
    let within = |place: Ratio| {
        let from = place.sub(first).unwrap();
        from.sub(Ratio::new(from.floor(), 1).unwrap()).unwrap()
    };
    let near = |one: Ratio, other: Ratio| {
        let by = one.sub(other).unwrap().abs();
        let by = by.min(Ratio::ONE.sub(by).unwrap());
        if off > 0.0 { by.to_f64() <= off * 1.000_001 + 1e-12 } else { by.is_zero() }
    };
    let stood: Vec<Ratio> = places.iter().map(|place| within(*place)).collect();
    let missed = asked.places.iter().find(|wanted| !stood.iter().any(|at| near(*at, **wanted)));
    if let Some(missed) = missed {
        return Some(format!("never at {missed} of a turn"));
    }
    // Once round it comes as near to the first as the moves add up.
    let round = usize::from(off > 0.0 && stood.len() > asked.places.len());
    let stood = &stood[..stood.len() - round];
    let other = stood.iter().find(|at| !asked.places.iter().any(|wanted| near(**at, *wanted)));
    other.map(|at| format!("locked at {at} of a turn"))
}

fn one_wrong(asked: &Marks, mark: &Mark, shop: &Value) -> Option<String> {
    let on = if asked.on_face { On::Face } else { On::Rim };
    if mark.on != on {
        return Some("on the wrong face".to_owned());
    }
    if mark.flat && asked.kind != MarkKind::Flat {
        return Some("a flat for none".to_owned());
    }
    if asked.kind == MarkKind::Flat && mark.shape != Shape::EndMill {
        return Some(format!("a flat by {:?}", mark.shape));
    }
    if mark.off.abs() > SUMS {
        return Some(format!("{} beside the middle", mark.off));
    }
    // Which slide set the depth isn't asked: the coarser of the two bounds it.
    let near = f64::max(told(shop, "cross"), told(shop, "carriage"));
    if let Some(depth) = asked.depth
        // A flat's own depth is told to a tenth of a micrometre.
        && (mark.depth - depth).abs() > near + 1e-4
    {
        return Some(format!("{} deep for {depth}", mark.depth));
    }
    if asked.kind == MarkKind::Hole {
        let drilled = matches!(mark.shape, Shape::Drill | Shape::EndMill);
        if !drilled {
            return Some(format!("a hole by {:?}", mark.shape));
        }
    }
    if let Some(circle) = asked.circle
        && (mark.from - circle).abs() > told(shop, "cross")
    {
        return Some(format!("at a radius of {} for {circle}", mark.from));
    }
    if let Some(width) = asked.width
        && (mark.width - width).abs() > near * 2.0 + 1e-6
        // Less deep than its radius an end mill's side cuts a narrower hollow.
        && mark.shape != Shape::Scriber
    {
        return Some(format!("{} wide for {width}", mark.width));
    }
    if let Some(length) = asked.length
        && (mark.length() - length).abs() > near
    {
        return Some(format!("{} long for {length}", mark.length()));
    }
    None
}

/// Every tenth line the longest, the other fives shorter, the rest the shortest.
fn lengths(at: &[(Ratio, &Mark)]) -> Option<String> {
    let of = |number: usize| {
        if number.is_multiple_of(10) { 0 } else { 1 + usize::from(!number.is_multiple_of(5)) }
    };
    let mut sizes = [None; 3];
    for (number, (_, mark)) in at.iter().enumerate() {
        let size = sizes[of(number)].get_or_insert(mark.length());
        if (*size - mark.length()).abs() > 1e-6 {
            return Some(format!("line {number} is {} long for {size}", mark.length()));
        }
    }
    let known: Vec<f64> = sizes.into_iter().flatten().collect();
    let falls = known.windows(2).all(|two| two[0] > two[1]);
    (!falls).then(|| format!("long, middle and short are {known:?}"))
}
