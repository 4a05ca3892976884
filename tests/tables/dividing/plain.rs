//! Plain indexing beside manuals, worksheets and an independent computation.

use super::{COMPUTED, THREE_PLATES, TWO_SIDED, head, plain_in_words, settings_in_words};
use latheside_core::dividing::{Setting, plain, sector_arms};

const ARMY: &str = "US Army OD1644 Milling Machine Operations, lesson 1 task 1, armyordnance.tpub.com/od16448/od164480030.htm";
const NAVY: &str =
    "US Navy NAVEDTRA 12204-A errata 1 (18 Apr 2000), item p. 7-12 (docslib.org/doc/1064144)";
const COLNET: &str = "colnet.ddns.net simple-indexing page";
const WORKSHEET: &str = "Dividing-head practice worksheet (scribd.com/document/628433770)";
const ANSWERED: &str = "problem read in Dividing-head practice worksheet (scribd.com/document/628433770); answer independent computation in exact fractions";
const TREATISE: &str = "Practical Treatise on Milling and Milling Machines, p. 58";

#[rustfmt::skip]
const ROWS: &[(u32, u32, &[u16], &str, &str)] = &[
    // worm ratio, divisions, circles, settings, source
    (40, 42, &[21, 42], "0 turns + 20/21 or 40/42", ARMY),
    (40, 8, &[15], "5 turns", NAVY),
    (40, 7, &[7], "5 turns + 5/7", COLNET),
    (40, 15, &[27, 36], "2 turns + 18/27 or 24/36", WORKSHEET),
    (40, 26, &[44, 45, 47, 49, 52], "1 turns + 28/52", ANSWERED),
    (40, 112, &[12, 14, 16, 18, 20], "0 turns + 5/14", ANSWERED),
    (40, 60, &[15, 18, 20, 23, 24], "0 turns + 10/15 or 12/18 or 16/24", ANSWERED),
    (40, 100, &[18, 20, 22, 25, 27], "0 turns + 8/20 or 10/25", ANSWERED),
    (60, 90, &[30, 32, 34, 35, 39], "0 turns + 20/30 or 26/39", ANSWERED),
    (72, 78, &[21, 23, 25, 26, 27], "0 turns + 24/26", ANSWERED),
    (72, 19, &[19, 20, 21, 23, 25], "3 turns + 15/19", ANSWERED),
    (90, 27, &[20, 21, 23, 25, 27], "3 turns + 7/21 or 9/27", ANSWERED),
    (90, 40, &[16, 18, 19, 21, 24], "2 turns + 4/16 or 6/24", ANSWERED),
    (90, 44, &[22, 24, 26, 28, 30], "2 turns + 1/22", ANSWERED),
    // The divisions that a dial has.
    (40, 40, THREE, "1 turns", COMPUTED),
    (40, 50, THREE, "0 turns + 12/15 or 16/20", COMPUTED),
    (40, 60, THREE, "0 turns + 10/15 or 12/18 or 14/21 or 18/27 or 22/33 or 26/39", COMPUTED),
    (40, 75, THREE, "0 turns + 8/15", COMPUTED),
    (40, 80, THREE, "0 turns + 8/16 or 9/18 or 10/20", COMPUTED),
    (40, 120, THREE, "0 turns + 5/15 or 6/18 or 7/21 or 9/27 or 11/33 or 13/39", COMPUTED),
    (40, 125, THREE, "IMPOSSIBLE (needs a circle divisible by 25)", COMPUTED),
    (40, 127, THREE, "IMPOSSIBLE (needs a circle divisible by 127)", COMPUTED),
    (40, 150, THREE, "0 turns + 4/15", COMPUTED),
    (40, 200, THREE, "0 turns + 3/15 or 4/20", COMPUTED),
    (40, 250, THREE, "IMPOSSIBLE (needs a circle divisible by 25)", COMPUTED),
];

const THREE: &[u16] = &[15, 16, 17, 18, 19, 20, 21, 23, 27, 29, 31, 33, 37, 39, 41, 43, 47, 49];

#[test]
fn every_row_of_manual_and_worksheet() {
    for (worm_ratio, divisions, circles, expected, source) in ROWS {
        let found = plain_in_words(*divisions, *worm_ratio, &[circles]);
        assert_eq!(&found, expected, "{worm_ratio}:1, {divisions} divisions: {source}");
    }
}

fn impossible(worm_ratio: u32, plates: &[&[u16]], numbers: impl Iterator<Item = u32>) -> Vec<u32> {
    let head = head(worm_ratio, plates);
    numbers.filter(|divisions| plain::exact(*divisions, &head).is_empty()).collect()
}

#[test]
fn what_the_plates_cover_and_what_they_do_not() {
    let none: [u32; 0] = [];
    assert_eq!(impossible(40, THREE_PLATES, 2..=50), none, "all: {TREATISE}");
    let evens = (52..=100).step_by(2);
    assert_eq!(impossible(40, THREE_PLATES, evens), [96], "all even but 96: {TREATISE}");
    #[rustfmt::skip]
    let rows: [(u32, &[&[u16]], u32, &[u32]); 3] = [
        (40, THREE_PLATES, 100, &[51, 53, 57, 59, 61, 63, 67, 69, 71, 73, 77, 79, 81, 83, 87, 89, 91, 93, 96, 97, 99]),
        (60, THREE_PLATES, 100, &[53, 56, 59, 61, 67, 71, 73, 77, 79, 83, 88, 89, 91, 97]),
        (40, TWO_SIDED, 120, &[61, 63, 67, 69, 71, 73, 77, 79, 81, 83, 87, 89, 91, 93, 97, 99, 101, 103, 107, 109, 111, 113, 117, 119]),
    ];
    for (worm_ratio, plates, most, expected) in rows {
        let found = impossible(worm_ratio, plates, 2..=most);
        assert_eq!(found, expected, "{worm_ratio}:1 up to {most}: {COMPUTED}");
    }
    let head = head(40, THREE_PLATES);
    let largest = (2..=9_999).rev().find(|n| !plain::exact(*n, &head).is_empty());
    assert_eq!(largest, Some(1960), "1 hole in 49: {COMPUTED}");
}

#[test]
fn the_arms_take_in_one_hole_more_than_the_spaces() {
    const RULE: &str = "k spaces show k + 1 holes, the pin's own among them: Practical Treatise on Milling and Milling Machines, p. 56";
    #[rustfmt::skip]
    let rows = [
        // divisions, circle, setting, spaces, holes
        (9, 27, "4 turns + 12/27", 12, 13),
        (11, 33, "3 turns + 21/33", 21, 22),
        (13, 39, "3 turns + 3/39", 3, 4),
        (17, 17, "2 turns + 6/17", 6, 7),
        (21, 21, "1 turns + 19/21", 19, 20),
    ];
    for (divisions, circle, words, spaces, holes) in rows {
        let ways = plain::exact(divisions, &head(40, &[&[circle]]));
        let setting = ways[0].setting;
        assert_eq!(settings_in_words(&[setting]).as_deref(), Some(words), "{COMPUTED}");
        let arms = sector_arms(&setting);
        assert_eq!(
            (arms[0].spaces, arms[0].holes, arms[0].circle),
            (spaces, holes, circle),
            "{RULE}"
        );
    }
    assert!(sector_arms(&Setting::Plain { turns: 5, holes: 0, circle: None }).is_empty());
}
