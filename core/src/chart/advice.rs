//! What more gears would do in a shop: threads and divisions as wishes of its drawers.

use super::lathe::{Lathe, NoLathe};
use super::row;
use crate::dividing::{DividingError, Head, Kit, MOST_DIVISIONS, ways};
use crate::exact::{Ratio, RatioError, gcd};
use crate::gearing::more::{Added, Group, More, Progress, Question, Search, Wish};
use crate::gearing::{Drawer, Mounting};
use crate::threads::Designation;
use alloc::string::ToString;
use alloc::vec::Vec;

/// When a thread counts as served.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Allowed {
    /// None where only its very lead will do. Else how much of a lead may be off, as a part of it, where the
    /// thread has no class; one that has must keep within its usual class.
    pub otherwise: Option<Ratio>,
    /// The nut's length in mm that a class is judged over; each thread's diameter where it isn't given.
    pub engaged: Option<Ratio>,
}

/// What is wanted of a shop.
#[derive(Clone, Debug, Default)]
pub struct Wants {
    /// Threads.
    pub threads: Vec<Designation>,
    /// Numbers of divisions, on the dividing head with its gears.
    pub divisions: Vec<u32>,
}

/// A search for the gears that serve the most of what is wanted in a shop. Threads come first in
/// what it says, then divisions.
#[derive(Clone, Debug)]
pub struct Advice {
    search: Search,
    /// The things wanted that each wish stands for.
    wishes: Vec<Vec<usize>>,
    /// Things that are served already, in ways that no gear has part in.
    plainly: Vec<bool>,
}

impl Advice {
    /// A search: so many gears of these sizes, added to the lathe's and the head's. The lathe may
    /// be none where no thread is wanted, the kit where no division is.
    ///
    /// # Errors
    ///
    /// [`NoLathe`]: what [`Search::new`] refuses, and what the kit or a number of divisions has against it.
    pub fn new(
        lathe: Option<&Lathe>,
        kit: Option<&Kit>,
        wants: &Wants,
        allowed: Allowed,
        sizes: &[u16],
        add: u8,
    ) -> Result<Advice, NoLathe> {
        let mut groups = Vec::new();
        let mut wishes: Vec<Vec<usize>> = Vec::new();
        let mut plainly = alloc::vec![false; wants.threads.len()];
        if let Some(lathe) = lathe.filter(|_| !wants.threads.is_empty()) {
            let mut group = Group {
                drawer: lathe.drawer.clone(),
                pairs_max: lathe.pairs_max,
                mounting: lathe.mounting,
                wishes: Vec::new(),
            };
            for (place, thread) in wants.threads.iter().enumerate() {
                let wish = of_thread(lathe, thread, allowed).map_err(because)?;
                // Threads of one lead, and as near, are one wish.
                match group
                    .wishes
                    .iter_mut()
                    .zip(&mut wishes)
                    .find(|(held, _)| (&held.ratios, held.within) == (&wish.ratios, wish.within))
                {
                    Some((held, places)) => {
                        held.weight = held.weight.saturating_add(1);
                        places.push(place);
                    }
                    None => {
                        group.wishes.push(wish);
                        wishes.push(Vec::from([place]));
                    }
                }
            }
            groups.push(group);
        }
        if let Some(kit) = kit.filter(|_| !wants.divisions.is_empty()) {
            let head = kit.head.as_ref();
            let head = head.ok_or_else(|| because(DividingError::NothingOwned))?;
            let mut group = of_head(head).map_err(NoLathe::from)?;
            for (at, &into) in wants.divisions.iter().enumerate() {
                let possible = possible(into, kit).map_err(because)?;
                plainly.push(possible);
                if !possible {
                    let ratios = ratios(into, head, sizes)?;
                    group.wishes.push(Wish { ratios, within: None, weight: 1 });
                    wishes.push(Vec::from([wants.threads.len().saturating_add(at)]));
                }
            }
            groups.push(group);
        } else {
            plainly.resize(plainly.len().saturating_add(wants.divisions.len()), false);
        }
        let search = Search::new(&Question { groups, sizes: sizes.to_vec(), add })?;
        Ok(Advice { search, wishes, plainly })
    }

    /// Goes on for so many looks, each a good ten nanoseconds, or a little longer.
    pub fn step(&mut self, budget: u64) -> Progress {
        self.search.step(budget)
    }

    /// What came of it, at most so many of the best sets listed; places are those of the things
    /// wanted, threads first.
    #[must_use]
    pub fn found(&self, listed: usize) -> More {
        let found = self.search.found(listed);
        let things = |wishes: &[usize]| {
            let mut served = alloc::vec![false; self.plainly.len()];
            for place in wishes.iter().filter_map(|wish| self.wishes.get(*wish)).flatten() {
                if let Some(served) = served.get_mut(*place) {
                    *served = true;
                }
            }
            let places = served.iter().enumerate().filter(|(_, served)| **served);
            places.map(|(place, _)| place).collect::<Vec<usize>>()
        };
        let before = found.served.iter().enumerate().filter(|(_, served)| **served);
        let mut served = self.plainly.clone();
        for place in things(&before.map(|(wish, _)| wish).collect::<Vec<_>>()) {
            if let Some(served) = served.get_mut(place) {
                *served = true;
            }
        }
        More {
            best: found
                .best
                .iter()
                .map(|added| Added {
                    gears: added.gears.clone(),
                    gained: things(&added.gained),
                    alone: added.alone.iter().map(|alone| things(alone)).collect(),
                })
                .collect(),
            of: served.len() as u32,
            before: served.iter().filter(|served| **served).count() as u32,
            served,
            ..found
        }
    }

    /// How many bytes it holds.
    #[must_use]
    pub fn bytes(&self) -> usize {
        self.search.bytes()
    }
}

fn because(why: impl ToString) -> NoLathe {
    NoLathe::Because(why.to_string())
}

/// A thread as a wish: without a ratio where nothing will do.
fn of_thread(lathe: &Lathe, thread: &Designation, allowed: Allowed) -> Result<Wish, RatioError> {
    let lead = thread.lead()?;
    let within = match allowed.otherwise {
        None => None,
        Some(otherwise) => Some(row::allowed(thread, allowed.engaged)?.unwrap_or(otherwise)),
    };
    let ratios = match within.is_some() || lathe.may_be_exact(lead) {
        true => lathe.ratios(lead)?,
        false => Vec::new(),
    };
    Ok(Wish { ratios, within, weight: 1 })
}

/// The head's gears as a drawer.
fn of_head(head: &Head) -> Result<Group, crate::gearing::GearingError> {
    let gears: Vec<u32> = head.gears.iter().copied().map(u32::from).collect();
    let limits = head.centres_teeth.map(|(least, most)| (u32::from(least), u32::from(most)));
    let mounting = match (head.stud_clearance_teeth, limits) {
        (None, None) => Mounting::Free,
        (None, Some((least, most))) => Mounting::Mesh(least, most),
        (Some(k), centres_teeth) => {
            Mounting::Shop { stud_clearance_teeth: k.into(), centres_teeth }
        }
    };
    Ok(Group {
        drawer: Drawer::new(&gears)?,
        // A head that has no gears yet takes two pairs of those it is to get.
        pairs_max: if head.pairs_max == 1 { 1 } else { 2 },
        mounting,
        wishes: Vec::new(),
    })
}

/// Whether a number is possible without any gears from the head's spindle to its plate.
fn possible(into: u32, kit: &Kit) -> Result<bool, DividingError> {
    let head = kit.head.clone();
    let head = head.map(|head| Head { gears: Vec::new(), pairs_max: 0, ..head });
    match ways(into, &Kit { head, ..kit.clone() }) {
        Ok(found) => Ok(found.found.all() > 0),
        Err(DividingError::NoWay { .. }) => Ok(false),
        Err(why) => Err(why),
    }
}

/// The most moves of the crank that are looked at for a number of divisions.
const MOVES_MOST: i128 = 20_000;

/// The ratios of drivers over driven of which each makes a number of divisions by differential
/// indexing: for a move of s spaces on a circle of H the plate turns R − N·s/H for one turn of
/// the spindle, one way or the other; as far as two pairs of gears can reach.
fn ratios(into: u32, head: &Head, sizes: &[u16]) -> Result<Vec<Ratio>, NoLathe> {
    let teeth = || head.gears.iter().chain(sizes).copied();
    let (least, most) = (teeth().min().unwrap_or(1), teeth().max().unwrap_or(1));
    let end = Ratio::new(most.into(), least.max(1).into())?;
    let reach = if head.pairs_max == 1 { end } else { end.mul(end)? };
    let into = into.clamp(1, MOST_DIVISIONS);
    let turns = Ratio::from(head.worm_ratio);
    let mut ratios: Vec<Ratio> = Vec::new();
    for circle in core::iter::once(1).chain(head.circles()) {
        let parts = Ratio::new(circle.into(), into.into())?;
        let from = turns.sub(reach)?.mul(parts)?.floor().max(1);
        let to = turns.add(reach)?.mul(parts)?.floor();
        let moves = to.saturating_sub(from).saturating_add(ratios.len() as i128);
        if moves > MOVES_MOST {
            return Err(NoLathe::Because(alloc::format!(
                "gears of {least} to {most} teeth reach more than {MOVES_MOST} moves for {into} divisions: name sizes that are nearer together"
            )));
        }
        for spaces in from..=to {
            // In lowest terms a move of another circle would be the same one.
            if circle > 1 && gcd(spaces.unsigned_abs(), circle.into()) > 1 {
                let lowest = gcd(spaces.unsigned_abs(), circle.into());
                let smaller = u128::from(circle).checked_div(lowest).unwrap_or(1);
                if smaller == 1 || head.circles().iter().any(|c| u128::from(*c) == smaller) {
                    continue;
                }
            }
            let moved = Ratio::new(spaces, circle.into())?.mul(into.into())?;
            let plate = turns.sub(moved)?.abs();
            if plate.is_positive() && plate <= reach {
                ratios.push(plate);
            }
        }
    }
    Ok(ratios)
}
