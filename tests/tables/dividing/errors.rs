//! What misplaced holes come to, beside an independent computation.

use super::{COMPUTED, agrees, head};
use core::f64::consts::PI;
use latheside_core::dividing::{Kit, compound, misplaced, place, ways};
use latheside_core::exact::Ratio;

#[test]
fn seconds_in_a_radian() {
    let found = misplaced::arcsec_of(Ratio::ONE, Ratio::ONE);
    assert!(agrees(found, "206264.8062"), "{COMPUTED}");
}

#[test]
fn a_hole_misplaced() {
    let at_crank = misplaced::arcsec_of(Ratio::of(1, 10), Ratio::whole(50));
    assert!(agrees(at_crank, "412.53"), "0.10 mm at 50 mm: {COMPUTED}");
    for (worm_ratio, printed) in [(40, "10.31"), (60, "6.88"), (90, "4.58"), (5, "82.51")] {
        let at_work = misplaced::at_work(at_crank, worm_ratio);
        assert!(agrees(at_work, printed), "{worm_ratio}:1: {at_work}: {COMPUTED}");
    }
}

#[test]
fn an_angle_at_a_radius() {
    #[rustfmt::skip]
    let rows = [
        // arcsec, diameter, arc in the diameter's unit
        (60, Ratio::of(508, 10), "0.00738856"),
        (60, Ratio::whole(24), "0.00349066"),
        (360, Ratio::whole(8), "0.00698132"),
        (30, Ratio::whole(6), "0.000436332"),
    ];
    for (arcsec, diameter, printed) in rows {
        let found = misplaced::at_rim(Ratio::of(arcsec, 1_296_000), diameter);
        assert!(agrees(found, printed), "{arcsec} arcsec at {diameter}: {found}: {COMPUTED}");
    }
    let line = misplaced::arcsec_of(Ratio::of(5, 1000), Ratio::whole(24));
    assert!(agrees(line, "43.0"), "a line 0.005 in wide at 24 in: {COMPUTED}");
}

#[test]
fn a_plate_off_centre() {
    #[rustfmt::skip]
    let rows = [
        // off centre and radius in hundredths of a mm, either way, peak to peak, at work 40:1
        (2, 5000, "82.5", "165.0", "2.06"),
        (5, 4000, "257.8", "515.7", "6.45"),
        (1, 2500, "82.5", "165.0", "2.06"),
    ];
    for (off, radius, either_way, peak_to_peak, at_work) in rows {
        let found = misplaced::arcsec_of(Ratio::of(off, 100), Ratio::of(radius, 100));
        assert!(agrees(found, either_way), "{found}: {COMPUTED}");
        assert!(agrees(2.0 * found, peak_to_peak), "{found}: {COMPUTED}");
        assert!(agrees(misplaced::at_work(found, 40), at_work), "{found}: {COMPUTED}");
    }
}

/// A copy made through a worm has the plate's error over the ratio, time after time.
#[test]
fn a_plate_from_a_rough_one() {
    #[rustfmt::skip]
    let rows: [(f64, u32, [&str; 3]); 3] = [
        (600.0, 40, ["15", "0.375", "0.009375"]),
        (600.0, 60, ["10", "0.1667", "0.002778"]),
        (1800.0, 90, ["20", "0.2222", "0.002469"]),
    ];
    for (rough, worm_ratio, generations) in rows {
        let mut error = rough;
        for printed in generations {
            error = misplaced::at_work(error, worm_ratio);
            assert!(
                agrees(error, printed),
                "{worm_ratio}:1: {error} against {printed}: {COMPUTED}"
            );
        }
    }
    // A plate on the spindle has no worm after it: nothing is taken off.
    assert_eq!(misplaced::at_work(600.0, 1), 600.0, "not reduced without a ratio: {COMPUTED}");
}

/// "Position error after k steps = k·e; last space differs from the others by N·e."
#[test]
fn errors_of_repeated_moves_add_up() {
    for divisions in [53, 97, 127] {
        for way in compound::nearest_ways(divisions, &head(40, super::THREE_PLATES)).unwrap() {
            let each = place(&way, 1).unwrap().error;
            for k in 0..=divisions {
                let expected = each.mul(k.into()).unwrap();
                assert_eq!(place(&way, k).unwrap().error, expected, "{divisions}: {COMPUTED}");
            }
            let last = each.mul((divisions - 1).into()).unwrap();
            assert_eq!(way.worst, last.abs(), "after N - 1 steps: {COMPUTED}");
            assert_eq!(way.closing, each.mul(divisions.into()).unwrap(), "{COMPUTED}");
        }
    }
    #[rustfmt::skip]
    let rows = [
        // arcsec a step, divisions, after N - 1 steps, last gap
        (Ratio::ONE, 127, Ratio::whole(126), Ratio::whole(127)),
        (Ratio::of(1, 2), 97, Ratio::whole(48), Ratio::of(97, 2)),
    ];
    for (each, divisions, last, gap) in rows {
        assert_eq!(each.mul(Ratio::whole(divisions - 1)), Ok(last), "{COMPUTED}");
        assert_eq!(each.mul(Ratio::whole(divisions)), Ok(gap), "{COMPUTED}");
    }
}

/// The nearest hole for each division by itself: nothing adds up, and the circle closes.
#[test]
fn errors_of_single_places_do_not_add_up() {
    let kit = Kit { head: Some(head(40, &[&[49]])), ..Kit::default() };
    let found = ways(127, &kit).unwrap();
    let way = found.ways[0];
    let half_a_hole = 1_296_000.0 / (2.0 * 40.0 * 49.0);
    assert!(way.worst_arcsec() <= half_a_hole);
    assert!(way.closing.is_zero());
    let share = way.worst_arcsec() / (1_296_000.0 / 127.0);
    assert!((way.worst_share() - share).abs() < 1e-12);
    for k in 0..=127 {
        assert!(place(&way, k).unwrap().error.abs() <= way.worst);
    }
}

#[test]
fn the_scale_of_things() {
    const BLOCKS: &str =
        "Modern Machine-Shop Practice, originating a dividing wheel (bitlit.ru copy p. 694)";
    let kit = Kit { direct: vec![180], ..Kit::default() };
    let block = ways(180, &kit).unwrap().ways[0];
    assert!(block.exact);
    assert_eq!(
        misplaced::arcsec(Ratio::of(1, 180)),
        2.0 * 3600.0,
        "180 blocks of 2 degrees: {BLOCKS}"
    );
    const PROTRACTOR: &str = "MIL-P-288B protractor specification, 3.6.1.1, 3.7.1.1 (pp. 7, 9)";
    // Within 6 minutes in all: the nearest hole of 49 on a 40:1 head keeps to it, of 15 it doesn't.
    let within = |circle: u16| {
        let kit = Kit { head: Some(head(40, &[&[circle]])), ..Kit::default() };
        ways(127, &kit).unwrap().ways[0].worst_arcsec() <= 6.0 * 60.0
    };
    assert!(within(49) && !within(15), "{PROTRACTOR}");
    let rim = misplaced::at_rim(Ratio::ONE, Ratio::whole(1));
    assert!((rim - PI).abs() < 1e-12);
}
