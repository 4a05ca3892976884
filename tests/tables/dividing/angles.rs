//! Angles on a worm head beside manuals, handbooks and an independent computation.

use super::{COMPUTED, THREE_PLATES, agrees, full_kit, head, settings_in_words};
use latheside_core::dividing::{
    At, Head, Kit, Method, Pin, Setting, Way, misplaced, pattern, plain,
};
use latheside_core::exact::Ratio;

const ARMY: &str = "US Army OD1644 Milling Machine Operations, lesson 1 task 1, armyordnance.tpub.com/od16448/od164480033.htm";
const TREATISE: &str = "Practical Treatise on Milling and Milling Machines, p. 60";
const HANDBOOK: &str = "Machinery's Handbook 1916 ed., indexing for angles (excerpt at bookdepository.com/Machinerys-Handbook-1916)";
const PROBLEM: &str = "problem in Machinery's Handbook 1916 ed., indexing for angles; answer independent computation in exact fractions";
const ANGULAR_UNIT: &str =
    "angular indexing unit (its.foxvalleytech.com/MachShop4/AdvMilling/Isangindex.htm)";
const WORKSHEET: &str = "Dividing-head practice worksheet (scribd.com/document/628433770)";

/// Minutes of arc as a part of a turn.
fn minutes(minutes: Ratio) -> Ratio {
    minutes.div(Ratio::whole(360 * 60)).unwrap()
}

fn degrees(num: i64, den: i64) -> Ratio {
    Ratio::of(num, den).div(Ratio::whole(360)).unwrap()
}

#[test]
fn one_turn_of_the_crank() {
    #[rustfmt::skip]
    let rows = [
        // worm ratio, degrees, minutes, source
        (40, 9, 540, ARMY),
        (60, 6, 360, COMPUTED),
        (72, 5, 300, COMPUTED),
        (90, 4, 240, COMPUTED),
        (5, 72, 4320, COMPUTED),
        (36, 10, 600, COMPUTED),
        (45, 8, 480, COMPUTED),
    ];
    for (worm_ratio, in_degrees, in_minutes, source) in rows {
        let kit = Kit { head: Some(head(worm_ratio, &[])), ..Kit::default() };
        let turn = degrees(in_degrees, 1);
        assert_eq!(turn, minutes(Ratio::whole(in_minutes)));
        let found = pattern(&[turn], &kit).unwrap();
        let expected = Setting::Plain { turns: 1, holes: 0, circle: None };
        assert_eq!(found.ways[0].setting, expected, "{worm_ratio}:1: {source}");
        let arcsec = misplaced::at_work(misplaced::ARCSEC_PER_TURN, worm_ratio);
        assert_eq!(arcsec, (in_minutes * 60) as f64, "{worm_ratio}:1: {source}");
    }
}

#[test]
fn some_holes_as_an_angle() {
    #[rustfmt::skip]
    let rows = [
        // holes, circle, minutes, source
        (2, 18, Ratio::of(60, 1), TREATISE),
        (2, 27, Ratio::of(40, 1), TREATISE),
        (1, 18, Ratio::of(30, 1), TREATISE),
        (1, 15, Ratio::of(36, 1), COMPUTED),
        (1, 20, Ratio::of(27, 1), COMPUTED),
        (1, 27, Ratio::of(20, 1), COMPUTED),
        (1, 33, Ratio::of(180, 11), COMPUTED),
        (1, 49, Ratio::of(540, 49), COMPUTED),
    ];
    for (holes, circle, arc, source) in rows {
        let kit = Kit { head: Some(head(40, &[&[circle]])), ..Kit::default() };
        let found = pattern(&[minutes(arc)], &kit).unwrap();
        let expected = Setting::Plain { turns: 0, holes, circle: Some(circle) };
        assert!(found.ways[0].exact);
        assert_eq!(found.ways[0].setting, expected, "{arc} minutes: {source}");
    }
    for (circle, printed) in
        [(15, "2160"), (20, "1620"), (27, "1200"), (33, "981.81818"), (49, "661.22449")]
    {
        let found = misplaced::at_work(misplaced::arcsec(Ratio::of(1, circle)), 40);
        assert!(
            agrees(found, printed),
            "1 hole in {circle}: {found} against {printed}: {COMPUTED}"
        );
    }
}

const CIRCLES_WITH_54: &[u16] = &[54];

#[test]
fn every_angle_that_falls_in_a_hole() {
    let none = "IMPOSSIBLE";
    #[rustfmt::skip]
    let rows: [(u32, &[&[u16]], Ratio, &str, &str); 25] = [
        // worm ratio, plates, angle, settings, source
        (40, THREE_PLATES, minutes(Ratio::whole(15)), none, TREATISE),
        (40, &[&[18]], degrees(23, 2), "1 turns + 5/18", HANDBOOK),
        (40, &[&[27]], minutes(Ratio::whole(20)), "0 turns + 1/27", HANDBOOK),
        (40, &[&[27]], minutes(Ratio::whole(48 * 60 + 40)), "5 turns + 11/27", PROBLEM),
        (40, &[&[20]], minutes(Ratio::whole(54)), "0 turns + 2/20", ARMY),
        (40, THREE_PLATES, degrees(45, 1), "5 turns", ANGULAR_UNIT),
        (40, &[CIRCLES_WITH_54], degrees(19, 1), "2 turns + 6/54", ANGULAR_UNIT),
        (40, THREE_PLATES, degrees(19, 1), "2 turns + 2/18 or 3/27", ANGULAR_UNIT),
        (40, &[CIRCLES_WITH_54], minutes(Ratio::whole(8 * 60 + 50)), "0 turns + 53/54", ANGULAR_UNIT),
        (40, THREE_PLATES, minutes(Ratio::whole(8 * 60 + 50)), none, COMPUTED),
        (40, &[&[27, 36]], degrees(15, 1), "1 turns + 18/27 or 24/36", WORKSHEET),
        (40, THREE_PLATES, degrees(15, 2), "0 turns + 15/18", COMPUTED),
        (40, THREE_PLATES, degrees(75, 2), "4 turns + 3/18", COMPUTED),
        (40, THREE_PLATES, degrees(72, 1), "8 turns", COMPUTED),
        (40, THREE_PLATES, degrees(1, 6), none, COMPUTED),
        (40, THREE_PLATES, degrees(1, 3), "0 turns + 1/27", COMPUTED),
        (40, THREE_PLATES, degrees(2, 3), "0 turns + 2/27", COMPUTED),
        (60, THREE_PLATES, degrees(25, 1), "4 turns + 3/18", COMPUTED),
        (60, THREE_PLATES, degrees(1, 3), "0 turns + 1/18", COMPUTED),
        (90, THREE_PLATES, degrees(1, 1), "0 turns + 4/16 or 5/20", COMPUTED),
        (90, THREE_PLATES, degrees(7, 1), "1 turns + 12/16 or 15/20", COMPUTED),
        (90, THREE_PLATES, degrees(1, 6), none, COMPUTED),
        (5, THREE_PLATES, degrees(18, 1), "0 turns + 4/16 or 5/20", COMPUTED),
        (5, THREE_PLATES, degrees(4, 1), "0 turns + 1/18", COMPUTED),
        // And all round again.
        (40, THREE_PLATES, degrees(360, 1), "40 turns", "by hand"),
    ];
    for (worm_ratio, plates, angle, expected, source) in rows {
        let kit = Kit { head: Some(head(worm_ratio, plates)), ..Kit::default() };
        let found = pattern(&[angle], &kit).unwrap();
        let exact: Vec<Setting> = found
            .ways
            .iter()
            .filter(|way| way.exact && way.method() == Method::Plain)
            .map(|way| way.setting)
            .collect();
        let words = settings_in_words(&exact).unwrap_or_else(|| none.into());
        assert_eq!(words, expected, "{worm_ratio}:1, {angle} of a turn: {source}");
        let moved = angle.mul(Ratio::from(worm_ratio)).unwrap();
        let circles = kit.head.unwrap().circles();
        assert_eq!(plain::exact_move(moved, &circles), exact, "{source}");
    }
}

#[test]
fn a_quarter_of_a_degree_by_gears() {
    let found = pattern(&[minutes(Ratio::whole(15))], &full_kit()).unwrap();
    let best = found.ways[0];
    assert_eq!(
        (best.method(), best.exact, best.divisions),
        (Method::Differential, true, 1440),
        "0 deg 15 min by differential, 1440 divisions: {TREATISE}"
    );
    assert!(found.place(&best, 0).unwrap().unwrap().error.is_zero());
}

#[test]
fn the_nearest_circle_to_an_angle() {
    #[rustfmt::skip]
    let rows = [
        // worm ratio, angle, setting, arcsec beyond it
        (40, degrees(1345, 100), "1 turns + 24/49", "-150.61"),
        // 51.4286111 degrees is 51° 25' 43".
        (40, degrees(185_143, 3600), "5 turns + 15/21", "-0.14286"),
        (40, degrees(1, 10), "0 turns + 1/49", "301.22"),
        (60, degrees(137_508, 1000), "22 turns + 45/49", "7.9347"),
    ];
    for (worm_ratio, angle, words, printed) in rows {
        let head = head(worm_ratio, THREE_PLATES);
        let moved = angle.mul(Ratio::from(worm_ratio)).unwrap();
        let (setting, error) = plain::nearest_move(moved, &head.circles()).unwrap().unwrap();
        assert_eq!(settings_in_words(&[setting]).as_deref(), Some(words), "{angle}: {COMPUTED}");
        let arcsec = misplaced::at_work(misplaced::arcsec(error), worm_ratio);
        assert!(agrees(arcsec, printed), "{angle}: {arcsec} against {printed}: {COMPUTED}");
        // One circle a plate leaves no compound moves.
        let plates = head.circles().into_iter().map(|circle| vec![circle]).collect();
        let kit = Kit { head: Some(Head { plates, ..head }), ..Kit::default() };
        let found = pattern(&[angle], &kit).unwrap();
        assert_eq!(found.ways[0].setting, setting, "{COMPUTED}");
        let error = found.place(&found.ways[0], 0).unwrap().unwrap().error;
        assert!(agrees(misplaced::arcsec(error), printed), "{COMPUTED}");
    }
}

#[test]
fn an_irregular_pattern_names_one_circle_for_all() {
    // 17 1/2° is 1 17/18 turns and 52 1/3° is 5 22/27: no circle has both; 54 holes would.
    let angles = [degrees(0, 1), degrees(35, 2), degrees(157, 3)];
    let with_54 = Kit { head: Some(head(40, &[&[49, 54]])), ..Kit::default() };
    let found = pattern(&angles, &with_54).unwrap();
    assert_eq!(found.ways.len(), 1);
    let way: Way = found.ways[0];
    let at = |angle| match found.place(&way, angle).unwrap().unwrap().at {
        At::Pin(pin) => (pin.turns, pin.hole, pin.circle),
        other => panic!("{other:?}"),
    };
    assert_eq!([at(0), at(1), at(2)], [(0, 0, Some(54)), (1, 51, Some(54)), (5, 44, Some(54))]);
    let three = Kit { head: Some(head(40, THREE_PLATES)), ..Kit::default() };
    let nearest = pattern(&angles, &three).unwrap();
    assert!(!nearest.ways[0].exact && nearest.ways[0].worst > Ratio::ZERO);
    let outside = pattern(&[degrees(361, 1)], &three).unwrap_err();
    assert_eq!(outside.to_string(), "361 degrees isn't within one turn, from 0 to 360");
}

#[test]
fn an_angle_by_two_moves_at_once() {
    // 13.45° is 1 89/180 turns: 17 in 18 and 11 in 20 are 1 89/180.
    let kit = Kit { head: Some(head(40, THREE_PLATES)), ..Kit::default() };
    let found = pattern(&[degrees(1345, 100)], &kit).unwrap();
    let way = found.ways.iter().find(|way| way.method() == Method::Compound && way.exact).unwrap();
    let place = found.place(way, 0).unwrap().unwrap();
    assert!(place.error.is_zero());
    let At::Pins { crank, plate } = place.at else { panic!("{place:?}") };
    let part = |pin: Pin| Ratio::of(pin.hole.into(), pin.circle.unwrap().into());
    let turns = Ratio::whole(crank.turns).add(part(crank)).unwrap().add(part(plate)).unwrap();
    assert_eq!((turns, plate.turns), (Ratio::of(269, 180), 0));
}
