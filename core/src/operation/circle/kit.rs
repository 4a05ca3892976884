//! What the shop has to divide with.

use crate::dividing::{Head, Kit};
use crate::shop::{Shop, teeth};
use alloc::vec::Vec;

/// The kit of a shop; nothing in it where nothing is owned.
pub(in crate::operation) fn kit(shop: &Shop) -> Kit {
    let Some(form) = shop.dividing() else { return Kit::default() };
    let mut direct = teeth(&form.counts("direct"));
    if form.flag("any_change_gear") == Some(true) {
        direct.extend(shop.change_gears());
    }
    let head = form.record("head").and_then(|head| {
        let plates = head.list("plates").iter().map(|plate| match plate {
            crate::record::Value::List(circles) => teeth(&crate::record::counts(circles)),
            _ => Vec::new(),
        });
        let gears = teeth(&head.counts("gears"));
        let small = |key| head.count(key).and_then(|n| u16::try_from(n).ok());
        let limits = teeth(&head.counts("centres_teeth"));
        let centres = match limits.as_slice() {
            [least, most] => Some((*least, *most)),
            _ => None,
        };
        Some(Head {
            worm_ratio: head.count("worm_ratio")?,
            plates: plates.collect(),
            pairs_max: match (gears.is_empty(), head.count("pairs_max")) {
                (true, _) => 0,
                (false, Some(1)) => 1,
                (false, _) => 2,
            },
            gears,
            stud_clearance_teeth: small("stud_clearance_teeth"),
            centres_teeth: centres,
        })
    });
    Kit { direct, half_tooth: form.flag("half_tooth") == Some(true), head }
}

/// The entry that would give the shop something to divide with.
pub(in crate::operation) fn wanted(shop: &Shop) -> &'static str {
    let head = shop.dividing().and_then(|form| form.record("head"));
    if head.is_some() { "shop.dividing.head.worm_ratio" } else { "shop.dividing" }
}
