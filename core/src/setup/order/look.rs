//! Each operation looked at beside those before it.

use super::super::Setup;
use super::Remark;
use crate::exact::Ratio;
use crate::operation::{Deed, Made, Operation, Removes};
use crate::quantity::{Quantity, show};
use crate::shop::Shop;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// An operation at its place in the order, and what it does to the part.
struct Placed<'a> {
    at: usize,
    operation: &'a Operation,
    deed: Deed,
}

/// Nearly the same diameter: within a fiftieth, as one measures a bar before it is turned.
fn alike(a: Ratio, b: Ratio) -> bool {
    let fiftieth = b.div(Ratio::whole(50)).unwrap_or(Ratio::ZERO);
    a.sub(b).is_ok_and(|off| off.abs() <= fiftieth)
}

/// `2 of 5 thou`: what is left of a depth, in the system of the first.
fn of(left: Ratio, whole: &Quantity) -> String {
    let text = show::length_like(left, whole.unit());
    let unit = text.rsplit_once(' ').map_or("", |(_, unit)| unit);
    let bare = text.strip_suffix(unit).unwrap_or(&text).trim_end();
    if whole.text().ends_with(unit) { format!("{bare} of {}", whole.text()) } else { text }
}

/// As much as is said of one order.
const MOST: usize = 40;

pub(super) fn remarks(setup: &Setup, places: &[usize]) -> Vec<Remark> {
    let shop = Shop::new(setup.shop.clone());
    let placed = |at: &usize| {
        let operation = setup.operations.get(*at)?;
        Some(Placed { at: *at, operation, deed: operation.deed() })
    };
    let deeds: Vec<Placed> = places.iter().filter_map(placed).collect();
    let mut said = Vec::new();
    for (nth, later) in deeds.iter().enumerate() {
        // Nobody reads more, and a thousand operations may get in each other's way.
        if said.len() > MOST {
            break;
        }
        let earlier: Vec<&Placed> = deeds.iter().take(nth).collect();
        if later.deed.grips {
            held(later, &earlier, &shop, &mut said);
        }
        spoiled(later, &earlier, &mut said);
        let held_at = earlier.iter().rposition(|before| before.deed.grips);
        nothing_left(later, &earlier, held_at, &mut said);
        if let Some(held_at) = held_at {
            untrue(later, &earlier, held_at, &shop, &mut said);
        }
    }
    said
}

/// What a holder does to what it grips.
fn held(hold: &Placed, earlier: &[&Placed], shop: &Shop, said: &mut Vec<Remark>) {
    let entries = &hold.operation.entries;
    let holder = entries.text("in").and_then(|name| shop.holder(name));
    let kind = holder.and_then(|holder| holder.choice("kind"));
    // A collet goes round what it grips, and so does a bush; a centre grips nothing.
    let named = entries.text("in").unwrap_or_default().to_ascii_lowercase();
    let soft =
        ["collet", "bush", "soft", "centre", "mandrel"].iter().any(|word| named.contains(word));
    if soft || kind.is_some_and(|kind| kind != "chuck" && kind != "vice") {
        return;
    }
    let surface = entries.choice("surface");
    let diameter = entries.ratio("diameter");
    let (number, at) = (hold.at.saturating_add(1), hold.at);
    let is = |what| surface == Some(what);
    let unsaid = surface.is_none();
    for made in earlier {
        let by = made.at.saturating_add(1);
        let same = |size: Option<Ratio>| {
            diameter.zip(size).is_some_and(|(gripped, size)| alike(gripped, size))
        };
        let (words, why) = match made.deed.makes {
            Some(Made::Thread(size)) if is("thread") || unsaid && same(size) => (
                format!("{number} grips the thread cut in {by}: a collet or a split bush"),
                "Jaws bruise the crests. Two nuts locked together do as well.",
            ),
            Some(Made::Lines { diameter: size, face: false, .. }) if same(size) => (
                format!("{number} grips the lines cut in {by}: a soft strip, or by the bore"),
                "Jaws raise a burr on each line that they cross.",
            ),
            Some(Made::Taper { .. }) if is("taper") => (
                format!("{number} grips the taper turned in {by}: a socket of the same taper"),
                "Parallel jaws hold a cone on one line, and it walks out.",
            ),
            Some(Made::Size(size))
                if same(Some(size)) && (is("finished") || unsaid && kind == Some("chuck")) =>
            {
                (
                    format!(
                        "{number} grips the size turned in {by}: soft jaws, a collet or a strip"
                    ),
                    "Hard jaws leave their marks on a finished diameter.",
                )
            }
            _ => continue,
        };
        said.push(Remark { operation: at, with: made.at, words, why, first: None });
    }
}

/// What a cut does to what stood there before it.
fn spoiled(cut: &Placed, earlier: &[&Placed], said: &mut Vec<Remark>) {
    let number = cut.at.saturating_add(1);
    for made in earlier {
        let by = made.at.saturating_add(1);
        let Some(stands) = made.deed.makes else { continue };
        let depth = made.operation.entries.quantity("depth");
        let half = |from: Ratio, to: Ratio| from.sub(to)?.div(Ratio::whole(2));
        let found = match (cut.deed.removes, stands) {
            (
                Some(Removes::Outside(from, to)),
                Made::Lines { diameter, depth: deep, face: false },
            ) if diameter.is_some_and(|size| alike(size, from) && to < size) => {
                let skim = diameter.map_or(from, |size| size.min(from));
                let left = deep.zip(half(skim, to).ok()).and_then(|(deep, off)| deep.sub(off).ok());
                let words = match (left, depth) {
                    (Some(left), Some(depth)) if left.is_positive() => {
                        format!(
                            "skimming in {number} after {} in {by} leaves {} of line",
                            made.deed.called(),
                            of(left, depth)
                        )
                    }
                    (Some(_), Some(_)) => {
                        format!(
                            "skimming in {number} after {} in {by} leaves nothing of its lines",
                            made.deed.called()
                        )
                    }
                    _ => format!(
                        "skimming in {number} after {} in {by} takes away from its lines",
                        made.deed.called()
                    ),
                };
                Some((words, "A line is cut last, on a rim that is to size."))
            }
            (Some(Removes::End(off)), Made::Lines { face: true, depth: deep, .. }) => {
                let left = deep.zip(off).and_then(|(deep, off)| deep.sub(off).ok());
                let words = match (left, depth) {
                    (Some(left), Some(depth)) if left.is_positive() => format!(
                        "facing in {number} after {} in {by} leaves {} of line",
                        made.deed.called(),
                        of(left, depth)
                    ),
                    _ => format!(
                        "facing in {number} takes away from the lines cut in {by} on the face"
                    ),
                };
                Some((words, "A line is cut last, on a face that is to size."))
            }
            (Some(Removes::Outside(from, to)), Made::Thread(Some(size)))
                if to < size && (alike(from, size) || from > size) =>
            {
                Some((
                    format!("{number} turns away the crests of the thread cut in {by}"),
                    "The blank is turned to size before its thread is cut.",
                ))
            }
            (Some(Removes::Inside(to)), Made::Tapped(Some(size)))
                if to
                    .mul(Ratio::whole(10))
                    .is_ok_and(|ten| size.mul(Ratio::whole(7)).is_ok_and(|seven| ten > seven)) =>
            {
                Some((
                    format!("{number} bores into the thread made in {by}"),
                    "The hole is bored to its size before its thread is cut.",
                ))
            }
            (Some(Removes::End(Some(off))), Made::Tapped(_)) if off.is_positive() => {
                let off = cut
                    .operation
                    .entries
                    .quantity("from")
                    .map_or_else(|| show::mm(off), |from| show::length_like(off, from.unit()));
                Some((
                    format!("facing in {number} takes {off} off the thread made in {by}"),
                    "Faced first, the hole is as deep as asked for and its mouth is square.",
                ))
            }
            (Some(Removes::Pressed), Made::Thread(_) | Made::Size(_) | Made::Lines { .. }) => {
                Some((
                    format!("knurling in {number} presses on what is finished in {by}"),
                    "A knurl pushes the work aside and raises its edges: knurl first, then finish.",
                ))
            }
            (Some(Removes::Outside(..)), Made::Taper { tailstock: true }) => Some((
                format!("after {by} the tailstock is set over: set it back before {number}"),
                "Turned between centres that are out of line, a diameter comes out a taper.",
            )),
            _ => None,
        };
        if let Some((words, why)) = found {
            let first = (!matches!(stands, Made::Taper { .. })).then_some((cut.at, made.at));
            said.push(Remark { operation: cut.at, with: made.at, words, why, first });
        }
    }
    // A thread over flats or slots: the tool knocks at every edge.
    if matches!(cut.deed.makes, Some(Made::Thread(_)))
        && let Some(shaped) = earlier.iter().rev().find(|made| {
            made.deed.makes == Some(Made::Shaped)
                && matches!(made.operation.entries.choice("marks"), Some("flats" | "slots"))
        })
    {
        let by = shaped.at.saturating_add(1);
        said.push(Remark {
            operation: cut.at,
            with: shaped.at,
            words: format!("{number} cuts a thread over the edges made in {by}"),
            why: "The tool knocks at every edge and pushes a burr into the thread: the thread first.",
            first: Some((cut.at, shaped.at)),
        });
    }
}

/// Work after the part has left its bar.
fn nothing_left(
    later: &Placed,
    earlier: &[&Placed],
    held_at: Option<usize>,
    said: &mut Vec<Remark>,
) {
    if later.deed.called.is_none() || matches!(later.deed.removes, Some(Removes::Off)) {
        return;
    }
    let off = earlier.iter().rposition(|before| matches!(before.deed.removes, Some(Removes::Off)));
    let Some(off) = off.filter(|off| held_at.is_none_or(|held| held < *off)) else { return };
    let Some(parted) = earlier.get(off) else { return };
    let by = parted.at.saturating_add(1);
    said.push(Remark {
        operation: later.at,
        with: parted.at,
        words: format!(
            "after parting off in {by} nothing is left to hold for {} in {}",
            later.deed.called(),
            later.at.saturating_add(1)
        ),
        why: "Do it while the part is still on its bar, or say before it what holds it.",
        first: Some((later.at, parted.at)),
    });
}

/// Work held again, that has to be true to what was turned before.
fn untrue(
    later: &Placed,
    earlier: &[&Placed],
    held_at: usize,
    shop: &Shop,
    said: &mut Vec<Remark>,
) {
    let Some(hold) = earlier.get(held_at) else { return };
    let entries = &hold.operation.entries;
    let holder = entries.text("in").and_then(|name| shop.holder(name));
    let run_out = holder.and_then(|holder| holder.quantity("run_out"));
    let round = matches!(
        later.deed.makes,
        Some(Made::Thread(_) | Made::Tapped(_) | Made::Taper { .. } | Made::Size(_))
    );
    let Some(run_out) = run_out.filter(|out| out.value().is_positive()) else { return };
    let before = earlier.iter().take(held_at).rev().find(|before| {
        matches!(before.deed.makes, Some(Made::Size(_) | Made::Thread(_) | Made::Taper { .. }))
    });
    let Some(before) = before.filter(|_| round && entries.get("true_to").is_none()) else { return };
    let again = said.iter().any(|remark| {
        remark.operation == hold.at && remark.first.is_none() && remark.words.contains("runs out")
    });
    if again {
        return;
    }
    said.push(Remark {
        operation: hold.at,
        with: before.at,
        words: format!(
            "held again in {}, {} in {} runs out by up to {} to what was made in {}",
            hold.at.saturating_add(1),
            later.deed.called(),
            later.at.saturating_add(1),
            run_out.text(),
            before.at.saturating_add(1)
        ),
        why: "What must be true to each other is made in one holding, or indicated true.",
        first: None,
    });
}
