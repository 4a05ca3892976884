//! A single pair across a banjo: it needs an idler, and that may be a new gear too.

use super::super::rule::Rule;
use super::super::{Drawer, Pair};
use super::log::Logs;
use super::wish::Aim;
use alloc::vec::Vec;

/// Calls with the new gears that each single pair takes which will do, its idler among them; with
/// none where the drawer has them all.
///
/// `sizes` are those that may be added.
pub(super) fn each(
    drawer: &Drawer,
    sizes: &[u16],
    rule: &Rule,
    logs: &Logs,
    aims: &[Aim],
    mut call: impl FnMut(&[u16]),
) {
    let mut all: Vec<u16> = drawer.teeth().to_vec();
    all.extend(sizes.iter().filter(|teeth| drawer.owned(**teeth) == 0));
    for &driver in &all {
        for &driven in &all {
            let log = logs.of(driver).wrapping_sub(logs.of(driven));
            let met = |aim: &Aim| {
                aim.low <= log && log <= aim.high && aim.met(driver.into(), driven.into())
            };
            if !aims.iter().any(met) {
                continue;
            }
            let pair = Pair { driver, driven };
            for &idler in all.iter().filter(|idler| rule.reaches(pair, **idler)) {
                let used = [driver, driven, idler];
                let lacking = |at: &usize| {
                    let teeth = used.get(*at).copied().unwrap_or(0);
                    let before = used.iter().take(*at).filter(|&&other| other == teeth).count();
                    before >= usize::from(drawer.owned(teeth))
                };
                let mut new = [0; 3];
                let mut count = 0_usize;
                for at in (0..3).filter(lacking) {
                    if let (Some(slot), Some(&teeth)) = (new.get_mut(count), used.get(at)) {
                        *slot = teeth;
                    }
                    count = count.saturating_add(1);
                }
                let new = new.get(..count).unwrap_or(&new);
                if new.iter().all(|teeth| sizes.binary_search(teeth).is_ok()) {
                    call(new);
                }
            }
        }
    }
}
