//! Facts that a complete search shows, and how the list stands.

use super::{COMPUTED, THREE_PLATES, full_head, full_kit, head};
use latheside_core::dividing::{
    At, Kit, Method, back_at_nought, closing, compound, differential, half_way, plain, ways,
};

#[test]
fn every_number_to_382_and_not_383() {
    for divisions in 2..=382 {
        let found = ways(divisions, &full_kit()).unwrap();
        assert!(found.ways[0].exact && found.complete, "{divisions}");
    }
    let found = ways(383, &full_kit()).unwrap();
    assert_eq!((found.found.all(), found.complete), (0, true), "383: {COMPUTED}");
    assert!(found.ways.iter().all(|way| !way.exact));
    let kinds: Vec<Method> = found.ways.iter().map(|way| way.method()).collect();
    assert_eq!(kinds, [Method::Differential, Method::Compound, Method::Compound, Method::Plain]);
}

#[test]
fn six_settings_for_127() {
    assert_eq!(differential::one_pair(127, &full_head(40)).len(), 6, "{COMPUTED}");
}

#[test]
fn what_two_moves_cannot_make_up_to_100() {
    let head = head(40, THREE_PLATES);
    let needing = (2..=100).filter(|n| plain::exact(*n, &head).is_empty());
    let not: Vec<u32> = needing.filter(|n| compound::exact(*n, &head).is_empty()).collect();
    assert_eq!(not, [53, 59, 61, 67, 71, 73, 79, 81, 83, 89, 97], "{COMPUTED}");
}

#[test]
fn the_least_to_get_wrong_comes_first() {
    let kit = Kit { direct: vec![72, 24], half_tooth: true, ..full_kit() };
    let order = |divisions: u32| -> Vec<Method> {
        let mut order: Vec<Method> =
            ways(divisions, &kit).unwrap().ways.iter().map(|way| way.method()).collect();
        order.dedup();
        order
    };
    use Method::{Compound, Differential, Direct, DirectHalfTooth, Plain};
    assert_eq!(order(24), [Direct, Plain, Differential, Compound]);
    assert_eq!(order(16), [DirectHalfTooth, Plain, Differential, Compound]);
    assert_eq!(order(51), [Differential, Compound]);
    // Every circle and every pair of gears is listed.
    let found = ways(60, &kit).unwrap();
    let listed = |method| found.ways.iter().filter(|way| way.method() == method).count();
    assert_eq!(listed(Plain), found.found.plain as usize);
    assert!(listed(Differential) >= found.found.one_pair as usize);
}

#[test]
fn checks_half_way_and_at_the_end() {
    let twelve = ways(12, &Kit { head: Some(head(40, THREE_PLATES)), ..Kit::default() }).unwrap();
    let way = twelve.ways[0];
    let pin = |at| match at {
        At::Pin(pin) => (pin.turns, pin.hole),
        other => panic!("{other:?}"),
    };
    // 3 turns and 5 in 15: after 3 moves the pin is in hole 0, at 20 turns half the work is done.
    assert_eq!(back_at_nought(&way), Some(3));
    assert_eq!(pin(half_way(&way).unwrap().unwrap().at), (20, 0));
    assert_eq!(pin(closing(&way).unwrap().at), (40, 0));
    let odd = ways(7, &Kit { head: Some(head(40, THREE_PLATES)), ..Kit::default() }).unwrap();
    assert_eq!(half_way(&odd.ways[0]).unwrap(), None);
}

#[test]
fn each_refusal_has_its_sentence() {
    let refused = |divisions, kit: &Kit| ways(divisions, kit).unwrap_err().to_string();
    assert_eq!(refused(0, &full_kit()), "0 divisions leave nothing to do: ask for 1 or more");
    assert_eq!(
        refused(10_000, &full_kit()),
        "10000 divisions are more than the 9999 worked out here"
    );
    assert_eq!(
        refused(7, &Kit::default()),
        "there is nothing to divide with: no plate or gear for the spindle, and no head"
    );
    let with = |direct: Vec<u16>| Kit { direct, ..Kit::default() };
    assert_eq!(refused(7, &with(vec![0])), "a gear or circle with 0 teeth or holes holds nothing");
    assert_eq!(
        refused(7, &with(vec![1000])),
        "1000 teeth or holes are more than the 999 worked out here"
    );
    assert_eq!(refused(7, &with(vec![20; 300])), "300 gears are more than the 100 worked out here");
    let headed = |head| Kit { head: Some(head), ..Kit::default() };
    let none = latheside_core::dividing::Head { worm_ratio: 0, ..full_head(40) };
    assert_eq!(refused(7, &headed(none)), "a worm ratio of 0 isn't between 1 and 999");
    let many = latheside_core::dividing::Head { gears: vec![24; 101], ..full_head(40) };
    assert_eq!(refused(7, &headed(many)), "101 gears are more than the 100 worked out here");
    let pairs = latheside_core::dividing::Head { pairs_max: 3, ..full_head(40) };
    assert_eq!(refused(7, &headed(pairs)), "3 pairs of gears: a head's train is one pair or two");
    assert_eq!(
        refused(41, &headed(head(40, &[]))),
        "41 divisions need more positions than these plates and gears have"
    );
}

/// The largest kit that is taken at all still answers, and says if it was cut short.
#[test]
fn the_largest_kit_is_answered() {
    let plates = (0..20).map(|plate| (0..30).map(|at| 400 + plate * 30 + at).collect());
    let gears: Vec<u16> = (900..=999).collect();
    let largest = latheside_core::dividing::Head {
        worm_ratio: 999,
        plates: plates.collect(),
        gears,
        ..full_head(40)
    };
    let kit = Kit { direct: (800..=999).collect(), half_tooth: true, head: Some(largest) };
    kit.check().unwrap();
    for divisions in [1, 2, 997, 9_973, 9_999] {
        let found = ways(divisions, &kit).unwrap();
        assert!(found.ways.len() <= 2_300 && !found.ways.is_empty(), "{}", found.ways.len());
        let last = found.ways.last().unwrap();
        assert!(closing(last).is_ok() && last.worst_share() < 1.0);
    }
    assert!(ways(127, &full_kit()).unwrap().complete);
}
