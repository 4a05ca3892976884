//! Threads beside the printed tables: measuring over wires.

use latheside_core::exact::Ratio;
use latheside_core::threads::{
    Designation, Lead, Profile, lead_correction, over_one_wire, over_wires, parse,
    pitch_diameter_from, wires,
};

fn read(name: &str) -> (Designation, Profile, f64) {
    let thread = parse(name).unwrap_or_else(|why| panic!("{name}: {why}"));
    let profile = Profile::of(&thread).unwrap().unwrap();
    let pitch_diameter = profile.pitch_diameter(thread.diameter.unwrap()).unwrap().to_f64();
    (thread, profile, pitch_diameter)
}

const NO_LEAD: Lead = Lead::of_mm(Ratio::ZERO);
const BY_GEOMETRY: &str = "w = P/(2 cos a), M = E + w (1 + cosec a) - P/2 cot a";

#[track_caller]
fn near(found: f64, printed: f64, within: f64, name: &str, source: &str) {
    assert!((found - printed).abs() <= within + 1e-9, "{name}: {found}, not {printed} ({source})");
}

/// M, in the unit of `inch` (25.4 or 1), over wires of this size in that unit.
fn m(name: &str, wire: f64, unit: f64, with_lead: bool) -> f64 {
    let (thread, profile, e) = read(name);
    let lead = if with_lead { thread.lead().unwrap() } else { NO_LEAD };
    over_wires(&profile, lead, e, wire * unit) / unit
}

#[test]
fn coefficients_of_every_form() {
    #[rustfmt::skip]
    let rows = [
        // thread, best / P, coefficient of the wire, of the pitch
        ("M10", 0.577_350, 3.0, 0.866_025), ("1/4 BSW", f64::NAN, 3.165_68, f64::NAN),
        ("0 BA", 0.546_262, 3.482_95, 1.136_336), ("Tr20x4", f64::NAN, 4.863_70, 1.866_025),
        ("1-5 Acme", f64::NAN, 4.993_93, 1.933_357),
    ];
    for (name, best, per_wire, per_pitch) in rows {
        let (_, profile, e) = read(name);
        let pitch = profile.pitch.to_f64();
        if best.is_finite() {
            near(wires(&profile).best / pitch, best, 2e-6, name, BY_GEOMETRY);
        }
        let step = over_wires(&profile, NO_LEAD, e, 2.0) - over_wires(&profile, NO_LEAD, e, 1.0);
        near(step, per_wire, 1e-5, name, BY_GEOMETRY);
        if per_pitch.is_finite() {
            let rest = e + per_wire - over_wires(&profile, NO_LEAD, e, 1.0);
            near(rest / pitch, per_pitch, 1e-5, name, BY_GEOMETRY);
        }
        // A change of pitch diameter shows as itself.
        let more =
            over_wires(&profile, NO_LEAD, e + 0.1, 1.0) - over_wires(&profile, NO_LEAD, e, 1.0);
        near(more, 0.1, 1e-9, name, "any wire, no lead angle: 1");
    }
}

#[test]
fn best_wires() {
    for (tpi, printed) in [(8, 0.07217), (10, 0.05774), (16, 0.03608), (24, 0.02406), (28, 0.02062)]
    {
        let (_, profile, _) = read(&format!("1-{tpi} UNS"));
        near(wires(&profile).best / 25.4, printed, 1e-5, "best wire", BY_GEOMETRY);
    }
    let (_, profile, _) = read("1-8 UNC");
    near(wires(&profile).best / 25.4, 0.072, 0.0005, "8 tpi", "Army OD1645 para (4)");
    #[rustfmt::skip]
    let metric = [
        ("M3", 0.2887), ("M4", 0.4041), ("M6", 0.5774), ("M8", 0.7217), ("M10", 0.8660), ("M12", 1.0104),
        ("M16", 1.1547), ("M20", 1.4434), ("M24", 1.7321),
    ];
    for (name, printed) in metric {
        near(wires(&read(name).1).best, printed, 0.0001, name, BY_GEOMETRY);
    }
    // The usable range of 60 degrees: level with the crest, and touching at the crest's edge.
    let (_, profile, _) = read("M6");
    let found = wires(&profile);
    near(found.least, 0.505_182, 1e-6, "M6", "Handbook H28 / ASME B1.2, from memory");
    near(found.greatest, 1.010_363, 1e-6, "M6", "Handbook H28 / ASME B1.2, from memory");
    assert!(found.fits(found.best) && !found.fits(0.5) && !found.fits(1.02));
}

#[test]
fn sizes_over_wires() {
    let jones = "Jones, Turning and Boring (1914) p. 163";
    near(m("1 1/2-6 UNC", 0.140, 25.4, false), 1.6674, 0.0001, "1 1/2-6", jones);
    near(
        m("7/16-14 UNC", 0.045, 25.4, false),
        0.464,
        0.0005,
        "7/16-14",
        "D + 3W - 1.5155/N, a printed sheet",
    );
    near(
        m("1/2-12 UNS", 0.04811, 25.4, false),
        0.5180,
        0.0001,
        "1/2-12",
        "Army OD1645, inputs of its example",
    );
    for (name, wire, printed) in
        [("M6", 0.5774, 6.2165), ("M10", 0.8660, 10.3248), ("M12", 1.0104, 12.3789)]
    {
        near(m(name, wire, 1.0, false), printed, 0.0005, name, BY_GEOMETRY);
    }
    near(
        m("M10", 1.0, 1.0, false),
        10.7267,
        0.0005,
        "M10, another wire",
        "9.0257 + 3.000 - 1.2990",
    );
    for (name, wire, printed) in
        [("1/4 BSW", 0.02818, 0.2592), ("1/2 BSW", 0.04697, 0.5153), ("1 BSW", 0.07046, 1.0230)]
    {
        near(m(name, wire, 25.4, false), printed, 0.0001, name, jones);
    }
    for (name, wire, printed) in [("1-5 Acme", 0.10329, 1.0292), ("1/2-10 Acme", 0.05165, 0.5146)] {
        near(m(name, wire, 25.4, false), printed, 0.0001, name, "E + 4.99393 w - 1.933357 P");
    }
    near(
        m("Tr20x4", 2.0706, 1.0, false),
        20.6065,
        0.001,
        "Tr 20 x 4",
        "E + 4.863703 w - 1.866025 P",
    );
    near(m("0 BA", 0.5463, 1.0, false), 6.1663, 0.001, "0 BA", BY_GEOMETRY);
    // From the outside diameter: D + 3w - 1.5155 P and D + 3.1657w - 1.6008 P.
    let (_, profile, _) = read("1-8 UNC");
    let e = profile.pitch_diameter(Ratio::of(127, 5)).unwrap().to_f64();
    let found = over_wires(&profile, NO_LEAD, e, 2.0) - 25.4 - 6.0;
    near(found / profile.pitch.to_f64(), -1.5155, 1e-4, "60 degrees", jones);
    let (_, profile, e) = read("1 BSW");
    let found = over_wires(&profile, NO_LEAD, e, 2.0) - 25.4 - 2.0 * 3.1657;
    near(found / profile.pitch.to_f64(), -1.6008, 1e-4, "Whitworth", jones);
}

#[test]
fn the_lead_angles_correction() {
    let h28 = "Handbook H28, w S² cos a cot a / 2, from memory";
    for (name, wire, printed) in [
        ("M6", 0.5774, 6.2180),
        ("M10", 0.8660, 10.3266),
        ("M12", 1.0104, 12.3809),
        ("M16", 1.1547, 16.4346),
    ] {
        near(m(name, wire, 1.0, true), printed, 0.0005, name, h28);
    }
    for (name, wire, printed) in [
        ("1-5 Acme", 0.10329, 1.0301),
        ("1/2-10 Acme", 0.05165, 0.5151),
        ("1-5 Acme 2 start", 0.10329, 1.0330),
    ] {
        near(m(name, wire, 25.4, true), printed, 0.0002, name, h28);
    }
    near(m("Tr20x4", 2.0706, 1.0, true), 20.6251, 0.002, "Tr 20 x 4", h28);
    // Under a micrometre it is left out.
    let (thread, profile, e) = read("M30x1");
    assert_eq!(lead_correction(&profile, thread.lead().unwrap(), e, 0.5774), 0.0);
    let (thread, profile, e) = read("M10");
    assert!(lead_correction(&profile, thread.lead().unwrap(), e, 0.866) > 0.001);
}

#[test]
fn there_and_back_and_with_one_wire() {
    for name in ["M3", "M10", "1/4 BSW", "2 BA", "Tr20x4", "1-5 Acme 2 start"] {
        let (thread, profile, e) = read(name);
        let lead = thread.lead().unwrap();
        let wire = wires(&profile).best;
        let over = over_wires(&profile, lead, e, wire);
        near(pitch_diameter_from(&profile, lead, over, wire), e, 2e-5, name, "the inverse");
        // Two wires on one side see the same from both sides: one wire is half way to the crest.
        let outside = thread.diameter.unwrap().to_f64();
        let one = over_one_wire(&profile, lead, e, wire, outside);
        near(2.0 * one - outside, over, 1e-9, name, "M = 2 m - d");
    }
}
