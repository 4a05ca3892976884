//! Dividing a circle beside printed tables and independent computations, a source on each row.
#![allow(clippy::type_complexity, reason = "rows of a table are tuples")]

mod angles;
mod compound;
mod differential;
mod direct;
mod errors;
mod facts;
mod plain;
mod plain_tables;
mod rack;

use latheside_core::dividing::{Head, Kit, Setting, Way, plain as plain_way};
use latheside_core::exact::Ratio;

/// The common three-plate set; its first plate as in schsm.org's article on compound indexing.
pub(crate) const THREE_PLATES: &[&[u16]] =
    &[&[15, 16, 17, 18, 19, 20], &[21, 23, 27, 29, 31, 33], &[37, 39, 41, 43, 47, 49]];

/// A two-sided plate: US Army OD1644 Milling Machine Operations, lesson 1 task 1.
pub(crate) const TWO_SIDED: &[&[u16]] =
    &[&[24, 25, 28, 30, 34, 37, 38, 39, 41, 42, 43], &[46, 47, 49, 51, 53, 54, 57, 58, 59, 62, 66]];

/// The common twelve gears for differential indexing.
pub(crate) const TWELVE_GEARS: &[u16] = &[24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100];

/// A worked-out figure that no publication is quoted for.
pub(crate) const COMPUTED: &str = "independent computation in exact fractions";

pub(crate) fn owned(plates: &[&[u16]]) -> Vec<Vec<u16>> {
    plates.iter().map(|plate| plate.to_vec()).collect()
}

pub(crate) fn head(worm_ratio: u32, plates: &[&[u16]]) -> Head {
    Head {
        worm_ratio,
        plates: owned(plates),
        gears: Vec::new(),
        pairs_max: 0,
        stud_clearance_teeth: None,
        centres_teeth: None,
    }
}

/// A 40:1 head, or another, with the three plates and the twelve gears.
pub(crate) fn full_head(worm_ratio: u32) -> Head {
    Head { gears: TWELVE_GEARS.to_vec(), pairs_max: 2, ..head(worm_ratio, THREE_PLATES) }
}

pub(crate) fn full_kit() -> Kit {
    Kit { head: Some(full_head(40)), ..Kit::default() }
}

/// "3 turns + 21/33 or …", "5 turns", or that no circle does it, as the tables say it.
pub(crate) fn plain_in_words(divisions: u32, worm_ratio: u32, plates: &[&[u16]]) -> String {
    let ways = plain_way::exact(divisions, &head(worm_ratio, plates));
    let settings: Vec<Setting> = ways.iter().map(|way: &Way| way.setting).collect();
    let rest = Ratio::of(worm_ratio.into(), divisions.into());
    settings_in_words(&settings)
        .unwrap_or_else(|| format!("IMPOSSIBLE (needs a circle divisible by {})", rest.denom()))
}

pub(crate) fn settings_in_words(settings: &[Setting]) -> Option<String> {
    let mut words = String::new();
    for (at, setting) in settings.iter().enumerate() {
        let Setting::Plain { turns, holes, circle } = setting else { panic!("{setting:?}") };
        words += &match (at, circle) {
            (_, None) => format!("{turns} turns"),
            (0, Some(circle)) => format!("{turns} turns + {holes}/{circle}"),
            (_, Some(circle)) => format!(" or {holes}/{circle}"),
        };
    }
    (!words.is_empty()).then_some(words)
}

/// Whether a figure agrees with a printed one to half of its last printed place.
pub(crate) fn agrees(found: f64, printed: &str) -> bool {
    let decimals = printed.split_once('.').map_or(0, |(_, places)| places.len());
    let half_a_place = 0.5 * 10f64.powi(-i32::try_from(decimals).unwrap());
    (found - printed.parse::<f64>().unwrap()).abs() <= half_a_place * 1.000_001
}
