//! A better order, and what to rehearse on the off-cut.

use super::super::Setup;
use super::Remark;
use super::look::remarks;
use crate::operation::Made;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// An order in which less is amiss: what had better come first is moved to just before the other.
pub(super) fn better(setup: &Setup, now: &[Remark], all: Vec<usize>) -> Option<Vec<usize>> {
    let mut places = all.clone();
    let mut left = now.to_vec();
    // Each move mends one remark; as many moves as operations are enough or it goes round in circles.
    for _ in 0..all.len().min(50) {
        let Some((first, second)) = left.iter().find_map(|remark| remark.first) else { break };
        let from = places.iter().position(|at| *at == first)?;
        let moved = places.remove(from);
        let to = places.iter().position(|at| *at == second)?;
        places.insert(to, moved);
        left = remarks(setup, &places);
    }
    (places != all && left.len() < now.len() && left.iter().all(|remark| remark.first.is_none()))
        .then_some(places)
}

/// The first operation that can't be taken back on a part with work in it already.
pub(super) fn rehearse(setup: &Setup) -> Option<(usize, String)> {
    let mut worth = 0_usize;
    for (at, operation) in setup.operations.iter().enumerate() {
        let deed = operation.deed();
        let number = at.saturating_add(1);
        let how = match deed.makes {
            Some(Made::Lines { .. }) => {
                "ten divisions and a long line on a piece of the same diameter show the depth, the lengths and which way they run"
            }
            Some(Made::Shaped) => {
                "the first two divisions on a piece of the same diameter show the depth and which way it is counted"
            }
            Some(Made::Taper { .. }) => {
                "a taper on a piece of scrap shows the angle before metal is taken off the part"
            }
            Some(Made::Thread(_)) if operation.entries.text("to").is_some() => {
                "a thread on a piece of the same bar shows how the nut goes on"
            }
            _ => {
                worth = worth.saturating_add(usize::from(deed.called.is_some()));
                continue;
            }
        };
        if worth > 0 {
            return Some((at, format!("Rehearse {number} on the off-cut: {how}.")));
        }
        worth = worth.saturating_add(1);
    }
    None
}
