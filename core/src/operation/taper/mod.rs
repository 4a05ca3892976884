//! Turn a taper.

mod steps;
#[cfg(test)]
#[allow(clippy::indexing_slicing)]
mod tests;
mod worked;

use super::ready::{Kit, found_out};
use super::spindle::{Job, stock};
use super::{Answer, Deed, Found, Kind, Lacking, Made, STOCKS, Why, Works};
use crate::cutting::{CutterMaterial, Process, Stock};
use crate::exact::Ratio;
use crate::quantity::{Unit, show};
use crate::record::{ANGLE, LENGTH, LENGTH_OR_NONE, RATIO, Record, Shape, Spec, field};
use crate::shop::Shop;
use crate::tapers::{NAMED, NamedTaper, Taper, find, travel_for};
use alloc::boxed::Box;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
pub(super) use worked::Tapered;
use worked::{Indicator, angle};

const BY_NAME: &str = "Turn a {named} taper[, {length} long][, {between_centres} between centres][, checked over {travel}][, in {stock}][; on a cylinder the indicator moved {proved}][; along the cone it changed {checked}].";

pub(super) static KIND: Kind = Kind {
    name: "taper",
    wire: 7,
    title: "Turn a taper",
    spec: &Spec {
        name: "taper",
        fields: &[
            field("named", 1, "taper", Shape::Text(60)),
            field("angle", 2, "included angle", ANGLE),
            field("ratio", 3, "ratio", RATIO),
            field("large", 4, "large diameter", LENGTH),
            field("small", 5, "small diameter", LENGTH),
            field("length", 6, "length", LENGTH),
            field("between_centres", 7, "length between centres", LENGTH),
            field("travel", 8, "indicator travel", LENGTH),
            field("per_foot", 9, "taper in a foot", LENGTH),
            field("stock", 12, "stock", Shape::Choice(STOCKS)),
            field("proved", 10, "indicator moved, on a cylinder", LENGTH_OR_NONE),
            field("checked", 11, "indicator changed, along the cone", LENGTH_OR_NONE),
        ],
    },
    sentences: &[
        (
            "angle",
            "Turn a taper of {angle} included[, Ø {large} at the large end][, Ø {small} at the small end][, {length} long][, {between_centres} between centres][, checked over {travel}][, in {stock}][; on a cylinder the indicator moved {proved}][; along the cone it changed {checked}].",
        ),
        (
            "ratio",
            "Turn a taper of {ratio} on the diameter[, Ø {large} at the large end][, Ø {small} at the small end][, {length} long][, {between_centres} between centres][, checked over {travel}][, in {stock}][; on a cylinder the indicator moved {proved}][; along the cone it changed {checked}].",
        ),
        (
            "per_foot",
            "Turn a taper of {per_foot} to the foot[, Ø {large} at the large end][, Ø {small} at the small end][, {length} long][, {between_centres} between centres][, checked over {travel}][, in {stock}][; on a cylinder the indicator moved {proved}][; along the cone it changed {checked}].",
        ),
        ("named", BY_NAME),
        (
            "large",
            "Turn a taper from Ø {large} to Ø {small} in {length}[, {between_centres} between centres][, checked over {travel}][, in {stock}][; on a cylinder the indicator moved {proved}][; along the cone it changed {checked}].",
        ),
        ("", BY_NAME),
    ],
    instead: &[
        ("named", "angle"),
        ("named", "ratio"),
        ("named", "per_foot"),
        ("named", "large"),
        ("named", "small"),
        ("angle", "named"),
        ("angle", "ratio"),
        ("angle", "per_foot"),
        ("ratio", "named"),
        ("ratio", "angle"),
        ("ratio", "per_foot"),
        ("per_foot", "named"),
        ("per_foot", "angle"),
        ("per_foot", "ratio"),
        ("large", "named"),
        ("small", "named"),
    ],
    from_shop: &["lathe", "indicators"],
    measured: &["proved", "checked"],
};

pub(super) static WORKS: Works = Works {
    suggest,
    deed,
    on_return: "Look before going on: the compound or the tailstock as it was set, its screws tight, the dial where this step has it.",
    ..Works::at_once(&KIND, answer)
};

fn deed(entries: &Record) -> Deed {
    let tailstock = entries.get("between_centres").is_some();
    Deed::of("the taper").making(Made::Taper { tailstock })
}

fn suggest(_: &Record, key: &str, text: &str, _: &Shop) -> Vec<String> {
    if key != "named" {
        return Vec::new();
    }
    let bare = |text: &str| text.to_ascii_lowercase().replace(|c: char| !c.is_alphanumeric(), "");
    let typed = bare(text);
    let found = find(text).into_iter();
    let like = NAMED.iter().filter(|row| bare(row.id).contains(&typed));
    let mut names: Vec<String> = Vec::new();
    for row in found.chain(like) {
        if names.iter().all(|name| name != row.id) && names.len() < 12 {
            names.push(row.id.to_string());
        }
    }
    names
}

/// Millimetres in a foot.
const FOOT_MM: Ratio = Ratio::of(1524, 5);

/// The taper asked for, with its name where it has one, and how it came about.
fn asked(entries: &Record) -> Result<(Taper, Option<&'static NamedTaper>), String> {
    let wrong = |why| format!("{why}");
    if let Some(degrees) = entries.ratio("angle") {
        return Ok((Taper::included(degrees).map_err(wrong)?, None));
    }
    if let Some(ratio) = entries.ratio("ratio") {
        return Ok((Taper::per_length(ratio).map_err(wrong)?, None));
    }
    if let Some(loss) = entries.ratio("per_foot") {
        let ratio = loss.div(FOOT_MM).map_err(|why| format!("{why}"))?;
        return Ok((Taper::per_length(ratio).map_err(wrong)?, None));
    }
    if let Some(name) = entries.text("named") {
        let named = find(name).ok_or_else(|| {
            format!("no taper here is called “{name}”: MT2, metric 80, 7/24 no. 40, drill-chuck 2, B16 are")
        })?;
        return Ok((named.taper(), Some(named)));
    }
    let ends = ["large", "small", "length"].map(|key| entries.ratio(key));
    match ends {
        [Some(large), Some(small), Some(length)] => {
            Ok((Taper::between(large, small, length).map_err(wrong)?, None))
        }
        _ => {
            Err("say the taper: a name like MT2, an angle, a ratio, or two diameters and a length"
                .to_string())
        }
    }
}

/// The travel of an ordinary compound slide, two inches, in mm, where the taper's length doesn't say more. Common
/// practice, no source.
const COMPOUND_TRAVEL_MM: Ratio = Ratio::of(254, 5);

/// How far an indicator reads where that isn't said, mm. Common practice, no source.
const USUAL_REACH: Ratio = Ratio::whole(1);

fn answer(entries: &Record, shop: &Shop) -> Answer {
    let (taper, named) = match asked(entries) {
        Ok(asked) => asked,
        Err(why) => return Answer::refused(why),
    };
    let own = |key| entries.ratio(key);
    let large = own("large").or_else(|| named.map(|row| row.large_mm));
    let length = own("length").or_else(|| named.map(|row| row.length_mm));
    let unit = ["large", "length", "per_foot", "between_centres", "travel"]
        .iter()
        .find_map(|key| entries.quantity(key))
        .map_or_else(
            || shop.bare_unit(crate::quantity::Measure::Length),
            crate::quantity::Quantity::unit,
        );
    let unit = if unit == Unit::Thou { Unit::Inch } else { unit };
    // Two of the ends and the length give the third.
    let per = taper.per_mm();
    let small =
        own("small").map(Ratio::to_f64).or_else(|| Some(large?.to_f64() - per * length?.to_f64()));
    if small.is_some_and(|small| small < 0.0) {
        let length = length.map_or_else(String::new, |length| show::length_like(length, unit));
        return Answer::refused(format!("in {length} this taper runs out to a point and beyond"));
    }
    let long = length
        .map(Ratio::to_f64)
        .or_else(|| Some((large?.to_f64() - small?) / per).filter(|length| *length > 0.0));
    let mut lacking = Vec::new();
    let between = entries.quantity("between_centres").cloned();
    if between.is_none() {
        lacking.push(Lacking { key: "set_over_mm", needs: "operation.between_centres" });
    }
    let owned = shop.indicators().next();
    let reach = owned.map(|(_, travel)| travel.value());
    let along = length.unwrap_or(COMPOUND_TRAVEL_MM).min(COMPOUND_TRAVEL_MM);
    let travel = own("travel").or_else(|| {
        let reach = reach?;
        let bed = |travel: &Ratio| taper.along_the_bed(*travel).reading_mm;
        let inches = || {
            // 2, 1, 1/2 and 1/4 inch of bed.
            let travels = [(254, 5), (127, 5), (127, 10), (127, 20)];
            let travels = travels.into_iter().map(|(above, below)| Ratio::of(above, below));
            let reach = reach.to_f64();
            let mut within = travels.filter(|travel| *travel <= along);
            within.find(|travel| bed(travel) <= reach)
        };
        let even = if unit.is_inch() { inches() } else { travel_for(taper, along, reach) };
        even.or_else(|| {
            // Too steep for the plunger: what it can follow, in whole millimetres.
            let most = libm::floor(2.0 * reach.to_f64() / per);
            (most >= 1.0).then(|| Ratio::whole(most as i64).min(along))
        })
    });
    let indicator = travel.map(|travel| Indicator {
        bed: taper.along_the_bed(travel),
        compound: taper.along_the_compound(travel),
        division: owned.map(|(division, _)| division.clone()),
        beyond: reach.is_some_and(|reach| taper.along_the_bed(travel).reading_mm > reach.to_f64()),
    });
    // Where it is to be checked over more than the plunger follows, it is proved over half of what that follows.
    let proof = indicator.clone().filter(|indicator| !indicator.beyond).or_else(|| {
        let one = shop.record().records("indicators").next()?;
        let reach = one.ratio("travel").unwrap_or(USUAL_REACH);
        let far = reach.to_f64() / per;
        let travel = show::near(far, if far < 1.0 { 9 } else { 2 })?.min(along);
        travel.is_positive().then(|| Indicator {
            bed: taper.along_the_bed(travel),
            compound: taper.along_the_compound(travel),
            division: one.quantity("division").cloned(),
            beyond: false,
        })
    });
    if indicator.is_none() {
        lacking.push(Lacking { key: "indicator", needs: "shop.indicators" });
    }
    // The surface speed counts where it is largest: at the large end.
    let (mut spindle, mut speed_why, mut cautious) = (None, None, None);
    match (stock(entries), large) {
        (Some(stock), Some(diameter_mm)) => {
            let job =
                Job { stock, process: Process::Finish, cutter: CutterMaterial::Hss, diameter_mm };
            if let Ok(found) = job.on(shop) {
                (spindle, speed_why) = found;
            }
            if spindle.is_none() {
                lacking.push(Lacking { key: "spindle_rpm", needs: "shop.lathe.spindle_speeds" });
            }
        }
        (None, large) => {
            lacking.push(Lacking { key: "spindle_rpm", needs: "operation.stock" });
            if let Some(diameter_mm) = large {
                // The speed that the hardest stock of the tables bears: where nothing says what is cut, it does
                // no harm.
                let stock = Stock::ToolSteel;
                let process = Process::Finish;
                let job = Job { stock, process, cutter: CutterMaterial::Hss, diameter_mm };
                cautious = job.on(shop).ok().and_then(|found| found.0);
            }
        }
        (_, None) => lacking.push(Lacking { key: "spindle_rpm", needs: "operation.large" }),
    }
    let set_over = between.as_ref().map(|length| taper.set_over_mm(length.value()));
    let mut cautions = Vec::new();
    if named.is_some_and(|row| !row.family.holds_itself()) {
        cautions.push(
            "A 7/24 taper lets go by itself: it is held by a draw-bar and never by friction.",
        );
    }
    let mut tapered = Tapered {
        taper,
        named,
        large: large.map(Ratio::to_f64),
        small,
        length: long,
        unit,
        between,
        set_over,
        indicator,
        owned: shop.record().records("indicators").next().is_some(),
        proof,
        proved: entries.quantity("proved").cloned(),
        checked: entries.quantity("checked").cloned(),
        cross: shop.dial("cross"),
        compound: shop.dial("compound"),
        carriage: shop.dial("carriage"),
        cautious,
        spindle,
        passes: Vec::new(),
        kit: Kit::of(shop),
    };
    tapered.share_out();
    let unmade = tapered.lacks().map(Box::new);
    let mut why = why(&tapered, entries);
    why.extend(speed_why);
    let answer = Answer {
        found: Some(Found::Taper(Box::new(tapered))),
        cautions,
        why,
        lacking,
        unmade,
        ..Answer::default()
    };
    found_out(answer, shop, "operation.length")
}

fn why(tapered: &Tapered, entries: &Record) -> Vec<Why> {
    let taper = tapered.taper;
    let per = show::float_trimmed(taper.per_mm(), 6);
    let half = angle(taper.half_angle_deg());
    let mut why = Vec::new();
    if let Some(row) = tapered.named {
        let one_in = show::float_trimmed(1.0 / taper.per_mm(), 3);
        why.push(Why::new(row.id, format!("1 in {one_in} on the diameter"), row.source));
    } else if let [Some(large), Some(small), Some(length)] =
        ["large", "small", "length"].map(|key| entries.quantity(key))
        && entries.get("angle").is_none()
    {
        why.push(Why::new(
            "taper = (D − d) / l",
            format!("({} − {}) / {} = {per}", large.text(), small.text(), length.text()),
            "arithmetic",
        ));
    }
    why.push(match taper.exact() {
        Some(_) => Why::new(
            "half angle = atan(taper / 2)",
            format!("atan({per} / 2) = {half}"),
            "geometry",
        ),
        None => Why::new(
            "taper = 2 tan(included / 2)",
            format!("2 tan({half}) = {per}"),
            "geometry; Collard, Turning and Boring Tapers (1902), table by degrees",
        ),
    });
    if let (Some(length), Some(over)) = (&tapered.between, tapered.set_over) {
        why.push(Why::new(
            "set-over = taper × whole length / 2",
            format!("{per} × {} / 2 = {}", length.text(), tapered.long(over, 3)),
            "Jones, Turning and Boring (1914) p. 82; centre holes shorten it a little",
        ));
    }
    if let Some(indicator) = &tapered.indicator {
        let travel = show::length_like(indicator.bed.travel_mm, tapered.unit);
        why.push(Why::new(
            "on the cone, along the bed: travel × taper / 2",
            format!("{travel} × {per} / 2 = {}", tapered.long(indicator.bed.reading_mm, 4)),
            "geometry",
        ));
        why.push(Why::new(
            "on a cylinder, along the compound: travel × sin(half angle)",
            format!("{travel} × sin({half}) = {}", tapered.long(indicator.compound.reading_mm, 4)),
            "geometry",
        ));
    }
    why
}
