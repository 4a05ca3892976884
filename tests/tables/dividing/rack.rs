//! Moving a table a rack's pitch at a time with a plate on its screw.

use super::{COMPUTED, THREE_PLATES, agrees, head, settings_in_words};
use latheside_core::dividing::plain;
use latheside_core::exact::Ratio;

/// π to within one part in 10^16.
fn pi() -> Ratio {
    Ratio::of(245_850_922, 78_256_779)
}

#[test]
fn a_rack_by_module() {
    for (module, screw, pitch, turns) in [
        (Ratio::of(1, 2), Ratio::whole(5), "1.570796", "0.3141593"),
        (Ratio::of(3, 2), Ratio::whole(6), "4.712389", "0.7853982"),
    ] {
        let found = pi().mul(module).unwrap();
        assert!(agrees(found.to_f64(), pitch), "module {module}: {COMPUTED}");
        let crank = found.div(screw).unwrap();
        assert!(agrees(crank.to_f64(), turns), "module {module}: {COMPUTED}");
    }
}

#[test]
fn a_rack_by_diametral_pitch() {
    #[rustfmt::skip]
    let rows = [
        // diametral pitch, threads an inch, pitch, turns, setting, in too much per tooth
        (10, 4, "0.3141593", "1.2566371", "1 turns + 10/39", "-0.0000567"),
        (16, 4, "0.1963495", "0.7853982", "0 turns + 29/37", "-0.0004036"),
        (24, 10, "0.1308997", "1.3089969", "1 turns + 12/39", "-0.0001305"),
        (32, 10, "0.0981748", "0.9817477", "0 turns + 48/49", "-0.0002156"),
    ];
    for (diametral_pitch, tpi, pitch, turns, words, beyond) in rows {
        let found = pi().div(Ratio::whole(diametral_pitch)).unwrap();
        assert!(agrees(found.to_f64(), pitch), "{diametral_pitch} DP: {COMPUTED}");
        let crank = found.mul(Ratio::whole(tpi)).unwrap();
        assert!(agrees(crank.to_f64(), turns), "{diametral_pitch} DP: {COMPUTED}");
        let circles = head(1, THREE_PLATES).circles();
        let (setting, error) = plain::nearest_move(crank, &circles).unwrap().unwrap();
        assert_eq!(settings_in_words(&[setting]).as_deref(), Some(words), "{COMPUTED}");
        let per_tooth = error.div(Ratio::whole(tpi)).unwrap().to_f64();
        assert!(agrees(per_tooth, beyond), "{diametral_pitch} DP: {per_tooth}: {COMPUTED}");
    }
}

#[test]
fn a_straight_scale_by_the_screw() {
    for (pitch, tpi, holes, circle) in
        [(Ratio::of(1, 8), 4, 1, 2), (Ratio::of(1, 10), 4, 2, 5), (Ratio::of(1, 16), 5, 5, 16)]
    {
        let crank = pitch.mul(Ratio::whole(tpi)).unwrap();
        let found = settings_in_words(&plain::exact_move(crank, &[circle]));
        assert_eq!(found, Some(format!("0 turns + {holes}/{circle}")), "{pitch} in: {COMPUTED}");
    }
}
