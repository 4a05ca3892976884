//! What a cut can't be made with, though its figures stand.

use super::Cut;
use crate::cutting::{Process, Verdict};
use crate::exact::Ratio;
use crate::operation::Unmade;
use crate::operation::holder::Holder;
use crate::operation::hole::LARGE;
use crate::procedure::Shape;
use crate::quantity::{Quantity, show};
use crate::record::Record;
use crate::shop::Shop;
use alloc::format;
use alloc::string::String;

/// A speed so many times what is published burns the edge: common practice, no source.
const BURNS: u32 = 2;
/// A steel bar and an end mill stand out four diameters at the most, a bar of carbide six (the rule's table).
const OUT: i64 = 4;
const CARBIDE_OUT: i64 = 6;

fn because(why: impl Into<String>, needs: &'static str) -> Option<Unmade> {
    Some(Unmade { why: why.into(), needs })
}

/// Why it can't be made, and what would change it.
pub(super) fn unmade(cut: &Cut, entries: &Record, shop: &Shop) -> Option<Unmade> {
    if cut.process == Process::Thread {
        return because(
            "how far it feeds in a turn isn't said here: screw-cutting is an operation of its own",
            "operation.process",
        );
    }
    if cut.at.is_none() {
        return because("say what diameter is cut", "operation.diameter");
    }
    if entries.text("held_in").is_some() && cut.process != Process::Mill {
        let unfit = Holder::of(entries, shop).unfit(shop);
        if unfit.is_some() {
            return unfit;
        }
    }
    if !matches!(cut.process, Process::Tap | Process::Die)
        && let Some((pick, _)) = cut.spindle()
        && let Verdict::MachineTooFast { wants, has } = pick.verdict
        && has > wants.saturating_mul(BURNS)
    {
        return because(
            format!("{has} rpm, the slowest here, burns an edge that wants {wants} rpm or less"),
            "shop.lathe.spindle_speeds",
        );
    }
    slide(cut, entries).or_else(|| deep(cut)).or_else(|| reach(cut)).or_else(|| match cut.process {
        Process::Drill => {
            let large = cut.diameter.as_ref().is_some_and(|across| across.value() > LARGE);
            let why = "a drill so large wants a smaller one first, half its size at the most, and none is owned";
            (large && cut.pilots.is_empty()).then(|| because(why, "shop.drills")).flatten()
        }
        Process::Mill => jaws(cut, shop),
        Process::Part if cut.parting.is_none() => {
            because("say what diameter is parted off", "operation.diameter")
        }
        _ => None,
    })
}

/// An end cutter in chuck jaws.
fn jaws(cut: &Cut, shop: &Shop) -> Option<Unmade> {
    let name = cut.held_in.as_deref()?;
    let chuck = shop.holder(name).and_then(|holder| holder.choice("kind")) == Some("chuck");
    let ends = matches!(cut.mill_shape(), Shape::EndMill | Shape::Engraver);
    (chuck && ends).then(|| {
        because(
            format!(
                "the jaws of the {} let a milling cutter creep: a collet holds it",
                show::unmarked(name)
            ),
            "operation.held_in",
        )
    })?
}

/// A slide that can't feed this.
fn slide(cut: &Cut, entries: &Record) -> Option<Unmade> {
    let said = entries.choice("slide")?;
    let right: &[&str] = match cut.process {
        Process::Turn | Process::Finish | Process::Bore => &["carriage", "compound"],
        Process::Face | Process::Mill => &["cross", "compound"],
        Process::Drill | Process::Ream | Process::Countersink => &["tailstock", "carriage"],
        Process::Part => &["cross"],
        Process::Knurl => &["carriage"],
        _ => return None,
    };
    if right.contains(&said) {
        return None;
    }
    because(format!("{} doesn't feed such a cut", super::words::slide(said)), "operation.slide")
}

/// How deep it is cut, where that must be said.
fn deep(cut: &Cut) -> Option<Unmade> {
    let sets = matches!(
        cut.process,
        Process::Turn | Process::Finish | Process::Bore | Process::Face | Process::Mill
    );
    if !sets {
        return None;
    }
    let Some(depth) = &cut.depth else {
        return because("say how deep it is cut", "operation.depth");
    };
    let turned = matches!(cut.process, Process::Turn | Process::Finish);
    let past = cut.diameter.as_ref().filter(|_| turned).is_some_and(|diameter| {
        depth.value().mul(Ratio::whole(2)).is_ok_and(|both| both >= diameter.value())
    });
    if past {
        return because("the cut is deeper than the middle of the work", "operation.depth");
    }
    depth.value().is_zero().then(|| because("a cut of no depth cuts nothing", "operation.depth"))?
}

/// What stands out too far, or is held or entered where it doesn't go.
fn reach(cut: &Cut) -> Option<Unmade> {
    let times = |out: &Quantity, across: Ratio, most: i64| {
        across.mul(Ratio::whole(most)).is_ok_and(|most| out.value() > most)
    };
    let own = cut.thick.as_ref().map(Quantity::value);
    let short = cut
        .stick_out
        .as_ref()
        .zip(cut.length.as_ref())
        .filter(|(out, length)| length.value() >= out.value());
    match cut.process {
        Process::Turn | Process::Finish | Process::Knurl => short.and_then(|_| {
            because("the work stands out no farther than it is cut", "operation.stick_out")
        }),
        Process::Bore => {
            let bar = own?;
            let hole = cut.diameter.as_ref()?;
            if bar >= hole.value() {
                return because(
                    format!("the bar of {} doesn't enter a hole of {}", show::mm(bar), hole.text()),
                    "operation.cutter",
                );
            }
            let carbide = cut.material == crate::cutting::CutterMaterial::Carbide;
            let most = if carbide { CARBIDE_OUT } else { OUT };
            let out = cut.stick_out.as_ref().or(cut.length.as_ref())?;
            let needs =
                if cut.stick_out.is_some() { "operation.stick_out" } else { "operation.cutter" };
            times(out, bar, most).then(|| {
                because(
                    format!("the bar stands out more than {most} diameters: it chatters"),
                    needs,
                )
            })?
        }
        Process::Mill if cut.mill_shape() == Shape::EndMill => {
            let out = cut.stick_out.as_ref()?;
            times(out, cut.diameter.as_ref()?.value(), OUT).then(|| {
                because(
                    format!("the cutter stands out more than {OUT} diameters: it breaks"),
                    "operation.stick_out",
                )
            })?
        }
        _ => None,
    }
}
