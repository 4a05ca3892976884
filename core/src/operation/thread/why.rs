//! Where a thread's figures come from.

use super::super::Why;
use super::answer::Thread;
use super::gears::Gears;
use super::pace::Pace;
use super::sizes::Sizes;
use super::tool::CLEARANCE;
use super::wanted::lead_text;
use super::words::fraction;
use crate::exact::Ratio;
use crate::gearing::{Mounting, Pair, Train};
use crate::quantity::show;
use crate::threads::{Form, Lead, Side};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

const ARITHMETIC: &str = "arithmetic";

pub(super) fn why(thread: &Thread) -> Vec<Why> {
    let mut why = Vec::new();
    if thread.wanted.thread.starts > 1 {
        let pitch = lead_text(thread.wanted.thread.pitch, thread.wanted.inch);
        why.push(Why::new(
            "lead = pitch × starts",
            format!("{} = {pitch} × {}", thread.wanted.lead_text(), thread.wanted.thread.starts),
            ARITHMETIC,
        ));
    }
    if let Ok(gears) = &thread.gears
        && let Some(train) = gears.train()
    {
        why.push(ratio(thread, gears, train));
        why.push(error(thread, gears, train));
        why.extend(mounting(gears, train));
        why.extend(idlers(gears, train));
    }
    why.extend(half_nuts(thread));
    why.extend(thread.pace.as_ref().map(Pace::why));
    if let Some(sizes) = &thread.sizes {
        why.push(depth(thread, sizes));
        why.extend(pitch_diameter(thread, sizes));
        why.extend(limits(sizes));
        why.extend(share(thread));
        why.extend(wires(thread, sizes));
        why.extend(helix(thread, sizes));
        why.extend(sides(thread));
        why.extend(tap(thread));
    }
    why
}

fn lead(lead: Lead) -> String {
    let number = show::exact(lead.factor());
    if lead.is_exact() { number } else { format!("{number} π") }
}

fn ratio(thread: &Thread, gears: &Gears, train: &Train) -> Why {
    let mut formula = "lead ÷ leadscrew = drivers ÷ driven".to_owned();
    let gears_in = |side: fn(&Pair) -> u16| {
        let sizes: Vec<String> = train.pairs().iter().map(|p| side(p).to_string()).collect();
        let product = sizes.join(" × ");
        if sizes.len() > 1 { format!("({product})") } else { product }
    };
    let mut values = format!(
        "{} ÷ {} {} {} ÷ {}",
        lead(thread.wanted.lead),
        lead(gears.screw),
        if gears.exact(train, thread.wanted.lead) { "=" } else { "≈" },
        gears_in(|pair| pair.driver),
        gears_in(|pair| pair.driven),
    );
    if gears.before != Ratio::ONE {
        formula.push_str(" × ratio before the train");
        values.push_str(&format!(" × {}", fraction(gears.before)));
    }
    let (position, _) = gears.position(train);
    if gears.has_gearbox() || position != Ratio::ONE {
        formula.push_str(" × gearbox");
        values.push_str(&format!(" × {}", fraction(position)));
    }
    Why::new(formula, values, ARITHMETIC)
}

fn error(thread: &Thread, gears: &Gears, train: &Train) -> Why {
    let cut = match gears.lead_cut(train) {
        Ok(cut) if cut.is_exact() => show::float_trimmed(cut.to_f64(), 6),
        Ok(cut) => lead(cut),
        Err(_) => String::new(),
    };
    let sign = if train.error.is_positive() { "+" } else { "" };
    Why::new(
        "error = (lead cut − lead wanted) ÷ lead wanted",
        format!(
            "({cut} mm − {} mm) ÷ {} mm = {sign}{} ppm",
            lead(thread.wanted.lead),
            lead(thread.wanted.lead),
            show::float_trimmed(train.error_ppm(), 3),
        ),
        ARITHMETIC,
    )
}

fn mounting(gears: &Gears, train: &Train) -> Option<Why> {
    match gears.mounting {
        Mounting::Shop { stud_clearance_teeth: k, .. } => {
            let [first, second, ..] = train.pairs() else { return None };
            let sum = |pair: &Pair| u32::from(pair.driver).saturating_add(u32::from(pair.driven));
            let mark = |sum: u32, other: u16| {
                if sum > u32::from(other).saturating_add(k) { '>' } else { '≤' }
            };
            Some(Why::new(
                "A + B > C + k and C + D > B + k",
                format!(
                    "{} + {} {} {} + {k} and {} + {} {} {} + {k}",
                    first.driver,
                    first.driven,
                    mark(sum(first), second.driver),
                    second.driver,
                    second.driver,
                    second.driven,
                    mark(sum(second), first.driven),
                    first.driven,
                ),
                "the shop's own clearance rule; common practice, no source",
            ))
        }
        Mounting::Banjo(banjo) => {
            let [first, second] = train.pairs() else { return None };
            let half = |pair: &Pair| {
                let sum = u32::from(pair.driver).saturating_add(u32::from(pair.driven));
                banjo.module.mul(Ratio::from(sum)).and_then(|d| d.div(Ratio::whole(2)))
            };
            let (d1, d2) = (half(first).ok()?, half(second).ok()?);
            let (from, to) = banjo.slot;
            Some(Why::new(
                "d1 = m(A + B) ÷ 2, d2 = m(C + D) ÷ 2; slot ≤ d2 ≤ slot; |d1 − d2| ≤ centres ≤ d1 + d2",
                format!(
                    "d1 = {}, d2 = {}; slot {} to {}; centres {}",
                    show::mm(d1),
                    show::mm(d2),
                    show::mm(from),
                    show::mm(to),
                    show::mm(banjo.centres),
                ),
                "the banjo's own measures: geometry",
            ))
        }
        Mounting::Free | Mounting::Mesh(..) => None,
    }
}

fn idlers(gears: &Gears, train: &Train) -> Option<Why> {
    let n = gears.idlers(train)?;
    let pairs = train.pairs().len();
    let of = |n: usize, one: &str, more: &str| match n {
        1 => format!("1 {one}"),
        n => format!("{n} {more}"),
    };
    let idlers = of(usize::try_from(n).unwrap_or(0), "idler", "idlers");
    let mut values = format!("{} and {idlers}", of(pairs, "mesh", "meshes"));
    if gears.tumbler == Some(true) {
        values.push_str("; the tumbler sets the direction");
    }
    Some(Why::new(
        "meshes + idlers even: the leadscrew turns with the spindle, and cuts its own hand",
        values,
        "each mesh reverses; for the added wheel: Rose, Modern Machine-Shop Practice",
    ))
}

fn half_nuts(thread: &Thread) -> Option<Why> {
    let nuts = thread.nuts.as_ref()?;
    let ratio = nuts.ratio;
    let mut formula = "lead ÷ leadscrew = p ÷ q: right again every p leadscrew threads".to_owned();
    if nuts.spacing.is_none() {
        return Some(Why::new(formula, "with π in the lead it never repeats", ARITHMETIC));
    }
    let mut values = format!("{} ÷ {}: every {}", ratio.numer(), ratio.denom(), ratio.numer());
    if let Some(dial) = nuts.dial {
        formula.push_str("; wheel teeth × marks passed ÷ marks must be a multiple of p, and so must the wheel's teeth");
        values.push_str(&format!("; wheel of {} teeth, {} marks", dial.wheel_teeth, dial.marks));
    }
    if let Some(off) = nuts.off_words(usize::MAX) {
        values.push_str("; off the thread that these gears cut: ");
        values.push_str(&off);
    }
    Some(Why::new(formula, values, "Jones, Turning and Boring (1914), pp. 139–142"))
}

fn depth(thread: &Thread, sizes: &Sizes) -> Why {
    let inside = thread.wanted.side == Side::Inside;
    let (formula, source) = match sizes.profile.form {
        Form::Sixty if inside => ("h = 0.541266 P", "ISO 68-1, ISO 724"),
        Form::Sixty => ("h = 0.613434 P", "ISO 68-1, ISO 724"),
        Form::Whitworth => ("h = 0.640327 P", "BS 84"),
        Form::Ba => ("h = 0.6 P", "BS 93"),
        Form::Cycle => ("h = 0.5327 P", "BS 811"),
        Form::Trapezoidal => ("h = 0.5 P + clearance", "ISO 2904"),
        Form::Acme => ("h = 0.5 P + clearance", "ASME B1.5"),
        Form::StubAcme => ("h = 0.3 P + clearance", "ASME B1.8"),
        Form::Worm => ("h = 2.25 modules (29°: 0.6866 P)", "common practice, no source"),
        Form::Vee => ("h = P ÷ (2 tan α)", "geometry of a sharp V"),
    };
    Why::new(
        formula,
        format!(
            "P = {} mm: h = {} mm",
            show::float_trimmed(sizes.profile.pitch.to_f64(), 6),
            show::trimmed(sizes.depth, 4)
        ),
        source,
    )
}

fn pitch_diameter(thread: &Thread, sizes: &Sizes) -> Option<Why> {
    let (pitch, diameter) = (sizes.pitch?, thread.wanted.thread.diameter?);
    Some(Why::new(
        "d2 = d − 2 × addendum",
        format!(
            "{} − 2 × {} = {} mm",
            show::trimmed(diameter, 4),
            show::trimmed(sizes.profile.addendum, 4),
            show::trimmed(pitch, 4),
        ),
        match thread.wanted.thread.series.standard() {
            "" => ARITHMETIC,
            standard => standard,
        },
    ))
}

fn limits(sizes: &Sizes) -> Option<Why> {
    let limits = sizes.limits.as_ref().ok()?;
    let formula = if limits.printed {
        "limits = basic size less the allowance, less the printed tolerance"
    } else {
        "limits = basic size less the allowance, less the tolerance by the standard's formula"
    };
    Some(Why::new(
        formula,
        format!(
            "{}: tolerance of the pitch diameter {} mm",
            limits.class,
            show::float_trimmed(limits.pitch_tolerance, 4)
        ),
        limits.source,
    ))
}

fn share(thread: &Thread) -> Option<Why> {
    let judged = thread.judged?;
    let share = judged.share?;
    Some(Why::new(
        "share = error over the nut × cot α ÷ tolerance of the pitch diameter",
        format!(
            "{} mm over the nut is {} mm of pitch diameter: {} %",
            show::float_trimmed(judged.over_length, 5),
            show::float_trimmed(judged.diametral, 5),
            show::float_trimmed(share * 100.0, 1),
        ),
        "geometry; so ISO 965-1 and FED-STD-H28",
    ))
}

fn wires(thread: &Thread, sizes: &Sizes) -> Option<Why> {
    let wires = thread.wires.as_ref()?;
    Some(Why::new(
        "w = P ÷ (2 cos α), M = d2 + w (1 + 1/sin α) − P cot α ÷ 2",
        format!(
            "α = {}°: w = {} mm",
            show::float_trimmed(sizes.profile.included_deg.to_f64() / 2.0, 2),
            show::float(wires.fit.best, 4)
        ),
        "geometry of a symmetric thread; the lead angle's share after Handbook H28, from memory",
    ))
}

fn helix(thread: &Thread, sizes: &Sizes) -> Option<Why> {
    Some(Why::new(
        "tan φ = lead ÷ (π d2)",
        format!(
            "{} ÷ (π × {}): {}°",
            show::float_trimmed(thread.wanted.lead.to_f64(), 4),
            show::trimmed(sizes.pitch?, 3),
            show::float(thread.helix?, 2),
        ),
        "geometry",
    ))
}

fn sides(thread: &Thread) -> Option<Why> {
    let helix = thread.tool.as_ref()?.helix.as_ref()?;
    let one = |degrees| show::float(degrees, 2);
    let clear = show::float(CLEARANCE, 0);
    Some(Why::new(
        "sides of the tool = helix at the root + clearance, clearance − helix at the crest",
        format!("{}° + {clear}°, {clear}° − {}°", one(helix.minor_deg), one(helix.major_deg)),
        "geometry; the clearance is common practice, no source",
    ))
}

fn tap(thread: &Thread) -> Option<Why> {
    let (hole, drill) = thread.tap.as_ref()?;
    let mut values = format!("hole {} mm", show::trimmed(hole.diameter, 3));
    if let Some(tap) = drill {
        values.push_str(&format!(
            "; {} leaves {} % of 3/4 H, {} % of the form's own height",
            tap.drill,
            show::float(tap.percent.of_chart, 0),
            show::float(tap.percent.of_basic, 0),
        ));
    }
    Some(Why::new("tapping drill: the owned one nearest to the hole", values, hole.source))
}
