//! Turn or bore to size: roughing cuts, a measuring cut, the last cut and the length.

mod allowed;
mod steps;
#[cfg(test)]
mod tests;
mod worked;

use super::feeding::{self, power_feed};
use super::holder::Holder;
use super::passes::{Pass, Way, plan};
use super::ready::{Kit, found_out};
use super::spindle::{Job, Spindle, made_of, stock};
use super::works::TOOL_AND_DIAL;
use super::{
    Answer, Deed, Found, Kind, Lacking, Made, Removes, STOCKS, Unmade, Why, Works, names_in,
};
use crate::cutting::{
    BAR_OUT, CutKind, CutterMaterial, LAST_CUT_MM, Process, SizeError, Slender, Stock, Verdict,
    bar_depth, rough_depth, slender,
};
use crate::exact::Ratio;
use crate::quantity::{Quantity, show};
use crate::record::{Choice, LENGTH, NAME, Record, Shape, Spec, choice, field};
use crate::shop::{Dial, Shop};
use alloc::borrow::ToOwned;
use alloc::boxed::Box;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
pub(super) use worked::Size;

const PROCESSES: &[Choice] =
    &[choice("turn", 0, "Turn"), choice("bore", 1, "Bore"), choice("face", 2, "Face")];

pub(super) static KIND: Kind = Kind {
    name: "size",
    wire: 4,
    title: "Turn or bore to size",
    spec: &Spec {
        name: "size",
        fields: &[
            field("process", 1, "process", Shape::Choice(PROCESSES)),
            field("from", 2, "from", LENGTH),
            field("to", 3, "to", LENGTH),
            field("length", 4, "length", LENGTH),
            field("stock", 5, "stock", Shape::Choice(STOCKS)),
            field("cutter", 6, "cutter", NAME),
            field("measured", 7, "measured before the last cut", LENGTH),
            field("rough_cut", 8, "roughing cut, depth", LENGTH),
            field("last_cut", 9, "last cut, depth", LENGTH),
            field("diameter", 10, "diameter faced", LENGTH),
            field("held_in", 11, "held in", NAME),
        ],
    },
    sentences: &[
        (
            "process=bore",
            "{process} Ø {from} out to Ø {to}, {length} deep[, in {stock}][, held in {held_in}][, with the {cutter}][, in cuts of {rough_cut}][, the last of {last_cut}][; it measures Ø {measured} before the last].",
        ),
        (
            "process=face",
            "{process} Ø {diameter} from {from} long to {to}[, in {stock}][, held in {held_in}][, with the {cutter}][, in cuts of {rough_cut}][, the last of {last_cut}][; it measures {measured} before the last].",
        ),
        (
            "",
            "{process} Ø {from} down to Ø {to}, {length} long[, in {stock}][, held in {held_in}][, with the {cutter}][, in cuts of {rough_cut}][, the last of {last_cut}][; it measures Ø {measured} before the last].",
        ),
    ],
    instead: &[],
    from_shop: &["lathe", "holding", "cutters", "indicators"],
    measured: &["measured"],
};

pub(super) static WORKS: Works =
    Works { suggest, deed, on_return: TOOL_AND_DIAL, ..Works::at_once(&KIND, answer) };

fn deed(entries: &Record) -> Deed {
    let deed = Deed::of("turning");
    match (entries.choice("process"), entries.ratio("from"), entries.ratio("to")) {
        (Some("face"), from, to) => {
            let off = from.zip(to).and_then(|(from, to)| from.sub(to).ok());
            deed.removing(Removes::End(off))
        }
        (process, Some(from), Some(to)) if process == Some("bore") || to > from => {
            deed.removing(Removes::Inside(to)).making(Made::Size(to))
        }
        (_, Some(from), Some(to)) => {
            deed.removing(Removes::Outside(from, to)).making(Made::Size(to))
        }
        _ => deed,
    }
}

fn suggest(_: &Record, key: &str, _: &str, shop: &Shop) -> Vec<String> {
    match key {
        "cutter" => names_in(shop, "cutters"),
        "held_in" => names_in(shop, "holding"),
        _ => Vec::new(),
    }
}

/// A roughing cut where nothing is said of the stock: half a millimetre. Common practice, no source.
const PLAIN_CUT_MM: Ratio = Ratio::of(1, 2);

/// What is done, from the word chosen or else from the two sizes.
fn way(entries: &Record, from: Ratio, to: Ratio) -> Way {
    match entries.choice("process") {
        Some("face") => Way::Face,
        Some("bore") => Way::Bore,
        Some(_) => Way::Turn,
        None if to > from => Way::Bore,
        None => Way::Turn,
    }
}

/// The dial that sets the depth, and what it is called.
fn depth_dial(way: Way, shop: &Shop) -> Option<(&'static str, Dial)> {
    let named = |slide, words| shop.dial(slide).map(|dial| (words, dial));
    match way {
        Way::Face => named("compound", "compound").or_else(|| named("carriage", "carriage")),
        _ => named("cross", "cross slide"),
    }
}

fn answer(entries: &Record, shop: &Shop) -> Answer {
    let (Some(from), Some(to)) = (entries.quantity("from"), entries.quantity("to")) else {
        return Answer::refused("say what size it is now, and what size it is to be");
    };
    let way = way(entries, from.value(), to.value());
    if (to.value() > from.value()) != (way == Way::Bore) && to.value() != from.value() {
        let only = match way {
            Way::Bore => "boring makes it larger, and",
            _ => "that cut makes it smaller, and",
        };
        let side = if way == Way::Bore { "under" } else { "over" };
        return Answer::refused(format!("{only} {} is {side} {}", to.text(), from.text()));
    }
    let stock = stock(entries);
    let form = entries.text("cutter").and_then(|name| shop.cutter(name));
    let cutter = made_of(form);
    let mut why = Vec::new();
    let rough = match (entries.ratio("rough_cut"), stock) {
        (Some(own), _) => own,
        (None, Some(stock)) => {
            let (depth, source) = rough_depth(stock, cutter);
            why.push(Why::new("depth of a roughing cut", show::mm(depth), source));
            depth
        }
        (None, None) => PLAIN_CUT_MM,
    };
    // What stands out of the holder is the depth of the bore, at the least.
    let bar = form
        .filter(|form| way == Way::Bore && form.choice("kind") == Some("boring-bar"))
        .and_then(|form| form.ratio("diameter"))
        .zip(entries.ratio("length"));
    let holder = Holder::of(entries, shop);
    let short = bar.map(|(bar, out)| (bar, out, bar_depth(rough, out, bar)));
    let (rough, unmade) = match short {
        Some((_, _, Some(depth))) if entries.ratio("rough_cut").is_none() => {
            if depth != rough {
                why.push(Why::new(
                    "a bar two diameters out takes the whole depth, four diameters out half of it",
                    show::mm(depth),
                    "common practice, no source",
                ));
            }
            (depth, None)
        }
        Some((bar, out, None)) => (rough, Some(too_far_out(bar, out))),
        _ => (rough, None),
    };
    let last = entries.ratio("last_cut").unwrap_or(LAST_CUT_MM);
    let dial = depth_dial(way, shop);
    let measured = entries.ratio("measured");
    let just_dial = dial.map(|(_, dial)| dial);
    let planned =
        |measured| plan(way, [from.value(), to.value()], [rough, last], just_dial, measured);
    let mut past = None;
    let passes = match (planned(measured), measured) {
        (Ok(passes), _) => passes,
        // Where it measures what it is to be, or less, there is nothing more to cut.
        (Err(SizeError::PastSize | SizeError::NothingToCut), Some(measured))
            if to.value() != from.value() =>
        {
            past = measured.sub(to.value()).ok().map(Ratio::abs);
            let passes = planned(None).unwrap_or_default();
            passes.into_iter().filter(|pass| pass.kind != CutKind::Last).collect()
        }
        (Err(refused), _) => return Answer::refused(format!("{refused}")),
    };
    why.extend(passes.last().map(|pass| depth_why(pass, way, from, to, just_dial)));
    let mut lacking = Vec::new();
    if dial.is_none() {
        let needs = match way {
            Way::Face => "shop.lathe.dials.compound",
            _ => "shop.lathe.dials.cross",
        };
        lacking.push(Lacking { key: "dial", needs });
    }
    let thick = match way {
        Way::Turn => Some(from.value()),
        Way::Bore => Some(to.value()),
        Way::Face => entries.ratio("diameter"),
    };
    let mut spindles = [None, None];
    match (stock, thick) {
        (Some(stock), Some(thick)) => {
            let processes = match way {
                Way::Turn => [Process::Turn, Process::Finish],
                Way::Bore => [Process::Bore, Process::Bore],
                Way::Face => [Process::Face, Process::Face],
            };
            for (slot, process) in spindles.iter_mut().zip(processes) {
                let job = Job { stock, process, cutter, diameter_mm: thick };
                if let Ok((spindle, because)) = job.within(holder.most(), shop) {
                    if spindle.is_none() && lacking.iter().all(|gap| gap.key != "spindle_rpm") {
                        let needs = "shop.lathe.spindle_speeds";
                        lacking.push(Lacking { key: "spindle_rpm", needs });
                    }
                    *slot = spindle;
                    let new = |because: &Why| why.iter().all(|one| one.values != because.values);
                    why.extend(because.filter(new));
                }
            }
        }
        (None, _) => lacking.push(Lacking { key: "spindle_rpm", needs: "operation.stock" }),
        (_, None) => lacking.push(Lacking { key: "spindle_rpm", needs: "operation.diameter" }),
    }
    let length = entries.quantity("length").cloned().filter(|_| way != Way::Face);
    if length.is_none() && way != Way::Face {
        lacking.push(Lacking { key: "length", needs: "operation.length" });
    }
    let out = match (&length, way) {
        (Some(length), Way::Turn) => match slender(length.value(), to.value()) {
            // It stands out of the holder by a little more than it is cut.
            Slender::Stiff if steps::stands_out(length.value()) > thrice(from.value()) => {
                Slender::NeedsCentre
            }
            out => out,
        },
        _ => Slender::Stiff,
    };
    let mut cautions = Vec::new();
    cautions.extend(match out {
        Slender::Stiff => None,
        Slender::NeedsCentre => Some(
            "Long for its thickness: if it stands free of the chuck, bring up the tailstock centre.",
        ),
        Slender::NeedsSteady => Some("Long and slender: between chuck and centre it wants a steady too."),
    });
    let [rough, finish] = spindles;
    let along = |spindle: &Option<Spindle>| {
        let feed = spindle.as_ref().filter(|_| way != Way::Face)?.feed?;
        power_feed(feed, shop)
    };
    let power = [along(&rough), along(&finish)];
    let wanted = rough.as_ref().and_then(|spindle| spindle.feed);
    why.extend(
        power
            .first()
            .and_then(Option::as_ref)
            .zip(wanted)
            .map(|(power, wanted)| power.why(wanted, to.unit())),
    );
    let travel = match way {
        // From the rim to the middle.
        Way::Face => thick.map(|thick| thick.to_f64() / 2.0),
        _ => length.as_ref().map(Quantity::to_f64),
    };
    let cautious = thick.and_then(|thick| cautious(way, cutter, thick, holder.most(), shop));
    let unmade = form.and_then(|form| allowed::cutter(way, form, from)).or(unmade);
    let unmade = unmade.or_else(|| holder.unfit(shop)).or_else(|| {
        let runs = rough.as_ref().or(cautious.as_ref());
        let measures = entries.quantity("measured");
        let past = measures.filter(|measured| match way {
            Way::Bore => measured.value() < from.value(),
            _ => measured.value() > from.value(),
        });
        let past = past.map(|measured| (from.text(), measured.text()));
        lacks(
            way,
            runs,
            (thick.is_some(), length.as_ref().is_some_and(|length| length.value() >= SHORTEST)),
            past,
        )
        .or_else(|| {
            too_short(
                shop.dial("carriage"),
                length.as_ref().map(Quantity::value),
                "shop.lathe.dials.carriage",
            )
            .filter(|_| way != Way::Face)
        })
        .or_else(|| {
            let needs = match dial {
                Some(("compound", _)) => "shop.lathe.dials.compound",
                Some(("carriage", _)) => "shop.lathe.dials.carriage",
                _ => "shop.lathe.dials.cross",
            };
            too_short(just_dial, passes.last().map(|pass| pass.travel), needs)
        })
        .or_else(|| {
            let across = thick.filter(|_| way == Way::Face);
            too_short(shop.dial("cross"), across, "shop.lathe.dials.cross")
        })
    });
    let size = Size {
        kit: Kit::of(shop),
        by_compound: dial.is_some_and(|(name, _)| name == "compound"),
        cautious,
        faced: entries.ratio("diameter"),
        bar: form
            .filter(|form| form.choice("kind") == Some("boring-bar"))
            .and_then(|form| Some((form.ratio("diameter")?, form.choice("material")))),
        way,
        from: from.clone(),
        to: to.clone(),
        length,
        dial,
        carriage: shop.dial("carriage").filter(|_| way != Way::Face),
        passes,
        rough,
        finish,
        out,
        cutter: entries.text("cutter").map(show::unmarked),
        held_in: holder.name().map(ToOwned::to_owned),
        measured: entries.quantity("measured").cloned(),
        across: shop.dial("cross"),
        power,
        travel,
        past,
    };
    why.extend(size.time().map(feeding::Time::why));
    let answer = Answer {
        found: Some(Found::Size(Box::new(size))),
        unmade: unmade.map(Box::new),
        cautions,
        why,
        lacking,
        ..Answer::default()
    };
    found_out(answer, shop, "operation.length")
}

/// The speed that the hardest stock of the tables bears: where nothing says what is cut, it does no harm.
fn cautious(
    way: Way,
    cutter: CutterMaterial,
    thick: Ratio,
    most: Option<u32>,
    shop: &Shop,
) -> Option<Spindle> {
    let process = match way {
        Way::Turn => Process::Turn,
        Way::Bore => Process::Bore,
        Way::Face => Process::Face,
    };
    let job = Job { stock: Stock::ToolSteel, process, cutter, diameter_mm: thick };
    job.within(most, shop).ok()?.0
}

/// No cut along is shorter, mm: nobody could set it. Common practice, no source.
const SHORTEST: Ratio = Ratio::of(1, 10);

/// A speed so many times what is published burns the edge: common practice, no source.
const BURNS: u32 = 2;

/// Why it can't be made, though its figures stand.
fn lacks(
    way: Way,
    runs: Option<&Spindle>,
    (thick, long): (bool, bool),
    past_stock: Option<(&str, &str)>,
) -> Option<Unmade> {
    let unmade = |why: &str, needs| Some(Unmade { why: String::from(why), needs });
    if !thick {
        return unmade(
            "say what diameter is faced: the speed goes by its rim",
            "operation.diameter",
        );
    }
    if way != Way::Face && !long {
        return unmade("say how far along it is cut", "operation.length");
    }
    if let Some((from, measured)) = past_stock {
        let than = if way == Way::Bore { "smaller" } else { "larger" };
        return Some(Unmade {
            why: format!(
                "it measures {measured}, {than} than the {from} that it was: measure again"
            ),
            needs: "operation.measured",
        });
    }
    match runs.map(|spindle| &spindle.verdict) {
        None => unmade("no spindle speed of this lathe is known", "shop.lathe.spindle_speeds"),
        Some(Verdict::MachineTooFast { wants, has }) if *has > wants.saturating_mul(BURNS) => {
            Some(Unmade {
                why: format!(
                    "{has} rpm, the slowest here, burns an edge that wants {wants} rpm or less"
                ),
                needs: "shop.lathe.spindle_speeds",
            })
        }
        Some(_) => None,
    }
}

fn thrice(diameter: Ratio) -> Ratio {
    diameter.mul(Ratio::whole(3)).unwrap_or(diameter)
}

/// A slide needs so much more than its cut to draw clear, mm. Common practice, no source.
const TO_CLEAR: Ratio = Ratio::whole(10);

/// A slide that doesn't go so far.
fn too_short(dial: Option<Dial>, mm: Option<Ratio>, needs: &'static str) -> Option<Unmade> {
    let far = mm?.add(TO_CLEAR).ok()?;
    let travel = dial?.travel.filter(|travel| *travel < far)?;
    Some(Unmade {
        why: format!(
            "the slide goes {} in all, and the cut with what it takes to draw clear wants {}",
            show::mm(travel),
            show::mm(far)
        ),
        needs,
    })
}

/// What a bar that stands out too far comes to.
fn too_far_out(bar: Ratio, out: Ratio) -> Unmade {
    let diameters = out.div(bar).map_or_else(|_| String::new(), |times| show::trimmed(times, 1));
    let least = out.div(Ratio::whole(BAR_OUT)).map_or_else(|_| String::new(), show::mm);
    Unmade {
        why: format!(
            "the bar of {} stands out {diameters} diameters to reach {}: a steel bar chatters past {BAR_OUT}; one of {least} or more would do, or bore less deep",
            show::mm(bar),
            show::mm(out),
        ),
        needs: "shop.cutters",
    }
}

fn depth_why(pass: &Pass, way: Way, from: &Quantity, to: &Quantity, dial: Option<Dial>) -> Why {
    let (formula, halved) = match way {
        Way::Turn => ("in = (Ø from − Ø to) / 2", " / 2"),
        Way::Bore => ("out = (Ø to − Ø from) / 2", " / 2"),
        Way::Face => ("in = from − to", ""),
    };
    let (more, less) = if way == Way::Bore { (to, from) } else { (from, to) };
    let mut values =
        format!("({} − {}){halved} = {}", more.text(), less.text(), show::mm(pass.travel));
    if let (Some(dial), Some(reading)) = (dial, pass.reading) {
        let line = show::length_like(dial.travel_per_line(), dial.unit);
        values.push_str(&format!("; at {line} of slide a line: {}", reading.words()));
    }
    let kind = if pass.kind == CutKind::Last { "arithmetic" } else { "as measured" };
    Why::new(formula, values, kind)
}
